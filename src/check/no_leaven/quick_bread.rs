//! Bread that soda or powder raises: where it was forgotten, where there is a trace of it, and where it stands for hours. Common practice, no source.

use super::{CHECK, may_raise, unraised};
use crate::check::Subject;
use crate::check::dough::{has_flour, is_dough, mass_of, massed, mille};
use crate::check::odd_bake_time::piece;
use crate::measure::number::Number;
use crate::measure::quantity::{Duration, Mass, Proportion};
use crate::measure::show;
use crate::model::cooking::cold_words::NOT_WARM;
use crate::model::cooking::{bakes, beginnings, called, chills, cooks, says};
use crate::model::kind::Kind;
use crate::model::recipe::{Ingredient, Part, PartId};
use crate::model::step::{Step, StepKind};
use crate::solve::formula::SolvedPart;
use crate::text::clauses::head_of_name;
use crate::text::diagnostic::Diagnostic;

/// Milk that is sour, with which bread is raised by soda.
fn is_sour_milk(line: &Ingredient) -> bool {
    line.name.has_word_beginning(beginnings![
        "buttermilk",
        "kefir",
        "yogurt",
        "yoghurt",
        "sour milk",
        "soured milk",
        "clabber"
    ])
}

/// Of a loaf, g: what is lighter may be flat.
const LOAF: Mass = Mass::new(Number::whole(300));

pub(super) fn problem(subject: &Subject<'_>, (id, part): (PartId, &Part), solved: &SolvedPart) -> Option<Diagnostic> {
    let recipe = subject.recipe;
    // A batter of corn or oats is no dough, and stands no better.
    let is_dough = is_dough(part, solved);
    if part.from.is_some()
        || subject.fermented().has(id)
        || part.steps.is_empty()
        || !is_dough && !has_flour(solved, 80)
    {
        return None;
    }
    let selfraising =
        |line: &Ingredient| line.name.has_word_beginning(beginnings!["self-rais", "self-ris", "self|", "raising"]);
    if part.lines.iter().any(selfraising) {
        return None;
    }
    let powder = part.lines.iter().find(|line| line.kind.is_chemical_raising() && line.stays_in());
    if let Some(powder) = powder {
        let trace = || if is_dough { trace(subject, part, solved, powder) } else { None };
        return stands(part, solved, powder).or_else(trace);
    }
    if !is_dough {
        return None;
    }
    // A part that it draws on, or what no larder knows, may raise it.
    if part.lines.iter().any(|line| line.part().is_some() || may_raise(line)) {
        return None;
    }
    let bake = part.steps.iter().find(|step| step.kind != StepKind::Wait && bakes(step))?;
    let of_flour =
        |is: &dyn Fn(&Ingredient) -> bool| mass_of(part, solved, is)?.as_share_of(solved.composition.flour).ok();
    let names = [&recipe.name, &part.name];
    let soda = beginnings!["soda|"];
    let is_called_so = names.iter().any(|name| {
        name.has_word_beginning(soda)
            && crate::model::cooking::has_word_beginning(
                head_of_name(name.key.as_str()),
                ["bread", "loaf", "loaves", "farl", "scone", "roll"],
            )
    });
    let is_loaf = || piece(recipe, part).is_some_and(|piece| piece >= LOAF);
    let is_lean = of_flour(&|line| line.kind == Kind::Fat)? < mille(250)
        && of_flour(&|line| line.kind == Kind::Egg)? < mille(300)
        && of_flour(&|line| line.kind.is_sweet())? < mille(250);
    let is_of_sour_milk = of_flour(&is_sour_milk)? >= mille(400);
    let is_one = is_called_so || is_lean && is_of_sour_milk && is_loaf();
    if !is_one {
        return None;
    }
    let what = if is_called_so { "a soda bread by its name" } else { "a bread of flour and sour milk" };
    Some(unraised((part, what), bake, "the soda or the baking powder"))
}

/// Soda raises as much as four times its weight of baking powder; less than so much of that on the flour raises no lean loaf.
const SODA_IS: i64 = 4;
const RAISES: Proportion = Proportion::new(Number::constant(1, 100));
const PIECE: Mass = Mass::new(Number::whole(200));

