//! Which ingredients have their quantity said, and how much of each there is.

use super::NoLabel;
use super::items::{Item, leaves};
use crate::language::syntax::Key;
use crate::measure::noun::stem;
use crate::measure::quantity::{Mass, Proportion};
use crate::model::animals::{is_bird, is_of_animal};
use crate::model::cooking::rests::FERMENTS;
use crate::model::cooking::{beginnings, called, has_word_beginning};
use crate::model::kind::Kind;
use crate::model::recipe::{Ingredient, Part, Recipe, Refers};
use crate::text::quick::QuickMap;

/// The share of a named ingredient.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Quantity {
    /// What.
    pub name: String,
    /// Its weight as used, on the weight of what is sold. Over 100 % where water has left.
    pub share: Proportion,
}

/// Words of a food's name that name no ingredient of which a buyer wants to know how much: what it is, how it looks, where from.
/// Common practice, no source.
const PLAIN: &[&str] = &[
    "a",
    "all",
    "and",
    "bake",
    "baked",
    "bar",
    "best",
    "big",
    "biscuit",
    "black",
    "bread",
    "brown",
    "bun",
    "cake",
    "coarse",
    "cold",
    "cookie",
    "country",
    "dark",
    "dough",
    "fine",
    "flour",
    "for",
    "fresh",
    "golden",
    "green",
    "home",
    "in",
    "large",
    "light",
    "little",
    "loaf",
    "loave",
    "loaves",
    "of",
    "old",
    "on",
    "our",
    "pan",
    "pastry",
    "pie",
    "plain",
    "powder",
    "red",
    "roll",
    "round",
    "slice",
    "small",
    "soft",
    "strong",
    "sweet",
    "tart",
    "the",
    "tin",
    "warm",
    "water",
    "white",
    "whole",
    "with",
    "yellow",
    "yeast",
    // What it claims to be without, and not what is in it.
    "vegan",
    "vegetarian",
    "free",
    "gluten-free",
    "dairy-free",
    "egg-free",
    "nut-free",
    "sugar-free",
];

/// What stands at the end of one word with what it is made of: `oatcakes`, `cheesecake`, `beefburger`. Common practice, no source.
const MADE_OF: &[&str] = &["bread", "burger", "cake", "cream", "loaf", "pie", "sauce", "stick"];

/// Words that say what an ingredient is for where another word stands behind them: `jam sugar` is no jam, `pizza flour` no pizza.
/// Common practice, no source.
const FOR_WHAT: &[&str] =
    &["brine", "curry", "jam", "marmalade", "pasta", "pickle", "pizza", "pretzel", "pudding", "soup", "stock", "stew"];

/// What is cheese, though its name does not say so.
const CHEESES: &[&str] = &[
    "brie",
    "camembert",
    "cheddar",
    "comte",
    "comté",
    "edam",
    "emmental",
    "feta",
    "fontina",
    "gouda",
    "gruyere",
    "gruyère",
    "halloumi",
    "mascarpone",
    "mozzarella",
    "parmesan",
    "labneh",
    "paneer",
    "pecorino",
    "provolone",
    "quark",
    "ricotta",
    "romano",
    "roquefort",
    "tilsit",
];

/// Whether something of that kind and name is of a whole kind of ingredients.
type IsOfAll = fn(Kind, &str) -> bool;

/// Words of a food's name that name a whole kind of ingredients, and whether one is of it: Article 22(1)(a) of Regulation (EU) 1169/2011 (`or category of
/// ingredients`) and the Commission's notice 2017/C 393/05 (from memory).
const CATEGORIES: &[(&str, IsOfAll)] = &[
    ("fish", |kind, _| kind == Kind::Fish),
    ("seafood", |kind, _| matches!(kind, Kind::Fish | Kind::Shellfish)),
    ("shellfish", |kind, _| kind == Kind::Shellfish),
    ("meat", |kind, name| kind == Kind::Meat || is_of_animal(name) && kind.is_flesh()),
    // Salmon steaks name their fish.
    ("steak", |kind, name| kind == Kind::Meat && has_word_beginning(name, ["beef", "ox", "sirloin", "rump", "veal"])),
    ("poultry", |kind, name| kind == Kind::Meat && is_bird(name)),
    ("nut", |kind, name| kind == Kind::Nut && !has_word_beginning(name, ["coconut"])),
    ("fruit", |kind, _| kind == Kind::Fruit),
    ("vegetable", |kind, _| kind == Kind::Vegetable),
    ("veg", |kind, _| kind == Kind::Vegetable),
    ("seed", |kind, _| kind == Kind::Seed),
    ("seeded", |kind, _| kind == Kind::Seed),
    ("berry", |kind, name| kind == Kind::Fruit && name.split_whitespace().any(|word| stem(word).ends_with("berry"))),
];

