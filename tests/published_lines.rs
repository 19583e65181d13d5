//! What a recipe says for its readers: read, tidied, compared, merged; and what is wrong with pictures.

// Helpers outside a test function fail a test by panicking, as the tests do.
#![allow(clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

#[path = "reader/picture.rs"]
mod picture;

use picture::png;
use serde_json::Value;
use std::fs;
use std::path::Path;
use std::process::{Command, Output};
use tempfile::TempDir;

const BUNS: &str = "\
recipe Breakwater buns
makes 12 buns
story A bun for a windy morning.
    It wants *cold* butter.

    The dough rests while the boats come in.
picture \"buns.png\", Twelve buns on a blue tray
by Mara Ness
filed under buns, make ahead

strong white flour ............ 500 g
whole milk .................... 310 g
butter ........................ 60 g, soft, instead: margarine 60 g, less rich, instead: olive oil 50 g
salt .......................... 9 g
instant yeast ................. 5 g

mix: hands 10 min
    Mix {strong white flour}, {whole milk}, {salt} and {instant yeast}, then {butter}.
    picture \"bowl.png\", The dough in its bowl
    until smooth
rise: wait 60 min, at 24 C
    until doubled
bake: tend 15 min, using oven at 210 C
    until gold
";

fn folder(recipe: &str) -> TempDir {
    let folder = tempfile::tempdir().expect("a folder");
    fs::write(folder.path().join("buns.miche"), recipe).expect("a file");
    fs::write(folder.path().join("buns.png"), png(40, 30)).expect("a file");
    fs::write(folder.path().join("bowl.png"), png(20, 20)).expect("a file");
    folder
}

fn miche(folder: &Path, arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_miche")).current_dir(folder).args(arguments).output().expect("the program starts")
}

fn out(output: &Output) -> String {
    String::from_utf8_lossy(&output.stdout).into_owned()
}

/// The checks and messages of what is wrong.
fn problems(folder: &Path) -> Vec<(String, String)> {
    let json: Value =
        serde_json::from_str(&out(&miche(folder, &["check", "buns.miche", "--format", "json"]))).expect("JSON");
    let words = |problem: &Value, key: &str| problem[key].as_str().unwrap_or_default().to_owned();
    let all = json.as_array().expect("a list").iter();
    all.filter(|one| one["severity"] == "error").map(|one| (words(one, "check"), words(one, "message"))).collect()
}

#[test]
fn lines_for_readers_are_read_and_change_no_card() {
    let with = folder(BUNS);
    assert_eq!(problems(with.path()), Vec::new());
    let is_for_readers = |line: &str| {
        ["story", "picture", "by ", "filed", "    It wants", "    The dough rests", "    picture"]
            .iter()
            .any(|word| line.starts_with(word))
    };
    let bare: String = BUNS.lines().filter(|line| !is_for_readers(line)).map(|line| format!("{line}\n")).collect();
    let bare = bare.replace(", instead: margarine 60 g, less rich, instead: olive oil 50 g", "");
    let without = folder(&bare);
    for format in ["json", "markdown", "text"] {
        let card = |folder: &TempDir| out(&miche(folder.path(), &["card", "buns.miche", "--format", format]));
        assert!(card(&with) == card(&without), "{format}:\n{}\n{}", card(&with), card(&without));
    }
}

#[test]
fn tidying_keeps_what_is_said_and_lays_it_out_once() {
    let untidy = BUNS
        .replace("story A bun", "STORY  A bun")
        .replace("picture \"buns.png\", Twelve", "picture  \"buns.png\" ,Twelve")
        .replace("by Mara", "By Mara")
        .replace("filed under buns, make ahead", "filed   under buns ,make ahead")
        .replace("instead: margarine 60 g, less rich", "Instead :margarine  60g,less   rich")
        .replace("    picture \"bowl.png\"", "      picture \"bowl.png\"");
    let with = folder(&untidy);
    let tidied = miche(with.path(), &["tidy", "buns.miche"]);
    assert!(tidied.status.code().is_some_and(|code| code < 2), "{tidied:?}");
    let text = fs::read_to_string(with.path().join("buns.miche")).expect("a file");
    for line in BUNS.lines().filter(|line| !line.contains("bowl.png")) {
        assert!(text.contains(line), "`{line}` is lost:\n{text}");
    }
    let again = miche(with.path(), &["tidy", "--check", "buns.miche"]);
    assert_eq!(again.status.code(), Some(0), "{again:?}");
}

#[test]
fn a_changed_story_is_a_change_of_words_and_not_of_the_formula() {
    let with = folder(BUNS);
    let changes = [
        ("A bun for a windy morning.", "A bun for a quiet morning."),
        ("by Mara Ness", "by Ida Ness"),
        ("filed under buns, make ahead", "filed under buns"),
        ("less rich", "plainer"),
        ("Twelve buns on a blue tray", "Twelve buns on a rack"),
        ("The dough in its bowl", "The dough in a bowl"),
    ];
    for (old, new) in changes {
        fs::write(with.path().join("new.miche"), BUNS.replace(old, new)).expect("a file");
        let diff = miche(with.path(), &["diff", "buns.miche", "new.miche", "--format", "json"]);
        let json: Value = serde_json::from_str(&out(&diff)).expect("JSON");
        assert_eq!(json["changed"], true, "`{old}`: {json:#}");
        assert_eq!(json["rescaled"], Value::Null);
        let told = json.to_string();
        let (word, _) = new.rsplit_once(' ').map_or((new, ""), |(_, last)| (last, ""));
        assert!(told.contains(word), "`{new}` is not told: {json:#}");
        let lines =
            json["parts"].as_array().expect("parts").iter().flat_map(|part| part["lines"].as_array().expect("lines"));
        for line in lines {
            assert_eq!(line["old_g"], line["new_g"], "`{old}`");
        }
    }
}

