//! The tree: every line of a file with its places, comments and strays included.
//!
//! What stands here was read, not understood: names are not bound, units of unknown country not sized.
//! A file is a flat list of lines, because that is what a person sees and edits; blocks (parts, steps) are grouped
//! when the tree is resolved.

use crate::measure::number::Number;
use crate::measure::unit::{Measures, Unit};
use crate::text::source::{SourceId, Span, Spanned};

mod aim_words;
mod book_words;
mod log_words;
mod name;
mod pan_words;
mod pantry_words;
mod reader_words;
mod spans;
mod step_words;

pub use aim_words::{AimAmount, AimBound, AimLine, AimOf};
pub use book_words::{BookLine, PageClause, PageSize};
pub use log_words::{BakeClause, CameTo, HeatOf, LogLine, RanClause, RanTime, Verdict};
pub use name::{Key, Name};
pub use pan_words::{PanKind, WrittenPan};
pub use pantry_words::{
    CookClause, Drained, EquipmentClause, FactKind, Flag, MakeClause, Moment, SaleField, Shift, StoreClause, TraceKind,
    WantedAmount,
};
pub use reader_words::{PictureLine, StandInClause, TextKind};
pub(crate) use spans::Spans;
pub use step_words::{LaterHeat, StepClause, StepKind, StepLine};

/// A number with the precision that its digits claim.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct WrittenNumber {
    /// Its value.
    pub value: Number,
    /// How many digits stand behind its point; `None` for a fraction, which claims to be exact.
    pub decimals: Option<u8>,
    /// Where.
    pub span: Span,
}

impl WrittenNumber {
    /// How far its digits leave it open: half a unit of the last one; nothing for a fraction.
    pub fn slack(&self) -> Number {
        // Of so many digits as are read this fits half the width, which is several times faster.
        let narrow = |decimals: u8| 10_i64.checked_pow(decimals.into()).map(i128::from);
        let tenths = |decimals: u8| narrow(decimals).unwrap_or_else(|| 10_i128.saturating_pow(decimals.into()));
        self.decimals.map_or(Number::ZERO, |decimals| Number::constant(1, tenths(decimals).saturating_mul(2)))
    }
}

/// A number with its unit, for example `30 min`; without a unit it counts pieces.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Term {
    /// How many.
    pub number: WrittenNumber,
    /// Of what.
    pub unit: Option<Spanned<Unit>>,
}

/// One amount as written: `1 h 30 min`, `90-120 min`, `225 g`.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub struct Quantity {
    /// The terms that add up.
    pub terms: Vec<Term>,
    /// The other end, when a range was written.
    pub upper: Option<Vec<Term>>,
    /// Where.
    pub span: Span,
}

/// What stands behind the leader.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub enum Amount {
    /// The same amount said once or several times.
    Chain(Vec<Quantity>),
    /// All of another part, or of the line in the total formula.
    All(Span),
    /// `to taste`.
    ToTaste(Span),
    /// `as needed`.
    AsNeeded(Span),
    /// Something that was reported and cannot be computed with.
    Broken(Span),
}

impl Amount {
    /// Where it stands.
    pub fn span(&self) -> Span {
        match self {
            Amount::Chain(chain) => match (chain.first(), chain.last()) {
                (Some(first), Some(last)) => first.span.to(last.span),
                _ => Span::new(SourceId(0), 0, 0),
            },
            Amount::All(span) | Amount::ToTaste(span) | Amount::AsNeeded(span) | Amount::Broken(span) => *span,
        }
    }
}

/// What stands behind the amount, after a comma.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub enum IngredientClause {
    /// `at 30 C`
    At(Vec<Quantity>),
    /// `yield 92 %`
    Yield(Quantity),
    /// `counts as flour`
    CountsAsFlour,
    /// `not flour`
    NotFlour,
    /// `optional`
    Optional,
    /// `aside`
    Aside,
    /// `strained out`
    StrainedOut,
    /// `from store`
    FromStore,
    /// `leaves egg white 190 %`
    Leaves(Name, Quantity),
    /// `before shape`: of a part, that step and what comes after it are not done for this use.
    Before(Name),
    /// `instead: margarine 100 g, less rich`: what may stand in for it.
    Instead(StandInClause),
    /// Anything else: how it is prepared.
    Preparation(String),
}

