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
