//! What is done, by the data: one text, texts, steps, sections of steps.

use super::super::kinds::{self, Kind};
use super::super::words;
use super::graph::{Object, get, is_a};
use super::{DEEPEST, MOST, Source, duration, page};
use serde_json::Value;

/// The properties that say what is done, the usual one first.
pub(super) const NAMES: &[&str] = &["recipeInstructions", "step", "steps"];
/// What the parts of a step or a section stand under.
const ITEMS: &[&str] = &["itemListElement", "steps", "step", "item"];
/// How long a step takes.
const TIMES: &[&str] = &["timeRequired", "performTime", "totalTime"];
/// A step's own name is so many words at most; a longer one is a sentence of it.
const LONGEST_NAME: usize = 4;

/// Where the telling stands.
struct Telling {
    /// So many more steps are read.
    left: usize,
    /// The last number of a numbered list.
    numbered: usize,
}

impl<'v> Source<'v> {
    /// All that is done, of the first property that tells any.
    pub(super) fn steps(&mut self, recipe: &'v Object) {
        let mut telling = Telling { left: MOST, numbered: 0 };
        for value in NAMES.iter().filter_map(|key| get(recipe, key)) {
            match self.only_text(value) {
                Some((leaf, line)) => {
                    self.paragraph(&line, &mut telling);
                    self.taken.take(leaf);
                }
                None => self.told(value, DEEPEST, &mut telling),
            }
            if telling.left < MOST {
                return;
            }
        }
    }

    /// The one line that is all there is.
    fn only_text(&self, value: &'v Value) -> Option<(&'v Value, String)> {
        let value = match value {
            Value::Array(all) => all.first().filter(|_| all.len() == 1)?,
            other => other,
        };
        let mut lines = page::lines(value.as_str()?);
        let line = lines.pop().filter(|_| lines.is_empty())?;
        Some((value, line))
    }

    /// A method in one paragraph: each sentence by itself, since each may be a step.
    fn paragraph(&mut self, line: &str, telling: &mut Telling) {
        let mut start = 0;
        let mut ends: Vec<usize> = Vec::new();
        for (at, mark) in line.match_indices(". ") {
            let behind = line.get(at + mark.len()..).unwrap_or("");
            let before = line.get(start..at).unwrap_or("");
            let number = before.chars().all(|c| c.is_ascii_digit());
            if behind.starts_with(|c: char| c.is_uppercase() || c.is_ascii_digit()) && !number && before.contains(' ') {
                ends.push(at + 1);
                start = at + mark.len();
            }
        }
        ends.push(line.len());
        let mut start = 0;
        for end in ends {
            let sentence = line.get(start..end).unwrap_or("").trim().to_owned();
            start = end;
            self.one(&sentence, None, None, telling);
        }
    }

    fn told(&mut self, value: &'v Value, deep: usize, telling: &mut Telling) {
        if deep == 0 || telling.left == 0 || !self.may_go_on() {
            return;
        }
        match value {
            Value::Array(all) => all.iter().for_each(|value| self.told(value, deep - 1, telling)),
            Value::Object(_) => self.told_object(value, deep, telling),
            Value::String(text) => {
                for line in page::lines(text) {
                    if telling.left == 0 {
                        return;
                    }
                    self.one(&line, None, None, telling);
                }
                self.taken.take(value);
            }
            _ => {}
        }
    }

    fn told_object(&mut self, value: &'v Value, deep: usize, telling: &mut Telling) {
        let Some(object) = self.graph.object(value) else { return };
        if let Some(inside) = ["@value", "@list", "@set"].iter().find_map(|key| object.get(*key)) {
            return self.told(inside, deep - 1, telling);
        }
        let items = ITEMS.iter().find_map(|key| get(object, key));
        let is_step = ["HowToStep", "HowToDirection", "HowToTip"].iter().any(|kind| is_a(object, kind));
        if let Some(items) = items.filter(|_| !is_step) {
            for (leaf, text) in get(object, "name").map(|name| self.texts(name, &[])).unwrap_or_default() {
                self.taken.take(leaf);
                self.sheet.section(&page::lines(&text).join(" "));
                telling.numbered = 0;
            }
            // What a section says before its steps.
            if let Some(text) = get(object, "text") {
                self.told(text, deep - 1, telling);
            }
            return self.told(items, deep - 1, telling);
        }
        self.step(object, items, deep, telling);
    }

