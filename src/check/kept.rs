//! What spoils and what keeps food where it is warm: told by how much of it there is, for a gram of vinegar keeps no kilo.

use super::curing::{is_curing_salt, is_salt};
use super::dough::{inside, lists_flour, mass_of, mille};
use crate::measure::number::Number;
use crate::measure::quantity::{Duration, Mass, Proportion};
use crate::model::cooking::raw_flesh::{is_flesh, is_of_fat, is_raw};
use crate::model::cooking::rests::FERMENTS;
use crate::model::cooking::state::{is_said_behind, is_said_to_be, is_so};
use crate::model::cooking::state_words::State;
use crate::model::cooking::{
    bakes, beginnings, called, chills, cooks, first_draws, has_word_beginning, says, surely_does,
};
use crate::model::kind::Kind;
use crate::model::recipe::{Ingredient, LineAmount, Part, PartId, Recipe, Refers};
use crate::model::spoils::{Body, DRY, body};
use crate::model::step::{Step, StepKind, Target};
use crate::solve::formula::leaves::{Counted, leaves};
use crate::solve::formula::{Formula, SolvedPart};
use crate::text::words::words_with_hyphens;

/// Whether meat or fish is one that keeps, by its name: `fatty mince` and `mince of 20 % fat` are no fat, `saltmarsh lamb` and `salt and pepper
/// squid` not salted, and `fresh chorizo` is a raw sausage.
fn is_kept_meat(name: &str) -> bool {
    let is = |state| is_said_to_be(name, None, state);
    if is(State::KeepsFlesh) || is(State::KeptFlesh) && !is(State::Fresh) {
        return true;
    }
    let words: Vec<&str> = words_with_hyphens(name).collect();
    let is_salt =
        |at: usize| words.get(at + 1).is_some_and(|next| !["and", "or", "with", "n", "pepper"].contains(next));
    let is_salted = words.iter().enumerate().any(|(at, word)| *word == "salt" && is_salt(at));
    is_salted || is_of_fat(name)
}

/// Whether meat or fish keeps by what it is called once it is sliced or out of its tin: what is dried or cured through does; ham that is boiled,
/// fish that is smoked and what was shut in a tin or under fat are as moist as any (FDA Food Code 1-201.10, time and temperature control, from
/// memory).
fn is_kept_open(name: &str) -> bool {
    const MOIST: &[&str] = &["ham", "hams", "tinned", "canned", "jarred", "confit", "smoked"];
    #[rustfmt::skip]
    const DRIED: &[&str] = &[
        "dry", "dried", "cured", "salted", "serrano", "parma", "iberico", "ibérico", "bayonne", "country", "prosciutto", "salami", "pancetta", "bacon",
        "chorizo", "jerky", "speck", "anchovy", "anchovies", "sausage", "stock", "broth", "fat", "lardons",
    ];
    let has = |words: &[&str]| words_with_hyphens(name).any(|word| words.contains(&word));
    is_kept_meat(name) && (!has(MOIST) || has(DRIED))
}

/// Whether a line is raw meat or fish that nothing keeps.
pub(super) fn is_raw_flesh(line: &Ingredient) -> bool {
    is_raw(line) && !is_kept_meat(line.name.key.as_str()) && !is_said_behind(line, State::KeepsFlesh)
}

