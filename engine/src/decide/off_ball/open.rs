//! Staying open: at home, or a step or two from it where the ball can see him better.

use super::{Mover, spacing};
use crate::decide::{View, nearest_defender};
use crate::law::conduct::passing::FEED_M;
use crate::law::conduct::spacing::*;
use crate::law::conduct::walking::CLEARS_M_S;
use crate::law::shot::make_chance;
use crate::math::{Vec2, clamp, max, min, to_segment, vec2};
use crate::setup::Shooter;
use crate::slots::{ATTACK, DEFENCE};
use crate::state::{Belief, Fill};

/// Stays at home, or a step or two from it where the ball can see him better.
pub fn stay(view: &View<'_>, m: &mut Mover<'_>, ball_way: Vec2) {
    let plan = &mut *m.plan;
    let here = view.me.at;
    let base = spacing::base(view, plan, &mut m.draws);
    if view.clock.now >= plan.next_open_s {
        let restless = RESTLESS_LEAST_S + RESTLESS_SPREAD_S * m.draws.restless();
        plan.next_open_s = view.clock.now + restless;
        // Who has filled a corner stays in it: he is there to be found.
        let slides = !matches!(plan.fill, Fill::Corner | Fill::By(..));
        plan.open_up = best_step(view, (base, slides), plan.open_up);
    }
    let to = view.given.setup.court.inside(base + plan.open_up, HOME_EDGE_M);
    let distance = here.distance(to);
    let look = if distance > LOOKS_AT_WAY_M { (to - here).unit_or(ball_way) } else { ball_way };
    // Who has nothing to do in the lane any more clears out.
    let court = &view.given.setup.court;
    let clears = court.in_lane(here) && !court.in_lane(to);
    let cap = match distance {
        far if far > HURRIES_HOME_FROM_M => HURRIES_HOME_M_S,
        near if clears => max(STEPS_M_S + STEPS_FASTER_PER_M * near, CLEARS_M_S),
        near => STEPS_M_S + STEPS_FASTER_PER_M * near,
    };
    m.intent.go(to, cap, look);
    if distance < BRACES_WITHIN_M {
        m.intent.brace();
    }
}

/// The best of some steps about the place along the arc where the ball wants him (`spacing`). Who finds a team-mate in his
/// place makes way, farther, though not out of play.
fn best_step(view: &View<'_>, (home, slides): (Vec2, bool), present: Vec2) -> Vec2 {
    let ball = view.ball_at();
    let court = &view.given.setup.court;
    let out = (home - Vec2::RIM).unit_or(vec2(0.0, 1.0));
    let along = out.quarter() * view.side;
    let slide = along * if slides { spacing::slide(home, along, ball) } else { 0.0 };
    let way = if nearest_mate(view, home) < SHARED_WITHIN_M { MAKE_WAY_M } else { 0.0 };
    let steps = if view.me.slot.is_post() && home.len() < PERIMETER_M {
        // A post lives on his block: he puts himself between his man and the ball, or makes way.
        let still = vec2(0.0, 0.0);
        let posts_up = posts_up(view.mind, home, ball);
        [still, posts_up, along * way, along * -way, out * way, still, still, still, still, still]
    } else {
        [
            present,
            slide,
            slide + along * SHORT_STEP_M,
            slide - along * SHORT_STEP_M,
            slide + along * LONG_STEP_M,
            slide - along * LONG_STEP_M,
            slide - out * STEP_IN_M,
            along * way,
            along * -way,
            out * way,
        ]
    };
    let mut best = (f32::NEG_INFINITY, present);
    for step in steps {
        let at = home + step;
        let far_out = at.len() > court.three_radius_m + FAR_OUT_M && at.len() > home.len();
        if !court.in_bounds(at) || court.in_lane(at) || far_out {
            continue;
        }
        let stays = if (step - present).len2() < SAME_STEP_M2 { STAYS_POINTS } else { 0.0 };
        let off_slide = (step - slide).len();
        let score = worth(view, ball, at) - OFF_SLIDE_POINTS_PER_M * off_slide + stays;
        if score > best.0 {
            best = (score, step);
        }
    }
    best.1
}

/// What a place is worth to him with the ball where it is: a free passing lane, room, a place to shoot from, no crowding.
fn worth(view: &View<'_>, ball: Vec2, at: Vec2) -> f32 {
    let setup = &view.given.setup;
    let room = min(nearest_defender(view.mind, at).1, PLACE_ROOM_MOST_M);
    let mate = nearest_mate(view, at);
    let crowd = clamp((CROWDS_WITHIN_M - mate) / CROWD_WIDTH_M, 0.0, 1.0);
    let skill = &setup.player(view.me.slot).skill.shot;
    let (chance, points) = make_chance(&setup.court, skill, Shooter::default(), at, SHOT_ROOM_M, true);
    let shares = SHARED_COST_POINTS * spacing::sharing(mate);
    lane_room_m(view.mind, ball, at) + PLACE_ROOM_POINTS_PER_M * room + chance * points
        - CROWD_COST_POINTS * crowd
        - shares
}

/// Room of the passing lane from the ball to a place, m: distance of the nearest defender from it.
fn lane_room_m(mind: &Belief, ball: Vec2, at: Vec2) -> f32 {
    let mut room = LANE_ROOM_MOST_M;
    for defender in DEFENCE {
        let (off, share) = to_segment(mind.at(defender), ball, at);
        if share > LANE_SHARE_LEAST {
            // Whoever stands behind him has to come through him.
            room = min(room, if share < 1.0 { off } else { off + SHIELD_M });
        }
    }
    room
}

/// Where a post puts himself between the nearest defender and the ball, as a step from home.
fn posts_up(mind: &Belief, home: Vec2, ball: Vec2) -> Vec2 {
    if ball.distance(home) >= FEED_M {
        return vec2(0.0, 0.0);
    }
    let nearest = mind.at(nearest_defender(mind, home).0);
    let step = nearest + (ball - nearest).unit_or(vec2(0.0, 1.0)) * POSTS_UP_BODY_M - home;
    step.at_most(POSTS_UP_M)
}

/// Distance of the nearest team-mate from a place, as believed, m.
fn nearest_mate(view: &View<'_>, at: Vec2) -> f32 {
    let mut least = f32::INFINITY;
    for mate in ATTACK {
        if mate != view.me.slot {
            least = min(least, (view.whereabouts(mate) - at).len2());
        }
    }
    least.sqrt()
}
