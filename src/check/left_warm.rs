//! `left-warm`: raw meat, cream and cooked dishes that stand for hours where germs grow.

use super::dough::{has_flour, inside, lists_flour, mass_of, mille};
use super::kept::{
    SALTED_THROUGH, WEAK, is_culture, is_kept_by_more, is_raw_flesh, is_safe, is_safe_with_its_dough, is_weakly_cured,
    spoils,
};
use super::shelf_storage::holds_a_moist_filling;
use super::statement;
use super::{Check, Family, Run, Subject};
use crate::measure::number::Number;
use crate::measure::quantity::Duration;
use crate::measure::show::{self, Units};
use crate::model::cold::is_cold;
use crate::model::cooking::cold_words::{NOT_WARM, says_cold};
use crate::model::cooking::{
    Later, bakes, called, chills, cooks, dries_through, first_draws, says, time_before_cold, uses,
};
use crate::model::kind::Kind;
use crate::model::lowered::{Beginnings, beginnings};
use crate::model::recipe::{Ingredient, Part, PartId, Recipe, Refers};
use crate::model::spoils::{Body, Bought, body, bought};
use crate::model::step::{Step, StepKind, Target};
use crate::solve::formula::SolvedPart;
use crate::text::diagnostic::{Diagnostic, Severity};

mod hot_brine;
mod raw_dough;

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "left-warm",
    severity: Severity::Advice,
    family: Family::Safety,
    looks_for: "raw meat or fish, raw butter pastry, raw fillings of egg and milk, whipped cream and other milk, dishes that are cooked and moist, what is bought so (cooked rice, tofu, soup, sprouts, cut melon and leaves), and dough baked with a moist filling, in a step that stands above 8 °C for hours; raw meat or fish in a brine that boiled and did not cool",
    why: "Between 5 and 57 °C germs double in less than an hour, and some leave poisons that no later heat takes away: rice that stood overnight, \
          cream in a warm window, mince that thaws on the bench. The FDA Food Code keeps such food at 5 °C or below, and lets it out of the cold for \
          four hours at most; what thaws, in the cold or under running water. Looked at are steps that stand for more than four hours, by themselves or one \
          after the other, and thawing, and what is eaten raw, for more than two. Doughs, what is sweet as jam, sour, salted or cured, chocolate, and what a culture or a leaven turns sour are left \
          alone where there is enough of what keeps them, as is what is held hot \
          (`held-too-cool`) and what is cooled on its way to the cold (`slow-cooling`). A plan says at which row what was made up of meat, cooked milk or \
          rice out of the cold stands for more than two hours before it is heated. This is general advice: local food law and licensed practice go before it.",
    bad: "recipe Burgers\nbeef mince .... 1 kg, frozen\nsalt .... 10 g\nthaw: wait 10 h, at 22 C\n    Leave {beef mince} to thaw.\n\
          shape: hands 10 min\n    Season with {salt}; shape.\nfry: tend 12 min, using hob\n    Fry them.\n    until {72 C} inside\n",
    good: "recipe Burgers\nbeef mince .... 1 kg, frozen\nsalt .... 10 g\nthaw: wait 24 h, at 4 C\n    Leave {beef mince} to thaw.\n\
           shape: hands 10 min\n    Season with {salt}; shape.\nfry: tend 12 min, using hob\n    Fry them.\n    until {72 C} inside\n",
    sources: &[
        "FDA Food Code 3-501.16, cold holding at 5 °C; 3-501.13, thawing; 3-501.19, four hours without cold (from memory)",
        "FDA Food Code 3-501.14, cooling",
        "FDA Food Code 1-201.10, food that wants time and temperature control: cooked plants, sprouts, cut melons, leaves and tomatoes (from memory)",
    ],
    run: Run::Parts(run),
};

