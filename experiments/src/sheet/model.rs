//! What stands on the sheet and on the cards, before anything is laid out.

use super::calls::{Call, Source, calls};
use super::results::Results;
use super::tables::{BestLine, DutyLine, PositionLine};
use super::words::in_twenty;
use crate::columns::Column;
use crate::error::Error;
use crate::note::NOTE;
use crate::places::{ATTACKERS, CallLine, position_words};
use crate::wording::grouped;

/// An attack with its figure.
#[derive(Clone, Debug, PartialEq)]
pub struct Attack {
    /// Its name.
    pub name: String,
    /// Net points in 20 possessions with the ends of the interval.
    pub figure: String,
}

/// One position.
#[derive(Clone, Debug, PartialEq)]
pub struct Position {
    /// Number, from 1.
    pub number: usize,
    /// Its name.
    pub name: String,
    /// First look: to whom, how often, how safely.
    pub first: String,
    /// Second look.
    pub second: String,
    /// Open looks that he takes.
    pub own: String,
    /// What he is to do.
    pub duties: Vec<String>,
    /// Picture of his card.
    pub picture: String,
}

/// A picture with its caption.
#[derive(Clone, Debug, PartialEq)]
pub struct Shown {
    /// The SVG, whole.
    pub svg: String,
    /// What it shows.
    pub caption: &'static str,
}

/// Everything on the sheet and the cards.
#[derive(Clone, Debug, PartialEq)]
pub struct Sheet {
    /// The question.
    pub title: String,
    /// Seed, possessions, ranking.
    pub facts: String,
    /// The best, and the second.
    pub attacks: Vec<Attack>,
    /// Which of them, or that it is a toss-up.
    pub verdict: String,
    /// If-then calls.
    pub calls: Vec<Call>,
    /// On what they rest, and what gaining means.
    pub tried: String,
    /// Why there are none.
    pub no_calls: String,
    /// The positions.
    pub positions: Vec<Position>,
    /// Starting places.
    pub start: Shown,
    /// Three stills.
    pub stills: Vec<Shown>,
    /// How sure the gains, losses and leads of the calls are; empty where there are none.
    pub sure: &'static str,
    /// The command that makes the result again.
    pub command: String,
    /// The usual note.
    pub note: &'static str,
}

impl Sheet {
    /// The sheet of a result.
    ///
    /// # Errors
    /// The result lacks something.
    pub fn new(results: &Results) -> Result<Self, Error> {
        let (made, best) = (&results.made, &results.best);
        let Some(first) = best.first() else {
            return Err(Error::Option("best_by_net.csv has no row; make the result again".into()));
        };
        let leader = first.variant.as_str();
        // The best, and those too close to it to call.
        let ahead = best.iter().enumerate().filter(|(nth, line)| *nth == 0 || !line.settled);
        let above: Vec<&str> = ahead.map(|(_, line)| line.variant.as_str()).collect();
        let calls = calls(Source {
            calls: &results.calls,
            answers: &results.answers,
            above: &above,
            baseline: &made.baseline,
        });
        Ok(Self {
            title: made.question.clone(),
            facts: facts(results),
            attacks: best.iter().take(2).map(attack).collect(),
            verdict: verdict(best),
            tried: results.calls.first().map_or_else(String::new, |line| tried(line, &calls, &made.baseline)),
            no_calls: if calls.is_empty() { no_calls(results).to_owned() } else { String::new() },
            sure: if gained(&calls) { SURE } else { "" },
            calls,
            positions: positions(results, leader)?,
            start: shown(results, "sheet-start", "Where everyone starts, the rover's side on the right.")?,
            stills: stills(results, leader),
            command: made.command.clone(),
            note: NOTE,
        })
    }

    /// The attack that the pictures and cards are of.
    pub fn leader(&self) -> &str {
        self.attacks.first().map_or("", |attack| attack.name.as_str())
    }
}

