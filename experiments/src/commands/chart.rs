//! `chart`: what was charted on the bench against what a result predicts, or the blank form to write it down.

use std::collections::BTreeMap;
use std::path::Path;

use scenarios::{Charted, Session, path_text};
use serde::Deserialize;

use super::handed::{Answer, Blank, WIDTH, blank_or_answered};
use super::input::whole_name;
use crate::charting::{
    Change, Predicted, Updated, blank_csv, blank_page, by_session, changes, charted_lines, fits, judged,
    leader, play, question, rows_of, told, told_fits, updated,
};
use crate::cli::ChartOptions;
use crate::console::Console;
use crate::error::Error;
use crate::note::NOTE;
use crate::output::{Manifest, ResultFolder, file, written};
use crate::players::PlayerLine;
use crate::scouting::setup;
use crate::wrapping::wrapped;

/// Names of what is written besides the table of the check.
const PLAYERS: &str = "charted-players.csv";
const QUESTION: &str = "charted.toml";

/// Writes the blank form, or says what a chart comes to.
pub fn chart(options: &ChartOptions, console: &mut Console) -> Result<(), Error> {
    let asked = (options.file.as_ref(), options.out.as_deref(), options.quiet);
    blank_or_answered(asked, console, blank, |file| answered(file, options))
}

fn blank() -> Blank {
    Blank {
        filled_in: "the chart that you have filled in",
        page: ("chart.html", blank_page()),
        table: blank_csv(),
        words: "Print chart.html, fill in a row a possession, and type the rows into chart.csv. Then: \
                zoneprobe chart chart.csv --against RESULT_DIR\n",
    }
}

/// What a chart is held against.
struct Against {
    folder: ResultFolder,
    predicted: Vec<Predicted>,
    planned: usize,
}

impl Against {
    fn open(options: &ChartOptions) -> Result<Self, Error> {
        let Some(folder) = &options.against else {
            let problem = "name the folder of the result that the chart is held against, with --against";
            return Err(Error::Option(problem.into()));
        };
        let folder = ResultFolder::open(folder)?;
        folder.check_whole()?;
        let predicted = Predicted::all(&folder)?;
        let name = options.variant.clone().map_or_else(|| leader(&folder), Ok)?;
        let planned = predicted.iter().position(|own| own.variant == name).ok_or_else(|| {
            let known: Vec<&str> = predicted.iter().map(|own| own.variant.as_str()).collect();
            Error::Option(format!("the result has no possessions of {name}; it has {}", known.join(", ")))
        })?;
        Ok(Self { folder, predicted, planned })
    }

    fn calls(&self) -> Vec<String> {
        self.predicted.iter().map(|own| own.variant.clone()).collect()
    }

    /// Whether a possession was played against another shape than that of what was called.
    fn is_other_shape(&self, own: &Charted) -> bool {
        let called =
            own.call.as_ref().and_then(|call| self.predicted.iter().position(|one| one.variant == *call));
        let planned = &self.predicted[called.unwrap_or(self.planned)].zone;
        let bundled = scenarios::SHAPES_SEEN.contains(&planned.as_str());
        own.zone.is_some_and(|zone| bundled && zone != planned)
    }
}

fn answered(file_of_chart: &Path, options: &ChartOptions) -> Result<Answer, Error> {
    let against = Against::open(options)?;
    let (charted, _) = scenarios::chart(file_of_chart, &against.calls()).map_err(Error::Faults)?;
    let cells = roster(options, &against)?;
    let explained =
        options.scenario.as_deref().map(|own| Explained::play(own, options, &against)).transpose()?;
    let mut paragraphs = vec![format!("As planned: {}.", against.predicted[against.planned].variant)];
    let (mut lines, mut believed) = (Vec::new(), None);
    for (session, rows) in by_session(&charted, options.together) {
        let (other, rows): (Vec<&Charted>, Vec<&Charted>) =
            rows.into_iter().partition(|own| against.is_other_shape(own));
        let checked = judged(rows.iter().copied(), &against.predicted, against.planned);
        paragraphs.extend(told(session, rows.len(), &checked));
        paragraphs.extend(other_shapes(&other, rows.len()));
        lines.extend(charted_lines(session, &checked));
        if let Some(explained) = &explained {
            let planned = &against.predicted[against.planned].variant;
            let as_planned: Vec<&Charted> =
                rows.into_iter().filter(|own| is_as_planned(own, planned)).collect();
            if !as_planned.is_empty() {
                let (text, order) = explained.told(as_planned.into_iter());
                paragraphs.push(text);
                believed.get_or_insert(order);
            }
        }
    }
    let shots: Vec<&Charted> =
        charted.iter().filter(|own| options.together || own.session != Some(Session::Practice)).collect();
    let Updated { cells, words } = updated(cells, &shots);
    paragraphs.push(of_players(&words, options.out.is_some(), shots.len() < charted.len()));
    let mut files = vec![file(lines)];
    let has_players = !words.is_empty();
    if has_players {
        let mut rows = cells.into_iter();
        files.push((PLAYERS.into(), written(rows.next().unwrap_or_default(), rows)));
    }
    if let (Some(explained), Some(believed)) = (&explained, &believed) {
        // Without a roster of the coach's own the scenario keeps its: the one made here knows shots alone.
        let has_roster = has_players && options.players.is_some();
        let text = explained.question(believed, has_roster.then_some(PLAYERS));
        files.push((QUESTION.into(), text.into_bytes()));
    }
    let units = against.folder.made.units;
    let printed = |own: &String| format!("{}\n", wrapped(&units.retold(own), WIDTH));
    let mut text: String = paragraphs.iter().map(printed).collect();
    text.push_str(&format!("\n{}\n", wrapped(NOTE, WIDTH)));
    Ok((text, files))
}

