//! A second run of `check` over a folder: what earlier runs have kept makes it quick, and is never seen in what it says.

use super::damage;
use miche::check::{ALL, example_files};
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};
use std::time::{Duration, Instant};
use tempfile::TempDir;

/// A folder of files and, beside it, the cache folder of who checks it.
struct Place {
    top: TempDir,
}

const LOAF: &str = "recipe Pier loaf\nmakes 2 loaves\nuse \"shared.miche\"\nuse \"kitchen.miche\"\n\nplain flour .... 1 kg\n\
    rye flakes .... 100 g\nwater .... 620 g\nsalt .... 20 g\ninstant yeast .... 8 g\n\nmix: hands 10 min, using mixer\n    \
    Mix {plain flour}, {rye flakes}, {water}, {salt} and {instant yeast}.\n    until smooth\nrise: wait 1 h, at 24 C\n    \
    until doubled\nbake: tend 40 min, using oven at 220 C\n    until brown\n";

impl Place {
    fn new() -> Place {
        let place = Place { top: tempfile::tempdir().expect("a folder") };
        fs::create_dir_all(place.path("sub/deep")).expect("folders");
        place.write("larder.miche", "ingredient rye flakes\ncounts as flour\ncontains rye\n");
        place.write("shared.miche", "kitchen Shelf\nuse \"larder.miche\"\ncooks 1\n");
        place.write("kitchen.miche", "kitchen Quay\noven x 1\nmixer x 1\ncooks 1\nscale 1 g\n");
        place.write("loaf.miche", LOAF);
        place.write("other.miche", &LOAF.replace("Pier loaf", "Other loaf"));
        place.write("alone.miche", &LOAF.replace("use \"shared.miche\"\nuse \"kitchen.miche\"\n", ""));
        place
    }

    fn path(&self, name: &str) -> PathBuf {
        self.top.path().join("book").join(name)
    }

    fn write(&self, name: &str, text: &str) {
        fs::write(self.path(name), text).expect("a file");
    }

    fn change(&self, name: &str, from: &str, to: &str) {
        damage::change(&self.path(name), from, to);
    }

    fn cache(&self) -> PathBuf {
        self.top.path().join("cache")
    }

    fn check_by(&self, cache: &Path, arguments: &[&str]) -> Output {
        Command::new(env!("CARGO_BIN_EXE_miche"))
            .current_dir(self.path(""))
            .env("XDG_CACHE_HOME", cache)
            .arg("check")
            .args(arguments)
            .output()
            .expect("it runs")
    }

    fn check(&self, arguments: &[&str]) -> Output {
        self.check_by(&self.cache(), arguments)
    }

    /// Checks by what is kept, and afresh without: both must say the same to the byte. Twice, since the first run keeps.
    fn hold_as(&self, what: &str, arguments: &[&str]) -> String {
        let afresh = self.check(&[arguments, &["--no-cache"]].concat());
        for run in ["first", "second"] {
            let again = self.check(arguments);
            assert_eq!(said(&again), said(&afresh), "{what}, {run} run");
            assert_eq!(again.status.code(), afresh.status.code(), "{what}, {run} run");
        }
        said(&afresh)
    }

    fn hold(&self, what: &str) -> String {
        self.hold_as(what, &[".", "--format", "json"])
    }

    /// As [`Place::hold`] after a change that shows.
    fn told(&self, what: &str, before: &mut String) {
        let now = self.hold(what);
        assert_ne!(now, *before, "{what}: nothing came of it, so that nothing was tried");
        *before = now;
    }

    fn packs(&self) -> Vec<PathBuf> {
        damage::packs(&self.cache())
    }
}

fn said(output: &Output) -> String {
    String::from_utf8_lossy(&[&output.stdout[..], &output.stderr[..]].concat()).into_owned()
}

