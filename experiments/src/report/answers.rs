//! If the zone adjusts: who gains and who loses against each of them, and by how much.

use maud::{Markup, html};

use super::answer::{figure, headed};
use super::{Results, Section};
use crate::columns::Column;
use crate::gains::{Claimed, Said, counted, signed, told};
use crate::output::cell;
use crate::places::{Answered, AnswersTable, Claim, Read, Verdict};
use crate::stats::Better;
use crate::wording::{capital, grouped};

pub(super) fn section(results: &Results<'_>) -> Option<Section> {
    let table = results.tables.beside.answers.as_ref().filter(|table| !table.rows.is_empty())?;
    let (here, compared) = (variants(table).len(), results.comparison.order.len());
    let fewer = table.possessions < results.comparison.possessions;
    let rules = table.rules();
    let several = rules.len() > 1;
    let html = html! {
        p {
            "The post help rule says who takes the low post once the near back has gone out. "
            @if here == compared { "All " (results.comparison.question.noun) "s" }
            @else { "The first by rank, " (table.baseline) " and the two best by net points" }
            " are played again under every rule that this zone knows, on the same " (grouped(table.possessions))
            " possessions"
            @if fewer { " (the first of this run, so these figures differ a little from those above, and less is clear; against their \
                 usual rule go by the ranking)" }
            "."
        }
        @if several {
            p {
                "To gain under a rule means that the lead over " (table.baseline) " is better there than the mean lead under \
                 the other rules; to lose, that it is worse. What is not named is too close to call."
            }
            ul { @for rule in &rules { li data-rule=(rule) {
                strong { (rule) @if in_force(table, rule) { " (usual)" } } ": " (sentence(table, rule))
            } } }
        }
        @if several { (grid(table, results.comparison.question.noun)) }
        details {
            summary { "All figures, with their intervals" }
            @for place in 0..table.columns.len() { (rows(table, place, results)) }
        }
        @if several {
            p class="quiet" {
                "All gains, losses and leads named here are right together in about 19 of 20 such runs: they allow for all "
                (table.family) " leads and changes of leads that were looked at."
            }
        }
    };
    Some(Section::new("answers", "If the zone adjusts", html))
}

/// The variants in the order of the table.
fn variants(table: &AnswersTable) -> Vec<&str> {
    let mut names: Vec<&str> = Vec::new();
    for row in &table.rows {
        if !names.contains(&row.variant.as_str()) {
            names.push(&row.variant);
        }
    }
    names
}

fn in_force(table: &AnswersTable, rule: &str) -> bool {
    table.rows.iter().any(|row| row.rule == rule && row.in_force)
}

/// Who gains and who loses under a rule, by every measure of the table.
fn sentence(table: &AnswersTable, rule: &str) -> String {
    let parts = table.columns.iter().enumerate().map(|(place, column)| {
        let own = table.rows.iter().filter(|row| row.rule == rule);
        let said: Vec<Claimed> = own.map(|row| said(row, place, column.better)).collect();
        format!("{}: {}.", capital(&counted(column)), told(column, &table.baseline, &said))
    });
    parts.collect::<Vec<_>>().join(" ")
}

fn said(row: &Answered, place: usize, better: Better) -> Claimed {
    let said = |claim: Option<Claim>| {
        let claim = claim?;
        Some(Said { good: claim.verdict(better)? == Verdict::Up, by: claim.contrast.interval })
    };
    let lead = row.measured[place].lead;
    Claimed { variant: row.variant.clone(), gain: said(lead.interaction), lead: said(lead.advantage) }
}

/// Who is ahead of the one compared with, and who gains, under each rule: a sign a cell.
fn grid(table: &AnswersTable, noun: &str) -> Markup {
    let rules = table.rules();
    let row =
        |variant: &str, rule: &str| table.rows.iter().find(|row| row.variant == variant && row.rule == rule);
    html! {
        div class="scroll" tabindex="0" role="region" aria-label="Who is ahead and who gains under each rule" {
            table id="answers-grid" class="grid" {
                caption { span {
                    "\u{25cf} ahead of " (table.baseline) ", \u{25cb} behind it, \u{b7} too close to call; \u{25b2} gains under this \
                     rule, \u{25bc} loses."
                } }
                thead {
                    tr {
                        th scope="col" rowspan="2" { (noun) }
                        @for column in &table.columns { th scope="colgroup" colspan=(rules.len()) { (column.words) } }
                    }
                    tr { @for _ in &table.columns { @for rule in &rules {
                        th scope="col" { (rule) @if in_force(table, rule) { " (usual)" } }
                    } } }
                }
                tbody { @for variant in variants(table) { tr {
                    th scope="row" { (variant) }
                    @for place in 0..table.columns.len() { @for rule in &rules {
                        (dot(table, row(variant, rule), place))
                    } }
                } } }
            }
        }
    }
}

