//! The marks of the trade, drawn in one place for report, sheet, cards and films: numbered discs attack, letters in squares
//! defend, a solid line with an arrow's head is a cut, a wavy one a dribble, a dashed one a pass, a dotted one a shot, a bar
//! a screen (common practice, no source). What a player does is blue, what the ball does is dark; no meaning hangs on that.
//!
//! Every colour stands beside its mark, so that a picture looks the same wherever it is drawn; classes let a page that is
//! shown in the dark put others in their place. Centimetres of the floor. The script of a film's page draws by the sizes
//! that [`script`] gives it.

mod colours;
#[cfg(test)]
mod contrast;

use std::fmt::Write as _;

use engine::film::Slot;

pub use self::colours::*;
use crate::wording::escaped;

/// Radius of an attacker's disc.
pub const DISC: f64 = 42.0;
/// Half of the side of a defender's square.
const SQUARE: f64 = 38.0;
/// Where an attacker faces, and where a defender does; a disc or a square lies over their feet.
const NOSES: [&str; 2] = ["M38-16 60 0 38 16z", "M34-18 64 0 34 18z"];
/// Length of a dribble's wave, and how far it swings.
const WAVE: (f64, f64) = (62.0, 13.0);
/// How far before a player the bar of his screen is, and half of its length.
const BAR: (f64, f64) = (68.0, 50.0);
/// So far from who screens a defender is drawn clear of the bar.
pub const BEYOND_BAR: f64 = BAR.0 + SQUARE + 20.0;
/// Length of an arrow's head.
const HEAD: f64 = 46.0;
/// An arrow points the way that its last stretch of this length goes.
const LAST_STRETCH: f64 = 95.0;
/// From within this of where its runner is last a way goes straight there: how he stands about is no way.
const ABOUT: f64 = 70.0;
/// Dashes of a pass, and dots of a shot.
const DASHES: &str = "30 20";
const DOTS: &str = "1 22";

/// A place.
pub type At = (f64, f64);

/// How far two places lie from each other. (The standard library's `hypot` differs between platforms.)
pub fn gap(a: At, b: At) -> f64 {
    libm::hypot(a.0 - b.0, a.1 - b.1)
}

/// What the script of a page draws by.
pub fn script() -> String {
    format!(
        "const MARK = {{ disc: {DISC}, square: {SQUARE}, noses: {NOSES:?}, wave: [{}, {}], bar: [{}, {}] }};\n",
        WAVE.0, WAVE.1, BAR.0, BAR.1
    )
}

/// What stands on a player's mark: attackers are numbered in the order of their roles, defenders have the first letters of
/// their names.
pub fn letters(name: &str, player: Slot) -> String {
    if player.attacks() {
        return (player.index() + 1).to_string();
    }
    name.split(' ').filter_map(|word| word.chars().next()).collect::<String>().to_uppercase()
}

/// A player who faces somewhere, degrees from +x toward +y.
pub fn player(player: Slot, (x, y): At, facing: f64, letters: &str) -> String {
    let shape = if player.attacks() {
        let nose = nose(NOSES[0], facing, ("disc", ATTACK));
        format!("{nose}{}", attacker((0.0, 0.0), letters))
    } else {
        format!("{}{}", nose(NOSES[1], facing, ("nose", DEFENCE)), defender((0.0, 0.0), letters))
    };
    format!("<g transform=\"translate({x:.0} {y:.0})\">{shape}</g>")
}

fn nose(way: &str, facing: f64, (class, colour): (&str, &str)) -> String {
    format!("<path transform=\"rotate({facing:.0})\" d=\"{way}\" class=\"{class}\" fill=\"{colour}\"/>")
}

/// An attacker: a disc with his number.
pub fn attacker(at: At, number: &str) -> String {
    disc(at, number, ("disc", ATTACK, CARD), ("number", ON_ATTACK))
}

/// An attacker whom a picture is not about: an open disc.
pub fn mate(at: At, number: &str) -> String {
    disc(at, number, ("mate", CARD, ATTACK), ("mate-number", ATTACK))
}

