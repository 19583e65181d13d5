//! What sets, ferments, freezes or is rubbed together in one step: what `odd-method` looks for where that step was lost, and baking powder that
//! is spent before anything rises. Common practice, no source.

use super::dough::{mass_of, mille};
use crate::measure::quantity::{Duration, Mass};
use crate::model::cooking::{beginnings, called, chills, cooks, says, some_says};
use crate::model::kind::Kind;
use crate::model::lowered::Beginnings;
use crate::model::recipe::{Ingredient, Part, PartId, Recipe};
use crate::model::step::{Step, StepKind};
use crate::solve::formula::SolvedPart;
use crate::text::source::Span;

/// Where it is told, and what.
type Told = (Span, String, &'static str);

pub(super) fn problem(recipe: &Recipe, (id, part): (PartId, &Part), solved: &SolvedPart) -> Option<Told> {
    if part.from.is_some() {
        return None;
    }
    if part.steps.is_empty() || part.per_piece {
        return left_as_a_list(recipe, part);
    }
    never_sets(recipe, (id, part))
        .or_else(|| never_ferments(recipe, (id, part), solved))
        .or_else(|| never_churned(recipe, (id, part)))
        .or_else(|| boiled_powder(part))
}

/// The steps of a part and of those that take it.
fn steps_with_takers<'r>(recipe: &'r Recipe, id: PartId, part: &'r Part) -> Vec<&'r Step> {
    let users = recipe.users(id).filter_map(|(user, _)| recipe.part(user));
    std::iter::once(part).chain(users).flat_map(|part| &part.steps).collect()
}

/// Gelatine holds what is cold, after hours.
fn never_sets(recipe: &Recipe, (id, part): (PartId, &Part)) -> Option<Told> {
    let line = part.lines.iter().find(|line| {
        line.kind == Kind::Thickener
            && line.stays_in()
            && line.name.has_word_beginning(beginnings!["gelatin", "leaf gelatin", "sheet gelatin"])
    })?;
    let used_warm = beginnings![
        "glaze",
        "icing",
        "sauce",
        "stock",
        "syrup",
        "marshmallow",
        "guimauve",
        "fondant",
        "broth",
        "gum",
        "bloom",
        "stabil"
    ];
    if [&recipe.name, &part.name].iter().any(|name| name.has_word_beginning(used_warm)) || recipe.users(id).count() > 1
    {
        return None;
    }
    let cold = |step: &&Step| {
        let long = step.time.1 >= Duration::minutes(90);
        let named = called(
            step,
            beginnings![
                "set",
                "chill",
                "freez",
                "refrigerat",
                "firm",
                "cool",
                "stand",
                "rest",
                "jelly",
                "harden",
                "ripen",
                "age"
            ],
        );
        chills(step)
            || says(step, beginnings!["refrigerat", "fridge", "freez", "chill"])
            || step.kind == StepKind::Wait && named && long
    };
    let steps = steps_with_takers(recipe, id, part);
    let kept = part.keeps.is_some() && recipe.is_drawn_on(id);
    (!steps.iter().any(cold)
        && steps.len() >= 2
        && !kept
        && !part.lines.iter().any(|line| line.is_flour)
        && steps.iter().any(|step| cooks(step)))
    .then(|| {
        (
            line.name.span,
            format!("nothing lets `{}` set: gelatine holds after hours in the cold", part.name),
            "write the step in which it sets, `chill: wait 4 h, at 4 C`",
        )
    })
}

const SOURED: &Beginnings = &Beginnings::of(&["kraut", "sauerkraut", "kimchi", "ferment", "lacto", "curtido"]);

/// Vegetables with a fiftieth of salt sour by standing for days where it is not cold.
fn never_ferments(recipe: &Recipe, (id, part): (PartId, &Part), solved: &SolvedPart) -> Option<Told> {
    let line = part.lines.iter().find(|line| line.kind == Kind::Vegetable)?;
    let named = [&recipe.name, &part.name].iter().any(|name| name.has_word_beginning(SOURED));
    let worked = || some_says(part, beginnings!["knead", "massage", "pound", "juice", "brine"]);
    let all = mass_of(part, solved, |_| true).filter(|all| *all > Mass::ZERO)?;
    let share = |is: &dyn Fn(&Ingredient) -> bool| mass_of(part, solved, is)?.as_share_of(all).ok();
    let salt = share(&|line| line.kind == Kind::Salt)?;
    let vegetables = share(&|line| line.kind == Kind::Vegetable)?;
    let others = part.lines.iter().any(|line| {
        matches!(line.kind, Kind::Vinegar | Kind::Fat | Kind::Dairy) || line.kind.is_flesh() || line.part().is_some()
    });
    let is_salted = salt >= mille(12) && salt <= mille(60) && vegetables >= mille(800) && !others;
    let steps = steps_with_takers(recipe, id, part);
    let stands = |step: &&Step| {
        step.kind == StepKind::Wait
            && step.time.1 >= Duration::minutes(12 * 60)
            && (!chills(step) || called(step, beginnings!["ferment"]))
    };
    let is_kraut = is_salted && (named || worked() && some_says(part, beginnings!["jar", "crock", "weigh", "press"]));
    (is_kraut && !recipe.is_drawn_on(id) && !steps.iter().any(|step| cooks(step)) && !steps.iter().any(stands)).then(
        || {
            (
                line.name.span,
                format!("nothing lets `{}` ferment: salted vegetables sour by standing for days", part.name),
                "write the step in which it stands, `ferment: wait 2 weeks, at 18 C`",
            )
        },
    )
}

/// What is frozen while it is stirred.
fn never_churned(recipe: &Recipe, (id, part): (PartId, &Part)) -> Option<Told> {
    let is_of_milk =
        part.lines.iter().any(|line| matches!(line.kind, Kind::Milk | Kind::Dairy | Kind::Juice | Kind::Fruit));
    if !is_of_milk {
        return None;
    }
    let named = [&recipe.name, &part.name]
        .iter()
        .any(|name| name.has_word_beginning(beginnings!["ice cream", "gelato", "sorbet", "sherbet"]));
    let last = part.steps.last().filter(|_| named && !recipe.is_drawn_on(id) && part.steps.len() >= 3)?;
    let others = beginnings![
        "cake",
        "sandwich",
        "cone",
        "sundae",
        "bombe",
        "pie|",
        "semifreddo",
        "float",
        "wafer",
        "no-churn",
        "bun"
    ];
    let turns = beginnings![
        "churn",
        "machine",
        "spin",
        "paco",
        "scrape",
        "blend",
        "fork",
        "every",
        "whip",
        "turbine",
        "freezing pan",
        "batch freez"
    ];
    (!recipe.name.has_word_beginning(others)
        && !part.steps.iter().any(|step| {
            says(step, turns) || step.equipment.as_ref().is_some_and(|name| name.has_word_beginning(turns))
        }))
    .then(|| {
        (
            last.name.span,
            format!("nothing churns `{}`: what freezes without being stirred is a block of ice", part.name),
            "write the step that churns it, `churn: tend 30 min, using ice cream machine`",
        )
    })
}

/// A part of several ingredients with which nothing is done, where all other parts of the file have steps: its only step was lost. A preferment
/// that the dough's own mix says may have none, and one line needs no work.
fn left_as_a_list(recipe: &Recipe, part: &Part) -> Option<Told> {
    let several = part.lines.iter().filter(|line| !line.aside).nth(1).is_some();
    if !part.steps.is_empty() || part.from.is_some() || part.foreign.is_some() || part.broken || !several {
        return None;
    }
    let mut others =
        recipe.own_parts().filter(|(_, other)| !std::ptr::eq(*other, part) && other.from.is_none()).peekable();
    if others.peek().is_none() || others.any(|(_, other)| other.steps.is_empty()) {
        return None;
    }
    let message = format!("nothing is done with what `{}` lists, and every other part has steps", part.name);
    Some((part.name.span, message, "look whether a step is missing, `stir: hands 3 min`"))
}

/// Baking powder that is boiled in water, where no flour is near: soda softens peas and browns bagels, and powder is spent at once.
fn boiled_powder(part: &Part) -> Option<Told> {
    part.lines.iter().find(|line| line.kind == Kind::BakingPowder)?;
    let powder = |at: usize| part.lines.get(at).is_some_and(|line| line.kind == Kind::BakingPowder);
    let floury = |at: usize| {
        part.lines.get(at).is_some_and(|line| line.is_flour || matches!(line.kind, Kind::Flour | Kind::Starch))
    };
    let step = part.steps.iter().find(|step| {
        step.lines_taken().any(powder)
            && !step.lines_taken().any(floury)
            && called(step, beginnings!["boil", "simmer", "poach", "blanch", "soak"])
    })?;
    Some((
        step.name.span,
        format!("`{}` boils baking powder, which is spent before it raises anything", step.name),
        "look whether baking soda was meant",
    ))
}
