//! A part that is made for several at once: the sum of what each of them needs.

use super::{Balance, Composition, Draw, SolvedLine, SolvedPart};
use crate::measure::number::Overflow;
use crate::measure::quantity::{Count, Mass};
use crate::measure::value::Value;
use crate::model::step::Target;

impl SolvedPart {
    /// Two sizes of the same part together. Percentages, losses and what is for one piece are those of both.
    ///
    /// # Errors
    /// When an amount leaves the range of exact numbers.
    pub fn plus(&self, other: &SolvedPart) -> Result<SolvedPart, Overflow> {
        let mut lines = Vec::with_capacity(self.lines.len());
        for (one, other) in self.lines.iter().zip(&other.lines) {
            lines.push(line_sum(one, other)?);
        }
        let mut draws = Vec::with_capacity(self.draws.len());
        for (one, two) in self.draws.iter().zip(&other.draws) {
            // Of a line that one of them leaves out the other draws all.
            let is_out = |part: &SolvedPart, draw: &Draw| matches!(draw.target, Target::Line(at) if part.lines.get(at).is_some_and(|line| line.left_out));
            draws.push(match (is_out(self, one), is_out(other, two)) {
                (true, _) => two.clone(),
                (_, true) => one.clone(),
                _ => {
                    let mut both: Draw = one.clone();
                    both.drawn.mass = masses(one.drawn.mass, two.drawn.mass)?;
                    both.drawn.natural = values(one.drawn.natural, two.drawn.natural)?;
                    both
                }
            });
        }
        let written = match (&self.written, &other.written) {
            (None, None) => None,
            _ => Some(Box::new(self.as_written().plus(other.as_written())?)),
        };
        Ok(SolvedPart {
            base: masses(self.base, other.base)?,
            lines,
            goes_in: masses(self.goes_in, other.goes_in)?,
            stays: masses(self.stays, other.stays)?,
            makes: masses(self.makes, other.makes)?,
            pieces: counts(self.pieces, other.pieces)?,
            sorts: self
                .sorts
                .iter()
                .zip(&other.sorts)
                .map(|(one, other)| one.plus(*other))
                .collect::<Result<Vec<Count>, Overflow>>()?,
            needs: masses(self.needs, other.needs)?,
            extra: masses(self.extra, other.extra)?,
            spare: masses(self.spare, other.spare)?,
            balance: self.balance.plus(other.balance)?,
            draws: draws.into(),
            early: self.early.iter().chain(&other.early).copied().collect(),
            written,
            composition: Composition::plus(self.composition, other.composition)?,
            comes_out: Composition::plus(self.comes_out, other.comes_out)?,
            is_made: self.is_made || other.is_made,
            is_settled: self.is_settled && other.is_settled,
            ..*self
        })
    }
}

/// A line of both; what one of them leaves out is the other's.
fn line_sum(one: &SolvedLine, other: &SolvedLine) -> Result<SolvedLine, Overflow> {
    match (one.left_out, other.left_out) {
        (true, _) => Ok(*other),
        (_, true) => Ok(*one),
        _ => Ok(SolvedLine {
            mass: masses(one.mass, other.mass)?,
            final_mix: masses(one.final_mix, other.final_mix)?,
            natural: values(one.natural, other.natural)?,
            measure: values(one.measure, other.measure)?,
            ..*one
        }),
    }
}

impl Balance {
    fn plus(self, other: Balance) -> Result<Balance, Overflow> {
        Ok(Balance {
            makes: masses(self.makes, other.makes)?,
            used: masses(self.used, other.used)?,
            left: masses(self.left, other.left)?,
            pieces_used: counts(self.pieces_used, other.pieces_used)?,
        })
    }
}

fn masses(one: Option<Mass>, other: Option<Mass>) -> Result<Option<Mass>, Overflow> {
    one.zip(other).map(|(one, other)| one.plus(other)).transpose()
}

fn counts(one: Option<Count>, other: Option<Count>) -> Result<Option<Count>, Overflow> {
    one.zip(other).map(|(one, other)| one.plus(other)).transpose()
}

fn values(one: Option<Value>, other: Option<Value>) -> Result<Option<Value>, Overflow> {
    Ok(one.zip(other).map(|(one, other)| one.plus(other)).transpose()?.flatten())
}
