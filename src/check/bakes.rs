//! What is wrong with a log of bakes: what cannot be by itself, and what its recipe does not have.

mod measured;
mod sequence;

use super::work_out;
use crate::language::bakes::{Bake, Log, Size, Took};
use crate::language::parse::MOST_IN_LINE;
use crate::language::syntax::{Key, Name};
use crate::make::order::Order;
use crate::make::size::{self, AskedBy};
use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::{Count, Mass};
use crate::measure::show;
use crate::model::baked::{self, Found, Names};
use crate::model::project::Project;
use crate::model::recipe::{Choice, Recipe, Selection};
use crate::solve::formula::Formula;
use crate::solve::resolve::{choices_of, normal_selection};
use crate::text::diagnostic::Diagnostic;
use crate::text::source::{SourceId, Span};
use jiff::civil::Date;
use sequence::Sequence;
use std::collections::HashMap;
use std::sync::Arc;

/// A step that seems to end before it began lasted through midnight; longer than this, in minutes, only where it is meant to.
const LONGEST: i64 = 12 * 60;

/// What is wrong with a log beside its recipe as that is now.
pub(super) fn check(project: &Project, source: SourceId, diagnostics: &mut Vec<Diagnostic>) {
    let Some(file) = project.file(source) else { return };
    let text = project.sources.get(source).map_or("", |source| &source.text);
    let log = Log::of(&file.tree, text);
    alone(&log, diagnostics);
    let Some(recipe) = log.of.as_ref().and_then(|path| project.target(path.span)) else { return };
    if !project.file(recipe).is_some_and(|file| file.tree.kind == crate::language::syntax::FileKind::Recipe) {
        if let Some(path) = &log.of {
            diagnostics.push(
                Diagnostic::error("missing-use", path.span, format!("`{}` is no recipe", path.value))
                    .help("a log is of the bakes of one recipe: name that"),
            );
        }
        return;
    }
    let mut version = Version::of(project, recipe);
    for bake in &log.bakes {
        version.check(bake, diagnostics);
    }
}

/// What cannot be, whatever the recipe.
fn alone(log: &Log, diagnostics: &mut Vec<Diagnostic>) {
    let mut seen: HashMap<(Date, Option<jiff::civil::Time>), Span> = HashMap::new();
    for bake in &log.bakes {
        let moment = (bake.date.value, bake.time);
        match seen.get(&moment) {
            Some(before) => {
                let message = format!("two bakes of {}", bake.said(" "));
                let problem = match bake.time {
                    Some(_) => Diagnostic::error("twice-named", bake.date.span, message),
                    None => Diagnostic::warning("twice-named", bake.date.span, message),
                };
                let help = "one of them began at another time: write it behind the date, `bake 2027-03-02 05:30`";
                diagnostics.push(problem.also(*before, "the other").help(help));
            }
            None => {
                seen.insert(moment, bake.date.span);
            }
        }
        let mut marked: HashMap<&Key, Span> = HashMap::new();
        for judged in &bake.judged {
            // Both would count, as if there had been a bake more.
            if let Some(before) = marked.insert(&judged.name.key, judged.span) {
                diagnostics.push(
                    Diagnostic::error(
                        "twice-named",
                        judged.span,
                        format!("`{}` is marked twice in this bake", judged.name),
                    )
                    .also(before, "the other")
                    .help("take one of the two out, or give what is marked another name"),
                );
            }
            let highest = show::number(judged.of);
            if !judged.of.is_positive() {
                diagnostics.push(
                    Diagnostic::error("impossible-number", judged.span, format!("nothing is marked out of {highest}"))
                        .help("write the mark and the highest there is: `4 of 5`"),
                );
            } else if judged.mark > judged.of || judged.mark.is_negative() {
                let mark = show::number(judged.mark);
                let message = if judged.mark.is_negative() {
                    format!("a mark of {mark} is below nothing")
                } else {
                    format!("a mark of {mark} is above the highest, {highest}")
                };
                let swapped = format!("{highest} of {mark}");
                diagnostics.push(
                    Diagnostic::error("impossible-number", judged.span, message)
                        .help(format!("the highest mark stands last: `4 of 5`; did you mean `{swapped}`?"))
                        .suggest(format!("write `{swapped}`"), judged.span, swapped),
                );
            }
        }
    }
}

