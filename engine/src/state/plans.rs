//! What each player is about: programs of the attackers, duties of the defenders, wishes for the step.

use crate::law::kernel::Wish;
use crate::math::Vec2;
use crate::slots::{NOBODY, Row};
use bevy_ecs::prelude::Component;

/// Whether a perimeter player fills the corner of his side.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fill {
    /// There was no cause.
    No,
    /// There was, and he did not.
    Declined,
    /// He does.
    Corner,
}

/// How one attacker moves without the ball.
#[derive(Clone, Copy, Debug)]
pub struct Plan {
    /// His home.
    pub home: Vec2,
    /// Where the formation has him, whatever his home has become since, m.
    pub set_place: Vec2,
    /// Program that he follows, or `NOBODY`.
    pub program: u8,
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
    pub last_program: u8,
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
    /// Goes to the glass on the present shot.
    pub crashes: bool,
}

pub use crate::setup::PROGRAMS;

/// How one defender works.
#[derive(Clone, Copy, Debug)]
pub struct Duty {
    /// Ball place that he plays by (index of [`crate::setup::BallPlace`]).
    pub place: u8,
    /// Sign of the ball's side, with hysteresis.
    pub ball_side: f32,
    /// Lane that he believes takes the ball.
    pub taker: u8,
    /// The holder for whom that was settled.
    pub taker_of: u8,
    /// He takes the ball himself.
    pub on_ball: bool,
    /// Attacker whom he looks after, or `NOBODY`.
    pub man: u8,
    /// He helps against a drive.
    pub helps: bool,
    /// When the ball came to its place as he believes, s.
    pub place_s: f32,
    /// The one who took the ball first at this place has been bumped off.
    pub bumped: bool,
    /// Who has the ball in his hands as he believes, or `NOBODY` while it flies, and since when, s.
    pub held: (u8, f32),
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
pub struct Wishes {
    /// Targets, caps and facings.
    pub wish: Wish,
    /// Velocity of the target, m/s.
    pub tvx: Row,
    /// Velocity of the target, m/s.
    pub tvy: Row,
    /// 1 where the body is braced.
    pub brace: Row,
}

impl Wishes {
    /// Sets where a lane goes, how fast at most, and where it faces.
    #[inline]
    pub fn go(&mut self, lane: usize, to: Vec2, cap: f32, look: Vec2) {
        self.wish.tx[lane] = to.x;
        self.wish.ty[lane] = to.y;
        self.wish.cap[lane] = cap;
        self.wish.through[lane] = 0.0;
        self.wish.look_x[lane] = look.x;
        self.wish.look_y[lane] = look.y;
        self.tvx[lane] = 0.0;
        self.tvy[lane] = 0.0;
        self.brace[lane] = 0.0;
    }
    /// He finishes his way and waits there: a target that moved stands still.
    #[inline]
    pub fn stay(&mut self, lane: usize) {
        (self.tvx[lane], self.tvy[lane]) = (0.0, 0.0);
        self.wish.through[lane] = 0.0;
    }
    /// The target moves.
    #[inline]
    pub fn moving(&mut self, lane: usize, velocity: Vec2) {
        self.tvx[lane] = velocity.x;
        self.tvy[lane] = velocity.y;
    }
}

/// A plan before the start.
pub fn empty_plan() -> Plan {
    Plan {
        home: Vec2::RIM,
        set_place: Vec2::RIM,
        program: NOBODY,
        step: 0,
        step_s: 0.0,
        arrived_s: f32::INFINITY,
        start_sign: 1.0,
        step_sign: 1.0,
        step_from: Vec2::RIM,
        step_turn: 0.0,
        last_program: NOBODY,
        last_s: f32::NEG_INFINITY,
        passed_s: f32::NEG_INFINITY,
        open_up: Vec2::RIM,
        fill: Fill::No,
        next_open_s: 0.0,
        crashes: false,
    }
}

/// A duty before the start.
pub fn empty_duty() -> Duty {
    Duty {
        place: 0,
        ball_side: 1.0,
        taker: NOBODY,
        taker_of: NOBODY,
        on_ball: false,
        man: NOBODY,
        helps: false,
        place_s: f32::NEG_INFINITY,
        bumped: false,
        held: (NOBODY, f32::NEG_INFINITY),
        burns: 0,
        stunt_s: f32::INFINITY,
        fly: (f32::NEG_INFINITY, Vec2::RIM),
    }
}
