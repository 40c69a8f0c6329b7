//! Stage 3, `decide`: attack and zone choose their intents from what they believe.
//!
//! A player decides when he learns something, and ten times a second otherwise, on his own phase.

mod chase;
mod defence;
mod draws;
mod intent;
mod off_ball;
mod on_ball;
mod shown;
mod three_seconds;
mod value;
pub mod view;
mod way;

use draws::Draws;
use intent::Intent;
use shown::{Notes, Shown};
use view::{View, nearest_defender};

use crate::law::conduct::deciding::{DECIDES_EVERY_S, IN_THE_AIR_M_S};
use crate::random::Streams;
use crate::slots::{ALL, Slot};
use crate::state::*;
use bevy_ecs::prelude::{Query, Res};
use bevy_ecs::query::QueryData;

/// What decisions work on.
#[derive(QueryData)]
#[query_data(mutable)]
pub(crate) struct Possession {
    clocks: &'static Clocks,
    bodies: &'static Bodies,
    traits: &'static Traits,
    minds: &'static Minds,
    side: &'static Side,
    events: &'static mut EventQueue,
    ball: &'static Ball,
    hold: &'static mut Hold,
    progress: &'static mut Progress,
    plans: &'static mut Plans,
    intents: &'static mut Intents,
    menu: &'static mut Menu,
    streams: &'static mut Streams,
    signals: &'static mut Signals,
}

/// Lets every player decide who is due.
pub fn decide(given: Res<Given>, mut possessions: Query<Possession>) {
    for mut p in &mut possessions {
        if p.clocks.status != Status::Playing {
            continue;
        }
        let dt = given.setup.step_s;
        let intents = &mut *p.intents;
        for slot in ALL {
            intents.targets.tx[slot] += intents.tvx[slot] * dt;
            intents.targets.ty[slot] += intents.tvy[slot] * dt;
        }
        for slot in ALL {
            let next_s = &mut p.plans.next_s[slot];
            if p.clocks.now < *next_s {
                continue;
            }
            // The regular decisions keep their phase.
            while *next_s <= p.clocks.now {
                *next_s += DECIDES_EVERY_S;
            }
            decide_one(&given, &mut p, slot);
        }
    }
}

/// One player decides. He is handed what he believes and what is his own, and no more.
fn decide_one(given: &Given, p: &mut PossessionItem<'_, '_>, slot: Slot) {
    let view = View::of(given, p.clocks, p.bodies, p.traits, &p.minds.0[slot], p.side.0, slot);
    let plans = &mut *p.plans;
    if p.ball.holder() == Some(slot) {
        let hands = on_ball::Hands {
            shown: Shown::of(&mut p.events),
            hold: &mut p.hold,
            progress: &mut p.progress,
            plan: &mut plans.attack[slot],
            intent: Intent::of(&mut p.intents, slot),
            menu: &mut p.menu,
            draws: Draws::of(&mut p.streams, slot),
            notes: Notes::of(&mut p.signals),
        };
        on_ball::decide(&view, hands);
        way::keep_in(&view, &mut Intent::of(&mut p.intents, slot));
        return;
    }
    if slot.defends() {
        let mut intent = Intent::of(&mut p.intents, slot);
        defend(&view, &mut plans.defence[slot.in_team()], &mut intent, &mut Notes::of(&mut p.signals));
    } else {
        let mut mover = off_ball::Mover {
            plan: &mut plans.attack[slot],
            rest: &mut plans.rest[slot],
            intent: Intent::of(&mut p.intents, slot),
            draws: Draws::of(&mut p.streams, slot),
            notes: Notes::of(&mut p.signals),
        };
        attack_without_ball(&view, &mut mover);
    }
    let mut intent = Intent::of(&mut p.intents, slot);
    way::steer_round(&view, &mut intent);
    way::keep_in(&view, &mut intent);
}

/// A defender's intent.
fn defend(view: &View<'_>, duty: &mut Duty, intent: &mut Intent<'_>, notes: &mut Notes<'_>) {
    let here = view.me.at;
    if view.given.setup.limits.frozen_zone {
        intent.go(here, 0.0, view.mind.gaze);
        return;
    }
    if view.clock.now < view.mind.jumps_until {
        // He has left his feet for a shot, or for one that never came.
        intent.go(here, IN_THE_AIR_M_S, view.mind.gaze);
        return;
    }
    match view.mind.whose {
        Whose::Shot | Whose::Rebound | Whose::Loose => {
            defence::glass::decide(view, intent);
        }
        Whose::Held(_) | Whose::Passed(_) => defence::decide(view, duty, intent, notes),
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
