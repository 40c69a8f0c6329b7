//! The attack as data: formation, programs of movement (routes, post and guard options) and habits.
//!
//! The vocabulary of conditions, places and paces is small and closed; files are checked against it when
//! loaded. No code here or elsewhere in the engine knows the name of any route or option.

use super::parameter::parameters;
use super::plan::TeamPlan;
use super::sets::{PlaceSet, Relative, RoleSet};
use crate::math::Vec2;

/// Longest list of programs (route and options together) that an attack may have.
pub const PROGRAMS: usize = 32;

/// Which side of the floor the rover starts on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SideChoice {
    /// A keyed coin decides in each possession.
    Either,
    /// The attack's left.
    Left,
    /// The attack's right.
    Right,
}

/// The five roles of the attack, in slot order. Posts are told apart by the side they start on as seen
/// from the rover: which of them is the left one follows from the side of the floor.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[repr(u8)]
pub enum Role {
    /// Brings the ball up; stays back as safety.
    LeadGuard,
    /// The other guard.
    OffGuard,
    /// May go anywhere.
    Rover,
    /// The post that starts on the rover's side.
    RoverSidePost,
    /// The post that starts on the other side.
    OtherPost,
}

/// What started a program, for credit and for names in output.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ProgramKind {
    /// The rover's route.
    Route,
    /// An option of the posts.
    PostOption,
    /// An option of the guards.
    GuardOption,
    /// A movement of the attack's own.
    Set,
}

/// How things stand when a possession starts.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Start {
    /// Both teams are in their places, a guard holds the ball.
    #[default]
    Set,
    /// A guard dribbles over midcourt, all others run to their places.
    Arriving,
    /// An attacker has just rebounded near the rim, the zone has collapsed round him.
    Rebound,
}

/// An attack, ready to be run.
#[derive(Clone, Debug, PartialEq)]
pub struct Attack {
    /// Name, for output only.
    pub name: String,
    /// Side of the floor.
    pub side: SideChoice,
    /// Home of each role, the rover's side being +x, metres.
    pub formation: [Vec2; 5],
    /// Slot of the role that starts with the ball.
    pub ball_starts_with: u8,
    /// How things stand at the start.
    pub start: Start,
    /// Programs of movement, most wanted first.
    pub programs: Vec<Program>,
    /// How the rover picks among the programs of his route that he could start.
    pub route_choice: Choice,
    /// Passing and driving habits.
    pub habits: Habits,
    /// What the team has been taught to do with the ball; without one everybody does what he believes to be worth most.
    pub plan: Option<TeamPlan>,
    /// Shooting of each role against the team's, logit; 0 shoots as the team. The defence knows it.
    pub role_shooting: [f32; 5],
}

parameters! {
    /// Habits of the players with the ball; options change them.
    #[derive(Clone, Debug, PartialEq)]
    pub struct Habits {
        /// Factor on the guards' hold before the first decision.
        guard_hold_factor: f32 = "", 0.1 to 5.0;
        // Right after a catch from the side; 0 unless an option asks for quick reversals.
        /// Preference for the pass to the other guard.
        reversal_urge_points: f32 = "points", 0.0 to 1.0;
        /// Chance of looking away from the receiver.
        look_off_chance: f32 = "", 0.0 to 1.0;
        /// Chance of showing another pass first.
        fake_chance: f32 = "", 0.0 to 1.0;
        /// Most fakes in one hold, whole.
        fakes_most: u8 = "", 0.0 to 5.0;
        /// Share of catches on which a guard may drive a seam.
        drive_chance: f32 = "", 0.0 to 1.0;
        /// Share of catches on which anyone may drive past a closeout.
        blow_by_chance: f32 = "", 0.0 to 1.0;
        /// Share of catches on which a guard may dribble at the other guard.
        dribble_at_chance: f32 = "", 0.0 to 1.0;
        /// Share of catches on which anyone drives a way that he believes open.
        open_drive_chance: f32 = "", 0.0 to 1.0;
        /// Chance of showing a shot to a defender who comes out too fast.
        shot_fake_chance: f32 = "", 0.0 to 1.0;
        // Without the ball; on a drive he drifts along the arc.
        /// Share of its chances on which a perimeter player fills an empty corner.
        fill_chance: f32 = "", 0.0 to 1.0;
        // A matter of taste, not of the shot's worth.
        /// What a player holds against a contested shot from outside while there is time for a better one.
        contested_cost_points: f32 = "points", 0.0 to 1.0;
    }
}

