//! Which answer of the zone each variant gains most against.

use maud::{Markup, html};

use super::answer::{figure, headed};
use super::{Results, Section};
use crate::columns::Column;
use crate::output::cell;
use crate::places::{Answered, AnswersTable, Read};
use crate::stats::Interval;
use crate::wording::{alike, gap, grouped, listed};

pub(super) fn section(results: &Results<'_>) -> Option<Section> {
    let table = results.tables.answers.as_ref().filter(|table| !table.rows.is_empty())?;
    let variants = variants(table);
    let fewer = table.possessions < results.comparison.possessions;
    let html = html! {
        p {
            "The post help rule says who takes the low post once the near back has gone out. The leaders, the \
             baseline and the two best by net points are played again under every rule that this zone knows, on the same "
            (grouped(table.possessions)) " possessions"
            @if fewer { " (the first of this run, so these figures differ a little from those above)" }
            ". That makes " (table.pairs) " pairs of rules; the intervals of the differences allow for all of them \
             at once."
        }
        ul { @for variant in &variants { li { (sentence(table, variant)) } } }
        (rows(table, &variants))
    };
    Some(Section::new("answers", "What the zone's answers change", html))
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

/// The rule that a variant gains most against, if the corrected test parts it from the others, and how each
/// compares with the rule in force.
fn sentence(table: &AnswersTable, variant: &str) -> String {
    let own: Vec<&Answered> = table.rows.iter().filter(|row| row.variant == variant).collect();
    let Some(force) = own.iter().find(|row| row.in_force) else { return format!("{variant}: no data") };
    let (clear, unclear): (Vec<&Answered>, Vec<&Answered>) =
        own.iter().copied().filter(|row| !row.in_force).partition(|row| seen(row));
    let rules = |rows: &[&Answered]| listed(&rows.iter().map(|row| row.rule.as_str()).collect::<Vec<_>>());
    if clear.is_empty() && !own.iter().any(|row| row.gains_most) {
        return format!(
            "{variant}: no difference is seen between {}, the rule in force, and {}.",
            force.rule,
            rules(&unclear)
        );
    }
    let head = match own.iter().find(|row| row.gains_most) {
        Some(row) => format!("{variant} gains most against {}", row.rule),
        None => format!("{variant}: no single rule can be told as the one it gains most against"),
    };
    let mut parts: Vec<String> = clear
        .iter()
        .filter_map(|row| {
            Some(format!("against {} {}", row.rule, gap(table.column, &row.difference?.interval)))
        })
        .collect();
    if !unclear.is_empty() {
        parts.push(format!("no difference seen against {}", rules(&unclear)));
    }
    format!("{head}. Compared with {}, the rule in force: {}.", force.rule, parts.join("; "))
}

/// The corrected test sees a difference from the rule in force.
fn seen(row: &Answered) -> bool {
    row.difference.is_some_and(|d| !d.interval.contains(0.0))
}

fn rows(table: &AnswersTable, variants: &[&str]) -> Markup {
    let net = Column::named("expected_net_points").filter(|net| net.key != table.column.key);
    html! {
        div class="scroll" tabindex="0" role="region" aria-label="Figures by variant and post help rule" {
            table id="answers-table" {
                caption { span {
                    "Counts are in 20 possessions; under each figure its 95 % interval by itself, under each \
                     difference the wider one that holds for all " (table.pairs) " pairs. The last columns: which \
                     read (route or option) made most of the open looks, and who took those."
                } }
                thead { tr {
                    th scope="col" { "variant" } th scope="col" { "post help rule" }
                    th scope="col" class="n" { (headed(table.column)) }
                    th scope="col" class="n" { "against the rule in force" }
                    @if let Some(net) = net { th scope="col" class="n" { (headed(net)) } }
                    th scope="col" { "read with most open looks" } th scope="col" { "taken by" }
                } }
                tbody { @for variant in variants {
                    @for row in table.rows.iter().filter(|row| row.variant == **variant) { tr {
                        th scope="row" { (row.variant) }
                        td class="w" { (row.rule) @if row.in_force { " (in force)" } }
                        (figure(table.column, row.value))
                        (difference(table.column, row))
                        @if let Some(net) = net { (figure(net, row.net)) }
                        (read(row))
                    } }
                } }
            }
        }
    }
}

fn difference(column: &Column, row: &Answered) -> Markup {
    html! {
        @match row.difference {
            None => td class="n" { "\u{2013}" },
            Some(d) => td class="n" data-difference=(cell(Some(d.interval.estimate))) {
                @let signed = |value: f64| signed(column, value, &d.interval);
                (signed(d.interval.estimate)) br;
                span class="quiet" {
                    (signed(d.interval.low)) " to " (signed(d.interval.high)) br;
                    @if seen(row) { "a difference is seen" } @else { "no difference seen" }
                }
            },
        }
    }
}

fn signed(column: &Column, value: f64, among: &Interval) -> String {
    let text = alike(column, value, among);
    if value > 0.0 { format!("+{text}") } else { text.replace('-', "\u{2212}") }
}

fn maker(read: &Read) -> String {
    if read.kind == "none" { "no read".into() } else { format!("{} ({})", read.name, read.kind) }
}

fn read(row: &Answered) -> Markup {
    let share = |part: i64, whole: i64| format!("{:.0} %", 100.0 * part as f64 / whole.max(1) as f64);
    html! {
        @match &row.read {
            None => { td { "no open look" } td { "\u{2013}" } },
            Some(read) => {
                td {
                    (maker(read)) span class="w" { ", " (share(read.own, read.looks)) }
                    @if let Some(named) = &row.named {
                        br; span class="quiet" {
                            "then " (maker(named)) span class="w" { ", " (share(named.own, named.looks)) }
                        }
                    }
                }
                td { (read.shooter.replace('-', " ")) span class="w" { ", " (share(read.by_shooter, read.own)) } }
            },
        }
    }
}
