//! Holds no code: the promise lives in its test binary (`no_alloc.rs`).
