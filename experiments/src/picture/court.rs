//! The lines of the half court, from a rule set's data.

use engine::math::{Vec2, vec2};
use engine::setup::Court;

/// Radius of the free-throw and centre circles, m: 1.80 (FIBA Official Basketball Rules 2024, art. 2.4); 6 ft in
/// the US rule sets, which is 3 cm more.
const CIRCLE_M: f32 = 1.8;
/// Inside radius of the ring, m: half of 18 in (NFHS rule 1-10).
const RIM_M: f32 = 0.2286;
/// The board's face behind the ring's centre, m: 6 in of gap and half of 18 in (NFHS rules 1-9 and 1-10, secondary
/// page).
const BOARD_M: f32 = 0.381;
/// Half the board's width, m: half of 6 ft (NFHS rule 1-9, secondary page).
const BOARD_HALF_M: f32 = 0.9145;

/// Which part of the floor a line is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Part {
    /// Sidelines, baseline and midcourt line.
    Edge,
    /// The lane and the free-throw line.
    Lane,
    /// The circle round the middle of the free-throw line.
    FreeThrowCircle,
    /// The half of the centre circle on this side.
    CentreCircle,
    /// The straight parts of the three-point line.
    Straight,
    /// Its arc.
    Arc,
    /// The ring.
    Rim,
    /// The board.
    Board,
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

/// All lines of a court.
pub fn lines(court: &Court) -> Vec<(Part, Line)> {
    let (base, end) = (court.baseline_y_m, court.straight_end_y());
    let corner = court.three_corner_x_m;
    let (lane, free_throw) = (court.lane_half_m, court.free_throw_y_m);
    let (half, mid) = (court.half_width_m, court.midcourt_y_m);
    vec![
        (Part::Edge, Line::Rectangle(vec2(-half, base), vec2(half, mid))),
        (Part::CentreCircle, Line::Arc(vec2(-CIRCLE_M, mid), vec2(CIRCLE_M, mid), CIRCLE_M, false)),
        (Part::Lane, Line::Rectangle(vec2(-lane, base), vec2(lane, free_throw))),
        (Part::FreeThrowCircle, Line::Circle(vec2(0.0, free_throw), CIRCLE_M)),
        (Part::Straight, Line::Segment(vec2(-corner, base), vec2(-corner, end))),
        (Part::Straight, Line::Segment(vec2(corner, base), vec2(corner, end))),
        (Part::Arc, Line::Arc(vec2(-corner, end), vec2(corner, end), court.three_radius_m, true)),
        (Part::Board, Line::Segment(vec2(-BOARD_HALF_M, -BOARD_M), vec2(BOARD_HALF_M, -BOARD_M))),
        (Part::Rim, Line::Circle(Vec2::RIM, RIM_M)),
    ]
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
    fn lane_edges_and_rim_are_the_data_s() {
        for court in courts() {
            let [Line::Rectangle(low, high)] = only(&court, Part::Lane)[..] else { panic!() };
            let inside = vec2(high.x - 0.01, high.y - 0.01);
            let outside = [vec2(high.x + 0.01, 0.0), vec2(0.0, high.y + 0.01), vec2(low.x - 0.01, 0.0)];
            assert!(court.in_lane(inside) && outside.iter().all(|p| !court.in_lane(*p)));
            let [Line::Circle(middle, _)] = only(&court, Part::FreeThrowCircle)[..] else { panic!() };
            assert_eq!(middle, vec2(0.0, court.free_throw_y_m));
            let [Line::Rectangle(low, high)] = only(&court, Part::Edge)[..] else { panic!() };
            assert!(court.in_bounds(low) && court.in_bounds(high));
            assert!(
                !court.in_bounds(vec2(low.x, low.y - 0.01)) && !court.in_bounds(vec2(0.0, high.y + 0.01))
            );
            let [Line::Circle(rim, _)] = only(&court, Part::Rim)[..] else { panic!() };
            let [Line::Segment(left, right)] = only(&court, Part::Board)[..] else { panic!() };
            assert_eq!(rim, Vec2::RIM, "the origin lies under the rim");
            // 1.2 m from the baseline in every rule set (4 ft, 1.20 m).
            assert!((left.y - court.baseline_y_m - 1.2).abs() < 0.03 && left.x == -right.x, "{left:?}");
            let [Line::Arc(from, to, radius, false)] = only(&court, Part::CentreCircle)[..] else { panic!() };
            assert_eq!((from.y, to.y, to.x), (court.midcourt_y_m, court.midcourt_y_m, radius));
        }
    }
}
