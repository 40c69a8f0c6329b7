//! Laws of the world: pure functions and named constants. They know places, times and what people can do, and nothing of
//! any possession; every stage and every decision that needs one of them asks here.

pub mod arrival;
pub mod conduct;
pub mod contest;
pub mod flight;
pub mod floor;
pub mod gait;
pub mod kernel;
pub mod pass;
pub mod reach;
pub mod release;
pub mod respect;
pub mod shape;
pub mod shot;
pub mod solver;
