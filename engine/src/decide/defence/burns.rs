//! Burns: uncontested catches in range that a defender has seen, and the table that he goes over to when there
//! have been enough.

use super::Defender;
use crate::decide::nearest_defender;
use crate::law::shot::WIDE_OPEN_M;
use crate::setup::Table;
use crate::state::Duty;

/// A catch from no farther outside the arc than this is in range, m. (assumed)
const OUTSIDE_ARC_M: f32 = 0.8;

/// Counts a catch that he has just learned of, if it was a burn.
pub fn count(d: &Defender<'_>, duty: &mut Duty) {
    let Some(man) = duty.held.0 else { return };
    // The hold that a possession starts with is no catch.
    if d.zone.adjusted.is_none() || d.view.clock.steps < 4 {
        return;
    }
    let at = d.view.mind.at(man);
    let in_range = at.len() < d.view.given.setup.court.three_radius_m + OUTSIDE_ARC_M;
    if in_range && nearest_defender(d.view.mind, at).1 >= WIDE_OPEN_M {
        duty.burns = duty.burns.saturating_add(1);
    }
}

/// The table that he plays by.
pub fn table<'z>(d: &Defender<'z>, duty: &Duty) -> &'z Table {
    match &d.zone.adjusted {
        Some(adjusted) if duty.burns >= d.zone.adjust_after => adjusted,
        _ => &d.zone.table,
    }
}
