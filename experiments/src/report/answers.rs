//! Which answer of the zone each variant punishes.

use maud::{Markup, html};

use super::answer::figure;
use super::{Results, Section};
use crate::columns::Column;
use crate::output::cell;
use crate::places::{Answered, AnswersTable, Read};
use crate::stats::Better;
use crate::wording::{gap, grouped, listed};

pub(super) fn section(results: &Results<'_>) -> Option<Section> {
    let table = results.tables.answers.as_ref().filter(|table| !table.rows.is_empty())?;
    let variants = variants(table);
    let html = html! {
        p {
            "The post help rule says who takes the low post once the near back has gone out. Each variant is played \
             again under every rule that this zone knows, on the same " (grouped(table.possessions)) " possessions, \
             and compared with the rule in force. The intervals of the differences hold for the whole table together."
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

/// The rule that a variant does best against, if any stands out, and how the others compare.
fn sentence(table: &AnswersTable, variant: &str) -> String {
    let own: Vec<&Answered> = table.rows.iter().filter(|row| row.variant == variant).collect();
    let Some(force) = own.iter().find(|row| row.in_force) else { return format!("{variant}: no data") };
    let sign = if table.column.better == Better::Higher { 1.0 } else { -1.0 };
    let changed = |row: &&&Answered| row.difference.is_some_and(|d| !d.interval.contains(0.0));
    let (clear, unclear): (Vec<&&Answered>, Vec<&&Answered>) =
        own.iter().filter(|row| !row.in_force).partition(changed);
    let gain = |row: &Answered| row.difference.map_or(0.0, |d| sign * d.interval.estimate);
    let most = clear.iter().filter(|row| gain(row) > 0.0).max_by(|a, b| gain(a).total_cmp(&gain(b)));
    let head = match most {
        Some(row) => format!("{variant} punishes {} most", row.rule),
        None if !clear.is_empty() && unclear.is_empty() => {
            format!("{variant} punishes {} most", force.rule)
        }
        None => format!("{variant}: no rule stands out"),
    };
    let mut parts: Vec<String> = clear
        .iter()
        .filter_map(|row| {
            Some(format!("against {} {}", row.rule, gap(table.column, &row.difference?.interval)))
        })
        .collect();
    if !unclear.is_empty() {
        let names: Vec<&str> = unclear.iter().map(|row| row.rule.as_str()).collect();
        parts.push(format!("no clear difference against {}", listed(&names)));
    }
    format!("{head}. Compared with {}, the rule in force: {}.", force.rule, parts.join("; "))
}

fn rows(table: &AnswersTable, variants: &[&str]) -> Markup {
    let net = Column::named("expected_net_points");
    html! {
        div class="scroll" tabindex="0" role="region" aria-label="Figures by variant and post help rule" {
            table id="answers-table" {
                caption { span {
                    "In 20 possessions. The last columns: which read made most of the open looks, and who took those."
                } }
                thead { tr {
                    th scope="col" { "variant" } th scope="col" { "post help rule" }
                    th scope="col" class="n" { (table.column.words) }
                    th scope="col" class="n" { "against the rule in force" }
                    th scope="col" class="n" { "expected net points" }
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
                (signed(column, d.interval.estimate)) br;
                span class="quiet" {
                    (signed(column, d.interval.low)) " to " (signed(column, d.interval.high))
                    @if let Some(p) = row.p_holm { br; "p " @if p < 0.001 { "< 0.001" } @else { (format!("{p:.3}")) } }
                }
            },
        }
    }
}

fn signed(column: &Column, value: f64) -> String {
    let text = crate::wording::bare(column, value);
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
