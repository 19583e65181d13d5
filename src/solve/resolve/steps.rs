//! Steps, their prose and their order.

use super::earlier::Earlier;
use super::meant;
use super::outline::{PartOutline, StepOutline};
use super::reading::Reading;
use super::texts::{self, mere_words, push_text};
use crate::language::syntax::{
    Content, Key, LaterHeat, Name, Piece, Quantity, Share, StepClause, StepKind, StepLine, WrittenNumber,
};
use crate::measure::number::Number;
use crate::measure::quantity::{Duration, Proportion};
use crate::measure::show;
use crate::measure::temperature::Temperature;
use crate::measure::value::{Said, Value};
use crate::model::places::Places;
use crate::model::recipe::{Part, PartId, Recipe, Selection};
use crate::model::step::{Asked, Loads, Step, StepRef, Take, Target, Timing, Words, WrittenStep};
use crate::text::diagnostic::Diagnostic;
use crate::text::source::{Span, Spanned};
use std::cell::LazyCell;
use std::sync::Arc;

/// Reads the steps of a part that hold, all but their order.
pub(super) fn read(
    recipe: &Recipe,
    id: PartId,
    outline: &PartOutline<'_>,
    earlier: &Earlier,
    reading: &mut Reading,
) -> Vec<Step> {
    let Some(part) = recipe.part(id) else { return Vec::new() };
    let lines = Places::of(part.lines.iter().map(|line| &line.name));
    let scope = Scope { recipe, id, part, lines };
    let mut steps: Vec<Step> = Vec::with_capacity(outline.steps.len());
    let mut places = Places::default();
    for written in holding(outline, &recipe.selection) {
        let Content::Step(head) = &written.head.content else { continue };
        let twin = places.note(&head.name.key, steps.len());
        if let Some(twin) = twin.and_then(|first| steps.get(first)) {
            reading.report(
                Diagnostic::error("twice-named", head.name.span, format!("the step `{}` stands here twice", head.name))
                    .also(twin.name.span, "first here")
                    .help("give each step a name of its own, so that others can say which one they mean"),
            );
        }
        steps.push(earlier.step(recipe, id, written, reading).unwrap_or_else(|| {
            let mut step = step_head(head, written.head.said, reading);
            below(&mut step, written, &scope, reading);
            Step::new(step)
        }));
    }
    steps
}

/// The steps that hold under a selection.
fn holding<'o, 't>(
    outline: &'o PartOutline<'t>,
    selection: &'o Selection,
) -> impl Iterator<Item = &'o StepOutline<'t>> {
    outline.steps.iter().filter(|step| selection.holds(&step.head.only))
}

fn step_head(head: &StepLine, span: Span, reading: &mut Reading) -> WrittenStep {
    let time = reading.said(&head.duration).and_then(|said| said.times());
    let mut step = WrittenStep {
        name: head.name.clone(),
        kind: head.kind.value,
        time: time.unwrap_or((Duration::ZERO, Duration::ZERO)),
        loads: Loads::Once,
        equipment: None,
        temperature: None,
        later: Vec::new(),
        later_said: Vec::new(),
        temperature_said: Vec::new(),
        up_to: None,
        may_stand: None,
        moments: Vec::new(),
        station: None,
        people: 1,
        shared_by: 1,
        words: Vec::new(),
        pictures: Vec::new(),
        cue: Vec::new(),
        span,
        time_span: head.duration.span,
        asked: Asked::default(),
    };
    let mut seen: Vec<(&str, Span)> = Vec::new();
    for clause in &head.clauses {
        if let Some(what) = clause_name(&clause.value) {
            if let Some((_, first)) = seen.iter().find(|(known, _)| *known == what) {
                reading.report(
                    Diagnostic::error("twice-named", clause.span, format!("`{what}` is said twice in this step"))
                        .also(*first, "first here")
                        .help("keep one"),
                );
                continue;
            }
            seen.push((what, clause.span));
        }
        take_clause(&mut step, clause, reading);
    }
    if step.kind != StepKind::Hands && step.shared_by > 1 {
        let span = seen.iter().find(|(what, _)| *what == "shared by").map_or(step.span, |(_, span)| *span);
        let message = format!("nobody works at `{}`, so nobody shares it", step.name);
        reading.report(
            Diagnostic::error("impossible-number", span, message)
                .help("leave it out, or say `hands` for the kind of step"),
        );
        step.shared_by = 1;
    }
    step
}

