//! Holds no code: the promises live in the test binary (`main.rs`).
