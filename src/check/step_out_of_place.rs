//! `step-out-of-place`: steps in an order in which no dough is made.

use super::{Check, Family, Run, Subject, tell};
use crate::model::cooking::heat_words::{COOKS, WARM};
use crate::model::cooking::rests::{PROVES, RISES};
use crate::model::cooking::{
    Beginnings, bakes, beginnings, called, chills, cooks, cooks_by_head, has_word_beginning, says, steps_called,
    words_of,
};
use crate::model::kind::Kind;
use crate::model::recipe::{Ingredient, Part, PartId, Recipe, Refers};
use crate::model::step::{Step, StepKind, Take, Target, Timing, Words};
use crate::text::diagnostic::{Diagnostic, Severity};
use crate::text::quick::QuickMap;
use crate::text::source::Span;

/// The check and its explanation.
pub(super) const CHECK: Check = Check {
    name: "step-out-of-place",
    severity: Severity::Warning,
    family: Family::Steps,
    looks_for: "a dough that rises before it is mixed, is shaped after it was baked, or is proved before it is shaped; the rest of \
                something that is taken before the first of it",
    why: "A step follows the one above it, on the card and in the plan. What was moved to the wrong place by an editor's key is \
          done there. Looked at: a wait before anything was taken; mixing, rising, shaping and proving after the last bake; a \
          prove before the shaping and none after it; two rises or rests with nothing between them; cooling after a chill; a second \
          rest above the first; an autolyse after the mix; a bench \
          rest before anything was cut; cooling before anything was hot, or right before the only bake; serving, and holding hot, before the \
          cooking; laying on trays and into tins, and cutting what was baked by the piece, after the last bake; cutting out before rolling out; what is done to each piece above the step that takes the flour; peeling and trimming what was taken already; a step that is written \
          above the one it comes after; a bake or a fry above the step that takes what is baked; filling and sugaring pieces above the step that cooks them; and `{rest of x}` above the step that takes the first of x. One table says what each act presupposes: bagels are boiled before \
          they bake, a paste is piped and a dough rolled out before the heat, leaven is in before a rise, pieces come after the bulk, an ice cream is \
          churned cold and hard after that, jars are filled when their jam is cooked, cream goes on what has cooled, white is whisked before it is folded in. Steps that say their own \
          order are left alone but where they are written on the wrong side of the step that they name.",
    bad: "recipe Rolls\nflour .... 500 g\nwater .... 300 g\nrise: wait 1 h\nmix: hands 10 min\n    Mix {flour} and {water}.\n    \
          until smooth\n",
    good: "recipe Rolls\nflour .... 500 g\nwater .... 300 g\nmix: hands 10 min\n    Mix {flour} and {water}.\n    until smooth\n\
           rise: wait 1 h\n",
    sources: &["common practice, no source"],
    run: Run::Parts(run),
};

mod follows;
mod stages;

use follows::above_what_it_follows;

const MIXES: &Beginnings = &Beginnings::of(&["mix", "knead"]);
const SHAPES: &Beginnings = &Beginnings::of(&["shape", "shaping", "mould", "plait", "braid"]);
const CUTS: &Beginnings =
    &Beginnings::of(&["cut", "divide", "scale", "round", "preshape", "pre-shape", "weigh", "portion", "shape", "ball"]);
const COOLS: &Beginnings = &Beginnings::of(&["cool", "cooling"]);

fn run(subject: &Subject<'_>, diagnostics: &mut Vec<Diagnostic>) {
    for (id, part, _) in subject.own_parts() {
        let baked = last_bake(part);
        // One step in the wrong place breaks several of these; the first says enough.
        let first = waits_for_nothing(subject.recipe, id, part);
        let problem = after_the_bake(part, baked)
            .or_else(|| proved_before_shaped(part))
            .or_else(|| two_rises(part))
            .or_else(|| chilled_before_cooled(part))
            .or_else(|| second_before_first(part))
            .or_else(|| rested_before(part))
            .or_else(|| cools_what_is_cold(subject, part))
            .or_else(|| served_before_cooked(part))
            .or_else(|| laid_out_after_the_bake(part, baked))
            .or_else(|| cools_before_the_bake(part))
            .or_else(|| trimmed_after_taken(part))
            .or_else(|| cut_before_rolled(part))
            .or_else(|| divided_before_made(part))
            .or_else(|| pieces_baked_before_cut(part, baked))
            .or_else(|| held_before_cooked(part))
            .or_else(|| super::heated_empty::problem(subject.recipe, CHECK.name, part))
            .or_else(|| stages::before_its_time(subject.recipe, part));
        // A second one is told where it speaks of other steps.
        let speaks_of = |problem: &Diagnostic, span: Span| {
            problem.span == span || problem.also.iter().any(|also| also.span == span)
        };
        let is_other = |problem: &Diagnostic| first.as_ref().is_none_or(|first| !speaks_of(problem, first.span));
        let problem = problem.filter(is_other);
        diagnostics.extend(first.into_iter().chain(problem));
        tell(diagnostics, above_what_it_follows(id, part).or_else(|| stages::below_what_it_precedes(id, part)));
        tell(diagnostics, rest_before_share(part));
    }
}

