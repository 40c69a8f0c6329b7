//! `players.csv`: who is known by himself, and what was made of what was said of his shooting.

use std::sync::Arc;

use engine::setup::{Individual, Known, Setup};
use engine::slots::ATTACK;
use serde::{Deserialize, Serialize};

use super::told::likely;
use crate::output::{Decimal, FileLine};
use crate::places::ATTACKERS;

/// One row of `players.csv`.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub(crate) struct PlayerLine {
    pub variant: String,
    pub position: String,
    pub name: String,
    pub shots: String,
    pub made: Option<u32>,
    pub attempted: Option<u32>,
    pub share: Decimal,
    pub level_share: Decimal,
    pub prior_attempts: Decimal,
    pub played_share: Decimal,
    pub played_share_low: Decimal,
    pub played_share_high: Decimal,
    pub told: String,
}

impl FileLine for PlayerLine {
    const FILE: &'static str = "players.csv";
}

/// A row for each share that a player of a variant states, or one for a player who states none.
pub(crate) fn player_lines(variants: &[String], setups: &[Arc<Setup>]) -> Vec<PlayerLine> {
    let mut lines = Vec::new();
    for (variant, setup) in variants.iter().zip(setups) {
        for slot in ATTACK {
            if let Some(player) = &setup.individuals[slot] {
                lines.extend(of_player(variant, ATTACKERS[slot], player));
            }
        }
    }
    lines
}

fn of_player(variant: &str, position: &str, player: &Individual) -> Vec<PlayerLine> {
    let named = PlayerLine {
        variant: variant.to_owned(),
        position: position.to_owned(),
        name: player.name.clone(),
        ..PlayerLine::default()
    };
    if player.known.is_empty() {
        return vec![named];
    }
    let of = |known: &Known| {
        let likely = likely(known);
        let real = |value: f32| Decimal::from(f64::from(value));
        PlayerLine {
            shots: known.shots.to_owned(),
            made: known.counted.map(|(made, _)| made),
            attempted: known.counted.map(|(_, attempted)| attempted),
            share: real(known.share),
            level_share: real(known.level),
            prior_attempts: real(known.prior_attempts),
            played_share: real(known.played),
            played_share_low: Decimal(likely.map(|likely| likely.low)),
            played_share_high: Decimal(likely.map(|likely| likely.high)),
            told: super::shares([known].into_iter()),
            ..named.clone()
        }
    };
    player.known.iter().map(of).collect()
}
