//! What the leaders cost: net points against the risk of a fast break, and the differences to the one compared with.

use maud::{Markup, html};

use super::{Results, Section};
use crate::columns::Column;
use crate::compare::Comparison;
use crate::output::cell;
use crate::picture::{self, Picture};
use crate::sentences::COSTS;
use crate::wording::gap;

pub(super) fn section(results: &Results<'_>) -> Section {
    let comparison = results.comparison;
    let trade = trade(comparison);
    let html = html! {
        p {
            "The risk of a fast break is the chance that the defence's fastest runner beats the last attacker to midcourt when \
             the possession ends. Net points are what is left of the attack's expected points once the points \
             expected of that break are taken off."
        }
        div class="two" {
            @if let Some(trade) = trade {
                figure class="chart" {
                    (trade.inline())
                    figcaption { (trade.caption) }
                }
            }
            (table(comparison, &results.tables.beside.by_net))
        }
    };
    Section::new("costs", "What it costs", html)
}

/// What is gained against what it costs; None without data.
pub(super) fn trade(comparison: &Comparison) -> Option<Picture> {
    picture::trade("trade", comparison, "break_exposure", "expected_net_points")
}

fn table(comparison: &Comparison, by_net: &Comparison) -> Markup {
    let question = &comparison.question;
    let columns: Vec<&Column> = COSTS.iter().filter_map(|key| Column::named(key)).collect();
    let rows: Vec<usize> =
        crate::places::shown(comparison, by_net).into_iter().filter(|v| *v != question.baseline).collect();
    html! {
        @if !rows.is_empty() {
            div {
                @for v in rows {
                    h3 { (question.variants[v]) ", against " (question.variants[question.baseline]) }
                    ul {
                        @for column in &columns {
                            @if let Some(contrast) = comparison.contrast(v, question.baseline, column) {
                                @let together = contrast.together.is_some();
                                @let interval = contrast.together.unwrap_or(contrast.difference.interval);
                                li class=[interval.contains(0.0).then_some("quiet")] data-variant=(question.variants[v]) data-measure=(column.key)
                                    data-difference=(cell(Some(interval.estimate))) {
                                    (gap(column, &interval))
                                    @if interval.contains(0.0) { ": could be luck" }
                                    @if together { " (safe for all comparisons at once, as in the answer)" }
                                }
                            }
                        }
                    }
                }
                p class="quiet" { "In brackets: 95 % intervals, each by itself unless it says otherwise. All of them are in \
                 differences.csv." }
            }
        }
    }
}
