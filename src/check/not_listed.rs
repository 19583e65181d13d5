//! `not-listed`: food that the words of a step put in or on, and that no list of the recipe has.

use super::{Check, Family, Run, Subject};
use crate::language::syntax::Key;
use crate::model::cooking::may_say;
use crate::model::kind::Kind;
use crate::model::larder::{Facts, Larder};
use crate::model::lowered::{Beginnings, beginnings};
use crate::model::recipe::{Ingredient, Part, Recipe};
use crate::model::step::{Step, Words};
use crate::text::denied::denies;
use crate::text::diagnostic::{Diagnostic, Severity};
use std::cell::LazyCell;
use std::collections::HashSet;
use std::sync::Arc;

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "not-listed",
    severity: Severity::Warning,
    family: Family::Names,
    looks_for: "food that a step puts in or on by its words alone (`Brush with beaten egg and strew with sesame seeds.`), and that no list of the \
                recipe has",
    why: "What no line lists is on no card, no shopping list, in no cost, and on no label: neither the egg nor the sesame of a roll that is \
          brushed and strewn. Looked at is what stands behind `add`, `strew`, `brush with`, `fill with`, `dip in`, `fold in` and the like, where the larder \
          knows it and no line of the recipe is of it, is called after it or has its name in a part's. It is a warning where it brings an allergen \
          that nothing else brings, or where an amount stands beside it; else advice. Tins that are buttered or floured are looked at for their \
          allergens alone. Where it is meant so, `# allow not-listed: reason` above the step keeps it quiet.",
    bad: "recipe Rolls\nflour .... 500 g\nwater .... 300 g\nmix: hands 10 min\n    Mix {flour} and {water}.\nglaze: hands 2 min\n    Brush with \
          beaten egg.\n",
    good: "recipe Rolls\nflour .... 500 g\nwater .... 300 g\negg .... as needed, aside\nmix: hands 10 min\n    Mix {flour} and {water}.\nglaze: hands 2 \
           min\n    Brush with {egg}.\n",
    sources: &[
        "Regulation (EU) 1169/2011, articles 9 and 18: a list of ingredients holds all of them, in the order of their weight as used",
    ],
    run: Run::Recipe(run),
};

/// Verbs behind which what is put in stands as their object.
const DIRECTLY: &[&str] = &["add", "strew", "sprinkle", "scatter", "crumble", "drizzle"];
/// Verbs behind which it stands with `with`.
#[rustfmt::skip]
const WITH: &[&str] = &[
    "brush", "glaze", "coat", "dust", "dredge", "top", "fill", "stuff", "spread", "season", "sandwich", "garnish", "decorate", "finish", "strew",
    "sprinkle", "scatter", "drizzle", "line", "pipe", "layer", "moisten", "enrich",
];
/// Verbs behind which it stands with `in`, as what something is put into.
const IN: &[&str] = &["dip", "roll", "toss", "fry", "boil", "poach", "coat", "turn"];
/// Verbs behind whose `in` it stands as what is put in.
const WORKED_IN: &[&str] = &["fold", "stir", "whisk", "beat", "mix", "work", "knead", "rub"];
/// A bit for each of these verbs, by how it begins and ends and how long it is: of most words it tells that they are none of them.
const VERBS: [u64; 4] = spots(&[DIRECTLY, WITH, IN, WORKED_IN]);
/// The same bits of each list.
const MAY_DIRECTLY: [u64; 4] = spots(&[DIRECTLY]);
const MAY_WITH: [u64; 4] = spots(&[WITH]);
const MAY_IN: [u64; 4] = spots(&[IN, WORKED_IN]);

const fn spots(lists: &[&[&str]]) -> [u64; 4] {
    let (mut all, mut lists) = ([0; 4], lists);
    while let Some((list, others)) = lists.split_first() {
        let mut list = *list;
        while let Some((word, rest)) = list.split_first() {
            all = with_spot(all, spot(word));
            list = rest;
        }
        lists = others;
    }
    all
}

const fn with_spot([one, two, three, four]: [u64; 4], spot: u8) -> [u64; 4] {
    let bit = 1 << (spot & 63);
    match spot >> 6 {
        0 => [one | bit, two, three, four],
        1 => [one, two | bit, three, four],
        2 => [one, two, three | bit, four],
        _ => [one, two, three, four | bit],
    }
}

