//! Files of rows: a type a file, whose fields are the file's columns, for those who write it and those who read it.

use serde::de::DeserializeOwned;
use serde::{Deserialize, Serialize, Serializer};

use crate::stats::Interval;

/// One row of a file.
pub(crate) trait FileLine: Serialize + Default {
    /// The file's name.
    const FILE: &'static str;
}

/// A file of such rows, with its name.
pub(crate) fn file<L: FileLine>(lines: impl IntoIterator<Item = L>) -> (String, Vec<u8>) {
    let mut writer = csv::WriterBuilder::new().has_headers(false).from_writer(header::<L>());
    for line in lines {
        writer.serialize(line).expect("a flat row, written to memory");
    }
    let plain = writer.into_inner().expect("written to memory");
    (L::FILE.to_owned(), without_formulas(&plain))
}

/// A file of rows, its header first. What a spreadsheet would take for a formula, it takes for text.
pub(crate) fn written(header: Vec<String>, rows: impl Iterator<Item = Vec<String>>) -> Vec<u8> {
    let mut writer = csv::Writer::from_writer(Vec::new());
    for mut row in std::iter::once(header).chain(rows) {
        row.iter_mut().filter(|cell| is_formula(cell)).for_each(|cell| cell.insert(0, '\''));
        writer.write_record(row).expect("rows of equal length, written to memory");
    }
    writer.into_inner().expect("written to memory")
}

/// The same file with an apostrophe before each cell that a spreadsheet would compute.
fn without_formulas(plain: &[u8]) -> Vec<u8> {
    let mut rows = csv::ReaderBuilder::new().has_headers(false).from_reader(plain);
    let cells = |row: Result<csv::StringRecord, _>| -> Vec<String> {
        row.expect("just written").iter().map(str::to_owned).collect()
    };
    let mut rows = rows.records().map(cells);
    rows.next().map_or_else(Vec::new, |header| written(header, rows))
}

/// The columns' names: a file without a row has them, too.
fn header<L: FileLine>() -> Vec<u8> {
    let mut writer = csv::Writer::from_writer(Vec::new());
    writer.serialize(L::default()).expect("a flat row, written to memory");
    let mut text = writer.into_inner().expect("written to memory");
    let end = text.iter().position(|byte| *byte == b'\n').map_or(text.len(), |end| end + 1);
    text.truncate(end);
    text
}

/// The rows of such a file.
pub(crate) fn lines<L: FileLine + DeserializeOwned>(text: &str) -> Result<Vec<L>, csv::Error> {
    let mut reader = csv::Reader::from_reader(text.as_bytes());
    let header = reader.headers()?.clone();
    let row = |record: Result<csv::StringRecord, csv::Error>| {
        let plain: csv::StringRecord = record?.iter().map(as_named).collect();
        plain.deserialize(Some(&header))
    };
    reader.records().map(row).collect()
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

/// A number with six decimals: finer than any interval, coarse enough to read; empty without data, never a negative
/// zero.
#[derive(Clone, Copy, Debug, Default, PartialEq, Deserialize)]
pub(crate) struct Decimal(pub Option<f64>);

impl Decimal {
    /// Estimate and ends of an interval.
    pub fn of(interval: Option<Interval>) -> [Self; 3] {
        [|i: Interval| i.estimate, |i: Interval| i.low, |i: Interval| i.high]
            .map(|part| Self(interval.map(part)))
    }
}

impl From<f64> for Decimal {
    fn from(value: f64) -> Self {
        Self(Some(value))
    }
}

impl Serialize for Decimal {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(&cell(self.0))
    }
}

/// A [`Decimal`] as text.
pub(crate) fn cell(value: Option<f64>) -> String {
    match value.filter(|value| value.is_finite()) {
        None => String::new(),
        Some(value) => {
            let text = format!("{value:.6}");
            if text == "-0.000000" { text[1..].into() } else { text }
        }
    }
}

/// A number with two decimals: places, m; times, s; chances that somebody has set.
#[derive(Clone, Copy, Debug, Default, PartialEq, Deserialize)]
pub(crate) struct Hundredths(pub f64);

impl From<f32> for Hundredths {
    fn from(value: f32) -> Self {
        Self(value.into())
    }
}

impl Serialize for Hundredths {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(&format_args!("{:.2}", self.0))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[derive(Debug, Default, PartialEq, Serialize, Deserialize)]
    struct Sample {
        name: String,
        figure: Decimal,
        at_m: Hundredths,
    }

    impl FileLine for Sample {
        const FILE: &'static str = "samples.csv";
    }

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
    fn what_is_written_is_read_again_and_a_file_without_a_row_has_its_header() {
        let line = |name: &str, figure, at_m| Sample { name: name.into(), figure: Decimal(figure), at_m };
        let all = || [line("a, \"b\"", Some(0.25), Hundredths(1.5)), line("=1+1", None, Hundredths(-2.0))];
        let (name, bytes) = file(all());
        let text = String::from_utf8(bytes).unwrap();
        assert_eq!(text, "name,figure,at_m\n\"a, \"\"b\"\"\",0.250000,1.50\n'=1+1,,-2.00\n");
        assert_eq!(name, "samples.csv");
        assert_eq!(lines::<Sample>(&text).unwrap(), all());
        assert_eq!(file::<Sample>([]).1, b"name,figure,at_m\n");
        let broken = lines::<Sample>("name,figure\na,1\n").unwrap_err().to_string();
        assert!(broken.contains("at_m"), "{broken}");
    }
}
