//! What an ingredient is: flour, water, salt, a yeast of some form, fat, egg and so on.
//!
//! It is decided once, when a recipe is resolved: by the `is …` line of its larder block, and where no block says, here from
//! its name. Checks, sums, labels and cautions ask the type; what a fat or an egg is besides, [`fat_and_egg`](super::fat_and_egg) says.

use crate::text::quick::QuickMap;
use std::fmt;
use std::sync::OnceLock;

/// A form of baker's yeast.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum YeastForm {
    /// Compressed.
    Fresh,
    /// Dry, to be dissolved first.
    ActiveDry,
    /// Dry, into the flour.
    InstantDry,
}

impl YeastForm {
    /// All of them.
    pub const ALL: [YeastForm; 3] = [YeastForm::Fresh, YeastForm::ActiveDry, YeastForm::InstantDry];

    /// As bakers call it.
    pub fn word(self) -> &'static str {
        match self {
            YeastForm::Fresh => "fresh yeast",
            YeastForm::ActiveDry => "active dry yeast",
            YeastForm::InstantDry => "instant yeast",
        }
    }
}

/// What an ingredient is. A part of a recipe is none of these, and neither is what nobody knows: both are [`Kind::Other`].
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default)]
pub enum Kind {
    /// Milled grain of which a dough is made; it counts as flour unless its block or its line says otherwise.
    Flour,
    /// Nearly pure starch, for thickening and dusting.
    Starch,
    /// Grain, flakes, bran, pasta.
    Grain,
    /// Something baked that goes into something else.
    Bread,
    /// Water.
    Water,
    /// Frozen water.
    Ice,
    /// Milk that is poured: whole, skimmed, buttermilk, whey.
    Milk,
    /// Another drink that is poured: beer, stock, coffee, the milk of a plant.
    Liquid,
    /// The juice of a fruit.
    Juice,
    /// A strong drink or liqueur, or an essence in one.
    Spirit,
    /// Vinegar.
    Vinegar,
    /// Salt in water, in which food is kept.
    Brine,
    /// Salt of any grain.
    Salt,
    /// Baker's yeast, and in which form, where that is said.
    Yeast(Option<YeastForm>),
    /// A levain, sourdough or other kept culture that raises a dough.
    Leaven,
    /// Baking powder.
    BakingPowder,
    /// Bicarbonate of soda.
    Soda,
    /// Another chemical that raises: ammonia, potash, cream of tartar.
    RaisingAgent,
    /// Dry sugar.
    Sugar,
    /// Sugar in water: syrup, honey, treacle.
    Syrup,
    /// Butter, oil, lard.
    Fat,
    /// Egg, white or yolk.
    Egg,
    /// What is made of milk and not poured like it: cream, cheese, yoghurt, milk powder.
    Dairy,
    /// Fruit, fresh, dried or as jam.
    Fruit,
    /// A vegetable.
    Vegetable,
    /// A nut, whole, ground or as a paste.
    Nut,
    /// A seed that is eaten like a nut.
    Seed,
    /// Beans, peas, lentils, and what is made of them.
    Pulse,
    /// A spice or herb.
    Spice,
    /// Cocoa and chocolate.
    Chocolate,
    /// Gelatine, pectin, gums.
    Thickener,
    /// Meat.
    Meat,
    /// Fish.
    Fish,
    /// Crustaceans and molluscs.
    Shellfish,
    /// Mustard, soy sauce and the like.
    Seasoning,
    /// Sodium hydroxide, for a glaze.
    Lye,
    /// None of these, or not known.
    #[default]
    Other,
}

