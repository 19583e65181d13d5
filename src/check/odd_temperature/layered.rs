//! Doughs into which butter is folded, and how warm they rest and prove.

use super::CHECK;
use crate::check::Subject;
use crate::check::dough::{inside, mille};
use crate::language::syntax::Name;
use crate::measure::number::Number;
use crate::measure::show::{self, Units};
use crate::measure::temperature::Temperature;
use crate::model::cooking::rests::{PROVES, RISES};
use crate::model::cooking::{Beginnings, beginnings, called, cooks, says};
use crate::model::kind::Kind;
use crate::model::recipe::{Ingredient, Part, PartId, Recipe};
use crate::model::step::{Step, StepKind, Words};
use crate::solve::formula::SolvedPart;
use crate::text::diagnostic::Diagnostic;

/// Butter softens from 28 °C and is oil at 32: warmer no layered dough proves. Common practice, no source.
const WARMEST: Number = Number::whole(30);
/// Between its turns and behind them it lies in the cold or in a cool room until it proves. Common practice, no source.
const WARMEST_AT_REST: Number = Number::whole(22);

/// What stands warmer than butter bears.
pub(super) fn problems<'s>(subject: &'s Subject<'_>) -> impl Iterator<Item = Diagnostic> + 's {
    subject.own_parts().flat_map(move |(id, part, _)| {
        let too_warm =
            part.steps.iter().enumerate().filter_map(move |(at, step)| Some((at, too_warm(part, at, step)?)));
        let layered = too_warm.filter(move |(at, _)| is_layered(subject.recipe, id, *at));
        layered.map(move |(_, (step, low, help))| problem(step, low, help))
    })
}

/// Warmer than this butter does not bend but smears. Common practice, no source.
const SOFT: Number = Number::whole(20);

/// Butter that lies to become firm before it is folded in, in a warm room.
pub(super) fn soft_block(part: &Part) -> Option<Diagnostic> {
    let firms = |step: &&Step| {
        step.kind == StepKind::Wait
            && called(step, beginnings!["firm", "chill", "set", "cool", "rest"])
            && step.temperature.is_some_and(|(low, _)| low.celsius() > SOFT)
    };
    let step = part.steps.iter().find(firms).filter(|_| is_block(part))?;
    let (low, _) = step.temperature?;
    let message =
        format!("`{}` is at {}, and butter smears from 20 °C on", step.name, show::temperature(low, Units::Metric));
    Some(
        Diagnostic::advice(CHECK.name, step.span, message)
            .help("it gets firm in the cold; look whether a digit has slipped"),
    )
}

/// Warmer than this the butter in a pastry runs out of it before it is rolled. Common practice, no source.
const PASTRY_MELTS: Number = Number::whole(27);

/// Pastry of cold butter that rests where butter melts.
pub(super) fn warm_pastry(
    subject: &Subject<'_>,
    (id, part): (PartId, &Part),
    solved: &SolvedPart,
) -> Option<Diagnostic> {
    let rests = |step: &&Step| {
        step.kind == StepKind::Wait
            && step.temperature.is_some_and(|(low, _)| low.celsius() > PASTRY_MELTS)
            && called(step, beginnings!["rest", "relax", "firm", "stand"])
    };
    let at = part.steps.iter().position(|step| rests(&step))?;
    let is_cold = |line: &Ingredient| {
        line.kind == Kind::Fat
            && line.name.has_word_beginning(beginnings!["butter|", "margarine"])
            && !line.is_prepared(beginnings!["melted", "molten", "brown", "boil"])
    };
    let butter = part.lines.iter().zip(&solved.lines).find(|(line, _)| is_cold(line))?.1.mass?;
    let is_short = butter.as_share_of(solved.composition.flour).is_ok_and(|share| share >= mille(300));
    // A rich dough of a starter that is a part of its own is raised too.
    if !is_short || subject.fermented().has(id) || part.steps.iter().take(at).any(cooks) {
        return None;
    }
    let step = part.steps.get(at)?;
    let (low, _) = step.temperature?;
    let message = format!(
        "`{}` is at {}, and the butter in the pastry melts from 30 °C on",
        step.name,
        show::temperature(low, Units::Metric)
    );
    Some(
        Diagnostic::advice(CHECK.name, step.span, message)
            .help("let it rest in the cold; look whether a digit has slipped"),
    )
}

