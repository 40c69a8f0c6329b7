//! Experiments: a base scenario and what is varied in it.

use std::collections::BTreeSet;
use std::sync::Arc;

use crate::declared::{Field, Kind, Need, Part, Table};
use crate::design::{BASE, Cells, Design, Factor, Level};
use crate::fault::{Problem, nearest, one_of};
use crate::key::plain;
use crate::load::Variant;
use crate::overrides::Override;
use crate::read::Reader;
use crate::schema::{design, scenario};
use crate::source::Desk;
use crate::text::Text;
use crate::tree::{Data, Node, Origin};
use crate::value::{Valued, covers, in_line, label, same_path};

/// The keys that tell an experiment from a scenario.
const OWN_KEYS: [&str; 7] = ["question", "scenario", "rank_by", "baseline", "variant", "factors", "design"];
/// Stands between a variant's name and its factors; never a comma, which sentences need.
const BETWEEN: &str = " / ";
/// Most variants, factors multiplied out; and most factors, which may have one value each. (a choice)
const VARIANTS_MOST: usize = 64;
/// Larger numbers of variants are not told. (a choice)
const COUNTED: usize = 1_000_000;
/// Most characters of a variant's name with its factors: three lines of a page. (a choice)
const NAME_MOST: usize = 200;
/// Most values that a variant changes; a scenario has some 400. (a choice)
const CHANGES_MOST: usize = 1000;

/// What a variant changes: any path of a scenario.
const VALUE: Field = Field::other("", Kind::Any, "A value of the scenario, by its dotted path.");

static VARIANT: Table = Table::of(&[Part::Fields(&[
    Field::text("name", Text::Name, "The variant's name.").needed(),
    Field::other("set", Kind::Map(&VALUE), "What differs from the base scenario: values by dotted path."),
])]);

/// An experiment's file.
pub(crate) static EXPERIMENT: Table = Table::of(&[Part::Fields(&[
    Field::text("question", Text::Line, "The question in plain words; the catalog shows it."),
    Field::number("possessions", "possessions", (1.0, 1e9), "Possessions for each variant.")
        .as_kind(Kind::Whole)
        .or(Need::Whole(POSSESSIONS_DEFAULT)),
    Field::text(
        "rank_by",
        Text::Name,
        "The measure by which variants are ranked: a column of comparison.csv.",
    )
    .or(Need::Word(RANK_BY_DEFAULT)),
    Field::text(
        "baseline",
        Text::Prose,
        "The variant that the others are compared with; the first, if none is named.",
    ),
    Field::tables("variant", &VARIANT, "A variant: its name and its overrides."),
    Field::other(
        "factors",
        Kind::Map(&VALUE),
        "Lists of values by dotted path; all combinations are played.",
    ),
    Field::table(
        "design",
        &design::DESIGN,
        "Which keys go over which values; for many cells, see scenarios/GUIDE.md.",
    ),
    Field::other("scenario", Kind::File("scenarios"), "The base scenario.").needed(),
])]);

/// The default of `possessions`.
pub(crate) const POSSESSIONS_DEFAULT: u64 = 2048;
/// The default of `rank_by`.
pub(crate) const RANK_BY_DEFAULT: &str = "expected_net_points";

/// An experiment as read; the file's key and the sources are added by the loading.
pub(crate) struct Plan {
    pub question: String,
    pub possessions: u64,
    pub rank_by: String,
    pub rank_by_at: Option<Origin>,
    pub baseline: String,
    pub variants: Vec<Variant>,
    /// The paths at which the variants differ.
    pub varied: Vec<String>,
    /// The scenario of each variant, its overrides put in.
    pub trees: Vec<Node>,
    /// The combinations of the factors' values.
    pub cells: Cells,
    /// How they were chosen, where that is by a design.
    pub design: Option<Design>,
}

/// A variant or a combination of factors before it is put together.
#[derive(Clone, Default)]
pub(crate) struct Draft {
    pub name: String,
    pub overrides: Vec<Override>,
    /// Its name within a cell.
    own: String,
    cell: usize,
}

impl Draft {
    /// The overrides that no later one takes away.
    fn in_force(&self) -> impl Iterator<Item = &Override> {
        let all = &self.overrides;
        let stands = |nth: usize, path: &str| !all[nth + 1..].iter().any(|later| covers(&later.path, path));
        all.iter().enumerate().filter(move |(nth, o)| stands(*nth, &o.path)).map(|(_, o)| o)
    }
}

