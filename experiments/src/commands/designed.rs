//! What a design comes to: its files, and what is shown of it.

use comfy_table::Table;
use scenarios::{Experiment, Variant};
use serde_json::json;

use super::design::Asking;
use super::result::{Answer, Asked, crashes};
use super::varied::noun;
use super::{again, beside::units, compare};
use crate::arena::EnginePlayer;
use crate::cli::{Format, RunOptions};
use crate::columns::{COLUMNS, CONFIDENCE, Column, ratios};
use crate::compare::{Comparison, Contrasted, Question};
use crate::design::{Sums, told_columns};
use crate::effects::{Effects, effect_lines};
use crate::error::Error;
use crate::kept::Build;
use crate::kept::inputs::{files as input_files, inputs};
use crate::layout::Layout;
use crate::note::NOTE;
use crate::output::{
    Fingerprint, LEADING_FILE, Made, Manifest, Settings, comparison_csv, comparison_rows, difference_lines,
    document, effects_text, empty, file,
};
use crate::progress::Progress;
use crate::run::run;
use crate::stats::normal::two_sided_z;
use crate::stats::{Better, Correction, DEGREES_LEAST, Totals, benjamini_hochberg, holm};
use crate::verdict::Differ;
use crate::wording::{figure, grouped};
use crate::wrapping::wrapped;

/// Possessions that each of the leading variants is played afresh, at least.
pub(super) const LEADING_LEAST: u64 = 2048;
/// The folder of what is told of them.
const LEADING: &str = "leading";
/// Width of running text.
const WIDTH: usize = 100;
/// Variants that are shown of cells of which effects cannot be told yet.
const FIRST_CELLS: usize = 8;

/// A design's result.
pub(super) struct Designed {
    /// Everything that is written, by name, the manifest last.
    pub files: Vec<(String, Vec<u8>)>,
    /// What is shown.
    pub shown: String,
    /// The report of the leading ones.
    pub report: Option<String>,
}

impl Designed {
    /// Of a design that has been played; the leading ones are played afresh here.
    pub fn new(asking: &Asking<'_>, sums: &Sums, width: usize) -> Result<Self, Error> {
        let Asked { experiment, options, .. } = asking.asked;
        let Reading { comparison, effects } = Reading::new(asking, sums)?;
        let leading = leading(asking, &comparison)?;
        let mut files = vec![
            ("comparison.csv".to_owned(), comparison_csv(&comparison)),
            file(difference_lines(&comparison)),
            file(effect_lines(&effects)),
        ];
        let report = leading.as_ref().map(|_| format!("{LEADING}/report.html"));
        if let Some((text, answer)) = leading {
            files.push((LEADING_FILE.into(), text.into_bytes()));
            files.extend(answer.files.into_iter().map(|(name, bytes)| (format!("{LEADING}/{name}"), bytes)));
        }
        files.extend(input_files(&inputs(experiment)));
        let manifest = manifest(asking, sums, &files);
        let shown = match options.format {
            Format::Table => text(asking, (&comparison, &effects), width),
            Format::Csv => String::from_utf8_lossy(&files[0].1).into_owned(),
            Format::Json => page(&manifest, &comparison, &effects),
        };
        files.push((Manifest::NAME.into(), manifest.bytes()));
        Ok(Self { files, shown, report })
    }
}

/// What is read off the sums of a design, or of a part of it.
pub(super) struct Reading {
    comparison: Comparison,
    effects: Effects,
}

impl Reading {
    pub fn new(asking: &Asking<'_>, sums: &Sums) -> Result<Self, Error> {
        let (experiment, sought) = (asking.asked.experiment, asking.sought.clone());
        let comparison = comparison(asking, sums, two_sided_z(CONFIDENCE))?;
        let effects = sums.effects(experiment, (sought, &asking.means), (asking.rank_by, CONFIDENCE));
        Ok(Self { comparison, effects })
    }

    /// The rows of all variants of the cells that have been played.
    pub fn rows(&self) -> Vec<u8> {
        comparison_rows(&self.comparison, self.played())
    }

    /// Effects, and how to read them; `not_whole` says how much there is.
    pub fn effects_told(&self, asking: &Asking<'_>, (not_whole, width): (&str, usize)) -> String {
        let Self { comparison, effects } = self;
        let told = effects_and_remarks(asking, (comparison, effects), (None, width));
        let head = head(asking, comparison, width);
        format!("{not_whole}\n{head}{told}\n{}\n", wrapped(NOTE, width.min(WIDTH)))
    }

