//! What an editor does to a file and no baker did: no change of a formula.

use super::printed;

const ROLLS: &str = "recipe Crème rolls\nmakes 20 rolls\n\npart crème\nwhole milk .................... 500 g\nsugar ......................... 90 g, en purée\n\
note Crème, thick.\n\ncook: tend 10 min, using hob at 82 C\n    Cook {whole milk} and {sugar} to a crème.\n    until it coats a spoon (nappé)\n\npart dough\n\
wheat flour ................... 1 kg\ncrème ......................... all\nsalt .......................... 20 g\ninstant yeast ................. 10 g\n\n\
mise en bol: hands 12 min\n    Mix {wheat flour}, {crème}, {salt} and {instant yeast}.\n";

/// Letters of one sign or of two (Unicode Standard Annex 15), line ends, a mark before the first line, tabs, blanks that do not break.
#[test]
fn how_a_text_is_typed_is_no_change() {
    let two_signs = ROLLS.replace('è', "e\u{300}").replace('é', "e\u{301}");
    assert_ne!(two_signs, ROLLS);
    for typed in [
        two_signs,
        format!("\u{FEFF}{ROLLS}"),
        ROLLS.replace('\n', "\r\n"),
        ROLLS.replace('\n', "\r"),
        ROLLS.replacen('\n', "\r\n", 5),
        ROLLS.trim_end().to_owned(),
        ROLLS.replace("    ", "\t"),
        ROLLS.replace(" kg", "\u{a0}kg"),
        ROLLS.replace('\n', "  \n"),
    ] {
        for (old, new) in [(ROLLS, typed.as_str()), (typed.as_str(), ROLLS)] {
            let said = printed(old, new, "text");
            assert!(said.contains("The text changed, the recipe did not."), "{typed:?}\n{said}");
        }
    }
    let other = printed(ROLLS, &ROLLS.replace("crème", "creme"), "text");
    assert!(other.contains("(was crème)"), "{other}");
}
