//! Texts changed by chance: by bytes, by words, by lines.

use crate::dice::Dice;

impl Dice {
    pub fn one<'t, T>(&mut self, list: &'t [T]) -> &'t T {
        &list[self.below(list.len())]
    }
}

/// Words that mean something somewhere, and some that mean harm.
const WORDS: &[&str] = &[
    "0",
    "1/3",
    "1e9",
    "999999999999999",
    "-5",
    "½",
    "1,5",
    "%",
    "= 1 lb",
    "g",
    "kg",
    "oz",
    "ml",
    "cup",
    "tsp",
    "C",
    "F",
    "all",
    "rest of",
    "half of",
    "aside",
    "optional",
    "at 30 C",
    "yield 90 %",
    "not flour",
    "counts as flour",
    "loss 5 %",
    "per piece",
    "makes 12 rolls",
    "divide 12 x 80 g",
    "spare 40 g",
    "percent of total",
    "from dough",
    "[hand]",
    "choose way: hand or machine",
    "note",
    "until",
    "{",
    "}",
    "{water}",
    "#",
    "# allow never-used: so",
    "part",
    "recipe",
    "kitchen",
    "day",
    "ingredient",
    "..",
    "…",
    "\"",
    "use \"larder.miche\"",
    "during mix",
    "after bake",
    "each",
    "12 at a time",
    "up to 2 days",
    "\u{202e}",
    "\u{85}",
    "\u{200c}",
    "\u{2028}",
    "\u{feff}",
    "\t",
    "<script>",
    "<<<<<<< ours",
    "=======",
];

/// A change of one number, the kind that a careful reader has to be told of.
pub fn another_number(text: &str, dice: &mut Dice) -> String {
    let digits: Vec<usize> = text.char_indices().filter(|(_, c)| c.is_ascii_digit()).map(|(at, _)| at).collect();
    if digits.is_empty() {
        return text.to_owned();
    }
    let at = *dice.one(&digits);
    let other = char::from(b'0' + dice.below(10) as u8);
    format!("{}{other}{}", &text[..at], &text[at + 1..])
}

fn lines(text: &str) -> Vec<&str> {
    text.split_inclusive('\n').collect()
}

/// A change of whole lines.
pub fn other_lines(text: &str, other: &str, dice: &mut Dice) -> String {
    let mut all = lines(text);
    if all.is_empty() {
        return other.to_owned();
    }
    let at = dice.below(all.len());
    let to = dice.below(all.len());
    match dice.below(6) {
        0 => drop(all.remove(at)),
        1 => all.insert(to, all[at]),
        2 => all.swap(at, to),
        3 if at + 1 < all.len() => all.swap(at, at + 1),
        4 => {
            let from = lines(other);
            if !from.is_empty() {
                all.insert(at, from[dice.below(from.len())]);
            }
        }
        _ => drop(all.drain(at.min(to)..at.max(to).min(at.min(to) + 5))),
    }
    all.concat()
}

/// A change of words: one put in, one taken out, a clause gone.
pub fn other_words(text: &str, dice: &mut Dice) -> String {
    let mut all: Vec<&str> = text.split_inclusive([' ', '\n']).collect();
    if all.is_empty() {
        return text.to_owned();
    }
    let at = dice.below(all.len());
    match dice.below(4) {
        0 => drop(all.remove(at)),
        1 | 2 => {
            let word = format!("{} ", dice.one(WORDS));
            return format!("{}{word}{}", all[..at].concat(), all[at..].concat());
        }
        _ => {
            let commas: Vec<usize> = text.match_indices(", ").map(|(at, _)| at).collect();
            if commas.is_empty() {
                return text.to_owned();
            }
            let from = *dice.one(&commas);
            let rest = &text[from + 2..];
            let end = rest.find([',', '\n']).unwrap_or(rest.len());
            return format!("{}{}", &text[..from], &rest[end..]);
        }
    }
    all.concat()
}

/// A change of single bytes, which may leave no text at all.
pub fn other_bytes(bytes: &[u8], dice: &mut Dice) -> Vec<u8> {
    let mut all = bytes.to_vec();
    for _ in 0..=dice.below(4) {
        let at = dice.below(all.len() + 1);
        let byte = if dice.below(3) == 0 {
            dice.below(256) as u8
        } else {
            *dice.one(b"\r\n\0\t .,{}[]#=:0123456789%\xe9\xff\"")
        };
        match dice.below(3) {
            0 if at < all.len() => all[at] = byte,
            1 if at < all.len() => drop(all.remove(at)),
            _ => all.insert(at, byte),
        }
    }
    all
}

/// Some changes of any kind.
pub fn changed(text: &str, other: &str, dice: &mut Dice) -> Vec<u8> {
    let mut text = text.to_owned();
    for _ in 0..=dice.below(3) {
        text = match dice.below(4) {
            0 => another_number(&text, dice),
            1 => other_lines(&text, other, dice),
            _ => other_words(&text, dice),
        };
    }
    match dice.below(8) {
        0 => other_bytes(text.as_bytes(), dice),
        1 => text.replace('\n', "\r\n").into_bytes(),
        2 => text.replace('\n', "\r").into_bytes(),
        _ => text.into_bytes(),
    }
}

/// The lines that one text has and another has not, or not so often.
pub fn fewer(one: &[u8], other: &[u8]) -> Vec<Vec<u8>> {
    let mut left: Vec<&[u8]> = other.split(|byte| *byte == b'\n').collect();
    let mut missing = Vec::new();
    for line in one.split(|byte| *byte == b'\n') {
        match left.iter().position(|there| *there == line) {
            Some(at) => drop(left.swap_remove(at)),
            None => missing.push(line.to_vec()),
        }
    }
    // What stands behind the last line break is nothing.
    missing.retain(|line| !line.is_empty());
    missing
}
