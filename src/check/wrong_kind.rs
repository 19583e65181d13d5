//! `wrong-kind`: an amount of the wrong kind: a weight where a time is wanted, a range where one amount is computed with.

use super::{Check, Family, Run};
use crate::language::syntax::{Content, Name, StepClause, Tree};
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
    let heat = heat.to_lowercase();
    let mark = heat.strip_prefix("gas mark ").or_else(|| heat.strip_prefix("gas "));
    let mark = mark.map(|mark| mark.trim().parse::<i64>());
    let marks = 1..=10;
    match mark {
        // Mark 1 is 275 °F, and each further one 25 °F more (GNU units 2.22, gas mark).
        Some(Ok(mark)) if marks.contains(&mark) => {
            let heat = format!("{} F", 275 + 25 * (mark - 1));
            Some(
                problem
                    .help(format!("gas {mark} is {heat}: write `{equipment} at {heat}`"))
                    .suggest(format!("write `{heat}`"), name.span, format!("{equipment} at {heat}")),
            )
        }
        _ => Some(problem.help(IN_DEGREES)),
    }
}

/// `oven 220 C`, `oven 220C`, `oven gas 7`: the degrees would be part of the name, and no check could look at them.
fn heat_without_at(name: &Name) -> Option<Diagnostic> {
    let is_degrees = |word: &str| {
        let figure = word.trim_end_matches(['C', 'F', 'c', 'f']).trim_end_matches(['°', 'º']);
        figure.len() < word.len() && !figure.is_empty() && figure.bytes().all(|byte| byte.is_ascii_digit())
    };
    let (before, last) = name.text.rsplit_once(char::is_whitespace)?;
    let (equipment, heat) = match before.rsplit_once(char::is_whitespace) {
        // A letter behind a number is a degree, but `deck 2 F` may be a name: ovens begin at 30 °C.
        Some((equipment, figure)) if is_degrees(&format!("{figure}{last}")) => {
            (equipment, name.text.get(equipment.len()..)?)
        }
        Some((equipment, gas)) if gas.eq_ignore_ascii_case("gas") && last.parse::<u8>().is_ok() => {
            (equipment, name.text.get(equipment.len()..)?)
        }
        _ if is_degrees(last) => (before, last),
        _ => return None,
    };
    let heat = heat.trim();
    let figure: i64 = heat.chars().filter(char::is_ascii_digit).collect::<String>().parse().ok()?;
    if !heat.to_lowercase().starts_with("gas") && figure < 30 {
        return None;
    }
    let problem = Diagnostic::error(CHECK.name, name.span, format!("`{heat}` is read as part of the equipment's name"));
    let meant = format!("{equipment} at {heat}");
    Some(problem.help(format!("write `using {meant}`")).suggest("put `at` before it", name.span, meant))
}

const IN_DEGREES: &str = "write it in degrees, `oven at 230 C` or `oven at 450 F`";
