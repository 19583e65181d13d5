//! What is said of an amount or a name, wherever it stands: several ways of saying it, losses, twice, or not quite right.

use super::agree;
use crate::language::evaluate::evaluate;
pub(super) use crate::language::near::push_with_nearest;
use crate::language::syntax::{Line, Quantity};
use crate::measure::number::Number;
use crate::measure::quantity::Proportion;
use crate::measure::unit::Measures;
use crate::measure::value::Said;
use crate::model::larder::Facts;
use crate::model::recipe::MakesMass;
use crate::text::diagnostic::Diagnostic;
use crate::text::source::Span;

/// Understands a chain and checks that its members agree; `None` when one was reported.
pub(super) fn chain(
    quantities: &[Quantity],
    measures: Option<Measures>,
    of: Option<(&str, Option<&Facts>)>,
    diagnostics: &mut Vec<Diagnostic>,
) -> Option<Vec<Said>> {
    let mut said = Vec::with_capacity(quantities.len());
    for quantity in quantities {
        said.push(evaluate(quantity, measures, diagnostics)?);
    }
    agree::check_chain(&said, of.and_then(|(_, facts)| facts), of.map(|(name, _)| name), diagnostics);
    Some(said)
}

/// A loss between nothing and less than all.
pub(super) fn loss_share(quantity: &Quantity, diagnostics: &mut Vec<Diagnostic>) -> Option<Proportion> {
    let share = evaluate(quantity, None, diagnostics)?.proportion()?;
    if share.value() < Number::ONE {
        return Some(share);
    }
    diagnostics.push(
        Diagnostic::error("impossible-number", quantity.span, "all of it would be lost")
            .help("a loss is less than 100 %"),
    );
    None
}

/// `makes 1.1 kg, loss 23 %`, of a head or of a part.
pub(super) fn makes_mass(
    amounts: &[Quantity],
    loss: Option<&Quantity>,
    span: Span,
    measures: Option<Measures>,
    diagnostics: &mut Vec<Diagnostic>,
) -> Option<MakesMass> {
    let said = chain(amounts, measures, None, diagnostics)?;
    let mass = said.first()?.mass()?;
    if !mass.value().is_positive() {
        diagnostics.push(Diagnostic::error("impossible-number", span, "it makes nothing").help("write what comes out"));
        return None;
    }
    let loss = match loss {
        Some(quantity) => Some(loss_share(quantity, diagnostics)?),
        None => None,
    };
    Some(MakesMass { mass, loss, alike: false, span })
}

/// Reports a line of which there may be one.
#[derive(Default)]
pub(super) struct Seen(Vec<(&'static str, Span)>);

impl Seen {
    pub(super) fn once(&mut self, what: &'static str, line: &Line, diagnostics: &mut Vec<Diagnostic>) {
        if let Some((_, first)) = self.0.iter().find(|(known, _)| *known == what) {
            diagnostics.push(
                Diagnostic::error("twice-named", line.said, format!("`{what}` is said twice"))
                    .also(*first, "first here")
                    .help("keep one, or mark each with the option it holds for"),
            );
        } else {
            self.0.push((what, line.said));
        }
    }
}
