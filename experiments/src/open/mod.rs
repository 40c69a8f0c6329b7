//! The page: a local server for one person at this machine, for those who will not type.
//!
//! What is chosen becomes files ([`written`]) that the loader reads; they are played block by block ([`play`]) until it is sure or
//! as often as was asked for, kept as a run that was stopped keeps them, and the command line itself makes the result of them ([`live`]). So what is saved from the
//! page is what the command would have written, byte for byte. Who may use it: [`guard`].

mod app;
mod choice;
mod choices;
mod fields;
mod first;
mod form;
mod guard;
mod live;
mod outcome;
mod pages;
mod play;
mod routes;
mod save;
mod thumbs;
mod usual;
mod written;
mod zones;

use std::net::{Ipv4Addr, TcpListener};
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::time::Duration;

use crate::cli::OpenOptions;
use crate::console::Console;
use crate::error::Error;
use crate::output::give_up;
use crate::stop;

use app::App;
use guard::Guard;

pub(crate) use play::Stage;

/// How often it is looked whether the program is to end.
const PERIOD: Duration = Duration::from_millis(50);
/// How long runs may take to hear that it is.
const PATIENCE: Duration = Duration::from_secs(20);

/// Serves the page until it is told to end.
///
/// # Errors
/// No port, no random numbers, no temporary folder.
pub fn serve(options: &OpenOptions, console: &mut Console) -> Result<(), Error> {
    let ended = Arc::new(AtomicBool::new(false));
    stop::leave_to(&ended);
    let cannot = |what: &str, error: &dyn std::fmt::Display| Error::Page(format!("{what}: {error}"));
    let listener =
        TcpListener::bind((Ipv4Addr::LOCALHOST, 0)).map_err(|error| cannot("no port is free", &error))?;
    let port = listener.local_addr().map_err(|error| cannot("no port is known", &error))?.port();
    listener.set_nonblocking(true).map_err(|error| cannot("the port cannot be used", &error))?;
    let guard = Guard::new(port).map_err(|error| cannot("the system has no random numbers", &error))?;
    let address = guard.address();
    let app = Arc::new(App::new(guard, options.threads, Arc::clone(&ended))?);
    let runtime = tokio::runtime::Builder::new_current_thread().enable_io().enable_time().build();
    let runtime = runtime.map_err(|error| cannot("the server cannot start", &error))?;
    console.print(&format!("{address}\n"))?;
    if !options.no_browser && ::open::that_detached(&address).is_err() {
        console.say("no browser could be started: open this address in one\n");
    }
    if !options.quiet {
        console.say("the page is for this machine alone; it ends by its button or by Ctrl-C\n");
    }
    let served = runtime.block_on(async {
        let listener = tokio::net::TcpListener::from_std(listener)?;
        tokio::select! {
            served = axum::serve(listener, routes::router(&app)) => served,
            () = told_to(&ended) => Ok(()),
        }
    });
    // Connections go with it, and by that runs hear that nobody listens.
    runtime.shutdown_timeout(PATIENCE);
    give_up();
    served.map_err(|error| cannot("the server broke down", &error))
}

/// Waits until the program is told to end.
async fn told_to(ended: &AtomicBool) {
    while !ended.load(Ordering::Relaxed) {
        tokio::time::sleep(PERIOD).await;
    }
}
