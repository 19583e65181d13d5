//! `volume-only`: an amount given only by volume in a formula by weight.

use super::percent_without_base::is_percentage;
use super::{Check, Family, Run, Subject};
use crate::measure::show;
use crate::measure::value::Value;
use crate::model::kind::Kind;
use crate::model::recipe::LineAmount;
use crate::text::diagnostic::{Diagnostic, Severity};

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "volume-only",
    severity: Severity::Advice,
    family: Family::Formula,
    looks_for: "an amount given only by volume in a formula by weight",
    why: "Who has the scale on the bench for the flour weighs the honey too; a cup in between slows the work and is less \
          exact. Put the weight first and keep the volume beside it: `42 g = 2 tbsp`. Water may be given in millilitres, \
          which are grams.",
    bad: "recipe Loaf\nuse \"larder.miche\"\nmeasures metric\nflour .... 500 g\nwater .... 65 %\nbutter .... 1 tbsp\nmix: hands 10 min\n    \
          Mix {flour}, {water} and {butter}.\n    until smooth\n=== larder.miche ===\ningredient butter\nweighs 227 g per cup US\n",
    good: "recipe Loaf\nuse \"larder.miche\"\nmeasures metric\nflour .... 500 g\nwater .... 65 %\nbutter .... 14 g = 1 tbsp\nmix: hands 10 min\n    \
           Mix {flour}, {water} and {butter}.\n    until smooth\n=== larder.miche ===\ningredient butter\nweighs 227 g per cup US\n",
    sources: &[
        "Minnesota Department of Education, standardized recipes; Savvy Diner (British Columbia): weight and volume both",
    ],
    run: Run::Parts(run),
};

fn run(subject: &Subject<'_>, diagnostics: &mut Vec<Diagnostic>) {
    for (_, part, solved) in subject.whole_parts() {
        if !part.lines.iter().any(is_percentage) {
            continue;
        }
        for (line, amount) in part.lines.iter().zip(&solved.lines) {
            let LineAmount::Said(said) = &line.amount else { continue };
            let only_volume = said.iter().all(|said| matches!(said.value, Value::Volume(_)));
            let is_water = line.kind == Kind::Water;
            let Some(mass) = amount.mass.filter(|_| only_volume && !is_water && line.stays_in()) else { continue };
            let written = said.first().map(show::said_plain).unwrap_or_default();
            let grams =
                mass.value().decimal(if mass.value() < crate::measure::number::Number::whole(10) { 1 } else { 0 });
            let span = line.amount_span;
            diagnostics.push(
                Diagnostic::advice(
                    CHECK.name,
                    span,
                    format!("`{}` is given only by volume, in a formula by weight", line.name),
                )
                .label(format!("{written}, about {grams} g by the larder"))
                .help(format!("write the weight before it, `{grams} g = …`"))
                .suggest(
                    format!("write the weight before it: `{grams} g =`"),
                    span.before(),
                    format!("{grams} g = "),
                ),
            );
        }
    }
}
