//! Prose that says what is done: a step where it gives one time, a note where it does not.

use super::acts;
use super::amount;
use super::heat::{bare_heat, gas, has_bare_degrees, heat, in_fridge, is_of_an_oven};
use super::in_prose::{Listed, holds_food};
use super::keeping::keeping;
use super::language;
use super::measure::holds_amount;
use super::spoken;
use super::taken;
use super::times::{says_every, says_for_one, says_time_otherwise, times};
use super::verbs::{self, BEGUN, LEFT, TENDED, TOLD, WAITED, forbids, is_verb, says_overnight, verbs};
use super::words::{self, sentences};
use crate::language::syntax::Key;
use crate::measure::number::Number;

/// Columns that prose is set in, without its indentation.
const COLUMNS: usize = 92;

/// What a second, third … step of a name is called.
pub(super) const AGAIN: [&str; 8] = ["second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth"];

/// A step or a note.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Told {
    /// Its lines.
    pub(super) lines: Vec<String>,
    /// What was guessed.
    pub(super) look: String,
}

/// What is said of a step beside its words.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Own<'o> {
    /// Its name.
    pub(super) name: Option<&'o str>,
    /// How long it takes.
    pub(super) time: Option<&'o str>,
    /// The verb, where the words themselves have none.
    pub(super) verb: Option<&'o str>,
}

/// Why a mark stands at words with an amount that is in no list and so in no sum.
const AMOUNTS: &str = "amounts stand in these words and in no list: give each a line";

/// Makes a paragraph into a step or a note.
///
/// `all`: the part's ingredients; `names`: those that no step has taken yet. `taken`: the names of its steps.
pub(super) fn told(text: &str, own: Own, all: Listed<'_>, names: &mut Vec<String>, taken: &mut Vec<Key>) -> Told {
    // A name that is not free stands before the words.
    let free = own.name.filter(|name| !taken.contains(&Key::new(name)));
    let whole = own.name.map_or_else(|| text.to_owned(), |name| format!("{name}: {text}"));
    let text = if free.is_some() { text } else { whole.as_str() };
    let how_long = match how_long(text, own.time) {
        Ok(how_long) => how_long,
        Err(why) => return left_a_note(&whole, own.time, &why, all),
    };
    let words = Words { text, own: Own { name: free, ..own }, how_long };
    let (name, kind) = match words.called(taken) {
        Ok(called) => called,
        Err(why) => return left_a_note(&whole, own.time, why, all),
    };
    let heat = words.heat(kind);
    let mut lines = vec![format!("{name}: {kind} {}{}", words.how_long.time, words.clause(kind, heat.as_deref()))];
    let listed = taken::with_names(text, names);
    let (told, cue) = with_cue(&listed);
    let mut above = String::new();
    for line in words::prose(&in_one_piece(told, all.names), COLUMNS) {
        let line = line.replace(UNBROKEN, " ");
        lines.push(format!("    {}", taken::taking(&above, &line, all, names)));
        above = line;
    }
    let look = words.guessed(kind, heat.as_deref(), &lines, all);
    lines.extend(cue.map(|cue| format!("    until {}", words::prose(cue, usize::MAX).concat())));
    taken.push(Key::new(&name));
    Told { lines, look }
}

/// Stands for a blank at which no line is broken.
const UNBROKEN: char = '\u{E000}';

/// A text in which no name that is listed can be broken between two lines: what ends the one and begins the other is no name.
fn in_one_piece(text: &str, names: &[String]) -> String {
    let mut text = text.replace(UNBROKEN, " ");
    let lower = text.to_ascii_lowercase();
    // Asked first, because most names stand in no text.
    let names = names.iter().filter(|name| name.contains(' ')).map(|name| name.to_ascii_lowercase());
    for name in names.filter(|name| lower.contains(name.as_str())) {
        let places: Vec<usize> = text.to_ascii_lowercase().match_indices(&name).map(|(at, _)| at).collect();
        for at in places.into_iter().rev() {
            let joined = text.get(at..at + name.len()).map(|said| said.replace(' ', &UNBROKEN.to_string()));
            if let Some(joined) = joined {
                text.replace_range(at..at + name.len(), &joined);
            }
        }
    }
    text
}