/// Steps that are done where they stand.
fn in_place(part: &Part) -> impl Iterator<Item = (usize, &Step)> {
    part.steps.iter().enumerate().filter(|(_, step)| step.order.is_empty())
}

/// Those of them that are called this.
fn called_in_place<'p>(
    part: &'p Part,
    names: &'static Beginnings,
) -> impl DoubleEndedIterator<Item = (usize, &'p Step)> {
    steps_called(part, names).filter(|(_, step)| step.order.is_empty())
}

fn takes(step: &Step) -> bool {
    step.words.iter().any(|word| matches!(word, Words::Use { .. }))
}

fn problem(step: &Step, other: &Step, message: String, label: &str, help: &str) -> Diagnostic {
    Diagnostic::warning(CHECK.name, step.name.span, message).also(other.name.span, label.to_owned()).help(help)
}

/// The first step waits, and what it waits for is only taken in a later one.
fn waits_for_nothing(recipe: &Recipe, id: PartId, part: &Part) -> Option<Diagnostic> {
    let first =
        part.steps.first().filter(|step| step.order.is_empty() && step.kind == StepKind::Wait && !takes(step))?;
    let soaks = called(first, beginnings!["soak"]) && !first.words.is_empty();
    if called(first, beginnings!["preheat", "heat", "warm", "soften", "temper", "thaw", "defrost"]) || soaks {
        return None;
    }
    // What is done beside another part's step still comes before this rest, if it is the first to touch anything.
    let beside =
        |step: &Step| step.order.iter().all(|order| matches!(order, Timing::During(other) if other.part != id));
    let later = part.steps.iter().skip(1).find(|step| takes(step) && beside(step))?;
    // Pieces that were shaped in a part of their own prove before anything is piped on them.
    let shaped = |line: &Ingredient| matches!(line.refers, Refers::Part(of) if recipe.part(of).is_some_and(|part| part.divide.is_some()));
    if part.per_piece
        && (called(first, PROVES) || called(first, beginnings!["rest", "chill", "stand", "thaw"]))
        && part.lines.iter().any(shaped)
    {
        return None;
    }
    // Pieces that came from another part stand before they are brushed.
    let from_parts = part.lines.iter().any(|line| matches!(line.refers, Refers::Part(_)));
    let takes_part =
        later.lines_taken().any(|at| part.lines.get(at).is_some_and(|line| matches!(line.refers, Refers::Part(_))));
    if from_parts && !takes_part {
        return None;
    }
    let message = format!("`{}` stands first, before anything of `{}` was taken", first.name, part.name);
    Some(problem(first, later, message, "taken here", &format!("move it below `{}`", later.name)))
}

/// Mixing, rising, shaping and proving after the last heat.
fn after_the_bake(part: &Part, baked: Option<(usize, &Step)>) -> Option<Diagnostic> {
    let (last, bake) = baked?;
    let rest = || part.steps.iter().skip(last + 1);
    let late = rest().filter(|step| step.order.is_empty());
    let late = late
        .filter(|step| {
            [MIXES, RISES, PROVES, SHAPES].iter().any(|words| called(step, words))
                || called(step, beginnings!["score", "slash", "rub", "enclose", "roll out"])
        })
        .find(|step| !called(step, beginnings!["cool", "ic", "glaz", "cream", "syrup", "fill", "topping"]))?;
    let message = format!("`{}` comes after `{}`, and nothing is baked after it", late.name, bake.name);
    Some(problem(late, bake, message, "baked here", &format!("move it above `{}`", bake.name)))
}

