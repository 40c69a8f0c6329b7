//! `find`: possessions of a result picked by what happened in them, listed or filmed.

use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::path::Path;

use scenarios::{Experiment, shown};

use super::film;
use super::handed::{WIDTH, say_where};
use super::recalled::Recalled;
use crate::cli::{FilmOptions, FindOptions, Form, Format};
use crate::console::Console;
use crate::error::Error;
use crate::note::NOTE;
use crate::output::{Reservation, ResultFolder, document, written};
use crate::records::filter::{Column, Columns, Filter, Found, Kind, search};
use crate::records::read::RecordFiles;
use crate::records::{EVENTS, POSSESSIONS, encoded, known};
use crate::wording::grouped;
use crate::wrapping::wrapped;

/// Finds what is asked for; films the first of it, or lists it.
pub fn find(options: &FindOptions, console: &mut Console) -> Result<(), Error> {
    let result = ResultFolder::open(&options.results)?;
    let files = RecordFiles::of(&options.results, &result)?;
    let recalled = Recalled::of(&result.made.command, &result.inputs, &options.results)?;
    let experiment = recalled.experiment();
    let events = files.has(EVENTS).then(|| columns(&files, EVENTS, experiment)).transpose()?;
    let filter = Filter::parse(&options.filter, &columns(&files, POSSESSIONS, experiment)?, events.as_ref())?;
    // Nothing is read for a folder in which nothing can be written.
    let place = match (&options.out, options.list) {
        (_, true) => None,
        (Some(folder), false) => Some(Reservation::named(folder)?),
        (None, false) => {
            let stem = format!("results/found-{}-{}", experiment.key, result.made.seed);
            Some(Reservation::numbered(stem.as_ref())?)
        }
    };
    let only = &experiment.variants[0].name;
    let (found, looked_at) = search(&files, &filter, only)?;
    let first = &found[..found.len().min(options.limit as usize)];
    let text = match options.format {
        Format::Table => table(first, found.len(), looked_at),
        Format::Csv => csv(first),
        Format::Json => json(first, found.len(), looked_at),
    };
    console.print_exactly(&text)?;
    let Some(place) = place.filter(|_| !first.is_empty()) else { return Ok(()) };
    let mut pages = Vec::new();
    for one in first {
        pages.push(filmed(experiment, one, recalled.options.file.as_deref(), result.made.seed)?);
    }
    pages.push(("found.csv".into(), csv(&found).into_bytes()));
    say_where(&place.write(&pages)?, options.quiet, console);
    Ok(())
}

/// The columns of a table that a filter may name, with what the texts among them may be.
fn columns(files: &RecordFiles, table: &str, experiment: &Experiment) -> Result<Columns, Error> {
    let known: BTreeMap<&str, Vec<String>> = known(experiment);
    let column = |name: &str, kind: Kind| {
        let known = known.get(name).cloned().unwrap_or_default();
        Column { name: name.into(), kind, known }
    };
    let schema = files.schema(table)?;
    let mut columns: Columns = Vec::new();
    if schema.index_of("variant").is_err() {
        columns.push(column("variant", Kind::Text));
    }
    columns.extend(schema.fields().iter().map(|field| column(field.name(), Kind::of(field.data_type()))));
    Ok(columns)
}

/// The page of a possession that was found.
fn filmed(
    experiment: &Experiment,
    found: &Found,
    file: Option<&Path>,
    seed: u64,
) -> Result<(String, Vec<u8>), Error> {
    let options = FilmOptions {
        file: file.map(Path::to_path_buf),
        variant: Some(found.variant.clone()),
        beside: None,
        seed,
        possession: found.possession,
        units: None,
        form: Form::Page,
        out: None,
        quiet: true,
    };
    let page = film::page_of(experiment, &options)?;
    Ok((format!("{}-{}.html", encoded(&found.variant), found.possession), page.into_bytes()))
}

fn table(found: &[Found], all: usize, looked_at: u64) -> String {
    let mut text = format!("{} of {} possessions\n", grouped(all as u64), grouped(looked_at));
    let width =
        |name: fn(&Found) -> usize, head: &str| found.iter().map(name).max().unwrap_or(0).max(head.len());
    let variant = width(|one| one.variant.chars().count(), "variant");
    let outcome = width(|one| one.outcome.len(), "outcome");
    if !found.is_empty() {
        let _ = writeln!(
            text,
            "\n{:variant$}  possession  {:outcome$}  points  who had the ball",
            "variant", "outcome"
        );
    }
    for Found { variant: name, possession, outcome: end, points, ball_path } in found {
        let name = shown(name);
        let _ = writeln!(text, "{name:variant$}  {possession:>10}  {end:outcome$}  {points:>6}  {ball_path}");
    }
    if all > found.len() {
        let _ =
            writeln!(text, "and {} more: --limit tells more of them", grouped((all - found.len()) as u64));
    }
    text + "\n" + &wrapped(NOTE, WIDTH) + "\n"
}

fn csv(found: &[Found]) -> String {
    let head = ["variant", "possession", "outcome", "points", "ball_path"].map(String::from).to_vec();
    let rows = found.iter().cloned().map(|one| {
        let Found { variant, possession, outcome, points, ball_path } = one;
        vec![variant, possession.to_string(), outcome, points.to_string(), ball_path]
    });
    String::from_utf8_lossy(&written(head, rows)).into_owned()
}

fn json(found: &[Found], all: usize, looked_at: u64) -> String {
    let rows: Vec<_> = found
        .iter()
        .map(|one| {
            serde_json::json!({
                "variant": one.variant,
                "possession": one.possession,
                "outcome": one.outcome,
                "points": one.points,
                "ball_path": one.ball_path,
            })
        })
        .collect();
    document(&serde_json::json!({ "note": NOTE, "found": all, "looked_at": looked_at, "possessions": rows }))
}
