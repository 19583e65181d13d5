//! One file as the editor has it, read with all that it uses, and what is worked out from it on demand.

use super::mentions::{Mention, mentions};
use super::position::LineStarts;
use super::scope::Scope;
use crate::check::work_out;
use crate::figures::card::Timeline;
use crate::figures::timeline;
use crate::language::syntax::Tree;
use crate::measure::show::Units;
use crate::model::project::Project;
use crate::model::recipe::{Recipe, Selection};
use crate::solve::formula::Formula;
use crate::text::source::{SourceId, Span};
use std::cell::{OnceCell, RefCell};
use std::rc::Rc;
use std::sync::Arc;

/// For temperatures shown beside figures.
pub(super) const UNITS: Units = Units::Metric;

/// The planner is asked for the clock at every key; with more steps than this it would be felt.
const MOST_STEPS: usize = 150;

/// What was planned for a file, kept from one view of it to the next.
pub(super) type Planned = Rc<RefCell<timeline::Memory>>;

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
    worked: OnceCell<Option<(Recipe, Formula)>>,
    timeline: OnceCell<Option<Timeline>>,
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
            timeline: OnceCell::new(),
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
        let work = || work_out(&self.project, self.source, &Selection::new(), &mut Vec::new());
        self.worked.get_or_init(work).as_ref()
    }

    /// When each step begins, everything as early as the kitchen allows; `None` for a recipe of very many steps.
    pub(super) fn timeline(&self) -> Option<&Timeline> {
        let draw = || {
            let (recipe, formula) = self.worked()?;
            let steps: usize = recipe.parts.iter().map(|part| part.steps.len()).sum();
            (steps <= MOST_STEPS)
                .then(|| timeline::of_again(recipe, formula, &mut self.planned.borrow_mut()).ok())
                .flatten()
        };
        self.timeline.get_or_init(draw).as_ref()
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
