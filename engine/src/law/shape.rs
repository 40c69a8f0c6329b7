//! Where the zone stands for a ball here: anchors interpolated between the ball places of its table.

use crate::math::{Vec2, vec2};
use crate::setup::{Pairing, Table, Zone};
use crate::slots::Slot;

/// Added to the squared distance of the ball from each of the table's ball places, m2: a ball on a place has all but
/// that place's row, and between places the shape changes smoothly. (assumed)
const BLENDS_M2: f32 = 0.15;

/// The position that a defender has while the ball is on the rover's starting side or not.
#[inline]
pub fn position_of(zone: &Zone, slot: Slot, ball_on_first_side: bool) -> usize {
    swapped(zone, slot.in_team(), ball_on_first_side)
}

/// The defender who has a position.
#[inline]
pub fn slot_of(zone: &Zone, position: usize, ball_on_first_side: bool) -> Slot {
    Slot::defender(swapped(zone, position, ball_on_first_side))
}

/// While the ball is on the far side, near and far change hands; the pairing is its own inverse.
#[inline]
fn swapped(zone: &Zone, position: usize, ball_on_first_side: bool) -> usize {
    match zone.positions[position].pairing {
        Pairing::Near(other) | Pairing::Far(other) if !ball_on_first_side => usize::from(other),
        _ => position,
    }
}

/// Anchors of all five positions for a ball at `ball` on the side `ball_side` (+1 right), metres; `instead` is
/// a place whose row another one replaces (a bump, a trap).
///
/// The weights fall with the fourth power of the distance to each ball place, so that a ball at a place
/// gets that place's row and the shape changes smoothly between them.
pub fn anchors(
    zone: &Zone,
    table: &Table,
    ball: Vec2,
    ball_side: f32,
    instead: Option<(u8, &[Vec2; 5])>,
) -> [Vec2; 5] {
    let here = vec2(ball.x * ball_side, ball.y);
    // All weights first: their quotients are then taken four at a time.
    let weights = zone.ball_places.map(|there| {
        let near = (here - there).len2() + BLENDS_M2;
        1.0 / (near * near)
    });
    let mut sum = 0.0;
    let mut out = [Vec2::RIM; 5];
    for (place, weight) in weights.into_iter().enumerate() {
        sum += weight;
        let row = match instead {
            Some((other, row)) if usize::from(other) == place => row,
            _ => &table.anchors[place],
        };
        for (anchor, own) in out.iter_mut().zip(row) {
            *anchor = *anchor + *own * weight;
        }
    }
    out.map(|a| vec2(a.x / sum * ball_side, a.y / sum))
}

/// Where the five positions stand before anything has happened: the table's anchors, or the places of a
/// man-to-man for attackers who stand at `men`, metres.
pub fn start(zone: &Zone, men: &[Vec2; 5], ball: Vec2, ball_side: f32) -> [Vec2; 5] {
    match &zone.marks {
        Some(marks) => men.map(|man| marks.place(man, ball)),
        None => anchors(zone, &zone.table, ball, ball_side, None),
    }
}

/// The ball place nearest to a ball, the present one favoured by `favour_m`.
pub fn place_of(zone: &Zone, ball: Vec2, ball_side: f32, present: u8, favour_m: f32) -> u8 {
    let here = vec2(ball.x * ball_side, ball.y);
    let distances = zone.ball_places.map(|there| here.distance(there));
    let mut best = (f32::INFINITY, present);
    for (place, distance) in distances.into_iter().enumerate() {
        let d = if place == usize::from(present) { distance - favour_m } else { distance };
        if d < best.0 {
            best = (d, place as u8);
        }
    }
    best.1
}
