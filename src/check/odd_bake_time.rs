//! `odd-bake-time`: a bake or a cooling that does not suit the size of the pieces.

use super::dough::{is_dough, mass_of, mille};
use super::gluten_free_dough::is_gluten_free;
use super::{Check, Family, Run, Subject, piece_sizes, tell};
use crate::language::syntax::Name;
use crate::measure::number::Number;
use crate::measure::quantity::{Duration, Mass, Proportion};
use crate::measure::show;
use crate::measure::value::Said;
use crate::model::cooking::ovens::is_plate;
use crate::model::cooking::{Beginnings, bakes, called, cools, says};
use crate::model::heat;
use crate::model::kind::Kind;
use crate::model::lowered::beginnings;
use crate::model::recipe::{Ingredient, Part, PartId, Recipe, Refers};
use crate::model::step::{Step, StepKind};
use crate::solve::formula::SolvedPart;
use crate::text::diagnostic::{Diagnostic, Severity};

mod dense;
mod egg_sets;
mod in_its_case;
mod in_steam_and_fat;
mod pale;

use dense::{dense_rye, on_its_wall};

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "odd-bake-time",
    severity: Severity::Advice,
    family: Family::Steps,
    looks_for: "a bake far too short or too long for what a piece of dough weighs, and pieces that cool for half a day",
    why: "A loaf of 830 g is raw after 3.5 minutes, and a roll is coal after two hours. Common practice, of the oven times of a part \
          together: pieces up to 150 g bake for two and a half hours at most at 120 °C and above, up to 400 g for three and a half; rolls of 80 g and more bake for 11 minutes at least up to 200 °C, of 100 g up to 240, choux of 20 g for 15; pieces of 150 g and more for 6, of 400 g 12 minutes, of 700 g 20, of 1.5 kg 28, where they do not lie flat on a sheet or in a tin, and of 800 g of half rye and more 35; flat bread up to 200 g is done within 12 minutes at 240 °C, and what lies on a stone or a wall of 350 °C within 6; at 160 °C and \
          above, pieces up to 40 g bake for 45 minutes at most, from 175 °C on those up to 70 g for 40, up to 150 g for an hour, up to 400 g for an hour and a half, and at 190 °C and above up to 100 g for 40 minutes (from 215 on 35), up to 150 g \
          for 45, up to 400 g for 65, up to 1 kg for 75; a dough or batter with a fifth of sugar on its flour burns at 235 °C and above \
          in a quarter of an hour. A batch of cookies, scones or rolls that is not divided is shared by their number. Of several sizes the heaviest is baked long enough and the lightest not too long. Flat pieces up to 200 g lie on a griddle for a quarter of an hour at most. Pieces up to 100 g without flour bake for an hour and a quarter at most, and what eggs set in milk for four hours; in cups it sets in 8 minutes at 200 °C and in 15 at 120, in a dish in twice that, and raw pastry that is filled takes 50 minutes at 150 °C and less. Minced meat in pieces of 90 g and more fries for three minutes at least. Pieces of 30 g and more that are steamed take 5 minutes at least, and buns of yeast dough 45 at most; pieces of it from 25 to 150 g fry for 25 seconds to 12 minutes. A loaf without gluten of 600 g and more bakes for 35 minutes at least, and a third longer than one of wheat at most. In an \
          oven of 270 °C and above it goes faster: pieces up to 400 g are coal after half an hour, at 290 °C those up to 150 g after twelve minutes, and at 300 °C and above all are after twenty minutes. Pieces up to 500 g are cold after four hours, of \
          more than 700 g not in twenty minutes. It is advice: \
          if it is meant so, `# allow odd-bake-time: reason` above the step keeps it quiet.",
    bad: "recipe Loaf\nmakes 2 loaves\nflour .... 1 kg\nwater .... 660 g\nsalt .... 20 g\ninstant yeast .... 8 g\ndivide 2 x 830 g, loss 1.7 \
          %\nmix: hands 10 min\n    Mix {flour}, {water}, {salt} and {instant yeast}.\n    until smooth\nrise: wait 1 h, at 24 C\nshape: hands \
          1 min, each\nprove: wait 50 min, at 24 C\nbake: tend 9 min, using oven at 230 C\n    until brown\n",
    good: "recipe Loaf\nmakes 2 loaves\nflour .... 1 kg\nwater .... 660 g\nsalt .... 20 g\ninstant yeast .... 8 g\ndivide 2 x 830 g, loss 1.7 \
           %\nmix: hands 10 min\n    Mix {flour}, {water}, {salt} and {instant yeast}.\n    until smooth\nrise: wait 1 h, at 24 C\nshape: hands \
           1 min, each\nprove: wait 50 min, at 24 C\nbake: tend 39 min, using oven at 230 C\n    until brown\n",
    sources: &["common practice, no source"],
    run: Run::Parts(run),
};

