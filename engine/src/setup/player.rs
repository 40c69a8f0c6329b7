//! What a team's players can do: one set of parameters a team (a level of play and its changes).
//!
//! Values live in the data files of `scenarios`, each with unit, range and source; none has a default here.

use super::GoingOn;

/// The parameters of one team. Individual players differ by the `*_spread` fields, drawn per possession.
#[derive(Clone, Debug, PartialEq)]
pub struct Team {
    /// Moving.
    pub body: Body,
    /// Seeing, remembering, deciding.
    pub head: Head,
    /// Ball skills.
    pub skill: Skill,
}

/// Movement and size.
#[derive(Clone, Debug, PartialEq)]
pub struct Body {
    /// Top sprint speed, m/s.
    pub sprint_m_s: f32,
    /// Standard deviation of top speed between team-mates, m/s.
    pub sprint_spread_m_s: f32,
    /// Time constant of the sprint, s.
    pub sprint_tau_s: f32,
    /// Sliding speed as a share of sprint speed.
    pub slide_share: f32,
    /// Time constant of the slide, s.
    pub slide_tau_s: f32,
    /// Back-pedalling speed as a share of sprint speed.
    pub backpedal_share: f32,
    /// Dribbling speed as a share of sprint speed.
    pub dribble_share: f32,
    /// Largest deceleration, m/s2.
    pub braking_m_s2: f32,
    /// Largest sideways acceleration, m/s2.
    pub lateral_m_s2: f32,
    /// Largest turning rate of the body, rad/s.
    pub turn_rad_s: f32,
    /// Torso radius for contact, m.
    pub radius_m: f32,
    /// Mass, kg.
    pub mass_kg: f32,
    /// Strength: multiplies the mass in contact, 1 = average.
    pub strength: f32,
    /// Effective mass factor of a body that is set and braced.
    pub brace_factor: f32,
    /// Friction between bodies.
    pub friction: f32,
    /// Standing reach (height of the raised hand), m.
    pub standing_reach_m: f32,
    /// Height gained by a jump at a ball in the air, m.
    pub jump_m: f32,
    /// Horizontal reach of a hand from the body's centre, standing, m.
    pub arm_reach_m: f32,
    /// The same with a lunge, m.
    pub lunge_reach_m: f32,
    /// Standard deviation of the reaches between team-mates, m.
    pub reach_spread_m: f32,
    /// Speed at which a hand goes out, m/s.
    pub hand_m_s: f32,
}

/// Sight, reaction, memory and choice.
#[derive(Clone, Debug, PartialEq)]
pub struct Head {
    /// Simple visual reaction, s.
    pub reaction_s: f32,
    /// Standard deviation of the reaction between team-mates, s.
    pub reaction_spread_s: f32,
    /// Extra delay for each doubling of the plausible targets of a pass, s.
    pub choice_s: f32,
    /// Cosine of the half angle of sharp sight.
    pub sharp_cos: f32,
    /// Cosine of the half angle of the whole field of view.
    pub whole_cos: f32,
    /// Chance a second of noticing a player in the outer field, 1/s.
    pub notice_per_s: f32,
    /// Time until the remembered position of an unseen player is useless, s.
    pub memory_s: f32,
    /// Growth of the error of a remembered position, m/s.
    pub memory_error_m_s: f32,
    /// Mean interval between looks away from the ball while a threat is unseen, s.
    pub glance_every_s: f32,
    /// Length of such a look, s.
    pub glance_s: f32,
    /// Chance that a team-mate who sees a player tells those who do not (within half a second).
    pub talk_chance: f32,
    /// Delay of what is told, s.
    pub talk_delay_s: f32,
    /// Standard deviation of a told position, m.
    pub talk_error_m: f32,
    /// Share of possessions in which the team shifts on the passer's release rather than on the catch, when only
    /// the taker goes with the pass.
    pub shift_on_release: f32,
    /// Chance of biting on the first credible pass fake.
    pub bite_chance: f32,
    /// Factor on that chance for each fake already seen in the possession.
    pub bite_decay: f32,
    /// Extra reaction after a fake that was bitten, s.
    pub bite_delay_s: f32,
    /// How far a defender moves on a fake that he bites on, m.
    pub bite_distance_m: f32,
    /// Decision noise: softmax temperature, points.
    pub temperature_points: f32,
    /// What a player holds against any shot from outside the lane while there is time for a better one, points: the
    /// standard that a team sets for an early shot.
    pub patience_points: f32,
    /// Hold before the first decision after a catch, s.
    pub first_decision_s: f32,
    /// The same after a catch at the high post, where he has to face up first, s.
    pub face_up_s: f32,
}

