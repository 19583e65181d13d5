//! What a day says there is already, and what it names of a recipe: its parts and the sorts of its pieces.

use super::super::reading::Reading;
use super::{Day, Wanted, choose, recipe_at};
use crate::language::evaluate::evaluate;
use crate::language::parse::nearest;
use crate::language::syntax::{Content, Name, Quantity, StoreClause, Tree};
use crate::measure::quantity::{Count, Duration, Mass};
use crate::measure::show;
use crate::measure::value::Value;
use crate::model::project::Project;
use crate::model::recipe::Selection;
use crate::solve::resolve::{choices_of, normal_selection};
use crate::text::diagnostic::Diagnostic;
use crate::text::source::{SourceId, Span, Spanned};
use jiff::civil::Date;

/// One `store` line.
#[derive(Debug, Clone)]
pub struct DayStore {
    /// The recipe's text.
    pub recipe: SourceId,
    /// The part; `None` for what the recipe makes.
    pub part: Option<Name>,
    /// How much there is: pieces or a weight.
    pub amount: Wanted,
    /// The recipe's choices.
    pub selection: Selection,
    /// When it was made.
    pub made: Option<Date>,
    /// How long it keeps, if its part or its label says so.
    pub keeps: Option<Duration>,
    /// The line.
    pub span: Span,
}

impl DayStore {
    /// Whether it keeps no longer on a day: whole days are counted, so that what keeps 36 hours is used on the day after it was
    /// made and no later.
    pub fn is_past(&self, on: Date) -> bool {
        let (Some(made), Some(keeps)) = (self.made, self.keeps) else { return false };
        let days = made.duration_until(on).as_hours() / 24;
        keeps.whole_days().is_some_and(|keeps| days > keeps)
    }
}

/// Reads a `store` line; `None` when something of it was reported.
pub(super) fn read(
    (project, span): (&Project, Span),
    (quantity, part, path, clauses): (&Quantity, Option<&Name>, &Spanned<String>, &[Spanned<StoreClause>]),
    reading: &mut Reading,
) -> Option<DayStore> {
    let amount = match reading.said(quantity)?.value {
        Value::Count(count) if count.value().is_whole() && count > Count::ZERO => Wanted::Pieces(count),
        Value::Mass(mass) if mass > Mass::ZERO => Wanted::Mass(mass),
        _ => {
            reading.report(
                Diagnostic::error("impossible-number", quantity.span, "there cannot be so much of it")
                    .help("write a whole number of pieces, or a weight"),
            );
            return None;
        }
    };
    let file = recipe_at(project, path, reading)?;
    if !has_part(&file.tree, part, reading) {
        return None;
    }
    if let (None, [_, _, ..]) = (part, sorted_parts(&file.tree).as_slice()) {
        let names: Vec<&str> = sorted_parts(&file.tree).iter().map(|name| &*name.text).collect();
        let message = format!("the recipe makes {}: which of them there is has to be said", show::list(&names));
        let first = names.first().copied().unwrap_or_default();
        let help = format!("name it, on a line of its own: `store 12 of {first} of \"{}\"`", path.value);
        reading.report(Diagnostic::error("unknown-name", span, message).help(help));
        return None;
    }
    let choices = choices_of(&file.tree);
    let mut selection = Selection::new();
    let mut made: Option<Spanned<Date>> = None;
    for clause in clauses {
        match &clause.value {
            StoreClause::Choose(first, second) => {
                choose(&choices, first, second.as_ref(), &mut selection, reading);
            }
            StoreClause::Made(date) => {
                if let Some(first) = made {
                    reading.report(
                        Diagnostic::error("twice-named", date.span, "when it was made is said twice")
                            .also(first.span, "first here")
                            .help("keep one; what was made on two days stands on two lines"),
                    );
                }
                made = made.or(Some(*date));
            }
            StoreClause::Broken => {}
        }
    }
    let selection = normal_selection(&choices, &selection);
    let keeps = keeps_of(&file.tree, &selection, part);
    let (recipe, part, made) = (file.tree.source, part.cloned(), made.map(|made| made.value));
    Some(DayStore { recipe, part, amount, selection, made, keeps, span })
}

/// The name of the part that each line of a recipe stands in; `None` before the first `part`.
fn by_part(tree: &Tree) -> impl Iterator<Item = (Option<&Name>, &crate::language::syntax::Line)> {
    let mut part: Option<&Name> = None;
    tree.lines.iter().map(move |line| {
        if let Content::Part { name, .. } = &line.content {
            part = Some(name);
        }
        (part, line)
    })
}

