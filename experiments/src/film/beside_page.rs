//! The page of one possession under two variants: two floors, one clock, and where they part.

use std::fmt::Write as _;

use super::beside::{Side, compared, ends};
use super::narrate::{lines, numbers};
use super::page::{Caption, floor, trace, whole};
use super::reel::Reel;
use crate::wording::{capital, escaped};

const TEMPLATE: &str = include_str!("page/beside.html");
const OWN_SCRIPT: &str = include_str!("page/beside.js");

/// Both films as a page.
pub fn page_beside(sides: &[Side<'_>; 2], caption: &Caption) -> String {
    let [first, second] = sides.each_ref().map(|side| escaped(side.name));
    let digests = sides.each_ref().map(|side| format!("{:016x}", side.film.record.digest));
    let [one, other] = sides.each_ref().map(reel);
    let own = [
        ("parting", parting(sides)),
        ("floors", floors(sides)),
        ("traces", traces(sides)),
        ("numbers", table(sides)),
        ("first", first),
        ("second", second),
        ("digests", digests.join(" ")),
        ("reel-0", one),
        ("reel-1", other),
    ];
    whole(TEMPLATE, OWN_SCRIPT, (caption, sides[0].film.record.possession), &own)
}

/// The films without beliefs: two of them have to be sent on as one file.
fn reel(side: &Side<'_>) -> String {
    // No text in it may end the element that holds it.
    Reel::json_of_facts(side.film, side.setup, &side.words()).replace('<', "\\u003c")
}

/// What is said of both, with a button where it is about a moment.
fn parting(sides: &[Side<'_>; 2]) -> String {
    let mut text = String::new();
    for sentence in compared(sides) {
        let words = escaped(&sentence.text);
        let _ = match sentence.time_s {
            Some(time_s) => {
                writeln!(text, "<li><button type=\"button\" data-time=\"{time_s:.3}\">{words}</button></li>")
            }
            None => writeln!(text, "<li><p>{words}</p></li>"),
        };
    }
    text
}

fn floors(sides: &[Side<'_>; 2]) -> String {
    let mut text = String::new();
    for (nth, side) in sides.iter().enumerate() {
        let (name, end) = (escaped(side.name), escaped(&capital(&ends(side))));
        let label = format!("The half court with {}, the rim at the top", side.name);
        let _ = write!(
            text,
            "<figure class=\"one\"><figcaption><b>{name}</b>{end}.</figcaption>\n{}<p class=\"here\" id=\"here-{nth}\" \
             aria-hidden=\"true\"></p></figure>\n",
            floor(&format!("floor-{nth}"), &label, side.setup)
        );
    }
    text
}

fn traces(sides: &[Side<'_>; 2]) -> String {
    let mut text = String::new();
    for (nth, side) in sides.iter().enumerate() {
        let items = trace(&lines(side.film, &side.words()));
        let name = escaped(side.name);
        let _ =
            writeln!(text, "<div><h3>{name}</h3><ol id=\"trace-{nth}\" class=\"trace\">\n{items}</ol></div>");
    }
    text
}

fn table(sides: &[Side<'_>; 2]) -> String {
    let mut text = String::new();
    let [one, other] = sides.each_ref().map(|side| numbers(side.film));
    for ((words, a), (_, b)) in one.into_iter().zip(other) {
        let _ = writeln!(text, "<tr><th scope=\"row\">{words}</th><td>{a}</td><td>{b}</td></tr>");
    }
    text
}
