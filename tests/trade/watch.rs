//! Films watched in numbers: passes, catches and shots of the first chance, and where everybody stood.

use std::sync::Arc;

use engine::Arena;
use engine::film::{Action, Film, Frame, Slot, Weighed, What};
use engine::math::{Vec2, logistic, vec2};
use engine::setup::{BallPlace, Setup};
use rayon::prelude::*;

use super::estimate::Series;

/// A film and what it was played with.
pub struct Watched<'a> {
    pub setup: &'a Setup,
    pub film: &'a Film,
    pub passes: Vec<Pass>,
    pub shots: Vec<Shot>,
}

/// A pass of the first chance.
#[derive(Clone, Debug)]
pub struct Pass {
    pub from: usize,
    pub to: usize,
    pub metres: f32,
    pub release_s: f32,
    pub from_at: Vec2,
    /// Who caught it, when and where.
    pub caught: Option<(usize, f32, Vec2)>,
    /// A hand touched it.
    pub touched: bool,
    /// Pass fakes shown by the passer since his catch.
    pub fakes: usize,
    /// The passer drove since his catch.
    pub drove: bool,
    /// Its chance to be caught as the passer believed it when he chose it; `None` where he chose something else last.
    pub believed: Option<f32>,
}

/// A shot of the first chance.
#[derive(Clone, Debug)]
pub struct Shot {
    pub by: usize,
    pub time_s: f32,
    pub at: Vec2,
    /// Chance of going in times points.
    pub worth: f32,
    /// The same of a three, were he as good a shooter as his team; of a two as it is.
    pub average: f32,
    pub three: bool,
    /// Passes before it.
    pub passes: usize,
    /// The shooter drove since his catch.
    pub drove: bool,
}

/// Films the first `count` possessions and adds up what `look` sees, in so many series.
pub fn watch<const N: usize>(
    setup: &Arc<Setup>,
    count: u64,
    look: impl Fn(&Watched<'_>, &mut [(f64, f64); N]) + Sync,
) -> [Series; N] {
    let seen: Vec<[(f64, f64); N]> = (0..count)
        .into_par_iter()
        .map_init(
            || Arena::new(1),
            |arena, possession| {
                let film = arena.film(setup, super::SEED, possession);
                let mut sums = [(0.0, 0.0); N];
                look(&Watched::of(setup, &film), &mut sums);
                sums
            },
        )
        .collect();
    std::array::from_fn(|n| seen.iter().map(|sums| sums[n]).collect())
}

/// Counts one event of this size.
pub fn tally(sum: &mut (f64, f64), value: impl Into<f64>) {
    sum.0 += value.into();
    sum.1 += 1.0;
}

impl<'a> Watched<'a> {
    /// What there is to see on a film.
    pub fn of(setup: &'a Setup, film: &'a Film) -> Self {
        let mut watched = Watched { setup, film, passes: Vec::new(), shots: Vec::new() };
        let (mut drove, mut fakes) = (false, 0);
        let mut choice = None;
        for event in &film.events {
            match event.what {
                What::Decision { by, ref options, chosen } => choice = Some((by, options[chosen])),
                What::Pass { from, to, metres, kind, .. } => {
                    let this = |&(by, option): &(Slot, Weighed)| {
                        by == from && option.action == Action::Pass(to, kind)
                    };
                    watched.passes.push(Pass {
                        from: usize::from(from),
                        to: usize::from(to),
                        metres,
                        release_s: event.time_s,
                        from_at: event.at,
                        caught: None,
                        touched: false,
                        fakes,
                        drove,
                        believed: choice.take().filter(this).map(|(_, option)| option.chance),
                    });
                    (drove, fakes) = (false, 0);
                }
                What::Tip { .. } => {
                    if let Some(pass) = watched.passes.last_mut() {
                        pass.touched = true;
                    }
                }
                What::Catch { by, .. } => {
                    (drove, fakes) = (false, 0);
                    if let Some(pass) = watched.passes.last_mut()
                        && pass.caught.is_none()
                        && !pass.touched
                    {
                        pass.caught = Some((usize::from(by), event.time_s, event.at));
                    }
                }
                // Toward himself: a shot is shown.
                What::Fake { by, toward, bitten: 0 } if by != toward => fakes += 1,
                What::DriveStart { .. } => drove = true,
                What::Shot { by, chance, three, metres, space_m, .. } => {
                    let worth = chance * if three { 3.0 } else { 2.0 };
                    let average = if three { three_worth(setup, metres, space_m, !drove) } else { worth };
                    watched.shots.push(Shot {
                        by: usize::from(by),
                        time_s: event.time_s,
                        at: event.at,
                        worth,
                        average,
                        three,
                        passes: watched.passes.len(),
                        drove,
                    });
                }
                What::Rebound { .. } => break,
                _ => {}
            }
        }
        watched
    }

    /// The frame at a time.
    pub fn frame(&self, time_s: f32) -> &Frame {
        let index = (time_s / self.setup.step_s + 0.5) as usize;
        &self.film.frames[index.min(self.film.frames.len() - 1)]
    }

    /// Distance of the nearest defender from a place at a time, m.
    pub fn space(&self, time_s: f32, at: Vec2) -> f32 {
        space(self.frame(time_s), at)
    }

    /// The zone's ball place nearest to a place on the floor.
    pub fn place(&self, at: Vec2) -> BallPlace {
        let right = vec2(at.x.abs(), at.y);
        let far = |place: &BallPlace| (self.setup.zone.ball_places[*place as usize] - right).len2();
        BallPlace::ALL.into_iter().min_by(|a, b| far(a).total_cmp(&far(b))).unwrap_or(BallPlace::Top)
    }

    /// Round the perimeter, as passes are told apart.
    pub fn outside(&self, at: Vec2) -> bool {
        at.len() > self.setup.court.three_radius_m - 0.9
    }

    /// Beside or in the lane, where a post has the ball.
    pub fn in_post(&self, at: Vec2) -> bool {
        at.x.abs() <= 2.8 && at.y <= 5.2
    }

    /// Reversals before the pass with this index is thrown: from side to side by a swing that a guard threw or
    /// caught.
    pub fn reversals(&self, before: usize) -> usize {
        let side = |at: Vec2| if at.x.abs() > 1.0 { at.x.signum() } else { 0.0 };
        let mut from = self.film.frames.first().map_or(0.0, |frame| side(frame.ball));
        let mut count = 0;
        for pass in &self.passes[..before] {
            let Some((by, _, at)) = pass.caught else { continue };
            let to = side(at);
            if to != 0.0 {
                let swing = self.outside(pass.from_at) && self.outside(at) && pass.metres < 7.5;
                count += usize::from(from * to < 0.0 && swing && (by < 2 || pass.from < 2));
                from = to;
            }
        }
        count
    }
}

/// Room beyond this makes no shot better, m.
const FREE_M: f32 = 3.66;

/// Expected points of a three for a shooter as good as his team.
fn three_worth(setup: &Setup, metres: f32, space_m: f32, off_catch: bool) -> f32 {
    let skill = &setup.attackers.skill.shot;
    let room = if space_m < FREE_M { space_m } else { FREE_M };
    let bonus = if off_catch { skill.three_catch } else { 0.0 };
    let z = skill.three.a + skill.three.distance * metres + skill.three.space * room + bonus;
    3.0 * logistic(z)
}

/// Distance of the nearest defender from a place in a frame, m.
pub fn space(frame: &Frame, at: Vec2) -> f32 {
    frame.players[5..].iter().map(|p| p.distance(at)).fold(f32::INFINITY, |a, b| if b < a { b } else { a })
}
