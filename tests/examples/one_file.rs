//! One text as the only file of a folder, and what the program says of it.

#![allow(dead_code)] // no test needs all of it

use serde_json::Value;
use std::fs;
use std::path::Path;
use std::process::Command;

/// Writes a text to `a.miche`, runs the program beside it, and gives whether it was content and what it said: what stands on standard error
/// where it was not, or `always`.
pub fn run(folder: &Path, text: &str, arguments: &[&str], always: bool) -> (bool, String) {
    fs::write(folder.join("a.miche"), text).expect("a file");
    let output =
        Command::new(env!("CARGO_BIN_EXE_miche")).args(arguments).current_dir(folder).output().expect("it runs");
    let fine = output.status.success();
    let all = if fine && !always { output.stdout } else { [output.stdout, output.stderr].concat() };
    (fine, String::from_utf8(all).expect("UTF-8"))
}

/// As [`run`], in a folder of its own.
pub fn alone(text: &str, arguments: &[&str], always: bool) -> (bool, String) {
    run(tempfile::tempdir().expect("a folder").path(), text, arguments, always)
}

/// What a command prints of a file called `a.miche`, with its problems where it ends in one.
pub fn said(text: &str, arguments: &[&str]) -> String {
    alone(text, arguments, false).1
}

/// The same as data.
pub fn json(text: &str, arguments: &[&str]) -> Value {
    let all = said(text, arguments);
    serde_json::from_str(&all).unwrap_or_else(|_| panic!("no JSON: {all}"))
}
