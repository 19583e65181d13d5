//! What was read of a recipe under earlier selections: a part of which the same lines hold, and whose names mean the same, is read once.

use super::choices;
use super::head::{self, Head};
use super::outline::{Outline, PartOutline, StepOutline};
use super::reading::Reading;
use super::too_many_parts;
use crate::language::syntax::{Content, Key, Name, Tree};
use crate::measure::unit::Measures;
use crate::model::larder::Larder;
use crate::model::recipe::{Choice, HeadMakes, Ingredient, Part, PartId, Recipe, Selection, Text};
use crate::model::shared_list::SharedList;
use crate::model::step::Step;
use crate::text::diagnostic::Diagnostic;
use crate::text::quick::QuickMap;
use crate::text::source::Span;
use std::collections::hash_map::Entry;
use std::sync::Arc;

/// What was read of one file under some of its selections.
#[derive(Default)]
pub struct Earlier<'t> {
    /// Its lines by where they belong.
    outline: Option<Arc<Outline<'t>>>,
    /// What it offers to choose.
    offered: Option<Arc<Offered>>,
    /// What its head says, where no selection changes it, whose cups are meant, and what is wrong with it.
    head: Option<(Head, Option<Measures>, Vec<Diagnostic>)>,
    ways: Vec<Way>,
    /// Where each step was read first: what is found out of it is found out of it under all selections.
    steps: QuickMap<Span, (Arc<Part>, usize)>,
    /// The notes, cautions and the like, by where they stand.
    texts: QuickMap<Span, Text>,
}

/// What a file offers to choose, and what is wrong with that and with the conditions of its lines: no selection changes it.
pub(super) struct Offered {
    /// The choices; `None` where the file is too large to be read.
    pub(super) choices: Option<Vec<Choice>>,
    /// What is wrong.
    pub(super) problems: Vec<Diagnostic>,
}

impl Offered {
    fn of(tree: &Tree, outline: &Outline<'_>) -> Offered {
        let mut reading = Reading::default();
        if let Some(problem) = choices::too_many(tree).or_else(|| too_many_parts(outline)) {
            return Offered { choices: None, problems: vec![problem] };
        }
        let choices = choices::read(tree, &mut reading);
        choices::check_conditions(tree, &choices, &mut reading);
        Offered { choices: Some(choices), problems: reading.problems }
    }
}

/// What was read under one selection, without any problem.
struct Way {
    measures: Option<Measures>,
    larder: Arc<Larder>,
    makes: Option<HeadMakes>,
    /// Its own parts; `None` for those that name steps of others.
    parts: Vec<Option<Kept>>,
}

/// A part that was read under one selection.
pub(super) struct Kept {
    held: Held,
    /// The part.
    pub(super) part: Arc<Part>,
    /// What is taken out of it.
    taken_out: Vec<(PartId, Key)>,
}

impl Kept {
    /// Whether its lines mean the same in a recipe, and the same is taken out of it there.
    pub(super) fn is_same(&self, recipe: &Recipe, id: PartId) -> bool {
        lines_mean_same(recipe, id, &self.part) && self.takes_out_same(recipe, id)
    }

    /// The step that is written there; they stand in the order of their places.
    fn step(&self, place: Span) -> Option<&Step> {
        let at = self.part.steps.binary_search_by_key(&place, |step| step.span).ok()?;
        self.part.steps.get(at)
    }

    fn takes_out_same(&self, recipe: &Recipe, id: PartId) -> bool {
        taken_out(recipe, id).eq(self.taken_out.iter().cloned())
    }
}

/// Which of the lines of a part hold that hold under some options only.
#[derive(PartialEq, Eq)]
pub(super) struct Held {
    place: Span,
    lines: Vec<bool>,
    steps: Vec<bool>,
    /// The lines of the part that it is taken out of.
    total: Vec<bool>,
}

impl Held {
    pub(super) fn of(part: &PartOutline<'_>, total: Option<&PartOutline<'_>>, selection: &Selection) -> Held {
        let holding = |conditions: &[&[Name]]| conditions.iter().map(|only| selection.holds(only)).collect();
        Held {
            place: part.name.span,
            lines: holding(&part.conditions),
            steps: holding(&part.step_conditions),
            total: total.map(|total| holding(&total.conditions)).unwrap_or_default(),
        }
    }

    /// Whether the same lines hold, of the part and of what it is taken out of; its steps may be others.
    fn has_lines_of(&self, other: &Held) -> bool {
        self.place == other.place && self.lines == other.lines && self.total == other.total
    }
}

