//! A second thing that goes in, behind the comma of the first: `butter .... 50 g, and 2 eggs`. It would be read as how the butter is prepared, and be
//! in no list, no sum and on no label.

use super::{CHECK, read_as_preparation};
use crate::language::evaluate::evaluate;
use crate::language::in_words;
use crate::language::syntax::{Amount, IngredientLine};
use crate::measure::in_text::number_at;
use crate::measure::noun::stem;
use crate::measure::number::Number;
use crate::measure::unit::{Dimension, Measures};
use crate::measure::value::{Said, Value};
use crate::model::cooking::has_word_beginning;
use crate::model::kind::Kind;
use crate::model::larder::kind_of_word;
use crate::text::diagnostic::{Diagnostic, Edit, Mend};
use crate::text::source::Span;
use crate::text::words::words_with_hyphens;

/// Words that join a second thing to the first.
const JOINS: &[&str] = &["and", "plus", "or", "with", "&", "+"];
/// Words behind which an amount is a share of the thing itself, or of its own liquid: `30 g of it`, `2 tbsp of their oil`.
const ITS_OWN: &[&str] = &["it", "its", "them", "their", "this", "these", "which", "that", "the"];
/// Parts of a thing that are counted or weighed in its stead: `lemon .... 2, juice 30 g`.
const OF_A_WHOLE: &[&str] =
    &["juice", "zest", "flesh", "white", "whites", "yolk", "yolks", "peel", "rind", "pulp", "meat"];
/// How something is that weighs the same for it, by the beginnings of words: `300 g melted` is no weight of 50 g.
const AS_HEAVY: &[&str] = &[
    "melted", "soft", "cold", "warm", "hot", "chilled", "cubed", "diced", "chopped", "grated", "sliced", "sifted",
    "ground", "more", "extra",
];

/// What is told of a clause of words behind an amount, where a second thing or a second amount stands in it.
pub(super) fn second_thing(line: &IngredientLine, span: Span, text: &str) -> Option<Diagnostic> {
    let said = text.trim().to_lowercase();
    let of_its_own_line = || "a line holds one ingredient with one amount: give what is added a line of its own";
    let problem = |help: &str| Some(read_as_preparation(span, text).help(help));
    if is_times(&said) {
        return problem("write the amount that goes in altogether");
    }
    if let Some(help) = of_elsewhere(&said) {
        return problem(help);
    }
    let name = line.name.key.as_str();
    let joined = JOINS.iter().find_map(|word| Some((*word, said.strip_prefix(word)?.trim_start())));
    let joined = joined.filter(|(_, rest)| rest.starts_with(char::is_numeric));
    let rest = joined.map_or(said.as_str(), |(_, rest)| rest);
    if !is_second(line, name, rest, joined.is_some()) {
        return None;
    }
    match joined {
        Some(("or", _)) => problem("what may stand in is said last on the line, `instead: NAME AMOUNT`"),
        _ => problem(of_its_own_line()),
    }
}

/// `x 2` and `× 2`.
fn is_times(text: &str) -> bool {
    let times = text.strip_prefix(['x', '×', '*']).map(str::trim_start);
    times.is_some_and(|number| !number.is_empty() && number.chars().all(|c| c.is_numeric() || ".,/".contains(c)))
}

/// What is said of a larder entry, or of a part, and not of a line.
fn of_elsewhere(text: &str) -> Option<&'static str> {
    let (first, rest) = text.split_once(' ')?;
    let is_food = |words: &str| words.split(' ').count() <= 2 && food(words).is_some();
    match first {
        "contains" | "contain" => {
            Some("what a thing contains stands in its block of a larder, `contains NAME`, and is in every label then")
        }
        "keeps" | "keep" if rest.starts_with(char::is_numeric) => {
            Some("how long a part keeps stands on a line of its own, `keeps 2 days, chilled`")
        }
        // `leaves only` and `leaves picked` are said of herbs.
        "leaves" if is_food(rest) => Some("what is left over has its share, `leaves NAME 20 %`"),
        _ => None,
    }
}

/// What kind of food some words are called, by all of them or by the last.
fn food(words: &str) -> Option<Kind> {
    let last = words.rsplit(' ').next().unwrap_or(words);
    [words, last].into_iter().map(kind_of_word).find(|kind| *kind != Kind::Other)
}

/// Whether words name the thing of the line itself: `lemon juice .... 60 g, 2 lemons`.
fn is_of_the_line(name: &str, words: &str) -> bool {
    words_with_hyphens(words).any(|word| has_word_beginning(name, [stem(word).as_str()]))
}