    /// The first of the cells that have been played.
    pub fn cells_told(&self, asking: &Asking<'_>, (not_whole, width): (&str, usize)) -> String {
        let table = leading_table(&self.comparison, self.played().count().min(FIRST_CELLS));
        let few = "The first of many look better than they are; --format csv has all.";
        let (head, width) = (head(asking, &self.comparison, width), width.min(WIDTH));
        format!("{not_whole}\n{head}{table}\n{}\n\n{}\n", wrapped(few, width), wrapped(NOTE, width))
    }

    /// The variants that have figures.
    fn played(&self) -> impl Iterator<Item = usize> {
        let figures = self.comparison.figures.iter().enumerate();
        figures.filter(|(_, own)| own.iter().any(Option::is_some)).map(|(v, _)| v)
    }
}

/// All variants with their figures and ranks, and the differences within cells.
fn comparison(asking: &Asking<'_>, sums: &Sums, z: f64) -> Result<Comparison, Error> {
    let Asked { experiment, options, .. } = asking.asked;
    let each = experiment.variants.len() / experiment.cells.len();
    let figures: Vec<Vec<_>> = (0..experiment.variants.len())
        .map(|v| COLUMNS.iter().map(|column| column.interval(&sums.cells[v / each], v % each, z)).collect())
        .collect();
    let rank = COLUMNS.iter().position(|column| column.key == asking.rank_by.key).unwrap_or_default();
    let turned = |v: &usize| {
        figures[*v][rank].map_or(f64::NEG_INFINITY, |i| asking.rank_by.better.turned(i.estimate) + 0.0)
    };
    let mut order: Vec<usize> = (0..figures.len()).collect();
    order.sort_by(|a, b| turned(b).total_cmp(&turned(a)));
    let layout = Layout::of(experiment);
    let degrees = sums.cells.first().map_or(0, Totals::possessions).saturating_sub(1) as f64;
    let mut differences = Vec::new();
    for (variant, reference) in layout.references.iter().enumerate() {
        let Some(reference) = reference.filter(|reference| *reference != variant) else { continue };
        let (totals, v, w) = (&sums.cells[variant / each], variant % each, reference % each);
        for column in told_columns(asking.rank_by) {
            let Some(difference) = column.difference(totals, v, w, z) else { continue };
            let difference = difference.by_student(degrees, CONFIDENCE);
            let (p_holm, p_bh, together) = (None, None, None);
            let variance_ratio = column.variance_ratio(totals, v, w);
            differences.push(Contrasted {
                variant,
                reference,
                column,
                difference,
                p_holm,
                p_bh,
                together,
                variance_ratio,
            });
        }
    }
    let ranking = |d: &&mut Contrasted| d.column.key == asking.rank_by.key;
    let raw: Vec<f64> = differences.iter_mut().filter(ranking).map(|d| d.difference.p).collect();
    let adjusted = holm(&raw).into_iter().zip(benjamini_hochberg(&raw));
    differences.iter_mut().filter(ranking).zip(adjusted).for_each(|(d, (by_holm, by_bh))| {
        if d.difference.is_claimable(degrees) {
            (d.p_holm, d.p_bh) = (Some(by_holm), Some(by_bh));
        }
    });
    let variants: Vec<String> = experiment.variants.iter().map(|variant| variant.name.clone()).collect();
    let baseline = variants.iter().position(|name| *name == experiment.baseline).unwrap_or_default();
    let question = Question {
        text: experiment.question.clone(),
        variants,
        noun: noun(experiment),
        differ: Differ::of(experiment),
        baseline,
        rank_by: asking.rank_by,
        layout,
    };
    let possessions = compare::possessions(experiment, options);
    Ok(Comparison { question, possessions, figures, order, differences, claims: None })
}

/// How many are played afresh, and how many possessions of each.
pub(super) fn afresh(experiment: &Experiment, possessions: u64) -> (usize, u64) {
    let wanted = experiment.design.as_ref().map_or(0, |design| design.leading);
    (wanted.min(experiment.variants.len()), possessions.max(LEADING_LEAST))
}

