//! Fakes: a pass shown before another one is thrown, and a shot shown before a shot or a drive.
//!
//! A fake costs its time. Who sees a shown pass, or is near a shown shot, and bites (the level's chance, less with each fake seen) goes the wrong
//! way or leaves his feet. What then follows, a shot, a drive or a pass, is weighed like everything else.

use super::Hands;
use super::closeout::comes_too_fast;
use super::hold::stand;
use crate::decide::View;
use crate::law::conduct::fakes::{FAKE_AWAY_FROM_RECEIVER_M, PASS_FAKE_S, SHOWN_SHOT_S, UP_AGAIN_S};
use crate::math::max;
use crate::slots::{ATTACK, Slot};
use crate::state::{BallEvent, Handling, Signal};

/// Shows a shot, if he means to and somebody comes at him too fast; true where he does.
pub(super) fn show_shot(view: &View<'_>, h: &mut Hands<'_>) -> bool {
    let here = view.me.at;
    if !h.hold.leave.shot_fake || !h.hold.off_catch || is_forced(h) || !comes_too_fast(view.mind, here) {
        return false;
    }
    h.hold.leave.shot_fake = false;
    h.hold.handling = Handling::Faking(view.clock.now + SHOWN_SHOT_S);
    h.hold.ready_s = max(h.hold.ready_s, view.clock.now + SHOWN_SHOT_S + UP_AGAIN_S);
    show(view, h, view.me.slot);
    true
}

/// Shows a pass to the team-mate farthest from the one who is to get it, if he means to; true where he does.
pub(super) fn show_pass(view: &View<'_>, h: &mut Hands<'_>, to: Slot) -> bool {
    if h.hold.leave.pass_fakes == 0 || is_forced(h) {
        return false;
    }
    let Some(other) = farthest_from(view, to) else { return false };
    h.hold.leave.pass_fakes -= 1;
    h.hold.handling = Handling::Faking(view.clock.now + PASS_FAKE_S);
    show(view, h, other);
    stand(view, h);
    true
}

/// Whether he carries out a look that is forced: as it is, without a fake after which he would think anew.
fn is_forced(h: &Hands<'_>) -> bool {
    h.hold.forces && h.progress.forced
}

/// The team-mate farthest from a receiver, where one is far enough for a fake to mislead.
fn farthest_from(view: &View<'_>, receiver: Slot) -> Option<Slot> {
    let real = view.mind.at(receiver);
    let mut best = (FAKE_AWAY_FROM_RECEIVER_M, None);
    for other in ATTACK {
        if other == view.me.slot || other == receiver {
            continue;
        }
        let off = (view.mind.at(other) - real).len();
        if off > best.0 {
            best = (off, Some(other));
        }
    }
    best.1
}

/// Lets everybody see it: a pass toward a team-mate, or a shot (toward himself).
fn show(view: &View<'_>, h: &mut Hands<'_>, toward: Slot) {
    h.shown.post(view.clock.now, BallEvent::Fake { to: toward });
    let shown = Signal::Fake { by: view.me.slot, toward, bitten: 0 };
    h.notes.add(view.clock.now, view.me.at, shown);
}
