//! Data that is made to do harm: lines of the language in its texts, rings, depth, a million entries.

use super::{draft, miche, no_line_is_stray, said};
use miche::language::parse::parse;
use miche::language::syntax::Content;
use miche::model::notes::{Form, read};
use miche::text::source::SourceId;
use serde_json::json;
use std::fs;

#[test]
fn hostile_data_does_no_harm() {
    let recipe = |name: &str, line: &str, step: &str| {
        json!({ "@type": "Recipe", "name": name, "recipeIngredient": [line], "recipeInstructions": [step], "description": step, "author": name,
            "keywords": line, "recipeYield": line, "image": step, "note\nuse \"x\"": "y" })
        .to_string()
    };
    for evil in [
        "500 g flour\nuse \"/etc/passwd\"",
        "500 g flour\u{2028}part x\u{85}part y\u{0B}part z\rpart w",
        "flour\u{0}\u{1b}[31m\u{202E}red\u{7}",
        "{500 g of flour} [hand] # allow no-unit: x",
        "# allow twice-named: because",
        "# look",
        "recipe x",
        "use \"evil.miche\"",
        "part dough .. all",
        "<script>alert(1)</script> & <b",
        "\\{ \\[ \\",
        "```\n# x\n```",
        "..........",
        "<<<<<<< ours\n=======\n>>>>>>> theirs",
        "until it is done",
        "12 x 1/0 g = 5",
    ] {
        let text = recipe(evil, evil, evil);
        let draft = read(&text, Form::Data, None, "x").expect("a recipe");
        no_line_is_stray(&draft);
        let (tree, _) = parse(SourceId(0), &draft.text);
        let uses = tree.lines.iter().filter(|line| matches!(line.content, Content::Use { .. })).count();
        assert_eq!(uses, 0, "{}", draft.text);
        assert!(!draft.text.chars().any(|c| c.is_control() && c != '\n'), "{}", draft.text);
        let comments = draft.text.lines().filter(|line| line.trim_start().starts_with("# allow"));
        assert_eq!(comments.count(), 0, "{}", draft.text);
    }
    let deep = format!("{}{}", "[".repeat(200_000), "]".repeat(200_000));
    assert!(read(&deep, Form::Data, None, "x").expect_err("too deep").contains("recursion limit"));
    let nested = format!(
        "{}{{\"@type\":\"Recipe\",\"name\":\"Quay buns\",\"recipeIngredient\":[\"1 g flour\"]}}{}",
        "[".repeat(100),
        "]".repeat(100)
    );
    assert_eq!(draft(&nested).name, "Quay buns");
    let ring = r##"{"@graph":[{"@id":"#a","@type":"Recipe","name":"Quay buns","recipeIngredient":{"@id":"#b"},"recipeInstructions":{"@id":"#b"},"author":{"@id":"#b"}},
        {"@id":"#b","@type":"ItemList","name":{"@id":"#b"},"text":{"@id":"#b"},"itemListElement":[{"@id":"#b"},{"@id":"#b"}]}]}"##;
    assert_eq!(draft(ring).name, "Quay buns");
    let unending = format!("<html><script type=\"application/ld+json\">{}", "{\"a\":[".repeat(10_000));
    assert!(read(&unending, Form::Page, None, "x").is_err());
    let tags = format!("<html>{}<script type='application/ld+json'>{}</script>", "<a <b <!-- ".repeat(20_000), "[]");
    assert!(read(&tags, Form::Page, None, "x").is_err());
}

#[test]
fn a_million_entries_are_told_and_not_written() {
    let many = vec!["1 g salt"; 60_000];
    let text = json!({ "@type": "Recipe", "name": "Quay buns", "recipeIngredient": many, "recipeInstructions": many, "keywords": many }).to_string();
    let draft = draft(&text);
    assert!(draft.text.len() < 1_000_000, "{}", draft.text.len());
    assert!(
        draft.text.contains("so many more texts of the data are too long or too many to be written here: "),
        "{:.2000}",
        draft.text
    );
}

#[test]
fn files_that_are_no_text_are_refused() {
    let folder = tempfile::tempdir().expect("a folder");
    let path = folder.path().join("large.html");
    fs::File::create(&path).expect("made").set_len(100 * 1024 * 1024).expect("long");
    let large = miche(folder.path(), &["new", "--from", "large.html"]);
    assert_eq!(large.status.code(), Some(2));
    assert!(said(&large).contains("it is larger than 8 MiB"), "{}", said(&large));
    fs::write(folder.path().join("latin.html"), b"<html>caf\xe9</html>").expect("written");
    let latin = miche(folder.path(), &["new", "--from", "latin.html"]);
    assert!(said(&latin).contains("it is not UTF-8 text (line 1, byte 10)"), "{}", said(&latin));
    fs::write(folder.path().join("plain.html"), "<html>500 g flour</html>").expect("written");
    let plain = miche(folder.path(), &["new", "--from", "plain.html"]);
    assert_eq!(plain.status.code(), Some(2));
    assert!(said(&plain).contains("plain.html: this page says nothing as Recipe data"), "{}", said(&plain));
    assert_eq!(fs::read_dir(folder.path()).expect("readable").count(), 3, "nothing is written");
}
