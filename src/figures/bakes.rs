//! What the log of bakes says: a row a bake, and for each figure how far the measurements and the formula agree.
//!
//! Each bake is held against the formula as it stood that day, under the options that it followed. A bake of an older version
//! counts for a figure of the formula as it is now while the change since does not touch it (see [`touches`]).

pub mod as_baked;
pub mod blank;
mod came_to;
mod claims;
mod fuller;
pub mod measure;
pub mod measurement;
pub mod otherwise;
pub mod statistics;
pub mod touches;

use crate::check::bakes::{Sized, chosen, sized};
use crate::figures::compare::{Comparison, FileVersion, versions};
use crate::language::bakes::Bake;
use crate::language::syntax::Verdict;
use crate::measure::number::Number;
use crate::measure::quantity::Count;
use crate::model::recipe::{Choice, Recipe, Selection};
use crate::model::reference::StepRef;
use crate::solve::formula::Formula;
use crate::solve::resolve::normal_selection;
use jiff::civil::DateTime;
use measure::Beside;
use measurement::{Kind, Measured};
use rayon::prelude::*;
use statistics::{FEWEST, Spread, spread};
use std::collections::HashMap;
use std::sync::Arc;

/// A version of a recipe that bakes were made of.
pub struct Version {
    /// The short name of its commit; `None` for the file as it is.
    pub revision: Option<String>,
    /// What it says.
    pub file: FileVersion,
}

/// A bake, and of which of the versions it is.
pub struct OfVersion {
    /// What was written down.
    pub bake: Bake,
    /// The place of its version among all.
    pub version: usize,
}

/// What the bakes of a recipe say.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Told {
    /// The recipe's name.
    pub recipe: String,
    /// The bakes, the newest first.
    pub rows: Vec<Row>,
    /// What they say together, in the order of the work.
    pub figures: Vec<Figure>,
}

/// One bake.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Row {
    /// When it began.
    pub moment: DateTime,
    /// Whether the time of the day was said.
    pub is_timed: bool,
    /// The version it was of; `None` for the file as it is.
    pub revision: Option<String>,
    /// The choices and what was taken of them.
    pub choices: Vec<(String, String)>,
    /// How many pieces it was to make.
    pub pieces: Option<Number>,
    /// How many times the recipe as written, where it is not made in pieces.
    pub times: Number,
    /// Who.
    pub by: String,
    /// What changed in the formula since the bake before; nothing for the first, and where nothing did.
    pub changed: Option<Comparison>,
    /// What went in otherwise than by the formula.
    pub otherwise: Vec<Otherwise>,
    /// What was measured, in the order of the log.
    pub measured: Vec<Measured>,
    /// What was thought of it.
    pub judged: Vec<Judged>,
    /// Notes.
    pub notes: Vec<String>,
    /// What is to become of the formula, and why.
    pub verdict: Option<(Verdict, String)>,
}

/// What went in otherwise.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Otherwise {
    /// What.
    pub name: String,
    /// How much, and how much the formula says; in grams.
    pub mass: Option<(Number, Number)>,
    /// How warm, °C.
    pub celsius: Option<Number>,
}

/// A judgement.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Judged {
    /// What of it.
    pub name: String,
    /// The mark.
    pub mark: Number,
    /// The highest there is.
    pub of: Number,
    /// Why.
    pub words: String,
}

/// How the measurements and the formula go together.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Says {
    /// What the formula says lies in the interval.
    Agrees,
    /// It does not.
    Differs,
    /// There are too few measurements to say.
    TooFew,
}

impl Says {
    /// In words.
    pub fn word(self) -> &'static str {
        match self {
            Says::Agrees => "agrees",
            Says::Differs => "differs",
            Says::TooFew => "too few",
        }
    }
}

