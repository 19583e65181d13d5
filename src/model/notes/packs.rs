//! So many packs of a weight: `2 x 400 g tins`, `1 14-oz can`.

use super::amount::{self, Unit};
use super::item::{Made, NO_WEIGHT};
use super::measure::{Measure, measure};
use crate::measure::number::Number;

impl Made {
    /// `2 x 400 g tins`, `1 14-oz can`, `2 (400 g) tins`: so many of a weight.
    pub(super) fn pack<'t>(&mut self, first: &Measure, text: &'t str) -> Option<&'t str> {
        let times = text.strip_prefix("x ").or_else(|| text.strip_prefix("× ")).or_else(|| text.strip_prefix('x'));
        let (inside, bracketed) = match text.strip_prefix('(') {
            Some(inside) => (inside, true),
            None => (times.unwrap_or(text), false),
        };
        let (one, after) = measure(inside).filter(|(one, _)| one.is_quantity())?;
        let after = if bracketed { after.trim_start().strip_prefix(')')? } else { after };
        let container = match amount::unit(after) {
            Some((Unit::Loose, word, behind)) if amount::is_container(&word.to_lowercase()) => Some((word, behind)),
            _ => None,
        };
        let (words, after) = match container {
            Some((word, behind)) => (format!("{} {}", first.shown, word.to_lowercase()), behind),
            None if times.is_some() => (format!("{} x {}", first.shown, one.shown), after),
            // `2 (4-oz) bars chocolate`: what stands right behind the number is of each.
            None if bracketed && after.trim_start().starts_with(char::is_alphabetic) && self.is_of_each(first) => {
                (format!("{} x {}", first.shown, one.shown), after)
            }
            None => return None,
        };
        self.read.clauses.push(words);
        self.so_many(first.value, &one);
        Some(after)
    }

    /// Whether what stands right behind a number, before any name, is of each.
    fn is_of_each(&self, first: &Measure) -> bool {
        !self.is_named && first.has_figure && first.value != Some(Number::ONE)
    }

    /// So many times a weight.
    pub(super) fn so_many(&mut self, many: Option<Number>, one: &Measure) {
        self.read.look.extend(one.look.iter().cloned());
        self.read.look.retain(|why| why != NO_WEIGHT);
        let single = many == Some(Number::ONE);
        let product = many.zip(one.value).and_then(|(many, one)| many.times(one).ok());
        self.read.amount = match (product, one.known()) {
            _ if single => one.shown.clone(),
            (Some(product), Some(unit)) if product.parts().1 <= 1000 => format!("{} {unit}", product.decimal(3)),
            _ => "as needed".to_owned(),
        };
        self.read.spoons |= matches!(one.unit, Some(Unit::Spoon(_)));
        if !single {
            let many = many.map_or_else(|| "so many".to_owned(), |many| many.decimal(3));
            self.read.look.push(format!("{many} times {}", one.shown));
        }
        self.first = Some(one.clone());
    }
}
