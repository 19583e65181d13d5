//! An amount that is said again in another unit, or beside another batch: `225 g / 8 oz`, `1 cup (120 g)`.

use super::Made;
use crate::measure::number::Number;
use crate::model::notes::amount::{self, Unit};
use crate::model::notes::item::NO_WEIGHT;
use crate::model::notes::measure::{Measure, measure};
use crate::model::notes::sticks;

impl Made {
    /// Takes what more is said of the amount right behind it; gives what follows.
    pub(in crate::model::notes) fn more<'t>(&mut self, mut rest: &'t str) -> &'t str {
        loop {
            let text = rest.trim_start();
            match self.another(text) {
                // Each round takes at least one character.
                Some(after) if after.len() < text.len() => rest = after,
                _ => return rest,
            }
        }
    }

    fn another<'t>(&mut self, text: &'t str) -> Option<&'t str> {
        let first = self.first.clone()?;
        if first.is_mass() || first.is_quantity() {
            // `400 g tin chickpeas`.
            if let Some((Unit::Loose, word, after)) = amount::unit(text)
                && amount::is_container(&word.to_lowercase())
                && (after.is_empty() || after.starts_with(' '))
            {
                self.read.clauses.push(word.to_lowercase());
                return Some(after);
            }
        }
        if first.unit.is_none()
            && let Some(after) = self.pack(&first, text)
        {
            return Some(after);
        }
        if let Some(inside) = text.strip_prefix('(') {
            let (inside, after) = inside.split_once(')')?;
            return self.says_again(inside).then_some(after);
        }
        let other = ["/", "=", "|", "or "].into_iter().find_map(|mark| text.strip_prefix(mark));
        if let Some((more, after)) = other.and_then(measure).filter(|(more, _)| more.is_quantity()) {
            // Another column of a table is another batch.
            if more.is_mass() && first.is_mass() && more.value != first.value && more.is_metric() == first.is_metric() {
                self.read.look.push(format!("{} stands beside it", more.shown));
                return Some(after);
            }
            self.also(more, false);
            return Some(after);
        }
        let (more, after) = measure(other.unwrap_or(text))?;
        // `1 cup / 2 sticks / 226 g`: pieces between two weights are how it is sold.
        if first.is_quantity() && other.is_some() && more.has_figure && sticks::is_stick(&more) {
            self.read.clauses.push(more.words());
            return Some(after);
        }
        let ends = after.trim_start().is_empty() || after.trim_start().starts_with([',', ';', ')', '|']);
        let is_share = |measure: &Measure| measure.known() == Some("%");
        // `100% 1000`, `500 100%`: a table whose columns have no unit.
        let is_bare = |measure: &Measure| measure.unit.is_none() && measure.has_figure;
        let fits = (is_share(&first) && (more.is_quantity() || is_bare(&more) && ends))
            || ((first.is_quantity() || is_bare(&first)) && is_share(&more) && ends);
        fits.then(|| {
            self.also(more, false);
            after
        })
    }

    /// Takes words that say the same amount in other units, and nothing else.
    pub(in crate::model::notes) fn says_again(&mut self, words: &str) -> bool {
        let mut rest = words.trim();
        let mut all = Vec::new();
        while let Some((more, after)) = measure(rest) {
            let after = after.trim_start();
            let (each, after) = match after.strip_prefix("each") {
                Some(after) => (true, after.trim_start()),
                None => (false, after),
            };
            if more.unit == Some(Unit::Other) || matches!(more.unit, Some(Unit::Loose | Unit::Counted)) {
                return false;
            }
            all.push((more, each));
            if after.is_empty() {
                rest = "";
                break;
            }
            let Some(next) = ["/", "=", "or ", ","].into_iter().find_map(|mark| after.strip_prefix(mark)) else {
                return false;
            };
            rest = next.trim_start();
        }
        if all.is_empty() || !rest.is_empty() || !all.iter().all(|(more, each)| self.is_same_in_kind(more, *each)) {
            return false;
        }
        for (more, each) in all {
            self.also(more, each);
        }
        true
    }

    /// Whether a second amount can be the first in another unit.
    fn is_same_in_kind(&self, more: &Measure, each: bool) -> bool {
        let Some(first) = &self.first else { return false };
        match (first.unit, more.unit) {
            (Some(Unit::Loose) | None, Some(_)) => more.is_quantity(),
            // How many they are is known by the name only.
            (Some(Unit::Known(_) | Unit::Spoon(_)), Some(_)) => {
                !each && first.known() != more.known() && !first.is_other_weight(more)
            }
            (Some(Unit::Known(_)), None) => first.is_mass() && !each,
            _ => false,
        }
    }

    fn also(&mut self, more: Measure, each: bool) {
        let Some(first) = self.first.clone() else { return };
        self.read.spoons |= matches!(more.unit, Some(Unit::Spoon(_)));
        match first.unit {
            Some(Unit::Loose) if sticks::is_of_all(&first, &more) => {
                self.read.look.retain(|why| why != NO_WEIGHT);
                self.so_many(Some(Number::ONE), &more);
                self.read.look.push(format!("{} are all of them", more.shown));
            }
            // `1/2 sachet (3.5 g)`: of half a one nobody says what a whole one weighs. `2 tins beans (800 g)`: behind the name it is of all.
            Some(Unit::Loose)
                if !each
                    && first.has_figure
                    && (self.is_named && first.value != Some(Number::ONE) || first.is_part()) =>
            {
                self.read.look.retain(|why| why != NO_WEIGHT);
                self.so_many(Some(Number::ONE), &more);
                let or = if first.is_part() { "" } else { ": or is that what each weighs?" };
                self.read.look.push(format!("{} are all of them{or}", more.shown));
            }
            Some(Unit::Loose) => {
                let many = first.value.filter(|_| first.has_figure).or(Some(Number::ONE));
                self.so_many(many, &more);
            }
            None if each => {
                self.read.clauses.push(format!("{} each", more.shown));
                self.read.look.push("what one weighs is said".to_owned());
            }
            // What is surest comes first: sums are made with it.
            None => self.first_is(more, " = "),
            Some(Unit::Known("%")) if more.unit.is_some() => self.first_is(more, " = "),
            _ => {
                self.read.look.extend(more.look);
                self.read.amount = format!("{} = {}", self.read.amount, more.shown);
            }
        }
    }

    fn first_is(&mut self, more: Measure, between: &str) {
        self.read.look.extend(more.look.iter().cloned());
        self.read.amount = format!("{}{between}{}", more.shown, self.read.amount);
        self.first = Some(more);
    }
}