    /// A step: its words, those of what it consists of, its name, and how long it takes.
    fn step(&mut self, object: &'v Object, items: Option<&'v Value>, deep: usize, telling: &mut Telling) {
        let keys = ["text", "item", "itemListElement", "name", "description"];
        let mut texts = get(object, "text").map(|text| self.texts(text, &keys)).unwrap_or_default();
        texts.extend(items.map(|items| self.texts(items, &keys)).unwrap_or_default());
        if texts.is_empty() {
            texts = get(object, "description").map(|text| self.texts(text, &keys)).unwrap_or_default();
        }
        let name = get(object, "name").map(|name| self.texts(name, &[])).unwrap_or_default().into_iter().next();
        let mut lines: Vec<String> = Vec::new();
        for (_, text) in &texts {
            // Some pages say the same as `text` and again as what it consists of.
            lines.extend(page::lines(text).into_iter().filter(|line| !lines.contains(line)).collect::<Vec<String>>());
        }
        let mut words = lines.join(" ");
        let mut own = None;
        if let Some((leaf, name)) = &name {
            self.taken.take(leaf);
            let name = page::lines(name).join(" ");
            if words.is_empty() {
                words = name;
            } else if !is_number(&name)
                && !words.to_lowercase().contains(name.trim_end_matches(['.', '…', ':']).to_lowercase().trim())
            {
                let short = words::small(&words::name(&name));
                let is_name = short.split_whitespace().count() <= LONGEST_NAME && !short.contains(char::is_numeric);
                if is_name && short.chars().any(char::is_alphabetic) && words::name(&name).len() + 1 >= name.len() {
                    own = Some(short);
                } else {
                    words = format!("{}. {words}", name.trim_end_matches(['.', ':']));
                }
            }
        }
        let time = TIMES.iter().filter_map(|key| get(object, key)).find_map(|value| {
            self.texts(value, &["value", "name"])
                .into_iter()
                .find_map(|(leaf, text)| Some((leaf, duration::in_words(&text)?)))
        });
        if let Some((leaf, _)) = &time {
            self.taken.take(leaf);
        }
        texts.iter().for_each(|(leaf, _)| self.taken.take(leaf));
        if words.is_empty() {
            // Only what it consists of says anything, and that was too deep to be joined.
            return items.into_iter().for_each(|items| self.told(items, deep - 1, telling));
        }
        self.one(&words, own.as_deref(), time.as_ref().map(|(_, time)| time.as_str()), telling);
    }

    /// A line of what is done.
    fn one(&mut self, line: &str, name: Option<&str>, time: Option<&str>, telling: &mut Telling) {
        let (bare, number) = words::without_mark(line, telling.numbered);
        telling.numbered = number.unwrap_or(telling.numbered);
        if bare.is_empty() {
            if line.chars().any(char::is_alphanumeric) {
                self.sheet.keep(line, "not understood");
            }
            return;
        }
        telling.left = telling.left.saturating_sub(1);
        if let Kind::Part(heading, aside) = kinds::of(line, bare, true)
            && line.trim_end().ends_with(':')
            && name.is_none()
        {
            self.sheet.section(&heading);
            aside.into_iter().for_each(|aside| self.sheet.last_remark(&format!("of the page, {line}: {aside}"), None));
            return;
        }
        self.sheet.gap();
        self.sheet.step(bare, line, name, time);
        self.sheet.gap();
    }
}

/// `Step 3`: a number of a list in words.
fn is_number(name: &str) -> bool {
    let lower = name.to_lowercase();
    let rest = lower.strip_prefix("step").unwrap_or(&lower);
    rest.trim_matches(|c: char| c.is_whitespace() || matches!(c, '.' | ':' | '#' | ')'))
        .chars()
        .all(|c| c.is_ascii_digit())
}
