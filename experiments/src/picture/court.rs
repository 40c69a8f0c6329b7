//! The lines of the half court, from a rule set's data: for pictures and for films.

use engine::math::{Vec2, vec2};
use engine::setup::Court;

/// Which part of the floor a line is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Part {
    /// Sidelines and baseline, and the midcourt line as the fourth side.
    Edge,
    /// The lane, up to the free-throw line.
    Lane,
    /// The free-throw circle's half toward midcourt.
    FreeThrowCircle,
    /// Its half inside the lane.
    HiddenHalf,
    /// The half of the centre circle on this side.
    CentreCircle,
    /// The straight parts of the three-point line.
    Straight,
    /// Its arc.
    Arc,
    /// The no-charge arc and its straight ends.
    NoCharge,
    /// The board.
    Board,
    /// What holds the ring to the board.
    Neck,
    /// The ring.
    Rim,
}

/// A line, m.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Line {
    /// From one place to another.
    Segment(Vec2, Vec2),
    /// A whole circle.
    Circle(Vec2, f32),
    /// Part of a circle: from, to, radius, and whether it bulges toward midcourt.
    Arc(Vec2, Vec2, f32, bool),
    /// A rectangle by two corners.
    Rectangle(Vec2, Vec2),
}

/// How far apart places along a line are taken, m.
const APART_M: f32 = 0.1;

impl Line {
    /// Places along it.
    pub fn along(&self) -> Vec<Vec2> {
        let between = |a: Vec2, b: Vec2| {
            let steps = (a.distance(b) / APART_M) as usize + 1;
            (0..=steps).map(move |nth| a + (b - a) * (nth as f32 / steps as f32))
        };
        let around = |middle: Vec2, radius: f32| {
            let steps = (core::f32::consts::TAU * radius / APART_M) as usize + 4;
            (0..steps).map(move |nth| {
                let angle = core::f32::consts::TAU * nth as f32 / steps as f32;
                middle + vec2(radius * libm::cosf(angle), radius * libm::sinf(angle))
            })
        };
        match *self {
            Self::Segment(a, b) => between(a, b).collect(),
            Self::Circle(middle, radius) => around(middle, radius).collect(),
            Self::Rectangle(a, b) => {
                let corners = [a, vec2(b.x, a.y), b, vec2(a.x, b.y)];
                (0..4).flat_map(|nth| between(corners[nth], corners[(nth + 1) % 4])).collect()
            }
            // Both ends lie at one height, and the arc bulges toward midcourt or away from it.
            Self::Arc(a, b, radius, out) => {
                let (half, height) = ((b.x - a.x).abs() / 2.0, (a.y + b.y) / 2.0);
                let down = engine::math::max(radius * radius - half * half, 0.0).sqrt();
                let middle = vec2((a.x + b.x) / 2.0, if out { height - down } else { height + down });
                around(middle, radius).filter(|at| (at.y >= height) == out).collect()
            }
        }
    }
}

/// All lines of a court.
pub fn lines(court: &Court) -> Vec<(Part, Line)> {
    let (base, end) = (court.baseline_y_m, court.straight_end_y());
    let corner = court.three_corner_x_m;
    let (lane, free_throw) = (court.lane_half_m, court.free_throw_y_m);
    let (half, mid) = (court.half_width_m, court.midcourt_y_m);
    let marks = &court.markings;
    let (circle, board, board_half) = (marks.circle_radius_m, marks.board_y_m, marks.board_width_m / 2.0);
    let free_throw_ends = (vec2(-circle, free_throw), vec2(circle, free_throw));
    let mut all = vec![
        (Part::Edge, Line::Rectangle(vec2(-half, base), vec2(half, mid))),
        // The centre circle is as large as the free-throw circles in every rule set read.
        (Part::CentreCircle, Line::Arc(vec2(-circle, mid), vec2(circle, mid), circle, false)),
        (Part::Lane, Line::Rectangle(vec2(-lane, base), vec2(lane, free_throw))),
        (Part::FreeThrowCircle, Line::Arc(free_throw_ends.0, free_throw_ends.1, circle, true)),
        (Part::HiddenHalf, Line::Arc(free_throw_ends.0, free_throw_ends.1, circle, false)),
        (Part::Straight, Line::Segment(vec2(-corner, base), vec2(-corner, end))),
        (Part::Straight, Line::Segment(vec2(corner, base), vec2(corner, end))),
        (Part::Arc, Line::Arc(vec2(-corner, end), vec2(corner, end), court.three_radius_m, true)),
    ];
    if let Some(radius) = marks.no_charge_m {
        let (left, right) = (vec2(-radius, 0.0), vec2(radius, 0.0));
        all.extend([
            (Part::NoCharge, Line::Segment(vec2(-radius, board), left)),
            (Part::NoCharge, Line::Arc(left, right, radius, true)),
            (Part::NoCharge, Line::Segment(right, vec2(radius, board))),
        ]);
    }
    all.extend([
        (Part::Board, Line::Segment(vec2(-board_half, board), vec2(board_half, board))),
        (Part::Neck, Line::Segment(vec2(0.0, board), vec2(0.0, -marks.rim_radius_m))),
        (Part::Rim, Line::Circle(Vec2::RIM, marks.rim_radius_m)),
    ]);
    all
}

