//! Who takes the ball: the table's takers, whoever is nearest inside, or the man's own defender.

use super::Defender;
use crate::law::shape;
use crate::math::Vec2;
use crate::setup::{BallPlace, Bump, Line, Pairing, Table, Zone};
use crate::slots::{DEFENCE, Slot};
use crate::state::Duty;

/// The one who takes a holder keeps him unless another is quicker by this, s. With a pass the question is open again.
const KEEP_S: f32 = 0.25;
/// Preference for the first of the named takers, and against one who is not named, s. (assumed)
const FIRST_NAMED_S: f32 = 0.1;
const UNNAMED_S: f32 = 0.25;
/// Once the first of the named takers is so near to the ball, m, he bumps the second off it: he counts as quicker by
/// this, s, and the other goes back to his own area. (common practice, no source; figures assumed)
const BUMPS_FROM_M: f32 = 1.7;
const BUMPS_S: f32 = 0.5;
/// Who is so long after the catch became known, s, and farther from it than a guard stands by so much, m, not on his way
/// to the ball at this speed, m/s, does not mean to take it: he counts as slower by so much, s, and another goes. (assumed)
const STARTS_S: f32 = 0.45;
const AWAY_M: f32 = 0.7;
const COMES_M_S: f32 = 0.7;
const IDLE_S: f32 = 0.6;
/// Nearer to the rim than this, or in the lane, whoever is nearest takes the ball, m.
const INSIDE_M: f32 = 3.6;
/// From this height on the floor the inside is the high post, m (as the measures have it).
const HIGH_POST_M: f32 = 3.0;

/// The defender who has a position while the ball is on his side of the floor.
pub fn slot_of(d: &Defender<'_>, duty: &Duty, column: u8) -> Slot {
    shape::slot_of(d.zone, usize::from(column), duty.ball_side == d.view.side)
}

/// The defender who he believes should take the ball.
pub fn choose(d: &Defender<'_>, table: &Table, duty: &Duty, ball: Vec2, after_bump: Option<&Bump>) -> Slot {
    let mut columns = table.takers[usize::from(duty.place)];
    if let Some(bump) = after_bump {
        columns = [bump.taker; 2];
    }
    let lanes = columns.map(|c| slot_of(d, duty, c));
    // Who leans after a fake takes nothing over.
    let present = duty.taker.filter(|_| duty.taker_of == d.view.mind.owner());
    if let Some(present) = present
        && d.view.clock.now < d.view.mind.fooled_until
    {
        return present;
    }
    let holder_at = d.holder().map_or(ball, |(_, at, _)| at);
    let mut inside = holder_at.len2() < INSIDE_M * INSIDE_M || d.view.given.setup.court.in_lane(holder_at);
    if inside && d.zone.high_post_named {
        inside = duty.place != BallPlace::Elbow as u8 || holder_at.y < HIGH_POST_M;
    }
    if !inside && lanes[0] == lanes[1] {
        return lanes[0];
    }
    // Inside, whoever is nearest takes it; elsewhere one of the two named, the first by preference.
    let mut best = (f32::INFINITY, lanes[0]);
    for who in DEFENCE {
        let named = who == lanes[0] || who == lanes[1];
        if !named && !inside {
            continue;
        }
        let mut time = d.rough_time(who, holder_at);
        if Some(who) == present {
            time -= KEEP_S;
        }
        if who == lanes[0] {
            time -= FIRST_NAMED_S;
            let at = d.view.whereabouts(who);
            if !inside && (at - holder_at).len2() < BUMPS_FROM_M * BUMPS_FROM_M {
                time -= BUMPS_S;
            }
        }
        if !named {
            time += UNNAMED_S;
        }
        if who != d.view.me.slot && idle(d, duty, who) {
            time += IDLE_S;
        }
        if time < best.0 {
            best = (time, who);
        }
    }
    best.1
}

/// Whether a team-mate who might take the ball is seen not to go to it. Two who wait for one another leave it to nobody.
fn idle(d: &Defender<'_>, duty: &Duty, who: Slot) -> bool {
    let Some((man, at, _)) = d.holder() else { return false };
    if d.view.clock.now - duty.held.1 <= STARTS_S {
        return false;
    }
    let way = at - d.view.mind.at(who);
    let far = way.len();
    let room = d.zone.on_ball_m + d.view.given.slack_m[man] + AWAY_M;
    far > room && d.view.mind.velocity(who).dot(way) < COMES_M_S * far
}

/// The anchors where the front pair has changed places: if a guard takes what is usually his partner's, the
/// partner stands in for him, or both would be by the ball.
pub fn stand_in(
    zone: &Zone,
    table: &Table,
    duty: &Duty,
    taker_column: usize,
    mut anchors: [Vec2; 5],
) -> [Vec2; 5] {
    let [first, second] = table.takers[usize::from(duty.place)].map(usize::from);
    let column = &zone.columns[second];
    let pair =
        matches!(column.pairing, Pairing::Near(other) | Pairing::Far(other) if usize::from(other) == first);
    if taker_column == second && pair && column.line == Line::Front {
        anchors.swap(first, second);
    }
    anchors
}

/// Man-to-man: the defender of the one who has the ball or will have it. Nobody switches.
pub fn of_his_man(d: &Defender<'_>, duty: &Duty) -> Slot {
    match d.view.mind.owner() {
        Some(man) => Slot::defender(man.in_team()),
        // Nobody's ball: he goes on as he was.
        None => duty.taker.unwrap_or(DEFENCE[0]),
    }
}
