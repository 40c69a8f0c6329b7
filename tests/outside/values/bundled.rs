//! A matchup under each bundled rule set and level, through the loader that users meet.

use std::fs;
use std::sync::Arc;

use engine::setup::Setup;

/// Names of what is bundled of a kind.
pub fn names(kind: &str) -> Vec<String> {
    scenarios::catalog().into_iter().filter(|entry| entry.kind == kind).map(|entry| entry.name).collect()
}

/// An ordinary matchup under a rule set, both teams at one level.
pub fn setup(rules: &str, level: &str) -> Arc<Setup> {
    let text = format!(
        "name = \"outside\"\nrules = \"{rules}\"\n[level]\nattack = \"{level}\"\ndefence = \"{level}\"\n\
         [zone]\nuse = \"1-2-2\"\n[attack]\nuse = \"rover\"\nrover = {{ route = \"seam-cross\" }}\n"
    );
    let folder = tempfile::tempdir().expect("a temporary folder");
    let file = folder.path().join("outside.toml");
    fs::write(&file, text).expect("a written file");
    scenarios::scenario(&file).unwrap_or_else(|faults| panic!("{faults}")).setup
}
