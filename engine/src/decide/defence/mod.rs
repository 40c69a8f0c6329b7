//! What a zone defender does: take the ball, go for a pass, stop a drive, or hold his place in the shape and
//! look after whoever is in his area.
//!
//! Guarding the ball is a discrete duty with hysteresis; the others interpolate between anchors. Every
//! defender judges from his own beliefs, so two may take the ball, or none: that is what a zone gets wrong.

mod area;
mod ball;
mod burns;
mod dig;
mod drive;
mod fly_by;
mod guard_point;
mod hold;
mod lane;
mod on_ball;
mod reversal;
mod rim_help;
mod taker;
mod trap;

use crate::decide::View;
use crate::law::shape;
use crate::math::Vec2;
use crate::setup::{Marks, Zone};
use crate::slots::NOBODY;
use crate::state::{Duty, Signal, Signals, Wishes};
use ball::Second;

/// Beyond this distance a defender turns and runs rather than slides, m.
const RUN_M: f32 = 3.0;
/// Nearer to the rim than this an attacker is played as a post, m.
const POST_M: f32 = 3.2;
/// Farther from the rim than this he is on the perimeter, m.
const PERIMETER_M: f32 = 5.0;

/// A defender at the moment of his decision.
struct Defender<'a> {
    view: &'a View<'a>,
    zone: &'a Zone,
}

/// What he makes of the zone as a whole.
struct Shift<'a> {
    /// Where each column stands.
    anchors: [Vec2; 5],
    /// His own column.
    column: usize,
    /// The column of the one who takes the ball, as he believes.
    taker_column: usize,
    /// The trap that is on, and the lane of its second man.
    trap: Option<trap::On<'a>>,
}

impl Defender<'_> {
    /// The attacker who has the ball in his hands, as he believes: his lane, place and velocity.
    fn holder(&self) -> Option<(usize, Vec2, Vec2)> {
        let holder = usize::from(self.view.mind.holder);
        let held = holder < 5 && !self.view.mind.in_air;
        held.then(|| (holder, self.view.mind.at(holder), self.view.mind.velocity(holder)))
    }

    /// Rough time for a defender to get to a point, for choosing among them, s.
    fn rough_time(&self, who: usize, to: Vec2) -> f32 {
        let at = self.view.whereabouts(who);
        let velocity =
            if who == self.view.me.slot { self.view.me.velocity } else { self.view.mind.velocity(who) };
        self.view.given.arrival(who).time_to(at, velocity, to, 0.9)
    }

    /// Time after which what he remembers of an attacker is useless, s.
    fn memory_s(&self) -> f32 {
        self.view.given.team(self.view.me.slot).head.memory_s
    }
}

/// Decides a defender's intent.
pub fn decide(view: &View<'_>, duty: &mut Duty, wishes: &mut Wishes, signals: &mut Signals) {
    let zone = &view.given.setup.zone;
    let (mind, lane) = (view.mind, view.me.slot);
    let d = Defender { view, zone };
    let ball = ball::believed(&d);
    ball::locate(&d, ball, duty);
    let table = burns::table(&d, duty);
    let bump = ball::bump(&d, table, duty);
    let after_bump = match bump {
        Second::Come(bump) => Some(bump),
        _ => None,
    };
    let first_side = duty.ball_side == view.side;
    let taker = match zone.marks {
        Some(_) => taker::of_his_man(&d, duty),
        None => taker::choose(&d, table, duty, ball, after_bump),
    };
    let trap = trap::on(&d, table, duty, taker, ball);
    (duty.taker, duty.taker_of) = (taker as u8, mind.holder);
    let takes = taker == lane;
    if takes && !duty.on_ball && mind.holder != NOBODY {
        signals.say(view.clock.now, d.view.me.at, Signal::TakesBall { by: lane as u8, of: mind.holder });
    }
    duty.on_ball = takes;
    // Where the team shifts on the catch, only the one who takes the receiver goes with the pass. Man-to-man each stays
    // with his man.
    let flies = mind.in_air && mind.holder != NOBODY;
    if flies && !takes && !view.clock.shift_on_release && zone.marks.is_none() {
        duty.helps = false;
        wishes.stay(lane);
        return;
    }
    if mind.in_air && !takes && lane::go_for_pass(&d, wishes) {
        return;
    }
    if takes {
        on_ball::guard(&d, duty, trap.is_some(), wishes);
        return;
    }
    if let Second::Coming(bump) = bump
        && taker::lane_of(&d, duty, bump.taker) == lane
    {
        on_ball::guard(&d, duty, false, wishes);
        return;
    }
    if let Some(on) = &trap
        && on.second == lane
    {
        trap::close(&d, wishes);
        return;
    }
    if drive::stop(&d, taker, duty, wishes, signals) {
        return;
    }
    duty.helps = false;
    let instead = match (&trap, after_bump) {
        (Some(on), _) => Some((duty.place, &on.trap.row)),
        (None, Some(bump)) => Some((duty.place, &bump.row)),
        (None, None) => None,
    };
    let taker_column = shape::column_of(zone, taker - 5, first_side);
    let anchors = match &zone.marks {
        Some(marks) => beside_their_men(&d, marks),
        None => {
            let anchors = shape::anchors(zone, table, ball, duty.ball_side, instead);
            taker::stand_in(zone, table, duty, taker_column, anchors)
        }
    };
    let column = shape::column_of(zone, lane - 5, first_side);
    let shift = Shift { anchors, column, taker_column, trap };
    hold::shape(&d, &shift, duty, wishes);
}

/// Where the defenders of a man-to-man stand off the ball, as he believes.
fn beside_their_men(d: &Defender<'_>, marks: &Marks) -> [Vec2; 5] {
    let ball = d.view.ball_at();
    core::array::from_fn(|man| {
        let at = marks.place(d.view.mind.at(man), ball);
        // A line that sinks sags further toward the rim, though not onto it.
        let sag = crate::math::min(marks.sag_m[man], crate::math::max(at.len() - 1.0, 0.0));
        at - at.unit_or(crate::math::vec2(0.0, 1.0)) * sag
    })
}
