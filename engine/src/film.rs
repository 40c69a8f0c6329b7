//! One possession as it was played: frames and a told trace. Written only when a film is asked for; it
//! changes nothing in the possession.

use crate::math::Vec2;
use crate::record::{Outcome, PossessionRecord};
use crate::setup::{PassKind, ProgramKind};

pub use crate::record::TurnoverKind;
pub use crate::slots::Slot;
pub use crate::state::{Action, Look, Stress, Weighed};

/// A whole film.
#[derive(Clone, Debug)]
pub struct Film {
    /// The record, equal to the one that a batch gives.
    pub record: PossessionRecord,
    /// +1 where the rover started on the right, -1 on the left.
    pub side: f32,
    /// One frame a step.
    pub frames: Vec<Frame>,
    /// What happened, in order of time.
    pub events: Vec<Event>,
}

/// Where everyone was at one step.
#[derive(Clone, Copy, Debug)]
pub struct Frame {
    /// Time since the start, s.
    pub time_s: f32,
    /// Players, m.
    pub players: [Vec2; 10],
    /// Where their bodies face, unit vectors.
    pub facing: [Vec2; 10],
    /// Ball on the floor, m.
    pub ball: Vec2,
    /// Ball's height, m.
    pub ball_height_m: f32,
    /// Who holds the ball.
    pub holder: Option<Slot>,
    /// Where the ball is going while nobody holds it; `None` where it is held or dead.
    pub air: Option<Air>,
    /// The look of the man with the ball, as the measures judge it; `None` once the possession is over.
    pub look: Option<Look>,
    /// How the zone is stretched, as the measures count it; `None` where they do not count it.
    pub stress: Option<Stress>,
    /// The passing lane from the man with the ball to each attacker; `None` to himself, or where nobody has the ball.
    pub lanes: [Option<PassLane>; 5],
    /// Attackers without the ball who stand braced with a defender against them: screens and seals.
    pub braced: [bool; 5],
    /// What each player sees and believes.
    pub views: [View; 10],
}

/// A ball that nobody holds.
#[derive(Clone, Copy, Debug, PartialEq)]
#[expect(missing_docs, reason = "the fields say what they are; places are metres")]
pub enum Air {
    /// A pass, from where it left the hands to where it comes down.
    Pass { from: Slot, to: Slot, kind: PassKind, start: Vec2, end: Vec2 },
    /// A shot, from where it left the hands.
    Shot { by: Slot, start: Vec2 },
    /// Off the rim, to where it comes down.
    Rebound { down: Vec2 },
    /// Loose, and where it can be had.
    Loose { at: Vec2 },
}

/// The straight way from the man with the ball to a team-mate.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PassLane {
    /// Distance of the nearest defender from it, on the floor, m.
    pub clear_m: f32,
    /// Who that is.
    pub nearest: Slot,
    /// What the man with the ball thought of the pass when he weighed it last on this hold; `None` where he
    /// did not think of it.
    pub thought: Option<Weighed>,
}

/// What one player sees and believes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct View {
    /// Where his eyes point, unit vector.
    pub gaze: Vec2,
    /// Where he believes each player to be, m; his own place means nothing.
    pub players: [Vec2; 10],
    /// How old that is, s.
    pub age_s: [f32; 10],
    /// Where he believes the ball to be or to be going, m.
    pub ball: Vec2,
    /// The ball is in his view.
    pub sees_ball: bool,
    /// Players whose remembered place has become useless to him, one bit each.
    pub lost: u16,
}

/// One thing that happened.
#[derive(Clone, Debug)]
pub struct Event {
    /// Time since the start, s.
    pub time_s: f32,
    /// Where, m.
    pub at: Vec2,
    /// What.
    pub what: What,
}

/// What happened.
#[derive(Clone, Debug)]
#[expect(missing_docs, reason = "the fields say what they are; units are in their names")]
pub enum What {
    /// The possession begins with the ball in these hands.
    Start { holder: Slot },
    /// The ball-handler weighed his options; `chosen` is an index into `options`, best value first.
    Decision { by: Slot, options: Vec<Weighed>, chosen: usize },
    /// A pass is released; `look_off` where the passer looks elsewhere.
    Pass { from: Slot, to: Slot, kind: PassKind, metres: f32, look_off: bool },
    /// A player gains control; `late_s` is what a poor catch costs.
    Catch { by: Slot, late_s: f32 },
    /// A defender's hand touches a pass.
    Tip { by: Slot },
    /// A loose ball is picked up.
    Pickup { by: Slot },
    /// The ball goes out of bounds; `retained` where the attack keeps it.
    OutOfBounds { retained: bool },
    /// A pass fake is shown (`bitten` 0), or these defenders bite on it (bit mask by player).
    Fake { by: Slot, toward: Slot, bitten: u16 },
    /// A drive begins.
    DriveStart { by: Slot },
    /// A drive is stopped.
    DriveStop { by: Slot },
    /// A shot is released.
    Shot { by: Slot, metres: f32, space_m: f32, chance: f32, three: bool, open: bool },
    /// The shot goes in.
    Made { by: Slot, points: u8 },
    /// The shot misses.
    Missed { by: Slot },
    /// A rebound.
    Rebound { by: Slot, offensive: bool },
    /// A player starts a program (by index into the attack's programs).
    ProgramStart { by: Slot, program: u8, kind: ProgramKind },
    /// He goes on to this step.
    ProgramStep { by: Slot, program: u8, step: u8 },
    /// He is done with it.
    ProgramEnd { by: Slot, program: u8 },
    /// A defender takes the ball as his duty.
    TakesBall { by: Slot, of: Slot },
    /// A defender leaves his man and steps in front of a driver.
    Helps { by: Slot, on: Slot },
    /// A defender loses sight of an attacker for so long that his memory of him is worthless.
    Loses { by: Slot, whom: Slot },
    /// A foul: by whom on whom; the attack's own foul where `offensive`.
    Foul { by: Slot, on: Slot, offensive: bool, shooting: bool },
    /// Free throws.
    FreeThrows { by: Slot, made: u8, of: u8 },
    /// A turnover.
    Turnover { kind: TurnoverKind, by: Slot },
    /// The end.
    End { outcome: Outcome, points: u8 },
}
