//! The verdict in sentences: the same in the terminal, in the report, on the sheet and on the cards.

use super::{Differ, Headline, Lead, Ran, Verdict};
use crate::wording::{any_of, capital, each_in, figure, gap, listed};

/// A sentence that goes on after a colon.
fn lower(sentence: &str) -> String {
    sentence.replacen("No ", "no ", 1)
}

/// Variants that one sentence names, at most.
const MOST_NAMED: usize = 4;

impl Verdict {
    /// What is claimed, a sentence an entry.
    pub fn claims(&self) -> Vec<String> {
        match self.differ {
            Differ::Choices => self.chosen(),
            Differ::Settings => self.met(),
            Differ::Both => self.each_setting(),
        }
    }

    /// How they were chosen, a sentence or two an entry; empty where it was not played until sure.
    pub fn choice(&self) -> Vec<String> {
        self.selection.as_ref().map_or_else(Vec::new, |selection| selection.told(&self.noun))
    }

    /// How often the leaders were run, a sentence each; of those that have nothing to run, none.
    pub fn runs(&self) -> Vec<String> {
        let named = self.leaders();
        let ran = named.iter().filter_map(|leader| self.ran(leader));
        ran.filter(|_| self.differ == Differ::Choices)
            .filter_map(|ran| ran.sentence(&self.led(ran)))
            .collect()
    }

    /// By what one came first, of those that were compared; empty for one alone.
    fn led(&self, ran: &Ran) -> String {
        let own = self.headlines.iter().filter(|own| self.variants.len() > 1 && own.variant == ran.variant);
        listed(&own.map(|own| format!("by {}", own.column.words)).collect::<Vec<_>>())
    }

    /// What is advised, where anything can be; the last of the claims.
    pub fn advised(&self) -> Option<String> {
        self.advice().filter(|_| self.differ == Differ::Choices && self.variants.len() > 1)
    }

    /// How far the first is from the one compared with, and from the second, a sentence each; none of one alone or of what is met.
    pub fn sure(&self) -> Vec<String> {
        let Some(first) = self.headlines.first().filter(|_| self.differ == Differ::Choices) else {
            return Vec::new();
        };
        let told = |lead: &Lead| {
            let doubt = if lead.by.contains(0.0) { ", which could be luck" } else { "" };
            let over = if lead.over == self.baseline {
                format!("{}, with which all are compared", lead.over)
            } else {
                format!("the second, {}", lead.over)
            };
            format!("{} beside {over}: {}{doubt}.", first.variant, gap(first.column, &lead.by))
        };
        self.leads.iter().map(told).collect()
    }

    /// Best by one measure, best by the other, and the gap.
    fn chosen(&self) -> Vec<String> {
        let Some(first) = self.headlines.first() else { return Vec::new() };
        if self.variants.len() == 1 {
            let alone = |own: &Headline| format!("{}: {}.", capital(own.column.words), own.value());
            return self.headlines.iter().map(alone).collect();
        }
        let told = |(nth, own): (usize, &Headline)| {
            let too = if nth > 0 && own.leader == first.leader { ", too" } else { "" };
            let best = if self.selection.is_some() { "Measured afterwards: best by" } else { "Best by" };
            format!("{best} {}{too}: {}.{}", own.column.words, own.value(), own.state(&self.noun))
        };
        let mut all: Vec<String> = self.headlines.iter().enumerate().map(told).collect();
        all.extend(self.between());
        all.extend(self.advice());
        all
    }