/// A prove before the shaping, and none after it.
fn proved_before_shaped(part: &Part) -> Option<Diagnostic> {
    let bulk = |step: &Step| called(step, beginnings!["bulk", "first", "pre", "intermediate"]);
    let (at, prove) = called_in_place(part, PROVES).rfind(|(_, step)| !bulk(step))?;
    let (_, shape) = in_place(part).skip(at + 1).find(|(later, step)| *later > at && called(step, SHAPES))?;
    let message = format!("`{}` comes before `{}`, and nothing is proved after it", prove.name, shape.name);
    let help = format!("move it below `{}`; if the whole dough rises here, call it `rise`", shape.name);
    Some(problem(prove, shape, message, "shaped here", &help))
}

/// Two rises, or two chills, one after the other, with no hand on the dough between them.
fn two_rises(part: &Part) -> Option<Diagnostic> {
    let rises = |step: &Step| {
        step.kind == StepKind::Wait
            && step.order.is_empty()
            && (called(step, RISES) || called(step, PROVES) || called(step, beginnings!["rest"]))
    };
    part.steps.windows(2).find_map(|two| {
        let [one, other] = two else { return None };
        // `Shape, put in two tins and prove`.
        let shapes = || {
            says(other, SHAPES)
                || says(other, CUTS)
                || says(other, beginnings!["knock", "fold", "form", "roll", "tin", "pan|", "pans|", "basket"])
        };
        let chill =
            |step: &Step| step.kind == StepKind::Wait && step.order.is_empty() && called(step, beginnings!["chill"]);
        if !(rises(one) && rises(other) || chill(one) && chill(other)) || shapes() || takes(other) {
            return None;
        }
        let same_place =
            one.temperature.is_none() || other.temperature.is_none() || one.temperature == other.temperature;
        let warm = |step: &Step| {
            step.temperature.is_none_or(|(low, _)| low.celsius() >= crate::measure::number::Number::whole(15))
        };
        if !(same_place || (warm(one) && warm(other))) {
            return None;
        }
        let message = format!("`{}` follows `{}` with nothing done between them", other.name, one.name);
        Some(problem(
            other,
            one,
            message,
            "rises here already",
            "look whether a step between them stands in the wrong place",
        ))
    })
}

/// What stands in the cold and is then left to cool was chilled hot, or the two are swapped.
fn chilled_before_cooled(part: &Part) -> Option<Diagnostic> {
    part.steps.windows(2).find_map(|two| {
        let [chill, cool] = two else { return None };
        let waits = |step: &Step| step.kind == StepKind::Wait && step.order.is_empty();
        // Stirred until it is cool is as good; what is only taken then is another thing.
        let cools = waits(cool) || (cool.kind == StepKind::Hands && cool.order.is_empty() && !takes(cool));
        if !(waits(chill) && cools && chills(chill) && called(cool, COOLS) && !chills(cool)) {
            return None;
        }
        let message = format!("`{}` comes before `{}`: what comes from the cold does not cool", chill.name, cool.name);
        Some(problem(chill, cool, message, "cools here", &format!("move it below `{}`", cool.name)))
    })
}

/// `second rest` above `first rest`.
fn second_before_first(part: &Part) -> Option<Diagnostic> {
    let numbered =
        |step: &Step, number: &str| step.name.key.as_str().strip_prefix(number).map(|rest| rest.trim().to_owned());
    called_in_place(part, beginnings!["second"]).find_map(|(at, second)| {
        let what = numbered(second, "second ").filter(|what| !what.is_empty())?;
        let (_, first) =
            in_place(part).find(|(later, step)| *later > at && numbered(step, "first ").as_ref() == Some(&what))?;
        let message = format!("`{}` is written above `{}`", second.name, first.name);
        Some(problem(second, first, message, "comes first", &format!("move it below `{}`", first.name)))
    })
}

