//! Plants that are poison: some until they are cooked, others whatever is done to them.

use super::CHECK;
use crate::check::statement::{self, RAW_FLOUR_OR_EGG};
use crate::model::cooking::state::is_so;
use crate::model::cooking::state_words::State;
use crate::model::cooking::{Later, first_draws};
use crate::model::kind::Kind;
use crate::model::lowered::{Beginnings, beginnings};
use crate::model::recipe::{Ingredient, Part, PartId, Recipe, Refers};
use crate::model::step::Target;
use crate::text::diagnostic::Diagnostic;
use crate::text::words::words_with_hyphens;

/// Plants of one poison, by beginnings of words of their names, behind what is in them.
type Poison = (&'static str, &'static Beginnings);

/// Plants that are eaten only cooked, behind what is in them while they are raw.
///
/// CDC, MMWR 33 (13), 1984, on juice of raw elderberries; FSANZ, Cassava and bamboo shoots, 2005; all from memory.
const UNTIL_COOKED: &[Poison] = &[
    ("what frees cyanide, and makes people sick", beginnings!["elderberr"]),
    ("what frees cyanide", beginnings!["cassava", "manioc", "yuca|", "yucas|", "bamboo shoot"]),
    // Tarocco is an orange.
    ("sharp crystals that burn the throat", beginnings!["taro|", "taros|"]),
    ("what makes people sick (Health Canada and FDA: boil them, from memory)", beginnings!["fiddlehead"]),
    ("hypoglycin, which takes the sugar from the blood", beginnings!["ackee"]),
    (
        "phasin, which ten minutes of boiling take away (BfR, from memory)",
        beginnings![
            "green bean",
            "french bean",
            "runner bean",
            "string bean",
            "haricots vert",
            "haricot vert",
            "fine bean",
            "flat bean"
        ],
    ),
    (
        "what makes people sick, and has killed (FDA and CDC on morels of 2023, from memory)",
        beginnings!["morel|", "morels|"],
    ),
    (
        "bitter alkaloids, which days of water and boiling take away",
        beginnings!["lupin seed", "lupin bean", "lupini", "bitter lupin"],
    ),
    ("what makes people sick", beginnings!["pokeweed", "poke sallet", "poke salad"]),
];
/// Words of names by which it is another thing made of it.
const MADE: &[&str] = &[
    "flour",
    "starch",
    "cordial",
    "syrup",
    "jam",
    "jelly",
    "wine",
    "juice",
    "liqueur",
    "vinegar",
    "powder",
    "crisps",
    "chips",
    "pearls",
    "extract",
    "brined",
    "pickled",
    "fermented",
    "sweet",
];

