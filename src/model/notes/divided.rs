//! `Divide into 12 pieces of 145 g`: how a dough is divided, read from prose.

use super::amount;
use super::measure::measure;
use super::piece_weight::divided_in_a_clause;
use super::words::{self, sentences};
use crate::measure::number::Number;

/// Words with which a dough is divided.
const VERBS: [&str; 5] = ["divide", "scale", "portion", "divided", "scaled"];
/// Words that divide a dough only with all of `8 rounds of 140 g` behind them: butter is cut, too.
const CUT: [&str; 4] = ["cut", "stamp", "shape", "form"];
/// A dough is in no more pieces than this; more is another figure.
const MOST: i64 = 100_000;

/// Into how many pieces of what weight a text says that something is divided, as the language writes it: `12 x 145 g`.
///
/// `makes`: how many the recipe makes, for a text that gives the weight only.
pub(super) fn divided(text: &str, makes: Option<Number>) -> Option<String> {
    sentences(text).find_map(|sentence| divided_in(sentence, makes)).or_else(|| divided_in_a_clause(text))
}

/// Whether a line by itself tells how the dough is divided, and is no ingredient called `cut out 8 rounds of`.
pub(super) fn is_told(line: &str) -> bool {
    let first = words::all_of(line).next().map(|word| word.to_lowercase()).unwrap_or_default();
    (VERBS.contains(&first.as_str()) || CUT.contains(&first.as_str())) && divided(line, None).is_some()
}

fn divided_in(text: &str, makes: Option<Number>) -> Option<String> {
    let lower = text.to_lowercase();
    // Places are those of the small letters only where both are as long.
    if lower.len() != text.len() {
        return None;
    }
    let mut words = lower.split_inclusive(|c: char| !c.is_alphabetic()).scan(0_usize, |at, piece| {
        let start = *at;
        *at += piece.len();
        Some((start, piece))
    });
    let word = |piece: &str| piece.trim_end_matches(|c: char| !c.is_alphabetic()).to_owned();
    let is_verb = |piece: &str| VERBS.contains(&word(piece).as_str()) || CUT.contains(&word(piece).as_str());
    let (start, verb) = words.find(|(_, piece)| is_verb(piece))?;
    let is_cut = CUT.contains(&word(verb).as_str());
    let mut rest = text.get(start..)?;
    // `Cut the lard into 8 pieces of 15 g` divides lard.
    let lead = rest.find(char::is_numeric).and_then(|at| rest.get(verb.len()..at)).unwrap_or_default();
    if is_cut && words::all_of(lead).any(|word| !["out", "into", "in", "it", "up"].contains(&word.as_str())) {
        return None;
    }
    let (mut pieces, mut weight) = (None, None);
    while let Some(at) = rest.find(|c: char| c.is_numeric()) {
        let here = rest.get(at..)?;
        let (found, after) = measure(here)?;
        let single = found.value.filter(|_| found.look.is_empty());
        if found.is_mass() {
            let before = rest.get(..at).unwrap_or_default().trim_end();
            // `12 balls of 15 g marzipan` are none of the dough.
            let behind = after.trim_start();
            let ends = behind.is_empty()
                || behind.starts_with(['.', ',', ';', ')', '-'])
                || ["each", "and", "then", "pieces"].iter().any(|word| behind.starts_with(word));
            let joined = [" of", " at", "@", " x", "×"].iter().any(|joint| before.ends_with(joint));
            let of_pieces = pieces.is_some() && ends && (joined || behind.starts_with("each"));
            if is_cut && !of_pieces {
                return None;
            }
            weight.get_or_insert(found.shown.clone());
            single?;
        } else if found.unit.is_none() || found.unit == Some(amount::Unit::Counted) {
            // `divide 120 g, rest 10`: behind the weight only `into 10` is a number of pieces.
            let before = rest.get(..at).unwrap_or_default().trim_end();
            let joined = ["into", " x", "×", "makes", "="].iter().any(|joint| before.ends_with(joint));
            let single = single.filter(|_| weight.is_none() || joined);
            pieces = pieces.or(single.and_then(Number::to_whole).filter(|count| (1..=MOST).contains(count)));
        }
        if weight.is_some() && pieces.is_some() {
            break;
        }
        // An amount has at least one character, so this comes to an end.
        rest = if after.len() < here.len() { after } else { break };
    }
    let pieces = pieces.or_else(|| makes.and_then(Number::to_whole))?;
    Some(format!("{pieces} x {}", weight?))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The ways in which bakers write it. Common practice, no source.
    #[test]
    fn how_a_dough_is_divided() {
        let twelve = Some(Number::whole(12));
        for (text, makes, wanted) in [
            ("Divide into 12 pieces of 145 g, ball, rest 1 hour", None, Some("12 x 145 g")),
            ("divide 12 x 145g", None, Some("12 x 145 g")),
            ("Divide the dough into 145 g pieces and round", twelve, Some("12 x 145 g")),
            ("Portion into balls of 2 oz", twelve, Some("12 x 2 oz")),
            ("Turn out, scale at 1.5 kg. Bake 2 of them on a tray.", twelve, Some("12 x 1.5 kg")),
            ("Roll to 4 mm and cut 8 rounds of 140 g.", None, Some("8 x 140 g")),
            ("Cut the lard and butter into 8 pieces of 15 g", None, None),
            ("Cut 2 lemons, add 100 g of sugar", None, None),
            ("Cut 50 g butter into the flour", twelve, None),
            ("Knock back, 24 @ 95g, rest 10 min", None, Some("24 x 95 g")),
            ("Prove 2 h @ 27 C, 20 min", None, None),
            ("Divide into 12", None, None),
            ("Divide into 145 g pieces", None, None),
            ("Scale at 145-150 g", twelve, None),
            ("Divide in half. Bake 200 g of it", twelve, None),
            ("Undivided attention for 145 g", twelve, None),
        ] {
            assert_eq!(divided(text, makes).as_deref(), wanted, "{text}");
        }
    }
}
