//! The most promising of many line-ups: some are tried at random, and from these it is estimated what each player is worth in
//! each place.
//!
//! Model: a line-up is worth the sum of what its players are worth where they play. That is not quite so (a post is worth more
//! beside a guard who finds him), which is why nothing is claimed from it; it only says which line-ups are worth a race.
//! Fitted by least squares with a small ridge, for the sums of all effects are not told apart. Source of the form: main effects
//! of an unbalanced design, D. C. Montgomery, Design and Analysis of Experiments, from memory.

use scenarios::WHERE;

use super::{Lineup, PLACES};
use crate::stats::{Generator, Root};

/// Line-ups that are tried. (a choice: as many as one run compares)
const TRIED: usize = 64;
/// Possessions of each of them.
pub(crate) const TRIED_POSSESSIONS: u64 = 1024;
/// What is added to the diagonal of the equations: little against the times that a player is tried in a place. (a choice)
const RIDGE: f64 = 0.1;

/// Places among all line-ups of those that are tried, in order: the first, and others drawn.
pub(crate) fn to_try(all: usize, seed: u64) -> Vec<usize> {
    let mut random = Generator::new(seed);
    let mut rest: Vec<usize> = (1..all).collect();
    let mut drawn = vec![0];
    while drawn.len() < TRIED.min(all) {
        let at = (random.uniform() * rest.len() as f64) as usize;
        drawn.push(rest.swap_remove(at));
    }
    drawn.sort_unstable();
    drawn
}

/// The `most` line-ups that are worth most by what each player is worth in each place, the first of all among them, and for
/// each player in each place that is not in one of these the one worth most that has him there; in order. So the noise of what
/// was tried leaves nobody out unseen. `tried` has the places of line-ups with what they were worth, higher being better.
pub(crate) fn best(all: &[Lineup], players: usize, tried: &[(usize, f64)], most: usize) -> Vec<usize> {
    let effects = effects(all, players, tried);
    let worth = |own: &Lineup| {
        own.0.iter().zip(PLACES).map(|(player, place)| effects[effect(*player, place)]).sum::<f64>()
    };
    let mut order: Vec<(usize, f64)> = all.iter().map(worth).enumerate().skip(1).collect();
    order.sort_by(|a, b| b.1.total_cmp(&a.1).then(a.0.cmp(&b.0)));
    let own = |nth: usize| all[nth].0.into_iter().zip(PLACES).map(|(player, place)| effect(player, place));
    let mut is_seen = vec![false; players * WHERE.len()];
    let mut kept = Vec::new();
    for nth in std::iter::once(0).chain(order.into_iter().map(|(nth, _)| nth)) {
        if kept.len() < most || own(nth).any(|effect| !is_seen[effect]) {
            own(nth).for_each(|effect| is_seen[effect] = true);
            kept.push(nth);
        }
    }
    kept.sort_unstable();
    kept
}

fn effect(player: usize, place: usize) -> usize {
    player * WHERE.len() + place
}

/// What each player is worth in each place, less the mean of those tried.
fn effects(all: &[Lineup], players: usize, tried: &[(usize, f64)]) -> Vec<f64> {
    let size = players * WHERE.len();
    let mean = tried.iter().map(|(_, worth)| worth).sum::<f64>() / tried.len().max(1) as f64;
    let (mut square, mut right) = (vec![0.0; size * size], vec![0.0; size]);
    for (nth, worth) in tried {
        let own: Vec<usize> =
            all[*nth].0.iter().zip(PLACES).map(|(player, place)| effect(*player, place)).collect();
        for &a in &own {
            right[a] += worth - mean;
            own.iter().for_each(|&b| square[a * size + b] += 1.0);
        }
    }
    (0..size).for_each(|a| square[a * size + a] += RIDGE);
    // By the ridge no column is a sum of others.
    Root::new(&square, size, 0.0).solved(&right)
}

#[cfg(test)]
mod tests {
    use super::super::lineups;
    use super::super::tests::squad;
    use super::*;

    #[test]
    fn the_best_of_many_is_found_where_players_are_worth_a_sum() {
        let all = lineups(&squad(&[""; 10]).candidates);
        let mut random = Generator::new(4);
        let own: Vec<f64> = (0..30).map(|_| random.normal()).collect();
        let worth = |nth: usize| {
            all[nth].0.iter().zip(PLACES).map(|(player, place)| own[effect(*player, place)]).sum::<f64>()
        };
        let tried = to_try(all.len(), 1);
        assert!(tried.len() == TRIED && tried[0] == 0 && tried.is_sorted_by(|a, b| a < b));
        let noisy: Vec<(usize, f64)> =
            tried.iter().map(|&nth| (nth, worth(nth) + 0.3 * random.normal())).collect();
        let kept = best(&all, 10, &noisy, 16);
        assert!((16..=16 + 30).contains(&kept.len()) && kept[0] == 0);
        for player in 0..10 {
            for (place, words) in WHERE.iter().enumerate() {
                let has = |nth: &usize| all[*nth].players(place).any(|own| own == player);
                assert!(kept.iter().any(has), "player {player} is raced nowhere as {words}");
            }
        }
        let top = |of: &[usize]| of.iter().map(|&nth| worth(nth)).fold(f64::NEG_INFINITY, f64::max);
        let (found, of_tried) = (top(&kept), top(&tried));
        let most = top(&(0..all.len()).collect::<Vec<_>>());
        assert!(most - found < 0.2 * (most - of_tried), "{found} of {most}, tried {of_tried}");
    }

    #[test]
    fn few_are_all_tried() {
        assert_eq!(to_try(3, 9), [0, 1, 2]);
    }
}
