//! The result digest: one number for everything that a run played, whatever the order it was played in.
//!
//! Each possession's own digest is mixed with its variant and number and the mixes are added up (wrapping), so
//! that parts of a run, in any grouping, add up to the digest of the whole.

use engine::random::mixed;
use serde::{Deserialize, Serialize};
use std::fmt;

/// Digest of all possessions of all variants.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct ResultDigest(u128);

impl ResultDigest {
    /// Takes in one possession of one variant.
    pub fn add(&mut self, variant: usize, possession: u64, record: u64) {
        let half = |salt: u64| {
            let key = mixed(mixed(salt ^ variant as u64).wrapping_add(possession));
            u128::from(mixed(key ^ record))
        };
        self.0 = self.0.wrapping_add(half(LOW) | half(HIGH) << 64);
    }

    /// Takes in the digest of other possessions.
    pub fn merge(&mut self, other: Self) {
        self.0 = self.0.wrapping_add(other.0);
    }
}

impl fmt::Display for ResultDigest {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:032x}", self.0)
    }
}

const LOW: u64 = 0x7a6f_6e65_7072_6f62;
const HIGH: u64 = 0x6c69_6e65_2067_6170;

#[cfg(test)]
mod tests {
    use super::*;

    fn of(possessions: &[(usize, u64, u64)]) -> ResultDigest {
        let mut digest = ResultDigest::default();
        possessions.iter().for_each(|&(v, k, record)| digest.add(v, k, record));
        digest
    }

    #[test]
    fn order_and_grouping_do_not_matter_but_content_does() {
        let all = [(0, 0, 5), (0, 1, 5), (1, 0, 9), (1, 1, 2)];
        let mut turned = all;
        turned.reverse();
        let whole = of(&all);
        assert_eq!(whole, of(&turned));
        let mut joined = of(&all[2..]);
        joined.merge(of(&all[..2]));
        assert_eq!(whole, joined);
        // The same records under another variant or number are another result.
        assert_ne!(whole, of(&[(1, 0, 5), (0, 1, 5), (0, 0, 9), (1, 1, 2)]));
        assert_ne!(whole, of(&[(0, 0, 5), (0, 1, 5), (1, 0, 2), (1, 1, 9)]));
    }

    #[test]
    fn it_prints_as_32_digits() {
        assert_eq!(ResultDigest::default().to_string(), "0".repeat(32));
        assert_eq!(of(&[(0, 0, 1)]).to_string().len(), 32);
    }
}
