//! Published recipes: schema.org `Recipe` data, by itself or in a page, put into the same sheet as notes.
//!
//! Every text of the data either finds its place in the file or stands below it as a comment that names whose it is. Where it is
//! guessed what a text means, the line is marked as with notes. Names of properties and what may stand in them are those of the
//! published vocabulary (`tests/data/schemaorg-recipe.json`).

mod attributes;
mod besides;
mod duration;
mod graph;
mod ingredients;
mod page;
mod read;
mod steps;

use super::entry::is_read_as;
use super::gathered::Gathered;
use super::kinds::{self, Kind};
use super::{Draft, Form, words};
use crate::language::syntax::{Content, Key};
use besides::Taken;
use graph::{Graph, Object, get};
use serde_json::Value;
use std::cell::Cell;
use std::collections::HashSet;

/// How deep values are followed, also those that name each other.
const DEEPEST: usize = 24;
/// So many texts of one property are read; more were given by mistake.
const MOST: usize = 500;
/// So many values are looked at in all.
const MOST_VALUES: usize = 200_000;
/// So many words say where a recipe is looked for.
const MOST_FILED: usize = 40;
/// Said of what is left out.
const TOO_MANY: &str = "so many more texts of the data are too long or too many to be written here";
/// The times of the vocabulary, and what a card says of them.
const TIMES: &[&str] = &["prepTime", "cookTime", "performTime", "totalTime"];

/// Makes the first recipe of the data, or the one of that name, into a formula.
///
/// # Errors
/// In plain words: what is wrong with the data, or that there is no recipe in it.
pub(super) fn draft(text: &str, form: Form, name: Option<&str>, otherwise: &str) -> Result<Draft, String> {
    let values = values(text, form)?;
    let graph = Graph::of(&values);
    let recipes = graph.recipes();
    let title = |recipe: &Object| get(recipe, "name").and_then(words_of).unwrap_or_default();
    let of_name = name.and_then(|name| recipes.iter().find(|recipe| Key::new(&title(recipe)) == Key::new(name)));
    let says = |recipe: &&&Object| ingredients::NAMES.iter().chain(steps::NAMES).any(|key| get(recipe, key).is_some());
    let Some(recipe) = of_name.or_else(|| recipes.iter().find(says)).or_else(|| recipes.first()) else {
        return Err(match form {
            Form::Page => "this page says nothing as Recipe data of schema.org, in a script (application/ld+json) or in attributes (itemprop, property); copy its words into a text file and give that",
            _ => "there is no Recipe of schema.org in this data: an object with \"@type\": \"Recipe\"",
        }
        .to_owned());
    };
    let mut source = Source {
        graph: &graph,
        taken: Taken::default(),
        sheet: Gathered::default(),
        decimal_comma: false,
        left: Cell::new(MOST_VALUES),
    };
    source.sheet.made_from("the Recipe data of a page");
    source.recipe(recipe, name);
    for other in recipes.iter().filter(|other| !std::ptr::eq(**other, *recipe)).take(MOST) {
        // One within another is told with it.
        let name = title(other);
        if !name.is_empty() && !holds(recipe, other) {
            let why = "another recipe of this page, which is not taken: give its name to take it";
            source.sheet.last_remark(&name, Some(why));
        }
    }
    let mut draft = source.sheet.finish(otherwise);
    let (lost, left_out) = source.taken.lost(recipe, &draft.text);
    lost.iter().for_each(|line| draft.text.push_str(&format!("# of the page, {line}\n")));
    if left_out > 0 {
        draft.text.push_str(&format!("# of the page, {TOO_MANY}: {left_out}\n"));
    }
    Ok(draft)
}

/// The data of a text; of a page whose scripts tell of no recipe, what its elements say in their attributes.
fn values(text: &str, form: Form) -> Result<Vec<Value>, String> {
    let said = read::values(text, form);
    let tells = |values: &[Value]| !Graph::of(values).recipes().is_empty();
    if form != Form::Page || said.as_deref().is_ok_and(tells) {
        return said;
    }
    let marked = attributes::values(text);
    if tells(&marked) { Ok(marked) } else { said }
}

/// Whether an object lies within another.
fn holds(outer: &Object, inner: &Object) -> bool {
    let mut left: Vec<&Value> = outer.values().collect();
    while let Some(value) = left.pop() {
        match value {
            Value::Object(object) if std::ptr::eq(object, inner) => return true,
            Value::Object(object) => left.extend(object.values()),
            Value::Array(all) => left.extend(all),
            _ => {}
        }
    }
    false
}

/// The first words of a value.
fn words_of(value: &Value) -> Option<String> {
    match value {
        Value::String(text) => Some(page::lines(text).join(" ")).filter(|words| !words.is_empty()),
        Value::Number(number) => Some(number.to_string()),
        Value::Array(all) => all.iter().find_map(words_of),
        Value::Object(object) => object.get("@value").and_then(words_of),
        _ => None,
    }
}

