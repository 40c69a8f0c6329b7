//! Help on a drive: the defender who is there first steps in front of a driver who has beaten the man on the ball.

use super::Defender;
use crate::decide::intent::Intent;
use crate::decide::shown::Notes;
use crate::law::conduct::help::{
    DRIVE_FROM_M_S, NOT_BEATEN_AHEAD_M, NOT_BEATEN_NEARER_M, STEPS_IN_AHEAD_M, STEPS_IN_FROM_M,
};
use crate::law::floor::way_to_rim;
use crate::math::{Vec2, min};
use crate::slots::{DEFENCE, Slot};
use crate::state::{Duty, Signal};

/// Steps in front of a driver who has beaten the on-ball defender, if he is there before the others.
pub fn step_in(
    d: &Defender<'_>,
    on_ball_defender: Slot,
    duty: &mut Duty,
    intent: &mut Intent<'_>,
    notes: &mut Notes<'_>,
) -> bool {
    let Some((holder, at, velocity)) = d.holder() else { return false };
    let to_rim = way_to_rim(at);
    let rim_m = at.len();
    let drives = velocity.dot(to_rim) >= DRIVE_FROM_M_S;
    if !drives || !(STEPS_IN_FROM_M..=d.zone.help_within_m).contains(&rim_m) {
        return false;
    }
    let guard = d.view.whereabouts(on_ball_defender);
    if guard.len() < rim_m - NOT_BEATEN_NEARER_M && (guard - at).dot(to_rim) > NOT_BEATEN_AHEAD_M {
        return false;
    }
    let (me, point) = (d.view.me.slot, at + to_rim * min(STEPS_IN_AHEAD_M, rim_m * 0.5));
    if !first_there(d, on_ball_defender, point) {
        return false;
    }
    if !duty.helps {
        notes.add(d.view.clock.now, d.view.me.at, Signal::Helps { by: me, on: holder });
    }
    duty.helps = true;
    intent.go(point, f32::INFINITY, (at - d.view.me.at).unit_or(d.view.mind.gaze));
    intent.brace();
    true
}

/// Whether he is at a point before every team-mate off the ball.
fn first_there(d: &Defender<'_>, on_ball_defender: Slot, point: Vec2) -> bool {
    let me = d.view.me.slot;
    let mine = d.rough_time(me, point);
    DEFENCE
        .into_iter()
        .filter(|mate| *mate != me && *mate != on_ball_defender)
        .all(|mate| d.rough_time(mate, point) >= mine)
}
