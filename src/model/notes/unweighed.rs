//! Ingredients of which a list says no weight: all of a part, to taste, for greasing, one, or only their name.

use super::item::{Made, NO_AMOUNT, Read};
use super::kinds::INTO_A_DOUGH;
use super::manner::{AMONG_WORDS, for_use, is_figure};
use super::measure::measure;
use super::short::in_full;
use super::stage_name::is_stage;
use super::words;
use crate::language::syntax::Key;
use crate::model::counted::comes_in_pieces;
use crate::model::larder::Larder;

/// Whether a larder has something of this name.
pub(super) fn in_larder(name: &str) -> bool {
    Larder::new().find(&Key::new(&words::name(name))).is_some()
}

/// Whether an ingredient of this name is known.
pub(super) fn is_known(name: &str) -> bool {
    let (name, larder) = (words::name(name), Larder::new());
    let key = Key::new(&name);
    // Of which form yeast is, is asked later.
    let is_yeast = name.eq_ignore_ascii_case("yeast");
    is_yeast || comes_in_pieces(&key) || larder.find(&key).is_some() || in_full(&name, &larder).is_some()
}

/// `all the levain`, `levain (all)`, `soaker, all of it`: what was made above, whole.
pub(super) fn all_of(line: &str) -> Option<&str> {
    let is_all = |words: &str| ["all", "all of it", "from above", "above"].contains(&words.to_lowercase().as_str());
    let before = ["all of the ", "all the ", "all of ", "All of the ", "All the "];
    let name = before.into_iter().find_map(|words| line.strip_prefix(words));
    let behind = || {
        let (name, words) = line.split_once([',', '(', '-', '\u{2013}', ':'])?;
        is_all(words.trim().trim_end_matches([')', '.']).trim()).then_some(name.trim())
    };
    // `all levain`, and no `all purpose flour`.
    let leaven = || {
        let name = ["all ", "All "].into_iter().find_map(|word| line.strip_prefix(word))?;
        let last = name.split_whitespace().last()?.to_lowercase();
        INTO_A_DOUGH.contains(&last.as_str()).then_some(name)
    };
    let name = name.or_else(behind).or_else(leaven)?;
    let is_name = name.split_whitespace().count() <= 4 && !name.contains(char::is_numeric);
    (is_name || is_stage(name)).then_some(name)
}

/// `salt to taste`, `butter for greasing`, `an egg`, and in a list any short name.
pub(super) fn without_amount(line: &str, expected: bool) -> Option<Vec<Read>> {
    let lower = line.to_lowercase();
    for open in ["to taste", "as needed"] {
        let name = lower.strip_prefix(open).and_then(|_| line.get(open.len()..)?.strip_prefix([' ', ':']));
        if let Some(name) = name.map(|name| name.trim_start().trim_start_matches("of ")).filter(|name| !name.is_empty())
        {
            return Made::open(open, None).named(name).map(|read| vec![read]);
        }
    }
    if let Some(name) = all_of(line) {
        return Made::open("all", None).named(name).map(|read| vec![read]);
    }
    for (taste, open) in [
        (", to taste", "to taste"),
        (" to taste", "to taste"),
        (" as needed", "as needed"),
        (" as required", "as needed"),
    ] {
        let Some(at) = lower.find(taste) else { continue };
        let what = format!("{}{}", line.get(..at)?, line.get(at + taste.len()..)?);
        let names: Vec<&str> = what.split(" and ").collect();
        if names.len() > 1 && names.iter().all(|name| is_known(name)) {
            return names.iter().map(|name| Made::open(open, None).named(name)).collect();
        }
        return Made::open(open, None).named(&what).map(|read| vec![read]);
    }
    if let Some((name, use_)) =
        for_use(&line.replace(", for ", " for ")).filter(|_| line.split_whitespace().count() < 8)
    {
        let mut read = Made::open("as needed", None).named(&name)?;
        read.look.extend(use_.split_whitespace().any(is_figure).then(|| AMONG_WORDS.to_owned()));
        read.clauses.push(use_);
        read.clauses.push("aside".to_owned());
        return Some(vec![read]);
    }
    if let Some(rest) = lower.strip_prefix("some ").and_then(|_| line.get(5..)) {
        return Made::open("as needed", Some("no weight is said")).named(rest).map(|read| vec![read]);
    }
    let article = ["an ", "a "].into_iter().find(|word| lower.starts_with(word));
    if let Some(article) = article {
        // Only what is known to be an ingredient: `a loaf for Sunday` is none.
        let name = line.get(article.len()..)?;
        let (one, _) = measure("1 x")?;
        return in_larder(name.split([',', '(']).next()?)
            .then(|| Made::of(one).named(name))
            .flatten()
            .map(|read| vec![read]);
    }
    let name = words::name(line.split([',', '(']).next()?);
    let short = line.split_whitespace().count() <= 5 && !line.ends_with(['.', '!', '?', ':']);
    if !short || !(in_larder(&name) || expected) || line.chars().any(char::is_numeric) {
        return None;
    }
    let listed: Vec<&str> = line.split(", ").collect();
    let names = if listed.iter().all(|name| in_larder(name)) { listed } else { vec![line] };
    names.iter().map(|name| Made::open("as needed", Some(NO_AMOUNT)).named(name)).collect()
}
