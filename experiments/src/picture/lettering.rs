//! Names of any length in pictures of one width: broken into lines, and cut only where no room is left.
//!
//! A picture cannot measure its letters, so a letter counts as wide as in the broadest of the usual sans-serif
//! faces, on average (0.6 of its height, assumed); narrower faces leave some room.

use maud::{Markup, html};

use super::drawing::{MARGIN, joined, label, n};
use crate::wrapping::{self, Overlong, lines};

/// Mean width of a letter by its height.
const WIDE: f64 = 0.6;

/// Height of a name that is short enough, and of one in two lines; the style sheet has the same.
const LARGE: f64 = 62.0;
const SMALL: f64 = 42.0;

/// How many letters of a height fit into a width.
pub(super) fn letters(width: f64, height: f64) -> usize {
    (width / (WIDE * height)) as usize
}

/// Text in lines: the first of at most `first` letters, the others of at most `rest`. Broken at blanks; a longer
/// word is broken where it must be.
pub(super) fn broken(text: &str, first: usize, rest: usize) -> Vec<String> {
    lines(text, &[first as f64, rest as f64], Overlong::Broken, wrapping::letters)
}

/// The name over a picture, in one line or two smaller ones, and the line under it.
pub(super) fn heading(head: &str, sub: &str, width: f64) -> Markup {
    let room = width - 2.0 * MARGIN;
    let fitting = |text: &str, most: f64| (room / (WIDE * text.chars().count().max(1) as f64)).min(most);
    let (head_height, sub_height) = (fitting(head, LARGE), fitting(sub, 54.0));
    let small = letters(room, SMALL);
    let names = html! {
        @if head_height >= LARGE { text class="head" x=(n(MARGIN)) y="66" { (head) } }
        @else if head_height >= SMALL {
            text class="head" style=(format!("font-size:{}px", n(head_height))) x=(n(MARGIN)) y="66" { (head) }
        } @else {
            @let lines = cut(broken(head, small, small), 2);
            (joined(lines.iter().enumerate().map(|(nth, line)| {
                label("head small", MARGIN, 32.0 + 46.0 * nth as f64, line)
            })))
        }
    };
    html! {
        (names)
        @if sub_height >= 54.0 { text class="sub" x=(n(MARGIN)) y="138" { (sub) } }
        @else { text class="sub" style=(format!("font-size:{}px", n(sub_height))) x=(n(MARGIN)) y="138" { (sub) } }
    }
}

/// The first lines, with dots where some are left out; the whole name is in the picture's title.
fn cut(mut lines: Vec<String>, most: usize) -> Vec<String> {
    if lines.len() > most {
        lines.truncate(most);
        let last = &mut lines[most - 1];
        last.pop();
        last.push('\u{2026}');
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_name_that_is_too_long_for_two_lines_ends_in_dots() {
        assert_eq!(cut(broken("aa bb cc", 2, 2), 2), ["aa", "b\u{2026}"]);
        let text = heading(&"name ".repeat(60), "sub", 1600.0).into_string();
        assert_eq!(text.matches("<text").count(), 3);
        assert!(text.contains('\u{2026}'));
    }
}
