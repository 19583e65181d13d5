//! A line of a list of ingredients: one of them, or several.

use super::amount::{DECIMAL, THOUSANDS, Unit};
use super::bare::bare;
use super::done::{done_before_bracket, prepares};
use super::each::of_each;
use super::fruit;
use super::item::{FOR_EACH, Made, Read};
use super::kinds;
use super::language::in_english;
use super::left_out;
use super::manner::{AMONG_WORDS, is_figure, is_ratio};
use super::measure::{Measure, holds_amount, measure};
use super::short::{in_full, settle_name};
use super::times::times;
pub(super) use super::unweighed::{all_of, is_known};
use super::unweighed::{in_larder, without_amount};
use super::vague;
use super::words;
use crate::language::no_name::begins_no_name;
use crate::language::syntax::Key;
use crate::model::counted::comes_in_pieces;
use crate::model::larder::Larder;

/// What parts one ingredient from the next on a line.
const BETWEEN: &[&str] = &[", plus ", ", and ", ", ", "; ", " + ", " & ", " and ", " plus ", " / "];
/// So many ingredients may stand on a line with nothing between them: `flour 300 g water 200 g`.
const IN_A_ROW: usize = 100;
/// So many words a name has at the most: more are a sentence.
const NAME_WORDS: usize = 6;
/// So many bytes a name has at the most.
const NAME_BYTES: usize = 200;
/// Why a mark stands where a comma parts each name from the amount behind it.
const WHOSE: &str = "is each amount that of what stands before it?";
/// What is counted and is nothing that goes in.
const NO_FOOD: &[&str] = &["fold", "folds", "turn", "turns", "stretch", "stretches"];

/// Reads a line. `expected`: the lines around are ingredients, so that a bare name is one too.
pub(super) fn read(line: &str, expected: bool) -> Option<Vec<Read>> {
    let text = vague::at_heat(&bare(line));
    let text = text.trim().trim_end_matches([',', ';']).trim_end();
    let optional = ["optional: ", "Optional: ", "OPTIONAL: ", "(optional) ", "(Optional) "]
        .into_iter()
        .find_map(|word| text.strip_prefix(word));
    let text = vague::with_doubt_apart(optional.unwrap_or(text));
    let (text, about) = vague::without_about(&text);
    let text = text.as_str();
    let text = text.strip_suffix('.').filter(|bare| !bare.contains(". ")).unwrap_or(text);
    let mut all = left_out::read(text)
        .map(|read| vec![read])
        .or_else(|| fruit::read(text))
        .or_else(|| of_each(text))
        .or_else(|| parted(text))
        .or_else(|| several(text))
        .or_else(|| amount_first(text).map(|read| vec![read]))
        .or_else(|| amount_last(text))
        .or_else(|| without_amount(text, expected))?;
    all.iter_mut().for_each(settle_name);
    if let Some((about, first)) = about.zip(all.first_mut()) {
        first.look.push(format!("the notes say `{about}`"));
    }
    if optional.is_some() {
        all.iter_mut().for_each(|read| read.clauses.push("optional".to_owned()));
    }
    Some(all)
}

/// Reads a line of which it is known that it is an ingredient, however long its words are.
pub(super) fn listed(line: &str) -> Option<Vec<Read>> {
    read(line, true).or_else(|| {
        let mut read = Made::open("as needed", Some("no amount is understood")).named(&bare(line))?;
        settle_name(&mut read);
        Some(vec![read])
    })
}

/// Whether a line is an ingredient with its amount.
pub(super) fn has_amount(line: &str) -> bool {
    let text = bare(line);
    begins(&text)
        .is_some_and(|(amount, rest)| amount.is_quantity() || (!rest.trim().is_empty() && may_be_counted(rest)))
        || amount_last(&text).is_some()
}

