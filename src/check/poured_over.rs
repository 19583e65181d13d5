//! What is drawn out into a liquid, lies in it or is set by egg: bones and their water, tea and spices, what is pickled and its vinegar, eggs and
//! the milk that they set. What `out-of-proportion` looks for beside shares of the whole. Common practice, no source, but for how much salt
//! dissolves.

use super::dough::mille;
use crate::measure::number::Number;
use crate::measure::quantity::Mass;
use crate::measure::show;
use crate::model::animals::is_of_animal;
use crate::model::cooking::{bakes, beginnings, cooks, some_says};
use crate::model::kind::Kind;
use crate::model::lowered::Beginnings;
use crate::model::recipe::{Ingredient, Part, Recipe};
use crate::solve::formula::SolvedPart;

/// A line, and what is unusual about it.
type Odd<'p> = (&'p Ingredient, String);

pub(super) fn run<'p>(recipe: &Recipe, part: &'p Part, solved: &'p SolvedPart) -> Option<Odd<'p>> {
    if part.per_piece {
        return None;
    }
    bones(part, solved)
        .or_else(|| infused(part, solved))
        .or_else(|| in_vinegar(part, solved))
        .or_else(|| saturated(part, solved))
        .or_else(|| set_by_egg(recipe, part, solved))
        .or_else(|| drunk(recipe, part, solved))
}

/// A fifth of spirit in what is baked, or in fruit that it soaks, is a drink.
fn drunk<'p>(recipe: &Recipe, part: &'p Part, solved: &'p SolvedPart) -> Option<Odd<'p>> {
    part.lines.iter().find(|line| line.kind == Kind::Spirit)?;
    let (line, spirit) = of(part, solved, |line| line.kind == Kind::Spirit && line.stays_in())?;
    let drinks = beginnings![
        "liqueur", "punch", "cocktail", "vodka", "gin|", "syrup", "soak", "bitters", "extract", "essence", "rumtopf",
        "cordial", "drink", "nog", "flamb"
    ];
    let is_drink = [&recipe.name, &part.name].iter().any(|name| name.has_word_beginning(drinks));
    let is_baked = part.steps.iter().any(bakes) && part.lines.iter().any(|line| line.is_any_flour());
    let all = solved.goes_in.filter(|_| is_baked && !is_drink)?;
    spirit
        .as_share_of(all)
        .is_ok_and(|share| share > mille(200))
        .then(|| (line, between(line, spirit, all, "all that is baked")))
}

/// The lines of which this is so, strained out or not, with what they weigh together.
fn of<'p>(part: &'p Part, solved: &'p SolvedPart, is: impl Fn(&Ingredient) -> bool) -> Option<(&'p Ingredient, Mass)> {
    let own = || part.lines.iter().zip(&solved.lines).filter(|(line, _)| !line.aside && is(line));
    let (line, _) = own().max_by_key(|(_, amount)| amount.mass)?;
    let all: Option<Vec<Mass>> = own().map(|(_, amount)| amount.mass).collect();
    Some((line, Mass::sum(all?).ok().filter(|mass| *mass > Mass::ZERO)?))
}

fn between(line: &Ingredient, mass: Mass, other: Mass, what: &str) -> String {
    format!("{} of {} to {} of {what}: that is unusual", show::mass_plain(mass), line.name, show::mass_plain(other))
}

/// Bones that are boiled for a stock and strained out: from a tenth of their water to twice it.
fn bones<'p>(part: &'p Part, solved: &'p SolvedPart) -> Option<Odd<'p>> {
    let is_bone =
        |line: &Ingredient| line.strained_out && (line.kind.is_flesh() || is_of_animal(line.name.key.as_str()));
    part.lines.iter().find(|line| is_bone(line))?;
    let (line, bones) = of(part, solved, is_bone)?;
    let (_, poured) = of(part, solved, |line| line.kind.is_poured())?;
    let is_cured = line.name.has_word_beginning(beginnings![
        "bacon", "ham|", "hams|", "smoked", "dried", "bonito", "anchov", "rind", "feet", "foot"
    ]);
    let odd =
        !is_cured && (bones.times(Number::whole(12)).ok()? < poured || bones > poured.times(Number::whole(2)).ok()?);
    odd.then(|| (line, between(line, bones, poured, "what they are boiled in")))
}

/// Tea and spices that are strained out of what they flavour: tea of a twenty-fifth of it, spices of a twelfth, ginger and garlic of a sixth.
fn infused<'p>(part: &'p Part, solved: &'p SolvedPart) -> Option<Odd<'p>> {
    let is_tea = |line: &Ingredient| {
        line.strained_out
            && line.name.has_word_beginning(beginnings!["tea|", "teas|", "earl grey", "sencha", "rooibos", "assam"])
    };
    let is_root =
        |line: &Ingredient| line.strained_out && line.name.has_word_beginning(beginnings!["ginger", "garlic"]);
    let is_spice = |line: &Ingredient| line.strained_out && !is_tea(line) && line.kind == Kind::Spice && !is_root(line);
    part.lines.iter().find(|line| is_tea(line) || is_spice(line) || is_root(line))?;
    let (_, poured) = of(part, solved, |line| line.kind.is_liquid())?;
    if part.name.has_word_beginning(beginnings![
        "extract",
        "essence",
        "bitters",
        "tincture",
        "concentrate",
        "syrup",
        "cordial"
    ]) {
        return None;
    }
    let too_much = |is: &dyn Fn(&Ingredient) -> bool, most: i64| {
        let (line, mass) = of(part, solved, is)?;
        mass.as_share_of(poured)
            .is_ok_and(|share| share > mille(most))
            .then(|| (line, between(line, mass, poured, "what it flavours")))
    };
    too_much(&is_tea, 40).or_else(|| too_much(&is_spice, 80)).or_else(|| too_much(&is_root, 160))
}

