//! Levels of play: every parameter of a team, each a table of value, plausible range and source, with a
//! scenario's own values laid over them.

use engine::setup::{Body, GoingOn, Head, PassSkill, ShotCurve, ShotSkill, Skill, Team};

use crate::key::Key;
use crate::read::Reader;
use crate::schema::worth;
use crate::source::{Desk, Named};

/// One table of a level's file with the scenario's table of the same name over it.
pub(crate) struct Layers<'d> {
    over: Option<Reader<'d>>,
    level: Option<Reader<'d>>,
}

impl<'d> Layers<'d> {
    /// A level's file under a scenario's table.
    pub fn new(over: Option<Reader<'d>>, level: Option<Reader<'d>>) -> Layers<'d> {
        Layers { over, level }
    }

    /// The scenario's value, or else the level's.
    pub fn number(&self, key: Key) -> f32 {
        let level = self.level.as_ref().map(|level| level.sourced(key));
        let over = self.over.as_ref().and_then(|over| over.maybe_number_over(key));
        over.or(level).unwrap_or(key.low as f32)
    }

    /// The file that the scenario names, or else the level.
    fn file(&self, key: Key, folder: &'static str) -> Option<Named> {
        let level = self.level.as_ref().and_then(|level| level.file(key, folder));
        let over = self.over.as_ref().and_then(|over| over.maybe_file(key, folder));
        over.or(level)
    }

    /// A nested table.
    pub fn part(&self, name: &'static str, doc: &'static str) -> Layers<'d> {
        let key = Key::other(name, doc);
        Layers {
            over: self.over.as_ref().and_then(|over| over.maybe_table(key)),
            level: self.level.as_ref().and_then(|level| level.table(key)),
        }
    }

    /// A fault where the first number is larger than the second.
    fn ordered(&self, small: (Key, f32), large: (Key, f32)) {
        if small.1 <= large.1 {
            return;
        }
        for reader in [&self.over, &self.level].into_iter().flatten() {
            let own = |key: Key| reader.node().get(key.name).map(|entry| &entry.node);
            if let Some((key, node)) = own(small.0)
                .map_or_else(|| own(large.0).map(|node| (large.0, node)), |node| Some((small.0, node)))
            {
                let allowed = format!("{} at most {}", small.0.name, large.0.name);
                reader.refuse(key, node, allowed, None);
                return;
            }
        }
    }
}

const fn n(name: &'static str, unit: &'static str, low: f64, high: f64, doc: &'static str) -> Key {
    Key::number(name, unit, low, high, doc)
}

/// A team from its level and the scenario's changes.
pub(crate) fn team(desk: &Desk, layers: &Layers<'_>) -> Team {
    Team {
        body: body(&layers.part("body", "Moving and size.")),
        head: head(&layers.part("head", "Sight, reaction, memory and choice.")),
        skill: skill(desk, &layers.part("skill", "Ball skills.")),
    }
}

fn body(t: &Layers<'_>) -> Body {
    let arm = n("arm_reach_m", "m", 0.0, 2.0, "Reach of a hand from the body's centre, standing.");
    let lunge = n("lunge_reach_m", "m", 0.0, 3.0, "Reach of a hand from the body's centre, with a lunge.");
    let body = Body {
        sprint_m_s: t.number(n("sprint_m_s", "m/s", 1.0, 100.0, "Top sprint speed.")),
        sprint_spread_m_s: t.number(n(
            "sprint_spread_m_s",
            "m/s",
            0.0,
            2.0,
            "Spread of it between team-mates.",
        )),
        sprint_tau_s: t.number(n("sprint_tau_s", "s", 0.01, 3.0, "Time constant of the sprint.")),
        slide_share: t.number(n("slide_share", "", 0.1, 1.0, "Sliding speed as a share of sprint speed.")),
        slide_tau_s: t.number(n("slide_tau_s", "s", 0.01, 3.0, "Time constant of the slide.")),
        backpedal_share: t.number(n("backpedal_share", "", 0.1, 1.0, "Back-pedalling speed as a share.")),
        dribble_share: t.number(n("dribble_share", "", 0.1, 1.0, "Dribbling speed as a share.")),
        braking_m_s2: t.number(n("braking_m_s2", "m/s2", 1.0, 1000.0, "Largest deceleration.")),
        lateral_m_s2: t.number(n("lateral_m_s2", "m/s2", 1.0, 1000.0, "Largest sideways acceleration.")),
        turn_rad_s: t.number(n("turn_rad_s", "rad/s", 0.5, 1000.0, "Largest turning rate of the body.")),
        radius_m: t.number(n("radius_m", "m", 0.1, 0.5, "Torso radius for contact.")),
        mass_kg: t.number(n("mass_kg", "kg", 30.0, 180.0, "Mass.")),
        strength: t.number(n("strength", "", 0.2, 5.0, "Multiplies the mass in contact; 1 is average.")),
        brace_factor: t.number(n(
            "brace_factor",
            "",
            1.0,
            5.0,
            "Effective mass factor of a set, braced body.",
        )),
        friction: t.number(n("friction", "", 0.0, 2.0, "Friction between bodies.")),
        standing_reach_m: t.number(n("standing_reach_m", "m", 1.5, 3.2, "Height of the raised hand.")),
        jump_m: t.number(n("jump_m", "m", 0.0, 1.5, "Height gained by a jump at a ball in the air.")),
        arm_reach_m: t.number(arm),
        lunge_reach_m: t.number(lunge),
        reach_spread_m: t.number(n("reach_spread_m", "m", 0.0, 0.5, "Spread of reaches between team-mates.")),
        hand_m_s: t.number(n("hand_m_s", "m/s", 0.5, 50.0, "Speed at which a hand goes out.")),
    };
    t.ordered((arm, body.arm_reach_m), (lunge, body.lunge_reach_m));
    body
}