/// The paths that some draft sets and at which the scenarios are not all the same, each once.
fn varied(desk: &Desk, drafts: &[Draft], trees: &[Node]) -> Vec<String> {
    let (mut found, mut seen): (Vec<String>, BTreeSet<&str>) = (Vec::new(), BTreeSet::new());
    for set in drafts.iter().flat_map(Draft::in_force) {
        let mut values = trees.iter().map(|tree| Valued::at(tree, &set.path));
        let first = values.next().flatten();
        let is_first = |value: Option<Valued<'_>>| match (first, value) {
            (Some(first), Some(value)) => first.is_same(value, desk),
            (first, value) => first.is_none() && value.is_none(),
        };
        if seen.insert(&set.path)
            && !found.iter().any(|known| same_path(known, &set.path))
            && !values.all(is_first)
        {
            found.push(set.path.clone());
        }
    }
    found
}

/// Gives cells that leave a number as it is the one that the base scenario writes.
fn write_base_numbers(cells: &mut Cells, base: &Node) {
    for (place, factor) in cells.factors.iter().enumerate() {
        let number = Valued::at(base, &factor.key).and_then(|value| value.number_under(&factor.key));
        let own = cells.values.iter_mut().map(|cell| &mut cell[place]);
        own.filter(|level| level.told == BASE && level.number.is_none())
            .for_each(|level| level.number = number);
    }
}

/// True where a file's root is an experiment's rather than a scenario's.
pub(crate) fn is_experiment(root: &Node) -> bool {
    OWN_KEYS.iter().any(|key| root.get(key).is_some())
}

/// Reads an experiment; `None` where its base scenario is unusable (faults are noted either way).
pub(crate) fn read(desk: &Desk, node: &Node) -> Option<Plan> {
    let root = Reader::root(desk, node, &EXPERIMENT);
    let question = root.text("question").to_owned();
    let possessions = root.whole("possessions");
    let rank_by = root.text("rank_by").to_owned();
    let rank_by_at = node.get("rank_by").map(|entry| entry.node.origin);
    let baseline_node = root.find("baseline");
    let baseline = root.maybe_text("baseline");
    let few = are_few(&root);
    let variants = if few { variants(&root) } else { Vec::new() };
    let factors = if few { factors(&root) } else { Vec::new() };
    let asked = design::read(&root);
    if few && variants.is_empty() && factors.is_empty() && root.find("design").is_none() {
        root.missing(
            "variant",
            "at least one [[variant]] with a name, one list of values under [factors], or a [design]".into(),
        );
    }
    if let (Some(node), Some(_)) = (root.find("factors"), root.find("design")) {
        root.refuse(
            "factors",
            node,
            "no such key beside [design]: its factors are [[design.factor]]".into(),
            None,
        );
    }
    let base = root.file("scenario");
    let mut many = false;
    let (drafts, mut cells) = match (&asked, &base) {
        (None, _) => crossed(desk, variants, &factors),
        (Some(asked), Some(base)) => {
            let own = if variants.is_empty() { vec![Draft::default()] } else { variants };
            let design::Built { cells, overrides, listed } = asked.cells(desk, &base.root, &own)?;
            many = !listed;
            (in_cells(&own, overrides), cells)
        }
        (Some(_), None) => return None,
    };
    refuse_long_names(&root, &drafts);

    let base = base?;
    let (mut built, mut trees) = (Vec::new(), Vec::new());
    for draft in &drafts {
        // Whatever else there is to say would not be shown, or is said of thousands of cells.
        if desk.is_full() || many && desk.has_faults() {
            break;
        }
        let mut tree = (*base.root).clone();
        draft.overrides.iter().for_each(|o| o.apply(desk, &mut tree));
        let setup = scenario::read(desk, &tree).map(|(_, setup)| Arc::new(setup));
        let told = |o: &Override| o.told.clone().unwrap_or_else(|| in_line(desk, &o.value));
        let settings = draft.in_force().map(|o| (o.path.clone(), told(o))).collect();
        if let Some(setup) = setup {
            let (name, own, cell) = (draft.name.clone(), draft.own.clone(), draft.cell);
            built.push(Variant { name, setup, settings, cell, own });
            trees.push(tree);
        }
    }

    let mut named = BTreeSet::new();
    for set in drafts.iter().flat_map(|draft| &draft.overrides) {
        let Origin { source, start, end } = set.path_origin;
        if named.insert((source, start, end)) {
            set.name_whole_paths(desk);
        }
    }

    let names: Vec<&str> = drafts.iter().map(|draft| draft.name.as_str()).collect();
    let baseline = match (baseline, baseline_node) {
        (Some(wanted), Some(node)) if few => baseline_of(wanted, &drafts).unwrap_or_else(|| {
            root.refuse(
                "baseline",
                node,
                one_of(names.iter().copied()),
                nearest(wanted, names.iter().copied()),
            );
            wanted.to_owned()
        }),
        _ => names.first().map_or_else(String::new, |name| (*name).to_owned()),
    };
    if !many {
        write_base_numbers(&mut cells, &base.root);
    }
    let varied = varied(desk, &drafts, &trees);
    let design = asked.map(|asked| asked.told(desk, node, cells.len()));
    Some(Plan {
        question,
        possessions,
        rank_by,
        rank_by_at,
        baseline,
        variants: built,
        varied,
        trees,
        cells,
        design,
    })
}

