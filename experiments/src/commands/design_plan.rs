//! `--dry-run` of a design: cells, possessions, effects, and how long it would take, by a pilot.

use std::path::Path;
use std::time::{Duration, Instant};

use engine::Arena;
use scenarios::design::{Cells, Factor};
use scenarios::{Experiment, path_text, shown_lines, shown_path};
use serde_json::json;

use super::again;
use super::design::Asking;
use super::designed::{afresh, in_a_line};
use super::result::Asked;
use crate::cli::Format;
use crate::error::Error;
use crate::layout::Layout;
use crate::output::{document, empty, written};
use crate::places::MOST_WATCHED;
use crate::run::{FIRST, Player};
use crate::wording::grouped;
use crate::wrapping::wrapped;

/// Variants of the pilot, spread evenly over the design.
const PILOTS: usize = 16;
/// Possessions of each.
const PILOT_POSSESSIONS: u64 = 32;
/// Width of running text.
const WIDTH: usize = 100;

/// What a design would do.
pub(super) struct DesignPlan<'a> {
    pub asking: &'a Asking<'a>,
    /// Folder of the result.
    pub folder: &'a Path,
    /// Columns of the terminal.
    pub width: usize,
}

/// How long a design would take.
struct Pilot {
    possessions: u64,
    /// A second, over all threads.
    speed: f64,
}

impl DesignPlan<'_> {
    /// As text in the format that is asked for.
    pub fn told(&self) -> Result<String, Error> {
        let experiment = self.asking.asked.experiment;
        Ok(match self.asking.asked.options.format {
            Format::Table => shown_lines(&self.text()?).into_owned(),
            Format::Csv => cells_csv(experiment),
            Format::Json => self.json()?,
        })
    }

    /// Possessions of the design, and of what is played afresh, at least.
    fn possessions(&self) -> (u64, u64) {
        let (experiment, sketch) = (self.asking.asked.experiment, self.asking.sketch());
        let (count, each) = afresh(experiment, sketch.possessions);
        let variants = if count == 0 { 0 } else { count as u64 + 1 };
        let leaders = if count == 0 { 0 } else { 2 * each.min(MOST_WATCHED) };
        (sketch.in_all(), variants * (each + each.min(FIRST)) + leaders)
    }

    fn text(&self) -> Result<String, Error> {
        let Asked { experiment, options, .. } = self.asking.asked;
        let (design, leading) = self.possessions();
        let pilot = self.pilot()?;
        let mut table = empty();
        table.set_header(["factor", "values"]);
        for (place, factor) in experiment.cells.factors.iter().enumerate() {
            table.add_row([factor.key.clone(), values(factor, place, &experiment.cells)]);
        }
        let threads = if options.threads == 1 { "thread" } else { "threads" };
        let effects = &self.asking.sought.effects;
        let main = effects.iter().filter(|effect| effect.sides.len() == 1).count();
        let (count, each) = afresh(experiment, self.asking.sketch().possessions);
        let mut lines = vec![
            format!(
                "Would play: {}; {} of each, {} in all; seed {}, {} {threads}.",
                in_a_line(experiment),
                grouped(self.asking.sketch().possessions),
                grouped(design),
                options.seed,
                options.threads
            ),
            format!(
                "Would tell: {main} main effects and {} interactions, on {} measures.",
                effects.len() - main,
                self.asking.means.len()
            ),
        ];
        lines.extend(self.asking.sought.remarks.iter().cloned());
        if count > 0 {
            let leading_ones =
                if count == 1 { "leading variant".into() } else { format!("{count} leading variants") };
            lines.push(format!(
                "Then afresh, with seed {}: the {leading_ones} and {}, {} possessions of each; with what their \
                 report takes, at least {} in all.",
                options.seed.wrapping_add(1),
                experiment.baseline,
                grouped(each),
                grouped(leading)
            ));
        }
        lines.push(format!(
            "Would take: about {}, by a pilot of {} possessions ({} a second).",
            duration((design + leading) as f64 / pilot.speed),
            grouped(pilot.possessions),
            grouped(pilot.speed as u64)
        ));
        lines.push(format!("Would rank by: {} ({}).", self.asking.rank_by.key, self.asking.rank_by.words));
        lines.push(format!("Would write to: {}", shown_path(self.folder)));
        lines.push("Nothing was written, and nothing but the pilot played.".into());
        let lines: String = lines.iter().map(|line| wrapped(line, self.width.min(WIDTH)) + "\n").collect();
        let question = wrapped(&experiment.question, self.width.min(WIDTH));
        Ok(format!("{question}\n\n{}\n\n{lines}", table.trim_fmt()))
    }

    /// Plays some possessions of variants from all over the design, on as many threads as the design would have.
    fn pilot(&self) -> Result<Pilot, Error> {
        let (player, all) = (self.asking.player(), self.asking.asked.experiment.variants.len());
        let (threads, count) = (self.asking.asked.options.threads, PILOTS.min(all));
        let own: Vec<usize> = (0..count).map(|nth| nth * all / count).collect();
        let begun = Instant::now();
        std::thread::scope(|scope| {
            let workers: Vec<_> = (0..threads as u64)
                .map(|thread| {
                    let (player, own) = (&player, &own);
                    scope.spawn(move || {
                        let mut seat = player.seat(Arena::WIDTH);
                        for &variant in own {
                            let from = thread * PILOT_POSSESSIONS;
                            player.play(&mut seat, variant, from..from + PILOT_POSSESSIONS, &mut |_| {});
                        }
                    })
                })
                .collect();
            let all = workers.into_iter().map(std::thread::ScopedJoinHandle::join);
            all.map(|joined| joined.map_err(|_| Error::Bug("the pilot broke down".into())))
                .collect::<Result<Vec<()>, _>>()
        })?;
        let possessions = threads as u64 * count as u64 * PILOT_POSSESSIONS;
        let took = begun.elapsed().max(Duration::from_millis(1)).as_secs_f64();
        Ok(Pilot { possessions, speed: possessions as f64 / took })
    }

    fn json(&self) -> Result<String, Error> {
        let Asked { command, experiment, options, .. } = self.asking.asked;
        let sketch = self.asking.sketch();
        let ((design, leading), pilot) = (self.possessions(), self.pilot()?);
        let factors: Vec<_> = experiment
            .cells
            .factors
            .iter()
            .enumerate()
            .map(|(place, factor)| json!({ "key": factor.key, "values": values(factor, place, &experiment.cells) }))
            .collect();
        Ok(document(&json!({
            "command": again::run(command, options, experiment, sketch.possessions),
            "question": experiment.question,
            "rank_by": self.asking.rank_by.key,
            "baseline": experiment.baseline,
            "seed": options.seed,
            "threads": options.threads,
            "cells": sketch.cells,
            "variants_in_each": sketch.variants,
            "possessions": sketch.possessions,
            "possessions_in_all": design + leading,
            "effects": self.asking.sought.effects.len(),
            "remarks": self.asking.sought.remarks,
            "factors": factors,
            "pilot_possessions": pilot.possessions,
            "pilot_possessions_a_second": pilot.speed,
            "seconds": (design + leading) as f64 / pilot.speed,
            "out": path_text(self.folder),
        })))
    }
}

