//! Which files hold the records of a run.

use scenarios::shown;

use super::Records;
use crate::error::Error;
use crate::wording::grouped;

/// The records of possessions.
pub const POSSESSIONS: &str = "possessions";
/// The records of events.
pub const EVENTS: &str = "events";

/// Up to so many possessions, all variants counted, stand in one file; more are divided by variant. (a choice: such a file is
/// read in a second and has some tens of megabytes with its events)
const ONE_FILE_MOST: u64 = 100_000;
/// Most bytes of a name of a file or folder. (from memory: what the usual file systems take)
const NAME_MOST: usize = 255;

/// How the records of a run are divided into files.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Layout {
    /// `possessions.parquet`: all variants in one file, the variant a column.
    OneFile,
    /// `possessions/variant=NAME/part-0.parquet`: a folder a variant, its name in that of the folder (Hive partitioning).
    ByVariant,
}

impl Layout {
    /// That of a run of so many variants, with so many possessions of each; divided where that is asked for, however few.
    #[must_use]
    pub fn of(variants: usize, possessions: u64, is_divided: bool) -> Self {
        let in_all = possessions.saturating_mul(variants as u64);
        let is_large = variants > 1 && in_all > ONE_FILE_MOST;
        if is_divided || is_large { Self::ByVariant } else { Self::OneFile }
    }

    /// Refuses variants whose folders no file system would take.
    ///
    /// # Errors
    /// The first such, with what would do.
    pub fn check<'a>(self, mut variants: impl Iterator<Item = &'a str>) -> Result<(), Error> {
        let folder = |name: &str| format!("variant={}", encoded(name)).len();
        let long = variants.find(|name| self == Self::ByVariant && folder(name) > NAME_MOST);
        long.map_or(Ok(()), |name| {
            Err(Error::Option(format!(
                "--records puts the variant {} into a folder whose name has {} bytes, allowed are {NAME_MOST}; a byte that is \
                 no plain letter, digit, -, _ or . counts three times; give a shorter name, or play at most {} possessions \
                 of all variants together without --divide-records, which stand in one file",
                shown(name),
                folder(name),
                grouped(ONE_FILE_MOST)
            )))
        })
    }

    /// The name of the file of a table that has a variant.
    #[must_use]
    pub fn file(self, table: &str, variant: &str) -> String {
        match self {
            Self::OneFile => format!("{table}.parquet"),
            Self::ByVariant => format!("{table}/variant={}/part-0.parquet", encoded(variant)),
        }
    }
}

/// The tables that are written.
#[must_use]
pub fn tables(records: Records) -> &'static [&'static str] {
    match records {
        Records::Possessions => &[POSSESSIONS],
        Records::Events => &[POSSESSIONS, EVENTS],
    }
}

/// A variant's name as a folder has it: all but plain letters, digits, `-`, `_` and `.` as %XX, as in a URL.
pub fn encoded(name: &str) -> String {
    let plain = |byte: u8| byte.is_ascii_alphanumeric() || b"-_.".contains(&byte);
    name.bytes()
        .map(|byte| if plain(byte) { char::from(byte).to_string() } else { format!("%{byte:02X}") })
        .collect()
}

/// The variant's name in the way to a file, if it is in it.
#[must_use]
pub fn decoded(file: &str) -> Option<String> {
    let name = file.split('/').find_map(|part| part.strip_prefix("variant="))?;
    let mut bytes = Vec::new();
    let mut rest = name.bytes();
    while let Some(byte) = rest.next() {
        if byte != b'%' {
            bytes.push(byte);
            continue;
        }
        let digits = [rest.next()?, rest.next()?];
        bytes.push(u8::from_str_radix(std::str::from_utf8(&digits).ok()?, 16).ok()?);
    }
    String::from_utf8(bytes).ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_name_comes_back_out_of_the_way_to_its_file() {
        for name in ["seam-cross", "seam-cross, sink_back_m = 0.6", "a/b%=ü"] {
            let file = Layout::ByVariant.file(EVENTS, name);
            assert!(file.is_ascii() && file.split('/').count() == 3, "{file}");
            assert_eq!(decoded(&file).as_deref(), Some(name));
        }
        assert_eq!(Layout::OneFile.file(EVENTS, "a"), "events.parquet");
        let (fits, long) = ("\u{fc}".repeat(41), "\u{fc}".repeat(42));
        assert!(Layout::ByVariant.check(["a", &fits].into_iter()).is_ok());
        assert!(Layout::OneFile.check([long.as_str()].into_iter()).is_ok());
        let told = Layout::ByVariant.check(["a", &long].into_iter()).unwrap_err().to_string();
        assert!(told.contains("a folder whose name has 260 bytes, allowed are 255"), "{told}");
        assert_eq!(decoded("events.parquet"), None);
        for (variants, possessions, layout) in
            [(1, 1 << 30, Layout::OneFile), (2, 50_000, Layout::OneFile), (2, 50_001, Layout::ByVariant)]
        {
            assert_eq!(Layout::of(variants, possessions, false), layout);
            assert_eq!(Layout::of(variants, possessions, true), Layout::ByVariant);
        }
    }
}
