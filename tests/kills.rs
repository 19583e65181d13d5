//! Nothing is lost: a process that is killed, a full disk, a folder or file that may not be written, links, and a reader that
//! goes away all leave the old file whole.

// Helpers outside a test function fail a test by panicking, as the tests do.
#![allow(clippy::expect_used, clippy::panic)]
#![cfg(unix)]

use std::fs;
use std::io::Read;
use std::os::unix::fs::{PermissionsExt, symlink};
use std::path::Path;
use std::process::{Command, Output, Stdio};
use std::time::{Duration, Instant};

/// A recipe that is not tidy and has certain mends (the commas), large enough that working on it takes a while.
fn untidy() -> String {
    untidy_of(150)
}

fn untidy_of(parts: usize) -> String {
    let mut text = "recipe   Rolls\n".to_owned();
    for number in 0..parts {
        text.push_str(&format!(
            "part dough {number}\nplain flour .. 1,5 kg\nwater .. 62 %\n\nmix: hands 10 min\n  Mix {{plain flour}} and \
             {{water}}.\n  until smooth\n"
        ));
    }
    text
}

fn miche(folder: &Path, arguments: &[&str]) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_miche"));
    command.current_dir(folder).args(arguments).stdin(Stdio::null()).stdout(Stdio::piped()).stderr(Stdio::piped());
    command
}

fn run(folder: &Path, arguments: &[&str]) -> Output {
    miche(folder, arguments).output().expect("it starts")
}

/// Runs a command that writes a file of so many parts, killing it ever later, until it once got to its end; the file is then always what it
/// was or what it becomes, and never anything between.
fn survives(parts: usize, arguments: &[&str]) {
    let name = "rolls.miche";
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join(name);
    let text = untidy_of(parts);
    let set = || fs::write(&path, &text).expect("written");
    let old = Some(text.clone());
    // The quickest of three: on a busy machine one run by itself may have waited, and every kill would come too late.
    let whole = (0..3).map(|_| {
        set();
        let clock = Instant::now();
        let finished = run(folder.path(), arguments);
        assert!(finished.status.code().is_some_and(|code| code < 2), "{finished:?}");
        clock.elapsed()
    });
    let whole = whole.min().expect("three runs");
    let new = fs::read_to_string(&path).expect("it was written");
    assert_ne!(Some(&new), old.as_ref(), "{arguments:?} writes nothing");
    let (mut killed, mut kept, mut done) = (0, 0, 0);
    let rounds = 24;
    for round in 0..rounds {
        set();
        let mut child =
            miche(folder.path(), arguments).stdout(Stdio::null()).stderr(Stdio::null()).spawn().expect("it starts");
        // Most kills fall near the end, where the writing is.
        std::thread::sleep(whole.mul_f64(0.5 + f64::from(round) / f64::from(rounds) * 0.8));
        let _ = child.kill();
        let status = child.wait().expect("it ends");
        killed += i32::from(status.code().is_none());
        let now = fs::read_to_string(&path).ok();
        assert!(
            now == old || now.as_ref() == Some(&new),
            "{arguments:?}, killed: half a file, {:?}",
            now.map(|text| text.len())
        );
        if now.as_ref() == Some(&new) { done += 1 } else { kept += 1 }
    }
    assert!(killed > 0 && kept + done == rounds, "{arguments:?}: {killed} killed, {kept} kept, {done} done");
}

#[test]
fn a_killed_tidy_leaves_a_whole_file() {
    survives(150, &["tidy", "rolls.miche"]);
}

#[test]
fn a_killed_mend_leaves_a_whole_file() {
    // Each of its rounds checks everything anew, so a smaller file takes as long.
    survives(10, &["check", "--fix", "--format", "short", "rolls.miche"]);
}

