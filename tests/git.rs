//! `miche` in a real git repository: the drivers are set up, and git's own commands are read.

// Helpers outside a test function fail a test by panicking, as the tests do.
#![allow(clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

#[path = "git/committed.rs"]
mod committed;
#[path = "git/repository.rs"]
mod repository;

use repository::{LOAF, Repository, printed};
use std::fs;
use std::process::Output;

const DAY: &str = "2026-03-01";
const NAME: &str = "tin loaf.miche";

/// A repository with one committed formula, in which git was set up.
fn set_up() -> Repository {
    let repository = Repository::new();
    repository.commit(DAY, "The loaf", NAME, LOAF);
    repository.miche(&["setup", "git"]);
    repository
}

/// Commits `theirs` on a branch of its own and `ours` on main, and merges.
fn merge(repository: &Repository, ours: &str, theirs: &str) -> Output {
    repository.git(DAY, &["checkout", "-q", "-b", "theirs"]);
    repository.commit(DAY, "Theirs", NAME, theirs);
    repository.git(DAY, &["checkout", "-q", "main"]);
    repository.commit(DAY, "Ours", NAME, ours);
    repository.run(DAY, "git", &["merge", "-q", "--no-edit", "theirs"])
}

fn read(repository: &Repository) -> String {
    fs::read_to_string(repository.at(NAME)).expect("read")
}

fn wetter() -> String {
    LOAF.replace("650 g", "700 g")
}

#[test]
fn git_diff_speaks_of_the_formula() {
    let repository = set_up();
    repository.write(NAME, &wetter());
    let shown = repository.git(DAY, &["diff"]);
    assert!(shown.contains("tin loaf.miche"), "{shown}");
    assert!(shown.contains("65 %") && shown.contains("70 %"), "hydration: {shown}");
    repository.write(NAME, &LOAF.replace(" .......", " ....."));
    let shown = repository.git(DAY, &["diff"]);
    assert!(shown.contains("The text changed, the recipe did not."), "{shown}");
}

#[test]
fn git_log_shows_figures_and_no_layout() {
    let repository = set_up();
    repository.write(NAME, &wetter().replace("salt .....", "salt ..."));
    repository.git(DAY, &["commit", "-q", "-am", "Wetter"]);
    for arguments in [&["log", "-p", "-1"][..], &["show"][..]] {
        let shown = repository.git(DAY, arguments);
        assert!(shown.contains("+= dough: hydration 71.04 %"), "{shown}");
        assert!(!shown.contains("\n-salt"), "layout only: {shown}");
    }
}

#[test]
fn different_ingredients_merge_and_nothing_is_lost() {
    let repository = set_up();
    // Neighbouring lines, which git alone cannot merge.
    let output = merge(&repository, &wetter(), &LOAF.replace("20 g", "22 g"));
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    assert_eq!(read(&repository), wetter().replace("20 g", "22 g"));
}

#[test]
fn the_same_ingredient_is_a_conflict_with_both_figures() {
    let repository = set_up();
    let output = merge(&repository, &wetter(), &LOAF.replace("650 g", "620 g"));
    assert!(!output.status.success());
    let said = String::from_utf8_lossy(&output.stderr).into_owned();
    assert!(said.contains("700 g` here") && said.contains("620 g` there"), "{said}");
    let text = read(&repository);
    for part in ["<<<<<<< ours\n", "700 g\n|||||||", "650 g\n=======", "620 g\n>>>>>>> theirs"] {
        assert!(text.contains(part), "{part:?} in {text}");
    }
}

