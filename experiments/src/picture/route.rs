//! A route or an option as it was really run: a typical run (the one that lies nearest to all the others) with the seconds on
//! it, some of the others thin, and whom it screens or seals.

use engine::math::vec2;
use engine::places::BIN_S;
use engine::setup::Setup;
use maud::{Markup, PreEscaped, html};

use super::drawing::{MARGIN, Picture, joined, label, n};
use super::floor::{Floor, LARGER, Words, all_beside, attacker, ball_of, defender, marked, named_place};
use super::labels::{self, Labels, covered};
use super::later::Later;
use super::lettering::{broken, letters};
use super::play::as_run;
use super::scale::raw;
use crate::marks::{self, At, gap};
use crate::places::{ATTACKERS, Held, Moment, Scene, Way, braces, in_twenty, position_words};
use crate::wording::listed;

/// Bins of a way in a second.
const SECOND: usize = (1.0 / BIN_S) as usize;
/// Nearer to the end of the way than this a second has no ring: it would lie in the arrow's head, or in the bar.
const CLEAR_OF_END: f64 = 90.0 * LARGER;

/// Rings that lie on each other have one label.
const ONE_RING: f64 = 40.0;

/// What is written at the full seconds, and at which rings: one label where he hardly moves in between, `2 to 3 s`, or where he
/// comes back, `1 and 3 s`.
fn stays(seconds: &[(f64, At)]) -> Vec<(Vec<At>, String)> {
    let mut stays: Vec<(Vec<At>, Vec<(f64, f64)>)> = Vec::new();
    for (nth, &(time_s, at)) in seconds.iter().enumerate() {
        let near = |place: At| gap(place, at) < ONE_RING;
        let before = nth.checked_sub(1).map(|before| seconds[before].0);
        match stays.iter_mut().find(|(places, _)| near(places[0])) {
            Some((places, spans)) => {
                places.push(at);
                match spans.last_mut() {
                    Some((_, last)) if Some(*last) == before => *last = time_s,
                    _ => spans.push((time_s, time_s)),
                }
            }
            None => stays.push((vec![at], vec![(time_s, time_s)])),
        }
    }
    let span = |(first, last): &(f64, f64)| {
        if first == last { format!("{first:.0}") } else { format!("{first:.0} to {last:.0}") }
    };
    let words = |spans: &[(f64, f64)]| spans.iter().map(span).collect::<Vec<_>>().join(" and ");
    stays.into_iter().map(|(at, spans)| (at, format!("{} s", words(&spans)))).collect()
}

