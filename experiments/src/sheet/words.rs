//! Words and numbers of a sheet.

use crate::places::numbered;
use crate::wording::TWENTY;

/// Points of one possession, told for twenty.
pub fn in_twenty(points: f64) -> String {
    let text = format!("{:.1}", TWENTY * points);
    if text == "-0.0" { "0.0".into() } else { text.replace('-', "\u{2212}") }
}

/// A position as the tables name it, in words with its article and its number in the pictures.
pub fn position(key: &str) -> String {
    if key.is_empty() { "whoever is open".into() } else { format!("the {}", numbered(key)) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nothing_lost_is_not_told_as_a_loss() {
        assert_eq!([in_twenty(-0.0001), in_twenty(-0.05), in_twenty(0.9)], ["0.0", "\u{2212}1.0", "18.0"]);
    }
}
