//! Puts a fact to the model and holds what is seen of each effect against the verdict in force.
//!
//! A fact is looked at twice at most (`tests/looks.rs`). The second look is played where the first leaves open an effect
//! that a verdict says is settled, and where it would likely settle one that a verdict says is open: nothing that can be
//! had for four times the possessions may be called open.

use super::fact::{Fact, Part};
use crate::looks::{AGAIN, Seen, two_looks};
use crate::studied::{GLANCE, contradicts};

/// A fact, and what is seen of it.
pub struct Row {
    /// The fact.
    pub fact: &'static Fact,
    /// Possessions of each setup at the first look.
    pub possessions: u64,
    /// One for each effect, in their order.
    pub verdicts: &'static [Seen],
}

/// What the last look found.
pub struct Judged {
    /// The effects.
    pub parts: Vec<Part>,
    /// What is seen of each.
    pub seen: Vec<Seen>,
    /// Possessions of each setup.
    pub played: u64,
}

impl Row {
    /// Plays it. Panics where an effect has no verdict, or a verdict no effect.
    pub fn judge(&self) -> Judged {
        let z = self.fact.z();
        let (_, judged) = two_looks(self.possessions, |count| {
            let parts = (self.fact.measure)(count);
            let (found, given) = (parts.len(), self.verdicts.len());
            assert_eq!(found, given, "fact {}: {found} effects and {given} verdicts", self.fact.number);
            let seen: Vec<Seen> = parts.iter().map(|part| part.seen(z)).collect();
            let each = parts.iter().zip(&seen).zip(self.verdicts);
            let again = each.into_iter().any(|((part, seen), verdict)| {
                // Four times the possessions may have events enough.
                let settles = part.unknown() || part.settled_by(z, count) <= AGAIN * count;
                *seen == Seen::Open && (*verdict != Seen::Open || settles)
            });
            let judged = Judged { parts, seen, played: count };
            (if again { Seen::Open } else { Seen::Shown }, judged)
        });
        judged
    }

    /// What is seen otherwise than the verdicts have it, in words.
    pub fn changed(&self, judged: &Judged) -> Vec<String> {
        let each = judged.parts.iter().zip(&judged.seen).zip(self.verdicts).zip(1..);
        each.filter(|(((_, seen), verdict), _)| seen != verdict)
            .map(|(((_, seen), verdict), nth)| {
                let told = judged.told(self.fact, nth - 1);
                format!("{told}: {seen:?}, and the verdict in force is {verdict:?}")
            })
            .collect()
    }

    /// Fails where a part of the possessions contradicts a verdict: shows what it says is refuted, or the other way round.
    pub fn glance(&self) {
        let parts = (self.fact.measure)(self.possessions.div_ceil(GLANCE));
        let seen = parts.iter().map(|part| part.seen(self.fact.z()));
        for (nth, pair) in seen.zip(self.verdicts.iter().copied()).enumerate() {
            let (effect, (seen, verdict)) = (parts[nth].effect, pair);
            println!("fact {}, {effect}: {seen:?}, the verdict is {verdict:?}", self.fact.number);
            assert!(
                !contradicts(seen, verdict),
                "{}: {effect}: {seen:?}, and not {verdict:?}",
                self.fact.claim
            );
        }
        assert_eq!(parts.len(), self.verdicts.len(), "{}", self.fact.claim);
    }
}

impl Judged {
    /// One effect, and how surely it is what it is.
    fn told(&self, fact: &Fact, nth: usize) -> String {
        let (part, z) = (&self.parts[nth], fact.z());
        let (low, high) = part.whole.interval(z);
        format!(
            "fact {}, effect {} ({}), {} possessions: {:?}, {:+.4} ({low:+.4} to {high:+.4}), steps {:.4?}, to be {:?}, \
             seen nine times in ten {}, {}",
            fact.number,
            nth + 1,
            part.effect,
            self.played,
            part.doses,
            part.whole.value,
            part.steps,
            part.bound,
            part.seen_from(z),
            self.word(fact, nth)
        )
    }

    /// Whether an effect holds, as the table has it.
    pub fn word(&self, fact: &Fact, nth: usize) -> String {
        match self.seen[nth] {
            settled @ (Seen::Shown | Seen::Refuted) => settled.word().to_owned(),
            Seen::Open if self.parts[nth].unknown() => "open: there is nothing to judge".to_owned(),
            Seen::Open => match self.parts[nth].settled_by(fact.z(), self.played) {
                many if many > 1_000_000 => "open: a million would not settle it".to_owned(),
                some => format!("open: {some} would settle it"),
            },
        }
    }

