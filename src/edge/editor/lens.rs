//! The totals of a part, above its first line.

use super::place;
use super::view::{UNITS, View};
use crate::measure::show;
use crate::model::recipe::Part;
use crate::solve::formula::SolvedPart;
use crate::text::source::Span;

/// The totals of each part, at its name.
pub(super) fn lenses(view: &View) -> Vec<(Span, String)> {
    let Some((recipe, formula)) = view.weighed() else { return Vec::new() };
    let parts = place::own_parts(recipe, formula);
    parts
        .filter_map(|(id, part, solved)| {
            let totals = totals(part, solved, formula.is_mix(recipe, id));
            (!totals.is_empty() && part.name.span.start < part.name.span.end)
                .then(|| (part.name.span, totals.join(" · ")))
        })
        .collect()
}

/// `1900 g in all`, `24 pieces of 78 g`, of a mix `hydration 58 %`, `24 g left`.
pub(super) fn totals(part: &Part, solved: &SolvedPart, is_mix: bool) -> Vec<String> {
    let mut totals = Vec::new();
    if let Some(total) = solved.goes_in {
        totals.push(format!("{} in all", show::mass_plain(total)));
        if let Some(base) = solved.base.filter(|base| base.value().is_positive())
            && let Ok(share) = total.as_share_of(base)
        {
            totals.push(show::percent(share).to_string());
        }
    }
    if let (Some(pieces), Some(each)) = (solved.pieces, solved.each) {
        totals.push(format!("{} of {}", show::pieces(pieces.value()), show::mass_plain(each)));
    }
    let hydration = solved.hydration().filter(|one| one.share.value().is_positive() && is_mix);
    if let Some(one) = hydration {
        totals.push(format!("hydration {}", show::percent(one.share).bound(one.bound())));
    }
    if let Some(share) = solved.prefermented {
        totals.push(format!("{} of the flour prefermented", show::percent(share)));
    }
    if let Some(at) = part.desired_temperature {
        totals.push(format!("at {}", show::temperature(at, UNITS)));
    }
    if let Some(left) = solved.balance.left.filter(|left| !left.value().is_zero()) {
        let (what, mass) = if left.value().is_negative() {
            ("short", left.times(crate::measure::number::Number::whole(-1)).unwrap_or(left))
        } else {
            ("left", left)
        };
        totals.push(format!("{} {what}", show::mass_plain(mass)));
    }
    totals
}
