//! What stands on the sheet and on the cards, before anything is laid out.

use super::ball::{WITHIN, guarded_shots, passes_at, with_the_ball};
use super::calls::{Call, Source, behind_besides, calls};
use super::costs::costs;
use super::lesson::teach_first;
use super::named::{also, leaders};
use super::ranked::{Ranked, ranked};
use super::results::Results;
use super::tables::DutyLine;
use super::told::{average, how_sure, looks, looks_told, marks, of_which, standing, terms};
use crate::duties::{SETS_OFF, SHOT_UP};
use crate::error::Error;
use crate::gains::{self, NONE_DIFFERS};
use crate::looks::GOOD_LOOK;
use crate::note::NOTE;
use crate::picture::{SHOT_BY, SHOWS_RUN};
use crate::places::{ATTACKERS, CallLine, ChoiceLine, position_words};
use crate::units::Units;
use crate::verdict::{Differ, Headline, VERDICT, Verdict};
use crate::wording::{TWENTY, capital, grouped};
use scenarios::shown;

/// One position.
#[derive(Clone, Debug, PartialEq)]
pub struct Position {
    /// Number, from 1.
    pub number: usize,
    /// Its name, with that of who plays it.
    pub name: String,
    /// What is known of his shooting; empty where nothing is.
    pub known: String,
    /// What he does with the ball, a sentence a place.
    pub ball: Vec<String>,
    /// What he is to do, as his card tells it.
    pub duties: Vec<String>,
    /// The same as the sheet tells it.
    pub in_short: Vec<String>,
    /// What the lines of his card's picture are.
    pub marks: String,
    /// The words of his jobs.
    pub terms: String,
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
    /// Its way or its passes, its decisive moment, its good or open looks by place.
    pub stills: Vec<Shown>,
}

/// Everything on the sheet and the cards.
#[derive(Clone, Debug, PartialEq)]
pub struct Sheet {
    /// The question.
    pub title: String,
    /// Against whom and when, as it was said; empty where nothing was.
    pub game: String,
    /// So many possessions, and what net points are.
    pub facts: String,
    /// The words of the jobs.
    pub terms: String,
    /// How sure it is that the attack of the cards is the one to run; empty where that is clear.
    pub standing: String,
    /// What the first part is about: what to run, or what is met.
    pub heading: &'static str,
    /// What to do, or what is met, a sentence an entry.
    pub claims: Vec<String>,
    /// What to teach first; empty where nothing stands out, or nothing is taught.
    pub lesson: String,
    /// The figures on which that rests, where it is an advice.
    pub grounds: Vec<String>,
    /// The leaders, and what is clearly behind: what each is.
    pub leaders: Vec<Leader>,
    /// How far the first is from the one compared with and from the second; empty of what is met.
    pub how_sure: String,
    /// How often the leaders were run.
    pub runs: Vec<String>,
    /// Of which attack the cards are; empty where there is one alone.
    pub of_which: String,
    /// What else is named on the sheet, in words; empty where nothing is.
    pub also: String,
    /// What they cost; empty where that is not known.
    pub costs: String,
    /// What of it is more than luck, in a line; empty where that is not known.
    pub clear_costs: String,
    /// If-then calls.
    pub calls: Vec<Call>,
    /// On what they rest, and what gaining means, where anything gains.
    pub tried: String,
    /// Why there are none.
    pub no_calls: String,
    /// The positions.
    pub positions: Vec<Position>,
    /// Starting places.
    pub start: Shown,
    /// What the places are called, an SVG; empty in a result that was made before there was any.
    pub places: String,
    /// The leaders as they were played, the one that the cards are of first.
    pub drawn: Vec<Drawn>,
    /// Who plays where, and what is known of their shooting; empty where nobody is known by himself.
    pub players: String,
    /// All that was compared, best first.
    pub ranked: Ranked,
    /// Whose the good looks are, and the open ones.
    pub looks: String,
    /// How sure the gains, losses and leads of the calls are; empty where there are none.
    pub sure: &'static str,
    /// What the choices with the ball are.
    pub choices: String,
    /// The command that makes the result again.
    pub command: String,
    /// The usual note.
    pub note: &'static str,
}

/// What is said of a game besides its result.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Game {
    /// The opponent's name.
    pub opponent: Option<String>,
    /// The day, as it is told.
    pub date: Option<String>,
}

impl Game {
    /// `Against the north end, 2026-12-04`; empty where nothing was said.
    fn told(&self) -> String {
        let against = self.opponent.as_ref().map(|name| format!("Against {}", shown(name)));
        against.into_iter().chain(self.date.clone()).collect::<Vec<_>>().join(", ")
    }
}

