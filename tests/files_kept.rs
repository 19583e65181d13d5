//! What is written never takes the place of what was read, folders are walked within their project, and nothing that is no
//! file is waited for.

// Helpers outside a test function fail a test by panicking, as the tests do.
#![allow(clippy::expect_used, clippy::panic)]
#![cfg(unix)]

use std::fs;
use std::os::unix::fs::symlink;
use std::path::Path;
use std::process::{Command, Output, Stdio};
use std::time::{Duration, Instant};

const ROLLS: &str = "recipe Rolls\nuse \"larder.miche\"\nmakes 4 rolls\nplain flour .... 400 g\nwater .... 60 %\n\
                     mix: hands 5 min\n    Mix {plain flour} and {water}.\n    until smooth\n";
const LARDER: &str = "kitchen Larder\ningredient plain flour\n    costs 2 EUR per kg\n";

fn folder() -> tempfile::TempDir {
    let folder = tempfile::tempdir().expect("a folder");
    fs::write(folder.path().join("rolls.miche"), ROLLS).expect("written");
    fs::write(folder.path().join("larder.miche"), LARDER).expect("written");
    folder
}

/// Runs a command that must end by itself within a time, however slow the machine is.
fn run(folder: &Path, arguments: &[&str]) -> Output {
    let mut child = Command::new(env!("CARGO_BIN_EXE_miche"))
        .current_dir(folder)
        .args(arguments)
        .stdin(Stdio::null())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .expect("it starts");
    let clock = Instant::now();
    while child.try_wait().expect("it can be asked").is_none() {
        if clock.elapsed() > Duration::from_secs(60) {
            let _ = child.kill();
            panic!("{arguments:?} waits");
        }
        std::thread::sleep(Duration::from_millis(10));
    }
    child.wait_with_output().expect("it ended")
}

fn said(output: &Output) -> String {
    String::from_utf8_lossy(&output.stderr).into_owned()
}

/// A name that is no text, or holds a line break, is shown otherwise than it is; the file of that name is mended all the same,
/// no other, and what is said of it is one line.
#[test]
fn a_file_of_any_name_is_mended_and_named_in_one_line() {
    use std::os::unix::ffi::OsStrExt;
    let folder = tempfile::tempdir().expect("a folder");
    let names = [b"caf\xe9.miche".as_slice(), "caf\u{fffd}.miche".as_bytes(), b"a\nb.miche", b"-x.miche"];
    let names = names.map(|name| folder.path().join(std::ffi::OsStr::from_bytes(name)));
    for (number, name) in (1..).zip(&names) {
        fs::write(name, format!("recipe R{number}\nsalt\u{200B} .... {number} g\nwater   .. 1 g\n")).expect("written");
    }
    let problems = run(folder.path(), &["check", "."]);
    let shown = String::from_utf8_lossy(&problems.stderr).into_owned() + &String::from_utf8_lossy(&problems.stdout);
    assert!(shown.contains("a b.miche:") && !shown.contains("a\nb.miche"), "{shown}");
    let mended = run(folder.path(), &["check", "--fix", "--format", "short", "."]);
    let tidied = run(folder.path(), &["tidy", "."]);
    assert!(tidied.status.success(), "{mended:?} {tidied:?}");
    let shown = String::from_utf8_lossy(&tidied.stdout).into_owned();
    assert!(shown.lines().all(|line| line.starts_with("tidied ./")), "{shown}");
    for (number, name) in (1..).zip(&names) {
        let text = fs::read_to_string(name).expect("there");
        let salt = text.lines().nth(1).unwrap_or_default();
        assert!(
            text.starts_with(&format!("recipe R{number}\n")) && salt.ends_with(&format!(". {number} g")),
            "{text:?}"
        );
        // Two files that are shown by one name cannot be told apart, and are left alone.
        let alike = name.to_string_lossy().contains('\u{fffd}');
        assert!(alike || !text.contains('\u{200B}'), "{text:?}");
    }
}

