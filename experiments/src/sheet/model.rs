//! What stands on the sheet and on the cards, before anything is laid out.

use super::calls::{Call, Source, calls};
use super::results::{Results, Row, number, text};
use super::words::in_twenty;
use crate::columns::Column;
use crate::error::Error;
use crate::note::NOTE;
use crate::places::{ATTACKERS, position_words};
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
    /// The command that makes the result again.
    pub command: String,
    /// The usual note.
    pub note: &'static str,
}

impl Sheet {
    /// The sheet of a result.
    ///
    /// # Errors
    /// The folder lacks something.
    pub fn new(results: &Results) -> Result<Self, Error> {
        let made = &results.made;
        let best = results.rows("best_by_net.csv")?;
        let Some(first) = best.first() else {
            return Err(Error::Option("best_by_net.csv has no row; make the result again".into()));
        };
        let attacks: Vec<Attack> = best.iter().take(2).map(attack).collect();
        let called = if results.has("calls.csv") { results.rows("calls.csv")? } else { Vec::new() };
        let (calls, no_calls) = if called.is_empty() {
            (Vec::new(), no_calls(results).to_owned())
        } else {
            // The best, and those that cannot be told from it.
            let ahead =
                best.iter().enumerate().filter(|(nth, row)| *nth == 0 || text(row, "settled") == "false");
            let above: Vec<&str> = ahead.map(|(_, row)| text(row, "variant")).collect();
            let answers = results.rows("answers.csv")?;
            let baseline = &made.baseline;
            (calls(Source { calls: &called, answers: &answers, above: &above, baseline }), String::new())
        };
        let tried = called.first().map_or_else(String::new, |row| tried(row, &calls, &made.baseline));
        let leader = text(first, "variant").to_owned();
        let ranked = Column::named(&made.rank_by).map_or(made.rank_by.as_str(), |column| column.words);
        let by =
            if made.rank_by == super::NET { String::new() } else { format!("; the run ranked by {ranked}") };
        Ok(Self {
            title: made.question.clone(),
            facts: format!(
                "{} possessions of each of {} attacks, seed {}. Ranked here by net points: expected points less \
                 what the break costs{by}.",
                grouped(made.possessions),
                best.len(),
                made.seed
            ),
            verdict: verdict(&best),
            attacks,
            calls,
            tried,
            no_calls,
            positions: positions(results, &leader)?,
            start: shown(results, "sheet-start", "Where everyone starts, the rover's side on the right.")?,
            stills: stills(results, &leader)?,
            command: made.command.clone(),
            note: NOTE,
        })
    }

    /// The attack that the pictures and cards are of.
    pub fn leader(&self) -> &str {
        self.attacks.first().map_or("", |attack| attack.name.as_str())
    }
}

fn no_calls(results: &Results) -> &'static str {
    if results.made.command.starts_with("zoneprobe simulate") {
        "One matchup was played; `zoneprobe compare` plays it under each of the zone's help rules, too."
    } else {
        "The help rules are among the variants compared, or this zone has none: no calls are drawn from them."
    }
}

/// On what the calls rest.
fn tried(row: &Row, calls: &[Call], baseline: &str) -> String {
    let possessions = number(row, "possessions").map_or_else(String::new, |n| grouped(n as u64));
    let gains = if calls.iter().any(|call| !call.gains.is_empty()) {
        format!(
            " Gains, loses: an attack's lead over {baseline} is larger or smaller than against the zone's other answers, \
             by so much. Ahead, behind: the lead itself. All of it is right together 19 times in 20; what is not named \
             cannot be told."
        )
    } else {
        String::new()
    };
    format!("Played again under each answer, {possessions} possessions each.{gains}")
}

fn attack(row: &Row) -> Attack {
    let ends = (number(row, "low"), number(row, "high"));
    let figure = match (number(row, super::NET), ends) {
        (Some(net), (Some(low), Some(high))) => {
            format!("{} ({} to {})", in_twenty(net), in_twenty(low), in_twenty(high))
        }
        _ => "no data".into(),
    };
    Attack { name: text(row, "variant").into(), figure }
}

/// Which attack, by the interval that holds for all pairs together.
fn verdict(best: &[Row]) -> String {
    let [first, second, ..] = best else {
        return "Only this one was played.".into();
    };
    let (a, b) = (text(first, "variant"), text(second, "variant"));
    let gap =
        (number(second, "lead"), number(second, "lead_together_low"), number(second, "lead_together_high"));
    let (Some(lead), Some(low), Some(high)) = gap else {
        return "There are too few possessions to compare the two.".into();
    };
    let range =
        format!("{} ({} to {}, for all pairs together)", in_twenty(lead), in_twenty(low), in_twenty(high));
    if text(second, "settled") == "true" {
        format!("Run {a}: it is ahead of {b} by {range} in 20 possessions.")
    } else {
        let others = best.iter().skip(2).filter(|row| text(row, "settled") == "false").count();
        let more = match others {
            0 => String::new(),
            1 => " One more cannot be told from the first.".into(),
            count => format!(" {count} more cannot be told from the first."),
        };
        format!(
            "Toss-up: {a} and {b} cannot be told apart, {range} in 20. Run what your players run better.{more}"
        )
    }
}

