//! Scaling: from what is wanted to a factor, with whole pieces kept whole.

mod instead;

use crate::language::syntax::{Key, Name};
use crate::make::have::{self, NoWeight, There};
use crate::make::use_up;
use crate::measure::noun::agreeing;
use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::Mass;
use crate::measure::show;
use crate::model::recipe::{Base, HeadMakes, PartId, Recipe, Refers};
use crate::solve::formula::Formula;
use instead::Manner;
pub use instead::{AskedBy, Instead, Near};

/// What size of batch is wanted.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Size {
    /// As it is written.
    AsWritten,
    /// So many pieces.
    Pieces(Number),
    /// So many times the batch as written.
    Times(Number),
    /// So much of what the recipe makes.
    Total(Mass),
    /// So much flour, or whatever 100 % is.
    Base(Mass),
    /// As much as can be made of what there is.
    Have(Vec<There>),
    /// The same; what the recipe does not take stays where it is.
    Stock(Vec<There>),
    /// All of it, in the number of pieces that is nearest, which then weigh something else.
    UseUp(There),
}

/// Why a batch of the wanted size cannot be made.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Impossible {
    /// In bakers' words, with the figures.
    pub why: String,
    /// What to do instead.
    pub help: Option<Instead>,
}

impl Impossible {
    fn new(why: impl Into<String>) -> Impossible {
        Impossible { why: why.into(), help: None }
    }

    /// Why not, and what to do instead.
    pub(super) fn told(why: impl Into<String>, help: impl Into<Instead>) -> Impossible {
        Impossible::new(why).help(help)
    }

    fn help(self, help: impl Into<Instead>) -> Impossible {
        Impossible { help: Some(help.into()), ..self }
    }
}

impl From<NoWeight> for Impossible {
    fn from(no_weight: NoWeight) -> Impossible {
        Impossible::new(no_weight.why).help(no_weight.help)
    }
}

impl From<Overflow> for Impossible {
    fn from(_: Overflow) -> Impossible {
        Impossible::new("a batch of that size leaves the range of exact numbers")
    }
}

/// What limits a batch that is made of what there is.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Limit {
    /// The ingredient that runs out first.
    pub ingredient: String,
}

/// How many times the written batch is made.
///
/// # Errors
/// When the recipe has nothing to scale by, or pieces would not stay whole; the nearest possible batches are then named.
pub fn factor(recipe: &Recipe, formula: &Formula, size: &Size) -> Result<(Number, Option<Limit>), Impossible> {
    let batch = Written { recipe, formula };
    match size {
        Size::AsWritten => Ok((Number::ONE, None)),
        Size::Times(times) => {
            if !times.is_positive() {
                return Err(Impossible::new("a batch is more than nothing").help("give a number above 0"));
            }
            batch.whole(*times).map(|factor| (factor, None))
        }
        Size::Pieces(pieces) => batch.for_pieces(*pieces).map(|factor| (factor, None)),
        Size::Total(mass) => {
            let makes = batch.makes().ok_or_else(|| {
                Impossible::new("what the recipe makes has no known weight, so it cannot be scaled to one")
                    .help(Instead::ByTimesOrPieces)
            })?;
            batch.whole(batch.nearly_whole(mass.ratio(makes)?, makes)?).map(|factor| (factor, None))
        }
        Size::Base(mass) => {
            let base = batch.base().ok_or_else(|| {
                Impossible::new("the recipe has no percentages, so there is no base to scale by")
                    .help(Instead::ByTimesOrPieces)
            })?;
            batch.whole(batch.nearly_whole(mass.ratio(base)?, base)?).map(|factor| (factor, None))
        }
        Size::UseUp(one) => {
            let stock = have::weighed(recipe, std::slice::from_ref(one))?;
            let (factor, ingredient) = batch.share_of(&stock)?;
            batch.is_usual_piece(factor, &ingredient)?;
            Ok((factor, Some(Limit { ingredient })))
        }
        Size::Have(stock) => batch.out_of(&have::weighed(recipe, stock)?),
        Size::Stock(stock) => {
            let stock = have::weighed(recipe, stock)?;
            let mut taken = Vec::with_capacity(stock.len());
            for one in &stock {
                if batch.needed(&one.0.key)?.is_some_and(|mass| mass > Mass::ZERO) {
                    taken.push(one.clone());
                }
            }
            // When nothing fits, the first name says best what is wrong.
            batch.out_of(if taken.is_empty() { &stock } else { &taken })
        }
    }
}

