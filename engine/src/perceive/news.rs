//! What a player learns of the ball, and when: a release, a catch, a fake, a shot, a loose ball.
//!
//! Each piece of news reaches a player one reaction after it happened if he has the ball in view, later if he
//! has turned his eyes away. The release of a pass takes a choice as well (which of the receivers?), half of
//! it where the passer's eyes gave the pass away.

use super::Scene;
use crate::math::Vec2;
use crate::random::{Purpose, Streams};
use crate::slots::{ATTACK, BALL, Slot};
use crate::state::{BallState, Belief, Board, News, Signal, Signals, Whose};

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
    slot: Slot,
    mind: &mut Belief,
    streams: &mut Streams,
    signals: &mut Signals,
) -> bool {
    // Nearly always there is no news.
    let learned = mind.known < scene.board.count && catch_up(scene, slot, mind, streams, signals);
    if !mind.flies() {
        mind.ball = mind.sighted_ball();
    }
    learned
}

fn catch_up(
    scene: &Scene<'_>,
    slot: Slot,
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
        if scene.clocks.now < when + delay(scene, slot, mind, news) {
            break;
        }
        mind.known += 1;
        learned |= take_in(scene, slot, mind, when, news, streams, signals);
    }
    learned
}

fn delay(scene: &Scene<'_>, slot: Slot, mind: &Belief, news: News) -> f32 {
    let head = &scene.given.team(slot).head;
    if scene.knows_all(slot) || matches!(news, News::Control { by } if by == slot) {
        return 0.0;
    }
    let base = scene.traits.reaction[slot] + if mind.sees_ball { 0.0 } else { HEARD_S };
    let fooled = if scene.clocks.now < mind.fooled_until { head.bite_delay_s } else { 0.0 };
    match news {
        News::Release { to, look_off, .. } if slot.attacks() => {
            // Team-mates expect the pass; the receiver is looking for it.
            if to == slot { base * 0.5 } else { base + if look_off { 0.1 } else { 0.0 } }
        }
        News::Release { look_off, .. } => {
            base + fooled + head.choice_s * if look_off { DOUBLINGS } else { 0.5 * DOUBLINGS }
        }
        _ => base,
    }
}

fn take_in(
    scene: &Scene<'_>,
    slot: Slot,
    mind: &mut Belief,
    when: f32,
    news: News,
    streams: &mut Streams,
    signals: &mut Signals,
) -> bool {
    match news {
        News::Release { to, at, .. } => {
            mind.whose = Whose::Passed(to);
            mind.ball = at;
            true
        }
        News::Control { by } => {
            mind.whose = Whose::Held(by);
            // Who learns of a catch knows where it was, whether or not he has the ball in view.
            let at = if scene.knows_all(slot) { scene.bodies.at(by) } else { mind.at(by) };
            mind.x[BALL] = at.x;
            mind.y[BALL] = at.y;
            mind.ball = at;
            true
        }
        News::Shot => {
            // He who shoots is off his feet, and so is whoever goes up with him.
            let from = mind.owner();
            let goes_up = from == Some(slot)
                || !slot.attacks()
                    && !scene.knows_all(slot)
                    && from.is_some_and(|from| (mind.at(from) - scene.bodies.at(slot)).len() < GOES_UP_M);
            if goes_up {
                mind.jumps_until = when + if from == Some(slot) { SHOT_JUMP_S } else { CONTEST_JUMP_S };
            }
            mind.whose = Whose::Nobodys;
            mind.ball = Vec2::RIM;
            true
        }
        News::Loose { at } => {
            mind.whose = Whose::Nobodys;
            mind.ball = at;
            true
        }
        News::Fake { to } => {
            if slot.attacks() || scene.knows_all(slot) || !mind.sees_ball || when + 0.5 < scene.clocks.now {
                return false;
            }
            let head = &scene.given.team(slot).head;
            let mut chance = head.bite_chance;
            for _ in 0..mind.fakes_seen {
                chance *= head.bite_decay;
            }
            mind.fakes_seen = mind.fakes_seen.saturating_add(1);
            // Only those whom the shown pass concerns: nearer to it than the ball is; of a shot, those who come out.
            let to_at = mind.at(to);
            let shot = mind.owner() == Some(to);
            let concerns = if shot { SHOT_CONCERNS_M } else { CONCERNS_M };
            let concerned = (to_at - scene.bodies.at(slot)).len() < concerns;
            let bites = streams.coin(slot, Purpose::Bite, chance) && concerned;
            if bites {
                if shot {
                    mind.jumps_until = scene.clocks.now + JUMP_S;
                } else {
                    mind.fooled_until = scene.clocks.now + 0.3 + head.bite_delay_s;
                    mind.fooled_to = to_at;
                }
                let bitten = slot.bit();
                let by = match scene.ball.state {
                    BallState::Held { by } => by,
                    _ => ATTACK[0],
                };
                let from = scene.bodies.at(by);
                signals.say(scene.clocks.now, from, Signal::Fake { by, toward: to, bitten });
            }
            bites
        }
    }
}
