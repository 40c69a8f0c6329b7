//! `effects.csv`: an effect on a measure a row.

use serde::Serialize;

use super::Effects;
use crate::output::{Decimal, FileLine};

/// One row.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct EffectLine {
    effect: &'static str,
    factor: String,
    from: String,
    to: String,
    second_factor: String,
    second_from: String,
    second_to: String,
    measure: &'static str,
    change: Decimal,
    change_low: Decimal,
    change_high: Decimal,
    standard_error: Decimal,
    degrees_of_freedom: Decimal,
    p_value: Decimal,
    p_holm: Decimal,
    p_bh: Decimal,
    variance_ratio: Decimal,
    error_over_cells: Decimal,
}

impl FileLine for EffectLine {
    const FILE: &'static str = "effects.csv";
}

/// The rows, main effects first.
pub fn effect_lines(effects: &Effects) -> impl Iterator<Item = EffectLine> {
    effects.found.iter().map(|found| {
        let mut sides = effects.effects[found.effect].sides.iter().cloned();
        let side = sides.next().map(|side| [side.key, side.from, side.to]).unwrap_or_default();
        let second = sides.next().map(|side| [side.key, side.from, side.to]);
        let effect = if second.is_some() { "interaction" } else { "main" };
        let ([factor, from, to], [second_factor, second_from, second_to]) =
            (side, second.unwrap_or_default());
        let [change, change_low, change_high] = Decimal::of(Some(found.difference.interval));
        EffectLine {
            effect,
            factor,
            from,
            to,
            second_factor,
            second_from,
            second_to,
            measure: found.column.key,
            change,
            change_low,
            change_high,
            standard_error: found.difference.standard_error.into(),
            degrees_of_freedom: found.degrees.into(),
            p_value: found.difference.p.into(),
            p_holm: Decimal(found.p_holm),
            p_bh: Decimal(found.p_bh),
            variance_ratio: Decimal(found.variance_ratio),
            error_over_cells: Decimal(found.error_over_cells),
        }
    })
}
