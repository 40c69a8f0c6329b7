//! A result's folder, read back.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::{fs, io};

use serde::Deserialize;

use crate::error::Error;
use crate::output::{Findings, Fingerprint, Manifest, as_named};

/// One row of a table, by column.
pub type Row = BTreeMap<String, String>;

/// What the sheet needs of `manifest.json`.
#[derive(Clone, Debug, Deserialize)]
pub struct Made {
    /// The program that made it.
    pub program: String,
    /// The command that makes the result again.
    pub command: String,
    /// The question.
    pub question: String,
    /// Ranking column.
    pub rank_by: String,
    /// The baseline's name.
    pub baseline: String,
    /// Master seed.
    pub seed: u64,
    /// Possessions of each variant.
    pub possessions: u64,
    /// Files of the folder.
    pub files: Vec<String>,
    /// What they must be; an older version wrote none.
    #[serde(default)]
    pub outputs: Vec<Fingerprint>,
}

/// A folder that `compare` wrote.
#[derive(Clone, Debug)]
pub struct Results {
    folder: PathBuf,
    /// How it was made.
    pub made: Made,
}

impl Results {
    /// Opens a folder.
    ///
    /// # Errors
    /// It is no result, or not a whole one.
    pub fn open(folder: &Path) -> Result<Self, Error> {
        let shown = folder.display();
        let advice = "name a folder that `zoneprobe compare` has written";
        let path = folder.join(Manifest::NAME);
        let text = fs::read_to_string(&path).map_err(|error| {
            let problem = if !folder.exists() {
                format!("{shown} does not exist")
            } else if !folder.is_dir() {
                format!("{shown} is a file")
            } else if error.kind() == std::io::ErrorKind::NotFound {
                format!("{shown} has no manifest.json, so it is no result")
            } else {
                format!("cannot read {}: {error}", path.display())
            };
            Error::Option(format!("{problem}; {advice}"))
        })?;
        let made: Result<Made, _> = serde_json::from_str(&text);
        match made {
            Ok(made) if made.program == "zoneprobe" && made.outputs.is_empty() => {
                Err(Error::Option(format!(
                    "{} has no fingerprints of the files beside it, as older versions wrote it; make the result again \
                     with\n  {}",
                    path.display(),
                    made.command
                )))
            }
            Ok(made) if made.program == "zoneprobe" => Ok(Self { folder: folder.into(), made }),
            Ok(made) => Err(Error::Option(format!(
                "{} names the program \"{}\", allowed \"zoneprobe\"; {advice}",
                path.display(),
                made.program
            ))),
            Err(error) => Err(Error::Option(format!("{} cannot be read: {error}; {advice}", path.display()))),
        }
    }

    /// What of the folder is not as it was written.
    ///
    /// # Errors
    /// It cannot be read.
    pub fn findings(&self) -> Result<Findings, Error> {
        Findings::of(&self.folder, &self.made.outputs, Manifest::NAME)
            .map_err(|error| Error::Option(format!("cannot read {}: {error}", self.folder.display())))
    }

    /// Refuses a folder of which something is missing or changed.
    ///
    /// # Errors
    /// It is.
    pub fn check_whole(&self) -> Result<(), Error> {
        let findings = self.findings()?;
        let missing = findings.missing.first().map(|name| (name, "is missing"));
        let changed = findings.changed.first().map(|name| (name, "is not as `zoneprobe compare` wrote it"));
        let Some((name, what)) = missing.or(changed) else { return Ok(()) };
        let others = findings.missing.len() + findings.changed.len() - 1;
        let others = if others == 0 {
            String::new()
        } else {
            format!(" (and {others} more: `zoneprobe verify` names them)")
        };
        Err(Error::Option(format!(
            "{} {what}{others}; put the file back, or make the result again with\n  {}",
            self.folder.join(name).display(),
            self.made.command
        )))
    }

    /// Whether the result has a file of this name.
    pub fn has(&self, name: &str) -> bool {
        self.made.files.iter().any(|file| file == name)
    }

    /// A text of the folder.
    ///
    /// # Errors
    /// The folder lacks it.
    pub fn text(&self, name: &str) -> Result<String, Error> {
        let path = self.folder.join(name);
        let read = fs::read_to_string(&path).and_then(|text| {
            if name.ends_with(".svg") && !is_whole(&text) {
                return Err(io::Error::other("it is no whole picture"));
            }
            Ok(text)
        });
        read.map_err(|error| {
            let why = match error.kind() {
                std::io::ErrorKind::NotFound => "it is not there".to_owned(),
                _ => error.to_string(),
            };
            Error::Option(format!(
                "cannot read {}: {why}; make the result again with\n  {}",
                path.display(),
                self.made.command
            ))
        })
    }

    /// The rows of a table.
    ///
    /// # Errors
    /// The folder lacks it, or it is no table.
    pub fn rows(&self, name: &str) -> Result<Vec<Row>, Error> {
        let text = self.text(name)?;
        let mut reader = csv::Reader::from_reader(text.as_bytes());
        let broken = |error: csv::Error| {
            Error::Option(format!("{} is no table: {error}", self.folder.join(name).display()))
        };
        let header: Vec<String> = reader.headers().map_err(broken)?.iter().map(str::to_owned).collect();
        let row = |record: Result<csv::StringRecord, csv::Error>| {
            let record = record.map_err(broken)?;
            Ok(header.iter().cloned().zip(record.iter().map(|cell| as_named(cell).to_owned())).collect())
        };
        reader.records().map(row).collect()
    }
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

/// A cell as text; empty where there is none.
pub fn text<'r>(row: &'r Row, column: &str) -> &'r str {
    row.get(column).map_or("", String::as_str)
}

/// A cell as a number; `None` where it holds none.
pub fn number(row: &Row, column: &str) -> Option<f64> {
    text(row, column).parse().ok()
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
