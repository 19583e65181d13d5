//! `miche history` on a real git repository, and the workflow file for a code host.

// Helpers outside a test function fail a test by panicking, as the tests do.
#![allow(clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

#[path = "git/repository.rs"]
mod repository;

use repository::{LOAF, Repository};
use serde_json::Value;
use std::fs;

/// What `miche history` says of a repository's files.
trait Told {
    fn history(&self, arguments: &[&str]) -> String;
    fn changes(&self, arguments: &[&str]) -> Vec<Value>;
    fn complaint(&self, arguments: &[&str]) -> String;
}

impl Told for Repository {
    fn history(&self, arguments: &[&str]) -> String {
        let mut all = vec!["history"];
        all.extend(arguments);
        self.miche(&all)
    }

    fn changes(&self, arguments: &[&str]) -> Vec<Value> {
        let mut all = arguments.to_vec();
        all.extend(["--format", "json"]);
        let whole: Value = serde_json::from_str(&self.history(&all)).expect("JSON");
        assert_eq!(whole["format"], 1);
        whole["changes"].as_array().expect("a list").clone()
    }

    /// What it complains of, having printed nothing and exited with 2.
    fn complaint(&self, arguments: &[&str]) -> String {
        let mut all = vec!["history"];
        all.extend(arguments);
        let output = self.run("2026-12-01", env!("CARGO_BIN_EXE_miche"), &all);
        assert_eq!(output.status.code(), Some(2), "{all:?}");
        assert!(output.stdout.is_empty(), "{all:?}");
        String::from_utf8(output.stderr).expect("UTF-8")
    }
}

fn subjects(changes: &[Value]) -> Vec<&str> {
    changes.iter().map(|change| change["subject"].as_str().expect("a text")).collect()
}

fn wetter() -> String {
    LOAF.replace("650 g", "700 g").replace("842 g", "867 g")
}

/// The loaf, laid out anew, made wetter, renamed, saltier.
fn told() -> Repository {
    let repository = Repository::new();
    repository.commit("2026-03-01", "The loaf", "loaf.miche", LOAF);
    repository.commit("2026-03-02", "Shorter leaders", "loaf.miche", &LOAF.replace(" .......", " ..."));
    repository.commit("2026-03-03", "Wetter", "loaf.miche", &wetter());
    repository.git("2026-03-04", &["mv", "loaf.miche", "tin.miche"]);
    repository.git("2026-03-04", &["commit", "-q", "-m", "Another name"]);
    let saltier = wetter().replace(" 20 g", " 22 g").replace("867 g", "868 g").replace("40 min", "45 min");
    repository.commit("2026-03-05", "Saltier", "tin.miche", &saltier);
    repository
}

#[test]
fn a_row_is_a_change_of_meaning_and_a_renamed_file_is_followed() {
    let changes = told().changes(&["tin.miche"]);
    assert_eq!(subjects(&changes), ["Saltier", "Wetter", "The loaf"], "layout and a new file name change no dough");
    let figures = |at: usize, name: &str| changes[at]["figures"][name].as_f64().expect("a number");
    let hydration: Vec<f64> = (0..3).map(|at| figures(at, "hydration_percent")).collect();
    assert!((65.0..67.0).contains(&hydration[2]), "650 g of water and what the yeast holds: {hydration:?}");
    let near = |a: f64, b: f64| (a - b).abs() < 1e-3;
    assert!(near(hydration[1] - hydration[2], 5.0), "50 g more on 1000 g of flour: {hydration:?}");
    assert!(near(hydration[0], hydration[1]), "salt brings next to no water: {hydration:?}");
    let salt = figures(0, "salt_percent") / figures(1, "salt_percent");
    assert!((salt - 1.1).abs() < 0.005, "22 g after 20 g, and the trace that yeast holds: {salt}");
    assert_eq!((figures(0, "piece_g"), figures(2, "piece_g")), (868.0, 842.0));
    assert_eq!((figures(0, "total_g"), figures(2, "total_g")), (1737.0, 1685.0));
    assert_eq!((figures(0, "minutes"), figures(2, "minutes")), (55.0, 50.0));
    assert_eq!(figures(0, "yeast_as_fresh_percent"), 1.5);
    assert_eq!(changes[0]["date"], "2026-03-05");
    assert_eq!(changes[0].get("then_called"), None);
    assert_eq!(changes[2]["then_called"], "loaf.miche");
}

