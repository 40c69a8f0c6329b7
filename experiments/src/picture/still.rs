//! The decisive moment of one possession.

use engine::setup::Setup;
use maud::html;

use super::drawing::{MARGIN, Picture, joined, label, line, n};
use super::floor::{Floor, NUMBERS, Words, attacker, defender};
use crate::places::{ATTACKERS, Still, defender_letter, player_name};
use crate::wording::capital;

/// A still of one variant's possession.
pub fn still((id, variant): (&str, &str), setup: &Setup, still: &Still) -> Picture {
    let floor = Floor::new(&setup.court);
    let places = floor.apart(still.players);
    let at = |player: usize| places[player];
    let shot = still.moment == "shot";
    // In his hands, wherever he is drawn.
    let (fx, fy) = still.holder.map_or(floor.of(still.ball), at);
    let ways = html! {
        @if let (Some((_, from)), Some(holder)) = (still.pass, still.holder) {
            @let (to, from) = (at(holder), floor.of(from));
            line class="pass" stroke-width="14" x1=(n(from.0)) y1=(n(from.1)) x2=(n(to.0)) y2=(n(to.1)) {}
        }
        @if let Some(holder) = still.holder.filter(|_| shot) { (line("shot", at(holder), floor.at(0.0, 0.0))) }
    };
    let players = (0..10).map(|player| {
        let who = player_name(setup, player);
        html! {
            g data-who=(who) data-x=(format!("{:.2}", still.players[player].x))
                data-y=(format!("{:.2}", still.players[player].y)) {
                @if player < 5 { (attacker(at(player), player)) }
                @else { (defender(at(player), &defender_letter(&setup.zone, player - 5))) }
            }
        }
    });
    let over = html! {
        (ways)
        (joined(players.collect::<Vec<_>>().into_iter().rev()))
        circle class="ball" cx=(n(fx + 40.0)) cy=(n(fy + 40.0)) r="24" {}
    };
    let number = still.holder.map_or_else(|| "nobody".into(), |holder| (holder + 1).to_string());
    let what = if shot { "the shot, by" } else { "last held, by" };
    let sub = format!("possession {}, {:.1} s: {what} {number}", still.possession, still.time_s);
    let caption = format!(
        "{}, {:.2} expected net points.",
        capital(&still.outcome.replace('_', " ")),
        still.expected_net_points
    );
    let desc = still.holder.map_or_else(String::new, |holder| {
        let (who, at) = (ATTACKERS[holder].replace('-', " "), still.players[holder]);
        format!(
            "Floor seen from midcourt. {what} {who}, {}.",
            super::heat::place(f64::from(at.x), f64::from(at.y))
        )
    });
    let top = floor.bottom();
    let letters = "diamond: defender, by his job; small dot: the ball";
    let mut lines = vec![NUMBERS[0], NUMBERS[1], letters];
    lines.push(if shot { "dashed: the pass to him; dotted: the shot" } else { "dashed: the pass to him" });
    let words = lines
        .iter()
        .enumerate()
        .map(|(nth, words)| label("key", MARGIN, top + 70.0 + 66.0 * nth as f64, words));
    floor.picture(
        Words { id, head: variant, sub: &sub, desc: &desc, caption },
        html! {},
        over,
        (300.0, joined(words)),
    )
}
