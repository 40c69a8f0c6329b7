//! Which variants share a cell, and the factors' values there: columns of tables, and whom each is compared with.

use scenarios::Experiment;

/// The cells of an experiment's variants; without factors there is nothing to tell.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Layout {
    /// Dotted keys of the factors, in the order written.
    pub keys: Vec<String>,
    /// By variant: number of its cell, from 1, and the factors' values in it.
    pub cells: Vec<(usize, Vec<String>)>,
    /// By variant: the one in its cell that is called as the baseline is.
    pub references: Vec<Option<usize>>,
}

impl Layout {
    /// Of an experiment.
    #[must_use]
    pub fn of(experiment: &Experiment) -> Self {
        if experiment.cells.factors.is_empty() {
            return Self::default();
        }
        let variants = &experiment.variants;
        let baseline = variants.iter().find(|variant| variant.name == experiment.baseline);
        let own = baseline.map_or("", |variant| &variant.own);
        let mut of_cell = vec![None; experiment.cells.len()];
        for (v, variant) in variants.iter().enumerate().filter(|(_, variant)| variant.own == own) {
            of_cell[variant.cell].get_or_insert(v);
        }
        let told =
            |cell: usize| experiment.cells.values[cell].iter().map(|level| level.told.clone()).collect();
        Self {
            keys: experiment.cells.factors.iter().map(|factor| factor.key.clone()).collect(),
            cells: variants.iter().map(|variant| (variant.cell + 1, told(variant.cell))).collect(),
            references: variants.iter().map(|variant| of_cell[variant.cell]).collect(),
        }
    }

    /// Headings of the columns that tell a variant's cell.
    pub fn headings(&self) -> impl Iterator<Item = String> + '_ {
        let cell = (!self.keys.is_empty()).then(|| "cell".to_owned());
        cell.into_iter().chain(self.keys.iter().cloned())
    }

    /// The same of a variant.
    pub fn told(&self, variant: usize) -> impl Iterator<Item = String> + '_ {
        let cell = self.cells.get(variant);
        cell.into_iter()
            .flat_map(|(cell, values)| std::iter::once(cell.to_string()).chain(values.iter().cloned()))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn variants_of_a_cell_are_compared_with_its_own_one_of_the_baselines_name() {
        let text = "scenario = \"plain-122\"\nbaseline = \"b\"\n[[variant]]\nname = \"a\"\n[[variant]]\nname = \"b\"\n\
                    set = { \"attack.rover.route\" = \"seam-cross\" }\n[factors]\n\"zone.sink_back_m\" = [0.0, 1.2]\n";
        let experiment = scenarios::experiment_of(text.into(), std::path::Path::new("made-up.toml"))
            .unwrap_or_else(|f| panic!("{f}"));
        let layout = Layout::of(&experiment);
        assert_eq!(layout.references, [Some(2), Some(3), Some(2), Some(3)]);
        assert_eq!(layout.headings().collect::<Vec<_>>(), ["cell", "zone.sink_back_m"]);
        assert_eq!(layout.told(1).collect::<Vec<_>>(), ["2", "1.2"]);
        let plain = scenarios::bundled_question().unwrap();
        assert_eq!((Layout::of(&plain), Layout::of(&plain).told(0).count()), (Layout::default(), 0));
    }
}