/// The variant that a baseline names: itself, or its first combination with the factors.
fn baseline_of(wanted: &str, drafts: &[Draft]) -> Option<String> {
    let named = |draft: &&Draft| draft.name == wanted;
    let within = |draft: &&Draft| draft.own == wanted;
    let combined =
        |draft: &&Draft| draft.name.strip_prefix(wanted).is_some_and(|rest| rest.starts_with(BETWEEN));
    let find = |is_it: &dyn Fn(&&Draft) -> bool| drafts.iter().find(|draft| is_it(draft));
    let found = find(&named).or_else(|| find(&within)).or_else(|| find(&combined));
    found.map(|draft| draft.name.clone())
}

/// Notes that there is more of something than there may be.
fn too_many(root: &Reader<'_>, at: Origin, key: &str, found: String, most: usize) {
    let problem = Problem::NotAllowed { found, allowed: format!("at most {most}"), nearest: None };
    root.desk.fault(at, key, problem, None);
}

/// Refuses names for which no table and no picture has room once factors are added to them.
fn refuse_long_names(root: &Reader<'_>, drafts: &[Draft]) {
    let longest = drafts.iter().map(|draft| draft.name.chars().count()).max().unwrap_or(0);
    if let Some(factors) = root.node().get("factors")
        && longest > NAME_MOST
    {
        let found = format!("a variant's name of {longest} characters with its factors");
        too_many(root, factors.key_origin, "factors", found, NAME_MOST);
    }
}

/// Whether variants, factors and what they change are few enough to be put together, from their numbers alone.
fn are_few(root: &Reader<'_>) -> bool {
    let refuse = |at: Origin, key: &str, found: String, most: usize| {
        too_many(root, at, key, found, most);
        false
    };
    let members = |key: &str| root.find(key).map_or(&[][..], Node::members);
    let own = members("variant");
    let factors = root.find("factors").map_or_else(Vec::new, |node| Override::all(node.entries()));
    let lengths = factors.iter().map(|factor| factor.value.members().len().max(1));
    let count = lengths.fold(own.len().max(1), usize::saturating_mul);
    let at = |key: &str| root.node().get(key).map_or(root.node().origin, |entry| entry.key_origin);
    let changes = |variant: &Node| variant.get("set").map_or(0, |set| Override::count(set.node.entries()));
    if factors.len() > VARIANTS_MOST {
        return refuse(at("factors"), "factors", format!("{} factors", factors.len()), VARIANTS_MOST);
    }
    if count > VARIANTS_MOST {
        let key = if factors.is_empty() { "variant" } else { "factors" };
        let more = if count > COUNTED { "more than " } else { "" };
        let found = format!("{more}{} variants", plain(count.min(COUNTED) as f64));
        return refuse(at(key), key, found, VARIANTS_MOST);
    }
    let many = own.iter().enumerate().find(|(_, variant)| changes(variant) > CHANGES_MOST);
    many.is_none_or(|(nth, variant)| {
        let at = variant.get("set").map_or(variant.origin, |set| set.key_origin);
        let key = format!("variant.{}.set", nth + 1);
        refuse(at, &key, format!("{} values", changes(variant)), CHANGES_MOST)
    })
}

fn variants(root: &Reader<'_>) -> Vec<Draft> {
    let mut drafts: Vec<Draft> = Vec::new();
    for table in root.tables("variant") {
        let name = table.text("name");
        // One that is refused stays in the list, so that what names it is not refused as well.
        let name = table.find("name").and_then(Node::text).unwrap_or(name);
        match table.find("name") {
            None => table.missing("name", "a name".into()),
            Some(node) if drafts.iter().any(|draft| draft.name == name) => {
                table.refuse("name", node, "a name that no earlier variant has".into(), None);
            }
            Some(_) => {}
        }
        let set = table.table("set");
        let overrides = set.map_or_else(Vec::new, |set| Override::all(set.entries()));
        no_path_twice(root.desk, &overrides);
        drafts.push(Draft { name: name.to_owned(), overrides, own: name.to_owned(), cell: 0 });
    }
    drafts
}

/// The factors in the order written: for each path its values as overrides.
fn factors(root: &Reader<'_>) -> Vec<Vec<Override>> {
    let Some(table) = root.table("factors") else { return Vec::new() };
    let lists = Override::all(table.entries());
    no_path_twice(root.desk, &lists);
    let mut found = Vec::new();
    for list in lists {
        let path = table.path_of(&list.path);
        let values = match &list.value.data {
            Data::List(values) if !values.is_empty() => values,
            _ => {
                root.desk.refuse(&list.value, &path, "a list of values, [...]", None);
                continue;
            }
        };
        each_once(root.desk, values, (&list.path, &path));
        let one = |value: &Node| Override { value: value.clone(), ..list.clone() };
        found.push(values.iter().map(one).collect());
    }
    found
}

