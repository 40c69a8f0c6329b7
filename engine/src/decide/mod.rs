//! Stage 3, `decide`: attack and zone choose their intents from what they believe.
//!
//! A player decides when he learns something, and ten times a second otherwise, on his own phase.

mod chase;
mod defence;
mod intent;
mod off_ball;
mod on_ball;
mod three_seconds;
mod value;
pub mod view;
mod way;

pub(crate) use crate::slots::ALL;
use intent::Intent;
use view::{View, nearest_defender};

use crate::law::conduct::deciding::{DECIDES_EVERY_S, IN_THE_AIR_M_S};
use crate::random::Streams;
use crate::state::Given;
use crate::state::*;
use bevy_ecs::prelude::{Query, Res};

/// Lets every player decide who is due.
pub fn decide(
    given: Res<Given>,
    mut slots: Query<(
        &Clocks,
        &Bodies,
        &Traits,
        &Minds,
        &Side,
        &mut Board,
        &mut Ball,
        &mut Plans,
        &mut Wishes,
        &mut Menu,
        &mut Streams,
        &mut Signals,
    )>,
) {
    for (
        clocks,
        bodies,
        traits,
        minds,
        side,
        mut board,
        mut ball,
        mut plans,
        mut wishes,
        mut menu,
        mut streams,
        mut signals,
    ) in &mut slots
    {
        if clocks.status != Status::Playing {
            continue;
        }
        let dt = given.setup.step_s;
        for slot in ALL {
            wishes.wish.tx[slot] += wishes.tvx[slot] * dt;
            wishes.wish.ty[slot] += wishes.tvy[slot] * dt;
        }
        for slot in ALL {
            if clocks.now < plans.next_s[slot] {
                continue;
            }
            // The regular decisions keep their phase.
            while plans.next_s[slot] <= clocks.now {
                plans.next_s[slot] += DECIDES_EVERY_S;
            }
            let view = View::of(&given, clocks, bodies, traits, &minds.0[slot], side.0, slot);
            let holds = ball.state == (BallState::Held { by: slot });
            if slot.defends() {
                let duty = &mut plans.defence[slot.in_team()];
                defend(&view, duty, &mut wishes, &mut signals);
            } else if holds {
                let hands = on_ball::Hands {
                    board: &mut board,
                    ball: &mut ball,
                    plan: &mut plans.attack[slot],
                    wishes: &mut wishes,
                    menu: &mut menu,
                    streams: &mut streams,
                    signals: &mut signals,
                };
                on_ball::decide(&view, hands);
            } else {
                let plans = &mut *plans;
                let mut mover = off_ball::Mover {
                    plan: &mut plans.attack[slot],
                    rest: &mut plans.rest[slot],
                    intent: Intent::of(&mut wishes, slot),
                    streams: &mut streams,
                    signals: &mut signals,
                };
                attack_without_ball(&view, &mut mover);
            }
            if !holds {
                let mut intent = Intent::of(&mut wishes, slot);
                way::steer_round(&view, &mut intent);
                way::keep_in(&view, &mut intent);
            }
        }
    }
}

/// A defender's intent.
fn defend(view: &View<'_>, duty: &mut Duty, wishes: &mut Wishes, signals: &mut Signals) {
    let (me, here) = (view.me.slot, view.me.at);
    if view.given.setup.limits.frozen_zone {
        wishes.go(me, here, 0.0, view.mind.gaze);
        return;
    }
    if view.clock.now < view.mind.jumps_until {
        // He has left his feet for a shot, or for one that never came.
        wishes.go(me, here, IN_THE_AIR_M_S, view.mind.gaze);
        return;
    }
    match view.mind.whose {
        Whose::Shot | Whose::Rebound | Whose::Loose => {
            defence::glass::decide(view, &mut Intent::of(wishes, me));
        }
        Whose::Held(_) | Whose::Passed(_) => defence::decide(view, duty, wishes, signals),
    }
}

/// The intent of an attacker without the ball.
fn attack_without_ball(view: &View<'_>, m: &mut off_ball::Mover<'_>) {
    match view.mind.whose {
        Whose::Shot | Whose::Rebound | Whose::Loose => {
            off_ball::glass::decide(view, m.plan, &mut m.intent);
        }
        Whose::Held(_) | Whose::Passed(_) => off_ball::decide(view, m),
    }
}