/// From here on it is held hot.
const HELD: Number = Number::whole(57);
/// Warmer than any room.
const WARM_PLACE: Number = Number::whole(32);
/// So long it may stand, and so long it may thaw.
const LONGEST: Duration = Duration::new(Number::whole(4 * 3600));
const THAWS: Duration = Duration::new(Number::whole(2 * 3600));
/// Fish and meat that nothing cooks afterwards. Common practice, no source.
const EATEN_RAW: Duration = THAWS;

fn run(subject: &Subject<'_>, diagnostics: &mut Vec<Diagnostic>) {
    let mut later = Later::of(subject.recipe);
    for (id, part, solved) in subject.own_parts() {
        // What stood since the last heat or cold, and where that began.
        let mut before: Option<(Duration, usize)> = None;
        super::tell(diagnostics, hot_brine::problem(CHECK.name, subject.recipe, part));
        for (at, step) in part.steps.iter().enumerate() {
            if cooks(step) || chills(step) {
                before = None;
            }
            let Some(time) = stands(subject.recipe, step, (id, part, solved), at) else { continue };
            let thaws = called(step, beginnings!["thaw", "defrost"]);
            let (all, from) = match before.filter(|_| !thaws) {
                Some((earlier, from)) => (earlier.plus(time).unwrap_or(time), from),
                None => (time, at),
            };
            before = Some((all, from));
            if all <= THAWS {
                continue;
            }
            // What came in only now did not stand before.
            let alone = time > if thaws { THAWS } else { LONGEST };
            let Some((what, span, most)) = spoiling(subject, (id, part), if alone { at } else { from }, &mut later)
            else {
                continue;
            };
            if all <= most && !thaws {
                continue;
            }
            let alone = alone || time > most;
            if statement::states_out_of_the_cold(subject.recipe, part, if alone { time } else { all }) {
                continue;
            }
            let at_heat = step.temperature.map_or(String::new(), |(low, high)| {
                format!(" at {}", show::temperature(high.unwrap_or(low), Units::Metric))
            });
            let message = match part.steps.get(from).filter(|_| !alone) {
                Some(first) => {
                    format!(
                        "`{}` and `{}` stand for {} in all where it is warm, with {what} in it",
                        first.name,
                        step.name,
                        show::duration(all)
                    )
                }
                None => format!("`{}` stands for {}{at_heat}, with {what} in it", step.name, show::duration(time)),
            };
            diagnostics.push(
                Diagnostic::advice(CHECK.name, step.time_span, message)
                    .also(span, "spoils where it is warm")
                    .help(if thaws {
                        "thaw it at 4 °C, or under cold running water; local food law goes before this"
                    } else {
                        "let it stand at 4 °C: such food is out of the cold for four hours at most; local food law goes before this"
                    }),
            );
            break;
        }
    }
}

/// Beginnings of words by which a place is a kitchen's bench and no refrigerator.
const ON_THE_BENCH: &Beginnings =
    &Beginnings::of(&["counter", "bench", "worktop", "windowsill", "room temperature", "kitchen table"]);
/// Beginnings of names of steps in which something only stands.
const STANDS: &Beginnings =
    &Beginnings::of(&["stand", "rest", "leave", "left", "sit", "wait", "display", "serve", "cool", "thaw", "defrost"]);

