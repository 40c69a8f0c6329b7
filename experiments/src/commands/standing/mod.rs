//! `--resume --dry-run`: what a stopped run has come to so far. Nothing is played or written.

use std::path::Path;

use scenarios::{shown_lines, shown_path};

pub(super) mod of_choice;
pub(super) mod of_design;

use super::beside::units;
use super::compare::{plan, run_of};
use super::result::Asked;
use crate::cli::Format;
use crate::columns::ratios;
use crate::compare::{Comparison, Question};
use crate::console::Console;
use crate::error::Error;
use crate::kept::parts::gather;
use crate::output::{Run, comparison_csv};
use crate::sheet;
use crate::verdict::Verdict;
use crate::wording::grouped;
use crate::wrapping::wrapped;

/// Width of running text.
const WIDTH: usize = 100;

/// Shows the rows of the possessions that are there from the first one on without a gap: those of a run of so many.
pub(super) fn standing(
    asked: &Asked<'_>,
    question: Question,
    folder: &Path,
    console: &mut Console,
) -> Result<(), Error> {
    let (ratios, own) = (ratios(), run_of(asked));
    let plan = plan(asked, &ratios);
    let all = plan.possessions.end - plan.possessions.start;
    let played = gather(folder, &own, &plan, true).there.played.in_order();
    let so_far = played.totals.possessions();
    let shard = own.shard.map_or_else(String::new, |shard| format!("shard {shard}, "));
    let told = format!("{shard}{} of {} possessions of each", grouped(so_far), grouped(all));
    if so_far == 0 {
        let choice = asked.selected.map_or_else(String::new, |selected| {
            format!(" of what the choice has left. {}", selected.selection.choice(question.noun))
        });
        return Err(Error::Option(format!("{} keeps {told} from the first on{choice}", shown_path(folder))));
    }
    let comparison = Comparison::new(question, &played.totals);
    let verdict = verdict(asked, &comparison, &played.totals);
    let shown = match asked.options.format {
        Format::Table => {
            let units = units(asked.experiment, asked.options.units);
            let run = Run { seed: asked.options.seed, width: console.width, units, correction: None };
            let text = asked.text(&comparison, &verdict.told_in(units), run);
            let how_far = match asked.selected {
                None => format!("{told}. {NO_VERDICT}"),
                Some(_) => format!("{told} that measure. What is said of the choice stands."),
            };
            shown_lines(&format!("{}\n{text}", not_whole(&how_far, console.width))).into_owned()
        }
        Format::Csv => String::from_utf8_lossy(&comparison_csv(&comparison)).into_owned(),
        Format::Json => return Err(no_json()),
    };
    if !asked.options.quiet {
        console.say(&format!("so far in {}: {told}\n", shown_path(folder)));
    }
    Ok(console.print_exactly(&shown)?)
}

/// Said of what was not played as far as was asked for.
const NO_VERDICT: &str =
    "Nothing here is a verdict: who looks often and ends when it looks good finds what is not there.";

/// Says in the text itself that it is none of a whole run: it may be copied without what is said beside it.
fn not_whole(told: &str, width: usize) -> String {
    wrapped(&format!("Not whole: {told}"), width.min(WIDTH)) + "\n"
}

fn no_json() -> Error {
    Error::Option("of a stopped run there is a table, or --format csv".into())
}

fn verdict(asked: &Asked<'_>, comparison: &Comparison, totals: &crate::stats::Totals) -> Verdict {
    let by_net = sheet::by_net(&comparison.question, totals);
    let mut verdict =
        Verdict::new(comparison, &by_net).by_setting(asked.experiment, totals, comparison.question.rank_by);
    verdict.selection = asked.selected.map(|selected| selected.selection.clone());
    verdict
}