fn head(t: &Layers<'_>) -> Head {
    let sharp = n("sharp_deg", "degrees", 1.0, 180.0, "Sharp sight, to either side of the gaze.");
    let whole = n("whole_deg", "degrees", 1.0, 180.0, "Whole field of view, to either side of the gaze.");
    let (sharp_deg, whole_deg) = (t.number(sharp), t.number(whole));
    t.ordered((sharp, sharp_deg), (whole, whole_deg));
    Head {
        reaction_s: t.number(n("reaction_s", "s", 0.0, 2.0, "Simple visual reaction.")),
        reaction_spread_s: t.number(n(
            "reaction_spread_s",
            "s",
            0.0,
            0.5,
            "Spread of it between team-mates.",
        )),
        choice_s: t.number(n(
            "choice_s",
            "s",
            0.0,
            1.0,
            "Extra delay for each doubling of a pass's plausible targets.",
        )),
        sharp_cos: cosine(sharp_deg),
        whole_cos: cosine(whole_deg),
        notice_per_s: t.number(n(
            "notice_per_s",
            "1/s",
            0.0,
            100.0,
            "Chance a second of noticing a player in the outer field.",
        )),
        memory_s: t.number(n(
            "memory_s",
            "s",
            0.0,
            60.0,
            "Time until the remembered place of an unseen player is useless.",
        )),
        memory_error_m_s: t.number(n(
            "memory_error_m_s",
            "m/s",
            0.0,
            10.0,
            "Growth of the error of a remembered place.",
        )),
        glance_every_s: t.number(n(
            "glance_every_s",
            "s",
            0.1,
            60.0,
            "Mean interval between looks away from the ball.",
        )),
        glance_s: t.number(n("glance_s", "s", 0.0, 2.0, "Length of such a look.")),
        talk_chance: t.number(Key::share("talk_chance", "Chance that a team-mate tells what he sees.")),
        talk_delay_s: t.number(n("talk_delay_s", "s", 0.0, 3.0, "Delay of what is told.")),
        talk_error_m: t.number(n("talk_error_m", "m", 0.0, 5.0, "Error of a told place.")),
        shift_on_release: t.number(Key::share(
            "shift_on_release",
            "Share of possessions in which the team shifts on the release; else only the taker goes with a pass.",
        )),
        bite_chance: t.number(Key::share("bite_chance", "Chance of biting on the first credible pass fake.")),
        bite_decay: t.number(Key::share("bite_decay", "Factor on that chance for each fake seen.")),
        bite_delay_s: t.number(n(
            "bite_delay_s",
            "s",
            0.0,
            2.0,
            "Extra reaction after a fake that was bitten.",
        )),
        bite_distance_m: t.number(n(
            "bite_distance_m",
            "m",
            0.0,
            3.0,
            "How far a defender moves on such a fake.",
        )),
        temperature_points: t.number(n("temperature_points", "points", 0.001, 5.0, "Decision noise.")),
        patience_points: t.number(n(
            "patience_points",
            "points",
            0.0,
            1.0,
            "What a player holds against an early shot from outside.",
        )),
        first_decision_s: t.number(n(
            "first_decision_s",
            "s",
            0.0,
            3.0,
            "Hold before the first decision after a catch.",
        )),
        face_up_s: t.number(n("face_up_s", "s", 0.0, 3.0, "The same after a catch at the high post.")),
    }
}

/// Cosine of an angle in degrees, the same bits on every machine.
fn cosine(degrees: f32) -> f32 {
    libm::cos(f64::from(degrees).to_radians()) as f32
}

