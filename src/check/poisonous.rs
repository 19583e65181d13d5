//! `poisonous`: what nobody eats, what is poison until it is cooked, and honey in what is for babies.

use super::from_elsewhere::told_where_it_comes_in;
use super::{Check, Family, Run, Subject, tell};
use crate::model::cooking::Later;
use crate::text::diagnostic::{Diagnostic, Severity};

mod beans;
mod honey;
mod plants;

pub(super) use honey::{ON_HONEY, for_babies as honey_for_babies};

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "poisonous",
    severity: Severity::Advice,
    family: Family::Safety,
    looks_for: "what nobody eats (rhubarb leaves, bitter apricot kernels, green potatoes, foxglove, false morels, fugu), what is poison until it is cooked and never is \
                (dried kidney beans, which ten minutes of boiling cook and four do not, elderberries, cassava, green beans, morels), and honey in what is for babies",
    why: "In rhubarb leaves, bitter kernels, green potatoes and some garden flowers there is what no heat takes away. Dried beans of the kidney bean's \
          kind hold a poison that only boiling takes away; a slow pot leaves it. Elderberries, cassava, taro and bamboo shoots hold others while they are \
          raw. Honey may hold spores that no kitchen's heat kills, and is for nobody under a year. Leave the thing out, boil it before anything slower, or \
          say behind it that it was: `cooked`, `tinned`. It is a check of its own, so that whoever serves meat rare and allows `undercooked` still hears of \
          this. This is general advice: health authorities, local food law and licensed practice go before it.",
    bad: "recipe Red beans\ndried kidney beans .... 500 g\nwater .... 1.5 kg\nsalt .... 10 g\ncook: tend 8 h, using slow cooker at 80 C\n    \
          Cook {dried kidney beans} in {water} with {salt}.\n    until soft\n",
    good: "recipe Red beans\ndried kidney beans .... 500 g\nwater .... 1.5 kg\nsalt .... 10 g\nboil: tend 60 min, using hob\n    \
           Boil {dried kidney beans} in {water}; add {salt}.\n    until soft\n",
    sources: &[
        "FDA Bad Bug Book, phytohaemagglutinin of kidney beans (from memory)",
        "CDC, MMWR 33 (13), 1984, juice of raw elderberries; FSANZ, cassava and bamboo shoots, 2005 (from memory)",
        "Regulation (EU) 2017/1237 and EFSA on apricot kernels; FSA on rhubarb leaves and green potatoes (all from memory)",
        "BfR on raw green beans; FDA and CDC on raw morels, 2023; 21 CFR 189.180, safrole (all from memory)",
        "CDC and NHS on honey and infant botulism (from memory)",
    ],
    run: Run::Parts(run),
};

fn run(subject: &Subject<'_>, diagnostics: &mut Vec<Diagnostic>) {
    if subject.is_of_whole() {
        tell(diagnostics, honey::told(subject));
    }
    let mut later = Later::of(subject.recipe);
    for (id, part, _) in subject.own_parts() {
        let found = beans::never_boiled(part).or_else(|| beans::never_cooked((id, part), &mut later));
        let is_taken = || subject.recipe.is_drawn_on(id);
        tell(diagnostics, found.or_else(|| beans::hardly_boiled(part).filter(|_| !is_taken())));
        diagnostics.extend(plants::never_cooked(subject.recipe, (id, part), &mut later));
        diagnostics.extend(plants::never_eaten(part));
    }
    told_where_it_comes_in(subject, diagnostics, |(id, part, _), found| {
        tell(found, beans::never_cooked((id, part), &mut later));
        found.extend(plants::never_cooked(subject.recipe, (id, part), &mut later));
    });
}
