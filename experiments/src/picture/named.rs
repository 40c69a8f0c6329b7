//! The places of the floor by the names that jobs, maps and tables have for them.

use engine::names::{LANE_MIDDLE_BELOW_LINE_M, LANE_MIDDLE_FROM_Y_M, UNDER_RIM_M};
use engine::setup::{BallPlace, Setup};
use maud::html;

use super::drawing::{MARGIN, Picture, joined, label, n};
use super::floor::{Floor, TURNED, Words};
use super::regions::{cells, middle};

/// The name of a place, in lines.
const fn lines(place: BallPlace) -> &'static [&'static str] {
    match place {
        BallPlace::Top => &["top"],
        BallPlace::Slot => &["slot"],
        BallPlace::Wing => &["wing"],
        BallPlace::Corner => &["corner"],
        BallPlace::ShortCorner => &["short", "corner"],
        BallPlace::LowPost => &["low", "post"],
        BallPlace::Elbow => &["elbow"],
    }
}

/// Places in the middle that are cut out of the others, with the middles of their names, m.
const INNER: [(f64, &[&str]); 2] = [(2.5, &["middle of", "the lane"]), (5.15, &["free-throw", "line"])];

/// Height of a line of a name.
const LINE: f64 = 56.0;
/// A place that reaches far out has its name no farther from the rim than this, m: there they play.
const DEEPEST_M: f64 = 8.6;

/// The floor of a zone, cut where one place ends and the next begins, each with its name.
pub fn named(id: &str, setup: &Setup) -> Picture {
    let floor = Floor::holding(&setup.court, []);
    let all = cells(&setup.zone, &setup.court);
    let points = |area: &[(f64, f64)]| {
        let at = |(x, y): &(f64, f64)| {
            // No deeper than the floor is drawn.
            let (x, y) = floor.at(*x, *y);
            format!("{} {}", n(x), n(y.min(floor.bottom())))
        };
        area.iter().map(at).collect::<Vec<_>>().join(" ")
    };
    // Places that are cut out of the others.
    let rim = floor.at(0.0, 0.0);
    let half = f64::from(setup.court.lane_half_m);
    let near = f64::from(LANE_MIDDLE_FROM_Y_M);
    let far = f64::from(setup.court.free_throw_y_m - LANE_MIDDLE_BELOW_LINE_M);
    let lane_middle = [(-half, near), (half, near), (half, far), (-half, far)];
    let under = html! {
        (joined(all.iter().map(|(_, _, area)| html! { polygon class="grid rimless" points=(points(area)) {} })))
        polygon class="grid rimless" points=(points(&lane_middle)) {}
        circle class="grid rimless" cx=(n(rim.0)) cy=(n(rim.1)) r=(n(100.0 * f64::from(UNDER_RIM_M))) {}
    };
    let written = |(x, y): (f64, f64), own: &[&str]| {
        let (x, y) = floor.at(x, y);
        let first = y + 18.0 - LINE / 2.0 * (own.len() - 1) as f64;
        joined(own.iter().enumerate().map(|(nth, word)| label("on mid", x, first + LINE * nth as f64, word)))
    };
    let outer = all.iter().map(|(place, _, area)| {
        let (x, y) = middle(area).1;
        written((x, y.min(DEEPEST_M)), lines(*place))
    });
    let names = outer.chain(INNER.iter().map(|(y, own)| written((0.0, *y), own)));
    let key = [
        "circle: under the rim. Maps of good looks have",
        "neither it nor the middle of the lane; on them top",
        "and slots are one, elbows and free-throw line the",
        "high post",
    ];
    let legend = joined(
        key.iter()
            .enumerate()
            .map(|(nth, words)| label("key", MARGIN, floor.bottom() + 70.0 + 66.0 * nth as f64, words)),
    );
    let words = Words {
        id,
        head: "Places by name",
        sub: "dotted: where one ends and the next begins",
        desc: TURNED,
        caption: "In the circle: under the rim.".into(),
    };
    floor.picture(words, under, joined(names), (36.0 + 66.0 * key.len() as f64, legend))
}
