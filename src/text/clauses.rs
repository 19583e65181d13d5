//! Where a clause ends.

/// Signs at which a clause ends.
pub const CLAUSE_ENDS: [char; 7] = ['.', ';', ',', ':', '(', ')', '!'];

/// What stands behind the last sign at which a clause ends: of words right before a place, the clause that goes on there.
pub fn last_clause(text: &str) -> &str {
    text.rsplit(CLAUSE_ENDS).next().unwrap_or_default()
}

/// What stands before the first sign at which a clause ends: of words right behind a place, the rest of its clause.
pub fn first_clause(text: &str) -> &str {
    text.split(CLAUSE_ENDS).next().unwrap_or_default()
}

/// A name up to what lies beside, on or in what it names: the `buns` of `buns with a biscuit crust`.
pub fn head_of_name(name: &str) -> &str {
    let name = name.split([',', '(']).next().unwrap_or_default();
    [" with ", " from ", " of ", " in ", " on "]
        .into_iter()
        .fold(name, |name, word| name.split(word).next().unwrap_or(name))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_clause_goes_to_the_next_sign() {
        assert_eq!(last_clause("Heat the milk; then, stir in "), " stir in ");
        assert_eq!(first_clause(" of water (cold), then stir"), " of water ");
        assert_eq!(head_of_name("buns with a crust of biscuit"), "buns");
        assert_eq!((last_clause("knead"), first_clause("knead"), last_clause("done.")), ("knead", "knead", ""));
    }
}
