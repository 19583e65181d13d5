//! A book: its pages bound to their recipes, and the choices that it makes for them.

use super::choices::{choices_of, normal_selection};
use super::day::{choose, recipe_at};
use super::reading::Reading;
use crate::language::syntax::{BookLine, Content, FileKind, PageClause, PageSize};
use crate::measure::noun::dozens;
use crate::measure::value::Value;
use crate::model::book::{Book, Chapter, Page, Size};
use crate::model::project::Project;
use crate::model::recipe::Selection;
use crate::text::diagnostic::Diagnostic;
use crate::text::source::{SourceId, Spanned};

/// Resolves a book. `None` when the file is none. A page that could not be followed is left out; that was reported.
pub fn book(project: &Project, source: SourceId, diagnostics: &mut Vec<Diagnostic>) -> Option<Book> {
    Reading::on(diagnostics, |reading| read(project, source, reading))
}

/// A recipe as a page that says nothing of it: as it is written, in all its ways.
pub fn plain_page(project: &Project, recipe: SourceId) -> Page {
    let choices = project.file(recipe).map_or_else(Vec::new, |file| choices_of(&file.tree));
    let selection = normal_selection(&choices, &Selection::new());
    Page { recipe, sizes: Vec::new(), selection, decided: Vec::new(), is_unclear: false, place: None }
}

fn read(project: &Project, source: SourceId, reading: &mut Reading) -> Option<Book> {
    let tree = &project.file(source)?.tree;
    if tree.kind != FileKind::Book {
        return None;
    }
    let text = project.sources.get(source).map_or("", |source| &source.text);
    let mut book = Book::default();
    // What stands before any chapter.
    let mut front = Chapter::default();
    for line in &tree.lines {
        match &line.content {
            // A page or a chapter that cannot be read is one all the same.
            Content::Stray => {
                let begins = |word: &str| {
                    text.get(line.said.range())
                        .and_then(|said| said.get(..word.len()))
                        .is_some_and(|begin| begin.eq_ignore_ascii_case(word))
                };
                if begins("chapter") {
                    book.chapters.push(Chapter { lost: 1, ..Chapter::default() });
                } else {
                    book.chapters.last_mut().unwrap_or(&mut front).lost += 1;
                }
            }
            Content::OfBook(line) => match &**line {
                BookLine::Title(words) if book.title.is_empty() => book.title.clone_from(&words.value),
                BookLine::By(words) => book.by = book.by.take().or_else(|| Some(words.value.clone())),
                BookLine::Address(words) => book.address = book.address.take().or_else(|| Some(folder(&words.value))),
                BookLine::Title(_) => {}
                BookLine::Chapter(words) => {
                    book.chapters.push(Chapter { title: Some(words.clone()), ..Chapter::default() });
                }
                BookLine::Page { path, clauses } => {
                    let Some(file) = recipe_at(project, path, reading) else {
                        book.chapters.last_mut().unwrap_or(&mut front).lost += 1;
                        continue;
                    };
                    let mut page = plain_page(project, file.tree.source);
                    let choices = choices_of(&file.tree);
                    let mut selection = Selection::new();
                    let known = reading.problems.len();
                    for clause in clauses {
                        match &clause.value {
                            PageClause::Sizes(all) => {
                                page.sizes.extend(all.iter().filter_map(|one| size(one, reading)))
                            }
                            PageClause::Choose(first, second) => {
                                choose(&choices, first, second.as_ref(), &mut selection, reading);
                            }
                            PageClause::Broken => {}
                        }
                    }
                    page.is_unclear = reading.problems.len() > known;
                    page.decided = selection.iter().map(|(choice, _)| choice.clone()).collect();
                    page.selection = normal_selection(&choices, &selection);
                    page.place = Some(path.span);
                    book.chapters.last_mut().unwrap_or(&mut front).pages.push(page);
                }
            },
            _ => {}
        }
    }
    if !front.pages.is_empty() || front.lost > 0 {
        book.chapters.insert(0, front);
    }
    Some(book)
}

/// An address as a folder: pages are named behind it.
fn folder(address: &str) -> String {
    if address.ends_with('/') { address.to_owned() } else { format!("{address}/") }
}

fn size(written: &Spanned<PageSize>, reading: &mut Reading) -> Option<Spanned<Size>> {
    let size = match &written.value {
        PageSize::Pieces(count, noun) => {
            let many = noun.as_ref().and_then(|noun| dozens(count.value, &noun.text));
            Size::Pieces(many.map_or(count.value, |(many, _)| many))
        }
        PageSize::Times(times) => Size::Times(times.value),
        PageSize::Mass(mass) => match reading.said(mass)?.value {
            Value::Mass(mass) => Size::Total(mass),
            _ => return None,
        },
    };
    Some(Spanned::new(size, written.span))
}
