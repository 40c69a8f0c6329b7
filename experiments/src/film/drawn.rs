//! A route as it is drawn: the places of its file, put on the floor as it lies when he starts out for each, to be laid
//! beside the way that he really ran.

use engine::film::{Film, Frame, What};
use engine::law::conduct::programs::MIDDLE_X_M;
use engine::law::shape;
use engine::math::{Vec2, vec2};
use engine::setup::{Frame as Side, Line, Locus, ON_BALL, Program, ProgramKind, Setup};
use engine::slots::{DEFENCE, POSTS, Slot};

/// One run of a route.
#[derive(Clone, Debug, PartialEq)]
pub struct Drawn {
    /// Who runs it, by slot.
    pub by: usize,
    /// When he starts and ends it, s.
    pub span_s: (f32, f32),
    /// Where he starts, and the places that he is to come to, m. What depends on where others stand is taken from where
    /// they stood as he set out for it; what he alone could see is the place where that leg really ended.
    pub places: Vec<Vec2>,
}

/// Every run of a route in a film.
pub fn of(film: &Film, setup: &Setup) -> Vec<Drawn> {
    let starts = film.events.iter().filter_map(|event| match event.what {
        What::ProgramStart { by, program, kind: ProgramKind::Route } => Some((event.time_s, by, program)),
        _ => None,
    });
    let run = |(from_s, by, number): (f32, Slot, u8)| {
        let program = setup.attack.programs.get(usize::from(number))?;
        Some(drawn((film, setup), by, (from_s, number), program))
    };
    starts.filter_map(run).collect()
}

fn drawn((film, setup): (&Film, &Setup), by: Slot, (from_s, number): (f32, u8), program: &Program) -> Drawn {
    let over_s = film.frames.last().map_or(from_s, |frame| frame.time_s);
    let (mut legs, mut end_s) = (vec![from_s], over_s);
    for event in film.events.iter().filter(|event| event.time_s >= from_s) {
        match event.what {
            What::ProgramStep { by: who, program, .. } if (who, program) == (by, number) => {
                legs.push(event.time_s)
            }
            What::ProgramEnd { by: who, program } if (who, program) == (by, number) => {
                end_s = event.time_s;
                break;
            }
            _ => {}
        }
    }
    let frame = |time_s: f32| {
        let after = film.frames.partition_point(|frame| frame.time_s < time_s - 1e-4);
        &film.frames[after.min(film.frames.len() - 1)]
    };
    let start = frame(from_s).players[by.index()];
    let mut places = vec![start];
    for (nth, step) in program.steps.iter().enumerate() {
        // A leg that he never set out on is drawn as the floor lies at the end.
        let set_out = legs.get(nth).copied().unwrap_or(end_s);
        let reached = legs.get(nth + 1).copied().unwrap_or(end_s);
        let seen = Seen { setup, side: film.side, start, frame: frame(set_out) };
        places.push(seen.place(step.to).unwrap_or(frame(reached).players[by.index()]));
    }
    Drawn { by: by.index(), span_s: (from_s, end_s), places }
}

/// The floor as it lies when a leg begins.
struct Seen<'a> {
    setup: &'a Setup,
    side: f32,
    /// Where he started the route, m.
    start: Vec2,
    frame: &'a Frame,
}

impl Seen<'_> {
    /// A place of a route's file; `None` where only its owner could tell, from what he saw.
    fn place(&self, locus: Locus) -> Option<Vec2> {
        let zone = &self.setup.zone;
        let first_side = self.ball_sign() == self.side;
        let of = |slot: Slot| self.frame.players[slot.index()];
        let position = |number: u8| match number {
            ON_BALL => {
                DEFENCE.map(of).into_iter().min_by(|a, b| self.off_ball_m(*a).total_cmp(&self.off_ball_m(*b)))
            }
            _ => Some(of(shape::slot_of(zone, usize::from(number), first_side))),
        };
        match locus {
            Locus::Floor(at, side) => Some(at.sided(self.sign(side))),
            Locus::LineGap(x, side) => Some(vec2(x * self.sign(side), self.between_lines_y(first_side))),
            Locus::Behind(number, gap_m) => {
                let at = position(number)?;
                Some(at + (at - self.frame.ball).unit_or(vec2(0.0, -1.0)) * gap_m)
            }
            Locus::Seam(a, b) => Some((position(a)? + position(b)?) * 0.5),
            Locus::ByPost(near, off) => {
                let posts = POSTS.map(of);
                let first_is_near = self.off_ball_m(posts[0]) <= self.off_ball_m(posts[1]);
                Some(posts[usize::from(first_is_near != near)] + off.sided(self.ball_sign()))
            }
            Locus::Screen(number, to, side, gap_m) => {
                let at = position(number)?;
                Some(at + (to.sided(self.sign(side)) - at).unit_or(vec2(0.0, 1.0)) * gap_m)
            }
            Locus::Seal | Locus::AlongArc(_) | Locus::Home => None,
        }
    }

    fn off_ball_m(&self, at: Vec2) -> f32 {
        at.distance(self.frame.ball)
    }

    fn start_sign(&self) -> f32 {
        if self.start.x < 0.0 { -1.0 } else { 1.0 }
    }

    /// A ball in the middle is on the side where he started.
    fn ball_sign(&self) -> f32 {
        let x = self.frame.ball.x;
        if x.abs() > MIDDLE_X_M { x.signum() } else { self.start_sign() }
    }

    fn sign(&self, side: Side) -> f32 {
        match side {
            Side::Start => self.start_sign(),
            Side::Ball => self.ball_sign(),
        }
    }

    /// Halfway between the mean depths of the front line and the back line, m.
    fn between_lines_y(&self, first_side: bool) -> f32 {
        let zone = &self.setup.zone;
        let mean = |line: Line| {
            let of_line =
                |slot: &Slot| zone.positions[shape::position_of(zone, *slot, first_side)].line == line;
            let depths: Vec<f32> =
                DEFENCE.into_iter().filter(of_line).map(|slot| self.frame.players[slot.index()].y).collect();
            depths.iter().sum::<f32>() / depths.len().max(1) as f32
        };
        0.5 * (mean(Line::Front) + mean(Line::Back))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Legs that he went on from are drawn to where he came, but for those that he broke off.
    #[test]
    fn a_drawn_route_passes_where_the_runner_came() {
        let setup = scenarios::scenario(std::path::Path::new("sunken-122")).unwrap().setup;
        let (mut near, mut legs) = (0, 0);
        for possession in 0..20 {
            let film = engine::film_possession(&setup, 1, possession);
            for route in of(&film, &setup) {
                let (from_s, to_s) = route.span_s;
                assert_eq!(route.by, 2, "the rover runs the route");
                let own: Vec<Vec2> =
                    film.frames.iter().filter(|f| f.time_s <= to_s).map(|f| f.players[2]).collect();
                let nearest = |place: &Vec2| {
                    own.iter().map(|at| at.distance(*place)).fold(f32::INFINITY, engine::math::min)
                };
                assert!(nearest(&route.places[0]) < 1e-6 && route.places.len() > 2);
                let steps = film.events.iter().filter(|event| {
                    let own = matches!(event.what, What::ProgramStep { by, .. } if by.index() == 2);
                    own && event.time_s > from_s && event.time_s <= to_s
                });
                let done = &route.places[1..=steps.count().min(route.places.len() - 1)];
                legs += done.len();
                near += done.iter().filter(|place| nearest(place) < 1.2).count();
            }
        }
        assert!(legs > 10 && 4 * near > 3 * legs, "{near} of {legs} legs lead to where he came");
    }
}