/// Ball skills.
#[derive(Clone, Debug, PartialEq)]
pub struct Skill {
    /// Make probability by class of shot.
    pub shot: ShotSkill,
    /// Standard deviation of shooting between team-mates, logit.
    pub shooting_spread: f32,
    /// Chance of making a free throw.
    pub free_throw: f32,
    /// Catch to release with the feet set: shortest and longest, s.
    pub catch_to_release_s: (f32, f32),
    /// Gather to release off the dribble, s.
    pub gather_s: f32,
    /// Passes by kind, in the order of [`PassKind`].
    pub pass: [PassSkill; PassKind::COUNT],
    /// Catch radius without cost, m.
    pub catch_easy_m: f32,
    /// Largest catch radius, m.
    pub catch_far_m: f32,
    /// Time that the poorest catch costs, s.
    pub poor_catch_s: f32,
    /// Chance that a hand in time takes the ball rather than tipping it.
    pub take_chance: f32,
    /// Rate of losing the ball with a defender's hands on it, 1/s.
    pub handling_loss_per_s: f32,
    /// Travelling and like losses a catch.
    pub travel_per_catch: f32,
    /// Attackers sent to the offensive glass, mean.
    pub crash: f32,
    /// What going on is worth to the attack.
    pub going_on: GoingOn,
}

/// How one player differs from his team's shooting, logit.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Shooter {
    /// Added to a two's.
    pub twos: f32,
    /// Added to a three's.
    pub threes: f32,
}

/// Logistic make probability: z = a + slope_d * (shot distance) + slope_space * min(nearest defender, 3.66 m).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ShotCurve {
    /// Intercept, logit (level shift included).
    pub a: f32,
    /// Slope on the shot's distance, logit a metre.
    pub distance: f32,
    /// Slope on the nearest defender's distance, logit a metre.
    pub space: f32,
}

/// The four classes of shot.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ShotSkill {
    /// Two-pointers inside 1.22 m (4 ft).
    pub rim: ShotCurve,
    /// Two-pointers from 1.22 m to 3.05 m (10 ft).
    pub short: ShotCurve,
    /// Two-pointers from beyond 3.05 m.
    pub mid: ShotCurve,
    /// Three-pointers.
    pub three: ShotCurve,
    /// Added to a three's logit when it is shot off the catch.
    pub three_catch: f32,
    /// Added to the logit of a post's three.
    pub post_three: f32,
}

/// The kinds of pass.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[repr(u8)]
pub enum PassKind {
    /// Two hands from the chest, flat.
    Chest,
    /// Off the floor.
    Bounce,
    /// Two hands above the head; the skip pass is one of these.
    Overhead,
    /// A high arc over a fronting defender.
    Lob,
}

impl PassKind {
    /// How many kinds there are.
    pub const COUNT: usize = 4;
    /// All kinds in order.
    pub const ALL: [PassKind; 4] = [PassKind::Chest, PassKind::Bounce, PassKind::Overhead, PassKind::Lob];
}

/// Speed, accuracy and height of one kind of pass.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PassSkill {
    /// Speed, m/s: of the release of a chest or overhead pass, mean along the floor of a bounce or lob.
    pub speed_m_s: f32,
    /// Standard deviation of the direction, radians.
    pub error_rad: f32,
    /// Time from the decision to the release, s.
    pub release_s: f32,
    /// Height at release, m.
    pub release_height_m: f32,
    /// Height at the catch, m.
    pub catch_height_m: f32,
}