/// What all bakes say of one figure.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Figure {
    /// What is measured.
    pub kind: Kind,
    /// The part, and the step.
    pub part: Arc<str>,
    /// The step.
    pub step: Arc<str>,
    /// The options, where a step is not the same under all of them.
    pub choices: Vec<(String, String)>,
    /// What the measurements say.
    pub spread: Spread,
    /// In how many bakes it was measured.
    pub bakes: usize,
    /// How many bakes of it are of an older version and no longer count, since the change touched it.
    pub outdated: usize,
    /// What the formula says: both ends of a range.
    pub formula: Option<(Number, Number)>,
    /// How both go together; nothing where the formula says nothing.
    pub says: Option<Says>,
    /// The options under which it was measured last.
    pub selection: Selection,
}

/// A version of the recipe under a selection, worked out.
#[derive(Clone, Copy)]
struct Way<'a> {
    /// Its number among all that were worked out.
    at: usize,
    recipe: &'a Recipe,
    formula: &'a Formula,
}

/// The versions of a recipe under the selections that bakes followed, each worked out once.
struct Ways<'a> {
    versions: &'a [Version],
    choices: Vec<Vec<Choice>>,
    places: HashMap<(usize, Selection), usize>,
    list: Vec<Option<(Recipe, Formula)>>,
}

impl<'a> Ways<'a> {
    fn of(versions: &'a [Version]) -> Ways<'a> {
        let choices = versions.iter().map(|version| version.file.choices()).collect();
        Ways { versions, choices, places: HashMap::new(), list: Vec::new() }
    }

    /// The place in the list of a version under a selection.
    fn place(&mut self, version: usize, selection: Selection) -> usize {
        *self.places.entry((version, selection)).or_insert_with_key(|(_, selection)| {
            self.list.push(self.versions.get(version).and_then(|version| version.file.worked(selection)));
            self.list.len() - 1
        })
    }
}

/// A bake with the formula of its day, and with the same of today.
struct Placed<'a> {
    of: &'a OfVersion,
    selection: Selection,
    own: usize,
    current: Option<usize>,
}

/// So many bakes are worth a thread of their own.
const STRETCH: usize = 250;

