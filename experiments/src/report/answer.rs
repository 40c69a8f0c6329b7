//! The answer in three sentences, and the ranking that it is taken from.

use maud::{Markup, html};

use super::{Results, Section};
use crate::columns::Column;
use crate::compare::Comparison;
use crate::output::cell;
use crate::picture;
use crate::sentences::sentences;
use crate::stats::Interval;
use crate::wording::bare;

/// Columns of the table under the ranking, after the ranking column.
const BESIDE: [&str; 5] =
    ["open_look_rate", "good_shot_rate", "paint_touch_rate", "turnover_rate", "expected_net_points"];

pub(super) fn section(results: &Results<'_>) -> Section {
    let comparison = results.comparison;
    let told = sentences(comparison);
    let html = html! {
        div class="lead" { @for sentence in told.iter().take(3) { p { (sentence) } } }
        @for sentence in told.iter().skip(3) { p class="quiet" { (sentence) } }
        figure class="chart" {
            @let ranking = picture::ranking("ranking", comparison);
            (ranking.inline())
            figcaption {
                (ranking.caption) " Each bar is a 95 % interval by itself; who stands apart from the first is decided by the stricter \
                 intervals that hold for all pairs together."
            }
        }
        (table(comparison))
    };
    Section::new("answer", "The answer", html)
}

fn table(comparison: &Comparison) -> Markup {
    let rank_by = comparison.question.rank_by;
    let others = BESIDE.iter().filter(|key| **key != rank_by.key).filter_map(|key| Column::named(key));
    let columns: Vec<&Column> = std::iter::once(rank_by).chain(others).collect();
    html! {
        div class="scroll" tabindex="0" role="region" aria-label="Figures by variant" {
            table id="ranking-table" {
                caption { span {
                    "In 20 possessions, with 95 % intervals; all " (crate::columns::COLUMNS.len())
                    " measures are in comparison.csv."
                } }
                thead { tr {
                    th scope="col" { "rank" } th scope="col" { "variant" }
                    @for column in &columns { th scope="col" class="n" { (column.words) } }
                } }
                tbody { @for &v in &comparison.order { tr {
                    td { (comparison.rank(v)) }
                    th scope="row" { (comparison.question.variants[v]) }
                    @for column in &columns { (figure(column, comparison.figure(v, column))) }
                } } }
            }
        }
    }
}

/// A figure as a cell, with the numbers of the file.
pub(super) fn figure(column: &Column, figure: Option<Interval>) -> Markup {
    html! {
        @match figure {
            None => td class="n" { "no data" },
            Some(f) => td class="n" data-measure=(column.key) data-estimate=(cell(Some(f.estimate)))
                data-low=(cell(Some(f.low))) data-high=(cell(Some(f.high))) {
                (bare(column, f.estimate)) br;
                span class="quiet" { (bare(column, f.low)) " to " (bare(column, f.high)) }
            },
        }
    }
}
