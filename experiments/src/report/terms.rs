//! The terms of the page in plain words, folded away.

use engine::law::floor::LANE_MARGIN_M;
use engine::{OPEN_M, WIDE_OPEN_M};
use maud::{Markup, html};

use crate::columns::Column;
use crate::compare::Comparison;
use crate::looks::GOOD_LOOK;
use crate::units::Units;

/// Terms and their meanings, in the order in which a reader meets them; the limits of looks are the engine's.
fn terms(units: Units) -> Vec<(&'static str, String)> {
    let plain = |term, meaning: &str| (term, meaning.to_owned());
    vec![
        plain(
            "the one we compare with",
            "the way of playing, named beforehand, against which the others are measured; in the files it is called the baseline, and whatever differs a variant",
        ),
        plain("in 20 possessions", "about what one half has against a zone"),
        plain(
            "95 % interval",
            "run with other seeds, about 19 in 20 such intervals would hold the true value",
        ),
        plain(
            "clearly best",
            "the first is better than each of the others, and that is safe for all comparisons at once: their intervals are right together in about 19 of 20 such runs; too close to call: this run cannot part them",
        ),
        plain("could be luck", "the interval of a difference reaches from better to worse"),
        (
            "open look",
            format!(
                "a shot that the shooter is set for and in range of, with the nearest defender at least {} away; wide open from {}. Counted where it was a possession's last shot",
                units.exact(f64::from(OPEN_M)),
                units.exact(f64::from(WIDE_OPEN_M))
            ),
        ),
        plain("good look", GOOD_LOOK.trim_start_matches("Good look: ").trim_end_matches('.')),
        plain("good shot", "a shot worth a point or more on average, as it was guarded"),
        (
            "paint touch",
            format!(
                "controlled ball in the lane or less than {} beside it; each possession counts once, up to its first rebound",
                units.exact(f64::from(LANE_MARGIN_M))
            ),
        ),
        plain(
            "turnover",
            "the ball lost without a shot: taken, thrown away, fumbled, or by a violation or foul of the attack",
        ),
        plain("expected points", "each shot counted by its chance of going in, not by whether it did"),
        plain(
            "risk of a fast break",
            "the chance that the defence's fastest runner beats the last attacker to midcourt when the possession ends",
        ),
        plain("points conceded on the break", "what the opponents' break is expected to bring them"),
        plain("net points", "points less those conceded on the break; expected net points: both as expected"),
        plain("offensive rebounds", "missed shots that the attack takes off the rim or the board"),
        plain(
            "back line, front line",
            "the zone's defenders nearer to the rim, and those farther from it; the line gap is the distance between the two lines",
        ),
        plain(
            "somebody is free",
            "the back line would come too late to an attacker without the ball, low on the floor, if the ball were thrown to him now",
        ),
        plain(
            "how late help arrives (lateness)",
            "how late, in seconds, the back line would come to its worst-guarded attacker if the ball were thrown now",
        ),
        plain(
            "post help rule",
            "who takes the ball-side low post once the near back has gone out to the corner",
        ),
        plain(
            "read",
            "the route or option whose move led to a look; plain ball movement: it came without one",
        ),
        plain("rover-side post, other post", "the post who starts on the rover's side, and the other one"),
    ]
}

/// The list, and what the ranking column is called in the files.
pub(super) fn folded(comparison: &Comparison, units: Units) -> Markup {
    let column: &Column = comparison.question.rank_by;
    html! {
        details {
            summary { "The terms used on this page" }
            dl class="terms" {
                @for (term, meaning) in terms(units) { dt { (term) } dd { (meaning) } }
                dt { "the ranking column" }
                dd { (column.words) ", in the files " code { (column.key) } }
            }
        }
    }
}
