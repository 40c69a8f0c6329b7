//! `films.csv`: which possessions are worth a film, chosen by rule, and where everyone was at the decisive moment.
//!
//! The rule: a variant's first possessions (at most 256) in order of their expected net points, equals by number;
//! the ones one tenth, one half and nine tenths of the way along are its poor, its typical and its good one. They are taken from
//! those in which the variant's route or option was carried through, where there are enough of them: a possession in which it
//! was not called on shows nothing of it. The typical one is taken from those of them, if there are some, in which it brought its
//! runner the ball and led to the last shot, or else in which the shot came from it, and among these from those whose shot was where
//! most of them were.

use std::sync::Arc;

use engine::film::{Event, Film, What};
use engine::math::{Vec2, min};
use engine::places::BIN_S;
use engine::setup::{ProgramKind, Setup};
use engine::{Arena, Measure};
use serde::Serialize;

use super::names::{ATTACKERS, player_name, sideless};
use super::runs::SOON_S;
use crate::crash::caught;
use crate::output::{Decimal, FileLine, Hundredths};
use crate::run::First;

/// Which of a variant's possessions.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Choice {
    /// One tenth of the way along.
    Poor,
    /// Half of the way.
    Typical,
    /// Nine tenths of the way.
    Good,
}

impl Choice {
    /// All, the good one first.
    pub const ALL: [Choice; 3] = [Choice::Good, Choice::Typical, Choice::Poor];

    /// Name in the file.
    pub const fn key(self) -> &'static str {
        match self {
            Self::Poor => "lowest-tenth",
            Self::Typical => "median",
            Self::Good => "highest-tenth",
        }
    }

    fn place(self, count: usize) -> usize {
        match self {
            Self::Poor => count / 10,
            Self::Typical => count / 2,
            Self::Good => (count * 9 / 10).min(count.saturating_sub(1)),
        }
    }
}

/// What a possession shows of its variant's route or option, the most first.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Shows {
    /// It brought its runner the ball, and the shot came of it.
    FedToTheShot,
    /// The shot came of it.
    ToTheShot,
    /// It was run to its end, and the shot came of something else.
    Through,
}

impl Shows {
    /// As a key tells it.
    pub const fn words(self) -> &'static str {
        match self {
            Self::FedToTheShot => "its runner got the ball on the run, and this shot came of that",
            Self::ToTheShot => "the run brought a shot; its runner did not get the ball on it",
            Self::Through => "the run went to its end; the shot came of something else",
        }
    }
}

/// The decisive moment of a chosen possession.
#[derive(Clone, Debug, PartialEq)]
pub struct Still {
    /// Which one it is.
    pub choice: Choice,
    /// What it shows of the variant's route or option; None where nothing of it.
    pub shows: Option<Shows>,
    /// Whether it is mirrored, so that its film has left and right the other way round.
    pub is_mirrored: bool,
    /// Possession number.
    pub possession: u64,
    /// Its expected net points.
    pub expected_net_points: f64,
    /// How it ended, as the measures name it.
    pub outcome: &'static str,
    /// What the moment is: the last shot, or the end where there was none.
    pub moment: &'static str,
    /// When, s.
    pub time_s: f64,
    /// +1 where the rover started on the right.
    pub side: f64,
    /// Who had the ball, by slot.
    pub holder: Option<usize>,
    /// Where the pass to him came from, and from whom.
    pub pass: Option<(usize, Vec2)>,
    /// Who ran the route or option last, and where he went from its start to the moment, m; None where it is not about that.
    pub run: Option<(usize, Vec<Vec2>)>,
    /// Players, m: attackers, then defenders.
    pub players: [Vec2; 10],
    /// The ball, m.
    pub ball: Vec2,
}

impl Still {
    /// The same with the rover's side on the right.
    #[must_use]
    pub fn turned(&self) -> Self {
        let turn = |at: &Vec2| Vec2 { x: if self.side < 0.0 { -at.x } else { at.x }, y: at.y };
        Self {
            side: 1.0,
            is_mirrored: self.side < 0.0,
            pass: self.pass.map(|(by, at)| (by, turn(&at))),
            run: self.run.as_ref().map(|(by, places)| (*by, places.iter().map(turn).collect())),
            players: self.players.each_ref().map(turn),
            ball: turn(&self.ball),
            ..self.clone()
        }
    }
}