#[test]
fn two_people_may_change_story_and_formula() {
    let with = folder(BUNS);
    let write = |name: &str, text: String| fs::write(with.path().join(name), text).expect("a file");
    write("base.miche", BUNS.to_owned());
    write(
        "ours.miche",
        BUNS.replace("windy", "quiet").replace(
            "60 g, soft, instead: margarine 60 g, less rich",
            "60 g, soft, instead: margarine 55 g, less rich",
        ),
    );
    write(
        "theirs.miche",
        BUNS.replace("butter ........................ 60 g", "butter ........................ 65 g")
            .replace("by Mara", "by Ida"),
    );
    let merged = miche(with.path(), &["merge", "base.miche", "ours.miche", "theirs.miche"]);
    // As git wants it, what is merged stands where ours stood.
    let text = fs::read_to_string(with.path().join("ours.miche")).expect("a file");
    let wanted = ["quiet", "by Ida", "65 g, soft, instead: margarine 55 g, less rich"];
    assert!(wanted.iter().all(|words| text.contains(words)) && !text.contains("<<<<"), "{merged:?}\n{text}");
}

#[test]
fn what_is_wrong_with_a_picture_is_told() {
    let line = "picture \"buns.png\", Twelve buns on a blue tray";
    let one = |written: &str, check: &str, words: &str, prepare: &dyn Fn(&Path)| {
        let with = folder(&BUNS.replace(line, written));
        prepare(with.path());
        let found = problems(with.path());
        assert!(
            matches!(found.as_slice(), [(name, message)] if name == check && message.contains(words)),
            "`{written}`: {found:#?}"
        );
    };
    let nothing = |_: &Path| {};
    let put = |bytes: Vec<u8>| move |folder: &Path| fs::write(folder.join("other.png"), &bytes).expect("a file");
    let other = "picture \"other.png\", Twelve buns";
    one("picture \"bun.png\", Twelve buns", "missing-picture", "no such file", &nothing);
    one("picture \".\", Twelve buns", "missing-picture", "folder", &nothing);
    one("picture \"\", Twelve buns", "missing-picture", "names no file", &nothing);
    one("picture \"/etc/hostname\", Twelve buns", "use-outside-root", "absolute", &nothing);
    one("picture \"../../../../../../etc/hostname\", Twelve buns", "use-outside-root", "outside", &nothing);
    one("picture \"buns.miche\", Twelve buns", "missing-picture", "neither a JPEG nor a PNG", &nothing);
    one("picture \"buns.png\"", "no-description", "what is seen", &nothing);
    one("picture \"buns.png\", ...", "no-description", "what is seen", &nothing);
    one("picture buns.png, Twelve buns", "stray-line", "picture", &nothing);
    one("picture \"buns.png\" Twelve buns", "stray-line", "Twelve buns", &nothing);
    one(other, "missing-picture", "neither", &put(Vec::new()));
    one(other, "missing-picture", "neither", &put(b"GIF89a123".to_vec()));
    // 50 000 x 50 000 dots said in a hundred bytes.
    let mut vast = png(8, 8);
    vast.splice(16..24, [0, 0, 0xC3, 0x50, 0, 0, 0xC3, 0x50]);
    one(other, "missing-picture", "50000 x 50000", &put(vast));
    let mut none = png(8, 8);
    none.splice(16..24, [0; 8]);
    one(other, "missing-picture", "damaged", &put(none));
    one(other, "missing-picture", "25 MiB", &|folder| {
        let file = fs::File::create(folder.join("other.png")).expect("a file");
        file.set_len(25 * 1024 * 1024).expect("room");
    });
}

#[test]
fn what_stands_in_the_wrong_place_is_told() {
    let one = |old: &str, new: &str, words: &str| {
        let with = folder(&BUNS.replace(old, new));
        let found = problems(with.path());
        assert!(
            found.iter().any(|(check, message)| check == "stray-line" && message.contains(words)),
            "`{new}`: {found:#?}"
        );
    };
    one("salt ..", "part dough\nby Ida\nsalt ..", "head of the recipe");
    one("salt ..", "part dough\nfiled under rolls\nsalt ..", "head of the recipe");
    one("salt ..", "part dough\nstory Again.\nsalt ..", "head of the recipe");
    one("    It wants *cold* butter.", "    picture \"bowl.png\", A bowl", "looks like a picture");
    one("instead: margarine 60 g", "instead: margarine", "name and an amount");
    one("instead: margarine 60 g", "instead margarine 60 g", "colon");
    one("by Mara Ness", "author Mara Ness", "fits nothing");
}

/// A bare number within a name is no amount, and what is left of an ingredient may be told in words.
#[test]
fn what_stands_in_may_have_a_number_in_its_name() {
    for clause in [
        "instead: type 65 flour 480 g",
        "instead: margarine 2 oz = 57 g, less rich",
        "instead: margarine 12 %",
        "instead: margarine 1 oz 4 g",
    ] {
        let with = folder(&BUNS.replace("instead: margarine 60 g, less rich, instead: olive oil 50 g", clause));
        assert_eq!(problems(with.path()), Vec::new(), "{clause}");
    }
    let with =
        folder(&BUNS.replace("instead: margarine 60 g, less rich, instead: olive oil 50 g", "instead of margarine"));
    assert_eq!(problems(with.path()), Vec::new());
}
