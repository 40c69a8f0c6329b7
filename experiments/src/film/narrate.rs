//! A film told: one line an event, then how it ended.
//!
//! A decision's line names the best options with their believed values in points (and chances where there is
//! something to succeed at), then what was chosen, so that a choice can be argued with.

use std::fmt::Write as _;

use engine::film::{Action, Event, Film, Slot, TurnoverKind, Weighed, What};
use engine::slots;
use engine::{Measure, Outcome};

use super::Words;
use crate::note::NOTE;
use crate::wording::{pass_kind, program_kind};
use crate::wrapping::wrapped;

/// Options that a decision's line names at most, besides the chosen one.
const BEST: usize = 3;

/// Measures told under a trace.
const SUMMARY: [(Measure, &str); 8] = [
    (Measure::Points, "points"),
    (Measure::ExpectedPoints, "expected points"),
    (Measure::BreakExposure, "risk of a fast break"),
    (Measure::SecondsUsed, "seconds used"),
    (Measure::Passes, "passes"),
    (Measure::Reversals, "reversals"),
    (Measure::LatenessMean, "how late help is, mean, s"),
    (Measure::LatenessPeak, "how late help is, most, s"),
];

/// Yes-or-no measures told if they are yes.
const MARKS: [(Measure, &str); 7] = [
    (Measure::OpenLookAvailable, "an open look on offer"),
    (Measure::OpenLookTaken, "an open look taken"),
    (Measure::GoodShotTaken, "a good shot"),
    (Measure::PaintTouch, "a paint touch"),
    (Measure::LowPostTouch, "a low-post touch"),
    (Measure::HighPostTouch, "a high-post touch"),
    (Measure::ShortCornerTouch, "a short-corner touch"),
];

/// One line of a trace.
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    /// When, s.
    pub time_s: f32,
    /// What happened, in words.
    pub text: String,
}

/// The trace, line by line in order of time: stages of one step speak in their own order.
pub fn lines(film: &Film, words: &dyn Words) -> Vec<Line> {
    let mut events: Vec<&Event> = film.events.iter().collect();
    events.sort_by(|a, b| a.time_s.total_cmp(&b.time_s));
    let mut meant = None;
    let line = |event: &Event| {
        let changed = changes_his_mind(&mut meant, &event.what);
        Line { time_s: event.time_s, text: told(event, changed, words) }
    };
    events.into_iter().map(line).collect()
}

/// The trace, its summary and the note.
pub fn narrate(film: &Film, words: &dyn Words) -> String {
    let mut text = String::new();
    for line in lines(film, words) {
        let _ = writeln!(text, "{:5.1} s  {}", line.time_s, line.text);
    }
    text.push('\n');
    text.push_str(&summary(film));
    text.push('\n');
    text.push_str(&wrapped(NOTE, 100));
    text.push('\n');
    text
}

/// Whether this is a decision against the pass that the same player meant to throw and has not; `meant` is kept up:
/// who means to pass, and to whom.
fn changes_his_mind(meant: &mut Option<(Slot, Slot)>, what: &What) -> bool {
    match what {
        What::Decision { by, options, chosen } => {
            let to = match options.get(*chosen).map(|option| option.action) {
                Some(Action::Pass(to, _)) => Some(to),
                _ => None,
            };
            let before = std::mem::replace(meant, to.map(|to| (*by, to)));
            before.is_some_and(|(who, whom)| who == *by && to != Some(whom))
        }
        What::Pass { .. } | What::Catch { .. } | What::Pickup { .. } | What::Rebound { .. } => {
            *meant = None;
            false
        }
        _ => false,
    }
}

