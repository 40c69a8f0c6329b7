//! One step of all possessions of a world: the eight stages, in order.

use crate::{ball, clock, contact, decide, measure, motion, officiate, perceive};
use bevy_ecs::prelude::{IntoScheduleConfigs, Schedule};
use bevy_ecs::schedule::{LogLevel, ScheduleBuildSettings, SingleThreadedExecutor};

/// The names of the stages, in order.
pub const STAGES: [&str; 8] =
    ["clock", "perceive", "decide", "motion", "contact", "ball", "officiate", "measure"];

/// A schedule of one stage alone, by its place in [`STAGES`]; for benchmarks by stage.
pub fn stage(index: usize) -> Schedule {
    let mut schedule = empty();
    match index {
        0 => schedule.add_systems(clock::clock),
        1 => schedule.add_systems(perceive::perceive),
        2 => schedule.add_systems(decide::decide),
        3 => schedule.add_systems(motion::motion),
        4 => schedule.add_systems(contact::contact),
        5 => schedule.add_systems(ball::ball),
        6 => schedule.add_systems(officiate::officiate),
        _ => schedule.add_systems(measure::measure),
    };
    schedule
}

/// An empty schedule: single-threaded, and an unordered conflict is an error.
fn empty() -> Schedule {
    let mut schedule = Schedule::default();
    schedule.set_executor(SingleThreadedExecutor::new());
    schedule.set_build_settings(ScheduleBuildSettings {
        ambiguity_detection: LogLevel::Error,
        ..Default::default()
    });
    schedule
}

/// The schedule of a step. Parallelism is across worlds, never inside one.
pub fn schedule() -> Schedule {
    let mut schedule = empty();
    schedule.add_systems(
        (
            clock::clock,
            perceive::perceive,
            decide::decide,
            motion::motion,
            contact::contact,
            ball::ball,
            officiate::officiate,
            measure::measure,
        )
            .chain(),
    );
    schedule
}
