//! What was read from notes, put together as a file.

use super::Draft;
use super::item::Read;
use super::method;
use super::words;
use crate::language::parse::parse;
use crate::language::syntax::{Content, Key};
use crate::language::tidy::tidy;
use crate::text::diagnostic::Severity;
use crate::text::source::SourceId;
use std::collections::HashSet;

/// The mark of what a person has to look at.
const LOOK: &str = "# look";
/// A paragraph of so many bytes is not put together from more lines: each line reads it again.
const LONGEST_PARAGRAPH: usize = 2000;
/// So many times a text is read again to see which of its lines the language takes.
const MOST_ROUNDS: usize = 20;
/// Where a short line's comment begins.
const COMMENT_COLUMN: usize = 56;

/// Some lines that belong together, and the words of the notes that they come from.
#[derive(Debug, Clone, PartialEq, Eq)]
struct Item {
    lines: Vec<String>,
    origin: String,
    look: Option<String>,
    /// Whether the language took it so far.
    taken: bool,
}

impl Item {
    fn new(line: impl Into<String>, origin: &str, look: Option<String>) -> Item {
        Item { lines: vec![line.into()], origin: origin.to_owned(), look, taken: true }
    }

    /// The lines as they are written.
    fn written(&self) -> Vec<String> {
        let why = self.look.as_deref().map(|why| format!("{LOOK} ({why})"));
        if !self.taken {
            let why = self.look.as_deref().unwrap_or("not understood");
            return vec![format!("{LOOK} ({why}): {}", self.origin)];
        }
        match (self.lines.as_slice(), why) {
            (lines, None) => lines.to_vec(),
            ([one], Some(why)) if !one.starts_with("note ") => {
                let gap = COMMENT_COLUMN.saturating_sub(one.chars().count()).max(2);
                vec![format!("{one}{}{why}: {}", " ".repeat(gap), self.origin)]
            }
            // The words themselves stand below.
            (lines, Some(why)) => std::iter::once(why).chain(lines.iter().cloned()).collect(),
        }
    }
}

/// A part.
#[derive(Debug, Default)]
struct Part {
    name: Option<String>,
    ingredients: Vec<Item>,
    names: Vec<String>,
    keys: HashSet<Key>,
    /// The names that nothing told has taken yet.
    untaken: Vec<String>,
    told: Vec<Item>,
    steps: Vec<Key>,
}

/// Everything that was read.
#[derive(Debug, Default)]
pub(super) struct Gathered {
    /// The recipe's name.
    pub(super) title: Option<String>,
    title_look: Option<Item>,
    makes: Option<Item>,
    head: Vec<Item>,
    parts: Vec<Part>,
    spare: Part,
    /// What is done with the parts together.
    last: Part,
    /// Which part the lines belong to.
    at: usize,
    /// Whether what is told now is told of all parts.
    of_all: bool,
    /// A line that uses spoons or cups.
    spoons: Option<String>,
    grams: bool,
    cups: bool,
    /// Whether the last line was prose that the next may continue.
    open: bool,
}

impl Gathered {
    /// A blank line.
    pub(super) fn gap(&mut self) {
        self.open = false;
    }

    /// A line that is kept as a comment.
    pub(super) fn keep(&mut self, line: &str, why: &str) {
        let item = Item { taken: false, ..Item::new("", line, Some(why.to_owned())) };
        let part = if self.at == usize::MAX { Some(&mut self.last) } else { self.parts.get_mut(self.at) };
        match part {
            Some(part) if !part.told.is_empty() => part.told.push(item),
            Some(part) => part.ingredients.push(item),
            None => self.head.push(item),
        }
    }

    /// The recipe's name, from a line that holds more than a name can.
    pub(super) fn titled(&mut self, name: String, line: &str) {
        self.title_look = Some(Item { taken: false, ..Item::new("", line, Some("this became the name".to_owned())) });
        self.title = Some(name);
    }

    /// A heading over a part.
    pub(super) fn part(&mut self, name: &str) {
        let name = words::small(name);
        self.of_all = false;
        let known = self.parts.iter().position(|part| part.name.as_deref().map(Key::new) == Some(Key::new(&name)));
        self.at = known.unwrap_or_else(|| {
            self.parts.push(Part { name: Some(name), ..Part::default() });
            self.parts.len() - 1
        });
    }

    /// What stands in brackets behind a heading: how long the part keeps, or words.
    pub(super) fn heading_says(&mut self, aside: &str, line: &str) {
        let lower = aside.to_lowercase();
        let keeps = lower.strip_prefix("keeps ").or_else(|| lower.strip_prefix("keep ")).unwrap_or("");
        let item = match method::keeping_time(keeps).filter(|_| !keeps.is_empty()) {
            Some(time) => Item::new(format!("keeps {time}"), line, Some("how it is kept is not said".to_owned())),
            None => Item { taken: false, ..Item::new("", line, Some("said in the heading".to_owned())) },
        };
        self.here().ingredients.push(item);
    }

    /// Whether it is known what the recipe makes.
    pub(super) fn says_what_it_makes(&self) -> bool {
        self.makes.is_some()
    }

