//! An order: one recipe, how much of it, and for when.

use crate::language::syntax::{Moment, Name};
use crate::make::resize::{self, resize};
use crate::make::size::{self, Impossible, Limit, Size};
use crate::make::use_up::{Reweighed, use_up};
use crate::measure::noun::agreeing;
use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::{Count, Mass};
use crate::measure::show;
use crate::model::flow;
use crate::model::recipe::{HeadMakes, PartId, Recipe};
use crate::solve::formula::{Formula, heated};
use crate::solve::resolve::day::Wanted;
use crate::text::source::Span;
use jiff::civil::Date;
use std::sync::Arc;

/// One recipe that is to be made.
#[derive(Debug, Clone)]
pub struct Order {
    /// The recipe, with its choices made.
    pub recipe: Arc<Recipe>,
    /// Its amounts, at the size that is wanted.
    pub formula: Formula,
    /// The same less what is in the store, where some is.
    pub making: Option<Formula>,
    /// What of it is in the store, and where nobody looks twice.
    pub in_store: InStore,
    /// The part that is made by itself, if it is not the whole recipe.
    pub part: Option<PartId>,
    /// How much of what is wanted, where the formula alone does not tell.
    pub asked: Option<String>,
    /// How many times the recipe as written.
    pub factor: Number,
    /// What runs out first, for an order made of what there is.
    pub limit: Option<Limit>,
    /// The part whose base it was scaled by, if it was.
    pub by_base_of: Option<PartId>,
    /// The parts whose pieces weigh something else, so that all of an ingredient is used.
    pub reweighed: Vec<Reweighed>,
    /// For when, if a file says so.
    pub ready: Option<Moment>,
    /// The line that asks for it, if a file does.
    pub span: Option<Span>,
}

/// What of an order comes from the store of the day.
#[derive(Debug, Clone, Default)]
pub struct InStore {
    /// The parts of which it is known how much there is.
    pub counted: Vec<PartId>,
    /// How much is taken of which, and when it was made.
    pub taken: Vec<(PartId, Mass, Option<Date>)>,
}

impl Order {
    /// What is made: all of it, or what the store lacks.
    pub fn made(&self) -> &Formula {
        self.making.as_ref().unwrap_or(&self.formula)
    }

    /// What the oven leaves of a part, of 1, where a weight of it is one of what was baked, and where it is one of its dough; only one of them is
    /// ever less than 1.
    ///
    /// # Errors
    /// When an amount leaves the range of exact numbers.
    pub(super) fn left_by_oven(&self, id: PartId) -> Result<(Number, Number), Overflow> {
        let is_foreign = self.recipe.part(id).is_some_and(|part| part.foreign.is_some());
        if is_foreign {
            let oven = self.formula.part(id).and_then(|part| part.as_written().oven);
            return Ok((oven.unwrap_or(Number::ONE), Number::ONE));
        }
        let own = heated::left_by_oven(&self.recipe, &self.formula, id, None)?;
        Ok((Number::ONE, own.unwrap_or(Number::ONE)))
    }

    /// How many times the recipe as written is made, when the rest comes from the store: by its pieces, else by the base of its percentages.
    pub fn grown(&self) -> Number {
        let less = || {
            let making = self.making.as_ref()?;
            // What is made in pieces is as many times the recipe as it has pieces, whatever there was of a part.
            if let (Some(all), Some(made)) = (self.formula.pieces, making.pieces) {
                let left = made.value().over(all.value()).ok()?;
                return self.factor.times(left).ok().filter(|factor| factor.is_positive());
            }
            let (id, base) = size::base_of(&self.recipe, &self.formula)?;
            let left = making.part(id)?.base?.ratio(base).ok()?;
            self.factor.times(left).ok().filter(|factor| factor.is_positive())
        };
        less().unwrap_or(self.factor)
    }

