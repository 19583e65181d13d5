//! Lines with nothing out of the common, read without pest: most lines of most recipes.
//!
//! `grammar/miche.pest` says what a line means; what is here says the same of its commonest forms, byte by byte. Whatever is
//! not exactly such a form is left to pest (`None`), which alone knows what is wrong with a line. In builds with debug
//! assertions every line that is read here is read by pest too, and both must have found the same (`Reader::parse`).

mod larder;
mod lines;
mod prose;

use super::Rule;
use super::pairs::Sheet;
use crate::text::source::Span;

/// Reads a stretch by a rule; whether it was plain. If not, nothing is in the sheet.
pub(super) fn read(rule: Rule, text: &str, said: Span, sheet: &mut Sheet<'_>) -> bool {
    let bytes = text.as_bytes().get(..said.end as usize).unwrap_or_default();
    let mut scanner = Scanner { bytes, at: said.start as usize, sheet };
    let read = match rule {
        Rule::prose_line => scanner.prose(),
        _ => scanner.line(rule),
    };
    if read.is_none() {
        sheet.clear();
    }
    read.is_some()
}

/// Where reading stands; every method leaves it behind what it read, and gives `None` for what pest has to look at.
struct Scanner<'s, 't> {
    /// The file up to the end of the stretch.
    bytes: &'s [u8],
    at: usize,
    sheet: &'s mut Sheet<'t>,
}

/// Bytes of which a word consists, wherever they stand in it; a dot does by itself, and so do the letters of the languages of
/// western Europe, of which each has two bytes.
const fn is_of_word(byte: u8) -> bool {
    byte.is_ascii_graphic() && !matches!(byte, b'.' | b':' | b',' | b'{' | b'}' | b'[' | b']' | b'#' | b'=' | b'"')
}

/// The first of the two bytes of `à` and its like.
const ACCENTED: u8 = 0xC3;

/// Words behind a number that are no units.
const NO_UNITS: [&[u8]; 7] = [b"of", b"per", b"at", b"after", b"and", b"into", b"then"];

impl Scanner<'_, '_> {
    fn next(&self) -> Option<u8> {
        self.bytes.get(self.at).copied()
    }

    fn rest(&self) -> &[u8] {
        self.bytes.get(self.at..).unwrap_or_default()
    }

    fn blanks(&mut self) {
        while matches!(self.next(), Some(b' ' | b'\t')) {
            self.at += 1;
        }
    }

    /// One byte, and the blanks behind it.
    fn mark(&mut self, mark: u8) -> Option<()> {
        (self.next()? == mark).then_some(())?;
        self.at += 1;
        self.blanks();
        Some(())
    }

    /// The letters that stand here.
    fn letters(&self) -> &[u8] {
        let rest = self.rest();
        rest.get(..rest.iter().take_while(|byte| byte.is_ascii_alphabetic()).count()).unwrap_or_default()
    }

    /// Whether this very word stands here, in capitals or not, and blanks, a mark or nothing behind it.
    fn is_at(&self, word: &str) -> bool {
        let Some((here, behind)) = self.rest().split_at_checked(word.len()) else { return false };
        let ends = behind.first().is_none_or(|byte| matches!(byte, b' ' | b'\t' | b',' | b'[' | b'}'));
        ends && here.eq_ignore_ascii_case(word.as_bytes())
    }

    /// A word that must stand here, and the blanks behind it.
    fn word(&mut self, word: &str) -> Option<()> {
        self.is_at(word).then_some(())?;
        self.at += word.len();
        self.blanks();
        Some(())
    }

    /// Words that must stand here.
    fn words(&mut self, words: &[&str]) -> Option<()> {
        words.iter().try_for_each(|word| self.word(word))
    }

    /// Nothing, a comma or a condition; the last is looked at when the line ends.
    fn ends(&mut self) -> Option<()> {
        self.blanks();
        self.next().is_none_or(|byte| matches!(byte, b',' | b'[')).then_some(())
    }

    /// The end of a line, perhaps behind a condition.
    fn finish(&mut self) -> Option<()> {
        self.blanks();
        if self.next() == Some(b'[') {
            let opened = self.sheet.open(Rule::condition, self.at);
            self.mark(b'[')?;
            self.name(Rule::name)?;
            while self.next() == Some(b',') {
                self.mark(b',')?;
                self.name(Rule::name)?;
            }
            self.mark(b']')?;
            self.sheet.close(opened, self.at);
        }
        (self.at == self.bytes.len()).then_some(())
    }

