//! Tables of comma-separated values as nodes: a row a table, its keys the headings, so that they are read and refused as any
//! other file is, at their line and column.
//!
//! Spreadsheets write such files in several ways. What can be meant in one way only is taken: semicolons or tabs between
//! cells, a byte-order mark, decimal commas (beside semicolons, or in quotes), `40 %`, `6'2"`, `38 of 95`. What could be
//! meant in two ways stays a text, which the reader refuses where a number belongs.

use csv_core::{ReadFieldResult, ReaderBuilder};

use crate::declared::{Field, Kind, Table};
use crate::key::{FOOT_M, Key};
use crate::tree::{Data, Entry, Node, Origin};

/// Inches in a foot.
const INCHES: f64 = 12.0;
/// The byte-order mark that some programs put before a text.
const MARK: char = '\u{feff}';

/// A cell: its text, and where it stands.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Cell {
    pub text: String,
    pub start: usize,
    pub end: usize,
    /// It stands in quotes.
    pub quoted: bool,
}

/// What is wrong with a table as a whole: where, what was found, what is allowed, and how it may be mended.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Flaw {
    pub start: usize,
    pub end: usize,
    pub found: String,
    pub allowed: String,
    pub nearest: Option<String>,
    pub help: &'static str,
}

/// The rows of a text as tables of these columns, with what is wrong with its headings and the lengths of its rows.
pub(crate) fn rows(text: &str, source: usize, columns: &'static Table) -> (Node, Vec<Flaw>) {
    let separator = separator(text);
    let mut records = records(text, separator).into_iter();
    let whole = Origin { source, start: 0, end: 0 };
    let Some(first) = records.next() else {
        return (Node { origin: whole, data: Data::List(Vec::new()) }, Vec::new());
    };
    let (headings, mut flaws) = headings(&first, columns);
    let mut rows = Vec::new();
    for record in records {
        if let Some(more) = record.get(headings.len()).filter(|_| record.len() > headings.len()) {
            flaws.push(too_long(more, record.len(), headings.len(), separator));
            continue;
        }
        let origin = Origin { source, start: record[0].start, end: record[record.len() - 1].end };
        let cells = headings.iter().zip(&record).filter(|(_, cell)| !cell.text.trim().is_empty());
        let entries = cells.filter_map(|(heading, cell)| {
            let (heading, field) = heading.as_ref()?;
            Some(entries(heading, field, cell, (source, separator)))
        });
        let entries: Vec<Entry> = entries.flatten().collect();
        if !entries.is_empty() {
            rows.push(Node { origin, data: Data::Table(entries) });
        }
    }
    (Node { origin: whole, data: Data::List(rows) }, flaws)
}

/// All cells, row by row, headings first.
pub(crate) fn parsed(text: &str) -> Vec<Vec<Cell>> {
    records(text, separator(text))
}

/// The texts of all cells, row by row; empty where there is none.
pub(crate) fn cells(text: &str) -> Vec<Vec<String>> {
    let rows = records(text, separator(text)).into_iter();
    rows.map(|row| row.into_iter().map(|cell| cell.text).collect()).collect()
}

/// The headings of a text as keys.
pub(crate) fn headings_of(text: &str) -> Vec<String> {
    parsed(text).first().into_iter().flatten().map(|heading| as_key(&heading.text)).collect()
}

/// The sign between the cells of a text.
pub(crate) fn sign(text: &str) -> char {
    char::from(separator(text))
}

/// The sign between cells: of those in the first line, the most frequent.
fn separator(text: &str) -> u8 {
    let first =
        text.trim_start_matches(MARK).lines().find(|line| !line.trim().is_empty() && !line.starts_with('#'));
    let first = first.unwrap_or_default();
    let mut best = (0, b',');
    for separator in [b',', b';', b'\t'] {
        let count = first.bytes().filter(|byte| *byte == separator).count();
        if count > best.0 {
            best = (count, separator);
        }
    }
    best.1
}

/// The records of a text; lines that begin with `#`, and empty ones, are left out.
fn records(text: &str, separator: u8) -> Vec<Vec<Cell>> {
    let mut reader = ReaderBuilder::new().delimiter(separator).comment(Some(b'#')).build();
    let bytes = text.as_bytes();
    let mut at = text.len() - text.trim_start_matches(MARK).len();
    let (mut records, mut record, mut written, mut begins) = (Vec::new(), Vec::new(), Vec::new(), at);
    let mut room = vec![0; 64];
    loop {
        let (result, read, wrote) = reader.read_field(&bytes[at..], &mut room);
        at += read;
        written.extend_from_slice(&room[..wrote]);
        match result {
            ReadFieldResult::InputEmpty if at < bytes.len() || read > 0 => {}
            ReadFieldResult::InputEmpty | ReadFieldResult::OutputFull => {}
            ReadFieldResult::Field { record_end } => {
                record.push(cell(text, (begins, at), &written));
                written.clear();
                begins = at;
                if record_end {
                    records.push(std::mem::take(&mut record));
                }
            }
            ReadFieldResult::End => return records,
        }
    }
}

