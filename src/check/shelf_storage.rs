//! `shelf-storage`: moist food kept at room temperature.

use super::dough::{has_flour, inside, mass_of, mille};
use super::kept::{is_in_dough, is_kept, is_kept_on_a_shelf, is_pickle, is_spiced_vinegar};
use super::promise::{self, Promise, SaidBy};
use super::raw_pastry::{COOL_ROOM, is_pastry};
use super::statement::{self, CANNED, SHELF};
use super::{Check, Family, Run, Subject, tell};
use crate::measure::number::Number;
use crate::measure::quantity::{Duration, Mass};
use crate::measure::show;
use crate::model::cooking::{
    bakes, beginnings, called, cooks, dries_through, first_draws, has_word_beginning, hottest, is_brine, says,
    surely_does, words_of,
};
use crate::model::kind::Kind;
use crate::model::lowered::Beginnings;
use crate::model::recipe::{Ingredient, KeptAt, Part, PartId, Recipe};
use crate::model::spoils::{Body, body};
use crate::model::step::{Step, Target};
use crate::solve::formula::leaves::{Counted, leaves};
use crate::solve::formula::{Formula, SolvedPart};
use crate::text::diagnostic::{Diagnostic, Severity};

mod creamed;
mod fresh_fruit;
mod hardly_sour;
mod moist;
mod shut_off;
mod unheated;

pub(crate) use creamed::is_creamed;
pub(super) use fresh_fruit::holds_fresh_fruit;
pub(super) use moist::holds_a_moist_filling;
pub(super) use shut_off::shut_off;
use shut_off::stands_shut_off;

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "shelf-storage",
    severity: Severity::Advice,
    family: Family::Safety,
    looks_for: "preserves, pickles, fillings and other moist food kept for days without refrigeration, by its `keeps` or by its label; fresh fruit in sweets for more than a week; raw pastry in a warm room; cream and custard for a day; vegetables, \
                herbs and cheese in oil or honey; what is sold with `use by` and stored in the warm; vegetables, beans, meat and fish in closed jars that are only boiled; a `caution` that names a pH over 4.6; cake closed in jars, and bread that is to keep for months, rusks that nobody dried among it",
    why: "What keeps on a shelf is decided by its acid, its sugar and its heating, and that is tested, not guessed: a pH of \
          4.6 or below (a `caution` that names a higher one answers nothing), or water too bound for bacteria, a water activity of 0.85 or below. A recipe that has not been tested belongs into the refrigerator. \
          Breads, biscuits and other dry food baked in an oven are left alone; garlic in oil, a quiche, a custard and a pot of beans are not, whatever they \
          were cooked in: in oil, shut off from air, what makes botulism grows. This is general advice: local food law and \
          licensed practice go before it.",
    bad: "recipe Pickled carrots\ncarrot .... 500 g\nvinegar .... 300 g\nkeeps 3 weeks, at 20 C\ncook: tend 10 min, using hob\n    \
          Simmer {carrot} in {vinegar}.\n    until just tender\n",
    good: "recipe Pickled carrots\ncarrot .... 500 g\nvinegar .... 300 g\nkeeps 5 days, chilled\ncook: tend 10 min, using hob\n    \
           Simmer {carrot} in {vinegar}.\n    until just tender\n",
    sources: &[
        "21 CFR 114.3: acidified foods, finished equilibrium pH of 4.6 or below; refrigerated foods are excluded",
        "CDC and FDA on garlic in oil: refrigerated, and for 4 days at most (from memory)",
        "USDA, Complete Guide to Home Canning, and 21 CFR 113: low-acid foods under pressure (from memory)",
        "Directive 2001/113/EC: jam has 60 % soluble dry matter and more (from memory)",
        "FDA Food Code 3-501.16: cold holding at 5 °C or below; 3-501.19: four hours without it (from memory)",
    ],
    run: Run::Parts(run),
};

/// Food whose name says that it is moist.
const MOIST: &Beginnings = &Beginnings::of(&[
    "jam|",
    "jams|",
    "preserve",
    "pickl",
    "chutney",
    "relish",
    "curd",
    "sauce",
    "syrup",
    "compote",
    "filling",
    "custard",
    "cream",
    "spread",
    "vinegar",
    "brine",
    "marinad",
    "soup",
    "stock|",
    "stocks|",
    "stew",
    "puree",
    "purée",
    "paste|",
    "pastes|",
    "confit",
    "garlic",
    "mayonnaise",
    "aioli",
    "pesto",
    "hummus",
    "houmous",
]);