/// From so many grams on a piece bakes for so many minutes at least.
const LEAST: &[(i64, i64)] = &[(1500, 28), (700, 20), (400, 12), (150, 6)];
/// A roll of 100 g bakes so long at least up to 240 °C, one of 80 g up to 200.
const ROLL: Duration = Duration::new(Number::whole(11 * 60));
/// Choux are dry enough to stand when they leave the oven after so long, but for the smallest. Common practice, no source.
const DRY: Duration = Duration::new(Number::whole(15 * 60));
const CHOUX: &Beginnings = &Beginnings::of(&["choux", "eclair", "éclair", "profiterole", "gougère", "gougere"]);
/// Up to so many grams a piece bakes for so many minutes at most.
const MOST: &[(i64, i64)] = &[(40, 45), (150, 60), (400, 90)];
/// The same in an oven of 190 °C and more.
const MOST_HOT: &[(i64, i64)] = &[(100, 40), (150, 45), (400, 65), (1000, 75)];
const QUICK: Number = Number::whole(190);
/// The same from 215 °C on.
const MOST_HOTTER: &[(i64, i64)] = &[(100, 35), (150, 42), (400, 60), (1000, 75)];
const QUICKER: Number = Number::whole(215);
/// Dough and batter of which nobody knows how it is cut are coal after so long from 175 °C on, up to so many grams of it.
const ANY_IS_COAL: Duration = Duration::new(Number::whole(110 * 60));
const ANY: Mass = Mass::new(Number::whole(3000));
/// The same from 175 °C on: what is small is a rusk after so long.
const MOST_WARM: &[(i64, i64)] = &[(70, 40), (150, 60), (400, 90)];
const WARM: Number = Number::whole(175);
/// The same of dough, batter and custard in one of 120 °C and more; below it dries.
const MOST_GENTLE: &[(i64, i64)] = &[(150, 150), (400, 210)];
const GENTLE: Number = Number::whole(120);
/// Below, things bake gently; above, flat things bake in minutes.
const DRYING: Number = Number::whole(160);
const FIERCE: Number = Number::whole(270);
/// In such an oven everything is black after so long.
const FIERCEST: Number = Number::whole(300);
const BLACK: Duration = Duration::new(Number::whole(20 * 60));
/// What weighs no more is cold after so long.
const SMALL: i64 = 500;
const COLD_AFTER: Duration = Duration::new(Number::whole(4 * 3600));
/// In a fierce oven so light a piece is coal after so long.
const FLAT: i64 = 400;
const COAL_AFTER: Duration = Duration::new(Number::whole(30 * 60));
/// What weighs more is not cold after so short a time.
const LARGE: i64 = 700;
const STILL_HOT: Duration = Duration::new(Number::whole(20 * 60));

