//! The half court of a rule set as a picture: every line from the data, none from memory.
//!
//! Centimetres, rim at the top, +x to the right as the attack faces the rim, +y downwards to midcourt.

use engine::math::Vec2;
use engine::setup::Court;

use super::track::hundredths;
use crate::marks::{FLOOR, INK, LANE, LINE, RIM};
use crate::picture::{Line, Part, lines};

/// Room around the floor, cm.
const MARGIN_CM: i32 = 45;
/// Room around whoever stands outermost, cm.
const ROOM_CM: i32 = 110;

/// The picture's frame: left, top, width and height, cm.
pub fn frame_cm(court: &Court) -> [i32; 4] {
    let half = hundredths(court.half_width_m) + MARGIN_CM;
    let top = hundredths(court.baseline_y_m) - MARGIN_CM;
    [-half, top, 2 * half, hundredths(court.midcourt_y_m) + MARGIN_CM - top]
}

/// The part of the picture that holds these places and the rim, with room for marks: left, top, width and height, cm. It
/// goes no farther than the picture.
pub fn around_cm(court: &Court, places: impl IntoIterator<Item = Vec2>) -> [i32; 4] {
    let [left, top, width, height] = frame_cm(court);
    let (mut low, mut high) = ([0, 0], [0, 0]);
    for place in places.into_iter().map(|at| [hundredths(at.x), hundredths(at.y)]) {
        low = [low[0].min(place[0]), low[1].min(place[1])];
        high = [high[0].max(place[0]), high[1].max(place[1])];
    }
    // Both sides alike: half an arc beside a whole one looks like a fault.
    let wide = high[0].max(-low[0]) + ROOM_CM;
    let low = [(-wide).max(left), (low[1] - ROOM_CM).max(top)];
    let high = [wide.min(left + width), (high[1] + ROOM_CM).min(top + height)];
    [low[0], low[1], high[0] - low[0], high[1] - low[1]]
}

/// The lines of the floor as elements of an SVG; the centre circle lies outside of what a film needs.
pub fn floor_svg(court: &Court) -> String {
    let drawn = lines(court).into_iter().filter(|(part, _)| *part != Part::CentreCircle);
    let shown: Vec<String> =
        drawn.map(|(part, line)| element(&format!("class=\"{}\"", class(part)), line)).collect();
    shown.join("\n")
}

/// The same with every colour beside its line, for pictures that no page's style reaches.
pub fn floor_painted(court: &Court) -> String {
    let drawn = lines(court).into_iter().filter(|(part, _)| *part != Part::CentreCircle);
    let painted = drawn.map(|(part, line)| {
        let (class, fill, colour, width) = match part {
            Part::Edge => ("bounds line", FLOOR, LINE, 5),
            Part::Lane => ("lane line", LANE, LINE, 5),
            Part::Board => ("inked", "none", INK, 9),
            Part::Neck => ("inked", "none", INK, 5),
            Part::Rim => ("rim", "none", RIM, 6),
            _ => ("line", "none", LINE, 5),
        };
        let dashes = if part == Part::HiddenHalf { " stroke-dasharray=\"26 24\"" } else { "" };
        let paint =
            format!("class=\"{class}\" fill=\"{fill}\" stroke=\"{colour}\" stroke-width=\"{width}\"{dashes}");
        element(&paint, line)
    });
    painted.collect()
}

/// The class by which the page's style knows a part.
const fn class(part: Part) -> &'static str {
    match part {
        Part::Edge => "bounds",
        Part::Lane => "lane",
        Part::FreeThrowCircle => "circle",
        Part::HiddenHalf => "hidden-half",
        Part::CentreCircle => "centre-circle",
        Part::Straight | Part::Arc => "three",
        Part::NoCharge => "no-charge",
        Part::Board => "board",
        Part::Neck => "neck",
        Part::Rim => "rim",
    }
}

