//! The one walk over the places of a tree, and of the problems found in it.

use super::{
    AimAmount, AimBound, AimLine, AimOf, Amount, Content, CookClause, Drained, EquipmentClause, FactKind, Flag,
    IngredientClause, IngredientLine, KeptHow, LaterHeat, Line, MakeClause, Makes, Moment, Name, PanKind, PercentOf,
    PictureLine, Piece, Quantity, Share, SizedPieces, StandInClause, StepClause, StepKind, StepLine, StoreClause, Term,
    TextKind, WantedAmount, WrittenNumber, WrittenPan,
};
use crate::measure::unit::{Measures, Unit};
use crate::text::diagnostic::{Diagnostic, Edit, Label, Mend};
use crate::text::source::{Span, Spanned};

/// Something with places in it.
pub(crate) trait Spans {
    /// Goes through all places, each once.
    fn each_span<F: FnMut(&mut Span)>(&mut self, see: &mut F);

    /// Adds so many bytes to every place, for lines that stand lower or higher after an edit elsewhere.
    fn moved(&mut self, by: i64) {
        // Places stay inside a text, and a text's length fits.
        let add = |offset: u32| u32::try_from(i64::from(offset) + by).unwrap_or(0);
        self.each_span(&mut |span| *span = Span { start: add(span.start), end: add(span.end), ..*span });
    }
}

impl Spans for Span {
    fn each_span<F: FnMut(&mut Span)>(&mut self, see: &mut F) {
        see(self);
    }
}

impl<T: Spans> Spans for Vec<T> {
    fn each_span<F: FnMut(&mut Span)>(&mut self, see: &mut F) {
        self.iter_mut().for_each(|item| item.each_span(see));
    }
}

impl<T: Spans> Spans for Box<T> {
    fn each_span<F: FnMut(&mut Span)>(&mut self, see: &mut F) {
        (**self).each_span(see);
    }
}

impl<T: Spans> Spans for Option<T> {
    fn each_span<F: FnMut(&mut Span)>(&mut self, see: &mut F) {
        self.iter_mut().for_each(|item| item.each_span(see));
    }
}

impl<T: Spans> Spans for Spanned<T> {
    fn each_span<F: FnMut(&mut Span)>(&mut self, see: &mut F) {
        self.value.each_span(see);
        self.span.each_span(see);
    }
}

/// Types without a place in them.
macro_rules! placeless {
    ($($type:ty),* $(,)?) => {
        $(impl Spans for $type {
            fn each_span<F: FnMut(&mut Span)>(&mut self, _: &mut F) {}
        })*
    };
}

placeless!(
    String,
    bool,
    u32,
    Unit,
    Measures,
    StepKind,
    PanKind,
    TextKind,
    FactKind,
    Flag,
    AimBound,
    AimOf,
    jiff::civil::Time
);

/// Types whose named fields have places.
macro_rules! in_fields {
    ($($type:ty { $($field:ident),* }),* $(,)?) => {
        $(impl Spans for $type {
            fn each_span<F: FnMut(&mut Span)>(&mut self, see: &mut F) {
                $(self.$field.each_span(see);)*
            }
        })*
    };
}

in_fields! {
    Name { span },
    WrittenNumber { span },
    Term { number, unit },
    Quantity { terms, upper, span },
    WrittenPan { kind, measures, span },
    SizedPieces { count, each, sort },
    IngredientLine { name, leader, amount, clauses },
    StepLine { name, kind, duration, clauses },
    AimLine { figure, amount, of },
    PictureLine { path, words },
    StandInClause { name, amount, words },
    Moment { span },
    Line { span, said, content, only, comment },
    Label { span },
    Edit { span },
    Mend { edits },
    Diagnostic { span, also, mend },
}

impl Spans for Amount {
    fn each_span<F: FnMut(&mut Span)>(&mut self, see: &mut F) {
        match self {
            Amount::Chain(chain) => chain.each_span(see),
            Amount::All(span) | Amount::ToTaste(span) | Amount::AsNeeded(span) | Amount::Broken(span) => {
                span.each_span(see)
            }
        }
    }
}

impl Spans for AimAmount {
    fn each_span<F: FnMut(&mut Span)>(&mut self, see: &mut F) {
        match self {
            AimAmount::Measured(quantity) => quantity.each_span(see),
            AimAmount::Energy(low, high, _) => {
                low.each_span(see);
                high.each_span(see);
            }
            AimAmount::Plain(low, high, money) => {
                low.each_span(see);
                high.each_span(see);
                money.each_span(see);
            }
        }
    }
}

