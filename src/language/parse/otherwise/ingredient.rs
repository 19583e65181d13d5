//! An ingredient written otherwise: `butter, soft .... 60 g`, `60 g butter`, `- butter .... 60 g`.

use super::super::{LineParser, Rule};
use super::SaidHere;
use crate::language::no_name::is_outside_names;
use crate::measure::in_text;
use crate::measure::loose::{Loose, loose};
use crate::measure::unit::{Dimension, Unit};
use pest::Parser;

/// Signs that begin an item of a list.
const BULLETS: &[char] = &['-', '*', '•', '·', '–', '—', '+', '▢', '□', '☐'];

/// How much of a text is the mark of a list and the blanks behind it: nothing where it has none.
pub(in super::super) fn bullet(text: &str) -> usize {
    let Some(rest) = text.strip_prefix(BULLETS) else { return 0 };
    let after = rest.trim_start();
    if after.len() < rest.len() && !after.is_empty() { text.len() - after.len() } else { 0 }
}

/// Whether a line is read as an ingredient.
fn is_ingredient(line: &str) -> bool {
    LineParser::parse(Rule::ingredient_line, line).is_ok()
}

/// `butter .... 60 g, soft` for `butter, soft .... 60 g`: what describes it stands behind the amount.
pub(in super::super) fn described_before(text: &str) -> Option<SaidHere> {
    let dots = text.find("..").or_else(|| text.find('…'))?;
    let (before, behind) = text.split_at_checked(dots)?;
    let (name, described) = before.split_once(',')?;
    let amount = behind.trim_start_matches(['.', '…']);
    let leader = behind.get(..behind.len() - amount.len())?;
    let ends = amount.find([',', '[']).unwrap_or(amount.len());
    let (amount, rest) = amount.split_at_checked(ends)?;
    let rest = if rest.starts_with('[') { format!(" {rest}") } else { rest.to_owned() };
    let line = format!("{} {leader} {}, {}{rest}", name.trim(), amount.trim(), described.trim());
    (!described.trim().is_empty() && is_ingredient(&line)).then(|| SaidHere {
        help: format!("what describes it stands behind the amount: `{}, {}`", amount.trim(), described.trim()),
        instead: Some(line),
    })
}

/// `butter .... 60 g` for `60 g butter`, with or without the mark of a list: the name stands first.
pub(in super::super) fn amount_first(text: &str) -> Option<SaidHere> {
    let text = text.get(bullet(text)..)?.trim_end();
    if !text.starts_with(|c: char| c.is_numeric()) {
        return None;
    }
    let figure = in_text::number_at(text);
    let rest = text.get(figure.len()..)?;
    let rest = rest.trim_start();
    // `1. Rest the dough` is a number of a list, and no formula is computed with a range.
    if figure.ends_with('.') || figure.contains(['-', '–', '—']) {
        return None;
    }
    let word = rest.get(..rest.find(|c: char| !(c.is_alphabetic() || c == '%')).unwrap_or(rest.len()))?;
    let is_measure = |unit: Unit| matches!(unit.dimension(), Dimension::Mass | Dimension::Volume);
    let unit = Unit::from_word(word).filter(|unit| is_measure(*unit)).map(|unit| unit.word(false));
    // `220 C` and `2 h at 24 C` measure no ingredient.
    if word != "%" && Unit::from_word(word).is_some_and(|unit| !is_measure(unit)) {
        return None;
    }
    let meant = || Unit::meant_by(word).filter(|meant| Unit::from_word(meant).is_some_and(is_measure));
    let (unit, name) = match unit.or_else(meant).or((word == "%").then_some("%")) {
        Some(unit) => (Some(unit), rest.get(word.len()..)?.trim_start_matches(['.', ' ']).trim_start()),
        None => (None, rest),
    };
    let name = name.strip_prefix("of ").unwrap_or(name).trim();
    let (name, described) =
        name.split_once(',').map_or((name, None), |(name, described)| (name.trim(), Some(described.trim())));
    let words: Vec<String> = name.split_whitespace().map(str::to_lowercase).collect();
    let is_name = (1..=4).contains(&words.len())
        && name.chars().all(|c| c.is_alphabetic() || matches!(c, ' ' | '-' | '\''))
        && ![words.first(), words.last()].into_iter().flatten().any(|word| is_outside_names(word));
    let amount = unit.map_or_else(|| figure.to_owned(), |unit| format!("{figure} {unit}"));
    let described = described.filter(|described| !described.is_empty()).map(|described| format!(", {described}"));
    let line = format!("{name} .... {amount}{}", described.unwrap_or_default());
    (is_name && is_ingredient(&line)).then(|| SaidHere::write(line))
}

