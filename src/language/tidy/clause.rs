//! The order of clauses: figures before words, as the language's own samples have it.

use crate::language::syntax::{
    CookClause, EquipmentClause, IngredientClause, MakeClause, Name, StepClause, StoreClause,
};
use crate::text::source::Spanned;

/// Something that stands behind a comma.
pub(super) trait Clause: Clone {
    /// Its place among the others; clauses of one rank keep the order they were written in.
    fn rank(&self) -> u8;

    /// Whether this list may be put in order: not when the order decides which of two figures counts.
    fn may_move(_list: &[Spanned<Self>]) -> bool {
        true
    }
}

/// The clauses of a line in the order in which they are written out.
pub(super) fn in_order<C: Clause>(written: &[Spanned<C>]) -> Vec<Spanned<C>> {
    let mut list = written.to_vec();
    if C::may_move(written) {
        list.sort_by_key(|clause| clause.value.rank());
    }
    list
}

/// Temperature, yield, whether it is flour, preparation, how far a part is made, what becomes of it, optional, aside.
impl Clause for IngredientClause {
    fn rank(&self) -> u8 {
        match self {
            IngredientClause::At(_) => 0,
            IngredientClause::Yield(_) => 1,
            IngredientClause::CountsAsFlour | IngredientClause::NotFlour => 2,
            IngredientClause::Preparation(_) => 3,
            IngredientClause::Before(_) => 4,
            IngredientClause::FromStore => 5,
            IngredientClause::StrainedOut => 6,
            IngredientClause::Leaves(..) => 7,
            IngredientClause::Optional => 8,
            IngredientClause::Aside => 9,
            // The words behind its comma go on to the end of the line.
            IngredientClause::Instead(_) => 10,
        }
    }
}

/// Equipment, place, load, how long it may go on, order, people, how long it may stand, station.
impl Clause for StepClause {
    fn rank(&self) -> u8 {
        match self {
            StepClause::Using(..) => 0,
            StepClause::At(_) => 1,
            StepClause::Each | StepClause::AtATime(_) => 2,
            StepClause::UpTo(_) => 3,
            StepClause::During(_)
            | StepClause::Into(..)
            | StepClause::Before(_)
            | StepClause::After(_)
            | StepClause::StraightAfter(_)
            | StepClause::Within(..) => 4,
            StepClause::People(_) | StepClause::SharedBy(_) => 5,
            StepClause::MayStand(_) => 6,
            StepClause::Station(_) => 7,
            StepClause::Broken => 8,
        }
    }

    /// A temperature of the equipment and one of the place contradict each other; the one said last counts.
    fn may_move(list: &[Spanned<StepClause>]) -> bool {
        let heated = list.iter().any(|clause| matches!(&clause.value, StepClause::Using(_, at, _) if !at.is_empty()));
        let placed = list.iter().any(|clause| matches!(&clause.value, StepClause::At(_)));
        !(heated && placed)
    }
}

/// What it holds, how it warms a dough, how it heats up, what may share it.
impl Clause for EquipmentClause {
    fn rank(&self) -> u8 {
        match self {
            EquipmentClause::Holds(_) => 0,
            EquipmentClause::Friction(_) => 1,
            EquipmentClause::Heating(_) => 2,
            EquipmentClause::Agrees(_) => 3,
            EquipmentClause::Broken => 4,
        }
    }
}

/// The days, the rest, the longest day.
impl Clause for CookClause {
    fn rank(&self) -> u8 {
        match self {
            CookClause::On(_) => 0,
            CookClause::Rests(_) => 1,
            CookClause::Longest(_) => 2,
            CookClause::Broken => 3,
        }
    }
}

/// The choices, then the time.
impl Clause for MakeClause {
    fn rank(&self) -> u8 {
        match self {
            MakeClause::Choose(..) => 0,
            MakeClause::Ready(_) => 1,
            MakeClause::Broken => 2,
        }
    }
}

/// The choices, then the day.
impl Clause for StoreClause {
    fn rank(&self) -> u8 {
        match self {
            StoreClause::Choose(..) => 0,
            StoreClause::Made(_) => 1,
            StoreClause::Broken => 2,
        }
    }
}

/// Names with something between them.
pub(super) fn joined(names: &[Name], between: &str) -> String {
    names.iter().map(|name| &*name.text).collect::<Vec<_>>().join(between)
}

/// A line with its clauses behind commas.
pub(super) fn with_clauses(mut head: String, clauses: impl IntoIterator<Item = String>) -> String {
    for clause in clauses {
        head.push_str(", ");
        head.push_str(&clause);
    }
    head
}
