//! `selection.csv`: where every variant stood at every look that it was played up to.

use serde::Serialize;

use crate::output::{Decimal, FileLine};
use crate::stats::{Look, Place, Standing};

/// One row of `selection.csv`.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub(crate) struct SelectionLine {
    look: usize,
    possessions: u64,
    variant: String,
    measure: String,
    estimate: Decimal,
    ahead: String,
    difference: Decimal,
    difference_together_low: Decimal,
    difference_together_high: Decimal,
    critical: Decimal,
    stands: &'static str,
}

impl FileLine for SelectionLine {
    const FILE: &'static str = "selection.csv";
}

impl SelectionLine {
    /// Of a variant at a look; it is held against the one ahead.
    pub fn of(
        (nth, look): (usize, &Look),
        (measure, variant, ahead): (&str, &str, &str),
        standing: &Standing,
    ) -> Self {
        let Standing { estimate, behind, place, .. } = *standing;
        let [difference, difference_together_low, difference_together_high] = Decimal::of(Some(behind));
        Self {
            look: nth,
            possessions: look.possessions,
            variant: variant.to_owned(),
            measure: measure.to_owned(),
            estimate: estimate.into(),
            ahead: ahead.to_owned(),
            difference,
            difference_together_low,
            difference_together_high,
            critical: look.critical.into(),
            stands: match place {
                Place::Ahead => "ahead",
                Place::Left => "left",
                Place::Dropped => "dropped",
            },
        }
    }
}
