//! A day: what is to be made, from which recipes, for when.

pub mod store;

use super::reading::Reading;
use super::texts::Texts;
use super::{choices_of, normal_selection};
use crate::language::parse::nearest;
use crate::language::syntax::{Content, FileKind, MakeClause, Moment, Name, SaleField, WantedAmount};
use crate::measure::quantity::{Count, Mass};
use crate::measure::value::Value;
use crate::model::kitchen::Kitchen;
use crate::model::project::{File, Project};
use crate::model::recipe::{Choice, Selection, Text};
use crate::model::sale::unknown_traces;
use crate::text::diagnostic::Diagnostic;
use crate::text::source::{SourceId, Span, Spanned};
use std::sync::Arc;

/// How much of a recipe is wanted.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Wanted {
    /// So many pieces.
    Pieces(Count),
    /// So much.
    Mass(Mass),
    /// So many pieces of each sort.
    Sorts(Vec<(Name, Count)>),
}

/// One `make` line.
#[derive(Debug, Clone)]
pub struct DayOrder {
    /// The recipe's text.
    pub recipe: SourceId,
    /// The part of it that is made by itself, if it is not the whole recipe.
    pub part: Option<Name>,
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
    /// For when everything is wanted that does not say otherwise.
    pub ready: Option<Moment>,
    /// What is to be made.
    pub orders: Vec<DayOrder>,
    /// What there is already of what is made.
    pub store: Vec<store::DayStore>,
    /// The lists of what there is to make things of: the paths that lead to them.
    pub stocks: Vec<Span>,
    /// The one kitchen.
    pub kitchen: Arc<Kitchen>,
    /// Notes and cautions.
    pub texts: Vec<Text>,
}

/// Resolves a day. `None` when the file is none.
pub fn day(project: &Project, source: SourceId, diagnostics: &mut Vec<Diagnostic>) -> Option<Day> {
    Reading::on(diagnostics, |reading| read(project, source, reading))
}

fn read(project: &Project, source: SourceId, reading: &mut Reading) -> Option<Day> {
    let tree = &project.file(source)?.tree;
    if tree.kind != FileKind::Day {
        return None;
    }
    let kitchen = project.pantry(&project.used(source).collect::<Vec<_>>()).kitchen;
    let mut day = Day {
        name: Name::new("untitled", Span::new(source, 0, 0)),
        ready: None,
        orders: Vec::new(),
        store: Vec::new(),
        stocks: Vec::new(),
        kitchen,
        texts: Vec::new(),
    };
    let mut texts = Texts::default();
    let mut said = Said::default();
    for line in &tree.lines {
        texts.take(line, &Selection::new(), reading);
        match &line.content {
            Content::Day(name) => day.name = name.clone(),
            Content::Ready(moment) => said.ready(&mut day, *moment, line.said, reading),
            Content::Make { wanted, part, path, clauses } => {
                day.orders.extend(order(project, line.said, (wanted, part.as_ref(), path, clauses), reading));
            }
            Content::Store { quantity, part, path, clauses } => {
                let there = store::read((project, line.said), (quantity, part.as_ref(), path, clauses), reading);
                day.store.extend(there);
            }
            Content::Stock(path) => day.stocks.push(path.span),
            Content::Sale(field, text) => said.sale(*field, text, line.said, reading),
            _ => {}
        }
    }
    day.texts = texts.all();
    for order in &mut day.orders {
        order.ready = order.ready.or(day.ready);
    }
    store::look_at(&day, reading);
    // A `make` line that could not be read or followed was reported.
    let says_none = !tree.has_strays() && !tree.lines.iter().any(|line| matches!(line.content, Content::Make { .. }));
    if says_none {
        reading.report(
            Diagnostic::error("never-used", day.name.span, "nothing is made on this day")
                .help("add a line such as `make 48 of \"buns.miche\"`"),
        );
    }
    Some(day)
}

/// What a day says once at most, and where it said it.
#[derive(Default)]
struct Said {
    ready: Option<Span>,
    sale: Vec<(SaleField, Span)>,
}

impl Said {
    fn ready(&mut self, day: &mut Day, moment: Moment, span: Span, reading: &mut Reading) {
        match self.ready {
            Some(first) => reading.report(
                Diagnostic::error("twice-named", span, "`ready` is said twice")
                    .also(first, "first here")
                    .help("put the other time behind its `make` line: `make 20 of \"…\", ready …`"),
            ),
            None => (day.ready, self.ready) = (Some(moment), Some(span)),
        }
    }

