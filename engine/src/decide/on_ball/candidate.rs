//! What the options of the man with the ball share: the moment at which he thinks, and the shape of a candidate.
//!
//! A candidate is a [`Weighed`] option: an action, its believed value in points, and its chance. Each option's file
//! says when it is one, and what it is worth.

use super::Hands;
use crate::decide::{View, three_seconds, value};
use crate::law::conduct::choice::IMPATIENT_SHARE;
use crate::math::{Vec2, max};
use crate::setup::Moved;
use crate::slots::Slot;
use crate::state::Handling;
pub(super) use crate::state::{Action, Weighed};

/// The moment at which he thinks, built once and handed to every option.
pub(super) struct Thought<'a> {
    /// What he knows and believes.
    pub view: &'a View<'a>,
    /// Where he is, m.
    pub here: Vec2,
    /// What he is doing with the ball.
    pub handling: Handling,
    /// How long he has had it at his place, s.
    pub held_s: f32,
    /// Shot clock left, s (infinite without one).
    pub left_s: f32,
    /// In the lane: time left before he must be out, and time that he needs for it, s.
    pub lane_count: Option<(f32, f32)>,
    /// What the ball's last move did to the zone.
    pub moved: Moved,
    /// Who passed it to him.
    pub passer: Option<Slot>,
    /// Where that one had got it, m.
    pub came_from: Vec2,
    /// What keeping the possession going is worth to him, as a share of its worth to a patient attack.
    patience: f32,
}

impl<'a> Thought<'a> {
    /// The thought of this moment.
    pub fn of(view: &'a View<'a>, h: &Hands<'_>) -> Self {
        Self {
            view,
            here: view.me.at,
            handling: h.hold.handling,
            held_s: view.clock.now - max(h.hold.caught_s, h.hold.brought_s),
            left_s: view.clock.shot_clock,
            lane_count: three_seconds::count(view),
            moved: h.progress.moved,
            passer: h.progress.passer,
            came_from: h.progress.came_from,
            patience: if h.progress.impatient { IMPATIENT_SHARE } else { 1.0 },
        }
    }

    /// Continuation value with the ball at `at` after `spent_s`, after a move of the ball of this kind, held for
    /// `held_s` there already, points.
    pub fn continuation(&self, at: Vec2, spent_s: f32, moved: Moved, held_s: f32) -> f32 {
        self.patience * value::continuation(self.view, at, self.left_s - spent_s, moved, held_s)
    }

    /// Nobody has taught them a plan: taste holds them back.
    pub fn untaught(&self) -> bool {
        self.view.given.setup.attack.plan.is_none()
    }

    /// The attack has lost its patience, as it may where no shot clock hurries it.
    pub fn impatient(&self) -> bool {
        self.patience < 1.0
    }

    /// He is on a drive.
    pub fn driving(&self) -> bool {
        matches!(self.handling, Handling::Drive(_))
    }
}
