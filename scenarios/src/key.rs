//! A key of a file: name, unit, range and meaning, declared once, at the place where it is read.

use crate::asked::plain;

/// Metres in a foot.
pub(crate) const FOOT_M: f64 = 0.3048;

/// A key. `low` and `high` bound numbers (and the coordinates of places); `unit` is empty for plain ones.
#[derive(Clone, Copy, Debug)]
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
    /// A number with its unit and range.
    pub const fn number(
        name: &'static str,
        unit: &'static str,
        low: f64,
        high: f64,
        doc: &'static str,
    ) -> Key {
        Key { name, unit, low, high, doc }
    }

    /// A share or a chance, 0 to 1.
    pub const fn share(name: &'static str, doc: &'static str) -> Key {
        Key::number(name, "", 0.0, 1.0, doc)
    }

    /// A text, a word, a switch, a table or a list.
    pub const fn other(name: &'static str, doc: &'static str) -> Key {
        Key::number(name, "", 0.0, 0.0, doc)
    }

    /// A place on the floor, `[x, y]`, metres unless the file says `units = "ft"`.
    pub const fn place(name: &'static str, doc: &'static str) -> Key {
        Key::number(name, "m", -16.0, 16.0, doc)
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
