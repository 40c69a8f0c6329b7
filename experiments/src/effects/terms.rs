//! Which effects an experiment has, and how the figures of its variants are weighed in each.

use std::sync::Arc;

use scenarios::Experiment;
use scenarios::design::{BASE, Level, VARIANT};

use super::least_squares::{Model, Solved};
use crate::error::Error;

/// Numbers that take more different values than this are a range; fewer are levels. (a choice)
const LEVELS_MOST: usize = 6;
/// Factors of which all pairs are looked at where none are named, the variants counted as one. (a choice)
const ALL_PAIRS_MOST: usize = 6;
/// Effects that are looked at where pairs are not named. (a choice)
const UNASKED_MOST: usize = 60;
/// Most effects of a design. (a choice)
const EFFECTS_MOST: usize = 240;

/// One side of an effect: a factor that goes from one value to another.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Side {
    /// Dotted key, or `variant`.
    pub key: String,
    /// The value that it goes from.
    pub from: String,
    /// The value that it goes to.
    pub to: String,
    /// Whether it is told by a straight line through all values between the two.
    pub by_line: bool,
}

/// An effect: a weighted sum of the variants' figures.
#[derive(Clone, Debug, PartialEq)]
pub struct Effect {
    /// One side: a main effect. Two: an interaction.
    pub sides: Vec<Side>,
    /// By variant, in plan order; they sum to 0.
    pub weights: Vec<f64>,
    /// The fit that it is a coefficient of.
    pub(super) model: Arc<Fitted>,
}

/// The effects that are looked at.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Sought {
    /// Which, main ones first.
    pub effects: Vec<Effect>,
    /// What the design cannot tell, in sentences.
    pub remarks: Vec<String>,
}

/// A model with the weights of all its coefficients.
#[derive(Debug, PartialEq)]
pub(super) struct Fitted {
    columns: Vec<Vec<f64>>,
    solved: Solved,
}

impl Fitted {
    fn new(columns: Vec<Vec<f64>>) -> Self {
        let model = Model { columns };
        let solved = model.solved();
        Self { columns: model.columns, solved }
    }

    /// Coefficients that the figures are fitted by.
    pub fn columns(&self) -> usize {
        self.solved.weights.iter().flatten().count()
    }

    /// What it leaves of each figure.
    pub fn left(&self, figures: &[f64]) -> Vec<f64> {
        let sum = |weights: &Vec<f64>| weights.iter().zip(figures).map(|(w, y)| w * y).sum();
        let coefficients: Vec<Option<f64>> =
            self.solved.weights.iter().map(|weights| weights.as_ref().map(sum)).collect();
        let mut left = figures.to_vec();
        for (column, coefficient) in self.columns.iter().zip(coefficients) {
            let Some(coefficient) = coefficient else { continue };
            left.iter_mut().zip(column).for_each(|(value, x)| *value -= coefficient * x);
        }
        left
    }
}

/// A factor with its columns in a model.
struct Term {
    sides: Vec<Side>,
    columns: Vec<Vec<f64>>,
}

impl Term {
    /// Of levels: a column for each but the first.
    fn of_levels(key: &str, levels: &[String], first: &str) -> Self {
        let mut others: Vec<&String> = Vec::new();
        for level in levels.iter().filter(|level| *level != first) {
            if !others.contains(&level) {
                others.push(level);
            }
        }
        let side = |level: &&String| Side {
            key: key.into(),
            from: first.into(),
            to: (**level).clone(),
            by_line: false,
        };
        let column = |level: &&String| levels.iter().map(|own| f64::from(u8::from(own == *level))).collect();
        Self { sides: others.iter().map(side).collect(), columns: others.iter().map(column).collect() }
    }

    /// Of a range: from -1/2 to 1/2.
    fn of_range(key: &str, numbers: &[f64], (low, high): (f64, f64)) -> Self {
        let side = Side { key: key.into(), from: low.to_string(), to: high.to_string(), by_line: true };
        let place = |x: &f64| (x - low) / (high - low) - 0.5;
        Self { sides: vec![side], columns: vec![numbers.iter().map(place).collect()] }
    }

    fn key(&self) -> &str {
        &self.sides[0].key
    }
}