fn run(subject: &Subject<'_>, diagnostics: &mut Vec<Diagnostic>) {
    for (id, part, solved) in subject.whole_parts() {
        tell(
            diagnostics,
            burns(part, solved)
                .or_else(|| egg_sets::foam(part, solved))
                .or_else(|| egg_sets::custard(subject, part, solved))
                .or_else(|| in_its_case::problem(subject, part, solved)),
        );
        // A batch of cookies that is not divided is as many pieces.
        let alone = || {
            let (noun, each, _) = piece_sizes::undivided(subject).filter(|_| subject.recipe.is_final(id))?;
            piece_sizes::is_baked_alone(subject.recipe, noun).then_some(each)
        };
        let Some(piece) = piece(subject.recipe, part).or_else(alone) else {
            tell(diagnostics, of_no_pieces(part, solved));
            continue;
        };
        let (light, heavy) = sizes(subject.recipe, part, piece);
        let charred = on_its_wall(subject.recipe, part, light).map(|bake| coals(bake, light));
        tell(diagnostics, charred.or_else(|| baked(subject, (id, part), solved, (light, heavy))));
        tell(diagnostics, on_the_griddle(part, heavy));
        tell(diagnostics, cooled(part, piece));
        tell(diagnostics, in_steam_and_fat::problem(subject, (id, part), piece));
    }
}

/// What a piece weighs when it goes into the oven: of the part, or of the heaviest part that it takes by the piece.
pub(super) fn piece(recipe: &Recipe, part: &Part) -> Option<Mass> {
    let own = part.divide.map(|divide| divide.each);
    let weighs = |line: &Ingredient| line.said().first().and_then(Said::mass);
    own.or_else(|| {
        let drawn = part.lines.iter().filter_map(|line| match line.refers {
            // A weight of it for each piece is what a piece weighs, however it is divided where it is for others.
            Refers::Part(other) => {
                let made = recipe.part(other)?;
                let is_dough = || made.lines.iter().any(|line| line.is_flour && line.stays_in());
                let said = weighs(line).filter(|_| part.per_piece && (made.divide.is_some() || is_dough()));
                said.or_else(|| made.divide.map(|divide| divide.each))
            }
            Refers::Pantry(_) => None,
        });
        drawn.max()
    })
}

/// The lightest and the heaviest piece, where there are several sizes; else what one weighs, twice.
fn sizes(recipe: &Recipe, part: &Part, piece: Mass) -> (Mass, Mass) {
    let of_parts = part.lines.iter().filter_map(Ingredient::part).filter_map(|id| recipe.part(id));
    let sorts = std::iter::once(part).chain(of_parts).find(|part| !part.sorts.is_empty()).map(|part| &part.sorts);
    // What is listed by the sort is baked by the sort.
    let is_here = |name: &Name| part.sort.as_ref().is_none_or(|only| only.same(name));
    let weights = || sorts.into_iter().flatten().filter(|sort| is_here(&sort.name)).map(|sort| sort.each);
    (weights().min().unwrap_or(piece), weights().max().unwrap_or(piece))
}

/// What is baked on a plate of iron is flat, and done in minutes.
const GRIDDLED: Duration = Duration::new(Number::whole(15 * 60));
const FLAT_BREAD: i64 = 200;

/// Flatbreads that lie on the griddle for half an hour, a few at a time.
fn on_the_griddle(part: &Part, piece: Mass) -> Option<Diagnostic> {
    let on_plate = |step: &Step| step.equipment.as_ref().is_some_and(is_plate);
    let by_load = |step: &Step| step.loads.size().is_some() || step.loads.is_by_piece();
    let step = part
        .steps
        .iter()
        .find(|step| step.kind != StepKind::Wait && on_plate(step) && by_load(step) && step.time.0 > GRIDDLED)?;
    if piece > grams(FLAT_BREAD) || piece < grams(2) {
        return None;
    }
    let message = format!(
        "pieces of {} lie on the griddle for {}: common practice is {} at most",
        show::mass_plain(piece),
        show::duration(step.time.0),
        show::duration(GRIDDLED)
    );
    Some(Diagnostic::advice(CHECK.name, step.time_span, message).help("look whether a digit of the time has slipped"))
}

fn grams(grams: i64) -> Mass {
    Mass::new(Number::whole(grams))
}

fn minutes(minutes: i64) -> Duration {
    Duration::new(Number::whole(minutes * 60))
}

