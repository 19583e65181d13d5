//! Which names a file knows and what they stand for, over all files that it uses.
//!
//! Read from the lines alone and not from the worked-out recipe, so that it also holds for what no choice takes, and for
//! files in which something is wrong.

use crate::language::syntax::{Content, FileKind, Key, Line, Name, Tree};
use crate::model::project::Project;
use crate::solve::resolve::{DEEPEST_USE, is_head_line};
use crate::text::source::SourceId;
use std::collections::{HashMap, HashSet};

/// What a name stands for. Two places that mean the same thing give equal values, in whichever file they are.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub(super) enum Thing {
    /// A part of the recipe in a file.
    Part(SourceId, Key),
    /// A step of a part.
    Step(SourceId, Key, Key),
    /// An ingredient of a recipe, in all its parts.
    Ingredient(SourceId, Key),
    /// A name of a larder block.
    Larder(SourceId, Key),
    /// A choice of a recipe.
    Choice(SourceId, Key),
    /// An option of a recipe.
    Taken(SourceId, Key),
    /// Equipment of a kitchen.
    Equipment(SourceId, Key),
    /// A file.
    File(SourceId),
}

/// A part as its lines give it; of parts of one name, which hold under different options, all lines.
#[derive(Debug, Default)]
pub(super) struct PartScope {
    /// Its names of ingredients, as they are written first.
    pub ingredients: Vec<Name>,
    /// Its names of steps, as they are written first.
    pub steps: Vec<Name>,
    /// The part it is taken out of.
    pub from: Option<Key>,
}

/// The parts of one file.
#[derive(Debug, Default)]
pub(super) struct Parts {
    /// Their names in order.
    pub names: Vec<Name>,
    /// What is in them.
    pub by_key: HashMap<Key, PartScope>,
    /// Whether the first one has no `part` line and goes by the recipe's name.
    pub implicit: bool,
}

/// Keeps track of the part that a line is in, line by line.
#[derive(Debug, Default)]
pub(super) struct Current {
    title: Option<Name>,
    /// The part that the last line was in; nothing in the head.
    pub part: Option<Key>,
    starts: Option<Name>,
}

impl Current {
    /// Before the first line.
    pub(super) fn of(tree: &Tree) -> Current {
        let title = tree.lines.iter().find_map(|line| match &line.content {
            Content::Recipe(name) => Some(name.clone()),
            _ => None,
        });
        Current { title, part: None, starts: None }
    }

    /// Goes on to the next line. Gives the part that begins with it.
    pub(super) fn enter(&mut self, line: &Line) -> Option<Name> {
        self.starts = None;
        if let Content::Part { name, .. } = &line.content {
            self.part = Some(name.key.clone());
            self.starts = Some(name.clone());
        } else if self.part.is_none() && makes_a_part(&line.content) {
            self.part = self.title.as_ref().map(|title| title.key.clone());
            self.starts = self.title.clone();
        }
        self.starts.clone()
    }
}

/// Whether a line before the first `part` line belongs to a part that goes by the recipe's name.
fn makes_a_part(content: &Content) -> bool {
    let takes_no_side =
        matches!(content, Content::Blank | Content::Comment | Content::Prose(_) | Content::Until(_) | Content::Stray);
    !takes_no_side && !is_head_line(content)
}

impl Parts {
    /// The parts of a recipe's file.
    pub(super) fn of(tree: &Tree) -> Parts {
        let mut parts = Parts::default();
        if tree.kind != FileKind::Recipe {
            return parts;
        }
        let mut current = Current::of(tree);
        for line in &tree.lines {
            if let Some(name) = current.enter(line) {
                parts.implicit |= !matches!(line.content, Content::Part { .. });
                if !parts.by_key.contains_key(&name.key) {
                    parts.names.push(name);
                }
            }
            let Some(key) = &current.part else { continue };
            let part = parts.by_key.entry(key.clone()).or_default();
            let list = match &line.content {
                Content::Part { from: Some(from), .. } => {
                    part.from = Some(from.key.clone());
                    continue;
                }
                Content::Ingredient(written) => (&mut part.ingredients, &written.name),
                Content::Step(step) => (&mut part.steps, &step.name),
                _ => continue,
            };
            if !list.0.iter().any(|known| known.same(list.1)) {
                list.0.push(list.1.clone());
            }
        }
        parts
    }
}

/// The names that one file knows.
#[derive(Debug)]
pub(super) struct Scope {
    /// The file.
    pub source: SourceId,
    /// Its own parts.
    pub own: Parts,
    /// Where each part stands, also those of used recipes.
    parts: HashMap<Key, SourceId>,
    /// The parts of used recipes.
    foreign: HashMap<SourceId, Parts>,
    /// Where each name of a used larder stands.
    larder: HashMap<Key, SourceId>,
    /// The used kitchen.
    kitchen: Option<SourceId>,
}

