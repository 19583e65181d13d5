//! Prose as paragraphs and lists, with amounts set in.

use super::frame::{Frame, HAIR, SOFT};
use super::paragraph::{self, Setting, Words};
use super::tags::{Node, Role};
use super::{Press, plain};
use crate::language::prose::{Insert, Prose};
use pulldown_cmark::{Event, Tag, TagEnd};

/// How prose is set.
#[derive(Debug, Clone, Copy)]
pub(super) struct Look {
    /// Type size in points.
    pub(super) size: f32,
    /// The room in points.
    pub(super) width: f32,
    /// Whether all of it is bold.
    pub(super) bold: bool,
}

/// A level of lists: the number of the next item, or bullets.
struct Level {
    next: Option<u64>,
    list: Node,
}

/// Prose while it is set.
struct Setter<'a, 'p> {
    press: &'a mut Press<'p>,
    look: Look,
    parent: Node,
    frame: Frame,
    words: Vec<Words>,
    bold: usize,
    quotes: usize,
    levels: Vec<Level>,
    /// The label of the item that has just begun.
    label: Option<String>,
    /// Items that are open.
    bodies: Vec<Node>,
}

/// Sets prose; `lead` stands before its first words.
pub(super) fn set(press: &mut Press<'_>, prose: &Prose, lead: &[Words], look: Look, parent: Node) -> Frame {
    let mut inserts = Vec::new();
    // An insert travels through the events as its number.
    let events = prose.events(|insert| {
        inserts.push(insert.clone());
        vec![Event::InlineHtml((inserts.len() - 1).to_string().into())]
    });
    let mut setter = Setter {
        press,
        look,
        parent,
        frame: Frame::default(),
        words: lead.to_vec(),
        bold: 0,
        quotes: 0,
        levels: Vec::new(),
        label: None,
        bodies: Vec::new(),
    };
    for event in events {
        setter.event(event, &inserts);
    }
    setter.end_paragraph();
    setter.frame
}

impl Setter<'_, '_> {
    fn event(&mut self, event: Event<'_>, inserts: &[Insert]) {
        match event {
            Event::Text(text) | Event::Code(text) => self.push_lines(&text),
            Event::InlineHtml(number) => {
                let insert = number.parse::<usize>().ok().and_then(|at| inserts.get(at));
                self.insert(insert);
            }
            Event::SoftBreak => self.push(" "),
            Event::HardBreak => self.end_paragraph(),
            Event::Rule => {
                self.end_paragraph();
                let size = self.look.size;
                self.frame.fill(0.0, self.frame.height + size * 0.5, self.look.width, size * 0.08, HAIR);
                self.frame.height += size;
            }
            Event::Start(Tag::Strong | Tag::Emphasis | Tag::Heading { .. }) => self.bold += 1,
            Event::End(TagEnd::Strong | TagEnd::Emphasis) => self.bold = self.bold.saturating_sub(1),
            Event::End(TagEnd::Heading(_)) => {
                self.end_paragraph();
                self.bold = self.bold.saturating_sub(1);
            }
            Event::Start(Tag::BlockQuote(_)) => self.quotes += 1,
            Event::End(TagEnd::BlockQuote(_)) => {
                self.end_paragraph();
                self.quotes = self.quotes.saturating_sub(1);
            }
            Event::Start(Tag::List(first)) => {
                self.end_paragraph();
                let parent = self.bodies.last().copied().unwrap_or(self.parent);
                let list = self.press.tags.add(Some(parent), Role::List(first.is_some()));
                self.levels.push(Level { next: first, list });
            }
            Event::End(TagEnd::List(_)) => {
                self.end_paragraph();
                self.levels.pop();
            }
            Event::Start(Tag::Item) => self.item(),
            Event::End(TagEnd::Item) => {
                self.end_paragraph();
                // An item without words is still there to be seen.
                if self.label.is_some() {
                    self.words.push(Words::new(" ", self.look.size));
                    self.end_paragraph();
                }
                self.bodies.pop();
            }
            Event::End(TagEnd::Paragraph | TagEnd::CodeBlock) => self.end_paragraph(),
            _ => {}
        }
    }

    fn item(&mut self) {
        self.end_paragraph();
        let Some(level) = self.levels.last_mut() else { return };
        let label = match &mut level.next {
            Some(next) => {
                let label = format!("{next}.");
                *next = next.saturating_add(1);
                label
            }
            None => "•".to_owned(),
        };
        let item = self.press.tags.add(Some(level.list), Role::ListItem);
        let label_node = self.press.tags.add(Some(item), Role::Label);
        let body = self.press.tags.add(Some(item), Role::ListBody);
        self.bodies.push(body);
        self.label = Some(label);
        self.press.label_node = Some(label_node);
    }

    /// Text of which every line end counts, as in a block of code.
    fn push_lines(&mut self, text: &str) {
        let mut lines = text.split('\n').peekable();
        while let Some(line) = lines.next() {
            self.push(line);
            if lines.peek().is_some() {
                self.end_paragraph();
            }
        }
    }

    fn push(&mut self, text: &str) {
        if text.is_empty() {
            return;
        }
        let words = Words::new(plain(text), self.look.size);
        self.words.push(if self.bold > 0 || self.look.bold { words.bold() } else { words });
    }

    fn insert(&mut self, insert: Option<&Insert>) {
        let size = self.look.size;
        let bold = |text: &str| Words::new(plain(text), size).bold();
        match insert {
            None => {}
            Some(Insert::Measure(shown)) => self.words.push(bold(&shown.to_string()).unbroken()),
            Some(Insert::Each { amount, ingredient }) => {
                self.words.push(bold(ingredient));
                self.push(" (");
                self.words.push(bold(&format!("{amount} each")).unbroken());
                self.push(")");
            }
            Some(Insert::Amount { before, amount, of, ingredient }) => {
                if !before.is_empty() {
                    self.push(before);
                    self.push(" ");
                }
                if !amount.is_empty() {
                    let of = if of.is_empty() { String::new() } else { format!(" {of}") };
                    self.words.push(bold(&format!("{amount}{of}")).unbroken());
                    self.words.push(bold(" "));
                }
                self.words.push(bold(ingredient));
            }
        }
    }

    fn end_paragraph(&mut self) {
        let words = std::mem::take(&mut self.words);
        if words.iter().all(|one| one.text.trim().is_empty()) && self.label.is_none() {
            return;
        }
        if words.is_empty() {
            self.words = words;
            return;
        }
        let size = self.look.size;
        // Deep lists on a small card keep half of the width.
        let indent = ((self.levels.len() + self.quotes) as f32 * size * 1.25).min(self.look.width / 2.0);
        let parent = self.bodies.last().copied().unwrap_or(self.parent);
        let node = self.press.tags.add(Some(parent), Role::Paragraph);
        let setting = Setting::left(self.look.width - indent, 1.35);
        let set = paragraph::set(self.press.faces, &words, setting, Some(node));
        let gap = if self.frame.height > 0.0 { size * 0.25 } else { 0.0 };
        let top = self.frame.height + gap;
        if self.quotes > 0 {
            self.frame.fill(indent - size * 0.7, top, size * 0.15, set.height, SOFT);
        }
        self.frame.append(set, indent, gap);
        if let Some(label) = self.label.take() {
            let label_node = self.press.label_node.take();
            let words = [Words::new(label, size)];
            let wide = paragraph::width(self.press.faces, &words);
            let label = paragraph::set(self.press.faces, &words, Setting::left(f32::INFINITY, 1.35), label_node);
            self.frame.place(label, (indent - wide - size * 0.35).max(0.0), top);
        }
    }
}
