//! Bodies with the levels' own values take as long as people do over a course with turns, three quarters of a court,
//! and a closeout.
//!
//! # A contradiction in the sources
//!
//! Lane agility (19 ft forward, 16 ft of slide, 19 ft of back-pedal, 16 ft of slide, and the same way back) was
//! measured in 444 men at 11.33 s, s.d. 0.56. The source of the slide gives its peak twice, both from memory: 3.0 to
//! 4.0 m/s, and 55 to 65 % of sprint speed, which for these men is 4.7 to 5.5 m/s. Run by the model with the body's
//! centre brought to rest on every corner, the course takes 14.0 s at the middle of all ranges: outside of anything
//! measured, and braking is most of it. Three things settle it, and no value of a level had to be moved:
//!
//! 1. A corner is touched by a foot. A body that brakes at 5 m/s2 has its foot 0.48 m ahead of its centre, or it
//!    would fall over. The centre's way is that much shorter at each of the eight ends: 12.2 s.
//! 2. The watch starts late, as in the sprint of the same combine, which gives the sourced top speed only with 0.3 s
//!    added: 11.9 s on the watch; unshifted it still lies inside the range measured.
//! 3. The slide's ceiling is the share of sprint speed. At 4.0 m/s the course takes 12.6 s on the watch, more than
//!    2 s.d. slow, and at 3.0 m/s 13.9 s, slower than the slowest of 444. For men of this class the figure in m/s
//!    is not a ceiling; it is near what the share gives of the speed that a sprint has after the few metres of a
//!    slide (6.1 m/s at 5 m: 3.4 to 4.0 m/s), and so it may have been meant.
//!
//! Turning costs nothing here (the face stays to the baseline), and lateral braking next to nothing (under 0.05 s over
//! its whole range). What remains is a known miss (`off` in the file): 0.5 s too slow. One man in six of those measured is as
//! slow, but the level stands for their mean, and that is known to 0.03 s (s.d. / sqrt n). It lies within what the
//! ranges of the slide's share, its time constant and braking allow: 10.9 s on the watch at their quick ends, 13.0 s at
//! their slow ones.

use engine::gait_of;
use engine::law::kernel::GaitParams;
use engine::math::{Vec2, vec2};
use engine::setup::{BallPlace, Setup};
use serde::Deserialize;

use super::bundled::setup;
use super::course::{Mover, straight_s};
use super::runner::runner;
use super::{near, values};
use crate::support::matchup;

#[derive(Deserialize)]
struct File {
    step_s: f32,
    agility: Agility,
    three_quarter_court: Sprints<Group>,
    twenty_metres: Sprints<Band>,
    closeout: Closeout,
    passes: Passes,
}

#[derive(Deserialize)]
struct Agility {
    level: String,
    forward_m: f32,
    slide_m: f32,
    measured: Measured,
    range_s: [f64; 2],
    start_s: f64,
    centre_of_mass_m: f32,
    gravity_m_s2: f32,
    peak_m_s: [f32; 2],
}

#[derive(Deserialize)]
struct Sprints<T> {
    m: f32,
    start_s: f64,
    #[serde(default)]
    within_s: f64,
    #[serde(alias = "band")]
    group: Vec<T>,
}

#[derive(Deserialize)]
struct Group {
    level: String,
    measured: Measured,
}

/// Times of so many people.
#[derive(Deserialize)]
struct Measured {
    mean_s: f64,
    sd_s: f64,
    n: u16,
    /// The model is known to be wrong here.
    off: bool,
}

impl Measured {
    /// Fails where a level's time is not the people's mean (99 %: its standard error, not what one of them may differ by),
    /// or is though it is known not to be.
    #[track_caller]
    fn check(&self, took_s: f64, what: &str) {
        let error = self.sd_s / f64::from(self.n).sqrt();
        let off = (took_s - self.mean_s).abs() > 2.576 * error;
        println!("{what}: {took_s:.3} s, measured {} (standard error {error:.3})", self.mean_s);
        assert_eq!(off, self.off, "{what}: {took_s} s, measured {} (standard error {error})", self.mean_s);
    }
}

