//! `no-sign`: cooking by the clock alone.

use super::dough::is_batter;
use super::{Check, Family, Run, Subject};
use crate::measure::quantity::Duration;
use crate::model::cooking::rests::{PROVES, RISES};
use crate::model::cooking::{
    Beginnings, bakes, beginnings, called, chills, has_word_beginning, is_hot, says, words_of,
};
use crate::model::recipe::{Part, PartId, Recipe};
use crate::model::step::{Step, StepKind, Words};
use crate::text::diagnostic::{Diagnostic, Severity};

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "no-sign",
    severity: Severity::Warning,
    family: Family::Steps,
    looks_for: "a cooking step that has a time and no sign by which it is done; a mix of a raised dough, or a leaven that ripens, without one; a last \
                prove without one where the rise has one",
    why: "Ovens differ, trays differ, and the time in a recipe was measured in one of them. Say what is seen, felt or \
          measured when it is done: a line below the step that begins `until `. A temperature in the middle, such as \
          `{94 C}`, is a sign as well. For mixing, ripening and proving it is advice.",
    bad: "recipe Rolls\nflour .... 500 g\nwater .... 300 g\nmix: hands 10 min\n    Mix {flour} and {water}.\n\
          bake: tend 15-17 min, using oven at 220 C\n",
    good: "recipe Rolls\nflour .... 500 g\nwater .... 300 g\nmix: hands 10 min\n    Mix {flour} and {water}.\n\
           bake: tend 15-17 min, using oven at 220 C\n    until gold on top and coloured underneath\n",
    sources: &[
        "Food & Nutrition (Academy of Nutrition and Dietetics), From Kitchen to Keyboard, Nov/Dec 2013: a cue besides the time",
        "Safe Recipe Style Guide, Partnership for Food Safety Education, 2019: temperatures by thermometer",
    ],
    run: Run::Parts(run),
};

/// Steps that only keep warm what is done already.
const KEEPS_WARM: &Beginnings = &Beginnings::of(&["hold", "keep", "warm", "preheat", "heat", "serve"]);

fn run(subject: &Subject<'_>, diagnostics: &mut Vec<Diagnostic>) {
    for (id, part, _) in subject.own_parts() {
        // What is stirred together and ripens is no dough, and never smooth and elastic.
        let ripens = |step: &Step| step.kind == StepKind::Wait && called(step, beginnings!["ripen", "ferment", "sour"]);
        let is_build = part.divide.is_none()
            && part.steps.iter().any(ripens)
            && !part.steps.iter().any(|step| called(step, RISES) || called(step, PROVES));
        let is_stirred = |step: &Step| is_build && step.kind == StepKind::Hands && !called(step, beginnings!["knead"]);
        // What is poured is stirred until it is one, what was baked ripens by the calendar, and what goes on in the cold is not ripe yet.
        let is_poured = |step: &Step| step.kind == StepKind::Hands && is_batter(part);
        let goes_on = |step: &Step| {
            let mut before = part.steps.iter().take_while(|other| other.span != step.span);
            let next = part.steps.iter().skip_while(|other| other.span != step.span).nth(1);
            let is_cooler =
                |next: &Step| next.kind == StepKind::Wait && (chills(next) || called(next, beginnings!["cool"]));
            step.kind == StepKind::Wait && (before.any(bakes) || next.is_some_and(is_cooler))
        };
        for step in part.steps.iter().filter(|step| {
            ends_by_feel(step) && !is_stirred(step) && !is_poured(step) && !goes_on(step) && is_dough(subject, id, part)
        }) {
            let what = if step.kind == StepKind::Wait { "ripe" } else { "mixed" };
            diagnostics.push(
                Diagnostic::advice(
                    CHECK.name,
                    step.name.span,
                    format!("`{}` does not say how one sees that the dough is {what}", step.name),
                )
                .label("done when?")
                .help(if what == "ripe" {
                    "write what is seen below it, `until domed, and just beginning to sink`"
                } else {
                    "write what is seen or felt below it, `until smooth and elastic`"
                }),
            );
        }
        if let Some(step) =
            part.steps.iter().find(|step| proves_by_clock(subject.recipe, part, step) && subject.fermented().has(id))
        {
            let message = format!(
                "`{}` does not say how one sees that the dough is proved, as the rise before it does",
                step.name
            );
            diagnostics.push(
                Diagnostic::advice(CHECK.name, step.name.span, message)
                    .label("done when?")
                    .help("write what is seen or felt below it, `until a finger's dent stays`"),
            );
        }
        for step in part.steps.iter().filter(|step| wants_cue(step)) {
            diagnostics.push(
                Diagnostic::warning(
                    CHECK.name,
                    step.name.span,
                    format!("`{}` has a time, but no sign by which it is done", step.name),
                )
                .label("done when?")
                .help(match sign_of(step) {
                    Some(sign) => format!("write what is seen or felt below it, `{sign}`"),
                    None => "write below it what is seen, felt, heard or measured when it is done, after the word `until`: a colour, a thickness, a temperature as `{80 C}`".to_owned(),
                }),
            );
        }
    }
}

