//! Until sure: variants are compared at fixed numbers of possessions, those that are shown to be behind are played no
//! further, and it ends as soon as the first place is clear.
//!
//! Looks are taken at 1,024, 2,048, 4,096 ... possessions of each and at the budget, and at nothing else. At a look every
//! variant that is left is held against the one ahead. One whose interval lies wholly behind it is *dropped*. It ends
//! where one is left (*clear*); where of those left none can be better than the one ahead by more than the margin
//! (*within*); or at the budget, where the leaders cannot be separated.
//!
//! Error rate: intervals are `difference -+ c x standard error` of the paired difference, and c is the quantile of the
//! largest |z| over all pairs *and* all looks ([`super::simultaneous()`]; a constant critical value as S. J. Pocock,
//! Biometrika 64, 1977, 191-199). All pairs, since the one ahead is picked by the same possessions. So with the stated
//! confidence no interval of the whole run is wrong, and with it no word: nothing is dropped that is not behind, and what
//! is told to be within the margin is. c is worked out at the first look, from the covariance found there, and again only
//! where two variants had not differed at all by then; it never falls when variants are dropped, so it is on the safe side.
//! Where fewer than ten possessions of a pair differ, or fewer than ten events of a share were seen, its interval is that of a
//! count ([`super::few`]), at Sidak's quantile of all pairs and looks. So nothing is dropped, and nothing told to be within the
//! margin, for a variance of 0 that only says that nothing was seen. Budgets are 1,024 at least.
//! Known limit: from ten events on sums are taken for normal; of what comes to much in few cases that is rough.
//!
//! Source of the form: successive elimination, E. Even-Dar, S. Mannor and Y. Mansour, Journal of Machine Learning Research
//! 7, 2006, 1079-1105, with the intervals above in place of theirs, which hold for any bounded values and are some times
//! as wide. Looks double, so a budget twice as large costs one look more: a sequence of intervals without an end (I.
//! Waudby-Smith et al., Annals of Statistics 52, 2024) would be wider at every look, and is not used.

use super::figure::Better;
use super::interval::Interval;
use super::joint::Joint;
use super::normal;
use super::simultaneous::{Against, simultaneous};
use super::totals::Totals;
use std::ops::Range;

/// Possessions of each variant at the first look.
const FIRST_LOOK: u64 = 1 << 10;
/// Possessions of each variant that may be spent, at least: with fewer nothing is called sure.
pub const SMALLEST_BUDGET: u64 = FIRST_LOOK;
/// Possessions of each variant after which one without a figure is waited for no longer. (a choice: of what happens once in
/// 1,000 possessions, none is seen in so many in 3 of 10,000 runs)
const WAITED_FOR_DATA: u64 = 1 << 13;

/// When a race ends.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct UntilSure {
    /// A difference that does not matter, in the figure's unit, 0 or more.
    pub margin: f64,
    /// Possessions of each variant at most.
    pub budget: u64,
}

/// The numbers of possessions at which a race with this budget ([`SMALLEST_BUDGET`] or more) may end.
#[must_use]
pub fn looks(budget: u64) -> Vec<u64> {
    let mut looks: Vec<u64> = std::iter::successors(Some(FIRST_LOOK), |look| Some(look * 2))
        .take_while(|look| *look < budget)
        .collect();
    looks.push(budget);
    looks
}

/// How a race ended.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum End {
    /// All others are behind the first.
    Clear,
    /// None of those left can be better than the first by more than the margin.
    Within,
    /// Neither could be shown with the budget.
    Budget,
    /// Neither had been shown when somebody wanted no more looks.
    Stopped,
    /// There was no figure for one of the variants, at the budget or after so many possessions that there hardly will be.
    NoData,
}

/// Where a variant stands at a look.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Place {
    /// Ahead of all others.
    Ahead,
    /// Not to be told from the one ahead.
    Left,
    /// Behind it, and not played any further.
    Dropped,
}

/// A variant at a look.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Standing {
    /// Which.
    pub variant: usize,
    /// Its figure.
    pub estimate: f64,
    /// It less the one ahead, with the interval that holds for all pairs and all looks together.
    pub behind: Interval,
    /// Where it stands.
    pub place: Place,
}

/// One look.
#[derive(Clone, Debug, PartialEq)]
pub struct Look {
    /// Possessions of each variant so far.
    pub possessions: u64,
    /// Half width of the intervals, in standard errors.
    pub critical: f64,
    /// The variants that were played up to here, in plan order; empty where one of them had no figure.
    pub standings: Vec<Standing>,
}

