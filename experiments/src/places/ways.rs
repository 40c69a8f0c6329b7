//! The way that the runner of a route or an option took, seen on films of the first possessions: the run that lies nearest to
//! all others, and some of the others. Kept in `ways.csv`.

use std::sync::Arc;

use engine::film::{Air, Film, Frame};
use engine::law::conduct::programs::BACK_OUT_X_M;
use engine::law::sealing;
use engine::math::Vec2;
use engine::places::{BIN_S, BINS};
use engine::setup::{Condition, Line, Locus, Program, ProgramKind, Setup, Step};
use serde::{Deserialize, Serialize};

use super::names::{ATTACKERS, defender_name, player_name, sideless};
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
    /// The first whom he screens or seals on the usual run.
    pub held: Option<Held>,
    /// In how many of the runs he had his body on somebody for that.
    pub held_in: usize,
    /// Where everyone is at the moment of the usual run that its words are about.
    pub scene: Option<Scene>,
    /// The pass of another that was on its way in most of the runs as they began: from whom, to whom (slots), and its share of
    /// all runs of this runner. None where no pass set off so many.
    pub set_off: Option<(usize, usize, f64)>,
    /// Whether that pass set off the usual run, too.
    pub is_set_off: bool,
    /// How long its runner is in the lane on the usual run until that is over, s: the longest time without leaving it, and all in
    /// all.
    pub in_lane_s: [f64; 2],
}

/// The moment of a run that is drawn.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Moment {
    /// Somebody passes.
    Passes,
    /// Its runner sets out.
    #[default]
    SetsOut,
    /// He has his body on the first whom he screens.
    Screens,
    /// The same of one whom he seals.
    Seals,
}

/// Where everyone is at a moment of a run, turned as the run is.
#[derive(Clone, Debug, PartialEq)]
pub struct Scene {
    /// Which moment that is.
    pub moment: Moment,
    /// When, since the run began, s.
    pub time_s: f64,
    /// Players (m): attackers, then defenders.
    pub players: [(f64, f64); 10],
    /// The ball, m.
    pub ball: (f64, f64),
    /// Who has it.
    pub holder: Option<usize>,
    /// Where and when the ball is caught from then on until the run is over, in order.
    pub catches: Vec<Caught>,
    /// +1 where the rover's side is on the right of the run as it is turned.
    pub side: f64,
}

/// A ball that is caught while a run goes on, turned as the run is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Caught {
    /// Where, m.
    pub at: (f64, f64),
    /// By whom, a slot.
    pub by: usize,
    /// When, since the run began, s.
    pub time_s: f64,
}

/// A defender whom a runner screens or seals.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Held {
    /// Position of the zone.
    pub position: usize,
    /// Whether it is a seal.
    pub is_seal: bool,
    /// Where the runner stands then (m), turned as the run is.
    pub from: (f64, f64),
    /// Where the defender stands.
    pub at: (f64, f64),
    /// When, since the run began, s.
    pub time_s: f64,
    /// +1 where the rover's side is on the right of the run as it is turned.
    pub side: f64,
}

impl Scene {
    /// A moment in a frame, its places turned by a sign, with nothing caught after it; `side`: +1 where the rover started on the right.
    pub fn of(frame: &Frame, moment: Moment, (turn, side): (f32, f32)) -> Self {
        let turned = |at: Vec2| (f64::from(turn * at.x), f64::from(at.y));
        Self {
            moment,
            time_s: 0.0,
            players: frame.players.map(turned),
            ball: turned(frame.ball),
            holder: frame.holder.map(usize::from),
            catches: Vec::new(),
            side: f64::from(turn * side),
        }
    }
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

    /// When its runner has arrived on the usual run, since he set out, s.
    pub fn led_s(&self) -> f64 {
        self.led().len().saturating_sub(1) as f64 * f64::from(BIN_S)
    }

