//! What a player learns of the ball, and when: a release, a catch, a fake, a shot, a loose ball.
//!
//! Each event reaches a player one reaction after it happened if he has the ball in view, later if he
//! has turned his eyes away or has bitten on a shown pass; a receiver knows of the release in half of it, a catcher at once that he
//! has the ball. The release of a pass takes a choice as well (which of the receivers?), half of
//! it where the passer's eyes gave the pass away.

use super::Scene;
use crate::law::conduct::ball_events::*;
use crate::law::conduct::deciding::JUDGES_FLIGHT_S;
use crate::math::Vec2;
use crate::random::{Purpose, Streams};
use crate::slots::{ATTACK, BALL, Slot};
use crate::state::{BallEvent, BallState, Belief, EventQueue, Signal, Signals, Whose};

/// One player who learns.
pub struct Learner<'a> {
    pub slot: Slot,
    pub mind: &'a mut Belief,
    pub streams: &'a mut Streams,
    pub signals: &'a mut Signals,
}

/// Lets a player learn what is due; true where he learned something that he acts on at once.
#[inline]
pub fn learn(scene: &Scene<'_>, mut learner: Learner<'_>) -> bool {
    // Nearly always nothing has happened.
    let learned = learner.mind.known < scene.events.count && catch_up(scene, &mut learner);
    let mind = learner.mind;
    if !mind.flies() {
        mind.ball = mind.sighted_ball();
    } else if mind.passed_to(learner.slot)
        && let Some(down) = judges_flight(scene, learner.slot, mind)
    {
        mind.ball = down;
    }
    learned
}

/// Where a pass comes down, once its receiver has seen it leave and fly for long enough to tell.
fn judges_flight(scene: &Scene<'_>, slot: Slot, mind: &Belief) -> Option<Vec2> {
    let BallState::Pass(flight) = scene.ball.state else { return None };
    let tells_from = flight.start_s + scene.traits.reaction[slot] + JUDGES_FLIGHT_S;
    (flight.to == slot && mind.sees_ball && scene.clocks.now > tells_from).then_some(flight.end)
}

/// Takes in one event after the other until one is not due yet.
fn catch_up(scene: &Scene<'_>, learner: &mut Learner<'_>) -> bool {
    let mut learned = false;
    let oldest = scene.events.count.saturating_sub(EventQueue::LENGTH as u16);
    if learner.mind.known < oldest {
        learner.mind.known = oldest;
    }
    while learner.mind.known < scene.events.count {
        let (when, event) = scene.events.ring[usize::from(learner.mind.known) % EventQueue::LENGTH];
        if scene.clocks.now < when + delay(scene, learner, event) {
            break;
        }
        learner.mind.known += 1;
        learned |= take_in(scene, learner, when, event);
    }
    learned
}

/// How long after it happened a player learns of an event, s.
fn delay(scene: &Scene<'_>, learner: &Learner<'_>, event: BallEvent) -> f32 {
    let (slot, mind) = (learner.slot, &*learner.mind);
    let head = &scene.given.player(slot).head;
    if scene.knows_all(slot) || matches!(event, BallEvent::Control { by } if by == slot) {
        return 0.0;
    }
    let base = scene.traits.reaction[slot] + if mind.sees_ball { 0.0 } else { HEARD_S };
    // A credible fake slows the answer to the pass that follows it, whenever the lean is over.
    let fooled = if mind.doubts { head.bite_delay_s } else { 0.0 };
    match event {
        BallEvent::Release { to, look_off, .. } if slot.attacks() => {
            // Team-mates expect the pass; the receiver is looking for it.
            if to == slot {
                base * RECEIVER_SHARE
            } else {
                base + if look_off { LOOK_OFF_MATES_S } else { 0.0 }
            }
        }
        BallEvent::Release { look_off, .. } => {
            let doublings = if look_off { TARGET_DOUBLINGS } else { EYES_TELL_SHARE * TARGET_DOUBLINGS };
            base + fooled + head.choice_s * doublings
        }
        _ => base,
    }
}

/// What an event does to his beliefs; true where he acts on it at once.
fn take_in(scene: &Scene<'_>, learner: &mut Learner<'_>, when: f32, event: BallEvent) -> bool {
    let slot = learner.slot;
    let mind = &mut *learner.mind;
    match event {
        BallEvent::Release { to, at, .. } => {
            mind.whose = Whose::Passed(to);
            mind.ball = at;
            mind.doubts = false;
        }
        BallEvent::Control { by } => {
            mind.whose = Whose::Held(by);
            mind.doubts = false;
            // Who learns of a catch knows where it was, whether or not he has the ball in view.
            let at = if scene.knows_all(slot) { scene.bodies.at(by) } else { mind.at(by) };
            mind.x[BALL] = at.x;
            mind.y[BALL] = at.y;
            mind.ball = at;
        }
        BallEvent::Shot => sees_shot(scene, slot, mind, when),
        BallEvent::Rebound { at } => {
            mind.whose = Whose::Rebound;
            mind.ball = at;
        }
        BallEvent::Loose { at } => {
            mind.whose = Whose::Loose;
            mind.ball = at;
        }
        BallEvent::Fake { to } => return sees_fake(scene, learner, when, to),
    }
    true
}

/// A shot is up: he who shoots is off his feet, and so is whoever goes up with him.
fn sees_shot(scene: &Scene<'_>, slot: Slot, mind: &mut Belief, when: f32) {
    let from = mind.owner();
    let goes_up = from == Some(slot)
        || !slot.attacks()
            && !scene.knows_all(slot)
            && from.is_some_and(|from| (mind.at(from) - scene.bodies.at(slot)).len() < GOES_UP_WITH_M);
    if goes_up {
        mind.jumps_until = when + if from == Some(slot) { SHOT_JUMP_S } else { CONTEST_JUMP_S };
    }
    mind.whose = Whose::Shot;
    mind.shot_from = match from {
        Some(by) if by == slot => scene.bodies.at(slot),
        Some(by) => mind.at(by),
        None => mind.sighted_ball(),
    };
    mind.ball = Vec2::RIM;
}

/// A pass or a shot is shown; true where a defender bites on it.
fn sees_fake(scene: &Scene<'_>, learner: &mut Learner<'_>, when: f32, to: Slot) -> bool {
    let slot = learner.slot;
    let mind = &mut *learner.mind;
    let now = scene.clocks.now;
    if slot.attacks() || scene.knows_all(slot) || !mind.sees_ball || when + FAKE_STALE_S < now {
        return false;
    }
    let head = &scene.given.player(slot).head;
    let mut chance = head.bite_chance;
    for _ in 0..mind.fakes_seen {
        chance *= head.bite_decay;
    }
    mind.fakes_seen = mind.fakes_seen.saturating_add(1);
    // All five shift with a pass, so a shown one concerns each of them; a shown shot those who come out.
    let to_at = mind.at(to);
    let shot = mind.owner() == Some(to);
    let concerned = !shot || (to_at - scene.bodies.at(slot)).len() < SHOWN_SHOT_CONCERNS_M;
    let bites = learner.streams.coin(slot, Purpose::Bite, chance) && concerned;
    if bites {
        if shot {
            mind.jumps_until = now + BITE_JUMP_S;
        } else {
            mind.doubts = true;
            mind.fooled_until = now + LEANS_S + head.bite_delay_s;
            mind.fooled_to = to_at;
        }
        let by = match scene.ball.state {
            BallState::Held { by } => by,
            _ => ATTACK[0],
        };
        let what = Signal::Fake { by, toward: to, bitten: slot.bit() };
        learner.signals.say(now, scene.bodies.at(by), what);
    }
    bites
}
