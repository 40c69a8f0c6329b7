//! The floor of a picture: the rim at the top, as the attack sees it from midcourt; one unit a centimetre.

use engine::math::Vec2;
use engine::setup::{Court, Setup};
use maud::{Markup, html};

use super::court::{Line, Part, lines};
use super::drawing::{HEAD, MARGIN, Picture, joined, n, rect};
use super::lettering::heading;

/// Radius of an attacker's circle.
pub(super) const CIRCLE: f64 = 46.0;

/// Nearest that two marks may lie for both to be read.
const APART: f64 = 106.0;

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
}

impl<'a> Floor<'a> {
    pub fn new(court: &'a Court) -> Self {
        Self { court }
    }

    /// Width of the picture.
    pub fn width(&self) -> f64 {
        200.0 * f64::from(self.court.half_width_m) + 2.0 * MARGIN
    }

    /// Lower edge of the floor, where the legend begins.
    pub fn bottom(&self) -> f64 {
        self.at(0.0, f64::from(self.court.midcourt_y_m)).1
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

    /// The lines of the court.
    fn lines(&self) -> Markup {
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
        joined(lines(self.court).into_iter().map(drawn))
    }

    /// The floor with its lines and nothing else.
    pub fn bare(&self) -> Markup {
        html! { (self.sheet()) (self.lines()) }
    }

    /// A whole picture: heading, floor, what lies under and over the lines, and a legend of some height.
    pub fn picture(&self, words: Words<'_>, under: Markup, over: Markup, legend: (f64, Markup)) -> Picture {
        let body = html! {
            (heading(words.head, words.sub, self.width()))
            (self.sheet()) (under) (self.lines()) (over) (legend.1)
        };
        Picture {
            id: words.id.to_owned(),
            title: format!("{}: {}", words.head, words.sub),
            caption: words.caption,
            desc: words.desc.to_owned(),
            width: self.width(),
            height: self.bottom() + legend.0,
            body,
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

/// An attacker: a circle with his number.
pub(super) fn attacker((x, y): (f64, f64), slot: usize) -> Markup {
    html! {
        circle class="attacker" cx=(n(x)) cy=(n(y)) r=(n(CIRCLE)) {}
        text x=(n(x)) y=(n(y + 19.0)) { (slot + 1) }
    }
}

/// A defender: a diamond with his letter.
pub(super) fn defender((x, y): (f64, f64), letter: &str) -> Markup {
    let r = 56.0;
    let path = format!("M{} {}l{r} {r}l-{r} {r}l-{r} -{r}z", n(x), n(y - r));
    html! {
        path class="defender" d=(path) {}
        text x=(n(x)) y=(n(y + 17.0)) { (letter) }
    }
}

/// The numbers of the attackers in words, for legends.
pub(super) const NUMBERS: [&str; 2] =
    ["1 lead guard, 2 off guard, 3 rover,", "4 post on the rover's side, 5 other post"];

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
        let gap = |a: usize, b: usize| (apart[a].0 - apart[b].0).hypot(apart[a].1 - apart[b].1);
        for (a, b) in [(0, 1), (0, 2), (1, 2)] {
            assert!(gap(a, b) > APART - 2.0, "{a} and {b} lie {} apart", gap(a, b));
        }
        assert_eq!(apart[3], floor.of(places[3]));
    }
}
