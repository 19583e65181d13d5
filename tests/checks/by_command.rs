//! What `check` of one file does not tell is told by the command that stands beside the examples of its check.

use miche::check::{ALL, Check, Run, example_files};
use std::fs;
use std::path::Path;
use std::process::Command;

/// The checks whose problems a command finds, and the command.
fn by_command() -> impl Iterator<Item = (&'static Check, &'static str)> {
    ALL.iter().filter_map(|check| match check.run {
        Run::Command(command) => Some((*check, command)),
        _ => None,
    })
}

/// The words of a command line, where quotation marks hold one together.
fn words(command: &str) -> Vec<String> {
    let within = command.split('"').enumerate();
    within
        .flat_map(|(at, text)| match at % 2 {
            0 => text.split_whitespace().map(str::to_owned).collect(),
            _ => vec![text.to_owned()],
        })
        .collect()
}

fn git(folder: &Path, arguments: &[&str]) {
    let identity = ["-c", "user.name=Test", "-c", "user.email=test@example.org"];
    let run = Command::new("git").current_dir(folder).args(identity).args(arguments).output().expect("git runs");
    assert!(run.status.success(), "git {arguments:?}: {}", String::from_utf8_lossy(&run.stderr));
}

/// All that the command says of an example, in a repository of its own.
fn said_of(example: &str, command: &str) -> String {
    let folder = tempfile::tempdir().expect("a folder");
    for (name, text) in example_files(example) {
        fs::write(folder.path().join(name), text).expect("a file");
    }
    git(folder.path(), &["init", "-q"]);
    git(folder.path(), &["add", "."]);
    git(folder.path(), &["commit", "-q", "-m", "the example"]);
    let words = words(command);
    let (program, arguments) = words.split_first().expect("a program");
    assert_eq!(program, "miche");
    let run = Command::new(env!("CARGO_BIN_EXE_miche")).current_dir(folder.path()).args(arguments).output();
    let run = run.expect("the program starts");
    format!("{}{}", String::from_utf8_lossy(&run.stdout), String::from_utf8_lossy(&run.stderr))
}

#[test]
fn a_command_beside_an_example_finds_it_and_only_there() {
    let mut tried = 0;
    for (check, command) in by_command() {
        let named = format!("[{}]", check.name);
        let said = said_of(check.bad, command);
        assert!(said.contains(&named), "{command} does not tell {named}:\n{said}");
        let said = said_of(check.good, command);
        assert!(!said.contains(&named), "{command} tells {named} of what is right:\n{said}");
        tried += 1;
    }
    assert!(tried > 3, "there are checks that only a command finds");
}