    fn here(&mut self) -> &mut Part {
        if self.at == usize::MAX {
            return &mut self.last;
        }
        if self.at >= self.parts.len() {
            self.parts.resize_with(self.at + 1, Part::default);
        }
        // The list was just made long enough; the spare is only for the compiler.
        match self.parts.get_mut(self.at) {
            Some(part) => part,
            None => &mut self.spare,
        }
    }

    /// What it makes.
    pub(super) fn makes(&mut self, makes: &str, look: Option<&str>, line: &str) {
        if self.makes.is_some() {
            self.keep(line, "what it makes was said before");
            return;
        }
        self.makes = Some(Item::new(makes, line, look.map(str::to_owned)));
    }

    /// The ingredients of a line.
    pub(super) fn ingredients(&mut self, all: Vec<Read>, line: &str) {
        for read in all {
            self.ingredient(read, line);
        }
    }

    fn ingredient(&mut self, read: Read, line: &str) {
        if read.spoons && self.spoons.is_none() {
            self.spoons = Some(line.to_owned());
        }
        self.cups |= [" cup", " pt", " qt"].iter().any(|unit| read.amount.contains(unit));
        self.grams |= [" g", " kg", " ml", " l"].iter().any(|unit| read.amount.ends_with(unit));
        let part = self.here();
        if !part.keys.insert(Key::new(&read.name)) {
            let why = format!("{} is listed already: add this to it, or give it a name of its own", read.name);
            part.ingredients.push(Item { taken: false, ..Item::new("", line, Some(why)) });
            return;
        }
        let mut said = format!("{} .. {}", read.name, read.amount);
        for clause in &read.clauses {
            said.push_str(", ");
            said.push_str(clause);
        }
        let look = (!read.look.is_empty()).then(|| read.look.join("; "));
        part.ingredients.push(Item::new(said, line, look));
        part.untaken.push(read.name.clone());
        part.names.push(read.name);
    }

    /// Prose about the whole recipe.
    pub(super) fn head_note(&mut self, text: &str, line: &str) {
        self.head.push(Item { lines: method::note(text), ..Item::new("", line, None) });
    }

    /// Prose about a part that is no step.
    pub(super) fn note(&mut self, text: &str, line: &str) {
        let item = Item { lines: method::note(text), ..Item::new("", line, None) };
        self.here().told.push(item);
    }

    /// A heading over what is done, with no part named.
    pub(super) fn method_of_all(&mut self) {
        self.of_all = self.parts.iter().filter(|part| !part.ingredients.is_empty()).count() > 1;
        self.at = 0;
    }

    /// Which part a paragraph is about: the one it names most of, else the one that the last was about. What shapes and
    /// bakes is about all of them.
    fn choose_part(&mut self, text: &str) {
        let lower = text.to_lowercase();
        let named = |part: &Part| {
            let own = part.name.as_ref().filter(|name| lower.contains(&name.to_lowercase())).map_or(0, |_| 2);
            own + part.names.iter().filter(|name| lower.contains(&name.to_lowercase())).count()
        };
        let scores: Vec<usize> = self.parts.iter().map(named).collect();
        let best = scores.iter().copied().max().unwrap_or(0);
        let shaping = ["shape", "bake", "fill", "divide", "assemble", "roll", "decorate", "serve"];
        let begins = lower.split(|c: char| !c.is_alphabetic()).find(|word| !word.is_empty());
        if best > 0 && scores.iter().filter(|score| **score == best).count() == 1 {
            self.at = scores.iter().position(|score| *score == best).unwrap_or(0);
        } else if begins.is_some_and(|word| shaping.contains(&word)) {
            self.at = usize::MAX;
        }
    }

    /// Prose that says what is done.
    pub(super) fn method(&mut self, text: &str, line: &str) {
        let is_short = |last: &Item| last.origin.len() + line.len() <= LONGEST_PARAGRAPH;
        let continues = self.open
            && text.chars().next().is_some_and(char::is_lowercase)
            && self.here().told.last().is_some_and(is_short);
        if continues && let Some(last) = self.here().told.pop() {
            let part = self.here();
            let taken = |name: &&String| last.lines.iter().any(|line| line.contains(&format!("{{{name}}}")));
            let given_back: Vec<String> = part.names.iter().filter(taken).cloned().collect();
            part.untaken.extend(given_back);
            // A paragraph that was broken into lines.
            let whole = format!("{} {line}", last.origin);
            if last.lines.first().is_some_and(|line| !line.starts_with("note ")) {
                self.here().steps.pop();
            }
            let (number, _) = words::number_of_list(&whole);
            let bare = whole.get(number..).unwrap_or(&whole).trim().to_owned();
            self.tell(&bare, &whole);
            self.open = !bare.ends_with(['.', '!', '?', ':']);
            return;
        }
        if self.of_all {
            self.choose_part(text);
        }
        self.tell(text, line);
        self.open = !text.ends_with(['.', '!', '?', ':']);
    }

    fn tell(&mut self, text: &str, line: &str) {
        let part = self.here();
        part.untaken.sort_by_key(|name| std::cmp::Reverse(name.len()));
        let told = method::told(text, &mut part.untaken, &mut part.steps);
        part.told.push(Item { lines: told.lines, ..Item::new("", line, Some(told.look)) });
    }

