//! Moments of a film that a page, a clip or a storyboard stops at: shots and rebounds, by frame.

use engine::film::{Film, Slot, What};

/// A shot as it leaves the hands.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Shot {
    /// The last frame in which the shooter has the ball.
    pub frame: usize,
    /// Who shoots.
    pub by: Slot,
    /// How far from the rim, m.
    pub metres: f32,
    /// Distance of the nearest defender, m.
    pub space_m: f32,
    /// The chance that it goes in, 0 to 1.
    pub chance: f32,
    /// It counts three.
    pub three: bool,
    /// It is an open one.
    pub open: bool,
}

/// The shots of a film, in order of time.
pub fn shots(film: &Film) -> Vec<Shot> {
    let shot = |event: &engine::film::Event| match event.what {
        What::Shot { by, metres, space_m, chance, three, open } => {
            let frame = last_in_hands(film, event.time_s, by);
            Some(Shot { frame, by, metres, space_m, chance, three, open })
        }
        _ => None,
    };
    film.events.iter().filter_map(shot).collect()
}

/// The rebounds of a film: the first frame after each, and who has it.
pub fn rebounds(film: &Film) -> Vec<(usize, Slot)> {
    let rebound = |event: &engine::film::Event| match event.what {
        What::Rebound { by, .. } => Some((frame_of(film, event.time_s), by)),
        _ => None,
    };
    film.events.iter().filter_map(rebound).collect()
}

/// The first frame by which something has happened.
pub fn frame_of(film: &Film, time_s: f32) -> usize {
    let after = film.frames.partition_point(|frame| frame.time_s < time_s - 1e-4);
    after.min(film.frames.len().saturating_sub(1))
}

/// The last frame by a time in which a player has the ball; that of the time itself if there is none.
pub fn last_in_hands(film: &Film, time_s: f32, by: Slot) -> usize {
    let at = frame_of(film, time_s);
    (0..=at).rev().find(|frame| film.frames[*frame].holder == Some(by)).unwrap_or(at)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_shot_is_stopped_at_while_it_is_in_the_shooters_hands() {
        let setup = scenarios::scenario(std::path::Path::new("sunken-122")).unwrap().setup;
        let mut seen = 0;
        for possession in 0..12 {
            let film = engine::film_possession(&setup, 1, possession);
            for shot in shots(&film) {
                let frame = &film.frames[shot.frame];
                // Fouled in the act, the ball is dead in the same step.
                if frame.holder == Some(shot.by) {
                    let next = film.frames.get(shot.frame + 1).expect("something follows a shot");
                    assert_ne!(next.holder, Some(shot.by), "possession {possession}");
                    let look = frame.look.expect("he has a look");
                    assert!((look.space_m - shot.space_m).abs() < 0.5, "{look:?} {shot:?}");
                    seen += 1;
                }
            }
        }
        assert!(seen > 4, "{seen} shots were seen");
    }
}
