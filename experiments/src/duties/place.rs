//! Places of a program in words.

use engine::math::{Vec2, vec2};
use engine::setup::{Frame, Locus, Pairing, Program, Setup};

use crate::places::sideless;

/// Where the formation has him.
pub(super) const HOME: &str = "your starting place";

/// `sprint to the free-throw line`, `sprint and seal the defender nearest to your post ...`.
/// Of a later move (`is_later`) it is said that the ball may be elsewhere by then.
pub(super) fn to(setup: &Setup, (verb, is_later): (&str, bool), locus: Locus) -> String {
    let told = towards(setup, verb, locus);
    if is_later { told.replace(BALL_SIDE, "on the side where the ball is by then") } else { told }
}

/// Of a place or of somebody beside it.
const BALL_SIDE: &str = "on the ball's side";

fn towards(setup: &Setup, verb: &str, locus: Locus) -> String {
    match locus {
        // As the engine finds him.
        Locus::Seal => {
            format!("{verb} and seal the defender nearest to your own low post (not the one on the ball)")
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
            let post =
                if near { "the post man on the ball's side" } else { "the post man away from the ball" };
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

/// The places of the floor to which the moves of a program lead that lead to one, in their order, without their sides.
pub(super) fn all_of(setup: &Setup, program: &Program) -> Vec<String> {
    let places = program.steps.iter().filter_map(|step| match step.to {
        Locus::Floor(at, _) => Some(sideless(setup, at)),
        _ => None,
    });
    places.collect()
}

/// `the ball's side`, `your side`, `the other side`.
fn side(x: f32, frame: Frame) -> &'static str {
    match (frame, x < 0.0) {
        (Frame::Ball, false) => "the ball's side",
        (Frame::Ball, true) => "the side away from the ball",
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
        (Frame::Ball, false) => format!("the {name} {BALL_SIDE}"),
        (Frame::Ball, true) => format!("the {name} away from the ball"),
        (Frame::Start, false) => format!("your {name}"),
        (Frame::Start, true) => format!("the other {name}"),
    }
}

/// A defender by his job: `the point`, `the wing on the ball's side`.
pub(super) fn defender(setup: &Setup, position: u8) -> String {
    let Some(position) = setup.zone.positions.get(usize::from(position)) else {
        return "the man on the ball".into();
    };
    let name = &position.name;
    match position.pairing {
        Pairing::Lone => format!("the {name}"),
        Pairing::Near(_) => format!("the {name} on the ball's side"),
        Pairing::Far(_) => format!("the {name} away from the ball"),
    }
}
