//! What a position does with the ball, place by place, in words: the choices that are worth telling, best first.

use crate::places::{ATTACKERS, ChoiceLine};
use crate::units::Units;
use crate::wording::capital;

/// Places that are told of a position, at most: those where he has the ball most.
const PLACES: usize = 4;
/// Choices that are told of a place, at most.
const CHOICES: usize = 4;

/// How a pass begins in the table.
const PASS: &str = "pass-to-";

/// One sentence a place: `On the wing: shoot if open. If guarded, hit 2; if he is covered, 3; else drive.` Of a place at which a
/// run of his ends (`ends`, as the table names it) there is always one, and be it that he hardly has the ball there. A place to
/// which nothing leads him that he is told (`led`) is one where he may find himself: `If you get it on the wing: ...`.
pub(super) fn with_the_ball<'r>(
    lines: impl Iterator<Item = &'r ChoiceLine>,
    ends: &[&'r str],
    led: &[&'r str],
    units: Units,
) -> Vec<String> {
    let lines: Vec<&ChoiceLine> = lines.collect();
    let told = told(lines.iter().copied().map(of_line), ends);
    let own_order = |place: &str, own: &[&str]| {
        let shot = lines.iter().find(|line| line.place == place && line.choice == GUARDED);
        let (words, is_bound) = guarded(shot.and_then(|line| line.room_m.0), units);
        order(own, (&words, is_bound))
    };
    let sentence = |(place, own): &(&str, Vec<&str>)| {
        let words = if own.is_empty() { NO_ORDER.into() } else { own_order(place, own) };
        let is_led = led.is_empty() || led.contains(place);
        if is_led {
            format!("{}: {words}.", capital(&at(place)))
        } else {
            format!("{STRAYED} {}: {words}.", at(place))
        }
    };
    told.iter().map(sentence).collect()
}

/// Of a place to which no duty leads.
const STRAYED: &str = "If you get it";

/// Of a place at which too little was seen to tell what is best.
const NO_ORDER: &str = "your own read (too rare to say)";

/// Where the passes are made that the picture of a card has, in words, and whether a shot is told there before them: `in the slot`; None
/// where it has none.
pub(super) fn passes_at<'r>(lines: impl Iterator<Item = &'r ChoiceLine>) -> Option<(String, bool)> {
    let all = told(lines.map(of_line), &[]);
    let own = all.iter().find(|(_, own)| own.iter().any(|key| key.starts_with(PASS)));
    let shoots = |own: &[&str]| {
        own.iter().take_while(|key| !key.starts_with(PASS)).any(|key| [OPEN, GUARDED].contains(key))
    };
    own.map(|(place, own)| (at(place), shoots(own)))
}