/// Water that becomes something of which no larder knows the water is not a hydration of nearly nothing.
#[test]
fn a_hydration_of_unknown_water_is_at_least_that() {
    let repository = told();
    let brewed = LOAF.replace("water ....", "kelp brew ....").replace("{water}", "{kelp brew}");
    assert_ne!(brewed, LOAF);
    repository.commit("2026-03-06", "Kelp", "tin.miche", &brewed);
    let changes = repository.changes(&["tin.miche"]);
    assert_eq!(changes[0]["figures"]["hydration_is_least"], true, "{:#}", changes[0]);
    assert_eq!(changes[1]["figures"].get("hydration_is_least"), None);
    let text = repository.history(&["tin.miche"]);
    let row = text.lines().find(|line| line.ends_with("Kelp")).expect("a row");
    assert!(row.contains("at least 1 %"), "1.5 % of fresh yeast, two thirds of it water: {text}");
}

#[test]
fn what_is_not_committed_stands_first_and_last_limits() {
    let repository = told();
    let name = repository.git("2026-03-06", &["rev-parse", "--short", "HEAD"]).trim().to_owned();
    repository.write("tin.miche", &wetter());
    let changes = repository.changes(&["tin.miche", "--last", "1"]);
    assert_eq!(subjects(&changes), ["not yet committed", "Saltier"]);
    assert_eq!((&changes[0]["commit"], &changes[0]["date"]), (&Value::Null, &Value::Null));
    assert_eq!(changes[1]["short"], name.as_str());
}

#[test]
fn every_format_says_the_same() {
    let repository = told();
    let name = repository.git("2026-03-06", &["rev-parse", "--short", "HEAD"]).trim().to_owned();
    let text = repository.history(&["tin.miche"]);
    let row = text.lines().find(|line| line.ends_with("Saltier")).expect("a row");
    let row: Vec<&str> = row.split("  ").map(str::trim).filter(|cell| !cell.is_empty()).collect();
    let expected = ["2026-03-05", &name, "71 %", "2.2 %", "1.5 % fresh", "868 g", "1737 g", "55 min", "Saltier"];
    assert_eq!(row, expected, "{text}");
    assert!(text.contains("5 revisions, of which 3 changed"), "{text}");
    let markdown = repository.history(&["tin.miche", "--format", "markdown"]);
    assert!(markdown.contains(&format!("| {} |", expected.join(" | "))), "{markdown}");
    let html = repository.history(&["tin.miche", "--format", "html"]);
    // There no figure breaks from its unit.
    let spaced = html.replace('\u{a0}', " ");
    for cell in expected {
        assert!(spaced.contains(&format!(">{cell}</td>")), "{cell}: {html}");
    }
    assert_eq!(html.matches("<polyline").count(), 3, "hydration, salt and yeast");
    assert_eq!((html.matches("<circle").count(), html.matches("<polygon").count()), (3, 3));
    repository.history(&["tin.miche", "-o", "history.html"]);
    assert_eq!(fs::read_to_string(repository.at("history.html")).expect("read"), html);
}

