//! How the parts of notes come together: in a part that puts them together, or in one of its own at the end.

use super::entry::Item;
use super::part::{Part, main_part};
use super::words;
use crate::language::syntax::Key;

/// First words of the heading over what is put together at the end, without `to`.
const PUT_TOGETHER: [&str; 11] = [
    "assemble",
    "assembly",
    "assembling",
    "finish",
    "finishing",
    "serve",
    "serving",
    "putting",
    "build",
    "building",
    "fill",
];

/// Why a mark stands at an ingredient that is taken for a part.
const IS_PART: &str = "read as the part of this name";

/// Why a mark stands at a part that is taken for one that goes into a dough.
const IN_DOUGH: &str = "made to go into this";

/// Whether a part's name says that it puts the others together.
pub(super) fn is_together(name: &str) -> bool {
    let lower = name.to_lowercase();
    let bare = lower.strip_prefix("to ").unwrap_or(&lower);
    let (first, rest) = bare.split_once(' ').unwrap_or((bare, ""));
    // `finishing salt` is a part of its own; `putting together` is not.
    PUT_TOGETHER.contains(&first)
        && (rest.is_empty() || ["the ", "it", "each ", "together", "up"].iter().any(|word| rest.starts_with(word)))
}

/// Makes a part the one that puts `made` together, by its lines and the names of its ingredients: it takes all of each part that none
/// of those is.
fn put_together(lines: &mut Vec<Item>, names: &[String], made: &[String]) {
    let mut taken: Vec<&String> = Vec::new();
    for name in names {
        let Some(drawn) = the_part(name, made) else { continue };
        let begins = format!("{name} .. ");
        let line = lines.iter_mut().find(|item| item.lines.iter().any(|line| line.starts_with(&begins)));
        let Some(item) = line.filter(|_| !taken.contains(&drawn)) else { continue };
        taken.push(drawn);
        if Key::new(name) == Key::new(drawn) {
            continue;
        }
        for line in &mut item.lines {
            if let Some(rest) = line.strip_prefix(&begins) {
                *line = format!("{drawn} .. {rest}");
            }
        }
        item.look = Some(item.look.take().map_or_else(|| IS_PART.to_owned(), |look| format!("{look}; {IS_PART}")));
    }
    let left =
        made.iter().filter(|name| !taken.contains(name)).map(|name| Item::new(format!("{name} .. all"), "", None));
    let own = std::mem::take(lines);
    *lines = left.chain(own).collect();
}

/// The one part that a name can stand for: by its whole name, or by the last words of it, `cream` for `horseradish cream`.
fn the_part<'m>(name: &str, made: &'m [String]) -> Option<&'m String> {
    let whole = made.iter().find(|part| Key::new(part) == Key::new(name));
    let lower = name.to_lowercase();
    let ends = |part: &&String| part.to_lowercase().strip_suffix(&lower).is_some_and(|rest| rest.ends_with(' '));
    let mut by_end = made.iter().filter(ends);
    let single = by_end.next().filter(|_| by_end.next().is_none());
    whole.or(single)
}

