//! Texts that mean harm: they cost no more than a plain text of the same size, within a generous ratio, and what they hold
//! reaches no output.

// Helpers outside a test function fail a test by panicking, as the tests do.
#![allow(clippy::expect_used, clippy::panic, clippy::unwrap_used)]

#[path = "hostile/texts.rs"]
mod texts;

use miche::card::of_batch;
use miche::check::{check_file, work_out};
use miche::day_batch::Batch;
use miche::emit;
use miche::loader::Loader;
use miche::number::Number;
use miche::report;
use miche::resolve::{choices_of, selections};
use miche::show::Units;
use miche::tidy::tidy;
use std::path::Path;
use std::sync::Arc;
use std::time::{Duration, Instant};
use texts::TRAPS;

/// Everything that is done to a text, each by itself.
fn stages(text: &str) -> [(&'static str, Duration); 4] {
    let clock = Instant::now();
    let mut loader = Loader::new();
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("examples/made up.miche");
    let source = loader.take_text("made up", text.to_owned(), &folder);
    let project = loader.into_project();
    let read = clock.elapsed();
    let clock = Instant::now();
    let problems = check_file(&project, source);
    let checked = clock.elapsed();
    let clock = Instant::now();
    for problem in problems.iter().take(100) {
        report::terminal::render(&project.sources, problem, false, 80);
    }
    for problem in &problems {
        report::short::render(&project.sources, problem);
    }
    let tree = &project.file(source).expect("it was read").tree;
    let default = selections(&choices_of(tree)).into_iter().next().expect("there is a default");
    if let Some((recipe, formula)) = work_out(&project, source, &default, &mut Vec::new()) {
        let recipe = Arc::new(recipe);
        let batch = Batch { recipe, formula, factor: Number::ONE, limit: None, ready: None, made_for: Vec::new() };
        if let Ok(card) = of_batch(&batch, Units::Metric) {
            emit::text::render(&card, emit::text::Style { width: 80, colour: false });
            emit::markdown::render(&card);
            emit::json::render(&card).expect("a card is JSON");
        }
    }
    let shown = clock.elapsed();
    let clock = Instant::now();
    tidy(text, None).expect("tidying changes nothing that is said");
    [("read", read), ("check", checked), ("show", shown), ("tidy", clock.elapsed())]
}

#[test]
fn probe() {
    let size: usize = std::env::var("SIZE").ok().and_then(|size| size.parse().ok()).unwrap_or(20_000);
    for trap in TRAPS {
        if std::env::var("TRAP").is_ok_and(|wanted| wanted != trap.name) {
            continue;
        }
        let text = (trap.make)(size);
        println!("{:32} {:7} {:?}", trap.name, text.len(), stages(&text));
    }
}
