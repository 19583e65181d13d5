//! `miche preview`: cards, plans and problems in a browser, live as files are saved.
//!
//! One small server on this machine's own address. Files are only read; what is shown is made afresh for each state of the
//! folder (`view`), and a page is told when that state has changed (`watch`, `serve`).

mod doors;
mod guard;
mod last_good;
mod once;
mod page;
mod place;
mod serve;
mod source_page;
mod state;
mod view;
mod watch;
mod wire;

use super::Outcome;
use super::output::Output;
use super::stop::Ended;
use crate::edge::loader::reason;
use clap::Args;
use place::Place;
use std::net::{Ipv4Addr, SocketAddr, TcpListener};
use std::path::PathBuf;
use std::process::{Command, Stdio};
use std::sync::Arc;

/// What `preview` takes.
#[derive(Debug, Args)]
pub(super) struct Arguments {
    /// A recipe or a day, or a folder of them
    #[arg(value_name = "FILE|FOLDER", default_value = ".")]
    path: PathBuf,
    /// Open the page in the usual browser
    #[arg(long)]
    open: bool,
    /// The port on this machine; without it a free one
    #[arg(long, value_name = "N", default_value_t = 0, value_parser = super::read::port)]
    port: u16,
}

pub(super) fn run(arguments: &Arguments, output: &mut Output) -> Ended {
    start(arguments, output)?;
    Ok(Outcome::Fine)
}

fn start(arguments: &Arguments, output: &mut Output) -> Result<(), String> {
    let place = Place::of(&arguments.path)?;
    // Only this machine can reach it.
    let wanted = SocketAddr::from((Ipv4Addr::LOCALHOST, arguments.port));
    let listener = TcpListener::bind(wanted).map_err(|error| match error.kind() {
        std::io::ErrorKind::AddrInUse => {
            format!("--port {}: something else listens there; leave --port out to take a free one", arguments.port)
        }
        _ => format!("{wanted}: {}", reason(&error)),
    })?;
    let here = listener.local_addr().map_err(|error| reason(&error))?;
    let address = format!("http://{here}/{}", place.query());
    let state = Arc::new(state::State::new(place, here.port()));
    watch::start(&state, output);
    output.print(&format!("{address}\n"));
    output.tell("The page follows the files as they are saved. Ctrl-C ends it.");
    if arguments.open && !open_in_browser(&address) {
        output.tell("No browser could be started: open the address above in one.");
    }
    serve::run(listener, state)
}

/// Asks the system to open an address; `false` when there is nothing to ask.
fn open_in_browser(address: &str) -> bool {
    let asked: &[&str] = if cfg!(target_os = "macos") {
        &["open"]
    } else if cfg!(windows) {
        &["explorer"]
    } else {
        &["xdg-open"]
    };
    let Some((program, before)) = asked.split_first() else { return false };
    let mut command = Command::new(program);
    command.args(before).arg(address).stdin(Stdio::null()).stdout(Stdio::null()).stderr(Stdio::null());
    let Ok(mut child) = command.spawn() else { return false };
    // Somebody has to wait for it, so that it does not stay behind as a dead process.
    std::thread::spawn(move || child.wait());
    true
}
