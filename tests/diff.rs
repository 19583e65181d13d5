//! `miche diff` from the outside: nothing changed is said to be nothing, and one edit is said to be that edit.

// Helpers outside a test function fail a test by panicking, as the tests do.
#![allow(clippy::expect_used, clippy::panic)]

#[path = "diff/allergens.rs"]
mod allergens;
#[path = "diff/as_written.rs"]
mod as_written;
#[path = "diff/drawn.rs"]
mod drawn;
#[path = "diff/no_plan.rs"]
mod no_plan;
#[path = "diff/others.rs"]
mod others;
#[path = "diff/put_together.rs"]
mod put_together;
#[path = "diff/typed.rs"]
mod typed;
#[path = "diff/unknown_water.rs"]
mod unknown_water;

use serde_json::Value;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

const LOAF: &str = "recipe Skerrow tin loaf\nmakes 2 loaves, tin 23 cm x 13 cm x 7 cm, bake loss 11 %\n\n\
wheat flour ................... 1000 g\nwater ......................... 65 %\nsalt .......................... 2 %\n\
fresh yeast ................... 1.5 %\ndivide 2 x 842 g\n\nmix: hands 10 min\n    Mix {wheat flour}, {water}, {salt} and \
{fresh yeast}.\nrise: wait 60 min, at 24 C\n    until doubled\nbake: tend 40 min, using oven at 220 C\n    until brown\n";

fn miche(arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_miche")).args(arguments).output().expect("it runs")
}

fn printed(old: &str, new: &str, format: &str) -> String {
    let folder = tempfile::tempdir().expect("a folder");
    let (a, b) = (folder.path().join("old.miche"), folder.path().join("new.miche"));
    fs::write(&a, old).expect("written");
    fs::write(&b, new).expect("written");
    let shown = |path: &Path| path.display().to_string();
    let output = miche(&["diff", &shown(&a), &shown(&b), "--format", format]);
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    String::from_utf8(output.stdout).expect("UTF-8")
}

fn diff(old: &str, new: &str) -> Value {
    serde_json::from_str(&printed(old, new, "json")).expect("JSON")
}

/// `LOAF` with one piece of text replaced, which has to be there.
fn edited(from: &str, to: &str) -> String {
    assert!(LOAF.contains(from), "{from}");
    LOAF.replacen(from, to, 1)
}

fn formulas() -> Vec<PathBuf> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let mut all = Vec::new();
    for folder in ["examples", "tests/right"] {
        for entry in fs::read_dir(root.join(folder)).expect("a folder") {
            let path = entry.expect("an entry").path();
            if path.extension().is_some_and(|ending| ending == "miche") {
                all.push(path);
            }
        }
    }
    all
}

#[test]
fn no_file_differs_from_itself() {
    let all = formulas();
    assert!(all.len() > 30, "{}", all.len());
    for path in all {
        let shown = path.display().to_string();
        let output = miche(&["diff", &shown, &shown, "--exit-code"]);
        assert_eq!(output.status.code(), Some(0), "{shown}: {}", String::from_utf8_lossy(&output.stdout));
    }
}

#[test]
fn exit_codes_tell_no_change_change_and_trouble() {
    let folder = tempfile::tempdir().expect("a folder");
    let (a, b) = (folder.path().join("a.miche"), folder.path().join("b.miche"));
    fs::write(&a, LOAF).expect("written");
    fs::write(&b, edited("65 %", "70 %")).expect("written");
    let (a, b) = (a.display().to_string(), b.display().to_string());
    assert_eq!(miche(&["diff", &a, &a, "--exit-code"]).status.code(), Some(0));
    assert_eq!(miche(&["diff", &a, &b, "--exit-code"]).status.code(), Some(1));
    assert_eq!(miche(&["diff", &a, &b]).status.code(), Some(0));
    let none = folder.path().join("none.miche").display().to_string();
    let other = folder.path().join("nor.miche").display().to_string();
    assert_eq!(miche(&["diff", &none, &other, "--exit-code"]).status.code(), Some(2));
}

