//! A card as plain text for the terminal: aligned columns, wrapped to a width, with or without colour.

use crate::figures::card::{Card, DayHead, LineCard, MadeForCard, PartCard, StepCard, Timeline, TimelineRow};
use crate::language::prose::Prose;
use crate::measure::show;
use crate::model::step::StepKind;
use crate::out::report::clean;
use std::fmt::Write;
use unicode_width::UnicodeWidthStr;

/// How a card is set on a terminal.
#[derive(Debug, Clone, Copy)]
pub struct Style {
    /// Columns to print in.
    pub width: usize,
    /// Whether to colour.
    pub colour: bool,
}

const BOLD: &str = "\u{1b}[1m";
const DIM: &str = "\u{1b}[2m";
const RED: &str = "\u{1b}[31m";
const RESET: &str = "\u{1b}[0m";

impl Style {
    /// Bold where there is colour.
    pub(super) fn bold(self, text: &str) -> String {
        self.paint(BOLD, text)
    }

    fn paint(self, code: &str, text: &str) -> String {
        if self.colour && !text.is_empty() { format!("{code}{text}{RESET}") } else { text.to_owned() }
    }
}

/// Renders several cards, below the head of the day if they are a day's.
pub fn render_all(cards: &[Card], day: Option<&DayHead>, style: Style) -> String {
    let mut out = String::new();
    if let Some(day) = day {
        let _ = writeln!(out, "{}", style.paint(BOLD, &clean(&day.name).to_uppercase()));
        texts(&mut out, &day.cautions, "! ", style.colour.then_some(RED), style);
        texts(&mut out, &day.notes, "", None, style);
        texts(&mut out, &day.credits, "", Some(DIM), style);
    }
    for (at, card) in cards.iter().enumerate() {
        if at > 0 || day.is_some() {
            out.push('\n');
        }
        out.push_str(&render(card, style));
    }
    out
}

/// Renders the card.
pub fn render(card: &Card, style: Style) -> String {
    let mut out = String::new();
    let title = clean(&card.title).to_uppercase();
    let _ = writeln!(out, "{}", style.paint(BOLD, &title));
    let facts = head_facts(card);
    if !facts.is_empty() {
        let _ = writeln!(out, "{}", wrap(&facts.join(" · "), style.width, "", ""));
    }
    if let Some(line) = made_for(card) {
        let _ = writeln!(out, "{}", wrap(&clean(&line), style.width, "", "  "));
    }
    if !card.allergens.is_empty() {
        let line = format!("Contains: {}", card.allergens.join(", "));
        let _ = writeln!(out, "{}", style.paint(BOLD, &wrap(&line, style.width, "", "  ")));
    }
    if !card.allergens_unknown.is_empty() {
        let line = format!("Allergens not known to the larder of: {}", card.allergens_unknown.join(", "));
        let _ = writeln!(out, "{}", wrap(&clean(&line), style.width, "", "  "));
    }
    texts(&mut out, &card.cautions, "! ", style.colour.then_some(RED), style);
    texts(&mut out, &card.notes, "", None, style);
    for part in &card.parts {
        out.push('\n');
        render_part(&mut out, part, card.parts.len() > 1 || part.name != card.title, style);
    }
    timeline(&mut out, card, style);
    texts(&mut out, &card.credits, "", Some(DIM), style);
    out
}

/// When each step starts and ends, counted from the first.
fn timeline(out: &mut String, card: &Card, style: Style) {
    let timeline = &card.timeline;
    if timeline.rows.is_empty() {
        return;
    }
    out.push('\n');
    let _ = writeln!(out, "{}", style.paint(BOLD, &wrap(&timeline_head(timeline), style.width, "── ", "   ")));
    let clocks: Vec<(String, String)> =
        timeline.rows.iter().map(|row| (show::offset(row.start), show::offset(row.end))).collect();
    let width = clocks.iter().map(|(start, end)| start.width().max(end.width())).max().unwrap_or(0);
    for (row, (start, end)) in timeline.rows.iter().zip(&clocks) {
        let line =
            format!("  {start:>width$} – {end:>width$}  {} {}", mark(row.kind), clean(&timeline_what(card, row)));
        let _ = writeln!(out, "{line}");
    }
}