/// What is seen when something is done, by what is done to it.
const SIGNS: &[(&Beginnings, &str)] = &[
    (beginnings!["melt", "dissolv", "bloom"], "until clear"),
    (beginnings!["poach", "blanch"], "until they float"),
    (beginnings!["boil", "scald"], "until it boils all over"),
    (beginnings!["simmer", "stew", "brais", "cook"], "until tender"),
    (beginnings!["blind"], "until dry and pale gold"),
    (beginnings!["whisk", "whip", "churn"], "until it holds its shape"),
    (beginnings!["fry", "sear", "brown", "toast", "grill", "griddle"], "until golden on both sides"),
    (beginnings!["dry", "dehydrat"], "until it snaps"),
    (beginnings!["steam"], "until it springs back"),
    (beginnings!["roast"], "until brown, and a skewer goes in easily"),
    (beginnings!["reduc", "thicken"], "until it coats a spoon"),
    (beginnings!["mix", "knead"], "until smooth and elastic"),
];

/// None where nobody here knows what is done.
fn sign_of(step: &Step) -> Option<&'static str> {
    let known = SIGNS.iter().find(|(words, _)| called(step, words)).map(|(_, sign)| *sign);
    let baked = || (bakes(step) || called(step, beginnings!["bak"])).then_some("until deep gold and light when lifted");
    known.or_else(baked)
}

/// Whether what is done is its own sign: water that is brought to the boil boils, and what is dissolved or melted is gone.
fn is_its_own_sign(step: &Step) -> bool {
    let words = words_of(step);
    ["to the boil", "to a boil", "to a simmer", "to boiling", "just boils"].iter().any(|said| words.contains(said))
        || called(step, beginnings!["melt", "dissolv"])
}

/// Whether a part is a raised dough that is not baked yet: what was baked in a part of its own ripens as a cake does.
fn is_dough(subject: &Subject<'_>, id: PartId, part: &Part) -> bool {
    let own = || part.lines.iter().any(|line| line.is_flour && line.stays_in() || line.kind.ferments());
    let drawn = || part.lines.iter().filter_map(|line| subject.recipe.part(line.part()?));
    subject.fermented().has(id)
        && (own() || drawn().next().is_none() || drawn().any(|made| !made.steps.iter().any(bakes)))
}

/// A dough raised with yeast or leaven is mixed until it is smooth, and a leaven ripens until it is ripe: flour and warmth of
/// the day count for more than the clock.
fn ends_by_feel(step: &Step) -> bool {
    let worked = step.kind == StepKind::Hands && called(step, beginnings!["mix", "knead"]);
    let ripens = step.kind == StepKind::Wait && called(step, beginnings!["ripen"]);
    let described = || {
        says(
            step,
            beginnings![
                "smooth", "stiff", "elastic", "even", "rough", "shaggy", "together", "soft", "firm", "combined"
            ],
        )
    };
    (worked || ripens) && step.time.1 > Duration::ZERO && step.cue.is_empty() && !says_when(step) && !described()
}

/// A last prove by the clock alone in a recipe that says of the rise, or of another such prove, how one sees that it is done: the
/// line was lost.
fn proves_by_clock(recipe: &Recipe, part: &Part, step: &Step) -> bool {
    let is = |step: &Step, names: &Beginnings| step.kind == StepKind::Wait && called(step, names);
    let silent = || step.time.1 > Duration::ZERO && step.cue.is_empty() && !says_when(step);
    let mut below = part.steps.iter().skip_while(|other| other.span != step.span).skip(1);
    let mut last = || {
        below.any(is_hot)
            && !part.steps.iter().skip_while(|other| other.span != step.span).skip(1).any(|other| is(other, PROVES))
    };
    let others = || recipe.parts().flat_map(|(_, part)| &part.steps).filter(|other| other.span != step.span);
    is(step, PROVES)
        && !chills(step)
        && silent()
        && last()
        && others().any(|other| (is(other, RISES) || is(other, PROVES)) && !other.cue.is_empty())
}

fn wants_cue(step: &Step) -> bool {
    let cooks = step.kind == StepKind::Tend || (is_hot(step) && step.kind == StepKind::Hands);
    cooks
        && step.time.1 > Duration::ZERO
        && step.cue.is_empty()
        && !called(step, KEEPS_WARM)
        // Closed jars stand in boiling water by the clock.
        && !called(step, beginnings!["process", "pasteuri", "sterili"])
        && !says_when(step)
        && !is_its_own_sign(step)
}

/// Whether the prose itself says a temperature, or until or when.
fn says_when(step: &Step) -> bool {
    step.words.iter().any(|word| match word {
        Words::Measure(_) => word.temperature().is_some(),
        Words::Text(text) => has_word_beginning(&text.to_lowercase(), ["until", "when"]),
        Words::Use { .. } => false,
    })
}