fn run(subject: &Subject<'_>, diagnostics: &mut Vec<Diagnostic>) {
    let (recipe, formula) = (subject.recipe, subject.formula);
    super::baked_shelf::problems(subject, CHECK.name, |id| is_creamed(recipe, formula, id), diagnostics);
    for (id, part, solved) in subject.own_parts() {
        let is_cold =
            || promise::on_label(recipe, id, part).or_else(|| promise::kept(part)).is_some_and(|kept| !kept.is_warm());
        let found = match canned(recipe, formula, id, (part, solved)).filter(|_| !is_cold()) {
            Some(problem) => Some(problem),
            None => stands_shut_off(recipe, formula, id, (part, solved))
                .or_else(|| kept_warm(recipe, formula, id, (part, solved)))
                .or_else(|| use_by_in_the_warm(recipe, formula, id, part))
                .or_else(|| hardly_sour::problem(recipe, id, part)),
        };
        tell(diagnostics, found);
    }
}

/// Moist food that is kept out of the cold, by its `keeps` or by its label.
fn kept_warm(
    recipe: &Recipe,
    formula: &Formula,
    id: PartId,
    (part, solved): (&Part, &SolvedPart),
) -> Option<Diagnostic> {
    let is_full_jam =
        || is_full_jam(solved) && !part.lines.iter().any(|line| line.kind.is_flesh() || line.kind == Kind::Egg);
    // A custard is one whatever its part is called, and a salad of chicken that nothing cooks in it as well.
    let is_moist = || {
        is_moist(part, Some(solved)) && !is_full_jam() && !is_dry_mix(part, solved)
            || is_moist_from_the_oven(recipe, formula, id)
            || spoils_as_it_is(recipe, formula, id)
            || holds_what_spoils(recipe, formula, id)
    };
    let is_mouldy = |kept: &Promise| {
        kept.is_warm() && kept.time > fresh_fruit::DAYS && is_made(part) && holds_fresh_fruit(recipe, formula, id)
    };
    let spoils_soon =
        |kept: &Promise| kept.is_warm() && moist::spoils_within(recipe, formula, id, kept.time) || is_mouldy(kept);
    let is_raw_pastry = |kept: &Promise| match kept.how {
        KeptAt::At(at) => kept.time > WITHOUT_COLD && at.celsius() >= COOL_ROOM && is_pastry(part, solved),
        _ => false,
    };
    let by_keeps = promise::kept(part).filter(|kept| {
        (is_shelf(kept) || is_on_the_bench(recipe, id, kept)) && is_moist() || spoils_soon(kept) || is_raw_pastry(kept)
    });
    // Of what is sold a topping of vegetables makes no dish that spoils.
    let is_moist_food = || {
        let is_flour = has_flour(solved, 200);
        let spoils = || {
            inside(recipe, id)
                .into_iter()
                .any(|inner| spoils_most(recipe, formula, inner) && !is_in_dough(recipe, inner))
        };
        // Sour pickles and fruit in syrup are sold from a shelf by many.
        let is_sour = || is_pickle(recipe, formula, id) || is_of_fruit(recipe, id);
        spoils()
            || is_creamed(recipe, formula, id)
            || !part.steps.iter().any(bakes) && is_moist() && !is_flour && !is_sour()
    };
    // A day is too long where custard or cream went in after all heat, and its storage is said and is no cold.
    let is_creamy = |kept: &Promise| {
        kept.is_warm()
            && kept.time >= Duration::days(1)
            && recipe.sale.store.is_some()
            && (is_creamed(recipe, formula, id) || holds_what_spoils(recipe, formula, id))
    };
    let kept = by_keeps.or_else(|| {
        promise::on_label(recipe, id, part)
            .filter(|kept| is_shelf(kept) && (is_moist_food() || spoils_soon(kept)) || is_creamy(kept))
    })?;
    if statement::states(recipe, part, SHELF) || is_spiced_vinegar(recipe, formula, id) {
        return None;
    }
    let where_kept = match kept.how {
        KeptAt::At(temperature) => format!("at {}", show::temperature(temperature, show::Units::Metric)),
        _ => "and not said to be chilled".to_owned(),
    };
    let message = match kept.by {
        SaidBy::Keeps => format!("`{}` is kept for {} {where_kept}", part.name, show::duration(kept.time)),
        SaidBy::BestBefore | SaidBy::UseBy => {
            format!("`{}` is sold for {} {where_kept}", part.name, show::duration(kept.time))
        }
    };
    let help = match kept.by {
        // What a week and more in the cold does is another question, which the same mend would only raise.
        SaidBy::Keeps if kept.time > Duration::days(7) => {
            "keep it for a few days, `, chilled` behind them, freeze it, or follow a tested process for shelf storage and say so in a `caution` line; local food law \
             goes before this"
        }
        SaidBy::Keeps => {
            "write `, chilled` behind the time, or follow a tested process for shelf storage and say so in a `caution` line; local food law goes before this"
        }
        SaidBy::UseBy => {
            "say how cold it is kept, `store Below 5 °C.`, or follow a tested process for shelf storage and say so in a `caution` line; local food law goes before this"
        }
        SaidBy::BestBefore => {
            "say how cold it is kept, `store Below 5 °C.`, and `use by` for what soon spoils (Regulation (EU) 1169/2011, Article 24; from memory), or \
             follow a tested process for shelf storage and say so in a `caution` line; local food law goes before this"
        }
    };
    Some(
        Diagnostic::advice(CHECK.name, kept.span, message)
            .label("nothing says that it was tested for the shelf")
            .help(help),
    )
}

