//! A panic in the engine, kept to the possession that caused it.
//!
//! A panic is a bug. It must not take a long run with it, nor go unseen: the possession counts as a fault, the run
//! goes on, and at the end it is named with all that is needed to see it again.

use std::cell::RefCell;
use std::fmt;
use std::ops::Range;
use std::panic::{self, AssertUnwindSafe};
use std::sync::Once;

use serde::{Deserialize, Serialize};

use crate::output::relative;

/// Name of the threads whose panics are caught; no other thread's panic message is held back.
pub const WORKER: &str = "possessions";

/// One possession that could not be played.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Crash {
    /// Variant's place in the plan.
    pub variant: usize,
    /// Possession number.
    pub possession: u64,
    /// What the panic said.
    pub message: String,
}

impl fmt::Display for Crash {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "possession {} of variant {}: {}", self.possession, self.variant, self.message)
    }
}

thread_local! {
    static LAST: RefCell<String> = const { RefCell::new(String::new()) };
}

/// Runs `work`; a panic inside comes back as its message.
pub fn caught<T>(work: impl FnOnce() -> T) -> Result<T, String> {
    hold_back_workers_messages();
    // Whoever calls throws away everything that `work` may have left half done.
    panic::catch_unwind(AssertUnwindSafe(work)).map_err(|payload| {
        let noted = LAST.take();
        if !noted.is_empty() {
            return noted;
        }
        let text = payload.downcast_ref::<&str>().map(ToString::to_string);
        text.or_else(|| payload.downcast_ref::<String>().cloned()).unwrap_or_else(|| "a panic".into())
    })
}

/// Plays possessions by `play`, all at once and, if that breaks down, one by one, so that a panic is counted against its own;
/// those that break down by themselves, with what was said. What a part of `play` may have left half done, it clears itself.
pub fn culprits(
    possessions: Range<u64>,
    mut play: impl FnMut(Range<u64>) -> Result<(), String>,
) -> Vec<(u64, String)> {
    if play(possessions.clone()).is_ok() {
        return Vec::new();
    }
    let alone = |possession| play(possession..possession + 1).err().map(|message| (possession, message));
    possessions.filter_map(alone).collect()
}

/// Panics of worker threads are noted (with their place in the code) instead of printed: a possession is played
/// again to find the culprit, and the same message two thousand times helps nobody.
fn hold_back_workers_messages() {
    static ONCE: Once = Once::new();
    ONCE.call_once(|| {
        let before = panic::take_hook();
        panic::set_hook(Box::new(move |info| {
            if std::thread::current().name() == Some(WORKER) {
                let said = info.payload_as_str().unwrap_or("a panic");
                // Code of other crates may lie anywhere on the machine that built this.
                let place = info.location().map(|at| format!(" ({}:{})", relative(at.file()), at.line()));
                LAST.set(format!("{said}{}", place.unwrap_or_default()));
            } else {
                before(info);
            }
        }));
    });
}
