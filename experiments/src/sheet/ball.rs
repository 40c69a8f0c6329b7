//! What a position does with the ball, place by place, in words: the choices that are worth telling, best first.

use crate::places::{ATTACKERS, ChoiceLine};
use crate::wording::capital;

/// Places that are told of a position, at most: those where he has the ball most.
const PLACES: usize = 4;
/// Choices that are told of a place, at most.
const CHOICES: usize = 4;

/// How a pass begins in the table.
const PASS: &str = "pass-to-";

/// One sentence a place: `On the wing: shoot if open. If guarded, hit 2; if he is covered, 3; else drive.` Of a place at which a
/// run of his ends (`ends`, as the table names it) there is always one, and be it that he hardly has the ball there.
pub(super) fn with_the_ball<'r>(
    lines: impl Iterator<Item = &'r ChoiceLine>,
    ends: &[&'r str],
) -> Vec<String> {
    let lines: Vec<&ChoiceLine> = lines.collect();
    let told = told(lines.iter().copied().map(of_line), ends);
    let worth = |place: &str| {
        let own = lines.iter().find(|line| line.place == place && line.choice == GUARDED)?;
        own.expected_points.0
    };
    let sentence = |(place, own): &(&str, Vec<&str>)| {
        let words = if own.is_empty() { NO_ORDER.into() } else { order(own, worth(place)) };
        format!("{}: {words}.", capital(&at(place)))
    };
    told.iter().map(sentence).collect()
}

/// Of a place at which too little was seen to tell what is best.
const NO_ORDER: &str = "too rare to say what is best";

/// Where the passes are made that the picture of a card has, in words: `in the slot`; None where it has none.
pub(super) fn passes_at<'r>(lines: impl Iterator<Item = &'r ChoiceLine>) -> Option<String> {
    let all = told(lines.map(of_line), &[]);
    let own = all.iter().find(|(_, own)| own.iter().any(|key| key.starts_with(PASS)));
    own.map(|(place, _)| at(place))
}

/// A place, a choice there, and whether it is worth telling.
type Choice<'r> = (&'r str, &'r str, bool);

fn of_line(line: &ChoiceLine) -> Choice<'_> {
    (&line.place, &line.choice, line.told)
}

/// What is told of a position by place, where he has the ball most first; of the places at which his runs end, too, with nothing
/// where nothing is known. Where he has it most somebody can be found: if no pass is told there, the best of the table comes
/// last.
pub(super) fn told<'r>(
    lines: impl Iterator<Item = Choice<'r>>,
    ends: &[&'r str],
) -> Vec<(&'r str, Vec<&'r str>)> {
    let all: Vec<Choice<'r>> = lines.collect();
    let mut places: Vec<(&str, Vec<&str>)> = Vec::new();
    for &(place, choice, _) in all.iter().filter(|(_, _, told)| *told) {
        match places.iter_mut().find(|(known, _)| *known == place) {
            Some((_, own)) => own.push(choice),
            None => places.push((place, vec![choice])),
        }
    }
    let mut nth = 0;
    places.retain(|(place, _)| {
        nth += 1;
        nth <= PLACES || ends.contains(place)
    });
    places.iter_mut().for_each(|(_, own)| *own = worth_telling(own));
    if let Some((first, own)) = places.first_mut()
        && !own.iter().any(|key| key.starts_with(PASS))
    {
        let here = all.iter().filter(|(place, _, _)| place == first);
        own.extend(here.map(|(_, choice, _)| *choice).find(|choice| choice.starts_with(PASS)));
    }
    for end in ends {
        if !places.iter().any(|(place, _)| place == end) {
            places.push((end, Vec::new()));
        }
    }
    places
}

/// Of the choices of a place, best first, those that are told: a guarded shot can always be taken, so what is worth less is not.
fn worth_telling<'k>(keys: &[&'k str]) -> Vec<&'k str> {
    let until = keys.iter().position(|key| *key == GUARDED).map_or(keys.len(), |nth| nth + 1);
    keys[..until.min(CHOICES)].to_vec()
}

/// How a shot with nobody near stands in the table, and one with somebody near.
const OPEN: &str = "shoot-open";
const GUARDED: &str = "shoot-guarded";

/// The order that a player can follow: every choice but the last says what sends him to the next one. `worth` is what the
/// possessions came to in which he shot there guarded, points.
fn order(keys: &[&str], worth: Option<f64>) -> String {
    let guarded = guarded(worth);
    match keys {
        [OPEN, GUARDED, rest @ ..] | [GUARDED, rest @ ..] => {
            let rest = one_by_one(rest, true, &guarded);
            let shot = format!("shoot, {guarded}");
            if rest.is_empty() { shot } else { format!("{shot}{NO_SHOT}{rest}") }
        }
        [OPEN] => "shoot if open. If guarded, move it on".into(),
        [OPEN, rest @ ..] => format!("shoot if open. If guarded, {}", one_by_one(rest, true, &guarded)),
        all => one_by_one(all, false, &guarded),
    }
}

/// Who shoots with somebody near shoots all the more with nobody near: `even guarded (1.12)`.
fn guarded(worth: Option<f64>) -> String {
    worth.map_or_else(|| "even guarded".into(), |points| format!("even guarded ({points:.2})"))
}

/// What comes after a shot that can be taken with somebody near.
const NO_SHOT: &str = "; no shot: ";

