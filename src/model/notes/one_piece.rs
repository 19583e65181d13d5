//! What one piece weighs, on a line of its own: `1100 g per tin`, `90 g each`, `18 pcs à 55 g`. It is no ingredient: a part is divided by it.

use super::Place;
use super::amount::Unit;
use super::entry::Item;
use super::gathered::Gathered;
use super::kinds::{self, is_product};
use super::measure::measure;
use super::part::{Part, main_part};
use super::words;
use crate::language::for_each::is_for_each;
use crate::measure::number::Number;

/// What such a line says.
#[derive(Debug, PartialEq, Eq)]
enum Told {
    /// What one weighs.
    Each(String),
    /// How many there are and what one weighs.
    Pieces(i64, String),
}

/// What joins the weight of one to their number.
const JOINTS: [&str; 8] = ["à ", "@", "at ", "of ", "x ", "× ", "je ", "a "];

fn told(bare: &str) -> Option<Told> {
    let (first, rest) = measure(bare.trim_end_matches(['.', ';']))?;
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
    let noun = behind.split(' ').next().filter(|word| is_product(word) || *word == "pcs").unwrap_or_default();
    let each = behind.get(noun.len()..)?.trim_start();
    let each = JOINTS.iter().find_map(|joint| each.strip_prefix(joint))?.trim_start();
    let (each, rest) = measure(each).filter(|(each, _)| each.is_mass() && each.look.is_empty())?;
    (rest.trim().is_empty() || is_for_one(rest)).then_some(Told::Pieces(pieces, each.shown))
}

/// `each`, `per tin`, `a loaf`, `each large tin`: for one piece.
fn is_for_one(rest: &str) -> bool {
    let lower = rest.trim().trim_start_matches(['/', ' ']).to_lowercase();
    let said: Vec<String> = words::all_of(&lower).collect();
    let by = said.first().is_some_and(|word| ["each", "per", "a", "an", "pro", "je"].contains(&word.as_str()));
    let slash = rest.trim_start().starts_with('/');
    let noun = said.last().is_some_and(|word| is_product(word));
    let few = said.len() <= 4 && !lower.contains([',', '(']) && !lower.contains(char::is_numeric);
    is_for_each(&lower) || few && noun && (by && said.len() > 1 || slash)
}

impl Place<'_> {
    /// Takes a line for what one piece weighs; whether it is one.
    pub(super) fn weighs_one_piece(&self, line: &str, bare: &str, sheet: &mut Gathered) -> bool {
        match told(bare) {
            Some(Told::Each(each)) => sheet.one_weighs(each, line),
            // `12 buns of 80 g` says what they are called.
            Some(Told::Pieces(..)) if !sheet.says_what_it_makes() && kinds::bare_makes(bare).is_some() => return false,
            // What names nothing and is said nowhere else is what the batch makes.
            Some(Told::Pieces(pieces, _)) if !sheet.says_what_it_makes() => {
                sheet.makes(&format!("makes {pieces} pieces"), Some("is this what it makes?"), line);
            }
            Some(Told::Pieces(pieces, each)) if sheet.pieces == Some(Number::whole(pieces)) => {
                sheet.one_weighs(each, line)
            }
            Some(Told::Pieces(pieces, each)) => sheet.divide(&format!("{pieces} x {each}"), line),
            None => return false,
        }
        true
    }
}

impl Gathered {
    fn one_weighs(&mut self, each: String, line: &str) {
        match &self.each {
            None => {
                self.each = Some((each, line.to_owned()));
                self.each_apart = true;
            }
            Some(_) => self.keep(line, "what one weighs was said before"),
        }
    }

    fn divide(&mut self, pieces: &str, line: &str) {
        let at = main_part(&self.parts, Part::has_flour);
        match at.and_then(|at| self.parts.get_mut(at)).filter(|part| !part.divided) {
            Some(part) => {
                part.divided = true;
                let why = "is the dough divided so? Another number is said elsewhere".to_owned();
                part.ingredients.push(Item::new(format!("divide {pieces}"), line, Some(why)));
            }
            None => self.keep(line, "how it is divided is said before, or nothing is listed that could be"),
        }
    }

    /// Divides the part into which most goes, where what each piece weighs is said and nothing else divides one.
    pub(super) fn divide_as_titled(&mut self) {
        let Some((each, line)) = self.each.take() else { return };
        // What it makes is said on the same line, which stands in the file already.
        let is_seen = !self.each_apart;
        if self.parts.iter().any(|part| part.divided) {
            if !is_seen {
                self.head
                    .push(Item::remark(&line, Some("what one weighs; a part is divided already: is it the same?")));
            }
            return;
        }
        let Some(pieces) = self.pieces.and_then(Number::to_whole) else {
            if !is_seen {
                self.head.push(Item::remark(
                    &line,
                    Some("how many there are is not said: write `divide 12 x 90 g` into the dough"),
                ));
            }
            return;
        };
        // A dough of buckwheat and rice calls nothing flour.
        let only = || (self.parts.len() == 1).then_some(0);
        let at = main_part(&self.parts, Part::has_flour).or_else(only);
        if let Some(part) = at.and_then(|at| self.parts.get_mut(at)) {
            let why = if is_seen {
                "read from what it makes"
            } else {
                "what one weighs is said, and how many there are elsewhere"
            };
            part.ingredients.push(Item::new(format!("divide {pieces} x {each}"), &line, Some(why.to_owned())));
        } else {
            self.head.push(Item::remark(
                &line,
                Some("what each weighs is said, and nothing is listed that could be divided"),
            ));
        }
    }
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
            ("12 buns of 80 g each", Some(Told::Pieces(12, "80 g".to_owned()))),
            ("500 g bread flour", None),
            ("2 x 400 g tins of tomatoes", None),
            ("500 g tin tomatoes", None),
            ("3 eggs", None),
            ("100 g a strong flour", None),
        ] {
            assert_eq!(told(line), said, "{line}");
        }
    }
}