/// An autolyse after the mix, and a bench rest before anything was cut.
fn rested_before(part: &Part) -> Option<Diagnostic> {
    let autolyse = called_in_place(part, beginnings!["autolyse"]).next();
    if let Some((at, rest)) = autolyse {
        let mixed_later = part.steps.iter().skip(at + 1).any(|step| called(step, MIXES));
        let mixed =
            in_place(part).find(|(earlier, step)| *earlier < at && called(step, MIXES)).filter(|_| !mixed_later);
        if let Some((_, mix)) = mixed {
            let message = format!("`{}` comes after `{}`, and nothing is mixed after it", rest.name, mix.name);
            return Some(problem(rest, mix, message, "mixed here", &format!("move it above `{}`", mix.name)));
        }
    }
    let (at, rest) = called_in_place(part, beginnings!["bench"]).find(|(_, step)| step.kind == StepKind::Wait)?;
    if part.steps.iter().take(at).any(|step| called(step, CUTS)) {
        return None;
    }
    let cut = part.steps.iter().skip(at + 1).find(|step| called(step, CUTS))?;
    let message = format!("`{}` comes before `{}`: there are no pieces yet to rest", rest.name, cut.name);
    Some(problem(rest, cut, message, "cut here", &format!("move it below `{}`", cut.name)))
}

/// A step named after cooling in a part in which nothing was hot before it and something is later.
fn cools_what_is_cold(subject: &Subject<'_>, part: &Part) -> Option<Diagnostic> {
    let (at, cool) = called_in_place(part, COOLS).find(|(_, step)| step.kind == StepKind::Wait)?;
    let warm = |step: &Step| cooks(step) || says(step, WARM);
    if part.steps.iter().take(at).any(warm) {
        return None;
    }
    let hot_line = part.lines.iter().any(|line| {
        line.temperature.is_some_and(|at| at.celsius() >= crate::measure::number::Number::whole(40))
            || line.preparation.as_ref().is_some_and(|text| has_word_beginning(text, WARM) || has_word_beginning(text, COOKS))
            || matches!(line.refers, Refers::Part(of) if subject.recipe.part(of).is_some_and(|part| part.steps.iter().any(cooks)))
    });
    if hot_line {
        return None;
    }
    let hot = part.steps.iter().skip(at + 1).find(|step| cooks(step))?;
    let message = format!("`{}` comes before `{}`, and nothing was hot before it", cool.name, hot.name);
    Some(problem(cool, hot, message, "hot here", &format!("move it below `{}`", hot.name)))
}

fn served_before_cooked(part: &Part) -> Option<Diagnostic> {
    let (at, serve) = called_in_place(part, beginnings!["serve"]).next()?;
    let cook = part.steps.iter().skip(at + 1).find(|step| cooks(step) && step.order.is_empty())?;
    let message = format!("`{}` comes before `{}`", serve.name, cook.name);
    Some(problem(serve, cook, message, "cooked here", &format!("move it below `{}`", cook.name)))
}

/// What is done with dough that is still raw, by words in a step's prose.
const RAW: &[&str] = &[
    "lined tray",
    "lined tin",
    "on a tray",
    "on trays",
    "on to trays",
    "onto trays",
    "baking sheet",
    "into a tin",
    "in a tin",
    "into tins",
    "in their tins",
    "into the tin",
    "baskets",
    "on paper",
    "the pastry over",
    "the dough",
    "the batter",
];
/// With these it comes out of the oven, or is worked on afterwards.
const BAKED: &Beginnings = &Beginnings::of(&[
    "cool", "turn out", "tip out", "take out", "lift", "from the", "off the", "warm", "hot", "cold", "glaz", "ic",
    "dust", "pack", "store", "wrap", "serve", "cream", "jam|", "jams|", "syrup", "sugar",
]);

/// Dough that is laid on trays, or pieces that are pressed, stretched and set out, when nothing is baked any more.
fn laid_out_after_the_bake(part: &Part, baked: Option<(usize, &Step)>) -> Option<Diagnostic> {
    let (last, bake) = baked?;
    let rest = || part.steps.iter().skip(last + 1);
    let raw = |step: &Step| {
        let words = words_of(step);
        if says(step, beginnings!["brush"]) && takes_egg(part, step) {
            return true;
        }
        // Seeds stick to what is wet.
        if called(step, beginnings!["dip", "press", "strew", "coat"])
            && takes_kind(part, step, Kind::Seed)
            && !says(step, BAKED)
        {
            return true;
        }
        let names = called(
            step,
            beginnings![
                "stretch", "set out", "lay", "line", "press", "dock", "prick", "stamp", "flatten", "laminat",
                "egg wash", "eggwash", "tin"
            ],
        );
        !says(step, BAKED) && (names || RAW.iter().any(|raw| words.contains(raw)))
    };
    let late = rest().find(|step| step.kind == StepKind::Hands && step.order.is_empty() && raw(step))?;
    let message = format!("`{}` comes after `{}`, and nothing is baked after it", late.name, bake.name);
    Some(problem(late, bake, message, "baked here", &format!("move it above `{}`", bake.name)))
}

