//! How a claim is said: what a name or a sentence says that is not in the food, word by word.

use super::{CLAIMS, GLUTEN, Rules, WORDS};
use crate::measure::noun;
use crate::model::lowered::{Beginnings, beginnings};
use crate::text::denied::is_denied;
use crate::text::word_begins::has_letters;
use crate::text::words::words_without_hyphens;

/// Without one of these, one of [`WORDS`] and one that ends in `free` a text claims nothing.
const CLAIMING: &[&str] = &["based", "without", "no", "non", "zero", "neither", "nothing"];
/// Words by which something is for somebody.
pub(super) const SUITABLE: &[&str] = &["suitable", "safe", "fine", "good", "fit", "friendly", "approved"];

/// How the words of [`WORDS`] begin, a bit for each letter: most words begin otherwise, which is told first.
const LETTERS: u32 = {
    let (mut letters, mut words) = (0, WORDS);
    while let [(word, _), rest @ ..] = words {
        (letters, words) = (letters | first_letter(word), rest);
    }
    letters
};

/// The bit of the letter with which a word begins.
const fn first_letter(word: &str) -> u32 {
    match word.as_bytes() {
        [first, ..] => 1 << (*first & 31),
        [] => 0,
    }
}

/// How those of [`WORDS`] and [`CLAIMING`] begin, and who must not eat something.
#[rustfmt::skip]
const BEGINNINGS: &Beginnings = beginnings![
    "vegan", "vegetarian", "veggie", "vg", "gf", "df", "nf", "pareve", "parve", "pescatarian", "pescetarian", "kosher", "halal",
    "based", "without", "no|", "non|", "zero", "neither", "nothing", "allerg", "intoleran", "coeliac", "celiac",
];

/// Whether a text, in lower case, has a word by which it may claim something.
pub(super) fn may_claim(text: &str) -> bool {
    // Nearly no text has the letters of any. Behind a hyphen, too, a word begins.
    let may_have = has_letters(text, b"free")
        || has_letters(text, b"less")
        || text.as_bytes().contains(&b'-')
        || BEGINNINGS.may_begin_in(text);
    may_have && has_claiming_word(text)
}

fn has_claiming_word(text: &str) -> bool {
    let is_one = |word: &str| {
        WORDS.iter().any(|(known, _)| word.strip_prefix(known).is_some_and(|end| ["", "s"].contains(&end)))
    };
    words_without_hyphens(text).any(|word| {
        word.ends_with("free")
            || word.ends_with("less")
            || is_of_the_sick(word)
            || CLAIMING.contains(&word)
            || is_coeliac(word)
            || LETTERS & first_letter(word) != 0 && is_one(word)
    })
}

fn is_coeliac(word: &str) -> bool {
    ["coeliac", "celiac"].iter().any(|known| word.starts_with(known))
}

/// Whether a word is said of who must not eat something: `nut allergy`, `milk-intolerant`.
fn is_of_the_sick(word: &str) -> bool {
    word.starts_with("allerg") || word.starts_with("intoleran")
}

/// What stands before `free` and is one list with the word right before it: `nut and egg free`, `milk-, egg- and nut-free`. In `ham, egg and
/// gluten-free bread` only the last is said to be lacking, since no hyphen stands behind the others.
fn listed_before<'w>(text: &str, words: &[&'w str], free: usize) -> Vec<&'w str> {
    let hangs = |word: &str| ["-,", "- "].iter().any(|end| text.contains(&format!("{word}{end}")));
    let Some((last, before)) = words.get(..free).and_then(<[&str]>::split_last) else { return Vec::new() };
    let is_joined = text.contains(&format!("{last}-free")) || text.contains(&format!("{last}-less"));
    // `Milk, egg free` says of the egg alone that it is lacking, and `with nuts, milk and egg free` of none before it.
    let is_ended =
        before.last().is_some_and(|word| ["and", "or"].contains(word)) || text.contains(&format!("& {last}"));
    let is_of_list = |word: &&&str| JOINS.contains(*word) || named(word).is_some();
    let is_in_it = before.iter().rev().find(|word| !is_of_list(word)).is_some_and(|word| HOLDS.contains(word));
    if !is_joined && (!is_ended || is_in_it) {
        return Vec::new();
    }
    let listed = before.iter().rev().take_while(|word| JOINS.contains(word) || named(word).is_some());
    let listed: Vec<&str> = listed.copied().filter(|word| named(word).is_some()).collect();
    // `Free` behind a space stands for all that is joined by `and` or a comma.
    let is_list = |word: &&str| {
        let joins = [",", " and", " or", " &", "-,", "- "].iter().any(|end| text.contains(&format!("{word}{end}")));
        if is_joined { hangs(word) } else { joins }
    };
    listed.into_iter().take_while(is_list).collect()
}

