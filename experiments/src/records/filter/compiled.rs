//! A filter ready to be asked of rows: columns by their places, values of three kinds, and SQL's logic with nothing as a third
//! answer.

use std::cmp::Ordering;

use arrow_array::cast::AsArray;
use arrow_array::types::{Float32Type, Float64Type, Int32Type, Int64Type};
use arrow_array::{Array, RecordBatch};
use arrow_schema::DataType;

use super::super::read::texts;

/// A column that a filter may name.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Column {
    /// Its name.
    pub name: String,
    /// What it holds.
    pub kind: Kind,
    /// All that it may hold, where that is known.
    pub known: Vec<String>,
}

/// The columns of a table, by name.
pub type Columns = Vec<Column>;

/// What a value is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// Yes or no.
    Flag,
    /// A number.
    Number,
    /// A text.
    Text,
}

impl Kind {
    /// That of a column in Arrow.
    #[must_use]
    pub fn of(data_type: &DataType) -> Self {
        match data_type {
            DataType::Boolean => Self::Flag,
            DataType::Utf8 | DataType::Dictionary(..) => Self::Text,
            _ => Self::Number,
        }
    }

    /// In words.
    pub fn told(self) -> &'static str {
        match self {
            Self::Flag => "true or false",
            Self::Number => "a number",
            Self::Text => "a text",
        }
    }
}

/// A value of a row.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Value<'a> {
    /// There is none.
    Nothing,
    Flag(bool),
    Number(f64),
    Text(&'a str),
}

/// An expression over the columns of one table.
#[derive(Clone, Debug, PartialEq)]
pub enum Asked {
    /// A constant.
    Flag(bool),
    Number(f64),
    Text(String),
    /// A column, by its place among those that are read.
    Column(usize),
    /// How many events of the possession answer a question, by its place among those that are asked.
    Count(usize),
    Compare(Box<Asked>, Comparison, Box<Asked>),
    And(Box<Asked>, Box<Asked>),
    Or(Box<Asked>, Box<Asked>),
    Not(Box<Asked>),
    IsNothing(Box<Asked>),
    /// A text like a pattern, in which % stands for any letters and _ for one.
    Like(Box<Asked>, String),
}

/// How two values are compared.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Comparison {
    Equal,
    Unequal,
    Less,
    AtMost,
    More,
    AtLeast,
}

impl Comparison {
    fn holds(self, order: Ordering) -> bool {
        match self {
            Self::Equal => order.is_eq(),
            Self::Unequal => order.is_ne(),
            Self::Less => order.is_lt(),
            Self::AtMost => order.is_le(),
            Self::More => order.is_gt(),
            Self::AtLeast => order.is_ge(),
        }
    }
}

/// The values of one row.
pub trait Row {
    /// In the column that stands at a place among those that are read.
    fn value(&self, column: usize) -> Value<'_>;
    /// How many events answer the question at a place.
    fn count(&self, question: usize) -> u64;
}

impl Asked {
    /// What it comes to for a row.
    pub fn of<'a>(&'a self, row: &'a dyn Row) -> Value<'a> {
        match self {
            Self::Flag(flag) => Value::Flag(*flag),
            Self::Number(number) => Value::Number(*number),
            Self::Text(text) => Value::Text(text),
            Self::Column(place) => row.value(*place),
            Self::Count(question) => Value::Number(row.count(*question) as f64),
            Self::Compare(one, how, other) => compared(one.of(row), *how, other.of(row)),
            Self::And(one, other) => match (one.holds(row), other.holds(row)) {
                (Some(false), _) | (_, Some(false)) => Value::Flag(false),
                (Some(true), Some(true)) => Value::Flag(true),
                _ => Value::Nothing,
            },
            Self::Or(one, other) => match (one.holds(row), other.holds(row)) {
                (Some(true), _) | (_, Some(true)) => Value::Flag(true),
                (Some(false), Some(false)) => Value::Flag(false),
                _ => Value::Nothing,
            },
            Self::Not(one) => one.holds(row).map_or(Value::Nothing, |holds| Value::Flag(!holds)),
            Self::IsNothing(one) => Value::Flag(one.of(row) == Value::Nothing),
            Self::Like(one, pattern) => match one.of(row) {
                Value::Text(text) => Value::Flag(is_like(text.as_bytes(), pattern.as_bytes())),
                _ => Value::Nothing,
            },
        }
    }

    /// Whether it holds for a row; none where that cannot be said.
    pub fn holds(&self, row: &dyn Row) -> Option<bool> {
        match self.of(row) {
            Value::Flag(flag) => Some(flag),
            _ => None,
        }
    }
}