    /// What to run.
    fn advice(&self) -> Option<String> {
        if let Some(choice) = self.decided() {
            return Some(self.advice_of(choice));
        }
        let first = self.headlines.first()?;
        let second = self.headlines.get(1).unwrap_or(first);
        let (a, b) = (&first.leader, &second.leader);
        let (one, other) = (second.has(a), first.has(b));
        let both = self.contenders_by_all();
        if a != b {
            let by = |own: &Headline| {
                let is_own = own.has(&self.baseline) && own.leader != self.baseline;
                is_own.then(|| format!(" By {}: {}.", own.column.words, lower(&self.none_is_better())))
            };
            let none = || by(second).or_else(|| by(first)).unwrap_or_default();
            let is_no_better = [first, second].iter().all(|own| own.has(&self.baseline));
            return Some(match (one, other) {
                (true, true) if is_no_better && *a != self.baseline && *b != self.baseline => format!(
                    "{}{}: {a} came first by {}, {b} by {}, both too close to call. Keep to what your players run best.{}",
                    self.none_is_better(),
                    self.nor_the_second(),
                    first.column.words,
                    second.column.words,
                    self.behind()
                ),
                (true, true) if both.len() == 2 => {
                    format!("Run {a} or {b}, whichever your players run better.{}", none())
                }
                (true, true) | (true, false) | (false, true) if both.len() > 1 => self.toss_up(&both),
                (true, _) => format!("Run {a}: by {} it is not clearly behind.", second.column.words),
                (false, true) => format!("Run {b}: by {} it is not clearly behind.", first.column.words),
                (false, false) => {
                    format!("Run {a} for {}, or {b} for {}.", first.column.words, second.column.words)
                }
            });
        }
        Some(match both.as_slice() {
            [_] => format!("Run {a}."),
            several => self.toss_up(several),
        })
    }

    /// That any of several will do.
    fn toss_up(&self, several: &[&str]) -> String {
        let told = if several.contains(&self.baseline.as_str()) {
            self.none_is_better() + &self.nor_the_second()
        } else {
            format!("A toss-up between {}", listed(&few(several)))
        };
        format!(
            "{told}: keep to what your players run best.{}{}",
            self.none_is_as_good(several),
            self.behind()
        )
    }

    /// In plain words that to run nothing at all is among what cannot be told from the first; empty where that is not so.
    fn none_is_as_good(&self, several: &[&str]) -> String {
        let runs = |name: &str| self.ran(name).is_some_and(|ran| ran.often.is_some());
        let is_none = several.contains(&self.baseline.as_str()) && !runs(&self.baseline);
        let are_some = several.iter().any(|name| runs(name));
        if is_none && are_some {
            let Self { baseline, noun, .. } = self;
            let by = self.measures();
            format!(" {baseline}, in which no {noun} is run, is as good in {by}, as far as can be told.")
        } else {
            String::new()
        }
    }

    /// The measures that it judges by: `good looks and expected net points`.
    fn measures(&self) -> String {
        listed(&self.headlines.iter().map(|own| own.column.words).collect::<Vec<_>>())
    }

    /// Those in contention by every measure, best by the question's own first.
    pub(super) fn contenders_by_all(&self) -> Vec<&str> {
        let Some((first, rest)) = self.headlines.split_first() else { return Vec::new() };
        first.contenders().filter(|own| rest.iter().all(|other| other.has(own))).collect()
    }

    /// That it does not help, where that with which all is compared is among the first.
    pub(super) fn none_is_better(&self) -> String {
        format!("No {} is clearly better than {}", self.noun, self.baseline)
    }

    /// That the first is not told from the second either, for most ask so; empty where that has been said already.
    fn nor_the_second(&self) -> String {
        let Some(first) = self.headlines.first() else { return String::new() };
        let mut ranked = self.variants.iter().map(|ran| ran.variant.as_str());
        let second = ranked.find(|name| *name != first.variant);
        let asked = second.filter(|second| *second != self.baseline && first.variant != self.baseline);
        let asked = asked.filter(|second| first.has(second));
        asked.map_or_else(String::new, |second| {
            format!(", and the first, {}, is not clearly better than the second, {second}", first.leader)
        })
    }

