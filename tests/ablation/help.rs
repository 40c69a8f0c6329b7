//! The post help rule: who comes to the low post once the near back is out, and nothing else.

use engine::math::min;
use engine::setup::BallPlace;

use super::row::{Ablation, Four};
use crate::looks::Seen;
use crate::support::matchup;
use crate::trade::cornered;
use crate::trade::estimate::Series;
use crate::trade::watch::{space, tally, watch};

/// How long after the pass to the corner is thrown the post is watched, s.
const WATCHED_S: f32 = 2.0;

/// While the rover has the ball in the corner: distance of the near wing from the nearer post, and of the nearest
/// defender, m.
fn post(help: &str, corner: &str, count: u64) -> [Series; 2] {
    let setup = cornered(&matchup(&[
        ("attack.rover.route", "\"hold-wing\""),
        ("attack.posts.options", "{}"),
        ("zone.post_help_rule", help),
        ("zone.corner_rule", corner),
    ]));
    watch::<2>(&setup, count, |w, sums| {
        for (nth, pass) in w.passes.iter().enumerate() {
            let Some((2, time_s, at)) = pass.caught else { continue };
            if w.place(at) != BallPlace::Corner {
                continue;
            }
            let next = w.passes.get(nth + 1).map_or(f32::INFINITY, |next| next.release_s);
            let shot = w.shots.first().map_or(f32::INFINITY, |shot| shot.time_s);
            let until = min(min(next, shot), pass.release_s + WATCHED_S);
            for frame in w.film.frames.iter().filter(|frame| frame.time_s >= time_s && frame.time_s < until) {
                let [right, left] = [frame.players[3], frame.players[4]];
                let post = if right.distance(at) < left.distance(at) { right } else { left };
                tally(&mut sums[0], frame.players[6].distance(post));
                tally(&mut sums[1], space(frame, post));
            }
        }
    })
}

/// One of the two distances under `near-wing-drops` and under another rule, with the back out and with the back at home.
fn four(nth: usize, other: &str, count: u64) -> Four {
    let pair = |corner| ["\"near-wing-drops\"", other].map(|help| post(help, corner, count)[nth].clone());
    Four { on: pair("\"back-out\""), off: pair("\"wing-drops\"") }
}

/// The near wing comes where he is the helper.
pub const WHO_COMES: Ablation = Ablation {
    mechanism: "help rule",
    effect: "near-wing-drops against far-back-crosses, ball in the corner: near wing nearer to the low post, m",
    off: "corner_rule wing-drops: the back stays, and no help is called for",
    possessions: 400,
    verdict: Seen::Shown,
    measure: |count| four(0, "\"far-back-crosses\"", count),
};

/// How open the post is depends on it.
pub const HOW_OPEN: Ablation = Ablation {
    mechanism: "help rule",
    effect: "near-wing-drops against far-back-crosses, ball in the corner: nearest defender nearer to the low post, m",
    off: "corner_rule wing-drops: the back stays, and no help is called for",
    possessions: 3000,
    verdict: Seen::Refuted,
    measure: |count| four(1, "\"far-back-crosses\"", count),
};