/// Every kind with the word by which a larder says it.
const WORDS: &[(Kind, &str)] = &[
    (Kind::Flour, "flour"),
    (Kind::Starch, "starch"),
    (Kind::Grain, "grain"),
    (Kind::Bread, "bread"),
    (Kind::Water, "water"),
    (Kind::Ice, "ice"),
    (Kind::Milk, "milk"),
    (Kind::Liquid, "liquid"),
    (Kind::Juice, "juice"),
    (Kind::Spirit, "spirit"),
    (Kind::Vinegar, "vinegar"),
    (Kind::Brine, "brine"),
    (Kind::Salt, "salt"),
    (Kind::Yeast(None), "yeast"),
    (Kind::Yeast(Some(YeastForm::Fresh)), "fresh yeast"),
    (Kind::Yeast(Some(YeastForm::ActiveDry)), "active dry yeast"),
    (Kind::Yeast(Some(YeastForm::InstantDry)), "instant yeast"),
    (Kind::Leaven, "leaven"),
    (Kind::BakingPowder, "baking powder"),
    (Kind::Soda, "baking soda"),
    (Kind::RaisingAgent, "raising agent"),
    (Kind::Sugar, "sugar"),
    (Kind::Syrup, "syrup"),
    (Kind::Fat, "fat"),
    (Kind::Egg, "egg"),
    (Kind::Dairy, "dairy"),
    (Kind::Fruit, "fruit"),
    (Kind::Vegetable, "vegetable"),
    (Kind::Nut, "nut"),
    (Kind::Seed, "seed"),
    (Kind::Pulse, "pulse"),
    (Kind::Spice, "spice"),
    (Kind::Chocolate, "chocolate"),
    (Kind::Thickener, "thickener"),
    (Kind::Meat, "meat"),
    (Kind::Fish, "fish"),
    (Kind::Shellfish, "shellfish"),
    (Kind::Seasoning, "seasoning"),
    (Kind::Lye, "lye"),
    (Kind::Other, "other"),
];

impl fmt::Display for Kind {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.word())
    }
}

impl Kind {
    /// The word by which a larder says it, as in `is instant yeast`.
    pub fn word(self) -> &'static str {
        WORDS.iter().find(|(kind, _)| *kind == self).map_or("other", |(_, word)| word)
    }

    /// The words of all kinds.
    pub fn words() -> impl Iterator<Item = &'static str> {
        WORDS.iter().map(|(_, word)| *word)
    }

    /// The kind of that word, in lower case; `None` when there is none.
    pub fn from_word(word: &str) -> Option<Kind> {
        WORDS.iter().find(|(_, known)| *known == word).map(|(kind, _)| *kind)
    }

    /// Whether it is baker's yeast of any form.
    pub fn is_yeast(self) -> bool {
        matches!(self, Kind::Yeast(_))
    }

    /// The form of a yeast, where it is one and its form is known.
    pub fn yeast_form(self) -> Option<YeastForm> {
        match self {
            Kind::Yeast(form) => form,
            _ => None,
        }
    }

    /// Whether it ferments a dough: yeast or leaven.
    pub fn ferments(self) -> bool {
        self.is_yeast() || self == Kind::Leaven
    }

    /// Whether it raises by itself and not by living: baking powder, soda, ammonia.
    pub fn is_chemical_raising(self) -> bool {
        matches!(self, Kind::BakingPowder | Kind::Soda | Kind::RaisingAgent)
    }

    /// Whether it raises what it goes into, living or not.
    pub fn raises(self) -> bool {
        self.ferments() || self.is_chemical_raising()
    }

    /// Whether it is poured into a dough as its liquid: water, milk, beer. Ice, juice and spirits are not.
    pub fn is_poured(self) -> bool {
        matches!(self, Kind::Water | Kind::Milk | Kind::Liquid)
    }

    /// Whether it runs: all that is poured, juice, spirits and vinegar.
    pub fn is_liquid(self) -> bool {
        self.is_poured() || matches!(self, Kind::Juice | Kind::Spirit | Kind::Vinegar)
    }

    /// Whether it sweetens: dry sugar or syrup.
    pub fn is_sweet(self) -> bool {
        matches!(self, Kind::Sugar | Kind::Syrup)
    }

    /// Whether it is of a killed animal.
    pub fn is_flesh(self) -> bool {
        matches!(self, Kind::Meat | Kind::Fish | Kind::Shellfish)
    }

    /// What a name tells, for an ingredient of which no larder says it; [`Kind::Other`] where it tells nothing.
    ///
    /// English puts the thing last: `sea salt` is salt and `salt cod` is not. What stands behind ` for ` says only what it is
    /// for.
    pub fn of_name(name: &str) -> Kind {
        let name = name.split_once(" for ").map_or(name, |(what, _)| what);
        let words: Vec<&str> = name.split(' ').filter(|word| !word.is_empty()).collect();
        // What burns is told wherever the word stands: `lye bath`.
        if words.iter().any(|word| ["lye", "caustic", "naoh"].contains(word)) || name.contains("sodium hydroxide") {
            return Kind::Lye;
        }
        let rule = likely_rules(&words).find(|rule| rule.fits(&words));
        match rule.map_or(Kind::Other, |rule| rule.kind) {
            Kind::Yeast(None) => Kind::Yeast(form_in(&words)),
            kind => kind,
        }
    }
}

