//! Until sure: looking again and again makes no more false claims than one look would, what is chosen is as good as the best
//! but for the margin, and it takes fewer possessions than a plan that cannot stop. On streams of yes and no; nothing is
//! played.
//!
//! What it has caught: a race that was sure of what it had not seen to differ.

use experiments::stats::{
    Against, Better, End, Figure, Generator, Joint, Look, Place, Race, Totals, UntilSure, simultaneous,
    wilson_interval,
};
use rayon::prelude::*;

use crate::looks::Z_3_ERRORS;
use crate::studied;
use crate::support::text_of;

const STUDY: &str = "experiments/studies/until-sure.md";
const AROUND: [&str; 2] = ["## The table\n", "## What it says\n"];

/// Variants of a race.
const VARIANTS: usize = 13;
type Chances = [f64; VARIANTS];
/// What each of them is to reach.
const CONFIDENCE: f64 = 0.95;
/// The chance of a yes where nothing differs.
const USUAL: f64 = 0.35;

/// How far variants are apart.
#[derive(Clone, Copy)]
struct Truth {
    words: &'static str,
    /// Of a margin.
    chances: fn(f64) -> Chances,
}

/// All equal; one ahead by the margin, by twice as much; steps of a quarter of it.
const TRUTHS: [Truth; 4] = [
    Truth { words: "all 13 equal", chances: |_| [USUAL; VARIANTS] },
    Truth { words: "one ahead by the margin", chances: one_ahead },
    Truth { words: "one ahead by twice the margin", chances: |margin| one_ahead(2.0 * margin) },
    Truth {
        words: "steps of a quarter of the margin",
        chances: |margin| std::array::from_fn(|v| USUAL + 0.25 * margin * v as f64),
    },
];

fn one_ahead(by: f64) -> Chances {
    std::array::from_fn(|v| if v == 4 { USUAL + by } else { USUAL })
}

/// Sums of chances are that exact.
const ROUNDING: f64 = 1e-12;

/// Possessions of some variants: a draw is shared by all of them with a chance of one half, as pairing does it.
fn stream(random: &mut Generator, chances: &[f64], possessions: u64) -> Totals {
    let mut totals = Totals::new(chances.len(), 1, &[]);
    let mut row = vec![0; chances.len()];
    for _ in 0..possessions {
        let shared = random.uniform();
        for (value, chance) in row.iter_mut().zip(chances) {
            let draw = if random.uniform() < 0.5 { shared } else { random.uniform() };
            *value = i64::from(draw < *chance);
        }
        totals.add(&row);
    }
    totals
}

fn joint(totals: &Totals) -> Option<Joint> {
    Joint::new(totals, Figure::Mean(0), 1.0)
}

/// What a race came to.
struct Run {
    end: Option<End>,
    /// Possessions of all variants together.
    played: u64,
    /// Somebody was dropped who was not behind, or is told to be within the margin and is not.
    says_wrong: bool,
    /// The same with intervals of one comparison and one look.
    would_say_wrong: bool,
    /// The one ahead is the best, or within the margin of it.
    is_good: bool,
}

fn run(truth: Truth, until: UntilSure, seed: u64) -> Run {
    let mut random = Generator::new(seed);
    let chances = (truth.chances)(until.margin);
    let best = chances.iter().copied().fold(0.0, f64::max);
    let mut race = Race::new(VARIANTS, Better::Higher, CONFIDENCE, until);
    let mut played = 0;
    while let Some((left, possessions)) = race.to_play() {
        let own: Vec<f64> = left.iter().map(|v| chances[*v]).collect();
        let many = possessions.end - possessions.start;
        played += many * own.len() as u64;
        race.look(&stream(&mut random, &own, many), joint);
    }
    let ahead = race.ahead().expect("a figure");
    let is_good = best - chances[ahead] <= until.margin + ROUNDING;
    let (mut says_wrong, mut would_say_wrong) = (race.end() == Some(End::Within) && !is_good, false);
    for look in race.taken() {
        let first = look.standings.iter().find(|own| own.place == Place::Ahead).expect("one is ahead");
        for own in look.standings.iter().filter(|own| chances[own.variant] >= chances[first.variant]) {
            says_wrong |= own.place == Place::Dropped;
            let error = (own.behind.high - own.behind.estimate) / look.critical;
            would_say_wrong |= own.behind.estimate + 1.96 * error < 0.0;
        }
    }
    Run { end: race.end(), played, says_wrong, would_say_wrong, is_good }
}

fn runs(truth: Truth, until: UntilSure, many: u64) -> Vec<Run> {
    (0..many).into_par_iter().map(|nth| run(truth, until, 1_000_000 + nth)).collect()
}

