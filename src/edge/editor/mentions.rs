//! Every place of a file that names something, and what.

use super::scope::{Current, Scope, Thing};
use crate::language::syntax::{
    BookLine, Content, FileKind, IngredientClause, IngredientLine, Key, Line, MakeClause, Name, PageClause, PercentOf,
    Piece, StepClause, StepLine,
};
use crate::model::aim::Figure;
use crate::model::project::Project;
use crate::text::source::{SourceId, Span};

/// One place that names something.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Mention {
    /// The name, without what stands around it.
    pub span: Span,
    /// What it names.
    pub thing: Thing,
    /// Whether it says that the thing exists, and does not only point to it.
    pub defines: bool,
}

/// All mentions of a file, in the order of their places.
pub(super) fn mentions(project: &Project, scope: &Scope) -> Vec<Mention> {
    let Some(file) = project.file(scope.source) else { return Vec::new() };
    let mut finder = Finder { project, scope, found: Vec::new(), part: None };
    let mut current = Current::of(&file.tree);
    for line in &file.tree.lines {
        current.enter(line);
        finder.part.clone_from(&current.part);
        finder.line(line, file.tree.kind);
    }
    finder.found.sort_by_key(|mention| mention.span);
    finder.found
}

/// The mention at a place; of two that meet there, the one that begins.
pub(super) fn at(mentions: &[Mention], offset: usize) -> Option<&Mention> {
    mentions.iter().rev().find(|mention| {
        let range = mention.span.range();
        range.start <= offset && offset <= range.end
    })
}

struct Finder<'p> {
    project: &'p Project,
    scope: &'p Scope,
    found: Vec<Mention>,
    part: Option<Key>,
}

