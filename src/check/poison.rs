//! What is poisonous until it is cooked, and honey in what is for babies.

use super::Subject;
use super::claims::told;
use super::statement::{self, RAW_FLOUR_OR_EGG};
use crate::language::syntax::Name;
use crate::model::cooking::state::{is_so, words};
use crate::model::cooking::state_words::State;
use crate::model::cooking::{Later, first_draws, has_word};
use crate::model::lowered::{Beginnings, beginnings};
use crate::model::recipe::{Ingredient, Part, PartId, Recipe, Refers};
use crate::model::step::Target;
use crate::solve::formula::Formula;
use crate::text::denied::is_denied;
use crate::text::diagnostic::Diagnostic;
use crate::text::word_begins::has_letters;

/// The check under whose name it is told.
const CHECK: &str = "undercooked";

/// Where it is published that honey is not for babies.
pub(super) const ON_HONEY: &str = "CDC and NHS: no honey under 12 months, for infant botulism (from memory)";

/// Plants that are eaten only cooked, by the beginnings of words of their names: what is in them while they are raw.
///
/// CDC, MMWR 33 (13), 1984, on juice of raw elderberries; FSANZ, Cassava and bamboo shoots, 2005; all from memory.
const RAW: &[(&str, &str)] = &[
    ("elderberr", "what frees cyanide, and makes people sick"),
    ("cassava", "what frees cyanide"),
    ("manioc", "what frees cyanide"),
    ("yuca", "what frees cyanide"),
    ("bamboo shoot", "what frees cyanide"),
    ("taro", "sharp crystals that burn the throat"),
    ("fiddlehead", "what makes people sick (Health Canada and FDA: boil them, from memory)"),
    ("ackee", "hypoglycin, which takes the sugar from the blood"),
    ("mung bean sprout", GERMS),
    ("bean sprout", GERMS),
    ("beansprout", GERMS),
    ("alfalfa sprout", GERMS),
    ("clover sprout", GERMS),
    ("radish sprout", GERMS),
    ("lentil sprout", GERMS),
    ("fenugreek sprout", GERMS),
    ("sprouted seed", GERMS),
];
/// FDA Food Code 3-801.11 and Regulation (EU) 208/2013, from memory.
const GERMS: &str = "germs more often than most food, for they grow while seeds sprout";
/// Their names, to be asked for all at once: hardly a line has one.
const PLANTS: &Beginnings = {
    const NAMES: [&str; RAW.len()] = names();
    &Beginnings::of(&NAMES)
};

/// The names of [`RAW`]; written with patterns, since nothing is indexed here.
const fn names() -> [&'static str; RAW.len()] {
    let mut all = [""; RAW.len()];
    let (mut left, mut rows) = (all.as_mut_slice(), RAW);
    while let (Some(((name, _), others)), Some((first, rest))) = (rows.split_first(), { left }.split_first_mut()) {
        *first = name;
        (left, rows) = (rest, others);
    }
    all
}

/// Words of names by which it is another thing made of it.
const MADE: &[&str] = &[
    "flour", "starch", "cordial", "syrup", "jam", "jelly", "wine", "juice", "liqueur", "vinegar", "powder", "crisps",
    "chips", "pearls", "extract",
];

