//! `miche new` on a real terminal (tmux): questions, answers, and what happens when somebody changes their mind.
//!
//! Without tmux these tests print that they were not run; under CI that is a failure.

// Helpers outside a test function fail a test by panicking, as the tests do.
#![allow(clippy::expect_used, clippy::panic)]

#[path = "editor_terminal/screen.rs"]
mod screen;

use screen::{Screen, there_is_tmux};
use std::fs;
use std::path::Path;
use std::process::{Command, Output, Stdio};

fn new(folder: &Path, arguments: &str) -> Screen {
    let program = env!("CARGO_BIN_EXE_miche");
    Screen::start(folder, &format!("'{program}' new {arguments}"), 120, 50, &[("LC_ALL", "C.UTF-8")])
}

fn miche(folder: &Path, arguments: &[&str]) -> Output {
    let mut command = Command::new(env!("CARGO_BIN_EXE_miche"));
    command.args(arguments).current_dir(folder).stdin(Stdio::null()).output().expect("the program starts")
}

fn names(folder: &Path) -> Vec<String> {
    let entries = fs::read_dir(folder).expect("readable");
    entries.map(|entry| entry.expect("readable").file_name().to_string_lossy().into_owned()).collect()
}

#[test]
fn what_is_answered_is_written() {
    if !there_is_tmux() {
        return;
    }
    let folder = tempfile::tempdir().expect("a folder");
    let screen = new(folder.path(), "");
    for (question, answer) in [
        ("What is it called?", "Pier buns"),
        ("How many pieces? [12]", "12"),
        ("What are they? [buns]", ""),
        ("How much flour? [1 kg]", "600 g"),
        ("Which flour? [strong white flour]", ""),
        ("Water, in percent of the flour? [65]", "58"),
        ("Salt, in percent? [2]", "1.8"),
        ("Instant yeast, in percent? [1]", ""),
        ("Anything else, such as butter 10? [no]", "butter 12 %"),
        ("Anything else, such as butter 10? [no]", "caster sugar=8"),
        ("Anything else, such as butter 10? [no]", ""),
        ("Mixed by hand, by machine, or both? [hand]", "both"),
    ] {
        // The question stands on the line where the cursor is: the last one.
        screen.wait(question, |seen| seen.trim_end().ends_with(question));
        screen.line(answer);
    }
    let seen = screen.shows("ended with 0");
    assert!(seen.contains("pier-buns.miche is written"), "{seen}");
    assert_eq!(names(folder.path()), ["pier-buns.miche"]);
    let text = fs::read_to_string(folder.path().join("pier-buns.miche")).expect("readable");
    let squeezed = text.replace("..", "").replace(". ", " ");
    let lines: Vec<String> =
        squeezed.lines().map(|line| line.split_whitespace().collect::<Vec<&str>>().join(" ")).collect();
    for line in [
        "recipe Pier buns",
        "makes 12 buns",
        "choose mixing: machine or hand",
        "strong white flour 600 g",
        "water 58 %",
        "salt 1.8 %",
        "instant yeast 1 %",
        "butter 12 %",
        "caster sugar 8 %",
    ] {
        assert!(lines.iter().any(|found| found == line), "{line}\n{text}");
    }
    let checked = miche(folder.path(), &["check", "--strict", "pier-buns.miche"]);
    assert!(checked.status.success(), "{}", String::from_utf8_lossy(&checked.stdout));
}

