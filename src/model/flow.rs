//! In which order the steps of a part follow each other, and which of them take up the parts that it holds.

use crate::model::lowered::beginnings;
use crate::model::recipe::{Ingredient, Part, PartId, Recipe, Refers};
use crate::model::step::{Step, StepKind, StepRef, Target, Timing, Words};
use crate::text::quick::QuickSet;
use std::hash::Hash;

/// Parts lie in one another at most so deep: a ring of them was reported, and must not hang where they are gone through.
pub const DEEPEST: usize = 200;

/// Everything that is reached from one thing, each once and in the order in which it is met; the thing itself first.
pub fn reached<T: Copy + Eq + Hash, I: IntoIterator<Item = T>>(from: T, next: impl Fn(T) -> I) -> Vec<T> {
    let mut found = vec![from];
    let mut seen: Option<QuickSet<T>> = None;
    let mut at = 0;
    while let Some(here) = found.get(at).copied() {
        at += 1;
        for other in next(here) {
            // A few are looked through sooner than they are hashed.
            let is_new = match found.len() {
                ..FEW => !found.contains(&other),
                _ => seen.get_or_insert_with(|| found.iter().copied().collect()).insert(other),
            };
            if is_new {
                found.push(other);
            }
        }
    }
    found
}

/// From so many things on a set is made of them.
const FEW: usize = 16;

/// Whether a step is done beside another one, which goes on.
pub fn is_beside(step: &Step) -> bool {
    step.order.iter().any(|order| matches!(order, Timing::During(_) | Timing::Into(_)))
}

/// Whether a step only says by when it is over.
pub fn is_ahead(step: &Step) -> bool {
    step.order.iter().any(|order| matches!(order, Timing::Before(_)))
}

/// Whether a step heats its equipment with nothing in it: called so, and taking nothing.
pub fn heats_empty(step: &Step) -> bool {
    let takes = step.words.iter().any(|word| matches!(word, Words::Use { .. }));
    !takes
        && step.equipment.is_some()
        && step.name.has_word_beginning(beginnings!["preheat", "pre-heat", "heat", "fire", "light"])
}

/// Whether a step waits for none of the parts that its part holds: it runs beside another, is done before another, or
/// heats with nothing in.
pub fn is_free(step: &Step) -> bool {
    is_beside(step) || is_ahead(step) || heats_empty(step)
}

/// The steps that a step follows when it says no order: the one above it, and if that one is beside or ahead of another
/// step, also the nearest above that is not.
pub fn above(part: &Part, at: usize) -> Vec<usize> {
    let mut above = Vec::new();
    for other in (0..at).rev() {
        above.push(other);
        if !part.steps.get(other).is_some_and(|step| is_beside(step) || is_ahead(step)) {
            break;
        }
    }
    above
}

/// The steps that have a step among those [`above`] them: the one below it, and while those below are beside or ahead of another step, also
/// the next. Each is found once, so that all steps of a part are asked in one pass.
pub fn below(part: &Part, at: usize) -> impl Iterator<Item = usize> {
    let mut ends = false;
    part.steps
        .iter()
        .enumerate()
        .skip(at + 1)
        .take_while(move |(_, step)| {
            let goes_on = !ends;
            ends = !(is_beside(step) || is_ahead(step));
            goes_on
        })
        .map(|(below, _)| below)
}

/// Whether a step is work beside, or at a moment of, another of some steps of its part.
pub fn is_work_beside(part: &Part, id: PartId, at: usize, others: &[usize]) -> bool {
    let beside = |order: &Timing| match order {
        Timing::During(other) | Timing::Into(other) => other.part == id && others.contains(&other.step),
        _ => false,
    };
    part.steps.get(at).is_some_and(|step| step.kind != StepKind::Wait && step.order.iter().any(beside))
}

/// All steps of a recipe, numbered one after the other in the order of its parts.
pub struct Numbered {
    /// The number of the first step of each part, and behind them how many steps there are.
    begins: Vec<usize>,
}

impl Numbered {
    /// Of a recipe.
    pub fn of(recipe: &Recipe) -> Numbered {
        let mut begins = Vec::with_capacity(recipe.parts.len() + 1);
        let mut next = 0;
        for part in &recipe.parts {
            begins.push(next);
            next += part.steps.len();
        }
        begins.push(next);
        Numbered { begins }
    }