#[cfg(test)]
mod tests {
    use super::*;

    fn courts() -> Vec<Court> {
        ["us-high-school", "us-college-men", "international", "us-professional"]
            .map(|rules| {
                let text = format!(
                    "rules = \"{rules}\"\nlevel = {{ attack = \"college\", defence = \"college\" }}\n\
                     zone = {{ use = \"1-2-2\" }}\nattack = {{ use = \"rover\" }}\n"
                );
                let home = tempfile::tempdir().unwrap();
                let file = home.path().join("court.toml");
                std::fs::write(&file, text).unwrap();
                scenarios::scenario(&file).unwrap().setup.court.clone()
            })
            .to_vec()
    }

    fn only(court: &Court, part: Part) -> Vec<Line> {
        lines(court).into_iter().filter(|(own, _)| *own == part).map(|(_, line)| line).collect()
    }

    #[test]
    fn the_three_point_line_is_where_shots_begin_to_count_three() {
        for court in courts() {
            let [Line::Arc(from, to, radius, true)] = only(&court, Part::Arc)[..] else { panic!() };
            let straights = only(&court, Part::Straight);
            for (end, straight) in [from, to].into_iter().zip(straights) {
                let Line::Segment(low, high) = straight else { panic!() };
                assert_eq!(high, end, "the arc goes on where the straight part ends");
                assert_eq!(low.y, court.baseline_y_m);
                assert!((end.len() - radius).abs() < 1e-4, "{end:?} lies on the arc");
                for (y, over) in [(low.y, 0.01), ((low.y + high.y) / 2.0, 0.01)] {
                    assert!(court.is_three(vec2(low.x + low.x.signum() * over, y)));
                    assert!(!court.is_three(vec2(low.x - low.x.signum() * over, y)));
                }
            }
            assert!(court.is_three(vec2(0.0, radius + 0.01)) && !court.is_three(vec2(0.0, radius - 0.01)));
        }
    }

    #[test]
    fn places_along_a_line_lie_on_it() {
        for court in courts() {
            for (part, line) in lines(&court) {
                let along = line.along();
                assert!(along.len() > 1, "{part:?}");
                if let Line::Arc(a, b, radius, _) = line {
                    let near = |end: Vec2| along.iter().any(|at| at.distance(end) < 2.0 * APART_M);
                    assert!(near(a) && near(b), "{part:?} goes from end to end");
                    let wide = along.iter().map(|at| at.x.abs()).fold(0.0, engine::math::max);
                    assert!(wide <= radius + 1e-3, "{part:?}");
                }
            }
        }
    }

    #[test]
    fn lane_edges_and_rim_are_the_data_s() {
        for court in courts() {
            let [Line::Rectangle(low, high)] = only(&court, Part::Lane)[..] else { panic!() };
            let inside = vec2(high.x - 0.01, high.y - 0.01);
            let outside = [vec2(high.x + 0.01, 0.0), vec2(0.0, high.y + 0.01), vec2(low.x - 0.01, 0.0)];
            assert!(court.in_lane(inside) && outside.iter().all(|p| !court.in_lane(*p)));
            let marks = court.markings;
            for part in [Part::FreeThrowCircle, Part::HiddenHalf] {
                let [Line::Arc(from, to, radius, _)] = only(&court, part)[..] else { panic!() };
                assert_eq!((from.y, to.y), (court.free_throw_y_m, court.free_throw_y_m));
                assert_eq!((-from.x, to.x, radius), (marks.circle_radius_m, radius, marks.circle_radius_m));
            }
            let [Line::Rectangle(low, high)] = only(&court, Part::Edge)[..] else { panic!() };
            assert!(court.in_bounds(low) && court.in_bounds(high));
            assert!(
                !court.in_bounds(vec2(low.x, low.y - 0.01)) && !court.in_bounds(vec2(0.0, high.y + 0.01))
            );
            let [Line::Circle(rim, radius)] = only(&court, Part::Rim)[..] else { panic!() };
            let [Line::Segment(left, right)] = only(&court, Part::Board)[..] else { panic!() };
            assert_eq!((rim, radius), (Vec2::RIM, marks.rim_radius_m), "the origin lies under the rim");
            assert_eq!((left.y, right.y, right.x - left.x), (marks.board_y_m, left.y, marks.board_width_m));
            assert_eq!(only(&court, Part::NoCharge).is_empty(), marks.no_charge_m.is_none());
            let [Line::Arc(from, to, radius, false)] = only(&court, Part::CentreCircle)[..] else { panic!() };
            assert_eq!((from.y, to.y, to.x), (court.midcourt_y_m, court.midcourt_y_m, radius));
        }
        assert!(courts().iter().any(|court| court.markings.no_charge_m.is_some()), "one has a no-charge arc");
    }
}
