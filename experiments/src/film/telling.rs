//! One event in words, and how much of a possession it is: the ball, a move, or a thought.
//!
//! A decision names the best options with their believed values in points (and chances where there is something to
//! succeed at), then what was chosen, so that a choice can be argued with.

use engine::Outcome;
use engine::film::{Action, Event, Slot, TurnoverKind, Weighed, What};
use engine::slots;
use serde::Serialize;

use super::Words;
use crate::wording::{listed, pass_kind, program_kind};

/// Options that a decision's line names at most, besides the chosen one.
const BEST: usize = 3;

/// What the numbers of a thought are, said once beside them.
pub const THOUGHTS: &str = "A thought's number is what he believes the rest of the possession to bring that way, points, second \
                            shots and free throws too; in brackets the chance that he gives it. The best comes first.";

/// Less than this is not told as a misjudgement, points: it would be told as nothing.
const TOLD_FROM_POINTS: f32 = 0.005;

/// How much of a possession a line tells: the ball's way alone is the story, the rest is why.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Tier {
    /// What becomes of the ball.
    Ball,
    /// What players do without it, and how they deceive.
    Moves,
    /// What the man with the ball weighs.
    Thoughts,
}

impl Tier {
    /// The tier of an event.
    pub const fn of(what: &What) -> Self {
        match what {
            What::Decision { .. } => Self::Thoughts,
            What::Fake { .. }
            | What::ProgramStart { .. }
            | What::ProgramStep { .. }
            | What::ProgramEnd { .. }
            | What::TakesBall { .. }
            | What::Helps { .. }
            | What::Loses { .. } => Self::Moves,
            What::Start { .. }
            | What::Pass { .. }
            | What::Catch { .. }
            | What::Tip { .. }
            | What::Pickup { .. }
            | What::OutOfBounds { .. }
            | What::DriveStart { .. }
            | What::DriveStop { .. }
            | What::Shot { .. }
            | What::Made { .. }
            | What::Missed { .. }
            | What::Rebound { .. }
            | What::Foul { .. }
            | What::FreeThrows { .. }
            | What::Turnover { .. }
            | What::End { .. } => Self::Ball,
        }
    }

    /// Its name, as a page's style knows it.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Ball => "ball",
            Self::Moves => "moves",
            Self::Thoughts => "thoughts",
        }
    }
}

/// What the man with the ball had decided and has not done yet.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Meant {
    /// A pass to this team-mate.
    Pass(Slot),
    /// A shot.
    Shot,
}

/// Keeps up what the man with the ball means to do; what he takes back with this event, if it takes anything back.
pub fn taken_back(meant: &mut Option<(Slot, Meant)>, what: &What) -> Option<Meant> {
    match what {
        What::Decision { by, options, chosen } => {
            let now = match options.get(*chosen).map(|option| option.action) {
                Some(Action::Pass(to, _)) => Some(Meant::Pass(to)),
                Some(Action::Shoot) => Some(Meant::Shot),
                _ => None,
            };
            let before = std::mem::replace(meant, now.map(|now| (*by, now)));
            before.filter(|(who, before)| who == by && now != Some(*before)).map(|(_, before)| before)
        }
        What::Pass { .. }
        | What::Shot { .. }
        | What::Catch { .. }
        | What::Pickup { .. }
        | What::Rebound { .. } => {
            *meant = None;
            None
        }
        _ => None,
    }
}

