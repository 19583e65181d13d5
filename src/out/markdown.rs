//! Blocks as CommonMark with tables, readable also as it stands.

use super::block::{
    Alarm, BeforeAndNow, Block, Change, ChangedStep, Fate, Frame, Group, Heading, Moment, Phrase, Rows, Side, Step,
    Table, Tone, Voice, sentence,
};
use super::report::clean;
use crate::language::prose::{Insert, Prose};
use pulldown_cmark::{Event, Tag, TagEnd};
use pulldown_cmark_to_cmark::cmark;
use std::fmt::Write;

/// Renders a page: its blocks with a free line between them.
pub fn render(blocks: &[Block]) -> String {
    below(0, blocks)
}

/// Renders a page that stands below so many headings of something else, as in a review comment.
pub fn below(headings: usize, blocks: &[Block]) -> String {
    let mut all = Vec::new();
    collect(headings, blocks, &mut all);
    // Nothing to say is an empty file and not an empty line: scripts ask whether there is anything in it.
    if all.is_empty() { String::new() } else { all.join("\n\n") + "\n" }
}

fn collect(above: usize, blocks: &[Block], all: &mut Vec<String>) {
    for block in blocks {
        match block {
            Block::Gap | Block::Picture(_) => {}
            Block::Section(blocks) => collect(above, blocks, all),
            Block::Heading(heading) => all.push(self::heading(above, heading)),
            Block::Text(text) => all.push(joined(&text.runs)),
            Block::Care(text) => all.push(format!("> **Caution.** {}", escaped(text))),
            Block::Prose(voice, text) => all.push(said(*voice, &prose(text))),
            Block::Facts(bullets) | Block::Bullets(bullets) => {
                let lines: Vec<String> = bullets.iter().map(|runs| format!("- {}", joined(runs))).collect();
                all.push(lines.join("\n"));
            }
            Block::Alarm(Alarm { what, of, .. }) => all.push(format!("> **{what}: {}**", escaped(of))),
            Block::Changes(changes) => self::changes(changes, all),
            Block::Figures(figures) => {
                let mut rows = vec![row(["sum", "figure"]), "|---|--:|".to_owned()];
                rows.extend(figures.iter().map(|(what, shown)| row([escaped(what), escaped(&shown.to_string())])));
                if !figures.is_empty() {
                    all.push(rows.join("\n"));
                }
            }
            Block::Rows(Rows::Buy(shelves)) => {
                for shelf in shelves {
                    if !shelf.name.is_empty() {
                        all.push(format!("{} {}", "#".repeat(above + 3), escaped(&shelf.name)));
                    }
                    let mut rows = vec![row(["ingredient", "amount", "and"]), "|---|--:|---|".to_owned()];
                    rows.extend(shelf.items.iter().map(|one| {
                        row([&one.name, &one.amount.to_string(), &one.remarks.join(", ")].map(|cell| escaped(cell)))
                    }));
                    all.push(rows.join("\n"));
                }
            }
            Block::Rows(Rows::Weigh(bins)) => all.push(self::bins(bins)),
            Block::Table(table) => all.push(self::table(table)),
            Block::Steps(steps) => steps.iter().for_each(|step| self::step(step, all)),
            Block::Clock(moments) => {
                let mut rows = vec![row(["from", "to", "", "step"]), "|--:|--:|---|---|".to_owned()];
                let cells = |one: &Moment| {
                    row([one.from.clone(), one.to.clone(), one.kind.word().to_owned(), escaped(&one.what)])
                };
                rows.extend(moments.iter().map(cells));
                all.push(rows.join("\n"));
            }
            Block::Remarks(remarks) => {
                let lines: Vec<String> = remarks.iter().map(|one| escaped(&sentence(one))).collect();
                all.push(lines.join("\n"));
            }
            Block::Source(topic) => all.push(format!("Formula and sources: `miche explain {topic}`")),
            Block::Rule => all.push("---".to_owned()),
        }
    }
}

/// Amounts as a table, everything else as a list below it.
fn changes(changes: &[Change], all: &mut Vec<String>) {
    let mut table = vec!["| | before | now | |".to_owned(), "|---|--:|--:|---|".to_owned()];
    let mut list: Vec<String> = Vec::new();
    for change in changes {
        match change {
            Change::Line(one) => {
                let cells = [one.whole_name(), one.old.to_string(), one.new.to_string(), one.remark.clone()];
                table.push(row(cells.map(|cell| escaped(&cell))));
            }
            Change::Figure(one) => list.push(format!("- {}", before_and_now(one))),
            Change::Said(words, _) => list.push(format!("- {}", joined(words))),
            Change::Step(step) => list.push(changed_step(step)),
        }
    }
    if table.len() > 2 {
        all.push(table.join("\n"));
    }
    if !list.is_empty() {
        all.push(list.join("\n"));
    }
}

