//! Effects as a table to be read.

use comfy_table::Cell;

use super::paired::saved;
use super::ranked::{empty, right};
use crate::columns::Column;
use crate::effects::{Effect, Effects, Found, Side};
use crate::gains::counted;
use crate::stats::{CLAIMED_P, Correction};
use crate::wording::{bare, grouped};
use crate::wrapping::wrapped;

/// Effects that are shown; the file has all.
const SHOWN: usize = 24;

/// The effects on a column, main ones first and the largest first, and what the design cannot tell. Without a correction, as of a
/// design that is not whole, nothing is claimed of them.
pub(crate) fn effects_text(
    effects: &Effects,
    column: &Column,
    (correction, width): (Option<Correction>, usize),
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
        right(correction.map_or_else(|| "p, alone".into(), |correction| format!("p, {}", correction.name()))),
        right("pairing\nsaves".into()),
    ]);
    for (effect, found) in found.into_iter().take(SHOWN) {
        let interval = found.difference.interval;
        let signed = |value: f64| {
            let text = bare(column, value);
            if value > 0.0 { format!("+{text}") } else { text }
        };
        let corrected = correction.and_then(|correction| found.corrected(correction));
        let mark = if corrected.is_some_and(|p| p <= CLAIMED_P) { "●" } else { " " };
        let p = match corrected.or(correction.is_none().then_some(found.difference.p)) {
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
            right(found.variance_ratio.map_or("-".into(), saved)),
        ]);
    }
    let more = match (left, correction) {
        (0, _) => String::new(),
        (left, None) => format!("{} more are not shown. ", grouped(left as u64)),
        (left, _) => format!("{} more are in effects.csv. ", grouped(left as u64)),
    };
    let claimed = match correction {
        Some(Correction::Holm) => {
            "; ●: safe for all effects of this table at once (Holm, 5 %); -: too few possessions, or none that differs from \
             another, to claim by"
        }
        Some(Correction::BenjaminiHochberg) => {
            "; ●: for another look, no verdict: over many such tables, those without a mark counted in, at most 1 mark in 20 \
             is false (Benjamini-Hochberg); -: too few possessions, or none that differs from another, to mark by"
        }
        None => "",
    };
    let legend = format!(
        "{more}One line is a main effect: the change when the factor goes from one value to the other, averaged over the cells \
         (line: by a straight line through all values between, so a bend does not show). Two lines are an interaction: by how much the effect of the first \
         changes when the second goes from one value to the other. Intervals each by itself, over possessions, for these \
         cells{claimed}. Pairing saves: of the possessions that draws of their own would take; below 0 it costs."
    );
    format!("{}\n{}\n{}", table.trim_fmt(), wrapped(&legend, width.min(100)), remarks())
}

fn sides(effect: &Effect, told: impl Fn(&Side) -> String) -> String {
    effect.sides.iter().map(told).collect::<Vec<_>>().join("\n")
}
