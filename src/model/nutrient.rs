//! What a gram of an ingredient holds of a nutrient, by the larder's figures in 100 g: at least and at most.
//!
//! Labels and aims ask here, so that an aim for energy is held against the very figure that the label prints.

use super::kind::Kind;
use super::larder::Facts;
use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::Proportion;

/// A nutrient that one of the laws wants on a label.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
#[allow(missing_docs)] // the names are the nutrients
pub enum Nutrient {
    /// Kilocalories as the larder has them (United States).
    Energy,
    Fat,
    Saturates,
    TransFat,
    Cholesterol,
    /// With its fibre (United States).
    Carbohydrate,
    Sugars,
    AddedSugars,
    Polyols,
    Fibre,
    /// As the larder has it, by the factor of the food (United States).
    Protein,
    Salt,
    /// Kilojoules by Annex XIV (European Union).
    Kilojoules,
    /// Kilocalories by Annex XIV (European Union).
    Kilocalories,
    /// Without its fibre (European Union).
    AvailableCarbohydrate,
    /// Nitrogen x 6.25 (European Union).
    GrossProtein,
    VitaminD,
    Calcium,
    Iron,
    Potassium,
    Alcohol,
    Acids,
}

impl Nutrient {
    /// All of them, in their order.
    pub const ALL: [Nutrient; 22] = [
        Nutrient::Energy,
        Nutrient::Fat,
        Nutrient::Saturates,
        Nutrient::TransFat,
        Nutrient::Cholesterol,
        Nutrient::Carbohydrate,
        Nutrient::Sugars,
        Nutrient::AddedSugars,
        Nutrient::Polyols,
        Nutrient::Fibre,
        Nutrient::Protein,
        Nutrient::Salt,
        Nutrient::Kilojoules,
        Nutrient::Kilocalories,
        Nutrient::AvailableCarbohydrate,
        Nutrient::GrossProtein,
        Nutrient::VitaminD,
        Nutrient::Calcium,
        Nutrient::Iron,
        Nutrient::Potassium,
        Nutrient::Alcohol,
        Nutrient::Acids,
    ];
}

/// What a gram of an ingredient holds: at least and at most.
#[derive(Debug, Clone, Copy)]
pub struct Held {
    /// In the unit of the nutrient: grams; kilocalories or kilojoules; milligrams of cholesterol, calcium, iron and potassium; micrograms
    /// of vitamin D.
    pub least: Number,
    /// The most that it can be, by what the larder leaves open.
    pub most: Number,
    /// Whether both are one.
    pub is_known: bool,
}

/// What a gram holds; without facts anything may be in it.
///
/// # Errors
/// When a figure leaves the range of exact numbers.
pub fn held(facts: Option<&Facts>, nutrient: Nutrient) -> Result<Held, Overflow> {
    let Some(facts) = facts else {
        return Ok(Held { least: Number::ZERO, most: most_of_all(nutrient, Number::ONE)?, is_known: false });
    };
    if let Some(exact) = known(facts, nutrient)? {
        return Ok(Held { least: exact, most: exact, is_known: true });
    }
    let most = at_most(facts, nutrient)?;
    Ok(Held { least: at_least(facts, nutrient)?, most, is_known: false })
}

fn value(share: Option<Proportion>) -> Option<Number> {
    share.map(Proportion::value)
}

/// What grows, and no animal: without cholesterol, trans fat and vitamin D.
fn is_of_plants(kind: Kind) -> bool {
    matches!(
        kind,
        Kind::Flour
            | Kind::Starch
            | Kind::Grain
            | Kind::Water
            | Kind::Ice
            | Kind::Juice
            | Kind::Vinegar
            | Kind::Salt
            | Kind::Yeast(_)
            | Kind::Leaven
            | Kind::BakingPowder
            | Kind::Soda
            | Kind::RaisingAgent
            | Kind::Sugar
            | Kind::Fruit
            | Kind::Nut
            | Kind::Seed
            | Kind::Pulse
            | Kind::Spice
            | Kind::Lye
    )
}

