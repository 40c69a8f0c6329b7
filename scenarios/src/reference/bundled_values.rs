//! Values and sources that the bundled files give for a key.

use toml_edit::{DocumentMut, Item};

use crate::bundled;

/// A bundled file's value for a key.
pub(crate) struct Stated {
    /// The file's name.
    pub file: &'static str,
    /// The value as written.
    pub value: String,
    /// Where it comes from, as the file says it: in `source`, or in the comment beside the value.
    pub source: String,
}

/// What the bundled files of a kind state under a path; nothing for kinds whose files state no numbers of
/// the world.
pub(crate) fn at(kind: &str, path: &[String]) -> Vec<Stated> {
    let folder = match kind {
        "level" => "levels",
        "rules" => "rules",
        "attack" => "attacks",
        _ => return Vec::new(),
    };
    bundled::names(folder).into_iter().filter_map(|file| stated(folder, file, path)).collect()
}

fn stated(folder: &str, file: &'static str, path: &[String]) -> Option<Stated> {
    let document: DocumentMut = bundled::find(folder, file)?.parse().ok()?;
    let mut item: &Item = document.as_item();
    for step in path {
        item = item.get(step)?;
    }
    if let (Some(value), Some(source)) = (item.get("value"), item.get("source")) {
        let value = value.as_value()?.to_string().trim().to_owned();
        return Some(Stated { file, value, source: source.as_str()?.to_owned() });
    }
    let value = item.as_value()?;
    let comment = value.decor().suffix().and_then(toml_edit::RawString::as_str).unwrap_or_default();
    let comment = comment.trim().trim_start_matches('#').trim().to_owned();
    let mut bare = value.clone();
    bare.decor_mut().clear();
    let number = bare.as_float().map(|number| number.to_string());
    Some(Stated { file, value: number.unwrap_or_else(|| bare.to_string()), source: comment })
}
