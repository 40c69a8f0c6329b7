//! `--dry-run`: what would be played and where it would be written. Nothing is.

use std::path::Path;

use comfy_table::{LineStyle, Table, TableStyle};
use scenarios::{Experiment, path_text, shown_lines, shown_path};
use serde_json::json;

use super::again;
use super::varied::noun;
use crate::cli::{Format, RunOptions};
use crate::columns::Column;
use crate::output::{document, written};
use crate::places::MOST_WATCHED;
use crate::records::{Layout, Records};
use crate::run::FIRST;
use crate::stats::looks;
use crate::verdict::NET;
use crate::wording::{grouped, listed};
use crate::wrapping::wrapped;

/// Width of running text.
const WIDTH: usize = 100;

/// Bytes of a possession in the records, with its events and without: a million of `plain-122` have 869 and 179 MB.
const BYTES_WITH_EVENTS: u64 = 870;
const BYTES_OF_POSSESSION: u64 = 180;

/// What would be played again under the zone's answers.
#[derive(Clone, Copy, Debug)]
pub struct Again {
    /// Variants times rules.
    pub answers: u64,
    /// Possessions of each.
    pub each: u64,
    /// Just so many, not fewer.
    pub exact: bool,
}

/// What a run would do.
pub struct Intent<'a> {
    /// `compare` or `simulate`.
    pub command: &'a str,
    /// What is asked.
    pub experiment: &'a Experiment,
    /// Ranking column.
    pub rank_by: &'static Column,
    /// Possessions for each variant.
    pub possessions: u64,
    /// What would be played again under the zone's answers.
    pub again: Option<Again>,
    /// Folder of the results.
    pub folder: &'a Path,
    /// Columns of the terminal.
    pub width: usize,
}

