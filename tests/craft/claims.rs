//! What each dial does to what, in numbers. All of it is judged whole by a study, by three standard errors over up to three
//! looks, and glanced at by a test (`tests/studied.rs`).

use std::sync::Arc;

use engine::Measure;
use engine::setup::Setup;

use super::doses::*;

/// A dial and what is claimed of it.
pub struct Dial {
    /// What is turned, and where.
    pub name: &'static str,
    /// Possessions of each dose at the first look.
    pub first: u64,
    /// Its doses.
    pub doses: fn() -> Vec<Arc<Setup>>,
    /// What is claimed of them.
    pub claims: fn() -> Vec<Claim>,
}

/// So many more good shots a possession would make a gift of the lobs that fronting the post allows: the least that counts
/// as an effect on good shots among the trade facts.
const GIFT: f64 = 0.02;

/// Every dial that is claimed to do something to results.
pub const DIALS: [Dial; 14] = [
    Dial {
        name: "trap in the corner (baseline-run)",
        first: 4000,
        doses: || doses(&[RUN], "zone.trap", &["[]", "[\"corner\"]"]),
        claims: || steps(2, &[Measure::Turnover, Measure::HighPostTouches, Measure::PaintTouch], &[]),
    },
    Dial {
        // What it does to shots is small while so few balls get to the post.
        name: "double on the low post (1-3-1, three-quarter stance, baseline-run)",
        first: 5000,
        doses: || {
            let stance = "{ wing = \"three-quarter\", corner = \"three-quarter\" }";
            let posts = [RUN, ("zone.use", "\"1-3-1\""), ("zone.post_stance", stance)];
            doses(&posts, "zone.trap", &["[]", "[\"low-post\"]"])
        },
        claims: || steps(2, &[Measure::WidestSeam], &[Measure::LineGap]),
    },
    Dial {
        name: "overload rule, danger to between (seam-cross)",
        first: 4000,
        doses: || doses(&[SEAM], "zone.overload_rule", &["\"danger\"", "\"between\""]),
        claims: || steps(2, &[Measure::PaintTouch], &[Measure::Threes]),
    },
    Dial {
        // Whoever guards the one nearest to the ball leaves the rim, and the other way round: the back line stays lower.
        name: "overload rule, nearest-ball to nearest-rim (seam-cross)",
        first: 2500,
        doses: || doses(&[SEAM], "zone.overload_rule", &["\"nearest-ball\"", "\"nearest-rim\""]),
        claims: || vec![more(0, 1, Measure::LineGap)],
    },
    Dial {
        name: "respect 0 to 0.5 to 1 (seam-cross, guards who shoot badly)",
        first: 2500,
        doses: || {
            let guards = [SEAM, ("attack.shooting", "{ lead-guard = -1.0, off-guard = -1.0 }")];
            doses(&guards, "zone.respect", &["0.0", "0.5", "1.0"])
        },
        claims: || steps(3, &[Measure::Threes], &[Measure::PaintTouch, Measure::LineGap]),
    },
    Dial {
        name: "reversal denial 0 to 0.5 to 1 (hold-wing)",
        first: 4000,
        doses: || doses(&[HOLD], "zone.reversal_denial", &["0.0", "0.5", "1.0"]),
        claims: || {
            let mut claims = steps(3, &[], &[Measure::Reversals]);
            claims.extend([more(0, 2, Measure::HighPostTouches), more(0, 2, Measure::TurnoverSteal)]);
            claims
        },
    },
    Dial {
        name: "extension 0 to 0.5 to 1 m (hold-wing)",
        first: 1000,
        doses: || doses(&[HOLD], "zone.extension_m", &["0.0", "0.5", "1.0"]),
        claims: || {
            let mut claims = steps(3, &[], &[Measure::Reversals]);
            claims.push(more(0, 2, Measure::HighPostTouches));
            claims
        },
    },
    Dial {
        name: "fly-bys 0 to 0.5 to 1 (baseline-run)",
        // The second step is worth about a hundredth.
        first: 12_000,
        doses: || doses(&[RUN], "zone.fly_by", &["0.0", "0.5", "1.0"]),
        claims: || {
            let mut claims = steps(3, &[], &[Measure::OpenLookTaken]);
            claims.push(more(0, 2, Measure::CommonFouls));
            claims
        },
    },
    Dial {
        name: "high post met by the near back, not by the point (seam-cross)",
        first: 10_000,
        doses: || doses(&[SEAM], "zone.high_post_on_ball", &["\"point\"", "\"near back\""]),
        claims: || steps(2, &[], &[Measure::GoodShotTaken]),
    },
    Dial {
        // Half the sink and the next corner rule: the back line stands higher and the corners are open.
        name: "adjusts when burnt 50, 3, 1 times (sink 1.2 m, baseline-run)",
        first: 3000,
        doses: || doses(&[RUN, ("zone.sink_back_m", "1.2")], "zone.adjust_after", &["50", "3", "1"]),
        claims: || steps(3, &[], &[Measure::LineGap]),
    },
    Dial {
        name: "post stance, behind to three-quarter to front (back line flat, baseline-run)",
        first: 3000,
        doses: || stances().to_vec(),
        claims: || {
            vec![
                less(0, 1, Measure::OpenLookTaken),
                less(0, 2, Measure::OpenLookTaken),
                less(0, 2, Measure::GoodShotTaken).but_for(GIFT),
            ]
        },
    },
    Dial {
        name: "post stance, the lobs that it concedes",
        first: 12_000,
        doses: || stances().to_vec(),
        claims: || vec![more(0, 1, Measure::Lobs), more(0, 2, Measure::Lobs)],
    },
    Dial {
        name: "match-up degree 0 to 0.5 to 1 (hold-wing), high post",
        first: 3000,
        doses: match_up,
        claims: || steps(3, &[Measure::HighPostTouches], &[]),
    },
    Dial {
        name: "match-up degree, the ball",
        first: 5500,
        doses: match_up,
        claims: || {
            let mut claims = steps(3, &[Measure::PassesIntercepted], &[]);
            claims.push(more(0, 2, Measure::Turnover));
            claims
        },
    },
];

fn match_up() -> Vec<Arc<Setup>> {
    doses(&[HOLD], "zone.match_up", &["0.0", "0.5", "1.0"])
}

/// The post is played from behind, from half round him, and from in front.
fn stances() -> [Arc<Setup>; 3] {
    let stance = |word: &str| format!("{{ wing = \"{word}\", slot = \"{word}\", corner = \"{word}\" }}");
    let with = |word| crate::support::matchup(&[FLAT, RUN, ("zone.post_stance", &stance(word))]);
    ["behind", "three-quarter", "front"].map(with)
}
