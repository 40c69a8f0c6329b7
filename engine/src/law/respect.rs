//! Respect: how much room the zone leaves each attacker, by how well he is known to shoot.

use crate::math::clamp;
use crate::setup::{Licence, Setup, ShotClass};
use crate::slots::{ATTACK, POSTS};

/// At full respect he is given this much more room for each logit that he shoots worse than his team, m.
/// (assumed)
const M_PER_LOGIT: f32 = 1.5;
/// What the shooting of a man is taken for who may not shoot from outside, logit. (assumed)
const NO_SHOOTER_LOGIT: f32 = -3.0;
/// A good shooter is given this much less room than usual at most, m. (assumed)
const LEAST_ROOM_M: f32 = -0.3;
/// A poor shooter is given this much more room than usual at most, m. (assumed)
const MOST_ROOM_M: f32 = 1.8;

/// Extra room for each attacker, m: all 0 where the zone makes no difference, or there is none.
pub fn slack_m(setup: &Setup) -> [f32; 5] {
    let mut shooting = setup.attack.role_shooting;
    let team = shooting.iter().fold(0.0, |sum, own| sum + own) / shooting.len() as f32;
    // Posts who cannot shoot from outside make no shooter of a guard who cannot: the team is judged without it.
    for post in POSTS {
        shooting[post] += setup.attackers.skill.shot.post_three;
    }
    // Whose threes are known is judged by them, and who shoots none is no shooter.
    for slot in ATTACK {
        if let Some(own) = setup.individuals[slot].as_ref().filter(|_| !setup.limits.shooting_unknown) {
            let known = own.shooting[ShotClass::Three as usize].unwrap_or(shooting[slot]);
            let shoots = matches!(own.licence, Licence::AnyGood | Licence::OpenOnly);
            shooting[slot] = if shoots { known } else { NO_SHOOTER_LOGIT };
        }
    }
    shooting.map(|own| clamp((team - own) * setup.zone.respect * M_PER_LOGIT, LEAST_ROOM_M, MOST_ROOM_M))
}