/// Whether a text begins with an amount of a thing that it names: `50 g sesame seeds`, and not `500 g`.
pub(super) fn begins_with_amount(text: &str) -> bool {
    begins(text).is_some_and(|(amount, rest)| amount.is_quantity() && rest.contains(char::is_alphabetic))
}

/// Whether a text begins with an amount of a thing that it names, or so many of one that is known: `3 eggs, 90 g sugar`.
pub(super) fn begins_a_list(text: &str) -> bool {
    let counted = || {
        let (amount, rest) = begins(text)?;
        let name = rest.split([',', '(']).next()?.trim();
        (amount.unit.is_none() && is_known(name)).then_some(())
    };
    // `seeds, about 100g`.
    let single = || vague::without_about(text).1.is_some() && amount_last(&vague::without_about(text).0).is_some();
    // `jar of raspberry jam`.
    let loose = || {
        let (amount, rest) = measure(text)?;
        (amount.unit == Some(Unit::Loose)
            && is_known(rest.trim_start().strip_prefix("of ")?.split([',', ';', '(']).next()?))
        .then_some(())
    };
    begins_with_amount(text) || loose().is_some() || counted().is_some() || takes_a_part(text) || single()
}

/// Whether a text takes a part, whole or but for some of it: `all the sour less 30 g, 400 g rye`.
fn takes_a_part(text: &str) -> bool {
    let first = next_between(text, 0).and_then(|(at, _)| text.get(..at)).unwrap_or(text);
    all_of(first).is_some() || left_out::read(first).is_some()
}

/// Whether a text lists several ingredients, each with its weight or volume, or two with it and others by the piece.
pub(super) fn is_list(text: &str) -> bool {
    let said = |read: &Read| measure(&read.amount).map(|(amount, _)| amount);
    several(text).is_some_and(|all| {
        let weighed = all.iter().filter_map(said).filter(Measure::is_quantity).count();
        weighed > 1 && all.iter().all(|read| said(read).is_some_and(|amount| amount.has_figure))
    })
}

/// Whether a text lists three and more, of which all but one are known: what such a list makes bears a name of what is bought as well,
/// `Beef stock: 2 kg bones, 3 l water, 1 onion`.
pub(super) fn is_long_list(text: &str) -> bool {
    let known = |all: &[Read]| all.iter().filter(|read| is_known(&read.name)).count();
    is_list(text) && several(text).is_some_and(|all| all.len() > 2 && known(&all) + 1 >= all.len())
}

/// Whether each of the names that commas part is known as an ingredient: `salt, pepper`.
pub(super) fn lists_known(text: &str) -> bool {
    text.split(", ").all(is_known)
}

/// Whether a line ends in a number without a unit: a date, a number of a sheet, or so many of something.
pub(super) fn ends_in_bare_number(line: &str) -> bool {
    let bare = line.trim_end_matches('.');
    let Some((name, last)) = bare.rsplit_once(' ') else { return false };
    let dated =
        last.contains(['.', '/']) || name.ends_with("no.") || !is_known(name.split([',', '(']).next().unwrap_or(name));
    let figure = dated
        && last.starts_with(|c: char| c.is_ascii_digit())
        && last.chars().all(|c| c.is_ascii_digit() || "./".contains(c));
    figure && !line.starts_with(char::is_numeric)
}

/// Whether words behind a bare number are few enough to be a name.
fn may_be_counted(rest: &str) -> bool {
    // `5 single turns` are work.
    let is_work = |name: &str| {
        let last = words::all_of(name).last().unwrap_or_default();
        ["turn", "turns", "fold", "folds"].contains(&last.as_str())
    };
    let name = rest.split(',').next().unwrap_or_default();
    name.split_whitespace().count() <= 4 && !rest.ends_with('.') && !is_work(name)
}

