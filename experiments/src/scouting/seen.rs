//! What a scout would see in a possession: at most one answer to each question, of the first moment that shows it.
//!
//! The moments are those of the sheet ([`scenarios::ASKED`]). Distances are judged centre to centre, with the error of an eye.

use engine::film::{Event, Film, Frame, What};
use engine::math::Vec2;
use engine::setup::{BallPlace, Line, Pairing, Setup};
use engine::slots::{DEFENCE, Slot};
use scenarios::ASKED;

use crate::stats::Generator;

/// A moment after a catch in the corner, or as the ball leaves it if it is held for less, s.
const MOMENT_S: f32 = 0.9;
/// Who has it for less than this shows nothing, s.
const LEAST_S: f32 = 0.4;
/// By then somebody else may have taken over, s.
const TAKEN_OVER_S: f32 = 2.0;
/// Two steps, m.
const TWO_STEPS_M: f32 = 2.5;
/// Who is so near to the low post has taken it, m.
const ON_POST_M: f32 = 1.8;
/// Where the low post is, on the right, m.
const LOW_POST: Vec2 = Vec2 { x: 2.2, y: 0.8 };
/// The ball is held for so long at the top before the zone has settled, s.
const SETTLED_S: f32 = 0.6;
/// A long pass, m.
const LONG_PASS_M: f32 = 5.0;
/// How long such a pass is held before the closeout is judged, s.
const HELD_S: f32 = 1.0;
/// Who bites does so within this time of the fake, s.
const BITES_WITHIN_S: f32 = 0.8;
/// Standard deviation of the error with which an eye judges a distance, m. (assumed)
const EYE_M: f32 = 0.3;
/// Upper ends of the answers to how deep the back line is, m in front of the rim's centre.
const DEPTHS_M: [f32; 3] = [0.45, 0.85, 1.25];
/// Upper ends of the answers to how far out the front line is, m from the arc.
const WINGS_M: [f32; 3] = [-1.4, -0.9, -0.4];
/// Upper ends of the answers to how near a closeout stops, m.
const STOPS_M: [f32; 3] = [1.0, 1.4, 2.0];

/// The answers of a possession, in the order of [`ASKED`].
pub fn sightings(film: &Film, setup: &Setup) -> [Option<usize>; ASKED.len()] {
    let scene = Scene { film, setup };
    let settled = scene.settled();
    [
        scene.corner(),
        scene.low_post(),
        settled.map(|frame| bin(scene.judged(2, scene.depth_m(frame)), &DEPTHS_M)),
        settled.map(|frame| bin(scene.judged(3, scene.wings_m(frame)), &WINGS_M)),
        scene.closeout().map(|far_m| bin(scene.judged(4, far_m), &STOPS_M)),
        scene.fake(),
    ]
}

/// The bin of a value by the upper ends of all but the last.
fn bin(value: f32, ends: &[f32]) -> usize {
    ends.iter().position(|end| value < *end).unwrap_or(ends.len())
}

struct Scene<'a> {
    film: &'a Film,
    setup: &'a Setup,
}

/// A ball caught in the corner.
struct Cornered<'a> {
    by: Slot,
    time_s: f32,
    at: Vec2,
    /// A moment after the catch.
    frame: &'a Frame,
    /// The defender nearest to the catcher then, and how far he is, m.
    on: Slot,
    far: f32,
}

