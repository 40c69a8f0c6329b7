//! A column of records: its name, its type in Arrow, its unit and what it means, the last two in the field's own metadata.

use std::collections::HashMap;
use std::sync::Arc;

use arrow_array::types::Int32Type;
use arrow_array::{ArrayRef, DictionaryArray, Int32Array, StringArray};
use arrow_schema::{ArrowError, DataType, Field, Schema};

/// The key of a unit in a field's metadata.
pub const UNIT: &str = "unit";
/// The key of a meaning in a field's metadata.
pub const MEANING: &str = "meaning";

/// What a column holds.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Type {
    /// Yes or no.
    Flag,
    /// A small whole number.
    Count,
    /// A whole number.
    Whole,
    /// A real number as the statistics have it.
    Real,
    /// A real number as the engine has it.
    Short,
    /// Any text.
    Text,
    /// One of few texts.
    Named,
}

impl Type {
    fn in_arrow(self) -> DataType {
        match self {
            Self::Flag => DataType::Boolean,
            Self::Count => DataType::Int32,
            Self::Whole => DataType::Int64,
            Self::Real => DataType::Float64,
            Self::Short => DataType::Float32,
            Self::Text => DataType::Utf8,
            Self::Named => DataType::Dictionary(Box::new(DataType::Int32), Box::new(DataType::Utf8)),
        }
    }

    /// As the reference of columns names it.
    pub fn told(self) -> &'static str {
        match self {
            Self::Flag => "boolean",
            Self::Count => "int32",
            Self::Whole => "int64",
            Self::Real => "double",
            Self::Short => "float",
            Self::Text => "text",
            Self::Named => "text, one of few",
        }
    }
}

/// One column.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Typed {
    /// Its name.
    pub name: String,
    /// What it holds.
    pub holds: Type,
    /// Its unit; `-` where it has none.
    pub unit: &'static str,
    /// What it means.
    pub meaning: String,
    /// Whether a row may have none.
    pub is_optional: bool,
}

impl Typed {
    /// One that every row has.
    pub fn new(name: &str, holds: Type, unit: &'static str, meaning: &str) -> Self {
        Self { name: name.into(), holds, unit, meaning: meaning.into(), is_optional: false }
    }

    /// One that a row may lack.
    pub fn optional(name: &str, holds: Type, unit: &'static str, meaning: &str) -> Self {
        Self { is_optional: true, ..Self::new(name, holds, unit, meaning) }
    }

    fn field(&self) -> Field {
        let told = [(UNIT, self.unit), (MEANING, self.meaning.as_str())];
        let told: HashMap<String, String> =
            told.into_iter().map(|(key, text)| (key.to_owned(), text.to_owned())).collect();
        Field::new(&self.name, self.holds.in_arrow(), self.is_optional).with_metadata(told)
    }
}

/// The schema of some columns.
pub fn schema<'a>(columns: impl IntoIterator<Item = &'a Typed>) -> Schema {
    Schema::new(columns.into_iter().map(Typed::field).collect::<Vec<_>>())
}

/// A column of names, each by its place in a list.
///
/// # Errors
/// A place that the list has not.
pub fn named(
    names: &Arc<StringArray>,
    places: impl Iterator<Item = Option<usize>>,
) -> Result<ArrayRef, ArrowError> {
    let keys: Int32Array = places.map(|place| place.map(|place| place as i32)).collect();
    let values: ArrayRef = Arc::<StringArray>::clone(names);
    Ok(Arc::new(DictionaryArray::<Int32Type>::try_new(keys, values)?))
}

/// A list of names.
pub fn names<S: AsRef<str>>(names: impl IntoIterator<Item = S>) -> Arc<StringArray> {
    Arc::new(StringArray::from_iter_values(names))
}
