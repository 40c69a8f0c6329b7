//! The answer in three sentences, and the ranking that it is taken from.

use maud::{Markup, html};

use super::{Results, Section, terms};
use crate::columns::{Column, Told};
use crate::looks::{GOOD_LOOK, open_look};
use crate::output::cell;
use crate::picture;
use crate::sentences::sentences;
use crate::stats::Interval;
use crate::verdict::Differ;
use crate::wording::alike;

/// Columns of the table under the ranking, after the ranking column.
const BESIDE: [&str; 5] =
    ["good_look_rate", "open_look_rate", "paint_touch_rate", "turnover_rate", "expected_net_points"];

/// Heading of the column that says how often it was run.
const RUN: &str = "run: begun / to its end / brought its runner the ball";

/// Why bars may overlap and the first still be clearly best, or the other way round.
const KINDS: &str = "Two kinds of interval are used. A bar, or a figure's interval, is one row by itself. A \
                     difference between two rows is measured on the same possessions of both, which makes it \
                     surer than two bars side by side; where it decides the ranking, its interval is widened so that \
                     it is safe for all comparisons at once. All of them tell chance alone: none covers a wrong assumption.";

pub(super) fn section(results: &Results<'_>) -> Section {
    let comparison = results.comparison;
    let verdict = &results.tables.beside.told();
    let told = sentences(comparison, verdict);
    let claimed = verdict.choice().len() + verdict.claims().len() + verdict.runs().len();
    let html = html! {
        div class="two answer" {
            div {
                div class="lead" { @for sentence in told.iter().take(claimed) { p { (sentence) } } }
                @for sentence in told.iter().skip(claimed) { p class="quiet" { (sentence) } }
                @if comparison.claims.is_some() && verdict.differ == Differ::Choices { p class="quiet" { (KINDS) } }
            }
            figure class="chart" {
                @let ranking = picture::ranking(super::charts::RANKING, comparison);
                (ranking.inline())
                figcaption { (ranking.caption) }
            }
        }
        (table(results))
        (terms::folded(comparison, results.tables.beside.units))
    };
    Section::new("answer", "The answer", html)
}

fn table(results: &Results<'_>) -> Markup {
    let (comparison, verdict) = (results.comparison, results.tables.beside.told());
    let rank_by = comparison.question.rank_by;
    let others = BESIDE.iter().filter(|key| **key != rank_by.key).filter_map(|key| Column::named(key));
    let columns: Vec<&Column> = std::iter::once(rank_by).chain(others).collect();
    let often = verdict.variants.iter().find_map(|ran| ran.often);
    html! {
        div class="scroll" tabindex="0" role="region" aria-label="The figures" {
            // On a phone: a list that can be read down, the other figures on demand.
            label class="more" { input type="checkbox"; " All figures of each" }
            // Roles: a table that is drawn as cards is no table to some readers any more.
            table id="ranking-table" class="stacked" role="table" {
                caption { span {
                    "Counts are in 20 possessions; under each figure its 95 % interval by itself. All "
                    (crate::columns::COLUMNS.len()) " measures are in comparison.csv. " (GOOD_LOOK) " " (open_look(results.tables.beside.units))
                    @if let Some(often) = often {
                        " Run: in how many of 20 possessions (seen on the first " (often.possessions) ") the " (comparison.question.noun)
                        " was begun, run to its end, and brought its runner the ball, which can be before the end (runs.csv)."
                    }
                } }
                thead role="rowgroup" { tr role="row" {
                    th scope="col" role="columnheader" { "rank" }
                    th scope="col" role="columnheader" { (comparison.question.noun) }
                    @for column in &columns { th scope="col" role="columnheader" class="n" { (headed(column)) } }
                    @if often.is_some() { th scope="col" role="columnheader" class="n" { (RUN) } }
                } }
                tbody role="rowgroup" { @for &v in &comparison.order { tr role="row" {
                    td role="cell" data-label="rank" { (comparison.rank(v)) }
                    th scope="row" role="rowheader" class="play-head" { (named(results, v)) }
                    @for column in &columns { (figure(column, comparison.figure(v, column))) }
                    @if often.is_some() {
                        td class="n" role="cell" data-label=(RUN) { @if let Some(ran) = verdict.ran(&comparison.question.variants[v]) { (ran.cell()) } }
                    }
                } } }
            }
        }
    }
}

/// A variant's name with what it is: in words, and its way.
fn named(results: &Results<'_>, v: usize) -> Markup {
    let name = &results.comparison.question.variants[v];
    let told = results.tables.beside.verdict.ran(name).map_or("", |ran| &ran.words);
    let words = results.tables.beside.units.retold(told);
    html! {
        div class="named" {
            div class="thumb" { @if let Some(play) = results.plays.get(v) { (play.inline()) } }
            div {
                (name)
                @if !words.is_empty() { br; span class="quiet words" { (words) } }
            }
        }
    }
}

/// A column's heading: its words, and its unit where it is not a count.
pub(super) fn headed(column: &Column) -> String {
    match column.told() {
        Told::InTwenty | Told::Number => column.words.into(),
        Told::Percent => format!("{}, %", column.words),
        Told::Seconds => format!("{}, s", column.words),
        Told::Metres => format!("{}, m", column.words),
    }
}

/// A figure as a cell, with the numbers of the file.
pub(super) fn figure(column: &Column, figure: Option<Interval>) -> Markup {
    html! {
        @match figure {
            None => td class="n" role="cell" data-label=(headed(column)) { "no data" },
            Some(f) => td class="n" role="cell" data-label=(headed(column)) data-measure=(column.key) data-estimate=(cell(Some(f.estimate)))
                data-low=(cell(Some(f.low))) data-high=(cell(Some(f.high))) {
                @let told = |value: f64| alike(column, value, &f);
                (told(f.estimate)) br;
                span class="quiet" { (told(f.low)) " to " (told(f.high)) }
            },
        }
    }
}
