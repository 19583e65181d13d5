//! `miche book`: a static site whose links all lead somewhere, that is read without script, carries data that hold against the
//! published vocabulary, and is written whole or not at all.

// Helpers outside a test function fail a test by panicking, as the tests do.
#![allow(clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

#[path = "book/again.rs"]
mod again;
#[path = "kept/damage.rs"]
mod damage;
#[path = "reader/picture.rs"]
mod picture;
#[path = "reader/vocabulary.rs"]
mod vocabulary;
#[path = "book/walk.rs"]
mod walk;

use picture::png;
use serde_json::Value;
use std::collections::BTreeMap;
use std::fs;
use std::path::Path;
use std::process::{Command, Output};
use tempfile::TempDir;
use vocabulary::{hold, vocabulary};
use walk::{files, links, scripts};

const BUNS: &str = "\
recipe Breakwater </script><b>buns & co
makes 12 buns
story A bun for a *windy* morning.
picture \"blue tray.png\", Twelve buns on a \"blue\" tray
by Mara Ness
filed under buns, make ahead
choose mixing: machine or hand
choose finish: crumb or sugar

strong white flour ............ 500 g
whole milk .................... 320 g
butter ........................ 10 %
salt .......................... 9 g
instant yeast ................. 5 g                  [machine]
instant yeast ................. 3 g                  [hand]
caster sugar .................. 20 g                 [sugar]

mix: hands 10 min                                    [machine]
    Mix {strong white flour}, {whole milk}, {salt}, {butter} and {instant yeast}.
    until smooth
mix: hands 20 min                                    [hand]
    Knead {strong white flour}, {whole milk}, {salt}, {butter} and {instant yeast}.
    until smooth
rest: wait 1 h, at 24 C
    until doubled
dip: hands 2 min                                     [sugar]
    Roll in {caster sugar}.
bake: tend 15 min, using oven at 210 C
    until gold
";

/// A loaf of a name that other recipes may have too.
fn loaf(name: &str, more: &str) -> String {
    format!(
        "recipe {name}\nmakes 2 loaves\nstrong white flour ............ 1 kg\nwater ......................... 620 g\n\
         salt .......................... 20 g\ninstant yeast ................. 5 g\n{more}\nmix: hands 10 min\n    Mix {{strong white flour}}, \
         {{water}}, {{salt}} and {{instant yeast}}.\n    until smooth\nrest: wait 1 h, at 24 C\n    until doubled\nbake: tend 40 min, \
         using oven at 220 C\n    until brown\n"
    )
}

const BOOK: &str = "\
book From the <i>harbour</i> ovens
by The Skerrow bakehouse
address https://skerrow.example/bakes
page \"plain.miche\"
chapter Sweet & more
page \"buns.miche\", sizes 12 and 24
chapter Bread
page \"loaf-1.miche\"
page \"loaf-2.miche\", sizes 2 and x 3
page \"cyrillic.miche\"
";

fn folder() -> TempDir {
    let folder = tempfile::tempdir().expect("a folder");
    let write = |name: &str, text: &str| fs::write(folder.path().join(name), text).expect("a file");
    write("buns.miche", BUNS);
    write("plain.miche", &loaf("Plain loaf", ""));
    write("loaf-1.miche", &loaf("Pier loaf", ""));
    write("loaf-2.miche", &loaf("Pier loaf", "sea lettuce ................... 5 g\n"));
    write("cyrillic.miche", &loaf("Хлеб", ""));
    write("book.miche", BOOK);
    fs::write(folder.path().join("blue tray.png"), png(2400, 1200)).expect("a file");
    folder
}

fn run(folder: &Path, arguments: &[&str]) -> Output {
    // What is kept in tests stays in tests.
    let mut command = Command::new(env!("CARGO_BIN_EXE_miche"));
    command
        .current_dir(folder)
        .env("XDG_CACHE_HOME", concat!(env!("CARGO_TARGET_TMPDIR"), "/cache"))
        .args(arguments)
        .output()
        .expect("it runs")
}

fn said(output: &Output) -> String {
    String::from_utf8_lossy(&output.stdout).into_owned() + &String::from_utf8_lossy(&output.stderr)
}

/// Writes the site of a book, or of a folder.
fn site(folder: &Path, book: &str) -> String {
    let output = run(folder, &["book", book, "-o", "site"]);
    assert!(output.status.success(), "{}", said(&output));
    said(&output)
}

