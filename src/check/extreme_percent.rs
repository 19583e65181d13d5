//! `extreme-percent`: so much salt, leaven or raising agent that no dough comes of it.

use super::dough::{all_flour, is_dough, massed, mille};
use super::{Check, Family, Run, Subject};
use crate::language::syntax::Name;
use crate::measure::quantity::Proportion;
use crate::measure::show;
use crate::model::kind::{Kind, YeastForm};
use crate::model::lowered::beginnings;
use crate::model::recipe::{Part, PartId};
use crate::text::diagnostic::{Diagnostic, Severity};

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "extreme-percent",
    severity: Severity::Error,
    family: Family::Formula,
    looks_for: "salt, yeast, baking powder or soda in such a share of the flour that no dough can be made with it",
    why: "100 kg of salt in 5 kg of flour are 100 g, and 18 % are 1.8. In a dough raised with yeast or leaven more than 10 % of salt stops all \
          fermenting and cannot be eaten; dried yeast over 8 %, fresh yeast over 20 %, and in any dough baking powder over 25 % or soda over 10 % of \
          the flour cannot be eaten. A salt crust that says so in its name is let pass; in a dough that nothing raises salt is told over 400 %. What is only unusual is told by `odd-percent`.",
    bad: "recipe Loaf\nflour .... 5 kg\nwater .... 3.2 kg\nsalt .... 100 kg\ninstant yeast .... 50 g\nmix: hands 10 min\n    \
          Mix {flour}, {water}, {salt} and {instant yeast}.\n    until smooth\n",
    good: "recipe Loaf\nflour .... 5 kg\nwater .... 3.2 kg\nsalt .... 100 g\ninstant yeast .... 50 g\nmix: hands 10 min\n    \
           Mix {flour}, {water}, {salt} and {instant yeast}.\n    until smooth\n",
    sources: &["common practice, no source; several times what the widest of published formulas have"],
    run: Run::Parts(run),
};

/// Whether a name says that it is a crust to bake in, which is broken off.
fn is_crust(subject: &Subject<'_>, part: &Part) -> bool {
    let says = |name: &Name| name.has_word_beginning(beginnings!["crust", "salt-crust", "salt-dough"]);
    says(&part.name) || says(&subject.recipe.name)
}

/// The most that can be in a dough, in per mille of the flour, and what it is called.
pub(super) fn most(
    subject: &Subject<'_>,
    (id, part): (PartId, &Part),
    kind: Kind,
    fermented: impl Fn() -> bool,
) -> Option<(&'static str, Proportion)> {
    match kind {
        Kind::Salt if is_crust(subject, part) => None,
        Kind::Salt if fermented() => Some(("salt", mille(100))),
        // Twice the flour in salt is a crust that nobody eats; thirty times is a slip.
        Kind::Salt => Some(("salt", mille(4000))),
        // A sponge may hold the yeast of all the dough that it goes into.
        Kind::Yeast(Some(YeastForm::ActiveDry | YeastForm::InstantDry)) if is_sponge(subject, id) => {
            Some(("dried yeast", mille(150)))
        }
        Kind::Yeast(Some(YeastForm::ActiveDry | YeastForm::InstantDry)) => Some(("dried yeast", mille(80))),
        Kind::Yeast(_) if is_sponge(subject, id) => Some(("fresh yeast", mille(400))),
        // Where the form is not said it may be fresh.
        Kind::Yeast(_) => Some(("fresh yeast", mille(200))),
        Kind::BakingPowder => Some(("baking powder", mille(250))),
        Kind::Soda => Some(("soda", mille(100))),
        _ => None,
    }
}

fn is_sponge(subject: &Subject<'_>, id: PartId) -> bool {
    subject.recipe.is_drawn_on(id)
}

fn run(subject: &Subject<'_>, diagnostics: &mut Vec<Diagnostic>) {
    for (id, part, solved) in subject.whole_parts() {
        // What is taken out of a total formula is judged there.
        if part.from.is_some() || part.per_piece || !is_dough(part, solved) {
            continue;
        }
        // A leaven without a weight is flour, and nobody knows how much.
        if solved.composition.is_flour_open {
            continue;
        }
        // Half a kept leaven is flour: crackers of its discard have little other.
        let flour = all_flour(solved);
        for (line, mass) in massed(part, solved) {
            let Some((noun, most)) = most(subject, (id, part), line.kind, || subject.fermented().has(id)) else {
                continue;
            };
            let Some(share) = mass.as_share_of(flour).ok().filter(|share| *share > most) else { continue };
            let message = format!(
                "{} of {} on {} of flour are {}: no dough has more than {} of {noun}",
                show::mass_plain(mass),
                line.name,
                show::mass_plain(flour),
                show::percent(share),
                show::percent(most)
            );
            diagnostics.push(
                Diagnostic::error(CHECK.name, line.amount_span, message)
                    .help("look whether the unit is right, g or kg, and whether a point has slipped"),
            );
        }
    }
}
