//! Keyed random streams.
//!
//! A draw's key is (master seed, possession, role, purpose, that role's own event ordinal, option identity).
//! The role is the fixed starting slot (`slots`). The key is hashed (SplitMix64) to a whole
//! `Pcg64` seed, since neighbouring `stream` values of one PCG may be correlated; one 64-bit draw is taken
//! from it and turned into a value by inversion. A purpose's draws never shift another's, and the same
//! possession in two variants shares its chances.

use crate::math::{clamp, exp, ln, max};
use crate::slots::{PLAYERS, Slot};
use bevy_ecs::prelude::Component;
use rand::{Rng, SeedableRng};
use rand_pcg::Pcg64;

/// What a draw is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[repr(u8)]
#[expect(missing_docs, reason = "the names say it")]
pub enum Purpose {
    Side,
    Individual,
    Phase,
    ShiftMode,
    Bonus,
    Notice,
    Glance,
    Talk,
    TalkError,
    Bite,
    Choice,
    Weight,
    Habit,
    PassError,
    Hand,
    TipWay,
    Travel,
    Handling,
    Make,
    ReboundWay,
    ReboundFar,
    ReboundRace,
    Crash,
    Whistle,
    FreeThrow,
    OpenUp,
    Impatience,
    DribbleAt,
    Fill,
    ShotFake,
    LobJump,
    Looks,
    Touch,
    Forced,
}

/// Who draws, the role in a draw's key: a player (a [`Slot`] turns into his own), or the [`TABLE`] for what belongs to
/// no player. Each counts its own events, so one player's draws never shift another's.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Drawer(u8);

/// The scorer's table, which draws what belongs to no player: the side, the bonus, when the zone shifts.
pub const TABLE: Drawer = Drawer(PLAYERS as u8);

impl From<Slot> for Drawer {
    fn from(slot: Slot) -> Drawer {
        Drawer(slot.index() as u8)
    }
}

const PURPOSES: usize = Purpose::Forced as usize + 1;
/// Different values that a uniform draw can have: 24 bits, all that single precision tells apart below 1.
const UNIFORM_VALUES: f32 = 16_777_216.0;
/// Half the distance between two of them: takes a draw off 0, where a quantile would be infinite.
const HALF_A_VALUE: f32 = 0.5 / UNIFORM_VALUES;
/// Quantiles are taken no nearer to 0 and 1 than this.
const NEAREST_TO_CERTAIN: f32 = 1e-7;

/// The streams of one possession.
#[derive(Component, Clone, Debug)]
pub struct Streams {
    /// Hash of the master seed and the possession, the part of the key that all draws share.
    stem: u64,
    /// Events that each drawer has had of each purpose.
    ordinals: [[u16; PURPOSES]; PLAYERS + 1],
    /// Keys drawn already: role, purpose, event, option.
    #[cfg(debug_assertions)]
    used: std::collections::HashSet<u64, std::hash::BuildHasherDefault<KeyHasher>>,
}

/// Hashes packed keys by one multiplication: every draw of a debug build asks for it.
#[cfg(debug_assertions)]
#[derive(Clone, Debug, Default)]
struct KeyHasher(u64);

#[cfg(debug_assertions)]
impl std::hash::Hasher for KeyHasher {
    fn finish(&self) -> u64 {
        self.0
    }
    fn write(&mut self, bytes: &[u8]) {
        bytes.iter().for_each(|byte| self.write_u64(u64::from(*byte)));
    }
    fn write_u64(&mut self, key: u64) {
        self.0 = (self.0 ^ key).wrapping_mul(GOLDEN);
    }
}

/// 2^64 divided by the golden ratio: the step of SplitMix64's counter, and an odd number whose multiples are spread evenly.
pub(crate) const GOLDEN: u64 = 0x9E37_79B9_7F4A_7C15;

/// The finalizer of SplitMix64: every bit of the result depends on every bit of `z`. (S. Vigna, public domain)
#[inline]
fn mix(mut z: u64) -> u64 {
    z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
    z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
    z ^ (z >> 31)
}

