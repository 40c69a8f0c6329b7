//! What each player believes, and the events of the ball that he may learn.

use crate::law::conduct::attention::CARRIED_ON_S;
use crate::math::{Vec2, min};
use crate::slots::{BALL, Row, Slot, TEAM, ZERO};
use crate::state::Leg;
use bevy_ecs::prelude::Component;

/// Whose the ball is, as a player believes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Whose {
    /// It is in a player's hands.
    Held(Slot),
    /// A pass to a player is in the air.
    Passed(Slot),
    /// A shot is up; where it will come down nobody knows yet.
    Shot,
    /// A miss comes down.
    Rebound,
    /// It is loose.
    Loose,
}

/// What one player believes of the others.
#[derive(Clone, Debug)]
pub struct Belief {
    /// Believed position at the time of the last look, carried on, m.
    pub x: Row,
    /// Believed position, m.
    pub y: Row,
    /// Believed velocity, m/s.
    pub vx: Row,
    /// Believed velocity, m/s.
    pub vy: Row,
    /// Which way each was turned when he saw him last, unit vector.
    pub fx: Row,
    /// Which way each was turned when he saw him last, unit vector.
    pub fy: Row,
    /// Age of what is believed, s.
    pub age: Row,
    /// Who is noticed in the outer field of view at the moment (0 or 1).
    pub noticed: Row,
    /// Where the eyes point, unit vector.
    pub gaze: Vec2,
    /// Until when the eyes are off the ball, s.
    pub glance_until: f32,
    /// Where they look then.
    pub glance_at: Option<Slot>,
    /// Not before this time will he look away again, s.
    pub next_glance: f32,
    /// Whether the ball is in view.
    pub sees_ball: bool,
    /// How many of the ball's public events he knows.
    pub known: u16,
    /// Where he believes the ball is or is going, m: of a pass where it was meant for, until its receiver has seen enough of
    /// its flight to judge where it comes down.
    pub ball: Vec2,
    /// Whose he believes it to be.
    pub whose: Whose,
    /// From where the last shot that he knows of went up, m: how long it is and from which side it comes.
    pub shot_from: Vec2,
    /// Until when he is fooled by a pass fake, s.
    pub fooled_until: f32,
    /// Where the fake pointed.
    pub fooled_to: Vec2,
    /// He has bitten on a pass shown by who still has the ball: until it leaves those hands he is slower to learn of a pass.
    pub doubts: bool,
    /// Until when he has left his feet for a shot that was shown, s.
    pub jumps_until: f32,
    /// Fakes seen in this possession.
    pub fakes_seen: u8,
    /// What each team-mate is about, as he has seen (attackers).
    pub mates: [Leg; TEAM],
    /// Memory of an attacker has run out and been noted, a bit each.
    pub lost: u16,
}

impl Belief {
    /// Where he sees the ball, m: the last look carried on.
    #[inline]
    pub fn sighted_ball(&self) -> Vec2 {
        self.place(BALL)
    }
    #[inline]
    fn place(&self, n: usize) -> Vec2 {
        let lead = min(self.age[n], CARRIED_ON_S);
        Vec2 { x: self.x[n] + self.vx[n] * lead, y: self.y[n] + self.vy[n] * lead }
    }
    /// Who has the ball in his hands.
    #[inline]
    pub fn holder(&self) -> Option<Slot> {
        match self.whose {
            Whose::Held(by) => Some(by),
            Whose::Passed(_) | Whose::Shot | Whose::Rebound | Whose::Loose => None,
        }
    }
    /// Who has the ball or will have it.
    #[inline]
    pub fn owner(&self) -> Option<Slot> {
        match self.whose {
            Whose::Held(who) | Whose::Passed(who) => Some(who),
            Whose::Shot | Whose::Rebound | Whose::Loose => None,
        }
    }
    /// The ball is in nobody's hands.
    #[inline]
    pub fn flies(&self) -> bool {
        self.holder().is_none()
    }
    /// A pass to this player is in the air.
    #[inline]
    pub fn passed_to(&self, who: Slot) -> bool {
        self.whose == Whose::Passed(who)
    }
    /// Believed position now: the last look carried on for a moment.
    #[inline]
    pub fn at(&self, slot: Slot) -> Vec2 {
        self.place(slot.index())
    }
    /// Where the ball is believed to be now, on the floor: in the air where it was seen last, else in its holder's hands.
    #[inline]
    pub fn ball_now(&self) -> Vec2 {
        match self.whose {
            Whose::Held(_) => self.ball,
            Whose::Passed(_) | Whose::Shot | Whose::Rebound | Whose::Loose => self.sighted_ball(),
        }
    }
    /// Which way a player was turned when he saw him last, unit vector.
    #[inline]
    pub fn facing(&self, slot: Slot) -> Vec2 {
        Vec2 { x: self.fx[slot], y: self.fy[slot] }
    }
    /// Believed velocity.
    #[inline]
    pub fn velocity(&self, slot: Slot) -> Vec2 {
        Vec2 { x: self.vx[slot], y: self.vy[slot] }
    }
}

/// What everyone believes.
#[derive(Component, Clone, Debug, Default)]
pub struct Minds(pub [Belief; 10]);

/// A kind of thing that everyone may learn of the ball.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum BallEvent {
    /// A pass left the hands, toward a place; `look_off` where the passer looked elsewhere.
    Release { to: Slot, at: Vec2, look_off: bool },
    /// A player has the ball.
    Control { by: Slot },
    /// A shot left the hands.
    Shot,
    /// A shot has missed and comes down here.
    Rebound { at: Vec2 },
    /// The ball is loose and falls here.
    Loose { at: Vec2 },
    /// A pass was shown to a player; a shot, where it is the holder himself.
    Fake { to: Slot },
}

/// The last public events of the ball.
#[derive(Component, Clone, Debug)]
pub struct EventQueue {
    /// When and what, ring by event number.
    pub ring: [(f32, BallEvent); EventQueue::LENGTH],
    /// How many there have been.
    pub count: u16,
}

impl EventQueue {
    /// Events kept.
    pub const LENGTH: usize = 8;
    /// Posts an event.
    pub fn post(&mut self, now: f32, event: BallEvent) {
        self.ring[usize::from(self.count) % Self::LENGTH] = (now, event);
        self.count += 1;
    }
}

impl Default for Belief {
    fn default() -> Self {
        Self {
            x: ZERO,
            y: ZERO,
            vx: ZERO,
            vy: ZERO,
            fx: ZERO,
            fy: ZERO,
            age: ZERO,
            noticed: ZERO,
            gaze: Vec2 { x: 0.0, y: 1.0 },
            glance_until: 0.0,
            glance_at: None,
            next_glance: 0.0,
            sees_ball: true,
            known: 0,
            ball: Vec2::RIM,
            whose: Whose::Loose,
            shot_from: Vec2::RIM,
            fooled_until: 0.0,
            fooled_to: Vec2::RIM,
            doubts: false,
            jumps_until: f32::NEG_INFINITY,
            fakes_seen: 0,
            mates: [Leg::NONE; TEAM],
            lost: 0,
        }
    }
}

impl Default for EventQueue {
    fn default() -> Self {
        Self { ring: [(0.0, BallEvent::Shot); EventQueue::LENGTH], count: 0 }
    }
}
