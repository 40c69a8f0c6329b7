//! Loading: a file and all that it names, checked as a whole, or every fault found in it.

use std::path::Path;
use std::rc::Rc;
use std::sync::Arc;

use engine::setup::Setup;

use crate::answers::{self, Answer};
use crate::bundled;
use crate::fault::{Fault, Faults, Problem, nearest, one_of};
use crate::schema::experiment::{POSSESSIONS_DEFAULT, Plan, RANK_BY_DEFAULT, is_experiment};
use crate::schema::{experiment as plan, scenario as matchup};
use crate::source::{Desk, Source};
use crate::tree::{Node, Origin};

/// One matchup, checked.
#[derive(Clone, Debug)]
pub struct Scenario {
    /// Its name, for output.
    pub name: String,
    /// What the engine plays.
    pub setup: Arc<Setup>,
    /// Every file that was read, bundled ones too.
    pub inputs: Vec<Source>,
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
    /// Every file that was read, bundled ones too.
    pub inputs: Vec<Source>,
    rank_by_at: Option<Origin>,
}

/// One variant of an experiment.
#[derive(Clone, Debug)]
pub struct Variant {
    /// Its name; factors are added as `name, sink_back_m=0.6`.
    pub name: String,
    /// What the engine plays.
    pub setup: Arc<Setup>,
    /// What differs from the base scenario: dotted path and value as written.
    pub settings: Vec<(String, String)>,
}

impl Experiment {
    /// The fault of a `rank_by` that is none of `allowed`, pointing at its line.
    #[must_use]
    pub fn rank_by_fault(&self, allowed: &[&str]) -> Faults {
        let problem = Problem::NotAllowed {
            found: format!("\"{}\"", self.rank_by),
            allowed: one_of(allowed.iter().copied()),
            nearest: nearest(&self.rank_by, allowed.iter().copied()),
        };
        let place = self.rank_by_at.and_then(|at| self.inputs.get(at.source).map(|source| (at, source)));
        let fault = match place {
            Some((at, source)) => {
                Fault::at((&source.name, &source.text), (at.start, at.end), "rank_by".into(), problem)
            }
            None => {
                let mut fault =
                    Fault::of_file(self.inputs.first().map_or_else(String::new, |s| s.name.clone()), problem);
                fault.key = "rank_by".into();
                fault
            }
        };
        Faults { all: vec![fault] }
    }
}

/// Loads a scenario file, or a bundled scenario by its name.
///
/// # Errors
/// Every fault of the file and of the files that it names.
pub fn scenario(file: &Path) -> Result<Scenario, Faults> {
    let desk = Desk::default();
    let found = open(&desk, file, "scenarios").and_then(|root| matchup::read(&desk, &root));
    let ((name, setup), inputs) = desk.close(found)?;
    Ok(Scenario { name, setup: Arc::new(setup), inputs })
}

/// Loads an experiment file, or a bundled experiment by its name. A scenario is taken as an experiment with
/// one variant, `as-given`.
///
/// # Errors
/// Every fault of the file and of the files that it names.
pub fn experiment(file: &Path) -> Result<Experiment, Faults> {
    let desk = Desk::default();
    let root = open(&desk, file, "experiments");
    let stem =
        file.file_stem().map_or_else(|| "experiment".into(), |stem| stem.to_string_lossy().into_owned());
    finish(desk, root, stem)
}

/// Loads the question that `compare` answers when no file is named.
///
/// # Errors
/// None, unless a bundled file is broken.
pub fn bundled_question() -> Result<Experiment, Faults> {
    let desk = Desk::default();
    let root = desk.open_bundled("experiments", bundled::QUESTION);
    finish(desk, root, bundled::QUESTION.to_owned())
}

/// The named variants of an experiment (the bundled question without a file) under each post help rule that
/// their zone knows, variant by variant in the order of the names.
///
/// # Errors
/// Every fault of the file and of the files that it names.
pub fn answers(file: Option<&Path>, names: &[&str]) -> Result<Vec<Answer>, Faults> {
    let desk = Desk::default();
    let root = match file {
        Some(file) => open(&desk, file, "experiments"),
        None => desk.open_bundled("experiments", bundled::QUESTION),
    };
    let found = root.and_then(|root| planned(&desk, &root)).map(|plan| {
        let of = |name: &&str| {
            let place = plan.variants.iter().position(|variant| variant.name == **name)?;
            Some(answers::of(&desk, &plan.variants[place], &plan.trees[place]))
        };
        names.iter().filter_map(of).flatten().collect()
    });
    desk.close(found).map(|(answers, _)| answers)
}

/// Checks a file as what it is: `"scenario"` or `"experiment"`.
///
/// # Errors
/// Every fault of the file and of the files that it names.
pub fn check(file: &Path) -> Result<&'static str, Faults> {
    let desk = Desk::default();
    let root = open(&desk, file, "scenarios");
    let kind = if root.as_deref().is_some_and(is_experiment) { "experiment" } else { "scenario" };
    finish(desk, root, String::new()).map(|_| kind)
}

fn finish(desk: Desk, root: Option<Rc<Node>>, key: String) -> Result<Experiment, Faults> {
    let found = root.and_then(|root| planned(&desk, &root));
    let (plan, inputs) = desk.close(found)?;
    let Plan { question, possessions, rank_by, rank_by_at, baseline, variants, .. } = plan;
    Ok(Experiment { key, question, possessions, rank_by, baseline, variants, inputs, rank_by_at })
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
        variants: vec![Variant { name, setup: Arc::new(setup), settings: Vec::new() }],
        trees: vec![root.clone()],
    })
}

/// A file as typed; a name without ending that no file has may be a bundled one's.
fn open(desk: &Desk, file: &Path, folder: &str) -> Option<Rc<Node>> {
    if file.extension().is_none() && !file.exists() {
        let name = file.to_string_lossy();
        let others = ["scenarios", "experiments"].iter().filter(|other| **other != folder).copied();
        for folder in std::iter::once(folder).chain(others) {
            if bundled::find(folder, &name).is_some() {
                return desk.open_bundled(folder, &name);
            }
        }
    }
    desk.open_file(file)
}
