//! Fixed scenes: put players where a test wants them, give one the ball or throw it, and watch the steps.
//!
//! A scene is an ordinary possession whose first positions were changed; everything after that is the model.

use crate::arena::Arena;
use crate::math::Vec2;
use crate::setup::{PassKind, Setup};
use crate::slots::{ALL, ATTACK, Slot};
use crate::state::*;
use std::sync::Arc;

/// What is to be changed at the start of a scene.
#[derive(Clone, Debug, Default)]
pub struct Scene {
    /// Players and where they stand, at rest, m. Everybody else is sent to a far corner of the floor.
    pub stand: Vec<(Slot, Vec2)>,
    /// Attackers who stay where they are whatever the ball does, braced.
    pub rooted: Vec<Slot>,
    /// Who has the ball.
    pub ball: Option<Slot>,
    /// Whether the one who has the ball decides, with leave to drive; otherwise he waits.
    pub decides: bool,
    /// A pass: to whom, how, and when it leaves the hands, s.
    pub pass: Option<(Slot, PassKind, f32)>,
}

/// A scene being played.
pub struct Playing {
    arena: Arena,
    rooted: Vec<(Slot, Vec2)>,
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
        let away = |slot: Slot| Vec2 { x: -7.0 + 0.7 * slot.index() as f32, y: 11.0 };
        let place =
            |slot: Slot| self.stand.iter().find(|(p, _)| *p == slot).map_or(away(slot), |(_, at)| *at);
        let holder = self.ball.unwrap_or(ATTACK[0]);
        let ball_at = place(holder);
        if let Some(mut bodies) = entity.get_mut::<Bodies>() {
            for slot in ALL {
                bodies.put(slot, place(slot));
                let look = (ball_at - place(slot)).unit_or(Vec2 { x: 0.0, y: 1.0 });
                bodies.0.fx[slot] = look.x;
                bodies.0.fy[slot] = look.y;
            }
            bodies.put_ball(ball_at);
        }
        let sample = entity.get::<Bodies>().map_or(Sample::EMPTY, |bodies| Sample {
            vx: crate::slots::ZERO,
            vy: crate::slots::ZERO,
            ..Sample::of(bodies)
        });
        if let Some(mut history) = entity.get_mut::<History>() {
            history.ring = [sample; History::LENGTH];
        }
        if let Some(mut minds) = entity.get_mut::<Minds>() {
            for slot in ALL {
                let mind = &mut minds.0[slot];
                mind.x = sample.x;
                mind.y = sample.y;
                mind.fx = sample.fx;
                mind.fy = sample.fy;
                mind.age = crate::slots::ZERO;
                mind.gaze = (ball_at - place(slot)).unit_or(Vec2 { x: 0.0, y: 1.0 });
                mind.ball = ball_at;
                mind.whose = Whose::Held(holder);
                for (whom, _) in self.stand.iter().filter(|(w, _)| self.rooted.contains(w)) {
                    // A rooted screener has just come: nobody has seen him yet.
                    if *whom != slot && slot.defends() {
                        mind.age[*whom] = 9.0;
                        mind.x[*whom] = -7.0;
                        mind.y[*whom] = 11.0;
                    }
                }
            }
        }
        if let Some(mut plans) = entity.get_mut::<Plans>() {
            for slot in ATTACK {
                plans.attack[slot].home = place(slot);
                plans.attack[slot].set_place = place(slot);
                plans.rest[slot] = [f32::INFINITY; PROGRAMS];
                plans.attack[slot].next_open_s = f32::INFINITY;
            }
            plans.next_s = [0.0; 10];
        }
        if let Some(mut board) = entity.get_mut::<Board>() {
            board.post(0.0, News::Control { by: holder });
        }
        if let Some(mut ball) = entity.get_mut::<Ball>() {
            ball.state = BallState::Held { by: holder };
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
        let rooted = self.rooted.iter().map(|p| (*p, place(*p))).collect();
        Playing { arena, rooted }
    }
}

impl Playing {
    /// Plays one step.
    pub fn step(&mut self) {
        let slot = self.arena.slots[0];
        if let Some(mut plans) = self.arena.world.get_mut::<Plans>(slot) {
            for (slot, _) in &self.rooted {
                plans.next_s[*slot] = f32::INFINITY;
            }
        }
        if let Some(mut wishes) = self.arena.world.get_mut::<Wishes>(slot) {
            for (slot, at) in &self.rooted {
                wishes.go(*slot, *at, 0.0, Vec2::RIM);
                wishes.brace[*slot] = 1.0;
            }
        }
        self.arena.step();
    }

    /// Where a player is.
    pub fn at(&self, player: Slot) -> Vec2 {
        let slot = self.arena.slots[0];
        self.arena.world.get::<Bodies>(slot).map_or(Vec2::RIM, |b| b.at(player))
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
    pub fn pass_to(&self, to: Slot) -> PassEnd {
        let slot = self.arena.slots[0];
        let over = self.over();
        match self.arena.world.get::<Ball>(slot).map(|b| b.state) {
            Some(BallState::Held { by }) if by == to => PassEnd::Caught,
            Some(BallState::Pass(_) | BallState::Held { .. }) if !over => PassEnd::Flying,
            _ => PassEnd::Lost,
        }
    }
}
