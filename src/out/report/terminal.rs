//! Problems as a compiler shows them: the line, what is wrong under it, and what to do.

use super::{clean, clean_in_place, on_one_line};
use crate::text::diagnostic::{Diagnostic, Mend, Severity};
use crate::text::source::{Source, Sources, Span};
use annotate_snippets::renderer::DecorStyle;
use annotate_snippets::{AnnotationKind, Group, Level, Patch, Renderer, Snippet};
use std::ops::Range;

/// Renders one problem, ending in a line break.
pub fn render(sources: &Sources, diagnostic: &Diagnostic, colour: bool, width: usize) -> String {
    let level = match diagnostic.severity {
        Severity::Error => Level::ERROR,
        Severity::Warning => Level::WARNING,
        Severity::Advice => Level::INFO.with_name("advice"),
    };
    let title = level.primary_title(clean(&diagnostic.said()).into_owned()).id(diagnostic.check);
    let mut group = Group::with_title(title);
    for snippet in snippets(sources, diagnostic) {
        group = group.element(snippet);
    }
    if let Some(more) = diagnostic.also.len().checked_sub(MOST_PLACES).filter(|more| *more > 0) {
        group = group.element(Level::NOTE.message(format!("{more} more such places are not shown")));
    }
    if let Some(help) = &diagnostic.help {
        group = group.element(Level::HELP.message(clean(help)));
    }
    let mut groups = vec![group];
    // A mend that only repeats the help would say the same thing twice.
    if let Some(mend) = diagnostic.mend.as_ref().filter(|mend| mend.edits.len() == 1 && diagnostic.help.is_none()) {
        groups.extend(mend_group(sources, mend));
    }
    let renderer = if colour { Renderer::styled() } else { Renderer::plain() };
    let renderer = renderer.decor_style(DecorStyle::Unicode).term_width(width);
    let mut text = renderer.render(&groups);
    text.push('\n');
    text
}

/// So many places are shown beside the main one: under one line each of them takes a line, as wide as all of them.
const MOST_PLACES: usize = 20;

/// Places so far apart are shown by themselves; the lines between them would say nothing.
const NEAR_BYTES: u32 = 4000;

/// One snippet for each neighbourhood involved, that of the main place first.
fn snippets<'a>(
    sources: &'a Sources,
    diagnostic: &'a Diagnostic,
) -> Vec<Snippet<'a, annotate_snippets::Annotation<'a>>> {
    let main = Place { span: diagnostic.span, text: &diagnostic.label, is_main: true };
    let mut groups: Vec<Vec<Place<'_>>> = vec![vec![main]];
    for label in diagnostic.also.iter().take(MOST_PLACES) {
        let place = Place { span: label.span, text: &label.text, is_main: false };
        let near = groups.iter_mut().find(|group| {
            group.first().is_some_and(|first| {
                first.span.source == place.span.source && first.span.start.abs_diff(place.span.start) <= NEAR_BYTES
            })
        });
        match near {
            Some(group) => group.push(place),
            None => groups.push(vec![place]),
        }
    }
    groups.iter().filter_map(|group| snippet(sources, group)).collect()
}

/// A place with what is said of it.
struct Place<'a> {
    span: Span,
    text: &'a str,
    is_main: bool,
}

fn snippet<'a>(sources: &'a Sources, group: &[Place<'a>]) -> Option<Snippet<'a, annotate_snippets::Annotation<'a>>> {
    let source = sources.get(group.first()?.span.source)?;
    let spans: Vec<Span> = group.iter().map(|place| place.span).collect();
    let window = Window::around(source, &spans)?;
    let mut snippet =
        Snippet::source(clean_in_place(window.text)).line_start(window.first_line).path(on_one_line(&source.name));
    for place in group {
        let kind = if place.is_main { AnnotationKind::Primary } else { AnnotationKind::Context };
        let mut annotation = kind.span(window.local(place.span));
        if !place.text.is_empty() {
            annotation = annotation.label(clean(place.text));
        }
        snippet = snippet.annotation(annotation);
    }
    Some(snippet)
}

/// The lines of a text that hold some places; the renderer need not see the rest of a large file.
struct Window<'a> {
    text: &'a str,
    start: usize,
    first_line: usize,
}

impl<'a> Window<'a> {
    fn around(source: &'a Source, spans: &[Span]) -> Option<Window<'a>> {
        let start = spans.iter().map(|span| span.start as usize).min()?.min(source.text.len());
        let end = spans.iter().map(|span| span.end as usize).max()?.min(source.text.len());
        let line_start = source.text.get(..start)?.rfind(['\n', '\r']).map_or(0, |at| at + 1);
        let line_end = source.text.get(end..)?.find(['\n', '\r']).map_or(source.text.len(), |at| end + at);
        let first_line = source.position(u32::try_from(line_start).ok()?).line;
        Some(Window { text: source.text.get(line_start..line_end)?, start: line_start, first_line })
    }

    fn local(&self, span: Span) -> Range<usize> {
        let shift = |at: u32| (at as usize).saturating_sub(self.start).min(self.text.len());
        shift(span.start)..shift(span.end)
    }
}

fn mend_group<'a>(sources: &'a Sources, mend: &'a Mend) -> Option<Group<'a>> {
    let edit = mend.edits.first()?;
    let source = sources.get(edit.span.source)?;
    let window = Window::around(source, &[edit.span])?;
    let snippet = Snippet::source(clean_in_place(window.text))
        .line_start(window.first_line)
        .path(on_one_line(&source.name))
        .patch(Patch::new(window.local(edit.span), clean(&edit.text)));
    Some(Level::HELP.secondary_title(clean(&mend.title)).element(snippet))
}
