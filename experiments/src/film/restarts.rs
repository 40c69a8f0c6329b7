//! Where play starts again after a dead ball that the attack keeps. Nobody walks back in the model: from one frame to the
//! next everyone stands in his starting place.

use engine::film::{Film, Slot, What};
use engine::math::Vec2;

/// One start after a dead ball.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Restart {
    /// The first frame of it.
    pub frame: usize,
    /// When that is, s.
    pub time_s: f32,
    /// Who has the ball.
    pub holder: Slot,
    /// Where he stands, m.
    pub at: Vec2,
}

/// All of a film, in order of time.
pub fn of(film: &Film) -> Vec<Restart> {
    let dead = film.events.iter().filter(|event| {
        matches!(event.what, What::Foul { offensive: false, .. } | What::OutOfBounds { retained: true })
    });
    let mut restarts: Vec<Restart> = dead.filter_map(|event| after(film, event.time_s)).collect();
    restarts.dedup();
    restarts
}

/// The start that follows a dead ball at a time; none where free throws or the end follow it.
fn after(film: &Film, time_s: f32) -> Option<Restart> {
    let first = film.frames.partition_point(|frame| frame.time_s < time_s - 1e-4);
    let dead = film.frames.get(first)?;
    let anew = film.frames.get(first + 1)?;
    let holder = anew.holder.filter(|_| dead.holder.is_none() && dead.air.is_none())?;
    Some(Restart { frame: first + 1, time_s: anew.time_s, holder, at: anew.players[usize::from(holder)] })
}
