//! The command line as a whole: its help, what a shell completes, the manual pages, and the schemas of what is written.

// Helpers outside a test function fail a test by panicking, as the tests do.
#![allow(clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use serde_json::Value;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

fn root() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR"))
}

fn miche(arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_miche"))
        .current_dir(root())
        .env("TZ", "UTC")
        .args(arguments)
        .output()
        .expect("the program starts")
}

fn printed(arguments: &[&str]) -> String {
    let output = miche(arguments);
    assert!(output.status.success(), "{arguments:?}: {}", String::from_utf8_lossy(&output.stderr));
    String::from_utf8(output.stdout).expect("UTF-8")
}

/// The names of the commands, as the help lists them.
fn commands() -> Vec<String> {
    let help = printed(&["--help"]);
    let listed = help.split("Options:").next().expect("a list");
    let names = listed.lines().filter_map(|line| line.strip_prefix("  ")).filter(|line| !line.starts_with(' '));
    names.filter_map(|line| line.split_whitespace().next()).map(str::to_owned).collect()
}

#[test]
fn the_help_lists_the_commands_by_the_work() {
    let help = printed(&["--help"]);
    let heads: Vec<&str> = help.lines().filter(|line| !line.starts_with(' ') && line.ends_with(':')).collect();
    assert_eq!(heads, ["Write:", "Check:", "Make:", "Plan:", "Publish:", "Sell:", "Review:", "Options:"], "{help}");
    assert!(commands().len() >= 17, "{help}");
    assert_eq!(printed(&["help"]), help);
    assert!(help.contains("Exit status: 0 fine, 1 errors in a recipe, 2 wrong use"), "{help}");
    for command in commands() {
        assert!(printed(&[&command, "--help"]).contains(&format!("Usage: miche {command}")), "{command}");
    }
}

#[test]
fn a_shell_completes_commands_and_options() {
    for shell in ["bash", "zsh", "fish", "powershell"] {
        let script = printed(&["setup", "shell", shell]);
        for command in commands() {
            assert!(script.contains(&command), "{shell}: {command}");
        }
        assert!(script.contains("pieces"), "{shell}");
    }
    let unknown = miche(&["setup", "shell", "abacus"]);
    assert_eq!(unknown.status.code(), Some(2));
}

/// What bash really offers: its own completion is asked.
#[test]
fn bash_offers_what_begins_so() {
    let folder = tempfile::tempdir().expect("a folder");
    let to = folder.path().to_str().expect("UTF-8");
    assert!(miche(&["setup", "shell", "bash", "--to", to]).status.success());
    let ask = |words: &str, at: usize| {
        let script = format!(
            "for file in {to}/*; do source $file; done; COMP_WORDS=({words}); COMP_CWORD={at}; \
             _miche miche \"${{COMP_WORDS[$COMP_CWORD]}}\" miche; echo ${{COMPREPLY[@]}}"
        );
        let output = Command::new("bash").args(["--norc", "-c", &script]).output().expect("bash");
        assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
        String::from_utf8(output.stdout).expect("UTF-8").trim().to_owned()
    };
    assert_eq!(ask("miche hist", 1), "history");
    assert_eq!(ask("miche card --pie", 2), "--pieces");
    assert_eq!(ask("miche setup m", 2), "man");
}

#[test]
fn every_command_has_its_manual_page() {
    let folder = tempfile::tempdir().expect("a folder");
    let to = folder.path().join("man1");
    let output = miche(&["setup", "man", "--to", to.to_str().expect("UTF-8")]);
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    let page = |name: &str| std::fs::read_to_string(to.join(name)).unwrap_or_else(|error| panic!("{name}: {error}"));
    assert!(page("miche.1").contains(".TH miche 1"));
    for command in commands() {
        let text = page(&format!("miche-{command}.1"));
        assert!(text.contains(".SH OPTIONS"), "{command}");
    }
    assert!(page("miche-card.1").contains("\\-\\-pieces"));
    assert!(page("miche-setup-git.1").contains("\\-\\-pre\\-commit"));
    // Nobody looks for a page that no folder takes.
    std::fs::write(folder.path().join("file"), "").expect("written");
    let into_a_file = folder.path().join("file/man1");
    let output = miche(&["setup", "man", "--to", into_a_file.to_str().expect("UTF-8")]);
    assert_eq!(output.status.code(), Some(2));
}

