//! What each player is about: programs of the attackers, duties of the defenders, and what each wants of this step.

use crate::law::kernel::Targets;
use crate::math::Vec2;
use crate::slots::{Row, Slot};
use bevy_ecs::prelude::Component;

/// Whether a player fills an empty place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Fill {
    /// There was no cause.
    No,
    /// There was, and he did not.
    Declined,
    /// He does: the corner of his side.
    Corner,
    /// He does by a rule of his plan: where.
    By(u8, Vec2),
    /// That rule would have had him do it, and he did not think of it.
    Missed(u8),
}

/// How one attacker moves without the ball.
#[derive(Clone, Copy, Debug)]
pub struct Plan {
    /// His home.
    pub home: Vec2,
    /// Where the formation has him, whatever his home has become since, m.
    pub set_place: Vec2,
    /// Program that he follows.
    pub program: Option<u8>,
    /// Step of it.
    pub step: u8,
    /// When the step began, s.
    pub step_s: f32,
    /// When he arrived at it, s (infinite while he has not).
    pub arrived_s: f32,
    /// +1 or -1: the side on which he was when it began.
    pub start_sign: f32,
    /// The ball's side when the step began: a leg does not turn round when the ball is reversed.
    pub step_sign: f32,
    /// Where he was when the step began, m.
    pub step_from: Vec2,
    /// Which way along the arc was the roomier when the step began, +1 or -1; 0 for legs elsewhere.
    pub step_turn: f32,
    /// Program that he ended last and when, for credit.
    pub last_program: Option<u8>,
    /// When that was, s.
    pub last_s: f32,
    /// When he passed the ball last, s.
    pub passed_s: f32,
    /// Small displacement from home to be open, m.
    pub open_up: Vec2,
    /// Whether he fills the corner.
    pub fill: Fill,
    /// When he looks for a better place again, s.
    pub next_open_s: f32,
    /// Whether he goes to the glass on the present shot.
    pub glass: Glass,
}

/// Whether an attacker goes to the glass when the ball is shot.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Glass {
    /// He has not made up his mind: so many are to go, the nearest to the rim.
    Wanted(u8),
    /// He goes.
    Goes,
    /// He does not.
    StaysOut,
}

/// The leg of a movement that an attacker runs: all that says where it leads.
#[derive(Clone, Copy, Debug)]
pub struct Leg {
    /// His home, m.
    pub home: Vec2,
    /// Where the formation has him, m.
    pub set_place: Vec2,
    /// Program of which it is a leg; `None` where he runs none.
    pub program: Option<u8>,
    /// Which step of it.
    pub step: u8,
    /// +1 or -1: the side on which he was when the program began.
    pub start_sign: f32,
    /// +1 or -1: the ball's side when the step began.
    pub step_sign: f32,
    /// Where he was when the step began, m.
    pub step_from: Vec2,
    /// Which way along the arc it leads, +1 or -1; 0 for legs elsewhere.
    pub step_turn: f32,
}

impl Leg {
    /// No movement.
    pub const NONE: Leg = Leg {
        home: Vec2::RIM,
        set_place: Vec2::RIM,
        program: None,
        step: 0,
        start_sign: 1.0,
        step_sign: 1.0,
        step_from: Vec2::RIM,
        step_turn: 0.0,
    };
}

impl Plan {
    /// The present leg.
    #[inline]
    pub fn leg(&self) -> Leg {
        Leg {
            home: self.home,
            set_place: self.set_place,
            program: self.program,
            step: self.step,
            start_sign: self.start_sign,
            step_sign: self.step_sign,
            step_from: self.step_from,
            step_turn: self.step_turn,
        }
    }
}

pub use crate::setup::PROGRAMS;

