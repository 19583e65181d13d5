//! Which known name may be meant by one that is not known.

use super::{language, words};
use crate::language::parse::nearest;
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
        nearest(name, larder.names()).filter(|_| is_slip).map(str::to_owned)
    });
    meant.map(|meant| format!("is this {meant}?"))
}

/// Words of food that stand in no name of the larder, and are near to others that do.
const MORE: [&str; 12] = ["rye", "ale", "dal", "pea", "peas", "pear", "lard", "mace", "meal", "malt", "seeds", "grain"];

/// The words of all names that the program knows.
fn known_words() -> &'static HashSet<String> {
    static KNOWN: OnceLock<HashSet<String>> = OnceLock::new();
    KNOWN.get_or_init(|| {
        let names = Larder::new();
        let known = names.names().flat_map(words::all_of);
        known.chain(MORE.iter().map(|word| (*word).to_owned())).collect()
    })
}

#[cfg(test)]
mod tests {
    use super::of;

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
}
