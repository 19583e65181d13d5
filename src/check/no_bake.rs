//! `no-bake`: pieces of dough that are risen and shaped, and then nobody bakes them.

use super::dough::{inside, is_baked_good, is_bread, is_dough};
use super::{Check, Family, Run, Subject};
use crate::language::syntax::Name;
use crate::model::cooking::heat_words::COOKS;
use crate::model::cooking::rests::PROVES;
use crate::model::cooking::{Beginnings, bakes, called, cooks, has_word_beginning, surely_does};
use crate::model::kind::Kind;
use crate::model::lowered::beginnings;
use crate::model::recipe::{HeadMakes, Ingredient, Part, PartId, Recipe};
use crate::model::step::Step;
use crate::text::diagnostic::{Diagnostic, Severity};

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "no-bake",
    severity: Severity::Warning,
    family: Family::Steps,
    looks_for: "a recipe that makes pieces of a dough raised with yeast, leaven or baking powder, or what is called loaf, bun, biscuit, cake, tart or the like, and has \
                steps, but none with heat; what is of raw flour and makes pieces, and bagels that are boiled and not baked",
    why: "The baking step was lost, with its time, its oven and its sign: the plan ends before the oven is lit. Where a bake loss is told, and of a batter with egg and powder, one step is enough to miss it. A dough that is sold \
          or frozen unbaked says so in a step, `freeze` or `chill`, as its last, or in the `directions` of its label; a dough that others draw on makes a weight.",
    bad: "recipe Rolls\nmakes 10 rolls\nflour .... 500 g\nwater .... 300 g\nsalt .... 10 g\ninstant yeast .... 5 g\nmix: hands 10 min\n    \
          Mix {flour}, {water}, {salt} and {instant yeast}.\n    until smooth\nrise: wait 1 h, at 24 C\nshape: hands 10 min\nprove: \
          wait 1 h, at 24 C\n",
    good: "recipe Rolls\nmakes 10 rolls\nflour .... 500 g\nwater .... 300 g\nsalt .... 10 g\ninstant yeast .... 5 g\nmix: hands 10 min\n    \
           Mix {flour}, {water}, {salt} and {instant yeast}.\n    until smooth\nrise: wait 1 h, at 24 C\nshape: hands 10 min\nprove: \
           wait 1 h, at 24 C\nbake: tend 15 min, using oven at 220 C\n    until gold\n",
    sources: &["common practice, no source"],
    run: Run::Recipe(run),
};

/// Self-raising flour has its powder in it.
fn raises_itself(line: &Ingredient) -> bool {
    ["self-rais", "self rais", "self-ris", "self ris"].iter().any(|start| line.name.key.as_str().starts_with(start))
}

/// Baking powder and soda work in the oven alone.
fn lists_powder(recipe: &Recipe, id: PartId) -> bool {
    inside(recipe, id)
        .iter()
        .filter_map(|inner| recipe.part(*inner))
        .any(|part| part.lines.iter().any(|line| line.kind.is_chemical_raising() || raises_itself(line)))
}

/// What is made to be cooked by somebody else, by a word in its name.
const SOLD_RAW: &[&str] = &[
    "dough",
    "batter",
    "paste",
    "mix",
    "pastry",
    "crumbs",
    "ball",
    "base",
    "sheet",
    "case",
    "shell",
    "starter",
    "leaven",
    "levain",
    "frozen",
    "roux",
    "wrapper",
    "noodle",
    "pasta",
    "tagliatelle",
    "ravioli",
    "gnocchi",
    "dumpling",
    "skin",
    "disc",
    "block",
    "kit",
    "raw",
    "unbaked",
    "sponge starter",
    "poolish",
    "biga",
    "glue",
    "playdough",
    "dust",
];

/// Whether somebody else cooks it, or it goes into something else.
fn is_sold_raw(recipe: &Recipe, noun: &Name, part: &Part) -> bool {
    [&recipe.name, noun, &part.name].iter().any(|name| has_word_beginning(name.key.as_str(), SOLD_RAW))
}

