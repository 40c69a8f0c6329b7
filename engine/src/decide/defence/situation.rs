//! What a defender makes of the ball and of the zone, from his beliefs: where the ball is, whose it is to guard, what the
//! zone has called there; and, for one who holds his place, where the zone stands for it.

use super::ball_place::BumpStage;
use super::{Defender, ball_place, burns, on_ball_defender, trap};
use crate::law::conduct::post_defence::ON_BLOCK_WITHIN_M;
use crate::law::conduct::zone_shape::SAG_ENDS_M;
use crate::law::shape;
use crate::math::{Vec2, max, min, vec2};
use crate::setup::{BallPlace, Line, Marks, Table, Zone};
use crate::slots::{ATTACK, Slot};
use crate::state::Duty;

/// What he makes of the ball: where it is, whose it is to guard, and what the zone has called there.
pub struct Situation<'a> {
    /// The ball as he believes it.
    pub ball: Vec2,
    /// The table that he plays by.
    pub table: &'a Table,
    /// How far a bump at the ball's place has got.
    pub bump: BumpStage<'a>,
    /// Who should guard the ball.
    pub on_ball_defender: Slot,
    /// The trap that is on.
    pub trap: Option<trap::On<'a>>,
}

/// Where the zone stands, for a defender who holds his place in it.
pub struct Shift<'a> {
    /// Where each position stands.
    pub anchors: [Vec2; 5],
    /// His own position.
    pub position: usize,
    /// The position of the on-ball defender.
    pub on_ball_position: usize,
    /// The trap that is on.
    pub trap: Option<trap::On<'a>>,
}

impl<'a> Situation<'a> {
    /// The situation as he believes it; brings his duty's ball place, side and holder up to date.
    pub fn of(d: &Defender<'a>, duty: &mut Duty) -> Self {
        let ball = d.view.mind.ball;
        ball_place::locate(d, ball, duty);
        let table = burns::table(d, duty);
        let bump = ball_place::bump(d, table, duty);
        let on_ball_defender = match d.zone.marks {
            Some(_) => on_ball_defender::of_his_man(d, duty),
            None => on_ball_defender::choose(d, table, duty, ball, bump.done()),
        };
        let trap = trap::on(d, table, duty, on_ball_defender, ball);
        Self { ball, table, bump, on_ball_defender, trap }
    }

    /// Where the zone stands for it.
    pub fn shift(self, d: &Defender<'_>, duty: &Duty) -> Shift<'a> {
        let first_side = duty.ball_side == d.view.side;
        let instead = match (&self.trap, self.bump.done()) {
            (Some(on), _) => Some((duty.place, &on.trap.row)),
            (None, Some(bump)) => Some((duty.place, &bump.row)),
            (None, None) => None,
        };
        let on_ball_position = shape::position_of(d.zone, self.on_ball_defender, first_side);
        let anchors = match &d.zone.marks {
            Some(marks) => beside_their_men(d, marks),
            None => {
                let anchors = shape::anchors(d.zone, self.table, self.ball, duty.ball_side, instead);
                on_ball_defender::stand_in(d.zone, self.table, duty, on_ball_position, anchors)
            }
        };
        let anchors = on_the_post(d, duty, on_ball_position, anchors);
        let position = shape::position_of(d.zone, d.view.me.slot, first_side);
        Shift { anchors, position, on_ball_position, trap: self.trap }
    }
}

/// Where the defenders of a man-to-man stand off the ball, as he believes.
fn beside_their_men(d: &Defender<'_>, marks: &Marks) -> [Vec2; 5] {
    let ball = d.view.ball_at();
    ATTACK.map(|man| {
        let at = marks.place(d.view.mind.at(man), ball);
        // A line that sinks sags further toward the rim, though not onto it.
        let sag = min(marks.sag_m[man], max(at.len() - SAG_ENDS_M, 0.0));
        at - at.unit_or(vec2(0.0, 1.0)) * sag
    })
}

/// The anchors with a post on the near block: who plays him stands by the stance, unless the ball is his.
fn on_the_post(d: &Defender<'_>, duty: &Duty, on_ball_position: usize, mut anchors: [Vec2; 5]) -> [Vec2; 5] {
    let Some(on) = &d.zone.on_post else { return anchors };
    let position = usize::from(on.position);
    if let Some(place) = on.places[usize::from(duty.place)]
        && position != on_ball_position
    {
        let block = d.zone.ball_places[BallPlace::LowPost as usize].sided(duty.ball_side);
        let owner = d.view.mind.owner();
        let posted = |who: Slot| {
            Some(who) != owner && (d.view.mind.at(who) - block).len2() < ON_BLOCK_WITHIN_M * ON_BLOCK_WITHIN_M
        };
        if ATTACK.into_iter().any(posted) {
            anchors[position] = place.sided(duty.ball_side);
        }
    }
    anchors
}

impl Shift<'_> {
    /// His own anchor.
    pub fn anchor(&self) -> Vec2 {
        self.anchors[self.position]
    }

    /// How many of the other defenders off the ball, of one line or of both, are anchored nearer to a point than he is.
    pub fn nearer(&self, zone: &Zone, line: Option<Line>, to: Vec2) -> usize {
        let mine = (self.anchor() - to).len2();
        (0..self.anchors.len())
            .filter(|c| *c != self.position && *c != self.on_ball_position)
            .filter(|c| line.is_none_or(|line| zone.positions[*c].line == line))
            .filter(|c| (self.anchors[*c] - to).len2() < mine)
            .count()
    }
}