/// The leading variants and the one that others are compared with, as an experiment of their own with the seed that follows:
/// possessions that chose them may not measure them. With its whole result; None where none is wanted.
fn leading(asking: &Asking<'_>, comparison: &Comparison) -> Result<Option<(String, Answer)>, Error> {
    let Asked { experiment, options, .. } = asking.asked;
    let (count, possessions) = afresh(experiment, comparison.possessions);
    if count == 0 {
        return Ok(None);
    }
    let mut chosen = comparison.order[..count].to_vec();
    if !chosen.contains(&comparison.question.baseline) {
        chosen.push(comparison.question.baseline);
    }
    let variants = chosen.iter().map(|&v| &experiment.variants[v]);
    let text = leading_file(experiment, (asking.rank_by, possessions), variants);
    let own = experiment.beside(LEADING_FILE, text.clone()).map_err(Error::Faults)?;
    let options = RunOptions {
        file: Some(LEADING_FILE.into()),
        possessions: Some(possessions),
        seed: options.seed.wrapping_add(1),
        rank_by: None,
        out: None,
        format: Format::Table,
        ..options.clone()
    };
    let asked = Asked::new("compare", &own, &options);
    let question = compare::question(&own, &options)?;
    let ratios = ratios();
    let plan = compare::plan(&asked, &ratios);
    let setups = own.variants.iter().map(|variant| variant.setup.clone()).collect();
    let all = possessions * own.variants.len() as u64;
    let progress = Progress::new(all, "possessions of the leading ones", options.quiet);
    let played = run(&plan, &EnginePlayer::new(setups, options.seed), &progress)?;
    drop(progress);
    Ok(Some((text, asked.answered(question, (&played, Vec::new()), WIDTH)?)))
}

/// The file of the leading ones.
fn leading_file<'v>(
    experiment: &Experiment,
    (rank_by, possessions): (&Column, u64),
    variants: impl Iterator<Item = &'v Variant>,
) -> String {
    let quoted = |text: &str| toml::Value::String(text.to_owned()).to_string();
    let head = experiment.design.as_ref().map_or("", |design| &design.head);
    let mut text = format!(
        "# The leading variants of a design, and the one that they are compared with, to be played afresh.\n\
         question = {}\n{head}possessions = {possessions}\nrank_by = {}\nbaseline = {}\n",
        quoted(&experiment.question),
        quoted(rank_by.key),
        quoted(&experiment.baseline)
    );
    for variant in variants {
        text.push_str(&format!("\n[[variant]]\nname = {}\n[variant.set]\n", quoted(&variant.name)));
        for (path, value) in &variant.settings {
            text.push_str(&format!("{} = {value}\n", quoted(path)));
        }
    }
    text
}

fn manifest(asking: &Asking<'_>, sums: &Sums, files: &[(String, Vec<u8>)]) -> Manifest {
    let Asked { command, experiment, options, .. } = asking.asked;
    let possessions = compare::possessions(experiment, options);
    let settings = |v: &Variant| Settings { name: v.name.clone(), settings: v.settings.clone() };
    Manifest {
        made: Made {
            program: "zoneprobe".into(),
            version: env!("CARGO_PKG_VERSION").into(),
            command: again::run(command, options, experiment, possessions),
            question: experiment.question.clone(),
            rank_by: asking.rank_by.key.into(),
            baseline: experiment.baseline.clone(),
            seed: options.seed,
            possessions,
            units: units(experiment, options.units),
        },
        variants: experiment.variants.iter().map(settings).collect(),
        build: Build::own(),
        inputs: inputs(experiment).into_iter().map(|(input, _)| input).collect(),
        files: files.iter().map(|(name, _)| name.clone()).chain([Manifest::NAME.to_owned()]).collect(),
        outputs: files.iter().map(|(name, bytes)| Fingerprint::of(name, bytes)).collect(),
        result_digest: sums.digest.to_string(),
        selection: None,
        crashes: crashes(&sums.crashes, experiment).collect(),
    }
}

/// What a design is, in a line.
pub(super) fn in_a_line(experiment: &Experiment) -> String {
    let kind = experiment.design.as_ref().map_or("", |design| design.kind);
    let each = experiment.variants.len() / experiment.cells.len();
    let variants = if each == 1 { String::new() } else { format!(", {each} variants in each") };
    let own_draws = experiment.design.as_ref().is_some_and(|design| design.own_draws);
    let draws = if own_draws { "possessions of their own" } else { "the same possessions" };
    format!("{} cells ({kind}){variants}, on {draws}", grouped(experiment.cells.len() as u64))
}

