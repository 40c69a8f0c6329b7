//! Numbers and kinds as a coach says them.

use engine::setup::{PassKind, ProgramKind};
use scenarios::{likeness, shown_lines};

use crate::columns::{Column, Told};
use crate::stats::Interval;

/// Possessions that counts and points are told for: about a half against a zone.
pub const TWENTY: f64 = 20.0;

/// A count over so many possessions, in twenty of them.
pub fn per_twenty(count: i64, possessions: u64) -> f64 {
    TWENTY * count as f64 / possessions as f64
}

/// A figure with its interval: `8.2 in 20 possessions (95 % interval 7.9 to 8.5)`.
pub fn figure(column: &Column, figure: &Interval) -> String {
    let style = Style::of(column, figure);
    format!(
        "{}{} (95 % interval {} to {})",
        style.number(figure.estimate),
        style.unit(),
        style.number(figure.low),
        style.number(figure.high)
    )
}

/// A difference by itself: `1.6 more turnovers in 20 possessions (1.2 to 2.0)`.
pub fn gap(column: &Column, difference: &Interval) -> String {
    let after = if column.told() == Told::InTwenty { " in 20 possessions" } else { "" };
    told_gap(column, (column.words, after), difference)
}

/// A difference in a list that has said how many possessions it speaks of: `1.6 more turnovers (1.2 to 2.0)`.
pub fn listed_gap(column: &Column, difference: &Interval) -> String {
    gap_called(column, column.words, difference)
}

/// The same of a column that goes by other words there.
pub fn gap_called(column: &Column, words: &str, difference: &Interval) -> String {
    told_gap(column, (words, ""), difference)
}

/// An interval leaves 0 out by less than this share of its estimate: it could as well have held it. (a choice)
const THIN: f64 = 0.1;

/// The two values of a column of which a difference is told, with as many decimals as a reader needs who subtracts them:
/// `3.06` and `4.34` beside a difference of 1.3.
pub fn pair(column: &Column, [own, other]: [f64; 2], difference: &Interval) -> [String; 2] {
    let style = Style::for_values_up_to(column, difference.low.abs().max(difference.high.abs()));
    let least = Style::for_values_up_to(column, own.abs().max(other.abs())).decimals;
    let shown = |decimals: usize| [own, other].map(|value| Style { decimals, ..style }.number(value));
    let agrees = |told: &[String; 2]| {
        let [own, other] =
            told.each_ref().map(|text| text.replace('\u{2212}', "-").parse::<f64>().unwrap_or(0.0));
        format!("{:.*}", style.decimals, (own - other).abs()) == style.number(difference.estimate.abs())
    };
    (least..MOST_DECIMALS).map(shown).find(agrees).unwrap_or_else(|| shown(MOST_DECIMALS))
}

/// Parts of a whole (in one unit) as they are told with one decimal, so that they add up to the whole as it is told: what is left
/// over by rounding goes to those that it cost most.
pub fn adding_up(parts: &[f64]) -> Vec<f64> {
    // As it is written, which need not be as it is rounded.
    let whole: f64 = format!("{:.1}", parts.iter().sum::<f64>()).parse().unwrap_or_default();
    let whole = (10.0 * whole).round();
    let mut told: Vec<f64> = parts.iter().map(|part| (10.0 * part).floor()).collect();
    let mut order: Vec<usize> = (0..parts.len()).collect();
    let lost = |nth: &usize| 10.0 * parts[*nth] - (10.0 * parts[*nth]).floor();
    order.sort_by(|a, b| lost(b).total_cmp(&lost(a)));
    let left = whole - told.iter().sum::<f64>();
    for nth in order.into_iter().take(left as usize) {
        told[nth] += 1.0;
    }
    told.into_iter().map(|tenths| tenths / 10.0).collect()
}