/// What it rules out to be free of something, by its word in either number.
fn named(word: &str) -> Option<Rules> {
    CLAIMS.iter().find(|(name, _)| noun::is_one_or_several(word, name)).map(|(_, rules)| *rules)
}

/// `Not gluten-free` and `can be made vegan` are no claims; in a name, `no egg` is one.
const DENIES: &[&str] =
    &["not", "never", "can", "if", "only", "instead", "version", "variation", "variant", "alternative"];

/// What a name or a sentence claims, in lower case. In a note `without milk` may tell how to mix; in a name it is a claim.
pub(in crate::check) fn claimed(text: &str, is_name: bool) -> Vec<(String, Rules)> {
    // Nearly no text claims anything.
    if !may_claim(text) {
        return Vec::new();
    }
    let words: Vec<&str> = words_without_hyphens(text).collect();
    let no = words.iter().position(|word| *word == "no").filter(|_| !is_name);
    let is_denying = words.iter().any(|word| DENIES.contains(word));
    // `Wheat-free (spelt only)`: what stands in brackets speaks for itself.
    if let Some((outside, within)) = around_brackets(text).filter(|_| is_denying) {
        let both = [claimed(&outside, is_name), claimed(&within.replace('(', " "), is_name)];
        return both.into_iter().flatten().collect();
    }
    if is_denying {
        return Vec::new();
    }
    // `For Lent: no meat, no milk` lists behind the colon what it is without.
    if let Some((_, listed)) = text.split_once(": ").filter(|_| !is_name && no.is_some()) {
        return claimed(listed, false);
    }
    if no.is_some_and(|no| !is_said_of_all(&words, no)) {
        return Vec::new();
    }
    let mut found = Vec::new();
    for (place, word) in words.iter().copied().enumerate() {
        let here = Place { text, words: &words, place, word, is_name };
        found.extend(here.by_a_word_of_its_own());
        found.extend(here.for_somebody());
        found.extend(here.for_coeliacs());
        found.extend(here.based_on_plants());
        found.extend(here.ending_in("free"));
        found.extend(here.free_behind_it());
        found.extend(here.ending_in("less"));
        found.extend(here.for_the_sick());
        found.extend(here.behind_without());
    }
    found
}

/// What stands outside brackets, and in them, where something stands in them.
fn around_brackets(text: &str) -> Option<(String, &str)> {
    let (before, rest) = text.split_once('(')?;
    let (within, after) = rest.split_once(')').unwrap_or((rest, ""));
    Some((format!("{before}{after}").replace('(', " "), within))
}

/// A claim as it is said, and what it rules out.
type Claim = (String, Rules);

/// A word of a text, with the words around it.
struct Place<'t> {
    text: &'t str,
    words: &'t [&'t str],
    place: usize,
    word: &'t str,
    is_name: bool,
}

