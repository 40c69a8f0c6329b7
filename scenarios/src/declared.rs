//! Declarations: which keys a table of a file may hold, each with type, unit, range, meaning and default, said once.
//!
//! The reader ([`crate::read::Reader`]) looks each key up here, so that none is read which is not declared; the key
//! reference and the schemas ([`crate::reference`]) are the same declarations in words. A test reads files until every
//! declared key has been asked for.

use engine::setup::Parameter;

use crate::key::Key;
use crate::text::Text;

/// A key of a table.
#[derive(Clone, Copy)]
pub(crate) struct Field {
    /// Name, unit, range and meaning.
    pub key: Key,
    /// The type of its value.
    pub kind: Kind,
    /// What holds where it is left out.
    pub need: Need,
    /// A key of the same table without which it may not stand.
    pub with: Option<&'static str>,
    /// A key at the top of the file beside which it may not stand, and is not needed.
    pub not_with: Option<&'static str>,
}

/// The type of a value.
#[derive(Clone, Copy)]
pub(crate) enum Kind {
    Text(Text),
    /// True or false.
    Flag,
    /// The value `true`: what it says, it says by standing there.
    True,
    Whole,
    Number,
    /// A number, or the word `none`.
    NumberOrNone,
    /// A number of a level or an attack: a table of value, range and source, or just a number; see [`Layer`].
    Parameter,
    /// One of these words.
    Word(&'static dyn Words),
    /// The name of a rule in this table of the zone's file.
    Rule(&'static str),
    /// The name of a zone's position.
    Position,
    Place,
    /// The name of a bundled file of this folder, or a path.
    File(&'static str),
    /// The path of a table of comma-separated values, with a row for each such table.
    Rows(&'static Table),
    /// Whatever another key of another file takes.
    Any,
    Table(&'static Table),
    /// A table whose parameters, and those of the tables in it, are written in another way than outside.
    Layer(Layer, &'static Table),
    /// A list of tables.
    Tables(&'static Table, Count),
    /// A list of anything else: the type of each member, and how many there may be.
    List(&'static Kind, Count),
    /// A table whose keys the user makes up: names ([`Text::Name`]) of tables, or what the code that reads it says.
    Map(&'static Field),
}

/// How parameters are written.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(crate) enum Layer {
    /// In the file that states them: each with value, range and source, and none may be missing.
    Stated,
    /// In a file that changes some of them: each with value, range and source.
    Changed,
    /// Over the values of a file, as plain numbers.
    Over,
}

/// How many members a list may have.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(crate) enum Count {
    Any,
    /// From the first to the second number.
    Within(usize, usize),
}

impl Count {
    /// True for a number of members that it allows.
    pub fn holds(self, members: usize) -> bool {
        match self {
            Count::Any => true,
            Count::Within(least, most) => (least..=most).contains(&members),
        }
    }
}

/// What holds where a key is left out.
#[derive(Clone, Copy)]
pub(crate) enum Need {
    /// Nothing.
    Optional,
    /// It may not be left out.
    Needed,
    /// This number.
    Number(f32),
    /// This whole number.
    Whole(u64),
    /// This word, text or bundled file.
    Word(&'static str),
    /// False.
    Off,
    /// What the file says over which this one lies.
    Below,
    /// What other keys make of it, in words.
    Depends(&'static str),
    /// It is needed in the file that states the parameters, and elsewhere what that says; see [`Layer`].
    ByLayer,
}

/// Words that a key may have, in the order in which messages list them.
pub(crate) trait Words: Sync {
    /// The words.
    fn words(&self) -> Vec<&'static str>;
}

impl<T: Sync, const N: usize> Words for [(&'static str, T); N] {
    fn words(&self) -> Vec<&'static str> {
        self.iter().map(|(word, _)| *word).collect()
    }
}

/// What a table may hold.
pub(crate) struct Table {
    /// Keys that may all stand together.
    pub parts: &'static [Part],
    /// Keys of which just one may stand.
    pub choices: &'static [Choice],
}

/// Some keys of a table.
pub(crate) enum Part {
    Fields(&'static [Field]),
    /// The same under each of these names.
    Each(&'static [&'static str], Field),
    Parameters(&'static [Parameter]),
    /// Parameters without those of these names.
    But(&'static [Parameter], &'static [&'static str]),
}

/// One of the keys of which just one may stand, with those that may stand beside it.
pub(crate) struct Choice {
    pub field: Field,
    pub with: &'static [Field],
}

impl Table {
    /// A table of these keys.
    pub const fn of(parts: &'static [Part]) -> Table {
        Table { parts, choices: &[] }
    }

    /// A table with just one of these keys, and what goes with it.
    pub const fn choice(choices: &'static [Choice]) -> Table {
        Table { parts: &[], choices }
    }

    /// The keys that may all stand together, in order.
    pub fn fields(&self) -> impl Iterator<Item = Field> {
        self.parts.iter().flat_map(|part| -> Vec<Field> {
            match part {
                Part::Fields(fields) => fields.to_vec(),
                Part::Each(names, field) => names.iter().map(|name| field.named(name)).collect(),
                Part::Parameters(parameters) => parameters.iter().map(Field::parameter).collect(),
                Part::But(parameters, names) => {
                    let stays = |parameter: &&Parameter| !names.contains(&parameter.name);
                    parameters.iter().filter(stays).map(Field::parameter).collect()
                }
            }
        })
    }
}

impl Field {
    const fn new(key: Key, kind: Kind) -> Field {
        Field { key, kind, need: Need::Optional, with: None, not_with: None }
    }

    /// A number with its unit and range.
    pub const fn number(
        name: &'static str,
        unit: &'static str,
        (low, high): (f64, f64),
        doc: &'static str,
    ) -> Field {
        Field::new(Key { name, unit, low, high, doc }, Kind::Number)
    }

    /// A parameter, which its layer says how to write.
    pub const fn parameter(parameter: &Parameter) -> Field {
        Field { need: Need::ByLayer, ..Field::new(Key::of(parameter), Kind::Parameter) }
    }

    /// One of the engine's parameters as a plain number, whatever the layer.
    pub const fn of(parameters: &'static [Parameter], name: &str) -> Field {
        let mut at = 0;
        while !same(parameters[at].name, name) {
            at += 1;
        }
        Field::new(Key::of(&parameters[at]), Kind::Number)
    }

    pub const fn text(name: &'static str, text: Text, doc: &'static str) -> Field {
        Field::other(name, Kind::Text(text), doc)
    }

    /// A switch; off, if it is left out.
    pub const fn flag(name: &'static str, doc: &'static str) -> Field {
        Field { need: Need::Off, ..Field::other(name, Kind::Flag, doc) }
    }

    /// A key without a number: a word, a file, a position and so on.
    pub const fn other(name: &'static str, kind: Kind, doc: &'static str) -> Field {
        Field::new(Key { name, unit: "", low: 0.0, high: 0.0, doc }, kind)
    }

    /// A place on the floor, `[x, y]`, metres unless the file says `units = "ft"`.
    pub const fn place(name: &'static str, doc: &'static str) -> Field {
        Field::new(Key { name, unit: "m", low: -16.0, high: 16.0, doc }, Kind::Place)
    }

    pub const fn table(name: &'static str, table: &'static Table, doc: &'static str) -> Field {
        Field::other(name, Kind::Table(table), doc)
    }

    /// A list of tables.
    pub const fn tables(name: &'static str, table: &'static Table, doc: &'static str) -> Field {
        Field::other(name, Kind::Tables(table, Count::Any), doc)
    }

    /// A list of this many of what the field is.
    pub const fn list(self, of: &'static Kind, count: Count) -> Field {
        Field { kind: Kind::List(of, count), ..self }
    }

    /// The same as another type of value.
    pub const fn as_kind(self, kind: Kind) -> Field {
        Field { kind, ..self }
    }

    /// It may not be left out.
    pub const fn needed(self) -> Field {
        self.or(Need::Needed)
    }

    /// What holds where it is left out.
    pub const fn or(self, need: Need) -> Field {
        Field { need, ..self }
    }

    /// It stands only beside another key of its table.
    pub const fn with(self, other: &'static str) -> Field {
        Field { with: Some(other), ..self }
    }

    /// It does not stand in a file with this key at its top.
    pub const fn not_with(self, other: &'static str) -> Field {
        Field { not_with: Some(other), ..self }
    }

    /// The same under another name.
    pub const fn named(self, name: &'static str) -> Field {
        Field { key: Key { name, ..self.key }, ..self }
    }

    /// True where a reader has to miss it.
    pub fn is_needed(&self) -> bool {
        matches!(self.need, Need::Needed | Need::ByLayer)
    }
}

/// Whether two names are the same, where constants are made.
const fn same(a: &str, b: &str) -> bool {
    let (a, b) = (a.as_bytes(), b.as_bytes());
    if a.len() != b.len() {
        return false;
    }
    let mut at = 0;
    while at < a.len() {
        if a[at] != b[at] {
            return false;
        }
        at += 1;
    }
    true
}
