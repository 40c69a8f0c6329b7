//! What the sheet tells of the attack of its cards besides the verdict: where it stands, how often it was run, whose the open
//! looks are, and what the words and the marks of the jobs mean.

use engine::OPEN_M;

use super::costs::first_and_second;
use super::results::Results;
use super::words::TWENTY;
use crate::places::numbered;
use crate::units::Units;
use crate::verdict::{Differ, Verdict};

/// First and second, how often they were run, and of which the cards are.
pub(super) fn runs(results: &Results, leader: &str) -> Vec<String> {
    let verdict = &results.verdict;
    let mut all = vec![first_and_second(verdict, &results.measured)];
    all.extend(verdict.runs());
    if verdict.differ == Differ::Choices && verdict.variants.len() > 1 {
        all.push(format!("Jobs, cards and the large picture are of {leader}{}.", standing(verdict, leader)));
    }
    all.retain(|told| !told.is_empty());
    all
}

/// That the attack of the cards is first by count alone, where it is; goes on a name.
pub(super) fn standing(verdict: &Verdict, leader: &str) -> String {
    if verdict.differ != Differ::Choices || verdict.variants.len() == 1 {
        String::new()
    } else if leader == verdict.baseline {
        ", with which the others are compared".into()
    } else if verdict.headlines.iter().any(|own| own.has(&verdict.baseline)) {
        format!(", first by count, not clearly better than {}", verdict.baseline)
    } else {
        String::new()
    }
}

/// Words of the sheet and of the cards.
pub(super) fn terms(units: Units) -> String {
    format!(
        "Near, far: seen from the ball. Your side: where you stand as the move begins. Open: nobody within {}. Hit: pass to.",
        units.exact(f64::from(OPEN_M))
    )
}

/// What the lines of a card's picture are, of those that it has.
pub(super) fn marks(picture: &str, passes_at: Option<&str>) -> String {
    let mut told = vec!["Filled: you; open, numbered: team-mates".to_owned()];
    if let Some(at) = passes_at {
        told.push(format!("dashed: your best passes {at}, 1st and 2nd"));
    }
    if picture.contains("class=\"ball\"") {
        told.push("ball: you pass from there".into());
    }
    if picture.contains("class=\"way\"") {
        told.push("solid: where you go".into());
    }
    if picture.contains("stroke-width=\"16\"") {
        told.push("bar: screen or seal".into());
    }
    told.join("; ") + "."
}

/// Whose the open looks are, who has most first, and that they are no part of the good ones.
pub(super) fn open_looks(results: &Results, leader: &str) -> String {
    let own = results.positions.iter().filter(|line| line.variant == leader);
    // As the other figures of the page.
    let in_twenty = |per_100: f64| TWENTY / 100.0 * per_100;
    let mut told: Vec<(String, f64)> = own
        .filter_map(|line| Some((numbered(&line.position), in_twenty(line.open_looks_per_100.0?))))
        .collect();
    told.sort_by(|a, b| b.1.total_cmp(&a.1));
    let all: f64 = told.iter().map(|(_, often)| often).sum();
    let (some, none): (Vec<_>, Vec<_>) = told.into_iter().partition(|(_, often)| *often >= SOME);
    let mut told: Vec<String> = some.iter().map(|(name, often)| format!("{often:.1} {name}")).collect();
    // Shorter than a nought for each.
    told.extend((!none.is_empty()).then(|| "hardly any by the others".to_owned()));
    format!(
        "Open looks of {leader} in 20 possessions: {all:.1}; of these {}. They are counted apart from good looks, which may be \
         guarded.",
        told.join(", ")
    )
}

/// Fewer in 20 possessions are hardly any.
const SOME: f64 = 0.1;

#[cfg(test)]
mod tests {
    use super::*;
    use crate::verdict::NET;
    use crate::verdict::tests::judged;

    #[test]
    fn a_key_names_the_marks_that_are_there_and_no_other() {
        assert_eq!(marks("", None), "Filled: you; open, numbered: team-mates.");
        let told = marks("<path class=\"way\"/>", Some("in the slot"));
        assert!(
            told.contains("passes in the slot, 1st and 2nd; solid: where you go.") && !told.contains("bar"),
            "{told}"
        );
    }

    #[test]
    fn an_attack_that_is_first_by_count_alone_is_called_so() {
        let (_, mut verdict) = judged(&["a", "b"], 300, NET);
        let first = verdict.headlines[0].variant.clone();
        let other = if first == "a" { "b" } else { "a" };
        verdict.baseline = other.into();
        verdict.headlines[0].tied = vec![other.into()];
        assert_eq!(standing(&verdict, &first), format!(", first by count, not clearly better than {other}"));
        verdict.headlines[0].tied.clear();
        assert_eq!(standing(&verdict, &first), "");
        verdict.baseline = first.clone();
        assert_eq!(standing(&verdict, &first), ", with which the others are compared");
    }
}
