//! Continuation values as the clock falls.

use engine::setup::{BallPlace, CLOCK_S, HELD_S, Moved, Setup, State};

/// The values are compared from this much time left on the clock to that, s.
const FROM_TO_S: (f32, f32) = (30.0, 8.0);
/// A rise by no more than this is taken for noise of the computation, points. (assumed)
const NOISE_POINTS: f32 = 0.05;

/// Steps of the clock, of all states, over which the value rises by more than noise.
pub fn rises(setup: &Setup) -> usize {
    let times: Vec<f32> =
        CLOCK_S.into_iter().filter(|left_s| (FROM_TO_S.1..=FROM_TO_S.0).contains(left_s)).collect();
    let table = &setup.attackers.skill.continuation;
    let mut rises = 0;
    for place in BallPlace::ALL {
        for moved in Moved::ALL {
            for held_s in HELD_S {
                let worth: Vec<f32> =
                    times.iter().map(|&left_s| table.worth(State { place, moved, held_s, left_s })).collect();
                rises += worth.windows(2).filter(|pair| pair[0] > pair[1] + NOISE_POINTS).count();
            }
        }
    }
    rises
}

#[test]
fn a_table_in_which_less_time_is_worth_more_has_its_rises_counted() {
    let flat = crate::support::changed(&crate::support::variant("hold-wing"), |setup| {
        setup.attackers.skill.continuation.points.fill(0.8);
    });
    assert_eq!(rises(&flat), 0);
    let steep = crate::support::changed(&flat, |setup| {
        let points = &mut setup.attackers.skill.continuation.points;
        points.iter_mut().enumerate().for_each(|(nth, points)| *points -= 0.1 * (nth % CLOCK_S.len()) as f32);
    });
    // Four steps of the clock in each of 7 places, 5 moves and 4 holds.
    assert_eq!(rises(&steep), 560);
}
