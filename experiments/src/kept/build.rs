//! With what the program was built, as far as it is known.

use serde::{Deserialize, Serialize};

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
}

impl Build {
    /// Of the program that runs.
    #[must_use]
    pub fn own() -> Self {
        Self {
            commit: option_env!("ZONEPROBE_COMMIT").map(String::from),
            target: env!("ZONEPROBE_TARGET").into(),
            compiler: env!("ZONEPROBE_COMPILER").into(),
        }
    }
}
