//! `manifest.json`: all that is needed to make the result again and to see that it is the same.
//!
//! It holds no time stamp, thread count or folder name: the same run by the same build writes the same bytes anywhere.

use std::fs::File;
use std::io::{self, Read};
use std::path::Path;

use serde::{Deserialize, Serialize, Serializer};
use sha2::{Digest, Sha256};

use super::json::document;
use crate::kept::{Build, Input};
use crate::selection::Selection;
use crate::units::Units;

/// How a result was made: what the manifest begins with, and what those need who read a result.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Made {
    /// Always `zoneprobe`.
    pub program: String,
    /// Its version.
    pub version: String,
    /// The command that makes this result again.
    pub command: String,
    /// The question.
    pub question: String,
    /// Ranking column.
    pub rank_by: String,
    /// The baseline's name.
    pub baseline: String,
    /// Master seed.
    pub seed: u64,
    /// Possessions for each variant.
    pub possessions: u64,
    /// What lengths are told in. An older version told metres.
    #[serde(default)]
    pub units: Units,
}

/// The manifest.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Manifest {
    /// How the result was made.
    #[serde(flatten)]
    pub made: Made,
    /// The variants, in plan order.
    pub variants: Vec<Settings>,
    /// With what the program was built.
    pub build: Build,
    /// Every text that was read.
    pub inputs: Vec<Input>,
    /// Every file of the folder, this one included.
    pub files: Vec<String>,
    /// The same but for this one, which cannot hold its own.
    pub outputs: Vec<Fingerprint>,
    /// Digest of every possession played.
    pub result_digest: String,
    /// Possessions that broke down, as text; empty unless there is a bug.
    pub crashes: Vec<String>,
    /// How the variants were chosen, where it was played until sure.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub selection: Option<Selection>,
}

/// A variant and what it changes.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Settings {
    /// Its name.
    pub name: String,
    /// Dotted paths and values, as written, in the file's order.
    #[serde(serialize_with = "as_map")]
    pub settings: Vec<(String, String)>,
}

fn as_map<S: Serializer>(pairs: &[(String, String)], serializer: S) -> Result<S::Ok, S::Error> {
    serializer.collect_map(pairs.iter().map(|(path, value)| (path, value)))
}

/// A file and what it must be.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Fingerprint {
    /// Its name.
    pub name: String,
    /// SHA-256 of its bytes.
    pub sha256: String,
}

impl Fingerprint {
    /// Of a file with this name and these bytes.
    pub fn of(name: &str, bytes: &[u8]) -> Self {
        Self { name: name.into(), sha256: hex(&Sha256::digest(bytes)) }
    }

    /// Of a file of this name that lies there, whatever its size.
    ///
    /// # Errors
    /// It cannot be read.
    pub fn of_file(name: &str, path: &Path) -> io::Result<Self> {
        let (mut file, mut digest, mut part) = (File::open(path)?, Sha256::new(), vec![0; 1 << 16]);
        loop {
            match file.read(&mut part) {
                Ok(0) => break,
                Ok(count) => digest.update(&part[..count]),
                Err(error) if error.kind() == io::ErrorKind::Interrupted => {}
                Err(error) => return Err(error),
            }
        }
        Ok(Self { name: name.into(), sha256: hex(&digest.finalize()) })
    }
}

/// A digest as text.
pub(crate) fn hex(digest: &[u8]) -> String {
    digest.iter().map(|byte| format!("{byte:02x}")).collect()
}

/// A name without a way from the root, which would say more of a machine than of the input.
pub fn relative(name: &str) -> &str {
    let path = Path::new(name);
    let own = path.file_name().and_then(|own| own.to_str());
    if path.has_root() { own.unwrap_or(name) } else { name }
}

impl Manifest {
    /// Its name in the folder.
    pub const NAME: &str = "manifest.json";

    /// As a file, with a fingerprint of its own.
    pub fn bytes(&self) -> Vec<u8> {
        let text = document(&Sealed { manifest: self, manifest_sha256: "" });
        let seal = seal(&text);
        text.replace(&sealed_by(""), &sealed_by(&seal)).into_bytes()
    }

    /// Whether a text is as it was written; None where it has no fingerprint of its own, as older versions wrote it. It guards
    /// against accidents: who means to deceive makes another.
    pub fn is_as_written(text: &str) -> Option<bool> {
        #[derive(Deserialize)]
        struct Found {
            manifest_sha256: Option<String>,
        }
        let found: Found = serde_json::from_str(text).ok()?;
        let found = found.manifest_sha256?;
        Some(seal(&text.replace(&sealed_by(&found), &sealed_by(""))) == found)
    }
}

/// A manifest with its own fingerprint: of the text in which that is empty.
#[derive(Serialize)]
struct Sealed<'a> {
    #[serde(flatten)]
    manifest: &'a Manifest,
    manifest_sha256: &'a str,
}

fn seal(text: &str) -> String {
    hex(&Sha256::digest(text.as_bytes()))
}

/// The fingerprint where it stands in the text; no other key ends like this.
fn sealed_by(seal: &str) -> String {
    format!("\"manifest_sha256\": \"{seal}\"")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_fingerprint_is_the_one_that_the_standard_prints() {
        // SHA-256 of "abc" (FIPS 180-2, appendix B.1).
        let digest = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad";
        let name = "plays/a.toml";
        assert_eq!(Fingerprint::of(name, b"abc"), Fingerprint { name: name.into(), sha256: digest.into() });
        assert_eq!((relative("/home/coach/a.toml"), relative(name)), ("a.toml", name));
    }
}