/// Times beside their places, each with a line to it.
fn times(labels: &mut Labels, seconds: &[(f64, At)], (way, start): (&[At], Option<&At>)) -> Markup {
    let mut drawn = Vec::new();
    for (rings, words) in stays(seconds) {
        let others: Vec<At> = seconds.iter().map(|own| own.1).filter(|at| !rings.contains(at)).collect();
        let Some((at, half)) = labels.beside((rings[0], &others), &words, (way, start)) else { continue };
        let edge =
            |ring: At| (at.0 + (ring.0 - at.0).clamp(-half, half), at.1 + (ring.1 - at.1).clamp(-26.0, 24.0));
        drawn.push(html! {
            @for ring in rings { (super::drawing::line("leader", ring, edge(ring))) }
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
fn key(floor: &Floor<'_>, way: &Way, [runs, rings, thrown, later]: [bool; 4]) -> (f64, Markup) {
    let most = letters(floor.width() - 2.0 * MARGIN, 54.0);
    let number = way.runner + 1;
    let who =
        format!("drawn so that {number}, the {}, starts on the right", position_words(ATTACKERS[way.runner]));
    let usual = if rings { "a typical run; rings: seconds" } else { "a typical run" };
    let signs: [(bool, fn([At; 2]) -> Markup, &str); 3] = [
        (runs, |ends| PreEscaped(marks::cut(&ends)), usual),
        (
            runs && !way.others.is_empty(),
            |[from, to]| super::drawing::line("beside", from, to),
            "some of the other runs",
        ),
        (
            way.held.is_some(),
            // Smaller than on the floor: it may not reach into the next line.
            |[(x, y), _]| html! { g transform=(format!("translate({} {}) scale(0.6)", n(x), n(y))) { (PreEscaped(marks::bar((0.0, 0.0), 0.0))) } },
            if way.held.as_ref().is_some_and(|own| own.is_seal) {
                "seal of the defender there"
            } else {
                "screen of the defender there"
            },
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
    let around = way.scene.as_ref().map(|scene| {
        let when = match scene.moment {
            Moment::Passes => "passes".into(),
            Moment::SetsOut => "sets out".into(),
            Moment::Screens => format!("screens, {:.1}\u{a0}s after he sets out", scene.time_s),
            Moment::Seals => format!("seals, {:.1}\u{a0}s after he sets out", scene.time_s),
        };
        let thrown = if thrown { "; dashed: the pass on its way" } else { "" };
        let later = if later { "; smaller balls: where it is later" } else { "" };
        format!("others and ball: as {number} (filled) {when}{thrown}{later}")
    });
    let around = around.into_iter().flat_map(|words| broken(&words, most, most));
    let told: Vec<String> = around.chain(broken(&who, most, most)).collect();
    let first = body.len();
    body.extend(told.iter().enumerate().map(|(nth, words)| label("key", MARGIN, line(first + nth), words)));
    (line(body.len()) - floor.bottom() - 50.0, joined(body))
}

/// Where a defender is drawn who is held: marks are larger than bodies are.
fn held_at(floor: &Floor<'_>, held: &Held) -> At {
    let (from, at) = (floor.at(held.from.0, held.from.1), floor.at(held.at.0, held.at.1));
    let far = (marks::BEYOND_BAR * LARGER / gap(from, at).max(1.0)).max(1.0);
    (from.0 + far * (at.0 - from.0), from.1 + far * (at.1 - from.1))
}

/// A screen or a seal: a bar turned to the defender whom he holds, and that defender beyond it.
fn held(floor: &Floor<'_>, setup: &Setup, held: &Held) -> Markup {
    let (from, at) = (floor.at(held.from.0, held.from.1), held_at(floor, held));
    let facing = libm::atan2(at.1 - from.1, at.0 - from.0).to_degrees();
    html! {
        (marked(&[from], |from| marks::bar(from[0], facing)))
        g data-held=(held.position) { (defender(at, (setup, held.position), held.side)) }
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
        let mut along: Vec<At> = way.places.iter().map(|at| floor.at(at.0, at.1)).collect();
        let mut stay = vec![way.runner];
        // Nobody stands under a bar, or on whom it holds.
        if let Some(own) = &way.held {
            let held = 5 + own.position;
            marks[held] = held_at(floor, own);
            along.extend(labels::along([floor.at(own.from.0, own.from.1), marks[held]]));
            stay.push(held);
        }
        marks[way.runner] = floor.of(places[way.runner]);
        all_beside(&mut marks, &along, &stay, floor.frame());
        Some(Self { scene, marks })
    }

    /// All but the runner, and those whom he holds: they stand where he does.
    fn drawn(&self, floor: &Floor<'_>, setup: &Setup, way: &Way) -> Markup {
        let (scene, marks) = (self.scene, &self.marks);
        let is_held = |position: usize| way.held.as_ref().is_some_and(|held| held.position == position);
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
    let holds: Vec<At> = way.held.iter().map(|held| floor.at(held.at.0, held.at.1)).collect();
    let is_held = way.scene.as_ref().is_some_and(|scene| scene.moment != Moment::SetsOut);
    let shown = others.as_ref().map_or(&[][..], |others| &others.marks);
    let of_others = shown.iter().enumerate().filter(|(slot, _)| *slot != way.runner).map(|(_, at)| at);
    let later = others
        .as_ref()
        .map_or_else(Later::default, |others| Later::new(&floor, others.scene, (way, 1.0), &others.marks));
    let off = [&places[..], &holds[..], &covered(of_others)[..], &later.along()[..]].concat();
    let mut labels = Labels::new((floor.width(), floor.bottom()));
    let times = if runs {
        times(&mut labels, &told, (&off, if is_held { places.last() } else { places.first() }))
    } else {
        joined(Vec::<Markup>::new())
    };
    let balls = later.drawn(&mut labels, &off);
    let over = html! {
        // Beside a run that is not drawn the others are a scribble.
        @if runs { (joined(way.others.iter().map(|run| thin(&floor, run)))) }
        @if let Some(others) = &others { (others.drawn(&floor, setup, way)) }
        (marked(&places, |places| if way.held.is_none() { as_run(setup, way, places, 1.0) } else { marks::trail(places) }))
        (joined(rings.iter().map(|own| ring(own))))
        @if let Some(own) = &way.held { (held(&floor, setup, own)) }
        (times)
        (balls)
        @if let Some(at) = if is_held { places.last() } else { places.first() } { (attacker(*at, way.runner)) }
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
        key(&floor, way, [runs, !rings.is_empty(), later.is_thrown(), !later.is_empty()]),
    )
}
