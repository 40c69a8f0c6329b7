//! Stage 7, `officiate`: contact is judged; free throws are shot.
//!
//! A touch is called with a chance that grows with its impulse over the body's mass, by the officials'
//! strictness. Who is to blame follows from who brought the speed into it.

use crate::law::contest;
use crate::law::shot::make_chance;
use crate::math::{Vec2, logistic, vec2};
use crate::random::{Purpose, Streams};
use crate::record::Outcome;
use crate::record::TurnoverKind;
use crate::slots::{ATTACK, DEFENCE, attacks};
use crate::state::Given;
use crate::state::*;
use bevy_ecs::prelude::{Query, Res};

/// Touches softer than this are never looked at, m/s.
const LIGHT_M_S: f32 = 0.5;
/// Away from the ball, officials let more go: the threshold is this much higher. (common practice, no source)
const OFF_BALL_FACTOR: f32 = 1.8;
/// One contact is judged once: a shove that lasts is not a new foul in every step, s. (assumed)
const EPISODE_S: f32 = 0.6;
/// An offensive foul needs the attacker to come in at this speed at least, m/s. (assumed)
const CHARGE_M_S: f32 = 1.8;
/// A defender slower than this who faces the attacker has a legal position, m/s.
const SET_M_S: f32 = 0.8;

/// Judges the touches of the step.
pub fn officiate(
    given: Res<Given>,
    mut slots: Query<(
        &mut Clocks,
        &Bodies,
        &Traits,
        &Touches,
        &History,
        &mut Ball,
        &mut Streams,
        &mut Signals,
    )>,
) {
    for (mut clocks, bodies, traits, touches, history, mut ball, mut streams, mut signals) in &mut slots {
        if clocks.status != Status::Playing {
            continue;
        }
        let before = &history.ring[(history.newest + History::LENGTH - 1) % History::LENGTH];
        let court = Judged { given: &given, bodies, traits, before };
        if let BallState::Shot { by, made, .. } = ball.state {
            court.judge_contest(usize::from(by), made, &mut clocks, &mut ball, &mut streams, &mut signals);
        }
        if !matches!(ball.state, BallState::Held { .. } | BallState::Pass(_)) {
            continue;
        }
        for touch in touches.0.touches() {
            let (i, j) = (usize::from(touch.i), usize::from(touch.j));
            if clocks.status != Status::Playing || clocks.reset_set {
                // The ball is dead: nothing more is judged.
                break;
            }
            if attacks(i) == attacks(j) {
                continue;
            }
            // Pairs are listed lower lane first: i attacks, j defends; the normal points from i to j.
            let normal = vec2(touch.nx, touch.ny);
            let hit = touch.impulse_ns * traits.inv_mass[i];
            if hit < LIGHT_M_S || clocks.now < clocks.judged_s[j - 5] + EPISODE_S {
                continue;
            }
            clocks.judged_s[j - 5] = clocks.now;
            court.judge(
                i,
                j,
                normal,
                (hit, touch.closing_m_s),
                &mut clocks,
                &mut ball,
                &mut streams,
                &mut signals,
            );
        }
    }
}

struct Judged<'a> {
    given: &'a Given,
    bodies: &'a Bodies,
    traits: &'a Traits,
    /// Where everyone was, and how fast, before the contact of this step.
    before: &'a Sample,
}

