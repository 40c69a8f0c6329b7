//! Names of players in files and pictures, where the floor is folded to the rover's starting side.

use engine::setup::{Pairing, Position, Setup, Zone};

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

/// A defender by his position in the zone: `point`, `rover-side-wing`, `other-side-wing`.
pub fn defender_name(zone: &Zone, position: usize) -> String {
    let Position { name, pairing, .. } = &zone.positions[position];
    match pairing {
        Pairing::Lone => name.clone(),
        Pairing::Near(_) => format!("rover-side-{name}"),
        Pairing::Far(_) => format!("other-side-{name}"),
    }
}

/// The letter of a defender in pictures: the first of his job's name.
pub fn defender_letter(zone: &Zone, position: usize) -> String {
    zone.positions[position]
        .name
        .chars()
        .next()
        .map_or_else(String::new, |letter| letter.to_uppercase().collect())
}

/// Any player of a film: the attackers, then the zone.
pub fn player_name(setup: &Setup, player: usize) -> String {
    match player.checked_sub(ATTACKERS.len()) {
        None => ATTACKERS[player].to_owned(),
        Some(position) => defender_name(&setup.zone, position),
    }
}
