//! What a comparison comes to: best by the question's own measure, best by net points, and the gap between the two; what
//! is met rather than chosen; and how often each was really run.
//!
//! It is made once from a comparison and kept as `verdict.json`. Terminal, report, sheet and cards take their claims from
//! it and from nothing else, so that they cannot contradict one another.

mod chosen;
mod differ;
mod plays;
mod words;

use engine::setup::{ProgramKind, RoleSet};
use scenarios::{Experiment, Variant};
use serde::{Deserialize, Deserializer, Serialize, Serializer};

pub use differ::{Differ, Met, is_choice, met, taught};
pub use plays::{Play, plays};
pub(crate) use words::few;

use crate::columns::{CONFIDENCE, Column};
use crate::compare::Comparison;
use crate::duties::roles;
use crate::places::{Often, Runs};
use crate::selection::Selection;
use crate::stats::normal::two_sided_z;
use crate::stats::{Interval, Totals};
use crate::units::Units;

/// Name of its file.
pub const VERDICT: &str = "verdict.json";

/// The column of the second headline: what is left of points once the break is paid for.
pub const NET: &str = "expected_net_points";

/// What a comparison comes to.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Verdict {
    /// What differs between the variants: `route`, `attack`.
    pub noun: String,
    /// Whether that is chosen or met.
    pub differ: Differ,
    /// The variant with which all are compared.
    pub baseline: String,
    /// Best by the question's own measure, then by net points where that is another; empty without data.
    pub headlines: Vec<Headline>,
    /// The leader by net points less the one by the question's measure, on both, where they are two.
    pub gap: Vec<Gap>,
    /// How far the first by the question's measure is from the one compared with, and from the second; empty in a verdict that
    /// was kept before there was any.
    #[serde(default)]
    pub leads: Vec<Lead>,
    /// The best for each setting, where settings and choices differ.
    pub under: Vec<Under>,
    /// What each variant is and how often it was run, best by the question's measure first.
    pub variants: Vec<Ran>,
    /// How they were chosen, where it was played until sure.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub selection: Option<Selection>,
}

/// Who is best by a measure.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Headline {
    /// The measure.
    #[serde(serialize_with = "as_key", deserialize_with = "from_key", rename = "measure")]
    pub column: &'static Column,
    /// Who leads, named by what may be chosen.
    pub leader: String,
    /// The variant that this is.
    pub variant: String,
    /// Its figure, with an interval by itself.
    pub figure: Interval,
    /// Variants too close to it to call, best first.
    pub tied: Vec<String>,
    /// Variants that it was compared with.
    pub rivals: usize,
}

/// A difference between the two leaders.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Gap {
    /// The measure.
    #[serde(serialize_with = "as_key", deserialize_with = "from_key", rename = "measure")]
    pub column: &'static Column,
    /// The difference, with the interval that holds for all pairs.
    pub by: Interval,
}

/// How far the first is ahead, by the question's own measure.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Lead {
    /// Of whom.
    pub over: String,
    /// By how much, with the interval that holds for all comparisons at once.
    pub by: Interval,
}

/// The best for one setting.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Under {
    /// What is met, as a clause.
    pub setting: String,
    /// As the headlines, among the variants that meet it; named by what they teach.
    pub headlines: Vec<Headline>,
}

/// A variant as it was run.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Ran {
    /// The variant.
    pub variant: String,
    /// What it is, in the words of the files that it names; empty where it names none.
    pub words: String,
    /// Name of the picture of its way; empty where none was drawn.
    pub picture: String,
    /// How often its route or option was run; None where it has nothing to run.
    pub often: Option<Often>,
    /// Who may run it: `the rover`, `a post`; empty where it has nothing to run.
    pub runner: String,
}