/// The whole time, and how much of it somebody is busy.
pub(super) fn timeline_head(timeline: &Timeline) -> String {
    let minutes = |minutes: i64| show::duration(crate::measure::quantity::Duration::minutes(minutes));
    format!(
        "From the first step to the last: {} ({} of work, {} to tend)",
        minutes(timeline.span_minutes),
        minutes(timeline.hands_minutes),
        minutes(timeline.tend_minutes)
    )
}

/// What a row of the timeline is about.
pub(super) fn timeline_what(card: &Card, row: &TimelineRow) -> String {
    let mut text = if card.parts.len() > 1 { format!("{}: {}", row.part, row.step) } else { row.step.clone() };
    if let Some(equipment) = &row.equipment {
        let _ = write!(text, ", {equipment}");
    }
    if row.loads > 1 {
        let _ = write!(text, ", {} loads", row.loads);
    }
    text
}

/// Who is busy, as a shape.
fn mark(kind: StepKind) -> &'static str {
    match kind {
        StepKind::Hands => "●",
        StepKind::Tend => "◐",
        StepKind::Wait => "○",
    }
}

/// Who draws on the batch.
pub(super) fn made_for(card: &Card) -> Option<String> {
    let takes = |one: &MadeForCard| {
        let of = if card.parts.len() > 1 { format!(" of {}", one.part) } else { String::new() };
        format!("{}{of} for {}", one.shown, one.recipe)
    };
    let all: Vec<String> = card.made_for.iter().map(takes).collect();
    (!all.is_empty()).then(|| format!("Made once: {}", show::list(&all)))
}

fn head_facts(card: &Card) -> Vec<String> {
    let mut facts = Vec::new();
    facts.extend(card.makes.as_ref().map(|makes| makes.shown.clone()));
    if card.factor != crate::measure::number::Number::ONE {
        facts.push(format!("{} × the recipe", show::number(card.factor)));
    }
    facts.extend(card.ready_shown.as_ref().map(|ready| format!("ready {ready}")));
    facts.extend(card.limit.as_ref().map(|limit| format!("as far as the {limit} goes")));
    facts.extend(card.choices.iter().map(|(choice, option)| format!("{choice}: {option}")));
    if !card.kitchen.is_empty() {
        facts.push(card.kitchen.clone());
    }
    facts.iter().map(|fact| clean(fact).into_owned()).collect()
}

fn texts(out: &mut String, texts: &[Prose], mark: &str, code: Option<&str>, style: Style) {
    for text in texts {
        let indent = " ".repeat(mark.width());
        let wrapped = wrap_paragraphs(&text.plain(), style.width, mark, &indent);
        let _ = writeln!(out, "{}", code.map_or(wrapped.clone(), |code| style.paint(code, &wrapped)));
    }
}

fn render_part(out: &mut String, part: &PartCard, heading: bool, style: Style) {
    if heading {
        let from = part.from.as_ref().map_or(String::new(), |from| format!(", taken out of {from}"));
        let name = format!("{}{from}", part.name);
        let rule = "─".repeat(style.width.saturating_sub(name.width() + 4).min(60));
        let _ = writeln!(out, "{}", style.paint(BOLD, &format!("── {} {rule}", clean(&name))));
    }
    table(out, part, style);
    for fact in part_facts(part) {
        let _ = writeln!(out, "{}", wrap(&clean(&fact), style.width, "  ", "    "));
    }
    texts(out, &part.cautions, "! ", style.colour.then_some(RED), style);
    texts(out, &part.notes, "  ", None, style);
    for (number, step) in part.steps.iter().enumerate() {
        render_step(out, number + 1, step, style);
    }
}

