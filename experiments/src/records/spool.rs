//! What is written aside while a run plays: a file a block of possession numbers, to which each batch of each variant is
//! added as soon as it has been played.
//!
//! A chunk is a head of fixed length (variant, first and last number, length, SHA-256) and its possessions, packed. Chunks
//! stand in the order in which workers were done with them; the numbers put them in order again. A file has its name once all
//! of its block is in it, so one that is cut off is never taken for whole.

use std::collections::BTreeMap;
use std::collections::btree_map::Entry;
use std::fs::{self, File};
use std::io::{self, BufReader, ErrorKind, Read, Seek, SeekFrom, Write};
use std::ops::Range;
use std::path::{Path, PathBuf};
use std::sync::{Mutex, MutexGuard, PoisonError};

use sha2::{Digest, Sha256};

use super::Recorded;
use crate::error::Error;
use crate::output::PARTS;

/// The folder in that of the parts.
const FOLDER: &str = "records";
/// What a file is called until it is whole, behind its name.
const UNFINISHED: &str = "unfinished";
/// Bytes of a chunk's head.
const HEAD: usize = 4 + 8 + 8 + 4 + 32;
/// Most bytes of a chunk: one that names more is damaged.
const MOST: usize = 1 << 30;

/// The files of one run.
pub struct Spool {
    folder: PathBuf,
    run: String,
    open: Mutex<BTreeMap<u64, File>>,
}

/// The file of a block in the folder of a run.
#[must_use]
pub fn path(folder: &Path, block: &Range<u64>) -> PathBuf {
    folder.join(PARTS).join(FOLDER).join(format!("{:010}-{:010}.records", block.start, block.end))
}

impl Spool {
    /// In the folder of the run with this id.
    #[must_use]
    pub fn new(folder: &Path, run: String) -> Self {
        Self { folder: folder.into(), run, open: Mutex::new(BTreeMap::new()) }
    }

    fn open(&self) -> MutexGuard<'_, BTreeMap<u64, File>> {
        // A worker that broke down held it only to write; what it wrote is judged when it is read.
        self.open.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// Adds a batch of a variant's possessions, all of one block, in order.
    ///
    /// # Errors
    /// It cannot be written.
    pub fn add(&self, block: &Range<u64>, variant: usize, rows: &[Recorded]) -> Result<(), Error> {
        let unfinished = unfinished(&self.folder, block);
        self.append(block, variant, rows).map_err(|source| Error::Write { path: unfinished, source })
    }

    fn append(&self, block: &Range<u64>, variant: usize, rows: &[Recorded]) -> io::Result<()> {
        let (Some(first), Some(last)) = (rows.first(), rows.last()) else { return Ok(()) };
        let plain = postcard::to_allocvec(rows).map_err(io::Error::other)?;
        let packed = snap::raw::Encoder::new().compress_vec(&plain).map_err(io::Error::other)?;
        let mut chunk = Vec::with_capacity(HEAD + packed.len());
        chunk.extend((variant as u32).to_le_bytes());
        chunk.extend(first.possession.to_le_bytes());
        chunk.extend((last.possession + 1).to_le_bytes());
        chunk.extend((packed.len() as u32).to_le_bytes());
        let digest = Sha256::new().chain_update(&chunk).chain_update(&packed).finalize();
        chunk.extend(digest);
        chunk.extend(packed);
        let mut open = self.open();
        let file = match open.entry(block.start) {
            Entry::Occupied(open) => open.into_mut(),
            Entry::Vacant(new) => new.insert(self.begin(block)?),
        };
        file.write_all(&chunk)
    }

    /// A new file of a block.
    fn begin(&self, block: &Range<u64>) -> io::Result<File> {
        let path = unfinished(&self.folder, block);
        // Not the folder above it: one that was taken away stays away.
        let made = fs::create_dir(path.parent().unwrap_or(&self.folder));
        made.or_else(|error| if error.kind() == ErrorKind::AlreadyExists { Ok(()) } else { Err(error) })?;
        let mut file = File::create(path)?;
        file.write_all(self.run.as_bytes())?;
        Ok(file)
    }

    /// Gives the file of a block its name, now that all of it is there.
    ///
    /// # Errors
    /// It cannot be written.
    pub fn close(&self, block: &Range<u64>) -> Result<(), Error> {
        let file = self.open().remove(&block.start);
        let path = path(&self.folder, block);
        let closed = file.map_or(Ok(()), |file| file.sync_all());
        closed
            .and_then(|()| fs::rename(unfinished(&self.folder, block), &path))
            .map_err(|source| Error::Write { path, source })
    }
}

fn unfinished(folder: &Path, block: &Range<u64>) -> PathBuf {
    path(folder, block).with_extension(UNFINISHED)
}

/// One chunk as its head has it, and where its possessions stand.
struct Chunk {
    variant: usize,
    numbers: Range<u64>,
    head: [u8; HEAD],
    at: u64,
    length: usize,
}

/// A file of a block, opened.
pub struct Spooled {
    file: BufReader<File>,
    path: PathBuf,
    chunks: Vec<Chunk>,
}