    /// An order of so many pieces of each sort.
    ///
    /// # Errors
    /// When the recipe has no such sorts, or other pieces would not stay whole.
    pub fn of_sorts(recipe: Recipe, written: &Formula, sorts: &[(Name, Count)]) -> Result<Order, Impossible> {
        let mut all = Number::ZERO;
        for (_, count) in sorts {
            all = all.plus(count.value())?;
        }
        let before = written.pieces.map(Count::value).filter(|pieces| pieces.is_positive());
        let factor = match before {
            Some(before) => all.over(before)?,
            None => {
                return Err(Impossible::told("the recipe is not made in pieces", "ask for a weight, `make 4 kg of`"));
            }
        };
        let mut wanted = BySort { recipe: &recipe, formula: written, sorts, factor };
        let mut formula = resize(&recipe, written, &mut wanted)?.formula;
        formula.pieces = Some(Count::new(all));
        for (id, part) in recipe.own_parts().filter(|(_, part)| !part.sorts.is_empty()) {
            let counts = part.sorts.iter().map(|sort| asked_of(sorts, &sort.name)).collect();
            if let Some(solved) = formula.parts.get_mut(id.0) {
                solved.sorts = counts;
                solved.pieces = Some(Count::new(all));
            }
        }
        whole_pieces(&recipe, &formula)?;
        // Six large loaves are half of a recipe of twelve small and six large, by what is mixed.
        let factor = match (formula.makes(&recipe), written.makes(&recipe)) {
            (Some(now), Some(before)) if before > Mass::ZERO => now.ratio(before)?,
            _ => factor,
        };
        let said = sorts.iter().map(|(sort, count)| format!("{} {sort}", show::count_of(count.value())));
        let said = show::list(&said.collect::<Vec<String>>());
        let asked = Some(match &recipe.makes {
            Some(HeadMakes::Pieces { noun, .. }) => format!("{said} {}", agreeing(all, &noun.text)),
            _ => said,
        });
        Ok(Order { factor, asked, ..Order::of(recipe, formula) })
    }

    /// An order of one part by itself.
    ///
    /// # Errors
    /// When it cannot be made in that size.
    pub fn of_part(recipe: Recipe, written: &Formula, name: &Name, wanted: &Wanted) -> Result<Order, Impossible> {
        let Some(id) = recipe.own_parts().find(|(_, part)| part.name.same(name)).map(|(id, _)| id) else {
            return Err(Impossible::told(format!("with these choices there is no part {name}"), "name another part"));
        };
        let solved = written.part(id).ok_or(Overflow)?;
        let factor = match (wanted, solved.pieces, solved.makes.filter(|makes| *makes > Mass::ZERO)) {
            (Wanted::Mass(mass), _, Some(makes)) => mass.ratio(makes)?,
            (Wanted::Pieces(count), Some(pieces), _) => count.value().over(pieces.value())?,
            (Wanted::Mass(_), _, None) => {
                let why = format!("what {name} comes to has no known weight");
                return Err(Impossible::told(why, "give all its amounts by weight"));
            }
            _ => {
                return Err(Impossible::told(
                    format!("{name} is not divided into pieces"),
                    "ask for a weight, `make 4 kg of`",
                ));
            }
        };
        if let (Wanted::Mass(_), Some(pieces), Some(makes)) = (wanted, solved.pieces, solved.makes) {
            weights_of_pieces(name, (pieces, makes), factor)?;
        }
        let formula = resize(&recipe, written, &mut OnePart { id, factor })?.formula;
        let formula = Formula { pieces: None, ..formula };
        whole_pieces(&recipe, &formula)?;
        let asked = match wanted {
            Wanted::Mass(mass) => format!("{} {name}", show::mass_plain(*mass)),
            Wanted::Pieces(count) => format!("{} of {name}", show::pieces(count.value())),
            Wanted::Sorts(_) => name.to_string(),
        };
        Ok(Order { factor, part: Some(id), asked: Some(asked), ..Order::of(recipe, formula) })
    }

    /// An order of a recipe in some size; `written` is the formula as it is written.
    ///
    /// # Errors
    /// When it cannot be made in that size.
    pub fn sized(recipe: Recipe, written: &Formula, size: &Size) -> Result<Order, Impossible> {
        let (factor, limit) = size::factor(&recipe, written, size)?;
        let (formula, reweighed) = match size {
            Size::UseUp(_) => use_up(&recipe, written, factor, size::step(&recipe, written))?,
            _ => (written.times(factor)?, Vec::new()),
        };
        let by_base_of = match size {
            Size::Base(_) => size::base_of(&recipe, written).map(|(part, _)| part),
            _ => None,
        };
        Ok(Order { factor, limit, by_base_of, reweighed, ..Order::of(recipe, formula) })
    }

    /// An order of a recipe whose formula already has its size.
    pub fn of(recipe: impl Into<Arc<Recipe>>, formula: Formula) -> Order {
        Order {
            recipe: recipe.into(),
            formula,
            making: None,
            in_store: InStore::default(),
            part: None,
            asked: None,
            factor: Number::ONE,
            limit: None,
            by_base_of: None,
            reweighed: Vec::new(),
            ready: None,
            span: None,
        }
    }