/// Two grams of soda in a loaf of 400 g of flour.
fn trace(subject: &Subject<'_>, part: &Part, solved: &SolvedPart, powder: &Ingredient) -> Option<Diagnostic> {
    let flour = solved.composition.flour;
    let of_flour = |is: &dyn Fn(&Ingredient) -> bool| mass_of(part, solved, is)?.as_share_of(flour).ok();
    let small = [
        of_flour(&|line| line.kind == Kind::Egg)?,
        of_flour(&|line| line.kind == Kind::Fat)?,
        of_flour(&|line| line.kind.is_sweet())?,
    ];
    let bake = part.steps.iter().find(|step| step.kind != StepKind::Wait && bakes(step))?;
    let is_lean = small.into_iter().all(|share| share <= mille(150));
    if !is_lean || part.lines.iter().any(|line| line.part().is_some() || line.kind == Kind::Other) {
        return None;
    }
    piece(subject.recipe, part).filter(|piece| *piece >= PIECE)?;
    let of_powder = massed(part, solved)
        .filter(|(line, _)| line.kind.is_chemical_raising())
        .map(|(line, mass)| mass.times(Number::whole(if line.kind == Kind::BakingPowder { 1 } else { SODA_IS })));
    let all = Mass::sum(of_powder.collect::<Result<Vec<Mass>, _>>().ok()?).ok()?;
    all.as_share_of(flour).ok().filter(|share| *share < RAISES)?;
    let amount = massed(part, solved).find(|(line, _)| line.span == powder.span)?.1;
    let message = format!(
        "{} of {} on {} of flour do not raise a loaf",
        show::mass_plain(amount),
        powder.name,
        show::mass_plain(flour)
    );
    Some(
        Diagnostic::warning(CHECK.name, powder.amount_span, message)
            .also(bake.name.span, "baked here")
            .help("look whether a point or a digit has slipped; common practice is 0.7 to 1.5 % of soda, or 3 to 5 % of baking powder"),
    )
}

/// So long nothing stands warm that soda raises: it works when it gets wet.
const WORKED: Duration = Duration::new(Number::whole(3 * 3600));

/// A soda bread that stands for five hours before it is baked. Doughs of honey and biscuits, which rise little, do.
fn stands(part: &Part, solved: &SolvedPart, powder: &Ingredient) -> Option<Diagnostic> {
    if !matches!(powder.kind, Kind::Soda | Kind::BakingPowder) {
        return None;
    }
    let sweet = mass_of(part, solved, |line| line.kind.is_sweet())?.as_share_of(solved.composition.flour).ok()?;
    let wet = solved.composition.hydration()?;
    let is_powder = |line: &Ingredient| line.kind.is_chemical_raising();
    let takes = |step: &Step| step.lines_taken().any(|at| part.lines.get(at).is_some_and(is_powder));
    let wetted = part.steps.iter().position(takes)?;
    let heat = part.steps.iter().position(|step| step.kind != StepKind::Wait && cooks(step))?;
    let warm = |step: &Step| {
        !chills(step)
            && !called(step, beginnings!["retard", "overnight"])
            && match step.temperature {
                Some((low, _)) => low.celsius() >= Number::whole(15),
                None => !says(step, NOT_WARM),
            }
    };
    let between = part.steps.get(wetted + 1..heat)?;
    let step = between.iter().find(|step| step.kind == StepKind::Wait && step.time.0 >= WORKED && warm(step))?;
    if sweet >= mille(400) || wet < mille(450) {
        return None;
    }
    let message = format!(
        "`{}` is {} for a dough that {} raises: it works when it gets wet, and is spent by then",
        step.name,
        show::duration_range(step.time.0, step.time.1),
        powder.name
    );
    Some(
        Diagnostic::warning(CHECK.name, step.time_span, message)
            .also(powder.span, "works at once and in the oven")
            .help("look whether a digit or the unit of the time has slipped; what is to stand stands before it goes in, or in the cold"),
    )
}
