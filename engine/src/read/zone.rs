//! What a zone defender does: take the ball, go for a pass, stop a drive, or hold his place in the shape and
//! look after whoever is in his area.
//!
//! Guarding the ball is a discrete duty with hysteresis; the others interpolate between anchors. Every
//! defender judges from his own beliefs, so two may take the ball, or none: that is what a zone gets wrong.

use super::shape;
use super::{Scene, ball_at, whereabouts};
use crate::components::{Belief, Duty, Signal, Signals, Wishes};
use crate::lanes::{ATTACK, BALL, DEFENCE, NOBODY};
use crate::math::{Vec2, clamp, max, min, to_segment, vec2};
use crate::setup::{BallPlace, PostStance, Zone};

/// Half of the dead band in which the ball's side does not change, m.
const SIDE_BAND_M: f32 = 0.25;
/// A place has to be nearer by this much to take over, m.
const PLACE_BAND_M: f32 = 0.5;
/// The one who has the ball keeps it unless another is quicker by this, s.
const KEEP_S: f32 = 0.25;
/// How far the ball moves for each metre of an anchor, roughly (read off the zone's table).
const BALL_PER_ANCHOR: f32 = 4.0;
/// Preference for the first of the named takers, and against one who is not named, s. (assumed)
const FIRST_NAMED_S: f32 = 0.2;
const UNNAMED_S: f32 = 0.25;
/// Nobody leaves his place by more than this for a pass, m. (assumed)
const GAMBLE_M: f32 = 2.6;
/// Beyond this distance a defender turns and runs rather than slides, m.
const RUN_M: f32 = 3.0;
/// Distance from the rim at which a defender no longer tightens on an attacker, m.
const LOOSE_M: f32 = 6.5;

/// Decides a defender's intent.
pub fn decide(
    scene: &Scene<'_>,
    lane: usize,
    mind: &Belief,
    duty: &mut Duty,
    wishes: &mut Wishes,
    signals: &mut Signals,
) {
    let zone = &scene.given.setup.zone;
    let ball = believed_ball(scene, lane, mind);
    locate(scene, zone, ball, duty);
    let after_bump = bumped(scene, zone, duty);
    let anchors = shape::anchors(zone, ball, duty.ball_side, after_bump);
    let first_side = duty.ball_side == scene.side;
    let taker = choose_taker(scene, lane, mind, duty, ball, after_bump);
    duty.taker = taker as u8;
    let takes = taker == lane;
    if takes && !duty.on_ball && mind.holder != NOBODY {
        signals.say(scene.now, scene.bodies.at(lane), Signal::TakesBall { by: lane as u8, of: mind.holder });
    }
    duty.on_ball = takes;
    if mind.in_air && !takes && go_for_pass(scene, lane, mind, wishes) {
        return;
    }
    if takes {
        guard_ball(scene, lane, mind, wishes);
        return;
    }
    if stop_drive(scene, lane, mind, taker, duty, wishes, signals) {
        return;
    }
    duty.helps = false;
    hold_shape(scene, lane, mind, duty, &anchors, first_side, taker, wishes);
}

/// The ball as he believes it, moved toward a fake that he bites on.
fn believed_ball(scene: &Scene<'_>, lane: usize, mind: &Belief) -> Vec2 {
    if scene.now >= mind.fooled_until {
        return mind.ball;
    }
    // He plays a ball that is on its way to where the fake pointed. An anchor moves about a quarter as far
    // as the ball does, so this much of the way moves him by the stated distance.
    let way = mind.fooled_to - mind.ball;
    let most = scene.given.team(lane).head.bite_distance_m * BALL_PER_ANCHOR;
    mind.ball + way.at_most(most)
}

fn locate(scene: &Scene<'_>, zone: &Zone, ball: Vec2, duty: &mut Duty) {
    if ball.x * duty.ball_side < -SIDE_BAND_M {
        duty.ball_side = -duty.ball_side;
    }
    let before = duty.place;
    duty.place = shape::place_of(zone, ball, duty.ball_side, before, PLACE_BAND_M);
    let corner = BallPlace::Corner as u8;
    if duty.place == corner && before != corner {
        duty.corner_s = scene.now;
    } else if duty.place != corner {
        duty.corner_s = f32::INFINITY;
    }
}

/// Whether the wing has bumped the back off in the corner (`back-until-bump`).
fn bumped(scene: &Scene<'_>, zone: &Zone, duty: &Duty) -> bool {
    zone.corner_after_bump.is_some()
        && duty.place == BallPlace::Corner as u8
        && scene.now - duty.corner_s > zone.bump_delay_s
}

/// Rough time for a defender to get to a point, for choosing among them, s.
fn rough_time(scene: &Scene<'_>, me: usize, mind: &Belief, who: usize, to: Vec2) -> f32 {
    let at = whereabouts(scene, me, mind, who);
    let velocity = if who == me { scene.bodies.velocity(me) } else { mind.velocity(who) };
    scene.given.arrival(who).time_to(at, velocity, to, 0.9)
}

