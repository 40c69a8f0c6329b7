//! Continuation value: what keeping the possession going is worth from a place, with so much of the shot clock left.

use crate::decide::View;
use crate::math::Vec2;
use crate::setup::{Moved, State};

/// Net points of a possession that goes on with the ball at `at`, `left_s` on the shot clock, after a move of the ball
/// of this kind, held for `held_s` already. A table of the level, computed by simulation: see [`crate::setup::Continuation`].
pub fn continuation(view: &View<'_>, at: Vec2, left_s: f32, moved: Moved, held_s: f32) -> f32 {
    let setup = &view.given.setup;
    let place = State::place_of(&setup.zone.ball_places, at);
    setup.attackers.skill.continuation.worth(State { place, moved, held_s, left_s })
}
