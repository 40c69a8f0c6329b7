//! The floor of a picture: the rim at the top, as the attack sees it from midcourt; one unit a centimetre.

use engine::math::Vec2;
use engine::setup::{Court, Setup};
use maud::{Markup, PreEscaped, html};

use super::court::{Line, Part, lines};
use super::drawing::{HEAD, Key, MARGIN, Picture, joined, label, n, rect};
use super::lettering::{broken, heading};
use crate::marks::{self, At};

/// Pictures stand in columns, so their marks are drawn larger than a film's, or their letters could not be read there.
pub(super) const LARGER: f64 = 1.3;
/// Nearest that two marks may lie for both to be read.
const APART: f64 = 98.0 * LARGER;

/// Places of marks, moved apart where one would lie nearer to another than `least`.
pub fn apart<const N: usize>(mut at: [(f64, f64); N], least: f64) -> [(f64, f64); N] {
    // Few passes are enough: no more than two or three ever stand together.
    for _ in 0..12 {
        for a in 0..N {
            for b in 0..a {
                let (dx, dy) = (at[a].0 - at[b].0, at[a].1 - at[b].1);
                let gap = (dx * dx + dy * dy).sqrt();
                if gap >= least {
                    continue;
                }
                // Two at the same place part along the floor's length.
                let (ux, uy) = if gap > 1e-6 { (dx / gap, dy / gap) } else { (0.0, 1.0) };
                let push = (least - gap) / 2.0;
                at[a] = (at[a].0 + push * ux, at[a].1 + push * uy);
                at[b] = (at[b].0 - push * ux, at[b].1 - push * uy);
            }
        }
    }
    at
}

/// A court laid out in a picture.
pub(super) struct Floor<'a> {
    court: &'a Court,
    /// How far it is drawn from the rim, m.
    deep_m: f64,
}

/// A floor on which nothing lies farther out is drawn as far as this from the rim, m: the arc and some room.
const DEEP_M: f64 = 9.4;
/// What belongs to the picture under the floor's lower edge: half of a line of the court.
const EDGE: f64 = 4.0;
/// Room between who stands farthest out and the edge, m.
const ROOM_M: f64 = 0.9;

impl<'a> Floor<'a> {
    pub fn new(court: &'a Court) -> Self {
        Self { court, deep_m: f64::from(court.midcourt_y_m) }
    }

    /// As much of it as holds these places (m) and the arc.
    pub fn holding(court: &'a Court, places: impl IntoIterator<Item = Vec2>) -> Self {
        let far = places.into_iter().map(|at| f64::from(at.y) + ROOM_M).fold(DEEP_M, f64::max);
        Self { court, deep_m: far.min(f64::from(court.midcourt_y_m)) }
    }

    /// Width of the picture.
    pub fn width(&self) -> f64 {
        200.0 * f64::from(self.court.half_width_m) + 2.0 * MARGIN
    }

    /// Lower edge of the floor, where the legend begins.
    pub fn bottom(&self) -> f64 {
        self.at(0.0, self.deep_m).1
    }

    /// A place (m) in units.
    pub fn at(&self, x: f64, y: f64) -> (f64, f64) {
        let (half, base) = (f64::from(self.court.half_width_m), f64::from(self.court.baseline_y_m));
        (MARGIN + 100.0 * (x + half), HEAD + 100.0 * (y - base))
    }

    /// A place of the engine's in units.
    pub fn of(&self, at: Vec2) -> (f64, f64) {
        self.at(f64::from(at.x), f64::from(at.y))
    }

    /// Upper left and lower right of where marks may be moved to, units.
    pub fn frame(&self) -> [At; 2] {
        let edge = marks::DISC * LARGER;
        let (half, base) = (f64::from(self.court.half_width_m), f64::from(self.court.baseline_y_m));
        let ((left, top), (right, _)) = (self.at(-half, base), self.at(half, base));
        [(left + edge, top + edge), (right - edge, self.bottom() - edge)]
    }

    /// Places in units, moved apart where marks would cover one another.
    pub fn apart<const N: usize>(&self, places: [Vec2; N]) -> [(f64, f64); N] {
        apart(places.map(|place| self.of(place)), APART)
    }

    /// Whether a cell with this centre lies on the floor at least by half.
    pub fn shows(&self, x: f64, y: f64) -> bool {
        let (half, base) = (f64::from(self.court.half_width_m), f64::from(self.court.baseline_y_m));
        x.abs() <= half && (base..=f64::from(self.court.midcourt_y_m)).contains(&y)
    }

