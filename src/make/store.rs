//! What comes from the store, and what is left over: it is neither made nor bought, and what is taken leaves something.

use crate::language::syntax::Key;
use crate::make::order::Order;
use crate::measure::noun::agreeing;
use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::Mass;
use crate::measure::show;
use crate::measure::value::Value;
use crate::model::flow;
use crate::model::larder::is_called;
use crate::model::recipe::{HeadMakes, PartId, Recipe, Refers};
use crate::solve::formula::Formula;
use jiff::civil::Date;

/// Something that is taken from the store for a batch.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Taken {
    /// What, as the line calls it.
    pub what: String,
    /// The recipe that makes it, where it is a part of another file.
    pub of: Option<String>,
    /// Whether a part was made earlier; else it is an ingredient.
    pub is_part: bool,
    /// How much; `None` where its weight is not known.
    pub mass: Option<Mass>,
    /// How many pieces that is, where the part is in pieces that are all alike and it is a whole number of them.
    pub pieces: Option<Number>,
    /// What was written when it has no mass.
    pub natural: Option<Value>,
    /// When it was made, if the day says so.
    pub made: Option<Date>,
    /// The parts that it goes into; the part itself where it is handed over as it is.
    pub into: String,
}

/// Something that is left of what a batch takes: the whites of the eggs whose yolks it takes.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Left {
    /// What, as the line calls it.
    pub what: String,
    /// How much; `None` where what is taken has no weight.
    pub mass: Option<Mass>,
    /// What it is left of.
    pub of: String,
    /// The part that takes that.
    pub part: String,
}

/// What an order finds in the store of a part.
pub(super) fn found(order: &Order, id: PartId, mass: Mass, made: Option<Date>) -> Option<Taken> {
    let recipe = &order.recipe;
    let (origin, at) = recipe.origin(id)?;
    let (part, sorts) = origin.part(at).map(|part| (part.name.to_string(), part.sorts.len()))?;
    let made_for = |(user, _): (PartId, usize)| order.formula.is_made(user).then_some(user);
    let mut into: Vec<String> = Vec::new();
    for user in recipe.users(id).filter_map(made_for).filter_map(|user| recipe.part(user)) {
        let name = user.name.to_string();
        if !into.contains(&name) {
            into.push(name);
        }
    }
    // What is there weighs what it weighs when it is baked.
    let (_, own) = order.left_by_oven(id).ok()?;
    let baked = mass.times(own).ok()?;
    let pieces = in_pieces(recipe, &order.formula, id, mass);
    let all = Taken {
        of: (!origin.is_same(recipe)).then(|| origin.name.to_string()),
        is_part: true,
        mass: Some(baked),
        pieces,
        natural: None,
        made,
        into: if into.is_empty() { part.clone() } else { show::list(&into) },
        what: part,
    };
    // Baked loaves of yesterday are no dough, whatever the part is called in which they are made.
    let is_handed_over = into.is_empty() && order.part.is_none() && sorts == 0 && flow::ends(recipe).eq([id]);
    Some(match &recipe.makes {
        Some(HeadMakes::Pieces { noun, .. }) if is_handed_over => {
            let name = recipe.name.to_string();
            // `Doughnuts` that are doughnuts are told by one of the two.
            let what = match noun.same(&recipe.name) {
                true => noun.to_string(),
                false => format!("{} of {name}", agreeing(pieces.unwrap_or(Number::whole(2)), &noun.text)),
            };
            Taken { what, of: None, into: name, ..all }
        }
        _ => all,
    })
}

/// How many pieces of a part so much of it is: of one that is divided, or handed over in pieces.
fn in_pieces(recipe: &Recipe, formula: &Formula, id: PartId, mass: Mass) -> Option<Number> {
    let (part, solved) = (recipe.part(id)?, formula.part(id)?);
    let is_handed_over = part.per_piece && flow::ends(recipe).any(|end| end == id);
    if part.divide.is_none() && !is_handed_over || !part.sorts.is_empty() {
        return None;
    }
    let pieces = if is_handed_over { formula.pieces_for(part, id) } else { solved.pieces }?;
    let makes = solved.makes.filter(|makes| *makes > Mass::ZERO)?;
    let taken = mass.ratio(makes).and_then(|share| pieces.value().times(share)).ok()?;
    (taken.is_positive() && taken.is_whole()).then_some(taken)
}