    /// The places of the floor by which the usual run leads, without their sides.
    pub fn by(&self, setup: &Setup) -> impl Iterator<Item = String> {
        self.led().iter().map(|at| sideless(setup, Vec2 { x: at.0 as f32, y: at.1 as f32 }))
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
    held: Option<Held>,
    scene: Option<Scene>,
    set_off: Option<(usize, usize)>,
    /// Whether what its words say of the backs, and of whom he seals, still holds in its scene.
    is_as_told: bool,
    in_lane_s: [f64; 2],
}

/// How long somebody is in the lane, of his places, s: the longest time without leaving it, and all in all.
fn in_lane_s(places: &[Vec2], setup: &Setup) -> [f64; 2] {
    // Of so many places in a row he was in it for one step less.
    let stretches = || places.split(|at| !setup.court.in_lane(*at)).map(|own| own.len().saturating_sub(1));
    [stretches().max().unwrap_or(0), stretches().sum()].map(|steps| steps as f64 * f64::from(BIN_S))
}

/// Whether a leg is a screen or a seal.
fn is_hold(step: &Step) -> bool {
    matches!(step.to, Locus::Seal | Locus::Screen(..))
}

fn is_seal(step: &Step) -> bool {
    matches!(step.to, Locus::Seal)
}

/// Whether a program ends in a screen or a seal.
pub fn braces(program: &Program) -> bool {
    program.steps.last().is_some_and(is_hold)
}

/// A run of a program by somebody: `legs` are the times at which its legs began, then that of its end, s. One that ends in a screen
/// or a seal ends as he holds the first.
pub(super) fn run<'s>(film: &Film, setup: &'s Setup, (program, by): (usize, usize), legs: &[f32]) -> Run {
    let own = &setup.attack.programs[program];
    let (Some(&from_s), Some(&to_s)) = (legs.first(), legs.last()) else {
        return Run {
            program,
            runner: by,
            places: Vec::new(),
            held: None,
            scene: None,
            set_off: None,
            is_as_told: false,
            in_lane_s: [0.0; 2],
        };
    };
    // Of the frames of a leg in which he has his body on somebody who is not on the ball the one in the middle; or else of all.
    let braced = |(leg, span): (&'s Step, &[f32])| {
        let is_in = |frame: &&Frame| frame.braced[by] && (span[0]..=span[1]).contains(&frame.time_s);
        let is_held = |frame: &&Frame| {
            let on_ball = frame.holder.map(|holder| nearest(frame, usize::from(holder)));
            on_ball.is_some_and(|on_ball| on_ball != nearest(frame, by))
        };
        let all: Vec<&Frame> = film.frames.iter().filter(is_in).collect();
        let held: Vec<&Frame> = all.iter().copied().filter(is_held).collect();
        let own = if held.is_empty() { all } else { held };
        own.get(own.len() / 2).copied().filter(|_| is_hold(leg)).map(|frame| (leg, frame))
    };
    // The others are told in words: two moments are no picture.
    let held: Option<(&Step, &Frame)> = own.steps.iter().zip(legs.windows(2)).find_map(braced);
    let last = held.filter(|_| braces(own) && legs.len() > own.steps.len());
    let ends_s = last.map_or(to_s, |(_, frame)| frame.time_s);
    // Whom he holds he holds on, though the picture ends there.
    let in_lane_s = in_lane_s(&places(film, by, (from_s - setup.step_s / 2.0, to_s)), setup);
    let mut places = places(film, by, (from_s - setup.step_s / 2.0, ends_s));
    let turn = turn(&places, (own.kind == ProgramKind::Set).then_some(film.side));
    places.iter_mut().for_each(|at| at.x *= turn);
    let begins = film.frames.iter().find(|frame| frame.time_s >= from_s - setup.step_s / 2.0);
    // What the words of a screen or a seal name is there as he holds, and not yet as he sets out.
    let moment = match last {
        None => Moment::SetsOut,
        Some((leg, _)) if is_seal(leg) => Moment::Seals,
        Some(_) => Moment::Screens,
    };
    let set_off = begins.and_then(|frame| match frame.air {
        Some(Air::Pass { from, to, .. }) if usize::from(from) != by => {
            Some((usize::from(from), usize::from(to)))
        }
        _ => None,
    });
    let scene = last.map(|(_, frame)| frame).or(begins);
    let is_as_told = scene.is_some_and(|frame| {
        (!own.when.contains(&Condition::BackOut) || is_back_out(frame, setup))
            && (moment != Moment::Seals || is_helper_sealed(frame, setup, by))
    });
    let scene = scene.map(|frame| scene_of(film, (frame, moment), (turn, [from_s, to_s])));
    let held = held.map(|(leg, frame)| hold((leg, frame), by, (turn, film.side), from_s));
    Run { program, runner: by, places, held, scene, set_off, is_as_told, in_lane_s }
}

