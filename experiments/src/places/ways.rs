//! The way that the runner of a route or an option took, seen on films of the first possessions: the run that lies nearest to
//! all others, and some of the others. Kept in `ways.csv`.

use std::sync::Arc;

use engine::film::{Film, Frame};
use engine::math::Vec2;
use engine::places::{BIN_S, BINS};
use engine::setup::{Locus, Program, ProgramKind, Setup, Step};
use serde::{Deserialize, Serialize};

use super::names::{ATTACKERS, defender_name, player_name};
use crate::marks::gap;
use crate::output::{Decimal, FileLine, Hundredths};
use crate::wording::program_kind;

/// The way that the runner of a program took.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Way {
    /// By index into the attack's programs.
    pub program: usize,
    /// Slot of who ran it most.
    pub runner: usize,
    /// How often it was begun in all.
    pub runs: usize,
    /// In how many possessions it was begun, and how many were looked at.
    pub begun: (usize, usize),
    /// The places (m), a quarter of a second apart, of the run that lies nearest to all others, turned to the side on which
    /// he began. A mean of runs to the left and to the right would go where nobody went.
    pub places: Vec<(f64, f64)>,
    /// Some of the other runs, in the order of their possessions.
    pub others: Vec<Vec<(f64, f64)>>,
    /// Whom he screens and seals on the usual run, in this order.
    pub held: Vec<Held>,
    /// In how many of the runs he had his body on somebody for that.
    pub held_in: usize,
    /// Where everyone is as the usual run begins.
    pub scene: Option<Scene>,
}

/// Where everyone is as a run begins, turned as the run is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Scene {
    /// Players (m): attackers, then defenders.
    pub players: [(f64, f64); 10],
    /// The ball, m.
    pub ball: (f64, f64),
    /// Who has it.
    pub holder: Option<usize>,
    /// +1 where the rover's side is on the right of the run as it is turned.
    pub side: f64,
}

/// A defender whom a runner screens or seals.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Held {
    /// Position of the zone.
    pub position: usize,
    /// Where the runner stands then (m), turned as the run is.
    pub from: (f64, f64),
    /// Where the defender stands.
    pub at: (f64, f64),
    /// When, since the run began, s.
    pub time_s: f64,
    /// +1 where the rover's side is on the right of the run as it is turned.
    pub side: f64,
}

impl Way {
    /// The places of the usual run up to where he has arrived: from there on he stands about.
    pub fn led(&self) -> &[(f64, f64)] {
        let stands = |nth: &usize| {
            let (here, later) = (self.places[*nth], &self.places[nth + 1..]);
            let is_slow = later.first().is_none_or(|next| gap(here, *next) < SLOW_M);
            is_slow && later.iter().all(|at| gap(here, *at) < ABOUT_M)
        };
        let arrived = (1..self.places.len()).find(stands);
        &self.places[..arrived.map_or(self.places.len(), |nth| nth + 1)]
    }

    /// The longest time that its runner is in the lane without leaving it on the usual run, s.
    pub fn longest_in_lane_s(&self, setup: &Setup) -> f64 {
        let is_in = |at: &(f64, f64)| setup.court.in_lane(Vec2 { x: at.0 as f32, y: at.1 as f32 });
        let stretches = self.places.split(|at| !is_in(at));
        // Of so many places in a row he was in it for one step less.
        let longest = stretches.map(|own| own.len().saturating_sub(1)).max().unwrap_or(0);
        longest as f64 * f64::from(BIN_S)
    }

    /// Which of the programs of its name it is, from 1, and how many there are.
    pub fn part(&self, setup: &Setup) -> (usize, usize) {
        let programs = &setup.attack.programs;
        let name = |nth: usize| (programs[nth].kind, &programs[nth].name);
        let alike = |until: usize| (0..until).filter(|nth| name(*nth) == name(self.program)).count();
        (alike(self.program + 1), alike(programs.len()))
    }
}

/// Who goes no farther in a quarter of a second, and stays within so much of where he is, has arrived, m. (assumed)
const SLOW_M: f64 = 0.35;
const ABOUT_M: f64 = 1.2;

/// One run of a program.
pub(super) struct Run {
    pub program: usize,
    runner: usize,
    places: Vec<Vec2>,
    held: Vec<Held>,
    scene: Option<Scene>,
}

/// Whether a leg is a screen or a seal.
fn is_hold(step: &Step) -> bool {
    matches!(step.to, Locus::Seal | Locus::Screen(..))
}

/// Whether a program ends in a screen or a seal.
pub fn braces(program: &Program) -> bool {
    program.steps.last().is_some_and(is_hold)
}

