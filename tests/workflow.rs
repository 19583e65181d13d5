//! The ready workflow for a code host, `grammar/workflow.yml`: its scripts are run on a real repository, with a stand-in for
//! the host's own program, and every option that they give `miche` is one that it has.

// Helpers outside a test function fail a test by panicking, as the tests do.
#![allow(clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

const WORKFLOW: &str = include_str!("../grammar/workflow.yml");

const LOAF: &str = "recipe Skerrow tin loaf\nmakes 2 loaves\n\npart dough\nwheat flour ................... 1000 g\n\
water ......................... 650 g\nsalt .......................... 20 g\nfresh yeast ................... 15 g\n\
divide 2 x 842 g\n\nmix: hands 10 min\n    Mix {wheat flour}, {water}, {salt} and {fresh yeast}.\nbake: tend 40 min\n    \
Bake until brown.\n";

/// The steps that run a script: name and script.
fn scripts() -> Vec<(String, String)> {
    let mut found = Vec::new();
    let mut name = String::new();
    let mut lines = WORKFLOW.lines().peekable();
    while let Some(line) = lines.next() {
        let inner = line.trim_start();
        if let Some(said) = inner.strip_prefix("- name: ") {
            name = said.to_owned();
        }
        match inner.strip_prefix("run: ") {
            Some("|") => {
                let indent = line.len() - inner.len();
                let mut script = String::new();
                while let Some(next) = lines.peek() {
                    if !next.trim().is_empty() && next.len() - next.trim_start().len() <= indent {
                        break;
                    }
                    script.push_str(next.trim_start());
                    script.push('\n');
                    lines.next();
                }
                found.push((name.clone(), script));
            }
            Some(script) => found.push((name.clone(), script.to_owned())),
            None => {}
        }
    }
    found
}

fn script(name: &str) -> String {
    let scripts = scripts();
    let found = scripts.iter().find(|(step, _)| step == name);
    found.unwrap_or_else(|| panic!("no step `{name}` in {scripts:?}")).1.clone()
}

/// A repository on its runner.
struct Runner {
    folder: tempfile::TempDir,
}

impl Runner {
    fn new() -> Runner {
        let runner = Runner { folder: tempfile::tempdir().expect("a folder") };
        for folder in ["repository", "temp", "bin"] {
            fs::create_dir(runner.at(folder)).expect("a folder");
        }
        runner.bash("git init -q -b main", &[]);
        runner
    }

    fn at(&self, path: &str) -> PathBuf {
        self.folder.path().join(path)
    }

    fn read(&self, path: &str) -> String {
        fs::read_to_string(self.at(path)).unwrap_or_else(|error| panic!("{path}: {error}"))
    }

    /// Commits a text of the loaf and gives the commit's name.
    fn commit(&self, text: &str) -> String {
        fs::write(self.at("repository/loaf.miche"), text).expect("written");
        let made = self.bash("git add -A; git commit -q --allow-empty -m Loaf; git rev-parse HEAD", &[]);
        String::from_utf8(made.stdout).expect("UTF-8").trim().to_owned()
    }

    /// Runs a script as the host runs it: bash that stops at the first failure, also in a pipe.
    fn bash(&self, script: &str, environment: &[(&str, &str)]) -> Output {
        let miche = Path::new(env!("CARGO_BIN_EXE_miche")).parent().expect("a folder");
        let path = std::env::var("PATH").expect("a search path");
        Command::new("bash")
            .args(["--noprofile", "--norc", "-eo", "pipefail", "-c", script])
            .current_dir(self.at("repository"))
            .env("PATH", format!("{}:{}:{path}", self.at("bin").display(), miche.display()))
            .env("RUNNER_TEMP", self.at("temp"))
            .env("GITHUB_STEP_SUMMARY", self.at("temp/summary.md"))
            .envs([("GIT_CONFIG_GLOBAL", "/dev/null"), ("GIT_CONFIG_NOSYSTEM", "1")])
            .envs([("GIT_AUTHOR_NAME", "Baker"), ("GIT_AUTHOR_EMAIL", "baker@skerrow.example")])
            .envs([("GIT_COMMITTER_NAME", "Baker"), ("GIT_COMMITTER_EMAIL", "baker@skerrow.example")])
            .envs(environment.iter().copied())
            .output()
            .expect("bash runs")
    }

    /// Puts a stand-in for the host's program in place, which notes what it was given and does as `then` says.
    fn stand_in(&self, then: &str) {
        let path = self.at("bin/gh");
        let noted = self.at("temp/gh.txt");
        fs::write(&path, format!("#!/bin/sh\necho \"$@\" >> '{}'\n{then}\n", noted.display())).expect("written");
        self.bash(&format!("chmod +x '{}'", path.display()), &[]);
    }
}

fn fine(output: &Output) {
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
}

#[test]
fn every_option_in_it_is_one_that_miche_has() {
    let mut seen = Vec::new();
    for (step, script) in scripts() {
        for line in script.lines() {
            let mut words = line.split_whitespace();
            if words.next() != Some("miche") {
                continue;
            }
            let command = words.next().expect("a command");
            let help = Command::new(env!("CARGO_BIN_EXE_miche")).args([command, "--help"]).output().expect("it runs");
            assert!(help.status.success(), "{step}: there is no `miche {command}`");
            let help = String::from_utf8(help.stdout).expect("UTF-8");
            let has = |option: &str| help.split(|c: char| !c.is_alphanumeric() && c != '-').any(|word| word == option);
            for option in words.filter(|word| word.starts_with('-')) {
                assert!(has(option), "{step}: `miche {command}` has no {option}\n{help}");
                seen.push(format!("{command} {option}"));
            }
        }
    }
    assert_eq!(seen, ["check --format", "diff --from", "diff --to", "diff --format"]);
}

