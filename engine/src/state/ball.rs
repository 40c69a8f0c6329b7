//! The ball, and what its holder does with it.

use crate::math::Vec2;
use crate::setup::{Moved, PassKind};
use crate::slots::Slot;
use bevy_ecs::prelude::Component;

/// What the holder does with the ball.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Handling {
    /// Holds or dribbles on the spot.
    Hold,
    /// Drives; the number says which line (-1, 0, 1 of the rim).
    Drive(f32),
    /// Dribbles at a team-mate, who makes way.
    DribbleAt(Slot),
    /// Goes into a shot, released at this time, s.
    Shooting(f32),
    /// Goes into a pass, released at this time, s.
    Passing { to: Slot, kind: PassKind, at_s: f32, look_off: bool },
    /// Shows a pass until this time, s.
    Faking(f32),
}

/// Where the ball is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum BallState {
    /// In a player's hands.
    Held { by: Slot },
    /// Passed.
    Pass(Flight),
    /// Shot; it is at the rim at `rim_s`.
    Shot { by: Slot, rim_s: f32, made: bool, far_m: f32 },
    /// Off the rim; it comes down at `down` at `down_s`.
    Rebound { down: Vec2, down_s: f32 },
    /// Loose after a tip or a fumble; it can be had at `at` from `from_s` on.
    Loose { at: Vec2, from_s: f32, last: Slot, loser: Slot, was_pass: bool },
    /// Nobody's: the possession is over.
    Dead,
}

/// A pass in the air.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Flight {
    /// Passer.
    pub from: Slot,
    /// Receiver meant.
    pub to: Slot,
    /// Kind.
    pub kind: PassKind,
    /// Where it left the hands, m.
    pub start: Vec2,
    /// Where it comes down to the catch height, error included, m.
    pub end: Vec2,
    /// When it left, s.
    pub start_s: f32,
    /// How long it flies, s.
    pub span_s: f32,
    /// What kind of pass it is for the measures.
    pub class: PassClass,
}

/// Kinds of pass as the measures tell them apart.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PassClass {
    /// Round the perimeter, under 7.5 m.
    Swing,
    /// Perimeter to perimeter, 7.5 m and more.
    Skip,
    /// To the high post.
    HighPost,
    /// To the low post.
    LowPost,
    /// Anything else (out of the post, to the short corner).
    Other,
}

/// The ball and what its holder does.
#[derive(Component, Clone, Debug)]
pub struct Ball {
    /// State.
    pub state: BallState,
    /// What the holder does.
    pub handling: Handling,
    /// When the holder got it, s.
    pub caught_s: f32,
    /// From when he could release a shot, s.
    pub ready_s: f32,
    /// Shoots off the catch (no dribble since).
    pub off_catch: bool,
    /// He may drive a seam on this catch.
    pub may_drive: bool,
    /// He may dribble at the other guard on this catch.
    pub may_dribble_at: bool,
    /// Where he is going, dribbling at a team-mate, m.
    pub dribble_to: Vec2,
    /// He may drive past a closeout on this catch.
    pub may_blow_by: bool,
    /// When he last saw a defender come out at him too fast, s.
    pub rushed_s: f32,
    /// He drives a way that he believes open, on this catch.
    pub sees_way: bool,
    /// He means to show a shot to a defender who comes too fast.
    pub shot_fake: bool,
    /// Until when he was still bringing the ball to his place, s.
    pub brought_s: f32,
    /// Whether he means to fake once, and how many fakes he has shown.
    pub fakes_left: u8,
    /// Who passed it to him last.
    pub passer: Option<Slot>,
    /// Where it was when the last holder got it.
    pub last_catch: Vec2,
    /// What the ball's last move did to the zone.
    pub moved: Moved,
    /// Height, m.
    pub height: f32,
    /// When a held ball's loss is due (hazard spent), in units of a unit exponential.
    pub loss_left: f32,
    /// What is left of the holder's luck with his feet, in catches' worth; when it is gone he travels.
    pub steps_left: f32,
    /// What of this hold his feet have not been judged for yet.
    pub feet: Feet,
    /// The read (program index) that made the last catch.
    pub credit: Option<u8>,
    /// Line of the drive weighed last (see the handler's options).
    pub line: f32,
    /// Where a drive off a screen turns the corner, m.
    pub corner: Vec2,
    /// He looks away from the receiver before he passes.
    pub looks_off: bool,
    /// The attack has lost its patience (no shot clock).
    pub impatient: bool,
    /// Where the pass that he caught came from.
    pub came_from: Vec2,
    /// Where the last shot was released.
    pub last_shot: Vec2,
    /// When the drive began, s.
    pub drive_s: f32,
    /// Where it began.
    pub drive_from: Vec2,
    /// A post move has brought him near: he goes up with it or gives it away.
    pub up_with_it: bool,
    /// A post move has been stopped: he will not drive again on this hold.
    pub committed: bool,
    /// Believed chance of the pass that he has in mind.
    pub pass_chance: f32,
    /// Space that he expects at the release of the shot that he weighed last, m.
    pub shot_space_m: f32,
    /// The last shot counts three.
    pub three: bool,
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

impl Default for Ball {
    fn default() -> Self {
        Self {
            state: BallState::Dead,
            handling: Handling::Hold,
            caught_s: 0.0,
            ready_s: 0.0,
            off_catch: false,
            may_drive: false,
            may_dribble_at: false,
            dribble_to: Vec2::RIM,
            may_blow_by: false,
            rushed_s: f32::NEG_INFINITY,
            sees_way: false,
            shot_fake: false,
            brought_s: 0.0,
            fakes_left: 0,
            passer: None,
            last_catch: Vec2::RIM,
            moved: Moved::Little,
            height: 1.1,
            loss_left: 1.0,
            steps_left: f32::INFINITY,
            feet: Feet::STILL,
            credit: None,
            line: 0.0,
            corner: Vec2::RIM,
            looks_off: false,
            impatient: false,
            came_from: Vec2::RIM,
            last_shot: Vec2::RIM,
            drive_s: 0.0,
            drive_from: Vec2::RIM,
            up_with_it: false,
            committed: false,
            pass_chance: 0.0,
            shot_space_m: 0.0,
            three: false,
        }
    }
}
