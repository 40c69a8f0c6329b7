//! What common random numbers saved, comparison by comparison.

use crate::compare::{Comparison, Contrasted};
use crate::stats::Correction;
use crate::wording::listed;
use crate::wrapping::glued;

/// Comparisons that one sentence names, at most.
const NAMED: usize = 12;
/// Level of a claim.
const LEVEL: f64 = 0.05;

/// The part of the possessions that pairing saves, per cent, of the variance apart over the variance paired; less than 0
/// where it costs.
pub fn saved(variance_ratio: f64) -> String {
    let text = format!("{:.0} %", 100.0 * (1.0 - 1.0 / variance_ratio));
    if text == "-0 %" { "0 %".into() } else { text }
}

/// What several saved, as a range.
pub fn saved_range(variance_ratios: impl Iterator<Item = f64> + Clone) -> Option<String> {
    let least = variance_ratios.clone().min_by(f64::total_cmp)?;
    let most = variance_ratios.max_by(f64::total_cmp)?;
    Some(if saved(least) == saved(most) {
        saved(least)
    } else {
        format!("{} to {}", saved(least), saved(most))
    })
}

/// The differences from the one that all are compared with, on the ranking column.
fn from_baseline(comparison: &Comparison) -> impl Iterator<Item = &Contrasted> + Clone {
    let question = &comparison.question;
    let is_own = |d: &&Contrasted| d.reference == question.baseline && d.column.key == question.rank_by.key;
    comparison.differences.iter().filter(is_own)
}

/// What playing all on the same draws saved.
pub(super) fn pairing_told(comparison: &Comparison) -> Option<String> {
    let question = &comparison.question;
    let own = || from_baseline(comparison).filter_map(|d| Some((d.variant, d.variance_ratio?)));
    let count = own().count();
    let told = if count > NAMED {
        format!("{} of the possessions", saved_range(own().map(|(_, ratio)| ratio))?)
    } else {
        let each: Vec<String> =
            own().map(|(v, ratio)| format!("{} {}", question.variants[v], saved(ratio))).collect();
        format!("so much of the possessions: {}", listed(&each))
    };
    (count > 0).then(|| {
        glued(&format!(
            "All met the same draws. Against draws of their own that saved, in the comparison of {} with {}, {told}; \
             differences.csv has it for every pair and measure (variance_ratio).",
            question.rank_by.words, question.variants[question.baseline]
        ))
    })
}

/// What Benjamini and Hochberg's correction lets through, where it was asked for: a list for another look, no verdict.
pub(super) fn screened(comparison: &Comparison, correction: Correction) -> Option<String> {
    if correction == Correction::Holm {
        return None;
    }
    let question = &comparison.question;
    let named = |is_higher: bool| -> Vec<&str> {
        let passes = |d: &&Contrasted| {
            d.p_bh.is_some_and(|p| p <= LEVEL) && (d.difference.interval.estimate > 0.0) == is_higher
        };
        from_baseline(comparison).filter(passes).map(|d| question.variants[d.variant].as_str()).collect()
    };
    let (higher, lower) = (named(true), named(false));
    let side = |word: &str, names: &[&str]| match names {
        [] => None,
        names => Some(format!("{word} in {}", listed(names))),
    };
    let sides: Vec<String> = [side("higher", &higher), side("lower", &lower)].into_iter().flatten().collect();
    let by = format!(
        "Screened by {} ({}, against {})",
        correction.name(),
        question.rank_by.words,
        question.variants[question.baseline]
    );
    if sides.is_empty() {
        return Some(format!("{by}: nothing is different."));
    }
    Some(format!(
        "{by}: {}. Of what is named so 1 in 20 is false on average: play it again with another --seed before you say it. All \
         else here goes by intervals that are safe for all at once.",
        sides.join("; ")
    ))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::verdict::tests::judged;

    #[test]
    fn savings_are_told_by_comparison_or_as_a_range() {
        assert_eq!([saved(4.0), saved(1.0), saved(0.8)], ["75 %", "0 %", "-25 %"]);
        assert_eq!(saved_range([2.0, 4.0, 1.0].into_iter()).as_deref(), Some("0 % to 75 %"));
        assert_eq!(saved_range(std::iter::empty()), None);
        let (comparison, _) = judged(&["hold-wing", "seam-cross", "seam-sit"], 400, "turnover_rate");
        let told = pairing_told(&comparison).unwrap();
        let own = |v: usize| {
            let ratio =
                comparison.contrast(v, 0, comparison.question.rank_by).unwrap().variance_ratio.unwrap();
            format!("{} {}", comparison.question.variants[v], saved(ratio))
        };
        let both = format!("of the possessions: {} and {};", own(1), own(2));
        assert!(told.replace('\u{a0}', " ").contains(&both), "{told}");
        assert!(pairing_told(&judged(&["alone"], 400, "turnover_rate").0).is_none());
    }

    #[test]
    fn screening_names_what_the_corrected_p_lets_through() {
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
                "Screened by Benjamini-Hochberg (turnovers, against hold-wing): higher in seam-cross. Of"
            ),
            "{told}"
        );
    }
}
