//! `[design]` of an experiment: which keys go over which values, and at which combinations of them it is played.

use crate::declared::{Count, Field, Kind, Need, Part, Table};
use crate::design::points::{AXES_MOST, latin_hypercube, sobol};
use crate::design::{Cells, Design, Factor, Level, VARIANT};
use crate::fault::{nearest, one_of};
use crate::overrides::Override;
use crate::read::Reader;
use crate::schema::experiment::{Draft, no_path_twice};
use crate::schema::factor::{Drawn, FACTOR, LEVELS_MOST, Over, factor};
use crate::schema::listed;
use crate::schema::scenario;
use crate::source::Desk;
use crate::text::Text;
use crate::tree::{Node, Origin};
use crate::value::in_line;

/// Most variants of a design, in all cells together: as many points as its sequences have. (a choice)
pub(crate) const VARIANTS_MOST: usize = 1 << 16;
/// How the cells are chosen.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Way {
    Full,
    LatinHypercube,
    Sobol,
    OneAtATime,
    List,
}

static WAYS: [(&str, Way); 5] = [
    ("full", Way::Full),
    ("latin-hypercube", Way::LatinHypercube),
    ("sobol", Way::Sobol),
    ("one-at-a-time", Way::OneAtATime),
    ("list", Way::List),
];

/// On which possessions cells are played.
static DRAWS: [(&str, bool); 2] = [("own", true), ("same", false)];
/// From so many cells on each has possessions of its own, where nothing is said. An effect over many cells that share their
/// possessions is known no better than those few possessions tell, however many cells there are; two cells are told apart
/// better on the same ones. (measured 2026-12-01, the bundled design: by factor, the first counts for more from 60 to 1,300
/// cells on)
const OWN_FROM: usize = 200;

/// The headings of a list are dotted keys, which no table declares.
static LIST: Table = Table::of(&[]);

static INTERACTION: Table = Table::of(&[Part::Fields(&[Field::other(
    "of",
    Kind::List(&Kind::Text(Text::Line), Count::Within(2, 2)),
    "Two keys of factors, or one and the word variant: does the effect of one depend on the other?",
)
.needed()])]);

/// A design's table.
pub(crate) static DESIGN: Table = Table::of(&[Part::Fields(&[
    Field::other("kind", Kind::Word(&WAYS), "How the cells, the combinations of values, are chosen.")
        .needed(),
    Field::number(
        "cells",
        "cells",
        (2.0, VARIANTS_MOST as f64),
        "Of latin-hypercube and sobol: number of cells.",
    )
    .as_kind(Kind::Whole),
    Field::number(
        "seed",
        "",
        (0.0, 1e9),
        "Of latin-hypercube and sobol: another seed, another set of cells.",
    )
    .as_kind(Kind::Whole)
    .or(Need::Whole(1)),
    Field::other(
        "list",
        Kind::Rows(&LIST),
        "Of list: a table of comma-separated values; its headings are dotted keys, a row is a cell.",
    ),
    Field::other(
        "draws",
        Kind::Word(&DRAWS),
        "Whether each cell is played on possessions of its own, or all on the same ones.",
    )
    .or(Need::Depends("own from 200 cells on, else same")),
    Field::tables("factor", &FACTOR, "A key that goes over several values; not for list."),
    Field::tables(
        "interaction",
        &INTERACTION,
        "An interaction that is estimated. Without any: all pairs of up to six factors.",
    ),
    Field::number(
        "leading",
        "variants",
        (0.0, 24.0),
        "So many of the leading variants are played afresh, for report and pictures.",
    )
    .as_kind(Kind::Whole)
    .or(Need::Whole(8)),
])]);

