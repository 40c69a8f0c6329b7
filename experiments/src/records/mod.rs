//! Records: a row a possession and variant, and a row an event, in Parquet files for other programs.
//!
//! While a run plays, each batch of possessions is written aside as it comes ([`spool`]), in files of the run's blocks, so
//! that memory does not grow with the possessions and a stopped run goes on. Once all are there they are put together in
//! plan order ([`assemble`]), in pieces of fixed possession numbers: neither threads, batches, a stop nor shards can be seen in
//! the bytes. What the columns are is said once ([`tables`]); they are read back by [`read`], and [`filter`] picks possessions by
//! what happened.

pub mod assemble;
pub mod filter;

mod layout;
pub mod read;

mod reference;
mod row;
pub mod spool;
pub mod tables;
mod typed;
mod writer;

use std::fmt;

use clap::ValueEnum;
use serde::{Deserialize, Serialize};

pub use layout::{EVENTS, Layout, POSSESSIONS, encoded};
pub use reference::reference;
pub use row::Recorded;
pub use tables::known;

/// What is recorded of each possession.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, ValueEnum)]
#[serde(rename_all = "kebab-case")]
pub enum Records {
    /// A row a possession and variant (possessions.parquet).
    Possessions,
    /// The same, and a row an event (events.parquet).
    Events,
}

impl fmt::Display for Records {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Possessions => "possessions",
            Self::Events => "events",
        })
    }
}
