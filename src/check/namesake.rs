//! What a recipe is called after, and sweetness in what is sweet by its name: what `out-of-proportion` looks for where there is next to none of it.
//! Common practice, no source.

use super::dough::mille;
use crate::language::syntax::Key;
use crate::measure::quantity::Mass;
use crate::measure::show;
use crate::model::cooking::beginnings;
use crate::model::kind::Kind;
use crate::model::lowered::Beginnings;
use crate::model::recipe::{Ingredient, Part, PartId, Recipe};
use crate::solve::formula::{Formula, SolvedPart};
use crate::text::whole_words::WholeWords;
use crate::text::word_begins::{NameBegins, has_letters};

mod flesh;

/// A line, and what is unusual about it.
type Odd<'p> = (&'p Ingredient, String);

pub(super) fn run<'p>(
    (recipe, formula): (&'p Recipe, &Formula),
    part: &'p Part,
    solved: &'p SolvedPart,
) -> Option<Odd<'p>> {
    // The last part has all the others in it.
    let id = recipe.final_part().filter(|id| recipe.part(*id).is_some_and(|last| std::ptr::eq(last, part)))?;
    let all = solved.goes_in.filter(|all| *all > Mass::ZERO)?;
    next_to_none((recipe, formula), id, all).or_else(|| unsweetened(recipe, part, solved, all))
}

/// What a name promises and is in it by no other word: the larder knows it as food that a dish is of, or is flavoured with.
pub(super) fn promised(recipe: &Recipe, id: PartId) -> Option<String> {
    if !recipe.is_final(id) {
        return None;
    }
    let title = recipe.name.key.as_str();
    let is_free = || has_letters(title, b"free") && (title.contains("-free") || title.contains(" free"));
    if recipe.name.has_word_beginning(NOT_OF_IT) || is_free() {
        return None;
    }
    let lines = || recipe.parts().flat_map(|(_, part)| &part.lines);
    // What nobody here knows may be it, and what is drawn from another file is called as its part is.
    if lines().any(|line| line.kind == Kind::Other && line.part().is_none() && line.facts().is_none()) {
        return None;
    }
    let has = |word: &str| {
        let stem = stem(word);
        let in_name = |name: &str| has_word_with(name, stem);
        let in_line = |line: &Ingredient| {
            in_name(line.name.key.as_str())
                || line.facts().is_some_and(|facts| in_name(&facts.name))
                || line.preparation.as_deref().is_some_and(|said| in_name(&said.to_lowercase()))
        };
        lines().any(in_line)
            || MADE_OF
                .iter()
                .any(|(of, made)| has_word_with(of, stem) && lines().any(|line| line.name.has_word_beginning(made)))
            || recipe.parts().any(|(_, part)| part.name.key != recipe.name.key && in_name(part.name.key.as_str()))
    };
    let is_food = |word: &str| {
        let one = singular(word);
        // Most words begin no name of a larder.
        let is_known = || recipe.larder.may_begin(one)(1) && !MAY_BE_ANOTHER.has(one);
        let is_of_kind = || {
            let known = recipe.larder.describe(&Key::new(one));
            known.facts.is_some() && matches!(known.kind, Kind::Fruit | Kind::Vegetable | Kind::Nut)
        };
        is_known() && is_of_kind() || SPICES.has(one)
    };
    let words =
        || title.split(' ').filter(|word| word.len() >= 4 && !word.contains('-') && !ADJECTIVES.has(singular(word)));
    let word = words()
        .find(|word| is_food(word) && !has(word))
        .or_else(|| unkept(recipe, title))
        .or_else(|| flesh::unkept(recipe, title))?;
    Some(format!("`{}` promises {word}, and none is listed", recipe.name))
}

/// What is sold made of a food, by whose name a dish may still be called. Common practice, no source.
const MADE_OF: &[(&str, &Beginnings)] = &[
    ("almond", beginnings!["marzipan", "frangipane", "amaretti", "amaretto", "orgeat", "praline"]),
    ("hazelnut", beginnings!["gianduja", "gianduia", "praline", "nutella"]),
    ("sesame", beginnings!["tahini", "halva"]),
    ("chickpea", beginnings!["hummus", "houmous", "gram flour"]),
];

