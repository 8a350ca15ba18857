//! `weekwright open`: the coach's page over a folder, on this machine alone.

mod folder;
mod listing;
#[cfg(feature = "book")]
mod records;

use std::fmt::Write as _;
use std::net::{Ipv4Addr, TcpListener};
use std::path::Path;
use std::process::{Command, Stdio};
use std::sync::Arc;
use std::time::Duration;

use axum::serve::ListenerExt as _;
use tokio::sync::Notify;

use super::args::OpenArgs;
use super::output::Console;
use super::{Exit, Failure, files};
use crate::diagnostic::{Diagnostic, Label};
use crate::page::{self, Desk};
use crate::planner::Planner;
pub use folder::Folder;

/// Threads for files and searches.
const WORKERS: usize = 16;

/// How long a request may still run after the end was asked for.
const LAST_ANSWERS: Duration = Duration::from_secs(3);

pub(super) fn run(arguments: &OpenArgs, console: &Console) -> Result<Exit, Failure> {
    let planner = Planner::new(files::load_catalog(arguments.catalog.as_deref())?);
    let folder = Folder::open(&arguments.folder, planner.clone())
        .map_err(|fault| Failure::Faults((*fault).into()))?;
    let listener = TcpListener::bind((Ipv4Addr::LOCALHOST, arguments.port.unwrap_or(0)));
    let listener = listener.map_err(|error| taken(arguments.port, &error))?;
    let port = listener.local_addr().map_err(|error| taken(arguments.port, &error))?.port();
    let token = token().map_err(|error| no_secret(&error))?;
    let address = format!("http://127.0.0.1:{port}/?token={token}");
    let desk = Arc::new(Desk::new(Box::new(folder), planner, token, port));
    console.print(&format!("{address}\n"))?;
    console.note("Ctrl-C ends it. The address is a key: whoever has it on this machine may look.");
    if !arguments.no_browser {
        browse(&address);
    }
    served(listener, desk).map_err(|error| taken(Some(port), &error))?;
    Ok(Exit::Done)
}

/// Answers until the end is asked for.
fn served(listener: TcpListener, desk: Arc<Desk>) -> std::io::Result<()> {
    listener.set_nonblocking(true)?;
    let mut builder = tokio::runtime::Builder::new_current_thread();
    let runtime = builder.enable_all().max_blocking_threads(WORKERS).build()?;
    let end = Arc::new(Notify::new());
    let asked = Arc::clone(&end);
    // A second handler in this process does not matter: the first one ends the program all the same.
    let _ = ctrlc::set_handler(move || asked.notify_one());
    let outcome = runtime.block_on(async {
        let listener = tokio::net::TcpListener::from_std(listener)?;
        // The end of a page does not wait for a word that its beginning came.
        let listener = listener.tap_io(|connection| drop(connection.set_nodelay(true)));
        let answering = axum::serve(listener, page::router(desk)).into_future();
        // A browser keeps its connections open; what is under way gets some seconds below.
        tokio::select! {
            outcome = answering => outcome,
            () = end.notified() => Ok(()),
        }
    });
    runtime.shutdown_timeout(LAST_ANSWERS);
    outcome
}

/// A secret that nobody guesses: 128 bits from the system.
fn token() -> Result<String, getrandom::Error> {
    let mut bytes = [0_u8; 16];
    getrandom::fill(&mut bytes)?;
    let mut text = String::new();
    for byte in bytes {
        let _ = write!(text, "{byte:02x}");
    }
    Ok(text)
}

/// Shows the page; where no browser is found, the printed address does it too.
fn browse(address: &str) {
    let opener = if cfg!(target_os = "macos") {
        "open"
    } else if cfg!(windows) {
        "explorer"
    } else {
        "xdg-open"
    };
    let mut command = Command::new(opener);
    command.arg(address).stdin(Stdio::null()).stdout(Stdio::null()).stderr(Stdio::null());
    let _ = command.spawn();
}

/// E5004: somebody else listens there.
fn taken(port: Option<u16>, error: &std::io::Error) -> Failure {
    let where_to = port.map_or_else(|| "any port".to_owned(), |port| format!("port {port}"));
    let fault = Diagnostic::error("E5004", format!("{where_to} cannot be used: {error}"))
        .at(Label::whole("127.0.0.1"))
        .help("leave out `--port` for one that is free, or name another");
    Failure::Unwritten(fault)
}

/// E5005: without a secret the page would be open to every program on the machine.
fn no_secret(error: &getrandom::Error) -> Failure {
    Failure::Unwritten(
        Diagnostic::error("E5005", format!("the system gives no random numbers: {error}"))
            .at(Label::whole("the page's key"))
            .help("plan with `weekwright plan` meanwhile"),
    )
}

/// The desk of a folder with a secret that is known, for tests.
///
/// # Errors
/// A folder that is none.
pub fn desk(folder: &Path, token: &str, port: u16) -> Result<Desk, Box<Diagnostic>> {
    let planner = Planner::built_in();
    let folder = Folder::open(folder, planner.clone())?;
    Ok(Desk::new(Box::new(folder), planner, token.to_owned(), port))
}