/// A paragraph that stays a note, and why.
fn left_a_note(whole: &str, time: Option<&str>, why: &str, all: Listed<'_>) -> Told {
    let amounts = if holds_more(whole, all) { AMOUNTS } else { "" };
    let joint = if why.is_empty() || amounts.is_empty() { "" } else { "; " };
    let said = time.map_or_else(|| whole.to_owned(), |time| format!("{whole} ({time})"));
    Told { lines: note(&said), look: format!("{amounts}{joint}{why}") }
}

/// Whether an amount of something to eat stands in words that is not just what is listed of it.
fn holds_more(text: &str, all: Listed<'_>) -> bool {
    holds_food(text) && holds_food(&taken::taking("", text, all, &mut all.names.to_vec()))
}

/// How long a step takes.
struct HowLong {
    /// As the language writes it.
    time: String,
    /// Whether that was read from `overnight`.
    overnight: bool,
}

/// How long a paragraph says that it takes; else why it is no step, if there is more to say than that it is none.
fn how_long(text: &str, own: Option<&str>) -> Result<HowLong, String> {
    // How long something keeps is no time of a step.
    let said = times(
        &sentences(text).filter(|sentence| keeping(sentence).is_none() && !forbids(sentence)).collect::<String>(),
    );
    if verbs(text).is_empty()
        && let Some(language) = language::of_told(text)
    {
        let wanted = if said.len() > 1 { "steps, one for each time" } else { "a step" };
        return Err(format!("these words seem to be {language} and are not understood: make them {wanted}"));
    }
    let overnight = own.is_none() && said.is_empty() && says_overnight(text);
    let time = match (said.as_slice(), own) {
        (_, Some(time)) => time.to_owned(),
        ([], None) if overnight => NIGHT.to_owned(),
        ([], None) if is_served(text) => return Err(String::new()),
        ([], None) if says_time_otherwise(text) => return Err("make this a step".to_owned()),
        ([], None) => return Err("no time is said: make this a step once you know how long it takes".to_owned()),
        ([one], None) => one.clone(),
        _ => return Err("several times are said: make this steps, one for each".to_owned()),
    };
    Ok(HowLong { time, overnight })
}

/// A paragraph that takes one time, and so is a step.
struct Words<'w> {
    text: &'w str,
    /// Its name only where that is free.
    own: Own<'w>,
    how_long: HowLong,
}

