//! `compare` and `simulate`: load, play, compare, write, show.

use std::path::Path;
use std::sync::Arc;

use engine::setup::Setup;
use scenarios::{Experiment, Variant, shown_lines, shown_path};

use super::beside::{again_at_most, beside, units};
use super::plan::Intent;
use super::varied::noun;
use super::{again, input, watched};
use crate::arena::EnginePlayer;
use crate::charting::end_lines;
use crate::cli::{Format, RunOptions};
use crate::columns::{Column, keys, ratios};
use crate::compare::{Comparison, Question};
use crate::console::Console;
use crate::crash::Crash;
use crate::error::Error;
use crate::output::{
    Fingerprint, Made, Manifest, Reservation, Run, Settings, comparison_csv, comparison_json,
    comparison_text, difference_lines, document, file, rates_text, relative,
};
use crate::picture::{self, Picture};
use crate::places::{
    Runs, Tables, Way, answer_lines, breakdown_lines, call_lines, choice_lines, defender_lines, film_lines,
    free_lines, pass_lines, pass_pair_lines, path_lines, place_lines, region_lines, run_lines, stand_lines,
    way_lines,
};
use crate::players::{player_lines, shooting_lines};
use crate::progress::Progress;
use crate::report::{Results, gallery, report};
use crate::run::{Plan, Played, run};
use crate::sheet;
use crate::stats::LARGEST_VARIANTS;
use crate::verdict::{Differ, VERDICT, Verdict, way_picture};

/// Broken-down possessions that are named; the manifest has them all.
const NAMED: usize = 20;

/// Name of the report.
const REPORT: &str = "report.html";

/// Plays all variants of an experiment, the bundled question without a file, and ranks them.
pub fn compare(options: &RunOptions, console: &mut Console) -> Result<(), Error> {
    let experiment = input::experiment(options.file.as_deref())?;
    answer("compare", &experiment, options, console, comparison_text)
}

/// Plays one matchup and shows its rates.
pub fn simulate(options: &RunOptions, console: &mut Console) -> Result<(), Error> {
    let file = options.file.as_deref().unwrap_or(Path::new(""));
    let experiment = input::experiment(Some(file))?;
    if experiment.variants.len() != 1 {
        return Err(Error::Option(format!(
            "{} has {} variants and `simulate` plays one matchup; use `zoneprobe compare`",
            shown_path(file),
            experiment.variants.len()
        )));
    }
    answer("simulate", &experiment, options, console, rates_text)
}

/// The data flow, from an experiment to what is written and shown.
fn answer(
    command: &str,
    experiment: &Experiment,
    options: &RunOptions,
    console: &mut Console,
    text: fn(&Comparison, &Verdict, Run) -> String,
) -> Result<(), Error> {
    let question = question(experiment, options)?;
    let place = match &options.out {
        Some(folder) => Reservation::named(folder)?,
        None => Reservation::numbered(Path::new(&format!("results/{}-{}", experiment.key, options.seed)))?,
    };
    if options.dry_run {
        let (rank_by, possessions) = (question.rank_by, possessions(experiment, options));
        let (folder, width) = (place.folder(), console.width);
        let again = if command == "compare" { again_at_most(experiment, possessions)? } else { None };
        let intent = Intent { command, experiment, rank_by, possessions, again, folder, width };
        return Ok(console.print_exactly(&intent.told(options))?);
    }
    let played = play(experiment, options)?;
    let comparison = Comparison::new(question, &played.totals);
    let beside = beside(command, experiment, (&comparison, &played), options)?;
    let tables = Tables::new(experiment, &comparison, &played, options.seed, beside);
    let mut manifest = manifest(command, experiment, options, &comparison, &played);
    let rows = comparison_csv(&comparison);
    let files = files(&comparison, (&tables, &played), &mut manifest, experiment, options);
    let shown = match options.format {
        Format::Table => {
            let run = Run { seed: options.seed, width: console.width, units: tables.beside.units };
            shown_lines(&text(&comparison, &tables.beside.told(), run)).into_owned()
        }
        Format::Csv => String::from_utf8_lossy(&rows).into_owned(),
        Format::Json => comparison_json(&comparison, &tables.beside.verdict, &manifest),
    };
    let written = place.write(&files);
    // A long run is shown even if it cannot be kept, and kept even if nobody reads it.
    let printed = console.print_exactly(&shown);
    let written = written?;
    written.word().inspect(|word| console.say(word));
    let folder = written.folder;
    if !options.quiet {
        let report = folder.join(REPORT);
        console.say(&format!("written to {}\nreport: {}\n", shown_path(&folder), shown_path(&report)));
    }
    broken(&played.crashes, experiment, options)?;
    Ok(printed?)
}

