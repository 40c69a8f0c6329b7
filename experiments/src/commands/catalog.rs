//! `catalog`: what is bundled, one line each.

use scenarios::Entry;

use crate::cli::Format;
use crate::console::Console;
use crate::error::Error;
use crate::output::document;
use crate::wrapping::wrapped;

/// Lists everything bundled.
pub fn catalog(format: Format, console: &mut Console) -> Result<(), Error> {
    let mut entries = scenarios::catalog();
    // Beside the zones that have them.
    let place = entries.iter().rposition(|entry| entry.kind == "zone").map_or(0, |last| last + 1);
    entries.splice(place..place, scenarios::rules());
    Ok(console.print_exactly(&match format {
        Format::Table => listed(&entries, console.width),
        Format::Csv => rows(&entries),
        Format::Json => json(&entries),
    })?)
}

/// A line never has fewer letters for words, however narrow the terminal.
const LEAST: usize = 30;

/// Under a heading for each kind, in the order given, no wider than the terminal.
fn listed(entries: &[Entry], width: usize) -> String {
    let widest = entries.iter().map(|entry| entry.name.chars().count()).max().unwrap_or(0);
    let room = width.saturating_sub(widest + 4).max(LEAST);
    let mut text = String::new();
    let mut kind = "";
    for entry in entries {
        if entry.kind != kind {
            kind = entry.kind;
            let gap = if text.is_empty() { "" } else { "\n" };
            let heading = if kind == "experiment" { "question (an experiment file)" } else { kind };
            text.push_str(&format!("{gap}{heading}\n"));
        }
        let words = wrapped(&entry.line, room).replace('\n', &format!("\n{:1$}", "", widest + 4));
        text.push_str(format!("  {:widest$}  {words}", entry.name).trim_end());
        text.push('\n');
    }
    text
}

fn rows(entries: &[Entry]) -> String {
    let mut writer = csv::Writer::from_writer(Vec::new());
    let head = ["kind", "name", "line"];
    let rows = entries.iter().map(|entry| [entry.kind, &entry.name, &entry.line]);
    for row in std::iter::once(head).chain(rows) {
        writer.write_record(row).expect("rows of equal length, written to memory");
    }
    String::from_utf8(writer.into_inner().expect("written to memory")).expect("written from text")
}

fn json(entries: &[Entry]) -> String {
    let entries: Vec<_> = entries
        .iter()
        .map(|entry| serde_json::json!({ "kind": entry.kind, "name": entry.name, "line": entry.line }))
        .collect();
    document(&entries)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_list_has_a_heading_for_each_kind() {
        let entry = |kind, name: &str, line: &str| Entry { kind, name: name.into(), line: line.into() };
        let entries = [
            entry("zones", "1-2-2", "one in front"),
            entry("zones", "3-2", "three in front"),
            entry("routes", "seam-cross", "under the near wing, out behind the far one"),
        ];
        let expected = "zones\n  1-2-2       one in front\n  3-2         three in front\n\n\
                        routes\n  seam-cross  under the near wing, out behind the far one\n";
        assert_eq!(listed(&entries, 100), expected);
        let narrow = listed(&entries, 44);
        assert!(
            narrow.contains("seam-cross  under the near wing, out\n              behind the far one\n"),
            "{narrow}"
        );
        assert!(
            rows(&entries).ends_with("routes,seam-cross,\"under the near wing, out behind the far one\"\n")
        );
    }
}