fn page(folder: &Path, name: &str) -> String {
    fs::read_to_string(folder.join("site").join(name)).unwrap_or_else(|why| panic!("{name}: {why}"))
}

fn data(page: &str) -> Value {
    let (_, after) = page.split_once("<script type=\"application/ld+json\">").expect("data");
    serde_json::from_str(after.split_once("</script>").expect("an end").0).expect("JSON")
}

#[test]
fn every_link_leads_somewhere_and_nothing_is_fetched_from_elsewhere() {
    let folder = folder();
    site(folder.path(), "book.miche");
    let top = folder.path().join("site");
    let all = files(&top);
    let pages: Vec<&String> = all.keys().filter(|name| name.ends_with(".html")).collect();
    // Buns in 2 sizes, 4 ways and 2 units; loaves; lists.
    assert!(pages.len() > 30, "{pages:?}");
    let mut reached: Vec<String> = Vec::new();
    for name in &pages {
        let text = String::from_utf8(all[*name].clone()).expect("text");
        for (attribute, target) in links(&text) {
            if attribute == "canonical" {
                assert!(target.starts_with("https://skerrow.example/bakes/"), "{name}: {target}");
                continue;
            }
            let path = Path::new(name).parent().expect("a folder").join(&target);
            let plain = walk::without_dots(&path);
            assert!(all.contains_key(&plain), "{name} leads to {target}, where nothing is");
            reached.push(plain);
        }
        let policy = text.contains("Content-Security-Policy\" content=\"default-src 'none'; style-src 'self'; font-src 'self'; img-src 'self'; script-src 'self';");
        assert!(policy && !text.contains("unsafe"), "{name}");
        for script in scripts(&text) {
            assert!(script.contains(" src=\"") || script.contains("application/ld+json"), "{name}: {script}");
        }
        assert!(!text.contains(" style=\"") && !text.contains(" onclick") && !text.contains("<b>buns"), "{name}");
    }
    for name in &pages {
        assert!(reached.contains(name) || *name == "index.html", "nothing leads to {name}");
    }
    for asset in [
        "assets/site.css",
        "assets/site.js",
        "assets/search-index.js",
        "cards/plain-loaf.pdf",
        "sources/plain-loaf.txt",
    ] {
        assert!(all.contains_key(asset), "{asset}");
    }
    assert!(all["cards/plain-loaf.pdf"].starts_with(b"%PDF"));
}

#[test]
fn a_recipe_is_read_without_script_in_every_size_way_and_unit() {
    let folder = folder();
    site(folder.path(), "book.miche");
    let main = page(folder.path(), "recipes/breakwater-script-b-buns-co.html");
    for words in [
        "500\u{a0}g",
        "5\u{a0}g",
        "instant yeast",
        "until smooth".trim_start_matches("until "),
        "12 buns",
        "Mara Ness",
        "width=\"1600\" height=\"800\"",
    ] {
        assert!(main.contains(words), "{words}");
    }
    assert!(!main.contains("Otherwise"), "other ways have pages of their own");
    let twice = page(folder.path(), "recipes/breakwater-script-b-buns-co-24-buns-hand-crumb.html");
    assert!(twice.contains("1000\u{a0}g") && twice.contains("6\u{a0}g"), "{twice}");
    let us = page(folder.path(), "us/breakwater-script-b-buns-co-24-buns-hand-crumb.html");
    assert!(us.contains("lb") && us.contains("°F") && !us.contains("210\u{a0}°C"), "{us}");
    // From each variant the others are one link away.
    assert!(us.contains("href=\"../recipes/breakwater-script-b-buns-co-24-buns-hand-crumb.html\""));
    assert!(
        us.contains("href=\"../us/breakwater-script-b-buns-co-12-buns-hand-crumb.html\"")
            && us.contains("aria-current=\"page\"")
    );
    let front = page(folder.path(), "index.html");
    assert!(front.contains("id=\"search\" role=\"search\" hidden"), "the search waits for the script");
    for words in [
        "Sweet &amp; more",
        "Bread",
        "From the &lt;i&gt;harbour&lt;/i&gt; ovens",
        "width=\"640\" height=\"320\"",
        "Хлеб",
    ] {
        assert!(front.contains(words), "{words}");
    }
}