/// The ends are turned with the sign of the estimate; where they lie on both sides each says so: "0.5 fewer (from 1.3 fewer to
/// 0.2 more)". The end that decides is never told as 0, nor with decimals that nothing else has; an interval that only just
/// leaves 0 out says so.
fn told_gap(column: &Column, (words, after): (&str, &str), difference: &Interval) -> String {
    let style = Style::for_values_up_to(column, difference.low.abs().max(difference.high.abs()));
    let up = difference.estimate >= 0.0;
    let turned = |value: f64| style.number(if up { value } else { -value });
    let (size, low, high) = (turned(difference.estimate), turned(difference.low), turned(difference.high));
    let (low, high) = if up { (low, high) } else { (high, low) };
    let is_zero = |text: &str| text.bytes().all(|byte| b"0.".contains(&byte));
    let decides = difference.low > 0.0 || difference.high < 0.0;
    let low = if decides && is_zero(&low) { format!("under {}", style.least()) } else { low };
    let nearest = difference.low.abs().min(difference.high.abs());
    let thin = if decides && nearest < THIN * difference.estimate.abs() { THINLY } else { "" };
    match column.told() {
        _ if is_zero(&size) && !decides && column.told() != Told::InTwenty => {
            let unit = if column.told() == Told::Percent { " percentage points" } else { style.unit() };
            let (less, more) = (style.number(-difference.low), style.number(difference.high));
            format!("{words} the same on average (from {less} lower to {more}{unit} higher)")
        }
        Told::InTwenty if difference.low < 0.0 && difference.high > 0.0 => {
            let (less, more) = (style.number(-difference.low), style.number(difference.high));
            let way = if up { "more" } else { "fewer" };
            format!("{size} {way} {words}{after} (from {less} fewer to {more} more)")
        }
        Told::InTwenty => {
            format!("{size} {} {words}{after} ({low} to {high}{thin})", if up { "more" } else { "fewer" })
        }
        told => {
            let unit = if told == Told::Percent { " percentage points" } else { style.unit() };
            let way = if up { "higher" } else { "lower" };
            let ends = if difference.low < 0.0 && difference.high > 0.0 {
                let (less, more) = (style.number(-difference.low), style.number(difference.high));
                format!("from {less} lower to {more} higher")
            } else {
                format!("{low} to {high}{thin}")
            };
            format!("{words} {size}{unit} {way} ({ends})")
        }
    }
}

/// A value alone, in the unit that it is told in, without that unit's name.
pub fn bare(column: &Column, value: f64) -> String {
    Style::for_values_up_to(column, value.abs()).number(value)
}

/// A value of an interval, with as many decimals as all of it is told with.
pub fn alike(column: &Column, value: f64, interval: &Interval) -> String {
    Style::of(column, interval).number(value)
}

/// Said of an interval that only just leaves 0 out.
pub const THINLY: &str = ", only just more than luck";

/// No number is told with more decimals than this.
const MOST_DECIMALS: usize = 4;

/// How the numbers of one column are written.
#[derive(Clone, Copy)]
struct Style {
    told: Told,
    decimals: usize,
}

impl Style {
    /// For all of an interval alike. The end that decides, the one nearer to 0 of an interval that leaves 0 out, is never
    /// told as 0.
    fn of(column: &Column, interval: &Interval) -> Self {
        let mut style = Self::for_values_up_to(column, interval.low.abs().max(interval.high.abs()));
        let nearest = interval.low.abs().min(interval.high.abs());
        let is_zero = |style: &Self| style.number(nearest).bytes().all(|byte| b"0.".contains(&byte));
        while !interval.contains(0.0) && style.decimals < MOST_DECIMALS && is_zero(&style) {
            style.decimals += 1;
        }
        style
    }

    /// For values up to this size: two decimals where one would show little.
    fn for_values_up_to(column: &Column, largest: f64) -> Self {
        let told = column.told();
        let decimals = match told {
            Told::InTwenty => 1 + usize::from(TWENTY * largest < 0.95),
            Told::Percent => 1,
            Told::Seconds | Told::Metres | Told::Number => 2,
        };
        Self { told, decimals }
    }

    /// Never a negative zero; a minus is no hyphen.
    fn number(&self, value: f64) -> String {
        let value = match self.told {
            Told::InTwenty => TWENTY * value,
            Told::Percent => 100.0 * value,
            Told::Seconds | Told::Metres | Told::Number => value,
        };
        let text = format!("{value:.*}", self.decimals);
        let is_zero = text.bytes().all(|byte| b"-0.".contains(&byte));
        if is_zero { text.trim_start_matches('-').into() } else { text.replace('-', "\u{2212}") }
    }

    /// The smallest number that is not told as 0.
    fn least(&self) -> String {
        format!("{:.*}", self.decimals, libm::pow(10.0, -(self.decimals as f64)))
    }

    fn unit(&self) -> &'static str {
        match self.told {
            Told::InTwenty => " in 20 possessions",
            Told::Percent => " %",
            Told::Seconds => " s",
            Told::Metres => " m",
            Told::Number => "",
        }
    }
}

/// A kind of pass.
pub const fn pass_kind(kind: PassKind) -> &'static str {
    match kind {
        PassKind::Chest => "chest",
        PassKind::Bounce => "bounce",
        PassKind::Overhead => "overhead",
        PassKind::Lob => "lob",
    }
}

/// What a program is.
pub const fn program_kind(kind: ProgramKind) -> &'static str {
    match kind {
        ProgramKind::Route => "route",
        ProgramKind::PostOption => "post option",
        ProgramKind::GuardOption => "guard option",
        ProgramKind::Set => "set",
    }
}

