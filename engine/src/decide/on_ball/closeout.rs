//! A closeout attacked: a defender who comes out too fast cannot stop, and may leave his feet for a shot shown.
//!
//! The man with the ball sees him come (his beliefs). A shown shot costs its time; who is near, sees it and bites
//! (the level's chance, less with each fake seen) is out of the play for as long as a jump takes. What then
//! follows, a shot, the drive past him or the extra pass, is weighed like everything else.

use super::Hands;
use crate::decide::View;
use crate::math::{Vec2, max};
use crate::slots::DEFENCE;
use crate::state::{Belief, Handling, News, Signal};

/// A defender within this distance who runs at the ball at this speed comes too fast, m and m/s. (assumed)
const RUSH_M: f32 = 3.2;
const RUSH_M_S: f32 = 2.8;
/// How long a shown shot takes, and the ball's way back up to a shot, s. (assumed)
const SHOW_S: f32 = 0.35;
const UP_AGAIN_S: f32 = 0.35;

/// Whether he sees a defender come at him too fast.
pub(super) fn rushed(mind: &Belief, here: Vec2) -> bool {
    DEFENCE.into_iter().any(|slot| {
        let way = here - mind.at(slot);
        let far = way.len();
        far < RUSH_M && mind.velocity(slot).dot(way) > RUSH_M_S * far
    })
}

/// Shows a shot, if he means to and somebody comes at him.
pub(super) fn show_shot(view: &View<'_>, h: &mut Hands<'_>) -> bool {
    let here = view.me.at;
    if !h.hold.leave.shot_fake || !h.hold.off_catch || !rushed(view.mind, here) {
        return false;
    }
    h.hold.leave.shot_fake = false;
    h.hold.handling = Handling::Faking(view.clock.now + SHOW_S);
    h.hold.ready_s = max(h.hold.ready_s, view.clock.now + SHOW_S + UP_AGAIN_S);
    h.board.post(view.clock.now, News::Fake { to: view.me.slot });
    let shown = Signal::Fake { by: view.me.slot, toward: view.me.slot, bitten: 0 };
    h.signals.say(view.clock.now, here, shown);
    true
}