impl<'t> Place<'t> {
    fn before(&self) -> &'t str {
        self.place.checked_sub(1).and_then(|at| self.words.get(at)).copied().unwrap_or("")
    }

    fn next(&self) -> &'t str {
        self.behind().first().copied().unwrap_or("")
    }

    fn behind(&self) -> &'t [&'t str] {
        self.words.get(self.place + 1..).unwrap_or_default()
    }

    /// The words before it, from the first.
    fn all_before(&self) -> &'t [&'t str] {
        self.words.get(..self.place).unwrap_or_default()
    }

    /// Whether `for` stands shortly before it.
    fn is_for(&self) -> bool {
        self.all_before().iter().rev().take(4).any(|word| *word == "for")
    }

    fn is_called_suitable(&self) -> bool {
        self.all_before().iter().any(|word| SUITABLE.contains(word))
    }

    /// `vegan`, `halal`: a claim by one word.
    fn by_a_word_of_its_own(&self) -> Option<Claim> {
        let (said, rules) = WORDS.iter().find(|(known, _)| *known == self.word)?;
        let is_other = is_of_somebody(self.next()) || self.word == "kosher" && self.next() == "salt";
        if self.word == "kosher"
            && self.next() == "for"
            && self.behind().iter().any(|word| ["passover", "pesach"].contains(word))
        {
            return Some(("kosher for passover".to_owned(), Rules::NotForPassover));
        }
        (!is_other).then(|| ((*said).to_owned(), *rules))
    }

    /// `for vegans`.
    fn for_somebody(&self) -> Option<Claim> {
        let (said, rules) = WORDS.iter().find(|(known, _)| self.word.strip_suffix('s') == Some(known))?;
        self.is_for().then(|| (format!("for {said}s"), *rules))
    }

    fn for_coeliacs(&self) -> Option<Claim> {
        let is_claimed = is_coeliac(self.word)
            && !is_denied(self.words, self.place, 3, &[])
            && (self.is_name || SUITABLE.contains(&self.next()) || self.is_for() && self.is_called_suitable());
        is_claimed.then(|| ("for coeliacs".to_owned(), GLUTEN))
    }

    fn based_on_plants(&self) -> Option<Claim> {
        let is_claimed = self.word == "based" && self.before() == "plant";
        is_claimed.then(|| ("plant-based".to_owned(), Rules::Animals))
    }

    /// What a word names, where it is said of the food.
    fn rules_of(&self, word: &str, behind: &[&str]) -> Option<Rules> {
        named(word).filter(|rules| is_of_the_food(*rules, self.words, behind, self.is_name))
    }

    /// `eggfree`, `flourless`.
    fn ending_in(&self, end: &str) -> Option<Claim> {
        let rules = self.word.strip_suffix(end).and_then(|of| self.rules_of(of, self.behind()))?;
        Some((self.word.to_owned(), rules))
    }

    /// `milk, egg and nut free`: the word before it, and what is one list with that.
    fn free_behind_it(&self) -> Vec<Claim> {
        let before = self.before();
        let is_less = || self.word == "less" && self.is_name && self.text.contains(&format!("{before}-less"));
        let Some(rules) = (self.word == "free" || is_less()).then(|| self.rules_of(before, self.behind())).flatten()
        else {
            return Vec::new();
        };
        let others = listed_before(self.text, self.words, self.place).into_iter();
        let others = others.filter_map(|other| Some((format!("{other}-free"), named(other)?)));
        std::iter::once((format!("{before}-free"), rules)).chain(others).collect()
    }

    /// `suitable for nut allergies`.
    fn for_the_sick(&self) -> Option<Claim> {
        // `Safe for people with a nut allergy`; `For the lactose intolerant.`
        let is_far = || self.all_before().iter().rev().take(7).any(|word| *word == "for");
        let is_whole = || self.words.first() == Some(&"for") && self.behind().is_empty();
        let is_claimed = is_of_the_sick(self.word)
            && is_far()
            && !self.words.iter().any(|word| LEAVES_OUT.contains(word))
            && (self.is_called_suitable() || is_whole());
        let rules = is_claimed.then(|| named(self.before())).flatten()?;
        Some((format!("for {} {}", self.before(), self.word), rules))
    }

    /// Whether all that stands behind it is a list of what it is without: `Without nuts or sesame.`
    fn is_listed_to_its_end(&self) -> bool {
        let rest = self.behind().iter().skip_while(|word| named(word).is_some() || JOINS.contains(word));
        !self.behind().is_empty() && rest.copied().all(|word| ["in", "it", "them"].contains(&word))
    }

    /// `without milk and eggs`, `free from nuts`, `neither egg nor milk`.
    fn behind_without(&self) -> Vec<Claim> {
        let is_made = || ["made", "is", "are", "baked"].contains(&self.before());
        let lists = ["without", "no", "non", "zero"].contains(&self.word) && self.is_name
            || self.word == "no"
            || self.word == "without" && (is_made() || self.place == 0 && self.is_listed_to_its_end())
            || self.word == "neither" && (self.place == 0 || HOLDS.contains(&self.before()))
            || self.word == "nothing" && self.next() == "of"
            || self.word == "free" && ["from", "of"].contains(&self.next());
        if !lists {
            return Vec::new();
        }
        let behind = self.behind();
        let listed = behind.iter().copied().skip_while(|word| ["from", "of", "any", "added", "the"].contains(word));
        let listed: Vec<&str> = listed.take_while(|word| named(word).is_some() || JOINS.contains(word)).collect();
        let is_listed = |word: &&str| listed.last().is_some_and(|last| last != word);
        let after: Vec<&str> = behind.iter().copied().skip_while(is_listed).skip(1).collect();
        let claim = |word: &&str| Some((format!("without {word}"), self.rules_of(word, &after)?));
        listed.iter().filter_map(claim).collect()
    }
}

