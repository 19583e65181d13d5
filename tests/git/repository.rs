//! A real git repository in a folder of its own, with `miche` on the search path.

// Helpers outside a test function fail a test by panicking, as the tests do.
#![allow(clippy::expect_used, clippy::panic)]

use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

/// 1000 g flour, 650 g water, 20 g salt, 15 g yeast, two loaves of 842 g, 10 + 40 min. The water of the yeast counts, so
/// hydration is near 66 %; salt is 2 %.
pub const LOAF: &str = "recipe Skerrow tin loaf\nmakes 2 loaves\n\npart dough\nwheat flour ................... 1000 g\n\
water ......................... 650 g\nsalt .......................... 20 g\nfresh yeast ................... 15 g\n\
divide 2 x 842 g\n\nmix: hands 10 min\n    Mix {wheat flour}, {water}, {salt} and {fresh yeast}.\nbake: tend 40 min\n    \
Bake until brown.\n";

/// A repository; its folder has a space in its name and goes away with this value.
pub struct Repository {
    folder: tempfile::TempDir,
}

impl Repository {
    /// An empty repository on the branch `main`.
    pub fn new() -> Repository {
        let repository =
            Repository { folder: tempfile::Builder::new().prefix("miche git ").tempdir().expect("a folder") };
        repository.git("2026-01-01", &["init", "-q", "-b", "main"]);
        repository
    }

    /// Where a file of it lies.
    pub fn at(&self, name: &str) -> PathBuf {
        self.folder.path().join(name)
    }

    /// Writes a file.
    pub fn write(&self, name: &str, text: &str) {
        let path = self.at(name);
        fs::create_dir_all(path.parent().expect("a folder")).expect("made");
        fs::write(path, text).expect("written");
    }

    /// Runs a program in one of its folders, on a day.
    pub fn run_in(&self, folder: &str, day: &str, program: &str, arguments: &[&str]) -> Output {
        let binary = Path::new(env!("CARGO_BIN_EXE_miche")).parent().expect("a folder").display();
        let path = format!("{binary}:{}", std::env::var("PATH").expect("a search path"));
        let when = format!("{day}T05:00:00 +0000");
        Command::new(program)
            .args(arguments)
            .current_dir(self.at(folder))
            .env("PATH", path)
            .env("GIT_CONFIG_GLOBAL", "/dev/null")
            .env("GIT_CONFIG_NOSYSTEM", "1")
            .env("GIT_CEILING_DIRECTORIES", std::env::temp_dir())
            .envs([("GIT_AUTHOR_NAME", "Baker"), ("GIT_AUTHOR_EMAIL", "baker@skerrow.example")])
            .envs([("GIT_COMMITTER_NAME", "Baker"), ("GIT_COMMITTER_EMAIL", "baker@skerrow.example")])
            .envs([("GIT_AUTHOR_DATE", &when), ("GIT_COMMITTER_DATE", &when)])
            .output()
            .expect("it runs")
    }

    /// Runs a program in its top folder, on a day.
    pub fn run(&self, day: &str, program: &str, arguments: &[&str]) -> Output {
        self.run_in("", day, program, arguments)
    }

    /// What git prints, which has to succeed.
    pub fn git(&self, day: &str, arguments: &[&str]) -> String {
        printed("git", arguments, self.run(day, "git", arguments))
    }

    /// What `miche` prints, which has to succeed.
    pub fn miche(&self, arguments: &[&str]) -> String {
        let program = env!("CARGO_BIN_EXE_miche");
        printed("miche", arguments, self.run("2026-12-01", program, arguments))
    }

    /// Commits everything with a text of one file.
    pub fn commit(&self, day: &str, subject: &str, name: &str, text: &str) {
        self.write(name, text);
        self.git(day, &["add", "-A"]);
        self.git(day, &["commit", "-q", "-m", subject]);
    }
}

/// What a program printed that has to have succeeded.
pub fn printed(program: &str, arguments: &[&str], output: Output) -> String {
    assert!(output.status.success(), "{program} {arguments:?}: {}", String::from_utf8_lossy(&output.stderr));
    String::from_utf8(output.stdout).expect("UTF-8")
}