#[test]
fn setting_up_twice_is_setting_up_once_and_can_be_undone() {
    let repository = Repository::new();
    let attributes = repository.at(".git/info/attributes");
    repository.write(".git/info/attributes", "*.png binary\n");
    let before = repository.git(DAY, &["config", "--local", "--list"]);
    repository.miche(&["setup", "git", "--dry-run"]);
    assert_eq!(repository.git(DAY, &["config", "--local", "--list"]), before);
    repository.miche(&["setup", "git"]);
    let once = repository.git(DAY, &["config", "--local", "--list"]);
    assert_ne!(once, before);
    repository.miche(&["setup", "git"]);
    assert_eq!(repository.git(DAY, &["config", "--local", "--list"]), once);
    assert_eq!(fs::read_to_string(&attributes).expect("read"), "*.png binary\n*.miche diff=miche merge=miche\n");
    repository.miche(&["setup", "git", "--undo"]);
    assert_eq!(repository.git(DAY, &["config", "--local", "--list"]), before);
    assert_eq!(fs::read_to_string(&attributes).expect("read"), "*.png binary\n");
}

/// What git shows through the external diff driver, run in a folder of the repository.
fn driven(repository: &Repository, folder: &str, arguments: &[&str]) -> String {
    let all = [&["diff"], arguments].concat();
    printed("git", &all, repository.run_in(folder, DAY, "git", &all))
}

/// What git shows with `--textconv`, its own line diffs.
fn converted(repository: &Repository, arguments: &[&str]) -> String {
    driven(repository, "", &[&["--no-ext-diff"], arguments].concat())
}

#[test]
fn a_new_file_is_shown_whole_and_so_is_one_taken_away() {
    let repository = set_up();
    repository.write("breads/hearth loaf.miche", &LOAF.replace("tin loaf", "hearth loaf"));
    repository.git(DAY, &["add", "."]);
    let shown = driven(&repository, "", &["--cached"]);
    assert!(shown.starts_with("breads/hearth loaf.miche (new file)\nSkerrow hearth loaf\n"), "{shown}");
    assert!(shown.contains("ALLERGEN GAINED: wheat") && shown.contains("── dough (new)"), "{shown}");
    let rows = |shown: &str, word: &str| shown.lines().filter(|line| line.ends_with(word)).count();
    assert_eq!(rows(&shown, "  new"), 4, "each ingredient: {shown}");
    let shown = converted(&repository, &["--cached"]);
    assert!(shown.contains("\n+water ......................... 650 g\n"), "{shown}");
    assert!(shown.contains("\n+= dough: hydration 66.04 %"), "{shown}");
    assert!(!shown.lines().any(|line| line.starts_with('-') && !line.starts_with("---")), "{shown}");

    repository.git(DAY, &["commit", "-q", "-m", "The hearth loaf"]);
    repository.git(DAY, &["rm", "-q", "breads/hearth loaf.miche"]);
    let shown = driven(&repository, "", &["--cached"]);
    assert!(shown.starts_with("breads/hearth loaf.miche (taken away)\nSkerrow hearth loaf\n"), "{shown}");
    assert!(shown.contains("allergen no longer in it: wheat") && shown.contains("── dough (gone)"), "{shown}");
    assert_eq!(rows(&shown, "  gone"), 4, "each ingredient: {shown}");
    let shown = converted(&repository, &["--cached"]);
    assert!(shown.contains("\n-= dough: hydration 66.04 %"), "{shown}");
    assert!(!shown.lines().any(|line| line.starts_with('+') && !line.starts_with("+++")), "{shown}");
}

#[test]
fn a_new_name_is_no_change_of_the_formula() {
    let repository = set_up();
    repository.git(DAY, &["mv", NAME, "harbour loaf.miche"]);
    let shown = driven(&repository, "", &["--cached", "-M"]);
    assert_eq!(shown, "tin loaf.miche → harbour loaf.miche\nSkerrow tin loaf\n  No change.\n\n");
    let shown = converted(&repository, &["--cached", "-M"]);
    assert!(shown.contains("rename to harbour loaf.miche") && !shown.contains("\n@@"), "{shown}");
    repository.write("harbour loaf.miche", &wetter());
    repository.git(DAY, &["add", "."]);
    let shown = driven(&repository, "", &["--cached", "-M"]);
    assert!(shown.starts_with("tin loaf.miche → harbour loaf.miche\nSkerrow tin loaf\n── dough\n"), "{shown}");
    assert!(shown.contains("650 g") && shown.contains("700 g") && !shown.contains("salt"), "only the water: {shown}");
    let shown = converted(&repository, &["--cached", "-M"]);
    assert!(
        shown.contains("\n-= dough: hydration 66.04 %") && shown.contains("\n+= dough: hydration 71.04 %"),
        "{shown}"
    );
}

