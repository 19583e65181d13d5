//! What goes into a pot in whole dishes: rice and what it drinks, a stew and what it stews in, salt where sugar belongs.
//!
//! Common practice, no source.

use super::Subject;
use super::dough::mille;
use crate::measure::number::Number;
use crate::measure::quantity::Mass;
use crate::measure::show;
use crate::measure::value::Value;
use crate::model::cooking::{beginnings, some_says};
use crate::model::kind::Kind;
use crate::model::lowered::Beginnings;
use crate::model::recipe::{Ingredient, Part};
use crate::solve::formula::SolvedPart;

/// Dishes of rice that has drunk what was poured on it.
const OF_RICE: &Beginnings =
    &Beginnings::of(&["risotto", "pilaf", "pilau", "pulao", "paella", "jambalaya", "rice pudding", "kheer"]);
/// What is eaten with a fork, in some of what it stewed in.
const STEWED: &Beginnings = &Beginnings::of(&[
    "stew",
    "braise",
    "ragu",
    "ragù",
    "goulash",
    "casserole",
    "tagine",
    "curry",
    "fricassee",
    "bourguignon",
]);
/// Dishes that are mostly liquid, or are boiled down.
const RUNS: &Beginnings = &Beginnings::of(&[
    "soup", "broth", "stock", "sauce", "gravy", "congee", "porridge", "ramen", "chowder", "tea", "drink",
]);
/// Grains that swell in what they are cooked in.
const SWELLS: &Beginnings =
    &Beginnings::of(&["rice", "arborio", "carnaroli", "basmati", "bulgur", "couscous", "quinoa"]);

/// The first line that does not suit the pot.
pub(super) fn run<'p>(
    subject: &Subject<'_>,
    part: &'p Part,
    solved: &'p SolvedPart,
) -> Option<(&'p Ingredient, String)> {
    if part.per_piece {
        return None;
    }
    let named =
        |words: &Beginnings| [&part.name, &subject.recipe.name].into_iter().any(|name| name.has_word_beginning(words));
    let is_stewed = || named(STEWED) && !named(RUNS);
    rice(part, solved, named(OF_RICE), named(RUNS))
        .or_else(|| is_stewed().then(|| drowned(part, solved)).flatten())
        .or_else(|| salt_for_sugar(part, solved))
}

fn is_runny(line: &Ingredient) -> bool {
    line.kind.is_poured() || line.name.has_word_beginning(beginnings!["stock", "broth", "bouillon"])
}

/// What stays in the pot, each with its weight; a litre that no larder weighs is as heavy as water.
fn in_the_pot<'p>(part: &'p Part, solved: &'p SolvedPart) -> impl Iterator<Item = (&'p Ingredient, Mass)> {
    part.lines.iter().zip(&solved.lines).filter(|(line, _)| line.stays_in()).filter_map(|(line, amount)| {
        let as_water = || match amount.natural {
            Some(Value::Volume(volume)) => Some(Mass::new(volume.value())),
            _ => None,
        };
        Some((line, amount.mass.or_else(as_water)?))
    })
}

fn mass_in_it(part: &Part, solved: &SolvedPart, is: impl Fn(&Ingredient) -> bool) -> Option<Mass> {
    Mass::sum(in_the_pot(part, solved).filter(|(line, _)| is(line)).map(|(_, mass)| mass)).ok()
}

