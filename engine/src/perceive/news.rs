//! What a player learns of the ball, and when: a release, a catch, a fake, a shot, a loose ball.
//!
//! Each piece of news reaches a player one reaction after it happened if he has the ball in view, later if he
//! has turned his eyes away. The release of a pass takes a choice as well (which of the receivers?), half of
//! it where the passer's eyes gave the pass away.

use super::Scene;
use crate::math::Vec2;
use crate::random::{Purpose, Streams};
use crate::slots::{BALL, PLAYERS, attacks};
use crate::state::{Belief, Board, News, Signal, Signals};

/// Doublings of the plausible targets of a pass: four receivers, two doublings; the passer's eyes halve them.
const DOUBLINGS: f32 = 2.0;
/// A shown pass concerns a defender within this distance of its end, m. (assumed)
const CONCERNS_M: f32 = 4.5;
/// A shown shot concerns a defender within this distance of the shooter, m. (assumed)
const SHOT_CONCERNS_M: f32 = 2.5;
/// For how long a defender who bites on a shown shot is of no use: up, down and set again, s. (assumed)
const JUMP_S: f32 = 0.45;
/// A shooter is in the air for so long, s. (a jump of 0.5 m)
const SHOT_JUMP_S: f32 = 0.64;
/// A defender who goes up with him has also to gather himself again, s. (assumed)
const CONTEST_JUMP_S: f32 = 0.85;
/// Whoever believes himself so near a shooter goes up with him, m. (assumed; a contested look is one nearer than 1.22 m)
const GOES_UP_M: f32 = 1.22;
/// Later by this much when the ball is not in view: he hears it rather than sees it, s. (assumed)
const HEARD_S: f32 = 0.35;

/// Lets a player learn what is due; true where he learned something that he acts on at once.
#[inline]
pub fn learn(
    scene: &Scene<'_>,
    lane: usize,
    mind: &mut Belief,
    streams: &mut Streams,
    signals: &mut Signals,
) -> bool {
    // Nearly always there is no news.
    let learned = mind.known < scene.board.count && catch_up(scene, lane, mind, streams, signals);
    if !mind.in_air {
        mind.ball = mind.at(BALL);
    }
    learned
}

fn catch_up(
    scene: &Scene<'_>,
    lane: usize,
    mind: &mut Belief,
    streams: &mut Streams,
    signals: &mut Signals,
) -> bool {
    let mut learned = false;
    let oldest = scene.board.count.saturating_sub(Board::LENGTH as u16);
    if mind.known < oldest {
        mind.known = oldest;
    }
    while mind.known < scene.board.count {
        let (when, news) = scene.board.news[usize::from(mind.known) % Board::LENGTH];
        if scene.clocks.now < when + delay(scene, lane, mind, news) {
            break;
        }
        mind.known += 1;
        learned |= take_in(scene, lane, mind, when, news, streams, signals);
    }
    learned
}

fn delay(scene: &Scene<'_>, lane: usize, mind: &Belief, news: News) -> f32 {
    let head = &scene.given.team(lane).head;
    if scene.knows_all(lane) || matches!(news, News::Control { by } if usize::from(by) == lane) {
        return 0.0;
    }
    let base = scene.traits.reaction[lane] + if mind.sees_ball { 0.0 } else { HEARD_S };
    let fooled = if scene.clocks.now < mind.fooled_until { head.bite_delay_s } else { 0.0 };
    match news {
        News::Release { to, look_off, .. } if attacks(lane) => {
            // Team-mates expect the pass; the receiver is looking for it.
            if usize::from(to) == lane { base * 0.5 } else { base + if look_off { 0.1 } else { 0.0 } }
        }
        News::Release { look_off, .. } => {
            base + fooled + head.choice_s * if look_off { DOUBLINGS } else { 0.5 * DOUBLINGS }
        }
        _ => base,
    }
}

fn take_in(
    scene: &Scene<'_>,
    lane: usize,
    mind: &mut Belief,
    when: f32,
    news: News,
    streams: &mut Streams,
    signals: &mut Signals,
) -> bool {
    match news {
        News::Release { to, at, .. } => {
            mind.in_air = true;
            mind.holder = to;
            mind.ball = at;
            true
        }
        News::Control { by } => {
            mind.in_air = false;
            mind.holder = by;
            // Who learns of a catch knows where it was, whether or not he has the ball in view.
            let at = if scene.knows_all(lane) {
                scene.bodies.at(usize::from(by))
            } else {
                mind.at(usize::from(by))
            };
            mind.x[BALL] = at.x;
            mind.y[BALL] = at.y;
            mind.ball = at;
            true
        }
        News::Shot => {
            // He who shoots is off his feet, and so is whoever goes up with him.
            let from = usize::from(mind.holder);
            let goes_up = lane == from
                || !attacks(lane)
                    && !scene.knows_all(lane)
                    && from < PLAYERS
                    && (mind.at(from) - scene.bodies.at(lane)).len() < GOES_UP_M;
            if goes_up {
                mind.jumps_until = when + if lane == from { SHOT_JUMP_S } else { CONTEST_JUMP_S };
            }
            mind.in_air = true;
            mind.holder = crate::slots::NOBODY;
            mind.ball = Vec2::RIM;
            true
        }
        News::Loose { at } => {
            mind.in_air = true;
            mind.holder = crate::slots::NOBODY;
            mind.ball = at;
            true
        }
        News::Fake { to } => {
            if attacks(lane) || scene.knows_all(lane) || !mind.sees_ball || when + 0.5 < scene.clocks.now {
                return false;
            }
            let head = &scene.given.team(lane).head;
            let mut chance = head.bite_chance;
            for _ in 0..mind.fakes_seen {
                chance *= head.bite_decay;
            }
            mind.fakes_seen = mind.fakes_seen.saturating_add(1);
            // Only those whom the shown pass concerns: nearer to it than the ball is; of a shot, those who come out.
            let to_at = mind.at(usize::from(to));
            let shot = to == mind.holder;
            let concerns = if shot { SHOT_CONCERNS_M } else { CONCERNS_M };
            let concerned = (to_at - scene.bodies.at(lane)).len() < concerns;
            let bites = streams.coin(lane, Purpose::Bite, chance) && concerned;
            if bites {
                if shot {
                    mind.jumps_until = scene.clocks.now + JUMP_S;
                } else {
                    mind.fooled_until = scene.clocks.now + 0.3 + head.bite_delay_s;
                    mind.fooled_to = to_at;
                }
                let bitten = 1_u16 << lane;
                let by = match scene.ball.state {
                    crate::state::BallState::Held { by } => by,
                    _ => 0,
                };
                let from = scene.bodies.at(usize::from(by));
                signals.say(scene.clocks.now, from, Signal::Fake { by, toward: to, bitten });
            }
            bites
        }
    }
}