/// How one defender works.
#[derive(Clone, Copy, Debug)]
pub struct Duty {
    /// Ball place that he plays by (index of [`crate::setup::BallPlace`]).
    pub place: u8,
    /// Sign of the ball's side, with hysteresis.
    pub ball_side: f32,
    /// Who takes the ball, as he believes.
    pub on_ball_defender: Option<Slot>,
    /// The holder for whom that was settled.
    pub on_ball_for: Option<Slot>,
    /// He takes the ball himself.
    pub on_ball: bool,
    /// Attacker whom he looks after.
    pub man: Option<Slot>,
    /// He helps against a drive.
    pub helps: bool,
    /// When the ball came to its place as he believes, s.
    pub place_s: f32,
    /// The one who took the ball first at this place has been bumped off.
    pub bumped: bool,
    /// Who has the ball in his hands as he believes (nobody while it flies), and since when, s.
    pub held: (Option<Slot>, f32),
    /// Uncontested catches in range that he has seen in this possession.
    pub burns: u8,
    /// When he first stepped at the present drive, s (infinite while there is none).
    pub stunt_s: f32,
    /// Until when he runs past a shooter, s, and where to, m.
    pub fly: (f32, Vec2),
}

/// Plans of the attackers, duties of the defenders, and when each decides next.
#[derive(Component, Clone, Debug)]
pub struct Plans {
    /// Attackers.
    pub attack: [Plan; 5],
    /// Defenders.
    pub defence: [Duty; 5],
    /// When each decides next, s.
    pub next_s: [f32; 10],
    /// Until when each attacker leaves each program alone, s.
    pub rest: [[f32; PROGRAMS]; 5],
}

/// What each player wants of the step, the target moving with its own velocity.
#[derive(Component, Clone, Debug, Default)]
pub struct Intents {
    /// Targets, caps and facings.
    pub targets: Targets,
    /// Velocity of the target, m/s.
    pub tvx: Row,
    /// Velocity of the target, m/s.
    pub tvy: Row,
    /// 1 where the body is braced.
    pub brace: Row,
}

impl Intents {
    /// Sets where a player goes, how fast at most, and where it faces.
    #[inline]
    pub fn go(&mut self, slot: Slot, to: Vec2, cap: f32, look: Vec2) {
        self.targets.tx[slot] = to.x;
        self.targets.ty[slot] = to.y;
        self.targets.cap[slot] = cap;
        self.targets.through[slot] = 0.0;
        self.targets.look_x[slot] = look.x;
        self.targets.look_y[slot] = look.y;
        self.tvx[slot] = 0.0;
        self.tvy[slot] = 0.0;
        self.brace[slot] = 0.0;
    }
    /// He finishes his way and waits there: a target that moved stands still.
    #[inline]
    pub fn stay(&mut self, slot: Slot) {
        (self.tvx[slot], self.tvy[slot]) = (0.0, 0.0);
        self.targets.through[slot] = 0.0;
    }
    /// The target moves.
    #[inline]
    pub fn moving(&mut self, slot: Slot, velocity: Vec2) {
        self.tvx[slot] = velocity.x;
        self.tvy[slot] = velocity.y;
    }
}

impl Default for Plan {
    fn default() -> Self {
        Self {
            home: Vec2::RIM,
            set_place: Vec2::RIM,
            program: None,
            step: 0,
            step_s: 0.0,
            arrived_s: f32::INFINITY,
            start_sign: 1.0,
            step_sign: 1.0,
            step_from: Vec2::RIM,
            step_turn: 0.0,
            last_program: None,
            last_s: f32::NEG_INFINITY,
            passed_s: f32::NEG_INFINITY,
            open_up: Vec2::RIM,
            fill: Fill::No,
            next_open_s: 0.0,
            glass: Glass::StaysOut,
        }
    }
}

impl Default for Duty {
    fn default() -> Self {
        Self {
            place: 0,
            ball_side: 1.0,
            on_ball_defender: None,
            on_ball_for: None,
            on_ball: false,
            man: None,
            helps: false,
            place_s: f32::NEG_INFINITY,
            bumped: false,
            held: (None, f32::NEG_INFINITY),
            burns: 0,
            stunt_s: f32::INFINITY,
            fly: (f32::NEG_INFINITY, Vec2::RIM),
        }
    }
}

impl Default for Plans {
    fn default() -> Self {
        Self {
            attack: [Plan::default(); 5],
            defence: [Duty::default(); 5],
            next_s: [0.0; 10],
            rest: [[0.0; PROGRAMS]; 5],
        }
    }
}
