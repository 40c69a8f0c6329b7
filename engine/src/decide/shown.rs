//! What the man with the ball shows to everybody: he adds to the ball's events, and reads none before he learns them.

use crate::state::{BallEvent, EventQueue};

/// A way to show something, and nothing else.
pub struct Shown<'a>(&'a mut EventQueue);

impl<'a> Shown<'a> {
    /// What is shown goes into this queue.
    pub fn of(events: &'a mut EventQueue) -> Self {
        Self(events)
    }

    /// Shows it at this time, s.
    pub fn post(&mut self, now: f32, event: BallEvent) {
        self.0.post(now, event);
    }
}
