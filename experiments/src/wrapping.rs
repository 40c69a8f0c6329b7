//! Text in lines, by the line breaking of the `textwrap` library, in whatever letters are measured.

use textwrap::core::Fragment;
use textwrap::wrap_algorithms::wrap_first_fit;

/// What becomes of a word that is wider than any line.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Overlong {
    /// It stands alone and runs over.
    Kept,
    /// It is broken where it must be.
    Broken,
}

/// A word, or what fits of one.
#[derive(Debug)]
struct Piece<'t> {
    text: &'t str,
    width: f64,
    /// Width of the blank after it, if one follows.
    blank: f64,
}

impl Fragment for Piece<'_> {
    fn width(&self) -> f64 {
        self.width
    }

    fn whitespace_width(&self) -> f64 {
        self.blank
    }

    fn penalty_width(&self) -> f64 {
        0.0
    }
}

/// Text broken at blanks. `widths` are those of the first lines, the last of them that of all others, too.
pub fn lines(text: &str, widths: &[f64], overlong: Overlong, measure: impl Fn(&str) -> f64) -> Vec<String> {
    let widest = widths.iter().copied().fold(0.0, f64::max);
    let piece = |text, blank| Piece { text, width: measure(text), blank };
    // A first word too wide for the first line may still fit the second.
    let mut pieces = vec![piece("", 0.0)];
    // A blank that is to keep two words together is none to break at.
    let parts = |letter: char| letter.is_whitespace() && letter != '\u{a0}';
    for mut word in text.split(parts).filter(|word| !word.is_empty()) {
        while overlong == Overlong::Broken && measure(word) > widest {
            let (head, rest) = word.split_at(fitting(word, widest, &measure));
            if rest.is_empty() {
                break;
            }
            pieces.push(piece(head, 0.0));
            word = rest;
        }
        pieces.push(piece(word, measure(" ")));
    }
    let line = |pieces: &[Piece<'_>]| {
        let mut line = String::new();
        for piece in pieces {
            line.push_str(piece.text);
            line.push_str(if piece.blank > 0.0 { " " } else { "" });
        }
        line.trim_end().to_owned()
    };
    wrap_first_fit(&pieces, widths).into_iter().map(line).filter(|line| !line.is_empty()).collect()
}

/// Where the part of a word ends that fits into a width: one letter at least.
fn fitting(word: &str, width: f64, measure: impl Fn(&str) -> f64) -> usize {
    let ends = word.char_indices().map(|(at, letter)| at + letter.len_utf8());
    ends.enumerate()
        .take_while(|&(nth, end)| nth == 0 || measure(&word[..end]) <= width)
        .map(|(_, end)| end)
        .last()
        .unwrap_or(0)
}

/// Text in lines of so many letters; a longer word stands alone.
pub fn wrapped(text: &str, width: usize) -> String {
    lines(text, &[width as f64], Overlong::Kept, letters).join("\n")
}

/// Text that begins at a column and goes on in lines under it, `hang` further in; no line goes over `width` letters.
pub fn hanging(text: &str, width: usize, column: usize, hang: usize) -> String {
    let room = |column: usize| width.saturating_sub(column) as f64;
    let lines = lines(text, &[room(column), room(column + hang)], Overlong::Kept, letters);
    lines.join(&format!("\n{}", " ".repeat(column + hang)))
}

/// Every letter counts as one.
pub fn letters(text: &str) -> f64 {
    text.chars().count() as f64
}

/// A text in which no number is parted from its unit: `7 ft 10 in`, `3.1 %`.
pub fn glued(text: &str) -> String {
    let mut glued = String::with_capacity(text.len());
    let (mut before, mut first) = ("", "");
    for word in text.split(' ') {
        let unit = word.trim_end_matches(['.', ',', ';', ':', ')']);
        let is_unit = match unit {
            "%" | "ft" | "m" | "cm" | "s" => true,
            // Else it says where.
            "in" => first == "ft",
            _ => false,
        };
        let counts = before.ends_with(|letter: char| letter.is_ascii_digit());
        let is_inches = before == "ft" && word.starts_with(|letter: char| letter.is_ascii_digit());
        if !glued.is_empty() {
            glued.push(if counts && is_unit || is_inches { '\u{a0}' } else { ' ' });
        }
        glued.push_str(word);
        (first, before) = (before, word);
    }
    glued
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::note::NOTE;

    #[test]
    fn no_line_is_longer_than_asked_and_no_word_is_lost() {
        for width in [1, 20, 80] {
            let lines = wrapped(NOTE, width);
            assert!(lines.split_whitespace().eq(NOTE.split_whitespace()));
            assert!(lines.lines().all(|line| line.len() <= width || !line.contains(' ')));
        }
    }

    #[test]
    fn names_are_broken_at_blanks_and_nothing_is_lost() {
        let broken = |text, first: usize, rest: usize| {
            lines(text, &[first as f64, rest as f64], Overlong::Broken, letters)
        };
        assert_eq!(broken("seam-cross", 12, 20), ["seam-cross"]);
        let name = "seam-cross / post_help_rule=far-back-crosses / sink_back_m=0.6";
        let told = broken(name, 14, 34);
        assert_eq!(told, ["seam-cross /", "post_help_rule=far-back-crosses /", "sink_back_m=0.6"]);
        assert_eq!(told.join(" "), name);
        // A first word too long for the first line goes to the second; too long for any, it is broken.
        assert_eq!(broken("abcdefgh ij", 4, 9), ["abcdefgh", "ij"]);
        assert_eq!(broken("abcdefghij", 4, 4), ["abcd", "efgh", "ij"]);
        assert_eq!(broken("äöü", 0, 0), ["ä", "ö", "ü"]);
        assert_eq!(broken("", 4, 4), Vec::<String>::new());
    }

    #[test]
    fn no_line_ends_between_a_number_and_its_unit() {
        assert_eq!(
            wrapped(&glued("so it was 7 ft 10 in off"), 14),
            "so it was\n7\u{a0}ft\u{a0}10\u{a0}in off"
        );
    }

    #[test]
    fn a_number_keeps_its_unit_and_other_words_part() {
        assert_eq!(
            glued("7 ft 10 in off, 3.1 % of 5.1 in 20."),
            "7\u{a0}ft\u{a0}10\u{a0}in off, 3.1\u{a0}% of 5.1 in 20."
        );
    }
}
