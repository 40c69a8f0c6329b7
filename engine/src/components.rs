//! The components of a possession entity: its ten players as lanes, its ball, clocks, minds and tally.

use crate::film::{Action, TurnoverKind, Weighed};
use crate::lanes::{NOBODY, Row, ZERO};
use crate::math::Vec2;
use crate::measures::Measure;
use crate::motion::kernel::{Gait, Rows, Wish};
use crate::record::Outcome;
use crate::setup::PassKind;
use bevy_ecs::prelude::Component;

/// Where the possession stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Status {
    /// The slot holds no possession.
    Idle,
    /// Being played.
    Playing,
    /// Over; its record may be taken.
    Done(Outcome),
}

/// Clocks and the state of play.
#[derive(Component, Clone, Debug)]
pub struct Clocks {
    /// Idle, playing or done.
    pub status: Status,
    /// The possession's number.
    pub possession: u64,
    /// Time since the start at the end of this step, s.
    pub now: f32,
    /// Steps played.
    pub steps: u32,
    /// Shot clock left, s (infinite without one).
    pub shot_clock: f32,
    /// Time that each attacker has been in the lane, s.
    pub in_lane: [f32; 5],
    /// Time that the holder has held (not dribbled) the ball closely guarded, s.
    pub guarded: f32,
    /// The attack shoots free throws on a common foul.
    pub bonus: bool,
    /// The zone shifts on the passer's release rather than on the catch.
    pub shift_on_release: bool,
    /// When contact with each defender was last judged, s.
    pub judged_s: [f32; 5],
    /// A dead ball: everyone goes back to his place before this step goes on.
    pub reset_set: bool,
    /// No offensive rebound yet.
    pub first_chance: bool,
    /// The measures of a finished possession are closed.
    pub counted: bool,
}

/// Positions, velocities, facings and the step's displacement, metres and m/s. The ball's lane holds its
/// place on the floor.
#[derive(Component, Clone, Debug, Default)]
pub struct Bodies(pub Rows);

impl Bodies {
    /// Position of a lane.
    #[inline]
    pub fn at(&self, lane: usize) -> Vec2 {
        Vec2 { x: self.0.px[lane], y: self.0.py[lane] }
    }
    /// Velocity of a lane.
    #[inline]
    pub fn velocity(&self, lane: usize) -> Vec2 {
        Vec2 { x: self.0.vx[lane], y: self.0.vy[lane] }
    }
    /// Facing of a lane.
    #[inline]
    pub fn facing(&self, lane: usize) -> Vec2 {
        Vec2 { x: self.0.fx[lane], y: self.0.fy[lane] }
    }
    /// Moves a lane somewhere, at rest.
    pub fn put(&mut self, lane: usize, at: Vec2) {
        self.0.px[lane] = at.x;
        self.0.py[lane] = at.y;
        self.0.vx[lane] = 0.0;
        self.0.vy[lane] = 0.0;
    }
}

/// What each player can do, individual differences drawn.
#[derive(Component, Clone, Debug, Default)]
pub struct Traits {
    /// Movement.
    pub gait: Gait,
    /// Torso radius, m.
    pub radius: Row,
    /// Inverse mass (strength in it), unbraced, 1/kg.
    pub inv_mass: Row,
    /// Inverse mass of a braced body, 1/kg.
    pub braced_inv_mass: Row,
    /// Sprint time constant, s.
    pub tau: Row,
    /// Simple reaction less half a decision period, s.
    pub reaction: Row,
    /// Standing and lunging reach of a hand, m.
    pub arm: Row,
    /// Lunging reach, m.
    pub lunge: Row,
    /// Height that a hand reaches standing, m.
    pub standing_reach: Row,
    /// Shooting, logit added.
    pub shooting: Row,
    /// Catch to release with the feet set, s.
    pub catch_to_release: Row,
}

/// Where everyone was, for reactions: a ring of the last positions and velocities.
#[derive(Component, Clone, Debug)]
pub struct History {
    /// Positions and velocities, by age.
    pub ring: [Sample; History::LENGTH],
    /// Index of the newest.
    pub newest: usize,
}

impl History {
    /// Samples kept.
    pub const LENGTH: usize = 16;
}

