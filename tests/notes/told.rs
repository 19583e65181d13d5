//! What each of many notes gives, a line a case: for tests of 'this text gives this'.

/// What is made of the notes of each case has this.
pub fn gives(made: impl Fn(&str) -> String, cases: &[(&str, &str)]) {
    assert!(!cases.is_empty());
    for (notes, wanted) in cases {
        let text = made(notes);
        assert!(text.contains(wanted), "no `{wanted}` of\n{notes}\nin\n{text}");
    }
}

/// What is made of the notes of each case has the one and not the other.
pub fn gives_but(made: impl Fn(&str) -> String, cases: &[(&str, &str, &str)]) {
    for (notes, wanted, not) in cases {
        gives(&made, &[(notes, wanted)]);
        let text = made(notes);
        assert!(!text.contains(not), "`{not}` of\n{notes}\nin\n{text}");
    }
}

/// In a text, the line that begins with the one ends with the other.
pub fn ends(text: &str, cases: &[(&str, &str)]) {
    assert!(!cases.is_empty());
    for (begins, wanted) in cases {
        assert!(line_of(text, begins).ends_with(wanted), "`{begins}` does not end with `{wanted}` in\n{text}");
    }
}

/// The line that begins so.
pub fn line_of<'t>(text: &'t str, begins: &str) -> &'t str {
    text.lines().find(|line| line.starts_with(begins)).unwrap_or_else(|| panic!("no line `{begins}` in\n{text}"))
}
