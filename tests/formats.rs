//! What `miche check` prints for other programs, from outside.

#![allow(clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use serde_json::Value;
use std::fs;
use std::path::Path;
use std::process::{Command, Output};
use tempfile::TempDir;

fn bench(files: &[(&str, &str)]) -> TempDir {
    let folder = tempfile::tempdir().expect("a folder");
    for (name, text) in files {
        let path = folder.path().join(name);
        fs::create_dir_all(path.parent().expect("a parent")).expect("a folder");
        fs::write(path, text).expect("a file");
    }
    folder
}

fn check(folder: &Path, args: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_miche")).arg("check").args(args).current_dir(folder).output().expect("it runs")
}

fn out(output: &Output) -> String {
    String::from_utf8(output.stdout.clone()).expect("UTF-8")
}

const ROLLS: &str = "\
recipe Mole rolls
flour .... 500 grams
water .... 300 g
salt, 9 g
# the café's own
mix: hands 10 min
    Mix {flour} and {watr} — gently: no more than {12 min}, 50 %.
    until smooth
";

/// The published schema of SARIF 2.1.0; see `tests/data/sarif/README.md` for where it comes from.
fn sarif_schema() -> jsonschema::Validator {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/data/sarif/sarif-2.1.0-rtm.5.json");
    let mut schema: Value = serde_json::from_str(&fs::read_to_string(path).expect("the schema")).expect("JSON");
    // The published pattern of `language` has a bracket too many, which this validator refuses to read. The program
    // writes no `language`, so the pattern is not needed.
    for holder in ["run", "toolComponent"] {
        let language = schema["definitions"][holder]["properties"]["language"].as_object_mut().expect("it is there");
        assert!(language.remove("pattern").is_some());
    }
    jsonschema::draft4::new(&schema).expect("a schema")
}

fn faults(schema: &jsonschema::Validator, log: &Value) -> Vec<String> {
    schema.iter_errors(log).map(|fault| format!("{}: {fault}", fault.instance_path())).collect()
}

#[test]
fn sarif_is_valid_by_the_published_schema() {
    let schema = sarif_schema();
    let wrong = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/wrong");
    let log: Value = serde_json::from_str(&out(&check(&wrong, &[".", "--format", "sarif"]))).expect("JSON");
    assert_eq!(faults(&schema, &log), Vec::<String>::new());
    let results = log["runs"][0]["results"].as_array().expect("results");
    assert!(results.len() > 150, "{}", results.len());
    let rules = log["runs"][0]["tool"]["driver"]["rules"].as_array().expect("rules");
    for result in results {
        let at = usize::try_from(result["ruleIndex"].as_u64().expect("an index")).expect("small");
        assert_eq!(rules[at]["id"], result["ruleId"]);
        let region = &result["locations"][0]["physicalLocation"]["region"];
        assert!(region["startLine"].as_u64() >= Some(1) && region["startColumn"].as_u64() >= Some(1));
    }
    assert!(results.iter().any(|result| result["fixes"].is_array()), "some carry a fix");
    assert!(results.iter().any(|result| result["relatedLocations"].is_array()), "some carry other places");
}

/// The validation above can fail: a log with a wrong level is refused.
#[test]
fn the_schema_refuses_what_is_no_sarif() {
    let schema = sarif_schema();
    let folder = bench(&[("rolls.miche", ROLLS)]);
    let mut log: Value =
        serde_json::from_str(&out(&check(folder.path(), &["rolls.miche", "--format", "sarif"]))).expect("JSON");
    assert_eq!(faults(&schema, &log), Vec::<String>::new());
    log["runs"][0]["results"][0]["level"] = "advice".into();
    assert_eq!(faults(&schema, &log).len(), 1);
}

#[test]
fn sarif_says_that_a_file_could_not_be_read() {
    let folder = bench(&[("rolls.miche", ROLLS)]);
    let output = check(folder.path(), &["rolls.miche", "none.miche", "--format", "sarif"]);
    assert_eq!(output.status.code(), Some(2));
    let log: Value = serde_json::from_str(&out(&output)).expect("JSON");
    assert_eq!(log["runs"][0]["invocations"][0]["executionSuccessful"], false);
}

#[test]
fn json_has_the_fixed_keys() {
    let folder = bench(&[("rolls.miche", ROLLS)]);
    let output = check(folder.path(), &["rolls.miche", "--format", "json"]);
    assert_eq!(output.status.code(), Some(1));
    let problems: Value = serde_json::from_str(&out(&output)).expect("JSON");
    let unit =
        problems.as_array().expect("a list").iter().find(|problem| problem["check"] == "unknown-unit").expect("it");
    let keys: Vec<&String> = unit.as_object().expect("an object").keys().collect();
    let mut wanted =
        ["check", "severity", "file", "line", "column", "end_line", "end_column", "message", "only", "help", "also"]
            .to_vec();
    wanted.sort_unstable();
    let mut keys: Vec<&str> = keys.into_iter().map(String::as_str).collect();
    keys.sort_unstable();
    assert_eq!(keys, wanted);
    assert_eq!((unit["line"].as_u64(), unit["column"].as_u64()), (Some(2), Some(16)));
    assert_eq!((unit["end_line"].as_u64(), unit["end_column"].as_u64()), (Some(2), Some(21)));
    assert_eq!(unit["severity"], "error");
}