fn baked(
    subject: &Subject<'_>,
    (id, part): (PartId, &Part),
    solved: &SolvedPart,
    (light, heavy): (Mass, Mass),
) -> Option<Diagnostic> {
    let of_flour = solved.composition.flour > Mass::ZERO
        || part.lines.iter().any(|line| match line.refers {
            Refers::Part(other) => subject.formula.part(other).is_some_and(|part| part.composition.flour > Mass::ZERO),
            Refers::Pantry(_) => false,
        })
        || is_of_meal(part, solved);
    let in_oven: Vec<&Step> = part.steps.iter().filter(|step| step.kind != StepKind::Wait && bakes(step)).collect();
    let bake = in_oven.iter().find(|step| step.name.has_word_beginning(beginnings!["bak"]))?;
    let heat =
        in_oven.iter().filter_map(|step| step.temperature).map(|(low, high)| high.unwrap_or(low).celsius()).max()?;
    // A piece that nobody shapes is `odd-amount`.
    let sound = light >= grams(2) && heavy <= grams(5000);
    // Macaroons and meatballs; baked apples and potatoes are heavier.
    if !of_flour && sound && light <= grams(100) && heat >= Number::whole(150) && bake.time.0 > minutes(75) {
        let message = format!(
            "pieces of {} bake for {}: common practice is {} at most",
            show::mass_plain(light),
            show::duration(bake.time.0),
            show::duration(minutes(75))
        );
        return Some(
            Diagnostic::advice(CHECK.name, bake.time_span, message)
                .help("look whether a point or a digit of the time has slipped"),
        );
    }
    if !of_flour || !sound {
        return None;
    }
    let is_raised = || subject.leavened().has(id);
    let pale = pale::problem(solved, (*bake, heavy), heat, is_raised)
        .or_else(|| pale::never_browns((*bake, heavy), heat, is_raised));
    if pale.is_some() {
        return pale;
    }
    if heat >= FIERCE {
        let flat = light <= grams(FLAT) && bake.time.0 > COAL_AFTER;
        let fiercest = heat >= FIERCEST && bake.time.0 > BLACK;
        // What is thin and of oil and meal is burnt there long before.
        let is_thin = light <= grams(40) && bake.time.0 >= minutes(25);
        // Rolls and rings are done in a few minutes there, as flat breads are.
        let small = (heat >= Number::whole(290) && light <= grams(150) || light <= grams(40))
            && bake.time.0 > minutes(12)
            || light <= grams(100) && bake.time.0 >= minutes(20);
        let coal = (flat || fiercest || small || is_thin) && bake.later.is_empty() && bake.time.1 <= minutes(60);
        return coal.then(|| coals(bake, light));
    }
    let short = Duration::sum(in_oven.iter().map(|step| step.time.1)).ok()?;
    // What dries in a gentle oven after it was baked is baked no longer for it.
    let dries =
        |step: &Step| step.temperature.is_some_and(|(low, high)| high.unwrap_or(low).celsius() <= Number::whole(110));
    let baking = in_oven.iter().filter(|step| !dries(step) || heat < DRYING);
    let long = Duration::sum(baking.map(|step| step.time.0)).ok()?;
    // A batter of more than twice as much milk as flour boils in its mould before it browns.
    let is_wet = solved.composition.hydration().is_some_and(|wet| wet > mille(2000));
    // What lies flat in its tin is done sooner than a loaf of its weight.
    let is_flat = lies_flat(subject.recipe, part, heavy);
    let round = if is_flat { heavy.min(grams(FLAT)) } else { heavy };
    // A loaf cake in its tin takes an hour in so gentle an oven.
    let gently = if heat <= Number::whole(175) && !is_flat {
        [(700, 30), (400, 22)].into_iter().find(|(from, _)| heavy >= grams(*from)).map_or(0, |(_, least)| least)
    } else {
        0
    };
    // An oven that is not so hot takes half as long again.
    let gentle = |least: i64| if heat <= Number::whole(210) && least <= 12 { least * 3 / 2 } else { least };
    let least = LEAST.iter().find(|(from, _)| round >= grams(*from));
    let least = least.map(|(_, least)| minutes(gentle(*least).max(gently)));
    // Rolls that are neither flat nor thin.
    let is_roll = || {
        let hot = if heavy >= grams(100) { 240 } else { 200 };
        heavy >= grams(80)
            && heat <= Number::whole(hot)
            && !is_flat
            && is_raised()
            && !super::no_prove::is_flat(subject.recipe, part, None)
            && !part.steps.iter().any(|step| says(step, beginnings!["flat", "thin", "roll out", "stretch", "press"]))
    };
    let least = if short < ROLL && is_roll() { least.max(Some(ROLL)) } else { least };
    let is_choux = || [&subject.recipe.name, &part.name].iter().any(|name| name.has_word_beginning(CHOUX));
    let least = if short < DRY && heavy >= grams(20) && is_choux() { least.max(Some(DRY)) } else { least };
    // An oven that falls is as hot as it is at the end.
    let stays_hot = |step: &&Step| step.later.iter().all(|(later, _)| later.celsius() >= QUICK);
    let least = least.max(dense_rye(subject, id, heavy).filter(|_| !is_flat));
    let table = if heat >= QUICKER && in_oven.iter().all(stays_hot) && !is_rusk(part) {
        MOST_HOTTER
    } else if heat >= QUICK && in_oven.iter().all(stays_hot) {
        MOST_HOT
    } else if heat >= WARM {
        MOST_WARM
    } else {
        MOST
    };
    let table = if heat < DRYING { MOST_GENTLE } else { table };
    let most = table.iter().find(|(to, _)| light <= grams(*to)).map(|(_, most)| {
        minutes(if is_wet {
            most * 2
        } else if is_gluten_free(part) {
            most * 4 / 3
        } else {
            *most
        })
    });
    let (time, piece, usual) = match (least, most) {
        (Some(least), _) if short < least => (short, heavy, format!("{} at least", show::duration(least))),
        (_, Some(most)) if long > most && heat >= GENTLE => (long, light, format!("{} at most", show::duration(most))),
        _ => return None,
    };
    // What no oven does, whatever the piece, is `odd-time`.
    let longest = if heat >= Number::whole(200) { minutes(120) } else { minutes(240) };
    if in_oven.iter().any(|step| step.time.0 < minutes(5) || step.time.1 > longest) {
        return None;
    }
    let message =
        format!("pieces of {} bake for {}: common practice is {usual}", show::mass_plain(piece), show::duration(time));
    Some(
        Diagnostic::advice(CHECK.name, bake.time_span, message)
            .help("look whether a point or a digit of the time has slipped, or of the weight of a piece"),
    )
}