/// A design as read.
pub(crate) struct Asked<'d> {
    way: Way,
    cells: Option<u64>,
    seed: u64,
    list: Option<&'d Node>,
    factors: Vec<Drawn>,
    pairs: Vec<[(String, &'d Node); 2]>,
    leading: usize,
    own_draws: Option<bool>,
    at: Origin,
}

/// Cells with what each of them changes.
pub(crate) struct Built {
    pub cells: Cells,
    pub overrides: Vec<Vec<Override>>,
    /// Every fault is wanted, cell by cell.
    pub listed: bool,
}

/// Reads `[design]`, if the experiment has one; faults are noted.
pub(crate) fn read<'d>(root: &Reader<'d>) -> Option<Asked<'d>> {
    let table = root.maybe_table("design")?;
    let at = root.node().get("design").map_or(root.node().origin, |entry| entry.key_origin);
    let way = table.maybe_word("kind", &WAYS);
    if table.find("kind").is_none() {
        table.missing("kind", one_of(WAYS.iter().map(|(word, _)| *word)));
    }
    let (cells, seed, list) = (table.maybe_whole("cells"), table.whole("seed"), table.find("list"));
    let own_draws = table.maybe_word("draws", &DRAWS);
    let leading = usize::try_from(table.whole("leading")).unwrap_or_default();
    let factors: Vec<Option<Drawn>> = table.tables("factor").iter().map(factor).collect();
    let pairs: Vec<_> = table.tables("interaction").iter().filter_map(pair).collect();
    let way = way?;
    let sampled = matches!(way, Way::LatinHypercube | Way::Sobol);
    if sampled && cells.is_none() && table.find("cells").is_none() {
        table.missing(
            "cells",
            format!("the number of cells, 2 to {}", crate::key::plain(VARIANTS_MOST as f64)),
        );
    }
    let word = WAYS.iter().find(|(_, own)| *own == way).map_or("", |(word, _)| word);
    let beside = |key: &str, kinds: &str| {
        if let Some(node) = table.find(key) {
            table.refuse(key, node, format!("no such key beside kind = \"{word}\": it is for {kinds}"), None);
        }
    };
    if !sampled {
        beside("cells", "latin-hypercube and sobol");
    }
    if way == Way::List {
        beside("factor", "the other kinds; the headings of the list name the keys");
        if list.is_none() {
            table.missing("list", "a path ending in .csv, in quotes".into());
        }
    } else {
        beside("list", "the kind list");
        if factors.is_empty() {
            table.missing(
                "factor",
                "at least one [[design.factor]] with a key and its values or range".into(),
            );
        }
    }
    let needs_levels = |drawn: &Drawn| matches!(drawn.over, Over::Range { levels: None, .. });
    if way == Way::Full {
        for (nth, drawn) in factors.iter().enumerate().filter_map(|(nth, drawn)| Some((nth, drawn.as_ref()?)))
        {
            if needs_levels(drawn) {
                let path = format!("design.factor.{}.levels", nth + 1);
                let allowed =
                    format!("a number of values, 2 to {LEVELS_MOST}, for the range of a full design");
                let problem = crate::fault::Problem::Missing { allowed };
                table.desk.fault(drawn.key_origin, &path, problem, None);
            }
        }
    }
    if factors.len() > AXES_MOST {
        let found = format!("{} factors", factors.len());
        let problem = crate::fault::Problem::NotAllowed {
            found,
            allowed: format!("at most {AXES_MOST}"),
            nearest: None,
        };
        table.desk.fault(at, "design.factor", problem, None);
    }
    let factors: Option<Vec<Drawn>> = factors.into_iter().collect();
    Some(Asked { way, cells, seed, list, factors: factors?, pairs, leading, own_draws, at })
}

