//! `no-salt`: a dough raised with yeast or leaven, and no salt in what is made of it.

use super::dough::{Nearest, inside, is_baked_good, is_bread, is_dough, mass_of, mille};
use super::salty::is_salty;
use super::{Check, Family, Run, Subject, tell};
use crate::measure::number::Number;
use crate::measure::quantity::Mass;
use crate::measure::show;
use crate::model::cooking::{bakes, called, cooks};
use crate::model::kind::Kind;
use crate::model::lowered::Beginnings;
use crate::model::lowered::beginnings;
use crate::model::recipe::{HeadMakes, Ingredient, Part, PartId, Recipe, Refers};
use crate::solve::formula::SolvedPart;
use crate::text::diagnostic::{Diagnostic, Severity};
use crate::text::words::has_whole_word;
use std::cell::LazyCell;

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "no-salt",
    severity: Severity::Advice,
    family: Family::Formula,
    looks_for: "a dough raised with yeast or leaven without salt, in itself or in what it goes into, or with less than 0.8 % of its flour where \
                only a dough in it brings some; bread, scones or crackers of an unsweetened dough without any; a pot of vegetables, pulses or flesh in which nothing is salt; a pinch of sugar in a dough without salt, beside much other sugar, or on meat, pulses and rice where nothing is salt, and sugar `to taste` beside pepper",
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
    run: Run::Parts(run),
};

/// Names of breads without salt.
const UNSALTED: &Beginnings = &Beginnings::of(&[
    "saltless",
    "salt-free",
    "unsalted",
    "salt free",
    "no salt",
    "no-salt",
    "without salt",
    "sciocco",
    "sciapo",
]);

fn run(subject: &Subject<'_>, diagnostics: &mut Vec<Diagnostic>) {
    let recipe = subject.recipe;
    // Whose name says so has none on purpose.
    if recipe.name.has_word_beginning(UNSALTED) {
        return;
    }
    if subject.is_of_whole() {
        tell(diagnostics, unsalted_pot(subject).or_else(|| unsalted_mince(subject)));
        let brine = subject.of_all().whole_parts().find_map(|(_, part, _)| brine_without_salt(recipe, part));
        tell(diagnostics, brine);
    }
    diagnostics.extend(subject.whole_parts().filter_map(|(id, part, solved)| {
        sugar_for_salt(subject, id, part, solved)
            .or_else(|| super::pinch_of_sugar::problem(subject, id, part, solved, CHECK.name))
    }));
    // Each is a walk over all parts, and most recipes need but one or two of them.
    let salt = |_, part: &Part| part.lines.iter().any(is_salty);
    let cooked = |_, part: &Part| part.steps.iter().any(cooks);
    let salt_inside = LazyCell::new(|| Nearest::inside(recipe, salt));
    let salt_around = LazyCell::new(|| Nearest::around(recipe, salt));
    let cooked_inside = LazyCell::new(|| Nearest::inside(recipe, cooked));
    let cooked_around = LazyCell::new(|| Nearest::around(recipe, cooked));
    for (id, part, solved) in subject.whole_parts() {
        // A levain that is kept, and a sponge, get their salt in the dough.
        let has_flour = |user: PartId| {
            recipe.part(user).is_some_and(|user| user.lines.iter().any(|line| line.is_flour && line.stays_in()))
        };
        // Pieces that are topped or filled in another part are the dough of it.
        let goes_into_dough = recipe.users(id).any(|(user, _)| part.divide.is_none() || has_flour(user));
        let fermenting_only = part.from.is_some() || goes_into_dough || part.spare.is_some();
        if fermenting_only {
            continue;
        }
        let has_salt = part.lines.iter().any(is_salty) || salt_inside.has(id) || salt_around.has(id);
        if !has_salt && !subject.fermented().has(id) {
            diagnostics.extend(unsalted_quick(subject, part, solved));
        }
        if part.lines.len() < 3 || !is_dough(part, solved) || !subject.fermented().has(id) {
            continue;
        }
        // A formula of flour, water and a culture is fed and not baked.
        let kept = part.steps.is_empty() && !part.lines.iter().any(|line| line.kind.is_yeast());
        // What nobody bakes, and no sheet says the pieces of, is not yet a bread.
        let baked = || cooked_inside.has(id) || cooked_around.has(id);
        let sheet = || {
            part.steps.is_empty()
                && (recipe.makes.is_some() || part.divide.is_some() || is_bread(recipe.name.key.as_str()))
        };
        let Some(first) = part.lines.first() else { continue };
        if let Some(problem) = little_salt(part, solved, first).filter(|_| !kept && baked()) {
            diagnostics.push(problem);
            continue;
        }
        // Plain steamed buns have their salt in what goes with them.
        let is_steamed = |part: &Part| {
            part.steps.iter().any(|step| called(step, beginnings!["steam"])) && !part.steps.iter().any(bakes)
        };
        let only_steamed =
            || is_steamed(part) || recipe.users(id).filter_map(|(user, _)| recipe.part(user)).any(is_steamed);
        if has_salt || kept || !(baked() || sheet()) || only_steamed() {
            continue;
        }
        diagnostics.push(
            Diagnostic::advice(CHECK.name, first.span, format!("`{}` is raised and has no salt", part.name))
                .help("look whether a line for the salt is missing, commonly 1.5 to 2.5 % of the flour"),
        );
    }
}