/// An ingredient line.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub struct IngredientLine {
    /// What.
    pub name: Name,
    /// The dotted leader.
    pub leader: Span,
    /// How much.
    pub amount: Amount,
    /// How.
    pub clauses: Vec<Spanned<IngredientClause>>,
}

/// How much of an ingredient a pair of braces takes.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub enum Share {
    /// `{half of x}` and `{1/3 of x}`
    Fraction(Number),
    /// `{300 g of x}`, `{20 % of x}`, `{2 of x}`
    Quantity(Quantity),
    /// `{rest of x}`
    Rest,
    /// `{x}`
    All,
}

/// A piece of prose.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub enum Piece {
    /// Words, as CommonMark.
    Text(String),
    /// So much of an ingredient.
    Use(Share, Name),
    /// A fixed measure: `{78 g}`, `{190 C = 375 F}`.
    Measure(Vec<Quantity>),
}

/// `makes 24 buns` or `makes 1.1 kg`.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub enum Makes {
    /// So many of something.
    Pieces(WrittenNumber, Name),
    /// So much.
    Mass(Vec<Quantity>),
}

/// `24 x 450 g small`: pieces of one size, and what they are called where there are several.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub struct SizedPieces {
    /// How many.
    pub count: WrittenNumber,
    /// What one weighs.
    pub each: Vec<Quantity>,
    /// Their sort.
    pub sort: Option<Name>,
}

/// What 100 % is.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub enum PercentOf {
    /// The flour.
    Flour,
    /// Everything.
    Total,
    /// One ingredient.
    Named(Name),
}

/// How a part is kept.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub enum KeptHow {
    /// In the refrigerator.
    Chilled,
    /// In the freezer.
    Frozen,
    /// At a temperature.
    At(Vec<Quantity>),
}

