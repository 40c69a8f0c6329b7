//! The `zoneprobe` command.
fn main() {}
