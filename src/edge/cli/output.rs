//! Standard output and standard error: colour, width, and a reader that has gone away.

use super::Colour;
use crate::out::report::clean;
use std::io::{self, IsTerminal, Write};

/// Where a command prints.
pub(super) struct Output {
    colour: Colour,
    /// Whether nothing more can be printed.
    closed: bool,
    /// Why, unless the reader has gone away.
    failed: Option<io::Error>,
    /// Whether problems are left out, because somebody shows them otherwise.
    silent: bool,
}

impl Output {
    pub(super) fn new(colour: Colour) -> Output {
        Output { colour, closed: false, failed: None, silent: false }
    }

    /// An output that prints no problems.
    pub(super) fn silent() -> Output {
        Output { silent: true, ..Output::new(Colour::Never) }
    }

    /// Whether standard output is coloured.
    pub(super) fn colours_out(&self) -> bool {
        self.colours(io::stdout().is_terminal())
    }

    /// Whether somebody reads along.
    pub(super) fn is_terminal(&self) -> bool {
        io::stdout().is_terminal()
    }

    fn colours(&self, terminal: bool) -> bool {
        match self.colour {
            Colour::Always => true,
            Colour::Never => false,
            Colour::Auto => terminal && std::env::var_os("NO_COLOR").is_none_or(|value| value.is_empty()),
        }
    }

    /// How many columns there are to print in.
    pub(super) fn width(&self) -> usize {
        terminal_size::terminal_size().map_or(100, |(width, _)| usize::from(width.0)).clamp(40, 140)
    }

    /// Prints to standard output. A closed pipe (`| head`) is not a mistake: the rest is not printed.
    pub(super) fn print(&mut self, text: &str) {
        self.print_bytes(text.as_bytes());
    }

    /// Prints bytes to standard output.
    pub(super) fn print_bytes(&mut self, bytes: &[u8]) {
        if self.closed {
            return;
        }
        let mut out = io::stdout().lock();
        if let Err(error) = out.write_all(bytes).and_then(|()| out.flush()) {
            self.closed = true;
            self.failed = Some(error).filter(|error| error.kind() != io::ErrorKind::BrokenPipe);
        }
    }

    /// Why something could not be printed: a full disk, not a reader that has gone away.
    pub(super) fn failed(&self) -> Option<&io::Error> {
        self.failed.as_ref()
    }

    /// Says something on standard error, behind the program's name.
    pub(super) fn complain(&self, text: &str) {
        // Nobody may be listening; there is nothing else to tell them with.
        let _ = writeln!(io::stderr().lock(), "miche: {}", clean(text));
    }

    /// Says what was done, on standard error.
    pub(super) fn tell(&self, text: &str) {
        let _ = writeln!(io::stderr().lock(), "{}", clean(text));
    }

    /// Prints problems to standard error.
    pub(super) fn print_error_text(&self, text: &str) {
        if self.silent {
            return;
        }
        let _ = io::stderr().lock().write_all(text.as_bytes());
    }

    /// Whether standard error is coloured.
    pub(super) fn colours_err(&self) -> bool {
        self.colours(io::stderr().is_terminal())
    }
}
