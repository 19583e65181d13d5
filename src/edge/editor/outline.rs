//! The outline of a file: its parts with their ingredients and steps, its blocks, its orders.

use super::view::View;
use crate::language::syntax::{BookLine, Content, FileKind, WantedAmount};
use crate::text::source::Span;

/// What an entry is; the editor shows a picture for it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum EntryKind {
    Title,
    Part,
    Ingredient,
    Step,
    Block,
    Equipment,
    Order,
}

/// An entry of the outline.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Entry {
    /// As it is shown.
    pub name: String,
    /// The amount or the time.
    pub detail: String,
    /// What it is.
    pub kind: EntryKind,
    /// All its lines.
    pub span: Span,
    /// Its name.
    pub name_span: Span,
    /// What is in it.
    pub inside: Vec<Entry>,
}

/// The entries of a file.
pub(super) fn outline(view: &View) -> Vec<Entry> {
    let tree = view.tree();
    let mut top: Vec<Entry> = Vec::new();
    for line in &tree.lines {
        let entry = |name: &str, detail: &str, kind: EntryKind, name_span: Span| Entry {
            name: name.to_owned(),
            detail: detail.to_owned(),
            kind,
            span: line.span,
            name_span,
            inside: Vec::new(),
        };
        match &line.content {
            Content::Recipe(name) | Content::Kitchen(name) | Content::Day(name) => {
                top.push(entry(&name.text, "", EntryKind::Title, name.span));
            }
            Content::Part { name, from } => {
                let detail = from.as_ref().map(|from| format!("from {from}")).unwrap_or_default();
                top.push(entry(&name.text, &detail, EntryKind::Part, name.span));
            }
            Content::IngredientBlock(name) => top.push(entry(&name.text, "", EntryKind::Block, name.span)),
            Content::Ingredient(written) => {
                let inner = entry(
                    &written.name.text,
                    view.slice(written.amount.span()),
                    EntryKind::Ingredient,
                    written.name.span,
                );
                put(&mut top, inner);
            }
            Content::Step(step) => {
                let detail = format!("{} {}", step.kind.value.word(), view.slice(step.duration.span));
                put(&mut top, entry(&step.name.text, &detail, EntryKind::Step, step.name.span));
            }
            Content::Equipment { name, count, .. } if tree.kind == FileKind::Kitchen => {
                put(&mut top, entry(&name.text, &format!("x {}", count.value), EntryKind::Equipment, name.span));
            }
            Content::Make { wanted, path, .. } => {
                let wanted = match wanted {
                    WantedAmount::Quantity(quantity) => view.slice(quantity.span).to_owned(),
                    WantedAmount::Sorts(sorts) => {
                        let each = sorts.iter().map(|(count, sort)| format!("{} {sort}", view.slice(count.span)));
                        each.collect::<Vec<String>>().join(" and ")
                    }
                };
                put(&mut top, entry(&path.value, &wanted, EntryKind::Order, path.span));
            }
            Content::OfBook(line) => match &**line {
                BookLine::Title(words) => top.push(entry(&words.value, "", EntryKind::Title, words.span)),
                BookLine::Chapter(words) => top.push(entry(&words.value, "", EntryKind::Part, words.span)),
                BookLine::Page { path, .. } => put(&mut top, entry(&path.value, "", EntryKind::Order, path.span)),
                BookLine::By(_) | BookLine::Address(_) => {}
            },
            Content::Prose(_) | Content::Until(_) | Content::Picture(_) if line.continues => {
                if let Some(last) = top.last_mut().and_then(|part| part.inside.last_mut()) {
                    last.span = last.span.to(line.span);
                }
            }
            Content::Blank | Content::Comment => continue,
            _ => {}
        }
        if let Some(last) = top.last_mut() {
            last.span = last.span.to(line.span);
        }
    }
    for entry in top.iter_mut().flat_map(|entry| entry.inside.iter_mut().chain([])) {
        name_it(entry);
    }
    top.iter_mut().for_each(name_it);
    top
}

fn put(top: &mut Vec<Entry>, entry: Entry) {
    match top.last_mut() {
        Some(last) => last.inside.push(entry),
        None => top.push(entry),
    }
}

/// The protocol wants a name, and the name's place inside the whole.
fn name_it(entry: &mut Entry) {
    if entry.name.trim().is_empty() {
        entry.name = "(no name)".to_owned();
    }
    let inside = entry.span.start <= entry.name_span.start && entry.name_span.end <= entry.span.end;
    if !inside {
        entry.name_span = entry.span;
    }
}