/// A cell of the grid.
fn dot(table: &AnswersTable, row: Option<&Answered>, place: usize) -> Markup {
    let better = table.columns[place].better;
    let verdict = |claim: Option<Claim>| claim.and_then(|claim| claim.verdict(better));
    let lead = row.map(|row| row.measured[place].lead).unwrap_or_default();
    let is_baseline = row.is_some_and(|row| row.variant == table.baseline);
    let (stands, words) = match verdict(lead.advantage) {
        _ if is_baseline => ("", "the one compared with"),
        Some(Verdict::Up) => ("\u{25cf}", "ahead"),
        Some(Verdict::Down) => ("\u{25cb}", "behind"),
        None => ("\u{b7}", "too close to call"),
    };
    let (turn, more) = match verdict(lead.interaction) {
        Some(Verdict::Up) => (" \u{25b2}", ", gains"),
        Some(Verdict::Down) => (" \u{25bc}", ", loses"),
        None => ("", ""),
    };
    html! { td { span aria-hidden="true" { (stands) (turn) } span class="ear" { (words) (more) } } }
}

/// All figures of one measure; the first table also tells what made the open looks.
fn rows(table: &AnswersTable, place: usize, results: &Results<'_>) -> Markup {
    let noun = results.comparison.question.noun;
    let (column, first) = (table.columns[place], place == 0);
    let id = if first { "answers-table".to_owned() } else { format!("answers-table-{}", column.key) };
    html! {
        div class="scroll" tabindex="0" role="region"
            aria-label=(format!("{} under each post help rule", column.words)) {
            table id=(id) {
                caption { span {
                    "Counts are in 20 possessions; under each figure its 95 % interval by itself. Under each difference \
                     the wider one that holds for all of its kind: " (table.changes) " against their usual rule, "
                    (table.family) " leads and changes of leads. Better or worse against this rule: the lead less the mean lead under the \
                     other rules."
                    @if first {
                        " The last columns: which read (route or option) led to most of the open looks, and who took those."
                    }
                } }
                thead { tr {
                    th scope="col" { (noun) } th scope="col" { "post help rule" }
                    th scope="col" class="n" { (headed(column)) }
                    th scope="col" class="n" { "against their usual rule" }
                    th scope="col" class="n" { "lead over " (table.baseline) }
                    th scope="col" class="n" { "better or worse against this rule" }
                    @if first { th scope="col" { "read with most open looks" } th scope="col" { "taken by" } }
                } }
                tbody { @for row in &table.rows { tr {
                    @let own = row.measured[place];
                    th scope="row" { (row.variant) }
                    td class="w" { (row.rule) @if row.in_force { " (usual)" } }
                    (figure(column, own.value))
                    (claimed(column, "difference", own.change, ["a difference is seen"; 2]))
                    (claimed(column, "advantage", own.lead.advantage, ["ahead", "behind"]))
                    (claimed(column, "interaction", own.lead.interaction, ["gains", "loses"]))
                    @if first { (read(row, results)) }
                } } }
            }
        }
    }
}

fn claimed(column: &Column, kind: &str, claim: Option<Claim>, words: [&'static str; 2]) -> Markup {
    html! {
        @match claim {
            None => td class="n" { "\u{2013}" },
            Some(claim) => {
                @let interval = claim.contrast.interval;
                @let signed = |value: f64| signed(column, value, &interval);
                @let faint = if claim.verdict(column.better).is_none() { "n quiet" } else { "n" };
                td class=(faint) data-kind=(kind) data-estimate=(cell(Some(interval.estimate))) {
                    (signed(interval.estimate)) br;
                    span class="quiet" {
                        (signed(interval.low)) " to " (signed(interval.high)) br;
                        (word(claim, column.better, words))
                    }
                }
            },
        }
    }
}

fn word(claim: Claim, better: Better, words: [&'static str; 2]) -> &'static str {
    match claim.verdict(better) {
        Some(Verdict::Up) => words[0],
        Some(Verdict::Down) => words[1],
        None => "no difference seen",
    }
}

/// What made looks. What ran in fewer than half of the possessions is no reason by itself, and is not named.
fn maker(read: &Read, usual: bool) -> String {
    match (read.kind, usual) {
        ("none", _) => "plain ball movement".into(),
        (kind, true) => format!("{} ({kind})", read.name),
        (kind, false) => format!("a {kind} that ran in fewer than half of the possessions"),
    }
}

/// Whether a variant ran this in half of its possessions or more.
fn is_usual(results: &Results<'_>, variant: &str, read: &Read) -> bool {
    let place = results.comparison.question.variants.iter().position(|own| own == variant);
    let runs = place.and_then(|v| results.tables.beside.runs.get(v));
    let own = runs.and_then(|runs| runs.by_name.iter().find(|(_, name, _)| *name == read.name));
    own.is_some_and(|(_, _, often)| often.is_usual())
}

fn read(row: &Answered, results: &Results<'_>) -> Markup {
    let maker = |read: &Read| maker(read, is_usual(results, &row.variant, read));
    let share = |part: i64, whole: i64| format!("{:.0} %", 100.0 * part as f64 / whole.max(1) as f64);
    html! {
        @match &row.read {
            None => { td { "no open look" } td { "\u{2013}" } },
            Some(read) => {
                td {
                    span class="w" { (share(read.own, read.looks)) " from " } (maker(read))
                    @if let Some(named) = &row.named {
                        br; span class="quiet" {
                            "then " span class="w" { (share(named.own, named.looks)) " from " } (maker(named))
                        }
                    }
                }
                td { (read.shooter.replace('-', " ")) span class="w" { ", " (share(read.by_shooter, read.own)) } }
            },
        }
    }
}