/// One sample of the history.
#[derive(Clone, Copy, Debug)]
pub struct Sample {
    /// Position, m.
    pub x: Row,
    /// Position, m.
    pub y: Row,
    /// Velocity, m/s.
    pub vx: Row,
    /// Velocity, m/s.
    pub vy: Row,
}

impl Sample {
    /// All zero.
    pub const EMPTY: Sample = Sample { x: ZERO, y: ZERO, vx: ZERO, vy: ZERO };
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
    /// Age of what is believed, s.
    pub age: Row,
    /// Who is noticed in the outer field of view at the moment (0 or 1).
    pub noticed: Row,
    /// Where the eyes point, unit vector.
    pub gaze: Vec2,
    /// Until when the eyes are off the ball, s.
    pub glance_until: f32,
    /// Where they look then.
    pub glance_at: u8,
    /// Not before this time will he look away again, s.
    pub next_glance: f32,
    /// Whether the ball is in view.
    pub sees_ball: bool,
    /// How many of the ball's public events he knows.
    pub known: u16,
    /// Where he believes the ball is or is going, m.
    pub ball: Vec2,
    /// Who he believes has it or will have it.
    pub holder: u8,
    /// Whether he believes it to be in the air.
    pub in_air: bool,
    /// When he learned of the ball's last event, s.
    pub told_at: f32,
    /// Until when he is fooled by a pass fake, s.
    pub fooled_until: f32,
    /// Where the fake pointed.
    pub fooled_to: Vec2,
    /// Fakes seen in this possession.
    pub fakes_seen: u8,
    /// Memory of an attacker has run out and been noted, a bit each.
    pub lost: u16,
}

impl Belief {
    /// Believed position now: the last look carried on for at most a quarter of a second.
    #[inline]
    pub fn at(&self, lane: usize) -> Vec2 {
        let lead = crate::math::min(self.age[lane], 0.25);
        Vec2 { x: self.x[lane] + self.vx[lane] * lead, y: self.y[lane] + self.vy[lane] * lead }
    }
    /// Believed velocity.
    #[inline]
    pub fn velocity(&self, lane: usize) -> Vec2 {
        Vec2 { x: self.vx[lane], y: self.vy[lane] }
    }
}

/// What everyone believes.
#[derive(Component, Clone, Debug)]
pub struct Minds(pub [Belief; 10]);

/// A kind of thing that everyone may learn of the ball.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum News {
    /// A pass left the hands, toward a place; `look_off` where the passer looked elsewhere.
    Release { to: u8, at: Vec2, look_off: bool },
    /// A player has the ball.
    Control { by: u8 },
    /// A shot left the hands.
    Shot,
    /// The ball is loose and falls here.
    Loose { at: Vec2 },
    /// A pass was shown to a player.
    Fake { to: u8 },
}

/// The last public events of the ball.
#[derive(Component, Clone, Debug)]
pub struct Board {
    /// When and what, ring by event number.
    pub news: [(f32, News); Board::LENGTH],
    /// How many there have been.
    pub count: u16,
}

impl Board {
    /// Events kept.
    pub const LENGTH: usize = 8;
    /// Posts an event.
    pub fn post(&mut self, now: f32, news: News) {
        self.news[usize::from(self.count) % Self::LENGTH] = (now, news);
        self.count += 1;
    }
}

/// What the holder does with the ball.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Handling {
    /// Holds or dribbles on the spot.
    Hold,
    /// Drives; the number says which line (-1, 0, 1 of the rim).
    Drive(f32),
    /// Goes into a shot, released at this time, s.
    Shooting(f32),
    /// Goes into a pass, released at this time, s.
    Passing { to: u8, kind: PassKind, at_s: f32, look_off: bool },
    /// Shows a pass until this time, s.
    Faking(f32),
}

/// Where the ball is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum BallState {
    /// In a player's hands.
    Held { by: u8 },
    /// Passed.
    Pass(Flight),
    /// Shot; it is at the rim at `rim_s`.
    Shot { by: u8, rim_s: f32, made: bool, far_m: f32 },
    /// Off the rim; it comes down at `down` at `down_s`.
    Rebound { down: Vec2, down_s: f32 },
    /// Loose after a tip or a fumble; it can be had at `at` from `from_s` on.
    Loose { at: Vec2, from_s: f32, last: u8, loser: u8, was_pass: bool },
    /// Nobody's: the possession is over.
    Dead,
}

