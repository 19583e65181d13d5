//! Each stage from text to cards by itself: `cargo bench --bench stages`.
//!
//! Whole processes side by side with other programs are measured by `tests/scripts/measure.py`.

use divan::counter::{BytesCount, ItemsCount};
use divan::{Bencher, black_box};
use miche::check::{check_file, work_out};
use miche::edge::loader::Loader;
use miche::figures::card::{Card, of_batch};
use miche::language::parse::parse;
use miche::language::tidy::tidy;
use miche::make::batch::Batch;
use miche::make::order::Order;
use miche::measure::show::Units;
use miche::model::project::Project;
use miche::model::recipe::Selection;
use miche::out;
use miche::out::sheet::{By, Orientation, Paper, Sheet};
use miche::text::source::SourceId;
use std::path::Path;

const RECIPE: &str = include_str!("../../examples/rhubarb-crumb-buns.miche");

fn main() {
    divan::main();
}

/// The largest example with the files it uses.
fn project() -> (Project, SourceId) {
    let place = Path::new(env!("CARGO_MANIFEST_DIR")).join("examples/rhubarb-crumb-buns.miche");
    let mut loader = Loader::new();
    let source = loader.take_text("rhubarb-crumb-buns.miche", RECIPE.to_owned(), &place);
    (loader.into_project(), source)
}

fn batch() -> Option<Batch> {
    let (project, source) = project();
    let (recipe, formula) = work_out(&project, source, &Selection::new(), &mut Vec::new())?;
    Some(Batch::of(&Order::of(recipe, formula), 0))
}

fn the_card() -> Vec<Card> {
    batch().and_then(|batch| of_batch(&batch, Units::Metric).ok()).into_iter().collect()
}

/// A recipe of so many lines in parts of twenty-five.
fn long(lines: usize) -> String {
    let parts: Vec<&str> = RECIPE.split("\npart ").skip(1).collect();
    let mut text = "recipe Long\n".to_owned();
    let mut number = 0;
    while text.lines().count() < lines {
        for part in &parts {
            let (name, rest) = part.split_once('\n').unwrap_or((part, ""));
            let name = name.split(['[', ',']).next().unwrap_or("").trim();
            text.push_str(&format!("part {name} {number}\n{rest}\n"));
            number += 1;
        }
    }
    text
}

#[divan::bench(args = [100, 1_000, 10_000])]
fn text_to_tree(bencher: Bencher<'_, '_>, lines: usize) {
    let text = long(lines);
    bencher
        .counter(BytesCount::of_str(&text))
        .counter(ItemsCount::new(text.lines().count()))
        .bench(|| parse(SourceId(0), black_box(&text)));
}

#[divan::bench(args = [100, 1_000, 10_000])]
fn tidying(bencher: Bencher<'_, '_>, lines: usize) {
    let text = long(lines);
    bencher.counter(BytesCount::of_str(&text)).bench(|| tidy(black_box(&text), None));
}

#[divan::bench]
fn tree_to_formula(bencher: Bencher<'_, '_>) {
    let (project, source) = project();
    bencher.bench(|| work_out(black_box(&project), source, &Selection::new(), &mut Vec::new()));
}

#[divan::bench]
fn every_check(bencher: Bencher<'_, '_>) {
    let (project, source) = project();
    bencher.bench(|| check_file(black_box(&project), source));
}

#[divan::bench]
fn formula_to_card(bencher: Bencher<'_, '_>) {
    let batch = batch();
    bencher.bench(|| batch.as_ref().map(|batch| of_batch(black_box(batch), Units::Metric)));
}

#[divan::bench(args = ["text", "markdown", "html", "json"])]
fn card_to(bencher: Bencher<'_, '_>, format: &str) {
    let cards = the_card();
    let style = out::text::Style::plain(80);
    let sheet = Sheet {
        paper: Paper::A4,
        orientation: Orientation::Portrait,
        by: By::Recipe,
        printed: "2027-04-17".to_owned(),
        compact: false,
        revision: None,
    };
    bencher.bench(|| match format {
        "text" => out::card::text(black_box(&cards), None, style),
        "markdown" => out::card::markdown(black_box(&cards), None),
        "html" => out::html::render(black_box(&cards), None, &sheet),
        _ => out::json::render_all(black_box(&cards)).unwrap_or_default(),
    });
}
