//! Amounts that stand in the words of a step or a note: of what is listed, or of something that no list has.

use super::amount::Unit;
use super::ingredient::is_known;
use super::measure::{Measure, measure};
use super::pieces::is_in_pieces;
use crate::measure::noun::singular;

/// What is listed: names, and for each its amount as the language writes it.
#[derive(Debug, Clone, Copy)]
pub(super) struct Listed<'l> {
    /// The names.
    pub(super) names: &'l [String],
    /// Their amounts, in the same order.
    pub(super) amounts: &'l [String],
}

impl Listed<'_> {
    /// Whether an amount is all that is listed of a name.
    pub(super) fn is_all_of(&self, name: &str, said: &Measure) -> bool {
        let listed = self.names.iter().zip(self.amounts).find(|(own, _)| *own == name).map(|(_, amount)| amount);
        let listed = listed.and_then(|amount| measure(amount)).map(|(amount, _)| amount);
        listed.is_some_and(|listed| {
            listed.value.is_some() && listed.value == said.value && listed.known() == said.known()
        })
    }
}

/// An amount right before a name: where it begins, and the words between the two.
pub(super) struct Before<'t> {
    /// Where it begins.
    pub(super) start: usize,
    /// How much.
    pub(super) amount: Measure,
    /// `soft` of `60 g soft butter`.
    pub(super) between: &'t str,
}

/// As many bytes before a name are looked through for its amount.
const NEAR: usize = 40;

/// The amount that ends a text, before a name that follows it: `250 ml `, `a pinch of `, `60 g soft `.
pub(super) fn before(text: &str) -> Option<Before<'_>> {
    let near = text.char_indices().map(|(at, _)| at).find(|at| text.len() - at <= NEAR).unwrap_or(0);
    starts_of_words(text).filter(|at| *at >= near).find_map(|start| {
        let (amount, rest) = measure(text.get(start..)?)?;
        let between = rest.trim();
        let words = between.split_whitespace().count();
        let plain = between.chars().all(|c| c.is_alphabetic() || c == ' ' || c == '-');
        let fits = match amount.unit {
            Some(Unit::Other) => false,
            // `in 2 additions`, `day 2`: only what is counted itself stands behind a bare number.
            None => amount.has_figure && between.is_empty(),
            Some(_) => {
                words <= 2
                    && !between.split(' ').any(|word| ["and", "or", "in", "into", "with", "to", "the"].contains(&word))
            }
        };
        let of = between == "of the" || between == "of your";
        (of && amount.unit.is_some() && amount.unit != Some(Unit::Other) || fits && plain).then_some(Before {
            start,
            amount,
            between,
        })
    })
}

/// The amount that begins a text, behind a name that stands before it, and how long both are: ` 280g.`, ` 1 and rest`. Behind it nothing
/// follows that it could be of.
pub(super) fn behind(text: &str) -> Option<(usize, Measure)> {
    let said = text.strip_prefix(':').unwrap_or(text);
    let (opened, said) = match said.trim_start().strip_prefix('(') {
        Some(inside) => (true, inside),
        None => (false, said.strip_prefix(' ')?),
    };
    let (amount, rest) = measure(said).filter(|(amount, _)| amount.has_figure && amount.known() != Some("%"))?;
    let after = if opened { rest.trim_start().strip_prefix(')')? } else { rest };
    // The full stop behind a unit is taken with it.
    let ends = after.is_empty()
        || text.get(..text.len() - after.len()).is_some_and(|said| said.ends_with('.'))
        || after.starts_with([',', ';', '.', ')', '!', ':'])
        || [" and ", " then ", " plus ", " with ", " + "].iter().any(|joint| after.starts_with(joint));
    let is_amount = amount.is_quantity() || amount.unit.is_none() && amount.value.is_some_and(|many| many.is_whole());
    (ends && is_amount).then(|| (text.len() - after.len(), amount))
}

