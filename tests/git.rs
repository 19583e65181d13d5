//! `miche` in a real git repository: the drivers are set up, and git's own commands are read.

// Helpers outside a test function fail a test by panicking, as the tests do.
#![allow(clippy::expect_used, clippy::panic)]

use std::fs;
use std::path::Path;
use std::process::{Command, Output};

const LOAF: &str = "recipe Skerrow tin loaf\nmakes 2 loaves\n\npart dough\nwheat flour ................... 1000 g\n\
water ......................... 650 g\nsalt .......................... 20 g\nfresh yeast ................... 15 g\n\
divide 2 x 842 g\n\nmix: hands 10 min\n    Mix {wheat flour}, {water}, {salt} and {fresh yeast}.\nbake: tend 40 min\n    \
Bake until brown.\n";

/// A repository with one committed formula, in a folder with a space in its name.
struct Repository {
    folder: tempfile::TempDir,
}

impl Repository {
    fn new() -> Repository {
        let repository =
            Repository { folder: tempfile::Builder::new().prefix("miche git ").tempdir().expect("a folder") };
        repository.git(&["init", "-q", "-b", "main"]);
        repository.write(LOAF);
        repository.git(&["add", "."]);
        repository.git(&["commit", "-q", "-m", "The loaf"]);
        repository
    }

    fn write(&self, text: &str) {
        fs::write(self.folder.path().join("tin loaf.miche"), text).expect("written");
    }

    fn read(&self) -> String {
        fs::read_to_string(self.folder.path().join("tin loaf.miche")).expect("read")
    }

    fn run(&self, program: &str, arguments: &[&str]) -> Output {
        let binary = Path::new(env!("CARGO_BIN_EXE_miche"));
        let path = format!(
            "{}:{}",
            binary.parent().expect("a folder").display(),
            std::env::var("PATH").expect("a search path")
        );
        Command::new(program)
            .args(arguments)
            .current_dir(self.folder.path())
            .env("PATH", path)
            .env("GIT_CONFIG_GLOBAL", "/dev/null")
            .env("GIT_CONFIG_NOSYSTEM", "1")
            .envs([("GIT_AUTHOR_NAME", "Baker"), ("GIT_AUTHOR_EMAIL", "baker@skerrow.example")])
            .envs([("GIT_COMMITTER_NAME", "Baker"), ("GIT_COMMITTER_EMAIL", "baker@skerrow.example")])
            .output()
            .expect("it runs")
    }

    fn git(&self, arguments: &[&str]) -> String {
        let output = self.run("git", arguments);
        assert!(output.status.success(), "git {arguments:?}: {}", String::from_utf8_lossy(&output.stderr));
        String::from_utf8(output.stdout).expect("UTF-8")
    }

    fn miche(&self, arguments: &[&str]) -> String {
        let output = self.run(env!("CARGO_BIN_EXE_miche"), arguments);
        assert!(output.status.success(), "miche {arguments:?}: {}", String::from_utf8_lossy(&output.stderr));
        String::from_utf8(output.stdout).expect("UTF-8")
    }

    /// Commits `theirs` on a branch of its own and `ours` on main, and merges.
    fn merge(&self, ours: &str, theirs: &str) -> Output {
        self.git(&["checkout", "-q", "-b", "theirs"]);
        self.write(theirs);
        self.git(&["commit", "-q", "-am", "Theirs"]);
        self.git(&["checkout", "-q", "main"]);
        self.write(ours);
        self.git(&["commit", "-q", "-am", "Ours"]);
        self.run("git", &["merge", "-q", "--no-edit", "theirs"])
    }
}

fn wetter() -> String {
    LOAF.replace("650 g", "700 g")
}

#[test]
fn git_diff_speaks_of_the_formula() {
    let repository = Repository::new();
    repository.miche(&["setup", "git"]);
    repository.write(&wetter());
    let shown = repository.git(&["diff"]);
    assert!(shown.contains("tin loaf.miche"), "{shown}");
    assert!(shown.contains("65 %") && shown.contains("70 %"), "hydration: {shown}");
    repository.write(&LOAF.replace(" .......", " ....."));
    let shown = repository.git(&["diff"]);
    assert!(shown.contains("The text changed, the recipe did not."), "{shown}");
}

#[test]
fn git_log_shows_figures_and_no_layout() {
    let repository = Repository::new();
    repository.miche(&["setup", "git"]);
    repository.write(&wetter().replace("salt .....", "salt ..."));
    repository.git(&["commit", "-q", "-am", "Wetter"]);
    for arguments in [&["log", "-p", "-1"][..], &["show"][..]] {
        let shown = repository.git(arguments);
        assert!(shown.contains("+= dough: hydration 71.04 %"), "{shown}");
        assert!(!shown.contains("\n-salt"), "layout only: {shown}");
    }
}

#[test]
fn different_ingredients_merge_and_nothing_is_lost() {
    let repository = Repository::new();
    repository.miche(&["setup", "git"]);
    // Neighbouring lines, which git alone cannot merge.
    let output = repository.merge(&wetter(), &LOAF.replace("20 g", "22 g"));
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    assert_eq!(repository.read(), wetter().replace("20 g", "22 g"));
}

#[test]
fn the_same_ingredient_is_a_conflict_with_both_figures() {
    let repository = Repository::new();
    repository.miche(&["setup", "git"]);
    let output = repository.merge(&wetter(), &LOAF.replace("650 g", "620 g"));
    assert!(!output.status.success());
    let said = String::from_utf8_lossy(&output.stderr).into_owned();
    assert!(said.contains("700 g` here") && said.contains("620 g` there"), "{said}");
    let text = repository.read();
    for part in ["<<<<<<< ours\n", "700 g\n|||||||", "650 g\n=======", "620 g\n>>>>>>> theirs"] {
        assert!(text.contains(part), "{part:?} in {text}");
    }
}

#[test]
fn setting_up_twice_is_setting_up_once_and_can_be_undone() {
    let repository = Repository::new();
    let attributes = repository.folder.path().join(".git/info/attributes");
    fs::create_dir_all(repository.folder.path().join(".git/info")).expect("a folder");
    fs::write(&attributes, "*.png binary\n").expect("written");
    let before = repository.git(&["config", "--local", "--list"]);
    repository.miche(&["setup", "git", "--dry-run"]);
    assert_eq!(repository.git(&["config", "--local", "--list"]), before);
    repository.miche(&["setup", "git"]);
    let once = repository.git(&["config", "--local", "--list"]);
    assert_ne!(once, before);
    repository.miche(&["setup", "git"]);
    assert_eq!(repository.git(&["config", "--local", "--list"]), once);
    assert_eq!(fs::read_to_string(&attributes).expect("read"), "*.png binary\n*.miche diff=miche merge=miche\n");
    repository.miche(&["setup", "git", "--undo"]);
    assert_eq!(repository.git(&["config", "--local", "--list"]), before);
    assert_eq!(fs::read_to_string(&attributes).expect("read"), "*.png binary\n");
}
