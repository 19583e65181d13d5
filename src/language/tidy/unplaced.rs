//! The tree without its places, so that what two texts say can be compared.

use super::clause::{Clause, in_order};
use super::line::single_spaced;
use crate::language::syntax::{
    Amount, Content, EquipmentClause, IngredientClause, IngredientLine, KeptHow, LaterHeat, MakeClause, Makes, Moment,
    Name, PanKind, PercentOf, Piece, Quantity, Share, StepClause, StepKind, StepLine, Term, WrittenNumber, WrittenPan,
};
use crate::measure::unit::{Measures, Unit};
use crate::text::source::{SourceId, Span, Spanned};

/// Sets every place in a node to nowhere.
pub(super) trait Unplace {
    fn unplace(&mut self);
}

impl Unplace for Span {
    fn unplace(&mut self) {
        *self = Span::new(SourceId(0), 0, 0);
    }
}

/// What holds no place.
macro_rules! placeless {
    ($($kind:ty),*) => { $(impl Unplace for $kind { fn unplace(&mut self) {} })* };
}
placeless!(String, u32, Unit, Measures, StepKind, PanKind);

/// Nodes that are nothing but their fields.
macro_rules! unplace_fields {
    ($($kind:ident { $($field:ident),* }),* $(,)?) => { $(impl Unplace for $kind {
        fn unplace(&mut self) {
            let $kind { $($field),* } = self;
            $($field.unplace();)*
        }
    })* };
}

impl<T: Unplace> Unplace for Vec<T> {
    fn unplace(&mut self) {
        self.iter_mut().for_each(Unplace::unplace);
    }
}

impl<T: Unplace> Unplace for Option<T> {
    fn unplace(&mut self) {
        self.iter_mut().for_each(Unplace::unplace);
    }
}

impl<T: Unplace> Unplace for Spanned<T> {
    fn unplace(&mut self) {
        self.value.unplace();
        self.span.unplace();
    }
}

/// Clauses also lose the order they were written in, as far as it says nothing.
fn unplace_clauses<C: Clause + Unplace>(clauses: &mut Vec<Spanned<C>>) {
    *clauses = in_order(clauses);
    clauses.unplace();
}

impl Unplace for Name {
    fn unplace(&mut self) {
        let Name { text: _, key: _, span } = self;
        span.unplace();
    }
}

impl Unplace for WrittenNumber {
    fn unplace(&mut self) {
        let WrittenNumber { value: _, slack: _, span } = self;
        span.unplace();
    }
}

impl Unplace for Moment {
    fn unplace(&mut self) {
        let Moment { when: _, span } = self;
        span.unplace();
    }
}

unplace_fields!(Term { number, unit }, Quantity { terms, upper, span }, WrittenPan { kind, measures, span });

impl Unplace for Amount {
    fn unplace(&mut self) {
        match self {
            Amount::Chain(chain) => chain.unplace(),
            Amount::All(span) | Amount::ToTaste(span) | Amount::AsNeeded(span) | Amount::Broken(span) => span.unplace(),
        }
    }
}

impl Unplace for IngredientClause {
    fn unplace(&mut self) {
        match self {
            IngredientClause::At(chain) => chain.unplace(),
            IngredientClause::Yield(share) => share.unplace(),
            IngredientClause::Preparation(words) => *words = single_spaced(words),
            IngredientClause::CountsAsFlour
            | IngredientClause::NotFlour
            | IngredientClause::Optional
            | IngredientClause::Aside => {}
        }
    }
}

impl Unplace for IngredientLine {
    fn unplace(&mut self) {
        let IngredientLine { name, leader, amount, clauses } = self;
        name.unplace();
        leader.unplace();
        amount.unplace();
        unplace_clauses(clauses);
    }
}

impl Unplace for LaterHeat {
    fn unplace(&mut self) {
        let LaterHeat { at, after } = self;
        at.unplace();
        after.unplace();
    }
}

impl Unplace for StepClause {
    fn unplace(&mut self) {
        match self {
            StepClause::Each | StepClause::Broken => {}
            StepClause::AtATime(number) | StepClause::People(number) | StepClause::SharedBy(number) => number.unplace(),
            StepClause::Using(name, at, later) => {
                name.unplace();
                at.unplace();
                later.unplace();
            }
            StepClause::Into(times, name) => {
                times.unplace();
                name.unplace();
            }
            StepClause::At(at) => at.unplace(),
            StepClause::UpTo(time) | StepClause::MayStand(time) => time.unplace(),
            StepClause::During(name)
            | StepClause::Before(name)
            | StepClause::After(name)
            | StepClause::StraightAfter(name)
            | StepClause::Station(name) => name.unplace(),
            StepClause::Within(time, name) => {
                time.unplace();
                name.unplace();
            }
        }
    }
}

