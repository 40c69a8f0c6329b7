//! Conditions of a program in words.

use engine::setup::{Condition, Relative, Setup};

use super::place::words_of;
use super::{places_of, roles};
use crate::wording::any_of;

/// All conditions of a program: `when the ball is on the wing, and you are the far post`; empty for none that a
/// player has to watch for. A short wait at the start is left out.
pub(super) fn conditions(setup: &Setup, all: &[Condition]) -> String {
    let parts: Vec<String> = all.iter().filter_map(|condition| words(setup, condition)).collect();
    match parts.as_slice() {
        [] => String::new(),
        [one] => format!("when {one}"),
        // Commas before the last: the parts have an `and` or an `or` of their own.
        [first @ .., last] => format!("when {}, and {last}", first.join(", ")),
    }
}

fn words(setup: &Setup, condition: &Condition) -> Option<String> {
    let on_side = |side: &Relative| match side {
        Relative::Same => " on your side",
        Relative::Other => " on the other side",
        Relative::Any => "",
    };
    Some(match condition {
        Condition::BallWith(set) => format!("{} has the ball", roles(*set)),
        Condition::BallAt(set, side) => format!("the ball is {}{}", any_of(&places_of(*set)), on_side(side)),
        Condition::BallBound(set, side) => {
            format!("the ball is or goes {}{}", any_of(&places_of(*set)), on_side(side))
        }
        Condition::Stands(set, locus, _) if set.0 == 0 => format!("you are at {}", words_of(setup, *locus)),
        Condition::Stands(set, locus, _) => format!("{} is at {}", roles(*set), words_of(setup, *locus)),
        Condition::Unwatched => "nobody looks your way".into(),
        Condition::DribbledAt => "the ball is dribbled at you".into(),
        Condition::BallLeftMe(_) => "you have just passed it".into(),
        Condition::BallElsewhere => "a team-mate has the ball".into(),
        Condition::Open(locus, _) => format!("nobody stands at {}", words_of(setup, *locus)),
        Condition::BackOut => "a back has gone out to the ball".into(),
        Condition::NearPost(near) => format!("you are the {} post", if *near { "near" } else { "far" }),
        Condition::Waited(seconds) if *seconds >= 0.5 => {
            format!("you have waited {} s", super::seconds(*seconds))
        }
        Condition::After(seconds) if *seconds >= 3.0 => {
            format!("{} s have gone", super::seconds(*seconds))
        }
        Condition::Waited(_) | Condition::After(_) => return None,
    })
}
