//! A player gains control: everything that starts anew with a catch, a pick-up or a rebound.

use super::{Play, feet};
use crate::law::ball_height::HELD_M;
use crate::law::catching::{
    CREDIT_CATCHER_S, CREDIT_PASSER_S, FAKES_OFF_GUARD_SHARE, HOLD_AND_PASS_S, LANE_COUNT_MOST_S,
    PATIENT_FOR_S, PUT_BACK_READY_S, PUT_BACK_WITHIN_M,
};
use crate::law::conduct::ball_events::RECEIVER_SHARE;
use crate::law::conduct::taught::SKIPPED_UNDRILLED;
use crate::law::counting::reversal_side;
use crate::law::floor::{INSIDE_M, touch_class};
use crate::law::shot::shooting_ready;
use crate::math::min;
use crate::random::{Purpose, TABLE, chance_within};
use crate::setup::{LOOKS, Moved};
use crate::slots::Slot;
use crate::state::{Allowance, BallEvent, BallState, Hold, Leave, PassClass, Progress, Signal};

/// How a player came by the ball.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum How {
    /// A pass, and its kind for the measures.
    Pass(PassClass),
    /// Picked up loose.
    Pickup,
    /// An offensive rebound.
    Rebound,
}

/// Gives the ball to an attacker at a time inside this step. `late_s` is what a poor catch costs.
pub fn gain(c: &mut Play<'_>, by: Slot, time_s: f32, late_s: f32, how: How) {
    let at = c.bodies.at(by);
    // Whom the catch is credited to depends on the hold before it.
    *c.progress = progress(c, by, time_s, how);
    *c.hold = hold(c, by, time_s, late_s, how);
    *c.allowance = Allowance {
        grip_left: c.streams.exponential(by, Purpose::Handling),
        steps_left: feet::allowance(c, by),
        feet: feet::at_catch(c, by, time_s),
    };
    c.ball.state = BallState::Held { by };
    c.ball.height = HELD_M;
    c.bodies.put_ball(at);
    c.clocks.in_lane[by] = min(c.clocks.in_lane[by], LANE_COUNT_MOST_S);
    // He decides as soon as he has had his first look.
    c.plans.next_s[by] = time_s;
    c.events.post(time_s, BallEvent::Control { by });
    match how {
        How::Rebound => c.say(time_s, at, Signal::Rebound { by, offensive: true }),
        How::Pickup => c.say(time_s, at, Signal::Pickup { by }),
        How::Pass(_) => {}
    }
    let class = if let How::Pass(class) = how { Some(class) } else { None };
    c.say(time_s, at, Signal::Catch { by, late_s, class });
}

/// The hold that begins: when he got the ball and is ready to shoot, and what he may do.
fn hold(c: &mut Play<'_>, by: Slot, time_s: f32, late_s: f32, how: How) -> Hold {
    let at = c.bodies.at(by);
    let looks_s = begins_to_look(c, by, time_s);
    let (caught_s, ready_s) = if how == How::Rebound && at.len() < PUT_BACK_WITHIN_M {
        // He goes straight up with it, as one who has had his first look already.
        (time_s - c.given.player(by).head.first_decision_s, time_s + PUT_BACK_READY_S)
    } else {
        let caught_s = time_s + late_s;
        (caught_s, caught_s + shooting_ready(c.traits.catch_to_release[by], at))
    };
    Hold {
        caught_s,
        looks_s,
        skips: skips(c, by),
        forces: forces(c, by),
        ready_s,
        off_catch: true,
        leave: leave(c, by),
        ..Hold::default()
    }
}

/// When he begins to look round, s: as he learns that a pass is coming, else as he gets the ball.
fn begins_to_look(c: &Play<'_>, by: Slot, time_s: f32) -> f32 {
    match c.ball.state {
        BallState::Pass(flight) => {
            min(flight.start_s + RECEIVER_SHARE * c.given.player(by).head.reaction_s, time_s)
        }
        _ => time_s,
    }
}

