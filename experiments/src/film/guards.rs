//! Who guards whom, as a picture shows it: whose duty the ball is, as the film tells it, and besides which attacker each
//! defender looks after. Man-to-man that is his man; in a zone the attacker nearest to him, each attacker once.

use engine::film::{Film, Frame, Slot, What};
use engine::setup::Setup;
use engine::slots::{ATTACK, DEFENCE};

/// Farther off nobody is guarded, m. (assumed: a closeout's length)
const GUARDS_WITHIN_M: f32 = 4.5;

/// By so much another attacker must be nearer before a defender is shown with him, m: ties would flicker. (assumed)
const CHANGES_M: f32 = 0.5;

/// A defender and who he guards.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Guard {
    /// The attacker, by slot; `None` where nobody is near.
    pub whom: Option<usize>,
    /// The ball is his to guard.
    pub on_ball: bool,
}

/// All five defenders, frame by frame.
pub fn of(film: &Film, setup: &Setup) -> Vec<[Guard; 5]> {
    let takes: Vec<(f32, Slot, Slot)> = film
        .events
        .iter()
        .filter_map(|event| match event.what {
            What::TakesBall { by, of } => Some((event.time_s, by, of)),
            _ => None,
        })
        .collect();
    let mut before = [Guard::default(); 5];
    let by_man = setup.zone.marks.is_some();
    let guards = film.frames.iter().map(|frame| {
        let taken = takes
            .iter()
            .rev()
            .find(|(time_s, _, of)| *time_s <= frame.time_s + 1e-4 && frame.holder == Some(*of));
        let on_ball = taken.map(|(_, by, of)| (by.in_team(), of.index()));
        before = if by_man { men(on_ball) } else { nearest(frame, on_ball, before) };
        before
    });
    guards.collect()
}

/// Each his man.
fn men(on_ball: Option<(usize, usize)>) -> [Guard; 5] {
    std::array::from_fn(|d| Guard { whom: Some(d), on_ball: on_ball.is_some_and(|(by, _)| by == d) })
}

/// The ball's defender first, then the nearest pairs of those who are left.
fn nearest(frame: &Frame, on_ball: Option<(usize, usize)>, before: [Guard; 5]) -> [Guard; 5] {
    let mut guards = [Guard::default(); 5];
    if let Some((by, of)) = on_ball {
        guards[by] = Guard { whom: Some(of), on_ball: true };
    }
    let far = |d: usize, a: usize| {
        let apart = frame.players[DEFENCE[d].index()].distance(frame.players[ATTACK[a].index()]);
        if before[d].whom == Some(a) { apart - CHANGES_M } else { apart }
    };
    let mut pairs: Vec<(f32, usize, usize)> =
        (0..5).flat_map(|d| (0..5).map(move |a| (d, a))).map(|(d, a)| (far(d, a), d, a)).collect();
    pairs.sort_by(|a, b| a.0.total_cmp(&b.0));
    for (apart, d, a) in pairs {
        let free = guards[d].whom.is_none() && guards.iter().all(|guard| guard.whom != Some(a));
        if free && apart <= GUARDS_WITHIN_M {
            guards[d].whom = Some(a);
        }
    }
    guards
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nobody_is_guarded_twice_and_the_ball_by_whom_the_film_tells() {
        let setup = scenarios::scenario(std::path::Path::new("sunken-122")).unwrap().setup;
        let film = engine::film_possession(&setup, 1, 17);
        let guards = of(&film, &setup);
        assert_eq!(guards.len(), film.frames.len());
        let mut on_ball = 0;
        for (frame, guards) in film.frames.iter().zip(&guards) {
            for attacker in 0..5 {
                assert!(guards.iter().filter(|guard| guard.whom == Some(attacker)).count() <= 1);
            }
            for guard in guards.iter().filter(|guard| guard.on_ball) {
                assert_eq!(guard.whom, frame.holder.map(Slot::index), "at {} s", frame.time_s);
                on_ball += 1;
            }
        }
        assert!(on_ball > film.frames.len() / 3, "the ball is guarded in {on_ball} frames");
    }
}
