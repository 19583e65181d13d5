//! A second run of `miche book`: what earlier runs have kept makes it quick, and is never seen in what it writes.

use super::walk::files;
use super::{BOOK, BUNS, damage, folder, loaf, picture::png, said};
use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};
use std::time::{Duration, Instant};
use tempfile::TempDir;

/// A book whose recipes use a kitchen, a larder and each other, and the cache folder of who writes it.
struct Place {
    top: TempDir,
}

impl Place {
    fn new() -> Place {
        let place = Place { top: folder() };
        place.write("larder.miche", "ingredient strong white flour\ncounts as flour\ncontains wheat\n");
        place.write("kitchen.miche", "kitchen Quay\noven x 1\ncooks 1\nscale 1 g\n");
        place.write("dough.miche", &loaf("Mother dough", ""));
        let book = BOOK.replace("page \"cyrillic.miche\"\n", "").replace(", sizes 2 and x 3", "");
        place.write("book.miche", &book.replace("sizes 12 and 24", "sizes 12 and 24, choose hand, choose crumb"));
        let uses = |text: &str, uses: &str| text.replacen('\n', &format!("\n{uses}\n"), 1);
        place.write("buns.miche", &uses(BUNS, "use \"larder.miche\""));
        place.write("loaf-1.miche", &uses(&loaf("Pier loaf", ""), "use \"kitchen.miche\"\nuse \"larder.miche\""));
        place.write(
            "plain.miche",
            &loaf("Plain loaf", "fine honey .................... 20 g\nnote With a warning: honey is never used."),
        );
        place
    }

    fn path(&self, name: &str) -> PathBuf {
        self.top.path().join(name)
    }

    fn write(&self, name: &str, text: &str) {
        fs::write(self.path(name), text).expect("a file");
    }

    fn change(&self, name: &str, from: &str, to: &str) {
        damage::change(&self.path(name), from, to);
    }

    fn cache(&self) -> PathBuf {
        self.path("cache")
    }

    fn book(&self, more: &[&str]) -> Output {
        self.book_by(&self.cache(), more)
    }

    fn book_by(&self, cache: &Path, more: &[&str]) -> Output {
        Command::new(env!("CARGO_BIN_EXE_miche"))
            .current_dir(self.top.path())
            .env("XDG_CACHE_HOME", cache)
            .args(["book", "book.miche"])
            .args(more)
            .output()
            .expect("it runs")
    }

    /// Writes the site again by what is kept, and afresh without: both must be the same to the byte, and what is said of them too.
    fn hold(&self, what: &str) -> String {
        let again = self.book(&["-o", "site"]);
        let afresh = self.book(&["-o", "afresh", "--no-cache"]);
        let words = |output: &Output| {
            let said = said(output).replace("afresh", "site");
            said.split(" files, ").next().map(str::to_owned)
        };
        assert_eq!(words(&again), words(&afresh), "{what}");
        assert!(again.status.success(), "{what}: {}", said(&again));
        let site = |name: &str| if self.path(name).is_dir() { files(&self.path(name)) } else { BTreeMap::new() };
        let (again_files, afresh_files) = (site("site"), site("afresh"));
        assert_eq!(again_files.keys().collect::<Vec<_>>(), afresh_files.keys().collect::<Vec<_>>(), "{what}");
        for (name, bytes) in &again_files {
            assert!(afresh_files.get(name) == Some(bytes), "{what}: {name} is not as it should be");
        }
        let _ = fs::remove_dir_all(self.path("afresh"));
        said(&again)
    }

    fn packs(&self) -> Vec<PathBuf> {
        damage::packs(&self.cache())
    }

    fn git(&self, date: &str, arguments: &[&str]) {
        let done = Command::new("git")
            .current_dir(self.top.path())
            .args(["-c", "user.name=Mara", "-c", "user.email=mara@skerrow.example", "-c", "init.defaultBranch=main"])
            .args(arguments)
            .env("GIT_AUTHOR_DATE", date)
            .env("GIT_COMMITTER_DATE", date)
            .output()
            .expect("git runs");
        assert!(done.status.success(), "{arguments:?}: {}", said(&done));
    }
}

