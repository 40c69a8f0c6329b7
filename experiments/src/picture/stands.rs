//! Where the zone stands while the ball is in one region: the mean place of each defender.

use engine::math::vec2;
use engine::names;
use engine::setup::{BallPlace, Region, Setup};
use maud::html;

use super::drawing::{MARGIN, Picture, joined, label};
use super::floor::{Floor, LARGER, TURNED, Words, defender, marked};
use super::scale::raw;
use crate::places::{Regions, defender_name, region_key};
use crate::wording::chance;

/// The regions that are drawn, in reading order: where a set has the ball.
pub const DRAWN: [Region; 6] = [
    Region::Top,
    Region::RightWing,
    Region::RightCorner,
    Region::HighPost,
    Region::LeftWing,
    Region::LeftCorner,
];

/// Nearest that two marks may lie.
const APART: f64 = 112.0 * LARGER;

/// Where a ball in this region is drawn: at the zone's own ball place, on its side.
fn ball(setup: &Setup, region: Region) -> engine::math::Vec2 {
    let place =
        BallPlace::ALL.iter().zip(&setup.zone.ball_places).flat_map(|(_, at)| [*at, vec2(-at.x, at.y)]);
    let own = place.filter(|at| Region::of(&setup.zone, *at) == region);
    // Of the top and its slots, the top.
    own.min_by(|a, b| a.x.abs().total_cmp(&b.x.abs())).unwrap_or_default()
}

/// The defenders of one variant with the ball in a region; None where it never was.
pub fn stand((id, variant): (&str, &str), setup: &Setup, own: &Regions, region: Region) -> Option<Picture> {
    let means = own.defenders(region)?;
    let floor = Floor::holding(&setup.court, [ball(setup, region)]);
    let seen: [(f64, f64); 6] = core::array::from_fn(|nth| match means.get(nth) {
        Some((x, y)) => floor.at(*x, *y),
        None => floor.of(ball(setup, region)),
    });
    let places = super::floor::apart(seen, APART);
    let marks = (0..5).map(|position| {
        let name = defender_name(&setup.zone, position);
        html! {
            g data-defender=(name) data-x=(raw(means[position].0)) data-y=(raw(means[position].1)) {
                (defender(places[position], (setup, position), 1.0))
            }
        }
    });
    let over = html! { (marked(&[places[5]], |at| crate::marks::ball(at[0], 1.0))) (joined(marks)) };
    let told = (0..5).map(|position| {
        let (x, y) = means[position];
        let at = names::place(setup, vec2(x as f32, y as f32));
        format!("{} at {at}", defender_name(&setup.zone, position).replace('-', " "))
    });
    let desc = format!("{TURNED} {}.", told.collect::<Vec<_>>().join("; "));
    let sub = format!("with the ball {}", names::in_region(region));
    let caption =
        format!("The ball is {} for {} of the time.", names::in_region(region), chance(own.time(region)));
    let legend =
        label("key", MARGIN, floor.bottom() + 70.0, "square: a defender's mean place; dot: the ball");
    let id = format!("{id}-{}", region_key(region));
    Some(floor.picture(
        Words { id: &id, head: variant, sub: &sub, desc: &desc, caption },
        html! {},
        over,
        (100.0, legend),
    ))
}
