//! Holds no code: the promises live in the test binaries (`main.rs`, `no_alloc.rs`).
