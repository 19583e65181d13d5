//! The examples: no problems, cards under every choice, at several sizes and in every format, and three cards to look at.

// Helpers outside a test function fail a test by panicking, as the tests do.
#![allow(clippy::expect_used, clippy::panic)]

#[path = "properties/figures.rs"]
mod figures;

use miche::check::{check_file, work_out};
use miche::edge::loader::{Loader, find_files};
use miche::figures::card::{Card, card};
use miche::language::syntax::{Content, FileKind, Line};
use miche::make::size::{self, Size};
use miche::measure::number::Number;
use miche::measure::show::Units;
use miche::model::project::Project;
use miche::model::recipe::Selection;
use miche::out;
use miche::out::report;
use miche::out::sheet::{By, Orientation, Paper, Sheet};
use miche::solve::resolve::{choices_of, selections};
use miche::text::diagnostic::Severity;
use miche::text::source::SourceId;
use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("examples")
}

/// All examples, read.
fn project() -> (Project, Vec<SourceId>) {
    let mut loader = Loader::new();
    let files = find_files(&folder()).expect("there are examples");
    let sources = files.iter().map(|file| loader.load(file).expect("an example is readable")).collect();
    (loader.into_project(), sources)
}

/// An example by its name.
fn example(name: &str) -> (Project, SourceId) {
    let mut loader = Loader::new();
    let source = loader.load(&folder().join(name)).expect("the example is readable");
    (loader.into_project(), source)
}

fn title(project: &Project, source: SourceId) -> String {
    project.sources.get(source).map(|source| source.name.clone()).unwrap_or_default()
}

#[test]
fn nothing_is_wrong_with_them() {
    let (project, sources) = project();
    assert!(sources.len() >= 8, "there are {} examples", sources.len());
    let mut found = String::new();
    for source in sources {
        for problem in check_file(&project, source) {
            // Advice says that nothing is wrong.
            if problem.severity != Severity::Advice {
                found.push_str(&report::terminal::render(&project.sources, &problem, false, 100));
            }
        }
    }
    assert!(found.is_empty(), "\n{found}");
}

#[test]
fn every_card_adds_up_in_every_format() {
    let (project, sources) = project();
    let mut cards = 0;
    for source in sources {
        let tree = &project.file(source).expect("it was read").tree;
        if tree.kind != FileKind::Recipe {
            continue;
        }
        for selection in selections(&choices_of(tree)) {
            let of_selection = cards_of(&project, source, &selection);
            // As written, and twice and three times as much, are always whole batches.
            assert!(of_selection.len() >= 3 * 3, "{}: {} cards", title(&project, source), of_selection.len());
            for (units, card) in &of_selection {
                shows(&title(&project, source), card);
                let faults = if *units == Units::Metric { figures::faults(card) } else { Vec::new() };
                assert!(faults.is_empty(), "{} {:?}: {faults:#?}", title(&project, source), card.choices);
            }
            cards += of_selection.len();
        }
    }
    assert!(cards > 100, "{cards} cards");
}

/// The cards of a recipe under one selection, at several sizes and in all units.
fn cards_of(project: &Project, source: SourceId, selection: &Selection) -> Vec<(Units, Card)> {
    let (recipe, formula) = work_out(project, source, selection, &mut Vec::new()).expect("it is a recipe");
    let fraction = |above, below| Number::fraction(above, below).expect("the denominator is not 0");
    let sizes = [fraction(1, 1), fraction(2, 1), fraction(3, 1), fraction(1, 2), fraction(1, 3), fraction(7, 4)];
    let mut cards = Vec::new();
    for size in sizes {
        // Where pieces would not stay whole there is no such batch.
        let Ok((factor, limit)) = size::factor(&recipe, &formula, &Size::Times(size)) else { continue };
        let scaled = formula.times(factor).expect("in range");
        for units in [Units::Metric, Units::Us, Units::Both] {
            cards.push((units, card(&recipe, &scaled, factor, limit.clone(), units).expect("in range")));
        }
    }
    cards
}

