//! One line in grams among percents, whose number is a percent: 75 g of flour where 75 % were meant. Common practice, no source.

use super::CHECK;
use crate::check::Subject;
use crate::measure::number::Number;
use crate::measure::quantity::Mass;
use crate::measure::show;
use crate::measure::value::Value;
use crate::model::kind::Kind;
use crate::model::recipe::{Ingredient, Part};
use crate::text::diagnostic::Diagnostic;

/// So many times as much the same number would be in percent: nearer, the weight may well be meant.
const TIMES: Number = Number::whole(5);

/// The line of a preferment that is taken out of a dough. What seeds it is told by weight, and so are salt and spice, of which there is little.
pub(super) fn problem(subject: &Subject<'_>, part: &Part) -> Option<Diagnostic> {
    let of = part.from?;
    let is_body = |line: &&Ingredient| {
        line.part().is_none()
            && (line.is_flour
                || line.kind.is_liquid()
                || matches!(line.kind, Kind::Flour | Kind::Fat | Kind::Sugar | Kind::Egg))
    };
    let said = |line: &Ingredient| line.said().first().map(|said| said.value);
    let body = || part.lines.iter().filter(is_body);
    let in_percent = body().filter(|line| matches!(said(line), Some(Value::Proportion(_)))).count();
    let mut weighed = body().filter_map(|line| match line.said() {
        [only] => only.mass().map(|mass| (line, mass)),
        _ => None,
    });
    let (line, mass) = weighed.next().filter(|_| in_percent >= 2)?;
    let in_grams = mass.value();
    if weighed.next().is_some() || in_grams > Number::whole(100) {
        return None;
    }
    // The same number of hundredths of the flour of the whole dough.
    let flour = subject.formula.part(of)?.composition.flour;
    let meant = Mass::new(flour.value().times(in_grams).ok()?.over(Number::whole(100)).ok()?);
    if meant < mass.times(TIMES).ok()? {
        return None;
    }
    let message = format!(
        "{} of {} stands among percents, and {} % of the flour would be {}",
        show::mass_plain(mass),
        line.name,
        in_grams.decimal(2),
        show::mass_plain(meant)
    );
    Some(Diagnostic::advice(CHECK.name, line.amount_span, message).help("look whether `%` was meant"))
}
