//! The same input gives the same bytes, wherever, when and for whom it is made.

// Helpers outside a test function fail a test by panicking, as the tests do.
#![allow(clippy::expect_used, clippy::panic)]

#[path = "examples/copy.rs"]
mod copy;

use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

/// A copy of the examples in a folder of its own.
fn examples(at: &Path) -> PathBuf {
    let folder = at.join("examples");
    fs::create_dir_all(folder.join(".git")).expect("made");
    copy::into(&folder);
    folder
}

/// What a command prints, as somebody in such surroundings.
fn made(folder: &Path, arguments: &[&str], zone: &str, language: &str, threads: &str) -> Vec<u8> {
    let output = Command::new(env!("CARGO_BIN_EXE_miche"))
        .current_dir(folder)
        .args(arguments)
        .envs([("TZ", zone), ("LANG", language), ("LC_ALL", language), ("RAYON_NUM_THREADS", threads)])
        .output()
        .expect("it starts");
    assert!(output.status.code().is_some_and(|code| code < 2), "{arguments:?}: {output:?}");
    assert!(!output.stdout.is_empty(), "{arguments:?} prints nothing");
    output.stdout
}

#[test]
fn every_output_is_the_same_everywhere() {
    let here = tempfile::tempdir().expect("a folder");
    let there = tempfile::tempdir().expect("a folder");
    let far = there.path().join("a longer way/to a folder");
    let (here, there) = (examples(here.path()), examples(&far));
    let ready = "2027-04-17 07:00";
    let mut commands: Vec<Vec<&str>> = Vec::new();
    for format in ["text", "markdown", "html", "json"] {
        commands.push(vec!["card", "rhubarb-crumb-buns.miche", "--format", format, "--date", "2027-04-17"]);
        commands.push(vec!["card", "market-day.miche", "--format", format, "--date", "2027-04-17"]);
    }
    for format in ["text", "markdown", "html", "csv", "json"] {
        commands.push(vec!["list", "market-day.miche", "--format", format, "--date", "2027-04-17"]);
    }
    for format in ["text", "json", "ics"] {
        let limit = "2000 steps";
        let zone = "Europe/Oslo";
        commands.push(vec![
            "plan",
            "harbour-rolls.miche",
            "--format",
            format,
            "--ready",
            ready,
            "--limit",
            limit,
            "--zone",
            zone,
        ]);
    }
    for format in ["human", "short", "json", "sarif"] {
        commands.push(vec!["check", ".", "--format", format]);
    }
    commands.push(vec!["diff", "harbour-rolls.miche", "quay-baguettes.miche", "--format", "json"]);
    for command in &commands {
        let one = made(&here, command, "UTC", "C", "1");
        let other = made(&there, command, "Pacific/Auckland", "de_DE.UTF-8", "4");
        assert!(
            one == other,
            "{command:?} differs:\n{}\n{}",
            String::from_utf8_lossy(&one),
            String::from_utf8_lossy(&other)
        );
    }
}
