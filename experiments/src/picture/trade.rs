//! What it brings against what it costs: expected net points against the risk of a fast break, with intervals.

use maud::{Markup, html};

use super::drawing::{HEAD, MARGIN, Picture, joined, label, line, n, rect};
use super::lettering::{broken, heading, letters};
use super::ranking::shown;
use super::scale::{Axis, raw, tick_text, ticks};
use crate::columns::Column;
use crate::compare::Comparison;
use crate::marks;
use crate::stats::{Better, Interval};
use crate::wording::{capital, gap};

const WIDTH: f64 = 1604.0;
const LEFT: f64 = 190.0;
const PLOT: f64 = 1000.0;

/// Radius of a point.
const DOT: f64 = 16.0;
/// How far from its point a number may stand, the nearest first.
const RINGS: [f64; 6] = [56.0, 84.0, 116.0, 150.0, 190.0, 240.0];
/// Directions that are tried on each of them.
const TURNS: u32 = 24;
/// Half of the room that a number takes.
const NUMBER: f64 = 34.0;
/// Classes of crosses: the first by rank, the one compared with, the others. A colour for each would be one too many to tell apart.
const CROSSES: [&str; 3] = ["first", "against", "others"];

/// Half of the length of a cross's ends.
const END: f64 = 16.0;

/// A straight line between two places.
type Stretch = [(f64, f64); 2];

/// How far a place lies from a stretch.
fn off(at: (f64, f64), [a, b]: Stretch) -> f64 {
    let (dx, dy) = (b.0 - a.0, b.1 - a.1);
    let length = dx * dx + dy * dy;
    let along = if length > 0.0 { ((at.0 - a.0) * dx + (at.1 - a.1) * dy) / length } else { 0.0 };
    let along = along.clamp(0.0, 1.0);
    marks::gap(at, (a.0 + along * dx, a.1 + along * dy))
}

/// For each point a place for its number, inside the field. Clear of the other points and numbers comes first, and that no
/// line from a number to its point runs through them; then that it lies on no cross; then that it is near.
fn beside(points: &[(f64, f64)], crosses: &[Stretch]) -> Vec<(f64, f64)> {
    let mut taken: Vec<(f64, f64)> = Vec::new();
    for (nth, own) in points.iter().enumerate() {
        let spots = RINGS.iter().flat_map(|ring| {
            (0..TURNS).map(move |turn| {
                let angle = std::f64::consts::TAU * (f64::from(turn) - 4.5) / f64::from(TURNS);
                (own.0 + ring * libm::cos(angle), own.1 + ring * libm::sin(angle))
            })
        });
        let is_inside = |at: &(f64, f64)| {
            let (across, up) =
                (LEFT + NUMBER..=WIDTH - MARGIN - NUMBER, HEAD + NUMBER..=Plot::BOTTOM - NUMBER);
            across.contains(&at.0) && up.contains(&at.1)
        };
        let cost = |at: (f64, f64)| {
            let lack = |room: f64, wanted: f64| (wanted - room).max(0.0);
            let to_number = |other: (f64, f64), room: f64| {
                lack(off(other, [at, at]), room + NUMBER) + lack(off(other, [*own, at]), room)
            };
            let others = points.iter().enumerate().filter(|(other, _)| *other != nth);
            let dots: f64 = others.map(|(_, other)| to_number(*other, DOT + 4.0)).sum();
            let numbers: f64 = taken.iter().map(|other| to_number(*other, NUMBER)).sum();
            let lines: f64 = taken
                .iter()
                .zip(points)
                .map(|(number, point)| lack(off(at, [*number, *point]), NUMBER))
                .sum();
            let crosses: f64 = crosses.iter().map(|cross| lack(off(at, *cross), NUMBER)).sum();
            100.0 * (dots + numbers + lines) + crosses + 0.1 * off(at, [*own, *own])
        };
        let best = spots.filter(is_inside).min_by(|a, b| cost(*a).total_cmp(&cost(*b)));
        taken.push(best.unwrap_or(*own));
    }
    taken
}