/// A PNG of one dot: signature, header, and as much as its size needs (PNG, third edition, 11.2.1).
const DOT: &[u8] = b"\x89PNG\r\n\x1a\n\0\0\0\rIHDR\0\0\0\x01\0\0\0\x01\x08\x02\0\0\0\x90wS\xde";

/// Everything that what is said of a file may depend on, changed in turn.
#[test]
fn whatever_changes_is_told_as_if_nothing_was_kept() {
    let place = Place::new();
    let mut said = place.hold("the first run");
    assert_eq!(place.packs().len(), 1);

    place.change("alone.miche", "salt .... 20 g\n", "");
    place.told("a line less", &mut said);
    place.change("larder.miche", "contains rye\n", "contains rye\nwater 140 %\n");
    place.told("a larder that a used file uses", &mut said);
    place.change("larder.miche", "water 140 %\n", "");
    place.told("mended", &mut said);
    place.change("kitchen.miche", "mixer x 1\n", "");
    place.told("a kitchen without its mixer", &mut said);
    place.change("kitchen.miche", "scale 1 g", "mixer x 1\nscale 50 g");
    place.told("a kitchen with a coarse scale", &mut said);

    place.change("other.miche", "use \"shared.miche\"", "use \"new.miche\"");
    place.told("a name that leads nowhere", &mut said);
    place.write("new.miche", "ingredient rye flakes\nnot flour\ncontains rye\n");
    place.told("now it leads to a file", &mut said);
    fs::remove_file(place.path("new.miche")).expect("there");
    place.told("and now nowhere", &mut said);
    place.write("new.miche", "recipe Not what was meant\nuse \"other.miche\"\n");
    place.told("and now in a ring", &mut said);
    fs::remove_file(place.path("new.miche")).expect("there");
    place.change("other.miche", "use \"new.miche\"", "use \"shared.miche\"");
    place.told("as it was", &mut said);

    place.change("loaf.miche", "makes 2 loaves", "makes 2 loaves\npicture \"dot.png\", A loaf");
    place.told("a picture that is not there", &mut said);
    fs::write(place.path("dot.png"), DOT).expect("written");
    place.told("a picture", &mut said);
    place.write("dot.png", "no picture any longer");
    place.told("words in its place", &mut said);
    fs::write(place.path("dot.png"), DOT).expect("written");
    place.told("a picture again", &mut said);

    let inner =
        LOAF.replace("\"shared.miche\"", "\"../shared.miche\"").replace("\"kitchen.miche\"", "\"../kitchen.miche\"");
    place.write("sub/inner.miche", &inner);
    place.told("a file outside whose folder no file may be used", &mut said);
    fs::create_dir(place.path(".git")).expect("a folder");
    place.told("a repository", &mut said);
    fs::create_dir(place.path("sub/.git")).expect("a folder");
    place.told("a repository in a repository", &mut said);
    fs::remove_dir(place.path("sub/.git")).expect("a folder");
    place.told("and no longer", &mut said);

    place.write("extra.miche", "recipe Extra\nplain flour .... lots\n");
    place.told("a file more", &mut said);
    fs::rename(place.path("extra.miche"), place.path("sub/extra.miche")).expect("renamed");
    place.told("by another name", &mut said);
    fs::remove_file(place.path("sub/extra.miche")).expect("there");
    place.told("a file less", &mut said);

    let right = |name: &str| fs::read_to_string(Path::new("tests/right").join(name)).expect("there");
    place.write("log-recipe.miche", &right("log-recipe.miche"));
    place.write("log.bakes", &right("log-of-bakes.miche"));
    place.hold("a log of bakes");
    place.change("log.bakes", "water .........................", "watr .........................");
    place.told("what a log calls by a name that its recipe does not have", &mut said);
    place.change("log-recipe.miche", "water ...", "watr ...");
    place.told("and now it has", &mut said);

    let day = "day Friday\nready 2027-04-16 07:00\nstock \"stock.txt\"\nmake 4 of \"alone.miche\"\n";
    place.write("day.miche", day);
    place.told("a list of stock that is not there", &mut said);
    place.write("stock.txt", "plain flour .... 2 kg\n");
    place.told("a list of stock", &mut said);
    place.write("stock.txt", "plain flour .... two\n");
    place.told("a list that cannot be read", &mut said);
}