impl Finder<'_> {
    fn add(&mut self, span: Span, thing: Thing, defines: bool) {
        if span.start < span.end {
            self.found.push(Mention { span, thing, defines });
        }
    }

    fn line(&mut self, line: &Line, kind: FileKind) {
        let source = self.scope.source;
        for option in &line.only {
            self.add(option.span, Thing::Taken(source, option.key.clone()), false);
        }
        match &line.content {
            Content::Recipe(name) if self.scope.own.implicit => {
                self.add(name.span, Thing::Part(source, name.key.clone()), true);
            }
            Content::Use(path) => self.file(path.span),
            Content::Choose { name, options } => {
                self.add(name.span, Thing::Choice(source, name.key.clone()), true);
                for option in options {
                    self.add(option.span, Thing::Taken(source, option.key.clone()), true);
                }
            }
            Content::Part { name, from } => {
                self.add(name.span, Thing::Part(source, name.key.clone()), true);
                if let Some(from) = from
                    && self.scope.own.by_key.contains_key(&from.key)
                {
                    self.add(from.span, Thing::Part(source, from.key.clone()), false);
                }
            }
            Content::Percent(of) => {
                if let PercentOf::Named(name) = &of.value {
                    self.drawn(name);
                }
            }
            Content::Aim(aim) => {
                if matches!(Figure::of(&aim.figure), Figure::Ingredient(_)) {
                    self.drawn(&aim.figure);
                }
            }
            Content::Ingredient(written) => self.ingredient(written),
            Content::Step(step) => self.step(step),
            Content::Prose(pieces) | Content::Until(pieces) | Content::Text { pieces, .. } => self.prose(pieces),
            Content::IngredientBlock(name) => self.add(name.span, Thing::Larder(source, name.key.clone()), true),
            Content::AlsoCalled(names) => {
                for name in names {
                    self.add(name.span, Thing::Larder(source, name.key.clone()), true);
                }
            }
            Content::Equipment { name, .. } if kind == FileKind::Kitchen => {
                self.add(name.span, Thing::Equipment(source, name.key.clone()), true);
            }
            Content::Store { path, part, .. } => {
                self.file(path.span);
                if let (Some(target), Some(part)) = (self.project.target(path.span), part) {
                    self.add(part.span, Thing::Part(target, part.key.clone()), false);
                }
            }
            Content::Make { path, clauses, part, .. } => {
                self.file(path.span);
                if let (Some(target), Some(part)) = (self.project.target(path.span), part) {
                    self.add(part.span, Thing::Part(target, part.key.clone()), false);
                }
                let Some(target) = self.project.target(path.span) else { return };
                for clause in clauses {
                    let MakeClause::Choose(first, second) = &clause.value else { continue };
                    self.chosen(target, first, second.as_ref());
                }
            }
            // A book is of no revision: its pages are of the recipes as they are. What a log names is of the day on which it was baked.
            Content::OfBook(line) => {
                let BookLine::Page { path, clauses } = &**line else { return };
                self.file(path.span);
                let Some(target) = self.project.target(path.span) else { return };
                for clause in clauses {
                    let PageClause::Choose(first, second) = &clause.value else { continue };
                    self.chosen(target, first, second.as_ref());
                }
            }
            Content::Logged(_) => {
                if let Some(path) = line.content.path() {
                    self.file(path.span);
                }
            }
            _ => {}
        }
    }

    /// `choose hand`, `choose mixing = hand` of another file.
    fn chosen(&mut self, of: SourceId, first: &Name, second: Option<&Name>) {
        let option = second.unwrap_or(first);
        self.add(option.span, Thing::Taken(of, option.key.clone()), false);
        if second.is_some() {
            self.add(first.span, Thing::Choice(of, first.key.clone()), false);
        }
    }

    fn raw(&self, span: Span) -> &str {
        self.project.sources.slice(span)
    }

    fn file(&mut self, span: Span) {
        if let Some(target) = self.project.target(span) {
            self.add(span, Thing::File(target), false);
        }
    }

    fn ingredient(&mut self, written: &IngredientLine) {
        let span = written.name.span;
        let (thing, length) = self.scope.ingredient(self.part.as_ref(), &written.name, self.raw(span));
        let defines = matches!(thing, Thing::Ingredient(..));
        self.add(shortened(span, length), thing, defines);
        for clause in &written.clauses {
            // `before STEP` names a step of the part that is taken.
            let IngredientClause::Before(step) = &clause.value else { continue };
            let part = &written.name.key;
            if let Some(file) = self.scope.part(part).filter(|_| self.scope.has_step(part, &step.key)) {
                self.add(step.span, Thing::Step(file, part.clone(), step.key.clone()), false);
            }
        }
    }

    fn drawn(&mut self, name: &Name) {
        let Some(part) = &self.part else { return };
        let found = self.scope.drawn(part, name, self.raw(name.span));
        if let Some((thing, length)) = found {
            self.add(shortened(name.span, length), thing, false);
        }
    }

    fn prose(&mut self, pieces: &[Piece]) {
        for piece in pieces {
            if let Piece::Use(_, name) = piece {
                self.drawn(name);
            }
        }
    }

    fn step(&mut self, step: &StepLine) {
        let Some(part) = self.part.clone() else { return };
        self.add(step.name.span, Thing::Step(self.scope.source, part.clone(), step.name.key.clone()), true);
        for clause in &step.clauses {
            match &clause.value {
                StepClause::Using(name, ..) => {
                    if let Some(kitchen) = self.scope.kitchen() {
                        self.add(name.span, Thing::Equipment(kitchen, name.key.clone()), false);
                    }
                }
                StepClause::During(name)
                | StepClause::Into(_, name)
                | StepClause::Before(name)
                | StepClause::After(name)
                | StepClause::StraightAfter(name)
                | StepClause::Within(_, name) => self.order(&part, name),
                _ => {}
            }
        }
    }

    /// `STEP` or `STEP of PART`; both names may hold the word `of`, so every place to cut is tried.
    fn order(&mut self, part: &Key, name: &Name) {
        let source = self.scope.source;
        if self.scope.has_step(part, &name.key) {
            self.add(name.span, Thing::Step(source, part.clone(), name.key.clone()), false);
            return;
        }
        let raw = self.raw(name.span).to_owned();
        for (cut, _) in raw.match_indices("of") {
            let (Some(before), Some(after)) = (raw.get(..cut), raw.get(cut + 2..)) else { continue };
            if !before.ends_with(char::is_whitespace) || !after.starts_with(char::is_whitespace) {
                continue;
            }
            let (step, other) = (Key::new(before), Key::new(after));
            let Some(file) = self.scope.part(&other).filter(|_| self.scope.has_step(&other, &step)) else { continue };
            let start = name.span.range().start;
            let step_span = Span::new(source, start, start + before.trim_end().len());
            let skipped = after.len() - after.trim_start().len();
            let part_span = Span::new(source, start + cut + 2 + skipped, start + raw.trim_end().len());
            self.add(step_span, Thing::Step(file, other.clone(), step), false);
            self.add(part_span, Thing::Part(file, other), false);
            return;
        }
    }
}

/// The first `length` bytes of a place, or all of it.
fn shortened(span: Span, length: Option<usize>) -> Span {
    match length {
        Some(length) => Span::new(span.source, span.range().start, span.range().start + length),
        None => span,
    }
}

/// The file that something stands in.
pub(super) fn home(thing: &Thing) -> SourceId {
    match thing {
        Thing::Part(file, _)
        | Thing::Step(file, ..)
        | Thing::Ingredient(file, _)
        | Thing::Larder(file, _)
        | Thing::Choice(file, _)
        | Thing::Taken(file, _)
        | Thing::Equipment(file, _)
        | Thing::File(file) => *file,
    }
}