impl Verdict {
    /// Of a comparison and the same ranked by net points.
    pub fn new(comparison: &Comparison, by_net: &Comparison) -> Self {
        let question = &comparison.question;
        let own = Headline::of(comparison);
        let net = Headline::of(by_net).filter(|_| question.rank_by.key != NET);
        let (first, second) = (comparison.leader(), by_net.leader());
        let both = own.is_some() && net.is_some() && first != second;
        let gaps = [
            gap(comparison, second, first).filter(|_| both),
            gap(by_net, first, second).filter(|_| both).map(|gap| Gap { by: gap.by.turned(), ..gap }),
        ];
        let ran = |&v: &usize| Ran {
            variant: question.variants[v].clone(),
            words: String::new(),
            picture: String::new(),
            often: None,
            runner: String::new(),
        };
        Self {
            noun: question.noun.to_owned(),
            differ: question.differ,
            baseline: question.variants[question.baseline].clone(),
            headlines: own.into_iter().chain(net).collect(),
            gap: gaps.into_iter().flatten().collect(),
            leads: leads(comparison),
            under: Vec::new(),
            variants: comparison.order.iter().map(ran).collect(),
            selection: None,
        }
    }

    /// With the best for each setting, where choices and settings differ; named by the setting where only that differs.
    pub fn by_setting(mut self, experiment: &Experiment, totals: &Totals, rank_by: &'static Column) -> Self {
        let met = met(experiment);
        if self.differ == Differ::Settings {
            self.headlines.iter_mut().for_each(|own| own.name_by(&met, experiment));
        }
        if self.differ != Differ::Both {
            return self;
        }
        let net = Column::named(NET).filter(|net| net.key != rank_by.key);
        let pairs: usize = met.iter().map(|met| met.variants.len() * (met.variants.len() - 1) / 2).sum();
        let z = two_sided_z(1.0 - (1.0 - CONFIDENCE) / pairs.max(1) as f64);
        let name = |v: usize| (taught(experiment, v), experiment.variants[v].name.clone());
        let names: Vec<(String, String)> = (0..experiment.variants.len()).map(name).collect();
        let under = |met: Met| Under {
            headlines: std::iter::once(rank_by)
                .chain(net)
                .filter_map(|column| Headline::among(&met.variants, &names, (column, totals, z)))
                .collect(),
            setting: met.words,
        };
        self.under = met.into_iter().map(under).collect();
        self
    }

    /// With what each variant is and how often that was run, both in plan order.
    pub fn as_run(mut self, experiment: &Experiment, runs: &[Runs]) -> Self {
        for (v, (variant, runs)) in experiment.variants.iter().zip(runs).enumerate() {
            let Some(own) = self.variants.iter_mut().find(|own| own.variant == variant.name) else {
                continue;
            };
            let lines: Vec<String> = plays(experiment, variant).into_iter().map(|play| play.line).collect();
            own.words = lines.join("; ");
            own.picture = way_picture(v);
            let kind = run_kind(experiment, runs);
            own.often = runs.of_kind(kind);
            own.runner = own.often.map_or_else(String::new, |_| runner(variant, kind));
        }
        self
    }

    /// With what is met told in these units; a verdict is kept in metres.
    #[must_use]
    pub fn told_in(mut self, units: Units) -> Self {
        let retell = |words: &mut String| *words = units.retold(words).into_owned();
        self.under.iter_mut().for_each(|under| retell(&mut under.setting));
        // Elsewhere these are names, which are told as they are written.
        if self.differ == Differ::Settings {
            let named =
                |own: &mut Headline| std::iter::once(&mut own.leader).chain(&mut own.tied).for_each(retell);
            self.headlines.iter_mut().for_each(named);
        }
        self.variants.iter_mut().for_each(|ran| retell(&mut ran.words));
        self
    }

    /// The leaders: by the question's own measure, then by net points if that is another.
    pub fn leaders(&self) -> Vec<&str> {
        let mut leaders: Vec<&str> = self.headlines.iter().map(|headline| headline.leader.as_str()).collect();
        leaders.dedup();
        leaders
    }

    /// Those that the advice names: the leaders, and where it is a toss-up between them whoever may be first by both. Of a
    /// choice those that it names.
    pub fn advised_of(&self) -> Vec<&str> {
        if let Some(choice) = self.decided() {
            return Self::advised_by(choice);
        }
        let mut named = self.leaders();
        let both = self.contenders_by_all();
        if named.len() == 1 || named.iter().any(|own| both.contains(own)) {
            let others: Vec<&str> = both.into_iter().filter(|own| !named.contains(own)).collect();
            named.extend(others);
        }
        named
    }

    /// Those of whom the advice leaves it to the coach which he runs: all that a choice has left, or those in contention by every
    /// measure.
    pub fn left_to_choose(&self) -> Vec<&str> {
        self.decided().map_or_else(|| self.contenders_by_all(), Self::advised_by)
    }