/// A line with these attributes.
fn element(attributes: &str, line: Line) -> String {
    let cm = hundredths;
    match line {
        Line::Segment(a, b) => {
            format!(r#"<path {attributes} d="M{} {}L{} {}"/>"#, cm(a.x), cm(a.y), cm(b.x), cm(b.y))
        }
        Line::Circle(middle, radius) => {
            format!(
                r#"<circle {attributes} cx="{}" cy="{}" r="{}"/>"#,
                cm(middle.x),
                cm(middle.y),
                cm(radius)
            )
        }
        Line::Arc(a, b, radius, out) => {
            let (r, sweep) = (cm(radius), u8::from(!out));
            let [ax, ay, bx, by] = [a.x, a.y, b.x, b.y].map(cm);
            format!(r#"<path {attributes} d="M{ax} {ay}A{r} {r} 0 0 {sweep} {bx} {by}"/>"#)
        }
        Line::Rectangle(a, b) => {
            let [ax, ay, bx, by] = [a.x, a.y, b.x, b.y].map(cm);
            format!(r#"<rect {attributes} x="{ax}" y="{ay}" width="{}" height="{}"/>"#, bx - ax, by - ay)
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::fs;

    /// Numbers of an attribute of the elements with a class, one after the other.
    fn numbers(svg: &str, class: &str, attribute: &str) -> Vec<f64> {
        let own = svg.lines().filter(|line| line.contains(&format!("class=\"{class}\"")));
        own.flat_map(|line| of_one(line, attribute)).collect()
    }

    fn of_one(line: &str, attribute: &str) -> Vec<f64> {
        let value = line.split(&format!(" {attribute}=\"")).nth(1).and_then(|rest| rest.split('"').next());
        value
            .expect(attribute)
            .split(|c: char| !(c.is_ascii_digit() || c == '-'))
            .filter(|text| !text.is_empty())
            .map(|text| text.parse().expect("a number"))
            .collect()
    }

    /// A length of a rule set as its file has it, cm.
    fn written(text: &str, key: &str) -> f64 {
        let line = text.lines().find(|line| line.starts_with(key)).unwrap_or_else(|| panic!("no {key}"));
        let value = line.split('=').nth(1).and_then(|rest| rest.split('#').next()).expect("a value").trim();
        value.parse::<f64>().unwrap_or_else(|_| panic!("{key} is {value}")) * 100.0
    }

    fn near(drawn: f64, wanted: f64, what: &str) {
        assert!((drawn - wanted).abs() <= 1.0, "{what}: drawn at {drawn} cm, the data says {wanted} cm");
    }

    #[test]
    fn every_line_lies_where_the_rule_sets_have_it() {
        let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../scenarios/data/rules");
        let mut seen = 0;
        for entry in fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            let rules = path.file_stem().unwrap().to_str().unwrap().to_owned();
            let text = fs::read_to_string(&path).unwrap();
            let home = tempfile::tempdir().unwrap();
            let file = home.path().join("a.toml");
            let matchup = format!(
                "name = \"a\"\nrules = \"{rules}\"\n[level]\nattack = \"high-school\"\ndefence = \
                 \"high-school\"\n[zone]\nuse = \"1-2-2\"\n[attack]\nuse = \"rover\"\nrover = {{ route = \
                 \"hold-wing\" }}\n"
            );
            fs::write(&file, matchup).unwrap();
            let setup = scenarios::scenario(&file).unwrap_or_else(|faults| panic!("{rules}: {faults}")).setup;
            check(&rules, &text, &floor_svg(&setup.court));
            seen += 1;
        }
        assert!(seen >= 4, "rule sets are bundled");
    }

    fn check(rules: &str, text: &str, svg: &str) {
        let w = |key: &str| written(text, key);
        let basket = w("basket_from_baseline_m");
        let is = |class: &str, attribute: &str, place: usize, wanted: f64| {
            near(numbers(svg, class, attribute)[place], wanted, &format!("{rules}, {class} {attribute}"));
        };
        is("bounds", "width", 0, w("court_width_m"));
        is("bounds", "y", 0, -basket);
        is("bounds", "height", 0, w("court_length_m") / 2.0);
        is("lane", "width", 0, w("lane_width_m"));
        is("lane", "height", 0, basket + w("free_throw_from_basket_m"));
        for half in ["circle", "hidden-half"] {
            is(half, "d", 1, w("free_throw_from_basket_m"));
            is(half, "d", 2, w("circle_radius_m"));
        }
        let (radius, corner) = (w("three_radius_m"), w("three_corner_m"));
        // Two straight parts of four numbers each, then the arc.
        for (side, from) in [(-1.0, 0), (1.0, 4)] {
            is("three", "d", from, side * corner);
            is("three", "d", from + 1, -basket);
            is("three", "d", from + 2, side * corner);
            is("three", "d", from + 3, (radius * radius - corner * corner).sqrt());
        }
        is("three", "d", 10, radius);
        is("board", "d", 1, w("board_from_baseline_m") - basket);
        is("board", "d", 2, w("board_width_m") / 2.0);
        is("neck", "d", 3, -w("rim_diameter_m") / 2.0);
        is("rim", "r", 0, w("rim_diameter_m") / 2.0);
        if text.contains("no_charge_radius_m = \"none\"") {
            assert!(!svg.contains("no-charge"), "{rules} has no such arc");
        } else {
            // A straight end of four numbers, then the arc.
            is("no-charge", "d", 6, w("no_charge_radius_m"));
        }
    }
}