/// Whether something spoils: milk, cream and what is soft of them, cooked meat, eggs and rice, and what else is cooked and moist.
pub(super) fn spoils(line: &Ingredient, is_cooked: bool, is_cooked_later: bool) -> bool {
    let name = line.name.key.as_str();
    let Some(body) = body(line).filter(|_| line.stays_in()) else { return false };
    match body {
        // Meat that no larder knows, by its name.
        Body::Flesh if line.kind == Kind::Other => (is_cooked || is_so(line, State::Cooked)) && !is_kept_open(name),
        // What was cooked in sauce is smoked or salted no more.
        Body::Flesh => is_cooked && has_word_beginning(name, ["smoked"]) || !is_kept_open(name),
        // Its poison stays, whatever comes after.
        Body::Rice => is_cooked,
        Body::Grain | Body::Pulse => is_cooked && !is_cooked_later,
        // An egg that was boiled has lost what kept it in its shell.
        Body::Egg => is_cooked || is_so(line, State::Cooked),
        // So does what grows in milk that was cooked; raw, it is cooked in time.
        Body::Milk => is_cooked || !is_cooked_later,
        // Boiled potatoes are food for all that grows; other vegetables are sour or lean.
        Body::Vegetable => is_cooked && !is_cooked_later && has_word_beginning(name, ["potato", "potatoes"]),
    }
}

/// What turns food sour on purpose, and keeps it so.
const CULTURES: &[&str] = &[
    "culture",
    "yogurt",
    "yoghurt",
    "kefir",
    "buttermilk",
    "starter",
    "koji",
    "miso",
    "rennet",
    "kombucha",
    "tempeh spores",
    "whey",
    "scoby",
    "natto",
];

/// Whether a line is a living culture, a leaven or yeast.
pub(super) fn is_culture(line: &Ingredient) -> bool {
    line.kind.ferments() || has_word_beginning(line.name.key.as_str(), CULTURES)
}

/// Whether a culture is one by itself, and no sour milk that may be a seasoning.
fn is_its_own(line: &Ingredient) -> bool {
    line.kind.ferments()
        || has_word_beginning(line.name.key.as_str(), ["culture", "starter", "koji", "tempeh spores", "natto"])
}

/// So long what a culture is stirred into stands before it is sour. Common practice, no source: yoghurt sets in 4 to 8 hours.
const SETS: Duration = Duration::new(Number::whole(2 * 3600));

/// Whether a culture is stirred in from a step on, and what it is in stands warm with it: yoghurt sets, and sours before anything else grows. A spoon
/// of yoghurt at the end of a curry sours nothing, and meat, eggs and vegetables are soured by no buttermilk unless the step is called so.
pub(super) fn is_soured_from(part: &Part, from: usize) -> bool {
    let line = |at: usize| part.lines.get(at);
    let stays = || part.lines.iter().filter(|line| line.stays_in());
    if stays().any(is_flesh) {
        return false;
    }
    let is_milk = |line: &Ingredient| matches!(line.kind, Kind::Milk | Kind::Dairy);
    let is_savoury = |line: &Ingredient| matches!(line.kind, Kind::Egg | Kind::Pulse | Kind::Vegetable | Kind::Grain);
    let is_set_milk = stays().any(|line| is_milk(line) && !is_culture(line)) && !stays().any(is_savoury);
    let is_warm = |step: &Step| {
        let range = Number::whole(15)..=Number::whole(60);
        !chills(step) && step.temperature.is_none_or(|(low, _)| range.contains(&low.celsius()))
    };
    part.steps.iter().enumerate().skip(from).any(|(at, step)| {
        let stirred: Vec<&Ingredient> = step.lines_taken().filter_map(line).filter(|line| is_culture(line)).collect();
        let rest = || part.steps.iter().skip(at).take_while(|step| is_warm(step));
        let stands = || Duration::sum(rest().map(|step| step.time.1)).is_ok_and(|time| time >= SETS);
        let of_what =
            || is_set_milk || stirred.iter().any(|line| is_its_own(line)) || rest().any(|step| called(step, FERMENTS));
        !stirred.is_empty() && stands() && of_what()
    })
}

/// So much acid on everything keeps food. The brines that are published for pickles hold 2.1 % and are half of the jar; common practice, no source.
const SOUR: i64 = 6;
/// What vinegar holds of which nobody says how strong it is. Common practice, no source; the law of the United States wants 4 % at least
/// (FDA CPG Sec. 525.825).
const VINEGAR: i64 = 50;

