//! What is found in a part once, where it is the same under several ways to choose: a selection costs what it changes.

use super::Subject;
use super::dough::{AskedOfAll, inside};
use crate::language::syntax::TextKind;
use crate::model::recipe::{Part, PartId, Recipe, Text};
use crate::solve::formula::{Formula, SolvedPart};
use crate::text::diagnostic::Diagnostic;
use crate::text::quick::QuickMap;
use std::sync::Arc;

/// A recipe under one way to choose, worked out; the number of the way among all.
pub(super) type Worked = (usize, Recipe, Formula);

/// In recipes of more parts nothing is shared: each of them is asked for all that lies in it.
const MOST_PARTS: usize = 100;

/// For each way to choose and each part, the place of the first way under which the part is the same, with all that lies in it.
pub(super) struct Shared(Vec<Vec<usize>>);

impl Shared {
    /// Compares the ways; `None` where there is one, or nothing that could be shared.
    pub(super) fn of(worked: &[Worked]) -> Option<Shared> {
        let ((_, first, first_formula), others) = worked.split_first()?;
        let is_alike = |(_, recipe, formula): &Worked| same_head((first, first_formula), (recipe, formula));
        let is_large = |(_, recipe, _): &Worked| recipe.parts.len() > MOST_PARTS;
        if others.is_empty() || worked.iter().any(is_large) || !others.iter().all(is_alike) {
            return None;
        }
        let mut versions: Versions<'_> = QuickMap::default();
        let mut firsts_by_key: QuickMap<Vec<(PartId, usize)>, usize> = QuickMap::default();
        let mut all = Vec::with_capacity(worked.len());
        for (at, (_, recipe, formula)) in worked.iter().enumerate() {
            let numbers: Vec<usize> =
                recipe.parts().map(|(id, _)| version(&mut versions, recipe, formula, id)).collect();
            let firsts = recipe.own_parts().map(|(id, _)| {
                let key: Vec<(PartId, usize)> =
                    inside(recipe, id).into_iter().filter_map(|inner| Some((inner, *numbers.get(inner.0)?))).collect();
                // The part itself is the first of those that are reached, so that no two parts have one key.
                *firsts_by_key.entry(key).or_insert(at)
            });
            all.push(firsts.collect());
        }
        Some(Shared(all))
    }

    /// What a check finds under those of the ways under which it finds something, part by part, asked once for parts that are the same.
    pub(super) fn look(
        &self,
        worked: &[Worked],
        run: fn(&Subject<'_>, &mut Vec<Diagnostic>),
    ) -> Vec<(usize, Vec<Diagnostic>)> {
        let mut by_part: Vec<(usize, PartId, Vec<Diagnostic>)> = Vec::new();
        let mut found = Vec::new();
        for (at, ((way, recipe, formula), firsts)) in worked.iter().zip(&self.0).enumerate() {
            let mut of_way = Vec::new();
            for (id, first) in (0..).map(PartId).zip(firsts) {
                let look = || {
                    let mut problems = Vec::new();
                    run(&Subject { recipe, formula, only: Some(id), asked: &AskedOfAll::default() }, &mut problems);
                    problems
                };
                if *first == at {
                    let problems = look();
                    if !problems.is_empty() {
                        of_way.extend(problems.iter().cloned());
                        by_part.push((at, id, problems));
                    }
                } else {
                    let known = by_part.iter().find(|(known_at, known, _)| known_at == first && *known == id);
                    let known = known.map_or(&[][..], |(_, _, problems)| problems);
                    debug_assert_eq!(look(), known, "a check of parts looks at more than the part and what lies in it");
                    of_way.extend_from_slice(known);
                }
            }
            if !of_way.is_empty() {
                found.push((*way, of_way));
            }
        }
        found
    }
}

/// A part as it is under one way, without what lies in it.
type Version<'a> = (&'a Recipe, &'a Arc<Part>, &'a SolvedPart);
type Versions<'a> = QuickMap<PartId, Vec<Version<'a>>>;

