//! How long and how cold something is said to keep: by its own `keeps`, or to a buyer by the date and the storage on its label.

use crate::measure::number::Number;
use crate::measure::quantity::Duration;
use crate::measure::temperature::Temperature;
use crate::model::cold::{is_cold, is_freezer};
use crate::model::cooking::cold_words::{COLD, is_cold_said};
use crate::model::cooking::{chills, has_word_beginning};
use crate::model::recipe::{KeptAt, Part, PartId, Recipe};
use crate::text::source::Span;

/// A time for which something is said to keep.
#[derive(Debug, Clone, Copy)]
pub(super) struct Promise {
    /// How long.
    pub time: Duration,
    /// How cold.
    pub how: KeptAt,
    /// Where it is said.
    pub span: Span,
    /// To whom it is said.
    pub by: SaidBy,
}

/// Which line says how long something keeps.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum SaidBy {
    /// `keeps`, to whoever works.
    Keeps,
    /// `best before`, to a buyer.
    BestBefore,
    /// `use by`, to a buyer.
    UseBy,
}

impl Promise {
    /// Whether it is kept where it is warm, or nobody says how.
    pub(super) fn is_warm(&self) -> bool {
        !self.how.is_cold()
    }

    /// Whether it is kept in a refrigerator.
    pub(super) fn is_chilled(&self) -> bool {
        self.how.is_chilled()
    }
}

/// What a part says it keeps.
pub(super) fn kept(part: &Part) -> Option<Promise> {
    part.keeps.map(|keeps| Promise { time: keeps.time, how: keeps.how, span: keeps.span, by: SaidBy::Keeps })
}

/// What the label says of a part that is sold: one that goes into no other.
pub(super) fn on_label(recipe: &Recipe, id: PartId, part: &Part) -> Option<Promise> {
    let good = recipe.sale.good_for.as_ref()?;
    if part.from.is_some() || part.foreign.is_some() || recipe.is_drawn_on(id) {
        return None;
    }
    let by_part = || part.keeps.map(|keeps| keeps.how);
    // `use by` is said of what has to be cold, whether its storage is written down yet or not.
    let left_cold = || part.steps.last().is_some_and(chills) || good.use_by.is_some();
    let how = match &recipe.sale.store {
        Some(words) => stored(words),
        None => by_part().unwrap_or(if left_cold() { KeptAt::Chilled } else { KeptAt::Unsaid }),
    };
    let by = if good.use_by.is_some() { SaidBy::UseBy } else { SaidBy::BestBefore };
    Some(Promise { time: good.time, how, span: good.span, by })
}

/// How cold the words behind `store` want it; what is done once it is open says nothing of it closed.
fn stored(words: &str) -> KeptAt {
    let words = words.to_lowercase();
    let mut how = KeptAt::Unsaid;
    for clause in words.split([',', ';', '.']).filter(|clause| !has_word_beginning(clause, ["open"])) {
        let below = degrees(clause);
        if has_word_beginning(clause, ["frozen", "freez"]) || below.is_some_and(is_freezer) {
            return KeptAt::Frozen;
        }
        if is_cold_said(clause, COLD) || below.is_some_and(is_cold) {
            how = KeptAt::Chilled;
        }
    }
    how
}

/// The highest whole degrees that a text names.
fn degrees(text: &str) -> Option<Temperature> {
    if !text.bytes().any(|byte| byte.is_ascii_digit()) {
        return None;
    }
    let text = text.replace('−', "-");
    let words: Vec<&str> = text.split_whitespace().collect();
    let at = |(place, word): (usize, &&str)| {
        let end = word
            .char_indices()
            .find(|(at, c)| !(c.is_ascii_digit() || (*at == 0 && *c == '-')))
            .map_or(word.len(), |(at, _)| at);
        let (figure, unit) = word.split_at_checked(end)?;
        let unit = if unit.is_empty() { words.get(place + 1).copied().unwrap_or_default() } else { unit };
        let figure: i64 = figure.parse().ok()?;
        match unit.trim_start_matches('°') {
            "c" => Some(Temperature::from_celsius(Number::whole(figure))),
            "f" => Temperature::from_fahrenheit(Number::whole(figure)).ok(),
            _ => None,
        }
    };
    words.iter().enumerate().filter_map(at).max()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn how_cold_something_is_stored_is_read_from_the_label() {
        for (words, cold, frozen) in [
            ("At 4 °C or below.", true, false),
            ("Below 5°C", true, false),
            ("Below 41 F", true, false),
            ("Chilled.", true, false),
            ("Keep frozen, at -18 °C", false, true),
            ("Cool and dry.", false, false),
            ("In a dark place; chill once it is open.", false, false),
            ("Below 20 °C", false, false),
            ("In the dark, as chilli oil is.", false, false),
            ("Dry; never in the fridge.", false, false),
        ] {
            let how = stored(words);
            assert_eq!((how == KeptAt::Chilled, how == KeptAt::Frozen), (cold, frozen), "{words}");
        }
    }
}
