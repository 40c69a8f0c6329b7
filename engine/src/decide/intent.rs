//! What one player wants of the step: his own row of everybody's, and no other.

use crate::math::{Vec2, min, vec2};
use crate::slots::Slot;
use crate::state::Intents;

/// One player's hold on his own intent; what the others are about to do cannot be read from it.
pub struct Intent<'a> {
    intents: &'a mut Intents,
    slot: Slot,
}

impl<'a> Intent<'a> {
    /// The intent of a player.
    pub fn of(intents: &'a mut Intents, slot: Slot) -> Self {
        Self { intents, slot }
    }
    /// Where he is going, m.
    pub fn to(&self) -> Vec2 {
        vec2(self.intents.targets.tx[self.slot], self.intents.targets.ty[self.slot])
    }
    /// Sets where he goes, how fast at most, and where he faces.
    pub fn go(&mut self, to: Vec2, cap_m_s: f32, look: Vec2) {
        self.intents.go(self.slot, to, cap_m_s, look);
    }
    /// He does not brake for the end of his way.
    pub fn run_through(&mut self) {
        self.intents.targets.through[self.slot] = 1.0;
    }
    /// He stands braced.
    pub fn brace(&mut self) {
        self.intents.brace[self.slot] = 1.0;
    }
    /// He goes by way of another place first, without braking for it.
    pub fn turn_aside(&mut self, past: Vec2) {
        self.go_instead(past);
        self.run_through();
    }
    /// He goes here instead, all else as he meant to.
    pub fn go_instead(&mut self, to: Vec2) {
        (self.intents.targets.tx[self.slot], self.intents.targets.ty[self.slot]) = (to.x, to.y);
    }
    /// He brakes for the end of his way, and goes no faster than this, m/s.
    pub fn slow_to(&mut self, cap_m_s: f32) {
        self.intents.targets.through[self.slot] = 0.0;
        self.intents.targets.cap[self.slot] = min(self.intents.targets.cap[self.slot], cap_m_s);
    }
    /// Where he is going moves like this, m/s.
    pub fn moving(&mut self, velocity: Vec2) {
        self.intents.moving(self.slot, velocity);
    }
    /// He finishes his way and waits there.
    pub fn stay(&mut self) {
        self.intents.stay(self.slot);
    }
}
