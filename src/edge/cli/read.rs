//! Values of options as they are read everywhere: dates and whole numbers, and how one that cannot be read is told.

use crate::measure::show;
use clap::error::{ContextKind, ContextValue, ErrorKind};
use clap::{Arg, Command};
use jiff::civil::Date;
use std::error::Error;
use std::ffi::{OsStr, OsString};
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

/// Reads a port, 0 for any that is free.
///
/// # Errors
/// What one looks like.
pub(super) fn port(text: &str) -> Result<u16, String> {
    text.trim().parse().map_err(|_| "this is not a port from 0 to 65535, such as 8080".to_owned())
}

/// Why a value of an option was refused, in the words that every command has for that: `--date foo: this is not a date …`. `None` for
/// any other mistake on the command line.
pub(super) fn refused(error: &clap::Error) -> Option<String> {
    let said = |kind: ContextKind| match error.get(kind)? {
        ContextValue::String(text) => Some(text.as_str()),
        _ => None,
    };
    let why = match (error.kind(), error.source(), error.get(ContextKind::ValidValue)) {
        (ErrorKind::ValueValidation, Some(why), _) => why.to_string(),
        (ErrorKind::InvalidValue, _, Some(ContextValue::Strings(known))) => {
            let known: Vec<&str> = known.iter().map(String::as_str).collect();
            format!("there is none of that name; write one of {}", show::list(&known))
        }
        _ => return None,
    };
    // The option is named with what it takes, `--date <YYYY-MM-DD>`.
    let option = said(ContextKind::InvalidArg)?.split(' ').next()?;
    let value = said(ContextKind::InvalidValue).filter(|value| !value.is_empty())?;
    Some(format!("{option} {value}: {why}"))
}

/// What was typed, with a value below nothing joined to its option: of `--tin -1` clap would say that there is no option `-1`; so the
/// option's own reader tells what is wrong with it.
pub(super) fn with_minus(command: &Command, typed: Vec<OsString>) -> Vec<OsString> {
    let of_command = typed.iter().filter_map(|one| command.find_subcommand(one)).next();
    let all = command.get_opts().chain(of_command.into_iter().flat_map(Command::get_opts));
    let options: Vec<&Arg> = all.filter(|one| one.get_action().takes_values()).collect();
    let takes_value = |text: &str| {
        options.iter().any(|one| {
            one.get_long().is_some_and(|long| text.strip_prefix("--") == Some(long))
                || one.get_short().is_some_and(|short| text.strip_prefix('-') == Some(short.encode_utf8(&mut [0; 4])))
        })
    };
    let is_below_nothing = |text: &OsStr| {
        let rest = text.to_str().and_then(|text| text.strip_prefix('-'));
        rest.is_some_and(|rest| rest.trim_start_matches('.').starts_with(|c: char| c.is_ascii_digit()))
    };
    let mut joined: Vec<OsString> = Vec::with_capacity(typed.len());
    let mut rest = typed.into_iter();
    while let Some(mut one) = rest.next() {
        let next = rest.as_slice().first();
        if one == "--" {
            joined.push(one);
            break;
        }
        if one.to_str().is_some_and(takes_value) && next.is_some_and(|next| is_below_nothing(next)) {
            one.push("=");
            one.extend(rest.next());
        }
        joined.push(one);
    }
    joined.extend(rest);
    joined
}

/// Where what was taken for an option is the name of a file.
pub(super) fn file_with_dash(error: &clap::Error, typed: &[OsString]) -> Option<String> {
    let is_file =
        |text: &&OsString| text.as_encoded_bytes().starts_with(b"-") && text.len() > 1 && Path::new(text).is_file();
    let file = typed.iter().find(is_file).filter(|_| error.kind() == ErrorKind::UnknownArgument)?;
    let shown = Path::new(file).display().to_string();
    Some(format!("{shown}: what begins with `-` is read as an option; write `./{shown}`"))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::edge::cli::command;

    /// Of `--tin -1` clap said that there was no argument `-1`; which options take figures was listed by hand.
    #[test]
    fn no_value_of_any_option_is_taken_for_an_option() {
        let all = command();
        let mut seen = 0;
        for one in all.get_subcommands() {
            for option in one.get_opts().filter(|option| option.get_action().takes_values()) {
                let names = option.get_long().map(|long| format!("--{long}")).into_iter();
                for name in names.chain(option.get_short().map(|short| format!("-{short}"))) {
                    for value in ["-1", "-1 kg", "-.5", "-0:30"] {
                        let typed = ["miche", one.get_name(), &name, value, "a file", "-2"].map(OsString::from);
                        let joined = with_minus(&all, typed.to_vec());
                        let wanted = OsString::from(format!("{name}={value}"));
                        assert_eq!(joined, [&typed[..2], &[wanted], &typed[4..]].concat());
                        seen += 1;
                    }
                }
            }
        }
        assert!(seen > 200, "{seen}");
    }

    #[test]
    fn what_is_no_value_stays_by_itself() {
        for typed in [
            &["miche", "card", "--pieces", "--times"][..],
            &["miche", "card", "--ahead", "-1"],
            &["miche", "card", "--", "--pieces", "-1"],
            &["miche", "card", "--pieces"],
            &["miche", "nothing", "--pieces", "-1"],
            &["miche", "card", "--pieces=3", "-1"],
        ] {
            let typed: Vec<OsString> = typed.iter().map(OsString::from).collect();
            assert_eq!(with_minus(&command(), typed.clone()), typed);
        }
    }
}
