//! `odd-ripening`: a preferment that is never left to ripen, or has far too much or too little yeast for its time.

use super::dough::yeast_as_instant;
use super::{Check, Family, Run, Subject, tell};
use crate::measure::number::{Number, Overflow, sum};
use crate::measure::quantity::Duration;
use crate::measure::show::{self, Units};
use crate::model::cooking::cooks;
use crate::model::heat::heat;
use crate::model::lowered::beginnings;
use crate::model::recipe::{Ingredient, Part, PartId};
use crate::model::step::{Step, StepKind};
use crate::solve::formula::SolvedPart;
use crate::text::diagnostic::{Diagnostic, Severity};

mod leaven;

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "odd-ripening",
    severity: Severity::Advice,
    family: Family::Steps,
    looks_for: "a preferment with steps none of which lets it ripen, one whose yeast is far too much or far too little for the time that \
                it is given, or stands far too warm; a levain or sour that ripens in the cold alone, above 37 °C, or for days on one feed",
    why: "A poolish with 0.1 % of instant yeast is ripe after twelve hours at 20 °C; with 1 % it has collapsed by midnight, and after an hour \
          and a quarter it is flour and water. Counted is instant yeast on the flour, in percent, times the hours that it stands, an hour at 20 \
          °C for 0.65 of one at 25 °C and one in the cold for a tenth: from 0.2 to 6 is common (0.1 % for 12 h at 20 °C is 0.8, a sponge with 1 % for 2 h is 2). \
          Three of fresh yeast and one and a quarter of active dry do as much as one of instant. At 33 °C and above a preferment with yeast is spent after four hours. A levain or sour that is fed and ripens in the cold alone, at 7 °C and less for up to two days, \
          has not begun: its yeast does not grow there, nor above 35 °C, and its bacteria not above 41. Without salt it has eaten what it was fed after 26 hours at 25 °C, and after half an hour it has not begun. What is only kept is called `keep` or `retard`. `sums` estimates it better. It is advice: \
          if it is meant so, `# allow odd-ripening: reason` above the step or the part keeps it quiet.",
    bad: "recipe Sticks\npart poolish, from dough\nstrong white flour .... 30 %\nwater .... 30 %\ninstant yeast .... 0.3 %\nstir: \
          hands 4 min\n    Stir {instant yeast} and {strong white flour} into {water}.\nripen: wait 14 h, at 21 C\n    until full of bubbles\npart dough\nstrong white flour \
          .... 10 kg\nwater .... 6.6 kg\nsalt .... 200 g\ninstant yeast .... 50 g\nmix: hands 10 min\n    Mix {poolish}, {water}, {strong white flour}, \
          {salt} and {instant yeast}.\n    until smooth\nrise: wait 1 h, at 24 C\nbake: tend 20 min, using oven at 240 C\n    until brown\n",
    good: "recipe Sticks\npart poolish, from dough\nstrong white flour .... 30 %\nwater .... 30 %\ninstant yeast .... 0.03 %\nstir: \
           hands 4 min\n    Stir {instant yeast} and {strong white flour} into {water}.\nripen: wait 14 h, at 21 C\n    until full of bubbles\npart dough\nstrong white flour \
           .... 10 kg\nwater .... 6.6 kg\nsalt .... 200 g\ninstant yeast .... 50 g\nmix: hands 10 min\n    Mix {poolish}, {water}, {strong white flour}, \
           {salt} and {instant yeast}.\n    until smooth\nrise: wait 1 h, at 24 C\nbake: tend 20 min, using oven at 240 C\n    until brown\n",
    sources: &["common practice, no source; the poolish and sponges of our own checks lie well inside"],
    run: Run::Parts(run),
};

/// Percent of instant yeast times hours at 25 °C.
const LEAST: Number = Number::constant(1, 5);
const MOST: Number = Number::whole(6);
/// The same of one that stands for hours: what works for so long has had its time before the yeast is spent.
const MOST_OF_HOURS: Number = Number::whole(5);
const WEEK: Duration = Duration::days(7);
const HOURS: Duration = Duration::new(Number::whole(6 * 3600));

fn run(subject: &Subject<'_>, diagnostics: &mut Vec<Diagnostic>) {
    for (id, part, _) in subject.whole_parts() {
        tell(diagnostics, leaven::problem(subject, (id, part)));
    }
    for (id, part, solved) in subject.whole_parts().filter(|(_, part, _)| part.from.is_none()) {
        let waits: Vec<&Step> = part.steps.iter().filter(|step| step.kind == StepKind::Wait).collect();
        // A dough of yeast that stands for weeks is `odd-time`.
        let for_weeks = waits.iter().any(|step| step.time.0 >= WEEK);
        let for_hours = Duration::sum(waits.iter().map(|step| step.time.0)).is_ok_and(|total| total >= HOURS);
        if for_hours && !for_weeks && is_set_apart(subject, id, part) {
            tell(diagnostics, far_off(part, solved, &waits, false).or_else(|| hot(part, &waits)));
        }
    }
    for (_, part, solved) in subject.whole_parts().filter(|(_, part, _)| part.from.is_some()) {
        // A seed that is a part of its own works in it as one from the jar does.
        let works =
            |line: &Ingredient| line.kind.ferments() || line.part().is_some_and(|made| subject.fermented().has(made));
        let ferments = part.lines.iter().any(works);
        if !ferments || part.steps.is_empty() || part.name.has_word_beginning(beginnings!["autolyse", "old dough"]) {
            continue;
        }
        let waits: Vec<&Step> = part.steps.iter().filter(|step| step.kind == StepKind::Wait).collect();
        if waits.is_empty() {
            diagnostics.extend(never_ripens(part));
            continue;
        }
        diagnostics.extend(far_off(part, solved, &waits, true).or_else(|| hot(part, &waits)));
    }
}

