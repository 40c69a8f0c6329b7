//! What a stopped choice has come to: where each variant stood at the last look that is kept. A look is final, so reading it
//! changes nothing of what may be claimed later.

use std::path::Path;

use comfy_table::Cell;
use scenarios::{shown_lines, shown_path};

use super::super::beside::units;
use super::super::result::Asked;
use super::super::until_sure::{Chosen, so_far};
use super::{WIDTH, no_json, not_whole};
use crate::cli::Format;
use crate::compare::Question;
use crate::console::Console;
use crate::error::Error;
use crate::gains::counted;
use crate::note::NOTE;
use crate::output::{empty, file, right};
use crate::run::BLOCK;
use crate::selection::{Racing, Selected, SoFar};
use crate::stats::{Place, UntilSure};
use crate::wording::{bare, grouped};
use crate::wrapping::wrapped;

/// Shows the last look of a choice that is on; of one that has ended, what has been measured since.
pub(in super::super) fn standing(
    asked: &Asked<'_>,
    until: UntilSure,
    (question, folder): (Question, &Path),
    console: &mut Console,
) -> Result<(), Error> {
    match so_far(asked, until, (&question, folder)) {
        SoFar::On(racing) => on(asked, until, (&question, folder, *racing), console),
        SoFar::Ended(selected) => {
            let chosen = Chosen::of(asked, &question, *selected);
            let (asked, question) = asked.after(Some(&chosen), question)?;
            super::standing(&asked, question, folder, console)
        }
    }
}

/// Of a choice that has not ended.
fn on(
    asked: &Asked<'_>,
    until: UntilSure,
    (question, folder, racing): (&Question, &Path, Racing),
    console: &mut Console,
) -> Result<(), Error> {
    let looked_at = racing.looked_at();
    let told = format!(
        "{} of at most {} possessions of each that is left",
        grouped(looked_at),
        grouped(until.budget)
    );
    if looked_at == 0 {
        let kept = if until.budget > BLOCK {
            ""
        } else {
            "; a choice of one block is kept nowhere, it is as soon played again"
        };
        return Err(Error::Option(format!("{} keeps no whole look yet: {told}{kept}", shown_path(folder))));
    }
    if !asked.options.quiet {
        console.say(&format!("so far in {}: a choice after {told}\n", shown_path(folder)));
    }
    let shown = match asked.options.format {
        Format::Table => shown_lines(&table(asked, (question, &racing, &told), console.width)).into_owned(),
        Format::Csv => String::from_utf8_lossy(&file(stopped(racing).lines()).1).into_owned(),
        Format::Json => return Err(no_json()),
    };
    Ok(console.print_exactly(&shown)?)
}

fn stopped(mut racing: Racing) -> Selected {
    racing.stop();
    racing.selected()
}

fn table(asked: &Asked<'_>, (question, racing, told): (&Question, &Racing, &str), width: usize) -> String {
    let (column, options) = (question.rank_by, asked.options);
    let mut table = empty();
    table.set_header([
        Cell::new(question.noun),
        right(counted(column)),
        right("less the one ahead then *".into()),
        Cell::new("stands"),
    ]);
    for (v, name) in question.variants.iter().enumerate() {
        let Some((look, standing)) = racing.last_seen(v) else { continue };
        let value = |value| bare(column, value);
        let behind = standing.behind;
        let (less, stands) = match standing.place {
            Place::Ahead => ("-".to_owned(), "ahead".to_owned()),
            place => (
                format!("{} ({} to {})", value(behind.estimate), value(behind.low), value(behind.high)),
                if place == Place::Left {
                    "left".to_owned()
                } else {
                    format!("dropped at {}", grouped(look.possessions))
                },
            ),
        };
        table.add_row([Cell::new(name), right(value(standing.estimate)), right(less), Cell::new(stands)]);
    }
    let text_width = width.min(WIDTH);
    let question = wrapped(&units(asked.experiment, options.units).retold(&question.text), text_width);
    let looks = racing.looks().len();
    let told = format!(
        "a choice by {}, after {told}, seed {}, {looks} {}.",
        column.words,
        options.seed,
        if looks == 1 { "look" } else { "looks" }
    );
    let legend = "* In brackets: intervals that are safe for all pairs and all looks at once. What was dropped stays dropped; \
                  between those left nothing is chosen yet. --resume goes on.";
    format!(
        "{}\n{question}\n\n{}\n{}\n\n{}\n",
        not_whole(&told, width),
        table.trim_fmt(),
        wrapped(legend, text_width),
        wrapped(NOTE, text_width)
    )
}
