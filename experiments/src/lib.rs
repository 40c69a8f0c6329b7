//! How it is asked: batches of possessions, statistics, tables, and the command line.
//!
//! The road of a run: [`cli`] -> a file's experiment -> [`run`] -> [`stats`] -> [`compare`] -> [`places`] -> [`output`] and [`report`].

pub mod app;
pub mod arena;
pub mod charting;
pub mod cli;
pub mod columns;
pub mod commands;
pub mod compare;
pub mod console;
pub mod crash;
pub mod design;
pub mod digest;
mod document;
pub mod duties;
pub mod effects;
pub mod error;
pub mod film;
pub mod gains;
pub mod kept;
pub mod layout;
pub mod lineups;
pub mod looks;
pub mod marks;
pub mod needed;
pub mod note;
mod open;
pub mod output;
pub mod picture;
pub mod places;
pub mod players;
pub mod progress;
pub mod records;
pub mod report;
pub mod row;
pub mod run;
pub mod scouting;
pub mod selection;
pub mod sentences;
pub mod sheet;
mod shell;
pub mod stats;
mod stop;
pub mod units;
pub mod verdict;
pub mod wording;
mod worth;
pub mod wrapping;

#[cfg(test)]
mod stub;