/// The days after today on which a log says that something was baked; a bake is written down when it is over.
pub fn in_the_future(log: &Log, today: Date) -> Vec<Diagnostic> {
    let late = log.bakes.iter().filter(|bake| bake.date.value > today);
    late.map(|bake| {
        Diagnostic::warning("log-out-of-time", bake.date.span, format!("{} is still to come", bake.date.value))
            .help(format!("today is {today}: write the day on which it was baked"))
    })
    .collect()
}

/// The options that a bake was made with, of what its recipe lets choose; what it does not say is at its default.
pub fn chosen(choices: &[Choice], bake: &Bake) -> Selection {
    normal_selection(choices, &baked::selection(choices, bake).0)
}

/// A version of a recipe, worked out for each way to choose that a bake followed.
pub struct Version<'p> {
    project: &'p Project,
    recipe: SourceId,
    choices: Vec<Choice>,
    worked: HashMap<Selection, Option<(Recipe, Formula, Names)>>,
}

impl<'p> Version<'p> {
    /// Nothing of it is worked out yet.
    pub fn of(project: &'p Project, recipe: SourceId) -> Version<'p> {
        let choices = project.file(recipe).map_or_else(Vec::new, |file| choices_of(&file.tree));
        Version { project, recipe, choices, worked: HashMap::new() }
    }

    /// What is wrong with a bake of this version.
    pub fn check(&mut self, bake: &Bake, diagnostics: &mut Vec<Diagnostic>) {
        let (selection, unknown) = baked::selection(&self.choices, bake);
        for (name, found) in &unknown {
            diagnostics.extend(unknown_name("unknown-option", name, "the recipe has no option", found));
        }
        let selection = normal_selection(&self.choices, &selection);
        let (project, recipe) = (self.project, self.recipe);
        let worked = self.worked.entry(selection).or_insert_with_key(|selection| {
            let (recipe, formula) = work_out(project, recipe, selection, &mut Vec::new())?;
            Some((recipe, formula, Names::default()))
        });
        let Some((recipe, formula, names)) = worked else { return };
        against(bake, recipe, formula, names, diagnostics);
    }
}

/// What a bake names that its recipe does not have, and what cannot be beside its amounts.
fn against(bake: &Bake, recipe: &Recipe, formula: &Formula, names: &mut Names, diagnostics: &mut Vec<Diagnostic>) {
    let sized = match sized(bake, recipe, formula) {
        Ok(sized) => Some(sized),
        Err(impossible) => {
            let problem = Diagnostic::error("impossible-number", bake.size.span, impossible.why);
            let help = impossible.help.map(|instead| instead.shown(AskedBy::Log));
            let help = help.unwrap_or_else(|| "write how much was made".to_owned());
            diagnostics.push(problem.help(help));
            None
        }
    };
    let scaled = sized.as_ref().and_then(|sized| sized.formula(formula).ok());
    for went_in in bake.went_in.iter().take(MOST_IN_LINE * 50) {
        let found = names.line(recipe, &went_in.name);
        diagnostics.extend(unknown_name("unknown-name", &went_in.name, "the recipe takes no", found));
        if let Some((part, line)) = found.one() {
            diagnostics
                .extend(scaled.as_ref().and_then(|scaled| measured::went_in(recipe, scaled, (went_in, (part, line)))));
        }
    }
    let mut seen: HashMap<(usize, usize, Option<i64>), Span> = HashMap::new();
    diagnostics.extend(measured::day(bake));
    let mut sequence = Sequence::default();
    for ran in &bake.steps {
        let found = names.step(recipe, ran);
        // A judgement that nobody has given yet is no step.
        let is_blank = ran.time.is_none() && ran.left_at.is_none() && ran.at.is_none() && ran.came_to.is_none();
        if is_blank && matches!(found, Found::Nothing(None, _)) {
            continue;
        }
        diagnostics.extend(unknown_name("unknown-step", &ran.step, "the recipe has no step", found));
        let Some(at) = found.one() else { continue };
        let key = (at.part.0, at.step, ran.load.map(|load| load.value));
        if is_blank {
            continue;
        }
        sequence.note(at, ran);
        if let Some(before) = seen.insert(key, ran.step.span) {
            diagnostics.push(
                Diagnostic::error("twice-named", ran.span(), format!("`{}` is in this bake twice", ran.step))
                    .also(before, "here")
                    .help("say which load each of the lines is of: `load 2`"),
            );
        }
        let Some((part, step)) = recipe.part(at.part).and_then(|part| Some((part, part.steps.get(at.step)?))) else {
            continue;
        };
        if let Some(time) = ran.time
            && let Took::Between(begin, end) = time.value
            && end < begin
        {
            let longest = step.up_to.unwrap_or(step.time.1).in_minutes().ok().and_then(|most| most.ceil().to_whole());
            let most = longest.map_or(LONGEST, |most| most.saturating_mul(2).max(LONGEST));
            let lasted = time.value.minutes().and_then(Number::to_whole).unwrap_or(0);
            if lasted > most {
                let (begin, end) = (begin.strftime("%H:%M").to_string(), end.strftime("%H:%M").to_string());
                let turned = format!("{end}-{begin}");
                let message = format!("`{}` ends at {end}, before it began at {begin}", ran.step);
                diagnostics.push(
                    Diagnostic::error("log-out-of-time", time.span, message)
                        .help(format!("did you mean `{turned}`?"))
                        .suggest(format!("write `{turned}`"), time.span, turned),
                );
            }
        }
        if let (Some(sized), Some(scaled)) = (&sized, &scaled) {
            let goes_in = |formula: &Formula| formula.part(at.part).and_then(|solved| solved.goes_in);
            let is_not_made = sized.of_sorts.is_some()
                && goes_in(scaled) == Some(Mass::ZERO)
                && goes_in(formula).is_some_and(|mass| mass > Mass::ZERO);
            let place = measured::Place { recipe, scaled, at, part, step, factor: sized.factor, is_not_made };
            measured::check(bake, ran, &place, names, diagnostics);
        }
    }
    diagnostics.extend(sequence.problems(recipe));
}

/// How large a bake was.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Sized {
    /// How many times the recipe as written: of sorts, by what is mixed.
    pub factor: Number,
    /// The formula at that size, where it is not that many times the one that is written: other shares of its sorts.
    pub of_sorts: Option<Arc<Formula>>,
}

