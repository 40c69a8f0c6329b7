//! A factor of a design: a key, and the values that it goes over.

use crate::declared::{Count, Field, Kind, Need, Part, Table};
use crate::design::Level;
use crate::design::spread::{Shape, Spread};
use crate::overrides::Override;
use crate::read::Reader;
use crate::schema::experiment::each_once;
use crate::source::Desk;
use crate::text::Text;
use crate::tree::{Data, Node, Origin};
use crate::value::label;

/// Most values of a range in a full design. (a choice)
pub(crate) const LEVELS_MOST: usize = 1000;
/// Values of a range that is tried one at a time, where none are named: both ends.
const LEVELS_ALONE: usize = 2;

/// The kinds of [`Shape`].
#[derive(Clone, Copy)]
enum Kinds {
    Uniform,
    Triangular,
    Normal,
}

static SHAPES: [(&str, Kinds); 3] =
    [("uniform", Kinds::Uniform), ("triangular", Kinds::Triangular), ("normal", Kinds::Normal)];

const NUMBERS: (f64, f64) = (-1e6, 1e6);

pub(crate) static FACTOR: Table = Table::of(&[Part::Fields(&[
    Field::text("key", Text::Line, "The dotted key of the scenario that goes over several values.").needed(),
    Field::other("values", Kind::List(&Kind::Any, Count::Any), "Its values, each as likely as the others."),
    Field::number("range", "", NUMBERS, "Instead of values: both ends of a range, the lower first.")
        .list(&Kind::Number, Count::Within(2, 2)),
    Field::other("distribution", Kind::Word(&SHAPES), "How values are spread over the range.")
        .or(Need::Word("uniform")),
    Field::number("mode", "", NUMBERS, "Of a triangular distribution: the likeliest value."),
    Field::number(
        "mean",
        "",
        NUMBERS,
        "Of a normal distribution, which is cut off at the ends of the range: its mean.",
    ),
    Field::number("deviation", "", (1e-6, 1e6), "Of a normal distribution: its standard deviation."),
    Field::flag("whole", "Only whole numbers of the range."),
    Field::number(
        "levels",
        "values",
        (2.0, LEVELS_MOST as f64),
        "Values of the range at even distances, for full and one-at-a-time.",
    )
    .as_kind(Kind::Whole),
])]);

/// A factor as read.
pub(crate) struct Drawn {
    pub key: String,
    pub key_origin: Origin,
    pub over: Over,
}

/// What it goes over.
pub(crate) enum Over {
    Values(Vec<Node>),
    Range { spread: Spread, levels: Option<usize>, ends: [Origin; 2], at: Origin },
}

/// A factor's table; None where it is refused.
pub(crate) fn factor(table: &Reader<'_>) -> Option<Drawn> {
    let key = table.maybe_text("key").map(str::to_owned);
    let key_node = table.find("key");
    if key_node.is_none() {
        table.missing("key", "a dotted key such as zone.sink_back_m".into());
    }
    let (values, range) = (table.find("values"), range(table));
    let (shape, whole) = (table.maybe_word("distribution", &SHAPES), table.flag("whole"));
    let levels = table.maybe_whole("levels").and_then(|levels| usize::try_from(levels).ok());
    let number = |name: &str| {
        table.maybe_number(name)?;
        Some((table.find(name)?, table.find(name)?.number()?))
    };
    let (mode, mean, deviation) = (number("mode"), number("mean"), number("deviation"));
    let (key, key_origin) = (key?, key_node?.origin);
    let only_range = ["range", "distribution", "mode", "mean", "deviation", "levels"];
    if let Some(node) = values {
        let listed = table.list_in("values", node);
        if let Some((name, node)) = only_range.iter().find_map(|name| Some((name, table.find(name)?))) {
            table.refuse(name, node, "values or a range, not both".into(), None);
            return None;
        }
        if listed.is_empty() {
            table.refuse("values", node, "at least one value, [...]".into(), None);
            return None;
        }
        each_once(table.desk, listed, (&key, &table.path_of("values")));
        return Some(Drawn { key, key_origin, over: Over::Values(listed.to_vec()) });
    }
    if table.find("range").is_none() {
        table.missing("values", "values = [...] or range = [low, high]".into());
    }
    let (node, [low, high]) = range?;
    if whole && (low.fract() != 0.0 || high.fract() != 0.0) {
        table.refuse("range", node, "whole numbers at both ends, as whole = true asks for".into(), None);
    }
    let shape = match shape.unwrap_or(Kinds::Uniform) {
        Kinds::Uniform => Shape::Uniform,
        Kinds::Triangular => {
            let Some((node, mode)) = mode else {
                table.missing("mode", "the likeliest value, within the range".into());
                return None;
            };
            if !(low..=high).contains(&mode) {
                table.refuse("mode", node, format!("a value within the range, {low} to {high}"), None);
                return None;
            }
            Shape::Triangular { mode }
        }
        Kinds::Normal => {
            let (Some((_, mean)), Some((_, deviation))) = (mean, deviation) else {
                let name = if mean.is_none() { "mean" } else { "deviation" };
                table.missing(name, "a number: a normal distribution has mean and deviation".into());
                return None;
            };
            // Farther out nothing of the distribution is left to be cut.
            let far = 6.0 * deviation;
            if mean + far < low || mean - far > high {
                let allowed =
                    format!("a range within six deviations of the mean, {} to {}", mean - far, mean + far);
                table.refuse("range", node, allowed, None);
                return None;
            }
            Shape::Normal { mean, deviation }
        }
    };
    let ends = [node.members()[0].origin, node.members()[1].origin];
    let spread = Spread { low, high, shape, whole };
    Some(Drawn { key, key_origin, over: Over::Range { spread, levels, ends, at: node.origin } })
}

