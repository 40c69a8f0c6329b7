//! The blank form: a table to be filled in, and a page to be printed and filled in by hand, a row a possession.

use maud::{Markup, html};
use scenarios::{CHART_COLUMNS, ENDS, SPACES, SPOTS};

use crate::document::form;
use crate::note::NOTE;
use crate::output::written;
use crate::places::{ATTACKERS, position_words};

/// Rows of the table, and of a page: as many possessions as a half has. (a choice)
const ROWS: usize = 40;

/// The table, with nothing seen.
pub fn blank_csv() -> (String, Vec<u8>) {
    let header = CHART_COLUMNS.map(str::to_owned).to_vec();
    let row = |number: usize| {
        let mut row = vec![String::new(); CHART_COLUMNS.len()];
        row[0] = number.to_string();
        row
    };
    ("chart.csv".into(), written(header, (1..=ROWS).map(row)))
}

const STYLE: &str = "body{font:9.5pt/1.25 system-ui,sans-serif;max-width:277mm;margin:6mm auto;padding:0 4mm;color:#111;\
background:#fff}h1{font-size:14pt;margin:0 0 1mm}table{border-collapse:collapse;width:100%}td,th{border:.3mm solid #555;\
padding:.7mm 1.2mm;text-align:left;font-weight:normal;white-space:nowrap}thead th{font-weight:bold;white-space:normal}\
p,dl{margin:1mm 0}dt{font-weight:bold;display:inline}dd{display:inline;margin:0 4mm 0 1mm}.wide{width:24mm}\
.soft{color:#444;font-size:8.5pt}.sheet{overflow-x:auto}@media print{body{margin:0}@page{size:landscape;margin:8mm}\
tr{break-inside:avoid}}";

/// What is written in each column: heading, what it is, and the marks to be circled, if there are any.
const ASKED: [(&str, &str, &str); 10] = [
    ("call", "what was called; nothing: as planned", ""),
    ("zone", "their shape", ""),
    ("high post", "held there before the first shot", "y n"),
    ("low post", "held there before the first shot", "y n"),
    ("end", "of several shots the last one, or a row a shot", "2+ 2\u{2212} 3+ 3\u{2212} FT TO"),
    ("who", "shot last, or went to the line: position, not shirt", "1 2 3 4 5"),
    ("place", "of the last shot", "R L H S C W T"),
    ("space", "of the shooter", "g o w"),
    ("FT", "made of shot", ""),
    ("note", "", ""),
];

/// The page.
pub fn blank_page() -> String {
    let positions =
        ATTACKERS.iter().enumerate().map(|(nth, key)| format!("{} {}", nth + 1, position_words(key)));
    let positions: Vec<String> = positions.collect();
    let body = html! {
        main {
            h1 { "Chart of possessions" }
            p { "Against: ____________________  Date: ____________  Charted by: ____________________  \u{25cb} game  \u{25cb} practice" }
            p { "A row a possession against their set zone. Circle what you saw; what you did not see, leave out. Then type it "
                "into chart.csv, in the words in brackets." }
            (legend(&positions))
            div class="sheet" { (rows()) }
            p class="soft" { "A number on a shirt is written #4. Minors are better given by number. Who charts every shot writes those before the last in "
                "rows above it, with the same number. " (NOTE) }
        }
    };
    form("Chart of possessions", STYLE, &body)
}

/// What the letters mean, with the words of the table.
fn legend(positions: &[String]) -> Markup {
    let ends = [
        "2+ a two went in",
        "2\u{2212} a two was missed",
        "3+ a three went in",
        "3\u{2212} a three was missed",
        "FT free throws, also after a basket",
        "TO turnover",
    ];
    let places = [
        "R within a step of the rim",
        "L block",
        "H elbows and free-throw line",
        "S baseline beside the lane",
        "C corner",
        "W wing",
        "T top",
    ];
    let spaces = ["g within an arm's length, 4 ft", "o to 6 ft", "w nobody within 6 ft"];
    let words = |marks: &[&str], keys: &[&str]| {
        let all: Vec<String> = marks.iter().zip(keys).map(|(mark, key)| format!("{mark} ({key})")).collect();
        all.join(", ")
    };
    html! {
        dl {
            dt { "end" } dd { (words(&ends, &ENDS.map(|own| own.0))) }
            dt { "who" } dd { (positions.join(", ")) }
            dt { "place" } dd { (words(&places, &SPOTS.map(|own| own.0))) }
            dt { "space" } dd { (words(&spaces, &SPACES.map(|own| own.0))) }
            dt { "zone" } dd { "1-2-2, 3-2, 2-3, 2-1-2, 1-3-1, man-to-man; in a spreadsheet 122, 32, ..., for it takes 3-2 for a day" }
        }
    }
}

fn rows() -> Markup {
    html! {
        table {
            thead {
                tr {
                    th scope="col" { "no." }
                    @for (heading, words, _) in ASKED {
                        th scope="col" { (heading) @if !words.is_empty() { " " span class="soft" { (words) } } }
                    }
                }
            }
            tbody {
                @for number in 1..=ROWS {
                    tr {
                        th scope="row" { (number) }
                        @for (_, _, marks) in ASKED {
                            @if marks.is_empty() { td class="wide" {} } @else { td { (marks.replace(' ', "\u{2002}")) } }
                        }
                    }
                }
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_page_tells_every_word_of_the_table() {
        let page = blank_page();
        for word in ENDS
            .iter()
            .map(|own| own.0)
            .chain(SPOTS.iter().map(|own| own.0))
            .chain(SPACES.iter().map(|own| own.0))
        {
            assert!(page.contains(&format!("({word})")), "{word}");
        }
        assert!(!page.contains("http"));
        assert_eq!(String::from_utf8(blank_csv().1).unwrap().lines().count(), ROWS + 1);
    }
}
