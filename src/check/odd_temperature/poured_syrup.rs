//! Syrup that is poured on what is whisked or set with it: how hot it is boiled.

use super::CHECK;
use crate::measure::number::Number;
use crate::measure::show;
use crate::model::cooking::{bakes, beginnings, called, cooks, says};
use crate::model::kind::Kind;
use crate::model::lowered::Beginnings;
use crate::model::recipe::{Ingredient, Part, Recipe};
use crate::model::step::{Step, Target, Words};
use crate::text::diagnostic::Diagnostic;

/// A syrup that is poured on whites is boiled to 112 to 125 °C, for nougat to 155, on yolks to 115 to 121, and with gelatine to 110 to 127. What
/// is boiled hotter is candy, and caramel beyond. °C, with room. Common practice, no source.
const SYRUP: Number = Number::whole(130);
const OF_NOUGAT: Number = Number::whole(170);
const WITH_GELATINE: Number = Number::whole(140);
/// Less hot no syrup boils that is worked with them: so much sugar is in it that it boils hotter.
const BOILED: Number = Number::whole(103);

/// Sugar boiled to 181 °C where 118 were meant, in a part whose whites or yolks are whisked or whose gelatine sets it; and to 81 on raw yolks.
pub(super) fn problem(part: &Part) -> Option<Diagnostic> {
    let lists = |is: &dyn Fn(&Ingredient) -> bool| part.lines.iter().any(is);
    let whites = lists(&|line| line.is_egg_white());
    let yolks = lists(&|line| line.kind == Kind::Egg && line.name.has_word_beginning(beginnings!["yolk"]));
    let gels = lists(&|line| line.kind == Kind::Thickener && line.name.has_word_beginning(beginnings!["gelatin"]));
    // In a caramel that milk or cream stops, it sets the cream.
    let is_milky = || lists(&|line| matches!(line.kind, Kind::Milk | Kind::Dairy));
    if !whites && !yolks && (!gels || is_milky()) {
        return None;
    }
    let is_nougat = lists(&|line| line.kind == Kind::Nut || line.name.has_word_beginning(beginnings!["honey"]));
    let takes =
        |step: &Step, kind: Kind| step.lines_taken().any(|at| part.lines.get(at).is_some_and(|line| line.kind == kind));
    let sugar = |step: &&Step| takes(step, Kind::Sugar) && takes(step, Kind::Water);
    let step = part.steps.iter().find(sugar)?;
    let hottest = step.hottest_said()?;
    let (most, what, usual) = match () {
        () if whites && is_nougat => (OF_NOUGAT, "whites", "112 to 155 °C"),
        () if whites => (SYRUP, "whites", "112 to 125 °C"),
        () if yolks && !is_milky() => (SYRUP, "yolks", "115 to 121 °C"),
        () if gels => (WITH_GELATINE, "gelatine", "110 to 127 °C"),
        () => return None,
    };
    // What is warmed with the eggs in it is no syrup, and sugar is dissolved in what sets cold.
    let is_cool = || {
        hottest.celsius() < BOILED
            && (says(step, beginnings!["boil"]) || called(step, beginnings!["syrup"]) && !gels)
            && !takes_egg_first(part, step)
    };
    if hottest.celsius() < most && !is_cool() {
        return None;
    }
    let message = format!(
        "`{}` boils sugar to {}: a syrup that is worked with {what} is boiled to {usual}",
        step.name,
        show::temperature(hottest, show::Units::Metric)
    );
    Some(Diagnostic::advice(CHECK.name, step.span, message).help("look whether digits are swapped, 118 °C"))
}

/// Whether a step takes egg before its first temperature.
fn takes_egg_first(part: &Part, step: &Step) -> bool {
    let is_egg = |word: &Words| match word {
        Words::Use { target: Some(Target::Line(at)), .. } => {
            part.lines.get(*at).is_some_and(|line| line.kind == Kind::Egg)
        }
        _ => false,
    };
    step.words.iter().take_while(|word| word.temperature().is_none()).any(is_egg)
}

/// What is boiled to a sweet is done above this, whatever its step is called, and with cream or milk in it below that. °C. Common practice, no source.
const SWEETS: &Beginnings = &Beginnings::of(&[
    "caramel|",
    "caramels|",
    "fudge",
    "toffee",
    "nougat",
    "marshmallow",
    "brittle",
    "butterscotch",
    "honeycomb",
    "cinder",
]);
/// What snaps is boiled further still. °C.
const SNAPS: &Beginnings = &Beginnings::of(&["brittle", "honeycomb", "cinder"]);
const SNAPPING: Number = Number::whole(130);
const NOT_SWEETS: &Beginnings = &Beginnings::of(&[
    "sauce",
    "cream",
    "custard",
    "ganache",
    "ice",
    "mousse",
    "flan",
    "cake",
    "tart",
    "pudding",
    "spread",
    "apple",
    "pear",
    "syrup",
    "popcorn",
    "shortbread",
    "bun",
    "roll",
    "brioche",
    "cookie",
    "biscuit",
]);
const CREAMY: Number = Number::whole(132);

/// A caramel that is done at 60 °C, or at 150 with cream in it.
pub(super) fn sweet(recipe: &Recipe, part: &Part) -> Option<Diagnostic> {
    let names = [&part.name, &recipe.name];
    let is_sweet =
        part.name.has_word_beginning(SWEETS) || recipe.parts.is_single() && recipe.name.has_word_beginning(SWEETS);
    if !is_sweet || names.iter().any(|name| name.has_word_beginning(NOT_SWEETS)) {
        return None;
    }
    let takes =
        |step: &Step, is: &dyn Fn(&Ingredient) -> bool| step.lines_taken().any(|at| part.lines.get(at).is_some_and(is));
    let milky = |line: &Ingredient| matches!(line.kind, Kind::Milk | Kind::Dairy);
    let on_hob = |step: &&Step| cooks(step) && !bakes(step) && step.temperature.is_none();
    let (at, step) = part
        .steps
        .iter()
        .enumerate()
        .rfind(|(_, step)| on_hob(step) && !takes_egg_first(part, step) && step.hottest_said().is_some())?;
    let has_sugar = part.steps.iter().take(at + 1).any(|step| takes(step, &|line| line.kind.is_sweet()));
    let has_cream = part.steps.iter().take(at + 1).any(|step| takes(step, &milky));
    let hottest = step.hottest_said().filter(|_| has_sugar)?;
    let usual = match hottest.celsius() {
        at if at < BOILED => "a sweet is boiled to 112 °C and more",
        at if at < SNAPPING && names.iter().any(|name| name.has_word_beginning(SNAPS)) => {
            "what is to snap is boiled to 145 °C and more"
        }
        at if has_cream && at > CREAMY => "with cream or milk in it a sweet is boiled to 112 to 128 °C",
        _ => return None,
    };
    let message = format!("`{}` is done at {}: {usual}", step.name, show::temperature(hottest, show::Units::Metric));
    Some(
        Diagnostic::advice(CHECK.name, step.span, message).help("look whether digits are swapped, or the unit, C or F"),
    )
}