/// What is asked, checked against the columns and the limits of a run.
fn question(experiment: &Experiment, options: &RunOptions) -> Result<Question, Error> {
    let rank_by = Column::named(options.rank_by.as_ref().unwrap_or(&experiment.rank_by))
        .ok_or_else(|| Error::Faults(experiment.rank_by_fault(&keys())))?;
    let variants: Vec<String> = experiment.variants.iter().map(|variant| variant.name.clone()).collect();
    if variants.len() > LARGEST_VARIANTS {
        return Err(Error::Variants(variants.len()));
    }
    let baseline = variants.iter().position(|name| *name == experiment.baseline);
    let baseline = baseline.ok_or_else(|| {
        Error::Option(format!(
            "no variant is called {}, the one that the file names as its baseline",
            experiment.baseline
        ))
    })?;
    let (text, noun, differ) = (experiment.question.clone(), noun(experiment), Differ::of(experiment));
    Ok(Question { text, variants, noun, differ, baseline, rank_by })
}

/// Possessions for each variant.
fn possessions(experiment: &Experiment, options: &RunOptions) -> u64 {
    options.possessions.unwrap_or(experiment.possessions)
}

fn play(experiment: &Experiment, options: &RunOptions) -> Result<Played, Error> {
    let possessions = possessions(experiment, options);
    let ratios = ratios();
    let plan = Plan {
        variants: experiment.variants.iter().map(|variant| variant.name.clone()).collect(),
        possessions: 0..possessions,
        batch: options.batch,
        threads: options.threads,
        ratios: &ratios,
    };
    let setups = experiment.variants.iter().map(|variant| variant.setup.clone()).collect();
    let progress = Progress::new(possessions * plan.variants.len() as u64, "possessions", options.quiet);
    run(&plan, &EnginePlayer::new(setups, options.seed), &progress)
}

/// Everything that is written, by name; the manifest names all of it.
fn files(
    comparison: &Comparison,
    (tables, played): (&Tables, &Played),
    manifest: &mut Manifest,
    experiment: &Experiment,
    options: &RunOptions,
) -> Vec<(String, Vec<u8>)> {
    let mut files = rows(comparison, (tables, played));
    for picture in sheet::pictures(comparison, tables) {
        files.push((format!("pictures/{}.svg", picture.id), picture.file()));
    }
    let plays = plays(experiment, tables);
    files.extend(plays.iter().map(|play| (format!("pictures/{}.svg", play.id), play.file())));
    let groups = gallery(comparison, tables);
    for picture in groups.iter().flat_map(|group| group.pictures()) {
        files.push((format!("pictures/{}.svg", picture.id), picture.file()));
    }
    let own = [REPORT, Manifest::NAME].map(String::from);
    manifest.files = files.iter().map(|(name, _)| name.clone()).chain(own).collect();
    let inputs: Vec<(String, String)> = experiment
        .inputs
        .iter()
        .map(|source| (relative(&source.name).to_owned(), source.text.clone()))
        .collect();
    let (again, with) = (again::file(options), again::with(experiment));
    let films = watched::films(experiment, tables, options);
    let results = Results {
        comparison,
        tables,
        manifest,
        inputs: &inputs,
        file: &again,
        with: &with,
        plays: &plays,
        films: &films,
    };
    files.push((REPORT.into(), report(&results, &groups).into_bytes()));
    manifest.outputs = files.iter().map(|(name, bytes)| Fingerprint::of(name, bytes)).collect();
    // The last to be put in its place: a folder without it is no whole result.
    files.push((Manifest::NAME.into(), manifest.bytes()));
    files
}

/// What each variant runs, at a glance.
fn plays(experiment: &Experiment, tables: &Tables) -> Vec<Picture> {
    let all = experiment.variants.iter().zip(&tables.setups).zip(&tables.beside.runs);
    let draw = |(v, ((variant, setup), runs)): (usize, ((&Variant, &Arc<Setup>), &Runs))| {
        picture::play((&way_picture(v), &variant.name), setup, runs, tables.kinds[v])
    };
    all.enumerate().map(draw).collect()
}

/// The tables.
fn rows(comparison: &Comparison, (tables, played): (&Tables, &Played)) -> Vec<(String, Vec<u8>)> {
    let (names, possessions) = (&comparison.question.variants, comparison.possessions);
    let ways: Vec<&[Way]> = tables.beside.runs.iter().map(|runs| &*runs.ways).collect();
    let mut files = vec![
        ("comparison.csv".into(), comparison_csv(comparison)),
        file(difference_lines(comparison)),
        file(place_lines(names, &tables.floor, possessions)),
        file(region_lines(names, &tables.regions, possessions)),
        file(free_lines(names, &tables.regions)),
        file(stand_lines(names, &tables.regions, &tables.setups)),
        file(breakdown_lines(names, &tables.breakdowns, comparison.question.baseline)),
        file(defender_lines(names, &tables.floor, &tables.setups)),
        file(pass_pair_lines(names, &tables.passes, possessions)),
        file(path_lines(names, &tables.paths)),
        file(pass_lines(names, &tables.passes, possessions)),
        file(film_lines(names, &tables.setups, (&tables.leaders, &tables.stills))),
        file(run_lines(names, &tables.beside.runs)),
        file(way_lines(names, &tables.setups, &ways)),
        file(choice_lines(names, &tables.beside.choices)),
        file(player_lines(names, &tables.setups)),
        file(shooting_lines(names, &played.places)),
        file(end_lines(names, &tables.setups, &played.places)),
        (VERDICT.into(), document(&tables.beside.verdict).into_bytes()),
    ];
    files.extend(sheet::tables(comparison, tables, played));
    if let Some(answers) = &tables.beside.answers {
        files.push(file(answer_lines(answers)));
        files.push(file(call_lines(&answers.calls, answers.possessions)));
    }
    files
}

