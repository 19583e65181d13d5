//! Published worked examples: each `.miche` file in `tests/published` is a formula somebody printed, and the `.expect`
//! file beside it holds the printed figures with their source. See `tests/published/sheet.rs` for its lines.

// Helpers outside a test function fail a test by panicking, as the tests do.
#![allow(clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

#[path = "published/sheet.rs"]
mod sheet;

use serde_json::{Value, json};
use sheet::{Claim, Finding, Run, Sheet};
use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/published")
}

#[test]
fn the_cards_say_what_was_printed() {
    let mut faults = Vec::new();
    let mut lines = 0;
    for recipe in recipes(&folder()).unwrap_or_else(|why| panic!("{why}")) {
        match read_sheet(&recipe) {
            Ok(sheet) => {
                lines += sheet.findings.len() + sheet.runs.iter().map(|run| run.claims.len()).sum::<usize>();
                faults.extend(sheet.runs.iter().flat_map(|run| faults_of_run(&recipe, run)));
                faults.extend(faults_of_check(&recipe, &sheet.findings));
            }
            Err(why) => faults.push(why),
        }
    }
    assert!(
        faults.is_empty(),
        "{} of {lines} published figures are missed:\n\n{}\n",
        faults.len(),
        faults.join("\n\n")
    );
}

/// The recipes of a folder, in order; a folder without any is a fault, and so is an orphan.
fn recipes(folder: &Path) -> Result<Vec<PathBuf>, String> {
    let entries = fs::read_dir(folder).map_err(|why| format!("{}: {why}", folder.display()))?;
    let mut files: Vec<PathBuf> = entries.filter_map(|entry| Some(entry.ok()?.path())).collect();
    files.sort();
    let is = |path: &Path, ending: &str| path.extension().is_some_and(|found| found == ending);
    let text = |path: &Path| fs::read_to_string(path).map_err(|why| format!("{}: {why}", path.display()));
    let mut recipes = Vec::new();
    let mut shared = Vec::new();
    let mut used = String::new();
    for path in files.iter().filter(|path| is(path, "miche")) {
        let words = text(path)?;
        if words.lines().any(|line| line.starts_with("recipe ")) {
            used.push_str(&words);
            recipes.push(path.clone());
        } else {
            shared.push(path);
        }
    }
    if recipes.is_empty() {
        return Err(format!("{}: there is no published recipe", folder.display()));
    }
    for path in shared {
        let name = path.file_name().unwrap_or_default().to_string_lossy();
        if !used.contains(&format!("use \"{name}\"")) {
            return Err(format!("{}: no recipe uses it", path.display()));
        }
    }
    match files.iter().find(|path| is(path, "expect") && !recipes.contains(&path.with_extension("miche"))) {
        Some(orphan) => Err(format!("{}: no recipe stands beside it", orphan.display())),
        None => Ok(recipes),
    }
}

fn read_sheet(recipe: &Path) -> Result<Sheet, String> {
    let path = recipe.with_extension("expect");
    let text = fs::read_to_string(&path).map_err(|why| format!("{}: {why}", path.display()))?;
    Sheet::read(&text).map_err(|why| format!("{}: {why}", path.display()))
}

fn miche(command: &str, recipe: &Path, args: &[String]) -> Output {
    let mut program = Command::new(env!("CARGO_BIN_EXE_miche"));
    program.current_dir(folder()).arg(command).arg(recipe).args(["--format", "json"]).args(args);
    program.env("NO_COLOR", "1").output().expect("the program starts")
}

fn faults_of_run(recipe: &Path, run: &Run) -> Vec<String> {
    if run.claims.is_empty() {
        return Vec::new();
    }
    let place = format!("{} {}", recipe.display(), run.args.join(" "));
    let output = miche("card", recipe, &run.args);
    let told = String::from_utf8_lossy(&output.stderr);
    if output.status.code() != Some(0) {
        return vec![format!("{place}\n  `miche card` gave {}, not a card:\n{told}", output.status)];
    }
    match serde_json::from_slice(&output.stdout) {
        Ok(card) => run.claims.iter().filter_map(|claim| fault(&place, claim, &card)).collect(),
        Err(why) => vec![format!("{place}\n  the card is not JSON: {why}")],
    }
}

fn fault(place: &str, claim: &Claim, card: &Value) -> Option<String> {
    let got = claim.fault_in(card)?;
    Some(format!(
        "{place}\n  line {}: {}\n  expected {}\n  got      {got}\n  source   {}",
        claim.line,
        claim.pointers.join(" + "),
        claim.expected(),
        claim.source
    ))
}

fn faults_of_check(recipe: &Path, findings: &[Finding]) -> Vec<String> {
    let place = format!("{} (check)", recipe.display());
    let output = miche("check", recipe, &[]);
    let Ok(Value::Array(problems)) = serde_json::from_slice(&output.stdout) else {
        return vec![format!("{place}\n  it gave no list: {}", String::from_utf8_lossy(&output.stderr))];
    };
    let text = |problem: &Value, key: &str| problem.get(key).and_then(Value::as_str).unwrap_or("").to_owned();
    let found: BTreeSet<(String, String)> =
        problems.iter().map(|problem| (text(problem, "severity"), text(problem, "check"))).collect();
    let wanted = |severity: &str, check: &str| findings.iter().any(|it| it.severity == severity && it.check == check);
    let mut faults = Vec::new();
    for Finding { severity, check, source } in findings {
        let as_printed = match severity.as_str() {
            "no" => found.iter().all(|(_, other)| other != check),
            _ => found.contains(&(severity.clone(), check.clone())),
        };
        if !as_printed {
            faults.push(format!("{place}\n  expected {severity} {check}\n  got      {found:?}\n  source   {source}"));
        }
    }
    for problem in &problems {
        let (severity, check) = (text(problem, "severity"), text(problem, "check"));
        if severity == "error" && !wanted(&severity, &check) {
            faults.push(format!("{place}\n  not expected: {check}: {}", text(problem, "message")));
        }
    }
    let code = i32::from(found.iter().any(|(severity, _)| severity == "error"));
    if output.status.code() != Some(code) {
        faults.push(format!("{place}\n  exit code {:?}, not {code}", output.status.code()));
    }
    faults
}

