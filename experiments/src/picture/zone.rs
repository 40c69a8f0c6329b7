//! A zone at a glance: where its five stand for one place of the ball, and who of them does what a rule says.

use engine::math::vec2;
use engine::setup::Setup;
use maud::html;

use super::drawing::{Picture, joined, n};
use super::floor::{Floor, LARGER, Words, ball_of, defender};
use crate::marks;

/// How far down the floor is drawn, m: the front line and some room.
const TO_Y_M: f64 = 8.0;
/// Radius of the ring round him whom a rule names.
const RING: f64 = 68.0 * LARGER;

/// The zone of a setup with the ball at a place and its defenders at others (m from under the rim, the ball on the right);
/// `who` does what a rule says.
pub fn zone(
    (id, title): (&str, &str),
    setup: &Setup,
    ball: [f64; 2],
    places: &[[f64; 2]; 5],
    who: Option<usize>,
) -> Picture {
    let floor = Floor::new(&setup.court);
    let ball = floor.at(ball[0], ball[1]);
    let players = floor.apart(places.map(|[x, y]| vec2(x as f32, y as f32)));
    let over = html! {
        @if let Some((x, y)) = who.map(|who| players[who]) {
            circle class="tick" fill-opacity="0" cx=(n(x)) cy=(n(y)) r=(n(RING)) {}
        }
        (joined((0..5).map(|p| defender(players[p], (setup, p), 1.0))))
        @if players.iter().all(|player| marks::gap(*player, ball) > 60.0) {
            (super::floor::marked(&[ball], |at| marks::ball(at[0], 1.0)))
        } @else {
            (ball_of(ball, &players))
        }
    };
    let desc = "The five defenders of a zone on the half court, the rim at the top, the ball on the right.";
    floor.part(Words { id, head: title, sub: "", desc, caption: String::new() }, over, TO_Y_M)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn five_stand_there_and_the_one_whom_a_rule_names_has_a_ring() {
        let setup = scenarios::scenario(std::path::Path::new("sunken-122")).unwrap().setup;
        let places = [[0.0, 6.0], [2.6, 4.6], [-2.6, 4.6], [1.8, 1.5], [-1.8, 1.5]];
        let drawn =
            |who| String::from_utf8(zone(("z", "a 1-2-2"), &setup, [5.2, 4.2], &places, who).file()).unwrap();
        let (plain, ruled) = (drawn(None), drawn(Some(3)));
        assert_eq!(plain.matches("class=\"body\"").count(), 5, "{plain}");
        assert_eq!(ruled.matches("class=\"tick\"").count(), plain.matches("class=\"tick\"").count() + 1);
        usvg::Tree::from_str(&ruled, &usvg::Options::default()).expect("a picture");
    }
}
