//! Sight: a body that nobody has seen is run into.

use engine::setup::Setup;

use super::row::{Ablation, Four};
use crate::emergence::{blinkered, closeouts_s, setup};
use crate::looks::Seen;
use crate::trade::estimate::Series;

/// Sees all round, at once.
fn all_round(setup: &mut Setup) {
    let head = &mut setup.defenders.head;
    (head.sharp_cos, head.whole_cos) = (-1.0, -1.0);
    head.notice_per_s = 1000.0;
}

fn times(change: fn(&mut Setup), screened: bool, count: u64) -> Series {
    let mut setup = setup(0.23, 1.0);
    change(&mut setup);
    closeouts_s(setup, screened, count).into_iter().map(|s| (f64::from(s), 1.0)).collect()
}

/// A screener whom the back has not seen is run into; one whom he sees he goes round.
pub const BLIND_SCREEN: Ablation = Ablation {
    mechanism: "sight",
    effect: "scene: a screener on the near back's way, in the blind spot of his eyes: later in the corner, s",
    off: "he sees all round (sharp_deg and whole_deg 180, notice_per_s 1000), as late as ever",
    possessions: 200,
    verdict: Seen::Shown,
    measure: |count| Four {
        on: [times(blinkered, false, count), times(blinkered, true, count)],
        off: [times(all_round, false, count), times(all_round, true, count)],
    },
};
