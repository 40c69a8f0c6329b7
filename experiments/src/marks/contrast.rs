//! That every colour stands out from what it really lies on, by the numbers of the style sheets: marks and lines by 3 to 1,
//! words by 4.5 to 1, large bold ones by 3 to 1 (WCAG 2.2, 1.4.3 and 1.4.11), by day, in the dark and on paper.
//!
//! Not measured against one another: neighbouring shades of one scale; regions are parted by a pale border and told in numbers,
//! cells have an edge.

use super::DARK;
use crate::picture::STYLE;

const FILM: &str = include_str!("../film/page/film.css");
/// Marks and lines, and large bold words.
const SEEN: f64 = 3.0;
/// Words.
const READ: f64 = 4.5;

/// Red, green and blue, 0 to 1.
type Rgb = [f64; 3];

fn rgb(colour: &str) -> Rgb {
    let digits = colour.trim_start_matches('#');
    let long: String = if digits.len() == 3 {
        digits.chars().flat_map(|digit| [digit, digit]).collect()
    } else {
        digits.to_owned()
    };
    [0, 2, 4].map(|at| f64::from(u8::from_str_radix(&long[at..at + 2], 16).expect(colour)) / 255.0)
}

/// A colour of some opacity over another.
fn over(top: Rgb, opacity: f64, below: Rgb) -> Rgb {
    core::array::from_fn(|part| opacity * top[part] + (1.0 - opacity) * below[part])
}

fn luminance(colour: Rgb) -> f64 {
    let linear =
        colour.map(|part| if part <= 0.04045 { part / 12.92 } else { ((part + 0.055) / 1.055).powf(2.4) });
    0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]
}

fn contrast(a: Rgb, b: Rgb) -> f64 {
    let (a, b) = (luminance(a), luminance(b));
    (a.max(b) + 0.05) / (a.min(b) + 0.05)
}

/// The colours of one scheme, by the names of their variables.
struct Scheme<'a> {
    name: &'a str,
    text: &'a str,
}

impl Scheme<'_> {
    fn get(&self, name: &str) -> Rgb {
        let value =
            self.text.split(&format!("--{name}:")).nth(1).and_then(|rest| rest.split([';', '}']).next());
        rgb(value.unwrap_or_else(|| panic!("{} has no {name}", self.name)).trim())
    }

    /// Fails where one of the marks stands out too little from one of the grounds.
    fn check(&self, marks: &[(&str, Rgb)], grounds: &[(&str, Rgb)], least: f64) {
        for (mark, colour) in marks {
            for (ground, below) in grounds {
                let seen = contrast(*colour, *below);
                assert!(seen >= least, "{}: {mark} on {ground} has {seen:.2}, not {least}", self.name);
            }
        }
    }

    fn named<'n, const N: usize>(&self, names: [&'n str; N]) -> [(&'n str, Rgb); N] {
        names.map(|name| (name, self.get(name)))
    }
}

/// A number of a rule: `opacity(css, ".pic .plate", "fill-opacity")`.
fn number(css: &str, rule: &str, key: &str) -> f64 {
    let own = css.split(&format!("{rule}{{")).nth(1).or(css.split(&format!("{rule} {{")).nth(1));
    let body = own.and_then(|rest| rest.split('}').next()).unwrap_or_else(|| panic!("no rule {rule}"));
    // `opacity` is no part of `fill-opacity`.
    let mut parts = body.split(';').filter_map(|part| part.split_once(':'));
    let value = parts.find(|(name, _)| name.trim() == key).unwrap_or_else(|| panic!("{rule} has no {key}")).1;
    value.trim().parse().unwrap_or_else(|_| panic!("{rule}: {key} is {value}"))
}

/// The schemes of the pictures: by day, in the dark, on paper.
fn of_pictures() -> [Scheme<'static>; 3] {
    let line = |nth: usize| STYLE.lines().nth(nth).expect("a scheme");
    [("by day", 0), ("in the dark", 1), ("on paper", 2)].map(|(name, nth)| Scheme { name, text: line(nth) })
}