#[test]
fn what_cannot_be_used_is_asked_again() {
    if !there_is_tmux() {
        return;
    }
    let folder = tempfile::tempdir().expect("a folder");
    fs::write(folder.path().join("jetty-loaf.miche"), "mine").expect("written");
    let screen = new(folder.path(), "");
    let mut last = String::new();
    for (question, answers) in [
        ("What is it called?", &[("", "a name is"), ("Jetty: loaf", "a name is"), ("Jetty loaf", "already")][..]),
        ("How many pieces? [2]", &[("2.5", "2.5: this is no whole number"), ("none", "none: this is no whole")]),
        ("What are they? [loaves]", &[]),
        (
            "How much flour? [1 kg]",
            &[("lots", "lots: this is no weight"), ("0 g", "0 g: this is no"), ("1 g", "less than 1 g")],
        ),
        ("Which flour? [strong white flour]", &[("#", "#: a name is")]),
        ("Water, in percent of the flour? [65]", &[("-5", "-5: this is no percentage"), ("much", "much: this is no")]),
        ("Salt, in percent? [2]", &[]),
        ("Instant yeast, in percent? [1]", &[]),
        (
            "Anything else, such as butter 10? [no]",
            &[("butter", "butter: write a name and"), ("Salt 1", "there is Salt already")],
        ),
        ("Mixed by hand, by machine, or both? [hand]", &[("spoon", "answer hand, machine or both")]),
    ] {
        screen.wait(question, |seen| seen.trim_end().ends_with(question));
        for (answer, said) in answers {
            screen.line(answer);
            last = screen.wait(said, |seen| seen.contains(said) && seen.trim_end().ends_with(question));
        }
        screen.line(if question.starts_with("What is it") { "Jetty tin loaf" } else { "" });
    }
    let seen = screen.shows("ended with 0");
    assert!(!seen.contains("--"), "questions are not options: {last}");
    let checked = miche(folder.path(), &["check", "--strict", "jetty-tin-loaf.miche"]);
    assert!(checked.status.success(), "{}", String::from_utf8_lossy(&checked.stdout));
    assert_eq!(fs::read_to_string(folder.path().join("jetty-loaf.miche")).expect("readable"), "mine");
}

#[test]
fn whoever_stops_in_the_middle_has_written_nothing() {
    if !there_is_tmux() {
        return;
    }
    for (key, ended) in [("C-c", "ended with 130"), ("C-d", "ended with 2")] {
        let folder = tempfile::tempdir().expect("a folder");
        let screen = new(folder.path(), "");
        screen.shows("What is it called?");
        screen.line("Pier buns");
        screen.shows("How many pieces? [12]");
        screen.line("12");
        screen.shows("What are they?");
        screen.press(key);
        let seen = screen.shows("ended with");
        assert!(seen.contains(ended), "{key}: {seen}");
        assert!(key == "C-c" || seen.contains("\nmiche: there were no more answers, so nothing was written"), "{seen}");
        assert_eq!(names(folder.path()), [""; 0], "{key}");
    }
}

#[test]
fn only_what_was_not_given_is_asked() {
    if !there_is_tmux() {
        return;
    }
    let folder = tempfile::tempdir().expect("a folder");
    let given = "'Quay loaf' --pieces 2 --noun loaves --flour '1 kg' --flour-name 'strong white flour' --water 68 --yeast 0.8 --add butter=3 --mixing hand";
    let screen = new(folder.path(), given);
    screen.shows("Salt, in percent? [2]");
    screen.line("");
    let seen = screen.shows("ended with 0");
    assert_eq!(seen.matches('?').count(), 1, "{seen}");
    // A file that is there already is said before anything is asked.
    let screen = new(folder.path(), "'Quay loaf'");
    let seen = screen.shows("ended with 2");
    assert!(seen.contains("quay-loaf.miche: there is a file of that name already") && !seen.contains('?'), "{seen}");
}

#[test]
fn where_nobody_can_be_asked_it_is_said_what_to_give() {
    let folder = tempfile::tempdir().expect("a folder");
    let made = miche(folder.path(), &["new"]);
    let said = String::from_utf8_lossy(&made.stderr).into_owned();
    assert_eq!(made.status.code(), Some(2));
    for option in ["--pieces", "--noun", "--flour", "--each", "--water", "--salt", "--yeast", "--add", "--mixing"] {
        assert!(said.contains(option), "{option}: {said}");
    }
    assert_eq!(names(folder.path()), [""; 0]);
    let made = miche(folder.path(), &["new", "Pier buns", "--pieces", "12", "--noun", "buns"]);
    let said = String::from_utf8_lossy(&made.stderr).into_owned();
    assert!(made.status.success(), "{said}");
    assert!(said.contains("As usual") && said.contains("--water") && !said.contains("--noun"), "{said}");
    let quiet = miche(folder.path(), &["new", "Pier rolls", "--yes"]);
    assert!(!String::from_utf8_lossy(&quiet.stderr).contains("As usual"));
    // The name says what they are.
    let rolls = fs::read_to_string(folder.path().join("pier-rolls.miche")).expect("readable");
    assert!(rolls.contains("makes 12 rolls"), "{rolls}");
}
