//! What the sheet tells of the attack of its cards besides the verdict: where it stands, how often it was run, whose the open
//! looks are, and what the words and the marks of the jobs mean.

use engine::OPEN_M;

use super::ball::MOVE_ON;
use super::costs::is;
use super::results::Results;
use super::tables::PositionLine;
use crate::looks::{GOOD_LOOK, open_look};
use crate::picture::{AFTER, LATER, ON_ITS_WAY, PASSES, SCREENS, SEALS, SETS_OUT, STARTS};
use crate::places::numbered;
use crate::units::Units;
use crate::verdict::{Differ, Verdict};
use crate::wording::{TWENTY, adding_up, listed};

/// How far the first is from the one compared with and from the second, word for word as in the terminal; empty of what is met.
pub(super) fn how_sure(verdict: &Verdict) -> String {
    let sure = verdict.sure();
    if sure.is_empty() { sure.concat() } else { format!("How sure: {}", sure.join(" ")) }
}

/// Of which attack the cards are; empty where there is one alone.
pub(super) fn of_which(verdict: &Verdict, leader: &str) -> String {
    if verdict.variants.len() == 1 {
        return String::new();
    }
    if verdict.differ != Differ::Choices {
        return format!("Jobs, cards and pictures, as an example: {leader}.");
    }
    let as_one = if standing(verdict, leader).is_empty() { "" } else { ", as an example" };
    format!("Jobs, cards and the large picture{as_one}: {leader}.")
}

/// By which measures the attack of the cards came first without being clearly better, where that is so; goes on a name.
pub(super) fn standing(verdict: &Verdict, leader: &str) -> String {
    if verdict.differ != Differ::Choices || verdict.variants.len() == 1 {
        String::new()
    } else if leader == verdict.baseline {
        ", with which the others are compared".into()
    } else if let Some(choice) = verdict.decided() {
        let is_open = choice.ended.is_open();
        if is_open { ", ahead, but not clearly best".into() } else { String::new() }
    } else if verdict.headlines.iter().any(|own| own.has(&verdict.baseline)) {
        let own = verdict.headlines.iter().filter(|own| own.variant == leader);
        let by: Vec<&str> = own.map(|own| own.column.words.trim_start_matches("expected ")).collect();
        format!(", first in {}, not clearly better than {}", listed(&by), verdict.baseline)
    } else {
        String::new()
    }
}

/// What is good and what is open, and of what the room of a shot is, where the sheet has one.
pub(super) fn looks_told(units: Units, has_room: bool) -> String {
    let room = if has_room { ROOM } else { "" };
    format!("{GOOD_LOOK} {} {room}", open_look(units))
}

/// What `shoot if nobody is within 3 ft` rests on.
const ROOM: &str = "Nobody within so much: three of four such shots had that room; not tried as a rule. ";

/// What all possessions of the attack of the cards came to on average, points; None where that is not known.
pub(super) fn average(results: &Results, leader: &str) -> Option<f64> {
    let row = results.measured.iter().find(|row| is(row, "variant", leader))?;
    row.get("expected_points_per_possession")?.parse().ok()
}

/// Words of the sheet or of a card, of those that its jobs use.
pub(super) fn terms<'t>(units: Units, jobs: impl IntoIterator<Item = &'t String>) -> String {
    let jobs: Vec<&str> = jobs.into_iter().map(String::as_str).collect();
    let used = |words: &[&str]| jobs.iter().any(|job| words.iter().any(|word| job.contains(word)));
    let open = format!("Open: nobody within {}.", units.exact(f64::from(OPEN_M)));
    let told = [
        (
            used(&["ball-side", "ball's side", "away from the ball"]),
            "Ball's side: where the ball is at that moment.",
        ),
        (used(&["near ", "far "]), "Near, far: seen from the ball."),
        (used(&YOURS), "Your side, wing, corner: those of the side where you stand as the move begins."),
        (used(&["the other wing", "the other corner"]), "Other wing or corner: away from the ball."),
        (used(&["between their lines", "front and back lines"]), "Their lines: front and back; they move."),
        (used(&["your spot"]), "Your spot: where you start."),
        (used(&["if open", "guarded"]), open.as_str()),
        (used(&["hit "]), "Hit: pass to, wherever he is."),
        (used(&["guarded"]), "Guarded: somebody is nearer."),
        (used(&[MOVE_ON]), "Move it on: to the nearest guard."),
        (used(&["covered", "way is open"]), FOR_YOUR_EYE),
    ];
    told.into_iter().filter(|(is_used, _)| *is_used).map(|(_, words)| words).collect::<Vec<_>>().join(" ")
}

