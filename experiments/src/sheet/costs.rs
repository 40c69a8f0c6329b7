//! What the attack of the cards costs beside the one compared with: a line of the first page, of the rows of `comparison.csv` and
//! `differences.csv`.

use std::collections::BTreeMap;

use crate::columns::Column;
use crate::output::as_named;
use crate::stats::Interval;
use crate::verdict::{Differ, Headline, NET, Verdict};
use crate::wording::{bare, gap_called, listed, pair};

/// What is told, and in which words.
const TOLD: [(&str, &str); 6] = [
    ("open_look_rate", "open looks"),
    ("paint_touch_rate", "possessions with a paint touch"),
    ("turnover_rate", "turnovers"),
    ("break_points", "points expected of their fast break"),
    ("offensive_rebounds", "offensive rebounds"),
    (NET, "net points"),
];

/// The same but for what these headlines judge. What is ranked by is no cost; and of those that the verdict leaves to choose from it
/// has said by all its headlines that they are too close to call.
fn but<'v>(judged: impl IntoIterator<Item = &'v Headline>) -> Vec<(&'static str, &'static str)> {
    let judged: Vec<&str> = judged.into_iter().map(|own| own.column.key).collect();
    TOLD.into_iter().filter(|(key, _)| !judged.contains(key)).collect()
}

/// A row of a table, by the names of its columns.
pub(super) type Row = BTreeMap<String, String>;

/// Open looks, paint touches, turnovers, the opponents' break and rebounds of the attack of the cards and of the one compared with (of the second where
/// that is the same), and which of them differ by more than luck; and what of it does, in a line.
pub(super) fn costs(verdict: &Verdict, main: &str, measured: &[Row], differences: &[Row]) -> [String; 2] {
    let priced = but(verdict.headlines.first());
    let of = |name: &str| {
        let row = measured.iter().find(|row| is(row, "variant", name))?;
        let value = |(key, _): &(&str, &str)| row.get(*key)?.parse::<f64>().ok();
        priced.iter().map(value).collect::<Option<Vec<f64>>>()
    };
    let alone =
        |value: f64, key: &str| Column::named(key).map_or_else(String::new, |column| bare(column, value));
    // Of what is met none is priced: nobody chooses it.
    let Some(own) = of(main).filter(|_| verdict.differ == Differ::Choices) else {
        return Default::default();
    };
    let other =
        if verdict.baseline == main { second(verdict, main) } else { Some(verdict.baseline.as_str()) };
    let Some((other, figures)) = other.and_then(|other| Some((other, of(other)?))) else {
        let told = |(value, (key, words)): (&f64, (&str, &str))| format!("{} {words}", alone(*value, key));
        let own: Vec<String> = own.iter().zip(priced).map(told).collect();
        return [format!("Costs and gains of {main}, in 20 possessions: {}.", listed(&own)), String::new()];
    };
    // By how much, where that is more than luck.
    let by = |key: &str| difference(differences, [main, other], key).filter(|by| !by.contains(0.0));
    let (mut sure, mut luck, mut clear) = (Vec::new(), Vec::new(), Vec::new());
    for ((own, other), (key, words)) in own.iter().zip(&figures).zip(priced) {
        match by(key).zip(Column::named(key)) {
            Some((by, column)) => {
                let [own, other] = pair(column, [*own, *other], &by);
                clear.push(gap_called(column, words, &by));
                sure.push(format!("{}, {own} and {other}", gap_called(column, words, &by)));
            }
            None => luck.push(format!("{words} ({} and {})", alone(*own, key), alone(*other, key))),
        }
    }
    let told = [("More than luck, each taken by itself", sure), ("Could be luck", luck)]
        .into_iter()
        .filter(|(_, all)| !all.is_empty());
    let told: Vec<String> = told.map(|(how, all)| format!("{how}: {}", all.join("; "))).collect();
    let cheaper = cheaper(verdict, main, other, differences);
    let clear = if clear.is_empty() {
        format!("What {main} costs beside {other}: {NO_MORE}.")
    } else {
        format!(
            "What {main} costs, or adds, beside {other}, in 20 possessions, each taken by itself: {}.",
            clear.join("; ")
        )
    };
    let whole = format!(
        "Costs and gains of {main} beside {other}, in 20 possessions, the figure of {main} first. {}.{cheaper}",
        told.join(". ")
    );
    let beside = rival(verdict, [main, other], differences);
    [whole + &beside, clear + &beside]
}