/// Whether what lies in a part is sour, with the parts that go into it.
pub(super) fn is_sour(recipe: &Recipe, formula: &Formula, id: PartId) -> bool {
    // How much of it there is nobody knows where only a volume is said that no larder weighs.
    let is_vinegar = |line: &Ingredient| line.kind == Kind::Vinegar;
    let mut parts =
        inside(recipe, id).into_iter().filter_map(|inner| Some((recipe.part(inner)?, formula.part(inner)?)));
    if parts.any(|(part, solved)| has_unweighed(part, solved, &is_vinegar)) {
        return true;
    }
    let Ok(leaves) = leaves(recipe, formula, id, Counted::GoesIn) else { return false };
    let acid = Mass::sum(leaves.iter().filter_map(|leaf| leaf.mass.share(acid_of(leaf.line)?).ok()));
    let total = Mass::sum(leaves.iter().map(|leaf| leaf.mass));
    acid.and_then(|acid| acid.as_share_of(total?)).is_ok_and(|share| share >= mille(SOUR))
}

/// So much starch and protein in a blend takes up what acid there is, in thousandths: hummus and salads of potato or rice lie at a pH of 4.7 and more (from
/// memory).
const BUFFERS: i64 = 150;

/// Whether pulses, grain, bread, cooked roots or pastes of seeds and nuts are a good deal of a part: they are no pickle, however much lemon is in them.
fn is_buffered(recipe: &Recipe, formula: &Formula, id: PartId) -> bool {
    let buffers = |line: &Ingredient| {
        let name = line.name.key.as_str();
        let is_paste = || has_word_beginning(name, ["tahini", "paste", "butter"]);
        let is_root = || has_word_beginning(name, ["potato", "sweet potato"]);
        !is_culture(line)
            && match line.kind {
                Kind::Pulse | Kind::Grain | Kind::Bread => {
                    !has_word_beginning(name, ["green", "runner", "french", "sprout"])
                }
                Kind::Seed | Kind::Nut => is_paste(),
                Kind::Vegetable => is_root(),
                _ => false,
            }
    };
    // Nearly nothing that is sour has any of it.
    let lists = |part: &Part| part.lines.iter().any(buffers);
    if !inside(recipe, id).into_iter().filter_map(|inner| recipe.part(inner)).any(lists) {
        return false;
    }
    let Ok(leaves) = leaves(recipe, formula, id, Counted::GoesIn) else { return false };
    let own = Mass::sum(leaves.iter().filter(|leaf| buffers(leaf.line)).map(|leaf| leaf.mass));
    let total = Mass::sum(leaves.iter().map(|leaf| leaf.mass));
    own.and_then(|own| own.as_share_of(total?)).is_ok_and(|share| share >= mille(BUFFERS))
}

/// Whether a part is a pickle that vinegar keeps in the cold, and no meat, milk or egg lies in it.
pub(crate) fn is_pickle(recipe: &Recipe, formula: &Formula, id: PartId) -> bool {
    let spoils = |line: &Ingredient| line.kind.is_flesh() || matches!(line.kind, Kind::Milk | Kind::Dairy | Kind::Egg);
    let mut parts = inside(recipe, id).into_iter().filter_map(|inner| recipe.part(inner));
    !parts.any(|part| part.lines.iter().any(spoils))
        && !is_buffered(recipe, formula, id)
        && (is_sour(recipe, formula, id) || is_sour_once_boiled_down(recipe, formula, id))
}

/// Whether what comes out of a part is as sour, since its water boiled away: onion jam with vinegar.
fn is_sour_once_boiled_down(recipe: &Recipe, formula: &Formula, id: PartId) -> bool {
    let Some(made) = formula.part(id).map(|solved| solved.comes_out.total) else { return false };
    let Ok(leaves) = leaves(recipe, formula, id, Counted::GoesIn) else { return false };
    let acid = Mass::sum(leaves.iter().filter_map(|leaf| leaf.mass.share(acid_of(leaf.line)?).ok()));
    // Some of the vinegar goes with the water.
    acid.and_then(|acid| acid.as_share_of(made)).is_ok_and(|share| share >= mille(SOUR + SOUR / 3))
}

