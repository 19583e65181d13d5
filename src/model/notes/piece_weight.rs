//! What one piece weighs, on a line of its own: `1100 g per tin`, `90 g each`, `18 pcs à 55 g`.

use super::amount::Unit;
use super::kinds::is_product;
use super::measure::measure;
use super::words::{self, sentences};
use crate::language::for_each::is_for_each;
use crate::measure::noun;

/// What such a line says.
#[derive(Debug, PartialEq, Eq)]
pub(super) enum Told {
    /// What one weighs.
    Each(String),
    /// How many there are and what one weighs.
    Pieces(i64, String),
}

/// What joins the weight of one to their number.
const JOINTS: [&str; 8] = ["à ", "@", "at ", "of ", "x ", "× ", "je ", "a "];

/// Pieces, or each of them, cut short.
const SHORT: [&str; 4] = ["pc", "pcs", "pce", "ea"];

/// Reads a line of nothing else.
pub(super) fn told(bare: &str) -> Option<Told> {
    let bare = bare.trim_end_matches(['.', ';']);
    if let Some(weight) = behind_a_piece(bare) {
        return Some(Told::Each(weight));
    }
    let (first, rest) = measure(bare)?;
    let value = first.value.filter(|_| first.look.is_empty())?;
    if first.is_mass() {
        return is_for_one(rest).then_some(Told::Each(first.shown));
    }
    if !matches!(first.unit, None | Some(Unit::Counted | Unit::Loose)) {
        return None;
    }
    let pieces = value.to_whole().filter(|count| *count > 0)?;
    let behind = format!("{} {}", first.word, rest.trim());
    let behind = behind.trim().to_lowercase();
    let is_short = |word: &str| SHORT.contains(&word);
    let noun = behind.split(' ').next().filter(|word| is_product(word) || is_short(word)).unwrap_or_default();
    let each = behind.get(noun.len()..)?.trim_start();
    // `12 pcs 90 g` wants no joint.
    let joined = JOINTS.iter().find_map(|joint| each.strip_prefix(joint)).or(is_short(noun).then_some(each));
    let each = joined?.trim_start();
    let (each, rest) = measure(each).filter(|(each, _)| each.is_mass() && each.look.is_empty())?;
    (rest.trim().is_empty() || is_for_one(rest)).then_some(Told::Pieces(pieces, each.shown))
}

/// What a dough is divided into, by one of them.
const DIVIDED: [&str; 6] = ["ball", "boule", "loaf", "p\u{e2}ton", "piece", "bun"];

/// The weight behind what the dough is divided into: `Balls 250 g`, `Dough balls: 250g`, `Loaf weight 800 g`. Of what is bought as well,
/// biscuits or bread, it is an ingredient's.
fn behind_a_piece(bare: &str) -> Option<String> {
    let at = bare.find(|c: char| c.is_ascii_digit())?;
    let (name, weight) = bare.split_at_checked(at)?;
    let said: Vec<String> = words::all_of(name).collect();
    let is_piece = |word: &String| DIVIDED.iter().any(|one| noun::is_one_or_several(word, one));
    let is_said = |word: &String| is_piece(word) || ["dough", "weight", "wt", "each"].contains(&word.as_str());
    let (weight, rest) = measure(weight).filter(|(weight, _)| weight.is_mass() && weight.look.is_empty())?;
    let is_whole = said.iter().any(is_piece) && said.iter().all(is_said) && !name.contains('(');
    (is_whole && (rest.trim().is_empty() || is_for_one(rest))).then_some(weight.shown)
}

/// How a dough is divided by a clause that says nothing else: the `24 @ 95 g` of `Knock back, 24 @ 95 g, rest`.
pub(super) fn divided_in_a_clause(text: &str) -> Option<String> {
    text.split([',', ';']).flat_map(sentences).filter(|clause| clause.contains('@')).find_map(|clause| {
        match told(clause.trim())? {
            Told::Pieces(pieces, each) => Some(format!("{pieces} x {each}")),
            Told::Each(_) => None,
        }
    })
}

/// `each`, `per tin`, `a loaf`, `each large tin`: for one piece.
fn is_for_one(rest: &str) -> bool {
    let lower = rest.trim().trim_start_matches(['/', ' ']).to_lowercase();
    let said: Vec<String> = words::all_of(&lower).collect();
    let by = said.first().is_some_and(|word| ["each", "per", "a", "an", "pro", "je"].contains(&word.as_str()));
    let slash = rest.trim_start().starts_with('/');
    // `80 g pcs`, and not `200 g pieces`.
    if said.len() == 1 && said.first().is_some_and(|word| SHORT.contains(&word.as_str())) {
        return true;
    }
    let noun = said.last().is_some_and(|word| is_product(word));
    let few = said.len() <= 4 && !lower.contains([',', '(']) && !lower.contains(char::is_numeric);
    is_for_each(&lower) || few && noun && (by && said.len() > 1 || slash)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The ways in which bakers write it. Common practice, no source.
    #[test]
    fn what_one_weighs_is_read_in_many_words() {
        let each = |weight: &str| Some(Told::Each(weight.to_owned()));
        for (line, said) in [
            ("1100 g per tin", each("1100 g")),
            ("840 g each tin", each("840 g")),
            ("90 g each", each("90 g")),
            ("840 g a loaf", each("840 g")),
            ("120g/bun", each("120 g")),
            ("18 pcs à 55 g", Some(Told::Pieces(18, "55 g".to_owned()))),
            ("18 @ 92 g", Some(Told::Pieces(18, "92 g".to_owned()))),
            ("12 pcs 90g", Some(Told::Pieces(12, "90 g".to_owned()))),
            ("80 g pce", each("80 g")),
            ("80g pcs", each("80 g")),
            ("4 pieces 30 g ginger", None),
            ("200 g pieces of chocolate", None),
            ("12 buns of 80 g each", Some(Told::Pieces(12, "80 g".to_owned()))),
            ("500 g bread flour", None),
            ("2 x 400 g tins of tomatoes", None),
            ("500 g tin tomatoes", None),
            ("3 eggs", None),
            ("100 g a strong flour", None),
            ("Balls 250 g", each("250 g")),
            ("Dough balls: 250g", each("250 g")),
            ("Loaf 800 g", each("800 g")),
            ("Ball weight 250 g each", each("250 g")),
            ("Biscuits 250 g", None),
            ("Dough 900 g", None),
            ("Loaf sugar 250 g", None),
        ] {
            assert_eq!(told(line), said, "{line}");
        }
    }
}
