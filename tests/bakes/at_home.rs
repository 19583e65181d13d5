//! A recipe that names no kitchen is made at home, and the mixer of a home has the friction that its bakes show.

use super::*;

/// 25.5 of a dough of flour and water with a room of 20, flour of 20 and water of 22 °C: by the handbook's sum 3 × 25.5 - 20 - 20 - 22 = 14.5 °C,
/// three times the same. The water for 25 °C is then 3 × 25 - 20 - 20 - 14.5 = 20.5 °C. The log is invented.
#[test]
fn the_mixer_of_a_home_has_the_friction_that_was_measured() {
    let folder = tempfile::tempdir().expect("a folder");
    let recipe = "recipe Loaf\nmakes 2 loaves\nflour .... 600 g\nwater .... 400 g, at 22 C\ndivide 2 x 500 g\ndesired temperature 25 C\n\
                  mix: hands 10 min, using mixer\n    Mix {flour} and {water}.\n    until smooth\nbake: tend 35 min, using oven at 230 C\n    until brown\n";
    let bakes = (1..=3).map(|day| {
        format!(
            "\nbake 2026-09-0{day} 05:30, 2 loaves\nroom 20 C\nflour at 20 C\nwater .... 400 g, at 22 C\nmix: 10 min, left at 25.5 C\n"
        )
    });
    fs::write(folder.path().join("loaf.miche"), recipe).expect("written");
    fs::write(folder.path().join("loaf.bakes"), format!("bakes of \"loaf.miche\"\n{}", bakes.collect::<String>()))
        .expect("written");
    let day = ["sums", "loaf.miche", "--room", "20", "--flour-at", "20"];
    let without = said(&miche(folder.path(), &day));
    assert!(without.contains("The mixer's friction is not known"), "{without}");
    let output = miche(folder.path(), &[&day[..], &["--as-baked"]].concat());
    let text = said(&output);
    assert!(output.status.success(), "{text}");
    assert!(text.contains("friction 14.5 C (the mean of 3 doughs; the kitchen says nothing)"), "{text}");
    assert!(text.contains("20.5 °C") && !text.contains("friction is not known"), "{text}");
    // Nothing is written anywhere, so that nothing is otherwise than it is written.
    let checked = said(&miche(folder.path(), &["check", "loaf.miche"]));
    assert!(!checked.contains("show a friction") && !checked.contains("write `friction"), "{checked}");
}
