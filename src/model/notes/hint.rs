//! Which known name may be meant by one that is not known.

use super::{language, words};
use crate::language::syntax::Key;
use crate::model::larder::Larder;
use std::collections::HashSet;
use std::sync::OnceLock;

/// A question after a name that is known to no larder, where one that is known may be meant: a word of another language, or a slip.
///
/// A name of which each word stands in a known one is no slip: `rye` is not `lye`.
pub(super) fn of(name: &str) -> Option<String> {
    let larder = Larder::new();
    if larder.find(&Key::new(name)).is_some() {
        return None;
    }
    let meant = language::in_english(name).map(str::to_owned).or_else(|| {
        let is_slip =
            !name.contains(char::is_numeric) && !words::all_of(name).all(|word| known_words().contains(&word));
        near(name, larder.names()).filter(|_| is_slip).map(str::to_owned)
    });
    meant.map(|meant| format!("is this {meant}?"))
}

/// Words of food that stand in no name of the larder, and are near to others that do.
const MORE: [&str; 12] = ["rye", "ale", "dal", "pea", "peas", "pear", "lard", "mace", "meal", "malt", "seeds", "grain"];

/// Words that are near to another and are themselves.
const OWN: &[&str] = &["paste", "crumb", "crumbs", "toast", "steak", "spice", "mixed", "brine"];

/// The words of all names that the program knows.
fn known_words() -> &'static HashSet<String> {
    static KNOWN: OnceLock<HashSet<String>> = OnceLock::new();
    KNOWN.get_or_init(|| {
        let names = Larder::new();
        let known = names.names().flat_map(words::all_of);
        known.chain(MORE.iter().map(|word| (*word).to_owned())).collect()
    })
}

/// The name that differs from this one by a slip in each word that differs: one letter of five or more, two of nine or more, never the
/// first.
fn near<'n>(name: &str, known: impl Iterator<Item = &'n str>) -> Option<&'n str> {
    let words: Vec<&str> = name.split_whitespace().collect();
    let slips = |candidate: &str| {
        let own: Vec<&str> = candidate.split_whitespace().collect();
        let each = words.iter().zip(&own).map(|(word, own)| slip(&word.to_lowercase(), &own.to_lowercase()));
        (own.len() == words.len()).then(|| each.sum::<Option<usize>>()).flatten()
    };
    let near = known.filter_map(|candidate| Some((slips(candidate)?, candidate)));
    near.min().filter(|(slips, _)| *slips > 0).map(|(_, candidate)| candidate)
}

/// By how many letters a word is off, where that can be a slip.
fn slip(word: &str, known: &str) -> Option<usize> {
    if word == known {
        return Some(0);
    }
    let length = word.chars().count().min(known.chars().count());
    let allowed = match length {
        0..5 => return None,
        5..9 => 1,
        _ => 2,
    };
    // The distance costs the product of the lengths; far-off lengths cannot be near.
    let same = word.chars().next() == known.chars().next() && word.len().abs_diff(known.len()) <= 8 && length <= 64;
    let off = (same && !OWN.contains(&word)).then(|| strsim::osa_distance(word, known))?;
    (off <= allowed).then_some(off)
}

#[cfg(test)]
mod tests {
    use super::{near, of};

    #[test]
    fn a_known_word_is_no_slip() {
        for name in ["rye", "rye malt", "seeds", "rosemary", "caraway", "light rye", "oats", "sharp cheddar", "levain"]
        {
            assert_eq!(of(name), None, "{name}");
        }
        for (name, meant) in [("buttr", "is this butter?"), ("sale", "is this salt?")] {
            assert_eq!(of(name).as_deref(), Some(meant), "{name}");
        }
    }

    /// Which names are a slip of another: letters counted by hand.
    #[test]
    fn a_slip_is_one_of_a_long_word() {
        let known = [
            "lye",
            "salt",
            "sugar",
            "butter",
            "pasta",
            "raw sugar",
            "cinnamon",
            "desiccated coconut",
            "oyster",
            "rye flour",
        ];
        for (name, wanted) in [
            ("suger", Some("sugar")),
            ("buter", Some("butter")),
            ("buttre", Some("butter")),
            ("cinammon", None),
            ("dessicated cocnut", Some("desiccated coconut")),
            ("rye", None),
            ("malt", None),
            ("paste", None),
            ("caster", None),
            ("gran sugar", None),
            ("rye flou", None),
        ] {
            assert_eq!(near(name, known.into_iter()), wanted, "{name}");
        }
    }
}
