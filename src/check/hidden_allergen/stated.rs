//! A list of allergens that somebody wrote into a note or a caution, held against what is in the food: `Contains wheat.`, `Allergens: fish.`

use super::CHECK;
use crate::check::Subject;
use crate::check::statement::sentences;
use crate::language::syntax::TextKind;
use crate::model::allergen::{self, Law};
use crate::model::contains::of_parts;
use crate::model::cooking::has_word_beginning;
use crate::model::recipe::Recipe;
use crate::model::species::{self, Said};
use crate::text::diagnostic::Diagnostic;
use crate::text::words::words_with_hyphens;

/// Words of a list that name no allergen.
#[rustfmt::skip]
const JOINS: &[&str] = &[
    "and", "or", "of", "only", "the", "a", "an", "is", "are", "none", "nothing", "no", "other", "others", "else", "but", "containing", "cereals", "tree", "products", "allergen", "allergens",
    "contains", "contain", "it", "this", "they", "all", "just", "seeds", "nuts", "nut", "gluten", "dairy", "shellfish", "seafood", "fish",
];
/// By what else an allergen is named, in beginnings of words.
const ALSO: &[(&str, &[&str])] = &[
    ("cereals containing gluten", &["gluten", "cereal", "wheat", "flour"]),
    ("wheat", &["gluten", "cereal", "wheat", "flour"]),
    ("milk", &["milk", "dairy", "lactose", "butter", "cream", "cheese"]),
    ("nuts", &["nuts", "nut|"]),
    ("tree nuts", &["nuts", "nut|"]),
    ("fish", &["fish|", "seafood"]),
    ("crustaceans", &["crustacean", "shellfish", "seafood"]),
    ("crustacean shellfish", &["crustacean", "shellfish", "seafood"]),
    ("soybeans", &["soy"]),
];

/// The law against which a list is held, where something tells it: what it names itself is listed by one alone, or what else the file says for a label. A label
/// is one of the European Union where nobody asks for another; a serving only one of the United States has.
fn law_of(recipe: &Recipe, list: &str) -> Option<Law> {
    // A cereal is no sign of it: who writes `gluten` may sell anywhere.
    let only_there = ["celery", "celeriac", "mustard", "lupin", "mollusc", "sulphit", "sulphur diox"];
    let sale = &recipe.sale;
    if has_word_beginning(list, only_there) {
        Some(Law::Eu)
    } else if sale.serving.is_some() || has_word_beginning(list, ["mollusk", "sulfit"]) {
        Some(Law::Us)
    } else {
        let is_for_label = sale.good_for.is_some() || sale.business.is_some() || sale.store.is_some();
        is_for_label.then_some(Law::Eu)
    }
}

/// Every list that leaves something out. What one law lists and the other does not is asked for where something tells under which the food is sold.
pub(super) fn problems(subject: &Subject<'_>, diagnostics: &mut Vec<Diagnostic>) {
    let recipe = subject.recipe;
    let own = recipe.parts().filter(|(_, part)| part.foreign.is_none()).flat_map(|(_, part)| &part.texts);
    let spoken = |kind: TextKind| matches!(kind, TextKind::Note | TextKind::Story | TextKind::Caution);
    for text in recipe.texts.iter().chain(own).filter(|text| spoken(text.kind)) {
        let lower = text.lower();
        if !lower.contains("contain") && !lower.contains("allergen") {
            continue;
        }
        let Some(list) = sentences(lower).into_iter().find(|sentence| is_list(sentence)) else { continue };
        let Some(last) = recipe.final_part() else { continue };
        let found = of_parts(recipe, [last], |id, line| subject.formula.is_left_out(id, line));
        let known: Vec<&str> = found.known.iter().map(String::as_str).collect();
        let law = law_of(recipe, list);
        let is_in = |law: Law, name: &str| !law.words([name]).is_empty();
        let asked = known.into_iter().filter(|name| match law {
            Some(law) => is_in(law, name),
            // Who must not eat gluten reads such a list everywhere.
            None => is_in(Law::Us, name) && is_in(Law::Eu, name) || Law::Eu.is(name, allergen::GLUTEN),
        });
        let left_out: Vec<Said> =
            species::said(law.unwrap_or(Law::Eu), asked).into_iter().filter(|said| !is_named(said, list)).collect();
        if left_out.is_empty() {
            continue;
        }
        let names: Vec<&str> = left_out.iter().map(Said::shown).collect();
        let what = names.join(" and ");
        let is_of_one = |law: Law, other: Law| {
            left_out.iter().all(|said| law.listed().contains(&said.word) && other.words([said.shown()]).is_empty())
        };
        let by_law = match law {
            Some(Law::Eu) if is_of_one(Law::Eu, Law::Us) => ", which a label of the European Union lists",
            Some(Law::Us) if is_of_one(Law::Us, Law::Eu) => ", which a label of the United States lists",
            _ => "",
        };
        let message = format!(
            "`{}` leaves out {what}{by_law}, and the recipe has {} in it",
            list.trim().trim_end_matches('.'),
            if names.len() == 1 { "it" } else { "them" }
        );
        diagnostics.push(Diagnostic::warning(CHECK.name, text.span, message).help(
            "who must not eat it believes that the list is whole: name all of them, or leave it to the card and the label, which list what the larder knows",
        ));
    }
}