/// A cell of bytes that end with its separator or line end, and may begin with empty lines and comments.
fn cell(text: &str, (begins, ends): (usize, usize), written: &[u8]) -> Cell {
    let mut written = String::from_utf8_lossy(written).trim().to_owned();
    let slice = &text[begins..ends];
    let mut offset = 0;
    for line in slice.split_inclusive('\n') {
        let left_out = line.trim_start_matches(MARK).starts_with('#') || line.trim().is_empty();
        if !left_out || offset + line.len() == slice.len() {
            break;
        }
        offset += line.len();
    }
    let bare = slice[offset..].trim_end_matches(['\r', '\n', ',', ';', '\t']);
    let start = begins + offset + (bare.len() - bare.trim_start().len());
    let end = (begins + offset + bare.trim_end().len()).max(start);
    let quoted = text[start..end].starts_with('"');
    if written.starts_with(MARK) {
        written = written.trim_start_matches(MARK).to_owned();
    }
    Cell { text: written, start, end, quoted }
}

/// The column of each heading; `None` for one that there is not, which is a flaw.
fn headings(first: &[Cell], columns: &'static Table) -> (Vec<Option<(Cell, Field)>>, Vec<Flaw>) {
    let known: Vec<Field> = columns.fields().filter(|field| is_column(&field.kind)).collect();
    let mut found: Vec<Option<(Cell, Field)>> = Vec::new();
    let mut flaws = Vec::new();
    for cell in first {
        let name = as_key(&cell.text);
        let field = known.iter().find_map(|field| {
            let same = field.key.name == name || field.key.in_feet().as_deref() == Some(name.as_str());
            same.then_some(*field)
        });
        let again = found.iter().flatten().any(|(other, _)| as_key(&other.text) == name);
        let allowed = || crate::fault::one_of(known.iter().map(|field| field.key.name));
        let flaw = |allowed: String, nearest, help| Flaw {
            start: cell.start,
            end: cell.end,
            found: format!("the heading \"{}\"", cell.text),
            allowed,
            nearest,
            help,
        };
        match field {
            Some(field) if !again => found.push(Some((Cell { text: name, ..cell.clone() }, field))),
            Some(_) => {
                flaws.push(flaw(
                    "each heading once".into(),
                    None,
                    "Which of the two is meant cannot be told.",
                ));
                found.push(None);
            }
            // A spreadsheet's empty column.
            None if name.is_empty() => found.push(None),
            None => {
                let nearest = crate::fault::nearest(&name, known.iter().map(|field| field.key.name));
                flaws.push(flaw(allowed(), nearest, "The first line names the columns."));
                found.push(None);
            }
        }
    }
    (found, flaws)
}

/// Whether a key can be a column.
fn is_column(kind: &Kind) -> bool {
    matches!(kind, Kind::Text(_) | Kind::Word(_) | Kind::Whole | Kind::Number | Kind::Flag)
}

/// A heading of a table as a key: `Open threes` is `open_threes`.
pub fn as_key(heading: &str) -> String {
    heading.trim().to_lowercase().replace([' ', '-'], "_")
}

fn too_long(more: &Cell, found: usize, allowed: usize, separator: u8) -> Flaw {
    let help = if separator == b',' {
        "A decimal comma makes two cells of a number: write 1.88, or part the cells by semicolons."
    } else {
        "The row has a cell more than there are headings."
    };
    Flaw {
        start: more.start,
        end: more.end,
        found: format!("a row of {found} cells"),
        allowed: format!("{allowed} cells, as many as there are headings"),
        nearest: None,
        help,
    }
}

