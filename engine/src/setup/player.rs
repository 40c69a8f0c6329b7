//! What a team's players can do: one set of parameters a team (a level of play and its changes).
//!
//! Values live in the data files of `scenarios`, each with unit, range and source; none has a default here.

use super::Continuation;
use super::parameter::{Parameter, parameters};

/// The parameters of one team, or of one player who has his own. Players differ by the `*_spread` fields besides, drawn per
/// possession.
#[derive(Clone, Debug, PartialEq)]
pub struct Team {
    /// Moving.
    pub body: Body,
    /// Seeing, remembering, deciding.
    pub head: Head,
    /// Ball skills.
    pub skill: Skill,
}

parameters! {
    /// Movement and size.
    #[derive(Clone, Debug, PartialEq)]
    pub struct Body {
        // The ranges hold people: the fastest top speed measured in a sprint over 100 m is 12.4 m/s (from memory).
        /// Top sprint speed.
        sprint_m_s: f32 = "m/s", 1.0 to 12.5;
        // This spread and the others are standard deviations.
        /// Spread of it between team-mates.
        sprint_spread_m_s: f32 = "m/s", 0.0 to 1.0;
        // Measured ones are 0.9 to 1.25 s (levels); a push of 2.5 times the body's weight would give 0.3 s.
        /// Time constant of the sprint.
        sprint_tau_s: f32 = "s", 0.3 to 3.0;
        /// Sliding speed as a share of sprint speed.
        slide_share: f32 = "", 0.1 to 1.0;
        /// Time constant of the slide.
        slide_tau_s: f32 = "s", 0.1 to 3.0;
        /// Back-pedalling speed as a share.
        backpedal_share: f32 = "", 0.1 to 1.0;
        /// Dribbling speed as a share.
        dribble_share: f32 = "", 0.1 to 1.0;
        // A shoe holds the floor with about the body's weight: 10 m/s2 (from memory).
        /// Largest deceleration.
        braking_m_s2: f32 = "m/s2", 2.0 to 10.0;
        /// Largest sideways acceleration.
        lateral_m_s2: f32 = "m/s2", 2.0 to 10.0;
        // Three whole turns a second: a fast pirouette (from memory).
        /// Largest turning rate of the body.
        turn_rad_s: f32 = "rad/s", 0.5 to 20.0;
        /// Torso radius for contact.
        radius_m: f32 = "m", 0.1 to 0.35;
        /// Mass.
        mass_kg: f32 = "kg", 30.0 to 180.0;
        /// Multiplies the mass in contact; 1 is average.
        strength: f32 = "", 0.2 to 5.0;
        /// Effective mass factor of a set, braced body.
        brace_factor: f32 = "", 1.0 to 5.0;
        /// Friction between bodies.
        friction: f32 = "", 0.0 to 2.0;
        /// Height of the raised hand.
        standing_reach_m: f32 = "m", 1.5 to 3.2;
        /// Height gained by a jump at a ball in the air.
        jump_m: f32 = "m", 0.0 to 1.3;
        // The longest arms span 2.6 m (from memory); none: a team whose hands reach nothing.
        /// Reach of a hand from the body's centre, standing.
        arm_reach_m: f32 = "m", 0.0 to 1.3;
        /// Reach of a hand from the body's centre, with a lunge.
        lunge_reach_m: f32 = "m", 0.0 to 2.2;
        /// Spread of reaches between team-mates.
        reach_spread_m: f32 = "m", 0.0 to 0.3;
        // A boxer's straight is about 10 m/s (from memory).
        /// Speed at which a hand goes out.
        hand_m_s: f32 = "m/s", 0.5 to 15.0;
    }
}

parameters! {
    /// Sight, reaction, memory and choice.
    #[derive(Clone, Debug, PartialEq)]
    pub struct Head {
        /// Sharp sight, to either side of the gaze.
        sharp_cos: f32 = "degrees", 1.0 to 180.0, cosine of sharp_deg;
        /// Whole field of view, to either side of the gaze.
        whole_cos: f32 = "degrees", 1.0 to 180.0, cosine of whole_deg;
        /// Simple visual reaction.
        reaction_s: f32 = "s", 0.0 to 2.0;
        /// Spread of it between team-mates.
        reaction_spread_s: f32 = "s", 0.0 to 0.5;
        /// Extra delay for each doubling of a pass's plausible targets.
        choice_s: f32 = "s", 0.0 to 1.0;
        /// Chance a second of noticing a player in the outer field.
        notice_per_s: f32 = "1/s", 0.0 to 100.0;
        /// Time until the remembered place of an unseen player is useless.
        memory_s: f32 = "s", 0.0 to 60.0;
        /// Growth of the error of a remembered place.
        memory_error_m_s: f32 = "m/s", 0.0 to 10.0;
        // While a threat is unseen.
        /// Mean interval between looks away from the ball.
        glance_every_s: f32 = "s", 0.1 to 60.0;
        /// Length of such a look.
        glance_s: f32 = "s", 0.0 to 2.0;
        // Within half a second, to those who do not see it.
        /// Chance that a team-mate tells what he sees.
        talk_chance: f32 = "", 0.0 to 1.0;
        /// Delay of what is told.
        talk_delay_s: f32 = "s", 0.0 to 3.0;
        /// Error of a told place.
        talk_error_m: f32 = "m", 0.0 to 5.0;
        /// Share of possessions in which the team shifts on the release; else only the on-ball defender goes with a pass.
        shift_on_release: f32 = "", 0.0 to 1.0;
        /// Chance of biting on the first credible pass fake.
        bite_chance: f32 = "", 0.0 to 1.0;
        /// Factor on that chance for each fake seen.
        bite_decay: f32 = "", 0.0 to 1.0;
        /// Extra reaction after a fake that was bitten.
        bite_delay_s: f32 = "s", 0.0 to 2.0;
        /// How far a defender moves on such a fake.
        bite_distance_m: f32 = "m", 0.0 to 3.0;
        // The temperature of a softmax.
        /// Decision noise.
        temperature_points: f32 = "points", 0.001 to 5.0;
        // While there is time for a better one: the standard that a team sets.
        /// What a player holds against an early shot from outside.
        patience_points: f32 = "points", 0.0 to 1.0;
        /// Hold before the first decision after a catch.
        first_decision_s: f32 = "s", 0.0 to 3.0;
        // He has to face up first.
        /// The same after a catch at the high post.
        face_up_s: f32 = "s", 0.0 to 3.0;
    }
}

