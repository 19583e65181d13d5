//! An ingredient of the notes while it is put together: its amount, its name, and how it is prepared.

use super::amount::{self, DECIMAL, THOUSANDS, Unit};
use super::full_name::named_in_full;
use super::manner::{
    AMONG_WORDS, DONE, HANGERS, HELD_BACK, MANNERS, USES, cut_manner, for_use, holds_another, in_full, is_figure,
    is_grade, is_ratio, temperature, without_brackets, without_spoon,
};
use super::measure::{Measure, leaves_open, measure};
use super::pieces;
use super::sticks;
use super::strength::kind;
use super::vague;
use super::words;
use crate::language::syntax::Key;
use crate::measure::number::Number;
use crate::model::counted::{comes_in_pieces, most_pieces};
use crate::model::larder::Larder;

/// Why a mark stands there.
pub(super) const NO_WEIGHT: &str = "no weight is said";

/// Why a mark stands where a name is all that is said.
pub(super) const NO_AMOUNT: &str = "no amount is said";
/// Why a mark stands at a number that cannot be pieces.
pub(super) const NO_UNIT: &str = "no unit is said";

/// Why a mark stands where an amount is one piece's.
pub(super) const FOR_EACH: &str = "so much for each: for how many?";

/// An ingredient as it was understood.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub(super) struct Read {
    /// Its name.
    pub(super) name: String,
    /// The amount in the language's words.
    pub(super) amount: String,
    /// How it is prepared, with a comma before each.
    pub(super) clauses: Vec<String>,
    /// What was guessed.
    pub(super) look: Vec<String>,
    /// Whether its measure differs between countries.
    pub(super) spoons: bool,
    /// Whether all of it goes in but for something that its words say.
    pub(super) stays_out: bool,
}

impl Read {
    /// Something of which no amount is said.
    pub(super) fn open(name: String) -> Read {
        Read { name, amount: "as needed".to_owned(), ..Read::default() }
    }
}

/// An ingredient while it is put together.
#[derive(Debug, Clone, Default)]
pub(super) struct Made {
    pub(super) read: Read,
    pub(super) first: Option<Measure>,
    /// Whether the name is read, so that what is said again stands behind it.
    pub(super) is_named: bool,
}

impl Made {
    /// Begins with an amount.
    pub(super) fn of(first: Measure) -> Made {
        let mut made = Made::default();
        made.read.look.clone_from(&first.look);
        made.read.amount.clone_from(&first.shown);
        match first.unit {
            Some(Unit::Spoon(_)) => made.read.spoons = true,
            Some(Unit::Loose) => {
                let taste =
                    ["pinch", "pinches", "dash", "dashes", "little"].contains(&first.word.to_lowercase().as_str());
                made.read.amount = if taste { "to taste" } else { "as needed" }.to_owned();
                made.read.clauses.push(first.words());
                made.read.look.push(NO_WEIGHT.to_owned());
            }
            _ => {}
        }
        if let Some(filled) = first.filled.filter(|_| first.unit != Some(Unit::Loose)) {
            made.read.clauses.push(filled.to_owned());
        }
        made.first = Some(first);
        made
    }

    /// Begins with none: `to taste`, `as needed`.
    pub(super) fn open(amount: &str, look: Option<&str>) -> Made {
        let mut made = Made::default();
        made.read.amount = amount.to_owned();
        made.read.look.extend(look.map(str::to_owned));
        made
    }