#[derive(Deserialize)]
struct Band {
    level: String,
    s: [f64; 2],
    off: bool,
}

#[derive(Deserialize)]
struct Closeout {
    reaction_s: f64,
    first_m: u8,
    within_s: f64,
    group: Vec<Closer>,
}

#[derive(Deserialize)]
struct Closer {
    v_max_m_s: f32,
    tau_s: f32,
    braking_m_s2: f32,
    stopped_s: Vec<f64>,
    by_s: Vec<f64>,
}

#[derive(Deserialize)]
struct Passes {
    stop_m: f32,
    v_max_m_s: f32,
    tau_s: f32,
    braking_m_s2: f32,
    within_s: f64,
    row: Vec<Row>,
}

#[derive(Deserialize)]
struct Row {
    what: String,
    from: String,
    to: String,
    far: bool,
    on_ball: String,
    one_two_two: f64,
    three_two: f64,
    sunk: Option<f64>,
}

/// How the team-mates of a level move, by their mean.
fn level(name: &str) -> GaitParams {
    let body = &setup("us-high-school", name).attackers.body;
    gait_of(body, body.sprint_m_s)
}

impl Agility {
    /// How far ahead of his centre a braking man has his foot, m.
    fn foot_m(&self, params: &GaitParams) -> f32 {
        self.centre_of_mass_m * params.braking_m_s2 / self.gravity_m_s2
    }

    /// Time of the course with the foot so far ahead, s: he stops at a corner, and goes on when his foot is there.
    fn seconds(&self, params: &GaitParams, foot_m: f32, step_s: f32) -> f64 {
        let (far, wide) = (self.forward_m, self.slide_m);
        let corners = [(0.0, far), (wide, far), (wide, 0.0), (0.0, 0.0)];
        let back = [(wide, 0.0), (wide, far), (0.0, far), (0.0, 0.0)];
        let mut body = Mover::new(params, vec2(0.0, 1.0), step_s);
        for (nth, (x, y)) in corners.into_iter().chain(back).enumerate() {
            body.until_within(vec2(x, y), foot_m, nth == 7);
        }
        f64::from(body.time_s)
    }
}

#[test]
fn lane_agility_takes_longer_than_measured() {
    let file = values::<File>("movement");
    let course = file.agility;
    let pro = level(&course.level);
    let took = course.seconds(&pro, course.foot_m(&pro), file.step_s);
    course.measured.check(took - course.start_s, "lane agility");
    assert!(took > course.range_s[0] && took < course.range_s[1], "{took} s from the first step");
}

#[test]
fn the_contradiction_is_settled_as_written() {
    let file = values::<File>("movement");
    let course = &file.agility;
    let pro = level(&course.level);
    let watch = |params: &GaitParams, foot_m| course.seconds(params, foot_m, file.step_s) - course.start_s;
    let foot = |params: &GaitParams| watch(params, course.foot_m(params));
    // Centre to rest on every corner: slower than the slowest.
    let centred = watch(&pro, 0.05);
    assert!(centred > course.range_s[1], "{centred} s with the centre on every corner");
    // The slide's peak in m/s as its ceiling: too slow at its quick end, impossible at its slow one.
    let [slow, quick] =
        course.peak_m_s.map(|peak| foot(&GaitParams { slide_fraction: peak / pro.v_max, ..pro }));
    assert!(
        quick > course.measured.mean_s + 2.0 * course.measured.sd_s && slow > course.range_s[1],
        "{quick} s and {slow} s"
    );
    // Lateral braking hardly matters.
    let lateral = [3.5, 5.5].map(|lateral_m_s2| foot(&GaitParams { lateral_m_s2, ..pro }));
    assert!((lateral[0] - lateral[1]).abs() < 0.05, "{lateral:?} s");
    // The ends of the sourced ranges lie on either side of what was measured.
    let ends = [(0.65, 0.35, 0.7, 5.5), (0.55, 0.5, 0.6, 4.5)].map(|(slide, tau, back, braking)| {
        let params = GaitParams {
            slide_fraction: slide,
            slide_tau_s: tau,
            backpedal_fraction: back,
            braking_m_s2: braking,
            ..pro
        };
        foot(&params)
    });
    println!("centred {centred:.2}, peaks {slow:.2} {quick:.2}, lateral {lateral:.2?}, ends {ends:.2?} s");
    assert!(ends[0] < course.measured.mean_s && ends[1] > course.measured.mean_s, "{ends:?} s");
}