/// The rules of which an end has the last word of a name, in their order: a handful of more than a thousand ends.
fn likely_rules(words: &[&str]) -> impl Iterator<Item = &'static Rule> {
    static BY_LAST_WORD: OnceLock<QuickMap<&'static str, Vec<usize>>> = OnceLock::new();
    let by_last_word = BY_LAST_WORD.get_or_init(|| {
        let mut by_last_word: QuickMap<&'static str, Vec<usize>> = QuickMap::default();
        for (number, rule) in RULES.iter().enumerate() {
            for last in rule.ends.iter().filter_map(|end| end.split(' ').next_back()) {
                by_last_word.entry(last).or_default().push(number);
            }
        }
        by_last_word
    });
    let last = words.last().copied().unwrap_or("");
    let ends = [Some(last), last.strip_suffix('s')];
    let mut numbers: Vec<usize> =
        ends.into_iter().flatten().filter_map(|last| by_last_word.get(last)).flatten().copied().collect();
    numbers.sort_unstable();
    numbers.into_iter().filter_map(|number| RULES.get(number))
}

/// Which form of yeast the words before `yeast` say. A larder calls dried yeast the kind to be dissolved first.
fn form_in(words: &[&str]) -> Option<YeastForm> {
    const FORMS: &[(YeastForm, &[&str])] = &[
        (
            YeastForm::InstantDry,
            &["instant", "fast-action", "fast", "rapid-rise", "rapid", "quick", "osmotolerant", "idy"],
        ),
        (YeastForm::ActiveDry, &["active", "dry", "dried", "ady"]),
        (YeastForm::Fresh, &["fresh", "compressed", "cake", "block", "baker's", "bakers'"]),
    ];
    FORMS.iter().find(|(_, said)| words.iter().any(|word| said.contains(word))).map(|(form, _)| *form)
}

/// What the end of a name tells.
struct Rule {
    kind: Kind,
    /// Ends of names, of one word or of several.
    ends: &'static [&'static str],
    /// Words anywhere before the end with which it is something else.
    unless: &'static [&'static [&'static str]],
}

const fn rule(kind: Kind, ends: &'static [&'static str], unless: &'static [&'static [&'static str]]) -> Rule {
    Rule { kind, ends, unless }
}

impl Rule {
    fn fits(&self, words: &[&str]) -> bool {
        let Some(last) = words.last() else { return false };
        let singular = last.strip_suffix('s').unwrap_or(last);
        // Nearly all ends are told to be others by their last letters, without taking them apart.
        let mut likely = self.ends.iter().filter(|end| end.ends_with(last) || end.ends_with(singular));
        likely.any(|end| {
            let mut before = words.iter().rev();
            let mut is_next =
                |end: &str| before.next().is_some_and(|word| *word == end || word.strip_suffix('s') == Some(end));
            end.split(' ').rev().all(&mut is_next)
                && !before.any(|word| self.unless.iter().any(|words| words.contains(word)))
        })
    }
}

