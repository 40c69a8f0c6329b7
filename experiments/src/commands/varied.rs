//! In what the variants of an experiment differ, as keys and in a word.

use std::collections::BTreeSet;

use scenarios::{Experiment, Variant};

/// The keys by which variants differ.
pub(super) fn varied(experiment: &Experiment) -> BTreeSet<&str> {
    let value = |variant: &Variant, path: &str| {
        variant.settings.iter().find(|(own, _)| own == path).map(|(_, value)| value.clone())
    };
    let first = |path: &str| experiment.variants.first().and_then(|variant| value(variant, path));
    let paths =
        experiment.variants.iter().flat_map(|variant| &variant.settings).map(|(path, _)| path.as_str());
    let paths: BTreeSet<&str> = paths.collect();
    paths
        .into_iter()
        .filter(|path| experiment.variants.iter().any(|variant| value(variant, path) != first(path)))
        .collect()
}

/// What people call that which differs between the variants of an experiment. Where more than the attack differs, or
/// only one thing is played, it is a whole matchup.
pub(super) fn noun(experiment: &Experiment) -> &'static str {
    const NOUNS: [(&str, &str); 4] = [
        ("attack.rover.route", "route"),
        ("attack.posts.options", "post option"),
        ("attack.guards.options", "guard option"),
        ("attack", "attack"),
    ];
    let varied = varied(experiment);
    let all = |start: &str| !varied.is_empty() && varied.iter().all(|path| path.starts_with(start));
    NOUNS.into_iter().find(|(start, _)| all(start)).map_or("matchup", |(_, noun)| noun)
}