/// What a line says. Rare figures stand behind a pointer, so that every other line takes less room.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
#[allow(missing_docs)] // the variants are the lines of the language, described in grammar/LANGUAGE.md
pub enum Content {
    Blank,
    Comment,
    Stray,
    Recipe(Name),
    Kitchen(Name),
    Day(Name),
    IngredientBlock(Name),
    Use(Spanned<String>),
    Choose {
        name: Name,
        options: Vec<Name>,
    },
    Measures(Spanned<Measures>),
    Text {
        kind: TextKind,
        pieces: Vec<Piece>,
    },
    /// A line that continues a step, a note or a caution.
    Prose(Vec<Piece>),
    /// `until …` below a step.
    Until(Vec<Piece>),
    Makes {
        makes: Makes,
        loss: Option<Quantity>,
        /// Whether everything alike is lost, and not water: `loss 6 % of everything`.
        of_everything: bool,
        bake_loss: Option<Box<Quantity>>,
        pan: Option<Box<WrittenPan>>,
    },
    Part {
        name: Name,
        from: Option<Name>,
    },
    Percent(Spanned<PercentOf>),
    /// `per piece`, or `per small` for the pieces of one sort.
    PerPiece(Option<Name>),
    Divide {
        sizes: Vec<SizedPieces>,
        loss: Option<Quantity>,
    },
    Keeps {
        time: Quantity,
        how: Option<KeptHow>,
    },
    Spare(Vec<Quantity>),
    Aim(Box<AimLine>),
    DesiredTemperature(Vec<Quantity>),
    Ingredient(IngredientLine),
    Step(StepLine),
    Equipment {
        name: Name,
        count: Spanned<u32>,
        clauses: Vec<Spanned<EquipmentClause>>,
    },
    Cooks(Spanned<u32>),
    Cook {
        name: Name,
        shift: Option<Spanned<Shift>>,
        clauses: Vec<Spanned<CookClause>>,
    },
    Longest(Quantity),
    Open {
        from: jiff::civil::Time,
        to: jiff::civil::Time,
    },
    Scale {
        fine: bool,
        step: Quantity,
        up_to: Option<Quantity>,
    },
    Weighs {
        weight: Quantity,
        number: Option<WrittenNumber>,
        unit: Spanned<Unit>,
        measures: Option<Spanned<Measures>>,
    },
    OneWeighs(Quantity),
    Fact(FactKind, Quantity),
    Energy(WrittenNumber),
    Trace(TraceKind, WrittenNumber),
    NitrogenFactor(WrittenNumber),
    Is(Name),
    Flag(Flag),
    AlsoCalled(Vec<Name>),
    Contains(Vec<Name>),
    Costs {
        price: WrittenNumber,
        currency: Option<Name>,
        number: Option<WrittenNumber>,
        unit: Option<Spanned<Unit>>,
        on: Option<Spanned<jiff::civil::Date>>,
    },
    Source(String),
    Section(String),
    /// `listed as`: how it stands in a list of ingredients.
    Listed(String),
    Consists(String),
    /// A picture of the whole, of a part or of a step.
    Picture(PictureLine),
    /// Who wrote the recipe.
    By(String),
    /// Under which words a reader finds it.
    FiledUnder(Vec<Name>),
    /// What a label says in so many words.
    Sale(SaleField, String),
    /// `serving 55 g`, or `serving 50 g, 1 slice`.
    Serving(Quantity, Option<String>),
    /// `drained 320 g of 550 g`, `drained 58 %`, `drained as packed`.
    Drained(Drained),
    /// `best before 3 days`, or `use by 2 days, REASON`.
    GoodFor {
        time: Quantity,
        use_by: Option<String>,
    },
    Ready(Moment),
    Make {
        wanted: WantedAmount,
        /// A part of the recipe that is made by itself.
        part: Option<Name>,
        path: Spanned<String>,
        clauses: Vec<Spanned<MakeClause>>,
    },
    /// What there is already of what is made.
    Store {
        quantity: Quantity,
        part: Option<Name>,
        path: Spanned<String>,
        clauses: Vec<Spanned<StoreClause>>,
    },
    /// A list of what there is to make things of.
    Stock(Spanned<String>),
    /// A line of a log of bakes.
    Logged(Box<LogLine>),
    /// A line of a book.
    OfBook(Box<BookLine>),
}

/// One line of a file.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub struct Line {
    /// The physical line without its line break.
    pub span: Span,
    /// What is said, without indentation, comment and condition.
    pub said: Span,
    /// What it says.
    pub content: Content,
    /// The options under which it holds; empty: always.
    pub only: Vec<Name>,
    /// The comment at its end, from the `#`.
    pub comment: Option<Span>,
    /// How far it is indented, in columns (a tab counts as one).
    pub indent: usize,
    /// Whether it stands deeper than the step, note or caution above and so continues its text.
    pub continues: bool,
}

/// What a file is about, told by its first line.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum FileKind {
    /// A recipe.
    Recipe,
    /// A kitchen, a larder, or both.
    Kitchen,
    /// A day.
    Day,
    /// A log of bakes.
    Bakes,
    /// A book of recipes for readers.
    Book,
}

/// A whole file as it was read.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub struct Tree {
    /// Which text.
    pub source: SourceId,
    /// What it is about.
    pub kind: FileKind,
    /// All lines in order.
    pub lines: Vec<Line>,
}

impl Tree {
    /// The line in which a byte of the text lies.
    pub fn line_at(&self, byte: u32) -> Option<&Line> {
        let begun = self.lines.partition_point(|line| line.span.start <= byte);
        self.lines.get(begun.checked_sub(1)?).filter(|line| byte <= line.span.end)
    }

    /// Whether one of its lines says something like this.
    pub fn says(&self, is_so: impl Fn(&Content) -> bool) -> bool {
        self.lines.iter().any(|line| is_so(&line.content))
    }

    /// Whether a line could not be read, so that sums over the whole would mislead.
    pub fn has_strays(&self) -> bool {
        self.says(|content| {
            matches!(content, Content::Stray | Content::Ingredient(IngredientLine { amount: Amount::Broken(_), .. }))
        })
    }
}
