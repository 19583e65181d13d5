//! Values of options as they are read everywhere: dates and whole numbers, and how one that cannot be read is told.

use clap::Command;
use clap::error::{ContextKind, ContextValue, ErrorKind};
use jiff::civil::Date;
use std::error::Error;
use std::ffi::OsString;
use std::path::Path;

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

/// What options are called that take a figure.
const FIGURES: &[&str] = &["COUNT", "DEGREES", "MASS", "N", "PERCENT", "PIECES", "TEMP", "TIME", "X"];

/// A command of which the options that take a figure take one with a minus sign too.
pub(super) fn figures(command: Command) -> Command {
    command.mut_args(|one| {
        let is_figure =
            one.get_value_names().is_some_and(|names| names.iter().any(|name| FIGURES.contains(&name.as_str())));
        if is_figure && one.get_long().is_some() { one.allow_hyphen_values(true) } else { one }
    })
}

/// Where what was taken for an option is the name of a file.
pub(super) fn file_with_dash(error: &clap::Error, typed: &[OsString]) -> Option<String> {
    let is_file =
        |text: &&OsString| text.as_encoded_bytes().starts_with(b"-") && text.len() > 1 && Path::new(text).is_file();
    let file = typed.iter().find(is_file).filter(|_| error.kind() == ErrorKind::UnknownArgument)?;
    let shown = Path::new(file).display().to_string();
    Some(format!("{shown}: what begins with `-` is read as an option; write `./{shown}`"))
}
