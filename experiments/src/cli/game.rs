//! Whom a sheet is against, and when.

/// Longest name that a line of the sheet holds, letters.
const LONGEST: usize = 60;

/// An opponent's name, as it stands on the sheet.
pub fn opponent(typed: &str) -> Result<String, String> {
    let name = typed.trim();
    let count = name.chars().count();
    if count == 0 || count > LONGEST {
        return Err(format!("a name has 1 to {LONGEST} letters, this one {count}"));
    }
    if name.contains(scenarios::is_hidden) {
        return Err("a name has no character that is not seen".into());
    }
    Ok(name.to_owned())
}

/// A day of the calendar, as 2026-12-04.
pub fn date(typed: &str) -> Result<String, String> {
    let wrong = || "write year, month and day, as 2026-12-04".to_owned();
    let parts: Vec<&str> = typed.split('-').collect();
    let digits =
        |part: &str, count: usize| part.len() == count && part.bytes().all(|byte| byte.is_ascii_digit());
    let [year, month, day] = parts[..] else { return Err(wrong()) };
    if !(digits(year, 4) && digits(month, 2) && digits(day, 2)) {
        return Err(wrong());
    }
    let number = |part: &str| part.parse::<u32>().map_err(|_| wrong());
    let (year, month, day) = (number(year)?, number(month)?, number(day)?);
    let is_leap = year.is_multiple_of(4) && (!year.is_multiple_of(100) || year.is_multiple_of(400));
    let days = match month {
        1 | 3 | 5 | 7 | 8 | 10 | 12 => 31,
        4 | 6 | 9 | 11 => 30,
        2 => 28 + u32::from(is_leap),
        _ => return Err("a year has months 01 to 12".into()),
    };
    if !(1..=days).contains(&day) {
        return Err(format!("that month has days 01 to {days}"));
    }
    Ok(typed.to_owned())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn days_that_no_calendar_has_and_names_that_nobody_sees_are_refused() {
        assert_eq!(date("2028-02-29").as_deref(), Ok("2028-02-29"));
        for typed in ["2026-02-29", "2026-13-01", "2026-12-00", "4.12.2026", "2026-12-4", "2026-1a-04", ""] {
            assert!(date(typed).is_err(), "{typed}");
        }
        assert_eq!(opponent(" North End ").as_deref(), Ok("North End"));
        for typed in ["", "   ", "a\u{202e}b", &"n".repeat(61)] {
            assert!(opponent(typed).is_err(), "{typed}");
        }
    }
}
