//! Possessions to watch: chosen by rule, each with its decisive moment and the command that plays it again.

use maud::html;

use super::{Results, Section};
use crate::picture;
use crate::places::{Choice, Still};
use crate::run::FIRST;

pub(super) fn section(results: &Results<'_>) -> Option<Section> {
    let (comparison, tables) = (results.comparison, results.tables);
    if tables.stills.iter().all(Vec::is_empty) {
        return None;
    }
    let html = html! {
        p {
            "Not picked by eye: of a variant's first " (FIRST.min(comparison.possessions)) " possessions, in order \
             of their expected net points, those nine tenths, half and one tenth of the way along."
        }
        @for (&v, stills) in tables.leaders.iter().zip(&tables.stills) {
            h3 { (comparison.question.variants[v]) }
            div class="films" {
                @for still in stills {
                    @let name = &comparison.question.variants[v];
                    @let picture = picture::still((&id(v, still), name), &tables.setups[v], still);
                    figure {
                        (picture.inline())
                        figcaption {
                            b { (words(still.choice)) ": " } (picture.caption)
                            pre { code {
                                "zoneprobe film" (results.file) " --variant " (super::making::quoted(name))
                                " --seed " (results.manifest.seed) " --possession " (still.possession)
                            } }
                        }
                    }
                }
            }
        }
    };
    Some(Section::new("films", "Possessions to watch", html))
}

/// Id of a still's picture.
fn id(v: usize, still: &Still) -> String {
    format!("still-{}-{}", v + 1, still.choice.key())
}

fn words(choice: Choice) -> &'static str {
    match choice {
        Choice::Good => "A good one",
        Choice::Middling => "A middling one",
        Choice::Poor => "A poor one",
    }
}