/// The entries that a cell makes: one, or two where it says made and attempted.
fn entries(heading: &Cell, field: &Field, cell: &Cell, (source, separator): (usize, u8)) -> Vec<Entry> {
    let origin = |cell: &Cell| Origin { source, start: cell.start, end: cell.end };
    let entry = |key: String, data: Data| Entry {
        key,
        key_origin: origin(heading),
        dotted: false,
        node: Node { origin: origin(cell), data },
    };
    if is_share(&field.key)
        && let Some((made, attempted)) = counted(&cell.text)
    {
        let name = &heading.text;
        return vec![
            entry(format!("{name}_made"), Data::Whole(made)),
            entry(format!("{name}_attempted"), Data::Whole(attempted)),
        ];
    }
    let data = match field.kind {
        Kind::Word(_) => Data::Text(cell.text.to_lowercase().replace([' ', '_'], "-")),
        Kind::Flag if cell.text == "true" || cell.text == "yes" => Data::Flag(true),
        Kind::Flag if cell.text == "false" || cell.text == "no" => Data::Flag(false),
        Kind::Number | Kind::Whole => {
            let feet = heading.text != field.key.name;
            number(&cell.text, field.key, (feet, separator != b',' || cell.quoted))
                .unwrap_or_else(|| Data::Text(cell.text.clone()))
        }
        _ => Data::Text(cell.text.clone()),
    };
    vec![entry(heading.text.clone(), data)]
}

/// A share from 0 to 1.
fn is_share(key: &Key) -> bool {
    key.unit.is_empty() && key.low >= 0.0 && key.high <= 1.0
}

/// `38 of 95`, `38/95`.
fn counted(text: &str) -> Option<(i64, i64)> {
    let (made, attempted) = text.split_once(" of ").or_else(|| text.split_once('/'))?;
    Some((made.trim().parse().ok()?, attempted.trim().parse().ok()?))
}

/// A number as people write it, in the unit of its column (`feet`: in feet); `None` where it is none, or could be two.
fn number(text: &str, key: Key, (feet, commas): (bool, bool)) -> Option<Data> {
    let text = text.trim();
    if let Ok(whole) = text.parse::<i64>() {
        return Some(Data::Whole(whole));
    }
    if key.unit == "m"
        && let Some(inches) = feet_and_inches(text)
    {
        let feet_long = inches / INCHES;
        return Some(Data::Number(if feet { feet_long } else { feet_long * FOOT_M }));
    }
    let split = text.find(|letter: char| !letter.is_ascii_digit() && !"+-.,".contains(letter));
    let (digits, unit) = text.split_at(split.unwrap_or(text.len()));
    // 6.11 may be 6 feet 11 inches, or somewhat more than 6 feet 1.
    if feet && key.unit == "m" && could_be_inches(digits) {
        return None;
    }
    let number = plain(digits, commas)?;
    match unit.trim() {
        "" => Some(Data::Number(number)),
        "%" if is_share(&key) => Some(Data::Number(number / 100.0)),
        "cm" if key.unit == "m" && !feet => Some(Data::Number(number / 100.0)),
        "ft" if feet => Some(Data::Number(number)),
        own if own == key.unit && !feet => Some(Data::Number(number)),
        _ => None,
    }
}

/// Whether what stands behind a decimal point or comma could be meant as inches, 0 to 11.
pub(crate) fn could_be_inches(digits: &str) -> bool {
    let Some((feet, inches)) = digits.trim().split_once(['.', ',']) else { return false };
    let is_whole = |text: &str| !text.is_empty() && text.bytes().all(|byte| byte.is_ascii_digit());
    is_whole(feet)
        && is_whole(inches)
        && inches.len() <= 2
        && inches.parse().is_ok_and(|inches: u32| inches < 12)
}

/// Digits with a decimal point, or a decimal comma where that can be meant; three digits behind a comma may be thousands, but not behind
/// a 0.
fn plain(digits: &str, commas: bool) -> Option<f64> {
    if !digits.contains(',') {
        return digits.parse().ok();
    }
    let (before, behind) = digits.split_once(',')?;
    let one_way =
        commas && !digits.contains('.') && (behind.len() != 3 || before == "0") && !behind.contains(',');
    if one_way { digits.replace(',', ".").parse().ok() } else { None }
}

/// `6'2"`, `6 ft 2 in`, `6-2` in inches.
fn feet_and_inches(text: &str) -> Option<f64> {
    let text = text.replace(['’', '′'], "'").replace(['”', '″'], "\"");
    let (feet, inches) =
        text.split_once('\'').or_else(|| text.split_once("ft")).or_else(|| text.split_once('-'))?;
    let inches = inches.trim().trim_end_matches("in").trim_end_matches('"').trim();
    let feet: u32 = feet.trim().parse().ok()?;
    let inches: f64 = if inches.is_empty() { 0.0 } else { inches.parse().ok()? };
    (0.0..INCHES).contains(&inches).then(|| f64::from(feet) * INCHES + inches)
}

