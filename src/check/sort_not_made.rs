//! `sort-not-made`: a sort of pieces that nothing is made of.

use super::{Check, Family, Run, Subject};
use crate::model::recipe::Refers;
use crate::text::diagnostic::{Diagnostic, Severity};

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "sort-not-made",
    severity: Severity::Error,
    family: Family::Formula,
    looks_for: "pieces of one sort of a divided dough that no part `per SORT` takes, while it takes those of another sort",
    why: "A dough that is divided into small and large pieces goes on as small and as large loaves. Where there is a part for one sort \
          and none for the other, its pieces are weighed off and then nothing happens to them.",
    bad: "recipe Tins\nmakes 10 loaves\npart dough\nflour .... 2 kg\nwater .... 1200 g\ndivide 4 x 350 g small and 6 x 300 g large\n\
          mix: hands 10 min\n    Mix {flour} and {water}.\n    until smooth\npart small loaves\nper small\ndough .... 1 piece\n\
          bake: tend 30 min\n    Bake {dough}.\n    until brown\n",
    good: "recipe Tins\nmakes 10 loaves\npart dough\nflour .... 2 kg\nwater .... 1200 g\ndivide 4 x 350 g small and 6 x 300 g large\n\
          mix: hands 10 min\n    Mix {flour} and {water}.\n    until smooth\npart small loaves\nper small\ndough .... 1 piece\n\
          bake: tend 30 min\n    Bake {dough}.\n    until brown\npart large loaves\nper large\ndough .... 1 piece\n\
          bake: tend 35 min\n    Bake {dough}.\n    until brown\n",
    sources: &[],
    run: Run::Recipe(run),
};

fn run(subject: &Subject<'_>, diagnostics: &mut Vec<Diagnostic>) {
    let recipe = subject.recipe;
    for (id, part, _) in subject.own_parts().filter(|(_, part, _)| !part.sorts.is_empty()) {
        // By weight all of it may be used, whatever it is divided into.
        let takers: Vec<_> = recipe.users(id).filter_map(|(user, at)| Some((recipe.part(user)?, at))).collect();
        if !takers.iter().any(|(user, _)| user.sort.is_some()) || takers.iter().any(|(user, _)| user.sort.is_none()) {
            continue;
        }
        for sort in &part.sorts {
            let takes = |user: &crate::model::recipe::Part, at: usize| {
                user.sort.as_ref().is_some_and(|name| name.same(&sort.name))
                    && user.lines.get(at).is_some_and(|line| matches!(line.refers, Refers::Part(_)))
            };
            if takers.iter().any(|(user, at)| takes(user, *at)) {
                continue;
            }
            let message =
                format!("`{}` is divided into pieces called `{}`, and nothing is made of them", part.name, sort.name);
            diagnostics.push(Diagnostic::error(CHECK.name, sort.name.span, message).help(format!(
                "add a part with the line `per {0}` that takes `{1} .... 1 piece`, or take `{0}` out of `divide`",
                sort.name, part.name
            )));
        }
    }
}
