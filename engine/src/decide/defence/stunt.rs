//! The stunt: a driver's neighbours step at him for a moment, as far as the zone says, and recover.

use super::{Defender, Shift};
use crate::law::conduct::help::{STUNT_AHEAD_M, STUNTERS, STUNTS_AT_M_S, STUNTS_WITHIN_M};
use crate::law::conduct::post_defence::POST_WITHIN_M;
use crate::law::floor::way_to_rim;
use crate::math::Vec2;
use crate::state::Duty;

/// His place moved toward a driver, if he is one of the driver's neighbours and the moment is not over.
pub fn place(d: &Defender<'_>, shift: &Shift<'_>, duty: &mut Duty, from: Vec2) -> Option<Vec2> {
    let driver = d.holder().filter(|(_, at, velocity)| {
        velocity.dot(way_to_rim(*at)) >= STUNTS_AT_M_S && at.len() >= POST_WITHIN_M
    });
    let Some((_, at, _)) = driver else {
        duty.stunt_s = f32::INFINITY;
        return None;
    };
    if duty.stunt_s == f32::INFINITY {
        duty.stunt_s = d.view.clock.now;
    }
    let ahead = at + way_to_rim(at) * STUNT_AHEAD_M;
    let over = d.view.clock.now - duty.stunt_s > d.zone.stunt_s;
    let far = (shift.anchor() - ahead).len2() > STUNTS_WITHIN_M * STUNTS_WITHIN_M;
    if over || far || shift.nearer(d.zone, None, ahead) >= STUNTERS {
        return None;
    }
    Some(from + (ahead - from).at_most(d.zone.stunt_m))
}