/// The question, and what was played for it.
fn head(asking: &Asking<'_>, comparison: &Comparison, width: usize) -> String {
    let Asked { experiment, options, .. } = asking.asked;
    format!(
        "{}\n{}; {} of each, seed {}\n\n",
        wrapped(&units(experiment, options.units).retold(&experiment.question), width.min(WIDTH)),
        in_a_line(experiment),
        grouped(comparison.possessions),
        options.seed
    )
}

/// The effects on the ranking column, and what cannot be told.
fn effects_and_remarks(
    asking: &Asking<'_>,
    (comparison, effects): (&Comparison, &Effects),
    (correction, width): (Option<Correction>, usize),
) -> String {
    let rank_by = asking.rank_by;
    let mut text = effects_text(effects, rank_by, (correction, width));
    if effects.on(rank_by).next().is_none() {
        text.push_str(&format!(
            "There is no effect on {} to tell{}.\n",
            rank_by.key,
            if effects.found.is_empty() {
                ""
            } else {
                ", as it is no mean of possessions; others are in effects.csv"
            }
        ));
    }
    if (comparison.possessions as f64) < DEGREES_LEAST + 1.0 {
        let few = format!(
            "With fewer than {} possessions of each nothing is claimed of single cells: {} has no corrected p{}.",
            DEGREES_LEAST + 1.0,
            "differences.csv",
            if asking.has_own_draws() { "" } else { ", nor has effects.csv" }
        );
        text.push_str(&format!("{}\n", wrapped(&few, width.min(WIDTH))));
    }
    text
}

/// Effects, the leading ones, and how to read them.
fn text(asking: &Asking<'_>, (comparison, effects): (&Comparison, &Effects), width: usize) -> String {
    let Asked { experiment, options, .. } = asking.asked;
    let text_width = width.min(WIDTH);
    let mut text = head(asking, comparison, width);
    text.push_str(&effects_and_remarks(asking, (comparison, effects), (Some(options.correction), width)));
    let (count, possessions) = afresh(experiment, comparison.possessions);
    if count > 0 {
        text.push_str(&format!("\n{}\n", leading_table(comparison, count)));
        let seed = options.seed.wrapping_add(1);
        let these = if count == 1 { "this one".to_owned() } else { format!("these {count}") };
        let says = format!(
            "The first of so many look better than they are. So {these} and {}, the one that they are compared with, were \
             played afresh, {} possessions of each with seed {seed}: go by leading/report.html.",
            experiment.baseline,
            grouped(possessions)
        );
        text.push_str(&format!("{}\n", wrapped(&says, text_width)));
    }
    text.push_str(&format!("\n{}\n", wrapped(NOTE, text_width)));
    text
}

fn leading_table(comparison: &Comparison, count: usize) -> Table {
    let (question, mut table) = (&comparison.question, empty());
    let better = if question.rank_by.better == Better::Higher { "most" } else { "least" };
    let head = [format!("{better} {}", question.rank_by.words), String::new()].into_iter();
    table.set_header(head.chain(question.layout.keys.iter().cloned()));
    for &v in &comparison.order[..count] {
        let told = comparison.figure(v, question.rank_by).map(|interval| figure(question.rank_by, &interval));
        let row = [question.variants[v].clone(), told.unwrap_or_default()].into_iter();
        table.add_row(row.chain(question.layout.told(v).skip(1)));
    }
    table
}

/// The design for other programs.
fn page(manifest: &Manifest, comparison: &Comparison, effects: &Effects) -> String {
    let found: Vec<_> = effects
        .found
        .iter()
        .map(|found| {
            let sides = effects.effects[found.effect].sides.iter();
            let interval = found.difference.interval;
            json!({
                "of": sides.map(|s| json!({ "factor": s.key, "from": s.from, "to": s.to })).collect::<Vec<_>>(),
                "measure": found.column.key,
                "change": interval.estimate,
                "low": interval.low,
                "high": interval.high,
                "standard_error": found.difference.standard_error,
                "degrees_of_freedom": found.degrees,
                "p_value": found.difference.p,
                "p_holm": found.p_holm,
                "p_bh": found.p_bh,
                "variance_ratio": found.variance_ratio,
                "error_over_cells": found.error_over_cells,
            })
        })
        .collect();
    let rank_by = comparison.question.rank_by;
    let row = |&v: &usize| json!({ "variant": comparison.question.variants[v], rank_by.key: comparison.figure(v, rank_by).map(|i| i.estimate) });
    let order: Vec<_> = comparison.order.iter().map(row).collect();
    document(
        &json!({ "manifest": manifest, "effects": found, "remarks": effects.remarks, "order": order, "note": NOTE }),
    )
}