/// Whether a twentieth and more of what is eaten is flour that nothing has cooked.
fn is_of_raw_flour(all: &[&Part]) -> bool {
    let lines = || all.iter().flat_map(|part| &part.lines).filter(|line| !line.aside);
    let is_raw = |line: &Ingredient| {
        let cooked = |said: &str| has_word_beginning(&said.to_lowercase(), ["toast", "cook", "roast", "heat", "bak"]);
        line.kind == Kind::Flour
            && line.is_flour
            && !cooked(line.name.key.as_str())
            && !line.preparation.as_deref().is_some_and(cooked)
    };
    lines().any(is_raw) && lines().any(|line| matches!(line.kind, Kind::Fat | Kind::Egg | Kind::Sugar))
}

/// Other heat than that of a pot of water.
const BAKES: &Beginnings =
    &Beginnings::of(&["bak", "fry", "fried|", "fries|", "steam", "griddl", "grill", "toast", "oven"]);

fn run(subject: &Subject<'_>, diagnostics: &mut Vec<Diagnostic>) {
    let recipe = subject.recipe;
    let (Some(HeadMakes::Pieces { noun, .. }), Some(id)) = (&recipe.makes, recipe.final_part()) else { return };
    let (Some(part), Some(solved)) = (recipe.part(id), subject.formula.part(id)) else { return };
    let Some(last) = part.steps.last() else { return };
    // Of most recipes that ends it. What another file bakes of its own, and nobody takes here, is none of it.
    let own_hot = || recipe.own_parts().flat_map(|(_, part)| &part.steps).filter(|step| cooks(step));
    let taken: Vec<&Part> = match own_hot().next() {
        Some(_) => Vec::new(),
        None => inside(recipe, id).into_iter().filter_map(|inner| recipe.part(inner)).collect(),
    };
    let taken_hot = || taken.iter().filter(|part| part.foreign.is_some()).flat_map(|part| &part.steps);
    let hot = || own_hot().chain(taken_hot().filter(|step| cooks(step)));
    let is_only_boiled = || {
        is_bread(noun.key.as_str())
            && subject.fermented().has(id)
            && hot().all(|step| {
                called(step, beginnings!["boil", "poach", "heat", "simmer", "blanch"])
                    && !bakes(step)
                    && !surely_does(step, BAKES)
            })
    };
    if hot().next().is_some() && !is_only_boiled() {
        diagnostics.extend(sorts_unbaked(subject));
        return;
    }
    // Oatcakes are of no flour, and macaroons of nuts.
    let body = |part: &Part| part.lines.iter().any(|line| matches!(line.kind, Kind::Grain | Kind::Nut) && !line.aside);
    let of_grain =
        is_baked_good(noun.key.as_str()) && inside(recipe, id).iter().filter_map(|inner| recipe.part(*inner)).any(body);
    let dough = of_grain
        || inside(recipe, id).iter().any(|inner| {
            recipe.part(*inner).zip(subject.formula.part(*inner)).is_some_and(|(part, solved)| is_dough(part, solved))
        });
    // Pieces that another part fills are shaped in their own.
    let all: Vec<&Part> = inside(recipe, id).into_iter().filter_map(|inner| recipe.part(inner)).collect();
    let steps = || {
        all.iter().filter(|inner| inner.divide.is_some() || std::ptr::eq(**inner, part)).flat_map(|part| &part.steps)
    };
    let shaped = steps().any(|step| step.name.has_word_beginning(beginnings!["shape"]) || called(step, PROVES));
    let away = |step: &Step| {
        step.name.has_word_beginning(beginnings!["freez", "chill", "pack", "refrigerat", "retard", "deliver", "wrap"])
    };
    // Only the last step of all says that it goes unbaked, and a bake loss that it does not.
    let unbaked = away(last) && recipe.bake_loss.is_none();
    let broken = inside(recipe, id).iter().any(|inner| recipe.part(*inner).is_some_and(|part| part.broken));
    // What is called a bread or a biscuit is baked, whether it is shaped by hand and raised or not.
    // A sheet of amounts may tell how they are mixed and no more; where it says what the oven takes, it is baked.
    let in_oven = recipe.bake_loss.is_some();
    let named = (steps().count() > 2 || in_oven) && is_baked_good(noun.key.as_str());
    // Batter with powder is no dough by its proportions, and wants the heat as much.
    let has_egg = || all.iter().flat_map(|part| &part.lines).any(|line| line.kind == Kind::Egg && !line.aside);
    let with_powder = (steps().count() > 1 || has_egg()) && lists_powder(recipe, id);
    let is_eaten = !is_sold_raw(recipe, noun, part) && is_of_raw_flour(&all);
    let raised = shaped && subject.fermented().has(id) || with_powder || is_eaten;
    // A mix that is sold dry is wetted and baked by who buys it.
    let wets = |kind: Kind| {
        kind.is_liquid() || matches!(kind, Kind::Ice | Kind::Egg | Kind::Fat | Kind::Dairy | Kind::Leaven | Kind::Syrup)
    };
    let is_powder = |name: &str| has_word_beginning(name, ["powder", "dried"]);
    let is_dry = !all
        .iter()
        .flat_map(|part| &part.lines)
        .any(|line| wets(line.kind) && !line.aside && !is_powder(line.name.key.as_str()));
    // Who buys it bakes it, and the label says how.
    let baked_at_home = recipe.sale.directions.as_ref().is_some_and(|said| {
        has_word_beginning(&said.to_lowercase(), COOKS) || has_word_beginning(&said.to_lowercase(), ["oven", "finish"])
    });
    if solved.lines.is_empty()
        || broken
        || !(dough || with_powder || is_eaten)
        || unbaked
        || baked_at_home
        || is_dry
        || !(raised || named)
    {
        return;
    }
    diagnostics.push(
        Diagnostic::warning(CHECK.name, last.name.span, format!("nothing of `{}` is baked", recipe.name))
            .label("the last step")
            .help("write the step that bakes it, `bake: tend 15 min, using oven at 220 C`, or the last one that says where it goes unbaked"),
    );
}

