//! To which size a dough is rolled out: a thickness or a width, and neither of them of metres.

use super::Subject;
use crate::measure::number::Number;
use crate::measure::show::{self, Units};
use crate::measure::value::Value;
use crate::model::cooking::{beginnings, called};
use crate::model::step::{Step, Words};
use crate::text::diagnostic::Diagnostic;
use crate::text::source::Span;

/// In millimetres: pasta and thin biscuits from half a millimetre, scones to three centimetres, sheets to a metre and a half. Between the two a
/// rope is as wide. Common practice, no source.
const THINNEST: Number = Number::constant(1, 2);
const WIDEST: Number = Number::whole(1500);

/// Sizes to which nobody rolls a dough.
pub(super) fn problems(subject: &Subject<'_>, check: &'static str) -> Vec<Diagnostic> {
    let steps = subject.own_parts().flat_map(|(_, part, _)| &part.steps);
    // What is pulled over a table has no thickness that anybody measures.
    let is_pulled = |step: &Step| {
        let pulled = beginnings!["strudel", "filo", "phyllo", "fillo", "yufka", "pull"];
        subject.recipe.name.has_word_beginning(pulled) || called(step, pulled)
    };
    let all = steps.flat_map(|step| sizes(step).into_iter().map(move |(span, size)| (step, span, size)));
    let odd = all.filter(|(step, _, size)| (*size < THINNEST || *size > WIDEST) && !is_pulled(step));
    odd.map(|(_, span, size)| {
        let length = crate::measure::quantity::Length::new(size);
        let message = format!(
            "nobody rolls a dough to {}: common practice is from 0.5 mm to 30 mm thick, or up to 150 cm wide",
            show::length(length, Units::Metric)
        );
        Diagnostic::advice(check, span, message).help("look whether a digit, a point or the unit is right")
    })
    .collect()
}

/// What stands right behind `to` in words that roll something: where it stands, and how many millimetres it is.
fn sizes(step: &Step) -> Vec<(Span, Number)> {
    let is_length = |word: &Words| match word {
        Words::Measure(said) => matches!(said.first().map(|said| said.value), Some(Value::Length(_))),
        _ => false,
    };
    if !step.words.iter().any(is_length) {
        return Vec::new();
    }
    let mut rolls = called(step, beginnings!["roll", "sheet"]);
    let mut found = Vec::new();
    for two in step.words.windows(2) {
        let [before, here] = two else { continue };
        let Words::Text(text) = before else { continue };
        // The last sentence before it.
        let told = text.rsplit(['.', ';']).next().unwrap_or_default();
        let says_so = beginnings!["roll"].may_begin_in(told) && beginnings!["roll"].begin_in(&told.to_lowercase());
        rolls = says_so || rolls && !text.contains(['.', ';']);
        let Words::Measure(said) = here else { continue };
        if let Some(said) = said.first().filter(|_| rolls)
            && let Value::Length(length) = said.value
            && is_to(told)
        {
            found.push((said.span, length.value()));
        }
    }
    found
}

/// Whether words end so that a size stands behind them.
fn is_to(told: &str) -> bool {
    let told = told.trim_end().to_lowercase();
    ["to", "to about", "to a thickness of", "out to"].iter().any(|end| told.ends_with(end))
}
