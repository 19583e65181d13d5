//! What heat does to something that is sold before it is sold, and what it leaves raw.

use super::items::{Item, leaves};
use crate::measure::number::Number;
use crate::measure::quantity::Proportion;
use crate::model::cooking::{COOKING, COOKS, bakes, called, chills, cooks, first_draws, has_word, hottest, words_of};
use crate::model::kind::Kind;
use crate::model::recipe::{HeadMakes, Ingredient, Part, PartId, Recipe, Refers};
use crate::model::step::{Step, StepKind, Target, Words};

/// What is lost between what is mixed and what is sold, as far as anybody says it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Loss {
    /// In the oven.
    Baked(Proportion),
    /// In making it: what a part says behind what it makes.
    Making(Proportion),
    /// It is baked, and nobody says what the oven takes.
    OvenNotSaid,
    /// It is cooked, or may be, and nobody says what that takes.
    CookingNotSaid,
    /// Nothing bakes or cooks it.
    Unheated,
}

/// What goes into an oven to be warm or clean, and not to be baked: its step is called so.
const VESSELS: &[&str] = &["bottle", "bowl", "glass", "jar", "lid", "plate", "platter"];

/// What is done to vessels that are still empty.
const READIES: &[&str] = &["clean", "dry", "heat", "preheat", "steril", "warm"];

/// Verbs that cook beside those of every step, and what is used for it. Common practice, no source.
const COOKS_TOO: &[&str] =
    &["barbecu", "braai", "broil", "chargrill", "deep-fr", "microwav", "pasteuri", "scorch", "steam", "steril", "sous"];

/// Equipment that is hot, beside that of every step.
const HOT_TOO: &[&str] = &[
    "airfryer",
    "barbecue",
    "cooker",
    "hotplate",
    "iron",
    "microwave",
    "plancha",
    "salamander",
    "saucepan",
    "skillet",
    "tandoor",
    "toaster",
    "waffle",
];

/// What stands on a fire, or is only filled: a loaf pan, a pot of paste.
const PANS: &[&str] = &["pan", "pot"];

/// What is warmed and takes nothing raw away, or may: what is lost in it nobody knows.
const WARMS: &[&str] = &["heat", "melt", "render", "temper", "torch", "warm", "flamb", "infus", "reduc"];

/// The same, however warm: smoke and dry air take water at any temperature.
const DRIES: &[&str] = &["bain", "blowtorch", "dehydrat", "dryer", "smok", "torch"];

/// Names of animals whose meat no larder knows by them alone, and what tells that it is cooked or no meat. Common practice, no source.
const ANIMALS: &[&str] =
    &["beef", "chicken", "duck", "goose", "lamb", "mutton", "pork", "rabbit", "turkey", "veal", "venison"];
const NOT_RAW: &[&str] = &[
    "boiled",
    "bouillon",
    "broth",
    "confit",
    "cooked",
    "crackling",
    "dripping",
    "egg",
    "fat",
    "gelatin",
    "grill",
    "lettuce",
    "roast",
    "scratching",
    "stock",
    "tinned",
];

/// Grain that has been steamed or is a trimming of milling, and is eaten as it comes: muesli. Common practice, no source.
const EATEN_DRY: &[&str] = &["bran", "flake", "germ", "muesli", "oat", "popped", "puffed", "sprout"];

/// What is so dry that a mix of it alone waits for water. Common practice, no source.
const DRY: Proportion = Proportion::new(Number::constant(1, 5));

