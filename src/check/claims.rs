//! What a recipe claims of itself, `vegan` or `gluten-free`, read in one place wherever it is said: in its name, what it is sold as and filed
//! under, its parts' names, notes, story and directions.

mod said;

use super::statement::sentences;
use crate::language::syntax::TextKind;
use crate::measure::number::Number;
use crate::model::allergen::Law;
use crate::model::animals::{is_not_kosher, is_of_pig};
use crate::model::cooking::has_word_beginning;
use crate::model::kind::Kind;
use crate::model::larder::Facts;
use crate::model::recipe::{Ingredient, Recipe, Text};
use crate::text::source::Span;
pub(super) use said::claimed;
use said::{SUITABLE, may_claim};

/// What a claim rules out.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Rules {
    /// Allergens, in the words of the two laws.
    Out(&'static [&'static str]),
    /// Every allergen of either law.
    AllAllergens,
    /// What is of animals.
    Animals,
    /// What is of killed animals.
    Flesh,
    /// Sugar and syrup: `sugar-free`, `no added sugar` (Regulation (EC) 1924/2006, Annex, from memory).
    Sugar,
    /// What is drunk for its alcohol.
    Alcohol,
    /// What is called so, in beginnings of words, and what that is: cereals by themselves, and what no list of allergens has.
    Called(&'static [&'static str], &'static str),
    /// What is of a kind.
    OfKind(Kind),
    /// Meat, and what is of killed animals other than fish.
    Meat,
    /// Meat and milk, as for a table on which neither stands.
    MeatAndMilk,
    /// What is of a pig.
    Pork,
    /// What is of a pig, and alcohol.
    PorkAndAlcohol,
    /// What is of a pig, of shellfish, of fish without scales and of beasts that are not eaten so.
    NotKosher,
    /// As [`Rules::NotKosher`], and grain that may have risen.
    NotForPassover,
    /// Salt, and what is mostly seasoned with it.
    Salt,
}

const GLUTEN: Rules = Rules::Out(&["cereals containing gluten"]);
const MILK: Rules = Rules::Out(&["milk"]);
const EGG: Rules = Rules::Out(&["eggs"]);
const NUT: Rules = Rules::Out(&["nuts", "tree nuts", "peanuts"]);
const SOY: Rules = Rules::Out(&["soybeans"]);
const SULPHITE: Rules = Rules::Out(&["sulphur dioxide and sulphites"]);

/// What may stand in `…-free`, `without …` and `free from …`, in the singular.
const CLAIMS: &[(&str, Rules)] = &[
    ("gluten", GLUTEN),
    ("wheat", Rules::Out(&["wheat"])),
    ("dairy", MILK),
    ("milk", MILK),
    ("lactose", MILK),
    ("egg", EGG),
    ("fish", Rules::Out(&["fish"])),
    ("shellfish", Rules::Out(&["crustaceans", "crustacean shellfish", "molluscs"])),
    ("crustacean", Rules::Out(&["crustaceans", "crustacean shellfish"])),
    ("mollusc", Rules::Out(&["molluscs"])),
    ("nut", NUT),
    ("peanut", Rules::Out(&["peanuts"])),
    ("soy", SOY),
    ("soya", SOY),
    ("sesame", Rules::Out(&["sesame seeds"])),
    ("mustard", Rules::Out(&["mustard"])),
    ("celery", Rules::Out(&["celery"])),
    ("lupin", Rules::Out(&["lupin"])),
    ("sulphite", SULPHITE),
    ("sulfite", SULPHITE),
    ("meat", Rules::Flesh),
    ("allergen", Rules::AllAllergens),
    ("sugar", Rules::Sugar),
    ("alcohol", Rules::Alcohol),
    ("casein", MILK),
    ("gelatine", Rules::Called(&["gelatin"], "gelatine")),
    ("gelatin", Rules::Called(&["gelatin"], "gelatine")),
    ("pork", Rules::Pork),
    ("rye", Rules::Called(&["rye", "triticale"], "of rye")),
    ("oat", Rules::Called(&["oat"], "of oats")),
    ("barley", Rules::Called(&["barley", "malt"], "of barley")),
    ("flour", Rules::OfKind(Kind::Flour)),
    ("salt", Rules::Salt),
    ("animal", Rules::Animals),
];

/// Claims in one word.
const WORDS: &[(&str, Rules)] = &[
    ("vegan", Rules::Animals),
    ("vegetarian", Rules::Flesh),
    ("veggie", Rules::Flesh),
    ("veganised", Rules::Animals),
    ("veganized", Rules::Animals),
    ("vg", Rules::Animals),
    ("gf", GLUTEN),
    ("df", MILK),
    ("nf", NUT),
    ("pareve", Rules::MeatAndMilk),
    ("parve", Rules::MeatAndMilk),
    ("pescatarian", Rules::Meat),
    ("pescetarian", Rules::Meat),
    ("kosher", Rules::NotKosher),
    ("halal", Rules::PorkAndAlcohol),
];