/// A pass in the air.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Flight {
    /// Passer.
    pub from: u8,
    /// Receiver meant.
    pub to: u8,
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
    /// Defenders who have had their chance at it (bit mask).
    pub tried: u16,
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
    /// He may drive past a closeout on this catch.
    pub may_blow_by: bool,
    /// Whether he means to fake once, and how many fakes he has shown.
    pub fakes_left: u8,
    /// Who passed it to him last.
    pub passer: u8,
    /// Where it was when the last holder got it.
    pub last_catch: Vec2,
    /// How far the zone has to travel for the ball's last move, 0-1.
    pub shift: f32,
    /// Height, m.
    pub height: f32,
    /// Contact impulse over mass on the holder lately, m/s.
    pub bumped: f32,
    /// When a held ball's loss is due (hazard spent), in units of a unit exponential.
    pub loss_left: f32,
    /// The read (program index) that made the last catch, or `NOBODY`.
    pub credit: u8,
    /// Line of the drive weighed last (see the handler's options).
    pub line: f32,
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
    /// The last shot counts three.
    pub three: bool,
}

/// How one attacker moves without the ball.
#[derive(Clone, Copy, Debug)]
pub struct Plan {
    /// His home.
    pub home: Vec2,
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
    /// Program that he ended last and when, for credit.
    pub last_program: u8,
    /// When that was, s.
    pub last_s: f32,
    /// When he passed the ball last, s.
    pub passed_s: f32,
    /// Small displacement from home to be open, m.
    pub open_up: Vec2,
    /// When he looks for a better place again, s.
    pub next_open_s: f32,
    /// Goes to the glass on the present shot.
    pub crashes: bool,
}

/// Longest list of programs that an attack may have.
pub const PROGRAMS: usize = 24;

/// How one defender works.
#[derive(Clone, Copy, Debug)]
pub struct Duty {
    /// Ball place that he plays by (index of [`crate::setup::BallPlace`]).
    pub place: u8,
    /// Sign of the ball's side, with hysteresis.
    pub ball_side: f32,
    /// Lane that he believes takes the ball.
    pub taker: u8,
    /// He takes the ball himself.
    pub on_ball: bool,
    /// Attacker whom he looks after, or `NOBODY`.
    pub man: u8,
    /// He goes for a pass in the air.
    pub intercepts: bool,
    /// He helps against a drive.
    pub helps: bool,
    /// When the ball came to the corner as he believes, s (infinite elsewhere).
    pub corner_s: f32,
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
    /// Number of decisions taken, for the phase.
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
    /// The target moves.
    #[inline]
    pub fn moving(&mut self, lane: usize, velocity: Vec2) {
        self.tvx[lane] = velocity.x;
        self.tvy[lane] = velocity.y;
    }
}

/// Options that the ball-handler weighed last, best first once chosen.
#[derive(Component, Clone, Debug)]
pub struct Menu {
    /// The options.
    pub options: [Weighed; Menu::LENGTH],
    /// How many.
    pub count: usize,
    /// Decision noise of each option (by identity) for the present stretch of thought.
    pub noise: [f32; Menu::IDENTITIES],
    /// Which stretch that is: when the hold began, s, and the number of the stretch in it.
    pub stretch: (f32, u8),
}

impl Menu {
    /// Identities of options: hold, shoot, drive, then the receivers.
    pub const IDENTITIES: usize = 3 + 5;
    /// Most options weighed at once.
    pub const LENGTH: usize = 24;
    /// An option that is nobody's.
    pub const EMPTY: Weighed = Weighed { action: Action::Hold, value_points: 0.0, chance: 1.0 };
    /// Adds an option where there is room.
    #[inline]
    pub fn add(&mut self, action: Action, value_points: f32, chance: f32) {
        if self.count < Self::LENGTH {
            self.options[self.count] = Weighed { action, value_points, chance };
            self.count += 1;
        }
    }
}

