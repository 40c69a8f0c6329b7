//! The ball in a player's hands: it goes with him; he may lose it; passes and shots leave on time.

use super::{Court, feet, pass, shot};
use crate::record::TurnoverKind;
use crate::slots::{DEFENCE, Slot};
use crate::state::Handling;

/// A dribble is lost this many times as easily as a held ball. (assumed)
const DRIBBLE_FACTOR: f32 = 2.0;

/// One step with the ball held by `by`.
pub fn step(c: &mut Court<'_>, by: Slot) {
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
    c.ball.height =
        if matches!(c.hold.handling, Handling::Drive(_) | Handling::DribbleAt(_)) { 0.6 } else { 1.2 };
    pressure(c, by);
}

/// A hand that reaches the ball wears the holder's luck down; when it is gone, so is the ball.
fn pressure(c: &mut Court<'_>, by: Slot) {
    let at = c.bodies.at(by);
    let mut taker = (f32::INFINITY, DEFENCE[0]);
    let mut hands = 0.0;
    for slot in DEFENCE {
        let d = c.bodies.at(slot).distance(at);
        if c.traits.arm[slot] > 0.0 && d < c.traits.arm[slot] + 0.25 {
            hands += 1.0;
            if d < taker.0 {
                taker = (d, slot);
            }
        }
    }
    if hands == 0.0 {
        return;
    }
    let dribbles = matches!(c.hold.handling, Handling::Drive(_)) || c.bodies.velocity(by).len2() > 1.0;
    let factor = if dribbles { DRIBBLE_FACTOR } else { 1.0 };
    let rate = c.given.setup.attackers.skill.handling_loss_per_s * factor * hands;
    c.hold.grip_left -= rate * c.given.setup.step_s;
    if c.hold.grip_left <= 0.0 {
        c.turnover(TurnoverKind::Handling, by);
    }
}
