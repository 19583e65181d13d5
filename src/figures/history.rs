//! The history of a formula: its key figures at each revision that changed what it means.

use crate::aims;
use crate::figures::sums::makeup;
use crate::language::syntax::Key;
use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::{Mass, Proportion};
use crate::model::flow::DEEPEST;
use crate::model::kind::YeastForm;
use crate::model::recipe::{Ingredient, Part, PartId, Recipe, Refers};
use crate::model::yeast;
use crate::plan::timeline;
use crate::solve::formula::{Formula, OnFlour};
use crate::text::source::Span;

/// A formula over its revisions.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct History {
    /// The file, as it was given.
    pub file: String,
    /// The recipe's name at its newest readable revision.
    pub recipe: String,
    /// The revisions that changed meaning, newest first.
    pub rows: Vec<Row>,
    /// How many revisions were looked at.
    pub revisions: usize,
}

/// One revision that changed meaning.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Row {
    /// The whole name of the commit; `None` for what is not yet committed.
    pub commit: Option<String>,
    /// Its short name.
    pub short: String,
    /// The author's date, `2026-11-25`; empty for what is not yet committed.
    pub date: String,
    /// The first line of its message, as somebody wrote it.
    pub subject: String,
    /// The file's name then, from the top of the repository, when it was another than now.
    pub then_called: Option<String>,
    /// What the formula was.
    pub state: State,
    /// What was baked of it before the next row, the oldest first.
    pub bakes: Vec<Baked>,
}

/// A bake in a history.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Baked {
    /// Its day: `2026-11-13`.
    pub date: String,
    /// What was judged, the mark and the highest there is.
    pub judged: Vec<(String, Number, Number)>,
    /// What is to become of the formula: `keep`.
    pub verdict: Option<&'static str>,
}

/// What a formula was at a revision.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum State {
    /// It could be worked out.
    Known(Box<KeyFigures>),
    /// It could not, and why.
    Unclear(String),
    /// There was no file.
    Gone,
}

impl Row {
    /// The figures, where there are some.
    pub fn figures(&self) -> Option<&KeyFigures> {
        match &self.state {
            State::Known(figures) => Some(figures),
            _ => None,
        }
    }
}

/// The figures by which a baker knows a dough, under the default choices.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct KeyFigures {
    /// The part they are of: the one with the most flour.
    pub part: String,
    /// Water on flour.
    pub hydration: Option<OnFlour>,
    /// The lines that are salt on flour: what is in milk or butter by nature is not written as salt.
    pub salt: Option<Proportion>,
    /// Yeasts on flour, as written: name and share.
    pub yeast: Vec<(String, Proportion)>,
    /// All yeast on flour as fresh yeast, so that forms compare; `None` when a form is not said, or without flour.
    pub yeast_as_fresh: Option<Proportion>,
    /// What a piece weighs.
    pub piece: Option<Mass>,
    /// All that goes in.
    pub total: Option<Mass>,
    /// From the first step to the last; `None` without times.
    pub minutes: Option<i64>,
    /// The aims that it misses, each with the figure: `hydration 62 % of flour`.
    pub aims_missed: Vec<String>,
}

impl KeyFigures {
    /// Reads the figures off a recipe.
    ///
    /// # Errors
    /// When a number leaves the range of exact numbers.
    pub fn of(recipe: &Recipe, formula: &Formula) -> Result<KeyFigures, Overflow> {
        let minutes = Some(timeline::of(recipe, formula)?.span_minutes).filter(|minutes| *minutes > 0);
        let aims_missed = aims_missed(recipe, formula);
        let Some(id) = dough(recipe, formula) else {
            return Ok(KeyFigures { minutes, aims_missed, ..KeyFigures::default() });
        };
        let (Some(part), Some(solved)) = (recipe.part(id), formula.part(id)) else { return Ok(KeyFigures::default()) };
        let flour = if solved.composition.flour > Mass::ZERO { solved.composition.all_flour()? } else { Mass::ZERO };
        let mut found = Vec::new();
        yeasts(recipe, formula, id, None, DEEPEST, &mut found)?;
        let mut as_fresh = Some(Mass::ZERO);
        let mut yeast = Vec::new();
        for (name, form, mass, _) in found {
            as_fresh = match (as_fresh, form) {
                (Some(so_far), Some(form)) => Some(so_far.plus(yeast::convert(mass, form, YeastForm::Fresh)?)?),
                _ => None,
            };
            if flour > Mass::ZERO {
                yeast.push((name, mass.as_share_of(flour)?));
            }
        }
        let yeast_as_fresh = match as_fresh {
            Some(mass) if flour > Mass::ZERO => Some(mass.as_share_of(flour)?),
            _ => None,
        };
        let each = solved.each.or_else(|| formula.part(recipe.final_part()?)?.each);
        Ok(KeyFigures {
            part: part.name.to_string(),
            hydration: solved.hydration().filter(|_| formula.is_mix(recipe, id)),
            salt: makeup::nominal(recipe, formula, id)?.salt,
            yeast,
            yeast_as_fresh,
            piece: each,
            total: solved.goes_in,
            minutes,
            aims_missed,
        })
    }
}

