//! What data says besides: everything of a recipe that no line of the file can hold, each with the name it has there.

use super::super::{amount, words};
use super::graph::{Object, bare};
use super::{duration, page};
use serde_json::Value;
use std::collections::HashSet;

/// So many lines are written, and no more: who writes a recipe does not say more of it.
const MOST: usize = 2000;
/// The longest of them.
const LONGEST: usize = 20_000;

/// The texts of the data that have found a place in the file, by where they lie in memory.
#[derive(Debug, Default)]
pub(super) struct Taken(HashSet<usize>);

impl Taken {
    /// Remembers that a value has its place.
    pub(super) fn take(&mut self, value: &Value) {
        self.0.insert(address(value));
    }

    /// What has none, as `nutrition calories: 270 kcal`, and how many there were too many.
    pub(super) fn besides(&self, recipe: &Object) -> (Vec<String>, usize) {
        told(recipe, &|value, _| !self.0.contains(&address(value)))
    }

    /// What has a place of which a word is missing in the file all the same: one that was read as another, or passed over.
    pub(super) fn lost(&self, recipe: &Object, file: &str) -> (Vec<String>, usize) {
        let there: HashSet<String> = tokens(file).into_iter().collect();
        told(recipe, &|value, words| {
            let is_there = |line: &String| {
                let (number, _) = words::number_of_list(line);
                let mut all = tokens(line.get(number..).unwrap_or(line)).into_iter();
                all.all(|word| there.contains(&word) || says_little(&word))
            };
            let is_time = duration::in_words(words).is_some();
            self.0.contains(&address(value)) && !is_time && !page::lines(words).iter().all(is_there)
        })
    }
}

fn address(value: &Value) -> usize {
    std::ptr::from_ref(value).addr()
}

/// The words and the figures of a text, in small letters; `½` as its two figures, `60g` as a figure and a word.
fn tokens(text: &str) -> Vec<String> {
    let mut all: Vec<String> = Vec::new();
    let mut before = None;
    for character in text.chars() {
        if let Some((_, above, below)) = amount::VULGAR.iter().find(|(vulgar, ..)| *vulgar == character) {
            all.extend([(*above).to_owned(), (*below).to_owned()]);
            before = None;
            continue;
        }
        if character.is_alphanumeric() {
            let goes_on = before == Some(character.is_numeric());
            match all.last_mut().filter(|_| goes_on) {
                Some(word) => word.extend(character.to_lowercase()),
                None => all.push(character.to_lowercase().collect()),
            }
        }
        before = character.is_alphanumeric().then(|| character.is_numeric());
    }
    all
}

/// Words, in small letters, that go where a figure or a line of the language says the same: units, `of`, `makes`.
fn says_little(word: &str) -> bool {
    const LITTLE: &[&str] = &[
        "a", "an", "and", "around", "for", "half", "makes", "of", "quarter", "quarters", "serves", "servings", "some",
        "step", "the", "x", "yield", "yields",
    ];
    const NUMBERS: &[&str] =
        &["one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve", "dozen"];
    LITTLE.contains(&word) || NUMBERS.contains(&word) || amount::is_unit(word)
}

/// Which texts of a recipe are told as they are there.
type Wanted<'w> = &'w dyn Fn(&Value, &str) -> bool;

fn told(recipe: &Object, wanted: Wanted) -> (Vec<String>, usize) {
    let mut rest = Rest { wanted, lines: Vec::new(), left_out: 0, path: Vec::new() };
    rest.of_object(recipe);
    (rest.lines, rest.left_out)
}

struct Rest<'w, 'v> {
    wanted: Wanted<'w>,
    lines: Vec<String>,
    left_out: usize,
    path: Vec<&'v str>,
}

impl<'v> Rest<'_, 'v> {
    fn of_object(&mut self, object: &'v Object) {
        // What begins with `@` says how the data is to be read; but for the words themselves.
        for (key, value) in object.iter().filter(|(key, _)| !key.starts_with('@') || key.as_str() == "@value") {
            let named = !key.starts_with('@');
            if named {
                self.path.push(bare(key));
            }
            self.of(value);
            if named {
                self.path.pop();
            }
        }
    }

    /// A value, whose depth the reader of the data has bounded.
    fn of(&mut self, value: &'v Value) {
        let said = match value {
            Value::Array(all) => return all.iter().for_each(|value| self.of(value)),
            Value::Object(object) => return self.of_object(object),
            Value::Null => return,
            Value::String(text) => text.clone(),
            other => other.to_string(),
        };
        if said.trim().is_empty() || !(self.wanted)(value, &said) {
            return;
        }
        let is_time = self.path.last().is_some_and(|key| key.ends_with("Time") || *key == "duration");
        let words = is_time.then(|| duration::in_words(&said)).flatten();
        let words = words.unwrap_or_else(|| page::lines(&said).join(" "));
        let path = page::lines(&self.path.join(" ")).join(" ");
        let line = format!("{path}: {words}");
        if self.lines.len() < MOST && line.len() < LONGEST {
            self.lines.push(line);
        } else {
            self.left_out += 1;
        }
    }
}
