//! A preferment whose name says how wet it is. Common practice, no source: a poolish is as much water as flour, a biga half of it.

use super::CHECK;
use crate::check::Subject;
use crate::check::dough::mille;
use crate::measure::quantity::Mass;
use crate::measure::show;
use crate::model::lowered::Beginnings;
use crate::model::recipe::Part;
use crate::solve::formula::SolvedPart;
use crate::text::diagnostic::Diagnostic;

/// By the beginnings of words of a part's name, water on flour in per mille.
const NAMED: &[(&Beginnings, &str, i64, i64)] =
    &[(&Beginnings::of(&["poolish"]), "a poolish", 750, 1300), (&Beginnings::of(&["biga|"]), "a biga", 380, 800)];

/// A poolish of 37 % of water, whose flour or water lost or gained a digit.
pub(super) fn problem(subject: &Subject<'_>, part: &Part, solved: &SolvedPart) -> Option<Diagnostic> {
    let (_, what, low, high) = NAMED.iter().find(|(words, ..)| part.name.has_word_beginning(words))?;
    let share = solved.composition.hydration()?;
    // An old dough that goes in brings flour and water that are known; what brings no flour may be anything.
    let is_open = |made: &SolvedPart| made.composition.is_flour_open || made.composition.flour <= Mass::ZERO;
    let mut drawn = part.lines.iter().filter_map(|line| line.part());
    let open = solved.composition.is_flour_open || drawn.any(|made| subject.formula.part(made).is_none_or(is_open));
    if open || !part.lines.iter().any(|line| line.is_flour) || share >= mille(*low) && share <= mille(*high) {
        return None;
    }
    let message = format!(
        "`{}` has {} water on its flour; {what} commonly has from {} to {}",
        part.name,
        show::percent(share),
        show::percent(mille(*low)),
        show::percent(mille(*high))
    );
    let liquid = part.lines.iter().find(|line| line.kind.is_poured());
    Some(
        Diagnostic::advice(CHECK.name, liquid.map_or(part.name.span, |line| line.amount_span), message)
            .help("look whether a point or a digit has slipped, in the flour or in the water"),
    )
}
