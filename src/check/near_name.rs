//! `near-name`: an ingredient that nobody knows, one letter away from one that is known.

use super::{Check, Family, Run, Subject};
use crate::language::syntax::{Key, Name};
use crate::model::larder::{self, MOST_WORDS};
use crate::model::recipe::{Part, Recipe, Refers};
use crate::text::diagnostic::{Diagnostic, Severity};
use std::collections::{BTreeSet, HashMap, HashSet};
use std::hash::{DefaultHasher, Hash, Hasher};
use std::sync::OnceLock;

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "near-name",
    severity: Severity::Warning,
    family: Family::Names,
    looks_for: "an ingredient of which no larder knows and whose name is one letter away from one that is known: `watr`, `fresch yeast`, \
                `caster suger`, `marscapone`; that is two known words run together or one torn apart, `soysauce`, `corn flour`; or that names a \
                part by its recipe, `dough of Base dough`",
    why: "A name that nobody knows has no weight by the cup, no water, no allergens and no price, and the sums go on without it; of `soysauce` nobody is warned of soya. \
          Write the known name; or describe the ingredient in a larder file, if it really is another one.",
    bad: "recipe Loaf\nflour .... 1 kg\nwatr .... 650 g\nmix: hands 10 min\n    Mix {flour} and {watr}.\n    until smooth\n",
    good: "recipe Loaf\nflour .... 1 kg\nwater .... 650 g\nmix: hands 10 min\n    Mix {flour} and {water}.\n    until smooth\n",
    sources: &["common practice, no source"],
    run: Run::Recipe(run),
};

fn run(subject: &Subject<'_>, diagnostics: &mut Vec<Diagnostic>) {
    let recipe = subject.recipe;
    let mut known: Option<Known> = None;
    for (_, part, _) in subject.own_parts() {
        let unknown = part.lines.iter().filter(|line| line.refers == Refers::Pantry(None));
        for line in unknown.filter(|line| line.name.text.is_ascii()) {
            let name = line.name.key.as_str();
            if let Some((of, part)) = part_of_another(recipe, name) {
                let message = format!("no larder knows `{}`; `{of}` has a part `{part}`", line.name);
                let help = format!(
                    "did you mean that part? A line names it as it is, `{part}`; else describe `{}` in a larder file",
                    line.name
                );
                let problem = Diagnostic::warning(CHECK.name, line.name.span, message).help(help);
                diagnostics.push(problem.suggest(format!("write `{part}`"), line.name.span, part.to_string()));
                continue;
            }
            if FOODS.contains(&name.strip_suffix('s').unwrap_or(name)) {
                continue;
            }
            let known = known.get_or_insert_with(|| Known::of(recipe));
            let near = match name.len() {
                ..=3 => short_word(name).map(str::to_owned),
                _ => known.near(part, name).or_else(|| known.joined(name)).or_else(|| misheard(name)),
            };
            let Some(near) = near else { continue };
            let message = format!("no larder knows `{}`; `{near}` is known", line.name);
            diagnostics.push(
                Diagnostic::warning(CHECK.name, line.name.span, message)
                    .help(format!(
                        "did you mean `{near}`? Else describe `{}` in a larder file, so that it is known what it is",
                        line.name
                    ))
                    .suggest(format!("write `{near}`"), line.name.span, near.clone()),
            );
        }
    }
}

/// Foods of their own that no larder has and that are near to another: a sloe is no sole.
const FOODS: &[&str] =
    &["sloe", "chai", "pear cider", "perry", "damson", "medlar", "plantain", "sorrel", "nettle", "ramson"];

/// `dough of Base dough`, where that is a recipe at hand and has that part: the recipe, and the part.
fn part_of_another<'r>(recipe: &'r Recipe, name: &str) -> Option<(&'r Name, &'r Name)> {
    let at_hand = || recipe.used.iter().map(|used| &*used.recipe).chain([recipe]);
    name.match_indices(" of ").find_map(|(at, of)| {
        let (part, other) = (name.get(..at)?, name.get(at + of.len()..)?);
        let other = other.strip_prefix("the ").unwrap_or(other);
        let of = at_hand().find(|recipe| recipe.name.key.as_str() == other)?;
        let part = of.parts().find(|(_, own)| own.name.key.as_str() == part)?;
        Some((&of.name, &part.1.name))
    })
}

