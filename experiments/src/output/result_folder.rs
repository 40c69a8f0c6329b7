//! The folder of a result, opened again: its manifest, its files, and whether they are as they were written.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::{fs, io};

use scenarios::{shown_lines, shown_path};
use serde::Deserialize;
use serde::de::DeserializeOwned;

use super::{FileLine, Findings, Fingerprint, Made, Manifest, lines};
use crate::error::Error;
use crate::kept::{Build, Input};

/// The experiment of a design's leading variants, in its folder.
pub(crate) const LEADING_FILE: &str = "leading.toml";

/// What is read of a manifest.
#[derive(Deserialize)]
struct Listed {
    #[serde(flatten)]
    made: Made,
    /// An older version wrote none.
    #[serde(default)]
    outputs: Vec<Fingerprint>,
    #[serde(default)]
    inputs: Vec<Input>,
    #[serde(default)]
    build: Build,
}

/// A folder that `compare` or `simulate` wrote.
#[derive(Clone, Debug)]
pub struct ResultFolder {
    path: PathBuf,
    /// How it was made.
    pub made: Made,
    /// The files beside the manifest, and what they must be.
    pub outputs: Vec<Fingerprint>,
    /// The texts that it was made from.
    pub inputs: Vec<Input>,
    /// With what the program was built.
    pub build: Build,
    /// The manifest, as it stands there.
    pub manifest: String,
}

impl ResultFolder {
    /// Opens a folder.
    ///
    /// # Errors
    /// It is no result, or one without fingerprints.
    pub fn open(folder: &Path) -> Result<Self, Error> {
        let shown = shown_path(folder);
        let advice = "name a folder that `zoneprobe compare` has written";
        let path = folder.join(Manifest::NAME);
        let text = text_of(&path).map_err(|error| {
            let problem = if !folder.exists() {
                format!("{shown} does not exist")
            } else if !folder.is_dir() {
                format!("{shown} is a file")
            } else if error.kind() == io::ErrorKind::NotFound {
                format!("{shown} has no {}, so it is no result", Manifest::NAME)
            } else {
                format!("cannot read {}: {error}", shown_path(&path))
            };
            Error::Option(format!("{problem}; {advice}"))
        })?;
        let shown = shown_path(&path);
        let listed: Listed = serde_json::from_str(&text)
            .map_err(|error| Error::Option(format!("{shown} cannot be read: {error}; {advice}")))?;
        let Listed { made, outputs, inputs, build } = listed;
        if made.program != "zoneprobe" {
            let named = made.program;
            let problem = format!("{shown} names the program \"{named}\", allowed \"zoneprobe\"; {advice}");
            return Err(Error::Option(problem));
        }
        if outputs.is_empty() {
            let problem = "has no fingerprints of the files beside it, as older versions wrote it";
            return Err(Error::Option(format!("{shown} {problem}; {}", again(&made))));
        }
        Ok(Self { path: folder.into(), made, outputs, inputs, build, manifest: text })
    }

    /// What of the folder is not as it was written.
    ///
    /// # Errors
    /// It cannot be read.
    pub fn findings(&self) -> Result<Findings, Error> {
        let mut findings = self.against(&self.outputs)?;
        if Manifest::is_as_written(&self.manifest) == Some(false) {
            findings.changed.push(Manifest::NAME.into());
        }
        Ok(findings)
    }

    /// What of the folder, its manifest aside, is not so.
    ///
    /// # Errors
    /// It cannot be read.
    pub fn against(&self, files: &[Fingerprint]) -> Result<Findings, Error> {
        Findings::of(&self.path, files, Manifest::NAME)
            .map_err(|error| Error::Option(format!("cannot read {}: {error}", shown_path(&self.path))))
    }

    /// Refuses a folder of which something is missing or changed.
    ///
    /// # Errors
    /// It is.
    pub fn check_whole(&self) -> Result<(), Error> {
        let findings = self.findings()?;
        let missing = findings.missing.first().map(|name| (name, "is missing"));
        let changed = findings.changed.first().map(|name| (name, CHANGED));
        let Some((name, what)) = missing.or(changed) else { return Ok(()) };
        let others = findings.missing.len() + findings.changed.len() - 1;
        let others = if others == 0 {
            String::new()
        } else {
            format!(" (and {others} more: `zoneprobe verify` names them)")
        };
        Err(self.not_whole(name, &format!("{what}{others}")))
    }

    fn not_whole(&self, name: &str, what: &str) -> Error {
        let advice = format!("put the file back, or {}", again(&self.made));
        Error::Option(format!("{} {what}; {advice}", shown_path(&self.path.join(name))))
    }

    /// Names of its files that begin like this.
    pub fn names<'a>(&'a self, beginning: &'a str) -> impl Iterator<Item = &'a str> {
        self.outputs.iter().map(|output| output.name.as_str()).filter(move |name| name.starts_with(beginning))
    }

