//! `comparison.csv` and `differences.csv`: the same bytes for the same result, on any machine.

use crate::columns::COLUMNS;
use crate::compare::Comparison;

/// Six decimals: finer than any interval, coarse enough to read; empty without data, never a negative zero.
pub(crate) fn cell(value: Option<f64>) -> String {
    match value.filter(|value| value.is_finite()) {
        None => String::new(),
        Some(value) => {
            let text = format!("{value:.6}");
            if text == "-0.000000" { text[1..].into() } else { text }
        }
    }
}

/// One row a variant, in plan order.
pub fn comparison_csv(comparison: &Comparison) -> Vec<u8> {
    let mut header = vec!["variant".to_string(), "possessions".into()];
    for column in COLUMNS {
        header.extend([column.key.into(), format!("{}_low", column.key), format!("{}_high", column.key)]);
    }
    header.extend(["rank".into(), "chance_of_being_best".into()]);
    let rows = comparison.question.variants.iter().enumerate().map(|(v, name)| {
        let mut row = vec![name.clone(), comparison.possessions.to_string()];
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

/// One row for each variant, reference variant and measure.
pub fn differences_csv(comparison: &Comparison) -> Vec<u8> {
    let header = [
        "variant",
        "reference",
        "measure",
        "difference",
        "difference_low",
        "difference_high",
        "standard_error",
        "p_value",
        "p_holm",
        "together_low",
        "together_high",
        "variance_ratio",
    ];
    let names = &comparison.question.variants;
    let rows = comparison.differences.iter().map(|d| {
        let interval = d.difference.interval;
        let mut row = vec![names[d.variant].clone(), names[d.reference].clone(), d.column.key.into()];
        row.extend(
            [
                Some(interval.estimate),
                Some(interval.low),
                Some(interval.high),
                Some(d.difference.standard_error),
                Some(d.difference.p),
                d.p_holm,
                d.together.map(|together| together.low),
                d.together.map(|together| together.high),
                d.variance_ratio,
            ]
            .map(cell),
        );
        row
    });
    written(header.map(String::from).to_vec(), rows)
}

/// A file with its header. What a spreadsheet would take for a formula, it takes for text.
pub(crate) fn written(header: Vec<String>, rows: impl Iterator<Item = Vec<String>>) -> Vec<u8> {
    let mut writer = csv::Writer::from_writer(Vec::new());
    for mut row in std::iter::once(header).chain(rows) {
        row.iter_mut().filter(|cell| is_formula(cell)).for_each(|cell| cell.insert(0, '\''));
        writer.write_record(row).expect("rows of equal length, written to memory");
    }
    writer.into_inner().expect("written to memory")
}

/// A cell of such a file as it was before.
pub(crate) fn as_named(cell: &str) -> &str {
    if is_formula(cell) { cell.strip_prefix('\'').unwrap_or(cell) } else { cell }
}

/// Whether a spreadsheet would compute the cell, the apostrophes before it aside. Numbers stay numbers.
fn is_formula(cell: &str) -> bool {
    let bare = cell.trim_start_matches('\'');
    let is_number = || {
        bare.parse::<f64>().is_ok()
            && bare.bytes().all(|byte| byte.is_ascii_digit() || b"+-.eE".contains(&byte))
    };
    bare.starts_with(['=', '@', '\t', '\r', '\n']) || bare.starts_with(['+', '-']) && !is_number()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::compare::tests::sample;

    #[test]
    fn cells_are_plain_and_stable() {
        assert_eq!(cell(Some(0.1 + 0.2)), "0.300000");
        assert_eq!(cell(Some(-1e-9)), "0.000000");
        assert_eq!(cell(Some(-0.5)), "-0.500000");
        assert_eq!([cell(None), cell(Some(f64::NAN)), cell(Some(f64::INFINITY))], ["", "", ""]);
    }

    #[test]
    fn names_are_no_formulas_and_numbers_stay_numbers() {
        let names =
            ["=1+1", "@SUM(A1)", "+A1", "-2+3", "\tx", "'=1", "-inf", "-0.5", "+1e-3", "'tis", "a=b", ""];
        let told = [
            "'=1+1",
            "'@SUM(A1)",
            "'+A1",
            "'-2+3",
            "'\tx",
            "''=1",
            "'-inf",
            "-0.5",
            "+1e-3",
            "'tis",
            "a=b",
            "",
        ];
        let row = |cells: &[&str]| cells.iter().map(|cell| (*cell).to_owned()).collect::<Vec<_>>();
        let bytes = written(row(&names), std::iter::empty());
        let mut reader = csv::Reader::from_reader(bytes.as_slice());
        let cells: Vec<&str> = reader.headers().unwrap().iter().collect();
        assert_eq!(cells, told);
        assert_eq!(cells.iter().map(|cell| as_named(cell)).collect::<Vec<_>>(), names);
    }

    #[test]
    fn the_first_columns_are_as_promised() {
        let bytes = comparison_csv(&sample(&["hold-wing", "seam, \"cross\""], 400, "open_look_rate"));
        let text = String::from_utf8(bytes).unwrap();
        let head: Vec<String> =
            text.lines().map(|line| line.split(',').take(5).collect::<Vec<_>>().join(",")).collect();
        assert_eq!(head[0], "variant,possessions,open_look_rate,open_look_rate_low,open_look_rate_high");
        assert_eq!(head[1], COMPARISON_ROW);
        assert!(head[2].starts_with("\"seam, \"\"cross\"\"\",400,"), "{}", head[2]);
        assert_eq!(text.lines().count(), 3);
    }

    #[test]
    fn differences_have_a_row_for_each_variant_reference_and_measure() {
        let bytes = differences_csv(&sample(&["a", "b", "c"], 400, "expected_net_points"));
        let text = String::from_utf8(bytes).unwrap();
        let of = |measure: &str| -> Vec<String> {
            text.lines().filter(|line| line.split(',').nth(2) == Some(measure)).map(String::from).collect()
        };
        assert_eq!(of("expected_net_points"), DIFFERENCE_ROWS);
        assert_eq!(of("paint_touch_rate").len(), 4);
        assert!(of("lob_completion").is_empty(), "no data, no row");
    }

    const COMPARISON_ROW: &str = "hold-wing,400,0.252500,0.212417,0.297292";
    const DIFFERENCE_ROWS: [&str; 4] = [
        "b,a,expected_net_points,0.007661,0.003672,0.011649,0.002035,0.000167,0.000167,0.003182,0.012139,5.454440",
        "c,a,expected_net_points,0.019169,0.015169,0.023169,0.002041,0.000000,0.000000,0.014677,0.023661,5.215495",
        "a,c,expected_net_points,-0.019169,-0.023169,-0.015169,0.002041,0.000000,,-0.023918,-0.014420,5.215495",
        "b,c,expected_net_points,-0.011508,-0.015467,-0.007549,0.002020,0.000000,,-0.016208,-0.006808,5.376306",
    ];
}