#[test]
fn a_file_that_is_not_merged_yet_is_named() {
    let repository = Repository::new();
    repository.commit(DAY, "The loaf", NAME, LOAF);
    let output = merge(&repository, &wetter(), &LOAF.replace("650 g", "620 g"));
    assert!(!output.status.success());
    repository.miche(&["setup", "git"]);
    assert_eq!(driven(&repository, "", &["--cached"]), "tin loaf.miche: not merged yet\n");
    // Without more, git shows both sides in its own way, over the lines of `--textconv`.
    let shown = driven(&repository, "", &[]);
    assert!(shown.contains("<<<<<<<") && shown.contains("700 g") && shown.contains("620 g"), "{shown}");
    let now = shown.lines().filter(|line| line.starts_with("++=") || line.starts_with(" +="));
    assert_eq!(now.filter(|line| line.contains("hydration")).count(), 0, "both waters are no formula: {shown}");
}

/// 650 g of milk of which 88 % is water, and 15 g of yeast: 58 % of hydration.
fn milk_loaf(repository: &Repository) {
    repository.write("breads/harbour.miche", "ingredient island milk\nwater 88 %\n");
    let loaf = LOAF
        .replace("makes 2", "use \"harbour.miche\"\nmakes 2")
        .replace("water ....", "island milk ")
        .replace("{water}", "{island milk}");
    repository.commit(DAY, "With milk", "breads/milk loaf.miche", &loaf);
    repository.write("breads/milk loaf.miche", &loaf.replace("650 g", "700 g"));
}

#[test]
fn the_larder_is_found_where_the_file_lies() {
    let repository = set_up();
    milk_loaf(&repository);
    for (folder, arguments) in [("", &[][..]), ("breads", &[]), ("breads", &["--relative"])] {
        let shown = driven(&repository, folder, arguments);
        assert!(shown.contains("58.2 %  →  62.6 %"), "{folder} {arguments:?}: {shown}");
        assert!(!shown.contains("missing-use"), "{shown}");
    }
    // The old text comes from git, under its new name too.
    repository.git(DAY, &["mv", "breads/milk loaf.miche", "breads/white loaf.miche"]);
    let shown = driven(&repository, "", &["HEAD", "-M"]);
    assert!(shown.contains("58.2 %  →  62.6 %") && shown.contains('→'), "{shown}");
}

#[test]
fn figures_without_the_larder_say_that_they_are_the_least() {
    let repository = set_up();
    milk_loaf(&repository);
    let shown = converted(&repository, &[]);
    assert!(
        shown.contains("= dough: hydration at least 1.04 %, salt"),
        "git does not say where the file lies: {shown}"
    );
}

/// Names that look like options, in every command of git that shows or merges.
#[test]
fn a_file_may_be_called_as_an_option_is() {
    for name in ["-x.miche", "--help.miche", "-o.miche", "--git.miche", "it's \"so\".miche"] {
        let repository = set_up();
        repository.commit(DAY, "Named", name, LOAF);
        repository.write(name, &wetter());
        repository.write(NAME, &wetter());
        let shown = repository.git(DAY, &["diff"]);
        assert_eq!(shown.matches("70 % (700 g)").count(), 2, "{name}: {shown}");
        let shown = converted(&repository, &[]);
        assert_eq!(shown.matches("+= dough: hydration 71.04 %").count(), 2, "{name}: {shown}");
        repository.git(DAY, &["checkout", "-q", "-b", "theirs"]);
        repository.git(DAY, &["commit", "-q", "-am", "Wetter"]);
        repository.git(DAY, &["checkout", "-q", "main"]);
        repository.commit(DAY, "Saltier", name, &LOAF.replace("20 g", "22 g"));
        repository.git(DAY, &["merge", "-q", "--no-edit", "theirs"]);
        let merged = fs::read_to_string(repository.at(name)).expect("read");
        assert_eq!(merged, wetter().replace("20 g", "22 g"), "{name}");
        let shown = repository.git(DAY, &["log", "-p", "--format=%s"]);
        assert!(shown.contains("Wetter") && shown.contains("The loaf"), "{name}: {shown}");
    }
}

