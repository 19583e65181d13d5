//! Moves what was read to another place of its text, for lines that stand lower or higher after an edit elsewhere.

use super::{
    Amount, Content, EquipmentClause, FactKind, Flag, IngredientClause, IngredientLine, KeptHow, LaterHeat, Line,
    MakeClause, Makes, Moment, Name, PanKind, PercentOf, Piece, Quantity, Share, StepClause, StepKind, StepLine, Term,
    TextKind, WrittenNumber, WrittenPan,
};
use crate::measure::unit::{Measures, Unit};
use crate::text::diagnostic::{Diagnostic, Edit, Label, Mend};
use crate::text::source::{Span, Spanned};

/// Something with places in it.
pub(crate) trait Moved {
    /// Adds so many bytes to every place.
    fn moved(&mut self, by: i64);
}

impl Moved for Span {
    fn moved(&mut self, by: i64) {
        // Places stay inside a text, and a text's length fits.
        let add = |offset: u32| u32::try_from(i64::from(offset) + by).unwrap_or(0);
        self.start = add(self.start);
        self.end = add(self.end);
    }
}

impl<T: Moved> Moved for Vec<T> {
    fn moved(&mut self, by: i64) {
        self.iter_mut().for_each(|item| item.moved(by));
    }
}

impl<T: Moved> Moved for Option<T> {
    fn moved(&mut self, by: i64) {
        self.iter_mut().for_each(|item| item.moved(by));
    }
}

impl<T: Moved> Moved for Spanned<T> {
    fn moved(&mut self, by: i64) {
        self.value.moved(by);
        self.span.moved(by);
    }
}

/// Types without a place in them.
macro_rules! placeless {
    ($($type:ty),* $(,)?) => {
        $(impl Moved for $type {
            fn moved(&mut self, _: i64) {}
        })*
    };
}

placeless!(String, bool, u32, Unit, Measures, StepKind, PanKind, TextKind, FactKind, Flag, jiff::civil::Time);

