//! How long and how cold something is said to keep: by its own `keeps`, or to a buyer by the date and the storage on its label.

use super::statement::{sentences, temperatures};
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

/// What the label says of a part that is sold.
pub(super) fn on_label(recipe: &Recipe, id: PartId, part: &Part) -> Option<Promise> {
    let good = recipe.sale.good_for.as_ref()?;
    if !is_sold(recipe, id, part) {
        return None;
    }
    let by_part = || part.keeps.map(|keeps| keeps.how);
    // `use by` is said of what has to be cold, whether its storage is written down yet or not.
    let left_cold = || part.steps.last().is_some_and(chills) || good.use_by.is_some();
    let how = match &recipe.sale.store {
        Some(words) => *recipe.sale.kept_at.get_or_init(|| stored(words)),
        None => by_part().unwrap_or(if left_cold() { KeptAt::Chilled } else { KeptAt::Unsaid }),
    };
    let by = if good.use_by.is_some() { SaidBy::UseBy } else { SaidBy::BestBefore };
    Some(Promise { time: good.time, how, span: good.span, by })
}

/// For how long a part keeps: by the label where it is sold, else by its own `keeps`.
pub(super) fn time(recipe: &Recipe, id: PartId, part: &Part) -> Option<Duration> {
    let by_label = recipe.sale.good_for.as_ref().filter(|_| is_sold(recipe, id, part)).map(|good| good.time);
    by_label.or_else(|| part.keeps.map(|keeps| keeps.time))
}

/// Whether a part is sold: one that goes into no other.
fn is_sold(recipe: &Recipe, id: PartId, part: &Part) -> bool {
    part.from.is_none() && part.foreign.is_none() && !recipe.is_drawn_on(id)
}

/// How cold the words behind `store` want it; what is done once it is open says nothing of it closed: `Cool and dark. Once opened, in the fridge.`
fn stored(words: &str) -> KeptAt {
    let words = words.to_lowercase();
    let mut how = KeptAt::Unsaid;
    for clause in sentences(&words).iter().flat_map(|sentence| closed(sentence)) {
        let below = temperatures(clause).max();
        if has_word_beginning(clause, ["frozen", "freez"]) || below.is_some_and(is_freezer) {
            return KeptAt::Frozen;
        }
        if is_cold_said(clause, COLD) || below.is_some_and(is_cold) {
            how = KeptAt::Chilled;
        } else if how == KeptAt::Unsaid {
            how = below.map_or(how, KeptAt::At);
        }
    }
    how
}

/// What a sentence says of something until it is opened: from that word on nothing, unless it says `before and after opening`.
fn closed(sentence: &str) -> impl Iterator<Item = &str> {
    let is_of_both = |clause: &str| has_word_beginning(clause, ["before", "until"]);
    let clauses = sentence.split([',', ';']).flat_map(|clause| clause.split(" and "));
    clauses.take_while(move |clause| !has_word_beginning(clause, ["open"]) || is_of_both(clause))
}

/// Whether the words behind `store` want it where it is warm: at more degrees than a refrigerator has and fewer than hot food is held at, or in a room.
pub(super) fn is_stored_warm(words: &str) -> bool {
    let words = words.to_lowercase();
    let is_warm = |at: Temperature| !is_cold(at) && at.celsius() < HELD_HOT;
    let in_a_room = || {
        let all = sentences(&words);
        let mut clauses = all.iter().flat_map(|sentence| closed(sentence));
        clauses.any(|clause| {
            ["room temperature", "ambient", "on the counter", "unrefrigerated"].iter().any(|room| clause.contains(room))
        })
    };
    match stored(&words) {
        KeptAt::At(at) => is_warm(at),
        KeptAt::Unsaid => in_a_room(),
        KeptAt::Chilled | KeptAt::Frozen => false,
    }
}

/// From here on it is held hot, °C (FDA Food Code 3-501.16, from memory).
const HELD_HOT: Number = Number::whole(57);

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
            ("Cool and dark. Once opened, in the fridge.", false, false),
            ("In the dark. After opening, keep at 5 °C and eat within 3 days.", false, false),
            ("At 5 °C, before and after it is opened.", true, false),
            ("At 4.5 °C.", true, false),
            ("Keep in the fridge and eat within 3 days of opening.", true, false),
        ] {
            let how = stored(words);
            assert_eq!((how == KeptAt::Chilled, how == KeptAt::Frozen), (cold, frozen), "{words}");
        }
    }

    #[test]
    fn what_is_stored_warm_says_so() {
        for (words, warm) in [
            ("At 25 °C.", true),
            ("At room temperature.", true),
            ("Cool and dry.", false),
            ("At 5 °C or below.", false),
            ("At 65 °C.", false),
            ("Chilled; serve at room temperature once opened.", false),
            ("Cool and dark. Once opened, at room temperature.", false),
        ] {
            assert_eq!(is_stored_warm(words), warm, "{words}");
        }
    }
}
