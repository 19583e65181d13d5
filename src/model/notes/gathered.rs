//! What was read from notes, put together as a file.

use super::Draft;
use super::about::{About, Subject, about};
use super::amount;
use super::apart;
use super::divided::divided;
use super::entry::{Item, LOOK, in_braces, readable};
use super::item::Read;
use super::kinds;
use super::method::{self, Own};
use super::together::{is_together, put_together};
use super::words;
use crate::language::parse::parse;
use crate::language::syntax::{Content, Key};
use crate::language::tidy::tidy;
use crate::measure::number::Number;
use crate::text::hidden::replaced;
use crate::text::source::SourceId;
use std::collections::HashSet;

/// A paragraph of so many bytes is not put together from more lines: each line reads it again.
const LONGEST_PARAGRAPH: usize = 2000;

/// A part.
#[derive(Debug, Default)]
struct Part {
    name: Option<String>,
    ingredients: Vec<Item>,
    names: Vec<String>,
    /// Whether it is said how it is divided.
    divided: bool,
    /// Whether it is said how long it keeps.
    keeps: bool,
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
    /// How many pieces it makes.
    pieces: Option<Number>,
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
    /// Whether a cup is said to be a quarter of a litre.
    metric_cup: bool,
    /// Whether the last line was prose that the next may continue.
    open: bool,
    /// What it was made from, other than notes.
    from: Option<String>,
    /// What is told to readers: the story, who wrote it, where it is looked for.
    told: Vec<Item>,
    /// The heading over what is told next.
    heading: Option<String>,
    /// What stands below everything.
    below: Vec<Item>,
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

    /// What it is made from, other than notes.
    pub(super) fn made_from(&mut self, what: &str) {
        self.from = Some(what.to_owned());
    }

    /// A remark about the whole; with a reason it is one to look at.
    pub(super) fn remark(&mut self, text: &str, why: Option<&str>) {
        self.head.push(Item::remark(text, why));
    }

    /// A remark that stands below everything.
    pub(super) fn last_remark(&mut self, text: &str, why: Option<&str>) {
        self.below.push(Item::remark(text, why));
    }

    /// What is told to readers first, paragraph by paragraph.
    pub(super) fn story(&mut self, paragraphs: &[String]) {
        let mut lines: Vec<String> = Vec::new();
        for paragraph in paragraphs {
            if !lines.is_empty() {
                lines.push(String::new());
            }
            lines.extend(method::prose(paragraph).into_iter().map(|line| format!("    {line}")));
        }
        if let Some(first) = lines.first_mut() {
            *first = format!("story {}", first.trim_start());
        }
        self.told.push(Item { lines, ..Item::new("", &paragraphs.join(" "), None) });
    }

    /// Who wrote it.
    pub(super) fn by(&mut self, name: &str) {
        let plain = words::name(name);
        let look = (plain != name).then(|| "of this the name is made".to_owned());
        self.told.push(Item::new(format!("by {plain}"), name, look));
    }

    /// Where it is looked for.
    pub(super) fn filed_under(&mut self, names: &[String]) {
        let names = names.join(", ");
        self.told.push(Item::new(format!("filed under {names}"), &names, None));
    }

    /// A heading over what is told next: of the part that it names, else of all.
    pub(super) fn section(&mut self, heading: &str) {
        let lower = heading.to_lowercase();
        let names = |part: &Part| {
            let name = part.name.as_ref().map(|name| name.to_lowercase())?;
            (lower.contains(&name) || name.contains(&lower)).then_some(name.len())
        };
        let best = self.parts.iter().enumerate().filter_map(|(at, part)| Some((names(part)?, at))).max();
        match best {
            Some((_, at)) if !lower.is_empty() => {
                self.at = at;
                self.of_all = false;
            }
            _ => self.method_of_all(),
        }
        self.below.extend(
            self.heading
                .replace(heading.to_owned())
                .map(|unused| Item::remark(&unused, Some("a heading over nothing"))),
        );
    }

    /// A step of which the name and how long it takes may be said.
    pub(super) fn step(&mut self, text: &str, line: &str, name: Option<&str>, time: Option<&str>) {
        if self.of_all {
            self.choose_part(text);
        }
        self.tell(text, line, Own { name, time });
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
        let mut words = Vec::new();
        let mut kept: Option<(String, Option<String>)> = None;
        for clause in aside.split([',', ';']).map(str::trim) {
            let how = method::kept_how(clause);
            match (method::keeping(clause), &mut kept) {
                (Some(time), None) => kept = Some((time, how)),
                // `keeps 2 weeks, chilled`: the second half is how.
                (None, Some((_, open @ None))) if how.is_some() => *open = how,
                _ => words.push(clause),
            }
        }
        match kept {
            Some((time, Some(how))) => self.keeps(&format!("{time}, {how}"), "said in the heading", line),
            Some((time, None)) => self.keeps(&time, "how it is kept is not said", line),
            None => {}
        }
        if !words.is_empty() {
            let item = Item { taken: false, ..Item::new("", line, Some("said in the heading".to_owned())) };
            self.here().ingredients.push(item);
        }
    }