/// Every command that writes into a file, each over its source under many names, and over what the source uses.
#[test]
fn nothing_that_was_read_is_written_over() {
    let folder = folder();
    let path = folder.path();
    fs::create_dir(path.join("below")).expect("made");
    symlink("rolls.miche", path.join("link.md")).expect("linked");
    symlink("link.md", path.join("link of link.md")).expect("linked");
    symlink(".", path.join("here")).expect("linked");
    fs::hard_link(path.join("rolls.miche"), path.join("twin.md")).expect("linked");
    symlink("larder.miche", path.join("larder.md")).expect("linked");
    fs::write(path.join("there is.txt"), "plain flour .... 2 kg\nwater .... 2 kg\n").expect("written");
    fs::write(path.join("other.miche"), "recipe Other\n").expect("written");
    fs::write(path.join("rolls.bakes"), "bakes of \"rolls.miche\"\n").expect("written");
    fs::write(path.join("day.miche"), "day Monday\nkitchen\n").expect("written");
    let whole = path.join("rolls.miche").display().to_string();
    let targets = [
        "rolls.miche",
        "./rolls.miche",
        "below/../rolls.miche",
        "here/rolls.miche",
        whole.as_str(),
        "link.md",
        "link of link.md",
        "twin.md",
        "larder.md",
        "larder.miche",
        "other.miche",
        "rolls.bakes",
    ];
    let commands: [&[&str]; 7] = [
        &["card", "rolls.miche", "--format", "markdown"],
        &["list", "rolls.miche", "--format", "markdown"],
        &["label", "rolls.miche", "--format", "markdown"],
        &["cost", "rolls.miche", "--format", "markdown"],
        &["stock", "rolls.miche", "--have", "plain flour=2 kg", "--format", "markdown"],
        &["plan", "rolls.miche", "--format", "markdown"],
        &["diff", "rolls.miche", "larder.miche", "--format", "markdown"],
    ];
    let before = |name: &str| fs::read(path.join(name)).expect("there");
    let files = ["rolls.miche", "twin.md", "larder.miche", "other.miche", "rolls.bakes", "there is.txt"];
    let contents: Vec<Vec<u8>> = files.iter().map(|name| before(name)).collect();
    let unchanged = |what: &dyn std::fmt::Debug| {
        for (name, content) in files.iter().zip(&contents) {
            assert!(before(name) == *content, "{what:?} changed {name}");
        }
    };
    for command in commands {
        for target in targets {
            let arguments: Vec<&str> = command.iter().copied().chain(["-o", target]).collect();
            let output = run(path, &arguments);
            assert_eq!(output.status.code(), Some(2), "{arguments:?}: {output:?}");
            unchanged(&arguments);
        }
    }
    for arguments in [
        &["stock", "rolls.miche", "--from", "there is.txt", "-o", "there is.txt"][..],
        &["card", "rolls.miche", "--format", "html", "-o", "rolls.miche"],
        &["card", "rolls.miche", "--format", "pdf", "-o", "link.md"],
        &["new", "--from", "there is.txt", "-o", "there is.txt"],
        &["new", "Rolls", "--yes", "-o", "rolls.miche"],
        &["new", "Rolls", "--yes", "-o", "link.md"],
    ] {
        let output = run(path, arguments);
        assert_eq!(output.status.code(), Some(2), "{arguments:?}: {output:?}");
        unchanged(&arguments);
    }
    // Standard input may be that file, too.
    let input = fs::File::open(path.join("rolls.miche")).expect("opened");
    let output = Command::new(env!("CARGO_BIN_EXE_miche"))
        .current_dir(path)
        .args(["card", "-", "--format", "markdown", "-o", "twin.md"])
        .stdin(input)
        .output()
        .expect("it runs");
    assert_eq!(output.status.code(), Some(2), "{output:?}");
    unchanged(&"standard input");
    let output = run(path, &["card", "rolls.miche", "-o", "card.md"]);
    assert_eq!(output.status.code(), Some(0), "{output:?}");
    let output = run(path, &["card", "rolls.miche", "-o", "card.md"]);
    assert_eq!(output.status.code(), Some(0), "an old card is written over: {output:?}");
}