fn aims_missed(recipe: &Recipe, formula: &Formula) -> Vec<String> {
    let missed = aims::held(recipe, formula).into_iter().filter(|held| held.verdict == aims::Verdict::Missed);
    let words = missed.filter_map(|held| {
        let value = held.reading.as_ref()?.value().ok()?;
        Some(format!("{} {}{}", held.aim.figure.word(), aims::shown(&held.aim.unit, value), held.of_words()))
    });
    words.collect()
}

/// Whether what stands at a place of the recipe's text may change the figures: in its head, in the dough, or in a part that goes
/// into it. An error in the filling leaves the dough what it is.
pub fn bears_on(recipe: &Recipe, formula: &Formula, place: Span) -> bool {
    let Some(dough) = dough(recipe, formula) else { return true };
    let own = recipe.parts().filter(|(_, part)| part.foreign.is_none() && part.name.span.source == recipe.source);
    let begun = own.filter(|(_, part)| part.name.span.start <= place.start);
    let Some((at, _)) = begun.max_by_key(|(_, part)| part.name.span.start) else { return true };
    if place.source != recipe.source {
        return true;
    }
    // From the dough down to what it is made of.
    let (mut open, mut seen) = (vec![dough], vec![dough]);
    while let Some(id) = open.pop() {
        if id == at {
            return true;
        }
        let lines = recipe.part(id).map_or(&[][..], |part| &part.lines);
        let inside = lines.iter().filter_map(Ingredient::part);
        for other in inside.chain(recipe.preferments(id).map(|(other, _)| other)) {
            if !seen.contains(&other) {
                seen.push(other);
                open.push(other);
            }
        }
    }
    false
}

/// The recipe's own part with the most flour, the first of equals: a dough rather than what it is filled into. Without
/// flour, the part that the recipe is about.
fn dough(recipe: &Recipe, formula: &Formula) -> Option<PartId> {
    let mut most: Option<(PartId, Mass)> = None;
    for (id, part) in recipe.parts() {
        if part.foreign.is_some() || part.per_piece {
            continue;
        }
        let flour = formula.part(id).map_or(Mass::ZERO, |solved| solved.composition.flour);
        if flour > most.map_or(Mass::ZERO, |(_, flour)| flour) {
            most = Some((id, flour));
        }
    }
    most.map(|(id, _)| id).or_else(|| recipe.final_part())
}

/// Adds the yeasts of a part, also of the parts in it. `taken` is how much of the part is meant; `None` is all.
fn yeasts(
    recipe: &Recipe,
    formula: &Formula,
    id: PartId,
    taken: Option<Mass>,
    deep: usize,
    found: &mut Vec<(String, Option<YeastForm>, Mass, Key)>,
) -> Result<(), Overflow> {
    let (Some(part), Some(solved)) = (recipe.part(id), formula.part(id)) else { return Ok(()) };
    let all = solved.comes_out.total;
    for (mass, line) in masses(part, solved) {
        let mass = match taken {
            Some(taken) if all > Mass::ZERO => mass.times(taken.ratio(all)?)?,
            _ => mass,
        };
        if let Refers::Part(other) = &line.refers {
            if deep > 0 {
                yeasts(recipe, formula, *other, Some(mass), deep - 1, found)?;
            }
        } else if line.kind.is_yeast() {
            let (name, form) = (line.name.to_string(), line.kind.yeast_form());
            // `instant yeast` and `fast-action yeast` are one.
            let entry = line.entry();
            let same = |known: &(String, Option<YeastForm>, Mass, Key)| known.3 == entry;
            match found.iter_mut().find(|known| same(known)) {
                Some((_, _, so_far, _)) => *so_far = so_far.plus(mass)?,
                None => found.push((name, form, mass, entry)),
            }
        }
    }
    Ok(())
}

fn masses<'a>(
    part: &'a Part,
    solved: &'a crate::solve::formula::SolvedPart,
) -> impl Iterator<Item = (Mass, &'a crate::model::recipe::Ingredient)> {
    let lines = part.lines.iter().zip(&solved.lines).filter(|(line, _)| !line.aside);
    lines.filter_map(|(line, amount)| Some((amount.mass?, line)))
}
