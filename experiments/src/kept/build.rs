//! With what the program was built, as far as it is known, and how it plays.

use std::sync::LazyLock;

use engine::Arena;
use scenarios::bundled_question;
use serde::{Deserialize, Serialize};

use crate::digest::ResultDigest;

/// A build of the program.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Build {
    /// The commit, where whoever built it has named it (`ZONEPROBE_COMMIT`).
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub commit: Option<String>,
    /// What it was built for: `x86_64-unknown-linux-gnu`.
    pub target: String,
    /// By what: `rustc 1.95.0 (...)`.
    pub compiler: String,
    /// Digest of some possessions of the bundled question: builds that play otherwise have another. An older version did not
    /// tell it.
    #[serde(default)]
    pub play: String,
}

/// Possessions of each variant that tell how a build plays: milliseconds, and hundreds of decisions in each. (a choice)
const TRIED: u64 = 4;

impl Build {
    /// Of the program that runs.
    #[must_use]
    pub fn own() -> Self {
        static PLAY: LazyLock<String> = LazyLock::new(play);
        Self {
            commit: option_env!("ZONEPROBE_COMMIT").map(String::from),
            target: env!("ZONEPROBE_TARGET").into(),
            compiler: env!("ZONEPROBE_COMPILER").into(),
            play: PLAY.clone(),
        }
    }
}

/// How this build plays.
fn play() -> String {
    let question = bundled_question().expect("the bundled question loads");
    let (mut digest, mut arena) = (ResultDigest::default(), Arena::new(Arena::WIDTH));
    for (nth, variant) in question.variants.iter().enumerate() {
        arena.play(&variant.setup, 1, 0..TRIED, &mut |record| {
            digest.add(nth, record.possession, record.digest)
        });
    }
    digest.to_string()
}