/// What a page says that it makes.
struct Yield<'v> {
    /// How well it says it: what names pieces goes before a bare number.
    rank: usize,
    /// The values that it was read from.
    leaves: Vec<&'v Value>,
    /// They in words.
    text: String,
    /// As the language writes it.
    makes: String,
    /// Why somebody should look at it.
    look: Option<String>,
}

/// Data on its way into the sheet.
struct Source<'v> {
    graph: &'v Graph<'v>,
    taken: Taken,
    sheet: Gathered,
    /// Whether what goes in has a comma before its decimals.
    decimal_comma: bool,
    /// So many more values are looked at: what names itself twice would double at each depth.
    left: Cell<usize>,
}

impl<'v> Source<'v> {
    /// Whether one more value may be looked at.
    fn may_go_on(&self) -> bool {
        let left = self.left.get();
        self.left.set(left.saturating_sub(1));
        left > 0
    }

    fn recipe(&mut self, recipe: &'v Object, name: Option<&str>) {
        match name.map(words::name).filter(|name| !name.is_empty()) {
            Some(name) => {
                let own = get(recipe, "name").filter(|own| words_of(own).as_deref() == Some(name.as_str()));
                own.into_iter().for_each(|own| self.take_all(own));
                self.sheet.title = Some(name);
            }
            None => self.title(recipe),
        }
        self.makes(recipe);
        self.times(recipe);
        self.story(recipe);
        self.author(recipe);
        self.filed_under(recipe);
        self.ingredients(recipe);
        self.sheet.method_of_all();
        self.steps(recipe);
        let (lines, left_out) = self.taken.besides(recipe);
        lines.iter().for_each(|line| self.sheet.last_remark(&format!("of the page, {line}"), None));
        if left_out > 0 {
            self.sheet.last_remark("see the page itself", Some(&format!("{TOO_MANY}: {left_out}")));
        }
    }

    /// The texts of a value that are not yet taken, with where they lie; objects are asked for what they say of themselves.
    fn texts(&self, value: &'v Value, keys: &[&str]) -> Vec<(&'v Value, String)> {
        let mut found = Vec::new();
        self.gather(value, keys, DEEPEST, &mut found);
        found
    }