/// What is in nearly every formula and has so few letters that only a letter left out, or two swapped, make a slip of it.
const SHORT: &[&str] = &["salt", "oil", "egg"];

/// The everyday word of which three letters or fewer are a slip: `slt`, `iol`, `eg`.
fn short_word(name: &str) -> Option<&'static str> {
    let slip = |word: &&&str| {
        let swapped = word.len() == name.len() && strsim::levenshtein(word, name) == 2;
        name.len() > 1 && (swapped || word.len() == name.len() + 1) && strsim::osa_distance(word, name) == 1
    };
    SHORT.iter().find(slip).copied()
}

/// The everyday word for one that is spelt as it is heard, or whose last key was struck twice or missed: `flower`, `eggz`, `oill`.
fn misheard(name: &str) -> Option<String> {
    let heard = [("flower", "flour"), ("flowers", "flour"), ("eggz", "eggs"), ("saltz", "salt")];
    let struck_twice = |word: &&&str| {
        let rest = name.strip_prefix(**word);
        rest.is_some_and(|rest| rest.len() == 1 && word.ends_with(rest))
    };
    let known = heard.iter().find(|(heard, _)| *heard == name).map(|(_, meant)| *meant);
    known.or_else(|| SHORT.iter().find(struck_twice).copied()).map(str::to_owned)
}

/// No word of a food's name has more letters than this.
const LONGEST_WORD: usize = 40;

/// What a name may be a slip of: names of parts, then of lines, and the words of the larder.
struct Known<'r> {
    recipe: &'r Recipe,
    /// So many of the names are those of parts.
    parts: usize,
    names: Slips<'r>,
    /// The words of what the baker's own files describe.
    own_words: Slips<'r>,
    /// The words that were asked for, each with those of which it may be a slip: the names of a recipe share most of theirs.
    near_words: HashMap<&'r str, Vec<&'r str>>,
}

impl<'r> Known<'r> {
    fn of(recipe: &'r Recipe) -> Known<'r> {
        let mut names: Vec<&str> = recipe.parts().map(|(_, part)| part.name.key.as_str()).collect();
        let parts = names.len();
        let mut seen = HashSet::new();
        let lines = recipe.parts().flat_map(|(_, part)| &part.lines).map(|line| line.name.key.as_str());
        names.extend(lines.filter(|name| seen.insert(*name)));
        let names = Slips::of(names).that_are_alike();
        Known {
            recipe,
            parts,
            names,
            own_words: Slips::of(words(recipe.larder.own_names())),
            near_words: HashMap::new(),
        }
    }

    /// The known name from which a name is one slip away: a part's, another line's, or the larder's.
    fn near(&mut self, part: &Part, name: &'r str) -> Option<String> {
        // Names are compared as wholes, and where one word of several is wrong, with that word put right.
        let is_other = |at: usize, other: &str| at >= self.parts || other != part.name.key.as_str();
        let mut listed = self.names.of_which(name).into_iter();
        if let Some((_, near)) = listed.find(|(at, other)| is_other(*at, other)) {
            return Some(near.to_owned());
        }
        let words: Vec<&str> = name.split(' ').collect();
        if words.len() > MOST_WORDS {
            return None;
        }
        let is_known = |word: &str| self.own_words.has(word) || brought_words().has(word);
        let wrong = words.iter().enumerate().filter(|(_, word)| word.len() > 3 && !is_known(word));
        let mut mended = Vec::new();
        for (at, word) in wrong {
            let near = self.near_words.entry(word).or_insert_with(|| {
                let mut near: Vec<&str> = self.own_words.of_which(word).into_iter().map(|(_, word)| word).collect();
                near.extend(brought_words().of_which(word).into_iter().map(|(_, word)| word));
                near.sort_unstable();
                near.dedup();
                near
            });
            mended.extend(near.iter().map(|other| (at, *other)));
        }
        mended
            .into_iter()
            .map(|(at, word)| {
                let with = words.iter().enumerate().map(|(number, old)| if number == at { word } else { old });
                with.collect::<Vec<&str>>().join(" ")
            })
            // Yeast of no form is in no larder, and everybody knows it.
            .find(|name| self.recipe.larder.find(&Key::new(name)).is_some() || name == "yeast")
    }
}

impl Known<'_> {
    /// The known name that a name is when two of its words are run together that should not be, or one is torn apart: `soysauce`, `corn flour`.
    fn joined(&self, name: &str) -> Option<String> {
        if name.len() > 2 * LONGEST_WORD || !name.is_ascii() || name.chars().any(|letter| letter.is_ascii_digit()) {
            return None;
        }
        let torn =
            name.match_indices(' ').filter_map(|(at, _)| Some(format!("{}{}", name.get(..at)?, name.get(at + 1..)?)));
        // Both words have three letters at least: what is left of a shorter one may be the end of any word.
        let run_together = (3..name.len().saturating_sub(2)).filter_map(|at| {
            let (one, other) = (name.get(..at)?, name.get(at..)?);
            let ends = one.rsplit(' ').next().is_some_and(|word| word.len() >= 3);
            let begins = other.split(' ').next().is_some_and(|word| word.len() >= 3);
            (ends && begins).then(|| format!("{one} {other}"))
        });
        let plural = name.strip_suffix("ys").map(|stem| format!("{stem}ies"));
        torn.chain(run_together).chain(plural).find(|name| self.recipe.larder.has_just(&Key::new(name)))
    }
}

