//! The words of a price: `costs 1.20 EUR per kg, on 2026-03-01`.

use super::{Kind, Typed};
use crate::language::syntax::Content;

/// What prices are said for.
const UNITS: &[&str] = &["kg", "g", "lb", "oz", "l", "ml", "piece"];

impl Typed<'_> {
    /// Behind `costs`: the currency and the days that this file names already, the unit.
    pub(super) fn price(&mut self, rest: &str) {
        if let Some((_, clause)) = rest.split_once(',') {
            let clause = clause.trim_start();
            for day in self.days() {
                self.offer(clause, &format!("on {day}"), Kind::Keyword, "the day of other prices here");
            }
            return self.offer(clause, "on ", Kind::Keyword, "the day that the price is of: `on 2026-03-01`");
        }
        if let Some((_, unit)) = rest.rsplit_once("per ") {
            let unit = unit.trim_start_matches(|c: char| c.is_ascii_digit() || c == '.').trim_start();
            for known in UNITS {
                self.offer(unit, known, Kind::Unit, "");
            }
            return;
        }
        let Some((_, word)) = rest.split_once(' ') else { return };
        for currency in self.currencies() {
            // Once it is there, only what comes behind it is left.
            match word.strip_prefix(currency.as_str()).and_then(|behind| behind.strip_prefix(' ')) {
                Some(behind) => return self.offer(behind, "per ", Kind::Keyword, "a weight, a volume or a piece"),
                None => {
                    self.offer(word, &format!("{currency} per "), Kind::Keyword, "the currency of other prices here")
                }
            }
        }
        let word = word.rsplit(' ').next().unwrap_or(word);
        self.offer(word, "per ", Kind::Keyword, "a weight, a volume or a piece");
    }

    /// The days of other prices, the latest first.
    fn days(&self) -> Vec<String> {
        let lines = self.view.tree().lines.iter();
        let mut days: Vec<_> = lines
            .filter_map(|line| match &line.content {
                // Not the one that is being typed.
                Content::Costs { on: Some(on), .. }
                    if !(line.said.range().start..=line.said.range().end).contains(&self.offset) =>
                {
                    Some(on.value)
                }
                _ => None,
            })
            .collect();
        days.sort();
        days.dedup();
        days.iter().rev().take(3).map(ToString::to_string).collect()
    }

    fn currencies(&self) -> Vec<String> {
        let lines = self.view.tree().lines.iter();
        let mut names: Vec<String> = lines
            .filter_map(|line| match &line.content {
                Content::Costs { currency: Some(currency), .. } => Some(currency.text.to_string()),
                _ => None,
            })
            .collect();
        names.sort();
        names.dedup();
        names
    }
}