/// `500 g bread flour`, `2 eggs`, `225 g / 8 oz butter`, `a pinch of salt`.
fn amount_first(text: &str) -> Option<Read> {
    let (first, rest) = begins(text)?;
    let of_what = words::all_of(rest).next().unwrap_or_default();
    // `350 for 20`, `160 fan 12 mins`: a heat, and a time.
    let is_told = || starts_no_name(rest.trim_start()) && of_what != "of" || !times(rest).is_empty();
    if first.unit.is_none() && (NO_FOOD.contains(&of_what.as_str()) || is_told()) {
        return None;
    }
    let mut made = Made::of(first.clone());
    let named = {
        let rest = made.more(rest);
        made.named(rest)
    };
    // `3 cloves` are the spice, where no name follows.
    named.or_else(|| {
        let spice = first.unit == Some(Unit::Counted) && in_larder(&first.word);
        let bare = Measure { unit: None, ..first };
        spice.then(|| Made::of(bare.clone()).named(&format!("{}{rest}", bare.word))).flatten()
    })
}

/// The amount at the start of a text.
fn begins(text: &str) -> Option<(Measure, &str)> {
    let (first, rest) = measure(text)?;
    let no_amount = is_ratio(&first.shown)
        || first.unit == Some(Unit::Other)
        || (first.unit.is_none() && first.shown.chars().all(|c| c == '0'));
    // `70 % chocolate 200 g` is chocolate, `65 % water` is water.
    let in_name =
        first.known() == Some("%") && rest.split_whitespace().skip(1).any(is_figure) && !rest.contains(['(', ',']);
    let article = !first.has_figure && first.unit.is_none();
    if no_amount || in_name || article || rest.starts_with([':', ')']) {
        return None;
    }
    Some((first, rest))
}

/// `Flour: 500 g`, `butter ... 200 g`, `salt - 9 g`, `Flour T65 500g`, `flour 300 g water 200 g`.
fn amount_last(text: &str) -> Option<Vec<Read>> {
    amounts_last(text, IN_A_ROW)
}

/// The same, of so many at the most.
fn amounts_last(text: &str, most: usize) -> Option<Vec<Read>> {
    let mut before = None;
    for (at, character) in text.char_indices() {
        let starts = character.is_numeric()
            && before.is_some_and(|before: char| {
                !before.is_alphanumeric() && !"./,⁄-~".contains(before) && ![DECIMAL, THOUSANDS].contains(&before)
            });
        // `600 g` behind `about` or `~` is taken with it.
        let starts = starts
            || (character.is_numeric() && before == Some(',') && !text.get(..at)?.ends_with(|c: char| c.is_numeric()));
        // `yeast .2 %`.
        let point = character == '.'
            && before == Some(' ')
            && text.get(at + 1..).is_some_and(|behind| behind.starts_with(|c: char| c.is_ascii_digit()));
        // `eggs x4`.
        let times = before == Some('x') && text.get(..at)?.ends_with(" x");
        before = Some(character);
        if !(starts || point || times && character.is_numeric()) {
            continue;
        }
        if let Some(found) = with_amount_at(text, at, most) {
            return Some(found);
        }
    }
    let (amount, name) = vague::said_in_words(text)?;
    Some(vec![Made::of(amount).named(name)?])
}

/// `+ more for the pan`: what stands behind an amount and holds none.
fn is_some_more(rest: &str) -> bool {
    let behind = rest.strip_prefix('+').or_else(|| rest.strip_prefix("plus ")).map(str::trim_start);
    behind.is_some_and(|behind| {
        // `12 g + coarse for the top`.
        (["more ", "extra ", "a little ", "some "].iter().any(|word| behind.starts_with(word))
            || behind.contains(" for "))
            && !behind.contains(char::is_numeric)
    })
}