    fn sheet(&self) -> Markup {
        let (x, y) = self.at(-f64::from(self.court.half_width_m), f64::from(self.court.baseline_y_m));
        rect("sheet", x, y, self.width() - 2.0 * MARGIN, self.bottom() - y)
    }

    /// The lane, darker than the floor.
    fn lane(&self) -> Markup {
        let drawn = lines(self.court).into_iter().filter_map(|(part, line)| match (part, line) {
            (Part::Lane, Line::Rectangle(a, b)) => {
                let ((ax, ay), (bx, by)) = (self.of(a), self.of(b));
                Some(rect("lane", ax, ay, bx - ax, by - ay))
            }
            _ => None,
        });
        joined(drawn)
    }

    /// The lines of the court, as far as it is drawn.
    fn lines(&self) -> Markup {
        let whole = self.deep_m >= f64::from(self.court.midcourt_y_m);
        let drawn = |(part, line): (Part, Line)| {
            let class = match part {
                Part::Rim => "court rim",
                Part::HiddenHalf => "court hidden",
                _ => "court",
            };
            match line {
                Line::Segment(a, b) => super::drawing::line(class, self.of(a), self.of(b)),
                Line::Circle(middle, radius) => {
                    let (x, y) = self.of(middle);
                    html! { circle class=(class) cx=(n(x)) cy=(n(y)) r=(n(100.0 * f64::from(radius))) {} }
                }
                Line::Arc(a, b, radius, out) => {
                    let ((ax, ay), (bx, by)) = (self.of(a), self.of(b));
                    let (r, sweep) = (n(100.0 * f64::from(radius)), u8::from(!out));
                    let path = format!("M{} {}A{r} {r} 0 0 {sweep} {} {}", n(ax), n(ay), n(bx), n(by));
                    html! { path class=(class) d=(path) {} }
                }
                Line::Rectangle(a, b) => {
                    let ((ax, ay), (bx, by)) = (self.of(a), self.of(b));
                    rect(class, ax, ay, bx - ax, by - ay)
                }
            }
        };
        let seen = |(part, _): &(Part, Line)| *part != Part::Edge && (whole || *part != Part::CentreCircle);
        let edge = self.edge(whole);
        html! { (edge) (joined(lines(self.court).into_iter().filter(seen).map(drawn))) }
    }

    /// Places along the lines of the court, in units.
    pub fn along_lines(&self) -> Vec<(f64, f64)> {
        lines(self.court).into_iter().flat_map(|(_, line)| line.along()).map(|at| self.of(at)).collect()
    }

    /// The lines round the floor: three of four where it is not drawn down to midcourt.
    fn edge(&self, whole: bool) -> Markup {
        let half = f64::from(self.court.half_width_m);
        let (left, top) = self.at(-half, f64::from(self.court.baseline_y_m));
        let (right, bottom) = (self.at(half, 0.0).0, self.bottom());
        let path = format!(
            "M{} {}V{}H{}V{}{}",
            n(left),
            n(bottom),
            n(top),
            n(right),
            n(bottom),
            if whole { "z" } else { "" }
        );
        html! { path class="court" d=(path) {} }
    }

    /// The floor with its lines and nothing else.
    pub fn bare(&self) -> Markup {
        html! { (self.sheet()) (self.lane()) (self.lines()) }
    }

    /// The nearer part of the floor alone, without words: what lies over the lines, down to `to_y_m` from the rim.
    pub fn part(&self, words: Words<'_>, over: Markup, to_y_m: f64) -> Picture {
        let up = HEAD - MARGIN / 2.0;
        Picture {
            id: words.id.to_owned(),
            title: words.head.to_owned(),
            caption: words.caption,
            desc: words.desc.to_owned(),
            width: self.width(),
            height: self.at(0.0, to_y_m).1 - up,
            body: html! { g transform=(format!("translate(0 -{})", n(up))) { (self.bare()) (over) } },
            key: None,
        }
    }

    /// A whole picture: heading, floor, what lies under and over the lines, and a legend of some height.
    pub fn picture(&self, words: Words<'_>, under: Markup, over: Markup, legend: (f64, Markup)) -> Picture {
        let body = html! {
            (heading(words.head, words.sub, self.width()))
            (self.sheet()) (self.lane()) (under)
            // On a shade a line is seen by its pale edge.
            @if !under.0.is_empty() { g class="halo" { (self.lines()) } }
            (self.lines()) (over)
        };
        Picture {
            id: words.id.to_owned(),
            title: format!("{}: {}", words.head, words.sub),
            caption: words.caption,
            desc: words.desc.to_owned(),
            width: self.width(),
            height: self.bottom() + EDGE,
            body,
            key: Some(Key { height: legend.0 - EDGE, body: legend.1 }),
        }
    }
}

