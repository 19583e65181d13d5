//! The lines of a log of bakes.

use super::{BookLine, Content, Name, Quantity, WrittenNumber};
use crate::text::source::{Span, Spanned};
use jiff::civil::{Date, Time};

/// What a line of a log says.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub enum LogLine {
    /// `bakes of "rolls.miche"`
    Of(Spanned<String>),
    /// `bake 2027-03-02 05:30, 100 rolls, choose hand`
    Bake {
        /// The day on which it began.
        date: Spanned<Date>,
        /// The time at which it began, where that is said.
        time: Option<Time>,
        /// How much, with which choices, from which revision.
        clauses: Vec<Spanned<BakeClause>>,
    },
    /// `by Mara`; empty where nobody has filled it in.
    By(String),
    /// `room 21 C`; nothing where nobody has filled it in.
    Heat(HeatOf, Option<Quantity>),
    /// `water .... 2.6 kg, at 18 C`: the name, possibly with ` of ` and its part.
    WentIn {
        /// What.
        name: Name,
        /// How much; nothing where nobody has filled it in.
        amount: Option<Quantity>,
        /// How warm.
        at: Vec<Quantity>,
    },
    /// `mix: 05:34-05:47, left at 26.5 C`: the name, possibly with ` of ` and its part.
    Ran {
        /// Which step.
        step: Name,
        /// When, or how long.
        time: Option<Spanned<RanTime>>,
        /// What was measured besides.
        clauses: Vec<Spanned<RanClause>>,
    },
    /// `crumb: 4 of 5, even`
    Judged {
        /// What is judged.
        name: Name,
        /// The mark.
        mark: WrittenNumber,
        /// The highest mark there is.
        of: WrittenNumber,
        /// Why.
        words: String,
    },
    /// `note Flour from a new sack.`
    Note(String),
    /// `verdict keep`; nothing where nobody has filled it in. The words may follow.
    Verdict(Option<Verdict>, String),
}

/// What stands behind the moment of a bake, after a comma.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub enum BakeClause {
    /// `100 rolls`, and what was said of them.
    Pieces(WrittenNumber, Option<Name>),
    /// `12 kg`
    Mass(Quantity),
    /// `x 2`
    Times(WrittenNumber),
    /// `of 24 small and 12 large`
    Sorts(Vec<(WrittenNumber, Name)>),
    /// `choose hand`, `choose mixing = hand`
    Choose(Name, Option<Name>),
    /// `from ab12cd3`
    From(Spanned<String>),
    /// Something that was reported.
    Broken,
}

/// What a temperature of the day is of.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum HeatOf {
    /// The room.
    Room,
    /// The flour.
    Flour,
    /// The water from the tap.
    Tap,
    /// The preferment.
    Preferment,
}

impl HeatOf {
    /// All of them, in the order in which a sheet asks for them.
    pub const ALL: [HeatOf; 4] = [HeatOf::Room, HeatOf::Flour, HeatOf::Tap, HeatOf::Preferment];

    /// The words that such a line begins with.
    pub fn words(self) -> &'static str {
        match self {
            HeatOf::Room => "room",
            HeatOf::Flour => "flour at",
            HeatOf::Tap => "tap",
            HeatOf::Preferment => "preferment at",
        }
    }
}

/// When a step was done.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub enum RanTime {
    /// From the one time of the day to the other.
    Between(Time, Time),
    /// Since then, and still running.
    Since(Time),
    /// So long; when is not said.
    Lasted(Quantity),
}

/// What was measured of a step besides its time.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub enum RanClause {
    /// `left at 26.5 C`
    LeftAt(Vec<Quantity>),
    /// `at 225 C`
    At(Vec<Quantity>),
    /// `load 2`
    Load(i64),
    /// `came to 98 x 88 g`
    CameTo(CameTo),
    /// Something that was reported.
    Broken,
}

