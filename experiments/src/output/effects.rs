//! Effects as a table to be read.

use comfy_table::Cell;

use super::paired::saved_range;
use super::ranked::{empty, right};
use crate::columns::Column;
use crate::effects::{Effect, Effects, Found, Side};
use crate::gains::counted;
use crate::stats::Correction;
use crate::wording::{bare, grouped};
use crate::wrapping::wrapped;

/// Effects that are shown; the file has all.
const SHOWN: usize = 24;
/// Level of a claim.
const LEVEL: f64 = 0.05;

/// The effects on a column, main ones first and the largest first, and what the design cannot tell.
pub(crate) fn effects_text(
    effects: &Effects,
    column: &Column,
    (correction, width): (Correction, usize),
) -> String {
    let mut found: Vec<(&Effect, &Found)> = effects.on(column).collect();
    let remarks =
        || effects.remarks.iter().map(|remark| wrapped(remark, width.min(100)) + "\n").collect::<String>();
    if found.is_empty() {
        return remarks();
    }
    let size = |found: &Found| found.difference.interval.estimate.abs();
    found.sort_by(|(a, one), (b, two)| {
        a.sides.len().cmp(&b.sides.len()).then(size(two).total_cmp(&size(one)))
    });
    let left = found.len().saturating_sub(SHOWN);
    let mut table = empty();
    let heading = counted(column);
    table.set_header([
        Cell::new("what differs"),
        Cell::new("from and to"),
        right(format!("change of {heading}")),
        right("95 % interval".into()),
        right(format!("p, {}", correction.name())),
    ]);
    for (effect, found) in found.into_iter().take(SHOWN) {
        let interval = found.difference.interval;
        let signed = |value: f64| {
            let text = bare(column, value);
            if value > 0.0 { format!("+{text}") } else { text }
        };
        let corrected = found.corrected(correction);
        let mark = if corrected.is_some_and(|p| p <= LEVEL) { "●" } else { " " };
        let p = match corrected {
            None => "-".into(),
            Some(p) if p < 0.001 => "<.001".into(),
            Some(p) => format!("{p:.3}").trim_start_matches('0').to_owned(),
        };
        table.add_row([
            Cell::new(sides(effect, |side| side.key.clone())),
            Cell::new(sides(effect, |side| {
                format!("{} to {}{}", side.from, side.to, if side.by_line { " (line)" } else { "" })
            })),
            right(format!("{mark} {}", signed(interval.estimate))),
            right(format!("{} to {}", signed(interval.low), signed(interval.high))),
            right(p),
        ]);
    }
    let more =
        if left > 0 { format!("{} more are in effects.csv. ", grouped(left as u64)) } else { String::new() };
    let promise = match correction {
        Correction::Holm => "safe for all effects of this table at once (Holm, 5 %)",
        Correction::BenjaminiHochberg => {
            "for another look: of all that are marked 1 in 20 is false on average (Benjamini-Hochberg)"
        }
    };
    let ratios = effects.on(column).filter_map(|(_, found)| found.variance_ratio);
    let saved = saved_range(ratios).map_or_else(String::new, |saved| {
        format!(
            " Shared draws saved {saved} of the possessions that draws of their own would take (below 0 they cost; \
             variance_ratio in effects.csv)."
        )
    });
    let legend = format!(
        "{more}One line is a main effect: the change when the factor goes from one value to the other, averaged over the cells \
         (line: by a straight line through all values between, so a bend does not show). Two lines are an interaction: by how much the effect of the first \
         changes when the second goes from one value to the other. Intervals each by itself, over possessions, for these \
         cells; ●: {promise}; -: too few possessions, or none that differs from another, to claim by.{saved}"
    );
    format!("{}\n{}\n{}", table.trim_fmt(), wrapped(&legend, width.min(100)), remarks())
}

fn sides(effect: &Effect, told: impl Fn(&Side) -> String) -> String {
    effect.sides.iter().map(told).collect::<Vec<_>>().join("\n")
}
