//! The decisive moment of one possession.

use engine::setup::Setup;
use maud::html;

use super::drawing::{Picture, joined};
use super::floor::{Floor, LARGER, Words, attacker, ball_of, defender, marked, who_is_who};
use crate::marks;
use crate::places::{ATTACKERS, Still, player_name};
use crate::wording::capital;

/// A line that is shorter lies under the marks at its ends.
const SEEN: f64 = 2.0 * marks::DISC * LARGER + 60.0;

/// A still of one variant's possession.
pub fn still((id, variant): (&str, &str), setup: &Setup, still: &Still) -> Picture {
    let floor = Floor::holding(&setup.court, still.players);
    let places = floor.apart(still.players);
    let at = |player: usize| places[player];
    let shot = still.moment == "shot";
    // In his hands, wherever he is drawn.
    let (fx, fy) = still.holder.map_or(floor.of(still.ball), at);
    let rim = floor.at(0.0, 0.0);
    let gap = |a: (f64, f64), b: (f64, f64)| (a.0 - b.0).hypot(a.1 - b.1);
    // What would lie under the marks at its ends is not drawn, nor told in the key.
    let passed = still.pass.zip(still.holder).map(|((by, from), to)| (by, floor.of(from), at(to)));
    let passed = passed.filter(|(_, from, to)| gap(*from, *to) > SEEN);
    let thrown = still.holder.filter(|_| shot).map(&at).filter(|from| gap(*from, rim) > SEEN);
    // Who has gone on since he passed: an open disc where he was.
    let left = passed.filter(|(by, from, _)| gap(*from, at(*by)) > SEEN);
    let ways = html! {
        @if let Some((_, from, to)) = passed { (marked(&[from, to], |at| marks::pass(at[0], at[1]))) }
        @if let Some((by, from, _)) = left { (marked(&[from], |at| marks::mate(at[0], &(by + 1).to_string()))) }
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
    let over = html! {
        (ways)
        (joined(players.collect::<Vec<_>>().into_iter().rev()))
        (ball_of((fx, fy), &places))
    };
    let number = still.holder.map_or_else(|| "nobody".into(), |holder| (holder + 1).to_string());
    let what = if shot { "the shot, by" } else { "last held, by" };
    let sub = format!("possession {}, {:.1} s: {what} {number}", still.possession, still.time_s);
    let run = if still.is_as_run { " Its route or option was run to its end in it." } else { "" };
    let caption = format!(
        "{}, {:.2} expected net points.{run}",
        capital(&still.outcome.replace('_', " ")),
        still.expected_net_points
    );
    let desc = still.holder.map_or_else(String::new, |holder| {
        let (who, at) = (ATTACKERS[holder].replace('-', " "), still.players[holder]);
        format!("Floor seen from midcourt. {what} {who}, {}.", engine::names::place(setup, at))
    });
    let told = [
        (passed.is_some(), "dashed: the pass to him"),
        (left.is_some(), "open disc: from where"),
        (thrown.is_some(), "dotted: the shot"),
        (still.side < 0.0, "the rover's side: left"),
    ];
    let lines =
        told.iter().filter(|(is_so, _)| *is_so).map(|(_, words)| *words).collect::<Vec<_>>().join("; ");
    let after: &[&str] = if lines.is_empty() { &[] } else { &[&lines] };
    floor.picture(
        Words { id, head: variant, sub: &sub, desc: &desc, caption },
        html! {},
        over,
        who_is_who(&floor, setup, after),
    )
}