/// Whether an amount is said of such a line and no weight known.
fn has_unweighed(part: &Part, solved: &SolvedPart, is: &dyn Fn(&Ingredient) -> bool) -> bool {
    let mut lines = part.lines.iter().zip(&solved.lines);
    let said = |line: &Ingredient| line.stays_in() && matches!(line.amount, LineAmount::Said(_));
    lines.any(|(line, amount)| said(line) && is(line) && amount.mass.is_none())
}

/// What made mustard holds, of its vinegar; from memory: 2 to 3 %, and a pH of 3.6.
const MUSTARD: i64 = 25;

fn acid_of(line: &Ingredient) -> Option<Proportion> {
    let known = line.facts().and_then(|facts| facts.contents.acid);
    known
        .or_else(|| (line.kind == Kind::Vinegar).then(|| mille(VINEGAR)))
        .or_else(|| is_made_mustard(line).then(|| mille(MUSTARD)))
}

/// Whether a line is mustard out of a jar, and neither its seed, its powder, its oil nor its greens.
fn is_made_mustard(line: &Ingredient) -> bool {
    let name = line.name.key.as_str();
    let said = line.preparation.as_deref().unwrap_or_default().to_lowercase();
    let ends = name.ends_with("mustard") && !has_word_beginning(name, ["dry", "dried", "ground"]);
    ends && line.kind != Kind::Vegetable
        && !has_word_beginning(&said, ["powder", "dry", "dried", "ground", "seed", "leaves", "greens"])
}

/// So much acid on everything makes a vinegar of a part, which is at home on a shelf (the law of the United States wants 4 % of vinegar, FDA CPG Sec. 525.825;
/// what is dissolved in it thins it).
const AS_VINEGAR: i64 = 35;

/// Whether a part is vinegar with something steeped in it: no meat, milk, egg, vegetable or pulse.
pub(super) fn is_spiced_vinegar(recipe: &Recipe, formula: &Formula, id: PartId) -> bool {
    let has_body = |part: &Part| part.lines.iter().any(|line| line.stays_in() && body(line).is_some());
    let mut parts = inside(recipe, id).into_iter().filter_map(|inner| recipe.part(inner));
    let Ok(leaves) = leaves(recipe, formula, id, Counted::GoesIn) else { return false };
    let acid = Mass::sum(leaves.iter().filter_map(|leaf| leaf.mass.share(acid_of(leaf.line)?).ok()));
    let total = Mass::sum(leaves.iter().map(|leaf| leaf.mass));
    !parts.any(has_body) && acid.and_then(|acid| acid.as_share_of(total?)).is_ok_and(|share| share >= mille(AS_VINEGAR))
}

/// Whether a part is mixed into one that lists flour itself: the milk that was scalded or boiled thick for a bread is no filling.
pub(super) fn is_in_dough(recipe: &Recipe, id: PartId) -> bool {
    let users = recipe.users(id).map(|(user, _)| user).chain(recipe.part(id).and_then(|part| part.from));
    users.into_iter().any(|user| recipe.part(user).is_some_and(lists_flour))
}

/// Whether food keeps where it is warm at one of its steps: what keeps it, or half of it is fat.
pub(super) fn is_safe(recipe: &Recipe, formula: &Formula, id: PartId, at: usize) -> bool {
    let kept_in_fat = || {
        recipe.part(id).zip(formula.part(id)).is_some_and(|(part, solved)| {
            let fat = mass_of(part, solved, |line| line.kind == Kind::Fat);
            fat.is_some_and(|fat| fat.as_share_of(solved.composition.total).is_ok_and(|share| share >= mille(500)))
        })
    };
    is_kept(recipe, formula, id, at) || kept_in_fat()
}

