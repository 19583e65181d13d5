//! Blocks as plain text for the terminal: aligned columns, wrapped to a width, with or without colour.

mod fold;
mod narrow;

pub use fold::fold;

use super::block::{
    Alarm, BeforeAndNow, Block, Change, ChangedStep, Fate, Frame, Heading, Item, Look, Moment, Paint, Phrase, Rows,
    Side, Step, Table, Text, Tone, Voice, mark,
};
use super::report::clean;
use super::typeset;
use crate::language::prose::Prose;
use crate::measure::shown::Shown;
use rayon::prelude::*;
use std::fmt::Write;
use unicode_width::UnicodeWidthStr;

/// How a page is set on a terminal.
#[derive(Debug, Clone, Copy)]
pub struct Style {
    /// Columns to print in.
    pub width: usize,
    /// Whether to colour.
    pub colour: bool,
    /// Whether it is read on a screen, which breaks what is wider than it within words.
    pub on_screen: bool,
}

impl Style {
    /// Words and nothing else, in so many columns.
    pub fn plain(width: usize) -> Style {
        Style { width, colour: false, on_screen: false }
    }

    /// Words as they are painted where there is colour.
    pub(super) fn paint(self, paint: Paint, text: &str) -> String {
        let code = match paint {
            Paint::Bold => "\u{1b}[1m",
            Paint::Dim => "\u{1b}[2m",
            Paint::Red => "\u{1b}[31m",
            Paint::Yellow => "\u{1b}[33m",
            Paint::Green => "\u{1b}[32m",
            Paint::None => return text.to_owned(),
        };
        if self.colour && !text.is_empty() { format!("{code}{text}\u{1b}[0m") } else { text.to_owned() }
    }
}

/// Renders a page.
pub fn render(blocks: &[Block], style: Style) -> String {
    let set = |blocks: &[Block]| {
        let mut out = String::new();
        blocks.iter().for_each(|block| one(&mut out, block, style));
        out
    };
    // Years of bakes are set on all cores.
    let out = if blocks.len() <= STRETCH { set(blocks) } else { blocks.par_chunks(STRETCH).map(set).collect() };
    if style.on_screen { fold(&out, style.width) } else { out }
}

/// So many blocks are worth a thread of their own.
const STRETCH: usize = 500;

fn line(out: &mut String, text: &str) {
    out.push_str(text);
    out.push('\n');
}

fn one(out: &mut String, block: &Block, style: Style) {
    match block {
        Block::Gap => out.push('\n'),
        Block::Section(blocks) => blocks.iter().for_each(|block| one(out, block, style)),
        Block::Heading(heading) => self::heading(out, heading, style),
        Block::Text(text) => paragraph(out, text, style),
        Block::Care(text) => line(out, &wrap(&clean(text), style.width, "! ", "  ")),
        Block::Prose(voice, prose) => self::prose(out, *voice, prose, style),
        Block::Bullets(all) => {
            for runs in all {
                line(out, &wrap(&joined(runs), style.width, "  ", "    "));
            }
        }
        Block::Facts(all) => {
            let all: Vec<String> = all.iter().map(|runs| joined(runs)).collect();
            line(out, &wrap(&all.join(" · "), style.width, "", ""));
        }
        Block::Alarm(alarm) => self::alarm(out, alarm, style),
        Block::Changes(all) => changes(out, all, style),
        Block::Rows(all) => rows(out, all, style),
        Block::Figures(all) => figures(out, all, style),
        Block::Table(table) if table.frame == Frame::Run => run_sheet(out, table, style),
        Block::Table(table) => self::table(out, table, style),
        Block::Steps(all) => all.iter().for_each(|one| step(out, one, style)),
        Block::Clock(all) => clock(out, all, style),
        Block::Remarks(all) => all.iter().for_each(|one| line(out, &wrap(&clean(one), style.width, "  ", "  "))),
        Block::Picture(_) | Block::Source(_) | Block::Rule => {}
    }
}

