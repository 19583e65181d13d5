//! A bake that nobody has filled in yet: a line for everything that a log can hold, in the order of the work.

use super::claims::mix_step;
use crate::figures::card::{self, Timeline};
use crate::language::syntax::{HeatOf, Key};
use crate::language::tidy::leader;
use crate::make::batch::Batch;
use crate::make::loads;
use crate::make::went_in::Usual;
use crate::measure::noun::agreeing;
use crate::measure::number::Number;
use crate::measure::quantity::{Count, Mass};
use crate::measure::show::{self, Units};
use crate::model::recipe::{HeadMakes, Refers};
use crate::model::step::Loads;
use crate::solve::formula::SolvedLine;

/// More loads of a step than these get no line each.
const MOST_LOADS: i64 = 12;
/// What is judged where no bake before says it.
const JUDGED: [&str; 3] = ["crust", "crumb", "taste"];

/// A bake to fill in.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Blank {
    /// The recipe's name.
    pub recipe: String,
    /// How much is made, as it stands behind the date: `48 rolls, choose hand`.
    pub size: String,
    /// Its lines.
    pub lines: Vec<Line>,
}

/// One line to fill in.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Line {
    /// What it is about.
    pub of: Of,
    /// What it begins with in a log.
    pub begins: String,
    /// What is expected, in words.
    pub expected: String,
}

/// What a line to fill in is about, which says what can be written behind it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Of {
    /// Who.
    By,
    /// A temperature of the day.
    Heat,
    /// What went in, and how warm.
    WentIn,
    /// When a step began and ended; whether what it leaves is weighed, and whether its heat is measured.
    Step {
        /// Whether the dough's temperature belongs behind it.
        is_mix: bool,
        /// Whether a weight belongs behind it.
        is_weighed: bool,
    },
    /// A judgement.
    Judged,
    /// A note.
    Note,
    /// The verdict.
    Verdict,
}

/// The bake of a batch, to fill in; `judged` are the names that bakes before were judged by.
pub fn of(batch: &Batch, judged: &[String]) -> Blank {
    let (recipe, formula) = (&batch.recipe, &batch.formula);
    let mut lines = Vec::new();
    let mut line = |of: Of, begins: String, expected: String| lines.push(Line { of, begins, expected });
    line(Of::By, "by".to_owned(), String::new());
    let ferments = recipe.parts().any(|(id, _)| recipe.preferments(id).next().is_some());
    for heat in HeatOf::ALL.into_iter().filter(|heat| *heat != HeatOf::Preferment || ferments) {
        line(Of::Heat, heat.words().to_owned(), String::new());
    }
    let card = card::of_batch_by(batch, Timeline::default(), Units::Metric).ok();
    let parts: Vec<_> = formula.made(recipe).filter(|(_, part)| part.foreign.is_none()).collect();
    let is_shared = |key: &Key, own: usize| {
        parts.iter().any(|(id, part)| {
            id.0 != own
                && (part.lines.iter().any(|line| line.name.key == *key)
                    || part.steps.iter().any(|step| step.name.key == *key))
        })
    };
    for (id, part) in &parts {
        let Some(solved) = formula.part(*id) else { continue };
        let named = |name: &crate::language::syntax::Name| {
            if is_shared(&name.key, id.0) { format!("{name} of {}", part.name) } else { name.to_string() }
        };
        for (at, (written, amount)) in part.lines.iter().zip(&solved.lines).enumerate() {
            if matches!(written.refers, Refers::Part(_)) || amount.left_out || is_all_taken(amount) {
                continue;
            }
            // As the card has it weighed, whose figures are ticked off against: in a dough without what its preferments took.
            let usual = Usual::of(formula, (*id, at)).ok().flatten();
            let printed = card.iter().flat_map(|card| &card.parts).find(|part| part.id == *id);
            let printed =
                printed.and_then(|part| part.lines.iter().find(|line| *line.ingredient == *written.name.text));
            let mass =
                usual.map(|usual| match printed.map(|line| &line.final_mix_shown).filter(|shown| !shown.is_empty()) {
                    Some(shown) => shown.to_string(),
                    None => show::mass_plain(usual.bench).to_string(),
                });
            line(Of::WentIn, leader(&named(&written.name)).trim_end().to_owned(), mass.unwrap_or_default());
        }
        let mix = mix_step(recipe, part);
        for (at, step) in part.steps.iter().enumerate() {
            let count = loads::count((recipe, *id), solved, formula, at, &recipe.kitchen).unwrap_or(1);
            let is_oven = step.temperature.is_some_and(|(low, _)| low.celsius() >= Number::whole(100));
            let is_mix = mix == Some(at);
            let of = Of::Step { is_mix, is_weighed: is_oven || step.loads.is_by_piece() };
            let time = show::duration_range(step.time.0, step.time.1).to_string();
            let each = if step.loads.is_by_piece() { " a piece" } else { "" };
            let desired = part.desired_temperature.filter(|_| is_mix);
            let desired = desired.map_or_else(String::new, |at| format!(", {} °C", at.celsius().decimal(1)));
            let heat = step.temperature.filter(|_| is_oven);
            let heat = heat.map_or_else(String::new, |(at, _)| format!(", {} °C", at.celsius().decimal(0)));
            let expected = format!("{time}{each}{desired}{heat}");
            if step.loads != Loads::Each && (2..=MOST_LOADS).contains(&count) {
                for load in 1..=count {
                    line(of, format!("{}: load {load}", named(&step.name)), expected.clone());
                }
            } else {
                line(of, format!("{}:", named(&step.name)), expected);
            }
        }
    }
    let usual = JUDGED.map(str::to_owned);
    for name in if judged.is_empty() { &usual[..] } else { judged } {
        line(Of::Judged, format!("{name}:"), "of 5".to_owned());
    }
    line(Of::Note, "note".to_owned(), String::new());
    line(Of::Verdict, "verdict".to_owned(), "keep, change or drop".to_owned());
    let pieces = formula.pieces.map(Count::value);
    let mut size = match (pieces, &recipe.makes) {
        (Some(pieces), Some(HeadMakes::Pieces { noun, .. })) => {
            format!("{} {}", show::number(pieces), agreeing(pieces, &noun.text))
        }
        _ => format!("x {}", show::number(batch.factor)),
    };
    for choice in &recipe.choices {
        let taken = recipe.selection.of(&choice.name.key);
        let option = choice.options.iter().find(|option| Some(&option.key) == taken);
        // The default is followed where nothing is said.
        if let Some(option) = option.filter(|option| choice.options.first() != Some(option)) {
            size = format!("{size}, choose {option}");
        }
    }
    Blank { recipe: recipe.name.to_string(), size, lines }
}

/// Whether preferments took all of a line, so that nothing of it is weighed for the final mix.
fn is_all_taken(amount: &SolvedLine) -> bool {
    amount.final_mix != amount.mass && amount.final_mix.is_some_and(|left| left <= Mass::ZERO)
}

/// The bake as it stands in a log, with what is expected behind each line as a comment.
pub fn text(blank: &Blank, begins: &str) -> String {
    let mut text = format!("bake {begins}, {}\n", blank.size);
    for line in &blank.lines {
        let expected = match line.of {
            Of::Judged | Of::Verdict => "",
            _ => line.expected.as_str(),
        };
        text.push_str(&line.begins);
        if !expected.is_empty() {
            let blanks = 53_usize.saturating_sub(line.begins.chars().count()).max(2);
            text.push_str(&" ".repeat(blanks));
            text.push_str("# ");
            text.push_str(expected);
        }
        text.push('\n');
    }
    text
}