fn is_of_animals(kind: Kind) -> bool {
    matches!(kind, Kind::Milk | Kind::Dairy | Kind::Egg | Kind::Meat | Kind::Fish | Kind::Shellfish)
}

/// A figure in 100 g, for a gram.
fn in_a_gram(figure: Option<Number>) -> Result<Option<Number>, Overflow> {
    figure.map(|figure| figure.over(Number::whole(100))).transpose()
}

/// What a gram holds, where the larder's figures settle it.
fn known(facts: &Facts, nutrient: Nutrient) -> Result<Option<Number>, Overflow> {
    let contents = &facts.contents;
    if contents.water == Some(Proportion::WHOLE) {
        return Ok(Some(Number::ZERO));
    }
    let kind = facts.kind.unwrap_or_default();
    let fat = value(contents.fat);
    let carbohydrate = value(contents.carbohydrate);
    let none_without = |of: Option<Number>| of.filter(|of| of.is_zero());
    let none_if = |holds: bool| holds.then_some(Number::ZERO);
    Ok(match nutrient {
        Nutrient::Energy => match in_a_gram(contents.energy)? {
            Some(energy) => Some(energy),
            None => by_general_factors(facts)?,
        },
        Nutrient::Fat => fat,
        Nutrient::Saturates => value(contents.saturates).or(none_without(fat)),
        // Egg and fish hold next to nothing of it; the fat of ruminants and what was hardened does.
        Nutrient::TransFat => value(contents.trans_fat)
            .or(none_without(fat))
            .or(none_if(is_of_plants(kind) || matches!(kind, Kind::Egg | Kind::Fish | Kind::Shellfish))),
        Nutrient::Carbohydrate => carbohydrate,
        Nutrient::Sugars => value(contents.sugar).or(none_without(carbohydrate)),
        Nutrient::AddedSugars => added_sugar(facts),
        Nutrient::Polyols => Some(value(contents.polyols).unwrap_or(Number::ZERO)),
        Nutrient::Fibre => value(contents.fibre).or(none_without(carbohydrate)).or(none_if(is_of_animals(kind))),
        Nutrient::Protein => value(contents.protein),
        Nutrient::Salt => value(contents.salt),
        Nutrient::Alcohol => value(contents.alcohol).or(none_if(kind != Kind::Spirit)),
        Nutrient::Acids => value(contents.acid).or(none_if(kind != Kind::Vinegar)),
        Nutrient::GrossProtein => gross_protein(facts)?,
        Nutrient::AvailableCarbohydrate => available(facts)?,
        Nutrient::Kilojoules | Nutrient::Kilocalories => by_annex_xiv(facts, nutrient)?,
        Nutrient::Cholesterol => in_a_gram(contents.cholesterol)?.or(none_if(is_of_plants(kind))),
        Nutrient::VitaminD => in_a_gram(contents.vitamin_d)?.or(none_if(is_of_plants(kind))),
        Nutrient::Calcium => in_a_gram(contents.calcium)?,
        Nutrient::Iron => in_a_gram(contents.iron)?,
        Nutrient::Potassium => in_a_gram(contents.potassium)?,
    })
}

/// Sugar that was added, by what the ingredient is: 21 CFR 101.9(c)(6)(iii) (from memory) counts sugars, syrups and honey, and no sugar
/// of fruit, milk and grain.
fn added_sugar(facts: &Facts) -> Option<Number> {
    let sugar = value(facts.contents.sugar);
    if facts.contents.added_sugar.is_some() {
        return value(facts.contents.added_sugar);
    }
    match facts.kind.unwrap_or_default() {
        Kind::Sugar | Kind::Syrup => sugar,
        Kind::Flour
        | Kind::Starch
        | Kind::Grain
        | Kind::Milk
        | Kind::Juice
        | Kind::Vinegar
        | Kind::Salt
        | Kind::Yeast(_)
        | Kind::Leaven
        | Kind::Fat
        | Kind::Egg
        | Kind::Vegetable
        | Kind::Seed
        | Kind::Pulse
        | Kind::Spice => Some(Number::ZERO),
        Kind::Fruit | Kind::Nut | Kind::Dairy if !facts.flags.compound => Some(Number::ZERO),
        _ => sugar.filter(|sugar| sugar.is_zero()),
    }
}