/// Possessions of each variant with which a single look has intervals as wide as the margin, for all pairs at once: it, too,
/// ends with one clearly best or with all others within the margin.
fn fixed_plan(margin: f64) -> u64 {
    let sample = joint(&stream(&mut Generator::new(1), &[USUAL; VARIANTS], 1 << 16)).expect("a figure");
    let all = simultaneous(&sample, Against::Leader(Better::Higher), CONFIDENCE, &[]);
    let deviation = all.contrasts.iter().map(|own| own.difference.deviation).fold(0.0, f64::max);
    let reach = all.critical * deviation / margin;
    (reach * reach).ceil() as u64
}

fn share(runs: &[Run], of: impl Fn(&Run) -> bool) -> (u64, u64) {
    (runs.iter().filter(|run| of(run)).count() as u64, runs.len() as u64)
}

fn median(mut values: Vec<u64>) -> f64 {
    values.sort_unstable();
    values[values.len() / 2] as f64
}

#[test]
fn looking_often_makes_no_more_false_claims_than_one_look() {
    let until = UntilSure { margin: 0.04, budget: 4096 };
    let all = runs(TRUTHS[0], until, 100);
    let (wrong, of) = share(&all, |run| run.says_wrong);
    let found = wilson_interval(wrong, of, Z_3_ERRORS).expect("runs");
    assert!(found.low <= 1.0 - CONFIDENCE, "{wrong} of {of} say something wrong");
    let (without, _) = share(&all, |run| run.would_say_wrong);
    assert!(without > of / 2, "{without} of {of}: intervals of single comparisons would have done as well");
}

#[test]
fn what_is_chosen_is_as_good_as_the_best_but_for_the_margin_and_takes_fewer_possessions() {
    let until = UntilSure { margin: 0.04, budget: 4096 };
    let all = runs(TRUTHS[2], until, 60);
    let (good, of) = share(&all, |run| run.is_good);
    let found = wilson_interval(good, of, Z_3_ERRORS).expect("runs");
    assert!(found.high >= CONFIDENCE, "{good} of {of}");
    let fixed = fixed_plan(until.margin) * VARIANTS as u64;
    let played = median(all.iter().map(|run| run.played).collect());
    assert!(played < 0.8 * fixed as f64, "{played} of {fixed}");
    assert!(all.iter().any(|run| run.end == Some(End::Clear)));
}

/// Possessions whose sum is one row of the quick races.
const SUMMED: u64 = 16;

/// A race of two equals with many looks, on sums of possessions: whether it calls one of them better, and whether it would
/// have by intervals of one comparison and one look.
fn many_looks(seed: u64) -> [bool; 2] {
    let until = UntilSure { margin: 0.0, budget: 1 << 17 };
    let mut random = Generator::new(3_000_000 + seed);
    let mut race = Race::new(2, Better::Higher, CONFIDENCE, until);
    let mut rows = 0;
    while race.to_play().is_some() {
        let to = experiments::stats::looks(until.budget)[race.taken().len()] / SUMMED;
        let mut totals = Totals::new(2, 1, &[]);
        for _ in rows..to {
            let shared = random.normal();
            totals.add(&[0; 2].map(|_: i64| 8000 + (1400.0 * (shared + random.normal())) as i64));
        }
        rows = to;
        race.look(&totals, joint);
    }
    let would = |look: &Look| {
        let mut apart = look.standings.iter().map(|own| own.behind);
        apart.any(|own| {
            let error = (own.high - own.estimate) / look.critical;
            own.estimate.abs() > 1.96 * error && error > 0.0
        })
    };
    [race.end() == Some(End::Clear), race.taken().iter().any(would)]
}

#[test]
fn many_looks_at_one_comparison_are_paid_for_and_without_that_this_would_be_seen() {
    const RACES: u64 = 400;
    let all: Vec<[bool; 2]> = (0..RACES).into_par_iter().map(many_looks).collect();
    let [own, without] = [0, 1].map(|which| {
        let wrong = all.iter().filter(|run| run[which]).count() as u64;
        (wrong, wilson_interval(wrong, RACES, Z_3_ERRORS).expect("races"))
    });
    assert!(own.0 > 0 && own.1.low <= 1.0 - CONFIDENCE, "{} of {RACES} call equals apart", own.0);
    assert!(without.1.low > 1.0 - CONFIDENCE, "{} of {RACES}: this could not tell", without.0);
    assert!(own.1.high < without.1.low, "{} and {} of {RACES}", own.0, without.0);
}