/// Whether something is done with what a part lists: a basket of fruit is no dish.
fn is_made(part: &Part) -> bool {
    !part.steps.is_empty()
}

/// What is sold with a date of `use by`, which is that of food that is soon unsafe, or with cream on it, for more than four hours where it is warm.
fn use_by_in_the_warm(recipe: &Recipe, formula: &Formula, id: PartId, part: &Part) -> Option<Diagnostic> {
    let store = recipe.sale.store.as_deref()?;
    let sold = promise::on_label(recipe, id, part).filter(|sold| sold.time > WITHOUT_COLD)?;
    let spoils = sold.by == SaidBy::UseBy || is_creamed(recipe, formula, id);
    // `Cool and dry` is no cold: what has a date of `use by` says how cold it is.
    let is_warm = promise::is_stored_warm(store) || sold.by == SaidBy::UseBy && sold.is_warm();
    if !spoils || !is_warm || statement::states(recipe, part, SHELF) {
        return None;
    }
    let date = if sold.by == SaidBy::UseBy { "`use by` is said of what is soon unsafe" } else { "cream lies on it" };
    let message = format!(
        "`{}` is sold for {} and stored in the warm, `{}`, but {date}",
        part.name,
        show::duration(sold.time),
        store.trim().trim_end_matches('.')
    );
    Some(Diagnostic::advice(CHECK.name, sold.span, message).help(
        "say how cold it is kept, `store At 5 °C or below.`, or follow a tested process for shelf storage and say so in a `caution` line; local food law goes \
         before this",
    ))
}

/// So long food may be sold without cold (FDA Food Code 3-501.19).
const WITHOUT_COLD: Duration = Duration::new(Number::whole(4 * 3600));

/// Whether what is sold is dry, for others to boil: a soup mix of lentils, barley and salt. Nothing cooks it, and hardly any water or fat is in it.
fn is_dry_mix(part: &Part, solved: &SolvedPart) -> bool {
    let known =
        |line: &Ingredient| line.part().is_none() && line.facts().is_some_and(|facts| facts.contents.water.is_some());
    let below =
        |mass: Mass, most: i64| mass.as_share_of(solved.composition.total).is_ok_and(|share| share <= mille(most));
    part.lines.iter().all(known)
        && below(solved.composition.water, 150)
        && below(solved.composition.fat, 200)
        && !part.steps.iter().any(cooks)
}

/// Whether fruit is what is kept, with nothing that is less sour: pears in syrup.
fn is_of_fruit(recipe: &Recipe, id: PartId) -> bool {
    let lines = || inside(recipe, id).into_iter().filter_map(|inner| recipe.part(inner)).flat_map(|part| &part.lines);
    let spoils = |line: &Ingredient| is_low_acid(line) || matches!(line.kind, Kind::Milk | Kind::Dairy | Kind::Egg);
    lines().any(|line| line.kind == Kind::Fruit) && !lines().any(spoils)
}

