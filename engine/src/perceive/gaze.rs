//! Where the eyes point: at the ball, or away on a look; a ball-handler looks about; a defender who can have
//! both the ball and his man in sharp sight looks between them.

use super::Scene;
use crate::math::{Vec2, max};
use crate::slots::{ATTACK, BALL, LANES, NOBODY, PLAYERS, Row, attacks};
use crate::state::{BallState, Belief, Handling, Minds, Plans};

/// Shorter ways than this have no direction, m (as in [`Vec2::unit_or`]).
const SHORT_M: f32 = 1e-6;

/// The rows of a step: gazes, ways to what is looked at and to a man to be kept in view as well, m.
#[derive(Default)]
struct Eyes {
    /// Gaze, unit vector.
    gaze: Ways,
    /// Way to the ball or to whatever takes its place, m.
    first: Ways,
    /// Way to the man of a defender who looks at the ball, m; zero without one.
    second: Ways,
    /// Squared length of the sum of both unit vectors from which both fit into sharp sight.
    least: Row,
}

#[derive(Clone, Copy, Default)]
struct Ways {
    x: Row,
    y: Row,
}

impl Ways {
    #[inline]
    fn set(&mut self, lane: usize, way: Vec2) {
        self.x[lane] = way.x;
        self.y[lane] = way.y;
    }
}

/// Turns everybody's eyes. All players at once, since roots and quotients cost four times as much singly.
pub fn point(scene: &Scene<'_>, plans: &Plans, minds: &mut Minds) {
    let mut eyes = Eyes::default();
    let holder = match scene.ball.state {
        BallState::Held { by } => by,
        _ => NOBODY,
    };
    for (lane, mind) in minds.0.iter().enumerate() {
        let here = scene.bodies.at(lane);
        let (mut first, mut second) = (BALL, NOBODY);
        if scene.clocks.now < mind.glance_until {
            first = usize::from(mind.glance_at);
        } else if !attacks(lane) {
            second = plans.defence[lane - 5].man;
        }
        eyes.gaze.set(lane, mind.gaze);
        eyes.first.set(lane, mind.at(first) - here);
        if second != NOBODY {
            eyes.second.set(lane, mind.at(usize::from(second)) - here);
        }
        // Both fit where half the angle between them is within sharp sight.
        let sharp = scene.given.team(lane).head.sharp_cos;
        eyes.least[lane] = 4.0 * sharp * sharp;
    }
    if usize::from(holder) < PLAYERS {
        let lane = usize::from(holder);
        let to = look_about(scene, lane, &minds.0[lane]);
        eyes.first.set(lane, to - scene.bodies.at(lane));
        eyes.second.set(lane, Vec2::RIM);
    }
    let turned = turn(&eyes);
    for (lane, mind) in minds.0.iter_mut().enumerate() {
        mind.gaze = Vec2 { x: turned.x[lane], y: turned.y[lane] };
    }
}

/// The gazes that follow from the ways. Branch-free over the lanes.
fn turn(eyes: &Eyes) -> Ways {
    let mut turned = Ways::default();
    for lane in 0..LANES {
        let unit_or = |x: f32, y: f32, fx: f32, fy: f32| {
            let l = (x * x + y * y).sqrt();
            // Quotients are formed before they are chosen; a length of nothing must not make them a fault.
            let safe = max(l, SHORT_M);
            let (qx, qy) = (x / safe, y / safe);
            (if l > SHORT_M { qx } else { fx }, if l > SHORT_M { qy } else { fy })
        };
        let (fx, fy) = unit_or(eyes.first.x[lane], eyes.first.y[lane], eyes.gaze.x[lane], eyes.gaze.y[lane]);
        let (sx, sy) = unit_or(eyes.second.x[lane], eyes.second.y[lane], fx, fy);
        let (bx, by) = (fx + sx, fy + sy);
        let fits = bx * bx + by * by > eyes.least[lane];
        let (bx, by) = unit_or(bx, by, fx, fy);
        turned.x[lane] = if fits { bx } else { fx };
        turned.y[lane] = if fits { by } else { fy };
    }
    turned
}

/// Where a ball-handler looks: by turns at the rim and at the team-mate whom he saw longest ago.
fn look_about(scene: &Scene<'_>, lane: usize, mind: &Belief) -> Vec2 {
    // In the wind-up he looks where he throws, unless he means to mislead.
    if let Handling::Passing { to, look_off: false, .. } = scene.ball.handling {
        return mind.at(usize::from(to));
    }
    let held = scene.clocks.now - scene.ball.caught_s;
    if ((held * 4.0) as u32).is_multiple_of(2) {
        return Vec2::RIM;
    }
    let mut stalest = (0.0, lane);
    for mate in ATTACK {
        if mate != lane && mind.age[mate] > stalest.0 {
            stalest = (mind.age[mate], mate);
        }
    }
    if stalest.1 == lane { Vec2::RIM } else { mind.at(stalest.1) }
}
