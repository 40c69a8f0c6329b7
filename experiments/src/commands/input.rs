//! The experiment that a command is given.

use std::path::{Component, Path, PathBuf, absolute};

use scenarios::{Experiment, is_hidden, path_text, shown_path};

use crate::error::Error;

/// Loads a file, or what is bundled under that name; without either the bundled question.
pub fn experiment(file: Option<&Path>) -> Result<Experiment, Error> {
    match file {
        Some(file) if !can_be_told(file) => Err(Error::Option(format!(
            "the name {} is not plain text, so the command that makes the result again could not be told; give the \
             file another name",
            shown_path(file)
        ))),
        Some(file) => scenarios::experiment(file).map_err(Error::Faults),
        None => scenarios::bundled_question().map_err(Error::Faults),
    }
}

/// Whether a name can stand in a command that a reader copies.
fn can_be_told(file: &Path) -> bool {
    file.to_str().is_some_and(|name| !name.contains(is_hidden))
}

/// A scenario's name as a file in another folder may give it.
pub fn whole_name(scenario: &Path) -> Result<String, Error> {
    if scenario.extension().is_none() {
        return Ok(path_text(scenario));
    }
    let whole =
        absolute(scenario).map_err(|error| Error::Option(format!("{}: {error}", path_text(scenario))))?;
    Ok(path_text(&whole))
}

/// A scenario's name as a file in this folder may give it, so that the two may be moved together; where there is no way from
/// one to the other, its whole name.
pub fn name_from(folder: &Path, scenario: &Path) -> Result<String, Error> {
    let whole = whole_name(scenario)?;
    if scenario.extension().is_none() {
        return Ok(whole);
    }
    let folder =
        absolute(folder).map_err(|error| Error::Option(format!("{}: {error}", path_text(folder))))?;
    Ok(way(&folder, Path::new(&whole)).map_or(whole, |way| path_text(&way)))
}

/// Settings as a file in the folder `out` may give them: those that name files of the folder `from` by the way to them.
pub fn beside(
    from: &Path,
    out: Option<&Path>,
    settings: &[(String, String)],
) -> Result<Vec<(String, String)>, Error> {
    let one = |(path, value): &(String, String)| {
        let file = value.strip_prefix('"').and_then(|value| value.strip_suffix('"'));
        let Some(file) = file.filter(|file| file.ends_with(".toml") || file.ends_with(".csv")) else {
            return Ok((path.clone(), value.clone()));
        };
        let file = from.join(file);
        let name = out.map_or_else(|| whole_name(&file), |out| name_from(out, &file))?;
        Ok((path.clone(), toml::Value::String(name).to_string()))
    };
    settings.iter().map(one).collect()
}

/// The way from a folder to a file, both whole; None where there is none that the names alone tell.
fn way(folder: &Path, file: &Path) -> Option<PathBuf> {
    let shared = folder.components().zip(file.components()).take_while(|(a, b)| a == b).count();
    let up = folder.components().skip(shared);
    let is_plain = shared > 0 && up.clone().all(|part| matches!(part, Component::Normal(_)));
    is_plain.then(|| up.map(|_| Component::ParentDir).chain(file.components().skip(shared)).collect())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_way_from_a_folder_leads_to_the_file() {
        let told =
            |folder: &str, file: &str| way(Path::new(folder), Path::new(file)).map(|way| path_text(&way));
        assert_eq!(told("/a/b/who", "/a/b/ours.toml").as_deref(), Some("../ours.toml"));
        assert_eq!(told("/a/b", "/a/b/c/ours.toml").as_deref(), Some("c/ours.toml"));
        assert_eq!(told("/x/y", "/a/ours.toml").as_deref(), Some("../../a/ours.toml"));
        assert_eq!(told("/a/../who", "/a/ours.toml"), None, "where it is hangs on a link");
    }
}
