//! The race to the rim: the chance that a driver gets there before every defender, as he believes.
//!
//! A defender whose straight way to the drive is barred by a team-mate's body needs longer, as the driver sees it; in
//! truth he runs round that body, or into it.

use super::ways::{STRAIGHT_WAYS, goal};
use crate::decide::View;
use crate::law::conduct::driving::{
    AVERAGE_SPEED_SHARE, BARRED_S, IN_THE_WAY_M, LEAST_TOP_M_S, NOT_IN_RACE_M, RACE_DECIDED_S, RACE_DOUBT_S,
    RACE_WON_WITHIN_M, SHORTEST_RACE_M, START_COSTS_S,
};
use crate::law::conduct::judging::REACTION_COUNTED_ON_S;
use crate::math::{Vec2, logistic, max, to_segment, vec2};
use crate::slots::{ATTACK, DEFENCE, Slot};
use crate::state::Way;

/// The straight way with the best chance, and that chance.
pub fn best_straight(view: &View<'_>) -> (Way, f32) {
    let here = view.me.at;
    let mut best = (Way::Straight, -1.0);
    for way in STRAIGHT_WAYS {
        let chance = leg_chance(view, (here, goal(view.side, here, way)), 0.0);
        if chance > best.1 {
            best = (way, chance);
        }
    }
    best
}

/// Chance that he gets round the corner of a screen and on to the rim.
pub fn chance_round(view: &View<'_>, corner: Vec2) -> f32 {
    let here = view.me.at;
    let body = &view.given.player(view.me.slot).body;
    let first_s = here.distance(corner) / (AVERAGE_SPEED_SHARE * body.sprint_m_s * body.dribble_share);
    let round = leg_chance(view, (here, corner), 0.0);
    round * leg_chance(view, (corner, goal(view.side, corner, Way::Straight)), first_s)
}

/// Chance that he gets along one straight leg that he begins in `later_s`.
fn leg_chance(view: &View<'_>, (from, to): (Vec2, Vec2), later_s: f32) -> f32 {
    let length = from.distance(to);
    let body = &view.given.player(view.me.slot).body;
    let speed = max(view.me.velocity.dot((to - from).unit_or(vec2(0.0, -1.0))), 0.0);
    let top = body.sprint_m_s * body.dribble_share;
    let mut chance = 1.0;
    for slot in DEFENCE {
        let at = view.by_now(slot);
        if (at - from).len2() > NOT_IN_RACE_M * NOT_IN_RACE_M {
            continue;
        }
        let (off, share) = to_segment(at, from, to);
        if share <= 0.0 && (at - from).dot(to - from) < 0.0 && later_s == 0.0 {
            // Behind him: he has been beaten.
            continue;
        }
        let way = max(share * length, SHORTEST_RACE_M);
        // Time to cover the way from the present speed, roughly half a time constant lost from rest.
        let mine = later_s
            + way / (AVERAGE_SPEED_SHARE * (top + speed))
            + START_COSTS_S * (1.0 - speed / max(top, LEAST_TOP_M_S));
        let stands_there = off < IN_THE_WAY_M;
        let theirs = if stands_there { 0.0 } else { defender_s(view, slot, from.toward(to, share), mine) };
        chance *= logistic((theirs - mine) / RACE_DOUBT_S);
    }
    chance
}

/// When a defender gets to `there` on the way where the driver is after `mine_s`, s.
fn defender_s(view: &View<'_>, slot: Slot, there: Vec2, mine_s: f32) -> f32 {
    let (at, velocity) = (view.by_now(slot), view.mind.velocity(slot));
    let runs_s = view.given.arrival(slot).time_to(at, velocity, there, RACE_WON_WITHIN_M);
    let free_s = runs_s + REACTION_COUNTED_ON_S;
    // Only where it matters to the race.
    if free_s < mine_s + RACE_DECIDED_S { free_s + barred_s(view, slot, there) } else { free_s }
}

/// What team-mates' bodies in a defender's straight way cost him, as the driver believes, s.
fn barred_s(view: &View<'_>, defender: Slot, to: Vec2) -> f32 {
    let from = view.by_now(defender);
    let mut cost = 0.0;
    for mate in ATTACK {
        let clear = view.radius_m(mate) + view.radius_m(defender);
        if mate == view.me.slot || clear <= 0.0 {
            continue;
        }
        let (off, share) = to_segment(view.mind.at(mate), from, to);
        if share > 0.0 && share < 1.0 && off < clear {
            cost = max(cost, BARRED_S * (1.0 - off / clear));
        }
    }
    cost
}
