//! How a claim is said: what a name or a sentence says that is not in the food, word by word.

use super::{CLAIMS, GLUTEN, Rules, WORDS};
use crate::text::denied::is_denied;
use crate::text::words::words_without_hyphens;

/// Without one of these, one of [`WORDS`] and one that ends in `free` a text claims nothing.
const CLAIMING: &[&str] = &["based", "without", "no", "non", "zero"];
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

pub(super) fn may_claim(text: &str) -> bool {
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
    CLAIMS.iter().find(|(name, _)| word == *name || word.strip_suffix('s') == Some(name)).map(|(_, rules)| *rules)
}

/// What a name or a sentence claims, in lower case. In a note `without milk` may tell how to mix; in a name it is a claim.
pub(in crate::check) fn claimed(text: &str, is_name: bool) -> Vec<(String, Rules)> {
    // Nearly no text claims anything.
    if !may_claim(text) {
        return Vec::new();
    }
    let mut found = Vec::new();
    let words: Vec<&str> = words_without_hyphens(text).collect();
    // `Not gluten-free` and `can be made vegan` are no claims; in a name, `no egg` is one.
    const DENIES: &[&str] =
        &["not", "never", "can", "if", "only", "instead", "version", "variation", "variant", "alternative"];
    if words.iter().any(|word| DENIES.contains(word)) {
        return found;
    }
    let at = |at: Option<usize>| at.and_then(|at| words.get(at)).copied().unwrap_or("");
    if !is_name && words.contains(&"no") {
        let from = words.iter().position(|word| *word == "no").unwrap_or(0);
        if !is_said_of_all(&words, from) {
            return found;
        }
    }
    for (place, word) in words.iter().enumerate() {
        let (before, next) = (at(place.checked_sub(1)), at(Some(place + 1)));
        let is_for = || words.iter().take(place).rev().take(4).any(|word| *word == "for");
        if let Some((said, rules)) = WORDS.iter().find(|(known, _)| known == word)
            && !is_of_somebody(next)
            && !(*word == "kosher" && next == "salt")
        {
            found.push(((*said).to_owned(), *rules));
        }
        if let Some((said, rules)) = WORDS.iter().find(|(known, _)| word.strip_suffix('s') == Some(known))
            && is_for()
        {
            found.push((format!("for {said}s"), *rules));
        }
        let behind = words.get(place + 1..).unwrap_or_default();
        if is_coeliac(word)
            && !is_denied(&words, place, 3, &[])
            && (is_name
                || SUITABLE.contains(&next)
                || is_for() && words.iter().take(place).any(|word| SUITABLE.contains(word)))
        {
            found.push(("for coeliacs".to_owned(), GLUTEN));
        }
        if *word == "based" && before == "plant" {
            found.push(("plant-based".to_owned(), Rules::Animals));
        }
        if let Some(rules) =
            word.strip_suffix("free").and_then(named).filter(|rules| is_of_the_food(*rules, &words, behind, is_name))
        {
            found.push(((*word).to_owned(), rules));
        }
        let is_free = *word == "free" || *word == "less" && is_name && text.contains(&format!("{before}-less"));
        if is_free && let Some(rules) = named(before).filter(|rules| is_of_the_food(*rules, &words, behind, is_name)) {
            found.push((format!("{before}-free"), rules));
            let others = listed_before(text, &words, place).into_iter();
            found.extend(others.filter_map(|other| Some((format!("{other}-free"), named(other)?))));
        }
        if let Some(rules) =
            word.strip_suffix("less").and_then(named).filter(|rules| is_of_the_food(*rules, &words, behind, is_name))
        {
            found.push(((*word).to_owned(), rules));
        }
        if is_of_the_sick(word)
            && is_for()
            && !words.iter().any(|word| LEAVES_OUT.contains(word))
            && words.iter().take(place).any(|word| SUITABLE.contains(word))
            && let Some(rules) = named(before)
        {
            found.push((format!("for {before} {word}"), rules));
        }
        let is_made = || ["made", "is", "are", "baked"].contains(&before);
        let lists = (["without", "no", "non", "zero"].contains(word) && is_name)
            || *word == "no"
            || (*word == "without" && is_made())
            || (*word == "free" && ["from", "of"].contains(&next));
        if lists {
            let listed =
                words.iter().skip(place + 1).skip_while(|word| ["from", "of", "any", "added", "the"].contains(word));
            let listed: Vec<&str> =
                listed.copied().take_while(|word| named(word).is_some() || JOINS.contains(word)).collect();
            let after: Vec<&str> = behind
                .iter()
                .copied()
                .skip_while(|word| listed.last().is_some_and(|last| last != word))
                .skip(1)
                .collect();
            for listed in listed {
                let rules = named(listed).filter(|rules| is_of_the_food(*rules, &words, &after, is_name));
                found.extend(rules.map(|rules| (format!("without {listed}"), rules)));
            }
        }
    }
    found
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
        Rules::OfKind(_) => !is_beside && (is_name || is_it()),
        Rules::Called(..) => !is_beside,
        _ => true,
    }
}

/// Words between those of a list.
const JOINS: &[&str] = &["and", "or", "any", "no", "added"];

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
