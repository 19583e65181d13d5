//! Whose a time and a heat are: the act's that their own sentence tells, and within it the verb's that stands before them.
//!
//! `Add the eggs when 60 C, pipe, bake 20 min at 190.` bakes at 190, and at no 60 C; `Almonds on top. 35 min @ 170. Cool.` cools no 35 min.

use super::heat::{heat, in_fridge, is_of_an_oven};
use super::keeping::keeping;
use super::taken::VERBS;
use super::times::{first_time, times};
use super::verbs::{BEGUN, LEFT, TENDED, WAITED, forbids, is_verb, says_overnight, verbs};
use super::words::{self, sentences};
use super::{ingredient, kinds};

/// Verbs with which an oven is set to another heat: `reduce to 200 C` after a bake. They take no time themselves.
const DIAL: [&str; 8] = ["reduce", "lower", "turn", "drop", "raise", "increase", "preheat", "heat"];
/// Words before a heat that is reached and not set.
const REACHED: [&str; 7] = ["until", "till", "til", "when", "once", "reaches", "reached"];
/// First words of a sentence that tell nothing that is done, in the languages of the neighbours too.
#[rustfmt::skip]
const NO_VERBS: [&str; 32] = [
    "in", "at", "on", "for", "after", "with", "by", "to", "the", "a", "an", "bei", "nach", "mit", "auf", "im", "zu", "der", "die", "das",
    "den", "dans", "au", "à", "pour", "le", "la", "il", "con", "per", "gas", "ready",
];

/// The text before the sentence that gives the time of a step, and that sentence; the whole text, where none does.
fn own_sentence(text: &str) -> (&str, &str) {
    let whole = ("", text);
    let is_own = |one: &str| keeping(one).is_none() && !forbids(one);
    let find = |gives: fn(&str) -> bool| {
        let mut start = 0;
        sentences(text).find_map(|one| {
            let at = start;
            start += one.len();
            (gives(one) && is_own(one)).then_some((text.get(..at)?, one))
        })
    };
    find(|one| !times(one).is_empty()).or_else(|| find(says_overnight)).unwrap_or(whole)
}

/// The verbs of a text without those that only set an oven: `reduce to 200 C`.
pub(super) fn acting(text: &str) -> Vec<String> {
    let lower = text.to_lowercase();
    let sets = |verb: &str| {
        let behind = lower.find(verb).and_then(|at| lower.get(at + verb.len()..)).unwrap_or_default();
        DIAL.contains(&verb) && is_of_an_oven(behind.split([',', ';']).next().unwrap_or_default())
    };
    verbs(text).into_iter().filter(|verb| !sets(verb)).collect()
}

/// Whether the sentence of the time only sets an oven to another heat: `reduce to 200 C for 35 min`.
pub(super) fn sets_the_oven(text: &str) -> bool {
    let (_, own) = own_sentence(text);
    acting(own).is_empty() && verbs(own).iter().any(|verb| DIAL.contains(&verb.as_str()))
}

/// Where the last verb of a text begins.
fn last_verb(text: &str) -> Option<usize> {
    let verb = acting(text).pop()?;
    let lower = text.to_lowercase();
    let places = lower.rmatch_indices(verb.as_str()).map(|(at, _)| at);
    let begins = |at: &usize| lower.get(..*at).is_some_and(|before| !before.ends_with(char::is_alphanumeric));
    (lower.len() == text.len()).then(|| places.into_iter().find(begins)).flatten()
}

/// A sentence up to the first clause behind its time that tells something else: `, cool to 30 C`.
fn up_to_next_act(sentence: &str) -> &str {
    let time = first_time(sentence).unwrap_or(0);
    let behind = sentence.get(time..).unwrap_or_default();
    let joints = [", then ", " then ", ", and ", ", ", "; ", " and "];
    let ends = joints.iter().flat_map(|joint| {
        behind.match_indices(joint).filter_map(|(at, joint)| {
            let next = words::all_of(behind.get(at + joint.len()..)?).next()?;
            is_verb(&next).then_some(at)
        })
    });
    ends.min().and_then(|end| sentence.get(..time + end)).unwrap_or(sentence)
}