fn heading(out: &mut String, heading: &Heading, style: Style) {
    let remark = heading.remark.as_ref().map_or_else(String::new, |remark| format!(", {}", clean(remark)));
    let text = format!("{}{remark}", heading.text);
    let bold = |text: &str| style.paint(Paint::Bold, text);
    match heading.look {
        Look::Plain => line(out, &bold(&text)),
        Look::Capitals => line(out, &bold(&text.to_uppercase())),
        Look::Ruled => {
            let rule = "─".repeat(style.width.saturating_sub(text.width() + 4).min(60));
            line(out, &bold(&format!("── {text} {rule}")));
        }
        Look::Dashed => line(out, &bold(&format!("── {text}"))),
        Look::Underlined => {
            let sign = if heading.level == 1 { "=" } else { "-" };
            line(out, &bold(&text));
            line(out, &sign.repeat(text.width()));
        }
        Look::Topic(topic) => line(out, &format!("{}  (miche explain {topic})", bold(&text))),
        Look::Absent => {}
    }
}

fn joined(runs: &[Phrase]) -> String {
    let said = |run: &Phrase| match run.tone {
        Tone::Strong => run.text.to_uppercase(),
        Tone::Typed => format!("\"{}\"", run.text),
        Tone::Plain | Tone::Amount | Tone::Quiet => run.text.clone(),
    };
    runs.iter().map(said).collect()
}

fn paragraph(out: &mut String, text: &Text, style: Style) {
    let words = joined(&text.runs);
    let words = match text.indent {
        Some((first, others)) => wrap(&words, style.width, first, others),
        None => words,
    };
    line(out, &style.paint(text.paint, &words));
}

fn prose(out: &mut String, voice: Voice, prose: &Prose, style: Style) {
    let (first, paint) = match voice {
        Voice::Caution => ("! ", Paint::Red),
        Voice::Note => ("", Paint::None),
        Voice::PartNote => ("  ", Paint::None),
        Voice::Credit => ("", Paint::Dim),
    };
    let text = wrap_paragraphs(&prose.plain(), style.width, first, &" ".repeat(first.width()));
    line(out, &style.paint(paint, &text));
}

fn alarm(out: &mut String, Alarm { what, of, can_hurt }: &Alarm, style: Style) {
    let (what, paint) =
        if *can_hurt { (what.to_uppercase(), Paint::Red) } else { (what.to_lowercase(), Paint::Yellow) };
    line(out, &format!("  {}", style.paint(paint, &format!("{what}: {}", clean(of)))));
}

fn changes(out: &mut String, all: &[Change], style: Style) {
    // Amounts stand under one another, and figures do.
    for run in all.chunk_by(|one, next| std::mem::discriminant(one) == std::mem::discriminant(next)) {
        before_and_now(out, &run.iter().filter_map(Change::figure).collect::<Vec<_>>(), style);
        for change in run {
            match change {
                Change::Line(_) | Change::Figure(_) => {}
                Change::Said(words, paint) => {
                    line(out, &style.paint(*paint, &wrap(&joined(words), style.width, "  ", "    ")));
                }
                Change::Step(step) => changed_step(out, step, style),
            }
        }
    }
}

/// Rows of what, before, now, remark; figures stand at the right of their columns.
fn before_and_now(out: &mut String, all: &[&BeforeAndNow], style: Style) {
    let cells = |one: &&BeforeAndNow| {
        [one.whole_name(), one.old.to_string(), one.new.to_string(), one.remark.clone()]
            .map(|cell| clean(&cell).into_owned())
    };
    let rows: Vec<[String; 4]> = all.iter().map(cells).collect();
    let width = |cell: fn(&[String; 4]) -> &String| rows.iter().map(|row| cell(row).width()).max().unwrap_or(0);
    let widths = [width(|[what, ..]| what), width(|[_, old, ..]| old), width(|[_, _, new, _]| new)];
    for [what, old, new, remark] in &rows {
        let [what_room, old_room, new_room] = [(what, 0), (old, 1), (new, 2)]
            .map(|(cell, at)| " ".repeat(widths.get(at).map_or(0, |width| width.saturating_sub(cell.width()))));
        let (old, new) = (style.paint(Paint::Red, old), style.paint(Paint::Green, new));
        line(out, format!("  {what}{what_room}  {old_room}{old}  →  {new_room}{new}  {remark}").trim_end());
    }
}

