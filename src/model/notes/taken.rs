//! Which ingredients a step's words take.

use super::in_prose::{Listed, before, behind};
use super::pieces::is_in_pieces;
use super::words;

/// A line of prose with the ingredients in braces that it names first: by their whole names, then by the last words of one, if none of
/// those listed shares them, `vinegar` for `cider vinegar`. What has an amount of its own in the words is none of what is listed, unless
/// that is as much. `above`: the line above it, in which such an amount may end.
pub(super) fn taking(above: &str, line: &str, listed: Listed<'_>, names: &mut Vec<String>) -> String {
    let all = listed.names;
    let mut line = by_halves(line, all, names);
    let lower = line.to_ascii_lowercase();
    let mut take = |names: &mut Vec<String>, words_of: &dyn Fn(&str) -> Vec<String>| {
        names.retain(|name| {
            let found = words_of(name).into_iter().find_map(|words| {
                // Asked first, because most names stand in no line.
                let is_there = lower.contains(&words.to_ascii_lowercase());
                let at = is_there.then(|| whole_word(&line, &words)).flatten()?;
                let is_it = words == *name || stands_alone(&line, at, words.len());
                (is_it && !is_verb(&line, at, words.len())).then_some((at, words.len()))
            });
            let Some((at, length)) = found else { return true };
            // `butter 280g` beside 40 g that are listed is other butter.
            if let Some((more, amount)) = line.get(at + length..).and_then(behind)
                && (amount.is_quantity() || is_in_pieces(name, amount.value))
            {
                let is_all = listed.is_all_of(name, &amount);
                if is_all {
                    line.replace_range(at..at + length + more, &format!("{{{name}}}"));
                }
                return !is_all;
            }
            let whole = format!("{above} {}", line.get(..at).unwrap_or_default());
            let Some(own) = before(&whole) else {
                line.replace_range(at..at + length, &format!("{{{name}}}"));
                return false;
            };
            // `60 g soft butter` of 60 g that are listed is all of it.
            let begins = own.start.checked_sub(above.len() + 1);
            let all_of_it = own.between != "of the" && listed.is_all_of(name, &own.amount);
            let Some(begins) = begins.filter(|_| all_of_it) else { return true };
            let between = own.between.strip_prefix("of").unwrap_or(own.between).trim();
            let joint = if between.is_empty() { "" } else { " " };
            line.replace_range(begins..at + length, &format!("{between}{joint}{{{name}}}"));
            false
        });
    };
    take(names, &|name| vec![name.to_owned()]);
    take(names, &|name| {
        let shared = |end: &String| all.iter().filter(|other| ends_in(other, end)).count() > 1;
        ends(name).into_iter().filter(|end| end.len() > 2 && !shared(end)).collect()
    });
    line
}

/// What a name begins with of which half was taken.
pub(super) const REST: &str = "rest of ";
/// Words before half of something, and before what is left of it.
const HALF: [&str; 4] = ["half of the ", "half the ", "half of ", "half "];
const LEFT: [&str; 8] = [
    "the rest of the ",
    "rest of the ",
    "the other half of the ",
    "other half of the ",
    "the remaining ",
    "remaining ",
    "the rest of ",
    "rest of ",
];

/// `half the sugar`, and behind it `the rest of the sugar`, as the language says them: `{half of sugar}`, `{rest of sugar}`.
fn by_halves(line: &str, all: &[String], names: &mut Vec<String>) -> String {
    let mut line = line.to_owned();
    for name in all {
        let shared = |end: &String| all.iter().filter(|other| ends_in(other, end)).count() > 1;
        let aliases =
            std::iter::once(name.to_owned()).chain(ends(name).into_iter().filter(|end| end.len() > 2 && !shared(end)));
        let aliases: Vec<String> = aliases.collect();
        let find = |line: &str, before: &[&str]| {
            aliases
                .iter()
                .flat_map(|alias| before.iter().map(move |words| format!("{words}{alias}")))
                .find_map(|words| whole_word(line, &words).map(|at| (at, words.len())))
        };
        let rest = format!("{REST}{name}");
        if let Some(own) = names.iter_mut().find(|own| *own == name)
            && let Some((at, length)) = find(&line, &HALF)
        {
            line.replace_range(at..at + length, &format!("{{half of {name}}}"));
            own.clone_from(&rest);
        }
        if names.contains(&rest)
            && let Some((at, length)) = find(&line, &LEFT)
        {
            line.replace_range(at..at + length, &format!("{{{rest}}}"));
            names.retain(|own| *own != rest);
        }
    }
    line
}