/// So much sugar in what comes out, in thousandths, is a full jam.
const FULL_JAM: i64 = 600;

/// Whether what comes out is as sweet as a full jam.
pub(crate) fn is_full_jam(solved: &SolvedPart) -> bool {
    solved.comes_out.sugar.as_share_of(solved.comes_out.total).is_ok_and(|share| share >= mille(FULL_JAM))
}

/// Kept out of the cold for more than a day.
fn is_shelf(kept: &Promise) -> bool {
    kept.is_warm() && kept.time > Duration::days(1)
}

/// Custard, cream or a meat filling that stands in a warm place for more than four hours.
fn is_on_the_bench(recipe: &Recipe, id: PartId, kept: &Promise) -> bool {
    let spoils = |line: &Ingredient| matches!(body(line), Some(Body::Flesh | Body::Milk | Body::Egg));
    let mut lines = inside(recipe, id).into_iter().filter_map(|inner| recipe.part(inner)).flat_map(|part| &part.lines);
    kept.is_warm() && kept.time > Duration::minutes(4 * 60) && lines.any(spoils)
}

/// Whether a part is meat, milk or cream for a good deal, and nothing keeps it.
fn spoils_most(recipe: &Recipe, formula: &Formula, id: PartId) -> bool {
    let Some((part, solved)) = recipe.part(id).zip(formula.part(id)) else { return false };
    let is_it = |line: &Ingredient| matches!(body(line), Some(Body::Flesh | Body::Milk));
    let share =
        |mass: Mass, least: i64| mass.as_share_of(solved.composition.total).is_ok_and(|share| share >= mille(least));
    mass_of(part, solved, is_it).is_some_and(|mass| share(mass, 200))
        && share(solved.composition.water, 300)
        && !is_candy(part, solved)
        && !keeps(recipe, formula, id)
}

/// Whether a part spoils as it is, and is neither baked nor mixed into a dough.
fn spoils_as_it_is(recipe: &Recipe, formula: &Formula, id: PartId) -> bool {
    let is_baked = || recipe.part(id).is_some_and(|part| part.steps.iter().any(bakes));
    spoils_most(recipe, formula, id) && !is_baked() && !is_in_dough(recipe, id)
}

/// So much of a dish is enough that the whole spoils with it, in thousandths. Common practice, no source.
const SPOILS_WITH_IT: i64 = 80;

/// Whether a part is put together with another that spoils, as it is or out of the oven: slices layered with a cream, rolls filled with a salad of
/// chicken. What is baked or dried when all is together is another question, and so is what keeps the whole; that flour lies beside the cream does
/// not keep it.
fn holds_what_spoils(recipe: &Recipe, formula: &Formula, id: PartId) -> bool {
    let Some(part) = recipe.part(id) else { return false };
    let is_changed = |step: &Step| bakes(step) || dries_through(step);
    if part.lines.iter().all(|line| line.part().is_none())
        || part.steps.iter().any(is_changed)
        || is_kept_on_a_shelf(recipe, formula, id, part.steps.len())
    {
        return false;
    }
    let Ok(all) = leaves(recipe, formula, id, Counted::GoesIn) else { return false };
    let whole = Mass::sum(all.iter().map(|leaf| leaf.mass));
    let holds_enough = |inner: &Part| {
        let own = all.iter().filter(|leaf| inner.lines.iter().any(|line| std::ptr::eq(line, leaf.line)));
        let own = Mass::sum(own.map(|leaf| leaf.mass)).and_then(|own| own.as_share_of(whole?));
        own.is_ok_and(|share| share >= mille(SPOILS_WITH_IT))
    };
    inside(recipe, id).into_iter().filter(|inner| *inner != id).any(|inner| {
        (spoils_as_it_is(recipe, formula, inner) || is_moist_from_the_oven(recipe, formula, inner))
            && recipe.part(inner).is_some_and(holds_enough)
    })
}

/// Whether something keeps a part when it is done. Flour keeps no custard that is set in it.
fn keeps(recipe: &Recipe, formula: &Formula, id: PartId) -> bool {
    let Some((part, solved)) = recipe.part(id).zip(formula.part(id)) else { return false };
    let all = part.steps.len();
    let flour = solved.composition.flour.as_share_of(solved.composition.total);
    let is_bread = !is_set_custard(part, solved) && flour.is_ok_and(|share| share >= mille(200));
    is_bread || is_kept_on_a_shelf(recipe, formula, id, all)
}

