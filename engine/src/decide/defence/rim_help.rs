//! Help behind a fronted post: the nearest of the back line off the ball fronts him, the next nearest shades to where a lob
//! over the front would come down.

use super::{Defender, Shift};
use crate::law::conduct::help::{BALL_SIDE_POST_X_M, LOB_BALL_WIDE_M, LOB_BEHIND_M, LOB_SHADE_SHARE};
use crate::law::conduct::post_defence::POST_WITHIN_M;
use crate::law::floor::way_to_rim;
use crate::math::Vec2;
use crate::setup::Line;
use crate::slots::ATTACK;

/// His place, moved if it is he who helps behind a front.
pub fn shade(d: &Defender<'_>, shift: &Shift<'_>, ball_side: f32, from: Vec2) -> Vec2 {
    let mind = d.view.mind;
    let wide = mind.ball.x * ball_side > LOB_BALL_WIDE_M || mind.flies();
    if d.zone.positions[shift.position].line != Line::Back || mind.owner().is_none() || !wide {
        return from;
    }
    let Some(post) = fronted_post(d, ball_side) else { return from };
    // The nearest of the back line fronts him, the next one helps.
    if shift.nearer(d.zone, Some(Line::Back), post) != 1 {
        return from;
    }
    let under = post + way_to_rim(post) * LOB_BEHIND_M;
    from.toward(under, if mind.flies() { 1.0 } else { LOB_SHADE_SHARE })
}

/// Where the ball-side post nearest to the ball is.
fn fronted_post(d: &Defender<'_>, ball_side: f32) -> Option<Vec2> {
    let mind = d.view.mind;
    let mut post = (f32::INFINITY, None);
    for other in ATTACK {
        let at = mind.at(other);
        let low = at.len2() < POST_WITHIN_M * POST_WITHIN_M && at.x * ball_side > BALL_SIDE_POST_X_M;
        let ball_m2 = (at - mind.ball).len2();
        if low && ball_m2 < post.0 && mind.holder() != Some(other) {
            post = (ball_m2, Some(at));
        }
    }
    post.1
}
