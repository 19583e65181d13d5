//! Acts that a part speaks of or cannot do without, and that it has nothing for: whites that are whipped where yolks are listed, butter that nobody
//! churns, a laminated dough that nobody folds, a scald that nobody heats. What `odd-method` looks for. Common practice, no source.

use crate::measure::number::Number;
use crate::model::cooking::{bakes, beginnings, called, chills, cooks, says, some_says, words_of};
use crate::model::kind::Kind;
use crate::model::lowered::Beginnings;
use crate::model::recipe::{Ingredient, Part, PartId, Recipe};
use crate::model::step::{Step, StepKind};
use crate::text::source::Span;

/// Where it is told, what, and what to do.
type Told = (Span, String, &'static str);

/// The first such act of a part.
pub(super) fn problem(recipe: &Recipe, part: &Part) -> Option<Told> {
    if part.steps.is_empty() {
        return None;
    }
    yolk_for_white(recipe, part)
        .or_else(|| never_churned(recipe, part))
        .or_else(|| never_folded(recipe, part))
        .or_else(|| never_scalded(part))
        .or_else(|| never_cooled(recipe, part))
}

/// What melts on what comes out of an oven, by a word of its name.
const MELTS: &Beginnings = &Beginnings::of(&[
    "cream",
    "creams|",
    "buttercream",
    "mousse",
    "ganache",
    "meringue",
    "mascarpone",
    "chantilly",
    "ice cream",
]);
/// What is done with it to pieces that have cooled.
const FILLS: &Beginnings =
    &Beginnings::of(&["fill", "pipe", "sandwich", "split", "layer", "spread", "build", "stack", "ice|", "frost"]);

/// Choux that are split and filled with cream in the minute in which they leave the oven, in their own part or as a part of a dish.
fn never_cooled(recipe: &Recipe, part: &Part) -> Option<Told> {
    let in_oven = |step: &Step| step.kind != StepKind::Wait && bakes(step) && step.may_stand.is_none();
    let ends_hot = |made: PartId| recipe.part(made)?.steps.last().filter(|step| in_oven(step));
    let at = part.steps.iter().position(|step| step.kind == StepKind::Hands && called(step, FILLS))?;
    let fill = part.steps.get(at).filter(|step| step.order.is_empty())?;
    let taken = || fill.lines_taken().filter_map(|line| part.lines.get(line));
    let bake = match at.checked_sub(1) {
        Some(above) => part.steps.get(above).filter(|step| in_oven(step))?,
        None => taken().find_map(|line| ends_hot(line.part()?))?,
    };
    let kept_cold = |made: &Part| made.keeps.is_some_and(|keeps| keeps.how.is_cold()) || made.steps.iter().any(chills);
    let melts = |line: &&Ingredient| {
        line.name.has_word_beginning(MELTS) && line.part().and_then(|made| recipe.part(made)).is_some_and(kept_cold)
    };
    let line = taken().find(melts)?;
    let is_told = says(fill, beginnings!["cool", "cold", "hot", "warm"]) || says(bake, beginnings!["cool"]);
    (!is_told).then(|| {
        (
            fill.name.span,
            format!("`{}` follows `{}`: {} melts on what is hot", fill.name, bake.name, line.name),
            "write the step in which it cools, `cool: wait 45 min`",
        )
    })
}

fn is_yolk(line: &Ingredient) -> bool {
    line.kind == Kind::Egg && line.name.has_word_beginning(beginnings!["yolk"])
}

/// Whites in the method, and of eggs only the yolk in the list. Peaks may be of cream.
fn yolk_for_white(recipe: &Recipe, part: &Part) -> Option<Told> {
    let yolk = part.lines.iter().find(|line| is_yolk(line))?;
    let other_egg = |line: &Ingredient| line.kind == Kind::Egg && !is_yolk(line);
    let may_be_elsewhere = |line: &Ingredient| {
        line.part().is_some() || line.name.has_word_beginning(beginnings!["meringue", "albumen", "aquafaba"])
    };
    if recipe.parts().any(|(_, part)| part.lines.iter().any(other_egg)) || part.lines.iter().any(may_be_elsewhere) {
        return None;
    }
    let whips_cream = part.lines.iter().any(|line| line.kind == Kind::Dairy);
    let is_foam = recipe.name.has_word_beginning(beginnings!["meringue", "pavlova", "macaron"]);
    let peaks = beginnings!["peak", "snow", "stiff"];
    let tells = |step: &&Step| {
        let words = words_of(step);
        let whites = words.contains("the whites") || words.contains("egg whites") || words.contains("white peaks");
        whites
            || !whips_cream
                && (is_foam || words.contains("peaks") || words.contains("to snow"))
                && called(step, beginnings!["whip", "whisk", "beat"])
                && some_says(part, peaks)
    };
    let step = part.steps.iter().find(tells)?;
    Some((
        yolk.name.span,
        format!("`{}` whips white of egg, and of eggs only `{}` is listed", step.name, yolk.name),
        "look whether egg white was meant: yolk does not whip to peaks",
    ))
}

/// How butter parts from its milk.
const CHURNS: &Beginnings = &Beginnings::of(&[
    "churn",
    "whip",
    "whisk",
    "beat",
    "shak",
    "blend",
    "process",
    "paddle",
    "agitat",
    "work the cream",
]);

/// Cream that loses half as buttermilk, in a part that is called butter.
fn never_churned(recipe: &Recipe, part: &Part) -> Option<Told> {
    let is_butter = |name: &str| name == "butter" || name.ends_with(" butter");
    if ![&part.name, &recipe.name].iter().any(|name| is_butter(name.key.as_str())) {
        return None;
    }
    let cream = part.lines.iter().find(|line| {
        line.kind == Kind::Dairy && line.stays_in() && line.name.has_word_beginning(beginnings!["cream|"])
    })?;
    let only = part
        .lines
        .iter()
        .all(|line| matches!(line.kind, Kind::Dairy | Kind::Milk | Kind::Salt | Kind::Water | Kind::Other | Kind::Ice));
    let last = part.steps.last()?;
    (only && !some_says(part, CHURNS) && !part.steps.iter().any(|step| called(step, CHURNS))).then(|| {
        (
            last.name.span,
            format!("nothing churns `{}`: cream becomes butter when it is worked", cream.name),
            "write the step that churns it, `churn: tend 15 min, using mixer` with its sign `until the grains part`",
        )
    })
}

/// What encloses butter in a dough.
const ENCLOSES: &Beginnings = &Beginnings::of(&["enclos", "lock", "laminat", "wrap the butter", "seal the butter"]);
/// What makes layers of it.
const FOLDS: &Beginnings = &Beginnings::of(&[
    "fold", "turn", "tour|", "tours|", "book", "letter", "laminat", "sheet", "rough", "in three", "in four", "thirds",
    "quarter",
]);

/// A dough and a block of butter that are put together and rolled out, with no fold between.
fn never_folded(recipe: &Recipe, part: &Part) -> Option<Told> {
    let made = || part.lines.iter().filter_map(|line| recipe.part(line.part()?));
    let is_block = |made: &Part| {
        made.lines.iter().filter(|line| line.stays_in()).all(|line| line.kind == Kind::Fat || line.is_flour)
            && made.lines.iter().any(|line| line.kind == Kind::Fat)
    };
    let is_dough = |made: &Part| made.lines.iter().any(|line| line.is_flour && line.stays_in()) && !is_block(made);
    let at = part.steps.iter().position(|step| step.kind == StepKind::Hands && called(step, ENCLOSES))?;
    if !made().any(is_block) || !made().any(is_dough) || part.steps.iter().any(|step| !step.order.is_empty()) {
        return None;
    }
    let enclose = part.steps.get(at)?;
    let in_one = ["in three", "in four", "thirds", "turns", "book", "letter", "single fold", "double fold", "folds"];
    let folds_here =
        in_one.iter().any(|said| words_of(enclose).contains(said)) || enclose.name.has_word_beginning(FOLDS);
    let after = || part.steps.iter().skip(at + 1);
    let folds = |step: &Step| {
        called(step, FOLDS) || FOLDS.words().iter().any(|fold| words_of(step).contains(fold.trim_end_matches('|')))
    };
    let rolls = |step: &&Step| step.kind == StepKind::Hands && called(step, beginnings!["roll"]);
    let roll = after().find(rolls).filter(|_| !folds_here && !after().any(folds))?;
    Some((
        roll.name.span,
        format!("`{}` follows `{}`, and nothing folds the dough: it has one layer of butter", roll.name, enclose.name),
        "write its turns, `single fold: hands 8 min`, with a rest in the cold between them",
    ))
}

/// Pastes of flour that swell by heat alone, by the beginnings of words of the part's name.
const SCALDS: &Beginnings =
    &Beginnings::of(&["scald", "tangzhong", "yudane", "water roux", "roux|", "zavark", "choux"]);
const HOT: Number = Number::whole(60);

/// A scald that is stirred cold.
fn never_scalded(part: &Part) -> Option<Told> {
    if !part.name.has_word_beginning(SCALDS) {
        return None;
    }
    let of_flour = part.lines.iter().any(|line| line.is_flour && line.stays_in());
    let open = part.lines.iter().any(|line| line.part().is_some());
    let is_hot = |line: &Ingredient| {
        line.temperature.is_some_and(|at| at.celsius() >= HOT)
            || line.preparation.as_deref().is_some_and(|said| {
                let said = said.to_lowercase();
                ["boil", "hot", "scald"].iter().any(|word| said.contains(word))
            })
            || line.name.has_word_beginning(beginnings!["boiling", "hot|"])
    };
    let heats =
        beginnings!["heat", "hot", "boil", "scald", "cook", "simmer", "warm", "stove", "microwave", "thicken over"];
    let last = part.steps.last()?;
    (of_flour
        && !open
        && !part.lines.iter().any(is_hot)
        && !part.steps.iter().any(|step| cooks(step) || step.temperature.is_some_and(|(low, _)| low.celsius() >= HOT))
        && !some_says(part, heats))
    .then(|| {
        (
            last.name.span,
            format!("nothing heats `{}`: its flour swells from 60 °C on", part.name),
            "write the step that cooks it, `cook: tend 6 min, using hob` with its sign `until {65 C}`, or how hot its water goes in, `at 95 C`",
        )
    })
}
