//! What a run comes to: its tables, pictures and page as files, and what is shown of it.

use std::sync::Arc;

use engine::setup::Setup;
use scenarios::{Experiment, Variant, shown_lines, shown_path};

use super::beside::{beside, units};
use super::bootstrapped::bootstrap_lines;
use super::until_sure::Chosen;
use super::{again, watched};
use crate::charting::end_lines;
use crate::cli::{Format, RunOptions};
use crate::columns::{CONFIDENCE, Column};
use crate::compare::{Comparison, Question};
use crate::console::Console;
use crate::crash::Crash;
use crate::effects::{Effects, effect_lines, effects, of_totals};
use crate::error::Error;
use crate::kept::Build;
use crate::kept::inputs::{files as input_files, inputs};
use crate::output::{
    Fingerprint, Made, Manifest, Reservation, Run, Settings, comparison_csv, comparison_json,
    comparison_text, difference_lines, document, effects_text, file, rates_text,
};
use crate::picture::{self, Picture};
use crate::places::{
    Runs, Tables, Way, answer_lines, breakdown_lines, call_lines, choice_lines, defender_lines, film_lines,
    free_lines, pass_lines, pass_pair_lines, path_lines, place_lines, region_lines, run_lines, stand_lines,
    way_lines,
};
use crate::players::{player_lines, shooting_lines};
use crate::report::{Results, charts, gallery, report};
use crate::run::Played;
use crate::selection::Selected;
use crate::sheet;
use crate::verdict::{VERDICT, Verdict, way_picture};
use crate::wrapping::wrapped;

/// Broken-down possessions that are named; the manifest has them all.
const NAMED: usize = 20;

/// Name of the report.
const REPORT: &str = "report.html";

/// What was asked, and how.
#[derive(Clone, Copy)]
pub(super) struct Asked<'a> {
    /// `compare` or `simulate`.
    pub command: &'static str,
    /// What is played.
    pub experiment: &'a Experiment,
    /// How.
    pub options: &'a RunOptions,
    /// What was chosen before, where it was played until sure; the experiment is what that left.
    pub selected: Option<&'a Selected>,
}

/// What a comparison says of its factors.
enum Factors {
    /// There are none.
    None,
    /// Only some variants are left, which their own figures chose.
    Chosen,
    Told(Effects),
}

/// Said where a choice left some variants out.
const CHOSEN: &str = "What each factor is worth is not told after a choice: what is left was chosen by the very figures that \
                      effects would be averaged over. Play it without --until-sure for that.";
/// Width of running text.
const WIDTH: usize = 100;

/// What a run comes to.
pub(super) struct Answer {
    /// Everything that is written, by name, the manifest last; but records, which are written already.
    pub files: Vec<(String, Vec<u8>)>,
    /// The files of the records.
    records: Vec<String>,
    /// What is shown.
    pub shown: String,
}

impl<'a> Asked<'a> {
    /// What is asked before anything was played.
    pub fn new(command: &'static str, experiment: &'a Experiment, options: &'a RunOptions) -> Self {
        Self { command, experiment, options, selected: None }
    }

    /// What is still asked once it was chosen, with its question.
    pub fn after<'b>(
        &self,
        chosen: Option<&'b Chosen>,
        question: Question,
    ) -> Result<(Asked<'b>, Question), Error>
    where
        'a: 'b,
    {
        let Some(Chosen { experiment, selected }) = chosen else { return Ok((*self, question)) };
        let asked = Asked { experiment, selected: Some(selected), ..*self };
        Ok((asked, super::compare::question(experiment, self.options)?))
    }

    /// The possessions that broke down, as text, those of the choice first.
    pub fn crashes(&self, played: &Played) -> Vec<String> {
        let chose = self.selected.into_iter().flat_map(|selected| &selected.crashes);
        let chose = chose.map(|(name, crash)| told(name, crash));
        chose.chain(crashes(&played.crashes, self.experiment)).collect()
    }

    /// The answer to a question from what was played, with the records that were made of it; what it takes besides is played
    /// here.
    pub fn answered(
        &self,
        question: Question,
        (played, records): (&Played, Vec<Fingerprint>),
        width: usize,
    ) -> Result<Answer, Error> {
        let Self { command, experiment, options, selected } = *self;
        let comparison = Comparison::new(question, &played.totals);
        let mut beside = beside(command, experiment, (&comparison, played), options)?;
        beside.verdict.selection = selected.map(|selected| selected.selection.clone());
        let tables = Tables::new(experiment, &comparison, played, options.seed, beside);
        let mut manifest = manifest(self, &comparison, played);
        let names = records.iter().map(|record| record.name.clone()).collect();
        manifest.outputs = records;
        let rows = comparison_csv(&comparison);
        let mut more: Vec<(String, Vec<u8>)> =
            selected.map(|selected| file(selected.lines())).into_iter().collect();
        if let Some(column) = options.bootstrap.as_deref().and_then(Column::named) {
            more.push(file(bootstrap_lines(self, &comparison, column)?));
        }
        let rank_by = comparison.question.rank_by;
        let (lines, told) = match self.effects(played, rank_by)? {
            Factors::None => (None, String::new()),
            Factors::Chosen => (None, wrapped(CHOSEN, width.min(WIDTH)) + "\n"),
            Factors::Told(effects) => (
                Some(file(effect_lines(&effects))),
                effects_text(&effects, rank_by, (Some(options.correction), width)),
            ),
        };
        more.extend(lines);
        let files = files(&comparison, (&tables, played), more, &mut manifest, (experiment, options));
        let shown = match options.format {
            Format::Table => {
                let run = Run {
                    seed: options.seed,
                    width,
                    units: tables.beside.units,
                    correction: Some(options.correction),
                };
                let text = self.text(&comparison, &tables.beside.told(), run);
                let between = if told.is_empty() { "" } else { "\n" };
                shown_lines(&format!("{text}{between}{told}")).into_owned()
            }
            Format::Csv => String::from_utf8_lossy(&rows).into_owned(),
            Format::Json => comparison_json(&comparison, &tables.beside.verdict, &manifest),
        };
        Ok(Answer { files, records: names, shown })
    }

    /// What is told of the factors.
    fn effects(&self, played: &Played, rank_by: &Column) -> Result<Factors, Error> {
        if self.experiment.cells.len() < 2 {
            return Ok(Factors::None);
        }
        if self.selected.is_some_and(|selected| !selected.selection.dropped.is_empty()) {
            return Ok(Factors::Chosen);
        }
        let sought = effects(self.experiment)?;
        Ok(Factors::Told(of_totals((self.experiment, sought), &played.totals, (rank_by, CONFIDENCE))))
    }

    /// A comparison to be read.
    pub fn text(&self, comparison: &Comparison, verdict: &Verdict, run: Run) -> String {
        let text = if self.command == "compare" { comparison_text } else { rates_text };
        text(comparison, verdict, run)
    }
}

