//! What a position does with the ball, place by place, in words: the choices that are worth telling, best first.

use super::words::position;
use crate::places::ChoiceLine;
use crate::wording::{any_of, capital};

/// Places that are told of a position, at most: those where he has the ball most.
const PLACES: usize = 3;
/// Choices that are told of a place, at most.
const CHOICES: usize = 4;

/// How a pass begins in the table.
const PASS: &str = "pass-to-";

/// One sentence a place: `On the wing: shoot if open; else give it to the off guard or the rover; else drive.`
pub(super) fn with_the_ball<'r>(lines: impl Iterator<Item = &'r ChoiceLine>) -> Vec<String> {
    let mut places: Vec<(&str, Vec<&ChoiceLine>)> = Vec::new();
    for line in lines.filter(|line| line.told) {
        match places.iter_mut().find(|(place, _)| *place == line.place) {
            Some((_, own)) => own.push(line),
            None => places.push((&line.place, vec![line])),
        }
    }
    places.iter().take(PLACES).map(|(place, own)| sentence(place, own)).collect()
}

fn sentence(place: &str, own: &[&ChoiceLine]) -> String {
    // With somebody near it is a shot all the same; with nobody near it is one for that.
    let guarded = own.iter().any(|line| line.choice == "shoot-guarded");
    let mut told: Vec<&str> = Vec::new();
    for line in own {
        let word = if line.choice == "shoot-guarded" || guarded && line.choice == "shoot-open" {
            "shoot"
        } else {
            line.choice.as_str()
        };
        if !told.contains(&word) {
            told.push(word);
        }
    }
    told.truncate(CHOICES);
    let passed = |word: &str| word.strip_prefix(PASS).map(position);
    // Passes that follow one another are one: `give it to the off guard or the rover`.
    let parts = told.chunk_by(|a, b| a.starts_with(PASS) && b.starts_with(PASS)).map(|part| match part {
        ["shoot-open"] => "shoot if open".to_owned(),
        [word] if !word.starts_with(PASS) => (*word).to_owned(),
        passes => {
            format!(
                "give it to {}",
                any_of(&passes.iter().filter_map(|word| passed(word)).collect::<Vec<_>>())
            )
        }
    });
    format!("{}: {}.", capital(&at(place)), parts.collect::<Vec<_>>().join("; else "))
}

/// Where that is: `on the wing`.
fn at(place: &str) -> String {
    match place {
        "the top" => "on top".into(),
        "the wing" => "on the wing".into(),
        "the elbow" | "the free-throw line" => format!("at {place}"),
        _ if place.starts_with("the ") => format!("in {place}"),
        _ => place.to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn line(place: &str, choice: &str, told: bool) -> ChoiceLine {
        ChoiceLine { place: place.into(), choice: choice.into(), told, ..ChoiceLine::default() }
    }

    #[test]
    fn the_shooter_is_told_to_shoot_and_nobody_what_is_not_worth_it() {
        let lines = [
            line("the wing", "shoot-open", true),
            line("the wing", "pass-to-off-guard", true),
            line("the wing", "pass-to-rover", true),
            line("the wing", "drive", false),
            line("under the rim", "shoot-open", true),
            line("under the rim", "shoot-guarded", true),
            line("the elbow", "pass-to-rover-side-post", true),
            line("the top", "drive", true),
        ];
        assert_eq!(
            with_the_ball(lines.iter()),
            [
                "On the wing: shoot if open; else give it to the off guard or the rover.",
                "Under the rim: shoot.",
                "At the elbow: give it to the post on the rover\u{27}s side.",
            ]
        );
        assert!(with_the_ball([].iter()).is_empty());
    }
}
