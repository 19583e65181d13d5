//! How long it takes until so much water has boiled away.

use super::CHECK;
use crate::measure::number::{Number, Overflow};
use crate::measure::quantity::{Duration, Mass};
use crate::measure::show;
use crate::model::animals::is_of_animal;
use crate::model::cooking::{Beginnings, bakes, beginnings, cooks, is_hot, loses_water, some_says, uses};
use crate::model::kind::Kind;
use crate::model::recipe::{Ingredient, Part, Refers};
use crate::model::step::{Step, StepKind};
use crate::solve::formula::SolvedPart;
use crate::text::diagnostic::Diagnostic;

/// Joules that turn a gram of boiling water into steam (2257 kJ/kg at 100 °C, from memory).
const TO_STEAM: Number = Number::whole(2257);
/// Watts that go into a pot at most: the largest ring of a kitchen, and half a watt for each gram in it beyond what stands on one, for a kettle has a
/// fire of its size.
/// Common practice, no source.
const RING: Number = Number::whole(3000);
const FOR_EACH_GRAM: Number = Number::constant(1, 2);
const ON_A_RING: Mass = Mass::new(Number::whole(4000));
/// What leaves as steam while something cools from the boil: 80 K of 4.2 J/(g K) are 15 % of its weight at most, of which half is common.
const COOLING: Number = Number::constant(2, 25);
/// Less than so many grams is what sticks to the pot.
const STICKS: Mass = Mass::new(Number::whole(60));

/// A pot on the fire for less time than its loss takes to boil away.
pub(super) fn problem(part: &Part, solved: &SolvedPart) -> Option<Diagnostic> {
    let in_pot = |step: &&Step| step.kind != StepKind::Wait && cooks(step) && !bakes(step);
    // What simmers by itself, in a slow cooker or over a low flame, steams for all the time that nobody looks.
    let alone = |step: &Step| step.kind == StepKind::Wait && (cooks(step) || is_hot(step));
    if part.per_piece || !loses_water(part) || part.lines.iter().any(|line| matches!(line.refers, Refers::Part(_))) {
        return None;
    }
    let longest = part.steps.iter().filter(in_pot).max_by_key(|step| step.time.1)?;
    let time = Duration::sum(part.steps.iter().filter(in_pot).map(|step| step.time.1)).ok()?;
    let all = solved.stays?;
    let lost = all.minus(solved.makes?).ok()?.minus(all.times(COOLING).ok()?).ok()?;
    let lost = lost.minus(taken_along(part, solved)?).ok().filter(|lost| *lost > STICKS)?;
    let least = least_time(lost, all).ok()?;
    if time >= least || time == Duration::ZERO {
        return None;
    }
    // What is strained, skimmed or peeled off is not boiled off, and an oven has heat of its own.
    let otherwise = part.steps.iter().any(|step| bakes(step) || alone(step))
        || some_says(
            part,
            beginnings![
                "press", "drain", "skim", "squeez", "peel", "stone|", "stones|", "stoned|", "pip|", "pips|", "pit|", "pits|", "pitted|", "sift", "fry", "fried", "mill|", "milled|", "milling|"
            ],
        )
        // Of what is listed as strained out it is known how much stays in the sieve.
        || !part.lines.iter().any(|line| line.strained_out) && some_says(part, beginnings!["strain", "siev", "filter", "pass"]);
    if otherwise {
        return None;
    }
    let message = format!(
        "{} of water do not boil away in {}: the largest ring takes {} for it",
        show::mass_plain(lost),
        show::duration(time),
        show::duration(least)
    );
    Some(
        Diagnostic::advice(CHECK.name, longest.time_span, message)
            .help("look whether a point or the unit of the time has slipped, or the loss; where something else is lost, write `of everything` behind it"),
    )
}

/// A pot on the hob in which nothing has to get soft is done when it is hot, thick or clear: so many minutes, and so many more for each kilogram. Common
/// practice, no source.
const DONE: i64 = 30;
const DONE_EACH: i64 = 8;

