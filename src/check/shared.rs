//! What is found in a part once, where all that was read to find it is the same under several ways to choose: a selection costs what it changes.

use super::Subject;
use super::dough::AskedOfAll;
use crate::model::noted::{self, Reads};
use crate::model::recipe::{Part, PartId, Recipe, UsedRecipe};
use crate::solve::formula::{Formula, SolvedPart};
use crate::text::diagnostic::Diagnostic;
use std::sync::Arc;

/// A recipe under one way to choose, worked out; the number of the way among all.
pub(super) type Worked = (usize, Recipe, Formula);

/// What is the same under two ways to choose.
#[derive(Clone, Copy, Default)]
struct Alike {
    /// To who looks at steps.
    with_steps: Reads,
    /// To who looks at none.
    but_for_steps: Reads,
}

impl Alike {
    fn of((_, one, formula): &Worked, (_, other, other_formula): &Worked) -> Alike {
        if !same_head((one, formula), (other, other_formula)) {
            return Alike::default();
        }
        let mut both = Reads { marks: marks(one, other), ..Reads::default() };
        let mut alike = Alike::default();
        for id in (0..one.parts.len()).map(PartId) {
            let (Some(part), Some(other_part)) = (one.parts.get(id.0), other.parts.get(id.0)) else { break };
            let (Some(solved), Some(other_solved)) = (formula.part(id), other_formula.part(id)) else { break };
            if one.is_drawn_on(id) == other.is_drawn_on(id) && one.is_final(id) == other.is_final(id) {
                both.with_end(id.0);
            }
            if one.has_uses_of(other, id) {
                both.with_uses(id.0);
            }
            if one.has_taken_of(other, id) {
                both.with_taken(id.0);
            }
            if is_same_but_for_steps((part, solved), (other_part, other_solved)) {
                alike.but_for_steps.with_part(id.0);
                let same_steps = Arc::ptr_eq(part, other_part) || part.steps == other_part.steps;
                if same_steps && solved.draws == other_solved.draws {
                    alike.with_steps.with_part(id.0);
                }
            }
        }
        alike.but_for_steps = Reads { parts: alike.but_for_steps.parts, ..both };
        alike.with_steps = Reads { parts: alike.with_steps.parts, marks: both.marks | noted::STEPS, ..both };
        alike
    }

    /// Whether all that was read is the same.
    fn holds(&self, reads: Reads) -> bool {
        let steps = reads.marks & noted::STEPS != 0;
        reads.is_in(if steps { self.with_steps } else { self.but_for_steps })
    }
}

/// For each way to choose, what is the same under each of those before it, and how many parts of its own the recipe has.
pub(super) struct Shared {
    alike: Vec<Vec<Alike>>,
    parts: Vec<usize>,
}

/// Of what a check is asked at a time.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Unit {
    /// Of one own part after the other.
    Part,
    /// Of the whole recipe.
    Whole,
}

/// What was read in a part, or in the whole, under the way of that place, and what was found. It is small and has nothing to be dropped:
/// every check makes one of every part.
#[derive(Clone, Copy)]
pub(super) struct Known {
    at: usize,
    /// The place of what was read in the same part before, or [`NOWHERE`].
    before: usize,
    reads: Reads,
    /// The place of what was found among all that was found, or [`NOWHERE`]: nearly always there is nothing.
    told: usize,
}

/// No place of any list.
const NOWHERE: usize = usize::MAX;

impl Shared {
    /// Compares the ways; `None` where there is one, or nothing that could be shared.
    pub(super) fn of(worked: &[Worked]) -> Option<Shared> {
        let is_large = |(_, recipe, _): &Worked| recipe.parts.len() > noted::MOST_PARTS;
        if worked.len() < 2 || worked.iter().any(is_large) {
            return None;
        }
        let before = |at: usize| worked.get(..at).unwrap_or_default();
        let all =
            worked.iter().enumerate().map(|(at, one)| before(at).iter().map(|other| Alike::of(one, other)).collect());
        let parts = worked.iter().map(|(_, recipe, _)| recipe.own_parts().count());
        Some(Shared { alike: all.collect(), parts: parts.collect() })
            .filter(|shared| shared.alike.iter().flatten().any(|alike| alike.but_for_steps.parts != 0))
    }

    /// Whether all that was read under one way is the same under a later one.
    fn is_same(&self, reads: Reads, earlier: usize, later: usize) -> bool {
        self.alike.get(later).and_then(|ways| ways.get(earlier)).is_some_and(|alike| alike.holds(reads))
    }

