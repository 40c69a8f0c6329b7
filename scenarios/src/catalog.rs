//! What is bundled, with one line each.

use crate::bundled;

/// A bundled file.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Entry {
    /// What it is: `zone`, `attack`, `route`, `post option`, `guard option`, `plan`, `level`, `rules`, `worth`, `scenario`
    /// or `experiment`.
    pub kind: &'static str,
    /// The name by which files refer to it.
    pub name: String,
    /// What it is, in one line.
    pub line: String,
}

/// The kinds in the catalog's order, with their folders.
pub(crate) const KINDS: [(&str, &str); 11] = [
    ("zone", "zones"),
    ("attack", "attacks"),
    ("route", "routes"),
    ("post option", "options/posts"),
    ("guard option", "options/guards"),
    ("plan", "plans"),
    ("level", "levels"),
    ("rules", "rules"),
    ("worth", "worth"),
    ("scenario", "scenarios"),
    ("experiment", "experiments"),
];

/// Everything that is bundled, by kind.
#[must_use]
pub fn catalog() -> Vec<Entry> {
    let mut entries = Vec::new();
    for (kind, folder) in KINDS {
        for name in bundled::names(folder) {
            let line = bundled::find(folder, name).map(line_of).unwrap_or_default();
            entries.push(Entry { kind, name: name.to_owned(), line });
        }
    }
    entries
}

/// The rules that bundled zones know: `post help rule` and `corner rule`, each with its line and the zones that have it.
#[must_use]
pub fn rules() -> Vec<Entry> {
    let mut found: Vec<(Entry, Vec<&str>)> = Vec::new();
    for (kind, table) in [("post help rule", "post_help"), ("corner rule", "corner")] {
        for zone in bundled::names("zones") {
            let document =
                bundled::find("zones", zone).and_then(|text| toml_edit::Document::parse(text).ok());
            let rules = document.as_ref().and_then(|document| document.as_table().get(table)?.as_table());
            for (name, rule) in rules.into_iter().flatten() {
                match found.iter_mut().find(|(own, _)| (own.kind, own.name.as_str()) == (kind, name)) {
                    Some((_, zones)) => zones.push(zone),
                    None => {
                        let line = rule.get("line").and_then(toml_edit::Item::as_str).unwrap_or_default();
                        found
                            .push((Entry { kind, name: name.to_owned(), line: line.to_owned() }, vec![zone]));
                    }
                }
            }
        }
    }
    let named = |(entry, zones): (Entry, Vec<&str>)| Entry {
        line: format!("{} ({})", entry.line, zones.join(", ")),
        ..entry
    };
    found.into_iter().map(named).collect()
}

/// The text of the bundled file of this name, to be copied and changed; the first kind of the catalog's order that
/// has the name.
#[must_use]
pub fn bundled_text(name: &str) -> Option<&'static str> {
    KINDS.iter().find_map(|(_, folder)| bundled::find(folder, name))
}

/// The `line` of a bundled file; an experiment's is its question.
fn line_of(text: &str) -> String {
    let document = toml_edit::Document::parse(text).ok();
    let item = |key: &str| {
        let table = document.as_ref()?.as_table();
        table.get(key).and_then(toml_edit::Item::as_str).map(str::to_owned)
    };
    item("line").or_else(|| item("question")).unwrap_or_default()
}
