//! Travelling: what each moment at which the feet may go wrong costs of a hold's allowance, in mean catches.
//!
//! The level's rate is one of all catches. The four moments stand to each other as here, and are scaled so that over all
//! bundled attacks and zones the mean is about that rate. (assumed: the proportions)

/// Nothing is called sooner after a catch than this, s: a foot has to come down first. (assumed)
pub const FIRST_CALL_S: f32 = 0.25;
/// Who catches faster than this catches on the run, m/s. (assumed)
pub const ON_THE_RUN_M_S: f32 = 2.0;
/// A defender within this distance, centre to centre, has to be stepped round for a pass or a fake, m. (assumed)
pub const STEPS_ROUND_M: f32 = 1.5;

/// Coming to a stop after a catch on the run, mean catches. (assumed)
pub const STOP_COST: f32 = 1.5;
/// The first dribble, mean catches. (assumed)
pub const FIRST_DRIBBLE_COST: f32 = 1.5;
/// The gather of a shot off the dribble, mean catches. (assumed)
pub const GATHER_COST: f32 = 1.1;
/// A step round a man to pass or to show a pass, mean catches. (assumed)
pub const PIVOT_COST: f32 = 0.75;