/// What is baked twice is dry by then.
fn is_rusk(part: &Part) -> bool {
    part.steps.iter().filter(|step| step.kind != StepKind::Wait && bakes(step)).count() > 1
}

/// Sponge fingers that bake for two hours where twelve minutes were meant: a dough of which no piece has a weight.
fn of_no_pieces(part: &Part, solved: &SolvedPart) -> Option<Diagnostic> {
    let mut in_oven = part.steps.iter().filter(|step| step.kind != StepKind::Wait && bakes(step));
    let bake = in_oven.next().filter(|step| step.time.0 >= ANY_IS_COAL && step.later.is_empty())?;
    let hot = bake.temperature.is_some_and(|(low, _)| low.celsius() >= WARM);
    // A stew under a crust is none.
    let is_of_dough = is_dough(part, solved) && solved.goes_in.is_some_and(|all| all <= ANY);
    let fleshless = !part.lines.iter().any(|line| line.kind.is_flesh() || line.part().is_some());
    if !hot
        || !is_of_dough
        || !fleshless
        || in_oven.next().is_some()
        || bake.loads.size().is_none() && part.divide.is_some()
    {
        return None;
    }
    let message = format!(
        "`{}` bakes for {} at {}: dough and batter are coal by then",
        part.name,
        show::duration(bake.time.0),
        heat::heat(bake, show::Units::Metric)?
    );
    Some(Diagnostic::advice(CHECK.name, bake.time_span, message).help("look whether a digit of the time has slipped"))
}