/// Those of a film's page, and of clips and storyboards, which have the same colours.
fn of_films() -> [Scheme<'static>; 2] {
    let (light, dark) = FILM.split_once("prefers-color-scheme").expect("two schemes");
    [Scheme { name: "film by day", text: light }, Scheme { name: "film in the dark", text: dark }]
}

const SHADES: [&str; 5] = ["h1", "h2", "h3", "h4", "h5"];

#[test]
fn lines_of_the_floor_stand_out_on_the_floor_and_by_their_pale_edge_on_every_shade() {
    for scheme in of_pictures() {
        let lines = scheme.named(["line", "mark"]);
        scheme.check(&lines, &scheme.named(["floor", "lane", "paper"]), SEEN);
        let opacity = number(STYLE, ".pic .halo .court", "stroke-opacity");
        // The edge is drawn over whatever lies there: a shade, or the area of a defender.
        let edge = |below: Rgb| over(scheme.get("paper"), opacity, below);
        let edges = SHADES.map(|shade| (shade, edge(scheme.get(shade))));
        scheme.check(&lines, &edges, SEEN);
        let areas = areas(&scheme).map(|(name, area)| (name, edge(area)));
        scheme.check(&lines, &areas, SEEN);
    }
}

/// The areas of the five defenders, over floor and lane.
fn areas(scheme: &Scheme<'_>) -> [(&'static str, Rgb); 10] {
    let opacity = number(STYLE, ".pic .d1,.pic .d2,.pic .d3,.pic .d4,.pic .d5", "fill-opacity");
    let all = ["d1", "d2", "d3", "d4", "d5"];
    core::array::from_fn(|nth| {
        let (area, ground) = (all[nth % 5], ["floor", "lane"][nth / 5]);
        (area, over(scheme.get(area), opacity, scheme.get(ground)))
    })
}

#[test]
fn marks_and_ways_stand_out_from_floor_and_lane_and_their_letters_from_them() {
    for scheme in of_pictures().into_iter().chain(of_films()) {
        let floors = scheme.named(["floor", "lane"]);
        scheme.check(&scheme.named(["attack", "defence", "ink"]), &floors, SEEN);
        scheme.check(&scheme.named(["attack", "defence"]), &scheme.named(["card"]), READ);
        scheme.check(&scheme.named(["on-attack"]), &scheme.named(["attack"]), READ);
        // A ball is seen by its edge or by its fill, and its edge from its fill.
        for (name, ground) in floors.into_iter().chain(scheme.named(["card", "attack"])) {
            let best = ["ball", "ball-edge"].map(|part| contrast(scheme.get(part), ground)).into_iter();
            assert!(best.fold(0.0, f64::max) >= SEEN, "{}: the ball on {name}", scheme.name);
        }
        scheme.check(&scheme.named(["ball-edge"]), &scheme.named(["ball"]), SEEN);
    }
}

#[test]
fn what_a_picture_draws_over_the_floor_stands_out_there() {
    for scheme in of_pictures() {
        let floors = scheme.named(["floor", "lane"]);
        // Outlines of areas, the mean of a line, and the squares that lie over them.
        let areas = areas(&scheme);
        scheme.check(&scheme.named(["d1", "d2", "d3", "d4", "d5"]), &floors, SEEN);
        scheme.check(&scheme.named(["soft", "defence"]), &[&floors[..], &areas[..]].concat(), SEEN);
        // Cells have an edge, for the palest is hardly darker than the floor; thin runs beside the usual one.
        scheme.check(&scheme.named(["h4"]), &floors, SEEN);
    }
}