    /// A heading of which the part has only the name.
    pub(super) fn part_remark(&mut self, heading: &str) {
        self.here().ingredients.push(Item::remark(heading, None));
    }

    /// How long the part keeps, where it was not said before.
    fn keeps(&mut self, time: &str, why: &str, line: &str) {
        let part = self.here();
        if !std::mem::replace(&mut part.keeps, true) {
            part.ingredients.push(Item::new(format!("keeps {time}"), line, Some(why.to_owned())));
        }
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
        let makes = &kinds::of_title(makes, self.title.as_deref().unwrap_or_default());
        self.pieces = makes.split(' ').nth(1).and_then(|count| count.parse().ok()).map(Number::whole);
        self.makes = Some(Item::new(makes.as_str(), line, look.map(str::to_owned)));
    }

    /// The ingredients of a line.
    pub(super) fn ingredients(&mut self, all: Vec<Read>, line: &str) {
        for read in all {
            self.ingredient(read, line);
        }
    }

    fn ingredient(&mut self, mut read: Read, line: &str) {
        if read.spoons && self.spoons.is_none() {
            self.spoons = Some(line.to_owned());
        }
        self.metric_cup |= amount::is_metric_cup(&read.amount);
        self.cups |= [" cup", " pt", " qt"].iter().any(|unit| read.amount.contains(unit));
        self.grams |= [" g", " kg", " ml", " l"].iter().any(|unit| read.amount.ends_with(unit));
        read.for_all(self.pieces);
        let part = self.here();
        if !part.keys.insert(Key::new(&read.name)) {
            let why = format!("{} is listed already: add this to it, or give it a name of its own", read.name);
            let mut own = method::AGAIN.iter().map(|word| format!("{word} {}", read.name));
            let Some(own) = own.find(|name| part.keys.insert(Key::new(name))) else {
                part.ingredients.push(Item { taken: false, ..Item::new("", line, Some(why)) });
                return;
            };
            read.look.push(why);
            read.name = own;
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

    /// Whether something is told of a part.
    pub(super) fn tells(&self) -> bool {
        self.parts.iter().any(|part| !part.told.is_empty())
    }

    /// A heading over what is done, with no part named.
    pub(super) fn method_of_all(&mut self) {
        self.of_all = self.parts.iter().filter(|part| !part.ingredients.is_empty()).count() > 1;
        self.at = 0;
    }

    /// Goes to the part that a paragraph is about.
    fn choose_part(&mut self, text: &str) {
        let parts: Vec<About> = self.parts.iter().map(|part| (part.name.as_deref(), part.names.as_slice())).collect();
        self.at = match about(text, &parts, self.at) {
            Subject::Same => self.at,
            Subject::Part(at) => at,
            Subject::All => usize::MAX,
        };
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
            self.tell(&bare, &whole, Own::default());
            self.open = !bare.ends_with(['.', '!', '?', ':']);
            return;
        }
        if self.of_all {
            self.choose_part(text);
        }
        self.tell(text, line, Own::default());
        self.open = !text.ends_with(['.', '!', '?', ':']);
    }

    /// The part that prose divides: the one it is told of, if something goes into it, else the first with flour; `None` where that is
    /// divided already.
    fn divided_part(&mut self) -> Option<&mut Part> {
        let flour = |part: &Part| part.names.iter().any(|name| name.to_lowercase().contains("flour"));
        let own = self.parts.get(self.at).is_some_and(|part| !part.ingredients.is_empty());
        let at = if own { Some(self.at) } else { self.parts.iter().position(flour) };
        self.parts.get_mut(at?).filter(|part| !part.divided)
    }

    fn tell(&mut self, text: &str, line: &str, own: Own) {
        let heading =
            self.heading.take().map(|heading| Item::remark(&format!("of the page, heading: {heading}"), None));
        if let Some(time) = method::keeps(text) {
            self.keeps(&time, "read from what is told below", line);
        }
        if let Some(pieces) = divided(text, self.pieces)
            && let Some(part) = self.divided_part()
        {
            part.divided = true;
            let why = Some("read from what is told below".to_owned());
            part.ingredients.push(Item::new(format!("divide {pieces}"), line, why));
        }
        let part = self.here();
        part.told.extend(heading);
        part.untaken.sort_by_key(|name| std::cmp::Reverse(name.len()));
        let is_plain = own.name.is_none() && own.time.is_none();
        let steps = if is_plain { apart::steps(text) } else { vec![text.to_owned()] };
        let several = steps.len() > 1;
        let mut before: Option<String> = None;
        for step in steps {
            let mut told = method::told(&step, own, &part.names, &mut part.untaken, &mut part.steps);
            before = method::goes_on(&mut told, before);
            let look = (!told.look.is_empty()).then_some(told.look);
            part.told.push(Item { lines: told.lines, ..Item::new("", if several { &step } else { line }, look) });
        }
    }

    /// The file.
    pub(super) fn finish(mut self, otherwise: &str) -> Draft {
        let title = match self.title.take() {
            // What cannot be the name is still to be seen.
            Some(title) if !is_name(&title) => {
                let why = "this cannot be the name".to_owned();
                let title = replaced(&title, |_| Some('\u{FFFD}')).into_owned();
                self.title_look.get_or_insert(Item { taken: false, ..Item::new("", &title, Some(why)) });
                None
            }
            title => title,
        };
        let from = self.from.as_deref().unwrap_or("notes");
        let mut items: Vec<Item> = vec![Item::new(
            format!("# Made from {from}. Look at each line marked `look`, then take the mark away."),
            "",
            None,
        )];
        let name = title.clone().unwrap_or_else(|| {
            Some(words::name(otherwise)).filter(|name| is_name(name)).unwrap_or_else(|| "From notes".to_owned())
        });
        let whose = if self.from.is_some() { "the data gives" } else { "the notes give" };
        let look = title.is_none().then(|| format!("{whose} no name"));
        items.push(Item::new(format!("recipe {name}"), "give it one", look));
        items.extend(self.title_look.take());
        items.extend(self.makes.take());
        let not_said = if self.from.is_some() { "the data does not say" } else { "the notes do not say" };
        if let Some(line) = &self.spoons {
            let whose = if self.metric_cup || (self.grams && !self.cups) { "metric" } else { "US" };
            items.push(Item::new(format!("measures {whose}"), line, Some(format!("{not_said} whose spoons and cups"))));
        }
        items.append(&mut self.told);
        items.append(&mut self.head);
        self.write_parts(&mut items, &name, whose);
        items.append(&mut self.last.ingredients);
        items.append(&mut self.last.told);
        items.extend(self.heading.take().map(|unused| Item::remark(&unused, Some("a heading over nothing"))));
        if !self.below.is_empty() {
            items.push(Item::new("", "", None));
            items.append(&mut self.below);
        }
        let text = readable(&mut items);
        let text = in_braces(&tidy(&text, None).unwrap_or(text));
        let review = (1..).zip(text.lines()).filter_map(|(line, said)| {
            let at = said.find(LOOK)?;
            Some((line, said.get(at + LOOK.len()..)?.trim().to_owned()))
        });
        Draft { review: review.collect(), name, text }
    }

    /// The parts, each below its name, and the one in which they come together.
    fn write_parts(&mut self, items: &mut Vec<Item>, title: &str, whose: &str) {
        let several = self.parts.iter().filter(|part| part.name.is_some()).count() > 0 && self.parts.len() > 1;
        let last = self.parts.len().saturating_sub(1);
        let mut made: Vec<String> = Vec::new();
        let mut is_put_together = false;
        for (at, part) in self.parts.iter_mut().enumerate() {
            let own = part.name.clone().or_else(|| several.then(|| first_name(part, at)));
            items.push(Item::new("", "", None));
            if let Some(own) = own {
                let clash = part.names.iter().any(|name| Key::new(name) == Key::new(&own));
                let own = if clash { format!("{own} mix") } else { own };
                let look = part.name.is_none().then(|| format!("{whose} this part no name"));
                items.push(Item::new(format!("part {own}"), "give it one", look));
                if at == last && !made.is_empty() && is_together(&own) {
                    put_together(&mut part.ingredients, &part.names, &made);
                    is_put_together = true;
                }
                if !part.ingredients.is_empty() {
                    made.push(own);
                }
            }
            items.append(&mut part.ingredients);
            items.push(Item::new("", "", None));
            items.append(&mut part.told);
        }
        if made.len() > 1 && !is_put_together {
            items.push(Item::new("", "", None));
            let is_part = made.iter().any(|part| Key::new(part) == Key::new(title));
            let whole = if is_part { format!("finished {title}") } else { title.to_owned() };
            items.push(Item::new(
                format!("part {}", words::all_small(&whole)),
                "look at its steps",
                Some("how the parts come together".to_owned()),
            ));
            items.extend(made.iter().map(|part| Item::new(format!("{part} .. all"), "", None)));
            items.push(Item::new("", "", None));
        }
    }
}

/// The name of a part that has none: what most formulas begin with.
fn first_name(part: &Part, at: usize) -> String {
    let flour = part.names.iter().any(|name| name.to_lowercase().contains("flour"));
    if flour && at == 0 { "dough".to_owned() } else { "main part".to_owned() }
}

/// Whether the language takes it as a recipe's name.
fn is_name(name: &str) -> bool {
    is_read_as(&format!("recipe {name}"), |content| matches!(content, Content::Recipe(_)))
}

/// Whether the language takes a text for what it should be.
pub(super) fn is_read_as(text: &str, wanted: impl Fn(&Content) -> bool) -> bool {
    let (tree, problems) = parse(SourceId(0), &format!("{text}\n"));
    problems.is_empty() && tree.lines.iter().any(|line| wanted(&line.content))
}