/// What a file may use hangs on where it lies, and how deep it lies on the way to it: another file that goes there first changes both.
#[test]
fn the_way_to_a_file_is_not_what_was_found() {
    let place = Place::new();
    let inner = LOAF.replace("use \"shared.miche\"", "use \"../shared.miche\"").replace("use \"kitchen.miche\"\n", "");
    place.write("sub/inner.miche", &inner);
    let mut said = place.hold("outside its folder");
    place.write("above.miche", "recipe Above\nuse \"sub/inner.miche\"\nplain flour .... 1 kg\n");
    place.told("by way of a file above", &mut said);
    fs::remove_file(place.path("above.miche")).expect("there");
    place.told("and no longer", &mut said);

    for number in 0..40 {
        let used = if number == 39 { String::new() } else { format!("use \"chain-{:02}.miche\"\n", number + 1) };
        place.write(&format!("chain-{number:02}.miche"), &format!("kitchen Chain {number}\n{used}cooks 1\n"));
    }
    place.told("a chain that is too deep", &mut said);
    for used in [2, 8, 20, 39] {
        place.write("before.miche", &format!("kitchen Before\nuse \"chain-{used:02}.miche\"\ncooks 1\n"));
        place.hold(&format!("a file before it that goes to link {used}"));
        place.write("chain-15.miche", &format!("kitchen Chain 15, {used}\nuse \"chain-16.miche\"\ncooks 1\n"));
        place.hold("a link that is another");
    }
    fs::remove_file(place.path("chain-00.miche")).expect("there");
    place.hold("a link less");
    for number in 1..9 {
        fs::remove_file(place.path(&format!("chain-{number:02}.miche"))).expect("there");
    }
    place.told("deep no longer, and a file before it", &mut said);
}

#[cfg(unix)]
#[test]
fn a_link_that_leads_elsewhere_is_followed_there() {
    let place = Place::new();
    place.write("plain.txt", "ingredient rye flakes\nnot flour\ncontains rye\n");
    place.write("bad.txt", "ingredient rye flakes\ncontains nothing known\n");
    let link = |to: &str| {
        let _ = fs::remove_file(place.path("larder.miche"));
        std::os::unix::fs::symlink(to, place.path("larder.miche")).expect("linked");
    };
    link("plain.txt");
    let mut said = place.hold("a link");
    link("bad.txt");
    place.told("elsewhere", &mut said);
    link("plain.txt");
    place.told("and back", &mut said);
    fs::remove_file(place.path("plain.txt")).expect("there");
    place.told("to nothing", &mut said);
}

/// How a folder is named, what is asked for and how it is printed are not what was found.
#[test]
fn other_words_for_the_same_folder_say_what_they_would_say() {
    let place = Place::new();
    place.change("larder.miche", "contains rye", "contains rye\nwater 140 %");
    place.write("sub/plain.miche", "recipe Plain\nplain flour .... 1 kg\nsalt .... 2 %\nhoney .... 1 %\n");
    let whole = place.path("").display().to_string();
    for arguments in [
        &["."][..],
        &["sub"],
        &[".", "sub"],
        &["sub", "."],
        &["../book"],
        &[&whole],
        &[".", "--strict"],
        &[".", "--allow", "no-leaven"],
        &[".", "--format", "sarif"],
        &[".", "--format", "short"],
        &[".", "--format", "github"],
        &["sub/plain.miche"],
        &["sub/plain.miche", "."],
        &[".", "--fix", "--dry-run"],
    ] {
        place.hold_as(&arguments.join(" "), arguments);
    }
}

