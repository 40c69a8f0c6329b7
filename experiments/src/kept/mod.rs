//! What is kept of a run beside its result: the texts that it was made from, and, until it is whole, what its blocks of
//! possessions came to.
//!
//! From the texts a result is made again ([`inputs`]). From blocks a run that was stopped goes on, and the shards of one
//! that was played in parts are put together ([`parts`]): totals are exact, so the bytes are those of a run that was
//! played at once.

pub mod build;
pub mod inputs;
pub(crate) mod part;
pub mod parts;
mod run_of;
pub mod shard;
pub mod shards;

pub use build::Build;
pub use inputs::{Input, sources};
pub use parts::Parts;
pub use run_of::{FORMAT, RunOf};
pub use shard::Shard;
