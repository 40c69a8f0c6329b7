//! The blank form: a table to be filled in, and a page to be printed and filled in by hand.

use maud::html;
use scenarios::ASKED;

use crate::document::form;
use crate::note::NOTE;
use crate::output::{FileLine, file};

/// A row of the blank table.
#[derive(Clone, Debug, Default, PartialEq, serde::Serialize)]
struct BlankLine {
    look: &'static str,
    seen: &'static str,
    times: &'static str,
    words: String,
}

impl FileLine for BlankLine {
    const FILE: &'static str = "sightings.csv";
}

/// The table, with nothing seen.
pub fn blank_csv() -> (String, Vec<u8>) {
    file(ASKED.iter().flat_map(|asked| {
        asked.answers.iter().map(|(seen, words)| BlankLine {
            look: asked.key,
            seen,
            times: "",
            words: format!("{} {words}.", asked.words),
        })
    }))
}

const STYLE: &str = "body{font:11pt/1.35 system-ui,sans-serif;max-width:180mm;margin:8mm auto;padding:0 4mm;color:#111;\
background:#fff}h1{font-size:16pt;margin:0 0 2mm}h2{font-size:11.5pt;margin:4mm 0 1mm}table{border-collapse:collapse;\
width:100%}td,th{border:.3mm solid #555;padding:1.2mm 2mm;text-align:left}td.tally{width:62mm}td.sum{width:16mm}\
p{margin:1mm 0}.soft{color:#444;font-size:9.5pt}@media print{body{margin:0}@page{margin:12mm}section{break-inside:avoid}}";

/// The page.
pub fn blank_page() -> String {
    let body = html! {
        main {
            h1 { "Scouting sheet" }
            p { "Team: ________________________  Date: ______________  Seen by: ________________________" }
            p { "One stroke each time you see it. Look for one or two questions at a time; what you did not see, leave out. "
                "Then type the sums into sightings.csv." }
            @for asked in &ASKED {
                section {
                    h2 { (asked.words) }
                    table {
                        thead { tr { th scope="col" { "Seen" } th scope="col" { "Strokes" } th scope="col" { "Sum" } } }
                        tbody {
                            @for (key, words) in asked.answers {
                                tr {
                                    th scope="row" { (words) " " span class="soft" { "(" (asked.key) ", " (key) ")" } }
                                    td class="tally" {} td class="sum" {}
                                }
                            }
                        }
                    }
                }
            }
            p class="soft" { (NOTE) }
        }
    };
    form("Scouting sheet", STYLE, &body)
}
