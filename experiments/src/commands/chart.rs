//! `chart`: what was charted on the bench against what a result predicts, or the blank form to write it down.

use std::collections::BTreeMap;
use std::path::Path;

use scenarios::{Charted, Session};
use serde::Deserialize;

use super::handed::{Answer, Blank, WIDTH, blank_or_answered};
use super::input::{beside, name_from, whole_name};
use crate::charting::{
    Change, Predicted, Updated, blank_csv, blank_page, by_session, changes, charted_lines, fits, judged,
    leader, play, question, rows_of, told, told_fits, updated, wearers,
};
use crate::cli::ChartOptions;
use crate::console::Console;
use crate::error::Error;
use crate::note::NOTE;
use crate::output::{Manifest, ResultFolder, file, written};
use crate::players::PlayerLine;
use crate::scouting::{Row, attacks, setup};
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
    let cells = roster(options, &against)?;
    let (charted, _) =
        scenarios::chart(file_of_chart, &against.calls(), &wearers(&cells)).map_err(Error::Faults)?;
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
                // Team-mates in practice are no opponent's zone.
                if session != Some(Session::Practice) {
                    believed.get_or_insert(order);
                }
            }
        }
    }
    let shots: Vec<&Charted> =
        charted.iter().filter(|own| options.together || own.session != Some(Session::Practice)).collect();
    let Updated { cells, words } = updated(cells, &shots, options.every_shot);
    paragraphs.push(of_players(&words, options, shots.len() < charted.len()));
    let mut files = vec![file(lines)];
    // What a result has of its players is their shots alone: a roster made of it would take licences and bodies away.
    let has_players = !words.is_empty() && options.players.is_some();
    if has_players {
        let mut rows = cells.into_iter();
        files.push((PLAYERS.into(), written(rows.next().unwrap_or_default(), rows)));
    }
    if let (Some(explained), Some(believed)) = (&explained, &believed) {
        let text = explained.question(believed, options, has_players.then_some(PLAYERS))?;
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
fn of_players(words: &[String], options: &ChartOptions, practice_left_out: bool) -> String {
    let left_out = if practice_left_out { " Practice is not added; --together adds it." } else { "" };
    let shots = if options.every_shot {
        ""
    } else {
        " Shots are not added: a chart of how possessions ended has all that went in, but not the misses that were rebounded, so \
         everybody would look better than he is. Chart every shot, those before the last in rows above it of the same number, and \
         say --every-shot."
    };
    if words.is_empty() {
        return format!("Players: nothing is added.{shots}{left_out}");
    }
    let place = match (&options.players, &options.out) {
        (None, _) => "--players names the roster that they are added to".to_owned(),
        (Some(_), None) => format!("--out writes them to {PLAYERS}"),
        (Some(_), Some(_)) => format!("in {PLAYERS}"),
    };
    format!("Players ({place}): {}{shots}{left_out}", words.join(" "))
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
    /// The variants of the result with their settings, and the planned one among them.
    variants: Vec<(String, Vec<(String, String)>)>,
    planned: usize,
    changes: Vec<Change>,
    /// The plan, then the changes.
    played: Vec<Predicted>,
}

impl Explained {
    fn play(scenario: &Path, options: &ChartOptions, against: &Against) -> Result<Self, Error> {
        let scenario = whole_name(scenario)?;
        let planned = &against.predicted[against.planned];
        let Variants { variants } = against.folder.document(Manifest::NAME)?;
        let variants: Vec<(String, Vec<(String, String)>)> =
            variants.into_iter().map(|own| (own.name, own.settings.into_iter().collect())).collect();
        let at = variants.iter().position(|own| own.0 == planned.variant).unwrap_or(0);
        let settings = variants.get(at).map_or(&[][..], |own| own.1.as_slice());
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
        Ok(Self { variants, planned: at, changes: own, played })
    }

    fn told<'c>(&self, rows: impl Iterator<Item = &'c Charted> + Clone) -> (String, Vec<(Change, f64)>) {
        told_fits(&self.changes, &fits(rows, &self.played))
    }

    /// The next question: the attacks of the result against the zone as planned, and as it may be.
    fn question(
        &self,
        believed: &[(Change, f64)],
        options: &ChartOptions,
        roster: Option<&str>,
    ) -> Result<String, Error> {
        let scenario = options.scenario.as_deref().unwrap_or(Path::new(""));
        let folder = scenario.parent().unwrap_or(Path::new(""));
        let out = options.out.as_deref();
        // A file that a setting names lies beside the scenario.
        let variants = self.variants.iter().map(|(name, own)| Ok((name.clone(), beside(folder, out, own)?)));
        let variants: Vec<_> = variants.collect::<Result<_, Error>>()?;
        let name = out.map_or_else(|| whole_name(scenario), |out| name_from(out, scenario))?;
        let planned = variants.get(self.planned).map_or(&[][..], |own| own.1.as_slice());
        let believed: Vec<(&Change, f64)> =
            believed.iter().map(|(change, chance)| (change, *chance)).collect();
        let attacks: Vec<Row> = attacks(&variants, self.planned);
        Ok(question(&name, planned, &attacks, &believed, roster))
    }
}
