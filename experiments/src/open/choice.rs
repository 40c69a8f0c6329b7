//! A choice that is on, as the page tells it: what was seen at its last look, and nothing between looks. The intervals are those
//! of the race, which hold for all pairs and all looks together.

use std::cmp::Ordering;

use maud::{Markup, html};

use crate::selection::Racing;
use crate::stats::{Interval, Look, Place, SMALLEST_BUDGET, Standing};
use crate::wording::{alike, bare, grouped, listed};

/// Half the width of the picture of an interval, in its own units.
const HALF: f64 = 100.0;

/// A variant where it was seen last.
struct Row<'a> {
    name: &'a str,
    look: &'a Look,
    standing: &'a Standing,
}

/// Where a choice stands.
pub fn told(racing: &Racing) -> Markup {
    let rows = rows(racing);
    let (Some(look), false) = (racing.looks().last(), rows.is_empty()) else {
        return html! {
            p { "Nothing is said before " (grouped(SMALLEST_BUDGET)) " possessions of each, and a figure for each: with less, nothing can be sure." }
        };
    };
    let column = racing.column();
    let furthest = racing.looks().iter().flat_map(|look| &look.standings).map(|own| reach(own.behind));
    let furthest = furthest.fold(f64::MIN_POSITIVE, f64::max);
    html! {
        p class="sentence" { (sentence(&rows, look)) }
        table class="race" {
            thead { tr {
                th scope="col" {} th scope="col" { (column.words) ", in 20" } th scope="col" { "less the one ahead" }
                th scope="col" { "stands" } th scope="col" class="drawn" { span class="quiet" { "less" } " | " span class="quiet" { "more" } }
            } }
            tbody { @for row in &rows {
                tr class=[(row.standing.place == Place::Dropped).then_some("dropped")] {
                    th scope="row" { (row.name) }
                    td { (bare(column, row.standing.estimate)) }
                    td { @if row.standing.place != Place::Ahead {
                        @let behind = row.standing.behind;
                        (alike(column, behind.estimate, &behind)) " (" (alike(column, behind.low, &behind)) " to "
                        (alike(column, behind.high, &behind)) ")"
                    } }
                    td { (stands(row)) }
                    td class="drawn" { @if row.standing.place != Place::Ahead { (drawn(row.standing.behind, furthest)) } }
                }
            } }
        }
        p class="quiet" {
            "The intervals hold for all pairs and all looks together, in 19 of 20 runs: stopping early makes nothing of it wrong. Between \
             looks nothing is said."
        }
    }
}

/// Those that were seen last first; of them the best first.
fn rows(racing: &Racing) -> Vec<Row<'_>> {
    let seen = racing.names().iter().enumerate().filter_map(|(v, name)| {
        let (look, standing) = racing.last_seen(v)?;
        Some(Row { name, look, standing })
    });
    let mut rows: Vec<Row<'_>> = seen.collect();
    let better = racing.column().better;
    let worth = |row: &Row<'_>| better.turned(row.standing.estimate);
    rows.sort_by(|a, b| match b.look.possessions.cmp(&a.look.possessions) {
        Ordering::Equal => worth(b).total_cmp(&worth(a)),
        later => later,
    });
    rows
}

fn sentence(rows: &[Row<'_>], look: &Look) -> String {
    let at = |place: Place| rows.iter().filter(move |row| row.standing.place == place);
    let ahead = at(Place::Ahead).find(|row| row.look.possessions == look.possessions);
    let ahead = ahead.map_or("nobody", |row| row.name);
    let left: Vec<&str> = at(Place::Left).map(|row| row.name).collect();
    let rest = if left.is_empty() {
        "all others are clearly behind".to_owned()
    } else {
        format!("{} cannot be told from it yet", listed(&left))
    };
    format!("After {} possessions of each {ahead} is ahead; {rest}.", grouped(look.possessions))
}

fn stands(row: &Row<'_>) -> String {
    match row.standing.place {
        Place::Ahead => "ahead".into(),
        Place::Left => "not to be told from it yet".into(),
        Place::Dropped => format!("dropped after {}, clearly behind", grouped(row.look.possessions)),
    }
}

/// How far from 0 an interval reaches.
fn reach(own: Interval) -> f64 {
    own.low.abs().max(own.high.abs())
}

/// An interval about 0, on the scale of the widest of all looks, so that it is seen to narrow.
fn drawn(own: Interval, furthest: f64) -> Markup {
    let at = |value: f64| format!("{:.1}", HALF * value / furthest);
    html! {
        svg class="reach" viewBox="-104 -8 208 16" aria-hidden="true" {
            line class="none" x1="0" x2="0" y1="-7" y2="7" {}
            line x1=(at(own.low)) x2=(at(own.high)) y1="0" y2="0" {}
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::columns::Column;
    use crate::selection::tests::some;
    use crate::stats::UntilSure;

    #[test]
    fn a_look_is_told_with_its_own_intervals_and_nothing_before_the_first() {
        let names = ["a", "b", "c"].map(String::from);
        let until = UntilSure { margin: 0.0, budget: 4096 };
        let mut racing = Racing::new(&names, Column::named("expected_net_points").unwrap(), until);
        let none = told(&racing).into_string();
        assert!(
            none.contains("Nothing is said before 1,024 possessions") && !none.contains("ahead"),
            "{none}"
        );
        let (left, possessions) = racing.to_play().unwrap();
        racing.take(some(&names, &left, possessions));
        let one = told(&racing).into_string();
        let look = &racing.looks()[0];
        let column = racing.column();
        // The stub's variants get better one by one.
        assert!(one.contains("After 1,024 possessions of each c is ahead"), "{one}");
        for own in look.standings.iter().filter(|own| own.place != Place::Ahead) {
            let ends = [own.behind.low, own.behind.high].map(|end| alike(column, end, &own.behind));
            assert!(one.contains(&format!("({} to {})", ends[0], ends[1])), "{ends:?}: {one}");
        }
        let dropped = look.standings.iter().filter(|own| own.place == Place::Dropped).count();
        assert!(
            dropped > 0 && one.matches("dropped after 1,024, clearly behind").count() == dropped,
            "{one}"
        );
    }
}