/// A table with right-aligned figures.
fn table(out: &mut String, part: &PartCard, style: Style) {
    if part.lines.is_empty() {
        return;
    }
    let rows = rows(part);
    let columns = rows.iter().map(Vec::len).max().unwrap_or(0);
    let used: Vec<bool> = (0..columns)
        .map(|at| rows.iter().skip(1).any(|row| row.get(at).is_some_and(|cell| !cell.is_empty())))
        .collect();
    let widths: Vec<usize> = (0..columns)
        .map(|at| rows.iter().filter_map(|row| row.get(at)).map(|cell| cell.width()).max().unwrap_or(0))
        .collect();
    let others: usize = widths.iter().zip(&used).skip(1).filter(|(_, used)| **used).map(|(width, _)| width + 2).sum();
    // Names give way before figures do.
    let name_width = widths.first().copied().unwrap_or(0).min(style.width.saturating_sub(others + 2).max(16));
    for (number, row) in rows.iter().enumerate() {
        let name_lines = wrap_lines(row.first().map_or("", String::as_str), name_width);
        let mut line = String::from("  ");
        let first = name_lines.first().cloned().unwrap_or_default();
        let _ = write!(line, "{first}{}", " ".repeat(name_width.saturating_sub(first.width())));
        for (at, cell) in row.iter().enumerate().skip(1) {
            if used.get(at) == Some(&true) {
                let width = widths.get(at).copied().unwrap_or(0);
                let _ = write!(line, "  {}{cell}", " ".repeat(width.saturating_sub(cell.width())));
            }
        }
        let line = line.trim_end();
        let code = if number == 0 {
            DIM
        } else if number + 1 == rows.len() && !part.total_shown.is_empty() {
            BOLD
        } else {
            ""
        };
        let _ = writeln!(out, "{}", if code.is_empty() { line.to_owned() } else { style.paint(code, line) });
        for more in name_lines.iter().skip(1) {
            let _ = writeln!(out, "    {more}");
        }
    }
}

/// Head, lines, preferments, total; the cells of every row in the same order.
fn rows(part: &PartCard) -> Vec<Vec<String>> {
    let base = part.base_name.as_deref().unwrap_or("flour");
    let percent_head = if base == "flour" { "%".to_owned() } else { format!("% of {base}") };
    let split = !part.preferments.is_empty();
    let amount_head = if split || part.per_piece { "in all" } else { "weigh" };
    let mut head = vec![String::new(), percent_head, "each".to_owned(), amount_head.to_owned()];
    head.extend(part.preferments.iter().map(|column| column.name.clone()));
    head.extend([if split { "final mix".to_owned() } else { String::new() }, "scale shows".to_owned()]);
    let mut rows = vec![head];
    for (at, line) in part.lines.iter().enumerate() {
        let mut row = vec![name_of(line), line.percent_shown.clone(), line.each_shown.clone(), line.shown.clone()];
        row.extend(part.preferments.iter().map(|column| column.cells.get(at).cloned().unwrap_or_default()));
        row.extend([if split { line.final_mix_shown.clone() } else { String::new() }, line.running.clone()]);
        rows.push(row);
    }
    for (at, column) in part.preferments.iter().enumerate() {
        let mut row = vec![column.name.clone(), String::new(), String::new(), String::new()];
        row.extend(
            (0..part.preferments.len())
                .map(|other| if other == at { column.total_shown.clone() } else { String::new() }),
        );
        row.extend([column.total_shown.clone(), column.running.clone()]);
        rows.push(row);
    }
    if !part.total_shown.is_empty() {
        let mut row =
            vec!["total".to_owned(), part.percent_total_shown.clone(), String::new(), part.total_shown.clone()];
        row.extend(part.preferments.iter().map(|_| String::new()));
        row.extend([if split { part.final_mix_shown.clone() } else { String::new() }, String::new()]);
        rows.push(row);
    }
    rows.iter_mut().flatten().for_each(|cell| *cell = clean(cell).into_owned());
    rows
}

fn name_of(line: &LineCard) -> String {
    let mut text = line.ingredient.clone();
    if let Some(measure) = line.measure.as_ref().filter(|measure| **measure != line.shown) {
        let _ = write!(text, " ({measure})");
    }
    let temperature = line.temperature_shown.as_ref().map(|at| format!("at {at}"));
    let aside = line.aside.then(|| "set aside".to_owned());
    let optional = line.optional.then(|| "optional".to_owned());
    for clause in [temperature, line.preparation.clone(), optional, aside].into_iter().flatten() {
        let _ = write!(text, ", {clause}");
    }
    text
}