fn coals(bake: &Step, light: Mass) -> Diagnostic {
    let message =
        format!("pieces of {} bake for {} in so hot an oven", show::mass_plain(light), show::duration(bake.time.0));
    Diagnostic::advice(CHECK.name, bake.time_span, message)
        .help("look whether a digit of the time has slipped, or of the temperature")
}

/// Whether starch, or meal that no larder counts as flour, is a fifth of a part and more: puffs of tapioca, oatcakes.
fn is_of_meal(part: &Part, solved: &SolvedPart) -> bool {
    let is_meal = |line: &Ingredient| line.is_any_flour() || matches!(line.kind, Kind::Starch | Kind::Grain);
    part.lines.iter().any(is_meal)
        && mass_of(part, solved, is_meal)
            .and_then(|meal| meal.as_share_of(solved.composition.total).ok())
            .is_some_and(|share| share >= mille(200))
}

/// So many grams of dough on a square centimetre are a slab and no loaf: it comes to some four centimetres.
const SLAB: Number = Number::constant(8, 5);

/// Whether a dough lies flat on a sheet or in a tin whose size is told.
fn lies_flat(recipe: &Recipe, part: &Part, piece: Mass) -> bool {
    let own = part.pan.or(recipe.pan);
    let square_millimetres = own.and_then(|baked_in| baked_in.pan.area().ok().flatten());
    let share = |area: Number| piece.value().times(Number::whole(100)).ok()?.over(area).ok();
    square_millimetres.and_then(share).is_some_and(|share| share <= SLAB)
}

/// From so much sugar on the flour a crust is black before the middle is done, in an oven so hot, after so many minutes.
const SWEET: Proportion = Proportion::new(Number::constant(1, 5));
const BURNING: Number = Number::whole(235);
const BLACK_AFTER: Duration = Duration::new(Number::whole(15 * 60));
const SWEET_IS_BLACK: &[(i64, i64)] = &[(290, 8), (255, 10), (240, 12), (235, 15)];
/// Half sugar or more, as macarons and honey cakes are, it is black sooner.
const ALL_SWEET: Proportion = Proportion::new(Number::constant(7, 10));
const ALL_SWEET_IS_BLACK: &[(i64, i64)] = &[(290, 5), (250, 8), (195, 12)];

/// The same where sugar was strewn between, or butter folded in.
const SWEETENED: Proportion = Proportion::new(Number::constant(1, 8));
const BUTTERED: Proportion = Proportion::new(Number::constant(3, 10));
const SCORCHING: Number = Number::whole(265);

