//! An attacker without the ball: meets a pass, follows a program, or stays where he can be seen.

mod conditions;
mod locus;
mod programs;
mod spacing;

use crate::decide::on_ball::FEED_M;
use crate::decide::{View, nearest_defender, three_seconds};
use crate::law::shot::make_chance;
use crate::math::{Vec2, clamp, max, min, to_segment, vec2};
use crate::random::{Purpose, Streams};
use crate::setup::Shooter;
use crate::slots::{ATTACK, DEFENCE, Slot};
use crate::state::{Belief, Fill, Plans, Signals, Wishes};

/// Nearer to a team-mate than this is crowding, the more the nearer, m. (common practice, no source)
const CROWD_M: f32 = 4.5;
/// What standing in a team-mate's place costs, on the scale of a step's score. (assumed)
const SHARED_COST: f32 = 2.5;
/// How far a man makes way for a team-mate who comes to his place, m. (assumed)
const MAKE_WAY_M: f32 = 2.6;

/// What a metre off the place where the ball wants him costs, and what standing still is worth, on the same scale; how
/// far he steps in toward a gap, m. (assumed)
const STEP_PER_M: f32 = 0.22;
const STAYS: f32 = 0.08;
const STEP_IN_M: f32 = 0.9;

/// Who clears out of the lane does so no slower than this, m/s. (assumed: a jog)
const CLEARS_M_S: f32 = 3.2;

/// Nobody makes way farther out than so far beyond the arc, m: there he draws no defender. (assumed)
const FAR_OUT_M: f32 = 1.6;

/// What a body between a defender and the ball is worth of room in the lane to it, m. (assumed)
const SHIELD_M: f32 = 0.6;
/// A post who posts up stands so far on the ball's side of his man, centre to centre, m. (bodies nearly touching)
const FRONT_M: f32 = 0.55;
/// He goes so far from home for it, m, while the ball is so near that it can be fed. (assumed)
const POST_UP_M: f32 = 1.8;

/// Decides an off-ball attacker's intent.
pub fn decide(
    view: &View<'_>,
    plans: &mut Plans,
    wishes: &mut Wishes,
    streams: &mut Streams,
    signals: &mut Signals,
) {
    let here = view.me.at;
    let ball_way = (view.mind.sighted_ball() - here).unit_or(view.mind.gaze);
    if view.mind.passed_to(view.me.slot) {
        meet(view, wishes, view.mind.ball);
        return;
    }
    if leave_lane(view, plans, wishes, ball_way) {
        return;
    }
    if plans.attack[view.me.slot].program.is_some() && programs::follow(view, plans, wishes, signals) {
        return;
    }
    if programs::start(view, plans, streams, signals) && programs::follow(view, plans, wishes, signals) {
        return;
    }
    stay_open(view, plans, wishes, streams, ball_way);
}

/// Goes to where the pass comes down; a man already there shows his hands.
pub fn meet(view: &View<'_>, wishes: &mut Wishes, down: Vec2) {
    let here = view.me.at;
    let ball_way = (view.mind.sighted_ball() - here).unit_or(view.mind.gaze);
    let to = view.given.setup.court.inside(down, 0.25);
    wishes.go(view.me.slot, to, f32::INFINITY, ball_way);
    if here.distance(to) < 0.5 {
        wishes.brace[view.me.slot] = 1.0;
    }
}

/// Steps out of the lane before three seconds are called, unless what he is doing leads out in time.
fn leave_lane(view: &View<'_>, plans: &Plans, wishes: &mut Wishes, ball_way: Vec2) -> bool {
    let Some((left, needs)) = three_seconds::count(view) else { return false };
    if left > needs {
        return false;
    }
    let here = view.me.at;
    let velocity = view.me.velocity;
    if let Some(to) = programs::target(view, &plans.attack[view.me.slot]) {
        let leads_out = !view.given.setup.court.in_lane(to);
        if leads_out && view.given.arrival(view.me.slot).time_to(here, velocity, to, 0.3) < left {
            return false;
        }
    }
    wishes.go(view.me.slot, three_seconds::exit(view, here), f32::INFINITY, ball_way);
    true
}

