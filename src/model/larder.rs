//! What is known of ingredients: weights, water, fat, allergens, each with its source.

use crate::language::syntax::Key;
use crate::measure::number::Number;
use crate::measure::quantity::{Density, Mass, Proportion};
use crate::measure::unit::{Dimension, Unit};
use crate::model::kind::Kind;
use crate::text::source::Span;
use std::collections::{BTreeSet, HashMap};
use std::sync::Arc;

mod answers;
mod begun;
pub mod builtin;
mod flags;
mod forms;
pub mod pantry;
mod staff;

use answers::Answers;
pub use answers::Described;
use begun::Begun;
pub use flags::Flags;
use forms::{forms, unprepared};

/// The word in a `contains` line that says that no allergen is in it.
pub const NOTHING: &str = "nothing";

/// No food is called by more words than this; a name as long as a file is looked at no further.
pub const MOST_WORDS: usize = 8;

/// What an ingredient costs.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Price {
    /// How much money.
    pub amount: Number,
    /// For so many of the unit.
    pub number: Number,
    /// By weight, by volume or by the piece.
    pub unit: Unit,
    /// The name of the money, if said.
    pub currency: Option<String>,
    /// Of which day it is, if said.
    pub on: Option<jiff::civil::Date>,
    /// Where it was said.
    pub span: Span,
}

/// What an ingredient consists of, as far as that is known.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Contents {
    /// Share of water.
    pub water: Option<Proportion>,
    /// Share of fat.
    pub fat: Option<Proportion>,
    /// Share of salt (sodium as salt).
    pub salt: Option<Proportion>,
    /// Share of sugar.
    pub sugar: Option<Proportion>,
    /// Share of protein.
    pub protein: Option<Proportion>,
    /// Share of carbohydrate.
    pub carbohydrate: Option<Proportion>,
    /// Share of fibre.
    pub fibre: Option<Proportion>,
    /// Share of acid (vinegar).
    pub acid: Option<Proportion>,
    /// Kilocalories in 100 g.
    pub energy: Option<Number>,
    /// Share of saturated fat.
    pub saturates: Option<Proportion>,
    /// Share of trans fat.
    pub trans_fat: Option<Proportion>,
    /// Share of sugar that was added to it, as 21 CFR 101.9(c)(6)(iii) counts it.
    pub added_sugar: Option<Proportion>,
    /// Share of polyols, which `carbohydrate` holds.
    pub polyols: Option<Proportion>,
    /// Share of alcohol by weight.
    pub alcohol: Option<Proportion>,
    /// By what the nitrogen was multiplied for `protein`.
    pub nitrogen_factor: Option<Number>,
    /// Milligrams in 100 g.
    pub cholesterol: Option<Number>,
    /// Micrograms in 100 g.
    pub vitamin_d: Option<Number>,
    /// Milligrams in 100 g.
    pub calcium: Option<Number>,
    /// Milligrams in 100 g.
    pub iron: Option<Number>,
    /// Milligrams in 100 g.
    pub potassium: Option<Number>,
}

impl Contents {
    /// These, with what they leave open taken from `under`.
    fn over(self, under: Contents) -> Contents {
        let same = |own: Option<Proportion>, other: Option<Proportion>| own.is_none() || own == other;
        let same_protein = same(self.protein, under.protein);
        Contents {
            water: self.water.or(under.water),
            fat: self.fat.or(under.fat),
            salt: self.salt.or(under.salt),
            sugar: self.sugar.or(under.sugar),
            protein: self.protein.or(under.protein),
            carbohydrate: self.carbohydrate.or(under.carbohydrate),
            fibre: self.fibre.or(under.fibre),
            acid: self.acid.or(under.acid),
            energy: self.energy.or(under.energy),
            // Figures that hang on another go with it: a cream of 48 % has as many more saturates than one of 36 % as it has fat.
            saturates: self.saturates.or(in_step(under.saturates, self.fat, under.fat)),
            trans_fat: self.trans_fat.or(in_step(under.trans_fat, self.fat, under.fat)),
            added_sugar: self.added_sugar.or(in_step(under.added_sugar, self.sugar, under.sugar)),
            polyols: self.polyols.or(under.polyols),
            alcohol: self.alcohol.or(under.alcohol),
            nitrogen_factor: self.nitrogen_factor.or(under.nitrogen_factor.filter(|_| same_protein)),
            cholesterol: self.cholesterol.or(under.cholesterol),
            vitamin_d: self.vitamin_d.or(under.vitamin_d),
            calcium: self.calcium.or(under.calcium),
            iron: self.iron.or(under.iron),
            potassium: self.potassium.or(under.potassium),
        }
    }
}