impl Scope {
    /// Looks at a file and all that it uses.
    pub(super) fn of(project: &Project, source: SourceId) -> Scope {
        let mut scope = Scope {
            source,
            own: Parts::default(),
            parts: HashMap::new(),
            foreign: HashMap::new(),
            larder: HashMap::new(),
            kitchen: None,
        };
        let Some(file) = project.file(source) else { return scope };
        scope.own = Parts::of(&file.tree);
        for name in &scope.own.names {
            scope.parts.insert(name.key.clone(), source);
        }
        if file.tree.kind == FileKind::Kitchen {
            scope.take_pantry(project, source);
        } else {
            scope.take_uses(project, source, &mut HashSet::from([source]), 0);
        }
        scope
    }

    fn take_uses(&mut self, project: &Project, source: SourceId, seen: &mut HashSet<SourceId>, depth: usize) {
        for target in project.used(source) {
            let Some(file) = project.file(target) else { continue };
            match file.tree.kind {
                // A used recipe's own kitchen and larder are not this file's.
                FileKind::Kitchen if depth == 0 => self.take_pantry(project, target),
                FileKind::Recipe if depth < DEEPEST_USE && seen.insert(target) => {
                    let parts = Parts::of(&file.tree);
                    for name in &parts.names {
                        self.parts.entry(name.key.clone()).or_insert(target);
                    }
                    self.foreign.insert(target, parts);
                    self.take_uses(project, target, seen, depth + 1);
                }
                _ => {}
            }
        }
    }

    fn take_pantry(&mut self, project: &Project, source: SourceId) {
        for tree in project.pantries(source) {
            for line in &tree.lines {
                match &line.content {
                    Content::Kitchen(_) => self.kitchen = Some(tree.source),
                    Content::IngredientBlock(name) => {
                        self.larder.insert(name.key.clone(), tree.source);
                    }
                    Content::AlsoCalled(names) => {
                        self.larder.extend(names.iter().map(|name| (name.key.clone(), tree.source)));
                    }
                    _ => {}
                }
            }
        }
    }

    /// What an ingredient's name stands for in a part of this file, and whether only its front part does
    /// (`butter for the tins` is butter): then how many bytes of `raw`, the name as it is written.
    pub(super) fn ingredient(&self, part: Option<&Key>, name: &Name, raw: &str) -> (Thing, Option<usize>) {
        if let Some(file) = self.parts.get(&name.key).filter(|_| part != Some(&name.key)) {
            return (Thing::Part(*file, name.key.clone()), None);
        }
        if let Some((file, key, length)) = self.in_larder(&name.key, raw) {
            return (Thing::Larder(file, key), length);
        }
        (Thing::Ingredient(self.source, name.key.clone()), None)
    }

    /// The name of a used larder that an ingredient's name is found under, the way [`crate::model::larder::Larder::find`] goes:
    /// the name itself, what stands before `for`, and the singular (`plums` under `plum`).
    fn in_larder(&self, key: &Key, raw: &str) -> Option<(SourceId, Key, Option<usize>)> {
        let exact = |key: Key| self.larder.get(&key).map(|file| (*file, key.clone(), None));
        if let Some(found) = exact(key.clone()) {
            return Some(found);
        }
        // What the program itself knows under just this name comes before a singular of the used larder.
        if crate::model::larder::brought(key) {
            return None;
        }
        if let Some(cut) = raw.find(" for ") {
            let front = raw.get(..cut).unwrap_or("").trim_end();
            let (file, key, length) = self.in_larder(&Key::new(front), front)?;
            return Some((file, key, length.or(Some(front.len()))));
        }
        let text = key.as_str();
        for ending in ["es", "s"] {
            let Some(stem) = text.strip_suffix(ending).map(Key::new) else { continue };
            if let Some(found) = exact(stem.clone()) {
                return Some(found);
            }
            if crate::model::larder::brought(&stem) {
                return None;
            }
        }
        None
    }

    /// What braces in a part draw on: a line of it, or a preferment that is taken out of it.
    pub(super) fn drawn(&self, part: &Key, name: &Name, raw: &str) -> Option<(Thing, Option<usize>)> {
        let scope = self.own.by_key.get(part)?;
        if scope.ingredients.iter().any(|known| known.same(name)) {
            return Some(self.ingredient(Some(part), name, raw));
        }
        let preferment = self.own.by_key.get(&name.key).is_some_and(|other| other.from.as_ref() == Some(part));
        preferment.then(|| (Thing::Part(self.source, name.key.clone()), None))
    }

    /// The part of that name, wherever it stands.
    pub(super) fn part(&self, key: &Key) -> Option<SourceId> {
        self.parts.get(key).copied()
    }

    /// Whether a part has a step of that name.
    pub(super) fn has_step(&self, part: &Key, step: &Key) -> bool {
        let parts = match self.parts.get(part) {
            Some(file) if *file != self.source => self.foreign.get(file),
            _ => Some(&self.own),
        };
        parts
            .and_then(|parts| parts.by_key.get(part))
            .is_some_and(|part| part.steps.iter().any(|name| name.key == *step))
    }

    /// The used kitchen; nothing when it is the one that the program brings.
    pub(super) fn kitchen(&self) -> Option<SourceId> {
        self.kitchen
    }

    /// The names of all parts of used recipes.
    pub(super) fn foreign_parts(&self) -> impl Iterator<Item = &Name> {
        self.foreign.values().flat_map(|parts| &parts.names)
    }
}
