//! Who should guard the ball, as one defender believes.
//!
//! Outside it is one of the two positions that the zone's table names for the ball's place, where it names two the one who
//! is there first; inside, whoever is there first. Times are rough ones, with bonuses and penalties in seconds: for the
//! present on-ball defender, the first named, who is not named, who is seen not to come. Who leans after a fake changes
//! nothing. Man-to-man it is the man's own defender.

use super::Defender;
use crate::law::conduct::on_ball_defence::{
    FIRST_NAMED_BONUS_S, MEETS_AHEAD_M, NOT_COMING_BELOW_M_S, NOT_COMING_BEYOND_M, NOT_COMING_PENALTY_S,
    PRESENT_BONUS_S, STARTS_WITHIN_S, TAKES_OVER_BONUS_S, TAKES_OVER_WITHIN_M, UNNAMED_PENALTY_S,
};
use crate::law::floor::{HIGH_POST_FROM_Y_M, INSIDE_M, way_to_rim};
use crate::law::shape;
use crate::math::Vec2;
use crate::setup::{BallPlace, Bump, Line, Pairing, Table, Zone};
use crate::slots::{DEFENCE, Slot};
use crate::state::Duty;

/// The defender who has a position while the ball is on his side of the floor.
pub fn slot_of(d: &Defender<'_>, duty: &Duty, position: u8) -> Slot {
    shape::slot_of(d.zone, usize::from(position), duty.ball_side == d.view.side)
}

/// The defender who he believes should guard the ball.
pub fn choose(d: &Defender<'_>, table: &Table, duty: &Duty, ball: Vec2, bumped: Option<&Bump>) -> Slot {
    let positions = match bumped {
        Some(bump) => [bump.on_ball; 2],
        None => table.on_ball[usize::from(duty.place)],
    };
    let named = positions.map(|position| slot_of(d, duty, position));
    let present = duty.on_ball_defender.filter(|_| duty.on_ball_for == d.view.mind.owner());
    // Who leans after a fake changes nothing.
    if let Some(present) = present
        && d.view.clock.now < d.view.mind.fooled_until
    {
        return present;
    }
    let ball_at = d.holder().map_or(ball, |(_, at, _)| at);
    let inside = anybodys(d, duty, ball_at);
    if !inside && named[0] == named[1] {
        return named[0];
    }
    let mut best = (f32::INFINITY, named[0]);
    for who in DEFENCE {
        if !inside && !named.contains(&who) {
            continue;
        }
        let time = time_to_take(d, duty, who, &Claim { named, present, ball_at, inside });
        if time < best.0 {
            best = (time, who);
        }
    }
    best.1
}

/// Whether the ball is inside, where whoever is there first guards it. The high post may be left to its named defenders.
fn anybodys(d: &Defender<'_>, duty: &Duty, ball_at: Vec2) -> bool {
    let inside = ball_at.len2() < INSIDE_M * INSIDE_M || d.view.given.setup.court.in_lane(ball_at);
    if inside && d.zone.high_post_named {
        return duty.place != BallPlace::Elbow as u8 || ball_at.y < HIGH_POST_FROM_Y_M;
    }
    inside
}

/// What the claims of the defenders on the ball are judged by.
struct Claim {
    /// The defenders of the positions that the table names, the first by preference.
    named: [Slot; 2],
    /// The present on-ball defender, as long as the same man has the ball.
    present: Option<Slot>,
    /// Where the holder or the ball is, m.
    ball_at: Vec2,
    /// Anybody may take it.
    inside: bool,
}

/// His rough time to the ball with bonuses and penalties, s.
fn time_to_take(d: &Defender<'_>, duty: &Duty, who: Slot, claim: &Claim) -> f32 {
    // Inside it is his who is first between the ball and the rim: one at its back guards nothing.
    let ahead_m = if claim.inside { MEETS_AHEAD_M } else { 0.0 };
    let mut time = d.rough_time(who, claim.ball_at + way_to_rim(claim.ball_at) * ahead_m);
    if Some(who) == claim.present {
        time -= PRESENT_BONUS_S;
    }
    if who == claim.named[0] {
        time -= FIRST_NAMED_BONUS_S;
        let away2 = (d.view.whereabouts(who) - claim.ball_at).len2();
        if !claim.inside && away2 < TAKES_OVER_WITHIN_M * TAKES_OVER_WITHIN_M {
            time -= TAKES_OVER_BONUS_S;
        }
    }
    if !claim.named.contains(&who) {
        time += UNNAMED_PENALTY_S;
    }
    if who != d.view.me.slot && not_coming(d, duty, who) {
        time += NOT_COMING_PENALTY_S;
    }
    time
}

/// Whether a team-mate who might guard the ball is seen not to come. Two who wait for one another leave it to nobody.
fn not_coming(d: &Defender<'_>, duty: &Duty, who: Slot) -> bool {
    let Some((man, at, _)) = d.holder() else { return false };
    if d.view.clock.now - duty.held.1 <= STARTS_WITHIN_S {
        return false;
    }
    let way = at - d.view.mind.at(who);
    let far = way.len();
    let room = d.zone.on_ball_m + d.view.given.slack_m[man] + NOT_COMING_BEYOND_M;
    far > room && d.view.mind.velocity(who).dot(way) < NOT_COMING_BELOW_M_S * far
}

/// The anchors where the front pair has changed places: if a guard takes what is usually his partner's, the
/// partner stands in for him, or both would be by the ball.
pub fn stand_in(
    zone: &Zone,
    table: &Table,
    duty: &Duty,
    on_ball_position: usize,
    mut anchors: [Vec2; 5],
) -> [Vec2; 5] {
    let [first, second] = table.on_ball[usize::from(duty.place)].map(usize::from);
    let position = &zone.positions[second];
    let pair =
        matches!(position.pairing, Pairing::Near(other) | Pairing::Far(other) if usize::from(other) == first);
    if on_ball_position == second && pair && position.line == Line::Front {
        anchors.swap(first, second);
    }
    anchors
}

/// Man-to-man: the defender of the one who has the ball or will have it. Nobody switches.
pub fn of_his_man(d: &Defender<'_>, duty: &Duty) -> Slot {
    match d.view.mind.owner() {
        Some(man) => Slot::defender(man.in_team()),
        // Nobody's ball: he goes on as he was.
        None => duty.on_ball_defender.unwrap_or(DEFENCE[0]),
    }
}
