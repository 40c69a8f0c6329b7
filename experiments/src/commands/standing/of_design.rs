//! What a stopped design has come to: its effects by the blocks of possessions that every cell has been played, and before there
//! is one the cells that are whole.

use scenarios::{shown_lines, shown_path};

use super::super::compare::{check_same, run_of, stopped};
use super::super::design::Asking;
use super::super::designed::Reading;
use super::super::result::Asked;
use crate::cli::{Format, RunOptions};
use crate::console::Console;
use crate::design::{BLOCK, Sketch, Sums, id, kept};
use crate::error::Error;
use crate::kept::parts::run_in;
use crate::wording::grouped;

/// What is there of a design or its shard.
struct There {
    /// Possessions, all variants counted.
    played: u64,
    /// The same of all of it.
    in_all: u64,
    /// Possessions of each that all cells have, from the first block on that this part has whole.
    of_each: u64,
    sums: Sums,
}

/// Shows what a stopped design has come to.
pub(in super::super) fn standing(asking: &Asking<'_>, console: &mut Console) -> Result<(), Error> {
    let Asked { options, .. } = asking.asked;
    let (sketch, run) = (asking.sketch(), run_of(&asking.asked));
    let folder = stopped(&asking.asked)?;
    check_same(&folder, &run, &run_in(&folder)?)?;
    let parts = sketch.parts_of(run.shard);
    let there = there(&sketch, (&folder, &id(&run, &sketch)), parts);
    let so_far = format!("{} of {} possessions", grouped(there.played), grouped(there.in_all));
    if there.played == 0 {
        return Err(Error::Option(format!("{} keeps {so_far}", shown_path(&folder))));
    }
    let is_everywhere = there.of_each > 0;
    let each = if is_everywhere { there.of_each } else { sketch.possessions.min(BLOCK) };
    let cells = there.sums.cells.iter().filter(|cell| cell.possessions() == each).count();
    if !options.quiet {
        let told = if is_everywhere {
            format!("{} of each in every cell", grouped(each))
        } else {
            format!(
                "{} cells of {} have {}; effects are told when all have",
                grouped(cells as u64),
                grouped(sketch.cells as u64),
                grouped(each)
            )
        };
        console.say(&format!("so far in {}: {so_far}: {told}\n", shown_path(&folder)));
    }
    let options = RunOptions { possessions: Some(each), ..options.clone() };
    let asking = Asking::new(Asked { options: &options, ..asking.asked })?;
    let reading = Reading::new(&asking, &there.sums)?;
    let shown = match options.format {
        Format::Table if is_everywhere => {
            shown_lines(&reading.effects_told(&asking, console.width)).into_owned()
        }
        Format::Table => shown_lines(&reading.cells_told(&asking, console.width)).into_owned(),
        Format::Csv => String::from_utf8_lossy(&reading.rows()).into_owned(),
        Format::Json => {
            return Err(Error::Option("of a stopped run there is a table, or --format csv".into()));
        }
    };
    Ok(console.print_exactly(&shown)?)
}

/// Reads the blocks, one after the other, that all cells have; where the first is not whole, what there is of it.
fn there(
    sketch: &Sketch<'_>,
    (folder, id): (&std::path::Path, &str),
    parts: Vec<crate::design::Part>,
) -> There {
    let in_all = parts.iter().map(|part| sketch.size(part)).sum::<u64>();
    let (missing, _) = kept(folder, id, (sketch, parts.clone()), &mut Sums::nothing(sketch));
    let played = in_all - missing.iter().map(|part| sketch.size(part)).sum::<u64>();
    // A shard may begin and end in the middle of a block.
    let cells_of = |block: usize| {
        parts.iter().filter(|part| part.block == block).map(|part| part.cells.len()).sum::<usize>()
    };
    let blocks = || parts.iter().map(|part| part.block);
    let first =
        blocks().find(|block| cells_of(*block) == sketch.cells).or_else(|| blocks().next()).unwrap_or(0);
    let is_whole =
        |block: usize| cells_of(block) == sketch.cells && missing.iter().all(|part| part.block != block);
    let end = (first..).find(|block| !is_whole(*block)).unwrap_or(first);
    let read = first..end.max(first + 1);
    let own = parts.iter().filter(|part| read.contains(&part.block)).cloned().collect();
    let mut sums = Sums::nothing(sketch);
    let _ = kept(folder, id, (sketch, own), &mut sums);
    let of_each = if end > first { sums.cells.first().map_or(0, |cell| cell.possessions()) } else { 0 };
    There { played, in_all, of_each, sums }
}
