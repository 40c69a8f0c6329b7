//! Talk: a team-mate who sees the cutter tells the one who does not.

use engine::setup::Setup;

use super::row::{Ablation, Four};
use crate::looks::Seen;
use crate::support::changed;
use crate::trade::against;
use crate::trade::estimate::Series;
use crate::trade::watch::{tally, watch};

/// An attacker not seen for longer than any reaction, s.
const UNSEEN_S: f32 = 0.3;

/// How far from the truth defenders believe attackers whom they do not see, m, with so much said, heard after so long.
fn error(said: f32, delay_s: Option<f32>, count: u64) -> Series {
    let setup = changed(&against("baseline-run", "{}"), |setup: &mut Setup| {
        let head = &mut setup.defenders.head;
        head.talk_chance = said;
        head.talk_delay_s = delay_s.unwrap_or(head.talk_delay_s);
    });
    let [series] = watch::<1>(&setup, count, |w, sums| {
        for frame in &w.film.frames {
            for view in &frame.views[5..] {
                for attacker in (0..5).filter(|attacker| view.age_s[*attacker] > UNSEEN_S) {
                    tally(&mut sums[0], view.players[attacker].distance(frame.players[attacker]));
                }
            }
        }
    });
    series
}

/// Calls put an unseen runner nearer to where he is. The switch is not the one that makes the effect: as much is said,
/// but no word is heard before the possession is over.
pub const CALLS: Ablation = Ablation {
    mechanism: "talk",
    effect: "talk_chance 0.9 against 0, rover along the baseline: defenders are less wrong about whom they do not see, m",
    off: "talk_delay_s 1000",
    possessions: 250,
    verdict: Seen::Shown,
    measure: |count| Four {
        on: [error(0.9, None, count), error(0.0, None, count)],
        off: [error(0.9, Some(1000.0), count), error(0.0, Some(1000.0), count)],
    },
};