/// The heat of a text, unless it is one that is reached: `whisk until 40 C`.
fn set_heat(text: &str) -> Option<String> {
    let found = heat(text)?;
    let figure = found.trim_start_matches('-').split(' ').next()?;
    let before = text.get(..text.find(figure)?)?;
    // `until +50 %, 4 h at 25 C`: what is reached is said in the clause before.
    let before = before.rsplit([',', ';']).next().unwrap_or(before);
    let reached =
        words::all_of(before).collect::<Vec<_>>().iter().rev().take(3).any(|word| REACHED.contains(&word.as_str()));
    (!reached).then_some(found)
}

/// The heat of what takes the time of a step.
pub(super) fn heat_of(text: &str) -> Option<String> {
    let (_, own) = own_sentence(text);
    let own = up_to_next_act(own);
    let time = first_time(own).unwrap_or(own.len());
    let verb = own.get(..time).and_then(last_verb);
    let (before, behind) = own.split_at_checked(verb.unwrap_or(0)).unwrap_or(("", own));
    set_heat(behind).or_else(|| set_heat(before).filter(|_| acting(before).is_empty()))
}

/// The heat of an oven that is told of by itself: `Preheat the oven to 200 C.`
pub(super) fn heat_of_oven(text: &str) -> Option<String> {
    let only_sets = |one: &&str| {
        one.to_lowercase().contains("oven") && times(one).is_empty() && {
            let verbs = verbs(one);
            verbs.iter().all(|verb| DIAL.contains(&verb.as_str()))
        }
    };
    sentences(text).filter(only_sets).find_map(heat)
}

/// Words of a time that says nothing else.
const TIME: [&str; 11] = ["m", "min", "mins", "minute", "minutes", "h", "hr", "hrs", "hour", "hours", "about"];

/// Whether the sentence of the time says no verb and a heat that only an oven has: `150 C 25 min`, also behind the last act of others,
/// `whisk, coat, 150 C 25 min`.
pub(super) fn is_baked_unsaid(text: &str) -> bool {
    let (earlier, own) = own_sentence(text);
    let own = up_to_next_act(own);
    let time = first_time(own).unwrap_or(own.len());
    let before = own.get(..time).unwrap_or(own);
    let Some(verb) = last_verb(before) else { return is_of_an_oven(own) };
    let behind = own.get(verb..).unwrap_or_default();
    let tended = words::all_of(behind).next().is_some_and(|word| TENDED.contains(&word.as_str()));
    let clause = behind.find([',', ';']).filter(|comma| verb + comma < time).and_then(|comma| behind.get(comma..));
    // `Oven 180 (160 fan). Rub in, roll, cut, 12-15 mins`: a time by itself, below an oven that is set.
    let only_time = |clause: &str| {
        words::all_of(clause).filter(|word| !word.contains(char::is_numeric)).all(|word| TIME.contains(&word.as_str()))
    };
    let set = || earlier.to_lowercase().contains("oven") && is_of_an_oven(earlier);
    let last = before.rfind([',', ';']).and_then(|comma| own.get(comma..));
    !tended && (clause.is_some_and(is_of_an_oven) || last.is_some_and(only_time) && set())
}

/// Whether a step goes on with what was done before: `15 min more`, `another 20 min`, and tells no act of its own for that time.
pub(super) fn is_more_of_it(text: &str) -> bool {
    let (_, own) = own_sentence(text);
    let Some(time) = first_time(own) else { return false };
    let (before, behind) = own.split_at_checked(time).unwrap_or_default();
    let clause = before.rsplit([',', ';']).next().unwrap_or_default();
    let word = |at: usize| behind.split_whitespace().nth(at).unwrap_or_default().trim_end_matches(['.', ',', ';']);
    let more = |word: &str| ["more", "longer", "again", "extra"].contains(&word);
    let another = ["another", "further"].iter().any(|word| words::all_of(clause).any(|said| said == *word));
    (another || more(word(1)) || more(word(2))) && acting(clause).is_empty()
}