#[test]
fn short_lines_are_file_line_column() {
    let folder = bench(&[("rolls.miche", ROLLS)]);
    let text = out(&check(folder.path(), &["rolls.miche", "--format", "short"]));
    assert!(text.contains("rolls.miche:2:16: error[unknown-unit]: `grams` is not a unit\n"), "{text}");
    assert!(text.ends_with("warning\n") || text.contains("1 file: "), "{text}");
}

/// Workflow commands: `%`, line breaks, and in properties `:` and `,` are escaped.
#[test]
fn github_annotations_are_escaped() {
    let folder = bench(&[("a,b: c/rolls.miche", ROLLS)]);
    let text = out(&check(folder.path(), &[".", "--format", "github"]));
    for line in text.lines() {
        assert!(
            line.starts_with("::error ") || line.starts_with("::warning ") || line.starts_with("::notice "),
            "{line}"
        );
    }
    assert!(
        text.contains("file=./a%2Cb%3A c/rolls.miche,line=2,endLine=2,col=16,endColumn=21,title=unknown-unit::"),
        "{text}"
    );
    assert!(!text.contains("% \n") && text.contains("%0AHelp: "), "{text}");
}

#[test]
fn strict_and_allow_change_the_exit_code_only_for_warnings() {
    let folder = bench(&[(
        "rolls.miche",
        "recipe Mole rolls\nflour .... 500 g\nwater .... 300 g\nsalt .... 9 g\nmix: hands 10 min\n    Mix {flour} and {water}.\n",
    )]);
    let code = |args: &[&str]| check(folder.path(), args).status.code();
    assert_eq!(code(&["rolls.miche"]), Some(0));
    assert_eq!(code(&["rolls.miche", "--strict"]), Some(1));
    assert_eq!(code(&["rolls.miche", "--strict", "--allow", "never-used"]), Some(0));
    let wrong = check(folder.path(), &["rolls.miche", "--allow", "never-use"]);
    assert_eq!(wrong.status.code(), Some(2));
    assert!(String::from_utf8_lossy(&wrong.stderr).contains("did you mean `never-used`?"));
}

#[test]
fn a_folder_is_walked_in_one_order_and_git_is_heeded() {
    let rolls = "recipe Rolls\nflour .... 500 grams\n";
    let names: Vec<String> = (0..40).map(|number| format!("{}/r{number:02}.miche", number % 7)).collect();
    let mut files: Vec<(&str, &str)> = names.iter().map(|name| (name.as_str(), rolls)).collect();
    files.push((".gitignore", "skipped/\n"));
    files.push(("skipped/r.miche", rolls));
    files.push((".git/HEAD", "ref: refs/heads/main\n"));
    let folder = bench(&files);
    let first = out(&check(folder.path(), &[".", "--format", "short"]));
    for _ in 0..3 {
        assert_eq!(out(&check(folder.path(), &[".", "--format", "short"])), first);
    }
    let told: Vec<&str> =
        first.lines().filter_map(|line| line.split(':').next()).filter(|name| name.ends_with(".miche")).collect();
    let mut sorted = told.clone();
    sorted.sort_unstable();
    assert_eq!(told, sorted);
    assert!(!first.contains("skipped"), "{first}");
    assert!(first.ends_with("40 files: 40 errors\n"), "{first}");
}

/// The bar of the issue: ten different defects in one file, each found in one run at its place.
#[test]
fn ten_defects_in_one_file_are_found_in_one_run() {
    let text = "\
recipe Ten slips
makes 24 buns
use \"nowhere.miche\"

part dough
strong white flour ..... 1 kg = 2 lb
whole milk ............. 60 %
salt ................... 18 %
instant yeast .......... 1,2 %
caster sugar ........... 50 grams
divide 22 x 78 g, loss 1 %

mix: hands 10 min
    Mix {strong white flour}, {whole mlk}, {salt} and {instant yeast}: {4 min} on low, {8 min} on medium.

part filling
plums .................. 300 g
boil: tend 20 min, using hob
    Simmer {half of plums}.

part buns
per piece
dough .................. 1 piece
filling ................ 40 g

bake: tend 16-14 min, using oven at 190 C = 410 F
    Bake {dough} with {filling}.
    until gold
";
    let folder = bench(&[("ten.miche", text)]);
    let found = out(&check(folder.path(), &["ten.miche", "--format", "short"]));
    for wanted in [
        "ten.miche:3:5: error[missing-use]",
        "ten.miche:6:33: error[two-amounts-disagree]",
        "ten.miche:9:26: error[decimal-comma]",
        "ten.miche:10:29: error[unknown-unit]",
        "ten.miche:11:1: error[pieces-mismatch]",
        "ten.miche:14:32: error[unknown-name]",
        "ten.miche:14:89: warning[times-do-not-add-up]",
        "ten.miche:16:6: error[part-short]",
        "ten.miche:18:1: warning[no-sign]",
        "ten.miche:19:21: warning[not-all-used]",
        "ten.miche:26:12: error[impossible-number]",
        "ten.miche:26:45: error[two-amounts-disagree]",
    ] {
        assert!(found.contains(wanted), "{wanted} is missing:\n{found}");
    }
}
