//! `too-fine-for-scale`: an amount that the kitchen's scale cannot weigh.

use super::percent_without_base::is_percentage;
use super::{Check, Family, Run, Subject, tell};
use crate::measure::number::Number;
use crate::measure::quantity::{Mass, Proportion};
use crate::measure::show;
use crate::measure::sizes::OUNCE;
use crate::measure::value::Value;
use crate::model::kitchen::{Kitchen, Scale};
use crate::model::recipe::{Ingredient, LineAmount, Refers};
use crate::text::diagnostic::{Diagnostic, Severity};

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "too-fine-for-scale",
    severity: Severity::Warning,
    family: Family::Kitchen,
    looks_for: "an ingredient whose weight the kitchen's scale changes by more than 2 %",
    why: "On a scale that shows whole grams, 1.4 g of yeast become 1 g: more than a quarter is missing. Weigh it on a fine \
          scale (`fine scale 0.1 g, up to 200 g` in the kitchen), make a larger batch, or say the same amount in a spoon \
          beside the weight. Where no kitchen is used, a home scale of 1 g is assumed and this is advice.",
    bad: "recipe Loaf\nmakes 1 loaf\nflour .... 500 g\nwater .... 65 %\nyeast .... 0.28 %\nmix: hands 10 min\n    \
          Mix {flour}, {water} and {yeast}.\n    until smooth\n",
    good: "recipe Loaf\nmakes 1 loaf\nflour .... 500 g\nwater .... 65 %\nyeast .... 0.4 %\nmix: hands 10 min\n    \
           Mix {flour}, {water} and {yeast}.\n    until smooth\n",
    sources: &["common practice, no source: 2 % is what a small scale itself may be off"],
    run: Run::Parts(run),
};

/// So much is measured by the spoon: two tablespoons of what is fine.
const SPOONS: Mass = Mass::new(Number::whole(30));
/// A weight may be moved by this share.
const ALLOWED: Number = Number::constant(1, 50);
const TWICE_ALLOWED: Number = Number::constant(1, 25);

fn run(subject: &Subject<'_>, diagnostics: &mut Vec<Diagnostic>) {
    let kitchen = &subject.recipe.kitchen;
    for (_, part, solved) in subject.whole_parts() {
        for (line, amount) in part.lines.iter().zip(&solved.lines) {
            let Some(mass) = amount.final_mix.filter(|mass| *mass > Mass::ZERO) else { continue };
            if is_weighed(line) {
                tell(diagnostics, moved(kitchen, line, mass));
            }
        }
    }
}

/// Not what is measured by the spoon or counted, and no other part, which goes in as it is.
fn is_weighed(line: &Ingredient) -> bool {
    let measured = matches!(&line.amount, LineAmount::Said(said)
        if said.iter().any(|said| matches!(said.value, Value::Volume(_) | Value::Count(_))));
    !measured && !line.aside && !line.optional && matches!(line.refers, Refers::Pantry(_))
}

fn moved(kitchen: &Kitchen, line: &Ingredient, mass: Mass) -> Option<Diagnostic> {
    let scale = scale_for(kitchen, mass);
    // Nothing is moved by more than half of what the scale tells apart.
    if mass.value().times(TWICE_ALLOWED).is_ok_and(|allowed| allowed >= scale.step.value()) {
        return None;
    }
    let shown = Mass::new(mass.value().rounded_to(scale.step.value()).ok()?);
    let off = shown.minus(mass).ok()?.ratio(mass).ok()?;
    if off.size() <= ALLOWED {
        return None;
    }
    let assumed = kitchen.span.is_none();
    // Who has a scale in ounces has no grams.
    let in_grams = scale.step.value().times(Number::whole(1000)).is_ok_and(Number::is_whole);
    let said = |mass: Mass| if in_grams { show::mass_plain(mass).to_string() } else { in_ounces(mass) };
    let step = said(scale.step);
    let becomes = if shown == Mass::ZERO { "shows nothing".to_owned() } else { format!("shows {}", said(shown)) };
    let message = format!(
        "{} of {} on a scale of {step} {becomes}: {} {}",
        if in_grams { exactly(mass) } else { in_ounces(mass) },
        line.name,
        show::percent(Proportion::new(off.size())),
        if off.is_negative() { "too little" } else { "too much" }
    );
    // A share has no second form in spoons: a weight in its place would fix the size of the dough.
    let by_spoon = mass <= SPOONS && !is_percentage(line);
    let help = if assumed {
        "say in a kitchen file what the scale shows, `fine scale 0.1 g, up to 200 g`, or make a larger batch"
    } else if by_spoon {
        "make a larger batch, weigh it on a finer scale, or say behind `=` what it is in spoons (and in the head whose, `measures metric`)"
    } else {
        "make a larger batch, or weigh it on a finer scale"
    };
    let mut problem = Diagnostic::warning(CHECK.name, line.amount_span, message).help(help);
    if assumed {
        problem.severity = Severity::Advice;
    }
    Some(problem)
}

/// The fine scale as far as it goes, else the other.
fn scale_for(kitchen: &Kitchen, mass: Mass) -> Scale {
    let fine = kitchen.fine_scale.filter(|scale| scale.up_to.is_none_or(|most| mass <= most));
    fine.unwrap_or(kitchen.scale)
}

/// A mass in ounces, to hundredths.
fn in_ounces(mass: Mass) -> String {
    format!("{} oz", mass.value().over(OUNCE).unwrap_or(Number::ZERO).decimal(2))
}

/// A small mass with the digits that matter here.
fn exactly(mass: Mass) -> String {
    format!("{} g", mass.value().decimal(if mass.value() < Number::ONE { 3 } else { 2 }))
}