#[cfg(test)]
mod tests {
    use super::*;

    const COLUMNS: Table = Table::of(&[crate::declared::Part::Fields(&[
        Field::text("name", crate::text::Text::Name, "Who."),
        Field::number("height_m", "m", (1.2, 2.4), "Height."),
        Field::number("threes", "", (0.0, 1.0), "A share."),
    ])]);
    static TABLE: Table = COLUMNS;

    /// The values of a text's rows.
    fn told(text: &str) -> (Vec<Vec<String>>, Vec<String>) {
        let (node, flaws) = rows(text, 0, &TABLE);
        let value = |entry: &Entry| match &entry.node.data {
            Data::Text(text) => format!("{}=\"{text}\"", entry.key),
            Data::Whole(whole) => format!("{}={whole}", entry.key),
            Data::Number(number) => format!("{}={number:.3}", entry.key),
            other => format!("{}: {other:?}", entry.key),
        };
        let rows = node.members().iter().map(|row| row.entries().iter().map(value).collect());
        let flaws = flaws.iter().map(|flaw| format!("{}: {}", &text[flaw.start..flaw.end], flaw.found));
        (rows.collect(), flaws.collect())
    }

    #[test]
    fn what_can_be_meant_in_one_way_only_is_taken() {
        let rows = |text: &str| told(text).0;
        let plain = vec![vec!["name=\"12\"", "height_m=1.880", "threes=0.400"]];
        for text in [
            "name,height_m,threes\n12,1.88,0.4\n",
            "\u{feff}Name;Height m;Threes\r\n12;1,88;0,40\r\n",
            "name\theight_m\tthrees\n12\t188 cm\t40 %\n",
            "# our own\nname,height_m,threes\n\n# Kit\n 12 ,\"1,88\",40%",
        ] {
            assert_eq!(rows(text), plain, "{text:?}");
        }
        let feet = |cell: &str| rows(&format!("height_m\n{cell}\n"));
        for cell in ["6'2\"", "6 ft 2 in", "6-2", "6’2”"] {
            assert_eq!(feet(cell), [["height_m=1.880"]], "{cell}");
        }
        assert_eq!(rows("height_ft\n6'6\n"), [["height_ft=6.500"]]);
        assert_eq!(rows("height_ft\n6.92\n"), [["height_ft=6.920"]]);
        assert_eq!(rows("name;threes\nKit;0,375\n"), [["name=\"Kit\"", "threes=0.375"]]);
        for cell in ["38 of 95", "38/95"] {
            assert_eq!(rows(&format!("threes\n{cell}\n")), [["threes_made=38", "threes_attempted=95"]]);
        }
        assert_eq!(rows("name,threes\nKit,\n,\n"), [["name=\"Kit\""]]);
        assert_eq!(rows(""), Vec::<Vec<String>>::new());
    }

    #[test]
    fn what_could_be_meant_in_two_ways_stays_a_text() {
        for cell in ["1,880", "1.8.8", "six feet", "6'14\"", "1,8,8"] {
            let (rows, _) = told(&format!("height_m;name\n{cell};x\n"));
            assert_eq!(rows[0][0], format!("height_m=\"{cell}\""));
        }
        for cell in ["6.11", "6.10", "6.5", "6,1"] {
            let (rows, _) = told(&format!("height_ft;name\n{cell};x\n"));
            assert_eq!(rows[0][0], format!("height_ft=\"{cell}\""));
        }
    }

    #[test]
    fn headings_and_lengths_of_rows_are_held_to_the_columns() {
        let (rows, flaws) = told("name,heigth_m,name\nKit,1.8,x\nMo,1,9,x\n");
        assert_eq!(rows, [["name=\"Kit\""]]);
        let expected =
            ["heigth_m: the heading \"heigth_m\"", "name: the heading \"name\"", "x: a row of 4 cells"];
        assert_eq!(flaws, expected);
    }

    #[test]
    fn each_cell_knows_where_it_stands() {
        let text = "name,threes\n\"Kit, jr\" , 0.5\n";
        let (node, _) = rows(text, 3, &TABLE);
        let spans: Vec<&str> = node.members()[0]
            .entries()
            .iter()
            .map(|entry| &text[entry.node.origin.start..entry.node.origin.end])
            .collect();
        assert_eq!(spans, ["\"Kit, jr\"", "0.5"]);
        assert_eq!(node.members()[0].origin.source, 3);
    }
}