/// Cake at 265 °C where 165 °C was meant.
fn burns(part: &Part, solved: &SolvedPart) -> Option<Diagnostic> {
    let sweet = mass_of(part, solved, |line| line.kind.is_sweet())?;
    let composition = &solved.composition;
    // Oats and nuts burn as flour does.
    let is_grain = |line: &Ingredient| matches!(line.kind, Kind::Grain | Kind::Nut | Kind::Seed);
    let body = mass_of(part, solved, is_grain).and_then(|grain| grain.plus(composition.flour).ok())?;
    let of_flour = |mass: Mass| mass.as_share_of(body).unwrap_or(Proportion::ZERO);
    let is_sweet = of_flour(sweet) >= SWEET;
    // What was rolled in by a part that it takes burns as well, and so does butter, somewhat later.
    let is_rich = of_flour(composition.sugar) >= SWEETENED || of_flour(composition.fat) >= BUTTERED;
    // What is wet does not burn so soon.
    let is_wet = |line: &Ingredient| {
        matches!(line.kind, Kind::Fat | Kind::Milk | Kind::Dairy | Kind::Fruit | Kind::Water) || line.part().is_some()
    };
    let is_all_sweet = of_flour(sweet) >= ALL_SWEET && !part.lines.iter().any(is_wet);
    let in_oven = |step: &&Step| {
        step.temperature.is_some_and(|(low, _)| low.celsius() <= Number::whole(330))
            && bakes(step)
            && step.later.is_empty()
            && step.kind != StepKind::Wait
    };
    let after = |step: &Step, table: &[(i64, i64)]| {
        let heat = step.temperature.map(|(low, _)| low.celsius());
        heat.is_some_and(|heat| {
            table.iter().any(|(hot, long)| heat >= Number::whole(*hot) && step.time.0 >= minutes(*long))
        })
    };
    let hot = |step: &&Step| {
        let degrees = step.temperature.is_some_and(|(low, _)| low.celsius() >= BURNING);
        in_oven(step)
            && (degrees && step.time.0 >= BLACK_AFTER
                || is_sweet && after(step, SWEET_IS_BLACK)
                || is_all_sweet && after(step, ALL_SWEET_IS_BLACK))
    };
    let is_hotter = |step: &&Step| step.temperature.is_some_and(|(low, _)| low.celsius() >= SCORCHING);
    let step = part.steps.iter().filter(hot).find(|step| is_sweet || is_all_sweet || is_rich && is_hotter(step))?;
    let message = format!(
        "`{}` is at {} for {}, and `{}` is sweet or buttery: it would be black",
        step.name,
        heat::heat(step, show::Units::Metric)?,
        show::duration_range(step.time.0, step.time.1),
        part.name
    );
    Some(
        Diagnostic::advice(CHECK.name, step.span, message)
            .help("look whether a digit of the temperature has slipped, or its unit"),
    )
}

/// What is baked through in so little time is flat. Common practice, no source.
const THROUGH_SOON: Duration = Duration::new(Number::whole(25 * 60));

fn cooled(part: &Part, piece: Mass) -> Option<Diagnostic> {
    if piece > grams(LARGE) {
        let bake = part.steps.iter().position(bakes)?;
        // What is through so soon is flat, whatever it weighs: focaccia in its tray.
        if part.steps.get(bake).is_some_and(|bake| bake.time.1 <= THROUGH_SOON) {
            return None;
        }
        let after: Vec<&Step> = part.steps.iter().skip(bake + 1).collect();
        let cool = after
            .iter()
            .copied()
            .find(|step| cools(step))
            .filter(|cool| cool.time.1 < STILL_HOT && after.len() == 1)?;
        let message = format!(
            "`{}` takes {}, and pieces of {} are hot inside for an hour and more",
            cool.name,
            show::duration_range(cool.time.0, cool.time.1),
            show::mass_plain(piece)
        );
        return Some(
            Diagnostic::advice(CHECK.name, cool.time_span, message).help("look whether a point or a digit has slipped"),
        );
    }
    if piece > grams(SMALL) {
        return None;
    }
    let cools_long = |step: &Step| cools(step) && step.equipment.is_none() && step.time.0 > COLD_AFTER;
    let at = part.steps.iter().position(cools_long)?;
    let cool = part.steps.get(at)?;
    // Jars that were boiled stand for a day before their lids are tried.
    let is_baked = |part: &Part| part.steps.iter().any(bakes);
    if !is_baked(part) && !part.lines.iter().any(|line| line.is_flour && line.stays_in()) {
        return None;
    }
    // A vat that cools is in no pieces yet.
    let portions =
        beginnings!["bottle", "fill", "jar", "pot|", "pots|", "potted|", "ladle", "pour", "divide", "scale", "portion"];
    if part.steps.iter().skip(at + 1).any(|step| called(step, portions)) {
        return None;
    }
    let message = format!(
        "`{}` takes {}, and pieces of {} are cold after {}",
        cool.name,
        show::duration_range(cool.time.0, cool.time.1),
        show::mass_plain(piece),
        show::duration(COLD_AFTER)
    );
    Some(
        Diagnostic::advice(CHECK.name, cool.time_span, message)
            .help("look whether a digit is one too many; where they stand overnight, write another step for it"),
    )
}
