//! What a recipe would say if it said what was measured: its text and its kitchen's with times, losses and friction as baked.

use super::claims::{LossOf, find, loss_of, mix_step};
use super::measurement::Kind;
use super::statistics::{FEWEST, reach};
use super::{Figure, Says, Told, fuller};
use crate::figures::compare::FileVersion;
use crate::language::mend::apply;
use crate::language::syntax::{Content, EquipmentClause, Key, Makes};
use crate::measure::apart::ROUNDED;
use crate::measure::number::Number;
use crate::measure::quantity::Mass;
use crate::measure::temperature::TemperatureDifference;
use crate::model::project::Project;
use crate::model::recipe::{Ingredient, LineAmount, Part, PartId, Recipe};
use crate::model::reference::StepRef;
use crate::model::step::Step;
use crate::solve::formula::Formula;
use crate::text::diagnostic::{Edit, Mend};
use crate::text::source::{Source, SourceId, Span};

/// One figure of a recipe as it was measured.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Taken {
    /// What is measured.
    pub kind: Kind,
    /// The part.
    pub part: String,
    /// The step.
    pub step: String,
    /// Where the recipe or its kitchen says it; an empty place where it says nothing yet.
    pub span: Span,
    /// What stands there if it says what was measured.
    pub text: String,
    /// The same for a plan: the time that nine in ten keep in place of the mean; a loss with more digits than anybody reads, so that pieces of 70 g
    /// that were weighed are promised as 70 g.
    pub planned: String,
    /// The same as it is told.
    pub told: String,
    /// What was measured, in words: `the last 6 bakes lost 13.9 ± 0.4 % in the oven`.
    pub measured: String,
    /// What the formula says, in words.
    pub formula: String,
    /// How both go together.
    pub says: Option<Says>,
    /// Where the plan's figure comes from, in words.
    pub from: String,
    /// Whether it is that of the sort that loses the most: those of another sort are not what its pieces lost.
    pub of_the_most: bool,
    /// What changes along with it: what goes in, where otherwise too little would come out for the parts that take it.
    pub also: Vec<Edit>,
    /// The same in words, behind what stands there.
    pub also_said: String,
    /// The equipment of a home and by how much mixing in it warms a dough, where the recipe names no kitchen: no file says it, and nothing
    /// is written anywhere.
    pub at_home: Option<(Key, TemperatureDifference)>,
}

/// What at least three bakes say of a recipe.
pub fn taken(told: &Told, file: &FileVersion) -> Vec<Taken> {
    let mut all: Vec<(Taken, Option<Number>)> = Vec::new();
    for figure in told.figures.iter().filter(|figure| figure.bakes >= FEWEST) {
        let Some((recipe, formula)) = file.worked(&figure.selection) else { continue };
        let place = Place { project: &file.project, recipe: &recipe, formula: &formula, figure };
        let Some(one) = place.taken() else { continue };
        let mean = figure.spread.mean;
        let is_same = |known: &Taken| match (&known.at_home, &one.at_home) {
            (Some((known, _)), Some((other, _))) => known == other,
            (None, None) => known.span == one.span,
            _ => false,
        };
        match all.iter_mut().find(|(known, _)| is_same(known)) {
            // Of sorts the head says one loss: the larger promises nobody more than there is.
            Some(known) if one.kind == Kind::Loss && known.0.kind == Kind::Loss => {
                if mean > known.1 {
                    *known = (one, mean);
                }
                known.0.of_the_most = true;
            }
            Some(_) => {}
            None => all.push((one, mean)),
        }
    }
    all.into_iter().map(|(one, _)| one).collect()
}

/// A figure and where it stands.
struct Place<'a> {
    project: &'a Project,
    recipe: &'a Recipe,
    formula: &'a Formula,
    figure: &'a Figure,
}

const TENTH: Number = Number::constant(1, 10);

/// A number to a tenth, as it is typed.
fn tenth(value: Number) -> String {
    value.decimal(1)
}

