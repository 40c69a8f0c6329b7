//! Clocks and officials of one rule set.

use super::parameter::parameters;

parameters! {
    /// Time rules and the strictness of the officials.
    #[derive(Clone, Debug, PartialEq)]
    pub struct Officials {
        /// Shot clock at its full value, or "none".
        shot_clock_s: Option<f32> = "s", 5.0 to 120.0;
        /// How much of the shot clock is gone when the set begins.
        clock_used_s: f32 = "s", 0.0 to 110.0;
        /// Shot clock after an offensive rebound.
        shot_clock_rebound_s: f32 = "s", 1.0 to 120.0;
        /// Cap on a possession where there is no shot clock.
        cap_s: f32 = "s", 5.0 to 300.0;
        /// Longest stay of an attacker in the lane.
        three_seconds_s: f32 = "s", 1.0 to 60.0;
        /// Longest hold while closely guarded, or "none".
        closely_guarded_s: Option<f32> = "s", 1.0 to 60.0;
        /// Distance that counts as closely guarded.
        closely_guarded_m: f32 = "m", 0.0 to 4.0;
        // Impulse over body mass.
        /// Contact called half the time.
        whistle_m_s: f32 = "m/s", 0.1 to 10.0;
        // The scale of a logistic.
        /// Width of strictness.
        whistle_scale_m_s: f32 = "m/s", 0.01 to 5.0;
        /// Share of possessions in the bonus.
        bonus_share: f32 = "", 0.0 to 1.0;
    }
}
