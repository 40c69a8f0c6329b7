//! The keys of a kind of file as a tree: the declarations with their layers worked in.

use crate::declared::{Field, Kind, Layer, Need, Table};
use crate::key::Key;
use crate::schema;

/// A key with the keys inside it.
pub(crate) struct Branch {
    /// Name, unit, range and meaning; a name of the user's own choice is empty.
    pub key: Key,
    /// The type of its value. [`Kind::Parameter`] stands for `{ value, range, source }` here.
    pub kind: Kind,
    /// What holds without it.
    pub default: Default,
    /// Without it the file is refused.
    pub required: bool,
    /// A sibling without which it may not stand.
    pub with: Option<&'static str>,
    /// A key at the top of the file beside which it may not stand, and is not needed.
    pub not_with: Option<&'static str>,
    /// What it holds.
    pub inner: Inner,
}

/// What holds where a key is not there.
#[derive(Clone, PartialEq)]
pub(crate) enum Default {
    /// Nothing.
    Nothing,
    /// A value, as a file would write it.
    Value(String),
    /// What the words say.
    Words(&'static str),
    /// The value of the file that is named, or of the level.
    FileBelow,
}

/// What a table, or each table of a list, holds.
pub(crate) enum Inner {
    /// It is no table.
    Nothing,
    /// These keys.
    Keys(Vec<Branch>),
    /// Just one of these keys, with those that may stand beside it.
    JustOne(Vec<(Branch, Vec<Branch>)>),
    /// Names of the user's own choice, each with such a value.
    Each(Box<Branch>),
}

/// The tree of a kind: the keys at the top of the file.
pub(crate) fn of_kind(kind: &str) -> Vec<Branch> {
    let table = schema::table(kind);
    let fields = schema::HEAD.into_iter().chain(table.into_iter().flat_map(Table::fields));
    fields.map(|field| branch(&field, Layer::Stated)).collect()
}

/// Every path of a kind as files write it, lengths under both names, names of the user's own choice left out.
pub(crate) fn paths(kind: &str) -> Vec<String> {
    fn walk(before: &str, branches: &[Branch], found: &mut Vec<String>) {
        for branch in branches {
            let path = format!("{before}{}", branch.key.name);
            found.push(path.clone());
            let feet = branch.key.in_feet().filter(|_| is_number(&branch.kind));
            found.extend(feet.map(|feet| format!("{before}{feet}")));
            if let Inner::Keys(inner) = &branch.inner {
                walk(&format!("{path}."), inner, found);
            }
        }
    }
    let mut found = Vec::new();
    walk("", &of_kind(kind), &mut found);
    found
}

/// True for a number, which may be a length.
pub(crate) fn is_number(kind: &Kind) -> bool {
    matches!(kind, Kind::Number | Kind::NumberOrNone | Kind::Parameter)
}

fn branch(field: &Field, layer: Layer) -> Branch {
    let Field { key, kind, need, with, not_with } = *field;
    let inner = inner(&kind, layer);
    let default = match need {
        Need::Optional | Need::Needed => Default::Nothing,
        Need::Number(number) => Default::Value(number.to_string()),
        Need::Whole(number) => Default::Value(number.to_string()),
        Need::Word(word) => Default::Value(format!("\"{word}\"")),
        Need::Off => Default::Value("false".into()),
        Need::Below => Default::FileBelow,
        Need::Depends(words) => Default::Words(words),
        // A table over another one's may be left out like any other; its keys say what holds then.
        Need::ByLayer if layer == Layer::Over && matches!(inner, Inner::Nothing) => Default::FileBelow,
        Need::ByLayer => Default::Nothing,
    };
    Branch {
        key,
        kind: if layer == Layer::Over && matches!(kind, Kind::Parameter) { Kind::Number } else { kind },
        default,
        required: matches!(need, Need::Needed) || matches!(need, Need::ByLayer) && layer == Layer::Stated,
        with,
        not_with,
        inner,
    }
}

fn inner(kind: &Kind, layer: Layer) -> Inner {
    match kind {
        Kind::Table(table) | Kind::Tables(table, _) => keys(table, layer),
        Kind::Layer(layer, table) => keys(table, *layer),
        Kind::List(each, _) => inner(each, layer),
        Kind::Map(Field { kind: Kind::Any, .. }) => Inner::Nothing,
        Kind::Map(each) => Inner::Each(Box::new(branch(each, layer))),
        _ => Inner::Nothing,
    }
}

fn keys(table: &Table, layer: Layer) -> Inner {
    if table.choices.is_empty() {
        return Inner::Keys(table.fields().map(|field| branch(&field, layer)).collect());
    }
    let alternatives = table.choices.iter().map(|choice| {
        let beside = choice.with.iter().map(|field| branch(field, layer));
        (branch(&choice.field, layer), beside.collect())
    });
    Inner::JustOne(alternatives.collect())
}