/// Whether an amount of something to eat stands in words and in no braces: `Serve with 20 g butter`, `Glaze with 1 egg`, `Roll-in butter 280g`.
pub(super) fn holds_food(text: &str) -> bool {
    let bare = without_braces(text);
    let is_before = starts_of_words(&bare).any(|start| {
        let Some((amount, rest)) = bare.get(start..).and_then(measure) else { return false };
        let is_amount = amount.is_quantity() || matches!(amount.unit, None | Some(Unit::Counted)) && amount.has_figure;
        let rest = rest.trim_start();
        let rest = rest.strip_prefix("of the ").or_else(|| rest.strip_prefix("of ")).unwrap_or(rest);
        is_amount && amount.known() != Some("%") && begins_with_food(rest)
    });
    is_before || holds_food_with_its_amount(&bare)
}

/// Whether a name that is known stands in words with its amount behind it: `sugar 60g`, `egg 1`.
fn holds_food_with_its_amount(text: &str) -> bool {
    text.match_indices([' ', ':', '(']).any(|(at, _)| {
        let Some((before, (_, amount))) = text.get(..at).zip(text.get(at..).and_then(behind)) else { return false };
        let words: Vec<&str> =
            before.rsplit([',', ';', '.', '(', ':']).next().unwrap_or_default().split_whitespace().collect();
        (1..=words.len().min(3)).any(|many| {
            let name = words.get(words.len() - many..).unwrap_or_default().join(" ");
            is_food(&name) && (amount.is_quantity() || is_in_pieces(&name, amount.value))
        })
    })
}

/// Whether the first words of a text, up to four of them, name something that is known to go in: `fresh yeast, …`.
fn begins_with_food(text: &str) -> bool {
    let clause = text.split([',', ';', '.', '(', ':', '!']).next().unwrap_or_default();
    let words: Vec<&str> = clause.split_whitespace().take(4).collect();
    (0..words.len()).any(|from| {
        (from + 1..=words.len()).any(|to| words.get(from..to).is_some_and(|some| from <= 2 && is_food(&some.join(" "))))
    })
}

/// Whether it is known to go in, whatever it is called in several. What is made, `loaves` or `buns`, is no food of a list.
fn is_food(name: &str) -> bool {
    is_known(name) || is_known(&singular(name))
}

/// A text without what stands in braces.
fn without_braces(text: &str) -> String {
    let mut bare = String::with_capacity(text.len());
    let mut inside = false;
    for character in text.chars() {
        match character {
            '{' => inside = true,
            '}' => inside = false,
            other if !inside => bare.push(other),
            _ => {}
        }
    }
    bare
}

/// Where the words of a text begin.
fn starts_of_words(text: &str) -> impl Iterator<Item = usize> {
    let mut before = ' ';
    text.char_indices().filter_map(move |(at, character)| {
        let begins = !character.is_whitespace() && (before.is_whitespace() || matches!(before, '(' | '/' | '+'));
        before = character;
        begins.then_some(at)
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_amount_stands_before_a_name() {
        for (text, between) in [
            ("Add 250 ml ", Some("")),
            ("Glaze with 1 egg and a pinch of ", Some("of")),
            ("Beat 60 g soft ", Some("soft")),
            ("Stir in 100 ml of the ", Some("of the")),
            ("Add 2 ", Some("")),
            ("Add the ", None),
            ("Knead 12 min. Add ", None),
            ("Add in 2 additions the ", None),
            ("Bake at 200 C, then ", None),
            ("Boil 20 min in ", None),
        ] {
            assert_eq!(before(text).map(|before| before.between), between, "{text}");
        }
    }

    #[test]
    fn food_in_words() {
        for (text, wanted) in [
            ("Serve with 20 g butter.", true),
            ("Glaze with 1 egg", true),
            ("poach in 1.5 l water", true),
            ("100 g dark chocolate shavings, 12 cherries", true),
            ("Bake {20 min} at {200 C} with {butter}", false),
            ("Roll-in butter 280g. Give 3 turns", true),
            ("Sprinkle with sugar (60 g) and rest", true),
            ("Brush with egg 1 and rest 5 min", true),
            ("Bake the dough 20 min, flour 3 turns", false),
            ("Divide into 2 loaves", false),
            ("Bake 20 min at 200 C", false),
            ("Fold 3 times, rest 30 min", false),
        ] {
            assert_eq!(holds_food(text), wanted, "{text}");
        }
    }
}
