//! Stage 2, `perceive`: what each player sees, remembers, is told and learns of the ball.

mod gaze;
mod news;
mod sight;
mod talk;

use crate::random::{Purpose, Streams, chance_within};
use crate::slots::{ATTACK, DEFENCE, LANES, PLAYERS, attacks};
use crate::state::Given;
use crate::state::*;
use bevy_ecs::prelude::{Query, Res};

/// Updates the beliefs of all players.
pub fn perceive(
    given: Res<Given>,
    mut slots: Query<(
        &Clocks,
        &Bodies,
        &Traits,
        &History,
        &Board,
        &Ball,
        &Side,
        &mut Minds,
        &mut Plans,
        &mut Streams,
        &mut Signals,
    )>,
) {
    // Chances that the setup alone decides: an exponential is dear, and five players ask in a step.
    let noticing = [&given.setup.attackers, &given.setup.defenders]
        .map(|team| (chance_within(team.head.notice_per_s, 0.1) * 64.0) as u64);
    let talking = talk::chance(&given.setup.defenders.head);
    for (
        clocks,
        bodies,
        traits,
        history,
        board,
        ball,
        side,
        mut minds,
        mut plans,
        mut streams,
        mut signals,
    ) in &mut slots
    {
        if clocks.status != Status::Playing {
            continue;
        }
        let scene = Scene { given: &given, clocks, bodies, traits, history, board, ball, side: side.0 };
        for lane in 0..PLAYERS {
            if clocks.now >= plans.next_s[lane] {
                let mind = &mut minds.0[lane];
                notice(lane, mind, &mut streams, noticing[usize::from(!attacks(lane))]);
                look(&scene, lane, mind, &mut streams);
            }
        }
        gaze::point(&scene, &plans, &mut minds);
        for (lane, mind) in minds.0.iter_mut().enumerate() {
            sight::see(&scene, lane, mind);
            if news::learn(&scene, lane, mind, &mut streams, &mut signals) {
                plans.next_s[lane] = clocks.now;
            }
        }
        for lane in DEFENCE {
            if clocks.now >= plans.next_s[lane] {
                if !given.setup.limits.all_seeing_zone {
                    talk::listen(&scene, lane, &mut minds, &mut streams, talking);
                }
                note_losses(&scene, lane, &mut minds.0[lane], &mut signals);
            }
        }
    }
}

/// What perception reads of a possession.
struct Scene<'a> {
    given: &'a Given,
    clocks: &'a Clocks,
    bodies: &'a Bodies,
    traits: &'a Traits,
    history: &'a History,
    board: &'a Board,
    ball: &'a Ball,
    side: f32,
}

impl Scene<'_> {
    /// A player whom the setup lets know everything at once.
    fn knows_all(&self, lane: usize) -> bool {
        self.given.setup.limits.all_seeing_zone && !attacks(lane)
    }
}

/// Ten times a second: which of the movers in the outer field are noticed, each where his six bits of the
/// draw are below the threshold (in 64ths). The ball goes with the last player.
fn notice(lane: usize, mind: &mut Belief, streams: &mut Streams, threshold: u64) {
    let bits = streams.bits(lane, Purpose::Notice);
    for other in 0..LANES {
        let six = bits >> (other.min(9) * 6) & 63;
        mind.noticed[other] = if six < threshold { 1.0 } else { 0.0 };
    }
}

/// Ten times a second: whether a defender takes his eyes off the ball to find whom he has lost.
fn look(scene: &Scene<'_>, lane: usize, mind: &mut Belief, streams: &mut Streams) {
    let now = scene.clocks.now;
    if attacks(lane) || now < mind.next_glance || mind.in_air || scene.knows_all(lane) {
        return;
    }
    let mut stalest = (0.7, None);
    for other in ATTACK {
        // Only those who could hurt: within reach of his part of the floor.
        let near = (mind.at(other) - scene.bodies.at(lane)).len2() < 25.0;
        if near && mind.age[other] > stalest.0 {
            stalest = (mind.age[other], Some(other));
        }
    }
    if let (_, Some(other)) = stalest {
        let head = &scene.given.team(lane).head;
        mind.glance_until = now + head.glance_s;
        mind.glance_at = other as u8;
        mind.next_glance = now + head.glance_every_s * (0.5 + streams.uniform(lane, Purpose::Glance));
    }
}

/// Says once when a defender's memory of an attacker near him has run out.
fn note_losses(scene: &Scene<'_>, lane: usize, mind: &mut Belief, signals: &mut Signals) {
    let useless = scene.given.team(lane).head.memory_s;
    for other in ATTACK {
        let bit = 1_u16 << other;
        if mind.age[other] < 0.5 {
            mind.lost &= !bit;
        } else if mind.age[other] > useless && mind.lost & bit == 0 {
            mind.lost |= bit;
            let near = (scene.bodies.at(other) - scene.bodies.at(lane)).len2() < 4.0;
            if near && scene.bodies.velocity(other).len2() > 1.0 {
                let what = Signal::Loses { by: lane as u8, whom: other as u8 };
                signals.say(scene.clocks.now, scene.bodies.at(other), what);
            }
        }
    }
}