    /// What a check finds under those of the ways under which it finds something, asked once where all that it reads is the same: part by part,
    /// or of the whole at once.
    pub(super) fn look(
        &self,
        all_known: &mut Vec<Known>,
        worked: &[Worked],
        asked: &[AskedOfAll],
        (run, unit): (fn(&Subject<'_>, &mut Vec<Diagnostic>), Unit),
    ) -> Vec<(usize, Vec<Diagnostic>)> {
        // One list for all parts, and the last place of each part in it.
        all_known.clear();
        let mut all_told: Vec<Vec<Diagnostic>> = Vec::new();
        let mut lasts = [NOWHERE; noted::MOST_PARTS + 1];
        let mut found = Vec::new();
        for (at, ((way, recipe, formula), asked)) in worked.iter().zip(asked).enumerate() {
            let mut of_way = Vec::new();
            let units = match unit {
                Unit::Part => self.parts.get(at).copied().unwrap_or_default(),
                Unit::Whole => 1,
            };
            for (number, last) in lasts.iter_mut().enumerate().take(units) {
                let only = (unit == Unit::Part).then_some(PartId(number));
                let look = || {
                    noted::during(|| {
                        let mut problems = Vec::new();
                        run(&Subject { recipe, formula, only, asked }, &mut problems);
                        problems
                    })
                };
                let mut of_part = std::iter::successors(all_known.get(*last), |known| all_known.get(known.before));
                match of_part.find(|known| self.is_same(known.reads, known.at, at)) {
                    Some(known) => {
                        let told = all_told.get(known.told).map_or(&[][..], Vec::as_slice);
                        debug_assert_eq!(look().0, told, "a check looks at what is not noted");
                        of_way.extend_from_slice(told);
                    }
                    None => {
                        let (problems, reads) = look();
                        let told = if problems.is_empty() { NOWHERE } else { all_told.len() };
                        if !problems.is_empty() {
                            of_way.extend_from_slice(&problems);
                            all_told.push(problems);
                        }
                        let before = std::mem::replace(last, all_known.len());
                        all_known.push(Known { at, before, reads, told });
                    }
                }
            }
            if !of_way.is_empty() {
                found.push((*way, of_way));
            }
        }
        found
    }
}

fn is_same_but_for_steps(
    (part, solved): (&Arc<Part>, &SolvedPart),
    (other, other_solved): (&Arc<Part>, &SolvedPart),
) -> bool {
    (Arc::ptr_eq(part, other) || part.is_same_but_for_steps(other)) && solved.is_same_but_for_draws(other_solved)
}

/// What else is the same.
fn marks(one: &Recipe, other: &Recipe) -> u8 {
    let mark = |mark: u8, is_same: bool| if is_same { mark } else { 0 };
    let same_recipe = |(one, other): (&UsedRecipe, &UsedRecipe)| Arc::ptr_eq(&one.recipe, &other.recipe);
    mark(noted::SINGLE, one.parts.is_single() == other.parts.is_single())
        | mark(noted::COUNT, one.parts.len() == other.parts.len())
        | mark(noted::LAST, one.final_part() == other.final_part())
        | mark(noted::NAMES, one.has_names_of(other))
        | mark(noted::TEXTS, one.texts == other.texts)
        | mark(
            noted::USED,
            one.used.len() == other.used.len() && one.used.iter().zip(other.used.iter()).all(same_recipe),
        )
}

/// Whether all that is read without being noted is the same: of the head, and where it is made.
fn same_head((one, formula): (&Recipe, &Formula), (other, other_formula): (&Recipe, &Formula)) -> bool {
    one.name == other.name
        && one.source == other.source
        && one.has_final() == other.has_final()
        && one.makes == other.makes
        && one.pan == other.pan
        && one.bake_loss == other.bake_loss
        && one.sale == other.sale
        && one.choices == other.choices
        && one.published == other.published
        && one.aims == other.aims
        && formula.pieces == other_formula.pieces
        && one.kitchen == other.kitchen
        && Arc::ptr_eq(&one.larder, &other.larder)
        && one.cautions().eq(other.cautions())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::check::dough::inside;
    use crate::check::work_out;
    use crate::language::parse::parse;
    use crate::language::syntax::Key;
    use crate::model::project::{File, Project};
    use crate::solve::resolve;
    use crate::text::source::SourceId;

    /// For each way and each part, the first way under which all is the same that one reads who looks at the steps of it and of what lies in
    /// it.
    fn firsts(text: &str) -> Option<Vec<Vec<usize>>> {
        firsts_of(text, |recipe, id| {
            inside(recipe, id)
                .into_iter()
                .filter_map(|id| recipe.part(id))
                .for_each(|part| assert!(part.steps.len() < 9));
        })
    }

    /// For each way and each part, the first way under which all is the same that is read so.
    fn firsts_of(text: &str, read: fn(&Recipe, PartId)) -> Option<Vec<Vec<usize>>> {
        let source = SourceId(0);
        let (tree, diagnostics) = parse(source, text);
        let selections = resolve::selections(&resolve::choices_of(&tree));
        let mut project = Project::default();
        project.add(File { tree: Arc::new(tree), diagnostics });
        let ways = selections.iter().enumerate().filter_map(|(way, selection)| {
            let (recipe, formula) = work_out(&project, source, selection, &mut Vec::new())?;
            Some((way, recipe, formula))
        });
        let ways: Vec<Worked> = ways.collect();
        let shared = Shared::of(&ways)?;
        let of_way = |(at, (_, recipe, _)): (usize, &Worked)| {
            let parts = recipe.own_parts().map(|(id, _)| {
                let ((), reads) = noted::during(|| read(recipe, id));
                (0..at).find(|earlier| shared.is_same(reads, *earlier, at)).unwrap_or(at)
            });
            parts.collect()
        };
        Some(ways.iter().enumerate().map(of_way).collect())
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

    /// Who looks at lines only has nothing new to see where other steps are done.
    #[test]
    fn steps_are_nothing_to_who_does_not_look_at_them() {
        let parts = "flour .... 500 g\nwater .... 60 %\nmix: hands 10 min [machine]\n    Mix {flour} and {water}.\n\
                     mix: hands 20 min [hand]\n    Mix {flour} and {water}.\n";
        let text = format!("{CHOICE}{parts}");
        let lines = |recipe: &Recipe, id: PartId| assert!(recipe.part(id).is_some_and(|part| part.lines.len() == 2));
        assert_eq!(firsts_of(&text, lines), Some(vec![vec![0], vec![0]]));
        assert_eq!(firsts(&text), Some(vec![vec![0], vec![1]]));
        // What was chosen is never the same.
        let chosen = |recipe: &Recipe, _: PartId| assert!(recipe.selection.of(&Key::new("mixing")).is_some());
        assert_eq!(firsts_of(&text, chosen), Some(vec![vec![0], vec![1]]));
    }

    /// Who draws on a part is another thing than what is taken out of it.
    #[test]
    fn what_is_taken_out_of_a_part_is_the_same_where_another_draws_on_it() {
        let parts = "part jam\nplums .... 200 g\n\npart crumb [hand]\nflour .... 200 g\nbutter .... 100 g\n\n\
                     part buns\njam .... 100 g\nflour .... 500 g\n";
        let text = format!("{CHOICE}{parts}");
        let taken = |recipe: &Recipe, id: PartId| assert_eq!(recipe.preferments(id).count(), 0);
        assert_eq!(firsts_of(&text, taken), Some(vec![vec![0, 0], vec![0, 0, 1]]));
        let drawn = |recipe: &Recipe, id: PartId| assert!(recipe.users(id).count() < 2);
        assert_eq!(firsts_of(&text, drawn), Some(vec![vec![0, 0], vec![1, 0, 1]]));
    }

    /// A part of another number, and one on which nothing draws under the other option, is another part.
    #[test]
    fn a_part_that_is_left_out_moves_what_follows() {
        let glaze = "part glaze\nhoney .... 20 g\n\n";
        let parts = "part jam\nplums .... 200 g\n\npart crumb [hand]\nflour .... 200 g\nbutter .... 100 g\n\n\
                     part buns\njam .... 100 g [hand]\nflour .... 500 g\n";
        assert_eq!(firsts(&format!("{CHOICE}{glaze}{parts}")), Some(vec![vec![0, 0, 0], vec![0, 1, 1, 1]]));
        // Where no part is the same there is nothing to share.
        assert_eq!(firsts(&format!("{CHOICE}{parts}")), None);
    }

    #[test]
    fn nothing_is_shared_where_there_is_one_way_or_another_head() {
        assert_eq!(firsts("recipe Buns\nflour .... 500 g\n"), None);
        let head = "choose size: small or large\nmakes 10 buns [small]\nmakes 20 buns [large]\n";
        assert_eq!(firsts(&format!("recipe Buns\n{head}part jam\nplums .... 200 g\n")), None);
    }
}
