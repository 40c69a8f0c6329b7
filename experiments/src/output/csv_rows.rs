//! `comparison.csv` and `differences.csv`: the same bytes for the same result, on any machine.

use serde::Serialize;

use super::lines::{Decimal, FileLine, cell, written};
use crate::columns::COLUMNS;
use crate::compare::Comparison;

/// `comparison.csv`: one row a variant, in plan order; the columns are those of the list.
pub fn comparison_csv(comparison: &Comparison) -> Vec<u8> {
    comparison_rows(comparison, 0..comparison.question.variants.len())
}

/// The rows of some variants.
pub fn comparison_rows(comparison: &Comparison, variants: impl Iterator<Item = usize>) -> Vec<u8> {
    let layout = &comparison.question.layout;
    let mut header = vec!["variant".to_string()];
    header.extend(layout.headings());
    header.push("possessions".into());
    for column in COLUMNS {
        header.extend([column.key.into(), format!("{}_low", column.key), format!("{}_high", column.key)]);
    }
    header.extend(["rank".into(), "chance_of_being_best".into()]);
    let rows = variants.map(|v| {
        let mut row = vec![comparison.question.variants[v].clone()];
        row.extend(layout.told(v));
        row.push(comparison.possessions.to_string());
        for figure in &comparison.figures[v] {
            row.extend([
                cell(figure.map(|f| f.estimate)),
                cell(figure.map(|f| f.low)),
                cell(figure.map(|f| f.high)),
            ]);
        }
        row.push(comparison.rank(v).to_string());
        row.push(cell(comparison.claims.as_ref().map(|claims| claims.chance_of_being_best[v])));
        row
    });
    written(header, rows)
}

/// One row of `differences.csv`: how far a variant is from a reference on one measure.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub(crate) struct DifferenceLine {
    variant: String,
    reference: String,
    measure: &'static str,
    difference: Decimal,
    difference_low: Decimal,
    difference_high: Decimal,
    standard_error: Decimal,
    p_value: Decimal,
    p_holm: Decimal,
    p_bh: Decimal,
    together_low: Decimal,
    together_high: Decimal,
    variance_ratio: Decimal,
}

impl FileLine for DifferenceLine {
    const FILE: &'static str = "differences.csv";
}

/// One row for each variant, reference variant and measure.
pub(crate) fn difference_lines(comparison: &Comparison) -> impl Iterator<Item = DifferenceLine> {
    let names = &comparison.question.variants;
    comparison.differences.iter().map(|d| {
        let [difference, difference_low, difference_high] = Decimal::of(Some(d.difference.interval));
        let [_, together_low, together_high] = Decimal::of(d.together);
        DifferenceLine {
            variant: names[d.variant].clone(),
            reference: names[d.reference].clone(),
            measure: d.column.key,
            difference,
            difference_low,
            difference_high,
            standard_error: d.difference.standard_error.into(),
            p_value: d.difference.p.into(),
            p_holm: Decimal(d.p_holm),
            p_bh: Decimal(d.p_bh),
            together_low,
            together_high,
            variance_ratio: Decimal(d.variance_ratio),
        }
    })
}

#[cfg(test)]
mod tests {
    use super::super::lines::file;
    use super::*;
    use crate::compare::tests::sample;

    #[test]
    fn the_first_columns_are_as_promised() {
        let bytes = comparison_csv(&sample(&["hold-wing", "seam, \"cross\""], 400, "open_look_rate"));
        let text = String::from_utf8(bytes).unwrap();
        let head: Vec<String> =
            text.lines().map(|line| line.split(',').take(5).collect::<Vec<_>>().join(",")).collect();
        assert_eq!(head[0], "variant,possessions,good_look_rate,good_look_rate_low,good_look_rate_high");
        assert_eq!(head[1], COMPARISON_ROW);
        assert!(head[2].starts_with("\"seam, \"\"cross\"\"\",400,"), "{}", head[2]);
        assert_eq!(text.lines().count(), 3);
    }

    #[test]
    fn differences_have_a_row_for_each_variant_reference_and_measure() {
        let comparison = sample(&["a", "b", "c"], 400, "expected_net_points");
        let (_, bytes) = file(difference_lines(&comparison));
        let text = String::from_utf8(bytes).unwrap();
        let of = |measure: &str| -> Vec<String> {
            text.lines().filter(|line| line.split(',').nth(2) == Some(measure)).map(String::from).collect()
        };
        assert_eq!(of("expected_net_points"), DIFFERENCE_ROWS);
        assert_eq!(of("paint_touch_rate").len(), 4);
        assert!(of("lob_completion").is_empty(), "no data, no row");
    }

    const COMPARISON_ROW: &str = "hold-wing,400,0.277500,0.235894,0.323339";
    const DIFFERENCE_ROWS: [&str; 4] = [
        "b,a,expected_net_points,0.012359,0.008437,0.016282,0.002001,0.000000,0.000000,0.000000,0.007961,0.016758,5.439250",
        "c,a,expected_net_points,0.021812,0.017665,0.025959,0.002116,0.000000,0.000000,0.000000,0.017161,0.026462,4.931838",
        "a,c,expected_net_points,-0.021812,-0.025959,-0.017665,0.002116,0.000000,,,-0.026739,-0.016885,4.931838",
        "b,c,expected_net_points,-0.009452,-0.013516,-0.005389,0.002073,0.000005,,,-0.014280,-0.004625,5.148593",
    ];
}