/// A file with several names is not parted from itself.
#[test]
fn hard_links_are_not_parted() {
    let folder = folder();
    let path = folder.path();
    let untidy = ROLLS.replace("400 g", "0,4 kg");
    fs::write(path.join("rolls.miche"), &untidy).expect("written");
    fs::hard_link(path.join("rolls.miche"), path.join("twin.miche")).expect("linked");
    for arguments in [&["tidy", "rolls.miche"][..], &["tidy", "."], &["check", "--fix", "rolls.miche"]] {
        let output = run(path, arguments);
        assert_eq!(output.status.code(), Some(2), "{arguments:?}: {output:?}");
        assert!(said(&output).contains("2 names on the disk"), "{}", said(&output));
        for name in ["rolls.miche", "twin.miche"] {
            assert_eq!(fs::read_to_string(path.join(name)).expect("there"), untidy, "{arguments:?}");
        }
    }
}

/// A link in a folder does not lead out of the project that the folder lies in.
#[test]
fn a_walk_stays_in_its_project() {
    let outside = tempfile::tempdir().expect("a folder");
    let secret = "recipe  Secret\nwater .. 0,5 kg\n";
    fs::write(outside.path().join("secret.miche"), secret).expect("written");
    fs::write(outside.path().join("plain.txt"), secret).expect("written");
    let folder = folder();
    let path = folder.path();
    fs::create_dir(path.join("below")).expect("made");
    symlink(outside.path().join("secret.miche"), path.join("a.miche")).expect("linked");
    symlink(outside.path().join("plain.txt"), path.join("b.miche")).expect("linked");
    symlink(outside.path(), path.join("folder")).expect("linked");
    symlink(outside.path(), path.join("folder.miche")).expect("linked");
    symlink("/proc/self/environ", path.join("environment.miche")).expect("linked");
    symlink("/dev/zero", path.join("zero.miche")).expect("linked");
    symlink("../rolls.miche", path.join("below/rolls again.miche")).expect("linked");
    symlink("nowhere.miche", path.join("nowhere.miche")).expect("linked");
    for arguments in [
        &["check", "."][..],
        &["check", "--fix", "--dry-run", "."],
        &["check", "--fix", "."],
        &["tidy", "."],
        &["tidy", "--check", "."],
        &["diff", ".", "."],
    ] {
        let output = run(path, arguments);
        let text = String::from_utf8_lossy(&output.stdout).into_owned() + &said(&output);
        assert!(!text.contains("PATH=") && !text.to_lowercase().contains("secret"), "{arguments:?}: {text}");
        assert!(output.status.code().is_some_and(|code| code < 2), "{arguments:?}: {text}");
        for name in ["secret.miche", "plain.txt"] {
            assert_eq!(fs::read_to_string(outside.path().join(name)).expect("there"), secret, "{arguments:?}");
        }
    }
    // In a repository a link may lead elsewhere in it.
    fs::create_dir(path.join(".git")).expect("made");
    symlink("../larder.miche", path.join("below/larder.miche")).expect("linked");
    let output = run(path, &["check", "--format", "json", "below"]);
    assert!(output.status.code().is_some_and(|code| code < 2), "{output:?}");
}

