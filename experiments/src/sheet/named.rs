//! What those are that the sheet names, in words.

use super::model::Leader;
use super::results::Results;
use crate::verdict::{Differ, Ran, Verdict};

/// Attacks of which it is told what they are, at most: all that an advice names.
const MOST_TOLD: usize = 4;

/// What those are that may be run, and those that an advice warns of.
pub(super) fn leaders(results: &Results, besides: &[(Vec<&str>, String)]) -> Vec<Leader> {
    let verdict = &results.verdict;
    let named = if verdict.differ == Differ::Choices { verdict.advised_of() } else { verdict.leaders() };
    let mut known: Vec<&str> = named.iter().copied().take(MOST_TOLD).collect();
    let ran = named.into_iter().take(MOST_TOLD).filter_map(|leader| verdict.ran(leader));
    let leader = |ran: &Ran| Leader {
        name: ran.variant.clone(),
        words: what_it_is(verdict, ran),
        way: results.picture(&ran.picture).unwrap_or_default().to_owned(),
    };
    // Who was dropped by a choice may have measured well afterwards.
    let behind = |name: &str| match verdict.behind_what(name).as_str() {
        "" => "when it was chosen".to_owned(),
        what => what.to_owned(),
    };
    let dropped = |(ran, behind): (&Ran, String)| Leader {
        name: ran.variant.clone(),
        words: format!("{}; clearly behind {behind}", ran.words),
        way: String::new(),
    };
    let against = if verdict.differ == Differ::Choices { verdict.advised_against() } else { Vec::new() };
    known.extend(&against);
    let against = against.into_iter().map(|name| (name, behind(name)));
    let besides = besides.iter().flat_map(|(names, by)| names.iter().map(move |name| (*name, by.clone())));
    let against = against.chain(besides.filter(|(name, _)| !known.contains(name)));
    let against = against.filter_map(|(name, by)| Some((verdict.ran(name)?, by)));
    ran.map(leader).chain(against.filter(|(ran, _)| !ran.words.is_empty()).map(dropped)).collect()
}

/// What a variant is, and whether it is the one compared with.
fn what_it_is(verdict: &Verdict, ran: &Ran) -> String {
    match (ran.words.as_str(), ran.variant == verdict.baseline && verdict.variants.len() > 1) {
        ("", true) if verdict.differ != Differ::Choices => "the others are compared with it".into(),
        ("", true) => format!("no {} is run{}", verdict.noun, compared(verdict)),
        (words, true) => format!("{words}{}", compared(verdict)),
        (words, false) => words.to_owned(),
    }
}

/// Of the one compared with. Where only what one position runs is compared nobody stands still in it.
fn compared(verdict: &Verdict) -> &'static str {
    let is_one_job = ["route", "post option", "guard option"].contains(&verdict.noun.as_str());
    if verdict.differ == Differ::Choices && is_one_job {
        "; all else is done as in the others, which are compared with it"
    } else {
        "; the others are compared with it"
    }
}

/// What those are that the sheet names besides its leaders: no name stands without its words.
pub(super) fn also(verdict: &Verdict, leaders: &[Leader], texts: &[&str]) -> String {
    let is_named = |name: &str| {
        let is_part = |letter: char| letter.is_alphanumeric() || letter == '-';
        texts.iter().any(|text| {
            text.match_indices(name).any(|(at, _)| {
                !text[..at].ends_with(is_part) && !text[at + name.len()..].starts_with(is_part)
            })
        })
    };
    let others = verdict.variants.iter().filter(|ran| !leaders.iter().any(|own| own.name == ran.variant));
    let told = others.filter(|ran| is_named(&ran.variant)).filter_map(|ran| {
        let words = what_it_is(verdict, ran);
        (!words.is_empty()).then(|| format!("{}: {words}.", ran.variant))
    });
    told.collect::<Vec<_>>().join(" ")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::verdict::NET;
    use crate::verdict::tests::judged;

    #[test]
    fn no_name_stands_without_its_words_and_a_part_of_a_name_is_none() {
        let (_, mut verdict) = judged(&["sit", "seam-sit", "run"], 300, NET);
        verdict.variants.iter_mut().for_each(|own| own.words = format!("words of {}", own.variant));
        verdict.baseline = "sit".into();
        verdict.noun = "route".into();
        let told = |texts: &[&str]| also(&verdict, &[], texts);
        assert_eq!(told(&["Not seam-sit (behind)."]), "seam-sit: words of seam-sit.");
        assert_eq!(
            told(&["sit +0.1"]),
            "sit: words of sit; all else is done as in the others, which are compared with it."
        );
        let leader = Leader { name: "run".into(), words: String::new(), way: String::new() };
        assert_eq!(also(&verdict, &[leader], &["Run run."]), "", "it is told of beside the verdict");
        verdict.variants.iter_mut().for_each(|own| own.words.clear());
        verdict.differ = Differ::Settings;
        let told = also(&verdict, &[], &["sit +0.1"]);
        assert_eq!(told, "sit: the others are compared with it.", "a sink is not run");
    }
}
