//! A pass: its release, its flight past hands and bodies, its catch.

use super::control::{How, gain};
use super::hands::{Leg, meets};
use super::{Play, loose};
use crate::law::floor::{HIGH_POST, LOW_POST, touch_class};
use crate::law::loose_ball::{MISSED_PASS_FLIES_ON_M, MISSED_PASS_FLIES_ON_S, TIP_FALLS_S, TIP_SPREAD_M};
use crate::law::pass::{aim, pass_height};
use crate::law::reach::{GOES_UP_M, gets_up, hand_height_m};
use crate::law::release::hands;
use crate::law::throw::{PERIMETER_INSIDE_ARC_M, SHORTEST_M, SKIP_FROM_M, WIDEST_ERROR_SD};
use crate::math::{Vec2, clamp, max, min};
use crate::random::Purpose;
use crate::record::TurnoverKind;
use crate::setup::PassKind;
use crate::slots::{ATTACK, DEFENCE, Slot};
use crate::state::{BallEvent, BallState, Flight, Handling, PassClass, Signal};

/// Throws a pass from the believed aim, with its error in direction.
pub fn release(c: &mut Play<'_>, by: Slot, to: Slot, kind: PassKind, at_s: f32, look_off: bool) {
    let at = c.bodies.at(by);
    let skill = c.given.player(by).skill.pass[kind as usize];
    let mind = &c.minds.0[by];
    let receiver = (mind.at(to), mind.velocity(to));
    let aim = aim(&c.given.setup.court, &skill, kind, at, receiver, 0.0);
    let start = hands(|slot| mind.at(slot), kind, at, aim, c.side);
    let way = aim - start;
    let length = max(way.len(), SHORTEST_M);
    // The error is an angle; small, so that its tangent is itself. Its sign goes with the side.
    let error = clamp(c.streams.normal(by, Purpose::PassError), -WIDEST_ERROR_SD, WIDEST_ERROR_SD)
        * skill.error_rad
        * c.side;
    let end = aim + way.quarter() * error;
    let class = classify(c, start, aim, length);
    let luck = DEFENCE.map(|slot| c.streams.uniform(slot, Purpose::Touch));
    let flight = Flight {
        luck,
        from: by,
        to,
        kind,
        start,
        end,
        start_s: at_s,
        span_s: skill.flight_s(kind, length),
        class,
    };
    c.ball.state = BallState::Pass(flight);
    c.hold.handling = Handling::Hold;
    c.plans.attack[by].passed_s = at_s;
    c.events.post(at_s, BallEvent::Release { to, at: aim, look_off });
    c.say(at_s, start, Signal::Pass { from: by, to, kind, metres: length, class, look_off });
    // What is left of this step is flown already.
    step(c, flight);
}

/// What kind of pass it is for the measures, by where it is aimed.
fn classify(c: &Play<'_>, from: Vec2, to: Vec2, length: f32) -> PassClass {
    let court = &c.given.setup.court;
    let touch = touch_class(court, to);
    let outside = |p: Vec2| p.len() > court.three_radius_m - PERIMETER_INSIDE_ARC_M;
    if touch & LOW_POST != 0 {
        PassClass::LowPost
    } else if touch & HIGH_POST != 0 {
        PassClass::HighPost
    } else if outside(from) && outside(to) {
        if length >= SKIP_FROM_M { PassClass::Skip } else { PassClass::Swing }
    } else {
        PassClass::Other
    }
}