/// A run of a program by somebody: `legs` are the times at which its legs began, then that of its end, s. One that ends in a screen
/// or a seal ends where he last holds it.
pub(super) fn run(film: &Film, setup: &Setup, (program, by): (usize, usize), legs: &[f32]) -> Run {
    let own = &setup.attack.programs[program];
    let (Some(&from_s), Some(&to_s)) = (legs.first(), legs.last()) else {
        return Run { program, runner: by, places: Vec::new(), held: Vec::new(), scene: None };
    };
    // The last frame of a leg in which he has his body on somebody.
    let braced = |(leg, span): (&Step, &[f32])| {
        let is_in = |frame: &&Frame| frame.braced[by] && (span[0]..=span[1]).contains(&frame.time_s);
        film.frames.iter().rev().find(is_in).filter(|_| is_hold(leg))
    };
    let held: Vec<&Frame> = own.steps.iter().zip(legs.windows(2)).filter_map(braced).collect();
    let last = held.last().filter(|_| braces(own) && legs.len() > own.steps.len());
    let mut places = places(film, by, (from_s - setup.step_s / 2.0, last.map_or(to_s, |frame| frame.time_s)));
    let turn = turn(&places, (own.kind == ProgramKind::Set).then_some(film.side));
    let held = held.into_iter().map(|frame| hold(frame, by, (turn, film.side), from_s)).collect();
    places.iter_mut().for_each(|at| at.x *= turn);
    let begins = film.frames.iter().find(|frame| frame.time_s >= from_s - setup.step_s / 2.0);
    let scene = begins.map(|frame| scene(frame, (turn, film.side)));
    Run { program, runner: by, places, held, scene }
}

/// Where everyone is in a frame.
fn scene(frame: &Frame, (turn, side): (f32, f32)) -> Scene {
    let turned = |at: Vec2| (f64::from(turn * at.x), f64::from(at.y));
    Scene {
        players: core::array::from_fn(|player| turned(frame.players[player])),
        ball: turned(frame.ball),
        holder: frame.holder.map(usize::from),
        side: f64::from(turn * side),
    }
}

/// Whom a runner holds in a frame: the defender nearest to him.
fn hold(frame: &Frame, by: usize, (turn, side): (f32, f32), from_s: f32) -> Held {
    let gap = |position: usize| frame.players[TEAM + position].distance(frame.players[by]);
    let position = (0..TEAM).min_by(|a, b| gap(*a).total_cmp(&gap(*b))).unwrap_or_default();
    let turned = |at: Vec2| (f64::from(turn * at.x), f64::from(at.y));
    Held {
        position,
        from: turned(frame.players[by]),
        at: turned(frame.players[TEAM + position]),
        time_s: f64::from(frame.time_s - from_s),
        side: f64::from(turn * side),
    }
}

/// Players of a team: attackers have the first slots.
const TEAM: usize = ATTACKERS.len();

/// Where a runner was in a span of time, a quarter of a second apart.
fn places(film: &Film, by: usize, (from_s, to_s): (f32, f32)) -> Vec<Vec2> {
    let mut places: Vec<Vec2> = Vec::new();
    for frame in film.frames.iter().filter(|frame| frame.time_s <= to_s) {
        if places.len() < BINS && frame.time_s >= from_s + BIN_S * places.len() as f32 {
            places.push(frame.players[by]);
        }
    }
    places
}

/// The sign that turns places to a side, or to the one on which they begin.
fn turn(places: &[Vec2], side: Option<f32>) -> f32 {
    side.unwrap_or_else(|| places.first().map_or(1.0, |at| if at.x < 0.0 { -1.0 } else { 1.0 }))
}

/// Runs that are held against one another, at most. (assumed: more of them move no line)
const COMPARED: usize = 64;

/// The usual way of a program, of all its runs; `begun`: in how many possessions, of how many. None where it was never begun, or
/// never lasted.
pub(super) fn way(program: usize, own: &[&Run], begun: (usize, usize)) -> Option<Way> {
    let runner = (0..5).rev().max_by_key(|&slot| own.iter().filter(|run| run.runner == slot).count())?;
    // The shorter half broke off, or began late.
    let mut lengths: Vec<usize> = own.iter().map(|run| run.places.len()).collect();
    lengths.sort_unstable();
    let middle = *lengths.get(lengths.len() / 2)?;
    let whole = own.iter().copied().filter(|run| run.places.len() >= middle);
    let whole: Vec<&Run> = whole.take(COMPARED).collect();
    // Screens and seals are shown by a run that had them.
    let held_most = whole.iter().map(|run| run.held.len()).max()?;
    let candidates = whole.iter().copied().filter(|run| run.held.len() == held_most);
    let away = candidates.map(|run| (away(run, &whole), run));
    let (_, usual) = away.min_by(|a, b| a.0.total_cmp(&b.0))?;
    let metres = |run: &Run| run.places.iter().map(|at| (f64::from(at.x), f64::from(at.y))).collect();
    let rest: Vec<&&Run> = whole.iter().filter(|run| !std::ptr::eq(**run, usual)).collect();
    let others = rest.iter().step_by(rest.len().div_ceil(BESIDE).max(1)).map(|run| metres(run)).collect();
    let places: Vec<(f64, f64)> = metres(usual);
    let (runs, held) = (own.len(), usual.held.clone());
    let held_in = own.iter().filter(|run| !run.held.is_empty()).count();
    let scene = usual.scene;
    (places.len() > 1).then_some(Way { program, runner, runs, begun, places, others, held, held_in, scene })
}