/// What the lines of a batch take from the store, and of parts which.
pub fn taken(recipe: &Recipe, formula: &Formula) -> Vec<(PartId, Taken)> {
    let mut all = Vec::new();
    for (_, part, line, amount) in made_lines(recipe, formula).filter(|(_, _, line, _)| line.from_store) {
        let origin = match line.refers {
            Refers::Part(id) => recipe.origin(id).map(|(origin, _)| origin),
            Refers::Pantry(_) => None,
        };
        let id = match line.refers {
            Refers::Part(id) => id,
            // No part has this number.
            Refers::Pantry(_) => PartId(usize::MAX),
        };
        let taken = Taken {
            what: line.name.to_string(),
            of: origin.filter(|origin| !origin.is_same(recipe)).map(|origin| origin.name.to_string()),
            is_part: matches!(line.refers, Refers::Part(_)),
            mass: amount.final_mix,
            pieces: amount.final_mix.and_then(|mass| in_pieces(recipe, formula, id, mass)),
            natural: amount.natural,
            made: None,
            into: part.name.to_string(),
        };
        all.push((id, taken));
    }
    all
}

/// What is left of what the lines of a batch take.
///
/// # Errors
/// When an amount leaves the range of exact numbers.
pub fn left(recipe: &Recipe, formula: &Formula) -> Result<Vec<Left>, Overflow> {
    let mut all = Vec::new();
    for (_, part, line, amount) in made_lines(recipe, formula) {
        let Some((name, share)) = &line.leaves else { continue };
        // What comes from the store left it when it was put there.
        if line.from_store {
            continue;
        }
        all.push(Left {
            what: name.to_string(),
            mass: amount.final_mix.map(|mass| mass.share(*share)).transpose()?,
            of: line.name.to_string(),
            part: part.name.to_string(),
        });
    }
    Ok(all)
}

type MadeLine<'a> = (
    crate::model::recipe::PartId,
    &'a crate::model::recipe::Part,
    &'a crate::model::recipe::Ingredient,
    &'a crate::solve::formula::SolvedLine,
);

/// The lines of the parts that are made, each with what goes into the part's own bowl.
fn made_lines<'a>(recipe: &'a Recipe, formula: &'a Formula) -> impl Iterator<Item = MadeLine<'a>> {
    formula.made(recipe).flat_map(move |(id, part)| {
        let amounts = formula.part(id).map_or(&[][..], |solved| &solved.lines);
        let taken = part.lines.iter().zip(amounts).filter(|(_, amount)| !amount.left_out);
        taken.map(move |(line, amount)| (id, part, line, amount))
    })
}

/// What some batches leave over and take again, of one thing.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Remains {
    /// What, as it was first called.
    pub what: String,
    /// How much is left over in all; `None` where some of it has no known weight.
    pub left: Option<Mass>,
    /// How much of that is taken again.
    pub taken: Mass,
    /// What is left of it then.
    pub remains: Option<Mass>,
    /// What it is left of.
    pub of: Vec<String>,
}

/// What is left over of everything, less what is taken from the store under the same name.
///
/// # Errors
/// When an amount leaves the range of exact numbers.
pub fn remains<'a>(
    left: impl IntoIterator<Item = &'a Left>,
    taken: impl IntoIterator<Item = &'a Taken>,
) -> Result<Vec<Remains>, Overflow> {
    let mut all: Vec<Remains> = Vec::new();
    for one in left {
        let same = |known: &&mut Remains| is_one_thing(&known.what, &one.what);
        match all.iter_mut().find(same) {
            Some(known) => {
                known.left = known.left.zip(one.mass).map(|(known, mass)| known.plus(mass)).transpose()?;
                if !known.of.contains(&one.of) {
                    known.of.push(one.of.clone());
                }
            }
            None => all.push(Remains {
                what: one.what.clone(),
                left: one.mass,
                taken: Mass::ZERO,
                remains: None,
                of: vec![one.of.clone()],
            }),
        }
    }
    for one in taken {
        let known = all.iter_mut().find(|known| is_one_thing(&known.what, &one.what));
        if let (Some(known), Some(mass)) = (known, one.mass) {
            known.taken = known.taken.plus(mass)?;
        }
    }
    for one in &mut all {
        let Some(left) = one.left else { continue };
        one.taken = one.taken.min(left);
        one.remains = Some(left.minus(one.taken)?);
    }
    Ok(all)
}

/// Whether two names are one thing, in either number.
pub fn is_one_thing(one: &str, other: &str) -> bool {
    is_called(&Key::new(one), &Key::new(other))
}