impl Sized {
    /// So many times the recipe as written.
    pub fn times(factor: Number) -> Sized {
        Sized { factor, of_sorts: None }
    }

    /// The formula at that size.
    ///
    /// # Errors
    /// When an amount leaves the range of exact numbers.
    pub fn formula(&self, written: &Formula) -> Result<Arc<Formula>, Overflow> {
        match &self.of_sorts {
            Some(formula) => Ok(Arc::clone(formula)),
            None => written.times(self.factor).map(Arc::new),
        }
    }
}

/// How large a bake was beside the recipe as written.
///
/// # Errors
/// When it cannot be made in that size.
pub fn sized(bake: &Bake, recipe: &Recipe, formula: &Formula) -> Result<Sized, size::Impossible> {
    let wanted = match &bake.size.value {
        Size::AsWritten => return Ok(Sized::times(Number::ONE)),
        Size::Pieces(count) => size::Size::Pieces(*count),
        Size::Mass(mass) => size::Size::Total(*mass),
        Size::Times(times) => size::Size::Times(*times),
        Size::Sorts(sorts) => {
            let sorts: Vec<(Name, Count)> =
                sorts.iter().map(|(sort, count)| (sort.clone(), Count::new(*count))).collect();
            let order = Order::of_sorts(recipe.clone(), formula, &sorts)?;
            return Ok(Sized { factor: order.factor, of_sorts: Some(Arc::new(order.formula)) });
        }
    };
    size::factor(recipe, formula, &wanted).map(|(factor, _)| Sized::times(factor))
}

/// The problem of a name that is nothing, or several things.
fn unknown_name<T>(check: &'static str, name: &Name, what: &str, found: &Found<T>) -> Option<Diagnostic> {
    match found {
        Found::One(_) => None,
        Found::Several(names) => {
            let quoted: Vec<String> = names.iter().map(|name| format!("`{name}`")).collect();
            let message = format!("`{name}` can be {} things of this recipe", names.len());
            Some(Diagnostic::error(check, name.span, message).help(format!("write {}", quoted.join(" or "))))
        }
        Found::Nothing(near, known) => {
            let problem = Diagnostic::error(check, name.span, format!("{what} `{name}`"));
            Some(match near {
                Some(near) => problem.meant(name.span, near),
                None if known.is_empty() => problem.help("there is none in it"),
                None => {
                    let known: Vec<String> = known.iter().map(|name| format!("`{name}`")).collect();
                    problem.help(format!("known here: {}", known.join(", ")))
                }
            })
        }
    }
}
