//! What a recipe claims of itself, `vegan` or `gluten-free`, read in one place wherever it is said: in its name, what it is sold as and filed
//! under, its parts' names, notes, story and directions.

use super::statement::sentences;
use crate::language::syntax::TextKind;
use crate::measure::number::Number;
use crate::model::allergen::Law;
use crate::model::cooking::has_word;
use crate::model::kind::Kind;
use crate::model::larder::Facts;
use crate::model::recipe::{Ingredient, Recipe};
use crate::model::step::Words;
use crate::text::source::Span;
use crate::text::word_begins::parted;

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
    /// What is of a pig.
    Pork,
    /// What is of a pig, and alcohol.
    PorkAndAlcohol,
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
];

/// Claims in one word.
const WORDS: &[(&str, Rules)] = &[
    ("vegan", Rules::Animals),
    ("vegetarian", Rules::Flesh),
    ("veggie", Rules::Flesh),
    ("gf", GLUTEN),
    ("eggless", EGG),
    ("meatless", Rules::Flesh),
    ("kosher", Rules::Pork),
    ("halal", Rules::PorkAndAlcohol),
];

/// Allergens that are of animals, in the words of the laws.
const OF_ANIMALS: &[&str] = &["milk", "eggs", "fish", "crustaceans", "crustacean shellfish", "molluscs"];
/// Allergens that are of killed animals.
const OF_FLESH: &[&str] = &["fish", "crustaceans", "crustacean shellfish", "molluscs"];

/// What is of a pig unless another animal is named, by beginnings of words; `ham` is a word of its own. Common practice, no source.
const OF_PIGS: &[&str] = &[
    "pork",
    "bacon",
    "gammon",
    "lard",
    "pancetta",
    "prosciutto",
    "speck",
    "chorizo",
    "guanciale",
    "nduja",
    "mortadella",
];
/// Words by which it is of another animal, or of none.
const OF_NO_PIG: &[&str] =
    &["beef", "veal", "lamb", "turkey", "chicken", "duck", "vegan", "vegetarian", "veggie", "plant", "mushroom"];

/// The most alcohol that what calls itself free of it holds: 1.2 %, from which on it is declared (Regulation (EU) 1169/2011, Article 16(4)).
const ALCOHOL: Number = Number::constant(12, 1_000);

impl Rules {
    /// Whether an allergen, as a larder names it, is ruled out.
    pub(super) fn out(self, allergen: &str) -> bool {
        let is = |words: &[&str]| words.iter().any(|word| Law::Eu.is(allergen, word) || Law::Us.is(allergen, word));
        match self {
            Rules::Out(words) => is(words),
            Rules::AllAllergens => true,
            Rules::Animals => is(OF_ANIMALS),
            Rules::Flesh => is(OF_FLESH),
            Rules::Sugar | Rules::Alcohol | Rules::Pork | Rules::PorkAndAlcohol => false,
        }
    }

    /// What an ingredient is by which it is ruled out, beside its allergens: `of an animal`.
    pub(super) fn kind_out(self, line: &Ingredient) -> Option<&'static str> {
        let says = |of: fn(&Facts) -> bool| line.facts().is_some_and(of);
        let is_of_pig = || {
            let name = line.name.key.as_str();
            let is_ham = || name.split(' ').any(|word| ["ham", "hams"].contains(&word));
            line.part().is_none() && (has_word(name, OF_PIGS) || is_ham()) && !has_word(name, OF_NO_PIG)
        };
        let has_alcohol = || {
            let is_essence = has_word(line.name.key.as_str(), ["extract", "essence", "flavour", "vinegar"]);
            let share = line.facts().and_then(|facts| facts.contents.alcohol);
            !is_essence
                && share.map_or(line.kind == Kind::Spirit && line.facts().is_none(), |share| share.value() > ALCOHOL)
        };
        let (is_out, what) = match self {
            Rules::Out(_) | Rules::AllAllergens => (false, ""),
            Rules::Animals => {
                let is_animal = line.kind.is_flesh()
                    || matches!(line.kind, Kind::Egg | Kind::Milk | Kind::Dairy)
                    || says(|facts| facts.flags.not_vegan || facts.flags.not_vegetarian);
                (is_animal, "of an animal")
            }
            Rules::Flesh => (line.kind.is_flesh() || says(|facts| facts.flags.not_vegetarian), "of a killed animal"),
            Rules::Sugar => {
                let sugar = line.facts().and_then(|facts| facts.contents.sugar);
                (line.kind.is_sweet() && sugar.is_none_or(|share| share.value().is_positive()), "sweet with sugar")
            }
            Rules::Alcohol => (has_alcohol(), "alcoholic"),
            Rules::Pork => (is_of_pig(), "of a pig"),
            Rules::PorkAndAlcohol if is_of_pig() => (true, "of a pig"),
            Rules::PorkAndAlcohol => (has_alcohol(), "alcoholic"),
        };
        is_out.then_some(what)
    }

    /// Whether it speaks of what an ingredient holds that nobody can see in its name.
    pub(super) fn asks_for_all(self) -> bool {
        matches!(self, Rules::Out(_) | Rules::AllAllergens | Rules::Animals | Rules::Flesh)
    }
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