    fn sale(&mut self, field: SaleField, text: &str, span: Span, reading: &mut Reading) {
        if let Some((_, first)) = self.sale.iter().find(|(known, _)| *known == field) {
            reading.report(
                Diagnostic::error("twice-named", span, format!("`{}` is said twice", field.word()))
                    .also(*first, "first here")
                    .help("keep one: it stands on the labels of all that the day makes"),
            );
            return;
        }
        self.sale.push((field, span));
        if field == SaleField::MayContain {
            unknown_traces(text, span).into_iter().for_each(|problem| reading.report(problem));
        }
    }
}

/// What a `make` line says.
type MakeLine<'l> = (&'l WantedAmount, Option<&'l Name>, &'l Spanned<String>, &'l [Spanned<MakeClause>]);

/// What a `make` line asks for; `None` when what stands in its way was reported.
fn order(
    project: &Project,
    span: Span,
    (wanted, part, path, clauses): MakeLine<'_>,
    reading: &mut Reading,
) -> Option<DayOrder> {
    let wanted = wanted_of(wanted, reading);
    let (wanted, file) = wanted.zip(recipe_at(project, path, reading))?;
    if !store::has_part(&file.tree, part, reading) || !store::has_sorts(&file.tree, &wanted, reading) {
        return None;
    }
    let choices = choices_of(&file.tree);
    let mut selection = Selection::new();
    let mut ready = None;
    for clause in clauses {
        match &clause.value {
            MakeClause::Choose(first, second) => choose(&choices, first, second.as_ref(), &mut selection, reading),
            MakeClause::Ready(moment) => ready = Some(*moment),
            MakeClause::Broken => {}
        }
    }
    let selection = normal_selection(&choices, &selection);
    Some(DayOrder { recipe: file.tree.source, part: part.cloned(), wanted, selection, ready, span })
}

fn no_pieces(span: Span) -> Diagnostic {
    Diagnostic::error("impossible-number", span, "that many cannot be made")
        .help("write a whole number of pieces, or a weight")
}

/// How much a line asks for; `None` when it was reported.
fn wanted_of(wanted: &WantedAmount, reading: &mut Reading) -> Option<Wanted> {
    match wanted {
        WantedAmount::Quantity(quantity) => match reading.said(quantity).map(|said| said.value) {
            Some(Value::Count(count)) if count.value().is_whole() && count > Count::ZERO => Some(Wanted::Pieces(count)),
            Some(Value::Mass(mass)) if mass > Mass::ZERO => Some(Wanted::Mass(mass)),
            Some(_) => {
                reading.report(no_pieces(quantity.span));
                None
            }
            None => None,
        },
        WantedAmount::Sorts(sorts) => {
            let mut all: Vec<(Name, Count)> = Vec::new();
            for (count, name) in sorts {
                if !count.value.is_whole() || !count.value.is_positive() {
                    reading.report(no_pieces(count.span));
                    return None;
                }
                if let Some((first, _)) = all.iter().find(|(known, _)| known.same(name)) {
                    reading.report(
                        Diagnostic::error("twice-named", name.span, format!("the sort `{name}` stands here twice"))
                            .also(first.span, "first here")
                            .help("add them up"),
                    );
                    return None;
                }
                all.push((name.clone(), Count::new(count.value)));
            }
            Some(Wanted::Sorts(all))
        }
    }
}

/// The recipe that a path leads to; `None` when it leads to none, which was reported.
pub(super) fn recipe_at<'p>(project: &'p Project, path: &Spanned<String>, reading: &mut Reading) -> Option<&'p File> {
    let file = project.file(project.target(path.span)?)?;
    if file.tree.kind != FileKind::Recipe {
        reading.report(
            Diagnostic::error("missing-use", path.span, "this file is no recipe, so nothing can be made of it")
                .help("name a file that begins with `recipe`"),
        );
        return None;
    }
    Some(file)
}

/// `choose hand` or `choose mixing = hand`.
pub(super) fn choose(
    choices: &[Choice],
    first: &Name,
    second: Option<&Name>,
    selection: &mut Selection,
    reading: &mut Reading,
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
    reading.report(match nearest(option.key.as_str(), known.iter().copied()) {
        Some(near) => problem.meant(option.span, near),
        None if known.is_empty() => problem.help("it offers no choice; leave the clause out"),
        None => problem.help(format!("its options are: {}", known.join(", "))),
    });
}
