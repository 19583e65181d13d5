//! A card as CommonMark with tables, readable also as it stands.

use crate::figures::card::{Card, DayHead, LineCard, PartCard, StepCard};
use crate::language::prose::{Insert, Prose};
use crate::model::step::StepKind;
use pulldown_cmark::{Event, Tag, TagEnd};
use pulldown_cmark_to_cmark::cmark;
use std::fmt::Write;

/// Renders several cards, below the head of the day if they are a day's.
pub fn render_all(cards: &[Card], day: Option<&DayHead>) -> String {
    let mut out = String::new();
    if let Some(day) = day {
        let _ = writeln!(out, "# {}\n", escaped(&day.name));
        for caution in &day.cautions {
            let _ = writeln!(out, "> **Caution:** {}\n", prose(caution).replace('\n', "\n> "));
        }
        for note in day.notes.iter().chain(&day.credits) {
            let _ = writeln!(out, "{}\n", prose(note));
        }
    }
    for (at, card) in cards.iter().enumerate() {
        if at > 0 || day.is_some() {
            out.push_str(if at > 0 { "\n---\n\n" } else { "---\n\n" });
        }
        out.push_str(&render(card));
    }
    out
}

/// Renders the card.
pub fn render(card: &Card) -> String {
    let mut out = String::new();
    let _ = writeln!(out, "# {}\n", escaped(&card.title));
    let facts = head_facts(card);
    if !facts.is_empty() {
        let _ = writeln!(out, "{}\n", facts.join(" · "));
    }
    if let Some(line) = super::text::made_for(card) {
        let _ = writeln!(out, "{}\n", escaped(&line));
    }
    if !card.allergens.is_empty() {
        let _ = writeln!(out, "**Contains: {}**\n", escaped(&card.allergens.join(", ")));
    }
    if !card.allergens_unknown.is_empty() {
        let _ =
            writeln!(out, "Allergens not known to the larder of: {}\n", escaped(&card.allergens_unknown.join(", ")));
    }
    for caution in &card.cautions {
        let _ = writeln!(out, "> **Caution:** {}\n", prose(caution).replace('\n', "\n> "));
    }
    for note in &card.notes {
        let _ = writeln!(out, "{}\n", prose(note));
    }
    for part in &card.parts {
        render_part(&mut out, part, card.parts.len() > 1 || part.name != card.title);
    }
    timeline(&mut out, card);
    for credit in &card.credits {
        let _ = writeln!(out, "*{}*\n", prose(credit));
    }
    let kept = out.trim_end().len();
    out.truncate(kept);
    out.push('\n');
    out
}

/// Batch, factor, choices, kitchen.
fn head_facts(card: &Card) -> Vec<String> {
    let mut facts = Vec::new();
    if let Some(makes) = &card.makes {
        facts.push(format!("**{}**", escaped(&makes.shown)));
    }
    if card.factor != crate::measure::number::Number::ONE {
        facts.push(format!("{} × the recipe", crate::measure::show::number(card.factor)));
    }
    if let Some(ready) = &card.ready_shown {
        facts.push(format!("ready **{}**", escaped(ready)));
    }
    if let Some(limit) = &card.limit {
        facts.push(format!("as far as the {} goes", escaped(limit)));
    }
    for (choice, option) in &card.choices {
        facts.push(format!("{}: **{}**", escaped(choice), escaped(option)));
    }
    if !card.kitchen.is_empty() {
        facts.push(escaped(&card.kitchen));
    }
    facts
}

fn render_part(out: &mut String, part: &PartCard, heading: bool) {
    if heading {
        let from = part.from.as_ref().map_or(String::new(), |from| format!(" (taken out of {})", escaped(from)));
        let _ = writeln!(out, "## {}{from}\n", escaped(&part.name));
    }
    if !part.lines.is_empty() {
        table(out, part);
    }
    let facts = part_facts(part);
    if !facts.is_empty() {
        for fact in facts {
            let _ = writeln!(out, "- {fact}");
        }
        out.push('\n');
    }
    for caution in &part.cautions {
        let _ = writeln!(out, "> **Caution:** {}\n", prose(caution).replace('\n', "\n> "));
    }
    for note in &part.notes {
        let _ = writeln!(out, "{}\n", prose(note));
    }
    for (number, step) in part.steps.iter().enumerate() {
        render_step(out, number + 1, step);
    }
}

/// When each step starts and ends, counted from the first.
fn timeline(out: &mut String, card: &Card) {
    if card.timeline.rows.is_empty() {
        return;
    }
    let _ = writeln!(out, "## Timeline\n\n{}\n", escaped(&super::text::timeline_head(&card.timeline)));
    row(out, &["from", "to", "", "step"].map(str::to_owned));
    let _ = writeln!(out, "|--:|--:|---|---|");
    for one in &card.timeline.rows {
        let what = escaped(&super::text::timeline_what(card, one));
        row(
            out,
            &[
                crate::measure::show::offset(one.start),
                crate::measure::show::offset(one.end),
                one.kind.word().to_owned(),
                what,
            ],
        );
    }
    out.push('\n');
}

