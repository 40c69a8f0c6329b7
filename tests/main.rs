//! Promises that cross crates. Each module is one promise.
mod probe;
