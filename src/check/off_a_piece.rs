//! What is taken of rolls of another recipe for one sandwich, where that is a little off the weight of a roll: nobody halves the tenth one. Told as
//! `pieces-mismatch`.

use super::Subject;
use crate::measure::number::Number;
use crate::measure::quantity::Mass;
use crate::measure::show;
use crate::model::cooking::bakes;
use crate::model::recipe::{Part, PartId};
use crate::text::diagnostic::Diagnostic;
use crate::text::source::Span;

/// Between these many pieces a whole one is meant, and from so many on nobody eats that with one. Common practice, no source.
const NEARLY_ONE: (Number, Number) = (Number::constant(3, 4), Number::constant(13, 10));
const TOO_MANY: Number = Number::whole(5);

/// So far may a weight be from that of the piece, or of a half or a third: what is weighed is rounded.
const ROUNDED: Number = Number::constant(3, 100);

/// Lines of a part by the piece that take nearly one piece, or many, of what another recipe bakes.
pub(super) fn problems(subject: &Subject<'_>, check: &'static str, (id, part): (PartId, &Part)) -> Vec<Diagnostic> {
    let lines = part.lines.iter().enumerate().filter(|_| part.per_piece);
    lines.filter_map(|(at, line)| off(subject, check, (id, at), (line.part()?, line.amount_span))).collect()
}

fn off(
    subject: &Subject<'_>,
    check: &'static str,
    (id, at): (PartId, usize),
    (of, span): (PartId, Span),
) -> Option<Diagnostic> {
    let other = subject.recipe.part(of).filter(|other| other.foreign.is_some() && other.steps.iter().any(bakes))?;
    let taken = subject.formula.part(id)?.lines.get(at)?.each?;
    let made = subject.formula.part(of)?;
    let raw = match (made.each_there, other.per_piece) {
        (Some(each), _) => each,
        (None, true) => subject.formula.per_piece(subject.recipe, of).ok()??,
        _ => return None,
    };
    let piece = raw.times(made.oven.unwrap_or(Number::ONE)).ok().filter(|piece| *piece > Mass::ZERO)?;
    let ratio = taken.ratio(piece).ok()?;
    let is_share = (1..=3).any(|parts| is_near_whole(ratio, parts).unwrap_or(true));
    let is_nearly_one = NEARLY_ONE.0 <= ratio && ratio <= NEARLY_ONE.1 && !is_share;
    if !is_nearly_one && ratio < TOO_MANY {
        return None;
    }
    let pieces = subject.formula.pieces_for(subject.recipe.part(id)?, id)?;
    let all = ratio.times(pieces.value()).ok()?;
    let message = format!(
        "{} of `{}` for one, and one of them weighs {}: {} take {} of them",
        show::mass_plain(taken),
        other.name,
        show::mass_plain(piece),
        show::pieces(pieces.value()),
        all.decimal(1)
    );
    let help = format!("write what whole ones weigh, `{}`, or a half or a third of it", show::mass_plain(piece));
    Some(Diagnostic::advice(check, span, message).help(help))
}

/// Whether so many pieces are a whole number of halves, of thirds, as a scale has it.
fn is_near_whole(ratio: Number, parts: i64) -> Option<bool> {
    let shares = ratio.times(Number::whole(parts)).ok()?;
    let whole = shares.rounded_to(Number::ONE).ok()?;
    Some(whole.is_positive() && shares.minus(whole).ok()?.size() <= whole.times(ROUNDED).ok()?)
}
