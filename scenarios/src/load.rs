//! Loading: a file and all that it names, checked as a whole, or every fault found in it.

use std::path::{Path, PathBuf};
use std::rc::Rc;
use std::sync::Arc;

use engine::setup::Setup;

use crate::answers::{self, Answer, ZoneRules};
use crate::at_level::{self};
use crate::bundled;
use crate::catalog;
use crate::design::{Cells, Design};
use crate::fault::{Fault, Faults, Problem, nearest, one_of};
use crate::kind::{self, recognise};
use crate::schema::alone;
use crate::schema::experiment::{POSSESSIONS_DEFAULT, Plan, RANK_BY_DEFAULT, is_experiment};
use crate::schema::{experiment as plan, scenario as matchup};
use crate::shelf::{Shelf, Source, is_stream};
use crate::source::{Desk, Named, stem};
use crate::tables;
use crate::text::path_text;
use crate::tree::{Node, Origin};

/// One matchup, checked.
#[derive(Clone, Debug)]
pub struct Scenario {
    /// Its name, for output.
    pub name: String,
    /// What the engine plays.
    pub setup: Arc<Setup>,
    /// Every file that was read, bundled ones too.
    pub inputs: Vec<Arc<Source>>,
}

/// A question and the variants that answer it, checked.
#[derive(Clone, Debug)]
pub struct Experiment {
    /// Name of the file without folder and ending; names the results' folder.
    pub key: String,
    /// The question in plain words.
    pub question: String,
    /// Possessions for each variant.
    pub possessions: u64,
    /// The measure by which variants are ranked, as written; see [`Experiment::rank_by_fault`].
    pub rank_by: String,
    /// Name of the variant that the others are compared with.
    pub baseline: String,
    /// Variants crossed with factors, in plan order: as written, the last factor changing fastest.
    pub variants: Vec<Variant>,
    /// The paths at which the variants differ by value, each once.
    pub varied: Vec<String>,
    /// The combinations of the factors' values.
    pub cells: Cells,
    /// How they were chosen, where that is by a design.
    pub design: Option<Design>,
    /// Every file that was read, bundled ones too.
    pub inputs: Vec<Arc<Source>>,
    rank_by_at: Option<Origin>,
    start: Start,
}

/// The file that a loading begins with.
#[derive(Clone, Debug)]
enum Start {
    /// A bundled one: folder and name.
    Bundled(&'static str, String),
    File(PathBuf),
}

impl Start {
    /// A file as typed; a name without ending that no file has may be a bundled one's, of these folders.
    fn of(file: &Path, folders: &[&'static str]) -> Start {
        if file.extension().is_none() && !file.exists() {
            let name = file.to_string_lossy();
            if let Some(folder) = folders.iter().find(|folder| bundled::find(folder, &name).is_some()) {
                return Start::Bundled(folder, name.into_owned());
            }
        }
        Start::File(file.to_owned())
    }

    /// What a kept text was read for; None for a bundled one of another kind.
    fn kept(source: &Source) -> Option<Start> {
        if !source.is_bundled() {
            return Some(Start::File(PathBuf::from(&source.name)));
        }
        let of = |folder: &'static str| {
            let name = source.name.strip_prefix(&format!("bundled:{folder}/"))?.strip_suffix(".toml")?;
            Some(Start::Bundled(folder, name.to_owned()))
        };
        ["experiments", "scenarios"].into_iter().find_map(of)
    }

    fn open(&self, desk: &Desk) -> Option<Rc<Node>> {
        match self {
            Start::Bundled(folder, name) => desk.open_bundled(folder, name),
            Start::File(file) => desk.open_file(file),
        }
    }

