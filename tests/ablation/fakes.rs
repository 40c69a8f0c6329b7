//! Fakes: who bites on a fake leans the way it points, and whatever a fake is worth comes from there.

use std::sync::Arc;

use engine::Arena;
use engine::film::{Film, What};
use engine::math::Vec2;
use engine::setup::Setup;
use rayon::prelude::*;

use super::row::{Ablation, Four};
use crate::looks::Seen;
use crate::support::changed;
use crate::trade::estimate::Series;
use crate::trade::watch::{tally, watch};
use crate::trade::{SEED, standing};

/// How long after the fake a lean is measured, s.
const LEANS_S: f32 = 0.4;

/// A fake before every guard's pass, or none, against defenders who bite with this chance.
fn faking(fakes: f32, bite: f32) -> Setup {
    let mut setup = (*standing()).clone();
    setup.attack.habits.fake_chance = fakes;
    setup.attack.habits.fakes_most = 1;
    setup.defenders.head.bite_chance = bite;
    setup.defenders.head.bite_decay = 0.9;
    setup
}

/// The first bite of a possession: who, when, and which way the fake pointed.
fn first_bite(film: &Film) -> Option<(usize, f32, Vec2)> {
    film.events.iter().find_map(|event| match event.what {
        What::Fake { by, toward, bitten } if bitten != 0 && by != toward => {
            let frame = film.frames.iter().find(|frame| frame.time_s >= event.time_s)?;
            let way = frame.players[usize::from(toward)] - frame.players[usize::from(by)];
            Some((bitten.trailing_zeros() as usize, event.time_s, way.unit_or(Vec2::RIM)))
        }
        _ => None,
    })
}

/// By possession with a bite: how far the one who bites goes the way that the fake points, m, where nobody ever bites
/// and where he bites.
fn leans(change: fn(&mut Setup), count: u64) -> [Series; 2] {
    let setups = [1.0, 0.0].map(|bite| {
        let mut setup = faking(1.0, bite);
        change(&mut setup);
        Arc::new(setup)
    });
    let one = |arena: &mut Arena, possession: u64| {
        let bitten = arena.film(&setups[0], SEED, possession);
        let (who, at_s, way) = first_bite(&bitten)?;
        let lean = |film: &Film| {
            let at = |s: f32| film.frames.iter().find(|f| f.time_s >= s).map(|f| f.players[who]);
            Some((f64::from((at(at_s + LEANS_S)? - at(at_s)?).dot(way)), 1.0))
        };
        Some([lean(&arena.film(&setups[1], SEED, possession))?, lean(&bitten)?])
    };
    let seen: Vec<[(f64, f64); 2]> = (0..count)
        .into_par_iter()
        .map_init(|| Arena::new(1), |arena, possession| one(arena, possession).unwrap_or_default())
        .collect();
    std::array::from_fn(|n| seen.iter().map(|ways| ways[n]).collect())
}

/// Who bites leans. The switch is not the one that makes the effect: they bite as ever, but a bite is nothing.
pub const LEAN: Ablation = Ablation {
    mechanism: "fakes",
    effect: "a pass fake, bite_chance 1 against 0: the first who bites goes so much farther its way in 0.4 s, m",
    off: "bite_distance_m 0 and bite_delay_s 0",
    possessions: 1000,
    verdict: Seen::Shown,
    measure: |count| Four {
        on: leans(|_| {}, count),
        off: leans(
            |setup| {
                setup.defenders.head.bite_distance_m = 0.0;
                setup.defenders.head.bite_delay_s = 0.0;
            },
            count,
        ),
    },
};

/// Nearest defender at the catches of guards' passes, m.
fn room(fakes: f32, bite: f32, count: u64) -> Series {
    let setup = changed(&faking(fakes, bite), |_| {});
    let [series] = watch::<1>(&setup, count, |w, sums| {
        for pass in w.passes.iter().filter(|pass| pass.from < 2 && pass.metres > 3.0) {
            if let Some((_, time_s, at)) = pass.caught {
                tally(&mut sums[0], w.space(time_s, at));
            }
        }
    });
    series
}

/// A pass fake gains room for the receiver. Does not hold: the fake costs its own time, in which the zone gets to its
/// places, and a bite gains less than that.
pub const PASS_FAKE: Ablation = Ablation {
    mechanism: "fakes",
    effect: "a fake before every guard's pass: nearest defender at the catch farther, m",
    off: "bite_chance 0 (on: 0.9)",
    possessions: 1000,
    verdict: Seen::Refuted,
    measure: |count| Four {
        on: [room(0.0, 0.9, count), room(1.0, 0.9, count)],
        off: [room(0.0, 0.0, count), room(1.0, 0.0, count)],
    },
};