    /// The variant that is drawn first and put on cards: of a choice the one ahead, else the leader by the question's
    /// measure, or the one by net points where only that one is in contention by both.
    pub fn main(&self) -> Option<&str> {
        let [first, second] = match (self.decided(), self.headlines.as_slice()) {
            (Some(choice), _) => return Some(&choice.ahead),
            (None, [first, second]) => [first, second],
            (None, all) => return all.first().map(|own| own.variant.as_str()),
        };
        let in_both = first.has(&second.leader) && !second.has(&first.leader);
        Some(if in_both { &second.variant } else { &first.variant })
    }

    /// The headline by net points.
    pub fn net(&self) -> Option<&Headline> {
        self.headlines.iter().find(|headline| headline.column.key == NET)
    }

    /// A variant as it was run.
    pub fn ran(&self, variant: &str) -> Option<&Ran> {
        self.variants.iter().find(|own| own.variant == variant)
    }
}

/// Name of the picture of what a variant runs, by its place in the plan.
pub fn way_picture(variant: usize) -> String {
    format!("play-{}", variant + 1)
}

/// What is counted as the run of a variant: what the variants differ in, else the route, else the set.
pub fn run_kind(experiment: &Experiment, runs: &Runs) -> ProgramKind {
    let differs = |start: &str| {
        let mut choices = experiment.varied.iter().filter(|path| differ::is_choice(path)).peekable();
        choices.peek().is_some() && choices.all(|path| path.starts_with(start))
    };
    if differs("attack.posts.options") {
        ProgramKind::PostOption
    } else if differs("attack.guards.options") {
        ProgramKind::GuardOption
    } else if differs("attack.rover.route") || runs.of_kind(ProgramKind::Route).is_some() {
        ProgramKind::Route
    } else {
        ProgramKind::Set
    }
}

/// Who may run what a variant has of a kind.
fn runner(variant: &Variant, kind: ProgramKind) -> String {
    let own = variant.setup.attack.programs.iter().filter(|program| program.kind == kind);
    roles(RoleSet(own.fold(0, |all, program| all | program.who.0)))
}

impl Headline {
    /// Of a ranked comparison; None without data.
    fn of(comparison: &Comparison) -> Option<Self> {
        let (question, leader) = (&comparison.question, comparison.leader());
        let name = |v: &usize| question.variants[*v].clone();
        let is_tied = |v: &&usize| {
            **v != leader && comparison.claims.as_ref().is_none_or(|claims| claims.leaders.contains(v))
        };
        Some(Self {
            column: question.rank_by,
            leader: name(&leader),
            variant: name(&leader),
            figure: comparison.figure(leader, question.rank_by)?,
            tied: comparison.order.iter().filter(is_tied).map(name).collect(),
            rivals: question.variants.len() - 1,
        })
    }

