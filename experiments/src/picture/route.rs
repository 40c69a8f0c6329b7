//! A route as it was really run: the usual path (the median of the runs), the middle half of the runs, and the seconds on it.

use engine::setup::Setup;
use maud::{Markup, PreEscaped, html};

use super::drawing::{HEAD, MARGIN, Picture, joined, label, n};
use super::floor::{Floor, LARGER, Words, attacker, named_place};
use super::scale::raw;
use crate::marks;
use crate::places::{PathBin, RoutePath};
use crate::wording::{grouped, listed};

/// A time at which fewer than this share of the runs still last is not drawn.
const LEAST_SHARE: f64 = 0.25;

/// The bins of a route that enough of its runs reach.
fn lasting(path: &RoutePath) -> &[PathBin] {
    let runs = path.bins.first().map_or(0, |bin| bin.count);
    let enough = |bin: &&PathBin| bin.count as f64 >= LEAST_SHARE * runs as f64;
    &path.bins[..path.bins.iter().take_while(enough).count()]
}

/// What is written at the full seconds: one label where he hardly moves in between, `2 to 3 s`, or where he comes back,
/// `1 and 3 s`.
fn stays(seconds: &[(f64, (f64, f64))]) -> Vec<((f64, f64), String)> {
    let mut stays: Vec<((f64, f64), Vec<(f64, f64)>)> = Vec::new();
    for (nth, &(time_s, at)) in seconds.iter().enumerate() {
        let near = |place: (f64, f64)| (place.0 - at.0).abs() < 150.0 && (place.1 - at.1).abs() < 56.0;
        let before = nth.checked_sub(1).map(|before| seconds[before].0);
        match stays.iter_mut().find(|(place, _)| near(*place)) {
            Some((_, spans)) => match spans.last_mut() {
                Some((_, last)) if Some(*last) == before => *last = time_s,
                _ => spans.push((time_s, time_s)),
            },
            None => stays.push((at, vec![(time_s, time_s)])),
        }
    }
    let span = |(first, last): &(f64, f64)| {
        if first == last { format!("{first:.0}") } else { format!("{first:.0} to {last:.0}") }
    };
    let words = |spans: &[(f64, f64)]| spans.iter().map(span).collect::<Vec<_>>().join(" and ");
    stays.into_iter().map(|(at, spans)| (at, format!("{} s", words(&spans)))).collect()
}

/// Times that are written, at most.
const MOST_TIMES: usize = 4;

/// The times in question, evenly along the way; the last is one of them.
fn few(all: Vec<((f64, f64), String)>) -> Vec<((f64, f64), String)> {
    let count = all.len();
    let is_kept = |nth: usize| {
        count <= MOST_TIMES || (0..MOST_TIMES).any(|kept| nth == kept * (count - 1) / (MOST_TIMES - 1))
    };
    all.into_iter().enumerate().filter(|(nth, _)| is_kept(*nth)).map(|(_, own)| own).collect()
}

/// Times beside their places, each with a line to it: clear of the way, of the runner's mark and of one another.
fn times(floor: &Floor<'_>, seconds: &[(f64, (f64, f64))], way: &[(f64, f64)]) -> Markup {
    let mut taken: Vec<((f64, f64), f64)> = Vec::new();
    let mut drawn = Vec::new();
    for ((x, y), words) in few(stays(seconds)) {
        let half = 0.3 * 54.0 * words.chars().count() as f64 + 10.0;
        let spots = [90.0, 130.0, 170.0, 220.0, 280.0].into_iter().flat_map(|far: f64| {
            (0..16).map(move |turn| {
                let angle = std::f64::consts::TAU * (f64::from(turn) - 4.0) / 16.0;
                (x + (far + 0.7 * half) * libm::cos(angle), y + far * libm::sin(angle))
            })
        });
        let inside = |at: &(f64, f64)| {
            at.0 - half > MARGIN
                && at.0 + half < floor.width() - MARGIN
                && at.1 - 34.0 > HEAD
                && at.1 + 30.0 < floor.bottom()
        };
        let clear = |at: &(f64, f64)| {
            let off = |other: &(f64, f64), wide: f64, tall: f64| {
                (at.0 - other.0).abs() > wide || (at.1 - other.1).abs() > tall
            };
            let way_is = way.iter().all(|place| off(place, half + 26.0, 58.0));
            let start_is = way.first().is_none_or(|place| off(place, half + 60.0 * LARGER, 90.0 * LARGER));
            way_is && start_is && taken.iter().all(|(other, own)| off(other, half + own, 64.0))
        };
        let spots: Vec<(f64, f64)> = spots.filter(inside).collect();
        let Some(&at) = spots.iter().find(|at| clear(at)).or(spots.first()) else { continue };
        taken.push((at, half));
        drawn.push(html! {
            (super::drawing::line("leader", (x, y), (at.0 + (x - at.0).clamp(-half, half), at.1 + (y - at.1).clamp(-26.0, 24.0))))
            (label("mid on", at.0, at.1 + 18.0, &words))
        });
    }
    joined(drawn)
}

