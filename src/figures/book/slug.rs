//! Names for files and for places in a page: of a title its letters and digits, and no two alike.

use std::collections::{HashMap, HashSet};

/// Names that were taken.
#[derive(Debug, Default)]
pub struct Slugs {
    taken: HashSet<String>,
    /// The number that a second one of a name gets.
    next: HashMap<String, usize>,
}

/// The longest that a name gets, in letters: file systems take 255 bytes.
const LONGEST: usize = 80;

/// Names that are devices on some systems, with any ending (from memory).
const DEVICES: &[&str] = &["aux", "con", "nul", "prn", "com", "lpt"];

/// Latin letters with marks and ligatures, and how they are written without.
const PLAIN: &[(&str, &str)] = &[
    ("àáâãåāăąǎ", "a"),
    ("äæ", "ae"),
    ("çćĉċč", "c"),
    ("ďđð", "d"),
    ("èéêëēĕėęě", "e"),
    ("ĝğġģ", "g"),
    ("ĥħ", "h"),
    ("ìíîïĩīĭįı", "i"),
    ("ĵ", "j"),
    ("ķ", "k"),
    ("ĺļľł", "l"),
    ("ñńņňŋ", "n"),
    ("òóôõōŏő", "o"),
    ("öøœ", "oe"),
    ("ŕŗř", "r"),
    ("śŝşšș", "s"),
    ("ß", "ss"),
    ("ţťŧț", "t"),
    ("þ", "th"),
    ("ùúûũūŭůűų", "u"),
    ("ü", "ue"),
    ("ŵ", "w"),
    ("ýÿŷ", "y"),
    ("źżž", "z"),
];

impl Slugs {
    /// A name for a title, which nobody has yet: `a-z`, `0-9` and hyphens. A second one of the same letters gets a number.
    pub fn take(&mut self, title: &str) -> String {
        let slug = slug(title);
        if self.taken.insert(slug.clone()) {
            return slug;
        }
        let next = self.next.entry(slug.clone()).or_insert(2);
        loop {
            let numbered = format!("{slug}-{next}");
            *next += 1;
            if self.taken.insert(numbered.clone()) {
                return numbered;
            }
        }
    }
}

/// Lower-case letters without their marks: how a title is put in the order of the alphabet.
pub fn in_order(text: &str) -> String {
    let mut plain = String::with_capacity(text.len());
    for letter in text.chars().flat_map(char::to_lowercase) {
        match PLAIN.iter().find(|(marked, _)| !letter.is_ascii() && marked.contains(letter)) {
            Some((_, written)) => plain.push_str(written),
            // Marks that stand behind their letter.
            None if ('\u{300}'..='\u{36F}').contains(&letter) => {}
            None => plain.push(letter),
        }
    }
    plain
}

/// A title as a name; of one without a Latin letter or digit nothing is left but what it is.
fn slug(title: &str) -> String {
    let mut slug = String::new();
    for letter in in_order(title).chars() {
        if slug.len() >= LONGEST {
            break;
        }
        if letter.is_ascii_alphanumeric() {
            slug.push(letter);
        } else if !slug.is_empty() && !slug.ends_with('-') && !matches!(letter, '\'' | '’') {
            slug.push('-');
        }
    }
    let slug = slug.trim_end_matches('-');
    match slug {
        "" => "recipe".to_owned(),
        _ if DEVICES.contains(&slug.trim_end_matches(|c: char| c.is_ascii_digit())) => format!("recipe-{slug}"),
        _ => slug.to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_title_is_a_name_that_every_file_system_takes() {
        let name = |title: &str| Slugs::default().take(title);
        assert_eq!(name("Rhubarb crumb buns"), "rhubarb-crumb-buns");
        assert_eq!(name("Crème brûlée & baker’s rye (½)"), "creme-brulee-bakers-rye");
        assert_eq!(name("Smørrebrød, Käse"), "smoerrebroed-kaese");
        assert_eq!(name("cafe\u{301}"), "cafe");
        assert_eq!(name("../../etc/passwd"), "etc-passwd");
        assert_eq!(name("パン"), "recipe");
        assert_eq!(name("Con"), "recipe-con");
        assert_eq!(name("com1"), "recipe-com1");
        assert!(name(&"long ".repeat(100)).len() <= LONGEST);
    }

    #[test]
    fn no_two_are_alike() {
        let mut slugs = Slugs::default();
        let all: Vec<String> = ["Rolls", "rolls!", "Rolls 2", "ROLLS"].iter().map(|title| slugs.take(title)).collect();
        assert_eq!(all, ["rolls", "rolls-2", "rolls-2-2", "rolls-3"]);
    }
}