/// As [`is_safe`], where flour keeps what lies between it only as far as it is still dough here: what was baked in a part of its own keeps
/// none of the cream that fills it.
pub(super) fn is_safe_with_its_dough(recipe: &Recipe, formula: &Formula, id: PartId, at: usize) -> bool {
    if !is_safe(recipe, formula, id, at) {
        return false;
    }
    let Some((part, solved)) = recipe.part(id).zip(formula.part(id)) else { return false };
    let made = || part.lines.iter().filter_map(|line| recipe.part(line.part()?));
    let is_baked = |made: &Part| made.steps.iter().any(bakes) && lists_flour(made);
    if !made().any(is_baked) || made().any(|made| lists_flour(made) && !is_baked(made)) {
        return true;
    }
    let own = mass_of(part, solved, |line| line.is_flour);
    own.is_some_and(|own| own.as_share_of(solved.composition.total).is_ok_and(|share| share >= mille(100)))
        || is_kept_by_more(recipe, formula, id, at)
}

/// What keeps food before one of its steps: flour about it, much sugar, acid, salt, chocolate, a living culture. Fat does not count: what
/// lies in oil is shut off from air, and keeps none of it.
pub(super) fn is_kept(recipe: &Recipe, formula: &Formula, id: PartId, at: usize) -> bool {
    let flour = formula.part(id).map(|solved| (solved.composition.flour, solved.composition.total));
    let is_bread = flour.is_some_and(|(flour, total)| flour.as_share_of(total).is_ok_and(|share| share >= mille(200)));
    is_bread || is_kept_by_more(recipe, formula, id, at)
}

/// As [`is_kept`], by something else than flour.
pub(super) fn is_kept_by_more(recipe: &Recipe, formula: &Formula, id: PartId, at: usize) -> bool {
    is_kept_by(recipe, formula, (id, at), false)
}

/// As [`is_kept_by_more`], for a shelf: yoghurt, kefir and buttermilk are sold from the cold, and are no process for what they are in; and flesh that is
/// cured with less than a tenth of salt is eaten from the cold as well, unless it then hangs, dries or is smoked for a day and more.
pub(super) fn is_kept_on_a_shelf(recipe: &Recipe, formula: &Formula, id: PartId, at: usize) -> bool {
    is_kept_by(recipe, formula, (id, at), true)
}

fn is_kept_by(recipe: &Recipe, formula: &Formula, (id, at): (PartId, usize), on_a_shelf: bool) -> bool {
    let is_turned_sour = |line: &Ingredient, part: &Part| {
        is_culture(line) && !(on_a_shelf && matches!(line.kind, Kind::Milk | Kind::Dairy)) && is_alive(part, at, line)
    };
    let hangs = |part: &Part| {
        let is_long = |step: &Step| step.time.1 >= Duration::days(1);
        part.steps
            .iter()
            .any(|step| called(step, beginnings!["dry", "hang", "smoke", "age", "mature"]) && is_long(step))
    };
    let has_flesh = |part: &Part| part.lines.iter().any(is_raw_flesh);
    let least_salt = |part: &Part| if on_a_shelf && has_flesh(part) && !hangs(part) { SALTED_THROUGH } else { 50 };
    let least_cured = |part: &Part| if on_a_shelf && !hangs(part) { SALTED_THROUGH } else { WEAK };
    let (Some(part), Some(solved)) = (recipe.part(id), formula.part(id)) else { return false };
    let composition = &solved.composition;
    let share = |mass: Mass, least: i64| mass.as_share_of(composition.total).is_ok_and(|share| share >= mille(least));
    let of = |is: &dyn Fn(&Ingredient) -> bool, least: i64| {
        has_unweighed(part, solved, is) || mass_of(part, solved, is).is_some_and(|mass| share(mass, least))
    };
    share(composition.sugar, 350)
        || share(composition.salt, least_salt(part))
        || of(&|line| line.kind == Kind::Chocolate, 200) && is_dry_by_chocolate(part, solved)
        || of(&|line| line.kind == Kind::Brine, 200)
        || of(&|line| is_turned_sour(line, part), 200)
        // A third of spirit makes 14 % of alcohol.
        || of(&|line| line.kind == Kind::Spirit, 350)
        || is_sour(recipe, formula, id)
        || is_turned(part, at) && part.lines.iter().any(|line| is_turned_sour(line, part))
        || part.steps.iter().any(|step| surely_does(step, beginnings!["dehydrat"]))
        || !(on_a_shelf && is_of_milk(part)) && part.steps.iter().any(|step| surely_does(step, beginnings!["ferment"]))
        || part.lines.iter().any(is_flesh)
            && part.steps.iter().any(|step| surely_does(step, beginnings!["cure"]))
            && !is_weakly_cured(part, solved, least_cured(part))
}

