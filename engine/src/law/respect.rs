//! Respect: how much room the zone leaves each attacker, by how well he is known to shoot.

use crate::math::clamp;
use crate::setup::Setup;
use crate::slots::POSTS;

/// At full respect he is given this much more room for each logit that he shoots worse than his team, m.
/// (assumed)
const M_PER_LOGIT: f32 = 1.5;
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
    shooting.map(|own| clamp((team - own) * setup.zone.respect * M_PER_LOGIT, LEAST_ROOM_M, MOST_ROOM_M))
}