/// The words of a picture.
pub(super) struct Words<'a> {
    pub id: &'a str,
    pub head: &'a str,
    pub sub: &'a str,
    pub desc: &'a str,
    pub caption: String,
}

/// How every floor that is turned to the rover's side is described.
pub(super) const TURNED: &str = "Floor seen from midcourt, the rover's starting side on the right.";

/// A place (m) by the trade's name, the right side being that on which he begins: `his wing`, `the other corner`.
pub(super) fn named_place(setup: &Setup, x: f64, y: f64) -> String {
    let name = engine::names::place(setup, Vec2 { x: x as f32, y: y as f32 });
    name.replace("the right ", "his ").replace("the left ", "the other ")
}

/// Marks that lie at these places, drawn larger.
pub(super) fn marked(places: &[(f64, f64)], draw: impl Fn(&[(f64, f64)]) -> String) -> Markup {
    let places: Vec<(f64, f64)> = places.iter().map(|(x, y)| (x / LARGER, y / LARGER)).collect();
    html! { g transform=(format!("scale({LARGER})")) { (PreEscaped(draw(&places))) } }
}

/// An attacker with his number.
pub(super) fn attacker(at: (f64, f64), slot: usize) -> Markup {
    marked(&[at], |at| marks::attacker(at[0], &(slot + 1).to_string()))
}

/// A defender with his letters; `side` is +1 where the rover started on the right.
pub(super) fn defender(at: (f64, f64), (setup, position): (&Setup, usize), side: f64) -> Markup {
    marked(&[at], |at| marks::defender(at[0], &crate::places::defender_letters(&setup.zone, position, side)))
}

/// The ball in the hands of a player who is drawn here: beside him, on the side away from the nearest other mark.
pub(super) fn ball_of((x, y): (f64, f64), others: &[(f64, f64)]) -> Markup {
    let off = 46.0 * LARGER;
    let spots = [(off, off), (-off, off), (off, -off), (-off, -off)].map(|(dx, dy)| (x + dx, y + dy));
    let room = |spot: &(f64, f64)| {
        // Over the baseline stand the words.
        let over = if spot.1 < HEAD + 24.0 { 0.0 } else { f64::INFINITY };
        let others = others.iter().filter(|other| **other != (x, y));
        others.map(|other| marks::gap(*spot, *other)).fold(over, f64::min)
    };
    let clear = spots.iter().find(|spot| room(spot) >= 70.0 * LARGER);
    let at = clear.or(spots.iter().max_by(|a, b| room(a).total_cmp(&room(b)))).unwrap_or(&spots[0]);
    marked(&[*at], |at| marks::ball(at[0], 1.0))
}

/// A mark lies at least this far from a way, or its letters could not be read.
const BESIDE_WAY: f64 = 1.35 * marks::DISC * LARGER;
/// So much nearer two marks still count as apart: pushing them comes no closer.
const NEARLY: f64 = 2.0;

/// Rings of places that are tried about a mark: no farther than 1.6 m, or the picture would be wrong of where he stands. (a choice)
const RINGS: usize = 12;
/// How far a ring lies from the next. (a choice)
const RING: f64 = 0.25 * marks::DISC * LARGER;
/// Places on each ring. (a choice)
const ON_RING: usize = 24;

/// Where a mark is drawn that has to be clear of some places and of the other marks: its own place, or else the roomiest of the nearest
/// ring on which one is clear, or where there is most room. `frame` holds its upper left and lower right.
pub(super) fn beside(mark: At, clear_of: &[At], others: &[At], [from, to]: [At; 2]) -> At {
    let gaps = |to: &[At], at: At| to.iter().map(|own| marks::gap(*own, at)).fold(f64::INFINITY, f64::min);
    // Below 0 it covers something.
    let room = |at: At| (gaps(clear_of, at) - BESIDE_WAY).min(gaps(others, at) - APART + NEARLY);
    let inside = |at: At| (from.0..=to.0).contains(&at.0) && (from.1..=to.1).contains(&at.1);
    let mut best = (room(mark), mark);
    for ring in 1..=RINGS {
        if best.0 >= 0.0 {
            break;
        }
        for nth in 0..ON_RING {
            let (sin, cos) = libm::sincos(std::f64::consts::TAU * nth as f64 / ON_RING as f64);
            let far = RING * ring as f64;
            let at = (mark.0 + far * cos, mark.1 + far * sin);
            if inside(at) && room(at) > best.0 {
                best = (room(at), at);
            }
        }
    }
    best.1
}

