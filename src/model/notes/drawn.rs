//! A line that takes a part made above, by its name and words around it: `all soaker`, `the sour`, `half the sour`, `sour (keep 40 g back)`.

use super::item::Read;
use super::words;

/// Words before the name of a part with which it is taken, longest first, and what is to be looked at.
const BEFORE: [(&str, &str); 18] = [
    ("all of the ", ""),
    ("all the ", ""),
    ("all of ", ""),
    ("all ", ""),
    ("the whole ", ""),
    ("the rest of the ", "the rest of it is said"),
    ("rest of the ", "the rest of it is said"),
    ("rest of ", "the rest of it is said"),
    ("the remaining ", "the rest of it is said"),
    ("remaining ", "the rest of it is said"),
    ("half of the ", "half of it is said"),
    ("half the ", "half of it is said"),
    ("half of ", "half of it is said"),
    ("half ", "half of it is said"),
    ("most of the ", "most of it is said"),
    ("some of the ", "some of it is said"),
    ("the ", ""),
    ("your ", ""),
];
/// Words behind the name with which all of it is taken.
const BEHIND: [&str; 9] =
    ["", "from above", "above", "all", "all of it", "made above", "as above", "see above", "recipe above"];
/// Words behind the name that say that some of it stays out.
const KEPT: [&str; 9] = ["keep", "save", "hold", "less", "minus", "except", "but", "reserve", "without"];

/// Reads a line that takes the part of which `name` is the name, or the first that `called` knows; `None` for any other.
pub(super) fn read(line: &str, called: impl Fn(&str) -> bool) -> Option<Read> {
    let lower = line.to_lowercase();
    let bare = lower.trim_end_matches(['.', ',', ';']);
    let (before, said) = BEFORE.into_iter().find(|(words, _)| bare.starts_with(words)).unwrap_or(("", ""));
    let rest = bare.get(before.len()..)?;
    let tokens: Vec<&str> = rest.split_whitespace().collect();
    // The longest name first: `rye sour` before `rye`.
    for count in (1..=tokens.len().min(4)).rev() {
        let name = words::name(&tokens.get(..count)?.join(" "));
        if name.is_empty() || !called(&name) {
            continue;
        }
        let behind = tokens.get(count..)?.join(" ");
        let behind = behind.trim_matches(['(', ')', ',', ' ', '-', ':']);
        let keeps = words::all_of(behind).any(|word| KEPT.contains(&word.as_str()));
        let whole = BEHIND.contains(&behind);
        // The bare name is read elsewhere, and an amount of a part is one.
        if before.is_empty() && behind.is_empty() || !(whole || keeps) {
            return None;
        }
        let mut read = Read { name, amount: "all".to_owned(), stays_out: keeps, ..Read::default() };
        if !said.is_empty() {
            let words = said.strip_suffix(" of it is said").unwrap_or(said);
            read.clauses.push(format!("{words} of it"));
            read.look.push(format!("{said}, but this takes all of it"));
        }
        read.clauses.extend(keeps.then(|| words::name(behind)).filter(|words| !words.is_empty()));
        return Some(read);
    }
    None
}

#[cfg(test)]
mod tests {
    use super::read;

    #[test]
    fn a_part_is_taken_in_many_words() {
        let called = |name: &str| ["sour", "soaker"].contains(&name);
        for (line, clauses, looks) in [
            ("all soaker", &[][..], 0),
            ("the sour", &[], 0),
            ("half the sour", &["half of it"], 1),
            ("remaining sour", &["the rest of it"], 1),
            ("sour from above", &[], 0),
            ("sour (keep 40 g back)", &["keep 40 g back"], 0),
            ("all sour less 30 g", &["less 30 g"], 0),
        ] {
            let read = read(line, called);
            let got = read.as_ref().map(|read| (read.amount.as_str(), read.clauses.clone(), read.look.len()));
            let clauses: Vec<String> = clauses.iter().map(|clause| (*clause).to_owned()).collect();
            assert_eq!(got, Some(("all", clauses, looks)), "{line}");
        }
        for line in ["sour", "200 g sour", "sour cream", "all spice", "sour cherries 200 g"] {
            assert_eq!(read(line, called), None, "{line}");
        }
    }
}
