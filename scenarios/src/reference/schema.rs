//! The key reference as JSON Schemas, for editors that complete and check TOML files.

use serde_json::{Map, Value, json};

use crate::asked::{Default, What};
use crate::bundled;
use crate::key::{FOOT_M, Key};
use crate::kind::{self, FILE_KINDS};
use crate::reference::tree::{self, Branch};

/// The JSON Schema (draft 2020-12) of a kind of file, one of [`FILE_KINDS`]; `None` for another word.
///
/// It knows keys, types, words and ranges. What hangs on several values or files, such as whether a place is
/// on the floor, only the loader checks.
#[must_use]
pub fn json_schema(kind: &str) -> Option<String> {
    let kind = FILE_KINDS.iter().find(|known| **known == kind)?;
    let keys = tree::of_kind(kind);
    let mut schema = object(&keys, &[]);
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

/// The schema of a table that holds these keys; of some of them just one, where `choice` names any.
fn object(inner: &[Branch], choice: &[String]) -> Map<String, Value> {
    let mut schema = Map::new();
    schema.insert("type".into(), json!("object"));
    if choice.is_empty() {
        schema.extend(closed(inner.iter()));
        return schema;
    }
    let goes_with =
        |chosen: &String, branch: &Branch| branch.name == *chosen || branch.found.with.contains(chosen);
    let alternatives = choice.iter().map(|chosen| {
        let mut one = closed(inner.iter().filter(|branch| goes_with(chosen, branch)));
        let required = one.entry("required").or_insert_with(|| json!([]));
        if let Some(required) = required.as_array_mut()
            && !required.contains(&json!(chosen))
        {
            required.push(json!(chosen));
        }
        Value::Object(one)
    });
    schema.insert("oneOf".into(), alternatives.collect());
    schema
}

/// Properties, what is required, and nothing else.
fn closed<'b>(inner: impl Iterator<Item = &'b Branch>) -> Map<String, Value> {
    let mut properties = Map::new();
    let (mut required, mut rules, mut needs) = (Vec::new(), Vec::new(), Map::new());
    for branch in inner {
        let Branch { name, found, .. } = branch;
        properties.insert(name.clone(), value(branch, 1.0));
        let feet = found.key.in_feet().filter(|_| is_number(branch));
        if let Some(feet) = &feet {
            properties.insert(feet.clone(), value(branch, FOOT_M));
        }
        // Beside some key at the top of the file it may not stand: that is said there.
        match (feet, found.required && found.not_with.is_empty()) {
            (None, true) => required.push(json!(name)),
            (None, false) => {}
            (Some(feet), true) => {
                rules.push(json!({ "oneOf": [{ "required": [name] }, { "required": [feet] }] }));
            }
            (Some(feet), false) => rules.push(json!({ "not": { "required": [name, feet] } })),
        }
        if let [only] = found.with.as_slice() {
            needs.insert(name.clone(), json!([only]));
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
    let rules = keys.iter().filter_map(|Branch { name, .. }| {
        let refused = hanging_on(name, keys, true);
        let needed = || hanging_on(name, keys, false);
        (!refused.is_empty())
            .then(|| json!({ "if": { "required": [name] }, "then": refused, "else": needed() }))
    });
    rules.collect()
}

/// The keys that may not stand beside this one at the top: refused beside it, or else asked for where they are needed.
/// Members of lists are left to the loader.
fn hanging_on(top: &String, keys: &[Branch], beside: bool) -> Map<String, Value> {
    let (mut properties, mut required) = (Map::new(), Vec::new());
    for Branch { name, found, inner } in keys.iter().filter(|branch| branch.name != "*") {
        if !found.not_with.contains(top) {
            let inner = hanging_on(top, inner, beside);
            if !inner.is_empty() {
                properties.insert(name.clone(), Value::Object(inner));
            }
        } else if beside {
            properties.insert(name.clone(), json!(false));
        } else if found.required {
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

fn is_number(branch: &Branch) -> bool {
    matches!(branch.value(), Some(What::Number | What::NumberOrNone | What::Sourced))
}

/// The schema of a key's value; `scale` is the size of the unit that it is written in.
fn value(branch: &Branch, scale: f64) -> Value {
    let found = &branch.found;
    let mut schema = if found.again.is_some() {
        // The same keys once more, as deep as one likes: left to the loader.
        Map::new()
    } else if branch.reads(&What::List) {
        let mut schema = Map::new();
        schema.insert("type".into(), json!("array"));
        let member = branch.each().map_or_else(|| plain(branch, scale), table);
        schema.insert("items".into(), Value::Object(member));
        schema
    } else if branch.reads(&What::Map) {
        let each = branch.each().map_or(json!(true), |each| value(each, 1.0));
        let mut schema = Map::new();
        schema.insert("type".into(), json!("object"));
        schema.insert("additionalProperties".into(), each);
        schema
    } else if branch.value().is_some() {
        plain(branch, scale)
    } else {
        table(branch)
    };
    let unit = if scale == 1.0 { found.key.unit } else { "ft" };
    let unit = if unit.is_empty() || !is_number(branch) { String::new() } else { format!(" ({unit})") };
    schema.insert("description".into(), json!(format!("{}{unit}", found.key.doc)));
    if let Default::Value(default) = &found.default
        && scale == 1.0
        && let Ok(default) = serde_json::from_str::<Value>(default)
    {
        schema.insert("default".into(), default);
    }
    Value::Object(schema)
}

fn table(branch: &Branch) -> Map<String, Value> {
    object(&branch.inner, &branch.found.one_of)
}

/// The schema of a value that is no table of keys.
fn plain(branch: &Branch, scale: f64) -> Map<String, Value> {
    let key = &branch.found.key;
    let schema = match branch.value() {
        Some(What::Text) => json!({ "type": "string" }),
        Some(What::Flag) => json!({ "type": "boolean" }),
        Some(What::Whole) => number("integer", key, 1.0),
        Some(What::Number) => number("number", key, scale),
        Some(What::NumberOrNone) => json!({ "anyOf": [number("number", key, scale), { "const": "none" }] }),
        Some(What::Word(words)) => json!({ "enum": words }),
        Some(What::Name(names)) => json!({ "type": "string", "examples": names }),
        Some(What::Column) => json!({ "type": "string", "examples": ["near wing", "far back"] }),
        Some(What::File(folder)) => json!({
            "anyOf": [{ "enum": bundled::names(folder) }, { "type": "string", "pattern": "\\.toml$" }]
        }),
        Some(What::Place) => place(key),
        Some(What::Places(Some(count))) => {
            json!({ "type": "array", "items": place(key), "minItems": count, "maxItems": count })
        }
        Some(What::Places(None)) => json!({ "type": "array", "items": place(key) }),
        Some(What::Sourced) => {
            let within = number("number", key, scale);
            json!({
                "type": "object",
                "properties": {
                    "value": within,
                    "range": { "type": "array", "items": within, "minItems": 2, "maxItems": 2 },
                    "source": { "type": "string" },
                },
                "required": ["value", "range", "source"],
                "additionalProperties": false,
            })
        }
        _ => json!({}),
    };
    match schema {
        Value::Object(schema) => schema,
        _ => Map::new(),
    }
}

fn place(key: &Key) -> Value {
    json!({ "type": "array", "items": number("number", key, 1.0), "minItems": 2, "maxItems": 2 })
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
