//! What films show of an attack, first chance by first chance: each look adds up one quantity of a film.

use engine::Arena;
use engine::film::{Action, What};
use engine::law::conduct::programs::{GAP_FROM_Y_M, GAP_TO_Y_M, GAP_X_M};
use engine::law::conduct::shooting::JUMP_SHOT_FROM_M;
use engine::law::shot::{FREE_M, class_of};
use engine::math::{Vec2, min};
use engine::setup::{BallPlace, ShotClass, ShotCurve};
use rayon::prelude::*;

use super::passing::{Kind, believed_less_true, returned, straight_back, two_in_turn};
use crate::reference::line::Matchup;
use crate::trade::estimate::Series;
use crate::trade::watch::{Watched, tally};

/// Adds up one quantity of a film: its sum, and how often it was there to be seen.
type Look = fn(&Watched<'_>, &mut (f64, f64));

/// All looks, by their names in the file.
pub const LOOKS: [(&str, Look); 10] = [
    ("straight back from the high post", straight_back),
    ("returned", returned),
    ("two men in turn", two_in_turn),
    ("sealed in flight", sealed_in_flight),
    ("two between the lines", two_between_the_lines),
    ("room believed less true", room_believed_less_true),
    ("low post believed less true", |w, sum| believed_less_true(w, Kind::LowPost, sum)),
    ("high post believed less true", |w, sum| believed_less_true(w, Kind::HighPost, sum)),
    ("skip believed less true", |w, sum| believed_less_true(w, Kind::Skip, sum)),
    ("swing believed less true", |w, sum| believed_less_true(w, Kind::Swing, sum)),
];

const ROVER: usize = 2;
const POSTS: [usize; 2] = [3, 4];
/// A seal that begins later than so long after the catch in the corner has nothing to do with that pass, s. (a choice)
const SEALED_WITHIN_S: f32 = 2.0;

/// The sums of every look over all matchups, possession by possession.
pub fn films(played: &[Matchup], seed: u64, possessions: u64) -> Vec<Series> {
    let mut sums = vec![vec![(0.0, 0.0); possessions as usize]; LOOKS.len()];
    for matchup in played {
        let of = |arena: &mut Arena, possession: u64| {
            let film = arena.film(&matchup.setup, seed, possession);
            let watched = Watched::of(&matchup.setup, &film);
            LOOKS.map(|(_, look)| {
                let mut sum = (0.0, 0.0);
                look(&watched, &mut sum);
                sum
            })
        };
        let seen: Vec<[(f64, f64); LOOKS.len()]> =
            (0..possessions).into_par_iter().map_init(|| Arena::new(1), of).collect();
        for (possession, looks) in seen.iter().enumerate() {
            for (look, sum) in looks.iter().enumerate() {
                let kept = &mut sums[look][possession];
                *kept = (kept.0 + sum.0, kept.1 + sum.1);
            }
        }
    }
    sums
}

/// The sums of a look by its name.
pub fn named<'a>(films: &'a [Series], name: &str) -> &'a Series {
    let nth = LOOKS.iter().position(|(look, _)| *look == name);
    &films[nth.unwrap_or_else(|| panic!("no look {name}"))]
}

/// Of the seals of the post on the ball's side that begin between the throw to the corner and some time after the catch,
/// those that begin in its flight.
fn sealed_in_flight(w: &Watched<'_>, sum: &mut (f64, f64)) {
    for (nth, pass) in w.passes.iter().enumerate() {
        let Some((by, caught_s, at)) = pass.caught else { continue };
        if w.place(at) != BallPlace::Corner || POSTS.contains(&by) {
            continue;
        }
        let thrown = w.frame(pass.release_s);
        let far = |post: &usize| thrown.players[*post].distance(at);
        let Some(post) = POSTS.into_iter().min_by(|a, b| far(a).total_cmp(&far(b))) else { continue };
        let next = w.passes.get(nth + 1).map_or(f32::INFINITY, |next| next.release_s);
        let until_s = min(next, caught_s + SEALED_WITHIN_S);
        if thrown.braced[post] || pass.from == post {
            continue;
        }
        let mut after =
            w.film.frames.iter().filter(|frame| (pass.release_s..until_s).contains(&frame.time_s));
        if let Some(begins) = after.find(|frame| frame.braced[post]) {
            tally(sum, u8::from(begins.time_s < caught_s));
        }
    }
}

/// Of the time until the first shot, that in which the rover and a post are between the lines.
fn two_between_the_lines(w: &Watched<'_>, sum: &mut (f64, f64)) {
    let between = |at: Vec2| at.x.abs() < GAP_X_M && (GAP_FROM_Y_M..GAP_TO_Y_M).contains(&at.y);
    let until_s = w.shots.first().map_or(f32::INFINITY, |shot| shot.time_s);
    for frame in w.film.frames.iter().take_while(|frame| frame.time_s < until_s) {
        let both = between(frame.players[ROVER]) && POSTS.iter().any(|post| between(frame.players[*post]));
        tally(sum, u8::from(both));
    }
}