/// Plants, and what is called after them, whose `milk`, `butter`, `cream` and `cheese` are not of milk.
pub(crate) const PLANTS: &[&str] = &[
    "cocoa",
    "coconut",
    "almond",
    "soy",
    "soya",
    "oat",
    "rice",
    "cashew",
    "hemp",
    "hazelnut",
    "pea",
    "plant",
    "vegan",
    "nut",
    "peanut",
    "pistachio",
    "walnut",
    "sunflower",
    "sesame",
    "seed",
];
/// Milk that is not poured as it comes.
const DRY: &[&str] = &["powder", "powdered", "dried", "dry", "condensed", "evaporated", "malted"];
const DEAD_YEAST: &[&str] = &["nutritional", "brewer's", "brewers", "brewers'", "inactive", "deactivated", "savoury"];
const NOT_DOUGH: &[&str] =
    &["yogurt", "yoghurt", "kefir", "cheese", "buttermilk", "skyr", "tempeh", "kombucha", "fire"];

/// The first rule that fits counts.
const RULES: &[Rule] = &[
    rule(Kind::Nut, &["almond flour", "hazelnut flour", "coconut flour", "chestnut flour"], &[]),
    rule(Kind::Flour, &["flour"], &[]),
    rule(Kind::Starch, &["starch", "cornflour", "cornstarch"], &[]),
    rule(
        Kind::Salt,
        &["salt", "fleur de sel", "sel gris", "gros sel", "salt flake", "salt crystal"],
        &[&["lye", "epsom", "salt-free", "bath"]],
    ),
    rule(Kind::Other, &["yeast extract", "yeast spread"], &[]),
    rule(Kind::Yeast(None), &["yeast"], &[DEAD_YEAST]),
    rule(
        Kind::Leaven,
        &["starter", "levain", "leaven", "sourdough", "culture", "barm", "lievito madre", "desem"],
        &[NOT_DOUGH],
    ),
    rule(Kind::Leaven, &["sourdough discard", "starter discard", "levain discard"], &[NOT_DOUGH]),
    rule(Kind::BakingPowder, &["baking powder"], &[]),
    rule(
        Kind::Soda,
        &["baking soda", "bicarbonate", "bicarbonate of soda", "bicarb", "saleratus"],
        &[&["ammonium", "potassium"]],
    ),
    rule(
        Kind::RaisingAgent,
        &["ammonia", "ammonium bicarbonate", "hartshorn", "potash", "pearlash", "cream of tartar"],
        &[],
    ),
    rule(
        Kind::Liquid,
        &["rose water", "rosewater", "blossom water", "flower water", "coconut water", "soda water"],
        &[],
    ),
    rule(Kind::Liquid, &["tonic water", "sparkling water", "sea water", "barley water", "salt water"], &[]),
    rule(Kind::Water, &["water"], &[]),
    rule(Kind::Ice, &["ice", "ice cube", "crushed ice"], &[&["dry"]]),
    rule(
        Kind::Dairy,
        &["milk powder", "dry milk", "dried milk", "condensed milk", "evaporated milk", "powdered milk"],
        &[PLANTS],
    ),
    rule(Kind::Milk, &["milk", "buttermilk", "whey", "kefir"], &[PLANTS, DRY]),
    rule(Kind::Liquid, &["milk"], &[DRY]),
    rule(
        Kind::Liquid,
        &["beer", "ale", "stout", "lager", "cider", "wine", "stock", "broth", "coffee", "tea", "oat drink"],
        &[&["instant", "ground", "whole"]],
    ),
    rule(Kind::Juice, &["juice"], &[]),
    rule(Kind::Spirit, &["rum", "brandy", "cognac", "whisky", "whiskey", "vodka", "gin", "liqueur", "kirsch"], &[]),
    rule(Kind::Spirit, &["extract", "essence"], &[&["malt", "yeast", "meat", "beef"]]),
    rule(Kind::Vinegar, &["vinegar"], &[]),
    rule(Kind::Brine, &["brine"], &[]),
    rule(
        Kind::Syrup,
        &["honey", "syrup", "molasses", "treacle", "nectar", "malt extract", "glucose", "invert sugar"],
        &[],
    ),
    rule(Kind::Sugar, &["sugar", "jaggery", "dextrose", "fructose", "glucose powder", "muscovado", "panela"], &[]),
    rule(
        Kind::Nut,
        &["peanut butter", "almond butter", "cashew butter", "hazelnut butter", "nut butter", "almond paste"],
        &[],
    ),
    rule(Kind::Fruit, &["apple butter", "pumpkin butter", "fruit butter", "plum butter"], &[]),
    rule(Kind::Spice, &["orange oil", "lemon oil", "peppermint oil", "essential oil"], &[]),
    rule(
        Kind::Fat,
        &["butter", "oil", "lard", "margarine", "shortening", "suet", "ghee", "dripping", "tallow", "fat", "schmaltz"],
        &[],
    ),
    rule(Kind::Egg, &["egg", "yolk", "egg white", "egg wash", "egg powder"], &[&["vegan", "chocolate", "plant"]]),
    rule(
        Kind::Dairy,
        &[
            "cream",
            "yogurt",
            "yoghurt",
            "cheese",
            "quark",
            "skyr",
            "mascarpone",
            "ricotta",
            "creme fraiche",
            "crème fraîche",
        ],
        &[PLANTS],
    ),
    rule(
        Kind::Dairy,
        &["cheddar", "parmesan", "feta", "mozzarella", "gouda", "gruyere", "gruyère", "emmental"],
        &[PLANTS],
    ),
    rule(Kind::Bread, &["bread", "breadcrumb", "crumb", "biscuit", "cracker"], &[]),
    rule(Kind::Thickener, &["gelatine", "gelatin", "agar", "pectin", "xanthan", "gum"], &[&["chewing"]]),
    rule(Kind::Chocolate, &["chocolate", "cocoa", "chocolate chip"], &[&["hot"]]),
    rule(
        Kind::Nut,
        &["almond", "hazelnut", "walnut", "pecan", "cashew", "pistachio", "peanut", "nut", "macadamia"],
        &[],
    ),
];

