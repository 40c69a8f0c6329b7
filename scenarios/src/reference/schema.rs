//! The key reference as JSON Schemas, for editors that complete and check TOML files.

use serde_json::{Map, Value, json};

use crate::bundled;
use crate::declared::{Count, Field, Kind};
use crate::key::{FOOT_M, Key};
use crate::kind::{self, FILE_KINDS};
use crate::reference::bundled_values;
use crate::reference::rows::innermost;
use crate::reference::tree::{self, Branch, Default, Inner, is_number};
use crate::text::Text;

/// The JSON Schema (draft 2020-12) of a kind of file, one of [`FILE_KINDS`]; `None` for another word.
///
/// It knows keys, types, words and ranges. What hangs on several values or files, such as whether a place is
/// on the floor, only the loader checks.
#[must_use]
pub fn json_schema(kind: &str) -> Option<String> {
    let kind = FILE_KINDS.iter().find(|known| **known == kind)?;
    let keys = tree::of_kind(kind);
    let mut schema = object(&keys);
    let rules = either_or(&keys);
    if !rules.is_empty()
        && let Some(all) = schema.entry("allOf").or_insert_with(|| json!([])).as_array_mut()
    {
        all.extend(rules);
    }
    schema.insert("$schema".into(), json!("https://json-schema.org/draft/2020-12/schema"));
    schema.insert("title".into(), json!(format!("{} of Zoneprobe", kind::article(kind))));
    let text = serde_json::to_string_pretty(&Value::Object(schema)).unwrap_or_default();
    Some(text + "\n")
}

/// The schema of a table that holds these keys.
fn object(inner: &[Branch]) -> Map<String, Value> {
    let mut schema = closed(inner.iter());
    schema.insert("type".into(), json!("object"));
    schema
}

/// The schema of a table with just one of these keys and what goes with it.
fn just_one(choices: &[(Branch, Vec<Branch>)]) -> Map<String, Value> {
    let alternatives = choices.iter().map(|(chosen, with)| {
        let mut one = closed(std::iter::once(chosen).chain(with));
        let required = one.entry("required").or_insert_with(|| json!([]));
        if let Some(required) = required.as_array_mut() {
            required.insert(0, json!(chosen.key.name));
        }
        Value::Object(one)
    });
    let mut schema = Map::new();
    schema.insert("type".into(), json!("object"));
    schema.insert("oneOf".into(), alternatives.collect());
    schema
}

/// Properties, what is required, and nothing else.
fn closed<'b>(inner: impl Iterator<Item = &'b Branch>) -> Map<String, Value> {
    let mut properties = Map::new();
    let (mut required, mut rules, mut needs) = (Vec::new(), Vec::new(), Map::new());
    for branch in inner {
        let name = branch.key.name;
        properties.insert(name.into(), value(branch, 1.0));
        let feet = branch.key.in_feet().filter(|_| is_number(&branch.kind));
        if let Some(feet) = &feet {
            properties.insert(feet.clone(), value(branch, FOOT_M));
        }
        // Beside some key at the top of the file it may not stand: that is said there.
        match (feet, branch.required && branch.not_with.is_none()) {
            (None, true) => required.push(json!(name)),
            (None, false) => {}
            (Some(feet), true) => {
                rules.push(json!({ "oneOf": [{ "required": [name] }, { "required": [feet] }] }));
            }
            (Some(feet), false) => rules.push(json!({ "not": { "required": [name, feet] } })),
        }
        if let Some(other) = branch.with {
            needs.insert(name.into(), json!([other]));
        }
    }
    let mut schema = Map::new();
    schema.insert("properties".into(), Value::Object(properties));
    schema.insert("additionalProperties".into(), json!(false));
    if !required.is_empty() {
        schema.insert("required".into(), Value::Array(required));
    }
    if !rules.is_empty() {
        schema.insert("allOf".into(), Value::Array(rules));
    }
    if !needs.is_empty() {
        schema.insert("dependentRequired".into(), Value::Object(needs));
    }
    schema
}

/// What hangs on a key at the top of the file: beside it some keys may not stand, and without it they are needed.
fn either_or(keys: &[Branch]) -> Vec<Value> {
    let rules = keys.iter().filter_map(|branch| {
        let name = branch.key.name;
        let refused = hanging_on(name, keys, true);
        let needed = || hanging_on(name, keys, false);
        (!refused.is_empty())
            .then(|| json!({ "if": { "required": [name] }, "then": refused, "else": needed() }))
    });
    rules.collect()
}

/// The keys that may not stand beside this one at the top: refused beside it, or else asked for where they are needed.
/// Members of lists are left to the loader.
fn hanging_on(top: &str, keys: &[Branch], beside: bool) -> Map<String, Value> {
    let (mut properties, mut required) = (Map::new(), Vec::new());
    for branch in keys {
        let name = branch.key.name;
        if branch.not_with != Some(top) {
            let Inner::Keys(inner) = &branch.inner else { continue };
            let inner = if matches!(branch.kind, Kind::Tables(..)) {
                Map::new()
            } else {
                hanging_on(top, inner, beside)
            };
            if !inner.is_empty() {
                properties.insert(name.into(), Value::Object(inner));
            }
        } else if beside {
            properties.insert(name.into(), json!(false));
        } else if branch.required {
            required.push(json!(name));
        }
    }
    let mut schema = Map::new();
    if !properties.is_empty() {
        schema.insert("properties".into(), Value::Object(properties));
    }
    if !required.is_empty() {
        schema.insert("required".into(), Value::Array(required));
    }
    schema
}

