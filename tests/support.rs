//! What the promises share: matchups, a runner on all cores, the command line as a function, source files.

use std::ffi::OsString;
use std::fmt::Display;
use std::fs;
use std::ops::Range;
use std::path::{Path, PathBuf};
use std::sync::{Arc, LazyLock};

use engine::setup::Setup;
use engine::{Arena, Measure, PossessionRecord};
use experiments::app;
use experiments::console::Console;
use experiments::error::Exit;
use rayon::prelude::*;
use scenarios::{Experiment, Faults};
use tempfile::TempDir;

use crate::played::or_play;

/// What was loaded, or its faults as a reader sees them.
pub fn loaded<T>(result: Result<T, Faults>) -> T {
    result.unwrap_or_else(|faults| panic!("{faults}"))
}

/// The bundled question.
pub fn question() -> Experiment {
    loaded(scenarios::bundled_question())
}

/// One variant of the bundled question.
pub fn variant(name: &str) -> Arc<Setup> {
    let question = question();
    let found = question.variants.iter().find(|variant| variant.name == name);
    found.unwrap_or_else(|| panic!("the bundled question has no variant {name}")).setup.clone()
}

/// The bundled scenario with overrides by dotted path, each as it would stand in a file.
pub fn matchup(overrides: &[(&str, &str)]) -> Arc<Setup> {
    // What dials of the zone and moves of the attack do is asked of the control, which has been taught nothing.
    let untaught = [("attack.plan", "\"free\"")];
    let untaught = untaught.iter().filter(|(path, _)| overrides.iter().all(|(own, _)| own != path));
    loaded(over("sunken-122", untaught.chain(overrides).copied()))
}

/// A bundled scenario with overrides by dotted path, each as it would stand in a file, if the loader takes them.
pub fn over<P: Display, V: Display>(
    scenario: &str,
    overrides: impl IntoIterator<Item = (P, V)>,
) -> Result<Arc<Setup>, Faults> {
    let set = overrides.into_iter().map(|(path, value)| format!("\"{path}\" = {value}"));
    let text = format!(
        "scenario = \"{scenario}\"\n[[variant]]\nname = \"changed\"\nset = {{ {} }}\n",
        set.collect::<Vec<_>>().join(", ")
    );
    let folder = folder(&[("changed.toml", &text)]);
    let experiment = scenarios::experiment(&folder.path().join("changed.toml"))?;
    Ok(experiment.variants[0].setup.clone())
}

/// Every bundled zone against every bundled route, with all post and guard options switched on in part, and
/// against every bundled attack as it stands.
pub fn every_matchup() -> Vec<(String, Arc<Setup>)> {
    // Loaded once: there are more than a hundred, and many tests play them.
    static ALL: LazyLock<Vec<(String, Arc<Setup>)>> = LazyLock::new(load_every_matchup);
    ALL.clone()
}

fn load_every_matchup() -> Vec<(String, Arc<Setup>)> {
    let catalog = scenarios::catalog();
    let names = |kind| catalog.iter().filter(move |entry| entry.kind == kind).map(|entry| &entry.name);
    let options =
        |kind| format!("{{ {} }}", names(kind).map(|n| format!("{n} = 0.6")).collect::<Vec<_>>().join(", "));
    let (posts, guards) = (options("post option"), options("guard option"));
    let mut all = Vec::new();
    for zone in names("zone") {
        for route in names("route") {
            let setup = matchup(&[
                ("zone.use", &format!("\"{zone}\"")),
                ("attack.rover.route", &format!("\"{route}\"")),
                ("attack.posts.options", &posts),
                ("attack.guards.options", &guards),
            ]);
            all.push((format!("{route} against the {zone}"), setup));
        }
        for attack in names("attack") {
            let setup = matchup(&[
                ("zone.use", &format!("\"{zone}\"")),
                ("attack.use", &format!("\"{attack}\"")),
                ("attack.rover", "{}"),
                ("attack.posts.options", "{}"),
            ]);
            all.push((format!("{attack} attack against the {zone}"), setup));
        }
    }
    all
}

/// Every bundled attack against every bundled zone, man-to-man aside, in the order of the experiment.
pub fn attacks_by_zone() -> Vec<Arc<Setup>> {
    let experiment = loaded(scenarios::experiment("attacks-by-zone".as_ref()));
    let zones = experiment.variants.into_iter().filter(|variant| !variant.name.contains("man-to-man"));
    zones.map(|variant| variant.setup).collect()
}

/// A setup with something changed.
pub fn changed(setup: &Setup, change: impl FnOnce(&mut Setup)) -> Arc<Setup> {
    let mut setup = setup.clone();
    change(&mut setup);
    Arc::new(setup)
}

/// Plays a range in one arena; the records in order of possession.
pub fn play(arena: &mut Arena, setup: &Arc<Setup>, seed: u64, range: Range<u64>) -> Vec<PossessionRecord> {
    let mut records = Vec::new();
    arena.play(setup, seed, range, &mut |record| records.push(*record));
    records.sort_by_key(|record| record.possession);
    records
}

/// Plays the first `count` possessions on all cores; the records in order of possession.
pub fn records(setup: &Arc<Setup>, seed: u64, count: u64) -> Vec<PossessionRecord> {
    records_in(setup, seed, 0..count)
}

