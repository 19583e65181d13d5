//! What a file says for its label in so many words: name of the food, dates, storage, lot, business.

use crate::language::syntax::{Content, Line, SaleField};
use crate::measure::quantity::Duration;

/// How long something is good once it is made.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct GoodFor {
    /// From the day on which it is made.
    pub time: Duration,
    /// Why it says `use by` and not `best before`.
    pub use_by: Option<String>,
}

/// What is said for a label; what is `None` nobody said.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Sale {
    /// The name of the food, where the recipe's own is none that a buyer knows.
    pub sold_as: Option<String>,
    /// How long it is good.
    pub good_for: Option<GoodFor>,
    /// How it is kept.
    pub store: Option<String>,
    /// The lot.
    pub batch: Option<String>,
    /// Name and address of the business.
    pub business: Option<String>,
}

impl Sale {
    /// The texts that some lines say; of two of one field the first.
    pub fn of_lines<'l>(lines: impl IntoIterator<Item = &'l Line>) -> Sale {
        let mut sale = Sale::default();
        for line in lines {
            let Content::Sale(field, text) = &line.content else { continue };
            let slot = sale.slot(*field);
            if slot.is_none() {
                *slot = Some(text.clone());
            }
        }
        sale
    }

    fn slot(&mut self, field: SaleField) -> &mut Option<String> {
        match field {
            SaleField::SoldAs => &mut self.sold_as,
            SaleField::Store => &mut self.store,
            SaleField::Batch => &mut self.batch,
            SaleField::Business => &mut self.business,
        }
    }

    /// This, with what it leaves open taken from `under`.
    #[must_use]
    pub fn over(self, under: &Sale) -> Sale {
        Sale {
            sold_as: self.sold_as.or_else(|| under.sold_as.clone()),
            good_for: self.good_for.or_else(|| under.good_for.clone()),
            store: self.store.or_else(|| under.store.clone()),
            batch: self.batch.or_else(|| under.batch.clone()),
            business: self.business.or_else(|| under.business.clone()),
        }
    }
}
