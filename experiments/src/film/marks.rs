//! The marks of the trade, as a clip and a storyboard draw them: numbered discs attack, letters defend, a wavy line is a
//! dribble, a solid one a cut, a dashed one a pass, a bar a screen, a dotted line a shot (common practice, no source). A film
//! page draws the same ones with its script.
//!
//! Every colour stands beside its mark, so that a picture looks the same wherever it is drawn; classes let a page that is
//! shown in the dark put others in their place. Centimetres of the floor.

use std::fmt::Write as _;

use engine::film::Slot;

use crate::wording::escaped;

/// Ground of a picture, and of what is hollow.
pub const CARD: &str = "#fffdf8";
/// The floor.
pub const FLOOR: &str = "#efe6d5";
/// The lane.
pub const LANE: &str = "#e5d9c1";
/// Lines of the floor: three times as dark as the floor at least.
pub const LINE: &str = "#7c6c4d";
/// Text, ball and board.
pub const INK: &str = "#1c2329";
/// Text that is read last.
pub const SOFT: &str = "#566069";
/// The attack.
pub const ATTACK: &str = "#14599a";
/// What lies on it.
pub const ON_ATTACK: &str = "#ffffff";
/// The defence.
pub const DEFENCE: &str = "#a93f12";
/// The ball.
pub const BALL: &str = "#f6c945";

/// What a picture puts in the place of these colours in the dark.
pub const DARK: &str = "@media (prefers-color-scheme:dark){.card{fill:#1a2026}.bounds{fill:#20272d}.lane{fill:#2a333a}\
                        .line{stroke:#8593a0}.ink{fill:#e9e6df}.soft{fill:#a4aeb6}.inked{stroke:#e9e6df}\
                        .disc{fill:#7db9f2;stroke:#1a2026}.number{fill:#0d1a26}.way{stroke:#7db9f2}\
                        .body{fill:#1a2026;stroke:#f3a270}.letter{fill:#f3a270}\
                        .ball{fill:#ffe08a;stroke:#0d1114}}";

/// Radius of an attacker's disc.
const DISC: f64 = 40.0;
/// Length of a dribble's wave, and how far it swings.
const WAVE: (f64, f64) = (62.0, 13.0);

/// A place.
pub type At = (f64, f64);

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
    let letters = escaped(letters);
    let turned = format!("transform=\"rotate({facing:.0})\"");
    let shape = if player.attacks() {
        format!(
            "<path {turned} d=\"M38-15 58 0 38 15z\" class=\"disc\" fill=\"{ATTACK}\" stroke=\"{CARD}\" \
             stroke-width=\"4\"/><circle r=\"{DISC}\" class=\"disc\" fill=\"{ATTACK}\" stroke=\"{CARD}\" \
             stroke-width=\"4\"/>{}",
            text(&letters, (0.0, 16.0), 46.0, ("number", ON_ATTACK))
        )
    } else {
        format!(
            "<path {turned} d=\"M-34-37H14L50 0 14 37H-34z\" class=\"body\" fill=\"{CARD}\" stroke=\"{DEFENCE}\" \
             stroke-width=\"8\" stroke-linejoin=\"round\"/>{}",
            text(&letters, (-3.0, 12.0), if letters.len() > 2 { 25.0 } else { 34.0 }, ("letter", DEFENCE))
        )
    };
    format!("<g transform=\"translate({x:.0} {y:.0})\">{shape}</g>")
}

/// Bold text around a middle; its class and colour.
pub fn text(escaped: &str, (x, y): At, size: f64, (class, colour): (&str, &str)) -> String {
    format!(
        "<text x=\"{x:.0}\" y=\"{y:.0}\" font-size=\"{size:.0}\" font-weight=\"700\" text-anchor=\"middle\" \
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

/// A cut, without the ball.
pub fn cut(places: &[At]) -> String {
    line(places, ("way", ATTACK), 8.0, "")
}

/// A pass.
pub fn pass(from: At, to: At) -> String {
    line(&[from, to], ("inked", INK), 7.0, "30 20")
}

/// A shot.
pub fn shot(from: At, to: At) -> String {
    line(&[from, to], ("inked", INK), 7.0, "7 17")
}

/// A screen or a seal: a bar across the way that he faces, degrees.
pub fn bar((x, y): At, facing: f64) -> String {
    let across = facing.to_radians();
    let (dx, dy) = (-62.0 * libm::sin(across), 62.0 * libm::cos(across));
    line(&[(x - dx, y - dy), (x + dx, y + dy)], ("way", ATTACK), 18.0, "")
}

/// A dribble: a wave along the way.
pub fn dribble(places: &[At]) -> String {
    let mut wave: Vec<At> = places.first().copied().into_iter().collect();
    let mut come = 0.0;
    for pair in places.windows(2) {
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
    line(&wave, ("way", ATTACK), 6.0, "")
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
    let dashes = if dashes.is_empty() { String::new() } else { format!(" stroke-dasharray=\"{dashes}\"") };
    format!(
        "<path d=\"{way}\" class=\"{class}\" fill=\"none\" stroke=\"{colour}\" stroke-width=\"{width}\" \
         stroke-linejoin=\"round\"{dashes}/>"
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A clip and a page of the same film look alike.
    #[test]
    fn the_colours_are_the_pages() {
        let css = include_str!("page/film.css");
        for (name, light) in [
            ("card", CARD),
            ("floor", FLOOR),
            ("lane", LANE),
            ("line", LINE),
            ("ink", INK),
            ("soft", SOFT),
            ("attack", ATTACK),
            ("defence", DEFENCE),
            ("ball", BALL),
        ] {
            let key = format!("--{name}: ");
            let values: Vec<&str> =
                css.split(&key).skip(1).map(|rest| rest.split(';').next().unwrap()).collect();
            let [bright, dark] = values[..] else { panic!("{name} has {values:?}") };
            assert_eq!(bright, light, "{name}");
            assert!(DARK.contains(dark), "{name} is {dark} in the dark");
        }
    }

    fn luminance(colour: &str) -> f64 {
        let part = |at: usize| {
            let value = f64::from(u8::from_str_radix(&colour[at..at + 2], 16).unwrap()) / 255.0;
            if value <= 0.04045 { value / 12.92 } else { ((value + 0.055) / 1.055).powf(2.4) }
        };
        0.2126 * part(1) + 0.7152 * part(3) + 0.0722 * part(5)
    }

    fn contrast(a: &str, b: &str) -> f64 {
        let (a, b) = (luminance(a), luminance(b));
        (a.max(b) + 0.05) / (a.min(b) + 0.05)
    }

    #[test]
    fn lines_and_marks_stand_out() {
        for ground in [FLOOR, LANE] {
            for mark in [LINE, INK, ATTACK, DEFENCE] {
                assert!(contrast(mark, ground) >= 3.0, "{mark} on {ground}: {:.2}", contrast(mark, ground));
            }
        }
        for ground in ["#20272d", "#2a333a"] {
            for mark in ["#8593a0", "#e9e6df", "#7db9f2", "#f3a270"] {
                assert!(contrast(mark, ground) >= 3.0, "{mark} on {ground} in the dark");
            }
        }
    }
}
