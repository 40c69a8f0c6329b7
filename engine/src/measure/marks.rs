//! Counting by place: what a possession has to remember until it ends, and what a step adds at once.

use super::{Seen, millionths};
use crate::law::counting::SAME_TIME_S;
use crate::law::shot::{GOOD_LOOK_POINTS, worth};
use crate::math::Vec2;
use crate::measures::Measure as M;
use crate::record::Outcome;
use crate::record::TurnoverKind;
use crate::slots::{DEFENCE, ROVER};
use crate::state::Stress;
use crate::state::ends::{End, Ended};
use crate::state::places::{BIN_S, BINS, Cell, Mark, Places};
use crate::state::shots::{ShotKind, ShotPlace};
use crate::state::{BallState, Plans, Signal, Tally};

/// The cell of a place, the rover's starting side being +x.
fn cell(seen: &Seen<'_>, at: Vec2) -> Cell {
    Cell::of(at.sided(seen.side))
}

/// Takes in one signal, after the measures have counted it.
pub fn signal(seen: &Seen<'_>, at: Vec2, signal: Signal, tally: &mut Tally, places: &mut Places) {
    let marks = &mut tally.marks;
    match signal {
        Signal::Shot { by, metres, space_m, chance, three } => {
            let kind = ShotKind::of(at, metres, space_m, three);
            marks.kind = Some(kind);
            let count = places.shots_mut().of_mut(by, kind);
            count.attempted += 1;
            count.expected_millionths += millionths(f64::from(chance));
            marks.shot = cell(seen, at);
            marks.shot_points = chance * worth(three);
            marks.shooter = Some(by);
            marks.read = seen.progress.credit;
            places.add(Mark::Shot, marks.shot, 1);
            places.add(Mark::ShotPoints, marks.shot, millionths(f64::from(marks.shot_points)));
            // A shot may be the first moment at which a look was open.
            if tally.values[M::OpenLookAvailable as usize] != 0 && marks.open == Cell::NOWHERE {
                marks.open = marks.shot;
            }
        }
        Signal::Made { by, .. } => {
            if let Some(kind) = marks.kind {
                places.shots_mut().of_mut(by, kind).made += 1;
            }
        }
        Signal::FreeThrows { by, made, of, .. } => {
            (marks.line, marks.foul) = (Some(by), cell(seen, at));
            let line = f64::from(seen.given.player(by).skill.free_throw);
            let count = places.shots_mut().free_throws_mut(by);
            count.attempted += i64::from(of);
            count.made += i64::from(made);
            count.expected_millionths += millionths(f64::from(of) * line);
        }
        Signal::Pass { from, to, kind, .. } => {
            marks.pass = Some((from, to, kind));
            places.passes_mut((from, to, kind)).thrown += 1;
        }
        Signal::Catch { class: Some(_), .. } => {
            if let Some(pass) = marks.pass.take() {
                places.passes_mut(pass).completed += 1;
            }
        }
        Signal::Turnover { kind, .. } => {
            marks.lost = cell(seen, at);
            if let Some(pass) = marks.pass.take_if(|_| kind == TurnoverKind::Intercepted) {
                places.passes_mut(pass).taken += 1;
            }
        }
        Signal::ProgramStart { by, program } if by == ROVER => {
            (marks.route, marks.route_s, marks.route_bin) = (Some(program), seen.clocks.now, 0);
        }
        Signal::ProgramEnd { by, .. } if by == ROVER => marks.route = None,
        _ => {}
    }
}

/// Takes in one step, after the measures have counted it.
pub fn step(seen: &Seen<'_>, plans: &Plans, stress: Option<Stress>, tally: &mut Tally, places: &mut Places) {
    for (slot, mark) in DEFENCE.into_iter().zip(Mark::DEFENDERS) {
        places.add(mark, cell(seen, seen.bodies.at(slot)), 1);
    }
    if let Some(stress) = stress {
        let ball = cell(seen, seen.bodies.ball());
        places.add(Mark::StressSteps, ball, 1);
        places.add(Mark::FreeSteps, ball, i64::from(stress.late_s > 0.0));
        places.add_stand(ball, stands_um(seen));
        places.add(Mark::LatenessUs, ball, millionths(f64::from(stress.late_s)));
        places.add(Mark::LineGapUm, ball, millionths(f64::from(stress.line_gap_m)));
        if let Some(whom) = stress.late_for
            && stress.late_s > tally.marks.late_s
        {
            tally.marks.late_s = stress.late_s;
            tally.marks.late = cell(seen, seen.bodies.at(whom));
        }
    }
    if let BallState::Held { by } = seen.ball.state {
        let here = cell(seen, seen.bodies.at(by));
        for (measure, first) in
            [(M::OpenLookAvailable, &mut tally.marks.open), (M::PaintTouch, &mut tally.marks.paint)]
        {
            if tally.values[measure as usize] != 0 && *first == Cell::NOWHERE {
                *first = here;
            }
        }
    }
    route(seen, plans, tally, places);
}