/// Stays at home, or a step or two from it where the ball can see him better.
fn stay_open(view: &View<'_>, plans: &mut Plans, wishes: &mut Wishes, streams: &mut Streams, ball_way: Vec2) {
    let plan = &mut plans.attack[view.me.slot];
    let here = view.me.at;
    let base = spacing::base(view, plan, streams);
    if view.clock.now >= plan.next_open_s {
        plan.next_open_s = view.clock.now + 0.6 + 0.6 * streams.uniform(view.me.slot, Purpose::OpenUp);
        // Who has filled a corner stays in it: he is there to be found.
        let slides = plan.fill != Fill::Corner;
        plan.open_up = best_step(view, (base, slides), plan.open_up);
    }
    let to = view.given.setup.court.inside(base + plan.open_up, 0.4);
    let distance = here.distance(to);
    let look = if distance > 3.0 { (to - here).unit_or(ball_way) } else { ball_way };
    // Who has nothing to do in the lane any more clears out.
    let court = &view.given.setup.court;
    let clears = court.in_lane(here) && !court.in_lane(to);
    let cap = match distance {
        far if far > 2.5 => 4.5,
        near if clears => max(1.2 + 0.9 * near, CLEARS_M_S),
        near => 1.2 + 0.9 * near,
    };
    wishes.go(view.me.slot, to, cap, look);
    if distance < 0.4 {
        wishes.brace[view.me.slot] = 1.0;
    }
}

/// The best of some steps about the place along the arc where the ball wants him (`spacing`): a free passing lane, room,
/// a place to shoot from, no crowding. Who finds a team-mate in his place makes way, farther, though not out of play.
fn best_step(view: &View<'_>, (home, slides): (Vec2, bool), present: Vec2) -> Vec2 {
    let ball = view.ball_at();
    let setup = &view.given.setup;
    let out = (home - Vec2::RIM).unit_or(vec2(0.0, 1.0));
    let along = out.quarter() * view.side;
    let slide = along * if slides { spacing::slide(home, along, ball) } else { 0.0 };
    let shared = nearest_mate(view, home) < spacing::SHARED_M;
    let way = if shared { MAKE_WAY_M } else { 0.0 };
    let steps = [
        present,
        slide,
        slide + along * 0.9,
        slide - along * 0.9,
        slide + along * 1.7,
        slide - along * 1.7,
        slide - out * STEP_IN_M,
        along * way,
        along * -way,
        out * way,
        posts_up(view.me.slot, view.mind, home, ball),
    ];
    let mut best = (f32::NEG_INFINITY, present);
    for step in steps {
        let at = home + step;
        let far_out = at.len() > setup.court.three_radius_m + FAR_OUT_M && at.len() > home.len();
        if !setup.court.in_bounds(at) || setup.court.in_lane(at) || far_out {
            continue;
        }
        let mut lane_free: f32 = 2.0;
        for defender in DEFENCE {
            let (off, share) = to_segment(view.mind.at(defender), ball, at);
            if share > 0.1 {
                // Whoever stands behind him has to come through him.
                lane_free = min(lane_free, if share < 1.0 { off } else { off + SHIELD_M });
            }
        }
        let room = min(nearest_defender(view.mind, at).1, 3.0);
        let mate = nearest_mate(view, at);
        let crowd = clamp((CROWD_M - mate) / 3.0, 0.0, 1.0);
        let (chance, points) =
            make_chance(&setup.court, &setup.attackers.skill.shot, Shooter::default(), at, 1.5, true);
        let stays = if (step - present).len2() < 0.01 { STAYS } else { 0.0 };
        let shares = SHARED_COST * spacing::sharing(mate);
        let off_slide = (step - slide).len();
        let score =
            lane_free + 0.35 * room + chance * points - 1.2 * crowd - shares - STEP_PER_M * off_slide + stays;
        if score > best.0 {
            best = (score, step);
        }
    }
    best.1
}

/// Where a post puts himself between the nearest defender and the ball, as a step from home; none if that is far.
fn posts_up(slot: Slot, mind: &Belief, home: Vec2, ball: Vec2) -> Vec2 {
    let nearest = mind.at(nearest_defender(mind, home).0);
    let step = nearest + (ball - nearest).unit_or(vec2(0.0, 1.0)) * FRONT_M - home;
    let fits = slot.is_post() && step.len() < POST_UP_M && ball.distance(home) < FEED_M;
    if fits { step } else { vec2(0.0, 0.0) }
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
