//! An ingredient that no larder knows and that is called after a food with allergens: what that contains would go unsaid.

use super::claims::{Rules, claimed};
use crate::language::syntax::Key;
use crate::measure::noun;
use crate::measure::show;
use crate::model::allergen::Law;
use crate::model::larder::MOST_WORDS;
use crate::model::recipe::{Ingredient, Part, Recipe, Refers};
use crate::text::diagnostic::Diagnostic;
use std::cell::LazyCell;

/// The check under whose name it is told.
const CHECK: &str = "hidden-allergen";

/// Words by which a food was kept: it holds salt, sugar or less water then.
const KEPT: &[&str] = &[
    "salt",
    "salted",
    "smoked",
    "dried",
    "dry",
    "cured",
    "pickled",
    "candied",
    "marinated",
    "tinned",
    "canned",
    "corned",
    "preserved",
];

/// Words right before a food with which it is none of it, or that it only tastes of: `mock cream`, `almond-flavoured milk`.
const LIKE_IT: &[&str] = &["artificial", "imitation", "mock"];
/// The same right behind it.
const TASTE: &[&str] = &["flavour", "flavouring", "flavoured", "flavor", "flavoring", "flavored"];
/// What is called after a food right before it and is another: `oyster mushrooms`, `butter lettuce`.
const OTHERS: &[&str] = &[
    "mushroom",
    "mushrooms",
    "lettuce",
    "squash",
    "plant",
    "tree",
    "paper",
    "knife",
    "tin",
    "tins",
    "thistle",
    "mint",
    "apple",
    "apples",
];
/// Words behind which the name says where it is from and what it lies in.
const BEHIND: &[&str] = &["from", "of", "by", "in", "with", "at", "for", "without"];

