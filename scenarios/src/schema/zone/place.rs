//! The table as it is played: sink, extension and the floor worked into the rows.

use engine::math::{Vec2, max, vec2};
use engine::setup::{BallPlace, Bump, Line, Table};

use super::Positions;
use super::rows::{Row, Rows};
use super::rules::Rules;
use super::traps::Traps;
use crate::declared::{Field, Need, Part};
use crate::read::Reader;
use crate::schema::fit::Fit;

/// The sink at which a zone's sunk places are written, metres.
const SUNK_AT_M: f32 = 1.2;
/// The front line sinks no nearer to the rim than this, metres.
const FRONT_STAYS_M: f32 = 1.0;

/// A length that is 0 where nothing is said.
const fn metres(name: &'static str, high: f64, doc: &'static str) -> Field {
    Field::number(name, "m", (0.0, high), doc).or(Need::Number(0.0))
}

/// Sink and extension, in a scenario's `[zone]`.
pub const LINES: Part = Part::Fields(&[
    metres("sink_back_m", 1.5, "How far the back line sags toward the rim."),
    metres("sink_front_m", 1.5, "How far the front line sags toward the rim."),
    metres("extension_m", 2.0, "How much farther out the front line picks up the ball."),
]);

/// How far the lines are moved from where the zone's file has them, metres.
pub struct Lines {
    pub sink_back: f32,
    pub sink_front: f32,
    extension: f32,
}

impl Lines {
    /// The scenario's sink and extension.
    pub fn read(choice: &Reader<'_>) -> Lines {
        Lines {
            sink_back: choice.number("sink_back_m"),
            sink_front: choice.number("sink_front_m"),
            extension: choice.number("extension_m"),
        }
    }

    /// The same with this share of the sink.
    pub fn sunk_by(&self, share: f32) -> Lines {
        Lines {
            sink_back: self.sink_back * share,
            sink_front: self.sink_front * share,
            extension: self.extension,
        }
    }
}

/// Everything that a table is made of.
pub struct Work<'w> {
    pub positions: &'w Positions,
    pub rows: &'w Rows,
    pub rules: &'w Rules,
    pub traps: &'w Traps,
    /// The position that steps up at the high post, where the scenario says so.
    pub high_post: Option<u8>,
    pub fit: Fit,
}

impl Work<'_> {
    /// The table under one of the zone's corner rules.
    pub fn table(&self, corner: Option<usize>, lines: &Lines) -> Table {
        let (mut rows, mut on_ball) = (self.rows.rows.clone(), self.rows.on_ball);
        let mut bumps = self.rules.bumps.clone();
        if let Some(high_post) = self.high_post {
            on_ball[BallPlace::Elbow as usize] = [high_post; 2];
        }
        if let Some(rule) = corner.map(|rule| &self.rules.corners[rule]) {
            rule.apply(&mut rows, &mut on_ball, &mut bumps);
        }
        let placed = |row: &Row, place: BallPlace, on_ball: &[u8]| self.place(row, place, on_ball, lines);
        let bumps = BallPlace::ALL.map(|place| {
            let (row, on_ball) = bumps[place as usize].as_ref()?;
            let row = row.as_ref().unwrap_or(&rows[place as usize]);
            Some(Bump { row: placed(row, place, &[*on_ball]), on_ball: *on_ball })
        });
        let anchors =
            BallPlace::ALL.map(|place| placed(&rows[place as usize], place, &on_ball[place as usize][..1]));
        let traps = BallPlace::ALL.map(|place| {
            let at = place as usize;
            self.traps.of(place, &rows[at], (on_ball[at][0], self.rows.ball_places[at]), &placed)
        });
        Table { anchors, on_ball, bumps, traps }
    }

    /// A row with sink, extension and the floor worked in. Sink leaves those on the ball where they are.
    fn place(&self, row: &Row, place: BallPlace, on_ball: &[u8], lines: &Lines) -> [Vec2; 5] {
        let out = matches!(place, BallPlace::Top | BallPlace::Slot | BallPlace::Wing);
        std::array::from_fn(|c| {
            let normal = row.anchors[c];
            let on_ball = on_ball.iter().any(|position| usize::from(*position) == c);
            let at = match self.positions.all[c].line {
                Line::Back if on_ball => normal,
                Line::Back => {
                    let sunk = normal + (row.sunk[c] - normal) * (lines.sink_back / SUNK_AT_M);
                    vec2(sunk.x, if normal.y >= 0.0 { max(sunk.y, 0.0) } else { normal.y })
                }
                Line::Front => {
                    let out_m = if out { lines.extension } else { 0.0 };
                    let in_m = if on_ball { 0.0 } else { lines.sink_front };
                    along_radius(normal, out_m - in_m)
                }
            };
            self.fit.defender(at)
        })
    }
}

/// A place moved straight away from the rim (toward it, if negative), never into it or behind it.
fn along_radius(p: Vec2, move_m: f32) -> Vec2 {
    if move_m == 0.0 {
        return p;
    }
    let from_rim = p.len();
    let nearest = if from_rim < FRONT_STAYS_M { from_rim } else { FRONT_STAYS_M };
    p.unit_or(vec2(0.0, 1.0)) * max(from_rim + move_m, nearest)
}