/// Where everyone is in a frame, and where the ball is caught from then on until the run is over; `span`: from when to when it goes, s.
fn scene_of(film: &Film, (frame, moment): (&Frame, Moment), (turn, span): (f32, [f32; 2])) -> Scene {
    let turned = |at: Vec2| (f64::from(turn * at.x), f64::from(at.y));
    let later = film.frames.iter().filter(|own| own.time_s > frame.time_s && own.time_s <= span[1]);
    let mut catches: Vec<Caught> = Vec::new();
    let mut holder = frame.holder;
    for own in later.filter(|own| own.holder.is_some()) {
        if let Some(by) = own.holder.filter(|_| holder != own.holder) {
            let time_s = f64::from(own.time_s - span[0]);
            catches.push(Caught { at: turned(own.ball), by: usize::from(by), time_s });
        }
        holder = own.holder;
    }
    let time_s = f64::from(frame.time_s - span[0]);
    Scene { time_s, catches, ..Scene::of(frame, moment, (turn, film.side)) }
}

/// Whom a runner holds in a frame: the defender nearest to him.
fn hold((leg, frame): (&Step, &Frame), by: usize, (turn, side): (f32, f32), from_s: f32) -> Held {
    let position = nearest(frame, by);
    let turned = |at: Vec2| (f64::from(turn * at.x), f64::from(at.y));
    Held {
        position,
        is_seal: is_seal(leg),
        from: turned(frame.players[by]),
        at: turned(frame.players[TEAM + position]),
        time_s: f64::from(frame.time_s - from_s),
        side: f64::from(turn * side),
    }
}

/// Whether a back has come out on the ball's side, as the condition of a program has it.
fn is_back_out(frame: &Frame, setup: &Setup) -> bool {
    let sign = if frame.ball.x < 0.0 { -1.0 } else { 1.0 };
    let all = setup.zone.positions.iter().zip(&frame.players[TEAM..]);
    all.filter(|(position, _)| position.line == Line::Back).any(|(_, at)| at.x * sign > BACK_OUT_X_M)
}

/// Whether the defender whom a post has in touch is the one whom he seals, while somebody holds the ball.
fn is_helper_sealed(frame: &Frame, setup: &Setup, by: usize) -> bool {
    let wanted = sealing::wanted(setup.attack.formation[by], frame.ball);
    let helper = sealing::helper(frame.players[TEAM..].iter().copied(), wanted, frame.ball);
    frame.holder.is_some() && helper.map(|(position, _)| position) == Some(nearest(frame, by))
}

