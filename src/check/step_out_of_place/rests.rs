//! Rises, rests and chills that stand where they cannot.

use super::{COOLS, CUTS, MIXES, Order, SHAPES, called_in_place, in_place, problem, takes};
use crate::measure::number::Number;
use crate::model::cooking::heat_words::{COOKS, WARM};
use crate::model::cooking::rests::{PROVES, RISES};
use crate::model::cooking::{beginnings, called, chills, cooks, has_word_beginning, says};
use crate::model::kind::Kind;
use crate::model::recipe::{Ingredient, Part, PartId, Recipe, Refers};
use crate::model::step::{Step, StepKind, Timing};
use crate::text::diagnostic::Diagnostic;
/// The first step waits, and what it waits for is only taken in a later one.
pub(super) fn waits_for_nothing(recipe: &Recipe, id: PartId, part: &Part) -> Option<Diagnostic> {
    let first =
        part.steps.first().filter(|step| step.order.is_empty() && step.kind == StepKind::Wait && !takes(step))?;
    // Grain, pulses, nuts and dried fruit soak before anything is done with them, whether that is said or not.
    let is_dry = |line: &Ingredient| {
        matches!(line.kind, Kind::Grain | Kind::Pulse | Kind::Nut | Kind::Seed | Kind::Fruit | Kind::Fish)
    };
    let takes_dry = |step: &Step| step.lines_taken().any(|at| part.lines.get(at).is_some_and(is_dry));
    let soaks = called(first, beginnings!["soak"])
        && (!first.words.is_empty() || part.steps.iter().find(|step| takes(step)).is_some_and(takes_dry));
    if called(first, beginnings!["preheat", "heat", "warm", "soften", "temper", "thaw", "defrost"]) || soaks {
        return None;
    }
    // What is done beside another part's step still comes before this rest, if it is the first to touch anything.
    let beside =
        |step: &Step| step.order.iter().all(|order| matches!(order, Timing::During(other) if other.part != id));
    let later = part.steps.iter().skip(1).find(|step| takes(step) && beside(step))?;
    // Pieces that were shaped in a part of their own prove before anything is piped on them.
    let shaped = |line: &Ingredient| matches!(line.refers, Refers::Part(of) if recipe.part(of).is_some_and(|part| part.divide.is_some()));
    if part.per_piece
        && (called(first, PROVES) || called(first, beginnings!["rest", "chill", "stand", "thaw"]))
        && part.lines.iter().any(shaped)
    {
        return None;
    }
    // Pieces that came from another part stand before they are brushed.
    let from_parts = part.lines.iter().any(|line| matches!(line.refers, Refers::Part(_)));
    let takes_part =
        later.lines_taken().any(|at| part.lines.get(at).is_some_and(|line| matches!(line.refers, Refers::Part(_))));
    if from_parts && !takes_part {
        return None;
    }
    let message = format!("`{}` stands first, before anything of `{}` was taken", first.name, part.name);
    Some(problem(first, later, message, "taken here", &format!("move it below `{}`", later.name)))
}

/// A prove before the shaping, and none after it.
pub(super) fn proved_before_shaped(Order { part, .. }: Order<'_>) -> Option<Diagnostic> {
    let bulk = |step: &Step| called(step, beginnings!["bulk", "first", "pre", "intermediate"]);
    let (at, prove) = called_in_place(part, PROVES).rfind(|(_, step)| !bulk(step))?;
    let (_, shape) = in_place(part).skip(at + 1).find(|(later, step)| *later > at && called(step, SHAPES))?;
    let message = format!("`{}` comes before `{}`, and nothing is proved after it", prove.name, shape.name);
    let help = format!("move it below `{}`; if the whole dough rises here, call it `rise`", shape.name);
    Some(problem(prove, shape, message, "shaped here", &help))
}

/// Two rises, or two chills, one after the other, with no hand on the dough between them.
pub(super) fn two_rises(Order { part, .. }: Order<'_>) -> Option<Diagnostic> {
    let rises = |step: &Step| {
        step.kind == StepKind::Wait
            && step.order.is_empty()
            && (called(step, RISES) || called(step, PROVES) || called(step, beginnings!["rest"]))
    };
    part.steps.windows(2).find_map(|two| {
        let [one, other] = two else { return None };
        // `Shape, put in two tins and prove`.
        let shapes = || {
            says(other, SHAPES)
                || says(other, CUTS)
                || says(other, beginnings!["knock", "fold", "form", "roll", "tin", "pan|", "pans|", "basket"])
        };
        let chill =
            |step: &Step| step.kind == StepKind::Wait && step.order.is_empty() && called(step, beginnings!["chill"]);
        if !(rises(one) && rises(other) || chill(one) && chill(other)) || shapes() || takes(other) {
            return None;
        }
        let same_place =
            one.temperature.is_none() || other.temperature.is_none() || one.temperature == other.temperature;
        let warm = |step: &Step| step.temperature.is_none_or(|(low, _)| low.celsius() >= Number::whole(15));
        if !(same_place || (warm(one) && warm(other))) {
            return None;
        }
        let message = format!("`{}` follows `{}` with nothing done between them", other.name, one.name);
        Some(problem(
            other,
            one,
            message,
            "rises here already",
            "look whether a step between them stands in the wrong place",
        ))
    })
}

