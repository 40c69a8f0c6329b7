//! What a stopped design has come to: its effects by blocks of possessions that every cell has been played, and before there is
//! one the cells that are whole.

use std::path::{Path, PathBuf};

use scenarios::{shown_lines, shown_path};

use super::super::compare::{check_same, run_of, stopped};
use super::super::design::Asking;
use super::super::designed::Reading;
use super::super::result::Asked;
use super::{NO_VERDICT, no_json, not_whole};
use crate::cli::{Format, RunOptions};
use crate::console::Console;
use crate::design::{Part, Sketch, Sums, id, kept};
use crate::error::Error;
use crate::kept::parts::run_in;
use crate::stats::Totals;
use crate::wording::grouped;

/// What is there of a design or its shard.
struct There {
    /// Possessions, all variants counted.
    played: u64,
    /// The same of all of it.
    in_all: u64,
    /// Possessions of each variant that is there.
    of_each: u64,
    /// Cells that have them.
    cells: usize,
    sums: Sums,
    damaged: Vec<PathBuf>,
}

/// Shows what a stopped design has come to.
pub(in super::super) fn standing(asking: &Asking<'_>, console: &mut Console) -> Result<(), Error> {
    let Asked { options, .. } = asking.asked;
    let (sketch, run) = (asking.sketch(), run_of(&asking.asked));
    let folder = stopped(&asking.asked)?;
    check_same(&folder, &run, &run_in(&folder)?)?;
    let there = there(&sketch, (&folder, &id(&run, &sketch)), &sketch.parts_of(run.shard));
    for path in &there.damaged {
        console.say(&format!("zoneprobe: {} is damaged\n", shown_path(path)));
    }
    let shard = run.shard.map_or_else(String::new, |shard| format!("shard {shard}, "));
    let so_far = format!("{shard}{} of {} possessions", grouped(there.played), grouped(there.in_all));
    if there.cells == 0 {
        return Err(Error::Option(format!(
            "{} keeps {so_far}, and no cell that is whole",
            shown_path(&folder)
        )));
    }
    let is_everywhere = there.cells == sketch.cells;
    let each = grouped(there.of_each);
    let told = if is_everywhere {
        format!("{so_far}, {each} of each in every cell")
    } else {
        let (cells, all) = (grouped(there.cells as u64), grouped(sketch.cells as u64));
        format!(
            "{so_far}, {each} of each in {cells} cells of {all}; effects are told where all cells have some"
        )
    };
    if !options.quiet {
        console.say(&format!("so far in {}: {told}\n", shown_path(&folder)));
    }
    let options = RunOptions { possessions: Some(there.of_each), ..options.clone() };
    let asking = Asking::new(Asked { options: &options, ..asking.asked })?;
    let reading = Reading::new(&asking, &there.sums)?;
    let how = (&*not_whole(&format!("{told}. {NO_VERDICT}"), console.width), console.width);
    let shown = match options.format {
        Format::Table if is_everywhere => shown_lines(&reading.effects_told(&asking, how)).into_owned(),
        Format::Table => shown_lines(&reading.cells_told(&asking, how)).into_owned(),
        Format::Csv => String::from_utf8_lossy(&reading.rows()).into_owned(),
        Format::Json => return Err(no_json()),
    };
    Ok(console.print_exactly(&shown)?)
}

/// Reads the first blocks, one after the other, that all cells have; without one, the cells of the first block that has any.
/// Which parts are there goes by who was quicker, so later ones are left out.
fn there(sketch: &Sketch<'_>, (folder, id): (&Path, &str), parts: &[Part]) -> There {
    let size = |parts: &[Part]| parts.iter().map(|part| sketch.size(part)).sum::<u64>();
    let (missing, damaged) = kept(folder, id, (sketch, parts.to_vec()), &mut Sums::nothing(sketch));
    let (in_all, played) = (size(parts), size(parts) - size(&missing));
    let is_there = |part: &&Part| !missing.contains(part);
    let cells = |block: usize| {
        let own = parts.iter().filter(|part| part.block == block).filter(is_there);
        own.map(|part| part.cells.len()).sum::<usize>()
    };
    let blocks = || parts.first().map_or(0, |part| part.block)..=parts.last().map_or(0, |part| part.block);
    let whole = blocks().find(|block| cells(*block) == sketch.cells);
    let first = whole.or_else(|| blocks().find(|block| cells(*block) > 0)).unwrap_or_default();
    let end =
        (first + 1..).find(|block| whole.is_none() || cells(*block) < sketch.cells).unwrap_or(first + 1);
    let own: Vec<Part> =
        parts.iter().filter(|part| (first..end).contains(&part.block)).filter(is_there).cloned().collect();
    let mut sums = Sums::nothing(sketch);
    // Read a moment ago: what has gone since is missing from the sums, and so from what is told.
    let _ = kept(folder, id, (sketch, own), &mut sums);
    let of_each = sums.cells.iter().map(Totals::possessions).max().unwrap_or(0);
    let cells = sums.cells.iter().filter(|cell| of_each > 0 && cell.possessions() == of_each).count();
    There { played, in_all, of_each, cells, sums, damaged }
}
