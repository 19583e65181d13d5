//! Standard output and standard error: colour, width, and a reader that has gone away.

use super::Colour;
use crate::out::report::{self, clean, on_one_line};
use crate::out::text::{Style, broken, fold};
use crate::text::diagnostic::Diagnostic;
use crate::text::source::Sources;
use std::io::{self, IsTerminal, Write};

/// The most columns before a problem's message, but for the name of its check.
const BEFORE_MESSAGE: usize = 12;
/// The most columns before a problem's help: the frame behind the number of a line, and `help: `.
const BEFORE_HELP: usize = 14;
/// Words are broken into no fewer columns.
const LEAST: usize = 20;

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

    /// How text is laid out on standard output.
    pub(super) fn style(&self) -> Style {
        Style { width: self.width(), colour: self.colours_out(), on_screen: self.is_terminal() }
    }

    /// Prints words to standard output, on a screen broken between words.
    pub(super) fn print_words(&mut self, words: &str) {
        if self.is_terminal() { self.print(&fold(words, self.width())) } else { self.print(words) }
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
        let text = format!("miche: {}", on_one_line(text));
        let text = if io::stderr().is_terminal() { fold(&text, self.width()) } else { text };
        let _ = writeln!(io::stderr().lock(), "{text}");
    }

    /// Says what was done, on standard error.
    pub(super) fn tell(&self, text: &str) {
        let _ = writeln!(io::stderr().lock(), "{}", clean(text));
    }

    /// A problem as a compiler shows it; on a screen what it says and its help are broken between words. The frame keeps its crate's look.
    pub(super) fn problem(&self, sources: &Sources, problem: &Diagnostic, (colour, on_screen): (bool, bool)) -> String {
        let width = self.width();
        if !on_screen {
            return report::terminal::render(sources, problem, colour, width);
        }
        // What stands before the words: `warning[near-name]: `, and before help the frame.
        let broken = |words: &str, before: usize| broken(words, width.saturating_sub(before).max(LEAST)).join("\n");
        let message = broken(&problem.said(), problem.check.len() + BEFORE_MESSAGE);
        let help = problem.help.as_ref().map(|help| broken(help, BEFORE_HELP));
        report::terminal::render(
            sources,
            &Diagnostic { message, help, only: String::new(), ..problem.clone() },
            colour,
            width,
        )
    }

    /// Prints problems to standard error, each as a compiler shows it.
    pub(super) fn print_problem(&self, sources: &Sources, problem: &Diagnostic) {
        let look = (self.colours_err(), io::stderr().is_terminal());
        self.print_error_text(&format!("{}\n", self.problem(sources, problem, look)));
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
