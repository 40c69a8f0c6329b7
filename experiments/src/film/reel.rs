//! What the page plays: a film as small whole numbers. The page draws them and works nothing out.
//!
//! Lengths are centimetres, times hundredths of a second, angles degrees, -1 nobody or nothing. Tracks and runs
//! are explained in the file `track.rs`.

use engine::film::{Air, Film, Frame, Look, PassLane, Slot, View};
use engine::setup::{Head, Setup, Team};
use engine::slots::ALL;
use engine::{OPEN_M, WIDE_OPEN_M};
use serde::Serialize;

use super::drawn::{self, Drawn};
use super::guards::{self, Guard};
use super::moments::{Shot, frame_of, rebounds, shots};
use super::narrate::lines;
use super::track::{Runs, Track, hundredths};
use super::{Words, court, restarts, shot_clock};
use crate::marks;
use crate::wording::pass_kind;

/// Beliefs change ten times a second at most, s.
const BELIEF_S: f32 = 0.1;
/// Largest reel, bytes of JSON. A film that would be larger shows its beliefs less often.
const LARGEST: usize = 370_000;

/// All that a page plays.
#[derive(Debug, Serialize)]
pub struct Reel {
    /// What lengths are told in: `m` or `ft`.
    units: &'static str,
    step_s: f32,
    frames: usize,
    frame_cm: [i32; 4],
    rim_cm: i32,
    players: Vec<Named>,
    /// The ten players, then the ball.
    x: Vec<Track>,
    y: Vec<Track>,
    face: Vec<Track>,
    ball_height: Track,
    holder: Runs,
    braced: Vec<Runs>,
    flights: Vec<Flight>,
    look: LookReel,
    lanes: Vec<LaneReel>,
    stress: StressReel,
    views: Views,
    /// First frame that shows what each line tells.
    told: Vec<usize>,
    /// Part of the floor that is used: left, top, width and height.
    used_cm: [i32; 4],
    /// What is left on the shot clock, tenths of a second; nothing where there is none.
    shot_clock: Option<Track>,
    /// Whom each defender guards, and the defender whose duty the ball is.
    guards: Vec<Runs>,
    on_ball: Runs,
    shots: Vec<ShotReel>,
    /// First frame of each rebound, and who has it.
    rebounds: Vec<(usize, usize)>,
    /// First frame of each start after a dead ball.
    restarts: Vec<usize>,
    drawn: Vec<DrawnReel>,
}

/// A shot at the last frame in which it is in his hands.
#[derive(Debug, Serialize)]
struct ShotReel {
    frame: usize,
    by: usize,
    far: i32,
    space: i32,
    chance: i32,
    three: bool,
    open: bool,
}

/// A route as its file has it.
#[derive(Debug, Serialize)]
struct DrawnReel {
    by: usize,
    first: usize,
    last: usize,
    places: Vec<[i32; 2]>,
}

#[derive(Debug, Serialize)]
struct Named {
    name: String,
    mark: String,
}

/// A stretch of frames in which nobody holds the ball.
#[derive(Debug, Serialize)]
struct Flight {
    first: usize,
    last: usize,
    kind: &'static str,
    words: String,
    from: [i32; 2],
    to: [i32; 2],
}

#[derive(Debug, Serialize)]
struct LookReel {
    open_cm: i32,
    wide_open_cm: i32,
    space: Track,
    nearest: Runs,
    /// By number: nobody has it, out of range, guarded, not ready yet, open, wide open.
    state: Runs,
}

#[derive(Debug, Serialize)]
struct LaneReel {
    clear: Track,
    nearest: Runs,
    /// By number: no lane, within a standing arm's reach, within a lunge's, clear.
    state: Runs,
    /// Chance that the man with the ball gave the pass when he weighed it last, percent.
    chance: Runs,
}

#[derive(Debug, Serialize)]
struct StressReel {
    late: Runs,
    late_for: Runs,
    line_gap: Track,
    widest_seam: Track,
}

#[derive(Debug, Serialize)]
struct Views {
    /// A frame in so many.
    every: usize,
    /// Half angles of sharp sight and of the whole field of view, degrees: attack, defence.
    sight: [[i32; 2]; 2],
    of: Vec<ViewReel>,
}

/// What one player sees and believes. Places are offsets from the true ones.
#[derive(Debug, Serialize)]
struct ViewReel {
    gaze: Track,
    x: Vec<Track>,
    y: Vec<Track>,
    /// When each was seen or heard of last, tenths of a second since the start.
    as_of: Vec<Track>,
    lost: Runs,
    sees_ball: Runs,
}

impl Reel {
    /// Of a film of this setup, as JSON, without what its players believe.
    pub fn json_of_facts(film: &Film, setup: &Setup, words: &dyn Words) -> String {
        serde_json::to_string(&Self::of(film, setup, words)).expect("plain data")
    }

