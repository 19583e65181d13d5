//! What a gram of an ingredient brings of a figure, by the larder.

use crate::make::cost;
use crate::measure::number::Number;
use crate::measure::quantity::Proportion;
use crate::model::aim::{Aim, AimUnit, Figure};
use crate::model::kind::Kind;
use crate::model::larder::Contents;
use crate::model::nutrient::{Nutrient, held};
use crate::model::recipe::{Ingredient, Recipe};
use crate::solve::formula::composition::{may_be_salted, of_a_gram};
use crate::solve::formula::fed::is_fed;

/// What a gram brings.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Share {
    /// So much.
    Known(Number),
    /// The larder does not say; no more than this.
    UpTo(Number),
}

impl Share {
    /// How much it is, where that is known.
    pub(super) fn known(self) -> Option<Number> {
        match self {
            Share::Known(share) => Some(share),
            Share::UpTo(_) => None,
        }
    }
}

/// The most energy in a gram: that of fat, kilojoules.
const MOST_ENERGY: Number = Number::whole(37);
/// Salt that is in milk by nature counts to its solids; more of it was added (common practice, no source).
const NATURAL_SALT: Number = Number::constant(1, 200);
/// Grams of milk sugar beside a gram of milk protein (USDA SR28 01077, whole milk: 4.8 and 3.15 of 100 g).
const MILK_SUGAR: Number = Number::constant(3, 2);

/// What a gram of a line brings of the figure of an aim, in its unit.
pub(super) fn share(recipe: &Recipe, aim: &Aim, line: &Ingredient) -> Share {
    let figure = &aim.figure;
    let contents = line.facts().map(|facts| facts.contents).unwrap_or_default();
    let yes = |is: bool| Share::Known(if is { Number::ONE } else { Number::ZERO });
    // Water is nothing else.
    if contents.water == Some(Proportion::WHOLE)
        && !matches!(figure, Figure::Water | Figure::Hydration | Figure::Weight)
    {
        if let Figure::Ingredient(name) = figure {
            return yes(recipe.larder.is_called(&line.name.key, &name.key));
        }
        if *figure != Figure::Cost {
            return Share::Known(Number::ZERO);
        }
    }
    let of = |known: Option<Proportion>| known.map_or(Share::UpTo(Number::ONE), |share| Share::Known(share.value()));
    let none_without = |known: Option<Proportion>, holder: Option<Proportion>| {
        of(known.or(holder.filter(|share| *share == Proportion::ZERO)))
    };
    match figure {
        Figure::Hydration | Figure::Water if line.is_flour => Share::Known(Number::ZERO),
        // Of a leaven its flour is flour.
        Figure::Hydration | Figure::Water | Figure::Solids if is_fed(line) => {
            let water = of_a_gram(line).map_or(Number::ZERO, |one| one.water.value());
            let solids = Number::ONE.minus(water).unwrap_or(Number::ONE);
            Share::Known(if *figure == Figure::Solids { solids } else { water })
        }
        Figure::Hydration | Figure::Water => of(contents.water),
        Figure::Solids if line.is_flour => Share::Known(Number::ONE),
        Figure::Solids => match contents.water.and_then(|water| water.rest().ok()) {
            Some(rest) => Share::Known(rest.value()),
            None => Share::UpTo(Number::ONE),
        },
        Figure::Fat => of(contents.fat),
        Figure::Sugar => none_without(contents.sugar, contents.carbohydrate),
        Figure::Protein => of(contents.protein),
        Figure::Salt => salt(line, &contents),
        Figure::MilkSolids => milk_solids(line, &contents),
        Figure::Egg => yes(line.kind == Kind::Egg),
        Figure::Yeast => yes(line.kind.is_yeast()),
        Figure::Acid => acid(line, &contents),
        Figure::Alcohol => alcohol(line, &contents),
        Figure::Energy => energy(line, &aim.unit),
        Figure::Cost => price(line),
        Figure::Weight | Figure::BakedWeight => Share::Known(Number::ONE),
        Figure::Prefermented | Figure::Time | Figure::Hands => Share::Known(Number::ZERO),
        Figure::Ingredient(name) => yes(recipe.larder.is_called(&line.name.key, &name.key)),
    }
}

