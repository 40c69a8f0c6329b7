//! contact
pub mod solver;
