//! A measured loss changes what comes out of what goes in: both are written, or nothing would add up.

use super::*;

/// 1200 g are boiled down to 850 g three times, and the formula says 900 g, loss 25 %. Measured: 1 - 850 / 1200, 29.2 %. Invented.
#[test]
fn a_measured_loss_brings_its_yield_with_it() {
    let folder = tempfile::tempdir().expect("a folder");
    let jam = "recipe Plum jam\nmakes 900 g, loss 25 %\nplum .... 700 g\njam sugar .... 500 g\n\nboil: tend 20 min, using hob\n    Boil {plum} and {jam sugar}.\n    \
               until it sets on a cold plate\n";
    let log = "bakes of \"jam.miche\"\n\nbake 2026-11-02\nboil: came to 850 g\n\nbake 2026-11-09\nboil: came to 845 g\n\nbake 2026-11-16\nboil: came to 855 g\n";
    fs::write(folder.path().join("jam.miche"), jam).expect("written");
    fs::write(folder.path().join("jam.bakes"), log).expect("written");
    let output = miche(folder.path(), &["card", "jam.miche", "--as-baked"]);
    assert!(output.status.success() && said(&output).contains("850 g"), "{}", said(&output));
    let checked = said(&miche(folder.path(), &["check", "jam.miche"]));
    assert!(checked.contains("write `850 g, loss 29.2 %`"), "{checked}");
    // What is proposed brings no error into the file.
    fs::write(folder.path().join("jam.miche"), jam.replace("900 g, loss 25 %", "850 g, loss 29.2 %")).expect("written");
    assert!(miche(folder.path(), &["check", "jam.miche"]).status.success());
}

/// 1000 g are shaped to 12 pieces of 75 g, so 10 % are lost, and not 4: pieces are as many as before, each lighter.
#[test]
fn a_measured_loss_of_the_bench_makes_lighter_pieces() {
    let folder = tempfile::tempdir().expect("a folder");
    let rolls = "recipe Rolls\nmakes 12 rolls\nstrong white flour .... 600 g\nwater .... 400 g\ndivide 12 x 80 g, loss 4 %\nmix: hands 10 min\n    Mix {strong white flour} and \
                 {water}.\n    until smooth\nshape: hands 30 s, each\n    Shape.\n    until round\n";
    let bakes = (1..=3).map(|day| format!("\nbake 2026-09-0{day}\nshape: came to 12 x 75 g\n"));
    fs::write(folder.path().join("rolls.miche"), rolls).expect("written");
    fs::write(folder.path().join("rolls.bakes"), format!("bakes of \"rolls.miche\"\n{}", bakes.collect::<String>()))
        .expect("written");
    let output = miche(folder.path(), &["card", "rolls.miche", "--as-baked"]);
    assert!(output.status.success() && said(&output).contains("12 × 75 g"), "{}", said(&output));
}
