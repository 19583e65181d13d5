//! A line that says what one piece weighs is no ingredient: a part is divided by it.

use super::Place;
use super::entry::Item;
use super::gathered::Gathered;
use super::kinds;
use super::part::{Part, main_part};
use super::piece_weight::{Told, told};
use crate::measure::number::Number;

impl Place<'_> {
    /// Takes a line for what one piece weighs; whether it is one.
    pub(super) fn weighs_one_piece(&mut self, line: &str, bare: &str, sheet: &mut Gathered) -> bool {
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