/// What happened to a step, in one paragraph.
pub(super) fn said_of_step(step: &ChangedStep) -> String {
    let words =
        if step.words.is_empty() { String::new() } else { format!(". {}", old_and_new(step, Style::plain(80))) };
    format!("{}{words}", facts_of_step(step))
}

fn facts_of_step(step: &ChangedStep) -> String {
    let figure = |one: &BeforeAndNow| one.sentence(&one.what);
    let mut facts: Vec<String> = step.happened.iter().map(|what| (*what).to_owned()).collect();
    facts.extend(step.figures.iter().map(figure));
    if facts.is_empty() {
        facts.push(step.of_words().to_owned());
    }
    clean(&format!("step {}{}: {}", step.name, step.beside, facts.join("; "))).into_owned()
}

fn changed_step(out: &mut String, step: &ChangedStep, style: Style) {
    line(out, &wrap(&facts_of_step(step), style.width, "  ", "    "));
    if !step.words.is_empty() {
        line(out, &wrap(&old_and_new(step, style), style.width, "      ", "      "));
    }
}

/// A step's words in one line, what changed in brackets: `Mix for (5 → 7) minutes`.
fn old_and_new(step: &ChangedStep, style: Style) -> String {
    let mut text = String::new();
    let mut words = step.words.iter().peekable();
    while let Some((fate, here)) = words.next() {
        if *fate == Fate::Kept {
            text.push_str(here);
            continue;
        }
        // What went and what came in its place stand beside each other, in either order.
        let other =
            words.next_if(|(next, _)| *next != Fate::Kept && next != fate).map_or("", |(_, words)| words.as_str());
        let (old, new) = if *fate == Fate::Gone { (here.as_str(), other) } else { (other, here.as_str()) };
        let said = |words: &str, paint| match words.trim() {
            "" => "nothing".to_owned(),
            words => style.paint(paint, words),
        };
        text.push_str(&format!("({} → {})", said(old, Paint::Red), said(new, Paint::Green)));
        if here.ends_with(' ') || other.ends_with(' ') {
            text.push(' ');
        }
    }
    text.trim_end().to_owned()
}

fn figures(out: &mut String, all: &[(String, Shown)], style: Style) {
    let widest = all.iter().map(|(what, _)| what.width()).max().unwrap_or(0).min(style.width / 2);
    for (what, shown) in all {
        let dots = ".".repeat(widest.saturating_sub(what.width()) + 3);
        let first = format!("  {} {dots} ", clean(what));
        line(out, &wrap(&clean(&shown.to_string()), style.width, &first, &" ".repeat(widest + 8)));
    }
}

fn rows(out: &mut String, rows: &Rows, style: Style) {
    let (Rows::Buy(groups) | Rows::Weigh(groups)) = rows;
    let widest = |items: &mut dyn Iterator<Item = &Item>| items.map(|one| one.amount.to_string().width()).max();
    // A basket is one column over all shelves, a bin has its own.
    let over_all = widest(&mut groups.iter().flat_map(|group| &group.items)).unwrap_or(0);
    for group in groups {
        let all = if group.all.is_empty() { String::new() } else { format!(": {}", group.all) };
        if !group.name.is_empty() {
            line(out, &style.paint(Paint::Bold, &clean(&format!("{}{all}", group.name))));
        }
        let width = match rows {
            Rows::Buy(_) => over_all,
            Rows::Weigh(_) => widest(&mut group.items.iter()).unwrap_or(0),
        };
        for Item { amount, name, remarks } in &group.items {
            let remarks = match (rows, remarks.join(", ")) {
                (_, remarks) if remarks.is_empty() => remarks,
                (Rows::Buy(_), remarks) => format!(" ({remarks})"),
                (Rows::Weigh(_), remarks) => format!(", {remarks}"),
            };
            let amount = amount.to_string();
            let first = format!("  {}{amount}  ", " ".repeat(width.saturating_sub(amount.width())));
            line(out, &wrap(&clean(&format!("{name}{remarks}")), style.width, &first, &" ".repeat(width + 4)));
        }
    }
}