    /// How many there are.
    pub fn count(&self) -> usize {
        self.begins.last().copied().unwrap_or(0)
    }

    /// The number of a step; `None` for one that is not there.
    pub fn number(&self, step: StepRef) -> Option<usize> {
        let [begin, end] = self.begins.get(step.part.0..)?.first_chunk()?;
        begin.checked_add(step.step).filter(|number| number < end)
    }

    /// The step of a number; `None` where there are not so many.
    pub fn step(&self, number: usize) -> Option<StepRef> {
        // The last part that begins there or before; those without steps begin where the next does.
        let part = self.begins.partition_point(|begin| *begin <= number).checked_sub(1)?;
        let step = number - self.begins.get(part)?;
        Some(StepRef { part: PartId(part), step }).filter(|_| number < self.count())
    }
}

/// The steps that each step of a recipe waits for, in its own part or another, all by their numbers.
pub fn waits(recipe: &Recipe, steps: &Numbered) -> Vec<Vec<usize>> {
    let mut waits: Vec<Vec<usize>> = vec![Vec::new(); steps.count()];
    let mut first: Vec<usize> = Vec::new();
    for (id, part) in recipe.parts() {
        for (at, step) in part.steps.iter().enumerate() {
            let Some(here) = steps.number(StepRef { part: id, step: at }) else { continue };
            for order in &step.order {
                let Some(other) = steps.number(order.other()) else { continue };
                match order {
                    Timing::Before(_) => waits.get_mut(other).into_iter().for_each(|known| known.push(here)),
                    _ => first.push(other),
                }
            }
            if step.order.is_empty() {
                first.extend(above(part, at).into_iter().filter_map(|above| here.checked_sub(at - above)));
            }
            if let Some(known) = waits.get_mut(here) {
                first.retain(|step| !known.contains(step));
                known.append(&mut first);
            }
            first.clear();
        }
    }
    waits
}

/// The steps that are left out when a part is used before one of its steps: that one, all that wait for it, and what is
/// only done for one of them, such as heating an oven. One flag for each step of the part.
pub fn left_out(part: &Part, id: PartId, before: usize) -> Vec<bool> {
    let mut out: Vec<bool> = (0..part.steps.len()).map(|at| at == before).collect();
    let is_out = |out: &[bool], at: usize| out.get(at) == Some(&true);
    // Every round adds at least one.
    for _ in 0..part.steps.len() {
        let next = part.steps.iter().enumerate().position(|(at, step)| {
            let own = |other: StepRef| other.part == id && is_out(&out, other.step);
            let follows = match step.order.as_slice() {
                [] => above(part, at).into_iter().any(|other| is_out(&out, other)),
                order => order.iter().any(|order| !matches!(order, Timing::Before(_)) && own(order.other())),
            };
            let is_for_it = is_ahead(step) && step.order.iter().all(|order| own(order.other()));
            let heats_for_it = heats_empty(step)
                && !part.steps.iter().enumerate().any(|(other, user)| {
                    other != at
                        && !is_out(&out, other)
                        && user
                            .equipment
                            .as_ref()
                            .zip(step.equipment.as_ref())
                            .is_some_and(|(one, other)| one.same(other))
                });
            !is_out(&out, at) && (follows || is_for_it || heats_for_it)
        });
        match next.and_then(|at| out.get_mut(at)) {
            Some(slot) => *slot = true,
            None => break,
        }
    }
    out
}

/// The steps of a part that no later step of it waits for, in the file's order: when all have ended, the part is made.
pub fn sinks(part: &Part, id: PartId) -> Vec<usize> {
    sinks_without(part, id, &[])
}

/// As [`sinks`], without the steps that are left out.
pub fn sinks_without(part: &Part, id: PartId, left_out: &[bool]) -> Vec<usize> {
    let is_out = |at: usize| left_out.get(at) == Some(&true);
    let mut followed = vec![false; part.steps.len()];
    for (at, step) in part.steps.iter().enumerate().filter(|(at, _)| !is_out(*at)) {
        let own = |other: StepRef| (other.part == id).then_some(other.step);
        let said = step.order.iter().filter_map(|order| match order {
            // The outer step goes on after the inner one, and the later one after what is done before it.
            Timing::During(other) | Timing::Into(other) | Timing::Before(other) => own(*other).map(|_| at),
            other => own(other.other()),
        });
        let said: Vec<usize> = said.collect();
        let all = if step.order.is_empty() { above(part, at) } else { said };
        for other in all {
            if let Some(slot) = followed.get_mut(other) {
                *slot = true;
            }
        }
    }
    (0..part.steps.len()).filter(|at| followed.get(*at) == Some(&false) && !is_out(*at)).collect()
}