/// The part whose base the recipe is scaled by, and how much that is: the most flour, else the largest of another kind.
pub fn base_of(recipe: &Recipe, formula: &Formula) -> Option<(PartId, Mass)> {
    let own = recipe.own_parts().filter(|(_, part)| part.from.is_none());
    let based = own.filter_map(|(id, part)| {
        let base = formula.part(id)?.base.filter(|base| *base > Mass::ZERO)?;
        let is_flour = matches!(part.base, Some((Base::Flour, _)));
        Some(((is_flour, base), id))
    });
    // Of equal ones the first.
    let largest = based.reduce(|most, next| if next.0 > most.0 { next } else { most });
    largest.map(|((_, base), id)| (id, base))
}

/// The smallest step by which a batch can grow with its pieces whole, as a share of the written batch; `None` where nothing is counted.
pub fn step(recipe: &Recipe, formula: &Formula) -> Option<Number> {
    Written { recipe, formula }.step()
}

/// A piece that is heavier or lighter than it is written by more than this share bakes otherwise, and is another thing. Common practice, no
/// source.
const OTHER_PIECE: Number = Number::constant(1, 4);

/// A recipe as it is written.
struct Written<'a> {
    recipe: &'a Recipe,
    formula: &'a Formula,
}

impl Written<'_> {
    /// Everything that must stay whole: the recipe's pieces and those of its parts.
    fn counts(&self) -> Vec<i64> {
        let own = self.recipe.parts().filter(|(_, part)| part.foreign.is_none());
        let parts = own.filter_map(|(id, _)| self.formula.part(id));
        parts
            .flat_map(|part| part.pieces.into_iter().chain(part.sorts.iter().copied()))
            .chain(self.formula.pieces)
            .filter_map(|count| count.value().to_whole())
            .filter(|count| *count > 0)
            .collect()
    }

    /// The smallest step by which the batch can grow, as a share of the written batch; `None` when it need not be whole.
    fn step(&self) -> Option<Number> {
        let divisor = self.counts().into_iter().reduce(greatest_common_divisor)?;
        Number::fraction(1, i128::from(divisor))
    }

    /// The factor of whole pieces where a weight that was asked for is as good as theirs: 550 g of four of 4.85 oz, which are 549.98 g and
    /// printed as 550. It is so up to a tenth of a gram, which no scale for dough shows (common practice, no source).
    fn nearly_whole(&self, factor: Number, of: Mass) -> Result<Number, Overflow> {
        let Some(step) = self.step() else { return Ok(factor) };
        let near = factor.rounded_to(step)?;
        let off = of.value().times(near.minus(factor)?.size())?;
        Ok(if near.is_positive() && off <= Number::constant(1, 10) { near } else { factor })
    }

    /// A factor under which pieces stay whole, or the nearest ones as an error.
    fn whole(&self, factor: Number) -> Result<Number, Impossible> {
        let Some(step) = self.step() else { return Ok(factor) };
        let steps = factor.over(step)?;
        if steps.is_whole() {
            return Ok(factor);
        }
        let below = steps.floor();
        let above = below.plus(Number::ONE)?;
        let mut near = Vec::new();
        for steps in [below, above] {
            if steps.is_positive() {
                near.push(self.describe(steps.times(step)?)?);
            }
        }
        let wanted = match self.formula.pieces {
            Some(pieces) => {
                let pieces = pieces.value().times(factor)?;
                let all = format!("that would be {} {}", not_whole(pieces), agreeing(pieces, self.noun()));
                // Of 30 pastries of a dough in blocks it is the blocks that would not be whole.
                match self.part_not_whole(factor)?.filter(|_| pieces.is_whole()) {
                    Some((part, count)) => {
                        let count = format!("{} {}", not_whole(count), agreeing(count, "pieces"));
                        format!("{} {} would take {count} of {part}", not_whole(pieces), agreeing(pieces, self.noun()))
                    }
                    None => all,
                }
            }
            None => "its parts would not come out in whole pieces".to_owned(),
        };
        Err(Impossible::new(format!("{wanted}, and pieces stay whole")).help(Instead::Nearest(near)))
    }

    /// The first part of which there would be no whole number of pieces, and how many.
    fn part_not_whole(&self, factor: Number) -> Result<Option<(String, Number)>, Overflow> {
        for (id, part) in self.recipe.parts().filter(|(_, part)| part.foreign.is_none()) {
            let solved = self.formula.part(id);
            for count in solved.into_iter().flat_map(|part| part.pieces.into_iter().chain(part.sorts.iter().copied())) {
                let count = count.value().times(factor)?;
                if !count.is_whole() {
                    return Ok(Some((part.name.to_string(), count)));
                }
            }
        }
        Ok(None)
    }

    /// A possible batch as a person would ask for it.
    fn describe(&self, factor: Number) -> Result<Near, Overflow> {
        let (called, manner, figure) = match self.formula.pieces {
            Some(pieces) => {
                let pieces = pieces.value().times(factor)?;
                let count = pieces.decimal(0);
                (format!("{count} {}", agreeing(pieces, self.noun())), Manner::Pieces, count)
            }
            None => {
                (format!("{} {}", show::number(factor), agreeing(factor, "times")), Manner::Times, factor.decimal(6))
            }
        };
        let base = self.base().map(|base| base.times(factor)).transpose()?;
        Ok(Near { called, manner, figure, base: base.map(|base| show::mass_plain(base).to_string()) })
    }

    fn noun(&self) -> &str {
        match &self.recipe.makes {
            Some(HeadMakes::Pieces { noun, .. }) => &noun.text,
            _ => "pieces",
        }
    }

    fn for_pieces(&self, wanted: Number) -> Result<Number, Impossible> {
        if !wanted.is_whole() || !wanted.is_positive() {
            return Err(Impossible::new(format!("{} pieces cannot be made", wanted.decimal(3)))
                .help("give a whole number of pieces, at least 1"));
        }
        let Some(pieces) = self.formula.pieces.filter(|pieces| pieces.value().is_positive()) else {
            return Err(Impossible::new("the recipe is not made in pieces").help(Instead::ByTimesOrTotal));
        };
        self.whole(wanted.over(pieces.value())?)
    }

    /// What the recipe makes: the mass that its final part comes to.
    fn makes(&self) -> Option<Mass> {
        self.recipe.final_part()?;
        self.formula.makes(self.recipe).filter(|mass| *mass > Mass::ZERO)
    }

    /// What `--base` is about: the most flour that a part has; without any flour the largest base of another kind.
    fn base(&self) -> Option<Mass> {
        base_of(self.recipe, self.formula).map(|(_, base)| base)
    }

    /// How many times the batch as written the scarcest of these lasts for, whole pieces or not, and which it is.
    fn share_of(&self, stock: &[(Name, Mass)]) -> Result<(Number, String), Impossible> {
        let mut least: Option<(Number, String)> = None;
        for (name, there_is) in stock {
            let needed = self.needed(&name.key)?;
            let Some(needed) = needed.filter(|mass| *mass > Mass::ZERO) else {
                let known = self.ingredients();
                let near = crate::language::parse::nearest(name.key.as_str(), known.iter().map(Key::as_str));
                let problem = Impossible::new(format!("the recipe takes no weighed `{name}`"));
                if self.recipe.parts().any(|(_, part)| part.name.key == name.key) {
                    return Err(Impossible::new(format!("`{name}` is a part of the recipe, and is made"))
                        .help("name an ingredient that is bought; what there is of a part, a day says: `store 3 kg of jam of \"buns.miche\"`"));
                }
                return Err(match near {
                    Some(near) => problem.help(format!("did you mean `{near}`?")),
                    None => problem.help("name an ingredient of the recipe that is given by weight"),
                });
            };
            let factor = there_is.ratio(needed)?;
            if least.as_ref().is_none_or(|(smallest, _)| factor < *smallest) {
                least = Some((factor, name.to_string()));
            }
        }
        least.ok_or_else(|| {
            Impossible::new("nothing was said of what there is").help("write --have \"strong white flour=2 kg\"")
        })
    }

    fn out_of(&self, stock: &[(Name, Mass)]) -> Result<(Number, Option<Limit>), Impossible> {
        let (factor, ingredient) = self.share_of(stock)?;
        let factor = match self.step() {
            Some(step) => factor.over(step)?.floor().times(step)?,
            None => factor,
        };
        if !factor.is_positive() {
            let smallest = self.step().map(|step| self.describe(step)).transpose()?;
            return Err(Impossible::new(format!("there is too little {ingredient} for any batch"))
                .help(Instead::Smallest(smallest)));
        }
        Ok((factor, Some(Limit { ingredient })))
    }

    /// Pieces that use up all of something weigh a little more or less than it is written, and are no others: what would make them heavier
    /// or lighter by more than [`OTHER_PIECE`] is refused.
    fn is_usual_piece(&self, factor: Number, ingredient: &str) -> Result<(), Impossible> {
        let Some(step) = self.step() else { return Ok(()) };
        let pieces = use_up::nearest(factor, step)?;
        if factor.over(pieces)?.minus(Number::ONE)?.size() <= OTHER_PIECE {
            return Ok(());
        }
        let what = if factor < pieces { "little" } else { "much" };
        let steps = factor.over(step)?.floor();
        let mut near = Vec::new();
        for steps in [steps, steps.plus(Number::ONE)?].into_iter().filter(|steps| steps.is_positive()) {
            near.push(self.describe(steps.times(step)?)?);
        }
        let than = "a piece would weigh over a quarter more or less than it is written";
        let why = format!("so {what} {ingredient} is used up by no number of pieces: {than}");
        Err(Impossible::new(why).help(Instead::Nearest(near)))
    }

    /// How much of an ingredient, as it is bought, the written batch takes, in all parts that are made.
    fn needed(&self, key: &Key) -> Result<Option<Mass>, Overflow> {
        let mut total = None;
        for (id, part) in self.made_parts() {
            let amounts = self.formula.part(id).map(|solved| solved.bought(part)).transpose()?.flatten();
            for (line, amount) in part.lines.iter().zip(amounts.unwrap_or_default()) {
                let is_it =
                    matches!(line.refers, Refers::Pantry(_)) && self.recipe.larder.is_called(&line.name.key, key);
                if let (true, Some(mass)) = (is_it, amount) {
                    total = Some(total.unwrap_or(Mass::ZERO).plus(have::bought(line, mass)?)?);
                }
            }
        }
        Ok(total)
    }

    fn ingredients(&self) -> Vec<Key> {
        let lines = self.made_parts().flat_map(|(id, part)| part.lines.iter().enumerate().map(move |line| (id, line)));
        let taken = lines.filter(|(id, (at, _))| !self.formula.is_left_out(*id, *at));
        taken.map(|(_, (_, line))| line.name.key.clone()).collect()
    }

    /// The parts that are made.
    fn made_parts(&self) -> impl Iterator<Item = (PartId, &crate::model::recipe::Part)> {
        self.recipe.parts().filter(|(id, _)| self.formula.is_made(*id))
    }
}

fn greatest_common_divisor(a: i64, b: i64) -> i64 {
    let (mut a, mut b) = (a, b);
    while b != 0 {
        (a, b) = (b, a % b);
    }
    a
}

/// A number that is not whole in so many digits that this is seen: 57.04 and not 57.
fn not_whole(number: Number) -> String {
    let usual = show::number(number).to_string();
    let two = number.decimal(2);
    match (usual.contains('.'), two.contains('.')) {
        (true, _) => usual,
        (false, true) => two,
        _ => number.decimal(6),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_not_whole_is_seen_to_be_none() {
        let said = |over, under| not_whole(Number::constant(over, under));
        assert_eq!(said(40, 3), "13.3");
        assert_eq!(said(5704, 100), "57.04");
        assert_eq!(said(57_001, 1000), "57.001");
    }
}