#[test]
fn a_broken_revision_is_a_row_and_so_is_its_mending() {
    let repository = Repository::new();
    repository.commit("2026-03-01", "The loaf", "loaf.miche", LOAF);
    repository.commit("2026-03-02", "Half a line", "loaf.miche", &LOAF.replace("650 g", "650 650 gg"));
    repository.commit("2026-03-03", "No text", "loaf.miche", "");
    fs::write(repository.at("loaf.miche"), b"\xff\xfe\x00").expect("written");
    repository.git("2026-03-04", &["commit", "-q", "-a", "-m", "Bytes"]);
    repository.commit("2026-03-05", "Mended", "loaf.miche", LOAF);
    repository.git("2026-03-06", &["rm", "-q", "loaf.miche"]);
    repository.git("2026-03-06", &["commit", "-q", "-m", "Taken away"]);
    let changes = repository.changes(&["loaf.miche"]);
    assert_eq!(subjects(&changes), ["Taken away", "Mended", "Bytes", "No text", "Half a line", "The loaf"]);
    let states: Vec<&str> = changes.iter().map(|change| change["state"].as_str().expect("a word")).collect();
    assert_eq!(states, ["gone", "known", "unclear", "unclear", "unclear", "known"]);
    assert!(changes[4]["why"].as_str().is_some_and(|why| !why.is_empty()));
    assert!(changes[4]["figures"].is_null(), "figures of a wrong formula are not told");
    assert_eq!(changes[1]["figures"], changes[5]["figures"], "mended is as before");
    for format in ["text", "markdown", "html"] {
        let shown = repository.history(&["loaf.miche", "--format", format]);
        assert_eq!(shown.matches("cannot be worked out").count(), 3, "{shown}");
        assert!(shown.contains("the file is not there"), "{shown}");
    }
    let html = repository.history(&["loaf.miche", "--format", "html"]);
    assert_eq!(html.matches("<polyline").count(), 0, "no line is drawn over a gap");
}

#[test]
fn a_hostile_subject_stays_text() {
    let repository = Repository::new();
    repository.commit("2026-03-01", "<script>alert(1)</script> | \u{1b}[31m \u{202e}x", "loaf.miche", LOAF);
    repository.commit("2026-03-02", "<img src=x> `a` *b*", "loaf.miche", &wetter());
    for format in ["text", "markdown", "html"] {
        let shown = repository.history(&["loaf.miche", "--format", format]);
        assert!(!shown.contains('\u{1b}') && !shown.contains('\u{202e}'), "{format}: {shown:?}");
        if format != "text" {
            assert!(!shown.contains("<script") && !shown.contains("<img"), "{format}: {shown}");
            assert!(shown.contains("&lt;script&gt;"), "{format}: {shown}");
        }
        if format == "markdown" {
            assert!(shown.contains("\\| ") && shown.contains("\\`a\\` \\*b\\*"), "{shown}");
        }
    }
    assert_eq!(subjects(&repository.changes(&["loaf.miche"]))[0], "<img src=x> `a` *b*");
}

#[test]
fn a_merged_branch_is_one_row() {
    let repository = Repository::new();
    repository.commit("2026-03-01", "The loaf", "loaf.miche", LOAF);
    repository.git("2026-03-02", &["checkout", "-q", "-b", "trial"]);
    repository.commit("2026-03-02", "Trial", "loaf.miche", &LOAF.replace("650 g", "690 g").replace("842", "862"));
    repository.commit("2026-03-03", "Second trial", "loaf.miche", &wetter());
    repository.git("2026-03-04", &["checkout", "-q", "main"]);
    repository.git("2026-03-04", &["merge", "-q", "--no-ff", "-m", "Take the trial", "trial"]);
    assert_eq!(subjects(&repository.changes(&["loaf.miche"])), ["Take the trial", "The loaf"]);
}

/// The loaf with a milk that its larder knows.
fn with_island_milk() -> String {
    LOAF.replace("makes 2", "use \"harbour.miche\"\nmakes 2")
        .replace("water ....", "island milk ")
        .replace("{water}", "{island milk}")
}

#[test]
fn what_a_formula_uses_is_read_as_it_stood_then() {
    let repository = Repository::new();
    let larder = "ingredient island milk\nwater 88 %\n";
    let uses = with_island_milk();
    repository.write("harbour.miche", larder);
    repository.commit("2026-03-01", "The loaf", "loaf.miche", &uses);
    repository.write("harbour.miche", &larder.replace("88 %", "80 %"));
    repository.commit("2026-03-02", "Salt and creamy milk", "loaf.miche", &uses.replace(" 20 g", " 22 g"));
    let changes = repository.changes(&["loaf.miche"]);
    let hydration: Vec<&Value> = changes.iter().map(|change| &change["figures"]["hydration_percent"]).collect();
    assert_eq!(hydration.len(), 2, "{changes:#?}");
    assert_ne!(hydration[0], hydration[1], "650 g of milk with 80 % and with 88 % water: {changes:#?}");
}

