//! What things are worth to an attacker, in points, as he believes: a shot, a pass's chance, going on.

use super::View;
use crate::law::contest;
use crate::law::pass::{aim, pass_height};
use crate::law::reach::{GOES_UP_M, OVER_HEADS_M, gets_up, hand_height_m, hand_reach_m};
use crate::law::release;
use crate::law::shot::{FREE_M, make_chance};
use crate::math::{Vec2, clamp, exp, logistic, max, min, to_segment};
use crate::setup::{Body, Moved, PassKind, State, miss_of};
use crate::slots::{DEFENCE, Slot};

/// How sure a passer is of a hand's reach: logistic scale of the margin, m. Round the perimeter he judges one hand in
/// the open; inside there is a crowd. (assumed; believed and true completion of swings then lie near each other)
const DOUBT_M: f32 = 0.34;
const DOUBT_OUTSIDE_M: f32 = 0.20;
const DOUBT_CROWD_M: f32 = 0.40;
/// A pass below the hands, or into the zone, that flies longer than this gives a defender more ways to get there: each
/// second makes his doubt greater by so many times itself. What goes over the hands to a man outside does not.
/// (assumed; believed and true completion of such passes then lie near each other)
const LONG_S: f32 = 0.45;
const LESS_SURE_PER_S: f32 = 3.0;
/// Passes that end farther from the rim than this stay outside, m.
const OUTSIDE_M: f32 = 5.2;
/// Those that end nearer than this come down in the crowd about the rim, m.
const CROWD_M: f32 = 3.4;
/// Net points of going on from a place with this much time on the shot clock. See [`crate::setup::GoingOn`].
pub fn going_on(view: &View<'_>, at: Vec2, left_s: f32, moved: Moved, held_s: f32) -> f32 {
    let setup = &view.given.setup;
    let place = State::place_of(&setup.zone.ball_places, at);
    setup.attackers.skill.going_on.worth(State { place, moved, held_s, left_s })
}

/// Distance of the nearest believed defender from `at` in `ahead_s` seconds, if every one of them ran at it
/// from now on (after a reaction that is already running), m.
pub fn space_ahead(view: &View<'_>, at: Vec2, ahead_s: f32) -> f32 {
    let body = &view.given.setup.defenders.body;
    let tau = body.sprint_tau_s;
    let running = max(ahead_s - 0.2, 0.0);
    let drift = tau * (1.0 - exp(-running / tau));
    let reach = body.sprint_m_s * (running - drift) * 0.85;
    let stop = view.given.setup.zone.closeout_stop_m;
    let mut least = FREE_M;
    for slot in DEFENCE {
        let from = view.mind.at(slot);
        let now = (from - at).len2();
        if now > 60.0 {
            continue;
        }
        let now = now.sqrt();
        let coming = (at - from).dot(view.mind.velocity(slot)) / max(now, 0.1);
        // Nobody runs into the shooter: he stops short.
        let then = max(now - reach - clamp(coming, -1.0, 5.0) * drift * 0.6, min(now, stop));
        least = min(least, then);
    }
    max(least, 0.3)
}

/// A shot as the believer sees it.
#[derive(Clone, Copy, Debug, Default)]
pub struct Prospect {
    /// Expected points, free throws in it.
    pub points: f32,
    /// Chance that it goes in.
    pub chance: f32,
    /// Distance of the nearest defender at the release, m.
    pub space_m: f32,
}

/// A shot by `lane` from `at` in `ahead_s`.
pub fn shot(view: &View<'_>, slot: Slot, at: Vec2, ahead_s: f32, off_catch: bool) -> Prospect {
    let distance = at.len();
    let court = &view.given.setup.court;
    if distance > court.three_radius_m + 2.0 || court.behind_board(at) {
        return Prospect::default();
    }
    let skill = &view.given.setup.attackers.skill.shot;
    let space = space_ahead(view, at, ahead_s);
    let (chance, points) = make_chance(court, skill, view.team.shooter(slot), at, space, off_catch);
    Prospect { points: whole(view, chance, points, distance, space), chance, space_m: space }
}