impl Words<'_> {
    /// The verb that is not among the words.
    fn verb(&self) -> Option<&str> {
        // `375° 9 to 11 min`: no verb is said, and nothing but an oven is so hot.
        let is_hot = || self.own.time.is_none() && acts::is_baked_unsaid(self.text);
        self.own.verb.or_else(|| is_hot().then_some("bake"))
    }

    /// The name of the step and who is busy; else why it is none.
    fn called(&self, taken: &[Key]) -> Result<(String, &'static str), &'static str> {
        let by_words = match self.verb() {
            Some(verb) => named(&format!("{verb} 1 min"), taken),
            None if self.how_long.overnight => for_the_night(self.text, taken),
            None => named(self.text, taken),
        };
        let called = match self.own.name {
            // What a step is called says more than all its words.
            Some(name) => {
                let by_name = named(name, &[]).map(|(_, kind)| kind).filter(|kind| *kind != "hands");
                Some((name.to_owned(), by_name.or(by_words.map(|(_, kind)| kind)).unwrap_or("hands")))
            }
            None => by_words.or_else(|| self.unnamed(taken)),
        };
        let (name, kind) = called.ok_or("make this a step")?;
        // Hands are at nothing for so long without a rest.
        let kind = if kind == "hands" && is_long(&self.how_long.time) { "wait" } else { kind };
        // `fold every 30 min for 2 h`: hands are there now and then, and how long they take is not said.
        if kind == "hands" && self.own.time.is_none() && says_every(self.text) {
            return Err("how long hands are at it is not said: make this a rest, and steps for what is done in it");
        }
        Ok((name, kind))
    }

    /// Data may say how long a step takes, and its words no verb.
    fn unnamed(&self, taken: &[Key]) -> Option<(String, &'static str)> {
        self.own.time?;
        let free = |name: &String| !taken.contains(&Key::new(name));
        let name =
            std::iter::once("step".to_owned()).chain(AGAIN.iter().map(|word| format!("{word} step"))).find(free)?;
        Some((name, if is_long(&self.how_long.time) { "wait" } else { "hands" }))
    }

    fn is_baked(&self, kind: &str) -> bool {
        kind == "tend" && (in_oven(self.text) || self.verb().is_some_and(in_oven))
    }

    /// Whether it is in the fridge for its time.
    fn is_in_fridge(&self) -> bool {
        match self.how_long.overnight {
            true => in_fridge(self.text),
            false => acts::is_chilled(self.text),
        }
    }

    fn heat(&self, kind: &str) -> Option<String> {
        // What is said beside the time is the heat of the step: `Mix to 24 C. Prove 2 h at 27 C.`
        if self.own.time.is_some() {
            return heat(self.text);
        }
        acts::heat_of(self.text)
            .or_else(|| acts::heat_of_oven(self.text).filter(|_| self.is_baked(kind)))
            .or_else(|| (kind == "wait" && self.is_in_fridge()).then(|| FRIDGE.to_owned()))
            // Nothing rests where it is as hot as an oven: `prove 3 h at 26, 230 C for 22`.
            .filter(|heat| kind != "wait" || !is_of_an_oven(heat))
    }

    /// What stands behind the time.
    fn clause(&self, kind: &str, heat: Option<&str>) -> String {
        match heat {
            Some(heat) if self.is_baked(kind) => format!(", using oven at {heat}"),
            None if self.is_baked(kind) => ", using oven".to_owned(),
            Some(heat) if kind == "wait" => format!(", at {heat}"),
            _ if kind == "hands" && by_machine(self.text) => ", using mixer".to_owned(),
            _ => String::new(),
        }
    }

    /// What was guessed of the step with these lines.
    fn guessed(&self, kind: &str, heat: Option<&str>, lines: &[String], all: Listed<'_>) -> String {
        let told = lines.iter().skip(1).map(|line| line.trim()).collect::<Vec<_>>().join(" ");
        let amounts = if holds_more(&told, all) { format!("{AMOUNTS}; ") } else { String::new() };
        let night = match (self.how_long.overnight, in_fridge(self.text)) {
            (false, _) if kind == "wait" && self.is_in_fridge() => "the fridge is read as 4 C; ",
            (false, _) => "",
            (true, true) => "overnight is read as 8 to 12 h, the fridge as 4 C; ",
            (true, false) => "overnight is read as 8 to 12 h; ",
        };
        let one = if says_for_one(self.text) {
            "the time is said for one side or load: how long is it for all?; "
        } else {
            ""
        };
        let couple =
            if self.own.time.is_none() && spoken::says_a_couple(self.text) { "a couple is read as 2; " } else { "" };
        let bare = has_bare_degrees(self.text) || bare_heat(self.text).is_some();
        let scale = match (heat, gas(self.text), &super::heat::heat(self.text)) {
            (None, Some(gas), _) => format!("how hot is {gas}?; "),
            (None, None, _) if bare => "C or F is not said; ".to_owned(),
            (None, None, Some(other)) if kind != "hands" => format!("{other} seems to be said of something else; "),
            _ => String::new(),
        };
        let guess = match (self.own.name, self.verb()) {
            (Some(_), _) => "who is busy",
            (None, Some(verb)) => &format!("what is done is not said and taken for `{verb}`: name, who is busy"),
            (None, None) => "name, who is busy",
        };
        format!("{amounts}{night}{one}{couple}{scale}{guess} and what is used are guessed from the words below")
    }
}