/// The verbs of the sentence that gives the time.
pub(super) fn verbs_of_time(text: &str) -> Vec<String> {
    acting(own_sentence(text).1)
}

/// Whether the cold takes the time, without a verb: `shape, fridge 12 h`.
pub(super) fn is_chilled(text: &str) -> bool {
    let (_, own) = own_sentence(text);
    let before = own.get(..first_time(own).unwrap_or(0)).unwrap_or_default();
    let clause = before.rsplit([',', ';']).next().unwrap_or(before);
    verbs(clause).is_empty() && in_fridge(clause)
}

/// Whether a word tells what something does by itself: `dough rises 1 h`.
fn does_by_itself(word: &str) -> bool {
    let verb = word.strip_suffix('s').unwrap_or_default();
    [&TENDED[..], &WAITED, &LEFT].iter().any(|verbs| verbs.contains(&verb))
}

/// The verb that takes the time: the last one before it in its own sentence, else one in its own clause behind it, else the first word
/// of the sentence. A sentence of nothing but a time goes with the short one before it.
pub(super) fn verb_of(text: &str) -> Option<String> {
    let (earlier, own) = own_sentence(text);
    let at = first_time(own);
    let before = own.get(..at.unwrap_or(0)).unwrap_or_default();
    if is_chilled(text) {
        return Some("chill".to_owned());
    }
    // `Take the butter out. Cream it with the sugar 5 min`: what begins the sentence of the time is what is done for so long.
    let begun = || {
        let told_before = !earlier.trim().is_empty() && verbs(before).is_empty();
        words::all_of(own).next().filter(|word| told_before && (BEGUN.contains(&word.as_str()) || word == "cream"))
    };
    let clause = own.get(at.unwrap_or(0)..).unwrap_or(own);
    // `For 10 min, knead`: the time stands before all that is done.
    let led = words::all_of(before).all(|word| ["for", "about", "another"].contains(&word.as_str()))
        && !before.trim().is_empty();
    let end = match (at, led) {
        (Some(_), false) => [", ", "; ", " then "].iter().filter_map(|joint| clause.find(joint)).min(),
        _ => None,
    };
    let all = acting(end.and_then(|end| clause.get(..end)).unwrap_or(clause));
    let any = |list: &[&str]| all.iter().find(|word| list.contains(&word.as_str())).cloned();
    let short_before = || {
        let last = sentences(earlier).last().filter(|last| last.split_whitespace().count() <= 3)?;
        words::all_of(before).all(|word| ["for", "about"].contains(&word.as_str())).then(|| acting(last).pop())?
    };
    // A first word that only joins names nothing that is done, nor does `4C 16 h`, `Gas 7` or what goes in.
    let first = || {
        let word = own.split_whitespace().next().filter(|word| !word.contains(char::is_numeric))?;
        let word = words::all_of(word).next().filter(|word| !NO_VERBS.contains(&word.as_str()))?;
        let is_thing = kinds::names_a_part(&word)
            || ingredient::is_known(&word) && !is_verb(&word) && !VERBS.contains(&word.as_str());
        (!is_thing).then_some(word)
    };
    begun()
        .or_else(|| acting(before).pop())
        .or_else(|| any(&TENDED))
        .or_else(|| any(&WAITED))
        .or_else(|| any(&LEFT))
        .or_else(|| all.first().cloned())
        .or_else(short_before)
        .or_else(|| words::all_of(before).filter(|word| does_by_itself(word)).last())
        .or_else(first)
}