/// The first letters of a word, which it has in common with others of its kind: `cherr` of cherries.
fn stem(word: &str) -> &str {
    let one = singular(word);
    one.char_indices().nth(5).and_then(|(end, _)| one.get(..end)).unwrap_or(one)
}

/// What people choose by its name, and by what words lines are of it; where there are none, its kind tells.
const CHOSEN_BY: &[(&str, &Beginnings, Option<Kind>)] = &[
    ("rye", beginnings!["rye"], None),
    ("spelt", beginnings!["spelt", "dinkel", "farro"], None),
    ("oat", beginnings!["oat", "porridge", "granola", "muesli"], None),
    ("wholemeal", beginnings!["whole", "graham", "atta"], None),
    ("honey", beginnings!["honey", "mead"], None),
    ("sesame", beginnings!["sesame", "tahini", "gomasio", "za'atar", "dukkah"], None),
    ("saffron", beginnings!["saffron"], None),
    ("buttermilk", beginnings!["buttermilk"], None),
    ("cheese", beginnings!["cheese", "quark", "curd"], Some(Kind::Dairy)),
    ("cornflour", beginnings!["cornflour", "cornstarch", "corn starch", "maize starch", "maizena", "masa"], None),
    ("buckwheat", beginnings!["buckwheat", "kasha"], None),
    ("ginger", beginnings!["ginger"], None),
    ("chocolate", beginnings!["choc", "cocoa", "nutella", "cacao"], Some(Kind::Chocolate)),
];

/// A word of a title by which it is chosen and of which no line is.
fn unkept<'t>(recipe: &Recipe, title: &'t str) -> Option<&'t str> {
    // What stands behind these is whom it is for, or where.
    const BEHIND: &[&str] = &["for", "from", "in", "to", "on"];
    // The Rye Mill is a house.
    const PLACES: &[&str] = &["mill", "street", "house", "hill", "lane", "farm"];
    let words = title.split(' ').enumerate();
    let mut words = words.take_while(|(at, word)| *at == 0 || !BEHIND.contains(word)).map(|(_, word)| word).peekable();
    std::iter::from_fn(|| words.next().map(|word| (word, words.peek().copied()))).find_map(|(word, next)| {
        if next.is_some_and(|next| PLACES.contains(&next)) {
            return None;
        }
        let (_, names, kind) = CHOSEN_BY.iter().find(|(known, ..)| *known == word)?;
        let is_of_it = |line: &Ingredient| {
            line.name.has_word_beginning(names)
                || kind.is_some_and(|kind| line.kind == kind)
                || line.facts().is_some_and(|facts| names.begin_in(&facts.name.to_lowercase()))
                || line.preparation.as_deref().is_some_and(|said| names.begin_in(&said.to_lowercase()))
        };
        let mut parts = recipe.parts().map(|(_, part)| part);
        let is_kept = parts.any(|part| {
            part.lines.iter().any(is_of_it) || part.name.key != recipe.name.key && part.name.has_word_beginning(names)
        });
        (!is_kept).then_some(word)
    })
}

/// Whether a word of a name, between blanks, hyphens and brackets, begins so.
fn has_word_with(name: &str, beginning: &str) -> bool {
    let parts = |byte: &u8| matches!(byte, b' ' | b'-' | b'(' | b')');
    name.as_bytes().split(parts).any(|word| word.starts_with(beginning.as_bytes()))
}

/// Spices and herbs that give their name to what has them in it.
const SPICES: &WholeWords = &WholeWords::of(&["cinnamon", "caraway", "aniseed", "cardamom", "rosemary"]);

/// Food by whose name another thing is called, or for which another stands.
#[rustfmt::skip]
const MAY_BE_ANOTHER: &WholeWords = &WholeWords::of(&[
    "sauerkraut", "kimchi", "chilli", "chili", "onion", "potato", "lemon", "pepper", "corn", "pumpkin", "olive",
    "plum", "nut", "coconut", "date",
    // Made of nuts, and not put in.
    "marzipan", "praline", "pesto", "nougat", "frangipane",
]);