/// How long a part keeps, or the last part when none is named; what is sold keeps as long as its label says.
fn keeps_of(tree: &Tree, selection: &Selection, part: Option<&Name>) -> Option<Duration> {
    let last = by_part(tree).filter_map(|(part, _)| part).last();
    let wanted = part.or(last);
    let lines = by_part(tree).filter(|(of, line)| {
        let is_it = match (wanted, of) {
            (Some(wanted), Some(of)) => of.same(wanted),
            (Some(wanted), None) => implicit(tree).is_some_and(|name| name.same(wanted)) && last.is_none(),
            (None, _) => true,
        };
        is_it && selection.holds(&line.only)
    });
    let keeps = lines.filter_map(|(_, line)| match &line.content {
        Content::Keeps { time, .. } => evaluate(time, None, &mut Vec::new())?.times(),
        _ => None,
    });
    let is_sold = part.is_none_or(|part| last.is_none_or(|last| last.same(part)));
    let on_label =
        tree.lines.iter().filter(|line| is_sold && selection.holds(&line.only)).filter_map(|line| {
            match &line.content {
                Content::GoodFor { time, .. } => evaluate(time, None, &mut Vec::new())?.times(),
                _ => None,
            }
        });
    keeps.chain(on_label).map(|(_, longest)| longest).next()
}

/// The name of the one part of a recipe without `part` lines.
fn implicit(tree: &Tree) -> Option<&Name> {
    tree.lines.iter().find_map(|line| match &line.content {
        Content::Recipe(name) => Some(name),
        _ => None,
    })
}

/// The parts that are made of one sort of a dough each, of a recipe whose last part is one of them: one that takes all sorts is what the
/// recipe makes.
fn sorted_parts(tree: &Tree) -> Vec<&Name> {
    let is_by_sort = |line: &crate::language::syntax::Line| matches!(line.content, Content::PerPiece(Some(_)));
    let mut parts: Vec<&Name> =
        by_part(tree).filter(|(_, line)| is_by_sort(line)).filter_map(|(part, _)| part).collect();
    parts.dedup_by(|one, other| one.same(other));
    let last = by_part(tree).filter_map(|(part, _)| part).last();
    let ends_by_sort = last.is_some_and(|last| parts.iter().any(|part| part.same(last)));
    if ends_by_sort { parts } else { Vec::new() }
}

/// Whether a recipe has a part of that name; if not, it is reported.
pub(super) fn has_part(tree: &Tree, part: Option<&Name>, reading: &mut Reading) -> bool {
    let Some(wanted) = part else { return true };
    let named = tree.lines.iter().filter_map(|line| match &line.content {
        Content::Part { name, .. } => Some(name),
        _ => None,
    });
    let mut names: Vec<&Name> = named.collect();
    if names.is_empty() {
        names.extend(implicit(tree));
    }
    if names.iter().any(|name| name.same(wanted)) {
        return true;
    }
    reading.report(not_there("part", wanted, &names));
    false
}

/// Whether a recipe has all sorts that are asked for; if not, it is reported.
pub(super) fn has_sorts(tree: &Tree, wanted: &Wanted, reading: &mut Reading) -> bool {
    let Wanted::Sorts(sorts) = wanted else { return true };
    let names: Vec<&Name> = tree
        .lines
        .iter()
        .flat_map(|line| match &line.content {
            Content::Divide { sizes, .. } => sizes.iter().filter_map(|size| size.sort.as_ref()).collect(),
            _ => Vec::new(),
        })
        .collect();
    let unknown: Vec<&Name> =
        sorts.iter().map(|(name, _)| name).filter(|name| !names.iter().any(|known| known.same(name))).collect();
    for name in &unknown {
        reading.report(if names.is_empty() {
            let message = format!("`{name}` is no unit, and the recipe is not divided into sorts");
            let problem = Diagnostic::error("unknown-unit", name.span, message);
            match crate::measure::unit::Unit::meant_by(&name.text) {
                Some(unit) => {
                    problem.help(format!("did you mean `{unit}`?")).mend(format!("write `{unit}`"), name.span, unit)
                }
                None => problem.help("write a number of pieces, `make 40 of`, or a weight, `make 4 kg of`"),
            }
        } else {
            not_there("sort", name, &names)
        });
    }
    unknown.is_empty()
}

fn not_there(what: &str, name: &Name, known: &[&Name]) -> Diagnostic {
    let problem = Diagnostic::error("unknown-name", name.span, format!("the recipe has no {what} `{name}`"));
    match nearest(name.key.as_str(), known.iter().map(|name| name.key.as_str())) {
        Some(near) => problem.meant(name.span, near),
        None => {
            let names: Vec<&str> = known.iter().map(|name| &*name.text).collect();
            problem.help(format!("it has {}", show::list(&names)))
        }
    }
}

/// What is in the store and cannot be used on the day.
pub(super) fn look_at(day: &Day, reading: &mut Reading) {
    let times = day.orders.iter().filter_map(|order| order.ready).map(|moment| moment.when.date());
    let (Some(first), Some(last)) = (times.clone().min(), times.max()) else { return };
    for there in &day.store {
        let Some(made) = there.made else { continue };
        if there.is_past(first) {
            let keeps = there.keeps.map(|keeps| show::duration(keeps).to_string()).unwrap_or_default();
            let message =
                format!("this was made on {made} and keeps {keeps}: by {first} it is past that, and is not used");
            reading.report(
                Diagnostic::warning("past-keeps", there.span, message)
                    .help("take the line out and throw it away, or correct the day on which it was made"),
            );
        } else if made > last {
            let message = format!("this is made on {made}, after {last}, when everything is ready");
            reading.report(
                Diagnostic::error("past-keeps", there.span, message).help("correct the day on which it was made"),
            );
        }
    }
}
