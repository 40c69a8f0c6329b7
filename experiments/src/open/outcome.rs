//! What possessions come to, as the page says it: the same claims and the same picture as the report.

use maud::{Markup, html};

use crate::commands::open::Asking;
use crate::compare::Comparison;
use crate::error::Error;
use crate::picture::{Picture, ranking};
use crate::run::Played;

/// What was played, judged.
pub struct Outcome {
    /// Possessions of each.
    pub possessions: u64,
    /// The sentence to go by.
    pub sentence: String,
    /// All that is claimed.
    pub claims: Vec<String>,
    /// The ranking.
    pub chart: Picture,
    /// The best one, and what is shown beside it.
    pub sides: [usize; 2],
    /// A possession in which the best one did neither well nor badly.
    pub typical: u64,
    /// Names of the two.
    pub names: [String; 2],
    /// What the two are called: `route`.
    pub noun: &'static str,
}

impl Outcome {
    /// Of what was played.
    pub fn new(asking: &Asking, played: &Played) -> Self {
        let (comparison, verdict) = asking.judged(played);
        let claims = verdict.claims();
        let sentence = verdict.advised().or(claims.first().cloned()).unwrap_or_default();
        let sides = sides(&comparison);
        Self {
            possessions: comparison.possessions,
            sentence,
            claims,
            chart: ranking("ranking", &comparison),
            sides,
            typical: typical(played, sides[0]),
            names: sides.map(|side| comparison.question.variants[side].clone()),
            noun: comparison.question.noun,
        }
    }

    /// The page of the two films.
    ///
    /// # Errors
    /// The possession broke down.
    pub fn films(&self, asking: &Asking) -> Result<String, Error> {
        asking.film(self.sides[0], Some(self.sides[1]), self.typical)
    }

    /// Sentence, claims and ranking.
    pub fn told(&self) -> Markup {
        html! {
            p class="sentence" { (self.sentence) }
            div class="two" {
                ul class="claims" { @for claim in self.claims.iter().filter(|own| **own != self.sentence) { li { (claim) } } }
                figure class="chart" { (self.chart.inline()) }
            }
        }
    }
}

/// The best, and the one that it is compared with; where it is that one itself, the second best.
fn sides(comparison: &Comparison) -> [usize; 2] {
    let (best, baseline) = (comparison.leader(), comparison.question.baseline);
    let second = comparison.order.get(1).copied().unwrap_or(best);
    [best, if best == baseline { second } else { baseline }]
}

/// Of the first possessions of a variant the one in the middle by what it was worth.
fn typical(played: &Played, variant: usize) -> u64 {
    let mut own: Vec<(i64, u64)> = played
        .first
        .iter()
        .filter(|first| first.variant == variant)
        .map(|first| (first.worth, first.possession))
        .collect();
    own.sort_unstable();
    own.get(own.len() / 2).map_or(0, |(_, possession)| *possession)
}