    /// What is surely worse than the first, than which first and by which measure: all that a toss-up still says.
    fn behind(&self) -> String {
        let than = |own: &Headline| format!("{} in {}", own.leader, own.column.words);
        let both = match (self.advised_against().as_slice(), self.leaders().as_slice()) {
            ([], _) => String::new(),
            (all, [leader]) => {
                format!(" Not {}: clearly behind {leader} in {}.", any_of(&few(all)), self.measures())
            }
            (all, _) => {
                let by: Vec<String> = self.headlines.iter().map(than).collect();
                format!(" Not {}: clearly behind {}.", any_of(&few(all)), listed(&by))
            }
        };
        let by_one = |own: &Headline| {
            let all = self.behind_by_one(own);
            (!all.is_empty())
                .then(|| format!(" Rather not {}: clearly behind {} alone.", any_of(&few(&all)), than(own)))
        };
        both + &self.headlines.iter().filter_map(by_one).collect::<String>()
    }

    /// Which first a variant is clearly behind, and by which measure: `a in good looks and b in net points`; empty where it is behind
    /// none of them.
    pub fn behind_what(&self, variant: &str) -> String {
        let ahead = self.headlines.iter().filter(|own| !own.has(variant));
        listed(&each_in(ahead.map(|own| (own.leader.as_str(), own.column.words))))
    }

    /// Whether the advice is to keep to what one runs best, which says what is behind.
    fn is_toss_up(&self) -> bool {
        let (leaders, both) = (self.leaders(), self.contenders_by_all());
        let is_led = leaders.contains(&self.baseline.as_str());
        let is_close = |leader: &&str| both.contains(leader);
        match leaders.as_slice() {
            [_] => both.len() > 1,
            // Of two that are as good as each other, and no third, either is run; unless neither is better than standing still.
            all if all.iter().all(is_close) => {
                both.len() > 2 || both.contains(&self.baseline.as_str()) && !is_led
            }
            all => all.iter().any(is_close) && both.len() > 1,
        }
    }

    /// Those of which a toss-up says that they are behind by all measures, or were dropped by a choice; none where the advice is
    /// another.
    pub fn advised_against(&self) -> Vec<&str> {
        if let Some(choice) = self.decided() {
            return if choice.ended.is_open() { choice.behind() } else { Vec::new() };
        }
        let is_behind = |ran: &&Ran| self.headlines.iter().all(|own| !own.has(&ran.variant));
        let all = self.variants.iter().filter(|ran| self.is_toss_up() && is_behind(ran));
        all.map(|ran| ran.variant.as_str()).collect()
    }

    /// Those of which a toss-up says that they are behind by this measure, though not by the other.
    fn behind_by_one(&self, own: &Headline) -> Vec<&str> {
        let is_behind =
            |ran: &&Ran| !own.has(&ran.variant) && self.headlines.iter().any(|other| other.has(&ran.variant));
        let all = self.variants.iter().filter(|ran| self.is_toss_up() && is_behind(ran));
        all.map(|ran| ran.variant.as_str()).collect()
    }

    /// What the leader by net points has more or less of than the other leader.
    fn between(&self) -> Option<String> {
        let [first, second] = self.headlines.as_slice() else { return None };
        let told = |own: &super::Gap| {
            let luck = if own.by.contains(0.0) { ", which could be luck" } else { "" };
            format!("{}{luck}", gap(own.column, &own.by))
        };
        let parts: Vec<String> = self.gap.iter().map(told).collect();
        let told = format!(
            "The two winners side by side: {} beside {} has {}.",
            second.leader,
            first.leader,
            parts.join("; ")
        );
        (!parts.is_empty()).then_some(told)
    }

    /// Against what it goes best, where nothing is chosen.
    fn met(&self) -> Vec<String> {
        let told = |own: &Headline| {
            let tied = if own.is_clear() {
                let others = if own.rivals == 1 { String::new() } else { format!(" {}", own.rivals) };
                format!("Clearly best: ahead of the other{others}.")
            } else {
                format!("Too close to call with where {}.", listed(&few(&own.tied)))
            };
            format!("By {} it goes best where {}. {tied}", own.column.words, own.value())
        };
        let preface = "What you meet: these differ in settings only, which are not yours to choose, so none is advised.";
        std::iter::once(preface.to_owned()).chain(self.headlines.iter().map(told)).collect()
    }