impl Sheet {
    /// The sheet of a result for a game; lengths are told as the result tells them, if not otherwise asked for.
    ///
    /// # Errors
    /// The result lacks something.
    pub fn new(results: Results, units: Option<Units>, game: &Game) -> Result<Self, Error> {
        let units = units.unwrap_or(results.made.units);
        let results = &results.told_in(units);
        let (made, verdict) = (&results.made, &results.verdict);
        let Some(leader) = verdict.main() else {
            return Err(Error::Option(format!("{VERDICT} names no leader; make the result again")));
        };
        let against = verdict.advised_against();
        let is_clear = |own: &&Headline| verdict.differ == Differ::Choices && own.is_clear();
        let clear: Vec<(&str, &'static str)> = verdict
            .headlines
            .iter()
            .filter(is_clear)
            .map(|own| (own.leader.as_str(), own.column.words.trim_start_matches("expected ")))
            .collect();
        let ranked_by: Vec<&str> = verdict.headlines.iter().map(|own| own.column.key).collect();
        let source = Source {
            calls: &results.calls,
            answers: &results.answers,
            main: leader,
            baseline: &made.baseline,
            against: &against,
            clear: &clear,
            ranked_by: &ranked_by,
        };
        let calls = calls(source);
        let besides = if verdict.differ == Differ::Choices { behind_besides(source) } else { Vec::new() };
        let positions = positions(results, leader, units)?;
        let (leaders, runs) = (leaders(results, &besides), verdict.runs());
        let advised = verdict.advised().map(|advice| vec![advice + &gains::behind(&besides)]);
        let (claims, grounds) = (advised.unwrap_or_else(|| verdict.claims()), grounds(verdict));
        let said =
            calls.iter().map(|call| call.when.clone()).chain(leaders.iter().map(|own| own.words.clone()));
        let said: Vec<String> = said.collect();
        let [costs, clear_costs] = costs(verdict, leader, &results.measured, &results.differences);
        let called = calls.iter().flat_map(|call| [&call.run, &call.look].into_iter().chain(&call.gains));
        let all = claims.iter().chain(&grounds).chain(&runs).chain([&costs]).chain(called);
        let ranked = ranked(verdict, &results.measured);
        let all = all.chain(ranked.rows.iter().flatten());
        let also = also(verdict, &leaders, &all.map(String::as_str).collect::<Vec<_>>());
        Ok(Self {
            title: units.retold(&made.question).into_owned(),
            game: game.told(),
            facts: facts(results),
            heading: if verdict.differ == Differ::Choices { "What to run" } else { "What you meet" },
            claims,
            lesson: teach_first(results, leader),
            grounds,
            leaders,
            runs,
            of_which: of_which(verdict, leader),
            how_sure: how_sure(verdict),
            also,
            costs,
            clear_costs,
            terms: looks_told(
                units,
                positions.iter().flat_map(|own| &own.ball).any(|line| line.contains(WITHIN)),
            ) + &terms(
                units,
                positions.iter().flat_map(|own| own.in_short.iter().chain(&own.ball)).chain(&said),
            ),
            standing: standing(verdict, leader),
            tried: results.calls.first().map_or_else(String::new, |line| tried(line, &calls, &made.baseline)),
            no_calls: if calls.is_empty() { no_calls(results).to_owned() } else { String::new() },
            sure: if gained(&calls) { SURE } else { "" },
            calls,
            players: players(&positions),
            positions,
            start: drawn_with(
                results,
                "sheet-start",
                "The rover's side on the right. Every possession starts so, or mirrored.",
            )?,
            places: results.picture("sheet-places").unwrap_or_default().to_owned(),
            drawn: drawn_leaders(results, leader),
            ranked,
            looks: looks(results, leader),
            choices: choices(results, leader),
            command: made.command.clone(),
            note: NOTE,
        })
    }

    /// What the coach's own field is headed with: the attack, why it is that one, and the game.
    pub fn call(&self) -> String {
        format!("{}{}{}", self.attack(), self.standing, self.and_game())
    }

    /// What each player's card is headed with: the attack, as an example where it is not the one to run, and the game.
    pub fn card_call(&self) -> String {
        self.attack() + &self.and_game()
    }

    fn attack(&self) -> String {
        let as_one = if self.standing.is_empty() { "Attack" } else { "Attack, as an example" };
        format!("{as_one}: {}", self.leader())
    }

    fn and_game(&self) -> String {
        if self.game.is_empty() { String::new() } else { format!(" \u{b7} {}", self.game) }
    }

    /// The attack that the cards are of.
    pub fn leader(&self) -> &str {
        self.drawn.first().map_or("", |drawn| drawn.name.as_str())
    }
}

/// After the pass with which a run begins, which does not begin in every possession.
const AFTER_FIRST: &str = " All else: once he has run, or when he stays.";

/// All claims but the advice that follows from them.
fn grounds(verdict: &Verdict) -> Vec<String> {
    let Some(advice) = verdict.advised() else { return Vec::new() };
    let claims = verdict.claims().into_iter().filter(|claim| *claim != advice);
    let choice = verdict.selection.as_ref().map(|selection| selection.choice(&verdict.noun));
    choice.into_iter().chain(claims).chain([GOOD_LOOK, INTERVAL].map(str::to_owned)).collect()
}

/// So many possessions, and what net points are.
fn facts(results: &Results) -> String {
    let (made, compared) = (&results.made, results.verdict.variants.len());
    let each = if compared == 1 {
        String::new()
    } else {
        format!(" of each of {compared} {}s", results.verdict.noun)
    };
    format!(
        "{} possessions{each}, played by a computer. Net points: expected points less those of the opponents' fast break.",
        grouped(made.possessions)
    )
}

fn no_calls(results: &Results) -> &'static str {
    if results.made.command.starts_with("zoneprobe simulate") {
        "One matchup was played; `zoneprobe compare` plays it under each of the zone's help rules, too."
    } else {
        "What is met is among what is compared, or this zone has no help rules: no calls are drawn from them."
    }
}