fn told(event: &Event, changed: bool, words: &dyn Words) -> String {
    let name = |player: Slot| words.player(player);
    let at = words.place(event.at);
    match &event.what {
        What::Start { holder } => format!("{}, {at}: starts with the ball", name(*holder)),
        What::Decision { by, options, chosen } => {
            let change = if changed { "changes his mind, " } else { "" };
            format!("{}, {at}: {change}{}", name(*by), decision(options, *chosen, words))
        }
        What::Pass { from, to, kind, metres, look_off } => {
            let eyes = if *look_off { ", looking elsewhere" } else { "" };
            format!("{}, {at}: {} pass to {}, {metres:.1} m{eyes}", name(*from), pass_kind(*kind), name(*to))
        }
        What::Catch { by, late_s } if *late_s >= 0.05 => {
            format!("{}, {at}: catches it badly, {late_s:.1} s lost", name(*by))
        }
        What::Catch { by, .. } => format!("{}, {at}: catches it", name(*by)),
        What::Tip { by } => format!("{}, {at}: tips the pass", name(*by)),
        What::Pickup { by } => format!("{}, {at}: picks up the loose ball", name(*by)),
        What::OutOfBounds { retained: true } => format!("out of bounds at {at}; the attack keeps the ball"),
        What::OutOfBounds { retained: false } => format!("out of bounds at {at}; the ball is lost"),
        What::Fake { by, toward, bitten: 0 } if toward == by => format!("{}, {at}: fakes a shot", name(*by)),
        What::Fake { by, toward, bitten: 0 } => {
            format!("{}, {at}: fakes a pass to {}", name(*by), name(*toward))
        }
        What::Fake { by, toward, bitten } => {
            let bit: Vec<String> =
                slots::ALL.into_iter().filter(|player| bitten & player.bit() != 0).map(&name).collect();
            let bite = if bit.len() == 1 { "bites" } else { "bite" };
            let what =
                if toward == by { "the fake".into() } else { format!("the fake to {}", name(*toward)) };
            format!("{} {bite} on {what}", crate::wording::listed(&bit))
        }
        What::DriveStart { by } => format!("{}, {at}: drives", name(*by)),
        What::DriveStop { by } => format!("{}, {at}: is stopped", name(*by)),
        What::Shot { by, metres, space_m, chance, three, open } => format!(
            "{}, {at}: shoots {} from {metres:.1} m, {}, nearest defender {space_m:.1} m away, {:.0} % to go in",
            name(*by),
            if *three { "a three" } else { "a two" },
            if *open { "open" } else { "contested" },
            100.0 * chance
        ),
        What::Made { by, points } => format!("{}: makes it, {points} points", name(*by)),
        What::Missed { by } => format!("{}: misses", name(*by)),
        What::Rebound { by, offensive } => {
            format!(
                "{}, {at}: takes the {} rebound",
                name(*by),
                if *offensive { "offensive" } else { "defensive" }
            )
        }
        What::ProgramStart { by, program, kind } => {
            format!("{}, {at}: starts {} ({})", name(*by), words.program(*program), program_kind(*kind))
        }
        What::ProgramStep { by, program, .. } => {
            format!("{}, {at}: {}, next cut", name(*by), words.program(*program))
        }
        What::ProgramEnd { by, program } => format!("{}, {at}: ends {}", name(*by), words.program(*program)),
        What::TakesBall { by, of } => format!("{}, {at}: picks up {}", name(*by), name(*of)),
        What::Helps { by, on } => format!("{}, {at}: steps in front of {}", name(*by), name(*on)),
        What::Loses { by, whom } => format!("{}, {at}: loses sight of {}", name(*by), name(*whom)),
        What::Foul { by, on, offensive, shooting } => format!(
            "{}, {at}: {}foul on {}{}",
            name(*by),
            if *offensive { "offensive " } else { "" },
            name(*on),
            if *shooting { " in the act of shooting" } else { "" }
        ),
        What::FreeThrows { by, made, of } => format!("{}: makes {made} of {of} free throws", name(*by)),
        What::Turnover { kind, by } => format!("turnover, {}: {}", name(*by), turnover_word(*kind)),
        What::End { outcome, points } => format!("the end: {}, {points} points", outcome_word(*outcome)),
    }
}