/// What is usually made with allergens that its name does not name, in the words by which larders say them. From memory: the United Kingdom's Food
/// Standards Agency and the trade's usual formulas; the pack says what is in it.
const MADE_WITH: &[(&str, &[&str])] = &[
    ("custard", &["milk", "eggs"]),
    ("aioli", &["eggs"]),
    ("hollandaise", &["eggs", "milk"]),
    ("bearnaise", &["eggs", "milk"]),
    ("béarnaise", &["eggs", "milk"]),
    ("advocaat", &["eggs"]),
    ("nougat", &["nuts", "eggs"]),
    ("amaretti", &["nuts", "eggs"]),
    ("amaretto", &["nuts"]),
    ("pesto", &["milk", "nuts"]),
    ("satay", &["peanuts"]),
    ("hummus", &["sesame"]),
    ("houmous", &["sesame"]),
    ("za'atar", &["sesame"]),
    ("zaatar", &["sesame"]),
    ("dukkah", &["nuts", "sesame"]),
    ("gomasio", &["sesame"]),
    ("bagel seasoning", &["sesame"]),
    ("furikake", &["sesame", "fish"]),
    ("lupini", &["lupin"]),
    ("piccalilli", &["mustard"]),
    ("dashi", &["fish"]),
    ("bonito", &["fish"]),
    ("bottarga", &["fish"]),
    ("kipper", &["fish"]),
    ("whitebait", &["fish"]),
    ("gentleman's relish", &["fish"]),
    ("isinglass", &["fish"]),
    ("basa", &["fish"]),
    ("labneh", &["milk"]),
    ("beurre", &["milk"]),
    ("atta", &["wheat"]),
    ("maida", &["wheat"]),
    ("orzo", &["wheat"]),
    ("tritordeum", &["wheat", "barley"]),
    ("bouillon", &["celery"]),
    ("mirepoix", &["celery"]),
    ("tvp", &["soybeans"]),
    ("textured vegetable protein", &["soybeans"]),
    ("gochujang", &["soybeans", "wheat"]),
    ("doenjang", &["soybeans", "wheat"]),
    ("black bean sauce", &["soybeans", "wheat"]),
    ("kataifi", &["wheat"]),
    ("kadayif", &["wheat"]),
    ("wonton", &["wheat", "eggs"]),
    ("brioche", &["wheat", "milk", "eggs"]),
    ("speculoos", &["wheat"]),
    ("muesli", &["oats", "nuts"]),
    ("granola", &["oats", "nuts"]),
    ("stuffing mix", &["wheat"]),
    ("gravy granules", &["wheat"]),
    ("gnocchi", &["wheat", "eggs"]),
    ("vegetarian suet", &["wheat"]),
    ("vegetable suet", &["wheat"]),
    ("black pudding", &["wheat", "oats"]),
    ("haggis", &["oats"]),
    ("merguez", &["sulphites"]),
    ("marmite", &["barley", "wheat", "celery"]),
    ("vegemite", &["barley"]),
    ("horlicks", &["barley", "wheat", "milk"]),
    ("ovaltine", &["barley", "milk"]),
    ("royal icing", &["eggs"]),
    ("eggnog", &["eggs", "milk"]),
    ("remoulade", &["eggs", "mustard"]),
    ("rémoulade", &["eggs", "mustard"]),
    ("tartare sauce", &["eggs", "mustard"]),
    ("tartar sauce", &["eggs", "mustard"]),
    ("caesar dressing", &["eggs", "fish", "milk", "mustard"]),
    ("tapenade", &["fish"]),
    ("taramasalata", &["fish", "wheat"]),
    ("curry paste", &["crustaceans"]),
    ("laksa paste", &["crustaceans", "fish"]),
    ("orgeat", &["nuts"]),
    ("falernum", &["nuts"]),
    ("nutella", &["nuts", "milk", "soybeans"]),
    ("baileys", &["milk"]),
    ("fudge", &["milk"]),
    ("prawn cracker", &["crustaceans"]),
    ("manchego", &["milk"]),
    ("taleggio", &["milk"]),
    ("stilton", &["milk"]),
    ("provola", &["milk"]),
    ("burrata", &["milk"]),
    ("stracciatella", &["milk"]),
    ("lassi", &["milk"]),
    ("tzatziki", &["milk"]),
    ("bechamel", &["milk", "wheat"]),
    ("béchamel", &["milk", "wheat"]),
    ("couverture", &["milk", "soybeans"]),
    ("creamer", &["milk"]),
    ("nam pla", &["fish"]),
    ("garum", &["fish"]),
    ("tarama", &["fish"]),
    ("belacan", &["crustaceans"]),
    ("panettone", &["wheat", "eggs", "milk"]),
    ("stuffing", &["wheat"]),
    ("gravy", &["wheat", "celery"]),
    ("crispy onion", &["wheat"]),
    ("batter mix", &["wheat", "milk", "eggs"]),
    ("cake mix", &["wheat", "milk", "eggs"]),
    ("pancake mix", &["wheat", "milk", "eggs"]),
    ("oatcake", &["oats"]),
    ("hoisin", &["soybeans", "wheat"]),
    ("ponzu", &["soybeans", "wheat"]),
    ("aromat", &["celery"]),
    ("quorn", &["eggs"]),
    ("sherry", &["sulphites"]),
    ("balsamic glaze", &["sulphites"]),
    ("maraschino", &["sulphites"]),
    ("dried mango", &["sulphites"]),
    ("instant mash", &["sulphites"]),
    ("sulphured", &["sulphites"]),
    ("sulfured", &["sulphites"]),
];

/// What a name says that it is free of.
fn free_of(name: &str) -> Vec<Rules> {
    let mut rules: Vec<Rules> = claimed(name, true)
        .into_iter()
        // Milk without lactose is milk.
        .filter(|(said, _)| !said.contains("lactose"))
        .map(|(_, rules)| rules)
        .collect();
    if name.split(' ').any(|word| word == "plant") {
        rules.push(Rules::Animals);
    }
    rules
}

/// Whether a line says of itself what a claim says of the recipe: `gluten-free oats`, `butter, vegan`.
pub(super) fn says_itself(line: &Ingredient, said: &str, rules: Rules) -> bool {
    let behind = line.preparation.as_deref().unwrap_or_default().to_lowercase();
    let own = |text: &str| {
        claimed(text, true).into_iter().any(|(own, of)| own == said || of == rules && !own.contains("lactose"))
    };
    own(line.name.key.as_str()) || own(&behind) && line.facts().is_none()
}