/// What no number tells.
const FOR_YOUR_EYE: &str =
    "Covered (no clear pass), way open (nobody before you): you judge, the computer did not.";

/// Places on one's own side, as the jobs name them.
const YOURS: [&str; 8] = [
    "your side",
    "your slot",
    "your wing",
    "your corner",
    "your short corner",
    "your block",
    "your low post",
    "your elbow",
];

/// What the lines of a card's picture are, of those that it has: it shows one moment, that of his run or that of his passes.
pub(super) fn marks(picture: &str, passes_at: Option<(String, bool)>) -> String {
    let sets_out = picture.contains(SETS_OUT);
    // `as he seals, 1.5 s after he sets out`
    let held = [("screen", SCREENS), ("seal", SEALS)]
        .into_iter()
        .find_map(|(does, words)| Some((does, picture.split(words).nth(1)?.split(AFTER).next()?)));
    let passes = picture.contains(PASSES);
    // A run that he starts by his pass: by whose number.
    let starts = picture.split_once(STARTS).and_then(|(_, rest)| rest.chars().next());
    let is_moment = sets_out || passes || held.is_some() || starts.is_some();
    let mates = if is_moment { "team-mates" } else { "team-mates where they start" };
    let mut told = vec![format!("Filled: you; outlined: {mates}")];
    let is_thrown = picture.contains("class=\"inkarrow\"");
    let is_on_its_way = picture.contains(ON_ITS_WAY);
    let at = passes_at.filter(|_| is_thrown && !is_on_its_way && starts.is_none());
    told.extend(starts.map(|runner| format!("dashed: your pass that starts the run of {runner}")));
    if let Some((at, shoots)) = &at {
        let second = picture.contains(">2nd<");
        let which = if second { "your best passes" } else { "your best pass" };
        told.push(format!(
            "dashed: {which} when you have it {at}{}{}",
            if *shoots { ", if you do not shoot" } else { "" },
            if second { ", 1st and 2nd" } else { "" }
        ));
    }
    let is_held = picture.contains("stroke-width=\"16\"");
    let way = match (goes(picture), is_held) {
        (true, _) => Some("solid: where you go without the ball"),
        _ => None,
    };
    told.extend(way.map(str::to_owned));
    let does = held.map_or("screen or seal", |(does, _)| does);
    told.extend(is_held.then(|| format!("bar: the defender whom you {does}")));
    if picture.contains("class=\"body\"") {
        let when = match held {
            _ if passes => "all ten where they are in a typical such pass, whoever has run by then".into(),
            _ if starts.is_some() => "all ten and the ball: at that moment".into(),
            _ if sets_out => "all ten and the ball: as you set out".into(),
            Some((does, s)) => format!("all ten and the ball: as you {does}, {s} s after you set out"),
            // As results of an earlier version have it.
            None if picture.contains("on average") => "on average with the ball there".into(),
            None => "at the start".into(),
        };
        told.push(format!("squares: defenders; {when}"));
        told.extend(is_on_its_way.then(|| "dashed: the pass on its way".to_owned()));
        let is_later = picture.contains(LATER);
        told.extend(
            is_later.then(|| "smaller balls: where it is so many seconds later, with whom".to_owned()),
        );
    }
    told.join("; ") + ". If 3 starts on the left: mirrored."
}

/// Whether a picture has a line along which somebody goes: the stem of a bar is one of a single stretch.
fn goes(picture: &str) -> bool {
    let ways = picture.split("<path ").skip(1).filter(|path| path.contains("class=\"way\""));
    let stretches = |path: &str| path.split('>').next().unwrap_or_default().matches('L').count();
    picture.contains("class=\"arrow\"") || ways.map(stretches).any(|count| count > 1)
}

/// Good looks by position in 20 possessions, who has most first, as they are told: they add up; and how many there are in all. None
/// where that is not known.
pub(super) fn good_by_position(results: &Results, leader: &str) -> Option<(Vec<(String, f64)>, f64)> {
    by_position(results, leader, |line| line.good_looks_per_100.0)
}

/// The same of a count.
fn by_position(
    results: &Results,
    leader: &str,
    per_100: impl Fn(&PositionLine) -> Option<f64>,
) -> Option<(Vec<(String, f64)>, f64)> {
    let own = results.positions.iter().filter(|line| line.variant == leader);
    // As the other figures of the page.
    let of = |line: &PositionLine| Some((numbered(&line.position), TWENTY / 100.0 * per_100(line)?));
    let mut told: Vec<(String, f64)> = own.filter_map(of).collect();
    told.sort_by(|a, b| b.1.total_cmp(&a.1));
    let all: f64 = told.iter().map(|(_, often)| often).sum();
    let parts = adding_up(&told.iter().map(|(_, often)| *often).collect::<Vec<_>>());
    told.iter_mut().zip(parts).for_each(|(own, part)| own.1 = part);
    (!told.is_empty()).then_some((told, all))
}