/// One after the other: `hit 2; if he is covered, 3; else drive`. `is_guarded` where an open shot has been told before.
fn one_by_one(keys: &[&str], is_guarded: bool, guarded: &str) -> String {
    let mut told = String::new();
    let (mut passes, mut is_open_told) = (0, is_guarded);
    for (nth, key) in keys.iter().enumerate() {
        let next = keys.get(nth + 1);
        let words = match *key {
            // One order with the shot that follows.
            OPEN if next == Some(&GUARDED) => continue,
            OPEN => "shoot if open".to_owned(),
            GUARDED if is_open_told => format!("shoot {guarded}"),
            GUARDED => format!("shoot, {guarded}"),
            "drive" if next.is_some() => "drive if the way is open".into(),
            word => word.strip_prefix(PASS).and_then(number).unwrap_or_else(|| word.to_owned()),
        };
        is_open_told |= *key == OPEN;
        let is_pass = key.starts_with(PASS);
        told.push_str(match (told.is_empty(), passes) {
            (true, _) => "",
            (false, 0) if nth > 0 && keys[nth - 1] == GUARDED => NO_SHOT,
            (false, 0) => "; else ",
            (false, 1) => "; if he is covered, ",
            (false, 2) => "; if both are, ",
            (false, _) => "; if all are, ",
        });
        if is_pass && passes == 0 {
            told.push_str("hit ");
        }
        passes = if is_pass { passes + 1 } else { 0 };
        told.push_str(&words);
    }
    told
}

/// The number of a position in the pictures.
fn number(key: &str) -> Option<String> {
    ATTACKERS.iter().position(|own| *own == key).map(|role| (role + 1).to_string())
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
            line("under the rim", "shoot-guarded", true),
            line("under the rim", "shoot-open", true),
            line("the elbow", "pass-to-rover-side-post", true),
            line("the top", "drive", true),
        ];
        assert_eq!(
            with_the_ball(lines.iter(), &[]),
            [
                "On the wing: shoot if open. If guarded, hit 2; if he is covered, 3.",
                "Under the rim: shoot, even guarded.",
                "At the elbow: hit 4.",
                "On top: drive.",
            ]
        );
        assert_eq!(passes_at(lines.iter()).as_deref(), Some("on the wing"));
        let of = |keys: &[&str]| {
            let lines: Vec<ChoiceLine> = keys.iter().map(|key| line("the slot", key, true)).collect();
            with_the_ball(lines.iter(), &[])[0].trim_start_matches("In the slot: ").to_owned()
        };
        let (one, two, three) = ("pass-to-lead-guard", "pass-to-off-guard", "pass-to-rover");
        assert_eq!(of(&[three, OPEN]), "hit 3; if he is covered, shoot if open.");
        assert_eq!(of(&[OPEN]), "shoot if open. If guarded, move it on.");
        assert_eq!(
            of(&["drive", one, two, three]),
            "drive if the way is open; else hit 1; if he is covered, 2; if both are, 3."
        );
    }

    #[test]
    fn after_a_shot_that_can_always_be_taken_only_a_pass_is_told_where_there_was_none() {
        let of = |keys: &[&str]| {
            let lines: Vec<ChoiceLine> = keys.iter().map(|key| line("the slot", key, true)).collect();
            (
                with_the_ball(lines.iter(), &[])[0].trim_start_matches("In the slot: ").to_owned(),
                passes_at(lines.iter()),
            )
        };
        let two = "pass-to-off-guard";
        let plain = "shoot, even guarded";
        assert_eq!(of(&[OPEN, GUARDED]), (format!("{plain}."), None));
        let else_two = (format!("{plain}{NO_SHOT}hit 2."), Some("in the slot".to_owned()));
        assert_eq!(of(&[OPEN, GUARDED, two]), else_two, "where he has the ball most he can find somebody");
        assert_eq!(of(&[GUARDED, OPEN, two]), else_two);
        assert_eq!(
            of(&[OPEN, two, GUARDED, "drive"]).0,
            "shoot if open. If guarded, hit 2; if he is covered, shoot even guarded."
        );
        assert_eq!(of(&[two, OPEN, GUARDED]).0, "hit 2; if he is covered, shoot, even guarded.");
        assert_eq!(
            of(&["drive", GUARDED, two]).0,
            "drive if the way is open; else shoot, even guarded; no shot: hit 2."
        );
        assert_eq!(of(&["drive", GUARDED]).0, "drive if the way is open; else shoot, even guarded.");
        let unlikely =
            [line("the slot", "drive", true), line("the slot", two, false), line("the top", two, false)];
        assert_eq!(
            with_the_ball(unlikely.iter(), &[]),
            ["In the slot: drive if the way is open; else hit 2."],
            "a pass that is not worth telling is better than none"
        );
        assert!(with_the_ball([].iter(), &[]).is_empty());
    }

    #[test]
    fn where_his_run_ends_there_is_an_order_or_it_says_that_there_is_none() {
        let shot = ChoiceLine { expected_points: 1.118.into(), ..line("the low post", GUARDED, true) };
        let lines = [shot, line("the corner", OPEN, false)];
        assert_eq!(
            with_the_ball(lines.iter(), &["the corner", "the low post"]),
            ["In the low post: shoot, even guarded (1.12).", "In the corner: too rare to say what is best."]
        );
        let fifth = ["the top", "the wing", "the slot", "the elbow", "the short corner", "the low post"];
        let lines = fifth.map(|place| line(place, "drive", true));
        let told = with_the_ball(lines.iter(), &["the short corner"]);
        assert_eq!(told.len(), 5, "the place where he runs to, though it is the fifth: {told:?}");
        assert_eq!(told[4], "In the short corner: drive.");
    }
}
