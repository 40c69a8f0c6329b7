//! Fixed scenes: put players where a test wants them, give one the ball or throw it, and watch the steps.
//!
//! A scene is an ordinary possession whose first positions were changed; everything after that is the model.

use crate::arena::Arena;
use crate::film::Player;
use crate::math::Vec2;
use crate::setup::{PassKind, Setup};
use crate::slots::{BALL, PLAYERS};
use crate::state::*;
use std::sync::Arc;

/// What is to be changed at the start of a scene.
#[derive(Clone, Debug, Default)]
pub struct Scene {
    /// Players and where they stand, at rest, m. Everybody else is sent to a far corner of the floor.
    pub stand: Vec<(Player, Vec2)>,
    /// Attackers who stay where they are whatever the ball does, braced.
    pub rooted: Vec<Player>,
    /// Who has the ball.
    pub ball: Player,
    /// Whether the one who has the ball decides, with leave to drive; otherwise he waits.
    pub decides: bool,
    /// A pass: to whom, how, and when it leaves the hands, s.
    pub pass: Option<(Player, PassKind, f32)>,
}

/// A scene being played.
pub struct Playing {
    arena: Arena,
    rooted: Vec<(usize, Vec2)>,
}

/// How a scene's pass ended.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PassEnd {
    /// Still in the air.
    Flying,
    /// The receiver has it.
    Caught,
    /// A hand took or tipped it, or it was lost.
    Lost,
}

impl Scene {
    /// Starts the scene as a possession of this setup (the rover's side must be the right one), in an arena
    /// that [`Playing::arena`] gives back.
    pub fn start(&self, mut arena: Arena, setup: &Arc<Setup>, seed: u64, possession: u64) -> Playing {
        arena.fill_from(setup, seed, possession);
        let slot = arena.slots[0];
        let mut entity = arena.world.entity_mut(slot);
        let away = |lane: usize| Vec2 { x: -7.0 + 0.7 * lane as f32, y: 11.0 };
        let place = |lane: usize| {
            self.stand.iter().find(|(p, _)| usize::from(*p) == lane).map_or(away(lane), |(_, at)| *at)
        };
        let ball_at = place(usize::from(self.ball));
        if let Some(mut bodies) = entity.get_mut::<Bodies>() {
            for lane in 0..PLAYERS {
                bodies.put(lane, place(lane));
                let look = (ball_at - place(lane)).unit_or(Vec2 { x: 0.0, y: 1.0 });
                bodies.0.fx[lane] = look.x;
                bodies.0.fy[lane] = look.y;
            }
            bodies.put(BALL, ball_at);
        }
        let (px, py) =
            entity.get::<Bodies>().map_or((crate::slots::ZERO, crate::slots::ZERO), |b| (b.0.px, b.0.py));
        if let Some(mut history) = entity.get_mut::<History>() {
            let sample = Sample { x: px, y: py, ..Sample::EMPTY };
            history.ring = [sample; History::LENGTH];
        }
        if let Some(mut minds) = entity.get_mut::<Minds>() {
            for lane in 0..PLAYERS {
                let mind = &mut minds.0[lane];
                mind.x = px;
                mind.y = py;
                mind.age = crate::slots::ZERO;
                mind.gaze = (ball_at - place(lane)).unit_or(Vec2 { x: 0.0, y: 1.0 });
                mind.ball = ball_at;
                mind.holder = self.ball;
                for (whom, _) in self.stand.iter().filter(|(w, _)| self.rooted.contains(w)) {
                    // A rooted screener has just come: nobody has seen him yet.
                    if usize::from(*whom) != lane && lane >= 5 {
                        mind.age[usize::from(*whom)] = 9.0;
                        mind.x[usize::from(*whom)] = -7.0;
                        mind.y[usize::from(*whom)] = 11.0;
                    }
                }
            }
        }
        if let Some(mut plans) = entity.get_mut::<Plans>() {
            for lane in 0..5 {
                plans.attack[lane].home = place(lane);
                plans.attack[lane].set_place = place(lane);
                plans.rest[lane] = [f32::INFINITY; PROGRAMS];
                plans.attack[lane].next_open_s = f32::INFINITY;
            }
            plans.next_s = [0.0; 10];
        }
        if let Some(mut board) = entity.get_mut::<Board>() {
            board.post(0.0, News::Control { by: self.ball });
        }
        if let Some(mut ball) = entity.get_mut::<Ball>() {
            ball.state = BallState::Held { by: self.ball };
            ball.ready_s = f32::INFINITY;
            // The holder waits: the scene is about the others.
            ball.caught_s = if self.decides { -1.0 } else { 1e6 };
            ball.may_drive = self.decides;
            ball.loss_left = f32::INFINITY;
            if let Some((to, kind, at_s)) = self.pass {
                ball.handling = Handling::Passing { to, kind, at_s, look_off: false };
                ball.pass_chance = -1.0;
            }
        }
        let rooted = self.rooted.iter().map(|p| (usize::from(*p), place(usize::from(*p)))).collect();
        Playing { arena, rooted }
    }
}

impl Playing {
    /// Plays one step.
    pub fn step(&mut self) {
        let slot = self.arena.slots[0];
        if let Some(mut plans) = self.arena.world.get_mut::<Plans>(slot) {
            for (lane, _) in &self.rooted {
                plans.next_s[*lane] = f32::INFINITY;
            }
        }
        if let Some(mut wishes) = self.arena.world.get_mut::<Wishes>(slot) {
            for (lane, at) in &self.rooted {
                wishes.go(*lane, *at, 0.0, Vec2::RIM);
                wishes.brace[*lane] = 1.0;
            }
        }
        self.arena.step();
    }

    /// Where a player is.
    pub fn at(&self, player: Player) -> Vec2 {
        let slot = self.arena.slots[0];
        self.arena.world.get::<Bodies>(slot).map_or(Vec2::RIM, |b| b.at(usize::from(player)))
    }

    /// The arena, to be used again.
    pub fn arena(self) -> Arena {
        self.arena
    }

    /// The possession has ended (a foul, a turnover).
    pub fn over(&self) -> bool {
        let slot = self.arena.slots[0];
        self.arena.world.get::<Clocks>(slot).is_none_or(|c| c.status != Status::Playing)
    }

    /// What has become of the pass to a player.
    pub fn pass_to(&self, to: Player) -> PassEnd {
        let slot = self.arena.slots[0];
        let over = self.over();
        match self.arena.world.get::<Ball>(slot).map(|b| b.state) {
            Some(BallState::Held { by }) if by == to => PassEnd::Caught,
            Some(BallState::Pass(_) | BallState::Held { .. }) if !over => PassEnd::Flying,
            _ => PassEnd::Lost,
        }
    }
}
