//! Hints: what a number out of range, or a value of the wrong type, was probably meant to be.

use crate::key::{FOOT_M, Key, plain};
use crate::rows::could_be_inches;
use crate::tree::Data;

/// How a number was read.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(crate) enum Unit {
    /// In the key's own unit.
    Own,
    /// A length in feet by its key's name.
    FeetByName,
    /// A length in the file's unit, metres.
    FileMetres,
    /// A length in the file's unit, feet.
    FileFeet,
}

impl Unit {
    /// What a number is multiplied with to give the key's own unit.
    pub fn scale(self) -> f64 {
        if self.is_feet() { FOOT_M } else { 1.0 }
    }

    /// True for feet.
    pub fn is_feet(self) -> bool {
        matches!(self, Unit::FeetByName | Unit::FileFeet)
    }
}

/// The hint for places that would do if they were in feet.
pub(crate) const FILE_IN_FEET: &str = "If these are feet, put `units = \"ft\"` at the top of the file.";

/// The hint for a share where a logit belongs.
const NO_SHARE: &str = "It is a logit, no share of shots: 0 adds nothing, 0.4 makes 50 % of 40 %. How many shots go in, the \
                        level's `skill.shot.rim.a` and the keys beside it say; see `zoneprobe keys level`.";

/// The hint for a text that is no share.
const SHARE: &str = "A share is a number such as 0.4; in a table 40 % or 38 of 95 does as well. Where a spreadsheet has made a \
                     date of it, format the column as text first.";

/// The hint for a value that is no number of the key's range.
pub(crate) fn for_number(key: &Key, data: &Data, unit: Unit) -> Option<String> {
    let number = match data {
        Data::Whole(whole) => *whole as f64,
        Data::Number(number) => *number,
        Data::Text(text) => return for_text(key, text, unit),
        _ => return None,
    };
    if key.unit == "logit" {
        return Some(NO_SHARE.into());
    }
    match (key.unit, unit) {
        ("m", Unit::Own) if key.holds(number * FOOT_M) => {
            let feet = key.in_feet()?;
            Some(format!("If these are feet, write `{feet} = {}`.", plain(number)))
        }
        ("m", Unit::FileMetres) if key.holds(number * FOOT_M) => Some(FILE_IN_FEET.into()),
        ("m", Unit::Own | Unit::FileMetres) if key.holds(number / 100.0) => {
            Some(format!("Lengths are in metres: {} cm are {}.", plain(number), plain(number / 100.0)))
        }
        ("m", Unit::FeetByName) if key.holds(number) => {
            Some(format!("If these are metres, write `{} = {}`.", key.name, plain(number)))
        }
        ("s", _) if key.holds(number / 1000.0) => {
            Some(format!("Times are in seconds: {} ms are {}.", plain(number), plain(number / 1000.0)))
        }
        ("", _) if key.low >= 0.0 && key.high <= 1.0 && key.holds(number / 100.0) => Some(format!(
            "A share is written from 0 to 1: {} % are {}.",
            plain(number),
            plain(number / 100.0)
        )),
        _ => None,
    }
}

/// The hint for a text where a number belongs.
fn for_text(key: &Key, text: &str, read_as: Unit) -> Option<String> {
    let start = text.trim();
    if read_as == Unit::FeetByName
        && could_be_inches(start)
        && let Some((feet, inches)) = start.split_once(['.', ','])
    {
        let whole = feet.parse::<f64>().ok()? + inches.parse::<f64>().ok()? / 12.0;
        return Some(format!(
            "It may be {feet} feet {inches} inches or {start} feet: write {feet}'{inches}\", or in feet with three digits, such as \
             {whole:.3}."
        ));
    }
    let is_share = key.unit.is_empty() && key.low >= 0.0 && key.high <= 1.0;
    let usual = || is_share.then(|| SHARE.to_owned());
    numbered(key, start).or_else(usual)
}

/// The hint for a text that begins with a number.
fn numbered(key: &Key, start: &str) -> Option<String> {
    let end = start.find(|c: char| !c.is_ascii_digit() && !"+-._".contains(c)).unwrap_or(start.len());
    let number: f64 = start.get(..end)?.parse().ok()?;
    let unit = start.get(end..)?.trim();
    if matches!(unit, "ft" | "feet" | "'")
        && let Some(feet) = key.in_feet()
    {
        return Some(format!("Write `{feet} = {}`, without quotes.", plain(number)));
    }
    if key.unit == "logit" && unit.starts_with('%') {
        return Some(NO_SHARE.into());
    }
    if key.unit.is_empty() && unit.starts_with('%') && key.holds(number / 100.0) {
        return Some(format!(
            "Write {}, without quotes: a share is written from 0 to 1.",
            plain(number / 100.0)
        ));
    }
    if !key.holds(number) {
        return None;
    }
    let tail = if unit.is_empty() { "" } else { " and without a unit" };
    Some(format!("Write {}, without quotes{tail}.", plain(number)))
}
