//! Numbers that change little from frame to frame, written small: differences, and runs of the same value.

use serde::Serialize;

/// Whole numbers frame by frame, as the first one and the differences from each to the next.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[serde(transparent)]
pub struct Track(Vec<i32>);

impl Track {
    /// Of these numbers.
    pub fn of(numbers: impl IntoIterator<Item = i32>) -> Self {
        let mut before = 0;
        Self(numbers.into_iter().map(|number| number - std::mem::replace(&mut before, number)).collect())
    }

    /// Of metres, as whole centimetres.
    pub fn centimetres(metres: impl IntoIterator<Item = f32>) -> Self {
        Self::of(metres.into_iter().map(hundredths))
    }

    /// Of directions, as whole degrees from +x toward +y. They go on turning rather than jump by a whole turn.
    pub fn degrees(directions: impl IntoIterator<Item = engine::math::Vec2>) -> Self {
        let mut before = 0;
        Self::of(directions.into_iter().map(|way| {
            let angle = f64::from(libm::atan2f(way.y, way.x)).to_degrees().round() as i32;
            before += (angle - before + 180).rem_euclid(360) - 180;
            before
        }))
    }
}

/// A value that holds for a while: `[first frame, value]` wherever it changes.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[serde(transparent)]
pub struct Runs(Vec<(usize, i32)>);

impl Runs {
    /// Of these values, frame by frame.
    pub fn of(values: impl IntoIterator<Item = i32>) -> Self {
        let mut runs: Vec<(usize, i32)> = Vec::new();
        for (frame, value) in values.into_iter().enumerate() {
            if runs.last().is_none_or(|(_, last)| *last != value) {
                runs.push((frame, value));
            }
        }
        Self(runs)
    }
}

/// The nearest whole hundredth.
pub fn hundredths(value: f32) -> i32 {
    (f64::from(value) * 100.0).round() as i32
}

#[cfg(test)]
mod tests {
    use super::*;
    use engine::math::vec2;

    #[test]
    fn tracks_and_runs_give_their_numbers_back() {
        let numbers = [7, 7, -3, 120, 119];
        let track = Track::of(numbers);
        assert_eq!(track.0, [7, 0, -10, 123, -1]);
        let back: Vec<i32> = track
            .0
            .iter()
            .scan(0, |sum, step| {
                *sum += step;
                Some(*sum)
            })
            .collect();
        assert_eq!(back, numbers);
        assert_eq!(Runs::of([4, 4, -1, -1, 4]).0, [(0, 4), (2, -1), (4, 4)]);
        assert_eq!(Track::centimetres([1.234, -0.006]).0, [123, -124]);
    }

    #[test]
    fn a_direction_turns_on_through_half_a_turn() {
        let track = Track::degrees([vec2(-1.0, 0.02), vec2(-1.0, -0.02), vec2(0.0, -1.0)]);
        assert_eq!(track.0, [179, 2, 89]);
    }
}
