//! Parameters, each declared once: field, key, unit, range and meaning in one place.
//!
//! [`parameters!`] turns such a declaration into the field with its documentation, into an entry of `PARAMETERS`
//! (from which files are read, and from which key reference and schemas are made), and into a part of `stated`, which
//! makes the struct of the numbers that a file states. It decides nothing else.

/// A number that a file states: its key, unit, range and meaning.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Parameter {
    /// Its key; a length in metres ends in `_m`.
    pub name: &'static str,
    /// Its unit; empty for a plain number.
    pub unit: &'static str,
    /// Smallest number allowed.
    pub low: f64,
    /// Largest number allowed.
    pub high: f64,
    /// What it means.
    pub doc: &'static str,
    /// The field holds a whole number, the one nearest to what is stated.
    pub whole: bool,
}

/// A type of field, as it is made of a stated number; `None` stands for the word `none`, or for a fault.
pub(super) trait Stated {
    /// It holds whole numbers only.
    const WHOLE: bool = false;

    /// The field of this number.
    fn stated(number: Option<f32>, parameter: &Parameter) -> Self;
}

impl Stated for f32 {
    fn stated(number: Option<f32>, parameter: &Parameter) -> f32 {
        number.unwrap_or(parameter.low as f32)
    }
}

impl Stated for Option<f32> {
    fn stated(number: Option<f32>, _: &Parameter) -> Option<f32> {
        number
    }
}

impl Stated for u8 {
    const WHOLE: bool = true;

    fn stated(number: Option<f32>, parameter: &Parameter) -> u8 {
        (0.5 + f32::stated(number, parameter)) as u8
    }
}

/// Cosine of an angle in degrees, the same bits on every machine.
pub(super) fn cosine(degrees: f32) -> f32 {
    libm::cos(f64::from(degrees).to_radians()) as f32
}

/// Radians of an angle in degrees.
pub(super) fn radians(degrees: f32) -> f32 {
    f64::from(degrees).to_radians() as f32
}

/// Half of a width or a diameter.
pub(super) fn half(whole: f32) -> f32 {
    whole / 2.0
}

/// A length behind the rim, as a place.
pub(super) fn negative(length: f32) -> f32 {
    -length
}

/// The very number, where only the names of field and key differ.
pub(super) fn value<T>(stated: T) -> T {
    stated
}

/// Declares a struct of parameters, one a line: `field: type = unit, low to high;`. Where the file states something
/// else than the field holds, the conversion and the key follow: `sharp_cos: f32 = "degrees", 1.0 to 180.0, cosine of
/// sharp_deg;`. Fields that no single number gives stand in a second block, which becomes a struct of its own.
macro_rules! parameters {
    (
        $(#[$about:meta])*
        pub struct $table:ident {
            $(
                $(#[doc = $doc:literal])+
                $field:ident: $kind:ty = $unit:literal, $low:literal to $high:literal $(, $made:ident of $key:ident)?;
            )*
        }
        $(
            $(#[$about_parts:meta])*
            with $parts:ident {
                $($(#[doc = $part_doc:literal])+ $part:ident: $part_kind:ty,)*
            }
        )?
    ) => {
        $(#[$about])*
        pub struct $table {
            $(
                $(#[doc = $doc])+
                #[doc = ""]
                #[doc = concat!(
                    " Key `", parameters!(@key $field $($key)?), "`: ",
                    stringify!($low), " to ", stringify!($high), " ", $unit
                    $(, "; the field is its ", stringify!($made))?
                )]
                pub $field: $kind,
            )*
            $($($(#[doc = $part_doc])+ pub $part: $part_kind,)*)?
        }

        $(
            $(#[$about_parts])*
            pub struct $parts {
                $($(#[doc = $part_doc])+ pub $part: $part_kind,)*
            }
        )?

        impl $table {
            /// The numbers that files state, in the order in which [`Self::stated`] asks for them.
            pub const PARAMETERS: &'static [$crate::setup::Parameter] = &[
                $(parameters!(@declared $field $($key)?, $kind, $unit, $low, $high, $($doc)+)),*
            ];

            /// Made of the numbers that a file states; `None` for the word `none`, or after a fault.
            pub fn stated(
                mut number: impl FnMut(&'static $crate::setup::Parameter) -> Option<f32>,
                $(parts: $parts,)?
            ) -> Self {
                Self {
                    $($field: {
                        const DECLARED: $crate::setup::Parameter =
                            parameters!(@declared $field $($key)?, $kind, $unit, $low, $high, $($doc)+);
                        let number = number(&DECLARED);
                        parameters!(@made number, &DECLARED $(, $made)?)
                    },)*
                    $($($part: parts.$part,)*)?
                }
            }
        }
    };
    (@key $field:ident) => { stringify!($field) };
    (@key $field:ident $key:ident) => { stringify!($key) };
    (@declared $field:ident $($key:ident)?, $kind:ty, $unit:literal, $low:literal, $high:literal, $($doc:literal)+) => {
        $crate::setup::Parameter {
            name: parameters!(@key $field $($key)?),
            unit: $unit,
            low: $low,
            high: $high,
            doc: concat!($($doc),+).trim_ascii(),
            whole: <$kind as $crate::setup::parameter::Stated>::WHOLE,
        }
    };
    (@made $number:ident, $declared:expr) => {
        $crate::setup::parameter::Stated::stated($number, $declared)
    };
    (@made $number:ident, $declared:expr, $made:ident) => {
        $crate::setup::parameter::$made($crate::setup::parameter::Stated::stated($number, $declared))
    };
}

pub(super) use parameters;

#[cfg(test)]
mod tests {
    use super::*;

    parameters! {
        /// A table with a parameter of each kind.
        #[derive(Debug, PartialEq)]
        pub struct Sample {
            /// A length.
            length_m: f32 = "m", 0.5 to 2.0;
            /// An angle, of which
            /// the cosine is kept.
            angle_cos: f32 = "degrees", -90.0 to 90.0, cosine of angle_deg;
            /// A clock, or none.
            clock_s: Option<f32> = "s", 5.0 to 120.0;
            /// A count.
            count: u8 = "", 0.0 to 5.0;
        }
        /// The rest of it.
        with Rest {
            /// Its name.
            name: &'static str,
        }
    }

    #[test]
    fn one_line_gives_the_declaration_and_the_field() {
        let [length, angle, clock, count] = Sample::PARAMETERS else { panic!("four parameters") };
        assert_eq!((length.name, length.unit, length.low, length.high), ("length_m", "m", 0.5, 2.0));
        assert_eq!((angle.name, angle.doc), ("angle_deg", "An angle, of which the cosine is kept."));
        assert_eq!((clock.name, clock.whole, count.unit, count.whole), ("clock_s", false, "", true));
        let mut asked = Vec::new();
        let stated = [Some(1.5), Some(60.0), None, Some(2.6)];
        let number = |parameter: &'static Parameter| {
            asked.push(*parameter);
            stated[asked.len() - 1]
        };
        let made = Sample::stated(number, Rest { name: "sample" });
        assert_eq!(asked, Sample::PARAMETERS, "asked for in the order declared");
        assert!((made.angle_cos - 0.5).abs() < 1e-6);
        let angle_cos = made.angle_cos;
        assert_eq!(made, Sample { length_m: 1.5, angle_cos, clock_s: None, count: 3, name: "sample" });
        assert_eq!(Sample::stated(|_| None, Rest { name: "" }).length_m, 0.5, "as near as may be");
    }
}