/// Whose the good looks are, and whose the open ones, who has most first, and that they are counted apart.
pub(super) fn looks(results: &Results, leader: &str) -> String {
    let told = |counted: Option<(Vec<(String, f64)>, f64)>| {
        let (by, all) = counted?;
        let (some, none): (Vec<_>, Vec<_>) = by.into_iter().partition(|(_, often)| *often >= SOME);
        let mut told: Vec<String> = some.iter().map(|(name, often)| format!("{often:.1} {name}")).collect();
        // What is left is shorter than a nought for each.
        told.extend((!none.is_empty()).then(|| "hardly any the others".to_owned()));
        Some(format!("{all:.1}, of these {}", told.join(", ")))
    };
    let good = told(good_by_position(results, leader));
    let open = told(by_position(results, leader, |line| line.open_looks_per_100.0)).unwrap_or_default();
    match good {
        Some(good) => format!(
            "Good looks of {leader} in 20 possessions: {good}. Open looks: {open}. They are counted apart: a good look may be \
             guarded, and an open one need not be good."
        ),
        None => format!(
            "Open looks of {leader} in 20 possessions: {open}. They are counted apart from good looks, which may be guarded."
        ),
    }
}

/// Fewer in 20 possessions are told as none. (half of a tenth)
const SOME: f64 = 0.05;

#[cfg(test)]
mod tests {
    use super::*;
    use crate::verdict::NET;
    use crate::verdict::tests::judged;

    #[test]
    fn only_words_that_are_used_are_explained() {
        let job = |words: &str| [words.to_owned()];
        assert_eq!(terms(Units::M, &job("Keep your spot.")), "Your spot: where you start.");
        assert_eq!(
            terms(Units::M, &job("Sprint to your short corner; hit 2.")),
            "Your side, wing, corner: those of the side where you stand as the move begins. Hit: pass to, wherever he is."
        );
        assert_eq!(terms(Units::M, &[]), "");
        let told = terms(Units::M, &job("Shoot if open. If guarded, hit 2; if he is covered, 3."));
        assert!(
            told.starts_with("Open: nobody within ")
                && told.contains(". Hit: pass to, wherever he is. Guarded: somebody is nearer."),
            "{told}"
        );
        assert!(told.contains("you judge"), "{told}");
    }

    #[test]
    fn a_key_names_the_marks_that_are_there_and_no_other() {
        let own = |told: &str| format!("{told} If 3 starts on the left: mirrored.");
        assert_eq!(marks("", None), own("Filled: you; outlined: team-mates where they start."));
        let pass = crate::marks::pass((0.0, 0.0), (500.0, 0.0));
        let slot = || Some(("in the slot".to_owned(), true));
        let told = marks(&format!("{pass}<text>1st</text><text>2nd</text>"), slot());
        assert!(
            told.ends_with(&own(
                "dashed: your best passes when you have it in the slot, if you do not shoot, 1st and 2nd."
            )),
            "{told}"
        );
        let told = marks(&format!("{STARTS}3{pass}"), slot());
        assert!(
            told.contains("dashed: your pass that starts the run of 3.") && !told.contains("best"),
            "{told}"
        );
        // His run is another moment: the passes of his words are not in its picture, nor in its key.
        let way = crate::marks::cut(&[(0.0, 0.0), (0.0, 200.0), (200.0, 400.0)]);
        let told = marks(&way, slot());
        assert!(told.ends_with(&own("; solid: where you go without the ball.")), "{told}");
        let told = marks(&crate::marks::bar((0.0, 0.0), 0.0), slot());
        assert!(told.ends_with(&own("; bar: the defender whom you screen or seal.")), "{told}");
    }

    #[test]
    fn an_attack_that_is_first_but_not_clearly_better_is_called_so_by_its_measure() {
        let (_, mut verdict) = judged(&["a", "b"], 300, NET);
        let first = verdict.headlines[0].variant.clone();
        let other = if first == "a" { "b" } else { "a" };
        verdict.baseline = other.into();
        verdict.headlines[0].tied = vec![other.into()];
        assert_eq!(
            standing(&verdict, &first),
            format!(", first in net points, not clearly better than {other}")
        );
        verdict.headlines[0].tied.clear();
        assert_eq!(standing(&verdict, &first), "");
        verdict.baseline = first.clone();
        assert_eq!(standing(&verdict, &first), ", with which the others are compared");
    }
}