/// What the possessions came to in which somebody shot guarded where he is told that he may: `3 on the wing 1.02`.
pub(super) fn guarded_shots<'r>(
    lines: &[&'r ChoiceLine],
    ends: impl Fn(&str) -> Vec<&'r str>,
) -> Vec<String> {
    let of = |(role, key): (usize, &&str)| {
        let own: Vec<&ChoiceLine> = lines.iter().copied().filter(|line| line.position == *key).collect();
        let told = told(own.iter().copied().map(of_line), &ends(key));
        let places = told.iter().filter(|(_, keys)| keys.contains(&GUARDED));
        let worth = |place: &str| {
            own.iter().find(|line| line.place == place && line.choice == GUARDED)?.expected_points.0
        };
        let one = |(place, _): &(&str, Vec<&str>)| Some(format!("{} {:.2}", at(place), worth(place)?));
        let all: Vec<String> = places.filter_map(one).collect();
        (!all.is_empty()).then(|| format!("{} {}", role + 1, all.join(", ")))
    };
    ATTACKERS.iter().enumerate().filter_map(of).collect()
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

/// The order that a player can follow: every choice but the last says what sends him to the next one; `shot` is the
/// guarded one, and whether it has a condition.
fn order(keys: &[&str], shot: (&str, bool)) -> String {
    match keys {
        [OPEN] => format!("shoot if open. If guarded, {MOVE_ON}"),
        // One order for both shots.
        [OPEN, GUARDED, ..] => one_by_one(&keys[1..], shot),
        [OPEN, rest @ ..] => format!("shoot if open. If guarded, {}", one_by_one(rest, shot)),
        all => one_by_one(all, shot),
    }
}

/// How an order to shoot with some room begins.
pub(super) const WITHIN: &str = "shoot if nobody is within";

/// Nearer than this somebody is on a shooter, m, from middle to middle: bodies touch at .46. (a choice)
const ON_HIM_M: f64 = 0.62;

/// A guarded shot: with how much room, by that of those that were taken there, and whether that is a condition. No order to shoot at
/// once: who shoots wherever he may plays no attack.
fn guarded(room_m: Option<f64>, units: Units) -> (String, bool) {
    match room_m {
        None => ("shoot, guarded or not".into(), false),
        Some(room) if room < ON_HIM_M => ("shoot, even with a man on you".into(), false),
        Some(room) => (format!("{WITHIN} {}", units.paces(room)), true),
    }
}

/// Where nothing is left to tell.
pub(super) const MOVE_ON: &str = "move it on";

/// Before what comes next.
const ELSE: &str = "; else ";
/// The same after a shot that nothing forbids.
const IF_NOT: &str = "; if you cannot, ";

/// One after the other: `hit 2; if he is covered, 3; else drive`.
fn one_by_one(keys: &[&str], (guarded, is_bound): (&str, bool)) -> String {
    let mut told = String::new();
    let mut passes = 0;
    for (nth, key) in keys.iter().enumerate() {
        let next = keys.get(nth + 1);
        let words = match *key {
            OPEN if next == Some(&GUARDED) => continue,
            OPEN => "shoot if open".to_owned(),
            GUARDED => guarded.to_owned(),
            "drive" if next.is_some() => "drive if the way is open".into(),
            word => word.strip_prefix(PASS).and_then(number).unwrap_or_else(|| word.to_owned()),
        };
        let is_pass = key.starts_with(PASS);
        told.push_str(match (told.is_empty(), passes) {
            (true, _) => "",
            (false, 0) if keys[nth - 1] == GUARDED && !is_bound => IF_NOT,
            (false, 0) => ELSE,
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
    // What has a condition and nothing after it would leave him without an order.
    if is_bound && keys.last() == Some(&GUARDED) {
        told.push_str(ELSE);
        told.push_str(MOVE_ON);
    }
    told
}

/// The number of a position in the pictures.
fn number(key: &str) -> Option<String> {
    ATTACKERS.iter().position(|own| *own == key).map(|role| (role + 1).to_string())
}

/// Where that is: `on the wing`.
pub(super) fn at(place: &str) -> String {
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
            with_the_ball(lines.iter(), &[], &[], Units::Ft),
            [
                "On the wing: shoot if open. If guarded, hit 2; if he is covered, 3.",
                "Under the rim: shoot, guarded or not.",
                "At the elbow: hit 4.",
                "On top: drive.",
            ]
        );
        assert_eq!(passes_at(lines.iter()), Some(("on the wing".into(), true)));
        let only = [line("the slot", "pass-to-rover", true)];
        assert_eq!(passes_at(only.iter()), Some(("in the slot".into(), false)), "no shot is told there");
        let of = |keys: &[&str]| {
            let lines: Vec<ChoiceLine> = keys.iter().map(|key| line("the slot", key, true)).collect();
            with_the_ball(lines.iter(), &[], &[], Units::Ft)[0].trim_start_matches("In the slot: ").to_owned()
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
                with_the_ball(lines.iter(), &[], &[], Units::Ft)[0]
                    .trim_start_matches("In the slot: ")
                    .to_owned(),
                passes_at(lines.iter()),
            )
        };
        let two = "pass-to-off-guard";
        let plain = "shoot, guarded or not";
        let near = |room_m, units| guarded(Some(room_m), units).0;
        assert_eq!(near(0.5, Units::Ft), "shoot, even with a man on you");
        assert_eq!(near(0.62, Units::Ft), "shoot if nobody is within 2 ft");
        assert_eq!(near(1.21, Units::Ft), "shoot if nobody is within 3 ft");
        assert_eq!(near(0.72, Units::M), "shoot if nobody is within 0.7 m");
        assert_eq!(of(&[OPEN, GUARDED]), (format!("{plain}."), None));
        let else_two = (format!("{plain}{IF_NOT}hit 2."), Some(("in the slot".to_owned(), true)));
        assert_eq!(of(&[OPEN, GUARDED, two]), else_two, "where he has the ball most he can find somebody");
        assert_eq!(of(&[GUARDED, OPEN, two]), else_two);
        assert_eq!(
            of(&[OPEN, two, GUARDED, "drive"]).0,
            "shoot if open. If guarded, hit 2; if he is covered, shoot, guarded or not."
        );
        assert_eq!(of(&[two, OPEN, GUARDED]).0, "hit 2; if he is covered, shoot, guarded or not.");
        assert_eq!(
            of(&["drive", GUARDED, two]).0,
            "drive if the way is open; else shoot, guarded or not; if you cannot, hit 2."
        );
        assert_eq!(of(&["drive", GUARDED]).0, "drive if the way is open; else shoot, guarded or not.");
        let unlikely =
            [line("the slot", "drive", true), line("the slot", two, false), line("the top", two, false)];
        assert_eq!(
            with_the_ball(unlikely.iter(), &[], &[], Units::Ft),
            ["In the slot: drive if the way is open; else hit 2."],
            "a pass that is not worth telling is better than none"
        );
        assert!(with_the_ball([].iter(), &[], &[], Units::Ft).is_empty());
    }

    #[test]
    fn where_his_run_ends_there_is_an_order_or_it_says_that_there_is_none() {
        let shot = ChoiceLine { room_m: 0.7.into(), ..line("the low post", GUARDED, true) };
        let far = line("the low post", "pass-to-off-guard", true);
        assert_eq!(
            with_the_ball([far, shot.clone()].iter(), &[], &[], Units::Ft),
            ["In the low post: hit 2; if he is covered, shoot if nobody is within 2 ft; else move it on."]
        );
        let lines = [shot, line("the corner", OPEN, false)];
        assert_eq!(
            with_the_ball(lines.iter(), &["the corner", "the low post"], &[], Units::Ft),
            [
                "In the low post: shoot if nobody is within 2 ft; else move it on.",
                "In the corner: your own read (too rare to say)."
            ]
        );
        let fifth = ["the top", "the wing", "the slot", "the elbow", "the short corner", "the low post"];
        let lines = fifth.map(|place| line(place, "drive", true));
        let told = with_the_ball(lines.iter(), &["the short corner"], &fifth[..5], Units::Ft);
        assert_eq!(told.len(), 5, "the place where he runs to, though it is the fifth: {told:?}");
        assert_eq!(told[4], "In the short corner: drive.");
        let told = with_the_ball(lines.iter(), &[], &fifth[1..], Units::Ft);
        assert_eq!(told[..2], ["If you get it on top: drive.", "On the wing: drive."]);
    }
}