/// What lies in vinegar fills its jar: the liquid is three times as much at most, or some stands over.
fn in_vinegar<'p>(part: &'p Part, solved: &'p SolvedPart) -> Option<Odd<'p>> {
    part.lines.iter().find(|line| line.kind == Kind::Vinegar)?;
    let is_solid = |line: &Ingredient| {
        matches!(line.kind, Kind::Vegetable | Kind::Fruit | Kind::Egg | Kind::Fish) && !line.strained_out
    };
    let (line, solid) = of(part, solved, is_solid)?;
    let (_, poured) = of(part, solved, |line| line.kind.is_liquid())?;
    let (_, sour) = of(part, solved, |line| line.kind == Kind::Vinegar)?;
    let is_sour = sour.as_share_of(poured).is_ok_and(|share| share >= mille(250));
    let fills = some_says(part, beginnings!["pack", "jar", "fill", "pour"])
        && !some_says(part, beginnings!["dress", "blend", "toss", "drink", "shrub", "sip"]);
    let reduced = part.makes.is_some_and(|makes| makes.loss.is_some_and(|loss| loss > mille(150)));
    let much =
        is_sour && fills && !reduced && solid.times(Number::whole(7)).ok()? < poured.times(Number::whole(2)).ok()?;
    much.then(|| (line, between(line, solid, poured, "what is poured over it")))
}

/// Salt of more than a quarter of its water does not dissolve soon: 36 g in 100 g of water are all that ever do (CRC Handbook, sodium chloride at
/// 20 °C, from memory).
const DISSOLVES: i64 = 250;

fn saturated<'p>(part: &'p Part, solved: &'p SolvedPart) -> Option<Odd<'p>> {
    part.lines.iter().find(|line| line.kind == Kind::Salt)?;
    if !some_says(part, beginnings!["dissolv"]) {
        return None;
    }
    let (line, salt) = of(part, solved, |line| line.kind == Kind::Salt)?;
    let (_, poured) = of(part, solved, |line| line.kind.is_liquid())?;
    salt.as_share_of(poured).is_ok_and(|share| share > mille(DISSOLVES)).then(|| {
        (line, format!("{} of {} hardly dissolve in {}", show::mass_plain(salt), line.name, show::mass_plain(poured)))
    })
}

/// What is eggs before all.
const OF_EGGS: &Beginnings = &Beginnings::of(&[
    "egg",
    "omel",
    "frittata",
    "tortilla",
    "scrambl",
    "souffl",
    "strata",
    "meringue",
    "pavlova",
    "sponge",
    "mousse",
    "zabag",
    "sabayon",
    "tamago",
    "curd",
    "hollandaise",
    "aioli",
    "mayonnaise",
    "carbonara",
    "quindim",
    "yolk",
    "cake|",
    "cakes|",
    "gratin",
    "flan de",
]);

/// What eggs set in the oven, in milk, cream or soft cheese, without flour: from a tenth to one and a half times of them.
fn set_by_egg<'p>(recipe: &Recipe, part: &'p Part, solved: &'p SolvedPart) -> Option<Odd<'p>> {
    part.lines.iter().find(|line| line.kind == Kind::Egg)?;
    let is_hard = |line: &Ingredient| {
        line.name.has_word_beginning(beginnings![
            "parmesan",
            "gruy",
            "cheddar",
            "emmental",
            "pecorino",
            "comt",
            "feta",
            "hard cheese",
            "powder",
            "milk powder",
            "blue",
            "goat",
            "mozzarella",
            "grated"
        ])
    };
    let is_milk = |line: &Ingredient| matches!(line.kind, Kind::Milk | Kind::Dairy) && !is_hard(line);
    if [&recipe.name, &part.name].iter().any(|name| name.has_word_beginning(OF_EGGS))
        || part.lines.iter().any(|line| {
            line.is_any_flour()
                || line.is_egg_white()
                || matches!(line.kind, Kind::Bread | Kind::Grain | Kind::Nut | Kind::Chocolate | Kind::Thickener)
                || line.kind == Kind::Other && line.part().is_none()
        })
        || part
            .lines
            .iter()
            .filter_map(|line| recipe.part(line.part()?))
            .any(|inner| inner.lines.iter().any(|line| matches!(line.kind, Kind::Milk | Kind::Egg | Kind::Dairy)))
        || !part.steps.iter().any(|step| bakes(step) && cooks(step))
    {
        return None;
    }
    let (egg_line, egg) = of(part, solved, |line| line.kind == Kind::Egg)?;
    let (milk_line, milk) = of(part, solved, is_milk)?;
    if egg.times(Number::whole(2)).ok()? > milk.times(Number::whole(3)).ok()? {
        return Some((egg_line, between(egg_line, egg, milk, "milk, cream and cheese that they set in")));
    }
    (egg.times(Number::whole(14)).ok()? < milk)
        .then(|| (milk_line, between(milk_line, milk, egg, "egg that is to set it")))
}