/// As labels of the European Union count it.
fn energy(line: &Ingredient, unit: &AimUnit) -> Share {
    let nutrient = if *unit == AimUnit::Kilojoules { Nutrient::Kilojoules } else { Nutrient::Kilocalories };
    match held(line.facts(), nutrient) {
        Ok(held) if held.is_known => Share::Known(held.most),
        Ok(held) => Share::UpTo(held.most),
        Err(_) => Share::UpTo(MOST_ENERGY),
    }
}

/// As the sums of the bench count it: that of flour and of raising agents is none.
fn salt(line: &Ingredient, contents: &Contents) -> Share {
    if contents.salt.is_none() && may_be_salted(line.kind) && !line.is_flour {
        return Share::UpTo(Number::ONE);
    }
    of_a_gram(line).map_or(Share::UpTo(Number::ONE), |one| Share::Known(one.salt.value()))
}

/// What is left of milk, cream, butter and their like without water and fat; sugar and salt that were added are none of it.
fn milk_solids(line: &Ingredient, contents: &Contents) -> Share {
    let has_milk = line.facts().is_some_and(|facts| facts.allergens.iter().any(|allergen| allergen == "milk"));
    let is_milk = match line.kind {
        Kind::Milk | Kind::Dairy => true,
        Kind::Fat => has_milk,
        _ => false,
    };
    if !is_milk {
        return Share::Known(Number::ZERO);
    }
    let solids = || {
        let (water, fat) = (contents.water?, contents.fat?);
        let mut rest = Number::ONE.minus(water.value()).ok()?.minus(fat.value()).ok()?;
        if let Some(salt) = contents.salt.filter(|salt| salt.value() > NATURAL_SALT) {
            rest = rest.minus(salt.value()).ok()?;
        }
        if let (Some(sugar), Some(protein)) = (contents.sugar, contents.protein)
            && line.facts().is_some_and(|facts| facts.name.starts_with("sweetened"))
        {
            let added = sugar.value().minus(protein.value().times(MILK_SUGAR).ok()?).ok()?;
            rest = rest.minus(added.max(Number::ZERO)).ok()?;
        }
        Some(rest.max(Number::ZERO))
    };
    solids().map_or(Share::UpTo(Number::ONE), Share::Known)
}

/// What is sour by nature and of which nobody says how sour is not known; of the rest what the larder does not say is none.
fn acid(line: &Ingredient, contents: &Contents) -> Share {
    let sour = matches!(line.kind, Kind::Vinegar | Kind::Juice | Kind::Fruit | Kind::Leaven)
        || line.name.key.as_str().split(' ').any(|word| matches!(word, "acid" | "sour" | "tartar"));
    match contents.acid {
        Some(acid) => Share::Known(acid.value()),
        None if sour || line.facts().is_none() => Share::UpTo(Number::ONE),
        None => Share::Known(Number::ZERO),
    }
}

/// As the larder has it; of another drink, and of what no larder knows, it is unknown, and of the rest what is not said is none.
fn alcohol(line: &Ingredient, contents: &Contents) -> Share {
    if let Some(share) = contents.alcohol {
        return Share::Known(share.value());
    }
    if matches!(line.kind, Kind::Spirit | Kind::Liquid) || line.facts().is_none() {
        return Share::UpTo(Number::ONE);
    }
    Share::Known(Number::ZERO)
}

/// What a gram that goes in costs, with what is trimmed off it.
pub(super) fn price(line: &Ingredient) -> Share {
    if line.from_store {
        return Share::Known(Number::ZERO);
    }
    let edible = line.edible.filter(|share| share.value().is_positive()).unwrap_or(Proportion::WHOLE);
    let price = cost::paid_for_a_gram(line.facts()).and_then(|gram| gram.over(edible.value()).ok());
    price.map_or(Share::UpTo(Number::whole(1_000_000)), Share::Known)
}