#[test]
fn a_slip_of_the_pen_is_no_removed_file() {
    let folder = tempfile::tempdir().expect("a folder");
    let a = folder.path().join("loaf.miche").display().to_string();
    fs::write(&a, LOAF).expect("written");
    let slip = folder.path().join("laof.miche").display().to_string();
    for paths in [[&a, &slip], [&slip, &a]] {
        let output = miche(&["diff", paths[0], paths[1]]);
        let said = String::from_utf8_lossy(&output.stderr).into_owned();
        assert_eq!(output.status.code(), Some(2), "{said}");
        assert!(output.stdout.is_empty());
        assert!(said.contains(&format!("{slip}: there is no such file; did you mean `{a}`?")), "{said}");
    }
    let far = folder.path().join("something else.miche").display().to_string();
    let said = String::from_utf8(miche(&["diff", &a, &far]).stderr).expect("UTF-8");
    assert!(said.contains("there is no such file") && !said.contains("did you mean"), "{said}");
    let here = folder.path().display().to_string();
    let output = miche(&["diff", &here, &format!("{here}/none")]);
    assert_eq!(output.status.code(), Some(2), "a folder that is not there");
    let output = miche(&["diff", &here, &a]);
    let said = String::from_utf8_lossy(&output.stderr).into_owned();
    assert!(output.status.code() == Some(2) && said.contains("is a folder"), "{said}");
    // Who names the null device means it.
    let output = miche(&["diff", &a, "/dev/null", "--format", "json"]);
    let changes: Value = serde_json::from_slice(&output.stdout).expect("JSON");
    assert_eq!(changes["parts"][0]["change"], "removed");
}

#[test]
fn layout_and_comments_change_no_meaning() {
    let text = format!("# A word on it.\n{}", edited("salt ..........................", "salt ...."));
    let changes = diff(LOAF, &text);
    assert_eq!((&changes["changed"], &changes["text_changed"]), (&Value::Bool(false), &Value::Bool(true)));
    assert!(printed(LOAF, &text, "markdown").contains("The text changed, the recipe did not."));
}

/// The lines of the only part that changed: ingredient and what happened.
fn lines(changes: &Value) -> Vec<(String, String)> {
    facts(changes, "lines", "ingredient")
}

fn facts(changes: &Value, list: &str, name: &str) -> Vec<(String, String)> {
    let parts = changes["parts"].as_array().expect("parts");
    let all = parts.iter().flat_map(|part| part[list].as_array().expect("a list"));
    let text = |one: &Value, key: &str| one[key].as_str().expect("words").to_owned();
    all.map(|one| (text(one, name), text(one, "change"))).collect()
}

#[test]
fn one_edit_of_a_line_is_named_as_that_line() {
    for (from, to, name, change) in [
        ("65 %", "70 %", "water", "changed"),
        ("1.5 %", "3 %", "fresh yeast", "changed"),
        ("divide", "sunflower seeds ............... 50 g\ndivide", "sunflower seeds", "added"),
    ] {
        let changes = diff(LOAF, &edited(from, to));
        assert_eq!(lines(&changes), [(name.to_owned(), change.to_owned())], "{to}: {changes:#}");
    }
}

#[test]
fn one_edit_of_a_step_is_named_as_that_step() {
    for (from, to, name, change) in [
        ("wait 60 min", "wait 75 min", "rise", "changed"),
        ("220 C", "230 C", "bake", "changed"),
        ("at 24 C", "at 26 C", "rise", "changed"),
        ("until doubled", "until half as high again", "rise", "changed"),
        ("rise: wait 60 min, at 24 C\n    until doubled\n", "", "rise", "removed"),
        ("bake:", "rest: wait 20 min\nbake:", "rest", "added"),
    ] {
        let changes = diff(LOAF, &edited(from, to));
        assert_eq!(facts(&changes, "steps", "step"), [(name.to_owned(), change.to_owned())], "{to}: {changes:#}");
        assert_eq!(lines(&changes), [], "{to}: {changes:#}");
    }
}

#[test]
fn the_other_way_round_the_sides_are_exchanged() {
    let new = edited("65 %", "70 %").replace("wait 60 min", "wait 75 min").replace("salt ", "sea salt ");
    let (there, back) = (diff(LOAF, &new), diff(&new, LOAF));
    let figures = |changes: &Value, a: &str, b: &str| -> Vec<(Value, Value, Value)> {
        let all = changes["parts"][0]["figures"].as_array().expect("figures");
        all.iter().map(|one| (one["figure"].clone(), one[a].clone(), one[b].clone())).collect()
    };
    assert!(!figures(&there, "old", "new").is_empty());
    assert_eq!(figures(&there, "old", "new"), figures(&back, "new", "old"));
    assert_eq!(there["allergens"]["gained"], back["allergens"]["lost"]);
    assert_eq!(there["problems"]["raised"], back["problems"]["cleared"]);
    assert_eq!(there["problems"]["cleared"], back["problems"]["raised"]);
}