/// `thinks chest pass to rover 1.02 (88 %), hold 0.91, shoot 0.55 (31 %); means to pass to rover`.
fn decision(options: &[Weighed], chosen: usize, words: &dyn Words) -> String {
    let weighed: Vec<String> = options
        .iter()
        .enumerate()
        .filter(|&(place, _)| place < BEST || place == chosen)
        .map(|(_, option)| {
            let chance = match option.action {
                Action::Shoot | Action::Pass(..) => format!(" ({:.0} %)", 100.0 * option.chance),
                Action::Hold | Action::Drive | Action::DribbleAt(_) => String::new(),
            };
            format!("{} {:.2}{chance}", thought(option.action, words), option.value_points)
        })
        .collect();
    let done =
        options.get(chosen).map_or_else(|| "chooses nothing".into(), |option| done(option.action, words));
    format!("thinks {}; {done}", weighed.join(", "))
}

fn thought(action: Action, words: &dyn Words) -> String {
    match action {
        Action::Hold => "hold".into(),
        Action::Shoot => "shoot".into(),
        Action::Pass(to, kind) => format!("{} pass to {}", pass_kind(kind), words.player(to)),
        Action::Drive => "drive".into(),
        Action::DribbleAt(to) => format!("dribble at {}", words.player(to)),
    }
}

fn done(action: Action, words: &dyn Words) -> String {
    match action {
        Action::Hold => "holds".into(),
        Action::Shoot => "shoots".into(),
        Action::Pass(to, _) => format!("means to pass to {}", words.player(to)),
        Action::Drive => "drives".into(),
        Action::DribbleAt(to) => format!("dribbles at {}", words.player(to)),
    }
}

fn turnover_word(kind: TurnoverKind) -> &'static str {
    match kind {
        TurnoverKind::Intercepted => "a defender takes the pass",
        TurnoverKind::BadPass => "the pass is lost",
        TurnoverKind::Handling => "the ball is lost from the hands",
        TurnoverKind::Travel => "travelling",
        TurnoverKind::SteppedOut => "he steps out of bounds with it",
        TurnoverKind::OffensiveFoul => "offensive foul",
        TurnoverKind::ThreeSeconds => "three seconds in the lane",
        TurnoverKind::FiveSeconds => "five seconds closely guarded",
        TurnoverKind::ShotClock => "the shot clock runs out",
    }
}

fn outcome_word(outcome: Outcome) -> &'static str {
    match outcome {
        Outcome::Made => "a made shot",
        Outcome::Missed => "a missed shot and a defensive rebound",
        Outcome::Turnover => "a turnover",
        Outcome::FreeThrows => "free throws",
        Outcome::Expired => "out of time",
        Outcome::Fault => "a numerical fault",
    }
}

/// How it ended, and what it had: `a made shot; an open look taken`.
pub fn ending(film: &Film) -> String {
    let record = &film.record;
    let marks: Vec<&str> =
        MARKS.iter().filter(|(measure, _)| record.value(*measure) != 0).map(|(_, words)| *words).collect();
    let mut text = outcome_word(record.outcome).to_owned();
    if !marks.is_empty() {
        let _ = write!(text, "; {}", crate::wording::listed(&marks));
    }
    text
}

/// The measures told under a trace, in words and digits.
pub fn numbers(film: &Film) -> Vec<(&'static str, String)> {
    let shown = |measure: Measure| {
        let value = film.record.real(measure);
        if measure.unit().scale() == 1.0 { format!("{value:.0}") } else { format!("{value:.2}") }
    };
    SUMMARY.iter().map(|(measure, words)| (*words, shown(*measure))).collect()
}

fn summary(film: &Film) -> String {
    let mut text = format!("Possession {}: {}\n", film.record.possession, ending(film));
    for (words, shown) in numbers(film) {
        let _ = writeln!(text, "  {words:<28} {shown:>6}");
    }
    let _ = writeln!(text, "  fingerprint {:016x}", film.record.digest);
    text
}

#[cfg(test)]
mod tests {
    use super::*;
    use engine::PossessionRecord;
    use engine::math::{Vec2, vec2};
    use engine::setup::{PassKind, ProgramKind};

    struct Plain;

    impl Words for Plain {
        fn player(&self, player: Slot) -> String {
            ["lead guard", "off guard", "rover", "right post", "left post", "point", "left wing"]
                .get(usize::from(player))
                .map_or_else(|| format!("defender {}", player.index()), ToString::to_string)
        }
        fn place(&self, at: Vec2) -> String {
            if at.x > 0.0 { "the right slot".into() } else { "the left wing".into() }
        }
        fn program(&self, _: u8) -> String {
            "seam-cross".into()
        }
    }

