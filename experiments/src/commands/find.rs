//! `find`: possessions of a result picked by what happened in them, listed or filmed.

use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::fs::{self, File};
use std::io::{BufWriter, Write as _};
use std::path::PathBuf;

use scenarios::{Experiment, shown};

use super::film;
use super::handed::{WIDTH, say_where};
use super::recalled::Recalled;
use super::reproduce::made_by;
use crate::cli::{FilmOptions, FindOptions, Form, Format};
use crate::console::Console;
use crate::error::Error;
use crate::kept::Build;
use crate::note::NOTE;
use crate::output::{Reservation, ResultFolder, document, written};
use crate::records::filter::{Column, Columns, Filter, Found, Kind, search};
use crate::records::read::RecordFiles;
use crate::records::{EVENTS, POSSESSIONS, encoded, known};
use crate::wording::grouped;
use crate::wrapping::wrapped;

/// This program's version.
const OWN: &str = env!("CARGO_PKG_VERSION");

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
    let mut first = Vec::new();
    let mut list = place.as_ref().map(List::begin).transpose()?;
    let mut all = 0;
    let looked_at = search(&files, &filter, &mut |found| {
        all += 1;
        list.as_mut().map_or(Ok(()), |list| list.add(&found))?;
        if first.len() < options.limit as usize {
            first.push(found);
        }
        Ok(())
    })?;
    let text = match options.format {
        Format::Table => table(&first, all, looked_at),
        Format::Csv => String::from_utf8_lossy(&csv(&first)).into_owned(),
        Format::Json => json(&first, all, looked_at),
    };
    console.print_exactly(&text)?;
    let (Some(place), Some(list)) = (place, list) else { return Ok(()) };
    if first.is_empty() {
        return Ok(());
    }
    let mut names = vec![list.end()?];
    for one in &first {
        let name = page_name(experiment, one);
        let page = filmed(experiment, one, &recalled, &result)?;
        let path = place.draft()?.join(&name);
        fs::write(&path, page).map_err(|source| Error::Write { path, source })?;
        names.push(name);
    }
    let written = place.write_with::<_>(&names, &[] as &[(&str, Vec<u8>)])?;
    say_where(&written, options.quiet, console);
    Ok(())
}

/// The list of all that is found, written as it comes.
struct List {
    path: PathBuf,
    file: BufWriter<File>,
}

impl List {
    const NAME: &str = "found.csv";

    fn begin(place: &Reservation) -> Result<Self, Error> {
        let path = place.draft()?.join(Self::NAME);
        match File::create_new(&path).and_then(|mut file| file.write_all(&csv(&[])).map(|()| file)) {
            Ok(file) => Ok(Self { path, file: BufWriter::new(file) }),
            Err(source) => Err(Error::Write { path, source }),
        }
    }

    fn add(&mut self, found: &Found) -> Result<(), Error> {
        let line = written(row(found), std::iter::empty());
        self.file.write_all(&line).map_err(|source| Error::Write { path: self.path.clone(), source })
    }

    /// Its name, now that all of it is there.
    fn end(self) -> Result<String, Error> {
        let Self { path, mut file } = self;
        file.flush().map_err(|source| Error::Write { path, source })?;
        Ok(Self::NAME.into())
    }
}

/// The columns of a table that a filter may name, with what the texts among them may be.
fn columns(files: &RecordFiles, table: &str, experiment: &Experiment) -> Result<Columns, Error> {
    let known: BTreeMap<String, Vec<String>> = known(experiment);
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

/// A name of more bytes is the variant's number in the plan instead. (a choice: most file systems take 255)
const NAME_MOST: usize = 200;

fn page_name(experiment: &Experiment, found: &Found) -> String {
    let mut name = encoded(&found.variant);
    if name.len() > NAME_MOST {
        let place = experiment.variants.iter().position(|variant| variant.name == found.variant);
        name = format!("variant-{}", place.unwrap_or(0) + 1);
    }
    format!("{name}-{}.html", found.possession)
}

/// The page of a possession that was found, if it still is the one on record.
fn filmed(
    experiment: &Experiment,
    found: &Found,
    recalled: &Recalled,
    result: &ResultFolder,
) -> Result<String, Error> {
    let options = FilmOptions {
        file: recalled.options.file.clone(),
        variant: Some(found.variant.clone()),
        beside: None,
        seed: result.made.seed,
        possession: found.possession,
        units: None,
        form: Form::Page,
        out: None,
        quiet: true,
    };
    let (page, fingerprint) = film::page_of(experiment, &options)?;
    if fingerprint == found.fingerprint {
        return Ok(page);
    }
    let (of_record, own) = (made_by(&result.made.version, &result.build), made_by(OWN, &Build::own()));
    Err(Error::Differs(format!(
        "possession {} of {} is not played as it is on record: its fingerprint is {fingerprint}, on record {}; the \
         result was made by {of_record}, this is {own}; film it by that one, or list it by --list",
        found.possession,
        shown(&found.variant),
        shown(&found.fingerprint)
    )))
}

fn table(found: &[Found], all: u64, looked_at: u64) -> String {
    let mut text = format!("{} of {} possessions\n", grouped(all), grouped(looked_at));
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
    for Found { variant: name, possession, outcome: end, points, ball_path, .. } in found {
        let (name, end, ball_path) = (shown(name), shown(end), shown(ball_path));
        let _ = writeln!(text, "{name:variant$}  {possession:>10}  {end:outcome$}  {points:>6}  {ball_path}");
    }
    let more = all - found.len() as u64;
    if more > 0 {
        let _ = writeln!(text, "and {} more: --limit tells more of them", grouped(more));
    }
    text + "\n" + &wrapped(NOTE, WIDTH) + "\n"
}

fn csv(found: &[Found]) -> Vec<u8> {
    let head = ["variant", "possession", "outcome", "points", "ball_path"].map(String::from).to_vec();
    written(head, found.iter().map(row))
}

fn row(found: &Found) -> Vec<String> {
    let Found { variant, possession, outcome, points, ball_path, .. } = found.clone();
    vec![variant, possession.to_string(), outcome, points.to_string(), ball_path]
}

fn json(found: &[Found], all: u64, looked_at: u64) -> String {
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