/// Whether a title names the kind of ingredient that something is.
fn is_of_named_category(title: &[String], item: &Item) -> bool {
    let name = item.name.to_lowercase();
    // What only tastes of it is none of it: stock, sauce, the oil of a nut.
    let is_it = |of: &IsOfAll| {
        of(item.kind(), &name)
            && !has_word_beginning(
                &name,
                ["stock|", "stocks|", "broth", "sauce", "extract", "essence", "oil|", "oils|"],
            )
    };
    CATEGORIES.iter().any(|(word, of)| title.iter().any(|one| one == word) && is_it(of))
}

/// Shares of what the name of the food names (Article 22) and of what was asked for.
///
/// # Errors
/// When something is asked for that is not in it, or a share leaves the range of exact numbers.
pub(super) fn quantities(
    named: &Named<'_>,
    list: &[Item],
    net: Mass,
    asked: &[String],
) -> Result<Vec<Quantity>, NoLabel> {
    let mut weights: Vec<(String, Mass, bool)> = Vec::new();
    let mut places: QuickMap<Key, usize> = QuickMap::default();
    let title = words_that_name(named.title);
    let compounds = list.iter().filter(|item| !item.inner.is_empty());
    for item in compounds.chain(leaves(list)) {
        let Some(mass) = went_in(item).filter(|mass| *mass > Mass::ZERO) else { continue };
        if has_its_name_from_within(item) {
            continue;
        }
        let is_seed = named.seeds.contains(&item.entry());
        let is_medium =
            named.is_in_liquid && has_word_beginning(&item.name.to_lowercase(), ["brine", "syrup", "vinegar"]);
        let named = is_named(&title, item)
            && !is_seed
            && !is_medium
            && !raises(item.kind())
            && !flavours_only(item, mass, net)?
            && !is_called_as_what_is_in_it(&title, item)
            && !is_there_itself(&title, (list, net), item)?;
        let key = Key::new(&item.name);
        match places.get(&key).and_then(|at| weights.get_mut(*at)) {
            Some((_, known, is)) => {
                *known = known.plus(mass)?;
                *is |= named;
            }
            None => {
                places.insert(key, weights.len());
                weights.push((item.name.clone(), mass, named));
            }
        }
    }
    // `Burgers in brioche`: what is opened for its own name names it all the same.
    for (name, mass) in named.opened.iter().filter(|(name, _)| is_put_beside(named.title, name)) {
        let key = Key::new(name);
        match places.get(&key).and_then(|at| weights.get_mut(*at)) {
            Some((.., is)) => *is = true,
            None => {
                places.insert(key, weights.len());
                weights.push((name.clone(), *mass, true));
            }
        }
    }
    for name in asked {
        if !places.contains_key(&Key::new(name)) {
            let known = weights.iter().map(|(name, ..)| name.as_str());
            let hint = crate::language::near::hint(name, known);
            return Err(NoLabel(format!("--quantity {name}: nothing of that name is weighed into it{hint}")));
        }
    }
    let asked: Vec<Key> = asked.iter().map(|name| Key::new(name)).collect();
    let mut quantities = Vec::new();
    for (name, mass, named) in weights {
        if named || !asked.is_empty() && asked.contains(&Key::new(&name)) {
            quantities.push(Quantity { share: mass.as_share_of(net)?, name });
        }
    }
    Ok(quantities)
}

/// Whether a compound is called after an ingredient in it that the name means as well: of `leeks` that are sweated leek
/// and butter, or of a `pear filling`, it is told, as it was used (Article 22). Two figures for one thing would be one too many.
fn is_called_as_what_is_in_it(title: &[String], item: &Item) -> bool {
    let words: Vec<String> = item.name.split_whitespace().map(stem).collect();
    let is_in_name = |name: &str| name.split_whitespace().next_back().is_some_and(|last| words.contains(&stem(last)));
    // `Turkey`, of a turkey crown: the flesh is what is told.
    let is_flesh_in_name = |inner: &Item| {
        let shared = |word: &str| title.contains(&stem(word)) && words.contains(&stem(word));
        let is_flesh = inner.kind().is_flesh() || is_of_animal(&inner.name.to_lowercase());
        is_flesh && !is_made_of_it(&inner.name) && inner.name.split_whitespace().any(shared)
    };
    let mut inner = leaves(&item.inner).into_iter();
    inner.any(|inner| {
        inner.mass.is_some() && is_named(title, inner) && (is_in_name(&inner.name) || is_flesh_in_name(inner))
    })
}

/// Whether a compound has the very name of an ingredient in it, the `pear` of pear and sugar: by that name the ingredient is meant, and to add
/// both up would count the fruit twice.
fn has_its_name_from_within(item: &Item) -> bool {
    let name = Key::new(&item.name);
    leaves(&item.inner).iter().any(|inner| Key::new(&inner.name) == name)
}

