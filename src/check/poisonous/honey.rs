//! Honey in what is for babies.

use super::CHECK;
use crate::check::claims::told as said_in;
use crate::check::{Subject, made_parts};
use crate::language::syntax::Name;
use crate::model::lowered::beginnings;
use crate::model::recipe::{Ingredient, Recipe};
use crate::solve::formula::Formula;
use crate::text::denied::is_denied;
use crate::text::diagnostic::Diagnostic;
use crate::text::word_begins::has_letters;
use crate::text::words::words_with_hyphens;

/// Where it is published that honey is not for babies.
pub(in crate::check) const ON_HONEY: &str = "CDC and NHS: no honey under 12 months, for infant botulism (from memory)";

/// What is called after babies and is for them. Common practice, no source.
const BABY_FOOD: &[&str] =
    &["food", "rice", "porridge", "cereal", "puree", "purée", "pudding", "rusk", "biscuit", "snack", "cookie", "meal"];
/// Who is under a year or about it.
const BABIES: &[&str] = &["baby", "babies", "infant", "infants"];
/// Who may be, where months are named.
const SMALL: &[&str] =
    &["baby", "babies", "infant", "infants", "child", "children", "toddler", "toddlers", "ones", "kids"];
/// What is given for babies, and eaten by others.
const FOR_OTHERS: &[&str] = &["shower", "showers"];

/// Whether a recipe says anywhere that it is for babies: `baby carrots` are small, and `Dutch babies` are pancakes.
fn is_for_babies(recipe: &Recipe) -> bool {
    // Each of the words below begins with one of these.
    let may_say = |text: &str| {
        [b"babi", b"baby", b"infa", b"wean", b"mont", b"year", b"todd"]
            .into_iter()
            .any(|letters| has_letters(text, letters))
    };
    said_in(recipe, may_say, |text| may_say(text.lower())).iter().any(|told| {
        let words: Vec<&str> = words_with_hyphens(&told.text).collect();
        let is_denied = !told.is_name && is_denied(&words, words.len(), words.len(), &["older", "over"]);
        !is_denied && says_babies(&words)
    })
}

fn says_babies(words: &[&str]) -> bool {
    let follows = |at: usize, of: &[&str]| words.get(at).is_some_and(|word| of.contains(word));
    let is_food = |at: usize| words.get(at).is_some_and(|word| BABY_FOOD.contains(&word.trim_end_matches('s')));
    let months =
        || words.iter().any(|word| ["month", "months"].contains(word)) && words.iter().any(|word| SMALL.contains(word));
    // `For children under one year`, `for their first year`.
    let first_year = || {
        let is_under = |at: usize| follows(at, &["under", "below"]) && follows(at + 1, &["one", "1", "a"]);
        let is_of_small = || words.iter().any(|word| SMALL.contains(word));
        let is_first = |at: usize| follows(at, &["first"]) && follows(at + 1, &["year"]) && is_of_small();
        words.contains(&"for")
            && (0..words.len())
                .any(|at| is_first(at) || is_under(at) && (follows(at + 2, &["year"]) || words.len() == at + 2))
    };
    words.iter().enumerate().any(|(at, word)| match *word {
        "for" => follows(at + 1, BABIES) && !follows(at + 2, FOR_OTHERS),
        "baby" | "baby's" | "infant" | "infant's" | "infants" | "infants'" => is_food(at + 1),
        "weaning" => words.len() == 1 || is_food(at + 1) || at > 0 && follows(at - 1, &["for"]),
        _ => false,
    }) || months()
        || first_year()
}

/// The honey that goes into what is for babies.
pub(in crate::check) fn for_babies<'r>(recipe: &'r Recipe, formula: &Formula) -> Option<&'r Ingredient> {
    let made = made_parts(recipe, formula);
    let lines =
        made.flat_map(|(id, part)| part.lines.iter().enumerate().filter(move |(at, _)| !formula.is_left_out(id, *at)));
    let mut lines = lines.map(|(_, line)| line);
    // Asked first, since hardly a recipe has any.
    let honey = lines.find(|line| line.stays_in() && is_of_honey(&line.name))?;
    is_for_babies(recipe).then_some(honey)
}

/// Whether a name is that of honey or its comb; the sweet that is called honeycomb is of burnt sugar.
fn is_of_honey(name: &Name) -> bool {
    let has = |sought: &[&str]| words_with_hyphens(name.key.as_str()).any(|word| sought.contains(&word));
    name.may_have_word_beginning(beginnings!["honey"])
        && has(&["honey", "honeycomb"])
        && !has(&["toffee", "candy", "crunch"])
}

/// Honey in what is for babies, as a problem.
pub(super) fn told(subject: &Subject<'_>) -> Option<Diagnostic> {
    let line = for_babies(subject.recipe, subject.formula)?;
    // Lines of another file are told there.
    if line.name.span.source != subject.recipe.source {
        return None;
    }
    let message =
        format!("`{}` in what is for babies: it may hold spores of botulism, which no kitchen's heat kills", line.name);
    Some(
        Diagnostic::advice(CHECK.name, line.name.span, message)
            .help("leave it out for children under a year; health authorities and local food law go before this"),
    )
}
