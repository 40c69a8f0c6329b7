//! If-then calls: what to run, who is open, and who gains or loses, under each answer of the zone.

use super::adjusted::{Behind, run};
use super::words::position;
use crate::columns::Column;
use crate::gains::{Claimed, Said, counted, told};
use crate::output::Decimal;
use crate::places::{AnswerLine, CallLine, Change, Stands};
use crate::stats::Interval;
use crate::verdict::NET;
use crate::wording::{capital, listed};

/// One call.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Call {
    /// What the zone does.
    pub when: String,
    /// Whether it does so anyway.
    pub usual: bool,
    /// Which attack to run then.
    pub run: String,
    /// Who gets the ball.
    pub look: String,
    /// Who gains and who loses against this answer, a line a measure; empty where that cannot be asked.
    pub gains: Vec<String>,
}

/// What the calls are made of.
#[derive(Clone, Copy, Debug)]
pub(super) struct Source<'a> {
    pub calls: &'a [CallLine],
    pub answers: &'a [AnswerLine],
    /// The attack that the cards are of.
    pub main: &'a str,
    /// The variant over which leads are taken.
    pub baseline: &'a str,
    /// What the verdict says not to run.
    pub against: &'a [&'a str],
    /// What it calls clearly best, and by which measures.
    pub clear: &'a [(&'a str, &'static str)],
    /// The measures by which it ranks.
    pub ranked_by: &'a [&'a str],
}

impl Source<'_> {
    /// Whether the verdict ranks by what this row is about.
    fn ranks_by(self, line: &AnswerLine) -> bool {
        self.ranked_by.contains(&line.measure.as_str())
    }
}

/// The calls. The answer that the zone gives anyway comes first, and the whole comparison says what to run against it,
/// so that the page cannot say two things of it.
pub(super) fn calls(source: Source<'_>) -> Vec<Call> {
    let mut firsts: Vec<&CallLine> = Vec::new();
    for line in source.calls {
        if !firsts.iter().any(|known| known.post_help_rule == line.post_help_rule) {
            firsts.push(line);
        }
    }
    firsts.sort_by_key(|line| !line.in_force);
    firsts.into_iter().map(|first| call(source, first)).collect()
}

/// What is clearly behind under the rule in force by measures by which the verdict does not rank, with whom and which.
pub(super) fn behind_besides<'a>(source: Source<'a>) -> Vec<(Vec<&'a str>, String)> {
    let own: Vec<&CallLine> = source.calls.iter().filter(|line| line.in_force).collect();
    let Some(rule) = own.first().map(|line| &line.post_help_rule) else { return Vec::new() };
    let is_besides = |line: &&AnswerLine| line.post_help_rule == *rule && !source.ranks_by(line);
    let answers: Vec<&AnswerLine> = source.answers.iter().filter(is_besides).collect();
    let groups = Behind::of(&own, &answers, source.baseline).groups();
    groups.into_iter().map(|(by, names)| (names, listed(&by))).collect()
}

/// The call against the rule of this line, the first of its rule.
fn call(source: Source<'_>, first: &CallLine) -> Call {
    let rule = &first.post_help_rule;
    let own: Vec<&CallLine> = source.calls.iter().filter(|line| line.post_help_rule == *rule).collect();
    // What the verdict ranks by it says of the rule in force, of more possessions: the page says one thing of it.
    let is_told = |line: &&AnswerLine| !(first.in_force && source.ranks_by(line));
    let answers = source.answers.iter().filter(|line| line.post_help_rule == *rule);
    let (answers, ranked): (Vec<&AnswerLine>, Vec<&AnswerLine>) = answers.partition(is_told);
    let (best, run) =
        if first.in_force { (source.main, AS_ABOVE.to_owned()) } else { run(&own, &answers, source) };
    let named = answers.iter().chain(&ranked).find(|line| line.variant == best);
    let rule = &first.rule_in_words;
    Call {
        usual: first.in_force,
        when: if first.in_force { format!("{USUAL} ({rule})") } else { format!("If {}", theirs(rule)) },
        run,
        look: named.map_or_else(String::new, |line| look(line, source)),
        gains: gains(&answers, source.baseline),
    }
}

/// A rule of theirs: a wing or a point that drops is one of the zone, not one's own.
fn theirs(rule: &str) -> String {
    rule.strip_prefix("the ").map_or_else(|| rule.to_owned(), |rest| format!("their {rest}"))
}

