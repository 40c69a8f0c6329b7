//! A player's height, reach, weight and times, as parameters of his body.
//!
//! A time is read against the usual one over the same course, timed the same way: gates, stopwatches and starts differ by
//! some tenths of a second, as much as players do. Who takes 1/f of the usual time does everything on that course f times
//! as fast: speeds f times, accelerations f² times, time constants 1/f. So a course of any length comes out right.

use engine::math::min;
use engine::setup::Body;

use super::{clash, nested};
use crate::declared::{Field, Kind, Part, Table};
use crate::read::Reader;

/// Standing reach over height. (source: 1.31 to 1.33 of varsity boys, from memory; 1.331 with a standard deviation of .024
/// measured at a professional draft combine 2009 to 2017, 517 players, computed)
const REACH_OF_HEIGHT: f32 = 1.32;
/// How many players have to have a time so that their mean may stand for the usual one. (a choice)
const ENOUGH_TIMED: usize = 3;
/// How far a time may lie from the usual one: as share of it. (a choice: the fastest of 446 at a draft combine took .91 of
/// the mean, the slowest 1.15)
const TIMES: (f32, f32) = (0.75, 1.35);

/// Words for strength, each with what it multiplies the mass by in contact. (assumed, within the levels' range .7 to 1.4)
const STRENGTHS: [(&str, f32); 3] = [("weak", 0.8), ("average", 1.0), ("strong", 1.25)];

const fn seconds(name: &'static str, doc: &'static str) -> Field {
    Field::number(name, "s", (0.5, 60.0), doc)
}

/// The keys of a player's body.
pub(super) const FIELDS: [Field; 6] = [
    Field::number(
        "height_m",
        "m",
        (1.2, 2.4),
        "Height; his reach is taken to be 1.32 times as much, with its arms.",
    ),
    Field::number("reach_m", "m", (1.5, 3.2), "Height of his raised hand, standing."),
    Field::of(Body::PARAMETERS, "mass_kg"),
    Field::other("strength", Kind::Word(&STRENGTHS), "How he holds his place against others of his weight."),
    seconds("sprint_s", "His time over any straight course, the same for all players."),
    seconds("shuttle_s", "His time over any course with turns, the same for all players."),
];

static USUAL_TABLE: Table = Table::of(&[Part::Fields(&[
    seconds("sprint_s", "The usual time of this level's players over the same straight course."),
    seconds("shuttle_s", "The usual time of this level's players over the same course with turns."),
])]);

/// The usual times, a table of the scenario.
pub(crate) const USUAL: Field = Field::table(
    "usual",
    &USUAL_TABLE,
    "Times that are usual at this level, timed as the players' are. Without them the mean of the players' own, if three \
     or more have one.",
);

const COURSES: [&str; 2] = ["sprint_s", "shuttle_s"];

/// The usual times over both courses, s.
pub(super) struct Usual([Option<f32>; 2]);

impl Usual {
    /// Those that the scenario states, or the means of the players' own.
    pub fn of<'r, 'd: 'r>(root: &Reader<'d>, players: impl Iterator<Item = &'r Reader<'d>> + Clone) -> Usual {
        let stated = root.table("usual");
        Usual(COURSES.map(|course| {
            stated.as_ref().and_then(|usual| usual.maybe_number(course)).or_else(|| {
                let own = players.clone().filter_map(|player| player.node().get(course)?.node.number());
                let times: Vec<f64> = own.collect();
                let mean = times.iter().sum::<f64>() / times.len() as f64;
                (times.len() >= ENOUGH_TIMED).then_some(mean as f32)
            })
        }))
    }
}

/// What is said of a player's body.
#[derive(Default)]
pub(super) struct Said {
    reach_m: Option<f32>,
    mass_kg: Option<f32>,
    strength: Option<f32>,
    /// How many times as fast as usual he is, straight on and with turns.
    fast: [Option<f32>; 2],
}

impl Said {
    pub fn read(reader: &Reader<'_>, usual: &Usual) -> Said {
        let height = reader.maybe_number("height_m");
        let reach = reader.maybe_number("reach_m");
        for (key, own) in [
            ("height_m", "standing_reach_m"),
            ("reach_m", "standing_reach_m"),
            ("mass_kg", "mass_kg"),
            ("strength", "strength"),
            ("sprint_s", "sprint_m_s"),
        ] {
            if let Some(entry) = nested(reader, "body", own).filter(|_| reader.has(key)) {
                clash(reader, &entry.node, &format!("body.{own}"), &format!("{key} and body.{own}"));
            }
        }
        let fast = |nth: usize| {
            let time_s = reader.maybe_number(COURSES[nth])?;
            let Some(usual_s) = usual.0[nth] else {
                unusual(reader, COURSES[nth]);
                return None;
            };
            let share = time_s / usual_s;
            if !(TIMES.0..=TIMES.1).contains(&share) {
                far_off(reader, COURSES[nth], usual_s);
                return None;
            }
            Some(1.0 / share)
        };
        Said {
            // A measured reach is worth more than one worked out of the height.
            reach_m: reach.or(height.map(|height| height * REACH_OF_HEIGHT)),
            mass_kg: reader.maybe_number("mass_kg"),
            strength: reader.maybe_word("strength", &STRENGTHS),
            fast: [fast(0), fast(1)],
        }
    }

