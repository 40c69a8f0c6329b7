//! Contact: bodies in the way.

use super::row::{Ablation, Four};
use crate::emergence::{blinkered, closeouts_s, entries_caught, setup};
use crate::looks::Seen;
use crate::trade::estimate::Series;

fn times(radius_m: f32, screened: bool, count: u64) -> Series {
    let mut setup = setup(radius_m, 1.0);
    blinkered(&mut setup);
    closeouts_s(setup, screened, count).into_iter().map(|s| (f64::from(s), 1.0)).collect()
}

/// A screen takes a body.
pub const SCREEN: Ablation = Ablation {
    mechanism: "contact",
    effect: "scene: a screener on the near back's way whom he has not seen: later in the corner, s",
    off: "radius_m 0 on both sides",
    possessions: 200,
    verdict: Seen::Shown,
    measure: |count| Four {
        on: [times(0.23, false, count), times(0.23, true, count)],
        off: [times(0.0, false, count), times(0.0, true, count)],
    },
};

fn entries(radius_m: f32, sealed: bool, count: u64) -> Series {
    let caught = entries_caught(setup(radius_m, 1.0), sealed, count);
    caught.into_iter().map(|caught| (if caught { 1.0 } else { 0.0 }, 1.0)).collect()
}

/// So does a seal.
pub const SEAL: Ablation = Ablation {
    mechanism: "contact",
    effect: "scene: a post seals the helper off a bounce entry: caught more often, share",
    off: "radius_m 0 on both sides",
    possessions: 2000,
    verdict: Seen::Shown,
    measure: |count| Four {
        on: [entries(0.23, false, count), entries(0.23, true, count)],
        off: [entries(0.0, false, count), entries(0.0, true, count)],
    },
};