/// The factors that differ over an experiment's variants, the variants themselves first, and what is said of those that cannot
/// be told.
fn terms(experiment: &Experiment) -> (Vec<Term>, Vec<String>) {
    let mut remarks = Vec::new();
    let variants = &experiment.variants;
    let reference = variants.iter().find(|variant| variant.name == experiment.baseline);
    let own: Vec<String> = variants.iter().map(|variant| variant.own.clone()).collect();
    let mut found = vec![Term::of_levels(VARIANT, &own, reference.map_or("", |variant| &variant.own))];
    for (place, factor) in experiment.cells.factors.iter().enumerate() {
        let levels: Vec<&Level> =
            variants.iter().map(|variant| &experiment.cells.values[variant.cell][place]).collect();
        let numbers: Option<Vec<f64>> = levels.iter().map(|level| level.number).collect();
        let range = factor.range.or_else(|| many(numbers.as_ref()?));
        let known: Vec<f64> = levels.iter().filter_map(|level| level.number).collect();
        if levels.iter().all(|level| level.number.is_some() || level.told == BASE)
            && known.len() < levels.len()
            && many(&known).is_some()
            && factor.levels.is_empty()
        {
            remarks.push(format!(
                "Nothing is told of {}: some cells leave it as the scenario has it, which does not write its value. Write it \
                 there, or in those cells.",
                factor.key
            ));
            continue;
        }
        found.push(match (numbers, range) {
            (Some(numbers), Some(range)) => Term::of_range(&factor.key, &numbers, range),
            _ => {
                // One number is one level however it is written.
                let is_same =
                    |a: &Level, b: &Level| a.told == b.told || a.number.is_some() && a.number == b.number;
                let name = |own: &&Level| {
                    levels.iter().find(|level| is_same(level, own)).unwrap_or(own).told.clone()
                };
                let told: Vec<String> = levels.iter().map(name).collect();
                let listed = factor.levels.iter().find(|level| told.contains(level));
                // A cell that leaves the key as it is comes first: changes are told from there.
                let first = listed.filter(|_| told[0] != BASE).unwrap_or(&told[0]).clone();
                Term::of_levels(&factor.key, &told, &first)
            }
        });
    }
    found.retain(|term| !term.sides.is_empty());
    (found, remarks)
}

/// The ends of numbers that take many values.
fn many(numbers: &[f64]) -> Option<(f64, f64)> {
    let mut sorted = numbers.to_vec();
    sorted.sort_by(f64::total_cmp);
    sorted.dedup();
    (sorted.len() > LEVELS_MOST).then(|| (sorted[0], sorted[sorted.len() - 1]))
}

/// The effects of an experiment, main ones first; none of one cell. Those that are not told apart are left out, all of them.
///
/// # Errors
/// There are too many to be told.
pub fn effects(experiment: &Experiment) -> Result<Sought, Error> {
    if experiment.cells.len() < 2 {
        return Ok(Sought::default());
    }
    let (terms, mut remarks) = terms(experiment);
    let place = |key: &str| terms.iter().position(|term| term.key() == key);
    let named = experiment.design.as_ref().and_then(|design| design.interactions.as_ref());
    let main: usize = terms.iter().map(|term| term.sides.len()).sum();
    let count = |pairs: &[(usize, usize)]| -> usize {
        main + pairs.iter().map(|&(a, b)| terms[a].sides.len() * terms[b].sides.len()).sum::<usize>()
    };
    let pairs: Vec<(usize, usize)> = match named {
        Some(pairs) => {
            let mut found = Vec::new();
            for (a, b) in pairs {
                match (place(a), place(b)) {
                    (Some(a), Some(b)) => found.push((a, b)),
                    (None, _) => remarks.push(not_both((a, b), a)),
                    (_, None) => remarks.push(not_both((a, b), b)),
                }
            }
            found
        }
        None => {
            let all: Vec<_> = (0..terms.len()).flat_map(|b| (0..b).map(move |a| (a, b))).collect();
            if terms.len() <= ALL_PAIRS_MOST && count(&all) <= UNASKED_MOST {
                all
            } else {
                remarks.push(format!(
                    "No interaction is looked at: of {} factors, the variants counted as one where there are several, all pairs \
                     would make {} effects, and unasked that is done of {ALL_PAIRS_MOST} factors and {UNASKED_MOST} effects at \
                     most. A design names pairs with [[design.interaction]].",
                    terms.len(),
                    count(&all)
                ));
                Vec::new()
            }
        }
    };
    let all = count(&pairs);
    if all > EFFECTS_MOST {
        return Err(Error::Option(format!(
            "the design has {all} effects, allowed are at most {EFFECTS_MOST}; let factors take fewer values, or name fewer \
             interactions"
        )));
    }
    let mut columns = vec![vec![1.0; experiment.variants.len()]];
    columns.extend(terms.iter().flat_map(|term| term.columns.iter().cloned()));
    let mut found = Sought { effects: Vec::new(), remarks };
    let alone = Arc::new(Fitted::new(columns.clone()));
    let main_sides = terms.iter().flat_map(|term| term.sides.iter().map(|side| vec![side.clone()]));
    found.take(&alone, 1, main_sides.collect());
    if pairs.is_empty() {
        return Ok(found);
    }
    let mut sides = Vec::new();
    for &(a, b) in &pairs {
        for (one, x) in terms[a].sides.iter().zip(&terms[a].columns) {
            for (two, y) in terms[b].sides.iter().zip(&terms[b].columns) {
                sides.push(vec![one.clone(), two.clone()]);
                columns.push(x.iter().zip(y).map(|(x, y)| x * y).collect());
            }
        }
    }
    let begins = 1 + main;
    found.take(&Arc::new(Fitted::new(columns)), begins, sides);
    Ok(found)
}