/// A custard, a syrup or a brine that is boiled for an hour and loses nothing.
pub(super) fn too_long(part: &Part, solved: &SolvedPart) -> Option<Diagnostic> {
    let is_pot = |step: &&Step| step.kind == StepKind::Tend && cooks(step) && !bakes(step) && uses(step, HOB);
    let longest = part.steps.iter().filter(is_pot).max_by_key(|step| step.time.0)?;
    if longest.time.0 < Duration::minutes(DONE) || part.per_piece {
        return None;
    }
    // Flesh, plants and grain get soft, and what nobody knows may.
    let gets_soft = |line: &Ingredient| {
        matches!(line.refers, Refers::Part(_))
            || !(matches!(
                line.kind,
                Kind::Water
                    | Kind::Milk
                    | Kind::Liquid
                    | Kind::Dairy
                    | Kind::Egg
                    | Kind::Sugar
                    | Kind::Syrup
                    | Kind::Starch
                    | Kind::Flour
                    | Kind::Salt
                    | Kind::Vinegar
                    | Kind::Spirit
                    | Kind::Juice
                    | Kind::Thickener
                    | Kind::Soda
                    | Kind::Seasoning
            ) || line.kind == Kind::Fat && part.lines.iter().any(|line| line.kind.is_liquid()))
                && (line.kind != Kind::Spice || says_infused(part))
    };
    let slow = beginnings![
        "reduc",
        "caramel",
        "clarif",
        "infus",
        "slow",
        "simmer gently",
        "bath",
        "jam",
        "dulce",
        "confit",
        "render",
        "ghee"
    ];
    let all = solved.goes_in?;
    let loses = solved.makes.is_some_and(|makes| all.times(Number::constant(9, 10)).is_ok_and(|most| makes < most));
    if part.lines.iter().any(gets_soft) || loses || some_says(part, slow) || longest.loads.size().is_some() {
        return None;
    }
    let most = all
        .value()
        .over(Number::whole(1000))
        .ok()?
        .times(Number::whole(DONE_EACH))
        .ok()?
        .plus(Number::whole(DONE))
        .ok()?;
    let most = Duration::new(most.ceil().times(Number::whole(60)).ok()?);
    (longest.time.0 > most).then(|| {
        let message = format!(
            "{} is unusual here: nothing in the pot has to get soft, and {} are hot, thick or clear within {}",
            show::duration(longest.time.0),
            show::mass_plain(all),
            show::duration(most)
        );
        Diagnostic::advice(CHECK.name, longest.time_span, message)
            .help("look whether a digit of the time has slipped; what is boiled down says its loss")
    })
}

const HOB: &Beginnings = &Beginnings::of(&["hob", "stove", "ring|", "induction", "hotplate"]);

fn says_infused(part: &Part) -> bool {
    some_says(part, beginnings!["infus", "steep", "draw"])
}

/// What is strained out takes some of the water with it: what is dry so many times its weight, bones and vegetables none.
const DRY_TAKES: Number = Number::whole(3);

fn taken_along(part: &Part, solved: &SolvedPart) -> Option<Mass> {
    let gives = |line: &Ingredient| {
        matches!(line.kind, Kind::Meat | Kind::Fish | Kind::Shellfish | Kind::Vegetable)
            || is_of_animal(line.name.key.as_str())
    };
    // A pod or a few leaves, counted, take along next to nothing.
    let is_light = |line: &Ingredient| matches!(line.kind, Kind::Spice | Kind::Seasoning);
    let strained = part.lines.iter().zip(&solved.lines).filter(|(line, _)| line.strained_out && !gives(line));
    let strained = strained.filter(|(line, amount)| amount.mass.is_some() || !is_light(line));
    let weights: Option<Vec<Mass>> = strained.map(|(_, amount)| amount.mass).collect();
    Mass::sum(weights?).ok()?.times(DRY_TAKES).ok()
}

/// How long the fire takes at least, to the full minute.
fn least_time(lost: Mass, all: Mass) -> Result<Duration, Overflow> {
    let beyond = all.minus(ON_A_RING)?.max(Mass::ZERO);
    let watts = RING.plus(beyond.value().times(FOR_EACH_GRAM)?)?;
    let seconds = lost.value().times(TO_STEAM)?.over(watts)?;
    Ok(Duration::new(seconds.rounded_to(Number::whole(60))?))
}
