//! What is usual: the bundled question and its matchup, from which the page starts where nothing was chosen.

use std::sync::LazyLock;

use scenarios::{bundled_question, bundled_text, catalog};
use toml_edit::{DocumentMut, Item};

use super::choices::Kind;

/// How many of a kind are ticked at first.
const TICKED: usize = 3;

/// The routes of the bundled question, the one that the others are compared with first.
pub fn routes() -> &'static [String] {
    static ROUTES: LazyLock<Vec<String>> = LazyLock::new(|| {
        let question = bundled_question().expect("the bundled question loads");
        let (mut routes, others): (Vec<String>, Vec<String>) =
            question.variants.into_iter().map(|own| own.name).partition(|name| *name == question.baseline);
        routes.extend(others);
        routes
    });
    &ROUTES
}

/// Those of a kind that are ticked at first.
pub fn ticked(kind: &Kind) -> Vec<String> {
    if kind.key == "route" {
        return routes()[..TICKED].to_vec();
    }
    catalog().into_iter().filter(|own| own.kind == kind.catalog).map(|own| own.name).take(TICKED).collect()
}

/// What the posts do in the matchup of the bundled question.
pub fn post_options() -> Item {
    let text = bundled_text("sunken-122").expect("a bundled scenario");
    let matchup: DocumentMut = text.parse().expect("it is TOML");
    matchup["attack"]["posts"]["options"].clone()
}
