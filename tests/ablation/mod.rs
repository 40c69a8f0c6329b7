//! Promise: a mechanism switched off takes the effects claimed for it with it.
//!
//! Each effect is a difference between two setups or scenes, measured with the mechanism and again without it, in the
//! same possessions, and looked at once. With it the effect must be there at 99 %; without it the whole 99 % interval of
//! what is left must lie within a quarter of the lower end of the effect's. A claim that is expected to fail must be refuted at the same level, and
//! one that can be neither shown nor refuted is called open: every line of the table is held. Mechanisms are
//! switched off by values of ordinary data and nothing else. The table is a study (`tests/studied.rs`).
//!
//! What it has caught: a pass fake gains the receiver nothing, since the bite is over before the pass leaves the hands.

mod contact; // bodies are in the way
mod fakes; // who bites leans
mod help; // who comes to the low post once the near back is out
mod row; // a mechanism, its effect, and when the claim holds
mod sight; // nobody goes round what he does not see
mod table; // all effects in one table
mod talk; // who sees a cutter tells who does not
