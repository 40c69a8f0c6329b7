//! Draws of the keyed streams, raw and as numbers, and of the generator behind the Monte Carlo figures.

use engine::random::{Drawer, Purpose, Streams, TABLE, keyed};
use engine::slots::{PLAYERS, Slot};
use experiments::stats::Generator;
use serde_json::{Value, json};

const SEEDS: [u64; 5] = [0, 1, 7, 1 << 63, u64::MAX];
const POSSESSIONS: [u64; 4] = [0, 1, 41_873, 1 << 40];
const ROLES: [u8; 3] = [0, 4, 10];
const PURPOSES: [Purpose; 3] = [Purpose::Side, Purpose::Weight, Purpose::Impatience];
const ORDINALS: [u16; 7] = [0, 1, 2, 3, 12, 500, u16::MAX];
const OPTIONS: [u8; 4] = [0, 1, 7, 255];
/// Draws of each kind from each possession's streams.
const EVENTS: u16 = 300;

/// (seed, possession, role, purpose, ordinal, option, bits) for every combination.
fn raw() -> Vec<Value> {
    let mut rows = Vec::new();
    for seed in SEEDS {
        for possession in POSSESSIONS {
            for role in ROLES {
                for purpose in PURPOSES.map(|purpose| purpose as u8) {
                    for ordinal in ORDINALS {
                        for option in OPTIONS {
                            let bits = keyed(seed, possession, role, purpose, ordinal, option);
                            rows.push(json!([seed, possession, role, purpose, ordinal, option, bits]));
                        }
                    }
                }
            }
        }
    }
    rows
}

/// One possession's numbers of each kind, event by event.
fn numbers(seed: u64, possession: u64, role: u8) -> Value {
    let mut streams = Streams::new(seed, possession);
    let role = usize::from(role);
    let who = if role < PLAYERS { Drawer::from(Slot::of(role)) } else { TABLE };
    let mut drawn = |mut one: Box<dyn FnMut(&mut Streams, u16) -> f32>| {
        crate::exact((0..EVENTS).map(|event| one(&mut streams, event)))
    };
    let uniform = drawn(Box::new(move |streams, _| streams.uniform(who, Purpose::Make)));
    let normal = drawn(Box::new(move |streams, _| streams.normal(who, Purpose::PassError)));
    let gumbel = drawn(Box::new(move |streams, event| {
        let ordinal = streams.next_event(who, Purpose::Choice);
        streams.gumbel(who, Purpose::Choice, ordinal, (event % 9) as u8)
    }));
    json!({
        "seed": seed,
        "possession": possession,
        "role": role,
        "uniform": { "purpose": Purpose::Make as u8, "values": uniform },
        "normal": { "purpose": Purpose::PassError as u8, "values": normal },
        "gumbel": { "purpose": Purpose::Choice as u8, "values": gumbel },
    })
}

/// Many draws of one generator: uniforms, and normals from the start again.
fn generator(seed: u64) -> Value {
    let (mut uniform, mut normal) = (Generator::new(seed), Generator::new(seed));
    json!({
        "seed": seed,
        "uniform": (0..3000).map(|_| uniform.uniform()).collect::<Vec<f64>>(),
        "normal": (0..3000).map(|_| normal.normal()).collect::<Vec<f64>>(),
    })
}

pub fn values() -> Value {
    let possessions = [(1, 0), (1, 8191), (u64::MAX, 3)];
    let numbers: Vec<Value> = possessions
        .iter()
        .flat_map(|&(seed, possession)| ROLES.map(|role| numbers(seed, possession, role)))
        .collect();
    let generators = [1, 0x6265_7374, u64::MAX].map(generator);
    json!({
        "raw": raw(),
        "numbers": numbers,
        "generators": generators,
    })
}
