//! Made-up runs of answers, for tests: three variants under three rules, open looks by chance.

use engine::Measure;
use engine::random::mixed;
use scenarios::Answer;

use crate::columns::{Column, ratios};
use crate::digest::ResultDigest;
use crate::row;
use crate::run::Played;
use crate::stats::Totals;

use super::answers::AnswersTable;
use super::claims::Field;

/// The rules; the first is in force.
pub(crate) const RULES: [&str; 3] = ["far back crosses", "near wing drops", "point drops"];
/// The variants; the first is the baseline.
pub(crate) const VARIANTS: [&str; 3] = ["no option", "flash", "seal"];

pub(crate) const FIELD: Field<'static> = Field { baseline: VARIANTS[0], compared: 3 };

/// By variant, then rule.
pub(crate) fn answers() -> Vec<Answer> {
    let setup = scenarios::scenario(std::path::Path::new("sunken-122")).unwrap().setup;
    let of = |(variant, rule): (&str, &str)| Answer {
        variant: variant.into(),
        rule: rule.into(),
        line: format!("the {rule}"),
        in_force: rule == RULES[0],
        setup: setup.clone(),
    };
    VARIANTS.iter().flat_map(|variant| RULES.map(|rule| (*variant, rule))).map(of).collect()
}

/// Open looks, good looks and as many net points in `percent` of the possessions of each run; most chance is shared, one in four
/// possessions has its own in each run.
pub(crate) fn totals(percent: [u64; 9], possessions: u64) -> Totals {
    let mut totals = Totals::new(9, row::WIDTH, &ratios());
    for possession in 0..possessions {
        let mut row = vec![0; 9 * row::WIDTH];
        for (run, percent) in percent.iter().enumerate() {
            let own = mixed(possession * 32 + run as u64).is_multiple_of(4);
            let draw = mixed(possession * 32 + if own { 10 + run as u64 } else { 9 });
            let open = i64::from(draw % 100 < *percent);
            row[run * row::WIDTH + Measure::OpenLookTaken as usize] = open;
            row[run * row::WIDTH + Measure::GoodLook as usize] = open;
            row[run * row::WIDTH + Measure::ExpectedNetPoints as usize] = open * 1_000_000;
        }
        totals.add(&row);
    }
    totals
}

/// The table of such a run.
pub(crate) fn table(percent: [u64; 9], possessions: u64, column: &str) -> AnswersTable {
    let played = Played {
        totals: totals(percent, possessions),
        digest: ResultDigest::default(),
        crashes: Vec::new(),
        places: vec![engine::Places::default(); 9],
        first: Vec::new(),
    };
    AnswersTable::new(&answers(), &played, Column::named(column).unwrap(), FIELD)
}