/// Whether a name is of what is made of an animal or a plant, and is not it: its fat, what it was boiled in, what is pressed out of it.
fn is_made_of_it(name: &str) -> bool {
    #[rustfmt::skip]
    const MADE: &[&str] = &[
        "dripping", "drippings", "fat", "lard", "suet", "tallow", "stock", "stocks", "broth", "bouillon", "gravy", "sauce", "juice", "bone", "bones", "carcass",
        "extract", "syrup", "powder", "oil", "gelatine", "gelatin", "skin",
    ];
    let last = name.split_whitespace().next_back().unwrap_or_default().to_lowercase();
    MADE.contains(&last.as_str())
}

/// Whether a word of the title that names something made of a food names the food itself beside it: of a chicken pie a buyer wants to know the
/// chicken, and stock is mostly water (Regulation (EU) 1169/2011, Article 22(1)(a): the ingredient that the name means). What only flavours is
/// not it: of a lemon cake with juice and some zest the juice is told.
fn is_there_itself(title: &[String], (list, net): (&[Item], Mass), item: &Item) -> Result<bool, NoLabel> {
    if !is_made_of_it(&item.name) {
        return Ok(false);
    }
    let words: Vec<String> = item.name.split_whitespace().map(stem).filter(|word| title.contains(word)).collect();
    let has_word = |name: &str| name.split_whitespace().map(stem).any(|word| words.contains(&word));
    for other in leaves(list).into_iter().filter(|other| !is_made_of_it(&other.name) && !other.aside) {
        let Some(mass) = went_in(other).filter(|_| has_word(&other.name)) else { continue };
        if !flavours_only(other, mass, net)? {
            return Ok(true);
        }
    }
    Ok(false)
}

/// Words behind which a name says what else there is, beside what it is. Common practice, no source.
const BESIDE: &[&str] = &["in", "with", "on", "and"];

/// Whether a title names something behind such a word.
fn is_put_beside(title: &str, name: &str) -> bool {
    let Some(what) = name.split_whitespace().next_back().map(stem) else { return false };
    title.lines().any(|title| {
        let title = title.to_lowercase();
        let mut words = title.split(|c: char| !c.is_alphanumeric() && c != '-').filter(|word| !word.is_empty());
        words.by_ref().any(|word| BESIDE.contains(&word)) && words.any(|word| stem(word) == what)
    }) && !PLAIN.contains(&what.as_str())
}

/// What went in of it, also where it was strained out again: rhubarb of a cordial (Annex VIII, 3(a): as recorded when it is used). A bath of
/// fat or of lye is not in it by its weight: it gives off nothing that a buyer chooses by.
fn went_in(item: &Item) -> Option<Mass> {
    match (item.mass, item.went_in.filter(|_| !item.fried_in && !item.of_bath && item.kind() != Kind::Lye)) {
        (Some(mass), Some(more)) => mass.plus(more).ok(),
        (mass, more) => mass.or(more),
    }
}

/// What the name names and no quantity is asked of, for it only flavours.
///
/// # Errors
/// When a weight leaves the range of exact numbers.
pub(super) fn flavours(named: &Named<'_>, list: &[Item], net: Mass) -> Result<Vec<String>, NoLabel> {
    let title = words_that_name(named.title);
    let mut names: Vec<String> = Vec::new();
    for item in leaves(list).into_iter().filter(|item| is_named(&title, item)) {
        let Some(mass) = went_in(item) else { continue };
        if flavours_only(item, mass, net)? && !names.contains(&item.name) {
            names.push(item.name.clone());
        }
    }
    Ok(names)
}

/// What the food is called, and which of its ingredients no name means.
pub(super) struct Named<'a> {
    /// Its names, each in a line.
    pub(super) title: &'a str,
    /// Seeds of a leaven that is fed, by their larder entry: see [`fed_seeds`].
    pub(super) seeds: &'a [Key],
    /// Whether it is sold in a liquid, which nobody buys it for.
    pub(super) is_in_liquid: bool,
    /// Doughs that are opened in the list, by the names of their parts, with how much of them is taken.
    pub(super) opened: &'a [(String, Mass)],
}