/// Whether a part in which flour lies is a custard all the same, a quiche or a clafoutis written in one: nothing raises it, there is more milk and
/// cream than flour, and with its egg half as much again. Common practice, no source.
fn is_set_custard(part: &Part, solved: &SolvedPart) -> bool {
    let milk = |line: &Ingredient| body(line) == Some(Body::Milk) && line.stays_in();
    let flour = solved.composition.flour;
    let times = |mass: Option<Mass>, least: i64| {
        mass.and_then(|mass| mass.as_share_of(flour).ok()).is_some_and(|share| share >= mille(least))
    };
    let with_egg = || mass_of(part, solved, |line| milk(line) || line.kind == Kind::Egg && line.stays_in());
    let has_egg = part.lines.iter().any(|line| line.kind == Kind::Egg && line.stays_in());
    let is_raised = || part.lines.iter().any(|line| line.kind.raises());
    flour > Mass::ZERO && has_egg && times(mass_of(part, solved, milk), 1000) && times(with_egg(), 1500) && !is_raised()
}

/// Names of vegetables that are sour enough for a jar in boiling water, or were made so before.
const SOUR: &[&str] = &[
    "tomato",
    "tomatillo",
    "rhubarb",
    "pickl",
    "gherkin",
    "caper",
    "olive",
    "sauerkraut",
    "kimchi",
    "dried",
    "dry",
    "powder",
    "powdered",
    "flakes",
    "seed",
];

/// What is not sour, by itself.
fn is_low_acid(line: &Ingredient) -> bool {
    let is_food = matches!(line.kind, Kind::Vegetable | Kind::Pulse) || line.kind.is_flesh();
    let preparation = || line.preparation.as_deref().unwrap_or_default().to_lowercase();
    is_food && !has_word_beginning(line.name.key.as_str(), SOUR) && !has_word_beginning(&preparation(), SOUR)
}

/// Vegetables, beans, meat and fish in closed jars that boiling water is to keep.
fn canned(recipe: &Recipe, formula: &Formula, id: PartId, (part, solved): (&Part, &SolvedPart)) -> Option<Diagnostic> {
    if !part.lines.iter().any(is_low_acid) {
        return None;
    }
    let is_most = || {
        let low = mass_of(part, solved, is_low_acid);
        low.is_some_and(|mass| mass.as_share_of(solved.composition.total).is_ok_and(|share| share >= mille(300)))
    };
    let at = part.steps.iter().position(seals_and_boils)?;
    let step = part.steps.get(at)?;
    // Jars that are boiled before anything goes in are cleaned.
    let draws = first_draws(part);
    let filled = part
        .lines
        .iter()
        .enumerate()
        .any(|(line, each)| is_low_acid(each) && draws.get(&Target::Line(line)).is_some_and(|first| *first <= at));
    let ferments = || {
        let is_so =
            |step: &Step| surely_does(step, beginnings!["ferment"]) || called(step, beginnings!["sour", "kraut"]);
        part.steps.iter().any(is_so) || part.name.has_word_beginning(beginnings!["kraut", "sauerkraut"])
    };
    if !filled
        || !is_most()
        || is_kept(recipe, formula, id, at)
        || ferments()
        || statement::states(recipe, part, CANNED)
    {
        return None;
    }
    let message = format!(
        "`{}` boils closed jars of `{}`, which is not sour: what makes botulism outlives boiling water, and grows in the jar",
        step.name, part.name
    );
    Some(Diagnostic::advice(CHECK.name, step.name.span, message).help(
        "keep it in the refrigerator and for a few days, freeze it, or follow a tested process for canning under pressure and say so in a `caution` line; \
         local food law goes before this",
    ))
}

/// Whether a step cooks what is in closed jars, and not under pressure.
fn seals_and_boils(step: &Step) -> bool {
    let whole = |sought: &[&str]| step.name.key.as_str().split(' ').any(|word| sought.contains(&word));
    let by_name = whole(&["can", "canning", "bottle", "process", "preserve", "sterilise", "sterilize"]);
    let jars = says(step, beginnings!["jar", "tins", "kilner", "bottle"]);
    let closed = || says(step, beginnings!["seal", "close", "screw", "lids", "canner", "bath"]);
    if !(by_name && (jars || step.temperature.is_some()) || jars && closed()) {
        return false;
    }
    let hotter = words_of(step).contains("pressure")
        || step.temperature.is_some_and(|(low, _)| low.celsius() >= Number::whole(110));
    let heats = cooks(step) || says(step, beginnings!["boil", "simmer"]);
    heats && !bakes(step) && !hotter
}

