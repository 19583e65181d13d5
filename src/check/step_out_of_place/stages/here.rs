//! A step in its place among the others of its part, and what is asked of it there.

use crate::measure::number::Number;
use crate::measure::quantity::Duration;
use crate::model::cooking::bakes;
use crate::model::kind::Kind;
use crate::model::recipe::{Ingredient, Part, Recipe};
use crate::model::step::{Step, StepKind, Target, Words};

/// A step in its place.
#[derive(Clone, Copy)]
pub(super) struct Here<'p> {
    pub(super) recipe: &'p Recipe,
    pub(super) part: &'p Part,
    pub(super) at: usize,
    pub(super) step: &'p Step,
}

/// Verbs with which the name of a step begins, and a bit for each letter that one of them begins with: most names begin with another.
pub(super) struct Verbs {
    beginnings: &'static [&'static str],
    pub(super) letters: u32,
}

impl Verbs {
    /// Of verbs in lower case.
    pub(super) const fn of(beginnings: &'static [&'static str]) -> Verbs {
        let (mut letters, mut rest) = (0, beginnings);
        while let Some((verb, others)) = rest.split_first() {
            letters |= letter(verb);
            rest = others;
        }
        Verbs { beginnings, letters }
    }
}

/// A bit for what a text begins with.
pub(super) const fn letter(text: &str) -> u32 {
    match text.as_bytes() {
        [first, ..] => 1 << (*first & 31),
        [] => 0,
    }
}

/// Verbs, where they are asked for: `here.begins(verbs!["boil", "poach"])`.
macro_rules! verbs {
    ($($verb:literal),+ $(,)?) => {
        const { &$crate::check::step_out_of_place::stages::here::Verbs::of(&[$($verb),+]) }
    };
}
pub(super) use verbs;

fn seconds(seconds: i64) -> Duration {
    Duration::new(Number::whole(seconds))
}

/// In seconds.
pub(super) const HOUR: i64 = 3600;

impl<'p> Here<'p> {
    /// The step above it.
    pub(super) fn above(self) -> Option<Here<'p>> {
        let at = self.at.checked_sub(1)?;
        Some(Here { at, step: self.part.steps.get(at)?, ..self })
    }

    /// The step below it.
    pub(super) fn below(self) -> Option<Here<'p>> {
        let at = self.at + 1;
        Some(Here { at, step: self.part.steps.get(at)?, ..self })
    }

    /// The steps above it, from the first.
    pub(super) fn before(self) -> impl DoubleEndedIterator<Item = Here<'p>> {
        (0..self.at).filter_map(move |at| Some(Here { at, step: self.part.steps.get(at)?, ..self }))
    }

    /// The steps below it.
    pub(super) fn after(self) -> impl Iterator<Item = Here<'p>> {
        (self.at + 1..self.part.steps.len())
            .filter_map(move |at| Some(Here { at, step: self.part.steps.get(at)?, ..self }))
    }

    /// Whether nobody is busy with it.
    pub(super) fn waits(self) -> bool {
        self.step.kind == StepKind::Wait
    }

    /// Whether hands do it.
    pub(super) fn hands(self) -> bool {
        self.step.kind == StepKind::Hands
    }

    /// Whether the first word of its name begins with one of these: `cut out` is cutting, `warm cutters` is not.
    pub(super) fn begins(self, verbs: &'static Verbs) -> bool {
        let name = self.step.name.key.as_str();
        // No verb has a blank in it, so that what the name begins with is the beginning of its first word.
        letter(name) & verbs.letters != 0 && verbs.beginnings.iter().any(|verb| name.starts_with(verb))
    }

    /// The lines of its part that it takes.
    pub(super) fn taken(self) -> impl Iterator<Item = &'p Ingredient> {
        self.step.words.iter().filter_map(move |word| match word {
            Words::Use { target: Some(Target::Line(at)), .. } => self.part.lines.get(*at),
            _ => None,
        })
    }

    /// Whether it takes anything that goes into the mix.
    pub(super) fn takes(self) -> bool {
        self.step.words.iter().any(|word| match word {
            Words::Use { target: Some(Target::Line(at)), .. } => {
                self.part.lines.get(*at).is_none_or(|line| !line.aside)
            }
            Words::Use { .. } => true,
            _ => false,
        })
    }

    /// Whether it takes something of a kind that goes into the mix.
    pub(super) fn takes_kind(self, is: fn(Kind) -> bool) -> bool {
        self.taken().any(|line| !line.aside && is(line.kind))
    }

    /// Whether its part has something of which a dough, a batter or a paste is made.
    pub(super) fn is_of_dough(self) -> bool {
        let is_body = |line: &Ingredient| {
            !line.aside && matches!(line.kind, Kind::Flour | Kind::Starch | Kind::Grain | Kind::Nut)
        };
        self.part.lines.iter().any(is_body)
    }

    /// As [`Here::is_of_dough`], or its part takes pieces of a dough that is not baked yet.
    pub(super) fn is_or_takes_dough(self) -> bool {
        let is_raw = |part: &Part| {
            part.lines.iter().any(|line| line.is_flour && line.stays_in()) && !part.steps.iter().any(bakes)
        };
        self.is_of_dough() || self.part.lines.iter().filter_map(|line| self.recipe.part(line.part()?)).any(is_raw)
    }

    /// Whether its part, or what lies right in it, is raised with yeast or leaven.
    pub(super) fn is_raised(self) -> bool {
        let raised = |part: &Part| part.lines.iter().any(|line| line.kind.ferments());
        raised(self.part) || self.part.lines.iter().filter_map(|line| self.recipe.part(line.part()?)).any(raised)
    }

    /// Whether it says a temperature, and none over so many degrees Celsius.
    pub(super) fn warm_at_most(self, most: i64) -> bool {
        self.step.temperature.is_some_and(|(low, high)| high.unwrap_or(low).celsius() <= Number::whole(most))
    }

    /// Whether it takes so many seconds at least.
    pub(super) fn lasts(self, least: i64) -> bool {
        self.step.time.0 >= seconds(least)
    }
}

impl Here<'_> {
    /// As [`Here::is_raised`], where a dough is laminated in a part between.
    pub(super) fn is_raised_deep(self) -> bool {
        let holds = |part: &Part, of: fn(&Recipe, &Part) -> bool| {
            part.lines.iter().filter_map(|line| self.recipe.part(line.part()?)).any(|inner| of(self.recipe, inner))
        };
        let raised = |_: &Recipe, part: &Part| part.lines.iter().any(|line| line.kind.ferments());
        self.is_raised()
            || self
                .part
                .lines
                .iter()
                .filter_map(|line| self.recipe.part(line.part()?))
                .any(|inner| raised(self.recipe, inner) || holds(inner, raised))
    }
}

impl Here<'_> {
    /// Whether its part is of flour, starch or egg, and of no other part.
    pub(super) fn is_batter(self) -> bool {
        self.part.lines.iter().any(|line| matches!(line.kind, Kind::Flour | Kind::Egg | Kind::Starch))
            && self.part.lines.iter().all(|line| line.part().is_none())
    }
}