    fn gather(&self, value: &'v Value, keys: &[&str], deep: usize, found: &mut Vec<(&'v Value, String)>) {
        if deep == 0 || found.len() >= MOST || !self.may_go_on() {
            return;
        }
        match value {
            Value::Array(all) => all.iter().for_each(|value| self.gather(value, keys, deep - 1, found)),
            Value::Object(object) => {
                let object = self.graph.object(value).unwrap_or(object);
                let inside = ["@value", "@list", "@set"].iter().find_map(|key| object.get(*key));
                if let Some(inside) = inside.or_else(|| keys.iter().find_map(|key| get(object, key))) {
                    self.gather(inside, keys, deep - 1, found);
                }
            }
            Value::String(text) => found.push((value, text.clone())),
            Value::Number(number) => found.push((value, number.to_string())),
            _ => {}
        }
    }

    /// Remembers all texts of a value as placed.
    fn take_all(&mut self, value: &Value) {
        match value {
            Value::Array(all) => all.iter().for_each(|value| self.take_all(value)),
            Value::Object(object) => object.values().for_each(|value| self.take_all(value)),
            other => self.taken.take(other),
        }
    }

    fn title(&mut self, recipe: &'v Object) {
        let found = ["name", "headline"].iter().filter_map(|key| get(recipe, key)).find_map(|value| {
            self.texts(value, &["name"])
                .into_iter()
                .find(|(_, text)| !words::name(&page::lines(text).join(" ")).is_empty())
        });
        let Some((value, text)) = found else { return };
        self.taken.take(value);
        let line = page::lines(&text).join(" ");
        let name = words::name(&line);
        if name == line { self.sheet.title = Some(name) } else { self.sheet.titled(name, &line) }
    }

    /// `12 buns`, `Serves 4`, 12, of several the one that names the pieces.
    fn makes(&mut self, recipe: &'v Object) {
        let mut best: Option<Yield<'v>> = None;
        let mut unread = Vec::new();
        for value in ["recipeYield", "yield"].iter().filter_map(|key| get(recipe, key)) {
            let all = match value {
                Value::Array(all) => all.iter().take(MOST).collect(),
                one => vec![one],
            };
            for value in all {
                let (leaves, text) = self.quantity(value);
                let Some((rank, makes, look)) = makes(&text) else {
                    unread.push((leaves, text));
                    continue;
                };
                if best.as_ref().is_none_or(|best| rank > best.rank) {
                    best = Some(Yield { rank, leaves, text, makes, look });
                }
            }
        }
        if let Some(Yield { leaves, text, makes, look, .. }) = best {
            leaves.into_iter().for_each(|leaf| self.taken.take(leaf));
            self.sheet.makes(&makes, look.as_deref(), &text);
        } else if let Some((leaves, text)) = unread.into_iter().find(|(_, text)| !text.is_empty()) {
            leaves.into_iter().for_each(|leaf| self.taken.take(leaf));
            self.sheet.remark(&text, Some("what it makes is not understood"));
        }
    }

    /// The words of a quantity, `{"value": 12, "unitText": "buns"}`, and the texts that they come from.
    fn quantity(&self, value: &'v Value) -> (Vec<&'v Value>, String) {
        let object = value.as_object().and_then(|_| self.graph.object(value));
        let all = match object.filter(|object| object.get("@value").is_none()) {
            Some(object) => {
                let of = |key: &str| get(object, key).map(|value| self.texts(value, &["name"])).unwrap_or_default();
                let (least, most) = (of("minValue"), of("maxValue"));
                let value = of("value");
                let mut all: Vec<(&'v Value, String)> = value;
                if all.is_empty() {
                    all = least.into_iter().take(1).collect();
                    if let Some((_, text)) = all.first_mut().filter(|_| !most.is_empty()) {
                        text.push('-');
                    }
                    all.extend(most.into_iter().take(1));
                }
                ["unitText", "unitCode", "name", "description"].iter().for_each(|key| all.extend(of(key)));
                all
            }
            None => self.texts(value, &["name"]),
        };
        let words = all.iter().map(|(_, text)| page::lines(text).join(" ")).collect::<Vec<String>>().join(" ");
        (all.into_iter().map(|(value, _)| value).collect(), words.replace("- ", "-").trim().to_owned())
    }

    /// Times of the whole are told and not believed: the steps say what is planned.
    fn times(&mut self, recipe: &'v Object) {
        let mut all = Vec::new();
        for key in TIMES {
            let texts = get(recipe, key).map(|value| self.texts(value, &["value", "name"])).unwrap_or_default();
            for (value, text) in texts {
                if let Some(time) = duration::in_words(&text) {
                    self.taken.take(value);
                    all.push(format!("{key} {time}"));
                }
            }
        }
        if !all.is_empty() {
            self.sheet.remark(
                &format!("The page's times: {}. The timeline of `miche card` is that of the steps.", all.join(", ")),
                None,
            );
        }
    }

    fn story(&mut self, recipe: &'v Object) {
        let Some(value) = get(recipe, "description") else { return };
        let texts = self.texts(value, &["text", "name"]);
        let lines: Vec<String> = texts.iter().flat_map(|(_, text)| page::lines(text)).collect();
        if lines.iter().any(|line| line.chars().any(char::is_alphanumeric)) {
            texts.iter().for_each(|(value, _)| self.taken.take(value));
            self.sheet.story(&lines);
        }
    }

    fn author(&mut self, recipe: &'v Object) {
        let Some(value) = get(recipe, "author") else { return };
        let texts = self.texts(value, &["name", "givenName", "legalName"]);
        let mut names: Vec<String> = Vec::new();
        for (value, text) in &texts {
            let words = page::lines(text).join(" ");
            if !words.is_empty() && !names.contains(&words) {
                names.push(words);
            }
            self.taken.take(value);
        }
        if !names.is_empty() {
            self.sheet.by(&names.join(" and "));
        }
    }

    fn filed_under(&mut self, recipe: &'v Object) {
        let (mut names, mut known) = (Vec::new(), HashSet::new());
        for value in ["recipeCategory", "keywords"].iter().filter_map(|key| get(recipe, key)) {
            for (value, text) in self.texts(value, &["name", "termCode"]) {
                self.taken.take(value);
                for said in page::lines(&text).iter().flat_map(|line| line.split([',', ';'])).map(str::trim) {
                    let is_name = |content: &Content| matches!(content, Content::FiledUnder(_));
                    if said.is_empty() || known.contains(&Key::new(said)) {
                        continue;
                    }
                    if names.len() < MOST_FILED
                        && words::name(said) == said
                        && is_read_as(&format!("recipe x\nfiled under {said}"), is_name)
                    {
                        known.insert(Key::new(said));
                        names.push(said.to_owned());
                    } else {
                        self.sheet.last_remark(&format!("of the page, keywords: {said}"), None);
                    }
                }
            }
        }
        if !names.is_empty() {
            self.sheet.filed_under(&names);
        }
    }
}

/// What a recipe makes by the words of the data, how much they say, and what was guessed.
fn makes(text: &str) -> Option<(usize, String, Option<String>)> {
    let bare = text.trim().trim_end_matches('.');
    if !bare.is_empty() && bare.chars().all(|c| c.is_ascii_digit()) {
        return Some((
            0,
            format!("makes {bare} portions"),
            Some("only a number is said, of portions as a rule".to_owned()),
        ));
    }
    let said = kinds::of(bare, bare, false);
    let said = if matches!(said, Kind::Makes(..)) { said } else { kinds::of("", &format!("makes {bare}"), false) };
    let Kind::Makes(makes, look) = said else { return None };
    Some((if look.is_some() { 1 } else { 2 }, makes, look))
}
