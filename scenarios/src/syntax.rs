//! Syntax faults in words: what the parser says, said for those who do not know TOML.

use std::ops::Range;

use crate::fault::short;

/// What was found and what is allowed, and a line of help, for a fault of the syntax.
pub(crate) fn told(reason: &str, text: &str, span: Range<usize>) -> (String, String) {
    let written = short(text.get(span.clone()).unwrap_or_default().trim().to_owned());
    let rest_of_line = || {
        let rest = text.get(span.start..).and_then(|rest| rest.lines().next()).unwrap_or_default();
        short(rest.trim().to_owned())
    };
    let (found, allowed, help) = if reason.starts_with("duplicate key") {
        let what = if written.is_empty() { "a key".to_owned() } else { format!("the key `{written}`") };
        (format!("{what} a second time"), "each key once in a table", "Join the two, or take one out.")
    } else if reason.starts_with("string values must be quoted") {
        let what = if written.is_empty() { "nothing after =".to_owned() } else { format!("`{written}`") };
        (
            what,
            "a value",
            "A text stands in quotes, \"like this\"; a number has a point and no unit, as 1.2; true and false are \
             written as they are.",
        )
    } else if reason.starts_with("unexpected key or value") {
        (
            format!("`{}` after the value", rest_of_line()),
            "one key and one value in a line",
            "Numbers are written with a point, 1.5; a comment begins with #.",
        )
    } else if reason.starts_with("invalid mantissa") || reason.starts_with("unexpected leading zero") {
        let what = rest_of_line();
        (
            format!("`{what}`"),
            "a number",
            "A number is written with digits on both sides of its point, as 0.5.",
        )
    } else if reason.starts_with("integer number overflowed") {
        (written, "a number below 9,223,372,036,854,775,808", "")
    } else if reason.contains("missing comma") {
        let what = format!("`{}` in a list that is not closed", rest_of_line());
        (what, "a comma between members, ] after the last", "")
    } else if reason.starts_with("invalid basic string") || reason.starts_with("invalid literal string") {
        ("a text that does not end".to_owned(), "a quote at its end", "")
    } else if reason.starts_with("key with no value") {
        ("a key without a value".to_owned(), "key = value", "")
    } else if reason.starts_with("unclosed table") {
        ("the head of a table that does not end".to_owned(), "a ] at its end", "")
    } else {
        let reason = short(reason.trim().replace('\n', ", "));
        return (format!("found no valid TOML: {reason}"), HELP.into());
    };
    let help = if help.is_empty() { HELP } else { help };
    (format!("found {found}, allowed {allowed}"), help.into())
}

/// Help for those whose slip is not known.
const HELP: &str = "Until this is mended nothing else in the file can be checked.";
