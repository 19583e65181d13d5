//! `near-name`: an ingredient that nobody knows, one letter away from one that is known.

use super::{Check, Family, Run, Subject};
use crate::language::syntax::Key;
use crate::model::larder::MOST_WORDS;
use crate::model::recipe::{Part, Recipe, Refers};
use crate::text::diagnostic::{Diagnostic, Severity};
use std::collections::BTreeSet;

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "near-name",
    severity: Severity::Warning,
    family: Family::Names,
    looks_for: "an ingredient of which no larder knows and whose name is one letter away from one that is known: `watr`, `fresch yeast`",
    why: "A name that nobody knows has no weight by the cup, no water, no allergens and no price, and the sums go on without it. \
          Write the known name; or describe the ingredient in a larder file, if it really is another one.",
    bad: "recipe Loaf\nflour .... 1 kg\nwatr .... 650 g\nmix: hands 10 min\n    Mix {flour} and {watr}.\n    until smooth\n",
    good: "recipe Loaf\nflour .... 1 kg\nwater .... 650 g\nmix: hands 10 min\n    Mix {flour} and {water}.\n    until smooth\n",
    sources: &["common practice, no source"],
    run: Run::Recipe(run),
};

fn run(subject: &Subject<'_>, diagnostics: &mut Vec<Diagnostic>) {
    let recipe = subject.recipe;
    for (_, part, _) in subject.own_parts() {
        let unknown = part.lines.iter().filter(|line| line.refers == Refers::Pantry(None));
        for line in unknown.filter(|line| line.name.text.is_ascii() && line.name.key.as_str().len() > 3) {
            let Some(near) = near(recipe, part, line.name.key.as_str()) else { continue };
            let message = format!("no larder knows `{}`; `{near}` is known", line.name);
            diagnostics.push(
                Diagnostic::warning(CHECK.name, line.name.span, message)
                    .help(format!(
                        "did you mean `{near}`? Else describe `{}` in a larder file, so that it is known what it is",
                        line.name
                    ))
                    .suggest(format!("write `{near}`"), line.name.span, near.clone()),
            );
        }
    }
}

/// The known name from which a name is one slip away: a part's, another line's, or the larder's.
fn near(recipe: &Recipe, part: &Part, name: &str) -> Option<String> {
    // Names are compared as wholes, and where one word of several is wrong, with that word put right.
    let parts = recipe.parts().map(|(_, other)| other.name.key.as_str()).filter(|other| *other != part.name.key.as_str());
    let lines = recipe.parts().flat_map(|(_, part)| &part.lines);
    let listed = lines.map(|line| line.name.key.as_str()).filter(|other| *other != name);
    if let Some(near) = parts.chain(listed).find(|other| is_slip(name, other)) {
        return Some(near.to_owned());
    }
    let words: Vec<&str> = name.split(' ').collect();
    if words.len() > MOST_WORDS {
        return None;
    }
    let known: BTreeSet<&str> = recipe.larder.names().flat_map(|name| name.split(' ')).collect();
    let wrong = words.iter().enumerate().filter(|(_, word)| word.len() > 3 && !known.contains(*word));
    let mended = wrong.flat_map(|(at, word)| {
        let near = known.iter().filter(|other| is_slip(word, other)).collect::<Vec<_>>().into_iter();
        near.map(move |other| (at, *other))
    });
    mended
        .map(|(at, word)| {
            let with = words.iter().enumerate().map(|(number, old)| if number == at { word } else { old });
            with.collect::<Vec<&str>>().join(" ")
        })
        .find(|name| recipe.larder.find(&Key::new(name)).is_some())
}

/// Whether a name came of another by one slip of the keys in one word: a letter too much, one missing, one for another, two
/// swapped. A plural is no slip, and digits tell things apart.
fn is_slip(name: &str, other: &str) -> bool {
    let count = name.split(' ').count();
    let mut differ = name.split(' ').zip(other.split(' ')).filter(|(one, other)| one != other);
    let (Some((word, meant)), None) = (differ.next(), differ.next()) else { return false };
    count == other.split(' ').count()
        && word.len() > 3
        && meant.len() > 3
        && word.len().abs_diff(meant.len()) <= 1
        && !word.chars().chain(meant.chars()).any(|letter| letter.is_ascii_digit())
        && word.strip_suffix('s') != Some(meant)
        && meant.strip_suffix('s') != Some(word)
        // Short words that differ in one letter are mostly two words: pint and mint.
        && (word.len() != meant.len() || word.len() > 5 || strsim::levenshtein(word, meant) == 2)
        && strsim::osa_distance(word, meant) == 1
}
