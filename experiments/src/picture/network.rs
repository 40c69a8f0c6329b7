//! Who passes to whom: a dashed arrow for each pair, wider for more.

use engine::setup::Setup;
use maud::{Markup, html};

use super::drawing::{MARGIN, Picture, joined, label, n};
use super::floor::{CIRCLE, Floor, NUMBERS, TURNED, Words, attacker};
use crate::places::{ATTACKERS, PassRow};

/// Pairs with fewer passes than this in 100 possessions are not drawn.
const LEAST: f64 = 5.0;
/// Arrows that carry their number.
const NUMBERED: usize = 5;

/// One pair: from, to, thrown, taken by a defender.
struct Pair {
    from: usize,
    to: usize,
    thrown: i64,
    taken: i64,
}

fn pairs(rows: &[PassRow]) -> Vec<Pair> {
    let mut pairs: Vec<Pair> = Vec::new();
    for row in rows {
        match pairs.iter_mut().find(|pair| (pair.from, pair.to) == (row.from, row.to)) {
            Some(pair) => {
                pair.thrown += row.thrown;
                pair.taken += row.taken;
            }
            None => pairs.push(Pair { from: row.from, to: row.to, thrown: row.thrown, taken: row.taken }),
        }
    }
    // Most first; equals in slot order.
    pairs.sort_by_key(|pair| -pair.thrown);
    pairs
}

/// The passes of one variant, between the homes of the formation.
pub fn network((id, variant): (&str, &str), setup: &Setup, rows: &[PassRow], possessions: u64) -> Picture {
    let floor = Floor::new(&setup.court);
    let per_100 = |count: i64| 100.0 * count as f64 / possessions as f64;
    let home = |slot: usize| floor.of(setup.attack.formation[slot]);
    let pairs = pairs(rows);
    let shown: Vec<&Pair> = pairs.iter().filter(|pair| per_100(pair.thrown) >= LEAST).collect();
    let most = shown.first().map_or(1.0, |pair| pair.thrown as f64);
    let drawn = |pair: &&Pair| {
        let width = 8.0 + 26.0 * pair.thrown as f64 / most;
        html! {
            g data-from=(ATTACKERS[pair.from]) data-to=(ATTACKERS[pair.to]) data-thrown=(pair.thrown)
                data-taken=(pair.taken) { (arrow(home(pair.from), home(pair.to), width)) }
        }
    };
    let number = |pair: &&Pair| {
        let (x, y) = bend(home(pair.from), home(pair.to));
        label("mid on", x, y + 18.0, &format!("{:.0}", per_100(pair.thrown)))
    };
    let told = shown.iter().take(NUMBERED).map(|pair| {
        format!("{} to {} {:.0}", ATTACKERS[pair.from], ATTACKERS[pair.to], per_100(pair.thrown))
    });
    let told: Vec<String> = told.collect();
    let caption = format!("Most passes, in 100 possessions: {}.", told.join("; ").replace('-', " "));
    let over = html! {
        // Thin ones first, so that they lie underneath.
        (joined(shown.iter().rev().map(drawn)))
        (joined((0..5).map(|slot| attacker(home(slot), slot))))
        (joined(shown.iter().take(NUMBERED).map(number)))
    };
    let whole: i64 = pairs.iter().map(|pair| pair.thrown).sum();
    let sub = format!("passes, {:.0} in 100 possessions", per_100(whole));
    let top = floor.bottom();
    let legend = html! {
        line class="pass" stroke-width="16" x1=(n(MARGIN)) y1=(n(top + 66.0)) x2=(n(MARGIN + 130.0)) y2=(n(top + 66.0)) {}
        path class="tip" d=(format!("M{} {}l-44 -24v48z", n(MARGIN + 174.0), n(top + 66.0))) {}
        (label("key", MARGIN + 200.0, top + 84.0, "pass, wider for more; the number:"))
        (label("key", MARGIN, top + 152.0, &format!("in 100 possessions; under {LEAST:.0} not drawn")))
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

/// The middle of the bent way from one place to another; the way back bends the other way.
fn bend(from: (f64, f64), to: (f64, f64)) -> (f64, f64) {
    let (dx, dy) = (to.0 - from.0, to.1 - from.1);
    let long = (dx * dx + dy * dy).sqrt().max(1e-9);
    // Short ways bend more, so that the numbers of there and back stay apart.
    let out = (0.09 * long).max(56.0) / long;
    ((from.0 + to.0) / 2.0 - out * dy, (from.1 + to.1) / 2.0 + out * dx)
}

/// A bent dashed arrow, beginning and ending outside the circles.
fn arrow(from: (f64, f64), to: (f64, f64), width: f64) -> Markup {
    let middle = bend(from, to);
    // The control point of a curve that passes through `middle` half-way.
    let control = (2.0 * middle.0 - (from.0 + to.0) / 2.0, 2.0 * middle.1 - (from.1 + to.1) / 2.0);
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
