//! Passing: which passes the man with the ball would think of, what each is worth, throwing one and pulling it back.
//! The chance that it arrives is computed in `decide/value/pass.rs`.

use super::candidate::{Action, Thought, Weighed};
use super::hold::stand;
use super::{Hands, fakes};
use crate::decide::View;
use crate::decide::value::{self, PassTry};
use crate::law::conduct::choice::{CAME_FROM_SIDE_M, REVERSES_WITHIN_S};
use crate::law::conduct::passing::{
    BOUNCE_ENDS_WITHIN_M, FEED_ENDS_WITHIN_M, FEED_M, FRONTED_COS2, FRONTED_WITHIN_M, LEFT_OF_RELEASE_S,
    LOB_ENDS_FROM_Y_M, LOB_ENDS_WITHIN_M, LOB_FROM_M, LONGEST_BOUNCE_M, LONGEST_LOB_M, LONGEST_OVERHEAD_M,
    OVERHEAD_MIDDLE_M, PULLED_BACK_FALL, RECEIVER_SEEN_WITHIN_S, SHORTEST_LOB_M, SHORTEST_OVERHEAD_IN_M,
    SHORTEST_OVERHEAD_M, SHORTEST_PASS_M, WALKS_AWAY_M_S,
};
use crate::law::shot::shooting_ready;
use crate::math::{Vec2, max};
use crate::setup::{Moved, PassKind};
use crate::slots::{DEFENCE, Slot};
use crate::state::{Belief, Handling};

/// The pass to a team-mate, of the kind that is worth most: how to throw it there is a matter of skill, not of taste.
pub(super) fn candidate(t: &Thought<'_>, to: Slot) -> Option<Weighed> {
    let mut best: Option<(PassKind, f32, f32)> = None;
    for kind in PassKind::ALL {
        if let Some((worth, chance)) = worth(t, to, kind)
            && best.is_none_or(|b| worth > b.1)
        {
            best = Some((kind, worth, chance));
        }
    }
    let (kind, worth, chance) = best?;
    let value_points = worth + reversal_bonus(t, to);
    Some(Weighed { action: Action::Pass(to, kind), value_points, chance })
}

/// What the habit of reversing the ball adds to a guard's pass to the other guard, points.
fn reversal_bonus(t: &Thought<'_>, to: Slot) -> f32 {
    let between_guards = to.is_guard() && t.view.me.slot.is_guard();
    if t.untaught() && between_guards && t.held_s < REVERSES_WITHIN_S && came_from_side(t) {
        t.view.given.setup.attack.habits.reversal_urge_points
    } else {
        0.0
    }
}

/// The ball came to him from the side, so that the next pass would reverse it.
fn came_from_side(t: &Thought<'_>) -> bool {
    let off = t.came_from - t.here;
    off.len2() > CAME_FROM_SIDE_M * CAME_FROM_SIDE_M && off.x * t.here.x > 0.0
}

/// Worth and chance of a pass, if it is one that a player would think of.
fn worth(t: &Thought<'_>, to: Slot, kind: PassKind) -> Option<(f32, f32)> {
    let view = t.view;
    let skill = &view.given.player(view.me.slot).skill;
    if view.mind.age[to] > RECEIVER_SEEN_WITHIN_S {
        return None;
    }
    let throw = &skill.pass[kind as usize];
    let pass = PassTry::aimed(view, kind, to, throw.release_s);
    let length = pass.length_m();
    if !thought_of(view, &pass, length) {
        return None;
    }
    let span = throw.release_s + throw.flight_within_reach_s(kind, length)?;
    let chance = pass.completion(view);
    let ready = span + shooting_ready(view.team.catch_to_release_s(to), pass.to);
    let shot = value::shot(view, to, pass.to, ready, true).points;
    let next = t.continuation(pass.to, span, Moved::of(t.here, pass.to), 0.0);
    let caught = max(shot, next);
    let lost = view.given.setup.attackers.skill.continuation.after_loss;
    Some((chance * caught + (1.0 - chance) * lost, chance))
}

/// Whether a player would think of a pass of this kind and length.
fn thought_of(view: &View<'_>, pass: &PassTry, length: f32) -> bool {
    let (here, at) = (pass.from, pass.to);
    match pass.kind {
        // Its steepness bounds its length ([`PassSkill::flight_within_reach_s`]).
        PassKind::Chest => length > SHORTEST_PASS_M,
        PassKind::Bounce => {
            length > SHORTEST_PASS_M && length < LONGEST_BOUNCE_M && at.len() < BOUNCE_ENDS_WITHIN_M
        }
        // Over the front line into the middle, or across; round the perimeter the chest pass is the quicker.
        PassKind::Overhead => {
            let least =
                if at.len() < OVERHEAD_MIDDLE_M { SHORTEST_OVERHEAD_IN_M } else { SHORTEST_OVERHEAD_M };
            let most = if at.len() < FEED_ENDS_WITHIN_M { FEED_M } else { LONGEST_OVERHEAD_M };
            (length > least || too_far_from_the_chest(view, length)) && length < most
        }
        PassKind::Lob => {
            length > SHORTEST_LOB_M
                && length < LONGEST_LOB_M
                && at.len() < LOB_ENDS_WITHIN_M
                && at.y > LOB_ENDS_FROM_Y_M
                && here.len() > LOB_FROM_M
                && fronted(view.mind, here, at)
                && !walks_away(view.mind, pass)
        }
    }
}

/// Whether a pass is longer than he can throw one from the chest.
fn too_far_from_the_chest(view: &View<'_>, length: f32) -> bool {
    let chest = &view.given.player(view.me.slot).skill.pass[PassKind::Chest as usize];
    chest.flight_within_reach_s(PassKind::Chest, length).is_none()
}

/// A defender stands on the ball's side of the receiver, close: only a pass over him gets there.
fn fronted(mind: &Belief, from: Vec2, to: Vec2) -> bool {
    let way = (from - to).unit_or(Vec2::RIM);
    DEFENCE.into_iter().any(|slot| {
        let off = mind.at(slot) - to;
        let along = off.dot(way);
        off.len2() < FRONTED_WITHIN_M * FRONTED_WITHIN_M
            && along > 0.0
            && along * along > FRONTED_COS2 * off.len2()
    })
}

/// The receiver is walking away: nobody throws over the top to him.
fn walks_away(mind: &Belief, pass: &PassTry) -> bool {
    let way = (pass.to - pass.from).unit_or(Vec2::RIM);
    mind.velocity(pass.receiver).dot(way) > WALKS_AWAY_M_S
}

/// Throws it, or shows another one first.
pub(super) fn carry_out(
    view: &View<'_>,
    h: &mut Hands<'_>,
    (to, kind): (Slot, PassKind),
    chance: f32,
    driving: bool,
) {
    if !driving && fakes::show_pass(view, h, to) {
        return;
    }
    let release_s = view.given.player(view.me.slot).skill.pass[kind as usize].release_s;
    let look_off = h.hold.leave.look_off;
    h.hold.pass_chance = chance;
    h.hold.handling = Handling::Passing { to, kind, at_s: view.clock.now + release_s, look_off };
    stand(view, h);
}

/// On its way out of the hands: a hand that has come into the way since makes him keep the ball.
pub(super) fn bring_out(view: &View<'_>, h: &mut Hands<'_>, to: Slot, kind: PassKind) {
    let pass = PassTry::aimed(view, kind, to, LEFT_OF_RELEASE_S);
    if pass.completion(view) < h.hold.pass_chance - PULLED_BACK_FALL {
        h.hold.handling = Handling::Hold;
    }
    stand(view, h);
}