fn positions(results: &Results, leader: &str) -> Result<Vec<Position>, Error> {
    let rows = results.rows("positions.csv")?;
    let duties = results.rows("duties.csv")?;
    let of = |role: usize| {
        let key = ATTACKERS[role];
        let own = |row: &&Row| text(row, "variant") == leader && text(row, "position") == key;
        let row = rows.iter().find(own);
        let look = |nth: &str| row.map_or_else(String::new, |row| look(row, nth));
        let looks = row.and_then(|row| number(row, "open_looks_per_100"));
        let name = if key == "rover-side-post" { "post, rover's side".into() } else { key.replace('-', " ") };
        Ok(Position {
            number: role + 1,
            name,
            first: look("first"),
            second: look("second"),
            own: looks.map_or_else(String::new, |looks| format!("{looks:.0} in 100")),
            duties: own_duties(duties.iter().filter(own)),
            picture: results.text(&format!("pictures/sheet-card-{}.svg", role + 1))?,
        })
    };
    (0..ATTACKERS.len()).map(of).collect()
}

fn look(row: &Row, nth: &str) -> String {
    let to = text(row, &format!("{nth}_look"));
    if to.is_empty() {
        return "none".into();
    }
    let (often, safe) = (number(row, &format!("{nth}_per_100")), number(row, &format!("{nth}_caught_share")));
    let words = position_words(to);
    format!("{words} ({:.0} in 100, {:.0} % caught)", often.unwrap_or(0.0), 100.0 * safe.unwrap_or(0.0))
}

/// Duties of a position; those of options say how often.
fn own_duties<'r>(rows: impl Iterator<Item = &'r Row>) -> Vec<String> {
    let mut words: Vec<String> = rows
        .map(|row| {
            let often = number(row, "share_of_chances").filter(|share| *share < 0.995);
            let often =
                often.map_or_else(String::new, |share| format!(" (about {:.0} times in 100)", 100.0 * share));
            format!("{}{often}", text(row, "duty"))
        })
        .collect();
    words.dedup();
    if words.is_empty() {
        words.push("Keep your place, show for the pass, and move it on.".into());
    }
    words
}

fn shown(results: &Results, id: &str, caption: &'static str) -> Result<Shown, Error> {
    Ok(Shown { svg: results.text(&format!("pictures/{id}.svg"))?, caption })
}

fn stills(results: &Results, leader: &str) -> Result<Vec<Shown>, Error> {
    let routed = results.rows("paths.csv")?.iter().any(|row| text(row, "variant") == leader);
    let way = if routed { "The route as it was run." } else { "Who passes to whom." };
    let all = [
        ("sheet-route", way),
        ("sheet-moment", "The decisive moment of its middling possession of the first 256."),
        ("sheet-looks", "Where its open looks come from."),
    ];
    all.into_iter()
        .filter(|(id, _)| results.has(&format!("pictures/{id}.svg")))
        .map(|(id, caption)| shown(results, id, caption))
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn row(variant: &str, lead: f64, low: f64, high: f64) -> Row {
        let settled = (low > 0.0).to_string();
        [
            ("variant", variant.to_owned()),
            ("lead", lead.to_string()),
            ("lead_together_low", low.to_string()),
            ("lead_together_high", high.to_string()),
            ("settled", settled),
        ]
        .into_iter()
        .map(|(key, value)| (key.to_owned(), value))
        .collect()
    }

    #[test]
    fn a_gap_that_holds_is_a_verdict_and_one_that_does_not_is_a_toss_up() {
        let clear = [Row::from([("variant".into(), "run".into())]), row("sit", 0.05, 0.02, 0.08)];
        assert_eq!(
            verdict(&clear),
            "Run run: it is ahead of sit by 1.0 (0.4 to 1.6, for all pairs together) in 20 possessions."
        );
        let open = [clear[0].clone(), row("sit", 0.02, -0.01, 0.05), row("loop", 0.03, -0.01, 0.07)];
        assert_eq!(
            verdict(&open),
            "Toss-up: run and sit cannot be told apart, 0.4 (\u{2212}0.2 to 1.0, for all pairs together) in 20. Run what \
             your players run better. One more cannot be told from the first."
        );
        assert_eq!(verdict(&clear[..1]), "Only this one was played.");
    }

    #[test]
    fn a_position_without_a_program_has_a_duty_all_the_same() {
        assert_eq!(own_duties([].iter()), ["Keep your place, show for the pass, and move it on."]);
        let option =
            Row::from([("duty".into(), "Sprint.".into()), ("share_of_chances".into(), "0.50".into())]);
        assert_eq!(own_duties([option].iter()), ["Sprint. (about 50 times in 100)"]);
    }
}