#[test]
fn a_killed_card_leaves_a_whole_file_or_none() {
    let good = "recipe Rolls\nmakes 4 rolls\nplain flour .... 400 g\nwater .... 60 %\nmix: hands 5 min\n    Mix {plain flour} and \
                {water}.\n    until smooth\n";
    let folder = tempfile::tempdir().expect("a folder");
    let card = folder.path().join("card.html");
    fs::write(folder.path().join("good.miche"), good).expect("written");
    let write = ["card", "good.miche", "-o", "card.html", "--date", "2027-04-17"];
    let clock = Instant::now();
    assert!(run(folder.path(), &write).status.success());
    let whole = clock.elapsed();
    let new = fs::read_to_string(&card).expect("written");
    let mut killed = 0;
    for round in 0..24_u32 {
        let old = (round % 2 == 0).then_some("an old card");
        let _ = fs::remove_file(&card);
        if let Some(old) = old {
            fs::write(&card, old).expect("written");
        }
        let mut child = miche(folder.path(), &write).spawn().expect("it starts");
        std::thread::sleep(whole.mul_f64(f64::from(round) / 20.0));
        let _ = child.kill();
        killed += i32::from(child.wait().expect("it ends").code().is_none());
        let now = fs::read_to_string(&card).ok();
        assert!(now.as_deref() == old || now.as_ref() == Some(&new), "half a card: {now:?}");
    }
    assert!(killed > 0);
}

#[test]
fn a_file_that_may_not_be_written_is_not_replaced() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("rolls.miche");
    fs::write(&path, untidy()).expect("written");
    fs::set_permissions(&path, fs::Permissions::from_mode(0o444)).expect("allowed");
    let answer = run(folder.path(), &["tidy", "rolls.miche"]);
    assert_eq!(answer.status.code(), Some(2));
    assert!(String::from_utf8_lossy(&answer.stderr).contains("not allowed"), "{answer:?}");
    assert_eq!(fs::read_to_string(&path).expect("there"), untidy());
}

#[test]
fn permissions_and_links_stay() {
    let folder = tempfile::tempdir().expect("a folder");
    let real = folder.path().join("real.miche");
    let link = folder.path().join("link.miche");
    fs::write(&real, untidy()).expect("written");
    fs::set_permissions(&real, fs::Permissions::from_mode(0o640)).expect("allowed");
    symlink("real.miche", &link).expect("linked");
    assert!(run(folder.path(), &["tidy", "link.miche"]).status.success());
    assert!(fs::symlink_metadata(&link).expect("there").is_symlink());
    assert_eq!(fs::metadata(&real).expect("there").permissions().mode() & 0o777, 0o640);
    assert_ne!(fs::read_to_string(&real).expect("there"), untidy());
    // A link to what is not there yet stays a link, too.
    fs::write(folder.path().join("good.miche"), "recipe R\nflour .... 1 kg\nweigh: hands 1 min\n    Weigh {flour}.\n")
        .expect("written");
    symlink("later.md", folder.path().join("card.md")).expect("linked");
    let answer = run(folder.path(), &["card", "good.miche", "-o", "card.md"]);
    assert!(answer.status.success(), "{answer:?}");
    assert!(fs::symlink_metadata(folder.path().join("card.md")).expect("there").is_symlink());
    assert!(folder.path().join("later.md").is_file());
}

/// A device is written to and not replaced by a file; when it is full, that is said.
#[test]
#[cfg(target_os = "linux")]
fn a_full_disk_is_said() {
    use std::os::unix::fs::FileTypeExt;
    let folder = tempfile::tempdir().expect("a folder");
    fs::write(folder.path().join("good.miche"), "recipe R\nflour .... 1 kg\nweigh: hands 1 min\n    Weigh {flour}.\n")
        .expect("written");
    let answer = run(folder.path(), &["card", "good.miche", "--format", "markdown", "-o", "/dev/full"]);
    assert_eq!(answer.status.code(), Some(2), "{answer:?}");
    assert!(String::from_utf8_lossy(&answer.stderr).contains("full"), "{answer:?}");
    assert!(fs::metadata("/dev/full").expect("there").file_type().is_char_device());
    let full = fs::OpenOptions::new().write(true).open("/dev/full").expect("opened");
    let status = miche(folder.path(), &["card", "good.miche"]).stdout(full).output().expect("it starts");
    assert_eq!(status.status.code(), Some(2));
    let said = String::from_utf8_lossy(&status.stderr).into_owned();
    assert!(said.contains("standard output") && said.contains("full"), "{said}");
}