/// A race between variants. It says what is to be played next and is told what that came to.
#[derive(Clone, Debug)]
pub struct Race {
    until: UntilSure,
    better: Better,
    confidence: f64,
    looks: Vec<u64>,
    left: Vec<usize>,
    totals: Option<Totals>,
    critical: f64,
    /// The same for pairs of which little was seen.
    few_critical: f64,
    /// Whether every two of those left had differed when `critical` was worked out.
    all_differ: bool,
    taken: Vec<Look>,
    end: Option<End>,
}

impl Race {
    /// Of so many variants (2 or more), which way a figure is good, and the confidence (0-1) of all that is claimed.
    #[must_use]
    pub fn new(variants: usize, better: Better, confidence: f64, until: UntilSure) -> Self {
        let is_usual = variants > 1 && until.margin >= 0.0 && until.budget >= SMALLEST_BUDGET;
        assert!(is_usual, "{variants} variants, {until:?}");
        let looks = looks(until.budget);
        let claims = (variants * (variants - 1) / 2 * looks.len()) as f64;
        Self {
            until,
            better,
            confidence,
            looks,
            left: (0..variants).collect(),
            totals: None,
            critical: 0.0,
            few_critical: normal::two_sided_z(libm::exp(libm::log(confidence) / claims)),
            all_differ: false,
            taken: Vec::new(),
            end: None,
        }
    }

    /// The variants, in plan order, and the possession numbers that are to be played next; None where it has ended.
    #[must_use]
    pub fn to_play(&self) -> Option<(&[usize], Range<u64>)> {
        let from = self.taken.last().map_or(0, |look| look.possessions);
        self.end.is_none().then(|| (&*self.left, from..self.looks[self.taken.len()]))
    }

    /// Takes in what was asked for by [`Race::to_play`], and looks: `joint` makes the estimates of totals.
    pub fn look(&mut self, more: &Totals, joint: impl Fn(&Totals) -> Option<Joint>) {
        let mut totals = self
            .totals
            .take()
            .unwrap_or_else(|| Totals::new(more.variants(), more.measures(), more.ratios()));
        totals.merge(more);
        let (possessions, is_last) = (totals.possessions(), self.taken.len() + 1 == self.looks.len());
        let joint = joint(&totals);
        let standings = joint.as_ref().map_or_else(Vec::new, |joint| self.standings(joint));
        let kept: Vec<usize> =
            (0..standings.len()).filter(|&v| standings[v].place != Place::Dropped).collect();
        if joint.is_some() {
            self.left = kept.iter().map(|&v| self.left[v]).collect();
            totals = totals.only(&kept);
        }
        let can_be_better = |own: &Standing| self.gain(own.behind).high > self.until.margin;
        self.end = if standings.is_empty() {
            (is_last || possessions >= WAITED_FOR_DATA).then_some(End::NoData)
        } else if kept.len() == 1 {
            Some(End::Clear)
        } else if !kept.iter().any(|&v| can_be_better(&standings[v])) {
            Some(End::Within)
        } else {
            is_last.then_some(End::Budget)
        };
        self.totals = Some(totals);
        self.taken.push(Look { possessions, critical: self.critical, standings });
    }

    fn standings(&mut self, joint: &Joint) -> Vec<Standing> {
        if !self.all_differ {
            let critical =
                simultaneous(joint, Against::Leader(self.better), self.confidence, &self.looks).critical;
            self.critical = critical.max(self.critical);
            let all = 0..joint.variants();
            self.all_differ = all.clone().all(|v| all.clone().all(|w| v == w || joint.deviation(v, w) > 0.0));
        }
        let ahead = joint.leader(self.better);
        let standing = |v: usize| {
            let behind = joint.cautious(v, ahead, self.critical, self.few_critical);
            let place = if v == ahead {
                Place::Ahead
            } else if self.gain(behind).high < 0.0 {
                Place::Dropped
            } else {
                Place::Left
            };
            Standing { variant: self.left[v], estimate: joint.estimate(v), behind, place }
        };
        (0..joint.variants()).map(standing).collect()
    }

    /// A difference so turned that more is better.
    fn gain(&self, difference: Interval) -> Interval {
        match self.better {
            Better::Higher => difference,
            Better::Lower => difference.turned(),
        }
    }

    /// Ends it with the looks that were taken, one at least, if it has not ended. What they have shown stands: it holds at all
    /// looks together, also at those that are not taken.
    pub fn stop(&mut self) {
        let Some(look) = self.taken.last() else { return };
        let has_figures = !look.standings.is_empty();
        self.end = self.end.or(Some(if has_figures { End::Stopped } else { End::NoData }));
    }

    /// How it ended; None before it has.
    #[must_use]
    pub fn end(&self) -> Option<End> {
        self.end
    }

    /// The looks that were taken.
    #[must_use]
    pub fn taken(&self) -> &[Look] {
        &self.taken
    }

    /// The variants that have not been dropped, in plan order.
    #[must_use]
    pub fn left(&self) -> &[usize] {
        &self.left
    }

