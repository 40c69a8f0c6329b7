//! What a reading asks for: each key with its type, range and default, noted at the very call that reads it.
//!
//! The key reference and the schemas are made from these notes, so they cannot say anything that the loader
//! does not do.

use crate::key::Key;

/// The type of value that a call reads.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum What {
    /// Looked for; the type shows once there is a value to read.
    Open,
    Text,
    Flag,
    Whole,
    Number,
    /// A number, or the word `none`.
    NumberOrNone,
    /// A table of value, range and source.
    Sourced,
    /// One of these words.
    Word(Vec<String>),
    /// One of the names that another file gives, such as these.
    Name(Vec<String>),
    /// The name of a zone's column.
    Column,
    Place,
    /// A list of so many places; of any number where that depends on another key.
    Places(Option<usize>),
    /// The name of a bundled file of this folder, or a path.
    File(&'static str),
    Table,
    /// A table whose keys the user makes up.
    Map,
    List,
}

/// What holds where a key is not there.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Default {
    /// Nothing.
    Nothing,
    /// A value that stands in the code, as a file would write it.
    Value(String),
    /// The value of the file that is named, or of the level.
    FileBelow,
}

/// A note of one call.
#[derive(Clone, Debug)]
pub(crate) enum Note {
    /// A key was asked for.
    Asked { path: String, key: Key, what: What, default: Default },
    /// A key that has to be there was not.
    Missing { path: String },
}

/// A number as files and messages write it; thousands apart where there are many.
pub(crate) fn plain(number: f64) -> String {
    if number.fract() != 0.0 || number.abs() < 10_000.0 {
        return format!("{number}");
    }
    let digits = format!("{:.0}", number.abs());
    let mut text = String::from(if number < 0.0 { "-" } else { "" });
    for (nth, digit) in digits.chars().enumerate() {
        if nth > 0 && (digits.len() - nth).is_multiple_of(3) {
            text.push(',');
        }
        text.push(digit);
    }
    text
}