impl Scene<'_> {
    /// A distance as an eye judges it: with an error of its own in each possession, the same each time it is played.
    fn judged(&self, asked: u64, metres: f32) -> f32 {
        metres + EYE_M * Generator::new(self.film.record.digest ^ asked).normal() as f32
    }

    /// The frame of a time, if the film lasts so long.
    fn at(&self, time_s: f32) -> Option<&Frame> {
        self.film.frames.iter().find(|frame| frame.time_s >= time_s)
    }

    /// The frame so long after a catch, if the catcher still has the ball.
    fn held(&self, by: Slot, caught_s: f32, later_s: f32) -> Option<&Frame> {
        let frame = self.at(caught_s + later_s)?;
        let until = self.film.frames.iter().filter(|f| f.time_s > caught_s + 0.1 && f.time_s <= frame.time_s);
        until.into_iter().all(|f| f.holder == Some(by)).then_some(frame)
    }

    /// The frame a moment after a catch, or the last one in which the catcher has the ball.
    fn moment(&self, by: Slot, caught_s: f32) -> Option<&Frame> {
        let after = self.film.frames.iter().skip_while(|frame| frame.time_s < caught_s + 0.1);
        let own = after.take_while(|frame| frame.holder == Some(by) && frame.time_s <= caught_s + MOMENT_S);
        own.last().filter(|frame| frame.time_s >= caught_s + LEAST_S)
    }

    /// The catches of the possession: who, when, where, and how far the pass flew.
    fn catches(&self) -> impl Iterator<Item = (Slot, f32, Vec2, f32)> {
        let mut metres_flown = 0.0;
        self.film.events.iter().filter_map(move |Event { time_s, at, what }| match what {
            What::Pass { metres, .. } => {
                metres_flown = *metres;
                None
            }
            What::Catch { by, .. } => Some((*by, *time_s, *at, std::mem::take(&mut metres_flown))),
            _ => None,
        })
    }

    fn place(&self, at: Vec2) -> BallPlace {
        self.setup.zone.nearest_place(at)
    }

    /// The defender nearest to a place, and how far he is, m; some left out.
    fn nearest(frame: &Frame, to: Vec2, but: Option<Slot>) -> (Slot, f32) {
        let far = |slot: Slot| frame.players[slot].distance(to);
        let others = DEFENCE.into_iter().filter(|slot| Some(*slot) != but);
        let nearest = others.min_by(|a, b| far(*a).total_cmp(&far(*b))).unwrap_or(DEFENCE[0]);
        (nearest, far(nearest))
    }

    fn line(&self, defender: Slot) -> Line {
        self.setup.zone.positions[defender.in_team()].line
    }

    /// The balls caught in the corner, and who is nearest a moment later.
    fn in_corner(&self) -> impl Iterator<Item = Cornered<'_>> {
        self.catches().filter(|(_, _, at, _)| self.place(*at) == BallPlace::Corner).filter_map(
            |(by, time_s, at, _)| {
                let frame = self.moment(by, time_s)?;
                let (on, far) = Self::nearest(frame, frame.players[by], None);
                Some(Cornered { by, time_s, at, frame, on, far })
            },
        )
    }

    /// Who is on a ball caught in the corner.
    fn corner(&self) -> Option<usize> {
        let first = self.in_corner().next();
        first.map(|Cornered { by, time_s, on, far, .. }| {
            if far > TWO_STEPS_M {
                return 3;
            }
            if self.line(on) == Line::Front {
                return 2;
            }
            let later = self.held(by, time_s, TAKEN_OVER_S);
            let taken_over = later.is_some_and(|frame| {
                let (on, far) = Self::nearest(frame, frame.players[by], None);
                far <= TWO_STEPS_M && self.line(on) == Line::Front
            });
            usize::from(taken_over)
        })
    }

    /// Who takes the low post while a back is out in the corner.
    fn low_post(&self) -> Option<usize> {
        self.in_corner().find_map(|Cornered { at, frame, on, far, .. }| {
            if far > TWO_STEPS_M || self.line(on) == Line::Front {
                return None;
            }
            let side = if at.x < 0.0 { -1.0 } else { 1.0 };
            let (helper, far) = Self::nearest(frame, LOW_POST.sided(side), Some(on));
            if far > ON_POST_M {
                return Some(3);
            }
            let position = &self.setup.zone.positions[helper.in_team()];
            // The rover's starting side is the near one of each pair's slots.
            let rover_side = side == self.film.side;
            let on_ball_side = match position.pairing {
                Pairing::Near(_) => rover_side,
                Pairing::Far(_) => !rover_side,
                Pairing::Lone => true,
            };
            Some(match (position.line, position.pairing) {
                (Line::Back, _) => 0,
                (Line::Front, Pairing::Lone) => 2,
                (Line::Front, _) if on_ball_side => 1,
                (Line::Front, _) => 3,
            })
        })
    }

    /// The first frame in which the ball has been held at the top, or in a slot, for a while.
    fn settled(&self) -> Option<&Frame> {
        let mut since: Option<(Slot, f32)> = None;
        self.film.frames.iter().find(|frame| {
            let top = matches!(self.place(frame.ball), BallPlace::Top | BallPlace::Slot);
            let holder = frame.holder.filter(|_| top);
            match (holder, since) {
                (Some(holder), Some((before, from_s))) if holder == before => {
                    frame.time_s - from_s >= SETTLED_S
                }
                (holder, _) => {
                    since = holder.map(|holder| (holder, frame.time_s));
                    false
                }
            }
        })
    }

    /// How far the men of a line who are not on the ball are, by some measure, on average.
    fn mean(&self, frame: &Frame, line: Line, of: impl Fn(Vec2) -> f32) -> f32 {
        let (on, _) = Self::nearest(frame, frame.ball, None);
        let own = DEFENCE.into_iter().filter(|slot| *slot != on && self.line(*slot) == line);
        let values: Vec<f32> = own.map(|slot| of(frame.players[slot])).collect();
        values.iter().sum::<f32>() / values.len().max(1) as f32
    }

    fn depth_m(&self, frame: &Frame) -> f32 {
        self.mean(frame, Line::Back, |at| at.y)
    }

    fn wings_m(&self, frame: &Frame) -> f32 {
        self.mean(frame, Line::Front, |at| at.len() - self.setup.court.three_radius_m)
    }

    /// How near a closeout stops, m.
    fn closeout(&self) -> Option<f32> {
        self.catches().find_map(|(by, time_s, at, flown)| {
            let outside = matches!(self.place(at), BallPlace::Wing | BallPlace::Corner);
            if !outside || flown < LONG_PASS_M {
                return None;
            }
            let frame = self.held(by, time_s, HELD_S)?;
            Some(Self::nearest(frame, frame.players[by], None).1)
        })
    }

    /// Whether anybody bites on the first fake.
    fn fake(&self) -> Option<usize> {
        let fakes = self.film.events.iter().filter_map(|event| match event.what {
            What::Fake { bitten, .. } => Some((event.time_s, bitten)),
            _ => None,
        });
        let fakes: Vec<(f32, u16)> = fakes.collect();
        let &(shown_s, _) = fakes.first()?;
        let bites = fakes.iter().any(|(time_s, bitten)| *bitten != 0 && *time_s <= shown_s + BITES_WITHIN_S);
        Some(usize::from(!bites))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn bins_are_half_open() {
        assert_eq!([0.0, 0.45, 1.0, 9.0].map(|value| bin(value, &DEPTHS_M)), [0, 1, 2, 3]);
    }
}
