//! A parsed file as a tree in which each node knows where it was written, whatever file that was.
//!
//! Overrides graft nodes of an experiment's file into a scenario's tree, and faults still point at the line
//! that caused them.

use toml_edit::{Item, TableLike, Value};

/// Bytes `start..end` of the loaded source number `source`.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Origin {
    pub source: usize,
    pub start: usize,
    pub end: usize,
}

/// A value with its origin.
#[derive(Clone, Debug)]
pub(crate) struct Node {
    pub origin: Origin,
    pub data: Data,
}

/// What a value is.
#[derive(Clone, Debug)]
pub(crate) enum Data {
    Text(String),
    Whole(i64),
    Number(f64),
    Flag(bool),
    Date,
    List(Vec<Node>),
    Table(Vec<Entry>),
}

/// A key and its value.
#[derive(Clone, Debug)]
pub(crate) struct Entry {
    pub key: String,
    pub key_origin: Origin,
    /// Written as `a.b = ...` rather than as a table.
    pub dotted: bool,
    pub node: Node,
}

impl Node {
    /// The entries of a table; none for anything else.
    pub fn entries(&self) -> &[Entry] {
        if let Data::Table(entries) = &self.data { entries } else { &[] }
    }

    /// The members of a list; none for anything else.
    pub fn members(&self) -> &[Node] {
        if let Data::List(list) = &self.data { list } else { &[] }
    }

    /// The text; none for anything else.
    pub fn text(&self) -> Option<&str> {
        if let Data::Text(text) = &self.data { Some(text) } else { None }
    }

    /// The number, whole or not; none for anything else.
    pub fn number(&self) -> Option<f64> {
        match self.data {
            Data::Whole(whole) => Some(whole as f64),
            Data::Number(number) => Some(number),
            _ => None,
        }
    }

    /// The value of a key of this table.
    pub fn get(&self, key: &str) -> Option<&Entry> {
        self.entries().iter().find(|entry| entry.key == key)
    }

    /// The word for its type.
    pub fn kind(&self) -> &'static str {
        match self.data {
            Data::Text(_) => "a text",
            Data::Whole(_) | Data::Number(_) => "a number",
            Data::Flag(_) => "true or false",
            Data::Date => "a date",
            Data::List(_) => "a list",
            Data::Table(_) => "a table",
        }
    }
}

/// The tree of a parsed document; `whole` is the span of the whole text.
pub(crate) fn from_table(table: &dyn TableLike, source: usize, whole: std::ops::Range<usize>) -> Node {
    table_node(table, Origin { source, start: whole.start, end: whole.end })
}

fn table_node(table: &dyn TableLike, origin: Origin) -> Node {
    let mut entries = Vec::new();
    for (name, item) in table.iter() {
        let key_span = table.key(name).and_then(toml_edit::Key::span);
        let key_origin = key_span.map_or(origin, |span| Origin {
            source: origin.source,
            start: span.start,
            end: span.end,
        });
        let dotted = item.as_table_like().is_some_and(TableLike::is_dotted);
        if let Some(node) = item_node(item, key_origin) {
            entries.push(Entry { key: name.to_owned(), key_origin, dotted, node });
        }
    }
    Node { origin, data: Data::Table(entries) }
}

fn item_node(item: &Item, fallback: Origin) -> Option<Node> {
    let origin = placed(item.span(), fallback);
    match item {
        Item::None => None,
        Item::Value(value) => Some(value_node(value, fallback)),
        // A header's own span is less useful than its name's.
        Item::Table(table) => Some(table_node(table, fallback)),
        Item::ArrayOfTables(tables) => {
            let list = tables.iter().map(|table| table_node(table, placed(table.span(), origin))).collect();
            Some(Node { origin, data: Data::List(list) })
        }
    }
}

fn value_node(value: &Value, fallback: Origin) -> Node {
    let origin = placed(value.span(), fallback);
    let data = match value {
        Value::String(text) => Data::Text(text.value().clone()),
        Value::Integer(whole) => Data::Whole(*whole.value()),
        Value::Float(number) => Data::Number(*number.value()),
        Value::Boolean(flag) => Data::Flag(*flag.value()),
        Value::Datetime(_) => Data::Date,
        Value::Array(list) => Data::List(list.iter().map(|value| value_node(value, origin)).collect()),
        Value::InlineTable(table) => return table_node(table, origin),
    };
    Node { origin, data }
}

fn placed(span: Option<std::ops::Range<usize>>, fallback: Origin) -> Origin {
    span.map_or(fallback, |span| Origin { source: fallback.source, start: span.start, end: span.end })
}
