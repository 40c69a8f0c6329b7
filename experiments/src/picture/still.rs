//! The decisive moment of one possession.

use engine::setup::Setup;
use maud::html;

use super::drawing::{Picture, joined, label};
use super::floor::{Floor, LARGER, Words, attacker, ball_of, defender, marked, who_is_who};
use super::labels::{Labels, along, covered};
use crate::marks::{self, At, gap};
use crate::places::{ATTACKERS, Still, player_name};
use crate::wording::capital;

/// A line of which no more is clear of all marks is not seen.
const SEEN: f64 = 60.0;
/// Places along a line that are looked at.
const LOOKED: u32 = 60;
/// Farther off than this a passer has gone on since.
const GONE: f64 = 2.0 * marks::DISC * LARGER + 60.0;

/// What is drawn besides the players.
struct Lines {
    /// Who passed to him, from where, and to where.
    passed: Option<(usize, At, At)>,
    /// Who has gone on since he passed: his number where he was.
    left: Option<(usize, At)>,
    /// From where he shoots.
    thrown: Option<At>,
    /// Where the runner has come by, up to his mark where he is still on it.
    run: Vec<At>,
    /// Who that is.
    runner: Option<usize>,
    /// Whether it leads up to his mark.
    is_joined: bool,
}

impl Lines {
    /// What would lie under marks is not drawn, nor told in the key.
    fn new(floor: &Floor<'_>, places: &[At; 10], still: &Still) -> Self {
        let at = |player: usize| places[player];
        let is_seen = |from: At, to: At| {
            let along = (1..LOOKED).map(|nth| f64::from(nth) / f64::from(LOOKED));
            let clear = along.filter(|share| {
                let here = (from.0 + share * (to.0 - from.0), from.1 + share * (to.1 - from.1));
                places.iter().all(|mark| gap(*mark, here) > marks::DISC * LARGER)
            });
            clear.count() as f64 / f64::from(LOOKED) * gap(from, to) > SEEN
        };
        let passed = still.pass.zip(still.holder).map(|((by, from), to)| (by, floor.of(from), at(to)));
        // Who is still about there has passed from his mark.
        let is_gone = |by: usize, from: At| gap(from, at(by)) > GONE;
        let from_mark = |(by, from, to)| (by, if is_gone(by, from) { from } else { at(by) }, to);
        let passed = passed.map(from_mark).filter(|(_, from, to)| is_seen(*from, *to));
        let left = passed.filter(|(by, from, _)| is_gone(*by, *from)).map(|(by, from, _)| (by, from));
        let shooter = still.holder.filter(|_| still.moment == SHOT).map(at);
        let thrown = shooter.filter(|from| is_seen(*from, floor.at(0.0, 0.0)));
        let (run, is_joined) = still.run.as_ref().map_or_else(Default::default, |(by, run)| {
            let mut run: Vec<At> = run.iter().map(|place| floor.of(*place)).collect();
            // Who has gone on since then has come another way.
            let is_there = run.last().is_some_and(|last| gap(*last, at(*by)) < GONE);
            run.extend(is_there.then(|| at(*by)));
            (run, is_there)
        });
        let is_run = run.iter().any(|place| gap(*place, run[run.len() - 1]) > GONE);
        let runner = still.run.as_ref().map(|(by, _)| *by).filter(|_| is_run);
        Self { passed, left, thrown, run: if is_run { run } else { Vec::new() }, runner, is_joined }
    }

    /// What they mean, of those that are there.
    fn told(all: &[Self]) -> Vec<String> {
        let is_any = |has: fn(&Self) -> bool| all.iter().any(has);
        let mut runners = all.iter().filter_map(|own| own.runner);
        let run = runners.next().map(|first| {
            let is_one = runners.all(|other| other == first);
            let who = if is_one { (first + 1).to_string() } else { "whoever ran it".into() };
            let is_joined = all.iter().all(|own| own.runner.is_none() || own.is_joined);
            format!("solid: how {who} ran it{}", if is_joined { ", to where he stands" } else { "" })
        });
        let others = [
            (is_any(|own| own.passed.is_some()), "dashed: the pass to who has the ball"),
            (is_any(|own| own.thrown.is_some()), "dotted: the shot"),
        ]
        .into_iter()
        .filter(|(is_so, _)| *is_so)
        .map(|(_, words)| words.to_owned());
        run.into_iter().chain(others).collect()
    }
}

/// In its title, of a still of a shot.
pub const SHOT_BY: &str = "the shot, by";
/// At the end of the description of a still of a possession that was picked for its run.
pub const SHOWS_RUN: &str = " Picked for its run.";

/// The moment of a possession that ends in a shot.
const SHOT: &str = "shot";

