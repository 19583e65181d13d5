//! What is done, by whom, for how long.

use crate::language::syntax::Name;
pub use crate::language::syntax::StepKind;
use crate::measure::number::Number;
use crate::measure::quantity::{Duration, Mass, Proportion};
use crate::measure::show;
use crate::measure::temperature::Temperature;
use crate::measure::value::Said;
pub use crate::model::asked::Asked;
use crate::model::larder::Larder;
use crate::model::lowered::Lowered;
use crate::model::published::Picture;
use crate::model::reference::PartId;
pub use crate::model::reference::StepRef;
use crate::text::source::Span;
use std::ops::{Deref, DerefMut};
use std::sync::{Arc, OnceLock};

/// How a step is cut into loads.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Loads {
    /// The time is for all of it.
    Once,
    /// The time is for one piece.
    Each,
    /// The time is for so many pieces.
    Of(Number),
    /// The time is for one piece, and so many are done one after the other before what comes next takes them.
    EachOf(Number),
}

impl Loads {
    /// Whether the time is for one piece.
    pub fn is_by_piece(self) -> bool {
        matches!(self, Loads::Each | Loads::EachOf(_))
    }

    /// How many pieces the step says that a load has.
    pub fn size(self) -> Option<Number> {
        match self {
            Loads::Of(size) | Loads::EachOf(size) => Some(size),
            Loads::Once | Loads::Each => None,
        }
    }
}

/// When a step happens, other than after the step above.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Timing {
    /// While the other runs.
    During(StepRef),
    /// At the [moments](Step::moments) of the other, counted from its start.
    Into(StepRef),
    /// Any time before the other, whatever the other's part takes.
    Before(StepRef),
    /// Any time after the other.
    After(StepRef),
    /// As soon as the other ends.
    StraightAfter(StepRef),
    /// Not longer than this after the other ends.
    Within(Duration, StepRef),
}

impl Timing {
    /// The other step.
    pub fn other(self) -> StepRef {
        match self {
            Timing::During(other)
            | Timing::Into(other)
            | Timing::Before(other)
            | Timing::After(other)
            | Timing::StraightAfter(other)
            | Timing::Within(_, other) => other,
        }
    }
}

/// What a pair of braces draws on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Target {
    /// A line of the step's own part.
    Line(usize),
    /// A preferment that was taken out of the step's part.
    Preferment(PartId),
}

/// How much a pair of braces takes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Take {
    /// All there is.
    All,
    /// What the other braces leave.
    Rest,
    /// A share.
    Share(Proportion),
    /// A mass, which scales.
    Mass(Mass),
    /// A volume or a count, which scales.
    Measure(Said),
}

/// A piece of prose, understood.
#[derive(Debug, Clone, PartialEq, Eq)]
#[expect(
    clippy::large_enum_variant,
    reason = "most pieces take an ingredient; a box for each would be one more allocation"
)]
pub enum Words {
    /// CommonMark; lines end in a line feed.
    Text(String),
    /// An amount of an ingredient.
    Use {
        /// How much.
        take: Take,
        /// Of what; `None` when the name was not found, which was reported.
        target: Option<Target>,
        /// As it was written.
        name: Name,
    },
    /// A fixed measure, possibly said twice.
    Measure(Vec<Said>),
}

impl Words {
    /// The temperature that it is, as it was said first, from and to.
    pub fn temperature(&self) -> Option<(&Said, (Temperature, Temperature))> {
        let Words::Measure(said) = self else { return None };
        let first = said.first()?;
        Some((first, first.temperatures()?))
    }
}

/// The temperatures among some words, from and to, each with how it was said.
pub fn temperatures<'w>(
    words: impl IntoIterator<Item = &'w Words>,
) -> impl Iterator<Item = (&'w Said, (Temperature, Temperature))> {
    words.into_iter().filter_map(Words::temperature)
}

/// The hottest that some words say.
pub fn hottest_of<'w>(words: impl IntoIterator<Item = &'w Words>) -> Option<Temperature> {
    temperatures(words).map(|(_, (_, high))| high).max()
}

impl Step {
    /// The hottest that its words and its cue say; its head is not asked.
    pub fn hottest_said(&self) -> Option<Temperature> {
        hottest_of(self.words.iter().chain(&self.cue))
    }

    /// The equipment that it holds, and whether nobody works there: what stands in a fridge leaves room for more.
    pub fn held(&self) -> Option<(&Name, bool)> {
        Some((self.equipment.as_ref()?, self.kind == StepKind::Wait))
    }

    /// The numbers of the lines of its part that its words take, as often as they do.
    pub fn lines_taken(&self) -> impl Iterator<Item = usize> {
        self.words.iter().filter_map(|word| match word {
            Words::Use { target: Some(Target::Line(at)), .. } => Some(*at),
            _ => None,
        })
    }

    /// When within another step it is done, as printed: `45 min and 90 min`.
    pub fn moments_said(&self) -> String {
        let moments: Vec<String> = self.moments.iter().map(|moment| show::duration(*moment).to_string()).collect();
        match moments.split_last() {
            Some((last, before)) if before.len() > 1 => format!("{} and {last}", before.join(", ")),
            _ => moments.join(" and "),
        }
    }
}

