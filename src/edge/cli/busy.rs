//! A word for who waits: what takes longer than a moment says on a terminal that it is at work, and nowhere else.

use indicatif::{ProgressBar, ProgressStyle};
use std::io::IsTerminal;
use std::sync::mpsc::{RecvTimeoutError, Sender, channel};
use std::thread::JoinHandle;
use std::time::Duration;

/// What is done sooner needs no word.
const MOMENT: Duration = Duration::from_millis(700);

/// Work that may take long. The word goes away with it.
#[derive(Debug)]
pub(super) struct Busy {
    /// Kept only to be dropped, and the thread that says the word.
    done: Option<(Sender<()>, JoinHandle<()>)>,
}

impl Busy {
    /// Begins some work.
    pub(super) fn with(what: String) -> Busy {
        if !std::io::stderr().is_terminal() {
            return Busy { done: None };
        }
        let (sender, waiting) = channel::<()>();
        let say = move || {
            if waiting.recv_timeout(MOMENT) != Err(RecvTimeoutError::Timeout) {
                return;
            }
            let shown = ProgressBar::new_spinner().with_message(what);
            if let Ok(style) = ProgressStyle::with_template("{spinner} {msg}, {elapsed}") {
                shown.set_style(style);
            }
            shown.enable_steady_tick(Duration::from_millis(150));
            // Ends when the other end goes away.
            let _ = waiting.recv();
            shown.finish_and_clear();
        };
        let thread = std::thread::Builder::new().spawn(say);
        Busy { done: thread.ok().map(|thread| (sender, thread)) }
    }
}

impl Drop for Busy {
    fn drop(&mut self) {
        if let Some((sender, thread)) = self.done.take() {
            drop(sender);
            // What was to be said is cleared before anything else is printed; a thread that fell over says nothing more.
            let _ = thread.join();
        }
    }
}
