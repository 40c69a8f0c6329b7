//! One moment of a film as a picture: the floor, what was run, dribbled and passed since an earlier moment, and everyone in
//! his place. Clips and storyboards are made of it.

use engine::film::{Air, Film, Frame, Slot};
use engine::math::Vec2;
use engine::setup::Setup;
use engine::slots::{ALL, ATTACK};

use super::court::floor_painted;
use super::moments::{frame_of, rebounds};
use super::restarts;
use super::{SetupWords, Words};
use crate::marks::{self, At};
use crate::picture::apart;
use crate::units::Units;

/// Nearest that two marks may lie for both to be read, cm.
const APART_CM: f64 = 78.0;
/// How far in front of its holder a ball is drawn, cm: his number can be read.
const IN_HAND_CM: f64 = 64.0;

/// A dead ball that lies no farther off is drawn in somebody's hands, m.
const AT_HAND_M: f32 = 0.6;
/// So far from the middle of other marks a held ball covers no number, cm.
const CLEAR_CM: f64 = 52.0;

/// A film with what is needed to draw it.
pub struct Scenes<'a> {
    film: &'a Film,
    floor: String,
    letters: [String; 10],
}

impl<'a> Scenes<'a> {
    /// Of a film of this setup.
    pub fn new(film: &'a Film, setup: &Setup) -> Self {
        let words = SetupWords::new(setup, film, Units::default());
        let letters = ALL.map(|player| marks::letters(&words.player(player), player));
        Self { film, floor: floor_painted(&setup.court), letters }
    }

    /// The frame `at`, with the ways since the frame `since`, as elements of an SVG in centimetres.
    pub fn drawn(&self, since: usize, at: usize) -> String {
        let frame = &self.film.frames[at];
        let places = apart(frame.players.map(cm), APART_CM);
        let players = ALL.into_iter().rev().map(|player| {
            let facing = degrees(frame.facing[player.index()]);
            marks::player(player, places[player.index()], facing, &self.letters[player.index()])
        });
        let players: String = players.collect();
        format!("{}{}{players}{}", self.floor, self.ways(since, at, &places), self.ball(at, &places))
    }

    fn ball(&self, at: usize, places: &[At; 10]) -> String {
        let frame = &self.film.frames[at];
        let dead = frame.air.is_none().then(|| self.at_hand(at)).flatten();
        let place = match frame.holder.or(dead) {
            Some(holder) => in_hand(holder.index(), degrees(frame.facing[holder.index()]), places),
            None => cm(frame.ball),
        };
        marks::ball(place, f64::from(frame.ball_height_m))
    }

    /// Who has a dead ball: whoever took the rebound, or stands where it is.
    fn at_hand(&self, at: usize) -> Option<Slot> {
        let caught = rebounds(self.film).into_iter().rev().find(|(first, _)| *first <= at).map(|(_, by)| by);
        let frame = &self.film.frames[at];
        let near = ALL.into_iter().find(|p| frame.players[p.index()].distance(frame.ball) < AT_HAND_M);
        near.or(caught)
    }

    /// What was run, dribbled, screened, passed and shot between two frames.
    fn ways(&self, since: usize, at: usize, places: &[At; 10]) -> String {
        // Who is back in his place after a dead ball has not run there.
        let anew =
            restarts::of(self.film).into_iter().rev().map(|restart| restart.frame).find(|frame| *frame <= at);
        let frames = &self.film.frames[since.max(anew.unwrap_or(0)).min(at)..=at];
        let mut drawn = String::new();
        for player in ATTACK {
            let mut stretches: Vec<(Way, Vec<At>)> = Vec::new();
            for frame in frames {
                let (way, here) = (Way::of(frame, player.index()), cm(frame.players[player.index()]));
                match stretches.last_mut() {
                    Some((before, places)) if *before == way => places.push(here),
                    Some((_, places)) => {
                        places.push(here);
                        stretches.push((way, vec![here]));
                    }
                    None => stretches.push((way, vec![here])),
                }
            }
            // To his mark, wherever that is drawn.
            if let Some((_, last)) = stretches.last_mut() {
                last.push(places[player.index()]);
            }
            if stretches.iter().any(|(_, way)| leaves(way, places[player.index()])) {
                drawn.extend(stretches.iter().map(|(way, places)| way.drawn(places)));
            }
            let last = frames.last().filter(|frame| frame.braced[player.index()]);
            drawn += &last.map_or_else(String::new, |frame| {
                marks::bar(cm(frame.players[player.index()]), degrees(frame.facing[player.index()]))
            });
        }
        // What leaves the hands in the next frame is shown where it leaves them.
        let next = self.film.frames.get(at + 1).and_then(|frame| frame.air);
        drawn + &flights(frames.iter().map(|frame| frame.air).chain([next]))
    }

    /// The first frame by which something has happened.
    pub fn frame_of(&self, time_s: f32) -> usize {
        frame_of(self.film, time_s)
    }
}

/// How a player moves.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Way {
    Cut,
    Dribble,
}

impl Way {
    fn of(frame: &Frame, player: usize) -> Self {
        match frame.holder {
            Some(holder) if holder.index() == player => Self::Dribble,
            _ => Self::Cut,
        }
    }

    fn drawn(self, places: &[At]) -> String {
        match self {
            Self::Cut => marks::trail(places),
            Self::Dribble => marks::dribbled(places),
        }
    }
}

/// Whether a way comes from farther off than another mark's width: less is a crumb beside a mark, and no way.
fn leaves(places: &[At], mark: At) -> bool {
    places.iter().any(|at| marks::gap(*at, mark) > 2.0 * marks::DISC)
}

/// Every pass and shot of these, frame by frame, drawn once.
fn flights(airs: impl Iterator<Item = Option<Air>>) -> String {
    let mut drawn = String::new();
    let mut before = None;
    for air in airs {
        if air != before {
            match air {
                Some(Air::Pass { start, end, .. }) => drawn += &marks::pass(cm(start), cm(end)),
                Some(Air::Shot { start, .. }) => drawn += &marks::shot(cm(start), (0.0, 0.0)),
                Some(Air::Rebound { .. } | Air::Loose { .. }) | None => {}
            }
        }
        before = air;
    }
    drawn
}

/// Where a held ball is drawn: before its holder, or turned aside as far as it must be to cover nobody's number.
fn in_hand(holder: usize, facing: f64, places: &[At; 10]) -> At {
    let (x, y) = places[holder];
    let turned = [0.0, 45.0, -45.0, 90.0, -90.0, 135.0, -135.0, 180.0].map(|turn: f64| {
        let way = (facing + turn).to_radians();
        (x + IN_HAND_CM * libm::cos(way), y + IN_HAND_CM * libm::sin(way))
    });
    let room = |at: &At| {
        let others = (0..10).filter(|other| *other != holder).map(|other| places[other]);
        others.map(|other| marks::gap(*at, other)).fold(f64::INFINITY, f64::min)
    };
    let clear = turned.iter().find(|at| room(at) >= CLEAR_CM);
    *clear.or(turned.iter().max_by(|a, b| room(a).total_cmp(&room(b)))).unwrap_or(&turned[0])
}

fn cm(at: Vec2) -> At {
    (100.0 * f64::from(at.x), 100.0 * f64::from(at.y))
}

fn degrees(way: Vec2) -> f64 {
    f64::from(libm::atan2f(way.y, way.x)).to_degrees()
}
