//! The words behind an amount: what it is called, and how it is prepared.

use super::{FOR_EACH, Made, Read};
use crate::language::syntax::Key;
use crate::measure::number::Number;
use crate::model::counted::{comes_in_pieces, most_pieces};
use crate::model::larder::Larder;
use crate::model::notes::amount::{DECIMAL, THOUSANDS, Unit};
use crate::model::notes::full_name::named_in_full;
use crate::model::notes::manner::{
    AMONG_WORDS, DONE, HANGERS, HELD_BACK, MANNERS, USES, cut_manner, for_use, holds_another, in_full, is_figure,
    is_grade, is_ratio, temperature, without_brackets, without_spoon,
};
use crate::model::notes::measure::{Measure, leaves_open, measure};
use crate::model::notes::sticks;
use crate::model::notes::strength::kind;
use crate::model::notes::vague;
use crate::model::notes::words;

impl Made {
    /// Takes the words that are left: a name, and after a comma or in brackets how it is prepared.
    pub(in crate::model::notes) fn named(mut self, rest: &str) -> Option<Read> {
        let rest = rest.trim_start();
        let rest = ["of ", "x ", "× ", "di ", "de ", "d'", "d\u{2019}"]
            .into_iter()
            .find_map(|word| rest.strip_prefix(word))
            .unwrap_or(rest);
        let rest = rest.strip_prefix("the ").unwrap_or(rest);
        let rest = if self.first.as_ref().is_some_and(|first| first.known() == Some("ml")) {
            without_spoon(rest)
        } else {
            rest
        };
        self.read
            .look
            .extend(vague::rest_of(rest).map(|_| "it is said to be the rest: is it listed above?".to_owned()));
        let rest = vague::rest_of(rest).unwrap_or(rest);
        let (outside, inside) = without_brackets(rest);
        let (name, manner) = cut_manner(&outside);
        let (name, hangers) = self.cut_figures(&name);
        let larder = Larder::new();
        let mut name = words::small(&words::name(&name));
        if let Some((what, use_)) = for_use(&name) {
            self.read.look.extend(use_.split_whitespace().any(is_figure).then(|| AMONG_WORDS.to_owned()));
            self.read.clauses.push(use_);
            self.read.clauses.push("aside".to_owned());
            name = what;
        }
        self.strip_manners(&mut name, &larder);
        self.strip_done(&mut name, &larder);
        // `500 g flour, 50 g held back`: of what stands before it, and nothing by itself.
        let is_held_back = HELD_BACK.contains(&name.to_lowercase().as_str());
        if is_held_back || !name.chars().any(char::is_alphabetic) || name.split_whitespace().count() > 8 {
            return None;
        }
        let facts = larder.find(&Key::new(&name));
        if name.split_whitespace().any(is_figure) && facts.is_none() {
            self.read.look.push("a figure stands in the name".to_owned());
        }
        self.is_named = true;
        for words in hangers.into_iter().chain(manner).chain(inside) {
            match named_in_full(&name, &words, &larder) {
                Some(full) => {
                    self.read.look.push(format!("`{words}` is read as a word of the name"));
                    name = full;
                }
                None => self.clause(&words, &name),
            }
        }
        if let Some((many, one)) = self.first.as_ref().and_then(|first| sticks::weighed(first, &name)) {
            self.so_many(Some(many), &one);
            self.read.look.push(format!("a stick is taken for {}, as in the United States", one.shown));
        }
        self.count(&name, &larder);
        self.read.name = name;
        Some(self.read)
    }

    /// Words before the name that say how it is.
    fn strip_manners(&mut self, name: &mut String, larder: &Larder) {
        let mut before = String::new();
        // `finely chopped walnuts` is taken apart also where `chopped walnuts` is known.
        while (!larder.has_just(&Key::new(name)) || !before.is_empty())
            && let Some((first, behind)) = name.split_once(' ')
            && MANNERS.contains(&first.to_lowercase().as_str())
        {
            let first = first.to_lowercase();
            before.push_str(in_full(&first));
            // `finely chopped` is one thing.
            if before.ends_with("ly") {
                before.push(' ');
            } else {
                self.read.clauses.push(std::mem::take(&mut before));
            }
            *name = behind.to_owned();
        }
        if !before.is_empty() {
            self.read.clauses.push(before.trim_end().to_owned());
        }
    }

    /// Words behind the name that say what was done to it: `onions chopped fine`, where `onions` is known and all of it is not.
    fn strip_done(&mut self, name: &mut String, larder: &Larder) {
        let words: Vec<&str> = name.split_whitespace().collect();
        let done = words.iter().position(|word| DONE.contains(&word.to_lowercase().as_str()));
        let Some(at) = done.filter(|at| *at > 0 && !larder.has_just(&Key::new(name))) else { return };
        let food = words.get(..at).unwrap_or_default().join(" ");
        if larder.find(&Key::new(&food)).is_some() {
            self.read.clauses.push(words.get(at..).unwrap_or_default().join(" "));
            *name = food;
        }
    }