/// What the choices are, at the foot of the sheet, and what guarded shots came to.
fn choices(results: &Results, leader: &str) -> String {
    let average = average(results, leader);
    let average = average.map_or_else(String::new, |points| format!(" (all possessions: {points:.2})"));
    let own: Vec<&ChoiceLine> = results.choices.iter().filter(|line| line.variant == leader).collect();
    let ends = |position: &str| -> Vec<&str> {
        let own = results.duties.iter().filter(|line| line.variant == leader && line.position == position);
        own.map(|line| line.ends_at.as_str()).filter(|place| !place.is_empty()).collect()
    };
    let guarded = guarded_shots(&own, ends);
    let guarded = if guarded.is_empty() {
        String::new()
    } else {
        format!("Guarded shots, points of a whole possession with one{average}: {}. ", guarded.join("; "))
    };
    format!(
        "{guarded}With the ball: for every place it was counted what the possessions came to in which he shot there, drove, or passed to this \
         man or that; the choice that came to most stands first. Not told: what came to clearly less than the rest or was hardly \
         ever done; a guarded shot that came to less than all possessions, if there is a pass or a drive; more than four \
         places. Where he had the ball most a pass is always told. It was not counted whether a man was covered or a way open, \
         and another question, with other runs, may give other orders."
    )
}

/// The head of the calls: another sheet is about other attacks, against which the same help may do other things.
pub(super) const ADJUSTED: &str = "What they do, and what to call (for the attacks of this sheet)";

/// The head of what each position does with the ball.
pub(super) const BALL: &str = "With the ball: what to do first at each place";

/// Of a position that has no choice worth telling.
pub(super) const SELDOM: &str = "You have it too seldom to say: move it on.";

/// Said once, at the foot of the sheet.
const SURE: &str = "What is said here to be ahead, behind, to gain or to lose is right, all of it together, in about 19 of 20 times that all is played anew; costs are judged each by itself.";

/// What an interval is.
pub(super) const INTERVAL: &str =
    "95 % interval: about 19 of 20 of them hold what the model would give if it played without end.";

/// Whether the calls say that anything gains, loses, or is ahead.
fn gained(calls: &[Call]) -> bool {
    calls.iter().flat_map(|call| &call.gains).any(|line| !line.contains(NONE_DIFFERS))
}

/// On what the calls rest.
fn tried(line: &CallLine, calls: &[Call], baseline: &str) -> String {
    let says = |words: &str| calls.iter().flat_map(|call| &call.gains).any(|line| line.contains(words));
    let gains = if gained(calls) {
        let gains = if says("gains here") {
            format!(
                " Gains, loses: an attack's lead over {baseline} is larger or smaller than under the zone's other rules, by so much."
            )
        } else {
            String::new()
        };
        format!(
            "{gains} Ahead, behind: compared with {baseline}. What is not named is too close to it to call."
        )
    } else {
        String::new()
    };
    format!(
        "Played again with each way of helping in the low post, {} possessions each.{gains}",
        grouped(line.possessions)
    )
}

