//! What goes in, by the data: lines of text, quantities with a name, lists of either, with or without a heading.

use super::super::kinds::{self, Kind};
use super::super::{ingredient, separators, words};
use super::graph::{Object, get};
use super::{DEEPEST, MOST, Source, page};
use crate::language::syntax::Key;
use crate::model::larder::Larder;
use serde_json::Value;

/// The properties that list what goes in, the usual one first.
pub(super) const NAMES: &[&str] = &["recipeIngredient", "ingredients", "supply"];
/// What the items of a list stand under.
const ITEMS: &[&str] = &["itemListElement", "ingredients", "recipeIngredient", "item"];
/// What says how much; as numbers are given with them, units too.
const AMOUNTS: &[&str] = &["requiredQuantity", "amount", "quantity", "value", "minValue"];
const UNITS: &[&str] = &["unitText", "unit", "unitCode"];
/// What says of what, and what else is said of it.
const SAID: &[&str] = &["name", "ingredient", "text", "item"];
const BESIDES: &[&str] = &["description", "note", "notes"];
/// Codes of units (UN/ECE Recommendation 20, from memory) as people write them.
const CODES: &[(&str, &str)] = &[
    ("GRM", "g"),
    ("KGM", "kg"),
    ("MGM", "mg"),
    ("MLT", "ml"),
    ("CLT", "cl"),
    ("DLT", "dl"),
    ("LTR", "l"),
    ("ONZ", "oz"),
    ("LBR", "lb"),
];
/// A longer line is kept as words.
const LONGEST: usize = 600;

impl<'v> Source<'v> {
    /// All that goes in, of the first property that lists any.
    pub(super) fn ingredients(&mut self, recipe: &'v Object) {
        let mut left = MOST;
        let mut said = Vec::new();
        NAMES.iter().filter_map(|key| get(recipe, key)).for_each(|value| texts_in(value, &mut said));
        self.decimal_comma = separators::has_decimal_comma(said.into_iter(), false);
        for value in NAMES.iter().filter_map(|key| get(recipe, key)) {
            self.list(value, DEEPEST, &mut left);
            if left < MOST {
                return;
            }
        }
    }

    fn list(&mut self, value: &'v Value, deep: usize, left: &mut usize) {
        if deep == 0 || *left == 0 || !self.may_go_on() {
            return;
        }
        match value {
            Value::Array(all) => all.iter().for_each(|value| self.list(value, deep - 1, left)),
            Value::Object(_) => {
                let Some(object) = self.graph.object(value) else { return };
                let inside = ["@value", "@list", "@set"].iter().find_map(|key| object.get(*key));
                if let Some(inside) = inside {
                    self.list(inside, deep - 1, left);
                    return;
                }
                // A text under `item` is a name, anything else there or a list is more of the list.
                let items =
                    ITEMS.iter().filter_map(|key| get(object, key)).find(|value| value.is_array() || value.is_object());
                match items {
                    Some(items) => {
                        if let Some(heading) = get(object, "name").and_then(|name| self.one_text(name)) {
                            self.sheet.part(&heading);
                        }
                        self.list(items, deep - 1, left);
                    }
                    None => self.quantity_of(object, left),
                }
            }
            Value::String(text) => {
                for line in page::lines(text) {
                    if *left == 0 {
                        // The whole text stands below, where nothing takes it.
                        return;
                    }
                    *left -= 1;
                    self.line(&line);
                }
                self.taken.take(value);
            }
            Value::Number(number) => {
                *left -= 1;
                self.line(&number.to_string());
                self.taken.take(value);
            }
            _ => {}
        }
    }

    /// The words of a value that is one text, as placed; as a heading, a name.
    fn one_text(&mut self, value: &'v Value) -> Option<String> {
        let texts = self.texts(value, &["name"]);
        let [(leaf, text)] = texts.as_slice() else { return None };
        let line = page::lines(text).join(" ");
        let name = words::name(&line);
        if name.is_empty() || name != line.trim_end_matches(':') {
            return None;
        }
        self.taken.take(leaf);
        Some(name)
    }

    /// `{"name": "rye flour", "value": 200, "unitText": "g"}` as a line.
    fn quantity_of(&mut self, object: &'v Object, left: &mut usize) {
        let mut leaves = Vec::new();
        let mut of = |keys: &[&str]| {
            let value = keys.iter().find_map(|key| get(object, key));
            let (mut all, words) = value.map(|value| self.quantity(value)).unwrap_or_default();
            leaves.append(&mut all);
            CODES.iter().find(|(code, _)| *code == words).map_or(words, |(_, unit)| (*unit).to_owned())
        };
        let (amount, unit, name, more) = (of(AMOUNTS), of(UNITS), of(SAID), of(BESIDES));
        // A unit within the amount may be a code.
        let amount =
            amount.split(' ').map(|word| CODES.iter().find(|(code, _)| *code == word).map_or(word, |(_, unit)| *unit));
        let mut line = amount.collect::<Vec<&str>>().join(" ");
        for words in [unit, name] {
            if !words.is_empty() {
                line.push_str(if line.is_empty() { "" } else { " " });
                line.push_str(&words);
            }
        }
        if !more.is_empty() {
            line.push_str(if line.is_empty() { "" } else { ", " });
            line.push_str(&more);
        }
        if line.is_empty() {
            return;
        }
        *left -= 1;
        self.line(&line);
        leaves.into_iter().for_each(|leaf| self.taken.take(leaf));
    }

    fn line(&mut self, line: &str) {
        let settled = self.decimal_comma.then(|| separators::settled(line));
        let line = settled.as_deref().unwrap_or(line);
        if line.len() > LONGEST {
            self.sheet.keep(line, "too long to be read");
            return;
        }
        // What begins with `1. ` here is hardly a numbered list.
        let bare = match words::without_mark(line, 0) {
            (bare, None) => bare,
            _ => line,
        };
        if let Kind::Part(name, aside) = kinds::of(line, bare, false)
            && (line.trim_end().ends_with(':') || line.to_lowercase().starts_with("for ") || !is_known(&name))
        {
            self.sheet.part(&name);
            aside.into_iter().for_each(|aside| self.sheet.heading_says(&aside, line));
        } else if let Some(read) = ingredient::listed(bare) {
            self.sheet.ingredients(read, line);
        } else if line.chars().any(char::is_alphanumeric) {
            self.sheet.keep(line, "is this an ingredient?");
        }
    }
}

/// All the texts within a value.
fn texts_in<'v>(value: &'v Value, texts: &mut Vec<&'v str>) {
    match value {
        Value::String(text) => texts.push(text),
        Value::Array(all) => all.iter().for_each(|value| texts_in(value, texts)),
        Value::Object(object) => object.values().for_each(|value| texts_in(value, texts)),
        _ => {}
    }
}

fn is_known(name: &str) -> bool {
    Larder::new().find(&Key::new(name)).is_some()
}
