//! Stage 2, `perceive`: what each player sees, remembers, is told and learns of the ball.

mod news;
mod sight;
mod talk;

use crate::components::*;
use crate::given::Given;
use crate::lanes::{ATTACK, BALL, DEFENCE, LANES, NOBODY, PLAYERS, attacks};
use crate::math::Vec2;
use crate::random::{Purpose, Streams, chance_within};
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
    for (clocks, bodies, traits, history, board, ball, side, mut minds, mut plans, mut streams, mut signals) in
        &mut slots
    {
        if clocks.status != Status::Playing {
            continue;
        }
        let scene = Scene { given: &given, clocks, bodies, traits, history, board, ball, side: side.0 };
        for lane in 0..PLAYERS {
            let due = clocks.now >= plans.next_s[lane];
            let mind = &mut minds.0[lane];
            if due {
                notice(&scene, lane, mind, &mut streams);
                look(&scene, lane, mind, &mut streams);
            }
            let man = if attacks(lane) { NOBODY } else { plans.defence[lane - 5].man };
            point_gaze(&scene, lane, mind, man);
            sight::see(&scene, lane, mind);
            if news::learn(&scene, lane, mind, &mut streams, &mut signals) {
                plans.next_s[lane] = clocks.now;
            }
        }
        if !given.setup.limits.all_seeing_zone {
            for lane in DEFENCE {
                if clocks.now >= plans.next_s[lane] {
                    talk::listen(&scene, lane, &mut minds, &mut streams);
                }
            }
        }
        for lane in DEFENCE {
            note_losses(&scene, lane, &mut minds.0[lane], &mut signals);
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

/// Ten times a second: which of the movers in the outer field are noticed.
fn notice(scene: &Scene<'_>, lane: usize, mind: &mut Belief, streams: &mut Streams) {
    let chance = chance_within(scene.given.team(lane).head.notice_per_s, 0.1);
    let bits = streams.bits(lane, Purpose::Notice);
    let threshold = (chance * 64.0) as u64;
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

/// Turns the eyes: to the ball, or away on a look; a ball-handler looks about; a defender who can have both
/// the ball and his man in sharp sight looks between them.
fn point_gaze(scene: &Scene<'_>, lane: usize, mind: &mut Belief, man: u8) {
    let here = scene.bodies.at(lane);
    let held_by_me = scene.ball.state == (BallState::Held { by: lane as u8 });
    let toward = if held_by_me {
        look_about(scene, lane, mind)
    } else if scene.clocks.now < mind.glance_until {
        mind.at(usize::from(mind.glance_at))
    } else {
        let ball = (mind.at(BALL) - here).unit_or(mind.gaze);
        if man == NOBODY {
            here + ball
        } else {
            let him = (mind.at(usize::from(man)) - here).unit_or(ball);
            // Both fit where half the angle between them is within sharp sight.
            let both = ball + him;
            let sharp = scene.given.team(lane).head.sharp_cos;
            if both.len2() > 4.0 * sharp * sharp { here + both } else { here + ball }
        }
    };
    mind.gaze = (toward - here).unit_or(mind.gaze);
}

/// Where a ball-handler looks: by turns at the rim and at the team-mate whom he saw longest ago.
fn look_about(scene: &Scene<'_>, lane: usize, mind: &Belief) -> Vec2 {
    let held = scene.clocks.now - scene.ball.caught_s;
    if (held * 4.0) as u32 % 2 == 0 {
        return Vec2::RIM;
    }
    let mut stalest = (0.0, lane);
    for mate in ATTACK {
        if mate != lane && mind.age[mate] > stalest.0 {
            stalest = (mind.age[mate], mate);
        }
    }
    if stalest.1 == lane { Vec2::RIM } else { mind.at(stalest.1) }
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
            if (scene.bodies.at(other) - scene.bodies.at(lane)).len2() < 9.0 {
                let what = Signal::Loses { by: lane as u8, whom: other as u8 };
                signals.say(scene.clocks.now, scene.bodies.at(other), what);
            }
        }
    }
}
