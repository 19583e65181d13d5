//! Which command was called, and with which options: for the rules that are the same for all of them.

use clap::parser::ValueSource;
use clap::{ArgMatches, Command};
use std::ffi::OsStr;
use std::path::PathBuf;

/// The innermost command that was called, `bakes new` and not `bakes`, with what was typed behind it.
pub(super) struct Called<'a> {
    /// Its name with those of the commands that it is one of, `bakes new`.
    pub(super) name: String,
    /// How it is defined.
    pub(super) command: &'a Command,
    matches: &'a ArgMatches,
}

impl<'a> Called<'a> {
    /// The command that was called by these arguments of the program.
    pub(super) fn of(program: &'a Command, matches: &'a ArgMatches) -> Called<'a> {
        let mut called = Called { name: String::new(), command: program, matches };
        while let Some((name, inner)) = called.matches.subcommand() {
            let Some(command) = called.command.find_subcommand(name) else { break };
            let gap = if called.name.is_empty() { "" } else { " " };
            called = Called { name: format!("{}{gap}{name}", called.name), command, matches: inner };
        }
        called
    }

    /// Whether an option was typed, by its name in the definition.
    pub(super) fn has(&self, id: &str) -> bool {
        self.matches.try_contains_id(id).is_ok_and(|is_there| is_there)
            && self.matches.value_source(id) == Some(ValueSource::CommandLine)
    }

    /// What was typed behind an option, where it is text; its usual value where nothing was.
    pub(super) fn value(&self, id: &str) -> Option<&'a str> {
        self.matches.try_get_raw(id).ok().flatten()?.next().and_then(OsStr::to_str)
    }

    /// Every file and folder that was named, with the name of its argument in the definition.
    pub(super) fn paths(&self) -> impl Iterator<Item = (&'a str, &'a PathBuf)> {
        let of = |id: &'a clap::Id| {
            let paths = self.matches.try_get_many::<PathBuf>(id.as_str()).ok().flatten();
            paths.into_iter().flatten().map(move |path| (id.as_str(), path))
        };
        self.matches.ids().flat_map(of)
    }
}