/// The output of a SplitMix64 whose counter stands at `x`.
#[inline]
pub fn mixed(x: u64) -> u64 {
    mix(x.wrapping_add(GOLDEN))
}

/// Hash of the part of a key that all draws of a possession share.
fn stem(seed: u64, possession: u64) -> u64 {
    mix(mixed(seed) ^ possession.wrapping_mul(GOLDEN))
}

/// The first 64-bit draw of the stream with this key.
pub fn keyed(seed: u64, possession: u64, role: u8, purpose: u8, ordinal: u16, option: u8) -> u64 {
    grown(stem(seed, possession), role, purpose, ordinal, option)
}

/// The part of a key that tells draws of one possession apart, in one word.
#[inline]
fn packed(role: u8, purpose: u8, ordinal: u16, option: u8) -> u64 {
    u64::from(role) | u64::from(purpose) << 8 | u64::from(ordinal) << 16 | u64::from(option) << 32
}

/// The draw of a key whose shared part is hashed already.
fn grown(stem: u64, role: u8, purpose: u8, ordinal: u16, option: u8) -> u64 {
    let mut state = mix(stem ^ packed(role, purpose, ordinal, option));
    let mut bytes = [0_u8; 32];
    for word in bytes.chunks_exact_mut(8) {
        word.copy_from_slice(&mixed(state).to_le_bytes());
        state = state.wrapping_add(GOLDEN);
    }
    Pcg64::from_seed(bytes).next_u64()
}

/// A 64-bit draw as a number in [0, 1), from its upper 24 bits: rounding never gives 1.
#[inline]
pub fn unit(bits: u64) -> f32 {
    (bits >> 40) as f32 * (1.0 / UNIFORM_VALUES)
}

/// A 64-bit draw as a number inside (0, 1), in the middle of its cell of [`unit()`]: quantiles and logarithms of it are finite.
#[inline]
pub fn inner_unit(bits: u64) -> f32 {
    unit(bits) + HALF_A_VALUE
}

/// Standard normal quantile: Acklam's rational approximation. In single precision its sums cancel near |z| = 1.95,
/// where it is up to 3.8e-4 off; below |z| = 1 it is right to 3e-6.
pub fn normal_quantile(p: f32) -> f32 {
    const A: [f32; 6] = [-39.696_83, 220.946_1, -275.928_5, 138.357_75, -30.664_8, 2.506_628_3];
    const B: [f32; 5] = [-54.476_1, 161.585_83, -155.698_99, 66.801_31, -13.280_68];
    const C: [f32; 6] = [-0.007_784_894, -0.322_396_46, -2.400_758_3, -2.549_732_5, 4.374_664, 2.938_164];
    const D: [f32; 4] = [0.007_784_696, 0.322_467_13, 2.445_134_2, 3.754_408_7];
    let tail = |q: f32| {
        (((((C[0] * q + C[1]) * q + C[2]) * q + C[3]) * q + C[4]) * q + C[5])
            / ((((D[0] * q + D[1]) * q + D[2]) * q + D[3]) * q + 1.0)
    };
    let p = clamp(p, NEAREST_TO_CERTAIN, 1.0 - NEAREST_TO_CERTAIN);
    if p < 0.024_25 {
        tail((-2.0 * ln(p)).sqrt())
    } else if p > 0.975_75 {
        -tail((-2.0 * ln(1.0 - p)).sqrt())
    } else {
        let q = p - 0.5;
        let r = q * q;
        (((((A[0] * r + A[1]) * r + A[2]) * r + A[3]) * r + A[4]) * r + A[5]) * q
            / (((((B[0] * r + B[1]) * r + B[2]) * r + B[3]) * r + B[4]) * r + 1.0)
    }
}

/// Chance that something with this rate happens within `span_s`.
#[inline]
pub fn chance_within(rate_per_s: f32, span_s: f32) -> f32 {
    1.0 - exp(-rate_per_s * span_s)
}

impl Default for Streams {
    fn default() -> Self {
        Streams::new(0, 0)
    }
}