    /// What of the fact holds.
    pub fn verdict(&self) -> String {
        let count = |what: Seen| self.seen.iter().filter(|seen| **seen == what).count();
        let (all, shown, open) = (self.seen.len(), count(Seen::Shown), count(Seen::Open));
        let word = match (shown, open) {
            (shown, _) if shown == all => "holds",
            (0, 0) => "**does not**",
            (0, _) => "not shown",
            _ => "partly",
        };
        let open = if open > 0 { format!(" ({open} open)") } else { String::new() };
        format!("{word}, {shown} of {all}{open}")
    }
}

#[cfg(test)]
mod tests {
    use super::super::estimate::Series;
    use super::*;

    /// A fact about nothing: more, less, and as good as equal to what is asked for with an error of a fifth.
    const PLAIN: Fact = Fact {
        number: 0,
        starred: false,
        claim: "two is more than one, and one is not more than two",
        cause: "none",
        measure: |count| {
            let flat = |value: f64| vec![(value, 1.0); count as usize];
            let (one, two) = (flat(1.0), flat(2.0));
            let near: Series = [0.6, 1.42].repeat(count as usize / 2).into_iter().map(|v| (v, 1.0)).collect();
            vec![
                Part::more("more", ("one", &one), ("two", &two), 0.5),
                Part::more("less", ("two", &two), ("one", &one), 0.5),
                Part::more("neither", ("none", &flat(0.0)), ("about one", &near), 1.0),
            ]
        },
    };

    fn row(verdicts: &'static [Seen]) -> Row {
        Row { fact: &PLAIN, possessions: 4, verdicts }
    }

    #[test]
    fn every_effect_has_its_own_verdict() {
        let row = row(&[Seen::Shown, Seen::Refuted, Seen::Open]);
        assert_eq!(row.changed(&row.judge()), Vec::<String>::new());
        // Too near to be settled by four times as many: it is not played again.
        assert_eq!(row.judge().played, 4);
        assert_eq!(row.judge().verdict(), "partly, 1 of 3 (1 open)");
    }

    #[test]
    #[should_panic(expected = "3 effects and 2 verdicts")]
    fn an_effect_that_is_judged_nowhere_is_a_failure() {
        row(&[Seen::Shown, Seen::Refuted]).judge();
    }

    #[test]
    #[should_panic(expected = "3 effects and 4 verdicts")]
    fn a_verdict_on_nothing_is_a_failure() {
        row(&[Seen::Shown, Seen::Refuted, Seen::Open, Seen::Open]).judge();
    }

    #[test]
    #[should_panic(expected = "Shown, and not Refuted")]
    fn a_glance_sees_what_contradicts_a_verdict() {
        Row { possessions: 20, ..row(&[Seen::Refuted, Seen::Open, Seen::Open]) }.glance();
    }

    #[test]
    fn a_glance_leaves_what_it_cannot_tell() {
        Row { possessions: 20, ..row(&[Seen::Open, Seen::Refuted, Seen::Refuted]) }.glance();
    }

    #[test]
    fn each_verdict_that_is_not_seen_is_named() {
        let told = |verdicts| {
            let row = row(verdicts);
            row.changed(&row.judge()).join("\n")
        };
        assert!(told(&[Seen::Refuted, Seen::Refuted, Seen::Open]).contains("effect 1 (more)"));
        assert!(
            told(&[Seen::Open, Seen::Refuted, Seen::Open])
                .contains("Shown, and the verdict in force is Open")
        );
        assert!(told(&[Seen::Shown, Seen::Shown, Seen::Open]).contains("effect 2 (less)"));
        // Merely unproved is no failure that was expected: open is not refuted.
        let open = told(&[Seen::Shown, Seen::Refuted, Seen::Refuted]);
        assert!(open.contains("Open, and the verdict in force is Refuted"), "{open}");
        assert!(open.contains("16 possessions"), "it was looked at twice: {open}");
    }

    /// One is asked for, and 1.55 found with an error of 0.29 in 4 possessions, and 0.13 in 16.
    const SOON: Fact = Fact {
        measure: |count| {
            let found: Series =
                [1.05, 2.05].repeat(count as usize / 2).into_iter().map(|v| (v, 1.0)).collect();
            vec![Part::more("more", ("none", &vec![(0.0, 1.0); count as usize]), ("some", &found), 1.0)]
        },
        ..PLAIN
    };

    #[test]
    fn what_a_second_look_settles_may_not_be_called_open() {
        let row = Row { fact: &SOON, possessions: 4, verdicts: &[Seen::Open] };
        let judged = row.judge();
        assert_eq!((judged.played, &judged.seen[..]), (16, &[Seen::Shown][..]));
        assert_eq!(row.changed(&judged).len(), 1);
        let shown = Row { verdicts: &[Seen::Shown], ..row };
        assert!(shown.changed(&shown.judge()).is_empty());
    }
}