#[test]
fn yeast_is_counted_through_the_parts_and_dry_as_fresh() {
    let sponge = "recipe Skerrow sponge loaf\n\npart sponge\nwheat flour ..... 500 g\nwater ..... 500 g\n\
fresh yeast ..... 5 g\n\nstir: hands 5 min\n    Stir {wheat flour}, {water} and {fresh yeast}.\n\npart dough\n\
sponge ..... 1005 g\nwheat flour ..... 500 g\nwater ..... 150 g\nsalt ..... 20 g\nfresh yeast ..... 5 g\n\n\
mix: hands 10 min\n    Mix {sponge}, {wheat flour}, {water}, {salt} and {fresh yeast}.\n";
    let (head, dough) = sponge.split_once("part dough").expect("two parts");
    // 0.33 g of instant yeast for a gram of fresh: J. Hamelman, Bread (2004), 'Yeast conversions, fresh to dry'.
    let dry = dough.replace("fresh yeast ..... 5 g", "instant yeast ..... 1.65 g").replace("{fresh", "{instant");
    let unsaid = dough.replace("fresh yeast", "yeast");
    let repository = Repository::new();
    repository.commit("2026-03-01", "Fresh", "loaf.miche", sponge);
    repository.commit("2026-03-02", "Dry", "loaf.miche", &format!("{head}part dough{dry}"));
    repository.commit("2026-03-03", "Some yeast", "loaf.miche", &format!("{head}part dough{unsaid}"));
    let changes = repository.changes(&["loaf.miche"]);
    let figures: Vec<&Value> = changes.iter().map(|change| &change["figures"]).collect();
    assert_eq!(figures.len(), 3, "{changes:#?}");
    assert_eq!(figures[2]["part"], "dough");
    assert_eq!(
        figures[2]["yeast"],
        serde_json::json!([{"ingredient": "fresh yeast", "percent": 1}]),
        "5 g and 5 g on 1000 g"
    );
    assert_eq!(figures[2]["yeast_as_fresh_percent"], 1);
    let both = serde_json::json!([
        {"ingredient": "fresh yeast", "percent": 0.5},
        {"ingredient": "instant yeast", "percent": 0.165}
    ]);
    assert_eq!(figures[1]["yeast"], both, "{changes:#?}");
    assert_eq!(figures[1]["yeast_as_fresh_percent"], 1);
    assert!(figures[0]["yeast_as_fresh_percent"].is_null(), "what form is it? {changes:#?}");
}

#[test]
fn trouble_is_said_in_a_sentence() {
    let repository = Repository::new();
    repository.write("loaf.miche", LOAF);
    assert!(repository.complaint(&["loaf.miche"]).contains("was never committed"));
    repository.commit("2026-03-01", "All", "harbour.miche", "ingredient island milk\nwater 88 %\n");
    assert!(repository.complaint(&["gone.miche"]).contains("there is no file gone.miche"));
    assert!(repository.complaint(&["harbour.miche"]).contains("no recipe"));
    assert!(repository.complaint(&["."]).contains("is a folder"));
    assert!(repository.complaint(&["-"]).contains("standard input has no history"));
    assert!(repository.complaint(&["loaf.miche", "-o", "x.png"]).contains("--format"));
    let outside = tempfile::tempdir().expect("a folder");
    let file = outside.path().join("loaf.miche");
    fs::write(&file, LOAF).expect("written");
    assert!(repository.complaint(&[file.to_str().expect("UTF-8")]).contains("lies in no git repository"));
}

const BUNS: &str = "recipe Buns\nmakes 10 buns\nchoose rise: warm or cold\npart dough\nbread flour .... 500 g\nwhole milk .... 62 %\n\
                    salt .... 1.9 %\ninstant yeast .... 1 %  [warm]\ninstant yeast .... 0.4 %  [cold]\npart jam\nplum .... 300 g\n\
                    part buns\nper piece\ndough .... 80 g\njam .... 25 g\n";

fn figure(change: &Value, name: &str) -> Option<f64> {
    change["figures"][name].as_f64()
}

/// The line says 1.9 %; the 0.1 % in milk is not written as salt.
#[test]
fn salt_is_what_the_salt_lines_say() {
    let repository = Repository::new();
    repository.commit("2026-03-01", "Buns", "buns.miche", BUNS);
    let changes = repository.changes(&["buns.miche"]);
    assert!((figure(&changes[0], "salt_percent").expect("known") - 1.9).abs() < 1e-9, "{changes:#?}");
    assert!(repository.history(&["buns.miche"]).contains("1.9 %"));
}

