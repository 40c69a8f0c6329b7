//! A route or an option as it was really run: a typical run (the one that lies nearest to all the others) with the seconds on
//! it, some of the others thin, and whom it screens or seals.

use engine::math::vec2;
use engine::places::BIN_S;
use engine::setup::Setup;
use maud::{Markup, PreEscaped, html};

use super::drawing::{HEAD, MARGIN, Picture, joined, label, n};
use super::floor::{Floor, LARGER, Words, attacker, ball_of, beside, defender, marked, named_place};
use super::lettering::{broken, letters};
use super::play::as_run;
use super::scale::raw;
use crate::marks::{self, At, gap};
use crate::places::{ATTACKERS, Held, Scene, Way, braces, in_twenty, position_words};
use crate::wording::listed;

/// Bins of a way in a second.
const SECOND: usize = (1.0 / BIN_S) as usize;
/// Nearer to the end of the way than this a second has no ring: it would lie in the arrow's head, or in the bar.
const CLEAR_OF_END: f64 = 90.0 * LARGER;

/// Bars nearer to each other than this lie on each other.
const NEAR_BAR: f64 = 100.0 * LARGER;

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

/// Times beside their places, each with a line to it: clear of the way, of the runner's mark and of one another.
fn times(floor: &Floor<'_>, seconds: &[(f64, (f64, f64))], way: &[(f64, f64)]) -> Markup {
    let mut taken: Vec<((f64, f64), f64)> = Vec::new();
    let mut drawn = Vec::new();
    for ((x, y), words) in stays(seconds) {
        let half = 0.3 * 54.0 * words.chars().count() as f64 + 10.0;
        let spots = [70.0, 90.0, 110.0, 130.0, 170.0, 220.0, 280.0].into_iter().flat_map(|far: f64| {
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

/// A full second on the way.
struct Second {
    at: At,
    /// The place in metres.
    place: (f64, f64),
    time_s: f64,
}

/// The full seconds of a way after its start.
fn seconds(floor: &Floor<'_>, way: &Way) -> Vec<Second> {
    let all = way.places.iter().enumerate().skip(SECOND).step_by(SECOND);
    let second = |(bin, place): (usize, &(f64, f64))| Second {
        at: floor.at(place.0, place.1),
        place: *place,
        time_s: (bin / SECOND) as f64,
    };
    all.map(second).collect()
}

/// A second, ringed.
fn ring(second: &Second) -> Markup {
    html! {
        circle class="tick" cx=(n(second.at.0)) cy=(n(second.at.1)) r="20"
            data-time=(second.time_s) data-x=(raw(second.place.0)) data-y=(raw(second.place.1)) {}
    }
}

/// A run beside the usual one.
fn thin(floor: &Floor<'_>, run: &[(f64, f64)]) -> Markup {
    let at = |place: &(f64, f64)| {
        let (x, y) = floor.at(place.0, place.1);
        format!("{} {}", n(x), n(y))
    };
    let points: Vec<String> = run.iter().map(at).collect();
    html! { polyline class="beside" points=(points.join(" ")) {} }
}

/// The places that he comes by, in order, as a coach names them, and how long that takes.
fn caption(setup: &Setup, way: &Way) -> String {
    let by = way.places.iter().step_by(SECOND).chain(way.places.last());
    let mut places: Vec<String> = by.map(|at| named_place(setup, at.0, at.1)).collect();
    places.dedup();
    let time_s = (way.places.len() - 1) as f32 * BIN_S;
    let went = match places.as_slice() {
        [] => String::new(),
        [one] => format!("About {one} all the time."),
        [first, between @ .., last] => {
            let by = if between.is_empty() { String::new() } else { format!(" by {}", listed(between)) };
            format!("In about {time_s:.0} s from {first}{by} to {last}.")
        }
    };
    let held = if braces(&setup.attack.programs[way.program]) {
        format!(" In {} of {} runs he got his body on a defender.", way.held_in, way.runs)
    } else {
        String::new()
    };
    went + &held
}

/// What the signs mean, of those that are there.
fn key(floor: &Floor<'_>, way: &Way, [runs, rings]: [bool; 2]) -> (f64, Markup) {
    let most = letters(floor.width() - 2.0 * MARGIN, 54.0);
    let number = way.runner + 1;
    let who = format!(
        "{number} {}; drawn with {number} starting on the right",
        position_words(ATTACKERS[way.runner])
    );
    let usual = if rings { "a typical run; rings: seconds" } else { "a typical run" };
    let signs: [(bool, fn([At; 2]) -> Markup, &str); 3] = [
        (runs, |ends| PreEscaped(marks::cut(&ends)), usual),
        (
            runs && !way.others.is_empty(),
            |[from, to]| super::drawing::line("beside", from, to),
            "some of the other runs",
        ),
        (
            !way.held.is_empty(),
            // Smaller than on the floor: it may not reach into the next line.
            |[(x, y), _]| html! { g transform=(format!("translate({} {}) scale(0.6)", n(x), n(y))) { (PreEscaped(marks::bar((0.0, 0.0), 0.0))) } },
            "screen or seal of the defender there",
        ),
    ];
    let line = |nth: usize| floor.bottom() + 84.0 + 76.0 * nth as f64;
    let there = signs.into_iter().filter(|(is_there, _, _)| *is_there).enumerate();
    let mut body: Vec<Markup> = there
        .map(|(nth, (_, sign, words))| {
            let y = line(nth) - 18.0;
            html! { (sign([(MARGIN + 8.0, y), (MARGIN + 124.0, y)])) (label("key", MARGIN + 150.0, line(nth), words)) }
        })
        .collect();
    let around = way.scene.map(|_| format!("the other players and the ball: as {number} sets out"));
    let around = around.into_iter().flat_map(|words| broken(&words, most, most));
    let told: Vec<String> = around.chain(broken(&who, most, most)).collect();
    let first = body.len();
    body.extend(told.iter().enumerate().map(|(nth, words)| label("key", MARGIN, line(first + nth), words)));
    (line(body.len()) - floor.bottom() - 50.0, joined(body))
}

/// A screen or a seal: a bar turned to the defender whom he holds, and that defender beyond it.
fn held(floor: &Floor<'_>, setup: &Setup, held: &Held, is_last: bool) -> Markup {
    let (from, at) = (floor.at(held.from.0, held.from.1), floor.at(held.at.0, held.at.1));
    let (dx, dy) = (at.0 - from.0, at.1 - from.1);
    // Marks are drawn larger than bodies are.
    let far = (marks::BEYOND_BAR * LARGER / gap(from, at).max(1.0)).max(1.0);
    let at = (from.0 + far * dx, from.1 + far * dy);
    let facing = libm::atan2(dy, dx).to_degrees();
    html! {
        (marked(&[from], |from| marks::bar(from[0], facing)))
        // Whom he holds twice is there once, where he is last.
        @if is_last { g data-held=(held.position) { (defender(at, (setup, held.position), held.side)) } }
    }
}

/// The others and the ball as a run begins, for who draws it in full.
struct Others<'a> {
    scene: &'a Scene,
    /// Marks of all players, the runner's where he really is.
    marks: [At; 10],
}

impl<'a> Others<'a> {
    fn new(floor: &Floor<'_>, way: &'a Way) -> Option<Self> {
        let scene = way.scene.as_ref()?;
        let places = scene.players.map(|(x, y)| vec2(x as f32, y as f32));
        let mut marks = floor.apart(places);
        let along: Vec<At> = way.places.iter().map(|at| floor.at(at.0, at.1)).collect();
        for mark in &mut marks {
            *mark = beside(*mark, &along);
        }
        marks[way.runner] = floor.of(places[way.runner]);
        Some(Self { scene, marks })
    }

    /// All but the runner, and those whom he holds: they stand where he does.
    fn drawn(&self, floor: &Floor<'_>, setup: &Setup, way: &Way) -> Markup {
        let (scene, marks) = (self.scene, &self.marks);
        let is_held = |position: usize| way.held.iter().any(|held| held.position == position);
        html! {
            (joined((0..5).filter(|slot| *slot != way.runner).map(|slot| {
                marked(&[marks[slot]], |at| marks::mate(at[0], &(slot + 1).to_string()))
            })))
            (joined((0..5).filter(|position| !is_held(*position)).map(|position| {
                defender(marks[5 + position], (setup, position), scene.side)
            })))
            @match scene.holder {
                Some(holder) => (ball_of(marks[holder], marks)),
                None => (marked(&[floor.at(scene.ball.0, scene.ball.1)], |at| marks::ball(at[0], 1.0))),
            }
        }
    }

    /// Places that no time may cover: the middle and the edges of each mark.
    fn covered(&self, runner: usize) -> Vec<At> {
        let far = 44.0 * LARGER;
        let of = |(_, (x, y)): (usize, &At)| {
            [(*x, *y), (x - far, *y), (x + far, *y), (*x, y - far), (*x, y + far)]
        };
        self.marks.iter().enumerate().filter(|(slot, _)| *slot != runner).flat_map(of).collect()
    }
}

/// One route or option of one variant.
pub fn route((id, variant): (&str, &str), setup: &Setup, way: &Way) -> Picture {
    let around = way.scene.iter().flat_map(|scene| scene.players);
    let floor = Floor::holding(&setup.court, around.map(|(x, y)| vec2(x as f32, y as f32)));
    let way = &Way { places: way.led().to_vec(), ..way.clone() };
    let others = Others::new(&floor, way);
    let places: Vec<At> = way.places.iter().map(|at| floor.at(at.0, at.1)).collect();
    let seconds = seconds(&floor, way);
    let end = places.last().copied().unwrap_or_default();
    let rings: Vec<&Second> = seconds.iter().filter(|own| gap(own.at, end) > CLEAR_OF_END).collect();
    // What is not seen beside his mark is no way.
    let runs = places.iter().any(|at| gap(*at, places[0]) > 2.0 * LARGER * marks::DISC);
    let told: Vec<(f64, At)> = rings.iter().map(|own| (own.time_s, own.at)).collect();
    let is_last = |nth: usize| way.held[nth + 1..].iter().all(|own| own.position != way.held[nth].position);
    // Two bars on one defender that lie on each other are a scribble: the later one tells both.
    let is_again = |nth: usize| {
        let own = &way.held[nth];
        let near = |other: &Held| {
            gap(floor.at(own.from.0, own.from.1), floor.at(other.from.0, other.from.1)) < NEAR_BAR
        };
        way.held[nth + 1..].iter().any(|other| other.position == own.position && near(other))
    };
    let holds: Vec<At> = way.held.iter().map(|held| floor.at(held.at.0, held.at.1)).collect();
    let covered = others.as_ref().map_or_else(Vec::new, |others| others.covered(way.runner));
    let over = html! {
        // Beside a run that is not drawn the others are a scribble.
        @if runs { (joined(way.others.iter().map(|run| thin(&floor, run)))) }
        @if let Some(others) = &others { (others.drawn(&floor, setup, way)) }
        (marked(&places, |places| if way.held.is_empty() { as_run(setup, way, places, 1.0) } else { marks::trail(places) }))
        (joined(rings.iter().map(|own| ring(own))))
        (joined((0..way.held.len()).filter(|nth| !is_again(*nth)).map(|nth| held(&floor, setup, &way.held[nth], is_last(nth)))))
        @if runs { (times(&floor, &told, &[&places[..], &holds[..], &covered[..]].concat())) }
        @if let Some(first) = places.first() { (attacker(*first, way.runner)) }
    };
    let program = &setup.attack.programs[way.program];
    // The name stands above already.
    let name = if program.name == variant { String::new() } else { format!("{}, ", program.name) };
    let part = match way.part(setup) {
        (_, 1) => String::new(),
        (nth, _) => format!("part {nth}, "),
    };
    let begun = in_twenty(way.begun.0 as u64, way.begun.1 as u64);
    floor.picture(
        Words {
            id,
            head: variant,
            sub: &format!("{name}{part}begun in {begun} of 20 possessions"),
            desc: "Floor seen from midcourt, the side on which the runner began on the right.",
            caption: caption(setup, way),
        },
        html! {},
        over,
        key(&floor, way, [runs, !rings.is_empty()]),
    )
}