    /// The name without what hangs on it and holds a figure: an amount again, a temperature, `or 3 g instant`.
    fn cut_figures(&mut self, name: &str) -> (String, Vec<String>) {
        let plain = name.trim_end_matches(|c: char| c.is_whitespace() || matches!(c, '.' | '/' | '='));
        let words: Vec<&str> = plain.split_whitespace().collect();
        let some = words
            .iter()
            .position(|word| ["+", "plus", "less", "minus"].contains(&word.to_lowercase().as_str()))
            .filter(|at| *at > 0);
        let off = some.and_then(|at| words.get(at)).filter(|word| word.to_lowercase() != "plus" && **word != "+");
        self.read.look.extend(off.map(|word| format!("the notes say `{word}`: is that taken off?")));
        let Some(figure) = words.iter().position(|word| is_figure(word)) else {
            // `pickle per bread`: so much for each, and how many there are is not said.
            let each = words.iter().position(|word| ["per", "each"].contains(&word.to_lowercase().as_str()));
            if some.is_none() && each.is_some_and(|at| at > 0) {
                self.read.look.push(FOR_EACH.to_owned());
            }
            let at = some.or(each.filter(|at| *at > 0)).unwrap_or(words.len());
            let hung = words.get(at..).unwrap_or_default().join(" ");
            return (words.get(..at).unwrap_or_default().join(" "), vec![hung]);
        };
        let tail = words.get(figure..).unwrap_or_default().join(" ");
        let before = words.get(..figure).unwrap_or_default();
        let known = Larder::new().find(&Key::new(&words::name(plain))).is_some();
        if known || before.is_empty() {
            return (plain.to_owned(), Vec::new());
        }
        // `ground beef 80/20`: of what it is made, and no number of pieces.
        if is_ratio(&tail) {
            return (before.join(" "), vec![tail]);
        }
        let mut at = figure;
        let hangs = before.iter().rposition(|word| HANGERS.contains(&word.to_lowercase().as_str()));
        let bare = before.last().is_some_and(|word| ["/", "=", "-"].contains(word));
        if let Some(hanger) = hangs.filter(|hanger| *hanger > 0) {
            at = hanger;
            while at > 1 && before.get(at - 1).is_some_and(|word| HANGERS.contains(&word.to_lowercase().as_str())) {
                at -= 1;
            }
        } else if temperature(&tail).is_none()
            && !(self.is_number_of_pieces(&tail, &before.join(" ")) && self.says_again(&tail))
        {
            // `300 g rye flour 1150`: the figure is the flour's type.
            return (plain.to_owned(), Vec::new());
        } else if temperature(&tail).is_none() {
            let end = if bare { figure - 1 } else { figure };
            return (words.get(..end).unwrap_or_default().join(" "), Vec::new());
        }
        (words.get(..at).unwrap_or_default().join(" "), vec![words.get(at..).unwrap_or_default().join(" ")])
    }

    /// Words behind a comma or in brackets.
    fn clause(&mut self, words: &str, name: &str) {
        // `cold, diced` in brackets are two; `1,5 g` and what says one amount are not.
        if words.contains(", ") && !words.contains(char::is_numeric) {
            words.split(", ").for_each(|words| self.clause(words, name));
            return;
        }
        let plain = words.replace(DECIMAL, ".").replace(THOUSANDS, "");
        let plain = plain.replace(['[', ']', '{', '}', '#', ',', '*'], " ");
        let plain = plain.split_whitespace().collect::<Vec<&str>>().join(" ");
        let plain = plain.trim_end_matches(['.', '-']).trim().to_owned();
        if plain.is_empty() {
            return;
        }
        if let Some(heat) = temperature(&plain) {
            self.read.clauses.push(heat);
        } else if plain == "set aside" {
            self.read.clauses.push("aside".to_owned());
        } else if USES.contains(&plain.as_str()) {
            // `2 l oil (frying)`.
            self.read.clauses.extend([format!("for {plain}"), "aside".to_owned()]);
        } else if let Some((_, use_)) = for_use(&format!("x {plain}")).filter(|(what, _)| what == "x") {
            self.read.look.extend(use_.split_whitespace().any(is_figure).then(|| AMONG_WORDS.to_owned()));
            self.read.clauses.push(use_);
            self.read.clauses.push("aside".to_owned());
        } else if !self.first.as_ref().is_some_and(Measure::is_quantity) && is_grade(&plain, name) {
            self.read.clauses.push(format!("of {}", plain.replace('%', " %").replace("  ", " ")));
        } else if self.is_number_of_pieces(&plain, name) && self.says_again(&plain) {
        } else {
            let spoon = matches!(self.first.as_ref().and_then(|first| first.unit), Some(Unit::Spoon(_)));
            if spoon && leaves_open(&plain) {
                self.read.look.push(format!("how much is a {plain} one?"));
            }
            if holds_another(&plain) {
                self.read.look.push("something else seems to stand in these words".to_owned());
            }
            if plain.split_whitespace().any(is_figure) && !self.read.look.iter().any(|why| why == AMONG_WORDS) {
                self.read.look.push(AMONG_WORDS.to_owned());
            }
            self.read.look.extend(vague::another(&plain, name));
            self.read.clauses.push(plain);
        }
    }

    /// Whether words that may be a number of pieces are one: only of what is counted.
    fn is_number_of_pieces(&self, words: &str, name: &str) -> bool {
        if is_ratio(words) {
            return false;
        }
        match measure(words) {
            Some((more, _)) if more.unit.is_none() => {
                if more.value.is_some_and(|pieces| !pieces.is_whole()) {
                    return false;
                }
                let facts = Larder::new().find(&Key::new(name));
                most_pieces(&Key::new(name), kind(name, facts.as_deref()), facts.as_deref()) > Number::ZERO
                    && (facts.is_some() || comes_in_pieces(&Key::new(name)))
            }
            _ => true,
        }
    }
}