/// A text in which the names stand behind `the ingredients` that they are: `Beat icing ingredients (cream cheese, icing sugar)`.
pub(super) fn with_names(text: &str, names: &[String]) -> String {
    let some_of = ["dry", "wet", "other", "remaining", "liquid"];
    let lower = text.to_ascii_lowercase();
    let all_of_it = ["mix everything", "combine everything", "knead everything", "beat everything", "whisk everything"];
    let word = if all_of_it.iter().any(|words| lower.starts_with(words)) { "everything" } else { "ingredients" };
    let at = text.find(word).filter(|at| {
        let before = text.get(..*at).unwrap_or_default();
        let last = words::all_of(before).last().unwrap_or_default();
        !some_of.contains(&last.as_str())
            && !text.get(at + word.len()..).is_some_and(|after| {
                [" (", " except", " but", " for the "].iter().any(|words| after.starts_with(words))
            })
    });
    match at.and_then(|at| text.split_at_checked(at + word.len())) {
        Some((before, after)) if !names.is_empty() => format!("{before} ({}){after}", names.join(", ")),
        _ => text.to_owned(),
    }
}

/// The last words of a name, from all but the first to the last one, in small letters.
pub(super) fn ends(name: &str) -> Vec<String> {
    let lower = name.to_ascii_lowercase();
    lower.match_indices(' ').filter_map(|(at, _)| lower.get(at + 1..)).map(str::to_owned).collect()
}

/// Whether words stand in a text, whole.
pub(super) fn has_word(text: &str, words: &str) -> bool {
    let beside = |c: Option<char>| c.is_none_or(|c| !c.is_alphanumeric());
    text.match_indices(words).any(|(at, _)| {
        let before = text.get(..at).and_then(|before| before.chars().next_back());
        let after = text.get(at + words.len()..).and_then(|after| after.chars().next());
        beside(before) && beside(after)
    })
}

fn ends_in(name: &str, end: &str) -> bool {
    let lower = name.to_ascii_lowercase();
    lower.strip_suffix(end).is_some_and(|before| before.is_empty() || before.ends_with(' '))
}

/// Words between which the last word of an ingredient's name means that ingredient, and no compound.
#[rustfmt::skip]
const BESIDE: [&str; 33] = [
    "the", "and", "or", "in", "into", "with", "of", "to", "over", "all", "add", "stir", "whisk", "mix", "beat", "fold", "bring", "warm",
    "melt", "whip", "pour", "rub", "dissolve", "combine", "until", "then", "on", "at", "for", "by", "from", "is", "are",
];

/// Whether a word stands by itself: between such words, commas, or the ends of the line.
fn stands_alone(line: &str, at: usize, length: usize) -> bool {
    let known = |word: &str| word.is_empty() || BESIDE.contains(&word.to_ascii_lowercase().as_str());
    let before = line.get(..at).unwrap_or_default().trim_end().rsplit(|c: char| !c.is_alphabetic()).next();
    let after = line.get(at + length..).unwrap_or_default().trim_start().split(|c: char| !c.is_alphabetic()).next();
    before.is_none_or(known) && after.is_none_or(known)
}

/// Foods whose names tell what is done as well: `Cream butter and sugar`, `Flour the tin`.
pub(super) const VERBS: [&str; 10] =
    ["cream", "flour", "water", "butter", "sugar", "salt", "oil", "ice", "zest", "juice"];

/// Whether a food's name at the start of a sentence tells what is done with what follows it.
fn is_verb(line: &str, at: usize, length: usize) -> bool {
    let (Some(before), Some(after)) = (line.get(..at), line.get(at + length..)) else { return false };
    let begins = before.trim_end().is_empty() || before.trim_end().ends_with(['.', '!', ';']);
    let named = line.get(at..at + length).is_some_and(|word| VERBS.contains(&word.to_ascii_lowercase().as_str()));
    let after = after.trim_start();
    let next = after.split(|c: char| !c.is_alphabetic()).next().unwrap_or_default();
    let has_object = after.starts_with('{') || ["the", "a", "an", "your", "both", "each", "together"].contains(&next);
    begins && named && has_object
}

/// Where a name stands in a line by itself and not in braces.
fn whole_word(line: &str, name: &str) -> Option<usize> {
    if !line.is_ascii() || !name.is_ascii() {
        return None;
    }
    let lower = line.to_ascii_lowercase();
    let beside = |c: char| c.is_alphanumeric() || matches!(c, '{' | '}' | '-' | '\'' | '\\');
    let name = name.to_ascii_lowercase();
    lower.match_indices(&name).map(|(at, _)| at).find(|at| {
        let before = line.get(..*at).unwrap_or("");
        let after = line.get(at + name.len()..).unwrap_or("");
        let braced = before.matches('{').count() > before.matches('}').count();
        !braced && !before.ends_with(beside) && !after.starts_with(beside)
    })
}
