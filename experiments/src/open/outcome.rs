//! What possessions come to, as the page says it: the same claims and the same picture as the report.

use maud::{Markup, html};

use crate::commands::open::Asking;
use crate::compare::Comparison;
use crate::error::Error;
use crate::picture::{Picture, ranking};
use crate::run::First;
use crate::stats::Totals;

/// Possessions that are looked at for one in which two variants part.
const LOOKED_AT: usize = 64;

/// What was played, judged.
pub struct Outcome {
    /// Possessions of each.
    pub possessions: u64,
    /// How it was chosen, where it was.
    pub choice: Vec<String>,
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
    /// Whether the two part in it.
    pub part: bool,
    /// More of them, the most middling first.
    middling: Vec<u64>,
    /// Names of the two.
    pub names: [String; 2],
    /// What the two are called: `route`.
    pub noun: &'static str,
}

impl Outcome {
    /// Of what was played, the first of it one by one.
    pub fn new(asking: &Asking, totals: &Totals, first: &[First]) -> Self {
        let (comparison, verdict) = asking.judged(totals);
        let claims = verdict.claims();
        let sentence = verdict.advised().or(claims.first().cloned()).unwrap_or_default();
        let sides = sides(&comparison);
        let middling = middling(first, sides[0]);
        Self {
            possessions: comparison.possessions,
            choice: verdict.choice(),
            sentence,
            claims,
            chart: ranking("ranking", &comparison),
            sides,
            typical: middling.first().copied().unwrap_or_default(),
            part: false,
            middling,
            names: sides.map(|side| comparison.question.variants[side].clone()),
            noun: comparison.question.noun,
        }
    }

    /// The same with a possession in which the two do not do the same, if any of some has one.
    ///
    /// # Errors
    /// A possession broke down.
    pub fn parted(mut self, asking: &Asking) -> Result<Self, Error> {
        for possession in self.middling.iter().take(LOOKED_AT) {
            if asking.part(self.sides, *possession)? {
                (self.typical, self.part) = (*possession, true);
                break;
            }
        }
        Ok(self)
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
            @for said in &self.choice { p { (said) } }
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

/// The first possessions of a variant: the one in the middle by what it was worth, then its neighbours, the nearest first.
fn middling(first: &[First], variant: usize) -> Vec<u64> {
    let mut own: Vec<(i64, u64)> = first
        .iter()
        .filter(|first| first.variant == variant)
        .map(|first| (first.worth, first.possession))
        .collect();
    own.sort_unstable();
    let middle = own.get(own.len() / 2).map_or(0, |(worth, _)| *worth);
    own.sort_by_key(|(worth, possession)| ((worth - middle).abs(), *possession));
    own.into_iter().map(|(_, possession)| possession).collect()
}
