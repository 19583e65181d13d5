//! `odd-time`: a time that does not suit what is done.

use super::{Check, Family, Run};
use crate::model::cooking::has_word;
use crate::text::diagnostic::{Diagnostic, Severity};
use crate::measure::number::Number;
use crate::measure::quantity::Duration;
use crate::measure::show;
use crate::language::syntax::{Content, StepClause, StepKind, StepLine, Tree};
use crate::language::evaluate::evaluate;

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "odd-time",
    severity: Severity::Advice,
    family: Family::Steps,
    looks_for: "a time far outside common practice for what is done: a bake of 40 hours, a rise of 45 seconds, a chill of 10 minutes",
    why: "`h` for `min` makes a plan that nobody can keep. Common practice: no single step keeps hands busy for more than three \
          hours, or half an hour for one piece; nothing bakes for more than twelve hours; a mixer runs three quarters of an hour at most; a bench rest is over in three hours; doughs \
          rise for ten minutes to three days, in a warm place one day; food is chilled for a quarter of an hour or more and cools for half a day at most; and \
          `up to` is not sixty times the time itself; the longer end of a range is four times the shorter at most. Where it is meant so, `# allow odd-time: reason` above the line keeps \
          it quiet.",
    bad: "recipe Rolls\nflour .... 500 g\nwater .... 300 g\nmix: hands 10 h\n    Mix {flour} and {water}.\n    until smooth\n",
    good: "recipe Rolls\nflour .... 500 g\nwater .... 300 g\nmix: hands 10 min\n    Mix {flour} and {water}.\n    until smooth\n",
    sources: &["common practice, no source"],
    run: Run::Tree(run),
};

const MINUTE: i64 = 60;
const HOUR: i64 = 3600;

/// Steps that wait, by the beginnings of their names, and from how many to how many seconds that is usual.
const WAITS: &[(&[&str], &str, i64, i64)] = &[
    (&["rise", "rising", "prove", "proof", "ferment", "ripen", "bulk"], "doughs rise, prove and ripen", 10 * MINUTE, 72 * HOUR),
    (&["autolyse"], "doughs rest before they are mixed", 2 * MINUTE, 24 * HOUR),
    (&["bench"], "doughs rest on the bench", 2 * MINUTE, 3 * HOUR),
    (&["chill", "freez", "refrigerat"], "food is chilled", 15 * MINUTE, 30 * 24 * HOUR),
    (&["cool"], "food cools", 2 * MINUTE + 1, 12 * HOUR),
];

fn run(tree: &Tree, diagnostics: &mut Vec<Diagnostic>) {
    for line in &tree.lines {
        if let Content::Step(step) = &line.content {
            diagnostics.extend(odd(step));
        }
    }
}

fn odd(step: &StepLine) -> Option<Diagnostic> {
    let said = evaluate(&step.duration, None, &mut Vec::new())?;
    let (low, high) = said.times()?;
    let (what, least, most) = usual(step);
    let up_to = step.clauses.iter().find_map(|clause| match &clause.value {
        StepClause::UpTo(quantity) => evaluate(quantity, None, &mut Vec::new())?.times().map(|(_, most)| (most, clause.span)),
        _ => None,
    });
    let seconds = |seconds: i64| Duration::new(Number::whole(seconds));
    // A step of no time is a mark in the plan.
    if high > Duration::ZERO && (low < seconds(least) || high > seconds(most)) {
        let message = if least > 0 {
            format!("{} is unusual here: {what} from {} to {}", show::duration_range(low, high), show::duration(seconds(least)), show::duration(seconds(most)))
        } else {
            format!("{} is unusual here: {what} for {} at most", show::duration_range(low, high), show::duration(seconds(most)))
        };
        return Some(
            Diagnostic::advice(CHECK.name, step.duration.span, message)
                .help("look whether the unit is right, s, min or h, and whether a digit has slipped"),
        );
    }
    if low > Duration::ZERO && high.ratio(low).is_ok_and(|times| times > Number::whole(4)) {
        let message = format!("{} is a wide range: nobody can plan with it", show::duration_range(low, high));
        return Some(
            Diagnostic::advice(CHECK.name, step.duration.span, message)
                .help("look whether digits are swapped; how long it may go on without harm is said with `up to`"),
        );
    }
    let (longest, span) = up_to?;
    let times = longest.ratio(high).ok().filter(|times| *times >= Number::whole(60))?;
    let message = format!("`up to` {} is {} times the step's own {}", show::duration(longest), times.decimal(0), show::duration(high));
    Some(
        Diagnostic::advice(CHECK.name, step.duration.span, message)
            .also(span, "may go on so long")
            .help("look whether the unit of the time is right, s, min or h"),
    )
}

/// What is usual for a step, from and to in seconds.
fn usual(step: &StepLine) -> (&'static str, i64, i64) {
    let name = step.name.key.as_str();
    let uses = |word: &str| {
        step.clauses.iter().any(|clause| matches!(&clause.value, StepClause::Using(name, ..) if has_word(name.key.as_str(), &[word])))
    };
    let each = step.clauses.iter().any(|clause| clause.value == StepClause::Each);
    match step.kind.value {
        StepKind::Wait => {
            let known = WAITS.iter().find(|(words, ..)| has_word(name, words));
            let warm = step.clauses.iter().any(|clause| is_warm(&clause.value));
            let day = 24 * HOUR;
            known.map_or(("steps wait", 0, 90 * day), |(_, what, least, most)| {
                (*what, *least, if warm { (*most).min(day) } else { *most })
            })
        }
        _ if uses("mixer") => ("mixers run", 0, 45 * MINUTE),
        StepKind::Tend if uses("oven") => ("ovens bake", 0, 12 * HOUR),
        StepKind::Tend => ("such a step is tended", 0, 24 * HOUR),
        StepKind::Hands if each => ("one piece keeps hands busy", 0, HOUR / 2),
        StepKind::Hands => ("one step keeps hands busy", 0, 3 * HOUR),
    }
}

/// Whether a step stands where a dough works fast.
fn is_warm(clause: &StepClause) -> bool {
    let (StepClause::At(at) | StepClause::Using(_, at, _)) = clause else { return false };
    let said = at.first().and_then(|quantity| evaluate(quantity, None, &mut Vec::new()));
    said.and_then(|said| said.temperature()).is_some_and(|temperature| temperature.celsius() >= Number::whole(18))
}