    /// The best for each setting.
    fn each_setting(&self) -> Vec<String> {
        let told = |own: &Headline| {
            let seldom = self.ran(&own.variant).and_then(Ran::seldom);
            let seldom = seldom.map_or_else(String::new, |often| {
                format!(", though it was run to its end in only {often} of 20")
            });
            format!("by {} {}{}{seldom}", own.column.words, own.value(), own.short_state())
        };
        let under = self.under.iter().map(|under| {
            let parts: Vec<String> = under.headlines.iter().map(told).collect();
            format!(
                "Where {}: {}.",
                under.setting,
                if parts.is_empty() { "no data".into() } else { parts.join("; ") }
            )
        });
        let preface = "What you meet differs as well as what you teach, so the best is named for each of it.";
        std::iter::once(preface.to_owned()).chain(under).collect()
    }
}

impl Headline {
    /// Name and figure.
    fn value(&self) -> String {
        format!("{}, {}", self.leader, figure(self.column, &self.figure))
    }

    /// Whether it is clear, as a sentence after a blank.
    fn state(&self, noun: &str) -> String {
        if self.rivals == 0 {
            String::new()
        } else if self.is_clear() {
            format!(" Clearly best: ahead of every other {noun}.")
        } else {
            format!(" Too close to call with {}.", listed(&few(&self.tied)))
        }
    }

    fn short_state(&self) -> String {
        if self.rivals == 0 {
            ", the only one".into()
        } else if self.is_clear() {
            ", clearly best".into()
        } else {
            format!(", too close to call with {}", listed(&few(&self.tied)))
        }
    }
}

impl Ran {
    /// How often it was run; of what was compared and came first by this, what that means where it was seldom.
    fn sentence(&self, first_by: &str) -> Option<String> {
        let [started, carried, fed] = self.often?.in_twenty();
        let name = &self.variant;
        let runner = match self.runner.as_str() {
            "" => "its runner".to_owned(),
            who => format!("its runner, {who},"),
        };
        let fed = format!("in {fed} {runner} caught the ball on it, which can be before the end");
        Some(match (self.seldom(), first_by) {
            (None, _) => format!(
                "In 20 possessions {name} was begun in {started} and run to its end in {carried}; {fed}."
            ),
            (Some(_), "") => format!(
                "{name} was run to its end in only {carried} of 20 possessions (begun in {started}; {fed}): what is \
                 measured is mostly the attack around it."
            ),
            (Some(_), by) => format!(
                "{name} came first {by}, but it was run to its end in only {carried} of 20 possessions (begun in \
                 {started}; {fed}): what is compared is mostly the attack around it."
            ),
        })
    }

    /// In how many of 20 possessions it was run to its end, if in fewer than half of them: it is no reason then.
    fn seldom(&self) -> Option<String> {
        let [_, carried, _] = self.often.filter(|often| !often.is_usual())?.in_twenty();
        Some(carried)
    }

    /// Started, carried through and fed in 20 possessions: `19/12/8`; a dash where there is nothing to run.
    pub fn cell(&self) -> String {
        self.often.map_or_else(|| "\u{2013}".into(), |often| often.in_twenty().join("/"))
    }
}

/// The names, or the first of them and how many more where a sentence could not hold all.
pub(crate) fn few<S: AsRef<str>>(names: &[S]) -> Vec<String> {
    let shown = if names.len() > MOST_NAMED { MOST_NAMED - 1 } else { names.len() };
    let mut told: Vec<String> = names[..shown].iter().map(|name| name.as_ref().to_owned()).collect();
    if shown < names.len() {
        told.push(format!("{} more", names.len() - shown));
    }
    told
}
