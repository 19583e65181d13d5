//! How much yeast a dough takes for the time that it has, and beside its salt.

use super::CHECK;
use crate::check::dough::{all_flour, inside, mass_of, massed, mille};
use crate::check::odd_ripening::hours_at_25;
use crate::measure::number::Number;
use crate::measure::quantity::{Duration, Mass, Proportion};
use crate::measure::show;
use crate::model::cooking::cooks;
use crate::model::kind::{Kind, YeastForm};
use crate::model::recipe::{Ingredient, Part, PartId, Recipe, Refers};
use crate::model::step::{Step, StepKind};
use crate::model::yeast;
use crate::solve::formula::SolvedPart;
use crate::text::diagnostic::Diagnostic;
use crate::text::quick::QuickMap;

/// So little yeast raises a dough overnight, not in an afternoon.
const SLOW: Proportion = Proportion::new(Number::constant(1, 1000));

const AFTERNOON: Duration = Duration::new(Number::whole(6 * 3600));

/// Less than so much dried or fresh yeast raises no dough in so short a time: a fourth of what a straight dough of an hour and a half takes.
const QUICK_DRY: Proportion = Proportion::new(Number::constant(1, 400));

const QUICK_FRESH: Proportion = Proportion::new(Number::constant(1, 150));

const QUICKLY: Duration = Duration::new(Number::whole(2 * 3600));

/// Percent of instant yeast times hours at 25 °C with which a dough has hardly begun: 1 % for two hours, and 0.1 % over night, are five times as much.
const BEGUN: Number = Number::constant(3, 10);

/// Hours enough for any yeast.
const LONG: Duration = Duration::new(Number::whole(1_000_000));

/// Dried yeast in a dough without fat, sugar and egg that has time to rise: two and a half of a hundred are what fresh yeast would be.
const MUCH_FOR_LEAN: Proportion = Proportion::new(Number::constant(22, 1000));

const HAS_TIME: Duration = Duration::new(Number::whole(75 * 60));

/// Sachets are taken whole: 7 g in Europe and America, 8 in Italy.
const SACHETS: [Mass; 2] = [Mass::new(Number::whole(7)), Mass::new(Number::whole(8))];

pub(super) fn much_for_lean(
    recipe: &Recipe,
    (id, part, solved): (PartId, &Part, &SolvedPart),
    line: &Ingredient,
    mass: Mass,
    flour: Mass,
) -> Option<Diagnostic> {
    let is_dried = matches!(line.kind, Kind::Yeast(Some(YeastForm::ActiveDry | YeastForm::InstantDry)));
    if !is_dried {
        return None;
    }
    let is_one = line.said().first().and_then(|said| said.mass()).is_some_and(|mass| SACHETS.contains(&mass));
    let share = mass.as_share_of(flour).ok().filter(|share| !is_one && *share > MUCH_FOR_LEAN)?;
    let rich = mass_of(part, solved, |line| {
        matches!(line.kind, Kind::Fat | Kind::Egg | Kind::Other) || line.kind.is_sweet() || line.part().is_some()
    })?;
    if rich.as_share_of(flour).ok()? > mille(60) || waits_until_baked(recipe, id, |step| step.time.1)? < HAS_TIME {
        return None;
    }
    let message = format!(
        "{} of the flour is much dried yeast for a lean dough that has time to rise: common practice is up to 1.5 %",
        show::percent(share)
    );
    Some(
        Diagnostic::advice(CHECK.name, line.amount_span, message)
            .help("look whether fresh yeast was meant: of dried yeast it takes a third"),
    )
}

/// How long a dough waits until it is baked, in its own part and on the longest way through those that it goes into; none where no step
/// bakes it.
fn waits_until_baked(recipe: &Recipe, id: PartId, time: fn(&Step) -> Duration) -> Option<Duration> {
    type Known = QuickMap<PartId, Option<Duration>>;
    fn longest(recipe: &Recipe, id: PartId, time: fn(&Step) -> Duration, known: &mut Known) -> Option<Duration> {
        let part = recipe.part(id)?;
        let baked = part.steps.iter().position(cooks);
        let before =
            part.steps.iter().take(baked.unwrap_or(part.steps.len())).filter(|step| step.kind == StepKind::Wait);
        let own = Duration::sum(before.map(time)).ok()?;
        if baked.is_some() {
            return Some(own);
        }
        // Many ways may lead through the same part, and a ring that was reported must not hang.
        if let Some(found) = known.get(&id) {
            return *found;
        }
        known.insert(id, None);
        let most = recipe.users(id).filter_map(|(user, _)| longest(recipe, user, time, known)).max();
        let found = most.and_then(|most| Duration::sum([own, most]).ok());
        known.insert(id, found);
        found
    }
    longest(recipe, id, time, &mut Known::default())
}