impl Spans for IngredientClause {
    fn each_span<F: FnMut(&mut Span)>(&mut self, see: &mut F) {
        match self {
            IngredientClause::At(chain) => chain.each_span(see),
            IngredientClause::Yield(quantity) => quantity.each_span(see),
            IngredientClause::CountsAsFlour
            | IngredientClause::NotFlour
            | IngredientClause::Optional
            | IngredientClause::Aside
            | IngredientClause::StrainedOut
            | IngredientClause::FromStore
            | IngredientClause::Preparation(_) => {}
            IngredientClause::Leaves(name, share) => {
                name.each_span(see);
                share.each_span(see);
            }
            IngredientClause::Before(name) => name.each_span(see),
            IngredientClause::Instead(stand_in) => stand_in.each_span(see),
        }
    }
}

impl Spans for LaterHeat {
    fn each_span<F: FnMut(&mut Span)>(&mut self, see: &mut F) {
        self.at.each_span(see);
        self.after.each_span(see);
    }
}

impl Spans for StepClause {
    fn each_span<F: FnMut(&mut Span)>(&mut self, see: &mut F) {
        match self {
            StepClause::AtATime(number) | StepClause::People(number) | StepClause::SharedBy(number) => {
                number.each_span(see);
            }
            StepClause::Using(name, chain, later) => {
                name.each_span(see);
                chain.each_span(see);
                later.each_span(see);
            }
            StepClause::Into(times, name) => {
                times.each_span(see);
                name.each_span(see);
            }
            StepClause::At(chain) => chain.each_span(see),
            StepClause::UpTo(quantity) | StepClause::MayStand(quantity) => quantity.each_span(see),
            StepClause::During(name)
            | StepClause::Before(name)
            | StepClause::After(name)
            | StepClause::StraightAfter(name)
            | StepClause::Station(name) => name.each_span(see),
            StepClause::Within(quantity, name) => {
                quantity.each_span(see);
                name.each_span(see);
            }
            StepClause::Each | StepClause::Broken => {}
        }
    }
}

impl Spans for EquipmentClause {
    fn each_span<F: FnMut(&mut Span)>(&mut self, see: &mut F) {
        match self {
            EquipmentClause::Holds(quantity)
            | EquipmentClause::Friction(quantity)
            | EquipmentClause::Heating(quantity)
            | EquipmentClause::Agrees(quantity) => quantity.each_span(see),
            EquipmentClause::Broken => {}
        }
    }
}

impl Spans for CookClause {
    fn each_span<F: FnMut(&mut Span)>(&mut self, see: &mut F) {
        match self {
            CookClause::Rests(quantity) | CookClause::Longest(quantity) => quantity.each_span(see),
            CookClause::On(_) | CookClause::Broken => {}
        }
    }
}

impl Spans for MakeClause {
    fn each_span<F: FnMut(&mut Span)>(&mut self, see: &mut F) {
        match self {
            MakeClause::Choose(first, second) => {
                first.each_span(see);
                second.each_span(see);
            }
            MakeClause::Ready(moment) => moment.each_span(see),
            MakeClause::Broken => {}
        }
    }
}

impl Spans for WantedAmount {
    fn each_span<F: FnMut(&mut Span)>(&mut self, see: &mut F) {
        match self {
            WantedAmount::Quantity(quantity) => quantity.each_span(see),
            WantedAmount::Sorts(sorts) => sorts.iter_mut().for_each(|(count, sort)| {
                count.each_span(see);
                sort.each_span(see);
            }),
        }
    }
}

impl Spans for StoreClause {
    fn each_span<F: FnMut(&mut Span)>(&mut self, see: &mut F) {
        match self {
            StoreClause::Choose(first, second) => {
                first.each_span(see);
                second.each_span(see);
            }
            StoreClause::Made(date) => date.span.each_span(see),
            StoreClause::Broken => {}
        }
    }
}

impl Spans for Piece {
    fn each_span<F: FnMut(&mut Span)>(&mut self, see: &mut F) {
        match self {
            Piece::Text(_) => {}
            Piece::Use(share, name) => {
                if let Share::Quantity(quantity) = share {
                    quantity.each_span(see);
                }
                name.each_span(see);
            }
            Piece::Measure(chain) => chain.each_span(see),
        }
    }
}