/// A floor with room for all players of a still, and where they are drawn.
fn laid_out<'s>(setup: &'s Setup, still: &Still) -> (Floor<'s>, [At; 10]) {
    let floor = Floor::holding(&setup.court, still.players);
    let places = floor.apart(still.players);
    (floor, places)
}

/// An empty floor whose key is that of several stills, to stand over them: with the letters of this setup's zone.
pub fn key_of_stills<'s>(id: &str, setup: &Setup, stills: impl IntoIterator<Item = &'s Still>) -> Picture {
    let lines = |still: &Still| {
        let (floor, places) = laid_out(setup, still);
        Lines::new(&floor, &places, still)
    };
    let told = Lines::told(&stills.into_iter().map(lines).collect::<Vec<_>>()).join("; ");
    let after: &[&str] = if told.is_empty() { &[] } else { &[&told] };
    let floor = Floor::holding(&setup.court, []);
    let words = Words { id, head: "", sub: "", desc: "", caption: String::new() };
    floor.picture(words, html! {}, html! {}, who_is_who(&floor, setup, after))
}

/// A still of one variant's possession.
pub fn still((id, variant): (&str, &str), setup: &Setup, still: &Still) -> Picture {
    let (floor, places) = laid_out(setup, still);
    let at = |player: usize| places[player];
    let shot = still.moment == SHOT;
    // In his hands, wherever he is drawn.
    let (fx, fy) = still.holder.map_or(floor.of(still.ball), at);
    let rim = floor.at(0.0, 0.0);
    let lines = Lines::new(&floor, &places, still);
    let Lines { passed, left, thrown, ref run, .. } = lines;
    let ways = html! {
        @if !run.is_empty() { (marked(run, marks::trail)) }
        @if let Some((_, from, to)) = passed { (marked(&[from, to], |at| marks::pass(at[0], at[1]))) }
        @if let Some(from) = thrown { (marked(&[from, rim], |at| marks::shot(at[0], at[1]))) }
    };
    let players = (0..10).map(|player| {
        let who = player_name(setup, player);
        html! {
            g data-who=(who) data-x=(format!("{:.2}", still.players[player].x))
                data-y=(format!("{:.2}", still.players[player].y)) {
                @if player < 5 { (attacker(at(player), player)) }
                @else { (defender(at(player), (setup, player - 5), still.side)) }
            }
        }
    });
    // No second mark of him: he is once on the floor.
    let along_pass = passed.map_or_else(Vec::new, |(_, from, to)| along([from, to]));
    let off = [&covered(&places)[..], &along_pass, run].concat();
    let mut labels = Labels::new((floor.width(), floor.bottom()));
    let from = left.and_then(|(by, from)| {
        let words = format!("from {}", by + 1);
        let (at, _) = labels.beside((from, &[]), &words, (&off, None))?;
        Some(label("mid on", at.0, at.1 + 18.0, &words))
    });
    let over = html! {
        (ways)
        (joined(players.collect::<Vec<_>>().into_iter().rev()))
        (ball_of((fx, fy), &places))
        @if let Some(from) = from { (from) }
    };
    let number = still.holder.map_or_else(|| "nobody".into(), |holder| (holder + 1).to_string());
    let what = if shot { SHOT_BY } else { "last held, by" };
    let sub = format!("possession {}, {:.1} s: {what} {number}", still.possession, still.time_s);
    let shows = still.shows.map_or_else(String::new, |shows| format!(" {}.", capital(shows.words())));
    let points = format!("{:.2}", still.expected_net_points).replace('-', "\u{2212}");
    let caption = format!(
        "{}, {points} expected net points in this one possession.{shows}",
        capital(&still.outcome.replace('_', " "))
    );
    let desc = still.holder.map_or_else(String::new, |holder| {
        let (who, at) = (ATTACKERS[holder].replace('-', " "), still.players[holder]);
        format!("Floor seen from midcourt. {what} {who}, {}.", engine::names::place(setup, at))
    });
    let desc = if still.shows.is_some() { format!("{desc}{SHOWS_RUN}") } else { desc };
    let mut told = Lines::told(&[lines]);
    told.extend(still.shows.map(|shows| shows.words().to_owned()));
    told.extend((still.side < 0.0).then(|| "the rover's side: left".to_owned()));
    told.extend(
        still.is_mirrored.then(|| "drawn mirrored, so that the rover starts on the right".to_owned()),
    );
    let told = told.join("; ");
    let after: &[&str] = if told.is_empty() { &[] } else { &[&told] };
    floor.picture(
        Words { id, head: variant, sub: &sub, desc: &desc, caption },
        html! {},
        over,
        who_is_who(&floor, setup, after),
    )
}
