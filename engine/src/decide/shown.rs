//! What a decision gives away: what the man with the ball shows to everybody, and notes for the measures and the film.
//! It adds to either and can read neither: the ball's events are learned later, and the notes tell what others have done.

use crate::math::Vec2;
use crate::state::{BallEvent, EventQueue, Signal, Signals};

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

/// A way to note something for the measures and the film, and nothing else.
pub struct Notes<'a>(&'a mut Signals);

impl<'a> Notes<'a> {
    /// What is noted goes among these signals.
    pub fn of(signals: &'a mut Signals) -> Self {
        Self(signals)
    }

    /// Notes what happened at this time, s, and place.
    pub fn add(&mut self, now: f32, at: Vec2, what: Signal) {
        self.0.say(now, at, what);
    }
}
