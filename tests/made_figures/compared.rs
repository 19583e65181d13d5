//! What `diff` tells of a head, and of an amount that is said in another measure.

use super::Bench;

const BREAD: &str = "recipe Bread\nmakes 2 loaves\nstrong white flour .... 1 kg\nwater .... 650 g\nsalt .... 20 g\ndivide 2 x 820 g, loss 1.8 %\n";

fn differs(from: &str, to: &str) -> String {
    let bench = Bench::of(&[("a.miche", BREAD), ("b.miche", &BREAD.replacen(from, to, 1))]);
    bench.run(&["diff", "a.miche", "b.miche"]).1
}

/// A label that now warns of nuts, and a card that now says millilitres, are changes that a reviewer has to see.
#[test]
fn what_is_said_for_the_label_is_a_change() {
    for (line, told) in [
        ("may contain nuts", "may contain"),
        ("best before 2 days", "best before, 2 days"),
        ("store in a dry place", "in a dry place"),
        ("serving 50 g", "50 g"),
        ("sold as Wheat bread", "Wheat bread"),
        ("aim hydration 60-70 %", "hydration 60-70 %"),
    ] {
        let diff = differs("makes 2 loaves\n", &format!("makes 2 loaves\n{line}\n"));
        assert!(diff.contains(told) && !diff.contains("the recipe did not"), "{line}: {diff}");
    }
    let diff = differs("water .... 650 g", "water .... 650 ml");
    assert!(diff.contains("by volume") && !diff.contains("the recipe did not"), "{diff}");
}

/// Butter that is rubbed in is as cold whichever it is; and the sodium of baking soda is no salt that the salt could be less for.
#[test]
fn what_stands_in_is_prepared_as_what_goes_out() {
    let pastry = "recipe Pastry\nplain flour .... 500 g\nbutter .... 250 g, cold\nsalt .... 8 g\nwater .... 100 g\nbaking powder .... 5 g\nrub: hands 8 min\n    Rub {butter} into {plain flour}, \
                  {salt} and {baking powder}; bind with {water}.\n    until it holds\n";
    let bench = Bench::of(&[("pastry.miche", pastry)]);
    let (_, text, problem) = bench.run(&["swap", "pastry.miche", "butter", "for", "salted butter"]);
    assert!(text.contains("salted butter (was butter)") && !text.contains("preparation"), "{text}{problem}");
    let much = pastry.replace("baking powder .... 5 g", "baking powder .... 15 g");
    let bench = Bench::of(&[("pastry.miche", &much)]);
    let (_, text, problem) = bench.run(&["swap", "pastry.miche", "baking powder", "for", "baking soda"]);
    assert!(text.contains("baking soda") && !text.contains("for the salt that it"), "{text}{problem}");
}
