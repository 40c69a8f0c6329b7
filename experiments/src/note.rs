//! What every table, report and film says about itself, once.

/// The note under every result.
pub const NOTE: &str = "Real outcomes depend on players and officiating. These numbers compare ideas under \
stated assumptions; they do not predict a game. Follow your association's rules, and your own judgement on \
players' safety and load.";

/// `text` broken at blanks so that no line is longer than `width` characters; a longer word stands alone.
pub fn wrapped(text: &str, width: usize) -> String {
    let mut lines = String::new();
    let mut used = 0;
    for word in text.split_whitespace() {
        let length = word.chars().count();
        if used > 0 && used + 1 + length > width {
            lines.push('\n');
            used = 0;
        } else if used > 0 {
            lines.push(' ');
            used += 1;
        }
        lines.push_str(word);
        used += length;
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_line_is_longer_than_asked_and_no_word_is_lost() {
        for width in [1, 20, 80] {
            let lines = wrapped(NOTE, width);
            assert!(lines.split_whitespace().eq(NOTE.split_whitespace()));
            assert!(lines.lines().all(|line| line.len() <= width || !line.contains(' ')));
        }
    }
}
