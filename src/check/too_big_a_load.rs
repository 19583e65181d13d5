//! `too-big-a-load`: a load that does not fit and cannot be split.

use super::{Check, Family, Run, Subject};
use crate::make::loads;
use crate::measure::number::Number;
use crate::measure::quantity::Mass;
use crate::measure::show;
use crate::model::cooking::{cooks_by_head, is_fried_in};
use crate::model::kitchen::{Capacity, Equipment};
use crate::model::recipe::{Part, PartId};
use crate::model::step::{Loads, Step, Target, Words};
use crate::text::diagnostic::{Diagnostic, Severity};

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "too-big-a-load",
    severity: Severity::Warning,
    family: Family::Kitchen,
    looks_for: "a load, a piece or an unsplittable step that is larger than the equipment holds, what is fried or boiled in if there is not so much room for it, and a batch that is worked in more than fifty loads",
    why: "A batch larger than the mixer's bowl is mixed in equal loads that fit. That is not possible when the step itself \
          says a larger load (`12 at a time` in an oven that holds 8; pieces up to 60 g lie on a tray by more than it is said to hold), when one piece alone is too heavy, or when it \
          follows another step at once (`straight after`, `within`), so that its second load would come too late.",
    bad: "recipe Loaves\nmakes 4 loaves\nuse \"tiny.miche\"\nflour .... 4 kg\nwater .... 2.4 kg\ndivide 4 x 1.6 kg\nmix: hands 10 min\n    \
          Mix {flour} and {water}.\n    until smooth\nbake: tend 40 min, using small oven at 220 C, 4 at a time\n    until brown\n=== tiny.miche ===\nkitchen Tiny kitchen\nsmall oven x 1, holds 2 pieces\n",
    good: "recipe Loaves\nmakes 4 loaves\nuse \"tiny.miche\"\nflour .... 4 kg\nwater .... 2.4 kg\ndivide 4 x 1.6 kg\nmix: hands 10 min\n    \
           Mix {flour} and {water}.\n    until smooth\nbake: tend 40 min, using small oven at 220 C, 2 at a time\n    until brown\n=== tiny.miche ===\nkitchen Tiny kitchen\nsmall oven x 1, holds 2 pieces\n",
    sources: &["common practice, no source"],
    run: Run::Parts(run),
};

fn run(subject: &Subject<'_>, diagnostics: &mut Vec<Diagnostic>) {
    for (id, part, solved) in subject.whole_parts() {
        let each = solved.each.or_else(|| subject.formula.per_piece(subject.recipe, id).ok().flatten());
        for (at, step) in part.steps.iter().enumerate() {
            let equipment = step.equipment.as_ref().and_then(|name| subject.recipe.kitchen.find(name));
            let Some((equipment, holds)) = equipment.and_then(|equipment| Some((equipment, equipment.holds?))) else {
                continue;
            };
            let fits = |size| loads::fits((subject.recipe, id), solved, subject.formula, step, size).unwrap_or(true);
            let load = Load { part, step, equipment, each, fits: &fits };
            diagnostics.extend(load.too_big(holds, || worked_on(subject, id, at)));
            diagnostics.extend(bath(subject, (id, part), (at, step), (equipment, holds)));
        }
    }
}

/// What all loads go through one after the other, filled in once, is more than there is room for.
fn bath(
    subject: &Subject<'_>,
    (id, part): (PartId, &Part),
    (at, step): (usize, &Step),
    (equipment, holds): (&Equipment, Capacity),
) -> Option<Diagnostic> {
    let Capacity::Mass(one) = holds else { return None };
    let most = one.times(Number::whole(i64::from(equipment.count))).ok()?;
    let draws = &subject.formula.part(id)?.draws;
    let over = draws.iter().filter(|draw| draw.step == at).find_map(|draw| {
        let Target::Line(line) = draw.target else { return None };
        let said = part.lines.get(line)?;
        let stays_there = said.strained_out || said.aside && is_fried_in(part, line);
        let mass = draw.drawn.mass.filter(|mass| stays_there && *mass > most)?;
        Some((&said.name, mass))
    });
    let (bath, mass) = over.filter(|_| loads::is_by_pieces(step, &subject.recipe.kitchen))?;
    let there = match equipment.count {
        1 => format!("one `{}` holds {}", equipment.name, show::mass_plain(one)),
        count => format!("{count} of `{}` hold {}", equipment.name, show::mass_plain(most)),
    };
    let message = format!("`{}` fills in {} of `{bath}`, but {there}", step.name, show::mass_plain(mass));
    let span = step.equipment.as_ref().map_or(step.span, |name| name.span);
    let help = "write what is filled in once: all loads go through it, one after the other";
    Some(Diagnostic::warning(CHECK.name, span, message).also(equipment.name.span, "this equipment").help(help))
}

