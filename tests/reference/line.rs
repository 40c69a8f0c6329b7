//! A line: a rate of possessions, the band of each level of play that it is to lie in, and what it comes to.

use std::sync::Arc;

use engine::setup::Setup;
use engine::{Measure, PossessionRecord};
use serde::Deserialize;

use crate::looks::{Seen, Z_3_ERRORS};
use crate::support::{loaded, over, question, records};
use crate::trade::estimate::{Estimate, Series, combination, ratio};

/// The scenarios, possessions and lines of `outcomes.toml`.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub struct File {
    /// Scenarios that the rates are a mean over, each with every route of the bundled question.
    pub scenarios: Vec<String>,
    /// Seed of all possessions.
    pub seed: u64,
    /// Possessions of each scenario and route.
    pub possessions: u64,
    /// The lines.
    pub line: Vec<Line>,
}

/// One rate: the sum of some measures over the sum of others, or over the possessions; or what is watched on films.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Line {
    /// What it is, in words.
    pub what: String,
    #[serde(default)]
    above: Vec<String>,
    #[serde(default)]
    below: Vec<String>,
    /// A possession counts as one where the sum of the measures is more than nothing.
    #[serde(default)]
    any: bool,
    /// Another rate, which is taken off.
    less: Option<Other>,
    /// Only these routes; all where none is named.
    #[serde(default)]
    routes: Vec<String>,
    /// What the route with most has more than the one with least.
    #[serde(default)]
    spread: bool,
    /// No measure, but this look at films (`tests/checklist/watched.rs`).
    pub watched: Option<String>,
    /// No measure, but the rises of the level's continuation values (`tests/checklist/continuation.rs`).
    #[serde(default)]
    pub continuation: bool,
    high_school: [f64; 2],
    college: [f64; 2],
    /// One on which a value may be fitted, or that hangs on such a value.
    #[serde(default)]
    pub target: bool,
    /// Without a published source: shown, not demanded.
    #[serde(default)]
    pub memory: bool,
    /// Where the bands come from.
    pub source: String,
    #[serde(default)]
    off: Off,
}

/// A rate that is taken off another.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Other {
    above: Vec<String>,
    below: Vec<String>,
}

/// Why a level lies outside.
#[derive(Default, Deserialize)]
#[serde(deny_unknown_fields)]
struct Off {
    high_school: Option<String>,
    college: Option<String>,
}

/// A level of play as the scenarios have it: what is set over them.
pub struct Level {
    /// Its name in tables.
    pub name: &'static str,
    /// Overrides by dotted path.
    pub set: &'static [(&'static str, &'static str)],
    /// The band of a line.
    pub band: fn(&Line) -> [f64; 2],
    /// Why a line lies outside.
    pub off: fn(&Line) -> Option<&str>,
}

/// The levels that lines have bands for.
pub const LEVELS: [Level; 2] = [
    Level {
        name: "high school",
        set: &[],
        band: |line| line.high_school,
        off: |line| line.off.high_school.as_deref(),
    },
    Level {
        name: "college",
        set: &[
            ("rules", "\"us-college-men\""),
            ("clock.shot_clock_s", "30.0"),
            ("level.attack", "\"college\""),
            ("level.defence", "\"college\""),
        ],
        band: |line| line.college,
        off: |line| line.off.college.as_deref(),
    },
];

/// A scenario with a route of the bundled question, as a level has it, and the records that were played of it, in order of
/// possession.
pub struct Matchup {
    /// The route's name.
    pub route: String,
    /// What is played.
    pub setup: Arc<Setup>,
    records: Vec<PossessionRecord>,
}

impl Matchup {
    /// One of which nothing has been played.
    pub fn of(route: &str, setup: Arc<Setup>) -> Self {
        Self { route: route.into(), setup, records: Vec::new() }
    }
}

