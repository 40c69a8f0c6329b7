//! Live and fixed places of a program, taken from its owner's beliefs.

use crate::decide::{View, nearest_defender};
use crate::law::conduct::programs::{ARC_LOOK_M, MIDDLE_X_M, SEAL_GAP_M};
use crate::law::{sealing, shape};
use crate::math::{Vec2, max, vec2};
use crate::setup::{Frame, Line, Locus, ON_BALL, Step};
use crate::slots::TEAM;
use crate::slots::{DEFENCE, POSTS, Slot};
use crate::state::{Belief, Leg};

/// Sign of the side that the ball is on, as the owner believes; a middle ball is on the owner's start side.
pub fn ball_sign(mind: &Belief, start_sign: f32) -> f32 {
    let ball = mind.ball_now();
    if ball.x > MIDDLE_X_M {
        1.0
    } else if ball.x < -MIDDLE_X_M {
        -1.0
    } else {
        start_sign
    }
}

fn sign(frame: Frame, mind: &Belief, leg: &Leg) -> f32 {
    match frame {
        Frame::Start => leg.start_sign,
        Frame::Ball if leg.program.is_some() => leg.step_sign,
        Frame::Ball => ball_sign(mind, leg.start_sign),
    }
}

/// The nearer (or farther) of the posts to the ball.
pub fn post_by_ball(view: &View<'_>, near: bool) -> Slot {
    let ball = view.ball_at();
    let [a, b] = POSTS.map(|p| (view.whereabouts(p) - ball).len2());
    if (a <= b) == near { POSTS[0] } else { POSTS[1] }
}

/// The place of a locus now, for whoever runs this leg, as the owner of the view believes.
pub fn resolve(view: &View<'_>, leg: &Leg, locus: Locus) -> Vec2 {
    let zone = &view.given.setup.zone;
    let first_side = ball_sign(view.mind, leg.start_sign) == view.side;
    let position = |c: u8| match c {
        ON_BALL => view.mind.at(nearest_defender(view.mind, view.ball_at()).0),
        _ => view.mind.at(shape::slot_of(zone, usize::from(c), first_side)),
    };
    match locus {
        Locus::Floor(at, frame) => at.sided(sign(frame, view.mind, leg)),
        Locus::LineGap(x, frame) => vec2(x * sign(frame, view.mind, leg), between_lines_y(view, first_side)),
        Locus::Behind(c, gap_m) => {
            // Out of his sight: on the far side of him from the ball.
            let at = position(c);
            let away = (at - view.ball_at()).unit_or(vec2(0.0, -1.0));
            at + away * gap_m
        }
        Locus::Seam(a, b) => (position(a) + position(b)) * 0.5,
        Locus::ByPost(near, off) => {
            let slot = post_by_ball(view, near);
            view.whereabouts(slot) + off.sided(ball_sign(view.mind, leg.start_sign))
        }
        Locus::Seal => seal(view, leg),
        Locus::Screen(c, to, frame, gap_m) => {
            let at = position(c);
            at + (to.sided(sign(frame, view.mind, leg)) - at).unit_or(vec2(0.0, 1.0)) * gap_m
        }
        Locus::AlongArc(metres) => {
            let turn = if leg.step_turn == 0.0 { roomier(view, leg.step_from) } else { leg.step_turn };
            along_arc(view, leg.step_from, metres * turn)
        }
        Locus::Home => leg.set_place,
    }
}

/// Where a leg leads, as he believes; `None` where it belongs to no program.
pub fn target(view: &View<'_>, leg: &Leg) -> Option<Vec2> {
    let program = view.given.setup.attack.programs.get(usize::from(leg.program?))?;
    let step = program.steps.get(usize::from(leg.step))?;
    Some(resolve(view, leg, step.to))
}

/// The middle between the mean depths of the front line and the back line, m from the rim along the floor.
fn between_lines_y(view: &View<'_>, first_side: bool) -> f32 {
    let zone = &view.given.setup.zone;
    let (mut front, mut back, mut fronts) = (0.0, 0.0, 0.0);
    for slot in DEFENCE {
        let position = shape::position_of(zone, slot, first_side);
        if zone.positions[position].line == Line::Front {
            front += view.mind.at(slot).y;
            fronts += 1.0;
        } else {
            back += view.mind.at(slot).y;
        }
    }
    let backs = TEAM as f32 - fronts;
    0.5 * (front / max(fronts, 1.0) + back / max(backs, 1.0))
}

/// Where he seals: between the helper, as he sees him, and his own place, in touch.
fn seal(view: &View<'_>, leg: &Leg) -> Vec2 {
    let ball = view.ball_at();
    let mine = sealing::wanted(leg.home, ball);
    let zone = DEFENCE.into_iter().map(|slot| view.mind.at(slot));
    let helper = sealing::helper(zone, mine, ball).map_or(mine, |(_, at)| at);
    let way = (mine - helper).unit_or((ball - helper).unit_or(vec2(0.0, 1.0)));
    helper + way * (2.0 * view.radius_m(view.me.slot) + SEAL_GAP_M)
}

/// About `metres` from a place round the rim, at the same distance from it.
fn along_arc(view: &View<'_>, from: Vec2, metres: f32) -> Vec2 {
    let out = from.unit_or(vec2(0.0, 1.0));
    (from + out.quarter() * (view.side * metres)).unit_or(out) * from.len()
}

/// Which way along the arc a leg leads, +1 or -1; 0 where it does not lead along the arc.
pub fn turn(view: &View<'_>, from: Vec2, step: Option<&Step>) -> f32 {
    match step {
        Some(Step { to: Locus::AlongArc(_), .. }) => roomier(view, from),
        _ => 0.0,
    }
}

/// Which way along the arc is the roomier: +1 or -1.
fn roomier(view: &View<'_>, from: Vec2) -> f32 {
    let room = |metres: f32| nearest_defender(view.mind, along_arc(view, from, metres)).1;
    if room(ARC_LOOK_M) >= room(-ARC_LOOK_M) { 1.0 } else { -1.0 }
}

/// Distance of the nearest believed defender from a locus, m.
pub fn open_by(view: &View<'_>, leg: &Leg, locus: Locus) -> f32 {
    nearest_defender(view.mind, resolve(view, leg, locus)).1
}
