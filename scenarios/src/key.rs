//! A key of a file: name, unit, range and meaning.

use engine::setup::Parameter;

/// Metres in a foot.
pub(crate) const FOOT_M: f64 = 0.3048;

/// A key. `low` and `high` bound numbers (and the coordinates of places); `unit` is empty for plain ones.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Key {
    /// Its name in the file; a length in metres ends in `_m` and may be given in feet as `_ft`.
    pub name: &'static str,
    /// Its unit, as messages write it.
    pub unit: &'static str,
    /// Smallest number allowed.
    pub low: f64,
    /// Largest number allowed.
    pub high: f64,
    /// What it means, in one sentence.
    pub doc: &'static str,
}

impl Key {
    /// A parameter's key.
    pub const fn of(parameter: &Parameter) -> Key {
        let Parameter { name, unit, low, high, doc, .. } = *parameter;
        Key { name, unit, low, high, doc }
    }

    /// The range in words.
    pub fn allowed(&self) -> String {
        let unit = if self.unit.is_empty() { String::new() } else { format!(" {}", self.unit) };
        format!("{} to {}{unit}", plain(self.low), plain(self.high))
    }

    /// The range in words, in feet where `feet` is true.
    pub fn allowed_in(&self, feet: bool) -> String {
        if !feet {
            return self.allowed();
        }
        let whole = |metres: f64| plain((metres / FOOT_M * 100.0).round() / 100.0);
        format!("{} to {} ft", whole(self.low), whole(self.high))
    }

    /// True for a number that the key's range holds.
    pub fn holds(&self, number: f64) -> bool {
        number >= self.low && number <= self.high
    }

    /// The name that gives the same length in feet, where there is one.
    pub fn in_feet(&self) -> Option<String> {
        let stem = self.name.strip_suffix("_m")?;
        (self.unit == "m").then(|| format!("{stem}_ft"))
    }
}

/// A number as files and messages write it; thousands apart where there are many.
pub(crate) fn plain(number: f64) -> String {
    if number.fract() != 0.0 || number.abs() < 10_000.0 {
        return format!("{number}");
    }
    let digits = format!("{:.0}", number.abs());
    let mut text = String::from(if number < 0.0 { "-" } else { "" });
    for (nth, digit) in digits.chars().enumerate() {
        if nth > 0 && (digits.len() - nth).is_multiple_of(3) {
            text.push(',');
        }
        text.push(digit);
    }
    text
}
