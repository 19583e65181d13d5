//! What is neither bought nor weighed out: what comes from the store, what there is in stock, what is left over.

use super::{Bought, List, shown};
use crate::figures::card::{Card, in_pieces};
use crate::language::syntax::Key;
use crate::make::have::{self, NoWeight, There};
use crate::make::store::{self, Remains};
use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::Mass;
use crate::measure::show::Units;
use crate::measure::shown::Shown;
use crate::model::larder::Larder;

/// Something to take from the store.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FromStore {
    /// What.
    pub name: String,
    /// The recipe that makes it, where that is another one.
    pub of: Option<String>,
    /// How much, exactly; `None` when some of it has no weight.
    pub mass: Option<Mass>,
    /// How many pieces that is, where all of it is in whole ones.
    pub pieces: Option<Number>,
    /// As printed.
    pub shown: Shown,
    /// When it was made, if the day says so.
    pub made: Option<String>,
    /// Where it goes: recipe and part.
    pub into: Vec<(String, String)>,
    /// How much of it is left over on the same day.
    pub left_here: Option<Mass>,
    /// As printed; empty where none is.
    pub left_here_shown: Shown,
}

/// Something that there is already.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Stocked {
    /// What, as the list calls it.
    pub name: String,
    /// How much there is.
    pub had: Mass,
    /// How much of it is used.
    pub taken: Mass,
    /// As printed.
    pub taken_shown: Shown,
    /// What remains of it.
    pub remains: Mass,
    /// As printed.
    pub remains_shown: Shown,
}

/// Something that is left over.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LeftOver {
    /// What is left, how much of it is taken again, what remains.
    pub of: Remains,
    /// What remains, as printed; all of it where its weight is known.
    pub shown: Shown,
    /// What is taken again, as printed; empty where nothing is.
    pub taken_shown: Shown,
}

/// What all cards take from the store, the same thing of the same day added up; `called` is what each card is called.
pub(super) fn from_store(cards: &[Card], called: &[String], units: Units) -> Result<Vec<FromStore>, Overflow> {
    let mut all: Vec<FromStore> = Vec::new();
    let found =
        cards.iter().zip(called).flat_map(|(card, called)| card.from_store.iter().map(move |one| (called, one)));
    for (called, one) in found {
        let taken = &one.taken;
        let made = taken.made.map(|date| date.to_string());
        let into = (called.clone(), taken.into.clone());
        let same = |known: &&mut FromStore| {
            known.of == taken.of && known.made == made && store::is_one_thing(&known.name, &taken.what)
        };
        match all.iter_mut().find(same) {
            Some(known) => {
                known.mass = known.mass.zip(taken.mass).map(|(known, mass)| known.plus(mass)).transpose()?;
                known.pieces = known.pieces.zip(taken.pieces).map(|(known, more)| known.plus(more)).transpose()?;
                known.shown = match known.mass {
                    Some(mass) => in_pieces(known.pieces, shown(mass, units)),
                    None => Shown::words(format!("{}, {}", known.shown, one.shown)),
                };
                if !known.into.contains(&into) {
                    known.into.push(into);
                }
            }
            None => all.push(FromStore {
                name: taken.what.clone(),
                of: taken.of.clone(),
                mass: taken.mass,
                pieces: taken.pieces,
                shown: one.shown.clone(),
                made,
                into: vec![into],
                left_here: None,
                left_here_shown: Shown::default(),
            }),
        }
    }
    for left in remains(cards)? {
        let one = all.iter_mut().find(|one| store::is_one_thing(&one.name, &left.what));
        if let Some(one) = one.filter(|_| left.taken > Mass::ZERO) {
            one.left_here = Some(left.taken);
            one.left_here_shown = shown(left.taken, units);
        }
    }
    Ok(all)
}

fn remains(cards: &[Card]) -> Result<Vec<Remains>, Overflow> {
    let left = cards.iter().flat_map(|card| &card.left_over);
    store::remains(left, cards.iter().flat_map(|card| card.from_store.iter().map(|one| &one.taken)))
}