fn disc(
    (x, y): At,
    number: &str,
    (class, fill, edge): (&str, &str, &str),
    (words, colour): (&str, &str),
) -> String {
    format!(
        "<circle cx=\"{x:.0}\" cy=\"{y:.0}\" r=\"{DISC}\" class=\"{class}\" fill=\"{fill}\" stroke=\"{edge}\" \
         stroke-width=\"6\"/>{}",
        text(&escaped(number), (x, y + 17.0), 48.0, (words, colour))
    )
}

/// A defender: a square with his letters.
pub fn defender((x, y): At, letters: &str) -> String {
    let (left, top, side) = (x - SQUARE, y - SQUARE, 2.0 * SQUARE);
    // One size for a letter and for two: no defender is more than another.
    let size = if letters.chars().count() > 2 { 28.0 } else { 42.0 };
    format!(
        "<rect x=\"{left:.0}\" y=\"{top:.0}\" width=\"{side}\" height=\"{side}\" rx=\"8\" class=\"body\" fill=\"{CARD}\" \
         stroke=\"{DEFENCE}\" stroke-width=\"8\"/>{}",
        text(&escaped(letters), (x, y + 0.36 * size), size, ("letter", DEFENCE))
    )
}

/// Bold text around a middle; its class and colour.
pub fn text(escaped: &str, (x, y): At, size: f64, (class, colour): (&str, &str)) -> String {
    format!(
        // By style: the sheet of a page has a size for all other words.
        "<text x=\"{x:.0}\" y=\"{y:.0}\" style=\"font-size:{size:.0}px\" font-weight=\"700\" text-anchor=\"middle\" \
         class=\"{class}\" fill=\"{colour}\">{escaped}</text>"
    )
}

/// The ball.
pub fn ball((x, y): At, height_m: f64) -> String {
    let radius = 18.0 + 5.0 * height_m;
    format!(
        "<circle cx=\"{x:.0}\" cy=\"{y:.0}\" r=\"{radius:.0}\" class=\"ball\" fill=\"{BALL}\" stroke=\"{INK}\" \
         stroke-width=\"6\"/>"
    )
}

/// What a player has run up to where he is now: a line without a head, for an arrow that leaves a player is what he shall do.
pub fn trail(places: &[At]) -> String {
    line(places, ("way", ATTACK), 9.0, "")
}

/// What he has dribbled up to where he is now.
pub fn dribbled(places: &[At]) -> String {
    line(&wave(places), ("way", ATTACK), 6.0, "")
}

/// A cut that ends in a screen or a seal: the bar across its end.
pub fn screened(places: &[At]) -> String {
    let (Some(first), Some(last)) = (places.first(), places.last()) else { return String::new() };
    held(places, libm::atan2(last.1 - first.1, last.0 - first.0).to_degrees())
}

/// A cut that ends in a screen or a seal of somebody who stands in this direction from its end, degrees.
pub fn held(places: &[At], facing: f64) -> String {
    let (Some(first), Some(last)) = (places.first(), places.last()) else { return String::new() };
    // A step or two beside his mark is no way: only a stub of it would be seen.
    let leaves = places.iter().any(|at| gap(*at, *first) > 2.5 * DISC);
    if leaves { trail(places) + &bar(*last, facing) } else { bar(*first, facing) }
}

/// A cut, without the ball.
pub fn cut(places: &[At]) -> String {
    let way = come(places);
    arrow(&way, &way, ("way", "arrow", ATTACK), 9.0, "")
}

/// A pass from one player's mark to another's.
pub fn pass(from: At, to: At) -> String {
    let way = between(from, to);
    arrow(&way, &way, ("inked", "inkarrow", INK), 8.0, DASHES)
}

/// A shot, from a player's mark.
pub fn shot(from: At, to: At) -> String {
    line(&[between(from, to)[0], to], ("inked", INK), 10.0, DOTS)
}