#[test]
fn two_recipes_of_one_title_and_titles_without_a_latin_letter_have_files_of_their_own() {
    let folder = folder();
    site(folder.path(), "book.miche");
    let first = page(folder.path(), "recipes/pier-loaf.html");
    let second = page(folder.path(), "recipes/pier-loaf-2.html");
    assert!(!first.contains("sea lettuce") && second.contains("sea lettuce"));
    assert!(page(folder.path(), "recipes/recipe.html").contains("Хлеб"));
}

#[test]
fn the_data_holds_against_the_published_vocabulary_with_address_and_dates() {
    let folder = folder();
    let git = |arguments: &[&str]| {
        let date = "2027-03-02T05:30:00 +0000";
        let done = Command::new("git")
            .current_dir(folder.path())
            .args(["-c", "user.name=Mara", "-c", "user.email=mara@skerrow.example", "-c", "init.defaultBranch=main"])
            .args(arguments)
            .env("GIT_AUTHOR_DATE", date)
            .env("GIT_COMMITTER_DATE", date)
            .output()
            .expect("git");
        assert!(done.status.success(), "{done:?}");
    };
    git(&["init", "-q"]);
    git(&["add", "."]);
    git(&["commit", "-q", "-m", "The first <loaves>"]);
    git(&["mv", "plain.miche", "plainer.miche"]);
    fs::write(folder.path().join("book.miche"), BOOK.replace("plain.miche", "plainer.miche")).expect("written");
    git(&["commit", "-q", "-a", "-m", "A name"]);
    let told = site(folder.path(), "book.miche");
    assert!(!told.contains("no git repository"), "{told}");
    for (name, text) in files(&folder.path().join("site")) {
        if name.starts_with("recipes/") || name.starts_with("us/") {
            let data = data(&String::from_utf8(text).expect("text"));
            let mut told = Vec::new();
            hold(&data, &vocabulary(), &mut told);
            assert_eq!(
                (&data["datePublished"], &data["dateModified"]),
                (&"2027-03-02".into(), &"2027-03-02".into()),
                "{name}"
            );
            assert!(data["url"].as_str().expect("an address").starts_with("https://skerrow.example/bakes/recipes/"));
        }
    }
    // The list that a search engine's published rules want of a page that leads to recipes (seen 2026-11-26).
    let list = data(&page(folder.path(), "index.html"));
    assert_eq!((&list["@type"], &list["itemListElement"][4]["position"]), (&"ItemList".into(), &5.into()));
    assert_eq!(list["itemListElement"][0]["url"], "https://skerrow.example/bakes/recipes/plain-loaf.html");
    let buns = data(&page(folder.path(), "recipes/breakwater-script-b-buns-co.html"));
    assert_eq!(buns["name"], "Breakwater </script><b>buns & co");
    let image = buns["image"][0].as_str().expect("a picture");
    assert!(
        image.starts_with("https://skerrow.example/bakes/pictures/blue-tray-") && image.ends_with("-1600.png"),
        "{image}"
    );
    assert_eq!(data(&page(folder.path(), "recipes/plain-loaf.html"))["author"]["name"], "The Skerrow bakehouse");
    let changes = page(folder.path(), "changes.html");
    assert!(
        changes.contains("The first &lt;loaves&gt;") && changes.contains("A name") && changes.contains("(new)"),
        "{changes}"
    );
    assert_eq!(changes.matches("Plain loaf").count(), 2, "a renamed file is followed");
}

/// By the name of each file what it holds and which file of the disk it is.
#[cfg(unix)]
fn inodes(top: &Path) -> BTreeMap<String, u64> {
    use std::os::unix::fs::MetadataExt;
    files(top).into_keys().map(|name| (name.clone(), fs::metadata(top.join(name)).expect("there").ino())).collect()
}

