//! How long a batch keeps a pan or hands busy, by what it weighs: what `odd-time` looks for where a time is in the common range for what is
//! done, and beyond all for so little. Common practice, no source.

use super::usual_times::{MINUTE, begins};
use crate::language::evaluate::{times, value};
use crate::language::syntax::{Amount, Content, Line, Name, Piece, StepClause, StepKind, StepLine, Tree};
use crate::measure::number::Number;
use crate::measure::quantity::Duration;
use crate::measure::show;
use crate::measure::value::Value;
use crate::model::lowered::beginnings;
use crate::text::diagnostic::Diagnostic;
use std::cell::LazyCell;

/// What is done, how long it takes at most, and how much longer for each kilogram; in seconds.
type Row = (&'static [&'static str], &'static str, i64, i64);

/// What is done on the hob, by the first word of a step's name.
const HOB: &[Row] = &[
    (&["fry", "saute", "sauté"], "are fried", 40 * MINUTE, 3 * MINUTE),
    (&["brown", "sear"], "are browned", 35 * MINUTE, 4 * MINUTE),
    (&["melt"], "are melted", 45 * MINUTE, 3 * MINUTE),
    (&["blanch", "wilt"], "are blanched or wilted", 15 * MINUTE, 3 * MINUTE),
    (&["infuse"], "are infused over a flame", 60 * MINUTE, 2 * MINUTE),
    (&["heat", "warm", "scald"], "get hot", 25 * MINUTE, 12 * MINUTE),
];

/// What hands do with all of a batch that is wet or loose, and what they do with it piece by piece without a word of `each`.
const HANDS: &[Row] = &[
    (
        &["stir", "bind", "pour", "slacken", "thicken", "gel", "toss"],
        "are stirred, poured or tossed",
        11 * MINUTE,
        4 * MINUTE,
    ),
    (
        &["fill", "pack", "layer", "press", "pan", "top", "glaze", "cut", "salt", "wrap", "spread"],
        "are cut, filled, packed or topped",
        25 * MINUTE,
        7 * MINUTE,
    ),
];

/// Flour and whites that are folded into a batter. What is folded of dough is rolled out between, or rises.
const FOLDS: Row = (&["fold"], "are folded in", 8 * MINUTE, 4 * MINUTE);
/// Salt and sugar that dissolve.
const DISSOLVES: Row = (&[], "dissolve", 20 * MINUTE, 7 * MINUTE);

/// Egg that thickens, and a paste that dries in its pan.
const THICKENS: Row = (&[], "thicken on the hob", 35 * MINUTE, 3 * MINUTE);
/// Sugar that boils above 101 °C is jam or candy, and done soon. Large kettles have large flames.
const SETS: Row = (&[], "boil down to jam or candy", 45 * MINUTE, 6 * MINUTE);

/// Pieces on a griddle, some at a time, and in a pan.
const GRIDDLED: i64 = 18 * MINUTE;
const PANNED: i64 = 35 * MINUTE;

/// The steps that take beyond all for what the file weighs.
pub(super) fn problems<'t>(tree: &'t Tree, check: &'static str) -> Vec<Diagnostic> {
    let mut steps = (0..).zip(&tree.lines).filter_map(|(at, line): (usize, &'t Line)| match &line.content {
        Content::Step(step) if step.kind.value != StepKind::Wait && is_long(step) => Some((at, step)),
        _ => None,
    });
    let mut found = Vec::new();
    let Some(first) = steps.next() else { return found };
    // Asked for few of the steps, and adds up all lines.
    let of_all = LazyCell::new(|| kilograms(&tree.lines));
    for (at, step) in std::iter::once(first).chain(steps) {
        let below = tree.lines.get(at + 1..).unwrap_or_default();
        let weight = LazyCell::new(|| of_all.or_else(|| of_its_part(tree, at)));
        let Some((what, most)) = most(step, below, &|| *weight) else { continue };
        let Some((_, high)) = times(&step.duration) else { continue };
        if high <= Duration::new(most) {
            continue;
        }
        let time = show::duration(high);
        let message = match *weight {
            Some(weight) if !what.is_empty() => format!(
                "{time} is unusual here: {} kg in all {what} within {}",
                weight.decimal(if weight < Number::whole(10) { 1 } else { 0 }),
                show::duration(Duration::new(most))
            ),
            _ => format!(
                "{time} is unusual here: what lies in a pan or on a griddle, some at a time, is done in {}",
                show::duration(Duration::new(most))
            ),
        };
        found.push(
            Diagnostic::advice(check, step.duration.span, message)
                .help("look whether the unit is right, s, min or h, and whether a digit has slipped"),
        );
    }
    found
}