/// Plays a range on all cores, what is kept of it aside; the records in order of possession.
pub fn records_in(setup: &Arc<Setup>, seed: u64, range: Range<u64>) -> Vec<PossessionRecord> {
    or_play(setup, seed, range, |range| play_on_all_cores(setup, seed, range))
}

fn play_on_all_cores(setup: &Arc<Setup>, seed: u64, range: Range<u64>) -> Vec<PossessionRecord> {
    // Few and long pieces: each has an arena of its own, which takes some milliseconds to make.
    let pieces = 2 * rayon::current_num_threads() as u64;
    let edge = |piece: u64| range.start + (range.end - range.start) * piece / pieces;
    (0..pieces)
        .into_par_iter()
        .flat_map_iter(|piece| play(&mut Arena::new(Arena::WIDTH), setup, seed, edge(piece)..edge(piece + 1)))
        .collect()
}

/// Sum of a measure in integers of its unit's scale.
pub fn sum(records: &[PossessionRecord], measure: Measure) -> i64 {
    records.iter().map(|record| record.value(measure)).sum()
}

/// Mean of a measure a possession, in its unit.
pub fn mean(records: &[PossessionRecord], measure: Measure) -> f64 {
    sum(records, measure) as f64 / measure.unit().scale() / records.len() as f64
}

/// Mean and standard error of the differences `b - a` of paired possessions, in the measure's unit.
pub fn paired(a: &[PossessionRecord], b: &[PossessionRecord], measure: Measure) -> (f64, f64) {
    assert_eq!(a.len(), b.len());
    let differences: Vec<f64> = a.iter().zip(b).map(|(a, b)| b.real(measure) - a.real(measure)).collect();
    let count = differences.len() as f64;
    let mean = differences.iter().sum::<f64>() / count;
    let variance = differences.iter().map(|d| (d - mean) * (d - mean)).sum::<f64>() / (count - 1.0);
    (mean, (variance / count).sqrt())
}

/// By how much the setups of the bundled question bring more of a measure than another setup of each route, over all of them, and
/// the standard error of that, from so many possessions a route. Each route has possessions of its own: those of the same
/// possessions share their luck, and their errors would not add up.
pub fn lead_over(
    other: impl Fn(&str) -> Arc<Setup>,
    measure: Measure,
    seed: u64,
    possessions: u64,
) -> (f64, f64) {
    const APART: u64 = 10_000;
    let variants = question().variants;
    let (mut sum, mut squares) = (0.0, 0.0);
    for (nth, variant) in (0..).zip(&variants) {
        let own = nth * APART..nth * APART + possessions;
        let played =
            [&other(&variant.name), &variant.setup].map(|setup| records_in(setup, seed, own.clone()));
        let (more, error) = paired(&played[0], &played[1], measure);
        (sum, squares) = (sum + more, squares + error * error);
    }
    let routes = variants.len() as f64;
    (sum / routes, squares.sqrt() / routes)
}

/// What a command line did.
pub struct Told {
    /// How it ended.
    pub exit: Exit,
    /// Standard output.
    pub out: String,
    /// Standard error.
    pub err: String,
}

/// Runs a command line.
pub fn zoneprobe(args: &[&str]) -> Told {
    let (mut out, mut err) = (Vec::new(), Vec::new());
    let args = std::iter::once("zoneprobe").chain(args.iter().copied()).map(OsString::from);
    let exit = app::run(args, &mut Console { out: &mut out, err: &mut err, colour: false, width: 100 });
    let text = |bytes| String::from_utf8(bytes).expect("output is UTF-8");
    Told { exit, out: text(out), err: text(err) }
}

/// A folder with these files that goes away when dropped.
pub fn folder(files: &[(&str, &str)]) -> TempDir {
    let folder = tempfile::tempdir().expect("a temporary folder");
    for (name, text) in files {
        fs::write(folder.path().join(name), text).expect("a written file");
    }
    folder
}

/// A path as a command-line argument.
pub fn argument(path: &Path) -> &str {
    path.to_str().expect("temporary paths are UTF-8")
}

/// The workspace's folder.
pub fn workspace() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR")).parent().expect("the crate lies in the workspace")
}

/// The text of a file of the workspace.
pub fn text_of(file: &str) -> String {
    fs::read_to_string(workspace().join(file)).unwrap_or_else(|error| panic!("{file}: {error}"))
}

/// All files with this ending under a folder of the workspace, named from the workspace, in order.
pub fn files_under(folder: &str, ending: &str) -> Vec<String> {
    let mut found = Vec::new();
    let mut waiting = vec![PathBuf::from(folder)];
    while let Some(folder) = waiting.pop() {
        let entries = fs::read_dir(workspace().join(&folder)).expect("a folder of the workspace");
        for entry in entries {
            let entry = entry.expect("an entry of a folder");
            let name = folder.join(entry.file_name());
            if entry.file_type().expect("a file or a folder").is_dir() {
                waiting.push(name);
            } else if name.extension().is_some_and(|own| own == ending) {
                found.push(name.to_string_lossy().replace('\\', "/"));
            }
        }
    }
    found.sort();
    found
}

/// Source text without comments and without the test module at its end.
pub fn code_of(text: &str) -> String {
    let heads = ["#[cfg(test)]\nmod tests {", "#[cfg(test)]\npub(crate) mod tests {"];
    let end = heads.iter().filter_map(|head| text.find(head)).min().unwrap_or(text.len());
    let lines = text[..end].lines().map(|line| line.split("//").next().unwrap_or_default());
    lines.collect::<Vec<_>>().join("\n")
}
