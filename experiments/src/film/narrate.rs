//! A film told: one line an event, then how it ended.

use std::fmt::Write as _;

use engine::Measure;
use engine::film::{Event, Film, What};

use super::telling::{THOUGHTS, Tier, outcome_word, taken_back, told};
use super::{Words, restarts};
use crate::note::NOTE;
use crate::wording::listed;
use crate::wrapping::{hanging, wrapped};

/// Letters in a line of a trace.
const WIDTH: usize = 100;
/// Letters of a trace before its words: the time.
const TIME: usize = 9;

/// Measures told under a trace.
const SUMMARY: [(Measure, &str); 8] = [
    (Measure::Points, "points"),
    (Measure::ExpectedPoints, "expected points"),
    (Measure::BreakExposure, "risk of a fast break"),
    (Measure::SecondsUsed, "seconds used"),
    (Measure::Passes, "passes"),
    (Measure::Reversals, "reversals"),
    (Measure::UnguardedShare, "somebody free, share of time"),
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
    /// How much of the possession it tells.
    pub tier: Tier,
    /// What happened, in words.
    pub text: String,
}

/// The trace, line by line in order of time: stages of one step speak in their own order. Told besides the events: that
/// play starts again after a dead ball, and routes that were never started.
pub fn lines(film: &Film, words: &dyn Words) -> Vec<Line> {
    let mut events: Vec<&Event> = film.events.iter().collect();
    events.sort_by(|a, b| a.time_s.total_cmp(&b.time_s));
    let mut meant = None;
    let line = |event: &Event| {
        let back = taken_back(&mut meant, &event.what);
        Line { time_s: event.time_s, tier: Tier::of(&event.what), text: told(event, back, words) }
    };
    let mut lines: Vec<Line> = events.into_iter().map(line).collect();
    for restart in restarts::of(film) {
        let text = format!(
            "{}, {}: starts again with the ball, everyone back in his starting place",
            words.player(restart.holder),
            words.place(restart.at)
        );
        let at = lines.partition_point(|line| line.time_s < restart.time_s);
        lines.insert(at, Line { time_s: restart.time_s, tier: Tier::Ball, text });
    }
    // The last line is the end.
    let end = lines.len().saturating_sub(1);
    let time_s = lines.last().map_or(0.0, |line| line.time_s);
    for route in never_started(film, words) {
        lines.insert(
            end,
            Line { time_s, tier: Tier::Moves, text: format!("{route} (route) was never started") },
        );
    }
    lines
}

/// Names of the routes that nobody started.
pub fn never_started(film: &Film, words: &dyn Words) -> Vec<String> {
    let started: Vec<String> = film
        .events
        .iter()
        .filter_map(|event| match event.what {
            What::ProgramStart { program, .. } => Some(words.program(program)),
            _ => None,
        })
        .collect();
    words.routes().into_iter().filter(|route| !started.contains(route)).collect()
}

/// A trace as text: the time, then the words, indented by tier, with the rest of a long line under its beginning.
pub fn trace(lines: &[Line]) -> String {
    let mut text = String::new();
    for line in lines {
        let indent = 2 * line.tier as usize;
        let told = hanging(&line.text, WIDTH, TIME + indent, 2);
        let _ = writeln!(text, "{:5.1} s  {:indent$}{told}", line.time_s, "");
    }
    text
}

/// The trace, its summary and the note.
pub fn narrate(film: &Film, words: &dyn Words) -> String {
    let lines = lines(film, words);
    let is_thought = lines.iter().any(|line| line.tier == Tier::Thoughts);
    let numbers = if is_thought { wrapped(THOUGHTS, WIDTH) + "\n\n" } else { String::new() };
    format!("{}\n{numbers}{}\n{}\n", trace(&lines), summary(film), wrapped(NOTE, WIDTH))
}