    /// Passes one word of a name; not at all where none stands.
    fn pass_word(&mut self) {
        while let Some(byte) = self.next() {
            let beside = self.bytes.get(self.at + 1);
            match byte {
                _ if is_of_word(byte) => self.at += 1,
                b'.' if beside != Some(&b'.') => self.at += 1,
                ACCENTED => self.at += 2,
                _ => return,
            }
        }
    }

    /// A name, and the blanks behind it.
    fn name(&mut self, rule: Rule) -> Option<()> {
        self.name_until(rule, |_| false)
    }

    /// A name up to where the rest of the line begins in some way.
    fn name_until(&mut self, rule: Rule, is_end: impl Fn(&[u8]) -> bool) -> Option<()> {
        let start = self.at;
        let mut end = start;
        loop {
            let word = self.at;
            if word > start && is_end(self.rest()) {
                break;
            }
            self.pass_word();
            if self.at == word {
                break;
            }
            end = self.at;
            self.blanks();
            // Only blanks part words.
            if self.at == end {
                break;
            }
        }
        self.sheet.leaf(rule, start, end);
        (end > start).then_some(())
    }

    /// Passes figures.
    fn figures(&mut self) -> Option<()> {
        let start = self.at;
        while self.next().is_some_and(|byte| byte.is_ascii_digit()) {
            self.at += 1;
        }
        (self.at > start).then_some(())
    }

    /// A number in plain figures, and the blanks behind it.
    fn number(&mut self) -> Option<()> {
        let start = self.at;
        self.figures()?;
        if let [b'.', b'0'..=b'9', ..] = self.rest() {
            self.at += 1;
            self.figures()?;
        }
        let opened = self.sheet.open(Rule::number, start);
        self.sheet.leaf(Rule::decimal, start, self.at);
        self.sheet.close(opened, self.at);
        // What goes on in any of these ways is another number, or none.
        if let [b',', b'0'..=b'9', ..] | [b'/' | b'.', ..] | [b'e' | b'E', b'0'..=b'9' | b'+' | b'-', ..] = self.rest()
        {
            return None;
        }
        self.blanks();
        self.next().is_none_or(|byte| byte.is_ascii() && !byte.is_ascii_digit()).then_some(())
    }

    /// A unit where one stands, and the blanks behind it.
    fn unit(&mut self) -> Option<()> {
        if self.next() == Some(b'%') {
            self.sheet.leaf(Rule::unit, self.at, self.at + 1);
            self.at += 1;
        } else {
            let word = self.letters();
            if word.is_empty() || NO_UNITS.iter().any(|other| word.eq_ignore_ascii_case(other)) {
                return Some(());
            }
            let (length, is_in_two) = (word.len(), word.eq_ignore_ascii_case(b"fl"));
            let end = self.at + length;
            if is_in_two || self.bytes.get(end).is_some_and(|byte| !byte.is_ascii()) {
                return None;
            }
            self.sheet.leaf(Rule::unit, self.at, end);
            self.at = end;
        }
        self.blanks();
        Some(())
    }

    /// An amount or a range of one: `30 min`, `16-18 min`, `1 h 30 min`.
    fn quantity(&mut self) -> Option<()> {
        let opened = self.sheet.open(Rule::quantity, self.at);
        let mut end = self.at;
        while self.next().is_some_and(|byte| byte.is_ascii_digit()) {
            let term = self.sheet.open(Rule::term, self.at);
            self.number()?;
            if self.next() == Some(b'-') {
                self.mark(b'-')?;
                self.number()?;
            }
            self.unit()?;
            end = self.at;
            self.sheet.close(term, end);
        }
        self.sheet.close(opened, end);
        // A number may begin in other ways, and a range may have its dash behind a unit.
        let goes_on = self.next().is_some_and(|byte| matches!(byte, b'-' | b'.') || !byte.is_ascii());
        (!goes_on && self.sheet.holds(opened)).then_some(())
    }

    /// One amount said in one or more ways: `190 C = 375 F`.
    fn chain(&mut self) -> Option<()> {
        let opened = self.sheet.open(Rule::chain, self.at);
        self.quantity()?;
        while self.next() == Some(b'=') {
            self.mark(b'=')?;
            self.quantity()?;
        }
        self.sheet.close(opened, self.at);
        Some(())
    }

    /// A rule around what a method reads.
    fn within(&mut self, rule: Rule, read: impl FnOnce(&mut Self) -> Option<()>) -> Option<()> {
        let opened = self.sheet.open(rule, self.at);
        read(self)?;
        self.sheet.close(opened, self.at);
        Some(())
    }
}
