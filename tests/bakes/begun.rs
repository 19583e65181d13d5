//! A bake begun in a log: nothing is lost, it can be read again, and a log in a merge conflict is left alone.

use super::*;

#[test]
fn a_bake_is_begun_with_nothing_lost() {
    let folder = repository();
    let log: PathBuf = folder.path().join("harbour-rolls-bakes.miche");
    let before = fs::read_to_string(&log).unwrap();
    let arguments = ["bakes", "new", "harbour-rolls.miche", "--pieces", "50", "--at", "2026-11-20 05:30"];
    let output = miche(folder.path(), &arguments);
    assert!(output.status.success(), "{}", said(&output));
    let after = fs::read_to_string(&log).unwrap();
    let added = after.strip_prefix(&before).expect("what was there stays");
    for line in [
        "bake 2026-11-20 05:30, 50 rolls",
        "by\n",
        "room\n",
        "flour at\n",
        "\nwater ....",
        "\nmix:",
        "\nbake: load 2",
        "\ncrumb:",
        "\nverdict",
    ] {
        assert!(added.contains(line), "{line:?} is not in\n{added}");
    }
    let checked = miche(folder.path(), &["check", "harbour-rolls-bakes.miche", "--allow", "bakes-say-otherwise"]);
    assert!(said(&checked).contains("nothing to mend"), "{}", said(&checked));
    assert!(miche(folder.path(), &["bakes", "harbour-rolls.miche"]).status.success());
    // Without a log one is begun.
    fs::remove_file(&log).unwrap();
    assert!(miche(folder.path(), &arguments).status.success());
    assert!(fs::read_to_string(&log).unwrap().starts_with("bakes of \"harbour-rolls.miche\"\n\nbake 2026-11-20"));
}

/// A log whose lines end otherwise goes on so, and one that could not say of which recipe it is is not begun.
#[test]
fn a_bake_is_begun_where_it_can_be_read_again() {
    let folder = repository();
    let log = folder.path().join("harbour-rolls-bakes.miche");
    let begin = |recipe: &str| miche(folder.path(), &["bakes", "new", recipe, "--at", "2026-11-20 05:30"]);
    for line_break in ["\r", "\r\n"] {
        let before = "bakes of \"harbour-rolls.miche\"\n\nbake 2026-11-13\nverdict keep".replace('\n', line_break);
        fs::write(&log, &before).unwrap();
        assert!(begin("harbour-rolls.miche").status.success());
        let after = fs::read_to_string(&log).unwrap();
        let added = after.strip_prefix(&before).expect("what was there stays");
        assert!(added.starts_with(&format!("{line_break}{line_break}bake 2026-11-20 05:30")), "{added:?}");
        assert_eq!(added.replace("\r\n", "").matches('\n').count(), 0, "{added:?}");
        assert_eq!(after.contains("\r\n"), line_break == "\r\n");
    }
    fs::remove_file(&log).unwrap();
    let names: &[&str] = if cfg!(unix) { &["a\"b.miche", "a\nb.miche"] } else { &[] };
    for name in names {
        fs::copy(folder.path().join("harbour-rolls.miche"), folder.path().join(name)).unwrap();
        let output = begin(name);
        assert_eq!(output.status.code(), Some(2), "{}", said(&output));
        assert!(said(&output).contains("a log cannot name"), "{}", said(&output));
        assert!(!folder.path().join(name.replace(".miche", "-bakes.miche")).exists());
    }
}

/// Two bakes of one minute would be an error of the log; the second is another when it is said when.
#[test]
fn a_bake_is_not_begun_twice_at_one_time() {
    let folder = tempfile::tempdir().expect("a folder");
    let log = beside_rolls(folder.path());
    let begin = |at: &str| miche(folder.path(), &["bakes", "new", "rolls.miche", "--at", at]);
    assert!(begin("2026-11-20 05:30").status.success());
    let once = fs::read_to_string(&log).expect("a log");
    let again = begin("2026-11-20 05:30");
    assert_eq!(again.status.code(), Some(2), "{}", said(&again));
    assert!(said(&again).contains("stands there already"), "{}", said(&again));
    assert_eq!(fs::read_to_string(&log).expect("a log"), once);
    assert!(begin("2026-11-20 05:40").status.success());
}

/// Into a log in which a merge left two versions no bake is begun: not a byte is written, and which line is in the way is said.
#[test]
fn no_bake_is_begun_in_a_merge_conflict() {
    let folder = tempfile::tempdir().expect("a folder");
    let log = beside_rolls(folder.path());
    let begin = |file: &str| miche(folder.path(), &["bakes", "new", file, "--at", "2026-11-20 05:30"]);
    for (marked, line) in [
        ("<<<<<<< HEAD\ncrumb: 4 of 5\n=======\ncrumb: 3 of 5\n>>>>>>> theirs\n", 4),
        ("<<<<<<< ours\r\ncrumb: 4 of 5\r\n", 4),
        ("crumb: 4 of 5\n=======\n", 5),
        (">>>>>>> 1a2b3c4 (the evening)", 4),
    ] {
        let text = format!("bakes of \"rolls.miche\"\n\nbake 2026-11-02 05:30\n{marked}");
        fs::write(&log, &text).expect("written");
        for file in ["rolls.miche", "rolls-bakes.miche"] {
            let output = begin(file);
            assert_eq!(output.status.code(), Some(2), "{}", said(&output));
            assert!(said(&output).contains(&format!("line {line} is a mark of a merge")), "{}", said(&output));
            assert_eq!(fs::read_to_string(&log).expect("there"), text);
        }
    }
    fs::write(&log, "bakes of \"rolls.miche\"\n\nbake 2026-11-02 05:30\ncrumb: 4 of 5\n").expect("written");
    assert_eq!(begin("rolls.miche").status.code(), Some(0));
}
