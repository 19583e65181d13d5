//! What every part of the resolver needs: which country's cups a file means, and where its problems go. What is said of an amount
//! is understood here, wherever it stands: several ways of saying it, losses, twice, or not quite right.

use super::agree;
use crate::language::evaluate::{self, evaluate};
use crate::language::near;
use crate::language::syntax::{Line, Name, Quantity};
use crate::measure::number::Number;
use crate::measure::quantity::{Duration, Proportion};
use crate::measure::unit::Measures;
use crate::measure::value::Said;
use crate::model::larder::Facts;
use crate::model::recipe::MakesMass;
use crate::text::diagnostic::Diagnostic;
use crate::text::source::Span;

/// One file while it is resolved.
#[derive(Default)]
pub(crate) struct Reading {
    /// Whose cups and spoons are meant, as the head of the file says.
    pub(super) measures: Option<Measures>,
    /// What was found so far.
    pub(crate) problems: Vec<Diagnostic>,
}

impl Reading {
    /// Works with what adds its problems to those that were found before.
    pub(super) fn on<T>(found: &mut Vec<Diagnostic>, work: impl FnOnce(&mut Reading) -> T) -> T {
        let mut reading = Reading { measures: None, problems: std::mem::take(found) };
        let done = work(&mut reading);
        *found = reading.problems;
        done
    }

    /// Takes in a problem.
    pub(super) fn report(&mut self, problem: Diagnostic) {
        self.problems.push(problem);
    }

    /// Takes in the problem of a name that is not known, with 'did you mean' where a known one is near.
    pub(super) fn unknown<'n>(&mut self, problem: Diagnostic, name: &Name, known: impl Iterator<Item = &'n str>) {
        near::push_with_nearest(problem, name, known, &mut self.problems);
    }

    /// Understands a quantity; `None` when it was reported.
    pub(super) fn said(&mut self, quantity: &Quantity) -> Option<Said> {
        evaluate(quantity, self.measures, &mut self.problems)
    }

    /// How long a time is, its longer end.
    pub(super) fn longest(&mut self, quantity: &Quantity) -> Option<Duration> {
        evaluate::longest(quantity, &mut self.problems)
    }

    /// Understands a chain and checks that its members agree; `None` when one was reported. `of` is whose amount it is.
    pub(super) fn chain(&mut self, quantities: &[Quantity], of: Option<(&str, Option<&Facts>)>) -> Option<Vec<Said>> {
        let mut said = Vec::with_capacity(quantities.len());
        for quantity in quantities {
            said.push(self.said(quantity)?);
        }
        let (name, facts) = of.map_or((None, None), |(name, facts)| (Some(name), facts));
        self.problems.extend(agree::check_chain(&said, facts, name));
        Some(said)
    }

    /// A loss between nothing and less than all.
    pub(super) fn loss(&mut self, quantity: &Quantity) -> Option<Proportion> {
        let share = self.said(quantity)?.proportion()?;
        if share.value() < Number::ONE {
            return Some(share);
        }
        self.report(
            Diagnostic::error("impossible-number", quantity.span, "all of it would be lost")
                .help("a loss is less than 100 %"),
        );
        None
    }

    /// `makes 1.1 kg, loss 23 %`, of a head or of a part.
    pub(super) fn makes_mass(
        &mut self,
        amounts: &[Quantity],
        loss: Option<&Quantity>,
        span: Span,
    ) -> Option<MakesMass> {
        let said = self.chain(amounts, None)?;
        let mass = said.first()?.mass()?;
        if !mass.value().is_positive() {
            self.report(Diagnostic::error("impossible-number", span, "it makes nothing").help("write what comes out"));
            return None;
        }
        let loss = match loss {
            Some(quantity) => Some(self.loss(quantity)?),
            None => None,
        };
        Some(MakesMass { mass, loss, alike: false, span })
    }
}

/// Reports a line of which there may be one.
#[derive(Default)]
pub(super) struct Seen(Vec<(&'static str, Span)>);

impl Seen {
    pub(super) fn once(&mut self, what: &'static str, line: &Line, reading: &mut Reading) {
        if let Some((_, first)) = self.0.iter().find(|(known, _)| *known == what) {
            reading.report(
                Diagnostic::error("twice-named", line.said, format!("`{what}` is said twice"))
                    .also(*first, "first here")
                    .help("keep one, or mark each with the option it holds for"),
            );
        } else {
            self.0.push((what, line.said));
        }
    }
}
