//! Fixed scenes: put players where a test wants them, give one the ball or throw it, and watch the steps.
//!
//! A scene is an ordinary possession whose first positions were changed; everything after that is the model.

use crate::arena::Arena;
use crate::math::{Vec2, vec2};
use crate::setup::{PassKind, Setup};
use crate::slots::{ALL, ATTACK, Slot, ZERO};
use crate::state::*;
use std::sync::Arc;

/// Where the first of those stands whom a scene does not name, m.
const FAR_CORNER: Vec2 = vec2(-7.0, 11.0);
/// From him to the next of them, m.
const APART: Vec2 = vec2(0.7, 0.0);
/// So long ago that every memory has run out, s.
const NOT_SEEN_FOR_S: f32 = 9.0;
/// Later than any possession lasts, s.
const NEVER_S: f32 = 1e6;

/// What is to be changed at the start of a scene.
#[derive(Clone, Debug)]
pub struct Scene {
    /// Players and where they stand, at rest, m. Everybody else is sent to a far corner of the floor.
    pub stand: Vec<(Slot, Vec2)>,
    /// Attackers who stay where they are whatever the ball does, braced.
    pub rooted: Vec<Slot>,
    /// Who has the ball.
    pub ball: Slot,
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

impl Default for Scene {
    fn default() -> Self {
        Self { stand: Vec::new(), rooted: Vec::new(), ball: ATTACK[0], decides: false, pass: None }
    }
}

impl Scene {
    /// Starts the scene as a possession of this setup (the rover's side must be the right one), in an arena
    /// that [`Playing::arena`] gives back.
    pub fn start(&self, mut arena: Arena, setup: &Arc<Setup>, seed: u64, possession: u64) -> Playing {
        arena.fill_from(setup, seed, possession);
        arena.change(0, |parts| {
            self.stand(parts);
            self.believe(parts);
            self.keep_to_the_scene(parts);
            self.hand_over(parts);
        });
        let rooted = self.rooted.iter().map(|slot| (*slot, self.place(*slot))).collect();
        Playing { arena, rooted }
    }

    /// Where a player begins.
    fn place(&self, slot: Slot) -> Vec2 {
        let away = FAR_CORNER + APART * slot.index() as f32;
        self.stand.iter().find(|(who, _)| *who == slot).map_or(away, |(_, at)| *at)
    }

    /// Where a player looks: at the ball.
    fn look(&self, slot: Slot) -> Vec2 {
        (self.place(self.ball) - self.place(slot)).unit_or(vec2(0.0, 1.0))
    }

    /// Everybody at his place, as if he had always been there.
    fn stand(&self, parts: &mut PartsItem<'_, '_>) {
        let bodies = &mut parts.bodies;
        for slot in ALL {
            bodies.put(slot, self.place(slot));
            let look = self.look(slot);
            bodies.0.fx[slot] = look.x;
            bodies.0.fy[slot] = look.y;
        }
        bodies.put_ball(self.place(self.ball));
        let sample = Sample { vx: ZERO, vy: ZERO, ..Sample::of(bodies) };
        parts.history.ring = [sample; History::LENGTH];
    }

    /// Everybody knows where everybody is, but no defender has seen a rooted screener, who has just come.
    fn believe(&self, parts: &mut PartsItem<'_, '_>) {
        for slot in ALL {
            let mind = &mut parts.minds.0[slot];
            mind.x = parts.bodies.0.px;
            mind.y = parts.bodies.0.py;
            mind.fx = parts.bodies.0.fx;
            mind.fy = parts.bodies.0.fy;
            mind.age = ZERO;
            mind.gaze = self.look(slot);
            mind.ball = self.place(self.ball);
            mind.whose = Whose::Held(self.ball);
            for whom in self.rooted.iter().filter(|whom| self.stand.iter().any(|(who, _)| who == *whom)) {
                if *whom != slot && slot.defends() {
                    mind.age[*whom] = NOT_SEEN_FOR_S;
                    mind.x[*whom] = FAR_CORNER.x;
                    mind.y[*whom] = FAR_CORNER.y;
                }
            }
        }
    }

    /// Attackers have their homes where they stand, and start no program.
    fn keep_to_the_scene(&self, parts: &mut PartsItem<'_, '_>) {
        let plans = &mut parts.plans;
        for slot in ATTACK {
            plans.attack[slot].home = self.place(slot);
            plans.attack[slot].set_place = self.place(slot);
            plans.attack[slot].next_open_s = f32::INFINITY;
            plans.rest[slot] = [f32::INFINITY; PROGRAMS];
        }
        plans.next_s = [0.0; 10];
    }

    /// Gives the holder the ball, which nobody takes from him, and his pass.
    fn hand_over(&self, parts: &mut PartsItem<'_, '_>) {
        let by = self.ball;
        parts.events.post(0.0, BallEvent::Control { by });
        parts.ball.state = BallState::Held { by };
        let hold = &mut parts.hold;
        hold.ready_s = f32::INFINITY;
        // The holder waits: the scene is about the others.
        hold.caught_s = if self.decides { -1.0 } else { NEVER_S };
        hold.leave.drive = self.decides;
        parts.allowance.grip_left = f32::INFINITY;
        if let Some((to, kind, at_s)) = self.pass {
            hold.handling = Handling::Passing { to, kind, at_s, look_off: false };
            // Believed so unlikely that no hand in the way makes him pull it back.
            hold.pass_chance = -1.0;
        }
    }
}

impl Playing {
    /// Plays one step.
    pub fn step(&mut self) {
        let entity = self.arena.entities[0];
        if let Some(mut plans) = self.arena.world.get_mut::<Plans>(entity) {
            for (slot, _) in &self.rooted {
                plans.next_s[*slot] = f32::INFINITY;
            }
        }
        if let Some(mut intents) = self.arena.world.get_mut::<Intents>(entity) {
            for (slot, at) in &self.rooted {
                intents.go(*slot, *at, 0.0, Vec2::RIM);
                intents.brace[*slot] = 1.0;
            }
        }
        self.arena.step();
    }

    /// Where a player is.
    pub fn at(&self, player: Slot) -> Vec2 {
        let entity = self.arena.entities[0];
        self.arena.world.get::<Bodies>(entity).map_or(Vec2::RIM, |b| b.at(player))
    }

    /// The arena, to be used again.
    pub fn arena(self) -> Arena {
        self.arena
    }

    /// The possession has ended (a foul, a turnover).
    pub fn over(&self) -> bool {
        let entity = self.arena.entities[0];
        self.arena.world.get::<Clocks>(entity).is_none_or(|c| c.status != Status::Playing)
    }

    /// What has become of the pass to a player.
    pub fn pass_to(&self, to: Slot) -> PassEnd {
        let entity = self.arena.entities[0];
        let over = self.over();
        match self.arena.world.get::<Ball>(entity).map(|b| b.state) {
            Some(BallState::Held { by }) if by == to => PassEnd::Caught,
            Some(BallState::Pass(_) | BallState::Held { .. }) if !over => PassEnd::Flying,
            _ => PassEnd::Lost,
        }
    }
}