const fn spot(word: &str) -> u8 {
    match word.as_bytes() {
        [first, .., last] => first.wrapping_mul(31) ^ last.wrapping_mul(7) ^ ((word.len() & 15) as u8),
        _ => 0,
    }
}

/// Whether a word may be one of those that such bits are of.
fn may_be(bits: &[u64; 4], word: &str) -> bool {
    let spot = spot(word);
    bits.get(usize::from(spot >> 6)).is_some_and(|bits| bits >> (spot & 63) & 1 == 1)
}

/// All of them, by their beginnings.
#[rustfmt::skip]
const PUTS: &Beginnings = beginnings![
    "add", "strew", "sprinkle", "scatter", "crumble", "drizzle", "brush", "glaze", "coat", "dust", "dredge", "top|", "fill", "stuff", "spread", "season",
    "sandwich", "garnish", "decorate", "finish", "line|", "pipe|", "layer", "moisten", "enrich", "dip|", "roll|", "toss|", "fry|", "boil|", "poach|", "turn|",
    "fold|", "stir|", "whisk|", "beat|", "mix|", "work|", "knead|", "rub|", "butter|", "flour|", "buttered|", "floured|",
];

/// Words of the longest name of a food that is looked for.
const LONGEST: usize = 4;

/// Words at which what is put in has ended: where it goes, how long, what it is like.
#[rustfmt::skip]
const ENDS: &[&str] = &[
    "to", "on", "onto", "into", "over", "between", "under", "around", "round", "through", "by", "at", "against", "until", "till", "like", "as", "before",
    "after", "while", "when", "if", "for", "from", "than", "without", "instead", "size", "so", "then", "onwards", "straight", "which", "that", "where",
];
/// The same bits of these.
const MAY_END: [u64; 4] = spots(&[ENDS]);
/// Words with which a food's name is that of a tool, a size or another thing.
#[rustfmt::skip]
const TOOLS: &[&str] = &[
    "knife", "pan", "timer", "paper", "brush", "cutter", "spoon", "cup", "tin", "tins", "tray", "trays", "ring", "rings", "bowl", "bath", "cloth", "press",
    "board", "stone", "mill", "grinder", "mould", "moulds", "dish", "rack", "weights", "sized", "coloured", "colored", "brown", "bag", "bottle", "jar", "jars", "machine", "wash",
];
/// Words before a food with which it is none that is eaten: `baking beans`.
const NOT_EATEN: &[&str] = &["baking", "ceramic", "pie", "dry", "blind", "old", "raw"];
/// Classes of food, by which any of them is called.
#[rustfmt::skip]
const CLASSES: &[&str] = &[
    "nut", "nuts", "seed", "seeds", "cheese", "herb", "herbs", "spice", "spices", "fruit", "fruits", "berries", "flour", "flours", "oil", "sugar", "fat",
    "vinegar", "chocolate", "egg", "eggs", "milk", "cream", "meat", "fish", "vegetables", "bread", "starch", "syrup",
];

fn run(subject: &Subject<'_>, diagnostics: &mut Vec<Diagnostic>) {
    let recipe = subject.recipe;
    let listed = LazyCell::new(|| Listed::of(recipe));
    let larder = &recipe.larder;
    let mut told: HashSet<String> = HashSet::new();
    for (_, part, _) in subject.own_parts() {
        for step in part.steps.iter().filter(|step| may_say(step, PUTS)) {
            for said in foods(step, larder) {
                if let Some(problem) = not_listed(recipe, &listed, step, &said)
                    && told.insert(said.name.clone())
                {
                    diagnostics.push(problem);
                }
            }
        }
    }
}

/// What the lists of a recipe have.
struct Listed<'r> {
    lines: Vec<&'r Ingredient>,
    /// Each word of the names of lines and parts, and of how they are prepared.
    words: HashSet<String>,
    allergens: HashSet<String>,
}