/// Works everything out; `now` is the place of the file as it is among the versions.
pub fn told(versions: &[Version], now: usize, bakes: &[OfVersion]) -> Told {
    let mut order: Vec<&OfVersion> = bakes.iter().collect();
    order.sort_by_key(|bake| bake.bake.moment());
    let mut ways = Ways::of(versions);
    let mut placed = Vec::with_capacity(order.len());
    for of in order {
        let Some(choices) = ways.choices.get(of.version) else { continue };
        let selection = chosen(choices, &of.bake);
        let today = ways.choices.get(now).map(|choices| normal_selection(choices, &selection));
        let own = ways.place(of.version, selection.clone());
        placed.push(Placed { of, selection, own, current: today.map(|selection| ways.place(now, selection)) });
    }
    let way = |at: usize| ways.list.get(at)?.as_ref().map(|(recipe, formula)| Way { at, recipe, formula });
    let mut gathered = Gathered::default();
    let mut told = Told { recipe: name(versions, now), ..Told::default() };
    let mut before: Option<usize> = None;
    let mut compared: HashMap<(usize, usize), Option<Comparison>> = HashMap::new();
    // Side by side, stretch by stretch: within one the same formula answers for the same sizes.
    let beside = |stretch: &[Placed<'_>]| {
        let mut known: HashMap<usize, Beside<'_>> = HashMap::new();
        let of_one = |Placed { of, own, .. }: &Placed<'_>| {
            let Way { at, recipe, formula } = way(*own)?;
            let beside = known.entry(at).or_insert_with(|| Beside::of(recipe, formula));
            let size = sized(&of.bake, recipe, formula).unwrap_or_else(|_| Sized::times(Number::ONE));
            let (measured, otherwise) = (beside.measured(&of.bake, &size), beside.otherwise(&of.bake, &size));
            Some((size, measured, otherwise))
        };
        stretch.iter().map(of_one).collect::<Vec<_>>()
    };
    let worked: Vec<_> = placed.par_chunks(STRETCH).flat_map_iter(beside).collect();
    for (Placed { of, selection, own, current }, worked) in placed.into_iter().zip(worked) {
        let (Some(own), Some((size, measured, otherwise))) = (way(own), worked) else { continue };
        let Way { recipe, formula, .. } = own;
        let current = current.and_then(way);
        for one in &measured {
            gathered.take(one, &of.bake, own, current, &selection);
        }
        let changed = before.filter(|before| *before != of.version).and_then(|before| {
            let entry = compared.entry((before, of.version));
            entry.or_insert_with(|| of_both(versions, before, of.version)).clone()
        });
        before = Some(of.version);
        let times = size.factor;
        let pieces = match &size.of_sorts {
            Some(of_sorts) => of_sorts.pieces.map(Count::value),
            None => formula.pieces.map(Count::value).and_then(|pieces| pieces.times(times).ok()),
        };
        let judged = of.bake.judged.iter().map(|judged| Judged {
            name: judged.name.to_string(),
            mark: judged.mark,
            of: judged.of,
            words: judged.words.clone(),
        });
        told.rows.push(Row {
            moment: of.bake.moment(),
            is_timed: of.bake.time.is_some(),
            revision: versions.get(of.version).and_then(|version| version.revision.clone()),
            choices: recipe
                .choices
                .iter()
                .filter_map(|choice| {
                    let taken = recipe.selection.of(&choice.name.key)?;
                    let option = choice.options.iter().find(|option| option.key == *taken)?;
                    Some((choice.name.to_string(), option.to_string()))
                })
                .collect(),
            pieces,
            times,
            by: of.bake.by.clone(),
            changed,
            otherwise,
            measured,
            judged: judged.collect(),
            notes: of.bake.notes.clone(),
            verdict: of.bake.verdict.clone(),
        });
    }
    told.rows.reverse();
    told.figures = gathered.figures();
    told
}

fn of_both(all: &[Version], before: usize, after: usize) -> Option<Comparison> {
    let changes = versions(&all.get(before)?.file, &all.get(after)?.file)?;
    (!changes.is_empty()).then_some(changes)
}

/// The name of the recipe as it is now.
fn name(versions: &[Version], now: usize) -> String {
    let worked = versions.get(now).and_then(|version| version.file.worked(&Selection::new()));
    worked.map_or_else(String::new, |(recipe, _)| recipe.name.to_string())
}

/// Under which measurements come together.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
struct Under {
    kind: Kind,
    part: Arc<str>,
    step: Arc<str>,
    /// What of the formula as it is now touches the figure; `None` for what was measured of something that is no longer so.
    touches: Option<String>,
}

/// The measurements of one figure.
#[derive(Debug, Default)]
struct Measurements {
    values: Vec<Number>,
    bakes: Vec<DateTime>,
    selection: Selection,
    formula: Option<(Number, Number)>,
    choices: Vec<(String, String)>,
    order: (usize, usize),
}

/// Measurements under their figures, in the order in which they were met.
#[derive(Debug, Default)]
struct Gathered {
    rows: Vec<(Under, Measurements)>,
    places: HashMap<Under, usize>,
    /// The row of a figure by the ways that it is held between: the same for years of bakes.
    known: HashMap<(usize, Option<usize>, Kind, StepRef), usize>,
}

