//! What was read from notes, put together as a file.

mod finished;
mod listing;
mod page;

use super::about::{About, Subject, about};
use super::apart;
use super::country::Whose;
use super::divided::divided;
use super::entry::Item;
use super::in_prose::Listed;
use super::keeping;
use super::kinds;
use super::measure::holds_amount;
use super::method::{self, Own};
use super::part::{Part, main_part};
use super::taken;
use super::vague;
use super::words;
use crate::language::syntax::Key;
use crate::measure::number::Number;

/// A line of fewer bytes was not broken where a page ends.
const SHORT_LINE: usize = 45;
/// A paragraph of so many bytes is not put together from more lines: each line reads it again.
const LONGEST_PARAGRAPH: usize = 2000;

/// Why a mark stands at what brackets behind a heading say.
pub(super) const IN_HEADING: &str = "said in the heading";

/// Everything that was read.
#[derive(Debug, Default)]
pub(super) struct Gathered {
    /// The recipe's name.
    pub(super) title: Option<String>,
    title_look: Option<Item>,
    pub(super) makes: Option<Item>,
    /// How many pieces it makes.
    pub(super) pieces: Option<Number>,
    /// What each piece weighs, where it is said beside the number, and the line that says it.
    pub(super) each: Option<(String, String)>,
    /// Whether that stands on a line of its own, and not with what is made.
    pub(super) each_apart: bool,
    pub(super) head: Vec<Item>,
    pub(super) parts: Vec<Part>,
    spare: Part,
    /// What is done with the parts together.
    together: Part,
    /// Which part the lines belong to.
    pub(super) at: usize,
    /// Whether what is told now is told of all parts.
    of_all: bool,
    /// What was seen of whose spoons and cups are meant.
    pub(super) whose: Whose,
    /// Whether the last line was prose that the next may continue.
    open: bool,
    /// Whether the paragraph began with a small letter.
    small: bool,
    /// Whether its last line is short and gives a figure.
    is_short: bool,
    /// Whether its last line ends in the middle of a sentence.
    is_open: bool,
    /// What it was made from, other than notes.
    from: Option<String>,
    /// What is told to readers: the story, who wrote it, where it is looked for.
    told: Vec<Item>,
    /// Which parts are stages of a sour, in their order, and the lines that head them.
    pub(super) stages: Vec<(usize, String)>,
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
        let part = if self.at == usize::MAX { Some(&mut self.together) } else { self.parts.get_mut(self.at) };
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

    /// A remark about the whole; with a reason it is one to look at.
    pub(super) fn remark(&mut self, text: &str, why: Option<&str>) {
        self.head.push(Item::remark(text, why));
    }

    /// A step of which the name and how long it takes may be said.
    pub(super) fn step(&mut self, text: &str, line: &str, name: Option<&str>, time: Option<&str>) {
        if self.of_all {
            self.choose_part(text);
        }
        self.tell(text, line, Own { name, time, verb: None });
    }

    /// A heading over a part.
    pub(super) fn part(&mut self, name: &str) {
        let name = words::small(name);
        self.of_all = false;
        let known = self.parts.iter().position(|part| part.name.as_deref().map(Key::new) == Some(Key::new(&name)));
        self.at = known.unwrap_or_else(|| {
            self.parts.push(Part::named(name));
            self.parts.len() - 1
        });
    }