#[test]
fn tin_and_bake_loss_are_compared() {
    let head = |to: &str, from: &str| diff(LOAF, &edited(from, to))["head"].clone();
    let tin = head("x 8 cm", "x 7 cm");
    assert_eq!((tin[0]["figure"].as_str(), tin.as_array().map(Vec::len)), (Some("tin"), Some(1)), "{tin:#}");
    let loss = head("bake loss 12 %", "bake loss 11 %");
    assert_eq!(loss[0]["figure"], "bake loss", "{loss:#}");
    assert_eq!((&loss[0]["old_shown"], &loss[0]["new_shown"]), (&"11 %".into(), &"12 %".into()));
}

#[test]
fn an_option_that_only_the_old_version_had_is_compared() {
    let with = |options: &str, salt: &str| {
        let head = format!("choose crust: {options}\n\nwheat");
        edited("\nwheat", &head).replace("divide", &format!("{salt}divide"))
    };
    let seeded = "sesame seeds .................. 50 g                 [seeded]\n";
    let rye = "rye flakes .................... 40 g                 [flaked]\n";
    let old = with("plain or seeded or flaked", &format!("{seeded}{rye}"));
    let changes = diff(&old, &with("plain or seeded", seeded));
    assert!(lines(&changes).contains(&("rye flakes".to_owned(), "removed".to_owned())), "{changes:#}");
}

#[test]
fn what_changes_under_one_choice_only_is_marked_in_every_format() {
    let choice = |rise: &str| {
        LOAF.replace("\n\nwheat", "\nchoose rising: slow or quick\n\nwheat").replace(
            "rise: wait 60 min, at 24 C\n    until doubled\n",
            &format!(
                "rise: wait {rise}, at 24 C [slow]\n    until doubled\nrise: wait 60 min, at 28 C [quick]\n    until doubled\n"
            ),
        )
    };
    for (format, marked) in [
        ("text", "step rise [slow]: time 2 h → 3 h"),
        ("markdown", "- step **rise** \\[slow\\]: time: **2 h** → **3 h**"),
        ("html", "<strong>rise</strong> [slow]; time: 2 h → 3 h"),
    ] {
        // On a page no figure breaks from its unit.
        let said = printed(&choice("2 h"), &choice("3 h"), format).replace('\u{a0}', " ");
        assert!(said.contains(marked), "{format}: {said}");
    }
}

#[test]
fn edits_of_names_weights_signs_and_equipment_are_named() {
    let renamed = diff(LOAF, &LOAF.replace("fresh yeast", "baker's yeast"));
    assert_eq!(lines(&renamed).len(), 1, "{renamed:#}");
    let line = &renamed["parts"][0]["lines"][0];
    assert!(line.to_string().contains("fresh yeast") && line.to_string().contains("baker's yeast"), "{line:#}");
    let gone =
        diff(LOAF, &LOAF.replace("fresh yeast ................... 1.5 %\n", "").replace(" and {fresh yeast}", ""));
    assert_eq!(lines(&gone), [("fresh yeast".to_owned(), "removed".to_owned())], "{gone:#}");
    let using = diff(LOAF, &edited("hands 10 min", "hands 10 min, using mixer"));
    assert_eq!(facts(&using, "steps", "step"), [("mix".to_owned(), "changed".to_owned())], "{using:#}");
    let moved = LOAF.replace("rise: wait 60 min, at 24 C\n    until doubled\n", "")
        + "rise: wait 60 min, at 24 C\n    until doubled\n";
    let steps = diff(LOAF, &moved)["parts"][0]["steps"].to_string();
    assert!(steps.contains("\"moved\":true"), "{steps}");
    let words = diff(LOAF, &edited("and {fresh yeast}.", "and {fresh yeast} well."));
    assert_eq!(facts(&words, "steps", "step"), [("mix".to_owned(), "changed".to_owned())], "{words:#}");
}

