//! Options that change nothing in the format that is asked for, or beside another option. They are told of and not refused: a script may
//! give the same paper with every format.

use super::called::Called;
use super::deliver::named_by;
use crate::measure::show;
use std::path::Path;

/// Options that are for some formats only.
struct Only {
    /// Of which commands.
    commands: &'static [&'static str],
    /// Only beside this option with this value; any value where that is empty.
    beside: Option<(&'static str, &'static str)>,
    /// The options, as the definition names them.
    options: &'static [&'static str],
    /// For which formats; for none where they change nothing.
    formats: &'static [&'static str],
}

/// How a page lies on paper.
const SHEET: &[&str] = &["paper", "orientation", "compact", "date"];
/// Formats in which a page is read, by somebody.
const READ: &[&str] = &["text", "markdown", "html", "pdf"];

/// The first that fits a command and an option is the one that counts.
const ALL: &[Only] = &[
    Only { commands: &["card"], beside: Some(("audience", "reader")), options: &["by"], formats: &[] },
    Only {
        commands: &["card"],
        beside: Some(("audience", "reader")),
        options: &["orientation", "date"],
        formats: &["pdf"],
    },
    Only { commands: &["label"], beside: Some(("sheet", "")), options: SHEET, formats: &[] },
    Only { commands: &["list"], beside: None, options: &["by"], formats: &[] },
    Only { commands: &["card", "list"], beside: None, options: SHEET, formats: &["html", "pdf"] },
    Only { commands: &["card"], beside: None, options: &["by"], formats: &["html", "pdf"] },
    Only { commands: &["plan"], beside: None, options: &["by", "what_if"], formats: READ },
    Only { commands: &["label"], beside: None, options: &["report"], formats: READ },
    Only {
        commands: &["aim", "bakes", "cost", "diff", "history", "label", "plan", "stock", "sums", "swap"],
        beside: None,
        options: SHEET,
        formats: &["pdf"],
    },
];

/// What was given and changes nothing, a sentence each.
pub(super) fn told(called: &Called<'_>) -> Vec<String> {
    let output = called.value("output").filter(|_| called.has("output"));
    let by_ending = output.map(|path| named_by(Path::new(path)));
    let said = called.value("format").filter(|_| called.has("format"));
    let mut told = Vec::new();
    if let (Some(output), Some(by_ending), Some(said)) = (output, &by_ending, said)
        && is_of_another(called, by_ending, said)
        // Markdown and tables are text, too.
        && by_ending != "text"
    {
        told.push(format!(
            "{output}: what is written is {said}, as --format says, though the name ends as that of {by_ending}"
        ));
    }
    let format = said.or(by_ending.as_deref()).unwrap_or("text");
    let mut seen: Vec<&str> = Vec::new();
    for only in ALL.iter().filter(|only| only.commands.contains(&called.name.as_str()) && only.is_meant(called)) {
        for option in only.options.iter().filter(|option| called.has(option)) {
            if !seen.contains(option) && !only.formats.contains(&format) {
                told.push(only.sentence(called, option));
            }
            seen.push(option);
        }
    }
    told
}

/// Whether both are formats of the command, and not the same.
fn is_of_another(called: &Called<'_>, by_ending: &str, said: &str) -> bool {
    let known = called.command.get_arguments().find(|one| one.get_id() == "format");
    let known = known.map(clap::Arg::get_possible_values).unwrap_or_default();
    by_ending != said && known.iter().any(|one| one.matches(by_ending, false))
}

impl Only {
    fn is_meant(&self, called: &Called<'_>) -> bool {
        self.beside.is_none_or(|(id, value)| called.has(id) && (value.is_empty() || called.value(id) == Some(value)))
    }

    fn sentence(&self, called: &Called<'_>, option: &str) -> String {
        let long = |id: &str| {
            let known = called.command.get_arguments().find(|one| one.get_id() == id).and_then(clap::Arg::get_long);
            format!("--{}", known.unwrap_or(id))
        };
        match (self.formats, self.beside) {
            ([], Some((id, value))) => {
                let gap = if value.is_empty() { "" } else { " " };
                format!("{} changes nothing beside {}{gap}{value}", long(option), long(id))
            }
            ([], None) => format!("{} changes nothing of a {}", long(option), called.name),
            (formats, _) => format!("{} is for {}: here it changes nothing", long(option), show::list(formats)),
        }
    }
}
