//! `runs.csv`: how often each route or option was started, carried through and fed, seen on films of the first
//! possessions.
//!
//! A possession *started* a route if anybody began it; it was *carried through* if it ended on its last leg; it was *fed*
//! if its runner caught the ball on it or just after. Each possession counts once for each.

use std::sync::Arc;

use engine::Arena;
use engine::film::{Event, Film, What};
use engine::law::catching::CREDIT_CATCHER_S;
use engine::setup::{ProgramKind, Setup};
use rayon::prelude::*;
use serde::{Deserialize, Serialize};

use super::ways::{Run, Way, run, way};
use crate::crash::{WORKER, caught};
use crate::error::Error;
use crate::output::FileLine;
use crate::wording::{TWENTY, per_twenty, program_kind};

/// How often something was run, in possessions.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Often {
    /// Possessions that were looked at.
    pub possessions: u64,
    /// Of these: it was begun.
    pub started: u64,
    /// It ended on its last leg.
    pub carried_through: u64,
    /// Its runner caught the ball on it, or just after.
    pub fed: u64,
}

impl Often {
    /// Whether it was carried through in half of the possessions or more: what is named as a reason has to be.
    pub fn is_usual(&self) -> bool {
        2 * self.carried_through >= self.possessions
    }

    /// Started, carried through and fed, each as [`in_twenty`] tells it.
    pub fn in_twenty(&self) -> [String; 3] {
        [self.started, self.carried_through, self.fed].map(|part| in_twenty(part, self.possessions))
    }

    fn add(&mut self, seen: &Seen, programs: u64) {
        let some = |mask: u64| u64::from(mask & programs != 0);
        self.possessions += 1;
        self.started += some(seen.started);
        self.carried_through += some(seen.carried);
        self.fed += some(seen.fed);
    }
}

/// In how many of 20 possessions something was so, as the other figures of a page: whole ones, but tenths where they would make
/// a few none or nearly all of them all.
pub fn in_twenty(part: u64, possessions: u64) -> String {
    let often = per_twenty(part as i64, possessions.max(1));
    let whole = often.round();
    let is_told_wrong = (whole == 0.0 && part > 0) || (whole == TWENTY && part < possessions);
    if is_told_wrong { format!("{often:.1}") } else { format!("{whole:.0}") }
}

/// What one variant ran.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Runs {
    /// By route or option: kind, name, how often.
    pub by_name: Vec<(ProgramKind, String, Often)>,
    /// All of a kind together, of the kinds that there are.
    pub by_kind: Vec<(ProgramKind, Often)>,
    /// The ways, the one that was begun most first.
    pub ways: Vec<Way>,
    /// Of each possession that was looked at, in their order.
    pub carried: Vec<Carried>,
}

/// What was carried through in one possession: a bit a program.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Carried {
    /// Its number.
    pub possession: u64,
    /// What ended on its last leg.
    pub through: u64,
    /// Of that, what the last shot came from: on its last leg, or just after.
    pub to_the_shot: u64,
    /// What brought its runner the ball.
    pub fed: u64,
}

/// A shot comes from a run that ended no longer ago than this, s. (assumed: a pass to the open man and his shot)
pub(super) const SOON_S: f32 = 2.5;

impl Runs {
    /// The ways that another's pass set off, of a name with several parts, or run by either of two, the one that is run most.
    pub fn set_off<'r>(&'r self, setup: &'r Setup) -> impl Iterator<Item = &'r Way> {
        let name = |way: &Way| &setup.attack.programs[way.program].name;
        let is_first =
            move |(nth, way): &(usize, &Way)| self.ways[..*nth].iter().all(|own| name(own) != name(way));
        let ways = self.ways.iter().enumerate().filter(|(_, way)| way.set_off.is_some());
        ways.filter(is_first).map(|(_, way)| way)
    }

    /// All of a kind together; None where there is none.
    pub fn of_kind(&self, kind: ProgramKind) -> Option<Often> {
        self.by_kind.iter().find(|(own, _)| *own == kind).map(|(_, often)| *often)
    }

    /// The possessions in which something of a kind was carried through, brought its runner the ball and led to the shot; those
    /// in which the shot came from it all the same; and all in which it was carried through.
    pub fn carried_through(&self, setup: &Setup, kind: ProgramKind) -> [Vec<u64>; 3] {
        let own = setup.attack.programs.iter().enumerate().filter(|(_, program)| program.kind == kind);
        let mask = own.fold(0, |mask, (nth, _)| mask | 1 << nth);
        let of = |bits: fn(&Carried) -> u64| {
            self.carried.iter().filter(|own| bits(own) & mask != 0).map(|own| own.possession).collect()
        };
        [of(|own| own.to_the_shot & own.fed), of(|own| own.to_the_shot), of(|own| own.through)]
    }
}

