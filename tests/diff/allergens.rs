//! Allergens that come and go between two versions, and those of which nobody knows.

use super::{LOAF, diff, edited, printed};

#[test]
fn an_allergen_gained_or_lost_is_said_in_every_format() {
    let with = edited("divide", "sesame seeds .................. 50 g\ndivide");
    for format in ["text", "markdown", "html"] {
        assert!(printed(LOAF, &with, format).to_lowercase().contains("sesame"), "{format}");
        let (gained, lost) = (printed(LOAF, &with, format), printed(&with, LOAF, format));
        assert!(gained.to_lowercase().contains("allergen gained"), "{format}: {gained}");
        assert!(lost.to_lowercase().contains("allergen no longer in it"), "{format}: {lost}");
    }
    assert_eq!(diff(LOAF, &with)["allergens"]["gained"].as_array().map(Vec::len), Some(1));
}

/// What nobody knows may hold what was in the other: it is not said to be free of it.
#[test]
fn an_allergen_is_not_said_to_be_gone_where_something_new_is_unknown() {
    let with = |name: &str| edited("divide", &format!("{name} .................. 50 g\ndivide"));
    for format in ["text", "markdown", "html"] {
        let said = printed(&with("sesame seeds"), &with("quay crumble"), format).to_lowercase();
        assert!(said.contains("allergens not known of") && said.contains("quay crumble"), "{format}: {said}");
        assert!(
            said.contains("allergen no longer known to be in it") && !said.contains("no longer in it"),
            "{format}: {said}"
        );
    }
    let found = diff(&with("sesame seeds"), &with("quay crumble"));
    assert_eq!(found["allergens"]["unknown"][0], "quay crumble", "{found:#}");
}
