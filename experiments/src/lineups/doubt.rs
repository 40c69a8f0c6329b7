//! How little the counts behind the players allow. A race plays each share as if it were exactly so, and is sure of what follows
//! from that; whether the one ahead truly shoots better than the one behind is another question, and the counts answer it.

use engine::setup::{Known, Setup};
use engine::slots::ATTACK;
use scenarios::{Candidate, WHERE};

use super::Lineup;
use crate::stats::beta::chance_above;

/// A chance from which on a difference of shares is not doubted. (a choice)
const SURE: f64 = 0.95;
/// Doubts that are told. (a choice)
const TOLD: usize = 3;

/// That one who is ahead truly makes more of some shots than one who is behind.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Doubt {
    /// Him who is ahead, and his count.
    pub ahead: (String, (u32, u32)),
    /// Him who is behind, and his.
    pub behind: (String, (u32, u32)),
    /// Of which shots.
    pub shots: &'static str,
    /// The chance, by both counts and what is believed before any.
    pub chance: f64,
}

impl Doubt {
    /// As a clause: `that Kit truly makes more open threes than Ann (4 of 6 against 2 of 6) has a chance of 69 %`.
    pub fn words(&self) -> String {
        let ((ahead, own), (behind, other)) = (&self.ahead, &self.behind);
        format!(
            "that {ahead} truly makes more {} than {behind} ({} of {} against {} of {}) has a chance of {:.0} %",
            self.shots,
            own.0,
            own.1,
            other.0,
            other.1,
            100.0 * self.chance
        )
    }
}

/// What speaks for the one ahead only by counts that do not show it, the least sure first. `raced` has the line-ups with what
/// they were played with; who is behind is in one that differs from the one ahead by him alone.
pub(crate) fn doubts(
    squad: &[Candidate],
    ahead: (&Lineup, &Setup),
    behind: &[(&Lineup, &Setup)],
) -> Vec<Doubt> {
    let mut found: Vec<Doubt> = Vec::new();
    for (lineup, setup) in behind {
        for place in (0..WHERE.len()).filter(|place| ahead.0.is_but_one(lineup, *place)) {
            let strange = |own: &Lineup, other: &Lineup| {
                own.players(place).find(|player| other.players(place).all(|known| known != *player))
            };
            let (Some(first), Some(second)) = (strange(ahead.0, lineup), strange(lineup, ahead.0)) else {
                continue;
            };
            for own in known(ahead.0, ahead.1, first) {
                let other = known(lineup, setup, second).iter().find(|other| other.shots == own.shots);
                let name = |player: usize| squad[player].name.clone();
                let doubt = other.and_then(|other| doubt((name(first), own), (name(second), other)));
                found.extend(doubt.filter(|doubt| !found.iter().any(|known| same(known, doubt))));
            }
        }
    }
    found.sort_by(|a, b| a.chance.total_cmp(&b.chance));
    found.truncate(TOLD);
    found
}

fn same(a: &Doubt, b: &Doubt) -> bool {
    (&a.ahead.0, &a.behind.0, a.shots) == (&b.ahead.0, &b.behind.0, b.shots)
}

/// What is stated of the shooting of a player of a line-up.
fn known<'s>(lineup: &Lineup, setup: &'s Setup, player: usize) -> &'s [Known] {
    let at = lineup.0.iter().position(|own| *own == player);
    let own = at.and_then(|at| setup.individuals[ATTACK[at]].as_ref());
    own.map_or(&[], |own| own.known.as_slice())
}

/// None where the one ahead is not played as the better one, a share was stated without a count, or the counts show it.
fn doubt(ahead: (String, &Known), behind: (String, &Known)) -> Option<Doubt> {
    let (own, other) = (ahead.1, behind.1);
    let counted = (own.counted?, other.counted?);
    if own.played <= other.played {
        return None;
    }
    let chance = chance_above(believed(own)?, believed(other)?);
    (chance < SURE).then_some(Doubt {
        ahead: (ahead.0, counted.0),
        behind: (behind.0, counted.1),
        shots: own.shots,
        chance,
    })
}

/// The parameters of what is believed of a share after its count.
fn believed(known: &Known) -> Option<(f64, f64)> {
    let (made, attempted) = known.counted?;
    let (level, prior) = (f64::from(known.level), f64::from(known.prior_attempts));
    let (a, b) = (f64::from(made) + prior * level, f64::from(attempted - made) + prior * (1.0 - level));
    (a > 0.0 && b > 0.0).then_some((a, b))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn known(counted: Option<(u32, u32)>, played: f32) -> Known {
        Known { shots: "open threes", counted, share: played, level: 0.327, prior_attempts: 30.0, played }
    }

    #[test]
    fn few_attempts_show_little_and_many_enough() {
        let of = |own: (u32, u32), other: (u32, u32)| {
            let played = |count: (u32, u32)| (count.0 as f32 + 9.81) / (count.1 as f32 + 30.0);
            let (own, other) = (known(Some(own), played(own)), known(Some(other), played(other)));
            doubt(("Kit".into(), &own), ("Ann".into(), &other))
        };
        let few = of((4, 6), (2, 6)).unwrap();
        assert!((0.66..0.72).contains(&few.chance), "{few:?}");
        assert!(
            few.words().starts_with("that Kit truly makes more open threes than Ann (4 of 6 against 2 of 6)")
        );
        assert_eq!(of((200, 400), (100, 400)), None, "shown");
        assert_eq!(of((2, 6), (4, 6)), None, "he is not played as the better one");
        let stated = known(None, 0.5);
        assert_eq!(doubt(("Kit".into(), &stated), ("Ann".into(), &known(Some((2, 6)), 0.33))), None);
    }
}