/// Expected points and chance of a shot by `lane` from `at` with a given space, off the dribble.
pub fn make_chance_at(view: &View<'_>, at: Vec2, space_m: f32) -> (f32, f32) {
    let skill = &view.given.setup.attackers.skill.shot;
    let (chance, points) =
        make_chance(&view.given.setup.court, skill, view.team.shooter(view.me.slot), at, space_m, false);
    (whole(view, chance, points, at.len(), space_m), chance)
}

/// Net points of a shot with what it may bring besides: a free throw more after a made shot, as many as it was worth
/// after a foul on a missed one, and else what follows a miss.
fn whole(view: &View<'_>, chance: f32, points: f32, shot_m: f32, space_m: f32) -> f32 {
    let setup = &view.given.setup;
    let skill = &setup.attackers.skill;
    let fouled = contest::chance(&setup.officials, shot_m, space_m, 0.5);
    let free = fouled * skill.free_throw * (chance + (1.0 - chance) * points);
    let after = skill.going_on.after_miss[miss_of(points > 2.0, shot_m)];
    chance * points + free + (1.0 - fouled) * (1.0 - chance) * after
}

/// Believed chance that a pass from `from` to `to` arrives: every defender's race to the ball's way.
pub fn completion(view: &View<'_>, kind: PassKind, from: Vec2, to: Vec2, receiver: Slot, wait_s: f32) -> f32 {
    let setup = &view.given.setup;
    let skill = &setup.attackers.skill.pass[kind as usize];
    let body = &setup.defenders.body;
    let from = release::hands(|slot| view.mind.at(slot), kind, from, to, view.side);
    let length = from.distance(to);
    let span = skill.flight_s(kind, length);
    let receiver_at = view.mind.at(receiver);
    let mut chance = 1.0;
    let outside = to.len() > OUTSIDE_M;
    let doubt = if outside {
        DOUBT_OUTSIDE_M
    } else if to.len() < CROWD_M {
        DOUBT_CROWD_M
    } else {
        DOUBT_M
    };
    let over_hands = kind == PassKind::Overhead && outside;
    let long = if over_hands { 0.0 } else { max(span - LONG_S, 0.0) };
    let doubt = doubt * (1.0 + LESS_SURE_PER_S * long);
    for slot in DEFENCE {
        let now = view.mind.at(slot);
        let (_, first) = to_segment(now, from, to);
        // He goes on as he is going until the ball comes by.
        let at = now + view.mind.velocity(slot) * (0.7 * (wait_s + first * span));
        if kind == PassKind::Lob {
            // Who gets near where it comes down goes up with the receiver.
            let off = lane_at(now, view.mind.velocity(slot), wait_s + span).distance(to);
            let there = max(off - RUNS_UNDER * strides(body, span - 0.2), min(off, LEAST_M));
            if there < GOES_UP_M && body.arm_reach_m > 0.0 {
                let hand = hand_height_m(span - 0.2, there, body.standing_reach_m, body.jump_m);
                chance *= 1.0 - gets_up(hand, skill.catch_height_m);
            }
        }
        let (mut off, mut share) = to_segment(at, from, to);
        // He starts when he sees the release: a hand goes out, then the feet.
        let mut out = share * span - 0.2;
        let mut run = max(out, 0.0);
        if off > 0.5 + body.lunge_reach_m + run * body.sprint_m_s {
            continue;
        }
        let hand = |out| hand_reach_m(out, body.hand_m_s, body.arm_reach_m, body.lunge_reach_m);
        let over = |out, off, share| {
            let height = pass_height(kind, skill, span, share);
            let (hand, up_m, jump_m) = (hand(out), body.standing_reach_m, body.jump_m);
            let up = |left| hand_height_m(out, min(left, hand), up_m, jump_m) + 0.1;
            // What his feet do not bring him nearer he stretches for; his way is asked for only where it decides.
            height > up(0.0) || height > up(off) && height > up(max(off - strides(body, out), 0.0))
        };
        if over(out, off, share) {
            // Over him where it is nearest; he may still get to it where it has come down.
            share = max(share, NEAR_SHARE);
            off = at.distance(from.toward(to, share));
            out = share * span - 0.2;
            run = max(out, 0.0);
            if over(out, off, share) {
                continue;
            }
        }
        let (hand, height) = (hand(out), pass_height(kind, skill, span, share));
        // A defender on the far side of the receiver has to come through him, unless it is over his head.
        let shielded = height < OVER_HEADS_M && share > 0.85 && (receiver_at - at).dot(to - from) < 0.0;
        let feet = strides(body, run);
        let margin = off - hand - feet + if shielded { 0.6 } else { 0.0 };
        let margin = min(
            margin,
            landing_margin(view, kind, lane_at(now, view.mind.velocity(slot), wait_s + span), from, to, span),
        );
        chance *= logistic(margin / doubt);
    }
    // Off the mark: the chance that the error stays within the catch.
    let spread = skill.error_rad * length;
    let reach = setup.attackers.skill.catch_far_m;
    let accurate = if spread > 0.05 { 1.0 - exp(-0.5 * (reach / spread) * (reach / spread)) } else { 1.0 };
    chance * accurate
}