/// The schema of a key's value; `scale` is the size of the unit that it is written in.
fn value(branch: &Branch, scale: f64) -> Value {
    let mut schema = plain(branch, &branch.kind, scale);
    let unit = if scale == 1.0 { branch.key.unit } else { "ft" };
    let unit = if unit.is_empty() || !is_number(innermost(&branch.kind)) {
        String::new()
    } else {
        format!(" ({unit})")
    };
    schema.insert("description".into(), json!(format!("{}{unit}", branch.key.doc)));
    if let Default::Value(default) = &branch.default
        && scale == 1.0
        && let Ok(default) = serde_json::from_str::<Value>(default)
    {
        schema.insert("default".into(), default);
    }
    Value::Object(schema)
}

/// The schema of a value of a type.
fn plain(branch: &Branch, kind: &Kind, scale: f64) -> Map<String, Value> {
    let key = &branch.key;
    let schema = match kind {
        Kind::Text(kind) => text(*kind),
        Kind::Flag => json!({ "type": "boolean" }),
        Kind::True => json!({ "const": true }),
        Kind::Whole => number("integer", key, 1.0),
        Kind::Number => number("number", key, scale),
        Kind::NumberOrNone => json!({ "anyOf": [number("number", key, scale), { "const": "none" }] }),
        Kind::Parameter => sourced(&number("number", key, scale)),
        Kind::Word(words) => json!({ "enum": words.words() }),
        Kind::Rule(table) => json!({ "type": "string", "examples": bundled_values::names_in_zones(table) }),
        Kind::Position => json!({ "type": "string", "examples": ["near wing", "far back"] }),
        Kind::File(folder) => json!({
            "anyOf": [{ "enum": bundled::names(folder) }, path("toml")]
        }),
        Kind::Rows(_) => path("csv"),
        Kind::Place => {
            json!({ "type": "array", "items": number("number", key, 1.0), "minItems": 2, "maxItems": 2 })
        }
        Kind::Any => json!({}),
        Kind::List(each, count) => list(plain(branch, each, scale), *count),
        Kind::Tables(_, count) => list(plain_table(branch), *count),
        Kind::Map(Field { kind: Kind::Table(_), .. }) => {
            let mut schema = plain_table(branch);
            schema.insert("propertyNames".into(), text(Text::Name));
            return schema;
        }
        Kind::Table(_) | Kind::Layer(..) | Kind::Map(_) => return plain_table(branch),
    };
    match schema {
        Value::Object(schema) => schema,
        _ => Map::new(),
    }
}

/// The schema of a table.
fn plain_table(branch: &Branch) -> Map<String, Value> {
    match &branch.inner {
        Inner::Nothing => closed_by(json!(true)),
        Inner::Keys(keys) => object(keys),
        Inner::JustOne(choices) => just_one(choices),
        Inner::Each(each) => closed_by(value(each, 1.0)),
    }
}

/// A table whose keys the user makes up, each with such a value.
fn closed_by(each: Value) -> Map<String, Value> {
    let mut schema = Map::new();
    schema.insert("type".into(), json!("object"));
    schema.insert("additionalProperties".into(), each);
    schema
}

/// A list of so many values.
fn list(items: Map<String, Value>, count: Count) -> Value {
    let mut schema = Map::new();
    schema.insert("type".into(), json!("array"));
    schema.insert("items".into(), Value::Object(items));
    if let Count::Within(least, most) = count {
        if least > 0 {
            schema.insert("minItems".into(), json!(least));
        }
        if most < usize::MAX {
            schema.insert("maxItems".into(), json!(most));
        }
    }
    Value::Object(schema)
}

/// A text of a kind: as long as it may be, and without hidden characters.
fn text(kind: Text) -> Value {
    let mut schema = json!({
        "type": "string",
        "maxLength": kind.most(),
        "not": { "pattern": hidden(kind) },
    });
    if kind == Text::Name {
        schema["pattern"] = json!("\\S");
    }
    schema
}

/// The path of a file with this ending, whose name is held to what names are.
fn path(ending: &str) -> Value {
    let longest = Text::Name.most();
    json!({
        "type": "string",
        "pattern": format!("(^|[/\\\\])[^/\\\\]{{1,{longest}}}\\.{ending}$"),
        "not": { "pattern": hidden(Text::Name) },
    })
}

/// The hidden characters as a class that every engine of patterns reads alike: none of them has one way to write the
/// characters beyond U+FFFF, which are left to the loader.
fn hidden(kind: Text) -> String {
    let mut class = String::from("[");
    let (mut first, past) = (None, 0x1_0000_u32);
    for code in 0..=past {
        let is_refused = code < past && char::from_u32(code).is_some_and(|letter| !kind.takes(letter));
        match (first, is_refused) {
            (None, true) => first = Some(code),
            (Some(start), false) => {
                class.push_str(&format!("\\u{start:04x}-\\u{:04x}", code - 1));
                first = None;
            }
            _ => {}
        }
    }
    class + "]"
}

/// A number with its range and source.
fn sourced(within: &Value) -> Value {
    json!({
        "type": "object",
        "properties": {
            "value": within,
            "range": { "type": "array", "items": within, "minItems": 2, "maxItems": 2 },
            "source": text(Text::Prose),
        },
        "required": ["value", "range", "source"],
        "additionalProperties": false,
    })
}

/// A number within the key's range, in a unit of this size.
fn number(kind: &str, key: &Key, scale: f64) -> Value {
    // The file's own unit, which a schema cannot know: as wide as feet would have it.
    let either = key.unit == "m" && key.in_feet().is_none();
    let scale = if either { FOOT_M } else { scale };
    let bound = |number: f64| {
        let scaled = if scale == 1.0 { number } else { (number / scale * 1e4).round() / 1e4 };
        if scaled.fract() == 0.0 { json!(scaled as i64) } else { json!(scaled) }
    };
    json!({ "type": kind, "minimum": bound(key.low), "maximum": bound(key.high) })
}