/// Draws marks clear of some places and of one another, all but those of `stay`.
pub(super) fn all_beside(marks: &mut [At], clear_of: &[At], stay: &[usize], frame: [At; 2]) {
    for moved in (0..marks.len()).filter(|own| !stay.contains(own)) {
        let others: Vec<At> =
            marks.iter().enumerate().filter(|(own, _)| *own != moved).map(|(_, at)| *at).collect();
        marks[moved] = beside(marks[moved], clear_of, &others, frame);
    }
}

/// A legend of who is who, and what comes after it: its height, and its lines, broken where they are too long.
pub(super) fn who_is_who(floor: &Floor<'_>, setup: &Setup, after: &[&str]) -> (f64, Markup) {
    let letters = crate::places::letters_told(&setup.zone);
    let most = super::lettering::letters(floor.width() - 2.0 * MARGIN, 54.0);
    let all = NUMBERS.into_iter().chain([letters.as_str()]).chain(after.iter().copied());
    let lines: Vec<String> = all.flat_map(|words| broken(words, most, most)).collect();
    let line = |(nth, words): (usize, &String)| {
        label("key", MARGIN, floor.bottom() + 70.0 + 66.0 * nth as f64, words)
    };
    (36.0 + 66.0 * lines.len() as f64, joined(lines.iter().enumerate().map(line)))
}

/// The numbers of the attackers in words, for legends.
pub(super) const NUMBERS: [&str; 2] =
    ["attackers: 1 lead guard, 2 off guard, 3 rover,", "4 post on the rover's side, 5 other post"];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn marks_that_would_cover_one_another_part_and_others_stay() {
        let setup = scenarios::scenario(std::path::Path::new("sunken-122")).unwrap().setup;
        let floor = Floor::new(&setup.court);
        let at = |x, y| Vec2 { x, y };
        let places = [at(1.0, 2.0), at(1.2, 2.1), at(1.0, 2.0), at(-4.0, 5.0)];
        let apart = floor.apart(places);
        let gap = |a: usize, b: usize| marks::gap(apart[a], apart[b]);
        for (a, b) in [(0, 1), (0, 2), (1, 2)] {
            assert!(gap(a, b) > APART - 2.0, "{a} and {b} lie {} apart", gap(a, b));
        }
        assert_eq!(apart[3], floor.of(places[3]));
    }

    const FRAME: [At; 2] = [(0.0, 0.0), (1600.0, 1600.0)];

    #[test]
    fn a_mark_under_a_way_goes_beside_it_but_not_onto_another_mark() {
        let along: Vec<At> = (0..60).map(|nth| (10.0 * f64::from(nth), 500.0)).collect();
        // To the upper side of the way it would be nearer, and there one stands.
        let (other, runner) = ((300.0, 380.0), (0.0, 500.0));
        let mut all = [(300.0, 490.0), other, runner];
        all_beside(&mut all, &along, &[1, 2], FRAME);
        assert_eq!(all[1..], [other, runner]);
        assert!(along.iter().all(|own| marks::gap(*own, all[0]) >= BESIDE_WAY), "{all:?}");
        assert!(marks::gap(all[0], other) >= APART - NEARLY, "{all:?}");
    }

    #[test]
    fn a_mark_goes_straight_off_a_way_stays_in_the_frame_and_where_it_is_clear() {
        let along: Vec<At> = (0..60).map(|nth| (10.0 * f64::from(nth), 500.0)).collect();
        let (x, y) = beside((300.0, 450.0), &along, &[], FRAME);
        assert!((x - 300.0).abs() < 1.0 && y < 450.0, "{x} {y}");
        let low = beside((300.0, 510.0), &along, &[], [(0.0, 0.0), (1600.0, 560.0)]);
        assert!(low.1 <= 500.0 - BESIDE_WAY, "{low:?}");
        let mut pair = apart([(300.0, 900.0), (310.0, 905.0)], APART);
        let before = pair;
        all_beside(&mut pair, &along, &[], FRAME);
        assert_eq!(pair, before);
    }
}