/// What parts the attack of the cards from the only other that the advice leaves to choose from: ` Beside b: 2.0 more turnovers (1.0 to
/// 3.0).`; empty where it leaves nobody or several.
fn rival(verdict: &Verdict, [main, other]: [&str; 2], differences: &[Row]) -> String {
    let priced = but(&verdict.headlines);
    let told = || {
        let left = verdict.left_to_choose();
        let others: Vec<&str> = left.iter().copied().filter(|name| *name != main).collect();
        let [rival] = others[..] else { return None };
        if !left.contains(&main) {
            return None;
        }
        let all: Option<Vec<Interval>> =
            priced.iter().map(|(key, _)| difference(differences, [main, rival], key)).collect();
        let clear = all.filter(|_| rival != other)?.into_iter().zip(priced);
        let clear: Vec<String> = clear
            .filter(|(by, _)| !by.contains(0.0))
            .filter_map(|(by, (key, words))| Some(gap_called(Column::named(key)?, words, &by)))
            .collect();
        let clear = if clear.is_empty() { NO_MORE.to_owned() } else { clear.join("; ") };
        Some(format!(" Beside {rival}: {clear}."))
    };
    told().unwrap_or_default()
}

/// Of costs that could all be luck.
const NO_MORE: &str = "nothing that is more than luck";

/// By how much the first differs from the second in a measure; None where the table has neither of them beside the other.
fn difference(differences: &[Row], [one, other]: [&str; 2], key: &str) -> Option<Interval> {
    let of = |names: [&str; 2]| {
        let row = differences.iter().find(|row| {
            is(row, "variant", names[0]) && is(row, "reference", names[1]) && is(row, "measure", key)
        })?;
        let number = |name: &str| row.get(name)?.parse::<f64>().ok();
        let [estimate, low, high] = ["difference", "difference_low", "difference_high"].map(number);
        Some(Interval { estimate: estimate?, low: low?, high: high? })
    };
    of([one, other]).or_else(|| Some(of([other, one])?.turned()))
}

/// Those that are too close to call with the attack of the cards by every measure and lack a cost that it clearly has;
/// empty where there is no such cost, or nobody without it.
fn cheaper(verdict: &Verdict, main: &str, other: &str, differences: &[Row]) -> String {
    let is_clearly_worse = |name: &str, key: &str| {
        let by = difference(differences, [name, other], key)?;
        let better = Column::named(key)?.better;
        Some(better.turned(by.low).max(better.turned(by.high)) < 0.0)
    };
    let costs: Vec<(&str, &str)> = but(&verdict.headlines)
        .into_iter()
        .filter(|(key, _)| is_clearly_worse(main, key) == Some(true))
        .collect();
    let is_close = |name: &&str| {
        *name != main && *name != other && verdict.headlines.iter().all(|own| own.has(name) && own.has(main))
    };
    let without = |name: &&str| {
        but(&verdict.headlines).iter().all(|(key, _)| is_clearly_worse(name, key) == Some(false))
    };
    let all: Vec<&str> = verdict.variants.iter().map(|ran| ran.variant.as_str()).collect();
    let all: Vec<&str> = all.into_iter().filter(is_close).filter(without).collect();
    if costs.is_empty() || all.is_empty() {
        return String::new();
    }
    let words: Vec<&str> = costs.into_iter().map(|(_, words)| words).collect();
    let (are, have) = if all.len() == 1 { ("is", "has") } else { ("are", "have") };
    format!(
        " {} {are} too close to call with {main} and {have} no clear cost in {}.",
        listed(&all),
        listed(&words)
    )
}

pub(super) fn is(row: &Row, column: &str, name: &str) -> bool {
    row.get(column).is_some_and(|cell| as_named(cell) == name)
}