/// How far a defender runs from rest in a time, m.
fn strides(body: &Body, span_s: f32) -> f32 {
    let run = max(span_s, 0.0);
    body.sprint_m_s * (run - body.sprint_tau_s * (1.0 - exp(-run / body.sprint_tau_s)))
}

/// Share of a pass's way at which a hand behind the receiver could meet it.
const NEAR_SHARE: f32 = 0.85;

/// A defender makes so much of a run under a lob: he reads it late and has bodies to go round. (assumed)
const RUNS_UNDER: f32 = 0.7;
/// Nearer than this nobody comes to the man he jumps against, m. (two bodies, and a little)
const LEAST_M: f32 = 0.5;

/// Where a defender will be who goes on as he is going, in `ahead_s`, m.
fn lane_at(now: Vec2, velocity: Vec2, ahead_s: f32) -> Vec2 {
    now + velocity * (0.7 * min(ahead_s, 0.6))
}

/// How far a defender's hand falls short of the ball where it comes down, m; large where it is over him or
/// the receiver is between.
fn landing_margin(view: &View<'_>, kind: PassKind, at: Vec2, from: Vec2, to: Vec2, span: f32) -> f32 {
    let setup = &view.given.setup;
    let (skill, body) = (&setup.attackers.skill.pass[kind as usize], &setup.defenders.body);
    let off = at.distance(to);
    let out = span - 0.2;
    // Outside, who could reach the landing could reach the way as well: only the crowd inside matters.
    if off > 3.0 || out <= 0.0 || to.len() > OUTSIDE_M {
        return FREE_M;
    }
    let hand = hand_reach_m(out, body.hand_m_s, body.arm_reach_m, body.lunge_reach_m);
    let height = skill.catch_height_m;
    let feet = strides(body, out);
    let up = hand_height_m(out, min(max(off - feet, 0.0), hand), body.standing_reach_m, body.jump_m);
    if height > up {
        return FREE_M;
    }
    // The body between shields a ball that comes in below the heads all the way, not one that drops in from above.
    let near = pass_height(kind, skill, span, NEAR_SHARE);
    let behind = near < OVER_HEADS_M && (to - at).dot(to - from) < 0.0;
    // On the receiver's far side he has to come through him; on the near side he is in the way anyway.
    off - hand - feet + if behind { 1.4 } else { 0.0 }
}

/// Where a pass to a player should come, as the passer believes him to stand and move.
pub fn aim_pass(view: &View<'_>, kind: PassKind, from: Vec2, receiver: Slot, wait_s: f32) -> Vec2 {
    let setup = &view.given.setup;
    let skill = &setup.attackers.skill.pass[kind as usize];
    aim(&setup.court, skill, kind, from, (view.mind.at(receiver), view.mind.velocity(receiver)), wait_s)
}
