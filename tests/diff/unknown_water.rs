//! A figure that rests on what the larder does not know says that it is the least, wherever it is printed.

use super::miche;
use serde_json::Value;
use std::fs;
use std::path::Path;

/// Invented: a dough, and the same with something instead of its water that no larder knows.
const KNOWN: &str = "recipe Skerrow loaf\nmakes 10 rolls\n\nstrong white flour ............ 1 kg\nwater ......................... 68 %\n\
salt .......................... 2 %\nfresh yeast ................... 1 %\ndivide 10 x 170 g, loss 0.6 %\n\nmix: hands 10 min\n    Mix \
{strong white flour}, {water}, {salt} and {fresh yeast}.\n    until smooth\n";

fn unknown() -> String {
    KNOWN
        .replace("water ......................... 68 %", "kelp brew ..................... 68 %")
        .replace("{water}", "{kelp brew}")
}

fn out(arguments: &[&str]) -> String {
    String::from_utf8(miche(arguments).stdout).expect("UTF-8")
}

/// With one blank where columns are set apart.
fn plain(text: &str) -> String {
    text.split_whitespace().collect::<Vec<&str>>().join(" ")
}

fn with_files(test: impl FnOnce(&str, &str)) {
    let folder = tempfile::tempdir().expect("a folder");
    let (a, b) = (folder.path().join("known.miche"), folder.path().join("unknown.miche"));
    fs::write(&a, KNOWN).expect("written");
    fs::write(&b, unknown()).expect("written");
    let shown = |path: &Path| path.display().to_string();
    test(&shown(&a), &shown(&b));
}

/// Fresh yeast is two thirds water, 1 % of the flour (USDA SR26 ABBREV 18374: 69 %): 0.7 % is all that is known of the water.
#[test]
fn a_hydration_of_unknown_water_is_at_least_that() {
    with_files(|known, unknown| {
        let text = plain(&out(&["diff", known, unknown]));
        assert!(text.contains("hydration 68.7 % → at least 0.7 %"), "{text}");
        assert!(text.contains("salt on flour 2 % → at least 2 %"), "{text}");
        let text = plain(&out(&["diff", unknown, known]));
        assert!(text.contains("hydration at least 0.7 % → 68.7 %"), "{text}");
        let json: Value = serde_json::from_str(&out(&["diff", known, unknown, "--format", "json"])).expect("JSON");
        let figures = json["parts"][0]["figures"].as_array().expect("figures");
        let hydration = figures.iter().find(|one| one["figure"] == "hydration").expect("hydration");
        assert_eq!(hydration["new_shown"], "at least 0.7 %");
        let sums = out(&["sums", unknown]);
        for row in ["water on flour | at least 0.7 %", "salt on flour | at least 2 %", "| at least 7 g | at least"] {
            assert!(sums.contains(row), "{row}: {sums}");
        }
        assert!(!out(&["sums", known]).contains("at least"));
        let card: Value = serde_json::from_str(&out(&["card", unknown, "--format", "json"])).expect("JSON");
        assert_eq!(card["parts"][0]["hydration_is_least"], true, "{card:#}");
        let card = out(&["card", known, "--format", "json"]);
        assert!(!card.contains("hydration_is_least"), "{card}");
    });
}

/// What is known is as much as before, and is no longer all there may be.
#[test]
fn that_a_figure_is_no_longer_certain_is_a_change() {
    let folder = tempfile::tempdir().expect("a folder");
    let (a, b) = (folder.path().join("old.miche"), folder.path().join("new.miche"));
    let with = |line: &str, brace: &str| {
        KNOWN
            .replace("salt ...", &format!("{line}\nsalt ..."))
            .replace("{salt}", &format!("{brace}, {{salt}}"))
            .replace("170 g, loss 0.6 %", "175 g, loss 2.5 %")
    };
    fs::write(&a, with("olive oil ..................... 8 %", "{olive oil}")).expect("written");
    fs::write(&b, with("kelp crumbs ................... 8 %", "{kelp crumbs}")).expect("written");
    let text = plain(&out(&["diff", &a.display().to_string(), &b.display().to_string()]));
    assert!(text.contains("hydration 68.7 % → at least 68.7 %"), "{text}");
}

/// A cup of which nobody knows the weight counts as nothing: what else there is, is the least.
#[test]
fn a_line_without_a_weight_leaves_the_figures_open() {
    let folder = tempfile::tempdir().expect("a folder");
    let file = folder.path().join("cake.miche");
    let text = "recipe Cordial cake\nmakes 1 cake\n\nplain flour ................... 300 g\nbutter ........................ 150 g\n\
kelp cordial .................. 200 ml\negg ........................... 2\n\nmix: hands 10 min\n    Mix {plain flour}, {butter}, {kelp cordial} \
and {egg}.\n    until smooth\n";
    fs::write(&file, text).expect("written");
    let file = file.display().to_string();
    let card = out(&["card", &file]);
    assert!(card.contains("hydration at least 34.4 %: the water of some ingredients is not known"), "{card}");
    assert!(out(&["sums", &file]).contains("water on flour | at least 34.4 %"));
}