/// One thing that happened in this step, for the measures and the film.
#[derive(Clone, Copy, Debug)]
#[expect(missing_docs, reason = "each is the copyable form of a variant of film::What")]
pub enum Signal {
    Start { holder: u8 },
    Decision { by: u8, chosen: u8 },
    Pass { from: u8, to: u8, kind: PassKind, metres: f32, class: PassClass },
    Catch { by: u8, late_s: f32, class: Option<PassClass> },
    Tip { by: u8 },
    Pickup { by: u8 },
    OutOfBounds { retained: bool },
    Fake { by: u8, toward: u8, bitten: u16 },
    DriveStart { by: u8 },
    DriveStop { by: u8 },
    Shot { by: u8, metres: f32, space_m: f32, chance: f32, three: bool },
    Made { by: u8, points: u8 },
    Missed { by: u8 },
    Rebound { by: u8, offensive: bool },
    ProgramStart { by: u8, program: u8 },
    ProgramStep { by: u8, program: u8, step: u8 },
    ProgramEnd { by: u8, program: u8 },
    TakesBall { by: u8, of: u8 },
    Helps { by: u8, on: u8 },
    Loses { by: u8, whom: u8 },
    Foul { by: u8, on: u8, offensive: bool, shooting: bool },
    FreeThrows { by: u8, made: u8, of: u8 },
    Turnover { kind: TurnoverKind, by: u8 },
    End { outcome: Outcome },
}

/// The signals of one step. A step with more than it holds drops the last ones and says so in debug builds.
#[derive(Component, Clone, Debug)]
pub struct Signals {
    /// The signals with their times and places.
    pub list: [(f32, Vec2, Signal); Signals::LENGTH],
    /// How many.
    pub count: usize,
}

impl Signals {
    /// Most signals in a step.
    pub const LENGTH: usize = 32;
    /// Adds one.
    #[inline]
    pub fn say(&mut self, time_s: f32, at: Vec2, what: Signal) {
        debug_assert!(self.count < Self::LENGTH, "more than {} signals in a step", Self::LENGTH);
        if self.count < Self::LENGTH {
            self.list[self.count] = (time_s, at, what);
            self.count += 1;
        }
    }
    /// The signals so far.
    pub fn all(&self) -> &[(f32, Vec2, Signal)] {
        &self.list[..self.count]
    }
}

/// What the measures have counted so far.
#[derive(Component, Clone, Debug)]
pub struct Tally {
    /// Values by measure.
    pub values: [i64; Measure::COUNT],
    /// Rolling digest of the trajectories.
    pub digest: u64,
    /// Sums over steps that become means at the end.
    pub lateness_sum: f64,
    /// Largest lateness, s.
    pub lateness_peak: f32,
    /// Steps with an unguarded threat.
    pub unguarded_steps: u32,
    /// Sum of the line gap, m.
    pub line_gap_sum: f64,
    /// Sum of the widest seam, m.
    pub seam_sum: f64,
    /// Whether two attackers were alone in one defender's area at the last step.
    pub two_on_one: bool,
    /// Whether the helper was down at the last step.
    pub helper_down: bool,
    /// For how long each attacker has had no defender near, s.
    pub alone_s: [f32; 5],
    /// Where the ball was last held on a side by a guard or not: sign of the side it came from.
    pub reversal_from: f32,
    /// The ball's place class at the last step (for touches): low, high, short corner, lane bits.
    pub touch: u8,
    /// Kind of the ball's loss at the end, for break exposure.
    pub loss_factor: f32,
    /// Points so far.
    pub points: u8,
    /// Expected points so far.
    pub expected: f32,
    /// Metres run by each player.
    pub metres: [f32; 10],
    /// The holder at the last step.
    pub holder: u8,
    /// Steps that the stress of the zone was measured in.
    pub stress_steps: u32,
    /// The last pass was a lob.
    pub lob: bool,
    /// The holder drove since his catch.
    pub drove: bool,
    /// Space of the last shot, m.
    pub space_m: f32,
    /// Distance of the last shot, m.
    pub last_shot_m: f32,
}

/// The touches of the step, for the officials.
#[derive(Component, Clone, Debug, Default)]
pub struct Touches(pub crate::contact::solver::ContactLog);

/// The side on which the rover started: +1 right, -1 left.
#[derive(Component, Clone, Copy, Debug)]
pub struct Side(pub f32);