/// What is in the bowl at a step: all that was drawn up to it.
fn worked_on(subject: &Subject<'_>, id: PartId, at: usize) -> Option<Mass> {
    let (part, solved) = (subject.recipe.part(id)?, subject.formula.part(id)?);
    let draws_yet =
        part.steps.iter().take(at + 1).any(|step| step.words.iter().any(|word| matches!(word, Words::Use { .. })));
    let drawn = solved.draws.iter().filter(|draw| draw.step <= at).filter_map(|draw| draw.drawn.mass);
    let drawn = draws_yet.then(|| Mass::sum(drawn).ok()).flatten()?;
    // Once something of it was cooked there is no more than what the part comes to, as the plan has it.
    let is_cooked = part.steps.iter().take(at).any(cooks_by_head);
    Some(solved.makes.filter(|makes| is_cooked && *makes < drawn).unwrap_or(drawn))
}

/// Nobody works a batch in more loads. Common practice, no source.
const MOST_LOADS: Number = Number::whole(50);

struct Load<'a> {
    part: &'a Part,
    step: &'a Step,
    equipment: &'a Equipment,
    each: Option<Mass>,
    /// Whether as many as a step says are a load of what holds so many pieces.
    fits: &'a dyn Fn((Number, Number)) -> bool,
}

impl Load<'_> {
    fn too_big(&self, holds: Capacity, all: impl Fn() -> Option<Mass>) -> Option<Diagnostic> {
        let (name, step) = (&self.equipment.name, &self.step.name);
        let load = match self.step.loads {
            Loads::Of(count) | Loads::EachOf(count) => Some(count),
            Loads::Each => Some(Number::ONE),
            Loads::Once => None,
        };
        let message = match (holds, load) {
            (Capacity::Pieces(most), Some(load)) if !(self.fits)((load, most.value())) => format!(
                "`{step}` loads {} at a time, but one `{name}` holds {}",
                show::count_of(load),
                show::count_of(most.value())
            ),
            (Capacity::Mass(most), Some(load)) => {
                let mass = self.each?.times(load).ok().filter(|mass| *mass > most)?;
                format!(
                    "`{step}` loads {} at a time, but one `{name}` holds {}",
                    show::mass_plain(mass),
                    show::mass_plain(most)
                )
            }
            (Capacity::Mass(most), None)
                if all().is_some_and(|all| most.times(MOST_LOADS).is_ok_and(|most| all > most)) =>
            {
                let loads = all()?.ratio(most).ok()?.ceil();
                format!(
                    "one `{name}` holds {}, so `{step}` cuts {} of `{}` into {} loads",
                    show::mass_plain(most),
                    show::mass_plain(all()?),
                    self.part.name,
                    show::count_of(loads)
                )
            }
            (Capacity::Mass(most), None) => {
                let all = all().filter(|all| *all > most && self.follows_at_once())?;
                format!(
                    "`{step}` works {} of `{}` at once, but one `{name}` holds {}, and a second load would come too late",
                    show::mass_plain(all),
                    self.part.name,
                    show::mass_plain(most)
                )
            }
            _ => return None,
        };
        let span = self.step.equipment.as_ref().map_or(self.step.span, |name| name.span);
        Some(
            Diagnostic::warning(CHECK.name, span, message)
                .also(self.equipment.name.span, "this equipment")
                .help("make smaller loads, a smaller batch, or use larger equipment"),
        )
    }

    fn follows_at_once(&self) -> bool {
        use crate::model::step::Timing;
        let enough = self.equipment.count > 1;
        !enough && self.step.order.iter().any(|order| matches!(order, Timing::StraightAfter(_) | Timing::Within(..)))
    }
}