    /// The variant that is ahead; None where there was no figure yet.
    #[must_use]
    pub fn ahead(&self) -> Option<usize> {
        let standings = &self.taken.last()?.standings;
        standings.iter().find(|own| own.place == Place::Ahead).map(|own| own.variant)
    }

    /// The last look at a variant.
    #[must_use]
    pub fn last_seen(&self, variant: usize) -> Option<(&Look, &Standing)> {
        self.taken
            .iter()
            .rev()
            .find_map(|look| look.standings.iter().find(|own| own.variant == variant).map(|own| (look, own)))
    }
}

#[cfg(test)]
mod tests {
    use super::super::draws::Generator;
    use super::super::figure::Figure;
    use super::*;

    const HALF_A_HUNDREDTH: UntilSure = UntilSure { margin: 0.02, budget: 9_000 };

    /// Runs a race of streams: `value` makes one possession's values of all variants.
    fn run(
        race: &mut Race,
        measures: usize,
        ratios: &[(usize, usize)],
        mut value: impl FnMut(u64) -> Vec<i64>,
    ) {
        let figure = if ratios.is_empty() { Figure::Mean(0) } else { Figure::Ratio(0) };
        while let Some((left, possessions)) = race.to_play() {
            let left = left.to_vec();
            let mut totals = Totals::new(left.len(), measures, ratios);
            for possession in possessions {
                let all = value(possession);
                let row: Vec<i64> =
                    left.iter().flat_map(|v| all[v * measures..][..measures].to_vec()).collect();
                totals.add(&row);
            }
            race.look(&totals, |totals| Joint::new(totals, figure, 1.0));
        }
    }

    #[test]
    fn looks_double_up_to_the_budget() {
        assert_eq!(looks(5_000), [1024, 2048, 4096, 5000]);
        assert_eq!(looks(4096), [1024, 2048, 4096]);
        assert_eq!(looks(SMALLEST_BUDGET), [1024]);
        assert_eq!(looks(1 << 19).len(), 10);
    }

    /// Yes-or-no streams whose chance is half shared.
    fn yes_or_no<const V: usize>(random: &mut Generator, chances: [f64; V]) -> Vec<i64> {
        let shared = random.uniform();
        let one = |chance: f64| {
            let draw = if random.uniform() < 0.5 { shared } else { random.uniform() };
            i64::from(draw < chance)
        };
        chances.map(one).to_vec()
    }

    #[test]
    fn the_worse_ones_are_dropped_early_and_keep_the_figures_that_they_had() {
        let mut random = Generator::new(31);
        let mut race = Race::new(4, Better::Higher, 0.95, HALF_A_HUNDREDTH);
        run(&mut race, 1, &[], |_| yes_or_no(&mut random, [0.2, 0.5, 0.35, 0.4]));
        assert_eq!((race.end(), race.left(), race.ahead()), (Some(End::Clear), &[1][..], Some(1)));
        let (look, standing) = race.last_seen(0).unwrap();
        assert_eq!((look.possessions, standing.place), (1024, Place::Dropped));
        assert!((standing.estimate - 0.2).abs() < 0.05 && standing.behind.high < 0.0, "{standing:?}");
        let played: Vec<usize> = race.taken().iter().map(|look| look.standings.len()).collect();
        assert!(played.is_sorted_by(|a, b| a >= b) && played[0] == 4, "{played:?}");
        // The same figures are good when low: the worst becomes the best.
        let mut low = Race::new(4, Better::Lower, 0.95, HALF_A_HUNDREDTH);
        let mut random = Generator::new(31);
        run(&mut low, 1, &[], |_| yes_or_no(&mut random, [0.2, 0.5, 0.35, 0.4]));
        assert_eq!((low.end(), low.ahead()), (Some(End::Clear), Some(0)));
    }

    #[test]
    fn equals_end_within_the_margin_or_at_the_budget() {
        let mut random = Generator::new(32);
        let mut race = Race::new(3, Better::Higher, 0.95, HALF_A_HUNDREDTH);
        run(&mut race, 1, &[], |_| yes_or_no(&mut random, [0.3; 3]));
        assert_eq!((race.end(), race.left().len()), (Some(End::Within), 3));
        let last = race.taken().last().unwrap();
        assert!(last.standings.iter().all(|own| own.behind.high <= 0.02), "{last:?}");
        let mut short = Race::new(3, Better::Higher, 0.95, UntilSure { margin: 0.001, budget: 1500 });
        run(&mut short, 1, &[], |_| yes_or_no(&mut random, [0.3; 3]));
        assert_eq!(short.end(), Some(End::Budget));
        assert_eq!(short.taken().iter().map(|look| look.possessions).collect::<Vec<_>>(), [1024, 1500]);
    }