/// The commands that have a schema: those that the program names when it is asked for one that has none.
fn documents() -> Vec<String> {
    let output = miche(&["explain", "--json-schema", "nothing"]);
    assert_eq!(output.status.code(), Some(2));
    let said = String::from_utf8(output.stderr).expect("UTF-8");
    let (_, list) = said.trim().rsplit_once(": ").expect("a list");
    list.split(", ").map(str::to_owned).collect()
}

#[test]
fn the_published_schemas_are_current() {
    let folder = root().join("grammar/schema");
    let mut published: Vec<String> = std::fs::read_dir(&folder)
        .map(|all| all.map(|one| one.expect("an entry").file_name().to_string_lossy().into_owned()).collect())
        .unwrap_or_default();
    published.sort();
    let mut wanted: Vec<String> = documents().iter().map(|command| format!("{command}.json")).collect();
    wanted.sort();
    let update = std::env::var_os("UPDATE").is_some();
    if update {
        std::fs::create_dir_all(&folder).expect("a folder");
    } else {
        assert_eq!(published, wanted);
    }
    for command in documents() {
        let now = printed(&["explain", "--json-schema", &command]);
        let path = folder.join(format!("{command}.json"));
        if update {
            std::fs::write(&path, &now).expect("written");
        }
        let written = std::fs::read_to_string(&path).expect("a schema");
        assert!(written == now, "{path:?} is not current: run `UPDATE=1 cargo test --test command_line`");
    }
}

/// The schema of a command, as strict as it can be: what it does not name may not be there.
fn strict(command: &str) -> jsonschema::Validator {
    let path = root().join(format!("grammar/schema/{command}.json"));
    let text = std::fs::read_to_string(&path).expect("a schema");
    let mut schema: Value = serde_json::from_str(&text).expect("JSON");
    close(&mut schema);
    jsonschema::draft202012::new(&schema).expect("a schema")
}

fn close(schema: &mut Value) {
    match schema {
        Value::Object(map) => {
            if map.contains_key("properties") && map.get("type").is_some_and(Value::is_string) {
                map.insert("additionalProperties".to_owned(), false.into());
            }
            map.values_mut().for_each(close);
        }
        Value::Array(list) => list.iter_mut().for_each(close),
        _ => {}
    }
}

fn examples() -> Vec<String> {
    let all = std::fs::read_dir(root().join("examples")).expect("examples");
    let mut files: Vec<PathBuf> = all.map(|one| one.expect("an entry").path()).collect();
    files.retain(|path| path.extension().is_some_and(|extension| extension == "miche"));
    files.sort();
    files.iter().map(|path| path.strip_prefix(root()).unwrap_or(Path::new("")).display().to_string()).collect()
}

/// Holds what a command writes of each example against its schema. Kitchens, larders and days are not for every command.
fn hold(command: &str, arguments: &[&str]) {
    hold_some(command, arguments, 10);
}

fn hold_some(command: &str, arguments: &[&str], least: usize) {
    let schema = strict(command);
    let mut held = 0;
    for file in examples() {
        let output = miche(&[&[command, &file], arguments].concat());
        if !output.status.success() {
            continue;
        }
        let written: Value = serde_json::from_slice(&output.stdout).expect("JSON");
        let faults: Vec<String> =
            schema.iter_errors(&written).map(|error| format!("{}: {error:.300}", error.instance_path())).collect();
        assert!(faults.is_empty(), "miche {command} {file}: {faults:#?}");
        held += 1;
    }
    assert!(held >= least, "{command}: only {held} of the examples were held against the schema");
}

