//! The plan as data: what a team has been taught to do with the ball.
//!
//! A plan orders what the holder looks for at a place, says who may shoot what and when, and when it all starts again.
//! Believed points decide inside it: a look is on only where it is worth about as much as going on. No look, shot rule or
//! fill carries anything that changes what comes out of it.

use super::sets::{PlaceSet, Relative, RoleSet};
use super::zone::BallPlace;

/// Longest look order: a look is a bit of a set.
pub const LOOKS: usize = 16;

/// What a team has been taught.
#[derive(Clone, Debug, PartialEq)]
pub struct TeamPlan {
    /// Name, for output only.
    pub name: String,
    /// Which of several looks that are on is taken.
    pub choose: PlanChoice,
    /// What one look costs a player, s.
    pub look_s: f32,
    /// Nothing on for so long: to the nearest guard, s.
    pub reset_after_s: f32,
    /// How long the holder waits for one who is on his way to where a look goes, s.
    pub waits_s: f32,
    /// Outside, a look gives the ball back to who passed it only if he is so far from where he got it, m; 0: whenever it is on.
    pub return_moved_m: f32,
    /// What a look that the plan orders may be worth less than going on, points.
    pub concede_points: f32,
    /// How well it is known, 0-1: what is not known is not looked at.
    pub drilled: f32,
    /// Look orders; the first that fits the holder and his place holds.
    pub looks: Vec<LookOrder>,
    /// Shot rules; a shot that none of them allows waits for the late clock.
    pub shots: Vec<ShotRule>,
    /// The end of the shot clock.
    pub late: Late,
    /// Places that are not left empty; the first rule that wants somebody has him.
    pub fills: Vec<FillRule>,
    /// How many attackers may be between the lines at a time.
    pub gap: Option<Gap>,
    /// What a study forces; no file can.
    pub forced: Option<Forced>,
}

/// A look that is taken once a possession where its condition holds, whatever it seems to be worth and whatever comes
/// before it in the order: how a study learns what it costs, and what the one that is never taken would have brought.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Forced {
    /// The look order, by its place in [`TeamPlan::looks`].
    pub order: usize,
    /// The look, by its place in that order.
    pub look: usize,
    /// Share of holds, drawn by a coin, on which it is taken if it comes up, 0-1.
    pub share: f32,
}

/// Which of several looks that are on is taken.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PlanChoice {
    /// The first in the order.
    First,
    /// The one worth most, once he has looked at all of them.
    Best,
}

/// What a holder looks for, first to last.
#[derive(Clone, Debug, PartialEq)]
pub struct LookOrder {
    /// Where he has the ball.
    pub at: PlaceSet,
    /// Which holders it is for.
    pub who: RoleSet,
    /// His looks.
    pub order: Vec<Look>,
}

/// One look of the holder.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Look {
    /// His own shot.
    Shoot,
    /// A drive, or a post move.
    Drive(Lane),
    /// A pass to one of these roles.
    Pass {
        /// To whom.
        to: RoleSet,
        /// Where he would catch it.
        at: PlaceSet,
        /// On which side, as compared with the ball's.
        side: Relative,
        /// How his man has to stand.
        when: Guarded,
    },
}

/// What lets the holder drive.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Lane {
    /// He believes the way open.
    Open,
    /// A defender comes at him too fast.
    FastCloseout,
    /// Nothing: wherever a drive is worth it.
    Any,
}

/// How the receiver's man has to stand for a pass to be looked at.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Guarded {
    /// Anyhow.
    Any,
    /// Behind him or on his hip, as seen from the ball, or nowhere near.
    OnHisBack,
    /// Nowhere near.
    Open,
}

/// Who may shoot what, and when.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ShotRule {
    /// Whom it allows to shoot.
    pub who: RoleSet,
    /// From where.
    pub from: ShotSet,
    /// Least distance of the nearest defender at the release, as he expects it, m.
    pub least_space_m: f32,
    /// Least chance that it goes in, as he expects.
    pub least_chance: f32,
    /// Off the catch only.
    pub feet_set: bool,
    /// What the ball must have done before.
    pub after: After,
}

/// Kinds of shot, a bit each: at the rim, other twos from inside, twos from farther out, threes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct ShotSet(pub u8);

impl ShotSet {
    /// At the rim.
    pub const RIM: u8 = 1;
    /// Other twos from inside.
    pub const INSIDE: u8 = 2;
    /// Twos from farther out.
    pub const OUTSIDE: u8 = 4;
    /// Threes.
    pub const THREE: u8 = 8;
}

/// What the ball must have done before a shot.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum After {
    /// Nothing.
    Always,
    /// Been inside.
    Inside,
    /// Changed sides so often.
    Reversals(u8),
    /// Been inside, or changed sides.
    InsideOrReversal,
}

/// What holds as the shot clock runs down.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Late {
    /// From so much left on, s.
    pub from_s: f32,
    /// To whom the ball goes then, unless a shot or drive that its holder may take at any time is better.
    pub who: RoleSet,
    /// From so much left on whoever has it shoots, s.
    pub shoot_from_s: f32,
}

/// A place that somebody takes if nobody is there.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FillRule {
    /// The place.
    pub place: BallPlace,
    /// On which side, as compared with the ball's.
    pub side: Relative,
    /// Where the ball is then, or goes.
    pub ball: PlaceSet,
    /// Who takes it: the nearest of these roles who has nothing else to do.
    pub by: RoleSet,
}

/// Between the lines one is company, two are in one another's way.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Gap {
    /// Most attackers there at a time, those on their way included.
    pub most: u8,
    /// Who has the right of way.
    pub first: RoleSet,
}
