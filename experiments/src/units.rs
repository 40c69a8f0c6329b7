//! How lengths are told: in metres, or in feet and inches as a coach under US rules says them. Files stay metric.

use std::borrow::Cow;

use clap::ValueEnum;
use engine::setup::Court;
use serde::{Deserialize, Serialize};

/// Inches in a metre. (by definition of the inch: 25.4 mm)
const INCHES: f64 = 1.0 / 0.0254;
/// Inches in a foot.
const FOOT: i64 = 12;
/// From so many feet on, inches are of no use to anybody.
const WHOLE_FEET_FROM: i64 = 10;
/// So much of an inch is forgiven where a length is cut off, m: limits that are stated in feet are kept in centimetres.
const FORGIVEN_M: f64 = 0.002;

/// What lengths are told in.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, ValueEnum, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Units {
    /// Metres.
    #[default]
    M,
    /// Feet and inches.
    Ft,
}

impl Units {
    /// What is asked for, or else what the rules of a floor are written in.
    pub fn of(asked: Option<Self>, court: &Court) -> Self {
        asked.unwrap_or(if court.markings.in_feet { Self::Ft } else { Self::M })
    }

    /// As the command line and files write it.
    pub const fn key(self) -> &'static str {
        match self {
            Self::M => "m",
            Self::Ft => "ft",
        }
    }

    /// A length (m): `1.2 m`, `3 ft 11 in`; from ten feet on whole feet.
    pub fn length(self, metres: f64) -> String {
        match self {
            Self::M => format!("{metres:.1} m"),
            Self::Ft => in_feet(metres, (metres * INCHES).round() as i64),
        }
    }

    /// The same to a centimetre where it is told in metres.
    pub fn exact(self, metres: f64) -> String {
        match self {
            Self::M => format!("{metres:.2} m"),
            Self::Ft => self.length(metres),
        }
    }

    /// How far somebody is away. Feet and inches are cut off, so that less than the four feet of an open look is never told as
    /// four.
    pub fn room(self, metres: f64) -> String {
        match self {
            Self::M => self.length(metres),
            Self::Ft => in_feet(metres, ((metres + FORGIVEN_M) * INCHES) as i64),
        }
    }

    /// How near somebody may be, as a player can judge it: `0.6 m`, `2 ft`, cut off.
    pub fn paces(self, metres: f64) -> String {
        match self {
            Self::M => format!("{:.1} m", (metres * 10.0).floor() / 10.0),
            Self::Ft => format!("{:.0} ft", (metres * INCHES / FOOT as f64).floor()),
        }
    }

    /// A length that is told as a rough one: `1.2 m`, `4 ft`; less than a foot and a half in inches.
    fn rough(self, metres: f64) -> String {
        let feet = (metres * INCHES / FOOT as f64).round();
        if self == Self::Ft && metres * INCHES >= 1.5 * FOOT as f64 {
            format!("{feet:.0} ft")
        } else {
            self.length(metres)
        }
    }

    /// A text whose lengths are in metres, with these in its units: `sinks 1.2 m` becomes `sinks 3 ft 11 in`, and `sinks about
    /// 1.2 m` `sinks about 4 ft`.
    pub fn retold(self, text: &str) -> Cow<'_, str> {
        if self == Self::M {
            return text.into();
        }
        let (mut told, mut rest) = (String::new(), text);
        while let Some((before, after)) = rest.split_once(" m") {
            let number = before.rfind(|letter: char| !letter.is_ascii_digit() && letter != '.');
            let (words, number) = before
                .split_at(number.map_or(0, |at| at + before[at..].chars().next().map_or(0, char::len_utf8)));
            let ends = !after.starts_with(|letter: char| letter.is_alphanumeric() || letter == '/');
            let stands_alone = !words.ends_with(char::is_alphanumeric);
            match number.parse::<f64>() {
                Ok(metres) if ends && stands_alone && words.ends_with("about ") => {
                    told += &format!("{words}{}", self.rough(metres));
                }
                Ok(metres) if ends && stands_alone => told += &format!("{words}{}", self.length(metres)),
                _ => told += &format!("{before} m"),
            }
            rest = after;
        }
        (told + rest).into()
    }
}

/// Whole inches as feet and inches; long ones by the metres that they are.
fn in_feet(metres: f64, inches: i64) -> String {
    let (feet, inches) = (inches / FOOT, inches % FOOT);
    match (feet, inches) {
        (WHOLE_FEET_FROM.., _) => format!("{:.0} ft", metres * INCHES / FOOT as f64),
        (0, inches) => format!("{inches} in"),
        (feet, 0) => format!("{feet} ft"),
        (feet, inches) => format!("{feet} ft {inches} in"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lengths_are_told_as_a_coach_says_them() {
        let told = |metres| [Units::M.length(metres), Units::Ft.length(metres)];
        assert_eq!(told(0.2), ["0.2 m", "8 in"]);
        assert_eq!(told(1.22), ["1.2 m", "4 ft"]);
        assert_eq!(told(1.2), ["1.2 m", "3 ft 11 in"]);
        assert_eq!(told(3.05), ["3.0 m", "10 ft"]);
        assert_eq!(told(6.9), ["6.9 m", "23 ft"]);
        assert_eq!([Units::M.exact(3.456), Units::Ft.exact(3.456)], ["3.46 m", "11 ft"]);
        assert_eq!([0.61, 1.2185].map(|metres| Units::Ft.paces(metres)), ["2 ft", "3 ft"]);
        assert_eq!([0.61, 1.19].map(|metres| Units::M.paces(metres)), ["0.6 m", "1.1 m"]);
    }

    #[test]
    fn less_than_four_feet_are_never_told_as_four() {
        let (open, wide) = (f64::from(engine::OPEN_M), f64::from(engine::WIDE_OPEN_M));
        assert_eq!([open, wide].map(|metres| Units::Ft.room(metres)), ["4 ft", "6 ft"]);
        assert_eq!(Units::Ft.room(open - 0.005), "3 ft 11 in");
        assert_eq!(Units::Ft.length(open - 0.005), "4 ft", "rounded, it would be");
    }

    #[test]
    fn a_text_is_retold_where_it_tells_a_length_and_nowhere_else() {
        let feet = |text| Units::Ft.retold(text).into_owned();
        assert_eq!(
            feet("their back line sinks 1.2 m and 6.9 m, too"),
            "their back line sinks 3 ft 11 in and 23 ft, too"
        );
        assert_eq!(feet("sinks about 1.2 m or about 0.3 m"), "sinks about 4 ft or about 1 ft");
        assert_eq!(feet("\u{2013}0.5 m."), "\u{2013}1 ft 8 in.");
        for text in ["2 men", "4 m/s", "sink_back_m=0.6", "v1.2 m", "m", " m", "passes to him: 3", "1.2.3 m"]
        {
            assert_eq!(feet(text), text);
        }
        assert_eq!(Units::M.retold("sinks 1.2 m"), "sinks 1.2 m");
    }
}
