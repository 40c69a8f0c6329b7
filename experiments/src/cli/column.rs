//! The name of a column as it is typed, and what is said of one that does not exist.

use crate::columns::{Column, keys};
use crate::wording::guess;
use crate::wrapping::wrapped;

/// A column's name, or the name most like it and all there are.
pub fn named(text: &str) -> Result<String, String> {
    if Column::named(text).is_some() {
        return Ok(text.into());
    }
    let all = keys();
    let listed = wrapped(&format!("Allowed are: {}.", all.join(", ")), 100);
    Err(format!("no column is called so{}\n{listed}", guess(text, &all)))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_column_that_does_not_exist_is_answered_with_those_that_do() {
        assert_eq!(named("turnover_rate"), Ok("turnover_rate".into()));
        let said = named("turnovers_rate").unwrap_err();
        assert!(said.starts_with("no column is called so, did you mean turnover_rate?\n"), "{said}");
        for key in keys() {
            assert!(said.contains(key), "{key} is not in {said}");
        }
        assert!(said.lines().all(|line| line.len() <= 100), "{said}");
        assert!(!named("zzz").unwrap_err().contains("did you mean"));
    }
}