/// Other runs that are shown beside the usual one, at most. (assumed: more of them are a knot)
const BESIDE: usize = 6;

/// How far a run lies from others, all in all; where one is over, its last place counts.
fn away(run: &Run, others: &[&Run]) -> f32 {
    let gap = |other: &Run| -> f32 {
        let bins = run.places.len().max(other.places.len());
        let at = |places: &[Vec2], bin: usize| places[bin.min(places.len() - 1)];
        (0..bins).map(|bin| at(&run.places, bin).distance(at(&other.places, bin))).sum::<f32>() / bins as f32
    };
    others.iter().map(|other| gap(other)).sum()
}

/// One row of `ways.csv`.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub(crate) struct WayLine {
    variant: String,
    kind: String,
    name: String,
    program: usize,
    run: usize,
    who: String,
    time_s: Hundredths,
    x_m: Decimal,
    y_m: Decimal,
}

impl FileLine for WayLine {
    const FILE: &'static str = "ways.csv";
}

/// A row for each variant, program, run and time: the usual run of each program first, then the others that are drawn; then
/// where the defenders stand whom the usual run screens and seals, and where all others and the ball are as it begins.
pub(crate) fn way_lines(
    variants: &[String],
    setups: &[Arc<Setup>],
    ways: &[&[Way]],
) -> impl Iterator<Item = WayLine> {
    variants
        .iter()
        .zip(setups)
        .zip(ways)
        .flat_map(|((variant, setup), ways)| ways.iter().flat_map(move |way| lines_of(variant, setup, way)))
}

fn lines_of(variant: &str, setup: &Setup, way: &Way) -> Vec<WayLine> {
    let program = &setup.attack.programs[way.program];
    let line = |run: usize, who: String, time_s: f64, at: (f64, f64)| WayLine {
        variant: variant.to_owned(),
        kind: program_kind(program.kind).into(),
        name: program.name.clone(),
        program: way.part(setup).0,
        run,
        who,
        time_s: Hundredths(time_s),
        x_m: at.0.into(),
        y_m: at.1.into(),
    };
    let all = std::iter::once(&way.places).chain(&way.others).enumerate();
    let runner = || ATTACKERS[way.runner].to_owned();
    let of = |(run, places): (usize, &Vec<(f64, f64)>)| -> Vec<WayLine> {
        let time_s = |bin: usize| bin as f64 * f64::from(BIN_S);
        places.iter().enumerate().map(|(bin, at)| line(run + 1, runner(), time_s(bin), *at)).collect()
    };
    let mut lines: Vec<WayLine> = all.flat_map(of).collect();
    let held = |held: &Held| line(1, defender_name(&setup.zone, held.position), held.time_s, held.at);
    lines.extend(way.held.iter().map(held));
    if let Some(scene) = &way.scene {
        let others = scene.players.iter().enumerate().filter(|(player, _)| *player != way.runner);
        lines.extend(others.map(|(player, at)| line(1, player_name(setup, player), 0.0, *at)));
        lines.push(line(1, "ball".into(), 0.0, scene.ball));
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_way_leads_to_where_its_runner_arrives_and_not_to_where_he_stands_about() {
        let run = |last: &[(f64, f64)]| {
            let places = (0..8).map(|nth| (5.0 - f64::from(nth), 3.0)).chain(last.iter().copied()).collect();
            Way { places, ..Way::default() }
        };
        let about = run(&[(-2.4, 3.0), (-2.5, 3.1), (-2.2, 3.3), (-1.9, 3.6)]);
        assert_eq!(about.led().last(), Some(&(-2.4, 3.0)), "{:?}", about.led());
        // Who goes on has not arrived, however slowly he went for a moment.
        let goes_on = run(&[(-2.1, 3.0), (-2.2, 3.5), (-2.2, 5.0), (-2.2, 6.5)]);
        assert_eq!(goes_on.led().len(), goes_on.places.len());
        assert!(Way::default().led().is_empty());
    }
}
