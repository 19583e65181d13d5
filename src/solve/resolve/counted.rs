//! Whether a bare number of something can be a number of pieces.

use super::outline::PartOutline;
use crate::language::syntax::{Amount, Content};
use crate::measure::number::Number;
use crate::measure::unit::Unit;
use crate::model::counted::{FEW, is_some_on_each, most_pieces};
use crate::model::recipe::{HeadMakes, Ingredient, LineAmount, Refers};
use crate::text::diagnostic::Diagnostic;

/// Of so few pieces a multiple says nothing.
const FEW_PIECES: Number = Number::whole(3);

/// The problem of a bare number on the line of something that is not counted.
pub(super) fn no_unit(line: &Ingredient, makes: Option<&HeadMakes>, outline: &PartOutline<'_>) -> Option<Diagnostic> {
    let (LineAmount::Said(said), Refers::Pantry(facts)) = (&line.amount, &line.refers) else { return None };
    let bare = said.first().filter(|said| said.unit.is_none())?;
    // `2 = 226 g` says itself what one of them is.
    if said.iter().any(|said| said.mass().is_some()) {
        return None;
    }
    // `basil .... 4, leaves` says itself what is counted.
    if line.preparation.as_deref().is_some_and(is_of_pieces) {
        return None;
    }
    let most = most_pieces(&line.name.key, line.kind, facts.as_deref());
    let number = bare.value.number();
    if number <= most {
        return None;
    }
    // One plum for each of the dumplings is a number of plums for certain. Of one or two pieces anything is a multiple.
    let on_each = |makes: &HeadMakes| {
        let HeadMakes::Pieces { count, .. } = makes else { return false };
        count.value() > FEW_PIECES && is_some_on_each(number, count.value())
    };
    if most.is_positive() && makes.is_some_and(on_each) {
        return None;
    }
    let unit = usual_unit(outline, number);
    let written = format!("{} {}", number.decimal(3), unit.word(number == Number::ONE));
    let message = if most == Number::ZERO {
        format!("`{}` has a number without a unit, and it is weighed, not counted", line.name)
    } else {
        format!("{} of {}: a number without a unit is a number of pieces", number.decimal(3), line.name)
    };
    let counted = format!("{} {}", number.decimal(3), pieces(number));
    let problem = Diagnostic::error("no-unit", line.amount_span, message);
    // What may be counted may have been counted: a plum for 120 plums is the worse mend.
    Some(if most.is_positive() {
        problem
            .help(format!("if so many pieces are meant, write `{counted}`; if it is weighed, `{written}`"))
            .suggest(format!("write `{counted}`"), line.amount_span, counted)
            .or_suggest(format!("write `{written}`"), line.amount_span, written)
    } else {
        problem.help(format!("did you mean `{written}`? Where pieces are meant, write `{counted}`")).suggest(
            format!("write `{written}`"),
            line.amount_span,
            written,
        )
    })
}

/// `piece` of one.
fn pieces(number: Number) -> &'static str {
    if number == Number::ONE { "piece" } else { "pieces" }
}

/// Whether words behind an amount say of what pieces it is a number. Common practice, no source.
fn is_of_pieces(preparation: &str) -> bool {
    const PIECES: &[&str] = &[
        "bulb", "bunch", "bunches", "clove", "cloves", "cube", "cubes", "ear", "ears", "fillet", "fillets", "half",
        "halves", "head", "heads", "leaf", "leaves", "piece", "pieces", "pod", "pods", "rasher", "rashers", "rib",
        "ribs", "segment", "segments", "sheet", "sheets", "slice", "slices", "sprig", "sprigs", "stalk", "stalks",
        "star", "stars", "stem", "stems", "stick", "sticks", "strip", "strips", "tip", "tips",
    ];
    let first = preparation.split(|c: char| !c.is_alphabetic()).find(|word| !word.is_empty());
    let last = preparation.split(|c: char| !c.is_alphabetic()).rfind(|word| !word.is_empty());
    [first, last].into_iter().flatten().any(|word| PIECES.contains(&word.to_lowercase().as_str()))
}

/// The unit in which most lines of the part are said. A number over 100 is no percentage, and a small one no gram where the
/// others are kilograms.
fn usual_unit(outline: &PartOutline<'_>, number: Number) -> Unit {
    let mut counted: Vec<(Unit, usize)> = Vec::new();
    for line in &outline.lines {
        let Content::Ingredient(ingredient) = &line.content else { continue };
        let Amount::Chain(chain) = &ingredient.amount else { continue };
        let unit = chain.first().and_then(|quantity| quantity.terms.first()).and_then(|term| term.unit);
        let Some(unit) = unit.map(|unit| unit.value).filter(|unit| *unit != Unit::Piece) else { continue };
        match counted.iter_mut().find(|(known, _)| *known == unit) {
            Some((_, count)) => *count += 1,
            None => counted.push((unit, 1)),
        }
    }
    let most = counted.iter().max_by_key(|(_, count)| *count).map_or(Unit::Gram, |(unit, _)| *unit);
    let large = number > FEW || (number > Number::whole(20) && most != Unit::Percent);
    match most {
        Unit::Kilogram | Unit::Litre | Unit::Pound | Unit::Percent if large => Unit::Gram,
        unit => unit,
    }
}