/// A loss to a millionth of a percent, rather too small than too large: what is left is rounded down afterwards.
fn millionth_below(value: Number) -> Option<String> {
    let millions = Number::whole(1_000_000);
    value.times(millions).ok()?.floor().over(millions).ok().map(|value| value.decimal(6))
}

/// A loss or a friction as a formula can say it. Scales err to both sides: what weighs a trifle more than what went in lost nothing.
fn or_nothing(measured: Number) -> Number {
    measured.max(Number::ZERO)
}

/// How far the interval reaches on each side.
fn half(figure: &Figure) -> Option<Number> {
    let (low, high) = figure.spread.interval?;
    high.minus(low).and_then(|width| width.over(Number::whole(2))).ok()
}

/// A range with its unit.
fn ranged((low, high): (Number, Number), unit: &str) -> String {
    match low == high {
        true => format!("{} {unit}", tenth(low)),
        false => format!("{}-{} {unit}", tenth(low), tenth(high)),
    }
}

/// The step of which a figure is, and what was measured of it.
struct Measured<'a> {
    id: PartId,
    part: &'a Part,
    at: usize,
    step: &'a Step,
    mean: Number,
    /// How far the interval reaches on each side.
    apart: String,
    /// Which bakes: `the last 6 bakes`.
    last: String,
}

/// What stands in the text if it says what was measured.
struct Change {
    span: Span,
    text: String,
    planned: String,
    told: String,
    /// What was measured, in words.
    measured: String,
    /// Where the plan's figure comes from.
    from: String,
    /// How much more goes in, in words and as changes of the text.
    fuller: Option<(String, Vec<Edit>)>,
    /// As [`Taken::at_home`].
    at_home: Option<(Key, TemperatureDifference)>,
}

