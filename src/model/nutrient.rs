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

/// Vegetables without trans fat and cholesterol: not those that come fried or in a sauce. Mushrooms are among them, which hold vitamin D.
fn is_plain_vegetable(facts: &Facts) -> bool {
    facts.kind == Some(Kind::Vegetable) && !facts.flags.compound
}

/// Syrups, what thickens and spirits, without trans fat, cholesterol and vitamin D: not those that hold milk or egg, or more than is known.
fn is_plain_syrup_or_spirit(facts: &Facts) -> bool {
    let is_one = matches!(facts.kind, Some(Kind::Syrup | Kind::Thickener | Kind::Spirit));
    is_one
        && !facts.flags.compound
        && !facts.allergens.iter().any(|word| matches!(word.as_str(), "milk" | "egg" | "eggs"))
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
        Nutrient::TransFat => value(contents.trans_fat).or(none_without(fat)).or(none_if(
            is_of_plants(kind)
                || is_plain_vegetable(facts)
                || is_plain_syrup_or_spirit(facts)
                || matches!(kind, Kind::Egg | Kind::Fish | Kind::Shellfish),
        )),
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
        Nutrient::Cholesterol => {
            let is_none = is_of_plants(kind) || is_plain_vegetable(facts) || is_plain_syrup_or_spirit(facts);
            in_a_gram(contents.cholesterol)?.or(none_if(is_none))
        }
        Nutrient::VitaminD => {
            in_a_gram(contents.vitamin_d)?.or(none_if(is_of_plants(kind) || is_plain_syrup_or_spirit(facts)))
        }
        Nutrient::Calcium => in_a_gram(contents.calcium)?,
        Nutrient::Iron => in_a_gram(contents.iron)?,
        Nutrient::Potassium => in_a_gram(contents.potassium)?,
    })
}

/// Sugar that was added, by what the ingredient is: 21 CFR 101.9(c)(6)(iii), by the FDA's answer that kdvlabel.com
/// prints (seen), counts sugars, syrups and honey, and no sugar of fruit, milk and grain.
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

/// Carbohydrate as the European Union counts it, where carbohydrate and fibre are known.
fn available(facts: &Facts) -> Result<Option<Number>, Overflow> {
    if value(facts.contents.carbohydrate).is_some_and(Number::is_zero) {
        return Ok(Some(sugars(facts)));
    }
    let Some(fibre) = known(facts, Nutrient::Fibre)? else { return Ok(None) };
    available_beside(facts, fibre)
}

/// Carbohydrate as the European Union counts it: without the fibre, which the larder's figure holds, and, since it is what is left of
/// 100, without what protein has more by its factor, and without acids that are in it.
fn available_beside(facts: &Facts, fibre: Number) -> Result<Option<Number>, Overflow> {
    let contents = &facts.contents;
    let Some(carbohydrate) = value(contents.carbohydrate) else { return Ok(None) };
    let protein = value(contents.protein).unwrap_or(Number::ZERO);
    let more = gross_protein(facts)?.unwrap_or(protein).minus(protein)?;
    let acid = value(contents.acid).unwrap_or(Number::ZERO);
    let is_in_it = named_parts(facts)?.plus(acid)? > Number::constant(101, 100);
    let acid = if is_in_it { acid } else { Number::ZERO };
    let left = not_below_zero(carbohydrate.minus(fibre)?.minus(more)?.minus(acid)?);
    // What is left of 100 has the errors of all the others; sugars are measured, and are carbohydrate.
    Ok(Some(left.max(sugars(facts))))
}

/// The sugars that are known.
fn sugars(facts: &Facts) -> Number {
    value(facts.contents.sugar).unwrap_or(Number::ZERO)
}

fn not_below_zero(number: Number) -> Number {
    if number.is_negative() { Number::ZERO } else { number }
}

/// The most fibre that there can be in a gram: what sugars and polyols leave of its carbohydrate. `None` where that is not known.
fn most_fibre(facts: &Facts) -> Result<Option<Number>, Overflow> {
    most_of_carbohydrate(facts, known(facts, Nutrient::Sugars)?)
}

/// What is left of the carbohydrate beside its polyols and another part of it that is known.
fn most_of_carbohydrate(facts: &Facts, beside: Option<Number>) -> Result<Option<Number>, Overflow> {
    let Some(carbohydrate) = value(facts.contents.carbohydrate) else { return Ok(None) };
    let polyols = value(facts.contents.polyols).unwrap_or(Number::ZERO);
    let left = carbohydrate.minus(polyols)?.minus(beside.unwrap_or(Number::ZERO))?;
    Ok(Some(not_below_zero(left)))
}

/// Water, fat, protein, carbohydrate and alcohol together, as far as they are known; of carbohydrate that is not, its sugars.
fn named_parts(facts: &Facts) -> Result<Number, Overflow> {
    let contents = &facts.contents;
    let carbohydrate = contents.carbohydrate.or(contents.sugar);
    let parts = [contents.water, contents.fat, contents.protein, carbohydrate, contents.alcohol];
    parts.into_iter().flatten().try_fold(Number::ZERO, |sum, part| sum.plus(part.value()))
}

