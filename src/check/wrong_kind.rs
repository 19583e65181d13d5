//! `wrong-kind`: an amount of the wrong kind: a weight where a time is wanted, a range where one amount is computed with.

use super::{Check, Family, Run};
use crate::language::in_words;
use crate::language::syntax::{Content, Name, StepClause, Tree};
use crate::measure::number::Number;
use crate::measure::unit::Dimension;
use crate::model::cooking::has_word_beginning;
use crate::text::diagnostic::{Diagnostic, Severity};

/// The check and its explanation; most of its problems are found while a file is read and bound.
pub(super) const CHECK: Check = Check {
    name: "wrong-kind",
    severity: Severity::Error,
    family: Family::Writing,
    looks_for: "an amount of the wrong kind: a weight where a time is wanted, a range where one amount is computed \
        with",
    why: "A mass is not a time, a percentage is not a temperature, and neither is `gas 8` or `very hot`. Where the language wants one kind of \
        amount, another is a slip of the pen.",
    bad: r#"recipe Rolls
flour .... 500 g
mix: hands 10 g
    Mix {flour}.
"#,
    good: r#"recipe Rolls
flour .... 500 g
mix: hands 10 min
    Mix {flour}.
"#,
    sources: &[],
    run: Run::Tree(run),
};

fn run(tree: &Tree, diagnostics: &mut Vec<Diagnostic>) {
    for line in &tree.lines {
        let Content::Step(step) = &line.content else { continue };
        for clause in &step.clauses {
            if let StepClause::Using(name, at, _) = &clause.value
                && at.is_empty()
            {
                diagnostics.extend(heat_in_words(name));
            }
        }
    }
}

/// `oven at gas 8`, `oven at very hot`: heat in words, read as part of the equipment's name; and `oven 220 C`, where `at` is missing.
fn heat_in_words(name: &Name) -> Option<Diagnostic> {
    let Some((equipment, heat)) = name.text.split_once(" at ") else { return heat_without_at(name) };
    let problem = Diagnostic::error(CHECK.name, name.span, format!("`{heat}` is no temperature"));
    Some(match gas_mark(heat) {
        Some(mark) => by_mark(problem, name, equipment, mark),
        None => problem.help(IN_DEGREES),
    })
}

/// `gas 7`, `gas mark 7`.
fn gas_mark(heat: &str) -> Option<i64> {
    let heat = heat.to_lowercase();
    let mark = heat.strip_prefix("gas mark ").or_else(|| heat.strip_prefix("gas "))?;
    mark.trim().parse().ok().filter(|mark| (1..=10).contains(mark))
}

/// Mark 1 is 275 °F, and each further one 25 °F more (GNU units 2.22, gas mark).
fn by_mark(problem: Diagnostic, name: &Name, equipment: &str, mark: i64) -> Diagnostic {
    let heat = format!("{} F", 275 + 25 * (mark - 1));
    problem.help(format!("gas {mark} is {heat}: write `{equipment} at {heat}`")).suggest(
        format!("write `{heat}`"),
        name.span,
        format!("{equipment} at {heat}"),
    )
}

/// Nothing is baked below so many degrees: `deck 2 F` may be a name.
const WARM: i64 = 30;
/// What a bare number behind an oven's name is from so many on.
const HOT: i64 = 100;

/// `oven 220 C`, `oven (220C)`, `oven gas mark 7`, `oven 220`: the degrees would be part of the name, and no check could look at them.
fn heat_without_at(name: &Name) -> Option<Diagnostic> {
    let text = name.text.as_ref();
    if let Some(equipment) = without_heat(text) {
        let problem =
            Diagnostic::error(CHECK.name, name.span, format!("no temperature stands behind `{equipment} at`"));
        return Some(problem.help(format!("write it, `using {equipment} at 220 C`, or leave `at` out")));
    }
    let read_as_name = |heat: &str| {
        let message = format!("`{}` is read as part of the equipment's name", heat.trim());
        Diagnostic::error(CHECK.name, name.span, message)
    };
    let place = |from: &str| from.as_ptr().addr() - text.as_ptr().addr();
    let gas = text
        .split_whitespace()
        .find(|word| word.eq_ignore_ascii_case("gas"))
        .map(place)
        .and_then(|at| text.split_at_checked(at));
    if let Some((equipment, heat)) = gas
        && let Some(mark) = gas_mark(heat)
    {
        return Some(by_mark(read_as_name(heat), name, equipment.trim(), mark));
    }
    let degrees = in_words::amount(text).filter(|found| {
        let number = found.said.value.number();
        found.unit.dimension() == Dimension::Temperature && number >= Number::whole(WARM)
    });
    if let Some(found) = degrees {
        let equipment = text.get(..found.at.start)?.trim_end_matches([' ', '(', '@', ',', '-']);
        let problem = read_as_name(text.get(found.at.clone())?);
        let meant = format!("{equipment} at {}", found.written);
        return Some(match equipment.is_empty() {
            true => problem.help(IN_DEGREES),
            false => problem.help(format!("write `using {meant}`")).suggest("put `at` before it", name.span, meant),
        });
    }
    // Behind an oven a number of degrees that says no unit is one all the same.
    let bare = text.trim_end_matches(" degrees").trim_end_matches(['°', 'º', ' ', ')']);
    let (equipment, figure) = bare.rsplit_once([' ', '('])?;
    let is_hot = figure.parse::<i64>().is_ok_and(|degrees| degrees >= HOT);
    let is_oven = has_word_beginning(name.key.as_str(), ["oven"]);
    (is_hot && is_oven).then(|| {
        let equipment = equipment.trim_end_matches([' ', '(', '@']);
        read_as_name(figure).help(format!("write `using {equipment} at {figure} C`, or `F`"))
    })
}

/// What `at` stands behind, where nothing stands behind it.
fn without_heat(text: &str) -> Option<&str> {
    let (equipment, last) = text.rsplit_once(' ')?;
    last.eq_ignore_ascii_case("at").then_some(equipment)
}

const IN_DEGREES: &str = "write it in degrees, `oven at 230 C` or `oven at 450 F`";