/// A race of two that draws two values a possession: the figure is the share of the first in the second, or the mean of the
/// first. Whether it says something wrong: the worse is called best, or the better is told to be within the margin.
fn rare(figure: Figure, better: Better, chances: [[f64; 2]; 2], margin: f64, seed: u64) -> bool {
    let mut random = Generator::new(4_000_000 + seed);
    let mut race = Race::new(2, better, CONFIDENCE, UntilSure { margin, budget: 4096 });
    while let Some((left, possessions)) = race.to_play() {
        let mut totals = Totals::new(left.len(), 2, &[(0, 1)]);
        for _ in possessions {
            let shared = random.uniform();
            let [a, b] = chances.map(|[rate, share]| {
                let happens = shared < rate;
                [happens && random.uniform() < share, happens].map(i64::from)
            });
            totals.add(&[a[0], a[1], b[0], b[1]]);
        }
        race.look(&totals, |totals| Joint::new(totals, figure, 1.0));
    }
    let value = |[rate, share]: [f64; 2]| if figure == Figure::Mean(0) { rate * share } else { share };
    let worth = chances.map(|own| better.turned(value(own)));
    let Some(ahead) = race.ahead() else { return false };
    let loss = worth[1 - ahead] - worth[ahead];
    match race.end() {
        Some(End::Clear) => loss >= 0.0,
        Some(End::Within) => loss > margin,
        _ => false,
    }
}

#[test]
fn what_is_rare_is_not_called_sure_for_want_of_having_been_seen() {
    const RACES: u64 = 300;
    let (mean, share) = (Figure::Mean(0), Figure::Ratio(0));
    // Where nothing was seen the first is ahead, which here is the worse.
    for (figure, better, chances, margin, words) in [
        (mean, Better::Higher, [[0.0, 1.0], [0.0015, 1.0]], 0.001, "a difference in three of two thousand"),
        (mean, Better::Lower, [[0.0035, 1.0], [0.002, 1.0]], 0.001, "less is better"),
        (mean, Better::Higher, [[0.001, 1.0], [0.004, 1.0]], 0.0025, "a flag in few possessions"),
        (share, Better::Higher, [[0.002, 0.5], [0.002, 0.5]], 0.05, "shares of two"),
        (share, Better::Lower, [[0.02, 0.9], [0.02, 0.9]], 0.05, "shares of twenty, near one end"),
    ] {
        let run = |seed| rare(figure, better, chances, margin, seed);
        let wrong = (0..RACES).into_par_iter().filter(|seed| run(*seed)).count() as u64;
        let found = wilson_interval(wrong, RACES, Z_3_ERRORS).expect("races");
        assert!(found.low <= 1.0 - CONFIDENCE, "{words}: {wrong} of {RACES} say something wrong");
    }
}

#[test]
#[ignore = "draws two billion values; writes the table of experiments/studies/until-sure.md"]
fn study_of_false_claims_choice_and_saving() {
    let until = UntilSure { margin: 0.02, budget: 1 << 14 };
    let fixed = fixed_plan(until.margin) * VARIANTS as u64;
    let mut table = format!(
        "\nFixed plan: {} possessions of each, {fixed} in all.\n\n\
         | truth | runs | say something wrong | would without | good choice | clear | within | budget | median saving |\n\
         | --- | --- | --- | --- | --- | --- | --- | --- | --- |\n",
        fixed / VARIANTS as u64
    );
    let mut broken = Vec::new();
    for truth in TRUTHS {
        let all = runs(truth, until, 2000);
        let percent = |of: &dyn Fn(&Run) -> bool| {
            let (some, many) = share(&all, of);
            format!("{:.2} %", 100.0 * some as f64 / many as f64)
        };
        let ended = |end: End| percent(&|run| run.end == Some(end));
        let saved = 1.0 - median(all.iter().map(|run| run.played).collect()) / fixed as f64;
        let row = format!(
            "| {} | {} | {} | {} | {} | {} | {} | {} | {:.0} % |\n",
            truth.words,
            all.len(),
            percent(&|run| run.says_wrong),
            percent(&|run| run.would_say_wrong),
            percent(&|run| run.is_good),
            ended(End::Clear),
            ended(End::Within),
            ended(End::Budget),
            100.0 * saved
        );
        print!("{row}");
        table += &row;
        let wrong = share(&all, |run| run.says_wrong);
        let two_errors = 2.0 * (0.05_f64 * 0.95 / all.len() as f64).sqrt();
        let good = share(&all, |run| run.is_good);
        if wrong.0 as f64 / wrong.1 as f64 > 0.05 + two_errors || (good.0 as f64 / good.1 as f64) < 0.95 {
            broken.push((truth.words, wrong, good));
        }
    }
    studied::write_tables(STUDY, AROUND, &table);
    assert!(broken.is_empty(), "{broken:?}");
}

#[test]
fn the_study_is_of_these_truths() {
    let text = text_of(STUDY);
    let told = text.lines().filter_map(|line| line.strip_prefix("| ")?.split(" | 2000 | ").next());
    let told: Vec<&str> = told.filter(|words| TRUTHS.iter().any(|truth| truth.words == *words)).collect();
    assert_eq!(told, TRUTHS.map(|truth| truth.words));
}
