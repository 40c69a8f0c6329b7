//! Clocks and officials of one rule set.

/// Time rules and the strictness of the officials.
#[derive(Clone, Debug, PartialEq)]
pub struct Officials {
    /// Shot clock at its full value, s; `None` where none is in force.
    pub shot_clock_s: Option<f32>,
    /// Shot clock after an offensive rebound, s (ignored without a shot clock).
    pub shot_clock_rebound_s: f32,
    /// How much of the shot clock is gone when the set begins, s.
    pub clock_used_s: f32,
    /// Cap on a possession where there is no shot clock, s.
    pub cap_s: f32,
    /// Longest stay of an attacker in the lane, s.
    pub three_seconds_s: f32,
    /// Longest hold while closely guarded, s; `None` where there is no such rule.
    pub closely_guarded_s: Option<f32>,
    /// Distance that counts as closely guarded, m.
    pub closely_guarded_m: f32,
    /// Contact that is called half the time: impulse over body mass, m/s.
    pub whistle_m_s: f32,
    /// Width (logistic scale) of the strictness, m/s.
    pub whistle_scale_m_s: f32,
    /// Share of possessions in which the attack shoots free throws on a common foul.
    pub bonus_share: f32,
}