/// Seed, possessions, ranking.
fn facts(results: &Results) -> String {
    let made = &results.made;
    let ranked = Column::named(&made.rank_by).map_or(made.rank_by.as_str(), |column| column.words);
    let by = if made.rank_by == super::NET { String::new() } else { format!("; the run ranked by {ranked}") };
    format!(
        "{} possessions of each of {} attacks, seed {}. Ranked here by net points: expected points less what the \
         break costs{by}.",
        grouped(made.possessions),
        results.best.len(),
        made.seed
    )
}

fn no_calls(results: &Results) -> &'static str {
    if results.made.command.starts_with("zoneprobe simulate") {
        "One matchup was played; `zoneprobe compare` plays it under each of the zone's help rules, too."
    } else {
        "The help rules are among what is compared, or this zone has none: no calls are drawn from them."
    }
}

/// Said once, at the foot of the sheet.
const SURE: &str = "All gains, losses and leads on this page are right together in about 19 of 20 such runs.";

/// Whether the calls say who gains and who loses.
fn gained(calls: &[Call]) -> bool {
    calls.iter().any(|call| !call.gains.is_empty())
}

/// On what the calls rest.
fn tried(line: &CallLine, calls: &[Call], baseline: &str) -> String {
    let gains = if gained(calls) {
        format!(
            " Gains, loses: an attack's lead over {baseline} is larger or smaller than under the zone's other rules, \
             by so much. Ahead, behind: the lead itself. What is not named is too close to call."
        )
    } else {
        String::new()
    };
    format!("Played again under each rule, {} possessions each.{gains}", grouped(line.possessions))
}

fn attack(line: &BestLine) -> Attack {
    let figure = match (line.expected_net_points.0, line.low.0, line.high.0) {
        (Some(net), Some(low), Some(high)) => {
            format!("{} ({} to {})", in_twenty(net), in_twenty(low), in_twenty(high))
        }
        _ => "no data".into(),
    };
    Attack { name: line.variant.clone(), figure }
}

/// Which attack, by the interval that holds safe for all comparisons at once.
fn verdict(best: &[BestLine]) -> String {
    let [first, second, ..] = best else {
        return "Only this one was played.".into();
    };
    let (a, b) = (&first.variant, &second.variant);
    let gap = (second.lead.0, second.lead_together_low.0, second.lead_together_high.0);
    let (Some(lead), Some(low), Some(high)) = gap else {
        return "There are too few possessions to compare the two.".into();
    };
    let range = format!(
        "{} ({} to {}, safe for all comparisons at once)",
        in_twenty(lead),
        in_twenty(low),
        in_twenty(high)
    );
    if second.settled {
        format!("Run {a}: it is ahead of {b} by {range} in 20 possessions.")
    } else {
        let others = best.iter().skip(2).filter(|line| !line.settled).count();
        let more = match others {
            0 => String::new(),
            1 => " One more is too close to call.".into(),
            count => format!(" {count} more are too close to call."),
        };
        format!(
            "Toss-up: {a} and {b} are too close to call, {range} in 20. Run what your players run better.{more}"
        )
    }
}

fn positions(results: &Results, leader: &str) -> Result<Vec<Position>, Error> {
    let of = |role: usize| {
        let key = ATTACKERS[role];
        let line = results.positions.iter().find(|line| line.variant == leader && line.position == key);
        let [first, second] = line.map_or_else(Default::default, looks);
        let open = line.and_then(|line| line.open_looks_per_100.0);
        let duties = results.duties.iter().filter(|line| line.variant == leader && line.position == key);
        let name = if key == "rover-side-post" { "post, rover's side".into() } else { key.replace('-', " ") };
        Ok(Position {
            number: role + 1,
            name,
            first,
            second,
            own: open.map_or_else(String::new, |open| format!("{open:.0} in 100")),
            duties: own_duties(duties),
            picture: drawn(results, &format!("sheet-card-{}", role + 1))?.to_owned(),
        })
    };
    (0..ATTACKERS.len()).map(of).collect()
}

