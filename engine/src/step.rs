//! One step of all possessions of a world: the eight stages, in order.

use crate::{ball, clock, contact, measure, motion, officiate, perceive, read};
use bevy_ecs::prelude::{IntoScheduleConfigs, Schedule};
use bevy_ecs::schedule::{LogLevel, ScheduleBuildSettings, SingleThreadedExecutor};

/// The names of the stages, in order.
pub const STAGES: [&str; 8] =
    ["clock", "perceive", "read", "motion", "contact", "ball", "officiate", "measure"];

/// The schedule of a step. Parallelism is across worlds, never inside one.
pub fn schedule() -> Schedule {
    let mut schedule = Schedule::default();
    schedule.set_executor(SingleThreadedExecutor::new());
    schedule.set_build_settings(ScheduleBuildSettings {
        ambiguity_detection: LogLevel::Error,
        ..Default::default()
    });
    schedule.add_systems(
        (
            clock::clock,
            perceive::perceive,
            read::read,
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
