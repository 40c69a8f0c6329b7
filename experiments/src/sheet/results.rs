//! A result's folder, read back.

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};

use serde::Deserialize;

use crate::error::Error;

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
        let path = folder.join("manifest.json");
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
            Ok(made) if made.program == "zoneprobe" => Ok(Self { folder: folder.into(), made }),
            Ok(made) => Err(Error::Option(format!(
                "{} names the program \"{}\", allowed \"zoneprobe\"; {advice}",
                path.display(),
                made.program
            ))),
            Err(error) => Err(Error::Option(format!("{} cannot be read: {error}; {advice}", path.display()))),
        }
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
        fs::read_to_string(&path).map_err(|error| {
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
            Ok(header.iter().cloned().zip(record.iter().map(str::to_owned)).collect())
        };
        reader.records().map(row).collect()
    }
}

/// A cell as text; empty where there is none.
pub fn text<'r>(row: &'r Row, column: &str) -> &'r str {
    row.get(column).map_or("", String::as_str)
}

/// A cell as a number; `None` where it holds none.
pub fn number(row: &Row, column: &str) -> Option<f64> {
    text(row, column).parse().ok()
}
