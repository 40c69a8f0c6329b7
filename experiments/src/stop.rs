//! How a run is stopped from outside: by Ctrl-C, by the system, by a terminal that goes away.
//!
//! The first signal ends the program as soon as nothing half-written is left, whatever the workers are at: what they
//! play leaves no trace but in the result. A second one ends it at once.

use std::io::Write;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, Once};
use std::time::Duration;
use std::{io, process, thread};

use scenarios::shown_path;
use signal_hook::consts::signal::{SIGINT, SIGTERM};
use signal_hook::flag;

use crate::error::Exit;
use crate::output::{Left, give_up};
use crate::progress;
use crate::wording::grouped;

/// A signal is heard after so long at most.
const PERIOD: Duration = Duration::from_millis(50);

/// Whether somebody listens already.
static LISTENING: Once = Once::new();

/// Signals are heard by who calls this, and by nobody here: `asked` is set once one has come, and a second one ends the
/// program at once.
pub(crate) fn leave_to(asked: &Arc<AtomicBool>) {
    LISTENING.call_once(|| register(asked));
}

/// From now on a signal ends the program in order.
pub(crate) fn listen() {
    LISTENING.call_once(|| {
        let asked = Arc::new(AtomicBool::new(false));
        let heard = Arc::clone(&asked);
        let ear = thread::Builder::new().name("stop".into()).spawn(move || {
            while !heard.load(Ordering::Relaxed) {
                thread::sleep(PERIOD);
            }
            stop()
        });
        // Without an ear a signal still ends the program, only less gracefully.
        if ear.is_err() {
            return;
        }
        register(&asked);
    });
}

/// The first signal is noted, the second one ends the program.
fn register(asked: &Arc<AtomicBool>) {
    for signal in signals() {
        // In this order: the first signal finds nothing noted, the second one does.
        let _ = flag::register_conditional_shutdown(signal, Exit::Failed as i32, Arc::clone(asked));
        let _ = flag::register(signal, Arc::clone(asked));
    }
}

/// What ends a run in order.
fn signals() -> Vec<i32> {
    let mut signals = vec![SIGINT, SIGTERM];
    #[cfg(unix)]
    if !is_deaf_to_hangup() {
        signals.push(signal_hook::consts::signal::SIGHUP);
    }
    signals
}

/// Whether the program was started so that it outlives its terminal (`nohup`), as far as the system tells.
#[cfg(unix)]
fn is_deaf_to_hangup() -> bool {
    let status = std::fs::read_to_string("/proc/self/status").unwrap_or_default();
    let ignored = status.lines().find_map(|line| line.strip_prefix("SigIgn:"));
    let ignored = ignored.and_then(|mask| u64::from_str_radix(mask.trim(), 16).ok()).unwrap_or(0);
    ignored >> (signal_hook::consts::signal::SIGHUP - 1) & 1 == 1
}

fn stop() -> ! {
    let left = give_up();
    let so_far = progress::so_far().map_or_else(String::new, |so_far| format!(" {so_far}"));
    let left = match left {
        Left::Nothing => "nothing was written".into(),
        Left::Written(folder) => format!("the result had been written to {}", shown_path(&folder)),
        Left::Kept(kept) => format!(
            "{} of each are kept in {}: the same command with --resume goes on with them",
            grouped(kept.possessions),
            shown_path(&kept.folder)
        ),
    };
    // Nobody listening is no fault.
    let _ = io::stderr().write_all(format!("zoneprobe: stopped{so_far}; {left}\n").as_bytes());
    process::exit(Exit::Failed as i32)
}