/// Allergens that are of animals, in the words of the laws.
const OF_ANIMALS: &[&str] = &["milk", "eggs", "fish", "crustaceans", "crustacean shellfish", "molluscs"];
/// Allergens that are of killed animals.
const OF_FLESH: &[&str] = &["fish", "crustaceans", "crustacean shellfish", "molluscs"];

/// The most alcohol that what calls itself free of it holds: 1.2 %, from which on it is declared (Regulation (EU) 1169/2011, Article 16(4)).
const ALCOHOL: Number = Number::constant(12, 1_000);

/// Seasonings that are wine, by the beginnings of words.
const WINES: &[&str] = &["mirin", "sake|", "shaoxing", "rice wine", "cooking wine", "cooking sherry"];
/// What is sweetened with sugar, by the beginnings of words, and from so much of it on.
#[rustfmt::skip]
const SWEETENED: &[&str] = &[
    "jam|", "marmalade", "conserve", "condensed milk", "juice concentrate", "fruit concentrate", "candied", "glacé", "marzipan", "nougat", "fudge", "praline",
    "milk chocolate", "white chocolate", "dark chocolate", "chocolate chip", "fondant", "dulce de leche", "jelly crystals", "sprinkles",
];
const MUCH_SUGAR: Number = Number::constant(1, 5);
/// What is salted by itself, by the beginnings of words, and from so much salt on: soy sauce has 14 to 18 % (from memory).
#[rustfmt::skip]
const SALTED: &[&str] = &["soy sauce", "soya sauce", "tamari", "fish sauce", "oyster sauce", "miso", "stock cube", "stock powder", "bouillon", "anchov", "marmite", "yeast extract"];
const MUCH_SALT: Number = Number::constant(4, 100);
impl Rules {
    /// Whether an allergen, as a larder names it, is ruled out.
    pub(super) fn out(self, allergen: &str) -> bool {
        let is = |words: &[&str]| words.iter().any(|word| Law::Eu.is(allergen, word) || Law::Us.is(allergen, word));
        match self {
            Rules::Out(words) => is(words),
            Rules::AllAllergens => true,
            Rules::Animals => is(OF_ANIMALS),
            Rules::Flesh => is(OF_FLESH),
            Rules::MeatAndMilk => is(&["milk"]),
            Rules::Sugar
            | Rules::Alcohol
            | Rules::Called(..)
            | Rules::OfKind(_)
            | Rules::Meat
            | Rules::Pork
            | Rules::PorkAndAlcohol
            | Rules::NotKosher
            | Rules::NotForPassover
            | Rules::Salt => false,
        }
    }