    /// Of a film of this setup, as JSON.
    pub fn json(film: &Film, setup: &Setup, words: &dyn Words) -> String {
        let usual = (f64::from(BELIEF_S) / f64::from(setup.step_s)).round() as usize;
        let mut reel = Self::of(film, setup, words);
        let mut every = usual.max(1);
        loop {
            reel.views = views(&film.frames, setup, every);
            let json = serde_json::to_string(&reel).expect("plain data");
            if json.len() <= LARGEST || every >= film.frames.len() {
                return json;
            }
            every += 1;
        }
    }

    /// With beliefs of the first frame alone.
    fn of(film: &Film, setup: &Setup, words: &dyn Words) -> Self {
        let frames = &film.frames;
        let each = |of: &dyn Fn(&Frame, usize) -> f32| -> Vec<Track> {
            (0..10).map(|p| Track::centimetres(frames.iter().map(|frame| of(frame, p)))).collect()
        };
        let (mut x, mut y) = (each(&|frame, p| frame.players[p].x), each(&|frame, p| frame.players[p].y));
        x.push(Track::centimetres(frames.iter().map(|frame| frame.ball.x)));
        y.push(Track::centimetres(frames.iter().map(|frame| frame.ball.y)));
        let guards = guards::of(film, setup);
        Self {
            units: words.units().key(),
            step_s: setup.step_s,
            frames: frames.len(),
            frame_cm: court::frame_cm(&setup.court),
            rim_cm: hundredths(setup.court.markings.rim_height_m),
            players: ALL
                .map(|p| Named { mark: marks::letters(&words.player(p), p), name: words.player(p) })
                .into(),
            x,
            y,
            face: (0..10).map(|p| Track::degrees(frames.iter().map(|frame| frame.facing[p]))).collect(),
            ball_height: Track::centimetres(frames.iter().map(|frame| frame.ball_height_m)),
            holder: Runs::of(frames.iter().map(|frame| number(frame.holder))),
            braced: (0..5).map(|p| Runs::of(frames.iter().map(|f| i32::from(f.braced[p])))).collect(),
            flights: flights(frames, words),
            look: look(frames),
            lanes: (0..5).map(|mate| lane(frames, mate, &setup.defenders)).collect(),
            stress: stress(frames),
            views: views(frames, setup, frames.len().max(1)),
            told: lines(film, words).iter().map(|line| frame_of(film, line.time_s)).collect(),
            used_cm: used_cm(film, setup),
            shot_clock: shot_clock::left_s(film, setup).map(|left| Track::of(left.into_iter().map(tenths))),
            guards: (0..5).map(|d| Runs::of(guards.iter().map(|all| whom(all[d])))).collect(),
            on_ball: Runs::of(guards.iter().map(on_ball)),
            shots: shots(film).into_iter().map(shot).collect(),
            rebounds: rebounds(film).into_iter().map(|(frame, by)| (frame, by.index())).collect(),
            restarts: restarts::of(film).into_iter().map(|restart| restart.frame).collect(),
            drawn: drawn::of(film, setup).into_iter().map(|route| drawn_reel(film, route)).collect(),
        }
    }
}

/// The nearest whole tenth.
fn tenths(value: f32) -> i32 {
    (f64::from(value) * 10.0).round() as i32
}

fn number(player: Option<Slot>) -> i32 {
    player.map_or(-1, |player| player.index() as i32)
}

fn whom(guard: Guard) -> i32 {
    guard.whom.map_or(-1, |whom| whom as i32)
}

/// The defender, by slot, whose duty the ball is.
fn on_ball(guards: &[Guard; 5]) -> i32 {
    guards.iter().position(|guard| guard.on_ball).map_or(-1, |d| 5 + d as i32)
}

fn shot(shot: Shot) -> ShotReel {
    let Shot { frame, by, metres, space_m, chance, three, open } = shot;
    let (far, space, chance) = (hundredths(metres), hundredths(space_m), hundredths(chance));
    ShotReel { frame, by: by.index(), far, space, chance, three, open }
}

fn drawn_reel(film: &Film, route: Drawn) -> DrawnReel {
    let (first, last) = route.span_s;
    DrawnReel {
        by: route.by,
        first: frame_of(film, first),
        last: frame_of(film, last),
        places: route.places.iter().map(|at| [hundredths(at.x), hundredths(at.y)]).collect(),
    }
}

/// The part of the floor in which everyone and the ball are, the rim with it.
fn used_cm(film: &Film, setup: &Setup) -> [i32; 4] {
    let seen = film.frames.iter().flat_map(|frame| frame.players.iter().copied().chain([frame.ball]));
    court::around_cm(&setup.court, seen)
}

fn flights(frames: &[Frame], words: &dyn Words) -> Vec<Flight> {
    let mut found: Vec<(Air, Flight)> = Vec::new();
    for (frame, shown) in frames.iter().enumerate() {
        let Some(air) = shown.air else { continue };
        match found.last_mut() {
            Some((before, flight)) if *before == air && flight.last + 1 == frame => flight.last = frame,
            _ => found.push((air, flight(air, frame, shown, words))),
        }
    }
    found.into_iter().map(|(_, flight)| flight).collect()
}

