//! A step is the eight stages in the documented order, and two systems that could meet in either order stop the
//! program from starting.
//!
//! What it has caught: nothing yet.

use bevy_ecs::prelude::World;
use engine::Arena;
use engine::step::{STAGES, schedule};

use crate::support::{code_of, text_of, variant};

#[test]
fn the_stages_are_the_documented_eight_in_order() {
    let documented = ["clock", "perceive", "decide", "motion", "contact", "ball", "officiate", "measure"];
    assert_eq!(STAGES, documented);
    // The chain itself: `clock::clock`, `perceive::perceive`, ...
    let code = code_of(&text_of("engine/src/step.rs"));
    let to = code.find(".chain()").expect("the stages are chained");
    let from = code[..to].rfind("add_systems(").expect("the schedule adds its systems");
    let chained: Vec<&str> = code[from..to]
        .lines()
        .filter_map(|line| line.trim().split_once("::"))
        .map(|(stage, _)| stage)
        .collect();
    assert_eq!(chained, documented);
}

#[test]
fn the_schedule_builds_and_steps_a_filled_world() {
    assert!(schedule().initialize(&mut World::new()).is_ok());
    let mut arena = Arena::new(3);
    arena.fill(&variant("seam-cross"), 1);
    (0..20).for_each(|_| arena.step());
}

#[test]
fn a_system_in_no_order_with_the_stages_is_an_error() {
    fn intruder(_: &mut World) {}
    let mut schedule = schedule();
    schedule.add_systems(intruder);
    assert!(schedule.initialize(&mut World::new()).is_err(), "ambiguity detection is off");
}