/// Of fewer possessions none is typical of those in which the shot came of a run. (a choice)
const FEWEST: usize = 3;
/// Of fewer possessions there is no good, typical and poor one. (a choice)
const FEWEST_TO_RANK: usize = 8;

/// The possession of a variant to be filmed by a rule, with its decisive moment; `None` if it cannot be played. `carried`
/// are those in which its route or option was run, as [`Shows`] has them in this order; each kind is among the last.
pub fn chosen(
    (first, carried): (&[First], &[Vec<u64>; 3]),
    (variant, setup, kind): (usize, &Arc<Setup>, ProgramKind),
    seed: u64,
    choice: Choice,
) -> Option<(Still, Film)> {
    let mut own: Vec<&First> = first.iter().filter(|first| first.variant == variant).collect();
    let among = |some: &Vec<u64>| -> Vec<&First> {
        own.iter().copied().filter(|first| some.contains(&first.possession)).collect()
    };
    let [fed, shot, through] = carried.each_ref().map(among);
    let preferred: &[(Vec<&First>, usize)] = &match choice {
        Choice::Typical => vec![(fed, FEWEST), (shot, FEWEST), (through, FEWEST_TO_RANK)],
        Choice::Good | Choice::Poor => vec![(through, FEWEST_TO_RANK)],
    };
    if let Some((some, _)) = preferred.iter().find(|(some, least)| some.len() >= *least) {
        own = if choice == Choice::Typical { ending_alike(some, setup, seed) } else { some.clone() };
    }
    let possession = own.get(choice.place(own.len()))?.possession;
    let kinds = [Shows::FedToTheShot, Shows::ToTheShot, Shows::Through];
    let mut shown = kinds.into_iter().zip(carried);
    let shows = shown.find(|(_, some)| some.contains(&possession)).map(|(shows, _)| shows);
    let film = caught(|| Arena::new(1).film(setup, seed, possession)).ok()?;
    let still = still(&film, choice)?;
    let run = run(&film, setup, kind, still.time_s as f32).filter(|_| shows.is_some());
    Some((Still { shows, run, ..still }, film))
}

/// Those that end with a shot from where most of them do.
fn ending_alike<'f>(some: &[&'f First], setup: &Arc<Setup>, seed: u64) -> Vec<&'f First> {
    let ends = |first: &&&First| -> Option<String> {
        let film = caught(|| Arena::new(1).film(setup, seed, first.possession)).ok()?;
        let is_shot = |event: &&Event| matches!(event.what, What::Shot { .. });
        let shot = film.events.iter().rev().find(is_shot).filter(|_| ends_by_shot(&film))?;
        Some(sideless(setup, shot.at))
    };
    let ended: Vec<(&First, String)> =
        some.iter().filter_map(|first| Some((*first, ends(&first)?))).collect();
    let often = |place: &str| ended.iter().filter(|(_, own)| own == place).count();
    let most =
        ended.iter().map(|(_, place)| place).max_by_key(|place| (often(place), std::cmp::Reverse(*place)));
    match most {
        Some(most) => ended.iter().filter(|(_, own)| own == most).map(|(first, _)| *first).collect(),
        None => some.to_vec(),
    }
}

/// Who ran something of a kind last before a moment, and where he went from its start until it was over, a quarter of a second
/// apart.
fn run(film: &Film, setup: &Setup, kind: ProgramKind, until_s: f32) -> Option<(usize, Vec<Vec2>)> {
    let started = film.events.iter().rev().filter(|event| event.time_s <= until_s);
    let (from_s, by) = started.into_iter().find_map(|event| match event.what {
        What::ProgramStart { by, program, .. }
            if setup.attack.programs[usize::from(program)].kind == kind =>
        {
            Some((event.time_s, usize::from(by)))
        }
        _ => None,
    })?;
    let is_end =
        |event: &&Event| matches!(event.what, What::ProgramEnd { by: own, .. } if usize::from(own) == by);
    let ended = film.events.iter().filter(|event| event.time_s > from_s).find(is_end);
    // What he does when the shot comes of it belongs to it; later he goes his ways.
    let until_s = ended.map_or(until_s, |event| min(until_s, event.time_s + SOON_S));
    let mut places: Vec<Vec2> = Vec::new();
    for frame in film.frames.iter().filter(|frame| (from_s..=until_s).contains(&frame.time_s)) {
        if frame.time_s >= from_s + BIN_S * places.len() as f32 {
            places.push(frame.players[by]);
        }
    }
    Some((by, places))
}