impl<'t> Earlier<'t> {
    /// The lines of the file by where they belong, which no selection changes.
    pub(super) fn outline(&mut self, tree: &'t Tree) -> Arc<Outline<'t>> {
        Arc::clone(self.outline.get_or_insert_with(|| Arc::new(Outline::of(tree))))
    }

    /// What the file offers to choose.
    pub(super) fn offered(&mut self, tree: &Tree, outline: &Outline<'_>) -> Arc<Offered> {
        Arc::clone(self.offered.get_or_insert_with(|| Arc::new(Offered::of(tree, outline))))
    }

    /// What the head says, which is read once where only its notes hang on options.
    pub(super) fn head(&mut self, outline: &Outline<'_>, selection: &Selection, reading: &mut Reading) -> Head {
        if let Some((head, measures, problems)) = &self.head {
            reading.measures = *measures;
            reading.problems.extend(problems.iter().cloned());
            return head.clone();
        }
        let before = reading.problems.len();
        let head = head::read(outline, selection, reading);
        if outline.head.iter().all(|line| line.only.is_empty() || matches!(line.content, Content::Text { .. })) {
            let problems = reading.problems.get(before..).unwrap_or_default().to_vec();
            self.head = Some((head.clone(), reading.measures, problems));
        }
        head
    }

    /// A part as it was read under another selection of which the same lines hold. It is the same if its lines mean the same here, which
    /// [`Kept::is_same`] tells once all parts are there.
    pub(super) fn part(&self, recipe: &Recipe, id: PartId, held: &Held, reading: &Reading) -> Option<&Kept> {
        self.kept(recipe, id, reading).find(|kept| kept.held == *held)
    }

    /// The lines of a part as they were read under another selection, if they are the same; its steps may be others.
    pub(super) fn lines(
        &self,
        recipe: &Recipe,
        id: PartId,
        held: &Held,
        reading: &Reading,
    ) -> Option<SharedList<Ingredient>> {
        let mut ways = self.kept(recipe, id, reading).filter(|kept| kept.held.has_lines_of(held));
        ways.next().filter(|kept| lines_mean_same(recipe, id, &kept.part)).map(|kept| kept.part.lines.clone())
    }

    /// A step of a part as it was read under another selection, before its order is bound: if the lines of the part and what is taken out
    /// of it, which are all that its words can name, are the same.
    pub(super) fn step(
        &self,
        recipe: &Recipe,
        id: PartId,
        written: &StepOutline<'_>,
        reading: &Reading,
    ) -> Option<Step> {
        let lines = &recipe.part(id)?.lines;
        let is_same = |kept: &&Kept| kept.part.lines.is_one_with(lines) && kept.takes_out_same(recipe, id);
        let mut steps = self.kept(recipe, id, reading).filter(is_same).filter_map(|kept| kept.step(written.head.said));
        // A picture below it may hang on an option.
        let known = steps.next().filter(|_| written.below.iter().all(|line| line.only.is_empty()))?;
        Some(known.unbound())
    }

    /// What was kept of a part under the selections that change nothing of what all lines hang on.
    fn kept(&self, recipe: &Recipe, id: PartId, reading: &Reading) -> impl Iterator<Item = &Kept> {
        let ways = self.ways.iter().filter(move |way| {
            way.measures == reading.measures && Arc::ptr_eq(&way.larder, &recipe.larder) && way.makes == recipe.makes
        });
        ways.filter_map(move |way| way.parts.get(id.0)?.as_ref())
    }

    /// Keeps the texts of the head, whatever is wrong beside them.
    pub(super) fn keep_texts(&mut self, recipe: &mut Recipe) {
        if !recipe.choices.is_empty() {
            share(&mut self.texts, &mut recipe.texts);
        }
    }

    /// Keeps what was read, if nothing was wrong.
    pub(super) fn keep(&mut self, recipe: &mut Recipe, held: Vec<Held>, reading: &Reading, is_right: bool) {
        // There is one selection only.
        if recipe.choices.is_empty() {
            return;
        }
        for part in &mut recipe.parts {
            // What is there several times was kept when it was read.
            let Some(new) = Arc::get_mut(part) else { continue };
            for step in &mut new.steps {
                if let Some(known) = self.steps.get(&step.span).and_then(|(part, at)| part.steps.get(*at)) {
                    step.share_with(known);
                }
            }
            share(&mut self.texts, &mut new.texts);
            for (at, step) in part.steps.iter().enumerate() {
                self.steps.entry(step.span).or_insert_with(|| (Arc::clone(part), at));
            }
        }
        if !is_right {
            return;
        }
        let parts = (0..).map(PartId).zip(&recipe.parts).zip(held).map(|((id, part), held)| {
            let own_steps = part.steps.iter().flat_map(|step| &step.order).all(|order| order.other().part == id);
            let is_alone = own_steps && part.lines.iter().all(|line| line.before.is_none());
            is_alone.then(|| Kept { held, part: Arc::clone(part), taken_out: taken_out(recipe, id).collect() })
        });
        self.ways.push(Way {
            measures: reading.measures,
            larder: Arc::clone(&recipe.larder),
            makes: recipe.makes.clone(),
            parts: parts.collect(),
        });
    }
}

/// Texts that are the same as under another selection are there once.
fn share(known: &mut QuickMap<Span, Text>, texts: &mut [Text]) {
    for text in texts {
        match known.entry(text.span) {
            Entry::Occupied(known) => text.share_with(known.get()),
            Entry::Vacant(free) => {
                free.insert(text.clone());
            }
        }
    }
}

/// Whether the lines of a part, as they were read before, name the same parts and ingredients here.
fn lines_mean_same(recipe: &Recipe, id: PartId, known: &Part) -> bool {
    let means_same = |name: &Name, of: Option<PartId>| recipe.find(name).filter(|found| *found != id) == of;
    recipe.part(id).is_some_and(|part| part.from == known.from)
        && known.lines.iter().all(|line| means_same(&line.name, line.part()))
}

fn taken_out(recipe: &Recipe, id: PartId) -> impl Iterator<Item = (PartId, Key)> {
    recipe.preferments(id).map(|(other, part)| (other, part.name.key.clone()))
}

#[cfg(test)]
mod tests {
    use super::super::{choices_of, recipe_beside, selections};
    use super::*;
    use crate::language::parse::parse;
    use crate::model::project::{File, Project};
    use crate::text::source::SourceId;