/// Whether milk that is poured is in a part: what is soured of it is kept in the cold all the same.
fn is_of_milk(part: &Part) -> bool {
    part.lines.iter().any(|line| line.kind == Kind::Milk && line.stays_in())
}

/// Whether the chocolate in a part binds the water of what it is mixed with: half as much of it as of cream and more, and neither milk nor yolk nor air in
/// it. A mousse and a hot chocolate are as moist as cream; what an oven bakes is a cake. Common practice, no source.
fn is_dry_by_chocolate(part: &Part, solved: &SolvedPart) -> bool {
    let is_of_coconut = |line: &Ingredient| line.name.has_word_beginning(beginnings!["coconut milk", "coconut cream"]);
    let is_cream =
        |line: &Ingredient| (matches!(line.kind, Kind::Dairy | Kind::Milk) || is_of_coconut(line)) && line.stays_in();
    let is_raw = |line: &Ingredient| {
        line.stays_in() && (line.kind == Kind::Milk || line.kind == Kind::Egg && !line.is_egg_white())
    };
    let mass = |is: &dyn Fn(&Ingredient) -> bool| mass_of(part, solved, is).unwrap_or(Mass::ZERO);
    let chocolate = mass(&|line| line.kind == Kind::Chocolate);
    let is_half = || chocolate.times(Number::whole(2)).is_ok_and(|twice| twice >= mass(&is_cream));
    let is_aired = || {
        part.lines.iter().any(is_cream)
            && part.steps.iter().any(|step| {
                // `Bring {whipping cream} to the boil` whips nothing.
                surely_does(step, beginnings!["whip"]) || says(step, beginnings!["whisk until stiff"])
            })
    };
    part.steps.iter().any(bakes) || is_half() && !part.lines.iter().any(is_raw) && !is_aired()
}

/// Whether a culture still lives in a part when it comes to a step: nothing cooks it after it went in, nor the step in which it goes in, unless
/// that has cooled before. Of a powder, a coating or a spice of its name nothing lives; leavens and cultures are sold dry.
fn is_alive(part: &Part, at: usize, line: &Ingredient) -> bool {
    let Some(number) = part.lines.iter().position(|other| std::ptr::eq(other, line)) else { return false };
    let name = line.name.key.as_str();
    let mut named = words_with_hyphens(name);
    if line.kind == Kind::Spice
        || has_word_beginning(name, ["coated", "flavour", "flavor"])
        || !is_its_own(line) && named.any(|word| DRY.contains(&word))
    {
        return false;
    }
    let goes_in = first_draws(part).get(&Target::Line(number)).copied().unwrap_or(0);
    let has_cooled = |step: &Step| {
        let tepid = |at: crate::measure::temperature::Temperature| at.celsius() <= Number::whole(50);
        says(step, beginnings!["cool", "lukewarm", "tepid", "blood"])
            || crate::model::step::temperatures(step.words.iter().chain(&step.cue)).any(|(_, (low, _))| tepid(low))
    };
    let dies = |step: &Step| step.kind != StepKind::Wait && cooks(step) && !has_cooled(step);
    !part.steps.get(goes_in).is_some_and(dies) && !part.steps.iter().take(at).skip(goes_in + 1).any(cooks)
}