#[test]
fn problems_raised_and_cleared_are_said() {
    let short = edited("2 x 842 g", "2 x 942 g");
    let told = |old: &str, new: &str| {
        let problems = &diff(old, new)["problems"];
        ["raised", "cleared"].map(|which| problems[which].as_array().map(Vec::len))
    };
    assert_eq!(told(LOAF, &short), [Some(1), Some(0)]);
    assert_eq!(told(&short, LOAF), [Some(0), Some(1)]);
    // The figures of a problem that stands move with the amounts: it is neither new nor gone.
    assert_eq!(told(&short, &edited("2 x 842 g", "2 x 952 g")), [Some(0), Some(0)]);
}

#[test]
fn a_longer_plan_is_said_with_its_minutes() {
    let plan = diff(LOAF, &edited("wait 60 min", "wait 75 min"))["plan"].to_string();
    assert!(plan.contains("from the first step to the last"), "{plan}");
    assert!(plan.contains("1 h 50 min") && plan.contains("2 h 5 min"), "{plan}");
}

/// Every percentage and every time of every example, changed one at a time: the diff names the line or the step it stands
/// in, in the part it stands in.
#[test]
fn each_figure_of_the_examples_is_named_when_it_changes() {
    let mut tried = 0;
    // The edited files need what the examples use beside them, and must not stand among the examples.
    let folder = tempfile::tempdir().expect("a folder");
    for path in formulas() {
        let name = path.file_name().expect("a name");
        if path.parent().is_some_and(|folder| folder.ends_with("examples")) {
            fs::copy(&path, folder.path().join(name)).expect("copied");
        }
    }
    for path in formulas().into_iter().filter(|path| path.parent().is_some_and(|folder| folder.ends_with("examples"))) {
        let text = fs::read_to_string(&path).expect("a text");
        if !text.lines().any(|line| line.starts_with("recipe ")) {
            continue;
        }
        for (number, line) in text.lines().enumerate() {
            let Some((name, rest)) = line.split_once(" ...") else { continue };
            let Some(percent) = rest.trim_start_matches(['.', ' ']).split_once(" %").map(|(figure, _)| figure) else {
                continue;
            };
            let Ok(figure) = percent.parse::<f64>() else { continue };
            let changed = line.replacen(&format!("{percent} %"), &format!("{} %", figure + 1.0), 1);
            let lines: Vec<&str> =
                text.lines().enumerate().map(|(at, line)| if at == number { changed.as_str() } else { line }).collect();
            let old = folder.path().join(path.file_name().expect("a name"));
            let new = folder.path().join("edited.miche");
            fs::write(&new, lines.join("\n") + "\n").expect("written");
            let output = miche(&["diff", &old.display().to_string(), &new.display().to_string(), "--format", "json"]);
            let changes: Value = serde_json::from_slice(&output.stdout).expect("JSON");
            let named = facts(&changes, "lines", "ingredient");
            assert!(
                named.iter().any(|(ingredient, _)| ingredient.eq_ignore_ascii_case(name.trim())),
                "{}:{}: {line} -> {changed}: {named:?}",
                path.display(),
                number + 1
            );
            tried += 1;
        }
    }
    assert!(tried > 40, "{tried}");
}

/// Edits of different lines by two people, merged, are both edits made to one text.
#[test]
fn merging_edits_of_different_lines_is_making_both() {
    let edits = [
        ("1000 g", "1200 g"),
        ("65 %", "68 %"),
        ("2 %", "1.9 %"),
        ("1.5 %", "1.2 %"),
        ("wait 60 min", "wait 70 min"),
        ("tend 40 min", "tend 38 min"),
        ("until brown", "until deep brown"),
    ];
    for (at, (mine, by)) in edits.iter().enumerate() {
        for (theirs, to) in edits.iter().skip(at + 1) {
            let folder = tempfile::tempdir().expect("a folder");
            let file = |name: &str, text: &str| {
                let path = folder.path().join(name);
                fs::write(&path, text).expect("written");
                path.display().to_string()
            };
            let (base, ours) = (file("base.miche", LOAF), file("ours.miche", &edited(mine, by)));
            let others = file("theirs.miche", &edited(theirs, to));
            let output = miche(&["merge", &base, &ours, &others]);
            assert_eq!(output.status.code(), Some(0), "{mine}, {theirs}: {}", String::from_utf8_lossy(&output.stderr));
            let both = edited(mine, by).replacen(theirs, to, 1);
            assert_eq!(fs::read_to_string(&ours).expect("merged"), both, "{mine}, {theirs}");
        }
    }
}