/// The bad example of every check, each in a folder of its own: whatever can be found is kept and said again as it was. Then lines
/// are taken out, one file after the other.
#[test]
fn every_problem_is_kept_as_it_was() {
    let place = Place::new();
    let mut files = Vec::new();
    for check in ALL {
        fs::create_dir_all(place.path(check.name)).expect("a folder");
        for (name, text) in example_files(check.bad) {
            let name = format!("{}/{name}", check.name);
            place.write(&name, &text);
            files.push(name);
        }
    }
    let first = place.hold("all bad examples");
    let checks = ALL.iter().filter(|check| first.contains(&format!("\"{}\"", check.name))).count();
    assert!(checks * 10 > ALL.len() * 8, "{checks} of {}", ALL.len());
    place.hold_as("in words", &[".", "--all"]);
    for round in 0..4 {
        for (number, name) in files.iter().enumerate().filter(|(number, _)| number % 4 == round) {
            let text = fs::read_to_string(place.path(name)).expect("there");
            let lines: Vec<&str> = text.lines().collect();
            let out = number % lines.len().max(1);
            let kept: Vec<&str> =
                lines.iter().enumerate().filter(|(at, _)| *at != out).map(|(_, line)| *line).collect();
            place.write(name, &kept.join("\n"));
        }
        place.hold("lines taken out");
    }
}

#[test]
fn a_damaged_pack_is_made_anew() {
    let place = Place::new();
    place.change("alone.miche", "salt .... 20 g\n", "");
    place.hold("the first run");
    let pack = place.packs().pop().expect("a pack");
    damage::is_made_anew(&pack, |what| {
        place.hold(what);
    });
}

#[test]
fn nothing_is_kept_where_that_is_not_asked_for() {
    let place = Place::new();
    let good = said(&place.check(&["."]));
    let untouched = place.path("untouched");
    for arguments in [&[".", "--no-cache"][..], &["loaf.miche"], &[".", "--fix", "--dry-run"]] {
        place.check_by(&untouched, arguments);
        assert!(!untouched.join("miche").exists(), "{arguments:?}");
    }
    let file = place.top.path().join("a file");
    fs::write(&file, "mine").expect("written");
    for cache in [&file, Path::new("/proc/nowhere"), Path::new("not/absolute")] {
        assert_eq!(said(&place.check_by(cache, &["."])), good, "{}", cache.display());
    }
    assert_eq!(fs::read_to_string(&file).expect("there"), "mine");
}

#[test]
fn two_runs_at_once_do_not_meet() {
    let place = Place::new();
    for round in 0..4 {
        place.change("larder.miche", "counts as flour", &format!("water {}{round} %\ncounts as flour", round % 2));
        std::thread::scope(|scope| {
            let runs: Vec<_> = (0..3).map(|_| scope.spawn(|| said(&place.check(&["."])))).collect();
            let found: Vec<String> = runs.into_iter().map(|run| run.join().expect("it ends")).collect();
            assert!(found.iter().all(|one| *one == said(&place.check(&[".", "--no-cache"]))), "{found:?}");
        });
        place.hold("after them");
    }
    assert_eq!(place.packs().len(), 1, "nothing is left over");
}

/// That anything is kept shows only in time.
#[test]
fn a_second_run_is_quick() {
    let place = Place::new();
    for number in 0..600 {
        place.write(&format!("loaf-{number}.miche"), &LOAF.replace("Pier loaf", &format!("Loaf {number}")));
    }
    let timed = |arguments: &[&str]| -> Duration {
        let begun = Instant::now();
        place.check(arguments);
        begun.elapsed()
    };
    let afresh = (0..2).map(|_| timed(&[".", "--no-cache"])).min().expect("some");
    timed(&["."]);
    let again = (0..5).map(|_| timed(&["."])).min().expect("some");
    assert!(again * 2 < afresh, "{again:?} again, {afresh:?} afresh");
}