/// What a baker reads off below the table.
pub(super) fn part_facts(part: &PartCard) -> Vec<String> {
    let mut facts = Vec::new();
    if let Some(divide) = &part.divide {
        let loss = divide
            .actual_loss
            .filter(|loss| loss.value().is_positive())
            .map(|loss| format!(", {} lost", show::percent(rounded(loss))));
        facts.push(format!(
            "divide {} × {}{}",
            show::count_of(divide.pieces),
            divide.each_shown,
            loss.unwrap_or_default()
        ));
    }
    if let Some(makes) = &part.makes {
        let loss = makes
            .actual_loss
            .filter(|loss| loss.value().is_positive())
            .map(|loss| format!(", {} lost", show::percent(rounded(loss))));
        facts.push(format!("makes {}{}", makes.shown, loss.unwrap_or_default()));
    }
    if let Some(hydration) = part.hydration {
        let figure = show::percent(rounded(hydration));
        facts.push(if part.hydration_is_least {
            format!("hydration at least {figure}: the water of some ingredients is not known")
        } else {
            format!("hydration {figure}, counting the water in all ingredients but flour")
        });
    }
    if let Some(share) = part.prefermented {
        facts.push(format!("{} of the flour is prefermented", show::percent(rounded(share))));
    }
    facts.extend(part.desired_temperature.as_ref().map(|at| format!("desired dough temperature {at}")));
    facts.extend(part.water_shown.clone());
    facts.extend(part.balance.as_ref().map(|balance| balance.shown.clone()));
    facts.extend(part.keeps.clone());
    if !part.rounding.is_empty() {
        facts.push(format!("on the scale: {}", part.rounding.join("; ")));
    }
    facts
}

/// One decimal is what a reader can use of a computed share.
pub(super) fn rounded(share: crate::measure::quantity::Proportion) -> crate::measure::quantity::Proportion {
    let tenth_of_percent = crate::measure::number::Number::constant(1, 1000);
    crate::measure::quantity::Proportion::new(share.value().rounded_to(tenth_of_percent).unwrap_or(share.value()))
}

/// What is said of a step besides its time.
pub(super) fn step_facts(step: &StepCard) -> Vec<String> {
    let mut facts = Vec::new();
    if !step.loads_shown.is_empty() {
        facts.push(step.loads_shown.clone());
    }
    if !step.whole_time_shown.is_empty() {
        facts.push(format!("{} together", step.whole_time_shown));
    }
    match (&step.equipment, &step.temperature_shown) {
        (Some(equipment), Some(at)) => facts.push(format!("{equipment} at {at}")),
        (Some(equipment), None) => facts.push(equipment.clone()),
        (None, Some(at)) => facts.push(format!("at {at}")),
        (None, None) => {}
    }
    facts.extend(step.up_to_shown.as_ref().map(|time| format!("up to {time}")));
    if step.people > 1 {
        facts.push(format!("{} people", step.people));
    }
    facts
}

fn render_step(out: &mut String, number: usize, step: &StepCard, style: Style) {
    let mark = mark(step.kind);
    let mut facts = vec![format!("{} {}", step.kind.word(), step.time_shown)];
    facts.extend(step_facts(step));
    let head = format!("{number:>2} {mark} {}: {}", style.paint(BOLD, &clean(&step.name)), clean(&facts.join(", ")));
    let _ = writeln!(out, "{head}");
    if !step.prose.is_empty() {
        let _ = writeln!(out, "{}", wrap_paragraphs(&step.prose.plain(), style.width, "     ", "     "));
    }
    if !step.sign.is_empty() {
        let _ = writeln!(out, "{}", wrap(&format!("→ until {}", step.sign.plain()), style.width, "     ", "       "));
    }
}

fn wrap_paragraphs(text: &str, width: usize, first: &str, others: &str) -> String {
    let mut lines = Vec::new();
    for (number, paragraph) in text.lines().enumerate() {
        lines.push(wrap(paragraph, width, if number == 0 { first } else { others }, others));
    }
    lines.join("\n")
}

/// Breaks words into lines of a width; `first` and `others` stand before them.
pub(super) fn wrap(text: &str, width: usize, first: &str, others: &str) -> String {
    let room = width.saturating_sub(first.width().max(others.width())).max(20);
    let lines = wrap_lines(text, room);
    let mut out = String::new();
    for (number, line) in lines.iter().enumerate() {
        if number > 0 {
            out.push('\n');
        }
        out.push_str(if number == 0 { first } else { others });
        out.push_str(line);
    }
    out
}

fn wrap_lines(text: &str, room: usize) -> Vec<String> {
    let mut lines = vec![String::new()];
    let mut used = 0;
    for word in text.split(' ') {
        let width = word.width();
        if used > 0 && used + 1 + width > room {
            lines.push(String::new());
            used = 0;
        }
        if let Some(line) = lines.last_mut() {
            if used > 0 {
                line.push(' ');
                used += 1;
            }
            line.push_str(word);
        }
        used += width;
    }
    lines
}