/// Looks of the plan that he does not think of on this hold, a bit each: the more, the less it has been drilled.
fn skips(c: &mut Play<'_>, by: Slot) -> u16 {
    let Some(plan) = &c.given.setup.attack.plan else { return 0 };
    let skipped = SKIPPED_UNDRILLED * (1.0 - plan.drilled);
    if skipped <= 0.0 {
        return 0;
    }
    (0..LOOKS).fold(0, |set, nth| set | u16::from(c.streams.coin(by, Purpose::Looks, skipped)) << nth)
}

/// Whether the look that is to be forced is forced on this hold, if it comes up.
fn forces(c: &mut Play<'_>, by: Slot) -> bool {
    let forced = c.given.setup.attack.plan.as_ref().and_then(|plan| plan.forced);
    !c.progress.forced && forced.is_some_and(|forced| c.streams.coin(by, Purpose::Forced, forced.share))
}

/// What the attack's habits offer him on this hold, each at random.
fn leave(c: &mut Play<'_>, by: Slot) -> Leave {
    let habits = &c.given.setup.attack.habits;
    let guard = by.is_guard();
    let guards_only = |chance: f32| if guard { chance } else { 0.0 };
    let fake_chance = if guard { habits.fake_chance } else { habits.fake_chance * FAKES_OFF_GUARD_SHARE };
    let mut habit = |chance: f32| c.streams.coin(by, Purpose::Habit, chance);
    // Each coin of a purpose is the next draw of its stream: their order is part of every possession.
    let drive = habit(guards_only(habits.drive_chance));
    let blow_by = habit(habits.blow_by_chance);
    let fakes = habit(fake_chance);
    let look_off = habit(guards_only(habits.look_off_chance));
    let open_drive = habit(habits.open_drive_chance);
    Leave {
        drive,
        dribble_at: guard && c.streams.coin(by, Purpose::DribbleAt, habits.dribble_at_chance),
        blow_by,
        open_drive,
        shot_fake: c.streams.coin(by, Purpose::ShotFake, habits.shot_fake_chance),
        pass_fakes: if fakes { habits.fakes_most } else { 0 },
        look_off,
    }
}

/// How the ball came here: from whom and where, what that did to the zone, and which read made it.
fn progress(c: &mut Play<'_>, by: Slot, time_s: f32, how: How) -> Progress {
    let at = c.bodies.at(by);
    let passer = match (how, c.ball.state) {
        (How::Pass(_), BallState::Pass(flight)) => Some(flight.from),
        _ => None,
    };
    let before = c.progress.last_catch;
    let (side, was) = (reversal_side(at.x), c.progress.side);
    Progress {
        passer,
        came_from: if passer.is_some() { before } else { at },
        last_catch: at,
        // Only a pass makes the zone travel.
        moved: if passer.is_some() { Moved::of(before, at) } else { Moved::Little },
        inside: c.progress.inside || at.len() < INSIDE_M || touch_class(&c.given.setup.court, at) != 0,
        side: if side == 0.0 { was } else { side },
        reversals: c.progress.reversals.saturating_add(u8::from(side * was < 0.0)),
        credit: credit_of(c, by, passer, time_s),
        impatient: c.progress.impatient | loses_patience(c),
        forced: c.progress.forced,
    }
}

/// Whether the attack loses its patience on this catch, which it may only where no shot clock hurries it.
fn loses_patience(c: &mut Play<'_>) -> bool {
    if c.clocks.shot_clock.is_finite() || c.clocks.now <= PATIENT_FOR_S {
        return false;
    }
    let per_s = c.given.setup.attackers.skill.continuation.impatience_per_s;
    c.streams.coin(TABLE, Purpose::Impatience, chance_within(per_s, HOLD_AND_PASS_S))
}

/// The read that made this catch: the catcher's own program, or the one that freed the passer just before.
fn credit_of(c: &Play<'_>, by: Slot, passer: Option<Slot>, time_s: f32) -> Option<u8> {
    let plan = &c.plans.attack[by];
    if plan.program.is_some() {
        plan.program
    } else if time_s - plan.last_s < CREDIT_CATCHER_S {
        plan.last_program
    } else if passer.is_some() && time_s - c.hold.caught_s < CREDIT_PASSER_S {
        c.progress.credit
    } else {
        None
    }
}
