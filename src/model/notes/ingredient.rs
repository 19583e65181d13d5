//! A line of a list of ingredients.

use super::amount::{self, Figure, Unit};
use super::words;
use crate::language::parse::nearest;
use crate::language::syntax::Key;
use crate::model::larder::Larder;

/// Words about how something is, which people put before its name.
const MANNERS: [&str; 32] = [
    "large", "medium", "small", "fresh", "freshly", "warm", "lukewarm", "tepid", "cold", "hot", "iced", "melted",
    "softened", "soft", "chopped", "finely", "roughly", "coarsely", "grated", "ground", "toasted", "sifted", "beaten",
    "ripe", "chilled", "boiling", "cooled", "sliced", "diced", "heaped", "level", "organic",
];

/// An ingredient as it was understood.
#[derive(Debug, Clone, PartialEq, Eq)]
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
}

/// Reads a line. `expected`: the lines around are ingredients, so that a bare name is one too.
pub(super) fn read(line: &str, expected: bool) -> Option<Read> {
    amount_first(line)
        .or_else(|| loose_first(line))
        .or_else(|| amount_last(line))
        .or_else(|| without_amount(line, expected))
}

/// `500 g bread flour`, `2 eggs`, `225 g / 8 oz butter`.
fn amount_first(line: &str) -> Option<Read> {
    let (figure, rest) = amount::figure(line)?;
    if rest.starts_with([':', ')']) {
        return None;
    }
    let mut made = Made::default();
    // A unit ends where a word ends: `2 g` but not `2 grapes`, and `1 t` but not the `t` of a name.
    let (unit, mut rest) = match amount::unit(rest) {
        Some((Unit::Other, ..)) => return None,
        Some((unit, word, after)) if after.starts_with(|c: char| !c.is_alphanumeric()) => {
            if matches!(unit, Unit::Loose | Unit::Counted) {
                made.clauses.push(word.to_lowercase());
            }
            (Some(unit), after)
        }
        _ => (None, rest),
    };
    if unit.is_none() && !rest.starts_with([' ', '\u{A0}', 'x', '×', '(']) {
        return None;
    }
    made.take(&figure, unit);
    // The same amount in another unit.
    let trimmed = rest.trim_start();
    let other = trimmed.strip_prefix('/').or_else(|| trimmed.strip_prefix('=')).or_else(|| trimmed.strip_prefix('('));
    if let Some((second, spoons, after)) = other.and_then(weight) {
        rest = after.trim_start().strip_prefix(')').unwrap_or(after);
        made.also(&second, spoons);
    }
    let rest = rest.trim_start();
    let rest = rest
        .strip_prefix("of ")
        .or_else(|| rest.strip_prefix("x "))
        .or_else(|| rest.strip_prefix("× "))
        .unwrap_or(rest);
    made.named(rest)
}

/// `a pinch of salt`, `some rosemary`, `a cup of milk`, `an egg`.
fn loose_first(line: &str) -> Option<Read> {
    let lower = line.to_lowercase();
    let article = ["a ", "an ", "some ", "a good ", "a generous ", "a small ", "a large ", "plenty of "];
    let first = article.into_iter().filter(|word| lower.starts_with(word)).max_by_key(|word| word.len());
    let rest = line.get(first.map_or(0, str::len)..)?;
    let mut made = Made::default();
    match amount::unit(rest) {
        Some((Unit::Loose, word, after)) if after.starts_with(' ') => {
            made.open(word);
            made.clauses.push(word.to_lowercase());
            let after = after.trim_start();
            made.named(after.strip_prefix("of ").unwrap_or(after))
        }
        Some((unit @ (Unit::Known(_) | Unit::Spoon(_)), _, after)) if first.is_some() && after.starts_with(" of ") => {
            made.take(&Figure { shown: "1".to_owned(), most: None, look: None }, Some(unit));
            made.named(after.get(4..)?)
        }
        _ if first == Some("some ") => {
            made.open("some");
            made.named(rest)
        }
        _ if first == Some("an ") || first == Some("a ") => {
            // Only what is known to be an ingredient: `a loaf for Sunday` is none.
            let name = words::name(rest.split([',', '(']).next()?);
            Larder::new().find(&Key::new(&name))?;
            made.take(&Figure { shown: "1".to_owned(), most: None, look: None }, None);
            made.named(rest)
        }
        _ => None,
    }
}

