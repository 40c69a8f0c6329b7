//! The cells of a design as somebody lists them: a table of comma-separated values whose headings are dotted keys.

use crate::design::{BASE, Cells, Factor, Level};
use crate::fault::Problem;
use crate::overrides::Override;
use crate::rows::Cell;
use crate::schema::design::Built;
use crate::schema::experiment::no_path_twice;
use crate::source::Desk;
use crate::tree::{Data, Node, Origin};

/// The cells of the table that a text names by its path; None where a fault was found.
pub(crate) fn cells(desk: &Desk, list: &Node) -> Option<Built> {
    let (source, records) = desk.open_cells(list, "design.list")?;
    let origin = |cell: &Cell| Origin { source, start: cell.start, end: cell.end };
    let mut records = records.into_iter();
    let headings = records.next().unwrap_or_default();
    let rows: Vec<Vec<Cell>> = records.filter(|row| row.iter().any(|cell| !cell.text.is_empty())).collect();
    let refuse = |at: Origin, key: &str, found: String, allowed: &str| {
        let problem = Problem::NotAllowed { found, allowed: allowed.into(), nearest: None };
        desk.fault(at, key, problem, None);
    };
    if headings.is_empty() || rows.is_empty() {
        refuse(list.origin, "design.list", "no cell".into(), "a line of dotted keys, and a row a cell");
        return None;
    }
    for heading in headings.iter().filter(|heading| heading.text.is_empty()) {
        refuse(origin(heading), "", "an empty heading".into(), "a dotted key such as zone.sink_back_m");
    }
    let set = |heading: &Cell, cell: &Cell| Override {
        path: heading.text.clone(),
        path_origin: origin(heading),
        value: Node { origin: origin(cell), data: value(cell) },
        told: Some(written(cell)),
    };
    let keys: Vec<Override> = headings.iter().map(|heading| set(heading, heading)).collect();
    no_path_twice(desk, &keys);
    for row in &rows {
        if let Some(more) = row.get(headings.len()) {
            let allowed = format!("{} cells, as many as there are headings", headings.len());
            refuse(origin(more), "", format!("a row of {} cells", row.len()), &allowed);
        }
    }
    if desk.has_faults() {
        return None;
    }
    let level = |cell: Option<&Cell>| match cell.filter(|cell| !cell.text.is_empty()) {
        None => Level { told: BASE.into(), number: None },
        Some(cell) => {
            let node = Node { origin: origin(cell), data: value(cell) };
            Level { told: cell.text.clone(), number: node.number() }
        }
    };
    let values: Vec<Vec<Level>> =
        rows.iter().map(|row| (0..headings.len()).map(|place| level(row.get(place))).collect()).collect();
    let factors = headings
        .iter()
        .map(|heading| Factor { key: heading.text.clone(), range: None, levels: Vec::new() })
        .collect();
    let overrides = rows
        .iter()
        .map(|row| {
            let filled = headings.iter().zip(row).filter(|(_, cell)| !cell.text.is_empty());
            filled.map(|(heading, cell)| set(heading, cell)).collect()
        })
        .collect();
    Some(Built { cells: Cells { factors, values }, overrides, listed: true })
}

/// A cell as a value: a number, true or false, or a text.
fn value(cell: &Cell) -> Data {
    let text = cell.text.as_str();
    match text {
        "true" => return Data::Flag(true),
        "false" => return Data::Flag(false),
        _ => {}
    }
    if let Ok(whole) = text.parse() {
        return Data::Whole(whole);
    }
    let is_number = text.bytes().all(|byte| byte.is_ascii_digit() || b"+-.eE".contains(&byte));
    match text.parse::<f64>() {
        Ok(number) if is_number => Data::Number(number),
        _ => Data::Text(text.to_owned()),
    }
}

/// A cell as a file would write it.
fn written(cell: &Cell) -> String {
    match value(cell) {
        Data::Text(text) => toml_edit::Value::from(text).to_string().trim().to_owned(),
        _ => cell.text.clone(),
    }
}