/// First and second look.
fn looks(line: &PositionLine) -> [String; 2] {
    let first = (&line.first_look, line.first_per_100, line.first_caught_share);
    let second = (&line.second_look, line.second_per_100, line.second_caught_share);
    [first, second].map(|(to, often, safe)| {
        if to.is_empty() {
            return "none".into();
        }
        let (often, safe) = (often.0.unwrap_or(0.0), 100.0 * safe.0.unwrap_or(0.0));
        format!("{} ({often:.0} in 100, {safe:.0} % caught)", position_words(to))
    })
}

/// Duties of a position; those of options say how often.
fn own_duties<'r>(lines: impl Iterator<Item = &'r DutyLine>) -> Vec<String> {
    let mut words: Vec<String> = lines
        .map(|line| {
            let share = line.share_of_chances.0;
            let often = if share < 0.995 {
                format!(" (about {:.0} times in 100)", 100.0 * share)
            } else {
                String::new()
            };
            format!("{}{often}", line.duty)
        })
        .collect();
    words.dedup();
    if words.is_empty() {
        words.push("Keep your place, show for the pass, and move it on.".into());
    }
    words
}

fn drawn<'r>(results: &'r Results, id: &str) -> Result<&'r str, Error> {
    results.picture(id).ok_or_else(|| {
        Error::Option(format!(
            "the result has no picture {id}; make it again with\n  {}",
            results.made.command
        ))
    })
}

fn shown(results: &Results, id: &str, caption: &'static str) -> Result<Shown, Error> {
    Ok(Shown { svg: drawn(results, id)?.to_owned(), caption })
}

fn stills(results: &Results, leader: &str) -> Vec<Shown> {
    let routed = results.paths.iter().any(|line| line.variant == leader);
    let way = if routed { "The route as it was run." } else { "Who passes to whom." };
    let all = [
        ("sheet-route", way),
        ("sheet-moment", "The decisive moment of its typical possession of the first 256."),
        ("sheet-looks", "Where its open looks come from."),
    ];
    all.into_iter()
        .filter_map(|(id, caption)| Some(Shown { svg: results.picture(id)?.to_owned(), caption }))
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn line(variant: &str, lead: f64, low: f64, high: f64) -> BestLine {
        BestLine {
            variant: variant.into(),
            lead: lead.into(),
            lead_together_low: low.into(),
            lead_together_high: high.into(),
            settled: low > 0.0,
            ..BestLine::default()
        }
    }

    #[test]
    fn a_gap_that_holds_is_a_verdict_and_one_that_does_not_is_a_toss_up() {
        let first = BestLine { variant: "run".into(), ..BestLine::default() };
        let clear = [first, line("sit", 0.05, 0.02, 0.08)];
        assert_eq!(
            verdict(&clear),
            "Run run: it is ahead of sit by 1.0 (0.4 to 1.6, safe for all comparisons at once) in 20 possessions."
        );
        let open = [clear[0].clone(), line("sit", 0.02, -0.01, 0.05), line("loop", 0.03, -0.01, 0.07)];
        assert_eq!(
            verdict(&open),
            "Toss-up: run and sit are too close to call, 0.4 (\u{2212}0.2 to 1.0, safe for all comparisons at once) in 20. Run what \
             your players run better. One more is too close to call."
        );
        assert_eq!(verdict(&clear[..1]), "Only this one was played.");
    }

    #[test]
    fn a_position_without_a_program_has_a_duty_all_the_same() {
        assert_eq!(own_duties([].iter()), ["Keep your place, show for the pass, and move it on."]);
        let option = DutyLine {
            duty: "Sprint.".into(),
            share_of_chances: crate::output::Hundredths(0.5),
            ..DutyLine::default()
        };
        assert_eq!(own_duties([option].iter()), ["Sprint. (about 50 times in 100)"]);
    }
}
