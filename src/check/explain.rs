//! A check in words: for `miche explain`, and for the page of all checks.

use super::{ALL, Check, Family, Run, example_files};
use crate::text::capital::capital;
use std::fmt::Write;

/// Checks of which some problems are graver or milder than the others, and which those are.
const OTHERWISE: &[(&str, &str)] = &[
    ("bath-stays-in", "error where lye would be eaten, advice where dry food takes its water up"),
    ("hot-or-caustic", "warning where a bath is stronger than any that food is dipped in"),
    ("loose-step", "warning where nothing waits for a step"),
    ("near-clause", "error where an amount stands behind the words, or a clause lacks its figure"),
    ("never-used", "error where nothing is made on a day"),
    ("no-sign", "advice for mixing, ripening and proving"),
    ("not-listed", "advice where no verb puts it in, or it brings no allergen and has no amount"),
    ("odd-percent", "warning for salt and dried yeast of more than 5 %"),
    ("odd-temperature", "warning where it kills what is alive"),
    ("percent-without-base", "advice where a weight stands beside the percentage"),
    ("too-fine-for-scale", "advice where no kitchen says what the scale shows"),
    ("twice-named", "advice for two orders of a day that are word for word the same"),
    ("two-amounts-disagree", "warning up to 3 % beyond the rounding, or through what the larder says"),
    ("yield-does-not-add-up", "warning up to three points"),
];

/// How much a check matters, in words: usually, and where it is otherwise.
pub fn severity_in_words(check: &Check) -> String {
    let usual = check.severity.word();
    let otherwise = OTHERWISE.iter().find(|(name, _)| *name == check.name);
    otherwise.map_or_else(|| usual.to_owned(), |(_, otherwise)| format!("{usual}; {otherwise}"))
}

/// The families in order, each with its checks.
fn by_family() -> Vec<(Family, Vec<&'static Check>)> {
    let mut families: Vec<Family> = ALL.iter().map(|check| check.family).collect();
    families.sort_unstable();
    families.dedup();
    let of = |family: Family| ALL.iter().copied().filter(|check| check.family == family).collect();
    families.into_iter().map(|family| (family, of(family))).collect()
}

/// So many letters of what a check looks for stand beside its name.
const SHORT: usize = 90;

/// What a check looks for, in its first words: `miche explain NAME` has the whole.
fn in_short(looks_for: &str) -> String {
    let first = looks_for.split_once([':', ';']).map_or(looks_for, |(first, _)| first);
    let end = first.char_indices().nth(SHORT).map_or(first.len(), |(at, _)| at);
    let short = first.get(..end).filter(|_| end < first.len()).and_then(|start| start.rsplit_once(", "));
    short.map_or_else(|| first.to_owned(), |(short, _)| format!("{short} …"))
}

/// All checks by family, a line each.
pub fn list() -> String {
    let width = ALL.iter().map(|check| check.name.len()).max().unwrap_or(0);
    let mut text = String::new();
    for (family, checks) in by_family() {
        let _ = writeln!(text, "{}", family.title());
        for check in checks {
            let _ =
                writeln!(text, "  {:width$}  {:7}  {}", check.name, check.severity.word(), in_short(check.looks_for));
        }
        text.push('\n');
    }
    text
}

/// One check as plain text.
pub fn explain(check: &Check) -> String {
    let mut text = String::new();
    let _ = writeln!(text, "{} ({})\n", check.name, severity_in_words(check));
    let _ = writeln!(text, "Looks for {}.\n", check.looks_for);
    let _ = writeln!(text, "{}", check.why);
    for (title, example) in [("Found in", check.bad), ("Not found in", check.good)] {
        let _ = writeln!(text, "\n{title}{}:", by(check));
        for (at, (name, file)) in example_files(example).iter().enumerate() {
            if at > 0 {
                let _ = writeln!(text, "\nwith `{name}` beside it:");
            }
            text.push('\n');
            for line in visible(file).lines() {
                let _ = writeln!(text, "    {line}");
            }
        }
        text.push_str(&signs(example));
    }
    for source in check.sources {
        let _ = write!(text, "\nSource: {source}");
    }
    if !check.sources.is_empty() {
        text.push('\n');
    }
    text
}

/// The page of all checks, `grammar/CHECKS.md`.
pub fn page() -> String {
    let mut text = String::from(
        "# What is checked\n\n\
         This page is written by the program from the text of `miche explain`; do not change it by hand.\n\n\
         An *error* means that the formula cannot be right: no card is made from it. A *warning* is probably not what was \
         meant. *Advice* is worth knowing, and nothing is wrong with the file. What is asked of a kitchen is advice where no file says \
         which kitchen it is, and a home kitchen is assumed.\n\n\
         A comment on a line of its own keeps one check quiet on the next line, with a reason:\n\n\
         ```\n# allow odd-percent: a salt crust, not a dough\nsalt ............. 45 %\n```\n\n\
         `miche check --allow CHECK` keeps it quiet for one run. `miche check --fix` makes the mends that are certain.\n",
    );
    for (family, checks) in by_family() {
        let _ = writeln!(text, "\n## {}\n\n| check | | looks for |\n| --- | --- | --- |", family.title());
        for check in &checks {
            let name = check.name;
            let looks_for = check.looks_for.replace('|', "\\|");
            let _ = writeln!(text, "| [`{name}`](#{name}) | {} | {looks_for} |", check.severity.word());
        }
        for check in &checks {
            text.push_str(&section(check));
        }
    }
    text
}

fn section(check: &Check) -> String {
    let mut text = String::new();
    let _ = writeln!(
        text,
        "\n### {}\n\n*{}.* Looks for {}.\n",
        check.name,
        capital(&severity_in_words(check)),
        check.looks_for
    );
    let _ = writeln!(text, "{}", check.why);
    for (title, example) in [("Found in", check.bad), ("Not found in", check.good)] {
        let _ = writeln!(text, "\n{title}{}:", by(check));
        for (at, (name, file)) in example_files(example).iter().enumerate() {
            if at > 0 {
                let _ = writeln!(text, "\nwith `{name}` beside it:");
            }
            let file = visible(file);
            let line_break = if file.ends_with('\n') { "" } else { "\n" };
            let _ = writeln!(text, "\n```\n{file}{line_break}```");
        }
        text.push_str(&signs(example));
    }
    if !check.sources.is_empty() {
        let _ = writeln!(text, "\nSources: {}.", check.sources.join("; "));
    }
    text
}

/// With which command an example is tried, where `check FILE` by itself does not tell.
fn by(check: &Check) -> String {
    match check.run {
        Run::Command(command) => format!(", by `{command}`"),
        _ => String::new(),
    }
}

/// That what is written out in an example stands for a character that could not be seen.
fn signs(example: &str) -> String {
    let mut hidden: Vec<char> = example.chars().filter(|letter| is_written_out(*letter)).collect();
    hidden.sort_unstable();
    hidden.dedup();
    let said = hidden.iter().map(|letter| format!("\n`{}` stands for that one character.\n", written_out(*letter)));
    said.collect()
}

fn is_written_out(letter: char) -> bool {
    crate::text::hidden::is_hidden(letter) && letter != '\n'
}

fn written_out(letter: char) -> String {
    format!("<U+{:04X}>", u32::from(letter))
}

/// An example with the characters written out that could not be seen.
fn visible(example: &str) -> String {
    let mut text = String::with_capacity(example.len());
    for letter in example.chars() {
        if is_written_out(letter) {
            text.push_str(&written_out(letter));
        } else {
            text.push(letter);
        }
    }
    text
}