fn before_and_now(one: &BeforeAndNow) -> String {
    let side = |shown| match BeforeAndNow::side(shown) {
        words if shown.is_empty() => words,
        figure => format!("**{}**", escaped(&figure)),
    };
    format!("{}: {} → {}", escaped(&one.what), side(&one.old), side(&one.new))
}

fn changed_step(step: &ChangedStep) -> String {
    let mut facts: Vec<String> = step.happened.iter().map(|what| (*what).to_owned()).collect();
    facts.extend(step.figures.iter().map(before_and_now));
    let facts = if facts.is_empty() { step.of_words().to_owned() } else { facts.join("; ") };
    let line = format!("- step **{}**{}: {facts}", escaped(&step.name), escaped(&step.beside));
    if step.words.is_empty() {
        return line;
    }
    let words = step.marked(|fate, words| match fate {
        Fate::Kept => escaped(words),
        Fate::Gone => format!("<del>{}</del>", escaped(words)),
        Fate::New => format!("<ins>{}</ins>", escaped(words)),
    });
    format!("{line}\n  <details><summary>words</summary>\n\n  {words}\n\n  </details>")
}

fn heading(above: usize, heading: &Heading) -> String {
    let remark = heading.remark.as_ref().map_or_else(String::new, |remark| format!(" ({})", escaped(remark)));
    format!("{} {}{remark}", "#".repeat(above + heading.level), escaped(&heading.text))
}

fn joined(runs: &[Phrase]) -> String {
    runs.iter().map(toned).collect()
}

fn toned(run: &Phrase) -> String {
    let text = escaped(&run.text);
    match run.tone {
        _ if text.is_empty() => text,
        Tone::Plain => text,
        Tone::Quiet => marked(&text, "*"),
        Tone::Strong | Tone::Amount => marked(&text, "**"),
        Tone::Typed => format!("`{}`", clean(&run.text)),
    }
}

/// Marks stand at the words: behind a blank, `**so **`, CommonMark takes them for stars.
fn marked(text: &str, mark: &str) -> String {
    let words = text.trim_matches(' ');
    if words.is_empty() { text.to_owned() } else { text.replacen(words, &format!("{mark}{words}{mark}"), 1) }
}

fn said(voice: Voice, text: &str) -> String {
    match voice {
        Voice::Caution => format!("> **Caution:** {}", text.replace('\n', "\n> ")),
        Voice::Note | Voice::PartNote => text.to_owned(),
        Voice::Credit => format!("*{text}*"),
    }
}

fn table(table: &Table) -> String {
    let rule: String = table
        .columns
        .iter()
        .map(|column| match (column.side, table.frame) {
            (Side::Left, _) => "---|",
            (Side::Right, Frame::Log) => "---:|",
            (Side::Right, _) => "--:|",
        })
        .collect();
    let mut lines = vec![row(table.columns.iter().map(|column| escaped(&column.head))), format!("|{rule}")];
    for one in &table.rows {
        let mut cells: Vec<String> = one.cells.iter().map(toned).collect();
        if let (Some(why), Some(last)) = (&one.instead, cells.last_mut()) {
            let _ = write!(last, " — **{}**", escaped(why));
        }
        lines.push(row(cells));
    }
    lines.join("\n")
}

/// What to weigh out in one table: the name of a bin once, beside what first goes out of it.
fn bins(bins: &[Group]) -> String {
    let mut rows = vec![row(["ingredient", "in all", "for", "amount"]), "|---|--:|---|--:|".to_owned()];
    for bin in bins {
        let (mut name, mut in_all) = (bin.name.clone(), bin.all.to_string());
        for one in &bin.items {
            let what: Vec<&str> = std::iter::once(&one.name).chain(&one.remarks).map(String::as_str).collect();
            let cells =
                [std::mem::take(&mut name), std::mem::take(&mut in_all), what.join(", "), one.amount.to_string()];
            rows.push(row(cells.map(|cell| escaped(&cell))));
        }
    }
    rows.join("\n")
}

fn row(cells: impl IntoIterator<Item = impl Into<String>>) -> String {
    let cells: Vec<String> = cells.into_iter().map(Into::into).collect();
    format!("| {} |", cells.join(" | "))
}

fn step(step: &Step, all: &mut Vec<String>) {
    all.push(format!("{}. **{}** — {}", step.number, escaped(&step.name), escaped(&step.facts)));
    if !step.prose.is_empty() {
        let text = prose(&step.prose);
        let lines = text.lines().map(|line| if line.is_empty() { String::new() } else { format!("   {line}") });
        all.push(lines.collect::<Vec<String>>().join("\n"));
    }
    if !step.cue.is_empty() {
        all.push(format!("   → until {}", prose(&step.cue)));
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
    let clean = clean(text);
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
