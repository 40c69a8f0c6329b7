//! The texts that a result was made from, as files of its folder, and back.
//!
//! They stand in `inputs/own` and `inputs/bundled`, in the folders in which they were named. Where a run's file was given by
//! a way from the root, they are named from that file's folder: the way would say more of a machine than of the input.

use std::collections::BTreeSet;
use std::path::{Component, Path};
use std::sync::Arc;

use scenarios::{Experiment, Source, is_stream};
use serde::{Deserialize, Serialize};

use crate::output::{Fingerprint, relative};

/// The folder of the texts.
const FOLDER: &str = "inputs";
/// Under what name a text is read again that came as standard input.
const STREAM: &str = "/dev/stdin";
/// What stands for a step out of a folder in the names of the files.
const UP: &str = "up";

/// A text that was read.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Input {
    /// Its name.
    pub name: String,
    /// SHA-256 of its bytes.
    pub sha256: String,
    /// The file in the folder that has it.
    #[serde(default)]
    pub file: String,
    /// Under what name other texts find it, where that is another.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    read_as: Option<String>,
    /// It came through a pipe.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    piped: bool,
}

/// The inputs of an experiment, in the order in which they were read, each with its text.
#[must_use]
pub fn inputs(experiment: &Experiment) -> Vec<(Input, Arc<Source>)> {
    let mut taken = BTreeSet::new();
    let start = experiment.inputs.first().map_or("", |source| &source.name);
    let input = |source: &Arc<Source>| {
        let place = place(source, start);
        let name = relative(&place).to_owned();
        let file = free(&file_name(source, &place), &mut taken);
        let Fingerprint { name, sha256 } = Fingerprint::of(&name, source.text.as_bytes());
        let read_as = (place != name).then_some(place);
        (Input { name, sha256, file, read_as, piped: source.streamed }, Arc::clone(source))
    };
    experiment.inputs.iter().map(input).collect()
}

/// The files of the folder that hold the texts.
#[must_use]
pub fn files(inputs: &[(Input, Arc<Source>)]) -> Vec<(String, Vec<u8>)> {
    inputs.iter().map(|(input, source)| (input.file.clone(), source.text.clone().into_bytes())).collect()
}

/// The texts again, each as it was read; `text` has that of a file.
///
/// # Errors
/// Those of `text`.
pub fn sources<E>(
    inputs: &[Input],
    mut text: impl FnMut(&str) -> Result<String, E>,
) -> Result<Vec<Arc<Source>>, E> {
    let source = |input: &Input| {
        let text = text(&input.file)?;
        let is_bundled = input.name.starts_with(BUNDLED) && input.file.starts_with(&bundled_file(""));
        Ok(Arc::new(if is_bundled {
            Source::kept_bundled(input.name.clone(), text)
        } else {
            let place = input.read_as.as_ref().unwrap_or(&input.name);
            Source::kept(Path::new(place), text, input.piped)
        }))
    };
    inputs.iter().map(source).collect()
}

/// How names of bundled files begin.
const BUNDLED: &str = "bundled:";

fn bundled_file(name: &str) -> String {
    format!("{FOLDER}/bundled/{name}")
}

/// Under what name a text is found again, wherever the folder lies.
fn place(source: &Source, start: &str) -> String {
    let path = Path::new(&source.name);
    if source.is_bundled() {
        return source.name.clone();
    }
    if is_stream(path) && source.name == start {
        return STREAM.into();
    }
    let start = Path::new(start);
    let base = start.parent().filter(|_| start.has_root() && !is_stream(start));
    let own = base.and_then(|base| path.strip_prefix(base).ok()).and_then(Path::to_str);
    own.unwrap_or(&source.name).to_owned()
}

/// The name of the file for a text: never one that leads out of the folder.
fn file_name(source: &Source, place: &str) -> String {
    if source.is_bundled() {
        return bundled_file(place.strip_prefix(BUNDLED).unwrap_or(place));
    }
    let mut parts: Vec<&str> = Vec::new();
    for part in Path::new(relative(place)).components() {
        match part {
            Component::Normal(name) => parts.push(name.to_str().unwrap_or("unnamed")),
            Component::ParentDir if parts.last().is_some_and(|last| *last != UP) => {
                parts.pop();
            }
            Component::ParentDir => parts.push(UP),
            _ => {}
        }
    }
    format!("{FOLDER}/own/{}", parts.join("/"))
}

/// The name, or the first numbered one that no other file has.
fn free(name: &str, taken: &mut BTreeSet<String>) -> String {
    let numbered = (2..).map(|number| format!("{name}-{number}"));
    let free = std::iter::once(name.to_owned()).chain(numbered).find(|name| !taken.contains(name));
    let free = free.unwrap_or_default();
    taken.insert(free.clone());
    free
}

#[cfg(test)]
mod tests {
    use super::*;

    fn of(names: &[&str]) -> Vec<(String, String, Option<String>)> {
        let mut taken = BTreeSet::new();
        let told = |name: &&str| {
            let source = match name.strip_prefix(BUNDLED) {
                Some(_) => Source::kept_bundled((*name).into(), String::new()),
                None => Source::kept(Path::new(name), String::new(), is_stream(Path::new(name))),
            };
            let place = place(&source, names[0]);
            let name = relative(&place).to_owned();
            let file = free(&file_name(&source, &place), &mut taken);
            let read_as = (place != name).then_some(place);
            (name, file, read_as)
        };
        names.iter().map(told).collect()
    }

    fn told(name: &str, file: &str, read_as: Option<&str>) -> (String, String, Option<String>) {
        (name.into(), file.into(), read_as.map(String::from))
    }

    #[test]
    fn a_way_from_the_root_is_told_nowhere_and_a_text_is_found_under_its_name() {
        let here = [
            told("q.toml", "inputs/own/q.toml", None),
            told("levels/../x.toml", "inputs/own/x.toml", None),
            told("../x.toml", "inputs/own/up/x.toml", None),
            told("bundled:zones/3-2.toml", "inputs/bundled/zones/3-2.toml", None),
        ];
        assert_eq!(of(&["q.toml", "levels/../x.toml", "../x.toml", "bundled:zones/3-2.toml"]), here);
        let there = [
            "/home/coach/q.toml",
            "/home/coach/levels/../x.toml",
            "/home/coach/../x.toml",
            "bundled:zones/3-2.toml",
        ];
        assert_eq!(of(&there), here);
        assert_eq!(
            of(&["/dev/fd/63", "/srv/x.toml", "x.toml"]),
            [
                told("stdin", "inputs/own/stdin", Some("/dev/stdin")),
                told("x.toml", "inputs/own/x.toml", Some("/srv/x.toml")),
                told("x.toml", "inputs/own/x.toml-2", None),
            ]
        );
    }
}
