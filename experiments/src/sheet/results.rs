//! What a sheet is made from: a result's tables and pictures, read from a folder.

use std::collections::BTreeMap;
use std::fs;
use std::io::ErrorKind;
use std::path::Path;

use serde::Deserialize;
use serde::de::DeserializeOwned;

use super::tables::{BestLine, DutyLine, PositionLine};
use crate::error::Error;
use crate::output::{FileLine, Made, Manifest, lines};
use crate::places::{AnswerLine, CallLine, PathLine};

/// The tables and pictures of a result that a sheet needs, wherever they come from.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Results {
    /// How it was made.
    pub made: Made,
    pub(super) best: Vec<BestLine>,
    /// Empty where the zone's answers were not played.
    pub(super) calls: Vec<CallLine>,
    pub(super) answers: Vec<AnswerLine>,
    pub(super) positions: Vec<PositionLine>,
    pub(super) duties: Vec<DutyLine>,
    pub(super) paths: Vec<PathLine>,
    /// SVG by file name.
    pub(super) pictures: BTreeMap<String, String>,
}

impl Results {
    /// Reads a folder that `compare` or `simulate` wrote.
    ///
    /// # Errors
    /// It is no result, or not a whole one.
    pub fn read(folder: &Path) -> Result<Self, Error> {
        let folder = Folder::open(folder)?;
        let pictures = folder.files.iter().filter(|name| name.starts_with("pictures/sheet-"));
        let pictures: Result<_, Error> =
            pictures.map(|name| Ok((name.clone(), folder.text(name)?))).collect();
        Ok(Self {
            best: folder.lines()?,
            calls: folder.maybe_lines()?,
            answers: folder.maybe_lines()?,
            positions: folder.lines()?,
            duties: folder.lines()?,
            paths: folder.lines()?,
            pictures: pictures?,
            made: folder.made,
        })
    }

    /// A picture of the sheet by its name, if it was drawn.
    pub(super) fn picture(&self, id: &str) -> Option<&str> {
        self.pictures.get(&format!("pictures/{id}.svg")).map(String::as_str)
    }
}

/// What is read of a manifest.
#[derive(Deserialize)]
struct Listed {
    #[serde(flatten)]
    made: Made,
    files: Vec<String>,
}

/// An opened folder.
struct Folder<'a> {
    path: &'a Path,
    made: Made,
    files: Vec<String>,
}

impl<'a> Folder<'a> {
    fn open(folder: &'a Path) -> Result<Self, Error> {
        let shown = folder.display();
        let advice = "name a folder that `zoneprobe compare` has written";
        let path = folder.join(Manifest::FILE);
        let text = fs::read_to_string(&path).map_err(|error| {
            let problem = if !folder.exists() {
                format!("{shown} does not exist")
            } else if !folder.is_dir() {
                format!("{shown} is a file")
            } else if error.kind() == ErrorKind::NotFound {
                format!("{shown} has no {}, so it is no result", Manifest::FILE)
            } else {
                format!("cannot read {}: {error}", path.display())
            };
            Error::Option(format!("{problem}; {advice}"))
        })?;
        let listed: Result<Listed, _> = serde_json::from_str(&text);
        match listed {
            Ok(Listed { made, files }) if made.program == "zoneprobe" => {
                Ok(Self { path: folder, made, files })
            }
            Ok(Listed { made, .. }) => Err(Error::Option(format!(
                "{} names the program \"{}\", allowed \"zoneprobe\"; {advice}",
                path.display(),
                made.program
            ))),
            Err(error) => Err(Error::Option(format!("{} cannot be read: {error}; {advice}", path.display()))),
        }
    }

    fn text(&self, name: &str) -> Result<String, Error> {
        let path = self.path.join(name);
        fs::read_to_string(&path).map_err(|error| {
            let why = match error.kind() {
                ErrorKind::NotFound => "it is not there".to_owned(),
                _ => error.to_string(),
            };
            self.unusable(&format!("cannot read {}: {why}", path.display()))
        })
    }

    fn lines<L: FileLine + DeserializeOwned>(&self) -> Result<Vec<L>, Error> {
        lines(&self.text(L::FILE)?).map_err(|error| {
            self.unusable(&format!("{} cannot be read: {error}", self.path.join(L::FILE).display()))
        })
    }

    /// None of a file that this kind of result has not.
    fn maybe_lines<L: FileLine + DeserializeOwned>(&self) -> Result<Vec<L>, Error> {
        if self.files.iter().any(|file| file == L::FILE) { self.lines() } else { Ok(Vec::new()) }
    }

    fn unusable(&self, problem: &str) -> Error {
        Error::Option(format!("{problem}; make the result again with\n  {}", self.made.command))
    }
}
