//! Why a command ends before it is done: it was told where it was found, or it is a sentence that is told at the end of the run.

use super::Outcome;
use super::output::Output;
use crate::edge::loader::Unreadable;
use crate::out::pdf::NoPdf;
use crate::out::report::clean;

/// Why a command ends before it is done.
#[derive(Debug)]
pub(super) enum Stop {
    /// It was told already.
    Told(Outcome),
    /// A sentence for who called the program: wrong use, or a file that cannot be read or written.
    Why(String),
}

/// How a command ended, or why it ended early.
pub(super) type Ended = Result<Outcome, Stop>;

impl Stop {
    /// Tells what is still to be told.
    pub(super) fn tell(self, output: &Output) -> Outcome {
        match self {
            Stop::Told(outcome) => outcome,
            Stop::Why(why) => {
                output.complain(&why);
                Outcome::Trouble
            }
        }
    }

    /// The sentence, for a page; empty where it was told already.
    pub(super) fn sentence(self) -> String {
        match self {
            Stop::Told(_) => String::new(),
            Stop::Why(why) => clean(&why).into_owned(),
        }
    }
}

impl From<Outcome> for Stop {
    fn from(outcome: Outcome) -> Stop {
        Stop::Told(outcome)
    }
}

impl From<String> for Stop {
    fn from(why: String) -> Stop {
        Stop::Why(why)
    }
}

impl From<&str> for Stop {
    fn from(why: &str) -> Stop {
        Stop::Why(why.to_owned())
    }
}

impl From<Unreadable> for Stop {
    fn from(unreadable: Unreadable) -> Stop {
        Stop::Why(unreadable.to_string())
    }
}

impl From<serde_json::Error> for Stop {
    fn from(error: serde_json::Error) -> Stop {
        Stop::Why(error.to_string())
    }
}

impl From<NoPdf> for Stop {
    fn from(none: NoPdf) -> Stop {
        Stop::Why(none.to_string())
    }
}
