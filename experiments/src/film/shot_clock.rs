//! The shot clock of a film, worked out from what the frames show by the engine's own rule: it runs while the attack
//! controls the ball or the ball is loose, and starts anew with an offensive rebound.

use engine::film::{Air, Film, Frame, What};
use engine::math::{max, min};
use engine::setup::{Setup, Start};

/// What is left in each frame, s; `None` where the rules have no shot clock.
pub fn left_s(film: &Film, setup: &Setup) -> Option<Vec<f32>> {
    let officials = &setup.officials;
    let mut left = officials.shot_clock_s? - officials.clock_used_s;
    if setup.attack.start == Start::Rebound {
        left = min(left, officials.shot_clock_rebound_s);
    }
    let mut anew = film.events.iter().filter_map(|event| match event.what {
        What::Rebound { offensive: true, .. } => Some(event.time_s),
        _ => None,
    });
    let mut next = anew.next();
    let mut shown = Vec::with_capacity(film.frames.len());
    let mut before: Option<&Frame> = None;
    for frame in &film.frames {
        if before.is_some_and(runs) {
            left -= setup.step_s;
        }
        if next.is_some_and(|time_s| time_s <= frame.time_s + 1e-4) {
            left = officials.shot_clock_rebound_s;
            next = anew.next();
        }
        shown.push(max(left, 0.0));
        before = Some(frame);
    }
    Some(shown)
}

/// Whether the clock runs in the step that follows a frame. After a dead ball everyone stands in his place before it does.
fn runs(frame: &Frame) -> bool {
    match frame.air {
        Some(Air::Shot { .. } | Air::Rebound { .. }) => false,
        Some(Air::Pass { .. } | Air::Loose { .. }) | None => true,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use engine::film::TurnoverKind;

    /// A clock that is called is one that this one shows at nought, and no other possession shows it so.
    #[test]
    fn it_runs_out_where_the_officials_call_it() {
        let mut setup = (*scenarios::scenario(std::path::Path::new("sunken-122")).unwrap().setup).clone();
        setup.officials.shot_clock_s = Some(5.0);
        setup.officials.clock_used_s = 0.0;
        let setup = std::sync::Arc::new(setup);
        let mut called = 0;
        for possession in 0..300 {
            let film = engine::film_possession(&setup, 1, possession);
            let left = *left_s(&film, &setup).unwrap().last().unwrap();
            let out = film
                .events
                .iter()
                .any(|event| matches!(event.what, What::Turnover { kind: TurnoverKind::ShotClock, .. }));
            assert_eq!(out, left < 1e-3, "possession {possession}: {left} s left");
            called += u32::from(out);
        }
        assert!(called > 2, "the clock was called {called} times");
    }
}