    /// Of some variants, each named by what is taught and in full; the intervals reach `z` standard errors. None without
    /// data.
    fn among(
        variants: &[usize],
        names: &[(String, String)],
        (column, totals, z): (&'static Column, &Totals, f64),
    ) -> Option<Self> {
        let figure = |v: usize| column.interval(totals, v, two_sided_z(CONFIDENCE));
        let turned = |v: usize| {
            let estimate =
                figure(v).map_or(f64::NEG_INFINITY, |figure| column.better.turned(figure.estimate));
            estimate + 0.0
        };
        let mut order = variants.to_vec();
        order.sort_by(|&a, &b| turned(b).total_cmp(&turned(a)));
        let (&leader, others) = order.split_first()?;
        let is_tied = |v: &&usize| {
            let gap = column.difference(totals, leader, **v, z);
            gap.is_none_or(|gap| gap.interval.contains(0.0))
        };
        Some(Self {
            column,
            leader: names[leader].0.clone(),
            variant: names[leader].1.clone(),
            figure: figure(leader)?,
            tied: others.iter().filter(is_tied).map(|&v| names[v].0.clone()).collect(),
            rivals: others.len(),
        })
    }

    /// Names variants by what is met there.
    fn name_by(&mut self, met: &[Met], experiment: &Experiment) {
        let is_own =
            |met: &&Met, name: &str| met.variants.iter().any(|&v| experiment.variants[v].name == name);
        for name in std::iter::once(&mut self.leader).chain(&mut self.tied) {
            if let Some(met) = met.iter().find(|met| is_own(met, name)) {
                name.clone_from(&met.words);
            }
        }
    }

    /// Whether this one leads, or is too close to the leader to call.
    pub fn has(&self, variant: &str) -> bool {
        self.leader == variant || self.tied.iter().any(|own| own == variant)
    }

    /// Those in contention, best first.
    pub fn contenders(&self) -> impl Iterator<Item = &str> {
        std::iter::once(&self.leader).chain(&self.tied).map(String::as_str)
    }

    /// Whether the leader is told from every other.
    pub fn is_clear(&self) -> bool {
        self.rivals > 0 && self.tied.is_empty()
    }
}

/// One variant less the leader of a comparison, by its ranking column.
fn gap(comparison: &Comparison, variant: usize, leader: usize) -> Option<Gap> {
    let column = comparison.question.rank_by;
    let contrast = comparison.contrast(variant, leader, column)?;
    Some(Gap { column, by: contrast.together.unwrap_or(contrast.difference.interval) })
}

/// How far the first is from the one compared with, then from the second where that is another. Where the one compared with is the
/// second, the interval is that of the claim, which holds for all pairs, so that one difference has one interval.
fn leads(comparison: &Comparison) -> Vec<Lead> {
    let question = &comparison.question;
    let (column, first, baseline) = (question.rank_by, comparison.leader(), question.baseline);
    let together =
        |contrast: &crate::compare::Contrasted| contrast.together.unwrap_or(contrast.difference.interval);
    let over = |v: usize, by: Interval| Lead { over: question.variants[v].clone(), by };
    if comparison.figure(first, column).is_none() {
        return Vec::new();
    }
    let of_pairs = |v: usize| Some(over(v, together(comparison.contrast(v, first, column)?).turned()));
    let second = comparison.order.get(1).copied();
    let to_baseline = match second {
        _ if first == baseline => None,
        Some(second) if second == baseline => of_pairs(second),
        _ => comparison.contrast(first, baseline, column).map(|own| over(baseline, together(own))),
    };
    let others = second.filter(|second| *second != baseline).and_then(of_pairs);
    to_baseline.into_iter().chain(others).collect()
}

fn as_key<S: Serializer>(column: &&'static Column, serializer: S) -> Result<S::Ok, S::Error> {
    serializer.serialize_str(column.key)
}

fn from_key<'de, D: Deserializer<'de>>(deserializer: D) -> Result<&'static Column, D::Error> {
    let key = String::deserialize(deserializer)?;
    Column::named(&key).ok_or_else(|| serde::de::Error::custom(format!("no measure is called {key}")))
}

#[cfg(test)]
pub(crate) mod tests {
    use super::*;
    use crate::compare::tests::sampled;

    /// A comparison of made-up records with its verdict.
    pub(crate) fn judged(variants: &[&str], possessions: u64, rank_by: &str) -> (Comparison, Verdict) {
        let both = sampled(variants, possessions, [rank_by, NET]);
        let verdict = Verdict::new(&both[0], &both[1]);
        (both.into_iter().next().unwrap(), verdict)
    }

    #[test]
    fn a_verdict_is_kept_as_text_and_a_measure_that_nobody_knows_is_refused() {
        let (_, verdict) = judged(&["a", "b", "c"], 300, "turnover_rate");
        assert_eq!((verdict.headlines.len(), verdict.gap.len()), (2, 2), "{verdict:?}");
        let text = serde_json::to_string(&verdict).unwrap();
        let again: Verdict = serde_json::from_str(&text).unwrap();
        assert_eq!(again.claims(), verdict.claims());
        let odd = text.replace("turnover_rate", "nonsense");
        assert!(serde_json::from_str::<Verdict>(&odd).unwrap_err().to_string().contains("nonsense"));
    }

