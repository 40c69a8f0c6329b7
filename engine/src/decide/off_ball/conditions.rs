//! Conditions of programs, judged on their owner's beliefs.

use super::locus::{ball_sign, open_by, post_lane, resolve};
use crate::decide::{Scene, ball_at, whereabouts};
use crate::law::floor::side_of;
use crate::law::shape;
use crate::math::Vec2;
use crate::setup::{Condition, Line, PlaceSet, Relative};
use crate::slots::{ATTACK, DEFENCE, NOBODY};
use crate::state::{Belief, Plan};

/// A defender farther away than this does not watch a player off the ball, m. (assumed)
const WATCHES_M: f32 = 4.5;
/// A defender turned away by more than this does not see what a player does: cosine of 60 degrees. (assumed)
const WATCHES_COS: f32 = 0.5;
/// A defender whom he has not seen for longer than this is no longer in sight, s. (assumed)
const SEEN_S: f32 = 0.5;
/// A man with the ball who comes on faster than this from no farther than this dribbles at his team-mate. (assumed)
const COMES_M_S: f32 = 1.2;
const COMES_M: f32 = 6.5;

/// True where all conditions hold.
pub fn all_hold(scene: &Scene<'_>, me: usize, mind: &Belief, plan: &Plan, conditions: &[Condition]) -> bool {
    conditions.iter().all(|c| holds(scene, me, mind, plan, *c))
}

fn holds(scene: &Scene<'_>, me: usize, mind: &Belief, plan: &Plan, condition: Condition) -> bool {
    let zone = &scene.given.setup.zone;
    let held_by = if mind.in_air { NOBODY } else { mind.holder };
    match condition {
        Condition::BallWith(roles) => held_by < 5 && roles.has(usize::from(held_by)),
        Condition::BallAt(places, relative) => {
            if held_by >= 5 {
                return false;
            }
            let sign = ball_sign(mind, plan);
            fits(scene, me, ball_at(mind), sign, places, relative)
        }
        Condition::BallBound(places, relative) => {
            // `mind.ball` is where it is held or where it is going.
            let at = mind.ball;
            mind.holder < 5 && fits(scene, me, at, side_of(at, plan.start_sign), places, relative)
        }
        Condition::Stands(roles, locus, within_m) => {
            let place = resolve(scene, me, mind, plan, locus);
            let near = |who: usize| (whereabouts(scene, me, mind, who) - place).len2() < within_m * within_m;
            if roles.0 == 0 { near(me) } else { ATTACK.into_iter().any(|who| roles.has(who) && near(who)) }
        }
        Condition::Unwatched => unwatched(scene, me, mind),
        Condition::DribbledAt => {
            usize::from(held_by) != me && held_by < 5 && comes_at(scene, me, mind, usize::from(held_by))
        }
        Condition::BallLeftMe(span_s) => scene.now - plan.passed_s <= span_s,
        Condition::BallElsewhere => held_by < 5 && usize::from(held_by) != me,
        Condition::Open(locus, radius_m) => open_by(scene, me, mind, plan, locus) > radius_m,
        Condition::BackOut => {
            let sign = ball_sign(mind, plan);
            let first_side = sign == scene.side;
            DEFENCE.into_iter().any(|lane| {
                let column = shape::column_of(zone, lane - 5, first_side);
                let at = mind.at(lane);
                zone.columns[column].line == Line::Back && at.x * sign > 3.4
            })
        }
        Condition::NearPost(near) => post_lane(scene, me, mind, near) == me,
        Condition::Waited(span_s) => scene.now - plan.step_s >= span_s,
        Condition::After(span_s) => scene.now >= span_s,
    }
}

/// Whether a ball place at `at` is one of these, on this side as compared with the owner's.
fn fits(scene: &Scene<'_>, me: usize, at: Vec2, sign: f32, places: PlaceSet, relative: Relative) -> bool {
    let place = shape::place_of(&scene.given.setup.zone, at, sign, u8::MAX, 0.0);
    let same = scene.bodies.at(me).x * sign >= 0.0;
    let side_fits = match relative {
        Relative::Same => same,
        Relative::Other => !same,
        Relative::Any => true,
    };
    side_fits && places.0 >> place & 1 == 1
}

/// Whether no defender near him looks his way. He sees the turn of a head whose owner he sees; one whom he has
/// lost sight of may be watching. Known limit: the turn is the present one, not one reaction old.
fn unwatched(scene: &Scene<'_>, me: usize, mind: &Belief) -> bool {
    let here = scene.bodies.at(me);
    !DEFENCE.into_iter().any(|lane| {
        let way = here - mind.at(lane);
        let far = way.len();
        let turned = scene.bodies.facing(lane).dot(way) <= WATCHES_COS * far;
        far < WATCHES_M && !(turned && mind.age[lane] < SEEN_S)
    })
}

/// Whether the holder comes straight at him, outside.
fn comes_at(scene: &Scene<'_>, me: usize, mind: &Belief, holder: usize) -> bool {
    let (at, velocity) = (mind.at(holder), mind.velocity(holder));
    let way = scene.bodies.at(me) - at;
    let far = way.len();
    let along = velocity.dot(way);
    far < COMES_M && along > COMES_M_S * far && along * along > 0.64 * velocity.len2() * far * far
}
