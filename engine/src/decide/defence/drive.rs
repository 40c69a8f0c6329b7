//! Against a drive: the nearest steps in front of a driver who has beaten his man; a neighbour may step at him
//! and recover.

use super::{Defender, Shift};
use crate::math::{Vec2, min, vec2};
use crate::slots::{DEFENCE, Slot};
use crate::state::{Duty, Signal, Signals, Wishes};

/// A holder who comes at the rim faster than this drives, m/s.
const DRIVES_M_S: f32 = 2.0;
/// The same for one who steps at him early, m/s. (assumed)
const STUNTS_AT_M_S: f32 = 1.5;
/// How long a stunt lasts before he recovers, s. (assumed)
const STUNT_S: f32 = 0.7;
/// Nobody farther from the driver's way than this steps at him, m. (assumed)
const STUNTS_WITHIN_M: f32 = 4.0;

/// Steps in front of a driver who has beaten the man on the ball, if he is the nearest to do so.
pub fn stop(
    d: &Defender<'_>,
    taker: Slot,
    duty: &mut Duty,
    wishes: &mut Wishes,
    signals: &mut Signals,
) -> bool {
    let Some((holder, at, velocity)) = d.holder() else { return false };
    let to_rim = (Vec2::RIM - at).unit_or(vec2(0.0, -1.0));
    let length = at.len();
    if velocity.dot(to_rim) < DRIVES_M_S || !(0.8..=6.0).contains(&length) {
        return false;
    }
    let guard = d.view.whereabouts(taker);
    if guard.len() < length - 0.4 && (guard - at).dot(to_rim) > 0.3 {
        return false;
    }
    let point = at + to_rim * min(1.6, length * 0.5);
    let mine = d.rough_time(d.view.me.slot, point);
    for mate in DEFENCE {
        if mate != d.view.me.slot && mate != taker && d.rough_time(mate, point) < mine {
            return false;
        }
    }
    if !duty.helps {
        signals.say(d.view.clock.now, d.view.me.at, Signal::Helps { by: d.view.me.slot, on: holder });
    }
    duty.helps = true;
    wishes.go(d.view.me.slot, point, f32::INFINITY, (at - d.view.me.at).unit_or(d.view.mind.gaze));
    wishes.brace[d.view.me.slot] = 1.0;
    true
}

/// His place moved toward a driver by the stated stunt, for a moment, if he is one of the driver's neighbours.
pub fn stunt(d: &Defender<'_>, shift: &Shift<'_>, duty: &mut Duty, target: Vec2) -> Option<Vec2> {
    let Some((_, at, velocity)) = d.holder() else {
        duty.stunt_s = f32::INFINITY;
        return None;
    };
    let to_rim = (Vec2::RIM - at).unit_or(vec2(0.0, -1.0));
    if velocity.dot(to_rim) < STUNTS_AT_M_S || at.len() < super::POST_M {
        duty.stunt_s = f32::INFINITY;
        return None;
    }
    if duty.stunt_s == f32::INFINITY {
        duty.stunt_s = d.view.clock.now;
    }
    // The next two to the driver's way but the one on the ball are his neighbours.
    let ahead = at + to_rim * 1.2;
    let mine = (shift.anchors[shift.column] - ahead).len2();
    let nearer = (0..5)
        .filter(|c| *c != shift.column && *c != shift.taker_column)
        .filter(|c| (shift.anchors[*c] - ahead).len2() < mine)
        .count();
    let over = d.view.clock.now - duty.stunt_s > STUNT_S;
    if over || nearer > 1 || mine > STUNTS_WITHIN_M * STUNTS_WITHIN_M {
        return None;
    }
    Some(target + (ahead - target).at_most(d.zone.stunt_m))
}