/// One rich difference, as it is read: to be reviewed as a whole when it changes.
#[test]
fn a_rich_difference_reads_well() {
    let new = edited("65 %", "70 %")
        .replace("fresh yeast ................... 1.5 %", "fresh yeast ................... 0.75 %")
        .replace("tend 40 min", "tend 51 min")
        .replace("divide", "sesame seeds .................. 4 %\ndivide");
    for format in ["text", "markdown"] {
        insta::with_settings!({ omit_expression => true }, {
            insta::assert_snapshot!(format!("rich_{format}"), printed(LOAF, &new, format));
        });
    }
}

#[test]
fn notes_and_cautions_stand_in_the_json_too() {
    let noted = format!("{LOAF}note Best on the second day.\n").replacen("divide", "caution Hot tins.\ndivide", 1);
    let changes = diff(LOAF, &noted);
    assert_eq!(changes["changed"], true);
    let part = &changes["parts"][0]["texts"];
    let expected = serde_json::json!([
        {"kind": "caution", "change": "added", "text": "Hot tins."},
        {"kind": "note", "change": "added", "text": "Best on the second day."}
    ]);
    assert_eq!(*part, expected, "{changes:#}");
    assert_eq!(diff(&noted, &noted)["texts"], serde_json::json!([]));
    let head = LOAF.replacen("makes", "note For the harbour.\nmakes", 1);
    let expected = serde_json::json!([{"kind": "note", "change": "removed", "text": "For the harbour."}]);
    assert_eq!(diff(&head, LOAF)["texts"], expected);
    for format in ["text", "markdown", "html"] {
        let shown = printed(LOAF, &noted, format);
        assert!(shown.contains("caution added: Hot tins."), "{shown}");
    }
    let reworded = diff(LOAF, &edited("Mix {wheat", "Gently mix {wheat"));
    let step = &reworded["parts"][0]["steps"][0];
    assert!(step["new_text"].as_str().is_some_and(|text| text.starts_with("Gently mix")), "{reworded:#}");
}

#[test]
fn a_review_comment_says_each_chief_figure_once() {
    let shown = printed(LOAF, &edited("65 %", "70 %"), "markdown");
    for figure in ["hydration", "total"] {
        assert_eq!(shown.matches(figure).count(), 1, "{figure}: {shown}");
    }
    // A part in which nothing but these changed needs no section of its own.
    let weight = printed(LOAF, &edited("2 x 842 g", "2 x 840 g"), "markdown");
    assert_eq!(weight.matches("piece weight").count(), 1, "{weight}");
}

/// Bicarbonate of soda is 68 % salt to the law (sodium x 2.5, Regulation (EU) 1169/2011, Annex I) and none to a baker.
#[test]
fn what_raises_a_dough_is_no_salt_to_a_baker() {
    let named = |line: &str| {
        let changes = diff(LOAF, &edited("divide", &format!("{line}\ndivide")));
        changes["parts"][0]["figures"].as_array().expect("a list").iter().any(|one| one["figure"] == "salt on flour")
    };
    assert!(!named("bicarbonate of soda ........... 1 %"));
    assert!(!named("baking powder ................. 4 %"));
    assert!(named("salted butter ................. 10 %"));
}

#[test]
fn two_of_one_name_are_told_apart() {
    let twice = LOAF.replace("bake: tend", "fold: hands 3 min\n    Once.\nfold: hands 5 min\n    Again.\nbake: tend")
        + "part glaze\nmilk ..... 20 g\nmilk ..... 30 g\npart glaze\nmilk ..... 40 g\n";
    let changes = diff(&twice, &twice);
    assert_eq!(changes["changed"], false, "{changes:#}");
    let later = twice.replace("hands 5 min", "hands 6 min");
    let changes = diff(&twice, &later);
    let steps = &changes["parts"][0]["steps"];
    assert_eq!(steps.as_array().map(Vec::len), Some(1), "{changes:#}");
    assert!(steps[0].to_string().contains("6 min"), "{steps:#}");
}

