//! The ball in a player's hands: it goes with him; he may lose it; passes and shots leave on time.

use super::{Play, feet, pass, shot};
use crate::law::ball_height::{DRIBBLED_M, HELD_M};
use crate::law::handling::{BALL_HELD_OUT_M, LOSES_AS_DRIBBLER_FROM_M_S, wear_per_s};
use crate::record::TurnoverKind;
use crate::slots::{DEFENCE, Slot};
use crate::state::Handling;

/// One step with the ball held by `by`.
pub fn step(c: &mut Play<'_>, by: Slot) {
    let at = c.bodies.at(by);
    c.bodies.put_ball(at);
    let now = c.clocks.now;
    if feet::travels(c, by) {
        return c.turnover(TurnoverKind::Travel, by);
    }
    match c.hold.handling {
        Handling::Passing { to, kind, at_s, look_off } if at_s <= now => {
            return pass::release(c, by, to, kind, at_s, look_off);
        }
        // Carried under the board he does not let it go.
        Handling::Shooting(at_s) if at_s <= now && c.given.setup.court.behind_board(at) => {
            c.hold.handling = Handling::Hold;
        }
        Handling::Shooting(at_s) if at_s <= now => return shot::release(c, by, at_s),
        _ => {}
    }
    c.ball.height = if matches!(c.hold.handling, Handling::Drive(_) | Handling::DribbleAt(_)) {
        DRIBBLED_M
    } else {
        HELD_M
    };
    pressure(c, by);
}

/// Hands that reach the ball wear the holder's allowance down; when it is gone, so is the ball.
fn pressure(c: &mut Play<'_>, by: Slot) {
    let at = c.bodies.at(by);
    let mut hands = 0.0;
    for slot in DEFENCE {
        let arm = c.traits.arm[slot];
        if arm > 0.0 && c.bodies.at(slot).distance(at) < arm + BALL_HELD_OUT_M {
            hands += 1.0;
        }
    }
    if hands == 0.0 {
        return;
    }
    let dribbles = matches!(c.hold.handling, Handling::Drive(_))
        || c.bodies.velocity(by).len2() > LOSES_AS_DRIBBLER_FROM_M_S * LOSES_AS_DRIBBLER_FROM_M_S;
    let wear = wear_per_s(c.given.player(by).skill.handling_loss_per_s, dribbles, hands);
    c.allowance.grip_left -= wear * c.given.setup.step_s;
    if c.allowance.grip_left <= 0.0 {
        c.turnover(TurnoverKind::Handling, by);
    }
}