/// A share that goes with another, where that other is said anew: to the millionth. Where there was none of it, it is not known.
fn in_step(part: Option<Proportion>, now: Option<Proportion>, before: Option<Proportion>) -> Option<Proportion> {
    let (Some(part), Some(now)) = (part, now) else { return part };
    let before = before?;
    if now == before {
        return Some(part);
    }
    let scaled = part.value().times(now.value()).and_then(|all| all.over(before.value()));
    scaled.and_then(|share| share.rounded_to(Number::constant(1, 1_000_000))).ok().map(Proportion::new)
}

/// What is known of one ingredient. A fact that is `None` is not known; nothing is guessed.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Facts {
    /// Its main name.
    pub name: String,
    /// Grams per millilitre as it is measured in the kitchen.
    pub density: Option<Density>,
    /// What one weighs.
    pub one_weighs: Option<Mass>,
    /// What it consists of.
    pub contents: Contents,
    /// Edible share of what is bought.
    pub edible: Option<Proportion>,
    /// What it is, if said.
    pub kind: Option<Kind>,
    /// Allergens it contains, in the words of the law.
    pub allergens: Vec<String>,
    /// Allergens of which its own pack says that it may hold traces.
    pub traces: Vec<String>,
    /// Whether allergens were stated at all, or the block only gives other facts.
    pub knows_allergens: bool,
    /// Whether it counts as flour, if said.
    pub flour: Option<bool>,
    /// What holds of it or does not.
    pub flags: Flags,
    /// How a shop sells it, if said.
    pub sold: Option<Sold>,
    /// Where in a shop it is found.
    pub section: Option<String>,
    /// What it costs.
    pub price: Option<Price>,
    /// How it stands in a list of ingredients, where its name is none that the law knows.
    pub listed: Option<String>,
    /// The list of ingredients on its own pack.
    pub consists: Option<String>,
    /// Where the figures come from.
    pub sources: Vec<String>,
}

/// What weighs less is not counted in a shop: raspberries, cherries, cloves of garlic. Common practice, no source.
const LEAST_COUNTED: Mass = Mass::new(Number::whole(20));

/// How a shop sells something.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Sold {
    /// In bottles and cartons.
    ByTheLitre,
    /// By number.
    ByThePiece,
    /// By weight, as most things.
    ByWeight,
}

impl Facts {
    /// The same of what goes in with peel and core, as it is bought: nothing is cut away, and one weighs so much more. `None` where nothing
    /// is known to be.
    pub fn as_whole(&self) -> Option<Facts> {
        let edible = self.edible.filter(|share| share.value().is_positive() && *share < Proportion::WHOLE)?;
        let one_weighs = self.one_weighs.map(|one| one.over(edible.value())).transpose().ok()?;
        Some(Facts { one_weighs, edible: None, ..self.clone() })
    }