/// What used to be silent, alone: a stated loss, the dough of a preferment, what is meant to be left, a capital, a tenth of a
/// degree.
#[test]
fn no_change_of_a_card_is_silent() {
    let jam = "recipe Jam\npart jam\nplums ..... 1 kg\nmakes 820 g, loss 18 %\nspare 100 g\nkeeps 2 days, at 4.04 C\n\
               cook: tend 10.004 min, at 104.2 C\n    Cook {plums}.\n    until thick\n";
    for (from, to) in [
        ("loss 18 %", "loss 17.6 %"),
        ("loss 18 %", "loss 18.04 %"),
        ("spare 100 g", "spare 90 g"),
        ("4.04 C", "4.03 C"),
        ("104.2 C", "104.4 C"),
        ("10.004 min", "10.005 min"),
        ("plums ....", "Plums ...."),
        ("1 kg", "1 kg, yield 88.12 %"),
    ] {
        assert!(jam.contains(from), "{from}");
        let changes = diff(jam, &jam.replacen(from, to, 1));
        assert_eq!(changes["changed"], true, "{from} -> {to}: {changes:#}");
    }
    let loss = diff(jam, &jam.replace("loss 18 %", "loss 17.6 %"));
    assert_eq!(loss["parts"][0]["figures"][0]["figure"], "stated loss", "{loss:#}");
    let yields = jam.replace("1 kg", "1 kg, yield 88.12 %");
    let finer = diff(&yields, &yields.replace("88.12", "88.124"));
    assert_eq!(finer["changed"], true, "{finer:#}");
}

#[test]
fn two_ways_to_work_one_recipe_stand_side_by_side() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("buns.miche");
    let buns = LOAF.replace("\n\nwheat", "\nchoose mixing: machine or hand\n\nwheat").replace(
        "mix: hands 10 min",
        "mix: hands 5 min, using mixer             [machine]\n    Mix.\nmix: hands 20 min             [hand]",
    );
    fs::write(&path, &buns).expect("written");
    let file = path.display().to_string();
    let shown = |arguments: &[&str]| {
        let output = miche(&[&["diff", &file], arguments].concat());
        (output.status.code(), String::from_utf8_lossy(&[output.stdout, output.stderr].concat()).into_owned())
    };
    let (code, text) = shown(&["--choose", "hand", "--against", "mixing=machine"]);
    assert!(code == Some(0) && text.contains("mixing: hand  →  mixing: machine"), "{text}");
    assert!(text.contains("20 min") && text.contains("5 min") && text.contains("mixer"), "{text}");
    assert!(shown(&["--against", "hand"]).1.contains("mixing: machine  →  mixing: hand"));
    let (code, same) = shown(&["--choose", "hand", "--against", "hand", "--exit-code"]);
    assert!(code == Some(0) && same.contains("No change."), "{same}");
    let (code, wrong) = shown(&["--choose", "hand", "--against", "machnie"]);
    assert!(
        code == Some(2) && wrong.contains("--against machnie: there is no such option; did you mean `machine`?"),
        "{wrong}"
    );
    let (code, wrong) = shown(&["--choose", "hand"]);
    assert!(code == Some(2) && wrong.contains("--against"), "{wrong}");
    let (code, wrong) = shown(&[&file, "--against", "hand"]);
    assert!(code == Some(2) && wrong.contains("give one file"), "{wrong}");
}

/// Nothing said would look like no change.
#[test]
fn what_is_no_recipe_is_refused_and_not_called_unchanged() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = |name: &str| folder.path().join(name).display().to_string();
    fs::write(path("a.miche"), "day Saturday\nmake 20 of \"rolls.miche\"\n").expect("written");
    fs::write(path("b.miche"), "day Saturday\nmake 40 of \"rolls.miche\"\n").expect("written");
    fs::write(path("loaf.miche"), LOAF).expect("written");
    for (old, new) in [("a.miche", "b.miche"), ("a.miche", "loaf.miche"), ("loaf.miche", "b.miche")] {
        for format in ["text", "json"] {
            let output = miche(&["diff", &path(old), &path(new), "--exit-code", "--format", format]);
            let said = String::from_utf8_lossy(&output.stderr).into_owned();
            assert!(output.status.code() == Some(2) && said.contains("are not two recipes"), "{said}");
            assert!(output.stdout.is_empty());
        }
    }
}
