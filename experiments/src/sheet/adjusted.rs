//! What to run against an answer of the zone that it does not give anyway: what is clearly behind there, by which measure, and what
//! the others are.

use super::calls::Source;
use super::words::in_twenty;
use crate::columns::Column;
use crate::places::{AnswerLine, CallLine, Stands};
use crate::verdict::NET;
use crate::wording::{any_of, capital, each_in, listed};

/// What to run against another, and of which attack it is said who is open. What is clearly behind by either measure is named
/// with the measure; of the others, which are a toss-up, the attack of the cards stays if it is one of them.
pub(super) fn run<'a>(
    own: &[&'a CallLine],
    answers: &[&'a AnswerLine],
    source: Source<'a>,
) -> (&'a str, String) {
    let (best, behind) = (own[0], Behind::of(own, answers, source.baseline));
    let kept: Vec<&str> =
        own.iter().map(|line| line.variant.as_str()).filter(|name| !behind.has(name)).collect();
    let is_alone = own[1..].iter().all(|line| apart(line));
    if is_alone {
        let by = behind.by(&best.variant);
        let but = if by.is_empty() { String::new() } else { format!(" It is behind {}.", listed(&by)) };
        return (&best.variant, ahead(own) + &but);
    }
    let (stays, but) = (kept.contains(&source.main), behind.told());
    let told = match (kept.as_slice(), stays) {
        // Ahead by one measure, behind by the other: none is better by both.
        ([], _) => format!("Keep what you run: none is ahead by all measures. Behind: {but}."),
        ([one], _) => format!("Run {one}. Behind: {but}."),
        (_, true) if but.is_empty() => format!(
            "Keep what you run: none clearly differs from {} in {}.",
            source.baseline,
            listed(&behind.measures)
        ),
        (all, true) => {
            format!(
                "Nothing to switch to: keep what you run. Drop only {but}; {} are not told apart here.",
                left(all)
            )
        }
        (all, false) => format!(
            "Drop {but}. {} are not told apart here: run what your players run best.",
            capital(&left(all))
        ),
    };
    // What the verdict warns of is not silently allowed again.
    let again: Vec<&str> =
        source.against.iter().copied().filter(|name| kept.len() > 1 && kept.contains(name)).collect();
    let again = if again.is_empty() {
        String::new()
    } else {
        format!(" It is not clear here that {} is behind.", any_of(&again))
    };
    let looked = if stays || kept.is_empty() { source.main } else { kept[0] };
    // One that leads against the usual rule does not lead against every other.
    let elsewhere: Vec<String> = source
        .clear
        .iter()
        .filter(|(name, _)| kept.len() > 1 && kept.contains(name))
        .map(|(name, words)| format!(" Only against their usual rule is {name} clearly best in {words}."))
        .collect();
    (looked, told + &again + &elsewhere.join(""))
}

/// What is not behind, the one compared with among it.
fn left(all: &[&str]) -> String {
    format!("the {} that are left", all.len())
}

/// Whether the best by net points is ahead of it, by the interval for all of the table.
fn apart(line: &CallLine) -> bool {
    line.lead_together_low.0.is_some_and(|low| low > 0.0)
}

/// The one that is clearly best by net points, with its lead over the second.
fn ahead(own: &[&CallLine]) -> String {
    let best = own[0];
    let net = best.expected_net_points.0.map_or_else(|| "no data".into(), in_twenty);
    let gap = own.get(1).and_then(|second| {
        let [lead, low, high] = [second.lead, second.lead_together_low, second.lead_together_high]
            .map(|part| part.0.map(in_twenty));
        Some(format!(", {} more than {} ({} to {})", lead?, second.variant, low?, high?))
    });
    format!("Run {}: {net} net points in 20{}.", best.variant, gap.unwrap_or_default())
}

/// What is clearly behind against an answer.
pub(super) struct Behind<'a> {
    /// The measures in words, net points first.
    measures: Vec<&'static str>,
    /// A variant, whom it is behind and by which measure, in the order of the table.
    all: Vec<(&'a str, &'a str, &'static str)>,
}

impl<'a> Behind<'a> {
    /// Behind the one compared with by any measure, or the one compared with where another is ahead of it: the comparison of the
    /// second page, and no other.
    pub(super) fn of(own: &[&'a CallLine], answers: &[&'a AnswerLine], baseline: &'a str) -> Self {
        let mut columns: Vec<&Column> = Column::named(NET).into_iter().collect();
        for column in answers.iter().filter_map(|line| Column::named(&line.measure)) {
            if !columns.iter().any(|known| known.key == column.key) {
                columns.push(column);
            }
        }
        let whom = |line: &CallLine, column: &Column| {
            let mut own = answers.iter().filter(|own| own.measure == column.key);
            if line.variant == baseline {
                return own.find(|own| own.stands == Some(Stands::Ahead)).map(|own| own.variant.as_str());
            }
            let is_behind =
                |own: &&AnswerLine| own.variant == line.variant && own.stands == Some(Stands::Behind);
            own.any(is_behind).then_some(baseline)
        };
        let words = |column: &Column| column.words.trim_start_matches("expected ");
        let of_line = |line: &'a CallLine| {
            let by = columns.iter().filter_map(|column| Some((whom(line, column)?, words(column))));
            by.map(|(whom, by)| (line.variant.as_str(), whom, by)).collect::<Vec<_>>()
        };
        Self {
            all: own.iter().flat_map(|line| of_line(line)).collect(),
            measures: columns.iter().map(|column| words(column)).collect(),
        }
    }

    fn has(&self, variant: &str) -> bool {
        self.all.iter().any(|(own, ..)| *own == variant)
    }

    /// Whom, and by which measures: `no-option in net points and good looks`.
    fn by(&self, variant: &str) -> Vec<String> {
        let own = self.all.iter().filter(|(own, ..)| *own == variant);
        each_in(own.map(|(_, other, by)| (*other, *by)))
    }

    /// `far (behind no-option in net points) and out and up (behind no-option in good looks)`.
    fn told(&self) -> String {
        let one =
            |(by, names): &(Vec<String>, Vec<&str>)| format!("{} (behind {})", listed(names), listed(by));
        listed(&self.groups().iter().map(one).collect::<Vec<_>>())
    }

    /// Those that are behind the same by the same measures, together.
    pub(super) fn groups(&self) -> Vec<(Vec<String>, Vec<&'a str>)> {
        let mut groups: Vec<(Vec<String>, Vec<&'a str>)> = Vec::new();
        for (variant, ..) in &self.all {
            let by = self.by(variant);
            match groups.iter_mut().find(|(known, _)| *known == by) {
                Some((_, names)) if names.contains(variant) => {}
                Some((_, names)) => names.push(variant),
                None => groups.push((by, vec![variant])),
            }
        }
        groups
    }
}
