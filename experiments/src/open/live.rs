//! A run as a tab hears of it: events while it plays, its result, and the report and the sheet once they are written. It lasts
//! no longer than the connection of the tab.

use std::fs::File;
use std::process::{Child, Command, Stdio};
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::thread::sleep;
use std::time::{Duration, Instant};

use axum::response::sse::Event;
use serde_json::json;
use tokio::sync::mpsc::Sender;
use tokio::sync::mpsc::error::TrySendError;

use super::app::{Answered, App, Asked, held};
use super::choice;
use super::outcome::Outcome;
use super::pages::answered;
use super::play::{Ended, News, Reins, Standing, play};
use crate::error::Error;
use crate::selection::FROM;
use crate::wording::grouped;

/// The folders of a question's result and sheet, and what `compare` printed.
pub const RESULT: &str = "result";
/// See [`RESULT`].
pub const SHEET: &str = "sheet";
/// See [`RESULT`].
pub const PRINTED: &str = "comparison.txt";
/// What the programs that write them had to complain of.
const ERRORS: &str = "errors.txt";

/// How often it is looked whether a program that writes is done.
const PERIOD: Duration = Duration::from_millis(50);
/// How often a tab hears how long that still takes.
const TOLD: Duration = Duration::from_secs(1);

/// What a tab hears.
pub struct Ear {
    /// What is said goes in here.
    pub sender: Sender<Event>,
    /// Set when the program is to end: whoever listens is gone then, too.
    pub ended: Arc<AtomicBool>,
}

impl Ear {
    fn is_gone(&self) -> bool {
        self.ended.load(Ordering::Relaxed) || self.sender.is_closed()
    }

    /// Says something; whether anybody hears it.
    fn hears(&self, name: &str, what: &serde_json::Value) -> bool {
        let mut event = Event::default().event(name).data(what.to_string());
        while !self.is_gone() {
            match self.sender.try_send(event) {
                Ok(()) => return true,
                Err(TrySendError::Closed(_)) => return false,
                // It has not read the last ones yet.
                Err(TrySendError::Full(back)) => event = back,
            }
            sleep(PERIOD);
        }
        false
    }
}

/// Plays a question, and lets the tab hear of it until it has gone. A run of the same question that another tab has is
/// ended: the last one that asks has it.
pub fn follow(app: &App, asked: &Asked, ear: &Ear) {
    let reins = Arc::new(Reins::default());
    let before = held(&asked.run).replace(Arc::clone(&reins));
    if let Some(before) = before {
        before.dropped.store(true, Ordering::Relaxed);
    }
    let done = if asked.answer().is_some() { Ok(true) } else { played(app, asked, &reins, ear) };
    match done {
        Err(error) => {
            ear.hears("failed", &json!({ "told": error.told(false) }));
        }
        Ok(false) => {}
        Ok(true) => {
            if let Some(answer) = asked.answer() {
                ear.hears("done", &json!({ "html": answered(app, asked, &answer).into_string() }));
            }
        }
    }
    let mut run = held(&asked.run);
    if run.as_ref().is_some_and(|own| Arc::ptr_eq(own, &reins)) {
        *run = None;
    }
}

/// Whether the question has been answered.
fn played(app: &App, asked: &Asked, reins: &Reins, ear: &Ear) -> Result<bool, Error> {
    let mut tell = |news: &News<'_>| {
        if !ear.hears("standing", &told(asked, news, reins)) {
            reins.dropped.store(true, Ordering::Relaxed);
        }
    };
    let Some(ended) = play(&asked.asking, asked.size.possessions, reins, &mut tell)? else {
        return Ok(false);
    };
    let asking = Arc::clone(&ended.asking);
    let outcome = Outcome::new(&asking, &ended.played.totals, &ended.played.first).parted(&asking)?;
    let answer = Arc::new(Answered { asking, outcome, written: None.into() });
    // Its films are shown at once, though report and sheet still take a while.
    *held(&asked.outcome) = Some(Arc::clone(&answer));
    ear.hears("writing", &json!({ "left": "", "html": answered(app, asked, &answer).into_string() }));
    let written = write(asked, reins, &ended, ear);
    let is_whole = written.is_some();
    *held(&answer.written) = written;
    Ok(is_whole)
}

