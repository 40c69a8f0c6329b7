//! Conditions of programs, judged on their owner's beliefs.

use super::locus::{ball_sign, open_by, post_by_ball, resolve};
use crate::decide::View;
use crate::law::conduct::programs::*;
use crate::law::floor::side_of;
use crate::law::shape;
use crate::math::Vec2;
use crate::setup::{Condition, Line, PlaceSet, Relative};
use crate::slots::{ATTACK, DEFENCE, Slot};
use crate::state::Plan;

/// True where all conditions hold.
pub fn all_hold(view: &View<'_>, plan: &Plan, conditions: &[Condition]) -> bool {
    conditions.iter().all(|c| holds(view, plan, *c))
}

fn holds(view: &View<'_>, plan: &Plan, condition: Condition) -> bool {
    let zone = &view.given.setup.zone;
    let holder = view.mind.holder();
    match condition {
        Condition::BallWith(roles) => holder.is_some_and(|by| roles.has(by.index())),
        Condition::BallAt(places, relative) => {
            if holder.is_none() {
                return false;
            }
            let sign = ball_sign(view.mind, plan.start_sign);
            fits(view, view.ball_at(), sign, places, relative)
        }
        Condition::BallBound(places, relative) => {
            // `ball` is where it is held or where it is going.
            let at = view.mind.ball;
            view.mind.owner().is_some() && fits(view, at, side_of(at, plan.start_sign), places, relative)
        }
        Condition::BallInTheAir => view.mind.flies(),
        Condition::Stands(roles, locus, within_m) => {
            let place = resolve(view, &plan.leg(), locus);
            let near = |who: Slot| (view.whereabouts(who) - place).len2() < within_m * within_m;
            if roles.0 == 0 {
                near(view.me.slot)
            } else {
                ATTACK.into_iter().any(|who| roles.has(who.index()) && near(who))
            }
        }
        Condition::Unwatched => unwatched(view),
        Condition::DribbledAt => holder.is_some_and(|by| by != view.me.slot && comes_at(view, by)),
        Condition::BallLeftMe(span_s) => view.clock.now - plan.passed_s <= span_s,
        Condition::BallElsewhere => holder.is_some_and(|by| by != view.me.slot),
        Condition::Open(locus, radius_m) => open_by(view, &plan.leg(), locus) > radius_m,
        Condition::BackOut => {
            let sign = ball_sign(view.mind, plan.start_sign);
            let first_side = sign == view.side;
            DEFENCE.into_iter().any(|slot| {
                let position = shape::position_of(zone, slot, first_side);
                let at = view.mind.at(slot);
                zone.positions[position].line == Line::Back && at.x * sign > BACK_OUT_X_M
            })
        }
        Condition::NearPost(near) => post_by_ball(view, near) == view.me.slot,
        Condition::Waited(span_s) => view.clock.now - plan.step_s >= span_s,
        Condition::After(span_s) => view.clock.now >= span_s,
    }
}

/// Whether a ball place at `at` is one of these, on this side as compared with the owner's.
fn fits(view: &View<'_>, at: Vec2, sign: f32, places: PlaceSet, relative: Relative) -> bool {
    let place = shape::place_of(&view.given.setup.zone, at, sign, u8::MAX, 0.0);
    let same = view.me.at.x * sign >= 0.0;
    let side_fits = match relative {
        Relative::Same => same,
        Relative::Other => !same,
        Relative::Any => true,
    };
    side_fits && places.0 >> place & 1 == 1
}

/// Whether no defender near him looks his way, as he saw them turned last. One whom he has lost sight of may be watching.
fn unwatched(view: &View<'_>) -> bool {
    let here = view.me.at;
    !DEFENCE.into_iter().any(|slot| {
        let way = here - view.mind.at(slot);
        let far = way.len();
        let turned = view.mind.facing(slot).dot(way) <= WATCHES_COS * far;
        far < WATCHES_M && !(turned && view.mind.age[slot] < IN_SIGHT_S)
    })
}

/// Whether the holder comes straight at him, outside.
fn comes_at(view: &View<'_>, holder: Slot) -> bool {
    let (at, velocity) = (view.mind.at(holder), view.mind.velocity(holder));
    let way = view.me.at - at;
    let far = way.len();
    let along = velocity.dot(way);
    far < DRIBBLED_AT_WITHIN_M
        && along > DRIBBLED_AT_FROM_M_S * far
        && along * along > DRIBBLED_AT_COS2 * velocity.len2() * far * far
}