#[test]
fn problems_are_handed_in_also_when_the_check_fails() {
    let runner = Runner::new();
    runner.commit(LOAF);
    fine(&runner.bash(&script("Check"), &[]));
    runner.commit(&LOAF.replace("650 g", "650 650 gg"));
    let output = runner.bash(&script("Check"), &[]);
    assert_eq!(output.status.code(), Some(1), "an error in a formula makes the step red");
    let sarif: serde_json::Value = serde_json::from_str(&runner.read("temp/miche.sarif")).expect("JSON");
    assert_eq!(sarif["version"], "2.1.0");
    let results = sarif["runs"][0]["results"].as_array().expect("a list");
    assert!(!results.is_empty());
    let place = &results[0]["locations"][0]["physicalLocation"]["artifactLocation"]["uri"];
    assert_eq!(place, "loaf.miche", "the host finds the line by the path from the top");
}

/// A change that breaks an aim makes the step red, with the figure, and the comment says which aim it was.
#[test]
fn a_change_that_breaks_an_aim_is_refused_with_the_figure() {
    let runner = Runner::new();
    let aimed = LOAF.replace("part dough\n", "part dough\naim hydration 64-67 %\n");
    let base = runner.commit(&aimed);
    fine(&runner.bash(&script("Check"), &[]));
    let head = runner.commit(&aimed.replace("650 g", "700 g").replace("842 g", "867 g"));
    let output = runner.bash(&script("Check"), &[]);
    assert_eq!(output.status.code(), Some(1), "a missed aim makes the step red");
    let sarif = runner.read("temp/miche.sarif");
    assert!(sarif.contains("aim-missed") && sarif.contains("hydration of `dough` is 71"), "{sarif}");
    fine(&runner.bash(&script("Say what changed"), &[("BASE", &base), ("HEAD", &head)]));
    let changes = runner.read("temp/changes.md");
    assert!(
        changes.contains("aim now missed") && changes.contains("hydration of dough, wanted 64-67 % of flour: 66"),
        "{changes}"
    );
}

#[test]
fn the_comment_says_what_changed_since_the_branch_began() {
    let runner = Runner::new();
    runner.commit(LOAF);
    runner.bash("git checkout -q -b wetter", &[]);
    let head = runner.commit(&LOAF.replace("650 g", "700 g").replace("842 g", "867 g"));
    // Meanwhile main has moved; that is no change of this branch.
    runner.bash("git checkout -q main", &[]);
    let base = runner.commit(&LOAF.replace(" 20 g", " 25 g").replace("842 g", "845 g"));
    fine(&runner.bash(&script("Say what changed"), &[("BASE", &base), ("HEAD", &head)]));
    let changes = runner.read("temp/changes.md");
    assert!(changes.contains("## Skerrow tin loaf"), "{changes}");
    assert!(changes.contains("650 g") && changes.contains("700 g"), "{changes}");
    assert!(!changes.contains("25 g"), "{changes}");
    assert_eq!(runner.read("temp/summary.md"), changes);

    let body = format!("--body-file {}", runner.at("temp/changes.md").display());
    runner.stand_in("exit 0");
    fine(&runner.bash(&script("Comment"), &[("NUMBER", "7")]));
    assert_eq!(runner.read("temp/gh.txt"), format!("pr comment 7 --edit-last {body}\n"), "a later push rewrites it");
    // The first time there is none to rewrite.
    fs::remove_file(runner.at("temp/gh.txt")).expect("removed");
    runner.stand_in("case \"$*\" in *--edit-last*) exit 1;; esac");
    fine(&runner.bash(&script("Comment"), &[("NUMBER", "7")]));
    let expected = format!("pr comment 7 --edit-last {body}\npr comment 7 {body}\n");
    assert_eq!(runner.read("temp/gh.txt"), expected);
}

#[test]
fn a_change_of_layout_and_one_too_long_for_a_comment_are_said_in_a_sentence() {
    let runner = Runner::new();
    let base = runner.commit(LOAF);
    let head = runner.commit(&LOAF.replace(" .......", " ..."));
    fine(&runner.bash(&script("Say what changed"), &[("BASE", &base), ("HEAD", &head)]));
    assert_eq!(runner.read("temp/changes.md"), "No formula changed in what it means.\n");
    fs::write(runner.at("temp/changes.md"), "x".repeat(70_000)).expect("written");
    runner.stand_in("exit 0");
    fine(&runner.bash(&script("Comment"), &[("NUMBER", "7")]));
    assert!(runner.read("temp/changes.md").starts_with("More formulas changed than a comment can hold"));
}

#[test]
fn nothing_of_a_pull_request_is_pasted_into_a_script() {
    for (step, script) in scripts() {
        assert!(!script.contains("${{"), "{step}: {script}");
    }
    assert_eq!(scripts().len(), 4);
}