/// The last step in an oven, where no heat comes after it.
fn last_bake(part: &Part) -> Option<(usize, &Step)> {
    let heated = |step: &Step| step.kind != StepKind::Wait && (called(step, beginnings!["bake"]) || bakes(step));
    let (last, bake) = in_place(part).filter(|(_, step)| heated(step)).last()?;
    // What is named in a step may be baking powder; only its head says that it cooks.
    (!part.steps.iter().skip(last + 1).any(cooks_by_head)).then_some((last, bake))
}

fn takes_egg(part: &Part, step: &Step) -> bool {
    takes_kind(part, step, Kind::Egg)
}

fn takes_kind(part: &Part, step: &Step, kind: Kind) -> bool {
    step.lines_taken().any(|at| part.lines.get(at).is_some_and(|line| line.kind == kind))
}

/// A rest to cool that stands right before the only heat of its part.
fn cools_before_the_bake(part: &Part) -> Option<Diagnostic> {
    let (at, cool) = called_in_place(part, COOLS).find(|(_, step)| step.kind == StepKind::Wait && !chills(step))?;
    let bake = part
        .steps
        .get(at + 1)
        .filter(|step| called(step, beginnings!["bake"]) && step.order.is_empty() && cooks(step))?;
    let proved = at.checked_sub(1).and_then(|before| part.steps.get(before)).is_some_and(|step| called(step, PROVES));
    let hot = part.steps.iter().take(at).any(cooks) || !(takes_by_loads(cool, bake) || proved);
    if hot || part.steps.iter().skip(at + 2).any(|step| called(step, COOLS)) {
        return None;
    }
    let message = format!("`{}` comes before `{}`, and nothing cools after it", cool.name, bake.name);
    Some(problem(cool, bake, message, "baked here", &format!("move it below `{}`", bake.name)))
}

/// Rounds, squares and triangles that are cut before the dough is rolled out, and not after it.
fn cut_before_rolled(part: &Part) -> Option<Diagnostic> {
    let cuts = |step: &Step| {
        says(step, beginnings!["round", "square", "triangle", "strip", "rectangle", "disc", "cutter", "bar|", "bars|"])
    };
    let rolls = |step: &Step| called(step, beginnings!["roll", "sheet", "pin|"]) && words_of(step).contains("# thick");
    let (at, cut) = called_in_place(part, beginnings!["cut", "stamp"]).find(|(_, step)| cuts(step))?;
    let (later, roll) = in_place(part).find(|(later, step)| *later > at && rolls(step))?;
    let again = part.steps.iter().skip(later + 1).any(|step| called(step, CUTS));
    if again || part.steps.iter().take(at).any(rolls) {
        return None;
    }
    let message = format!("`{}` comes before `{}`, and nothing is cut after it", cut.name, roll.name);
    Some(problem(cut, roll, message, "rolled out here", &format!("move it below `{}`", roll.name)))
}

/// Pieces that are shaped, piped or put in tins above the step that takes the flour, the nuts or the grain of which they are.
fn divided_before_made(part: &Part) -> Option<Diagnostic> {
    part.divide?;
    let body = |at: usize| {
        part.lines.get(at).is_some_and(|line| {
            !line.aside
                && matches!(line.kind, Kind::Flour | Kind::Nut | Kind::Grain | Kind::Starch)
                && matches!(line.refers, Refers::Pantry(_))
        })
    };
    let names = beginnings![
        "shape", "round", "mould", "scale", "divide", "portion", "pipe", "fill", "cut", "slice", "roll up", "stamp"
    ];
    let (at, early) = called_in_place(part, names).find(|(_, step)| {
        step.kind == StepKind::Hands && step.loads.is_by_piece() && step.lines_taken().next().is_none()
    })?;
    let (_, make) = in_place(part).find(|(later, step)| {
        let takes_several = || step.lines_taken().nth(1).is_some() && step.lines_taken().any(body);
        *later > at && step.kind == StepKind::Hands && takes_several()
    })?;
    let message = format!("`{}` comes before `{}`, which takes what the pieces are made of", early.name, make.name);
    Some(problem(early, make, message, "made here", &format!("move it below `{}`", make.name)))
}