fn flight(air: Air, frame: usize, shown: &Frame, words: &dyn Words) -> Flight {
    let (kind, words, from, to) = match air {
        Air::Pass { to, kind, start, end, .. } => {
            ("pass", format!("{} pass to {}", pass_kind(kind), words.player(to)), start, end)
        }
        Air::Shot { by, start } => {
            ("shot", format!("shot by {}", words.player(by)), start, engine::math::Vec2::RIM)
        }
        Air::Rebound { down } => ("rebound", "off the rim".into(), engine::math::Vec2::RIM, down),
        Air::Loose { at } => ("loose", "loose ball".into(), shown.ball, at),
    };
    let cm = |at: engine::math::Vec2| [hundredths(at.x), hundredths(at.y)];
    Flight { first: frame, last: frame, kind, words, from: cm(from), to: cm(to) }
}

fn look(frames: &[Frame]) -> LookReel {
    let state = |look: &Look| {
        if !look.in_range {
            1
        } else if look.space_m < OPEN_M {
            2
        } else if !look.open {
            3
        } else {
            4 + i32::from(look.space_m >= WIDE_OPEN_M)
        }
    };
    LookReel {
        open_cm: hundredths(OPEN_M),
        wide_open_cm: hundredths(WIDE_OPEN_M),
        space: Track::of(frames.iter().map(|f| f.look.map_or(-1, |look| hundredths(look.space_m)))),
        nearest: Runs::of(frames.iter().map(|f| f.look.map_or(-1, |look| look.nearest.index() as i32))),
        state: Runs::of(frames.iter().map(|f| f.look.as_ref().map_or(0, state))),
    }
}

fn lane(frames: &[Frame], mate: usize, defenders: &Team) -> LaneReel {
    let lanes = || frames.iter().map(move |frame| frame.lanes[mate]);
    let state = |lane: PassLane| {
        if lane.clear_m <= defenders.body.arm_reach_m {
            1
        } else if lane.clear_m <= defenders.body.lunge_reach_m {
            2
        } else {
            3
        }
    };
    let chance = |lane: PassLane| lane.thought.map_or(-1, |thought| hundredths(thought.chance));
    LaneReel {
        clear: Track::of(lanes().map(|lane| lane.map_or(-1, |lane| hundredths(lane.clear_m)))),
        nearest: Runs::of(lanes().map(|lane| lane.map_or(-1, |lane| lane.nearest.index() as i32))),
        state: Runs::of(lanes().map(|lane| lane.map_or(0, state))),
        chance: Runs::of(lanes().map(|lane| lane.map_or(-1, chance))),
    }
}

fn stress(frames: &[Frame]) -> StressReel {
    let shown = |of: &dyn Fn(&engine::film::Stress) -> i32| -> Vec<i32> {
        frames.iter().map(|frame| frame.stress.as_ref().map_or(-1, of)).collect()
    };
    StressReel {
        late: Runs::of(shown(&|stress| hundredths(stress.late_s))),
        late_for: Runs::of(shown(&|stress| number(stress.late_for))),
        line_gap: Track::of(shown(&|stress| hundredths(stress.line_gap_m))),
        widest_seam: Track::of(shown(&|stress| hundredths(stress.widest_seam_m))),
    }
}

fn views(frames: &[Frame], setup: &Setup, every: usize) -> Views {
    let degrees = |cosine: f32| f64::from(libm::acosf(cosine)).to_degrees().round() as i32;
    let sight = |head: &Head| [degrees(head.sharp_cos), degrees(head.whole_cos)];
    Views {
        every,
        sight: [sight(&setup.attackers.head), sight(&setup.defenders.head)],
        of: (0..10).map(|player| view(frames, every, player)).collect(),
    }
}

fn view(frames: &[Frame], every: usize, player: usize) -> ViewReel {
    let shown = || frames.iter().step_by(every).map(move |frame| (frame, &frame.views[player]));
    let believed = |of: &dyn Fn(&Frame, &View, usize) -> f32, who: std::ops::RangeInclusive<usize>| {
        who.map(|other| {
            // A player does not look for himself.
            Track::centimetres(shown().map(|(f, v)| if other == player { 0.0 } else { of(f, v, other) }))
        })
        .collect()
    };
    ViewReel {
        gaze: Track::degrees(shown().map(|(_, view)| view.gaze)),
        x: believed(
            &|f, v, o| if o == 10 { v.ball.x - f.ball.x } else { v.players[o].x - f.players[o].x },
            0..=10,
        ),
        y: believed(
            &|f, v, o| if o == 10 { v.ball.y - f.ball.y } else { v.players[o].y - f.players[o].y },
            0..=10,
        ),
        as_of: (0..10)
            .map(|other| Track::of(shown().map(|(frame, view)| tenths(frame.time_s - view.age_s[other]))))
            .collect(),
        lost: Runs::of(shown().map(|(_, view)| i32::from(view.lost))),
        sees_ball: Runs::of(shown().map(|(_, view)| i32::from(view.sees_ball))),
    }
}
