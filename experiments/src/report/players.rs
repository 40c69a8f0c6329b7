//! Our players: what was said of them, and what everybody made in the run.

use maud::{Markup, html};

use super::{Results, Section};
use crate::places::{ATTACKERS, position_words};
use crate::players::{ShootingLine, shooting_lines, told};

/// The columns: a place and a space of `shooting.csv`, with a heading.
const COLUMNS: [(&str, &str, &str); 6] = [
    ("rim", "all", "At the rim"),
    ("short", "all", "Short twos"),
    ("mid-range", "all", "Longer twos"),
    ("three", "all", "Threes"),
    ("three", "wide-open", "Of these wide open"),
    ("free-throw", "all", "Free throws"),
];

/// The section of a run in which players are known by themselves; none of any other.
pub(super) fn section(results: &Results<'_>) -> Option<Section> {
    let tables = results.tables;
    let leader = *tables.leaders.first()?;
    let told = told(&tables.setups[leader]);
    if told.is_empty() {
        return None;
    }
    let name = &results.comparison.question.variants[leader];
    let lines = shooting_lines(std::slice::from_ref(name), std::slice::from_ref(&tables.counts[leader]));
    let html = html! {
        p { "What was said of our players, and how it was taken:" }
        ul { @for said in &told { li { (said) } } }
        p { "Made of attempted in this run, of " (name) ": what was put in has to come out again." }
        (table(&lines))
        p class="quiet" {
            "Wide open: nobody within 1.83 m (6 ft). All positions, places and spaces, with intervals, are in shooting.csv; \
             what was said is in players.csv."
        }
    };
    Some(Section::new("players", "Our players", html))
}

fn table(lines: &[ShootingLine]) -> Markup {
    let cell = |position: &str, (place, space, _): (&str, &str, &str)| {
        let line =
            lines.iter().find(|line| line.position == position && line.place == place && line.space == space);
        line.map_or_else(String::new, |line| {
            let share =
                line.made_share.0.map_or_else(String::new, |share| format!(" ({:.0} %)", 100.0 * share));
            format!("{} of {}{share}", line.made, line.attempted)
        })
    };
    html! {
        div class="scroll" tabindex="0" role="region" aria-label="Who made how many shots" {
            table {
                thead { tr { th scope="col" { "Position" } @for (_, _, heading) in COLUMNS { th scope="col" { (heading) } } } }
                tbody {
                    @for position in ATTACKERS {
                        tr {
                            th scope="row" { (position_words(position)) }
                            @for column in COLUMNS { td { (cell(position, column)) } }
                        }
                    }
                }
            }
        }
    }
}