/// Plants that are poison whatever is done to them. Leaves are named in full: of rhubarb and tomato there is a leather.
///
/// EFSA and Regulation (EU) 2017/1237 on apricot kernels, the rest as poison centres list it; all from memory.
const ALWAYS: &[Poison] = &[
    ("oxalic acid, and what harms the kidneys", beginnings!["rhubarb leaf", "rhubarb leaves"]),
    (
        "what frees cyanide",
        beginnings!["bitter almond", "apricot kernel", "apricot stone", "peach kernel", "plum kernel", "cherry kernel",],
    ),
    (SOLANINE, beginnings!["potato sprout", "potato leaf", "potato leaves"]),
    ("tomatine", beginnings!["tomato leaf", "tomato leaves"]),
    ("taxine, which stops the heart", beginnings!["yew|", "yews|"]),
    ("cytisine", beginnings!["laburnum"]),
    ("digitalis, which stops the heart", beginnings!["foxglove"]),
    ("what stops the heart", beginnings!["lily of the valley", "lily-of-the-valley", "oleander"]),
    ("aconitine", beginnings!["monkshood", "aconite", "wolfsbane"]),
    ("atropine", beginnings!["nightshade", "belladonna", "thorn apple", "datura"]),
    ("colchicine", beginnings!["autumn crocus", "meadow saffron"]),
    ("lycorine", beginnings!["daffodil", "narcissus"]),
    ("coniine", beginnings!["poison hemlock"]),
    ("cicutoxin", beginnings!["water hemlock"]),
    ("ricin", beginnings!["castor bean", "castor seed"]),
    ("saponins", beginnings!["holly berr", "ivy berr"]),
    ("viscotoxins", beginnings!["mistletoe"]),
    ("amatoxins", beginnings!["death cap"]),
    ("muscimol", beginnings!["fly agaric", "panther cap"]),
    ("amatoxins", beginnings!["destroying angel", "funeral bell"]),
    ("orellanine, which harms the kidneys", beginnings!["webcap"]),
    ("gyromitrin, which boiling does not wholly take away", beginnings!["false morel", "gyromitra", "brain mushroom"]),
    (
        "what frees cyanide",
        beginnings!["elder leaf", "elder leaves", "elderberry leaf", "elderberry leaves", "elder bark", "hydrangea"],
    ),
    ("coniine", beginnings!["hemlock|"]),
    ("hyoscyamine", beginnings!["henbane", "mandrake", "jimson"]),
    ("alkaloids that stop the heart", beginnings!["delphinium", "larkspur", "hellebore"]),
    ("grayanotoxin", beginnings!["rhododendron", "azalea"]),
    ("abrin", beginnings!["rosary pea"]),
    (
        "pyrrolizidine alkaloids, which harm the liver (FDA, 2001, and EFSA, 2017; from memory)",
        beginnings!["comfrey", "ragwort", "coltsfoot"],
    ),
    (
        "safrole, which the law of the United States forbids in food (21 CFR 189.180, from memory)",
        beginnings!["sassafras root", "sassafras bark", "sassafras tea", "sassafras|"],
    ),
    (
        "tetrodotoxin, which only who is licensed cuts away",
        beginnings!["fugu", "pufferfish", "puffer fish", "blowfish"],
    ),
];
/// What is in green potatoes and their sprouts.
const SOLANINE: &str = "solanine, which boiling leaves";
/// Of sassafras the leaves hold next to nothing of it.
const LEAVES: &Beginnings = &Beginnings::of(&["sassafras leaf", "sassafras leaves", "ground sassafras leaves"]);
/// Words by which it is made of something else, or only tastes of it: sweet kernels, and what is bought as a flavour without its poison.
#[rustfmt::skip]
const HARMLESS: &[&str] = &["sweet", "sugar", "marzipan", "paper", "wafer", "icing", "fondant", "chocolate", "extract", "essence", "oil", "flavour", "flavouring", "aroma",
    "liqueur", "syrup", "jam", "colour", "free",
];

/// What of a line is poison until it is cooked, where it is not called so.
fn raw_poison(line: &Ingredient) -> Option<&'static str> {
    let name = line.name.key.as_str();
    let (holds, _) = UNTIL_COOKED.iter().find(|(_, plants)| line.name.has_word_beginning(plants))?;
    let is_made = || is_so(line, State::Cooked) || words_with_hyphens(name).any(|word| MADE.contains(&word));
    let says_made = || {
        let said = line.preparation.as_deref().unwrap_or_default().to_lowercase();
        words_with_hyphens(&said).any(|word| ["brined", "pickled", "fermented", "blanched", "jarred"].contains(&word))
    };
    // What is poison cooked or not is told as that.
    let is_told = || poison(line).is_some();
    (matches!(line.refers, Refers::Pantry(_)) && !is_made() && !says_made() && !is_told()).then_some(holds)
}