/// The sorts that no step bakes, where another sort of the same dough is baked in its own part.
fn sorts_unbaked<'s>(subject: &'s Subject<'_>) -> impl Iterator<Item = Diagnostic> + use<'s> {
    let in_oven = |part: &Part| part.steps.iter().any(bakes);
    let of_sorts = || subject.recipe.own_parts().filter(|(_, part)| part.sort.is_some());
    let of_dough =
        |part: &Part| part.lines.iter().filter_map(Ingredient::part).find(|made| subject.fermented().has(*made));
    of_sorts().filter_map(move |(_, part)| {
        let dough = of_dough(part).filter(|_| !part.steps.is_empty() && !in_oven(part) && !part.broken)?;
        // What two parts do to one sort may be baked in the other of them.
        let is_here = |other: &Part| match (&other.sort, &part.sort) {
            (Some(other), Some(here)) => other.same(here),
            _ => false,
        };
        let baked = of_sorts().find(|(_, other)| in_oven(other) && of_dough(other) == Some(dough))?.1;
        let elsewhere = of_sorts().any(|(_, other)| is_here(other) && in_oven(other));
        let last = part.steps.last().filter(|_| !elsewhere)?;
        let is_raw =
            [&subject.recipe.name, &part.name].into_iter().any(|name| has_word_beginning(name.key.as_str(), SOLD_RAW))
                || last.name.has_word_beginning(beginnings![
                    "freez", "chill", "pack", "wrap", "retard", "fry", "steam", "griddl"
                ])
                || part.steps.iter().any(|step| surely_does(step, BAKES));
        (!is_raw).then(|| {
            let message = format!("nothing of `{}` is baked, and `{}` is", part.name, baked.name);
            Diagnostic::warning(CHECK.name, last.name.span, message)
                .label("its last step")
                .help("write the step that bakes it, as in the other sort")
        })
    })
}
