//! What a recipe draws of other files: what changed in those parts, told as it stands there.

use super::{Figure, PartChange, Version, lines, part};
use crate::model::flow;
use crate::model::recipe::{Part, PartId, Recipe};
use crate::solve::formula::Formula;

/// Figures of how much is made of a part in its own file, which is no matter of who takes some of it.
const OF_ITS_SIZE: &[&str] = &["base", "total", "pieces", "piece weight", "makes", "used", "left over", "spare"];

/// A part of another file that is made when the recipe is.
struct Drawn<'a> {
    recipe: &'a Recipe,
    part: PartId,
    /// Its steps that are not done for this, since it is taken before them.
    left_out: Vec<&'a str>,
}

impl Drawn<'_> {
    fn is_called(&self, other: &Drawn<'_>) -> bool {
        let name = |one: &Drawn<'_>| one.recipe.part(one.part).map(|part| part.name.key.clone());
        name(self) == name(other)
    }
}

/// The parts of other files that changed, in the order of the new version. One that is no longer taken, or newly, is told by the line that
/// takes it.
pub(super) fn changes(old: Version<'_>, new: Version<'_>) -> Vec<PartChange> {
    let mut left = drawn(old.recipe);
    let (mut before, mut now) = (Formulas::default(), Formulas::default());
    let mut found = Vec::new();
    for one in drawn(new.recipe) {
        let same = |other: &Drawn<'_>| other.is_called(&one);
        let same_file = |other: &Drawn<'_>| same(other) && other.recipe.name.same(&one.recipe.name);
        let Some(at) = left.iter().position(same_file).or_else(|| left.iter().position(same)) else { continue };
        let was = left.remove(at);
        let versions = (before.version(&was, old), now.version(&one, new));
        found.extend(change(versions, (&was, &one)));
    }
    found
}

fn drawn(recipe: &Recipe) -> Vec<Drawn<'_>> {
    let made = flow::made(recipe);
    let all = recipe.parts().filter(|(id, part)| part.foreign.is_some() && made.get(id.0) == Some(&true));
    let one = |(id, adopted): (PartId, &'_ Part)| {
        let (of, part) = recipe.origin(id)?;
        Some(Drawn { recipe: of, part, left_out: left_out(recipe, &made, (id, adopted), of.part(part)?) })
    };
    all.filter_map(one).collect()
}

/// The names of the steps of a part that nobody who takes it waits for.
fn left_out<'a>(recipe: &Recipe, made: &[bool], (id, adopted): (PartId, &Part), origin: &'a Part) -> Vec<&'a str> {
    let users = recipe.users(id).filter(|(user, _)| made.get(user.0) == Some(&true));
    let lines = users.filter_map(|(user, line)| recipe.part(user)?.lines.get(line));
    let mut out: Option<Vec<bool>> = None;
    for line in lines {
        let here = match line.before {
            Some(before) => flow::left_out(adopted, id, before.step),
            None => vec![false; adopted.steps.len()],
        };
        out = Some(match out {
            Some(all) => all.iter().zip(&here).map(|(one, other)| *one && *other).collect(),
            None => here,
        });
    }
    let out = out.unwrap_or_default();
    origin.steps.iter().zip(out).filter(|(_, is_out)| *is_out).map(|(step, _)| &*step.name.text).collect()
}

/// What changed in one of them, but not how much of it is made there.
fn change((old, new): (Version<'_>, Version<'_>), (was, is): (&Drawn<'_>, &Drawn<'_>)) -> Option<PartChange> {
    let pair = (Some(was.part), Some(is.part));
    let rescaled = lines::common_factor_of([pair], old, new);
    let mut found = part(old, new, pair, rescaled)?;
    found.figures.retain(|figure: &Figure| !OF_ITS_SIZE.contains(&figure.figure));
    found.steps.retain(|step| !is.left_out.contains(&step.step.as_str()));
    found.name = format!("{} of {}", found.name, new.recipe.name);
    found.was = None;
    (!found.is_silent()).then_some(found)
}

/// The amounts of other files as they stand there, each worked out once.
#[derive(Default)]
struct Formulas<'a>(Vec<(&'a Recipe, Box<Formula>)>);

impl<'a> Formulas<'a> {
    fn version(&mut self, of: &Drawn<'a>, within: Version<'a>) -> Version<'_> {
        let known = self.0.iter().position(|(recipe, _)| recipe.is_same(of.recipe));
        let at = known.unwrap_or_else(|| {
            self.0.push((of.recipe, Box::new(Formula::of(of.recipe, &mut Vec::new()))));
            self.0.len() - 1
        });
        let formula = self.0.get(at).map_or(within.formula, |(_, formula)| formula);
        Version { recipe: of.recipe, formula, problems: &[] }
    }
}