/// What a step may say once only; order may be said several times.
fn clause_name(clause: &StepClause) -> Option<&'static str> {
    Some(match clause {
        StepClause::Each => "each",
        StepClause::AtATime(_) => "the load",
        StepClause::Using(..) => "using",
        StepClause::At(_) => "at",
        StepClause::UpTo(_) => "up to",
        StepClause::Station(_) => "station",
        StepClause::People(_) => "people",
        StepClause::SharedBy(_) => "shared by",
        StepClause::MayStand(_) => "may stand",
        StepClause::Into(..) => "into",
        _ => return None,
    })
}

fn take_clause(step: &mut WrittenStep, clause: &Spanned<StepClause>, reading: &mut Reading) {
    match &clause.value {
        StepClause::Each => step.loads = step.loads.size().map_or(Loads::Each, Loads::EachOf),
        StepClause::AtATime(number) => {
            if let Some(count) = whole_from_one(number, "a load", reading) {
                step.loads = if step.loads.is_by_piece() { Loads::EachOf(count) } else { Loads::Of(count) };
            }
        }
        StepClause::Using(name, at, later) => {
            step.equipment = Some(name.clone());
            if !at.is_empty() {
                take_temperature(step, at, clause.span, reading);
            }
            take_later(step, later, reading);
        }
        StepClause::MayStand(time) => step.may_stand = reading.longest(time),
        StepClause::SharedBy(number) => {
            if let Some(count) = whole_from_one(number, "those who share the work", reading) {
                step.shared_by = count.to_whole().and_then(|count| u32::try_from(count).ok()).unwrap_or(u32::MAX);
            }
        }
        StepClause::Into(times, _) => step.moments = moments(times, reading),
        StepClause::At(at) => take_temperature(step, at, clause.span, reading),
        StepClause::UpTo(quantity) => {
            let most = reading.longest(quantity);
            if most.is_some_and(|most| most < step.time.1) {
                reading.report(
                    Diagnostic::error("impossible-number", clause.span, "`up to` is shorter than the step's own time")
                        .also(step.time_span, "the step's time")
                        .help("`up to` is how long the step may go on; make it longer than the time, or leave it out"),
                );
            } else {
                step.up_to = most;
            }
        }
        StepClause::Station(name) => step.station = Some(name.clone()),
        StepClause::People(number) => {
            if let Some(count) = whole_from_one(number, "the people", reading) {
                step.people = count.to_whole().and_then(|count| u32::try_from(count).ok()).unwrap_or(u32::MAX);
            }
        }
        StepClause::During(_)
        | StepClause::Before(_)
        | StepClause::After(_)
        | StepClause::StraightAfter(_)
        | StepClause::Within(..) => {}
        StepClause::Broken => {}
    }
}

/// The heats that an oven falls or rises to while the step runs; they must come one after the other and within its time.
fn take_later(step: &mut WrittenStep, later: &[LaterHeat], reading: &mut Reading) {
    for heat in later {
        let said = reading.chain(&heat.at, None).unwrap_or_default();
        let Some((at, upper)) = temperature(&said) else { continue };
        let Some(after) = reading.longest(&heat.after) else { continue };
        let before = step.later.last().map_or(Duration::ZERO, |(_, after)| *after);
        if upper.is_some() {
            let span = heat.at.first().map_or(heat.after.span, |at| at.span);
            let message = "the oven goes to one temperature and not to a range";
            reading.report(Diagnostic::error("impossible-number", span, message).help("write one of the two"));
        } else if after <= before {
            let message = "an oven changes at times that come one after the other";
            let help = "count every `after` from the step's beginning, and give the earlier one first";
            reading.report(Diagnostic::error("impossible-number", heat.after.span, message).help(help));
        } else if after >= step.time.1 {
            let message = format!("the oven is changed when `{}` is over", step.name);
            reading.report(
                Diagnostic::error("impossible-number", heat.after.span, message)
                    .also(step.time_span, "the step's time")
                    .help("`after` counts from the step's beginning; make it shorter than the step"),
            );
        } else {
            step.later.push((at, after));
            step.later_said.push(said);
        }
    }
}

