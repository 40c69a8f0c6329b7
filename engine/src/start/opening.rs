//! Where everybody is when a possession starts: in the set, arriving over midcourt, or round a rebound.
//!
//! Arriving, the ball is dribbled over midcourt by a guard while all others run to their places, each with a
//! share of his way left that is drawn; the posts and the back line are ahead. After a rebound the ball is in
//! an attacker's hands near the rim and the zone has collapsed round him. All ways and shares
//! (`law::opening`): assumed. The possession then goes on as any other; nothing but places and speeds differs.

use crate::law::floor::side_of;
use crate::law::opening::{
    AHEAD_SHARE, ATTACK_LEFT_LEAST, ATTACK_LEFT_MORE, COLLAPSE_AT, COLLAPSED_SHARE, DEFENCE_LEFT_LEAST,
    DEFENCE_LEFT_MORE, DRIBBLE_M_S, DRIBBLER_X_SHARE, GUARDS_TO_GLASS_SHARE, INSIDE_MIDCOURT_M,
    OTHER_POST_X_SHARE, OTHER_POST_Y_M, REBOUND_X_M, REBOUND_Y_M, ROVER_TO_GLASS_SHARE, RUN_M_S,
    RUNNER_X_SHARE, UPPER_POST_X_SHARE, UPPER_POST_Y_M,
};
use crate::law::shape;
use crate::math::{Vec2, vec2};
use crate::setup::{Line, Setup, Start};
use crate::slots::{ALL, ROVER, Slot};

/// Where the ten players stand when the attack is set, attackers first, defenders by position, the rover's side being
/// +x, m. In a possession each is up to 0.3 m off it.
pub fn starting_places(setup: &Setup) -> [Vec2; 10] {
    let opening =
        Opening::new(setup, Start::Set, Slot::attacker(usize::from(setup.attack.ball_starts_with)), 1.0);
    ALL.map(|slot| opening.place(setup, slot, 0.0).0)
}

/// Who has the ball, where, and on which side of the floor.
#[derive(Clone, Copy)]
pub struct Opening {
    /// How things stand.
    pub start: Start,
    /// The man with the ball.
    pub holder: Slot,
    /// The rover's side.
    pub side: f32,
    /// Where the ball is, m.
    pub ball: Vec2,
    /// Where the zone stands for it, m, by position.
    anchors: [Vec2; 5],
    /// The ball's side.
    pub ball_side: f32,
}

impl Opening {
    /// The opening of a possession.
    pub fn new(setup: &Setup, start: Start, holder: Slot, side: f32) -> Self {
        let home = setup.attack.formation[holder].sided(side);
        let ball = match start {
            Start::Set => home,
            Start::Arriving => vec2(home.x * DRIBBLER_X_SHARE, setup.court.midcourt_y_m - INSIDE_MIDCOURT_M),
            // On the block of the side where he stands anyway.
            Start::Rebound => vec2(side_of(home, side) * REBOUND_X_M, REBOUND_Y_M),
        };
        // A ball in the middle counts as on the rover's side: the rule must mirror.
        let ball_side = side_of(ball, side);
        let men = setup.attack.formation.map(|home| home.sided(side));
        let anchors = shape::start(&setup.zone, &men, ball, ball_side);
        Self { start, holder, side, ball, anchors, ball_side }
    }

    /// Where a player is and how he moves, m and m/s; `behind` (0-1) says how much of his way is left.
    pub fn place(&self, setup: &Setup, slot: Slot, behind: f32) -> (Vec2, Vec2) {
        let still = vec2(0.0, 0.0);
        if slot == self.holder {
            let home = setup.attack.formation[slot].sided(self.side);
            let moving = self.start == Start::Arriving;
            let way = (home - self.ball).unit_or(vec2(0.0, -1.0));
            return (self.ball, if moving { way * DRIBBLE_M_S } else { still });
        }
        let (to, ahead) = if slot.attacks() {
            (setup.attack.formation[slot].sided(self.side), slot.is_post())
        } else {
            let position = shape::position_of(&setup.zone, slot, self.ball_side == self.side);
            (self.anchors[position], setup.zone.positions[position].line == Line::Back)
        };
        match self.start {
            Start::Set => (to, still),
            Start::Arriving => {
                let (least, more) = if slot.attacks() {
                    (ATTACK_LEFT_LEAST, ATTACK_LEFT_MORE)
                } else {
                    (DEFENCE_LEFT_LEAST, DEFENCE_LEFT_MORE)
                };
                let left = (least + more * behind) * if ahead { AHEAD_SHARE } else { 1.0 };
                let from = vec2(to.x * RUNNER_X_SHARE, setup.court.midcourt_y_m - INSIDE_MIDCOURT_M);
                let at = to.toward(from, left);
                (at, (to - at).unit_or(vec2(0.0, -1.0)) * RUN_M_S)
            }
            Start::Rebound if slot.attacks() => (self.after_shot(slot, to), still),
            Start::Rebound => (to.toward(COLLAPSE_AT, COLLAPSED_SHARE), still),
        }
    }

    /// Where an attacker without the ball is after a shot: the posts on the glass, the rover half-way there, the
    /// guards a step inside their places.
    fn after_shot(&self, slot: Slot, home: Vec2) -> Vec2 {
        match slot.index() {
            3 if self.holder == ROVER => vec2(self.ball.x * UPPER_POST_X_SHARE, UPPER_POST_Y_M),
            3 | 4 => vec2(-self.ball.x * OTHER_POST_X_SHARE, OTHER_POST_Y_M),
            2 => home.toward(COLLAPSE_AT, ROVER_TO_GLASS_SHARE),
            _ => home.toward(COLLAPSE_AT, GUARDS_TO_GLASS_SHARE),
        }
    }
}