/// Plays so many possessions of every scenario and route.
pub fn played(file: &File, level: &Level, possessions: u64) -> Vec<Matchup> {
    let routes: Vec<String> = question().variants.into_iter().map(|variant| variant.name).collect();
    let matchups =
        file.scenarios.iter().flat_map(|scenario| routes.iter().map(move |route| (scenario, route)));
    let play = |(scenario, route): (&String, &String)| {
        let quoted = format!("{route:?}");
        let set = level.set.iter().copied().chain([("attack.rover.route", quoted.as_str())]);
        let setup = loaded(over(scenario, set));
        let records = records(&setup, file.seed, possessions);
        Matchup { records, ..Matchup::of(route, setup) }
    };
    matchups.map(play).collect()
}

/// What is added, or taken off.
struct Term(f64, Counted);

/// What a possession counts.
enum Counted {
    /// Itself.
    One,
    /// What had run off the shot clock as the attack was set, s: sources count from gaining the ball.
    ClockUsed,
    /// A measure.
    By(Measure),
}

impl Term {
    /// By its name in files, with `-` before it where it is taken off; `possession` is one of each, `clock_used` what had run off the
    /// shot clock before it.
    fn of(name: &str) -> Self {
        let (sign, key) = name.strip_prefix('-').map_or((1.0, name), |key| (-1.0, key));
        let counted = match key {
            "possession" => Counted::One,
            "clock_used" => Counted::ClockUsed,
            _ => {
                let measure = Measure::ALL.iter().copied().find(|measure| measure.key() == key);
                Counted::By(measure.unwrap_or_else(|| panic!("no measure {key}")))
            }
        };
        Self(sign, counted)
    }

    fn value(&self, setup: &Setup, record: &PossessionRecord) -> f64 {
        self.0
            * match self.1 {
                Counted::One => 1.0,
                Counted::ClockUsed => f64::from(setup.officials.clock_used_s),
                Counted::By(measure) => record.real(measure),
            }
    }
}

/// One sum of measures over another, by possession. Matchups of one possession share their luck, so they are counted as one.
fn series(matchups: &[&Matchup], above: &[String], below: &[String], any: bool) -> Series {
    let terms = |names: &[String]| names.iter().map(|name| Term::of(name)).collect::<Vec<_>>();
    let (above, below) = (terms(above), terms(below));
    let sum = |terms: &[Term], matchup: &Matchup, record| {
        terms.iter().map(|term| term.value(&matchup.setup, record)).sum::<f64>()
    };
    let each = |possession: usize| {
        matchups.iter().fold((0.0, 0.0), |so_far: (f64, f64), matchup| {
            let record = &matchup.records[possession];
            let over = sum(&above, matchup, record);
            let over = if any { f64::from(u8::from(over > 0.0)) } else { over };
            let under = if below.is_empty() { 1.0 } else { sum(&below, matchup, record) };
            (so_far.0 + over, so_far.1 + under)
        })
    };
    (0..matchups[0].records.len()).map(each).collect()
}

impl Line {
    /// It is a rate of measures, not something watched.
    pub fn is_measured(&self) -> bool {
        !self.above.is_empty()
    }

    /// The rate over all matchups that it asks for.
    pub fn rate(&self, played: &[Matchup]) -> Estimate {
        let asked = |matchup: &&Matchup| self.routes.is_empty() || self.routes.contains(&matchup.route);
        let matchups: Vec<&Matchup> = played.iter().filter(asked).collect();
        if self.spread {
            return self.spread_over_routes(&matchups);
        }
        let own = series(&matchups, &self.above, &self.below, self.any);
        match &self.less {
            None => combination(&[(1.0, &own)]),
            Some(less) => {
                combination(&[(1.0, &own), (-1.0, &series(&matchups, &less.above, &less.below, false))])
            }
        }
    }

