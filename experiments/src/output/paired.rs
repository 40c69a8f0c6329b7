//! What common random numbers saved, comparison by comparison.

use crate::compare::{Comparison, Contrasted};
use crate::stats::{CLAIMED_P, Correction};
use crate::wording::listed;
use crate::wrapping::glued;

/// Comparisons that one sentence names, at most.
const NAMED: usize = 12;
/// With fewer possessions of each, variances are not told, nor is anything screened: of 27 variants that are all equal one was
/// named in 8 % of runs of 30 possessions and in 5.5 % of runs of 64, by simulation. (a choice)
const POSSESSIONS_LEAST: u64 = 64;

/// The part of the possessions that pairing saves, per cent, of the variance apart over the variance paired; less than 0
/// where it costs.
pub fn saved(variance_ratio: f64) -> String {
    let text = format!("{:.0} %", 100.0 * (1.0 - 1.0 / variance_ratio));
    if text == "-0 %" { "0 %".into() } else { text }
}

/// The same in a sentence.
fn saved_in_words(variance_ratio: f64) -> String {
    if variance_ratio < 1.0 {
        return format!("none, it took {:.0} % more", 100.0 * (1.0 / variance_ratio - 1.0));
    }
    saved(variance_ratio)
}

/// The differences from the one that all are compared with, on the ranking column; none where too little was played.
fn from_baseline(comparison: &Comparison) -> impl Iterator<Item = &Contrasted> {
    let question = &comparison.question;
    let is_own = |d: &&Contrasted| d.reference == question.baseline && d.column.key == question.rank_by.key;
    let is_enough = comparison.possessions >= POSSESSIONS_LEAST;
    comparison.differences.iter().filter(move |_| is_enough).filter(is_own)
}

/// What playing all on the same draws saved.
pub(super) fn pairing_told(comparison: &Comparison) -> Option<String> {
    let question = &comparison.question;
    let mut own: Vec<(usize, f64)> =
        from_baseline(comparison).filter_map(|d| Some((d.variant, d.variance_ratio?))).collect();
    let told = if own.len() > NAMED {
        own.sort_by(|a, b| a.1.total_cmp(&b.1));
        let [least, middle, most] = [0, own.len() / 2, own.len() - 1].map(|nth| saved_in_words(own[nth].1));
        format!("from {least} to {most}, in the middle {middle}")
    } else {
        let name = |v: usize| &question.variants[v];
        listed(
            &own.iter()
                .map(|(v, ratio)| format!("{} {}", name(*v), saved_in_words(*ratio)))
                .collect::<Vec<_>>(),
        )
    };
    (!own.is_empty()).then(|| {
        glued(&format!(
            "All met the same draws. Of the possessions that draws of their own would take to show a difference from {} in {}, \
             that saved: {told}. differences.csv has it for every pair and measure (variance_ratio).",
            question.variants[question.baseline], question.rank_by.words
        ))
    })
}

/// What Benjamini and Hochberg's correction lets through, where it was asked for: a list for another look, no verdict.
pub(super) fn screened(comparison: &Comparison, correction: Correction) -> Option<String> {
    if correction == Correction::Holm {
        return None;
    }
    let question = &comparison.question;
    let by = format!(
        "Screened by {} ({}, against {})",
        correction.name(),
        question.rank_by.words,
        question.variants[question.baseline]
    );
    if comparison.possessions < POSSESSIONS_LEAST {
        return Some(format!("{by}: nothing is named of fewer than {POSSESSIONS_LEAST} possessions."));
    }
    let named = |is_higher: bool| -> Vec<&str> {
        let passes = |d: &&Contrasted| {
            d.p_bh.is_some_and(|p| p <= CLAIMED_P) && (d.difference.interval.estimate > 0.0) == is_higher
        };
        from_baseline(comparison).filter(passes).map(|d| question.variants[d.variant].as_str()).collect()
    };
    let (higher, lower) = (named(true), named(false));
    let side = |word: &str, names: &[&str]| match names {
        [] => None,
        names => Some(format!("{word} in {}", listed(names))),
    };
    let sides: Vec<String> = [side("higher", &higher), side("lower", &lower)].into_iter().flatten().collect();
    if sides.is_empty() {
        return Some(format!("{by}: nothing passes."));
    }
    Some(format!(
        "{by}: {}. That is a list for another look, with another --seed, and no verdict: over many such lists, empty ones \
         counted in, at most 1 in 20 names is false.",
        sides.join("; ")
    ))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::verdict::tests::judged;

    #[test]
    fn savings_are_told_by_comparison() {
        assert_eq!([saved(4.0), saved(1.0), saved(0.8)], ["75 %", "0 %", "-25 %"]);
        assert_eq!([saved_in_words(4.0), saved_in_words(0.8)], ["75 %", "none, it took 25 % more"]);
        let (comparison, _) = judged(&["hold-wing", "seam-cross", "seam-sit"], 400, "turnover_rate");
        let told = pairing_told(&comparison).unwrap();
        let own = |v: usize| {
            let ratio =
                comparison.contrast(v, 0, comparison.question.rank_by).unwrap().variance_ratio.unwrap();
            format!("{} {}", comparison.question.variants[v], saved_in_words(ratio))
        };
        let both = format!("in turnovers, that saved: {} and {}. differences.csv", own(1), own(2));
        assert!(told.replace('\u{a0}', " ").contains(&both), "{told}");
        assert!(pairing_told(&judged(&["alone"], 400, "turnover_rate").0).is_none());
        assert!(
            pairing_told(&judged(&["a", "b"], 63, "turnover_rate").0).is_none(),
            "of few nothing is told"
        );
    }

    #[test]
    fn screening_names_what_the_corrected_p_lets_through_where_enough_was_played() {
        let (mut comparison, _) = judged(&["hold-wing", "seam-cross", "seam-sit"], 400, "turnover_rate");
        assert_eq!(screened(&comparison, Correction::Holm), None);
        let mut set = |variant: usize, estimate: f64, p: f64| {
            let is_own =
                |d: &&mut Contrasted| (d.variant, d.reference, d.column.key) == (variant, 0, "turnover_rate");
            let own = comparison.differences.iter_mut().find(is_own).unwrap();
            (own.difference.interval.estimate, own.p_bh) = (estimate, Some(p));
        };
        set(1, 0.1, 0.05);
        set(2, -0.1, 0.051);
        let told = screened(&comparison, Correction::BenjaminiHochberg).unwrap();
        assert!(
            told.starts_with(
                "Screened by Benjamini-Hochberg (turnovers, against hold-wing): higher in seam-cross. That"
            ),
            "{told}"
        );
        comparison.possessions = 63;
        let told = screened(&comparison, Correction::BenjaminiHochberg).unwrap();
        assert!(told.ends_with(": nothing is named of fewer than 64 possessions."), "{told}");
    }
}