#[test]
fn each_level_sprints_three_quarters_of_a_court_as_measured_or_is_known_not_to() {
    let file = values::<File>("movement");
    let court = file.three_quarter_court;
    for group in court.group {
        let took = f64::from(straight_s(&level(&group.level), court.m, false, file.step_s)) - court.start_s;
        group.measured.check(took, &group.level);
    }
    let short = file.twenty_metres;
    for band in short.group {
        let took = f64::from(straight_s(&level(&band.level), short.m, false, file.step_s)) - short.start_s;
        println!("{}: 20 m in {took:.2} s", band.level);
        let off = took < band.s[0] - short.within_s || took > band.s[1] + short.within_s;
        assert_eq!(off, band.off, "{}: 20 m in {took} s, {:?}", band.level, band.s);
    }
}

#[test]
fn a_closeout_takes_the_printed_time() {
    let file = values::<File>("movement");
    let table = file.closeout;
    for closer in table.group {
        let braking_m_s2 = closer.braking_m_s2;
        let params = GaitParams { braking_m_s2, ..runner(closer.v_max_m_s, closer.tau_s) };
        for (nth, (stopped, by)) in (0_u8..).zip(closer.stopped_s.into_iter().zip(closer.by_s)) {
            let metres = f32::from(table.first_m + nth);
            for (stops, printed) in [(true, stopped), (false, by)] {
                let took = table.reaction_s + f64::from(straight_s(&params, metres, stops, file.step_s));
                let what = format!("{metres} m at {} m/s, to stop: {stops}", closer.v_max_m_s);
                near(took, printed, table.within_s, &what);
            }
        }
    }
}

fn place(name: &str) -> usize {
    BallPlace::NAMES.iter().position(|known| *known == name).expect("a ball place")
}

/// How far the on-ball defender after a pass has to go, m.
fn closes_m(zone: &Setup, row: &Row, stop_m: f32) -> f32 {
    let positions = ["point", "near wing", "far wing", "near back", "far back"];
    let on_ball = positions.iter().position(|position| *position == row.on_ball).expect("a position");
    let to = zone.zone.ball_places[place(&row.to)];
    let to = if row.far { Vec2 { x: -to.x, y: to.y } } else { to };
    zone.zone.table.anchors[place(&row.from)][on_ball].distance(to) - stop_m
}

#[test]
fn who_closes_out_after_a_pass_takes_the_printed_time() {
    let file = values::<File>("movement");
    let passes = file.passes;
    let braking_m_s2 = passes.braking_m_s2;
    let params = GaitParams { braking_m_s2, ..runner(passes.v_max_m_s, passes.tau_s) };
    let zones = [("\"1-2-2\"", "0.0"), ("\"3-2\"", "0.0"), ("\"1-2-2\"", "1.2")]
        .map(|(name, sink)| matchup(&[("zone.use", name), ("zone.sink_back_m", sink)]));
    for row in &passes.row {
        let printed = [Some(row.one_two_two), Some(row.three_two), row.sunk];
        for (zone, printed) in zones.iter().zip(printed) {
            let Some(printed) = printed else { continue };
            let metres = closes_m(zone, row, passes.stop_m);
            let took = file.closeout.reaction_s + f64::from(straight_s(&params, metres, true, file.step_s));
            println!("{}: {metres:.2} m in {took:.2} s, printed {printed}", row.what);
            near(took, printed, passes.within_s, &row.what);
        }
    }
}
