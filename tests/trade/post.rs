//! The low post: left alone when the near back goes out, and parked behind the back line.

use engine::Measure::{LatenessMean, LineGap};
use engine::math::Vec2;

use super::cornered;
use super::estimate::{Series, difference, ratio};
use super::fact::{Bound, Fact, Part};
use super::watch::{space, tally, watch};
use crate::support::matchup;

/// From here on a post is open for an entry, m (the distance of an open look).
const OPEN_M: f32 = 1.22;
/// How long after the pass to the corner is thrown the post is watched, s.
const WATCHED_S: f32 = 2.0;

/// By catch of the rover in the corner: seconds that the near low post is open while he has the ball, in the first
/// two after it was thrown there; and whether he passes to a post who catches it.
fn corner(overrides: &[(&str, &str)], count: u64) -> [Series; 2] {
    let plain = [("attack.rover.route", "\"hold-wing\""), ("attack.posts.options", "{}")];
    let setup = cornered(&matchup(&[&plain[..], overrides].concat()));
    watch::<2>(&setup, count, |w, sums| {
        for (nth, pass) in w.passes.iter().enumerate() {
            let Some((by, time_s, at)) = pass.caught else { continue };
            if by != 2 || w.place(at) != engine::setup::BallPlace::Corner {
                continue;
            }
            let next = w.passes.get(nth + 1).map_or(f32::INFINITY, |next| next.release_s);
            let shot = w.shots.first().map_or(f32::INFINITY, |shot| shot.time_s);
            let open = w.film.frames.iter().filter(|frame| {
                let t = frame.time_s;
                let held = t >= time_s && t < next && t < shot && t < pass.release_s + WATCHED_S;
                let post = near_post(&frame.players, at);
                held && space(frame, post) >= OPEN_M
            });
            tally(&mut sums[0], open.count() as f64 * f64::from(w.setup.step_s));
            let entry = w.passes.get(nth + 1).filter(|next| next.from == 2 && next.to > 2);
            let caught = entry.is_some_and(|next| next.caught.is_some());
            tally(&mut sums[1], if caught { 1.0 } else { 0.0 });
        }
    })
}

/// The post nearer to the ball.
fn near_post(players: &[Vec2; 10], ball: Vec2) -> Vec2 {
    if players[3].distance(ball) < players[4].distance(ball) { players[3] } else { players[4] }
}

/// Fact 7.
pub const BACK_OUT: Fact = Fact {
    number: 7,
    starred: false,
    claim: "With the near back out in the corner the low post is open until help comes; how long depends on \
            the post help rule",
    cause: "zone.corner_rule back-out or wing-drops; zone.post_help_rule",
    measure: |count| {
        let rule = |name: &str| corner(&[("zone.post_help_rule", &format!("\"{name}\""))], count);
        let stays = corner(&[("zone.corner_rule", "\"wing-drops\"")], count);
        let rules = ["far-back-crosses", "near-wing-drops", "point-drops"].map(|name| (name, rule(name)));
        let spread = |effect: &'static str, n: usize| {
            let mut order = rules.each_ref().map(|(name, seen)| (*name, &seen[n]));
            order.sort_by(|a, b| ratio(a.1).total_cmp(&ratio(b.1)));
            Part::found(effect, &order, difference(order[0].1, order[2].1), Bound::AtLeast(0.05))
        };
        vec![
            Part::more(
                "seconds that the near post is open in the corner's first two",
                ("back stays (wing drops)", &stays[0]),
                ("back out, far back crosses", &rules[0].1[0]),
                0.05,
            ),
            spread("the same: most less fewest of the help rules", 0),
            spread("entries caught a catch in the corner: most less fewest of the help rules", 1),
        ]
    },
};

/// Fact 21.
pub const PARKED: Fact = Fact {
    number: 21,
    starred: false,
    claim: "Posts parked on the baseline draw the back line lower, or make it turn its heads, and widen the gap \
            between the lines",
    cause: "post option park-low off and on, against a 1-2-2 that does not sink",
    measure: |count| {
        let play = |posts: &str| {
            matchup(&[
                ("attack.rover.route", "\"hold-wing\""),
                ("attack.posts.options", posts),
                ("zone.sink_back_m", "0.0"),
            ])
        };
        let setups = [play("{}"), play("{ park-low = 1.0 }")];
        // After two seconds the posts are where they go; half the time the ball is on either side.
        let seen = setups.each_ref().map(|setup| {
            watch::<4>(setup, count, |w, sums| {
                for frame in w.film.frames.iter().filter(|frame| frame.time_s > 2.0 && frame.holder.is_some())
                {
                    for back in [8, 9] {
                        tally(&mut sums[0], frame.players[back].y);
                        let way = (frame.ball - frame.players[back]).unit_or(frame.facing[back]);
                        tally(&mut sums[1], if way.dot(frame.facing[back]) < 0.77 { 1.0 } else { 0.0 });
                    }
                }
                tally(&mut sums[2], w.film.record.real(LineGap));
                tally(&mut sums[3], w.film.record.real(LatenessMean));
            })
        });
        let [low, turned, gap, late] =
            std::array::from_fn(|nth| seen.each_ref().map(|series| series[nth].clone()));
        vec![
            Part::more(
                "back line's distance from the baseline side, m: lower",
                ("parked", &low[1]),
                ("at the block", &low[0]),
                0.1,
            ),
            Part::more("line gap, m", ("at the block", &gap[0]), ("parked", &gap[1]), 0.1),
            Part::more(
                "backs who face more than 40 degrees off the ball, share of the time",
                ("at the block", &turned[0]),
                ("parked", &turned[1]),
                0.01,
            ),
            Part::more("back-line lateness, s", ("at the block", &late[0]), ("parked", &late[1]), 0.0),
        ]
    },
};
