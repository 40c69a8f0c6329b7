//! `films.csv`: which possessions are worth a film, chosen by rule, and where everyone was at the decisive moment.
//!
//! The rule: a variant's first possessions (at most 256) in order of their expected net points, equals by number;
//! the ones one tenth, one half and nine tenths of the way along are its poor, its typical and its good one. The typical one
//! is taken from those in which the variant's route or option was carried through, where there are enough of them: a picture
//! of it shows what it is of.

use std::sync::Arc;

use engine::film::{Film, What};
use engine::math::Vec2;
use engine::setup::Setup;
use engine::{Arena, Measure};
use serde::Serialize;

use super::names::{ATTACKERS, player_name};
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

/// The decisive moment of a chosen possession.
#[derive(Clone, Debug, PartialEq)]
pub struct Still {
    /// Which one it is.
    pub choice: Choice,
    /// Whether the variant's route or option was carried through in it, as the choice asked for.
    pub is_as_run: bool,
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
    /// Players, m: attackers, then defenders.
    pub players: [Vec2; 10],
    /// The ball, m.
    pub ball: Vec2,
}

/// Of fewer possessions none is typical.
const FEWEST: usize = 8;

/// The possession of a variant to be filmed by a rule, with its decisive moment; `None` if it cannot be played. `carried`
/// are those in which its route or option was carried through.
pub fn chosen(
    (first, carried): (&[First], &[u64]),
    (variant, setup): (usize, &Arc<Setup>),
    seed: u64,
    choice: Choice,
) -> Option<(Still, Film)> {
    let mut own: Vec<&First> = first.iter().filter(|first| first.variant == variant).collect();
    let as_run = own.iter().copied().filter(|first| carried.contains(&first.possession));
    let as_run: Vec<&First> = as_run.collect();
    let is_as_run = choice == Choice::Typical && as_run.len() >= FEWEST;
    if is_as_run {
        own = as_run;
    }
    let possession = own.get(choice.place(own.len()))?.possession;
    let film = caught(|| Arena::new(1).film(setup, seed, possession)).ok()?;
    let still = still(&film, choice)?;
    Some((Still { is_as_run, ..still }, film))
}

fn still(film: &Film, choice: Choice) -> Option<Still> {
    let shot = film.events.iter().rev().find_map(|event| match event.what {
        What::Shot { by, .. } => Some((event.time_s, Some(usize::from(by)))),
        _ => None,
    });
    let ends_by_shot = ["made", "missed"].contains(&film.record.outcome.key());
    let (moment, time_s, holder) = match shot.filter(|_| ends_by_shot) {
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
        is_as_run: false,
        possession: film.record.possession,
        expected_net_points: film.record.real(Measure::ExpectedNetPoints),
        outcome: film.record.outcome.key(),
        moment,
        time_s: f64::from(frame.time_s),
        side: f64::from(film.side),
        holder,
        pass: pass.filter(|pass| Some(pass.0) != holder),
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
