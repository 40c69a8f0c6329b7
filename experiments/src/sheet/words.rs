//! Words and numbers of a sheet.

use crate::places::position_words;

/// Possessions that points are told for: about a half against a zone.
pub const TWENTY: f64 = 20.0;

/// Points of one possession, told for twenty.
pub fn in_twenty(points: f64) -> String {
    format!("{:.1}", TWENTY * points)
}

/// A position as the tables name it, in words with its article.
pub fn position(key: &str) -> String {
    if key.is_empty() { "whoever is open".into() } else { format!("the {}", position_words(key)) }
}