fn skill(desk: &Desk, t: &Layers<'_>) -> Skill {
    let least = n("catch_to_release_least_s", "s", 0.1, 3.0, "Catch to release, feet set: shortest.");
    let most = n("catch_to_release_most_s", "s", 0.1, 3.0, "Catch to release, feet set: longest.");
    let easy = n("catch_easy_m", "m", 0.0, 2.0, "Catch radius without cost.");
    let far = n("catch_far_m", "m", 0.0, 3.0, "Largest catch radius.");
    let pass = t.part("pass", "Passes by kind.");
    let kinds = [
        ("chest", "Two hands from the chest."),
        ("bounce", "Off the floor."),
        ("overhead", "Two hands above the head."),
        ("lob", "A high arc."),
    ];
    let skill = Skill {
        shot: shots(&t.part("shot", "Make probability by class of shot.")),
        shooting_spread: t.number(n(
            "shooting_spread",
            "logit",
            0.0,
            2.0,
            "Spread of shooting between team-mates.",
        )),
        free_throw: t.number(Key::share("free_throw", "Chance of making a free throw.")),
        catch_to_release_s: (t.number(least), t.number(most)),
        gather_s: t.number(n("gather_s", "s", 0.0, 3.0, "Gather to release off the dribble.")),
        pass: kinds.map(|(name, doc)| pass_kind(&pass.part(name, doc))),
        catch_easy_m: t.number(easy),
        catch_far_m: t.number(far),
        poor_catch_s: t.number(n("poor_catch_s", "s", 0.0, 2.0, "Time that the poorest catch costs.")),
        take_chance: t.number(Key::share("take_chance", "Chance that a hand in time takes the ball.")),
        handling_loss_per_s: t.number(n(
            "handling_loss_per_s",
            "1/s",
            0.0,
            1.0,
            "Rate of losing the ball under pressure.",
        )),
        travel_per_catch: t.number(n(
            "travel_per_catch",
            "",
            0.0,
            0.5,
            "Travelling and like losses a catch.",
        )),
        crash: t.number(n("crash", "players", 0.0, 5.0, "Attackers sent to the offensive glass, mean.")),
        going_on: going_on(desk, &t.part("going_on", "What going on with the possession is worth.")),
    };
    t.ordered((least, skill.catch_to_release_s.0), (most, skill.catch_to_release_s.1));
    t.ordered((easy, skill.catch_easy_m), (far, skill.catch_far_m));
    skill
}

fn shots(t: &Layers<'_>) -> ShotSkill {
    let curve = |t: Layers<'_>| ShotCurve {
        a: t.number(n("a", "logit", -6.0, 6.0, "Intercept, level shift included.")),
        distance: t.number(n("distance", "logit/m", -3.0, 0.5, "Slope on the shot's distance.")),
        space: t.number(n("space", "logit/m", 0.0, 3.0, "Slope on the nearest defender's distance.")),
    };
    ShotSkill {
        rim: curve(t.part("rim", "Two-pointers inside 1.22 m.")),
        short: curve(t.part("short", "Two-pointers from 1.22 m to 3.05 m.")),
        mid: curve(t.part("mid", "Two-pointers from beyond 3.05 m.")),
        three: curve(t.part("three", "Three-pointers.")),
        post_three: t.number(n("post_three", "logit", -3.0, 1.0, "Added to the logit of a post's three.")),
        three_catch: t.number(n(
            "three_catch",
            "logit",
            -1.0,
            1.0,
            "Added to a three's logit off the catch.",
        )),
    }
}

fn pass_kind(t: &Layers<'_>) -> PassSkill {
    PassSkill {
        speed_m_s: t.number(n(
            "speed_m_s",
            "m/s",
            2.0,
            25.0,
            "At the release; of a bounce or a lob the mean along the floor.",
        )),
        error_rad: (f64::from(t.number(n("error_deg", "degrees", 0.0, 20.0, "Spread of the direction."))))
            .to_radians() as f32,
        release_s: t.number(n("release_s", "s", 0.0, 2.0, "From the decision to the release.")),
        release_height_m: t.number(n("release_height_m", "m", 0.3, 3.0, "Height at release.")),
        catch_height_m: t.number(n("catch_height_m", "m", 0.3, 3.5, "Height at the catch.")),
    }
}

fn going_on(desk: &Desk, t: &Layers<'_>) -> GoingOn {
    let table =
        Key::other("table", "What going on is worth, computed by `zoneprobe worth` for players like these.");
    let impatience = n("impatience_per_s", "1/s", 0.0, 1.0, "Hazard beyond 15 s with no shot clock.");
    let impatience_per_s = t.number(impatience);
    match t.file(table, "worth") {
        Some(file) => worth::read(desk, &file, impatience_per_s),
        None => GoingOn { impatience_per_s, ..GoingOn::flat(0.85) },
    }
}