    /// The file.
    pub(super) fn finish(mut self, otherwise: &str) -> Draft {
        let title = self.title.take().filter(|title| is_name(title));
        let mut items: Vec<Item> =
            vec![Item::new("# Made from notes. Look at each line marked `look`, then take the mark away.", "", None)];
        let name = title.clone().unwrap_or_else(|| {
            Some(words::name(otherwise)).filter(|name| is_name(name)).unwrap_or_else(|| "From notes".to_owned())
        });
        let look = title.is_none().then(|| "the notes give no name".to_owned());
        items.push(Item::new(format!("recipe {name}"), "give it one", look));
        items.extend(self.title_look.take());
        items.extend(self.makes.take());
        if let Some(line) = &self.spoons {
            let whose = if self.grams && !self.cups { "metric" } else { "US" };
            items.push(Item::new(
                format!("measures {whose}"),
                line,
                Some("the notes do not say whose spoons and cups".to_owned()),
            ));
        }
        items.append(&mut self.head);
        let several = self.parts.iter().filter(|part| part.name.is_some()).count() > 0 && self.parts.len() > 1;
        let mut made: Vec<String> = Vec::new();
        for (at, part) in self.parts.iter_mut().enumerate() {
            let own = part.name.clone().or_else(|| several.then(|| first_name(part, at)));
            items.push(Item::new("", "", None));
            if let Some(own) = own {
                let clash = part.names.iter().any(|name| Key::new(name) == Key::new(&own));
                let own = if clash { format!("{own} mix") } else { own };
                let look = part.name.is_none().then(|| "the notes give this part no name".to_owned());
                items.push(Item::new(format!("part {own}"), "give it one", look));
                if !part.ingredients.is_empty() {
                    made.push(own);
                }
            }
            items.append(&mut part.ingredients);
            items.push(Item::new("", "", None));
            items.append(&mut part.told);
        }
        if made.len() > 1 {
            items.push(Item::new("", "", None));
            let whole = if made.iter().any(|part| Key::new(part) == Key::new(&name)) {
                format!("finished {name}")
            } else {
                name.clone()
            };
            items.push(Item::new(
                format!("part {}", words::small(&whole)),
                "look at its steps",
                Some("how the parts come together".to_owned()),
            ));
            items.extend(made.iter().map(|part| Item::new(format!("{part} .. all"), "", None)));
            items.push(Item::new("", "", None));
        }
        items.append(&mut self.last.ingredients);
        items.append(&mut self.last.told);
        let text = readable(&mut items);
        let text = tidy(&text, None).unwrap_or(text);
        let review = (1..).zip(text.lines()).filter_map(|(line, said)| {
            let at = said.find(LOOK)?;
            Some((line, said.get(at + LOOK.len()..)?.trim().to_owned()))
        });
        Draft { review: review.collect(), name, text }
    }
}

/// The name of a part that has none: what most formulas begin with.
fn first_name(part: &Part, at: usize) -> String {
    let flour = part.names.iter().any(|name| name.to_lowercase().contains("flour"));
    if flour && at == 0 { "dough".to_owned() } else { "main part".to_owned() }
}

/// Whether the language takes it as a recipe's name.
fn is_name(name: &str) -> bool {
    let (tree, problems) = parse(SourceId(0), &format!("recipe {name}\n"));
    problems.is_empty() && matches!(tree.lines.first().map(|line| &line.content), Some(Content::Recipe(_)))
}

/// The items as text, of which what the language does not take is made a comment.
fn readable(items: &mut [Item]) -> String {
    // Each round makes at least one item a comment, and comments are always taken.
    for round in 0.. {
        let mut text = String::new();
        let mut owners = Vec::new();
        for (owner, item) in items.iter().enumerate() {
            for line in item.written() {
                text.push_str(&line);
                text.push('\n');
                owners.push(owner);
            }
        }
        let (tree, problems) = parse(SourceId(0), &text);
        // Advice is for who reads the file; what it speaks of can be read.
        let problems: Vec<_> = problems.iter().filter(|problem| problem.severity != Severity::Advice).collect();
        let wrong = tree.lines.iter().zip(&owners).filter(|(line, _)| {
            matches!(line.content, Content::Stray)
                || problems.iter().any(|problem| (line.span.start..=line.span.end).contains(&problem.span.start))
        });
        let mut wrong: Vec<usize> = wrong.map(|(_, owner)| *owner).collect();
        wrong.retain(|owner| items.get(*owner).is_some_and(|item| item.taken));
        if wrong.is_empty() {
            return text;
        }
        // Where line after line depends on the one before, all that is left from there on is kept as words.
        let first = wrong.first().copied().unwrap_or(0);
        let all: Vec<usize> = if round < MOST_ROUNDS { wrong } else { (first..items.len()).collect() };
        for owner in all {
            if let Some(item) = items.get_mut(owner) {
                item.taken = item.lines.iter().all(String::is_empty);
            }
        }
    }
    String::new()
}