fn step(out: &mut String, step: &Step, style: Style) {
    let name = clean(&step.name);
    let first = format!("{:>2} {} ", step.number, mark(step.kind));
    let words = wrap(&format!("{name}: {}", clean(&step.facts)), style.width, &first, "     ");
    // Only words of the line are bold; what colours them would count as letters.
    let bold = || words.strip_prefix(&first)?.strip_prefix(&*name).map(|rest| (style.paint(Paint::Bold, &name), rest));
    match bold() {
        Some((name, rest)) => line(out, &format!("{first}{name}{rest}")),
        None => line(out, &words),
    }
    if !step.prose.is_empty() {
        line(out, &wrap_paragraphs(&step.prose.plain(), style.width, "     ", "     "));
    }
    if !step.cue.is_empty() {
        line(out, &wrap(&format!("→ until {}", step.cue.plain()), style.width, "     ", "       "));
    }
}

fn clock(out: &mut String, all: &[Moment], style: Style) {
    let width = all.iter().map(|one| one.from.width().max(one.to.width())).max().unwrap_or(0);
    for Moment { from, to, kind, what } in all {
        let first = format!("  {from:>width$} – {to:>width$}  {} ", mark(*kind));
        line(out, &wrap(&clean(what), style.width, &first, &" ".repeat(width * 2 + 9)));
    }
}

fn table(out: &mut String, table: &Table, style: Style) {
    let gap = if table.frame == Frame::Read { "   " } else { "  " };
    if style.on_screen && table.frame != Frame::Weigh && narrow::whole_width(table, gap.len()) > style.width {
        return narrow::draw(out, table, gap.len(), style);
    }
    // A log's dates and revisions keep their columns, however short they are.
    let least = |head: &str| match (table.frame, head) {
        (Frame::Log, "date") => 10,
        _ => 0,
    };
    let cell = |cells: &[Phrase], at: usize| cells.get(at).map_or(0, |cell| flat(&cell.text).width());
    let widths: Vec<usize> = table
        .columns
        .iter()
        .enumerate()
        .map(|(at, column)| {
            let rows = table.rows.iter().map(|row| cell(&row.cells, at));
            // What is weighed out needs no head over its names.
            let head = if table.frame == Frame::Weigh && at == 0 { 0 } else { column.head.width() };
            rows.chain([head, least(&column.head)]).max().unwrap_or(0)
        })
        .collect();
    let used: Vec<bool> = (0..table.columns.len())
        .map(|at| {
            table.frame != Frame::Weigh
                || at == 0
                || table.rows.iter().any(|row| row.cells.get(at).is_some_and(|cell| !cell.text.is_empty()))
        })
        .collect();
    let others: usize = widths.iter().zip(&used).skip(1).filter(|(_, used)| **used).map(|(width, _)| width + 2).sum();
    let mut first_width = widths.first().copied().unwrap_or(0);
    if table.frame == Frame::Weigh {
        // Names give way before figures do.
        first_width = first_width.min(style.width.saturating_sub(others + 2).max(16));
    }
    let set = |out: &mut String, cells: &[&str], paint: Paint| {
        let name = cells.first().copied().unwrap_or("");
        let names =
            if table.frame == Frame::Weigh { wrap_lines(name, first_width) } else { vec![flat(name).into_owned()] };
        let mut text = String::from("  ");
        let first = names.first().map_or("", String::as_str);
        let _ = write!(text, "{first}{}", " ".repeat(first_width.saturating_sub(first.width())));
        for (at, (cell, column)) in cells.iter().zip(&table.columns).enumerate().skip(1) {
            if used.get(at) != Some(&true) {
                continue;
            }
            let cell = flat(cell);
            let room = " ".repeat(widths.get(at).map_or(0, |width| width.saturating_sub(cell.width())));
            let _ = match column.side {
                Side::Left => write!(text, "{gap}{cell}{room}"),
                Side::Right => write!(text, "{gap}{room}{cell}"),
            };
        }
        line(out, &style.paint(paint, text.trim_end()));
        for more in names.iter().skip(1) {
            line(out, &format!("    {more}"));
        }
    };
    if table.has_head() {
        let heads: Vec<&str> = table.columns.iter().map(|column| column.head.as_str()).collect();
        let paint = match table.frame {
            Frame::Weigh => Paint::Dim,
            Frame::Log => Paint::Bold,
            Frame::Read | Frame::Sheet | Frame::Run => Paint::None,
        };
        match (table.frame, heads.as_slice()) {
            (Frame::Weigh, [_, rest @ ..]) => set(out, &[&[""], rest].concat(), paint),
            _ => set(out, &heads, paint),
        }
    }
    for row in &table.rows {
        let cells: Vec<&str> = row.cells.iter().map(|cell| cell.text.as_str()).collect();
        set(out, &cells, row.paint);
        if let Some(why) = &row.instead {
            line(out, &wrap(&flat(why), style.width, "              ", "              "));
        }
    }
}