/// Who comes after it by the question's own measure.
fn second<'v>(verdict: &'v Verdict, main: &str) -> Option<&'v str> {
    verdict.variants.iter().map(|own| own.variant.as_str()).find(|name| *name != main)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::verdict::tests::judged;

    fn row(cells: &[(&str, &str)]) -> Row {
        cells.iter().map(|(name, cell)| ((*name).to_owned(), (*cell).to_owned())).collect()
    }

    #[test]
    fn costs_name_both_and_say_what_is_no_luck() {
        let (_, mut verdict) = judged(&["a", "b"], 300, NET);
        verdict.baseline = "b".into();
        let of = |name, turnovers| {
            let cells = [
                ("variant", name),
                ("open_look_rate", "0.25"),
                ("paint_touch_rate", "0.4"),
                ("turnover_rate", turnovers),
                ("break_points", "0.015"),
                ("offensive_rebounds", "0.15"),
            ];
            row(&cells)
        };
        let measured = [of("a", "0.3"), of("b", "0.2")];
        let differs = |by, low, high| {
            let cells = [("variant", "a"), ("reference", "b"), ("measure", "turnover_rate")];
            let ends = [("difference", by), ("difference_low", low), ("difference_high", high)];
            row(&[&cells[..], &ends].concat())
        };
        let [told, clear] = costs(&verdict, "a", &measured, &[differs("0.1", "0.05", "0.15")]);
        assert_eq!(
            clear,
            "What a costs, or adds, beside b, in 20 possessions, each taken by itself: 2.0 more turnovers (1.0 to 3.0)."
        );
        assert_eq!(
            told,
            "Costs and gains of a beside b, in 20 possessions, the figure of a first. More than luck, each taken by itself: 2.0 more \
             turnovers (1.0 to 3.0), 6.0 and 4.0. Could be luck: open looks (5.0 and 5.0); possessions with a paint touch (8.0 and 8.0); points expected of their fast break \
             (0.30 and 0.30); offensive rebounds (3.0 and 3.0)."
        );
        let [thin, _] = costs(&verdict, "a", &measured, &[differs("0.1", "0.00005", "0.15")]);
        assert!(
            thin.contains("2.0 more turnovers (under 0.1 to 3.0, only just more than luck), 6.0 and 4.0"),
            "{thin}"
        );
        let [told, clear] = costs(&verdict, "a", &measured, &[differs("0.1", "-0.05", "0.25")]);
        assert_eq!(clear, "What a costs beside b: nothing that is more than luck.");
        assert!(
            !told.contains("More than luck") && told.contains("first. Could be luck: open looks"),
            "{told}"
        );
        assert_eq!(costs(&verdict, "a", &[], &[]), [""; 2]);
        verdict.differ = Differ::Both;
        assert_eq!(costs(&verdict, "a", &measured, &[]), [""; 2], "what is met has no price");
    }

    #[test]
    fn net_points_are_told_beside_the_one_compared_with_unless_it_is_ranked_by_them() {
        let keys = |rank_by: &str| {
            let (_, verdict) = judged(&["a", "b"], 300, rank_by);
            let has = |all: Vec<(&str, &str)>| all.iter().any(|(key, _)| *key == NET);
            [has(but(verdict.headlines.first())), has(but(&verdict.headlines))]
        };
        assert_eq!(
            keys("good_look_rate"),
            [true, false],
            "of those left to choose from the verdict has judged them"
        );
        assert_eq!(keys(NET), [false, false]);
    }

    #[test]
    fn what_parts_the_first_from_who_else_may_be_run_is_told_too() {
        let (_, mut verdict) = judged(&["a", "b", "c"], 300, NET);
        verdict.baseline = "c".into();
        verdict.headlines[0].leader = "a".into();
        verdict.headlines[0].tied = vec!["b".into()];
        let one = |key: &str, low: &str, high: &str| {
            let cells = [("variant", "b"), ("reference", "a"), ("measure", key)];
            let ends = [("difference", low), ("difference_low", low), ("difference_high", high)];
            row(&[&cells[..], &ends].concat())
        };
        let told = |low: &str, high: &str| {
            let rest = TOLD[1..].iter().map(|(key, _)| one(key, "-0.1", "0.1"));
            let rows: Vec<Row> = std::iter::once(one(TOLD[0].0, low, high)).chain(rest).collect();
            rival(&verdict, ["a", "c"], &rows)
        };
        assert_eq!(told("-0.1", "0.1"), " Beside b: nothing that is more than luck.");
        assert!(told("0.1", "0.2").starts_with(" Beside b: 2.0 fewer open looks"), "{}", told("0.1", "0.2"));
        assert_eq!(rival(&verdict, ["a", "c"], &[]), "", "not in the table");
    }

    #[test]
    fn who_lacks_a_cost_of_the_first_is_named_if_he_is_as_good_as_can_be_told() {
        let (_, mut verdict) = judged(&["a", "b", "c", "d"], 300, NET);
        verdict.baseline = "d".into();
        verdict.headlines[0].leader = "a".into();
        verdict.headlines[0].tied = ["b", "c"].map(str::to_owned).into();
        let one = |name: &str, key: &str, low: &str, high: &str| {
            let cells = [("variant", name), ("reference", "d"), ("measure", key)];
            let ends = [("difference", low), ("difference_low", low), ("difference_high", high)];
            row(&[&cells[..], &ends].concat())
        };
        let of = |name: &str, low: &str, high: &str| {
            let rest = TOLD[1..].iter().map(|(key, _)| one(name, key, "-0.1", "0.1"));
            std::iter::once(one(name, TOLD[0].0, low, high)).chain(rest).collect::<Vec<Row>>()
        };
        let told = |a: (&str, &str)| {
            let rows = [of("a", a.0, a.1), of("b", "-0.1", "0.1"), of("c", "-0.2", "-0.1")].concat();
            cheaper(&verdict, "a", "d", &rows)
        };
        assert_eq!(
            told(("-0.2", "-0.1")),
            " b is too close to call with a and has no clear cost in open looks."
        );
        assert_eq!(told(("-0.2", "0.1")), "", "no cost, so nobody lacks it");
        assert_eq!(told(("0.1", "0.2")), "", "more open looks are no cost");
    }
}
