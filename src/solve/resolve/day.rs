//! A day: what is to be made, from which recipes, for when.

use super::{Surroundings, bring_pantry, choices_of, normal_selection};
use crate::language::evaluate::evaluate;
use crate::language::parse::nearest;
use crate::language::syntax::{Content, FileKind, Line, MakeClause, Moment, Name};
use crate::measure::quantity::{Count, Mass};
use crate::measure::value::Value;
use crate::model::larder::{Larder, builtin};
use crate::model::project::Project;
use crate::model::recipe::{Choice, Selection, Text};
use crate::text::diagnostic::Diagnostic;
use crate::text::source::{SourceId, Span};
use std::sync::Arc;

/// How much of a recipe is wanted.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Wanted {
    /// So many pieces.
    Pieces(Count),
    /// So much.
    Mass(Mass),
}

/// One `make` line.
#[derive(Debug, Clone)]
pub struct DayOrder {
    /// The recipe's text.
    pub recipe: SourceId,
    /// How much.
    pub wanted: Wanted,
    /// Its choices.
    pub selection: Selection,
    /// For when.
    pub ready: Option<Moment>,
    /// The line.
    pub span: Span,
}

/// A day.
#[derive(Debug, Clone)]
pub struct Day {
    /// Its name.
    pub name: Name,
    /// Its text.
    pub source: SourceId,
    /// For when everything is wanted that does not say otherwise.
    pub ready: Option<Moment>,
    /// What is to be made.
    pub orders: Vec<DayOrder>,
    /// The one kitchen.
    pub kitchen: Arc<crate::model::kitchen::Kitchen>,
    /// What is known of ingredients.
    pub larder: Arc<Larder>,
    /// Notes and cautions.
    pub texts: Vec<Text>,
}

/// Resolves a day. `None` when the file is none.
pub fn day(project: &Project, source: SourceId, diagnostics: &mut Vec<Diagnostic>) -> Option<Day> {
    let tree = &project.file(source)?.tree;
    if tree.kind != FileKind::Day {
        return None;
    }
    let Surroundings { kitchen, larder, .. } = day_surroundings(project, source)?;
    let mut day = Day {
        name: Name::new("untitled", Span::new(source, 0, 0)),
        source,
        ready: None,
        orders: Vec::new(),
        kitchen,
        larder,
        texts: Vec::new(),
    };
    let mut continues = false;
    let mut ready_at: Option<Span> = None;
    for line in &tree.lines {
        super::steps::text_line(line, &Selection::new(), None, &mut day.texts, &mut continues, diagnostics);
        match &line.content {
            Content::Day(name) => day.name = name.clone(),
            Content::Ready(moment) => {
                if let Some(first) = ready_at {
                    diagnostics.push(
                        Diagnostic::error("twice-named", line.said, "`ready` is said twice")
                            .also(first, "first here")
                            .help("put the other time behind its `make` line: `make 20 of \"…\", ready …`"),
                    );
                } else {
                    (day.ready, ready_at) = (Some(*moment), Some(line.said));
                }
            }
            Content::Make { .. } => day.orders.extend(order(project, line, diagnostics)),
            _ => {}
        }
    }
    for order in &mut day.orders {
        order.ready = order.ready.or(day.ready);
    }
    // A `make` line that could not be read or followed was reported.
    let says_none = !tree.has_strays() && !tree.lines.iter().any(|line| matches!(line.content, Content::Make { .. }));
    if says_none {
        diagnostics.push(
            Diagnostic::error("never-used", day.name.span, "nothing is made on this day")
                .help("add a line such as `make 48 of \"buns.miche\"`"),
        );
    }
    Some(day)
}

/// What a `make` line orders; `None` where that was reported.
fn order(project: &Project, line: &Line, diagnostics: &mut Vec<Diagnostic>) -> Option<DayOrder> {
    let Content::Make { quantity, path, clauses } = &line.content else { return None };
    let wanted = match evaluate(quantity, None, diagnostics)?.value {
        Value::Count(count) if count.value().is_whole() && count > Count::ZERO => Wanted::Pieces(count),
        Value::Mass(mass) if mass > Mass::ZERO => Wanted::Mass(mass),
        _ => {
            diagnostics.push(
                Diagnostic::error("impossible-number", quantity.span, "that many cannot be made")
                    .help("write a whole number of pieces, or a weight"),
            );
            return None;
        }
    };
    let target = project.target(path.span)?;
    let tree = &project.file(target)?.tree;
    if tree.kind != FileKind::Recipe {
        diagnostics.push(
            Diagnostic::error("missing-use", path.span, "this file is no recipe, so nothing can be made of it")
                .help("name a file that begins with `recipe`"),
        );
        return None;
    }
    let choices = choices_of(tree);
    let mut selection = Selection::new();
    let mut ready = None;
    for clause in clauses {
        match &clause.value {
            MakeClause::Choose(first, second) => {
                choose(&choices, first, second.as_ref(), &mut selection, diagnostics);
            }
            MakeClause::Ready(moment) => ready = Some(*moment),
            MakeClause::Broken => {}
        }
    }
    let selection = normal_selection(&choices, &selection);
    Some(DayOrder { recipe: target, wanted, selection, ready, span: line.said })
}

fn day_surroundings(project: &Project, source: SourceId) -> Option<Surroundings> {
    project.file(source)?;
    let mut larder = Larder::new();
    let mut kitchen = None;
    for target in project.used(source) {
        bring_pantry(project, target, &mut larder, &mut kitchen);
    }
    let kitchen = kitchen.unwrap_or_else(builtin::home_kitchen);
    Some(Surroundings { kitchen: Arc::new(kitchen), larder: Arc::new(larder), used: Vec::new() })
}

/// `choose hand` or `choose mixing = hand`.
fn choose(
    choices: &[Choice],
    first: &Name,
    second: Option<&Name>,
    selection: &mut Selection,
    diagnostics: &mut Vec<Diagnostic>,
) {
    let (of, option) = second.map_or((None, first), |second| (Some(first), second));
    let mut fitting = choices.iter().filter(|choice| of.is_none_or(|name| choice.name.same(name)));
    if let Some(choice) = fitting.find(|choice| choice.options.iter().any(|known| known.same(option))) {
        selection.take(&choice.name.key, &option.key);
        return;
    }
    let problem = Diagnostic::error("unknown-option", option.span, format!("the recipe has no option `{option}`"));
    let known: Vec<&str> =
        choices.iter().flat_map(|choice| &choice.options).map(|option| option.key.as_str()).collect();
    diagnostics.push(match nearest(option.key.as_str(), known.iter().copied()) {
        Some(near) => {
            problem.help(format!("did you mean `{near}`?")).suggest(format!("write `{near}`"), option.span, near)
        }
        None if known.is_empty() => problem.help("it offers no choice; leave the clause out"),
        None => problem.help(format!("its options are: {}", known.join(", "))),
    });
}