/// Whether a step takes so long that it is worth a look at what is in the file.
fn is_long(step: &StepLine) -> bool {
    times(&step.duration).is_some_and(|(_, high)| high >= Duration::new(Number::whole(15 * MINUTE)))
}

/// What a step may take at most, in seconds.
fn most(step: &StepLine, below: &[Line], weight: &dyn Fn() -> Option<Number>) -> Option<(&'static str, Number)> {
    let name = step.name.key.as_str();
    let has = |is: fn(&StepClause) -> bool| step.clauses.iter().any(|clause| is(&clause.value));
    let uses = |clause: &StepClause| match clause {
        StepClause::Using(name, ..) => Some(name.clone()),
        _ => None,
    };
    let equipment = step.clauses.iter().find_map(|clause| uses(&clause.value));
    let on = |words| equipment.as_ref().is_some_and(|name| name.has_word_beginning(words));
    if step.kind.value == StepKind::Tend
        && on(beginnings!["griddle"])
        && has(|clause| matches!(clause, StepClause::AtATime(_)))
    {
        return Some(("", Number::whole(GRIDDLED)));
    }
    let loads = has(|clause| matches!(clause, StepClause::AtATime(_)));
    if step.kind.value == StepKind::Tend
        && loads
        && begins(name, &["fry"])
        && on(beginnings!["hob", "stove", "ring", "induction"])
    {
        return Some(("", Number::whole(PANNED)));
    }
    // By the piece, a few at a time or shared it is another sum.
    if has(|clause| matches!(clause, StepClause::Each | StepClause::AtATime(_) | StepClause::Into(..))) {
        return None;
    }
    let find = |rows: &'static [Row]| rows.iter().find(|(words, ..)| begins(name, words));
    let row = if on(beginnings!["hob", "stove", "ring", "flame", "gas", "induction", "hotplate"]) {
        find(HOB)
            .or_else(|| (thickens(below) && !is_slow(below)).then_some(&THICKENS))
            .or_else(|| sets(below).then_some(&SETS))
            .or_else(|| dissolves(below).then_some(&DISSOLVES))
    } else if step.kind.value == StepKind::Hands && equipment.is_none() {
        find(HANDS).or_else(|| (begins(name, FOLDS.0) && folds_in(below)).then_some(&FOLDS))
    } else {
        None
    };
    let (_, what, base, each) = row?;
    let most = weight()?.times(Number::whole(*each)).ok()?.plus(Number::whole(*base)).ok()?;
    // In whole minutes, as times are told.
    let minute = Number::whole(MINUTE);
    Some((what, most.over(minute).ok()?.ceil().times(minute).ok()?))
}

/// The lines of a step's own prose.
fn prose(below: &[Line]) -> impl Iterator<Item = &Piece> {
    let own = below.iter().take_while(|line| matches!(line.content, Content::Prose(_) | Content::Until(_)));
    own.flat_map(|line| match &line.content {
        Content::Prose(pieces) | Content::Until(pieces) => pieces.as_slice(),
        _ => &[],
    })
}

/// Whether it is done when it coats a spoon or leaves the pan.
fn thickens(below: &[Line]) -> bool {
    prose(below).any(|piece| {
        let Piece::Text(text) = piece else { return false };
        let text = text.to_lowercase();
        ["coats a spoon", "coats the spoon", "coats the back", "leaves the pan", "leaves the sides"]
            .iter()
            .any(|said| text.contains(said))
    })
}