    fn film() -> Film {
        let pass = Action::Pass(Slot::of(2), PassKind::Chest);
        let weighed = |action, value_points, chance| Weighed { action, value_points, chance };
        let options = vec![
            weighed(pass, 1.02, 0.88),
            weighed(Action::Hold, 0.91, 1.0),
            weighed(Action::Shoot, 0.55, 0.31),
            weighed(Action::DribbleAt(Slot::of(0)), 0.50, 1.0),
            weighed(Action::Drive, 0.40, 1.0),
        ];
        let there = vec2(1.0, 7.0);
        let wing = vec2(-6.0, 4.0);
        let event = |time_s, at, what| Event { time_s, at, what };
        let events = vec![
            event(0.0, there, What::Start { holder: Slot::of(1) }),
            event(0.4, wing, What::ProgramStart { by: Slot::of(2), program: 0, kind: ProgramKind::Route }),
            event(2.1, there, What::Decision { by: Slot::of(1), options: options.clone(), chosen: 4 }),
            event(2.6, there, What::Fake { by: Slot::of(1), toward: Slot::of(3), bitten: 0b110_0000 }),
            event(3.4, there, What::Decision { by: Slot::of(1), options, chosen: 0 }),
            event(
                3.7,
                there,
                What::Pass {
                    from: Slot::of(1),
                    to: Slot::of(2),
                    kind: PassKind::Chest,
                    metres: 7.25,
                    look_off: true,
                },
            ),
            event(4.3, wing, What::Catch { by: Slot::of(2), late_s: 0.0 }),
            event(
                12.55,
                wing,
                What::Shot {
                    by: Slot::of(2),
                    metres: 6.9,
                    space_m: 1.62,
                    chance: 0.37,
                    three: true,
                    open: true,
                },
            ),
            event(13.6, wing, What::Made { by: Slot::of(2), points: 3 }),
            event(13.6, wing, What::End { outcome: Outcome::Made, points: 3 }),
        ];
        let mut values = [0; Measure::COUNT];
        values[Measure::Points as usize] = 3_000_000;
        values[Measure::ExpectedPoints as usize] = 1_110_000;
        values[Measure::Passes as usize] = 1;
        values[Measure::OpenLookTaken as usize] = 1;
        values[Measure::SecondsUsed as usize] = 13_600_000;
        let record = PossessionRecord { possession: 41_873, outcome: Outcome::Made, values, digest: 0xfeed };
        Film { record, side: -1.0, frames: vec![], events }
    }

    #[test]
    fn a_trace_reads_aloud() {
        let text = narrate(&film(), &Plain);
        assert_eq!(text, format!("{TRACE}\n{}\n", wrapped(NOTE, 100)), "\n{text}");
    }

    const TRACE: &str = "\
\x20 0.0 s  off guard, the right slot: starts with the ball
  0.4 s  rover, the left wing: starts seam-cross (route)
  2.1 s  off guard, the right slot: thinks chest pass to rover 1.02 (88 %), hold 0.91, shoot 0.55 (31 %), drive 0.40; drives
  2.6 s  point and left wing bite on the fake to right post
  3.4 s  off guard, the right slot: thinks chest pass to rover 1.02 (88 %), hold 0.91, shoot 0.55 (31 %); means to pass to rover
  3.7 s  off guard, the right slot: chest pass to rover, 7.2 m, looking elsewhere
  4.3 s  rover, the left wing: catches it
 12.6 s  rover, the left wing: shoots a three from 6.9 m, open, nearest defender 1.6 m away, 37 % to go in
 13.6 s  rover: makes it, 3 points
 13.6 s  the end: a made shot, 3 points

Possession 41873: a made shot; an open look taken
  points                         3.00
  expected points                1.11
  risk of a fast break           0.00
  seconds used                  13.60
  passes                            1
  reversals                         0
  how late help is, mean, s      0.00
  how late help is, most, s      0.00
  fingerprint 000000000000feed
";
}