/// Every format shows the title, every part, every ingredient and every step.
fn shows(example: &str, card: &Card) {
    let markdown = out::card::markdown(std::slice::from_ref(card), None);
    let text = out::card::text(std::slice::from_ref(card), None, out::text::Style::plain(200));
    let narrow = out::card::text(std::slice::from_ref(card), None, out::text::Style::plain(48));
    let sheet = Sheet {
        paper: Paper::A4,
        orientation: Orientation::Portrait,
        by: By::Recipe,
        printed: "2027-04-17".to_owned(),
        compact: false,
        revision: None,
    };
    let html = out::html::render(std::slice::from_ref(card), None, &sheet);
    let json = out::json::render(card).expect("a card is JSON");
    let read: serde_json::Value = serde_json::from_str(&json).expect("a card is JSON");
    assert_eq!(read.pointer("/parts").and_then(|parts| parts.as_array()).map(Vec::len), Some(card.parts.len()));
    assert!(!narrow.is_empty());
    let names = card.parts.iter().flat_map(|part| {
        let lines = part.lines.iter().map(|line| line.ingredient.as_str());
        lines.chain(part.steps.iter().map(|step| step.name.as_str())).chain([part.name.as_str()])
    });
    for name in names {
        for (format, output) in [("Markdown", &markdown), ("text", &text), ("HTML", &html), ("JSON", &json)] {
            // Headings may be set in capitals.
            let found = output.contains(name) || output.to_lowercase().contains(&name.to_lowercase());
            assert!(found, "{example}: {name} is not on the card as {format}\n{output}");
        }
    }
}

/// The examples teach the language, so that together they use every kind of line there is.
#[test]
fn together_they_use_every_kind_of_line() {
    let (project, sources) = project();
    let mut used = BTreeSet::new();
    for source in sources {
        for line in &project.file(source).expect("it was read").tree.lines {
            used.extend(kinds_of(line));
        }
    }
    let wanted = [
        "AlsoCalled",
        "Blank",
        "Choose",
        "Comment",
        "Contains",
        "Cooks",
        "Costs",
        "Day",
        "DesiredTemperature",
        "Divide",
        "Equipment",
        "Fact",
        "Flag",
        "Ingredient",
        "IngredientBlock",
        "Keeps",
        "Kitchen",
        "Make",
        "Makes",
        "Measures",
        "OneWeighs",
        "Open",
        "Part",
        "PerPiece",
        "Percent",
        "Prose",
        "Ready",
        "Recipe",
        "Scale",
        "Source",
        "Spare",
        "Step",
        "Text",
        "Until",
        "Use",
        "Weighs",
        "a condition",
        "a comment behind a line",
        "All",
        "ToTaste",
        "AsNeeded",
        "At",
        "Yield",
        "NotFlour",
        "Optional",
        "Aside",
        "Preparation",
        "Each",
        "AtATime",
        "Using",
        "UpTo",
        "During",
        "After",
        "StraightAfter",
        "Within",
        "Station",
        "People",
        "Hands",
        "Tend",
        "Wait",
    ];
    let missing: Vec<&str> = wanted.into_iter().filter(|kind| !used.contains(*kind)).collect();
    assert!(missing.is_empty(), "no example uses {missing:?}");
}

/// The names of what a line says, as the tree calls it.
fn kinds_of(line: &Line) -> Vec<String> {
    let name = |shown: String| {
        let end = shown.find(|c: char| !c.is_alphanumeric()).unwrap_or(shown.len());
        shown.get(..end).unwrap_or("").to_owned()
    };
    let mut kinds = vec![name(format!("{:?}", line.content))];
    match &line.content {
        Content::Ingredient(ingredient) => {
            kinds.push(name(format!("{:?}", ingredient.amount)));
            kinds.extend(ingredient.clauses.iter().map(|clause| name(format!("{:?}", clause.value))));
        }
        Content::Step(step) => {
            kinds.push(name(format!("{:?}", step.kind.value)));
            kinds.extend(step.clauses.iter().map(|clause| name(format!("{:?}", clause.value))));
        }
        _ => {}
    }
    if !line.only.is_empty() {
        kinds.push("a condition".to_owned());
    }
    if line.comment.is_some() && line.content != Content::Comment {
        kinds.push("a comment behind a line".to_owned());
    }
    kinds
}

/// A card to look at, with the file it was made from above it, so that a change of the snapshot can be judged alone.
fn look_at(name: &str) {
    let (project, source) = example(&format!("{name}.miche"));
    let (recipe, formula) = work_out(&project, source, &Selection::new(), &mut Vec::new()).expect("it is a recipe");
    let card = card(&recipe, &formula, Number::ONE, None, Units::Metric).expect("in range");
    let text = out::card::text(std::slice::from_ref(&card), None, out::text::Style::plain(100));
    let file = project.sources.get(source).expect("it was read").text.clone();
    let rule = "═".repeat(100);
    insta::with_settings!({ prepend_module_to_snapshot => false, omit_expression => true }, {
        insta::assert_snapshot!(name, format!("{file}{rule}\n{text}"));
    });
}

#[test]
fn rhubarb_crumb_buns() {
    look_at("rhubarb-crumb-buns");
}

#[test]
fn harbour_levain_loaf() {
    look_at("harbour-levain-loaf");
}

#[test]
fn quay_baguettes() {
    look_at("quay-baguettes");
}
