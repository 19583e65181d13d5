//! What a recipe makes, for one and for several: `12 cakes`, `1 cake`, `1 loaf`.

use crate::measure::number::Number;
use crate::measure::show::count_of;

/// Nouns that end otherwise in the singular than by a letter less.
const OTHERWISE: &[(&str, &str)] = &[
    ("loaves", "loaf"),
    ("halves", "half"),
    ("leaves", "leaf"),
    ("pasties", "pasty"),
    ("pastries", "pastry"),
    ("patties", "patty"),
    ("jellies", "jelly"),
];

/// So many of a noun that is written for several. A noun in another language stays as it is written.
pub fn counted(count: Number, noun: &str) -> String {
    let one = count.is_positive() && count <= Number::ONE;
    format!("{} {}", count_of(count), if one { singular(noun) } else { noun.to_owned() })
}

/// One of what is written for several, as far as its last word is English.
fn singular(noun: &str) -> String {
    let (before, last) = noun.rsplit_once(' ').map_or(("", noun), |(before, last)| (before, last));
    let one = match OTHERWISE.iter().find(|(many, _)| *many == last) {
        Some((_, one)) => one,
        None if ["ss", "us", "is"].iter().any(|end| last.ends_with(end)) => last,
        None if ["ches", "shes", "xes", "sses", "toes"].iter().any(|end| last.ends_with(end)) => {
            last.strip_suffix("es").unwrap_or(last)
        }
        None => last.strip_suffix('s').filter(|one| one.len() > 2).unwrap_or(last),
    };
    if before.is_empty() { one.to_owned() } else { format!("{before} {one}") }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn one_is_one() {
        let one = |noun| counted(Number::ONE, noun);
        let said = [
            "cakes",
            "loaves",
            "slices",
            "tin loaves",
            "cookies",
            "pasties",
            "batches",
            "hot cross buns",
            "glasses",
            "Brötchen",
        ]
        .map(one);
        let right = [
            "1 cake",
            "1 loaf",
            "1 slice",
            "1 tin loaf",
            "1 cookie",
            "1 pasty",
            "1 batch",
            "1 hot cross bun",
            "1 glass",
            "1 Brötchen",
        ];
        assert_eq!(said, right);
        assert_eq!(counted(Number::constant(1, 2), "cakes"), "½ cake");
        assert_eq!(counted(Number::whole(2), "cakes"), "2 cakes");
        assert_eq!(counted(Number::ZERO, "cakes"), "0 cakes");
    }
}