    /// The route with most less the one with least. Each half of the possessions says which two they are for the other half, on
    /// which it is measured how far they lie apart: that some route comes out on top by luck alone makes it no larger.
    fn spread_over_routes(&self, matchups: &[&Matchup]) -> Estimate {
        let mut routes: Vec<&str> = matchups.iter().map(|matchup| matchup.route.as_str()).collect();
        routes.sort_unstable();
        routes.dedup();
        let halves = routes.into_iter().map(|route| {
            let own: Vec<&Matchup> =
                matchups.iter().copied().filter(|matchup| matchup.route == route).collect();
            let whole = series(&own, &self.above, &self.below, self.any);
            [0, 1].map(|odd| whole.iter().copied().skip(odd).step_by(2).collect::<Series>())
        });
        let mut halves: Vec<[Series; 2]> = halves.collect();
        let [one, other] = [0, 1].map(|chooses| {
            halves.sort_by(|a, b| ratio(&a[chooses]).total_cmp(&ratio(&b[chooses])));
            let measured = 1 - chooses;
            combination(&[(1.0, &halves[halves.len() - 1][measured]), (-1.0, &halves[0][measured])])
        });
        // No possession is in both.
        let error = 0.5 * (one.error * one.error + other.error * other.error).sqrt();
        Estimate { value: 0.5 * (one.value + other.value), error }
    }

    /// What is seen of it at a level, by an interval of three standard errors over two looks.
    pub fn seen(&self, level: &Level, rate: Estimate) -> Seen {
        // A share that came out all or nothing has no width by the delta method, however few were counted.
        if rate.error == 0.0 && !self.continuation {
            return Seen::Open;
        }
        let [low, high] = (level.band)(self);
        // A rate cannot lie below 0, but its interval can.
        let low = if low == 0.0 { f64::NEG_INFINITY } else { low };
        Seen::within(rate.interval(Z_3_ERRORS), low, high)
    }

    /// What is wrong where it lies outside and no reason is given, or inside by now though one is.
    pub fn wrong(&self, level: &Level, rate: Estimate) -> Option<String> {
        let told = format!(
            "{}, {}: {:.3} +- {:.3}, band {:?} ({})",
            self.what,
            level.name,
            rate.value,
            Z_3_ERRORS * rate.error,
            (level.band)(self),
            self.source
        );
        match (self.seen(level, rate), (level.off)(self)) {
            (Seen::Refuted, None) => Some(format!("outside: {told}")),
            (Seen::Shown, Some(reason)) => Some(format!("inside by now: {told}; said was: {reason}")),
            _ => None,
        }
    }
}

#[test]
fn each_half_names_the_two_routes_between_which_the_other_measures_the_spread() {
    let line = |text: &str| toml::from_str::<Line>(text).expect("a line");
    let head = "what = \"seconds\"\nsource = \"none\"\nhigh_school = [0.0, inf]\ncollege = [0.0, inf]\n";
    let spread = line(&format!("{head}above = [\"seconds_used\"]\nspread = true\n"));
    let file = File {
        scenarios: vec![String::from("sunken-122")],
        seed: 5,
        possessions: 64,
        line: vec![line(&format!("{head}above = [\"possession\", \"-possession\", \"passes\"]\n"))],
    };
    let played = played(&file, &LEVELS[0], file.possessions);
    let means = |odd: usize| {
        let mean = |matchup: &Matchup| {
            let own = matchup.records.iter().skip(odd).step_by(2);
            own.map(|record| record.real(Measure::SecondsUsed)).sum::<f64>() / 32.0
        };
        played.iter().map(mean).collect::<Vec<f64>>()
    };
    let halves = [means(0), means(1)];
    let apart = |choose: &[f64], measure: &[f64]| {
        let mut order: Vec<usize> = (0..choose.len()).collect();
        order.sort_by(|a, b| choose[*a].total_cmp(&choose[*b]));
        measure[order[order.len() - 1]] - measure[order[0]]
    };
    let expected = 0.5 * (apart(&halves[0], &halves[1]) + apart(&halves[1], &halves[0]));
    let found = spread.rate(&played).value;
    assert!((found - expected).abs() < 1e-9, "{found}, not {expected}");
    // What is taken off is taken off, and nothing else.
    let passes: f64 =
        played.iter().flat_map(|matchup| &matchup.records).map(|record| record.real(Measure::Passes)).sum();
    assert!((file.line[0].rate(&played).value - passes / (7.0 * 64.0)).abs() < 1e-9);
}