/// A trace of yeast in a dough that is baked the same afternoon and has nothing else to raise it.
pub(super) fn too_little_yeast(
    recipe: &Recipe,
    (id, part): (PartId, &Part),
    line: &Ingredient,
    mass: Mass,
    flour: Mass,
) -> Option<Diagnostic> {
    let quick = match line.kind {
        Kind::Yeast(Some(YeastForm::ActiveDry | YeastForm::InstantDry)) => QUICK_DRY,
        Kind::Yeast(_) => QUICK_FRESH,
        _ => return None,
    };
    let share = mass.as_share_of(flour).ok().filter(|share| *share < quick)?;
    // Mashed potato and a scald that are drawn in raise nothing.
    let ferments = |id: PartId| recipe.part(id).is_some_and(|part| part.lines.iter().any(|line| line.kind.ferments()));
    let brings = |line: &Ingredient| match line.refers {
        Refers::Part(other) => inside(recipe, other).into_iter().any(ferments),
        Refers::Pantry(_) => line.kind == Kind::Leaven,
    };
    let alone = !part.lines.iter().any(brings);
    // A trace of it may be meant for the longest that it can stand.
    let time: fn(&Step) -> Duration =
        if share < SLOW { |step| step.up_to.unwrap_or(step.time.1) } else { |step| step.time.1 };
    let waiting = waits_until_baked(recipe, id, time)?;
    let longest = if share < SLOW { AFTERNOON } else { QUICKLY };
    let by_powder =
        part.lines.iter().any(|line| matches!(line.kind, Kind::BakingPowder | Kind::Soda | Kind::RaisingAgent));
    let in_time = waiting <= longest || hardly_begun(recipe, id, line.kind, share);
    if !alone || waiting == Duration::ZERO || !in_time || (share >= SLOW && by_powder) {
        return None;
    }
    let message = format!(
        "{} of yeast on the flour is little for a dough that waits {} in all",
        show::percent(share),
        show::duration(waiting)
    );
    Some(
        Diagnostic::advice(CHECK.name, line.amount_span, message)
            .help("look whether it is meant in percent, or whether a point has slipped"),
    )
}

/// Whether so much yeast does next to nothing in all the time until the bake, as long as it may stand and as warm as it stands there.
fn hardly_begun(recipe: &Recipe, id: PartId, kind: Kind, share: Proportion) -> bool {
    let Some(as_instant) = yeast::as_instant(Mass::new(share.value()), kind) else { return false };
    // What leaves the range of numbers is long enough for any yeast.
    let work = |step: &Step| hours_at_25(step, step.up_to.unwrap_or(step.time.1)).map_or(LONG, Duration::new);
    let Some(hours) = waits_until_baked(recipe, id, work) else { return false };
    let percent = as_instant.value().times(Number::whole(100));
    percent.and_then(|percent| percent.times(hours.value())).is_ok_and(|work| work < BEGUN)
}

/// In a dough without much sugar two white powders are swapped where there is more dried yeast than salt.
pub(super) fn more_yeast_than_salt(part: &Part, solved: &SolvedPart) -> Option<Diagnostic> {
    let of = |is: &dyn Fn(Kind) -> bool| mass_of(part, solved, |line| is(line.kind));
    let dried = |kind| matches!(kind, Kind::Yeast(Some(YeastForm::ActiveDry | YeastForm::InstantDry)));
    let (salt, sweet) = (of(&|kind| kind == Kind::Salt)?, of(&Kind::is_sweet)?);
    let lean = sweet.as_share_of(solved.composition.flour).is_ok_and(|share| share < mille(60));
    if lean && let Some(problem) = yeast_for_salt(part, solved, salt) {
        return Some(problem);
    }
    let (line, yeast) = massed(part, solved).find(|(line, _)| dried(line.kind))?;
    // Too little salt and too much yeast are told by themselves.
    let flour = all_flour(solved);
    let usual = salt.as_share_of(flour).ok()? >= mille(8) && yeast.as_share_of(flour).ok()? <= mille(27);
    if !lean || !usual || yeast <= salt.times(Number::constant(5, 4)).ok()? {
        return None;
    }
    let message = format!(
        "{} of {} beside {} of salt is unusual in a lean dough",
        show::mass_plain(yeast),
        line.name,
        show::mass_plain(salt)
    );
    Some(Diagnostic::advice(CHECK.name, line.amount_span, message).help("look whether the two amounts are swapped"))
}

/// So little salt is unusual, and so much yeast of no form or fresh would be usual salt: either would be right for the other.
fn yeast_for_salt(part: &Part, solved: &SolvedPart, salt: Mass) -> Option<Diagnostic> {
    let flour = all_flour(solved);
    let (line, yeast) =
        massed(part, solved).find(|(line, _)| matches!(line.kind, Kind::Yeast(None | Some(YeastForm::Fresh))))?;
    let (salted, raised) = (salt.as_share_of(flour).ok()?, yeast.as_share_of(flour).ok()?);
    let swapped = salted >= mille(8) && salted <= mille(12) && raised >= mille(17) && raised <= mille(23);
    swapped.then(|| {
        let message = format!(
            "{} of salt beside {} of {} on the flour: that is little salt",
            show::percent(salted),
            show::percent(raised),
            line.name
        );
        Diagnostic::advice(CHECK.name, line.amount_span, message).help("look whether the two amounts are swapped")
    })
}