/// Writes the parts, each below its name, and the one in which they come together.
///
/// `title`: the recipe's name. `whose`: who gives no name, `the notes give`.
pub(super) fn write_parts(parts: &mut [Part], items: &mut Vec<Item>, title: &str, whose: &str) {
    let several = parts.len() > 1 && parts.iter().any(|part| part.name.is_some());
    let last = parts.len().saturating_sub(1);
    let mut made: Vec<String> = Vec::new();
    let mut renamed: Vec<(String, String)> = Vec::new();
    let mut is_put_together = false;
    into_the_dough(parts);
    let taken: Vec<String> = parts.iter().flat_map(|part| part.names.iter().cloned()).collect();
    for (at, part) in parts.iter_mut().enumerate() {
        let own = part.name.clone().or_else(|| several.then(|| part.first_name(at)));
        items.push(Item::new("", "", None));
        if let Some(own) = own {
            let clash = part.names.iter().any(|name| Key::new(name) == Key::new(&own));
            rename_taken(part, &renamed);
            let own = match clash {
                true => {
                    let mix = format!("{own} mix");
                    renamed.push((own, mix.clone()));
                    mix
                }
                false => own,
            };
            let look = part.name.is_none().then(|| format!("{whose} this part no name"));
            items.push(Item::new(format!("part {own}"), "give it one", look));
            if at == last && !made.is_empty() && is_together(&own) {
                put_together(&mut part.ingredients, &part.names, &made);
                is_put_together = true;
            } else if !part.ingredients.is_empty() {
                // What is listed here, by its weight or whole, is not taken again at the end.
                let listed = |name: &String| part.names.iter().any(|own| is_called(name, own));
                made.retain(|name| !listed(name));
            }
            // What a part above it took whole is not taken again either.
            let is_taken = part.goes_into_a_dough() && taken.iter().any(|name| is_called(&own, name));
            if !part.ingredients.is_empty() && !is_taken {
                made.push(own);
            }
        }
        items.append(&mut part.ingredients);
        items.push(Item::new("", "", None));
        items.append(&mut part.told);
    }
    if made.len() > 1 && !is_put_together {
        items.push(Item::new("", "", None));
        let is_part = made.iter().any(|part| Key::new(part) == Key::new(title));
        let whole = if is_part { format!("finished {title}") } else { title.to_owned() };
        items.push(Item::new(
            format!("part {}", words::all_small(&whole)),
            "look at its steps",
            Some("how the parts come together".to_owned()),
        ));
        items.extend(made.iter().map(|part| Item::new(format!("{part} .. all"), "", None)));
        items.push(Item::new("", "", None));
    }
}

/// Calls what a part takes whole as it is called now: `cherries mix`, where cherries go into the part of that name.
fn rename_taken(part: &mut Part, renamed: &[(String, String)]) {
    for (own, now) in renamed {
        let (before, after) = (format!("{own} .. all"), format!("{now} .. all"));
        for line in part.ingredients.iter_mut().flat_map(|item| &mut item.lines) {
            if let Some(rest) = line.strip_prefix(&before) {
                *line = format!("{after}{rest}");
                part.names.iter_mut().filter(|name| *name == own).for_each(|name| name.clone_from(now));
            }
        }
    }
}

/// Puts what is made to go into a dough, and what no line takes, above the lines of the part with flour into which most goes.
fn into_the_dough(parts: &mut [Part]) {
    let listed: Vec<String> = parts.iter().flat_map(|part| part.names.iter().cloned()).collect();
    let is_open = |part: &&Part| {
        let name = part.name.as_deref();
        part.goes_into_a_dough()
            && !part.ingredients.is_empty()
            && name.is_some_and(|name| !listed.iter().any(|other| is_called(name, other)))
    };
    let open: Vec<String> = parts.iter().filter(is_open).filter_map(|part| part.name.clone()).collect();
    let dough = main_part(parts, |part| part.has_flour() && !part.goes_into_a_dough());
    let Some(dough) = dough.and_then(|at| parts.get_mut(at)).filter(|_| !open.is_empty()) else { return };
    let all = open.iter().map(|part| Item::new(format!("{part} .. all"), part, Some(IN_DOUGH.to_owned())));
    dough.ingredients = all.chain(std::mem::take(&mut dough.ingredients)).collect();
    dough.names.extend(open);
}

/// Whether a part is meant by a name: its own, or `levain` for `levain build` and for `ripe levain`.
pub(super) fn is_called(part: &str, name: &str) -> bool {
    let bare = |text: &str| {
        let lower = text.to_lowercase();
        let lower = lower.strip_prefix("ripe ").unwrap_or(&lower);
        ["build", "feed", "refreshment", "mix"]
            .iter()
            .find_map(|last| lower.strip_suffix(last))
            .unwrap_or(lower)
            .trim()
            .to_owned()
    };
    Key::new(part) == Key::new(name) || bare(part) == bare(name)
}