#[cfg(test)]
mod tests {
    use super::*;

    fn kinds(names: &[&str], kind: Kind) {
        for name in names {
            assert_eq!(Kind::of_name(name), kind, "{name}");
        }
    }

    #[test]
    fn the_last_words_of_a_name_say_what_it_is() {
        kinds(
            &["salt", "sea salt", "kosher salt", "coarse grey salt", "salt for the water", "flaky salts"],
            Kind::Salt,
        );
        kinds(&["salt cod", "salted caramel", "nutritional yeast", "yeast extract", "ice cream bar"], Kind::Other);
        kinds(&["water", "warm water", "ice cold water", "water for the tin"], Kind::Water);
        kinds(&["coconut water", "rose water", "oat milk", "brown ale"], Kind::Liquid);
        kinds(&["warm milk", "goat milk", "buttermilk"], Kind::Milk);
        kinds(&["brine", "caper brine", "brine for the jar"], Kind::Brine);
        kinds(&["milk powder", "condensed milk", "blue cheese"], Kind::Dairy);
        kinds(&["rye sourdough starter", "levain", "sourdough discard"], Kind::Leaven);
        kinds(&["yoghurt starter", "sourdough bagels", "cheese culture"], Kind::Other);
        kinds(&["brown butter", "rapeseed oil", "lard"], Kind::Fat);
        kinds(&["peanut butter", "almond flour"], Kind::Nut);
        kinds(&["beaten eggs", "egg yolks", "egg white"], Kind::Egg);
        kinds(&["lye bath", "caustic soda", "food-grade lye for the dip"], Kind::Lye);
        kinds(&["chestnut-coloured glaze", "eggplant", "egg noodles"], Kind::Other);
    }

    #[test]
    fn a_yeast_says_its_form() {
        let form = |name: &str| Kind::of_name(name).yeast_form();
        assert_eq!(form("fast-action yeast"), Some(YeastForm::InstantDry));
        assert_eq!(form("instant dry yeast"), Some(YeastForm::InstantDry));
        assert_eq!(form("dried yeast"), Some(YeastForm::ActiveDry));
        assert_eq!(form("crumbled fresh yeast"), Some(YeastForm::Fresh));
        assert_eq!(form("yeast"), None);
        assert!(Kind::of_name("yeast").is_yeast());
    }

    #[test]
    fn every_kind_has_its_own_word() {
        for (kind, word) in WORDS {
            assert_eq!(Kind::from_word(word), Some(*kind), "{word}");
            assert_eq!(kind.word(), *word);
        }
    }
}