/// The words of names, each once, in their order.
fn words<'n>(names: impl Iterator<Item = &'n str>) -> Vec<&'n str> {
    names.flat_map(|name| name.split(' ')).collect::<BTreeSet<&str>>().into_iter().collect()
}

/// The words of the larder that the program brings.
fn brought_words() -> &'static Slips<'static> {
    static WORDS: OnceLock<Slips<'static>> = OnceLock::new();
    WORDS.get_or_init(|| Slips::of(words(larder::brought_names())))
}

/// Names, found by what one slip makes of them: two names that are a slip apart have a form in common when a letter is left out
/// of one word of each, or of one of them.
struct Slips<'n> {
    names: Vec<&'n str>,
    /// Hash of a form and the place of its name, in order.
    forms: Vec<(u64, usize)>,
}

impl<'n> Slips<'n> {
    fn of(names: Vec<&'n str>) -> Slips<'n> {
        let with_place = |(at, name): (usize, &&'n str)| forms(name).into_iter().map(move |form| (form, at));
        let mut forms: Vec<(u64, usize)> = names.iter().enumerate().flat_map(with_place).collect();
        forms.sort_unstable();
        Slips { names, forms }
    }

    /// Without the forms of which only one name has each: who asks for a name that is among these finds no other by them. Of
    /// thousands of names mostly nothing is left to look through.
    fn that_are_alike(self) -> Slips<'n> {
        let Slips { names, forms } = self;
        let groups = forms.chunk_by(|(one, _), (other, _)| one == other);
        let alike = groups.filter(|group| group.first().map(|first| first.1) != group.last().map(|last| last.1));
        Slips { names, forms: alike.flatten().copied().collect() }
    }

    /// Whether a word is among them; for words, which stand in their order.
    fn has(&self, word: &str) -> bool {
        self.names.binary_search(&word).is_ok()
    }

    /// The names of which a name is a slip, with their places, in their order.
    fn of_which(&self, name: &str) -> Vec<(usize, &'n str)> {
        let mut places: Vec<usize> = Vec::new();
        for form in forms(name) {
            let first = self.forms.partition_point(|(other, _)| *other < form);
            let same = self.forms.iter().skip(first).take_while(|(other, _)| *other == form);
            places.extend(same.map(|(_, at)| *at));
        }
        places.sort_unstable();
        places.dedup();
        let named = places.into_iter().filter_map(|at| Some((at, *self.names.get(at)?)));
        named.filter(|(_, other)| is_slip(name, other)).collect()
    }
}

/// What becomes of a name when one letter of one word is left out, or none.
fn forms(name: &str) -> Vec<u64> {
    let words: Vec<&str> = name.split(' ').take(MOST_WORDS + 1).collect();
    if words.len() > MOST_WORDS {
        return Vec::new();
    }
    let mut forms = Vec::new();
    for (at, word) in words.iter().enumerate() {
        let letters = word.chars().count();
        if word.len() <= 3 || letters > LONGEST_WORD || word.chars().any(|letter| letter.is_ascii_digit()) {
            continue;
        }
        let mut around = DefaultHasher::new();
        at.hash(&mut around);
        for (number, other) in words.iter().enumerate().filter(|(number, _)| *number != at) {
            (number, other).hash(&mut around);
        }
        for left_out in 0..=letters {
            let mut hasher = around.clone();
            for (_, letter) in word.chars().enumerate().filter(|(number, _)| *number != left_out) {
                letter.hash(&mut hasher);
            }
            forms.push(hasher.finish());
        }
    }
    forms
}

/// Whether a name came of another by one slip of the keys in one word: a letter too much, one missing, one for another, two
/// swapped. A plural is no slip, and digits tell things apart.
fn is_slip(name: &str, other: &str) -> bool {
    let count = name.split(' ').count();
    let mut differ = name.split(' ').zip(other.split(' ')).filter(|(one, other)| one != other);
    let (Some((word, meant)), None) = (differ.next(), differ.next()) else { return false };
    count == other.split(' ').count()
        && word.len() > 3
        && meant.len() > 3
        && word.len().abs_diff(meant.len()) <= 1
        && !word.chars().chain(meant.chars()).any(|letter| letter.is_ascii_digit())
        && word.strip_suffix('s') != Some(meant)
        && meant.strip_suffix('s') != Some(word)
        // Short words that differ in one letter are mostly two words: pint and mint.
        && (word.len() != meant.len() || word.len() > 5 || strsim::levenshtein(word, meant) == 2 || is_vowel_slip(word, meant))
        && (strsim::osa_distance(word, meant) == 1 || is_moved(word, meant))
}

/// Whether one vowel stands for another within a word of five letters, or a key was struck twice for the next: `suger`, `creem`, `honny`.
fn is_vowel_slip(word: &str, meant: &str) -> bool {
    let vowel = |letter: u8| b"aeiouy".contains(&letter);
    let differ = || word.bytes().zip(meant.bytes()).enumerate().filter(|(_, (one, other))| one != other);
    let mut found = differ();
    let (Some((at, (one, other))), None) = (found.next(), found.next()) else { return false };
    let before = at.checked_sub(1).and_then(|at| word.as_bytes().get(at));
    let is_within = at > 0 && word.len() == 5;
    is_within && (vowel(one) && vowel(other) || before == Some(&one) && vowel(other))
}

/// Whether one letter of a long word stands in another place: `marscapone`.
fn is_moved(word: &str, meant: &str) -> bool {
    let sorted = |word: &str| {
        let mut letters: Vec<u8> = word.bytes().collect();
        letters.sort_unstable();
        letters
    };
    word.len() >= 8
        && word.len() == meant.len()
        && strsim::osa_distance(word, meant) == 2
        && sorted(word) == sorted(meant)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// What is found by its forms is what is found by asking every name.
    #[test]
    fn no_slip_is_missed() {
        let names = words(larder::brought_names());
        let slips = Slips::of(names.clone());
        let typed = ["watr", "wtaer", "waterr", "flor", "buttr", "yaest", "oinon", "onoin", "sugra", "salt", "millk"];
        for name in typed.into_iter().chain(names.iter().copied().step_by(5)) {
            let asked: Vec<&str> = names.iter().copied().filter(|other| is_slip(name, other)).collect();
            let found: Vec<&str> = slips.of_which(name).into_iter().map(|(_, other)| other).collect();
            assert_eq!(found, asked, "{name}");
        }
        let names = Slips::of(vec!["strong white flour", "fresh yeast"]);
        assert_eq!(names.of_which("strong whiet flour"), [(0, "strong white flour")]);
        assert_eq!(names.of_which("fresch yeast"), [(1, "fresh yeast")]);
        assert_eq!(names.of_which("white strong flour"), []);
        // What is typed for it, as it is heard or with a letter in another place.
        for (typed, meant) in [("suger", "sugar"), ("creem", "cream"), ("honny", "honey"), ("marscapone", "mascarpone")]
        {
            assert!(is_slip(typed, meant), "{typed}");
        }
        for (one, other) in [("pint", "mint"), ("hake", "cake"), ("lard", "lord"), ("sage", "sago"), ("plums", "plump")]
        {
            assert!(!is_slip(one, other), "{one}");
        }
    }
}
