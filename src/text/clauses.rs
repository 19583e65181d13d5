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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_clause_goes_to_the_next_sign() {
        assert_eq!(last_clause("Heat the milk; then, stir in "), " stir in ");
        assert_eq!(first_clause(" of water (cold), then stir"), " of water ");
        assert_eq!((last_clause("knead"), first_clause("knead"), last_clause("done.")), ("knead", "knead", ""));
    }
}
