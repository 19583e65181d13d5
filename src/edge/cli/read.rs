//! Values of options as they are read everywhere: dates and whole numbers, and how one that cannot be read is told.

use clap::error::{ContextKind, ContextValue, ErrorKind};
use jiff::civil::Date;
use std::error::Error;

/// Reads a date.
///
/// # Errors
/// What one looks like.
pub(super) fn date(text: &str) -> Result<Date, String> {
    text.trim().parse().map_err(|_| "this is not a date such as 2027-04-17".to_owned())
}

/// Reads a whole number, 0 among them.
///
/// # Errors
/// What one looks like.
pub(super) fn whole(text: &str) -> Result<u32, String> {
    text.trim().parse().map_err(|_| "this is not a whole number such as 1 or 12".to_owned())
}

/// Reads a whole number from 1 on.
///
/// # Errors
/// What one looks like.
pub(super) fn count(text: &str) -> Result<u32, String> {
    match whole(text)? {
        0 => Err("that is none; write 1 or more".to_owned()),
        number => Ok(number),
    }
}

/// Why a value of an option was refused, in the words that every command has for that: `--date foo: this is not a date …`. `None` for
/// any other mistake on the command line.
pub(super) fn refused(error: &clap::Error) -> Option<String> {
    let said = |kind: ContextKind| match error.get(kind)? {
        ContextValue::String(text) => Some(text.as_str()),
        _ => None,
    };
    let why = error.source().filter(|_| error.kind() == ErrorKind::ValueValidation)?;
    // The option is named with what it takes, `--date <YYYY-MM-DD>`.
    let option = said(ContextKind::InvalidArg)?.split(' ').next()?;
    Some(format!("{option} {}: {why}", said(ContextKind::InvalidValue)?))
}
