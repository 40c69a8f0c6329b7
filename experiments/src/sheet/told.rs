//! What the sheet tells of the attack of its cards besides the verdict: where it stands, how often it was run, whose the open
//! looks are, and what the words and the marks of the jobs mean.

use engine::OPEN_M;

use super::costs::{first_and_second, is};
use super::results::Results;
use super::tables::PositionLine;
use crate::looks::{GOOD_LOOK, open_look};
use crate::picture::SETS_OUT;
use crate::places::numbered;
use crate::units::Units;
use crate::verdict::{Differ, Verdict};
use crate::wording::{TWENTY, adding_up, listed};

/// First and second, and how often they were run.
pub(super) fn runs(results: &Results) -> Vec<String> {
    let verdict = &results.verdict;
    let mut all = vec![first_and_second(verdict, &results.measured)];
    all.extend(verdict.runs());
    all.retain(|told| !told.is_empty());
    all
}

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
        return format!("Jobs, cards and pictures are, as an example, of {leader}.");
    }
    let standing = standing(verdict, leader);
    let as_one = if standing.is_empty() { "are of" } else { "have, as an example," };
    format!("Jobs, cards and the large picture {as_one} {leader}{standing}.")
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

/// What is good and what is open, and what is never seen from the numbers.
pub(super) fn looks_told(units: Units) -> String {
    format!("{GOOD_LOOK} {} ", open_look(units))
}

/// What all possessions of the attack of the cards came to on average, points; None where that is not known.
pub(super) fn average(results: &Results, leader: &str) -> Option<f64> {
    let row = results.measured.iter().find(|row| is(row, "variant", leader))?;
    row.get("expected_points")?.parse().ok()
}

/// Words of the sheet or of a card, of those that its jobs use; `average` is what all possessions came to.
pub(super) fn terms<'t>(
    units: Units,
    average: Option<f64>,
    jobs: impl IntoIterator<Item = &'t String>,
) -> String {
    let jobs: Vec<&str> = jobs.into_iter().map(String::as_str).collect();
    let used = |words: &[&str]| jobs.iter().any(|job| words.iter().any(|word| job.contains(word)));
    let open = format!("Open: nobody within {}.", units.exact(f64::from(OPEN_M)));
    let average = average.map_or_else(String::new, |points| format!(", all possessions to {points:.2}"));
    let guarded =
        format!("Even guarded (in brackets): such possessions came to so many points on average{average}.");
    let told = [
        (
            used(&["near ", "far ", "ball-side"]),
            "Near, far, ball-side: seen from the ball at that moment; it may have changed sides since you set out.",
        ),
        (used(&YOURS), "Your side, your wing and the like: where you stand as the move begins."),
        (used(&["gap between their lines"]), "Lines: their front defenders and their back ones."),
        (used(&["the other wing", "the other corner"]), "Other wing, other corner: away from the ball."),
        (used(&["your spot"]), "Your spot: where you start."),
        (used(&["if open"]), open.as_str()),
        (used(&["hit "]), "Hit: pass to."),
        (used(&["even guarded"]), guarded.as_str()),
        (used(&["covered", "way is open"]), FOR_YOUR_EYE),
    ];
    told.into_iter().filter(|(is_used, _)| *is_used).map(|(_, words)| words).collect::<Vec<_>>().join(" ")
}

/// What no number tells.
const FOR_YOUR_EYE: &str = "Covered (no clear pass to him) and way open (nobody between you and the rim): for your eye, no number is \
                            of them.";

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
pub(super) fn marks(picture: &str, passes_at: Option<&str>) -> String {
    let mut told = vec!["Filled: you; open, numbered: team-mates".to_owned()];
    let at = passes_at.filter(|_| picture.contains("class=\"inkarrow\""));
    if let Some(at) = at {
        let second = picture.contains(">2nd<");
        let which = if second { "your best passes" } else { "your best pass" };
        told.push(format!(
            "dashed: {which} {at}, if you do not shoot{}",
            if second { ", 1st and 2nd" } else { "" }
        ));
    }
    let is_held = picture.contains("stroke-width=\"16\"");
    let way = match (goes(picture), is_held) {
        (true, _) => Some("solid: where you go without the ball"),
        (false, true) => Some("bar, before whom you hold: a screen or a seal"),
        (false, false) => None,
    };
    told.extend(way.map(str::to_owned));
    told.extend((goes(picture) && is_held).then(|| "bar: screen or seal".to_owned()));
    if picture.contains("class=\"body\"") {
        let when = match (at.is_some(), picture.contains(SETS_OUT)) {
            (true, _) => "where their defenders stand on average with the ball there",
            (false, true) => "their defenders; all ten and the ball: as you set out, they move on meanwhile",
            (false, false) => "where their defenders stand at the start",
        };
        told.push(format!("squares: {when}"));
    }
    told.join("; ") + "."
}