/// A name without the words that only say what it tastes of or is like: `almond-flavoured milk` is `milk`.
fn without_tastes(name: &str) -> Vec<&str> {
    let is_taste = |word: &str| {
        TASTE.iter().any(|taste| word == *taste || word.strip_suffix(taste).is_some_and(|of| of.ends_with('-')))
    };
    let mut left: Vec<&str> = Vec::new();
    for word in name.split(' ').filter(|word| !word.is_empty()) {
        if is_taste(word) {
            if !word.contains('-') {
                left.pop();
            }
        } else if left.last().is_some_and(|before| LIKE_IT.contains(before)) {
            left.pop();
        } else {
            left.push(word);
        }
    }
    left
}

/// An ingredient that no larder knows, with the name of a known food in its own: what that contains would go unsaid.
pub(super) fn like_a_known_food(recipe: &Recipe, own: &Part, line: &Ingredient) -> Option<Diagnostic> {
    let Refers::Pantry(None) = line.refers else { return None };
    let name = line.name.key.as_str();
    let name = name.split_once(" for ").map_or(name, |(what, _)| what);
    let free_of = free_of(name);
    let is_in_it = |allergen: &str| !free_of.iter().any(|rules| rules.out(allergen));
    let words = without_tastes(name);
    let head = words.iter().position(|word| BEHIND.contains(word)).filter(|at| *at > 0).unwrap_or(words.len());
    let ends = |to: usize| (to.saturating_sub(MOST_WORDS)..to).map(move |at| (at, to));
    let begins = (1..words.len().min(MOST_WORDS + 1)).rev().map(|to| (0, to));
    let pieces =
        ends(head).chain(ends(words.len())).chain(begins).filter(|piece| *piece != (0, name.split(' ').count()));
    let known = pieces.into_iter().find_map(|(from, to)| {
        if words.get(to).is_some_and(|next| OTHERS.contains(next)) {
            return None;
        }
        let part = words.get(from..to)?.join(" ");
        let facts = recipe.larder.find(&Key::new(&part))?;
        let allergens: Vec<String> = facts.allergens.iter().filter(|allergen| is_in_it(allergen)).cloned().collect();
        (!allergens.is_empty()).then_some((part, allergens, from..to))
    });
    let Some((part, allergens, place)) = known else { return named_after_an_allergen(recipe, line, &words, is_in_it) };
    // Salt cod is no cod that was salted here: what it holds its pack says.
    let is_kept = |how: &&str| how.split(' ').any(|word| KEPT.contains(&word));
    // `butter (soft)` too was done something to.
    let in_brackets = || name.strip_prefix(&part)?.trim().strip_prefix('(')?.strip_suffix(')');
    // Rye is no preparation of bread crumbs: behind the amount it would be lost, and wheat declared in its place.
    let is_of_another = |how: &&str| how.split(' ').any(|word| OF_ANOTHER.contains(&word.trim_end_matches('s')));
    let how = name.strip_suffix(&part).or_else(in_brackets).map(str::trim);
    let how = how.filter(|how| !how.is_empty() && !is_kept(how) && !is_of_another(how));
    // `Prawn crackers` are of wheat, and of prawns as well.
    let beside = words.iter().enumerate().filter(|(at, _)| !place.contains(at)).find_map(|(at, word)| {
        if words.get(at + 1).is_some_and(|next| OTHERS.contains(next)) || word.len() < 4 {
            return None;
        }
        let facts = recipe.larder.find(&Key::new(word))?;
        let more = facts.allergens.iter().filter(|allergen| is_in_it(allergen) && !allergens.contains(allergen));
        let more: Vec<String> = more.cloned().collect();
        (!more.is_empty()).then(|| format!(", `{word}` {}", show::list(&more)))
    });
    let message = format!(
        "no larder knows `{}`; `{part}` contains {}{}, and nothing says whether this does",
        line.name,
        show::list(&allergens),
        beside.unwrap_or_default()
    );
    // Beside a line of that very food it would be named twice.
    let beside = own.lines.iter().any(|other| other.name.key.as_str() == part);
    let help = match how.filter(|_| !beside && free_of.is_empty()) {
        // Nobody buys it: 80 g of dough a piece come out of another file.
        _ if is_made(name) => {
            let name = &line.name;
            format!(
                "no part of this recipe and no recipe that it uses makes `{name}`: is a line `use` missing? Else give it a block of its own in a larder, with a `contains` line"
            )
        }
        Some(how) => format!(
            "write what was done to it behind the amount, `{part} .... 100 g, {how}`, or give it a block of its own with a `contains` line"
        ),
        None => format!("give `{}` a block of its own in a larder, with a `contains` line", line.name),
    };
    Some(Diagnostic::warning(CHECK, line.name.span, message).help(help))
}