/// The two keys of an interaction.
fn pair<'d>(table: &Reader<'d>) -> Option<[(String, &'d Node); 2]> {
    let node = table.find("of");
    if node.is_none() {
        table.missing("of", "two keys of factors, [\"...\", \"...\"]".into());
    }
    let members = table.list_in("of", node?);
    let texts: Vec<_> = members
        .iter()
        .filter_map(|member| {
            Some((table.text_in("of", member, "a dotted key in quotes")?.to_owned(), member))
        })
        .collect();
    let found = texts.len() == members.len();
    match <[_; 2]>::try_from(texts) {
        Ok(pair) if pair[0].0 != pair[1].0 => Some(pair),
        _ if !found => None,
        _ => {
            table.refuse("of", node?, "two different keys, [\"...\", \"...\"]".into(), None);
            None
        }
    }
}

impl Asked<'_> {
    /// The design as the outcome tells it.
    pub fn told(&self, desk: &Desk, root: &Node, cells: usize) -> Design {
        let line = |key: &str| {
            let node = &root.get(key)?.node;
            Some(format!("{key} = {}\n", in_line(desk, node)))
        };
        let kind = WAYS.iter().find(|(_, way)| *way == self.way).map_or("", |(word, _)| word);
        let pairs = self.pairs.iter().map(|[(a, _), (b, _)]| (a.clone(), b.clone())).collect::<Vec<_>>();
        let interactions = if pairs.is_empty() { None } else { Some(pairs) };
        let head = ["units", "scenario"].into_iter().filter_map(line).collect();
        let own_draws = self.own_draws.unwrap_or(cells >= OWN_FROM);
        Design { kind, interactions, own_draws, leading: self.leading, head }
    }

    /// The cells; None where a fault was found. Tries every end of a range, and every value, by itself first: what is
    /// wrong with one would be wrong in thousands of cells.
    pub fn cells(&self, desk: &Desk, base: &Node, variants: &[Draft]) -> Option<Built> {
        let own: Vec<Override> = match self.way {
            Way::List => Vec::new(),
            _ => self
                .factors
                .iter()
                .map(|drawn| drawn.set(drawn.first(), String::new(), drawn.key_origin))
                .collect(),
        };
        no_path_twice(desk, &own);
        self.tried(desk, base, variants.first().map_or(&[][..], |draft| &draft.overrides));
        if desk.has_faults() {
            return None;
        }
        let built = match self.way {
            Way::List => listed::cells(desk, self.list?)?,
            way => self.chosen(desk, way, variants.len())?,
        };
        let all = built.overrides.len() * variants.len();
        if all > VARIANTS_MOST {
            self.too_many(desk, all, variants.len());
            return None;
        }
        self.pairs_are_factors(desk, &built.cells, variants.len() > 1).then_some(built)
    }

    /// The cells of every kind but a list.
    fn chosen(&self, desk: &Desk, way: Way, variants: usize) -> Option<Built> {
        let values: Vec<Vec<(Override, Level)>> =
            self.factors.iter().map(|drawn| drawn.values(desk)).collect();
        let factor = |(drawn, values): (&Drawn, &Vec<(Override, Level)>)| {
            let range = drawn.range(matches!(way, Way::LatinHypercube | Way::Sobol));
            let told = values.iter().map(|(_, level)| level.told.clone());
            Factor { key: drawn.key.clone(), range, levels: told.filter(|_| range.is_none()).collect() }
        };
        let factors = self.factors.iter().zip(&values).map(factor).collect();
        let untouched = || Level { told: crate::design::BASE.into(), number: None };
        let rows: Vec<Vec<Option<(Override, Level)>>> = match way {
            Way::Full => {
                let count = values.iter().map(Vec::len).fold(1_usize, usize::saturating_mul);
                if count.saturating_mul(variants) > VARIANTS_MOST {
                    self.too_many(desk, count.saturating_mul(variants), variants);
                    return None;
                }
                (0..count).map(|nth| combination(&values, nth)).collect()
            }
            Way::OneAtATime => {
                let none = || vec![None; values.len()];
                let mut rows = vec![none()];
                for (place, own) in values.iter().enumerate() {
                    rows.extend(own.iter().map(|value| {
                        let mut row = none();
                        row[place] = Some(value.clone());
                        row
                    }));
                }
                rows
            }
            _ => {
                let count = usize::try_from(self.cells?).ok()?;
                let points = match way {
                    Way::Sobol => sobol(count, self.factors.len(), Some(self.seed)),
                    _ => latin_hypercube(count, self.factors.len(), self.seed),
                };
                let row = |point: Vec<f64>| {
                    let at = |(place, u): (usize, f64)| Some(self.factors[place].at(&values[place], u));
                    point.into_iter().enumerate().map(at).collect()
                };
                points.into_iter().map(row).collect()
            }
        };
        let (mut overrides, mut told) = (Vec::new(), Vec::new());
        for row in rows {
            told.push(
                row.iter()
                    .map(|one| one.as_ref().map_or_else(untouched, |(_, level)| level.clone()))
                    .collect(),
            );
            overrides.push(row.into_iter().flatten().map(|(set, _)| set).collect());
        }
        Some(Built { cells: Cells { factors, values: told }, overrides, listed: false })
    }

    /// Reads the scenario with each value of a factor, and each end of its range, alone.
    fn tried(&self, desk: &Desk, base: &Node, first: &[Override]) {
        for drawn in &self.factors {
            for set in drawn.to_try() {
                let mut tree = base.clone();
                first.iter().chain([&set]).for_each(|o| o.apply(desk, &mut tree));
                scenario::read(desk, &tree);
                set.name_whole_paths(desk);
            }
        }
    }

    fn too_many(&self, desk: &Desk, found: usize, variants: usize) {
        let each = if variants > 1 { format!(" ({variants} in each cell)") } else { String::new() };
        let found = format!("{} variants{each}", crate::key::plain(found as f64));
        let allowed = format!("at most {}", crate::key::plain(VARIANTS_MOST as f64));
        let problem = crate::fault::Problem::NotAllowed { found, allowed, nearest: None };
        desk.fault(self.at, "design", problem, None);
    }

    /// Refuses interactions of what is no factor.
    fn pairs_are_factors(&self, desk: &Desk, cells: &Cells, variants: bool) -> bool {
        let mut known: Vec<&str> = cells.factors.iter().map(|factor| factor.key.as_str()).collect();
        known.extend(variants.then_some(VARIANT));
        let mut sound = true;
        for (key, node) in self.pairs.iter().flatten() {
            if !known.contains(&key.as_str()) {
                let mended = nearest(key, known.iter().copied());
                desk.refuse(node, "design.interaction", &one_of(known.iter().copied()), mended);
                sound = false;
            }
        }
        sound
    }
}

/// The nth combination; the last factor changes fastest.
fn combination(values: &[Vec<(Override, Level)>], mut nth: usize) -> Vec<Option<(Override, Level)>> {
    let mut row = vec![None; values.len()];
    for (place, own) in values.iter().enumerate().rev() {
        row[place] = Some(own[nth % own.len()].clone());
        nth /= own.len();
    }
    row
}