/// Makes what is baked after another bake of the same paragraph follow it at once, as bread does that is turned down; the name of the
/// bake, for the next. `before`: the one that was told before.
pub(super) fn goes_on(told: &mut Told, before: Option<String>) -> Option<String> {
    let first = told.lines.first_mut()?;
    let (name, _) = first.split_once(": tend ").filter(|_| first.contains(", using oven"))?;
    let name = name.to_owned();
    if let Some(before) = before {
        first.push_str(&format!(", straight after {before}"));
    }
    Some(name)
}

/// Whether words only say how something is served, which takes no time.
fn is_served(text: &str) -> bool {
    text.get(..6).is_some_and(|first| first.eq_ignore_ascii_case("serve "))
}

/// What is read for `overnight`, and for the fridge.
const NIGHT: &str = "8-12 h";
const FRIDGE: &str = "4 C";

/// Whether a line says that something takes the night, and nothing else.
pub(super) fn is_overnight(text: &str) -> bool {
    text.split_whitespace().count() <= 4 && says_overnight(text)
}

fn by_machine(text: &str) -> bool {
    words::all_of(text).any(|word| word == "mixer")
}

/// A free name for a rest over night.
fn for_the_night(text: &str, taken: &[Key]) -> Option<(String, &'static str)> {
    let verb = if in_fridge(text) { "chill" } else { "rest" };
    let free = |name: &str| !taken.contains(&Key::new(name));
    let again = AGAIN.iter().map(|word| format!("{word} {verb}"));
    std::iter::once(verb.to_owned()).chain(again).find(|name| free(name)).map(|name| (name, "wait"))
}

/// Words behind the first verb of a sentence that tells what to do.
const AFTER_VERB: [&str; 18] = [
    "in", "into", "to", "at", "the", "with", "for", "on", "until", "out", "off", "up", "it", "all", "by", "over",
    "together", "and",
];
/// Whether a line tells what is done, by its first words: a verb and `in`, `the`, `until`, or a verb and a time or a heat.
pub(super) fn is_told(text: &str) -> bool {
    // `Shape.`
    if text.strip_suffix('.').is_some_and(|word| is_verb(&word.to_lowercase())) {
        return true;
    }
    let mut words = text.split(|c: char| c.is_whitespace() || matches!(c, ',' | ':')).filter(|word| !word.is_empty());
    let mut verb = words.next().unwrap_or_default().to_lowercase();
    let mut begins = verb.len();
    // `final proof 60 min`.
    if ["final", "first", "second", "blind", "cold", "warm", "bench", "bulk"].contains(&verb.as_str())
        && let Some(next) = words.clone().next().map(str::to_lowercase).filter(|next| is_verb(next))
    {
        begins += next.len() + 1;
        verb = next;
        words.next();
    }
    let next = words.next().unwrap_or_default().to_lowercase();
    let behind = text.get(begins..).unwrap_or_default();
    let is_figure = next.starts_with(|c: char| c.is_numeric()) || spoken::number(&next).is_some();
    let timed = is_figure && (!times(behind).is_empty() || heat(behind).is_some());
    let divides = ["divide", "portion", "scale", "cut", "shape", "form"].contains(&verb.as_str())
        && next.starts_with(|c: char| c.is_numeric());
    let is_known = TOLD.contains(&verb.as_str()) || BEGUN.contains(&verb.as_str());
    // `Glaze for the top 50 g` is listed.
    if BEGUN.contains(&verb.as_str()) && !divides && !timed && holds_amount(text) {
        return false;
    }
    // `Roll, fill, cut 18 (65 g each). Prove 45 min.`
    let is_prose =
        TOLD.contains(&verb.as_str()) && !times(text).is_empty() && (text.contains(". ") || !holds_amount(text));
    is_prose
        || is_known
            && (divides || timed || words.next().is_some())
            && (AFTER_VERB.contains(&next.as_str()) || timed || divides)
}