/// A screen or a seal: a bar across the way that he faces, degrees, before him, on a stem from him.
pub fn bar((x, y): At, facing: f64) -> String {
    let way = facing.to_radians();
    let (ux, uy) = (libm::cos(way), libm::sin(way));
    let foot = (x + BAR.0 * ux, y + BAR.0 * uy);
    let (dx, dy) = (-BAR.1 * uy, BAR.1 * ux);
    let across = [(foot.0 - dx, foot.1 - dy), (foot.0 + dx, foot.1 + dy)];
    line(&[(x, y), foot], ("way", ATTACK), 9.0, "") + &line(&across, ("way", ATTACK), 16.0, "")
}

/// A dribble: a wave along the way.
pub fn dribble(places: &[At]) -> String {
    let way = come(places);
    arrow(&wave(&way), &way, ("way", "arrow", ATTACK), 6.0, "")
}

/// The wave along a way.
fn wave(way: &[At]) -> Vec<At> {
    let mut wave: Vec<At> = way.first().copied().into_iter().collect();
    let mut come = 0.0;
    for pair in way.windows(2) {
        let (dx, dy) = (pair[1].0 - pair[0].0, pair[1].1 - pair[0].1);
        let length = libm::hypot(dx, dy);
        if length < 1.0 {
            continue;
        }
        let steps = (length / 8.0).ceil() as usize;
        for step in 1..=steps {
            let share = step as f64 / steps as f64;
            let phase = std::f64::consts::TAU * (come + share * length) / WAVE.0;
            let swing = WAVE.1 * libm::sin(phase) / length;
            wave.push((pair[0].0 + share * dx - swing * dy, pair[0].1 + share * dy + swing * dx));
        }
        come += length;
    }
    wave
}

/// What is left of a straight way between two marks outside of both; all of it where they touch.
fn between(from: At, to: At) -> [At; 2] {
    let (dx, dy) = (to.0 - from.0, to.1 - from.1);
    let length = libm::hypot(dx, dy);
    let off = DISC + 6.0;
    if length < 2.0 * off + HEAD {
        return [from, to];
    }
    let (ux, uy) = (off * dx / length, off * dy / length);
    [(from.0 + ux, from.1 + uy), (to.0 - ux, to.1 - uy)]
}

/// A way up to where its runner has come to stand, without the steps that he makes about there.
fn come(places: &[At]) -> Vec<At> {
    let Some(&last) = places.last() else { return Vec::new() };
    let away = |at: &At| gap(*at, last) > ABOUT;
    let stands = places.iter().rposition(away).map_or(0, |last| last + 1);
    places[..stands].iter().copied().chain([last]).collect()
}

/// A line through `drawn` that ends in an arrow's head as the way `along` does; a short one has none.
fn arrow(
    drawn: &[At],
    along: &[At],
    (class, head, colour): (&str, &str, &str),
    width: f64,
    dashes: &str,
) -> String {
    let Some((tip, wings)) = head_of(along, HEAD) else { return line(drawn, (class, colour), width, dashes) };
    // The line ends within its head.
    let neck = |at: &&At| gap(**at, tip) > 0.6 * HEAD;
    let kept = drawn.iter().rposition(|at| neck(&at)).map_or(0, |last| last + 1);
    let foot = (0.5 * (wings[0].0 + wings[1].0), 0.5 * (wings[0].1 + wings[1].1));
    let way: Vec<At> = drawn[..kept].iter().copied().chain([foot]).collect();
    format!(
        "{}<path d=\"M{:.0} {:.0}L{:.0} {:.0}L{:.0} {:.0}z\" class=\"{head}\" fill=\"{colour}\"/>",
        line(&way, (class, colour), width, dashes),
        tip.0,
        tip.1,
        wings[0].0,
        wings[0].1,
        wings[1].0,
        wings[1].1
    )
}

