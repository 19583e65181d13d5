//! A new name for something, in all files that name it. A name that would read as something else is refused.

use super::mentions::{self, Mention};
use super::references::references;
use super::scope::Thing;
use super::view::View;
use super::workspace::Folder;
use crate::language::mend::apply;
use crate::language::parse::parse;
use crate::language::syntax::{Content, Key, Piece};
use crate::text::diagnostic::{Edit, Severity};
use crate::text::source::{SourceId, Span};
use std::collections::BTreeMap;

/// What would be renamed at an offset; `None` where nothing can be.
pub(super) fn renamable(view: &View, offset: usize) -> Option<Span> {
    let mention = mentions::at(view.mentions(), offset)?;
    (!matches!(mention.thing, Thing::File(_))).then_some(mention.span)
}

/// The edits that give a thing another name.
///
/// # Errors
/// Why the name cannot be taken, in plain words.
pub(super) fn rename(view: &View, folder: &Folder, offset: usize, name: &str) -> Result<Vec<Edit>, String> {
    let name = name.split_whitespace().collect::<Vec<_>>().join(" ");
    let mention = mentions::at(view.mentions(), offset).filter(|mention| !matches!(mention.thing, Thing::File(_)));
    let Some(mention) = mention else { return Err("nothing here can be renamed".to_owned()) };
    if name.is_empty() {
        return Err("a name has at least one letter".to_owned());
    }
    if let Some(mark) = name.chars().find(|c| ":,{}[]#=\"…".contains(*c) || c.is_control()) {
        return Err(format!("a name cannot hold `{}`", crate::out::report::clean(&mark.to_string())));
    }
    if name.contains("..") {
        return Err("a name cannot hold two dots, which are a leader".to_owned());
    }
    if let Some(taken) = taken(folder, &mention.thing, &Key::new(&name)) {
        return Err(format!("`{name}` is the name of {taken} already"));
    }
    let edits: Vec<Edit> = references(view, folder, offset)
        .into_iter()
        .map(|found| Edit { span: found.span, text: numbered(folder, &found, &name) })
        .collect();
    reads_the_same(folder, &edits, &name)?;
    Ok(edits)
}

/// The new name at one place: where a larder's `plum` was written `plums`, the new name stands for several as well, if an
/// `s` is all that takes. Without one it is found all the same.
fn numbered(folder: &Folder, found: &Mention, name: &str) -> String {
    let Thing::Larder(_, old) = &found.thing else { return name.to_owned() };
    let written = folder.views.iter().find(|view| view.source == found.span.source);
    let several = written.is_some_and(|view| Key::new(view.slice(found.span)) != *old);
    match name.ends_with(|last: char| last.is_alphabetic() && !"sxzhyo".contains(last.to_ascii_lowercase())) {
        true if several => format!("{name}s"),
        _ => name.to_owned(),
    }
}

/// What has the new name already, among the things that the old one could be confused with.
fn taken(folder: &Folder, thing: &Thing, name: &Key) -> Option<&'static str> {
    let mut all = folder.views.iter().flat_map(|view| view.mentions()).map(|mention| &mention.thing);
    let (wanted, what): (Vec<Thing>, &str) = match thing {
        // A line that names a part draws on it, so a part and an ingredient of one name are confused.
        Thing::Part(file, old) | Thing::Ingredient(file, old) | Thing::Larder(file, old) => {
            if old == name {
                return None;
            }
            let users = folder.views.iter().map(|view| view.source).chain([*file]);
            let of = |file| {
                [
                    Thing::Part(file, name.clone()),
                    Thing::Ingredient(file, name.clone()),
                    Thing::Larder(file, name.clone()),
                ]
            };
            (users.flat_map(of).collect(), "a part or an ingredient")
        }
        Thing::Step(file, part, old) if old != name => {
            (vec![Thing::Step(*file, part.clone(), name.clone())], "another step")
        }
        Thing::Choice(file, old) if old != name => (vec![Thing::Choice(*file, name.clone())], "another choice"),
        Thing::Taken(file, old) if old != name => (vec![Thing::Taken(*file, name.clone())], "another option"),
        Thing::Equipment(file, old) if old != name => (vec![Thing::Equipment(*file, name.clone())], "other equipment"),
        _ => return None,
    };
    all.any(|thing| wanted.contains(thing)).then_some(what)
}

/// Whether the braces of two lines hold the same, but for the new name: `{half of water}` is no thing of that name.
fn same_braces(new: &Content, old: &Content, name: &str) -> bool {
    let (new, old) = (in_braces(new), in_braces(old));
    let same = |(new, old): (&&Piece, &&Piece)| match (new, old) {
        (Piece::Use(share, what), Piece::Use(before, was)) => {
            std::mem::discriminant(share) == std::mem::discriminant(before)
                && (what.key == was.key || what.text.starts_with(name))
        }
        (Piece::Measure(_), Piece::Measure(_)) => true,
        _ => false,
    };
    new.len() == old.len() && new.iter().zip(&old).all(same)
}

fn in_braces(content: &Content) -> Vec<&Piece> {
    let pieces = match content {
        Content::Prose(pieces) | Content::Until(pieces) | Content::Text { pieces, .. } => pieces.as_slice(),
        _ => &[],
    };
    pieces.iter().filter(|piece| !matches!(piece, Piece::Text(_))).collect()
}

/// Reads the files with their new names: no line may read as something else than before.
fn reads_the_same(folder: &Folder, edits: &[Edit], name: &str) -> Result<(), String> {
    let mut by_file: BTreeMap<SourceId, Vec<&Edit>> = BTreeMap::new();
    for edit in edits {
        by_file.entry(edit.span.source).or_default().push(edit);
    }
    for (source, edits) in by_file {
        let Some(view) = folder.views.iter().find(|view| view.source == source) else { continue };
        let edits = edits.into_iter().cloned().collect();
        let mend = crate::text::diagnostic::Mend { title: String::new(), edits, certain: true };
        let changed = apply(view.text(), &[&mend]);
        let (tree, problems) = parse(source, &changed);
        let same_lines = tree.lines.len() == view.tree().lines.len()
            && tree.lines.iter().zip(&view.tree().lines).all(|(new, old)| {
                std::mem::discriminant(&new.content) == std::mem::discriminant(&old.content)
                    && same_braces(&new.content, &old.content, name)
            });
        let before = parse(source, view.text()).1;
        let errors = |problems: &[crate::text::diagnostic::Diagnostic]| {
            problems.iter().filter(|problem| problem.severity == Severity::Error).count()
        };
        if !same_lines || errors(&problems) > errors(&before) {
            return Err(format!("with the name `{name}` a line would read as something else; take another one"));
        }
    }
    Ok(())
}