#[cfg(unix)]
#[test]
fn a_second_run_writes_only_what_changed() {
    let folder = folder();
    site(folder.path(), "book.miche");
    let top = folder.path().join("site");
    let (before, old) = (inodes(&top), files(&top));
    let told = site(folder.path(), "book.miche");
    assert!(told.contains(" 0 of them written"), "{told}");
    assert_eq!(inodes(&top), before);
    fs::write(folder.path().join("plain.miche"), loaf("Plain loaf", "").replace("620 g", "640 g")).expect("written");
    site(folder.path(), "book.miche");
    let now = inodes(&top);
    let other: Vec<&String> =
        now.iter().filter(|(name, inode)| before.get(*name) != Some(*inode)).map(|(name, _)| name).collect();
    assert_eq!(
        other,
        ["cards/plain-loaf.pdf", "recipes/plain-loaf.html", "sources/plain-loaf.txt", "us/plain-loaf.html"]
    );
    // What is no longer made goes away; what somebody put there stays.
    fs::write(top.join("CNAME"), "skerrow.example").expect("written");
    fs::write(folder.path().join("book.miche"), BOOK.replace("page \"cyrillic.miche\"\n", "")).expect("written");
    site(folder.path(), "book.miche");
    let now = files(&top);
    assert!(old.contains_key("recipes/recipe.html") && !now.contains_key("recipes/recipe.html"));
    assert_eq!(now["CNAME"], b"skerrow.example");
    let left: Vec<_> =
        fs::read_dir(folder.path()).expect("a folder").map(|entry| entry.expect("an entry").file_name()).collect();
    assert!(left.iter().all(|name| !name.to_string_lossy().starts_with('.')), "nothing is left over: {left:?}");
}

#[test]
fn a_run_that_fails_leaves_the_old_site_and_other_folders_as_they_were() {
    let folder = folder();
    site(folder.path(), "book.miche");
    let before = files(&folder.path().join("site"));
    fs::write(folder.path().join("plain.miche"), "recipe Plain loaf\nflour .... 5 kgs of\n").expect("written");
    let output = run(folder.path(), &["book", "book.miche", "-o", "site"]);
    assert_eq!(output.status.code(), Some(1), "{}", said(&output));
    assert!(said(&output).contains("plain.miche:2"), "{}", said(&output));
    assert_eq!(files(&folder.path().join("site")), before);

    fs::write(folder.path().join("plain.miche"), loaf("Plain loaf", "")).expect("written");
    for (target, words) in [
        (".", "other files"),
        ("book.miche", "a folder for a site"),
        ("site.html", "a folder for a site"),
        ("nowhere/site", "the folder in which it should stand is not there"),
    ] {
        let output = run(folder.path(), &["book", "book.miche", "-o", target]);
        assert_eq!(output.status.code(), Some(2), "{target}: {}", said(&output));
        assert!(said(&output).contains(words), "{target}: {}", said(&output));
    }
    assert_eq!(fs::read_to_string(folder.path().join("book.miche")).expect("there"), BOOK);
}

#[test]
fn a_folder_without_a_book_is_one_in_the_order_of_the_alphabet() {
    let folder = folder();
    fs::remove_file(folder.path().join("book.miche")).expect("removed");
    fs::write(folder.path().join("kitchen.miche"), "kitchen Quay\noven x 1\n").expect("written");
    let told = site(folder.path(), ".");
    assert!(told.contains("no git repository"), "{told}");
    let front = page(folder.path(), "index.html");
    let at = |title: &str| front.find(&format!(">{title}</span>")).unwrap_or_else(|| panic!("{title}"));
    assert!(
        at("Breakwater &lt;/script&gt;&lt;b&gt;buns &amp; co") < at("Pier loaf") && at("Pier loaf") < at("Plain loaf")
    );
    assert!(!front.contains("canonical") && !folder.path().join("site/sitemap.txt").exists());
    // The site's sources are no recipes of the folder when it is written again.
    assert!(site(folder.path(), ".").contains(" 0 of them written"));
    for name in ["a.miche", "b.miche"] {
        fs::write(folder.path().join(name), "book Two\npage \"plain.miche\"\n").expect("written");
    }
    let output = run(folder.path(), &["book", ".", "-o", "site"]);
    assert_eq!(output.status.code(), Some(2));
    assert!(said(&output).contains("several books"), "{}", said(&output));
    let output = run(folder.path(), &["book", "plain.miche", "-o", "site"]);
    assert!(output.status.code() == Some(2) && said(&output).contains("no book"), "{}", said(&output));
}