/// Types whose named fields have places.
macro_rules! in_fields {
    ($($type:ty { $($field:ident),* }),* $(,)?) => {
        $(impl Moved for $type {
            fn moved(&mut self, by: i64) {
                $(self.$field.moved(by);)*
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
    IngredientLine { name, leader, amount, clauses },
    StepLine { name, kind, duration, clauses },
    Moment { span },
    Line { span, said, content, only, comment },
    Label { span },
    Edit { span },
    Mend { edits },
    Diagnostic { span, also, mend },
}

impl Moved for Amount {
    fn moved(&mut self, by: i64) {
        match self {
            Amount::Chain(chain) => chain.moved(by),
            Amount::All(span) | Amount::ToTaste(span) | Amount::AsNeeded(span) | Amount::Broken(span) => span.moved(by),
        }
    }
}

impl Moved for IngredientClause {
    fn moved(&mut self, by: i64) {
        match self {
            IngredientClause::At(chain) => chain.moved(by),
            IngredientClause::Yield(quantity) => quantity.moved(by),
            IngredientClause::CountsAsFlour
            | IngredientClause::NotFlour
            | IngredientClause::Optional
            | IngredientClause::Aside
            | IngredientClause::Preparation(_) => {}
        }
    }
}

impl Moved for LaterHeat {
    fn moved(&mut self, by: i64) {
        self.at.moved(by);
        self.after.moved(by);
    }
}

impl Moved for StepClause {
    fn moved(&mut self, by: i64) {
        match self {
            StepClause::AtATime(number) | StepClause::People(number) | StepClause::SharedBy(number) => number.moved(by),
            StepClause::Using(name, chain, later) => {
                name.moved(by);
                chain.moved(by);
                later.moved(by);
            }
            StepClause::Into(times, name) => {
                times.moved(by);
                name.moved(by);
            }
            StepClause::At(chain) => chain.moved(by),
            StepClause::UpTo(quantity) | StepClause::MayStand(quantity) => quantity.moved(by),
            StepClause::During(name)
            | StepClause::Before(name)
            | StepClause::After(name)
            | StepClause::StraightAfter(name)
            | StepClause::Station(name) => name.moved(by),
            StepClause::Within(quantity, name) => {
                quantity.moved(by);
                name.moved(by);
            }
            StepClause::Each | StepClause::Broken => {}
        }
    }
}

impl Moved for EquipmentClause {
    fn moved(&mut self, by: i64) {
        match self {
            EquipmentClause::Holds(quantity)
            | EquipmentClause::Friction(quantity)
            | EquipmentClause::Heating(quantity)
            | EquipmentClause::Agrees(quantity) => quantity.moved(by),
            EquipmentClause::Broken => {}
        }
    }
}

impl Moved for MakeClause {
    fn moved(&mut self, by: i64) {
        match self {
            MakeClause::Choose(first, second) => {
                first.moved(by);
                second.moved(by);
            }
            MakeClause::Ready(moment) => moment.moved(by),
            MakeClause::Broken => {}
        }
    }
}

impl Moved for Piece {
    fn moved(&mut self, by: i64) {
        match self {
            Piece::Text(_) => {}
            Piece::Use(share, name) => {
                if let Share::Quantity(quantity) = share {
                    quantity.moved(by);
                }
                name.moved(by);
            }
            Piece::Measure(chain) => chain.moved(by),
        }
    }
}

impl Moved for Makes {
    fn moved(&mut self, by: i64) {
        match self {
            Makes::Pieces(number, name) => {
                number.moved(by);
                name.moved(by);
            }
            Makes::Mass(chain) => chain.moved(by),
        }
    }
}

impl Moved for PercentOf {
    fn moved(&mut self, by: i64) {
        if let PercentOf::Named(name) = self {
            name.moved(by);
        }
    }
}

impl Moved for KeptHow {
    fn moved(&mut self, by: i64) {
        if let KeptHow::At(chain) = self {
            chain.moved(by);
        }
    }
}

/// Moves some fields of a variant.
macro_rules! all {
    ($by:ident: $($field:ident),*) => {{ $($field.moved($by);)* }};
}

impl Moved for Content {
    fn moved(&mut self, by: i64) {
        match self {
            Content::Blank
            | Content::Comment
            | Content::Stray
            | Content::PerPiece
            | Content::Open { .. }
            | Content::Flag(_)
            | Content::Source(_)
            | Content::Section(_) => {}
            Content::Recipe(name) | Content::Kitchen(name) | Content::Day(name) | Content::IngredientBlock(name) => {
                name.moved(by)
            }
            Content::Use(path) => path.moved(by),
            Content::Choose { name, options } => all!(by: name, options),
            Content::Measures(measures) => measures.moved(by),
            Content::Text { pieces, .. } | Content::Prose(pieces) | Content::Until(pieces) => pieces.moved(by),
            Content::Makes { makes, loss, bake_loss, pan } => all!(by: makes, loss, bake_loss, pan),
            Content::Part { name, from } => all!(by: name, from),
            Content::Percent(of) => of.moved(by),
            Content::Divide { count, each, loss } => all!(by: count, each, loss),
            Content::Keeps { time, how } => all!(by: time, how),
            Content::Spare(chain) | Content::DesiredTemperature(chain) => chain.moved(by),
            Content::Ingredient(line) => line.moved(by),
            Content::Step(step) => step.moved(by),
            Content::Equipment { name, count, clauses } => all!(by: name, count, clauses),
            Content::Cooks(cooks) => cooks.moved(by),
            Content::Scale { fine: _, step, up_to } => all!(by: step, up_to),
            Content::Weighs { weight, number, unit, measures } => all!(by: weight, number, unit, measures),
            Content::OneWeighs(quantity) | Content::Fact(_, quantity) => quantity.moved(by),
            Content::Energy(number) => number.moved(by),
            Content::AlsoCalled(names) | Content::Contains(names) => names.moved(by),
            Content::Costs { price, currency, number, unit, on } => {
                all!(by: price, currency, number, unit);
                if let Some(on) = on {
                    on.span.moved(by);
                }
            }
            Content::Ready(moment) => moment.moved(by),
            Content::Make { quantity, path, clauses } => all!(by: quantity, path, clauses),
        }
    }
}