/// Whether flour or egg takes up what water there is.
fn takes_up_water(part: &Part, solved: &SolvedPart) -> bool {
    solved.composition.flour > Mass::ZERO || part.lines.iter().any(|line| line.kind == Kind::Egg)
}

/// Honey boiled for a stock dough is no syrup any more.
fn is_sweet_dough(solved: &SolvedPart) -> bool {
    let composition = &solved.composition;
    let share = |mass: Mass, least: i64| mass.as_share_of(composition.total).is_ok_and(|share| share >= mille(least));
    share(composition.flour, 300) && share(composition.sugar, 150)
}

/// Sugar that is boiled hotter than this has hardly any water left: °C. Common practice, no source.
const CANDY: Number = Number::whole(112);

/// Whether a part is sugar for a good deal and boiled to candy: caramels, drops.
fn is_candy(part: &Part, solved: &SolvedPart) -> bool {
    let sweet = mass_of(part, solved, |line| line.kind.is_sweet());
    let is_sweet =
        sweet.is_some_and(|mass| mass.as_share_of(solved.composition.total).is_ok_and(|share| share >= mille(250)));
    is_sweet && part.steps.iter().any(|step| hottest(step).is_some_and(|hot| hot.celsius() >= CANDY))
}

fn is_moist(part: &Part, solved: Option<&SolvedPart>) -> bool {
    let named = part.name.has_word_beginning(MOIST)
        || part.lines.iter().any(|line| line.kind == Kind::Vinegar || is_brine(line));
    let simmered = part.steps.iter().any(|step| says(step, beginnings!["simmer", "boil", "pickl", "brine"]));
    let is_dry = || solved.is_some_and(|solved| is_sweet_dough(solved) || is_candy(part, solved));
    (named || simmered) && !part.steps.iter().any(bakes) && !is_dry()
}

/// Whether a part that was cooked moist in an oven is kept where it is warm; what is told by its name is no matter.
pub(crate) fn stands_on_shelf(recipe: &Recipe, formula: &Formula, id: PartId) -> bool {
    let kept = recipe.part(id).and_then(promise::kept);
    kept.is_some_and(|kept| is_shelf(&kept)) && is_moist_from_the_oven(recipe, formula, id)
}

/// What cannot be dry, whatever it was cooked in: a pot of vegetables, meat or beans in oil or water, a filling of egg and cream.
fn is_moist_from_the_oven(recipe: &Recipe, formula: &Formula, id: PartId) -> bool {
    let Some(part) = recipe.part(id) else { return false };
    let dries = |part: &Part| part.steps.iter().any(dries_through);
    let is_moist = |inner: PartId, part: &Part, solved: &SolvedPart| {
        let of = |is: &dyn Fn(&Ingredient) -> bool, least: i64| {
            let mass = mass_of(part, solved, is);
            mass.is_some_and(|mass| mass.as_share_of(solved.composition.total).is_ok_and(|share| share >= mille(least)))
        };
        let is_body =
            |line: &Ingredient| matches!(body(line), Some(Body::Flesh | Body::Vegetable | Body::Pulse | Body::Milk));
        let wet = solved.composition.water.as_share_of(solved.composition.total).is_ok_and(|share| share >= mille(150));
        // In a pot water and oil weigh most of it.
        let in_pot = |line: &Ingredient| is_body(line) || line.kind.is_poured() || line.kind == Kind::Fat;
        of(&is_body, 150)
            && of(&in_pot, 400)
            && wet
            && !of(&|line| line.kind == Kind::Nut, 200)
            && !keeps(recipe, formula, inner)
            && !dries(part)
    };
    let inner = inside(recipe, id).into_iter();
    let mut solved = inner.filter_map(|inner| Some((inner, recipe.part(inner)?, formula.part(inner)?)));
    part.steps.iter().any(bakes) && !dries(part) && solved.any(|(inner, part, solved)| is_moist(inner, part, solved))
}