/// Refuses a value of a factor that is an earlier one, however it is written.
pub(crate) fn each_once(desk: &Desk, values: &[Node], (key, path): (&str, &str)) {
    for (nth, later) in values.iter().enumerate() {
        let same = |earlier: &&Node| Valued::under(key, later).is_same(Valued::under(key, earlier), desk);
        let Some(earlier) = values[..nth].iter().find(same) else { continue };
        let (first, second) = (desk.written(earlier), desk.written(later));
        let known = if first == second { String::new() } else { format!("; {second} is {first}") };
        desk.refuse(later, path, &format!("each value once{known}"), None);
    }
}

/// Refuses a path that is set a second time, under the same name or as the same length in the other unit.
pub(crate) fn no_path_twice(desk: &Desk, overrides: &[Override]) {
    for (nth, later) in overrides.iter().enumerate() {
        let Some(earlier) = overrides[..nth].iter().find(|earlier| same_path(&earlier.path, &later.path))
        else {
            continue;
        };
        let (found, allowed) = if earlier.path == later.path {
            (format!("`{}` a second time", later.path), "each path once".into())
        } else {
            let allowed = format!("one of {} and {}, not both", earlier.path, later.path);
            (format!("`{}`", later.path), allowed)
        };
        let problem = Problem::NotAllowed { found, allowed, nearest: None };
        desk.fault(later.path_origin, &later.path, problem, None);
    }
}

/// The variants in each cell, cell by cell; cells win over variants.
fn in_cells(variants: &[Draft], cells: Vec<Vec<Override>>) -> Vec<Draft> {
    let mut drafts = Vec::new();
    for (cell, sets) in cells.into_iter().enumerate() {
        for variant in variants {
            let between = if variant.name.is_empty() { "" } else { BETWEEN };
            let name = format!("cell {}{between}{}", cell + 1, variant.name);
            let overrides = variant.overrides.iter().chain(&sets).cloned().collect();
            drafts.push(Draft { name, overrides, own: variant.own.clone(), cell });
        }
    }
    drafts
}

/// Variants crossed with factors, and the cells: the last factor changes fastest, and factors win over variants.
fn crossed(desk: &Desk, variants: Vec<Draft>, factors: &[Vec<Override>]) -> (Vec<Draft>, Cells) {
    let mut drafts =
        if variants.is_empty() && !factors.is_empty() { vec![Draft::default()] } else { variants };
    let labels = labels(factors);
    let mut cells = Cells::one();
    for (values, factor) in factors.iter().zip(&labels) {
        let level = |(nth, set): (usize, &Override)| Level {
            told: label(desk, &set.value, nth),
            number: set.value.number(),
        };
        let levels: Vec<Level> = values.iter().enumerate().map(level).collect();
        let told = levels.iter().map(|level| level.told.clone()).collect();
        cells.factors.push(Factor { key: values[0].path.clone(), range: None, levels: told });
        let longer = |cell: &Vec<Level>| {
            levels.iter().map(|level| [&cell[..], std::slice::from_ref(level)].concat()).collect::<Vec<_>>()
        };
        cells.values = cells.values.iter().flat_map(longer).collect();
        let mut next = Vec::new();
        for draft in &drafts {
            for (nth, value) in values.iter().enumerate() {
                let mut draft = draft.clone();
                let between = if draft.name.is_empty() { "" } else { BETWEEN };
                let value_label = label(desk, &value.value, nth);
                draft.name = format!("{}{between}{factor}={value_label}", draft.name);
                draft.cell = draft.cell * values.len() + nth;
                draft.overrides.push(value.clone());
                next.push(draft);
            }
        }
        drafts = next;
    }
    (drafts, cells)
}

/// Short names of the factors: the last part of the path, longer where two would be the same.
fn labels(factors: &[Vec<Override>]) -> Vec<String> {
    let paths: Vec<&str> =
        factors.iter().filter_map(|values| values.first()).map(|o| o.path.as_str()).collect();
    let tail = |path: &str, parts: usize| {
        let all: Vec<&str> = path.split('.').collect();
        all[all.len().saturating_sub(parts)..].join(".")
    };
    let unique =
        |path: &str, parts| paths.iter().filter(|other| tail(other, parts) == tail(path, parts)).count() == 1;
    let short = |path: &&str| {
        (1..=8).find(|&parts| unique(path, parts)).map_or((*path).to_owned(), |n| tail(path, n))
    };
    paths.iter().map(short).collect()
}
