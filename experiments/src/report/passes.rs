//! Who passes to whom, as a table.

use maud::{Markup, html};

use crate::picture::often;
use crate::places::{ATTACKERS, PassPair, PassRow, pass_pairs};

/// From each position to each: how often, and how much of it is caught.
pub(super) fn table(name: &str, rows: &[PassRow], possessions: u64) -> Markup {
    let possessions = possessions as f64;
    let pairs = pass_pairs(rows);
    let words = |role: usize| ATTACKERS[role].replace('-', " ");
    let of = |from: usize, to: usize| pairs.iter().find(|pair| (pair.from, pair.to) == (from, to));
    html! {
        div class="scroll" tabindex="0" role="region" aria-label=(format!("Passes of {name}")) {
            table class="passes" data-variant=(name) {
                caption { span {
                    (name) ": passes in 20 possessions, from the row to the column; under each what part of them is caught, and what part a defender takes, in per cent. As in pass_pairs.csv; by kind in passes.csv."
                } }
                thead { tr {
                    th scope="col" { "from" }
                    @for to in 0..ATTACKERS.len() { th scope="col" class="n" { (words(to)) } }
                } }
                tbody { @for from in 0..ATTACKERS.len() { tr {
                    th scope="row" { (words(from)) }
                    @for to in 0..ATTACKERS.len() { (pass_cell(of(from, to), possessions)) }
                } } }
            }
        }
    }
}

/// One way of the passes; a dash where there was none.
fn pass_cell(pair: Option<&PassPair>, possessions: f64) -> Markup {
    let Some(pair) = pair else { return html! { td class="n" { "\u{2013}" } } };
    let share = |part: i64| format!("{:.0}", 100.0 * part as f64 / pair.thrown as f64);
    html! {
        td class="n" data-from=(ATTACKERS[pair.from]) data-to=(ATTACKERS[pair.to]) {
            (often(20.0 * pair.thrown as f64 / possessions)) br;
            span class="quiet" { (share(pair.completed)) ", " (share(pair.taken)) }
        }
    }
}
