//! What stands where a formula has an amount: loose measures, packets, sizes, words for a little.

use super::{SaidHere, behind_about};
use crate::measure::loose::{FILLED, Loose, loose};

/// How one of several pieces is told from others.
const SIZES: &[&str] = &["large", "medium", "small", "big", "whole", "ripe", "xl", "jumbo"];

/// Words for so little that nobody weighs it.
const LITTLE: &[&str] = &["some", "few", "little", "bit", "dusting", "sprinkling", "plenty", "enough", "optional"];

/// What to write for a word behind a number that is no unit. The blanks before it are the caller's to take away where
/// something stands in its place.
pub(in super::super) fn behind_number(word: &str) -> Option<SaidHere> {
    let lower = word.to_lowercase();
    if SIZES.contains(&lower.as_str()) {
        return Some(SaidHere {
            help: "what describes it stands behind a comma".to_owned(),
            instead: Some(format!(", {word}")),
        });
    }
    if FILLED.iter().any(|(filled, _)| *filled == lower) {
        return Some(SaidHere::help(
            "a spoon or a cup is level here: write the spoon alone, or the weight that you mean",
        ));
    }
    Some(SaidHere::help(match word {
        "T" | "t" => "`T` is a tablespoon to some, and `t` a teaspoon: write `tbsp` or `tsp`".to_owned(),
        "bp" | "bps" | "BP" => "a baker's percentage is written `2 %`".to_owned(),
        _ if matches!(lower.as_str(), "dozen" | "dozens" | "doz") => {
            "a dozen is twelve pieces: write the number alone, `24` for two dozen".to_owned()
        }
        _ if matches!(lower.as_str(), "stick" | "sticks") => {
            "a stick of butter is 4 oz in the United States, and cinnamon sticks are counted: write `4 oz` or `113 g` for each, or the number alone"
                .to_owned()
        }
        _ => match loose(&lower)? {
            Loose::Hand => {
                format!("`{word}` says no weight: write one, or a spoon, or `to taste` in the place of it all")
            }
            Loose::Container => format!(
                "a {word} holds more here and less there: write the weight that is in it, and behind a comma what it is bought in, as in `7 g, 1 packet`"
            ),
            Loose::Piece => {
                format!("a number by itself counts pieces: write the number alone, and `{word}` in the name")
            }
        },
    }))
}

/// What to write where no number stands: `about 60 g`, `a knob`, `some`, `pinch`.
pub(in super::super) fn without_number(text: &str) -> Option<SaidHere> {
    let text = text.trim();
    if let Some(rest) = behind_about(text) {
        return Some(SaidHere::write(rest));
    }
    let mut words = text.split_whitespace().map(str::to_lowercase);
    let is_article = |word: &String| matches!(word.as_str(), "a" | "an" | "the" | "one" | "good" | "small" | "large");
    let word = words.find(|word| !is_article(word))?;
    let word = word.trim_end_matches(|c: char| !c.is_alphanumeric());
    let is_loose = LITTLE.contains(&word) || loose(word) == Some(Loose::Hand);
    is_loose.then(|| SaidHere::help("an amount has a number: write a weight, a spoon, or `to taste`"))
}

/// What to write for words between an amount and the next comma: `60 g (soft)`, `60 g - soft`, `10 % of flour`.
pub(in super::super) fn behind_amount(amount: &str, text: &str) -> Option<SaidHere> {
    let of_flour = text.strip_prefix("of ").map(|of| of.trim_start_matches("the ").trim_start_matches("total ").trim());
    if amount.ends_with('%')
        && of_flour.is_some_and(|of| matches!(of, "flour" | "flours" | "flour weight" | "weight of flour"))
    {
        return Some(SaidHere {
            help: format!("percentages are of the flour unless `percent of …` says otherwise: write `{amount}`"),
            instead: Some(String::new()),
        });
    }
    let inner = match text.strip_prefix('(').and_then(|rest| rest.strip_suffix(')')) {
        Some(inner) => inner,
        None => text.strip_prefix(['-', '–', '—', ';', '/', '|'])?,
    };
    let inner = inner.trim();
    let is_words = inner.starts_with(char::is_alphabetic) && !inner.contains(['(', ')', '{', '[', ';']);
    is_words.then(|| SaidHere { help: format!("write `{amount}, {inner}`"), instead: Some(format!(", {inner}")) })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn instead(said: Option<SaidHere>) -> Option<String> {
        said.and_then(|said| said.instead)
    }

    #[test]
    fn words_for_an_amount() {
        assert_eq!(instead(without_number("about 60 g")).as_deref(), Some("60 g"));
        assert_eq!(instead(without_number("~60 g")).as_deref(), Some("60 g"));
        for text in ["a knob", "some", "pinch", "a good pinch", "a little"] {
            assert!(without_number(text).is_some_and(|said| said.help.contains("to taste")), "{text}");
        }
        for text in ["all of it", "half", "the rest", "as much as wanted"] {
            assert_eq!(without_number(text), None, "{text}");
        }
    }

    #[test]
    fn words_behind_an_amount() {
        for text in ["(soft)", "- soft", "; soft", "– soft"] {
            assert_eq!(instead(behind_amount("60 g", text)).as_deref(), Some(", soft"), "{text}");
        }
        assert_eq!(instead(behind_amount("10 %", "of flour")).as_deref(), Some(""));
        for (amount, text) in [("10 g", "of flour"), ("60 g", "/ 2 oz"), ("60 g", "(2 oz)"), ("60 g", "soft")] {
            assert_eq!(behind_amount(amount, text), None, "{text}");
        }
    }

    #[test]
    fn words_behind_a_number() {
        assert_eq!(instead(behind_number("large")).as_deref(), Some(", large"));
        for (word, told) in
            [("cloves", "in the name"), ("packet", "weight that is in it"), ("pinch", "to taste"), ("T", "tbsp")]
        {
            assert!(behind_number(word).is_some_and(|said| said.help.contains(told)), "{word}");
        }
        assert_eq!(behind_number("flurbs"), None);
    }
}