impl Gathered {
    fn take(&mut self, one: &Measured, bake: &Bake, own: Way<'_>, current: Option<Way<'_>>, selection: &Selection) {
        let known = (own.at, current.map(|way| way.at), one.kind, one.at);
        let at = match self.known.get(&known) {
            Some(at) => *at,
            None => {
                let at = self.place(one, own, current);
                self.known.insert(known, at);
                at
            }
        };
        let Some((under, row)) = self.rows.get_mut(at) else { return };
        let is_other = row.values.is_empty() || row.selection != *selection;
        row.values.push(one.comparable);
        if row.bakes.last() != Some(&bake.moment()) {
            row.bakes.push(bake.moment());
        }
        if !is_other {
            return;
        }
        row.selection = selection.clone();
        if let Some(Way { recipe, formula, .. }) = current.filter(|_| under.touches.is_some()) {
            row.formula = claims::claim(recipe, formula, one.kind, &one.part, &one.step);
            row.order = touches::place(recipe, &one.part, &one.step);
            row.choices = recipe
                .selection
                .iter()
                .map(|(choice, option)| (choice.as_str().to_owned(), option.as_str().to_owned()))
                .collect();
        }
    }

    /// The row of a measurement among the others.
    fn place(&mut self, one: &Measured, own: Way<'_>, current: Option<Way<'_>>) -> usize {
        let touches = |way: Way<'_>| touches::of(way.recipe, way.formula, one.kind, &one.part, &one.step);
        let then = touches(own);
        let now = current.and_then(touches).filter(|now| then.as_ref() == Some(now));
        let under = Under { kind: one.kind, part: Arc::clone(&one.part), step: Arc::clone(&one.step), touches: now };
        *self.places.entry(under).or_insert_with_key(|under| {
            self.rows.push((under.clone(), Measurements::default()));
            self.rows.len() - 1
        })
    }

    fn figures(self) -> Vec<Figure> {
        let same =
            |one: &Under, other: &Under| (one.kind, &one.part, &one.step) == (other.kind, &other.part, &other.step);
        let mut figures: Vec<((usize, usize), Figure)> = Vec::new();
        for (under, row) in self.rows.iter().filter(|(under, _)| under.touches.is_some()) {
            let alike = self.rows.iter().filter(|(other, _)| same(under, other));
            let (of_both, outdated): (Vec<_>, Vec<_>) = alike.partition(|(other, _)| other.touches.is_some());
            let outdated = outdated.iter().map(|(_, row)| row.bakes.len()).sum();
            let spread = spread(&row.values);
            let says = row.formula.map(|formula| says(under.kind, &spread, formula));
            let figure = Figure {
                kind: under.kind,
                part: Arc::clone(&under.part),
                step: Arc::clone(&under.step),
                choices: if of_both.len() > 1 { row.choices.clone() } else { Vec::new() },
                bakes: row.bakes.len(),
                outdated,
                formula: row.formula,
                says: says.or(Some(Says::TooFew).filter(|_| spread.count < FEWEST)),
                selection: row.selection.clone(),
                spread,
            };
            figures.push((row.order, figure));
        }
        figures.sort_by_key(|(order, figure)| (*order, figure.kind));
        figures.into_iter().map(|(_, figure)| figure).collect()
    }
}

/// A loss that is less than so many points off is one that scales and rounding leave open: of 3.69 kg of 4.19 kg, shown in steps of 10 g, a
/// tenth of a point; of one piece of 90 g to the gram more than half a point. Common practice, no source.
const CLOSE: Number = Number::constant(1, 2);

/// Whether what the formula says lies in the interval in which the true mean lies.
fn says(kind: Kind, spread: &Spread, (low, high): (Number, Number)) -> Says {
    let is_close = |mean: Number| {
        let apart = low.minus(mean).ok()?.max(mean.minus(high).ok()?);
        Some(kind == Kind::Loss && apart < CLOSE)
    };
    match spread.interval {
        Some(_) if spread.count >= FEWEST && spread.mean.and_then(is_close) == Some(true) => Says::Agrees,
        Some((least, most)) if spread.count >= FEWEST => {
            // A log is written in tenths: figures that are the same in tenths do not differ.
            let tenths = |value: Number| value.rounded_to(Number::constant(1, 10)).unwrap_or(value);
            if tenths(high) < tenths(least) || tenths(low) > tenths(most) { Says::Differs } else { Says::Agrees }
        }
        _ => Says::TooFew,
    }
}
