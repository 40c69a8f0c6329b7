//! What every table, report and film says about itself, once.

/// The note under every result.
pub const NOTE: &str = "Real outcomes depend on players and officiating. These numbers compare ideas under \
stated assumptions; they do not predict a game. Follow your association's rules, and your own judgement on \
players' safety and load.";