/// The position of the defender who is nearest to an attacker.
fn nearest(frame: &Frame, by: usize) -> usize {
    let gap = |position: usize| frame.players[TEAM + position].distance(frame.players[by]);
    (0..TEAM).min_by(|a, b| gap(*a).total_cmp(&gap(*b))).unwrap_or_default()
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

/// The usual way of a program, of all its runs: of those that the pass began which began most, and that are as their words have them,
/// where there are such, the one that lies nearest to all others; `begun`: in how many possessions, of how many. None where it was never begun, or
/// never lasted.
pub(super) fn way(program: usize, own: &[&Run], begun: (usize, usize)) -> Option<Way> {
    let runner = (0..5).rev().max_by_key(|&slot| own.iter().filter(|run| run.runner == slot).count())?;
    // Screens and seals are shown by a run that had them, whole.
    let holds_any = own.iter().any(|run| run.held.is_some());
    let is_whole = |run: &&Run| run.scene.as_ref().is_some_and(|scene| scene.moment != Moment::SetsOut);
    let holds = own.iter().copied().any(|run| is_whole(&run));
    let is_alike =
        |run: &&Run| run.held.is_some() == holds_any && (!holds || is_whole(run)) && !run.places.is_empty();
    let alike: Vec<&Run> = own.iter().copied().filter(is_alike).collect();
    // The shorter half broke off, or began late.
    let mut lengths: Vec<usize> = alike.iter().map(|run| run.places.len()).collect();
    lengths.sort_unstable();
    let middle = *lengths.get(lengths.len() / 2)?;
    let whole = alike.into_iter().filter(|run| run.places.len() >= middle);
    let whole: Vec<&Run> = whole.take(COMPARED).collect();
    // What the words name is to be seen, if it ever is; the pass that is told before what is told of a scene.
    let set_off = set_off(own, runner);
    let is_set_off = |run: &Run| set_off.is_none_or(|(from, to, _)| run.set_off == Some((from, to)));
    let wishes: [&dyn Fn(&Run) -> bool; 2] = [&is_set_off, &|run| run.is_as_told];
    let mut candidates = whole.clone();
    for wish in wishes {
        if candidates.iter().any(|run| wish(run)) {
            candidates.retain(|run| wish(run));
        }
    }
    let away = candidates.into_iter().map(|run| (away(run, &whole), run));
    let (_, usual) = away.min_by(|a, b| a.0.total_cmp(&b.0))?;
    let metres = |run: &Run| run.places.iter().map(|at| (f64::from(at.x), f64::from(at.y))).collect();
    let rest: Vec<&&Run> = whole.iter().filter(|run| !std::ptr::eq(**run, usual)).collect();
    let others = rest.iter().step_by(rest.len().div_ceil(BESIDE).max(1)).map(|run| metres(run)).collect();
    let places: Vec<(f64, f64)> = metres(usual);
    let (runs, held) = (own.len(), usual.held);
    let held_in = own.iter().filter(|run| run.held.is_some()).count();
    let scene = usual.scene.clone();
    let in_lane_s = usual.in_lane_s;
    let is_set_off = set_off.is_some() && is_set_off(usual);
    (places.len() > 1 || held.is_some()).then_some(Way {
        program,
        runner,
        runs,
        begun,
        places,
        others,
        held,
        held_in,
        scene,
        set_off,
        is_set_off,
        in_lane_s,
    })
}

/// Other runs that are shown beside the usual one, at most. (assumed: more of them are a knot)
const BESIDE: usize = 6;

/// A pass that set off a smaller share of the runs is not told. (a choice)
const SET_OFF_SHARE: f64 = 0.5;

/// The pass between two others that set off most runs of a runner, if it set off many.
fn set_off(own: &[&Run], runner: usize) -> Option<(usize, usize, f64)> {
    let own: Vec<&Run> = own.iter().copied().filter(|run| run.runner == runner).collect();
    let pairs = (0..TEAM).flat_map(|from| (0..TEAM).map(move |to| (from, to)));
    let pairs = pairs.filter(|(from, to)| *from != runner && *to != runner);
    let counted = pairs.map(|pair| (pair, own.iter().filter(|run| run.set_off == Some(pair)).count()));
    let ((from, to), count) = counted.max_by_key(|(_, count)| *count)?;
    let share = count as f64 / own.len().max(1) as f64;
    (share >= SET_OFF_SHARE).then_some((from, to, share))
}

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
/// where the defenders stand whom the usual run screens and seals, where all others and the ball are as it begins or as the first of
/// them is held, and where the ball is caught from then on.
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
    lines.extend(way.held.as_ref().map(held));
    if let Some(scene) = &way.scene {
        let others = scene.players.iter().enumerate().filter(|(player, _)| *player != way.runner);
        lines.extend(others.map(|(player, at)| line(1, player_name(setup, player), scene.time_s, *at)));
        lines.push(line(1, "ball".into(), scene.time_s, scene.ball));
        lines.extend(scene.catches.iter().map(|own| line(1, "ball".into(), own.time_s, own.at)));
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