fn positions(results: &Results, leader: &str, units: Units) -> Result<Vec<Position>, Error> {
    let of = |role: usize| {
        let key = ATTACKERS[role];
        let choices = results.choices.iter().filter(|line| line.variant == leader && line.position == key);
        let duties = results.duties.iter().filter(|line| line.variant == leader && line.position == key);
        let plain = position_words(key);
        let own = results.players.iter().filter(|line| line.variant == leader && line.position == key);
        let called = own.clone().map(|line| shown(&line.name)).find(|name| !name.is_empty());
        let said: Vec<_> = own.map(|line| shown(&line.told)).filter(|told| !told.is_empty()).collect();
        let picture = drawn(results, &format!("sheet-card-{}", role + 1))?.to_owned();
        let ends: Vec<&str> =
            duties.clone().map(|line| line.ends_at.as_str()).filter(|place| !place.is_empty()).collect();
        let led: Vec<&str> = duties.clone().flat_map(DutyLine::places).collect();
        let first = duties.clone().filter(|line| line.from == SETS_OFF).map(|line| line.duty.clone());
        let mut ball = with_the_ball(choices.clone(), &ends, &led, units);
        let mut first: Vec<String> = first.collect();
        if ball.is_empty() && !first.is_empty() {
            ball.push(SELDOM.to_owned());
        }
        if let Some(last) = first.last_mut() {
            last.push_str(AFTER_FIRST);
        }
        ball.splice(0..0, first);
        let duties = duties.filter(|line| line.from != SETS_OFF);
        // Where all go once a shot is up is told once on the sheet, to the first.
        let is_told = |line: &&DutyLine| role == 0 || line.from != SHOT_UP;
        let in_short = own_duties(duties.clone().filter(is_told), (DutyLine::shortened, in_lane), |name| {
            is_compared(results, name)
        });
        // The names of runs are the coach's, what is done is the player's.
        let duties = own_duties(duties, (DutyLine::in_full, three_seconds), |_| false);
        Ok(Position {
            number: role + 1,
            name: called.map_or_else(|| String::clone(&plain), |called| format!("{plain} ({called})")),
            known: said.join("; "),
            marks: marks(&picture, passes_at(choices)),
            terms: terms(units, duties.iter().chain(&ball)),
            ball,
            duties,
            in_short,
            picture,
        })
    };
    (0..ATTACKERS.len()).map(of).collect()
}

/// What is known of the players, told at the foot.
fn players(positions: &[Position]) -> String {
    let known = positions.iter().filter(|position| !position.known.is_empty());
    let told: Vec<String> = known.map(|position| format!("{}: {}", position.name, position.known)).collect();
    if told.is_empty() { String::new() } else { format!("Our players: {}.", told.join(". ")) }
}

/// Whether this is the name of something that is compared: what all of them run has no need of one.
fn is_compared(results: &Results, name: &str) -> bool {
    results.verdict.variants.iter().any(|own| own.variant == name)
}

/// Duties of a position: those of what is compared by their names, which stand elsewhere on the page, and how often; with what
/// `warns` of the three seconds.
fn own_duties<'r>(
    lines: impl Iterator<Item = &'r DutyLine>,
    (told, warns): (fn(&DutyLine) -> &str, fn(&DutyLine) -> String),
    is_run: impl Fn(&str) -> bool,
) -> Vec<String> {
    let lines: Vec<&DutyLine> = lines.collect();
    let is_only_shot_up = lines.iter().all(|line| line.from == SHOT_UP);
    let mut words: Vec<String> = lines
        .into_iter()
        .map(|line| {
            let share = line.share_of_chances.0;
            let often = if share < 0.995 {
                format!(" (about {:.0} times in 20)", TWENTY * share)
            } else {
                String::new()
            };
            let name = if is_run(&line.from) { format!("{}: ", capital(&line.from)) } else { String::new() };
            format!("{name}{}{often}{}", told(line), warns(line))
        })
        .collect();
    words.dedup();
    if words.len() < 2 && is_only_shot_up {
        words.insert(0, "Keep your place, show for the pass, and move it on.".into());
    }
    words
}

/// Longer in the lane is called, s; a run that is so long in it is near to that. (the rule books' three seconds; the rest a choice)
const NEAR_THREE_S: f64 = 2.5;
/// So long is allowed by every rule book that is bundled, s.
const THREE_S: f64 = 3.0;

/// He is in the lane more than once where it is longer by this, s. (a choice)
const APART_S: f64 = 0.5;

