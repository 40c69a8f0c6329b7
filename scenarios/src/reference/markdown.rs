//! The key reference as a document.

use std::collections::BTreeMap;
use std::fmt::Write;

use crate::reference::rows::{self, KeyEntry};

/// What stands before the tables.
const HEAD: &str = "# Keys of every kind of file

Made from the declarations by which the loader reads; a test fails when it is stale. Do not edit it by hand: run
`ZONEPROBE_BLESS=1 cargo test -p zoneprobe-scenarios reference`.

- *Key*: a dotted path. `[]` stands for the members of a list (`[[program]]` in a file), `NAME` for a name of your own
  choice or, under `options`, for an option.
- *Lengths*: a key that ends in `_m` may be given in feet instead, with `_ft` for `_m` (`sink_back_ft = 2.0`). Places, and
  lengths whose key names no unit, are in metres, or in feet where `units = \"ft\"` stands at the top of their file.
- *Texts*: in quotes, and as long as the range says, with characters that are seen: no controls, no marks of direction,
  nothing without width. The name of a file is held to what names are, for names in tables are made of it: 1 to 64
  characters before its `.toml`. A setting, a source or `made_by` may have several lines.
- *Default*: what holds where the key is left out; `needed` where it may not be. Where bundled files state the value,
  it stands there with the file's name.
- *Source*: where those values come from. `assumed` means that no source was found; `-` that there is nothing to cite.
- *Just one of*: a table with exactly one of these keys.
";

/// The sections: heading, an introduction, the kind, and a kind that shares it.
const SECTIONS: [(&str, &str, &str, Option<&str>); 9] = [
    ("Scenario", "One matchup: rules, levels, a zone and an attack.", "scenario", None),
    ("Experiment", "A question: a base scenario and what is varied in it.", "experiment", None),
    (
        "Zone",
        "A zone's shape and rules. `ball` and all places are given with the ball on the right.",
        "zone",
        None,
    ),
    ("Attack", "A formation and the base habits of its players.", "attack", None),
    (
        "Route or option",
        "Programs of movement: the rover's route, or an option of posts or guards. `home` is a route's only, \
         `habits` are an option's only.",
        "route",
        Some("option"),
    ),
    ("Plan", "What a team has been taught to do with the ball; without a look order, nothing.", "plan", None),
    ("Level", "What players of a level, and its officials, are like.", "level", None),
    ("Rules", "The lines of the floor and the time rules.", "rules", None),
    ("Worth", "Continuation values, as `zoneprobe worth` computes them.", "worth", None),
];

/// A table has to hold so many keys before it is written once and pointed at afterwards.
const WORTH_POINTING_AT: usize = 4;

/// The key reference as a Markdown document, a section for each kind of file.
#[must_use]
pub fn key_reference_markdown() -> String {
    let mut text = String::from(HEAD);
    for (heading, introduction, kind, shared) in SECTIONS {
        let mut entries = rows::of_kind(kind);
        for entry in shared.map(rows::of_kind).unwrap_or_default() {
            if !entries.iter().any(|known| known.key == entry.key) {
                entries.push(entry);
            }
        }
        let _ = write!(text, "\n## {heading}\n\n{introduction}\n\n");
        text.push_str("| key | type | unit | range | default | source | meaning |\n");
        text.push_str("| --- | --- | --- | --- | --- | --- | --- |\n");
        for entry in once(entries) {
            text.push_str(&line(&entry));
        }
    }
    text
}

/// Tables that hold the same keys as an earlier one point at it.
fn once(entries: Vec<KeyEntry>) -> Vec<KeyEntry> {
    let mut told: BTreeMap<String, String> = BTreeMap::new();
    let mut kept: Vec<KeyEntry> = Vec::new();
    let mut skipped: Option<String> = None;
    for (at, entry) in entries.iter().enumerate() {
        if skipped.as_ref().is_some_and(|before| entry.key.starts_with(before)) {
            continue;
        }
        skipped = None;
        let before = format!("{}.", entry.key);
        let inner: Vec<&KeyEntry> =
            entries[at + 1..].iter().take_while(|inner| inner.key.starts_with(&before)).collect();
        let mut entry = entry.clone();
        if inner.len() >= WORTH_POINTING_AT {
            let relative =
                |inner: &&KeyEntry| KeyEntry { key: inner.key[before.len()..].into(), ..(*inner).clone() };
            let content: String = inner.iter().map(|inner| line(&relative(inner))).collect();
            if let Some(first) = told.get(&content) {
                let short = entry.meaning.split(" Just one of").next().unwrap_or_default().to_owned();
                entry.meaning = format!("{short} Keys as in `{first}`.");
                skipped = Some(before);
            } else {
                told.insert(content, entry.key.clone());
            }
        }
        kept.push(entry);
    }
    kept
}

fn line(entry: &KeyEntry) -> String {
    let cell = |text: &str| if text.is_empty() { "-".to_owned() } else { text.replace('|', "\\|") };
    format!(
        "| `{}` | {} | {} | {} | {} | {} | {} |\n",
        entry.key,
        cell(&entry.value),
        cell(entry.unit),
        cell(&entry.range),
        cell(&entry.default),
        cell(&entry.source),
        cell(&entry.meaning)
    )
}
