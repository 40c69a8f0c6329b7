//! Numbers as they are typed, and what is said of those that cannot be used.

use crate::wording::grouped;

/// A whole number between two ends, both allowed.
pub fn whole(text: &str, least: u64, most: u64) -> Result<u64, String> {
    let allowed = format!("allowed is a whole number from {} to {}", grouped(least), grouped(most));
    match text.parse::<u64>() {
        Ok(number) if (least..=most).contains(&number) => Ok(number),
        Ok(number) if number < least => Err(format!("too small, {allowed}")),
        Ok(_) => Err(format!("too large, {allowed}")),
        Err(_) => Err(complaint(text, &allowed)),
    }
}

/// A number between two ends, both allowed.
pub fn between(text: &str, least: f64, most: f64) -> Result<f64, String> {
    let number = text.parse().ok().filter(|number| (least..=most).contains(number));
    number.ok_or_else(|| format!("allowed is a number from {least} to {most}"))
}

/// Threads that a machine with fewer processors may be asked for: it hears a stop within a second all the same.
const THREADS: usize = 64;

/// Threads of a run.
pub fn threads(text: &str) -> Result<u64, String> {
    let most = std::thread::available_parallelism().map_or(1, usize::from).max(THREADS);
    whole(text, 1, most as u64)
        .map_err(|said| format!("{said}: more than processors are no faster, and so many hear a stop late"))
}

/// Possessions of a batch.
pub fn batch(text: &str) -> Result<u64, String> {
    whole(text, 1, 1024).map_err(|said| format!("{said}: more take memory and are no faster"))
}

/// Why a text is no number: most often a sign, or separators as they stand in print.
fn complaint(text: &str, allowed: &str) -> String {
    let digits = |text: &str| !text.is_empty() && text.bytes().all(|byte| byte.is_ascii_digit());
    let bare: String = text.chars().filter(|c| !",_' ".contains(*c)).collect();
    if digits(text) {
        format!("too large, {allowed}")
    } else if text.strip_prefix('-').is_some_and(digits) {
        format!("below zero, {allowed}")
    } else if digits(&bare) {
        format!("write it without separators, {bare}; {allowed}")
    } else {
        format!("not a whole number, {allowed}")
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_number_with_decimals_is_taken_between_its_ends() {
        assert_eq!([between("0.8", 0.5, 1.0), between("1", 0.5, 1.0)], [Ok(0.8), Ok(1.0)]);
        for text in ["0.4", "1.1", "-1", "NaN", "inf", "0,8", ""] {
            assert_eq!(between(text, 0.5, 1.0), Err("allowed is a number from 0.5 to 1".into()), "{text}");
        }
    }

    #[test]
    fn a_number_is_taken_or_answered_with_what_is_allowed() {
        assert_eq!(whole("8192", 1, 10_000), Ok(8192));
        assert_eq!([whole("1", 1, 9), whole("9", 1, 9)], [Ok(1), Ok(9)], "both ends are allowed");
        for (text, word) in [
            ("0", "too small"),
            ("10001", "too large"),
            ("99999999999999999999999", "too large"),
            ("-3", "below zero"),
            ("8,192", "without separators, 8192"),
            ("many", "not a whole number"),
            ("1.5", "not a whole number"),
            ("", "not a whole number"),
        ] {
            let said = whole(text, 1, 10_000).unwrap_err();
            assert!(said.contains(word) && said.ends_with("from 1 to 10,000"), "{text}: {said}");
        }
    }
}