/// Moments within another step; those that say no unit have the last one's.
fn moments(times: &[Quantity], reading: &mut Reading) -> Vec<Duration> {
    let unit = times.last().and_then(|last| last.terms.last()).and_then(|term| term.unit);
    let mut moments: Vec<Duration> = Vec::new();
    for time in times {
        let mut time = time.clone();
        for term in time.terms.iter_mut().filter(|term| term.unit.is_none()) {
            term.unit = unit;
        }
        let Some(moment) = reading.longest(&time) else { continue };
        if moments.last().is_some_and(|last| moment <= *last) {
            let message = "moments within a step come one after the other";
            reading.report(
                Diagnostic::error("impossible-number", time.span, message)
                    .help("count each from the beginning of the other step, and give the earlier one first"),
            );
            continue;
        }
        moments.push(moment);
    }
    moments
}

fn take_temperature(step: &mut WrittenStep, at: &[Quantity], span: Span, reading: &mut Reading) {
    if step.temperature.is_some() {
        let message = "the temperature is said twice in this step";
        reading.report(Diagnostic::error("twice-named", span, message).help("keep one"));
    }
    step.temperature_said = reading.chain(at, None).unwrap_or_default();
    step.temperature = temperature(&step.temperature_said);
}

fn whole_from_one(number: &WrittenNumber, what: &str, reading: &mut Reading) -> Option<Number> {
    if number.value.is_whole() && number.value.is_positive() {
        return Some(number.value);
    }
    let message = format!("{what} must be a whole number, at least one");
    reading.report(Diagnostic::error("impossible-number", number.span, message));
    None
}

fn temperature(said: &[Said]) -> Option<(Temperature, Option<Temperature>)> {
    let first = said.first()?;
    let upper = match first.upper {
        Some(Value::Temperature(upper)) => Some(upper),
        _ => None,
    };
    Some((first.temperature()?, upper))
}

/// Where the names in prose are looked up.
struct Scope<'r> {
    recipe: &'r Recipe,
    id: PartId,
    part: &'r Part,
    /// Where each of its lines stands.
    lines: Places,
}

fn below(step: &mut WrittenStep, written: &StepOutline<'_>, scope: &Scope<'_>, reading: &mut Reading) {
    let pieces = written.below.iter().map(|line| match &line.content {
        Content::Prose(pieces) => pieces.len(),
        _ => 0,
    });
    step.words.reserve(pieces.sum());
    for line in &written.below {
        match &line.content {
            Content::Blank => push_text(&mut step.words, "\n"),
            Content::Prose(pieces) => {
                words(pieces, scope, &mut step.words, reading);
                push_text(&mut step.words, "\n");
            }
            Content::Until(pieces) => {
                if !step.cue.is_empty() {
                    push_text(&mut step.cue, " ");
                }
                mere_words(pieces, "a sign", &mut step.cue, reading);
            }
            Content::Picture(picture) if scope.recipe.selection.holds(&line.only) => {
                step.pictures.extend(texts::picture(picture));
            }
            _ => {}
        }
    }
}

fn words(pieces: &[Piece], scope: &Scope<'_>, words: &mut Vec<Words>, reading: &mut Reading) {
    for piece in pieces {
        match piece {
            Piece::Text(text) => push_text(words, text),
            Piece::Measure(quantities) => words.extend(reading.chain(quantities, None).map(Words::Measure)),
            Piece::Use(share, name) => {
                let target = find_target(name, scope, reading);
                if let Some(take) = take(share, reading) {
                    words.push(Words::Use { take, target, name: name.clone() });
                }
            }
        }
    }
}

