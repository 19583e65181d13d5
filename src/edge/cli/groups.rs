//! The commands by the work they are for. The crate that reads the command line prints one flat list; the list here stands in
//! its place, its words taken from the commands themselves.

use clap::Command;
use std::fmt::Write;

/// The work, and the commands for it in the order in which they are needed.
const GROUPS: &[(&str, &[&str])] = &[
    ("Write", &["new", "tidy", "editor", "preview"]),
    ("Check", &["check", "aim", "explain"]),
    ("Make", &["card", "sums", "swap", "list", "stock"]),
    ("Plan", &["plan"]),
    ("Publish", &["book"]),
    ("Sell", &["label", "cost"]),
    ("Review", &["diff", "history", "bakes", "merge", "setup"]),
];

/// The command line with its help in groups.
pub(super) fn grouped(command: Command) -> Command {
    let (list, head) = (listed(&command), *command.get_styles().get_header());
    command.help_template(format!(
        "{{before-help}}{{about-with-newline}}\n{{usage-heading}} {{usage}}\n\n{list}{head}Options:{head:#}\n{{options}}{{after-help}}"
    ))
}

fn listed(command: &Command) -> String {
    let styles = command.get_styles();
    let (head, name) = (styles.get_header(), styles.get_literal());
    let longest = command.get_subcommands().map(|one| one.get_name().len()).max().unwrap_or(0);
    let mut list = String::new();
    for (work, names) in GROUPS {
        // Writing into a text takes everything.
        let _ = writeln!(list, "{head}{work}:{head:#}");
        for one in names.iter().filter_map(|name| command.find_subcommand(name)) {
            let about = one.get_about().map(ToString::to_string).unwrap_or_default();
            let _ = writeln!(list, "  {name}{:longest$}{name:#}  {about}", one.get_name());
        }
        list.push('\n');
    }
    list
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A new command has its place.
    #[test]
    fn every_command_stands_in_one_group() {
        let command = crate::edge::cli::command();
        let mut grouped: Vec<&str> = GROUPS.iter().flat_map(|(_, names)| *names).copied().collect();
        let mut all: Vec<&str> = command.get_subcommands().map(Command::get_name).collect();
        grouped.sort_unstable();
        all.sort_unstable();
        assert_eq!(grouped, all);
    }

    /// The list is not broken by the crate, since it does not know of it.
    #[test]
    fn the_list_fits_a_terminal_of_80_columns() {
        let plain = crate::edge::cli::command().styles(clap::builder::Styles::plain());
        for line in listed(&plain).lines() {
            assert!(line.chars().count() <= 80, "{line}");
        }
    }
}