/// A search without an allergen must not name what nobody knows of.
#[test]
fn the_search_index_is_small_and_knows_what_is_not_known() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut book = "book Hundred\n".to_owned();
    for number in 0..100 {
        let story = format!(
            "story Number {number} of a hundred loaves that the keeper bakes for the pier, the harbour and the ferry.\nby Mara Ness\nfiled under breads, loaf {number}\n"
        );
        let text = BUNS.lines().skip(1).filter(|line| {
            !line.starts_with("picture")
                && !line.starts_with("story")
                && !line.starts_with("by ")
                && !line.starts_with("filed")
        });
        let text: String = text.map(|line| format!("{line}\n")).collect();
        fs::write(
            folder.path().join(format!("{number}.miche")),
            format!("recipe Harbour loaf number {number}\n{story}{text}"),
        )
        .expect("written");
        book.push_str(&format!("page \"{number}.miche\", choose machine, choose crumb\n"));
    }
    fs::write(folder.path().join("unknown.miche"), loaf("Unknown", "grey powder of the pier ......... 20 g\n"))
        .expect("written");
    book.push_str("page \"unknown.miche\"\n");
    fs::write(folder.path().join("book.miche"), book).expect("written");
    site(folder.path(), "book.miche");
    let index = page(folder.path(), "assets/search-index.js");
    assert!(index.len() < 60_000, "{} bytes", index.len());
    let json = index.strip_prefix("window.micheBook=").and_then(|rest| rest.strip_suffix(";\n")).expect("a script");
    let index: Value = serde_json::from_str(json).expect("JSON");
    let recipes = index["r"].as_array().expect("recipes");
    assert_eq!(recipes.len(), 101);
    assert!(recipes[0]["w"].as_str().expect("words").contains("loaf 0") && recipes[0]["u"].is_null());
    assert_eq!(recipes[100]["u"], 1, "nobody knows what is in a powder");
    let milk = index["a"].as_array().expect("allergens").iter().position(|name| name == "milk").expect("milk");
    assert!(recipes[0]["a"].as_array().expect("allergens").contains(&milk.into()));
    let allergen = page(folder.path(), "allergens/milk.html");
    let (with, without) = allergen.split_once("not known").expect("both");
    assert!(without.contains("Unknown") && !with.contains("Unknown"), "{allergen}");
}

#[test]
fn every_problem_of_a_book_is_told_at_once() {
    let folder = folder();
    let text = "book Quay\naddress skerrow.example\nchapter Bread\nchapter bread\npage \"plain.miche\"\npage \"plain.miche\", sizes 4\n\
                page \"buns.miche\", choose hnad\npage \"buns.miche\", choose hand, sizes 0\npage \"nowhere.miche\"\npages \"loaf-1.miche\"\n";
    fs::write(folder.path().join("bad.miche"), text).expect("written");
    let output = run(folder.path(), &["check", "bad.miche", "--format", "short"]);
    let told = said(&output);
    for (line, check) in [
        (2, "stray-line"),
        (3, "empty-chapter"),
        (4, "twice-named"),
        (6, "twice-named"),
        (7, "unknown-option"),
        (8, "size-not-made"),
        (9, "missing-use"),
        (10, "stray-line"),
    ] {
        let is_told = told.lines().any(|one| one.contains(&format!("bad.miche:{line}:")) && one.contains(check));
        assert!(is_told, "{line}: {check}\n{told}");
    }
    // What is said of a size is in words that can stand in the file.
    assert!(!told.contains("--pieces"), "{told}");
    fs::write(
        folder.path().join("crumble.miche"),
        "recipe Crumble\nmakes 1 kg\nwheat flour .... 600 g\nbutter .... 400 g\n",
    )
    .expect("written");
    fs::write(
        folder.path().join("halves.miche"),
        "book Halves\npage \"buns.miche\", sizes x 1/7\npage \"crumble.miche\", sizes 8\n",
    )
    .expect("written");
    let halves = said(&run(folder.path(), &["check", "halves.miche"]));
    assert!(halves.contains("sizes ") && !halves.contains("--"), "{halves}");
    let output = run(folder.path(), &["book", "bad.miche", "-o", "site"]);
    assert!(output.status.code() == Some(1) && !folder.path().join("site").exists(), "{}", said(&output));
}

#[test]
fn the_example_book_is_made() {
    let folder = tempfile::tempdir().expect("a folder");
    let target = folder.path().join("site");
    let output = run(
        Path::new(env!("CARGO_MANIFEST_DIR")),
        &["book", "examples/harbour-ovens.miche", "-o", target.to_str().expect("a path")],
    );
    assert!(output.status.success(), "{}", said(&output));
    let all = files(&target);
    for name in
        ["recipes/quay-baguettes-40-baguettes.html", "us/quay-baguettes.html", "allergens.html", "ingredients.html"]
    {
        assert!(all.contains_key(name), "{name}: {:?}", all.keys());
    }
}