/// Protein as nitrogen x 6.25 (Regulation (EU) 1169/2011, Annex I, 10); where no factor is said it is that already.
fn gross_protein(facts: &Facts) -> Result<Option<Number>, Overflow> {
    let Some(protein) = value(facts.contents.protein) else { return Ok(None) };
    match facts.contents.nitrogen_factor.filter(|factor| factor.is_positive()) {
        // To the hundred-millionth: a sum over foods with six factors would leave the range of exact numbers.
        Some(factor) => {
            let gross = protein.times(Number::constant(25, 4))?.over(factor)?;
            gross.rounded_to(Number::constant(1, 100_000_000)).map(Some)
        }
        None => Ok(Some(protein)),
    }
}

/// Carbohydrate as the European Union counts it: without the fibre, which the larder's figure holds, and, since it is what is left of
/// 100, without what protein has more by its factor, and without acids that are in it.
fn available(facts: &Facts) -> Result<Option<Number>, Overflow> {
    let contents = &facts.contents;
    let Some(carbohydrate) = value(contents.carbohydrate) else { return Ok(None) };
    if carbohydrate.is_zero() {
        return Ok(Some(carbohydrate));
    }
    let Some(fibre) = known(facts, Nutrient::Fibre)? else { return Ok(None) };
    let protein = value(contents.protein).unwrap_or(Number::ZERO);
    let more = gross_protein(facts)?.unwrap_or(protein).minus(protein)?;
    let acid = value(contents.acid).unwrap_or(Number::ZERO);
    let is_in_it = named_parts(facts)?.plus(acid)? > Number::constant(101, 100);
    let acid = if is_in_it { acid } else { Number::ZERO };
    let left = carbohydrate.minus(fibre)?.minus(more)?.minus(acid)?;
    Ok(Some(if left.is_negative() { Number::ZERO } else { left }))
}

/// Water, fat, protein, carbohydrate and alcohol together, as far as they are known.
fn named_parts(facts: &Facts) -> Result<Number, Overflow> {
    let contents = &facts.contents;
    let parts = [contents.water, contents.fat, contents.protein, contents.carbohydrate, contents.alcohol];
    parts.into_iter().flatten().try_fold(Number::ZERO, |sum, part| sum.plus(part.value()))
}

/// The factors of Regulation (EU) 1169/2011, Annex XIV (from memory), kilojoules and kilocalories a gram.
const ANNEX_XIV: [(Nutrient, i64, i64); 6] = [
    (Nutrient::Fat, 37, 9),
    (Nutrient::AvailableCarbohydrate, 17, 4),
    (Nutrient::GrossProtein, 17, 4),
    (Nutrient::Fibre, 8, 2),
    (Nutrient::Alcohol, 29, 7),
    (Nutrient::Acids, 13, 3),
];

/// Energy by Annex XIV. Polyols are carbohydrate, of 10 kJ and 2.4 kcal a gram; erythritol, of which the larder knows no energy, of none.
fn by_annex_xiv(facts: &Facts, unit: Nutrient) -> Result<Option<Number>, Overflow> {
    let in_kilojoules = unit == Nutrient::Kilojoules;
    let mut energy = Number::ZERO;
    for (nutrient, kj, kcal) in ANNEX_XIV {
        let Some(share) = known(facts, nutrient)? else { return Ok(None) };
        energy = energy.plus(share.times(Number::whole(if in_kilojoules { kj } else { kcal }))?)?;
    }
    let polyols = value(facts.contents.polyols).unwrap_or(Number::ZERO);
    let is_none = facts.contents.energy.is_some_and(Number::is_zero);
    let less = match (in_kilojoules, is_none) {
        (true, false) => Number::whole(7),
        (false, false) => Number::constant(8, 5),
        (true, true) => Number::whole(17),
        (false, true) => Number::whole(4),
    };
    energy.minus(polyols.times(less)?).map(Some)
}

