//! A closeout that comes too fast: a defender who cannot stop can be driven past, and may leave his feet for a shot shown.

use crate::law::conduct::fakes::{RUSHES_FROM_M_S, RUSHES_WITHIN_M};
use crate::math::Vec2;
use crate::slots::DEFENCE;
use crate::state::Belief;

/// Whether the man with the ball sees a defender come at him too fast.
pub(super) fn comes_too_fast(mind: &Belief, here: Vec2) -> bool {
    DEFENCE.into_iter().any(|slot| {
        let way = here - mind.at(slot);
        let far = way.len();
        far < RUSHES_WITHIN_M && mind.velocity(slot).dot(way) > RUSHES_FROM_M_S * far
    })
}