/// The number of a part's version, which is the same under all ways under which the part itself is.
fn version<'a>(versions: &mut Versions<'a>, recipe: &'a Recipe, formula: &'a Formula, id: PartId) -> usize {
    let known = versions.entry(id).or_default();
    let (Some(part), Some(solved)) = (recipe.parts.get(id.0), formula.part(id)) else { return usize::MAX };
    let uses = |recipe: &Recipe| (recipe.users(id).next().is_some(), recipe.final_part() == Some(id));
    let same = |(other, other_part, other_solved): &Version<'a>| {
        uses(recipe) == uses(other)
            && recipe.preferments(id).map(|(id, _)| id).eq(other.preferments(id).map(|(id, _)| id))
            && part == *other_part
            && solved == *other_solved
    };
    known.iter().position(same).unwrap_or_else(|| {
        known.push((recipe, part, solved));
        known.len() - 1
    })
}

/// Whether all that checks of parts look at beside the parts is the same.
fn same_head((one, formula): (&Recipe, &Formula), (other, other_formula): (&Recipe, &Formula)) -> bool {
    one.name == other.name
        && one.makes == other.makes
        && one.pan == other.pan
        && one.bake_loss == other.bake_loss
        && one.final_part().is_some() == other.final_part().is_some()
        && (one.parts.len() == 1) == (other.parts.len() == 1)
        && formula.pieces == other_formula.pieces
        && Arc::ptr_eq(&one.kitchen, &other.kitchen)
        && Arc::ptr_eq(&one.larder, &other.larder)
        && cautions(one).eq(cautions(other))
}

fn cautions(recipe: &Recipe) -> impl Iterator<Item = &Text> {
    recipe.texts.iter().filter(|text| text.kind == TextKind::Caution)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::check::work_out;
    use crate::language::parse::parse;
    use crate::model::project::{File, Project};
    use crate::solve::resolve;
    use crate::text::source::SourceId;

    /// For each way and each part, the first way under which it is the same.
    fn firsts(text: &str) -> Option<Vec<Vec<usize>>> {
        let source = SourceId(0);
        let (tree, diagnostics) = parse(source, text);
        let selections = resolve::selections(&resolve::choices_of(&tree));
        let mut project = Project::default();
        project.add(File { tree: Arc::new(tree), diagnostics });
        let ways = selections.iter().enumerate().filter_map(|(way, selection)| {
            let (recipe, formula) = work_out(&project, source, selection, &mut Vec::new())?;
            Some((way, recipe, formula))
        });
        Shared::of(&ways.collect::<Vec<Worked>>()).map(|shared| shared.0)
    }

    const CHOICE: &str = "recipe Buns\nmakes 10 buns\nchoose mixing: machine or hand\n";

    /// Of three parts one changes, one takes it, and one has nothing to do with it.
    #[test]
    fn what_a_choice_changes_is_looked_at_again_with_all_that_takes_it() {
        let parts = "part dough\nflour .... 500 g\nwater .... 60 %\nmix: hands 10 min [machine]\n    Mix {flour} and {water}.\n\
                     mix: hands 20 min [hand]\n    Mix {flour} and {water}.\n\npart jam\nplums .... 200 g\n\n\
                     part buns\nper piece\ndough .... 70 g\njam .... 10 g\n";
        assert_eq!(firsts(&format!("{CHOICE}{parts}")), Some(vec![vec![0, 0, 0], vec![1, 0, 1]]));
    }

    /// A part of another number, and one on which nothing draws under the other option, is another part.
    #[test]
    fn a_part_that_is_left_out_moves_what_follows() {
        let parts = "part jam\nplums .... 200 g\n\npart crumb [hand]\nflour .... 200 g\nbutter .... 100 g\n\n\
                     part buns\njam .... 100 g [hand]\nflour .... 500 g\n";
        assert_eq!(firsts(&format!("{CHOICE}{parts}")), Some(vec![vec![0, 0], vec![1, 1, 1]]));
    }

    #[test]
    fn nothing_is_shared_where_there_is_one_way_or_another_head() {
        assert_eq!(firsts("recipe Buns\nflour .... 500 g\n"), None);
        let head = "choose size: small or large\nmakes 10 buns [small]\nmakes 20 buns [large]\n";
        assert_eq!(firsts(&format!("recipe Buns\n{head}part jam\nplums .... 200 g\n")), None);
    }
}
