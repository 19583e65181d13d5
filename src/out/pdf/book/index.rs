//! The indexes of a book: what goes into which recipes, and the recipes by their titles.

use super::contents::led;
use super::heading;
use crate::figures::book::{Book, Indexed};
use crate::out::pdf::frame::{Block, Flow, Frame};
use crate::out::pdf::paragraph::{Setting, Words};
use crate::out::pdf::tags::{Node, Role};
use crate::out::pdf::{Press, plain};

pub(super) const INGREDIENTS: &str = "Index of ingredients";
pub(super) const TITLES: &str = "Index of recipes";

/// An ingredient of more recipes than these has the numbers of their pages and not their names: nobody looks for salt.
const NAMED: usize = 6;

/// What goes into which recipes.
pub(super) fn ingredients(press: &mut Press<'_>, book: &Book, starts: &[usize], parent: Node) -> Vec<Flow> {
    let names: Vec<String> = book.entries().map(|entry| plain(&entry.title)).collect();
    columns(press, INGREDIENTS, &book.ingredients, parent, |press, one, width, node| {
        let em = press.em;
        let name = Words::new(plain(&one.name), em).bold();
        if one.entries.len() > NAMED {
            let numbers = run_together(one.entries.iter().filter_map(|at| starts.get(*at)).copied());
            let words = [name, Words::new(format!("  {numbers}"), em)];
            return press.paragraph(&words, Setting::left(width, 1.3), node);
        }
        let mut frame = press.paragraph(&[name], Setting::left(width, 1.3), node);
        for at in &one.entries {
            if let (Some(title), Some(page)) = (names.get(*at), starts.get(*at)) {
                let words = Words::new(title.clone(), em);
                let line = led(press, words, *page, (em * 0.9, width), node);
                frame.append(line, 0.0, 0.0);
            }
        }
        frame
    })
}

/// The recipes by their titles.
pub(super) fn titles(press: &mut Press<'_>, book: &Book, starts: &[usize], parent: Node) -> Vec<Flow> {
    columns(press, TITLES, &book.titles, parent, |press, one, width, node| {
        let mut frame = Frame::default();
        for page in one.entries.iter().filter_map(|at| starts.get(*at)) {
            let words = Words::new(plain(&one.name), press.em);
            frame.append(led(press, words, *page, (0.0, width), node), 0.0, 0.0);
        }
        frame
    })
}

/// A heading and entries in two columns; more room where the first letter changes.
fn columns(
    press: &mut Press<'_>,
    title: &str,
    all: &[Indexed],
    parent: Node,
    set: impl Fn(&mut Press<'_>, &Indexed, f32, Node) -> Frame,
) -> Vec<Flow> {
    if all.is_empty() {
        return Vec::new();
    }
    let (em, width) = (press.em, press.geometry.half());
    let mut head = heading(press, title, 2.2, 1, parent);
    head.height += em * 1.4;
    let list = press.tags.add(Some(parent), Role::List(false));
    let mut blocks = Vec::with_capacity(all.len());
    let mut letter = None;
    for one in all {
        let item = press.tags.add(Some(list), Role::ListItem);
        let body = press.tags.add(Some(item), Role::ListBody);
        let frame = set(press, one, width, body);
        let first = one.name.chars().next().map(|c| c.to_lowercase().to_string());
        let above = if first == letter { em * 0.3 } else { em * 1.0 };
        letter = first;
        blocks.push(Block::new(frame, above));
    }
    vec![Flow::One(Block::new(head, 0.0).kept()), Flow::Two(blocks)]
}

/// Numbers of pages, those that follow each other as a stretch: `3, 7–9`.
fn run_together(pages: impl Iterator<Item = usize>) -> String {
    let mut stretches: Vec<(usize, usize)> = Vec::new();
    for page in pages {
        match stretches.last_mut() {
            Some((_, last)) if page == *last => {}
            Some((_, last)) if page == *last + 1 => *last = page,
            _ => stretches.push((page, page)),
        }
    }
    let said = stretches.iter().map(|(first, last)| match last - first {
        0 => first.to_string(),
        1 => format!("{first}, {last}"),
        _ => format!("{first}–{last}"),
    });
    said.collect::<Vec<String>>().join(", ")
}

#[cfg(test)]
mod tests {
    use super::run_together;

    #[test]
    fn numbers_that_follow_each_other_stand_as_a_stretch() {
        assert_eq!(run_together([3, 7, 8, 9, 12, 13].into_iter()), "3, 7–9, 12, 13");
        assert_eq!(run_together([5, 5].into_iter()), "5");
        assert_eq!(run_together([].into_iter()), "");
    }
}