impl<'r> Listed<'r> {
    fn of(recipe: &'r Recipe) -> Listed<'r> {
        let parts = || recipe.parts().map(|(_, part): (_, &Part)| part);
        let lines: Vec<&Ingredient> = parts().flat_map(|part| &part.lines).collect();
        let mut words = HashSet::new();
        let mut take = |text: &str| words.extend(plain_words(&text.to_lowercase()).map(stem));
        parts().for_each(|part| take(part.name.key.as_str()));
        let mut allergens = HashSet::new();
        for line in &lines {
            take(line.name.key.as_str());
            line.preparation.iter().for_each(|said| take(said));
            for stand_in in &line.stand_ins {
                take(stand_in.name.key.as_str());
            }
            let known = line.facts().into_iter().flat_map(|facts| &facts.allergens);
            allergens.extend(known.map(|allergen| allergen.to_lowercase()));
        }
        Listed { lines, words, allergens }
    }

    /// Allergens of a food that nothing listed brings.
    fn lacks(&self, facts: &Facts) -> Vec<String> {
        let all = facts.allergens.iter().map(|allergen| allergen.to_lowercase());
        all.filter(|allergen| !self.allergens.contains(allergen)).collect()
    }
}

/// What is the same of a word in both numbers: `tomato` of both, `berr` of berries.
fn stem(word: &str) -> String {
    let one = word.strip_suffix("ies").or_else(|| word.strip_suffix("es")).or_else(|| word.strip_suffix('s'));
    one.unwrap_or_else(|| word.strip_suffix(['y', 'e']).unwrap_or(word)).to_owned()
}

/// The words of a text in lower case; a hyphen is of its word.
fn plain_words(text: &str) -> impl Iterator<Item = &str> {
    text.split(|c: char| !(c.is_alphanumeric() || c == '-' || c == '\'' || c == '’')).filter(|word| !word.is_empty())
}

/// The same, as a list; byte by byte where it may be.
fn words_of(text: &str) -> Vec<&str> {
    if !text.is_ascii() {
        return plain_words(text).collect();
    }
    let is_of_word = |byte: &u8| byte.is_ascii_alphanumeric() || matches!(byte, b'-' | b'\'');
    let (mut words, mut rest) = (Vec::with_capacity(16), text);
    while let Some(begin) = rest.as_bytes().iter().position(is_of_word) {
        let begun = rest.get(begin..).unwrap_or_default();
        let end = begun.as_bytes().iter().position(|byte| !is_of_word(byte)).unwrap_or(begun.len());
        let Some((word, behind)) = begun.split_at_checked(end) else { break };
        words.push(word);
        rest = behind;
    }
    words
}

/// The name of a food, whether it is one word, and whether an amount stands beside it.
struct SaidFood {
    name: String,
    is_one: bool,
    has_amount: bool,
    /// Whether it was spoken of before: `the cold cream`.
    is_known: bool,
    /// Of what is buttered or floured: only that an allergen touches the food is asked.
    is_of_tins: bool,
}

/// Where a step's words are in telling what is put in.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Telling {
    Nothing,
    /// A verb was met, behind which `with` or `in` is waited for.
    Verb {
        with: bool,
        inside: bool,
    },
    /// What is put in stands here, or behind a `with` that comes.
    Food {
        with: bool,
    },
}

/// The food behind the verbs of a step that the larder has, by its longest name at each place.
fn foods(step: &Step, larder: &Larder) -> Vec<SaidFood> {
    let mut found = Vec::new();
    let mut telling = Telling::Nothing;
    let mut amount = false;
    for word in &step.words {
        let text = match word {
            Words::Text(text) => text,
            Words::Measure(_) => {
                amount = true;
                continue;
            }
            Words::Use { .. } => {
                amount = false;
                continue;
            }
        };
        if !matches!(telling, Telling::Food { .. }) && !PUTS.may_begin_in(text) {
            // A verb may have stood before what was taken: `Brush {dough} with egg`.
            if !matches!(telling, Telling::Verb { .. }) {
                amount = false;
                continue;
            }
        }
        let mut rest = text.as_str();
        while !rest.is_empty() {
            let end = rest.bytes().position(ends_clause).map_or(rest.len(), |at| at + 1);
            // What ends a clause is one byte.
            let Some((clause, behind)) = rest.split_at_checked(end) else { break };
            rest = behind;
            // Most of them neither have a verb nor stand behind one.
            if telling != Telling::Nothing || PUTS.may_begin_in(clause) {
                in_clause(&clause.to_lowercase(), &mut telling, amount, larder, &mut found);
            }
            amount = false;
            // Only the last one may be without its end.
            if clause.bytes().next_back().is_some_and(ends_clause) {
                telling = Telling::Nothing;
            }
        }
    }
    found
}