/// A pipe or a device is refused wherever a file is wanted, and nobody waits for its other end.
#[test]
fn pipes_and_devices_are_not_waited_for() {
    let folder = folder();
    let path = folder.path();
    for name in ["pipe.miche", "pipe.md", "pipe"] {
        assert!(Command::new("mkfifo").arg(path.join(name)).status().is_ok_and(|status| status.success()));
    }
    fs::write(path.join("uses.miche"), ROLLS.replace("larder.miche", "pipe.miche")).expect("written");
    fs::write(path.join("makes.miche"), "day Monday\nmake \"pipe.miche\"\n").expect("written");
    let name = "pipe.miche";
    for arguments in [
        &["check", name][..],
        &["check", "--fix", name],
        &["check", "/dev/zero"],
        &["check", "/dev/tty"],
        &["card", name],
        &["card", "/dev/random"],
        &["list", name],
        &["label", name],
        &["cost", name],
        &["stock", name, "--have", "water=1 kg"],
        &["stock", "rolls.miche", "--from", "pipe"],
        &["plan", name],
        &["sums", name],
        &["tidy", name],
        &["tidy", "--check", name],
        &["diff", name, "rolls.miche"],
        &["diff", "rolls.miche", name],
        &["merge", name, "rolls.miche", "larder.miche"],
        &["merge", "larder.miche", "rolls.miche", name],
        &["history", name],
        &["bakes", name],
        &["bakes", "new", name],
        &["swap", name, "water", "for", "milk", "--write"],
        &["aim", name, "--write"],
        &["new", "--from", "pipe", "-o", "-"],
        &["card", "uses.miche"],
        &["card", "makes.miche"],
        &["card", "rolls.miche", "--format", "markdown", "-o", "pipe.md"],
    ] {
        let output = run(path, arguments);
        assert!(output.status.code().is_some_and(|code| code > 0), "{arguments:?}: {output:?}");
        assert!(!said(&output).is_empty(), "{arguments:?}");
    }
    // Git gives up on all files when a converter fails, so this one says it in the text that it hands back.
    let converted = run(path, &["diff", "--textconv", name]);
    assert!(converted.status.success() && String::from_utf8_lossy(&converted.stdout).contains("not read as a formula"));
    // In a folder they are no files of it.
    assert_eq!(run(path, &["tidy", "--check", "."]).status.code().map(|code| code < 2), Some(true));
    // Somebody who reads the other end gets the card.
    let reader = Command::new("cat").arg(path.join("pipe.md")).stdout(Stdio::piped()).spawn().expect("it starts");
    let mut written = run(path, &["card", "rolls.miche", "--format", "markdown", "-o", "pipe.md"]);
    for _ in 0..50 {
        if written.status.success() {
            break;
        }
        std::thread::sleep(Duration::from_millis(20));
        written = run(path, &["card", "rolls.miche", "--format", "markdown", "-o", "pipe.md"]);
    }
    assert!(written.status.success(), "{written:?}");
    let read = reader.wait_with_output().expect("it ends");
    assert!(String::from_utf8_lossy(&read.stdout).contains("Rolls"));
}

/// What runs that were killed have left goes away with the next run that writes there, and two runs at once do not disturb
/// each other.
#[test]
fn leftovers_go_with_the_next_run() {
    let folder = folder();
    let path = folder.path();
    let mut child = Command::new("true").spawn().expect("it starts");
    let dead = child.id();
    child.wait().expect("it ends");
    fs::write(path.join(format!(".miche-{dead}-a1B2c3")), "half a card").expect("written");
    let runs: Vec<_> = (0..6)
        .map(|number| {
            Command::new(env!("CARGO_BIN_EXE_miche"))
                .current_dir(path)
                .args(["card", "rolls.miche", "-o", &format!("card{}.md", number % 3)])
                .spawn()
                .expect("it starts")
        })
        .collect();
    for mut run in runs {
        assert!(run.wait().expect("it ends").success());
    }
    let mut names: Vec<String> =
        fs::read_dir(path).expect("a folder").filter_map(|entry| entry.ok()?.file_name().into_string().ok()).collect();
    names.sort();
    assert_eq!(names, ["card0.md", "card1.md", "card2.md", "larder.miche", "rolls.miche"]);
}

/// Nothing that moves what stands behind it passes through a diff, not even a tab.
#[test]
fn a_tab_does_not_pass_through() {
    let folder = folder();
    fs::write(
        folder.path().join("tab.miche"),
        "recipe\tRolls\nflour ....\t500 grams\t# a\tb\nweigh: hands 1 min\n\tWeigh\t{flour}.\n",
    )
    .expect("written");
    for arguments in [
        &["check", "--fix", "--dry-run", "tab.miche"][..],
        &["check", "tab.miche"],
        &["check", "--format", "short", "tab.miche"],
        &["check", "--format", "github", "tab.miche"],
        &["card", "tab.miche", "--format", "text"],
    ] {
        let output = run(folder.path(), arguments);
        assert!(!output.stdout.contains(&b'\t') && !output.stderr.contains(&b'\t'), "{arguments:?}: {output:?}");
    }
}

/// What a disk refuses is said in words, without the number of the system's error and without a name that was only for a moment.
#[test]
fn what_a_disk_refuses_is_said_in_words() {
    let folder = folder();
    let long = format!("{}.md", "a".repeat(300));
    let output = run(folder.path(), &["card", "rolls.miche", "-o", &long]);
    assert_eq!(output.status.code(), Some(2));
    assert!(said(&output).contains("its name is too long") && !said(&output).contains("os error"), "{}", said(&output));
}
