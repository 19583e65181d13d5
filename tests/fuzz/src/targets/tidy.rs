//! A tidied text says the same, and there is nothing more to tidy in it; also when only some lines are tidied.

use miche::language::tidy::{LineRange, tidy};

/// One text.
pub fn run(text: &str) {
    let tidied = tidy(text, None).unwrap_or_else(|fault| panic!("{fault}\n{text:?}"));
    let again = tidy(&tidied, None);
    assert_eq!(again.as_deref(), Ok(tidied.as_str()), "tidied twice: {text:?}");
    let lines = text.lines().count();
    let range = LineRange { first: lines / 3 + 1, last: lines * 2 / 3 + 1 };
    tidy(text, Some(range)).unwrap_or_else(|fault| panic!("{range:?}: {fault}\n{text:?}"));
}