/// Catch to release with the feet set: the shortest, and the longest. The field holds both.
pub const CATCH_TO_RELEASE: [Parameter; 2] = [
    Parameter {
        name: "catch_to_release_least_s",
        unit: "s",
        low: 0.1,
        high: 3.0,
        doc: "Catch to release, feet set: shortest.",
        whole: false,
    },
    Parameter {
        name: "catch_to_release_most_s",
        unit: "s",
        low: 0.1,
        high: 3.0,
        doc: "Catch to release, feet set: longest.",
        whole: false,
    },
];

parameters! {
    /// Ball skills.
    #[derive(Clone, Debug, PartialEq)]
    pub struct Skill {
        /// Spread of shooting between team-mates.
        shooting_spread: f32 = "logit", 0.0 to 2.0;
        /// Chance of making a free throw.
        free_throw: f32 = "", 0.0 to 1.0;
        /// Gather to release off the dribble.
        gather_s: f32 = "s", 0.0 to 3.0;
        /// Catch radius without cost.
        catch_easy_m: f32 = "m", 0.0 to 2.0;
        /// Largest catch radius.
        catch_far_m: f32 = "m", 0.0 to 3.0;
        /// Time that the poorest catch costs.
        poor_catch_s: f32 = "s", 0.0 to 2.0;
        // Rather than tipping it.
        /// Chance that a hand in time takes the ball.
        take_chance: f32 = "", 0.0 to 1.0;
        /// Rate of losing the ball under pressure.
        handling_loss_per_s: f32 = "1/s", 0.0 to 1.0;
        /// Travelling and like losses a catch.
        travel_per_catch: f32 = "", 0.0 to 0.5;
        /// Attackers sent to the offensive glass, mean.
        crash: f32 = "players", 0.0 to 5.0;
    }
    /// The skills that have tables of their own.
    with SkillTables {
        /// Make probability by class of shot.
        shot: ShotSkill,
        /// Catch to release with the feet set: shortest and longest, s ([`CATCH_TO_RELEASE`]).
        catch_to_release_s: (f32, f32),
        /// Passes by kind, in the order of [`PassKind`].
        pass: [PassSkill; PassKind::COUNT],
        /// The continuation value: what going on with the possession is worth.
        continuation: Continuation,
    }
}

/// Classes of shot, each with a curve of its own.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[repr(u8)]
pub enum ShotClass {
    /// Two-pointers inside 1.22 m (4 ft).
    Rim,
    /// Two-pointers from 1.22 m to 3.05 m (10 ft).
    Short,
    /// Two-pointers from beyond 3.05 m.
    Mid,
    /// Three-pointers.
    Three,
}

/// How many classes of shot there are.
pub const SHOT_CLASSES: usize = 4;

/// How one player differs from his team's shooting: added to a shot's logit, by [`ShotClass`].
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Shooter(pub [f32; SHOT_CLASSES]);

parameters! {
    /// Logistic make probability: z = a + slope_d * (shot distance) + slope_space * min(nearest defender, 3.66 m).
    #[derive(Clone, Copy, Debug, PartialEq)]
    pub struct ShotCurve {
        /// Intercept, level shift included.
        a: f32 = "logit", -6.0 to 6.0;
        /// Slope on the shot's distance.
        distance: f32 = "logit/m", -3.0 to 0.5;
        /// Slope on the nearest defender's distance.
        space: f32 = "logit/m", 0.0 to 3.0;
    }
}

parameters! {
    /// The four classes of shot.
    #[derive(Clone, Copy, Debug, PartialEq)]
    pub struct ShotSkill {
        /// Added to the logit of a post's three.
        post_three: f32 = "logit", -3.0 to 1.0;
        /// Added to a three's logit off the catch.
        three_catch: f32 = "logit", -1.0 to 1.0;
    }
    /// The curve of each class.
    with ShotCurves {
        /// Two-pointers inside 1.22 m (4 ft).
        rim: ShotCurve,
        /// Two-pointers from 1.22 m to 3.05 m (10 ft).
        short: ShotCurve,
        /// Two-pointers from beyond 3.05 m.
        mid: ShotCurve,
        /// Three-pointers.
        three: ShotCurve,
    }
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

parameters! {
    /// Speed, accuracy and height of one kind of pass.
    #[derive(Clone, Copy, Debug, PartialEq)]
    pub struct PassSkill {
        /// At the release; of a bounce or a lob the mean along the floor.
        speed_m_s: f32 = "m/s", 2.0 to 25.0;
        /// Spread of the direction.
        error_rad: f32 = "degrees", 0.0 to 20.0, radians of error_deg;
        /// From the decision to the release.
        release_s: f32 = "s", 0.0 to 2.0;
        /// Height at release.
        release_height_m: f32 = "m", 0.3 to 3.0;
        /// Height at the catch.
        catch_height_m: f32 = "m", 0.3 to 3.5;
    }
}