/// Whether a line says how hot an oven is and for how long, and nothing else: `220C 12 min` is a bake.
pub(super) fn is_heat_and_time(text: &str) -> bool {
    text.starts_with(char::is_numeric) && is_of_an_oven(text) && !times(text).is_empty()
}

/// Whether a time, as the language writes it, is longer than hands are at one thing.
fn is_long(time: &str) -> bool {
    let longest = time.rsplit('-').next().unwrap_or(time);
    let figure = amount::figure(longest).and_then(|(figure, _)| figure.value);
    longest.ends_with("days")
        || longest.ends_with("weeks")
        || (longest.ends_with(" h") && figure.is_some_and(|hours| hours > Number::whole(3)))
}

/// Words as prose of which no line is too long.
pub(super) fn prose(text: &str) -> Vec<String> {
    words::prose(text, COLUMNS)
}

/// Words as a note.
pub(super) fn note(text: &str) -> Vec<String> {
    let mut lines = words::prose(text, COLUMNS);
    for (at, line) in lines.iter_mut().enumerate() {
        *line = format!("{}{line}", if at == 0 { "note " } else { "    " });
    }
    lines
}

/// Whether the first word tells what is done.
pub(super) fn begins_with_verb(text: &str) -> bool {
    words::all_of(text).next().is_some_and(|word| is_verb(&word))
}

/// Whether words tell what is done: by a verb, or by a time.
pub(super) fn tells(text: &str) -> bool {
    !verbs(text).is_empty() || !times(text).is_empty()
}

fn in_oven(text: &str) -> bool {
    let lower = text.to_lowercase();
    lower.contains("oven") || ["bake", "baking", "roast"].iter().any(|verb| lower.contains(verb))
}

/// A name for the step from the verb that takes its time, and who is busy.
pub(super) fn named(text: &str, taken: &[Key]) -> Option<(String, &'static str)> {
    let verb = acts::verb_of(text)?;
    // `dough rises 1 h` is a rise.
    let known = |verb: &&str| TENDED.contains(verb) || WAITED.contains(verb) || LEFT.contains(verb);
    let (verb, kind) = match verb.strip_suffix('s').filter(known).unwrap_or(&verb) {
        verb if TENDED.contains(&verb) => (verb.to_owned(), "tend"),
        verb if WAITED.contains(&verb) => (verb.to_owned(), "wait"),
        verb if LEFT.contains(&verb) => ("rest".to_owned(), "wait"),
        verb => (verb.to_owned(), "hands"),
    };
    let free = |name: &str| !taken.contains(&Key::new(name));
    if free(&verb) {
        return Some((verb, kind));
    }
    AGAIN.iter().map(|word| format!("{word} {verb}")).find(|name| free(name)).map(|name| (name, kind))
}

/// The words, and what stands behind the last `until` if it ends them.
fn with_cue(text: &str) -> (&str, Option<&str>) {
    let whole = (text, None);
    let Some(at) = text.rfind(" until ") else { return whole };
    let (told, cue) = (text.get(..at).unwrap_or(text), text.get(at + 7..).unwrap_or(""));
    let cue = cue.trim().trim_end_matches('.');
    // `until thick and strain`: what is done then is no sign.
    if verbs::goes_on(cue) {
        return whole;
    }
    let ends = !cue.is_empty() && !cue.contains(['.', ';', '!', '?']);
    if ends && !told.trim().is_empty() { (told.trim_end_matches([',', ' ']), Some(cue)) } else { whole }
}

/// Whether a line ends in the middle of a sentence.
pub(super) fn is_open(line: &str) -> bool {
    const JOINTS: [&str; 16] =
        ["not", "and", "then", "to", "a", "an", "the", "or", "with", "in", "of", "for", "until", "at", "on", "it"];
    let last = words::all_of(line).last().unwrap_or_default();
    line.ends_with([',', ';', ':', '-']) || !line.ends_with(['.', '!']) && JOINTS.contains(&last.as_str())
}