/// What of a line is poison, cooked or not.
fn poison(line: &Ingredient) -> Option<&'static str> {
    // Most lines are of these, and a recipe has many lines.
    let is_harmless = matches!(line.kind, Kind::Flour | Kind::Salt | Kind::Sugar | Kind::Yeast(_) | Kind::Egg);
    if is_harmless || !matches!(line.refers, Refers::Pantry(_)) {
        return None;
    }
    let name = line.name.key.as_str();
    let listed = || ALWAYS.iter().find(|(_, plants)| line.name.has_word_beginning(plants)).map(|(holds, _)| *holds);
    let is_green = || line.name.has_word_beginning(beginnings!["potato"]) && is_green_potato(line, name);
    let found = listed().or_else(|| is_green().then_some(SOLANINE))?;
    let is_harmless =
        words_with_hyphens(name).any(|word| HARMLESS.contains(&word)) || line.name.has_word_beginning(LEAVES);
    (!is_harmless).then_some(found)
}

/// Words by which what is green or sprouts was cut away.
const TAKEN_OFF: &[&str] = &[
    "no",
    "not",
    "never",
    "without",
    "cut",
    "off",
    "away",
    "out",
    "removed",
    "trimmed",
    "discarded",
    "none",
    "peeled",
];
/// What may stand behind `green` that is said of a potato itself.
const BEHIND: &[&str] =
    &["ones", "too", "skin", "skins", "parts", "spots", "potato", "potatoes", "and", "or", "patches"];

/// Potatoes that are green or sprout, by their name or what is said of them: not `green parts cut away`.
fn is_green_potato(line: &Ingredient, name: &str) -> bool {
    if !words_with_hyphens(name).any(|word| ["potato", "potatoes"].contains(&word)) {
        return false;
    }
    let said = line.preparation.as_deref().unwrap_or_default().to_lowercase();
    let is = |text: &str| {
        let all: Vec<&str> = words_with_hyphens(text).collect();
        let is_taken_off = all.iter().any(|word| TAKEN_OFF.contains(word));
        let is_green = |at: usize| all.get(at + 1).is_none_or(|next| BEHIND.contains(next));
        let tells = |(at, word): (usize, &&str)| match *word {
            "green" | "greened" => is_green(at),
            "sprouts" | "sprouting" | "sprouted" => true,
            _ => false,
        };
        !is_taken_off && all.iter().enumerate().any(tells)
    };
    is(name) || is(&said)
}

/// What of a part is poison as long as it is raw, and is never cooked.
pub(super) fn never_cooked(recipe: &Recipe, (id, part): (PartId, &Part), later: &mut Later<'_>) -> Vec<Diagnostic> {
    let poisons = part.lines.iter().enumerate().filter_map(|(at, line)| Some((at, line, raw_poison(line)?)));
    let is_raw = |(at, line, _): &(usize, &Ingredient, &str)| {
        let is_said = || statement::states_of((recipe, part), RAW_FLOUR_OR_EGG, Some(line));
        let step = first_draws(part).get(&Target::Line(*at)).copied();
        step.is_some_and(|step| later.is_line_cooked(id, step, *at) == Some(false)) && !is_said()
    };
    let told = |(_, line, poison): (usize, &Ingredient, &str)| {
        let message = format!("`{}` is never cooked: raw it holds {poison}", line.name);
        Diagnostic::advice(CHECK.name, line.name.span, message).help(
            "boil it before it is eaten or pressed; where it is cooked before it comes here, say so behind it, `cooked`; local food law goes before this",
        )
    };
    poisons.filter(is_raw).map(told).collect()
}

/// What of a part nobody eats, raw or cooked.
pub(super) fn never_eaten(part: &Part) -> impl Iterator<Item = Diagnostic> {
    let poisons =
        part.lines.iter().filter(|line| line.stays_in() || !line.aside).filter_map(|line| Some((line, poison(line)?)));
    poisons.map(|(line, holds)| {
        let message = format!("`{}` is nothing to eat: it holds {holds}", line.name);
        Diagnostic::advice(CHECK.name, line.name.span, message)
            .help("leave it out; health authorities and local food law go before this")
    })
}
