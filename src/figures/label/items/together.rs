//! Items of a list of ingredients that are the same, put together.

use super::Item;
use crate::language::syntax::Key;
use crate::measure::number::Overflow;
use crate::measure::quantity::Mass;
use crate::text::quick::QuickMap;

/// Items as they are put together, in the order in which they were met, each found by its entry: a list may be of thousands.
#[derive(Default)]
pub(super) struct Together {
    /// What was taken out again leaves its place.
    all: Vec<Option<Item>>,
    places: QuickMap<Key, Vec<usize>>,
}

impl Together {
    /// Of items that stand as they are.
    fn of(items: Vec<Item>) -> Together {
        let mut places: QuickMap<Key, Vec<usize>> = QuickMap::default();
        items.iter().enumerate().for_each(|(at, item)| places.entry(item.entry()).or_default().push(at));
        Together { all: items.into_iter().map(Some).collect(), places }
    }

    pub(super) fn items(self) -> Vec<Item> {
        self.all.into_iter().flatten().collect()
    }

    /// The places of those of an entry at which something is so.
    fn find(&self, key: &Key, is_so: impl Fn(&Item) -> bool) -> Vec<usize> {
        let places = self.places.get(key).map_or(&[][..], Vec::as_slice);
        let is_so = |at: &&usize| self.all.get(**at).and_then(Option::as_ref).is_some_and(&is_so);
        places.iter().filter(is_so).copied().collect()
    }

    fn at(&mut self, place: Option<&usize>) -> Option<&mut Item> {
        self.all.get_mut(*place?).and_then(Option::as_mut)
    }

    /// Puts an item to those that are the same by the larder, or else by name. Of several names the larder's own is kept.
    ///
    /// What is only dusted with, or strained out, is not listed again beside the same that goes in by weight.
    pub(super) fn put(&mut self, item: Item) -> Result<(), Overflow> {
        let key = item.entry();
        let counts = |one: &Item| !one.aside && !one.strained_out;
        // Some stays in by an open weight, beside what goes in by a known one.
        let is_fried_in = item.fried_in || !self.find(&key, |known| known.fried_in).is_empty();
        let mut item = Item { fried_in: is_fried_in, ..item };
        if counts(&item) {
            for place in self.find(&key, |known| !counts(known)) {
                let Some(known) = self.all.get_mut(place).and_then(Option::take) else { continue };
                item.went_in = together(item.went_in, known.went_in)?;
                item.aside_as.extend(known.aside_as);
            }
        } else if let Some(known) = self.at(self.find(&key, counts).first()) {
            known.fried_in |= is_fried_in;
            known.went_in = together(known.went_in, item.went_in)?;
            known.aside_as.extend(item.aside_as);
            return Ok(());
        }
        let of = |one: &Item| (one.inner.is_empty(), counts(one));
        let Some(known) = self.at(self.find(&key, |known| of(known) == of(&item)).first()) else {
            self.places.entry(key).or_default().push(self.all.len());
            self.all.push(Some(item));
            return Ok(());
        };
        if Key::new(&item.name) == key {
            known.name = item.name;
        }
        // What a bath leaves behind and what a pan is greased with is one.
        known.aside |= item.aside;
        known.fried_in |= item.fried_in;
        known.strained_out &= item.strained_out;
        known.of_bath &= item.of_bath;
        known.mass = together(known.mass, item.mass)?;
        known.went_in = together(known.went_in, item.went_in)?;
        known.aside_as.extend(item.aside_as);
        if !item.inner.is_empty() {
            let mut inner = Together::of(std::mem::take(&mut known.inner));
            item.inner.into_iter().try_for_each(|one| inner.put(one))?;
            known.inner = inner.items();
        }
        Ok(())
    }
}

fn together(one: Option<Mass>, other: Option<Mass>) -> Result<Option<Mass>, Overflow> {
    Ok(match (one, other) {
        (Some(one), Some(other)) => Some(one.plus(other)?),
        (one, other) => one.or(other),
    })
}
