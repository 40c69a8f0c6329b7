//! One Parquet file, written batch by batch, and its fingerprint.

use std::fs::{self, File};
use std::io::{self, BufWriter, ErrorKind, Write};
use std::path::{Path, PathBuf};
use std::sync::Arc;

use arrow_array::RecordBatch;
use parquet::arrow::ArrowWriter;
use parquet::basic::{Compression, Encoding};
use parquet::errors::ParquetError;
use parquet::file::metadata::KeyValue;
use parquet::file::properties::{EnabledStatistics, WriterProperties};
use parquet::schema::types::ColumnPath;
use sha2::{Digest, Sha256};

use super::tables::Table;
use super::typed::{Type, Typed};
use crate::error::Error;
use crate::output::{Fingerprint, hex};

/// With more different values than fit into so many bytes the rest of a column is written as it is. (a choice: some thousand
/// values; measured and counted quantities have more and gain nothing by a list of them)
const LIST_BYTES: usize = 64 << 10;
/// The same of the ball's ways, which are long and come again often.
const LIST_BYTES_OF_TEXT: usize = 1 << 20;

/// Takes the digest of what goes through it.
struct Digesting<W> {
    inner: W,
    digest: Sha256,
}

impl<W: Write> Write for Digesting<W> {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        let written = self.inner.write(bytes)?;
        self.digest.update(&bytes[..written]);
        Ok(written)
    }

    fn flush(&mut self) -> io::Result<()> {
        self.inner.flush()
    }
}

/// A file that is being written.
pub(super) struct Writer {
    name: String,
    path: PathBuf,
    inner: ArrowWriter<Digesting<BufWriter<File>>>,
    /// Rows after which a group of rows ends with the batch.
    group: usize,
}

impl Writer {
    /// The file of this name in a folder that is there, for a table; what is said of the whole of it goes into its metadata.
    ///
    /// # Errors
    /// It cannot be made.
    pub fn new(
        folder: &Path,
        name: String,
        table: &dyn Table,
        told: &[(&str, String)],
        group: usize,
    ) -> Result<Self, Error> {
        let path = folder.join(&name);
        let made = || {
            folders(folder, &name)?;
            let inner = BufWriter::new(File::create_new(&path)?);
            let file = Digesting { inner, digest: Sha256::new() };
            ArrowWriter::try_new(file, table.schema(), Some(properties(&table.columns(), told)))
                .map_err(cause)
        };
        match made() {
            Ok(inner) => Ok(Self { name, path, inner, group }),
            Err(source) => Err(Error::Write { path, source }),
        }
    }

    /// Adds rows. A group of rows ends with the batch with which it is large enough, so that groups depend on batches only.
    ///
    /// # Errors
    /// They cannot be written.
    pub fn add(&mut self, batch: &RecordBatch) -> Result<(), Error> {
        let added = self.inner.write(batch).and_then(|()| {
            if self.inner.in_progress_rows() < self.group { Ok(()) } else { self.inner.flush() }
        });
        added.map_err(|error| Error::Write { path: self.path.clone(), source: cause(error) })
    }

    /// Ends the file.
    ///
    /// # Errors
    /// It cannot be written.
    pub fn end(self) -> Result<Fingerprint, Error> {
        let Self { name, path, inner, .. } = self;
        let ended = inner.into_inner().map_err(cause).and_then(|mut file| {
            file.flush()?;
            Ok(file.digest)
        });
        match ended {
            Ok(digest) => Ok(Fingerprint { name, sha256: hex(&digest.finalize()) }),
            Err(source) => Err(Error::Write { path, source }),
        }
    }
}

/// Makes the folders on the way to a file, below one that is there: whoever took that away wants it gone.
fn folders(folder: &Path, name: &str) -> io::Result<()> {
    let mut inner = folder.to_path_buf();
    for part in Path::new(name).parent().into_iter().flat_map(Path::components) {
        inner.push(part);
        match fs::create_dir(&inner) {
            Err(error) if error.kind() != ErrorKind::AlreadyExists => return Err(error),
            _ => {}
        }
    }
    Ok(())
}

/// What the system said, where it was the system.
fn cause(error: ParquetError) -> io::Error {
    match error {
        ParquetError::External(inner) => match inner.downcast::<io::Error>() {
            Ok(source) => *source,
            Err(other) => io::Error::other(other),
        },
        other => io::Error::other(other),
    }
}

fn properties(columns: &[Typed], told: &[(&str, String)]) -> WriterProperties {
    let told = told.iter().map(|(key, text)| KeyValue::new((*key).to_owned(), text.clone())).collect();
    let mut properties = WriterProperties::builder()
        .set_compression(Compression::SNAPPY)
        .set_dictionary_page_size_limit(LIST_BYTES)
        .set_statistics_enabled(EnabledStatistics::Chunk)
        .set_key_value_metadata(Some(told));
    for column in columns {
        let path = ColumnPath::from(vec![column.name.clone()]);
        properties = match column.holds {
            Type::Short | Type::Real => properties.set_column_encoding(path, Encoding::BYTE_STREAM_SPLIT),
            Type::Whole => properties.set_column_encoding(path, Encoding::DELTA_BINARY_PACKED),
            Type::Text => properties.set_column_dictionary_page_size_limit(path, LIST_BYTES_OF_TEXT),
            Type::Flag | Type::Count | Type::Named => properties,
        };
    }
    properties.build()
}

/// Writes a batch of each table at once.
///
/// # Errors
/// One of them cannot be written.
pub(super) fn add_all(writers: &mut [Writer], batches: &[Arc<RecordBatch>]) -> Result<(), Error> {
    match (writers, batches) {
        ([first, others @ ..], [batch, rest @ ..]) => {
            let (one, more) = rayon::join(|| first.add(batch), || add_all(others, rest));
            one.and(more)
        }
        _ => Ok(()),
    }
}
