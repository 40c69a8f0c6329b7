//! The attacker with the ball: he weighs shot, drive, dribble, passes and waiting by expected points, from his beliefs.
//!
//! - [`candidate`]: the moment at which he thinks, and the shape of an option;
//! - one file an option, which says when it is one, what it is worth, what carrying it out does and when it ends:
//!   [`hold`], [`shoot`], [`drive`] (which ways there are, and who wins the race to the rim), [`dribble_at`], [`pass`];
//! - [`weigh`] and [`choose`]: noise, the best option, and what follows; [`taught`] and [`licence`]: what a plan makes of it;
//!   [`penalties`]: what lowers an option's worth in the choice where there is none;
//! - [`fakes`] that come before a shot, a drive or a pass, and [`closeout`], a defender who comes too fast.
//!
//! This file knows what he is doing with the ball at the moment, and whether he goes on with it or thinks anew. Where
//! one looks for what: the chance of a pass, `decide/value/pass.rs`; why a shot was preferred to a pass, `best` in
//! [`choose`]; why no drive was thought of, `refused` in [`drive`]; the numbers, `law/conduct/`.

mod candidate;
mod choose;
mod closeout;
mod dribble_at;
mod drive;
mod fakes;
mod hold;
mod licence;
mod pass;
mod penalties;
mod shoot;
mod taught;
mod weigh;

use crate::decide::View;
use crate::decide::draws::Draws;
use crate::decide::intent::Intent;
use crate::decide::shown::{Notes, Shown};
use crate::law::floor::{HIGH_POST, touch_class};
use crate::math::max;
use crate::setup::ProgramKind;
use crate::state::{Handling, Hold, Menu, Plan, Progress, Signal};
use choose::think;
use hold::stand;

/// What the ball-handler may change.
pub(crate) struct Hands<'a> {
    /// What others may learn: a fake that he shows.
    pub shown: Shown<'a>,
    /// What he does with the ball.
    pub hold: &'a mut Hold,
    /// How the ball has come to where it is.
    pub progress: &'a mut Progress,
    /// His home and his movement without the ball, which ends.
    pub plan: &'a mut Plan,
    /// Where he goes.
    pub intent: Intent<'a>,
    /// The options that he weighs.
    pub menu: &'a mut Menu,
    /// Draws of decision noise.
    pub draws: Draws<'a>,
    /// What the measures and the film are told.
    pub notes: Notes<'a>,
}

/// Decides for the player with the ball.
pub(crate) fn decide(view: &View<'_>, mut h: Hands<'_>) {
    let h = &mut h;
    stop_program(view, h);
    if closeout::comes_too_fast(view.mind, view.me.at) {
        h.hold.rushed_s = view.clock.now;
    }
    if hold::brings_up(view, h) {
        h.hold.brought_s = view.clock.now;
    }
    match h.hold.handling {
        Handling::Shooting(at_s) => shoot::go_up(view, h, at_s),
        Handling::Passing { to, kind, .. } => pass::bring_out(view, h, to, kind),
        Handling::Faking(until_s) if view.clock.now < until_s => stand(view, h),
        Handling::Faking(_) => {
            h.hold.handling = Handling::Hold;
            think(view, h);
        }
        Handling::Hold if view.clock.now < first_decision_s(view, h) => stand(view, h),
        Handling::Hold => think(view, h),
        Handling::DribbleAt(to) => {
            if !dribble_at::goes_on(view, h, to) {
                think(view, h);
            }
        }
        Handling::Drive(way) => {
            if !drive::goes_on(view, h, way) {
                think(view, h);
            }
        }
    }
}

/// With the ball in his hands he has no other movement to run; a route he takes up again once it has left him.
fn stop_program(view: &View<'_>, h: &mut Hands<'_>) {
    let runs = h.plan.program.and_then(|runs| view.given.setup.attack.programs.get(usize::from(runs)));
    if runs.is_some_and(|runs| runs.kind == ProgramKind::Route) {
        return;
    }
    let Some(program) = h.plan.program.take() else { return };
    h.notes.add(view.clock.now, view.me.at, Signal::ProgramEnd { by: view.me.slot, program });
    h.plan.last_program = Some(program);
    h.plan.last_s = view.clock.now;
    h.plan.arrived_s = f32::INFINITY;
}

/// When he is ready to decide after a catch, s.
fn first_decision_s(view: &View<'_>, h: &Hands<'_>) -> f32 {
    let head = &view.given.player(view.me.slot).head;
    let guard = view.me.slot.is_guard();
    let factor = if guard { view.given.setup.attack.habits.guard_hold_factor } else { 1.0 };
    // Who catches at the high post has his back to the rim: he faces up first.
    let inside = touch_class(&view.given.setup.court, h.progress.last_catch) & HIGH_POST != 0;
    let first = if inside { max(head.face_up_s, head.first_decision_s) } else { head.first_decision_s };
    h.hold.caught_s + first * factor
}

/// He puts the ball on the floor: a shot now takes a gather first.
fn put_on_floor(view: &View<'_>, hold: &mut Hold) {
    if hold.off_catch {
        // From a gather after the first dribble on he could stop and shoot at any moment.
        hold.ready_s = view.clock.now + view.given.player(view.me.slot).skill.gather_s;
    }
    hold.off_catch = false;
}