fn is_as_planned(own: &Charted, planned: &str) -> bool {
    own.call.as_ref().is_none_or(|call| call == planned)
}

/// The players that the chart's shots are added to.
fn roster(options: &ChartOptions, against: &Against) -> Result<Vec<Vec<String>>, Error> {
    if let Some(file) = &options.players {
        return Ok(scenarios::roster(file).map_err(Error::Faults)?.0);
    }
    let players: Vec<PlayerLine> = against.folder.lines()?;
    Ok(rows_of(&players, &against.predicted[against.planned].variant))
}

/// What became of the players' counts.
fn of_players(words: &[String], is_written: bool, practice_left_out: bool) -> String {
    let left_out =
        if practice_left_out { " Shots of practice are not added; --together adds them." } else { "" };
    if words.is_empty() {
        return format!("Players: no shot was charted with who took it and where.{left_out}");
    }
    let place = if is_written { format!("in {PLAYERS}") } else { format!("--out writes them to {PLAYERS}") };
    format!("Players ({place}): {}{left_out}", words.join(" "))
}

/// What is said of possessions against another shape than the planned one.
fn other_shapes(other: &[&Charted], rest: usize) -> Option<String> {
    let mut shapes: BTreeMap<&str, usize> = BTreeMap::new();
    other.iter().filter_map(|own| own.zone).for_each(|zone| *shapes.entry(zone).or_default() += 1);
    let named: Vec<String> = shapes.iter().map(|(zone, count)| format!("{zone} {count}")).collect();
    let mostly = if other.len() > rest { " That is most of them: play the question against it." } else { "" };
    (!other.is_empty()).then(|| {
        format!(
            "Left out, since they were played against another shape than planned: {}.{mostly}",
            named.join(", ")
        )
    })
}

/// A variant of a manifest.
#[derive(Deserialize)]
struct Settings {
    name: String,
    settings: BTreeMap<String, String>,
}

/// Variants of a manifest.
#[derive(Deserialize)]
struct Variants {
    variants: Vec<Settings>,
}

/// The plan and all that may be different, played.
struct Explained {
    scenario: String,
    settings: Vec<(String, String)>,
    changes: Vec<Change>,
    /// The plan, then the changes.
    played: Vec<Predicted>,
}

impl Explained {
    fn play(scenario: &Path, options: &ChartOptions, against: &Against) -> Result<Self, Error> {
        let scenario = whole_name(scenario)?;
        let planned = &against.predicted[against.planned];
        let Variants { variants } = against.folder.document(Manifest::NAME)?;
        let settings = variants.into_iter().find(|own| own.name == planned.variant);
        let settings: Vec<(String, String)> =
            settings.map_or_else(Vec::new, |own| own.settings.into_iter().collect());
        let with = |change: Option<&Change>| {
            let own = settings.iter().chain(change.map(|change| &change.set));
            let own: Vec<(&str, &str)> = own.map(|(path, value)| (path.as_str(), value.as_str())).collect();
            setup(&scenario, &own)
        };
        let of = |setup| play(&setup, (&planned.variant, options.seed), options.possessions, options.threads);
        let plan = with(None)?;
        let (mut own, mut played) = (Vec::new(), vec![of(plan.clone())?]);
        for change in changes(&planned.zone) {
            // A zone that does not know a rule or a position cannot be changed so, nor one that has it already.
            if let Ok(setup) = with(Some(&change))
                && setup != plan
            {
                played.push(of(setup)?);
                own.push(change);
            }
        }
        Ok(Self { scenario, settings, changes: own, played })
    }

    fn told<'c>(&self, rows: impl Iterator<Item = &'c Charted> + Clone) -> (String, Vec<(Change, f64)>) {
        told_fits(&self.changes, &fits(rows, &self.played))
    }

    fn question(&self, believed: &[(Change, f64)], roster: Option<&str>) -> String {
        let folder = Path::new(&self.scenario).parent().unwrap_or(Path::new(""));
        // A file that a setting names lies beside the scenario.
        let whole = |(path, value): &(String, String)| {
            let file = value.strip_prefix('"').and_then(|value| value.strip_suffix('"'));
            let file = file.filter(|file| file.ends_with(".toml") || file.ends_with(".csv"));
            let value = file
                .map_or(value.clone(), |file| toml::Value::String(path_text(&folder.join(file))).to_string());
            (path.clone(), value)
        };
        let settings: Vec<(String, String)> = self.settings.iter().map(whole).collect();
        let believed: Vec<(&Change, f64)> =
            believed.iter().map(|(change, chance)| (change, *chance)).collect();
        question(&self.scenario, &settings, &believed, roster)
    }
}