/// The lane that he believes should take the ball.
fn choose_taker(
    scene: &Scene<'_>,
    me: usize,
    mind: &Belief,
    duty: &Duty,
    ball: Vec2,
    after_bump: bool,
) -> usize {
    let zone = &scene.given.setup.zone;
    let first_side = duty.ball_side == scene.side;
    let mut columns = zone.takers[usize::from(duty.place)];
    if after_bump {
        columns = [zone.corner_taker_after_bump; 2];
    }
    let lanes = columns.map(|c| 5 + shape::lane_of(zone, usize::from(c), first_side));
    let holder_at =
        if usize::from(mind.holder) < 5 && !mind.in_air { mind.at(usize::from(mind.holder)) } else { ball };
    let inside = holder_at.len2() < 3.6 * 3.6 || scene.given.setup.court.in_lane(holder_at);
    if !inside && lanes[0] == lanes[1] {
        return lanes[0];
    }
    // Inside, whoever is nearest takes it; elsewhere one of the two named, the first by preference.
    let mut best = (f32::INFINITY, lanes[0]);
    for who in DEFENCE {
        let named = who == lanes[0] || who == lanes[1];
        if !named && !inside {
            continue;
        }
        let mut time = rough_time(scene, me, mind, who, holder_at);
        if who == usize::from(duty.taker) {
            time -= KEEP_S;
        }
        if who == lanes[0] {
            time -= FIRST_NAMED_S;
        }
        if !named {
            time += UNNAMED_S;
        }
        if time < best.0 {
            best = (time, who);
        }
    }
    best.1
}

/// Goes for a pass in the air where he believes that his hand gets there first.
fn go_for_pass(scene: &Scene<'_>, lane: usize, mind: &Belief, wishes: &mut Wishes) -> bool {
    let body = &scene.given.team(lane).body;
    if body.lunge_reach_m <= 0.0 || mind.holder == NOBODY {
        return false;
    }
    let here = scene.bodies.at(lane);
    let (from, to) = (ball_at(mind), mind.ball);
    let way = to - from;
    let length = way.len();
    if length < 1.0 {
        return false;
    }
    let (_, share) = to_segment(here, from, to);
    // A little further on, so that the ball comes to him.
    let share = min(share + 0.1, 0.95);
    let point = from.toward(to, share);
    let ball_s = share * length / 10.0;
    let mine =
        scene.given.arrival(lane).time_to(here, scene.bodies.velocity(lane), point, scene.traits.lunge[lane]);
    // Beyond a stride or two he would leave his place for a gamble.
    if mine > ball_s || here.distance(point) > GAMBLE_M {
        return false;
    }
    wishes.go(lane, point, f32::INFINITY, (from - here).unit_or(mind.gaze));
    wishes.wish.through[lane] = 1.0;
    true
}

/// Guards the ball: between it and the rim at the stated distance, closing out when he comes from afar.
fn guard_ball(scene: &Scene<'_>, lane: usize, mind: &Belief, wishes: &mut Wishes) {
    let zone = &scene.given.setup.zone;
    let here = scene.bodies.at(lane);
    let held = usize::from(mind.holder) < 5 && !mind.in_air;
    let (at, velocity) = if held {
        let h = usize::from(mind.holder);
        (mind.at(h), mind.velocity(h))
    } else {
        (mind.ball, vec2(0.0, 0.0))
    };
    let to_rim = (Vec2::RIM - at).unit_or(vec2(0.0, -1.0));
    let far = here.distance(at) > 2.2;
    let touch = scene.traits.radius[lane] * 2.0 + 0.08;
    let wanted = if at.len() < 3.6 {
        touch
    } else if far {
        zone.closeout_stop_m
    } else {
        zone.on_ball_m
    };
    // Against a drive he plays the place where the driver will be.
    let lead = if velocity.dot(to_rim) > 1.5 { 0.3 } else { 0.0 };
    let point = at + velocity * lead + to_rim * wanted;
    let look = (at - here).unit_or(mind.gaze);
    let run = (point - here).len() > RUN_M;
    let look = if run { (point - here).unit_or(look) } else { look };
    wishes.go(lane, point, f32::INFINITY, look);
    wishes.moving(lane, velocity);
    if at.len() < 3.6 {
        wishes.brace[lane] = 1.0;
    }
}

