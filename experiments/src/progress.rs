//! What a waiting user sees.

use std::io::IsTerminal;
use std::sync::mpsc::{RecvTimeoutError, Sender, channel};
use std::sync::{Mutex, PoisonError};
use std::thread::{self, JoinHandle};
use std::time::Duration;

use indicatif::{ProgressBar, ProgressDrawTarget, ProgressState, ProgressStyle};

use crate::run::Watch;
use crate::stop;
use crate::wording::grouped;

/// A bar on standard error with possessions a second and time left.
pub struct Progress(ProgressBar);

/// The last that was begun, and what it counts: a stop says how far it got.
static LAST: Mutex<Option<(ProgressBar, &'static str)>> = Mutex::new(None);

impl Progress {
    /// For so many possessions in all, called `what` where a stop tells of them; nothing is drawn if `quiet` or if standard error is no terminal
    /// that can redraw a line.
    pub fn new(possessions: u64, what: &'static str, quiet: bool) -> Self {
        let bar = ProgressBar::with_draw_target(Some(possessions), target(quiet));
        let style = ProgressStyle::with_template(
            "{bar:30} {human_pos} of {human_len} possessions, {speed} a second, {eta} left",
        );
        if let Ok(style) = style {
            let speed = |state: &ProgressState, text: &mut dyn std::fmt::Write| {
                let _ = write!(text, "{:.0}", state.per_sec());
            };
            bar.set_style(style.with_key("speed", speed).progress_chars("=> "));
        }
        *LAST.lock().unwrap_or_else(PoisonError::into_inner) = Some((bar.clone(), what));
        stop::listen();
        Self(bar)
    }
}

/// Where something is drawn, if anywhere.
fn target(quiet: bool) -> ProgressDrawTarget {
    let can_redraw = std::env::var_os("TERM").is_none_or(|term| term != "dumb");
    let seen = !quiet && can_redraw && std::io::stderr().is_terminal();
    if seen { ProgressDrawTarget::stderr() } else { ProgressDrawTarget::hidden() }
}

/// A word while something takes longer than a moment, with the time that it has taken.
pub struct Waiting {
    /// Dropped when it is done.
    is_on: Option<Sender<()>>,
    drawn: Option<JoinHandle<()>>,
}

/// What takes less is not told.
const MOMENT: Duration = Duration::from_millis(500);
/// Between two drawings.
const TICK: Duration = Duration::from_millis(100);

impl Waiting {
    /// For what is done; drawn where a bar would be.
    pub fn new(what: &'static str, quiet: bool) -> Self {
        let target = target(quiet);
        if target.is_hidden() {
            return Self { is_on: None, drawn: None };
        }
        let (is_on, is_done) = channel();
        let is_still_on = move |time| is_done.recv_timeout(time) == Err(RecvTimeoutError::Timeout);
        let draw = move || {
            if !is_still_on(MOMENT) {
                return;
            }
            let bar = ProgressBar::with_draw_target(None, target).with_message(what).with_elapsed(MOMENT);
            if let Ok(style) = ProgressStyle::with_template("{spinner} {msg}, {elapsed}") {
                bar.set_style(style);
            }
            bar.tick();
            while is_still_on(TICK) {
                bar.tick();
            }
            bar.finish_and_clear();
        };
        Self { is_on: Some(is_on), drawn: Some(thread::spawn(draw)) }
    }
}

impl Drop for Waiting {
    fn drop(&mut self) {
        self.is_on = None;
        if let Some(drawn) = self.drawn.take() {
            let _ = drawn.join();
        }
    }
}

impl Watch for Progress {
    fn played(&self, possessions: u64) {
        self.0.inc(possessions);
    }
}

impl Drop for Progress {
    fn drop(&mut self) {
        self.0.finish_and_clear();
    }
}

/// How far the last of them has got, in words; its bar is cleared.
pub(crate) fn so_far() -> Option<String> {
    let last = LAST.lock().unwrap_or_else(PoisonError::into_inner);
    let (bar, what) = last.as_ref()?;
    let (done, all) = (grouped(bar.position()), grouped(bar.length().unwrap_or_default()));
    bar.finish_and_clear();
    Some(format!("after {done} of {all} {what}"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn how_far_it_got_is_told_in_words() {
        let progress = Progress::new(35_000, "possessions", true);
        progress.played(1_234);
        assert_eq!(so_far().unwrap(), "after 1,234 of 35,000 possessions");
    }
}