    /// How a shop sells it: as is said; else what is poured, juice, spirits and vinegar by the litre, and eggs, fruit and vegetables that
    /// are known one by one by the piece; nobody counts raspberries. Butter has a piece weight too, that of an American stick, which says
    /// nothing elsewhere.
    pub fn sold(&self) -> Sold {
        // Of an egg the yolk too: who buys it opens so many.
        let is_counted = self.one_weighs.is_some_and(|one| {
            self.flags.raw_egg || one >= LEAST_COUNTED && self.section.as_deref() == Some("produce")
        });
        self.sold.unwrap_or(if self.kind.is_some_and(Kind::is_liquid) {
            Sold::ByTheLitre
        } else if is_counted {
            Sold::ByThePiece
        } else {
            Sold::ByWeight
        })
    }

    /// These facts, with what they leave open taken from `under`.
    ///
    /// Allergens add up: a file that gives a price for milk does not make it free of milk.
    pub(crate) fn over(self, under: &Facts) -> Facts {
        let mut allergens = self.allergens;
        for allergen in &under.allergens {
            if !allergens.iter().any(|known| known.eq_ignore_ascii_case(allergen)) {
                allergens.push(allergen.clone());
            }
        }
        let mut traces = self.traces;
        for trace in &under.traces {
            if !traces.iter().any(|known| known.eq_ignore_ascii_case(trace)) {
                traces.push(trace.clone());
            }
        }
        let mut sources = self.sources;
        sources.extend(under.sources.iter().cloned());
        Facts {
            name: self.name,
            density: self.density.or(under.density),
            one_weighs: self.one_weighs.or(under.one_weighs),
            contents: self.contents.over(under.contents),
            edible: self.edible.or(under.edible),
            kind: self.kind.or(under.kind),
            allergens,
            traces,
            knows_allergens: self.knows_allergens || under.knows_allergens,
            flour: self.flour.or(under.flour),
            flags: self.flags.and(under.flags),
            sold: self.sold.or(under.sold),
            section: self.section.or_else(|| under.section.clone()),
            price: self.price.or_else(|| under.price.clone()),
            listed: self.listed.or_else(|| under.listed.clone()),
            consists: self.consists.or_else(|| under.consists.clone()),
            sources,
        }
    }
}

impl Facts {
    /// What one weighs on the shelf: what the larder says is its edible part, and it is the same piece whatever a recipe cuts off it.
    pub fn one_as_bought(&self) -> Option<Mass> {
        let edible = self.edible.filter(|share| share.value().is_positive()).unwrap_or(Proportion::WHOLE);
        self.one_weighs?.over(edible.value()).ok()
    }

    /// What a gram costs, as it is bought. `None` without a price, or where nobody says what so many pieces or so much of a volume weigh.
    pub fn price_of_a_gram(&self) -> Option<Number> {
        let price = self.price.as_ref()?;
        let one = match price.unit {
            // Its peel is paid for.
            Unit::Piece => self.one_as_bought()?.value(),
            unit if unit.dimension() == Dimension::Mass => unit.size(None)?,
            unit => unit.size(None)?.times(self.density?.value()).ok()?,
        };
        price.amount.over(one.times(price.number).ok()?).ok()
    }
}

/// Names to facts. The built-in larder lies under what used files say.
#[derive(Debug, Clone, Default)]
pub struct Larder {
    own: HashMap<Key, Arc<Facts>>,
    /// For each block that the program brings, what the baker's own files lay over it.
    over: HashMap<usize, Vec<Arc<Facts>>>,
    /// How the names begin that used files describe.
    begun: Begun,
    /// What was found under names before.
    answers: Answers,
}

/// Whether the larder that the program brings has just this name.
pub(crate) fn brought(name: &Key) -> bool {
    builtin::find(name.as_str()).is_some()
}

/// Every entry of the larder that the program brings.
pub fn brought_entries() -> impl Iterator<Item = Arc<Facts>> {
    builtin::all()
}

/// The names in the larder that the program brings.
pub(crate) fn brought_names() -> impl Iterator<Item = &'static str> {
    builtin::names()
}