fn take(share: &Share, reading: &mut Reading) -> Option<Take> {
    Some(match share {
        Share::All => Take::All,
        Share::Rest => Take::Rest,
        Share::Fraction(fraction) => Take::Share(Proportion::new(*fraction)),
        Share::Quantity(quantity) => {
            let said = reading.said(quantity)?;
            match said.value {
                Value::Mass(mass) => Take::Mass(mass),
                Value::Proportion(share) => Take::Share(share),
                _ => Take::Measure(said),
            }
        }
    })
}

fn find_target(name: &Name, scope: &Scope<'_>, reading: &mut Reading) -> Option<Target> {
    if let Some(at) = scope.lines.get(&name.key) {
        return Some(Target::Line(at));
    }
    let mut preferments = scope.recipe.preferments(scope.id);
    if let Some((id, _)) = preferments.find(|(_, part)| part.name.same(name)) {
        return Some(Target::Preferment(id));
    }
    let message = format!("`{name}` is no ingredient of `{}`", scope.part.name);
    let problem = Diagnostic::error("unknown-name", name.span, message).label("not listed in this part");
    // A stage of a sour that the next stage takes up comes out of that, and not out of the dough.
    let stage = scope.recipe.parts.iter().find(|part| part.from.is_some() && part.name.same(name));
    if let Some(stage) = stage {
        let help = format!(
            "`{name}` is taken out of another part: write `part {name}, from {of}`, and list in `{of}` what `{name}` takes, too",
            of = scope.part.name
        );
        reading.report(problem.also(stage.name.span, "taken out here").help(help));
        return None;
    }
    if let Some(meant) = meant::share_without_of(name, |key| scope.lines.get(key).is_some()) {
        let help = format!("did you mean `{{{meant}}}`?");
        reading.report(problem.help(help).suggest(format!("write `{{{meant}}}`"), name.span, meant));
        return None;
    }
    if let Some(sizes) = meant::sizes(&name.text) {
        let help = format!("a pair of braces holds one measure: write `{sizes}`");
        let within = sizes.trim_start_matches('{').trim_end_matches('}').to_owned();
        reading.report(problem.help(help).suggest(format!("write `{sizes}`"), name.span, within));
        return None;
    }
    let lines = scope.part.lines.iter().map(|line| line.name.key.as_str());
    let preferments = scope.recipe.preferments(scope.id).map(|(_, part)| part.name.key.as_str());
    reading.unknown(problem, name, lines.chain(preferments));
    None
}

