//! Names of players in files and pictures, where the floor is folded to the rover's starting side.

use engine::film::Slot;
use engine::math::Vec2;
use engine::setup::{Pairing, Position, Setup, Zone};

use crate::marks;

/// The attackers in slot order. Sides are seen from the rover: which post is the left one changes from
/// possession to possession.
pub const ATTACKERS: [&str; 5] = ["lead-guard", "off-guard", "rover", "rover-side-post", "other-post"];

/// A position as a table names it, in words without an article.
pub fn position_words(key: &str) -> String {
    match key {
        "rover-side-post" => "post on the rover's side".into(),
        _ => key.replace('-', " "),
    }
}

/// The same with his number in pictures: `off guard (2)`.
pub fn numbered(key: &str) -> String {
    let number = ATTACKERS.iter().position(|own| *own == key);
    number.map_or_else(|| position_words(key), |role| format!("{} ({})", position_words(key), role + 1))
}

/// A place of the floor by its name without its side: `the wing`.
pub fn sideless(setup: &Setup, at: Vec2) -> String {
    engine::names::place(setup, at).replace("left ", "").replace("right ", "")
}

/// A defender by his position in the zone: `point`, `rover-side-wing`, `other-side-wing`.
pub fn defender_name(zone: &Zone, position: usize) -> String {
    let Position { name, pairing, .. } = &zone.positions[position];
    match pairing {
        Pairing::Lone => name.clone(),
        Pairing::Near(_) => format!("rover-side-{name}"),
        Pairing::Far(_) => format!("other-side-{name}"),
    }
}

/// The letters of a defender in pictures, as a film of the same possession has them: those of `left back`, `point`. `side` is
/// +1 where the rover started on the right, as he does wherever a floor is turned.
pub fn defender_letters(zone: &Zone, position: usize, side: f64) -> String {
    let Position { name, pairing, .. } = &zone.positions[position];
    let named = |right: bool| format!("{} {name}", if right { "right" } else { "left" });
    let words = match pairing {
        Pairing::Lone => name.clone(),
        Pairing::Near(_) => named(side > 0.0),
        Pairing::Far(_) => named(side < 0.0),
    };
    marks::letters(&words, Slot::of(ATTACKERS.len() + position))
}

/// What the letters of a zone stand for, for legends: `P point, LW and RW wings, LB and RB backs: defenders, left and right as the attack sees
/// them; dot: the ball`.
pub fn letters_told(zone: &Zone) -> String {
    let told = |position: usize| {
        let Position { name, pairing, .. } = &zone.positions[position];
        let own = defender_letters(zone, position, 1.0);
        match pairing {
            Pairing::Lone => Some(format!("{own} {name}")),
            Pairing::Near(_) => Some(format!("{} and {own} {name}s", defender_letters(zone, position, -1.0))),
            // Told with the other one.
            Pairing::Far(_) => None,
        }
    };
    let all: Vec<String> = (0..zone.positions.len()).filter_map(told).collect();
    format!("{}: defenders, left and right as the attack sees them; dot: the ball", all.join(", "))
}

/// Any player of a film: the attackers, then the zone.
pub fn player_name(setup: &Setup, player: usize) -> String {
    match player.checked_sub(ATTACKERS.len()) {
        None => ATTACKERS[player].to_owned(),
        Some(position) => defender_name(&setup.zone, position),
    }
}
