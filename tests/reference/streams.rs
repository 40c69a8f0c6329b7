//! Keyed draws and the Monte Carlo generator give the words of numpy's PCG64.

use engine::random::{Drawer, Purpose, Streams, TABLE, keyed, normal_quantile, unit};
use engine::slots::{PLAYERS, Slot};
use experiments::stats::Generator;
use serde::Deserialize;

use super::{near, values};

#[derive(Deserialize)]
struct File {
    draw: Vec<Draw>,
    generator: Vec<Words>,
}

#[derive(Deserialize)]
struct Draw {
    seed: String,
    possession: String,
    role: u8,
    purpose: u8,
    ordinal: u16,
    option: u8,
    bits: String,
    uniform: f64,
    normal: f64,
    gumbel: f64,
}

#[derive(Deserialize)]
struct Words {
    seed: String,
    words: Vec<String>,
}

/// Purposes by their place in a key, which is part of every result.
const PURPOSES: [(u8, Purpose); 6] = [
    (0, Purpose::Side),
    (3, Purpose::ShiftMode),
    (10, Purpose::Choice),
    (13, Purpose::PassError),
    (18, Purpose::Make),
    (26, Purpose::Impatience),
];

fn hex(text: &str) -> u64 {
    u64::from_str_radix(text.trim_start_matches("0x"), 16).expect("a hexadecimal number")
}

#[test]
fn keyed_draws_are_numpys_words_and_their_numbers() {
    for draw in values::<File>("streams").draw {
        let (seed, possession, bits) = (hex(&draw.seed), hex(&draw.possession), hex(&draw.bits));
        let what = format!("key of {:?} in possession {}", draw.purpose, draw.possession);
        let purpose = PURPOSES.iter().find(|(place, _)| *place == draw.purpose).expect("a listed purpose").1;
        assert_eq!(purpose as u8, draw.purpose);
        assert_eq!(
            keyed(seed, possession, draw.role, draw.purpose, draw.ordinal, draw.option),
            bits,
            "{what}"
        );
        let role = usize::from(draw.role);
        let who = if role < PLAYERS { Drawer::from(Slot::of(role)) } else { TABLE };
        let mut streams = Streams::new(seed, possession);
        assert_eq!(streams.option_bits(who, purpose, draw.ordinal, draw.option), bits, "{what}");
        assert_eq!(f64::from(unit(bits)), draw.uniform, "{what}");
        // The quantile's worst error in single precision; see `engine::random::normal_quantile`.
        near(normal_quantile(unit(bits) + 0.5 / 16_777_216.0), draw.normal, 3.8e-4, &what);
        let gumbel = Streams::new(seed, possession).gumbel(who, purpose, draw.ordinal, draw.option);
        near(gumbel, draw.gumbel, 1e-5, &what);
    }
}

#[test]
fn the_monte_carlo_generator_gives_numpys_words() {
    for generator in values::<File>("streams").generator {
        let mut ours = Generator::new(hex(&generator.seed));
        for word in generator.words {
            let uniform = ((hex(&word) >> 12) as f64 + 0.5) / (1_u64 << 52) as f64;
            assert_eq!(ours.uniform(), uniform, "seed {}", generator.seed);
        }
    }
}