/// An event in words; `back` is what it takes back.
pub fn told(event: &Event, back: Option<Meant>, words: &dyn Words) -> String {
    let name = |player: Slot| words.player(player);
    let at = words.place(event.at);
    match &event.what {
        What::Start { holder } => format!("{}, {at}: starts with the ball", name(*holder)),
        What::Decision { by, options, chosen } => {
            let change = match back {
                Some(Meant::Pass(to)) => format!("changes his mind about the pass to {}, ", name(to)),
                Some(Meant::Shot) => "changes his mind about the shot, ".into(),
                None => String::new(),
            };
            format!("{}, {at}: {change}{}", name(*by), decision(options, *chosen, words))
        }
        What::Pass { from, to, kind, metres, look_off } => {
            let eyes = if *look_off { ", looking elsewhere" } else { "" };
            let far = words.units().length(f64::from(*metres));
            format!("{}, {at}: {} pass to {}, {far}{eyes}", name(*from), pass_kind(*kind), name(*to))
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
            format!("{} {bite} on {what}", listed(&bit))
        }
        What::DriveStart { by } => format!("{}, {at}: drives", name(*by)),
        What::DriveStop { by } => format!("{}, {at}: is stopped", name(*by)),
        What::Shot { by, metres, space_m, chance, three, open } => format!(
            "{}, {at}: shoots {} from {}, {}, nearest defender {} away, {:.0} % to go in",
            name(*by),
            if *three { "a three" } else { "a two" },
            words.units().length(f64::from(*metres)),
            if *open { "open" } else { "contested" },
            words.units().room(f64::from(*space_m)),
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

/// `thinks chest pass to rover 1.02 (88 % to arrive), keep it 0.91, shoot 0.55 (31 % to go in); means to pass to rover`.
fn decision(options: &[Weighed], chosen: usize, words: &dyn Words) -> String {
    let weighed: Vec<String> = options
        .iter()
        .enumerate()
        .filter(|&(place, _)| place < BEST || place == chosen)
        .map(|(_, option)| {
            let chance = match option.action {
                Action::Shoot => format!(" ({:.0} % to go in)", 100.0 * option.chance),
                Action::Pass(..) => format!(" ({:.0} % to arrive)", 100.0 * option.chance),
                Action::Hold | Action::Drive | Action::DribbleAt(_) => String::new(),
            };
            format!("{} {:.2}{chance}", thought(option.action, words), option.value_points)
        })
        .collect();
    let done =
        options.get(chosen).map_or_else(|| "chooses nothing".into(), |option| done(option.action, words));
    let misjudged = misjudged(options, chosen).unwrap_or_default();
    format!("thinks {}; {done}{misjudged}", weighed.join(", "))
}

/// Why a lesser option was taken. A player takes what seems best to him, and how it seems is his belief with an error of
/// judgement on top; so where he takes less, he has misjudged by what lies between at least.
fn misjudged(options: &[Weighed], chosen: usize) -> Option<String> {
    let (best, taken) = (options.first()?, options.get(chosen)?);
    let short = best.value_points - taken.value_points;
    (short >= TOLD_FROM_POINTS).then(|| format!(", by mistake: it is {short:.2} less than the best"))
}

/// What a decision decides, in words: `means to pass to rover (chest)`.
pub fn decided(options: &[Weighed], chosen: usize, words: &dyn Words) -> Option<String> {
    let action = options.get(chosen)?.action;
    let done = done(action, words);
    Some(match action {
        Action::Pass(_, kind) => format!("{done} ({})", pass_kind(kind)),
        _ => done,
    })
}

fn thought(action: Action, words: &dyn Words) -> String {
    match action {
        Action::Hold => "keep it".into(),
        Action::Shoot => "shoot".into(),
        Action::Pass(to, kind) => format!("{} pass to {}", pass_kind(kind), words.player(to)),
        Action::Drive => "drive".into(),
        Action::DribbleAt(to) => format!("dribble at {}", words.player(to)),
    }
}

fn done(action: Action, words: &dyn Words) -> String {
    match action {
        Action::Hold => "keeps it".into(),
        Action::Shoot => "means to shoot".into(),
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

/// How a possession ended, in words.
pub fn outcome_word(outcome: Outcome) -> &'static str {
    match outcome {
        Outcome::Made => "a made shot",
        Outcome::Missed => "a missed shot and a defensive rebound",
        Outcome::Turnover => "a turnover",
        Outcome::FreeThrows => "free throws",
        Outcome::Expired => "out of time",
        Outcome::Fault => "a numerical fault",
    }
}
