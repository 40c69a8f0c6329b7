//! The standard normal distribution: its CDF, its quantile, and p-values.
//!
//! Formula: `cdf(x) = erfc(-x / sqrt 2) / 2`, with `erfc` of the pure-Rust `libm` crate; the quantile is
//! Wichura's rational approximation PPND16 (Algorithm AS 241, Applied Statistics 37, 1988, 477-484), right to
//! about 1 part in 10^16.
//!
//! Written here, not taken from a statistics crate: those call the standard library's `exp` and `ln`, which
//! are the platform's, and these figures go into files that must be the same bytes on any machine.

use core::f64::consts::FRAC_1_SQRT_2;

/// Chance that a standard normal draw is at most `x`.
pub fn cdf(x: f64) -> f64 {
    0.5 * libm::erfc(-x * FRAC_1_SQRT_2)
}

/// Chance that a standard normal draw is at least as far from 0 as `z`: the two-sided p-value.
pub fn two_sided_p(z: f64) -> f64 {
    libm::erfc(z.abs() * FRAC_1_SQRT_2)
}

/// Half width, in standard errors, of a two-sided interval: 1.95996 for a `confidence` of 0.95 (in 0-1).
pub fn two_sided_z(confidence: f64) -> f64 {
    -quantile(0.5 * (1.0 - confidence))
}

/// The x at which [`cdf`] is `p`: -infinity at 0, +infinity at 1, NaN outside 0-1. Source: AS 241.
pub fn quantile(p: f64) -> f64 {
    if !(0.0..=1.0).contains(&p) {
        return f64::NAN;
    }
    let q = p - 0.5;
    if q.abs() <= 0.425 {
        let r = 0.180_625 - q * q;
        return q * polynomial(&A, r) / polynomial(&B, r);
    }
    let tail = if q < 0.0 { p } else { 1.0 - p };
    if tail == 0.0 {
        return if q < 0.0 { f64::NEG_INFINITY } else { f64::INFINITY };
    }
    let r = (-libm::log(tail)).sqrt();
    let distance = if r <= 5.0 {
        polynomial(&C, r - 1.6) / polynomial(&D, r - 1.6)
    } else {
        polynomial(&E, r - 5.0) / polynomial(&F, r - 5.0)
    };
    if q < 0.0 { -distance } else { distance }
}

/// A polynomial by Horner's rule; coefficients from the constant term up.
fn polynomial(coefficients: &[f64; 8], x: f64) -> f64 {
    coefficients.iter().rev().fold(0.0, |sum, c| sum * x + c)
}

// Coefficients as printed in AS 241, cut to what an f64 holds: A/B near the middle, C/D in the tails, E/F far
// out.
const A: [f64; 8] = [
    3.387_132_872_796_366_5,
    1.331_416_678_917_843_8e2,
    1.971_590_950_306_551_3e3,
    1.373_169_376_550_946e4,
    4.592_195_393_154_987e4,
    6.726_577_092_700_87e4,
    3.343_057_558_358_813e4,
    2.509_080_928_730_122_7e3,
];
const B: [f64; 8] = [
    1.0,
    4.231_333_070_160_091e1,
    6.871_870_074_920_579e2,
    5.394_196_021_424_751e3,
    2.121_379_430_158_659_7e4,
    3.930_789_580_009_271e4,
    2.872_908_573_572_194_3e4,
    5.226_495_278_852_854e3,
];
const C: [f64; 8] = [
    1.423_437_110_749_683_5,
    4.630_337_846_156_546,
    5.769_497_221_460_691,
    3.647_848_324_763_204_5,
    1.270_458_252_452_368_4,
    2.417_807_251_774_506e-1,
    2.272_384_498_926_918_4e-2,
    7.745_450_142_783_414e-4,
];
const D: [f64; 8] = [
    1.0,
    2.053_191_626_637_759,
    1.676_384_830_183_803_8,
    6.897_673_349_851e-1,
    1.481_039_764_274_800_8e-1,
    1.519_866_656_361_645_7e-2,
    5.475_938_084_995_345e-4,
    1.050_750_071_644_416_9e-9,
];
const E: [f64; 8] = [
    6.657_904_643_501_103,
    5.463_784_911_164_114,
    1.784_826_539_917_291_3,
    2.965_605_718_285_048_7e-1,
    2.653_218_952_657_612_4e-2,
    1.242_660_947_388_078_4e-3,
    2.711_555_568_743_487_6e-5,
    2.010_334_399_292_288_1e-7,
];
const F: [f64; 8] = [
    1.0,
    5.998_322_065_558_88e-1,
    1.369_298_809_227_358e-1,
    1.487_536_129_085_061_5e-2,
    7.868_691_311_456_133e-4,
    1.846_318_317_510_054_8e-5,
    1.421_511_758_316_446e-7,
    2.044_263_103_389_939_8e-15,
];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn cdf_and_quantile_match_printed_tables() {
        // Values to 16 digits as general-purpose libraries print them.
        for (p, x) in [
            (0.5, 0.0),
            (0.8, 0.841_621_233_572_914_2),
            (0.9, 1.281_551_565_544_600_4),
            (0.975, 1.959_963_984_540_054),
            (0.995, 2.575_829_303_548_900_4),
            (1e-10, -6.361_340_902_404_056),
        ] {
            assert!((quantile(p) - x).abs() < 4e-15 * x.abs().max(1.0), "quantile({p}) = {}", quantile(p));
            assert!((cdf(x) / p - 1.0).abs() < 1e-13, "cdf({x}) = {}", cdf(x));
        }
        assert!((two_sided_p(1.959_963_984_540_054) - 0.05).abs() < 1e-15);
    }

    #[test]
    fn quantile_undoes_cdf() {
        for step in -800..=400 {
            let x = f64::from(step) / 100.0;
            // Near 1 the CDF itself holds fewer digits of the tail, so the upper side stops at 4.
            assert!((quantile(cdf(x)) - x).abs() < 1e-12 * (1.0 + x.abs()), "x = {x}: {}", quantile(cdf(x)));
        }
    }

    #[test]
    fn ends_and_nonsense_are_told_apart() {
        assert_eq!(quantile(0.0), f64::NEG_INFINITY);
        assert_eq!(quantile(1.0), f64::INFINITY);
        assert!(quantile(-0.1).is_nan() && quantile(1.1).is_nan() && quantile(f64::NAN).is_nan());
        assert_eq!(quantile(0.25), -quantile(0.75));
    }
}