/// The name before the amount that stands there, and of the ingredients behind it so many at the most.
fn with_amount_at(text: &str, at: usize, most: usize) -> Option<Vec<Read>> {
    let (before, behind) = text.split_at(at);
    let name = name_before(before, behind)?;
    let (amount, rest) = measure(behind)?;
    let first = first_of(name);
    if is_ratio(&amount.shown) || amount.unit == Some(Unit::Other) || (amount.unit.is_none() && !is_known(first)) {
        return None;
    }
    // `flour 550 1 kg`: the first figure is the flour's type.
    if amount.unit.is_none()
        && !comes_in_pieces(&Key::new(&words::name(first)))
        && measure(rest.trim_start_matches(['|', ' ', ':'])).is_some_and(|(next, _)| next.is_quantity())
    {
        return None;
    }
    let quantity = amount.is_quantity();
    let each = ["each", "per ", "a piece"].iter().any(|word| rest.trim_start().starts_with(word));
    let mut made = Made::of(amount);
    let rest = made.more(rest).trim_start();
    let (done, rest) = done_before_bracket(&mut made, rest);
    // `morello (680 g, drained 350 g)`: both brackets go.
    let opened = before.trim_end().ends_with('(');
    let closed = rest.split_once(')').filter(|(inside, _)| opened && !inside.contains('('));
    let rest = closed.map_or_else(|| rest.to_owned(), |(inside, behind)| format!("{inside}{behind}"));
    let rest = rest.trim_start();
    if ends_an_amount(rest) {
        let rest = rest.trim_start_matches(['|', '-', ' ']);
        let manner =
            if rest.is_empty() || rest.starts_with([',', '(', ';']) { rest.to_owned() } else { format!(", {rest}") };
        return made.named(&format!("{name}{done}{manner}")).map(|read| vec![read]);
    }
    if each && quantity {
        return made.named(&format!("{name}, {rest}")).map(|mut read| {
            read.look.push(FOR_EACH.to_owned());
            vec![read]
        });
    }
    // More words than how it is prepared are a sentence, or the next ingredient.
    if !quantity || starts_no_name(rest) {
        return None;
    }
    if rest.split_whitespace().all(prepares) {
        return made.named(&format!("{name}, {rest}")).map(|read| vec![read]);
    }
    // `Butter block: 550 g dry butter (84 %)`: what stands in brackets is said of the butter.
    let more = most.checked_sub(1).filter(|_| !rest.trim_end().ends_with("%)"))?;
    let mut next = amounts_last(rest, more)?;
    if next.last().is_some_and(|last| last.look.iter().any(|why| why == AMONG_WORDS)) {
        return None;
    }
    next.insert(0, made.named(name)?);
    // `juice of 2 lemons, 500 g sugar, 600 ml water`: a comma may stand before an amount or before the next thing.
    if before.trim_end().ends_with(',') {
        for read in next.iter_mut().filter(|read| !read.look.iter().any(|why| why == WHOSE)) {
            read.look.push(WHOSE.to_owned());
        }
    }
    Some(next)
}

/// The name in the words before an amount, if the amount is that name's.
fn name_before<'t>(before: &'t str, behind: &str) -> Option<&'t str> {
    let marks = |c: char| {
        c.is_whitespace()
            || matches!(c, ':' | '-' | '–' | '—' | '.' | '…' | '=' | '|' | ',' | '(' | '×' | '→' | '➔' | '>')
    };
    let name = before.trim_end_matches(marks);
    let name = name.strip_suffix(" x").unwrap_or(name);
    // Asked first: a line of many amounts asks it of each.
    if is_longer_than_a_name(name) {
        return None;
    }
    // `sour less 40 g`: the amount is none of the sour.
    if ends_no_name(name) || holds_amount(name) {
        return None;
    }
    // `Ketchup. 3 kg ripe tomatoes`: the amount is none of the name's.
    let ends_sentence = before.ends_with(". ") && !before.trim_end().ends_with(" .");
    if ends_sentence && measure(behind).is_some_and(|(_, rest)| rest.contains(char::is_alphabetic)) {
        return None;
    }
    // `225 g / 8 oz` is an amount, said twice.
    if measure(name).is_some_and(|(amount, _)| amount.is_quantity()) {
        return None;
    }
    let first = first_of(name);
    // `packed (160 g)`: how the one before is prepared, and no name.
    if name.split_whitespace().all(prepares) {
        return None;
    }
    // `knead 10, rest 30`, and not `rest of the flour`.
    let is_told = super::verbs::TOLD.contains(&first.split(' ').next().unwrap_or_default().to_lowercase().as_str());
    if is_told && !name.contains(" of ") && !is_known(first) {
        return None;
    }
    // `gran. sugar 20 g` is cut short, and ends no sentence.
    let is_sentence = name.contains(". ") && in_full(name, &Larder::new()).is_none()
        || (name.contains(',') && !is_known(first) && first.split_whitespace().count() > 3);
    if is_sentence || !name.chars().any(char::is_alphabetic) || starts_no_name(name) {
        return None;
    }
    // `Filling: 300 ml cream`: the amount is the cream's.
    let heads = before.trim_end().ends_with(':') && kinds::names_a_part(name) && begins_a_list(behind);
    (!heads).then_some(name)
}

