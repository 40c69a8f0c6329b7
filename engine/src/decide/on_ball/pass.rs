//! A pass as the ball-handler sees it: whether one would think of it, and what it is worth.

use crate::decide::{View, value};
use crate::law::shot::shooting_ready;
use crate::math::{Vec2, max};
use crate::setup::{Moved, PassKind};
use crate::slots::{DEFENCE, Slot};
use crate::state::Belief;

/// Shorter than this nobody throws a lob, m. (common practice, no source)
const LOB_LEAST_M: f32 = 3.5;
/// Over the hands, into the lane about the rim and the short corner the ball is fed from no farther than the second
/// length, m. (common practice, no source: the post is fed from the wing, the corner or the high post)
const INSIDE_M: f32 = 4.2;
pub const FEED_M: f32 = 6.5;

/// Value and chance of a pass, if it is one that a player would think of.
pub fn worth(
    view: &View<'_>,
    to: Slot,
    kind: PassKind,
    on: &dyn Fn(Vec2, f32, Moved, f32) -> f32,
) -> Option<(f32, f32)> {
    let setup = &view.given.setup;
    let skill = &setup.attackers.skill;
    let here = view.me.at;
    if view.mind.age[to] > 1.2 {
        return None;
    }
    let pass = &skill.pass[kind as usize];
    let at = value::aim_pass(view, kind, here, to, pass.release_s);
    let length = here.distance(at);
    let fits = match kind {
        PassKind::Chest => length > 1.2 && length < 8.5,
        PassKind::Bounce => length > 1.2 && length < 6.0 && at.len() < 6.5,
        // Over the front line into the middle, or across; round the perimeter the chest pass is the quicker.
        PassKind::Overhead => {
            let most = if at.len() < INSIDE_M { FEED_M } else { 14.0 };
            length > if at.len() < 5.0 { 4.0 } else { 5.8 } && length < most
        }
        PassKind::Lob => {
            length > LOB_LEAST_M
                && length < 7.0
                && at.len() < 4.0
                && at.y > -0.4
                && here.len() > 3.0
                && fronted(view.mind, here, at)
        }
    };
    // Nobody throws over the top to a man who is walking away.
    let away = view.mind.velocity(to).dot((at - here).unit_or(Vec2::RIM)) > 1.5;
    if !fits || !pass.reaches(kind, length) || (away && kind == PassKind::Lob) {
        return None;
    }
    let span = pass.release_s + pass.flight_s(kind, length);
    let chance = value::completion(view, kind, here, at, to, pass.release_s);
    let ready = span + shooting_ready(view.team.catch_to_release_s(to), at);
    let shot = value::shot(view, to, at, ready, true).points;
    let next = on(at, span, Moved::of(here, at), 0.0);
    let caught = max(shot, next);
    Some((chance * caught + (1.0 - chance) * skill.going_on.after_loss, chance))
}

/// A defender stands on the ball's side of the receiver, close: only a pass over him gets there.
fn fronted(mind: &Belief, from: Vec2, to: Vec2) -> bool {
    let way = (from - to).unit_or(Vec2::RIM);
    DEFENCE.into_iter().any(|slot| {
        let off = mind.at(slot) - to;
        // Within an arm's length and 45 degrees of the pass's line.
        let along = off.dot(way);
        off.len2() < 0.9 * 0.9 && along > 0.0 && along * along > 0.5 * off.len2()
    })
}