/// Whether a sentence, in lower case, is a list of allergens and nothing else. What is said of one thing in the food, `Contains milk, in the filling`, is
/// none.
fn is_list(sentence: &str) -> bool {
    let sentence = sentence.trim();
    let begins = [
        "contains",
        "it contains",
        "this contains",
        "allergens",
        "allergen:",
        "the only allergen",
        "only contains",
        "it only contains",
    ];
    if !begins.iter().any(|begin| sentence.starts_with(begin)) {
        return false;
    }
    let words: Vec<&str> = words_with_hyphens(sentence).collect();
    // `Contains raw egg` is a word of hygiene.
    if words.contains(&"raw") {
        return false;
    }
    let known = |at: usize| {
        let pair = || {
            words.get(at + 1).is_some_and(|next| {
                allergen::is_known(&format!("{} {next}", words.get(at).copied().unwrap_or_default()))
            })
        };
        let behind = || {
            at > 0
                && words.get(at - 1).is_some_and(|before| {
                    allergen::is_known(&format!("{before} {}", words.get(at).copied().unwrap_or_default()))
                })
        };
        words.get(at).is_some_and(|word| allergen::is_known(word)) || pair() || behind()
    };
    let is_join = |at: usize| words.get(at).is_some_and(|word| JOINS.contains(word));
    let names = (0..words.len()).any(|at| {
        known(at)
            || words.get(at).is_some_and(|word| {
                ["none", "nothing", "gluten", "dairy", "nuts", "fish", "shellfish", "seafood"].contains(word)
            })
    });
    names && words.len() > 1 && (0..words.len()).all(|at| known(at) || is_join(at)) && !sentence.contains("may contain")
}

/// Whether a list names an allergen, by itself or by its kind.
fn is_named(said: &Said, list: &str) -> bool {
    let mut also = ALSO.iter().filter(|(word, _)| *word == said.word);
    said.named_in(list).is_some() || also.any(|(_, words)| has_word_beginning(list, words))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_list_of_allergens_is_whole_and_what_is_said_of_one_is_none() {
        for (sentence, is) in [
            ("contains wheat.", true),
            ("contains: wheat, milk and eggs.", true),
            ("allergens: wheat only.", true),
            ("allergens: fish.", true),
            ("contains fish only", true),
            ("allergens: none.", true),
            ("contains tree nuts and sesame.", true),
            ("contains sesame, in the spread.", false),
            ("contains gelatine of pork.", false),
            ("allergens stand on the label.", false),
            ("contains raw egg.", false),
            ("contains nuts, which are cracked here.", false),
            ("may contain nuts.", false),
        ] {
            assert_eq!(is_list(sentence), is, "{sentence}");
        }
    }
}