    /// What an ingredient is by which it is ruled out, beside its allergens: `of an animal`.
    pub(super) fn kind_out(self, line: &Ingredient) -> Option<&'static str> {
        self.food_out(&Food {
            name: line.name.key.as_str(),
            kind: line.kind,
            facts: line.facts(),
            is_part: line.part().is_some(),
        })
    }

    /// The same of food that no line lists.
    pub(super) fn food_out(self, food: &Food<'_>) -> Option<&'static str> {
        let Food { name, kind, facts, is_part } = *food;
        let says = |of: fn(&Facts) -> bool| facts.is_some_and(of);
        let is_of_pig = || !is_part && is_of_pig(name);
        let is_gelatine = || {
            const OF_OTHERS: [&str; 8] = ["fish", "beef", "bovine", "marine", "vegan", "vegetable", "halal", "kosher"];
            !is_part && has_word_beginning(name, ["gelatin"]) && !has_word_beginning(name, OF_OTHERS)
        };
        let is_of_fish = || {
            kind.is_flesh() && kind != Kind::Meat
                || says(|facts| facts.allergens.iter().any(|allergen| Rules::Flesh.out(allergen)))
        };
        // Who eats fish and no meat is not asked for the rennet of a cheese.
        let is_cheese = || kind == Kind::Dairy;
        let is_meat = || {
            kind == Kind::Meat
                || is_of_pig()
                || says(|facts| facts.flags.not_vegetarian) && !is_of_fish() && !is_cheese()
        };
        let has_alcohol = || {
            let is_essence = has_word_beginning(name, ["extract", "essence", "flavour", "vinegar"]);
            let share = facts.and_then(|facts| facts.contents.alcohol);
            // Seasonings of rice wine hold 10 to 18 % (from memory), whatever a larder has of them.
            let is_wine = has_word_beginning(name, WINES) && !has_word_beginning(name, ["vinegar", "free", "style"]);
            !is_essence
                && (is_wine || share.map_or(kind == Kind::Spirit && facts.is_none(), |share| share.value() > ALCOHOL))
        };
        let (is_out, what) = match self {
            Rules::Out(_) | Rules::AllAllergens => (false, ""),
            Rules::Animals => {
                let is_animal = kind.is_flesh()
                    || matches!(kind, Kind::Egg | Kind::Milk | Kind::Dairy)
                    || says(|facts| facts.flags.not_vegan || facts.flags.not_vegetarian);
                (is_animal, "of an animal")
            }
            Rules::Flesh => (kind.is_flesh() || says(|facts| facts.flags.not_vegetarian), "of a killed animal"),
            Rules::Sugar => (!is_part && is_of_sugar(food), "sweet with sugar"),
            Rules::Alcohol => (has_alcohol(), "alcoholic"),
            Rules::Called(words, what) => {
                // They begin as malt does, and are made of the starch of maize, potato or wheat.
                let is_of_starch = has_word_beginning(name, ["maltodextrin", "maltose", "maltitol"]);
                (!is_part && has_word_beginning(name, words) && !is_of_starch, what)
            }
            Rules::OfKind(of) => (!is_part && kind == of, of.word()),
            Rules::Salt => (!is_part && is_of_salt(food), "salt, or salted with it"),
            Rules::Meat => (is_meat(), "of a killed animal"),
            Rules::MeatAndMilk => {
                (is_meat() || matches!(kind, Kind::Milk | Kind::Dairy), "of a killed animal, or of milk")
            }
            Rules::Pork | Rules::PorkAndAlcohol | Rules::NotKosher | Rules::NotForPassover if is_of_pig() => {
                (true, "of a pig")
            }
            Rules::Pork | Rules::PorkAndAlcohol | Rules::NotKosher | Rules::NotForPassover if is_gelatine() => {
                (true, "mostly of pigs, and nothing says of what")
            }
            Rules::Pork => (false, ""),
            Rules::PorkAndAlcohol => (has_alcohol() || is_in_spirit(name), "alcoholic"),
            Rules::NotKosher | Rules::NotForPassover => return self.not_kosher(food),
        };
        is_out.then_some(what)
    }

    /// What of a food keeps it from being kosher, or from the table of Passover.
    fn not_kosher(self, Food { name, kind, facts, is_part }: &Food<'_>) -> Option<&'static str> {
        if *is_part {
            return None;
        }
        if *kind == Kind::Shellfish || kind.is_flesh() && is_not_kosher(name) {
            return Some("of an animal that is not kosher");
        }
        let is_of_matzo = has_word_beginning(name, ["matzo", "matza", "passover"]);
        let is_grain = facts.is_some_and(|facts| facts.allergens.iter().any(|allergen| GLUTEN.out(allergen)));
        let is_risen = is_grain || matches!(kind, Kind::Yeast(_) | Kind::Leaven);
        (self == Rules::NotForPassover && !is_of_matzo && is_risen)
            .then_some("of grain that may have risen, or makes it rise")
    }

    /// Whether it speaks of what an ingredient holds that nobody can see in its name.
    pub(super) fn asks_for_all(self) -> bool {
        matches!(
            self,
            Rules::Out(_) | Rules::AllAllergens | Rules::Animals | Rules::Flesh | Rules::Meat | Rules::MeatAndMilk
        )
    }
}

/// Whether food is sweet with sugar: jam, chocolate and condensed milk are, and juice that is boiled down.
fn is_of_sugar(food: &Food<'_>) -> bool {
    let sugar = food.facts.and_then(|facts| facts.contents.sugar);
    let is_sweetened = !has_word_beginning(food.name, ["unsweetened", "sugar-free"])
        && has_word_beginning(food.name, SWEETENED)
        && sugar.is_none_or(|share| share.value() >= MUCH_SUGAR);
    food.kind.is_sweet() && sugar.is_none_or(|share| share.value().is_positive()) || is_sweetened
}

/// Whether food is salt, or is salted so that it seasons.
fn is_of_salt(food: &Food<'_>) -> bool {
    let salt = food.facts.and_then(|facts| facts.contents.salt);
    let is_salted = has_word_beginning(food.name, SALTED)
        && !has_word_beginning(food.name, ["unsalted", "salt-free", "no-salt"])
        && salt.is_none_or(|share| share.value() >= MUCH_SALT);
    food.kind == Kind::Salt || is_salted
}

/// Whether a name is of an extract in spirit: the law of the United States wants 35 % of alcohol in that of vanilla (21 CFR 169.175, from memory).
fn is_in_spirit(name: &str) -> bool {
    has_word_beginning(name, ["extract"])
        && has_word_beginning(name, ["vanilla", "almond", "lemon", "orange", "peppermint", "rum", "anise"])
        && !has_word_beginning(name, ["free", "glycerin", "halal", "powder"])
}

/// A food of which is asked whether it is ruled out.
pub(super) struct Food<'f> {
    /// In lower case.
    pub name: &'f str,
    /// What it is.
    pub kind: Kind,
    /// What a larder knows of it.
    pub facts: Option<&'f Facts>,
    /// Whether it is a part of a recipe.
    pub is_part: bool,
}