/// Plants and animals of which something else is made than of those that a larder has under the same name.
const OF_ANOTHER: &[&str] = &[
    "rye",
    "wheat",
    "spelt",
    "barley",
    "oat",
    "maize",
    "corn",
    "rice",
    "buckwheat",
    "millet",
    "almond",
    "hazelnut",
    "walnut",
    "cashew",
    "pistachio",
    "peanut",
    "soya",
    "soy",
    "coconut",
    "goat",
    "sheep",
    "ewe",
    "buffalo",
    "duck",
    "quail",
    "goose",
];

/// What is made in the house and rarely bought, by the last word of its name. Common practice, no source.
fn is_made(name: &str) -> bool {
    const MADE: &[&str] =
        &["dough", "batter", "levain", "poolish", "biga", "sponge", "filling", "ganache", "frangipane", "glaze"];
    name.rsplit(' ').next().is_some_and(|last| MADE.contains(&last))
}

/// An ingredient that no larder knows, with the name of an allergen in its own, `rye starter`, or of what is usually made with one, `aioli`, which
/// nothing else in the recipe holds.
fn named_after_an_allergen(
    recipe: &Recipe,
    line: &Ingredient,
    words: &[&str],
    is_in_it: impl Fn(&str) -> bool,
) -> Option<Diagnostic> {
    let all = || {
        recipe
            .parts()
            .flat_map(|(_, part)| &part.lines)
            .filter_map(Ingredient::facts)
            .flat_map(|facts| &facts.allergens)
    };
    let name = words.join(" ");
    // Asked of the whole recipe, and only where the name speaks of something: thousands of names may be unknown.
    let held = LazyCell::new(|| [Law::Eu, Law::Us].map(|law| law.words(all().map(String::as_str))));
    let holds = |law: Law, word: &str| {
        let [eu, us] = &*held;
        if law == Law::Us { us.contains(&word) } else { eu.contains(&word) }
    };
    let unsaid = |names: &[&str]| {
        let mut said: Vec<&'static str> = Vec::new();
        for law in [Law::Eu, Law::Us] {
            for word in law.words(names.iter().copied()) {
                if !holds(law, word) && !said.contains(&word) && is_in_it(word) {
                    said.push(word);
                }
            }
        }
        said
    };
    let by_name = unsaid(&[&name]);
    let made_with =
        || made_with(&name).iter().copied().filter(|with| !unsaid(&[with]).is_empty()).collect::<Vec<&str>>();
    let (said, how) =
        if by_name.is_empty() { (made_with(), "it is usually made with") } else { (by_name, "its name speaks of") };
    if said.is_empty() {
        return None;
    }
    let message =
        format!("no larder knows `{}`; {how} {}, and nothing says what it contains", line.name, show::list(&said));
    let help = format!(
        "give `{}` a block of its own in a larder, with a `contains` line that says it, or `contains nothing`",
        line.name
    );
    Some(Diagnostic::warning(CHECK, line.name.span, message).help(help))
}

/// The allergens with which something is usually made that has such a word in its name, in either number.
fn made_with(name: &str) -> &'static [&'static str] {
    let words: Vec<&str> = name.split(' ').map(|word| word.trim_matches(|c: char| !c.is_alphanumeric())).collect();
    let has = |food: &str| {
        let food: Vec<&str> = food.split(' ').collect();
        words
            .windows(food.len())
            .any(|window| window.iter().zip(&food).all(|(word, known)| noun::is_one_or_several(word, known)))
    };
    MADE_WITH.iter().find(|(food, _)| has(food)).map_or(&[], |(_, allergens)| allergens)
}
