//! Experiments: batches, statistics, tables and the command line.
pub mod stats;