/// A bread, a scone or a cracker without yeast, that nothing sweetens and nothing salts.
fn unsalted_quick(subject: &Subject<'_>, part: &Part, solved: &SolvedPart) -> Option<Diagnostic> {
    let Some(HeadMakes::Pieces { noun, .. }) = &subject.recipe.makes else { return None };
    let sweet = mass_of(part, solved, |line| line.kind.is_sweet())?.as_share_of(solved.composition.flour).ok()?;
    // Fruit and chocolate sweeten too, and what is drawn from elsewhere is judged there.
    let plain = part.lines.iter().all(|line| {
        matches!(line.refers, Refers::Pantry(_)) && !matches!(line.kind, Kind::Fruit | Kind::Chocolate | Kind::Nut)
    });
    let named = is_baked_good(noun.key.as_str()) && is_dough(part, solved) && part.steps.iter().any(cooks);
    if !named || !plain || part.lines.len() < 3 || sweet >= mille(10) {
        return None;
    }
    let first = part.lines.first()?;
    Some(
        Diagnostic::advice(CHECK.name, first.span, format!("`{}` is not sweetened and has no salt", part.name))
            .help("look whether a line for the salt is missing, commonly 1 to 2 % of the flour"),
    )
}

/// A dough that lists no salt of its own, and whose old dough or leaven brings too little for all of it.
fn little_salt(part: &Part, solved: &SolvedPart, first: &Ingredient) -> Option<Diagnostic> {
    let composition = &solved.composition;
    let share = composition.salt.as_share_of(super::dough::all_flour(solved)).ok()?;
    let takes_dough = part.lines.iter().any(|line| matches!(line.refers, Refers::Part(_)));
    if !takes_dough || share < mille(1) || share >= mille(8) || part.lines.iter().any(is_salty) {
        return None;
    }
    let message = format!(
        "`{}` is raised and has no salt but {} in what goes into it, {} of its flour",
        part.name,
        show::mass_plain(composition.salt),
        show::percent(share)
    );
    Some(
        Diagnostic::advice(CHECK.name, first.span, message)
            .help("look whether a line for the salt is missing, commonly 1.5 to 2.5 % of all flour"),
    )
}

/// From so little to so much of the flour salt is taken, and sugar hardly ever.
const PINCH: (i64, i64) = (4, 25);

/// A pinch of sugar where salt is wont to stand: the two white powders were taken for each other. What feeds the yeast of a sponge is
/// another thing.
fn sugar_for_salt(subject: &Subject<'_>, id: PartId, part: &Part, solved: &SolvedPart) -> Option<Diagnostic> {
    let recipe = subject.recipe;
    // What is baked in its part is no sponge.
    let is_taken = recipe.is_drawn_on(id) && !part.steps.iter().any(bakes);
    let fed = part.from.is_some() || is_taken || recipe.preferments(id).next().is_some();
    let open = part.lines.iter().any(|line| matches!(line.refers, Refers::Part(_)) || line.kind == Kind::Leaven);
    if fed || open || part.per_piece || part.lines.len() < 3 || part.lines.iter().any(is_salty) {
        return None;
    }
    let flour = solved.composition.flour;
    // A paste for choux is an eighth of flour and more, and salted as a dough is.
    if flour <= Mass::ZERO || flour.times(Number::whole(8)).ok()? < solved.composition.total {
        return None;
    }
    let (line, share) = part.lines.iter().zip(&solved.lines).find_map(|(line, amount)| {
        let share = amount.mass?.as_share_of(flour).ok()?;
        let pinch = line.kind == Kind::Sugar
            && !line.aside
            && !line.optional
            && share >= mille(PINCH.0)
            && share <= mille(PINCH.1);
        pinch.then_some((line, share))
    })?;
    let message = format!(
        "`{}` has no salt, and {} of {} on its flour, as much as salt is taken",
        part.name,
        show::percent(share),
        line.name
    );
    Some(Diagnostic::advice(CHECK.name, line.amount_span, message).help("look whether salt was meant"))
}