pub(super) fn left_over(cards: &[Card], units: Units) -> Result<Vec<LeftOver>, Overflow> {
    let some = |mass: Mass| if mass > Mass::ZERO { shown(mass, units) } else { Shown::default() };
    let all = remains(cards)?.into_iter().map(|of| LeftOver {
        shown: of.remains.map(|mass| shown(mass, units)).unwrap_or_default(),
        taken_shown: some(of.taken),
        of,
    });
    Ok(all.collect())
}

impl List {
    /// The list when there is so much already: only what is lacking is bought. What the list does not hold stays where it is.
    /// `larders` are those of the recipes, by which names are one.
    ///
    /// # Errors
    /// When what an amount weighs is not known, or leaves the range of exact numbers.
    pub fn less(mut self, there_is: &[There], larders: &[&Larder], units: Units) -> Result<List, NoWeight> {
        for (name, value) in there_is {
            let Some(called) = self.name_of(&name.key, larders).map(str::to_owned) else { continue };
            let items = self.buy.iter_mut().flat_map(|section| &mut section.items);
            let Some(item) = items.into_iter().find(|item| item.name == called) else { continue };
            let too_large = |_| NoWeight {
                why: format!("so much {name} leaves the range of exact numbers"),
                help: "give less".to_owned(),
            };
            let had = have::weigh_bought(name, *value, item.facts.as_deref())?;
            let Some(needed) = item.bought else { continue };
            let taken = had.min(needed);
            let (lacking, remains) = (needed.minus(taken).map_err(too_large)?, had.minus(taken).map_err(too_large)?);
            // What goes in of what is bought.
            let share = lacking.ratio(needed).unwrap_or(Number::ONE);
            item.bought = Some(lacking);
            item.counted = item.counted.map(|count| count.times(share)).transpose().map_err(too_large)?;
            let goes_in = item.needed.map(|mass| mass.times(share)).transpose().map_err(too_large)?;
            item.as_sold(goes_in, units).map_err(too_large)?;
            match self.stocked.iter_mut().find(|known| known.name == item.name) {
                Some(known) => {
                    known.had = known.had.plus(had).map_err(too_large)?;
                    known.taken = known.taken.plus(taken).map_err(too_large)?;
                    known.remains = known.remains.plus(remains).map_err(too_large)?;
                    known.taken_shown = shown(known.taken, units);
                    known.remains_shown = shown(known.remains, units);
                }
                None => self.stocked.push(Stocked {
                    name: item.name.clone(),
                    had,
                    taken,
                    taken_shown: shown(taken, units),
                    remains,
                    remains_shown: shown(remains, units),
                }),
            }
        }
        for section in &mut self.buy {
            let all_there = |item: &Bought| item.bought == Some(Mass::ZERO) && item.besides.is_empty();
            section.items.retain(|item| !all_there(item));
        }
        self.buy.retain(|section| !section.items.is_empty());
        Ok(self)
    }

    /// What the list calls something, by its own names or because one of the larders has both as one: `unsalted butter` is `butter`.
    pub fn name_of(&self, name: &Key, larders: &[&Larder]) -> Option<&str> {
        let items = || self.buy.iter().flat_map(|section| &section.items);
        let by_larder = |item: &&Bought| {
            let mut called = std::iter::once(Key::new(&item.name)).chain(item.entries.iter().cloned());
            called.any(|own| larders.iter().any(|larder| larder.is_called(&own, name)))
        };
        items().find(|item| item.is_called(name)).or_else(|| items().find(by_larder)).map(|item| item.name.as_str())
    }

    /// The names of everything to buy.
    pub fn names(&self) -> impl Iterator<Item = &str> {
        self.buy.iter().flat_map(|section| &section.items).map(|item| item.name.as_str())
    }
}

/// What something is called, where that is not the name that stands over it.
pub(super) fn other_name(name: &str, over: Option<&str>) -> Option<String> {
    (!over.is_some_and(|over| store::is_one_thing(over, name))).then(|| name.to_owned())
}
