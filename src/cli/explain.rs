//! `miche explain`: what a check means, why, and how to mend it.

use super::Outcome;
use super::output::Output;
use crate::check::{self, Check, Family};
use crate::parse::nearest;
use clap::Args;
use std::fmt::Write;

/// What `explain` takes.
#[derive(Debug, Args)]
pub(super) struct Arguments {
    /// The name of a check; without it all are listed
    #[arg(value_name = "CHECK")]
    check: Option<String>,
}

pub(super) fn run(arguments: &Arguments, output: &mut Output) -> Outcome {
    let Some(name) = &arguments.check else {
        output.print(&list());
        return Outcome::Fine;
    };
    if let Some(check) = check::find(name) {
        output.print(&explain(check));
        return Outcome::Fine;
    }
    let near = nearest(name, check::ALL.iter().map(|check| check.name));
    let hint =
        near.map_or_else(|| "`miche explain` lists all of them".to_owned(), |near| format!("did you mean `{near}`?"));
    output.complain(&format!("there is no check `{name}`; {hint}"));
    Outcome::Trouble
}

/// All checks by family.
fn list() -> String {
    let mut families: Vec<Family> = check::ALL.iter().map(|check| check.family).collect();
    families.sort_unstable();
    families.dedup();
    let width = check::ALL.iter().map(|check| check.name.len()).max().unwrap_or(0);
    let mut text = String::new();
    for family in families {
        let _ = writeln!(text, "{}", family.title());
        for check in check::ALL.iter().filter(|check| check.family == family) {
            let _ = writeln!(text, "  {:width$}  {:7}  {}", check.name, check.severity.word(), check.looks_for);
        }
        text.push('\n');
    }
    text
}

fn explain(check: &Check) -> String {
    let mut text = String::new();
    let _ = writeln!(text, "{} ({})\n", check.name, check.severity.word());
    let _ = writeln!(text, "Looks for {}.\n", check.looks_for);
    let _ = writeln!(text, "{}", check.why);
    for (title, example) in [("Found in", check.bad), ("Not found in", check.good)] {
        if !example.is_empty() {
            let _ = writeln!(text, "\n{title}:\n");
            for line in example.lines() {
                let _ = writeln!(text, "    {line}");
            }
        }
    }
    for source in check.sources {
        let _ = write!(text, "\nSource: {source}");
    }
    if !check.sources.is_empty() {
        text.push('\n');
    }
    text
}
