//! Who passes to whom: the passes thrown most as dashed arrows, wider for more.

use engine::setup::Setup;
use maud::{Markup, html};

use super::drawing::{MARGIN, Picture, joined, label, n};
use super::floor::{Floor, LARGER, NUMBERS, TURNED, Words, attacker};
use super::regions::often;
use crate::marks::{DISC, gap};
use crate::places::{ATTACKERS, PassPair, PassRow, pass_pairs};
use crate::wording::per_twenty;

/// Arrows that are drawn: all of them would be a knot.
const STRONGEST: usize = 3;

/// Radius of a player's mark.
const CIRCLE: f64 = LARGER * DISC;

/// The passes of one variant, between the homes of the formation.
pub fn network((id, variant): (&str, &str), setup: &Setup, rows: &[PassRow], possessions: u64) -> Picture {
    let floor = Floor::holding(&setup.court, setup.attack.formation);
    let in_twenty = |count: i64| per_twenty(count, possessions);
    let home = |slot: usize| floor.of(setup.attack.formation[slot]);
    let pairs = pass_pairs(rows);
    let shown: Vec<&PassPair> = pairs.iter().take(STRONGEST).collect();
    let most = shown.first().map_or(1.0, |pair| pair.thrown as f64);
    let homes: Vec<(f64, f64)> = (0..5).map(home).collect();
    let way_of = |pair: &&PassPair| {
        let others = (0..5).filter(|slot| ![pair.from, pair.to].contains(slot)).map(home);
        Way::clear(home(pair.from), home(pair.to), &others.collect::<Vec<_>>())
    };
    let drawn = |pair: &&PassPair| {
        let width = 8.0 + 26.0 * pair.thrown as f64 / most;
        html! {
            g data-from=(ATTACKERS[pair.from]) data-to=(ATTACKERS[pair.to]) data-thrown=(pair.thrown)
                data-taken=(pair.taken) { (arrow(&way_of(pair), width)) }
        }
    };
    let ways: Vec<Way> = shown.iter().map(way_of).collect();
    let number = |(pair, at): (&&PassPair, (f64, f64))| tag(at, &often(in_twenty(pair.thrown)));
    let told = shown.iter().map(|pair| {
        format!("{} to {} {}", ATTACKERS[pair.from], ATTACKERS[pair.to], often(in_twenty(pair.thrown)))
    });
    let told: Vec<String> = told.collect();
    let caption = format!("Most passes, in 20 possessions: {}.", told.join("; ").replace('-', " "));
    let over = html! {
        // Thin ones first, so that they lie underneath.
        (joined(shown.iter().rev().map(drawn)))
        (joined((0..5).map(|slot| attacker(home(slot), slot))))
        (joined(shown.iter().zip(places(&ways, &homes, &floor.along_lines())).map(number)))
    };
    let whole: i64 = pairs.iter().map(|pair| pair.thrown).sum();
    let sub = format!("passes, {:.0} in 20 possessions", in_twenty(whole));
    let top = floor.bottom();
    let legend = html! {
        line class="pass" stroke-width="16" x1=(n(MARGIN)) y1=(n(top + 66.0)) x2=(n(MARGIN + 130.0)) y2=(n(top + 66.0)) {}
        path class="tip" d=(format!("M{} {}l-44 -24v48z", n(MARGIN + 174.0), n(top + 66.0))) {}
        (label("key", MARGIN + 200.0, top + 84.0, "pass, wider for more; the number:"))
        (label("key", MARGIN, top + 152.0, "in 20 possessions; the three most thrown"))
        (label("key", MARGIN, top + 220.0, NUMBERS[0]))
        (label("key", MARGIN, top + 286.0, NUMBERS[1]))
    };
    floor.picture(
        Words { id, head: variant, sub: &sub, desc: TURNED, caption },
        html! {},
        over,
        (310.0, legend),
    )
}

/// The bent way from one place to another; the way back bends the other way.
#[derive(Clone, Copy)]
struct Way {
    from: (f64, f64),
    to: (f64, f64),
    /// Control point of the curve.
    control: (f64, f64),
}

impl Way {
    /// Bent as little as keeps it off the marks of the others: a pass by somebody is none to him.
    fn clear(from: (f64, f64), to: (f64, f64), others: &[(f64, f64)]) -> Self {
        let room = |way: &Self| {
            let along = (1..20).map(|step| way.at(f64::from(step) / 20.0));
            along.flat_map(|at| others.iter().map(move |other| gap(at, *other))).fold(f64::INFINITY, f64::min)
        };
        let bent = BENDS.map(|times| Self::new(from, to, times));
        let most = bent.iter().map(room).fold(0.0, f64::max);
        let enough = most.min(1.5 * CIRCLE);
        let [least, ..] = &bent;
        *bent.iter().find(|way| room(way) >= enough).unwrap_or(least)
    }

    fn new(from: (f64, f64), to: (f64, f64), times: f64) -> Self {
        let (dx, dy) = (to.0 - from.0, to.1 - from.1);
        let long = (dx * dx + dy * dy).sqrt().max(1e-9);
        // Short ways bend more, so that there and back stay apart. The control point lies twice as far out.
        let out = 2.0 * times * (0.09 * long).max(56.0) / long;
        Self { from, to, control: ((from.0 + to.0) / 2.0 - out * dy, (from.1 + to.1) / 2.0 + out * dx) }
    }

