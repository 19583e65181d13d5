//! `times-do-not-add-up`: the times in the prose of a step against the step's own.

use super::{Check, Family, Run, Subject, tell};
use crate::measure::number::Number;
use crate::measure::quantity::Duration;
use crate::measure::show;
use crate::measure::value::Value;
use crate::model::lowered::beginnings;
use crate::model::recipe::Recipe;
use crate::model::step::{Loads, Step, Timing, Words};
use crate::text::diagnostic::{Diagnostic, Severity};
use crate::text::source::Span;

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "times-do-not-add-up",
    severity: Severity::Warning,
    family: Family::Steps,
    looks_for: "times in the prose of a step that together are longer than the step, a step that is longer than the one `during` which it is done, `a side` of a step that takes four times both, and a dough that is mixed for seconds",
    why: "The plan is made from the time in the head of the step; the baker at the mixer goes by the prose. If `mix: hands \
          10 min` asks for 4 and 8 minutes, the plan is two minutes short every time. A time after `after`, `for the \
          first`, `for the last`, `within` or `every` runs beside the others and only has to fit in itself.",
    bad: "recipe Rolls\nflour .... 500 g\nwater .... 300 g\nmix: hands 10 min\n    Mix {flour} and {water}, {4 min} on low and \
          {8 min} on medium.\n    until smooth\n",
    good: "recipe Rolls\nflour .... 500 g\nwater .... 300 g\nmix: hands 12 min\n    Mix {flour} and {water}, {4 min} on low and \
           {8 min} on medium.\n    until smooth\n",
    sources: &["Virginia Cooperative Extension FST-155NP, How to Write a Recipe: total time is the sum of its times"],
    run: Run::Parts(run),
};

/// Words before a time that make it a moment within the step, not a stretch of it.
const BESIDE: &[&str] =
    &["after", "first", "last", "final", "within", "every", "next", "at", "than", "to", "until", "before", "or", "of"];

/// A time in the prose.
struct Stretch<'s> {
    time: Duration,
    span: Span,
    beside: bool,
    /// The words before it.
    before: &'s str,
}

fn run(subject: &Subject<'_>, diagnostics: &mut Vec<Diagnostic>) {
    for (_, part, _) in subject.own_parts() {
        for step in &part.steps {
            tell(
                diagnostics,
                too_long(step)
                    .or_else(|| held_longer(step))
                    .or_else(|| far_from_its_sides(step))
                    .or_else(|| mixed_for_seconds(step)),
            );
            tell(diagnostics, longer_than_its_host(subject.recipe, step));
        }
    }
}

/// What is done `during` another step begins no sooner and is over no later than that.
fn longer_than_its_host(recipe: &Recipe, step: &Step) -> Option<Diagnostic> {
    let host = step.order.iter().find_map(|order| match order {
        Timing::During(host) => recipe.part(host.part)?.steps.get(host.step),
        _ => None,
    })?;
    // What is done in several loads takes as long as all of them.
    let is_cut = |step: &Step| {
        let equipment = step.equipment.as_ref().and_then(|name| recipe.kitchen.find(name));
        step.loads != Loads::Once || equipment.is_some_and(|equipment| equipment.holds.is_some())
    };
    let most = host.up_to.unwrap_or(host.time.1).max(host.time.1);
    if is_cut(step) || is_cut(host) || step.shared_by > 1 || host.shared_by > 1 || step.time.0 <= most {
        return None;
    }
    let message = format!(
        "`{}` takes {} and is done during `{}`, which takes {}",
        step.name,
        show::duration_range(step.time.0, step.time.1),
        host.name,
        show::duration(most)
    );
    Some(
        Diagnostic::warning(CHECK.name, step.time_span, message)
            .also(host.time_span, "that step's time")
            .help("say when else it is done, `before` or `after` another step; or look whether a time has slipped"),
    )
}

/// A dough is mixed and kneaded for minutes, a machine's whole work is none of it done in so few seconds. Common practice, no source.
const SECONDS: Duration = Duration::new(Number::whole(20));

/// `{10 s} on low` of a mix of 12 min, and `knead {8 s}`.
fn mixed_for_seconds(step: &Step) -> Option<Diagnostic> {
    if !step.name.has_word_beginning(beginnings!["mix", "knead"]) || step.time.0 < Duration::minutes(4) {
        return None;
    }
    let text = |at: Option<usize>| match at.and_then(|at| step.words.get(at)) {
        Some(Words::Text(text)) => text.to_lowercase(),
        _ => String::new(),
    };
    step.words.iter().enumerate().find_map(|(at, word)| {
        let Words::Measure(said) = word else { return None };
        let first = said.first()?;
        let (_, most) = first.times()?;
        if most > SECONDS {
            return None;
        }
        let behind = text(at.checked_add(1));
        let before = text(at.checked_sub(1));
        let at_speed =
            ["on low", "on slow", "on first", "on second", "on medium", "on high", "on fast", "slow", "fast"];
        let is_mixed = at_speed.iter().any(|said| behind.trim_start().starts_with(said))
            || ["knead", "mix", "knead for", "mix for"].iter().any(|said| before.trim_end().ends_with(said));
        if !is_mixed {
            return None;
        }
        let message = format!(
            "`{}` takes {}, and its prose works the dough for {}",
            step.name,
            show::duration(step.time.0),
            show::duration(most)
        );
        Some(
            Diagnostic::warning(CHECK.name, first.span, message)
                .also(step.time_span, "its time")
                .help("look whether the unit is right, s or min"),
        )
    })
}

/// What is done to a piece on both sides takes twice the time; from so many times that on the step's own time has slipped.
const FAR: Number = Number::whole(4);