impl Spooled {
    /// Opens the file of a run's block.
    ///
    /// # Errors
    /// It cannot be read, is cut off, or is of another run.
    pub fn open(path: &Path, run: &str) -> io::Result<Self> {
        let mut file = BufReader::new(File::open(path)?);
        let mut own = vec![0; run.len()];
        file.read_exact(&mut own)?;
        if own != run.as_bytes() {
            return Err(io::Error::other("it is of another run"));
        }
        let (mut at, end) = (run.len() as u64, file.get_ref().metadata()?.len());
        let mut chunks = Vec::new();
        while at < end {
            let mut head = [0; HEAD];
            file.read_exact(&mut head)?;
            let chunk = Chunk::of(head, at + HEAD as u64);
            at = chunk.at + chunk.length as u64;
            if chunk.length > MOST || at > end {
                return Err(io::Error::other("it is cut off"));
            }
            file.seek_relative(chunk.length as i64)?;
            chunks.push(chunk);
        }
        Ok(Self { file, path: path.into(), chunks })
    }

    /// A variant's possessions, in order.
    ///
    /// # Errors
    /// They cannot be read, or are not as they were written.
    pub fn rows(&mut self, variant: usize) -> Result<Vec<Recorded>, Error> {
        let read = self.read(variant);
        read.map_err(|source| Error::Damaged { path: self.path.clone(), source })
    }

    fn read(&mut self, variant: usize) -> io::Result<Vec<Recorded>> {
        let mut own: Vec<&Chunk> = self.chunks.iter().filter(|chunk| chunk.variant == variant).collect();
        own.sort_by_key(|chunk| chunk.numbers.start);
        let mut rows = Vec::new();
        for chunk in own {
            let packed = packed(&mut self.file, chunk)?;
            let plain = snap::raw::Decoder::new().decompress_vec(&packed).map_err(io::Error::other)?;
            let more: Vec<Recorded> = postcard::from_bytes(&plain).map_err(io::Error::other)?;
            rows.extend(more);
        }
        Ok(rows)
    }

    /// Whether every byte is as it was written, and each of the variants has all possessions of the block.
    #[must_use]
    pub fn is_whole(mut self, block: &Range<u64>, variants: usize) -> bool {
        let mut numbers: Vec<(usize, u64, u64)> =
            self.chunks.iter().map(|chunk| (chunk.variant, chunk.numbers.start, chunk.numbers.end)).collect();
        numbers.sort_unstable();
        let mut next = (0, block.start);
        for (variant, start, end) in numbers {
            if (variant, start) != next || end > block.end {
                return false;
            }
            next = if end == block.end { (variant + 1, block.start) } else { (variant, end) };
        }
        next == (variants, block.start)
            && self.chunks.iter().all(|chunk| packed(&mut self.file, chunk).is_ok())
    }
}

/// The bytes of a chunk, if they are those that were written.
fn packed(file: &mut BufReader<File>, chunk: &Chunk) -> io::Result<Vec<u8>> {
    let mut packed = vec![0; chunk.length];
    file.seek(SeekFrom::Start(chunk.at))?;
    file.read_exact(&mut packed)?;
    let (head, digest) = chunk.head.split_at(HEAD - 32);
    if Sha256::new().chain_update(head).chain_update(&packed).finalize().as_slice() != digest {
        return Err(io::Error::other("it is not as it was written"));
    }
    Ok(packed)
}

impl Chunk {
    fn of(head: [u8; HEAD], at: u64) -> Self {
        let short = |from: usize| u32::from_le_bytes(head[from..from + 4].try_into().unwrap_or_default());
        let long = |from: usize| u64::from_le_bytes(head[from..from + 8].try_into().unwrap_or_default());
        Self { variant: short(0) as usize, numbers: long(4)..long(12), length: short(20) as usize, head, at }
    }
}

/// Whether the records of a block are there, whole and as they were written.
#[must_use]
pub fn is_whole(folder: &Path, run: &str, block: &Range<u64>, variants: usize) -> bool {
    Spooled::open(&path(folder, block), run).is_ok_and(|spooled| spooled.is_whole(block, variants))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn rows(numbers: Range<u64>) -> Vec<Recorded> {
        numbers
            .map(|possession| Recorded { digest: possession ^ 7, ..Recorded::broken(possession) })
            .collect()
    }

    #[test]
    fn what_was_added_in_any_order_comes_back_in_order_and_damage_is_seen() {
        let home = tempfile::tempdir().unwrap();
        fs::create_dir(home.path().join(PARTS)).unwrap();
        let spool = Spool::new(home.path(), "id".into());
        let block = 20..60;
        for (variant, numbers) in [(1, 40..60), (0, 20..41), (1, 20..40), (0, 41..60)] {
            assert!(!is_whole(home.path(), "id", &block, 2));
            spool.add(&block, variant, &rows(numbers)).unwrap();
        }
        spool.close(&block).unwrap();
        let path = path(home.path(), &block);
        assert!(is_whole(home.path(), "id", &block, 2));
        assert!(!is_whole(home.path(), "other", &block, 2) && !is_whole(home.path(), "id", &block, 3));
        for variant in [0, 1] {
            assert_eq!(Spooled::open(&path, "id").unwrap().rows(variant).unwrap(), rows(20..60));
        }
        let sound = fs::read(&path).unwrap();
        for at in (0..sound.len()).step_by(7) {
            fs::write(&path, &sound[..at]).unwrap();
            assert!(!is_whole(home.path(), "id", &block, 2), "cut off after {at} bytes");
            let mut damaged = sound.clone();
            damaged[at] ^= 1 << (at % 8);
            fs::write(&path, damaged).unwrap();
            assert!(!is_whole(home.path(), "id", &block, 2), "byte {at}");
        }
    }
}
