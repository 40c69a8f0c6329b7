//! What a decision may know: the player himself, what he believes, the clocks he counts, and what his own team knows.
//!
//! A decision is handed a [`View`] and nothing else of the possession that is not his own. It holds no other player's true
//! place, no true ball and no team-mate's plan, so a decision that reads the truth does not compile.
//!
//! This does, and names every part of a view, so that a part more would have to be named here:
//!
//! ```
//! # use engine::{slots::ATTACK, view::{Clock, Me, View}};
//! fn decides(view: &View<'_>) {
//!     let View { given: _, me, mind, clock, side: _, team, .. } = view;
//!     let Me { slot: _, at: _, velocity: _, lunge_m: _ } = me;
//!     let Clock { now: _, shot_clock: _, in_lane: _, guarded: _, shift_on_release: _, steps: _ } = clock;
//!     let mate = ATTACK[1];
//!     let _his_own_place = me.at;
//!     let _believed_place = mind.at(mate);
//!     let _believed_ball = mind.ball_now();
//!     let _believed_leg = mind.mates[mate];
//!     let _believed_facing = mind.facing(mate);
//!     let _how_he_shoots = team.shooter(mate);
//! }
//! ```
//!
//! Another player's true place:
//!
//! ```compile_fail,E0609
//! # use engine::{slots::ATTACK, view::View};
//! fn decides(view: &View<'_>) {
//!     let _true_place = view.bodies.at(ATTACK[1]);
//! }
//! ```
//!
//! The true ball:
//!
//! ```compile_fail,E0609
//! # use engine::{slots::ATTACK, view::View};
//! fn decides(view: &View<'_>) {
//!     let _true_ball = view.ball.state;
//! }
//! ```
//!
//! A team-mate's plan:
//!
//! ```compile_fail,E0609
//! # use engine::{slots::ATTACK, view::View};
//! fn decides(view: &View<'_>) {
//!     let _true_plan = view.plans.attack[ATTACK[1]];
//! }
//! ```
//!
//! A true facing:
//!
//! ```compile_fail,E0609
//! # use engine::{slots::ATTACK, view::View};
//! fn decides(view: &View<'_>) {
//!     let _true_facing = view.bodies.facing(ATTACK[1]);
//! }
//! ```
//!
//! What everybody can do is known of team-mates only as far as [`TeamMates`] tells:
//!
//! ```compile_fail,E0616
//! # use engine::{slots::ATTACK, view::View};
//! fn decides(view: &View<'_>) {
//!     let _true_reaction = view.team.traits.map(|traits| traits.reaction[ATTACK[1]]);
//! }
//! ```

use crate::law::conduct::judging::SEEN_AGO_S;
use crate::math::Vec2;
use crate::setup::Shooter;
use crate::slots::{ATTACK, DEFENCE, Row, Slot};
use crate::state::{Belief, Bodies, Clocks, Given, Traits};

/// A player at the moment of his decision.
pub struct View<'a> {
    /// The setup, and tables worked out from it: either team has scouted how the other plays, not what it is about to do.
    pub given: &'a Given,
    /// His own body.
    pub me: Me,
    /// What he believes of everything else.
    pub mind: &'a Belief,
    /// The clocks that he may count.
    pub clock: Clock,
    /// The side on which the rover started: +1 right, -1 left.
    pub side: f32,
    /// What practice has taught him of his own team.
    pub team: TeamMates<'a>,
    radii: &'a Row,
}

/// A player's own body, as he feels it.
#[derive(Clone, Copy)]
pub struct Me {
    /// His slot.
    pub slot: Slot,
    /// Where he is, m.
    pub at: Vec2,
    /// How he moves, m/s.
    pub velocity: Vec2,
    /// How far his hand gets with a lunge, m.
    pub lunge_m: f32,
}