fn is_second(line: &IngredientLine, name: &str, text: &str, is_joined: bool) -> bool {
    let measured =
        in_words::amount(text).filter(|found| matches!(found.unit.dimension(), Dimension::Mass | Dimension::Volume));
    let Some(found) = measured else { return is_counted(name, text, is_joined) };
    let (Some(before), Some(behind)) = (text.get(..found.at.start), text.get(found.at.end..)) else { return false };
    let (before, behind) = (before.trim(), behind.trim());
    let of = behind.strip_prefix("of ").map_or(behind, str::trim_start);
    let is_its_own = words_with_hyphens(of).next().is_some_and(|word| ITS_OWN.contains(&word));
    if is_its_own {
        return false;
    }
    let is_other_food = |words: &str| food(words).is_some() && !is_of_the_line(name, words);
    if before.is_empty() {
        let is_as_heavy = || has_word_beginning(of, AS_HEAVY) && is_more(line, &found.said);
        return is_joined || is_other_food(first_words(of)) || is_as_heavy();
    }
    // `sugar 300 g`, and `soaked in 50 g water`.
    let is_taken_up = || {
        let is_in = before.rsplit(' ').next().is_some_and(|word| ["in", "into", "with"].contains(&word))
            && has_word_beginning(
                before,
                ["soak", "dissolv", "mixed", "bloom", "steep", "hydrat", "stirred", "whisked", "slaked"],
            );
        let poured =
            food(first_words(of)).is_some_and(|kind| kind.is_liquid() || matches!(kind, Kind::Fat | Kind::Syrup));
        is_in && poured && !is_of_the_line(name, of)
    };
    let is_named = || {
        let is_whole = before.split(' ').count() <= 4 && !before.contains([',', '(', ';', ':']);
        let is_share =
            before.rsplit(' ').next().is_some_and(|word| OF_A_WHOLE.contains(&word)) && !before.contains(' ');
        behind.is_empty() && is_whole && !is_share && is_other_food(before)
    };
    is_named() || is_taken_up()
}

/// Two words of a name at most, up to where something else begins.
fn first_words(text: &str) -> &str {
    let end = text.find([',', ';', '(', ':']).unwrap_or(text.len());
    let words = text.get(..end).unwrap_or(text).trim();
    let stops = [" for ", " in ", " to ", " from ", " and ", " on "];
    let end = stops.iter().filter_map(|stop| words.find(stop)).min().unwrap_or(words.len());
    words.get(..end).unwrap_or(words)
}

/// `and 2 eggs`, `2 eggs`: so many of another thing. Of how many something comes from says more than their number, `from 2 lemons`.
fn is_counted(name: &str, text: &str, is_joined: bool) -> bool {
    let number = number_at(text);
    let Some(rest) = text.get(number.len()..).map(str::trim).filter(|_| !number.is_empty()) else { return false };
    let kind = food(first_words(rest)).filter(|_| !is_of_the_line(name, rest));
    kind.is_some_and(|kind| is_joined || kind == Kind::Egg)
}

/// Whether an amount is more than the line has of it in all.
fn is_more(line: &IngredientLine, second: &Said) -> bool {
    let Amount::Chain(chain) = &line.amount else { return false };
    let first = chain.iter().find_map(|one| {
        let said = evaluate(one, Some(Measures::Us), &mut Vec::new())?;
        grams_or_litres(&said).zip(grams_or_litres(second)).filter(|((one, _), (two, _))| one == two)
    });
    first.is_some_and(|((_, first), (_, second))| second > first)
}

fn grams_or_litres(said: &Said) -> Option<(bool, Number)> {
    match said.value {
        Value::Mass(mass) => Some((true, mass.value())),
        Value::Volume(volume) => Some((false, volume.value())),
        _ => None,
    }
}

/// `1/2 cup, packed = 207 g`: the weight that the author gave stands behind the words, and is computed with no more.
pub(super) fn weight_behind(line: &IngredientLine, span: Span, text: &str) -> Option<Diagnostic> {
    let (words, weight) = text.rsplit_once('=')?;
    let (words, weight) = (words.trim(), weight.trim());
    let found = in_words::amount(weight).filter(|found| found.at == (0..weight.len()))?;
    if words.is_empty() || !matches!(found.unit.dimension(), Dimension::Mass | Dimension::Volume) {
        return None;
    }
    let message = format!("`= {weight}` stands behind `{words}`, where it is read as words and counts in no sum");
    let problem = Diagnostic::error(CHECK.name, span, message).help(format!(
        "another way to say the amount stands right behind it, before the comma: `… = {weight}, {words}`"
    ));
    let after = Span { start: line.amount.span().end, end: line.amount.span().end, ..span };
    let edits = vec![Edit { span: after, text: format!(" = {weight}") }, Edit { span, text: words.to_owned() }];
    let mend = Mend { title: format!("write `= {weight}` before the comma"), edits, certain: false };
    Some(Diagnostic { mend: matches!(line.amount, Amount::Chain(_)).then_some(mend), ..problem })
}