/// How it ended, and what it had: `a made shot; an open look taken`.
pub fn ending(film: &Film) -> String {
    let record = &film.record;
    let marks: Vec<&str> =
        MARKS.iter().filter(|(measure, _)| record.value(*measure) != 0).map(|(_, words)| *words).collect();
    let mut text = outcome_word(record.outcome).to_owned();
    if !marks.is_empty() {
        let _ = write!(text, "; {}", listed(&marks));
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

/// How it ended and its measures, as text.
pub fn summary(film: &Film) -> String {
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
    use engine::film::Slot;
    use engine::film::{Action, Weighed};
    use engine::math::{Vec2, vec2};
    use engine::setup::{PassKind, ProgramKind};
    use engine::{Outcome, PossessionRecord};

    use crate::units::Units;

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
        fn routes(&self) -> Vec<String> {
            vec!["seam-cross".into(), "baseline-run".into()]
        }
        fn units(&self) -> Units {
            Units::M
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
        let record = PossessionRecord {
            possession: 41_873,
            outcome: Outcome::Made,
            values,
            digest: 0xfeed,
            forced: false,
        };
        Film { record, side: -1.0, frames: vec![], events }
    }

    #[test]
    fn a_trace_reads_aloud() {
        let text = narrate(&film(), &Plain);
        assert_eq!(text, format!("{TRACE}\n{}\n", wrapped(NOTE, 100)), "\n{text}");
    }

    const TRACE: &str = "\
\x20 0.0 s  off guard, the right slot: starts with the ball
  0.4 s    rover, the left wing: starts seam-cross (route)
  2.1 s      off guard, the right slot: thinks chest pass to rover 1.02 (88 % to arrive), keep it
               0.91, shoot 0.55 (31 % to go in), drive 0.40; drives, by mistake: it is 0.62 less
               than the best
  2.6 s    point and left wing bite on the fake to right post
  3.4 s      off guard, the right slot: thinks chest pass to rover 1.02 (88 % to arrive), keep it
               0.91, shoot 0.55 (31 % to go in); means to pass to rover
  3.7 s  off guard, the right slot: chest pass to rover, 7.2 m, looking elsewhere
  4.3 s  rover, the left wing: catches it
 12.6 s  rover, the left wing: shoots a three from 6.9 m, open, nearest defender 1.6 m away, 37 % to
           go in
 13.6 s  rover: makes it, 3 points
 13.6 s    baseline-run (route) was never started
 13.6 s  the end: a made shot, 3 points

A thought's number is what he believes the rest of the possession to bring that way, points, second
shots and free throws too; in brackets the chance that he gives it. The best comes first.

Possession 41873: a made shot; an open look taken
  points                         3.00
  expected points                1.11
  risk of a fast break           0.00
  seconds used                  13.60
  passes                            1
  reversals                         0
  somebody free, share of time   0.00
  how late help is, most, s      0.00
  fingerprint 000000000000feed
";

    #[test]
    fn a_pass_and_a_shot_that_are_taken_back_are_named() {
        let [pass, shot] = [Action::Pass(Slot::of(2), PassKind::Chest), Action::Shoot];
        let decides = |time_s, action| {
            let option = Weighed { action, value_points: 1.0, chance: 0.5 };
            let what = What::Decision { by: Slot::of(1), options: vec![option], chosen: 0 };
            Event { time_s, at: vec2(1.0, 7.0), what }
        };
        let mut film = film();
        film.events =
            vec![decides(1.0, pass), decides(1.5, pass), decides(2.0, shot), decides(2.5, Action::Hold)];
        let told: Vec<String> = lines(&film, &Plain).into_iter().map(|line| line.text).collect();
        assert!(!told[1].contains("changes his mind"), "the same again is no change: {}", told[1]);
        assert!(told[2].contains("changes his mind about the pass to rover, thinks"), "{}", told[2]);
        assert!(told.iter().any(|line| line.contains("changes his mind about the shot, thinks")), "{told:?}");
    }

    #[test]
    fn play_that_starts_again_after_a_dead_ball_is_told() {
        let setup = scenarios::scenario(std::path::Path::new("sunken-122")).unwrap().setup;
        let films = (0..60).map(|possession| engine::film_possession(&setup, 1, possession));
        let film = films.into_iter().find(|film| !restarts::of(film).is_empty()).unwrap();
        let words = crate::film::SetupWords::new(&setup, &film, Units::M);
        let told = lines(&film, &words);
        let again = told.iter().position(|line| line.text.contains("starts again with the ball")).unwrap();
        let before = &told[again - 1].text;
        assert!(before.contains("foul") || before.contains("keeps the ball"), "{before}");
        // A film may start again more than once: nobody moves so far at once as somebody does there.
        let jump = |frame: usize| {
            let (now, before) = (&film.frames[frame].players, &film.frames[frame - 1].players);
            now.iter().zip(before).map(|(now, before)| now.distance(*before)).fold(0.0, engine::math::max)
        };
        let longest = (1..film.frames.len()).max_by(|a, b| jump(*a).total_cmp(&jump(*b))).unwrap();
        let again = restarts::of(&film);
        assert!(again.iter().any(|restart| restart.frame == longest), "all stand in their places at once");
    }
}