impl Intent<'_> {
    /// As text in the format that is asked for.
    pub fn told(&self, options: &RunOptions) -> String {
        match options.format {
            Format::Table => shown_lines(&self.text(options)).into_owned(),
            Format::Csv => self.rows(),
            Format::Json => self.json(options),
        }
    }

    /// Possessions that are compared, of all variants.
    fn compared(&self) -> u64 {
        self.possessions * self.experiment.variants.len() as u64
    }

    /// Possessions of each variant that are played once more, to see what was run.
    fn watched(&self) -> u64 {
        self.possessions.min(FIRST)
    }

    /// All possessions that are played, at most.
    fn in_all(&self, options: &RunOptions) -> u64 {
        let again = self.again.map_or(0, |again| again.answers * again.each);
        let watched = self.watched() * self.experiment.variants.len() as u64;
        let choosing = self.choosing(options).unwrap_or_default();
        choosing + self.compared() + again + watched + self.leaders() * self.chosen()
    }

    /// Possessions that choose, at most; None where nothing is chosen before.
    fn choosing(&self, options: &RunOptions) -> Option<u64> {
        let budget = options.until_sure?.budget;
        Some(options.stop_at.unwrap_or(budget) * self.experiment.variants.len() as u64)
    }

    /// What is played before, to choose.
    fn before(&self, options: &RunOptions) -> Option<String> {
        let (until, most) = (options.until_sure?, self.choosing(options)?);
        let most_of_each = options.stop_at.unwrap_or(until.budget);
        let looks = looks(until.budget).into_iter().filter(|look| *look <= most_of_each);
        let looks: Vec<String> = looks.map(grouped).collect();
        Some(format!(
            "Before that, until it is sure to within {} (in the unit of {}): at most {} possessions of each, {} in all, looked \
             at after {} of each. Then those that are left, and {}, at most all of them:",
            until.margin,
            self.rank_by.key,
            grouped(most_of_each),
            grouped(most),
            listed(&looks),
            self.experiment.baseline
        ))
    }

    /// Leaders, at most: two where the ranking measure is not net points.
    fn leaders(&self) -> u64 {
        let one = self.experiment.variants.len() == 1 || self.rank_by.key == NET;
        if one { 1 } else { 2 }
    }

    /// Possessions of each leader that are played once more, to see what is done with the ball.
    fn chosen(&self) -> u64 {
        self.possessions.min(MOST_WATCHED)
    }

    /// What is played besides what is compared.
    fn besides(&self, options: &RunOptions) -> Vec<String> {
        let answers = self.again.map(|again| {
            let most = if again.exact { "" } else { "at most " };
            let total = grouped(again.answers * again.each);
            format!(
                "Then, under the zone's help rules: {most}{} times {} more, {total} in all.",
                again.answers,
                grouped(again.each)
            )
        });
        let watched = self.watched() * self.experiment.variants.len() as u64;
        let watched = format!(
            "To see what was run: the first {} of each once more, {} in all.",
            grouped(self.watched()),
            grouped(watched)
        );
        let (leaders, chosen) = (self.leaders(), self.chosen());
        let most = if leaders > 1 || options.until_sure.is_some() { "at most " } else { "" };
        let chosen = format!(
            "To see what the leaders do with the ball: {most}{leaders} times {} once more, {} in all.",
            grouped(chosen),
            grouped(leaders * chosen)
        );
        let together = format!("Possessions played together: {most}{}.", grouped(self.in_all(options)));
        answers.into_iter().chain([watched, chosen, together]).collect()
    }

    fn text(&self, options: &RunOptions) -> String {
        let Self { experiment, possessions, folder, .. } = self;
        let variants = &experiment.variants;
        let (line, one) = (|c| LineStyle::none().fill(c).junction(c), variants.len() == 1);
        let mut table = Table::new();
        table
            .load_style(TableStyle::new().header_separator(line('─')).bottom_border(line('─')))
            .force_no_tty();
        table.set_header([noun(experiment), "what it changes"]);
        for variant in variants {
            let settings: Vec<String> =
                variant.settings.iter().map(|(path, value)| format!("{path} = {value}")).collect();
            let settings = if settings.is_empty() { "nothing".into() } else { settings.join("\n") };
            table.add_row([variant.name.clone(), settings]);
        }
        let each = if one {
            String::new()
        } else {
            format!(" for each {}, {} in all", noun(experiment), grouped(self.compared()))
        };
        let threads = if options.threads == 1 { "thread" } else { "threads" };
        let mut lines: Vec<String> = self.before(options).into_iter().collect();
        lines.push(format!(
            "Would play: {} possessions{each}; seed {}, {} {threads}.",
            grouped(*possessions),
            options.seed,
            options.threads
        ));
        lines.extend(self.besides(options));
        if !one {
            lines.push(format!(
                "Would rank by: {} ({}), against {}.",
                self.rank_by.key, self.rank_by.words, experiment.baseline
            ));
        }
        lines.extend(self.records(options));
        lines.push(format!("Would write to: {}", shown_path(folder)));
        lines.push(format!("Inputs read: {}.", self.inputs()));
        lines.push("Nothing was played or written.".into());
        let lines: String = lines.iter().map(|line| wrapped(line, self.width.min(WIDTH)) + "\n").collect();
        format!("{}\n\n{}\n\n{lines}", wrapped(&experiment.question, self.width.min(WIDTH)), table.trim_fmt())
    }

    /// What records would take, if there are to be some.
    fn records(&self, options: &RunOptions) -> Option<String> {
        let (records, variants) = (options.records?, self.experiment.variants.len());
        let megabytes = self.record_bytes(options)?.div_ceil(1_000_000);
        let files = match Layout::of(variants, self.possessions, options.divide_records) {
            Layout::OneFile => "a file of each table",
            Layout::ByVariant => "a folder for each variant",
        };
        let before = if options.until_sure.is_some() { "at most " } else { "" };
        let twice = "as much again while they are put together";
        Some(format!("Records ({records}): {before}about {} MB, {files}; {twice}.", grouped(megabytes)))
    }

    /// Bytes of the records, about.
    fn record_bytes(&self, options: &RunOptions) -> Option<u64> {
        let each = match options.records? {
            Records::Events => BYTES_WITH_EVENTS,
            Records::Possessions => BYTES_OF_POSSESSION,
        };
        Some(self.compared() * each)
    }

    /// The user's files by name, the bundled ones by number.
    fn inputs(&self) -> String {
        let names = self.experiment.inputs.iter().map(|input| input.name.as_str());
        let (bundled, mut own): (Vec<&str>, Vec<&str>) = names.partition(|name| name.starts_with("bundled:"));
        let bundled = format!("{} bundled files", bundled.len());
        own.push(&bundled);
        listed(&own)
    }

    /// A row a setting; a variant that changes nothing has one without key and value.
    fn rows(&self) -> String {
        let mut rows: Vec<[&str; 3]> = Vec::new();
        for variant in &self.experiment.variants {
            if variant.settings.is_empty() {
                rows.push([&variant.name, "", ""]);
            }
            rows.extend(variant.settings.iter().map(|(path, value)| [variant.name.as_str(), path, value]));
        }
        let row = |row: [&str; 3]| row.map(String::from).to_vec();
        String::from_utf8(written(row(["variant", "key", "value"]), rows.into_iter().map(row)))
            .expect("written from text")
    }

    fn json(&self, options: &RunOptions) -> String {
        let experiment = self.experiment;
        let variants: Vec<_> = experiment
            .variants
            .iter()
            .map(|variant| {
                let settings: serde_json::Map<String, serde_json::Value> = variant
                    .settings
                    .iter()
                    .map(|(path, value)| (path.clone(), value.clone().into()))
                    .collect();
                json!({ "name": variant.name, "settings": settings })
            })
            .collect();
        let inputs: Vec<&str> = experiment.inputs.iter().map(|input| input.name.as_str()).collect();
        let page = json!({
            "command": again::run(self.command, options, experiment, self.possessions),
            "question": experiment.question,
            "rank_by": self.rank_by.key,
            "baseline": experiment.baseline,
            "seed": options.seed,
            "threads": options.threads,
            "possessions": self.possessions,
            "possessions_in_all": self.in_all(options),
            "until_sure": options.until_sure.map(|until| json!({ "margin": until.margin, "budget": until.budget, "stop_at": options.stop_at })),
            "record_bytes": self.record_bytes(options),
            "out": path_text(self.folder),
            "variants": variants,
            "inputs": inputs,
        });
        document(&page)
    }
}
