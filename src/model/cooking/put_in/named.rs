//! Food with allergens that the words of a step name without any verb of putting in: `Egg wash.`, `A few walnuts go on top.`

use super::{TOOLS, clauses, is_ended, named_from};
use crate::model::cooking::{in_lower_case, says};
use crate::model::larder::Larder;
use crate::model::lowered::{Beginnings, beginnings};
use crate::model::step::{PutIn, SaidToGoIn, Step, Words};
use crate::text::denied::DENY;
use crate::text::whole_words::WholeWords;
use crate::text::words::words_with_hyphens_and_apostrophes;

/// How what has an allergen is called, by beginnings of words: without one of them no word is looked up. Cereals are in nearly every recipe, and its
/// bread is what it makes.
#[rustfmt::skip]
pub(super) const WITH_ALLERGENS: &Beginnings = beginnings![
    "egg", "almond", "walnut", "hazelnut", "pecan", "pistachio", "cashew", "macadamia", "brazil", "peanut", "nut|", "nuts|", "butter", "cream", "milk", "cheese",
    "yogh", "yogurt", "mozzarella", "parmesan", "pecorino", "feta", "ricotta", "mascarpone", "cheddar", "gruy", "custard", "sesame", "tahini", "mustard", "celer",
    "prawn", "shrimp", "crab", "lobster", "mussel", "squid", "anchov", "salmon", "tuna", "haddock", "mackerel", "mayonnaise", "marzipan", "praline", "soy", "miso",
    "tofu", "lupin", "wine", "crème", "creme",
];

/// Words before a food by which something else is only like it, as large, beside it or in its place.
#[rustfmt::skip]
const LIKE: &WholeWords = &WholeWords::of(&[
    "like", "as", "than", "size", "sized", "consistency", "thickness", "texture", "colour", "color", "smell", "smells", "instead", "replace", "swap", "for",
    "resembles", "looks", "if", "or", "beside", "next",
]);
/// Verbs by which something is eaten beside it, at the table.
const BESIDE: &WholeWords =
    &WholeWords::of(&["serve", "serves", "served", "eat", "eaten", "enjoy", "good", "goes", "delicious"]);
/// Words behind which a food's name is a colour, a shape or part of another name.
const ANOTHER: &WholeWords =
    &WholeWords::of(&["brown", "yellow", "white", "shaped", "free", "style", "pink", "cap", "off"]);

/// Adds each such food to what the verbs of a step put in.
pub(super) fn add(step: &Step, larder: &Larder, found: &mut Vec<PutIn>) {
    // Of so long a list every second step may say something, and hardly one does.
    if !says(step, WITH_ALLERGENS) {
        return;
    }
    for (at, (word, text)) in in_lower_case(step).take(step.words.len()).enumerate() {
        if !matches!(word, Words::Text(_)) || !WITH_ALLERGENS.may_begin_in(text) {
            continue;
        }
        // `And cream {butter}`: right before what is taken it is a verb.
        let goes_on = matches!(step.words.get(at + 1), Some(Words::Use { .. }));
        for clause in clauses(text).filter(|clause| WITH_ALLERGENS.may_begin_in(clause)) {
            in_clause(clause, goes_on && !is_ended(clause), larder, found);
        }
    }
}

fn in_clause(clause: &str, goes_on: bool, larder: &Larder, found: &mut Vec<PutIn>) {
    let words: Vec<&str> = words_with_hyphens_and_apostrophes(clause).collect();
    let mut past = 0;
    for (at, word) in words.iter().copied().enumerate() {
        if at < past || !WITH_ALLERGENS.begin_in(word) {
            continue;
        }
        let before = words.get(at.saturating_sub(4)..at).unwrap_or_default();
        let next = words.get(at + 1).copied().unwrap_or_default();
        // `Cream the butter`, `Butter the tins`: a verb; and an egg wash is egg.
        let is_verb = ["cream", "butter"].contains(&word) && (at == 0 || next.is_empty() && goes_on);
        let is_wash = word == "eggwash" || word == "egg" && ["wash", "glaze"].contains(&next);
        let is_tool = TOOLS.has(next) || ANOTHER.has(next);
        if before.iter().any(|word| LIKE.has(word) || DENY.has(word)) || !is_wash && (is_verb || is_tool) {
            continue;
        }
        let named = if is_wash { Some(("egg".to_owned(), 1)) } else { named_from(&words, at, larder) };
        let Some((name, count)) = named else { continue };
        past = at + count;
        // What a verb puts in is told by it.
        if found.iter().any(|known| known.name.ends_with(&name) || name.ends_with(&known.name)) {
            continue;
        }
        let is_beside = words.iter().take(at).any(|word| BESIDE.has(word));
        let by = if is_beside { SaidToGoIn::Beside } else { SaidToGoIn::Without };
        found.push(PutIn { name, is_one: count == 1, has_amount: false, is_known: false, is_of_tins: false, by });
    }
}
