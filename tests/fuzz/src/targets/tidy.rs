//! A tidied text says the same, on its card too, and there is nothing more to tidy in it; also when only some lines are tidied.

use super::super::project_of;
use miche::check::work_out;
use miche::figures::card::of_batch;
use miche::language::tidy::{LineRange, tidy};
use miche::make::batch::Batch;
use miche::make::order::Order;
use miche::measure::show::Units;
use miche::out;
use miche::solve::resolve::{choices_of, selections};

/// One text.
pub fn run(text: &str) {
    let tidied = tidy(text, None).unwrap_or_else(|fault| panic!("{fault}\n{text:?}"));
    let again = tidy(&tidied, None);
    assert_eq!(again.as_deref(), Ok(tidied.as_str()), "tidied twice: {text:?}");
    let lines = text.lines().count();
    let range = LineRange { first: lines / 3 + 1, last: lines * 2 / 3 + 1 };
    tidy(text, Some(range)).unwrap_or_else(|fault| panic!("{range:?}: {fault}\n{text:?}"));
    // A carriage return by itself ends a line, and is an error among other line ends; tidied it is one of them.
    if !text.contains('\r') {
        assert_eq!(card(text), card(&tidied), "tidying changed the card: {text:?}");
    }
}

/// The card in JSON, by the way of the text's last selection; prose without its layout.
fn card(text: &str) -> Option<String> {
    let (project, sources) = project_of(&[("fuzzed.miche", text)]);
    let file = project.file(sources[0])?;
    let selection = selections(&choices_of(&file.tree)).pop()?;
    let (recipe, formula) = work_out(&project, sources[0], &selection, &mut Vec::new())?;
    let card = of_batch(&Batch::of(&Order::of(recipe, formula), 0), Units::Metric).ok()?;
    let json = out::json::render_all(&[card]).expect("a card is JSON");
    // Blanks and line breaks of prose are layout.
    Some(json.replace("\\n", " ").split_whitespace().collect::<Vec<_>>().join(" "))
}