/// Whether a picture has a line along which somebody goes: the stem of a bar is one of a single stretch.
fn goes(picture: &str) -> bool {
    let ways = picture.split("<path ").skip(1).filter(|path| path.contains("class=\"way\""));
    let stretches = |path: &str| path.split('>').next().unwrap_or_default().matches('L').count();
    picture.contains("class=\"arrow\"") || ways.map(stretches).any(|count| count > 1)
}

/// Whose the good looks are, and whose the open ones, who has most first, and that they are counted apart.
pub(super) fn looks(results: &Results, leader: &str) -> String {
    let own: Vec<_> = results.positions.iter().filter(|line| line.variant == leader).collect();
    // As the other figures of the page.
    let told = |per_100: &dyn Fn(&PositionLine) -> Option<f64>| {
        let of = |line: &&&PositionLine| Some((numbered(&line.position), TWENTY / 100.0 * per_100(line)?));
        let mut told: Vec<(String, f64)> = own.iter().filter_map(|line| of(&line)).collect();
        told.sort_by(|a, b| b.1.total_cmp(&a.1));
        let all: f64 = told.iter().map(|(_, often)| often).sum();
        let (some, none): (Vec<_>, Vec<_>) = told.into_iter().partition(|(_, often)| *often >= SOME);
        let is_known = !some.is_empty() || !none.is_empty();
        // What is told adds up to what is told of all.
        let rest: f64 = none.iter().map(|(_, often)| often).sum();
        let parts: Vec<f64> = some.iter().map(|(_, often)| *often).chain([rest]).collect();
        let parts = adding_up(&parts);
        let mut told: Vec<String> =
            some.iter().zip(&parts).map(|((name, _), often)| format!("{often:.1} {name}")).collect();
        let rest = parts[some.len()];
        told.extend((!none.is_empty()).then(|| match rest > 0.0 {
            true => format!("{rest:.1} the others"),
            false => "hardly any the others".to_owned(),
        }));
        is_known.then(|| format!("{all:.1}, of these {}", told.join(", ")))
    };
    let good = told(&|line| line.good_looks_per_100.0);
    let open = told(&|line| line.open_looks_per_100.0).unwrap_or_default();
    match good {
        Some(good) => format!(
            "Good looks of {leader} in 20 possessions: {good}. Open looks: {open}. They are counted apart: a good look may be \
             guarded, and an open one worth little."
        ),
        None => format!(
            "Open looks of {leader} in 20 possessions: {open}. They are counted apart from good looks, which may be guarded."
        ),
    }
}

/// Fewer in 20 possessions are hardly any.
const SOME: f64 = 0.1;

#[cfg(test)]
mod tests {
    use super::*;
    use crate::verdict::NET;
    use crate::verdict::tests::judged;

    #[test]
    fn only_words_that_are_used_are_explained() {
        let job = |words: &str| [words.to_owned()];
        assert_eq!(terms(Units::M, None, &job("Keep your spot.")), "Your spot: where you start.");
        assert_eq!(
            terms(Units::M, None, &job("Sprint to your short corner; hit 2.")),
            "Your side, your wing and the like: where you stand as the move begins. Hit: pass to."
        );
        assert_eq!(terms(Units::M, None, &[]), "");
        let told =
            terms(Units::M, Some(0.934), &job("Shoot, even guarded (0.97); hit 2; if he is covered, 3."));
        assert!(told.contains("came to so many points on average, all possessions to 0.93."), "{told}");
        assert!(told.contains("no number is of them"), "{told}");
    }

    #[test]
    fn a_key_names_the_marks_that_are_there_and_no_other() {
        assert_eq!(marks("", None), "Filled: you; open, numbered: team-mates.");
        let pass = crate::marks::pass((0.0, 0.0), (500.0, 0.0));
        let told = marks(&format!("{pass}<text>1st</text><text>2nd</text>"), Some("in the slot"));
        assert!(
            told.ends_with("dashed: your best passes in the slot, if you do not shoot, 1st and 2nd."),
            "{told}"
        );
        // His run is another moment: the passes of his words are not in its picture, nor in its key.
        let way = crate::marks::cut(&[(0.0, 0.0), (0.0, 200.0), (200.0, 400.0)]);
        let told = marks(&way, Some("in the slot"));
        assert!(told.ends_with("; solid: where you go without the ball."), "{told}");
        let told = marks(&crate::marks::bar((0.0, 0.0), 0.0), Some("on top"));
        assert!(told.ends_with("; bar, before whom you hold: a screen or a seal."), "{told}");
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