/// The answer that they give as long as nothing is changed.
const USUAL: &str = "Their usual rule";

/// What to run against the answer in force: the whole comparison is about it.
const AS_ABOVE: &str = "All above was played against this.";

/// Whose most of the good looks of the attack to run are: no order whom to pass to.
fn look(line: &AnswerLine, Source { main, .. }: Source<'_>) -> String {
    let with = if line.variant == main { String::new() } else { format!("with {}, ", line.variant) };
    let told = |share: f64| {
        let who = position(&line.good_taken_by);
        capital(&format!("{with}{:.0} % of the good looks are those of {who}.", 100.0 * share))
    };
    line.good_taken_share.0.map_or_else(String::new, told)
}

/// Who gains and who loses, by every measure of the table, net points first.
fn gains(answers: &[&AnswerLine], baseline: &str) -> Vec<String> {
    let mut measures: Vec<&str> = Vec::new();
    for line in answers.iter().filter(|line| line.interaction.0.is_some()) {
        if !measures.contains(&line.measure.as_str()) {
            measures.push(&line.measure);
        }
    }
    measures.sort_by_key(|measure| *measure != NET);
    let of = |measure: &str| {
        let column = Column::named(measure)?;
        let own = answers.iter().filter(|line| line.measure == measure);
        let words = told(column, baseline, &own.map(|line| claimed(line)).collect::<Vec<_>>());
        // The sheet says of its net points once what they are.
        Some(format!("{}: {words}.", capital(counted(column).trim_start_matches("expected "))))
    };
    measures.into_iter().filter_map(of).collect()
}