/// What of a part is poisonous as long as it is raw, and is never cooked.
pub(super) fn raw(subject: &Subject<'_>, (id, part): (PartId, &Part), later: &mut Later<'_>) -> Vec<Diagnostic> {
    let of = |line: &Ingredient| {
        if !line.name.has_word(PLANTS) {
            return None;
        }
        let name = line.name.key.as_str();
        // Tarocco is an orange.
        let is_it = |plant: &str| match plant {
            "taro" | "yuca" => words(name).any(|word| word.trim_end_matches('s') == plant),
            plant => has_word(name, [plant]),
        };
        let found = RAW.iter().find(|(plant, _)| is_it(plant));
        let is_made = || is_so(line, State::Cooked) || words(name).any(|word| MADE.contains(&word));
        found.filter(|_| matches!(line.refers, Refers::Pantry(_)) && !is_made())
    };
    let draws = first_draws(part);
    let mut problems = Vec::new();
    for (at, line) in part.lines.iter().enumerate() {
        let Some((_, poison)) = of(line) else { continue };
        let Some(step) = draws.get(&Target::Line(at)).copied() else { continue };
        let is_said = || statement::states_of((subject.recipe, part), RAW_FLOUR_OR_EGG, Some(line));
        if later.is_line_cooked(id, step, at) != Some(false) || is_said() {
            continue;
        }
        let message = format!("`{}` is never cooked: raw it holds {poison}", line.name);
        problems.push(Diagnostic::advice(CHECK, line.name.span, message).help(
            "boil it before it is eaten or pressed; where it is cooked before it comes here, say so behind it, `cooked`; local food law goes before this",
        ));
    }
    problems
}

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
        [b"babi", b"baby", b"infa", b"wean", b"mont"].into_iter().any(|letters| has_letters(text, letters))
    };
    told(recipe, may_say, |text| may_say(text.lower())).iter().any(|told| {
        let words: Vec<&str> = words(&told.text).collect();
        let is_denied = !told.is_name && is_denied(&words, words.len(), words.len(), &["older", "over"]);
        !is_denied && says_babies(&words)
    })
}

fn says_babies(words: &[&str]) -> bool {
    let follows = |at: usize, of: &[&str]| words.get(at).is_some_and(|word| of.contains(word));
    let is_food = |at: usize| words.get(at).is_some_and(|word| BABY_FOOD.contains(&word.trim_end_matches('s')));
    let months =
        || words.iter().any(|word| ["month", "months"].contains(word)) && words.iter().any(|word| SMALL.contains(word));
    words.iter().enumerate().any(|(at, word)| match *word {
        "for" => follows(at + 1, BABIES) && !follows(at + 2, FOR_OTHERS),
        "baby" | "baby's" | "infant" | "infant's" | "infants" | "infants'" => is_food(at + 1),
        "weaning" => words.len() == 1 || is_food(at + 1) || at > 0 && follows(at - 1, &["for"]),
        _ => false,
    }) || months()
}

/// The honey that goes into what is for babies.
pub(super) fn honey_for_babies<'r>(recipe: &'r Recipe, formula: &Formula) -> Option<&'r Ingredient> {
    let made = super::made_parts(recipe, formula);
    let lines =
        made.flat_map(|(id, part)| part.lines.iter().enumerate().filter(move |(at, _)| !formula.is_left_out(id, *at)));
    let mut lines = lines.map(|(_, line)| line);
    // Asked first, since hardly a recipe has any.
    let honey = lines.find(|line| line.stays_in() && is_of_honey(&line.name))?;
    is_for_babies(recipe).then_some(honey)
}

/// Whether a name is that of honey or its comb; the sweet that is called honeycomb is of burnt sugar.
fn is_of_honey(name: &Name) -> bool {
    let has = |sought: &[&str]| words(name.key.as_str()).any(|word| sought.contains(&word));
    name.may_have_word(beginnings!["honey"]) && has(&["honey", "honeycomb"]) && !has(&["toffee", "candy", "crunch"])
}

/// Honey in what is for babies, as a problem.
pub(super) fn honey(subject: &Subject<'_>) -> Option<Diagnostic> {
    let line = honey_for_babies(subject.recipe, subject.formula)?;
    // Lines of another file are told there.
    if line.name.span.source != subject.recipe.source {
        return None;
    }
    let message =
        format!("`{}` in what is for babies: it may hold spores of botulism, which no kitchen's heat kills", line.name);
    Some(
        Diagnostic::advice(CHECK, line.name.span, message)
            .help("leave it out for children under a year; health authorities and local food law go before this"),
    )
}