/// Behind these stands what is in the food.
const HOLDS: &[&str] = &["with", "of", "contain", "contains", "containing", "has", "have"];

/// Who may leave something out has it in the food.
const LEAVES_OUT: &[&str] = &["leave", "leaving", "omit", "omitting", "swap", "replace", "skip"];

/// Behind these a claim is of something beside the food: salt-free butter, a flourless board.
const BESIDE: &[&str] =
    &["bench", "board", "butter", "beer", "counter", "crust", "peel", "stock", "surface", "table", "water", "worktop"];

/// Salt and flour are words of the work too: outside a name only a sentence about the food itself claims them, and nowhere what is said of a thing
/// beside it.
fn is_of_the_food(rules: Rules, words: &[&str], behind: &[&str], is_name: bool) -> bool {
    let is_beside = behind.first().is_some_and(|next| BESIDE.contains(next) || ["on", "at"].contains(next));
    let is_it = || {
        words.len() <= 2
            || words.first().is_some_and(|first| ["this", "it", "these", "they", "all", "our"].contains(first))
    };
    match rules {
        Rules::OfKind(_) | Rules::Salt => !is_beside && (is_name || is_it()),
        Rules::Called(..) => !is_beside,
        _ => true,
    }
}

/// Words between those of a list.
const JOINS: &[&str] = &["and", "or", "nor", "any", "no", "added", "products", "product", "ingredients"];

/// Whether `no` at a place of a sentence lists what is not in the food: `Contains no nuts`, `No nuts in it`; not `There is no milk left`.
fn is_said_of_all(words: &[&str], from: usize) -> bool {
    let before = from.checked_sub(1).and_then(|at| words.get(at)).copied().unwrap_or("");
    let behind = words.iter().skip(from).find(|word| named(word).is_none() && !JOINS.contains(word));
    // `No nuts, no eggs, no fuss`: each is said to be lacking.
    let are_all_lacking = || {
        let words = words.get(from..).unwrap_or_default();
        let is_no = |at: usize| words.get(at).is_some_and(|word| *word == "no");
        (0..words.len()).all(|at| {
            is_no(at) || at.checked_sub(1).is_some_and(is_no) || JOINS.iter().any(|join| words.get(at) == Some(join))
        })
    };
    let is_whole = behind.is_none_or(|word| ["in", "at", "whatever", "here", "used"].contains(word))
        || from == 0 && are_all_lacking();
    let is_begun = from == 0 || ["contain", "contains", "has", "have", "holds", "is", "are", "uses"].contains(&before);
    is_begun && is_whole
}

