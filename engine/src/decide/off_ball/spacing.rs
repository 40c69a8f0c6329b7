//! Spacing without the ball: who fills an empty corner, who drifts on a drive, who makes way for a cutter.
//!
//! A perimeter player keeps the floor wide. When the ball has gone over to the other wing or corner, or inside,
//! the off guard leaves his slot for the corner of his own side if nobody is there: a skip or a kick out then
//! finds a shooter, and the back line has one man more to look after. On a drive at his side a perimeter player
//! drifts along the arc toward the corner, away from the driver's man. The lead guard stays up as safety. All
//! from what the player believes. (common practice, no source)

use super::fills;
use crate::decide::View;
use crate::decide::draws::Draws;
use crate::law::conduct::spacing::*;
use crate::law::floor::way_to_rim;
use crate::math::{Vec2, clamp, max};
use crate::setup::BallPlace;
use crate::slots::{ATTACK, GUARDS, Slot};
use crate::state::{Belief, Fill, Plan};

/// The place from which a player without a program plays: his home, or a corner that he fills.
pub fn base(view: &View<'_>, plan: &mut Plan, draws: &mut Draws<'_>) -> Vec2 {
    let setup = &view.given.setup;
    if let Some(taught) = &setup.attack.plan
        && !taught.fills.is_empty()
    {
        return fills::base(view, plan, taught, draws);
    }
    if view.me.slot == GUARDS[0] || plan.home.len() < PERIMETER_M || setup.attack.habits.fill_chance <= 0.0 {
        return plan.home;
    }
    let sign = if plan.home.x < 0.0 { -1.0 } else { 1.0 };
    let corner = setup.zone.ball_places[BallPlace::Corner as usize].sided(sign);
    let holder = view.mind.holder().filter(|by| *by != view.me.slot);
    let held = holder.is_some();
    let driven = holder.is_some_and(|by| driven(view.mind, by));
    let ball = view.ball_at();
    let across = -ball.x * sign;
    let drive = driven && (ball - plan.home).len() < DRIFTS_WITHIN_M;
    let away = view.me.slot == GUARDS[1] && held && (across > OVER_BEYOND_X_M || ball.len() < FILL_INSIDE_M);
    let back = held && ball.len() >= FILL_INSIDE_M && across < BACK_WITHIN_X_M && !driven;
    match plan.fill {
        Fill::No if drive || away => {
            let wants = draws.fills(setup.attack.habits.fill_chance);
            let free = !ATTACK.into_iter().any(|mate| {
                mate != view.me.slot && (view.whereabouts(mate) - corner).len2() < FILLED_M * FILLED_M
            });
            plan.fill = if wants && free { Fill::Corner } else { Fill::Declined };
        }
        Fill::Corner | Fill::Declined if back => plan.fill = Fill::No,
        _ => {}
    }
    if plan.fill == Fill::Corner { corner } else { plan.home }
}

/// How far a perimeter player slides along the arc with the ball, m, `along` being the arc's way at his home: behind the
/// ball where it has gone far, so that he is the next pass and the lane to it comes open past the men who shift; away
/// from it where it has come near, so that one does not guard two.
pub fn slide(home: Vec2, along: Vec2, ball: Vec2) -> f32 {
    if home.len() < PERIMETER_M {
        return 0.0;
    }
    let off = (ball - home).dot(along);
    let far = max(off, -off) / NEXT_PASS_M - 1.0;
    clamp(SLIDE_SHARE * off * far, -SLIDE_MOST_M, SLIDE_MOST_M)
}

/// Whether the holder is believed to come at the rim.
fn driven(mind: &Belief, holder: Slot) -> bool {
    let at = mind.at(holder);
    mind.velocity(holder).dot(way_to_rim(at)) > DRIVEN_M_S && at.len() < DRIVEN_WITHIN_M
}

/// How much a place next to a team-mate is to be avoided, 0-1: two in one place are guarded by one.
pub fn sharing(mate_m: f32) -> f32 {
    clamp((SHARED_WITHIN_M - mate_m) / SHARED_WIDTH_M, 0.0, 1.0)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::math::vec2;

    #[test]
    fn a_man_outside_comes_after_a_far_ball_opens_for_a_near_one_and_a_post_does_neither() {
        let (slot, along) = (vec2(-2.4, 6.3), vec2(0.934, 0.356));
        let balls = [vec2(-5.2, 4.2), vec2(2.4, 6.3), vec2(5.2, 4.2)];
        let slides = balls.map(|ball| slide(slot, along, ball));
        assert!(slides[0] > 0.3 && slides[1] < 0.0 && slides[2] > 0.5, "{slides:?}");
        let mirrored = balls.map(|ball| slide(slot.sided(-1.0), along.sided(-1.0), ball.sided(-1.0)));
        assert_eq!(slides, mirrored);
        assert_eq!(slide(vec2(2.2, 0.8), along, slot), 0.0);
    }
}