/// What a row claims; the table says whether it does.
fn claimed(line: &AnswerLine) -> Claimed {
    let said = |good: Option<bool>, [estimate, low, high]: [Decimal; 3]| {
        Some(Said { good: good?, by: Interval { estimate: estimate.0?, low: low.0?, high: high.0? } })
    };
    let gain = [line.interaction, line.interaction_together_low, line.interaction_together_high];
    let lead = [line.advantage, line.advantage_together_low, line.advantage_together_high];
    Claimed {
        variant: line.variant.clone(),
        gain: said(line.verdict.map(|verdict| verdict == Change::Gains), gain),
        lead: said(line.stands.map(|stands| stands == Stands::Ahead), lead),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::places::made_up::{VARIANTS, table};
    use crate::places::{answer_lines, call_lines};

    fn called(rule: &str, variant: &str, net: f64, low: Option<f64>) -> CallLine {
        CallLine {
            post_help_rule: rule.into(),
            rule_in_words: format!("they play {rule}"),
            in_force: rule == "usual",
            variant: variant.into(),
            expected_net_points: net.into(),
            lead: 0.05.into(),
            lead_together_low: Decimal(low),
            lead_together_high: 0.08.into(),
            ..CallLine::default()
        }
    }

    fn answered(rule: &str, variant: &str, measure: &str, verdict: Option<Change>) -> AnswerLine {
        let turned = if verdict == Some(Change::Loses) { -1.0 } else { 1.0 };
        let [near, far] = if turned > 0.0 { [0.02, 0.10] } else { [-0.10, -0.02] };
        AnswerLine {
            variant: variant.into(),
            post_help_rule: rule.into(),
            measure: measure.into(),
            interaction: (turned * 0.06).into(),
            interaction_together_low: near.into(),
            interaction_together_high: far.into(),
            advantage: 0.12.into(),
            advantage_together_low: 0.06.into(),
            advantage_together_high: 0.18.into(),
            verdict,
            stands: (verdict == Some(Change::Gains)).then_some(Stands::Ahead),
            good_taken_by: "rover".into(),
            good_taken_share: 0.44.into(),
            ..AnswerLine::default()
        }
    }

    fn told(rows: &[CallLine], answers: &[AnswerLine], main: &str) -> Vec<Call> {
        calls(Source {
            calls: rows,
            answers,
            main,
            baseline: "no option",
            against: &["d"],
            clear: &[],
            ranked_by: &[],
        })
    }

    #[test]
    fn against_the_answer_in_force_the_whole_comparison_decides_and_comes_first() {
        let rows = [
            called("other", "sit", 0.9, None),
            called("usual", "sit", 0.95, None),
            called("usual", "run", 0.90, Some(0.02)),
        ];
        let answers = [answered("usual", "run", "expected_net_points", None)];
        let of = |main: &str| told(&rows, &answers, main)[0].clone();
        assert_eq!(of("run").when, "Their usual rule (they play usual)");
        assert_eq!(of("run").run, AS_ABOVE);
        assert_eq!(of("run").look, "44 % of the good looks are those of the rover (3).");
    }

    #[test]
    fn of_the_answer_in_force_only_what_nothing_ranks_by_is_told_of_its_own_table() {
        let net = |rule, stands| AnswerLine { stands, ..answered(rule, "run", NET, None) };
        let good = |rule, stands| AnswerLine { stands, ..answered(rule, "run", "good_look_rate", None) };
        let behind = Some(Stands::Behind);
        let rows = [called("usual", "sit", 0.9, None), called("usual", "run", 0.8, None)];
        let other = [called("other", "sit", 0.9, None), called("other", "run", 0.8, None)];
        let rows = [rows, other].concat();
        let answers = [net("usual", behind), good("usual", behind), net("other", behind)];
        let of = |ranked_by: &[&str]| {
            let source = Source {
                calls: &rows,
                answers: &answers,
                main: "sit",
                baseline: "sit",
                against: &[],
                clear: &[],
                ranked_by,
            };
            let told: Vec<(Vec<String>, String)> = behind_besides(source)
                .into_iter()
                .map(|(names, by)| (names.into_iter().map(str::to_owned).collect(), by))
                .collect();
            (calls(source), told)
        };
        let (all, besides) = of(&[NET]);
        assert!(all[0].gains.iter().all(|line| line.starts_with("Good looks")), "{all:?}");
        assert!(all[1].gains[0].starts_with("Net points"), "another rule has its own table: {all:?}");
        assert_eq!(besides, [(vec!["run".to_owned()], "sit in good looks".to_owned())]);
        let (all, besides) = of(&[NET, "good_look_rate"]);
        assert!(all[0].gains.is_empty() && besides.is_empty(), "the ranking says it: {all:?}");
    }

    #[test]
    fn against_another_answer_a_clear_best_is_named_alone_and_else_it_is_a_toss_up() {
        let of = |low: f64| {
            let rows = [called("other", "sit", 0.9, None), called("other", "run", 0.85, Some(low))];
            told(&rows, &[], "run")[0].run.clone()
        };
        assert_eq!(of(0.02), "Run sit: 18.0 net points in 20, 1.0 more than run (0.4 to 1.6).");
        let rows = ["a", "b", "c", "e", "f"].map(|name| called("other", name, 0.80, Some(-0.01)));
        let keep = "Keep what you run";
        assert_eq!(
            told(&rows, &[], "c")[0].run,
            format!("{keep}: none clearly differs from no option in net points.")
        );
        assert_eq!(of(-0.01), format!("{keep}: none clearly differs from no option in net points."));
        let mut rows = rows.to_vec();
        rows.push(called("other", "far", 0.5, Some(0.02)));
        let far = AnswerLine { stands: Some(Stands::Behind), ..answered("other", "far", NET, None) };
        assert_eq!(
            told(&rows, std::slice::from_ref(&far), "c")[0].run,
            "Nothing to switch to: keep what you run. Drop only far (behind no option in net points); the 5 that are left are not told apart here."
        );
        assert_eq!(
            told(&rows, &[far], "far")[0].run,
            "Drop far (behind no option in net points). The 5 that are left are not told apart here: run what your players run best."
        );
        // Behind the best of this table, but not behind the one compared with: no page says that it is behind.
        assert_eq!(
            told(&rows, &[], "far")[0].run,
            format!("{keep}: none clearly differs from no option in net points.")
        );
    }

    #[test]
    fn what_is_behind_by_either_measure_is_named_and_nothing_is_silently_allowed_again() {
        let rows = ["a", "b", "d", "no option"].map(|name| called("other", name, 0.80, Some(-0.01)));
        let stands = |variant, measure, stands| AnswerLine {
            stands: Some(stands),
            ..answered("other", variant, measure, None)
        };
        let behind = stands("b", "good_look_rate", Stands::Behind);
        let net = answered("other", "a", NET, None);
        assert_eq!(
            told(&rows, &[net.clone(), behind.clone()], "a")[0].run,
            "Nothing to switch to: keep what you run. Drop only b (behind no option in good looks); the 3 that are left are not told apart here. It is not clear here that d is behind."
        );
        // Where one is ahead of the one that all are compared with, that one is behind.
        let ahead = stands("a", "good_look_rate", Stands::Ahead);
        let told_of = told(&rows, &[net, behind, ahead], "b")[0].run.clone();
        assert!(
            told_of.starts_with(
                "Drop b (behind no option in good looks) and no option (behind a in good looks). The 2 that are left "
            ),
            "{told_of}"
        );
        let clear = [called("other", "a", 0.9, None), called("other", "b", 0.8, Some(0.02))];
        let but = [stands("a", "good_look_rate", Stands::Behind)];
        assert!(
            told(&clear, &but, "b")[0].run.ends_with("(0.4 to 1.6). It is behind no option in good looks.")
        );
    }

    /// The calls of a made-up run.
    fn made_up(percent: [u64; 9]) -> Vec<Call> {
        let table = table(percent, 4000, NET);
        let answers: Vec<AnswerLine> = answer_lines(&table).collect();
        let called: Vec<CallLine> = call_lines(&table.calls, table.possessions).collect();
        let source = Source {
            calls: &called,
            answers: &answers,
            main: "flash",
            baseline: VARIANTS[0],
            against: &[],
            clear: &[],
            ranked_by: &[],
        };
        calls(source)
    }

    #[test]
    fn an_option_made_to_gain_under_one_rule_is_worded_so_and_one_that_does_not_is_not() {
        // `flash` leads by 15 of 100 where the near wing drops and by nothing elsewhere.
        let told = made_up([30, 40, 50, 30, 55, 50, 30, 40, 50]);
        let heads: Vec<&str> = told.iter().map(|call| call.when.as_str()).collect();
        let drops = "If their near wing drops";
        assert_eq!(heads, ["Their usual rule (the far back crosses)", drops, "If their point drops"]);
        let net = |call: &Call| call.gains[0].trim_start_matches("Net points in 20: ").to_owned();
        assert!(net(&told[1]).starts_with("gains here: flash +"), "{told:?}");
        assert!(net(&told[1]).contains("; loses here: none; ahead of no option: flash +"), "{told:?}");
        assert!(told[1].run.starts_with("Run flash: "), "{}", told[1].run);
        assert!(net(&told[2]).starts_with("gains here: none; loses here: flash \u{2212}1."), "{told:?}");
        assert!(net(&told[2]).ends_with("; all too close to call with no option."), "{told:?}");
        assert!(told[1].gains[1].starts_with("Good looks in 20: gains here: flash +"), "{told:?}");
        assert!(told[2].run.starts_with("Keep what you run: "), "{}", told[2].run);
        assert!(told.iter().flat_map(|call| &call.gains).all(|line| !line.contains("seal")), "{told:?}");
        // The same lead everywhere is no gain anywhere.
        let even = made_up([30, 40, 50, 45, 55, 65, 30, 40, 50]);
        let quiet = |line: &String| {
            line.contains(": ahead of no option: flash +") && line.ends_with("; nothing else differs here.")
        };
        assert!(even.iter().flat_map(|call| &call.gains).all(quiet), "{even:?}");
    }

    #[test]
    fn only_what_the_table_claims_gains_or_loses() {
        let (rule, net) = ("other", "expected_net_points");
        let (gains, loses) = (Some(Change::Gains), Some(Change::Loses));
        let rows = [called(rule, "sit", 0.9, None)];
        let of = |answers: &[AnswerLine]| told(&rows, answers, "sit")[0].gains.clone();
        let quiet = [answered(rule, "sit", net, None), answered("usual", "sit", net, gains)];
        assert_eq!(of(&quiet), ["Net points in 20: none clearly differs from no option."]);
        let claimed = [answered(rule, "sit", net, gains), answered(rule, "run", net, loses)];
        assert_eq!(
            of(&claimed),
            [
                "Net points in 20: gains here: sit +1.2 (+0.4 to +2.0); loses here: run \u{2212}1.2 (\u{2212}2.0 to \u{2212}0.4); \
              ahead of no option: sit +2.4; behind it: none."
            ]
        );
        let two = [answered(rule, "sit", "open_look_rate", loses), answered(rule, "sit", net, None)];
        let lines = of(&two);
        assert_eq!(lines[0], "Net points in 20: none clearly differs from no option.");
        assert!(
            lines[1].starts_with("Open looks taken in 20: gains here: none; loses here: sit"),
            "{lines:?}"
        );
        assert_eq!(of(&[]), [""; 0], "one rule alone: nothing to compare it with");
    }
}
