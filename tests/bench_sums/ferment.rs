//! The same ferment in another place: `sums --at`.

use super::{figure, near, printed, run, sums};

/// A dough that rises at the temperature of its place all the while grows as the model has it: at 28 °C it is ahead, so the time is shorter
/// and the yeast less by the same factor (worked by hand: time × speed is the same).
#[test]
fn the_same_ferment_at_another_temperature() {
    let text = "recipe Loaf\nflour .... 1 kg\nwater .... 65 %\ninstant yeast .... 1 %\ndesired temperature 28 C\nmix: hands 1 min\n    \
                Mix {flour}, {water} and {instant yeast}.\nFirst rise: wait 2 h, at 28 C\nbake: tend 30 min, using oven at 220 C\n    until brown\n";
    let files = [("loaf.miche", text)];
    // Nothing changed: the same time, the same yeast.
    let same = sums(&files, &["--at", "first rise=28"]);
    near(figure(&same, "First rise for as much"), 120.0, 0.2);
    near(figure(&same, "instant yeast to weigh"), 10.0, 0.05);
    let cold = sums(&files, &["--at", "First rise=20 C"]);
    assert!(figure(&cold, "First rise for as much") > 130.0, "{cold:#}");
    let yeast = figure(&cold, "instant yeast to weigh");
    assert!(yeast > 10.5 && yeast < 30.0, "{yeast}");
    for format in ["text", "markdown", "html"] {
        let text = printed(&files, &["sums", "loaf.miche", "--at", "first rise=68 F", "--format", format]);
        let text = text.replace('\u{a0}', " ");
        assert!(text.contains("with First rise at 20 °C"), "{format}: {text}");
    }
    let says = |value: &str, status: i32, words: &str| {
        let output = run(&files, &["sums", "loaf.miche", "--at", value]);
        let error = String::from_utf8_lossy(&output.stderr).into_owned();
        assert_eq!(output.status.code(), Some(status), "{error}");
        assert!(error.contains(words), "`{words}` is not in: {error}");
    };
    says("nap=28", 2, "there is no step `nap`; it ferments in `mix` and `First rise`");
    says("bake=28", 2, "does not ferment in `bake`");
    says("first rise", 2, "this is not a step and a temperature");
    says("first rise=warm", 2, "this is not a step and a temperature");
    says("first rise=90", 2, "no bench is 90 °C warm");
    // It cools before it has come so far.
    let text = printed(&files, &["sums", "loaf.miche", "--at", "first rise=0"]);
    let text = text.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(text.contains("First rise would take more than twenty times as long"), "{text}");
    let twice = run(&files, &["sums", "loaf.miche", "--at", "first rise=28", "--at", "FIRST RISE=30"]);
    assert_eq!(twice.status.code(), Some(2));
    assert!(String::from_utf8_lossy(&twice.stderr).contains("said twice"));
}