/// Everything that a page may depend on, changed in turn.
#[test]
fn whatever_changes_the_site_is_as_if_it_was_written_afresh() {
    let place = Place::new();
    place.hold("the first run");
    assert_eq!(place.packs().len(), 1, "{:?}", place.packs());
    assert!(place.hold("nothing changed").contains(" 0 of them written"));

    place.change("loaf-2.miche", "salt .......................... 20 g", "salt .......................... 19 g");
    assert!(!place.hold("a recipe").contains(" 0 of them written"));
    place.change("loaf-2.miche", "recipe Pier loaf", "recipe Another loaf");
    place.hold("a title, which its neighbours show");
    place.change("larder.miche", "contains wheat", "contains wheat and milk");
    assert!(!place.hold("a larder").contains(" 0 of them written"));
    place.change("kitchen.miche", "scale 1 g", "scale 3 g");
    assert!(!place.hold("a kitchen").contains(" 0 of them written"));
    place.change("book.miche", "sizes 12 and 24", "sizes 24 and 12");
    place.hold("the order of sizes");
    place.change("book.miche", "sizes 24 and 12, choose hand, choose crumb", "sizes 24, choose machine, choose sugar");
    place.hold("a way");
    place.change("book.miche", "skerrow.example/bakes", "skerrow.example/other");
    place.hold("an address");
    place.change("book.miche", "by The Skerrow bakehouse", "by Somebody else");
    place.change("book.miche", "page \"plain.miche\"\n", "");
    place.hold("whose it is, and a page less");
    place.change(
        "book.miche",
        "chapter Bread\n",
        "chapter Bread\npage \"dough.miche\"\npage \"plain.miche\", sizes x 1/2\n",
    );
    place.hold("a page more, and one at a half");
    fs::write(place.path("blue tray.png"), png(300, 200)).expect("a file");
    assert!(!place.hold("a picture").contains(" 0 of them written"));
    place.change("buns.miche", "Twelve buns on a", "Some buns on a");
    place.hold("the words of a picture");
    place.change("plain.miche", "fine honey", "wild honey");
    place.hold("a warning");
    assert!(place.hold("nothing changed again").contains(" 0 of them written"));
}

#[test]
fn dates_out_of_git_are_never_old_ones() {
    let place = Place::new();
    place.hold("no repository");
    place.git("2027-03-02T10:00:00Z", &["init", "-q"]);
    place.write(".gitignore", "site\nafresh\ncache\n");
    place.git("2027-03-02T10:00:00Z", &["add", "."]);
    place.git("2027-03-02T10:00:00Z", &["commit", "-q", "-m", "First of all"]);
    place.hold("a first commit");
    assert!(super::page(place.top.path(), "recipes/plain-loaf.html").contains("2027-03-02"));
    place.change("plain.miche", "620 g", "610 g");
    place.hold("changed and not committed");
    place.git("2027-04-05T10:00:00Z", &["commit", "-q", "-a", "-m", "Less water"]);
    place.hold("a second commit");
    let page = super::page(place.top.path(), "recipes/plain-loaf.html");
    assert!(page.contains("2027-04-05"));
    // What it changed in the formula, in the words of `diff`; those of a first commit are its whole recipe, and not told.
    for page in [page, super::page(place.top.path(), "changes.html")] {
        assert_eq!(page.matches("In the formula").count(), 1, "{page}");
        assert!(page.contains("water 62\u{a0}% (620\u{a0}g) → 61\u{a0}% (610\u{a0}g)"), "{page}");
    }
    // The files are the same; only what git says of them is not.
    place.git(
        "2027-06-07T10:00:00Z",
        &["commit", "-q", "--amend", "-m", "Less water, as it should be", "--date", "2027-06-07T10:00:00Z"],
    );
    place.hold("a commit written anew");
    let page = super::page(place.top.path(), "recipes/plain-loaf.html");
    assert!(page.contains("2027-06-07") && page.contains("as it should be"), "{page}");
    assert!(page.contains("water 62\u{a0}% (620\u{a0}g)"), "{page}");
    // Under another name it is the same recipe, and a commit that only moves it leaves the formula as it was.
    place.git("2027-06-08T10:00:00Z", &["mv", "plain.miche", "plainer.miche"]);
    place.change("book.miche", "plain.miche", "plainer.miche");
    place.git("2027-06-08T10:00:00Z", &["commit", "-q", "-a", "-m", "A name"]);
    place.hold("a new name");
    let page = super::page(place.top.path(), "recipes/plain-loaf.html");
    assert!(page.contains("A name") && page.contains("The formula stayed as it was."), "{page}");
}

