//! What kind of file a file is, told by its keys; where these do not tell, by its folder.

use std::path::Path;

use crate::declared::Table;
use crate::fault::{nearest, one_of};
use crate::schema;
use crate::tree::{Data, Node};

/// The kinds of file. Each has its part of the key reference and its schema.
pub const FILE_KINDS: [&str; 10] =
    ["scenario", "experiment", "zone", "attack", "route", "option", "plan", "level", "rules", "worth"];

/// What [`crate::check`] says of a file that is fine both as a route and as an option.
pub(crate) const EITHER: &str = "route or option";

/// So many keys of a file are held against those that they may have been meant for.
const LOOKED_AT: usize = 50;

/// The folders whose files are of a known kind.
const FOLDERS: [(&str, &str); 11] = [
    ("scenarios", "scenario"),
    ("experiments", "experiment"),
    ("zones", "zone"),
    ("attacks", "attack"),
    ("routes", "route"),
    ("posts", "option"),
    ("guards", "option"),
    ("plans", "plan"),
    ("levels", "level"),
    ("rules", "rules"),
    ("worth", "worth"),
];

/// The kind of a file, or [`EITHER`]; `None` where nothing tells.
pub(crate) fn recognise(root: &Node, path: &Path) -> Option<&'static str> {
    let keys: Vec<&str> = root.entries().iter().map(|entry| entry.key.as_str()).collect();
    let known = root_keys();
    let best = best(&known, |own| keys.iter().filter(|key| own.iter().any(|k| k == *key)).copied().collect());
    // Not one key is known: perhaps all are misspelt.
    let best = best.or_else(|| {
        self::best(&known, |own| {
            let close = |key: &&str| {
                nearest(key, own.iter().copied())
                    .filter(|word| strsim::jaro_winkler(key, word) >= 0.85)
                    .and_then(|word| own.iter().find(|k| **k == word))
            };
            keys.iter().take(LOOKED_AT).filter_map(close).copied().collect()
        })
    });
    let folder = path.parent().and_then(Path::file_name).map(|name| name.to_string_lossy().into_owned());
    let by_folder = FOLDERS.iter().find(|(name, _)| folder.as_deref() == Some(name)).map(|(_, kind)| *kind);
    match best.as_deref() {
        None => by_folder,
        Some([only]) => Some(only),
        Some(several) => match by_folder {
            Some(kind) if several.contains(&kind) => Some(kind),
            _ if several.contains(&"option") && keys.contains(&"program") => {
                Some(if names_runners(root) { "option" } else { EITHER })
            }
            _ if several.contains(&"option") => Some("option"),
            _ => several.first().copied(),
        },
    }
}

/// The keys at the top of each kind of file.
fn root_keys() -> Vec<(&'static str, Vec<&'static str>)> {
    let keys = |kind| schema::table(kind).into_iter().flat_map(Table::fields).map(|field| field.key.name);
    FILE_KINDS.iter().map(|kind| (*kind, keys(kind).collect())).collect()
}

/// The kinds that share most keys with a file, a key counting less the more kinds know it; `None` for none.
fn best<'k>(
    known: &'k [(&'static str, Vec<&'static str>)],
    shared: impl Fn(&'k [&'static str]) -> Vec<&'k str>,
) -> Option<Vec<&'static str>> {
    let owners = |key: &str| known.iter().filter(|(_, own)| own.contains(&key)).count();
    let score = |own: &'k [&'static str]| -> f64 {
        shared(own).iter().map(|key| 1.0 / owners(key).max(1) as f64).sum()
    };
    let scores: Vec<f64> = known.iter().map(|(_, own)| score(own)).collect();
    let most = scores.iter().copied().fold(0.0, f64::max);
    let kinds = known.iter().zip(&scores).filter(|(_, score)| **score >= most - 1e-9);
    (most > 0.0).then(|| kinds.map(|((kind, _), _)| *kind).collect())
}

/// True where a program says who runs it, as only an option has to.
fn names_runners(root: &Node) -> bool {
    let programs = root.get("program").map_or(&[][..], |entry| entry.node.members());
    programs.iter().any(|program| matches!(program.data, Data::Table(_)) && program.get("who").is_some())
}

/// What a file of no known kind should have been.
pub(crate) fn allowed() -> String {
    one_of(FILE_KINDS.map(article).iter().map(String::as_str))
}

/// A kind with its article.
pub(crate) fn article(kind: &str) -> String {
    match kind {
        "rules" => "a file of rules".into(),
        "worth" => "a table of worth".into(),
        "attack" | "experiment" | "option" => format!("an {kind}"),
        _ => format!("a {kind}"),
    }
}