/// Whether its last shot was its end.
fn ends_by_shot(film: &Film) -> bool {
    ["made", "missed"].contains(&film.record.outcome.key())
}

fn still(film: &Film, choice: Choice) -> Option<Still> {
    let shot = film.events.iter().rev().find_map(|event| match event.what {
        What::Shot { by, .. } => Some((event.time_s, Some(usize::from(by)))),
        _ => None,
    });
    let (moment, time_s, holder) = match shot.filter(|_| ends_by_shot(film)) {
        Some((time_s, by)) => ("shot", time_s, by),
        None => {
            let end = film.frames.last()?;
            let held = film.frames.iter().rev().find(|frame| frame.holder.is_some()).unwrap_or(end);
            ("end", held.time_s, held.holder.map(usize::from))
        }
    };
    // The last frame not after the moment.
    let frame = film.frames.iter().rev().find(|frame| frame.time_s <= time_s).or(film.frames.first())?;
    let mut pass = None;
    for event in film.events.iter().take_while(|event| event.time_s <= time_s) {
        match event.what {
            What::Pass { from, .. } => pass = Some((usize::from(from), event.at)),
            What::Rebound { .. } | What::Pickup { .. } => pass = None,
            _ => {}
        }
    }
    Some(Still {
        choice,
        shows: None,
        is_mirrored: false,
        possession: film.record.possession,
        expected_net_points: film.record.real(Measure::ExpectedNetPoints),
        outcome: film.record.outcome.key(),
        moment,
        time_s: f64::from(frame.time_s),
        side: f64::from(film.side),
        holder,
        pass: pass.filter(|pass| Some(pass.0) != holder),
        run: None,
        players: frame.players,
        ball: frame.ball,
    })
}

/// One row of `films.csv`.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub(crate) struct FilmLine {
    variant: String,
    choice: &'static str,
    possession: u64,
    expected_net_points: Decimal,
    outcome: &'static str,
    moment: &'static str,
    time_s: Hundredths,
    rover_started: &'static str,
    who: String,
    has_ball: bool,
    x_m: Hundredths,
    y_m: Hundredths,
}

impl FileLine for FilmLine {
    const FILE: &'static str = "films.csv";
}

/// One row for each player, the ball and the last pass of each still of the variants that were filmed.
pub(crate) fn film_lines(
    variants: &[String],
    setups: &[Arc<Setup>],
    (filmed, stills): (&[usize], &[Vec<Still>]),
) -> impl Iterator<Item = FilmLine> {
    filmed.iter().zip(stills).flat_map(move |(&v, stills)| {
        stills.iter().flat_map(move |still| still_lines(&variants[v], &setups[v], still))
    })
}

fn still_lines(variant: &str, setup: &Setup, still: &Still) -> Vec<FilmLine> {
    let line = |who: String, has_ball: bool, at: Vec2| FilmLine {
        variant: variant.to_owned(),
        choice: still.choice.key(),
        possession: still.possession,
        expected_net_points: still.expected_net_points.into(),
        outcome: still.outcome,
        moment: still.moment,
        time_s: Hundredths(still.time_s),
        rover_started: if still.side > 0.0 { "right" } else { "left" },
        who,
        has_ball,
        x_m: at.x.into(),
        y_m: at.y.into(),
    };
    let players = still.players.iter().enumerate();
    let mut lines: Vec<FilmLine> = players
        .map(|(player, at)| line(player_name(setup, player), still.holder == Some(player), *at))
        .collect();
    lines.push(line("ball".into(), false, still.ball));
    lines.extend(still.pass.map(|(from, at)| line(format!("pass-from-{}", ATTACKERS[from]), false, at)));
    if let Some((by, places)) = &still.run {
        let name = format!("run-of-{}", ATTACKERS[*by]);
        lines.extend(places.iter().map(|at| line(name.clone(), false, *at)));
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_chosen_places_lie_inside_any_count() {
        assert_eq!(Choice::ALL.map(|choice| choice.place(256)), [230, 128, 25]);
        for count in 1..30 {
            assert!(Choice::ALL.iter().all(|choice| choice.place(count) < count), "{count}");
        }
    }
}
