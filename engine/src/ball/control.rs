//! A player gains control: everything that starts anew with a catch.

use super::{Court, feet};
use crate::law::shot::shooting_ready;
use crate::math::{ln, max, min};
use crate::random::{Purpose, TABLE, chance_within};
use crate::setup::Moved;
use crate::slots::Slot;
use crate::state::{BallState, Handling, News, PassClass, Signal};

/// How a player came by the ball.
#[derive(Clone, Copy, Debug)]
pub enum How {
    /// A pass, and its kind for the measures.
    Pass(PassClass),
    /// Picked up loose.
    Pickup,
    /// An offensive rebound.
    Rebound,
}

/// Gives the ball to an attacker at a time inside this step. `late_s` is what a poor catch costs.
pub fn gain(c: &mut Court<'_>, by: Slot, time_s: f32, late_s: f32, how: How) {
    let at = c.bodies.at(by);
    let passer = match (how, c.ball.state) {
        (How::Pass(_), BallState::Pass(flight)) => Some(flight.from),
        _ => None,
    };
    let came_from = if passer.is_none() { at } else { c.progress.last_catch };
    let credit = credit_of(c, by, passer, time_s);
    // Only a pass makes the zone travel.
    c.progress.moved = if passer.is_none() { Moved::Little } else { Moved::of(c.progress.last_catch, at) };
    c.progress.last_catch = at;
    c.ball.state = BallState::Held { by };
    c.hold.handling = Handling::Hold;
    c.hold.caught_s = time_s + late_s;
    c.hold.ready_s = time_s + late_s + shooting_ready(c.traits.catch_to_release[by], at);
    c.hold.off_catch = true;
    c.progress.passer = passer;
    c.progress.came_from = came_from;
    c.progress.credit = credit;
    // Officials give a man who has just got the ball in the lane time to do something with it. (common
    // practice, no source)
    c.clocks.in_lane[by] = min(c.clocks.in_lane[by], 1.2);
    c.hold.dribble.committed = false;
    c.hold.dribble.up_with_it = false;
    if matches!(how, How::Rebound) && at.len() < 2.2 {
        // Near the rim he goes straight up with a rebound: no look around first.
        c.hold.caught_s = time_s - c.given.setup.attackers.head.first_decision_s;
        c.hold.ready_s = time_s + 0.35;
    }
    c.ball.height = 1.2;
    habits(c, by);
    c.bodies.put_ball(at);
    c.board.post(time_s, News::Control { by });
    let class = match how {
        How::Pass(class) => Some(class),
        _ => None,
    };
    match how {
        How::Rebound => c.say(time_s, at, Signal::Rebound { by, offensive: true }),
        How::Pickup => c.say(time_s, at, Signal::Pickup { by }),
        How::Pass(_) => {}
    }
    c.say(time_s, at, Signal::Catch { by, late_s, class });
    // He decides as soon as he has had his first look.
    c.plans.next_s[by] = time_s;
    feet::caught(c, by, time_s);
}

/// Coins of the hold's habits: drive, blow-by, fake, look-off, patience.
fn habits(c: &mut Court<'_>, by: Slot) {
    let habits = &c.given.setup.attack.habits;
    let guard = by.is_guard();
    let drives = c.streams.coin(by, Purpose::Habit, if guard { habits.drive_chance } else { 0.0 });
    let blows_by = c.streams.coin(by, Purpose::Habit, habits.blow_by_chance);
    let fakes =
        c.streams.coin(by, Purpose::Habit, if guard { habits.fake_chance } else { habits.fake_chance * 0.5 });
    let looks_off = c.streams.coin(by, Purpose::Habit, if guard { habits.look_off_chance } else { 0.0 });
    let dribbles_at = guard && c.streams.coin(by, Purpose::DribbleAt, habits.dribble_at_chance);
    c.hold.leave.drive = drives;
    c.hold.leave.dribble_at = dribbles_at;
    c.hold.leave.blow_by = blows_by;
    c.hold.rushed_s = f32::NEG_INFINITY;
    c.hold.leave.open_drive = c.streams.coin(by, Purpose::Habit, habits.open_drive_chance);
    c.hold.leave.shot_fake = c.streams.coin(by, Purpose::ShotFake, habits.shot_fake_chance);
    c.hold.brought_s = 0.0;
    c.hold.leave.pass_fakes = if fakes { habits.fakes_most } else { 0 };
    c.hold.leave.look_off = looks_off;
    c.hold.grip_left = -ln(max(1.0 - c.streams.uniform(by, Purpose::Handling), 1e-7));
    let going_on = &c.given.setup.attackers.skill.going_on;
    if c.clocks.shot_clock.is_infinite() && c.clocks.now > 15.0 {
        // A hold and its pass take about this long.
        let chance = chance_within(going_on.impatience_per_s, 1.2);
        c.progress.impatient |= c.streams.coin(TABLE, Purpose::Impatience, chance);
    }
}

/// The read that made this catch: the catcher's own program, or the one that freed the passer just before.
fn credit_of(c: &Court<'_>, by: Slot, passer: Option<Slot>, time_s: f32) -> Option<u8> {
    let plan = &c.plans.attack[by];
    if plan.program.is_some() {
        plan.program
    } else if time_s - plan.last_s < 1.2 {
        plan.last_program
    } else if passer.is_some() && time_s - c.hold.caught_s < 2.5 {
        c.progress.credit
    } else {
        None
    }
}