/// By how much more room, m, a shot of the same player has that goes in with another chance and from another distance, each as
/// chance and metres.
fn room_between(curve: ShotCurve, one: (f32, f32), other: (f32, f32)) -> f64 {
    let logit = |chance: f32| f64::from(chance / (1.0 - chance)).ln();
    let by_distance = f64::from(curve.distance * (other.1 - one.1));
    (logit(other.0) - logit(one.0) - by_distance) / f64::from(curve.space)
}

/// Metres of room of a jump shot as its shooter expected them when he chose it, less those at its release. He believes a
/// chance to score, and by the curve of his shot that is a distance of the nearest defender; what else is in the chance is
/// the same at the release. Rooms beyond [`FREE_M`] are alike to the curve, and so they are here.
fn room_believed_less_true(w: &Watched<'_>, sum: &mut (f64, f64)) {
    let (mut choice, mut drove, mut fouled_s) = (None, false, f32::NEG_INFINITY);
    for event in &w.film.events {
        match event.what {
            What::Decision { by, ref options, chosen } => choice = Some((by, event.at, options[chosen])),
            What::Catch { .. } => (choice, drove) = (None, false),
            What::DriveStart { .. } => drove = true,
            What::Foul { shooting: true, .. } => fouled_s = event.time_s,
            // A basket in spite of a foul on the way up has the room of the foul.
            What::Shot { by, metres, space_m, chance, three, .. }
                if event.time_s - fouled_s > w.setup.step_s =>
            {
                let Some((chooser, at, option)) = choice else { continue };
                let same = class_of(three, metres) == class_of(w.setup.court.is_three(at), at.len());
                if chooser != by
                    || option.action != Action::Shoot
                    || drove
                    || !same
                    || metres <= JUMP_SHOT_FROM_M
                {
                    continue;
                }
                let skill = &w.setup.player(by).skill.shot;
                let curve = if class_of(three, metres) == ShotClass::Three { skill.three } else { skill.mid };
                let more = room_between(curve, (chance, metres), (option.chance, at.len()));
                // The law knows no more room than that.
                let room = f64::from(min(space_m, FREE_M));
                tally(sum, (room + more).clamp(0.0, f64::from(FREE_M)) - room);
            }
            What::Rebound { .. } => break,
            _ => {}
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::support::{changed, matchup};
    use engine::law::shot::make_chance;
    use engine::math::vec2;
    use engine::setup::Shooter;

    /// Sum and count of a look over some films of a setup.
    fn over_films(setup: &std::sync::Arc<engine::setup::Setup>, name: &str) -> (f64, f64) {
        let played = [Matchup::of("any", setup.clone())];
        let films = films(&played, 3, 400);
        named(&films, name).iter().fold((0.0, 0.0), |sum, one| (sum.0 + one.0, sum.1 + one.1))
    }

    #[test]
    fn the_room_between_two_chances_is_the_one_that_makes_them() {
        let setup = matchup(&[]);
        let skill = &setup.attackers.skill.shot;
        let from = |y: f32, room: f32| {
            let (chance, _) = make_chance(&setup.court, skill, Shooter([0.3; 4]), vec2(0.0, y), room, true);
            (chance, y)
        };
        for (curve, y) in [(skill.mid, 4.5), (skill.three, 6.5)] {
            let more = room_between(curve, from(y, 1.0), from(y + 0.2, 1.7));
            assert!((more - 0.7).abs() < 1e-4, "{more} m from {y} m");
        }
    }

    #[test]
    fn room_against_a_zone_that_never_moves_is_believed_smaller_than_it_is() {
        // Who expects a defender to come at his shot is wrong where nobody can.
        let setup = matchup(&[]);
        let frozen = changed(&setup, |setup| setup.limits.frozen_zone = true);
        let [usual, still] = [&setup, &frozen].map(|setup| over_films(setup, "room believed less true"));
        assert!(usual.1 > 100.0 && still.1 > 100.0, "{usual:?} {still:?}");
        assert!(still.0 / still.1 < usual.0 / usual.1 - 0.1, "{usual:?} {still:?}");
    }

    #[test]
    fn two_are_between_the_lines_where_the_file_sends_them_there() {
        let put = |post: f32| {
            let setup = matchup(&[("attack.rover.route", "\"hold-wing\""), ("attack.posts.options", "{}")]);
            let setup = changed(&setup, |setup| {
                setup.attack.formation[ROVER] = vec2(0.9, 3.4);
                setup.attack.formation[3] = vec2(-0.9, post);
            });
            let (sum, count) = over_films(&setup, "two between the lines");
            sum / count
        };
        let (apart, together) = (put(-0.9), put(3.4));
        assert!(together > apart + 0.05, "{apart} {together}");
    }
}
