//! A shot as the man with the ball sees it: how near a defender will be at the release, and what it is worth then.

use crate::decide::View;
use crate::law::conduct::judging::{
    COMES_AT_SHOT_SHARE, CONTEST_CLOSING_M_S, FASTEST_COMING_M_S, GOES_ON_FOR_S, LEAST_DIRECTION_M,
    LEAST_SPACE_M, REACTION_COUNTED_ON_S, SEEN_AGO_S, SLOWEST_COMING_M_S, SPEED_COUNTED_SHARE,
    TOO_FAR_FOR_SHOT_M2,
};
use crate::law::conduct::shooting::BEYOND_ARC_M;
use crate::law::contest;
use crate::law::shot::{FREE_M, make_chance, may_shoot};
use crate::law::sprint;
use crate::math::{Vec2, clamp, max, min};
use crate::setup::{Body, miss_of};
use crate::slots::{DEFENCE, Slot};

/// A shot as the believer sees it.
#[derive(Clone, Copy, Debug, Default)]
pub struct Prospect {
    /// Expected points, free throws in it.
    pub points: f32,
    /// Chance that it goes in.
    pub chance: f32,
    /// Distance of the nearest defender at the release, m.
    pub space_m: f32,
}

/// A shot by a player from `at` in `ahead_s`; worth nothing from too far out or from behind the board.
pub fn shot(view: &View<'_>, shooter: Slot, at: Vec2, ahead_s: f32, off_catch: bool) -> Prospect {
    let distance = at.len();
    let court = &view.given.setup.court;
    if distance > court.three_radius_m + BEYOND_ARC_M || court.behind_board(at) {
        return Prospect::default();
    }
    let skill = &view.given.player(shooter).skill.shot;
    let space = space_ahead(view, at, ahead_s);
    if !may_shoot(court, view.given.setup.licence(shooter), at, space) {
        return Prospect::default();
    }
    let (chance, points) = make_chance(court, skill, view.team.shooter(shooter), at, space, off_catch);
    Prospect { points: net_points(view, shooter, (chance, points), distance, space), chance, space_m: space }
}

/// Distance of the nearest believed defender from `at` in `ahead_s` seconds, if every one of them ran at it from where he
/// has got to by now, after a reaction, m.
pub fn space_ahead(view: &View<'_>, at: Vec2, ahead_s: f32) -> f32 {
    let setup = &view.given.setup;
    let reacts_s = min(ahead_s, REACTION_COUNTED_ON_S);
    let running = ahead_s - reacts_s;
    let runs = |body: &Body| {
        let glide_s = sprint::glide_s(body, running);
        (glide_s, sprint::after_glide_m(body, running, glide_s) * COMES_AT_SHOT_SHARE)
    };
    // The same for all who are like their team.
    let usual = runs(&setup.defenders.body);
    let stop = setup.zone.closeout_stop_m;
    let mut least = FREE_M;
    for slot in DEFENCE {
        let from = view.mind.at(slot);
        let now = (from - at).len2();
        if now > TOO_FAR_FOR_SHOT_M2 {
            continue;
        }
        let now = now.sqrt();
        let coming = (at - from).dot(view.mind.velocity(slot)) / max(now, LEAST_DIRECTION_M);
        let coming = clamp(coming, SLOWEST_COMING_M_S, FASTEST_COMING_M_S);
        // Nobody runs into the shooter: he stops short.
        // What is seen is a reaction old: he has gone on since, and goes on while he reacts; then he gets up speed.
        let (glide_s, reach) = setup.individuals[slot].as_ref().map_or(usual, |own| runs(&own.own.body));
        let goes_on = goes_on_m(coming, SEEN_AGO_S + reacts_s + glide_s * SPEED_COUNTED_SHARE);
        let then = max(now - goes_on - reach, min(now, stop));
        least = min(least, then);
    }
    max(least, LEAST_SPACE_M)
}

/// How much nearer a defender who was seen to come at this speed gets in a time, m; below 0, farther. One who was seen to move
/// away stops soon, as a passer takes it too.
fn goes_on_m(coming_m_s: f32, for_s: f32) -> f32 {
    coming_m_s * if coming_m_s < 0.0 { min(for_s, GOES_ON_FOR_S) } else { for_s }
}

/// Net points of a shot of his own from `at` with a given space, off the dribble.
pub fn shot_with_space(view: &View<'_>, at: Vec2, space_m: f32) -> f32 {
    let me = view.me.slot;
    if !may_shoot(&view.given.setup.court, view.given.setup.licence(me), at, space_m) {
        return 0.0;
    }
    let skill = &view.given.player(me).skill.shot;
    let made = make_chance(&view.given.setup.court, skill, view.team.shooter(me), at, space_m, false);
    net_points(view, me, made, at.len(), space_m)
}

/// Net points of a shot with what it may bring besides: a free throw more after a made shot, as many as it was worth
/// after a foul on a missed one, and else what follows a miss.
fn net_points(view: &View<'_>, by: Slot, (chance, points): (f32, f32), shot_m: f32, space_m: f32) -> f32 {
    let setup = &view.given.setup;
    let skill = &setup.player(by).skill;
    let fouled = contest::chance(&setup.officials, shot_m, space_m, CONTEST_CLOSING_M_S);
    let free = fouled * skill.free_throw * (chance + (1.0 - chance) * points);
    let after = setup.attackers.skill.continuation.after_miss[miss_of(points > 2.0, shot_m)];
    chance * points + free + (1.0 - fouled) * (1.0 - chance) * after
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn who_was_seen_to_move_away_is_soon_where_he_goes_and_who_comes_keeps_coming() {
        assert_eq!(goes_on_m(-0.8, 0.2), -0.8 * 0.2, "he is still on his way");
        assert_eq!(goes_on_m(-0.8, 0.5), -0.8 * GOES_ON_FOR_S);
        assert_eq!(goes_on_m(-0.8, 2.0), goes_on_m(-0.8, 0.5), "he stands there");
        assert_eq!(goes_on_m(0.8, 0.5), 0.8 * 0.5);
    }
}