/// Where the middle half of the runs were at one time.
fn spread(floor: &Floor<'_>, bin: &PathBin) -> Markup {
    let ((left, up), (right, down)) = (floor.at(bin.x.low, bin.y.low), floor.at(bin.x.high, bin.y.high));
    let (width, height) = ((right - left).max(10.0), (down - up).max(10.0));
    html! { rect class="spread" x=(n(left)) y=(n(up)) width=(n(width)) height=(n(height)) rx="24" {} }
}

/// A time along the way, ringed at each full second.
fn tick((x, y): (f64, f64), bin: &PathBin) -> Markup {
    html! {
        circle class="tick" cx=(n(x)) cy=(n(y)) r=(if full_second(bin) { "20" } else { "5" })
            data-time=(bin.time_s) data-x=(raw(bin.x.median)) data-y=(raw(bin.y.median)) {}
    }
}

fn full_second(bin: &PathBin) -> bool {
    bin.time_s.fract() == 0.0
}

/// The places that he comes by, in order, as a coach names them.
fn caption(setup: &Setup, bins: &[PathBin], runs: &str) -> String {
    let by = bins.iter().filter(|bin| full_second(bin));
    let mut places: Vec<String> = by.map(|bin| named_place(setup, bin.x.median, bin.y.median)).collect();
    places.dedup();
    let seconds = bins.last().map_or(0.0, |bin| bin.time_s);
    match places.as_slice() {
        [] => format!("{runs} runs, few of them as long as a second."),
        [one] => format!("{runs} runs: about {one} all the time."),
        [first, between @ .., last] => {
            let by = if between.is_empty() { String::new() } else { format!(" by {}", listed(between)) };
            format!("{runs} runs: in about {seconds:.0} s from {first}{by} to {last}.")
        }
    }
}

/// What the signs mean.
fn key(top: f64, runs: &str) -> Markup {
    html! {
        (PreEscaped(marks::cut(&[(MARGIN + 8.0, top + 66.0), (MARGIN + 124.0, top + 66.0)])))
        (label("key", MARGIN + 150.0, top + 84.0, "usual path; ringed: each full second"))
        rect class="spread" x=(n(MARGIN)) y=(n(top + 116.0)) width="128" height="52" rx="24" {}
        (label("key", MARGIN + 150.0, top + 160.0, "where the middle half of the runs are"))
        (label("key", MARGIN, top + 236.0, &format!("3 rover, {runs} runs; drawn while a quarter of them last")))
    }
}

/// One route of one variant.
pub fn route((id, variant): (&str, &str), setup: &Setup, path: &RoutePath) -> Picture {
    let bins = lasting(path);
    let floor = Floor::holding(&setup.court, []);
    let median = |bin: &PathBin| floor.at(bin.x.median, bin.y.median);
    let way: Vec<(f64, f64)> = bins.iter().map(median).collect();
    let later = || bins.iter().skip(1);
    let seconds: Vec<(f64, (f64, f64))> =
        later().filter(|bin| full_second(bin)).map(|bin| (bin.time_s, median(bin))).collect();
    let runs = grouped(path.bins.first().map_or(0, |bin| bin.count));
    let over = html! {
        (PreEscaped(marks::cut(&way)))
        (joined(later().map(|bin| tick(median(bin), bin))))
        (times(&floor, &seconds, &way))
        @if let Some(first) = bins.first() { (attacker(median(first), 2)) }
    };
    // The name stands above already.
    let name = if path.route == variant { String::new() } else { format!("{} ", path.route) };
    let part = if path.program > 1 { format!("{name}part {} ", path.program) } else { name };
    floor.picture(
        Words {
            id,
            head: variant,
            sub: &format!("{part}as it was run"),
            desc: "Floor seen from midcourt, the side on which the rover began on the right.",
            caption: caption(setup, bins, &runs),
        },
        joined(bins.iter().map(|bin| spread(&floor, bin))),
        over,
        (262.0, key(floor.bottom(), &runs)),
    )
}