/// How a player picks among several programs whose conditions hold.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Default)]
pub enum Choice {
    /// The first one.
    #[default]
    First,
    /// The one that leads to the place where a catch is worth most, as he believes: the chance that a pass
    /// gets there now times the worth of a shot from there.
    MostOpen,
}

/// A program: when its conditions hold, its owner follows its steps.
#[derive(Clone, Debug, PartialEq)]
pub struct Program {
    /// Name, for output and credit only.
    pub name: String,
    /// Where it comes from.
    pub kind: ProgramKind,
    /// Who may run it.
    pub who: RoleSet,
    /// Share of its chances that are taken, 0-1.
    pub weight: f32,
    /// Conditions that must all hold in the owner's beliefs.
    pub when: Vec<Condition>,
    /// The steps in order.
    pub steps: Vec<Step>,
    /// What follows the last step.
    pub then: Then,
    /// Time after its end before the same owner may start it again, s.
    pub rest_s: f32,
}

/// What follows the last step of a program.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Then {
    /// The place reached becomes the owner's home.
    Stay,
    /// Back to the home he had.
    GoHome,
}

/// One leg of a program.
#[derive(Clone, Debug, PartialEq)]
pub struct Step {
    /// Where to.
    pub to: Locus,
    /// How fast.
    pub pace: Pace,
    /// How near counts as there, m.
    pub within_m: f32,
    /// Time spent there before the next step, s.
    pub linger_s: f32,
    /// Conditions that, all holding, end the lingering early.
    pub leave_when: Vec<Condition>,
    /// Longest time for the whole step, s.
    pub longest_s: f32,
}

/// How fast a leg is run.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Pace {
    /// At most 1.6 m/s.
    Walk,
    /// At most 3.2 m/s.
    Jog,
    /// As fast as the player can.
    Sprint,
}

/// Which way is +x in a place of a program.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Frame {
    /// The side on which its owner was when the program started.
    Start,
    /// The side that the ball is on now.
    Ball,
}

/// A place on the floor, fixed or live. Live ones are taken from the owner's beliefs.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Locus {
    /// A fixed place.
    Floor(Vec2, Frame),
    /// Between the lines of the zone: y halfway between the believed front and back line, x as given.
    LineGap(f32, Frame),
    /// Behind (rim side or baseline side of) the believed defender in a position, this far from him.
    Behind(u8, f32),
    /// Halfway between the believed defenders of two positions.
    Seam(u8, u8),
    /// Beside the near (`true`) or far (`false`) post, displaced by (toward the ball's side, along y).
    ByPost(bool, Vec2),
    /// Between the next helper and the owner's own catching place, in contact.
    Seal,
    /// In the way of the believed defender in a position to a place, this far from him, m: a screen.
    Screen(u8, Vec2, Frame, f32),
    /// About this far along the arc from where the leg began, m, toward the roomier side as he saw it then.
    AlongArc(f32),
    /// Where the formation has the owner, wherever a program has left him since.
    Home,
}

/// A condition, judged on the owner's beliefs.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Condition {
    /// The ball is held by one of these roles.
    BallWith(RoleSet),
    /// The ball is held at one of these places, on this side.
    BallAt(PlaceSet, Relative),
    /// The ball is held at one of these places, or in the air toward one, on this side.
    BallBound(PlaceSet, Relative),
    /// The ball is in the air, from hand to hand.
    BallInTheAir,
    /// One of these roles is within this distance of a place, m; no role at all: the owner himself.
    Stands(RoleSet, Locus, f32),
    /// No defender near him looks his way.
    Unwatched,
    /// The team-mate with the ball dribbles at him.
    DribbledAt,
    /// The owner passed the ball no longer ago than this, s.
    BallLeftMe(f32),
    /// No pass has come to the owner; the ball is held elsewhere.
    BallElsewhere,
    /// No believed defender within this distance of the place.
    Open(Locus, f32),
    /// A defender of the back line has gone out to the ball's side corner or wing.
    BackOut,
    /// The owner is the nearer (`true`) or farther (`false`) of the posts to the ball.
    NearPost(bool),
    /// The owner has been in his current step at least this long, s.
    Waited(f32),
    /// At least this much time since the possession began, s.
    After(f32),
}
