//! Help behind a fronted post: the back-line defender nearest to him after the one who fronts shades to where a
//! lob would come down.

use super::{Defender, POST_M, Shift};
use crate::math::{Vec2, vec2};
use crate::setup::Line;
use crate::slots::ATTACK;

/// A lob over the front comes down that far behind the post, m. (assumed)
const BEHIND_M: f32 = 0.9;
/// With the ball nearer to the middle than this he looks after his own side, m. (assumed)
const WIDE_M: f32 = 3.5;
/// How much of the way there he shades while the ball is held outside; it is all of it once a pass flies there.
/// (assumed)
const SHADES: f32 = 0.5;

/// His place, if it is he who helps behind a front.
pub fn shade(d: &Defender<'_>, shift: &Shift<'_>, ball_side: f32, target: Vec2) -> Vec2 {
    let wide = d.view.mind.ball.x * ball_side > WIDE_M || d.view.mind.flies();
    if d.zone.columns[shift.column].line != Line::Back || d.view.mind.owner().is_none() || !wide {
        return target;
    }
    let mut post = (f32::INFINITY, Vec2::RIM);
    for other in ATTACK {
        let at = d.view.mind.at(other);
        let ball_m = (at - d.view.mind.ball).len2();
        let low = at.len2() < POST_M * POST_M && at.x * ball_side > 0.8;
        if low && ball_m < post.0 && d.view.mind.holder() != Some(other) {
            post = (ball_m, at);
        }
    }
    if post.0 == f32::INFINITY {
        return target;
    }
    // The nearest of the back line fronts him, the next one helps.
    let mine = (shift.anchors[shift.column] - post.1).len2();
    let free =
        |c: &usize| *c != shift.column && *c != shift.taker_column && d.zone.columns[*c].line == Line::Back;
    let nearer = (0..5).filter(free).filter(|c| (shift.anchors[*c] - post.1).len2() < mine).count();
    if nearer != 1 {
        return target;
    }
    let under = post.1 + (Vec2::RIM - post.1).unit_or(vec2(0.0, -1.0)) * BEHIND_M;
    target.toward(under, if d.view.mind.flies() { 1.0 } else { SHADES })
}