/// Repositories in which git was set up by an earlier version call the drivers without `--`.
#[test]
fn the_drivers_take_names_as_they_come() {
    let repository = set_up();
    for (name, value) in [
        ("diff.miche.command", "miche diff --git"),
        ("diff.miche.textconv", "miche diff --textconv"),
        ("merge.miche.driver", "miche merge --path %P %O %A %B"),
    ] {
        repository.git(DAY, &["config", "--local", name, value]);
    }
    repository.commit(DAY, "Named", "--help.miche", LOAF);
    repository.write("--help.miche", &wetter());
    assert!(repository.git(DAY, &["diff"]).contains("70 % (700 g)"));
    assert!(converted(&repository, &[]).contains("+= dough: hydration 71.04 %"));
    repository.git(DAY, &["checkout", "-q", "-b", "theirs"]);
    repository.git(DAY, &["commit", "-q", "-am", "Wetter"]);
    repository.git(DAY, &["checkout", "-q", "main"]);
    repository.commit(DAY, "Saltier", "--help.miche", &LOAF.replace("20 g", "22 g"));
    repository.git(DAY, &["merge", "-q", "--no-edit", "theirs"]);
}

#[test]
fn a_file_that_is_no_text_stops_nothing() {
    let repository = set_up();
    let write = |bytes: &[u8]| fs::write(repository.at("old.miche"), bytes).expect("written");
    let crepes = b"recipe Cr\xeapes\nflour ..... 1 kg\nmilk ..... 2 l\negg ..... 12\nsalt ..... 10 g\n".to_vec();
    let with = |from: &str, to: &str| -> Vec<u8> {
        let at = crepes.windows(from.len()).position(|window| window == from.as_bytes()).expect("there");
        [&crepes[..at], to.as_bytes(), &crepes[at + from.len()..]].concat()
    };
    write(&crepes);
    repository.git(DAY, &["add", "-A"]);
    repository.git(DAY, &["commit", "-q", "-m", "Latin-1"]);
    write(&with("1 kg", "2 kg"));
    repository.write(NAME, &wetter());
    let shown = repository.git(DAY, &["diff"]);
    assert!(shown.contains("old.miche\n  not read as a formula: it is not UTF-8 text"), "{shown}");
    assert!(shown.contains("-flour ..... 1 kg\n+flour ..... 2 kg"), "its lines: {shown}");
    assert!(shown.contains("70 % (700 g)"), "the other file too: {shown}");
    let shown = converted(&repository, &[]);
    assert!(shown.contains("+flour ..... 2 kg") && shown.contains("recipe Cr\\xEApes"), "{shown}");
    repository.git(DAY, &["checkout", "-q", "-b", "theirs"]);
    repository.git(DAY, &["commit", "-q", "-am", "More flour"]);
    let shown = repository.git(DAY, &["log", "-p", "--format=%s"]);
    assert!(shown.contains("= not read as a formula: it is not UTF-8 text"), "{shown}");
    assert!(shown.contains("The loaf") && shown.contains("More flour"), "all of the history: {shown}");
    repository.git(DAY, &["checkout", "-q", "main"]);
    write(&with("salt ..... 10 g", "salt ..... 12 g"));
    repository.git(DAY, &["commit", "-q", "-am", "Saltier"]);
    repository.git(DAY, &["merge", "-q", "--no-edit", "theirs"]);
    let merged = fs::read(repository.at("old.miche")).expect("read");
    let text = String::from_utf8_lossy(&merged).into_owned();
    assert!(text.contains("2 kg") && text.contains("12 g") && merged.contains(&0xea), "{text}");
}

