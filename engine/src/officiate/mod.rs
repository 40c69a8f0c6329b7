//! Stage 7, `officiate`: contact is judged; free throws are shot.
//!
//! A touch is called with a chance that grows with its impulse over the body's mass, by the officials'
//! strictness. Who is to blame follows from who brought the speed into it.

use crate::law::contest;
use crate::law::floor::foot_out;
use crate::law::officiating::{
    CHARGE_M_S, EPISODE_S, FACES_COSINE, JUMPS_BEFORE_S, LIGHT_M_S, OFF_BALL_FACTOR, SET_M_S, SOUGHT_BY_M_S,
};
use crate::law::shot::{TWO_POINTS, make_chance};
use crate::math::{Vec2, logistic, vec2};
use crate::random::{Purpose, Streams};
use crate::record::Outcome;
use crate::record::TurnoverKind;
use crate::slots::Slot;
use crate::state::Given;
use crate::state::*;
use bevy_ecs::prelude::{Query, Res};
use bevy_ecs::query::QueryData;

/// What the officials see and change.
#[derive(QueryData)]
#[query_data(mutable)]
pub(crate) struct Possession {
    clocks: &'static mut Clocks,
    bodies: &'static Bodies,
    traits: &'static Traits,
    touches: &'static Touches,
    history: &'static History,
    ball: &'static mut Ball,
    hold: &'static Hold,
    streams: &'static mut Streams,
    signals: &'static mut Signals,
}

/// Judges the touches of the step.
pub fn officiate(given: Res<Given>, mut possessions: Query<Possession>) {
    for mut p in &mut possessions {
        if p.clocks.status != Status::Playing {
            continue;
        }
        let mut judged = Judged {
            given: &given,
            bodies: p.bodies,
            traits: p.traits,
            before: &p.history.ring[(p.history.newest + History::LENGTH - 1) % History::LENGTH],
            clocks: &mut p.clocks,
            ball: &mut p.ball,
            hold: p.hold,
            streams: &mut p.streams,
            signals: &mut p.signals,
        };
        if let BallState::Shot { by, made, .. } = judged.ball.state {
            judged.judge_contest(by, made);
        }
        if matches!(judged.ball.state, BallState::Held { .. } | BallState::Pass(_)) {
            judged.judge_touches(p.touches);
        }
        judged.judge_lines();
    }
}

/// One possession before the officials.
struct Judged<'a> {
    given: &'a Given,
    bodies: &'a Bodies,
    traits: &'a Traits,
    /// Where everyone was, and how fast, before the contact of this step.
    before: &'a Sample,
    clocks: &'a mut Clocks,
    ball: &'a mut Ball,
    hold: &'a Hold,
    streams: &'a mut Streams,
    signals: &'a mut Signals,
}

/// One touch between an attacker and a defender.
struct Hit {
    attacker: Slot,
    defender: Slot,
    /// From the attacker to the defender, unit vector.
    normal: Vec2,
    /// Impulse over the attacker's mass, m/s.
    hit_m_s: f32,
    /// How fast they closed, m/s.
    closing_m_s: f32,
}