/// How long a step stands where it is warm, by the long end of what is said.
fn stands(
    recipe: &Recipe,
    step: &Step,
    (id, part, solved): (PartId, &Part, &SolvedPart),
    at: usize,
) -> Option<Duration> {
    let waits = step.kind == StepKind::Wait
        || (step.kind == StepKind::Tend && step.temperature.is_some() && called(step, STANDS));
    // Weakly salted meat that is cured, dried or smoked in the warm stands there like any other.
    let preserved = || {
        // What is salted through may hang in the warm to dry; while it takes the salt up it does not.
        let least = if called(step, beginnings!["cure"]) { SALTED_THROUGH } else { WEAK };
        let is_flesh = || part.lines.iter().any(is_raw_flesh) || part.lines.iter().any(|line| line.part().is_some());
        called(step, beginnings!["cure", "dry", "smoke"]) && !is_weakly_cured(part, solved, least)
            || called(step, beginnings!["age"])
                && if is_flesh() { !is_weakly_cured(part, solved, WEAK) } else { lives(recipe, id) }
    };
    let turns = || {
        called(step, beginnings!["ferment", "sour", "culture"])
            || called(step, beginnings!["ripen"]) && (lives(recipe, id) || !is_of_milk_or_egg(recipe, id))
    };
    let keeps_hot = || uses(step, beginnings!["oven", "hob", "kettle", "bain"]);
    if !waits || called(step, beginnings!["hold", "keep"]) || turns() || preserved() || keeps_hot() {
        return None;
    }
    let warm = match step.temperature {
        Some((low, high)) => !is_cold(high.unwrap_or(low)) && low.celsius() < HELD,
        // What cools or stands after it was cooked does so where it is, if nothing says that it is cold there.
        None => {
            let is_after_heat = || called(step, STANDS) && part.steps.iter().take(at).any(cooks);
            !chills(step) && !says_cold(step, NOT_WARM) && (says(step, ON_THE_BENCH) || is_after_heat())
        }
    };
    // What cools on its way to the cold is told by `slow-cooling`.
    let told = || {
        part.keeps.is_some_and(|keeps| keeps.how.is_cold())
            && !part.steps.iter().any(bakes)
            && time_before_cold(part).is_some()
    };
    let is_cooling =
        || called(step, beginnings!["cool"]) || (step.temperature.is_none() && part.steps.iter().take(at).any(cooks));
    (warm && !(is_cooling() && told())).then(|| step.up_to.unwrap_or(step.time.1).max(step.time.1))
}

/// Whether a line is of what a batter or a dough is made of, ground: flour, starch, nuts.
fn is_of_a_batter(line: &Ingredient) -> bool {
    line.stays_in() && (line.is_any_flour() || matches!(line.kind, Kind::Starch | Kind::Nut | Kind::Grain))
}

/// Whether a tenth and more of a part is so.
fn is_much_of(subject: &Subject<'_>, id: PartId, is: impl Fn(&Ingredient) -> bool) -> bool {
    let Some((part, solved)) = subject.recipe.part(id).zip(subject.formula.part(id)) else { return false };
    let mass = mass_of(part, solved, is);
    mass.and_then(|mass| mass.as_share_of(solved.composition.total).ok()).is_some_and(|share| share >= mille(100))
}

/// Whether a culture, yeast or a leaven is in a part or in what lies in it: a cream with yolks that is left to ripen has none.
fn lives(recipe: &Recipe, id: PartId) -> bool {
    let parts = || inside(recipe, id).into_iter().filter_map(|inner| recipe.part(inner));
    parts().flat_map(|part| &part.lines).any(is_culture)
}

/// Whether milk, cream or egg is in a part or in what lies in it.
fn is_of_milk_or_egg(recipe: &Recipe, id: PartId) -> bool {
    let parts = || inside(recipe, id).into_iter().filter_map(|inner| recipe.part(inner));
    parts().flat_map(|part| &part.lines).any(|line| matches!(line.kind, Kind::Milk | Kind::Dairy | Kind::Egg))
}

/// Whether flour was baked dry through before a step.
fn is_baked_dry(part: &Part, at: usize) -> bool {
    let is_floury = part.lines.iter().any(|line| line.is_flour && line.stays_in());
    is_floury && part.steps.iter().take(at).any(|step| bakes(step) && dries_through(step))
}

/// Whether a soaker or another part without flesh, milk and egg was mixed into a dough that lists flour, and baked with it before a step.
fn is_baked_in_dough(part: &Part, (at, made): (usize, &Part)) -> bool {
    let feeds = |line: &Ingredient| {
        line.part().is_some() || matches!(body(line), Some(Body::Flesh | Body::Milk | Body::Egg | Body::Vegetable))
    };
    lists_flour(part) && part.steps.iter().take(at).any(bakes) && !made.lines.iter().any(feeds)
}