/// What each of some variants ran in its first possessions.
///
/// # Errors
/// No threads could be started.
pub fn runs(setups: &[Arc<Setup>], seed: u64, possessions: u64, threads: usize) -> Result<Vec<Runs>, Error> {
    let of = |setup: &Arc<Setup>| {
        if setup.attack.programs.is_empty() {
            return Ok(Runs::default());
        }
        Ok(gathered(setup, &watched(setup, (seed, possessions), threads, |film| seen(film, setup))?))
    };
    setups.iter().map(of).collect()
}

/// What is seen on the films of the first possessions, in their order.
///
/// # Errors
/// No threads could be started.
pub(crate) fn watched<T: Send>(
    setup: &Arc<Setup>,
    (seed, possessions): (u64, u64),
    threads: usize,
    look: impl Fn(&Film) -> T + Sync,
) -> Result<Vec<T>, Error> {
    let pool = rayon::ThreadPoolBuilder::new()
        .num_threads(threads)
        .thread_name(|_| WORKER.into())
        .build()
        .map_err(|error| Error::Threads(error.to_string()))?;
    // A possession that breaks down has been counted as a fault where it was played.
    let film = |arena: &mut Arena, possession| {
        let film = caught(|| look(&arena.film(setup, seed, possession)));
        film.inspect_err(|_| *arena = Arena::new(1)).ok()
    };
    let all: Vec<Option<T>> =
        pool.install(|| (0..possessions).into_par_iter().map_init(|| Arena::new(1), film).collect());
    Ok(all.into_iter().flatten().collect())
}

/// What was run in one possession: a bit a program, and where its runners went.
struct Seen {
    possession: u64,
    started: u64,
    carried: u64,
    /// What was carried through soon before the last shot.
    to_the_shot: u64,
    fed: u64,
    ways: Vec<Run>,
}

/// What a player is running, or ran last.
struct Running {
    program: usize,
    leg: usize,
    /// When its legs began, and at its end when that was, s.
    legs_s: Vec<f32>,
    ended_s: Option<f32>,
}

impl Running {
    /// When its last leg began, s.
    fn last_leg_s(&self) -> f32 {
        self.legs_s.get(self.leg).copied().unwrap_or_default()
    }
}

fn seen(film: &Film, setup: &Setup) -> Seen {
    let mut seen = Seen {
        possession: film.record.possession,
        started: 0,
        carried: 0,
        to_the_shot: 0,
        fed: 0,
        ways: Vec::new(),
    };
    let is_shot = |event: &&Event| matches!(event.what, What::Shot { .. });
    let shot_s = film.events.iter().rev().find(is_shot).map(|event| event.time_s);
    let mut running: [Option<Running>; 5] = Default::default();
    for Event { time_s, what, .. } in &film.events {
        match *what {
            What::ProgramStart { by, program, .. } => {
                let program = usize::from(program);
                seen.started |= 1 << program;
                running[by] = Some(Running { program, leg: 0, legs_s: vec![*time_s], ended_s: None });
            }
            What::ProgramStep { by, step, .. } => {
                for own in running[by].iter_mut().filter(|own| own.leg != usize::from(step)) {
                    own.leg = usize::from(step);
                    own.legs_s.push(*time_s);
                }
            }
            What::ProgramEnd { by, .. } => {
                let Some(own) = running[by].as_mut() else { continue };
                own.ended_s = Some(*time_s);
                own.legs_s.push(*time_s);
                if own.leg + 1 == setup.attack.programs[own.program].steps.len() {
                    seen.carried |= 1 << own.program;
                    let soon = |shot: f32| (own.last_leg_s()..=time_s + SOON_S).contains(&shot);
                    seen.to_the_shot |= u64::from(shot_s.is_some_and(soon)) << own.program;
                }
                seen.ways.push(run(film, setup, (own.program, usize::from(by)), &own.legs_s));
            }
            What::Catch { by, .. } => {
                let own = running.get(usize::from(by)).and_then(Option::as_ref);
                let is_fed = |own: &Running| own.ended_s.is_none_or(|end| time_s - end < CREDIT_CATCHER_S);
                if let Some(own) = own.filter(|own| is_fed(own)) {
                    seen.fed |= 1 << own.program;
                }
            }
            _ => {}
        }
    }
    seen
}