/// Kilocalories by the general factors 4, 4 and 9 of 21 CFR 101.9(c)(1)(i)(B) (from memory), with 7 for alcohol.
fn by_general_factors(facts: &Facts) -> Result<Option<Number>, Overflow> {
    let mut energy = Number::ZERO;
    for (nutrient, kcal) in
        [(Nutrient::Fat, 9), (Nutrient::Carbohydrate, 4), (Nutrient::Protein, 4), (Nutrient::Alcohol, 7)]
    {
        let Some(share) = known(facts, nutrient)? else { return Ok(None) };
        energy = energy.plus(share.times(Number::whole(kcal))?)?;
    }
    Ok(Some(energy))
}

/// The least that a gram holds of what is not known: energy of the parts that are.
fn at_least(facts: &Facts, nutrient: Nutrient) -> Result<Number, Overflow> {
    let in_kilojoules = match nutrient {
        Nutrient::Kilojoules => true,
        Nutrient::Kilocalories => false,
        _ => return Ok(Number::ZERO),
    };
    let mut energy = Number::ZERO;
    for (part, kj, kcal) in ANNEX_XIV {
        let share = known(facts, part)?.unwrap_or(Number::ZERO);
        energy = energy.plus(share.times(Number::whole(if in_kilojoules { kj } else { kcal }))?)?;
    }
    Ok(energy)
}

/// The most that a gram can hold of what is not known: no more than what the figures that are known leave of it.
fn at_most(facts: &Facts, nutrient: Nutrient) -> Result<Number, Overflow> {
    let left = Number::ONE.minus(named_parts(facts)?)?;
    let left = if left.is_negative() { Number::ZERO } else { left };
    let contents = &facts.contents;
    Ok(match nutrient {
        Nutrient::Saturates | Nutrient::TransFat => value(contents.fat).unwrap_or(left),
        Nutrient::Sugars | Nutrient::Fibre | Nutrient::AvailableCarbohydrate => {
            value(contents.carbohydrate).unwrap_or(left)
        }
        Nutrient::AddedSugars => value(contents.sugar).or(value(contents.carbohydrate)).unwrap_or(left),
        Nutrient::Kilojoules | Nutrient::Kilocalories | Nutrient::Energy => {
            // What is known, and of the rest the most that a gram can give, fat's.
            let carbohydrate = match known(facts, Nutrient::AvailableCarbohydrate)? {
                None => value(contents.carbohydrate).unwrap_or(Number::ZERO),
                Some(_) => Number::ZERO,
            };
            let (of_rest, of_carbohydrate) = if nutrient == Nutrient::Kilojoules { (37, 17) } else { (9, 4) };
            let least = at_least(facts, if nutrient == Nutrient::Energy { Nutrient::Kilocalories } else { nutrient })?;
            least
                .plus(left.times(Number::whole(of_rest))?)?
                .plus(carbohydrate.times(Number::whole(of_carbohydrate))?)?
        }
        _ => most_of_all(nutrient, left)?,
    })
}

/// The most that there can be in a gram of which `left` is open: all of it; of traces what the richest food has (cholesterol: dried egg
/// yolk, 2.4 g in 100 g; vitamin D: cod liver oil, 250 micrograms; both USDA SR26, seen; minerals: all of what is open).
fn most_of_all(nutrient: Nutrient, left: Number) -> Result<Number, Overflow> {
    match nutrient {
        Nutrient::Kilojoules => left.times(Number::whole(37)),
        Nutrient::Kilocalories | Nutrient::Energy => left.times(Number::whole(9)),
        Nutrient::Cholesterol => Ok(Number::whole(24)),
        Nutrient::VitaminD => Ok(Number::constant(5, 2)),
        Nutrient::Calcium | Nutrient::Potassium | Nutrient::Iron => left.times(Number::whole(1000)),
        _ => Ok(left),
    }
}
