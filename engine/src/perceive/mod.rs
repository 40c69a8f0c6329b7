//! Stage 2, `perceive`: what each player sees, remembers, is told and learns of the ball.

mod ball_events;
mod gaze;
mod mates;
mod sight;
mod talk;

use crate::law::conduct::attention::*;
use crate::law::conduct::deciding::DECIDES_EVERY_S;
use crate::random::{Purpose, Streams, chance_within};
use crate::setup::{Head, Setup};
use crate::slots::{ALL, ATTACK, DEFENCE, PLAYERS, ROW, Slot};
use crate::state::*;
use bevy_ecs::prelude::{Query, Res};
use bevy_ecs::query::QueryData;

/// What perception works on.
#[derive(QueryData)]
#[query_data(mutable)]
pub(crate) struct Possession {
    clocks: &'static Clocks,
    bodies: &'static Bodies,
    traits: &'static Traits,
    history: &'static History,
    events: &'static EventQueue,
    ball: &'static Ball,
    hold: &'static Hold,
    side: &'static Side,
    minds: &'static mut Minds,
    plans: &'static mut Plans,
    streams: &'static mut Streams,
    signals: &'static mut Signals,
}

/// Updates the beliefs of all players.
pub fn perceive(given: Res<Given>, mut possessions: Query<Possession>) {
    // Chances that the setup alone decides: an exponential is dear, and five players ask in a step.
    let setup = &given.setup;
    let noticing =
        of_each(setup, |head| (chance_within(head.notice_per_s, DECIDES_EVERY_S) * NOTICE_STEPS) as u64);
    let talking = of_each(setup, talk::chance);
    for mut p in &mut possessions {
        let (clocks, bodies) = (p.clocks, p.bodies);
        if clocks.status != Status::Playing {
            continue;
        }
        let scene = Scene {
            given: &given,
            clocks,
            bodies,
            traits: p.traits,
            history: p.history,
            events: p.events,
            ball: p.ball,
            hold: p.hold,
            side: p.side.0,
        };
        let (minds, plans) = (&mut *p.minds, &mut *p.plans);
        let (streams, signals) = (&mut *p.streams, &mut *p.signals);
        for slot in ALL {
            if clocks.now >= plans.next_s[slot] {
                let mind = &mut minds.0[slot];
                notice(slot, mind, streams, noticing[slot]);
                look(&scene, slot, mind, streams);
            }
        }
        gaze::point(&scene, plans, minds);
        for (slot, mind) in ALL.into_iter().zip(&mut minds.0) {
            sight::see(&scene, slot, mind);
            let learner = ball_events::Learner { slot, mind, streams, signals };
            if ball_events::learn(&scene, learner) {
                plans.next_s[slot] = clocks.now;
            }
            // Only attackers ask which way somebody is turned, and what a team-mate is about.
            if slot.attacks() && clocks.now >= plans.next_s[slot] {
                sight::see_turns(&scene, slot, mind);
                mates::watch(&scene, slot, &plans.attack, mind);
            }
        }
        for slot in DEFENCE {
            if clocks.now >= plans.next_s[slot] {
                if !given.setup.limits.all_seeing_zone {
                    talk::listen(&scene, slot, minds, streams, talking[slot]);
                }
                note_losses(&scene, slot, &mut minds.0[slot], signals);
            }
        }
    }
}

/// What follows from each player's head: worked out once a team, and once for each player who is known by himself.
fn of_each<T: Copy>(setup: &Setup, of: impl Fn(&Head) -> T) -> [T; PLAYERS] {
    let teams = [of(&setup.attackers.head), of(&setup.defenders.head)];
    ALL.map(|slot| match &setup.individuals[slot] {
        Some(individual) => of(&individual.own.head),
        None => teams[usize::from(slot.defends())],
    })
}

/// What perception reads of a possession.
struct Scene<'a> {
    given: &'a Given,
    clocks: &'a Clocks,
    bodies: &'a Bodies,
    traits: &'a Traits,
    history: &'a History,
    events: &'a EventQueue,
    ball: &'a Ball,
    hold: &'a Hold,
    side: f32,
}

impl Scene<'_> {
    /// A player whom the setup lets know everything at once.
    fn knows_all(&self, slot: Slot) -> bool {
        self.given.setup.limits.all_seeing_zone && !slot.attacks()
    }
}

/// At each decision: which of the movers in the outer field are noticed, each where his six bits of the
/// draw are below the threshold (in 64ths). The ball goes with the last player.
fn notice(slot: Slot, mind: &mut Belief, streams: &mut Streams, threshold: u64) {
    let bits = streams.bits(slot, Purpose::Notice);
    for other in 0..ROW {
        let six = bits >> (other.min(9) * 6) & 63;
        mind.noticed[other] = if six < threshold { 1.0 } else { 0.0 };
    }
}

/// At each decision: whether a defender takes his eyes off the ball to find whom he has lost.
fn look(scene: &Scene<'_>, slot: Slot, mind: &mut Belief, streams: &mut Streams) {
    let now = scene.clocks.now;
    if slot.attacks() || now < mind.next_glance || mind.flies() || scene.knows_all(slot) {
        return;
    }
    let mut stalest = (GLANCES_AFTER_S, None);
    for other in ATTACK {
        // Only those who could hurt: within reach of his part of the floor.
        let near = (mind.at(other) - scene.bodies.at(slot)).len2() < GLANCES_WITHIN_M * GLANCES_WITHIN_M;
        if near && mind.age[other] > stalest.0 {
            stalest = (mind.age[other], Some(other));
        }
    }
    if let (_, Some(other)) = stalest {
        let head = &scene.given.player(slot).head;
        mind.glance_until = now + head.glance_s;
        mind.glance_at = Some(other);
        mind.next_glance =
            now + head.glance_every_s * (GLANCE_GAP_LEAST + streams.uniform(slot, Purpose::Glance));
    }
}

/// Says once when a defender's memory of an attacker near him has run out.
fn note_losses(scene: &Scene<'_>, slot: Slot, mind: &mut Belief, signals: &mut Signals) {
    let useless = scene.given.player(slot).head.memory_s;
    for other in ATTACK {
        let bit = other.bit();
        if mind.age[other] < FOUND_AGAIN_S {
            mind.lost &= !bit;
        } else if mind.age[other] > useless && mind.lost & bit == 0 {
            mind.lost |= bit;
            let near =
                (scene.bodies.at(other) - scene.bodies.at(slot)).len2() < LOST_WITHIN_M * LOST_WITHIN_M;
            if near && scene.bodies.velocity(other).len2() > LOST_MOVER_M_S * LOST_MOVER_M_S {
                let what = Signal::Loses { by: slot, whom: other };
                signals.say(scene.clocks.now, scene.bodies.at(other), what);
            }
        }
    }
}
