//! Where everyone starts, and what one position has to do from there.

use engine::setup::Setup;
use engine::starting_places;
use maud::{Markup, html};

use super::drawing::{MARGIN, Picture, joined, label, n, tip};
use super::floor::{Floor, NUMBERS, TURNED, Words, attacker, defender};
use crate::places::{ATTACKERS, PathBin, RoutePath, defender_letter, position_words};

/// Length of an arrow's head.
pub(super) const TIP: f64 = 50.0;

/// The ten starting places.
pub fn start((id, variant): (&str, &str), setup: &Setup) -> Picture {
    let floor = Floor::new(&setup.court);
    let players = floor.apart(starting_places(setup));
    let ball = players[usize::from(setup.attack.ball_starts_with)];
    let over = html! {
        (joined((5..10).map(|p| defender(players[p], &defender_letter(&setup.zone, p - 5)))))
        (joined((0..5).map(|p| attacker(players[p], p))))
        circle class="ball" cx=(n(ball.0 + 40.0)) cy=(n(ball.1 + 40.0)) r="24" {}
    };
    let keys = [NUMBERS[0], NUMBERS[1], "diamond: defender, by his job; small dot: the ball"];
    let top = floor.bottom();
    let legend = joined(
        keys.iter()
            .enumerate()
            .map(|(nth, words)| label("key", MARGIN, top + 70.0 + 66.0 * nth as f64, words)),
    );
    let caption = format!(
        "The ball starts with the {}.",
        position_words(ATTACKERS[usize::from(setup.attack.ball_starts_with)])
    );
    let names = Words { id, head: variant, sub: "where everyone starts", desc: TURNED, caption };
    floor.picture(names, html! {}, over, (240.0, legend))
}

/// One position: where he starts, his two best passes, and for the rover the way he ran.
pub fn card(
    id: &str,
    setup: &Setup,
    role: usize,
    looks: [Option<usize>; 2],
    path: Option<&RoutePath>,
) -> Picture {
    let floor = Floor::new(&setup.court);
    let players = starting_places(setup).map(|at| floor.of(at));
    let way = path.filter(|_| role == 2).map(|path| way(&floor, &path.bins));
    let passes = looks.iter().enumerate().filter_map(|(nth, to)| {
        let (from, to) = (players[role], players[(*to)?]);
        let place = (from.0 + 0.62 * (to.0 - from.0), from.1 + 0.62 * (to.1 - from.1));
        Some(html! {
            line class="pass" stroke-width="14" x1=(n(from.0)) y1=(n(from.1)) x2=(n(to.0)) y2=(n(to.1)) {}
            circle class="plate" cx=(n(place.0)) cy=(n(place.1)) r="44" {}
            text class="mid" x=(n(place.0)) y=(n(place.1 + 18.0)) { (["1st", "2nd"][nth]) }
        })
    });
    let others = (0..5).filter(|p| *p != role).map(|p| {
        let (x, y) = players[p];
        html! {
            circle class="defender" cx=(n(x)) cy=(n(y)) r="46" {}
            text x=(n(x)) y=(n(y + 19.0)) { (p + 1) }
        }
    });
    let over = html! {
        @if let Some(way) = way { (way) }
        (joined(passes.collect::<Vec<_>>()))
        (joined(others.collect::<Vec<_>>()))
        (attacker(players[role], role))
    };
    let top = floor.bottom();
    let mut keys = vec!["filled: you; open: your team-mates", "dashed: your best passes"];
    if role == 2 && path.is_some() {
        keys.push("solid: your usual path");
    }
    let legend = joined(
        keys.iter()
            .enumerate()
            .map(|(nth, words)| label("key", MARGIN, top + 70.0 + 66.0 * nth as f64, words)),
    );
    let head = format!("{} {}", role + 1, position_words(ATTACKERS[role]));
    let names = Words { id, head: &head, sub: "", desc: TURNED, caption: String::new() };
    floor.picture(names, html! {}, over, (240.0, legend))
}

/// The usual path, the median of the runs, with an arrow's head where it ends.
fn way(floor: &Floor<'_>, bins: &[PathBin]) -> Markup {
    let first = bins.first().map_or(0, |bin| bin.count);
    let lasting = bins.iter().take_while(|bin| bin.count * 4 >= first);
    let places: Vec<(f64, f64)> = lasting.map(|bin| floor.at(bin.x.median, bin.y.median)).collect();
    let points: Vec<String> = places.iter().map(|(x, y)| format!("{} {}", n(*x), n(*y))).collect();
    html! { polyline class="cut" points=(points.join(" ")) {} (tip("cut", TIP, &places)) }
}