/// Which parts of a recipe are made when it is made: those that nothing draws on, and what they take that is not from the
/// store. One flag for each part.
pub fn made(recipe: &Recipe) -> Vec<bool> {
    made_without(recipe, |_, _| false)
}

/// As [`made`], when some lines are left out, which are asked for by their part and their place in it.
pub fn made_without(recipe: &Recipe, is_out: impl Fn(PartId, usize) -> bool) -> Vec<bool> {
    made_for(recipe, ends(recipe).collect(), is_out)
}

/// The parts that are handed over when a recipe is made: its own ones on which no other part draws. What another recipe makes of a
/// part of its own is none of it.
pub fn ends(recipe: &Recipe) -> impl Iterator<Item = PartId> {
    let is_end =
        |id: PartId, part: &Part| part.foreign.is_none() && part.from.is_none() && recipe.users(id).next().is_none();
    recipe.parts().filter(move |(id, part)| is_end(*id, part)).map(|(id, _)| id)
}

/// Which parts are made when some of them are: those, and what they take that is not from the store.
fn made_for(recipe: &Recipe, mut open: Vec<PartId>, is_out: impl Fn(PartId, usize) -> bool) -> Vec<bool> {
    let mut made = vec![false; recipe.parts.len()];
    while let Some(id) = open.pop() {
        let Some(slot) = made.get_mut(id.0).filter(|slot| !**slot) else { continue };
        *slot = true;
        let lines = recipe.part(id).map_or(&[][..], |part| &part.lines);
        open.extend(lines.iter().enumerate().filter_map(|(at, line)| match line.refers {
            Refers::Part(other) if !line.from_store && !is_out(id, at) => Some(other),
            _ => None,
        }));
        open.extend(recipe.preferments(id).map(|(other, _)| other));
    }
    made
}

/// The first step of a part that waits for the parts that it holds.
pub fn first_taker(part: &Part) -> usize {
    part.steps.iter().position(|step| !is_free(step)).unwrap_or(0)
}

/// A part that a step takes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Taken {
    /// Which.
    pub part: PartId,
    /// Whether this is the first step that takes it up.
    pub is_first: bool,
    /// The step of it from which on nothing more is done for this use.
    pub before: Option<usize>,
}

/// Whether what a part holds is taken up only by a later step: that one names it, the first step of the part does not, and says itself
/// what it works on: by name another part, or more than one thing. A rest without words at the beginning is one of what the step after it
/// names; a tin that is greased, or a rest of what nobody named, is a rest of all.
fn is_for_later(part: &Part, target: Target) -> bool {
    let names = |step: &Step| step.words.iter().any(|word| matches!(word, Words::Use { .. }));
    let rests = |step: &Step| step.kind == StepKind::Wait && !names(step);
    let from_first = part.steps.iter().enumerate().skip(first_taker(part));
    let says = from_first.filter(|(_, step)| !is_free(step)).find(|(_, step)| !rests(step)).map(|(at, _)| at);
    let first = says.unwrap_or_else(|| first_taker(part));
    let (until, after) = part.steps.split_at(part.steps.len().min(first + 1));
    if until.iter().any(|step| draws(step, target)) || !after.iter().any(|step| draws(step, target)) {
        return false;
    }
    let mut named: Vec<Target> = Vec::new();
    for word in until.last().map_or(&[][..], |step| &step.words) {
        if let Words::Use { target: Some(one), .. } = word
            && !named.contains(one)
        {
            named.push(*one);
        }
    }
    let is_part = |target: &Target| match target {
        Target::Line(at) => part.lines.get(*at).is_some_and(|line| line.part().is_some()),
        Target::Preferment(_) => true,
    };
    named.len() > 1 || named.iter().any(is_part)
}