/// What is baked by the piece was cut, piped or shaped to pieces before; bars and slices are cut afterwards and baked in one.
fn pieces_baked_before_cut(part: &Part, baked: Option<(usize, &Step)>) -> Option<Diagnostic> {
    let (last, bake) = baked?;
    let by_piece = bake.loads.size().is_some() && part.divide.is_some();
    let names = beginnings!["cut", "pipe", "stamp", "portion", "divide", "roll", "sheet"];
    let shapes = |step: &Step| {
        let words = words_of(step);
        step.kind == StepKind::Hands
            && called(step, names)
            && (says(step, beginnings!["round", "tray", "cutter", "scale", "rest"]) || words.contains("# thick"))
    };
    let late = part.steps.iter().skip(last + 1).find(|step| {
        step.order.is_empty()
            && shapes(step)
            && !says(step, beginnings!["cool", "warm", "slice", "ic", "cream", "sugar"])
    })?;
    if !by_piece
        || part.steps.iter().take(last).any(|step| called(step, CUTS) || called(step, names))
            && !words_of(late).contains("# thick")
    {
        return None;
    }
    let message = format!("`{}` comes after `{}`, which bakes by the piece", late.name, bake.name);
    Some(problem(late, bake, message, "baked here", &format!("move it above `{}`", bake.name)))
}

/// Whether two steps take the same loads, or both all at once: what comes out of the oven is what cools.
fn takes_by_loads(cool: &Step, bake: &Step) -> bool {
    cool.loads == bake.loads
}

/// Peeling, trimming and washing what an earlier step of the part has taken already.
fn trimmed_after_taken(part: &Part) -> Option<Diagnostic> {
    let names = beginnings!["trim", "peel", "wash", "rinse", "scrub", "shell", "stone", "pod"];
    let (at, trim) = called_in_place(part, names).find(|(_, step)| step.kind == StepKind::Hands)?;
    if takes(trim) || called(trim, beginnings!["egg"]) {
        return None;
    }
    let words = words_of(trim);
    let taken = part.steps.iter().take(at).find(|step| {
        step.words.iter().any(|word| match word {
            Words::Use { target: Some(Target::Line(line)), .. } => {
                part.lines.get(*line).is_some_and(|line| has_word_beginning(words, [line.name.key.as_str()]))
            }
            _ => false,
        })
    })?;
    let message = format!("`{}` comes after `{}`, which takes what it prepares", trim.name, taken.name);
    Some(problem(trim, taken, message, "taken here", &format!("move it above `{}`", taken.name)))
}

/// Holding hot what is cooked only later.
fn held_before_cooked(part: &Part) -> Option<Diagnostic> {
    let (at, hold) = called_in_place(part, beginnings!["hold"]).find(|(_, step)| cooks(step))?;
    let cook = part.steps.iter().skip(at + 1).find(|step| {
        let simmers = called(step, beginnings!["simmer", "boil", "cook", "stew", "braise", "roast", "fry", "season"]);
        simmers && (cooks(step) || step.equipment.is_some() || takes(step)) && step.order.is_empty()
    })?;
    let message = format!("`{}` comes before `{}`: what is held is done", hold.name, cook.name);
    Some(problem(hold, cook, message, "worked on here", &format!("move it below `{}`", cook.name)))
}

/// `{rest of x}` in a step above one that takes a share of x.
fn rest_before_share(part: &Part) -> Option<Diagnostic> {
    // For each thing the first step that takes the rest of it, and the next that does.
    let mut rests: QuickMap<Target, [Option<&Step>; 2]> = QuickMap::default();
    for step in &part.steps {
        for word in &step.words {
            let Words::Use { take, target: Some(target), name } = word else { continue };
            if *take != Take::Rest
                && let Some(rest) =
                    rests.get(target).into_iter().flatten().flatten().find(|rest| rest.span != step.span)
            {
                let message =
                    format!("`{}` takes the rest of {name} before `{}` takes the first of it", rest.name, step.name);
                return Some(problem(
                    rest,
                    step,
                    message,
                    "taken first",
                    "look whether the two steps stand in the right order",
                ));
            }
            if *take == Take::Rest {
                match rests.entry(*target).or_default() {
                    [Some(first), second @ None] if first.span != step.span => *second = Some(step),
                    [first @ None, _] => *first = Some(step),
                    _ => {}
                }
            }
        }
    }
    None
}
