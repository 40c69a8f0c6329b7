//! If-then calls: what to run, who is open, and who gains or loses, under each answer of the zone.

use super::results::{Row, number, text};
use super::words::{in_twenty, position};
use crate::columns::Column;
use crate::gains::{Claimed, Said, counted, told};
use crate::stats::Interval;
use crate::wording::{any_of, capital};

/// One call.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Call {
    /// What the zone does.
    pub when: String,
    /// Which attack to run then.
    pub run: String,
    /// Who gets the ball.
    pub look: String,
    /// Who gains and who loses against this answer, a line a measure; empty where that cannot be asked.
    pub gains: Vec<String>,
}

/// Attacks that are named in a toss-up, at most.
const NAMED: usize = 3;

/// What the calls are made of.
#[derive(Clone, Copy, Debug)]
pub struct Source<'a> {
    /// Rows of `calls.csv`.
    pub calls: &'a [Row],
    /// Rows of `answers.csv`.
    pub answers: &'a [Row],
    /// The attacks that the whole comparison has at its head, best first.
    pub above: &'a [&'a str],
    /// The variant over which leads are taken.
    pub baseline: &'a str,
}

/// The calls. The answer that the zone gives anyway comes first, and the whole comparison says what to run against it,
/// so that the page cannot say two things of it.
pub fn calls(source: Source<'_>) -> Vec<Call> {
    let mut rules: Vec<(&str, bool)> = Vec::new();
    for row in source.calls {
        let rule = text(row, "post_help_rule");
        if !rules.iter().any(|(known, _)| *known == rule) {
            rules.push((rule, text(row, "in_force") == "true"));
        }
    }
    rules.sort_by_key(|(_, in_force)| !in_force);
    rules.into_iter().filter_map(|(rule, in_force)| call(source, rule, in_force)).collect()
}

fn call(source: Source<'_>, rule: &str, in_force: bool) -> Option<Call> {
    let of_rule = |row: &&Row| text(row, "post_help_rule") == rule;
    let own: Vec<&Row> = source.calls.iter().filter(of_rule).collect();
    let first = *own.first()?;
    let (best, run) = match source.above {
        [leader, ..] if in_force => (*leader, usual(source.above)),
        _ => (text(first, "variant"), run(&own)),
    };
    let answers: Vec<&Row> = source.answers.iter().filter(of_rule).collect();
    let named = answers.iter().find(|row| text(row, "variant") == best);
    Some(Call {
        when: format!("If {}{}", answer(rule), if in_force { " (as this zone does)" } else { "" }),
        run,
        look: named.map_or_else(String::new, |row| look(row)),
        gains: gains(&answers, source.baseline),
    })
}

/// What to run against the answer in force.
fn usual(above: &[&str]) -> String {
    match above.len() {
        1 => format!("As above: run {}.", above[0]),
        2..=NAMED => format!("As above, a toss-up: {}.", any_of(above)),
        many => format!("As above, a toss-up: {} or {} others.", above[..2].join(", "), many - 2),
    }
}

/// What to run against another: those that the interval for all of the table does not part from the best are a toss-up.
fn run(own: &[&Row]) -> String {
    let (best, name) = (own[0], |row: &Row| text(row, "variant").to_owned());
    let net = |row: &Row| number(row, "expected_net_points").map_or_else(|| "no data".into(), in_twenty);
    let apart = |row: &&&Row| number(row, "lead_together_low").is_some_and(|low| low > 0.0);
    let others: Vec<&&Row> = own[1..].iter().filter(|row| !apart(row)).collect();
    if others.is_empty() {
        let gap = own.get(1).and_then(|second| {
            let part = |column| number(second, column).map(in_twenty);
            let (lead, low, high) = (part("lead")?, part("lead_together_low")?, part("lead_together_high")?);
            Some(format!(", {lead} more than {} ({low} to {high})", name(second)))
        });
        return format!("Run {}: {} net points in 20{}.", name(best), net(best), gap.unwrap_or_default());
    }
    let mut tied: Vec<String> = std::iter::once(best)
        .chain(others.iter().take(NAMED - 1).map(|row| **row))
        .map(|row| format!("{} ({})", name(row), net(row)))
        .collect();
    if others.len() >= NAMED {
        tied.truncate(NAMED - 1);
        tied.push(format!("{} others", others.len() + 2 - NAMED));
    }
    format!("Toss-up: {}; no difference seen in net points in 20.", any_of(&tied))
}

/// The read that made most of the open looks of the attack to run.
fn look(row: &Row) -> String {
    let shooter = position(text(row, "taken_by"));
    let share = number(row, "taken_by_share")
        .map_or_else(String::new, |share| format!(" ({:.0} of 100 such open looks are his)", 100.0 * share));
    let variant = text(row, "variant");
    match text(row, "read") {
        "" => String::new(),
        "none" => format!("With {variant}, throw it to {shooter} where he stands open{share}."),
        read if read == variant => format!("With {variant}, throw it to {shooter} off it{share}."),
        read => format!("With {variant}, throw it to {shooter} off {read}{share}."),
    }
}

