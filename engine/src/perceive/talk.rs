//! Talk: a team-mate who sees an attacker tells a defender who does not, late and roughly.

use super::Scene;
use crate::law::conduct::attention::{
    SILENCE_LEAST, TALK_SPELL_S, TELLS_WITHIN_S, TOLD_AFTER_S, TOLD_VELOCITY_SHARE,
};
use crate::law::conduct::deciding::DECIDES_EVERY_S;
use crate::math::{ln, max};
use crate::random::{Purpose, Streams, chance_within};
use crate::setup::Head;
use crate::slots::{ATTACK, DEFENCE, Slot};
use crate::state::Minds;

/// Chance of a call between two decisions; the level's chance is for a spell of talking.
pub fn chance(head: &Head) -> f32 {
    let rate = -ln(max(1.0 - head.talk_chance, SILENCE_LEAST)) / TALK_SPELL_S;
    chance_within(rate, DECIDES_EVERY_S)
}

/// At each decision: one attacker, the one whom he lost longest ago, may be called out to him.
pub fn listen(scene: &Scene<'_>, slot: Slot, minds: &mut Minds, streams: &mut Streams, chance: f32) {
    let head = &scene.given.player(slot).head;
    let mut lost = (max(TOLD_AFTER_S, head.talk_delay_s), None);
    for other in ATTACK {
        let age = minds.0[slot].age[other];
        if age > lost.0 {
            lost = (age, Some(other));
        }
    }
    let (_, Some(whom)) = lost else { return };
    let mut freshest = (TELLS_WITHIN_S, None);
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
    mind.vx[whom] = vx * TOLD_VELOCITY_SHARE;
    mind.vy[whom] = vy * TOLD_VELOCITY_SHARE;
    mind.age[whom] = age + head.talk_delay_s;
}