#[test]
fn what_is_written_of_the_examples_is_what_the_schemas_say() {
    for command in ["card", "list", "cost", "label", "sums"] {
        hold(command, &["--format", "json"]);
    }
    hold_some("aim", &["--format", "json"], 1);
    hold_some("stock", &["--have", "strong white flour=50 kg", "--format", "json"], 5);
    hold("plan", &["--ready", "2027-04-17 07:00", "--zone", "UTC", "--limit", "2000 steps", "--format", "json"]);
}

/// Problems are written in spite of themselves: the wrong files of the checks have them all.
#[test]
fn problems_and_changes_are_what_the_schemas_say() {
    let output = miche(&["check", "tests/wrong", "--format", "json"]);
    let problems: Value = serde_json::from_slice(&output.stdout).expect("JSON");
    assert!(problems.as_array().is_some_and(|all| all.len() > 50));
    let faults: Vec<String> = strict("check")
        .iter_errors(&problems)
        .map(|error| format!("{}: {error:.300}", error.instance_path()))
        .collect();
    assert!(faults.is_empty(), "{faults:#?}");
    let schema = strict("diff");
    for pair in examples().windows(2) {
        let output = miche(&["diff", &pair[0], &pair[1], "--format", "json"]);
        if let Ok(changes) = serde_json::from_slice::<Value>(&output.stdout) {
            let faults: Vec<String> =
                schema.iter_errors(&changes).map(|error| format!("{}: {error:.300}", error.instance_path())).collect();
            assert!(faults.is_empty(), "{pair:?}: {faults:#?}");
        }
    }
}

#[test]
fn a_history_is_what_the_schema_says() {
    let folder = tempfile::tempdir().expect("a folder");
    let git = |arguments: &[&str]| {
        let output = Command::new("git")
            .current_dir(folder.path())
            .args(["-c", "user.name=Ada", "-c", "user.email=ada@pier.example"])
            .args(arguments)
            .output()
            .expect("git");
        assert!(output.status.success(), "{arguments:?}: {}", String::from_utf8_lossy(&output.stderr));
    };
    git(&["init", "-q"]);
    let loaf = std::fs::read_to_string(root().join("examples/harbour-levain-loaf.miche")).expect("an example");
    let broken = "recipe Loaf\nwhat is this\n";
    for text in [loaf.as_str(), broken, loaf.as_str()] {
        std::fs::write(folder.path().join("loaf.miche"), text).expect("written");
        git(&["add", "-A"]);
        git(&["commit", "-q", "-m", "Another"]);
    }
    let output = Command::new(env!("CARGO_BIN_EXE_miche"))
        .current_dir(folder.path())
        .args(["history", "loaf.miche", "--format", "json"])
        .output()
        .expect("the program starts");
    let history: Value = serde_json::from_slice(&output.stdout).expect("JSON");
    let faults: Vec<String> = strict("history")
        .iter_errors(&history)
        .map(|error| format!("{}: {error:.300}", error.instance_path()))
        .collect();
    assert!(faults.is_empty(), "{faults:#?}");
}