/// Where a run stands, in numbers and words.
fn told(asked: &Asked, news: &News<'_>, reins: &Reins) -> serde_json::Value {
    let left = lasting(Duration::from_secs_f64(news.still as f64 / reins.speed().max(1.0)));
    let noun = asked.asking.question.noun;
    let (played, most, words, html) = match news.standing {
        Standing::Choosing { racing, possessions } => {
            let budget = asked.asking.until().map_or(0, |until| until.budget);
            let next = racing.to_play().map(|(left, range)| {
                let next = grouped(range.end - FROM);
                format!(" of each {noun} that is left, {} of them; the next look is at {next}", left.len())
            });
            let words = format!(
                "Choosing: {} of at most {} possessions{}",
                grouped(possessions),
                grouped(budget),
                next.unwrap_or_default()
            );
            (possessions, budget, words, choice::told(racing))
        }
        Standing::Measuring { asking, played, most } => {
            let outcome = Outcome::new(asking, &played.totals, &played.first);
            let (possessions, of) = (grouped(outcome.possessions), grouped(most));
            let words = match asking.until() {
                None => format!("{possessions} of {of} possessions of each"),
                Some(_) => format!("Chosen. Measuring those left: {possessions} of {of} possessions of each"),
            };
            (outcome.possessions, most, words, outcome.told())
        }
    };
    let about = if matches!(news.standing, Standing::Choosing { .. }) { "at most" } else { "about" };
    json!({
        "played": played,
        "most": most,
        "words": words,
        "left": if news.still > 0 { format!("{about} {left} left") } else { String::new() },
        "html": html.into_string(),
    })
}

/// A time as it is told to those who wait.
fn lasting(time: Duration) -> String {
    match time.as_secs() {
        0..=1 => "a second".into(),
        seconds @ 2..=90 => format!("{seconds} seconds"),
        seconds => format!("{} minutes", (seconds + 30) / 60),
    }
}

/// Has the result and the sheet written by the command line itself, which goes on with what was played; None if the tab went
/// away.
fn write(asked: &Asked, reins: &Reins, ended: &Ended, ear: &Ear) -> Option<Result<(), String>> {
    // What another tab began, and did not wait for.
    for folder in [RESULT, SHEET] {
        let _ = std::fs::remove_dir_all(asked.folder.join(folder));
    }
    let (asking, possessions) = (&ended.asking, ended.played.totals.possessions());
    if let Err(error) = asking.keep(&asked.folder.join(RESULT), &asked.asking, (&ended.stages, possessions)) {
        return Some(Err(error.told(false)));
    }
    let compare = asking.line(possessions, RESULT);
    let sheet = ["sheet", RESULT, "--out", SHEET, "--quiet"].map(str::to_owned).to_vec();
    let expected = asking.besides(possessions) as f64 / reins.speed().max(1.0);
    let start = Instant::now();
    for (words, prints) in [(compare, Some(PRINTED)), (sheet, None)] {
        let child = match started(asked, &words, prints) {
            Ok(child) => child,
            Err(error) => return Some(Err(format!("the program could not be started again: {error}"))),
        };
        let wait = || expected - start.elapsed().as_secs_f64();
        match waited(child, reins, ear, &wait)? {
            true => {}
            false => {
                let said = std::fs::read_to_string(asked.folder.join(ERRORS)).unwrap_or_default();
                return Some(Err(said));
            }
        }
    }
    Some(Ok(()))
}

fn started(asked: &Asked, words: &[String], prints: Option<&str>) -> std::io::Result<Child> {
    let out = prints.map(|name| File::create(asked.folder.join(name)).map(Stdio::from)).transpose()?;
    Command::new(std::env::current_exe()?)
        .args(words)
        .current_dir(&asked.folder)
        .stdin(Stdio::null())
        .stdout(out.unwrap_or_else(Stdio::null))
        .stderr(File::create(asked.folder.join(ERRORS))?)
        .spawn()
}

/// Whether a program ended well; None where the tab went away, and then the program is ended, too.
fn waited(mut child: Child, reins: &Reins, ear: &Ear, left: &dyn Fn() -> f64) -> Option<bool> {
    let mut told = Instant::now();
    loop {
        match child.try_wait() {
            Ok(Some(status)) => return Some(status.success()),
            Ok(None) => {}
            Err(_) => return Some(false),
        }
        if ear.is_gone() || reins.dropped.load(Ordering::Relaxed) {
            // It may have ended by itself meanwhile.
            let _ = child.kill();
            let _ = child.wait();
            return None;
        }
        if told.elapsed() >= TOLD {
            told = Instant::now();
            let left = Duration::from_secs_f64(left().max(1.0));
            ear.hears("writing", &json!({ "left": format!("about {} left", lasting(left)) }));
        }
        sleep(PERIOD);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn waiting_is_told_in_round_words() {
        for (seconds, told) in [
            (0.2, "a second"),
            (12.9, "12 seconds"),
            (90.0, "90 seconds"),
            (91.0, "2 minutes"),
            (600.0, "10 minutes"),
        ] {
            assert_eq!(lasting(Duration::from_secs_f64(seconds)), told);
        }
    }
}