#[test]
fn words_of_a_picture_can_be_read_on_what_they_lie_on() {
    for scheme in of_pictures() {
        let words = scheme.named(["ink", "soft"]);
        scheme.check(&words, &scheme.named(["paper", "floor"]), READ);
        // Over a shade they have an edge of paper, on the strongest two they are of paper with an edge of the strongest.
        scheme.check(&scheme.named(["ink"]), &scheme.named(["h1", "h2", "h3"]), SEEN);
        scheme.check(&scheme.named(["paper"]), &scheme.named(["h5"]), READ);
        scheme.check(&scheme.named(["paper"]), &scheme.named(["h4"]), SEEN);
        let plate = number(STYLE, ".pic .plate", "fill-opacity");
        let plates = ["floor", "lane", "attack"]
            .map(|name| (name, over(scheme.get("paper"), plate, scheme.get(name))));
        scheme.check(&scheme.named(["ink"]), &plates, READ);
    }
}

#[test]
fn bars_and_crosses_of_charts_stand_out_and_the_words_on_a_band_can_be_read() {
    for scheme in of_pictures() {
        let paper = scheme.get("paper");
        let band = ("band", over(scheme.get("p1"), number(STYLE, ".pic .band", "fill-opacity"), paper));
        scheme.check(
            &scheme.named(["d1", "line", "ink"]),
            &[("paper", paper), band, ("floor", scheme.get("floor"))],
            SEEN,
        );
        scheme.check(&scheme.named(["ink", "soft"]), &[band], READ);
        // A dot on its bar.
        scheme.check(&scheme.named(["paper"]), &scheme.named(["ink", "d1"]), SEEN);
    }
}

#[test]
fn what_a_film_draws_over_the_floor_stands_out_there() {
    for scheme in of_films() {
        let floors = scheme.named(["floor", "lane"]);
        scheme.check(&scheme.named(["line"]), &floors, SEEN);
        let faint = [
            (".trail", "attack"),
            (".trail.follow", "defence"),
            (".trail.dribble", "attack"),
            (".trail.pass", "ink"),
            (".air", "ink"),
            (".way", "soft"),
            (".way.arm", "defence"),
            (".route-drawn", "know"),
            (".route-run", "know"),
        ];
        for (rule, name) in faint {
            let opacity = number(FILM, &format!("\n{rule}"), "opacity");
            for (ground, below) in floors {
                scheme.check(&[(rule, over(scheme.get(name), opacity, below))], &[(ground, below)], SEEN);
            }
        }
        // Rings of who has the rebound and of the chosen player.
        for (rule, name) in [(".mark.rebounder .ring", "ink"), (".mark.chosen .ring", "know")] {
            let own = FILM.split(&format!("{rule} {{")).nth(1).and_then(|rest| rest.split('}').next());
            assert!(own.is_some_and(|body| body.contains(&format!("stroke: var(--{name})"))), "{rule}");
            scheme.check(&scheme.named([name]), &floors, SEEN);
        }
        // Beliefs, over what the chosen player sees.
        let sight = number(FILM, "\n.sight", "opacity") + number(FILM, "\n.field", "opacity");
        let seen = floors.map(|(name, ground)| (name, over(scheme.get("know"), sight, ground)));
        scheme.check(&scheme.named(["know"]), &[&floors[..], &seen[..]].concat(), SEEN);
        // Words have an edge of the floor.
        scheme.check(&scheme.named(["ink", "know"]), &scheme.named(["floor"]), READ);
    }
}

/// Clips, storyboards and stills are drawn by these; in the dark the same colours are put over them.
#[test]
fn what_is_painted_in_the_dark_is_what_a_film_has_there() {
    let [_, dark] = of_films();
    for (class, part, name) in [
        ("bounds", "fill", "floor"),
        ("lane", "fill", "lane"),
        ("line", "stroke", "line"),
        ("disc", "fill", "attack"),
        ("number", "fill", "on-attack"),
        ("letter", "fill", "defence"),
        ("body", "fill", "card"),
        ("ball", "fill", "ball"),
    ] {
        let rule =
            DARK.split(&format!(".{class}{{")).nth(1).and_then(|rest| rest.split('}').next()).expect(class);
        let value = rule.split(';').find_map(|own| own.strip_prefix(&format!("{part}:"))).expect(class);
        assert_eq!(rgb(value), dark.get(name), "{class}");
    }
}