impl Place<'_> {
    fn taken(&self) -> Option<Taken> {
        let figure = self.figure;
        let of = self.measured()?;
        let Change { span, text, planned, told, measured, from, fuller, at_home } = match figure.kind {
            Kind::Time => self.time(&of)?,
            Kind::Loss => self.lost(&of)?,
            Kind::Friction => self.rubbed(&of)?,
            Kind::LeftAt | Kind::All | Kind::Pieces | Kind::Each => return None,
        };
        let (also_said, also) = fuller.unwrap_or_default();
        Some(Taken {
            kind: figure.kind,
            part: figure.part.to_string(),
            step: figure.step.to_string(),
            span,
            text,
            planned,
            told,
            measured,
            formula: self.claimed(of.step),
            says: figure.says,
            from,
            of_the_most: false,
            also_said,
            also,
            at_home,
        })
    }

    fn measured(&self) -> Option<Measured<'_>> {
        let figure = self.figure;
        let (id, at) = find(self.recipe, &figure.part, &figure.step)?;
        let part = self.recipe.part(id)?;
        let step = part.steps.get(at)?;
        let (mean, apart) = (figure.spread.mean?, reach(half(figure)?));
        Some(Measured { id, part, at, step, mean, apart, last: format!("the last {} bakes", figure.bakes) })
    }

    /// What the formula says, in words.
    fn claimed(&self, step: &Step) -> String {
        let figure = self.figure;
        let by_the_piece = figure.kind == Kind::Time && step.loads.is_by_piece();
        let seconds = |minutes: Number| minutes.times(Number::whole(60)).unwrap_or(minutes);
        let claim = figure.formula.map(|(low, high)| match by_the_piece {
            true => ranged((seconds(low), seconds(high)), "s"),
            false => ranged((low, high), figure.kind.unit()),
        });
        let who = if figure.kind == Kind::Friction { "the kitchen" } else { "the formula" };
        format!("{who} says {}", claim.unwrap_or_else(|| "nothing".to_owned()))
    }

    /// How many figures a mean is of, and whether it is less than nothing.
    fn mean_of(&self, of: &Measured<'_>, what: &str, unit: &str) -> String {
        let less = match of.mean.is_negative() {
            true => format!(": {} {unit}, less than nothing", tenth(of.mean)),
            false => String::new(),
        };
        format!("the mean of {} {what}{less}", self.figure.spread.count)
    }

    /// How long a step took.
    fn time(&self, of: &Measured<'_>) -> Option<Change> {
        let figure = self.figure;
        let nine = figure.spread.nine_in_ten?;
        let each = of.step.loads.is_by_piece();
        let measured = match each {
            true => seconds_said(&figure.step, &of.last, figure)?,
            false => format!("`{}` took {} {} ± {} min", figure.step, of.last, tenth(of.mean), of.apart),
        };
        Some(Change {
            span: of.step.time_span,
            text: typed(of.mean, each)?,
            planned: typed(nine, each)?,
            told: typed(nine, each)?,
            measured,
            from: format!("what nine in ten of {} times kept", figure.spread.count),
            fuller: None,
            at_home: None,
        })
    }

    /// How much was lost, and what goes in or comes out along with it.
    fn lost(&self, of: &Measured<'_>) -> Option<Change> {
        let loss_of = loss_of(self.recipe, self.formula, StepRef { part: of.id, step: of.at });
        // Where all was lost, nothing was made.
        if loss_of == LossOf::Nobody || of.mean >= Number::constant(9995, 100) {
            return None;
        }
        let (in_oven, lost) = (loss_of == LossOf::Head, or_nothing(of.mean));
        let (span, text) = self.loss(of.id.0, in_oven, &format!("{} %", tenth(lost)))?;
        let (_, exact) = self.loss(of.id.0, in_oven, &format!("{} %", millionth_below(lost)?))?;
        let fuller = self.fuller(of.id, in_oven, lost);
        let yields = if fuller.is_some() { None } else { self.yields(of.id, in_oven, lost) };
        let (span, text, planned, told) = match &yields {
            Some((yields, words, is_far)) => {
                let (all, told) = self.both((*yields, words), (span, &text))?;
                let text = match is_far {
                    true => told.clone(),
                    false => self.both((*yields, &self.said(*yields)?), (span, &text))?.1,
                };
                (all, text, self.both((*yields, words), (span, &exact))?.1, told)
            }
            None => (span, text.clone(), exact, text),
        };
        let place = if in_oven { "in the oven".to_owned() } else { format!("up to `{}`", self.figure.step) };
        let measured = format!("{} lost {} ± {} % {place}", of.last, tenth(of.mean), of.apart);
        let from = self.mean_of(of, "weighings", "%");
        Some(Change { span, text, planned, told, measured, from, fuller, at_home: None })
    }

    /// By how much a mixer warmed the dough.
    fn rubbed(&self, of: &Measured<'_>) -> Option<Change> {
        let name = of.part.steps.get(mix_step(self.recipe, of.part)?)?.equipment.as_ref()?;
        let warms = or_nothing(of.mean);
        let said = format!("friction {} C", tenth(warms));
        let found = self.friction(&name.key, &said);
        // A home has the mixer, and no file describes it.
        let is_at_home =
            found.is_none() && self.recipe.kitchen.span.is_none() && self.recipe.kitchen.find(name).is_some();
        let at_home = || Some((name.key.clone(), TemperatureDifference::from_celsius(warms.rounded_to(TENTH).ok()?)));
        let ((span, text), at_home) = match found {
            Some(found) => (found, None),
            None if is_at_home => ((name.span, said), Some(at_home()?)),
            None => return None,
        };
        let measured = format!("{} show a friction of {} ± {} °C", of.last, tenth(of.mean), of.apart);
        let from = self.mean_of(of, "doughs", "°C");
        Some(Change { span, planned: text.clone(), told: text.clone(), text, measured, from, fuller: None, at_home })
    }

    /// How much more goes in, in words and as changes of the text, where less comes out than the other parts take.
    fn fuller(&self, id: PartId, in_oven: bool, lost: Number) -> Option<(String, Vec<Edit>)> {
        let part = self.recipe.part(id).filter(|part| !in_oven && part.foreign.is_none())?;
        let lost = lost.over(Number::whole(100)).ok()?;
        let times = fuller::times(self.recipe, self.formula, id, lost).ok()??;
        let source = part.divide.map(|divide| divide.span).or_else(|| part.makes.map(|makes| makes.span))?.source;
        let edits = fuller::edits(&self.project.file(source)?.tree, self.recipe, id, times).ok()?;
        let more = times.minus(Number::ONE).ok()?.times(Number::whole(100)).ok()?;
        let said = format!(
            "{} % more of all that goes into {}, so that what is taken of it comes out",
            tenth(more),
            part.name
        );
        (!edits.is_empty()).then_some((said, edits))
    }

    /// Where the text says a loss, and what stands there with another one.
    fn loss(&self, part: usize, in_oven: bool, text: &str) -> Option<(Span, String)> {
        let wanted = if in_oven {
            match &self.recipe.makes {
                Some(crate::model::recipe::HeadMakes::Pieces { span, .. }) => *span,
                _ => return None,
            }
        } else {
            let part = self.recipe.parts.get(part)?;
            part.divide.map(|divide| divide.span).or_else(|| part.makes.map(|makes| makes.span))?
        };
        let tree = &self.project.file(wanted.source)?.tree;
        let line = tree.line_at(wanted.start)?;
        let behind =
            |word: &str| (Span { start: line.said.end, end: line.said.end, ..line.said }, format!(", {word} {text}"));
        match &line.content {
            Content::Makes { bake_loss: Some(loss), .. } if in_oven => Some((loss.span, text.to_owned())),
            Content::Makes { .. } if in_oven => Some(behind("bake loss")),
            Content::Divide { loss: Some(loss), .. } | Content::Makes { loss: Some(loss), .. } => {
                Some((loss.span, text.to_owned()))
            }
            Content::Divide { .. } | Content::Makes { .. } => Some(behind("loss")),
            _ => None,
        }
    }

    /// What comes out with another loss, where what goes in is written as weights and the yield that is written would no longer add up
    /// with it: where it stands, what stands there then, and whether that is further off than a file may say. What is promised of what was
    /// weighed goes by what was weighed, also where a file may stay as it is.
    fn yields(&self, id: PartId, in_oven: bool, lost: Number) -> Option<(Span, String, bool)> {
        let (part, solved) = (self.recipe.part(id)?, self.formula.part(id)?);
        // A part of percentages is made as large as its yield wants.
        let is_weighed = |line: &Ingredient| match &line.amount {
            LineAmount::Said(said) => said.iter().any(|said| said.proportion().is_none()),
            _ => true,
        };
        if in_oven || !part.lines.iter().any(is_weighed) {
            return None;
        }
        let (out, stays) = (solved.needs?, solved.stays.filter(|stays| *stays > Mass::ZERO)?);
        let rest = Number::ONE.minus(lost.over(Number::whole(100)).ok()?).ok()?;
        let apart = out.ratio(stays).ok()?.minus(rest).ok()?.size();
        if apart <= Number::constant(1, 1000) {
            return None;
        }
        // As far as `yield-does-not-add-up` lets it be.
        let is_far = apart > ROUNDED;
        let now = stays.times(rest).ok()?;
        let wanted = part.divide.map(|divide| divide.span).or_else(|| part.makes.map(|makes| makes.span))?;
        let tree = &self.project.file(wanted.source)?.tree;
        match &tree.line_at(wanted.start)?.content {
            Content::Makes { makes: Makes::Mass(chain), .. } => {
                let (first, last) = (chain.first()?, chain.last()?);
                Some((first.span.to(last.span), format!("{} g", now.value().decimal(0)), is_far))
            }
            Content::Divide { sizes, .. } => {
                let [one] = sizes.as_slice() else { return None };
                let each = now.over(solved.pieces?.value()).ok()?;
                let (first, last) = (one.each.first()?, one.each.last()?);
                Some((first.span.to(last.span), format!("{} g", tenth(each.value())), is_far))
            }
            _ => None,
        }
    }

    /// What stands in a place.
    fn said(&self, span: Span) -> Option<String> {
        let text = &self.project.sources.get(span.source)?.text;
        text.get(span.start as usize..span.end as usize).map(str::to_owned)
    }

    /// Two changes of one line as one, with what stands between them.
    fn both(&self, (first, before): (Span, &str), (second, behind): (Span, &str)) -> Option<(Span, String)> {
        let text = &self.project.sources.get(first.source)?.text;
        let between = text.get(first.end as usize..second.start as usize)?;
        Some((Span { end: second.end, ..first }, format!("{before}{between}{behind}")))
    }

    /// Where a kitchen says the friction of a piece of equipment, and what stands there with another one; `None` where no file
    /// describes it.
    fn friction(&self, equipment: &Key, text: &str) -> Option<(Span, String)> {
        let trees = self.project.sources.iter().filter_map(|(id, _)| self.project.file(id)).map(|file| &file.tree);
        let mut lines = trees.flat_map(|tree| &tree.lines);
        lines.find_map(|line| match &line.content {
            Content::Equipment { name, clauses, .. } if name.key == *equipment => {
                let said = clauses.iter().find(|clause| matches!(clause.value, EquipmentClause::Friction(_)));
                Some(match said {
                    Some(clause) => (clause.span, text.to_owned()),
                    None => (Span { start: line.said.end, end: line.said.end, ..line.said }, format!(", {text}")),
                })
            }
            _ => None,
        })
    }
}