/// A chance (0-1) that was asked for, in per cent to the tenth, without the sign: `80`, `99.9`.
pub fn in_percent(chance: f64) -> String {
    ((1000.0 * chance).round() / 10.0).to_string()
}

/// A small count in words, as beside the numbers of players a figure would be one of them; `none` is what 0 is called.
pub fn in_words(count: usize, none: &'static str) -> &'static str {
    [none, "one", "two", "three", "four", "five"][count.min(5)]
}

/// Who, each once, with what in: `a in good looks and net points`, of a pair for each of both.
pub fn each_in<'t>(pairs: impl Iterator<Item = (&'t str, &'t str)>) -> Vec<String> {
    let mut all: Vec<(&str, Vec<&str>)> = Vec::new();
    for (who, what) in pairs {
        match all.iter_mut().find(|(known, _)| *known == who) {
            Some((_, own)) => own.push(what),
            None => all.push((who, vec![what])),
        }
    }
    all.iter().map(|(who, what)| format!("{who} in {}", listed(what))).collect()
}

/// A whole number with commas: `131,072`.
pub fn grouped(value: u64) -> String {
    let digits = value.to_string();
    let mut text = String::new();
    for (place, digit) in digits.chars().enumerate() {
        if place > 0 && (digits.len() - place).is_multiple_of(3) {
            text.push(',');
        }
        text.push(digit);
    }
    text
}

/// A number of possessions to two digits, upwards: a rough guide should not look like a measurement.
pub fn about(value: u64) -> String {
    let mut unit = 1;
    while value / unit >= 100 {
        unit *= 10;
    }
    grouped(value.div_ceil(unit).saturating_mul(unit))
}

/// A chance as a whole percent, never as certain: what rounds to 0 or 100 is told as below 1 or above 99.
pub fn chance(share: f64) -> String {
    match (100.0 * share).round() as u8 {
        0 => "<1 %".into(),
        100.. => ">99 %".into(),
        percent => format!("{percent} %"),
    }
}

