//! A route as it was really run: the usual path (the median of the runs), the middle half of the runs, and the seconds on it.

use engine::setup::Setup;
use maud::{Markup, html};

use super::drawing::{HEAD, MARGIN, Picture, joined, label, n, tip};
use super::floor::{Floor, Words, attacker, named_place};
use super::lettering::letters;
use super::scale::raw;
use super::start::TIP;
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
/// `1, 3 s`.
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
    let words = |spans: &[(f64, f64)]| spans.iter().map(span).collect::<Vec<_>>().join(", ");
    stays.into_iter().map(|(at, spans)| (at, format!("{} s", words(&spans)))).collect()
}

/// A label beside a place: above it and to the right, or to the left and below where the floor ends.
fn beside(floor: &Floor<'_>, (x, y): (f64, f64), words: &str) -> Markup {
    let room = letters(floor.width() - MARGIN - x - 28.0, 54.0) >= words.chars().count();
    let below = if y < HEAD + 40.0 { 74.0 } else { -22.0 };
    if room { label("on", x + 28.0, y + below, words) } else { label("on end", x - 28.0, y + below, words) }
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
        (super::drawing::line("cut", (MARGIN + 8.0, top + 66.0), (MARGIN + 120.0, top + 66.0)))
        (label("key", MARGIN + 150.0, top + 84.0, "usual path; ringed: each full second"))
        rect class="spread" x=(n(MARGIN)) y=(n(top + 116.0)) width="128" height="52" rx="24" {}
        (label("key", MARGIN + 150.0, top + 160.0, "where the middle half of the runs are"))
        (label("key", MARGIN, top + 236.0, &format!("3 rover; {runs} runs; shown while 1 in 4 goes on")))
    }
}

/// One route of one variant.
pub fn route((id, variant): (&str, &str), setup: &Setup, path: &RoutePath) -> Picture {
    let floor = Floor::new(&setup.court);
    let bins = lasting(path);
    let median = |bin: &PathBin| floor.at(bin.x.median, bin.y.median);
    let way: Vec<String> = bins.iter().map(median).map(|(x, y)| format!("{} {}", n(x), n(y))).collect();
    let later = || bins.iter().skip(1);
    let seconds: Vec<(f64, (f64, f64))> =
        later().filter(|bin| full_second(bin)).map(|bin| (bin.time_s, median(bin))).collect();
    let runs = grouped(path.bins.first().map_or(0, |bin| bin.count));
    let over = html! {
        @if !way.is_empty() { polyline class="cut" points=(way.join(" ")) {} }
        (tip("cut", TIP, &bins.iter().map(median).collect::<Vec<_>>()))
        (joined(later().map(|bin| tick(median(bin), bin))))
        (joined(stays(&seconds).into_iter().map(|(at, words)| beside(&floor, at, &words))))
        @if let Some(first) = bins.first() { (attacker(median(first), 2)) }
    };
    let part =
        if path.program > 1 { format!("{} (part {})", path.route, path.program) } else { path.route.clone() };
    floor.picture(
        Words {
            id,
            head: variant,
            sub: &format!("{part} as it was run"),
            desc: "Floor seen from midcourt, the side on which the rover began on the right.",
            caption: caption(setup, bins, &runs),
        },
        joined(bins.iter().map(|bin| spread(&floor, bin))),
        over,
        (262.0, key(floor.bottom(), &runs)),
    )
}