impl Spans for Makes {
    fn each_span<F: FnMut(&mut Span)>(&mut self, see: &mut F) {
        match self {
            Makes::Pieces(number, name) => {
                number.each_span(see);
                name.each_span(see);
            }
            Makes::Mass(chain) => chain.each_span(see),
        }
    }
}

impl Spans for PercentOf {
    fn each_span<F: FnMut(&mut Span)>(&mut self, see: &mut F) {
        if let PercentOf::Named(name) = self {
            name.each_span(see);
        }
    }
}

impl Spans for KeptHow {
    fn each_span<F: FnMut(&mut Span)>(&mut self, see: &mut F) {
        if let KeptHow::At(chain) = self {
            chain.each_span(see);
        }
    }
}

/// Some fields of a variant.
macro_rules! all {
    ($see:ident: $($field:ident),*) => {{ $($field.each_span($see);)* }};
}

impl Spans for Content {
    fn each_span<F: FnMut(&mut Span)>(&mut self, see: &mut F) {
        match self {
            Content::Blank
            | Content::Comment
            | Content::Stray
            | Content::Open { .. }
            | Content::Flag(_)
            | Content::Source(_)
            | Content::Section(_)
            | Content::Listed(_)
            | Content::Consists(_)
            | Content::By(_)
            | Content::Drained(Drained::AsPacked)
            | Content::Sale(..) => {}
            Content::Picture(picture) => picture.each_span(see),
            Content::Recipe(name)
            | Content::Kitchen(name)
            | Content::Day(name)
            | Content::IngredientBlock(name)
            | Content::Is(name) => name.each_span(see),
            Content::Use(path) => path.each_span(see),
            Content::Choose { name, options } => all!(see: name, options),
            Content::Measures(measures) => measures.each_span(see),
            Content::Text { pieces, .. } | Content::Prose(pieces) | Content::Until(pieces) => pieces.each_span(see),
            Content::Makes { makes, loss, of_everything: _, bake_loss, pan } => all!(see: makes, loss, bake_loss, pan),
            Content::Part { name, from } => all!(see: name, from),
            Content::Percent(of) => of.each_span(see),
            Content::PerPiece(sort) => sort.each_span(see),
            Content::Divide { sizes, loss } => all!(see: sizes, loss),
            Content::Keeps { time, how } => all!(see: time, how),
            Content::Spare(chain) | Content::DesiredTemperature(chain) => chain.each_span(see),
            Content::Aim(aim) => aim.each_span(see),
            Content::Ingredient(line) => line.each_span(see),
            Content::Step(step) => step.each_span(see),
            Content::Equipment { name, count, clauses } => all!(see: name, count, clauses),
            Content::Cooks(cooks) => cooks.each_span(see),
            Content::Cook { name, shift, clauses } => {
                all!(see: name, clauses);
                if let Some(shift) = shift {
                    shift.span.each_span(see);
                }
            }
            Content::Scale { fine: _, step, up_to } => all!(see: step, up_to),
            Content::Weighs { weight, number, unit, measures } => all!(see: weight, number, unit, measures),
            Content::OneWeighs(quantity)
            | Content::Fact(_, quantity)
            | Content::Longest(quantity)
            | Content::Serving(quantity, _) => quantity.each_span(see),
            Content::Drained(Drained::Weighed(left, of)) => all!(see: left, of),
            Content::Drained(Drained::Share(share)) => share.each_span(see),
            Content::GoodFor { time, use_by: _ } => time.each_span(see),
            Content::Energy(number) | Content::Trace(_, number) | Content::NitrogenFactor(number) => {
                number.each_span(see)
            }
            Content::AlsoCalled(names) | Content::Contains(names) | Content::FiledUnder(names) => names.each_span(see),
            Content::Costs { price, currency, number, unit, on } => {
                all!(see: price, currency, number, unit);
                if let Some(on) = on {
                    on.span.each_span(see);
                }
            }
            Content::Ready(moment) => moment.each_span(see),
            Content::Make { wanted, part, path, clauses } => all!(see: wanted, part, path, clauses),
            Content::Store { quantity, part, path, clauses } => all!(see: quantity, part, path, clauses),
            Content::Stock(path) => path.each_span(see),
            Content::Logged(line) => line.each_span(see),
            Content::OfBook(line) => line.each_span(see),
        }
    }
}
