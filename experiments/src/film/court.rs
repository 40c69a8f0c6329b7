//! The half court of a rule set as a picture: every line from the data, none from memory.
//!
//! Centimetres, rim at the top, +x to the right as the attack faces the rim, +y downwards to midcourt.

use std::fmt::Write as _;

use engine::setup::Court;

use super::track::hundredths;

/// Room around the floor, cm.
const MARGIN_CM: i32 = 45;

/// The picture's frame: left, top, width and height, cm.
pub fn frame_cm(court: &Court) -> [i32; 4] {
    let half = hundredths(court.half_width_m) + MARGIN_CM;
    let top = hundredths(court.baseline_y_m) - MARGIN_CM;
    [-half, top, 2 * half, hundredths(court.midcourt_y_m) + MARGIN_CM - top]
}

/// The lines of the floor as elements of an SVG.
pub fn floor_svg(court: &Court) -> String {
    let cm = hundredths;
    let marks = &court.markings;
    let (half, base, mid) = (cm(court.half_width_m), cm(court.baseline_y_m), cm(court.midcourt_y_m));
    let (lane, line) = (cm(court.lane_half_m), cm(court.free_throw_y_m));
    let (arc, corner, end) =
        (cm(court.three_radius_m), cm(court.three_corner_x_m), cm(court.straight_end_y()));
    let (circle, rim) = (cm(marks.circle_radius_m), cm(marks.rim_radius_m));
    let (board, board_half) = (cm(marks.board_y_m), cm(marks.board_width_m / 2.0));
    let mut svg = String::new();
    let mut add = |text: String| {
        svg.push_str(&text);
        svg.push('\n');
    };
    add(format!(
        r#"<rect class="bounds" x="{}" y="{base}" width="{}" height="{}"/>"#,
        -half,
        2 * half,
        mid - base
    ));
    add(format!(
        r#"<rect class="lane" x="{}" y="{base}" width="{}" height="{}"/>"#,
        -lane,
        2 * lane,
        line - base
    ));
    add(format!(r#"<path class="free-throw-line" d="M{} {line}H{lane}"/>"#, -lane));
    add(format!(r#"<path class="circle" d="M{} {line}A{circle} {circle} 0 0 0 {circle} {line}"/>"#, -circle));
    add(format!(
        r#"<path class="circle hidden-half" d="M{} {line}A{circle} {circle} 0 0 1 {circle} {line}"/>"#,
        -circle
    ));
    add(format!(
        r#"<path class="three" d="M{} {base}V{end}A{arc} {arc} 0 0 0 {corner} {end}V{base}"/>"#,
        -corner
    ));
    if let Some(radius) = marks.no_charge_m {
        let r = cm(radius);
        add(format!(r#"<path class="no-charge" d="M{} {board}V0A{r} {r} 0 0 0 {r} 0V{board}"/>"#, -r));
    }
    add(format!(r#"<path class="midcourt" d="M{} {mid}H{half}"/>"#, -half));
    add(format!(r#"<path class="board" d="M{} {board}H{board_half}"/>"#, -board_half));
    add(format!(r#"<path class="neck" d="M0 {board}V{}"/>"#, -rim));
    let _ = write!(svg, r#"<circle class="rim" cx="0" cy="0" r="{rim}"/>"#);
    svg
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::fs;

    /// Numbers of an attribute of the element with a class.
    fn numbers(svg: &str, class: &str, attribute: &str) -> Vec<f64> {
        let line = svg.lines().find(|line| line.contains(&format!("class=\"{class}\""))).expect(class);
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
        is("free-throw-line", "d", 1, w("free_throw_from_basket_m"));
        is("circle", "d", 1, w("free_throw_from_basket_m"));
        is("circle", "d", 2, w("circle_radius_m"));
        let (radius, corner) = (w("three_radius_m"), w("three_corner_m"));
        is("three", "d", 0, -corner);
        is("three", "d", 1, -basket);
        is("three", "d", 2, (radius * radius - corner * corner).sqrt());
        is("three", "d", 3, radius);
        is("midcourt", "d", 1, w("court_length_m") / 2.0 - basket);
        is("board", "d", 1, w("board_from_baseline_m") - basket);
        is("board", "d", 2, w("board_width_m") / 2.0);
        is("rim", "r", 0, w("rim_diameter_m") / 2.0);
        if text.contains("no_charge_radius_m = \"none\"") {
            assert!(!svg.contains("no-charge"), "{rules} has no such arc");
        } else {
            is("no-charge", "d", 3, w("no_charge_radius_m"));
        }
    }
}
