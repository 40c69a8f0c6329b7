//! An attacker while a shot, a rebound or a loose ball is nobody's: to the glass, after the ball, or back for the break.

use crate::decide::View;
use crate::decide::chase;
use crate::decide::intent::Intent;
use crate::law::conduct::deciding::IN_THE_AIR_M_S;
use crate::law::conduct::glass::*;
use crate::law::floor::side_of;
use crate::math::{Vec2, max, min, vec2};
use crate::slots::{ATTACK, LEAD_GUARD, Slot};
use crate::state::{Glass, Plan, Whose};

/// To the glass if he was sent, else back on defence; for a loose ball the nearest few.
pub fn decide(view: &View<'_>, plan: &mut Plan, intent: &mut Intent<'_>) {
    let here = view.me.at;
    let loose = view.mind.whose == Whose::Loose;
    if let (Glass::Wanted(many), false) = (plan.glass, loose) {
        plan.glass = if is_wanted(view, usize::from(many)) { Glass::Goes } else { Glass::StaysOut };
    }
    let goes = plan.glass == Glass::Goes;
    let ball_way = (view.mind.sighted_ball() - here).unit_or(view.mind.gaze);
    if view.clock.now < view.mind.jumps_until {
        intent.go(here, IN_THE_AIR_M_S, ball_way);
        return;
    }
    if let Some(down) = chase::landing(view.mind) {
        let near = here.distance(down) < CHASE_M && chase::rank(view, down) < CHASERS;
        if near && (goes || loose) {
            intent.go(down, f32::INFINITY, (down - here).unit_or(ball_way));
            return;
        }
    }
    if loose {
        intent.go(plan.home, BACK_HOME_M_S, ball_way);
    } else if goes {
        intent.go(spot(view), f32::INFINITY, ball_way);
    } else {
        // Back for the break, but no farther than he can still play from: the ball is nobody's yet.
        let out_m = view.given.setup.court.three_radius_m + SAFETY_M;
        let back = vec2(plan.home.x * SAFETY_WIDTH_SHARE, max(here.y, out_m));
        intent.go(back, SAFETY_M_S, ball_way);
    }
}

/// Whether he is one of those who are to go: the nearest to the rim, as he believes, and never the lead guard, who is the
/// safety.
fn is_wanted(view: &View<'_>, many: usize) -> bool {
    let mine = view.me.at.len2();
    let nearer =
        |mate: &Slot| *mate != LEAD_GUARD && *mate != view.me.slot && view.mind.at(*mate).len2() < mine;
    view.me.slot != LEAD_GUARD && ATTACK.iter().filter(|mate| nearer(mate)).count() < many
}

/// Where he goes on the glass: rebounders spread over three places about the rim, the far side of the shot first; a long
/// shot comes off long.
fn spot(view: &View<'_>) -> Vec2 {
    let here = view.me.at;
    let shot = view.mind.shot_from;
    let sign = -side_of(shot, view.side);
    let wide = WIDER_PER_M * min(shot.len(), WIDER_UP_TO_M);
    let spots = [
        vec2(sign * (SIDE_X_M + wide), FAR_SIDE_Y_M),
        vec2(0.0, FRONT_PLACE_Y_M + wide),
        vec2(-sign * (SIDE_X_M + wide), NEAR_SIDE_Y_M),
    ];
    let mut best = (f32::INFINITY, spots[0]);
    for spot in spots {
        let taken = ATTACK
            .into_iter()
            .any(|mate| mate != view.me.slot && (view.mind.at(mate) - spot).len2() < (here - spot).len2());
        let cost = here.distance(spot) + if taken { TAKEN_COSTS_M } else { 0.0 };
        if cost < best.0 {
            best = (cost, spot);
        }
    }
    best.1
}
