//! Bodies driven over a course by the engine's law of motion, and nothing else.

use engine::law::kernel::{Gait, GaitParams, Rows, Targets, advance};
use engine::math::{Vec2, vec2};
use engine::slots::ROW;

/// One body on an empty floor.
pub struct Mover {
    gait: Gait,
    rows: Rows,
    step_s: f32,
    /// Seconds since the start.
    pub time_s: f32,
}

impl Mover {
    /// At rest under the rim, facing this way.
    pub fn new(params: &GaitParams, facing: Vec2, step_s: f32) -> Mover {
        let mut gait = Gait::default();
        (0..ROW).for_each(|lane| gait.set(lane, params, step_s));
        let rows = Rows { fx: [facing.x; ROW], fy: [facing.y; ROW], ..Rows::default() };
        Mover { gait, rows, step_s, time_s: 0.0 }
    }

    /// Where he is, m.
    pub fn at(&self) -> Vec2 {
        vec2(self.rows.px[0], self.rows.py[0])
    }

    /// How fast he is, m/s.
    pub fn speed(&self) -> f32 {
        vec2(self.rows.vx[0], self.rows.vy[0]).len()
    }

    /// One step toward a point: to stop there, or to run through it. He keeps facing as he does.
    pub fn step(&mut self, to: Vec2, through: bool) {
        let through = [if through { 1.0 } else { 0.0 }; ROW];
        let targets =
            Targets { tx: [to.x; ROW], ty: [to.y; ROW], cap: [20.0; ROW], through, ..Targets::default() };
        advance(self.step_s, 1.0, &self.gait, &targets, &mut self.rows);
        for lane in 0..ROW {
            self.rows.px[lane] += self.rows.dx[lane];
            self.rows.py[lane] += self.rows.dy[lane];
        }
        self.time_s += self.step_s;
        assert!(self.time_s < 60.0, "he never comes to {to:?}");
    }

    /// Goes on toward a point until he is this near to it.
    pub fn until_within(&mut self, to: Vec2, metres: f32, through: bool) {
        while self.at().distance(to) > metres {
            self.step(to, through);
        }
    }
}

/// When a body that starts at rest and faces its way is `metres` on, s, straight between two steps; running by, or
/// at rest there.
pub fn straight_s(params: &GaitParams, metres: f32, stops: bool, step_s: f32) -> f32 {
    let ahead = vec2(0.0, 1.0);
    let mut body = Mover::new(params, ahead, step_s);
    let goal = ahead * metres;
    if stops {
        // Within a centimetre and as good as still.
        while body.at().distance(goal) > 0.01 || body.speed() > 0.1 {
            body.step(goal, false);
        }
        return body.time_s;
    }
    let mut before = 0.0;
    while body.at().y < metres {
        before = body.at().y;
        body.step(ahead * 1000.0, true);
    }
    body.time_s - step_s * (body.at().y - metres) / (body.at().y - before)
}
