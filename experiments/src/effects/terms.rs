//! Which effects an experiment has, and how the figures of its variants are weighed in each.

use std::sync::Arc;

use scenarios::Experiment;
use scenarios::design::{BASE, VARIANT};

use super::least_squares::Model;
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

/// A model with the weights of all its coefficients.
#[derive(Debug, PartialEq)]
pub(super) struct Fitted {
    columns: Vec<Vec<f64>>,
    weights: Vec<Option<Vec<f64>>>,
}

impl Fitted {
    fn new(columns: Vec<Vec<f64>>) -> Self {
        let model = Model { columns };
        let weights = model.weights();
        Self { columns: model.columns, weights }
    }

    /// Coefficients that can be told.
    pub fn columns(&self) -> usize {
        self.weights.iter().flatten().count()
    }

    /// What it leaves of each figure.
    pub fn left(&self, figures: &[f64]) -> Vec<f64> {
        let sum = |weights: &Vec<f64>| weights.iter().zip(figures).map(|(w, y)| w * y).sum();
        let coefficients: Vec<Option<f64>> =
            self.weights.iter().map(|weights| weights.as_ref().map(sum)).collect();
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
        let side = |level: &&String| Side { key: key.into(), from: first.into(), to: (**level).clone() };
        let column = |level: &&String| levels.iter().map(|own| f64::from(u8::from(own == *level))).collect();
        Self { sides: others.iter().map(side).collect(), columns: others.iter().map(column).collect() }
    }

    /// Of a range: from -1/2 to 1/2.
    fn of_range(key: &str, numbers: &[f64], (low, high): (f64, f64)) -> Self {
        let side = Side { key: key.into(), from: low.to_string(), to: high.to_string() };
        let place = |x: &f64| (x - low) / (high - low) - 0.5;
        Self { sides: vec![side], columns: vec![numbers.iter().map(place).collect()] }
    }

    fn key(&self) -> &str {
        &self.sides[0].key
    }
}

/// The factors that differ over an experiment's variants, the variants themselves first.
fn terms(experiment: &Experiment) -> Vec<Term> {
    let variants = &experiment.variants;
    let reference = variants.iter().find(|variant| variant.name == experiment.baseline);
    let own: Vec<String> = variants.iter().map(|variant| variant.own.clone()).collect();
    let mut found = vec![Term::of_levels(VARIANT, &own, reference.map_or("", |variant| &variant.own))];
    for (place, factor) in experiment.cells.factors.iter().enumerate() {
        let levels: Vec<_> =
            variants.iter().map(|variant| &experiment.cells.values[variant.cell][place]).collect();
        let numbers: Option<Vec<f64>> = levels.iter().map(|level| level.number).collect();
        let range = factor.range.or_else(|| many(numbers.as_ref()?));
        found.push(match (numbers, range) {
            (Some(numbers), Some(range)) => Term::of_range(&factor.key, &numbers, range),
            _ => {
                let told: Vec<String> = levels.iter().map(|level| level.told.clone()).collect();
                let listed = factor.levels.iter().find(|level| told.contains(level));
                // A cell that leaves the key as it is comes first: changes are told from there.
                let first = listed.filter(|_| told[0] != BASE).unwrap_or(&told[0]).clone();
                Term::of_levels(&factor.key, &told, &first)
            }
        });
    }
    found.retain(|term| !term.sides.is_empty());
    found
}

/// The ends of numbers that take many values.
fn many(numbers: &[f64]) -> Option<(f64, f64)> {
    let mut sorted = numbers.to_vec();
    sorted.sort_by(f64::total_cmp);
    sorted.dedup();
    (sorted.len() > LEVELS_MOST).then(|| (sorted[0], sorted[sorted.len() - 1]))
}

/// The effects of an experiment, main ones first; none of one cell. An effect that others make up is left out.
///
/// # Errors
/// There are too many to be told.
pub fn effects(experiment: &Experiment) -> Result<Vec<Effect>, Error> {
    if experiment.cells.len() < 2 {
        return Ok(Vec::new());
    }
    let terms = terms(experiment);
    let place = |key: &str| terms.iter().position(|term| term.key() == key);
    let named = experiment.design.as_ref().and_then(|design| design.interactions.as_ref());
    let main: usize = terms.iter().map(|term| term.sides.len()).sum();
    let count = |pairs: &[(usize, usize)]| -> usize {
        main + pairs.iter().map(|&(a, b)| terms[a].sides.len() * terms[b].sides.len()).sum::<usize>()
    };
    let pairs: Vec<(usize, usize)> = match named {
        Some(pairs) => pairs.iter().filter_map(|(a, b)| Some((place(a)?, place(b)?))).collect(),
        None => {
            let all: Vec<_> = (0..terms.len()).flat_map(|b| (0..b).map(move |a| (a, b))).collect();
            if terms.len() <= ALL_PAIRS_MOST && count(&all) <= UNASKED_MOST { all } else { Vec::new() }
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
    let mut found = Vec::new();
    let alone = Arc::new(Fitted::new(columns.clone()));
    let main_sides = terms.iter().flat_map(|term| term.sides.iter().map(|side| vec![side.clone()]));
    found.extend(told(&alone, 1, main_sides));
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
    found.extend(told(&Arc::new(Fitted::new(columns)), begins, sides.into_iter()));
    Ok(found)
}

/// The coefficients of a fit from a place on, as effects.
fn told(fit: &Arc<Fitted>, from: usize, sides: impl Iterator<Item = Vec<Side>>) -> Vec<Effect> {
    let of = |(nth, sides): (usize, Vec<Side>)| {
        let weights = fit.weights[from + nth].clone()?;
        Some(Effect { sides, weights: balanced(weights), model: Arc::clone(fit) })
    };
    sides.enumerate().filter_map(of).collect()
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
        effects(experiment).unwrap().into_iter().map(told).collect()
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
        let found = effects(&experiment(&format!("{two}{list}"))).unwrap();
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
        assert!(effects(&experiment(two)).unwrap().is_empty(), "one cell has no effects");
    }
}
