//! What stands on the sheet and on the cards, before anything is laid out.

use super::ball::with_the_ball;
use super::calls::{Call, Source, calls};
use super::results::Results;
use super::tables::DutyLine;
use crate::error::Error;
use crate::note::NOTE;
use crate::places::{ATTACKERS, CallLine, position_words};
use crate::verdict::{Differ, Ran, VERDICT};
use crate::wording::grouped;

/// One position.
#[derive(Clone, Debug, PartialEq)]
pub struct Position {
    /// Number, from 1.
    pub number: usize,
    /// Its name.
    pub name: String,
    /// What he does with the ball, a sentence a place.
    pub ball: Vec<String>,
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

/// What a leader is.
#[derive(Clone, Debug, PartialEq)]
pub struct Leader {
    /// Its name.
    pub name: String,
    /// What it is in words; empty where its files have none.
    pub words: String,
    /// The way it goes, an SVG; empty where none was drawn.
    pub way: String,
}

/// A leader as it was played.
#[derive(Clone, Debug, PartialEq)]
pub struct Drawn {
    /// Its name.
    pub name: String,
    /// Its route or passes, its decisive moment, its open looks.
    pub stills: Vec<Shown>,
}

/// Everything on the sheet and the cards.
#[derive(Clone, Debug, PartialEq)]
pub struct Sheet {
    /// The question.
    pub title: String,
    /// Seed and possessions.
    pub facts: String,
    /// What the first part is about: what to run, or what is met.
    pub heading: &'static str,
    /// The verdict, a sentence an entry.
    pub claims: Vec<String>,
    /// The leaders: what each is.
    pub leaders: Vec<Leader>,
    /// How often they were run.
    pub runs: Vec<String>,
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
    /// The leaders as they were played, the one that the cards are of first.
    pub drawn: Vec<Drawn>,
    /// Open looks by position.
    pub open_looks: String,
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
        let (made, verdict) = (&results.made, &results.verdict);
        let Some(leader) = verdict.main() else {
            return Err(Error::Option(format!("{VERDICT} names no leader; make the result again")));
        };
        let above: Vec<&str> = verdict.net().into_iter().flat_map(|net| net.contenders()).collect();
        let usual = results.runs.iter().filter(|line| line.often().is_usual());
        let calls = calls(Source {
            calls: &results.calls,
            answers: &results.answers,
            above: &above,
            usual: &usual.map(|line| (line.variant.as_str(), line.name.as_str())).collect::<Vec<_>>(),
            baseline: &made.baseline,
        });
        Ok(Self {
            title: made.question.clone(),
            facts: facts(results),
            heading: if verdict.differ == Differ::Choices { "What to run" } else { "What you meet" },
            claims: verdict.claims(),
            leaders: leaders(results),
            runs: verdict.runs(),
            tried: results.calls.first().map_or_else(String::new, |line| tried(line, &calls, &made.baseline)),
            no_calls: if calls.is_empty() { no_calls(results).to_owned() } else { String::new() },
            sure: if gained(&calls) { SURE } else { "" },
            calls,
            positions: positions(results, leader)?,
            start: shown(results, "sheet-start", "Where everyone starts, the rover's side on the right.")?,
            drawn: drawn_leaders(results, leader),
            open_looks: open_looks(results, leader),
            command: made.command.clone(),
            note: NOTE,
        })
    }

    /// The attack that the cards are of.
    pub fn leader(&self) -> &str {
        self.drawn.first().map_or("", |drawn| drawn.name.as_str())
    }
}

/// Seed and possessions.
fn facts(results: &Results) -> String {
    let (made, compared) = (&results.made, results.verdict.variants.len());
    let each = if compared == 1 {
        String::new()
    } else {
        format!(" of each of {compared} {}s", results.verdict.noun)
    };
    format!(
        "{} possessions{each}, seed {}. Net points: expected points less what the break costs.",
        grouped(made.possessions),
        made.seed
    )
}

/// What the leaders are.
fn leaders(results: &Results) -> Vec<Leader> {
    let verdict = &results.verdict;
    let ran = verdict.leaders().into_iter().filter_map(|leader| verdict.ran(leader));
    let leader = |ran: &Ran| Leader {
        name: ran.variant.clone(),
        words: ran.words.clone(),
        way: results.picture(&ran.picture).unwrap_or_default().to_owned(),
    };
    ran.map(leader).collect()
}

fn no_calls(results: &Results) -> &'static str {
    if results.made.command.starts_with("zoneprobe simulate") {
        "One matchup was played; `zoneprobe compare` plays it under each of the zone's help rules, too."
    } else {
        "What is met is among what is compared, or this zone has no help rules: no calls are drawn from them."
    }
}

/// What the choices are, at the foot of sheet and cards.
pub(super) const CHOICES: &str = "With the ball: the choices of each place by what the possessions came to in which they were made \
                                  there (expected points, choices.csv), best first; what was clearly worth less than the \
                                  average of the place, or hardly ever done, is left out. Open: nobody within 1.22 m (4 ft).";

/// Of a position that has no choice worth telling.
pub(super) const SELDOM: &str = "You have it too seldom to say: move it on.";

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

fn positions(results: &Results, leader: &str) -> Result<Vec<Position>, Error> {
    let of = |role: usize| {
        let key = ATTACKERS[role];
        let choices = results.choices.iter().filter(|line| line.variant == leader && line.position == key);
        let duties = results.duties.iter().filter(|line| line.variant == leader && line.position == key);
        let name = if key == "rover-side-post" { "post, rover's side".into() } else { key.replace('-', " ") };
        Ok(Position {
            number: role + 1,
            name,
            ball: with_the_ball(choices),
            duties: own_duties(duties),
            picture: drawn(results, &format!("sheet-card-{}", role + 1))?.to_owned(),
        })
    };
    (0..ATTACKERS.len()).map(of).collect()
}

/// Open looks by position, told at the foot.
fn open_looks(results: &Results, leader: &str) -> String {
    let own = results.positions.iter().filter(|line| line.variant == leader);
    let told = own.filter_map(|line| Some((position_words(&line.position), line.open_looks_per_100.0?)));
    let told: Vec<String> = told.map(|(name, often)| format!("{name} {often:.0}")).collect();
    format!("Open looks in 100 possessions: {}.", told.join(", "))
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

/// The pictures of the leaders, that of the cards first.
fn drawn_leaders(results: &Results, main: &str) -> Vec<Drawn> {
    let others = results.verdict.headlines.iter().map(|own| own.variant.as_str()).filter(|own| *own != main);
    let mut all = vec![(main, "sheet")];
    all.extend(others.take(1).map(|other| (other, "sheet-other")));
    let of =
        |(name, prefix): (&str, &str)| Drawn { name: name.to_owned(), stills: stills(results, name, prefix) };
    all.into_iter().map(of).collect()
}

fn stills(results: &Results, leader: &str, prefix: &str) -> Vec<Shown> {
    let routed = results.paths.iter().any(|line| line.variant == leader);
    let way = if routed { "The route as it was run." } else { "Who passes to whom." };
    let all = [
        ("route", way),
        ("moment", "The decisive moment of its typical possession of the first 256."),
        ("looks", "Where its open looks come from."),
    ];
    let shown = |(part, caption)| {
        Some(Shown { svg: results.picture(&format!("{prefix}-{part}"))?.to_owned(), caption })
    };
    all.into_iter().filter_map(shown).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

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
