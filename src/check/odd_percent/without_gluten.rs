//! How much water a dough without gluten drinks, and what holds it together. Common practice, no source.

use super::CHECK;
use crate::check::Subject;
use crate::check::dough::{is_batter, mass_of, massed, mille};
use crate::check::gluten_free_dough::{is_body, is_gluten_free};
use crate::check::odd_bake_time::piece;
use crate::measure::number::Number;
use crate::measure::quantity::Mass;
use crate::measure::show;
use crate::model::cooking::{bakes, beginnings};
use crate::model::kind::Kind;
use crate::model::lowered::Beginnings;
use crate::model::recipe::{Ingredient, Part, PartId};
use crate::model::step::StepKind;
use crate::solve::formula::SolvedPart;
use crate::text::diagnostic::Diagnostic;

/// Of them those that are starch and nothing that holds together.
#[rustfmt::skip]
const LOOSE: &Beginnings = &Beginnings::of(&["rice", "maize", "corn", "cornflour", "sorghum", "millet", "tapioca", "potato", "cassava", "arrowroot"]);
/// What holds together a dough without gluten.
#[rustfmt::skip]
const BINDERS: &Beginnings = &Beginnings::of(&[
    "psyllium", "xanthan", "guar", "gum|", "husk", "flax", "linseed", "chia", "methylcellulose", "cellulose", "hpmc", "gelatin", "pectin", "agar", "locust", "carob",
    "konjac", "binder", "blend", "mix|", "improver", "egg", "okra", "banana", "gel|", "glutinous", "sticky", "mochi", "sour starch", "polvilho",
]);

/// Water on all flour and starch, per mille.
const DRINKS: (i64, i64) = (650, 1700);
/// What lighter pieces are may be rolled, and wafers.
const PIECE: Mass = Mass::new(Number::whole(60));

/// Such a dough of yeast that is as dry as one of wheat, a soup, or that nothing holds together.
pub(super) fn problem(subject: &Subject<'_>, (id, part): (PartId, &Part), solved: &SolvedPart) -> Option<Diagnostic> {
    if !part.lines.iter().any(|line| line.kind.ferments()) || !is_gluten_free(part) {
        return None;
    }
    let in_oven = |part: &Part| part.steps.iter().any(|step| step.kind != StepKind::Wait && bakes(step));
    let takers = || subject.recipe.users(id).filter_map(|(user, _)| subject.recipe.part(user));
    let bakes = in_oven(part) || takers().any(in_oven);
    let flat = beginnings!["pizza", "flat", "wrap", "cracker", "crisp", "pancake", "crepe", "tortilla", "cheese"];
    let is_flat = [&subject.recipe.name, &part.name].iter().any(|name| name.has_word_beginning(flat));
    if !bakes || is_flat || is_batter(part) || part.from.is_some() {
        return None;
    }
    piece(subject.recipe, part).filter(|piece| *piece >= PIECE)?;
    let body = mass_of(part, solved, is_body).filter(|body| *body > Mass::ZERO)?;
    let unknown = || part.lines.iter().any(|line| line.kind == Kind::Other && line.stays_in());
    let unweighed = part.lines.iter().zip(&solved.lines).any(|(line, amount)| line.stays_in() && amount.mass.is_none());
    let water = solved.composition.water;
    let share = water.as_share_of(body).ok()?;
    let (low, high) = (mille(DRINKS.0), mille(DRINKS.1));
    let is_dry = share < low && water.plus(solved.composition.unknown.water).ok()?.as_share_of(body).ok()? < low;
    if !unweighed && (is_dry && !unknown() || share > high) {
        let poured = massed(part, solved).filter(|(line, _)| line.kind.is_poured()).max_by_key(|(_, mass)| *mass);
        let message = format!(
            "`{}` has {} water on its flour and starch; doughs without gluten commonly have from {} to {}",
            part.name,
            show::percent(share),
            show::percent(low),
            show::percent(high)
        );
        return Some(
            Diagnostic::advice(CHECK.name, poured.map_or(part.name.span, |(line, _)| line.amount_span), message)
                .label(format!("{} on {} of flour and starch", show::mass_plain(water), show::mass_plain(body)))
                .help("look whether a point or a digit has slipped, or a flour of wheat was exchanged"),
        );
    }
    let has_yeast = part.lines.iter().any(|line| line.kind.is_yeast());
    let binds =
        |line: &Ingredient| line.name.has_word_beginning(BINDERS) || matches!(line.kind, Kind::Thickener | Kind::Egg);
    let loose = mass_of(part, solved, |line| is_body(line) && line.name.has_word_beginning(LOOSE))?;
    let is_loose = loose.as_share_of(body).ok()? >= mille(500);
    (has_yeast && is_loose && !unknown() && !part.lines.iter().any(binds)).then(|| {
        let message = format!("nothing holds `{}` together: its flours have no gluten, and no husk, gum or egg is listed", part.name);
        Diagnostic::advice(CHECK.name, part.name.span, message)
            .help("look whether a line is missing, 3 to 6 % of psyllium husk or 0.5 to 1.5 % of xanthan, or a flour of wheat was exchanged")
    })
}
