//! What a zone defender does, from his own beliefs. Nothing tells him what the others do, so two may guard the ball, or
//! nobody for a moment: that is what a zone gets wrong.
//!
//! He looks where the ball is, in the places of the zone's table (`ball_place`, with `burns` for a table that the team
//! changes to), and who should guard it (`on_ball_defender`): his `situation`. Then the first of these that applies:
//!
//! 1. Where the team shifts on the catch, he waits while a pass flies, unless the receiver is his.
//! 2. He goes for a pass in the air that his hand would meet (`passing_lane`).
//! 3. The ball is his, or he comes to bump the first man off it: he closes out and guards (`guard_ball`, with `fly_by`).
//! 4. He is the second man of a trap (`trap`).
//! 5. He is nearest to a driver who has beaten his man: he steps in front (`help_on_drive`).
//! 6. He holds his place in the shape (`hold`): his anchor, drawn toward the attacker of his area (`area`,
//!    `guard_off_ball`), moved by denial (`reversal`), help behind a fronted post (`rim_help`), and left for a moment by a
//!    `dig` at a post or a `stunt` at a driver.
//!
//! The distances, times and weights of all of it: `law::conduct`, in `on_ball_defence`, `help`, `post_defence` and
//! `zone_shape`. What a coach chooses (closeout distance, carry, denial, stance ...) is the zone's.

mod area;
mod ball_place;
mod burns;
mod dig;
mod fly_by;
pub mod glass;
mod guard_ball;
mod guard_off_ball;
mod help_on_drive;
mod hold;
mod on_ball_defender;
mod passing_lane;
mod reversal;
mod rim_help;
mod situation;
mod stunt;
mod trap;

use crate::decide::View;
use crate::decide::intent::Intent;
use crate::decide::shown::Notes;
use crate::law::conduct::on_ball_defence::ARRIVES_WITHIN_M;
use crate::math::{Vec2, clamp, vec2};
use crate::setup::Zone;
use crate::slots::Slot;
use crate::state::{Duty, Signal, Whose};
use ball_place::BumpStage;
use situation::{Shift, Situation};

/// A defender at the moment of his decision.
struct Defender<'a> {
    view: &'a View<'a>,
    zone: &'a Zone,
}

/// Decides a defender's intent.
pub fn decide(view: &View<'_>, duty: &mut Duty, intent: &mut Intent<'_>, notes: &mut Notes<'_>) {
    let d = Defender { view, zone: view.given.setup.zone_of(view.me.slot) };
    let situation = Situation::of(&d, duty);
    take_on(&d, situation.on_ball_defender, duty, notes);
    if waits_for_the_catch(&d, duty) {
        duty.helps = false;
        intent.stay();
        return;
    }
    if goes_to_the_ball(&d, &situation, duty, intent)
        || help_on_drive::step_in(&d, situation.on_ball_defender, duty, intent, notes)
    {
        return;
    }
    duty.helps = false;
    hold::shape(&d, &situation.shift(&d, duty), duty, intent);
}

/// Notes whether the ball is his to guard, and says so when it becomes his.
fn take_on(d: &Defender<'_>, on_ball_defender: Slot, duty: &mut Duty, notes: &mut Notes<'_>) {
    let (view, owner) = (d.view, d.view.mind.owner());
    (duty.on_ball_defender, duty.on_ball_for) = (Some(on_ball_defender), owner);
    let mine = on_ball_defender == view.me.slot;
    if mine
        && !duty.on_ball
        && let Some(of) = owner
    {
        notes.add(view.clock.now, view.me.at, Signal::TakesBall { by: view.me.slot, of });
    }
    duty.on_ball = mine;
}

/// Where the team shifts on the catch, only the one who takes the receiver goes with the pass. Man-to-man each stays with
/// his man.
fn waits_for_the_catch(d: &Defender<'_>, duty: &Duty) -> bool {
    let flies = matches!(d.view.mind.whose, Whose::Passed(_));
    flies && !duty.on_ball && !d.view.clock.shift_on_release && d.zone.marks.is_none()
}

/// Goes for a pass, to the holder, or into a trap, where that is his to do.
fn goes_to_the_ball(
    d: &Defender<'_>,
    situation: &Situation<'_>,
    duty: &mut Duty,
    intent: &mut Intent<'_>,
) -> bool {
    if d.view.mind.flies() && !duty.on_ball && passing_lane::go_for_pass(d, intent) {
        return true;
    }
    if duty.on_ball {
        guard_ball::guard(d, duty, situation.trap.is_some(), intent);
        return true;
    }
    if let BumpStage::Coming(bump) = situation.bump
        && on_ball_defender::slot_of(d, duty, bump.on_ball) == d.view.me.slot
    {
        guard_ball::guard(d, duty, false, intent);
        return true;
    }
    if let Some(on) = &situation.trap
        && on.second == d.view.me.slot
    {
        trap::close(d, intent);
        return true;
    }
    false
}

impl Defender<'_> {
    /// The attacker who has the ball in his hands, as he believes: who he is, his place and velocity.
    fn holder(&self) -> Option<(Slot, Vec2, Vec2)> {
        let holder = self.view.mind.holder()?;
        Some((holder, self.view.mind.at(holder), self.view.mind.velocity(holder)))
    }

    /// Where the holder is and how he moves; while nobody holds the ball, where it is to be met.
    fn ball_to_guard(&self) -> (Vec2, Vec2) {
        match self.holder() {
            Some((_, at, velocity)) => (at, velocity),
            None => (self.view.mind.ball, vec2(0.0, 0.0)),
        }
    }

    /// How far he leans the way of a shown pass that he bites on, m.
    fn lean(&self) -> Vec2 {
        let mind = self.view.mind;
        if self.view.clock.now >= mind.fooled_until {
            return vec2(0.0, 0.0);
        }
        (mind.fooled_to - mind.ball).at_most(self.view.given.player(self.view.me.slot).head.bite_distance_m)
    }

    /// The way to where he sees the ball, a unit vector.
    fn way_to_ball(&self) -> Vec2 {
        (self.view.mind.sighted_ball() - self.view.me.at).unit_or(self.view.mind.gaze)
    }

    /// Rough time for a defender to get to a point, for choosing among them, s.
    fn rough_time(&self, who: Slot, to: Vec2) -> f32 {
        let at = self.view.whereabouts(who);
        let velocity =
            if who == self.view.me.slot { self.view.me.velocity } else { self.view.mind.velocity(who) };
        self.view.given.arrival(who).time_to(at, velocity, to, ARRIVES_WITHIN_M)
    }

    /// How much of what he remembers of an attacker still holds: 1 seen now, 0 too long ago to be of use.
    fn fresh(&self, man: Slot) -> f32 {
        let memory_s = self.view.given.player(self.view.me.slot).head.memory_s;
        clamp(1.0 - self.view.mind.age[man] / memory_s, 0.0, 1.0)
    }
}
