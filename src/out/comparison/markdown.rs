//! Changes as Markdown for a review comment: the facts first, a table a part, the words folded away.

use super::{Changes, Run, amount, bracketed, by_how_much, words};
use crate::figures::compare::{Change, Comparison, Figure, PartChange, StepChange, TextChange};
use crate::out::markdown::escaped;
use std::fmt::Write;

/// Renders the changes of all files.
pub fn render(all: &[Changes]) -> String {
    let mut out = String::new();
    for changes in all {
        file(&mut out, changes);
    }
    out
}

fn file(out: &mut String, changes: &Changes) {
    let comparison = &changes.comparison;
    let was = comparison.was.as_ref().map_or(String::new(), |was| format!(" (was {})", escaped(was)));
    let _ = writeln!(out, "## {}{was}\n", escaped(&comparison.recipe));
    if changes.is_empty() {
        let _ = writeln!(out, "{}\n", super::text::nothing(changes));
    } else {
        comparison_body(out, comparison);
    }
}

fn comparison_body(out: &mut String, comparison: &Comparison) {
    for allergen in &comparison.allergens_gained {
        let _ = writeln!(out, "> **Allergen gained: {}**\n", escaped(allergen));
    }
    for allergen in &comparison.allergens_lost {
        let _ = writeln!(out, "> **Allergen no longer in it: {}**\n", escaped(allergen));
    }
    if let Some(factor) = comparison.rescaled {
        let _ = writeln!(out, "- every amount is **{} times** what it was", crate::measure::show::number(factor));
    }
    for part in &comparison.parts {
        summary(out, part);
    }
    for figure in comparison.head.iter().chain(&comparison.plan) {
        let _ = writeln!(out, "- {}", figure_line(figure));
    }
    for (check, message) in &comparison.problems_raised {
        let _ = writeln!(out, "- **new problem** ({check}): {}", escaped(message));
    }
    for (check, message) in &comparison.problems_cleared {
        let _ = writeln!(out, "- problem gone ({check}): {}", escaped(message));
    }
    texts(out, &comparison.texts);
    if !out.ends_with("\n\n") {
        out.push('\n');
    }
    for part in &comparison.parts {
        part_body(out, part);
    }
}

fn texts(out: &mut String, texts: &[TextChange]) {
    for TextChange { change, kind, text } in texts {
        let _ = writeln!(out, "- {} {}: {}", kind.word(), change.word(), escaped(text));
    }
}

/// The figures that stand at the top, and there only.
const FIRST: [&str; 5] = ["hydration", "salt on flour", "prefermented flour", "piece weight", "total"];

/// What a baker asks first, in one line: `dough: hydration 65 % → 70 %, piece weight 842 g → 870 g`.
fn summary(out: &mut String, part: &PartChange) {
    let side = |text: &str| if text.is_empty() { "nothing".to_owned() } else { escaped(text) };
    let named =
        |name: &&str| part.figures.iter().filter(move |figure| figure.figure == *name).collect::<Vec<&Figure>>();
    let fact = |figure: &Figure| {
        let only = escaped(&bracketed(&figure.only));
        format!("{}{only} {} → {}", figure.figure, side(&figure.old), side(&figure.new))
    };
    let facts: Vec<String> = FIRST.iter().flat_map(named).map(fact).collect();
    if part.change == Change::Changed && !facts.is_empty() {
        let only = escaped(&bracketed(&part.only));
        let _ = writeln!(out, "- **{}**{only}: {}", escaped(&part.name), facts.join(", "));
    }
}

fn figure_line(figure: &Figure) -> String {
    let side = |text: &str| if text.is_empty() { "nothing".to_owned() } else { format!("**{}**", escaped(text)) };
    {
        let only = escaped(&bracketed(&figure.only));
        format!("{}{only}: {} → {}", figure.figure, side(&figure.old), side(&figure.new))
    }
}

fn part_body(out: &mut String, part: &PartChange) {
    let stays = part.change == Change::Changed;
    let rest: Vec<&Figure> = part.figures.iter().filter(|figure| !stays || !FIRST.contains(&figure.figure)).collect();
    let nothing_else = part.lines.is_empty() && rest.is_empty() && part.texts.is_empty() && part.steps.is_empty();
    if stays && part.was.is_none() && nothing_else {
        return;
    }
    let what = match part.change {
        Change::Added => " (new)",
        Change::Removed => " (gone)",
        Change::Changed => "",
    };
    let was = part.was.as_ref().map_or(String::new(), |was| format!(" (was {})", escaped(was)));
    let _ = writeln!(out, "### {}{was}{what}{}\n", escaped(&part.name), escaped(&bracketed(&part.only)));
    if !part.lines.is_empty() {
        let _ = writeln!(out, "| | before | now | |\n|---|--:|--:|---|");
        for line in &part.lines {
            let name = match &line.was {
                Some(was) => format!("{} (was {})", escaped(&line.ingredient), escaped(was)),
                None => escaped(&line.ingredient),
            };
            let name = name + &escaped(&bracketed(&line.only));
            let note = match line.change {
                Change::Added => "new".to_owned(),
                Change::Removed => "gone".to_owned(),
                Change::Changed => by_how_much(line),
            };
            let (old, new) = (amount(line.old_percent, &line.old_shown), amount(line.new_percent, &line.new_shown));
            let _ = writeln!(out, "| {name} | {old} | {new} | {note} |");
            for clause in &line.clauses {
                let _ = writeln!(
                    out,
                    "| {name}, {} | {} | {} | |",
                    clause.figure,
                    escaped(&clause.old),
                    escaped(&clause.new)
                );
            }
        }
        out.push('\n');
    }
    for figure in rest {
        let _ = writeln!(out, "- {}", figure_line(figure));
    }
    texts(out, &part.texts);
    for step in &part.steps {
        step_lines(out, step);
    }
    out.push('\n');
}

fn step_lines(out: &mut String, step: &StepChange) {
    let was = step.was.as_ref().map_or(String::new(), |was| format!(" (was {})", escaped(was)));
    let mut facts: Vec<String> = Vec::new();
    match step.change {
        Change::Added => facts.push("new".to_owned()),
        Change::Removed => facts.push("gone".to_owned()),
        Change::Changed => {}
    }
    if step.moved {
        facts.push("moved".to_owned());
    }
    facts.extend(step.fields.iter().map(figure_line));
    let _ = writeln!(
        out,
        "- step **{}**{was}: {}",
        escaped(&step.step),
        if facts.is_empty() { "reworded".to_owned() } else { facts.join("; ") }
    );
    if let Some((old, new)) = &step.prose {
        let _ = writeln!(out, "  <details><summary>words</summary>\n\n  {}\n\n  </details>", marked(old, new));
    }
}

/// Words that went struck out, words that came in bold.
fn marked(old: &str, new: &str) -> String {
    let mut text = String::new();
    for (run, words) in words(old, new) {
        let (core, space) = (words.trim_end(), words.len() > words.trim_end().len());
        if core.is_empty() {
            text.push(' ');
            continue;
        }
        match run {
            Run::Same => text.push_str(&escaped(core)),
            Run::Gone => {
                let _ = write!(text, "<del>{}</del>", escaped(core));
            }
            Run::New => {
                let _ = write!(text, "<ins>{}</ins>", escaped(core));
            }
        }
        if space {
            text.push(' ');
        }
    }
    text
}
