//! Conditions of programs, judged on their owner's beliefs.

use super::locus::{ball_sign, open_by, post_lane};
use super::shape;
use super::{Scene, ball_at};
use crate::components::{Belief, Plan};
use crate::lanes::{DEFENCE, NOBODY};
use crate::setup::{Condition, Line, Relative};

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
            let place = shape::place_of(zone, ball_at(mind), sign, u8::MAX, 0.0);
            let same = scene.bodies.at(me).x * sign >= 0.0;
            let side_fits = match relative {
                Relative::Same => same,
                Relative::Other => !same,
                Relative::Any => true,
            };
            side_fits && places.0 >> place & 1 == 1
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