fn ends_clause(byte: u8) -> bool {
    matches!(byte, b'.' | b';' | b':' | b'(' | b')' | b'!')
}

fn in_clause(clause: &str, telling: &mut Telling, behind_amount: bool, larder: &Larder, found: &mut Vec<SaidFood>) {
    let words = words_of(clause);
    let (mut amount, mut past) = (behind_amount, 0);
    // Each word is asked once whether it denies what follows.
    let (mut asked, mut denied_at) = (0, None);
    for (at, word) in words.iter().copied().enumerate() {
        // It is of a name that was read.
        if at < past {
            continue;
        }
        let next = words.get(at + 1).copied().unwrap_or_default();
        if let Some(food) = of_tins(word, at, next) {
            let name = food.to_owned();
            found.push(SaidFood { name, is_one: true, has_amount: false, is_known: false, is_of_tins: true });
            continue;
        }
        let is_verb = may_be(&VERBS, word);
        let with = is_verb && may_be(&MAY_WITH, word) && WITH.contains(&word);
        let inside = is_verb && may_be(&MAY_IN, word) && (IN.contains(&word) || WORKED_IN.contains(&word));
        let directly = is_verb && may_be(&MAY_DIRECTLY, word) && DIRECTLY.contains(&word);
        // Most words are no such verb and stand behind none.
        if *telling == Telling::Nothing && !(with || inside || directly) {
            continue;
        }
        let from = at.saturating_sub(3);
        let mut unasked = words.iter().enumerate().take(at).skip(from.max(asked));
        denied_at = unasked.rfind(|(_, word)| denies(word)).map(|(at, _)| at).or(denied_at);
        asked = at;
        let is_denied = denied_at.is_some_and(|denied| denied >= from);
        if is_denied {
            *telling = Telling::Nothing;
        } else if directly {
            (*telling, amount) = (Telling::Food { with }, false);
        } else if with || inside {
            (*telling, amount) = (Telling::Verb { with, inside }, false);
        } else if let Telling::Verb { with, inside } = *telling {
            if word == "with" && with || word == "in" && inside {
                *telling = Telling::Food { with: false };
            }
        } else if let Telling::Food { with } = *telling {
            if word == "with" && with {
                *telling = Telling::Food { with: false };
            } else if word == "with" || word == "in" || may_be(&MAY_END, word) && ENDS.contains(&word) {
                *telling = Telling::Nothing;
            } else if word.starts_with(|c: char| c.is_ascii_digit()) {
                amount = true;
            } else {
                if let Some((name, count)) = named_from(&words, at, larder) {
                    past = at + count;
                    let before = at.checked_sub(1).and_then(|before| words.get(before)).copied().unwrap_or_default();
                    if !NOT_EATEN.contains(&before) {
                        let is_known = words.get(at.saturating_sub(2)..at).unwrap_or_default().contains(&"the");
                        let is_one = count == 1;
                        found.push(SaidFood { name, is_one, has_amount: amount, is_known, is_of_tins: false });
                    }
                }
                amount &= word != "and" && word != "or";
            }
        }
    }
}

/// What a tin is rubbed or dusted with: `Butter the tins`, `floured trays`.
fn of_tins(word: &str, at: usize, next: &str) -> Option<&'static str> {
    let is_verb = || at == 0 && ["the", "a", "your", "each", "and", "two", "four", "six"].contains(&next);
    let is_tool = || TOOLS.contains(&next) || next.starts_with("ramekin") || next.starts_with("sheet");
    match word {
        "butter" if is_verb() => Some("butter"),
        "flour" if is_verb() => Some("flour"),
        "buttered" if is_tool() => Some("butter"),
        "floured" if is_tool() => Some("flour"),
        _ => None,
    }
}

