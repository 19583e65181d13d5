//! What a file says for its label in so many words: name of the food, dates, storage, lot, business, origin, directions.

use crate::language::syntax::{Content, Line, SaleField};
use crate::measure::quantity::{Density, Duration, Mass, Proportion, Volume};
use crate::model::allergen;
use crate::model::asked::Asked;
use crate::model::keeps::KeptAt;
use crate::text::diagnostic::Diagnostic;
use crate::text::source::Span;
use std::sync::OnceLock;

/// How long something is good once it is made.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct GoodFor {
    /// From the day on which it is made.
    pub time: Duration,
    /// Why it says `use by` and not `best before`.
    pub use_by: Option<String>,
    /// Where the time is said.
    pub span: Span,
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
    /// How cold that is, which is read out of the words when it is first asked for: half a dozen checks ask it of each part.
    pub kept_at: Asked<OnceLock<KeptAt>>,
    /// The lot.
    pub batch: Option<String>,
    /// Name and address of the business.
    pub business: Option<String>,
    /// Allergens of which traces may have come in.
    pub may_contain: Option<String>,
    /// What a serving is.
    pub serving: Option<Serving>,
    /// What is left of it on a sieve, of what is sold in a liquid.
    pub drained: Option<Drained>,
    /// How heavy a volume of it is, of what is poured: it is sold by volume then.
    pub density: Option<Density>,
    /// Where it comes from.
    pub origin: Option<String>,
    /// What a buyer does with it before it is eaten.
    pub directions: Option<String>,
}

/// What one eats of it at once.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Serving {
    /// How much that is.
    pub size: Size,
    /// What that is by a measure of the household: `1 slice`.
    pub words: Option<String>,
}

/// A serving by weight, or by volume of what is poured.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Size {
    /// What it weighs.
    Mass(Mass),
    /// How much is poured.
    Volume(Volume),
}

/// What is left on a sieve of what is sold in a liquid.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Drained {
    /// So much of what it weighs with its liquid, as somebody weighed it.
    Share(Proportion),
    /// As much as went in solid, as somebody says.
    AsPacked,
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
            SaleField::MayContain => &mut self.may_contain,
            SaleField::Origin => &mut self.origin,
            SaleField::Directions => &mut self.directions,
        }
    }

    /// This, with what it leaves open taken from `under`.
    #[must_use]
    pub fn over(self, under: &Sale) -> Sale {
        Sale {
            sold_as: self.sold_as.or_else(|| under.sold_as.clone()),
            good_for: self.good_for.or_else(|| under.good_for.clone()),
            store: self.store.or_else(|| under.store.clone()),
            kept_at: Asked::default(),
            batch: self.batch.or_else(|| under.batch.clone()),
            business: self.business.or_else(|| under.business.clone()),
            may_contain: both(self.may_contain, under.may_contain.as_deref()),
            serving: self.serving.or_else(|| under.serving.clone()),
            drained: self.drained.or(under.drained),
            density: self.density.or(under.density),
            origin: self.origin.or_else(|| under.origin.clone()),
            directions: self.directions.or_else(|| under.directions.clone()),
        }
    }
}

/// What is wrong with the words behind `may contain`: each is an allergen of a law, as behind `contains`.
pub fn unknown_traces(text: &str, span: Span) -> Vec<Diagnostic> {
    let words = text.trim_end_matches('.').split(',').map(|word| word.trim().to_lowercase());
    let unknown = words.filter(|word| !word.is_empty() && !allergen::is_known(word));
    unknown
        .map(|word| {
            let message =
                format!("`{word}` is no allergen that the law of the United States or of the European Union lists");
            Diagnostic::error("unknown-allergen", span, message).help(
                "write the allergens by the words of the law, with commas between them: `may contain nuts, sesame`",
            )
        })
        .collect()
}

/// Traces of either: what is in the air of a kitchen is in all that is made there.
pub(crate) fn both(one: Option<String>, other: Option<&str>) -> Option<String> {
    let words = |text: &str| -> Vec<String> {
        text.trim_end_matches('.')
            .split(',')
            .map(|word| word.trim().to_owned())
            .filter(|word| !word.is_empty())
            .collect()
    };
    let mut all = one.as_deref().map(words).unwrap_or_default();
    for word in other.map(words).unwrap_or_default() {
        if !all.iter().any(|known| known.eq_ignore_ascii_case(&word)) {
            all.push(word);
        }
    }
    (!all.is_empty()).then(|| all.join(", "))
}