/// The loss of what a part makes.
pub(super) fn loss(recipe: &Recipe, id: PartId, list: &[Item], bake_loss: Option<Proportion>, is_dough: bool) -> Loss {
    if let Some(loss) = bake_loss {
        return Loss::Baked(loss);
    }
    let within = within(recipe, id);
    let is_said = within.iter().any(|part| !part.steps.is_empty());
    let may_be_cooked = !is_said && is_wet(list);
    let is_baked = |part: &Part| {
        part.steps.iter().any(|step| (bakes(step) || called(step, &["bak"])) && !is_of_empty_vessels(step))
    };
    let divides = |part: &Part| part.divide.is_some() && is_baked(part);
    let is_baked_dough = is_dough && (may_be_cooked || within.iter().any(|part| is_baked(part)));
    if is_baked_dough || recipe.part(id).is_some_and(divides) {
        return Loss::OvenNotSaid;
    }
    let is_cooked = may_be_cooked || within.iter().any(|part| part.steps.iter().any(heats));
    match making_loss(recipe, id) {
        // What a dough loses when it is divided stays on the bench: what the fat of a fryer takes is another thing.
        Some(_) if is_dough && is_cooked => Loss::CookingNotSaid,
        Some(loss) => Loss::Making(loss),
        None if is_cooked => Loss::CookingNotSaid,
        None => Loss::Unheated,
    }
}

/// What is raw in what nothing cooks: meat, fish, egg, flour, dry grain and pulses, where the larder does not say that it is ready to eat. Of
/// a list of ingredients without steps nobody can tell, unless it is dry.
pub(super) fn to_cook(recipe: &Recipe, id: PartId, list: &[Item]) -> Vec<String> {
    let within = within(recipe, id);
    let is_said = within.iter().any(|part| !part.steps.is_empty());
    if within.iter().any(|part| part.steps.iter().any(cooks_food)) || (!is_said && is_wet(list)) {
        return Vec::new();
    }
    let raw = leaves(list).into_iter().filter(|item| !item.strained_out && is_raw(item));
    raw.map(|item| item.name.clone()).collect()
}

fn is_raw(item: &Item) -> bool {
    let facts = item.facts.as_ref();
    let flags = facts.map(|facts| facts.flags).unwrap_or_default();
    let is_dry =
        || facts.is_some_and(|facts| facts.contents.water.map_or(facts.kind.is_some_and(is_dry), |water| water < DRY));
    let name = item.name.to_lowercase();
    let by_kind = match item.kind() {
        Kind::Flour | Kind::Meat | Kind::Fish | Kind::Shellfish => true,
        Kind::Grain => !has_word(&name, EATEN_DRY) && (facts.is_none() || is_dry()),
        Kind::Pulse => is_dry(),
        // What no larder knows and is called after an animal.
        Kind::Other if facts.is_none() => has_word(&name, ANIMALS) && !has_word(&name, NOT_RAW),
        _ => false,
    };
    !flags.ready_to_eat && (by_kind || flags.raw_flour || flags.raw_egg)
}

/// Whether a step cooks what is in it, vessels that are warmed empty aside.
fn cooks_food(step: &Step) -> bool {
    let is_hotter = || hottest(step).is_some_and(|hottest| hottest.celsius() >= COOKING);
    !is_of_empty_vessels(step)
        && (cooks(step) || is_hotter() || (is_not_cool(step) && (uses(step, HOT_TOO) || does(step, COOKS_TOO))))
}

/// Whether heat or dry air may take something of what is in it.
fn heats(step: &Step) -> bool {
    let dries = || called(step, DRIES) || uses(step, DRIES);
    let warms = || is_not_cool(step) && (does(step, WARMS) || uses(step, PANS));
    !is_of_empty_vessels(step) && (cooks_food(step) || dries() || warms())
}

/// Whether nothing says that it stands below what cooks: at a low temperature, or only waiting in a warm place.
fn is_not_cool(step: &Step) -> bool {
    step.temperature.is_none() && (step.kind != StepKind::Wait || step.equipment.is_some())
}

fn uses(step: &Step, beginnings: &[&str]) -> bool {
    step.equipment.as_ref().is_some_and(|name| has_word(name.key.as_str(), beginnings))
}

/// Whether the name of a step or a sentence of its own begins with one of these verbs: `warm water` in a sentence warms nothing.
fn does(step: &Step, beginnings: &[&str]) -> bool {
    let begins = |text: &str| {
        let mut clauses = text.split(['.', ';', ',']).map(str::trim_start);
        clauses.any(|clause| beginnings.iter().any(|verb| clause.starts_with(verb)))
    };
    let said = words_of(step).split_once(": ").map_or("", |(_, said)| said);
    called(step, beginnings) || begins(said)
}

