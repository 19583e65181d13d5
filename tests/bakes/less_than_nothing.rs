//! What weighed a trifle more than what went in, or came out colder than all that went in: no formula can say less than nothing.

use super::*;

/// Of 1000 g that go in 1005 g come out by the scale, which is let pass, and of all at 20 °C comes a dough of 19: a loss of -0.5 % and a
/// friction of less than nothing. Invented.
#[test]
fn less_than_nothing_is_taken_as_nothing() {
    let folder = tempfile::tempdir().expect("a folder");
    let recipe = "recipe Rolls\nmakes 10 rolls, bake loss 12 %\nuse \"kitchen.miche\"\nflour .... 600 g\nwater .... 400 g, at 20 C\ndivide 10 x 98 g, loss 2 %\n\
                  desired temperature 24 C\nmix: hands 10 min, using mixer\n    Mix {flour} and {water}.\n    until smooth\nshape: hands 20 s, each\n    \
                  Shape.\nbake: tend 15 min, using oven at 220 C\n    until gold\n";
    fs::write(folder.path().join("rolls.miche"), recipe).expect("written");
    fs::write(folder.path().join("kitchen.miche"), "kitchen Quay\nmixer x 1, friction 8 C\noven x 1\n")
        .expect("written");
    let bakes = (1..=4).map(|day| {
        format!(
            "\nbake 2026-09-0{day} 05:30, 10 rolls\nroom 20 C\nflour at 20 C\nwater .... 400 g, at 20 C\nmix: 05:30-05:40, left at 19 C\nshape: 06:40-06:45, came to 10 x \
             100.5 g\nbake: 07:00-07:15, came to 101 g each\n"
        )
    });
    let log = format!("bakes of \"rolls.miche\"\n{}", bakes.collect::<String>());
    fs::write(folder.path().join("rolls-bakes.miche"), log).expect("written");
    let told = json(folder.path(), &["bakes", "rolls.miche", "--format", "json"]);
    is(&figure(&told, "loss", "shape", "%")["mean"], -0.5);
    for arguments in [&["card", "rolls.miche", "--as-baked"][..], &["label", "rolls.miche", "--as-baked"]] {
        let output = miche(folder.path(), arguments);
        assert!(output.status.success(), "{arguments:?}: {}", said(&output));
        let text = said(&output);
        assert!(
            text.contains("shape of Rolls: 0 % lost (the mean of 4 weighings: -0.5 %, less than nothing;"),
            "{text}"
        );
        assert!(text.contains("friction 0 C (the mean of 4 doughs: "), "{text}");
    }
    // What is offered in place of the formula's figure can be read, and asks for nothing more.
    let checked = said(&miche(folder.path(), &["check", "rolls.miche", "--format", "short"]));
    assert!(checked.contains("lost -0.5 ± 0 % up to `shape`; the formula says 2 %"), "{checked}");
    fs::write(folder.path().join("rolls.miche"), recipe.replace("loss 2 %", "loss 0 %").replace("98 g", "100 g"))
        .expect("written");
    let checked = said(&miche(folder.path(), &["check", "rolls.miche", "--format", "short"]));
    assert!(!checked.contains("impossible-number"), "{checked}");
}
