//! A mechanism, an effect claimed for it, and what is left of the effect without it.

use crate::looks::Seen;
use crate::trade::estimate::{Estimate, Series, combination};

/// Standard errors to either side of a 99 % interval.
pub const Z: f64 = 2.576;

/// The most of an effect that may be left without its mechanism, as a share of it, by the ends of both intervals that
/// leave the most.
pub const MOST_LEFT: f64 = 0.25;

/// A claim: what is done has this effect by this mechanism, and by nothing else.
pub struct Ablation {
    /// The mechanism.
    pub mechanism: &'static str,
    /// What is done, and what it does to what, with its unit.
    pub effect: &'static str,
    /// How the mechanism is switched off: by values of ordinary data.
    pub off: &'static str,
    /// Possessions of each of the four setups, or plays of each of the four scenes.
    pub possessions: u64,
    /// Plays so many of each.
    pub measure: fn(u64) -> Four,
    /// Whether the claim is shown, refuted or open in so many.
    pub verdict: Seen,
}

/// The four runs: the effect is what is `done` less what is not, with the mechanism and without it.
pub struct Four {
    /// With the mechanism: not done, done.
    pub on: [Series; 2],
    /// Without it.
    pub off: [Series; 2],
}

/// What was found.
#[derive(Clone, Copy, Debug)]
pub struct Found {
    /// The effect with the mechanism.
    pub on: Estimate,
    /// The effect without it.
    pub off: Estimate,
    /// The second less the first, possession by possession.
    pub change: Estimate,
}

impl Four {
    /// The effects and their difference.
    pub fn found(&self) -> Found {
        let ([a, b], [c, d]) = (&self.on, &self.off);
        Found {
            on: combination(&[(1.0, b), (-1.0, a)]),
            off: combination(&[(1.0, d), (-1.0, c)]),
            change: combination(&[(1.0, d), (-1.0, c), (-1.0, b), (1.0, a)]),
        }
    }
}

impl Found {
    /// The effect is there with the mechanism, and all but gone without it. One of these refuted refutes the claim.
    pub fn seen(&self) -> Seen {
        // What may be left: of the smallest effect that there may be with the mechanism, and of the largest.
        let (low, high) = self.on.interval(Z);
        let left = |effect: f64| {
            let most = MOST_LEFT * effect.max(0.0);
            Seen::within(self.off.interval(Z), -most, most)
        };
        let gone = match (left(low), left(high)) {
            (Seen::Shown, _) => Seen::Shown,
            (_, Seen::Refuted) => Seen::Refuted,
            _ => Seen::Open,
        };
        Seen::all([
            Seen::within(self.on.interval(Z), f64::MIN_POSITIVE, f64::INFINITY),
            gone,
            Seen::within(self.change.interval(Z), f64::NEG_INFINITY, -f64::MIN_POSITIVE),
        ])
    }
}

impl Ablation {
    /// One line of the table.
    pub fn line(&self, found: &Found) -> String {
        let shown = |estimate: Estimate| {
            let (low, high) = estimate.interval(Z);
            format!("{:+.3} ({low:+.3} to {high:+.3})", estimate.value)
        };
        format!(
            "| {} | {} | {} | {} | {} | {} | {} | {} |",
            self.mechanism,
            self.effect,
            self.off,
            self.possessions,
            shown(found.on),
            shown(found.off),
            shown(found.change),
            found.seen().word()
        )
    }
}

#[test]
fn an_effect_must_be_there_with_its_mechanism_and_gone_without_it() {
    let noise = [0.1, -0.1, 0.05, -0.05];
    let about = |mean: f64| -> Series { noise.map(|off| (mean + off, 1.0)).to_vec() };
    let steady = |mean: f64| -> Series { [0.02, 0.01, -0.02, -0.01].map(|off| (mean + off, 1.0)).to_vec() };
    let seen = |on: f64, off: f64| {
        Four { on: [about(1.0), steady(1.0 + on)], off: [about(1.0), steady(1.0 + off)] }.found().seen()
    };
    assert!([0.0, 0.1, -0.1].into_iter().all(|left| seen(1.0, left) == Seen::Shown));
    assert!(seen(0.05, 0.0) == Seen::Open, "no effect that could be told from chance");
    assert!(seen(1.0, 0.2) == Seen::Open && seen(1.0, -0.2) == Seen::Open, "too much may be left");
    assert!(seen(1.0, 0.5) == Seen::Refuted && seen(1.0, -0.5) == Seen::Refuted, "too much is left");
    assert!(seen(-1.0, 0.0) == Seen::Refuted, "the wrong way");
    // A quarter of what was found would be 0.25, of the least that there may be 0.19.
    let at = |value: f64, error: f64| Estimate { value, error };
    let found = Found { on: at(1.0, 0.1), off: at(0.22, 0.001), change: at(-0.78, 0.1) };
    assert!(found.seen() == Seen::Open, "a quarter of a smaller effect is less");
}
