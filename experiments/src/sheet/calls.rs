//! If-then calls: what to run, and who is open, under each answer of the zone.

use super::results::{Row, number, text};
use super::words::{TWENTY, in_twenty, position};
use crate::columns::Column;
use crate::wording::capital;

/// One call.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Call {
    /// What the zone does.
    pub when: String,
    /// What to do then.
    pub then: String,
    /// Whether the possessions support that this answer changes anything.
    pub seen: String,
}

/// The calls for the attacks that the sheet is about, from the rows of `answers.csv`. The answer that the zone gives
/// anyway comes first.
pub fn calls(answers: &[Row], attacks: &[String]) -> Vec<Call> {
    let mut rules: Vec<(&str, bool)> = Vec::new();
    for row in answers.iter().filter(|row| attacks.iter().any(|name| name == text(row, "variant"))) {
        let rule = text(row, "post_help_rule");
        if !rules.iter().any(|(known, _)| *known == rule) {
            rules.push((rule, text(row, "in_force") == "true"));
        }
    }
    rules.sort_by_key(|(_, in_force)| !in_force);
    rules.into_iter().filter_map(|(rule, in_force)| call(answers, attacks, rule, in_force)).collect()
}

fn call(answers: &[Row], attacks: &[String], rule: &str, in_force: bool) -> Option<Call> {
    let of_rule = answers.iter().filter(|row| text(row, "post_help_rule") == rule);
    let own = of_rule.filter(|row| attacks.iter().any(|name| name == text(row, "variant")));
    let net = |row: &Row| number(row, "expected_net_points").unwrap_or(f64::NEG_INFINITY);
    let mut own: Vec<&Row> = own.collect();
    own.sort_by(|a, b| net(b).total_cmp(&net(a)));
    let (best, next) = (*own.first()?, own.get(1));
    let ends =
        |row: &Row| Some((number(row, "expected_net_points_low")?, number(row, "expected_net_points_high")?));
    // Each interval by itself: a gap between them is more than enough to tell two attacks apart.
    let apart = match (ends(best), next.and_then(|row| ends(row))) {
        (Some((low, _)), Some((_, high))) => low > high,
        _ => false,
    };
    let name = text(best, "variant");
    let run = match next {
        Some(next) if !apart => format!("run {name} or {}: no clear difference", text(next, "variant")),
        _ => format!("run {name}, {} net points in 20", in_twenty(net(best))),
    };
    let shooter = position(text(best, "taken_by"));
    let share = number(best, "taken_by_share")
        .map_or_else(String::new, |share| format!(" ({:.0} of 100 such open looks are his)", 100.0 * share));
    let read = match text(best, "read") {
        "" => String::new(),
        "none" => format!(" Throw it to {shooter} where he stands open{share}."),
        read => format!(" Throw it to {shooter} off {read}{share}."),
    };
    Some(Call {
        when: format!(
            "{}{}",
            capital(&answer_words(rule)),
            if in_force { " (what they do now)" } else { "" }
        ),
        then: format!("{}.{read}", capital(&run)),
        seen: seen(best, in_force),
    })
}

/// What is known of the change from the answer in force.
fn seen(row: &Row, in_force: bool) -> String {
    if in_force {
        return String::new();
    }
    let measure = Column::named(text(row, "measure")).map_or("", |column| column.words);
    let (Some(change), Some(p)) = (number(row, "difference"), number(row, "p_holm")) else {
        return String::new();
    };
    if p >= 0.05 {
        return format!("Against what they do now, no difference in {measure} is seen.");
    }
    let more = if change > 0.0 { "more" } else { "fewer" };
    let ends = |a: &str, b: &str| Some((number(row, a)?, number(row, b)?));
    let interval = ends("difference_together_low", "difference_together_high").map_or_else(
        String::new,
        |(low, high)| {
            let (low, high) = if change > 0.0 { (low, high) } else { (-high, -low) };
            format!(" ({:.1} to {:.1})", TWENTY * low, TWENTY * high)
        },
    );
    format!("{:.1} {more} {measure} in 20 than against what they do now{interval}.", TWENTY * change.abs())
}

/// `the near wing drops to the low post`.
fn answer_words(rule: &str) -> String {
    let words = rule.replace('-', " ");
    let to = if words.ends_with("drops") || words.ends_with("crosses") { " to the low post" } else { "" };
    format!("if the {words}{to}")
}

#[cfg(test)]
mod tests {
    use super::*;

    fn row(variant: &str, rule: &str, net: (f64, f64, f64), more: &[(&str, &str)]) -> Row {
        let mut row: Row = [
            ("variant", variant),
            ("post_help_rule", rule),
            ("in_force", "false"),
            ("measure", "open_look_rate"),
            ("read", "none"),
            ("taken_by", "rover"),
            ("taken_by_share", "0.9"),
        ]
        .into_iter()
        .chain(more.iter().copied())
        .map(|(key, value)| (key.to_owned(), value.to_owned()))
        .collect();
        for (key, value) in [("", net.0), ("_low", net.1), ("_high", net.2)] {
            row.insert(format!("expected_net_points{key}"), value.to_string());
        }
        row
    }

    fn names() -> Vec<String> {
        ["run", "sit"].map(String::from).to_vec()
    }

    #[test]
    fn the_answer_in_force_comes_first_and_a_clear_leader_is_named_alone() {
        let rows = [
            row("run", "point-drops", (0.9, 0.89, 0.91), &[("difference", "0.02"), ("p_holm", "0.4")]),
            row("run", "far-back-crosses", (0.95, 0.94, 0.96), &[("in_force", "true")]),
            row("sit", "far-back-crosses", (0.80, 0.79, 0.81), &[("in_force", "true")]),
            row("other", "far-back-crosses", (1.80, 1.79, 1.81), &[("in_force", "true")]),
        ];
        let calls = calls(&rows, &names());
        assert_eq!(calls.len(), 2);
        assert_eq!(calls[0].when, "If the far back crosses to the low post (what they do now)");
        assert_eq!(
            calls[0].then,
            "Run run, 19.0 net points in 20. Throw it to the rover where he stands open (90 of 100 such open looks are \
             his)."
        );
        assert_eq!(calls[0].seen, "");
        assert_eq!(calls[1].seen, "Against what they do now, no difference in open looks taken is seen.");
    }

    #[test]
    fn attacks_whose_intervals_touch_are_not_told_apart() {
        let more = [("difference", "-0.05"), ("p_holm", "0.01"), ("difference_together_low", "-0.08")];
        let rows = [
            row("run", "near-wing-drops", (0.95, 0.90, 1.00), &more),
            row("sit", "near-wing-drops", (0.93, 0.88, 0.98), &[("read", "far-flash")]),
        ];
        let calls = calls(&rows, &names());
        assert!(calls[0].then.starts_with("Run run or sit: no clear difference."), "{}", calls[0].then);
        assert!(calls[0].seen.starts_with("1.0 fewer open looks taken in 20 than"), "{}", calls[0].seen);
    }
}