    /// What stands in brackets behind a heading: how long the part keeps, or words.
    pub(super) fn heading_says(&mut self, aside: &str, line: &str) {
        let mut words = Vec::new();
        let mut kept: Option<(String, Option<String>)> = None;
        for clause in aside.split([',', ';']).map(str::trim) {
            let how = keeping::kept_how(clause);
            match (keeping::keeping(clause), &mut kept) {
                (Some(time), None) => kept = Some((time, how)),
                // `keeps 2 weeks, chilled`: the second half is how.
                (None, Some((_, open @ None))) if how.is_some() => *open = how,
                _ => match kinds::says_makes(clause).filter(|(makes, _)| makes.ends_with('g')) {
                    Some((makes, _)) => {
                        self.here().ingredients.push(Item::new(makes, line, Some(IN_HEADING.to_owned())))
                    }
                    None => words.push(clause),
                },
            }
        }
        match kept {
            Some((time, Some(how))) => self.keeps(&format!("{time}, {how}"), IN_HEADING, line),
            Some((time, None)) => self.keeps(&time, "how it is kept is not said", line),
            None => {}
        }
        if !words.is_empty() {
            let item = Item { taken: false, ..Item::new("", line, Some(IN_HEADING.to_owned())) };
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
            return &mut self.together;
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
        if !self.each_apart {
            self.each = kinds::each_weighs(line).map(|each| (each, line.to_owned()));
        }
        let makes = &kinds::of_title(makes, self.title.as_deref().unwrap_or_default());
        self.pieces = makes.split(' ').nth(1).and_then(|count| count.parse().ok()).map(Number::whole);
        self.makes = Some(Item::new(makes.as_str(), line, look.map(str::to_owned)));
    }

    /// Whether the formula was told already, in prose with its amounts.
    pub(super) fn has_told(&self) -> bool {
        self.head.iter().any(|item| item.look.is_some() && item.lines.iter().any(|line| line.starts_with("note ")))
    }

    /// Prose about the whole recipe.
    pub(super) fn head_note(&mut self, text: &str, line: &str) {
        let look = if holds_amount(text) || vague::holds_in_words(text) {
            Some("amounts stand in these words: give each a line, `NAME .... AMOUNT`")
        } else {
            text.contains(char::is_numeric).then_some("figures stand in these words: are they amounts?")
        };
        self.whose.see_words(text);
        let plain = text.replace("**", "").replace("__", "");
        self.head.push(Item { lines: method::note(&plain), ..Item::new("", line, look.map(str::to_owned)) });
    }

    /// Prose about a part that is no step.
    pub(super) fn note(&mut self, text: &str, line: &str) {
        let why = vague::holds_in_words(text).then(|| "amounts stand in these words".to_owned());
        let item = Item { lines: method::note(text), ..Item::new("", line, why) };
        self.here().told.push(item);
    }

    /// Whether something is told of a part.
    pub(super) fn tells(&self) -> bool {
        self.parts.iter().any(|part| !part.told.is_empty())
    }

    /// A heading over what is done, with no part named.
    pub(super) fn method_of_all(&mut self) {
        self.of_all = self.parts.iter().filter(|part| !part.ingredients.is_empty()).count() > 1;
        // What names no part is told of the dough, and not of the poolish that is listed first.
        let is_first_a_leaven = self.parts.first().is_some_and(Part::goes_into_a_dough);
        self.at = main_part(&self.parts, Part::has_flour).filter(|_| is_first_a_leaven).unwrap_or(0);
    }

    /// Goes to the part that a paragraph is about.
    fn choose_part(&mut self, text: &str) {
        let parts: Vec<About> = self.parts.iter().map(|part| (part.name.as_deref(), part.names.as_slice())).collect();
        self.at = match about(text, &parts, self.at) {
            Subject::Same => self.at,
            Subject::Part(at) => at,
            Subject::Main => main_part(&self.parts, |_| true).unwrap_or(self.at),
            Subject::All => usize::MAX,
        };
    }

    /// Prose that says what is done.
    pub(super) fn method(&mut self, text: &str, line: &str) {
        let is_short = |last: &Item| last.origin.len() + line.len() <= LONGEST_PARAGRAPH;
        let small = |text: &str| text.chars().next().is_some_and(char::is_lowercase);
        // A mark of a list begins something new; where every line begins small, or the last is short, a verb does.
        let begins = || method::is_told(text) || line.len() < SHORT_LINE && method::begins_with_verb(text);
        // How long it keeps belongs to no step.
        let is_new = !line.starts_with(text)
            || keeping::keeping(text).is_some()
            || (self.small || self.is_short) && !self.is_open && begins();
        self.is_short = line.len() < SHORT_LINE && line.contains(char::is_numeric);
        self.is_open = method::is_open(line);
        let continues = self.open && small(text) && !is_new && self.here().told.last().is_some_and(is_short);
        self.small = if continues { self.small } else { small(text) };
        if continues && let Some(last) = self.here().told.pop() {
            let part = self.here();
            let taken = |name: &&String| {
                last.lines
                    .iter()
                    .any(|line| line.contains(&format!("{{{name}}}")) || line.contains(&format!(" of {name}}}")))
            };
            let given_back: Vec<String> = part.names.iter().filter(taken).cloned().collect();
            part.untaken.retain(|name| !given_back.iter().any(|back| name.strip_prefix(taken::REST) == Some(back)));
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

    /// The part that prose divides: the one it is told of, if something goes into it, else that with flour into which most goes; `None`
    /// where that is divided already.
    fn divided_part(&mut self) -> Option<&mut Part> {
        let own = self.parts.get(self.at).is_some_and(|part| !part.ingredients.is_empty());
        let at = if own { Some(self.at) } else { main_part(&self.parts, Part::has_flour) };
        self.parts.get_mut(at?).filter(|part| !part.divided)
    }

    fn tell(&mut self, text: &str, line: &str, own: Own) {
        self.whose.see_words(text);
        let heading =
            self.heading.take().map(|heading| Item::remark(&format!("of the page, heading: {heading}"), None));
        if let Some(time) = keeping::keeps(text) {
            self.keeps(&time, "read from what is told below", line);
        }
        // `Bake 20 min. Serves 10.`
        let says = |one: &str| {
            let bare = one.trim().trim_end_matches('.');
            ["Serves ", "Makes ", "Yields ", "Yield "]
                .iter()
                .any(|word| bare.starts_with(word))
                .then(|| kinds::says_makes(bare))?
        };
        if self.makes.is_none()
            && let Some((makes, _)) = words::sentences(text).find_map(says)
        {
            self.makes(&makes, Some("read from what is told below"), line);
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
        let whole = || vec![apart::Step { text: text.to_owned(), verb: None }];
        let steps = if is_plain { apart::steps(text) } else { whole() };
        let several = steps.len() > 1;
        let mut before: Option<String> = None;
        for apart::Step { text: step, verb } in steps {
            let own = Own { verb: verb.as_deref(), ..own };
            let listed = Listed { names: &part.names, amounts: &part.amounts };
            let mut told = method::told(&step, own, listed, &mut part.untaken, &mut part.steps);
            before = method::goes_on(&mut told, before);
            let look = (!told.look.is_empty()).then_some(told.look);
            part.told.push(Item { lines: told.lines, ..Item::new("", if several { &step } else { line }, look) });
        }
    }
}
