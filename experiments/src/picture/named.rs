//! The places of the floor by the names that jobs, maps and tables have for them.

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
    let under = html! {
        (joined(all.iter().map(|(_, _, area)| html! { polygon class="grid rimless" points=(points(area)) {} })))
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
        "nearest to the rim: under the rim. On the maps of",
        "good looks top and slots are one, and elbows and",
        "free-throw line are the high post",
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
        caption: "Nearest to the rim: under the rim.".into(),
    };
    floor.picture(words, under, joined(names), (36.0 + 66.0 * key.len() as f64, legend))
}