/// A wait that is too warm for a dough with butter in it, how warm, and what to do.
fn too_warm<'p>(part: &'p Part, at: usize, step: &'p Step) -> Option<(&'p Step, Temperature, &'static str)> {
    // No limit is lower, and nothing else is asked of what is cooler.
    let is_warm = |low: Temperature| low.celsius() > WARMEST_AT_REST;
    let (low, _) = step.temperature.filter(|(low, _)| step.kind == StepKind::Wait && is_warm(*low))?;
    let is_worked =
        |later: &Step| is_turn(later) || called(later, beginnings!["roll", "cut", "shape", "form", "divide"]);
    let proves = called(step, PROVES) || called(step, RISES) || !part.steps.iter().skip(at + 1).any(is_worked);
    let (warmest, help) = if proves {
        (WARMEST, "prove it at 24 to 28 °C; look whether a digit has slipped")
    } else {
        (WARMEST_AT_REST, "let it rest in the cold; look whether a digit has slipped")
    };
    (low.celsius() > warmest && !part.steps.iter().take(at).any(cooks)).then_some((step, low, help))
}

fn problem(step: &Step, low: Temperature, help: &str) -> Diagnostic {
    let message = format!(
        "`{}` is at {}, and butter is folded into the dough: it melts from 30 °C on and runs out",
        step.name,
        show::temperature(low, Units::Metric)
    );
    Diagnostic::advice(CHECK.name, step.span, message).help(help)
}

/// Whether what is in a step of a part has turns with butter behind it, in the part or in one that it takes.
fn is_layered(recipe: &Recipe, id: PartId, at: usize) -> bool {
    inside(recipe, id).into_iter().any(|inner| {
        let Some(part) = recipe.part(inner) else { return false };
        let until = if inner == id { at } else { part.steps.len() };
        let mut before = part.steps.iter().take(until);
        before.any(|step| is_turn(step) || folds(step) && takes_a_block(recipe, part)) && holds_butter(recipe, inner)
    })
}

/// Whether a step folds or encloses something, by its name.
fn folds(step: &Step) -> bool {
    called(step, beginnings!["fold", "single fold", "double fold", "enclose", "wrap", "turn|", "lock"])
}

/// Whether butter that was made flat in a part of its own goes into a part, or butter that is said to be for its layers.
fn takes_a_block(recipe: &Recipe, part: &Part) -> bool {
    let is_block = |made: &Part| {
        is_block(made) && made.lines.iter().any(|line| line.name.has_word_beginning(beginnings!["butter"]))
    };
    let is_cold = |line: &Ingredient| !line.is_prepared(beginnings!["soft", "melted", "molten", "spread"]);
    enclosed(part).is_some_and(is_cold)
        || part.lines.iter().any(|line| match line.part() {
            Some(made) => recipe.part(made).is_some_and(is_block),
            None => {
                line.kind == Kind::Fat
                    && line.name.has_word_beginning(beginnings!["folding", "laminat", "layers", "turns"])
            }
        })
}

/// The butter that a part takes by itself and folds into a dough that was made before: it has no flour of its own to knead it into.
fn enclosed(part: &Part) -> Option<&Ingredient> {
    if !part.lines.iter().any(|line| line.part().is_some()) || part.lines.iter().any(Ingredient::is_any_flour) {
        return None;
    }
    let is_butter = |line: &Ingredient| line.kind == Kind::Fat && line.name.has_word_beginning(beginnings!["butter|"]);
    let takes = |at: usize| part.steps.iter().any(|step| folds(step) && step.lines_taken().any(|taken| taken == at));
    let mut butter = part.lines.iter().enumerate().filter(|(_, line)| is_butter(line));
    butter.find(|(at, _)| takes(*at)).map(|(_, line)| line)
}

