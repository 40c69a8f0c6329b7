//! How the report was made, the files beside it, and what is assumed.

use maud::html;
use toml::Value;

use super::{Results, Section};

/// A value that no source was found for.
#[derive(Debug, PartialEq)]
struct Assumed {
    file: String,
    key: String,
    value: String,
    range: String,
}

pub(super) fn section(results: &Results<'_>) -> Section {
    let manifest = results.manifest;
    let assumed = assumed(results.inputs);
    let html = html! {
        p {
            "Zoneprobe " (manifest.made.version) ". The same command, in the folder of its file where that is named with ./, \
             gives the same files, whatever the machine and the number of threads:"
        }
        pre { code { (manifest.made.command) } }
        p { "Fingerprint of every possession played: " code { (manifest.result_digest) } "." }
        p {
            "Every number on this page stands in a file beside it: "
            @for (nth, file) in manifest.files.iter().filter(|file| file.ends_with(".csv")).enumerate() {
                @if nth > 0 { ", " } a href=(file) { (file) }
            }
            ". The floor pictures are files of their own in " code { "pictures/" } ". Only these links need the \
             folder: the page with its pictures and films is whole in itself and can be sent on alone."
        }
        @if !manifest.variants.iter().all(|variant| variant.settings.is_empty()) {
            details {
                summary { "What differs" }
                ul { @for variant in &manifest.variants { li {
                    (variant.name) ": "
                    @for (nth, (path, value)) in variant.settings.iter().enumerate() {
                        @if nth > 0 { ", " } code { (path) " = " (value) }
                    }
                } } }
            }
        }
        h3 { "Assumptions" }
        p {
            "Sizes, speeds, delays, sight and skill of the players are data, each with a range, and with a source or the \
             word that it was guessed. " (assumed.len()) " of the values in the files of this run were guessed: an \
             answer that hangs on one of them is only as good as the guess."
        }
        @if !assumed.is_empty() { details {
            summary { "The " (assumed.len()) " values that had to be guessed" }
            div class="scroll" tabindex="0" role="region" aria-label="Values that had to be guessed" { table {
                caption { span { "As they stand in the files; a scenario may lay other values over them." } }
                thead { tr {
                    th scope="col" { "file" } th scope="col" { "value" } th scope="col" class="n" { "is" }
                    th scope="col" { "plausible" }
                } }
                tbody { @for one in &assumed { tr {
                    td { (one.file) } th scope="row" { (one.key) } td class="n" { (one.value) } td { (one.range) }
                } } }
            } }
        } }
    };
    Section::new("making", "How this was made", html)
}

/// The values marked as assumed in these files.
fn assumed(inputs: &[(String, String)]) -> Vec<Assumed> {
    let mut found = Vec::new();
    for (name, text) in inputs {
        if let Ok(root) = toml::from_str::<toml::Table>(text) {
            gather(name, "", &root, &mut found);
        }
    }
    found
}

fn gather(file: &str, path: &str, table: &toml::Table, found: &mut Vec<Assumed>) {
    for (key, value) in table {
        let Value::Table(inner) = value else { continue };
        let path = if path.is_empty() { key.clone() } else { format!("{path}.{key}") };
        match (inner.get("value"), inner.get("source").and_then(Value::as_str)) {
            (Some(value), Some(source)) if source.starts_with("assumed") => found.push(Assumed {
                file: file.to_owned(),
                key: path,
                value: told(value),
                range: inner.get("range").map_or_else(String::new, range),
            }),
            _ => gather(file, &path, inner, found),
        }
    }
}

/// A value as it is read, not as a file has it: a minus is no hyphen.
fn told(value: &Value) -> String {
    let text = value.to_string();
    if value.is_integer() || value.is_float() { text.replacen('-', "\u{2212}", 1) } else { text }
}

fn range(ends: &Value) -> String {
    let ends: Vec<String> = ends.as_array().into_iter().flatten().map(told).collect();
    ends.join(" to ")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_values_marked_as_assumed_are_listed() {
        let text = "[body]\na_m = { value = 1.5, range = [1.0, 2.0], source = \"assumed; from memory\" }\n\
                    b_m = { value = 1.5, range = [1.0, 2.0], source = \"a rule book\" }\n\
                    [body.arm]\nc = { value = -2, range = [-3, 1], source = \"assumed\" }\n";
        let found = assumed(&[("level.toml".into(), text.into()), ("broken.toml".into(), "[".into())]);
        let told: Vec<(&str, &str, &str)> =
            found.iter().map(|one| (one.key.as_str(), one.value.as_str(), one.range.as_str())).collect();
        assert_eq!(told, [("body.a_m", "1.5", "1.0 to 2.0"), ("body.arm.c", "\u{2212}2", "\u{2212}3 to 1")]);
    }
}