/// Whether words are too many, or too long, to be the name of something.
fn is_longer_than_a_name(name: &str) -> bool {
    name.len() > NAME_BYTES || name.split_whitespace().nth(NAME_WORDS).is_some()
}

/// What something is called, without how it is prepared.
fn first_of(name: &str) -> &str {
    name.split([',', '(']).next().unwrap_or("").trim()
}

/// Whether nothing stands behind an amount but how the thing is prepared.
fn ends_an_amount(rest: &str) -> bool {
    rest.is_empty()
        || rest.starts_with([',', '(', ';', '|'])
        || is_some_more(rest)
        || rest.starts_with("- ")
        || rest.starts_with("at ")
        || rest.starts_with("depending on ")
}

/// Whether words end in one that joins an amount of something else to them.
fn ends_no_name(text: &str) -> bool {
    const JOINTS: [&str; 14] = [
        "minus", "less", "except", "but", "without", "save", "or", "plus", "from", "after", "until", "than", "per",
        "and",
    ];
    text.ends_with('+') || words::all_of(text).last().is_some_and(|last| JOINTS.contains(&last.as_str()))
}

fn starts_no_name(text: &str) -> bool {
    let mut words = text.split(|c: char| !c.is_alphabetic()).map(str::to_lowercase);
    let first = words.next().unwrap_or_default();
    // `extra flour for dusting` is more of the flour, extra virgin olive oil is a kind of it.
    begins_no_name(&first) || (first == "extra" && words.next().is_none_or(|next| next != "virgin"))
}

/// What semicolons or commas part, where so much of each stands among it: `2 tsp ginger; 1 tsp each cinnamon and nutmeg; 1 egg`.
fn parted(text: &str) -> Option<Vec<Read>> {
    ["; ", ", "].into_iter().find_map(|mark| {
        let said: Vec<&str> = text.split(mark).collect();
        if !said.iter().any(|said| of_each(said).is_some()) {
            return None;
        }
        let read = |said: &&str| of_each(said).or_else(|| several(said)).or_else(|| whole(said).map(|read| vec![read]));
        said.iter().map(read).collect::<Option<Vec<Vec<Read>>>>().map(|all| all.into_iter().flatten().collect())
    })
}

