//! Where the eyes point: at the ball, or away on a look; a ball-handler looks about; a defender who can have
//! both the ball and his man in sharp sight looks between them.

use super::Scene;
use crate::law::conduct::attention::{HOLDER_LOOKS_PER_S, NO_WAY_M};
use crate::math::{Vec2, max};
use crate::slots::{ALL, ATTACK, ROW, Row, Slot};
use crate::state::{BallState, Belief, Handling, Minds, Plans};

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
    fn set(&mut self, slot: Slot, way: Vec2) {
        self.x[slot] = way.x;
        self.y[slot] = way.y;
    }
}

/// Turns everybody's eyes. All players at once, since roots and quotients cost four times as much singly.
pub fn point(scene: &Scene<'_>, plans: &Plans, minds: &mut Minds) {
    let mut eyes = Eyes::default();
    for (slot, mind) in ALL.into_iter().zip(&minds.0) {
        let here = scene.bodies.at(slot);
        let glances = if scene.clocks.now < mind.glance_until { mind.glance_at } else { None };
        let first = glances.map_or(mind.sighted_ball(), |whom| mind.at(whom));
        eyes.gaze.set(slot, mind.gaze);
        eyes.first.set(slot, first - here);
        if glances.is_none()
            && slot.defends()
            && let Some(man) = plans.defence[slot.in_team()].man
        {
            eyes.second.set(slot, mind.at(man) - here);
        }
        // Both fit where half the angle between them is within sharp sight.
        let sharp = scene.given.player(slot).head.sharp_cos;
        eyes.least[slot] = (2.0 * sharp) * (2.0 * sharp);
    }
    if let BallState::Held { by } = scene.ball.state {
        let to = look_about(scene, by, &minds.0[by]);
        eyes.first.set(by, to - scene.bodies.at(by));
        eyes.second.set(by, Vec2::RIM);
    }
    let turned = turn(&eyes);
    for (slot, mind) in minds.0.iter_mut().enumerate() {
        mind.gaze = Vec2 { x: turned.x[slot], y: turned.y[slot] };
    }
}

/// The gazes that follow from the ways. Branch-free over the entries of a row.
fn turn(eyes: &Eyes) -> Ways {
    let mut turned = Ways::default();
    for slot in 0..ROW {
        let unit_or = |x: f32, y: f32, fx: f32, fy: f32| {
            let l = (x * x + y * y).sqrt();
            // Quotients are formed before they are chosen; a length of nothing must not make them a fault.
            let safe = max(l, NO_WAY_M);
            let (qx, qy) = (x / safe, y / safe);
            (if l > NO_WAY_M { qx } else { fx }, if l > NO_WAY_M { qy } else { fy })
        };
        let (fx, fy) = unit_or(eyes.first.x[slot], eyes.first.y[slot], eyes.gaze.x[slot], eyes.gaze.y[slot]);
        let (sx, sy) = unit_or(eyes.second.x[slot], eyes.second.y[slot], fx, fy);
        let (bx, by) = (fx + sx, fy + sy);
        let fits = bx * bx + by * by > eyes.least[slot];
        let (bx, by) = unit_or(bx, by, fx, fy);
        turned.x[slot] = if fits { bx } else { fx };
        turned.y[slot] = if fits { by } else { fy };
    }
    turned
}

/// Where a ball-handler looks: by turns at the rim and at the team-mate whom he saw longest ago.
fn look_about(scene: &Scene<'_>, slot: Slot, mind: &Belief) -> Vec2 {
    // In the wind-up he looks where he throws, unless he means to mislead.
    if let Handling::Passing { to, look_off: false, .. } = scene.hold.handling {
        return mind.at(to);
    }
    let held = scene.clocks.now - scene.hold.caught_s;
    if ((held * HOLDER_LOOKS_PER_S) as u32).is_multiple_of(2) {
        return Vec2::RIM;
    }
    let mut stalest = (0.0, None);
    for mate in ATTACK {
        if mate != slot && mind.age[mate] > stalest.0 {
            stalest = (mind.age[mate], Some(mate));
        }
    }
    stalest.1.map_or(Vec2::RIM, |mate| mind.at(mate))
}