/// The same in short, where it is more than is allowed.
fn in_lane(line: &DutyLine) -> String {
    let seconds = line.longest_in_lane_s.0.filter(|seconds| *seconds > THREE_S);
    seconds.map_or_else(String::new, |seconds| format!(" ({seconds:.1} s in the lane: get a foot out.)"))
}

/// A warning where the usual run is in the lane for long.
fn three_seconds(line: &DutyLine) -> String {
    match line.longest_in_lane_s.0 {
        Some(seconds) if seconds >= NEAR_THREE_S => {
            let again = line.in_lane_s.0.map(|all| all - seconds).filter(|again| *again >= APART_S);
            let all = again
                .map_or_else(String::new, |again| format!(", out of it, and in it again for {again:.1} s"));
            format!(
                " Three-second rule: a typical run is in the lane for {seconds:.1} s{}{all}; get a foot out on the way.",
                if seconds > THREE_S { ", more than is allowed" } else { "" }
            )
        }
        _ => String::new(),
    }
}

fn drawn<'r>(results: &'r Results, id: &str) -> Result<&'r str, Error> {
    results.picture(id).ok_or_else(|| {
        Error::Option(format!(
            "the result has no picture {id}; make it again with\n  {}",
            results.made.command
        ))
    })
}

fn drawn_with(results: &Results, id: &str, caption: &'static str) -> Result<Shown, Error> {
    Ok(Shown { svg: drawn(results, id)?.to_owned(), caption })
}

/// The pictures of the leaders, that of the cards first.
fn drawn_leaders(results: &Results, main: &str) -> Vec<Drawn> {
    let others = results.verdict.headlines.iter().map(|own| own.variant.as_str()).filter(|own| *own != main);
    let mut all = vec![(main, "sheet")];
    all.extend(others.take(1).map(|other| (other, "sheet-other")));
    let of = |(name, prefix): (&str, &str)| Drawn { name: name.to_owned(), stills: stills(results, prefix) };
    all.into_iter().map(of).collect()
}

fn stills(results: &Results, prefix: &str) -> Vec<Shown> {
    let all =
        [("way", ""), ("passes", "Who passed to whom: seen, no order."), ("moment", TYPICAL), ("looks", "")];
    let shown = |(part, caption)| {
        let svg = results.picture(&format!("{prefix}-{part}"))?.to_owned();
        let caption = if caption == TYPICAL && svg.contains(SHOWS_RUN) && svg.contains(SHOT_BY) {
            PICKED
        } else {
            caption
        };
        Some(Shown { svg, caption })
    };
    all.into_iter().filter_map(shown).collect()
}

/// Of a possession without a run, and of one that was picked for its run.
const TYPICAL: &str = "A typical possession; an illustration, no measure.";
const PICKED: &str = "One possession, picked because of its run and drawn at the shot. From where most good looks come is on the map.";

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_position_without_a_program_has_a_duty_all_the_same() {
        assert_eq!(
            own_duties([].iter(), (DutyLine::in_full, three_seconds), |_| false),
            ["Keep your place, show for the pass, and move it on."]
        );
        let option = DutyLine {
            duty: "Sprint.".into(),
            from: "flash".into(),
            share_of_chances: crate::output::Hundredths(0.5),
            ..DutyLine::default()
        };
        let told = |is_run| own_duties([option.clone()].iter(), (DutyLine::shortened, in_lane), |_| is_run);
        assert_eq!(told(false), ["Sprint. (about 10 times in 20)"]);
        assert_eq!(told(true), ["Flash: Sprint. (about 10 times in 20)"]);
        let shot = DutyLine { duty: "Back.".into(), from: SHOT_UP.into(), ..DutyLine::default() };
        let shot = DutyLine { share_of_chances: crate::output::Hundredths(1.0), ..shot };
        let told = own_duties([shot.clone()].iter(), (DutyLine::in_full, three_seconds), |_| false);
        assert_eq!(told, ["Keep your place, show for the pass, and move it on.", "Back."]);
        let long = DutyLine { longest_in_lane_s: 3.25.into(), ..option.clone() };
        let short = own_duties([long.clone()].iter(), (DutyLine::shortened, in_lane), |_| false);
        let told = own_duties([long, shot].iter(), (DutyLine::in_full, three_seconds), |_| false);
        assert!(short[0].ends_with("(3.2 s in the lane: get a foot out.)"), "{short:?}");
        assert!(
            told[0].contains("a typical run is in the lane for 3.2 s, more than is allowed; get a foot out")
                && told.len() == 2,
            "{told:?}"
        );
    }
}