/// The ends of a range, if there is one and it is not empty.
fn range<'d>(table: &Reader<'d>) -> Option<(&'d Node, [f64; 2])> {
    let node = table.find("range")?;
    let members = table.list_in("range", node);
    let numbers: Vec<f64> = members
        .iter()
        .filter_map(|member| table.number_in("range", member).and_then(|_| member.number()))
        .collect();
    match numbers[..] {
        [low, high] if low < high && members.len() == 2 => Some((node, [low, high])),
        _ if numbers.len() < members.len() => None,
        _ => {
            table.refuse("range", node, "[low, high], the lower first and not the same".into(), None);
            None
        }
    }
}

impl Drawn {
    pub fn set(&self, data: Data, told: String, origin: Origin) -> Override {
        let value = Node { origin, data };
        let told = if told.is_empty() { None } else { Some(told) };
        Override { path: self.key.clone(), path_origin: self.key_origin, value, told }
    }

    /// Any of its values.
    pub fn first(&self) -> Data {
        match &self.over {
            Over::Values(values) => values[0].data.clone(),
            Over::Range { spread, .. } => number(spread.low, spread.whole),
        }
    }

    /// The range, where values between its ends are played.
    pub fn range(&self, sampled: bool) -> Option<(f64, f64)> {
        match &self.over {
            Over::Range { spread, .. } if sampled => Some((spread.low, spread.high)),
            _ => None,
        }
    }

    fn numbered(&self, value: f64, whole: bool, at: Origin) -> (Override, Level) {
        let told = value.to_string();
        let level = Level { told: told.clone(), number: Some(value) };
        (self.set(number(value, whole), told, at), level)
    }

    /// Its listed values, or those of its range at even distances.
    pub fn values(&self, desk: &Desk) -> Vec<(Override, Level)> {
        match &self.over {
            Over::Values(values) => {
                let one = |(nth, node): (usize, &Node)| {
                    let set = self.set(node.data.clone(), String::new(), node.origin);
                    (set, Level { told: label(desk, node, nth), number: node.number() })
                };
                values.iter().enumerate().map(one).collect()
            }
            Over::Range { spread, levels, at, .. } => {
                let levels = spread.levels(levels.unwrap_or(LEVELS_ALONE));
                levels.into_iter().map(|value| self.numbered(value, spread.whole, *at)).collect()
            }
        }
    }

    /// The value at a share (0-1) of all of them.
    pub fn at(&self, values: &[(Override, Level)], u: f64) -> (Override, Level) {
        match &self.over {
            Over::Values(_) => values[((u * values.len() as f64) as usize).min(values.len() - 1)].clone(),
            Over::Range { spread, at, .. } => self.numbered(spread.at(u), spread.whole, *at),
        }
    }

    /// What is tried by itself before any cell is.
    pub fn to_try(&self) -> Vec<Override> {
        match &self.over {
            Over::Values(values) => {
                values.iter().map(|node| self.set(node.data.clone(), String::new(), node.origin)).collect()
            }
            Over::Range { spread, ends, .. } => {
                let end = |(value, origin)| self.set(number(value, spread.whole), String::new(), origin);
                [(spread.low, ends[0]), (spread.high, ends[1])].into_iter().map(end).collect()
            }
        }
    }
}

fn number(value: f64, whole: bool) -> Data {
    if whole { Data::Whole(value as i64) } else { Data::Number(value) }
}