/// What a leaven is begun with and then fed: `sourdough` in a name speaks of how it is raised, and not of the spoonful that it began with.
/// What goes into the dough itself, crackers of what was left over, is an ingredient like others. Common practice, no source.
pub(super) fn fed_seeds(recipe: &Recipe) -> Vec<Key> {
    let is_dough = |part: &Part| part.lines.iter().any(|line| line.is_flour && !line.aside);
    let mut seeds = Vec::new();
    // What tea is turned into kombucha with, and milk into kefir.
    let turns = |line: &Ingredient| line.name.has_word_beginning(beginnings!["starter", "scoby", "mother"]);
    for part in recipe.parts().map(|(_, part)| part).filter(|part| part.steps.iter().any(|step| called(step, FERMENTS)))
    {
        for line in part.lines.iter().filter(|line| turns(line)) {
            if let Refers::Pantry(facts) = &line.refers {
                seeds.push(Item::of_line(line, None, facts.clone()).entry());
            }
        }
    }
    for (id, part) in recipe.parts() {
        let is_fed = part.from.is_some() || recipe.users(id).any(|(user, _)| recipe.part(user).is_some_and(is_dough));
        for line in part.lines.iter().filter(|line| is_fed && line.kind == Kind::Leaven) {
            if let Refers::Pantry(facts) = &line.refers {
                seeds.push(Item::of_line(line, None, facts.clone()).entry());
            }
        }
    }
    seeds
}

/// Words that together name one food, of which none names an ingredient. Common practice, no source.
const TOGETHER: &[&str] = &["ice cream", "cream cracker", "custard cream", "butter bean", "hot dog", "gingerbread man"];

/// What is baked and goes into other food: bread in an ice cream, biscuits in a cake. At the end of a name it says what the food is.
const BAKED: &[&str] = &["biscuit", "bread", "bun", "cake", "cookie", "pastry"];

/// The words of a title that may name an ingredient.
fn words_that_name(title: &str) -> Vec<String> {
    let mut all: Vec<String> = Vec::new();
    for name in title.lines() {
        let mut name = name.to_lowercase();
        for together in TOGETHER {
            // What stands before it names what is in it.
            name = name.replace(together, "|");
        }
        let is_apart = |c: char| !c.is_alphanumeric() && c != '-' && c != '|';
        let words: Vec<String> = name.split(is_apart).filter(|word| !word.is_empty()).map(stem).collect();
        for (at, word) in words.iter().enumerate() {
            if BAKED.contains(&word.as_str()) && at + 1 < words.len() {
                all.push(format!("{IN_IT}{word}"));
            }
            let named = with_what_it_is_made_of(word.clone());
            all.extend(named.into_iter().filter(|word| word != "|" && !PLAIN.contains(&word.as_str())));
        }
    }
    all
}

/// Before a word of [`BAKED`] that stands before another.
const IN_IT: &str = "in it: ";

/// What flavours in small quantities is free of it (Annex VIII, 1(a)(iii), by the University of Reading, Food Labelling in the UK, seen):
/// a spice, an extract or vanilla below 2 %, common practice.
fn flavours_only(item: &Item, mass: Mass, net: Mass) -> Result<bool, NoLabel> {
    let kind = item.facts.as_ref().and_then(|facts| facts.kind);
    let is_flavouring = kind == Some(Kind::Spice)
        || has_word_beginning(&item.name.to_lowercase(), ["extract", "essence", "flavour", "vanilla", "zest"]);
    Ok(is_flavouring && mass.times(crate::measure::number::Number::whole(50))? < net)
}

/// Whether it only raises what it is in: soda bread and biscuits with ammonia are bought for no amount of it. Common practice, no source.
fn raises(kind: Kind) -> bool {
    matches!(kind, Kind::RaisingAgent | Kind::BakingPowder | Kind::Soda)
}

/// Whether the name of the food names an ingredient: by a word of its name, or as a cheese.
fn is_named(title: &[String], item: &Item) -> bool {
    let words: Vec<String> = item.name.split_whitespace().map(stem).collect();
    let is_cheese =
        title.iter().any(|word| word == "cheese") && words.iter().any(|word| CHEESES.contains(&word.as_str()));
    let names = |(at, word): (usize, &String)| {
        let is_named =
            title.contains(word) || word.strip_suffix("meal").is_some_and(|grain| title.iter().any(|one| one == grain));
        is_named && (at + 1 == words.len() || !FOR_WHAT.contains(&word.as_str()))
    };
    // Bread flour is no bread: what is baked is called so by its last word.
    let is_baked = words.last().is_some_and(|last| title.contains(&format!("{IN_IT}{last}")));
    // How something was kept is no quantity: `salt beef`.
    let is_salt = item.kind() == Kind::Salt
        || has_word_beginning(&item.name.to_lowercase(), ["curing salt", "nitrite", "prague"]);
    !item.aside
        && !is_salt
        && (is_cheese || is_baked || is_of_named_category(title, item) || words.iter().enumerate().any(names))
}

/// `oatcake`, and `oat`.
fn with_what_it_is_made_of(word: String) -> Vec<String> {
    let made_of = MADE_OF.iter().find_map(|end| word.strip_suffix(end)).filter(|front| front.len() > 2);
    let front = made_of.map(str::to_owned);
    std::iter::once(word).chain(front).collect()
}
