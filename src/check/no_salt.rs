//! `no-salt`: a dough raised with yeast or leaven, and no salt in what is made of it.

use super::dough::{Nearest, fermented, is_bread, is_dough, mille};
use super::{Check, Family, Run, Subject};
use crate::model::cooking::cooks;
use crate::model::kind::Kind;
use crate::model::recipe::{Ingredient, Part, Refers};
use crate::text::diagnostic::{Diagnostic, Severity};

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "no-salt",
    severity: Severity::Advice,
    family: Family::Formula,
    looks_for: "a dough raised with yeast or leaven without salt, in itself or in what it goes into",
    why: "Salt is what is forgotten most. Without it a dough is slack, ferments too fast and tastes of nothing. Breads without salt \
          are made on purpose in some places: `# allow no-salt: reason` above the first ingredient keeps it quiet. Salt in \
          butter or cheese counts, and so does salt `to taste`.",
    bad: "recipe Loaf\nflour .... 1 kg\nwater .... 650 g\ninstant yeast .... 10 g\nmix: hands 10 min\n    Mix {flour}, {water} and \
          {instant yeast}.\n    until smooth\nrise: wait 1 h, at 24 C\n    until doubled\nbake: tend 40 min, using oven at 230 C\n    \
          until brown\n",
    good: "recipe Loaf\nflour .... 1 kg\nwater .... 650 g\nsalt .... 20 g\ninstant yeast .... 10 g\nmix: hands 10 min\n    Mix {flour}, \
           {water}, {salt} and {instant yeast}.\n    until smooth\nrise: wait 1 h, at 24 C\n    until doubled\nbake: tend 40 min, \
           using oven at 230 C\n    until brown\n",
    sources: &["common practice, no source; all published formulas of our own checks have 1.5 to 2.5 % on the flour"],
    run: Run::Recipe(run),
};

fn run(subject: &Subject<'_>, diagnostics: &mut Vec<Diagnostic>) {
    let recipe = subject.recipe;
    let raised = fermented(recipe);
    let salt = |_, part: &Part| part.lines.iter().any(is_salty);
    let cooked = |_, part: &Part| part.steps.iter().any(cooks);
    let salted = [Nearest::inside(recipe, salt), Nearest::around(recipe, salt)];
    let baked = [Nearest::inside(recipe, cooked), Nearest::around(recipe, cooked)];
    for (id, part, solved) in subject.whole_parts() {
        // A levain that is kept, and a sponge, get their salt in the dough.
        let fermenting_only = part.from.is_some() || recipe.users(id).next().is_some() || part.spare.is_some();
        if fermenting_only || !is_dough(part, solved) || !raised.has(id) || part.lines.len() < 3 {
            continue;
        }
        // A formula of flour, water and a culture is fed and not baked.
        let kept = part.steps.is_empty() && !part.lines.iter().any(|line| line.kind.is_yeast());
        // What nobody bakes, and no sheet says the pieces of, is not yet a bread.
        let baked = baked.iter().any(|baked| baked.has(id));
        let sheet = part.steps.is_empty()
            && (recipe.makes.is_some() || part.divide.is_some() || is_bread(recipe.name.key.as_str()));
        if salted.iter().any(|salted| salted.has(id)) || kept || !(baked || sheet) {
            continue;
        }
        let Some(first) = part.lines.first() else { continue };
        diagnostics.push(
            Diagnostic::advice(CHECK.name, first.span, format!("`{}` is raised and has no salt", part.name))
                .help("look whether a line for the salt is missing, commonly 1.5 to 2.5 % of the flour"),
        );
    }
}

/// Whether an ingredient brings salt, or may.
fn is_salty(line: &Ingredient) -> bool {
    matches!(line.kind, Kind::Salt | Kind::Brine)
        || line.facts().and_then(|facts| facts.contents.salt).is_some_and(|salt| salt >= mille(8))
        || (line.kind == Kind::Other && line.refers == Refers::Pantry(None))
}