    /// What names the results of an experiment: the file's name, whatever pipe the text came through.
    fn key(&self) -> String {
        match self {
            Start::Bundled(_, name) => name.clone(),
            Start::File(file) if is_stream(file) => "stdin".into(),
            Start::File(file) => file.file_stem().map_or_else(|| "experiment".into(), |_| stem(file)),
        }
    }
}

/// One variant of an experiment.
#[derive(Clone, Debug)]
pub struct Variant {
    /// Its name; factors are added as `name / sink_back_m=0.6`.
    pub name: String,
    /// What the engine plays.
    pub setup: Arc<Setup>,
    /// What it puts over the base scenario: dotted path and value as written, in one line; each path once.
    pub settings: Vec<(String, String)>,
    /// Place of its cell in [`Experiment::cells`].
    pub cell: usize,
    /// Its name among the variants of its cell; empty where there is but one, without a name.
    pub own: String,
}

impl Experiment {
    /// The fault of a `rank_by` that is none of `allowed`, pointing at its line.
    #[must_use]
    pub fn rank_by_fault(&self, allowed: &[&str]) -> Faults {
        let problem = Problem::NotAllowed {
            found: format!("\"{}\"", self.rank_by),
            allowed: some_of(&self.rank_by, allowed),
            nearest: nearest(&self.rank_by, allowed.iter().copied()),
        };
        let place = self.rank_by_at.and_then(|at| self.inputs.get(at.source).map(|source| (at, source)));
        let fault = match place {
            Some((at, source)) => Fault::at(source, (at.start, at.end), "rank_by".into(), problem),
            None => {
                let mut fault =
                    Fault::of_file(self.inputs.first().map_or_else(String::new, |s| s.name.clone()), problem);
                fault.key = "rank_by".into();
                fault
            }
        };
        Faults::one(fault)
    }

    /// The same question with some of its variants, by their places in plan order.
    #[must_use]
    pub fn only(&self, variants: &[usize]) -> Self {
        Self { variants: variants.iter().map(|v| self.variants[*v].clone()).collect(), ..self.clone() }
    }

    /// The texts that came through a pipe or as standard input: a command alone does not bring them back.
    pub fn streams(&self) -> impl Iterator<Item = &Source> {
        self.inputs.iter().map(AsRef::as_ref).filter(|source| source.streamed)
    }

    /// The named variants under each post help rule that their zone knows, variant by variant in the order of the
    /// names; none at all if there are more than `most`. Made of the texts that the experiment was read from.
    ///
    /// # Errors
    /// None, as all that is needed was read and checked before.
    pub fn answers(&self, names: &[&str], most: usize) -> Result<Vec<Answer>, Faults> {
        let desk = self.desk();
        let found = self.start.open(&desk).and_then(|root| planned(&desk, &root)).map(|plan| {
            let place = |name: &&str| plan.variants.iter().position(|variant| variant.name == **name);
            let places: Vec<usize> = names.iter().filter_map(place).collect();
            if places.iter().map(|&place| answers::count(&desk, &plan.trees[place])).sum::<usize>() > most {
                return Vec::new();
            }
            let of = |place: usize| answers::of(&desk, &plan.variants[place], &plan.trees[place]);
            places.into_iter().flat_map(of).collect()
        });
        close(desk, found).map(|(answers, _)| answers)
    }

    /// An experiment from a text that stands for a file of this name beside the experiment's own. Made of the texts that this
    /// one was read from, and of what else it names.
    ///
    /// # Errors
    /// Every fault of the text.
    pub fn beside(&self, name: &str, text: String) -> Result<Experiment, Faults> {
        let file = match &self.start {
            Start::File(file) if !is_stream(file) => file.with_file_name(name),
            _ => PathBuf::from(name),
        };
        let mut sources = self.inputs.clone();
        sources.push(Arc::new(Source::written(&file, text)));
        let desk = Desk::with(Shelf::of(&sources));
        let start = Start::File(file);
        let plan = start.open(&desk).and_then(|root| planned(&desk, &root));
        finish(desk, plan, start)
    }

    /// The setups with both teams of another level, in plan order. Made of the texts that the experiment was read
    /// from, and of the level's, where that is a file.
    ///
    /// # Errors
    /// Every fault of the level.
    pub fn at_level(&self, level: &str) -> Result<Vec<Arc<Setup>>, Faults> {
        at_level::named(level)?;
        let desk = self.desk();
        let found = self
            .start
            .open(&desk)
            .and_then(|root| planned(&desk, &root))
            .map(|plan| plan.trees.iter().filter_map(|tree| at_level::of(&desk, tree, level)).collect());
        close(desk, found).map(|(setups, _)| setups)
    }