/// A claim such as `vegan` or `gluten-free`.
pub(super) struct Claim {
    /// As it is said.
    pub said: String,
    /// What it rules out.
    pub rules: Rules,
    /// Where it is said.
    pub span: Span,
}

/// A text in which a recipe speaks of itself.
pub(super) struct Told {
    /// A name, or a sentence; in lower case.
    pub text: String,
    /// Where it stands.
    pub span: Span,
    /// Whether it is a name, of which every word counts.
    pub is_name: bool,
}

/// Every text in which a recipe speaks of itself and its own parts, of those that may say what is asked: by words of it, whatever stands
/// beside them. A note is asked as a whole first. Cautions speak of what is there.
pub(super) fn told(recipe: &Recipe, may_say: impl Fn(&str) -> bool, may_note: impl Fn(&Text) -> bool) -> Vec<Told> {
    let mut all = Vec::new();
    let own = || recipe.parts().filter(|(_, part)| part.foreign.is_none()).map(|(_, part)| part);
    let names = [&recipe.name].into_iter().chain(&recipe.published.filed_under).chain(own().map(|part| &part.name));
    for name in names.filter(|name| may_say(name.key.as_str())) {
        all.push(Told { text: name.key.as_str().to_owned(), span: name.span, is_name: true });
    }
    // What stands on the label is claimed above all.
    if let Some(said) = recipe.sale.sold_as.as_ref().map(|said| said.to_lowercase()).filter(|said| may_say(said)) {
        all.push(Told { text: said, span: recipe.name.span, is_name: true });
    }
    // Nearly no text says it, and no word goes on from one sentence into the next.
    let mut add = |text: &str, span: Span, is_cut: bool| {
        for sentence in sentences(text).into_iter().filter(|said| may_say(said)) {
            let sentence = if is_cut || is_of_serving(sentence) { before_what_is_beside(sentence) } else { sentence };
            all.push(Told { text: sentence.to_owned(), span, is_name: false });
        }
    };
    let directions = recipe.sale.directions.as_ref().map(|said| said.to_lowercase().replace(':', ";"));
    if let Some(said) = directions.filter(|said| may_say(said)) {
        add(&said, recipe.name.span, true);
    }
    let spoken = |kind: TextKind| matches!(kind, TextKind::Note | TextKind::Story);
    for text in recipe.texts.iter().chain(own().flat_map(|part| &part.texts)).filter(|text| spoken(text.kind)) {
        if may_note(text) {
            add(text.lower(), text.span, false);
        }
    }
    all
}

fn is_of_serving(sentence: &str) -> bool {
    ["serve", "eat", "spread", "pour", "drink", "enjoy"].iter().any(|verb| sentence.trim_start().starts_with(verb))
}

/// A sentence up to what something is served with, or poured over: that claims nothing of the food itself.
fn before_what_is_beside(sentence: &str) -> &str {
    const BESIDE: &[&str] = &[" with ", " over ", " on ", " onto ", " in ", " into ", " to ", " as "];
    // `Suitable for coeliacs` is said of the food.
    let is_suitable = SUITABLE.iter().any(|word| sentence.contains(word));
    let beside = BESIDE.iter().chain((!is_suitable).then_some(&" for "));
    let end = beside.filter_map(|word| sentence.find(word)).min().unwrap_or(sentence.len());
    sentence.get(..end).unwrap_or_default()
}

/// The claims of a recipe, each once.
pub(super) fn claims(recipe: &Recipe) -> Vec<Claim> {
    let mut claims: Vec<Claim> = Vec::new();
    let may_note = |text: &Text| *text.asked.may_claim.get_or_init(|| may_claim(text.lower()));
    for told in told(recipe, may_claim, may_note) {
        for (said, rules) in claimed(&told.text, told.is_name) {
            if !claims.iter().any(|claim| claim.said == said) {
                claims.push(Claim { said, rules, span: told.span });
            }
        }
    }
    claims
}