/// Steps in front of a driver who has beaten the man on the ball, if he is the nearest to do so.
fn stop_drive(
    scene: &Scene<'_>,
    lane: usize,
    mind: &Belief,
    taker: usize,
    duty: &mut Duty,
    wishes: &mut Wishes,
    signals: &mut Signals,
) -> bool {
    let holder = usize::from(mind.holder);
    if holder >= 5 || mind.in_air {
        return false;
    }
    let (at, velocity) = (mind.at(holder), mind.velocity(holder));
    let to_rim = (Vec2::RIM - at).unit_or(vec2(0.0, -1.0));
    let length = at.len();
    if velocity.dot(to_rim) < 2.0 || !(0.8..=6.0).contains(&length) {
        return false;
    }
    let guard = whereabouts(scene, lane, mind, taker);
    if guard.len() < length - 0.4 && (guard - at).dot(to_rim) > 0.3 {
        return false;
    }
    let point = at + to_rim * min(1.6, length * 0.5);
    let mine = rough_time(scene, lane, mind, lane, point);
    for mate in DEFENCE {
        if mate != lane && mate != taker && rough_time(scene, lane, mind, mate, point) < mine {
            return false;
        }
    }
    if !duty.helps {
        signals.say(scene.now, scene.bodies.at(lane), Signal::Helps { by: lane as u8, on: holder as u8 });
    }
    duty.helps = true;
    let here = scene.bodies.at(lane);
    wishes.go(lane, point, f32::INFINITY, (at - here).unit_or(mind.gaze));
    wishes.brace[lane] = 1.0;
    true
}

/// Holds the shape: his anchor, drawn toward the attacker in his area whom he believes the most dangerous.
#[expect(clippy::too_many_arguments, reason = "one call, each by name")]
fn hold_shape(
    scene: &Scene<'_>,
    lane: usize,
    mind: &Belief,
    duty: &mut Duty,
    anchors: &[Vec2; 5],
    first_side: bool,
    taker: usize,
    wishes: &mut Wishes,
) {
    let zone = &scene.given.setup.zone;
    let column = shape::column_of(zone, lane - 5, first_side);
    let taker_column = shape::column_of(zone, taker - 5, first_side);
    let anchor = anchors[column];
    let here = scene.bodies.at(lane);
    let memory = scene.given.team(lane).head.memory_s;
    let mut best = (0.0_f32, NOBODY, Vec2::RIM);
    for other in ATTACK {
        if other == usize::from(mind.holder) {
            continue;
        }
        let at = mind.at(other);
        let mine = (at - anchor).len2();
        let another = (0..5).any(|c| c != column && c != taker_column && (at - anchors[c]).len2() < mine);
        if another {
            continue;
        }
        let fresh = 1.0 - mind.age[other] / memory;
        let rim = at.len();
        let near = clamp(1.0 - rim / LOOSE_M, 0.0, 1.0);
        // Nearer the rim is worse; in one's own neighbourhood is more one's own.
        let danger = fresh * (0.35 + near) / (1.0 + 0.15 * mine);
        if danger > best.0 {
            best = (danger, other as u8, at);
        }
    }
    duty.man = best.1;
    let mut target = anchor;
    if best.1 != NOBODY {
        let (at, rim) = (best.2, best.2.len());
        let near = clamp(1.0 - rim / LOOSE_M, 0.0, 1.0);
        let fresh = clamp(1.0 - mind.age[usize::from(best.1)] / memory, 0.0, 1.0);
        let pull = (zone.match_up + (1.0 - zone.match_up) * near) * fresh;
        let guard = guard_point(scene, zone, mind, duty, at);
        // What he is unsure of he follows less far.
        let unsure = scene.given.team(lane).head.memory_error_m_s * mind.age[usize::from(best.1)];
        target = anchor + ((guard - anchor) * pull).at_most(max(zone.carry_m - unsure, 0.0));
    }
    let way = target - here;
    let distance = way.len();
    // A set defender does not shuffle after every twitch.
    let settled = distance < 0.22;
    let to = if settled { here } else { target };
    let cap = if settled { 0.5 } else { 1.0 + 2.6 * distance };
    let ball_way = (mind.at(BALL) - here).unit_or(mind.gaze);
    let look = if distance > RUN_M { way.unit_or(ball_way) } else { ball_way };
    wishes.go(lane, to, cap, look);
    if best.1 != NOBODY && best.2.len() < 3.0 && distance < 1.0 {
        wishes.brace[lane] = 1.0;
    }
}

/// Where to stand against an attacker without the ball.
fn guard_point(scene: &Scene<'_>, zone: &Zone, mind: &Belief, duty: &Duty, at: Vec2) -> Vec2 {
    let ball = ball_at(mind);
    let to_ball = (ball - at).unit_or(vec2(0.0, 1.0));
    let to_rim = (Vec2::RIM - at).unit_or(vec2(0.0, -1.0));
    let touch = scene.traits.radius[DEFENCE.start] * 2.0 + 0.05;
    if at.len() < 3.2 {
        return match zone.post_stance[usize::from(duty.place)] {
            PostStance::Behind => at + to_rim * touch,
            PostStance::ThreeQuarter => at + (to_ball * 0.6 + to_rim * 0.4).unit_or(to_rim) * touch,
            PostStance::Front => at + to_ball * touch,
        };
    }
    // Off the rim: sag toward it, and a share into the passing lane.
    let sag = at + to_rim * min(1.4, max(at.len() - 3.0, 0.6));
    sag + to_ball * (zone.denial * 1.2)
}