/// `nutmeg .... to taste` for `a pinch of nutmeg`.
pub(in super::super) fn of_a_little(text: &str) -> Option<SaidHere> {
    let text = text.get(bullet(text)..)?.trim_end();
    let lower = text.to_lowercase();
    let behind = ["a ", "an ", "some ", "good ", "small ", "large ", "generous "];
    let mut rest = lower.as_str();
    while let Some(shorter) = behind.iter().find_map(|word| rest.strip_prefix(word)) {
        rest = shorter;
    }
    let (word, of) = rest.split_once(" of ")?;
    let name = text.get(text.len() - of.len()..)?.trim();
    let line = format!("{name} .... to taste");
    (loose(word) == Some(Loose::Hand) && name.split_whitespace().count() <= 4 && is_ingredient(&line))
        .then(|| SaidHere::write(line))
}

/// What is missing where only a name stands: `flour for dusting`, `oil, for the tin`, `a pinch of nutmeg`.
pub(in super::super) fn without_amount(text: &str) -> Option<SaidHere> {
    let text = text.get(bullet(text)..)?.trim();
    let lower = text.to_lowercase();
    let (name, purpose) =
        lower.split_once(" for ").map(|(name, purpose)| (name.trim_end_matches(',').to_owned(), purpose))?;
    let is_purpose = [
        "dusting",
        "greasing",
        "brushing",
        "frying",
        "sprinkling",
        "the tin",
        "the tins",
        "tin",
        "tins",
        "the board",
        "the bench",
        "the table",
        "the pan",
        "serving",
        "finishing",
        "rolling",
    ]
    .iter()
    .any(|known| purpose == *known || purpose.starts_with(&format!("{known} ")));
    let is_name = !name.is_empty()
        && name.split_whitespace().count() <= 4
        && name.chars().all(|c| c.is_alphabetic() || matches!(c, ' ' | '-' | '\''));
    (is_purpose && is_name).then(|| {
        SaidHere::help(format!("an ingredient has an amount: `{name} for {purpose} .... 10 g, aside`, or `to taste` where it is not weighed"))
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn instead(said: Option<SaidHere>) -> Option<String> {
        said.and_then(|said| said.instead)
    }

    #[test]
    fn what_describes_it_moves_behind_the_amount() {
        assert_eq!(instead(described_before("butter, soft .... 60 g")).as_deref(), Some("butter .... 60 g, soft"));
        assert_eq!(
            instead(described_before("butter, in dice, cold .... 60 g, optional [hand]")).as_deref(),
            Some("butter .... 60 g, in dice, cold, optional [hand]")
        );
        assert_eq!(described_before("butter .... 60 g, soft"), None);
        assert_eq!(described_before("butter, soft"), None);
    }

    #[test]
    fn the_name_stands_first() {
        for (text, wanted) in [
            ("60 g butter", "butter .... 60 g"),
            ("* 60g unsalted butter, soft", "unsalted butter .... 60 g, soft"),
            ("- 2 eggs", "eggs .... 2"),
            ("1 1/2 cups of milk", "milk .... 1 1/2 cups"),
            ("2 tablespoons honey", "honey .... 2 tbsp"),
            ("65 % water", "water .... 65 %"),
        ] {
            assert_eq!(instead(amount_first(text)).as_deref(), Some(wanted), "{text}");
        }
        for text in [
            "1. Rest the dough.",
            "12 x 82 g",
            "220 C",
            "Rest the dough.",
            "2 h at 24 C",
            "3 folds of it all in the first two hours",
        ] {
            assert_eq!(amount_first(text), None, "{text}");
        }
    }

    #[test]
    fn a_little_is_to_taste() {
        assert_eq!(instead(of_a_little("a pinch of nutmeg")).as_deref(), Some("nutmeg .... to taste"));
        assert_eq!(
            instead(of_a_little("- good handful of flat Parsley")).as_deref(),
            Some("flat Parsley .... to taste")
        );
        assert_eq!(of_a_little("a tin of tomatoes"), None);
    }

    #[test]
    fn bullets_are_seen() {
        assert_eq!(bullet("- butter"), 2);
        assert_eq!(bullet("•  butter"), "•  ".len());
        assert_eq!(bullet("-butter"), 0);
        assert_eq!(bullet("butter"), 0);
    }
}