/// A variant with its figures across and up.
type Point = (usize, Interval, Interval);

/// The field between two axes.
struct Plot {
    across: Axis,
    up: Axis,
}

impl Plot {
    /// Part of the field left free at either end of an axis.
    const SPARE: f64 = 0.08;
    const BOTTOM: f64 = HEAD + PLOT;

    fn new(across: &Column, up: &Column, points: &[Point]) -> Self {
        let axis = |column, figures: Vec<Interval>| Axis::new(shown(column).0, &figures, Self::SPARE);
        Self {
            across: axis(across, points.iter().map(|point| point.1).collect()),
            up: axis(up, points.iter().map(|point| point.2).collect()),
        }
    }

    fn x(&self, value: f64) -> f64 {
        LEFT + self.across.share(value) * (WIDTH - LEFT - MARGIN)
    }

    fn y(&self, value: f64) -> f64 {
        Self::BOTTOM - self.up.share(value) * PLOT
    }

    fn grid(&self) -> Markup {
        let (across, across_decimals) = ticks(self.across.low, self.across.high);
        let (up, up_decimals) = ticks(self.up.low, self.up.high);
        html! {
            (rect("sheet", LEFT, HEAD, WIDTH - LEFT - MARGIN, PLOT))
            @for mark in &across {
                @let at = self.x(mark / self.across.factor);
                (line("grid", (at, HEAD), (at, Self::BOTTOM)))
                (label("key mid", at.min(WIDTH - 66.0), Self::BOTTOM + 62.0, &tick_text(*mark, across_decimals)))
            }
            @for mark in &up {
                @let at = self.y(mark / self.up.factor);
                (line("grid", (LEFT, at), (WIDTH - MARGIN, at)))
                (label("key end", LEFT - 18.0, at + 18.0, &tick_text(*mark, up_decimals)))
            }
        }
    }

    /// Where a variant's two intervals are drawn.
    fn cross(&self, across: &Interval, up: &Interval) -> [Stretch; 2] {
        let (x, y) = (self.x(across.estimate), self.y(up.estimate));
        [[(self.x(across.low), y), (self.x(across.high), y)], [(x, self.y(up.low)), (x, self.y(up.high))]]
    }

    /// A variant's two intervals, with an end at each of theirs; its point lies over all crosses.
    fn mark(&self, (kind, name): (&str, &str), across: &Interval, up: &Interval) -> Markup {
        let class = format!("whisk {kind}");
        let [level, upright] = self.cross(across, up);
        html! {
            g data-variant=(name) data-x=(raw(across.estimate)) data-x-low=(raw(across.low))
                data-x-high=(raw(across.high)) data-y=(raw(up.estimate)) data-y-low=(raw(up.low))
                data-y-high=(raw(up.high)) {
                (line(&class, level[0], level[1]))
                (line(&class, upright[0], upright[1]))
                @for (x, y) in level { (line(&class, (x, y - END), (x, y + END))) }
                @for (x, y) in upright { (line(&class, (x - END, y), (x + END, y))) }
            }
        }
    }

    /// A variant's point, and its number at the other end of a line.
    fn point(kind: &str, at: (f64, f64), number: (f64, f64), rank: usize) -> Markup {
        html! {
            (line(&format!("whisk thin {kind}"), at, number))
            circle class="dot" cx=(n(at.0)) cy=(n(at.1)) r=(n(DOT)) {}
            (label("on floored mid", number.0, number.1 + 18.0, &rank.to_string()))
        }
    }
}