/// One step of a flight.
pub fn step(c: &mut Play<'_>, flight: Flight) {
    let dt = c.given.setup.step_s;
    let end_s = flight.start_s + flight.span_s;
    let from_s = max(c.clocks.now - dt, flight.start_s);
    let to_s = min(c.clocks.now, end_s);
    let share = |s: f32| clamp((s - flight.start_s) / flight.span_s, 0.0, 1.0);
    let skill = &c.given.player(flight.from).skill.pass[flight.kind as usize];
    let height = |s: f32| pass_height(flight.kind, skill, flight.span_s, share(s));
    let leg = Leg {
        from: flight.start.toward(flight.end, share(from_s)),
        to: flight.start.toward(flight.end, share(to_s)),
        from_s,
        to_s,
        heights: (height(from_s), height(to_s)),
    };
    c.bodies.put_ball(leg.to);
    c.ball.height = leg.heights.1;
    let mut first = (f32::INFINITY, None);
    for slot in DEFENCE {
        if let Some((share, at)) = meets(c, slot, &flight, &leg)
            && share < first.0
        {
            first = (share, Some((slot, at)));
        }
    }
    if let (share, Some((slot, at))) = first {
        let time_s = leg.from_s + (leg.to_s - leg.from_s) * share;
        return touch(c, &flight, slot, at, time_s);
    }
    if end_s <= c.clocks.now {
        arrive(c, &flight, end_s);
    }
}

/// A hand is there in time: it takes the ball or tips it.
fn touch(c: &mut Play<'_>, flight: &Flight, slot: Slot, at: Vec2, time_s: f32) {
    let takes = c.streams.coin(slot, Purpose::Hand, c.given.player(slot).skill.take_chance);
    c.bodies.put_ball(at);
    c.say(time_s, at, Signal::Tip { by: slot });
    if takes {
        c.turnover(TurnoverKind::Intercepted, flight.from);
        return;
    }
    let x = c.streams.normal(slot, Purpose::TipWay) * TIP_SPREAD_M * c.side;
    let y = c.streams.normal(slot, Purpose::TipWay) * TIP_SPREAD_M;
    loose::fall(c, at + Vec2 { x, y }, time_s + TIP_FALLS_S, (slot, flight.from), true);
}

/// The defender who gets a hand to a lob as it comes down, if one does: whoever is near goes up with the receiver.
fn goes_up(c: &mut Play<'_>, flight: &Flight, end_s: f32) -> Option<Slot> {
    let ball_m = c.given.player(flight.from).skill.pass[flight.kind as usize].catch_height_m;
    for slot in DEFENCE {
        let off = c.bodies.at(slot).distance(flight.end);
        let out_s = end_s - flight.start_s - c.traits.reaction[slot];
        if off > GOES_UP_M || c.traits.arm[slot] <= 0.0 {
            continue;
        }
        let hand_m =
            hand_height_m(out_s, off, c.traits.standing_reach[slot], c.given.player(slot).body.jump_m);
        let chance = gets_up(hand_m, ball_m);
        if c.streams.coin(slot, Purpose::LobJump, chance) {
            return Some(slot);
        }
    }
    None
}

/// The ball comes down: the receiver has it, or a team-mate, or nobody.
fn arrive(c: &mut Play<'_>, flight: &Flight, end_s: f32) {
    let to = flight.to;
    let skill = &c.given.player(to).skill;
    let (easy, far, poor) = (skill.catch_easy_m, skill.catch_far_m, skill.poor_catch_s);
    let off = c.bodies.at(to).distance(flight.end);
    if flight.kind == PassKind::Lob
        && let Some(slot) = goes_up(c, flight, end_s)
    {
        return touch(c, flight, slot, flight.end, end_s);
    }
    if off <= far {
        let late = poor * clamp((off - easy) / max(far - easy, f32::MIN_POSITIVE), 0.0, 1.0);
        return gain(c, to, end_s, late, How::Pass(flight.class));
    }
    for slot in ATTACK {
        let skill = &c.given.player(slot).skill;
        if slot != flight.from && c.bodies.at(slot).distance(flight.end) <= skill.catch_easy_m {
            return gain(c, slot, end_s, skill.poor_catch_s, How::Pass(flight.class));
        }
    }
    // It flies on a little before it can be had.
    let way = (flight.end - flight.start).unit_or(Vec2 { x: 0.0, y: 1.0 });
    let on = flight.end + way * MISSED_PASS_FLIES_ON_M;
    loose::fall(c, on, end_s + MISSED_PASS_FLIES_ON_S, (flight.from, flight.from), true);
}