/// 30 g more on each side are a loss of under 3 points, which is a warning; 60 g are an error.
#[test]
fn what_is_right_on_both_sides_and_wrong_together_is_said() {
    let repository = set_up();
    let (ours, theirs) = (LOAF.replace("650 g", "680 g"), LOAF.replace("15 g", "45 g"));
    for text in [&ours, &theirs] {
        repository.write("probe.miche", text);
        repository.miche(&["check", "probe.miche"]);
    }
    fs::remove_file(repository.at("probe.miche")).expect("removed");
    let output = merge(&repository, &ours, &theirs);
    let said = String::from_utf8_lossy(&output.stderr).into_owned();
    assert!(output.status.success(), "no lines are in conflict: {said}");
    assert!(said.contains("what is right on each side is wrong together"), "{said}");
    assert!(said.contains("error[yield-does-not-add-up]") && said.contains("tin loaf.miche:9"), "{said}");
    assert_eq!(read(&repository), ours.replace("15 g", "45 g"));
}

/// With the check before commits, git does not commit such a merge by itself.
#[test]
fn a_merge_with_an_error_is_not_committed_where_that_was_asked_for() {
    let repository = set_up();
    repository.miche(&["setup", "git", "--pre-commit"]);
    let output = merge(&repository, &LOAF.replace("650 g", "680 g"), &LOAF.replace("15 g", "45 g"));
    let said = format!("{}{}", String::from_utf8_lossy(&output.stdout), String::from_utf8_lossy(&output.stderr));
    assert!(!output.status.success() && said.contains("yield-does-not-add-up"), "{said}");
    assert!(repository.at(".git/MERGE_HEAD").exists(), "it waits for somebody: {said}");
}

#[test]
fn an_error_that_one_side_had_before_is_no_news() {
    let repository = set_up();
    let ours = LOAF.replace("2 x 842 g", "2 x 900 g");
    let output = merge(&repository, &ours, &LOAF.replace("tend 40 min", "tend 42 min"));
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
}

#[test]
fn a_commit_with_an_error_is_stopped_where_that_was_asked_for() {
    let repository = Repository::new();
    let shown = repository.miche(&["setup", "git"]);
    assert!(shown.contains("miche setup git --pre-commit"), "it is offered: {shown}");
    repository.miche(&["setup", "git", "--pre-commit"]);
    repository.commit(DAY, "The loaf", NAME, LOAF);
    repository.write("shared/larder.miche", "ingredient island milk\nwater 88 %\n");
    let using = LOAF.replace("makes 2", "use \"shared/larder.miche\"\nmakes 2");
    repository.commit(DAY, "Uses", "-o.miche", &using);
    repository.write(NAME, &LOAF.replace("2 x 842 g", "2 x 942 g"));
    repository.git(DAY, &["add", "-A"]);
    // What counts is what is committed, not what lies there by now.
    repository.write(NAME, LOAF);
    let output = repository.run(DAY, "git", &["commit", "-q", "-m", "Too much"]);
    let said = format!("{}{}", String::from_utf8_lossy(&output.stdout), String::from_utf8_lossy(&output.stderr));
    assert!(!output.status.success() && said.contains("yield-does-not-add-up"), "{said}");
    repository.git(DAY, &["add", "-A"]);
    repository.miche(&["setup", "git", "--undo"]);
    assert!(!repository.at(".git/hooks/pre-commit").exists());
    // One that is there already is somebody's.
    repository.write(".git/hooks/pre-commit", "#!/bin/sh\n");
    let output = repository.run(DAY, "miche", &["setup", "git", "--pre-commit"]);
    let said = String::from_utf8_lossy(&output.stderr).into_owned();
    assert!(output.status.code() == Some(2) && said.contains("there is a hook already"), "{said}");
    repository.miche(&["setup", "git", "--undo"]);
    assert_eq!(fs::read_to_string(repository.at(".git/hooks/pre-commit")).expect("read"), "#!/bin/sh\n");
}

