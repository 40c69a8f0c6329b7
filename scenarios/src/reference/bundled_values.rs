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

/// The bundled files of a kind whose files state numbers of the world, parsed; none of any other.
pub(crate) struct Bundled(Vec<(&'static str, DocumentMut)>);

impl Bundled {
    /// Those of a kind.
    pub fn of(kind: &str) -> Bundled {
        let folder = match kind {
            "level" => "levels",
            "rules" => "rules",
            "attack" => "attacks",
            _ => return Bundled(Vec::new()),
        };
        Bundled(documents(folder))
    }

    /// What they state under a path.
    pub fn at(&self, path: &[&str]) -> Vec<Stated> {
        self.0.iter().filter_map(|(file, document)| stated(file, document, path)).collect()
    }
}

/// The names in a table of the bundled zones, each once.
pub(crate) fn names_in_zones(table: &str) -> Vec<String> {
    let mut names: Vec<String> = Vec::new();
    for (_, zone) in documents("zones") {
        let rules = zone.get(table).and_then(Item::as_table_like);
        for (name, _) in rules.iter().flat_map(|rules| rules.iter()) {
            if !names.iter().any(|known| known == name) {
                names.push(name.to_owned());
            }
        }
    }
    names
}

fn documents(folder: &str) -> Vec<(&'static str, DocumentMut)> {
    let parsed = |name| Some((name, bundled::find(folder, name)?.parse().ok()?));
    bundled::names(folder).into_iter().filter_map(parsed).collect()
}

fn stated(file: &'static str, document: &DocumentMut, path: &[&str]) -> Option<Stated> {
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
