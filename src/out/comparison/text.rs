//! Changes for the terminal: before and now side by side.

use super::{Changes, Run, amount, bracketed, by_how_much, words};
use crate::figures::compare::{Change, Comparison, Figure, PartChange, StepChange, TextChange};
use crate::out::report::clean;
use crate::out::text::{Style, wrap};
use std::fmt::Write;
use unicode_width::UnicodeWidthStr;

const BOLD: &str = "\u{1b}[1m";
const RED: &str = "\u{1b}[31m";
const GREEN: &str = "\u{1b}[32m";
const YELLOW: &str = "\u{1b}[33m";
const RESET: &str = "\u{1b}[0m";

/// Renders the changes of all files.
pub fn render(all: &[Changes], style: Style) -> String {
    let mut out = String::new();
    for changes in all {
        file(&mut out, changes, style);
    }
    out
}

/// What is said when nothing changed that a baker would notice.
pub(super) fn nothing(changes: &Changes) -> &'static str {
    if changes.text_changed { "The text changed, the recipe did not." } else { "No change." }
}

fn paint(style: Style, code: &str, text: &str) -> String {
    if style.colour && !text.is_empty() { format!("{code}{text}{RESET}") } else { text.to_owned() }
}

fn file(out: &mut String, changes: &Changes, style: Style) {
    let comparison = &changes.comparison;
    let was = comparison.was.as_ref().map_or(String::new(), |was| format!(" (was {was})"));
    let _ = writeln!(out, "{}", paint(style, BOLD, &clean(&format!("{}{was}", comparison.recipe))));
    if changes.is_empty() {
        let _ = writeln!(out, "  {}", nothing(changes));
    } else {
        body(out, comparison, style);
    }
    out.push('\n');
}

fn body(out: &mut String, comparison: &Comparison, style: Style) {
    for allergen in &comparison.allergens_gained {
        let _ = writeln!(out, "  {}", paint(style, RED, &format!("ALLERGEN GAINED: {}", clean(allergen))));
    }
    for allergen in &comparison.allergens_lost {
        let _ = writeln!(out, "  {}", paint(style, YELLOW, &format!("allergen no longer in it: {}", clean(allergen))));
    }
    if let Some(factor) = comparison.rescaled {
        let _ = writeln!(out, "  every amount is {} times what it was", crate::measure::show::number(factor));
    }
    figures(out, &comparison.head, style);
    for part in &comparison.parts {
        part_body(out, part, style);
    }
    figures(out, &comparison.plan, style);
    for (check, message) in &comparison.problems_raised {
        let line = wrap(&clean(&format!("new problem ({check}): {message}")), style.width, "  ", "    ");
        let _ = writeln!(out, "{}", paint(style, RED, &line));
    }
    for (check, message) in &comparison.problems_cleared {
        let line = wrap(&clean(&format!("problem gone ({check}): {message}")), style.width, "  ", "    ");
        let _ = writeln!(out, "{}", paint(style, GREEN, &line));
    }
    notes(out, &comparison.texts, style);
}

fn notes(out: &mut String, texts: &[TextChange], style: Style) {
    for TextChange { change, kind, text } in texts {
        let line = format!("{} {}: {}", kind.word(), change.word(), clean(text));
        let _ = writeln!(out, "{}", wrap(&line, style.width, "  ", "    "));
    }
}

fn figures(out: &mut String, figures: &[Figure], style: Style) {
    let rows: Vec<[String; 4]> = figures
        .iter()
        .map(|figure| {
            let name = format!("{}{}", figure.figure, bracketed(&figure.only));
            [name, figure.old.clone(), figure.new.clone(), String::new()]
        })
        .collect();
    table(out, &rows, style);
}

