//! What a waiting user sees, and how he stops it.

use std::io::IsTerminal;
use std::sync::OnceLock;
use std::sync::atomic::{AtomicBool, Ordering};

use indicatif::{ProgressBar, ProgressDrawTarget, ProgressState, ProgressStyle};

use crate::run::Watch;

/// A bar on standard error with possessions a second and time left, and the ear for Ctrl-C.
pub struct Progress {
    bar: ProgressBar,
    stop: &'static AtomicBool,
}

impl Progress {
    /// For so many possessions in all; nothing is drawn if `quiet` or if standard error is no terminal
    /// that can redraw a line.
    pub fn new(possessions: u64, quiet: bool) -> Self {
        let can_redraw = std::env::var_os("TERM").is_none_or(|term| term != "dumb");
        let seen = !quiet && can_redraw && std::io::stderr().is_terminal();
        let target = if seen { ProgressDrawTarget::stderr() } else { ProgressDrawTarget::hidden() };
        let bar = ProgressBar::with_draw_target(Some(possessions), target);
        let style = ProgressStyle::with_template(
            "{bar:30} {human_pos} of {human_len} possessions, {speed} a second, {eta} left",
        );
        if let Ok(style) = style {
            let speed = |state: &ProgressState, text: &mut dyn std::fmt::Write| {
                let _ = write!(text, "{:.0}", state.per_sec());
            };
            bar.set_style(style.with_key("speed", speed).progress_chars("=> "));
        }
        Self { bar, stop: interrupt() }
    }
}

impl Watch for Progress {
    fn played(&self, possessions: u64) {
        self.bar.inc(possessions);
    }

    fn wants_stop(&self) -> bool {
        self.stop.load(Ordering::Relaxed)
    }
}

impl Drop for Progress {
    fn drop(&mut self) {
        self.bar.finish_and_clear();
    }
}

/// Set by Ctrl-C. A second Ctrl-C ends the program at once.
fn interrupt() -> &'static AtomicBool {
    static STOP: AtomicBool = AtomicBool::new(false);
    static HANDLER: OnceLock<()> = OnceLock::new();
    HANDLER.get_or_init(|| {
        // Without a handler Ctrl-C still ends the program, only less gracefully.
        let _ = ctrlc::set_handler(|| {
            if STOP.swap(true, Ordering::Relaxed) {
                std::process::exit(1);
            }
        });
    });
    &STOP
}