/// The weigh-out as a table.
fn table(out: &mut String, part: &PartCard) {
    let percents = part.base.is_some();
    let base = part.base_name.as_deref().unwrap_or("");
    let runs = part.lines.iter().any(|line| !line.running.is_empty());
    let mut head = vec!["ingredient".to_owned()];
    if percents {
        head.push(if base == "flour" { "%".to_owned() } else { format!("% of {}", escaped(base)) });
    }
    if !part.preferments.is_empty() {
        head.push("in all".to_owned());
        head.extend(part.preferments.iter().map(|column| escaped(&column.name)));
        head.push("final mix".to_owned());
    } else if part.per_piece {
        head.extend(["each".to_owned(), "in all".to_owned()]);
    } else {
        head.push("weigh".to_owned());
    }
    if runs {
        head.push("scale shows".to_owned());
    }
    row(out, &head);
    let _ = writeln!(out, "|---{}|", "|--:".repeat(head.len() - 1));
    for (at, line) in part.lines.iter().enumerate() {
        let mut cells = vec![name_cell(line)];
        if percents {
            cells.push(line.percent_shown.clone());
        }
        if !part.preferments.is_empty() {
            cells.push(line.shown.clone());
            cells.extend(part.preferments.iter().map(|column| column.cells.get(at).cloned().unwrap_or_default()));
            cells.push(line.final_mix_shown.clone());
        } else if part.per_piece {
            cells.extend([line.each_shown.clone(), line.shown.clone()]);
        } else {
            cells.push(line.shown.clone());
        }
        if runs {
            cells.push(line.running.clone());
        }
        row(out, &cells);
    }
    for (at, column) in part.preferments.iter().enumerate() {
        let mut cells = vec![format!("*{}*", escaped(&column.name))];
        if percents {
            cells.push(String::new());
        }
        cells.push(String::new());
        cells.extend(
            (0..part.preferments.len())
                .map(|other| if other == at { column.total_shown.clone() } else { String::new() }),
        );
        cells.push(column.total_shown.clone());
        if runs {
            cells.push(column.running.clone());
        }
        row(out, &cells);
    }
    if !part.total_shown.is_empty() {
        let mut cells = vec!["**total**".to_owned()];
        if percents {
            cells.push(part.percent_total_shown.clone());
        }
        if !part.preferments.is_empty() {
            cells.push(format!("**{}**", part.total_shown));
            cells.extend(part.preferments.iter().map(|_| String::new()));
            cells.push(format!("**{}**", part.final_mix_shown));
        } else if part.per_piece {
            cells.extend([String::new(), format!("**{}**", part.total_shown)]);
        } else {
            cells.push(format!("**{}**", part.total_shown));
        }
        if runs {
            cells.push(String::new());
        }
        row(out, &cells);
    }
    out.push('\n');
}

fn name_cell(line: &LineCard) -> String {
    let mut text = escaped(&line.ingredient);
    if let Some(measure) = line.measure.as_ref().filter(|measure| **measure != line.shown) {
        let _ = write!(text, " ({})", escaped(measure));
    }
    let mut clauses: Vec<String> = Vec::new();
    clauses.extend(line.temperature_shown.as_ref().map(|at| format!("at {at}")));
    clauses.extend(line.preparation.as_ref().map(|how| escaped(how)));
    if line.optional {
        clauses.push("optional".to_owned());
    }
    if line.aside {
        clauses.push("set aside".to_owned());
    }
    if !clauses.is_empty() {
        let _ = write!(text, ", {}", clauses.join(", "));
    }
    text
}

pub(super) fn row(out: &mut String, cells: &[String]) {
    let _ = writeln!(out, "| {} |", cells.join(" | "));
}

/// What a baker reads off below the table.
fn part_facts(part: &PartCard) -> Vec<String> {
    super::text::part_facts(part).iter().map(|fact| escaped(fact)).collect()
}

fn render_step(out: &mut String, number: usize, step: &StepCard) {
    let kind = match step.kind {
        StepKind::Hands => "hands",
        StepKind::Tend => "tend",
        StepKind::Wait => "wait",
    };
    let mut facts = vec![format!("{kind} {}", step.time_shown)];
    facts.extend(super::text::step_facts(step));
    let facts: Vec<String> = facts.iter().map(|fact| escaped(fact)).collect();
    let _ = writeln!(out, "{number}. **{}** — {}\n", escaped(&step.name), facts.join(", "));
    if !step.prose.is_empty() {
        for line in prose(&step.prose).lines() {
            let _ = writeln!(out, "{}{line}", if line.is_empty() { "" } else { "   " });
        }
        out.push('\n');
    }
    if !step.sign.is_empty() {
        let _ = writeln!(out, "   → until {}\n", prose(&step.sign));
    }
}

/// Prose as CommonMark, safe to stand anywhere.
fn prose(prose: &Prose) -> String {
    let events = prose.events(|insert| {
        // Passed through as it is: the serializer would write `4\.8 g`, which is right but hard to read.
        let words: Event<'_> = Event::InlineHtml(escaped(&insert.plain()).into());
        match insert {
            Insert::Measure(_) => vec![words],
            Insert::Amount { .. } | Insert::Each { .. } => {
                vec![Event::Start(Tag::Strong), words, Event::End(TagEnd::Strong)]
            }
        }
    });
    let mut text = String::new();
    match cmark(events, &mut text, pulldown_cmark::Options::empty()) {
        Ok(_) => text.trim().to_owned(),
        // Writing into a string cannot fail; should it, the plain words are still right.
        Err(_) => escaped(&prose.plain()),
    }
}

/// Text that CommonMark must not read as markup.
pub(crate) fn escaped(text: &str) -> String {
    let clean = crate::out::report::clean(text);
    let mut out = String::with_capacity(clean.len());
    for character in clean.chars() {
        match character {
            '\\' | '`' | '*' | '_' | '[' | ']' | '|' | '#' | '!' | '~' => {
                out.push('\\');
                out.push(character);
            }
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '&' => out.push_str("&amp;"),
            '\n' => out.push(' '),
            other => out.push(other),
        }
    }
    out
}