/// A brine, by its name or that of the step in which something lies in it, of water without salt.
fn brine_without_salt(recipe: &Recipe, part: &Part) -> Option<Diagnostic> {
    if part.lines.iter().any(|line| line.kind == Kind::Salt) || !part.lines.iter().any(|line| line.kind == Kind::Water)
    {
        return None;
    }
    let is_brine = beginnings!["brine"];
    let named = [&recipe.name, &part.name].iter().any(|name| name.has_word_beginning(is_brine))
        || part.steps.iter().any(|step| called(step, is_brine));
    let water = part.lines.iter().find(|line| line.kind == Kind::Water).filter(|_| named && part.lines.len() > 1)?;
    let drawn = || part.lines.iter().filter_map(|line| recipe.part(line.part()?)).flat_map(|part| &part.lines);
    let salty = |line: &Ingredient| is_salty(line) || matches!(line.kind, Kind::Seasoning | Kind::Vinegar);
    if part.lines.iter().chain(drawn()).any(salty)
        || recipe.parts().any(|(_, other)| other.name.has_word_beginning(is_brine) && other.lines.iter().any(is_salty))
    {
        return None;
    }
    Some(
        Diagnostic::advice(CHECK.name, water.span, format!("`{}` is a brine without salt", part.name))
            .help("look whether another white powder stands in its place; a brine has commonly 3 to 8 % of its water"),
    )
}

/// Sausages, terrines and patties of which nothing in the whole recipe is salt.
fn unsalted_mince(subject: &Subject<'_>) -> Option<Diagnostic> {
    let recipe = subject.recipe;
    let named =
        beginnings!["sausage", "terrine", "pâté", "pate|", "meatball", "meatloaf", "patties", "rillette", "burger"];
    if !recipe.name.has_word_beginning(named) {
        return None;
    }
    let all: Vec<&Ingredient> = recipe.parts().flat_map(|(_, part)| &part.lines).collect();
    let cured = |line: &Ingredient| {
        line.name.has_word_beginning(beginnings![
            "bacon", "ham|", "smoked", "cured", "salted", "bouillon", "miso", "brine", "cheese", "feta", "sausage"
        ]) || matches!(line.kind, Kind::Seasoning)
    };
    let flesh = all.iter().find(|line| line.kind.is_flesh())?;
    let is_written = recipe.parts().any(|(_, part)| !part.steps.is_empty());
    // The salt of its crumbs salts no meat.
    let salts = |line: &Ingredient| is_salty(line) && line.kind != Kind::Bread;
    (is_written && all.len() > 2 && !all.iter().any(|line| salts(line) || cured(line))).then(|| {
        Diagnostic::advice(CHECK.name, flesh.span, format!("nothing in `{}` is salt", recipe.name))
            .help("look whether a line for the salt is missing, commonly 1.2 to 2 % of all")
    })
}

/// What is sour or sweet by its nature is not salted.
const NOT_SALTED: &Beginnings = &Beginnings::of(&[
    "jam",
    "compote",
    "chutney",
    "jelly",
    "marmalade",
    "cordial",
    "smoothie",
    "tea",
    "fruit",
    "sweet",
    "pickle",
    "kraut",
]);

/// A pot that is cooked of vegetables, pulses or flesh, and nothing in the whole recipe is salt.
fn unsalted_pot(subject: &Subject<'_>) -> Option<Diagnostic> {
    let recipe = subject.recipe;
    let id = recipe.final_part()?;
    if subject.formula.part(id)?.composition.flour > Mass::ZERO {
        return None;
    }
    let part = recipe.part(id).filter(|part| !part.broken && part.steps.iter().any(cooks))?;
    let within = inside(recipe, id);
    let all: Vec<&Ingredient> =
        within.into_iter().filter_map(|inner| recipe.part(inner)).flat_map(|part| &part.lines).collect();
    let savoury = |line: &&&Ingredient| line.kind.is_flesh() || matches!(line.kind, Kind::Vegetable | Kind::Pulse);
    let is_wet = all.iter().any(|line| line.kind.is_liquid());
    if !is_wet || all.len() < 5 || all.iter().filter(savoury).count() < 2 || recipe.name.has_word_beginning(NOT_SALTED)
    {
        return None;
    }
    let cured = |line: &Ingredient| {
        line.name.has_word_beginning(beginnings![
            "bacon", "smoked", "cured", "bouillon", "broth", "miso", "olive", "caper", "anchov", "feta"
        ]) || has_whole_word(line.name.key.as_str(), ["ham", "hams", "salt", "salted", "stock", "stocks", "stockfish"])
            || matches!(line.kind, Kind::Seasoning | Kind::Dairy)
    };
    if all.iter().any(|line| is_salty(line) || cured(line)) {
        return None;
    }
    let solved = subject.formula.part(id)?;
    let sweet = part.lines.iter().zip(&solved.lines).filter(|(line, _)| line.kind.is_sweet());
    let sweet = Mass::sum(sweet.filter_map(|(_, line)| line.mass)).ok()?;
    if sweet.as_share_of(solved.goes_in?).is_ok_and(|share| share > mille(50)) {
        return None;
    }
    let first = part.lines.first()?;
    Some(
        Diagnostic::advice(CHECK.name, first.span, format!("nothing in `{}` is salt", recipe.name)).help(
            "look whether a line for the salt is missing, commonly 0.5 to 1 % of all, or write `salt .... to taste`",
        ),
    )
}