/// `Flour: 500 g`, `butter ... 200 g`, `salt - 9 g`, `Flour 500g`.
fn amount_last(line: &str) -> Option<Read> {
    let at = line.char_indices().find(|(at, c)| c.is_numeric() && *at > 0)?.0;
    let (name, rest) = line.split_at(at);
    let name =
        name.trim_end_matches(|c: char| c.is_whitespace() || matches!(c, ':' | '-' | '–' | '.' | '…' | '=' | '|'));
    if name.split_whitespace().count() > 5 || !name.chars().any(char::is_alphabetic) || name.contains([',', '.']) {
        return None;
    }
    let (figure, rest) = amount::figure(rest)?;
    let mut made = Made::default();
    let (unit, after) = match amount::unit(rest) {
        Some((Unit::Other, ..)) => return None,
        Some((unit, word, after)) => {
            if matches!(unit, Unit::Loose | Unit::Counted) {
                made.clauses.push(word.to_lowercase());
            }
            (Some(unit), after)
        }
        None => (None, rest),
    };
    let after = after.trim();
    // More words than how it is prepared are a sentence.
    if !(after.is_empty() || after.starts_with([',', '('])) {
        return None;
    }
    if unit.is_none() {
        Larder::new().find(&Key::new(name))?;
    }
    made.take(&figure, unit);
    made.named(&format!("{name}{after}"))
}

/// `salt to taste`, `butter for greasing`, and in a list any short name.
fn without_amount(line: &str, expected: bool) -> Option<Read> {
    let lower = line.to_lowercase();
    let mut made = Made::default();
    for taste in [", to taste", " to taste"] {
        if let Some(at) = lower.find(taste) {
            made.amount = "to taste".to_owned();
            return made.named(&format!("{}{}", line.get(..at)?, line.get(at + taste.len()..)?));
        }
    }
    let for_use = [" for ", ", for ", " to "].into_iter().find_map(|word| {
        let at = lower.find(word)?;
        let what = lower.get(at + word.len()..)?.split_whitespace().next()?;
        let aside = [
            "greasing",
            "dusting",
            "grease",
            "dust",
            "sprinkling",
            "sprinkle",
            "rolling",
            "frying",
            "brushing",
            "brush",
            "serve",
            "serving",
        ];
        let what = what.trim_matches(|c: char| !c.is_alphabetic());
        aside.contains(&what).then_some(at)
    });
    if let Some(at) = for_use.filter(|_| line.split_whitespace().count() < 8) {
        let (name, use_) = line.split_at(at);
        made.amount = "as needed".to_owned();
        made.clauses.push(use_.trim_start_matches([',', ' ']).trim_end_matches('.').to_owned());
        made.clauses.push("aside".to_owned());
        return made.named(name);
    }
    let name = words::name(line.split([',', '(']).next()?);
    let known = Larder::new().find(&Key::new(&name)).is_some();
    let short = line.split_whitespace().count() <= 5 && !line.ends_with(['.', '!', '?', ':']);
    if short && (known || expected) && !line.chars().any(char::is_numeric) {
        made.amount = "as needed".to_owned();
        made.look.push("no amount is said".to_owned());
        return made.named(line);
    }
    None
}

/// A weight or volume that repeats an amount, and whether it differs between countries.
fn weight(text: &str) -> Option<(String, bool, &str)> {
    let text = text.trim_start();
    let text = text.strip_prefix("about ").unwrap_or(text);
    let (figure, rest) = amount::figure(text)?;
    let (unit, _, rest) = amount::unit(rest)?;
    let (word, spoons) = match unit {
        Unit::Known(word) => (word, false),
        Unit::Spoon(word) => (word, true),
        _ => return None,
    };
    (figure.most.is_none() && figure.look.is_none()).then(|| (format!("{} {word}", figure.shown), spoons, rest))
}