/// The head of an arrow of a length: its tip and its two wings, turned as the last stretch of the way goes. None where
/// there is no way to speak of.
pub fn head_of(places: &[At], size: f64) -> Option<(At, [At; 2])> {
    let &tip = places.last()?;
    let far = places.iter().rev().find(|at| gap(tip, **at) >= LAST_STRETCH.max(size)).or(places.first())?;
    let length = gap(tip, *far);
    if length < 1.1 * size {
        return None;
    }
    let (dx, dy) = (size * (tip.0 - far.0) / length, size * (tip.1 - far.1) / length);
    let foot = (tip.0 - dx, tip.1 - dy);
    Some((tip, [(foot.0 - 0.42 * dy, foot.1 + 0.42 * dx), (foot.0 + 0.42 * dy, foot.1 - 0.42 * dx)]))
}

/// A line through places; nothing where there is only one.
fn line(places: &[At], (class, colour): (&str, &str), width: f64, dashes: &str) -> String {
    if places.len() < 2 {
        return String::new();
    }
    let mut way = String::new();
    for (nth, (x, y)) in places.iter().enumerate() {
        let _ = write!(way, "{}{x:.0} {y:.0}", if nth == 0 { 'M' } else { 'L' });
    }
    let dashes = match dashes {
        "" => String::new(),
        DOTS => format!(" stroke-linecap=\"round\" stroke-dasharray=\"{DOTS}\""),
        dashes => format!(" stroke-dasharray=\"{dashes}\""),
    };
    format!(
        "<path d=\"{way}\" class=\"{class}\" fill=\"none\" stroke=\"{colour}\" stroke-width=\"{width}\" \
         stroke-linejoin=\"round\"{dashes}/>"
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_arrow_points_where_the_way_went_and_not_where_its_runner_stood_about() {
        // To the left for three metres, then a few steps back and forth.
        let mut way: Vec<At> = (0..31).map(|step| (300.0 - 10.0 * f64::from(step), 0.0)).collect();
        way.extend([(15.0, 8.0), (30.0, 2.0), (22.0, 0.0)]);
        let ((x, _), wings) = head_of(&come(&way), HEAD).unwrap();
        assert!(wings.iter().all(|wing| wing.0 > x), "it points left: {wings:?}");
        assert!(cut(&way).contains("class=\"arrow\""));
        assert!(head_of(&[(0.0, 0.0), (5.0, 0.0)], HEAD).is_none(), "nobody went anywhere");
        assert!(!cut(&[(0.0, 0.0), (5.0, 0.0)]).contains("arrow"));
    }

    #[test]
    fn what_has_been_run_has_no_head_and_ends_where_he_is() {
        let way = [(0.0, 0.0), (200.0, 0.0), (300.0, 40.0)];
        for drawn in [trail(&way), dribbled(&way), screened(&way)] {
            assert!(!drawn.contains("arrow"), "{drawn}");
        }
        assert!(trail(&way).contains("L300 40\""), "{}", trail(&way));
    }

    #[test]
    fn a_pass_goes_from_edge_to_edge_and_lies_on_no_number() {
        let [from, to] = between((0.0, 0.0), (400.0, 0.0));
        assert_eq!((from, to), ((DISC + 6.0, 0.0), (400.0 - DISC - 6.0, 0.0)));
    }

    #[test]
    fn the_trade_s_kinds_of_line_differ_by_more_than_colour() {
        let (a, b) = ((0.0, 0.0), (300.0, 40.0));
        let all = [cut(&[a, b]), dribble(&[a, b]), pass(a, b), shot(a, b), bar(a, 0.0)];
        let dashes = |svg: &str| {
            svg.split("dasharray=\"").nth(1).map(|rest| rest.split('"').next().unwrap().to_owned())
        };
        let told: Vec<_> = all
            .iter()
            .map(|svg| (dashes(svg), svg.matches('L').count() > 20, svg.contains("arrow")))
            .collect();
        for (nth, own) in told.iter().enumerate() {
            assert!(told[..nth].iter().all(|other| other != own), "{told:?}");
        }
    }
}