    /// A desk on which the texts lie that were read before.
    fn desk(&self) -> Desk {
        Desk::with(Shelf::of(&self.inputs))
    }
}

/// The names that are allowed; of many, those that look most like the typed one.
fn some_of(typed: &str, allowed: &[&str]) -> String {
    const SHOWN: usize = 6;
    if allowed.len() <= SHOWN {
        return one_of(allowed.iter().copied());
    }
    let mut alike: Vec<&str> = allowed.to_vec();
    alike.sort_by(|a, b| strsim::jaro_winkler(typed, b).total_cmp(&strsim::jaro_winkler(typed, a)));
    format!("a column of comparison.csv, such as {}", one_of(alike[..SHOWN].iter().copied()))
}

/// Loads a scenario file, or a bundled scenario by its name.
///
/// # Errors
/// Every fault of the file and of the files that it names.
pub fn scenario(file: &Path) -> Result<Scenario, Faults> {
    let desk = Desk::default();
    let root = Start::of(file, &["scenarios"]).open(&desk);
    let found = root.as_ref().and_then(|root| matchup::read(&desk, root));
    let ((name, setup), inputs) = close(desk, found).map_err(|faults| of_its_kind(faults, root, file))?;
    Ok(Scenario { name, setup: Arc::new(setup), inputs })
}

/// The rules that the zone of a scenario knows; of a scenario file, or of a bundled one by its name.
///
/// # Errors
/// Every fault of the scenario.
pub fn zone_rules(file: &Path) -> Result<ZoneRules, Faults> {
    let desk = Desk::default();
    let root = Start::of(file, &["scenarios"]).open(&desk);
    let found = root.as_ref().and_then(|root| {
        matchup::read(&desk, root)?;
        answers::known(&desk, root)
    });
    close(desk, found).map(|(rules, _)| rules).map_err(|faults| of_its_kind(faults, root, file))
}

/// Loads an experiment file, or a bundled experiment by its name. A scenario is taken as an experiment with
/// one variant, `as-given`.
///
/// # Errors
/// Every fault of the file and of the files that it names.
pub fn experiment(file: &Path) -> Result<Experiment, Faults> {
    let desk = Desk::default();
    let start = Start::of(file, &["experiments", "scenarios"]);
    let root = start.open(&desk);
    let plan = root.as_ref().and_then(|root| planned(&desk, root));
    finish(desk, plan, start).map_err(|faults| of_its_kind(faults, root, file))
}

/// Loads an experiment from a text, which stands for the file of a path: files that it names are seen from there.
///
/// # Errors
/// Every fault of the text and of the files that it names.
pub fn experiment_of(text: String, file: &Path) -> Result<Experiment, Faults> {
    let desk = Desk::with(Shelf::of(&[Arc::new(Source::written(file, text))]));
    let start = Start::File(file.to_owned());
    let plan = start.open(&desk).and_then(|root| planned(&desk, &root));
    finish(desk, plan, start)
}

/// The same with texts beside it that stand for the files of other paths.
///
/// # Errors
/// Every fault of the texts and of the files that they name.
pub fn experiment_beside(text: String, file: &Path, beside: Vec<Source>) -> Result<Experiment, Faults> {
    let all = std::iter::once(Source::written(file, text)).chain(beside).map(Arc::new);
    let desk = Desk::with(Shelf::of(&all.collect::<Vec<_>>()));
    let start = Start::File(file.to_owned());
    let plan = start.open(&desk).and_then(|root| planned(&desk, &root));
    finish(desk, plan, start)
}

/// Loads an experiment from the texts that it was read from once, that of its own file first. Nothing else is read.
///
/// # Errors
/// Every fault of the texts, and of files that are not among them.
pub fn experiment_kept(sources: &[Arc<Source>]) -> Result<Experiment, Faults> {
    let desk = Desk::with(Shelf::of(sources).closed());
    let start = sources.first().and_then(|source| Start::kept(source)).ok_or_else(Faults::default)?;
    let plan = start.open(&desk).and_then(|root| planned(&desk, &root));
    finish(desk, plan, start)
}

/// Loads the question that `compare` answers when no file is named.
///
/// # Errors
/// None, unless a bundled file is broken.
pub fn bundled_question() -> Result<Experiment, Faults> {
    let desk = Desk::default();
    let start = Start::Bundled("experiments", bundled::QUESTION.to_owned());
    let plan = start.open(&desk).and_then(|root| planned(&desk, &root));
    finish(desk, plan, start)
}

/// A file that nothing is wrong with.
#[derive(Clone, Debug)]
pub struct Checked {
    /// One of [`crate::FILE_KINDS`], or `route or option` where it would do as either; of a table: `roster`, `squad`,
    /// `sightings` or `chart`.
    pub kind: &'static str,
    /// The experiment, if it is one: its ranking column is for the caller to judge.
    pub experiment: Option<Experiment>,
}

/// Checks files of any kind, or bundled ones by their names. A file other than a scenario or an experiment is read on
/// plausible ground: the US high-school floor and boys' level; a route may name the columns of any zone. What several
/// of them name is read once.
///
/// # Errors
/// For each, every fault of the file and of the files that it names.
pub fn check(files: &[PathBuf]) -> Vec<Result<Checked, Faults>> {
    let shelf = Shelf::default();
    files.iter().map(|file| check_one(file, Desk::with(shelf.clone()))).collect()
}

fn check_one(file: &Path, desk: Desk) -> Result<Checked, Faults> {
    if tables::is_table(file) {
        let found = tables::check(&desk, file);
        return close(desk, found).map(|(kind, _)| Checked { kind, experiment: None });
    }
    let folders: Vec<&str> = catalog::KINDS.iter().rev().map(|(_, folder)| *folder).collect();
    let start = Start::of(file, &folders);
    let Some(root) = start.open(&desk) else {
        return Err(close(desk, None::<()>).err().unwrap_or_default());
    };
    let name = desk.name_of(&root);
    let Some(kind) = recognise(&root, Path::new(name.trim_start_matches("bundled:"))) else {
        return Err(Faults::one(unknown_kind(&name)));
    };
    if kind == "experiment" {
        let plan = plan::read(&desk, &root);
        return finish(desk, plan, start).map(|found| Checked { kind, experiment: Some(found) });
    }
    let named = Named { name: stem(file), root };
    let read_as = if kind == kind::EITHER { "route" } else { kind };
    let found = alone::read(&desk, read_as, &named);
    close(desk, found).map(|_| Checked { kind, experiment: None })
}

/// Closes a loading; of very many faults the first are shown.
pub(crate) fn close<T>(desk: Desk, value: Option<T>) -> Result<(T, Vec<Arc<Source>>), Faults> {
    desk.close(value).map_err(Faults::shown)
}

/// The fault of a file that has no key of any kind.
fn unknown_kind(name: &str) -> Fault {
    let problem = Problem::Unreadable {
        found: "no key by which a kind of file is known".into(),
        allowed: kind::allowed(),
        nearest: None,
    };
    let mut fault = Fault::of_file(name.to_owned(), problem);
    fault.help = Some("`zoneprobe keys` lists the keys of each kind.".into());
    fault
}

/// The faults of a file that was read as a scenario or an experiment: one only, if it is of another kind.
fn of_its_kind(faults: Faults, root: Option<Rc<Node>>, file: &Path) -> Faults {
    let Some(kind) = root.and_then(|root| recognise(&root, file)) else { return faults };
    if kind == "scenario" || kind == "experiment" {
        return faults;
    }
    let problem = Problem::Unreadable {
        found: kind::article(kind),
        allowed: "a scenario or an experiment".into(),
        nearest: None,
    };
    let mut fault = Fault::of_file(path_text(file), problem);
    fault.help = Some(
        "Name it in a scenario, as scenarios/GUIDE.md shows; `zoneprobe check` judges it by itself.".into(),
    );
    Faults::one(fault)
}

fn finish(desk: Desk, plan: Option<Plan>, start: Start) -> Result<Experiment, Faults> {
    let (plan, inputs) = close(desk, plan)?;
    let Plan {
        question,
        possessions,
        rank_by,
        rank_by_at,
        baseline,
        variants,
        varied,
        cells,
        design,
        trees: _,
    } = plan;
    let key = start.key();
    Ok(Experiment {
        key,
        question,
        possessions,
        rank_by,
        baseline,
        variants,
        varied,
        cells,
        design,
        inputs,
        rank_by_at,
        start,
    })
}

fn planned(desk: &Desk, root: &Node) -> Option<Plan> {
    if is_experiment(root) { plan::read(desk, root) } else { as_given(desk, root) }
}

/// A scenario as an experiment.
fn as_given(desk: &Desk, root: &Node) -> Option<Plan> {
    let (question, setup) = matchup::read(desk, root)?;
    let name = String::from("as-given");
    Some(Plan {
        question,
        possessions: POSSESSIONS_DEFAULT,
        rank_by: RANK_BY_DEFAULT.into(),
        rank_by_at: None,
        baseline: name.clone(),
        variants: vec![Variant {
            own: name.clone(),
            name,
            setup: Arc::new(setup),
            settings: Vec::new(),
            cell: 0,
        }],
        varied: Vec::new(),
        cells: Cells::one(),
        design: None,
        trees: vec![root.clone()],
    })
}
