//! motion
pub mod arrival;
pub mod kernel;