    /// For each selection, the names of the parts that are there once with the first one.
    fn shared_with_first(text: &str) -> Vec<Vec<String>> {
        let source = SourceId(0);
        let (tree, diagnostics) = parse(source, text);
        let all = selections(&choices_of(&tree));
        let mut project = Project::default();
        project.add(File { tree: Arc::new(tree), diagnostics });
        let mut earlier = Earlier::default();
        let mut read = |selection| recipe_beside(&project, source, selection, &mut earlier, &mut Vec::new());
        let recipes: Vec<Recipe> = all.iter().filter_map(&mut read).collect();
        let first: Vec<&Arc<Part>> = recipes.iter().take(1).flat_map(|recipe| &recipe.parts).collect();
        let is_first = |part: &&Arc<Part>| first.iter().any(|first| Arc::ptr_eq(first, part));
        let names = |recipe: &Recipe| recipe.parts.iter().filter(is_first).map(|part| part.name.to_string()).collect();
        recipes.iter().skip(1).map(names).collect()
    }

    const HEAD: &str = "recipe Buns\nmakes 10 buns\nchoose mixing: machine or hand\n";

    #[test]
    fn only_a_part_with_lines_of_the_option_is_read_again() {
        let text = "part dough\nflour .... 500 g\nmix: hands 10 min [machine]\n    Mix {flour}.\n\n\
                    part jam\nplums .... 200 g\ncook: tend 20 min\n    Cook {plums}.\n\n\
                    part glaze\nhoney .... 20 g [hand]\nmilk .... 20 g\n\n\
                    part buns\nper piece\ndough .... 50 g\njam .... 10 g\nglaze .... 1 g\n";
        assert_eq!(shared_with_first(&format!("{HEAD}{text}")), [["jam", "buns"]]);
    }

    /// What lies in a part may be a part or an ingredient, and of what it is taken out may have other lines.
    #[test]
    fn a_name_that_means_another_thing_makes_another_part() {
        let jam = "part jam [hand]\nplums .... 200 g\n\npart buns\nflour .... 500 g\njam .... 100 g\n";
        assert_eq!(shared_with_first(&format!("{HEAD}{jam}")), [Vec::<String>::new()]);
        let sponge = "part sponge, from dough\nwater .... 20 %\n\npart dough\nmilk .... 10 % [hand]\nflour .... 500 g\nwater .... 60 %\n";
        assert_eq!(shared_with_first(&format!("{HEAD}{sponge}")), [Vec::<String>::new()]);
        let same = "part sponge, from dough\nwater .... 20 %\n\npart dough\nflour .... 500 g\nwater .... 60 %\n";
        assert_eq!(shared_with_first(&format!("{HEAD}{same}")), [["sponge", "dough"]]);
    }

    #[test]
    fn where_something_is_wrong_all_is_read_again() {
        let text = "part jam\nplums .... 200 g\nplums .... 100 g\n\npart buns\nflour .... 500 g\n";
        assert_eq!(shared_with_first(&format!("{HEAD}{text}")), [Vec::<String>::new()]);
    }
}