    #[test]
    fn one_that_is_stopped_says_what_it_had_shown_by_then_and_no_more() {
        let whole = |stopped_at: u64| {
            let mut random = Generator::new(33);
            let mut race = Race::new(3, Better::Higher, 0.95, HALF_A_HUNDREDTH);
            race.stop();
            assert_eq!(race.end(), None, "before the first look nothing can be said");
            while let Some((left, possessions)) = race.to_play() {
                let (left, end) = (left.to_vec(), possessions.end);
                let mut totals = Totals::new(left.len(), 1, &[]);
                for _ in possessions {
                    let all = yes_or_no(&mut random, [0.3, 0.3, 0.15]);
                    totals.add(&left.iter().map(|v| all[*v]).collect::<Vec<_>>());
                }
                race.look(&totals, |totals| Joint::new(totals, Figure::Mean(0), 1.0));
                if end >= stopped_at {
                    race.stop();
                }
            }
            race
        };
        let (short, long) = (whole(2048), whole(u64::MAX));
        assert_eq!((short.end(), short.left()), (Some(End::Stopped), &[0, 1][..]));
        assert!(long.taken().len() > 2 && long.taken()[..2] == *short.taken(), "{long:?}");
        // What has ended by itself is not stopped any more.
        assert_eq!(whole(long.taken().last().unwrap().possessions).end(), long.end());
    }

    #[test]
    fn what_was_not_seen_to_differ_is_within_what_so_few_possessions_show_and_no_closer() {
        let same = |margin| {
            let mut race = Race::new(2, Better::Higher, 0.95, UntilSure { margin, budget: 4096 });
            run(&mut race, 1, &[], |possession| vec![(possession % 3) as i64 / 2; 2]);
            (race.end(), race.taken().len())
        };
        // Three looks at one pair: the quantile is 2.39, and 2.39 squared of 1,024 is 0.0056.
        assert_eq!(same(0.006), (Some(End::Within), 1));
        assert_eq!(same(0.005), (Some(End::Within), 2));
        assert_eq!(same(0.0), (Some(End::Budget), 3));
    }

    #[test]
    fn rare_differences_pay_for_all_looks() {
        // A third differs from the first look on, the first two only after it.
        let mut late = Race::new(3, Better::Higher, 0.95, UntilSure { margin: 0.0, budget: 4096 });
        run(&mut late, 1, &[], |possession| {
            let own = i64::from(possession % 2 == 0);
            vec![own, own + i64::from(possession == 1500), 1 - own]
        });
        let critical: Vec<f64> = late.taken().iter().map(|look| look.critical).collect();
        assert!(critical.is_sorted() && critical[0] > 2.2 && critical[1] > critical[0], "{critical:?}");
    }

    #[test]
    fn a_handful_of_events_decides_nothing() {
        let until = UntilSure { margin: 0.05, budget: 1024 };
        // Two of two, and none of three: both variances are 0.
        let share = |times: u64| {
            let mut race = Race::new(2, Better::Higher, 0.95, until);
            run(&mut race, 2, &[(0, 1)], |possession| match possession {
                own if own < 2 * times => vec![1, 1, 0, 0],
                own if own < 5 * times => vec![0, 0, 0, 1],
                _ => vec![0; 4],
            });
            (race.end(), race.left().len())
        };
        assert_eq!((share(1), share(30)), ((Some(End::Budget), 2), (Some(End::Clear), 1)));
        // Less is better, and one of them was seen twice.
        let mut race = Race::new(2, Better::Lower, 0.95, UntilSure { margin: 0.002, ..until });
        run(&mut race, 1, &[], |possession| vec![i64::from(possession < 2), 0]);
        assert_eq!((race.end(), race.left(), race.ahead()), (Some(End::Budget), &[0, 1][..], Some(1)));
    }

    #[test]
    fn who_has_no_figure_is_not_waited_for_to_the_end_of_the_budget() {
        let mut race = Race::new(2, Better::Higher, 0.95, UntilSure { margin: 0.1, budget: 1 << 19 });
        run(&mut race, 2, &[(0, 1)], |_| vec![1, 1, 0, 0]);
        let last = race.taken().last().unwrap();
        assert_eq!((race.end(), last.possessions), (Some(End::NoData), WAITED_FOR_DATA));
    }

    #[test]
    fn without_a_figure_nobody_is_dropped() {
        let until = UntilSure { margin: 0.1, budget: 2048 };
        let mut race = Race::new(2, Better::Higher, 0.95, until);
        run(&mut race, 2, &[(0, 1)], |_| vec![1, 1, 0, 0]);
        assert_eq!((race.end(), race.left(), race.ahead()), (Some(End::NoData), &[0, 1][..], None));
        assert!(race.taken().iter().all(|look| look.standings.is_empty()));
    }
}