/// Whether a step warms vessels in which there is nothing yet: in an oven, and by no word of cooking.
fn is_of_empty_vessels(step: &Step) -> bool {
    let draws = step.words.iter().any(|word| matches!(word, Words::Use { .. }));
    let in_an_oven = step.equipment.is_none() || uses(step, &["oven"]);
    let is_bare = called(step, READIES) && !called(step, COOKS) && !called(step, &["steam", "fill"]);
    called(step, VESSELS) && is_bare && in_an_oven && !draws && !has_word(words_of(step), &["fill"])
}

/// Whether something has to be kept cold: it says so, its last step stands in the cold, or what goes into it and is not cooked then does.
pub(super) fn is_kept_cold(recipe: &Recipe, id: PartId, depth: usize) -> bool {
    let Some(part) = recipe.part(id).filter(|_| depth <= recipe.parts.len()) else { return false };
    if let Some(keeps) = &part.keeps {
        return keeps.is_cold();
    }
    if part.steps.last().is_some_and(chills) {
        return true;
    }
    let drawn = first_draws(part);
    part.lines.iter().enumerate().any(|(at, line)| {
        let Refers::Part(inner) = line.refers else { return false };
        let from = drawn.get(&Target::Line(at)).copied().unwrap_or(0);
        let is_left = !part.steps.is_empty() && !part.steps.iter().skip(from).any(cooks_food);
        is_left && !line.aside && !line.strained_out && is_kept_cold(recipe, inner, depth + 1)
    })
}

/// Whether anything in it is wet or fat, so that it may be a dough or a dish and not a dry mix.
pub(super) fn is_wet(list: &[Item]) -> bool {
    leaves(list).into_iter().filter(|item| !item.aside).any(|item| match &item.facts {
        Some(facts) => {
            let kind = facts.kind.unwrap_or_default();
            kind == Kind::Fat || facts.contents.water.map_or(!is_dry(kind), |water| water >= DRY)
        }
        None => true,
    })
}

/// Kinds that are dry where no figure says otherwise.
fn is_dry(kind: Kind) -> bool {
    matches!(
        kind,
        Kind::Flour
            | Kind::Starch
            | Kind::Grain
            | Kind::Salt
            | Kind::Yeast(_)
            | Kind::BakingPowder
            | Kind::Soda
            | Kind::RaisingAgent
            | Kind::Sugar
            | Kind::Nut
            | Kind::Seed
            | Kind::Pulse
            | Kind::Spice
            | Kind::Thickener
    )
}

/// A part and what is in it, each once.
fn within(recipe: &Recipe, id: PartId) -> Vec<&Part> {
    let mut seen = vec![id];
    let mut next = 0;
    while let Some(at) = seen.get(next).copied() {
        next += 1;
        let lines = recipe.part(at).map_or(&[][..], |part| &part.lines);
        for line in lines {
            if let Refers::Part(inner) = line.refers
                && !seen.contains(&inner)
            {
                seen.push(inner);
            }
        }
    }
    seen.into_iter().filter_map(|id| recipe.part(id)).collect()
}

/// What is lost in making it: what the part says, or the one part that it is filled with, such as jam into jars, or the head. What is
/// ladled out of a kettle is lost in the kettle.
fn making_loss(recipe: &Recipe, id: PartId) -> Option<Proportion> {
    let part = recipe.part(id)?;
    let inner = match part.lines.as_slice() {
        [Ingredient { refers: Refers::Part(inner), .. }] => recipe.part(*inner),
        _ => None,
    };
    let of_part = |part: &Part| part.makes.and_then(|makes| makes.loss).or_else(|| part.divide.as_ref()?.loss);
    let of_head = || match recipe.makes.as_ref()? {
        HeadMakes::Mass(makes) => makes.loss,
        HeadMakes::Pieces { .. } => None,
    };
    [Some(part), inner].into_iter().flatten().find_map(of_part).or_else(of_head)
}
