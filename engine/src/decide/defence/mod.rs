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
pub mod glass;
mod guard_point;
mod hold;
mod on_ball;
mod passing_lane;
mod reversal;
mod rim_help;
mod taker;
mod trap;

use crate::decide::View;
use crate::law::shape;
use crate::math::Vec2;
use crate::setup::{Marks, Zone};
use crate::slots::{ATTACK, Slot};
use crate::state::{Duty, Signal, Signals, Whose, Wishes};
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
    /// The attacker who has the ball in his hands, as he believes: who he is, his place and velocity.
    fn holder(&self) -> Option<(Slot, Vec2, Vec2)> {
        let holder = self.view.mind.holder()?;
        Some((holder, self.view.mind.at(holder), self.view.mind.velocity(holder)))
    }

    /// Rough time for a defender to get to a point, for choosing among them, s.
    fn rough_time(&self, who: Slot, to: Vec2) -> f32 {
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
    let (mind, slot) = (view.mind, view.me.slot);
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
    (duty.taker, duty.taker_of) = (Some(taker), mind.owner());
    let takes = taker == slot;
    if takes
        && !duty.on_ball
        && let Some(of) = mind.owner()
    {
        signals.say(view.clock.now, view.me.at, Signal::TakesBall { by: slot, of });
    }
    duty.on_ball = takes;
    // Where the team shifts on the catch, only the one who takes the receiver goes with the pass. Man-to-man each stays
    // with his man.
    let flies = matches!(mind.whose, Whose::Passed(_));
    if flies && !takes && !view.clock.shift_on_release && zone.marks.is_none() {
        duty.helps = false;
        wishes.stay(slot);
        return;
    }
    if mind.flies() && !takes && passing_lane::go_for_pass(&d, wishes) {
        return;
    }
    if takes {
        on_ball::guard(&d, duty, trap.is_some(), wishes);
        return;
    }
    if let Second::Coming(bump) = bump
        && taker::slot_of(&d, duty, bump.taker) == slot
    {
        on_ball::guard(&d, duty, false, wishes);
        return;
    }
    if let Some(on) = &trap
        && on.second == slot
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
    let taker_column = shape::column_of(zone, taker, first_side);
    let anchors = match &zone.marks {
        Some(marks) => beside_their_men(&d, marks),
        None => {
            let anchors = shape::anchors(zone, table, ball, duty.ball_side, instead);
            taker::stand_in(zone, table, duty, taker_column, anchors)
        }
    };
    let column = shape::column_of(zone, slot, first_side);
    let shift = Shift { anchors, column, taker_column, trap };
    hold::shape(&d, &shift, duty, wishes);
}

/// Where the defenders of a man-to-man stand off the ball, as he believes.
fn beside_their_men(d: &Defender<'_>, marks: &Marks) -> [Vec2; 5] {
    let ball = d.view.ball_at();
    ATTACK.map(|man| {
        let at = marks.place(d.view.mind.at(man), ball);
        // A line that sinks sags further toward the rim, though not onto it.
        let sag = crate::math::min(marks.sag_m[man], crate::math::max(at.len() - 1.0, 0.0));
        at - at.unit_or(crate::math::vec2(0.0, 1.0)) * sag
    })
}