impl Larder {
    /// A larder that holds only what the program brings.
    pub fn new() -> Larder {
        Larder::default()
    }

    /// Takes in facts from a used file under all their names.
    pub fn add(&mut self, facts: Facts, names: &[Key]) {
        // Another name of the block may be the one that the larder below knows.
        let under = names.iter().find_map(|name| self.look_up(name.as_str()));
        self.answers = Answers::default();
        let facts = Arc::new(match under {
            Some(under) => facts.over(&under),
            None => facts,
        });
        let below: BTreeSet<usize> =
            names.iter().filter_map(|name| forms(name.as_str()).find_map(|form| builtin::number(&form))).collect();
        for number in below {
            let over = self.over.entry(number).or_default();
            // What was said before of the same thing is in these facts too.
            over.retain(|other| other.name != facts.name);
            over.push(Arc::clone(&facts));
        }
        for name in names {
            self.begun.add(name.as_str());
            self.own.insert(name.clone(), Arc::clone(&facts));
        }
    }

    /// What is known under a name.
    ///
    /// `butter for the tins` is butter, `plums` and `plum` are the same, and `roasted peanuts` are peanuts. What the baker's own
    /// files say goes before what the program brings, in whichever of these forms it was written, and a block on `butter`
    /// counts for `unsalted butter` too, since the larder below has them as one.
    pub fn find(&self, name: &Key) -> Option<Arc<Facts>> {
        self.describe(name).facts
    }

    /// What is known under a name, and what kind of thing it is: as its block says; else as its name does, or the name of its block.
    pub fn describe(&self, name: &Key) -> Described {
        self.answers.or_find(name, || {
            let facts = self.look_up(name.as_str());
            let kind = kind_of(name, facts.as_deref());
            Described { facts, kind }
        })
    }

    fn look_up(&self, mut name: &str) -> Option<Arc<Facts>> {
        loop {
            if let Some(found) = self.as_it_stands(name) {
                return Some(found);
            }
            name = unprepared(name)?;
        }
    }

    /// Whether a name is known as it stands, in either number, and not by leaving out how it was prepared.
    pub(crate) fn has_just(&self, name: &Key) -> bool {
        self.as_it_stands(name.as_str()).is_some()
    }

    /// Whether a name of so many words, whose first one this is, may be known as it stands: asked before [`Larder::has_just`].
    pub(crate) fn may_begin(&self, word: &str) -> impl Fn(usize) -> bool + use<> {
        let counts = self.begun.counts(word) | builtin::begun().counts(word);
        move |words| counts & begun::bit(words) != 0
    }

    /// Whether what a recipe calls `name` is what somebody calls `asked`: by its forms, or because the larder has both as one.
    pub fn is_called(&self, name: &Key, asked: &Key) -> bool {
        is_called(name, asked)
            || self.find(name).is_some_and(|facts| self.find(asked).is_some_and(|other| other.name == facts.name))
    }

    fn as_it_stands(&self, name: &str) -> Option<Arc<Facts>> {
        if self.begun.may_have(name)
            && let Some(own) = forms(name).find_map(|form| self.own.get(form.as_ref()))
        {
            return Some(Arc::clone(own));
        }
        let form = forms(name).find(|form| builtin::number(form).is_some())?;
        match self.over.get(&builtin::number(&form)?).map(Vec::as_slice) {
            Some([only]) => Some(Arc::clone(only)),
            // Where the baker tells two of them apart, a third name is neither.
            _ => builtin::find(&form),
        }
    }

    /// Every name that is known, for 'did you mean'.
    pub fn names(&self) -> impl Iterator<Item = &str> {
        self.own_names().chain(brought_names().map(|name| -> &str { name }))
    }

    /// The names that used files describe.
    pub(crate) fn own_names(&self) -> impl Iterator<Item = &str> {
        self.own.keys().map(Key::as_str)
    }
}