    /// A text of the folder, as it was written; of a picture, a whole one.
    ///
    /// # Errors
    /// The folder lacks it, or it was changed, be it a moment ago.
    pub fn text(&self, name: &str) -> Result<String, Error> {
        let path = self.path.join(name);
        let read = text_of(&path).and_then(|text| {
            if name.ends_with(".svg") && (!is_whole(&text) || shown_lines(&text) != text) {
                return Err(io::Error::other("it is no whole picture"));
            }
            Ok(text)
        });
        let text = read.map_err(|error| {
            let why = match error.kind() {
                io::ErrorKind::NotFound => "it is not there".to_owned(),
                _ => error.to_string(),
            };
            self.unusable(&format!("cannot read {}: {why}", shown_path(&path)))
        })?;
        let wanted = self.outputs.iter().find(|output| output.name == name);
        if wanted.is_some_and(|wanted| *wanted != Fingerprint::of(name, text.as_bytes())) {
            return Err(self.not_whole(name, CHANGED));
        }
        Ok(text)
    }

    /// The rows of a file.
    pub(crate) fn lines<L: FileLine + DeserializeOwned>(&self) -> Result<Vec<L>, Error> {
        lines(&self.text(L::FILE)?).map_err(|error| {
            self.unusable(&format!("{} cannot be read: {error}", shown_path(&self.path.join(L::FILE))))
        })
    }

    /// A document of the folder.
    pub(crate) fn document<D: DeserializeOwned>(&self, name: &str) -> Result<D, Error> {
        serde_json::from_str(&self.text(name)?).map_err(|error| {
            self.unusable(&format!("{} cannot be read: {error}", shown_path(&self.path.join(name))))
        })
    }

    /// None of a file that this kind of result has not.
    pub(crate) fn maybe_lines<L: FileLine + DeserializeOwned>(&self) -> Result<Vec<L>, Error> {
        if self.outputs.iter().any(|output| output.name == L::FILE) { self.lines() } else { Ok(Vec::new()) }
    }

    /// The rows of a table whose columns are the measures, by their names.
    ///
    /// # Errors
    /// The folder lacks it, or it was changed.
    pub fn rows(&self, name: &str) -> Result<Vec<BTreeMap<String, String>>, Error> {
        let text = self.text(name)?;
        let rows = csv::Reader::from_reader(text.as_bytes()).into_deserialize();
        let rows: Result<Vec<BTreeMap<String, String>>, csv::Error> = rows.collect();
        rows.map_err(|error| {
            self.unusable(&format!("{} cannot be read: {error}", shown_path(&self.path.join(name))))
        })
    }

    fn unusable(&self, problem: &str) -> Error {
        Error::Option(format!("{problem}; {}", again(&self.made)))
    }
}

/// What is said of a file that is there, but another.
const CHANGED: &str = "is not as `zoneprobe compare` wrote it";

/// Most bytes of a table, a picture or a manifest that is read: far more than any that is written.
const TEXT_MOST: u64 = 64 << 20;

/// The text of a file of a result. A pipe is none: results are written as files.
fn text_of(path: &Path) -> io::Result<String> {
    if !fs::metadata(path)?.is_file() {
        return Err(io::Error::other("found something else than a file, allowed a file"));
    }
    let bytes = scenarios::read_once(path, TEXT_MOST)?.bytes;
    String::from_utf8(bytes).map_err(|_| io::Error::other("it is no text in UTF-8"))
}

/// What to do about a result that is of no use.
fn again(made: &Made) -> String {
    format!("make the result again with\n  {}", made.command)
}

/// Elements that stand in one another in a picture. Programs that draw it take their stack for each.
const DEEPEST: i32 = 32;

/// Whether all elements of an SVG are closed, and no deeper in one another than the program writes them.
fn is_whole(svg: &str) -> bool {
    let mut depth = 0;
    let mut parts = svg.split('<').skip(1);
    let is_shallow = parts.all(|part| {
        let tag = part.split('>').next().unwrap_or_default();
        depth += match tag.chars().next() {
            Some('/') => -1,
            Some('?' | '!') => 0,
            _ => i32::from(!tag.ends_with('/')),
        };
        (0..=DEEPEST).contains(&depth)
    });
    is_shallow && depth == 0 && svg.trim_end().ends_with("</svg>")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn half_a_picture_and_a_bottomless_one_are_no_pictures() {
        let of = |depth: usize| {
            format!("<svg a=\"b\">{}<g/>{}</svg>\n", "<g>".repeat(depth), "</g>".repeat(depth))
        };
        assert!(is_whole(&of(0)) && is_whole(&of(31)));
        for text in [of(32), of(1_000_000), of(3).replacen("</g>", "", 1), "<svg><g".into(), String::new()] {
            assert!(!is_whole(&text), "{}", text.get(..40).unwrap_or(&text));
        }
    }
}