impl Sought {
    /// Takes in the coefficients of a fit from a place on that can be told, and says which cannot.
    fn take(&mut self, fit: &Arc<Fitted>, from: usize, sides: Vec<Vec<Side>>) {
        for alike in &fit.solved.alike {
            let own = alike.iter().filter_map(|column| sides.get(column.checked_sub(from)?));
            let names: Vec<String> = own.map(|sides| in_words(sides)).collect();
            match names.as_slice() {
                [] => {}
                [one] => self.remarks.push(format!("There are too few cells to tell {one}.")),
                several => self.remarks.push(format!("Not told apart, so not told: {}.", several.join("; "))),
            }
        }
        for (nth, sides) in sides.into_iter().enumerate() {
            let Some(weights) = fit.solved.weights[from + nth].clone() else { continue };
            if fit.solved.is_told(from + nth) {
                self.effects.push(Effect { sides, weights: balanced(weights), model: Arc::clone(fit) });
            }
        }
    }
}

/// What is said of a pair one of which has no values to go between.
fn not_both((a, b): (&str, &str), lacking: &str) -> String {
    format!("The interaction of {a} with {b} is not looked at: {lacking} has no two values to be told by.")
}

/// What an effect is of, in words.
fn in_words(sides: &[Side]) -> String {
    let side = |side: &Side| format!("{} {} to {}", side.key, side.from, side.to);
    sides.iter().map(side).collect::<Vec<_>>().join(" with ")
}

/// Weights that sum to 0 to the last digit but rounding: what they lack is taken from all alike.
fn balanced(mut weights: Vec<f64>) -> Vec<f64> {
    let mean = weights.iter().sum::<f64>() / weights.len() as f64;
    weights.iter_mut().for_each(|weight| *weight -= mean);
    weights
}

#[cfg(test)]
mod tests {
    use super::*;

    fn experiment(text: &str) -> Experiment {
        let text = format!("scenario = \"plain-122\"\n{text}");
        scenarios::experiment_of(text, std::path::Path::new("made-up.toml"))
            .unwrap_or_else(|faults| panic!("{faults}"))
    }

    /// Effects of figures that a formula gives, by the numbers of a cell and the place of a variant.
    fn found(experiment: &Experiment, figure: impl Fn(&[f64], usize) -> f64) -> Vec<(String, f64)> {
        let figures: Vec<f64> = experiment
            .variants
            .iter()
            .enumerate()
            .map(|(v, variant)| {
                let numbers: Vec<f64> =
                    experiment.cells.values[variant.cell].iter().map(|level| level.number.unwrap()).collect();
                figure(&numbers, v)
            })
            .collect();
        let told = |effect: Effect| {
            let sides: Vec<String> = effect
                .sides
                .iter()
                .map(|side| format!("{} {} to {}", side.key, side.from, side.to))
                .collect();
            (sides.join(" x "), effect.weights.iter().zip(&figures).map(|(w, y)| w * y).sum())
        };
        effects(experiment).unwrap().effects.into_iter().map(told).collect()
    }

