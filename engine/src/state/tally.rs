//! What the measures have counted.

use super::marks::Marks;
use crate::measures::Measure;
use crate::slots::Slot;
use crate::state::returns::Trail;
use bevy_ecs::prelude::Component;

/// What the measures have counted so far.
#[derive(Component, Clone, Debug)]
pub struct Tally {
    /// Values by measure.
    pub values: [i64; Measure::COUNT],
    /// Rolling digest of the trajectories.
    pub digest: u64,
    /// Sums over steps that become means at the end.
    pub lateness_sum: f64,
    /// Largest lateness, s.
    pub lateness_peak: f32,
    /// Steps with an unguarded threat.
    pub unguarded_steps: u32,
    /// Sum of the line gap, m.
    pub line_gap_sum: f64,
    /// Sum of the widest seam, m.
    pub seam_sum: f64,
    /// Whether two attackers were alone in one defender's area at the last step.
    pub two_on_one: bool,
    /// Whether the helper was down at the last step.
    pub helper_down: bool,
    /// For how long each attacker has had no defender near, s.
    pub alone_s: [f32; 5],
    /// Where the ball was last held on a side by a guard or not: sign of the side it came from.
    pub reversal_from: f32,
    /// Areas of the floor that the ball was in at the last step, for touches: bits of `law::floor`.
    pub touch: u8,
    /// How well the opponents can run after the turnover that ends it, as a share; set with the turnover.
    pub loss_factor: f32,
    /// Points so far.
    pub points: u8,
    /// Expected points so far.
    pub expected: f32,
    /// Metres run by each player.
    pub metres: [f32; 10],
    /// The holder at the last step.
    pub holder: Option<Slot>,
    /// Steps that the stress of the zone was measured in.
    pub stress_steps: u32,
    /// The last pass was a lob.
    pub lob: bool,
    /// The holder drove from outside since his catch.
    pub drove: bool,
    /// Space of the last shot, m.
    pub space_m: f32,
    /// Distance of the last shot, m.
    pub last_shot_m: f32,
    /// The last shot went in.
    pub last_made: bool,
    /// Expected points of the shot that the free throws at the end were given for.
    pub fouled_points: f32,
    /// A defender picked the ball up loose.
    pub live_loss: bool,
    /// What will count by place.
    pub marks: Marks,
    /// States met, where returns are asked for.
    pub trail: Trail,
}

impl Default for Tally {
    fn default() -> Self {
        Self {
            values: [0; Measure::COUNT],
            digest: 0,
            lateness_sum: 0.0,
            lateness_peak: 0.0,
            unguarded_steps: 0,
            line_gap_sum: 0.0,
            seam_sum: 0.0,
            two_on_one: false,
            helper_down: false,
            alone_s: [0.0; 5],
            reversal_from: 0.0,
            touch: 0,
            loss_factor: 0.0,
            points: 0,
            expected: 0.0,
            metres: [0.0; 10],
            holder: None,
            stress_steps: 0,
            lob: false,
            drove: false,
            space_m: 0.0,
            last_shot_m: 0.0,
            last_made: false,
            fouled_points: 0.0,
            live_loss: false,
            marks: Marks::NONE,
            trail: Trail::NEW,
        }
    }
}
