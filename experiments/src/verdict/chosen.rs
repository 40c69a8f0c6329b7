//! What a choice advises. Where somebody was chosen until sure, who is advised follows from that alone: what is measured
//! afterwards is often less, and would take back in larger letters what the choice has shown.

use super::words::few;
use super::{NET, Verdict};
use crate::selection::{Ended, Selection};
use crate::wording::{any_of, listed};

impl Verdict {
    /// The choice, where anything was found by it.
    pub fn decided(&self) -> Option<&Selection> {
        self.selection.as_ref().filter(|own| own.ended != Ended::NoData)
    }

    /// What to run by a choice.
    pub(super) fn advice_of(&self, choice: &Selection) -> String {
        let (words, margin) = choice.measured();
        let ahead = &choice.ahead;
        let net = self.net().filter(|net| choice.measure != NET && net.is_clear() && net.leader != *ahead);
        let for_what = net.map_or_else(String::new, |net| {
            format!(" for {words}, or {} for {}", net.leader, net.column.words)
        });
        match choice.ended {
            Ended::ClearlyBest => format!("Run {ahead}{for_what}."),
            Ended::WithinMargin => format!(
                "Run {ahead}{for_what}: by {words} nothing that is left is better by more than the margin of {margin}."
            ),
            Ended::BudgetSpent | Ended::Stopped | Ended::NoData => {
                let behind = match choice.behind().as_slice() {
                    [] => String::new(),
                    all => format!(" Not {}: clearly behind.", any_of(&few(all))),
                };
                let told = if choice.left.contains(&self.baseline) {
                    self.none_is_better()
                } else {
                    format!("A toss-up between {}", listed(&few(&choice.left)))
                };
                format!("{told}: keep to what your players run best.{behind}")
            }
        }
    }

    /// Those that the advice by a choice names, the one ahead first.
    pub(super) fn advised_by(choice: &Selection) -> Vec<&str> {
        let mut named = vec![choice.ahead.as_str()];
        if choice.ended.is_open() {
            named.extend(choice.left.iter().map(String::as_str).filter(|own| *own != choice.ahead));
        }
        named
    }
}

#[cfg(test)]
mod tests {
    use super::super::tests::judged;
    use super::*;
    use crate::sentences::sentences;

    /// A choice by a column of variants that were all left but the dropped ones.
    fn choice(ended: Ended, ahead: &str, dropped: &[&str]) -> Selection {
        let all = ["a", "b", "c"];
        Selection {
            measure: "good_look_rate".into(),
            margin: 0.01,
            budget: 65_536,
            ended,
            looks: 7,
            possessions: 65_536,
            possessions_in_all: 150_000,
            from: 1 << 30,
            ahead: ahead.into(),
            left: all.into_iter().filter(|own| !dropped.contains(own)).map(String::from).collect(),
            dropped: dropped
                .iter()
                .map(|own| crate::selection::Dropped { variant: (*own).into(), possessions: 1024 })
                .collect(),
            lacking: Vec::new(),
            digest: String::new(),
        }
    }

    #[test]
    fn who_is_advised_is_who_was_chosen_though_what_measures_points_the_other_way() {
        // The stub's third is the best by good looks; of 16 possessions none is told from another.
        let (comparison, mut verdict) = judged(&["a", "b", "c"], 16, "good_look_rate");
        let measured = verdict.advised().unwrap();
        let advised = |verdict: &Verdict| verdict.advised().unwrap();
        verdict.selection = Some(choice(Ended::ClearlyBest, "b", &["a", "c"]));
        assert!(advised(&verdict).starts_with("Run b"), "{} was {measured}", advised(&verdict));
        assert_eq!((verdict.main(), verdict.advised_of()), (Some("b"), vec!["b"]));
        let told = sentences(&comparison, &verdict).join("\n");
        assert!(!told.contains("keep to what your players run best"), "{told}");
        assert!(told.contains("Measured afterwards: best by good looks"), "{told}");
        verdict.selection = Some(choice(Ended::WithinMargin, "b", &["c"]));
        assert!(advised(&verdict).contains("nothing that is left is better by more than the margin of 0.2"));
        verdict.selection = Some(choice(Ended::BudgetSpent, "b", &["a"]));
        assert_eq!(
            advised(&verdict),
            "A toss-up between b and c: keep to what your players run best. Not a: clearly behind."
        );
        assert_eq!((verdict.advised_of(), verdict.advised_against()), (vec!["b", "c"], vec!["a"]));
        verdict.selection = Some(choice(Ended::BudgetSpent, "b", &[]));
        assert!(advised(&verdict).starts_with("No route is clearly better than a: keep to"));
        // Without a figure nothing was chosen, and what is measured is all there is.
        verdict.selection = Some(choice(Ended::NoData, "", &[]));
        assert_eq!(advised(&verdict), measured);
    }
}