/// Names that are no list of what is in it.
#[rustfmt::skip]
const NOT_OF_IT: &Beginnings = &Beginnings::of(&[
    "plum pudding", "mock", "vegan", "without", "nut", "like", "style", "hot cross", "turtle", "bear", "fish bone", "toad", "angel", "bird", "duck egg",
    "rock", "orange blossom", "pineapple bun", "melon", "chestnut", "coffee cake", "tea cake", "cherry blossom", "strawberry tree", "ham and",
]);

/// Which kinds a dish is of where it is called after them; others scent it, as lemon, garlic and ginger do.
fn is_body(line: &Ingredient) -> bool {
    (line.kind.is_flesh()
        || matches!(line.kind, Kind::Vegetable | Kind::Fruit | Kind::Pulse | Kind::Chocolate | Kind::Nut | Kind::Milk))
        && line.part().is_none()
        && line.stays_in()
        && !line.optional
        && !line.name.has_word_beginning(SCENTS)
        && !line.preparation.as_deref().is_some_and(is_scent)
}

/// Whether what is said of it makes it a scent of a dish.
fn is_scent(said: &str) -> bool {
    [b"drie", b"zest", b"powd", b"cand"].into_iter().any(|letters| has_letters(said, letters)) && {
        let said = said.to_lowercase();
        ["dried", "zest", "powder", "candied"].iter().any(|word| said.contains(word))
    }
}

#[rustfmt::skip]
const SCENTS: &Beginnings = &Beginnings::of(&[
    "zest", "peel", "juice", "chilli", "chili", "ginger", "garlic", "powder", "dried", "truffle", "horseradish", "shallot", "lemon", "lime", "orange",
    "cocoa", "extract", "essence", "jam", "purée", "paste", "sauce", "oil", "olive", "pepper", "jalape", "anchov", "fried", "crisp", "flakes", "candied",
    "bacon", "smoked", "caper", "chopped for", "whole milk", "milk|", "cured", "stock", "broth", "citron", "yuzu", "herb", "onion seed",
]);

/// Of so little of it nobody calls a dish after it. Nuts are strewn on.
const LEAST: i64 = 40;
const LEAST_OF_NUTS: i64 = 20;
/// What is before all the fruit or vegetable that it is called after.
const LEAST_OF_A_POT: i64 = 115;
const ALL_OF_IT: &Beginnings = &Beginnings::of(&["soup", "crumble", "jam|", "compote", "chutney", "purée", "puree"]);

/// An ingredient that the title names, and that is next to none of what is made, with all that lies in it.
fn next_to_none<'p>((recipe, formula): (&'p Recipe, &Formula), id: PartId, all: Mass) -> Option<Odd<'p>> {
    let within = recipe.within(id);
    let mut lines = within.iter().filter_map(|id| recipe.part(*id)).flat_map(|part| &part.lines);
    // A loaf of flour, water and salt is called after nothing of it.
    lines.find(|line| is_body(line))?;
    let title = recipe.name.key.as_str();
    // What stands behind `with` goes beside it.
    let title = title.split(" with ").next().unwrap_or(title);
    let words = title.split([' ', '-']).map(singular).filter(|word| word.len() >= 4 && !ADJECTIVES.has(word));
    let words: Vec<&str> = words.collect();
    let letters = words.iter().map(|word| word.trim_start_matches(|c: char| !c.is_alphanumeric()).as_bytes());
    let begins = letters.fold(NameBegins::NONE, NameBegins::with);
    let is_word = |word: &str| {
        words.iter().any(|other| other.as_bytes().first() == word.as_bytes().first() && *other == singular(word))
    };
    // Most names have no word that begins like one of these.
    let is_named =
        |line: &Ingredient| line.name.may_share_word(begins) && line.name.key.as_str().split([' ', '-']).any(is_word);
    let parts = within.iter().filter_map(|id| Some((recipe.part(*id)?, formula.part(*id)?)));
    let lines = parts.flat_map(|(part, solved)| part.lines.iter().zip(&solved.lines));
    let own: Vec<_> = lines.filter(|(line, _)| is_named(line)).collect();
    // Of a part that is called so, or what scents or is dried, this cannot be told.
    if own.iter().any(|(line, _)| !is_body(line)) {
        return None;
    }
    let (line, _) = own.iter().copied().max_by_key(|(_, amount)| amount.mass)?;
    let masses: Option<Vec<Mass>> = own.iter().map(|(_, amount)| amount.mass).collect();
    let mass = Mass::sum(masses?).ok()?;
    let least = match line.kind {
        Kind::Nut => LEAST_OF_NUTS,
        Kind::Fruit | Kind::Vegetable if recipe.name.has_word_beginning(ALL_OF_IT) => LEAST_OF_A_POT,
        _ => LEAST,
    };
    mass.as_share_of(all).is_ok_and(|share| share < mille(least)).then(|| {
        let message = format!(
            "`{}` is called after {}, and {} are next to none of {}",
            recipe.name,
            line.name,
            show::mass_plain(mass),
            show::mass_plain(all)
        );
        (line, message)
    })
}