/// What a factor goes over, in words.
fn values(factor: &Factor, place: usize, cells: &Cells) -> String {
    if let Some((low, high)) = factor.range {
        return format!("{low} to {high}");
    }
    let mut told: Vec<&str> = factor.levels.iter().map(String::as_str).collect();
    for cell in &cells.values {
        let own = cell[place].told.as_str();
        if !told.contains(&own) {
            told.push(own);
        }
    }
    let shown: Vec<&str> = told.iter().copied().take(8).collect();
    let more = if told.len() > 8 { format!(" and {} more", told.len() - 8) } else { String::new() };
    format!("{}{more}", shown.join(", "))
}

/// A row a variant with its cell and the values there.
fn cells_csv(experiment: &Experiment) -> String {
    let layout = Layout::of(experiment);
    let header = std::iter::once("variant".to_owned()).chain(layout.headings()).collect();
    let rows = experiment
        .variants
        .iter()
        .enumerate()
        .map(|(v, variant)| std::iter::once(variant.name.clone()).chain(layout.told(v)).collect());
    String::from_utf8(written(header, rows)).expect("written from text")
}

/// A time as people tell it.
fn duration(seconds: f64) -> String {
    let minutes = seconds / 60.0;
    match minutes {
        _ if seconds < 1.5 => "a second".into(),
        minutes if minutes < 1.5 => format!("{seconds:.0} seconds"),
        minutes if minutes < 90.0 => format!("{minutes:.0} minutes"),
        _ => format!("{:.1} hours", minutes / 60.0),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn times_are_told_in_the_unit_that_fits() {
        let told = [0.2, 44.0, 100.0, 3_000.0, 7_000.0].map(duration);
        assert_eq!(told, ["a second", "44 seconds", "2 minutes", "50 minutes", "1.9 hours"]);
    }
}
