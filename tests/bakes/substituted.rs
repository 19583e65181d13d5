//! What went in that the recipe has no line of: another flour for half of it, seeds that were left over.

use super::{beside_rolls, json, miche, said};
use std::fs;

fn log(went_in: &str) -> String {
    format!("bakes of \"rolls.miche\"\n\nbake 2026-03-02\n{went_in}\nmix: 10 min, came to 790 g\n")
}

#[test]
fn a_bake_with_another_flour_is_weighed_with_it() {
    let folder = tempfile::tempdir().unwrap();
    let file = beside_rolls(folder.path());
    fs::write(&file, log("flour .... 250 g\nrye flour .... 250 g")).unwrap();
    let checked = miche(folder.path(), &["check", "rolls-bakes.miche"]);
    assert!(checked.status.success() && !said(&checked).contains("more-out-than-in"), "{}", said(&checked));
    let told = json(folder.path(), &["bakes", "rolls.miche", "--format", "json"]);
    // 800 g went in as ever, of which 790 g came out: 1.25 %.
    let measured = told["bakes"][0]["measured"].as_array().unwrap();
    let loss = measured.iter().find(|one| one["figure"] == "loss").unwrap_or_else(|| panic!("{told}"));
    assert!((loss["value"].as_f64().unwrap() - 1.25).abs() < 0.01, "{loss}");
    let text = said(&miche(folder.path(), &["bakes", "rolls.miche", "--format", "markdown"]));
    assert!(text.contains("rye flour 250 g (not in the formula)"), "{text}");
}

/// A slip is told as one and what hangs on it is not told beside it; a number without a unit has none here either.
#[test]
fn a_name_that_nobody_knows_is_still_told_alone() {
    let folder = tempfile::tempdir().unwrap();
    let file = beside_rolls(folder.path());
    for (went_in, wanted) in [
        ("flour .... 250 g\nflor .... 250 g", "did you mean `flour`?"),
        ("flour .... 250 g\nxyzzy .... 250 g", "the recipe takes no `xyzzy`"),
        ("rye flour .... 250", "no-unit"),
    ] {
        fs::write(&file, log(went_in)).unwrap();
        let checked = said(&miche(folder.path(), &["check", "rolls-bakes.miche"]));
        assert!(checked.contains(wanted) && !checked.contains("more-out-than-in"), "{checked}");
    }
}