/// A step: what is written of it, and its place among others. What is written is there once where several have the same, as under
/// selections that do not touch it, so that what is found out of it is found out once; whoever changes it has one of its own.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Step {
    /// Its order, if not after the step above.
    pub order: Vec<Timing>,
    written: Arc<WrittenStep>,
}

impl Step {
    /// A step in no order of its own.
    pub fn new(written: WrittenStep) -> Step {
        Step { order: Vec::new(), written: Arc::new(written) }
    }

    /// The same step without its order, which is bound once all steps are there.
    pub fn unbound(&self) -> Step {
        Step { order: Vec::new(), written: Arc::clone(&self.written) }
    }

    /// Where the same is written as of another, as under another choice, it is there once.
    pub fn share_with(&mut self, other: &Step) {
        if self.written == other.written {
            self.written = Arc::clone(&other.written);
        }
    }
}

impl Deref for Step {
    type Target = WrittenStep;

    fn deref(&self) -> &WrittenStep {
        &self.written
    }
}

/// Who else has it keeps it as it is, and what was found out of it is asked again.
impl DerefMut for Step {
    fn deref_mut(&mut self) -> &mut WrittenStep {
        let written = Arc::make_mut(&mut self.written);
        written.asked = Asked::default();
        written
    }
}

/// What is written of a step, all but its place among others.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct WrittenStep {
    /// Its name.
    pub name: Name,
    /// Who is busy.
    pub kind: StepKind,
    /// The shorter and the longer time.
    pub time: (Duration, Duration),
    /// How it is cut into loads.
    pub loads: Loads,
    /// What it holds.
    pub equipment: Option<Name>,
    /// How hot the oven is or the place where it stands; the lower end and, for a range, the upper.
    pub temperature: Option<(Temperature, Option<Temperature>)>,
    /// How hot it is later, and how long after the step's start: an oven that falls.
    pub later: Vec<(Temperature, Duration)>,
    /// The later ones as they were written, in the same order.
    pub later_said: Vec<Vec<Said>>,
    /// How hot it is as it was written, possibly in both scales.
    pub temperature_said: Vec<Said>,
    /// How long it may go on without harm.
    pub up_to: Option<Duration>,
    /// How long what it made may stand before the next step, if that is said.
    pub may_stand: Option<Duration>,
    /// How long after the start of another step it is done, once for each; with [`Timing::Into`].
    pub moments: Vec<Duration>,
    /// Whose card it prints on.
    pub station: Option<Name>,
    /// Hands needed at once.
    pub people: u32,
    /// How many people may divide the work; 1 where nobody may.
    pub shared_by: u32,
    /// What is done.
    pub words: Vec<Words>,
    /// Its pictures, for readers.
    pub pictures: Vec<Picture>,
    /// The cue by which it is done.
    pub cue: Vec<Words>,
    /// The head line.
    pub span: Span,
    /// The time in the head line.
    pub time_span: Span,
    /// What checks ask of it.
    pub asked: Asked<OfStep>,
}

/// What a step says of frying.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Frying {
    /// Nothing.
    Unsaid,
    /// Some word of it has to do with it.
    Named,
    /// It is done in deep fat: by a fryer, or by its words.
    Deep,
}

/// What the head of a step tells of heat and cold.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct OfHead {
    /// Whether it works with heat.
    pub is_hot: bool,
    /// Whether it cooks, its name included.
    pub cooks: bool,
    /// Whether it bakes in an oven.
    pub bakes: bool,
    /// Whether it stands in the cold.
    pub chills: bool,
}

/// Food that the words of a step put in or on, no brace among them.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PutIn {
    /// Its name, as it stands there in lower case.
    pub name: String,
    /// Whether that is one word.
    pub is_one: bool,
    /// Whether an amount stands beside it.
    pub has_amount: bool,
    /// Whether it was spoken of before: `the cold cream`.
    pub is_known: bool,
    /// Of what is buttered or floured: only that an allergen touches the food is asked.
    pub is_of_tins: bool,
    /// By what it is said to go in.
    pub by: SaidToGoIn,
}

/// By what a food is said to go in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SaidToGoIn {
    /// A verb of putting in or on.
    ByAVerb,
    /// No such verb: `Egg wash.`
    Without,
    /// It stands beside it on the table: `Serve with butter.`
    Beside,
}

/// The same, as a larder knows it.
#[derive(Debug)]
pub struct PutInBy {
    /// The larder.
    pub larder: Arc<Larder>,
    /// What is put in of which it knows the name.
    pub food: Vec<PutIn>,
}

/// What is found out of a step.
#[derive(Debug, Default)]
pub struct OfStep {
    /// What its head tells of heat and cold, which every second check asks of every step.
    pub head: OnceLock<OfHead>,
    /// Its name, words and cue in lower case, which a dozen checks look at.
    pub lower: OnceLock<Lowered>,
    /// Whether it cooks, by its head or its words.
    pub cooks: OnceLock<bool>,
    /// What its equipment and its words say of frying.
    pub frying: OnceLock<Frying>,
    /// Whether each of its verbs of cooking stands right before what it takes.
    pub cooks_what_it_takes: OnceLock<bool>,
    /// The food that its words put in, of the larder by which it was asked first.
    pub put_in: OnceLock<PutInBy>,
}