/// The least room for what the last column of a run sheet says; with less it goes below the others.
const LEAST_ROOM: usize = 24;

/// Rows without a head, as wide as what they say. The last column is broken into lines where it does not fit; where hardly
/// any room is left, it stands below the others, with those that do not fit either.
fn run_sheet(out: &mut String, table: &Table, style: Style) {
    let last = table.columns.len().saturating_sub(1);
    let width = |at: usize| table.rows.iter().filter_map(|row| row.cells.get(at)).map(|cell| cell.text.width()).max();
    let widths: Vec<usize> = (0..last).map(|at| width(at).unwrap_or(0) + 2).collect();
    let used: usize = widths.iter().sum();
    let fits = widths.iter().scan(0, |used, width| {
        *used += width;
        Some(*used)
    });
    let beside =
        if used + LEAST_ROOM <= style.width { last } else { fits.filter(|end| *end <= style.width + 2).count().max(1) };
    for row in &table.rows {
        let mut text = String::new();
        for (cell, width) in row.cells.iter().zip(&widths).take(beside) {
            let _ = write!(text, "{}{}", cell.text, " ".repeat(width.saturating_sub(cell.text.width())));
        }
        let rest = row.cells.iter().skip(beside).map(|cell| cell.text.as_str()).filter(|cell| !cell.is_empty());
        let rest = rest.collect::<Vec<&str>>().join("; ");
        let text = match rest.is_empty() {
            true => text.trim_end().to_owned(),
            false if used + LEAST_ROOM <= style.width => wrap(&rest, style.width, &text, &" ".repeat(used)),
            false => format!("{}\n{}", text.trim_end(), wrap(&rest, style.width, "    ", "    ")),
        };
        line(out, &style.paint(row.paint, &text));
    }
}

/// Text from a file or a commit that stays on its line.
fn flat(text: &str) -> std::borrow::Cow<'_, str> {
    if text.contains('\n') { text.replace('\n', " ").into() } else { text.into() }
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

/// Words broken into lines of some room, a figure with its unit.
pub fn broken(words: &str, room: usize) -> Vec<String> {
    wrap_lines(words, room)
}

fn wrap_lines(text: &str, room: usize) -> Vec<String> {
    if !text.starts_with(' ') && text.width() <= room {
        return vec![text.to_owned()];
    }
    let mut lines = vec![String::new()];
    let mut used = 0;
    for word in unbroken(text) {
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
            line.push_str(&word);
        }
        used += width;
    }
    lines
}

/// Words, a figure with its unit as one.
fn unbroken(text: &str) -> Vec<String> {
    let mut words: Vec<String> = Vec::new();
    for word in text.split(' ') {
        match words.last_mut().filter(|last| typeset::are_tied(last, word)) {
            Some(figure) => {
                figure.push(' ');
                figure.push_str(word);
            }
            None => words.push(word.to_owned()),
        }
    }
    words
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_line_is_not_broken_between_a_figure_and_its_unit() {
        assert_eq!(wrap_lines("Add 0.630 kg butter", 10), ["Add", "0.630 kg", "butter"]);
    }
}
