//! Shooting: what a shot is worth from here, going up for it, and bringing it down again.

use super::candidate::{Action, Thought, Weighed};
use super::hold::{stand, to_rim};
use super::{Hands, fakes, licence, penalties};
use crate::decide::{View, value};
use crate::law::conduct::choice::{EARLY_RISES_OVER_S, SHOT_CLOCK_LATE_S};
use crate::law::conduct::driving::FARTHEST_BACK_Y_M;
use crate::law::conduct::shooting::{
    JUMP_SHOT_FROM_M, LAY_UP_CARRIES_SHARE, LEAST_TO_RELEASE_S, NOT_STOPPED_WITHIN_S, SPOILT_IF_NEARER_BY_M,
    SPOILT_WITHIN_M, WORTH_A_THOUGHT_POINTS,
};
use crate::math::{max, min, vec2};
use crate::state::{Handling, Hold, Progress};

/// A shot from here, released as soon as he can, if he may take it; notes the space that it promises.
pub(super) fn candidate(
    t: &Thought<'_>,
    hold: &mut Hold,
    progress: &Progress,
    by: licence::By,
) -> Option<Weighed> {
    let until_release_s = if t.driving() || !hold.off_catch {
        t.view.given.player(t.view.me.slot).skill.gather_s
    } else {
        max(hold.ready_s - t.view.clock.now, LEAST_TO_RELEASE_S)
    };
    let shot = value::shot(t.view, t.view.me.slot, t.here, until_release_s, hold.off_catch);
    if shot.points <= WORTH_A_THOUGHT_POINTS || !licence::allowed(t, hold, progress, &shot, by) {
        return None;
    }
    hold.shot_space_m = shot.space_m;
    let hasty = if t.untaught() { penalties::early_shot(t, &shot) } else { 0.0 };
    let value_points = shot.points - hasty;
    Some(Weighed { action: Action::Shoot, value_points, chance: shot.chance })
}

/// Goes up for it, after a shown shot where a defender comes too fast.
pub(super) fn carry_out(view: &View<'_>, h: &mut Hands<'_>, driving: bool) {
    let here = view.me.at;
    if here.len() > JUMP_SHOT_FROM_M && fakes::show_shot(view, h) {
        stand(view, h);
        return;
    }
    let gather_s = view.given.player(view.me.slot).skill.gather_s;
    let at_s = if driving || !h.hold.off_catch {
        view.clock.now + gather_s
    } else {
        max(h.hold.ready_s, view.clock.now + LEAST_TO_RELEASE_S)
    };
    h.hold.handling = Handling::Shooting(at_s);
    stand(view, h);
    if driving {
        // The last steps of a lay-up carry him on.
        let on = here + view.me.velocity * (gather_s * LAY_UP_CARRIES_SHARE);
        // Not under the board: he comes up beside the rim.
        let on = vec2(on.x, max(on.y, min(here.y, FARTHEST_BACK_Y_M)));
        h.intent.go(on, f32::INFINITY, to_rim(view));
    }
}

/// On the way up: a hand that has come into his face since makes him bring it down again.
pub(super) fn go_up(view: &View<'_>, h: &mut Hands<'_>, at_s: f32) {
    let left_s = at_s - view.clock.now;
    if left_s > NOT_STOPPED_WITHIN_S && spoilt(view, left_s, h.hold.shot_space_m) {
        h.hold.handling = Handling::Hold;
    }
    stand(view, h);
}

/// Whether a shot that promised so much space has lost what was good about it, with time for a better one.
fn spoilt(view: &View<'_>, left_s: f32, promised_m: f32) -> bool {
    let here = view.me.at;
    let early =
        here.len() > JUMP_SHOT_FROM_M && view.clock.shot_clock > SHOT_CLOCK_LATE_S + EARLY_RISES_OVER_S;
    if !early {
        return false;
    }
    let space_m = value::space_ahead(view, here, left_s);
    space_m < SPOILT_WITHIN_M && space_m < promised_m - SPOILT_IF_NEARER_BY_M
}