/// Words of a name that say what something is like, and not what it is.
#[rustfmt::skip]
const ADJECTIVES: &WholeWords = &WholeWords::of(&[
    "white", "brown", "black", "dark", "light", "sweet", "sour", "fresh", "whole", "roast", "roasted", "baked",
    "fried", "green", "yellow", "golden", "cooking", "bread", "cake", "soup", "stew", "sauce", "salad", "chip",
    "rolled", "ground", "minced", "summer", "winter", "spring", "bitter", "field",
]);

fn singular(word: &str) -> &str {
    word.strip_suffix("es").filter(|short| short.ends_with("to")).or_else(|| word.strip_suffix('s')).unwrap_or(word)
}

/// What is sweet wherever it is made, by its name.
#[rustfmt::skip]
const SWEET: &Beginnings = &Beginnings::of(&[
    "cheesecake", "cookie", "brownie", "blondie", "ice cream", "gelato", "sorbet", "panna cotta", "shortbread", "pavlova", "meringue", "fudge", "crème brûlée",
    "creme brulee", "crème caramel", "creme caramel", "cupcake", "sponge cake", "pound cake", "macaron", "jam", "marmalade", "lemonade", "custard tart",
]);

/// So little sugar sweetens nothing.
const UNSWEET: i64 = 30;

/// Sugar that is next to none of what is sweet by its name: whoever leaves it out lists none.
fn unsweetened<'p>(recipe: &Recipe, part: &'p Part, solved: &'p SolvedPart, all: Mass) -> Option<Odd<'p>> {
    let (line, _) =
        part.lines.iter().zip(&solved.lines).find(|(line, _)| line.kind == Kind::Sugar && line.stays_in())?;
    let names = [&recipe.name, &part.name];
    let savoury = beginnings![
        "savo",
        "cheese and",
        "herb",
        "dog",
        "crisp",
        "salt",
        "crab",
        "fish",
        "sugar-free",
        "sugar free",
        "unsweet"
    ];
    if !names.iter().any(|name| name.has_word_beginning(SWEET))
        || names.iter().any(|name| name.has_word_beginning(savoury))
    {
        return None;
    }
    let sweetens = |line: &Ingredient| {
        line.kind.is_sweet()
            || matches!(line.kind, Kind::Fruit | Kind::Chocolate)
            || line.kind == Kind::Other && line.part().is_none()
            || line.name.has_word_beginning(beginnings!["condensed"])
    };
    let sweet = part.lines.iter().zip(&solved.lines).filter(|(line, _)| sweetens(line) && line.stays_in());
    let masses: Option<Vec<Mass>> = sweet.map(|(_, amount)| amount.mass).collect();
    let sweet = Mass::sum(masses?).ok()?;
    (!part.per_piece && sweet.as_share_of(all).is_ok_and(|share| share < mille(UNSWEET))).then(|| {
        let message = format!(
            "{} of sugar in {} of `{}`: that is not sweet",
            show::mass_plain(sweet),
            show::mass_plain(all),
            part.name
        );
        (line, message)
    })
}