/// Whether what is bought cooked, or moist and not sour, spoils here as it came. Leaves, tomatoes and melon that were cooked are lean or sour like other
/// vegetables.
fn spoils_as_bought(line: &Ingredient, is_cooked: bool, is_cooked_later: bool) -> bool {
    let is_lean = is_cooked && matches!(line.kind, Kind::Vegetable | Kind::Fruit);
    bought(line).is_some_and(|bought| !is_lean && (bought != Bought::Other || !is_cooked_later))
}

/// Up to which step that is what is in a step: a thaw at the beginning that takes nothing is one of what the step after it names.
fn reaches(part: &Part, at: usize) -> usize {
    let takes = |step: &Step| step.lines_taken().next().is_some();
    let is_of_next = |step: &Step| called(step, beginnings!["thaw", "defrost", "temper", "warm", "room"]);
    if part.steps.iter().take(at + 1).any(takes) || !part.steps.get(at).is_some_and(is_of_next) {
        return at;
    }
    part.steps.iter().skip(at).position(takes).map_or(at, |next| at + next)
}

/// What of the food in a step spoils, in words, and where it is listed.
fn spoiling(
    subject: &Subject<'_>,
    (id, part): (PartId, &Part),
    at: usize,
    later: &mut Later<'_>,
) -> Option<(String, crate::text::source::Span, Duration)> {
    let draws = first_draws(part);
    // Where no step says what it takes, everything is in from the first.
    let first = |number: usize| draws.get(&Target::Line(number)).copied().or_else(|| draws.is_empty().then_some(0));
    let reach = reaches(part, at);
    let gone_in = |number: usize| first(number).is_some_and(|first| first <= reach);
    let is_still_raw =
        |number: usize| first(number).is_some_and(|first| !part.steps.iter().take(at).skip(first).any(cooks));
    let flesh = part
        .lines
        .iter()
        .enumerate()
        .find(|(number, line)| gone_in(*number) && is_still_raw(*number) && is_raw_flesh(line));
    if let Some((number, line)) = flesh {
        let is_eaten_raw = later.is_line_cooked(id, at + 1, number) == Some(false);
        return Some((format!("raw {}", line.name), line.name.span, if is_eaten_raw { EATEN_RAW } else { LONGEST }));
    }
    // Pasta and dumplings that were boiled are as wet as rice.
    let boils = |step: &Step| cooks(step) && called(step, beginnings!["boil", "poach", "simmer"]);
    let last_heat = || part.steps.iter().take(at).rfind(|step| cooks(step));
    if is_much_of(subject, id, |line| line.is_any_flour() && line.stays_in())
        && last_heat().is_some_and(boils)
        && !part.steps.iter().any(bakes)
        && later.is_cooked(id, at + 1) != Some(true)
    {
        return Some(("boiled dough".to_owned(), part.name.span, LONGEST));
    }
    // What is warmer than any room for hours is not made good by an oven: germs leave their poisons.
    let is_hot_and_long = || {
        let step = part.steps.get(at)?;
        let warm = step.temperature.is_some_and(|(low, _)| low.celsius() >= WARM_PLACE && low.celsius() < HELD);
        Some(warm && step.up_to.unwrap_or(step.time.1) > LONGEST)
    };
    let is_left_hot = is_hot_and_long().unwrap_or(false);
    let is_unleavened = !part.lines.iter().any(|line| line.kind.ferments() || line.part().is_some());
    let is_cooked_later = later.is_cooked(id, at + 1) != Some(false) && !is_left_hot;
    // Eggs in what is baked, or in a dough, are dry enough.
    let is_of_eggs = |part: &Part, until: usize| {
        !part.lines.iter().any(|line| line.is_flour) && !part.steps.iter().take(until).any(bakes)
    };
    part.lines
        .iter()
        .enumerate()
        .filter(|(number, _)| gone_in(*number))
        .find_map(|(number, line)| {
            let found = match line.refers {
                // In a batter flour keeps nothing.
                Refers::Pantry(_)
                    if is_left_hot
                        && is_unleavened
                        && line.kind == Kind::Egg
                        && is_still_raw(number)
                        && line.stays_in() =>
                {
                    Some(line.name.span)
                }
                // Flour makes it no leaven: a batter of milk and eggs is food that spoils, whatever is baked of it later.
                Refers::Pantry(_)
                    if is_unleavened
                        && is_still_raw(number)
                        && line.stays_in()
                        && matches!(line.kind, Kind::Egg | Kind::Milk)
                        && part.lines.iter().any(is_of_a_batter)
                        && !lives(subject.recipe, id)
                        && is_much_of(subject, id, |line| matches!(line.kind, Kind::Egg | Kind::Milk))
                        && !is_kept_by_more(subject.recipe, subject.formula, id, at) =>
                {
                    Some(line.name.span)
                }
                // Choux and other cases that were baked dry stand on every rack.
                Refers::Pantry(_) if is_baked_dry(part, at) => None,
                // Whether something keeps it is asked last, since it looks through all that lies in the part.
                Refers::Pantry(_) => ((spoils(line, !is_still_raw(number), is_cooked_later)
                    || spoils_as_bought(line, !is_still_raw(number), is_cooked_later))
                    && (line.kind != Kind::Egg || is_of_eggs(part, at))
                    && !is_safe_with_its_dough(subject.recipe, subject.formula, id, at))
                .then_some(line.name.span),
                // What was made of it spoils in it.
                Refers::Part(other) => {
                    let made = subject.recipe.part(other)?;
                    // A soaker with old bread in it was baked in its dough, and is crumb like the rest.
                    if is_baked_in_dough(part, (at, made)) {
                        return None;
                    }
                    let safe = inside(subject.recipe, other).into_iter().any(|inner| {
                        is_safe(
                            subject.recipe,
                            subject.formula,
                            inner,
                            subject.recipe.part(inner).map_or(0, |part| part.steps.len()),
                        )
                    });
                    let cooked = made.steps.iter().any(cooks) || !is_still_raw(number);
                    (!safe
                        && !is_baked_dry(made, made.steps.len())
                        && !made.lines.is_empty()
                        && made.lines.iter().any(|line| {
                            (spoils(line, cooked, is_cooked_later) || spoils_as_bought(line, cooked, is_cooked_later))
                                && (line.kind != Kind::Egg || is_of_eggs(made, made.steps.len()))
                        }))
                    .then_some(line.name.span)
                }
            }?;
            Some((line.name.to_string(), found, LONGEST))
        })
        .or_else(|| filled(subject, (id, part), at, later))
        .or_else(|| {
            let (what, span) = raw_dough::problem(subject, (id, part), at, part.steps.get(at)?)?;
            Some((what, span, LONGEST))
        })
}

/// A topping or a filling of vegetables, cheese or meat that was baked or steamed with its dough: pizza, filled buns. What is baked in a crumb is dry enough.
fn filled(
    subject: &Subject<'_>,
    (id, part): (PartId, &Part),
    at: usize,
    later: &mut Later<'_>,
) -> Option<(String, crate::text::source::Span, Duration)> {
    let heat = part.steps.iter().take(at).rfind(|step| cooks(step))?;
    let solved = subject.formula.part(id)?;
    // A pot of milk or a stew is asked about by what is in it, and so is a salad.
    let is_dough = has_flour(solved, 150);
    let in_heat = bakes(heat) || called(heat, beginnings!["bak", "steam", "fry"]);
    (is_dough
        && in_heat
        && holds_a_moist_filling(subject.recipe, subject.formula, id)
        && later.is_cooked(id, at + 1) != Some(true))
    .then(|| ("a moist filling".to_owned(), part.name.span, LONGEST))
}