fn manifest(
    command: &str,
    experiment: &Experiment,
    options: &RunOptions,
    comparison: &Comparison,
    played: &Played,
) -> Manifest {
    let variants = experiment.variants.iter();
    Manifest {
        made: Made {
            program: "zoneprobe".into(),
            version: env!("CARGO_PKG_VERSION").into(),
            command: again::run(command, options, experiment, comparison.possessions),
            question: experiment.question.clone(),
            rank_by: comparison.question.rank_by.key.into(),
            baseline: experiment.baseline.clone(),
            seed: options.seed,
            possessions: comparison.possessions,
            units: units(experiment, options.units),
        },
        variants: variants.map(|v| Settings { name: v.name.clone(), settings: v.settings.clone() }).collect(),
        inputs: experiment
            .inputs
            .iter()
            .map(|source| Fingerprint::of_input(&source.name, &source.text))
            .collect(),
        files: Vec::new(),
        outputs: Vec::new(),
        result_digest: played.digest.to_string(),
        crashes: played.crashes.iter().map(|crash| told(crash, experiment)).collect(),
    }
}

fn told(crash: &Crash, experiment: &Experiment) -> String {
    let name = &experiment.variants[crash.variant].name;
    format!("variant {name}, possession {}: {}", crash.possession, crash.message)
}

/// The run failed if any possession broke down, however good the rest is.
fn broken(crashes: &[Crash], experiment: &Experiment, options: &RunOptions) -> Result<(), Error> {
    if crashes.is_empty() {
        return Ok(());
    }
    let count = match crashes.len() {
        1 => format!("1 possession broke down with seed {} and counts as a fault", options.seed),
        count => format!("{count} possessions broke down with seed {} and count as faults", options.seed),
    };
    let mut text = format!(
        "{count}; the rest is whole. That is a fault of zoneprobe {}, not of your files. Please report it to its \
         developers, with your files and this message; `zoneprobe film` shows one by itself:",
        env!("CARGO_PKG_VERSION")
    );
    for crash in crashes.iter().take(NAMED) {
        text.push_str(&format!("\n  {}", told(crash, experiment)));
    }
    if crashes.len() > NAMED {
        text.push_str("\n  and more, all of them in manifest.json");
    }
    Err(Error::Crashes(text))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_set_alike_in_all_variants_does_not_vary() {
        let of = |name: &str| {
            let experiment = scenarios::experiment(Path::new(name)).unwrap();
            experiment.varied
        };
        // Each of its variants names the rule and the route, and all the same.
        assert_eq!(of("post-options-point-drops"), ["attack.posts.options"]);
        assert_eq!(of("guard-options"), ["attack.guards.options"]);
        assert!(of("routes-by-sink-and-help").contains(&"zone.post_help_rule".to_owned()));
    }

    #[test]
    fn possessions_that_broke_down_are_named_up_to_a_number_and_fail_the_run() {
        let experiment = scenarios::bundled_question().unwrap();
        let options = RunOptions {
            file: None,
            possessions: None,
            seed: 4,
            threads: 1,
            batch: None,
            rank_by: None,
            units: None,
            out: None,
            format: Format::Table,
            dry_run: false,
            quiet: true,
        };
        let crash = |possession| Crash { variant: 1, possession, message: "the ball is gone".into() };
        let told = |count: u64| {
            let crashes: Vec<Crash> = (0..count).map(crash).collect();
            broken(&crashes, &experiment, &options).map_err(|error| error.told(false))
        };
        assert!(told(0).is_ok());
        let one = told(1).unwrap_err();
        assert!(
            one.starts_with("zoneprobe: 1 possession broke down with seed 4 and counts as a fault"),
            "{one}"
        );
        assert!(
            one.contains("Please report it")
                && one.contains("variant seam-cross, possession 0: the ball is gone")
        );
        let many = told(30).unwrap_err();
        assert!(
            many.starts_with("zoneprobe: 30 possessions broke down with seed 4 and count as faults"),
            "{many}"
        );
        assert_eq!(many.matches("the ball is gone").count(), NAMED);
        assert!(many.contains("manifest.json"), "{many}");
    }
}