/// Who gains and who loses, by every measure of the table, net points first.
fn gains(answers: &[&Row], baseline: &str) -> Vec<String> {
    let mut measures: Vec<&str> = Vec::new();
    for row in answers.iter().filter(|row| !text(row, "interaction").is_empty()) {
        if !measures.contains(&text(row, "measure")) {
            measures.push(text(row, "measure"));
        }
    }
    measures.sort_by_key(|measure| *measure != super::NET);
    let of = |measure: &str| {
        let column = Column::named(measure)?;
        let own = answers.iter().filter(|row| text(row, "measure") == measure);
        let words = told(column, baseline, &own.map(|row| claimed(row)).collect::<Vec<_>>());
        // The sheet says of its net points once what they are.
        Some(format!("{}: {words}.", capital(counted(column).trim_start_matches("expected "))))
    };
    measures.into_iter().filter_map(of).collect()
}

/// What a row claims; the table says whether it does.
fn claimed(row: &Row) -> Claimed {
    let said = |kind: &str, verdict: &str, [good, bad]: [&str; 2]| {
        let part = |end: &str| number(row, &format!("{kind}{end}"));
        let good = match text(row, verdict) {
            word if word == good => true,
            word if word == bad => false,
            _ => return None,
        };
        let (estimate, low, high) = (part("")?, part("_together_low")?, part("_together_high")?);
        Some(Said { good, by: Interval { estimate, low, high } })
    };
    Claimed {
        variant: text(row, "variant").into(),
        gain: said("interaction", "verdict", ["gains", "loses"]),
        lead: said("advantage", "stands", ["ahead", "behind"]),
    }
}

