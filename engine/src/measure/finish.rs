//! Closing the count of a possession: outcome, points, break exposure, means.

use super::Seen;
use super::signals::{forget_shot, good_look};
use crate::law::counting::{
    AFTER_DEAD_BALL, AFTER_LONG_MISS, AFTER_SHORT_MISS, BREAK_POINTS, BREAK_SCALE_S, LONG_MISS_FROM_M,
};
use crate::math::{logistic, min, vec2};
use crate::measures::Measure as M;
use crate::record::Outcome;
use crate::setup::Line;
use crate::slots::{ATTACK, DEFENCE, Slot};
use crate::state::Tally;

/// Closes the count.
pub fn close(seen: &Seen<'_>, outcome: Outcome, tally: &mut Tally) {
    tally.values[outcome as usize] = 1;
    let by_shot = match outcome {
        Outcome::Made | Outcome::Missed => true,
        // A made shot and a foul: the shot ended it all the same.
        Outcome::FreeThrows => tally.last_made,
        _ => false,
    };
    if !by_shot {
        forget_shot(tally);
    }
    if outcome == Outcome::FreeThrows {
        good_look(tally.fouled_points, tally);
    }
    count_points(seen, outcome, tally);
    count_means(tally);
    count_metres(seen, tally);
    tally.real(M::SecondsUsed, f64::from(seen.clocks.now));
    if seen.side > 0.0 {
        tally.flag(M::RightSide);
    }
    if outcome == Outcome::Fault {
        tally.values = [0; crate::measures::Measure::COUNT];
        tally.values[Outcome::Fault as usize] = 1;
    }
}

/// Points, break exposure and what it costs.
fn count_points(seen: &Seen<'_>, outcome: Outcome, tally: &mut Tally) {
    let factor = match outcome {
        Outcome::Missed if tally.last_shot_m > LONG_MISS_FROM_M => AFTER_LONG_MISS,
        Outcome::Missed => AFTER_SHORT_MISS,
        Outcome::Turnover => tally.loss_factor,
        _ => AFTER_DEAD_BALL,
    };
    let exposure = factor * break_chance(seen);
    let conceded = f64::from(exposure) * f64::from(BREAK_POINTS);
    let points = f64::from(tally.points);
    let expected = f64::from(tally.expected);
    tally.real(M::Points, points);
    tally.real(M::ExpectedPoints, expected);
    tally.real(M::BreakExposure, f64::from(exposure));
    tally.real(M::BreakPoints, conceded);
    tally.real(M::NetPoints, points - conceded);
    tally.real(M::ExpectedNetPoints, expected - conceded);
    if tally.values[M::OffensiveRebounds as usize] == 0 {
        tally.real(M::FirstChancePoints, points);
    }
    if tally.values[M::PostTouch as usize] != 0 {
        tally.real(M::PointsWithPostTouch, points);
    }
}

/// Means over the steps with the ball in the attack's hands or on its way.
fn count_means(tally: &mut Tally) {
    let steps = f64::from(tally.stress_steps.max(1));
    let mean = |sum: f64| sum / steps;
    let (lateness, gap, seam) = (mean(tally.lateness_sum), mean(tally.line_gap_sum), mean(tally.seam_sum));
    tally.real(M::LatenessMean, lateness);
    tally.real(M::LatenessPeak, f64::from(tally.lateness_peak));
    tally.real(M::UnguardedShare, f64::from(tally.unguarded_steps) / steps);
    tally.real(M::LineGap, gap);
    tally.real(M::WidestSeam, seam);
}

/// Metres run by the teams and the back line.
fn count_metres(seen: &Seen<'_>, tally: &mut Tally) {
    let metres = |team: [Slot; 5]| team.into_iter().map(|slot| f64::from(tally.metres[slot])).sum::<f64>();
    let (attack, defence) = (metres(ATTACK), metres(DEFENCE));
    let back = DEFENCE
        .into_iter()
        .filter(|slot| seen.given.setup.zone.positions[slot.in_team()].line == Line::Back)
        .map(|slot| f64::from(tally.metres[slot]))
        .sum::<f64>();
    tally.real(M::AttackMetres, attack);
    tally.real(M::DefenceMetres, defence);
    tally.real(M::BackLineMetres, back);
}

/// Chance that the defence's fastest runner beats the last attacker to midcourt.
fn break_chance(seen: &Seen<'_>) -> f32 {
    let midcourt = seen.given.setup.court.midcourt_y_m;
    let time = |slot: Slot| {
        let at = seen.bodies.at(slot);
        let to = vec2(at.x, midcourt);
        seen.given.arrival(slot).time_to(at, seen.bodies.velocity(slot), to, 0.0)
    };
    let soonest = |team: [Slot; 5]| {
        let mut least = f32::INFINITY;
        for slot in team {
            least = min(least, time(slot));
        }
        least
    };
    // The last attacker back is the one who is there first: the safety.
    logistic((soonest(ATTACK) - soonest(DEFENCE)) / BREAK_SCALE_S)
}