/// The clocks that a player may count.
#[derive(Clone, Copy)]
pub struct Clock {
    /// Time since the start, s.
    pub now: f32,
    /// Shot clock left, s (infinite without one).
    pub shot_clock: f32,
    /// How long he has been in the lane himself, s (attackers).
    pub in_lane: f32,
    /// How long the holder has held the ball closely guarded, s (attackers).
    pub guarded: f32,
    /// His team shifts on the passer's release rather than on the catch (defenders).
    pub shift_on_release: bool,
    /// Steps played.
    pub steps: u32,
}

/// What an attacker knows of his team-mates from practice, wherever they are. A defender knows none of the
/// attackers so: to him they are alike but for the room that scouting gives each (`slack_m`).
#[derive(Clone, Copy)]
pub struct TeamMates<'a> {
    traits: Option<&'a Traits>,
    /// How they shoot is known.
    shooting: bool,
}

impl TeamMates<'_> {
    /// How a team-mate (or he himself) shoots.
    pub fn shooter(&self, mate: Slot) -> Shooter {
        self.traits.filter(|_| self.shooting).map_or(Shooter::default(), |traits| traits.shooter(mate))
    }
    /// Catch to release of a team-mate with the feet set, s.
    pub fn catch_to_release_s(&self, mate: Slot) -> f32 {
        self.traits.map_or(0.0, |traits| traits.catch_to_release[mate])
    }
}

impl<'a> View<'a> {
    /// The view of one player.
    pub fn of(
        given: &'a Given,
        clocks: &Clocks,
        bodies: &Bodies,
        traits: &'a Traits,
        mind: &'a Belief,
        side: f32,
        slot: Slot,
    ) -> Self {
        Self {
            given,
            me: Me {
                slot,
                at: bodies.at(slot),
                velocity: bodies.velocity(slot),
                lunge_m: traits.lunge[slot],
            },
            mind,
            clock: Clock {
                now: clocks.now,
                shot_clock: clocks.shot_clock,
                in_lane: if slot.attacks() { clocks.in_lane[slot] } else { 0.0 },
                guarded: if slot.attacks() { clocks.guarded } else { 0.0 },
                shift_on_release: slot.defends() && clocks.shift_on_release,
                steps: clocks.steps,
            },
            side,
            team: TeamMates {
                traits: slot.attacks().then_some(traits),
                shooting: !given.setup.limits.shooting_unknown,
            },
            radii: &traits.radius,
        }
    }

    /// Torso radius of a player, m: how much room a body of either team takes is seen.
    pub fn radius_m(&self, slot: Slot) -> f32 {
        self.radii[slot]
    }

    /// Torso radii by row, m; the ball has none.
    pub fn radii_m(&self) -> &'a Row {
        self.radii
    }

    /// Where the ball is believed to be now, on the floor.
    pub fn ball_at(&self) -> Vec2 {
        self.mind.ball_now()
    }

    /// The believed position of a player; he knows his own.
    pub fn whereabouts(&self, other: Slot) -> Vec2 {
        if other == self.me.slot { self.me.at } else { self.mind.at(other) }
    }

    /// Where another has got to, m: what is seen of him is a reaction old, and he has gone on since.
    pub fn by_now(&self, other: Slot) -> Vec2 {
        self.mind.at(other) + self.mind.velocity(other) * SEEN_AGO_S
    }

    /// True where a team-mate is believed within `metres` of a point.
    pub fn crowded(&self, at: Vec2, metres: f32) -> bool {
        ATTACK
            .into_iter()
            .any(|mate| mate != self.me.slot && (self.whereabouts(mate) - at).len2() < metres * metres)
    }
}

/// The nearest believed defender to a point: who and how far, m.
pub fn nearest_defender(mind: &Belief, to: Vec2) -> (Slot, f32) {
    let mut best = (DEFENCE[0], f32::INFINITY);
    for slot in DEFENCE {
        let d2 = (mind.at(slot) - to).len2();
        if d2 < best.1 {
            best = (slot, d2);
        }
    }
    (best.0, best.1.sqrt())
}
