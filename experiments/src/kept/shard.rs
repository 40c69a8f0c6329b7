//! A part of a run: the I-th of N, by possession numbers; of a design, by the numbers of its parts.

use std::fmt;
use std::ops::Range;
use std::str::FromStr;

use serde::{Deserialize, Deserializer, Serialize, Serializer};

/// The largest number of shards.
pub const MOST: u64 = 100_000;

/// The I-th of N shards, counted from 1.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Shard {
    /// Which, from 1.
    pub nth: u64,
    /// Of how many.
    pub of: u64,
}

impl Shard {
    /// Its numbers of so many, of possessions or parts: as even as they can be, and together all of them, each once.
    #[must_use]
    pub fn range(self, all: u64) -> Range<u64> {
        let edge = |nth: u64| all / self.of * nth + (all % self.of).min(nth);
        edge(self.nth - 1)..edge(self.nth)
    }
}

impl fmt::Display for Shard {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}/{}", self.nth, self.of)
    }
}

impl FromStr for Shard {
    type Err = String;

    fn from_str(text: &str) -> Result<Self, String> {
        let complaint = || format!("allowed is I/N, such as 3/16: I from 1 to N, N up to {MOST}");
        let (nth, of) = text.split_once('/').ok_or_else(complaint)?;
        let number = |text: &str| text.parse::<u64>().map_err(|_| complaint());
        let shard = Self { nth: number(nth)?, of: number(of)? };
        if (1..=MOST).contains(&shard.of) && (1..=shard.of).contains(&shard.nth) {
            Ok(shard)
        } else {
            Err(complaint())
        }
    }
}

impl Serialize for Shard {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(self)
    }
}

impl<'de> Deserialize<'de> for Shard {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        String::deserialize(deserializer)?.parse().map_err(serde::de::Error::custom)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn shards_are_even_and_have_every_possession_once() {
        for possessions in [1, 5, 64, 1000, 1 << 30] {
            for of in [1, 2, 5, 16, 1000] {
                let ranges: Vec<Range<u64>> =
                    (1..=of).map(|nth| Shard { nth, of }.range(possessions)).collect();
                assert_eq!((ranges[0].start, ranges[of as usize - 1].end), (0, possessions));
                assert!(ranges.windows(2).all(|pair| pair[0].end == pair[1].start));
                let lengths = || ranges.iter().map(|range| range.end - range.start);
                assert!(lengths().max().unwrap() - lengths().min().unwrap() <= 1);
            }
        }
    }

    #[test]
    fn a_shard_is_told_as_it_is_typed() {
        assert_eq!("3/16".parse(), Ok(Shard { nth: 3, of: 16 }));
        assert_eq!(Shard { nth: 3, of: 16 }.to_string(), "3/16");
        for text in ["0/4", "5/4", "1/0", "3", "3/", "/3", "-1/4", "1/100001", "a/b"] {
            assert!(text.parse::<Shard>().unwrap_err().contains("such as 3/16"), "{text}");
        }
    }
}