fn compared<'a>(one: Value<'a>, how: Comparison, other: Value<'a>) -> Value<'a> {
    let order = match (one, other) {
        (Value::Number(one), Value::Number(other)) => one.partial_cmp(&other),
        (Value::Text(one), Value::Text(other)) => Some(one.cmp(other)),
        (Value::Flag(one), Value::Flag(other)) => Some(one.cmp(&other)),
        _ => None,
    };
    order.map_or(Value::Nothing, |order| Value::Flag(how.holds(order)))
}

/// Whether a text is like a pattern. Goes back to the last % only, so it takes no longer than text times pattern.
fn is_like(text: &[u8], pattern: &[u8]) -> bool {
    let (mut at, mut of, mut back) = (0, 0, None);
    while at < text.len() {
        match pattern.get(of) {
            Some(b'%') => {
                back = Some((of, at));
                of += 1;
            }
            Some(&sign) if sign == b'_' || sign == text[at] => {
                at += 1;
                of += 1;
            }
            _ => match back {
                Some((star, from)) => {
                    back = Some((star, from + 1));
                    (at, of) = (from + 1, star + 1);
                }
                None => return false,
            },
        }
    }
    pattern[of..].iter().all(|sign| *sign == b'%')
}

/// The columns of a batch, ready to be asked row by row.
pub enum Read<'a> {
    Flags(&'a arrow_array::BooleanArray),
    Numbers(Vec<Option<f64>>),
    Texts(Vec<Option<&'a str>>),
}

impl<'a> Read<'a> {
    /// Each column of a batch.
    pub fn all(batch: &'a RecordBatch) -> Vec<Self> {
        let column = |place: usize| {
            let array = batch.column(place);
            match Kind::of(array.data_type()) {
                Kind::Flag => Self::Flags(array.as_boolean()),
                Kind::Text => Self::Texts(texts(batch, place)),
                Kind::Number => Self::Numbers(numbers(array)),
            }
        };
        (0..batch.num_columns()).map(column).collect()
    }

    /// Its value in a row.
    pub fn value(&self, row: usize) -> Value<'a> {
        match self {
            Self::Flags(flags) if flags.is_valid(row) => Value::Flag(flags.value(row)),
            Self::Flags(_) => Value::Nothing,
            Self::Numbers(numbers) => numbers[row].map_or(Value::Nothing, Value::Number),
            Self::Texts(texts) => texts[row].map_or(Value::Nothing, Value::Text),
        }
    }
}

/// The numbers of a column, by row.
fn numbers(array: &dyn Array) -> Vec<Option<f64>> {
    match array.data_type() {
        DataType::Int32 => {
            array.as_primitive::<Int32Type>().iter().map(|value| value.map(f64::from)).collect()
        }
        DataType::Int64 => {
            array.as_primitive::<Int64Type>().iter().map(|value| value.map(|value| value as f64)).collect()
        }
        DataType::Float32 => {
            array.as_primitive::<Float32Type>().iter().map(|value| value.map(f64::from)).collect()
        }
        DataType::Float64 => array.as_primitive::<Float64Type>().iter().collect(),
        _ => vec![None; array.len()],
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_pattern_is_held_against_all_of_a_text() {
        for (text, pattern, is) in [
            ("rover>other-post", "rover>%", true),
            ("rover>other-post", "%post", true),
            ("rover>other-post", "%o_er>%", true),
            ("rover>other-post", "rover", false),
            ("rover>other-post", "%guard%", false),
            ("", "%", true),
            ("", "_", false),
            ("aab", "%ab", true),
        ] {
            assert_eq!(is_like(text.as_bytes(), pattern.as_bytes()), is, "{text} like {pattern}");
        }
    }

    #[test]
    fn nothing_is_neither_true_nor_false() {
        struct None;
        impl Row for None {
            fn value(&self, _: usize) -> Value<'_> {
                Value::Nothing
            }
            fn count(&self, _: usize) -> u64 {
                2
            }
        }
        let more =
            |than: f64| Asked::Compare(Asked::Column(0).into(), Comparison::More, Asked::Number(than).into());
        let (unknown, yes, no) = (more(1.0), Asked::Flag(true), Asked::Flag(false));
        let both =
            |one: &Asked, other: &Asked| Asked::And(one.clone().into(), other.clone().into()).holds(&None);
        let either =
            |one: &Asked, other: &Asked| Asked::Or(one.clone().into(), other.clone().into()).holds(&None);
        assert_eq!([both(&unknown, &yes), both(&no, &unknown)], [Option::None, Some(false)]);
        assert_eq!([either(&unknown, &yes), either(&no, &unknown)], [Some(true), Option::None]);
        assert_eq!(Asked::Not(unknown.clone().into()).holds(&None), Option::None);
        assert_eq!(Asked::IsNothing(Asked::Column(0).into()).holds(&None), Some(true));
        let counted = Asked::Compare(Asked::Count(0).into(), Comparison::AtLeast, Asked::Number(2.0).into());
        assert_eq!(counted.holds(&None), Some(true));
    }
}