/// Rows of name, before, now, remark; figures right-aligned.
fn table(out: &mut String, rows: &[[String; 4]], style: Style) {
    let width = |at: usize| {
        let cells = rows.iter().filter_map(|row| row.get(at));
        cells.map(|cell| clean(cell).width()).max().unwrap_or(0)
    };
    let (name_width, old_width, new_width) = (width(0), width(1), width(2));
    for [name, old, new, remark] in rows {
        let pad = |text: &str, width: usize| " ".repeat(width.saturating_sub(text.width()));
        let (name, old, new, remark) = (clean(name), clean(old), clean(new), clean(remark));
        let line = format!(
            "  {name}{}  {}{}  →  {}{}  {remark}",
            pad(&name, name_width),
            pad(&old, old_width),
            paint(style, RED, &old),
            pad(&new, new_width),
            paint(style, GREEN, &new),
        );
        let _ = writeln!(out, "{}", line.trim_end());
    }
}

fn part_body(out: &mut String, part: &PartChange, style: Style) {
    let what = match part.change {
        Change::Added => " (new)",
        Change::Removed => " (gone)",
        Change::Changed => "",
    };
    let was = part.was.as_ref().map_or(String::new(), |was| format!(" (was {was})"));
    let _ = writeln!(
        out,
        "{}",
        paint(style, BOLD, &clean(&format!("── {}{was}{what}{}", part.name, bracketed(&part.only))))
    );
    let mut rows: Vec<[String; 4]> = Vec::new();
    for line in &part.lines {
        let name = line.was.as_ref().map_or(line.ingredient.clone(), |was| format!("{} (was {was})", line.ingredient));
        let name = name + &bracketed(&line.only);
        let remark = match line.change {
            Change::Added => "new".to_owned(),
            Change::Removed => "gone".to_owned(),
            Change::Changed => by_how_much(line),
        };
        rows.push([
            name.clone(),
            amount(line.old_percent, &line.old_shown),
            amount(line.new_percent, &line.new_shown),
            remark,
        ]);
        for clause in &line.clauses {
            rows.push([format!("{name}, {}", clause.figure), clause.old.clone(), clause.new.clone(), String::new()]);
        }
    }
    table(out, &rows, style);
    figures(out, &part.figures, style);
    notes(out, &part.texts, style);
    for step in &part.steps {
        step_lines(out, step, style);
    }
}

fn step_lines(out: &mut String, step: &StepChange, style: Style) {
    let was = step.was.as_ref().map_or(String::new(), |was| format!(" (was {was})"));
    let mut facts: Vec<String> = Vec::new();
    match step.change {
        Change::Added => facts.push("new".to_owned()),
        Change::Removed => facts.push("gone".to_owned()),
        Change::Changed => {}
    }
    if step.moved {
        facts.push("moved".to_owned());
    }
    let side = |text: &str| if text.is_empty() { "nothing".to_owned() } else { text.to_owned() };
    facts.extend(
        step.fields.iter().map(|field| format!("{} {} → {}", field.figure, side(&field.old), side(&field.new))),
    );
    if facts.is_empty() {
        facts.push("reworded".to_owned());
    }
    let line = clean(&format!("step {}{was}{}: {}", step.step, bracketed(&step.only), facts.join("; "))).into_owned();
    let _ = writeln!(out, "{}", wrap(&line, style.width, "  ", "    "));
    if let Some((old, new)) = &step.prose {
        let _ = writeln!(out, "{}", wrap(&marked(old, new, style), style.width, "      ", "      "));
    }
}

/// Words that went in `[-…-]`, words that came in `{+…+}`, and in colour where there is some.
fn marked(old: &str, new: &str, style: Style) -> String {
    let mut text = String::new();
    for (run, words) in words(&clean(old), &clean(new)) {
        let core = words.trim_end();
        let space = if words.len() > core.len() { " " } else { "" };
        let shown = match run {
            _ if core.is_empty() => String::new(),
            Run::Same => core.to_owned(),
            Run::Gone => paint(style, RED, &format!("[-{core}-]")),
            Run::New => paint(style, GREEN, &format!("{{+{core}+}}")),
        };
        text.push_str(&shown);
        text.push_str(space);
    }
    text
}
