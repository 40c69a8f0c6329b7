//! Scenario files and the loader that checks them.