/// `boil: tend 20 min, 8 at a time`, and the prose says {1 min} a side. Without loads the time is for all of them, one after the other.
fn far_from_its_sides(step: &Step) -> Option<Diagnostic> {
    if !matches!(step.loads, Loads::Of(_) | Loads::Each) || step.time.0 != step.time.1 {
        return None;
    }
    let sides = |(at, word): (usize, &Words)| {
        let Words::Measure(said) = word else { return None };
        let first = said.first()?;
        let Value::Time(time) = first.value else { return None };
        let Some(Words::Text(behind)) = step.words.get(at + 1) else { return None };
        let behind = behind.trim_start().to_lowercase();
        ["a side", "each side", "per side", "on each side"]
            .iter()
            .any(|said| behind.starts_with(said))
            .then_some((time, first.span))
    };
    // Where another time is said, each side is only some of what is done.
    let is_time =
        |word: &&Words| matches!(word, Words::Measure(said) if said.first().is_some_and(|said| said.times().is_some()));
    if step.words.iter().filter(is_time).count() != 1 {
        return None;
    }
    let (time, span) = step.words.iter().enumerate().find_map(sides)?;
    let both = time.times(Number::whole(2)).ok()?;
    if step.time.0 < both.times(FAR).ok()? {
        return None;
    }
    let own = show::duration_range(step.time.0, step.time.1);
    let message = format!(
        "`{}` takes {own} a load, and its prose {} a side, {} for both",
        step.name,
        show::duration(time),
        show::duration(both)
    );
    Some(
        Diagnostic::warning(CHECK.name, step.time_span, message)
            .also(span, "on one side")
            .help("look whether a digit of either time has slipped"),
    )
}

fn too_long(step: &Step) -> Option<Diagnostic> {
    let longest = step.up_to.unwrap_or(step.time.1).max(step.time.1);
    // A step whose time was reported lasts no time.
    if longest <= Duration::ZERO {
        return None;
    }
    let stretches = stretches(step);
    let added = stretches.iter().filter(|stretch| !stretch.beside);
    let sum = Duration::sum(added.clone().map(|stretch| stretch.time)).ok()?;
    let single = stretches.iter().find(|stretch| stretch.time > longest && !begins(step, stretch.before));
    if single.is_none() && sum <= longest {
        return None;
    }
    let own = show::duration_range(step.time.0, step.time.1);
    let (message, main) = if let Some(single) = single {
        (format!("`{}` takes {own}, but its prose asks for {}", step.name, show::duration(single.time)), single)
    } else {
        let parts: Vec<String> = added.clone().map(|stretch| show::duration(stretch.time).to_string()).collect();
        let over = sum.minus(longest).ok()?;
        let message = format!(
            "`{}` takes {own}, but its prose asks for {}, {} in all: {} too long",
            step.name,
            show::list(&parts),
            show::duration(sum),
            show::duration(over)
        );
        (message, added.clone().next_back()?)
    };
    Some(Diagnostic::warning(CHECK.name, main.span, message).also(step.time_span, format!("{own} here")).help(format!(
        "give the step at least {}, or correct the times in the prose",
        show::duration(sum.max(main.time))
    )))
}

/// A sign that is held for longer than the whole step: `until {70 C}, held for {10 min}` of a step of 6.
fn held_longer(step: &Step) -> Option<Diagnostic> {
    let longest = step.up_to.unwrap_or(step.time.1).max(step.time.1);
    let held = step.cue.windows(2).find_map(|two| {
        let [Words::Text(before), Words::Measure(said)] = two else { return None };
        let first = said.first()?;
        let (time, _) = first.times()?;
        let before = before.to_lowercase();
        let is_held = ["held for", "hold for", "held at least", "held", "for at least", "kept there for"];
        let is_held = is_held.iter().any(|said| before.trim_end().ends_with(said));
        (is_held && time > longest && longest > Duration::ZERO).then_some((time, first.span))
    });
    let (time, span) = held?;
    let own = show::duration_range(step.time.0, step.time.1);
    let message = format!("`{}` takes {own}, but its sign is held for {}", step.name, show::duration(time));
    Some(
        Diagnostic::warning(CHECK.name, span, message)
            .also(step.time_span, format!("{own} here"))
            .help(format!("give the step at least {}, or correct the time in the sign", show::duration(time))),
    )
}

/// The times in the prose, in order.
fn stretches(step: &Step) -> Vec<Stretch<'_>> {
    let mut list = Vec::new();
    let mut before = "";
    for word in &step.words {
        match word {
            Words::Text(text) => before = text,
            Words::Use { .. } => before = "",
            Words::Measure(said) => {
                if let Some(first) = said.first()
                    && let Value::Time(time) = first.value
                {
                    list.push(Stretch { time, span: first.span, beside: is_beside(before), before });
                }
            }
        }
    }
    list
}

/// Whether the words before a time are the step's own verb and `after`, `Fold after {45 min}` below `fold`: then it is how long the
/// dough stood before it.
fn begins(step: &Step, before: &str) -> bool {
    let sentence = before.rsplit(['.', ';', ':', '!']).next().unwrap_or("").to_lowercase();
    let words: Vec<&str> = sentence.split_whitespace().collect();
    let (Some((last, said)), Some(first)) = (words.split_last(), words.first()) else { return false };
    let own = step.name.key.as_str().split(' ').any(|word| first.starts_with(word) || word.starts_with(first));
    ["after", "every"].contains(last) && own && said.len() <= 4
}

fn is_beside(before: &str) -> bool {
    let last = before.split_whitespace().next_back().unwrap_or("").to_lowercase();
    BESIDE.contains(&last.trim_matches(|c: char| !c.is_alphanumeric()))
}
