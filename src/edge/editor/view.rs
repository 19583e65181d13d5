//! One file as the editor has it, read with all that it uses, and what is worked out from it on demand.

use super::mentions::{Mention, mentions};
use super::position::LineStarts;
use super::scope::Scope;
use crate::check::work_out;
use crate::figures::card::Timeline;
use crate::language::syntax::{Content, Name, Tree};
use crate::measure::show::{self, Units};
use crate::model::project::Project;
use crate::model::recipe::{Recipe, Selection};
use crate::plan::timeline;
use crate::solve::formula::Formula;
use crate::solve::resolve::{choices_of, normal_selection};
use crate::text::source::{SourceId, Span};
use std::cell::{OnceCell, RefCell};
use std::collections::HashMap;
use std::rc::Rc;
use std::sync::Arc;

/// For temperatures shown beside figures.
pub(super) const UNITS: Units = Units::Metric;

/// The planner is asked for the clock at every key; with more steps than this it would be felt.
const MOST_STEPS: usize = 150;

/// So many ways to choose are worked out besides the default: a line that only more of them would show has no figure.
const MOST_OTHERS: usize = 12;

/// What was planned for a file under each way to choose, kept from one view of it to the next.
pub(super) type Planned = Rc<RefCell<HashMap<Selection, timeline::Memory>>>;

/// A recipe under one way to choose, with its amounts.
#[derive(Debug)]
pub(super) struct Worked {
    /// The recipe and its amounts.
    pub made: (Recipe, Formula),
    /// Its parts as they are weighed out, where some preferment is made with a spare.
    mixed: Option<Formula>,
    timeline: OnceCell<Option<Timeline>>,
}

impl Worked {
    /// The amounts as its card has them, which are what is shown of parts, lines and steps.
    pub(super) fn mixed(&self) -> &Formula {
        self.mixed.as_ref().unwrap_or(&self.made.1)
    }
}

/// A file with all that it uses. Whatever changes, another view is made.
#[derive(Debug)]
pub(super) struct View {
    /// The file and those it uses.
    pub project: Project,
    /// The file.
    pub source: SourceId,
    text: Arc<str>,
    tree: Arc<Tree>,
    line_starts: OnceCell<LineStarts>,
    worked: OnceCell<Option<Worked>>,
    others: OnceCell<Vec<Worked>>,
    planned: Planned,
    scope: OnceCell<Scope>,
    mentions: OnceCell<Vec<Mention>>,
}

impl View {
    /// A view of a file of a project; `None` when it is not in it.
    pub(super) fn of(project: Project, source: SourceId, planned: Planned) -> Option<View> {
        let text = Arc::clone(&project.sources.get(source)?.text);
        let tree = Arc::clone(&project.file(source)?.tree);
        Some(View {
            project,
            source,
            text,
            tree,
            line_starts: OnceCell::new(),
            worked: OnceCell::new(),
            others: OnceCell::new(),
            planned,
            scope: OnceCell::new(),
            mentions: OnceCell::new(),
        })
    }

    /// The file's text.
    pub(super) fn text(&self) -> &str {
        &self.text
    }

    /// The file's tree.
    pub(super) fn tree(&self) -> &Tree {
        &self.tree
    }

    /// Its lines.
    pub(super) fn line_starts(&self) -> &LineStarts {
        self.line_starts.get_or_init(|| LineStarts::of(&self.text))
    }

    /// The recipe with every choice at its default, and its amounts; `None` for kitchens, larders and days.
    pub(super) fn worked(&self) -> Option<&(Recipe, Formula)> {
        self.default().map(|worked| &worked.made)
    }

    /// As [`View::worked`], with the amounts as its card has them.
    pub(super) fn weighed(&self) -> Option<(&Recipe, &Formula)> {
        self.default().map(|worked| (&worked.made.0, worked.mixed()))
    }

    fn default(&self) -> Option<&Worked> {
        self.worked.get_or_init(|| self.work_out(&Selection::new())).as_ref()
    }

    fn work_out(&self, selection: &Selection) -> Option<Worked> {
        let made = work_out(&self.project, self.source, selection, &mut Vec::new())?;
        let mixed = made.1.mixed().ok().flatten();
        Some(Worked { made, mixed, timeline: OnceCell::new() })
    }

    /// The recipe under every way to choose that the default leaves lines out of, the default first, each when it is asked for.
    pub(super) fn every(&self) -> impl Iterator<Item = &Worked> {
        let others = std::iter::once_with(|| self.others.get_or_init(|| self.work_out_others())).flatten();
        self.default().into_iter().chain(others)
    }

    /// For each set of options that some line holds under and the default does not take: the default with those taken.
    fn work_out_others(&self) -> Vec<Worked> {
        let choices = choices_of(&self.tree);
        let mut known = vec![normal_selection(&choices, &Selection::new())];
        let mut all = Vec::new();
        let mut of_part: &[Name] = &[];
        for line in &self.tree.lines {
            if matches!(line.content, Content::Part { .. }) {
                of_part = &line.only;
            }
            let mut wanted = Selection::new();
            for name in of_part.iter().chain(&line.only) {
                let choice = choices.iter().find(|choice| choice.options.iter().any(|option| option.key == name.key));
                if let Some(choice) = choice {
                    wanted.take(&choice.name.key, &name.key);
                }
            }
            let holds =
                |selection: &Selection| wanted.iter().all(|(choice, option)| selection.of(choice) == Some(option));
            if all.len() < MOST_OTHERS && !known.iter().any(holds) {
                let selection = normal_selection(&choices, &wanted);
                all.extend(self.work_out(&selection));
                known.push(selection);
            }
        }
        all
    }

    /// When each step begins, everything as early as the kitchen allows; `None` for a recipe of very many steps.
    pub(super) fn timeline<'v>(&'v self, worked: &'v Worked) -> Option<&'v Timeline> {
        let draw = || {
            let (recipe, formula) = &worked.made;
            let steps: usize = recipe.parts.iter().map(|part| part.steps.len()).sum();
            let mut planned = self.planned.borrow_mut();
            let memory = planned.entry(Selection::clone(&recipe.selection)).or_default();
            (steps <= MOST_STEPS).then(|| timeline::of_again(recipe, formula, memory).ok()).flatten()
        };
        worked.timeline.get_or_init(draw).as_ref()
    }

    /// The options that a recipe was worked out with besides the defaults: `cold overnight`; empty for the default.
    pub(super) fn taken(&self, recipe: &Recipe) -> String {
        let default = self.worked().map(|(recipe, _)| &recipe.selection);
        let other =
            recipe.selection.iter().filter(|(choice, option)| default.and_then(|of| of.of(choice)) != Some(*option));
        show::list(&other.map(|(_, option)| option.as_str()).collect::<Vec<_>>())
    }

    /// The names it knows.
    pub(super) fn scope(&self) -> &Scope {
        self.scope.get_or_init(|| Scope::of(&self.project, self.source))
    }

    /// Every place of it that names something.
    pub(super) fn mentions(&self) -> &[Mention] {
        self.mentions.get_or_init(|| mentions(&self.project, self.scope()))
    }

    /// The words at a place of this file.
    pub(super) fn slice(&self, span: Span) -> &str {
        self.text.get(span.range()).unwrap_or("")
    }
}