/// The factors of Regulation (EU) 1169/2011, Annex XIV, as vethyqua.scenari.eu prints the text in force on 13 March 2024 (seen), kilojoules and
/// kilocalories a gram.
const ANNEX_XIV: [(Nutrient, i64, i64); 6] = [
    (Nutrient::Fat, 37, 9),
    (Nutrient::AvailableCarbohydrate, 17, 4),
    (Nutrient::GrossProtein, 17, 4),
    (Nutrient::Fibre, 8, 2),
    (Nutrient::Alcohol, 29, 7),
    (Nutrient::Acids, 13, 3),
];

/// Energy by Annex XIV, where all of its parts are known.
fn by_annex_xiv(facts: &Facts, unit: Nutrient) -> Result<Option<Number>, Overflow> {
    for (part, ..) in ANNEX_XIV {
        if known(facts, part)?.is_none() {
            return Ok(None);
        }
    }
    of_known_parts(facts, unit, Number::ZERO).map(Some)
}

/// Energy by Annex XIV of the parts that are known. Where the fibre is not, so much of the carbohydrate is taken to be fibre: the more
/// it is, the less energy. Polyols are carbohydrate, of 10 kJ and 2.4 kcal a gram; erythritol, of which the larder knows no energy, of
/// none.
fn of_known_parts(facts: &Facts, unit: Nutrient, fibre: Number) -> Result<Number, Overflow> {
    let in_kilojoules = unit == Nutrient::Kilojoules;
    let has_carbohydrate = facts.contents.carbohydrate.is_some();
    let mut energy = Number::ZERO;
    for (part, kj, kcal) in ANNEX_XIV {
        let share = match known(facts, part)? {
            Some(share) => share,
            None if part == Nutrient::Fibre && has_carbohydrate => fibre,
            None if part == Nutrient::AvailableCarbohydrate => available_beside(facts, fibre)?.unwrap_or(sugars(facts)),
            None => Number::ZERO,
        };
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
    Ok(not_below_zero(energy.minus(polyols.times(less)?)?))
}

/// Kilocalories by the general factors 4, 4 and 9, one of the methods of 21 CFR 101.9(c)(1)(i) (ESHA, 4-4-9 Method, seen), with 7 for
/// alcohol (from memory).
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

/// Whether all that gives energy is known, but for how much of the carbohydrate is fibre.
fn is_settled_but_fibre(facts: &Facts) -> Result<bool, Overflow> {
    for (part, ..) in ANNEX_XIV {
        let is_of_carbohydrate = matches!(part, Nutrient::Fibre | Nutrient::AvailableCarbohydrate);
        let is_open =
            if is_of_carbohydrate { facts.contents.carbohydrate.is_none() } else { known(facts, part)?.is_none() };
        if is_open {
            return Ok(false);
        }
    }
    Ok(true)
}

/// The least that a gram holds of what is not known: where its fibre is open, all that can be fibre is; where its carbohydrate is, its
/// sugars alone.
fn at_least(facts: &Facts, nutrient: Nutrient) -> Result<Number, Overflow> {
    let fibre = most_fibre(facts)?.unwrap_or(Number::ZERO);
    match nutrient {
        Nutrient::Kilojoules | Nutrient::Kilocalories => of_known_parts(facts, nutrient, fibre),
        Nutrient::AvailableCarbohydrate => Ok(available_beside(facts, fibre)?.unwrap_or(sugars(facts))),
        Nutrient::Carbohydrate => Ok(sugars(facts)),
        _ => Ok(Number::ZERO),
    }
}

/// The most that a gram can hold of what is not known: no more than what the figures that are known leave of it.
fn at_most(facts: &Facts, nutrient: Nutrient) -> Result<Number, Overflow> {
    let left = not_below_zero(Number::ONE.minus(named_parts(facts)?)?);
    let contents = &facts.contents;
    let most_sugars = || most_of_carbohydrate(facts, known(facts, Nutrient::Fibre)?);
    Ok(match nutrient {
        Nutrient::Saturates | Nutrient::TransFat => value(contents.fat).unwrap_or(left),
        Nutrient::Fibre => most_fibre(facts)?.unwrap_or(left),
        Nutrient::Sugars => most_sugars()?.unwrap_or(left),
        Nutrient::AvailableCarbohydrate => match available_beside(facts, Number::ZERO)? {
            Some(most) => most,
            None => left.plus(sugars(facts))?,
        },
        Nutrient::Carbohydrate => left.plus(sugars(facts))?,
        Nutrient::AddedSugars => {
            value(contents.sugar).map_or_else(most_sugars, |sugar| Ok(Some(sugar)))?.unwrap_or(left)
        }
        Nutrient::Kilojoules | Nutrient::Kilocalories | Nutrient::Energy => {
            // What is known, without fibre where that is open, and, unless all that gives energy is known, of the rest the most that a
            // gram can give, fat's.
            let unit = if nutrient == Nutrient::Energy { Nutrient::Kilocalories } else { nutrient };
            let of_rest = if nutrient == Nutrient::Kilojoules { 37 } else { 9 };
            let most = of_known_parts(facts, unit, Number::ZERO)?;
            if is_settled_but_fibre(facts)? { most } else { most.plus(left.times(Number::whole(of_rest))?)? }
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