/// On a small disk that is full, the old file stays as it was. Needs the right to mount; without it that is said.
#[test]
#[cfg(target_os = "linux")]
fn a_full_disk_keeps_the_old_file() {
    let folder = tempfile::tempdir().expect("a folder");
    let mount = Command::new("mount")
        .args(["-t", "tmpfs", "-o", "size=64k", "miche-test"])
        .arg(folder.path())
        .stderr(Stdio::null())
        .status();
    if !mount.is_ok_and(|status| status.success()) {
        println!("not run: this user may not mount");
        return;
    }
    let text = untidy();
    let path = folder.path().join("rolls.miche");
    let outcome = std::panic::catch_unwind(|| {
        fs::write(&path, &text).expect("it fits");
        // Whatever is left is taken, so that the temporary file finds no room.
        let _ = fs::write(folder.path().join("rest"), vec![0; 1 << 20]);
        let answer = run(folder.path(), &["tidy", "rolls.miche"]);
        let left: Vec<_> = fs::read_dir(folder.path()).expect("readable").filter_map(Result::ok).collect();
        (answer, fs::read_to_string(&path).expect("there"), left.len())
    });
    let _ = Command::new("umount").arg(folder.path()).status();
    let (answer, now, left) = outcome.expect("it ran");
    assert_eq!(answer.status.code(), Some(2), "{answer:?}");
    assert!(String::from_utf8_lossy(&answer.stderr).contains("full"), "{answer:?}");
    assert_eq!(now, text);
    assert_eq!(left, 2, "a temporary file is left behind");
}

#[test]
fn a_folder_that_may_not_be_written_keeps_its_file() {
    let folder = tempfile::tempdir().expect("a folder");
    fs::write(folder.path().join("good.miche"), "recipe R\nflour .... 1 kg\nweigh: hands 1 min\n    Weigh {flour}.\n")
        .expect("written");
    let locked = folder.path().join("locked");
    fs::create_dir(&locked).expect("made");
    fs::write(locked.join("card.md"), "old").expect("written");
    fs::set_permissions(&locked, fs::Permissions::from_mode(0o555)).expect("allowed");
    // Whoever may do everything may also write here.
    let may_do_everything = fs::write(locked.join("probe"), "").is_ok();
    let answer = run(folder.path(), &["card", "good.miche", "-o", "locked/card.md"]);
    fs::set_permissions(&locked, fs::Permissions::from_mode(0o755)).expect("allowed");
    let now = fs::read_to_string(locked.join("card.md")).expect("there");
    if may_do_everything {
        assert!(answer.status.success() && now != "old");
    } else {
        assert_eq!(answer.status.code(), Some(2), "{answer:?}");
        assert_eq!(now, "old");
    }
}

/// `| head` closes the pipe early: no message, no error.
#[test]
fn a_reader_that_goes_away_hears_nothing() {
    let folder = tempfile::tempdir().expect("a folder");
    fs::write(folder.path().join("rolls.miche"), untidy()).expect("written");
    for arguments in [
        &["check", "--all", "rolls.miche"][..],
        &["check", "--format", "short", "rolls.miche"],
        &["check", "--format", "sarif", "rolls.miche"],
        &["explain"],
    ] {
        let clock = Instant::now();
        let mut child = miche(folder.path(), arguments).spawn().expect("it starts");
        let mut first = [0; 10];
        child.stdout.take().expect("a pipe").read_exact(&mut first).expect("something is printed");
        let mut said = String::new();
        child.stderr.take().expect("a pipe").read_to_string(&mut said).expect("text");
        let status = child.wait().expect("it ends");
        assert_eq!(said, "", "{arguments:?}");
        assert!(status.code().is_some_and(|code| code < 2), "{arguments:?}: {status:?}");
        assert!(clock.elapsed() < Duration::from_secs(60));
    }
}