fn gathered(setup: &Setup, all: &[Seen]) -> Runs {
    let programs = &setup.attack.programs;
    let counted = |mask: u64| {
        let mut often = Often::default();
        all.iter().for_each(|seen| often.add(seen, mask));
        often
    };
    let mask =
        |own: &dyn Fn(usize) -> bool| (0..programs.len()).filter(|&p| own(p)).fold(0, |m, p| m | 1 << p);
    let mut runs = Runs::default();
    for program in programs {
        let (kind, name) = (program.kind, &program.name);
        if !runs.by_name.iter().any(|(other, own, _)| (*other, own) == (kind, name)) {
            let own = mask(&|p| (programs[p].kind, &programs[p].name) == (kind, name));
            runs.by_name.push((kind, name.clone(), counted(own)));
        }
        if runs.of_kind(kind).is_none() {
            runs.by_kind.push((kind, counted(mask(&|p| programs[p].kind == kind))));
        }
    }
    runs.ways = (0..programs.len()).filter_map(|program| usual(program, all)).collect();
    let carried = |seen: &Seen| Carried {
        possession: seen.possession,
        through: seen.carried,
        to_the_shot: seen.to_the_shot,
        fed: seen.fed,
    };
    runs.carried = all.iter().map(carried).collect();
    runs.ways.sort_by_key(|way| std::cmp::Reverse(way.runs));
    runs
}

/// The usual way of a program; None where it was never begun, or never lasted.
fn usual(program: usize, all: &[Seen]) -> Option<Way> {
    let own: Vec<&Run> =
        all.iter().flat_map(|seen| &seen.ways).filter(|run| run.program == program).collect();
    let begun = all.iter().filter(|seen| seen.started & (1 << program) != 0).count();
    way(program, &own, (begun, all.len()))
}

/// One row of `runs.csv`.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub(crate) struct RunLine {
    pub variant: String,
    pub name: String,
    pub kind: String,
    pub possessions: u64,
    pub started: u64,
    pub carried_through: u64,
    pub fed: u64,
}

impl FileLine for RunLine {
    const FILE: &'static str = "runs.csv";
}

/// One row for each variant and route or option.
pub(crate) fn run_lines(variants: &[String], runs: &[Runs]) -> impl Iterator<Item = RunLine> {
    variants.iter().zip(runs).flat_map(|(variant, runs)| {
        runs.by_name.iter().map(move |(kind, name, often)| {
            let Often { possessions, started, carried_through, fed } = *often;
            let (variant, name, kind) = (variant.clone(), name.clone(), program_kind(*kind).into());
            RunLine { variant, name, kind, possessions, started, carried_through, fed }
        })
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn of(route: &str) -> Runs {
        let question = scenarios::bundled_question().unwrap();
        let own = question.variants.iter().find(|variant| variant.name == route).unwrap();
        runs(std::slice::from_ref(&own.setup), 1, 48, 1).unwrap().remove(0)
    }

    #[test]
    fn a_route_is_started_more_often_than_carried_through_and_its_way_goes_where_it_says() {
        let crossing = of("seam-cross");
        let often = crossing.of_kind(ProgramKind::Route).unwrap();
        assert!(often.possessions == 48 && 2 * often.started >= 48, "{often:?}");
        assert!(often.carried_through < often.started && often.fed < often.started, "{often:?}");
        assert!(often.carried_through > 0 && often.fed > 0, "{often:?}");
        let way = crossing.ways.iter().find(|way| way.runner == 2).unwrap();
        let (first, last) = (way.places[0], *way.places.last().unwrap());
        assert!(first.0 > 3.0 && last.0 < 0.0, "from his wing to the other side: {first:?} to {last:?}");
        let shots = crossing.carried.iter().filter(|own| own.to_the_shot != 0).count();
        assert!(
            shots > 0 && crossing.carried.iter().all(|own| own.to_the_shot & !own.through == 0),
            "{shots}"
        );
        assert_eq!(of("hold-wing").of_kind(ProgramKind::Route), None, "there is nothing to run");
    }

    #[test]
    fn what_is_carried_through_in_fewer_than_half_of_the_possessions_is_no_reason() {
        let often = |carried_through| Often { possessions: 5, started: 4, carried_through, fed: 0 };
        assert_eq!([often(2).is_usual(), often(3).is_usual()], [false, true]);
        assert_eq!(often(2).in_twenty(), ["16", "8", "0"]);
        let told =
            [(1, 256), (253, 256), (256, 256), (46, 256), (0, 0)].map(|(part, of)| in_twenty(part, of));
        assert_eq!(told, ["0.1", "19.8", "20", "4", "0"], "some are not none, and nearly all are not all");
    }
}
