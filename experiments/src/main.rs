//! The `zoneprobe` command.
use experiments::{app, console::Console};

fn main() -> std::process::ExitCode {
    Console::of_process(|console| app::run(std::env::args_os(), console)).into()
}