/// Every text in which a recipe speaks of itself and its own parts, of those that may say what is asked. Cautions speak of what is there.
pub(super) fn told(recipe: &Recipe, may_say: impl Fn(&str) -> bool) -> Vec<Told> {
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
    let mut add = |text: &str, span: Span, is_cut: bool| {
        for sentence in sentences(text).iter().filter(|said| may_say(said)) {
            let sentence = if is_cut || is_of_serving(sentence) { before_what_is_beside(sentence) } else { sentence };
            all.push(Told { text: sentence.to_owned(), span, is_name: false });
        }
    };
    if let Some(said) = &recipe.sale.directions {
        add(&said.to_lowercase().replace(':', ";"), recipe.name.span, true);
    }
    let spoken = |kind: TextKind| matches!(kind, TextKind::Note | TextKind::Story);
    for text in recipe.texts.iter().chain(own().flat_map(|part| &part.texts)).filter(|text| spoken(text.kind)) {
        add(&plain(&text.words), text.span, false);
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
    for told in told(recipe, may_claim) {
        for (said, rules) in claimed(&told.text, told.is_name) {
            if !claims.iter().any(|claim| claim.said == said) {
                claims.push(Claim { said, rules, span: told.span });
            }
        }
    }
    claims
}

/// Without one of these, one of [`WORDS`] and one that ends in `free` a text claims nothing.
const CLAIMING: &[&str] = &["based", "without", "no", "non", "zero"];
/// Words by which something is for somebody.
const SUITABLE: &[&str] = &["suitable", "safe", "fine", "good", "fit", "friendly", "approved"];

fn may_claim(text: &str) -> bool {
    parted(text).any(|word| {
        word.ends_with("free")
            || CLAIMING.contains(&word)
            || is_coeliac(word)
            || WORDS.iter().any(|(known, _)| word.strip_prefix(known).is_some_and(|end| ["", "s"].contains(&end)))
    })
}

fn is_coeliac(word: &str) -> bool {
    ["coeliac", "celiac"].iter().any(|known| word.starts_with(known))
}

/// What it rules out to be free of something, by its word in either number.
fn named(word: &str) -> Option<Rules> {
    CLAIMS.iter().find(|(name, _)| word == *name || word.strip_suffix('s') == Some(name)).map(|(_, rules)| *rules)
}

/// What a name or a sentence claims, in lower case. In a note `without milk` may tell how to mix; in a name it is a claim.
pub(super) fn claimed(text: &str, is_name: bool) -> Vec<(String, Rules)> {
    // Nearly no text claims anything.
    if !may_claim(text) {
        return Vec::new();
    }
    let mut found = Vec::new();
    let words: Vec<&str> = parted(text).collect();
    // `Not gluten-free` and `can be made vegan` are no claims; in a name, `no egg` is one.
    const DENIES: &[&str] =
        &["not", "never", "can", "if", "only", "instead", "version", "variation", "variant", "alternative"];
    if words.iter().any(|word| DENIES.contains(word)) {
        return found;
    }
    let at = |at: Option<usize>| at.and_then(|at| words.get(at)).copied().unwrap_or("");
    if !is_name && words.contains(&"no") {
        let from = words.iter().position(|word| *word == "no").unwrap_or(0);
        if !is_said_of_all(&words, from) {
            return found;
        }
    }
    for (place, word) in words.iter().enumerate() {
        let (before, next) = (at(place.checked_sub(1)), at(Some(place + 1)));
        let is_for = || words.iter().take(place).rev().take(4).any(|word| *word == "for");
        if let Some((said, rules)) = WORDS.iter().find(|(known, _)| known == word)
            && !is_of_somebody(next)
            && !(*word == "kosher" && next == "salt")
        {
            found.push(((*said).to_owned(), *rules));
        }
        if let Some((said, rules)) = WORDS.iter().find(|(known, _)| word.strip_suffix('s') == Some(known))
            && is_for()
        {
            found.push((format!("for {said}s"), *rules));
        }
        if is_coeliac(word)
            && (SUITABLE.contains(&next) || is_for() && words.iter().take(place).any(|word| SUITABLE.contains(word)))
        {
            found.push(("for coeliacs".to_owned(), GLUTEN));
        }
        if *word == "based" && before == "plant" {
            found.push(("plant-based".to_owned(), Rules::Animals));
        }
        if let Some(rules) = word.strip_suffix("free").and_then(named) {
            found.push(((*word).to_owned(), rules));
        }
        if *word == "free"
            && let Some(rules) = named(before)
        {
            found.push((format!("{before}-free"), rules));
        }
        let is_made = || ["made", "is", "are", "baked"].contains(&before);
        let lists = (["without", "no", "non", "zero"].contains(word) && is_name)
            || *word == "no"
            || (*word == "without" && is_made())
            || (*word == "free" && ["from", "of"].contains(&next));
        if lists {
            let listed =
                words.iter().skip(place + 1).skip_while(|word| ["from", "of", "any", "added", "the"].contains(word));
            for listed in listed.take_while(|word| named(word).is_some() || JOINS.contains(word)) {
                found.extend(named(listed).map(|rules| (format!("without {listed}"), rules)));
            }
        }
    }
    found
}

/// Words between those of a list.
const JOINS: &[&str] = &["and", "or", "any", "no", "added"];

/// Whether `no` at a place of a sentence lists what is not in the food: `Contains no nuts`, `No nuts in it`; not `There is no milk left`.
fn is_said_of_all(words: &[&str], from: usize) -> bool {
    let before = from.checked_sub(1).and_then(|at| words.get(at)).copied().unwrap_or("");
    let behind = words.iter().skip(from).find(|word| named(word).is_none() && !JOINS.contains(word));
    let is_whole = behind.is_none_or(|word| ["in", "at", "whatever", "here", "used"].contains(word));
    let is_begun = from == 0 || ["contain", "contains", "has", "have", "holds", "is", "are", "uses"].contains(&before);
    is_begun && is_whole
}

/// Whether a word behind `vegan` is that of a person: `my vegan neighbour` claims nothing of a pie.
fn is_of_somebody(next: &str) -> bool {
    const PEOPLE: &[&str] = &[
        "neighbour",
        "neighbor",
        "friend",
        "guest",
        "customer",
        "sister",
        "brother",
        "daughter",
        "son",
        "cousin",
        "wife",
        "husband",
        "aunt",
        "uncle",
        "colleague",
        "baker",
        "cook",
        "people",
        "child",
        "children",
        "mother",
        "father",
    ];
    PEOPLE.iter().any(|known| next.strip_prefix(known).is_some_and(|end| ["", "s"].contains(&end)))
}

/// The words of a text in lower case, without what is set into it.
pub(super) fn plain(words: &[Words]) -> String {
    let texts = words.iter().filter_map(|word| match word {
        Words::Text(text) => Some(text.to_lowercase()),
        _ => None,
    });
    texts.collect::<Vec<_>>().join(" ")
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Findings of a trial; 'suitable for coeliacs' is a wording of Regulation (EU) 828/2014, from memory.
    #[test]
    fn a_claim_is_read_from_a_sentence_and_what_denies_it_is_none() {
        for (text, is_name, claims) in [
            ("contains no nuts.", false, true),
            ("no nuts in it.", false, true),
            ("suitable for vegans", false, true),
            ("suitable for vegetarians and vegans", false, true),
            ("safe for coeliacs.", false, true),
            ("coeliac-safe bar", true, true),
            ("our nut-free bar.", false, true),
            ("gluten free", true, true),
            ("bar, no dairy, no nuts", true, true),
            ("sugar-free biscuits", true, true),
            ("made without milk", false, true),
            ("there is no milk left over.", false, false),
            ("no egg wash on these.", false, false),
            ("not suitable for coeliacs.", false, false),
            ("my vegan neighbour loves it.", false, false),
            ("for a vegan version take oil.", false, false),
            ("mix without milk first.", false, false),
            ("free range", true, false),
            ("kosher salt caramels", true, false),
        ] {
            assert_eq!(!claimed(text, is_name).is_empty(), claims, "{text}");
        }
    }
}
