//! What the parts that a dough takes bring into it: their water, their salt and their sugar count on its flour as they do on its card.

use super::{CHECK, poured_of, usual};
use crate::check::Subject;
use crate::check::dough::{all_flour, mille};
use crate::measure::quantity::Mass;
use crate::measure::show;
use crate::model::kind::Kind;
use crate::model::recipe::{Ingredient, Part, PartId};
use crate::solve::formula::SolvedPart;
use crate::solve::formula::leaves::{Counted, Leaf, leaves};
use crate::text::diagnostic::Diagnostic;

/// Whether a dough with flour of its own takes parts whose lines are not among its own already, as those of a preferment are.
fn takes_parts(subject: &Subject<'_>, id: PartId, part: &Part) -> bool {
    let is_other = |inner: PartId| subject.recipe.part(inner).is_some_and(|inner| inner.from != Some(id));
    part.lines.iter().any(|line| line.part().is_some_and(is_other))
        && part.lines.iter().any(|line| line.is_flour && line.stays_in())
}

/// What lies in the parts that a dough takes, each with how much of it is in the dough.
fn drawn<'s>(subject: &Subject<'s>, id: PartId, part: &Part) -> Vec<Leaf<'s>> {
    if !takes_parts(subject, id, part) {
        return Vec::new();
    }
    let mut all = leaves(subject.recipe, subject.formula, id, Counted::GoesIn).unwrap_or_default();
    all.retain(|leaf| !part.lines.iter().any(|own| std::ptr::eq(own, leaf.line)));
    all
}

/// The liquid that the parts bring in which a dough takes, and what of them drinks as flour does: soaked grain, seeds and bread.
pub(super) fn liquid(subject: &Subject<'_>, id: PartId, part: &Part) -> Option<(Mass, Mass)> {
    let drawn = drawn(subject, id, part);
    let wet = drawn.iter().map(|leaf| poured_of(leaf.line, leaf.mass));
    let wet = Mass::sum(wet.collect::<Result<Vec<Mass>, _>>().ok()?).ok()?;
    let drinks = |leaf: &&Leaf<'_>| {
        matches!(
            leaf.line.kind,
            Kind::Grain | Kind::Seed | Kind::Bread | Kind::Pulse | Kind::Starch | Kind::Fruit | Kind::Nut
        )
    };
    let drinks = Mass::sum(drawn.iter().filter(drinks).map(|leaf| leaf.mass)).ok()?;
    Some((wet, drinks))
}

/// Salt or sugar of which the parts bring so much that with what is listed it is more than usual. What is too much by itself is told already.
pub(super) fn too_much(
    subject: &Subject<'_>,
    (id, part, solved): (PartId, &Part, &SolvedPart),
    raised: bool,
) -> Option<Diagnostic> {
    let drawn = drawn(subject, id, part);
    if drawn.is_empty() {
        return None;
    }
    let flour = all_flour(solved);
    [Kind::Salt, Kind::Sugar].into_iter().find_map(|kind| {
        let known = usual(kind, raised)?;
        let most = mille(known.to);
        let is_it = |line: &Ingredient| line.kind == kind && line.stays_in();
        let own = part.lines.iter().zip(&solved.lines).filter(|(line, _)| is_it(line)).filter_map(|(_, amount)| amount.mass);
        let own = Mass::sum(own).ok()?;
        let brought = Mass::sum(drawn.iter().filter(|leaf| is_it(leaf.line)).map(|leaf| leaf.mass)).ok()?;
        let share = own.plus(brought).ok()?.as_share_of(flour).ok()?;
        if brought <= Mass::ZERO || share <= most || own.as_share_of(flour).ok()? > most {
            return None;
        }
        let heaviest = |line: &Ingredient| line.part().is_some();
        let line = part.lines.iter().zip(&solved.lines).filter(|(line, _)| heaviest(line)).max_by_key(|(_, amount)| amount.mass)?.0;
        let message = format!(
            "{} of the flour of `{}` is {} with what lies in the parts that it takes, which is unusual: common practice is up to {}",
            show::percent(share),
            part.name,
            known.noun,
            show::percent(most)
        );
        Some(
            Diagnostic::advice(CHECK.name, line.amount_span, message)
                .label(format!("{} of {} besides {}", show::mass_plain(brought), known.noun, show::mass_plain(own)))
                .help("look whether a point or a digit has slipped, here or in the part"),
        )
    })
}
