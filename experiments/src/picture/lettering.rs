//! Names of any length in pictures of one width: broken into lines, and cut only where no room is left.
//!
//! A picture cannot measure its letters, so a letter counts as wide as in the broadest of the usual sans-serif
//! faces, on average (0.6 of its height, assumed); narrower faces leave some room.

use maud::{Markup, html};

use super::drawing::{MARGIN, joined, label, n};

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
    let (first, rest) = (first.max(1), rest.max(1));
    let mut lines = vec![String::new()];
    for word in text.split_whitespace() {
        let mut word: Vec<char> = word.chars().collect();
        loop {
            let room = if lines.len() == 1 { first } else { rest };
            let used = lines[lines.len() - 1].chars().count();
            let gap = usize::from(used > 0);
            if used + gap + word.len() <= room {
                let last = lines.len() - 1;
                lines[last].push_str(if gap > 0 { " " } else { "" });
                lines[last].extend(word);
                break;
            }
            if used == 0 && (lines.len() > 1 || word.len() > rest) {
                lines.last_mut().expect("there is a line").extend(word.drain(..room));
            }
            lines.push(String::new());
        }
    }
    lines.retain(|line| !line.is_empty());
    lines
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
    fn names_are_broken_at_blanks_and_nothing_is_lost() {
        assert_eq!(broken("seam-cross", 12, 20), ["seam-cross"]);
        let name = "seam-cross / post_help_rule=far-back-crosses / sink_back_m=0.6";
        let lines = broken(name, 14, 34);
        assert_eq!(lines, ["seam-cross /", "post_help_rule=far-back-crosses /", "sink_back_m=0.6"]);
        assert_eq!(lines.join(" "), name);
        // A first word too long for the first line goes to the second; too long for any, it is broken.
        assert_eq!(broken("abcdefgh ij", 4, 9), ["abcdefgh", "ij"]);
        assert_eq!(broken("abcdefghij", 4, 4), ["abcd", "efgh", "ij"]);
        assert_eq!(broken("", 4, 4), Vec::<String>::new());
    }

    #[test]
    fn a_name_that_is_too_long_for_two_lines_ends_in_dots() {
        assert_eq!(cut(broken("aa bb cc", 2, 2), 2), ["aa", "b\u{2026}"]);
        let text = heading(&"name ".repeat(60), "sub", 1600.0).into_string();
        assert_eq!(text.matches("<text").count(), 3);
        assert!(text.contains('\u{2026}'));
    }
}