/// Binds `after`, `during` and the like once the steps of all parts are known, but in parts that are read already.
pub(super) fn bind_orders(
    recipe: &mut Recipe,
    outlines: &[&PartOutline<'_>],
    is_read: impl Fn(usize) -> bool,
    reading: &mut Reading,
) {
    let mut bound: Vec<(PartId, usize, Timing)> = Vec::new();
    let steps = |part: &Arc<Part>| Places::of(part.steps.iter().map(|step| &step.name));
    // Most recipes name no step of theirs.
    let places = LazyCell::new(|| -> Vec<Places> { recipe.parts.iter().map(steps).collect() });
    for (at, outline) in outlines.iter().enumerate().filter(|(at, _)| !is_read(*at)) {
        for (step, written) in holding(outline, &recipe.selection).enumerate() {
            let Content::Step(head) = &written.head.content else { continue };
            let here = StepRef { part: PartId(at), step };
            for clause in &head.clauses {
                if let Some(order) = order_of(recipe, || &places, here, &clause.value, reading) {
                    bound.push((PartId(at), step, order));
                }
            }
        }
    }
    drop(places);
    for (part, step, order) in bound {
        let load = load_before(recipe, part, &order);
        if let Some(step) = recipe.part_mut(part).and_then(|part| part.steps.get_mut(step)) {
            step.order.push(order);
            if let (Loads::Each, Some(size)) = (step.loads, load) {
                step.loads = Loads::EachOf(size);
            }
        }
    }
}

/// How many pieces come at a time out of the step after which another comes within some time: each piece has that time, so that they are
/// gone on with load by load.
fn load_before(recipe: &Recipe, part: PartId, order: &Timing) -> Option<Number> {
    match order {
        Timing::Within(_, other) if other.part == part => recipe.part(part)?.steps.get(other.step)?.loads.size(),
        _ => None,
    }
}

fn order_of<'p>(
    recipe: &Recipe,
    places: impl Fn() -> &'p [Places],
    here: StepRef,
    clause: &StepClause,
    reading: &mut Reading,
) -> Option<Timing> {
    let mut find = |name: &Name| find_step(recipe, places(), here, name, reading);
    Some(match clause {
        StepClause::During(name) => Timing::During(find(name)?),
        StepClause::Into(times, name) => {
            let other = find(name)?;
            beyond_its_rest(recipe, here, other, times, reading);
            Timing::Into(other)
        }
        StepClause::Before(name) => Timing::Before(find(name)?),
        StepClause::After(name) => Timing::After(find(name)?),
        StepClause::StraightAfter(name) => Timing::StraightAfter(find(name)?),
        StepClause::Within(quantity, name) => {
            let other = find(name)?;
            Timing::Within(reading.longest(quantity)?, other)
        }
        _ => return None,
    })
}

/// A fold 90 min into a rest of 35 min.
fn beyond_its_rest(recipe: &Recipe, here: StepRef, other: StepRef, times: &[Quantity], reading: &mut Reading) {
    let step = |at: StepRef| recipe.part(at.part)?.steps.get(at.step);
    let (Some(step), Some(other)) = (step(here), step(other)) else { return };
    let longest = other.up_to.unwrap_or(other.time.1).max(other.time.1);
    let (Some(last), Some(time)) = (step.moments.last(), times.last()) else { return };
    // A step whose time was reported lasts no time.
    // The time of what is done piece by piece is that of one.
    if longest > Duration::ZERO && !other.loads.is_by_piece() && *last > longest {
        let (name, longest) = (&other.name, show::duration(longest));
        let message =
            format!("`{name}` is over after {longest}, and nothing is done {} into it", show::duration(*last));
        reading.report(
            Diagnostic::error("impossible-number", time.span, message)
                .also(other.time_span, "its time")
                .help("count from the beginning of the other step; look whether a digit of either time has slipped"),
        );
    }
}

/// `STEP`, or `STEP of PART`.
fn find_step(recipe: &Recipe, places: &[Places], here: StepRef, name: &Name, reading: &mut Reading) -> Option<StepRef> {
    let own = recipe.part(here.part)?;
    let in_part = |part: PartId, key: &Key| places.get(part.0)?.get(key);
    if let Some(step) = in_part(here.part, &name.key) {
        if step == here.step {
            reading.report(
                Diagnostic::error("unknown-step", name.span, "a step cannot be ordered by itself")
                    .help("name another step"),
            );
            return None;
        }
        return Some(StepRef { part: here.part, step });
    }
    // Both names may hold the word `of`, so every place to cut is tried.
    for (cut, _) in name.key.as_str().match_indices(" of ") {
        let (step, part) = (name.key.as_str().get(..cut)?, name.key.as_str().get(cut + 4..)?);
        let (step, part) = (Key::new(step), Key::new(part));
        let found = recipe.called(&part);
        if let Some((id, step)) = found.and_then(|id| Some((id, in_part(id, &step)?))) {
            return Some(StepRef { part: id, step });
        }
    }
    let problem = Diagnostic::error("unknown-step", name.span, format!("there is no step `{name}`"));
    let steps = own.steps.iter().map(|step| step.name.key.as_str());
    reading.unknown(problem, name, steps);
    None
}
