//! What meets the aims of a recipe, as it is told: each line's old and new amount, each aim's old and new figure.

use crate::aims::change::{Contradiction, Line, Way};
use crate::aims::{Held, held, shown, shown_aim};
use crate::measure::number::Number;
use crate::measure::quantity::Mass;
use crate::model::aim::{Aim, AimUnit};

/// A line with its old and its new amount.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LineAimed {
    /// The part.
    pub part: String,
    /// What.
    pub ingredient: String,
    /// What it weighed.
    pub old: Option<Mass>,
    /// What it weighs now.
    pub new: Option<Mass>,
    /// What it would weigh exactly, before rounding to what is weighed and written.
    pub exact: Option<Mass>,
    /// Whether it may change.
    pub may_change: bool,
}

/// An aim with its old and its new figure.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FigureAimed {
    /// The part; `None` for the whole.
    pub part: Option<String>,
    /// The figure.
    pub figure: String,
    /// What it is counted on, in one word or two; empty for all of it.
    pub of: Option<&'static str>,
    /// What is aimed at, as it is printed.
    pub aim: String,
    /// The least.
    pub low: Option<Number>,
    /// The most.
    pub high: Option<Number>,
    /// In what.
    pub unit: AimUnit,
    /// Before.
    pub was: Option<Number>,
    /// Now.
    pub is: Option<Number>,
    /// Whether it is one of those that keep the rest from changing less.
    pub binds: bool,
    /// The options under which alone it is so; empty for all.
    pub only: String,
}

/// Aims that contradict each other: each with the nearest that it comes when the others are held.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Apart {
    /// The aim.
    pub aim: FigureAimed,
    /// The nearest; `None` where it cannot be said.
    pub nearest: Option<Number>,
}

/// The whole answer.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Aimed {
    /// The recipe's name.
    pub recipe: String,
    /// Whether every aim is met now.
    pub met: bool,
    /// Whether every aim was met before.
    pub was_met: bool,
    /// The aims.
    pub aims: Vec<FigureAimed>,
    /// The lines.
    pub lines: Vec<LineAimed>,
    /// Aims that contradict each other.
    pub apart: Vec<Apart>,
    /// What else there is to say.
    pub remarks: Vec<String>,
}

/// The lines, before and now.
pub fn lines(all: &[Line], free: &[usize], before: &[Way], now: &[Way], exact: &[Way]) -> Vec<LineAimed> {
    let line = |(number, line): (usize, &Line)| LineAimed {
        part: line.part.clone(),
        ingredient: line.name.to_string(),
        old: line.mass(before),
        new: line.mass(now),
        exact: line.mass(exact),
        may_change: free.contains(&number),
    };
    all.iter().enumerate().map(line).collect()
}

fn value(held: &Held<'_>) -> Option<Number> {
    held.reading.as_ref().and_then(|reading| reading.value().ok())
}

/// The aims, before and now; an aim that says the same under every choice stands once.
pub fn aims(before: &[Way], now: &[Way], binding: &[(usize, usize)]) -> Vec<FigureAimed> {
    let mut all: Vec<(FigureAimed, usize)> = Vec::new();
    for (number, (old, new)) in before.iter().zip(now).enumerate() {
        let was = held(&old.recipe, &old.formula);
        let is = held(&new.recipe, &new.formula);
        for (at, (was, is)) in was.iter().zip(&is).enumerate() {
            let binds = binding.contains(&(number, at));
            let one = one(old, was.aim, was, value(was), value(is), binds);
            match all.iter_mut().find(|(known, _)| FigureAimed { binds, only: String::new(), ..known.clone() } == one) {
                Some((known, times)) => {
                    known.binds |= binds;
                    *times += 1;
                }
                None => all.push((FigureAimed { only: chosen(old), ..one }, 1)),
            }
        }
    }
    let everywhere = |(one, times): (FigureAimed, usize)| {
        if times == before.len() { FigureAimed { only: String::new(), ..one } } else { one }
    };
    all.into_iter().map(everywhere).collect()
}

/// The options that a way takes.
fn chosen(way: &Way) -> String {
    let taken = way.recipe.selection.iter().map(|(_, option)| option.as_str().to_owned());
    taken.collect::<Vec<String>>().join(", ")
}

fn one(way: &Way, aim: &Aim, held: &Held<'_>, was: Option<Number>, is: Option<Number>, binds: bool) -> FigureAimed {
    let part = way.recipe.part(held.place.part).filter(|_| !held.place.whole);
    FigureAimed {
        part: part.map(|part| part.name.to_string()),
        figure: aim.figure.word().to_owned(),
        of: held.of.map(|of| of.words().trim_start_matches("of ")),
        aim: format!("{}{}", shown_aim(aim), held.of_words()),
        low: aim.low,
        high: aim.high,
        unit: aim.unit.clone(),
        was,
        is,
        binds,
        only: String::new(),
    }
}

/// The aims of a contradiction.
pub fn apart(ways: &[Way], contradiction: &Contradiction) -> Vec<Apart> {
    let mut found: Vec<Apart> = Vec::new();
    for (way, number, nearest) in &contradiction.aims {
        let Some(way) = ways.get(*way) else { continue };
        let all = held(&way.recipe, &way.formula);
        let Some(held) = all.get(*number) else { continue };
        let aim = one(way, held.aim, held, value(held), value(held), false);
        found.push(Apart { aim, nearest: *nearest });
    }
    found
}

impl Apart {
    /// How far the nearest is from what is aimed at, in the unit of the aim.
    pub fn distance(&self) -> Option<Number> {
        let nearest = self.nearest?;
        match (self.aim.low, self.aim.high) {
            (Some(low), _) if nearest < low => low.minus(nearest).ok(),
            (_, Some(high)) if nearest > high => nearest.minus(high).ok(),
            _ => None,
        }
    }

    /// The sentence: how near it comes when the others are held.
    pub fn words(&self) -> String {
        let whose = self.aim.part.as_ref().map_or_else(String::new, |part| format!(" of {part}"));
        let begin = format!("{}{whose}, wanted {}", self.aim.figure, self.aim.aim);
        match (self.nearest, self.distance()) {
            (Some(nearest), Some(distance)) => format!(
                "{begin}: with the others held it comes to {} at best, {} away",
                shown(&self.aim.unit, nearest),
                points(&self.aim.unit, distance),
            ),
            (Some(nearest), None) => {
                format!("{begin}: with the others held it comes to {}", shown(&self.aim.unit, nearest))
            }
            (None, _) => begin,
        }
    }
}

/// A difference: of shares in points.
fn points(unit: &AimUnit, difference: Number) -> String {
    match unit {
        AimUnit::Percent => format!("{} points", shown(unit, difference).trim_end_matches(" %")),
        unit => shown(unit, difference),
    }
}