/// Rice that is cooked in what is poured on it takes from its own weight to six times that, twelve of milk in a pudding. What is drained is no
/// part of it, and rice that is cooked already drinks nothing.
fn rice<'p>(part: &'p Part, solved: &'p SolvedPart, is_dish: bool, runs: bool) -> Option<(&'p Ingredient, String)> {
    let is_rice = |line: &Ingredient| {
        line.kind == Kind::Grain
            && line.name.has_word_beginning(SWELLS)
            && !line.name.has_word_beginning(beginnings!["cooked", "puffed", "noodle"])
    };
    let (line, _) = in_the_pot(part, solved).find(|(line, _)| is_rice(line))?;
    let grains = mass_in_it(part, solved, is_rice).filter(|mass| *mass > Mass::ZERO)?;
    let poured = mass_in_it(part, solved, is_runny)?;
    let wet = mass_in_it(part, solved, |line| {
        is_runny(line) || line.kind.is_liquid() || matches!(line.kind, Kind::Vegetable | Kind::Fruit | Kind::Dairy)
    })?;
    let cooked = some_says(part, beginnings!["simmer", "boil", "cook", "steam", "bake", "absorb"]);
    let others = mass_in_it(part, solved, |line| !is_rice(line) && !is_runny(line))?;
    // A handful of it in a pot of much else thickens.
    let much = poured > grains.times(Number::whole(15)).ok()? && others < poured;
    let little = is_dish && wet < grains.times(Number::constant(9, 10)).ok()?;
    (cooked && !runs && (much || little)).then(|| {
        let words = format!(
            "{} of it to {} of what it is cooked in: that is unusual",
            show::mass_plain(grains),
            show::mass_plain(poured)
        );
        (line, words)
    })
}

/// What is poured on a stew covers it: four times as much is a soup. What is boiled down for long loses it again.
fn drowned<'p>(part: &'p Part, solved: &'p SolvedPart) -> Option<(&'p Ingredient, String)> {
    let solid = mass_in_it(part, solved, |line| !is_runny(line) && !line.kind.is_liquid() && line.kind != Kind::Salt)?;
    let poured = mass_in_it(part, solved, is_runny)?;
    let (line, _) = in_the_pot(part, solved).filter(|(line, _)| is_runny(line)).max_by_key(|(_, mass)| *mass)?;
    let boiled_down = part.makes.is_some_and(|makes| makes.loss.is_some_and(|loss| loss > mille(300)));
    let body = part.lines.iter().any(|line| line.kind.is_flesh() || matches!(line.kind, Kind::Vegetable | Kind::Pulse));
    let much = body && !boiled_down && poured > solid.times(Number::whole(4)).ok()?;
    much.then(|| {
        (
            line,
            format!(
                "{} are poured on {} of all else: that is a soup",
                show::mass_plain(poured),
                show::mass_plain(solid)
            ),
        )
    })
}

/// Salt by the spoon beside sugar by the pinch in what is sweet: milk and fruit with sugar or eggs, and nothing that is eaten with salt.
fn salt_for_sugar<'p>(part: &'p Part, solved: &'p SolvedPart) -> Option<(&'p Ingredient, String)> {
    let of_a_sweet = part.lines.iter().all(|line| {
        matches!(
            line.kind,
            Kind::Salt
                | Kind::Sugar
                | Kind::Syrup
                | Kind::Milk
                | Kind::Dairy
                | Kind::Egg
                | Kind::Fruit
                | Kind::Starch
                | Kind::Chocolate
                | Kind::Water
        ) && line.part().is_none()
            || line.name.has_word_beginning(beginnings!["vanilla", "cinnamon", "lemon zest", "orange zest", "gelatin"])
    });
    let makes_sweet = part.lines.iter().any(|line| {
        matches!(line.kind, Kind::Fruit | Kind::Egg | Kind::Chocolate)
            || line.name.has_word_beginning(beginnings!["vanilla"])
    });
    if !(of_a_sweet && makes_sweet) {
        return None;
    }
    let (line, salt) = in_the_pot(part, solved).find(|(line, _)| line.kind == Kind::Salt)?;
    let total = mass_in_it(part, solved, |_| true)?;
    let sweet = mass_in_it(part, solved, |line| line.kind.is_sweet()).filter(|sweet| *sweet > Mass::ZERO)?;
    // What is bedded in salt and sugar, yolks and fish, is none.
    let is_cured = some_says(part, beginnings!["cure|", "curing", "brine"]);
    let is_salty = salt > sweet && salt.as_share_of(total).is_ok_and(|share| share > mille(10));
    (is_salty && !is_cured).then(|| {
        let words = format!(
            "{} of salt beside {} of sugar in {}: that is unusual in what is sweet",
            show::mass_plain(salt),
            show::mass_plain(sweet),
            show::mass_plain(total)
        );
        (line, words)
    })
}