    /// Takes what more is said of the amount right behind it; gives what follows.
    pub(super) fn more<'t>(&mut self, mut rest: &'t str) -> &'t str {
        loop {
            let text = rest.trim_start();
            match self.another(text) {
                // Each round takes at least one character.
                Some(after) if after.len() < text.len() => rest = after,
                _ => return rest,
            }
        }
    }

    fn another<'t>(&mut self, text: &'t str) -> Option<&'t str> {
        let first = self.first.clone()?;
        if first.is_mass() || first.is_quantity() {
            // `400 g tin chickpeas`.
            if let Some((Unit::Loose, word, after)) = amount::unit(text)
                && amount::is_container(&word.to_lowercase())
                && (after.is_empty() || after.starts_with(' '))
            {
                self.read.clauses.push(word.to_lowercase());
                return Some(after);
            }
        }
        if first.unit.is_none()
            && let Some(after) = self.pack(&first, text)
        {
            return Some(after);
        }
        if let Some(inside) = text.strip_prefix('(') {
            let (inside, after) = inside.split_once(')')?;
            return self.says_again(inside).then_some(after);
        }
        let other = ["/", "=", "|", "or "].into_iter().find_map(|mark| text.strip_prefix(mark));
        if let Some((more, after)) = other.and_then(measure).filter(|(more, _)| more.is_quantity()) {
            // Another column of a table is another batch.
            if more.is_mass() && first.is_mass() && more.value != first.value && more.is_metric() == first.is_metric() {
                self.read.look.push(format!("{} stands beside it", more.shown));
                return Some(after);
            }
            self.also(more, false);
            return Some(after);
        }
        let (more, after) = measure(other.unwrap_or(text))?;
        // `1 cup / 2 sticks / 226 g`: pieces between two weights are how it is sold.
        if first.is_quantity() && other.is_some() && more.has_figure && sticks::is_stick(&more) {
            self.read.clauses.push(more.words());
            return Some(after);
        }
        let ends = after.trim_start().is_empty() || after.trim_start().starts_with([',', ';', ')', '|']);
        let is_share = |measure: &Measure| measure.known() == Some("%");
        // `100% 1000`, `500 100%`: a table whose columns have no unit.
        let is_bare = |measure: &Measure| measure.unit.is_none() && measure.has_figure;
        let fits = (is_share(&first) && (more.is_quantity() || is_bare(&more) && ends))
            || ((first.is_quantity() || is_bare(&first)) && is_share(&more) && ends);
        fits.then(|| {
            self.also(more, false);
            after
        })
    }

    /// Takes words that say the same amount in other units, and nothing else.
    fn says_again(&mut self, words: &str) -> bool {
        let mut rest = words.trim();
        let mut all = Vec::new();
        while let Some((more, after)) = measure(rest) {
            let after = after.trim_start();
            let (each, after) = match after.strip_prefix("each") {
                Some(after) => (true, after.trim_start()),
                None => (false, after),
            };
            if more.unit == Some(Unit::Other) || matches!(more.unit, Some(Unit::Loose | Unit::Counted)) {
                return false;
            }
            all.push((more, each));
            if after.is_empty() {
                rest = "";
                break;
            }
            let Some(next) = ["/", "=", "or ", ","].into_iter().find_map(|mark| after.strip_prefix(mark)) else {
                return false;
            };
            rest = next.trim_start();
        }
        if all.is_empty() || !rest.is_empty() || !all.iter().all(|(more, each)| self.is_same_in_kind(more, *each)) {
            return false;
        }
        for (more, each) in all {
            self.also(more, each);
        }
        true
    }

    /// Whether a second amount can be the first in another unit.
    fn is_same_in_kind(&self, more: &Measure, each: bool) -> bool {
        let Some(first) = &self.first else { return false };
        match (first.unit, more.unit) {
            (Some(Unit::Loose) | None, Some(_)) => more.is_quantity(),
            // How many they are is known by the name only.
            (Some(Unit::Known(_) | Unit::Spoon(_)), Some(_)) => {
                !each && first.known() != more.known() && !first.is_other_weight(more)
            }
            (Some(Unit::Known(_)), None) => first.is_mass() && !each,
            _ => false,
        }
    }

    fn also(&mut self, more: Measure, each: bool) {
        let Some(first) = self.first.clone() else { return };
        self.read.spoons |= matches!(more.unit, Some(Unit::Spoon(_)));
        match first.unit {
            Some(Unit::Loose) if sticks::is_of_all(&first, &more) => {
                self.read.look.retain(|why| why != NO_WEIGHT);
                self.so_many(Some(Number::ONE), &more);
                self.read.look.push(format!("{} are all of them", more.shown));
            }
            // `1/2 sachet (3.5 g)`: of half a one nobody says what a whole one weighs. `2 tins beans (800 g)`: behind the name it is of all.
            Some(Unit::Loose)
                if !each
                    && first.has_figure
                    && (self.is_named && first.value != Some(Number::ONE) || first.is_part()) =>
            {
                self.read.look.retain(|why| why != NO_WEIGHT);
                self.so_many(Some(Number::ONE), &more);
                let or = if first.is_part() { "" } else { ": or is that what each weighs?" };
                self.read.look.push(format!("{} are all of them{or}", more.shown));
            }
            Some(Unit::Loose) => {
                let many = first.value.filter(|_| first.has_figure).or(Some(Number::ONE));
                self.so_many(many, &more);
            }
            None if each => {
                self.read.clauses.push(format!("{} each", more.shown));
                self.read.look.push("what one weighs is said".to_owned());
            }
            // What is surest comes first: sums are made with it.
            None => self.first_is(more, " = "),
            Some(Unit::Known("%")) if more.unit.is_some() => self.first_is(more, " = "),
            _ => {
                self.read.look.extend(more.look);
                self.read.amount = format!("{} = {}", self.read.amount, more.shown);
            }
        }
    }

    fn first_is(&mut self, more: Measure, between: &str) {
        self.read.look.extend(more.look.iter().cloned());
        self.read.amount = format!("{}{between}{}", more.shown, self.read.amount);
        self.first = Some(more);
    }

    /// Takes the words that are left: a name, and after a comma or in brackets how it is prepared.
    pub(super) fn named(mut self, rest: &str) -> Option<Read> {
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

    /// Marks a number without a unit that is larger than a number of such pieces.
    fn ask_unit(&mut self, value: Option<Number>, name: &str, larder: &Larder) {
        let key = Key::new(name);
        let facts = larder.find(&key);
        let most = most_pieces(&key, kind(name, facts.as_deref()), facts.as_deref());
        if value.is_none_or(|value| value > most) {
            self.read.look.push(NO_UNIT.to_owned());
        }
    }

    /// What a bare number is, and a number of cloves or slices, now that it is known of what.
    fn count(&mut self, name: &str, larder: &Larder) {
        let Some(first) = self.first.clone() else { return };
        let key = Key::new(name);
        if let Some((weight, pieces)) = pieces::weight_of_one(&self.read.amount, &key, larder) {
            self.read.amount = pieces;
            self.read.clauses.insert(0, format!("{weight} each"));
            self.read.look.push("what one weighs is said".to_owned());
            return;
        }
        match first.unit {
            Some(Unit::Counted) => {
                let piece = larder.find(&Key::new(&format!("{name} {}", first.word)));
                let own_piece = piece.is_some() && larder.find(&key).is_some_and(|facts| facts.one_weighs.is_some());
                if own_piece || comes_in_pieces(&key) || first.word.to_lowercase().starts_with("piece") {
                    self.read.clauses.insert(0, first.word.to_lowercase());
                } else {
                    self.read.amount = "as needed".to_owned();
                    self.read.clauses.insert(0, first.words());
                    self.read.look.push(NO_WEIGHT.to_owned());
                }
            }
            None if !self.read.amount.contains('=') => self.ask_unit(first.value, name, larder),
            // `100 % = 500`.
            Some(Unit::Known("%")) => {
                let other = self.read.amount.split(" = ").nth(1).and_then(measure);
                if let Some((bare, _)) = other.filter(|(bare, _)| bare.unit.is_none()) {
                    // Beside a share stand pieces only of what is known to come in them: `eggs 12 % 4`, and no `butter sheet 82 % 550`.
                    let weighs = larder.find(&key).is_some_and(|facts| facts.one_weighs.is_some());
                    match weighs {
                        true => self.ask_unit(bare.value, name, larder),
                        false => self.read.look.push(NO_UNIT.to_owned()),
                    }
                }
            }
            _ => {}
        }
    }
}