/// Whether a part is butter alone, or with some flour beaten into it, and is called so.
fn is_block(part: &Part) -> bool {
    !part.lines.is_empty()
        && part.lines.iter().all(|line| line.kind == Kind::Fat && !line.is_oil() || line.is_any_flour())
        && part.name.has_word_beginning(beginnings!["butter", "block", "plate", "slab", "beurre"])
}

/// Butter that is melted where it is to lie in layers, or to be rubbed into flour.
pub(super) fn melted(part: &Part) -> Option<Diagnostic> {
    let is_melted = |line: &Ingredient| {
        line.name.has_word_beginning(beginnings!["butter|", "margarine"])
            && line.kind == Kind::Fat
            && line.is_prepared(beginnings!["melted", "molten"])
    };
    let (at, line) = part.lines.iter().enumerate().find(|(_, line)| is_melted(line))?;
    let beats_out = || {
        part.steps.iter().any(|step| {
            called(step, beginnings!["beat", "flatten", "roll", "tamp", "pat|", "shape", "firm", "chill", "block"])
        })
    };
    let rubs = |step: &&Step| {
        step.lines_taken().any(|taken| taken == at)
            && step.words.iter().any(|word| matches!(word, Words::Text(text) if text.trim_start().to_lowercase().starts_with("rub ") || text.to_lowercase().contains("; rub ")))
    };
    // Thin sheets of dough are brushed with it.
    let is_thin = |line: &Ingredient| {
        line.name
            .has_word_beginning(beginnings!["filo", "fillo", "phyllo", "brik", "brick", "warqa", "yufka", "strudel"])
    };
    let is_brushed = || {
        part.lines.iter().any(is_thin)
            || part
                .steps
                .iter()
                .any(|step| step.lines_taken().any(|taken| taken == at) && says(step, beginnings!["brush", "dip"]))
    };
    let is_enclosed = enclosed(part).is_some_and(|butter| std::ptr::eq(butter, line)) && !is_brushed();
    let encloses = |step: &&Step| is_enclosed && folds(step);
    let into = match part.steps.iter().find(rubs).or_else(|| part.steps.iter().find(encloses)) {
        Some(step) => step,
        None => part.steps.first().filter(|_| is_block(part) && beats_out())?,
    };
    let does = if is_enclosed || is_block(part) { "lies in no layers" } else { "is rubbed into no flour" };
    let message = format!("`{}` takes {} that is melted: it {does}", into.name, line.name);
    Some(
        Diagnostic::advice(CHECK.name, line.span, message)
            .help("write `, cold` or `, soft` behind it, or melt it in the step that wants it so"),
    )
}

fn holds_butter(recipe: &Recipe, id: PartId) -> bool {
    let has_butter = |part: &Part| {
        part.lines.iter().any(|line| line.stays_in() && line.name.has_word_beginning(beginnings!["butter|"]))
    };
    inside(recipe, id).into_iter().filter_map(|inner| recipe.part(inner)).any(has_butter)
}

/// Whether a step folds butter into a dough, by its name or in its words. A fold of the dough alone is no such turn: most breads get one.
fn is_turn(step: &Step) -> bool {
    const LOCKS: &Beginnings = beginnings!["lock in", "locked in", "laminat"];
    const FOLDS: &Beginnings =
        beginnings!["single fold", "double fold", "book fold", "letter fold", "single turn", "double turn"];
    let takes_butter = || {
        step.words
            .iter()
            .any(|words| matches!(words, Words::Use { name, .. } if name.has_word_beginning(beginnings!["butter|"])))
    };
    turns(&step.name) || says(step, LOCKS) || says(step, FOLDS) && !says(step, MIXES) && takes_butter()
}

/// Who kneads butter into the dough does not lay it between.
const MIXES: &Beginnings = beginnings!["mix", "knead", "beat", "work", "rub"];

/// Whether a step of that name folds butter into a dough.
fn turns(name: &Name) -> bool {
    name.has_word_beginning(beginnings!["lock", "laminat", "book", "letter"])
        || name.has_word_beginning(beginnings!["turn"]) && !name.has_word_beginning(beginnings!["out", "over"])
}