impl Answer {
    /// Writes and shows it, and says where it is.
    pub fn hand_over(self, place: Reservation, quiet: bool, console: &mut Console) -> Result<(), Error> {
        let written = place.write_with(&self.records, &self.files);
        // A long run is shown even if it cannot be kept, and kept even if nobody reads it.
        let printed = console.print_exactly(&self.shown);
        let written = written?;
        written.word().inspect(|word| console.say(word));
        let folder = written.folder;
        if !quiet {
            let report = folder.join(REPORT);
            console.say(&format!("written to {}\nreport: {}\n", shown_path(&folder), shown_path(&report)));
        }
        Ok(printed?)
    }
}

/// Everything that is written, by name; the manifest names all of it.
fn files(
    comparison: &Comparison,
    (tables, played): (&Tables, &Played),
    more: Vec<(String, Vec<u8>)>,
    manifest: &mut Manifest,
    (experiment, options): (&Experiment, &RunOptions),
) -> Vec<(String, Vec<u8>)> {
    let mut files = rows(comparison, (tables, played));
    files.extend(more);
    for picture in sheet::pictures(comparison, tables) {
        files.push((format!("pictures/{}.svg", picture.id), picture.file()));
    }
    let plays = plays(experiment, tables);
    files.extend(plays.iter().map(|play| (format!("pictures/{}.svg", play.id), play.file())));
    let groups = gallery(comparison, tables);
    let charts = charts(comparison, tables);
    for picture in groups.iter().flat_map(|group| group.pictures()).chain(&charts) {
        files.push((format!("pictures/{}.svg", picture.id), picture.file()));
    }
    let read = inputs(experiment);
    files.extend(input_files(&read));
    let own = [REPORT, Manifest::NAME].map(String::from);
    let records = manifest.outputs.iter().map(|record| record.name.clone());
    manifest.files = records.chain(files.iter().map(|(name, _)| name.clone())).chain(own).collect();
    let inputs: Vec<(String, String)> =
        read.iter().map(|(input, source)| (input.name.clone(), source.text.clone())).collect();
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
    manifest.outputs.extend(files.iter().map(|(name, bytes)| Fingerprint::of(name, bytes)));
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

fn manifest(asked: &Asked<'_>, comparison: &Comparison, played: &Played) -> Manifest {
    let Asked { command, experiment, options, selected } = *asked;
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
        build: Build::own(),
        inputs: inputs(experiment).into_iter().map(|(input, _)| input).collect(),
        files: Vec::new(),
        outputs: Vec::new(),
        result_digest: played.digest.to_string(),
        crashes: asked.crashes(played),
        selection: selected.map(|selected| selected.selection.clone()),
    }
}

/// Possessions that broke down, as text.
pub(super) fn crashes<'c>(
    crashes: &'c [Crash],
    experiment: &'c Experiment,
) -> impl Iterator<Item = String> + 'c {
    crashes.iter().map(|crash| told(&experiment.variants[crash.variant].name, crash))
}

fn told(name: &str, crash: &Crash) -> String {
    format!("variant {name}, possession {}: {}", crash.possession, crash.message)
}

/// The run failed if any possession broke down, however good the rest is.
pub(super) fn broken(crashes: &[String], options: &RunOptions) -> Result<(), Error> {
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
        text.push_str(&format!("\n  {crash}"));
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
    fn possessions_that_broke_down_are_named_up_to_a_number_and_fail_the_run() {
        let experiment = scenarios::bundled_question().unwrap();
        let options = RunOptions {
            file: None,
            possessions: None,
            seed: 4,
            threads: 1,
            batch: None,
            rank_by: None,
            bootstrap: None,
            units: None,
            out: None,
            format: Format::Table,
            dry_run: false,
            resume: false,
            shard: None,
            until_sure: None,
            stop_at: None,
            correction: Default::default(),
            records: None,
            divide_records: false,
            quiet: true,
        };
        let crash = |possession| Crash { variant: 1, possession, message: "the ball is gone".into() };
        let told = |count: u64| {
            let crashes: Vec<String> =
                (0..count).map(|nth| told(&experiment.variants[1].name, &crash(nth))).collect();
            broken(&crashes, &options).map_err(|error| error.told(false))
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