/// Where the defenders are, micrometres, on the floor that is folded to the rover's side.
fn stands_um(seen: &Seen<'_>) -> [[i64; 2]; 5] {
    DEFENCE.map(|slot| {
        let at = seen.bodies.at(slot).sided(seen.side);
        [at.x, at.y].map(|metres| millionths(f64::from(metres)))
    })
}

/// Notes where the rover is on his route, folded to the side on which he was when it began.
fn route(seen: &Seen<'_>, plans: &Plans, tally: &mut Tally, places: &mut Places) {
    let (plan, marks) = (&plans.attack[ROVER], &mut tally.marks);
    let Some(route) = marks.route.filter(|_| plan.program == marks.route) else { return };
    let passed = seen.clocks.now - marks.route_s + SAME_TIME_S;
    while marks.route_bin < BINS && marks.route_bin as f32 * BIN_S <= passed {
        places.add_route(route, marks.route_bin, seen.bodies.at(ROVER).sided(plan.start_sign));
        marks.route_bin += 1;
    }
}

/// Takes in the end. A possession that broke down numerically has no place.
pub fn close(tally: &Tally, outcome: Outcome, places: &mut Places) {
    if outcome == Outcome::Fault {
        return;
    }
    let marks = &tally.marks;
    let happened = |measure: M| tally.values[measure as usize] != 0;
    let (shot, whole) = (millionths(f64::from(marks.shot_points)), tally.values[M::ExpectedPoints as usize]);
    for (measure, mark, cell, points) in [
        (M::OpenLookTaken, Mark::OpenLook, marks.shot, Some((Mark::OpenLookPoints, shot))),
        (M::OpenLookAvailable, Mark::OpenLookAvailable, marks.open, None),
        (M::GoodShotTaken, Mark::GoodShot, marks.shot, Some((Mark::GoodShotPoints, shot))),
        (M::PaintTouch, Mark::PaintTouch, marks.paint, Some((Mark::PaintPoints, whole))),
        (M::Turnover, Mark::Turnover, marks.lost, None),
    ] {
        if happened(measure) {
            places.add(mark, cell, 1);
            points.into_iter().for_each(|(mark, sum)| places.add(mark, cell, sum));
        }
    }
    if marks.late_s > 0.0 {
        places.add(Mark::PeakLate, marks.late, 1);
    }
    if let Some(ended) = ended(tally, outcome, places) {
        places.add_end(ended);
    }
    if happened(M::GoodLook) {
        good_look(tally, outcome, places);
    }
    if happened(M::OpenLookTaken)
        && let Some(shooter) = marks.shooter
    {
        places.add_look(marks.read, shooter);
    }
}

/// Counts the good look of a possession for him who took it: by his shot, where that ended it and was worth enough, or else by
/// the foul on one.
fn good_look(tally: &Tally, outcome: Outcome, places: &mut Places) {
    let marks = &tally.marks;
    let is_by_shot = matches!(outcome, Outcome::Made | Outcome::Missed) || tally.last_made;
    let (cell, points, who) = if is_by_shot && marks.shot_points >= GOOD_LOOK_POINTS[0] {
        (marks.shot, marks.shot_points, marks.shooter)
    } else {
        (marks.foul, tally.fouled_points, marks.line)
    };
    places.add(Mark::GoodLook, cell, 1);
    places.add(Mark::GoodLookPoints, cell, millionths(f64::from(points)));
    if let Some(who) = who {
        places.add_good_look(who);
    }
}

/// How a possession ended, as it is written down; `None` of one that ran out with nothing to write.
fn ended(tally: &Tally, outcome: Outcome, places: &Places) -> Option<Ended> {
    let marks = &tally.marks;
    let happened = |measure: M| tally.values[measure as usize] != 0;
    let kind = marks.kind.filter(|_| matches!(outcome, Outcome::Made | Outcome::Missed));
    let three = kind.is_some_and(|kind| matches!(kind.place, ShotPlace::CornerThree | ShotPlace::Three));
    let (end, who) = match outcome {
        Outcome::Made if three => (End::ThreeMade, marks.shooter),
        Outcome::Made => (End::TwoMade, marks.shooter),
        Outcome::Missed if three => (End::ThreeMissed, marks.shooter),
        Outcome::Missed => (End::TwoMissed, marks.shooter),
        Outcome::FreeThrows => (End::FreeThrows, marks.line),
        Outcome::Turnover => (End::Turnover, None),
        Outcome::Expired | Outcome::Fault => return None,
    };
    Some(Ended {
        end,
        who: who.map(|by| by.in_team()),
        spot: kind.and_then(|kind| places.spot(kind, marks.shot)),
        space: kind.map(|kind| kind.space),
        high_post: happened(M::HighPostTouch),
        low_post: happened(M::LowPostTouch),
    })
}