impl Judged<'_> {
    /// The arms of the nearest defender at the release of a shot.
    fn judge_contest(
        &self,
        shooter: usize,
        made: bool,
        clocks: &mut Clocks,
        ball: &mut Ball,
        streams: &mut Streams,
        signals: &mut Signals,
    ) {
        let Some(index) = signals.all().iter().position(|s| matches!(s.2, Signal::Shot { .. })) else {
            return;
        };
        let Signal::Shot { metres, space_m, chance: in_chance, three, .. } = signals.list[index].2 else {
            return;
        };
        let at = self.bodies.at(shooter);
        let mut nearest = (f32::INFINITY, DEFENCE.start);
        for lane in DEFENCE {
            let d = (self.bodies.at(lane) - at).len2();
            if d < nearest.0 {
                nearest = (d, lane);
            }
        }
        let by = nearest.1;
        let way = (at - self.bodies.at(by)).unit_or(vec2(0.0, 1.0));
        let chance =
            contest::chance(&self.given.setup.officials, metres, space_m, self.bodies.velocity(by).dot(way));
        if chance <= 0.0 || !streams.coin(by, Purpose::Whistle, chance) {
            return;
        }
        let points = if three { 3 } else { 2 };
        let what = Signal::Foul { by: by as u8, on: shooter as u8, offensive: false, shooting: true };
        if made {
            // The basket counts and one free throw follows.
            signals.say(clocks.now, at, what);
            signals.say(clocks.now, at, Signal::Made { by: shooter as u8, points });
            // The shot itself has been counted at its chance already.
            let worth = self.fouled_worth(in_chance, points) - in_chance * f32::from(points);
            self.free_throws(shooter, (1, worth), clocks, ball, streams, signals);
        } else {
            // A fouled miss is no field-goal attempt.
            signals.list[index].2 = what;
            let worth = self.fouled_worth(in_chance, points);
            self.free_throws(shooter, (points, worth), clocks, ball, streams, signals);
        }
    }

    #[expect(clippy::too_many_arguments, reason = "one call, each by name")]
    fn judge(
        &self,
        attacker: usize,
        defender: usize,
        normal: Vec2,
        (hit, closing): (f32, f32),
        clocks: &mut Clocks,
        ball: &mut Ball,
        streams: &mut Streams,
        signals: &mut Signals,
    ) {
        let officials = &self.given.setup.officials;
        let on_ball = ball.state == (BallState::Held { by: attacker as u8 });
        let threshold = officials.whistle_m_s * if on_ball { 1.0 } else { OFF_BALL_FACTOR };
        let chance = logistic((hit - threshold) / officials.whistle_scale_m_s);
        if !streams.coin(defender, Purpose::Whistle, chance) {
            return;
        }
        // What counts is the speed that each brought into it, and whether the defender was set.
        let brought = |lane: usize| vec2(self.before.vx[lane], self.before.vy[lane]);
        let theirs = -brought(defender).dot(normal);
        let set = brought(defender).len() < SET_M_S && self.bodies.facing(defender).dot(normal) < -0.3;
        let own = brought(attacker).dot(normal);
        let offensive = set && own >= theirs && closing > CHARGE_M_S;
        if !offensive && (set || own > theirs + CHARGE_M_S) {
            // Contact that the defender did not seek is not his foul.
            return;
        }
        // Under the board there is no shot to be fouled on.
        let can_shoot = !self.given.setup.court.behind_board(self.bodies.at(attacker));
        let shooting = on_ball && can_shoot && matches!(ball.handling, Handling::Shooting(_));
        let (by, on) = if offensive { (attacker, defender) } else { (defender, attacker) };
        let what = Signal::Foul { by: by as u8, on: on as u8, offensive, shooting: shooting && !offensive };
        signals.say(clocks.now, self.bodies.at(attacker), what);
        if offensive {
            ball.state = BallState::Dead;
            crate::clock::turnover(clocks, self.bodies, signals, TurnoverKind::OffensiveFoul, attacker as u8);
        } else if shooting {
            self.foul_on_shot(attacker, clocks, ball, streams, signals);
        } else if clocks.bonus {
            let worth = 2.0 * self.given.setup.attackers.skill.free_throw;
            self.free_throws(attacker, (2, worth), clocks, ball, streams, signals);
        } else {
            ball.state = BallState::Dead;
            clocks.reset_set = true;
        }
    }

    /// A made shot counts and one free throw follows; a miss gives as many as the shot was worth.
    fn foul_on_shot(
        &self,
        shooter: usize,
        clocks: &mut Clocks,
        ball: &mut Ball,
        streams: &mut Streams,
        signals: &mut Signals,
    ) {
        let setup = &self.given.setup;
        let at = self.bodies.at(shooter);
        // Contact: the nearest defender is as near as bodies come.
        let space = 2.0 * self.traits.radius[shooter];
        let skill = &setup.attackers.skill.shot;
        let (chance, points) =
            make_chance(&setup.court, skill, self.traits.shooter(shooter), at, space, false);
        if streams.coin(shooter, Purpose::Make, chance) {
            let shot = Signal::Shot {
                by: shooter as u8,
                metres: at.len(),
                space_m: space,
                chance,
                three: points > 2.5,
            };
            signals.say(clocks.now, at, shot);
            signals.say(clocks.now, at, Signal::Made { by: shooter as u8, points: points as u8 });
            let worth = self.fouled_worth(chance, points as u8) - chance * points;
            self.free_throws(shooter, (1, worth), clocks, ball, streams, signals);
        } else {
            let worth = self.fouled_worth(chance, points as u8);
            self.free_throws(shooter, (points as u8, worth), clocks, ball, streams, signals);
        }
    }

    /// Expected points of a fouled shot: the basket and one free throw, or as many as it was worth.
    fn fouled_worth(&self, chance: f32, points: u8) -> f32 {
        let (points, line) = (f32::from(points), self.given.setup.attackers.skill.free_throw);
        chance * (points + line) + (1.0 - chance) * points * line
    }

    fn free_throws(
        &self,
        by: usize,
        (of, expected): (u8, f32),
        clocks: &mut Clocks,
        ball: &mut Ball,
        streams: &mut Streams,
        signals: &mut Signals,
    ) {
        debug_assert!(ATTACK.contains(&by));
        let chance = self.given.setup.attackers.skill.free_throw;
        let mut made = 0;
        for _ in 0..of {
            made += u8::from(streams.coin(by, Purpose::FreeThrow, chance));
        }
        ball.state = BallState::Dead;
        signals.say(clocks.now, self.bodies.at(by), Signal::FreeThrows { by: by as u8, made, of, expected });
        crate::clock::end(clocks, signals, self.bodies, Outcome::FreeThrows);
    }
}