    /// The place beside the way a share of it along, on the outer side of its bend.
    fn beside(&self, share: f64) -> (f64, f64) {
        let middle = ((self.from.0 + self.to.0) / 2.0, (self.from.1 + self.to.1) / 2.0);
        let (dx, dy) = (self.control.0 - middle.0, self.control.1 - middle.1);
        let long = libm::hypot(dx, dy).max(1e-9);
        let at = self.at(share);
        (at.0 + BESIDE * dx / long, at.1 + BESIDE * dy / long)
    }

    /// The place a share of the way along.
    fn at(&self, share: f64) -> (f64, f64) {
        let (a, b, c) = ((1.0 - share) * (1.0 - share), 2.0 * share * (1.0 - share), share * share);
        (
            a * self.from.0 + b * self.control.0 + c * self.to.0,
            a * self.from.1 + b * self.control.1 + c * self.to.1,
        )
    }
}

/// How much more than usual a way may be bent.
const BENDS: [f64; 5] = [1.0, 1.5, 2.0, 2.5, 3.0];

/// How far beside its way a number stands: no line runs through it.
const BESIDE: f64 = 62.0;

/// Shares of the way at which a number may stand, the middle first.
const SHARES: [f64; 9] = [0.5, 0.44, 0.56, 0.38, 0.62, 0.32, 0.68, 0.26, 0.74];
/// Half width and half height of a number's plate, and farther from a line than this none has to be.
const PLATE: (f64, f64) = (45.0, 30.0);
const OFF_LINES: f64 = 12.0;
/// Half width and half height of a number with some air.
const NUMBER: (f64, f64) = (62.0, 40.0);

/// Places for the numbers of the first ways: beside their way, on the outer side of its bend, clear of the players and of one another, and as far
/// from the other ways and from the lines of the court as they can be.
fn places(ways: &[Way], homes: &[(f64, f64)], court: &[(f64, f64)]) -> Vec<(f64, f64)> {
    let mut taken: Vec<(f64, f64)> = Vec::new();
    for (nth, way) in ways.iter().enumerate() {
        let room = |at: (f64, f64)| {
            let air = |other: &(f64, f64), wide: f64, tall: f64| {
                ((at.0 - other.0).abs() - wide).max((at.1 - other.1).abs() - tall)
            };
            let numbers = taken.iter().map(|other| air(other, 2.0 * NUMBER.0, 2.0 * NUMBER.1));
            let players = homes.iter().map(|other| air(other, NUMBER.0 + CIRCLE, NUMBER.1 + CIRCLE));
            numbers.chain(players).fold(f64::INFINITY, f64::min)
        };
        let apart = |at: (f64, f64)| {
            let others = ways.iter().enumerate().filter(|(other, _)| *other != nth);
            let places = others.flat_map(|(_, other)| (1..20).map(|step| other.at(f64::from(step) / 20.0)));
            places.map(|other| gap(at, other)).fold(f64::INFINITY, f64::min)
        };
        // How far its plate is from the lines of the court.
        let clear = |at: (f64, f64)| {
            let off =
                |line: &(f64, f64)| ((at.0 - line.0).abs() - PLATE.0).max((at.1 - line.1).abs() - PLATE.1);
            court.iter().map(off).fold(OFF_LINES, f64::min)
        };
        // Being clear comes first; then the other ways count up to a number's width, and the lines of the court a little.
        let score = |share: f64| {
            let at = way.beside(share);
            10.0 * room(at).min(0.0) + apart(at).min(NUMBER.0) + 2.0 * clear(at) - 40.0 * (share - 0.5).abs()
        };
        let best = SHARES.into_iter().fold(
            SHARES[0],
            |best, share| {
                if score(share) > score(best) { share } else { best }
            },
        );
        taken.push(way.beside(best));
    }
    taken
}

/// A number on a plate of its own, so that no line runs through it.
fn tag((x, y): (f64, f64), text: &str) -> Markup {
    let wide = 34.0 * text.len() as f64 + 22.0;
    html! {
        rect class="plate" x=(n(x - wide / 2.0)) y=(n(y - 30.0)) width=(n(wide)) height="60" rx="18" {}
        (label("mid", x, y + 19.0, text))
    }
}

/// A bent dashed arrow, beginning and ending outside the circles.
fn arrow(&Way { from, to, control }: &Way, width: f64) -> Markup {
    let unit = |a: (f64, f64), b: (f64, f64)| {
        let (dx, dy) = (b.0 - a.0, b.1 - a.1);
        let long = (dx * dx + dy * dy).sqrt().max(1e-9);
        (dx / long, dy / long)
    };
    let (out, back) = (unit(from, control), unit(control, to));
    let tip = 22.0 + width;
    let start = (from.0 + out.0 * (CIRCLE + 6.0), from.1 + out.1 * (CIRCLE + 6.0));
    let point = (to.0 - back.0 * (CIRCLE + 6.0), to.1 - back.1 * (CIRCLE + 6.0));
    let neck = (point.0 - back.0 * tip, point.1 - back.1 * tip);
    let side = (-back.1 * tip * 0.6, back.0 * tip * 0.6);
    let path = format!(
        "M{} {}Q{} {} {} {}",
        n(start.0),
        n(start.1),
        n(control.0),
        n(control.1),
        n(neck.0),
        n(neck.1)
    );
    let head = format!(
        "M{} {}L{} {}L{} {}z",
        n(point.0),
        n(point.1),
        n(neck.0 + side.0),
        n(neck.1 + side.1),
        n(neck.0 - side.0),
        n(neck.1 - side.1)
    );
    html! {
        path class="pass" d=(path) stroke-width=(n(width)) {}
        path class="tip" d=(head) {}
    }
}