/// The package is built by the system's own tool and read back by it.
#[test]
fn a_debian_package_holds_program_completions_and_manual() {
    if Command::new("dpkg-deb").arg("--version").output().is_err() {
        // Only the systems that use such packages have the tool.
        return;
    }
    let folder = tempfile::tempdir().expect("a folder");
    let package = folder.path().join("miche.deb");
    let output = Command::new("bash")
        .arg(root().join("tests/scripts/debian.sh"))
        .args([Path::new(env!("CARGO_BIN_EXE_miche")), &package])
        // A program with all its debug information is large.
        .env("DPKG_DEB_COMPRESSOR_TYPE", "none")
        .output()
        .expect("bash");
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    let read = |how: &str| {
        let output = Command::new("dpkg-deb").arg(how).arg(&package).output().expect("dpkg-deb");
        assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
        String::from_utf8(output.stdout).expect("UTF-8")
    };
    let contents = read("--contents");
    for file in [
        "usr/bin/miche",
        "usr/share/man/man1/miche-card.1.gz",
        "usr/share/bash-completion/completions/miche",
        "usr/share/zsh/vendor-completions/_miche",
        "usr/share/fish/vendor_completions.d/miche.fish",
        "usr/share/doc/miche/copyright",
        "usr/share/doc/miche/LANGUAGE.md.gz",
    ] {
        assert!(contents.contains(&format!("./{file}\n")), "{file}:\n{contents}");
    }
    assert!(contents.lines().all(|line| line.contains("root/root")), "{contents}");
    let facts = read("--info");
    assert!(facts.contains(concat!("Version: ", env!("CARGO_PKG_VERSION"))), "{facts}");
}

/// On a terminal of 80 columns no line is wider, so that none is broken within a word: whatever command, on every example, with problems,
/// and with what is told to who asks for something that is not there.
#[test]
fn no_line_is_wider_than_a_terminal() {
    use std::io::Write;
    use std::process::Stdio;
    let python = Command::new("python3").arg("--version").output().is_ok();
    assert!(python || std::env::var_os("CI").is_none(), "under CI there is a Python");
    if !python {
        println!("NOT TESTED: the width of lines on a terminal, for want of python3");
        return;
    }
    let mut all: Vec<Vec<String>> = Vec::new();
    let mut add = |words: &[&str]| all.push(words.iter().map(|word| (*word).to_owned()).collect());
    for file in examples() {
        for words in [&["card"][..], &["label", "--report"], &["cost"], &["sums"]] {
            add(&[words, &[&file]].concat());
        }
    }
    let [buns, day] = ["examples/rhubarb-crumb-buns.miche", "examples/market-day.miche"];
    for words in [
        &["list", day][..],
        &["card", buns, "--units", "both"],
        &["label", buns, "--law", "us"],
        &["stock", buns, "--have", "strong white flour=4 kg"],
        &["swap", buns, "whole milk", "for", "skimmed milk powder, water, butter"],
        &["aim", buns],
        &["bakes", "examples/harbour-rolls.miche", "--on", "2027-12-01"],
        &["diff", "examples/harbour-rolls.miche", "examples/quay-baguettes.miche"],
        &["plan", day, "--limit", "20000 steps", "--by", "person"],
        &["plan", buns, "--pieces", "360", "--limit", "20000 steps"],
        &["check", "tests/wrong"],
        &["explain"],
        &["explain", "long-shift"],
        &["explain", "larder"],
        &["explain", "water"],
        &["--help"],
    ] {
        add(words);
    }
    for command in commands() {
        add(&[&command, "--help"]);
    }
    let script = root().join("tests/scripts/at_80_columns.py");
    let mut run = Command::new("python3")
        .args([script.as_os_str(), env!("CARGO_BIN_EXE_miche").as_ref()])
        .current_dir(root())
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .expect("Python starts");
    let asked = serde_json::to_vec(&all).expect("JSON");
    run.stdin.take().expect("a pipe").write_all(&asked).expect("it reads");
    let output = run.wait_with_output().expect("it ends");
    assert!(output.status.success());
    let wide = String::from_utf8(output.stdout).expect("UTF-8");
    // The frame around the lines of a file keeps its crate's look, and a line of a file its length.
    let is_frame = |line: &str| {
        line.contains("\"check tests/wrong\"") && !line.contains("help: ")
            || line.contains("│ ─")
            || line.contains("│ ━")
    };
    let told: Vec<&str> = wide.lines().filter(|line| !is_frame(line)).collect();
    assert!(told.is_empty(), "{} lines, among them {:#?}", told.len(), &told[..told.len().min(8)]);
}