/// Settings and attributes that somebody wrote stay to the byte, also where they have our names.
#[test]
fn nobodys_own_settings_are_written_over_or_taken_out() {
    let repository = Repository::new();
    let own = "*.png binary\r\n*.txt text";
    repository.write(".git/info/attributes", own);
    repository.git(DAY, &["config", "merge.miche.driver", "own-merge %O %A %B"]);
    let refused = repository.run(DAY, "miche", &["setup", "git"]);
    assert_eq!(refused.status.code(), Some(2), "{refused:?}");
    let said = String::from_utf8_lossy(&refused.stderr).into_owned();
    assert!(said.contains("`merge.miche.driver` is set already, to `own-merge %O %A %B`"), "{said}");
    let attributes = || std::fs::read_to_string(repository.at(".git/info/attributes")).expect("there");
    assert_eq!(attributes(), own, "nothing is written where something is in the way");
    repository.miche(&["setup", "git", "--undo"]);
    assert_eq!(repository.git(DAY, &["config", "merge.miche.driver"]).trim(), "own-merge %O %A %B");
    assert_eq!(attributes(), own);
    repository.git(DAY, &["config", "--unset", "merge.miche.driver"]);
    repository.miche(&["setup", "git"]);
    assert_eq!(attributes(), format!("{own}\n*.miche diff=miche merge=miche\n"));
    repository.miche(&["setup", "git", "--undo"]);
    assert_eq!(attributes(), format!("{own}\n"));
}

/// A hook of ours to which somebody has added a line is theirs, and so is a link; a folder of hooks that others share is left.
#[test]
fn a_hook_that_somebody_went_on_with_stays() {
    let repository = Repository::new();
    let hook = repository.at(".git/hooks/pre-commit");
    let refused = |said: &str| {
        let output = repository.run(DAY, "miche", &["setup", "git", "--pre-commit"]);
        let printed = String::from_utf8_lossy(&output.stderr).into_owned();
        assert!(output.status.code() == Some(2) && printed.contains(said), "{printed}");
    };
    repository.miche(&["setup", "git", "--pre-commit"]);
    let own = format!("{}echo to the harbour\n", fs::read_to_string(&hook).expect("read"));
    fs::write(&hook, &own).expect("written");
    refused("there is a hook already");
    let undone = repository.run(DAY, "miche", &["setup", "git", "--undo"]);
    let said = String::from_utf8_lossy(&undone.stderr).into_owned();
    assert!(undone.status.success() && said.contains("pre-commit stays"), "{said}");
    assert_eq!(fs::read_to_string(&hook).expect("it stays"), own);
    fs::remove_file(&hook).expect("removed");
    #[cfg(unix)]
    {
        std::os::unix::fs::symlink("not there yet", &hook).expect("linked");
        refused("there is a hook already");
        assert!(hook.symlink_metadata().is_ok(), "the link stays");
        fs::remove_file(&hook).expect("removed");
    }
    repository.git(DAY, &["config", "core.hooksPath", "shared"]);
    refused("`core.hooksPath` has git look for hooks in");
    assert!(!repository.at("shared").exists());
}

/// What attributes of the repository say of formulas stays, and it is told that ours stands before it.
#[test]
fn attributes_of_the_repository_are_told_before_ours_stand_before_them() {
    let repository = Repository::new();
    repository.commit(DAY, "The loaf", "boats/loaf.miche", LOAF);
    repository.write(".gitattributes", "*.miche merge=union\n");
    repository.write("boats/.gitattributes", "*.miche -diff\n");
    let output = repository.run(DAY, "miche", &["setup", "git"]);
    let said = String::from_utf8_lossy(&output.stderr).into_owned();
    assert!(output.status.success(), "{said}");
    for word in
        ["`merge: union` of new.miche", "`merge: union` of boats/loaf.miche", "`diff: unset` of boats/loaf.miche"]
    {
        assert!(said.contains(word), "{word}: {said}");
    }
    assert_eq!(fs::read_to_string(repository.at(".gitattributes")).expect("read"), "*.miche merge=union\n");
    let again = repository.run(DAY, "miche", &["setup", "git"]);
    assert!(again.stderr.is_empty(), "ours stands there already: {again:?}");
    repository.miche(&["setup", "git", "--undo"]);
    let merge = repository.git(DAY, &["check-attr", "merge", "boats/loaf.miche"]);
    assert!(merge.ends_with("merge: union\n"), "{merge}");
}