    /// What is wanted, as printed: `48 buns`, or a weight.
    pub fn wanted(&self) -> String {
        if let Some(asked) = &self.asked {
            return asked.clone();
        }
        match (&self.recipe.makes, self.formula.pieces) {
            (Some(HeadMakes::Pieces { noun, .. }), Some(pieces)) => {
                format!("{} {}", show::number(pieces.value()), agreeing(pieces.value(), &noun.text))
            }
            (_, Some(pieces)) => show::pieces(pieces.value()).to_string(),
            _ => {
                let made = self.recipe.final_part().and_then(|id| self.formula.part(id)?.makes);
                made.map(show::mass_plain).unwrap_or_default().to_string()
            }
        }
    }

    /// The parts that are handed over: the one that is ordered by itself, else those that no other part draws on.
    pub fn finals(&self) -> Vec<PartId> {
        self.part.map_or_else(|| flow::ends(&self.recipe).collect(), |part| vec![part])
    }
}

/// How many of a sort are asked for; none where it is not named.
fn asked_of(sorts: &[(Name, Count)], name: &Name) -> Count {
    sorts.iter().find(|(sort, _)| sort.same(name)).map_or(Count::ZERO, |(_, count)| *count)
}

/// A weight of what is divided is one of whole pieces: which would do is said.
fn weights_of_pieces(name: &Name, (pieces, makes): (Count, Mass), factor: Number) -> Result<(), Impossible> {
    let wanted = pieces.value().times(factor)?;
    if wanted.is_whole() || !pieces.value().is_positive() {
        return Ok(());
    }
    let each = makes.over(pieces.value())?;
    let near = [wanted.floor(), wanted.floor().plus(Number::ONE)?].into_iter().filter(|count| count.is_positive());
    let near: Vec<String> = near
        .map(|count| each.times(count).map(|mass| format!("{} ({})", show::mass_plain(mass), show::pieces(count))))
        .collect::<Result<_, Overflow>>()?;
    let why = format!(
        "that would be {} {} of {name}, and pieces stay whole",
        show::number(wanted),
        agreeing(wanted, "pieces")
    );
    Err(Impossible::told(why, format!("ask for {}", near.join(" or "))))
}

/// Pieces of the recipe's own parts stay whole.
fn whole_pieces(recipe: &Recipe, formula: &Formula) -> Result<(), Impossible> {
    for (id, part) in recipe.own_parts() {
        let Some(pieces) = formula.part(id).filter(|part| part.is_made).and_then(|part| part.pieces) else { continue };
        if !pieces.value().is_whole() {
            let why = format!(
                "that would be {} {} of {}, and pieces stay whole",
                show::number(pieces.value()),
                agreeing(pieces.value(), "pieces"),
                part.name
            );
            return Err(Impossible::told(why, "ask for more or fewer of a sort"));
        }
    }
    Ok(())
}

/// So many pieces of each sort.
struct BySort<'a> {
    recipe: &'a Recipe,
    formula: &'a Formula,
    sorts: &'a [(Name, Count)],
    /// How many times as many pieces as are written, all sorts together.
    factor: Number,
}

impl resize::Wanted for BySort<'_> {
    fn factor(&mut self, id: PartId) -> Result<Option<Number>, Overflow> {
        let Some(part) = self.recipe.part(id).filter(|_| self.recipe.users(id).next().is_none()) else {
            return Ok(None);
        };
        if part.foreign.is_some() {
            return Ok(None);
        }
        if let Some(sort) = &part.sort {
            let written =
                self.formula.part(id).and_then(|part| part.pieces).filter(|count| count.value().is_positive());
            let Some(written) = written else { return Ok(Some(Number::ZERO)) };
            return asked_of(self.sorts, sort).value().over(written.value()).map(Some);
        }
        // A dough that is handed over in its sorts weighs what they weigh.
        let (mut now, mut before) = (Mass::ZERO, Mass::ZERO);
        for sort in &part.sorts {
            now = now.plus(sort.each.times(asked_of(self.sorts, &sort.name).value())?)?;
            before = before.plus(sort.each.times(sort.count.value())?)?;
        }
        if before > Mass::ZERO { now.ratio(before).map(Some) } else { Ok(Some(self.factor)) }
    }
}

/// So much of one part.
struct OnePart {
    id: PartId,
    factor: Number,
}

impl resize::Wanted for OnePart {
    fn factor(&mut self, id: PartId) -> Result<Option<Number>, Overflow> {
        Ok((id == self.id).then_some(self.factor))
    }
}

/// The number under which `recipe` knows a part that `other` has under `part`.
pub(super) fn number_in(recipe: &Recipe, other: &Recipe, part: PartId) -> Option<PartId> {
    let (origin, there) = other.origin(part)?;
    let foreign =
        |id: &PartId| recipe.origin(*id).is_some_and(|(known, at)| known.makes_alike(origin, there) == Some(at));
    recipe.makes_alike(origin, there).or_else(|| recipe.parts().map(|(id, _)| id).find(foreign))
}