/// `the near wing drops to the low post`.
fn answer(rule: &str) -> String {
    let words = rule.replace('-', " ");
    let to = if words.ends_with("drops") || words.ends_with("crosses") { " to the low post" } else { "" };
    format!("the {words}{to}")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::places::made_up::{VARIANTS, table};
    use crate::places::{answers_csv, calls_csv};

    fn row(cells: &[(&str, &str)]) -> Row {
        cells.iter().map(|(key, value)| ((*key).to_owned(), (*value).to_owned())).collect()
    }

    fn called(rule: &str, variant: &str, net: &str, low: &str) -> Row {
        row(&[
            ("post_help_rule", rule),
            ("in_force", if rule == "far-back-crosses" { "true" } else { "false" }),
            ("variant", variant),
            ("expected_net_points", net),
            ("lead", "0.05"),
            ("lead_together_low", low),
            ("lead_together_high", "0.08"),
        ])
    }

    fn answered(rule: &str, variant: &str, measure: &str, verdict: &str) -> Row {
        row(&[
            ("post_help_rule", rule),
            ("variant", variant),
            ("measure", measure),
            ("interaction", if verdict == "loses" { "-0.06" } else { "0.06" }),
            ("interaction_together_low", if verdict == "loses" { "-0.10" } else { "0.02" }),
            ("interaction_together_high", if verdict == "loses" { "-0.02" } else { "0.10" }),
            ("advantage", "0.12"),
            ("advantage_together_low", "0.06"),
            ("advantage_together_high", "0.18"),
            ("verdict", verdict),
            ("stands", if verdict == "gains" { "ahead" } else { "" }),
            ("read", "corner-drop"),
            ("taken_by", "rover"),
            ("taken_by_share", "0.9"),
        ])
    }

    fn told(rows: &[Row], answers: &[Row], above: &[&str]) -> Vec<Call> {
        calls(Source { calls: rows, answers, above, baseline: "no option" })
    }

    #[test]
    fn against_the_answer_in_force_the_whole_comparison_decides_and_comes_first() {
        let rows = [
            called("point-drops", "sit", "0.9", ""),
            called("far-back-crosses", "sit", "0.95", ""),
            called("far-back-crosses", "run", "0.90", "0.02"),
        ];
        let answers = [answered("far-back-crosses", "run", "expected_net_points", "")];
        let of = |above: &[&str]| told(&rows, &answers, above)[0].clone();
        assert_eq!(of(&["run"]).when, "If the far back crosses to the low post (as this zone does)");
        assert_eq!(of(&["run"]).run, "As above: run run.");
        assert_eq!(
            of(&["run"]).look,
            "With run, throw it to the rover off corner-drop (90 of 100 such open looks are his)."
        );
        assert_eq!(of(&["run", "sit"]).run, "As above, a toss-up: run or sit.");
        assert_eq!(of(&["run", "sit", "a", "b"]).run, "As above, a toss-up: run, sit or 2 others.");
    }

    #[test]
    fn against_another_answer_a_clear_best_is_named_alone_and_else_it_is_a_toss_up() {
        let of = |low: &str| {
            let rows = [called("point-drops", "sit", "0.9", ""), called("point-drops", "run", "0.85", low)];
            told(&rows, &[], &["run"])[0].run.clone()
        };
        assert_eq!(of("0.02"), "Run sit: 18.0 net points in 20, 1.0 more than run (0.4 to 1.6).");
        let one_more = |rule: &str, variant: &str| called(rule, variant, "0.80", "-0.01");
        let rows: Vec<Row> = ["a", "b", "c", "d", "e"].map(|name| one_more("point-drops", name)).to_vec();
        assert!(told(&rows, &[], &[])[0].run.starts_with("Toss-up: a (16.0), b (16.0) or 3 others;"));
        assert!(told(&rows[..3], &[], &[])[0].run.starts_with("Toss-up: a (16.0), b (16.0) or c (16.0);"));
        assert_eq!(of("-0.01"), "Toss-up: sit (18.0) or run (17.0); no difference seen in net points in 20.");
    }

    /// The calls of a made-up run, through its files.
    fn made_up(percent: [u64; 9]) -> Vec<Call> {
        let table = table(percent, 4000, super::super::NET);
        let rows = |bytes: Vec<u8>| -> Vec<Row> {
            csv::Reader::from_reader(bytes.as_slice()).deserialize().map(|row| row.unwrap()).collect()
        };
        let (answers, called) = (rows(answers_csv(&table)), rows(calls_csv(&table.calls, table.possessions)));
        calls(Source { calls: &called, answers: &answers, above: &["flash"], baseline: VARIANTS[0] })
    }

    #[test]
    fn an_option_made_to_gain_under_one_rule_is_worded_so_and_one_that_does_not_is_not() {
        // `flash` leads by 15 of 100 where the near wing drops and by nothing elsewhere.
        let told = made_up([30, 40, 50, 30, 55, 50, 30, 40, 50]);
        let heads: Vec<&str> = told.iter().map(|call| call.when.as_str()).collect();
        let drops = "If the near wing drops to the low post";
        assert_eq!(
            heads,
            [
                "If the far back crosses to the low post (as this zone does)",
                drops,
                "If the point drops to the low post"
            ]
        );
        let net = |call: &Call| call.gains[0].trim_start_matches("Net points in 20: ").to_owned();
        assert!(net(&told[1]).starts_with("gains here: flash +"), "{told:?}");
        assert!(net(&told[1]).contains("; loses here: none; ahead of no option: flash +"), "{told:?}");
        assert!(told[1].run.starts_with("Run flash: "), "{}", told[1].run);
        assert!(net(&told[2]).starts_with("gains here: none; loses here: flash \u{2212}1."), "{told:?}");
        assert!(net(&told[2]).ends_with("; none can be told from no option."), "{told:?}");
        assert!(told[1].gains[1].starts_with("Open looks taken in 20: gains here: flash +"), "{told:?}");
        assert!(told[2].run.starts_with("Toss-up: "), "{}", told[2].run);
        assert!(told.iter().flat_map(|call| &call.gains).all(|line| !line.contains("seal")), "{told:?}");
        // The same lead everywhere is no gain anywhere.
        let even = made_up([30, 40, 50, 45, 55, 65, 30, 40, 50]);
        let quiet = |line: &String| line.contains(": no gain or loss seen here; ahead of no option: flash +");
        assert!(even.iter().flat_map(|call| &call.gains).all(quiet), "{even:?}");
    }

    #[test]
    fn only_what_the_table_claims_gains_or_loses() {
        let (rule, net) = ("point-drops", "expected_net_points");
        let rows = [called(rule, "sit", "0.9", "")];
        let of = |answers: &[Row]| told(&rows, answers, &["sit"])[0].gains.clone();
        let quiet = [answered(rule, "sit", net, ""), answered("near-wing-drops", "sit", net, "gains")];
        assert_eq!(of(&quiet), ["Net points in 20: no difference seen."]);
        let claimed = [answered(rule, "sit", net, "gains"), answered(rule, "run", net, "loses")];
        assert_eq!(
            of(&claimed),
            [
                "Net points in 20: gains here: sit +1.2 (+0.4 to +2.0); loses here: run \u{2212}1.2 (\u{2212}2.0 to \u{2212}0.4); \
              ahead of no option: sit +2.4; behind it: none."
            ]
        );
        let two = [answered(rule, "sit", "open_look_rate", "loses"), answered(rule, "sit", net, "")];
        let lines = of(&two);
        assert_eq!(lines[0], "Net points in 20: no difference seen.");
        assert!(
            lines[1].starts_with("Open looks taken in 20: gains here: none; loses here: sit"),
            "{lines:?}"
        );
        assert_eq!(of(&[]), [""; 0], "one rule alone: nothing to compare it with");
    }
}