    #[test]
    fn in_a_full_design_effects_are_differences_of_averages_of_cells() {
        let full = experiment(
            "[factors]\n\"zone.sink_back_m\" = [0.0, 1.2]\n\"zone.sink_front_m\" = [0.0, 0.3, 0.6]\n",
        );
        let found = found(&full, |x, _| 5.0 + 2.0 * x[0] + x[1] + 10.0 * x[0] * x[1]);
        let expected = [
            ("zone.sink_back_m 0.0 to 1.2", 2.4 + 10.0 * 1.2 * 0.3),
            ("zone.sink_front_m 0.0 to 0.3", 0.3 + 10.0 * 0.6 * 0.3),
            ("zone.sink_front_m 0.0 to 0.6", 0.6 + 10.0 * 0.6 * 0.6),
            ("zone.sink_back_m 0.0 to 1.2 x zone.sink_front_m 0.0 to 0.3", 10.0 * 1.2 * 0.3),
            ("zone.sink_back_m 0.0 to 1.2 x zone.sink_front_m 0.0 to 0.6", 10.0 * 1.2 * 0.6),
        ];
        assert_eq!(found.len(), expected.len());
        for ((name, got), (wanted, want)) in found.iter().zip(expected) {
            assert!(name == wanted && (got - want).abs() < 1e-9, "{name}: {got}, {want}");
        }
    }

    #[test]
    fn over_ranges_they_are_those_of_the_whole_range() {
        let factors = "[[design.factor]]\nkey = \"zone.sink_back_m\"\nrange = [0.0, 1.2]\n\
                       [[design.factor]]\nkey = \"zone.sink_front_m\"\nrange = [0.0, 0.6]\n";
        let text = format!("[design]\nkind = \"sobol\"\ncells = 64\n{factors}");
        let found =
            found(&experiment(&text), |x, _| 1.0 + 3.0 * x[0] - x[1] + 2.0 * (x[0] - 0.6) * (x[1] - 0.3));
        let value = |nth: usize| found[nth].1;
        // In 64 points the product of the two hardly goes along with either.
        assert!((value(0) - 3.6).abs() < 0.02 && (value(1) + 0.6).abs() < 0.02, "{found:?}");
        assert!(found[2].0.contains(" x ") && (value(2) - 2.0 * 1.2 * 0.6).abs() < 1e-9, "{found:?}");
    }

    #[test]
    fn variants_are_a_factor_and_what_cannot_be_told_is_left_out() {
        let two = "baseline = \"b\"\n[[variant]]\nname = \"a\"\n[[variant]]\nname = \"b\"\nset = { \"attack.rover.route\" = \"hold-wing\" }\n";
        let list = "[design]\nkind = \"one-at-a-time\"\n[[design.factor]]\nkey = \"zone.sink_back_m\"\nvalues = [0.3]\n\
                    [[design.factor]]\nkey = \"zone.sink_front_m\"\nvalues = [0.2]\n";
        let sought = effects(&experiment(&format!("{two}{list}"))).unwrap();
        let wanted = "There are too few cells to tell zone.sink_back_m base to 0.3 with zone.sink_front_m base to 0.2.";
        assert_eq!(sought.remarks, [wanted]);
        let found = sought.effects;
        let keys = |effect: &Effect| {
            effect.sides.iter().map(|side| side.key.clone()).collect::<Vec<_>>().join(" x ")
        };
        let keys: Vec<String> = found.iter().map(keys).collect();
        // Tried one at a time, two factors have no interaction: no cell changes both.
        let expected = [
            "variant",
            "zone.sink_back_m",
            "zone.sink_front_m",
            "variant x zone.sink_back_m",
            "variant x zone.sink_front_m",
        ];
        assert_eq!(keys, expected);
        assert_eq!((found[0].sides[0].from.as_str(), found[0].sides[0].to.as_str()), ("b", "a"));
        assert!(found.iter().all(|effect| effect.weights.iter().sum::<f64>().abs() < 1e-12));
        assert_eq!(effects(&experiment(two)).unwrap(), Sought::default(), "one cell has no effects");
    }