/// A page that somebody has changed, or taken away, is written again.
#[test]
fn what_the_site_has_is_looked_at_and_not_believed() {
    let place = Place::new();
    place.hold("the first run");
    let page = place.path("site/recipes/plain-loaf.html");
    let whole = fs::read(&page).expect("there");
    fs::write(&page, [whole.as_slice(), b"x"].concat()).expect("written");
    place.hold("a page with more");
    let pictures = fs::read_dir(place.path("site/pictures")).expect("pictures");
    for picture in pictures.map(|entry| entry.expect("an entry").path()) {
        let bytes = fs::read(&picture).expect("there");
        fs::write(&picture, &bytes[..bytes.len() / 2]).expect("written");
    }
    place.hold("half of each picture");
    fs::remove_file(&page).expect("there");
    place.hold("a page less");
    fs::write(place.path("site/miche-site.json"), r#"{"format":1,"about":"","files":[]}"#).expect("written");
    for name in ["recipes", "us", "assets", "cards", "sources", "pictures", "ingredients", "allergens"] {
        let _ = fs::remove_dir_all(place.path("site").join(name));
    }
    place.hold("hardly any site");
    assert_eq!(fs::read(&page).expect("there"), whole);
}

#[test]
fn an_error_is_told_whatever_is_known_of_the_others() {
    let place = Place::new();
    place.hold("the first run");
    let before = files(&place.path("site"));
    let larder = fs::read_to_string(place.path("larder.miche")).expect("there");
    for (name, bad) in [
        ("larder.miche", format!("{larder}water 140 %\n")),
        ("loaf-2.miche", loaf("Pier loaf", "nothing that can be read\n")),
        ("book.miche", format!("{BOOK}page \"nowhere.miche\"\n")),
    ] {
        let good = fs::read_to_string(place.path(name)).expect("there");
        place.write(name, &bad);
        let output = place.book(&["-o", "site"]);
        assert_eq!(output.status.code(), Some(1), "{name}: {}", said(&output));
        assert_eq!(said(&output), said(&place.book(&["-o", "site", "--no-cache"])), "{name}");
        assert_eq!(files(&place.path("site")), before, "{name}");
        place.write(name, &good);
    }
    fs::rename(place.path("blue tray.png"), place.path("gone.png")).expect("renamed");
    let output = place.book(&["-o", "site"]);
    assert_eq!(said(&output), said(&place.book(&["-o", "site", "--no-cache"])));
    assert_eq!(output.status.code(), Some(1), "{}", said(&output));
    fs::rename(place.path("gone.png"), place.path("blue tray.png")).expect("renamed");
    assert!(place.hold("mended").contains(" 0 of them written"));
}

#[test]
fn a_damaged_pack_is_made_anew() {
    let place = Place::new();
    place.hold("the first run");
    let pack = place.packs().pop().expect("a pack");
    let whole = fs::read(&pack).expect("there");
    damage::is_made_anew(&pack, |what| {
        place.hold(what);
    });
    fs::remove_dir(&pack).expect("removed");
    #[cfg(unix)]
    {
        let elsewhere = place.path("elsewhere.txt");
        fs::write(&elsewhere, "mine").expect("written");
        std::os::unix::fs::symlink(&elsewhere, &pack).expect("linked");
        place.hold("a link in its place");
        assert_eq!(fs::read_to_string(&elsewhere).expect("there"), "mine");
        assert_eq!(fs::read(&pack).expect("there"), whole);
    }
}

#[test]
fn without_a_cache_folder_nothing_is_said_and_nothing_is_kept() {
    let place = Place::new();
    place.hold("with one");
    let file = place.path("a file");
    fs::write(&file, "mine").expect("written");
    let good = said(&place.book(&["-o", "site"]));
    for cache in [&file, Path::new("/proc/nowhere"), Path::new("not/absolute"), &file.join("below")] {
        let output = place.book_by(cache, &["-o", "site"]);
        assert!(output.status.success(), "{}", said(&output));
        assert_eq!(said(&output), good, "{}", cache.display());
    }
    assert_eq!(fs::read_to_string(&file).expect("there"), "mine");
    assert!(!place.path("not").exists());
    let untouched = place.path("untouched");
    let output = place.book_by(&untouched, &["-o", "site", "--no-cache"]);
    assert!(output.status.success() && !untouched.exists(), "{}", said(&output));
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt;
        let folder = place.cache().join("miche");
        fs::set_permissions(&folder, fs::Permissions::from_mode(0o500)).expect("set");
        place.change("loaf-2.miche", "20 g", "18 g");
        place.hold("a folder that cannot be written");
        fs::set_permissions(&folder, fs::Permissions::from_mode(0o700)).expect("set");
    }
}

#[test]
fn two_runs_at_once_do_not_meet() {
    let place = Place::new();
    for round in 0..3 {
        place.change(
            "loaf-2.miche",
            "water ......................... 620 g",
            &format!("water ......................... 62{round} g"),
        );
        std::thread::scope(|scope| {
            let runs: Vec<_> = ["one", "two", "three"].map(|site| scope.spawn(|| place.book(&["-o", site]))).into();
            for run in runs {
                let output = run.join().expect("it ends");
                assert!(output.status.success(), "{}", said(&output));
            }
        });
        let sites = ["one", "two", "three"].map(|site| files(&place.path(site)));
        assert!(sites[0] == sites[1] && sites[1] == sites[2]);
        place.hold("after them");
        place.change("loaf-2.miche", &format!("62{round} g"), "620 g");
    }
    assert_eq!(place.packs().len(), 1, "nothing is left over");
}

/// That anything is kept shows only in time: a run in which nothing changed works out nothing.
#[test]
fn a_second_run_is_quick() {
    let place = Place::new();
    let mut book = BOOK.to_owned();
    for number in 0..30 {
        let name = format!("roll-{number}.miche");
        place.write(&name, &loaf(&format!("Roll {number}"), ""));
        book.push_str(&format!("page \"{name}\"\n"));
    }
    place.write("book.miche", &book);
    let timed = |more: &[&str]| -> Duration {
        let begun = Instant::now();
        let output = place.book(more);
        assert!(output.status.success(), "{}", said(&output));
        begun.elapsed()
    };
    let afresh = timed(&["-o", "site"]);
    let again = (0..3).map(|_| timed(&["-o", "site"])).min().expect("some");
    assert!(again * 3 < afresh, "{again:?} again, {afresh:?} afresh");
}
