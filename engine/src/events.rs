//! What happened in a possession, one row an event, for records of many possessions. A film tells more of a single one.

use crate::record::TurnoverKind;
use crate::setup::PassKind;
use crate::slots::Slot;
use serde::{Deserialize, Serialize};

/// An enumeration with a name in files and a meaning for each of its values.
macro_rules! keyed {
    ($(#[doc = $doc:literal])+ $name:ident { $($(#[doc = $meaning:literal])+ $value:ident = $key:literal,)+ }) => {
        $(#[doc = $doc])+
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
        #[repr(u8)]
        pub enum $name { $($(#[doc = $meaning])+ $value,)+ }

        impl $name {
            /// All of them, in order.
            pub const ALL: &'static [$name] = &[$($name::$value,)+];
            /// Name in files.
            pub const fn key(self) -> &'static str {
                match self { $($name::$value => $key,)+ }
            }
            /// What it is.
            pub const fn meaning(self) -> &'static str {
                match self { $($name::$value => concat!($($meaning),+),)+ }
            }
        }
    };
}

keyed! {
    /// What happened.
    EventKind {
        /// The possession begins; he has the ball.
        Start = "start",
        /// Play begins again after a dead ball that the attack keeps; he has the ball, and all are in their starting places.
        Restart = "restart",
        /// He passes, to the other.
        Pass = "pass",
        /// He gains control of the ball, rebounds and loose balls included.
        Catch = "catch",
        /// His hand touches a pass.
        Tip = "tip",
        /// He picks up a loose ball.
        Pickup = "pickup",
        /// The ball goes out of bounds.
        OutOfBounds = "out-of-bounds",
        /// He shows a pass to the other, or a shot (the other is himself).
        Fake = "fake",
        /// He, a defender, falls for what was shown; the other is the one toward whom it went, and the place is that of the one
        /// who showed it.
        Bite = "bite",
        /// He, with the ball, begins a drive.
        Drive = "drive",
        /// His drive is stopped.
        DriveEnd = "drive-end",
        /// He shoots.
        Shot = "shot",
        /// His shot goes in; the place is where he shot from.
        Made = "made",
        /// His shot misses; the place is where he shot from.
        Missed = "missed",
        /// He has the rebound.
        Rebound = "rebound",
        /// He starts a route, an option or another movement of the attack.
        RouteStart = "route-start",
        /// He goes on to its next leg.
        RouteLeg = "route-leg",
        /// He is done with it, or breaks it off.
        RouteEnd = "route-end",
        /// He, a defender, takes the ball of the other as his duty, and is near.
        PicksUp = "picks-up",
        /// The same from as far away as his zone runs at a receiver from.
        Closeout = "closeout",
        /// He, a defender, steps in front of the other, who drives.
        Helps = "helps",
        /// He fouls the other; the place is that of the attacker of the two.
        Foul = "foul",
        /// He shoots free throws.
        FreeThrows = "free-throws",
        /// He loses the ball, or breaks a rule with it.
        Turnover = "turnover",
        /// He has the ball in a place where it was not before: in the lane, a post or a short corner.
        Touch = "touch",
        /// He, without the ball, begins to stand braced with a defender, the other, against him: a screen or a seal.
        Screen = "screen",
        /// The possession is over.
        End = "end",
    }
}

keyed! {
    /// Which kind of it.
    Detail {
        /// A pass from the chest.
        Chest = "chest",
        /// A pass off the floor.
        Bounce = "bounce",
        /// A pass from above the head.
        Overhead = "overhead",
        /// A lob.
        Lob = "lob",
        /// A touch in the lane, widened by 0.45 m on each side.
        Lane = "lane",
        /// A touch in the low post.
        LowPost = "low-post",
        /// A touch in the high post.
        HighPost = "high-post",
        /// A touch in the short corner.
        ShortCorner = "short-corner",
        /// A shot worth two points.
        Two = "two",
        /// A shot worth three points.
        Three = "three",
        /// A rebound or a foul of the attack.
        Offensive = "offensive",
        /// A rebound of the defence.
        Defensive = "defensive",
        /// A foul on a shot.
        Shooting = "shooting",
        /// A foul of the defence that is none on a shot.
        Common = "common",
        /// The attack keeps the ball.
        Kept = "kept",
        /// The attack loses the ball.
        Lost = "lost",
        /// A turnover: pass taken by a defender.
        Intercepted = "intercepted",
        /// A turnover: pass out of bounds or lost without a steal.
        BadPass = "bad-pass",
        /// A turnover: ball lost from the hands.
        Handling = "handling",
        /// A turnover: travelling and the like.
        Travel = "travel",
        /// A turnover: a foot on a line or beyond it.
        SteppedOut = "stepped-out",
        /// A turnover: offensive foul.
        OffensiveFoul = "offensive-foul",
        /// A turnover: three seconds in the lane.
        ThreeSeconds = "three-seconds",
        /// A turnover: five seconds closely guarded.
        FiveSeconds = "five-seconds",
        /// A turnover: shot clock.
        ShotClock = "shot-clock",
    }
}

impl From<PassKind> for Detail {
    fn from(kind: PassKind) -> Self {
        match kind {
            PassKind::Chest => Self::Chest,
            PassKind::Bounce => Self::Bounce,
            PassKind::Overhead => Self::Overhead,
            PassKind::Lob => Self::Lob,
        }
    }
}

impl From<TurnoverKind> for Detail {
    fn from(kind: TurnoverKind) -> Self {
        match kind {
            TurnoverKind::Intercepted => Self::Intercepted,
            TurnoverKind::BadPass => Self::BadPass,
            TurnoverKind::Handling => Self::Handling,
            TurnoverKind::Travel => Self::Travel,
            TurnoverKind::SteppedOut => Self::SteppedOut,
            TurnoverKind::OffensiveFoul => Self::OffensiveFoul,
            TurnoverKind::ThreeSeconds => Self::ThreeSeconds,
            TurnoverKind::FiveSeconds => Self::FiveSeconds,
            TurnoverKind::ShotClock => Self::ShotClock,
        }
    }
}

/// One event. Who and where are true, not believed; the floor is turned so that the rover starts on the right.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Event {
    /// Time since the start, s.
    pub time_s: f32,
    /// What is left on the shot clock at the end of that step, s; infinite without a shot clock.
    pub shot_clock_s: f32,
    /// Where: across the floor, the rim in the middle, m.
    pub x_m: f32,
    /// Where: toward midcourt from the rim, m.
    pub y_m: f32,
    /// What.
    pub kind: EventKind,
    /// Which kind of it.
    pub detail: Option<Detail>,
    /// Who did it.
    pub by: Option<Slot>,
    /// To, on or against whom.
    pub other: Option<Slot>,
    /// The defender nearest to the place.
    pub nearest: Slot,
    /// How far he is from it, centre to centre, m.
    pub nearest_m: f32,
    /// A pass's length, or a shot's distance from the rim, m.
    pub length_m: Option<f32>,
    /// The chance that a shot goes in, 0-1.
    pub chance: Option<f32>,
    /// Points of a made shot or of free throws; at the end, of the possession.
    pub points: Option<u8>,
    /// The route, option or movement (index into the attack's programs): the one that is started or ended, or that made a
    /// shot.
    pub program: Option<u8>,
}
