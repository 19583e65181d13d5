//! What changed besides recipes, in folders.

use super::{LOAF, edited, miche};
use std::fs;

/// Days, kitchens and logs are not compared, and that one of them changed is told: nothing said would look like no change.
#[test]
fn what_is_no_recipe_is_told_by_its_name() {
    let folder = tempfile::tempdir().expect("a folder");
    let at = |name: &str| folder.path().join(name);
    for (side, number) in [("old", 24), ("new", 48)] {
        fs::create_dir_all(at(side)).expect("a folder");
        fs::write(at(side).join("loaf.miche"), LOAF).expect("written");
        let day = format!("day Saturday\nmake {number} of \"loaf.miche\", ready 2027-01-10 10:00\n");
        fs::write(at(side).join("saturday.miche"), day).expect("written");
    }
    let (old, new) = (at("old").display().to_string(), at("new").display().to_string());
    let output = miche(&["diff", &old, &new, "--exit-code"]);
    let said = String::from_utf8_lossy(&output.stderr).into_owned();
    assert!(said.contains("saturday.miche changed, and is no recipe"), "{said}");
    assert_eq!(output.status.code(), Some(1), "{said}");
    let same = miche(&["diff", &old, &old, "--exit-code"]);
    assert!(same.status.success() && same.stderr.is_empty(), "{}", String::from_utf8_lossy(&same.stderr));
    // A recipe that changed beside it is told as ever.
    fs::write(at("new").join("loaf.miche"), edited("65 %", "68 %")).expect("written");
    let both = miche(&["diff", &old, &new]);
    assert!(String::from_utf8_lossy(&both.stdout).contains("68"), "{}", String::from_utf8_lossy(&both.stdout));
}