/// Several with an amount each: `300 g plain flour, 100 g rye flour`.
fn several(text: &str) -> Option<Vec<Read>> {
    let mut all: Vec<Read> = Vec::new();
    let (mut start, mut from) = (0, 0);
    while let Some((at, length)) = next_between(text, from) {
        let (left, right) = (text.get(start..at)?, text.get(at + length..)?);
        from = at + length;
        // Only what can be the next one is worth reading the one before.
        if !(may_begin(right) || more_of_it(right).is_some() || takes_a_part(right)) {
            continue;
        }
        let Some(first) = whole(left) else { continue };
        // `150 g butter, divided: 100 g for the dough, 50 g for brushing` says where all of it goes, and there is no more.
        let is_divided = left.to_lowercase().contains("divided");
        if let Some(same) = of_the_same(&first, right).filter(|_| !is_divided) {
            all.extend([first, same]);
            return Some(all);
        }
        let end = next_between(text, from).map_or(text.len(), |(end, _)| end);
        // `3/4 cup + 1 tbsp (190 g); sugar …`: the same goes on, and what is named behind it is the next.
        let adds = text.get(at..from).is_some_and(|mark| [" + ", " plus ", " & ", " and "].contains(&mark));
        if adds && goes_on(text.get(from..end)?) {
            continue;
        }
        if whole(text.get(from..end)?).or_else(|| whole(right)).is_some_and(|next| is_item(right, &next)) {
            all.push(first);
            start = from;
        }
    }
    if all.is_empty() {
        return None;
    }
    all.push(whole(text.get(start..)?)?);
    Some(all)
}

/// Whether a text is an amount and names nothing: `1 tbsp`, `1 tbsp (190 g)`.
fn goes_on(text: &str) -> bool {
    measure(text).filter(|(amount, _)| amount.is_quantity()).is_some_and(|(_, rest)| {
        let rest = rest.trim();
        rest.is_empty() || rest.starts_with('(') && rest.ends_with(')')
    })
}

/// Whether a text may begin an ingredient with an amount, or end in one.
fn may_begin(text: &str) -> bool {
    begins(text).is_some() || (!starts_no_name(text) && text.split_whitespace().skip(1).any(is_figure))
}

/// `10 g for the top`: how much, and what for.
fn more_of_it(text: &str) -> Option<(Measure, &str)> {
    let (amount, rest) = measure(text).filter(|(amount, _)| amount.is_quantity())?;
    let rest = rest.trim_start();
    (rest.starts_with("for ") || rest.starts_with("to ")).then_some((amount, rest))
}

/// Whether what was read is an ingredient of its own, and not more of what was said of the one before.
fn is_item(text: &str, read: &Read) -> bool {
    begins(text)
        .is_none_or(|(amount, _)| amount.unit.is_some() || is_known(&read.name) || in_english(&read.name).is_some())
}

/// The next mark between ingredients from a place on, outside of brackets, and how long it is.
fn next_between(text: &str, from: usize) -> Option<(usize, usize)> {
    let mut depth = 0_usize;
    for (at, character) in text.char_indices() {
        match character {
            '(' => depth += 1,
            ')' => depth = depth.saturating_sub(1),
            _ if depth == 0 && at >= from => {
                let here = text.get(at..)?;
                if let Some(mark) = BETWEEN.iter().find(|mark| here.starts_with(**mark)) {
                    return Some((at, mark.len()));
                }
            }
            _ => {}
        }
    }
    None
}

/// An ingredient with its amount.
fn whole(text: &str) -> Option<Read> {
    let last = || amount_last(text).and_then(|mut all| if all.len() == 1 { all.pop() } else { None });
    let fruit = || fruit::read(text).and_then(|mut all| if all.len() == 1 { all.pop() } else { None });
    let part = || left_out::read(text).or_else(|| Made::open("all", None).named(all_of(text)?));
    part().or_else(fruit).or_else(|| amount_first(text)).or_else(last).filter(|read| !is_manner(&read.name))
}

/// Words that say what was done with the one before, and name nothing.
fn is_manner(name: &str) -> bool {
    let single = !name.contains(' ') && (name.ends_with("ed") || name.ends_with("en"));
    (single && !is_known(name)) || starts_no_name(name)
}

/// `10 g for the top` behind an ingredient: more of the same.
fn of_the_same(first: &Read, text: &str) -> Option<Read> {
    let (amount, rest) = more_of_it(text)?;
    let mut read = Made::of(amount).named(&first.name)?;
    read.name = format!("{} {}", first.name, words::name(rest));
    read.look.push(format!("more of the {}", first.name));
    Some(read)
}
