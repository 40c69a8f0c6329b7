//! What else would explain a chart: the planned variant played again with one thing about the zone changed, and how well each
//! change fits what was seen.
//!
//! A possession is taken apart into answers: how it ended, a shot as a two or a three whether it went in or not, since no change
//! here is one of our shooting and a good night would be taken for one of the zone; the posts that were touched; of a two and of a three by themselves
//! where the shot came from, who took it and with how much space. An answer's counts under a change are those of a Dirichlet
//! distribution (half a time beforehand, after Jeffreys), and what was charted is a draw from it, as `scout` has it. The
//! answers of a possession are taken for independent, though they are not quite: chances near one half are worth more than
//! those near one. Beforehand the plan is as likely as all changes together.

use std::sync::Arc;

use engine::Arena;
use engine::ends::End;
use engine::setup::Setup;
use rayon::prelude::*;
use scenarios::{Charted, SHAPES_SEEN};

use super::predicted::Predicted;
use crate::error::Error;

/// Something that may be different from the plan.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Change {
    /// In words.
    pub words: String,
    /// Dotted path and value, as they stand in a file.
    pub set: (String, String),
}

/// Paths, values and words that are tried of the planned zone. (a choice of what coaches speak of first)
const OTHERS: [(&str, &str, &str); 9] = [
    ("zone.sink_back_m", "0.0", "their back line does not sink"),
    ("zone.sink_back_m", "1.2", "their back line sinks 1.2 m"),
    ("zone.extension_m", "0.2", "their front line stays in"),
    ("zone.extension_m", "1.6", "their front line comes far out"),
    ("opponent.back-line.late", "\"often\"", "their back line is often late"),
    ("opponent.front-line.late", "\"often\"", "their front line is often late"),
    ("opponent.everybody.over_helps", "\"often\"", "they often over-help on drives"),
    ("opponent.everybody.gambles", "\"often\"", "they often gamble in the passing lanes"),
    ("opponent.everybody.bites", "\"often\"", "they often bite on fakes"),
];

/// Everything that is tried against a zone.
pub fn changes(zone: &str) -> Vec<Change> {
    let shapes = SHAPES_SEEN.iter().filter(|shape| **shape != zone).map(|shape| Change {
        words: format!("their zone is a {shape}"),
        set: ("zone.use".into(), format!("\"{shape}\"")),
    });
    let others = OTHERS.iter().map(|(path, value, words)| Change {
        words: (*words).into(),
        set: ((*path).into(), (*value).into()),
    });
    shapes.chain(others).collect()
}

/// Plays a setup and counts how its possessions end.
///
/// # Errors
/// No threads could be started.
pub fn play(
    setup: &Arc<Setup>,
    (variant, seed): (&str, u64),
    possessions: u64,
    threads: usize,
) -> Result<Predicted, Error> {
    let pool = rayon::ThreadPoolBuilder::new().num_threads(threads).build();
    let pool = pool.map_err(|error| Error::Threads(error.to_string()))?;
    let pieces = threads as u64;
    let piece = |nth: u64| {
        let mut arena = Arena::new(Arena::WIDTH);
        arena.play(setup, seed, possessions * nth / pieces..possessions * (nth + 1) / pieces, &mut |_| {});
        arena.places().clone()
    };
    let parts: Vec<_> = pool.install(|| (0..pieces).into_par_iter().map(piece).collect());
    let mut all = engine::Places::default();
    parts.iter().for_each(|part| all.merge(part));
    Ok(Predicted::of(variant, &setup.zone.name, &all))
}

/// What was charted under each of several explanations: the chance of each, the plan first.
#[derive(Clone, Debug, PartialEq)]
pub struct Fits {
    /// Chances, in the order of the explanations.
    pub chances: Vec<f64>,
}

/// How well each of several explanations fits; the first is the plan.
pub fn fits<'c>(rows: impl IntoIterator<Item = &'c Charted> + Clone, explanations: &[Predicted]) -> Fits {
    let others = explanations.len().saturating_sub(1).max(1) as f64;
    let before = |nth: usize| if nth == 0 { 0.5 } else { 0.5 / others };
    let logs: Vec<f64> = explanations
        .iter()
        .enumerate()
        .map(|(nth, own)| libm::log(before(nth)) + log_likelihood(rows.clone(), own))
        .collect();
    let most = logs.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    let weights: Vec<f64> = logs.iter().map(|log| libm::exp(log - most)).collect();
    let sum: f64 = weights.iter().sum();
    Fits { chances: weights.into_iter().map(|weight| weight / sum).collect() }
}