/// An error in the filling leaves the dough what it is; one in the dough does not.
#[test]
fn an_error_in_the_filling_leaves_the_dough_its_figures() {
    let repository = Repository::new();
    repository.commit("2026-03-01", "Buns", "buns.miche", BUNS);
    repository.commit(
        "2026-03-02",
        "Slip in the jam",
        "buns.miche",
        &BUNS.replace("plum .... 300 g", "plum .... 300 gr"),
    );
    repository.commit("2026-03-03", "Slip in the dough", "buns.miche", &BUNS.replace("62 %", "62 5 %"));
    let changes = repository.changes(&["buns.miche"]);
    assert_eq!(subjects(&changes), ["Slip in the dough", "Slip in the jam", "Buns"]);
    assert_eq!((&changes[0]["state"], &changes[1]["state"]), (&Value::from("unclear"), &Value::from("known")));
    assert_eq!(figure(&changes[1], "hydration_percent"), figure(&changes[2], "hydration_percent"));
    assert_eq!(figure(&changes[1], "minutes"), None, "the jam's time is not known");
}

/// What changes in an option shows when that option is followed.
#[test]
fn an_option_can_be_followed() {
    let repository = Repository::new();
    repository.commit("2026-03-01", "Buns", "buns.miche", BUNS);
    repository.commit("2026-03-02", "Less yeast overnight", "buns.miche", &BUNS.replace("0.4 %", "0.2 %"));
    let yeast = |arguments: &[&str]| -> Vec<f64> {
        let changes = repository.changes(arguments);
        changes.iter().map(|change| change["figures"]["yeast"][0]["percent"].as_f64().expect("a share")).collect()
    };
    assert_eq!(yeast(&["buns.miche"]), [1.0, 1.0]);
    assert_eq!(yeast(&["buns.miche", "--choose", "cold"]), [0.2, 0.4]);
    assert_eq!(yeast(&["buns.miche", "--choose", "rise=cold"]), [0.2, 0.4]);
    assert!(repository.complaint(&["buns.miche", "--choose", "colt"]).contains("did you mean `cold`"));
}

/// Versions are compared by their formulas; a picture that does not come out of the repository with them is no fault of theirs.
#[test]
fn a_recipe_with_a_picture_has_its_history() {
    let repository = Repository::new();
    let pictured = |loaf: &str| loaf.replacen('\n', "\npicture \"tray.png\", Two loaves on a blue tray\n", 1);
    let tray = concat!(env!("CARGO_MANIFEST_DIR"), "/examples/pictures/tin-bread.png");
    fs::copy(tray, repository.at("tray.png")).expect("copied");
    repository.git("2026-03-01", &["add", "tray.png"]);
    repository.commit("2026-03-01", "The loaf", "loaf.miche", &pictured(LOAF));
    repository.commit("2026-03-03", "Wetter", "loaf.miche", &pictured(&wetter()));
    let changes = repository.changes(&["loaf.miche"]);
    assert_eq!(subjects(&changes), ["Wetter", "The loaf"]);
    assert!(changes.iter().all(|change| change["state"] == "known"), "{changes:#?}");
    let told = repository.miche(&["diff", "--from", "HEAD~1", "loaf.miche"]);
    assert!(told.contains("700 g") && !told.contains("problem"), "{told}");
    let told = repository.miche(&["diff", "HEAD~1:loaf.miche", "loaf.miche"]);
    assert!(told.contains("700 g") && !told.contains("problem"), "{told}");
}