/// The longest name of a food that begins at a place, which a larder has.
fn named_from(words: &[&str], at: usize, larder: &Larder) -> Option<(String, usize)> {
    let may_begin = larder.may_begin(words.get(at)?);
    (1..=LONGEST).rev().find_map(|count| {
        let run = words.get(at..at + count)?;
        // `butter for the tins` is found as butter.
        let before = run.iter().enumerate().skip(1).find(|(at, word)| **word == "for" && at + 1 < count);
        if !may_begin(count) && !before.is_some_and(|(before, _)| may_begin(before)) {
            return None;
        }
        let next = words.get(at + count).copied().unwrap_or_default();
        let name = Some(run).filter(|_| !TOOLS.contains(&next))?.join(" ");
        larder.has_just(&Key::new(&name)).then_some((name, count))
    })
}

fn not_listed<'r>(
    recipe: &'r Recipe,
    listed: &LazyCell<Listed<'r>, impl FnOnce() -> Listed<'r>>,
    step: &Step,
    said: &SaidFood,
) -> Option<Diagnostic> {
    let key = Key::new(&said.name);
    let last = said.name.rsplit(' ').next()?;
    let described = recipe.larder.describe(&key);
    let facts: Arc<Facts> = described.facts?;
    let mut lines = recipe.parts().flat_map(|(_, part)| &part.lines);
    let mut is_line = || lines.any(|line| line.facts().is_some_and(|known| known.name == facts.name));
    if matches!(described.kind, Kind::Water | Kind::Ice) || is_line() {
        return None;
    }
    let lacks = listed.lacks(&facts);
    let is_one = said.is_one;
    let is_called = || listed.words.contains(&stem(last)) && (is_one || lacks.is_empty());
    let is_of_class = || {
        is_one
            && (lacks.is_empty() || CLASSES.contains(&last))
            && listed.lines.iter().any(|line| line.kind == described.kind)
    };
    let is_of_before = is_one && said.is_known && !said.has_amount || said.is_of_tins;
    if is_called() || is_of_class() || is_of_before && lacks.is_empty() {
        return None;
    }
    let is_grave = !said.is_of_tins && (!lacks.is_empty() || said.has_amount);
    let told = if is_grave { Diagnostic::warning } else { Diagnostic::advice };
    let allergens = if lacks.is_empty() { String::new() } else { format!(" and brings {}", lacks.join(" and ")) };
    let does = if said.is_of_tins { "is on what `" } else { "goes in by `" };
    let uses = if said.is_of_tins { "` uses" } else { "`" };
    let message = format!("`{}` {does}{}{uses}{allergens}, and no list has it", said.name, step.name);
    Some(told(CHECK.name, step.name.span, message).help(format!(
        "write it as a line, `{0} .... as needed`, or with its weight, and `{{{0}}}` in the step: what no line lists is on no card, list or label",
        said.name
    )))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_verb_may_be_one() {
        let each = [(DIRECTLY, MAY_DIRECTLY), (WITH, MAY_WITH), (IN, MAY_IN), (WORKED_IN, MAY_IN)];
        assert!(each.iter().all(|(list, bits)| list.iter().all(|verb| may_be(bits, verb))));
        for verb in [DIRECTLY, WITH, IN, WORKED_IN].concat() {
            assert!(may_be(&VERBS, verb), "{verb}");
            assert!(PUTS.begin_in(verb), "{verb}");
        }
        assert!(!["the", "until", "smooth", "minutes", "dough"].iter().all(|word| may_be(&VERBS, word)));
    }

    #[test]
    fn words_are_the_same_byte_by_byte() {
        for text in ["", "brush with egg", " - don't (stir) in; 2.5 g half-fat milk!", "--", "crème brûlée, don’t", "a"]
        {
            assert_eq!(words_of(text), plain_words(text).collect::<Vec<_>>(), "{text}");
        }
    }

    #[test]
    fn every_word_at_which_what_is_put_in_ends_may_be_one() {
        assert!(ENDS.iter().all(|word| may_be(&MAY_END, word)));
        assert!(!["butter", "sugar", "and", "the"].iter().all(|word| may_be(&MAY_END, word)));
    }

    #[test]
    fn a_word_and_its_plural_are_one() {
        for (one, other) in
            [("egg", "eggs"), ("berry", "berries"), ("tomato", "tomatoes"), ("cheese", "cheeses"), ("oil", "oils")]
        {
            assert_eq!(stem(one), stem(other), "{one}");
        }
    }
}