    /// Of a list of cells.
    fn listed(cells: &str, more: &str) -> Sought {
        let folder = tempfile::tempdir().unwrap();
        std::fs::write(folder.path().join("cells.csv"), cells).unwrap();
        let design =
            format!("scenario = \"plain-122\"\n[design]\nkind = \"list\"\nlist = \"cells.csv\"\n{more}");
        let experiment = scenarios::experiment_of(design, &folder.path().join("made-up.toml"))
            .unwrap_or_else(|faults| panic!("{faults}"));
        effects(&experiment).unwrap()
    }

    fn names(sought: &Sought) -> Vec<String> {
        sought.effects.iter().map(|effect| in_words(&effect.sides)).collect()
    }

    #[test]
    fn numbers_are_what_they_are_however_they_are_written() {
        let sought = listed("zone.sink_back_m\n0.3\n0.30\n0.6\n3e-1\n", "");
        assert_eq!(names(&sought), ["zone.sink_back_m 0.3 to 0.6"]);
        let rows: String = (0..20).map(|nth| format!("{},{}\n", f64::from(nth) / 20.0, nth % 2)).collect();
        let sought = listed(&format!("zone.sink_back_m,zone.sink_front_m\n{rows},0\n"), "");
        // A cell that is left empty has the scenario's number, if that is written; else nothing is told of the factor.
        let is_line = names(&sought).contains(&"zone.sink_back_m 0 to 0.95".to_owned());
        let is_said =
            sought.remarks.iter().any(|remark| remark.starts_with("Nothing is told of zone.sink_back_m"));
        assert!(is_line != is_said && sought.effects.len() <= 3, "{:?} {:?}", names(&sought), sought.remarks);
    }

    #[test]
    fn interactions_that_are_not_looked_at_are_told() {
        let values = "[0.1, 0.2, 0.3, 0.4]";
        let keys = ["sink_back_m", "sink_front_m", "closeout_stop_m"];
        let factors: String = keys.iter().map(|key| format!("\"zone.{key}\" = {values}\n")).collect();
        let sought = effects(&experiment(&format!(
            "[factors]\n{}",
            factors.replace(
                "closeout_stop_m\" = [0.1, 0.2, 0.3, 0.4]",
                "closeout_stop_m\" = [0.6, 0.8, 1.0, 1.2]"
            )
        )))
        .unwrap();
        // Nine main effects and 27 of pairs.
        assert_eq!((sought.effects.len(), sought.remarks.len()), (36, 0));
        let pair = "[[design.interaction]]\nof = [\"zone.sink_back_m\", \"zone.sink_front_m\"]\n";
        let sought = listed("zone.sink_back_m,zone.sink_front_m\n0.1,0.2\n0.4,0.2\n", pair);
        assert_eq!(names(&sought), ["zone.sink_back_m 0.1 to 0.4"]);
        assert!(sought.remarks[0].contains("zone.sink_front_m has no two values"), "{:?}", sought.remarks);
    }

    #[test]
    fn of_factors_that_go_together_none_is_told_and_all_are_named() {
        let cells = "zone.sink_back_m,zone.sink_front_m,zone.closeout_stop_m\n0.0,0.1,0.6\n1.0,0.5,0.6\n0.0,0.1,1.2\n1.0,0.5,1.2\n";
        let pair = "[[design.interaction]]\nof = [\"zone.sink_back_m\", \"zone.closeout_stop_m\"]\n";
        let sought = listed(cells, pair);
        let told = "zone.closeout_stop_m 0.6 to 1.2";
        let interaction = format!("zone.sink_back_m 0.0 to 1.0 with {told}");
        assert_eq!(
            names(&sought),
            [told, interaction.as_str()],
            "a line for either sink would be the other's as well"
        );
        let wanted =
            "Not told apart, so not told: zone.sink_front_m 0.1 to 0.5; zone.sink_back_m 0.0 to 1.0.";
        assert_eq!(sought.remarks, [wanted]);
    }
}
