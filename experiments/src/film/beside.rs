//! One possession under two variants, told side by side: the same players, the same draws, and where they part.

use std::fmt::Write as _;

use engine::Measure;
use engine::film::Film;
use engine::setup::Setup;

use super::narrate::{Line, lines, summary, trace};
use super::parting::{self, APART_M, Parting, Who};
use super::telling::outcome_word;
use super::{SetupWords, Words};
use crate::note::NOTE;
use crate::units::Units;
use crate::wrapping::wrapped;

/// Letters in a line.
const WIDTH: usize = 100;

/// One of the two.
#[derive(Clone, Copy, Debug)]
pub struct Side<'a> {
    /// The variant's name.
    pub name: &'a str,
    /// Its film.
    pub film: &'a Film,
    /// What it was played with.
    pub setup: &'a Setup,
    /// What lengths are told in.
    pub units: Units,
}

impl<'a> Side<'a> {
    /// The words that it is told in.
    pub fn words(&self) -> SetupWords<'a> {
        SetupWords::new(self.setup, self.film, self.units)
    }
}

/// A sentence about a moment of both.
#[derive(Clone, Debug, PartialEq)]
pub struct Compared {
    /// When, s; of no moment where it is about the whole.
    pub time_s: Option<f32>,
    /// The sentence.
    pub text: String,
}

/// Whether nothing parts them: what differs between them was not called on.
pub fn never_part(sides: &[Side<'_>; 2]) -> bool {
    let [one, other] = sides.each_ref().map(Side::words);
    parting::first([(sides[0].film, &one), (sides[1].film, &other)]).is_none()
}

/// Where they part, where the ball parts, and how each ends.
pub fn compared(sides: &[Side<'_>; 2]) -> Vec<Compared> {
    let [one, other] = sides.each_ref().map(Side::words);
    let films: [parting::Told<'_>; 2] = [(sides[0].film, &one), (sides[1].film, &other)];
    let names = sides.each_ref().map(|side| side.name);
    let (first, ball) = (parting::first(films), parting::ball(films));
    let mut told = Vec::new();
    match &first {
        None => told
            .push(Compared { time_s: None, text: "They never part: what differs was not called on.".into() }),
        // Where the setting differs, they may stand in other places to begin with.
        Some(parting) if parting.time_s <= 0.0 => {
            let text = parted("The two differ from the start,", parting, names, &one);
            told.push(Compared { time_s: Some(parting.time_s), text });
        }
        Some(parting) => {
            let parted = parted("The two part", parting, names, &one);
            let apart = sides[0].units.exact(f64::from(APART_M));
            let text = format!(
                "{parted} That is told once somebody is {apart} off; he may have set out a moment before."
            );
            told.push(Compared { time_s: Some(parting.time_s), text });
        }
    }
    match &ball {
        None if first.is_some() => {
            told.push(Compared { time_s: None, text: "The ball goes the same way with both.".into() });
        }
        Some(ball) if first.as_ref() != Some(ball) => {
            let text = parted("The ball's ways part", ball, names, &one);
            told.push(Compared { time_s: Some(ball.time_s), text });
        }
        _ => {}
    }
    let [a, b] = sides.each_ref().map(ends);
    told.push(Compared {
        time_s: None,
        text: format!("In the end: with {}, {a}; with {}, {b}.", names[0], names[1]),
    });
    told
}

/// `a missed shot and a defensive rebound after 6.7 s, 0 points`.
pub fn ends(side: &Side<'_>) -> String {
    let record = &side.film.record;
    let points = record.real(Measure::Points);
    let unit = if points == 1.0 { "point" } else { "points" };
    let seconds = record.real(Measure::SecondsUsed);
    format!("{} after {seconds:.1} s, {points:.0} {unit}", outcome_word(record.outcome))
}

/// `The two part at 0.8 s, by the rover: with seam-cross he is on seam-cross; with hold-wing he stays.`
fn parted(what: &str, parting: &Parting, names: [&str; 2], words: &dyn Words) -> String {
    let Parting { time_s, who, did } = parting;
    let (by, he) = match who {
        Who::Player(player) if words.is_named(*player) => (format!(", by {}", words.player(*player)), " he"),
        Who::Player(player) => (format!(", by the {}", words.player(*player)), " he"),
        Who::Ball => (String::new(), ","),
        Who::Nobody => (", for one is over".into(), ","),
    };
    let what = format!("{what} at {time_s:.1} s{by}");
    if did[0] == did[1] {
        return format!("{what}: with both{he} {}, but not in the same way or at the same moment.", did[0]);
    }
    format!("{what}: with {}{he} {}; with {}{he} {}.", names[0], did[0], names[1], did[1])
}

/// Lines that both have, from the start to the parting.
fn shared(told: &[Vec<Line>; 2], until_s: f32) -> usize {
    let pairs = told[0].iter().zip(&told[1]);
    pairs.take_while(|(a, b)| a == b && a.time_s <= until_s).count()
}

/// Both as text: the parting, what they share, then each by itself.
pub fn narrate_beside(sides: &[Side<'_>; 2]) -> String {
    let told = sides.each_ref().map(|side| lines(side.film, &side.words()));
    let compared = compared(sides);
    let mut text = String::new();
    for sentence in &compared {
        let _ = writeln!(text, "{}", wrapped(&sentence.text, WIDTH));
    }
    let until_s = compared.first().and_then(|first| first.time_s).unwrap_or(f32::INFINITY);
    let shared = shared(&told, until_s);
    let _ = write!(text, "\nBoth, until they part:\n\n{}", trace(&told[0][..shared]));
    for (side, lines) in sides.iter().zip(&told) {
        let _ = write!(text, "\nWith {}:\n\n{}\n{}", side.name, trace(&lines[shared..]), summary(side.film));
    }
    let _ = writeln!(text, "\n{}", wrapped(NOTE, WIDTH));
    text
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_differs_from_the_start_and_what_never_does_is_said_so() {
        let question = scenarios::experiment(std::path::Path::new("attacks-by-zone")).unwrap();
        let [one, other] = [0, 1].map(|nth| &question.variants[nth]);
        let films = [one, other].map(|variant| engine::film_possession(&variant.setup, 1, 2));
        let side = |nth: usize, name| {
            let setup = &[one, other][nth].setup;
            Side { name, film: &films[nth], setup, units: Units::M }
        };
        let told = compared(&[side(0, "a"), side(1, "b")]);
        assert!(told[0].text.starts_with("The two differ from the start,"), "{told:?}");
        assert!(told.last().unwrap().text.starts_with("In the end: with a, "), "{told:?}");
        let told = compared(&[side(0, "a"), side(0, "b")]);
        assert_eq!((told.len(), told[0].time_s), (2, None), "{told:?}");
        assert!(told[0].text.starts_with("They never part"), "{told:?}");
        let text = narrate_beside(&[side(0, "a"), side(0, "b")]);
        assert!(text.contains("\nBoth, until they part:\n") && text.contains("\nWith b:\n"), "{text}");
    }
}