/// A preferment that is stirred, and taken at once.
fn never_ripens(part: &Part) -> Option<Diagnostic> {
    let message = format!("`{}` is a preferment, and no step lets it ripen", part.name);
    Some(
        Diagnostic::advice(CHECK.name, part.steps.last()?.name.span, message)
            .label("its last step")
            .help("write the step in which it stands, `ripen: wait 12 h, at 20 C`"),
    )
}

/// Whether a part is flour and yeast that stand for hours for a dough: an old dough, a sponge that is written by its own weights.
fn is_set_apart(subject: &Subject<'_>, id: PartId, part: &Part) -> bool {
    let takes_flour = |user: &Part| user.lines.iter().any(|line| line.is_flour && !line.aside);
    part.divide.is_none()
        && part.lines.iter().any(|line| line.kind.is_yeast())
        && part.lines.iter().any(|line| line.is_flour && line.stays_in())
        && !part.steps.iter().any(cooks)
        && subject.recipe.users(id).any(|(user, _)| subject.recipe.part(user).is_some_and(takes_flour))
}

/// What a preferment does, far from what is common: too much, and, where it is taken out of a dough, too little.
fn far_off(part: &Part, solved: &SolvedPart, waits: &[&Step], or_little: bool) -> Option<Diagnostic> {
    let share = yeast_in_percent(part, solved)?;
    let hours = sum(waits.iter().map(|step| hours_at_25(step, step.time.0).unwrap_or(Number::ZERO))).ok()?;
    let longest = sum(waits.iter().map(|step| hours_at_25(step, step.time.1).unwrap_or(Number::ZERO))).ok()?;
    let total = Duration::sum(waits.iter().map(|step| step.time.1)).ok()?;
    let most = if total >= HOURS { MOST_OF_HOURS } else { MOST };
    let much = share.times(hours).ok()? > most;
    let little = or_little && share.times(longest).ok()? < LEAST;
    let longest_wait = waits.iter().max_by_key(|step| step.time.1).filter(|_| much || little)?;
    let message = format!(
        "yeast that does as much as {} % of instant yeast is {} for `{}`, which stands {}",
        share.decimal(2),
        if much { "far too much" } else { "far too little" },
        part.name,
        show::duration(total)
    );
    let yeast = part.lines.iter().find(|line| line.kind.is_yeast())?;
    Some(
        Diagnostic::advice(CHECK.name, longest_wait.time_span, message)
            .also(yeast.amount_span, "the yeast")
            .help("look whether a point or a digit has slipped, in the yeast or in the time"),
    )
}

/// So warm a poolish is sour and its yeast spent, long before its time. °C; common practice, no source.
const HOT: Number = Number::whole(33);
const SPENT: Duration = Duration::new(Number::whole(4 * 3600));

/// A poolish of a night at 38 °C.
fn hot(part: &Part, waits: &[&Step]) -> Option<Diagnostic> {
    let is_hot = |step: &&&Step| step.temperature.is_some_and(|(low, _)| low.celsius() >= HOT) && step.time.0 >= SPENT;
    let step = waits.iter().find(is_hot).filter(|_| part.lines.iter().any(|line| line.kind.is_yeast()))?;
    let message = format!(
        "`{}` stands at {} for {}: its yeast is spent and it is sour long before",
        part.name,
        heat(step, Units::Metric)?,
        show::duration_range(step.time.0, step.time.1)
    );
    Some(
        Diagnostic::advice(CHECK.name, step.time_span, message)
            .help("look whether a digit of the temperature has slipped; preferments ripen at 16 to 28 °C"),
    )
}

/// Its yeast as instant yeast, in percent of its flour; `None` where another culture works in it too.
fn yeast_in_percent(part: &Part, solved: &SolvedPart) -> Option<Number> {
    if part.lines.iter().any(|line| line.kind.ferments() && !line.kind.is_yeast()) {
        return None;
    }
    yeast_as_instant(part, solved)?.as_share_of(solved.composition.flour).ok()?.value().times(Number::whole(100)).ok()
}

/// How many hours at 25 °C a time does as much as: at `from` degrees and more so many hundredths. That is the rule of a tenth more for each
/// degree (1.1 to the power of the degrees from 25 on; common practice, no source) in steps, each at the middle of its degrees. In a refrigerator
/// it stays at a tenth, which is more than yeast grows there: what stands cold is warm when it goes in and when it comes out.
pub(super) fn hours_at_25(step: &Step, time: Duration) -> Result<Number, Overflow> {
    const SPEED: &[(i64, i64)] = &[(29, 150), (26, 120), (23, 90), (20, 65), (17, 50), (13, 30), (9, 20)];
    let celsius = step.temperature.map_or(Number::whole(21), |(low, _)| low.celsius());
    let speed = SPEED.iter().find(|(from, _)| celsius >= Number::whole(*from)).map_or(10, |(_, speed)| *speed);
    time.value().over(Number::whole(3600))?.times(Number::constant(1, 100))?.times(Number::whole(speed))
}