/// Whether it is cooked for long on purpose: at a low heat, or until it is stiff enough to be cut.
fn is_slow(below: &[Line]) -> bool {
    prose(below).any(|piece| {
        let Piece::Text(text) = piece else { return false };
        let text = text.to_lowercase();
        ["low heat", "gentl", "lowest", "slow", "barely"].iter().any(|said| text.contains(said))
    })
}

/// Whether it is done when something is dissolved in it.
fn dissolves(below: &[Line]) -> bool {
    cue(below).any(|text| text.to_lowercase().contains("dissolved"))
}

/// Whether something is folded into a batter: its prose takes what is folded in, and says when it is even.
fn folds_in(below: &[Line]) -> bool {
    let says = |piece: &Piece| {
        let Piece::Text(text) = piece else { return false };
        let text = text.to_lowercase();
        ["fold in", "fold them in", "stir in", "sift over"].iter().any(|said| text.contains(said))
            && !["turn", "roll", "dough", "three", "half", "rest"].iter().any(|said| text.contains(said))
    };
    prose(below).any(says) && prose(below).any(|piece| matches!(piece, Piece::Use(..)))
}

/// The words of a step's own sign.
fn cue(below: &[Line]) -> impl Iterator<Item = &str> {
    let own = below.iter().take_while(|line| matches!(line.content, Content::Prose(_) | Content::Until(_)));
    own.flat_map(|line| if let Content::Until(pieces) = &line.content { pieces.as_slice() } else { &[] }).filter_map(
        |piece| match piece {
            Piece::Text(text) => Some(text.as_str()),
            _ => None,
        },
    )
}

/// Whether it boils to a temperature that only sugar reaches.
fn sets(below: &[Line]) -> bool {
    prose(below).any(|piece| {
        let Piece::Measure(said) = piece else { return false };
        super::usual_times::degrees(said).is_some_and(|at| at > Number::whole(101) && at < Number::whole(190))
    })
}

/// What the part of a line weighs, where it takes nothing of another part.
fn of_its_part(tree: &Tree, at: usize) -> Option<Number> {
    let starts = |line: &&Line| matches!(line.content, Content::Part { .. });
    let from = tree.lines.iter().take(at).rposition(|line| starts(&line)).unwrap_or(0);
    let until = tree.lines.iter().skip(at).position(|line| starts(&line)).map_or(tree.lines.len(), |next| at + next);
    let lines = tree.lines.get(from..until)?;
    let mut parts = tree.lines.iter().filter_map(|line| match &line.content {
        Content::Part { name, .. } => Some(name),
        _ => None,
    });
    let lists = |name: &Name| {
        lines.iter().any(|line| matches!(&line.content, Content::Ingredient(line) if line.name.same(name)))
    };
    let draws = parts.any(lists);
    if draws { None } else { kilograms(lines) }
}

/// What all lines of a file weigh together at most, in kilograms; `None` where that is not known.
fn kilograms(lines: &[Line]) -> Option<Number> {
    if lines.iter().any(|line| matches!(line.content, Content::PerPiece(_))) {
        return None;
    }
    let mut all = Number::ZERO;
    let mut in_percent = false;
    for line in lines {
        let Content::Ingredient(line) = &line.content else { continue };
        let Amount::Chain(chain) = &line.amount else { continue };
        let grams = match value(chain.first()?) {
            Some(Value::Mass(mass)) => mass.value(),
            Some(Value::Volume(volume)) => volume.value(),
            // An egg, an onion, a cabbage.
            Some(Value::Count(count)) => count.value().times(Number::whole(100)).ok()?,
            Some(Value::Proportion(_)) => {
                in_percent = true;
                continue;
            }
            // Cups of a country that is not asked for here.
            None => chain.first()?.terms.first()?.number.value.times(Number::whole(250)).ok()?,
            _ => continue,
        };
        all = all.plus(grams).ok()?;
    }
    // What is told in percent comes to twice what it is told of, or less.
    let all = if in_percent { all.times(Number::whole(3)).ok()? } else { all };
    all.over(Number::whole(1000)).ok().filter(|all| all.is_positive())
}
