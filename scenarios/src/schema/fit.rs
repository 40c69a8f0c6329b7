//! Fits places that were written for the US high-school floor to the floor of another rule set.

use engine::math::{Vec2, clamp, vec2};
use engine::setup::Court;

use crate::hint;
use crate::key::{FOOT_M, plain};
use crate::read::Reader;
use crate::tree::Node;

/// Where the written places' own lines lie: radius of the arc and half the lane's width, metres.
const WRITTEN_ARC_M: f32 = 6.020;
const WRITTEN_LANE_HALF_M: f32 = 1.829;
/// Distances from the rim between which the move outward grows from nothing to the whole difference.
const STAYS_WITHIN_M: f32 = 4.6;
const MOVES_BEYOND_M: f32 = 6.0;

/// Moves places with the lines: perimeter places by the difference of the arcs (of the corner lines, low on
/// the floor), places beside the lane by the difference of the lanes.
#[derive(Clone, Copy)]
pub(crate) struct Fit {
    arc: f32,
    corner: f32,
    straight_end: f32,
    lane: f32,
    half_width: f32,
    baseline: f32,
    midcourt: f32,
}

impl Fit {
    /// The fit to a floor.
    pub fn new(court: &Court) -> Fit {
        Fit {
            arc: court.three_radius_m - WRITTEN_ARC_M,
            corner: court.three_corner_x_m - WRITTEN_ARC_M,
            straight_end: court.straight_end_y(),
            lane: court.lane_half_m - WRITTEN_LANE_HALF_M,
            half_width: court.half_width_m,
            baseline: court.baseline_y_m,
            midcourt: court.midcourt_y_m,
        }
    }

    /// A place that stands under a key, as it is; a fault where it lies outside the lines.
    pub fn on_floor(&self, reader: &Reader<'_>, name: &str, p: Vec2) -> Vec2 {
        if let Some(entry) = reader.node().get(name) {
            self.judge(reader, (name, &entry.node), p);
        }
        p
    }

    /// Defenders' places that stand in a list under a key, as they are; a fault for each that lies outside the lines.
    pub fn defenders_on_floor(&self, reader: &Reader<'_>, name: &str, places: &[Vec2]) {
        if let Some(entry) = reader.node().get(name) {
            for (node, at) in entry.node.members().iter().zip(places) {
                self.judge(reader, (name, node), self.defender(*at));
            }
        }
    }

    /// A fault where a place lies outside the lines.
    fn judge(&self, reader: &Reader<'_>, (name, node): (&str, &Node), p: Vec2) {
        if self.holds(p) {
            return;
        }
        let Fit { half_width: x, baseline: low, midcourt: high, .. } = self;
        let [x, low, high] = [x, low, high].map(|m| plain((f64::from(*m) * 100.0).round() / 100.0));
        let allowed = format!("a place on the floor: x from -{x} to {x} m, y from {low} to {high} m");
        // Metres that stand for feet, as feet.
        let hint = self.holds(p * FOOT_M as f32).then_some(hint::FILE_IN_FEET);
        reader.refuse_place(name, node, allowed, hint);
    }

    /// True for a place within the lines.
    fn holds(&self, p: Vec2) -> bool {
        p.x.abs() <= self.half_width && (self.baseline..=self.midcourt).contains(&p.y)
    }

    /// A defender's place: perimeter ones move outward along their own direction.
    pub fn defender(&self, p: Vec2) -> Vec2 {
        let share = clamp((p.len() - STAYS_WITHIN_M) / (MOVES_BEYOND_M - STAYS_WITHIN_M), 0.0, 1.0);
        let up = if self.straight_end > 0.0 { clamp(p.y / self.straight_end, 0.0, 1.0) } else { 1.0 };
        let move_m = self.corner + (self.arc - self.corner) * up;
        p + p.unit_or(vec2(0.0, 1.0)) * (move_m * share)
    }

    /// A place of the ball or of an attacker: as a defender's, and those beside the lane move with its edge.
    pub fn attacker(&self, p: Vec2) -> Vec2 {
        let beside_lane = (1.2..=2.8).contains(&p.x.abs()) && p.y <= 4.6;
        if !beside_lane {
            return self.defender(p);
        }
        // Nothing is moved where the lines are the written ones, give or take a millimetre of rounding.
        let lane = if self.lane.abs() < 0.002 { 0.0 } else { self.lane };
        self.defender(vec2(if p.x < 0.0 { p.x - lane } else { p.x + lane }, p.y))
    }
}
