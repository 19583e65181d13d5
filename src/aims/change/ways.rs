//! A recipe under every choice, with amounts that can be tried.

use crate::language::syntax::{Key, Name};
use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::Mass;
use crate::measure::value::{Said, Value};
use crate::model::larder::is_called;
use crate::model::recipe::{Base, Ingredient, LineAmount, Part, PartId, Recipe, Refers};
use crate::solve::formula::Formula;
use crate::solve::formula::linear::in_base;
use crate::text::source::Span;

/// A recipe under one selection of its choices, worked out.
#[derive(Debug, Clone)]
pub struct Way {
    /// The recipe.
    pub recipe: Recipe,
    /// Its amounts.
    pub formula: Formula,
}

/// An ingredient line with an amount, the same under every choice that takes it.
#[derive(Debug, Clone)]
pub struct Line {
    /// What.
    pub name: Name,
    /// The part it stands in.
    pub part: String,
    /// The whole line.
    pub span: Span,
    /// How much, as it was written.
    pub said: Vec<Said>,
    /// Whether it may change unless somebody says otherwise.
    pub is_free: bool,
    /// Its place under each choice that takes it: which way, part and line.
    pub places: Vec<(usize, PartId, usize)>,
}

/// Whether the base of a part is what 100 % is and not simply everything.
fn is_base_line(part: &Part, at: usize) -> bool {
    let Some(line) = part.lines.get(at) else { return false };
    match &part.base {
        Some((Base::Total, _)) | None => false,
        Some((base, _)) => in_base(base, line),
    }
}

/// Whether it takes another part by the piece.
fn is_pieces(line: &Ingredient) -> bool {
    let LineAmount::Said(said) = &line.amount else { return false };
    let is_count = said.first().is_some_and(|said| matches!(said.value, Value::Count(_)));
    is_count && matches!(line.refers, Refers::Part(_))
}

/// The lines of all ways, in the order of the file. A line of which nothing is taken cannot be made more by a factor and is left
/// out, and so is what has no weight.
pub fn lines(ways: &[Way]) -> Vec<Line> {
    let mut lines: Vec<Line> = Vec::new();
    let mut of_blends: Vec<Span> = Vec::new();
    for (way, one) in ways.iter().enumerate() {
        for (id, part) in one.recipe.own_parts().filter(|(_, part)| !part.broken) {
            let is_blend = part.lines.len() > 1 && (0..part.lines.len()).all(|at| is_base_line(part, at));
            for (at, line) in part.lines.iter().enumerate() {
                let LineAmount::Said(said) = &line.amount else { continue };
                let is_something = said.first().is_some_and(|said| said.value.number().is_positive());
                let weighs = one.formula.part(id).and_then(|part| part.lines.get(at)).and_then(|line| line.mass);
                if !is_something || weighs.is_none() {
                    continue;
                }
                let place = (way, id, at);
                if let Some(known) = lines.iter_mut().find(|known| known.span == line.span) {
                    known.places.push(place);
                    continue;
                }
                let is_base = is_base_line(part, at);
                if is_blend && !is_pieces(line) {
                    of_blends.push(line.span);
                }
                lines.push(Line {
                    name: line.name.clone(),
                    part: part.name.to_string(),
                    span: line.span,
                    said: said.clone(),
                    is_free: !is_base && line.stays_in() && !is_pieces(line),
                    places: vec![place],
                });
            }
        }
    }
    lines.sort_by_key(|line| line.span);
    // Where there is nothing but a base, as in a blend of two flours, all of it may change.
    if !lines.iter().any(|line| line.is_free) {
        lines.iter_mut().for_each(|line| line.is_free = of_blends.contains(&line.span));
    }
    lines
}

impl Line {
    /// Whether somebody who says so means it: `butter` is also `butter for the tins`, and `dough/butter` that of the dough.
    pub fn is_called(&self, name: &Key) -> bool {
        let part = Key::new(&self.part);
        let name = match name.as_str().split_once('/') {
            Some((whose, name)) if whose.trim() == part.as_str() => Key::new(name),
            _ => name.clone(),
        };
        is_called(&self.name.key, &name)
    }

    /// What it weighs in some ways.
    pub fn mass(&self, ways: &[Way]) -> Option<Mass> {
        let (way, part, at) = self.places.first()?;
        ways.get(*way)?.formula.part(*part)?.lines.get(*at)?.mass
    }
}

/// The ways with amounts that are tried: each line so many times what is written.
pub(super) struct Trial {
    pub(super) ways: Vec<Way>,
    /// Which of them hold other amounts than those that were worked out.
    stale: Vec<bool>,
}

impl Trial {
    pub(super) fn of(ways: &[Way]) -> Trial {
        Trial { ways: ways.to_vec(), stale: vec![false; ways.len()] }
    }

    /// Makes a line so many times what is written, without working anything out.
    pub(super) fn put(&mut self, line: &Line, times: Number) -> Result<(), Overflow> {
        let mut said = Vec::with_capacity(line.said.len());
        for one in &line.said {
            said.push(Said { value: one.value.times(times)?, ..*one });
        }
        for (way, part, at) in &line.places {
            let slot = self.ways.get_mut(*way).and_then(|way| way.recipe.part_mut(*part));
            if let Some(slot) = slot.and_then(|part| part.lines.get_mut(*at)) {
                slot.amount = LineAmount::Said(said.clone());
            }
            if let Some(stale) = self.stale.get_mut(*way) {
                *stale = true;
            }
        }
        Ok(())
    }

    /// Makes every line so many times what is written, and works it out the ordinary way.
    pub(super) fn put_all(&mut self, lines: &[Line], times: &[Number]) -> Result<(), Overflow> {
        for (line, times) in lines.iter().zip(times) {
            self.put(line, *times)?;
        }
        self.work_out();
        Ok(())
    }

    /// Works out the ways in which an amount changed.
    pub(super) fn work_out(&mut self) {
        for (way, stale) in self.ways.iter_mut().zip(&mut self.stale) {
            if std::mem::take(stale) {
                way.formula = Formula::of(&way.recipe, &mut Vec::new());
            }
        }
    }
}

/// Whether a line is written as a share.
pub(super) fn is_share(said: &[Said]) -> bool {
    matches!(said.first().map(|said| said.value), Some(Value::Proportion(_)))
}

/// The ways with each line so many times what is written, worked out the ordinary way.
///
/// # Errors
/// When an amount leaves the range of exact numbers.
pub fn with_amounts(ways: &[Way], lines: &[Line], times: &[Number]) -> Result<Vec<Way>, Overflow> {
    let mut trial = Trial::of(ways);
    trial.put_all(lines, times)?;
    Ok(trial.ways)
}