/// Whether a culture lives in a part when it comes to a step: nothing cooks it after it went in. Meat and rice are turned sour by a sausage's
/// cultures and by koji, and by no spoon of buttermilk.
fn is_turned(part: &Part, at: usize) -> bool {
    let on_it = |line: &Ingredient| {
        line.kind.is_flesh() || (line.kind == Kind::Grain && has_word_beginning(line.name.key.as_str(), ["rice"]))
    };
    let has_on_it = part.lines.iter().any(|line| line.stays_in() && on_it(line));
    let mut cultures = part.lines.iter().filter(|line| is_culture(line));
    cultures.any(|line| is_alive(part, at, line) && (!has_on_it || is_its_own(line)))
}

/// Less salt than this on everything cures nothing where it is warm. Common practice, no source: dry-cured sausage takes 25 to 30 g a kilo with
/// nitrite and a culture, salted fish far more.
pub(super) const WEAK: i64 = 30;
/// The same where nitrite or a culture is in it. Common practice, no source: sausages that dry have 25 to 30 g of nitrite salt a kilo, hams and bacon 20 and more.
const HELPED: i64 = 15;
/// With so much salt on it flesh keeps while it takes the salt up, as cod and anchovies do. Common practice, no source.
pub(super) const SALTED_THROUGH: i64 = 100;

/// So long flesh lies in brine before it has taken up salt to its middle. Common practice, no source.
const TAKES_UP: Duration = Duration::new(Number::whole(12 * 3600));

/// Whether what is poured off, water and salt, was on the flesh for hours only.
fn is_only_dipped(part: &Part) -> bool {
    let is_off = |line: &Ingredient| line.strained_out && line.kind.is_poured();
    let lies = |step: &&Step| step.kind == StepKind::Wait && called(step, beginnings!["brin", "cur", "salt", "soak"]);
    let lain = Duration::sum(part.steps.iter().filter(lies).map(|step| step.time.1));
    part.lines.iter().any(is_off) && lain.is_ok_and(|time| time < TAKES_UP)
}

/// Whether raw meat or fish is cured with hardly more salt than it is eaten with, and with nothing else that keeps it.
pub(super) fn is_weakly_cured(part: &Part, solved: &SolvedPart, least: i64) -> bool {
    let keeps = |line: &Ingredient| matches!(line.kind, Kind::Vinegar | Kind::Brine);
    // With nitrite or a culture less salt is enough, and without any to speak of neither keeps anything; what takes the salt up is not safe by them yet.
    let is_helped = least <= WEAK && part.lines.iter().any(|line| is_curing_salt(line) || is_culture(line));
    let least = if is_helped { least.min(HELPED) } else { least };
    let all = part.lines.iter().zip(&solved.lines);
    let flesh = Mass::sum(all.clone().filter(|(line, _)| is_raw_flesh(line)).filter_map(|(_, amount)| amount.mass));
    let unknown = || part.lines.iter().any(|line| matches!(line.refers, Refers::Part(_)));
    // An hour in brine that is poured off is a seasoning.
    let only_dipped = is_only_dipped(part);
    let counts = |line: &Ingredient| is_salt(line) && (line.stays_in() || !only_dipped);
    let salt = Mass::sum(all.filter(|(line, _)| counts(line)).filter_map(|(_, amount)| amount.mass));
    let weak = || salt.and_then(|salt| salt.as_share_of(flesh?)).is_ok_and(|share| share < mille(least));
    part.lines.iter().any(is_raw_flesh) && !unknown() && !part.lines.iter().any(keeps) && weak()
}