/// All variants by two columns: `across` and `up`; None without data for both.
pub fn trade(id: &str, comparison: &Comparison, across: &str, up: &str) -> Option<Picture> {
    let (across, up) = (Column::named(across)?, Column::named(up)?);
    let names = &comparison.question.variants;
    let points: Vec<Point> = comparison
        .order
        .iter()
        .filter_map(|&v| Some((v, comparison.figure(v, across)?, comparison.figure(v, up)?)))
        .collect();
    if points.is_empty() {
        return None;
    }
    let plot = Plot::new(across, up, &points);
    let places: Vec<(f64, f64)> =
        points.iter().map(|(_, a, u)| (plot.x(a.estimate), plot.y(u.estimate))).collect();
    let crosses: Vec<Stretch> = points.iter().flat_map(|(_, a, u)| plot.cross(a, u)).collect();
    let numbers = beside(&places, &crosses);
    let kind = |v: usize| match v {
        v if v == comparison.leader() => CROSSES[0],
        v if v == comparison.question.baseline => CROSSES[1],
        _ => CROSSES[2],
    };
    let numbered = (0..points.len()).map(|nth| {
        let v = points[nth].0;
        Plot::point(kind(v), places[nth], numbers[nth], comparison.rank(v))
    });
    let ranked: Vec<usize> = points.iter().map(|point| point.0).collect();
    let (key, key_height) = key(comparison, &ranked, Plot::BOTTOM + 220.0);
    let mut ordered = points.clone();
    ordered.sort_by_key(|(v, _, _)| std::cmp::Reverse(CROSSES.iter().position(|own| *own == kind(*v))));
    let title = format!("{} against {}", capital(up.words), across.words);
    let body = html! {
        (heading(&title, &format!("up: {} {}; lines: 95 % intervals", up.words, shown(up).1), WIDTH))
        (plot.grid())
        (label("key mid", (LEFT + WIDTH - MARGIN) / 2.0, Plot::BOTTOM + 130.0, &axis_words(across)))
        // The two that are compared lie over the others.
        (joined(ordered.iter().map(|(v, a, u)| plot.mark((kind(*v), &names[*v]), a, u))))
        (joined(numbered.rev()))
        (key)
    };
    let told = points.iter().map(|(v, a, u)| {
        let (a, u) = (plot.across.factor * a.estimate, plot.up.factor * u.estimate);
        format!("{} {a:.1} and {u:.1}", names[*v])
    });
    Some(Picture {
        id: id.to_owned(),
        title,
        caption: format!("Better is up and to the left.{}", finding(comparison, across, up)),
        desc: format!(
            "Of each {}, {} ({}) and {} ({}): {}.",
            comparison.question.noun,
            across.words,
            shown(across).1,
            up.words,
            shown(up).1,
            told.collect::<Vec<_>>().join("; ")
        ),
        width: WIDTH,
        height: Plot::BOTTOM + 240.0 + key_height,
        body,
        key: None,
    })
}

/// What the first one and the one that it is compared with differ in: by the differences themselves, which are surer than two
/// crosses side by side.
fn finding(comparison: &Comparison, across: &Column, up: &Column) -> String {
    let (leader, baseline) = (comparison.leader(), comparison.question.baseline);
    let names = &comparison.question.variants;
    let told = |column: &Column| {
        let by = comparison.contrast(leader, baseline, column)?.difference.interval;
        let luck = if by.contains(0.0) { ", which could be luck" } else { "" };
        Some(format!("{}{luck}", gap(column, &by)))
    };
    match (told(up), told(across)) {
        (Some(up), Some(across)) => {
            format!(" {} against {}: {up}; {across}.", names[leader], names[baseline])
        }
        _ => String::new(),
    }
}

fn axis_words(across: &Column) -> String {
    let way = if across.better == Better::Lower { "left" } else { "right" };
    format!("{}, {}: {way} is better", across.words, shown(across).1)
}

