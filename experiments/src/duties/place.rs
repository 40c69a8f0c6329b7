//! Places of a program in words.

use engine::math::{Vec2, vec2};
use engine::setup::{Frame, Locus, Pairing, Program, Setup};

/// Where the formation has him.
pub(super) const HOME: &str = "your starting place";

/// `sprint to the free-throw line`, `sprint and seal the defender nearest to your post ...`.
pub(super) fn to(setup: &Setup, verb: &str, locus: Locus) -> String {
    match locus {
        // As the engine finds him.
        Locus::Seal => {
            format!("{verb} and seal the defender nearest to your post who is not on the ball")
        }
        Locus::Screen(position, ..) => format!("{verb} and screen {}", defender(setup, position)),
        Locus::AlongArc(metres) => format!("{verb} about {metres:.0} m along the arc to the open side"),
        Locus::Behind(position, _) => format!("{verb} in behind {}", defender(setup, position)),
        // `then on to the short corner`
        other => format!("{} to {}", verb.trim_start_matches("go "), words_of(setup, other)),
    }
}

/// The place itself.
pub(super) fn words_of(setup: &Setup, locus: Locus) -> String {
    match locus {
        Locus::Floor(at, frame) => floor(setup, at, frame),
        Locus::LineGap(x, _) if x.abs() < 0.8 => "the middle of the gap between their lines".into(),
        Locus::LineGap(x, frame) => format!("the gap between their lines on {}", side(x, frame)),
        Locus::Seam(a, b) => format!("the seam between {} and {}", defender(setup, a), defender(setup, b)),
        Locus::Behind(position, _) => format!("behind {}", defender(setup, position)),
        Locus::ByPost(near, off) => {
            let post = if near { "the near post" } else { "the far post" };
            if off.y < -0.3 {
                format!("the baseline side of {post}")
            } else if off.y > 0.3 {
                format!("the top side of {post}")
            } else {
                format!("beside {post}")
            }
        }
        Locus::Seal => "the defender who would help next".into(),
        Locus::Screen(position, ..) => defender(setup, position),
        Locus::AlongArc(_) => "along the arc".into(),
        Locus::Home => HOME.into(),
    }
}

/// Where on the floor the last move of a program leads that leads to a place of it, without its side; empty where none does.
pub(super) fn last_of(setup: &Setup, program: &Program) -> String {
    let places = program.steps.iter().rev().filter_map(|step| match step.to {
        Locus::Floor(at, _) => Some(engine::names::place(setup, at)),
        _ => None,
    });
    places.map(|name| name.replace("left ", "").replace("right ", "")).next().unwrap_or_default()
}

/// `the ball's side`, `your side`, `the other side`.
fn side(x: f32, frame: Frame) -> &'static str {
    match (frame, x < 0.0) {
        (Frame::Ball, false) => "the ball's side",
        (Frame::Ball, true) => "the far side",
        (Frame::Start, false) => "your side",
        (Frame::Start, true) => "the other side",
    }
}

/// A place of the floor by the trade's name and by its side.
fn floor(setup: &Setup, at: Vec2, frame: Frame) -> String {
    let right = vec2(at.x.abs(), at.y);
    let name = engine::names::place(setup, right);
    let Some(name) = name.strip_prefix("the right ") else { return name };
    match (frame, at.x < 0.0) {
        (Frame::Ball, false) => format!("the ball-side {name}"),
        (Frame::Ball, true) => format!("the far {name}"),
        (Frame::Start, false) => format!("your {name}"),
        (Frame::Start, true) => format!("the other {name}"),
    }
}

/// A defender by his job: `the point`, `the near wing`.
pub(super) fn defender(setup: &Setup, position: u8) -> String {
    let Some(position) = setup.zone.positions.get(usize::from(position)) else {
        return "the man on the ball".into();
    };
    let name = &position.name;
    match position.pairing {
        Pairing::Lone => format!("the {name}"),
        Pairing::Near(_) => format!("the near {name}"),
        Pairing::Far(_) => format!("the far {name}"),
    }
}
