//! Laws of the world: pure functions and named constants. They know places, times and what people can do, and nothing of
//! any possession; every stage and every decision that needs one of them asks here.
//!
//! How bodies move is in [`kernel`] and how they push each other in [`solver`]; [`arrival`] is the kernel's answer to "how
//! long until he is there", [`gait`] what a team's bodies feed it. The ball: [`flight`] and [`pass`] (a pass in the air),
//! [`throw`] and [`release`] (how it leaves the hands), [`reach`] and [`deflection`] (hands that go for it), [`catching`],
//! [`handling`] and [`footwork`] (what begins with a catch, and what may go wrong), [`shot`], [`contest`], [`rebound`],
//! [`loose_ball`], [`ball_height`]. The floor and the zone on it: [`floor`], [`shape`], [`respect`],
//! [`sealing`].
//!
//! Every number of the world stands here under a name that says what it is, with its unit and where it comes from: a
//! source, `from memory`, `common practice, no source`, `assumed`, `computed` or `definition of the measures`.

pub mod arrival;
pub mod ball_height;
pub mod catching;
pub mod conduct;
pub mod contest;
pub mod counting;
pub mod deflection;
pub mod flight;
pub mod floor;
pub mod footwork;
pub mod gait;
pub mod handling;
pub mod kernel;
pub mod loose_ball;
pub mod officiating;
pub mod opening;
pub mod pass;
pub mod reach;
pub mod rebound;
pub mod release;
pub mod respect;
pub mod sealing;
pub mod shape;
pub mod shot;
pub mod solver;
pub mod sprint;
pub mod throw;

#[cfg(test)]
mod examples;
