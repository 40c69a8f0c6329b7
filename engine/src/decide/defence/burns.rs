//! Burns: uncontested catches in range that a defender has seen, and the table that he goes over to when there have been as
//! many as the zone says.

use super::Defender;
use crate::decide::nearest_defender;
use crate::law::conduct::zone_shape::{FIRST_HOLD_STEPS, IN_RANGE_OUTSIDE_ARC_M};
use crate::law::shot::WIDE_OPEN_M;
use crate::setup::Table;
use crate::state::Duty;

/// Counts a catch that he has just learned of, if it was a burn.
pub fn count(d: &Defender<'_>, duty: &mut Duty) {
    let Some(man) = duty.held.0 else { return };
    // The hold that a possession starts with is no catch.
    if d.zone.adjusted.is_none() || d.view.clock.steps < FIRST_HOLD_STEPS {
        return;
    }
    let at = d.view.mind.at(man);
    let in_range = at.len() < d.view.given.setup.court.three_radius_m + IN_RANGE_OUTSIDE_ARC_M;
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
