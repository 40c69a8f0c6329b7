//! What each variant is, in the words of the files that it names: a route's, an option's, an attack's or a plan's `line`.

use scenarios::{Experiment, Variant};
use toml::Value;

use super::differ::is_choice;

/// A route, an option, an attack or a plan with its line.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Play {
    /// Its name.
    pub name: String,
    /// What it is, in one line.
    pub line: String,
}

/// Folders of the files that say what is taught.
const FOLDERS: [&str; 4] = ["routes", "options", "attacks", "plans"];

/// What a variant names of such files where the variants differ, in the order of its settings.
pub fn plays(experiment: &Experiment, variant: &Variant) -> Vec<Play> {
    let mut found: Vec<Play> = Vec::new();
    let differs = |path: &String| is_choice(path) && experiment.varied.contains(path);
    for (_, value) in variant.settings.iter().filter(|(path, _)| differs(path)) {
        for name in words_of(value) {
            let is_new = !found.iter().any(|play| play.name == name);
            let line = line_of(experiment, name).filter(|_| is_new);
            found.extend(line.map(|line| Play { name: name.to_owned(), line }));
        }
    }
    found
}

/// The words of a value as written, each of which may name a file: `{ far-flash = 1.0 }`, `"moves/my-route.toml"`.
fn words_of(value: &str) -> impl Iterator<Item = &str> {
    let parts = value.split(|letter: char| letter.is_whitespace() || "{}[]=,\"'".contains(letter));
    parts.filter(|part| !part.is_empty()).map(stem)
}

/// A path's file name without its ending.
fn stem(path: &str) -> &str {
    let name = path.rsplit(['/', '\\']).next().unwrap_or(path);
    name.strip_suffix(".toml").unwrap_or(name)
}

/// The line of the file of this name, if it is one of those that say what is taught.
fn line_of(experiment: &Experiment, name: &str) -> Option<String> {
    let own = experiment.inputs.iter().find(|input| {
        let bundled = input.name.strip_prefix("bundled:");
        let is_of_kind = bundled.is_none_or(|path| FOLDERS.iter().any(|folder| path.starts_with(folder)));
        is_of_kind && stem(&input.name) == name
    })?;
    let root: toml::Table = toml::from_str(&own.text).ok()?;
    root.get("line").and_then(Value::as_str).map(str::to_owned)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_bundled_variant_that_names_a_file_is_said_in_its_words() {
        let told = |experiment: &str| -> Vec<Vec<Play>> {
            let experiment = scenarios::experiment(std::path::Path::new(experiment)).unwrap();
            experiment.variants.iter().map(|variant| plays(&experiment, variant)).collect()
        };
        let routes = told("every-route");
        assert!(routes.iter().all(|plays| plays.len() == 1), "{routes:?}");
        assert_eq!(routes[0][0], Play { name: "hold-wing".into(), line: "stays on the wing".into() });
        let options = told("post-options");
        let flash: Vec<&str> = options[1].iter().map(|play| play.line.as_str()).collect();
        assert_eq!(
            flash,
            ["the far post flashes to the free-throw line"],
            "the route is the same in all of them"
        );
        assert_eq!(told("attacks-by-zone")[0][0].name, "pass-only");
    }
}