/// What an answer counts before any was given.
const NEVER: f64 = 0.5;

/// The question that an answer belongs to, how many answers it has, and the answer.
type Answer = (usize, usize, usize);

/// How many questions there are.
const QUESTIONS: usize = 9;

/// What a possession answers.
fn answers(own: &Charted) -> Vec<Answer> {
    let mut found = Vec::new();
    if let Some(end) = own.end {
        let ended = match end {
            End::TwoMade | End::TwoMissed => 0,
            End::ThreeMade | End::ThreeMissed => 1,
            End::FreeThrows => 2,
            End::Turnover => 3,
        };
        found.push((0, 4, ended));
    }
    if let Some(high) = own.high_post {
        found.push((1, 2, usize::from(high)));
    }
    if let Some(low) = own.low_post {
        found.push((2, 2, usize::from(low)));
    }
    if let Some(end) = own.end.filter(|end| end.is_shot()) {
        let of = 3 * usize::from(end.is_three());
        found.extend(own.spot.map(|spot| (3 + of, 7, spot as usize)));
        found.extend(own.who.map(|who| (4 + of, 5, who)));
        found.extend(own.space.map(|space| (5 + of, 3, space as usize)));
    }
    found
}

/// Logarithm of the chance of what was charted, but for a factor that is the same for all explanations.
fn log_likelihood<'c>(rows: impl IntoIterator<Item = &'c Charted>, own: &Predicted) -> f64 {
    let mut counted = vec![[0.0; 7]; QUESTIONS];
    for (charted, count) in &own.ends {
        answers(charted)
            .into_iter()
            .for_each(|(question, _, answer)| counted[question][answer] += *count as f64);
    }
    let (mut seen, mut of) = (vec![[0.0; 7]; QUESTIONS], [0; QUESTIONS]);
    for row in rows {
        for (question, many, answer) in answers(row) {
            seen[question][answer] += 1.0;
            of[question] = many;
        }
    }
    let more = |had: f64, seen: f64| libm::lgamma(had + seen) - libm::lgamma(had);
    let one = |question: usize| {
        let all = || counted[question][..of[question]].iter().map(|count| count + NEVER);
        let own = &seen[question][..of[question]];
        let each: f64 = all().zip(own).map(|(had, seen)| more(had, *seen)).sum();
        each - more(all().sum(), own.iter().sum())
    };
    (0..QUESTIONS).filter(|question| of[*question] > 0).map(one).sum()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_was_seen_speaks_for_what_makes_it_likely() {
        let ended = |end| Charted { end: Some(end), ..Charted::default() };
        let with = |made: u64| Predicted {
            variant: String::new(),
            zone: String::new(),
            ends: vec![(ended(End::Turnover), made), (ended(End::TwoMissed), 1_000 - made)],
        };
        let explanations = [with(500), with(300), with(700)];
        let nothing: [Charted; 0] = [];
        assert_eq!(fits(&nothing, &explanations).chances, [0.5, 0.25, 0.25]);
        let seen = [vec![ended(End::Turnover); 30], vec![ended(End::TwoMissed); 70]].concat();
        let chances = fits(&seen, &explanations).chances;
        assert!(chances[1] > 0.99 && (chances.iter().sum::<f64>() - 1.0).abs() < 1e-12, "{chances:?}");
        // Whether twos go in speaks for no zone.
        let hot: Vec<Charted> = seen
            .iter()
            .cloned()
            .map(|own| Charted {
                end: own.end.map(|end| if end == End::TwoMissed { End::TwoMade } else { end }),
                ..own
            })
            .collect();
        assert_eq!(fits(&hot, &explanations).chances, chances);
        // One possession hardly moves anything: half against a quarter, times the chances of a turnover.
        let little = fits(&seen[..1], &explanations).chances;
        assert!((little[0] - 0.25 / (0.25 + 0.075 + 0.175)).abs() < 0.01, "{little:?}");
    }

    #[test]
    fn the_planned_shape_is_not_tried_again() {
        assert_eq!(changes("2-3").len(), changes("our own").len() - 1);
    }
}