impl Streams {
    /// The streams of a possession, none used yet.
    pub fn new(seed: u64, possession: u64) -> Self {
        Self {
            stem: stem(seed, possession),
            ordinals: [[0; PURPOSES]; PLAYERS + 1],
            #[cfg(debug_assertions)]
            used: std::collections::HashSet::default(),
        }
    }

    /// Raw bits for the role's next event of this purpose.
    pub fn bits(&mut self, role: impl Into<Drawer>, purpose: Purpose) -> u64 {
        let role = role.into();
        let ordinal = self.next_event(role, purpose);
        self.option_bits(role, purpose, ordinal, 0)
    }

    /// Starts an event whose draws are told apart by options, and returns its ordinal.
    pub fn next_event(&mut self, role: impl Into<Drawer>, purpose: Purpose) -> u16 {
        let ordinal = &mut self.ordinals[usize::from(role.into().0)][purpose as usize];
        *ordinal += 1;
        *ordinal - 1
    }

    /// Raw bits for one option of an event.
    pub fn option_bits(
        &mut self,
        role: impl Into<Drawer>,
        purpose: Purpose,
        ordinal: u16,
        option: u8,
    ) -> u64 {
        let Drawer(role) = role.into();
        #[cfg(debug_assertions)]
        assert!(
            self.used.insert(packed(role, purpose as u8, ordinal, option)),
            "random key used twice: role {role}, {purpose:?}, event {ordinal}, option {option}"
        );
        grown(self.stem, role, purpose as u8, ordinal, option)
    }

    /// Uniform in [0, 1).
    pub fn uniform(&mut self, role: impl Into<Drawer>, purpose: Purpose) -> f32 {
        unit(self.bits(role, purpose))
    }

    /// True with this chance. A chance of 0 or less is never true.
    pub fn coin(&mut self, role: impl Into<Drawer>, purpose: Purpose, chance: f32) -> bool {
        self.uniform(role, purpose) < chance
    }

    /// Standard normal.
    pub fn normal(&mut self, role: impl Into<Drawer>, purpose: Purpose) -> f32 {
        normal_quantile(inner_unit(self.bits(role, purpose)))
    }

    /// Standard exponential, mean 1: what wears down before something that comes at a rate happens.
    pub fn exponential(&mut self, role: impl Into<Drawer>, purpose: Purpose) -> f32 {
        -ln(max(1.0 - self.uniform(role, purpose), NEAREST_TO_CERTAIN))
    }

    /// Standard Gumbel, for a choice among options: the option with the largest value plus noise is taken
    /// with the softmax probability.
    pub fn gumbel(&mut self, role: impl Into<Drawer>, purpose: Purpose, ordinal: u16, option: u8) -> f32 {
        let u = inner_unit(self.option_bits(role, purpose, ordinal, option));
        -ln(-ln(u))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Values from a PCG64 and a SplitMix64 written out by hand in another language, not from this code.
    #[test]
    fn keyed_draws_are_those_of_pcg64_seeded_by_the_hashed_key() {
        assert_eq!(keyed(1, 0, 0, 0, 0, 0), 0x28f1_db37_04a3_3371);
        assert_eq!(keyed(1, 41_873, 7, 3, 12, 2), 0x5abc_a971_e34a_843a);
        assert_eq!(keyed(1 << 63, 1 << 40, 10, 26, u16::MAX, 7), 0xc113_0e12_ecc8_2991);
    }

    #[test]
    fn a_uniform_draw_is_never_one() {
        assert_eq!(unit(0), 0.0);
        assert!(unit(u64::MAX) < 1.0);
    }

    #[test]
    fn normal_quantiles_are_those_of_the_tables() {
        for (p, z) in
            [(0.5, 0.0), (0.841_344_7, 1.0), (0.975, 1.959_964), (0.999, 3.090_232), (0.01, -2.326_348)]
        {
            let got = normal_quantile(p);
            assert!((got - z).abs() < 2e-4, "quantile of {p}: {got}, not {z}");
        }
    }
}