/// The parts that a step waits for: those it draws by name and, for the first step that is not free, all that the part
/// holds, so that nothing proves before it was shaped; but for what is not alive and taken only by a later step that names it: cream that
/// fills what was baked. What is to come from the store is among them: it may lack there, and is made.
pub fn taken(recipe: &Recipe, id: PartId, at: usize, lives: impl Fn(PartId) -> bool) -> Vec<Taken> {
    let Some(part) = recipe.part(id) else { return Vec::new() };
    let Some(step) = part.steps.get(at) else { return Vec::new() };
    let first = first_taker(part);
    // What is taken before its last steps may be alive then.
    let is_in_at_first = |target: Target, other: PartId| {
        let is_before = line_of(part, target).is_some_and(|line| line.before.is_some());
        !is_for_later(part, target) || is_before || lives(other)
    };
    let takes = |step: usize, (target, other): (Target, PartId)| {
        part.steps.get(step).is_some_and(|step| draws(step, target)) || step == first && is_in_at_first(target, other)
    };
    let taken = held(recipe, id).into_iter().filter(|one| draws(step, one.0) || at == first && takes(at, *one));
    let all = taken.map(|(target, other)| Taken {
        part: other,
        is_first: !(0..at).any(|before| takes(before, (target, other))),
        before: line_of(part, target).and_then(|line| line.before).map(|step| step.step),
    });
    all.collect()
}

/// The line that something is drawn from; none for a preferment.
fn line_of(part: &Part, target: Target) -> Option<&Ingredient> {
    match target {
        Target::Line(at) => part.lines.get(at),
        Target::Preferment(_) => None,
    }
}

/// Whether a step draws something by name.
pub fn draws(step: &Step, target: Target) -> bool {
    step.words.iter().any(|word| matches!(word, Words::Use { target: Some(named), .. } if *named == target))
}

/// The parts that a part holds: those its lines name, and the preferments that are taken out of it. What a preferment
/// takes, and no step of the part itself, goes into the preferment.
pub fn held(recipe: &Recipe, id: PartId) -> Vec<(Target, PartId)> {
    let Some(part) = recipe.part(id) else { return Vec::new() };
    let goes_ahead = |target: Target, other: PartId| {
        let takes = |part: &Part| part.lines.iter().any(|line| line.refers == Refers::Part(other));
        recipe.preferments(id).any(|(_, preferment)| takes(preferment))
            && !part.steps.iter().any(|step| draws(step, target))
    };
    let lines = part.lines.iter().enumerate().filter_map(|(at, line)| match line.refers {
        Refers::Part(other) => Some((Target::Line(at), other)).filter(|(target, other)| !goes_ahead(*target, *other)),
        Refers::Pantry(_) => None,
    });
    lines.chain(recipe.preferments(id).map(|(other, _)| (Target::Preferment(other), other))).collect()
}

/// Whether a rest may go on until what comes next.
pub fn has_slack(step: &Step) -> bool {
    step.kind == StepKind::Wait && step.up_to.is_some()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::language::parse::parse;
    use crate::model::project::{File, Project};
    use crate::solve::resolve::{choices_of, recipe, selections};
    use crate::text::source::SourceId;
    use std::sync::Arc;

    /// A fold beside a rest, an oven that is lit ahead, and what comes below them: whoever has a step above it is below that step.
    #[test]
    fn what_is_below_a_step_has_it_above() {
        let text = "recipe Loaf\nflour .... 500 g\nwater .... 300 g\nmix: hands 5 min\n    Mix {flour} and {water}.\n\
                    rise: wait 90 min\nfold: hands 2 min, during rise\nlight: hands 2 min, before bake\nshape: hands 5 min\n\
                    prove: wait 40 min\nbake: tend 40 min, using oven at 230 C\ncool: wait 1 h\n";
        let source = SourceId(0);
        let (tree, diagnostics) = parse(source, text);
        let all = selections(&choices_of(&tree));
        let mut project = Project::default();
        project.add(File { tree: Arc::new(tree), diagnostics });
        let recipe = all.first().and_then(|selection| recipe(&project, source, selection, &mut Vec::new()));
        let recipe = recipe.expect("it is a recipe");
        let (_, part) = recipe.own_parts().next().expect("it has a part");
        let places = || 0..part.steps.len();
        let having_above = |at: usize| places().filter(move |other| above(part, *other).contains(&at));
        for at in places() {
            assert_eq!(below(part, at).collect::<Vec<_>>(), having_above(at).collect::<Vec<_>>(), "step {at}");
        }
        assert_eq!(below(part, 1).collect::<Vec<_>>(), [2, 3, 4], "beside, ahead, and the first that is neither");
    }
}