/// Words with a capital letter in front.
pub fn capital(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

/// Text as HTML and SVG show it; what they cannot show is written out.
pub fn escaped(text: &str) -> String {
    shown_lines(text).replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;").replace('"', "&quot;")
}

/// `a`, `a and b`, `a, b and c`.
pub fn listed<S: AsRef<str>>(items: &[S]) -> String {
    joined(items, "and")
}

/// `a`, `a or b`, `a, b or c`.
pub fn any_of<S: AsRef<str>>(items: &[S]) -> String {
    joined(items, "or")
}

fn joined<S: AsRef<str>>(items: &[S], word: &str) -> String {
    match items {
        [] => String::new(),
        [one] => one.as_ref().into(),
        [some @ .., last] => {
            let some: Vec<&str> = some.iter().map(AsRef::as_ref).collect();
            format!("{} {word} {}", some.join(", "), last.as_ref())
        }
    }
}

/// Likeness (0 to 1) from which a word is taken for another one mistyped: a choice.
const ALIKE: f64 = 0.8;

/// `, did you mean that?` with the word among `known` that looks most like the typed one; empty if none does.
pub fn guess(typed: &str, known: &[&str]) -> String {
    let alike = known.iter().map(|word| (likeness(typed, word), word));
    let nearest = alike.filter(|(alike, _)| *alike >= ALIKE).max_by(|a, b| a.0.total_cmp(&b.0));
    nearest.map_or_else(String::new, |(_, word)| format!(", did you mean {word}?"))
}

/// Which of several something is, from 0: `1st`, `2nd`.
pub fn ordinal(nth: usize) -> String {
    let end = match (nth + 1) % 10 {
        _ if (10..13).contains(&(nth % 100)) => "th",
        1 => "st",
        2 => "nd",
        3 => "rd",
        _ => "th",
    };
    format!("{}{end}", nth + 1)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn interval(low: f64, estimate: f64, high: f64) -> Interval {
        Interval { estimate, low, high }
    }

    #[test]
    fn places_in_an_order_end_as_they_are_spoken() {
        let told = [0, 1, 2, 3, 10, 11, 12, 20, 110].map(ordinal);
        assert_eq!(told, ["1st", "2nd", "3rd", "4th", "11th", "12th", "13th", "21st", "111th"]);
    }

    #[test]
    fn figures_read_as_said() {
        let told =
            |key, low, estimate, high| figure(Column::named(key).unwrap(), &interval(low, estimate, high));
        let looks = told("open_look_rate", 0.4, 0.41, 0.425);
        assert_eq!(looks, "8.2 in 20 possessions (95 % interval 8.0 to 8.5)");
        let turnovers = told("turnover_rate", 0.01, 0.0155, 0.02);
        assert_eq!(turnovers, "0.31 in 20 possessions (95 % interval 0.20 to 0.40)");
        assert_eq!(told("break_exposure", 0.1, 0.1234, 0.15), "12.3 % (95 % interval 10.0 to 15.0)");
        assert_eq!(told("back_line_lateness_s", 0.4, 0.424, 0.45), "0.42 s (95 % interval 0.40 to 0.45)");
    }

    #[test]
    fn differences_read_as_said() {
        let turnovers = Column::named("turnover_rate").unwrap();
        let fewer = interval(-0.1, -0.08, 0.01);
        assert_eq!(
            gap(turnovers, &fewer),
            "1.6 fewer turnovers in 20 possessions (from 2.0 fewer to 0.2 more)"
        );
        let more = interval(0.01, 0.02, 0.03);
        assert_eq!(listed_gap(turnovers, &more), "0.40 more turnovers (0.20 to 0.60)");
        let exposure = Column::named("break_exposure").unwrap();
        assert_eq!(gap(exposure, &more), "risk of a fast break 2.0 percentage points higher (1.0 to 3.0)");
        assert_eq!(
            gap(exposure, &interval(-0.01, 0.002, 0.014)),
            "risk of a fast break 0.2 percentage points higher (from 1.0 lower to 1.4 higher)"
        );
        assert_eq!([bare(turnovers, -0.00001), bare(turnovers, -0.1)], ["0.00", "\u{2212}2.0"]);
        let decides = interval(0.0001, 0.06, 0.12);
        assert_eq!(
            gap(turnovers, &decides),
            "1.2 more turnovers in 20 possessions (under 0.1 to 2.4, only just more than luck)"
        );
        assert_eq!(
            gap(exposure, &interval(-0.01, 0.0002, 0.014)),
            "risk of a fast break the same on average (from 1.0 lower to 1.4 percentage points higher)"
        );
        assert_eq!(
            gap(turnovers, &interval(0.0, 0.06, 0.12)),
            "1.2 more turnovers in 20 possessions (0.0 to 2.4)"
        );
    }

    #[test]
    fn who_subtracts_or_adds_up_what_is_told_finds_what_is_told() {
        let looks = Column::named("open_look_rate").unwrap();
        let differ = |own: f64, other: f64| {
            let by = own - other;
            pair(looks, [own, other], &interval(by - 0.02, by, by + 0.02))
        };
        assert_eq!(differ(0.1528, 0.2168), ["3.06", "4.34"], "told as 1.3 fewer: 3.1 and 4.3 would be 1.2");
        assert_eq!(differ(0.15, 0.2), ["3.0", "4.0"]);
        let told = adding_up(&[2.26, 1.16, 0.56, 0.56, 0.47]);
        assert!((told.iter().sum::<f64>() - 5.0).abs() < 1e-9, "{told:?}");
        assert!(
            told.iter().zip([2.3, 1.2, 0.6, 0.5, 0.4]).all(|(a, b): (&f64, f64)| (a - b).abs() < 0.11),
            "{told:?}"
        );
        assert_eq!(adding_up(&[]), [0.0; 0]);
    }

    #[test]
    fn a_guess_is_made_where_a_word_is_near() {
        let known = ["seam-cross", "seam-sit", "hold-wing"];
        assert_eq!(guess("seam-crosss", &known), ", did you mean seam-cross?");
        assert_eq!(guess("hold", &known), ", did you mean hold-wing?");
        assert_eq!(
            guess("wing-drops", &["point-drops", "near-wing-drops"]),
            ", did you mean near-wing-drops?"
        );
        assert_eq!([guess("zzz", &known), guess("seam-sit", &[])], ["", ""]);
    }

    #[test]
    fn numbers_and_lists_read_as_said() {
        assert_eq!([grouped(7), grouped(8192), grouped(1_048_576)], ["7", "8,192", "1,048,576"]);
        assert_eq!([about(99), about(101), about(130_001), about(8192)], ["99", "110", "140,000", "8,200"]);
        assert!(about(u64::MAX).len() > 20);
        assert_eq!(
            [1.0, 0.9951, 0.994, 0.005, 0.0049, 0.0].map(chance),
            [">99 %", ">99 %", "99 %", "1 %", "<1 %", "<1 %"]
        );
        assert_eq!(
            [listed(&["a"]), listed(&["a", "b"]), listed(&["a", "b", "c"])],
            ["a", "a and b", "a, b and c"]
        );
    }
}