/// What follows proves that the harness itself can fail.
fn sheet_of(lines: &str) -> Result<Sheet, String> {
    Sheet::read(&format!("source HERE: a page, printed\n{lines}"))
}

fn card() -> Value {
    json!({"factor": 3.48, "recipe": "Loaf", "parts": [
        {"name": "dough", "lines": [
            {"ingredient": "flour", "grams": 100.0, "buy_g": null},
            {"ingredient": "water", "grams": 67.0},
            {"ingredient": "salt", "grams": 1.0},
            {"ingredient": "salt", "grams": 1.0}
        ]}
    ]})
}

fn claim_holds(line: &str) -> bool {
    let sheet = sheet_of(&format!("{line} # HERE: printed")).unwrap_or_else(|why| panic!("{line}: {why}"));
    let claims: Vec<&Claim> = sheet.runs.iter().flat_map(|run| &run.claims).collect();
    assert_eq!(claims.len(), 1, "{line}");
    claims.iter().all(|claim| fault("here", claim, &card()).is_none())
}

#[test]
fn a_figure_that_agrees_holds_and_another_does_not() {
    for line in [
        "/factor = 3.48",
        "/recipe = \"Loaf\"",
        "/parts/0/lines/water/grams = 67.4 +- 0.5",
        "/parts/dough/lines/1/grams = 67",
        "/parts/dough/lines/flour/buy_g absent",
        "/parts/dough/lines/water/buy_g absent",
        "sum /parts/dough/lines/*/grams = 169",
        "sum /parts/dough/lines/flour/grams + /factor = 103.48",
    ] {
        assert!(claim_holds(line), "{line}");
    }
    for line in [
        "/factor = 3.49",
        "/factor = \"3.48\"",
        "/factor absent",
        "/recipe = \"Roll\"",
        "/recipe = 1",
        "/parts/0/lines/water/grams = 67.6 +- 0.5",
        "/parts/0/lines/milk/grams = 0",
        "/parts/0/lines/salt/grams = 1",
        "/parts/dough/loaves/water/buy_g absent",
        "/parts/cream/lines/water/buy_g absent",
        "/parts/9/name = \"dough\"",
        "sum /parts/dough/lines/*/grams = 170",
        "sum /parts/dough/lines/*/percent = 0",
    ] {
        assert!(!claim_holds(line), "{line}");
    }
}

#[test]
fn a_line_without_a_source_is_refused() {
    assert!(sheet_of("/factor = 3.48 # HERE: printed").is_ok());
    for lines in [
        "/factor = 3.48",
        "/factor = 3.48 # ELSEWHERE: printed",
        "/factor = 3.48 # printed",
        "/factor = 3.48 # HERE: ",
        "error base-not-100",
        "",
        "args --pieces 3",
        "/factor = 1 # HERE: printed\nargs --pieces 3",
        "/factor = 1 # HERE: printed\nsource IDLE: never cited",
        "/factor = 1 # HERE: printed\nsource HERE: given twice",
        "factor = 1 # HERE: printed",
        "/factor = 1 +- 0 # HERE: printed",
        "/factor = many # HERE: printed",
        "args --total \"3 kg\n/factor = 1 # HERE: printed",
    ] {
        assert!(sheet_of(lines).is_err(), "{lines}");
    }
    let sheet = sheet_of("args --total \"96 oz\" --choose hand\n/factor = 1 # HERE: printed").expect("two options");
    assert_eq!(sheet.runs[0].args, ["--total", "96 oz", "--choose", "hand"]);
}

#[test]
fn an_empty_folder_and_orphans_are_refused() {
    let folder = tempfile::tempdir().expect("a folder");
    let write = |name: &str, text: &str| fs::write(folder.path().join(name), text).expect("a file");
    assert!(recipes(folder.path()).is_err(), "an empty folder");
    write("larder.miche", "ingredient flour\n");
    assert!(recipes(folder.path()).is_err(), "a larder and no recipe");
    write("loaf.miche", "recipe Loaf\n");
    assert!(recipes(folder.path()).is_err(), "a larder that nothing uses");
    write("loaf.miche", "recipe Loaf\nuse \"larder.miche\"\n");
    assert_eq!(recipes(folder.path()).map(|found| found.len()), Ok(1));
    assert!(read_sheet(&folder.path().join("loaf.miche")).is_err(), "a recipe without expectations");
    write("roll.expect", "");
    assert!(recipes(folder.path()).is_err(), "expectations without a recipe");
}

/// The same figures worked out a second time, in another language, with fractions, from the text alone: the cards in every format and
/// unit, the list, the label and the cost of the published examples, at their size, a third and seven times it.
#[test]
fn an_independent_reckoning_agrees() {
    let script = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/scripts/audit_figures.py");
    let output =
        std::process::Command::new("python3").arg(script).arg(env!("CARGO_BIN_EXE_miche")).output().expect("python3");
    let told = String::from_utf8_lossy(&output.stdout);
    assert!(output.status.success(), "{told}{}", String::from_utf8_lossy(&output.stderr));
    assert!(told.contains("0 wrong") && told.contains(" recipes, "), "{told}");
    let audited: usize =
        told.lines().last().and_then(|line| line.split(' ').next()?.parse().ok()).expect("a number of recipes");
    assert!(audited >= 20, "{told}");
}