/// What a step came to.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub enum CameTo {
    /// `98 x 88 g`: pieces, and what one of them weighs.
    Sized(WrittenNumber, Quantity),
    /// `75.5 g each`
    Each(Quantity),
    /// `8.6 kg`
    All(Quantity),
    /// `98` or `98 rolls`
    Pieces(WrittenNumber, Option<Name>),
}

/// What is to become of the formula.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Verdict {
    /// It stays.
    Keep,
    /// Something is to be changed.
    Change,
    /// It is given up.
    Drop,
}

impl Verdict {
    /// The word of the language.
    pub fn word(self) -> &'static str {
        match self {
            Verdict::Keep => "keep",
            Verdict::Change => "change",
            Verdict::Drop => "drop",
        }
    }
}

impl Content {
    /// The path of a file that is read with this one: of `use`, `make`, `store`, `bakes of` and `page`.
    pub fn path(&self) -> Option<&Spanned<String>> {
        match self {
            Content::Use(path) | Content::Make { path, .. } | Content::Store { path, .. } => Some(path),
            Content::Logged(line) => match &**line {
                LogLine::Of(path) => Some(path),
                _ => None,
            },
            Content::OfBook(line) => match &**line {
                BookLine::Page { path, .. } => Some(path),
                _ => None,
            },
            _ => None,
        }
    }
}

impl super::Spans for LogLine {
    fn each_span<F: FnMut(&mut Span)>(&mut self, see: &mut F) {
        match self {
            LogLine::Of(path) => path.each_span(see),
            LogLine::Bake { date, time: _, clauses } => {
                date.span.each_span(see);
                clauses.each_span(see);
            }
            LogLine::By(_) | LogLine::Note(_) | LogLine::Verdict(..) => {}
            LogLine::Heat(_, quantity) => quantity.each_span(see),
            LogLine::WentIn { name, amount, at } => {
                name.each_span(see);
                amount.each_span(see);
                at.each_span(see);
            }
            LogLine::Ran { step, time, clauses } => {
                step.each_span(see);
                if let Some(time) = time {
                    if let RanTime::Lasted(quantity) = &mut time.value {
                        quantity.each_span(see);
                    }
                    time.span.each_span(see);
                }
                clauses.each_span(see);
            }
            LogLine::Judged { name, mark, of, words: _ } => {
                name.each_span(see);
                mark.each_span(see);
                of.each_span(see);
            }
        }
    }
}

impl super::Spans for BakeClause {
    fn each_span<F: FnMut(&mut Span)>(&mut self, see: &mut F) {
        match self {
            BakeClause::Pieces(number, noun) => {
                number.each_span(see);
                noun.each_span(see);
            }
            BakeClause::Mass(quantity) => quantity.each_span(see),
            BakeClause::Times(number) => number.each_span(see),
            BakeClause::Sorts(sorts) => sorts.iter_mut().for_each(|(count, sort)| {
                count.each_span(see);
                sort.each_span(see);
            }),
            BakeClause::Choose(first, second) => {
                first.each_span(see);
                second.each_span(see);
            }
            BakeClause::From(revision) => revision.span.each_span(see),
            BakeClause::Broken => {}
        }
    }
}

impl super::Spans for RanClause {
    fn each_span<F: FnMut(&mut Span)>(&mut self, see: &mut F) {
        match self {
            RanClause::LeftAt(chain) | RanClause::At(chain) => chain.each_span(see),
            RanClause::Load(_) | RanClause::Broken => {}
            RanClause::CameTo(CameTo::Sized(number, quantity)) => {
                number.each_span(see);
                quantity.each_span(see);
            }
            RanClause::CameTo(CameTo::Each(quantity) | CameTo::All(quantity)) => quantity.each_span(see),
            RanClause::CameTo(CameTo::Pieces(number, noun)) => {
                number.each_span(see);
                noun.each_span(see);
            }
        }
    }
}