/// An ingredient while it is put together.
#[derive(Debug, Default)]
struct Made {
    amount: String,
    clauses: Vec<String>,
    look: Vec<String>,
    spoons: bool,
}

impl Made {
    fn take(&mut self, figure: &Figure, unit: Option<Unit>) {
        self.look.extend(figure.look.map(str::to_owned));
        if figure.most.is_some() {
            self.look.push("the smaller figure is taken".to_owned());
        }
        self.amount = match unit {
            Some(Unit::Known(unit)) => format!("{} {unit}", figure.shown),
            Some(Unit::Spoon(unit)) => {
                self.spoons = true;
                format!("{} {unit}", figure.shown)
            }
            Some(Unit::Loose) => {
                self.look.push("no weight is said".to_owned());
                "as needed".to_owned()
            }
            Some(Unit::Counted | Unit::Other) => {
                self.look.push("it is counted here, a weight would be surer".to_owned());
                figure.shown.clone()
            }
            None => figure.shown.clone(),
        };
    }

    fn open(&mut self, word: &str) {
        let taste = ["pinch", "dash", "little"].contains(&word.to_lowercase().as_str());
        self.amount = if taste { "to taste" } else { "as needed" }.to_owned();
        self.look.push("no weight is said".to_owned());
    }

    fn also(&mut self, second: &str, spoons: bool) {
        if self.amount.ends_with(char::is_alphabetic) && self.amount.starts_with(char::is_numeric) {
            self.spoons |= spoons;
            self.amount = format!("{} = {second}", self.amount);
        } else {
            self.clauses.push(second.to_owned());
            self.look.push("a second amount is said".to_owned());
        }
    }

    /// Takes the words that are left: a name, and after a comma or in brackets how it is prepared.
    fn named(mut self, rest: &str) -> Option<Read> {
        let (mut inside, mut outside) = (Vec::new(), String::new());
        let mut rest = rest;
        while let Some((before, behind)) = rest.split_once('(') {
            outside.push_str(before);
            let (within, after) = behind.split_once(')').unwrap_or((behind, ""));
            inside.push(within);
            rest = after;
        }
        outside.push_str(rest);
        let (name, manner) = outside.split_once([',', ';']).unwrap_or((&outside, ""));
        let larder = Larder::new();
        let mut name = words::small(&words::name(name));
        while larder.find(&Key::new(&name)).is_none()
            && let Some((first, behind)) = name.split_once(' ')
            && MANNERS.contains(&first.to_lowercase().as_str())
        {
            self.clauses.push(first.to_lowercase());
            name = behind.to_owned();
        }
        if !name.chars().any(char::is_alphabetic) || name.split_whitespace().count() > 8 {
            return None;
        }
        if larder.find(&Key::new(&name)).is_none()
            && let Some(near) = nearest(&name, larder.names())
        {
            self.look.push(format!("is this {near}?"));
        }
        if name.chars().any(char::is_numeric) && larder.find(&Key::new(&name)).is_none() {
            self.look.push("a figure stands in the name".to_owned());
        }
        self.clauses.extend(manner.split([',', ';']).chain(inside).map(manner_of).filter(|clause| !clause.is_empty()));
        Some(Read { name, amount: self.amount, clauses: self.clauses, look: self.look, spoons: self.spoons })
    }
}

fn manner_of(text: &str) -> String {
    let bare = text.trim();
    let bare = bare.strip_prefix("at ").unwrap_or(bare);
    if let Some((figure, rest)) = amount::figure(bare)
        && figure.most.is_none()
        && figure.look.is_none()
        && let scale @ ("C" | "F") = rest.trim_start_matches(['°', 'º', ' '])
    {
        return format!("at {} {scale}", figure.shown);
    }
    let plain = text.replace(['[', ']', '{', '}', '#', ','], " ");
    plain.split_whitespace().collect::<Vec<&str>>().join(" ").trim_end_matches('.').to_owned()
}