/// 24 g of salt on 1000 g of flour and half of 400 g of starter are 2 %, and 12 g of fresh yeast 1 %; about so much, since nobody says how it was fed.
#[test]
fn salt_and_yeast_are_on_the_flour_of_a_kept_leaven_too() {
    let repository = Repository::new();
    let loaf = "recipe Loaf\nstrong white flour .... 1000 g\nsourdough starter .... 400 g\nwater .... 600 g\nsalt .... 24 g\nfresh yeast .... 12 g\nmix: hands 5 min\n    Mix \
                {strong white flour}, {sourdough starter}, {water}, {salt} and {fresh yeast}.\n    until smooth\n";
    repository.commit("2026-03-01", "The loaf", "loaf.miche", loaf);
    let changes = repository.changes(&["loaf.miche"]);
    assert!((figure(&changes[0], "salt_percent").expect("known") - 2.0).abs() < 1e-9, "{changes:#?}");
    let text = repository.history(&["loaf.miche"]);
    assert!(text.contains("about 2 %") && text.contains("1 % fresh"), "{text}");
}

/// What changed in a used file alone, and is committed there, is no row of this one; what is not committed is.
#[test]
fn a_used_file_that_is_committed_is_nothing_not_yet_committed() {
    let repository = Repository::new();
    let larder = "ingredient island milk\nwater 88 %\n";
    let uses = with_island_milk();
    repository.write("harbour.miche", larder);
    repository.commit("2026-03-01", "The loaf", "loaf.miche", &uses);
    repository.commit("2026-03-02", "Creamy milk", "harbour.miche", &larder.replace("88 %", "80 %"));
    assert_eq!(subjects(&repository.changes(&["loaf.miche"])), ["The loaf"]);
    repository.write("harbour.miche", &larder.replace("88 %", "60 %"));
    assert_eq!(subjects(&repository.changes(&["loaf.miche"])), ["not yet committed", "The loaf"]);
}

/// What a shallow clone begins with may have been there for years: its history is said to be cut off, by whoever is asked.
#[test]
fn a_shallow_clone_says_that_its_history_is_cut_off() {
    let whole = told();
    let from = format!("file://{}", whole.at("").display());
    whole.git("2026-12-01", &["clone", "-q", "--depth", "1", &from, "shallow"]);
    let shallow = |arguments: &[&str]| whole.run_in("shallow", "2026-12-01", env!("CARGO_BIN_EXE_miche"), arguments);
    let history = shallow(&["history", "tin.miche"]);
    assert!(history.status.success());
    let complaint = String::from_utf8(history.stderr).expect("UTF-8");
    assert!(complaint.contains("git fetch --unshallow"), "{complaint}");
    let book = shallow(&["book", ".", "-o", "site"]);
    let complaint = String::from_utf8(book.stderr).expect("UTF-8");
    assert!(complaint.contains("git fetch --unshallow"), "{complaint}");
    let page = fs::read_dir(whole.at("shallow/site/recipes")).expect("pages").next().expect("one").expect("read");
    let page = fs::read_to_string(page.path()).expect("text");
    assert!(!page.contains("datePublished"), "{page}");
    let here = whole.run("2026-12-01", env!("CARGO_BIN_EXE_miche"), &["history", "tin.miche"]);
    assert!(here.stderr.is_empty(), "{}", String::from_utf8_lossy(&here.stderr));
}

/// A kitchen and a folder that are shared by links are the same at a revision as on the disk; what leads out of the repository is not followed.
#[test]
#[cfg(unix)]
fn links_of_the_repository_are_followed_at_its_revisions() {
    let repository = Repository::new();
    repository.write("shared/kitchen.miche", "kitchen Quay\noven x 1\n");
    let loaf = |path: &str| LOAF.replacen('\n', &format!("\nuse \"{path}\"\n"), 1);
    repository.write("recipes/loaf.miche", &loaf("kitchen.miche"));
    repository.write("recipes/tin.miche", &loaf("../common/kitchen.miche"));
    std::os::unix::fs::symlink("../shared/kitchen.miche", repository.at("recipes/kitchen.miche")).expect("a link");
    std::os::unix::fs::symlink("shared", repository.at("common")).expect("a link");
    repository.git("2026-03-01", &["add", "-A"]);
    repository.git("2026-03-01", &["commit", "-q", "-m", "Links"]);
    let told = repository.miche(&["diff", "--from", "HEAD", ".", "--exit-code"]);
    assert!(!told.contains("cannot be used"), "{told}");
    for name in ["recipes/loaf.miche", "recipes/tin.miche"] {
        let history = repository.history(&[name]);
        assert!(!history.contains("cannot be"), "{name}: {history}");
    }
}
