//! How the braces in the steps draw on the ingredients of their part.

use super::{Formula, SolvedPart, linear};
use crate::language::syntax::Name;
use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::{Count, Mass};
use crate::measure::value::{Said, Value};
use crate::model::recipe::{Part, PartId, Recipe};
use crate::model::step::{Take, Target, Words};
use crate::text::diagnostic::Diagnostic;
use crate::text::quick::QuickMap;

/// One pair of braces that takes some of an ingredient.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Draw {
    /// The step, by its place in the part.
    pub step: usize,
    /// The piece of prose, by its place in the step.
    pub word: usize,
    /// What is drawn on.
    pub target: Target,
    /// As it was written.
    pub name: Name,
    /// Whether it takes what the others leave.
    pub is_rest: bool,
    /// How much.
    pub drawn: Drawn,
}

/// How much a pair of braces takes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Drawn {
    /// Of what there is: 1 is all. `None` when it could not be compared, which was reported.
    pub share: Option<Number>,
    /// Its mass in the whole batch.
    pub mass: Option<Mass>,
    /// For an ingredient without a mass: how much of what was written.
    pub natural: Option<Value>,
}

impl Draw {
    /// For so many times the batch.
    ///
    /// # Errors
    /// When an amount leaves the range of exact numbers.
    pub fn times(&self, factor: Number) -> Result<Draw, Overflow> {
        let drawn = Drawn {
            share: self.drawn.share,
            mass: self.drawn.mass.map(|mass| mass.times(factor)).transpose()?,
            natural: self.drawn.natural.map(|value| value.times(factor)).transpose()?,
        };
        Ok(Draw { drawn, ..self.clone() })
    }
}

/// What there is to draw on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
struct Stock {
    mass: Option<Mass>,
    natural: Option<Value>,
}

/// All draws of a part, in the order of its steps.
pub(super) fn of(
    recipe: &Recipe,
    formula: &Formula,
    id: PartId,
    diagnostics: &mut Vec<Diagnostic>,
) -> Result<Vec<Draw>, Overflow> {
    let (Some(part), Some(solved)) = (recipe.part(id), formula.part(id)) else { return Ok(Vec::new()) };
    // What is wrong in a used recipe is reported when that file is checked.
    let mut elsewhere = Vec::new();
    let diagnostics = if part.foreign.is_some() { &mut elsewhere } else { diagnostics };
    let pieces = if part.per_piece { formula.pieces_for(part, id) } else { None };
    let mut draws = Vec::new();
    for (step, written) in part.steps.iter().enumerate() {
        for (word, words) in written.words.iter().enumerate() {
            let Words::Use { take, target: Some(target), name } = words else { continue };
            let stock = stock(formula, solved, *target);
            // In a part of another recipe an amount is for the size that it has there: its share of the line is known.
            let there =
                part.foreign.and_then(|_| solved.draws.iter().find(|draw| (draw.step, draw.word) == (step, word)));
            let share = match take {
                Take::Mass(_) | Take::Measure(_) if there.is_some() => there.and_then(|draw| draw.drawn.share),
                Take::All => Some(Number::ONE),
                Take::Rest => None,
                Take::Share(share) => Some(share.value()),
                Take::Mass(mass) => {
                    let said = Said { value: Value::Mass(*mass), ..plain_said(name) };
                    share_of((recipe, formula), part, stock, *target, &said, pieces, diagnostics)?
                }
                Take::Measure(said) => share_of((recipe, formula), part, stock, *target, said, pieces, diagnostics)?,
            };
            let is_rest = *take == Take::Rest;
            let drawn = Drawn { share, mass: None, natural: None };
            draws.push(Draw { step, word, target: *target, name: name.clone(), is_rest, drawn });
        }
    }
    let left = left(&draws)?;
    for draw in &mut draws {
        if draw.is_rest {
            // Never less than nothing, which is reported as `used-up`.
            let left = left.get(&draw.target).copied().unwrap_or(Some(Number::ONE));
            draw.drawn.share = left.map(|left| left.max(Number::ZERO));
        }
        let stock = stock(formula, solved, draw.target);
        if let Some(share) = draw.drawn.share {
            draw.drawn.mass = stock.mass.map(|mass| mass.times(share)).transpose()?;
            draw.drawn.natural = stock.natural.map(|value| value.times(share)).transpose()?;
        }
    }
    Ok(draws)
}

fn plain_said(name: &Name) -> Said {
    Said {
        value: Value::Mass(Mass::ZERO),
        upper: None,
        slack: Number::ZERO,
        unit: None,
        size: None,
        whole: true,
        span: name.span,
    }
}

fn stock(formula: &Formula, solved: &SolvedPart, target: Target) -> Stock {
    match target {
        Target::Line(at) => {
            let line = solved.lines.get(at).copied().unwrap_or_default();
            Stock { mass: line.final_mix, natural: line.natural }
        }
        Target::Preferment(id) => Stock { mass: formula.part(id).and_then(|part| part.goes_in), natural: None },
    }
}

/// What the braces leave of each thing that some of them take the rest of; `None` where it is not known how much one takes.
fn left(draws: &[Draw]) -> Result<QuickMap<Target, Option<Number>>, Overflow> {
    let rests = draws.iter().filter(|draw| draw.is_rest);
    let mut left: QuickMap<Target, Option<Number>> = rests.map(|draw| (draw.target, Some(Number::ONE))).collect();
    for draw in draws.iter().filter(|draw| !draw.is_rest) {
        let Some(left) = left.get_mut(&draw.target) else { continue };
        *left = match (*left, draw.drawn.share) {
            (Some(left), Some(share)) => Some(left.minus(share)?),
            _ => None,
        };
    }
    Ok(left)
}

/// Which share of the stock an amount is.
fn share_of(
    (recipe, formula): (&Recipe, &Formula),
    part: &Part,
    stock: Stock,
    target: Target,
    said: &Said,
    pieces: Option<Count>,
    diagnostics: &mut Vec<Diagnostic>,
) -> Result<Option<Number>, Overflow> {
    let per = pieces.map_or(Number::ONE, Count::value);
    if let Some(natural) = stock.natural.filter(|natural| natural.dimension() == said.value.dimension()) {
        return ratio(said.value.number().times(per)?, natural.number());
    }
    let line = match target {
        Target::Line(at) => part.lines.get(at),
        Target::Preferment(_) => None,
    };
    let mass = match (said.value, line) {
        (Value::Mass(mass), _) => Some(mass),
        (_, Some(line)) => linear::weigh_line(recipe, &formula.parts, part, line, said).transpose()?,
        _ => None,
    };
    match (mass, stock.mass) {
        (Some(mass), Some(stock)) => ratio(mass.times(per)?.value(), stock.value()),
        (None, Some(_)) | (_, None) if stock.mass.is_some() || stock.natural.is_some() => {
            diagnostics.push(
                Diagnostic::error("no-weight", said.span, "this cannot be compared with the amount in the list")
                    .help("take a share, `{half of …}`, or add the ingredient's density or piece weight to a larder"),
            );
            Ok(None)
        }
        // To taste, or a part whose size is not known: there is nothing to compare with.
        _ => Ok(None),
    }
}

fn ratio(taken: Number, stock: Number) -> Result<Option<Number>, Overflow> {
    if stock.is_positive() { taken.over(stock).map(Some) } else { Ok(None) }
}