    /// Changes the team's body to his.
    pub fn apply(&self, body: &mut Body) {
        if let Some(reach_m) = self.reach_m {
            let longer = reach_m / body.standing_reach_m;
            body.standing_reach_m = reach_m;
            body.arm_reach_m *= longer;
            body.lunge_reach_m *= longer;
            body.reach_spread_m = 0.0;
        }
        body.mass_kg = self.mass_kg.unwrap_or(body.mass_kg);
        body.strength = self.strength.unwrap_or(body.strength);
        let [sprint, shuttle] = self.fast;
        if let Some(fast) = sprint.or(shuttle) {
            body.sprint_m_s *= fast;
            body.sprint_tau_s /= fast;
            body.sprint_spread_m_s = 0.0;
        }
        if let Some(fast) = shuttle {
            body.slide_tau_s /= fast;
            body.braking_m_s2 *= fast * fast;
            body.lateral_m_s2 *= fast * fast;
            body.turn_rad_s *= fast;
            // Slides and back-pedals go with the turns rather than with the straight sprint.
            let beside = fast / sprint.unwrap_or(fast);
            body.slide_share = min(body.slide_share * beside, 1.0);
            body.backpedal_share = min(body.backpedal_share * beside, 1.0);
        }
    }
}

/// Notes what is wrong with numbers of the body by themselves.
pub(super) fn judge(reader: &Reader<'_>) {
    for key in ["height_m", "reach_m", "mass_kg", COURSES[0], COURSES[1]] {
        reader.maybe_number(key);
    }
    reader.maybe_word("strength", &STRENGTHS);
}

/// Refuses a time that nothing can be held against.
fn unusual(reader: &Reader<'_>, course: &str) {
    let allowed = format!("it beside usual.{course}, or such a time of {ENOUGH_TIMED} players");
    refuse(reader, course, allowed);
}

/// Refuses a time that nobody takes.
fn far_off(reader: &Reader<'_>, course: &str, usual_s: f32) {
    let ends = [TIMES.0, TIMES.1].map(|share| format!("{:.2}", share * usual_s));
    refuse(reader, course, format!("{} to {} s where {usual_s:.2} s is usual", ends[0], ends[1]));
}

fn refuse(reader: &Reader<'_>, key: &str, allowed: String) {
    if let Some(entry) = reader.node().get(key) {
        reader.refuse(key, &entry.node, allowed, None);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::scenario;

    fn body() -> Body {
        let file = std::path::Path::new("sunken-122");
        scenario(file).expect("a bundled scenario").setup.attackers.body.clone()
    }

    /// Way from rest in a time, m.
    fn way_m(body: &Body, time_s: f32) -> f32 {
        let tau = body.sprint_tau_s;
        body.sprint_m_s * (time_s - tau * (1.0 - engine::math::exp(-time_s / tau)))
    }

    #[test]
    fn who_takes_so_much_longer_takes_so_much_longer_over_any_way() {
        let (usual, mut slow) = (body(), body());
        Said { fast: [Some(1.0 / 1.08), None], ..Said::default() }.apply(&mut slow);
        for time_s in [0.5, 1.5, 4.0] {
            let (way, his) = (way_m(&usual, time_s), way_m(&slow, time_s * 1.08));
            assert!((way - his).abs() < 1e-4 * engine::math::max(way, 1.0), "{time_s}: {way} {his}");
        }
        assert_eq!(slow.sprint_spread_m_s, 0.0);
        assert_eq!((slow.braking_m_s2, slow.slide_share), (usual.braking_m_s2, usual.slide_share));
    }

    #[test]
    fn a_shuttle_changes_turns_and_without_a_sprint_the_sprint_too() {
        let (usual, mut both, mut one) = (body(), body(), body());
        Said { fast: [Some(1.0), Some(1.1)], ..Said::default() }.apply(&mut both);
        Said { fast: [None, Some(1.1)], ..Said::default() }.apply(&mut one);
        assert_eq!(both.sprint_m_s, usual.sprint_m_s);
        assert!((one.sprint_m_s - 1.1 * usual.sprint_m_s).abs() < 1e-5);
        assert!((one.braking_m_s2 - 1.21 * usual.braking_m_s2).abs() < 1e-5);
        assert!((both.slide_share - 1.1 * usual.slide_share).abs() < 1e-6);
        assert_eq!(one.slide_share, usual.slide_share);
    }

    #[test]
    fn longer_arms_go_with_a_longer_reach() {
        let (usual, mut tall) = (body(), body());
        Said { reach_m: Some(usual.standing_reach_m * 1.1), ..Said::default() }.apply(&mut tall);
        assert!((tall.arm_reach_m - 1.1 * usual.arm_reach_m).abs() < 1e-6 && tall.reach_spread_m == 0.0);
    }
}