/// Whether a word behind `vegan` is that of a person: `my vegan neighbour` claims nothing of a pie.
fn is_of_somebody(next: &str) -> bool {
    const PEOPLE: &[&str] = &[
        "neighbour",
        "neighbor",
        "friend",
        "guest",
        "customer",
        "sister",
        "brother",
        "daughter",
        "son",
        "cousin",
        "wife",
        "husband",
        "aunt",
        "uncle",
        "colleague",
        "baker",
        "cook",
        "people",
        "child",
        "children",
        "mother",
        "father",
    ];
    PEOPLE.iter().any(|known| next.strip_prefix(known).is_some_and(|end| ["", "s"].contains(&end)))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_has_a_claiming_word_is_seen_at_once() {
        let words = WORDS.iter().map(|(word, _)| *word).chain(CLAIMING.iter().copied());
        for word in words.chain(["allergy", "intolerance", "coeliacs", "celiac", "egg-free", "eggless"]) {
            assert!(has_claiming_word(word) && may_claim(word), "{word}");
            for text in
                [format!("rye {word} loaf"), format!("nut-{word}"), format!("({word})"), format!("crème {word}")]
            {
                assert!(may_claim(&text), "{text}");
            }
        }
        assert!(!BEGINNINGS.may_begin_in("rye bread") && !may_claim("rye bread"));
    }

    /// Findings of a trial; 'suitable for coeliacs' is a wording of Regulation (EU) 828/2014, from memory.
    #[test]
    fn a_claim_is_read_from_a_sentence_and_what_denies_it_is_none() {
        for (text, is_name, claims) in [
            ("contains no nuts.", false, true),
            ("no nuts in it.", false, true),
            ("suitable for vegans", false, true),
            ("suitable for vegetarians and vegans", false, true),
            ("safe for coeliacs.", false, true),
            ("coeliac-safe bar", true, true),
            ("our nut-free bar.", false, true),
            ("gluten free", true, true),
            ("bar, no dairy, no nuts", true, true),
            ("sugar-free biscuits", true, true),
            ("made without milk", false, true),
            ("there is no milk left over.", false, false),
            ("no egg wash on these.", false, false),
            ("not suitable for coeliacs.", false, false),
            ("my vegan neighbour loves it.", false, false),
            ("for a vegan version take oil.", false, false),
            ("mix without milk first.", false, false),
            ("free range", true, false),
            ("kosher salt caramels", true, false),
            ("df brownies", true, true),
            ("coeliac loaf", true, true),
            ("cake (nf)", true, true),
            ("nut-less bar", true, true),
            ("pork-free pie", true, true),
            ("flourless cake", true, true),
            ("safe for people with nut allergy.", false, true),
            ("boneless pie", true, false),
            ("wheat-free (spelt only).", false, true),
            ("safe for people with a nut allergy.", false, true),
            ("for the lactose intolerant.", false, true),
            ("for the lactose intolerant take oil.", false, false),
            ("for lent: no meat, no milk.", false, true),
            ("it has neither egg nor milk.", false, true),
            ("nothing of animals in it.", false, true),
            ("no animal products.", false, true),
            ("without nuts or sesame.", false, true),
            ("without milk it is drier.", false, false),
            ("there is nothing of it left.", false, false),
            ("neither is hard.", false, false),
            ("kosher for passover", true, true),
            ("my sister has a nut allergy.", false, false),
        ] {
            assert_eq!(!claimed(text, is_name).is_empty(), claims, "{text}");
        }
    }

    /// Findings of a trial: of a list only the last was read, and somebody allergic to the first believed it.
    #[test]
    fn every_word_of_a_list_is_claimed() {
        for (text, is_name, wanted) in [
            ("nut and egg free bars", true, &["egg-free", "nut-free"][..]),
            ("milk-, egg- and nut-free bar", true, &["nut-free", "egg-free", "milk-free"]),
            ("milk, egg and nut free bar", true, &["nut-free", "egg-free", "milk-free"]),
            ("ham, egg and gluten-free bread", true, &["gluten-free"]),
            ("egg tart, nut free", true, &["nut-free"]),
            ("brownies with nuts, gluten free and very rich.", false, &["gluten-free"]),
            ("made with butter and milk, egg free, for the school.", false, &["egg-free"]),
            ("it is fine to leave the walnuts out for a nut allergy.", false, &[]),
            ("bread (nothing for coeliacs)", true, &[]),
            ("the stock is salt-free, so season at the end.", false, &[]),
            ("made with salt-free butter.", false, &[]),
            ("roll them on a flourless board.", false, &[]),
            ("focaccia with no flour on the table", true, &[]),
            ("bread without salt crust", true, &[]),
            ("barley-free beer will do.", false, &[]),
            ("bread without salt", true, &["without salt"]),
            ("this bread is salt-free.", false, &["salt-free"]),
            ("flourless chocolate cake", true, &["flourless"]),
            ("no nuts, no eggs, no fuss.", false, &["without nuts", "without eggs", "without eggs"]),
            ("no egg wash, no fuss.", false, &[]),
        ] {
            let mut said: Vec<String> = claimed(text, is_name).into_iter().map(|(said, _)| said).collect();
            said.dedup();
            let mut wanted: Vec<String> = wanted.iter().map(|word| (*word).to_owned()).collect();
            wanted.dedup();
            assert_eq!(said, wanted, "{text}");
        }
    }
}
