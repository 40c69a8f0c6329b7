//! The chances that a decision takes: a player's own, for what decisions are about, and none that the world takes.

use crate::random::{Purpose, Streams};
use crate::slots::Slot;

/// One player's draws for his decisions; nobody else's and none of what will become of a shot, a pass or a whistle can be
/// had from it.
pub struct Draws<'a> {
    streams: &'a mut Streams,
    who: Slot,
}

impl<'a> Draws<'a> {
    /// The draws of a player.
    pub fn of(streams: &'a mut Streams, who: Slot) -> Self {
        Self { streams, who }
    }
    /// Begins a stretch of thought: the number by which its noise is drawn.
    pub fn thought(&mut self) -> u16 {
        self.streams.next_event(self.who, Purpose::Choice)
    }
    /// Decision noise of an option in a stretch of thought: a standard Gumbel value.
    pub fn noise(&mut self, thought: u16, option: u8) -> f32 {
        self.streams.gumbel(self.who, Purpose::Choice, thought, option)
    }
    /// How long until he looks for a better place again, as a share of its spread.
    pub fn restless(&mut self) -> f32 {
        self.streams.uniform(self.who, Purpose::OpenUp)
    }
    /// Whether he fills the corner, which he does with this chance.
    pub fn fills(&mut self, chance: f32) -> bool {
        self.streams.coin(self.who, Purpose::Fill, chance)
    }
    /// Whether he takes an occasion for a program, which he does with this chance.
    pub fn takes_occasion(&mut self, chance: f32) -> bool {
        self.streams.coin(self.who, Purpose::Weight, chance)
    }
}