impl Judged<'_> {
    fn judge_touches(&mut self, touches: &Touches) {
        for touch in touches.0.touches() {
            if self.clocks.status != Status::Playing || self.clocks.reset_set {
                // The ball is dead: nothing more is judged.
                break;
            }
            // Pairs are listed lower slot first: attackers come before defenders; the normal points from the first on.
            let (attacker, defender) = (Slot::of(usize::from(touch.i)), Slot::of(usize::from(touch.j)));
            if attacker.attacks() == defender.attacks() {
                continue;
            }
            let hit_m_s = touch.impulse_ns * self.traits.inv_mass[attacker];
            let last = &mut self.clocks.judged_s[defender.in_team()];
            if hit_m_s < LIGHT_M_S || self.clocks.now < *last + EPISODE_S {
                continue;
            }
            *last = self.clocks.now;
            let normal = vec2(touch.nx, touch.ny);
            self.judge(&Hit { attacker, defender, normal, hit_m_s, closing_m_s: touch.closing_m_s });
        }
    }

    /// The arms of the nearest defender at the release of a shot.
    fn judge_contest(&mut self, shooter: Slot, made: bool) {
        let Some(index) = self.signals.all().iter().position(|s| matches!(s.2, Signal::Shot { .. })) else {
            return;
        };
        let Signal::Shot { metres, space_m, chance: in_chance, three, .. } = self.signals.list[index].2
        else {
            return;
        };
        let at = self.bodies.at(shooter);
        let (by, _) = self.bodies.nearest_defender(at);
        let way = (at - self.bodies.at(by)).unit_or(vec2(0.0, 1.0));
        let chance =
            contest::chance(&self.given.setup.officials, metres, space_m, self.bodies.velocity(by).dot(way));
        if chance <= 0.0 || !self.streams.coin(by, Purpose::Whistle, chance) {
            return;
        }
        let points = if three { 3 } else { 2 };
        let what = Signal::Foul { by, on: shooter, offensive: false, shooting: true };
        if made {
            // The basket counts and one free throw follows.
            self.signals.say(self.clocks.now, at, what);
            self.signals.say(self.clocks.now, at, Signal::Made { by: shooter, points });
            // The shot itself has been counted at its chance already.
            let worth = self.fouled_worth(shooter, in_chance, points) - in_chance * f32::from(points);
            self.free_throws(shooter, (1, worth), in_chance * f32::from(points));
        } else {
            // A fouled miss is no field-goal attempt.
            self.signals.list[index].2 = what;
            let worth = self.fouled_worth(shooter, in_chance, points);
            self.free_throws(shooter, (points, worth), in_chance * f32::from(points));
        }
    }

    /// The feet of the man with the ball: on a line or beyond it he is out. Who has left the floor for a shot is where he
    /// left it.
    fn judge_lines(&mut self) {
        let BallState::Held { by } = self.ball.state else { return };
        let at = self.bodies.at(by);
        if foot_out(&self.given.setup.court, at) && !self.clocks.reset_set && !self.in_the_air() {
            self.ball.state = BallState::Dead;
            turnover(self.clocks, self.bodies, self.signals, TurnoverKind::SteppedOut, by);
        }
    }

    /// The man with the ball has jumped for his shot.
    fn in_the_air(&self) -> bool {
        matches!(self.hold.handling, Handling::Shooting(at_s) if at_s < self.clocks.now + JUMPS_BEFORE_S)
    }

    fn judge(&mut self, hit: &Hit) {
        let Hit { attacker, defender, normal, hit_m_s, closing_m_s } = *hit;
        let officials = &self.given.setup.officials;
        let on_ball = self.ball.holder() == Some(attacker);
        let threshold = officials.whistle_m_s * if on_ball { 1.0 } else { OFF_BALL_FACTOR };
        let chance = logistic((hit_m_s - threshold) / officials.whistle_scale_m_s);
        if !self.streams.coin(defender, Purpose::Whistle, chance) {
            return;
        }
        // What counts is the speed that each brought into it, and whether the defender was set.
        let brought = |slot: Slot| vec2(self.before.vx[slot], self.before.vy[slot]);
        let theirs = -brought(defender).dot(normal);
        let set =
            brought(defender).len() < SET_M_S && self.bodies.facing(defender).dot(normal) < FACES_COSINE;
        let own = brought(attacker).dot(normal);
        let offensive = set && own >= theirs && closing_m_s > CHARGE_M_S;
        if !offensive && (set || own > theirs + SOUGHT_BY_M_S) {
            // Contact that the defender did not seek is not his foul.
            return;
        }
        // Under the board there is no shot to be fouled on.
        let can_shoot = !self.given.setup.court.behind_board(self.bodies.at(attacker));
        let shooting = on_ball && can_shoot && matches!(self.hold.handling, Handling::Shooting(_));
        let (by, on) = if offensive { (attacker, defender) } else { (defender, attacker) };
        let what = Signal::Foul { by, on, offensive, shooting: shooting && !offensive };
        self.signals.say(self.clocks.now, self.bodies.at(attacker), what);
        if offensive {
            self.ball.state = BallState::Dead;
            turnover(self.clocks, self.bodies, self.signals, TurnoverKind::OffensiveFoul, attacker);
        } else if shooting {
            self.foul_on_shot(attacker);
        } else if self.clocks.bonus {
            let worth = 2.0 * self.given.player(attacker).skill.free_throw;
            self.free_throws(attacker, (2, worth), 0.0);
        } else {
            self.ball.state = BallState::Dead;
            self.clocks.reset_set = true;
        }
    }

    /// A made shot counts and one free throw follows; a miss gives as many as the shot was worth.
    fn foul_on_shot(&mut self, shooter: Slot) {
        let setup = &self.given.setup;
        let at = self.bodies.at(shooter);
        // Contact: the nearest defender is as near as bodies come.
        let space = 2.0 * self.traits.radius[shooter];
        let skill = &setup.player(shooter).skill.shot;
        let (chance, points) =
            make_chance(&setup.court, skill, self.traits.shooter(shooter), at, space, false);
        if self.streams.coin(shooter, Purpose::Make, chance) {
            let shot = Signal::Shot {
                by: shooter,
                metres: at.len(),
                space_m: space,
                chance,
                three: points > TWO_POINTS,
            };
            self.signals.say(self.clocks.now, at, shot);
            self.signals.say(self.clocks.now, at, Signal::Made { by: shooter, points: points as u8 });
            let worth = self.fouled_worth(shooter, chance, points as u8) - chance * points;
            self.free_throws(shooter, (1, worth), chance * points);
        } else {
            let worth = self.fouled_worth(shooter, chance, points as u8);
            self.free_throws(shooter, (points as u8, worth), chance * points);
        }
    }

    /// Expected points of a fouled shot: the basket and one free throw, or as many as it was worth.
    fn fouled_worth(&self, shooter: Slot, chance: f32, points: u8) -> f32 {
        let (points, line) = (f32::from(points), self.given.player(shooter).skill.free_throw);
        chance * (points + line) + (1.0 - chance) * points * line
    }

    /// So many free throws, with what they and a basket before are expected to bring, for a foul on a shot worth so much.
    fn free_throws(&mut self, by: Slot, (of, expected): (u8, f32), shot_points: f32) {
        debug_assert!(by.attacks());
        let chance = self.given.player(by).skill.free_throw;
        let mut made = 0;
        for _ in 0..of {
            made += u8::from(self.streams.coin(by, Purpose::FreeThrow, chance));
        }
        self.ball.state = BallState::Dead;
        let what = Signal::FreeThrows { by, made, of, expected, shot_points };
        self.signals.say(self.clocks.now, self.bodies.at(by), what);
        end(self.clocks, self.signals, self.bodies, Outcome::FreeThrows);
    }
}