    #[test]
    fn what_is_too_close_to_call_by_one_measure_is_not_advised_alone_where_another_is_as_good_by_both() {
        let (_, mut verdict) = judged(&["a", "b", "c", "d"], 300, "good_look_rate");
        let mut told = |[first, second]: [(&str, &[&str]); 2], baseline: &str| {
            verdict.baseline = baseline.into();
            for (own, (leader, tied)) in verdict.headlines.iter_mut().zip([first, second]) {
                (own.leader, own.variant) = (leader.into(), leader.into());
                own.tied = tied.iter().map(|name| (*name).to_owned()).collect();
            }
            let advised: Vec<String> = verdict.advised_of().into_iter().map(str::to_owned).collect();
            (verdict.advised().unwrap(), advised)
        };
        // `a` leads by good looks, `d` by net points; `b` is as good as `a` by both.
        let (words, advised) = told([("a", &["b"][..]), ("d", &["a", "b", "c"][..])], "c");
        assert!(
            words.starts_with("A toss-up between a and b: keep to what your players run best."),
            "{words}"
        );
        assert!(words.contains(": clearly behind a in good looks alone."), "{words}");
        assert_eq!(advised, ["a", "d", "b"]);
        let (words, _) = told([("a", &["b"][..]), ("d", &["a", "b", "c"][..])], "b");
        assert!(words.starts_with("No route is clearly better than b"), "{words}");
        let (words, _) = told([("a", &["b"][..]), ("d", &["a", "b", "c"][..])], "a");
        assert!(words.starts_with("No route is clearly better than a: keep to what"), "{words}");
        let (words, _) = told([("a", &["b"][..]), ("d", &["a", "c"][..])], "c");
        assert_eq!(words, "Run a: by expected net points it is not clearly behind.");
        let (words, _) = told([("a", &["d"][..]), ("d", &["a"][..])], "c");
        assert_eq!(words, "Run a or d, whichever your players run better.");
        let (words, _) = told([("a", &["d", "b"][..]), ("d", &["a", "b"][..])], "c");
        assert!(words.starts_with("A toss-up between a, d and b: keep to"), "{words}");
        let (words, _) = told([("a", &[][..]), ("d", &[][..])], "c");
        assert_eq!(words, "Run a for good looks, or d for expected net points.");
    }

    #[test]
    fn it_is_said_plainly_that_to_run_nothing_is_as_good_and_behind_whom_the_others_are() {
        let (_, mut verdict) = judged(&["a", "b", "c"], 300, "good_look_rate");
        verdict.baseline = "b".into();
        for own in &mut verdict.headlines {
            (own.leader, own.variant, own.tied) = ("a".into(), "a".into(), vec!["b".into()]);
        }
        let plain = "b, in which no route is run, is as good in good looks and expected net points, as far as can be told.";
        assert!(!verdict.advised().unwrap().contains(plain), "nothing is known to be run");
        let ran = Some(Often { possessions: 10, started: 9, carried_through: 5, fed: 4 });
        verdict.variants.iter_mut().filter(|own| own.variant != "b").for_each(|own| own.often = ran);
        assert!(verdict.advised().unwrap().contains(plain), "{:?}", verdict.advised());
        assert_eq!(verdict.behind_what("c"), "a in good looks and expected net points");
        assert_eq!(verdict.behind_what("b"), "");
        verdict.headlines[1].leader = "b".into();
        assert_eq!(verdict.behind_what("c"), "a in good looks and b in expected net points");
        verdict.variants.iter_mut().for_each(|own| own.often = ran);
        assert!(!verdict.advised().unwrap().contains("is as good"), "each of them runs something");
    }

    #[test]
    fn what_hardly_ran_is_said_to_have_hardly_run() {
        let (_, mut verdict) = judged(&["a", "b"], 300, NET);
        let often = |carried_through| Often { possessions: 100, started: 90, carried_through, fed: 10 };
        let leader = verdict.leaders()[0].to_owned();
        let mut told = |started| {
            let own = verdict.variants.iter_mut().find(|own| own.variant == leader).unwrap();
            (own.often, own.runner) = (Some(often(started)), "a post".into());
            (own.cell(), verdict.runs().join(" "))
        };
        let (cell, words) = told(60);
        assert_eq!(
            (cell.as_str(), words.as_str()),
            (
                "18/12/2",
                "In 20 possessions b was begun in 18 and run to its end in 12; in 2 its runner, a post, caught the ball on it, which can be before the end."
            )
        );
        let (_, words) = told(28);
        let plain = "b came first by expected net points, but it was run to its end in only 6 of 20 possessions (begun in \
                     18; in 2 its runner, a post, caught the ball on it, which can be before the end)";
        assert!(words.starts_with(plain) && words.ends_with("is mostly the attack around it."), "{words}");
    }
}
