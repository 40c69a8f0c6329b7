//! Talk: a team-mate who sees an attacker tells a defender who does not, late and roughly.

use super::Scene;
use crate::math::{ln, max};
use crate::random::{Purpose, Streams, chance_within};
use crate::setup::Head;
use crate::slots::{ATTACK, DEFENCE, Slot};
use crate::state::Minds;

/// Chance of a call in a tenth of a second; the stated chance is for half a second of talking.
pub fn chance(head: &Head) -> f32 {
    let rate = -ln(max(1.0 - head.talk_chance, 1e-3)) / 0.5;
    chance_within(rate, 0.1)
}

/// Ten times a second: one attacker, the one whom he lost longest ago, may be called out to him.
pub fn listen(scene: &Scene<'_>, slot: Slot, minds: &mut Minds, streams: &mut Streams, chance: f32) {
    let head = &scene.given.team(slot).head;
    let mut lost = (max(0.6, head.talk_delay_s), None);
    for other in ATTACK {
        let age = minds.0[slot].age[other];
        if age > lost.0 {
            lost = (age, Some(other));
        }
    }
    let (_, Some(whom)) = lost else { return };
    let mut freshest = (0.35, None);
    for mate in DEFENCE {
        let age = minds.0[mate].age[whom];
        if mate != slot && age < freshest.0 {
            freshest = (age, Some(mate));
        }
    }
    let (age, Some(mate)) = freshest else { return };
    if !streams.coin(slot, Purpose::Talk, chance) {
        return;
    }
    let error_x = streams.normal(slot, Purpose::TalkError) * head.talk_error_m * scene.side;
    let error_y = streams.normal(slot, Purpose::TalkError) * head.talk_error_m;
    let (x, y, vx, vy) = {
        let teller = &minds.0[mate];
        (teller.x[whom], teller.y[whom], teller.vx[whom], teller.vy[whom])
    };
    let mind = &mut minds.0[slot];
    mind.x[whom] = x + error_x;
    mind.y[whom] = y + error_y;
    mind.vx[whom] = vx * 0.5;
    mind.vy[whom] = vy * 0.5;
    mind.age[whom] = age + head.talk_delay_s;
}
