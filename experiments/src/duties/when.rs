//! Conditions of a program in words.

use engine::setup::{Condition, Relative, Setup};

use super::place::words_of;
use super::{named, places_of, roles};
use crate::wording::any_of;

/// All conditions of a program: `when the ball is on the wing, and you are the post away from the ball`; empty for none that a
/// player has to watch for. A short wait at the start is left out.
pub(super) fn conditions(setup: &Setup, all: &[Condition]) -> String {
    // A pass that is on its way somewhere is one thing for a player, not two.
    let flies = all.iter().any(|condition| matches!(condition, Condition::BallInTheAir));
    let told = |condition: &Condition| match condition {
        Condition::BallBound(set, side) if flies => {
            Some(format!("the ball is passed{}", bound(&places_of(*set), *side)))
        }
        Condition::BallInTheAir if all.iter().any(|own| matches!(own, Condition::BallBound(..))) => None,
        condition => words(setup, condition),
    };
    let parts: Vec<String> = all.iter().filter_map(told).collect();
    match parts.as_slice() {
        [] => String::new(),
        [one] => format!("when {one}"),
        // Commas before the last: the parts have an `and` or an `or` of their own.
        [first @ .., last] => format!("when {}, and {last}", first.join(", ")),
    }
}

/// Whether all are on the other side, so that it is said once; the top has no side.
fn are_away(places: &[&str], side: Relative) -> bool {
    side == Relative::Other && places.iter().all(|place| place.contains(" the "))
}

/// Places as they are told of a side: `in the slot or on the wing`, `on the other side from you, in the slot or on the wing`.
fn on_side(places: &[&'static str], side: Relative) -> String {
    if are_away(places, side) {
        return format!("on the other side from you, {}", any_of(places));
    }
    let told = |place: &&'static str| match (side, place.split_once(" the ")) {
        (Relative::Same, Some((at, name))) => format!("{at} your {name}"),
        (Relative::Other, Some((at, name))) => format!("{at} the {name} away from you"),
        // Neither has the top a side.
        _ => (*place).to_owned(),
    };
    any_of(&places.iter().map(told).collect::<Vec<_>>())
}

/// To where: ` to the top or the slot`, ` to the other side from you, to the wing`.
fn bound(places: &[&'static str], side: Relative) -> String {
    if are_away(places, side) {
        let names: Vec<&str> = places.iter().map(|place| named(place)).collect();
        return format!(" to the other side from you, to {}", any_of(&names));
    }
    let told = |place: &&'static str| match (side, named(place).strip_prefix("the ")) {
        (Relative::Same, Some(name)) if name != "top" => format!("your {name}"),
        (Relative::Other, Some(name)) if name != "top" => format!("the {name} away from you"),
        _ => named(place).to_owned(),
    };
    format!(" to {}", any_of(&places.iter().map(told).collect::<Vec<_>>()))
}

fn words(setup: &Setup, condition: &Condition) -> Option<String> {
    Some(match condition {
        Condition::BallWith(set) => format!("{} has the ball", roles(*set)),
        Condition::BallAt(set, side) => format!("the ball is {}", on_side(&places_of(*set), *side)),
        // Whoever waits until it is there comes too late.
        Condition::BallBound(set, side) => format!("the ball goes{}", bound(&places_of(*set), *side)),
        Condition::BallInTheAir => "a pass is in the air".into(),
        Condition::Stands(set, locus, _) if set.0 == 0 => format!("you are at {}", words_of(setup, *locus)),
        Condition::Stands(set, locus, _) => format!("{} is at {}", roles(*set), words_of(setup, *locus)),
        Condition::Unwatched => "nobody looks your way".into(),
        Condition::DribbledAt => "the ball is dribbled at you".into(),
        Condition::BallLeftMe(_) => "you have just passed the ball".into(),
        Condition::BallElsewhere => "a team-mate has the ball".into(),
        Condition::Open(locus, _) => format!("nobody stands at {}", words_of(setup, *locus)),
        Condition::BackOut => "one of their backs has come out there".into(),
        Condition::NearPost(true) => "you are the post on the ball's side".into(),
        Condition::NearPost(false) => "you are the post away from the ball".into(),
        Condition::Waited(seconds) if *seconds >= 0.5 => {
            format!("you have waited {} s", super::seconds(*seconds))
        }
        Condition::After(seconds) if *seconds >= 3.0 => {
            format!("{} s have gone", super::seconds(*seconds))
        }
        Condition::Waited(_) | Condition::After(_) => return None,
    })
}
