//! A selection in sentences: who was chosen and how sure that is, who was dropped, and what the tables are of.

use super::{Ended, Selection};
use crate::columns::{Column, Told};
use crate::wording::{bare, grouped, listed};

/// Variants that one sentence names, at most.
const MOST_NAMED: usize = 6;

impl Selection {
    /// What it says, a sentence or two an entry; `noun` is what a variant is called.
    #[must_use]
    pub fn told(&self, noun: &str) -> Vec<String> {
        let mut all = vec![self.choice(noun)];
        if self.ended == Ended::NoData {
            return all;
        }
        all.extend(self.of_dropped());
        let counts = if self.looks == 1 {
            "at one number of possessions".to_owned()
        } else {
            format!("at {} numbers of possessions", self.looks)
        };
        all.push(format!(
            "All that is said of the choice is right together in 19 of 20 runs, though it was looked {counts} \
             (selection.csv). What follows is measured on other possessions, which chose nothing, of those left and of the \
             one we compare with; by themselves they may be too few to show it again."
        ));
        all
    }

    /// Who was chosen.
    #[must_use]
    pub fn choice(&self, noun: &str) -> String {
        let (words, margin) = self.measured();
        let (ahead, each) = (&self.ahead, grouped(self.possessions));
        let others: Vec<&str> = self.left.iter().filter(|own| *own != ahead).map(String::as_str).collect();
        let played = format!(
            "after {each} possessions of each {noun} that was left, {} in all",
            grouped(self.possessions_in_all)
        );
        match self.ended {
            Ended::ClearlyBest => {
                format!("Sure: {ahead} is clearly best by {words} ({played}).")
            }
            Ended::WithinMargin => format!(
                "Sure: by {words} nothing that is left is better than {ahead} by more than the margin of {margin} ({played}). \
                 Left beside it: {}.",
                few(&others)
            ),
            Ended::BudgetSpent => format!(
                "Not sure: {} cannot be separated by {words} with the budget ({played}). {ahead} is ahead, but another may be \
                 better by more than {margin}.",
                few(&self.left.iter().map(String::as_str).collect::<Vec<_>>())
            ),
            Ended::Stopped => format!(
                "Not sure: it was stopped {played}, and until then {} cannot be separated by {words}. {ahead} is ahead, but \
                 another may be better by more than {margin}.",
                few(&self.left.iter().map(String::as_str).collect::<Vec<_>>())
            ),
            Ended::NoData => format!(
                "Nobody was chosen: no figure for {words} of {} ({played}). Leave {} out, or rank by another column.",
                few(&self.lacking.iter().map(String::as_str).collect::<Vec<_>>()),
                if self.lacking.len() == 1 { "it" } else { "them" }
            ),
        }
    }

    /// Who was dropped, and when.
    fn of_dropped(&self) -> Option<String> {
        let named: Vec<String> = self
            .dropped
            .iter()
            .map(|own| format!("{} (at {} possessions)", own.variant, grouped(own.possessions)))
            .collect();
        let named: Vec<&str> = named.iter().map(String::as_str).collect();
        (!named.is_empty())
            .then(|| format!("Dropped on the way, clearly behind the one that was ahead: {}.", few(&named)))
    }

    /// The words of the measure, and the margin in the unit in which it is told.
    pub(crate) fn measured(&self) -> (&str, String) {
        let words = Column::named(&self.measure).map_or(self.measure.as_str(), |column| column.words);
        (words, self.in_unit(self.margin))
    }

    /// A value of the measure, in the unit in which it is told.
    pub(crate) fn in_unit(&self, value: f64) -> String {
        let Some(column) = Column::named(&self.measure) else {
            return value.to_string();
        };
        let unit = match column.told() {
            Told::InTwenty => " in 20 possessions",
            Told::Percent => " percentage points",
            Told::Seconds => " s",
            Told::Metres => " m",
            Told::Number => "",
        };
        format!("{}{unit}", bare(column, value))
    }
}

/// A list of names, shortened.
fn few(names: &[&str]) -> String {
    let more = names.len().saturating_sub(MOST_NAMED);
    let mut named: Vec<String> = names.iter().take(MOST_NAMED).map(|name| (*name).to_owned()).collect();
    if more > 0 {
        named.push(format!("{more} more"));
    }
    listed(&named)
}

#[cfg(test)]
mod tests {
    use super::super::Racing;
    use super::super::tests::{raced, some};
    use crate::columns::Column;
    use crate::stats::UntilSure;

    fn told(column: &str, until: UntilSure) -> String {
        raced(&["a", "b", "c"], column, until, 1).selection.told("route").join("\n")
    }

    #[test]
    fn each_end_is_told_with_its_counts() {
        let clear = told("expected_net_points", UntilSure { margin: 0.001, budget: 5000 });
        assert!(
            clear.starts_with("Sure: c is clearly best by expected net points (after ")
                && clear.contains(
                    "\nDropped on the way, clearly behind the one that was ahead: a (at 1,024 possessions)"
                )
                && clear.contains("\nAll that is said of the choice is right together in 19 of 20 runs"),
            "{clear}"
        );
        let within = told("turnover_rate", UntilSure { margin: 0.2, budget: 5000 });
        assert!(
            within.contains("is better than")
                && within.contains(
                    "by more than the margin of 4.0 in 20 possessions (after 1,024 possessions of each route"
                )
                && within.contains("3,072 in all). Left beside it: "),
            "{within}"
        );
        let open = told("turnover_rate", UntilSure { margin: 0.0, budget: 2000 });
        assert!(
            open.starts_with("Not sure: ") && open.contains("cannot be separated by turnovers"),
            "{open}"
        );
        let mut racing = Racing::new(
            &["a", "b", "c"].map(String::from),
            Column::named("turnover_rate").unwrap(),
            UntilSure { margin: 0.0, budget: 4096 },
        );
        let (left, possessions) = racing.to_play().unwrap();
        racing.take(some(racing.names(), &left, possessions));
        racing.stop();
        let stopped = racing.selected().selection;
        assert!(stopped.ended.is_open() && stopped.possessions == 1024);
        let stopped = stopped.choice("route");
        assert!(
            stopped.starts_with("Not sure: it was stopped after 1,024 possessions of each route"),
            "{stopped}"
        );
        assert!(stopped.contains("cannot be separated by turnovers"), "{stopped}");
        let none = told("lob_completion", UntilSure { margin: 0.1, budget: 1024 });
        assert!(
            none.starts_with("Nobody was chosen: no figure for lobs caught of a, b and c (after 1,024"),
            "{none}"
        );
        assert!(!none.contains("19 of 20") && none.lines().count() == 1, "{none}");
    }
}
