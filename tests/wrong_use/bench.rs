//! A folder to run the program in, and what it answered.

use std::ffi::OsStr;
use std::fs;
use std::io::{Read, Write};
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::thread;
use std::time::{Duration, Instant};
use tempfile::TempDir;

/// All is well.
pub const FINE: i32 = 0;
/// Errors in the recipe.
pub const ERRORS: i32 = 1;
/// Wrong use, or a file that cannot be read.
pub const TROUBLE: i32 = 2;

/// No answer in this time is a hang.
const PATIENCE: Duration = Duration::from_secs(60);

/// A good recipe, to be spoilt.
pub const ROLLS: &str = "\
recipe Pier rolls
makes 4 rolls

strong white flour ............ 400 g
water ......................... 62 %
salt .......................... 2 %
instant yeast ................. 1 %

mix: hands 10 min
    Mix {strong white flour}, {water}, {salt} and {instant yeast}.
    until smooth
";

/// A folder of its own, which is its own root.
pub struct Bench {
    pub folder: TempDir,
}

/// What the program answered.
pub struct Answer {
    pub code: Option<i32>,
    pub out: String,
    pub err: String,
    pub took: Duration,
}

impl Bench {
    pub fn new() -> Bench {
        let folder = tempfile::tempdir().expect("a folder");
        fs::create_dir(folder.path().join(".git")).expect("a root");
        Bench { folder }
    }

    pub fn with(name: &str, text: impl AsRef<[u8]>) -> Bench {
        let bench = Bench::new();
        bench.write(name, text);
        bench
    }

    pub fn path(&self, name: &str) -> PathBuf {
        self.folder.path().join(name)
    }

    pub fn write(&self, name: impl AsRef<Path>, text: impl AsRef<[u8]>) {
        fs::write(self.folder.path().join(name), text).expect("a file");
    }

    /// Everything in the folder, with its size.
    pub fn contents(&self) -> Vec<(String, u64)> {
        let entries = fs::read_dir(self.folder.path()).expect("a folder");
        let mut all: Vec<(String, u64)> = entries
            .map(|entry| {
                let entry = entry.expect("an entry");
                let size = entry.metadata().expect("its size").len();
                (entry.file_name().to_string_lossy().into_owned(), size)
            })
            .collect();
        all.sort();
        all
    }

    pub fn run<A: AsRef<OsStr>>(&self, args: &[A]) -> Answer {
        self.run_on(args, b"")
    }

    /// Runs the program in the folder with something on its standard input.
    pub fn run_on<A: AsRef<OsStr>>(&self, args: &[A], input: &[u8]) -> Answer {
        let start = Instant::now();
        let mut child = Command::new(env!("CARGO_BIN_EXE_miche"))
            .args(args)
            .current_dir(self.folder.path())
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()
            .expect("the program starts");
        let (mut stdin, mut stdout, mut stderr) =
            (child.stdin.take().expect("in"), child.stdout.take().expect("out"), child.stderr.take().expect("err"));
        let input = input.to_vec();
        // The program may stop reading early: that is its right.
        let feeding = thread::spawn(move || drop(stdin.write_all(&input)));
        let out = thread::spawn(move || {
            let mut bytes = Vec::new();
            stdout.read_to_end(&mut bytes).map(|_| bytes).expect("output")
        });
        let err = thread::spawn(move || {
            let mut bytes = Vec::new();
            stderr.read_to_end(&mut bytes).map(|_| bytes).expect("errors")
        });
        let code = loop {
            if let Some(status) = child.try_wait().expect("a child") {
                break status.code();
            }
            if start.elapsed() > PATIENCE {
                child.kill().expect("it can be stopped");
                panic!("no answer in {PATIENCE:?}");
            }
            thread::sleep(Duration::from_millis(2));
        };
        let took = start.elapsed();
        feeding.join().expect("fed");
        let text = |bytes: Vec<u8>| String::from_utf8(bytes).expect("what is printed is UTF-8");
        let answer = Answer { code, out: text(out.join().expect("out")), err: text(err.join().expect("err")), took };
        answer.holds_no_control_characters();
        answer
    }

    /// What is refused is refused for what is wrong with it: the same command with a right value works.
    pub fn accepts(&self, args: &[&str]) {
        let answer = self.run(args);
        assert_eq!(answer.code, Some(FINE), "{args:?}\n{}", answer.told());
    }

    /// Runs something that must fail, and looks whether anything was written or left behind.
    pub fn refuses<A: AsRef<OsStr> + std::fmt::Debug>(&self, code: i32, args: &[A]) -> Answer {
        let before = self.contents();
        let answer = self.run(args);
        assert_eq!(answer.code, Some(code), "{args:?}\n{}", answer.told());
        assert!(!answer.told().trim().is_empty(), "{args:?}: not a word");
        assert_eq!(self.contents(), before, "{args:?}: something was written");
        answer
    }
}

impl Answer {
    pub fn told(&self) -> String {
        format!("{}{}", self.out, self.err)
    }

    /// Everything below space but the line feed, delete, and U+0080 to U+009F can drive a terminal.
    fn holds_no_control_characters(&self) {
        for text in [&self.out, &self.err] {
            let found = text.chars().find(|character| character.is_control() && *character != '\n');
            assert_eq!(found, None, "in {text:?}");
        }
    }

    pub fn says(&self, words: &[&str]) -> &Answer {
        for word in words {
            assert!(self.told().contains(word), "`{word}` is not in\n{}", self.told());
        }
        self
    }

    /// Whether the number stands there as a word of its own.
    pub fn names_number(&self, number: &str) -> bool {
        self.told()
            .split(|character: char| !character.is_ascii_digit() && character != '.')
            .any(|word| word.trim_matches('.') == number)
    }
}

/// The good recipe with one thing in it replaced.
pub fn rolls_with(from: &str, to: &str) -> String {
    let text = ROLLS.replacen(from, to, 1);
    assert_ne!(text, ROLLS, "`{from}` is not there");
    text
}

/// Wherever the words stand, `miche check` gives an error of that name at that line.
pub fn check_finds(text: &str, check: &str, line: u64) {
    let bench = Bench::with("loaf.miche", text);
    let answer = bench.refuses(ERRORS, &["check", "loaf.miche", "--format", "json"]);
    let found: serde_json::Value = serde_json::from_str(&answer.out).expect("a list");
    let problems = found.as_array().expect("a list");
    let here = problems.iter().any(|problem| problem["check"] == check && problem["line"] == line);
    assert!(here, "no {check} at line {line}:\n{text}\n{found:#}");
    assert!(problems.iter().all(|problem| problem["severity"] != "error" || !problem["message"].is_null()));
    bench.refuses(ERRORS, &["check", "loaf.miche"]).says(&[check, "loaf.miche"]);
    let card = bench.refuses(ERRORS, &["card", "loaf.miche", "-o", "loaf.html"]);
    assert_eq!(card.out, "", "a card came out all the same");
    card.says(&[check]);
}