/// `` `shape` took the last 6 bakes 22.4 ± 1.1 s a piece ``
fn seconds_said(step: &str, last: &str, figure: &Figure) -> Option<String> {
    let seconds = |minutes: Number| minutes.times(Number::whole(60)).ok();
    let (mean, half) = (seconds(figure.spread.mean?)?, seconds(half(figure)?)?);
    Some(format!("`{step}` took {last} {} ± {} s a piece", tenth(mean), reach(half)))
}

/// A time as it is typed in a recipe: whole minutes, of a piece whole seconds, rounded up so that nobody is late by it.
fn typed(minutes: Number, each: bool) -> Option<String> {
    let (value, unit) = if each || minutes < Number::whole(2) {
        (minutes.times(Number::whole(60)).ok()?, "s")
    } else {
        (minutes, "min")
    };
    Some(format!("{} {unit}", value.ceil().to_whole()?.max(1)))
}

/// A text with what was measured in the places that are in it.
pub fn rewritten(source: &Source, id: SourceId, taken: &[Taken]) -> String {
    let here = taken.iter().filter(|one| one.span.source == id && one.at_home.is_none());
    let all = here.flat_map(|one| {
        std::iter::once(Edit { span: one.span, text: one.planned.clone() }).chain(one.also.iter().cloned())
    });
    let edits = all.collect();
    apply(&source.text, &[&Mend { title: String::new(), edits, certain: true }])
}

/// What was taken from where, a sentence each.
pub fn said(taken: &[Taken]) -> Vec<String> {
    let words = |one: &Taken| {
        let planned = one.told.trim_start_matches([',', ' ']);
        let what = match one.kind {
            Kind::Time => format!("{} of {}: {planned}", one.step, one.part),
            Kind::Loss => {
                format!("{} of {}: {} lost", one.step, one.part, planned.rsplit("loss ").next().unwrap_or(planned))
            }
            _ => format!("{} of {}: {planned}", one.step, one.part),
        };
        let also = if one.also_said.is_empty() { String::new() } else { format!(", and {}", one.also_said) };
        let sort = if one.of_the_most { ", of the sort that loses the most" } else { "" };
        format!("as baked: {what}{also} ({}{sort}; {})", one.from, one.formula)
    };
    taken.iter().map(words).collect()
}