fn all_of(output: &Output) -> String {
    String::from_utf8_lossy(&output.stdout).into_owned() + &String::from_utf8_lossy(&output.stderr)
}

/// On the one side twice the flour, on the other the percentages written as grams: each is right, and together the salt is half of what either
/// says. No line is in conflict, so the merge goes through and says it.
#[test]
fn a_merge_says_which_share_no_side_has_given() {
    let repository = Repository::new();
    let base = "recipe Rolls\nmakes 10 rolls\n\nstrong white flour .... 1 kg\nwater .... 62 %\nbutter .... 5 %\nsalt .... 2 %\n\nmix: hands 10 min\n    Mix {strong white flour}, \
                {water}, {butter} and {salt}.\n    until smooth\n";
    let merged = |ours: String, theirs: String| {
        for (name, text) in [("base.miche", base), ("ours.miche", &ours), ("theirs.miche", &theirs)] {
            repository.write(name, text);
        }
        let output =
            repository.run(DAY, env!("CARGO_BIN_EXE_miche"), &["merge", "base.miche", "ours.miche", "theirs.miche"]);
        assert!(output.status.success(), "{}", all_of(&output));
        all_of(&output)
    };
    let doubled = base.replace("1 kg", "2 kg").replace("10 rolls", "20 rolls");
    let said = merged(doubled.clone(), base.replace("salt .... 2 %", "salt .... 20 g"));
    assert!(said.contains("`salt` of Rolls is 1 % now, 2 % on each side"), "{said}");
    // What one side changed is as that side has it, and nothing is said.
    assert_eq!(merged(doubled, base.replace("salt .... 2 %", "salt .... 1.8 %")), "");
    // Salt that only one side has, 20 g of 1 kg, beside flour that the other doubled.
    let bare = base.replace("salt .... 2 %\n", "").replace(", {butter} and {salt}", " and {butter}");
    repository.write("base.miche", &bare);
    repository.write("ours.miche", &bare.replace("1 kg", "2 kg").replace("10 rolls", "20 rolls"));
    repository.write("theirs.miche", &base.replace("salt .... 2 %", "salt .... 20 g"));
    let output =
        repository.run(DAY, env!("CARGO_BIN_EXE_miche"), &["merge", "base.miche", "ours.miche", "theirs.miche"]);
    let said = all_of(&output);
    assert!(said.contains("`salt` of Rolls is 1 % now, 2 % in theirs and not in ours"), "{said}");
}

/// What was only renamed is no change, and of what was renamed and changed only the change is told: nothing is gone, nothing gained.
#[test]
fn a_renamed_file_is_the_same_recipe_between_two_revisions() {
    let repository = Repository::new();
    repository.commit(DAY, "The loaf", NAME, LOAF);
    for (text, day) in [(LOAF.to_owned(), "2026-03-02"), (wetter(), "2026-03-03")] {
        let (from, to) = if day == "2026-03-02" { (NAME, "rye.miche") } else { ("rye.miche", "dark.miche") };
        repository.git(day, &["mv", from, to]);
        repository.write(to, &text);
        repository.git(day, &["commit", "-q", "-am", "Renamed"]);
    }
    let diff = |from: &str, to: &str| {
        all_of(&repository.run(DAY, env!("CARGO_BIN_EXE_miche"), &["diff", "--from", from, "--to", to, "."]))
    };
    let renamed = diff("HEAD~2", "HEAD~1");
    assert!(!renamed.to_lowercase().contains("allergen") && !renamed.contains("gone"), "{renamed}");
    let changed = diff("HEAD~1", "HEAD");
    assert!(!changed.to_lowercase().contains("allergen") && changed.contains("hydration"), "{changed}");
}