/// What the crosses are, and the names by rank: in two columns where all are short, else one under the other; and their height.
fn key(comparison: &Comparison, ranked: &[usize], top: f64) -> (Markup, f64) {
    let question = &comparison.question;
    let named = |v: &usize| {
        let tag = if *v == question.baseline { " (compared with)" } else { "" };
        format!("{}  {}{tag}", comparison.rank(*v), question.variants[*v])
    };
    let names: Vec<String> = ranked.iter().map(named).collect();
    let wide = (WIDTH - 2.0 * MARGIN) / 2.0;
    let longest = names.iter().map(|name| name.chars().count()).max().unwrap_or_default();
    let columns = if longest <= letters(wide, 54.0) { 2 } else { 1 };
    let room = letters(wide * 2.0, 54.0);
    let (mut at, mut lines) = (0, Vec::new());
    for (nth, name) in names.iter().enumerate() {
        if columns == 2 {
            lines.push((wide * (nth % 2) as f64, nth / 2, name.clone()));
            at = nth / 2 + 1;
        } else {
            for line in broken(name, room, room) {
                lines.push((0.0, at, line));
                at += 1;
            }
        }
    }
    let drawn =
        lines.iter().map(|(x, row, text)| label("", MARGIN + x, top + 68.0 * (*row + 1) as f64, text));
    (html! { (signs(comparison, ranked.len(), top)) (joined(drawn)) }, 68.0 * (at + 1) as f64)
}

/// What the crosses of so many variants are.
fn signs(comparison: &Comparison, count: usize, top: f64) -> Markup {
    // The leader may be the one compared with, and there may be no others.
    let other = comparison.leader() != comparison.question.baseline;
    let more = count > 1 + usize::from(other);
    let told = [
        (CROSSES[0], "the first", true),
        (CROSSES[1], "compared with", other),
        (CROSSES[2], "the others", more),
    ];
    let mut x = MARGIN;
    let signs = told.into_iter().filter(|(_, _, is_there)| *is_there).map(|(kind, words, _)| {
        let sign = html! {
            (line(&format!("whisk {kind}"), (x, top - 18.0), (x + SIGN, top - 18.0)))
            (label("key", x + SIGN + 24.0, top, words))
        };
        x += SIGN + 84.0 + letters_wide(words);
        sign
    });
    joined(signs.collect::<Vec<_>>())
}

/// Length of a sample of a cross in the key.
const SIGN: f64 = 90.0;

/// About how wide words of the key are.
fn letters_wide(words: &str) -> f64 {
    0.55 * 54.0 * words.chars().count() as f64
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Seven points on one another's heels, as close variants have them.
    #[test]
    fn numbers_of_points_that_lie_together_part_and_their_lines_run_through_no_other() {
        let middle = (800.0, 600.0);
        let points: Vec<(f64, f64)> = (0..7)
            .map(|nth| {
                let angle = f64::from(nth) * 2.4;
                (
                    middle.0 + 22.0 * f64::from(nth) * libm::cos(angle),
                    middle.1 + 9.0 * f64::from(nth) * libm::sin(angle),
                )
            })
            .collect();
        let crosses: Vec<Stretch> = points
            .iter()
            .flat_map(|&(x, y)| [[(x - 300.0, y), (x + 300.0, y)], [(x, y - 250.0), (x, y + 250.0)]])
            .collect();
        let numbers = beside(&points, &crosses);
        for (nth, number) in numbers.iter().enumerate() {
            for other in (0..points.len()).filter(|other| *other != nth) {
                assert!(
                    off(numbers[other], [*number, *number]) >= 2.0 * NUMBER,
                    "{nth} and {other}: {numbers:?}"
                );
                assert!(off(points[other], [points[nth], *number]) >= DOT, "{nth}'s line and point {other}");
                assert!(
                    off(numbers[other], [points[nth], *number]) >= 0.8 * NUMBER,
                    "{nth}'s line and number {other}"
                );
            }
        }
        let alone = beside(&points[..1], &[]);
        assert!(off(alone[0], [points[0], points[0]]) <= RINGS[0] + 1e-9, "where there is room it is near");
    }
}