impl Unplace for StepLine {
    fn unplace(&mut self) {
        let StepLine { name, kind, duration, clauses } = self;
        name.unplace();
        kind.unplace();
        duration.unplace();
        unplace_clauses(clauses);
    }
}

impl Unplace for Piece {
    fn unplace(&mut self) {
        match self {
            Piece::Text(_) => {}
            Piece::Measure(chain) => chain.unplace(),
            Piece::Use(share, name) => {
                if let Share::Quantity(quantity) = share {
                    quantity.unplace();
                }
                name.unplace();
            }
        }
    }
}

impl Unplace for EquipmentClause {
    fn unplace(&mut self) {
        match self {
            EquipmentClause::Holds(quantity)
            | EquipmentClause::Friction(quantity)
            | EquipmentClause::Heating(quantity)
            | EquipmentClause::Agrees(quantity) => quantity.unplace(),
            EquipmentClause::Broken => {}
        }
    }
}

impl Unplace for MakeClause {
    fn unplace(&mut self) {
        match self {
            MakeClause::Choose(first, second) => {
                first.unplace();
                second.unplace();
            }
            MakeClause::Ready(moment) => moment.unplace(),
            MakeClause::Broken => {}
        }
    }
}

impl Unplace for Content {
    fn unplace(&mut self) {
        match self {
            Content::Blank | Content::Comment | Content::Stray | Content::PerPiece | Content::Flag(_) => {}
            Content::Open { from: _, to: _ } | Content::Source(_) | Content::Section(_) => {}
            Content::Recipe(name) | Content::Kitchen(name) | Content::Day(name) => name.unplace(),
            Content::IngredientBlock(name) => name.unplace(),
            Content::Use(path) => path.unplace(),
            Content::Choose { name, options } => {
                name.unplace();
                options.unplace();
            }
            Content::Measures(measures) => measures.unplace(),
            Content::Text { kind: _, pieces } | Content::Prose(pieces) | Content::Until(pieces) => pieces.unplace(),
            Content::Makes { makes, loss, bake_loss, pan } => {
                match makes {
                    Makes::Pieces(count, noun) => {
                        count.unplace();
                        noun.unplace();
                    }
                    Makes::Mass(mass) => mass.unplace(),
                }
                loss.unplace();
                bake_loss.unplace();
                pan.unplace();
            }
            Content::Part { name, from } => {
                name.unplace();
                from.unplace();
            }
            Content::Percent(of) => {
                of.span.unplace();
                if let PercentOf::Named(name) = &mut of.value {
                    name.unplace();
                }
            }
            Content::Divide { count, each, loss } => {
                count.unplace();
                each.unplace();
                loss.unplace();
            }
            Content::Keeps { time, how } => {
                time.unplace();
                if let Some(KeptHow::At(at)) = how {
                    at.unplace();
                }
            }
            Content::Spare(chain) | Content::DesiredTemperature(chain) => chain.unplace(),
            Content::Ingredient(ingredient) => ingredient.unplace(),
            Content::Step(step) => step.unplace(),
            Content::Equipment { name, count, clauses } => {
                name.unplace();
                count.unplace();
                unplace_clauses(clauses);
            }
            Content::Cooks(count) => count.unplace(),
            Content::Scale { fine: _, step, up_to } => {
                step.unplace();
                up_to.unplace();
            }
            Content::Weighs { weight, number, unit, measures } => {
                weight.unplace();
                number.unplace();
                unit.unplace();
                measures.unplace();
            }
            Content::OneWeighs(weight) | Content::Fact(_, weight) => weight.unplace(),
            Content::Energy(number) => number.unplace(),
            Content::AlsoCalled(names) | Content::Contains(names) => names.unplace(),
            Content::Costs { price, currency, number, unit, on } => {
                price.unplace();
                currency.unplace();
                number.unplace();
                unit.unplace();
                if let Some(on) = on {
                    on.span.unplace();
                }
            }
            Content::Ready(moment) => moment.unplace(),
            Content::Make { quantity, path, clauses } => {
                quantity.unplace();
                path.unplace();
                unplace_clauses(clauses);
            }
        }
    }
}