/// Everything that one slot of a world needs, as it is before its first possession.
#[expect(clippy::type_complexity, reason = "a bundle of components")]
pub fn empty_slot() -> (
    (Clocks, Bodies, Traits, History, Minds, Board, Ball),
    (Plans, Wishes, Menu, Signals, Tally, Touches, Side, crate::random::Streams),
) {
    (
        (
            Clocks {
                status: Status::Idle,
                possession: 0,
                now: 0.0,
                steps: 0,
                shot_clock: 0.0,
                in_lane: [0.0; 5],
                guarded: 0.0,
                bonus: false,
                shift_on_release: true,
                judged_s: [f32::NEG_INFINITY; 5],
                reset_set: false,
                first_chance: true,
                counted: false,
            },
            Bodies::default(),
            Traits::default(),
            History { ring: [Sample::EMPTY; History::LENGTH], newest: 0 },
            Minds(core::array::from_fn(|_| empty_belief())),
            Board { news: [(0.0, News::Shot); Board::LENGTH], count: 0 },
            empty_ball(),
        ),
        (
            Plans {
                attack: [empty_plan(); 5],
                defence: [empty_duty(); 5],
                next_s: [0.0; 10],
                rest: [[0.0; PROGRAMS]; 5],
            },
            Wishes::default(),
            Menu {
                options: [Menu::EMPTY; Menu::LENGTH],
                count: 0,
                noise: [0.0; Menu::IDENTITIES],
                stretch: (f32::NEG_INFINITY, 0),
            },
            Signals { list: [(0.0, Vec2::RIM, Signal::Start { holder: 0 }); Signals::LENGTH], count: 0 },
            empty_tally(),
            Touches::default(),
            Side(1.0),
            crate::random::Streams::new(0, 0),
        ),
    )
}

/// A belief before anything was seen.
pub fn empty_belief() -> Belief {
    Belief {
        x: ZERO,
        y: ZERO,
        vx: ZERO,
        vy: ZERO,
        age: ZERO,
        noticed: ZERO,
        gaze: Vec2 { x: 0.0, y: 1.0 },
        glance_until: 0.0,
        glance_at: NOBODY,
        next_glance: 0.0,
        sees_ball: true,
        known: 0,
        ball: Vec2::RIM,
        holder: NOBODY,
        in_air: false,
        told_at: 0.0,
        fooled_until: 0.0,
        fooled_to: Vec2::RIM,
        fakes_seen: 0,
        lost: 0,
    }
}

/// A ball before the start.
pub fn empty_ball() -> Ball {
    Ball {
        state: BallState::Dead,
        handling: Handling::Hold,
        caught_s: 0.0,
        ready_s: 0.0,
        off_catch: false,
        may_drive: false,
        may_blow_by: false,
        fakes_left: 0,
        passer: NOBODY,
        last_catch: Vec2::RIM,
        shift: 0.0,
        height: 1.1,
        bumped: 0.0,
        loss_left: 1.0,
        credit: NOBODY,
        line: 0.0,
        looks_off: false,
        impatient: false,
        came_from: Vec2::RIM,
        last_shot: Vec2::RIM,
        drive_s: 0.0,
        drive_from: Vec2::RIM,
        up_with_it: false,
        committed: false,
        pass_chance: 0.0,
        three: false,
    }
}

fn empty_plan() -> Plan {
    Plan {
        home: Vec2::RIM,
        program: NOBODY,
        step: 0,
        step_s: 0.0,
        arrived_s: f32::INFINITY,
        start_sign: 1.0,
        step_sign: 1.0,
        last_program: NOBODY,
        last_s: f32::NEG_INFINITY,
        passed_s: f32::NEG_INFINITY,
        open_up: Vec2::RIM,
        next_open_s: 0.0,
        crashes: false,
    }
}

fn empty_duty() -> Duty {
    Duty {
        place: 0,
        ball_side: 1.0,
        taker: NOBODY,
        on_ball: false,
        man: NOBODY,
        intercepts: false,
        helps: false,
        corner_s: f32::INFINITY,
    }
}

/// A tally before the first step.
pub fn empty_tally() -> Tally {
    Tally {
        values: [0; Measure::COUNT],
        digest: 0,
        lateness_sum: 0.0,
        lateness_peak: 0.0,
        unguarded_steps: 0,
        line_gap_sum: 0.0,
        seam_sum: 0.0,
        two_on_one: false,
        helper_down: false,
        alone_s: [0.0; 5],
        reversal_from: 0.0,
        touch: 0,
        loss_factor: 0.05,
        points: 0,
        expected: 0.0,
        metres: [0.0; 10],
        holder: NOBODY,
        stress_steps: 0,
        lob: false,
        drove: false,
        space_m: 0.0,
        last_shot_m: 0.0,
    }
}