/// What stands in the cold and is then left to cool was chilled hot, or the two are swapped.
pub(super) fn chilled_before_cooled(Order { part, .. }: Order<'_>) -> Option<Diagnostic> {
    part.steps.windows(2).find_map(|two| {
        let [chill, cool] = two else { return None };
        let waits = |step: &Step| step.kind == StepKind::Wait && step.order.is_empty();
        // Stirred until it is cool is as good; what is only taken then is another thing.
        let cools = waits(cool) || (cool.kind == StepKind::Hands && cool.order.is_empty() && !takes(cool));
        if !(waits(chill) && cools && chills(chill) && called(cool, COOLS) && !chills(cool)) {
            return None;
        }
        let message = format!("`{}` comes before `{}`: what comes from the cold does not cool", chill.name, cool.name);
        Some(problem(chill, cool, message, "cools here", &format!("move it below `{}`", cool.name)))
    })
}

/// `second rest` above `first rest`.
pub(super) fn second_before_first(Order { part, .. }: Order<'_>) -> Option<Diagnostic> {
    let numbered =
        |step: &Step, number: &str| step.name.key.as_str().strip_prefix(number).map(|rest| rest.trim().to_owned());
    called_in_place(part, beginnings!["second"]).find_map(|(at, second)| {
        let what = numbered(second, "second ").filter(|what| !what.is_empty())?;
        let (_, first) =
            in_place(part).find(|(later, step)| *later > at && numbered(step, "first ").as_ref() == Some(&what))?;
        let message = format!("`{}` is written above `{}`", second.name, first.name);
        Some(problem(second, first, message, "comes first", &format!("move it below `{}`", first.name)))
    })
}

/// An autolyse after the mix, and a bench rest before anything was cut.
pub(super) fn rested_before(Order { part, .. }: Order<'_>) -> Option<Diagnostic> {
    let autolyse = called_in_place(part, beginnings!["autolyse"]).next();
    if let Some((at, rest)) = autolyse {
        let mixed_later = part.steps.iter().skip(at + 1).any(|step| called(step, MIXES));
        let mixed =
            in_place(part).find(|(earlier, step)| *earlier < at && called(step, MIXES)).filter(|_| !mixed_later);
        if let Some((_, mix)) = mixed {
            let message = format!("`{}` comes after `{}`, and nothing is mixed after it", rest.name, mix.name);
            return Some(problem(rest, mix, message, "mixed here", &format!("move it above `{}`", mix.name)));
        }
    }
    let (at, rest) = called_in_place(part, beginnings!["bench"]).find(|(_, step)| step.kind == StepKind::Wait)?;
    if part.steps.iter().take(at).any(|step| called(step, CUTS)) {
        return None;
    }
    let cut = part.steps.iter().skip(at + 1).find(|step| called(step, CUTS))?;
    let message = format!("`{}` comes before `{}`: there are no pieces yet to rest", rest.name, cut.name);
    Some(problem(rest, cut, message, "cut here", &format!("move it below `{}`", cut.name)))
}

/// A step named after cooling in a part in which nothing was hot before it and something is later.
pub(super) fn cools_what_is_cold(Order { part, recipe, .. }: Order<'_>) -> Option<Diagnostic> {
    let (at, cool) = called_in_place(part, COOLS).find(|(_, step)| step.kind == StepKind::Wait)?;
    let warm = |step: &Step| cooks(step) || says(step, WARM);
    if part.steps.iter().take(at).any(warm) {
        return None;
    }
    let hot_line = part.lines.iter().any(|line| {
        line.temperature.is_some_and(|at| at.celsius() >= Number::whole(40))
            || line.preparation.as_ref().is_some_and(|text| has_word_beginning(text, WARM) || has_word_beginning(text, COOKS))
            || matches!(line.refers, Refers::Part(of) if recipe.part(of).is_some_and(|part| part.steps.iter().any(cooks)))
    });
    if hot_line {
        return None;
    }
    let hot = part.steps.iter().skip(at + 1).find(|step| cooks(step))?;
    let message = format!("`{}` comes before `{}`, and nothing was hot before it", cool.name, hot.name);
    Some(problem(cool, hot, message, "hot here", &format!("move it below `{}`", hot.name)))
}
