//! What the man with the ball does with it, and what he has done since he got it.

use crate::math::Vec2;
use crate::setup::PassKind;
use crate::slots::Slot;
use bevy_ecs::prelude::Component;

/// What the holder does with the ball.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Handling {
    /// Holds or dribbles on the spot.
    Hold,
    /// Drives this way.
    Drive(Way),
    /// Dribbles at a team-mate, who makes way.
    DribbleAt(Slot),
    /// Goes into a shot, released at this time, s.
    Shooting(f32),
    /// Goes into a pass, released at this time, s.
    Passing { to: Slot, kind: PassKind, at_s: f32, look_off: bool },
    /// Shows a pass until this time, s.
    Faking(f32),
}

/// A way to the rim.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub enum Way {
    /// Straight at it.
    #[default]
    Straight,
    /// Past it on the side on which the rover started.
    RoverSide,
    /// Past it on the other side.
    OtherSide,
    /// Past the far shoulder of a team-mate who screens the man on the ball.
    OffScreen,
}

impl Way {
    /// Which side of the rim it leads to: 1 the rover's, -1 the other, 0 neither.
    #[inline]
    pub fn lateral(self) -> f32 {
        match self {
            Way::Straight | Way::OffScreen => 0.0,
            Way::RoverSide => 1.0,
            Way::OtherSide => -1.0,
        }
    }
}

/// Moments of a hold at which the feet may go wrong, each judged once.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Feet {
    /// Nothing is called before this time, s.
    pub from_s: f32,
    /// He has to stop after a catch on the run.
    pub stops: bool,
    /// He may still put the ball on the floor.
    pub starts: bool,
    /// He may still take it up for a shot off the dribble.
    pub gathers: bool,
    /// He may still step round a man to pass or to show a pass.
    pub pivots: bool,
}

impl Feet {
    /// Nothing to judge.
    pub const STILL: Feet = Feet { from_s: 0.0, stops: false, starts: false, gathers: false, pivots: false };
}

/// What he may do on this hold besides shooting and passing; offered at random on the catch by the attack's habits.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Leave {
    /// Drive a seam.
    pub drive: bool,
    /// Dribble at the other guard.
    pub dribble_at: bool,
    /// Drive past a defender who closes out too fast.
    pub blow_by: bool,
    /// Drive a way that he believes open.
    pub open_drive: bool,
    /// Show a shot to a defender who comes too fast.
    pub shot_fake: bool,
    /// Pass fakes that he has still to show.
    pub pass_fakes: u8,
    /// Look away from the receiver before he passes.
    pub look_off: bool,
}

/// A drive, or a dribble at a team-mate.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Dribble {
    /// When it began, s.
    pub since_s: f32,
    /// Where it began, m.
    pub from: Vec2,
    /// Way of the drive weighed last.
    pub way: Way,
    /// Where a drive off a screen turns the corner, m.
    pub corner: Vec2,
    /// Where he is going, dribbling at a team-mate, m.
    pub to: Vec2,
    /// A post move has brought him near: he goes up with it or gives it away.
    pub up_with_it: bool,
    /// A post move has been stopped: he will not drive again on this hold.
    pub committed: bool,
}

/// One hold of the ball by one player.
#[derive(Component, Clone, Debug)]
pub struct Hold {
    /// What he does.
    pub handling: Handling,
    /// When he got it, s.
    pub caught_s: f32,
    /// When he began to look round, s: as he learned that the ball was coming.
    pub looks_s: f32,
    /// Looks of the plan that he does not think of on this hold, a bit each.
    pub skips: u16,
    /// The look that is to be forced is taken on this hold where its condition holds.
    pub forces: bool,
    /// From when he could release a shot, s.
    pub ready_s: f32,
    /// Shoots off the catch (no dribble since).
    pub off_catch: bool,
    /// When he last saw a defender come out at him too fast, s.
    pub rushed_s: f32,
    /// Until when he was still bringing the ball to his place, s.
    pub brought_s: f32,
    /// What he may do.
    pub leave: Leave,
    /// His drive or dribble.
    pub dribble: Dribble,
    /// Believed chance of the pass that he has in mind.
    pub pass_chance: f32,
    /// Space that he expects at the release of the shot that he weighed last, m.
    pub shot_space_m: f32,
}

/// What a hold has left before it goes wrong: drawn in advance, and no part of what its holder or anyone else knows.
#[derive(Component, Clone, Copy, Debug)]
pub struct Allowance {
    /// What is left before pressure costs him the ball, in units of a unit exponential.
    pub grip_left: f32,
    /// What is left for footwork, in catches' worth; when it is gone he travels.
    pub steps_left: f32,
    /// What of this hold his feet have not been judged for yet.
    pub feet: Feet,
}

impl Default for Allowance {
    fn default() -> Self {
        Self { grip_left: 1.0, steps_left: f32::INFINITY, feet: Feet::STILL }
    }
}

impl Default for Hold {
    fn default() -> Self {
        Self {
            handling: Handling::Hold,
            caught_s: 0.0,
            looks_s: 0.0,
            skips: 0,
            forces: false,
            ready_s: 0.0,
            off_catch: false,
            rushed_s: f32::NEG_INFINITY,
            brought_s: 0.0,
            leave: Leave::default(),
            dribble: Dribble {
                since_s: 0.0,
                from: Vec2::RIM,
                way: Way::Straight,
                corner: Vec2::RIM,
                to: Vec2::RIM,
                up_with_it: false,
                committed: false,
            },
            pass_chance: 0.0,
            shot_space_m: 0.0,
        }
    }
}
