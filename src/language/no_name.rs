//! Words that name nothing that goes in, so that no name of an ingredient begins with them: `TOTAL 830 g`, `with 10 g`.

/// Words that join others to a name.
#[rustfmt::skip]
const JOINING: [&str; 27] = [
    "about", "and", "are", "as", "at", "each", "for", "from", "in", "into", "is", "it", "less", "minus", "more", "of", "or", "per", "plus",
    "that", "them", "these", "this", "to", "until", "which", "with",
];

/// What figures about the whole are called, and what of. Notes begin names with them too: `total fat milk`, `piece of ginger`.
#[rustfmt::skip]
const OF_THE_WHOLE: [&str; 16] = [
    "batch", "hydration", "percent", "percentage", "piece", "pieces", "portion", "portions", "quantity", "scaling", "subtotal", "sum", "total",
    "totals", "unit", "weight",
];

/// Verbs of the bench.
#[rustfmt::skip]
const WORK: [&str; 19] = [
    "add", "bake", "divide", "gives", "keep", "lose", "loses", "make", "mix", "note", "pour", "reserve", "scale", "shape", "then", "weigh",
    "weighs", "yield", "yields",
];

/// Whether no name of an ingredient begins with a word, whoever wrote it. In lower case, as all words here.
pub fn begins_no_name(word: &str) -> bool {
    JOINING.contains(&word)
}

/// Whether a word may stand in a line that gives a figure about the whole, such as `Total per piece`.
pub fn is_of_the_whole(word: &str) -> bool {
    begins_no_name(word) || OF_THE_WHOLE.contains(&word)
}

/// Whether a word neither begins nor ends a name in a line of a formula.
pub fn is_outside_names(word: &str) -> bool {
    is_of_the_whole(word) || WORK.contains(&word)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::model::larder::Larder;

    /// A food that begins with one of these would be lost from notes: the larder is asked for all it knows.
    #[test]
    fn no_known_ingredient_begins_with_one() {
        let larder = Larder::new();
        let first = |name: &str| name.split(|c: char| !c.is_alphabetic()).next().unwrap_or_default().to_owned();
        let lost: Vec<&str> = larder.names().filter(|name| is_outside_names(&first(name))).collect();
        assert!(lost.is_empty(), "{lost:?}");
    }

    #[test]
    fn each_word_stands_in_one_list() {
        let mut all = [&JOINING[..], &OF_THE_WHOLE, &WORK].concat();
        let count = all.len();
        all.sort_unstable();
        all.dedup();
        assert_eq!(all.len(), count);
    }
}
