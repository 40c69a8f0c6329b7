//! The name of a column as it is typed, and what is said of one that does not exist.

use scenarios::likeness;

use crate::columns::{Column, keys};
use crate::wording::{any_of, guess};

/// Names that are told of one that does not exist.
const TOLD: usize = 5;

/// A column's name, or the names most like it.
pub fn named(text: &str) -> Result<String, String> {
    if Column::named(text).is_some() {
        return Ok(text.into());
    }
    let all = keys();
    let mut near = all.clone();
    near.sort_by(|a, b| likeness(text, b).total_cmp(&likeness(text, a)));
    Err(format!(
        "no column is called so{}\nNearest are {}. `zoneprobe keys columns` explains all.",
        guess(text, &all),
        any_of(&near[..TOLD])
    ))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_column_that_does_not_exist_is_answered_with_those_most_like_it() {
        assert_eq!(named("turnover_rate"), Ok("turnover_rate".into()));
        let said = named("turnovers_rate").unwrap_err();
        assert!(said.starts_with("no column is called so, did you mean turnover_rate?\n"), "{said}");
        assert!(said.contains("keys columns") && said.len() < 250, "{said}");
        assert!(!named("zzz").unwrap_err().contains("did you mean"));
    }
}