/// What kind of thing something is of which this is known: as its block says; else as its name does, or the name of its block.
pub(crate) fn kind_of(name: &Key, facts: Option<&Facts>) -> Kind {
    facts.and_then(|facts| facts.kind).unwrap_or_else(|| match (Kind::of_name(name.as_str()), facts) {
        (Kind::Other, Some(facts)) => Kind::of_name(Key::new(&facts.name).as_str()),
        (kind, _) => kind,
    })
}

/// What kind of thing a word of a text is, in lower case: by the larder that the program brings, by the words for kinds, else as a name.
pub(crate) fn kind_of_word(word: &str) -> Kind {
    let brought = || forms(word).find_map(|form| builtin::find(&form));
    let of_kind = || forms(word).find_map(|form| Kind::from_word(&form));
    match of_kind() {
        Some(kind) => kind,
        None => kind_of(&Key::new(word), brought().as_deref()),
    }
}

/// Whether what a recipe calls `name` is what somebody calls `asked`, as a larder is asked: `onions` is `onion`, and `butter for
/// the tins` is `butter`.
pub(crate) fn is_called(name: &Key, asked: &Key) -> bool {
    name == asked || forms(name.as_str()).any(|form| form == asked.as_str())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::text::source::SourceId;

    fn priced(name: &str) -> Facts {
        let span = Span::new(SourceId(0), 0, 0);
        let price =
            Price { amount: Number::ONE, number: Number::ONE, unit: Unit::Gram, currency: None, on: None, span };
        Facts { name: name.to_owned(), price: Some(price), ..Facts::default() }
    }

    #[test]
    fn own_words_go_before_the_larder_that_is_brought_in_either_number() {
        for (written, asked) in [
            ("plum", "plums"),
            ("plums", "plum"),
            ("cherry", "cherries"),
            ("potato", "potatoes"),
            ("butter", "butter for the tins"),
            ("plum", "plums for the top"),
        ] {
            let mut larder = Larder::new();
            larder.add(priced(written), &[Key::new(written)]);
            let found = larder.find(&Key::new(asked)).unwrap_or_else(|| panic!("{asked} is not found"));
            assert!(found.price.is_some(), "{asked}: the built-in larder answers for the baker's {written}");
            // What the block leaves open still comes from below.
            let below = Larder::new().find(&Key::new(asked));
            assert_eq!(found.contents.water, below.and_then(|facts| facts.contents.water), "{asked}");
        }
    }

    #[test]
    fn a_colour_or_a_taste_may_make_another_food() {
        let named = |name: &str| Larder::new().find(&Key::new(name)).map(|facts| facts.name.clone());
        for name in ["sweet pepper", "sweet peppers", "hot peppers", "roasted peppers"] {
            assert_ne!(named(name).as_deref(), Some("black pepper"), "{name}");
        }
        assert_ne!(named("white chocolate"), named("chocolate"));
        assert_eq!(named("crushed pepper").as_deref(), Some("black pepper"));
    }

    /// What was asked before is answered anew when something was taken in, in the larder and in a copy of it.
    #[test]
    fn an_answer_is_never_stale() {
        let asked = Key::new("quay paste");
        let mut larder = Larder::new();
        assert_eq!(larder.find(&asked), None);
        let mut copy = larder.clone();
        larder.add(priced("quay paste"), std::slice::from_ref(&asked));
        assert!(larder.find(&asked).is_some());
        assert_eq!(copy.find(&asked), None);
        copy.add(Facts { kind: Some(Kind::Salt), ..priced("quay paste") }, std::slice::from_ref(&asked));
        assert_eq!([larder.describe(&asked).kind, copy.describe(&asked).kind], [Kind::Other, Kind::Salt]);
    }

    #[test]
    fn what_nobody_describes_is_not_found() {
        assert_eq!(Larder::new().find(&Key::new("moon dust")), None);
        assert_eq!(Larder::new().find(&Key::new("s")), None);
    }
}
