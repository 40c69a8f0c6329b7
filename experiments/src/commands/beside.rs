//! What of a comparison is judged and played besides it: the verdict, what was run, and the zone's answers.

use scenarios::{Experiment, Variant};

use super::plan::Again;
use crate::arena::EnginePlayer;
use crate::cli::RunOptions;
use crate::columns::ratios;
use crate::compare::Comparison;
use crate::error::Error;
use crate::places::{
    AnswersTable, Beside, Field, MOST_ANSWERED, MOST_OF_MANY, MOST_OF_OPTIONS, MOST_POSSESSIONS,
    MOST_WATCHED, answered, choices, runs,
};
use crate::progress::Progress;
use crate::run::{FIRST, Plan, Played, run};
use crate::sheet;
use crate::stats::LARGEST_VARIANTS;
use crate::units::Units;
use crate::verdict::{Differ, Verdict};

/// The keys of options.
const OPTIONS: [&str; 2] = ["attack.posts.options", "attack.guards.options"];

/// What is judged and played besides the comparison.
pub(super) fn beside(
    command: &str,
    experiment: &Experiment,
    (comparison, played): (&Comparison, &Played),
    options: &RunOptions,
) -> Result<Beside, Error> {
    let by_net = sheet::by_net(&comparison.question, &played.totals);
    let setups: Vec<_> = experiment.variants.iter().map(|variant| variant.setup.clone()).collect();
    let runs = runs(&setups, options.seed, comparison.possessions.min(FIRST), options.threads)?;
    let verdict = Verdict::new(comparison, &by_net)
        .by_setting(experiment, &played.totals, comparison.question.rank_by)
        .as_run(experiment, &runs);
    let answers =
        if command == "compare" { answers(experiment, (comparison, &by_net), options)? } else { None };
    let watched = comparison.possessions.min(MOST_WATCHED);
    let mut leaders = vec![comparison.leader(), by_net.leader()];
    leaders.dedup();
    let own = |v: usize| Ok((v, choices(&setups[v], options.seed, watched, options.threads)?));
    let choices = leaders.into_iter().map(own).collect::<Result<_, Error>>()?;
    let units = units(experiment, options.units);
    Ok(Beside { units, by_net, verdict, runs, choices, answers })
}

/// What lengths are told in: what was asked for, or what the rules of the one that is compared with are told in.
pub(super) fn units(experiment: &Experiment, asked: Option<Units>) -> Units {
    let named = |variant: &&Variant| variant.name == experiment.baseline;
    let baseline = experiment.variants.iter().find(named).unwrap_or(&experiment.variants[0]);
    Units::of(asked, &baseline.setup.court)
}

/// The variants under each post help rule of their zone; None where the zone knows none, or where what is met is
/// compared.
fn answers(
    experiment: &Experiment,
    (comparison, by_net): (&Comparison, &Comparison),
    options: &RunOptions,
) -> Result<Option<AnswersTable>, Error> {
    // No call can be made of what is not chosen; where the rule is varied, its answers are the comparison itself.
    if comparison.question.differ != Differ::Choices {
        return Ok(None);
    }
    let names = &comparison.question.variants;
    let names: Vec<&str> = answered(comparison, by_net).into_iter().map(|v| names[v].as_str()).collect();
    // A zone may have more rules than one run has room for.
    let answers = experiment.answers(&names, LARGEST_VARIANTS).map_err(Error::Faults)?;
    if answers.is_empty() {
        return Ok(None);
    }
    let ratios = ratios();
    let plan = Plan {
        variants: answers.iter().map(|answer| format!("{}, {}", answer.variant, answer.rule)).collect(),
        possessions: 0..comparison.possessions.min(most_answered(experiment)),
        batch: options.batch,
        threads: options.threads,
        ratios: &ratios,
    };
    let setups = answers.iter().map(|answer| answer.setup.clone()).collect();
    let in_all = plan.possessions.end * answers.len() as u64;
    let progress = Progress::new(in_all, "possessions under the zone's answers", options.quiet);
    let played = run(&plan, &EnginePlayer::new(setups, options.seed), &progress)?;
    let field = Field { baseline: &experiment.baseline, compared: comparison.question.variants.len() };
    Ok(Some(AnswersTable::new(&answers, &played, comparison.question.rank_by, field)))
}

/// Possessions of each variant under each rule, at most.
fn most_answered(experiment: &Experiment) -> u64 {
    let is_option = |path: &String| OPTIONS.iter().any(|option| path.starts_with(option));
    if experiment.varied.iter().all(is_option) { MOST_OF_OPTIONS } else { MOST_POSSESSIONS }
}

/// What would be played again under the zone's answers: how many variants under how many rules in all, at most, and how
/// many possessions of each. Of many variants it shows only after the run which ones are.
pub(super) fn again_at_most(experiment: &Experiment, possessions: u64) -> Result<Option<Again>, Error> {
    if Differ::of(experiment) != Differ::Choices {
        return Ok(None);
    }
    let names: Vec<&str> = experiment.variants.iter().map(|variant| variant.name.as_str()).collect();
    let exact = names.len() <= MOST_ANSWERED;
    let played = if exact { &names[..] } else { &names[..MOST_OF_MANY.min(names.len())] };
    let answers = experiment.answers(played, LARGEST_VARIANTS).map_err(Error::Faults)?.len() as u64;
    let each = possessions.min(most_answered(experiment));
    Ok((answers > 0).then_some(Again { answers, each, exact }))
}
