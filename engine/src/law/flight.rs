//! How long a pass is in the air, and how far it can be thrown.
//!
//! A chest or overhead pass is given by its speed at the release, and flies as a ball does. Nearly level, drag takes
//! `e^(k L)`, so that along the floor the ball flies as one without drag over `S = (e^(k L) - 1) / k`; thrown up just
//! enough to come down to the catch, it needs the time `T` of `T^2 (v^2 - (g T / 2)^2) = S^2`. With `q = g S / v^2`,
//! the sine of twice the angle of the release, that is `T = (S / v) sqrt(2 / (1 + sqrt(1 - q^2)))`. A steeper throw
//! has a longer way than the floor under it; `S` is longer by the share `0.2 k L q^2` for that (derived: with it `T`
//! is within 0.05 s of the integrated path up to `STEEPEST_SINE`, for 8 to 15 m/s and a catch up to 0.2 m lower).
//!
//! Beyond what a ball can reach (`q > 1`) the inner root is held at 0: `T` stays finite and rises with the length.
//! Nobody chooses such a pass ([`PassSkill::flight_within_reach_s`]).
//!
//! A bounce pass and a lob are given by their mean speed along the floor, drag and arc included, as their sources are.
//!
//! Known limits: between release and catch the ball goes along the floor evenly, though drag has it at most 0.3 m
//! farther halfway of 10 m; the catch is as high as the release.

use crate::math::{exp, max};
use crate::setup::{PassKind, PassSkill};

/// Drag of a ball a metre, `rho C_d A / 2 m`, 1/m: air 1.20 kg/m3, C_d 0.5 (from memory, 0.47-0.54), section
/// 0.0460 m2 and 0.62 kg (source: rule books).
const DRAG_PER_M: f32 = 0.0223;

/// Standard gravity, m/s2. (by definition)
pub const GRAVITY_M_S2: f32 = 9.806_65;

/// How much longer the way of a steep throw is, as a share of it for each unit of `k L q^2`. (derived: fitted to
/// integrated paths)
const ARC_PER_STEEPNESS: f32 = 0.2;

/// Sine of twice the steepest angle at which anybody throws an overhead pass: 33.5 degrees. (assumed; steeper it is a
/// lob)
const STEEPEST_SINE: f32 = 0.92;
/// The same of a chest pass: 25 degrees, which at 9.8 m/s reaches 6.8 m. (assumed; what is thrown from the chest flies
/// flat, and whoever has to throw it up takes it overhead)
const STEEPEST_CHEST_SINE: f32 = 0.766;

impl PassSkill {
    /// Flight time of a pass of this kind and length, s; rises with the length and is always finite.
    #[inline]
    pub fn flight_s(&self, kind: PassKind, length_m: f32) -> f32 {
        self.flown(kind, length_m).0
    }

    /// The same of a pass that is not steeper than its kind allows; `None` of one that is.
    #[inline]
    pub fn flight_within_reach_s(&self, kind: PassKind, length_m: f32) -> Option<f32> {
        let (span_s, steep) = self.flown(kind, length_m);
        let steepest = if kind == PassKind::Chest { STEEPEST_CHEST_SINE } else { STEEPEST_SINE };
        (steep <= steepest).then_some(span_s)
    }

    /// Flight time, s, and the sine of twice the angle of the release; 0 where the passer is free to choose it.
    #[inline]
    fn flown(&self, kind: PassKind, length_m: f32) -> (f32, f32) {
        if !thrown_through_the_air(kind) {
            return (length_m / self.speed_m_s, 0.0);
        }
        let (way, steep) = self.arc(length_m);
        let root = max(1.0 - steep * steep, 0.0).sqrt();
        (way / self.speed_m_s * (2.0 / (1.0 + root)).sqrt(), steep)
    }

    /// The length that a pass without drag would fly in the same way, m, and the sine of twice its angle.
    #[inline]
    fn arc(&self, length_m: f32) -> (f32, f32) {
        let drag = DRAG_PER_M * length_m;
        let way = (exp(drag) - 1.0) / DRAG_PER_M;
        let per_m = GRAVITY_M_S2 / (self.speed_m_s * self.speed_m_s);
        let steep = per_m * way;
        let way = way * (1.0 + ARC_PER_STEEPNESS * drag * steep * steep);
        (way, per_m * way)
    }
}

/// Given by its speed at the release, and not by its mean along the floor.
fn thrown_through_the_air(kind: PassKind) -> bool {
    matches!(kind, PassKind::Chest | PassKind::Overhead)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn pass(speed_m_s: f32) -> PassSkill {
        PassSkill { speed_m_s, error_rad: 0.0, release_s: 0.3, release_height_m: 1.35, catch_height_m: 1.35 }
    }

    #[test]
    fn time_is_finite_and_rises_with_the_length_in_and_out_of_reach() {
        for kind in PassKind::ALL {
            for speed in [2.0, 8.0, 9.8, 13.5, 25.0] {
                let (pass, mut last) = (pass(speed), 0.0);
                for centimetres in 1..4000_u16 {
                    let now = pass.flight_s(kind, f32::from(centimetres) * 0.01);
                    assert!(now.is_finite() && now > last, "{kind:?} at {speed} m/s, {centimetres} cm");
                    last = now;
                }
            }
        }
    }

    #[test]
    fn a_short_pass_is_straight_and_a_long_one_slows_and_arcs() {
        let chest = pass(10.0);
        assert!((chest.flight_s(PassKind::Chest, 0.5) - 0.05).abs() < 0.001);
        assert!(chest.flight_s(PassKind::Chest, 7.0) > 0.8);
        assert!((pass(7.0).flight_s(PassKind::Lob, 7.0) - 1.0).abs() < 1e-6);
    }

    #[test]
    fn a_chest_pass_flies_flatter_than_an_overhead_pass_may() {
        let longest = |kind, speed| {
            let pass = pass(speed);
            let lengths = (1..4000_u16).map(|cm| f32::from(cm) * 0.01);
            lengths.take_while(|m| pass.flight_within_reach_s(kind, *m).is_some()).last()
        };
        // 9 m/s, no steeper than 25 degrees: v^2 sin(50 degrees) / g is 6.33 m without drag.
        let chest = longest(PassKind::Chest, 9.0).expect("a short one can be thrown");
        assert!((5.7..6.33).contains(&chest), "{chest} m");
        assert!(longest(PassKind::Overhead, 9.0) > Some(chest + 0.8));
    }

    #[test]
    fn a_harder_throw_reaches_farther_and_none_goes_on_for_ever() {
        let farthest = |speed| {
            let pass = pass(speed);
            (1..4000_u16)
                .map(|cm| f32::from(cm) * 0.01)
                .take_while(|m| pass.flight_within_reach_s(PassKind::Overhead, *m).is_some())
                .count()
        };
        let reach = [9.8, 12.0, 13.5].map(farthest);
        println!("{reach:?} cm");
        assert!(reach[0] > 700 && reach[1] > reach[0] + 200 && reach[2] > reach[1] + 100 && reach[2] < 1500);
        assert!(
            pass(8.0).flight_within_reach_s(PassKind::Bounce, 30.0).is_some(),
            "the length of a bounce is the passer's own affair"
        );
    }
}
