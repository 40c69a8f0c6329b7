//! Tables of comma-separated values that stand by themselves: sightings, charts, rosters and squads.

use std::path::Path;
use std::sync::Arc;

use crate::declared::Table;
use crate::fault::{Fault, Faults, Problem};
use crate::load::close;
use crate::rows;
use crate::schema::chart::{self, Calls, Charted, Wearer};
use crate::schema::player::{self, squad, squad::Squad};
use crate::schema::sightings::{self, Sightings};
use crate::shelf::Source;
use crate::source::Desk;
use crate::text::path_text;

/// Reads a table of sightings: how often each answer to each of [`crate::ASKED`] was seen.
///
/// # Errors
/// Every fault of the table, by row and column.
pub fn sightings(file: &Path) -> Result<(Sightings, Arc<Source>), Faults> {
    let desk = Desk::default();
    let found = desk.open_table(file, sightings::COLUMNS).map(|rows| sightings::read(&desk, &rows));
    let (seen, mut sources) = close(desk, found)?;
    let source = sources.pop().ok_or_else(Faults::default)?;
    Ok((seen, source))
}

/// Reads a chart: a possession a row, or several rows one under another. What was called is one of `calls`; `players` may be
/// named in the place of their positions.
///
/// # Errors
/// Every fault of the table, by row and column; a table without a possession.
pub fn chart(
    file: &Path,
    calls: &[String],
    players: &[Wearer],
) -> Result<(Vec<Charted>, Arc<Source>), Faults> {
    let desk = Desk::default();
    let calls = Calls { variants: Some(calls), players };
    let found = desk.open_table(file, chart::COLUMNS).map(|rows| chart::read(&desk, &rows, &calls));
    let (charted, mut sources) = close(desk, found)?;
    let source = sources.pop().ok_or_else(Faults::default)?;
    if charted.is_empty() {
        return Err(Faults::one(no_possession(file)));
    }
    Ok((charted, source))
}

fn no_possession(file: &Path) -> Fault {
    let problem = Problem::NotAllowed {
        found: "no possession".into(),
        allowed: "a row a possession under the line of headings".into(),
        nearest: None,
    };
    Fault::of_file(path_text(file), problem)
}

/// The cells of a roster as they were written, its headings first. What stands in them is judged by whoever plays with it.
///
/// # Errors
/// It cannot be read; a heading is none of a player's keys; a row is too long.
pub fn roster(file: &Path) -> Result<(Vec<Vec<String>>, Arc<Source>), Faults> {
    let desk = Desk::default();
    let found = desk.open_table(file, &player::PLAYER);
    let (_, mut sources) = close(desk, found)?;
    let source = sources.pop().ok_or_else(Faults::default)?;
    Ok((rows::cells(&source.text), source))
}

/// Reads a squad: players, each with the places that he may play.
///
/// # Errors
/// Every fault of its headings and of what is said of each player, by row and column. Times are judged by whoever plays with
/// him, since they are held against those of the others.
pub fn squad(file: &Path) -> Result<Squad, Faults> {
    let desk = Desk::default();
    let found = desk.open_table(file, &player::PLAYER).map(|rows| squad::read(&desk, &rows));
    let (candidates, mut sources) = close(desk, found)?;
    let source = sources.pop().ok_or_else(Faults::default)?;
    Squad::new(source, candidates)
}

/// Whether a file is a table by its name.
pub(crate) fn is_table(file: &Path) -> bool {
    file.extension().is_some_and(|ending| ending.eq_ignore_ascii_case("csv"))
}

/// Checks a table of the kind that most of its headings are of; what is wrong is noted.
pub(crate) fn check(desk: &Desk, file: &Path) -> Option<&'static str> {
    let headings = desk.headings(file)?;
    let shared = |columns: &'static Table| {
        headings.iter().filter(|own| columns.fields().any(|field| field.key.name == own.as_str())).count()
    };
    let counts = [sightings::COLUMNS, chart::COLUMNS, &player::PLAYER].map(shared);
    let most = counts.into_iter().max().unwrap_or(0);
    match counts.iter().position(|count| *count == most).filter(|_| most > 0) {
        Some(0) => {
            sightings::read(desk, &*desk.open_table(file, sightings::COLUMNS)?);
            Some("sightings")
        }
        Some(1) => {
            let rows = desk.open_table(file, chart::COLUMNS)?;
            if chart::read(desk, &rows, &Calls { variants: None, players: &[] }).is_empty() {
                desk.note(no_possession(file));
            }
            Some("chart")
        }
        Some(_) => {
            let has = |heading: &str| headings.iter().any(|own| own == heading);
            let rows = desk.open_table(file, &player::PLAYER)?;
            if has("plays") && !has("role") {
                squad::read(desk, &rows);
                return Some("squad");
            }
            player::judge_rows(desk, &rows);
            Some("roster")
        }
        None => {
            let problem = Problem::NotAllowed {
                found: "no heading by which a table is known".into(),
                allowed: "those of a roster (role, name, open_threes, ...), a squad (plays, name, ...), sightings (look, seen, \
                          times) or a chart (possession, end, who, ...) in the first line"
                    .into(),
                nearest: None,
            };
            desk.note(Fault::of_file(path_text(file), problem));
            None
        }
    }
}
